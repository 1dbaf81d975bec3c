"""A student's way through a sheet: answers and their notes, tries, predictions, worked answers, progress."""
import json

import pytest

import lessons_lib
from exercises_lesson import LESSON, drawn, pond
from lessons_lib.exercises import showing
from lessons_lib.exercises.verdicts import State
from lessons_lib.page.cards import SURENESS

UNMATCHED = (5.01, 6.03, 8.03, 10.03)  # inside the size range; neither right nor a slip for b000's pond of 7.166 mm2


@pytest.fixture
def sheet(desk):
    return lessons_lib.open_sheet("01")


def log_lines(desk, bench="b000"):
    return [json.loads(line) for line in (desk / "my_work" / f"log-{bench}.jsonl").read_text().splitlines()]


def test_a_right_answer(sheet):
    right = drawn("1.1").answer
    assert str(sheet.answer("1.1", round(right, 2), "mm2")) == (
        "1.1: right. Within 2 % of what your given values lead to.")
    assert sheet.answer("1.1", round(right * 1e-6, 9), "m2").state == State.RIGHT
    assert sheet.answer("1.3", round(drawn("1.3").answer, 2)).text == (
        "Within 0.1 dB of what your given values lead to.")


def test_both_edges_of_right_in_the_notebook(sheet):
    right = drawn("1.1").answer
    for inside, outside in ((1.02, 1.0200001), (0.98, 0.9799999)):
        assert sheet.answer("1.1", right * inside).state == State.RIGHT
        assert sheet.answer("1.1", right * outside).state == State.NOT_YET


def test_an_own_slip_and_a_common_one_are_told(sheet):
    value = drawn("1.1")
    whole = value.answer / (value.shown["share"] / 100)
    assert sheet.answer("1.1", float(f"{whole:.4g}")).text == "That is the whole pond."
    assert "a radius or a diameter?" in sheet.answer("1.1", float(f"{4 * value.answer:.4g}")).text


def test_the_verdict_never_holds_the_right_value(sheet):
    right = f"{drawn('1.1').answer:.3g}"
    for typed in (*UNMATCHED, 3, 1e9, "x", ...):
        assert right not in repr(sheet.answer("1.1", typed))


def test_each_different_try_opens_the_next_general_note_and_a_repeat_opens_none(sheet):
    notes = [*pond.notes, "With 8.00 mm and 25 %: the whole is 50.27 mm², the covered part 12.57 mm²."]
    opened = ' The worked answer is open now: sheet.worked_answer("1.1").'
    first, second, third, fourth = UNMATCHED
    assert sheet.answer("1.1", first).text == notes[0]
    assert sheet.answer("1.1", first * 1.0001, "mm2").text.startswith(notes[0])     # the same bin
    assert sheet.answer("1.1", second).text == notes[1]
    assert sheet.answer("1.1", third).text == notes[2] + opened
    assert sheet.answer("1.1", fourth).text == notes[2] + opened
    assert sheet.answer("1.1", first).text == notes[0] + opened


def test_a_try_on_the_other_side_of_the_limit_and_in_the_same_bin_gets_its_note(sheet):
    assert sheet.answer("1.1", 14.0001).state == State.FAR
    assert sheet.answer("1.1", 13.9999).text.startswith(pond.notes[0])


def test_a_slip_uses_up_no_general_note(sheet):
    value = drawn("1.1")
    sheet.answer("1.1", round(value.answer / (value.shown["share"] / 100), 2))
    assert sheet.answer("1.1", UNMATCHED[0]).text == pond.notes[0]


def test_far_from_anything_asks_for_the_units(sheet):
    verdict = sheet.answer("1.1", 3e7)
    assert verdict.state == State.FAR and verdict.text.endswith("the answer is an area, in mm².")
    assert sheet.answer("1.1", UNMATCHED[0]).text == pond.notes[0]      # and opens no general note


def test_more_than_five_figures_get_a_remark_and_no_deduction(sheet):
    right = drawn("1.1").answer
    assert "Three or four figures are enough" in sheet.answer("1.1", float(f"{right:.6g}")).text
    assert "figures" not in sheet.answer("1.1", float(f"{right:.5g}")).text


def test_run_all_again_is_no_new_line(desk, sheet):
    for _ in range(3):
        sheet.answer("1.1", 5.01)
        sheet.answer("1.4", "a")
        sheet.predict("p1", "a", 2, "wind")
        sheet.saw("p1", "a")
    assert [line["event"] for line in log_lines(desk)] == ["answer", "answer", "prediction", "saw"]


