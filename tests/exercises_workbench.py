"""A made-up lesson with the two kinds of the workbench: a pickup to design, and a spring measured by its owner."""
import sys
from dataclasses import dataclass, replace

import numpy as np

from lessons_lib.exercises.declaration import Entry, FitSlip, Lesson, MeasuredExercise, TextExercise
from lessons_lib.exercises.models import HOMES
from lessons_lib.exercises.self_study import load_lessons
from notebooks import NOTEBOOKS

# the lesson's own design exercise under another number
pickup = replace(next(exercise for lesson in load_lessons(NOTEBOOKS.parent / "answers") if lesson.id == "08"
                      for exercise in lesson.exercises if exercise.id == "8.7"), id="8.5")


@dataclass
class Fit:
    """What a fit of the library offers to an exercise."""

    value: float
    sigma: float

    def __getitem__(self, name):
        return {"stiffness": self.value}[name]

    def interval(self, name):
        return self[name] - 1.96 * self.sigma, self[name] + 1.96 * self.sigma


def fit_spring(load, stretch, *, hook=0.0):
    """Stiffness by the straight line of load over stretch; the hook hangs there, too."""
    load, stretch = np.array(load) + 9.81 * hook, np.array(stretch)
    if np.ptp(stretch) == 0:
        raise ValueError("stretch must be of two different sizes; got one.")
    slope, start = np.polyfit(stretch, load, 1)
    rest = load - slope * stretch - start
    return Fit(slope, float(np.sqrt(rest @ rest / max(1, len(load) - 2) / np.sum((stretch - stretch.mean()) ** 2))))


def stiffness_of_last(load, stretch, **sizes):
    return load[-1] / stretch[-1]


HOMES.update(dict.fromkeys(("fit_spring", "stiffness_of_last"), lambda: sys.modules[__name__]))
EXAMPLE = {"table": [[1.0, 12.1], [2.0, 19.9], [3.0, 28.2], [4.0, 36.1], [5.0, 43.8]], "hook": 20.0}   # invented

spring = MeasuredExercise(
    id="8.1", fit="fit_spring", quantity="stiffness", unit="N/m", size=(20, 800), tolerance=0.02, marks=3,
    columns={"load": Entry("load", unit="N", low=0, high=50), "stretch": Entry("stretch", unit="mm", low=0, high=500)},
    sizes={"hook": Entry("mass of the hook", unit="g", low=0, high=500)},
    slips=(FitSlip("one reading", "stiffness_of_last",
                   "One reading with its hook does not speak for all: what does the "
                                                       "slope of the line say?"),),
    common=("thousand", "two"), rows=(4, 12),
    notes=("Draw load over stretch.", "The slope of the line is asked.", "2 N more for 10 mm more make 200 N/m."),
    example=EXAMPLE, worked="The {rows} invented readings lead to {answer}, ±{tolerance}.",
    teaching_note="Bring springs.")

# ---- with the library's own fits -------------------------------------------------------------------------------------

coil = MeasuredExercise(
    id="8.2", fit="fit_added_capacitance", quantity="inductance", unit="H", size=(0.1, 30), tolerance=0.03,
    columns={"capacitance": Entry("added capacitance", unit="pF", low=0, high=20000),
             "frequency": Entry("resonance", unit="kHz", low=0.2, high=50)}, rows=(3, 30),
    slips=(FitSlip("self-capacitance left out", "inductance_without_own_capacitance",
                   "The coil has some capacitance before you add yours: what do the readings say of it?"),),
    common=("two pi squared", "two pi"),
    notes=("Draw 1/f² over the added capacitance.", "1/(2πf)² = L (C + added).", "Slope 4 s²/F over 1: 4 H."),
    # invented: 2.2 H and 136 pF, three figures
    example={"table": [[0, 9.2], [220, 5.69], [470, 4.36], [1000, 3.18], [2200, 2.22]]},
    worked="The {rows} readings lead to {answer}, ±{tolerance}.")

magnet = MeasuredExercise(
    id="8.3", fit="fit_gauss_readings", quantity="flux", unit="uWb", size=(0.05, 2500), tolerance=0.03,
    columns={"distance": Entry("distance from the face", unit="mm", low=0, high=100),
             "flux_density": Entry("reading", unit="G", low=-20000, high=20000)},
    sizes={"diameter": Entry("diameter of the rod", unit="mm", low=1, high=50),
           "length": Entry("length of the rod", unit="mm", low=1, high=100),
           "recoil_permeability": Entry("recoil permeability", low=1, high=10)}, rows=(4, 30),
    slips=(FitSlip("first reading", "flux_of_the_first_reading", "That is the flux before the face, where the probe "
                                                                 "was."),), common=("gauss",),
    notes=("Draw reading over distance.", "The whole curve is asked.", "A twin."),
    # invented: the workshop's rod of 0.75 T, 0.35 mm inside of the probe, three figures
    example={"table": [[0, 1650.0], [1, 1120.0], [2, 723.0], [3, 476.0], [5, 233.0], [8, 104.0], [12, 46.7]],
             "diameter": 5, "length": 17, "recoil_permeability": 3.6},
    worked="The {rows} readings lead to {answer}, ±{tolerance}.")

essay = TextExercise(id="8.9", rubric=((2, "names a way"), (1, "says why")), worked="Heavier rods.")

FIRST = Lesson(id="00", title="Before the workbench", version=1, exercises=(replace(essay, id="0.1", rubric=()),))


def write_course(folder):
    """Model answers with this lesson as lesson 08, and an empty page for each lesson; returns the two folders."""
    answers, pages = folder / "answers", folder / "pages"
    for one in (answers, pages):
        one.mkdir(parents=True)
    (answers / "lesson_00.py").write_text("from exercises_workbench import FIRST as LESSON\n")
    (answers / "lesson_08.py").write_text("from exercises_workbench import LESSON\n")
    for name in ("00_start_here.ipynb", "08_build_and_measure.ipynb"):
        (pages / name).write_text('{"cells": [], "metadata": {}, "nbformat": 4, "nbformat_minor": 5}')
    return answers, pages


LESSON = Lesson(id="08", title="Build and measure", version=1, exercises=(spring, coil, magnet, pickup, essay))
