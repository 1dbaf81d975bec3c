"""Short formulas for the reluctance of paths round rods, where no exact solution is at hand."""
import numpy as np
from scipy.constants import mu_0, pi

from lessons_lib.base.checks import positive, refuse


def free_rod_reluctance(*, diameter, length):
    """Reluctance of all the air round a free rod, from the half of its surface that is one pole to the other half.

    Parameters
    ----------
    diameter, length : float
        m.

    Returns
    -------
    float
        A/Wb: 1 / (mu0 sqrt(pi S)), S the surface of half the rod, its end face included.

    Notes
    -----
    A rule of magnet designers, from memory, common practice. Against the reluctance from the mid-plane factor
    (`air_reluctance`) it is 1 % low at a length of 1.33 diameters, 8 % high at 2, 32 % at 3.4, 57 % at 5, and so rises.
    Which average a magnet's air is defined by matters more than that: see `air_reluctance`.

    Examples
    --------
    >>> rod = {"diameter": 5e-3, "length": 17e-3}
    >>> twice = {"diameter": 10e-3, "length": 34e-3}
    >>> round(free_rod_reluctance(**rod) / free_rod_reluctance(**twice), 9)    # goes with one over the size
    2.0
    """
    positive(diameter=diameter, length=length)
    surface = pi * diameter ** 2 / 4 + pi * diameter * length / 2
    return float(1 / (mu_0 * np.sqrt(pi * surface)))


def round_edge_reluctance(*, diameter):
    """Reluctance (A/Wb) from the edge of a round face to a plate that faces it, by quarter circles.

    1 / (0.52 mu0 pi diameter), whatever the gap; diameter of the face, m. H. C. Roters, Electromagnetic Devices (Wiley
    1941), chapter V: quarter cylinder, 0.52 mu0 a metre of edge. Holds for a gap that is small beside the diameter; a
    face that sends its flux to far away has 1 / (2 mu0 diameter), 18 % less.

    Examples
    --------
    >>> round(mu_0 * round_edge_reluctance(diameter=1 / pi), 3)
    1.923
    """
    positive(diameter=diameter)
    return 1 / (0.52 * mu_0 * pi * diameter)


def wall_to_plate_reluctance(*, diameter, near, far):
    """Reluctance from a strip of a rod's wall to the plate that faces its end, by quarter circles.

    Parameters
    ----------
    diameter : float
        Of the rod, m.
    near, far : float
        Distances of the two edges of the strip from the plate, m: the radii of the quarter circles.

    Returns
    -------
    float
        A/Wb.

    Raises
    ------
    ValueError
        If far is not above near.

    Notes
    -----
    Roters, as above: quarter hollow cylinder, (2 mu0 / pi) ln(far / near) a metre of edge. Exact for a long straight
    edge; that the circles spread out round a thin rod is left out.

    Examples
    --------
    >>> round(mu_0 * wall_to_plate_reluctance(diameter=0.5, near=1.0, far=np.e), 12)
    1.0
    """
    positive(diameter=diameter, near=near, far=far)
    if far <= near:
        refuse("far", f"above near, {near:g} m", far)
    return float(1 / (2 * mu_0 * diameter * np.log(far / near)))


def ring_reluctance(*, inner_diameter, outer_diameter, thickness, relative_permeability=1.0):
    """Reluctance of a ring or a round plate that the flux crosses from its inner edge to its outer edge.

    Parameters
    ----------
    inner_diameter, outer_diameter, thickness : float
        m; thickness along the axis.
    relative_permeability : float

    Returns
    -------
    float
        A/Wb: ln(outer / inner) / (2 pi mu0 mu_r thickness). Exact where nothing leaves by the flat sides.

    Raises
    ------
    ValueError
        If outer_diameter is not above inner_diameter.

    Examples
    --------
    >>> round(mu_0 * ring_reluctance(inner_diameter=1.0, outer_diameter=np.e, thickness=1 / (2 * pi)), 12)
    1.0
    """
    positive(inner_diameter=inner_diameter, outer_diameter=outer_diameter, thickness=thickness,
             relative_permeability=relative_permeability)
    if outer_diameter <= inner_diameter:
        refuse("outer_diameter", f"above inner_diameter, {inner_diameter:g} m", outer_diameter)
    return float(np.log(outer_diameter / inner_diameter) / (2 * pi * mu_0 * relative_permeability * thickness))


def two_ways(first, second):
    """Reluctance of two ways that take their flux from the same surface and so hinder each other.

    Parameters
    ----------
    first, second : float
        A/Wb, of each way if there were no other.

    Returns
    -------
    float
        A/Wb: the permeance is the root of the sum of both permeances' squares.

    Notes
    -----
    An interpolation of this project's own. Each way alone is a lower bound of the permeance, `in_parallel`, as if both
    had the surface to themselves, is above it; the root lies between and goes over to the better way at both ends.

    Examples
    --------
    >>> round(two_ways(1 / 3, 1 / 4), 12)
    0.2
    """
    positive(first=first, second=second)
    return float(1 / np.hypot(1 / first, 1 / second))
