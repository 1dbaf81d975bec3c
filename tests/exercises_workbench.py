"""A made-up lesson with the two kinds of the workbench: a pickup to design, and a spring measured by its owner."""
from dataclasses import dataclass, replace

import numpy as np

from lessons_lib.exercises.declaration import (
    Derived, DesignExercise, Entry, FitSlip, Given, Lesson, Limit, MeasuredExercise, TextExercise)
from lessons_lib.exercises.models import HOMES
from lessons_lib.physics.design import GRADES, design_report

TOPS = {"alnico 5": [0.7, 0.6, 0.6, -2.4, -1.9, -0.4], "alnico 2": [0.6, 0.4, 0.4, -2.0, -1.5, -0.4],
        "alnico 3": [0.6, 0.4, 0.4, -1.9, -1.4, -0.3]}      # mm: levels nearly equal


def known(magnet, wire, turns):
    name = list(TOPS)[int(magnet)]
    return {"magnet": name, "wire": int(wire), "turns": int(turns), "tops": TOPS[name]}


def reported(magnet, wire, turns):
    design = known(magnet, wire, turns)
    return design_report(**{**design, "tops": [1e-3 * top for top in design["tops"]]})


def bound(quantity, share, more=0.0):
    return lambda magnet, wire, turns: share * getattr(reported(magnet, wire, turns), quantity) + more


pickup = DesignExercise(
    id="8.5", model="design_report", parts="parts_list", marks=6,
    entries={"magnet": Entry("grade of the rods", options=GRADES),
             "wire": Entry("gauge of the wire, AWG", low=40, high=46, whole=True),
             "turns": Entry("turns", low=1000, high=15000, whole=True),
             "tops": Entry("height of each pole's top over the form, string VI first", unit="mm", low=-3, high=1,
                           count=6)},
    hidden={"magnet": Given("magnet", unit="1", low=0, high=2, step=1),
            "wire": Given("wire", unit="1", low=44, high=45, step=1),
            "turns": Given("turns", unit="1", low=6000, high=7800, step=100)},
    known=known,
    derived={"lowest_resonance": Derived("resonance with the cable, at least", unit="kHz", decimals=2,
                                         formula=bound("resonance", 0.93)),
             "highest_resonance": Derived("resonance with the cable, at most", unit="kHz", decimals=2,
                                          formula=bound("resonance", 1.07)),
             "most_resistance": Derived("resistance, at most", unit="kΩ", decimals=1,
                                        formula=bound("resistance", 1.08)),
             "most_fill": Derived("share of the window, at most", unit="1", decimals=2, formula=bound("fill", 1.06)),
             "least_sensitivity": Derived("sensitivity of string VI, at least", unit="V s/m", decimals=3,
                                          formula=bound("sensitivity", 0.92)),
             "most_spread": Derived("spread of the six levels, at most", unit="dB", decimals=1,
                                    formula=bound("spread", 1.0, more=0.7)),
             "most_copper": Derived("copper, at most", unit="g", decimals=1, formula=bound("copper", 1.08))},
    limits=(
        Limit(quantity="resonance", label="resonance with the cable", least="lowest_resonance",
              most="highest_resonance",
              too_low="It is 1/(2π√(LC)): of the two under the root the cable stays, and L goes with the square of the "
                      "turns, and with the rods' permeability.",
              too_high="It is 1/(2π√(LC)): of the two under the root the cable stays, and L goes with the square of "
                       "the turns, and with the rods' permeability."),
        Limit(quantity="resistance", label="resistance", most="most_resistance",
              too_high="It goes with the turns and with one over the wire's cross-section."),
        Limit(quantity="fill", label="share of the window", most="most_fill",
              too_high="It goes with the turns and with the square of the wire's diameter, coat and all."),
        Limit(quantity="sensitivity", label="sensitivity of string VI", least="least_sensitivity",
              too_low="It goes with the turns, with the field at string VI (grade) and with the first pole's height."),
        Limit(quantity="spread", label="spread of the six levels", most="most_spread",
              too_high="Only the six heights move it much. Which string is loudest?"),
        Limit(quantity="copper", label="copper", most="most_copper",
              too_high="It goes with the turns and with the wire's cross-section.")),
    worked="Between {lowest_resonance} and {highest_resonance}: one way is {design}.",
    teaching_note="Let two benches compare their ways.")


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


HOMES.update(fit_spring="exercises_workbench", stiffness_of_last="exercises_workbench")
EXAMPLE = {"table": [[1.0, 12.1], [2.0, 19.9], [3.0, 28.2], [4.0, 36.1], [5.0, 43.8]], "hook": 20.0}   # invented

spring = MeasuredExercise(
    id="8.1", fit="fit_spring", quantity="stiffness", unit="N/m", size=(20, 800), tolerance=0.02, marks=3,
    columns={"load": Entry("load", unit="N", low=0, high=50), "stretch": Entry("stretch", unit="mm", low=0, high=500)},
    sizes={"hook": Entry("mass of the hook", unit="g", low=0, high=500)},
    slips=(FitSlip("one reading", "stiffness_of_last", "One reading with its hook does not speak for all: what does the "
                                                       "slope of the line say?"),),
    common=("thousand", "two"), rows=(4, 12),
    notes=("Draw load over stretch.", "The slope of the line is asked.", "2 N more for 10 mm more make 200 N/m."),
    example=EXAMPLE, worked="The {rows} invented readings lead to {answer}, ±{tolerance}.", teaching_note="Bring springs.")

# ---- with the library's own fits -------------------------------------------------------------------------------------

coil = MeasuredExercise(
    id="8.2", fit="fit_added_capacitance", quantity="inductance", unit="H", size=(0.1, 30), tolerance=0.03,
    columns={"capacitance": Entry("added capacitance", unit="pF", low=0, high=20000),
             "frequency": Entry("resonance", unit="kHz", low=0.2, high=50)}, rows=(3, 30),
    slips=(FitSlip("own capacitance left out", "inductance_without_own_capacitance",
                   "The coil has some capacitance before you add yours: what do the readings say of it?"),),
    common=("two pi squared", "two pi"),
    notes=("Draw 1/f² over the added capacitance.", "1/(2πf)² = L (C + added).", "Slope 4 s²/F over 1: 4 H."),
    # invented: 2.2 H and 136 pF, three figures
    example={"table": [[0, 9.2], [220, 5.69], [470, 4.36], [1000, 3.18], [2200, 2.22]]},
    worked="The {rows} readings lead to {answer}, ±{tolerance}.")

magnet = MeasuredExercise(
    id="8.3", fit="fit_gauss_readings", quantity="remanence", unit="T", size=(0.05, 1.5), tolerance=0.03,
    columns={"distance": Entry("distance from the face", unit="mm", low=0, high=100),
             "flux_density": Entry("reading", unit="G", low=-20000, high=20000)},
    sizes={"diameter": Entry("diameter of the rod", unit="mm", low=1, high=50),
           "length": Entry("length of the rod", unit="mm", low=1, high=100),
           "recoil_permeability": Entry("recoil permeability", low=1, high=10)}, rows=(4, 30),
    slips=(FitSlip("first reading", "remanence_from_the_first_reading", "That is the field before the face, not the "
                                                                        "magnet's own remanence."),), common=("gauss",),
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
