"""Six small coils by their choices, against the parts put together by hand and against circuits solved as matrices."""
from dataclasses import replace
from functools import lru_cache

import numpy as np
import pytest

from lessons_lib.base.materials import magnet_wire
from lessons_lib.base.workshop import house_coil, house_load, house_small_coil
from lessons_lib.lessons.lesson_07.joined import joined
from lessons_lib.lessons.lesson_07.model import arranged
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.hum import hum_voltages
from lessons_lib.physics.small_coils import JOINED, SENSES, small_coils_parts, small_coils_report
from lessons_lib.physics.winding import RoundCoil

SERIES = {"joined": "six in series", "sense": "all alike", "wire": 44, "turns": 7600}
NAMES = {"all alike": "six coils", "every second reversed": "alternating"}


@lru_cache
def matrix(sense):
    """Self and mutual inductances of the six coils (H), from the inductances of each and of each two in series."""
    whole = arranged(NAMES[sense])

    def of(*places):
        return replace(whole, coils=tuple(whole.coils[place] for place in places)).inductance()
    found = np.diag([of(one) for one in range(6)])
    for one, other in zip(*np.triu_indices(6, 1)):
        found[one, other] = found[other, one] = (of(one, other) - found[one, one] - found[other, other]) / 2
    return found


def test_in_series_it_is_the_lessons_table():
    """Lesson 7, "turns of each coil": 9.5 kohm, 1.74 H, 4.71 kHz, -2.0 dB, computed there from other functions."""
    report, table = small_coils_report(**SERIES), joined(coils="each", sounding="one", turns=7600)
    for name in ("level", "peak", "resistance", "inductance"):
        assert getattr(report, name) == pytest.approx(getattr(table, name), rel=1e-6)
    assert report.wire_length == pytest.approx(table.wire)
    six, long = (hum_voltages(arranged(name), flux_density=1e-6, frequency=50).sum() for name in ("six coils", "rods"))
    assert report.hum == pytest.approx(six / long)
    # turns of pi (3.8 mm)^2, against pi (4.7 mm)^2 and 51 by 9.4 mm, without rods; a rod does more for a narrow turn
    assert 1.2 < report.hum / (6 * 3.8 ** 2 / (4.7 ** 2 + 51 * 9.4 / np.pi)) < 1.5
    assert report.fill == pytest.approx(RoundCoil(**house_small_coil).fill_factor(magnet_wire(awg=44)))
    assert house_coil["turns"] == house_small_coil["turns"] == 7600


@pytest.mark.parametrize("sense", SENSES)
@pytest.mark.parametrize("name, rows", JOINED.items())
def test_rows_in_parallel_as_a_matrix_says(name, rows, sense):
    """One voltage across all rows: L = 1/sum of the inverse matrix of the rows; signals as the mean of the rows."""
    of_rows = matrix(sense).reshape(rows, 6 // rows, rows, 6 // rows).sum(axis=(1, 3))
    report = small_coils_report(**{**SERIES, "joined": name, "sense": sense})
    # two rows of three mirror each other; otherwise the rows at the ends differ a little
    assert report.inductance == pytest.approx(1 / np.linalg.inv(of_rows).sum(), rel=1e-6 if rows < 3 else 0.002)
    series = small_coils_report(**{**SERIES, "sense": sense})
    assert report.level == pytest.approx(series.level - 20 * np.log10(rows))
    assert report.resistance == pytest.approx(series.resistance / rows ** 2)
    assert report.hum == pytest.approx(series.hum / rows)
    assert report.peak == LoadedCoil(resistance=report.resistance, inductance=report.inductance, **house_load).peak()[0]


def test_every_second_reversed_keeps_no_hum_and_costs_signal():
    alike, reversed_ones = (small_coils_report(**{**SERIES, "sense": sense}) for sense in SENSES)
    assert reversed_ones.hum == 0 and alike.hum > 0.5
    assert alike.level - reversed_ones.level == pytest.approx(1.7, abs=0.05)       # "1.7 dB softer", lesson 7
    assert reversed_ones.inductance > 1.2 * alike.inductance


def test_two_thin_wires_side_by_side_are_one_thick_wire():
    """Twice the turns in two rows, in wire of half the cross-section (three gauges: 92^(6/39) = 2.005)."""
    series = small_coils_report(joined="six in series", sense="all alike", wire=41, turns=3500)
    rows = small_coils_report(joined="two rows of three", sense="all alike", wire=44, turns=7000)
    assert (rows.level, rows.inductance, rows.hum) == pytest.approx((series.level, series.inductance, series.hum))
    assert rows.resistance / series.resistance == pytest.approx(92 ** (6 / 39) / 2)
    assert rows.fill == pytest.approx(series.fill, rel=0.01)


@pytest.mark.parametrize("change, message", [
    ({"joined": "in a ring"}, "joined must be one of"), ({"sense": "mixed"}, "sense must be one of"),
    ({"turns": 0}, "turns must be"), ({"wire": 60}, "awg must be")])
def test_what_cannot_be_built_is_said(change, message):
    with pytest.raises(ValueError, match=message):
        small_coils_report(**{**SERIES, **change})


def test_without_a_peak_it_is_at_zero():
    assert small_coils_report(**{**SERIES, "turns": 60000}).peak == 0


def test_parts_are_the_reports():
    report, parts = small_coils_report(**SERIES), dict(small_coils_parts(**SERIES))
    assert parts["coils"] == "6 of 7600 turns, six in series, all alike"
    assert parts["length of wire"] == f"{report.wire_length:.0f} m for all six"
    assert parts["a coil's room"] == "filled to 84 %"
