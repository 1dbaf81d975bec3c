"""Questions that are no forward calculation: how many there are, a device from elsewhere, what is asked from memory."""
import re

import pytest

from lessons_lib.course.read_page import Question, read_page
from lessons_lib.exercises.self_study import load_lessons
from notebooks import ANSWERS, lessons, read

LESSONS = {lesson.id: lesson for lesson in load_lessons(ANSWERS) if not lesson.silent and lesson.id != "00"}
THINKING = {"formula", "order", "curve", "points", "estimate", "design"}
each = pytest.mark.parametrize("lesson_id", LESSONS)


def page_of(lesson_id):
    return read(next(path for path in lessons() if path.name.startswith(lesson_id)))


@each
def test_a_lesson_has_three_such_questions_and_more(lesson_id):
    kinds = [one.kind for one in LESSONS[lesson_id].exercises]
    assert sum(kind in THINKING for kind in kinds) >= 3


def test_there_are_thirty_of_them_and_every_kind_is_used():
    kinds = [one.kind for lesson in LESSONS.values() for one in lesson.exercises if one.kind in THINKING]
    assert len(kinds) >= 30 and set(kinds) == THINKING
    core = [one for lesson in LESSONS.values() for one in lesson.exercises if one.kind in THINKING and not one.further]
    assert len(core) >= 15


@each
def test_one_device_is_no_pickup_and_has_its_exercise(lesson_id):
    """A section "Elsewhere", with an exercise in it."""
    text, found = "", []
    for piece in read_page(page_of(lesson_id)):
        if head := re.findall(r"^## (.*)$", piece.source, re.MULTILINE) if hasattr(piece, "source") else []:
            text = head[0 if isinstance(piece, Question) and piece.source.startswith("##") else -1]
        if isinstance(piece, Question) and "Elsewhere: " in text:
            found.append(piece.exercise_id)
    assert found, "no exercise below a heading with Elsewhere:"


@each
def test_three_questions_from_memory_one_of_them_a_line(lesson_id):
    """The line's sentence is word for word on the earlier page that it names."""
    asked = [one for one in LESSONS[lesson_id].exercises if one.quick and not one.is_on_a_step]
    lines = [one for one in asked if one.kind == "recall"]
    assert len(asked) == 3 and len(lines) == 1
    [line] = lines
    said = re.search(r"\d", line.where)
    earlier = f"{int(said[0]):02d}" if said else "00"
    assert earlier < lesson_id
    text = re.sub(r"[*_]", "", " ".join(cell.source for cell in page_of(earlier).cells if cell.cell_type == "markdown"))
    assert " ".join(line.sentence.rstrip(".").split()) in " ".join(text.split())
