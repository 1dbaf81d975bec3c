"""The model answers: 300 draws of every exercise hold what a given-out number must hold."""
import json

import pytest

from lessons_lib.course.sheets import load_lessons, write_sheets
from lessons_lib.exercises.review import review
from notebooks import NOTEBOOKS

ANSWERS = NOTEBOOKS.parent / "answers"
LESSONS = load_lessons(ANSWERS)


@pytest.mark.parametrize("exercise", [e for lesson in LESSONS for e in lesson.exercises],
                         ids=[f"{lesson.id}-{e.id}" for lesson in LESSONS for e in lesson.exercises])
def test_300_draws_have_no_fault(exercise):
    assert list(review(exercise, draws=300)) == []


def test_every_slip_has_a_note_that_does_not_name_the_person_or_the_value():
    for lesson in LESSONS:
        for exercise in lesson.exercises:
            for slip in getattr(exercise, "slips", ()):
                assert len(slip.note.split()) >= 5, f"{exercise.id}, {slip.name}"
                assert "{" not in slip.note, f"{exercise.id}, {slip.name}: a note never carries a value"


@pytest.mark.parametrize("lesson", LESSONS, ids=lambda lesson: lesson.id)
def test_a_marked_lesson_is_complete(lesson):
    kinds = [exercise.kind for exercise in lesson.exercises]
    quick = [exercise for exercise in lesson.exercises if exercise.quick]
    if lesson.id == "00":
        return
    assert [exercise.id for exercise in quick] == ["m1", "m2", "m3"]
    assert kinds.count("text") == 1 and kinds.count("prediction") >= 3
    for exercise in lesson.exercises:
        if exercise.kind in ("number", "text"):
            assert exercise.worked and exercise.teaching_note, exercise.id
        if exercise.kind == "text":
            assert exercise.rubric and exercise.marks > 0


def test_stored_sheets_are_those_of_the_answers(tmp_path):
    written = write_sheets(answers=ANSWERS, notebooks=tmp_path)
    assert written
    for path, _ in written:
        stored = NOTEBOOKS / path.relative_to(tmp_path)
        assert stored.read_bytes() == path.read_bytes(), f"{stored.name} is old: run python -m lessons_lib sheets"


def test_no_sheet_holds_a_right_answer():
    from lessons_lib.exercises.draws import SELF_STUDY_SECRET, draw
    for lesson in LESSONS:
        for path in (NOTEBOOKS / "sheets" / lesson.id).glob("*.json"):
            text = path.read_text(encoding="utf-8")
            records = json.loads(text)["exercises"]
            for exercise in lesson.exercises:
                if exercise.kind == "number":
                    right = draw(exercise, secret=SELF_STUDY_SECRET, bench=path.stem).answer
                    assert f"{right:.8g}" not in text or len(f"{right:.8g}") < 6, f"{path.name} {exercise.id}"
                elif exercise.kind == "choice":
                    assert exercise.right not in str(records[exercise.id]["right"])[:1] or \
                        len(records[exercise.id]["right"]) > 10
