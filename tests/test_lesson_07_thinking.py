"""Exercises of lesson 07: their answers computed in another way, and ranges that hold the computed pickups."""
import math
from dataclasses import replace

import numpy as np
import pytest

from lesson_07_pages import HALF, HEIGHT, LONG_COIL, SIX, SIX_RODS, db, lowered
from lessons_lib.exercises.draws import draw
from lessons_lib.exercises.self_study import SELF_STUDY_SECRET, load_lesson
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_07.joined import closing, joined
from lessons_lib.lessons.lesson_07.model import BEND, arranged, bent_level, pickup
from lessons_lib.lessons.lesson_07.pair import hum_pair
from lessons_lib.physics.hum import hum_voltages
from lessons_lib.physics.six_strings import workshop_row
from notebooks import NOTEBOOKS, assert_printed, prose

LESSON = load_lesson(NOTEBOOKS.parent / "answers" / "lesson_07.py")


def test_the_law_for_turning_down_holds_to_a_tenth_for_a_millimetre_and_a_half():
    lengths = LESSON["7.3"].given["reach"]
    dB = 20 / math.log(10)
    for down in (0.6e-3, 1e-3, 1.5e-3):
        assert lowered("short screws", down) == pytest.approx(-dB * down / 4.1e-3, rel=0.1)
        assert lengths.low < 1e3 * dB * down / -lowered("short screws", down) < lengths.high
    assert lowered("short screws", 2e-3) + dB * 2 / 4.1 == pytest.approx(0.5, abs=0.05)
    assert LESSON["7.3"].size[1] <= 1.6 and LESSON["7.3"].given["drop"].high <= 3.0     # no further than it holds


def test_the_curves_to_choose_from_are_those_of_computed_pickups():
    """Voltage along a bend in shares of that over the pole, signs and all: each shape within 0.1 of the field."""
    rods, small, alternating, string = (*map(arranged, ("rods", "six coils", "alternating")), workshop_row()[2])
    asked, x = LESSON["7.11"], LESSON["7.11"].x.values[::4]
    pickups = {"rods all alike, one long coil": rods, "one blade under all strings": arranged("blade"),
               "every second rod turned over, one long coil": replace(rods, poles=alternating.poles),
               "every second rod and its own coil reversed": alternating,
               "one small coil round the first rod alone": replace(small, coils=small.coils[2])}
    heard = {name: one.sensitivity(string.steel, height=HEIGHT, y=string.y + x) for name, one in pickups.items()}
    left = 10 ** (float(bent_level("rods", HEIGHT, HALF)) / 20)
    drawn = asked.curves(x, spacing=BEND, left=left)
    assert set(drawn) == set(heard) == set(asked.notes)
    for name, voltage in heard.items():
        np.testing.assert_allclose(drawn[name], voltage / voltage[0], atol=0.1)
    assert np.abs(heard[asked.right]).min() < 0.05 * heard[asked.right][0]     # zero half way, by symmetry
    assert asked.given["left"].low <= 100 * left <= asked.given["left"].high
    assert asked.given["spacing"].low <= 1e3 * BEND <= asked.given["spacing"].high


def test_the_order_of_the_four_strings_by_the_law():
    numbers = {"a": (0.40, 0.80), "b": (0.20, 0.125), "c": (0.40, 0.50), "d": (0.40, 0.25)}
    of = {letter: d ** 2 / z for letter, (d, z) in numbers.items()}
    assert of["d"] > of["b"] == pytest.approx(of["c"]) and of["c"] > of["a"] and LESSON["7.10"].right == "d > b = c > a"
    assert db(of["d"] / of["b"]) == pytest.approx(6, abs=0.05) and db(of["d"] / of["a"]) == pytest.approx(10, abs=0.15)
    # strings that could be: steel of 7850 kg/m3, the plain ones at one tension, Z = sqrt(T mu)
    tensions = [z ** 2 / (7850 * math.pi / 4 * (1e-3 * d) ** 2) for d, z in (numbers["b"], numbers["d"])]
    assert tensions[0] == pytest.approx(tensions[1]) and 50 < tensions[0] < 80


def test_the_hum_of_coils_joined_in_five_ways():
    """Equal coils without rods; in parallel by the loop equations of equal sources with equal resistances."""
    hum = {"a": abs(sum((1, -1, 1, -1, 1, -1))), "b": 6, "c": np.linalg.solve(np.eye(6) + 1e-9, np.ones(6)).mean(),
           "d": 5 - 1, "e": 1}
    assert hum["c"] == pytest.approx(1) and hum["b"] > hum["d"] > hum["e"] > hum["a"] == 0
    assert LESSON["7.12"].right == "b > d > c = e > a"


