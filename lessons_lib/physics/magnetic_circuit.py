"""Ohm's law for magnetic circuits, and the working point of a magnet on its demagnetising curve."""
from dataclasses import dataclass

import numpy as np
from scipy.constants import mu_0

from lessons_lib.base.checks import finite, finite_array, positive, positive_number, refuse


def reluctance(*, length, area, relative_permeability=1.0):
    """Reluctance of a straight path of constant section.

    Parameters
    ----------
    length : float
        m.
    area : float
        m2.
    relative_permeability : float
        1 for air; for a magnet its recoil permeability.

    Returns
    -------
    float
        A/Wb: length / (mu0 relative_permeability area).

    Raises
    ------
    TypeError, ValueError
        For a value that is not a positive number.

    Notes
    -----
    The flux is taken as spread evenly over the area, and nothing leaves by the side.

    Examples
    --------
    >>> round(reluctance(length=mu_0, area=1.0), 12)
    1.0
    """
    positive(length=length, area=area, relative_permeability=relative_permeability)
    return length / (mu_0 * relative_permeability * area)


def air_reluctance(*, length, area, demagnetising_factor):
    """Reluctance of all the air round a magnet, as one branch from pole to pole.

    Parameters
    ----------
    length, area : float
        Of the magnet, m and m2.
    demagnetising_factor : float
        Between 0 and 1. With the factor of the mid-plane (`RodMagnet.fluxmetric_factor`) the circuit gives the flux
        through the middle; with that of the volume (`RodMagnet.magnetometric_factor`) the mean over the length.

    Returns
    -------
    float
        A/Wb: N length / (mu0 area (1 - N)).

    Notes
    -----
    For recoil permeability 1 this gives the flux of the field solution by definition; for 3.6 it is 4 % high (rod of
    5 x 17 mm, tests/test_magnetic_circuit.py). The two factors differ threefold for such a rod.

    Examples
    --------
    >>> round(air_reluctance(length=mu_0, area=1.0, demagnetising_factor=0.5), 12)
    1.0
    """
    positive(length=length, area=area, demagnetising_factor=demagnetising_factor)
    if demagnetising_factor >= 1:
        refuse("demagnetising_factor", "below 1", demagnetising_factor)
    return demagnetising_factor * length / (mu_0 * area * (1 - demagnetising_factor))


def in_series(*reluctances):
    """Reluctance (A/Wb) of paths one after the other: they carry the same flux.

    Examples
    --------
    >>> in_series(1.0, 2.0)
    3.0
    """
    _check_paths(reluctances)
    return sum(reluctances)


def in_parallel(*reluctances):
    """Reluctance (A/Wb) of paths side by side: they share the flux.

    Examples
    --------
    >>> in_parallel(2.0, 2.0)
    1.0
    """
    _check_paths(reluctances)
    return 1 / sum(1 / value for value in reluctances)


def _check_paths(reluctances):
    if not reluctances:
        refuse("reluctances", "one value or more", reluctances)
    for number, value in enumerate(reluctances, start=1):
        positive_number(f"reluctance {number}", value)


@dataclass(frozen=True, kw_only=True)
class Branch:
    """A path from one named node to another: reluctance (A/Wb) and mmf (A), which drives flux from start to end."""

    name: str
    start: str
    end: str
    reluctance: float
    mmf: float = 0.0

    def __post_init__(self):
        positive(reluctance=self.reluctance)
        finite(mmf=self.mmf)
        if self.start == self.end:
            refuse("end", f"another node than the start of branch {self.name!r}", self.end)


