"""What each sentence on a change of the whole pickup claims, against the model before and after."""
import math
import re
from dataclasses import fields, replace

import numpy as np
import pytest

from lessons_lib.lessons.lesson_05.model import partial_levels
from lessons_lib.lessons.whole_pickup.changes import changes
from lessons_lib.lessons.whole_pickup.model import PERIODS, whole_pickup
from lessons_lib.lessons.whole_pickup.parts import pickup_of, rod
from lessons_lib.lessons.whole_pickup.settings import PRESETS, STRINGS, Settings
from lessons_lib.physics.steel import SteelString
from whole_settings import ENDS, SLIDERS, START, in_si, of


def number(text):
    return float(text.replace("\N{MINUS SIGN}", "-"))


def said_pair(sentence, words):
    """Before and after of a quantity, as the sentence gives them with the unit in *words*."""
    found = re.search(words.replace("#", r"([\N{MINUS SIGN}+]?[\d.]+)"), sentence)
    return found and tuple(map(number, found.groups()))


@pytest.mark.parametrize("start, name, end", ENDS, ids=lambda one: one if isinstance(one, str) else "")
def test_a_sentence_says_what_the_model_gives(start, name, end):
    after = replace(start, **{name: in_si(name, end)})
    was, now, sentence = whole_pickup(start), whole_pickup(after), changes(start, after)
    assert sentence.endswith(".") and ". " not in sentence and re.search(r"lessons? \d", sentence)
    peak = re.search(r"the peak at the amplifier (rises|falls|stays)(?: from ([\d.]+) to ([\d.]+) mV| at ([\d.]+))",
                     sentence)
    if peak[1] == "stays":
        assert now.peak == pytest.approx(was.peak, rel=6e-3)
    else:
        assert (peak[1] == "rises") == (now.peak > was.peak)
        assert (float(peak[2]), float(peak[3])) == pytest.approx((was.peak * 1e3, now.peak * 1e3), rel=6e-3, abs=1e-9)
    swings = said_pair(sentence, "swings by # instead of # µWb")
    if swings:
        assert swings == pytest.approx((now.linkage_swing * 1e6, was.linkage_swing * 1e6), rel=6e-3, abs=1e-9)
    for claim, holds in CLAIMS.items():
        if claim in sentence:
            assert holds(was, now), claim


def alone(one):
    """The rod of the settings, without neighbours."""
    return rod(one.settings)


def linear(one):
    """Linkage of one place of a string whose steel is a straight line."""
    s = one.settings
    string = SteelString(diameter=s.row["core"], saturation=math.inf)
    return pickup_of(s).flux_linkage(string, height=s.height, y=s.pole_y)


def _loads_less(was, now):
    return now.coil.low_frequency_level >= was.coil.low_frequency_level - 1e-9 and np.all(
        np.abs(now.coil.response([1e3, 4e3])) > np.abs(was.coil.response([1e3, 4e3])))


def _saturates(was, now):
    """With a straight-line steel the linkage would be in proportion to the magnet's flux."""
    return linear(now) / linear(was) == pytest.approx(now.pole_flux / was.pole_flux, rel=0.02)


def _resonance(one):
    return one.coil.natural_frequency


def _joined(one):
    """Linkage of a straight-line string for the field it is in: what the pole leads of it through the coil."""
    return linear(one) / one.field


def _joins_more(was, now):
    return _joined(now) > _joined(was)


