"""The plain functions behind the panels of lesson 2: SI numbers in, small records and arrays out.

For each panel one function gives what the read-outs say and one what the picture takes.
"""
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise

import numpy as np
from scipy.constants import mu_0, pi

from lessons_lib.base.materials import magnet_grade, steel
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.rod import circuit_and_field, flux_map
from lessons_lib.physics.air_paths import ring_reluctance, round_edge_reluctance, two_ways, wall_to_plate_reluctance
from lessons_lib.physics.magnetic_circuit import (
    Branch,
    MagneticCircuit,
    demagnetising_curve,
    in_series,
    reluctance,
    working_point,
)
from lessons_lib.physics.magnets import RodMagnet, recoil_magnet

H_LIMIT, B_LIMIT = 60e3, 1.6       # A/m and T: how far the chart of the load line goes


def circuit_and_map(both, **rod):
    """What FluxLines and MagnetLoop take."""
    return {"map": flux_map(**rod),
            "circuit": {"mmf": both.mmf, "own_reluctance": both.own_reluctance, "air_reluctance": both.air_reluctance,
                        "circuit_flux": both.circuit_flux, "field_flux": both.field_flux, "length": rod["length"]}}


@dataclass(frozen=True, kw_only=True)
class LoadLinePoint:
    """Working point b (T), h (A/m, negative); recoil_remanence (T) of the recoil line through it, None where that would
    end above the remanence; straight_b (T) on the straight line from B_r to H_c; rod_length (m) of an even rod as thick
    as the instrument's with this load line."""

    b: float
    h: float
    recoil_remanence: float | None
    straight_b: float
    rod_length: float

    @property
    def energy(self):
        """-B H, J/m3."""
        return -self.b * self.h


def _alnico(remanence, coercivity, energy_product):
    return replace(magnet_grade("alnico 5"), remanence=remanence, coercivity=coercivity, energy_product=energy_product)


@lru_cache
def _slendernesses():
    """ln(permeance coefficient) and ln(length / diameter) of even rods, by the mean over their volume: both rise."""
    ratios = np.geomspace(0.3, 40, 60)
    factors = np.array([RodMagnet(diameter=1e-3, length=ratio * 1e-3, remanence=1.0).magnetometric_factor()
                        for ratio in ratios])
    return np.log(1 / factors - 1), np.log(ratios)


def length_of_rod(permeance_coefficient, instrument=house_instrument):
    """Length (m) of an even rod as thick as the instrument's that has this permeance coefficient.

    Examples
    --------
    >>> round(length_of_rod(7.76) * 1e3)
    17
    """
    return instrument.magnet["diameter"] * float(np.exp(np.interp(np.log(permeance_coefficient), *_slendernesses())))


def load_line_point(*, permeance_coefficient, remanence, coercivity, energy_product, instrument=house_instrument):
    """Where a load line meets the curve of an alnico 5 with these data, as a LoadLinePoint.

    Examples
    --------
    >>> at_knee = load_line_point(permeance_coefficient=1.28 / (mu_0 * 51e3), remanence=1.28, coercivity=51e3,
    ...                           energy_product=43.8e3)
    >>> round(at_knee.energy), at_knee.straight_b
    (43800, 0.64)
    """
    grade = _alnico(remanence, coercivity, energy_product)
    b, h = working_point(grade, permeance_coefficient=permeance_coefficient)
    try:
        recoil_remanence, _ = recoil_magnet(grade, permeance_coefficient=permeance_coefficient)
    except ValueError:          # above the knee: the curve itself is flatter than a recoil line
        recoil_remanence = None
    return LoadLinePoint(b=b, h=h, recoil_remanence=recoil_remanence,
                         rod_length=length_of_rod(permeance_coefficient, instrument),
                         straight_b=1 / (1 / remanence + 1 / (mu_0 * permeance_coefficient * coercivity)))


def coefficient_of_rod(instrument):
    """Permeance coefficient of the instrument's rod alone, by its magnetometric factor, as a slider begins with it."""
    factor = instrument.rod.magnetometric_factor()
    return float(f"{(1 - factor) / factor:.3g}")