def test_the_formula_of_hum_is_that_of_the_pair():
    """The panel's pair, 2 % more turns in a field 2 % stronger."""
    asked = LESSON["7.13"].answer(n_1=5000, n_2=5100, b_1=1.0, b_2=1.02)
    assert asked == pytest.approx(hum_pair(more_turns=0.02, uneven=0.02).hum["both"], abs=0.05)


def test_the_loop_on_the_floor():
    """Turns times mean area by hand, and with the rods and screws of the worked answer."""
    coil, worked = house_instrument.long_coil, LESSON["7.14"].worked
    area = 7600 * (51e-3 * 9.4e-3 + math.pi * 4.7e-3 ** 2)
    assert area == pytest.approx(LESSON["7.14"].answer(), abs=0.05) and coil.turns * coil.mean_area() == pytest.approx(
        area, rel=0.01)
    for kind, words in (("rods", "make it 5.5 m²"), ("screws", "on a bar 10 m²")):
        assert_printed(hum_voltages(pickup(kind), flux_density=1.0, frequency=1 / (2 * math.pi))[0], words, worked)


def test_a_crossed_pair_by_its_pieces():
    asked = LESSON["7.16"].answer
    for crossings in (8, 12):
        pieces = [(-1) ** n * 6.0 * 3e-3 / (crossings + 1) for n in range(crossings + 1)]
        assert asked(length=6.0, apart=3e-3, field=1e-6, crossings=crossings) == pytest.approx(
            100 * math.pi * 1e-6 * sum(pieces))


@pytest.mark.parametrize("bench", [f"b{number:03d}" for number in range(8)])
def test_the_six_coils_have_more_than_one_design(bench):
    """A bench's limits are met by both ways of joining; not by the other sense, half the turns, or all in parallel."""
    asked = LESSON["7.15"]
    drawn = draw(asked, secret=SELF_STUDY_SECRET, bench=bench)
    fields, hidden = asked.sheet_fields(drawn, ""), drawn.hidden
    for way in (asked.known(rows, hidden["reversed_ones"], hidden["turns"]) for rows in (0, 1)):
        assert all(finding.met for finding in asked.findings(fields, way))
        other = next(sense for sense in asked.entries["sense"].options if sense != way["sense"])
        for wrong in ({"sense": other}, {"turns": way["turns"] // 2}, {"joined": "six in parallel"}):
            assert not all(finding.met for finding in asked.findings(fields, way | wrong))


def test_what_the_line_from_memory_is_compared_with_is_on_the_page_of_lesson_4():
    assert LESSON["m3"].sentence in prose("04") and LESSON["m3"].where == "lesson 4"


def test_the_questions_to_vote_on():
    """Five paths in place of six, by hand; a bridged coil and a shorter long coil by the library."""
    flat, tall = ((6 / 5) * (bar + 1) / (bar + 6 / 5) - 1 for bar in (1 / 30, 1.0))
    assert flat < 0.01 and tall == pytest.approx(0.09, abs=0.002)
    parts = joined(coils="each", sounding="six", turns=7600).parts
    assert abs(parts[5, 0]) < 0.01 * parts[:, 0].sum()
    rights = [(one.right, one.twin.right) for one in LESSON.to_vote]
    assert rights == [("b", "a"), ("c", "a"), ("c", "a")]


def test_the_ranges_of_the_new_exercises_are_those_of_the_computed_pickups():
    given = LESSON["7.8"].given
    assert given["own"].low <= 1e3 * SIX["each"].parts[2, 2] <= given["own"].high + 0.5
    assert given["beside"].low - 0.2 <= 1e3 * SIX["each"].parts[1, 2] <= given["beside"].high
    assert given["resistance"].low <= SIX["each"].resistance / 6e3 <= given["resistance"].high
    assert given["voltage"].low <= 1e3 * LONG_COIL.parts[0, 2] <= given["voltage"].high
    given, linked = LESSON["7.9"].given, {radius: 1e6 * closing(kind="six", loop=radius).linked
                                          for radius in (3.4e-3, 4.7e-3, 6e-3)}
    for name, flux in zip(("inner", "middle", "outer"), linked.values()):
        assert given[name].low - 1 <= flux <= given[name].high + 1
    assert given["rod"].low <= 1e6 * SIX_RODS["rods"] / 6 <= given["rod"].high


def test_the_worked_answers_of_the_open_text_and_of_chance():
    note = LESSON["7.7"].teaching_note.replace("\n", " ")
    # at least 4 of 5 alike by chance, either way: 2 (5 + 1)/32 = 3/8
    assert 2 * (5 + 1) / 32 == 3 / 8 and "at least 4 to 1 comes about by chance in three of eight" in note
