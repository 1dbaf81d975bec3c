"""On each page the headings of sections and exercises end in their word, core or further, as it is declared."""
import re

import pytest

from lessons_lib.course.read_page import Prose, Question, read_page
from lessons_lib.exercises.self_study import load_lessons
from notebooks import ANSWERS, lessons, read
from test_closed_until_seen import panels_of

LESSONS = {lesson.id: lesson for lesson in load_lessons(ANSWERS)}
SECTION = re.compile(r"^## (.+?)(?: \((core|further)\))?[ \t]*$", re.MULTILINE)
each_page = pytest.mark.parametrize("path", lessons(), ids=lambda path: path.name[:2])
BY_HAND, LONGEST, MOST = 0.25, 110, 2       # share of the core's marks; letters and marks of a point


def sections(page):
    """(heading, word, cells) of each section; a heading without number that has no word is core."""
    found = [("beginning", "core", [])]
    for cell in page:
        heads = list(SECTION.finditer(cell.source)) if isinstance(cell, Prose) else []
        if not heads or heads[0].start() > 0 and isinstance(cell, Question):
            found[-1][2].append(cell)       # the question comes before the heading
        found += [(head[1], head[2] or ("" if head[1][0].isdecimal() else "core"), []) for head in heads]
        if heads and not isinstance(cell, Question):
            found[-1][2].append(cell)
    return found


@each_page
def test_each_heading_ends_in_its_word(path):
    page = read_page(read(path))
    without = [f"## {heading}" for heading, word, _ in sections(page) if not word]
    without += [f"### Exercise {cell.exercise_id}" for cell in page if isinstance(cell, Question) and not cell.word
                and not LESSONS[path.name[:2]][cell.exercise_id].quick]
    assert not without, f"{path.name}: these headings lack (core) or (further): {'; '.join(without)}"


@each_page
def test_quick_questions_have_no_word(path):
    quick = [one.id for one in LESSONS[path.name[:2]].exercises if one.quick]
    assert not [cell.exercise_id for cell in read_page(read(path)) if isinstance(cell, Question) and cell.word
                and cell.exercise_id in quick]


@each_page
def test_the_declaration_agrees_with_the_page(path):
    lesson = LESSONS[path.name[:2]]
    for heading, section, found in sections(read_page(read(path))):
        for cell in found:
            if isinstance(cell, Question) and cell.word:
                what, further = f"{path.name}, {cell.exercise_id}", lesson[cell.exercise_id].further
                assert further == (cell.word == "further"), f"{what}: its heading says {cell.word}"
                assert further or section != "further", f"{what} is core in a further section: {heading}"


@each_page
def test_a_prediction_is_what_its_section_is(path):
    for page, place, prediction in panels_of(path):
        heading, word = next((heading, word) for heading, word, found in sections(page)
                             if any(cell is page[place] for cell in found))
        assert prediction.further == (word == "further"), f"{path.name}, {prediction.id}: {heading} is {word}"


@pytest.mark.parametrize("lesson", [one for one in LESSONS.values() if one.id != "00"], ids=lambda one: one.id)
def test_at_most_a_quarter_of_the_cores_marks_is_given_by_hand(lesson):
    core = [one for one in lesson.exercises if one.is_marked and not one.further]
    by_hand, marks = sum(one.marks for one in core if one.is_by_hand), sum(one.marks for one in core)
    assert by_hand <= BY_HAND * marks, f"lesson {lesson.id}: {by_hand:g} of the core's {marks:g} marks"


@pytest.mark.parametrize("lesson", LESSONS.values(), ids=lambda one: one.id)
def test_the_points_of_a_rubric_can_be_ticked(lesson):
    """Each is a short line, of one mark or two."""
    unlike = [f"{exercise.id} ({marks:g} marks, {len(point)} letters): {point}" for exercise in lesson.exercises
              for marks, point in getattr(exercise, "rubric", ()) if len(point) > LONGEST or marks > MOST]
    assert not unlike, "\n".join(unlike)
