"""The panel of a rod on its bent curve beside the straight line, and what lesson 2 says with it."""
import numpy as np
import pytest
from numpy.testing import assert_allclose
from scipy.constants import mu_0, pi

from lessons_lib.base.materials import magnet_grade
from lessons_lib.exercises.self_study import load_lessons
from lessons_lib.lessons.lesson_02.bent import PARTS, bent_and_straight, bent_curves
from lessons_lib.lessons.lesson_02.panels import bent_rod
from lessons_lib.physics.magnetic_circuit import demagnetising_curve
from lessons_lib.physics.magnets import AlnicoRod, RodMagnet
from notebooks import ANSWERS, assert_printed, prose
from shown import alt, message, readouts

PROSE = prose("02")
EXERCISES = {one.id: one for lesson in load_lessons(ANSWERS) if lesson.id == "02" for one in lesson.exercises}
ALNICO_5 = magnet_grade("alnico 5")


def both(**values):
    return bent_and_straight(**{"times": 1.0, "remanence": 0.75, "height": 2.5e-3} | values)


@pytest.mark.parametrize("height, on_curve, on_line", [
    # on the curve: finite elements by another program, its digits; on the line: the course's figures, two digits
    (1e-3, 120.66e-3, 130e-3), (2e-3, 83.86e-3, 84e-3), (3e-3, 56.84e-3, 55e-3), (5e-3, 28.35e-3, 26e-3)])
def test_fields_over_the_face(height, on_curve, on_line):
    curve, line = both(height=height).fields
    assert_allclose(curve, on_curve, rtol=2e-3)
    assert_allclose(line, on_line, atol=0.5e-3)
    assert both(height=height).off == pytest.approx(line / curve - 1)


def test_flux_through_the_middle():
    one = both()
    assert_allclose(one.curve.flux, 16.08e-6, rtol=2e-3)        # the same other program
    assert_allclose(one.line.flux, 12.386e-6, rtol=1e-3)
    assert_printed((1 - one.line.flux / one.curve.flux) * 100, "23 % too little flux through the middle", PROSE)


def test_places_are_on_the_curve_and_on_the_line():
    one = both(times=0.5, remanence=0.6)
    assert_allclose(one.curve.b, demagnetising_curve(ALNICO_5, one.curve.h), rtol=1e-6)
    assert_allclose(one.line.b, 0.6 + 3.6 * mu_0 * one.line.h, rtol=1e-6)
    data = bent_curves(one, remanence=0.6, height=2.5e-3)
    assert data["parts"]["line"][1][0] == pytest.approx(0.6 - 3.6 * mu_0 * 130e3)
    assert_allclose(data["above"]["now"][1], one.fields)


def test_the_curves_of_the_chart_are_the_fields_of_the_rods():
    one = both(times=2.0, height=4e-3)
    rods = (AlnicoRod(grade=ALNICO_5, diameter=5e-3, length=34e-3),
            RodMagnet(diameter=5e-3, length=34e-3, remanence=0.75, recoil_permeability=3.6))
    # between neighbours of the chart's 78 heights
    assert_allclose(one.fields, [rod.flux_density([0, 0, 4e-3])[2] for rod in rods], rtol=1e-4)


def test_a_long_rod_comes_up_to_the_remanence_and_a_short_one_stays_far_below():
    """The mean B of the middle: lesson 1's limits of a long and a short rod."""
    area = pi * 2.5e-3 ** 2
    short, long = (both(times=times).curve.flux / area for times in (0.5, 2.0))
    assert short < 0.4 and 1.2 < long < 1.28


def test_what_the_page_says_of_the_places():
    """Prediction p5, and the numbers of its fold."""
    one = both()
    curve, line = dict(zip(PARTS, one.curve.b)), dict(zip(PARTS, one.line.b))
    assert max(curve, key=curve.get) == "in the middle, at the wall" and EXERCISES["p5"].seen == "c"
    for part, words in zip(PARTS, ("0.98 T at the wall", "0.53 T on the axis", "mm) it is 0.17 T")):
        assert_printed(curve[part], words, PROSE)
    assert "H is within 44 to 51 kA/m" in PROSE and f"{-one.curve.h.max() / 1e3:.0f}" == "44"
    assert f"{-one.curve.h.min() / 1e3:.0f}" == "51"
    assert "H is anything from 26 to 117 kA/m" in PROSE and f"{-one.line.h.max() / 1e3:.0f}" == "26"
    assert f"{-one.line.h.min() / 1e3:.0f}" == "117" and "B is 0.63 T, at the wall as on the axis" in PROSE
    assert [f"{line[part]:.2f}" for part in PARTS[:2]] == ["0.63", "0.63"]
    assert f"{line[PARTS[2]]:.2f}" == "0.22" and "(0.22 T instead of 0.17 T)" in PROSE


def test_what_the_page_says_of_the_line():
    assert max(abs(both(height=height).off) for height in np.linspace(2e-3, 3e-3, 11)) < 0.04
    assert "from 2 to 3 mm the two fields are within 4 %" in PROSE
    assert both(height=1e-3).off > 0.04 and both(height=5e-3).off < -0.04
    for times, words in ((0.5, "a line of 0.49 T"), (2.0, "a line of 0.97 T")):
        assert_printed(0.75 / (1 + both(times=times).off), words, PROSE)
    mean = AlnicoRod(grade=ALNICO_5, diameter=5e-3, length=17e-3)
    z = (np.arange(200) + 0.5) / 200 * -17e-3
    assert_printed(mean.flux_function(2.5e-3, z).mean() / (pi * 2.5e-3 ** 2), "on its curve has 0.66 T", PROSE)


def test_a_small_change_runs_on_parallel_lines():
    """Exercise 2.17: at 0.9 and 0.2 T the curve is far steeper than a recoil line, and steeper below the face."""
    slopes = []
    for b in (0.9, 0.2):
        h = np.linspace(-50.99e3, -30e3, 200001)
        on_curve = demagnetising_curve(ALNICO_5, h)
        slopes.append(np.interp(b, on_curve, np.gradient(on_curve, h)) / mu_0)
    assert 30 < slopes[0] < slopes[1] and EXERCISES["2.17"].right == "b"
    assert "the curve is steeper there" in PROSE


def test_the_panel_says_it():
    panel = bent_rod()
    panel.asked(height="2")
    assert readouts(panel).startswith("the line's field is off by: +0.6 %") and "83.8 mT" in readouts(panel)
    assert "0.98 T, −44.1 kA/m" in alt(panel) and "−23 %" in alt(panel)
    panel.asked(times="half as long", remanence="0.49", height="2.5")
    assert "8.5 mm" in readouts(panel) and message(panel) == ""
