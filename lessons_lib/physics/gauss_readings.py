"""Gauss readings over a rod magnet, turned into how strong it is and how much flux passes through its middle."""
import numpy as np
from scipy.stats import chi2

from lessons_lib.base.checks import from_zero, refuse
from lessons_lib.base.materials import magnet_grade
from lessons_lib.physics.adjustment import adjust, columns_of_one_length
from lessons_lib.physics.alnico_rod import AlnicoRod
from lessons_lib.physics.magnets import RodMagnet

_STAND_OFF = 0.5e-3     # m, where the search begins
_CONTRADICTED = 1e-3    # chance below which residuals as large as these speak against what was put in


def rod_of_strength_one(*, diameter, length, grade=None, recoil_permeability=None):
    """The rod whose field, times one number, `fit_gauss_readings` lays through the readings.

    Parameters
    ----------
    diameter, length : float, m
    grade, recoil_permeability
        As in `fit_gauss_readings`.

    Returns
    -------
    AlnicoRod or RodMagnet
        Alnico on the curve of its grade; every other magnet on a line with a remanence of 1 T.

    Examples
    --------
    >>> rod_of_strength_one(diameter=5e-3, length=17e-3, grade="ferrite").recoil_permeability
    1.07
    """
    if grade is not None and recoil_permeability is not None:
        refuse("recoil_permeability", f"left out where a grade is given: {grade} has its own", recoil_permeability)
    if grade is not None and magnet_grade(grade).name.startswith("alnico"):
        return AlnicoRod(grade=magnet_grade(grade), diameter=diameter, length=length)
    if grade is not None:
        recoil_permeability = float(magnet_grade(grade).recoil_permeability)
    return RodMagnet(diameter=diameter, length=length, remanence=1.0,
                     recoil_permeability=1.0 if recoil_permeability is None else recoil_permeability)


