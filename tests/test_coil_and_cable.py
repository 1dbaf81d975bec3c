"""A peak by its choices, against the model of lesson 6 and the formulas of a textbook."""
import math

import pytest

from lessons_lib.exercises.models import model
from lessons_lib.lessons.lesson_06.model import response
from lessons_lib.physics.coil_and_cable import cabled_coil, peak_parts, peak_report

HOUSE = {"cable": 5, "capacitor": 0.0, "volume": 250e3, "tone": 500e3}


@pytest.mark.parametrize("chosen", [
    HOUSE, {"cable": 3, "capacitor": 470e-12, "volume": 500e3, "tone": 1e6},
    {"cable": 9.5, "capacitor": 120e-12, "volume": 180e3, "tone": 250e3}])
def test_the_report_is_what_the_panel_of_lesson_6_says(chosen):
    """The lesson's coil comes from the instrument; cable and capacitor are across one place where the volume is up."""
    report, there = peak_report(**chosen), response(
        cable=100e-12 * chosen["cable"], own=100e-12 + chosen["capacitor"], volume=chosen["volume"],
        tone=chosen["tone"])
    assert report.peak == pytest.approx(there.peak_frequency, rel=1e-9)
    assert report.peak_height == pytest.approx(there.peak_height, abs=1e-9)
    assert report.low_level == pytest.approx(there.low_level, abs=1e-9) and report.reach == chosen["cable"]


def test_with_little_load_the_peak_is_at_the_undamped_resonance_and_q_times_as_high():
    """f0 = 1/(2 pi sqrt(L C)) and, of a series circuit into a light load, Q (any textbook of electric circuits)."""
    light = {"cable": 10, "capacitor": 900e-12, "volume": 1e8, "tone": 1e8}
    coil, report = cabled_coil(**light), peak_report(**light)
    capacitance, load = 2000e-12, 1 / (1e-8 + 1e-8 + 1e-6)
    resonance = 1 / (2 * math.pi * math.sqrt(coil.inductance * capacitance))
    quality = 1 / (2 * math.pi * resonance * coil.inductance / load + coil.resistance * 2 * math.pi * resonance
                   * capacitance)
    # the peak of a low-pass of second order, as in any textbook; what the root of 1 + R/R_load adds is under 1 %
    assert report.peak == pytest.approx(resonance * math.sqrt(1 - 1 / (2 * quality ** 2)), rel=0.01) and quality > 3
    assert report.peak_height == pytest.approx(20 * math.log10(quality), abs=0.3)


def test_a_metre_of_cable_is_as_good_as_100_pf_across_the_coil():
    moved = {**HOUSE, "cable": 3, "capacitor": 200e-12}
    assert peak_report(**moved).peak == pytest.approx(peak_report(**HOUSE).peak, rel=1e-9)


@pytest.mark.parametrize("changes, words", [
    ({"cable": 0.5, "volume": 50e3, "tone": 50e3}, "there is no peak at all"),
    ({"cable": -1}, "cable must be"), ({"capacitor": -1e-12}, "capacitor must be"), ({"volume": 0}, "volume must be")])
def test_what_cannot_be_reported(changes, words):
    with pytest.raises(ValueError, match=words):
        peak_report(**{**HOUSE, **changes})


def test_parts_and_names():
    assert dict(peak_parts(**{**HOUSE, "capacitor": 330e-12})) == {
        "cable": "5 m, 500 pF", "capacitor across the coil": "330 pF", "volume control": "250 kΩ",
        "tone control": "500 kΩ, with 22 nF"}
    assert model("peak_report") is peak_report and model("peak_parts") is peak_parts