def test_next_day_everything_is_kept(desk, sheet):
    sheet.answer("1.1", 5.01, "mm2")
    sheet.answer("1.1", 3000, "mm^2")
    sheet.predict("p1", "b", 3, "wind")
    sheet.saw("p1", "b")
    later = lessons_lib.open_sheet("01")
    assert str(later.answer("1.1", ...)).startswith("1.1: nowhere near yet. Kept from before: 3000 mm^2. No one")
    assert later.answer("1.1").state == later.answer("1.1", "  ").state == State.FAR
    assert later.prediction("p1").made == ("b", 3, "wind") and later.prediction("p1").seen == "b"
    assert later.answer("1.1", 6.03).text.startswith(pond.notes[1])


def test_not_answered_yet_leaves_no_trace(desk, sheet):
    for blank in (..., None, "", "  "):
        assert sheet.answer("1.1", blank).state == State.NOT_ANSWERED
    sheet.given("1.1"), sheet.prediction("p1"), sheet.progress(), lessons_lib.progress(), sheet.worked_answer("1.1")
    assert not (desk / "my_work").exists()


def test_a_choice_has_a_note_for_each_letter(sheet):
    assert str(sheet.answer("1.4", "A")) == "1.4: not yet. And the other one?"
    assert str(sheet.answer("1.4", " c ")) == "1.4: right. Both swing."
    assert sheet.answer("m1", "a").text == "Ice is cold."
    assert sheet.answer("1.4", ...).text == 'Kept from before: "c". Both swing.'


def test_an_open_text_is_kept_long_or_short(desk, sheet):
    short, long = sheet.answer("1.5", "Spade."), sheet.answer("1.5", "a spade " * 10)
    assert short.state == State.NOT_YET and "1 of at least 20 words" in short.text
    assert long.state == State.KEPT and "20 words" in long.text
    assert [line["value"] for line in log_lines(desk)] == ["Spade.", ("a spade " * 10).strip()]


def test_a_prediction_is_kept_and_never_scored(sheet):
    card = sheet.prediction("p1")
    assert card.question == "What will the kite do?" and card.options == {"a": "rise", "b": "fall"}
    assert card.made is None and card.seen is None
    assert sheet.predict("p1", "b", 1, "").state == State.KEPT
    assert sheet.saw("p1", "b").text == "Look again: which way does the string point?"
    assert str(sheet.saw("p1", "a")) == "p1: right. It rose."
    assert sheet.prediction("p1").seen == "a"


@pytest.mark.parametrize("choice, sureness, reason", [
    ("e", 1, ""), (1, 1, ""), ("a", 0, ""), ("a", 4, ""), ("a", True, ""), ("a", 2.0, ""), ("a", "2", ""), ("a", 2, 7),
    ("a", 2, "x" * 301), (None, 2, ""), ("a", None, "")])
def test_a_prediction_that_cannot_be_read_is_not_kept(desk, sheet, choice, sureness, reason):
    assert sheet.predict("p1", choice, sureness, reason).state == State.UNREADABLE
    assert sheet.prediction("p1").made is None


def test_how_sure_is_asked_in_the_words_of_the_card(sheet):
    said = sheet.predict("p1", "a", 4, "").text
    assert said.startswith("Say how sure you are: 1 for ")
    assert all(f'{number} for "{words}"' in said for words, number in SURENESS.items())


def test_worked_answers_open_after_three_different_tries(sheet, answers):
    assert sheet.worked_answer("1.1").text == "It opens after 3 different tries; you have made 0."
    for typed in (5.01, 5.01, 6.03, 6.0301):
        sheet.answer("1.1", typed)
    assert sheet.worked_answer("1.1").text == "It opens after 3 different tries; you have made 2."
    sheet.answer("1.1", 8.03)
    worked = sheet.worked_answer("1.1")
    assert worked.state == State.OPEN and worked.text.startswith("The whole pond is")


def test_a_right_answer_opens_the_worked_one(sheet, answers):
    sheet.answer("1.4", "c")
    assert sheet.worked_answer("1.4").text == "Both, because they share a post."


def test_the_worked_text_opens_after_an_own_text_of_twenty_words(sheet, answers):
    sheet.answer("1.5", "word " * 19)
    assert sheet.worked_answer("1.5").state == State.NOT_YET
    sheet.answer("1.5", "word " * 20)
    sheet.answer("1.5", "shorter now")
    assert sheet.worked_answer("1.5").text.startswith("A spade")