def load_line_curves(point, *, permeance_coefficient, remanence, coercivity, energy_product,
                     instrument=house_instrument):
    """What the rod and the chart of the load line take: curve, lines and points."""
    h = -coercivity * (1 - np.linspace(0, 1, 161) ** 2)      # close together where the curve is steep
    slope = -mu_0 * permeance_coefficient
    end = max(-H_LIMIT, 0.93 * B_LIMIT / slope)
    recoil = None if point.recoil_remanence is None else ([point.h, 0.0], [point.b, point.recoil_remanence])
    return {"rod": {"diameter": instrument.magnet["diameter"], "length": point.rod_length},
            "chart": {"curve": (h, demagnetising_curve(_alnico(remanence, coercivity, energy_product), h)),
                      "load": ([0.0, end], [0.0, slope * end]), "load end": (end, slope * end), "recoil": recoil,
                      "straight": ([-coercivity, 0.0], [0.0, remanence]),
                      "to axes": ([point.h, point.h, 0.0], [0.0, point.b, point.b]),
                      "straight point": (point.straight_b / slope, point.straight_b), "point": (point.h, point.b),
                      "words": {"load end": "load line"}}}


POT = {"thickness": 3e-3, "relative_permeability": float(steel("screw steel").relative_permeability)}
SLICES = 17     # of the rod, 1 mm each: its wall leaks all along, most near the top


@dataclass(frozen=True, kw_only=True)
class PotFlux:
    """The rod in a steel pot: reluctances (A/Wb) of the rod and of the gap; fluxes (Wb) through the middle of the
    rod, out of its face into the gap, into the gap if it were twice as wide, and in the rod without a pot."""

    own_reluctance: float
    gap_reluctance: float
    rod: float
    through_gap: float
    through_doubled_gap: float
    without_pot: float

    @property
    def past_gap(self):
        """Flux that leaves the upper half of the rod through its wall, Wb."""
        return self.rod - self.through_gap

    @property
    def doubling(self):
        """Change of the flux through the gap if the gap doubles, less than nothing."""
        return self.through_doubled_gap / self.through_gap - 1


def gap_reluctance(gap, instrument=house_instrument):
    """Reluctance (A/Wb) from the face of the rod to the lid: straight across, or round the edge."""
    diameter = instrument.magnet["diameter"]
    straight = reluctance(length=gap, area=pi * diameter ** 2 / 4)
    return two_ways(straight, round_edge_reluctance(diameter=diameter))


def pot_circuit(*, gap, pot_width, remanence, recoil_permeability, instrument=house_instrument):
    """The circuit of the instrument's rod in a steel pot with an air gap under the lid.

    Parameters
    ----------
    gap, pot_width : float
        Air between the rod's top face and the lid; inner diameter of the pot, m.
    remanence, recoil_permeability : float
        Of the rod's line, T and 1.

    Returns
    -------
    MagneticCircuit
        Branches "rod 1" to "rod 18" from the bottom (half slices at both ends), "leak 1" to "leak 17", "gap", "steel".

    Notes
    -----
    The rod is cut into slices, because its wall leaks all along. Every patch of its surface has two ways, each with a
    textbook formula: the face straight across the gap or round its edge, the wall in quarter circles to the lid or
    across to the pot. Nothing is fitted. Against finite elements (pots 15 to 30 mm wide, recoil permeability 1 to 5,
    gaps 0.1 to 20 mm): flux in the middle 4 % low to 1 % high, out of the face 11 % low to 13 % high; with the first
    values of the panel 0.5 % low and 6 % high (tests/test_panels_lesson_02.py). Left out: leakage outside the pot, and
    saturation (the steel carries 0.4 T at most).
    """
    diameter, length = instrument.magnet["diameter"], instrument.magnet["length"]
    thick, area = length / SLICES, pi * diameter ** 2 / 4
    field = remanence / (mu_0 * recoil_permeability)
    heights = np.array([0, *(np.arange(SLICES) + 0.5) * thick, length])     # where wall and face are joined on
    nodes = ["bottom", *(f"slice {n + 1}" for n in range(SLICES)), "top"]
    rod = [Branch(name=f"rod {n + 1}", start=low, end=high, mmf=field * part,
                  reluctance=reluctance(length=part, area=area, relative_permeability=recoil_permeability))
           for n, ((low, high), part) in enumerate(zip(pairwise(nodes), np.diff(heights)))]
    across = ring_reluctance(inner_diameter=diameter, outer_diameter=pot_width, thickness=thick)
    leaks = [Branch(name=f"leak {n + 1}", start=f"slice {n + 1}", end="pot",
                    reluctance=two_ways(across, wall_to_plate_reluctance(
                        diameter=diameter, near=gap + length - (n + 1) * thick, far=gap + length - n * thick)))
             for n in range(SLICES)]
    plate = ring_reluctance(inner_diameter=diameter, outer_diameter=pot_width, **POT)
    wall = reluctance(length=length + gap, relative_permeability=POT["relative_permeability"],
                      area=pi * POT["thickness"] * (pot_width + POT["thickness"]))
    return MagneticCircuit([
        *rod, *leaks, Branch(name="gap", start="top", end="pot", reluctance=gap_reluctance(gap, instrument)),
        Branch(name="steel", start="pot", end="bottom", reluctance=in_series(plate, wall, plate))])


