"""The page of the made-up lesson of the workbench, and what is typed there: designs and readings."""
import json

import numpy as np

import lessons_lib
from exercises_lesson import lay_answers
from exercises_workbench import EXAMPLE, LESSON, pickup
from lessons_lib.exercises.draws import SELF_STUDY_SECRET, draw
from lessons_lib.exercises.making import make_sheet

SELF = {"secret": SELF_STUDY_SECRET, "bench": "b000"}
SHEET = make_sheet(LESSON, **SELF)
KNOWN = draw(pickup, **SELF).known_design
FLAT = {**KNOWN, "tops": [0.0] * 6}
READINGS = {"table": EXAMPLE["table"], "hook": EXAMPLE["hook"]}
STIFFNESS = float(np.polyfit([row[1] / 1e3 for row in EXAMPLE["table"]], [row[0] for row in EXAMPLE["table"]], 1)[0])


def open_page(tmp_path, monkeypatch):
    """The lesson's sheet, as a page opens it that has the model answers beside it."""
    (page := tmp_path / "notebooks").mkdir()
    lay_answers(page, "exercises_workbench", "08")
    monkeypatch.chdir(page)
    monkeypatch.delenv("LESSONS_WORK_FOLDER", raising=False)
    return lessons_lib.open_sheet("08")


def events(tmp_path):
    path = tmp_path / "notebooks" / "my_work" / "log-b000.jsonl"
    return [json.loads(line) for line in path.read_bytes().splitlines()] if path.exists() else []