def test_what_is_unclear_goes_into_the_log(desk, sheet):
    kept = sheet.unclear("1.1", "why\n π? ")
    assert kept.state == State.KEPT and "nobody else reads it" in kept.text     # a bench for self-study
    assert "has no such exercise" in sheet.unclear("why π?").text      # the number of the exercise is forgotten
    assert log_lines(desk)[0]["line"] == "why π?"
    for line in ("", "x" * 301, 3, None):
        assert sheet.unclear("1.1", line).state == State.UNREADABLE


def test_given_values_are_a_mapping_and_a_table(sheet):
    given, value = sheet.given("1.1"), drawn("1.1")
    assert dict(given) == value.shown and len(given) == 2
    assert f"diameter of the round pond  diameter  {value.shown['diameter']:.2f}" in repr(given)
    html = given._repr_html_()
    assert html.count("<tr>") == 3 and "<th scope=col>quantity</th>" in html
    with pytest.raises(KeyError, match="1.1 has no given value of this name; it has: diameter, share"):
        given["radius"]


def test_columns_are_shown_as_a_table_without_hidden_values(sheet):
    given = sheet.given("1.2")
    assert given["speed"] == tuple(drawn("1.2").shown["speed"]) and "first" not in given
    assert given._repr_html_().count("<table>") == 2
    assert repr(given).splitlines()[-1].split() == ["40", f"{given['speed'][4]:.2f}"]


def test_without_given_values_there_is_a_sentence(sheet):
    assert "no given values" in repr(sheet.given("m1")) and "no such exercise" in sheet.given("7.7")._repr_html_()
    assert dict(sheet.given("7.7")) == {}


def test_progress_of_one_lesson_and_of_all(sheet):
    sheet.answer("1.4", "a")
    sheet.answer("1.4", "c")
    sheet.answer("1.4", "a")
    sheet.predict("p1", "a", 2)
    assert sheet.progress().head == ("exercise", "status", "tries")
    rows = {row[0]: row[1:] for row in sheet.progress().rows}
    assert rows["1.4"] == ("right", "2") and rows["p1"] == ("kept", "") and rows["1.1"] == ("still empty", "")
    assert lessons_lib.progress().rows == (("01", "The garden", "2 of 7"),)
    assert "The garden" in lessons_lib.progress()._repr_html_()


def test_verdicts_are_read_aloud_and_escape_everything(sheet):
    sheet.answer("1.5", "<script>alert(1)</script> & more")
    html = sheet.answer("1.5", ...)._repr_html_()
    assert html.startswith('<p role="status" aria-live="polite"') and "<strong>1.5: not yet.</strong>" in html
    assert "<script>" not in html and "&lt;script&gt;" in html
    assert "<b>" not in sheet.answer("<b>x</b>", 1)._repr_html_() + sheet.given("<b>x</b>")._repr_html_()
    assert "<b>" not in sheet.answer("1.1", 5, "<b>")._repr_html_()


def test_presenting_is_a_state_of_the_process(monkeypatch):
    monkeypatch.setattr(showing, "_presenting", False)
    assert not showing.is_presenting()
    assert "without a prediction" in repr(lessons_lib.presenting())
    assert showing.is_presenting()


def test_without_model_answers_a_worked_answer_is_one_sentence(answers, sheet):
    sheet.answer("1.4", "c")
    answers.unlink()
    assert str(sheet.worked_answer("1.4")) == f"1.4: no sheet. There is no file {answers}."


def test_the_lesson_has_every_kind():
    assert {exercise.kind for exercise in LESSON.exercises} == {"number", "choice", "text", "prediction"}


def test_a_wrong_sign_alone_is_no_matter_of_units(sheet):
    assert sheet.answer("1.1", -UNMATCHED[0]).state == State.NOT_YET


def test_once_right_stays_right_and_is_said(sheet):
    sheet.answer("1.1", drawn("1.1").answer)
    verdict = sheet.answer("1.1", UNMATCHED[0])
    assert verdict.state == State.NOT_YET and verdict.text.endswith("It was right before, and that counts.")


def test_three_dots_in_quotes_are_three_dots(sheet):
    for exercise_id in ("1.1", "1.4"):
        assert sheet.answer(exercise_id, "...").state == State.NOT_ANSWERED


def test_the_text_kept_last_can_go_into_a_report(sheet):
    assert sheet.kept_text("1.5") == sheet.kept_text("1.1") == sheet.kept_text("9.9") == ""
    for text in ("a spade " * 20, "a fork " * 20):
        sheet.answer("1.5", text)
    assert sheet.kept_text("1.5").strip() == ("a fork " * 20).strip()