@lru_cache(maxsize=1024)
def _unit_fluxes(gap, pot_width, recoil_permeability, instrument):
    """Flux in the middle of the rod and through the gap for a remanence of 1 T: both are in proportion to it."""
    flux = pot_circuit(gap=gap, pot_width=pot_width, remanence=1.0, recoil_permeability=recoil_permeability,
                       instrument=instrument).solve().flux
    middle = (flux[f"rod {(SLICES + 1) // 2}"] + flux[f"rod {(SLICES + 3) // 2}"]) / 2      # below and above mid-slice
    return middle, flux["gap"]


def pot_flux(*, gap, pot_width, remanence, recoil_permeability, instrument=house_instrument):
    """The fluxes of the instrument's rod in a steel pot, as a PotFlux; see pot_circuit."""
    middle, through_gap = _unit_fluxes(gap, pot_width, recoil_permeability, instrument)
    doubled = _unit_fluxes(2 * gap, pot_width, recoil_permeability, instrument)[1]
    alone = circuit_and_field(diameter=instrument.magnet["diameter"], length=instrument.magnet["length"],
                              remanence=remanence, recoil_permeability=recoil_permeability)
    return PotFlux(own_reluctance=alone.own_reluctance, gap_reluctance=gap_reluctance(gap, instrument),
                   rod=remanence * middle, through_gap=remanence * through_gap,
                   through_doubled_gap=remanence * doubled, without_pot=alone.field_flux)


def pot_curves(flux, *, gap, pot_width, remanence, recoil_permeability, instrument=house_instrument):
    """What PotSection and the chart of flux against gap take."""
    gaps = np.geomspace(0.1e-3, 20e-3, 31)      # m, up to twice the widest gap of the panel
    rod, through_gap = remanence * np.array([
        _unit_fluxes(float(one), pot_width, recoil_permeability, instrument) for one in gaps]).T
    return {"section": {"gap": gap, "pot_width": pot_width, "rod": flux.rod, "through_gap": flux.through_gap},
            "curves": {"rod": (gaps, rod), "through gap": (gaps, through_gap),
                       "alone": flux.without_pot, "now": ([gap, gap], [flux.rod, flux.through_gap]),
                       "doubled": (2 * gap, flux.through_doubled_gap),
                       "words": {"doubled": "twice the gap"}}}


OPENED_POT = 20e-3      # m, inner diameter
OPEN_LID = 6e-3         # m, air under it


@dataclass(frozen=True, kw_only=True)
class ClosingGap:
    """A lid that comes down and goes up again, in even steps of *time* (shares of the way): gaps (m), and PotFlux."""

    time: np.ndarray
    gaps: np.ndarray
    fluxes: tuple

    @property
    def more_flux(self):
        """By how much the flux through it grows, a factor."""
        through = [one.through_gap for one in self.fluxes]
        return max(through) / min(through)


def closing_gap(instrument=house_instrument):
    """The lid of the pot comes down to 0.3 mm over the instrument's rod and goes up again, as a ClosingGap of 40 steps.

    Examples
    --------
    >>> lid = closing_gap()
    >>> round(lid.gaps.max() / lid.gaps.min()), round(lid.more_flux, 1)
    (20, 2.2)
    """
    time = np.arange(40) / 40
    closed = 0.3e-3
    gaps = (closed + (OPEN_LID - closed) * (1 + np.cos(2 * pi * time)) / 2).round(9)    # up as it came down
    rod = {name: instrument.magnet[name] for name in ("remanence", "recoil_permeability")}
    return ClosingGap(time=time, gaps=gaps, fluxes=tuple(
        pot_flux(gap=float(gap), pot_width=OPENED_POT, **rod, instrument=instrument) for gap in gaps))
