"""Six small coils round six rods as a few choices: how they are joined and wound, and what that leads to.

Chosen: series or rows in parallel, all alike or every second coil and rod reversed, the wire's gauge, the turns of each
coil. Kept: the workshop's small coil, rods, strings, cable and controls.
"""
from dataclasses import dataclass, replace
from functools import lru_cache

from lessons_lib.base.checks import one_of, positive
from lessons_lib.base.materials import magnet_wire
from lessons_lib.base.units import said
from lessons_lib.base.workshop import house_coil, house_load, house_magnet, house_place, house_small_coil
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.hum import hum_voltages
from lessons_lib.physics.magnets import RodMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.six_strings import decibels, in_a_row, workshop_row
from lessons_lib.physics.winding import LongCoil, RoundCoil

JOINED = {"six in series": 1, "two rows of three": 2, "three rows of two": 3, "six in parallel": 6}
SENSES = {"all alike": 1, "every second reversed": -1}
_STRAY = {"flux_density": 1e-7, "frequency": 50.0}      # only ratios are used


@dataclass(frozen=True, kw_only=True)
class SmallCoilsReport:
    """What six small coils lead to, SI.

    level (dB) of string IV and hum (a share), both relative to the long house coil; peak (Hz, 0 without one) with cable
    and controls; resistance (ohm, 20 C); inductance (H); fill (share of a coil's room); wire_length of all six (m).
    """

    level: float
    peak: float
    resistance: float
    inductance: float
    fill: float
    hum: float
    wire_length: float


def small_coils_report(*, joined, sense, wire, turns):
    """What a choice of six small coils leads to.

    Parameters
    ----------
    joined : str
        One of `JOINED`: the rows are in parallel, the coils of a row in series; a row is of neighbours.
    sense : str
        One of `SENSES`: reversed are winding and rod together.
    wire : float
        Gauge, AWG 36 to 46.
    turns : float
        Of each coil.

    Returns
    -------
    SmallCoilsReport

    Raises
    ------
    ValueError
        For another word, a gauge outside the range, turns below 1.

    Notes
    -----
    Rows in parallel are taken as equal: at open ends they give the mean of their voltages, and a share 1/rows^2 of the
    resistance and inductance of all six in series. Rows at the ends differ a little from the others: 0.1 % of the
    inductance. Turns that do not fit are computed as if they did; fill says it. Self-capacitance is the long coil's.
    Against the parts put together by hand: tests/test_small_coils.py.

    Examples
    --------
    >>> series = small_coils_report(joined="six in series", sense="all alike", wire=41, turns=3500)
    >>> rows = small_coils_report(joined="two rows of three", sense="all alike", wire=44, turns=7000)
    >>> round(rows.level - series.level, 6), round(series.resistance), round(rows.resistance)
    (0.0, 2176, 2181)
    """
    one_of("joined", joined, JOINED)
    one_of("sense", sense, SENSES)
    positive(turns=turns)
    signal, inductance, hum = _per_turn(SENSES[sense])
    long_signal, long_hum = _of_long_coil()
    record, coil, rows = magnet_wire(awg=wire), RoundCoil(**{**house_small_coil, "turns": turns}), JOINED[joined]
    as_one = turns / rows       # turns of each of six coils in series that would give the same
    total = {"resistance": 6 * coil.resistance(record) / rows ** 2, "inductance": inductance * as_one ** 2}
    return SmallCoilsReport(
        **total, peak=LoadedCoil(**total, **house_load).peak()[0], level=float(decibels(signal * as_one, long_signal)),
        fill=coil.fill_factor(record), hum=round(abs(hum * as_one / long_hum), 9), wire_length=6 * coil.wire_length())


def _fourth(pickup):
    """Sensitivity (V per m/s) to string IV."""
    string = workshop_row()[2]
    return float(abs(pickup.sensitivity(string.steel, height=string.height, y=string.y)))


def _rods(sense):
    rods = in_a_row(RodMagnet(**house_magnet), house_place["string_y"])
    return tuple(replace(rod, remanence=sense ** n * rod.remanence) for n, rod in enumerate(rods))


@lru_cache(maxsize=2)
def _per_turn(sense):
    """Signal of string IV (V per m/s), inductance (H) and hum of six coils of one turn in series."""
    coils = in_a_row(RoundCoil(**{**house_small_coil, "turns": 1}), house_place["string_y"])
    coils = tuple(replace(coil, winding_sense=sense ** n) for n, coil in enumerate(coils))
    whole = Pickup(poles=_rods(sense), coils=coils)
    return _fourth(whole), float(whole.inductance()), float(hum_voltages(whole, **_STRAY).sum())


@lru_cache(maxsize=1)
def _of_long_coil():
    """Signal of string IV (V per m/s) and hum of the long house coil."""
    whole = Pickup(poles=_rods(1), coils=LongCoil(**house_coil))
    return _fourth(whole), float(hum_voltages(whole, **_STRAY).sum())


def small_coils_parts(*, joined, sense, wire, turns):
    """The parts that a choice takes, as (part, how much) in words; arguments as `small_coils_report`.

    Examples
    --------
    >>> small_coils_parts(joined="six in parallel", sense="all alike", wire=44, turns=7000)[0]
    ('coils', '6 of 7000 turns, six in parallel, all alike')
    """
    report, record = small_coils_report(joined=joined, sense=sense, wire=wire, turns=turns), magnet_wire(awg=wire)
    return (("coils", f"6 of {turns:.0f} turns, {joined}, {sense}"),
            ("magnet wire", f"AWG {wire:g}, {said(record.diameter, 'µm', '.1f')} bare"),
            ("length of wire", f"{said(report.wire_length, 'm', '.0f')} for all six"),
            ("resistance at 20 °C", said(report.resistance, "kΩ", ".2f")),
            ("a coil's room", f"filled to {said(report.fill, '%', '.0f')}"))
