"""Thousands of turns, lesson 4: signal, hum and hisses against formulas written here once more, and what is said."""
import math

import numpy as np
import pytest
from scipy.constants import k as boltzmann

from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_04 import panels as lesson_04
from lessons_lib.lessons.lesson_04.hiss import hiss, hiss_curves
from lessons_lib.lessons.lesson_04.model import swing
from lessons_lib.lessons.lesson_04.window import winding
from lessons_lib.physics.hum import hum_voltages
from shown import alt, readouts


@pytest.mark.parametrize("turns", [100, 3000, 7600, 50000])
def test_each_by_its_formula(turns):
    one = hiss(turns=turns, density=20e-9)
    motion = {"height": 2.5e-3, "offset": 0.0, "direction": 0.0, "amplitude": 0.6e-3, "frequency": 200.0}
    assert one.signal == pytest.approx(swing(turns=turns, **motion).rms, rel=1e-9)
    share = turns / house_instrument.coil["turns"]
    hum, = hum_voltages(house_instrument.pickup, flux_density=1e-7, frequency=50.0)
    assert one.hum == pytest.approx(share * hum, rel=1e-9)
    # the wire that just fills the window, from the panel before, made anew for these turns; 20 Hz to 20 kHz, 20 degC
    resistance = winding(turns=max(turns, 1000), gauge=44).filling_resistance * (min(turns, 1000) / 1000) ** 2
    assert one.coil == pytest.approx(math.sqrt(4 * boltzmann * 293.15 * resistance * 19980), rel=1e-6, abs=0)
    assert one.amplifier == pytest.approx(20e-9 * math.sqrt(19980), rel=1e-9, abs=0)
    assert one.above_both == pytest.approx(20 * math.log10(one.signal / math.hypot(one.coil, one.amplifier)))


def test_limits():
    """A silent amplifier leaves the coil's own hiss; a loud one is all there is, and turns gain in proportion."""
    silent = [hiss(turns=turns, density=0.0) for turns in (100, 50000)]
    assert silent[0].above_both == pytest.approx(silent[1].above_both, abs=1e-9) and silent[0].alike == 0
    loud = [hiss(turns=turns, density=1e-3).above_both for turns in (100, 1000)]
    assert loud[1] - loud[0] == pytest.approx(20, abs=1e-6)
    alike = hiss(turns=hiss(turns=100, density=10e-9).alike, density=10e-9)
    assert alike.coil == pytest.approx(alike.amplifier, rel=1e-9, abs=0)
    assert alike.above_coil - alike.above_both == pytest.approx(10 * math.log10(2))


def test_curves_run_through_the_dots():
    one = hiss(turns=7600, density=10e-9)
    data = hiss_curves(one, turns=7600, density=10e-9)
    for name, line in (*data["voltages"].items(), *data["levels"].items()):
        assert np.interp(math.log(7600), np.log(data["turns"]), line) == pytest.approx(getattr(one, name), rel=0.02,
                                                                                       abs=0)


def test_what_is_said():
    panel = lesson_04.thousands_of_turns()
    panel.asked(turns="1000")
    assert "signal above both hisses: 74.6 dB" in readouts(panel) and "alike at: 7800 turns" in readouts(panel)
    assert "With 1000 turns: signal 7.65 mV" in alt(panel) and "hum 22.6 µV (0.1 µT at 50 Hz)" in alt(panel)
    panel.asked(density="50")
    assert "hiss of the amplifier: 7.07 µV" in readouts(panel) and "alike at: 39000 turns" in readouts(panel)


def test_hum_is_said_in_mV_where_it_is_one_or_more():
    panel = lesson_04.thousands_of_turns()
    panel.asked(turns="50000")
    assert "hum: 1.13 mV" in readouts(panel)
