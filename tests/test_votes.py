"""Votes: kept without a verdict, shown again beside what turned out; and what the votes of page 00 say is so."""
import json

import numpy as np
import pytest

import lessons_lib
from lessons_lib.exercises.returns import read_return, return_bytes
from lessons_lib.exercises.self_study import load_lesson
from lessons_lib.exercises.sheet import Sheet
from lessons_lib.exercises.verdicts import State
from lessons_lib.lessons.lesson_04.model import swing
from lessons_lib.physics import (
    LongCoil,
    Pickup,
    RodMagnet,
    RoundCoil,
    SteelString,
    house_coil,
    house_magnet,
    induced_voltage,
)
from notebooks import ANSWERS, sheet_of
from shown import words

LESSON = load_lesson(ANSWERS / "lesson_00.py")
VOTES = [exercise for exercise in LESSON.exercises if exercise.kind == "prediction" and not exercise.seen_question]
IDS = [vote.id for vote in VOTES]


@pytest.fixture
def sheet(tmp_path, monkeypatch):
    monkeypatch.setenv("LESSONS_WORK_FOLDER", str(tmp_path / "my_work"))
    return Sheet(content=sheet_of("00"))


def cards(sheet):
    return lessons_lib.vote(sheet, *IDS).cards


def test_a_vote_is_kept_and_nothing_is_said_of_it(sheet):
    card = cards(sheet)[0]
    assert words(card.view.children[0]) == VOTES[0].question and card.choice.value is None
    card.button.click()
    assert words(card.said) == "First choose an answer."
    card.choice.value = "b"
    card.button.click()
    assert words(card.said) == "Kept. You will see it again at the end of lesson 4."
    again = cards(sheet)[0]
    assert again.choice.value == "b" and words(again.said) == (
        "Your vote is kept. You will see it again at the end of lesson 4.")
    assert sheet.prediction("v1").made == ("b", None, "")


def test_how_sure_may_be_said(sheet):
    card = cards(sheet)[1]
    card.choice.value, card.sureness.value = "c", 3
    card.button.click()
    assert sheet.prediction("v2").made == ("c", 3, "")
    assert [row[1] for row in sheet.progress().rows][:3] == ["still empty", "kept", "still empty"]


def test_a_prediction_of_a_panel_still_asks_how_sure(sheet):
    assert sheet.predict("p1", "c", None).state == State.UNREADABLE


@pytest.mark.parametrize("vote", VOTES, ids=IDS)
def test_it_comes_again_beside_what_turned_out(sheet, vote):
    wrong = next(letter for letter in vote.options if letter != vote.seen)
    for letter, says in ((wrong, f"It turned out otherwise: {vote.seen}) {vote.options[vote.seen]}."),
                         (vote.seen, "That is what turned out.")):
        sheet.predict(vote.id, letter, 2)
        again = lessons_lib.votes_again(sheet, vote.id)
        assert repr(again) == (f"{vote.question} You voted {letter}) {vote.options[letter]} (leaning this way). {says} "
                               f"{vote.because} You saw it in {vote.where}.")
        assert says in again._repr_html_() and vote.where in again._repr_html_()


def test_who_did_not_vote_is_told_so_and_nothing_is_given_away(sheet):
    again = lessons_lib.votes_again(sheet, *IDS)
    assert repr(again).count("You did not vote on this one, and that costs nothing.") == 3
    assert not any(vote.because in repr(again) or vote.options[vote.seen] in repr(again) for vote in VOTES)


def test_without_a_sheet_one_sentence_says_why(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("LESSONS_WORK_FOLDER", str(tmp_path / "my_work"))
    nothing = lessons_lib.open_sheet("00")
    assert repr(lessons_lib.votes_again(nothing, *IDS)).startswith("There is no sheet of lesson 00")
    assert "There is no sheet" in lessons_lib.votes_again(nothing, *IDS)._repr_html_()
    votes = lessons_lib.vote(nothing, *IDS)
    assert votes.cards == [] and words(votes.view.children[-1]).startswith("There is no sheet of lesson 00")


def test_a_sheet_shows_what_turned_out_sealed_only():
    text = json.dumps(sheet_of("00")["exercises"]["v2"])
    assert VOTES[1].because in text and '"right": "c"' not in text      # the sentence names no letter


def test_a_vote_without_sureness_is_handed_in():
    event = {"id": "0123456789abcdef", "number": 1, "time": "2030-10-01T18:00:00+02:00", "event": "prediction",
             "lesson": "00", "exercise": "v1", "choice": "d", "sureness": None, "reason": ""}
    for sureness, reads in ((None, True), (2, True), (4, False)):
        data, _ = return_bytes(bench="b017", code="7QK4M3", lesson="00", version=1,
                               events=[event | {"sureness": sureness}])
        assert len(read_return(data).events) == reads


# ---- what turned out is what the library computes --------------------------------------------------------------------

def test_a_still_string_gives_nothing():
    """The voltage is the rate of change of the linkage: of a string that is held aside and still, zero."""
    pickup = Pickup(poles=RodMagnet(**house_magnet), coils=LongCoil(**house_coil))
    string = SteelString(diameter=0.43e-3)
    still = pickup.flux_linkage(string, height=np.full(9, 2.5e-3), y=np.full(9, 1e-3))
    at_rest = float(pickup.flux_linkage(string, height=2.5e-3, y=0.0))
    assert 0 < still[0] < at_rest       # a little less aside
    assert np.abs(induced_voltage(still, np.linspace(0, 1e-3, 9))).max() < 1e-12      # V, rounding
    assert VOTES[1].seen == "c" and "zero" in VOTES[1].options["c"]


def test_twice_as_far_leaves_about_half():
    near, far = (swing(height=height, offset=0.0, turns=7600, direction=0.0, amplitude=0.6e-3, frequency=200.0).peak
                 for height in (2e-3, 4e-3))
    assert far / near == pytest.approx(0.526, abs=0.01)
    chances = {"a": 0.95, "b": 1 / 2, "c": 1 / 4, "d": 1 / 8}
    off = {letter: abs(np.log(far / near / chance)) for letter, chance in chances.items()}
    assert min(off, key=off.get) == VOTES[2].seen and sorted(off.values())[1] > 5 * off[VOTES[2].seen]
    # the pole alone in a round coil, as lesson 3 has it
    alone = Pickup(poles=RodMagnet(**house_magnet), coils=RoundCoil(
        inner_radius=3.2e-3, outer_radius=6.2e-3, bottom=-14.5e-3, top=-2.5e-3, turns=7600))
    slopes = [abs(alone.sensitivity(SteelString(diameter=0.43e-3), height=height, y=0.0)) for height in (2e-3, 4e-3)]
    assert slopes[1] / slopes[0] == pytest.approx(1 / 3, abs=0.05)
    widths = house_magnet["diameter"], 2 * house_coil["outer_radius"]
    assert min(widths) > 4e-3 and "Pole and coil are wider" in VOTES[2].because
