"""The two voltages of lesson 6 against the law of an inductance in time; their picture, panel and film."""
import math

import numpy as np
import pytest
from matplotlib.lines import Line2D
from matplotlib.text import Annotation
from numpy.testing import assert_allclose

from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_06 import panels as lesson_06
from lessons_lib.lessons.lesson_06.series import (
    CURRENT,
    FASTEST,
    SLOWEST,
    arrows_and_waves,
    highest_voltage,
    in_series,
    one_turn,
)
from lessons_lib.pictures.style import new_figure
from lessons_lib.pictures.turning_arrows import TurningArrows
from shown import alt, readouts

R, L = house_instrument.loaded(capacitance=0.0).resistance, house_instrument.inductance()


def in_time(frequency, periods):
    """R i and L di/dt of a current of 1 mA, the latter by differences of the current between two instants near by."""
    time, step = periods / frequency, 1e-5 / frequency
    current = np.array([np.sin(2 * np.pi * frequency * (time + shift)) * 1e-3 for shift in (-step, 0.0, step)])
    return R * current[1], L * (current[2] - current[0]) / (2 * step)


@pytest.mark.parametrize("frequency", [100.0, 640.0, 1500.0])
def test_the_waves_are_those_of_ohms_and_faradays_law_in_time(frequency):
    shown = arrows_and_waves(in_series(frequency=frequency, turned=1.0))
    wire, inductance = in_time(frequency, shown["time"])
    scale = CURRENT * (R + 2 * np.pi * frequency * L)
    assert_allclose(shown["waves"]["wire"], wire, atol=1e-8 * scale)
    assert_allclose(shown["waves"]["inductance"], inductance, atol=1e-8 * scale)
    assert_allclose(shown["waves"]["both"], wire + inductance, atol=1e-8 * scale)


@pytest.mark.parametrize("turned", [0.0, 1.0, 4.0])
def test_heights_of_the_arrows_are_the_waves_at_this_moment(turned):
    shown = arrows_and_waves(in_series(frequency=400.0, turned=turned))
    for name, (_, up) in shown["arrows"].items():
        # a straight line between points of a sine 1/80 of a period apart: at most (2 pi/80)^2/8 of the peak off
        assert np.interp(shown["at"], shown["time"], shown["waves"][name]) == pytest.approx(up, abs=1e-3 * 13)


def test_the_sum_is_the_long_side_of_a_right_angled_triangle():
    # 3, 4, 5: at the frequency where the reactance is 4/3 of the resistance
    one = in_series(frequency=4 / 3 * R / (2 * math.pi * L), turned=0.7)
    assert (one.wire * one.inductance.conjugate()).real == pytest.approx(0, abs=1e-9)
    assert abs(one.both) == pytest.approx(5 / 3 * abs(one.wire)) and one.impedance == pytest.approx(5 / 3 * R)
    assert one.lead == pytest.approx(math.atan2(4, 3)) and one.reactance == pytest.approx(4 / 3 * R)


def test_the_lead_goes_from_nothing_to_a_quarter_of_a_turn():
    leads = [in_series(frequency=f, turned=0.0).lead for f in (1e-3, 10.0, 640.0, 1e5, 1e8)]
    assert leads == sorted(leads) and leads[0] < 1e-5 and leads[-1] == pytest.approx(math.pi / 2, abs=1e-4)


def test_a_turn_of_the_film_begins_now_and_is_even():
    frames = one_turn(frequency=500.0, turned=6.0, frames=12)
    assert frames[0]["arrows"] == arrows_and_waves(in_series(frequency=500.0, turned=6.0))["arrows"]
    steps = np.diff([frame["at"] for frame in frames]) % 1
    assert_allclose(steps, 1 / 12)
    assert (frames[-1]["at"] + 1 / 12) % 1 == pytest.approx(frames[0]["at"])


# ------------------------------------------------------------------ picture and panel

def test_the_picture_draws_arrows_to_their_tips_and_carries_their_heights_across():
    figure = new_figure()
    square, waves = figure.add_axes((0.1, 0.1, 0.4, 0.8)), figure.add_axes((0.5, 0.1, 0.4, 0.8))
    artists = TurningArrows(square, waves, voltage=6.0).update(
        arrows={"wire": (4.0, 0.0), "inductance": (0.0, 3.0), "both": (4.0, 3.0)}, time=[0.0, 1.0],
        waves={"wire": [0.0, 0.0], "inductance": [3.0, 3.0], "both": [3.0, 3.0]}, at=0.0)
    assert sorted(one.xy for one in artists if isinstance(one, Annotation)) == [(0.0, 3.0), (4.0, 0.0), (4.0, 3.0)]
    across = [line.get_xydata() for line in artists if isinstance(line, Line2D) and line.axes is square]
    assert any(np.array_equal(rows[:2], [(4.0, 0.0), (6.0, 0.0)]) for rows in across)
    radii = [np.hypot(*rows.T) for rows in across if len(rows) > 20]
    assert len(radii) == 1 and np.allclose(radii[0], 5.0)        # the circle of the sum's tip


def test_no_arrow_leaves_the_picture():
    for frequency in (SLOWEST, FASTEST):
        assert abs(in_series(frequency=frequency, turned=0.0).both) <= highest_voltage(house_instrument) * (1 + 1e-12)


def test_the_panel_says_peaks_and_this_moment():
    panel = lesson_06.two_voltages()
    panel.asked(frequency=640, turned=90)
    assert readouts(panel).startswith("peak across both: 12.30 V peak of the wire: 8.70 V peak of the inductance: 8.70")
    assert "at this moment: 8.70 + 0.00 = 8.70 V" in readouts(panel)
    assert "is the sum: 12.30 V, 45.0° before the current" in alt(panel)
    panel.asked(turned=270)
    assert "at this moment: −8.70 + 0.00 = −8.70 V" in readouts(panel)


def test_the_film_fits_a_page():
    panel = lesson_06.two_voltages()
    for frequency in (SLOWEST, FASTEST):
        values = {"frequency": frequency, "turned": 0.3}
        film = panel._film(panel._compute(**values), **values).described(panel._drawing)
        assert len(film["frames"]) == 48 and film["words"].startswith("one period, ")
