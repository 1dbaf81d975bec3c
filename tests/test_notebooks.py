"""The stored notebooks: their form, what running gives again, model answers put in, and nothing put in."""
import copy
import os
import re
import subprocess
import sys

import pytest
from nbformat.v4 import new_code_cell, new_markdown_cell

from lessons_lib.base.units import shown_unit
from lessons_lib.course.read_page import WORKED, Ask, GivenCell, Question, TypedIn, WorkedOut, read_page
from lessons_lib.exercises.draws import SELF_STUDY_SECRET, draw
from lessons_lib.exercises.self_study import load_lessons
from notebooks import LIVE, NOTEBOOKS, SOUND, copy_of_notebooks, lessons, pages, read, run, silent_pages, tidy

PATHS = [*lessons(), *silent_pages()]
LESSONS = {lesson.id: lesson for lesson in load_lessons(NOTEBOOKS.parent / "answers")}
FILMED = ("01", "02", "04")     # lessons that open with a film; the others open with sounds
every_notebook = pytest.mark.parametrize("path", PATHS, ids=[path.stem for path in PATHS])


def code_cells(notebook):
    return [cell for cell in notebook.cells if cell.cell_type == "code"]


def lesson_of(path):
    return LESSONS[path.name[:2]]


def of_kind(notebook, *kinds):
    """The cells of a notebook that are one of the kinds of `read_page`."""
    return [cell for cell in read_page(notebook) if isinstance(cell, kinds)]


def test_every_lesson_has_its_notebook():
    assert {path.name[:2] for path in PATHS} == set(LESSONS) and PATHS


@every_notebook
def test_stored_form(path):
    stored = read(path)
    assert tidy(read(path)) == stored, "run tests/store_notebooks.py"
    for cell in stored.cells:
        tags = cell.metadata.get("tags", [])
        assert set(tags) <= {LIVE, SOUND, WORKED}
        if cell.cell_type == "code":
            live = re.search(r"^(panels\.\w+|first_look|vote|curves)\((?!.*\.still\()", cell.source, re.MULTILINE)
            assert bool(live) == (LIVE in tags), cell.source
            sounds = r"^panels\.hear" if path.name[:2] in FILMED else r"^panels\.(hear|opening)"
            assert bool(re.search(sounds, cell.source, re.MULTILINE)) == (SOUND in tags), cell.source
            assert len(cell.source.splitlines()) <= 12
            assert not any(output.output_type == "error" for output in cell.outputs)


@every_notebook
def test_a_new_exercise_changes_no_other_cell(path):
    stored, new = read(path), [new_markdown_cell("### Exercise 9.99\nHow long is the **bench**, in m?"),
                               new_code_cell('sheet.given("9.99")'), new_code_cell('sheet.answer("9.99", ..., "m")')]
    ids = [cell.id for cell in stored.cells]
    assert len(set(ids)) == len(ids) and all(re.fullmatch(r"[a-z][\w-]{1,63}", name, re.ASCII) for name in ids)
    for place in range(len(ids) + 1):
        if ids[place:place + 1] != ["return_work"]:     # the text before it says how to run what follows
            page = copy.deepcopy(stored)
            page.cells[place:place] = copy.deepcopy(new)
            assert [cell.id for cell in tidy(page).cells] == [
                *ids[:place], "exercise-9-99", "given-9-99", "answer-9-99", *ids[place:]]
            assert page.cells[:place] + page.cells[place + 3:] == stored.cells


def test_all_pages_together_stay_small():
    size = sum(path.stat().st_size for path in NOTEBOOKS.rglob("*") if "my_work" not in path.parts and path.is_file())
    assert size < 8e6


@every_notebook
def test_each_picture_in_the_page_has_words(path):
    for cell in code_cells(read(path)):
        for output in cell.outputs:
            page = output.get("data", {}).get("text/html", "")
            assert "image/png" not in output.get("data", {})
            for tag in re.findall(r"<img[^>]*>", page):
                words = re.search(r'alt="([^"]*)"', tag)[1]
                assert len(words) > 60 and len(re.findall(r"\d", words)) >= 3, words


@every_notebook
def test_nobodys_answers_are_stored(path):
    assert of_kind(read(path), TypedIn) == []


