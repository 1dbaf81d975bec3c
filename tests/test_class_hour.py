"""A class hour: letters typed in, the two counts side by side, nothing told before both are in."""
import re

import pytest

import lessons_lib
from lessons_lib.exercises import showing
from lessons_lib.exercises.declaration import Lesson, ToVote
from lessons_lib.exercises.verdicts import State
from lessons_lib.page.class_hour import ClassHour, counts_html, read_hands

TWIN = ToVote(question="Is 3 < 4?", options={"a": "no", "b": "yes"}, right="b", because="Three is less than four.")
FIRST = ToVote(question="Is 1 < 2?", options={"a": "yes", "b": "no", "c": "it depends"}, right="a",
               because="One is less than two.", twin=TWIN)
SECOND = ToVote(question="Is 5 < 6?", options={"a": "no", "b": "yes"}, right="b", because="Five is less.")
LESSON = Lesson(id="01", title="Numbers", version=1, exercises=(), to_vote=(FIRST, SECOND))


@pytest.mark.parametrize("typed, hands", [
    ("aabbc", (2, 2, 1)), ("A a, B", (2, 1, 0)), ("a 12, b 5", (12, 5, 0)), ("c: 3 a=2", (2, 0, 3)),
    ("b5", (0, 5, 0)), (" c ", (0, 0, 1)), ("a 2 a 3", (5, 0, 0)), ("a;b.c", (1, 1, 1)), ("a 0, b 4", (0, 4, 0))])
def test_letters_and_counts_are_read(typed, hands):
    assert tuple(read_hands(typed, FIRST.options).values()) == hands


@pytest.mark.parametrize("typed", ["", "   ", "d", "12", "a 12 b", "a -3", "aab!", "ab<script>", "a 9999", "é" * 5000])
def test_what_is_neither_gets_one_sentence(typed):
    with pytest.raises(ValueError, match=r"^(Type a letter|At most)") as refused:
        read_hands(typed, FIRST.options)
    assert len(str(refused.value)) < 220


def test_an_hour_goes_question_talk_question_twin():
    hour = ClassHour(LESSON)
    assert "Is 1 &lt; 2?" in hour.page.value and "all hands at once" in hour.page.value
    hour.typed.value = "aabbbb"
    hour.count.click()
    # nobody is told how the first vote went, or what is right, before the second is in
    assert "Talk in pairs" in hour.page.value
    assert "lesson-hour-bar" not in hour.page.value and "✓" not in hour.page.value
    assert FIRST.because not in hour.page.value and "6 hands are counted." in hour.said.value
    hour.typed.value = "a 5, b 1"
    hour.count.click()
    said = re.sub("<[^>]+>", " ", hour.page.value)
    assert "before talking: 2 of 6 (33 %)" in said and "after talking: 5 of 6 (83 %)" in said
    assert "yes  ✓ right" in said and FIRST.because in said and hour.typed.disabled
    assert hour.go_on.description == "Its twin"
    hour.go_on.click()
    assert "Is 3 &lt; 4?" in hour.page.value and ", its twin" in hour.page.value and not hour.typed.disabled
    hour.typed.value = "bbbbba"
    hour.count.click()
    assert "vote: 5 of 6 (83 %)" in hour.page.value and TWIN.because in hour.page.value
    hour.go_on.click()
    assert "Is 5 &lt; 6?" in hour.page.value and hour.votes == []
    hour.go_on.click()
    assert "Is 1 &lt; 2?" in hour.page.value        # after the last the first


def test_what_cannot_be_read_loses_nothing():
    hour = ClassHour(LESSON)
    hour.typed.value = "xyz"
    hour.count.click()
    assert hour.votes == [] and "Type a letter for each hand" in hour.said.value
    assert hour.typed.value == "xyz"


def test_back_begins_the_question_before_anew():
    hour = ClassHour(LESSON)
    hour.go_on.click()
    hour.typed.value = "ab"
    hour.count.click()
    hour.go_back.click()
    assert "Is 1 &lt; 2?" in hour.page.value and hour.votes == []


def test_nobody_votes_is_no_division():
    assert "0 of 0 (0 %)" in counts_html(FIRST, [("vote", dict.fromkeys("abc", 0))], shows_right=True)


def test_what_is_typed_and_declared_is_escaped():
    nasty = ToVote(question="<b>?", options={"a": "<i>", "b": "2"}, right="a", because="<u>")
    html = counts_html(nasty, [], shows_right=True)
    assert "<i>" not in html and "<u>" not in html and "&lt;i&gt;" in html


# ---- presenting ------------------------------------------------------------------------------------------------------

@pytest.fixture
def page(tmp_path, monkeypatch):
    """A folder of pages beside model answers of a lesson with questions and of one without."""
    (tmp_path / "notebooks").mkdir()
    (tmp_path / "answers").mkdir()
    head = "from lessons_lib.exercises.declaration import Lesson, ToVote\n"
    question = 'ToVote(question="?", options={"a": "1", "b": "2"}, right="a", because="so")'
    for lesson_id, more in (("01", f", to_vote=({question},)"), ("02", "")):
        (tmp_path / f"answers/lesson_{lesson_id}.py").write_text(
            f'{head}LESSON = Lesson(id="{lesson_id}", title="x", version=1, exercises=(){more})\n')
    monkeypatch.chdir(tmp_path / "notebooks")
    monkeypatch.setattr(showing, "_presenting", False)


def test_presenting_opens_panels_and_shows_a_lessons_questions(page):
    assert lessons_lib.presenting().text == "Presenting: every panel opens without a prediction."
    hour = lessons_lib.presenting("01")
    assert isinstance(hour, ClassHour) and showing.is_presenting()
    assert lessons_lib.presenting("02").text.endswith("Lesson 02 has no questions to vote on.")
    missing = lessons_lib.presenting("07")
    assert missing.state == State.NO_SHEET and "in the model answers" in missing.text