def fit_gauss_readings(distance, flux_density, *, diameter, length, grade=None, recoil_permeability=None,
                       uncertainty=None, meter_zero=False):
    """How strong a rod magnet is, and how far inside the probe its sensitive spot is.

    Parameters
    ----------
    distance : array_like, shape (n,), m
        From the rod's face to the tip of the probe, on the rod's axis; zero or above.
    flux_density : array_like, shape (n,), T
        The readings, all of one sign as a rule; negative over a south pole.
    diameter, length : float, m
    grade : str, optional
        One of `lessons_lib.base.materials.ROD_GRADES`: an alnico is on its demagnetising curve (`AlnicoRod`), ferrite
        and neodymium on their recoil line.
    recoil_permeability : float, optional
        Without a grade: of the rod's line; 1, a uniformly magnetised rod, unless given.
    uncertainty : float or array_like of shape (n,), T, optional
        One sigma; without it the same percentage of all readings.
    meter_zero : bool
        Whether what the meter shows without a field is a third unknown.

    Returns
    -------
    Fit
        ``"remanence"`` (T, of the line), for an alnico grade ``"strength"`` instead; ``"stand_off"`` (m); where asked
        for, ``"meter_zero"`` (T); ``"flux"`` (Wb) through the middle of the rod. A strength of 0.9 is the field of a
        rod whose curve has 0.9 of the grade's B at 0.9 of its H.

    Raises
    ------
    ValueError
        For columns of different length, fewer than three readings (two with an uncertainty), a recoil permeability
        beside a grade.

    Notes
    -----
    The two are told apart by the shape of the curve, and move together (see ``correlation``): readings from the face to
    twice the diameter at least. Readings nearer than half the diameter give a rod's recoil permeability too (3.6 give
    or take 0.3, one sigma, from 12 of 1.5 %); over a real alnico 5 rod it comes out as 11.6, because the curve is bent.
    Of an alnico's curve the readings tell one number. For alnico 5 (5 x 17 mm) it is hardly the remanence: one that is
    1 % higher raises field and flux by 0.0 to 0.15 %, a coercivity 1 % higher by 0.85 to 1 % (alnico 2 and 3: 0.3 to
    0.5 and 0.5 to 0.7; alnico 8: 0.5 to 0.8 and 0.2 to 0.5). So the flux is given, which stays right within 1 % over a
    grade's spread, and no remanence. The permeability across the axis is in no data sheet; 6 in place of 3.6 moves the
    flux by 0.5 %. A meter's zero of 1 mT moves strength and flux by 3 % (readings to 5 mm) to 52 % (to 20 mm), and only
    the farther readings show it. Set the meter to zero far from the rod, or make it an unknown, which needs readings to
    twice the diameter or more. Left out: a probe off the axis or tilted, steel nearby.

    Examples
    --------
    >>> distance = np.array([0.0, 1e-3, 2e-3, 4e-3, 8e-3])
    >>> rod = RodMagnet(diameter=5e-3, length=17e-3, remanence=0.7)
    >>> readings = rod.flux_density(np.stack([0 * distance, 0 * distance, distance + 0.5e-3], axis=-1))[:, 2]
    >>> fit = fit_gauss_readings(distance, readings, diameter=5e-3, length=17e-3)
    >>> round(fit["remanence"], 6), round(fit["stand_off"], 6), round(fit["flux"] / rod.midplane_flux(), 6)
    (0.7, 0.0005, 1.0)
    """
    distance, flux_density = columns_of_one_length(2, distance=distance, flux_density=flux_density)
    from_zero(distance=distance)
    rod = rod_of_strength_one(diameter=diameter, length=length, grade=grade, recoil_permeability=recoil_permeability)
    flux, on_curve = rod.midplane_flux(), isinstance(rod, AlnicoRod)

    def of_strength_one(stand_off):
        places = np.zeros((distance.size, 3))
        places[:, 2] = distance + stand_off
        return rod.flux_density(places)[:, 2]

    unit = of_strength_one(_STAND_OFF)
    unknowns = 3 if meter_zero else 2
    start = [unit @ flux_density / (unit @ unit), _STAND_OFF / diameter, 0.0][:unknowns]
    names = ("strength" if on_curve else "remanence", "stand_off", "meter_zero")[:unknowns]
    units = ("" if on_curve else "T", "m", "T")[:unknowns]
    return adjust(lambda p: p[0] * of_strength_one(p[1] * diameter) + sum(p[2:]), start, flux_density,
                  uncertainty=uncertainty, names=(*names, "flux"), units=(*units, "Wb"), order=np.argsort(distance),
                  quantities=lambda p: (p[0], p[1] * diameter, *p[2:], p[0] * flux))


def fit_stated_gauss_readings(distance, flux_density, *, diameter, length, grade, uncertainty):
    """`fit_gauss_readings` with a stated *uncertainty*, a share of each reading (one sigma), that is taken at its word.

    Readings over a south pole are turned over, so that the flux comes out as a magnitude. Raises ValueError, besides
    what the fit refuses, for residuals so large that chance would give them less than once in a thousand times.

    Examples
    --------
    >>> fit_stated_gauss_readings([0, 1e-3, 3e-3, 6e-3], [0.13, 0.05, 0.04, 0.02], diameter=5e-3, length=17e-3,
    ...                           grade="alnico 5", uncertainty=0.01)
    Traceback (most recent call last):
        ...
    ValueError: The residuals are 31 times as large as stated. Is the rod of this kind, the meter's zero right, and \
are the distances? Or was the uncertainty stated too small?
    """
    flux_density = np.asarray(flux_density, dtype=float)
    fit = fit_gauss_readings(distance, flux_density * np.sign(flux_density.sum()), diameter=diameter, length=length,
                             grade=grade, uncertainty=uncertainty * np.abs(flux_density))
    freedom = fit.degrees_of_freedom
    if freedom and chi2.sf(fit.reduced_chi_square * freedom, freedom) < _CONTRADICTED:
        raise ValueError(f"The residuals are {np.sqrt(fit.reduced_chi_square):.2g} times as large as stated. Is the "
                         "rod of this kind, the meter's zero right, and are the distances? Or was the uncertainty "
                         "stated too small?")
    return fit