@every_notebook
def test_every_exercise_has_question_answer_cell_and_declaration(path):
    notebook, lesson = read(path), lesson_of(path)
    questions = {cell.exercise_id: cell for cell in of_kind(notebook, Question)}
    asked, given = ({cell.exercise_id for cell in of_kind(notebook, *kinds)}
                    for kinds in ((Ask, WorkedOut), (GivenCell,)))
    for exercise in lesson.exercises:
        if exercise.kind == "prediction":
            continue    # its panel asks; test_lesson_NN.py looks after it
        head = f"**{exercise.id}.**" if exercise.quick or exercise.kind == "item" else f"### Exercise {exercise.id}"
        assert exercise.id in questions and questions[exercise.id].source.startswith(head), f"no question {exercise.id}"
        assert exercise.id in asked, f"no answer cell {exercise.id}"
        assert exercise.kind != "number" or exercise.id in given, f"no given values {exercise.id}"
    code = "\n".join(cell.source for cell in code_cells(notebook))
    named = set(re.findall(r'sheet\.(?:answer|given)\("([^"]+)"', code)) | set(questions) | asked | given
    assert named <= {exercise.id for exercise in lesson.exercises}


@every_notebook
def test_given_values_named_in_the_question_are_the_declared_ones(path):
    questions = {cell.exercise_id: cell.text for cell in of_kind(read(path), Question)}
    for exercise in lesson_of(path).exercises:
        if exercise.kind == "number":
            text = questions[exercise.id]
            named = {name for name in re.findall(r"\*\*([^*]+)\*\*", text)}
            # the values of the exercise that this one follows were named there
            assert set(exercise.given) | set(exercise.derived) <= named <= set(exercise.shown), exercise.id
            asks = exercise.unit == "1" or f"in {shown_unit(exercise.unit)}" in text
            assert asks, f"{exercise.id} does not ask for a unit"


@every_notebook
def test_options_in_the_question_are_the_declared_ones(path):
    questions = {cell.exercise_id: cell.text for cell in of_kind(read(path), Question)}
    for exercise in lesson_of(path).exercises:
        if exercise.is_scored:      # the panel of a prediction asks
            for letter, option in getattr(exercise, "options", {}).items():
                assert f"({letter}) {option}" in questions[exercise.id], f"{exercise.id}, {letter}"


@pytest.mark.parametrize("half", (0, 1))
def test_strict_nbval_on_a_copy(half):
    """What is stored is what running gives again (figures apart); in two halves, since each start takes seconds."""
    sanitizer = NOTEBOOKS.parent / "tests" / "nbval_sanitize.cfg"
    with copy_of_notebooks() as folder:
        result = subprocess.run(
            [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", "-p", "no:xdist", "--rootdir", str(folder),
             "--nbval", "--nbval-current-env", "--nbval-cell-timeout=120", "--nbval-sanitize-with", str(sanitizer),
             *(path.name for path in pages()[half::2])],
            cwd=folder, env=dict(os.environ), capture_output=True, text=True)
    assert result.returncode == 0, result.stdout[-5000:]
    assert re.search(r"\d+ passed", result.stdout)


def run_with(path, value_of):
    """Run a copy of the notebook with value_of(id) put in for the three dots; id -> the verdict's text."""
    with copy_of_notebooks() as folder:
        notebook, before = read(path), set(folder.iterdir())
        for cell in of_kind(notebook, Ask):
            notebook.cells[cell.place].source = cell.source.replace(cell.empty, value_of(cell.exercise_id), 1).replace(
                "sure=...", "sure=3").replace('because="..."', 'because="by rough numbers"')
        verdicts = verdicts_of(run(notebook, folder))
        assert {one.name for one in set(folder.iterdir()) - before} == {"my_work"}, "it wrote what nobody asked for"
        return verdicts


def verdicts_of(notebook):
    """Exercise -> the text of the verdict under its answer cell."""
    return {cell.exercise_id: cell.results[-1] for cell in of_kind(notebook, Ask, WorkedOut)}


def right_value(exercise):
    drawn = draw(exercise, secret=SELF_STUDY_SECRET, bench="b000") if exercise.is_drawn else None
    value, _, _ = exercise.model_answer(drawn)
    return repr(exercise.claim(value) if callable(value) else value)


@every_notebook
def test_with_the_model_answers_all_is_right(path):
    exercises = {exercise.id: exercise for exercise in lesson_of(path).exercises}
    verdicts = run_with(path, lambda exercise_id: right_value(exercises[exercise_id]))
    assert verdicts
    for exercise_id, verdict in verdicts.items():
        state = "kept" if exercises[exercise_id].is_text or lesson_of(path).silent else "right"
        assert verdict.startswith(f"{exercise_id}: {state}."), verdict


@every_notebook
def test_empty_it_runs_through_and_says_so(path):
    """The stored outputs are those of an empty run: test_strict_nbval_on_a_copy holds it."""
    empty = {cell.exercise_id for cell in of_kind(read(path), Ask)}
    verdicts = verdicts_of(read(path))
    assert empty
    for exercise_id in empty:
        assert verdicts[exercise_id].startswith(f"{exercise_id}: still empty."), verdicts[exercise_id]