CLAIMS = {
    "leads more of the string's flux": _joins_more,
    "leads less of the string's flux": lambda was, now: _joins_more(now, was),
    "demagnetise it less": lambda was, now: alone(now).fluxmetric_factor() < alone(was).fluxmetric_factor(),
    "demagnetise it more": lambda was, now: alone(now).fluxmetric_factor() > alone(was).fluxmetric_factor(),
    "gives way less": lambda was, now: alone(now).midplane_flux() > alone(was).midplane_flux(),
    "gives way more": lambda was, now: alone(now).midplane_flux() < alone(was).midplane_flux(),
    "the steel of the string saturates": _saturates,
    "Farther from the pole": lambda was, now: now.sensitivity < was.sensitivity,
    "Nearer to the pole": lambda was, now: now.sensitivity > was.sensitivity,
    "more is magnetised": lambda was, now: now.linkage_swing > was.linkage_swing,
    "less is magnetised": lambda was, now: now.linkage_swing < was.linkage_swing,
    "its tension and its impedance are the same": lambda was, now: (
        (was.tuned.tension, was.tuned.impedance) == (now.tuned.tension, now.tuned.impedance)),
    "in proportion to the force": lambda was, now: (
        now.peak_velocity * was.force == pytest.approx(was.peak_velocity * now.force)),
    "as the square of the turns": lambda was, now: now.inductance / was.inductance == pytest.approx(
        (now.settings.turns / was.settings.turns) ** 2),
    "they do not fit": lambda was, now: now.settings.turns > now.turns_that_fit,
    "more capacitance beside it": lambda was, now: _resonance(now) < _resonance(was),
    "less capacitance beside it": lambda was, now: _resonance(now) > _resonance(was),
    "loads the coil less": _loads_less,
    "loads the coil more": lambda was, now: _loads_less(now, was),
    "takes more of the treble": lambda was, now: abs(now.coil.response(5e3)) < abs(was.coil.response(5e3)),
    "takes less of the treble": lambda was, now: abs(now.coil.response(5e3)) > abs(was.coil.response(5e3)),
    "divides the voltage": lambda was, now: now.coil.low_frequency_level < was.coil.low_frequency_level,
    "changes nothing": lambda was, now: np.array_equal(now.amplifier, was.amplifier),
    "more permeable poles": lambda was, now: now.inductance > was.inductance,
    "less permeable poles": lambda was, now: now.inductance < was.inductance}


@pytest.mark.parametrize("before, after, lesson", [
    (START, replace(START, form="screws"), "lesson 7"), (replace(START, form="screws"), START, "lesson 7"),
    *((START, replace(START, grade=grade), "lessons 2 and 3") for grade in ("alnico 2", "ferrite")),
    *((START, replace(START, string=string), "lessons 5 and 7") for string in STRINGS if string != "III")])
def test_sentences_of_choices(before, after, lesson):
    was, now, sentence = whole_pickup(before), whole_pickup(after), changes(before, after)
    assert sentence.endswith(f"{lesson}.") and ". " not in sentence
    for claim, holds in CLAIMS.items():
        assert claim not in sentence or holds(was, now), claim
    moves = said_pair(sentence, "moves it at # instead of # m/s")
    assert not moves or moves == pytest.approx((now.peak_velocity, was.peak_velocity), abs=6e-3)


def test_every_setting_has_its_sentence():
    said = SLIDERS | {"form", "grade", "string", "metal", "wrap", "spread"}
    assert said == {field.name for field in fields(Settings)} - {"instrument"}
    assert not [name for start, name, end in ENDS if "at once" in changes(start, replace(start, **{
        name: in_si(name, end)}))]


def test_the_first_gap_is_that_of_the_partials():
    sentence = changes(START, replace(START, pickup_place=0.1))
    gaps = said_pair(sentence, "first gap in its spectrum is at # instead of # Hz")
    there = [partial_levels(string="III", fret=0, pluck_place=0.1, pickup_place=place, finger=0.0, aperture=0.0)
             for place in (0.1, 0.15)]
    assert gaps == pytest.approx([one.pickup_gap for one in there], rel=2e-3)


def test_nothing_and_several_changes():
    assert changes(START, START) == ""
    several = changes(START, replace(START, cable=0.0, height=3e-3))
    assert several.startswith("Several") and f"{of(cable=0.0, height=3e-3).peak * 1e3:.0f} mV" in several


def test_presets_differ_in_one_thing():
    for name, settings in PRESETS.items():
        changed = [field.name for field in fields(Settings) if getattr(settings, field.name) != getattr(
            START, field.name)]
        assert len(changed) == (name != "the workshop's")
        assert whole_pickup(settings).peak > 0 and whole_pickup(settings).time[-1] >= PERIODS * of(settings).period
