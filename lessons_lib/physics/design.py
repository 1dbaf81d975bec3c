"""A pickup in the workshop's form as a few choices: what they lead to, and the parts it takes.

Chosen: the grade of six rods of the house size, the wire's gauge, the turns, the heights of the pole tops.
"""
import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from lessons_lib.base.checks import finite_array, one_of, positive, refuse
from lessons_lib.base.materials import magnet_grade, magnet_wire
from lessons_lib.base.units import in_unit, said
from lessons_lib.base.workshop import GRADES, ROW, house_coil, house_load, house_magnet, house_place
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.magnets import RodMagnet, recoil_magnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.six_strings import decibels, in_a_row, sensitivities, workshop_row
from lessons_lib.physics.winding import LongCoil

OWN_CAPACITANCE, CABLE_CAPACITANCE = house_load["capacitance"], house_load["cable_capacitance"]   # F
COPPER_DENSITY = 8890.0     # kg/m3 at 20 C, annealed standard copper, IEC 60028, from memory
_VOLUME_PERMEANCE = 7.76    # of the house rod alone in air


@dataclass(frozen=True, kw_only=True)
class DesignReport:
    """What a design leads to, SI.

    resonance (Hz) and resonance_level (dB over low frequencies) with the cable; resistance (ohm, 20 C); inductance (H);
    fill (share of the window); sensitivity of string VI (V per m/s); spread (dB) of the six levels (dB re string VI);
    wire_length (m); copper (kg).
    """

    resonance: float
    resonance_level: float
    resistance: float
    inductance: float
    fill: float
    sensitivity: float
    spread: float
    levels: tuple
    wire_length: float
    copper: float


def rod_of(grade, *, diameter=house_magnet["diameter"], length=house_magnet["length"]):
    """A rod in a grade of `GRADES`, on its recoil line.

    Parameters
    ----------
    grade : str
    diameter, length : float
        m; left out: the house's.

    Returns
    -------
    RodMagnet

    Raises
    ------
    ValueError
        For another grade, sizes that are not positive.

    Notes
    -----
    A rod alone in air works on the recoil line through the working point of its volume permeance coefficient, 7.76 for
    the house size; where it stays above the knee (alnico 8, ferrite) it has its grade's own remanence. One number for a
    rod that is not uniform: 10 % in the field (lesson 2). Alnico 5 of the house size is the house magnet's record,
    which the full solution gave; of other sizes it is in proportion.

    Examples
    --------
    >>> rod_of("alnico 5").remanence, rod_of("ferrite").remanence
    (0.75, 0.3875)
    >>> bool(rod_of("alnico 5", length=10e-3).remanence < 0.75)     # short rods demagnetise themselves more
    True
    """
    one_of("magnet", grade, GRADES)
    record, sizes = magnet_grade(grade), {"diameter": diameter, "length": length}
    own, house = (RodMagnet(remanence=1.0, **rod).magnetometric_factor()
                  for rod in (sizes, {name: house_magnet[name] for name in sizes}))
    line = _line_of(record, _VOLUME_PERMEANCE * ((1 / own - 1) / (1 / house - 1)))
    if grade == "alnico 5":
        share = line[0] / _line_of(record, _VOLUME_PERMEANCE)[0]
        line = house_magnet["remanence"] * share, house_magnet["recoil_permeability"]
    return RodMagnet(remanence=line[0], recoil_permeability=line[1], **sizes)


def _line_of(record, permeance_coefficient):
    """Remanence and recoil permeability of a grade's line at a working point; above the knee its own."""
    try:
        return recoil_magnet(record, permeance_coefficient=permeance_coefficient)
    except ValueError:
        return float(record.remanence), float(record.recoil_permeability)


def designed_coil(report):
    """The coil of a `DesignReport` on the cable, as a `LoadedCoil`: 100 pF of its own, 500 pF of cable, 1 MΩ."""
    return LoadedCoil(resistance=report.resistance, inductance=report.inductance, capacitance=OWN_CAPACITANCE,
                      cable_capacitance=CABLE_CAPACITANCE)


