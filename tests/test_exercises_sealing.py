"""Scales, bins and sealed notes: both edges of "right" are walked, slips keep their order."""
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from exercises_lesson import LESSON, drawn
from lessons_lib.exercises.making import make_sheet
from lessons_lib.exercises.reading import into
from lessons_lib.exercises.sealing import RIGHT, Scale, digest, notes_by_bin, scale_for

ANSWERS = st.floats(1e-9, 1e9) | st.floats(-1e9, -1e-9)
TOLERANCES = st.sampled_from([0.005, 0.01, 0.02, 0.03, 0.05])
calm = settings(deadline=None, derandomize=True)
STEP_OUT = 1e-6  # far above the slack of 1e-8 of a bin, far below what a tolerance means


@calm
@given(right=ANSWERS, tolerance=TOLERANCES, share=st.floats(-1, 1))
def test_everything_within_a_relative_tolerance_is_right(right, tolerance, share):
    scale = scale_for(right, tolerance=tolerance, absolute=False)
    assert scale.is_right(right * (1 + share * tolerance), right)


@calm
@given(right=ANSWERS, tolerance=TOLERANCES)
def test_the_first_step_over_either_relative_edge_is_not_right(right, tolerance):
    scale = scale_for(right, tolerance=tolerance, absolute=False)
    assert not scale.is_right(right * (1 + tolerance) * (1 + STEP_OUT), right)
    assert not scale.is_right(right * (1 - tolerance) * (1 - STEP_OUT), right)
    assert not scale.is_right(-right, right) and not scale.is_right(0.0, right)


@calm
@given(right=st.floats(-60, 60), tolerance=st.sampled_from([0.02, 0.1, 0.2]), share=st.floats(-1, 1))
def test_absolute_tolerance_is_a_width_on_both_sides(right, tolerance, share):
    scale = scale_for(right, tolerance=tolerance, absolute=True)
    assert scale.is_right(right + share * tolerance, right)
    assert not scale.is_right(right + tolerance * (1 + STEP_OUT), right)
    assert not scale.is_right(right - tolerance * (1 + STEP_OUT), right)


@pytest.mark.parametrize("number", [1e308, -1e308, 5e-324, 0.0, -0.0, 1e-300])
@pytest.mark.parametrize("absolute", [False, True])
def test_the_largest_and_smallest_doubles_have_bins(number, absolute):
    assert isinstance(Scale(tolerance=0.02, absolute=absolute, phase=0.3).bin(number), str)


@calm
@given(number=ANSWERS, phase=st.floats(0, 1))
def test_a_slip_is_told_from_half_a_tolerance_around_it(number, phase):
    scale = Scale(tolerance=0.02, absolute=False, phase=phase)
    bins = scale.bins_of_slip(number)
    # whatever the phase, own bin and nearer neighbour cover the slip's own tolerance; of 0.02 the bins, equal on the
    # logarithmic scale, leave 2e-4 at the lower end
    assert {scale.bin(number * (1 + share)) for share in (-0.0197, -0.01, 0, 0.01, 0.0199)} <= set(bins)
    assert len(bins) == 2 and bins[0] == scale.bin(number)


def test_distance_counts_tolerances():
    scale = scale_for(10.0, tolerance=0.02, absolute=False)
    # 2 * ln(1.02 ...)/ln(1.02/0.98) is 1 to the order of the tolerance
    assert scale.distance(10.2, 10.0) == pytest.approx(1, abs=0.03)
    assert scale.distance(-10.0, 10.0) == math.inf
    assert scale_for(-3.0, tolerance=0.1, absolute=True).distance(-2.8, -3.0) == pytest.approx(2, rel=1e-6)


def notes(own=(), common=(), right=10.0):
    scale = scale_for(right, tolerance=0.02, absolute=False)
    named = notes_by_bin(scale, right, *([(note, number, note) for number, note in slips] for slips in (own, common)))
    return lambda number: named.get(scale.bin(number))


def test_the_right_bin_always_wins():
    said = notes(own=[(10.3, "straddles the right bin")], common=[(10.0, "is the right one")])
    assert said(10.0) == said(10.19) == said(9.81) == RIGHT
    assert said(10.3) == "straddles the right bin"


def test_own_slips_come_before_common_ones():
    said = notes(own=[(40.0, "own")], common=[(40.0, "common"), (0.1, "alone")])
    assert said(40.0) == "own" and said(0.1) == "alone"


def test_two_slips_in_one_bin_share_a_note_that_asks():
    said = notes(own=[(40.0, "Squared?"), (40.01, "Doubled twice?"), (40.02, "Squared?")])
    assert said(40.0) == "Two ways lead to this number. Which is yours? Squared? Or: Doubled twice?"


def test_a_digest_depends_on_each_of_its_parts_and_on_their_borders():
    digests = {digest(*parts) for parts in [("s", "1.1", "number", "+7"), ("t", "1.1", "number", "+7"),
                                            ("s", "1.2", "number", "+7"), ("s", "1.1", "letter", "+7"),
                                            ("s", "1.1", "number", "+8"), ("s1", ".1", "number", "+7")]}
    assert len(digests) == 6


def test_a_sheet_holds_no_right_value_and_no_letter_beside_right():
    sheet = make_sheet(LESSON, secret="test", bench="b000")
    text = str({name: value for name, value in sheet["exercises"].items()})
    for exercise_id in ("1.1", "1.2", "1.3"):
        assert f"{drawn(exercise_id).answer:.7g}" not in text
    gate = sheet["exercises"]["1.4"]
    assert gate["right"] not in gate["said"] and "right" not in str(gate["said"].values())


def test_the_notebooks_scale_is_the_one_that_marking_makes():
    record = make_sheet(LESSON, secret="test", bench="b000")["exercises"]["1.3"]
    scale = Scale(tolerance=record["tolerance"], absolute=record["absolute"], phase=record["phase"])
    assert scale == drawn("1.3").scale


def test_an_answer_in_another_unit_falls_into_the_same_bin():
    pond = drawn("1.1")
    assert pond.scale.is_right(into(pond.answer / 100, "cm2", "mm2"), pond.answer)
