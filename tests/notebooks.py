"""The stored notebooks as data: find them, run them on a copy, put them into the form in which they are stored."""
import os
import shutil
import tempfile
from contextlib import contextmanager
from pathlib import Path

import nbformat
from nbclient import NotebookClient

from cell_ids import name_cells
from lessons_lib.exercises.self_study import load_lesson, self_study_sheet

NOTEBOOKS = Path(__file__).resolve().parent.parent / "notebooks"
WHOLE = NOTEBOOKS / "whole_pickup.ipynb"      # of no lesson: no exercises, no sheet
WORDS = NOTEBOOKS / "words_and_symbols.ipynb"      # to read: no code at all
ANSWERS = NOTEBOOKS.parent / "answers"
os.environ.setdefault("JUPYTER_PREFER_ENV_PATH", "1")   # a stale kernel of the user's must not win over ours
os.environ.pop("LESSONS_WORK_FOLDER", None)     # a copy keeps its work in itself, not where the user's is
LIVE = "nbval-ignore-output"     # panels and sound: such a cell stores no output
FOLD = '<details class="lesson-fold"><summary>What it means: open it when you have looked</summary>'
SOUND = "plays-sound"            # a handout says there that the page is needed


def lessons():
    """The lesson notebooks, in order."""
    return sorted(NOTEBOOKS.glob("0[0-9]_*.ipynb"))


def silent_pages():
    """The pages that keep answers and say nothing of them: tests and examinations."""
    return sorted(NOTEBOOKS.glob("9[0-9]_*.ipynb"))


def pages():
    """The lesson notebooks, tests and examinations, the whole pickup, words and symbols, and the instructor's desk."""
    return [*lessons(), *silent_pages(), WHOLE, WORDS, NOTEBOOKS / "instructor_desk.ipynb"]


def read(path):
    return nbformat.read(path, as_version=4)


@contextmanager
def copy_of_notebooks():
    """A temporary copy of the notebooks, nothing answered yet, the model answers beside it; yields the folder."""
    with tempfile.TemporaryDirectory() as home:
        folder = Path(home) / "notebooks"
        shutil.copytree(NOTEBOOKS, folder, ignore=shutil.ignore_patterns("my_work", ".ipynb_checkpoints"))
        shutil.copytree(ANSWERS, folder.parent / "answers", ignore=shutil.ignore_patterns("__pycache__"))
        yield folder


def sheet_of(lesson_id, bench="b000"):
    """What a self-study bench's sheet of a lesson holds."""
    return self_study_sheet(load_lesson(ANSWERS / f"lesson_{lesson_id}.py"), bench)


def run(notebook, folder):
    """Run every cell of the notebook in the folder, in place; the first error stops it."""
    client = NotebookClient(notebook, timeout=120, kernel_name="python3", record_timing=False,
                            store_widget_state=False, coalesce_streams=True,
                            resources={"metadata": {"path": str(folder)}})
    return client.execute()


def tidy(notebook):
    """The notebook as it is stored: ids by `name_cells`, one count, no widget state, live cells without output."""
    name_cells(notebook)
    for cell in notebook.cells:
        tags = cell.metadata.get("tags", [])
        cell["metadata"] = {"tags": tags} if tags else {}
        if cell.cell_type == "code":
            cell["execution_count"] = 1     # nbval wants a count, and a new cell may not move those of the others
            cell["outputs"] = [] if LIVE in tags else [_counted(output) for output in cell.outputs]
    notebook["metadata"] = {
        "kernelspec": {"display_name": "Python 3 (ipykernel)", "language": "python", "name": "python3"},
        "language_info": {"name": "python"}}
    return notebook


def _counted(output):
    if "execution_count" in output:
        output["execution_count"] = 1
    return output


def prose(lesson):
    """All Markdown of a lesson's notebook, "01"."""
    path = next(path for path in lessons() if path.name.startswith(lesson))
    return "\n".join(cell.source for cell in read(path).cells if cell.cell_type == "markdown")


def assert_printed(value, words, text):
    """The words stand in the text, and their number is the value rounded to as many digits."""
    assert words in text
    printed = "".join(character for character in words.replace("−", "-") if character in "0123456789.-").strip(".")
    digits = len(printed.replace("-", "").replace(".", "").lstrip("0"))
    assert float(f"{value:.{digits}g}") == float(printed)