def design_report(*, magnet, wire, turns, tops):
    """What a design leads to.

    Parameters
    ----------
    magnet : str
        One of `GRADES`.
    wire : float
        Gauge, AWG 36 to 46.
    turns : float
    tops : array_like, shape (6,)
        Heights of the pole tops above the coil form, m, string VI first; the strings' axes are at 2.5 mm.

    Returns
    -------
    DesignReport

    Raises
    ------
    ValueError
        For a grade or a gauge outside the range, another number of tops, a pole that touches its string.

    Notes
    -----
    The course's pickup model (`Pickup`): six rods, one long coil, strings with saturation. Levels are those of plucks
    with one force, so sensitivity over impedance. Turns that do not fit the window are computed as if they did; fill
    says it. The resonance is where the output on the cable is largest, without volume and tone controls. Left out: the
    own capacitance is the house coil's whatever the turns. Magnets take most of the time; a moved pole takes less.
    Against the parts put together by hand: tests/test_design.py.

    Examples
    --------
    >>> house = design_report(magnet="alnico 5", wire=44, turns=7600, tops=[0.0] * 6)
    >>> round(house.resistance / 1e3, 1), round(house.inductance, 2)
    (8.7, 2.16)
    """
    tops = finite_array(tops=tops)
    if tops.shape != (len(ROW),):
        refuse("tops", "six heights", f"shape {tops.shape}")
    positive(turns=turns)
    slopes, inductance, levels = _per_turn(magnet, tuple(tops.tolist()))
    coil, wire = LongCoil(**{**house_coil, "turns": turns}), magnet_wire(awg=wire)
    length = coil.wire_length()
    report = {"resistance": coil.resistance(wire), "inductance": inductance * turns ** 2}
    frequency, level = LoadedCoil(**report, capacitance=OWN_CAPACITANCE, cable_capacitance=CABLE_CAPACITANCE).peak()
    return DesignReport(
        **report, resonance=frequency, resonance_level=level, fill=coil.fill_factor(wire),
        sensitivity=abs(slopes[0]) * turns, spread=max(levels) - min(levels), levels=levels, wire_length=length,
        copper=COPPER_DENSITY * float(wire.area) * length)


@lru_cache(maxsize=512)
def _per_turn(magnet, tops):
    """Sensitivities and inductance of one turn that fills the window, and the levels of the strings."""
    coil, row = LongCoil(**{**house_coil, "turns": 1}), workshop_row()
    pickup = Pickup(poles=in_a_row(rod_of(magnet), house_place["string_y"], tops), coils=coil)
    slopes = sensitivities(pickup, row)
    levels = decibels(slopes / [string.impedance for string in row])
    return tuple(slopes.tolist()), float(pickup.inductance()), tuple(levels.tolist())


def response_curve(report, frequency):
    """Level at the amplifier's input over the induced voltage, dB, at frequencies (Hz) above zero, of their shape."""
    return 20 * np.log10(np.abs(designed_coil(report).response(frequency)))


def parts_list(*, magnet, wire, turns, tops):
    """The parts a design takes, as (part, how much) in words to order and build by; arguments as `design_report`.

    Examples
    --------
    >>> parts_list(magnet="alnico 5", wire=44, turns=7600, tops=[0.0] * 6)[0]
    ('rod magnets', '6 of alnico 5, 5 mm across, 17 mm long')
    """
    report, record = design_report(magnet=magnet, wire=wire, turns=turns, tops=tops), magnet_wire(awg=wire)
    drop = ", ".join(f"{name} {said(in_unit(top, 'mm'), '', '+.2f') if abs(top) >= 5e-6 else 'flush'}"
                     for name, top in zip(ROW, tops))
    length = "order a tenth more" if report.fill <= 1 else "order nothing yet: it does not fit into the window"
    return (
        ("rod magnets", f"6 of {magnet}, {said(house_magnet['diameter'], 'mm', 'g')} across, "
                        f"{said(house_magnet['length'], 'mm', 'g')} long"),
        ("magnet wire", f"AWG {wire:g}, {said(record.diameter, 'µm', '.1f')} bare, about "
                        f"{said(record.insulated_diameter, 'µm', '.0f')} with its coat"),
        ("length of wire", f"{said(report.wire_length, 'm', '.0f')} in {turns:.0f} turns; {length}"),
        ("copper", said(report.copper, "g", ".1f")),
        ("resistance at 20 °C", f"{said(report.resistance, 'kΩ', '.2f')}; 4 % more at 30 °C"),
        ("coil form", f"window {said(house_coil['outer_radius'] - house_coil['inner_radius'], 'mm', 'g')} by "
                      f"{said(house_coil['top'] - house_coil['bottom'], 'mm', 'g')}, filled to "
                      f"{said(report.fill, '%', '.0f')}"),
        ("pole tops over the form (mm)", drop))


def turns_for(*, magnet, tops, resonance):
    """Turns that put the undamped resonance with the cable at a frequency (Hz): a first guess for `design_report`."""
    positive(resonance=resonance)
    _, inductance, _ = _per_turn(magnet, tuple(finite_array(tops=tops).tolist()))
    return 1 / (2 * math.pi * resonance * math.sqrt(inductance * (OWN_CAPACITANCE + CABLE_CAPACITANCE)))