class MagneticCircuit:
    """Any network of reluctances and magnetomotive forces.

    Parameters
    ----------
    branches : sequence of Branch
    reference : str, optional
        Node of potential zero; the start of the first branch unless given.

    Raises
    ------
    ValueError
        For two branches of one name, an unknown reference, a part that no branch joins to the rest, no branch at all.

    Notes
    -----
    Nodal analysis: at each node the fluxes add up to zero. The analogy ends at energy (a steady flux heats nothing), at
    insulation (air carries flux: leakage needs branches of its own) and at straight lines (iron saturates).

    Examples
    --------
    >>> circuit = MagneticCircuit([Branch(name="magnet", start="south", end="north", reluctance=3.0, mmf=8.0),
    ...                            Branch(name="air", start="north", end="south", reluctance=1.0)])
    >>> round(circuit.solve().flux["air"], 12)
    2.0
    """

    def __init__(self, branches, reference=None):
        self.branches = tuple(branches)
        if not self.branches or not all(isinstance(branch, Branch) for branch in self.branches):
            refuse("branches", "one Branch or more", self.branches)
        names = [branch.name for branch in self.branches]
        if twice := [name for name in names if names.count(name) > 1]:
            refuse("branches", "of different names", twice[0])
        self.nodes = tuple(dict.fromkeys(node for branch in self.branches for node in (branch.start, branch.end)))
        self.reference = self.nodes[0] if reference is None else reference
        if self.reference not in self.nodes:
            refuse("reference", "one of " + ", ".join(map(repr, self.nodes)), reference)
        joined, pairs = {self.reference}, [{branch.start, branch.end} for branch in self.branches]
        for _ in self.nodes:
            joined = joined.union(*(pair for pair in pairs if pair & joined))
        if floating := [node for node in self.nodes if node not in joined]:
            refuse("branches", f"joined to {self.reference!r}", "floating nodes " + ", ".join(map(repr, floating)))

    def solve(self):
        """All fluxes and potentials, as a `CircuitSolution`."""
        incidence = np.array([[(branch.start == node) - (branch.end == node) for node in self.nodes]
                              for branch in self.branches], dtype=float)
        permeance = np.array([1 / branch.reluctance for branch in self.branches])
        mmf = np.array([branch.mmf for branch in self.branches], dtype=float)
        free = np.array([node != self.reference for node in self.nodes])
        A = incidence[:, free]
        potential = np.zeros(len(self.nodes))
        potential[free] = np.linalg.solve(A.T @ (permeance[:, None] * A), -A.T @ (permeance * mmf))
        flux = permeance * (incidence @ potential + mmf)
        return CircuitSolution(flux=_Named("branch", (branch.name for branch in self.branches), flux),
                               potential=_Named("node", self.nodes, potential))


class _Named(dict):
    """Values by name; an unknown name is told the known ones."""

    def __init__(self, kind, names, values):
        super().__init__(zip(names, map(float, values)))
        self._kind = kind

    def __missing__(self, name):
        raise KeyError(f"{self._kind} must be one of {', '.join(map(repr, self))}; got {name!r}.")


@dataclass(frozen=True, kw_only=True)
class CircuitSolution:
    """flux of every branch (Wb, positive from start to end) and potential of every node (A), by name."""

    flux: dict
    potential: dict


def curve_bulge(grade):
    """The hyperbola's a, from the fullness of the curve: 0 for a straight line, nearly 1 for a rectangle."""
    if not hasattr(grade, "energy_product"):
        raise TypeError(f"grade must be a record from magnet_grade(name); got {grade!r}.")
    fullness = grade.energy_product / (grade.remanence * grade.coercivity)
    return float((2 * np.sqrt(fullness) - 1) / fullness)


def demagnetising_curve(grade, field_strength):
    """Flux density on the demagnetising curve of a magnet material.

    Parameters
    ----------
    grade : MagnetGrade
        From `magnet_grade(name)`.
    field_strength : array_like
        H in the material, A/m, from minus the coercivity to 0.

    Returns
    -------
    ndarray
        T.

    Notes
    -----
    Rectangular hyperbola through remanence and coercivity whose largest -B H is the grade's energy product. A textbook
    curve: a real one differs from melt to melt by the grade's spread.

    Examples
    --------
    >>> from lessons_lib.base.materials import magnet_grade
    >>> float(demagnetising_curve(magnet_grade("alnico 5"), 0.0))    # the remanence
    1.28
    """
    a, H = curve_bulge(grade), finite_array(field_strength=field_strength)
    outside = (H > 0) | (H < -grade.coercivity)
    if outside.any():
        refuse("field_strength", f"from {-grade.coercivity:g} A/m to 0", float(H[outside].flat[0]))
    return grade.remanence * (grade.coercivity + H) / (grade.coercivity + a * H)


def working_point(grade, *, permeance_coefficient):
    """Where the load line meets the demagnetising curve.

    Parameters
    ----------
    grade : MagnetGrade
        From `magnet_grade(name)`.
    permeance_coefficient : float
        -B / (mu0 H) of the load line; for a free rod (1 - N) / N with its demagnetising factor N. The mean over the
        volume takes `RodMagnet.magnetometric_factor`, the middle `RodMagnet.fluxmetric_factor`: a factor 3 apart.

    Returns
    -------
    B, H : float
        T and A/m; H is negative.

    Notes
    -----
    A free rod is not magnetised uniformly, so one point does not serve everywhere in it.

    Examples
    --------
    >>> from lessons_lib.base.materials import magnet_grade
    >>> B, H = working_point(magnet_grade("alnico 5"), permeance_coefficient=7.76)
    >>> round(B, 2), round(H / 1e3)
    (0.48, -50)
    """
    a = curve_bulge(grade)
    positive(permeance_coefficient=permeance_coefficient)
    slope, product = mu_0 * permeance_coefficient, grade.remanence * grade.coercivity
    total = slope * grade.coercivity + grade.remanence
    size = 2 * product / (total + np.sqrt(total ** 2 - 4 * a * slope * product))
    return float(slope * size), float(-size)
