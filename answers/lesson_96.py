"""Lesson 96, the examination, form B: the bank of form A in other words, with letters and an open question of its own.

Of a number nothing is declared here but what its given values are called: ranges, formulas, tolerances, slips and marks
are those of form A.
"""
from dataclasses import replace
from pathlib import Path

from lessons_lib.exercises.declaration import ChoiceExercise, Lesson, TextExercise
from lessons_lib.exercises.self_study import load_lesson

FORM_A = load_lesson(Path(__file__).with_name("lesson_95.py"))

LABELS = {
    "95.1": {"diameter": "diameter of the hole", "field": "mean flux density in it"},
    "95.3": {"mmf": "MMF of the bar", "magnet": "reluctance of the bar", "air": "reluctance of screw and air together"},
    "95.4": {"length": "distance of the two ends", "diameter": "diameter of the rods"},
    "95.5": {"mmf": "MMF of the rod", "magnet": "reluctance of the rod", "near": "air near the pole",
             "far": "the rest of the air", "branch": "branch of the pin"},
    "95.6": {"away": "screw turned down by", "decay": "decay length of its signal"},
    "95.7": {"turns": "number of turns", "slope": "flux in each turn, change with the distance",
             "speed": "speed of the magnet"},
    "95.10": {"turns": "number of turns", "time": "instant", "flux": "flux through every turn"},
    "95.11": {"force": "force of the hook", "tension": "tension of the wire", "density": "mass of the wire per length"},
    "95.12": {"resistance": "resistance of the winding", "inductance": "its inductance",
              "frequency": "frequency of the current"},
    "95.13": {"inductance": "inductance of the winding", "own": "its self-capacitance",
              "cable": "capacitance of the lead"},
    "95.14": {"resistance": "resistance of the winding", "load": "controls and amplifier together"},
}


def of_form_b(exercise):
    """The same exercise with its given values called otherwise."""
    labels = LABELS[exercise.id]
    given, derived = ({name: replace(one, label=labels[name]) for name, one in values.items()}
                      for values in (exercise.given, exercise.derived))
    return replace(exercise, id=exercise.id.replace("95.", "96."), given=given, derived=derived)


OWN = {
    "95.2": ChoiceExercise(
        id="96.2", right="a",
        options={"a": "6 µWb enter the box",
                 "b": "6 µWb leave the box, too",
                 "c": "nothing passes, because no other side is near a pole",
                 "d": "some flux enters, more for a larger box"},
        notes={"a": "What leaves a closed surface has entered it somewhere.",
               "b": "Then more would leave than enters. Where would it begin?",
               "c": "Lines of flux have no ends. Where do those that leave through the lid come in?",
               "d": "On a larger box the field is weaker, and the area larger. And in all?"},
        worked="The flux through a closed surface adds up to zero: what leaves through the lid enters through the "
               "other sides, whatever the size of the box."),
    "95.8": ChoiceExercise(
        id="96.8", right="d",
        options={"a": "constant, then zero, then constant with the same sign and three times as large",
                 "b": "falling, then constant, then rising three times as steeply",
                 "c": "constant, then zero, then constant with the other sign and a third as large",
                 "d": "constant, then zero, then constant with the other sign and three times as large"},
        notes={"a": "Once the flux falls, once it grows. What does that do to the sign?",
               "b": "That is the graph of the flux. The voltage follows its slope.",
               "c": "The same change in a third of the time: is the slope larger or smaller?",
               "d": "The voltage follows the slope of the flux, with its sign."},
        worked="A slope that is constant makes a constant voltage, no slope none. Back in a third of the time is three "
               "times the slope, with the other sign."),
    "95.9": ChoiceExercise(
        id="96.9", right="b",
        options={"a": "no pole, because the ring moves away and its flux gets weaker",
                 "b": "a south pole, which pulls the ring back",
                 "c": "a north pole, which pushes the ring on",
                 "d": "a north pole, because it opposes the flux of the rod"},
        notes={"a": "A flux that gets weaker changes, too.",
               "b": "The current keeps up the flux that gets weaker, and holds the ring back.",
               "c": "A current that pushed would make its own motion faster, and energy from nothing.",
               "d": "It opposes the change of the flux, not the flux. Does the flux grow or fall here?"},
        worked="The flux through the ring gets weaker, and the current keeps it up: the side towards the rod becomes "
               "the pole that pulls, and the motion is held back."),
    "95.15": ChoiceExercise(
        id="96.15", right="c",
        options={"a": "the hum adds up, and the string is silent",
                 "b": "the hum adds up, and the string is heard",
                 "c": "the hum cancels, and the string is heard",
                 "d": "the hum cancels, and the string is silent"},
        notes={"a": "Half of the coils are turned. What does that do to a hum that is the same in all of them?",
               "b": "Half of the coils are turned. What does that do to a hum that is the same in all of them?",
               "c": "Three against three for the hum; the string has one coil for itself.",
               "d": "The string moves over one coil alone. What could cancel its voltage?"},
        worked="The hum of three coils is opposite to that of the other three. A string's voltage comes from its coil "
               "alone, and nothing is opposite to it."),
    "95.16": TextExercise(
        id="96.16",
        rubric=((1, "steel is a path for flux; nylon is like air, and changes nothing as it moves"),
                (1, "as the steel string swings, the flux through the coil changes"),
                (1, "the voltage is N times the rate of change of the flux (Faraday)"),
                (1, "at rest there is flux, also along the string, but it does not change: no voltage")),
        worked="Steel is an easy path for flux, so the nearer the string comes to the pole, the more flux passes "
               "through the coil. As it swings, that flux goes up and down, and the coil's voltage is its number of "
               "turns times the rate of the change, by Faraday's law. Nylon is no better a path than the air: its "
               "swing changes nothing. The steel string at rest carries flux as well, but that flux stays as it is, "
               "and without a change there is no voltage, however strong the magnet.",
        teaching_note="\"Nylon is not magnetic\" earns the first point if it says what that means for the flux."),
}

TEACHING_NOTE = """
Form B of the examination: the note on form A, lesson 95, is for both. The number exercises are those of form A in other
words; the letters and the open question ask the same ideas.
"""

LESSON = Lesson(
    id="96", title="Examination, form B", version=1, silent=True, teaching_note=TEACHING_NOTE,
    exercises=tuple(OWN.get(one.id) or of_form_b(one) for one in FORM_A.exercises))
