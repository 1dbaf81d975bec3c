"""Points of a curve: judged by order, sign and magnitude; each feature is a share of the marks, with its note."""
import itertools
import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from exercises_in_words import slope
from lessons_lib.exercises.declaration import Compared, Entry, Near, PointsExercise, Signed
from lessons_lib.exercises.draws import draw
from lessons_lib.exercises.kinds.points import PointsRecord
from lessons_lib.exercises.review import review
from lessons_lib.exercises.verdicts import State
from test_exercises_inputs import ANYTHING

DRAWN = draw(slope, secret="test", bench="b000")
DROP = DRAWN.shown["drop"]
RECORD = PointsRecord(slope.sheet_record(DRAWN, "salt"), id="1.7")
NAMES = ("begin", "middle", "end")


def features_met(begin, middle, end):
    """The four features once more, by hand: down, down, at zero, within 1.3 of the drop."""
    return (begin - middle > 0.1 * max(abs(begin), abs(middle)), middle - end > 0.1 * max(abs(middle), abs(end)),
            abs(end) <= 0.2, DROP / 1.3 < begin < 1.3 * DROP)


@pytest.mark.parametrize("points", list(itertools.product(
    (1, 1.25, 1.35, 0.5, -1), (0.5, 0.97, -0.5, 2), (0, 0.02, 0.3, -1))))
def test_what_counts_is_judged_feature_by_feature(points):
    values = [max(-10, min(10, share * DROP)) for share in points]
    met, judged = features_met(*values), RECORD.judge(values)
    assert judged.share == (sum(met) / 4 if not all(met) else 0) and (judged.state == State.RIGHT) == all(met)
    notes = [feature.note for feature, is_met in zip(slope.features, met) if not is_met]
    assert judged.slips == tuple(one.name for one, is_met in zip(slope.features, met) if not is_met)
    assert all(note in judged.text for note in notes[:1]) and RECORD.judge(**judged.entry) == judged
    assert RECORD.judge(dict(zip(NAMES, values))) == judged


def test_pixels_do_not_matter():
    first, second = (RECORD.judge([share * DROP, 0.4 * DROP, 0.01]) for share in (1.0, 1.07))
    assert first.state == second.state == State.RIGHT and first.try_name == second.try_name


@pytest.mark.parametrize("feature, values, outcome", [
    (Compared("a", "b", ""), (1.0, 0.95), "alike"), (Compared("a", "b", ""), (1.0, 0.85), "higher"),
    (Compared("a", "b", ""), (-1.0, 0.85), "lower"), (Compared("a", "b", "", same=0.5), (1, 0.6), "alike"),
    (Compared("a", "b", ""), (0, 0), "alike"), (Compared("a", "b", ""), (-1.0, -0.8), "lower"),
    (Signed("a", "", zero=0.1), (0.1, 0), "zero"), (Signed("a", "", zero=0.1), (0.2, 0), "above"),
    (Signed("a", "", zero=0.1), (-0.2, 0), "below")])
def test_outcomes(feature, values, outcome):
    assert feature.outcome(dict(zip("ab", values))) == outcome


@pytest.mark.parametrize("value, words", [
    ({"begin": 1, "middle": 1}, "end is missing"), ({"begin": 1, "middle": 1, "end": 1, "more": 1}, "is not asked for"),
    ([1, 2], "write 3 numbers in square brackets: begin"), ("1 2 3", "write 3 numbers"), (3, "write 3 numbers"),
    ([1, 2, "x"], "a number is needed"), ([1, 2, 11], "10"), ([1, 2, math.nan], "not finite"),
    ([1, 2, True], "True and False"), (np.arange(3), "write 3 numbers"),
    ({"begin": [1], "middle": 1, "end": 1}, "one number"), ([[1], [2], [3]], "one number"), ({}, "missing")])
def test_what_cannot_be_read_gets_one_sentence(value, words):
    with pytest.raises(ValueError, match=words):
        RECORD.judge(value)


def test_the_sheet_says_no_outcome():
    for sealed, feature in zip(RECORD["features"], slope.features):
        assert len(sealed["right"]) == 20 and set(sealed["fields"]) == set(vars(feature))
    text = str({name: one for name, one in RECORD.items() if name != "given"})
    assert not any(word in text for word in ("higher", "lower", "alike", ": 'zero'", "above", "below"))
    assert RECORD["features"][0]["right"] != RECORD["features"][1]["right"]


@pytest.mark.parametrize("changes, words", [
    ({"right": lambda drop: {"begin": 9 * drop, "middle": 0.5, "end": 0.0}}, "outside of -10 to 10"),
    ({"right": lambda drop: {"begin": 0 * drop, "middle": 0.5, "end": 0.0}}, "zero that is judged by its magnitude"),
    ({"right": lambda drop: {"begin": drop, "middle": drop / 1.1, "end": 0.0}}, "begin and middle can hardly")])
def test_faults_of_a_declaration_are_found(changes, words):
    assert words in next(review(replace(slope, **changes)))


@pytest.mark.parametrize("changes, words", [
    ({"entries": {"begin": Entry("", unit="m", low=0, high=1)}}, "2 to 5 points"), ({"features": ()}, "one or more"),
    ({"features": (Signed("top", "", zero=1),)}, "a point of a feature"), ({"features": (Near("end", "", factor=0),)},
     "factor must be"), ({"right": lambda other: {}}, "an argument in a formula"), ({"worked": "{other}"}, "a field"),
    ({"features": (Near("end", "", factor=2), Near("end", "", factor=3))}, "each once")])
def test_what_cannot_be_declared(changes, words):
    with pytest.raises(ValueError, match=words):
        replace(slope, **changes)


def test_the_same_for_all_benches():
    fixed = PointsExercise(id="1.8", entries={name: Entry(name, unit="mm", low=-5, high=5) for name in ("a", "b")},
                           right=lambda: {"a": 2e-3, "b": -1e-3}, worked="{points}",
                           features=(Compared("a", "b", "Which?"),))
    record = PointsRecord(fixed.sheet_record(None, "salt"), id="1.8")
    assert list(review(fixed)) == [] and record.judge([1, 0]).state == State.RIGHT
    assert fixed.right_for_all() == fixed.worked_answer() and "2" in fixed.right_for_all()


@settings(max_examples=300, deadline=None, derandomize=True)
@given(ANYTHING | st.lists(ANYTHING, max_size=4) | st.lists(st.floats(-10, 10), min_size=3, max_size=3)
       | st.dictionaries(st.sampled_from(NAMES), ANYTHING, max_size=3))
def test_whatever_is_typed_gets_a_judgement_or_one_sentence(value):
    try:
        judged = RECORD.judge(value)
    except ValueError as error:
        assert str(error) and "\n" not in str(error) and len(str(error)) < 250
    else:
        assert RECORD.judge(**judged.entry) == judged
