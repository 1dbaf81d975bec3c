"""The pair against hum on the page of the whole pickup: against lesson 7, and two coils added by hand."""
from dataclasses import replace

import numpy as np
import pytest

from lessons_lib.lessons.lesson_07.pair import hum_pair
from lessons_lib.lessons.whole_pickup.changes import changes
from lessons_lib.lessons.whole_pickup.model import whole_pickup
from lessons_lib.lessons.whole_pickup.parts import ASIDE_OF_PAIR
from lessons_lib.lessons.whole_pickup.settings import PRESETS, Settings, read_settings, save_settings

ONE, PAIR = Settings(string="IV"), Settings(string="IV", form="pair")


def test_signal_and_hum_are_those_of_lesson_7():
    """The same two pickups, 9 mm to either side, in the wiring "both": lesson 7 has them against one alone."""
    lesson = hum_pair(more_turns=0.0, uneven=0.0)
    gain = 20 * np.log10(whole_pickup(PAIR).sensitivity / whole_pickup(ONE).sensitivity)
    assert gain == pytest.approx(lesson.signal["both"], abs=0.01)
    assert lesson.hum["both"] < -100 and whole_pickup(PAIR).hum < 1e-9 * whole_pickup(ONE).hum


def test_hum_of_one_coil_is_that_of_its_air_and_more_for_its_poles():
    """2 pi f N A B of an empty coil: straight sides and two half rings of the mean turn, by hand."""
    coil = ONE.instrument.coil
    mean = (coil["inner_radius"] + coil["outer_radius"]) / 2
    area = np.pi * mean ** 2 + 2 * mean * coil["straight_length"]
    empty = 2 * np.pi * 50 * coil["turns"] * area * 1e-7
    assert 1.0 < whole_pickup(ONE).hum / empty < 1.4


def test_the_pair_gives_what_two_coils_at_their_places_give():
    """A string far from saturation and a weak pluck: each coil alone at its place, added; 6 % for the other's rods."""
    weak = {"force": 0.05, "height": 4e-3}
    pair = whole_pickup(replace(PAIR, **weak))
    alone = [whole_pickup(replace(ONE, pickup_place=ONE.pickup_place + side * ASIDE_OF_PAIR, **weak))
             for side in (-1, 1)]
    both = sum(one.voltage for one in alone)
    rooms = float(both @ pair.voltage / (both @ both))
    assert 1.0 < rooms < 1.1
    assert np.abs(pair.voltage - rooms * both).max() < 0.01 * np.abs(both).max()


def test_two_coils_in_series():
    one, pair = whole_pickup(ONE), whole_pickup(PAIR)
    assert pair.coil.resistance == pytest.approx(2 * one.coil.resistance)
    # each leads some of the other's flux, and does so in the same sense: both are reversed
    assert 2 * one.inductance < pair.inductance < 2.4 * one.inductance


def test_the_sentence_says_hum_and_gain_in_both_directions():
    there, back = changes(ONE, PAIR), changes(PAIR, ONE)
    assert there.startswith("A pair of coils with the second reversed instead of one coil over rod magnets: 0.1 µT")
    assert "0.00 instead of 0.17 mV of hum" in there and "rises from" in there and "0.17 instead of 0.00 mV" in back
    assert there.endswith("lesson 7.") and "cancels" in there and "cancels" not in back


def test_a_pair_is_kept_in_a_file_and_is_a_preset(tmp_path):
    save_settings(PAIR, tmp_path / "pair.toml")
    assert read_settings(tmp_path / "pair.toml") == PAIR
    assert PRESETS["a pair against hum"] == Settings(form="pair")
