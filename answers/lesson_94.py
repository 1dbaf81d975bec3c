"""Lesson 94, the test half-way: items, the notion behind each wrong letter, teaching note."""
from lessons_lib.exercises.declaration import ItemExercise, Lesson

ITEMS = (
    ItemExercise(
        id="t1", idea="flux and flux density", right="a",
        options={"a": "twice the flux and the same flux density",
                 "b": "twice the flux and twice the flux density",
                 "c": "the same flux and half the flux density",
                 "d": "the same flux and the same flux density"},
        tells={"b": "flux and flux density are one thing",
               "c": "flux is given, and spreads",
               "d": "the area does not count"},
        worked="Flux is counted over a whole area, flux density for each square metre of it: B = Φ/A."),
    ItemExercise(
        id="t2", idea="closed surface", right="b",
        options={"a": "the flux of the pole that is nearer to a wall",
                 "b": "zero",
                 "c": "twice the flux of one pole",
                 "d": "zero only if the magnet is in the middle of the box"},
        tells={"a": "a pole is a source of flux",
               "c": "signs are left out",
               "d": "flux fades with distance"},
        worked="Lines of flux have no ends: what enters a closed surface leaves it somewhere else."),
    ItemExercise(
        id="t3", idea="soft iron in a field", right="d",
        options={"a": "a north pole",
                 "b": "a positive charge",
                 "c": "no pole at all",
                 "d": "a south pole"},
        tells={"a": "the far end gets the opposite pole",
               "b": "poles are charges",
               "c": "only magnets change a field"},
        worked="The field magnetises soft iron. Lines run into a south pole: here they enter the nail at its tip, "
               "which so acts as a south pole itself."),
    ItemExercise(
        id="t4", idea="a source with resistance of its own", right="c",
        options={"a": "halves",
                 "b": "stays exactly the same",
                 "c": "falls by about a tenth",
                 "d": "doubles"},
        tells={"a": "the source's own reluctance is left out",
               "b": "a magnet gives a constant flux",
               "d": "more reluctance takes more flux"},
        worked="Most of the loop is inside the source, so what is outside hardly counts: add both, then divide."),
    ItemExercise(
        id="t5", idea="a gap in a magnetic circuit", right="b",
        options={"a": "becomes four times as large",
                 "b": "doubles",
                 "c": "stays",
                 "d": "halves"},
        tells={"a": "turns count twice",
               "c": "turns do not count",
               "d": "turns share the flux"},
        worked="Flux is MMF divided by reluctance; the gap's reluctance is in proportion to its length, and a coil's "
               "MMF to its turns."),
    ItemExercise(
        id="t6", idea="nothing is used up", right="d",
        options={"a": "largest in the first gap",
                 "b": "largest in the short gap",
                 "c": "smallest in the short gap",
                 "d": "the same in all three"},
        tells={"a": "flux is used up on its way",
               "b": "each gap has a flux of its own",
               "c": "each gap has a flux of its own"},
        worked="In one path without leaks the flux, like a current, is the same at every place."),
    ItemExercise(
        id="t7", idea="a voltage needs a change", right="c",
        options={"a": "larger across the first coil",
                 "b": "equally large across both",
                 "c": "zero across the first coil alone",
                 "d": "zero across both"},
        tells={"a": "the voltage follows the flux",
               "b": "turns make voltage by themselves",
               "d": "only growing flux induces"},
        worked="The voltage is the rate of change of the flux linkage: no change, no voltage."),
    ItemExercise(
        id="t8", idea="from flux to voltage as graphs", right="b",
        options={"a": "when the flux is largest, too",
                 "b": "when the flux passes through zero",
                 "c": "when the flux is half of its largest",
                 "d": "at all moments alike"},
        tells={"a": "the voltage follows the flux",
               "c": "steepest is taken for half way up",
               "d": "only the amplitude counts"},
        worked="The voltage follows the slope of the flux, with its sign, and not its height."),
    ItemExercise(
        id="t9", idea="against the change", right="a",
        options={"a": "pushes the magnet back",
                 "b": "pulls the magnet in",
                 "c": "does nothing to the magnet",
                 "d": "does nothing, but would push back a north pole"},
        tells={"b": "the current helps the change",
               "c": "only magnetic metals are acted on",
               "d": "one kind of pole induces, the other does not"},
        worked="An induced current opposes the change: it keeps up a field that gets weaker and works against one "
               "that grows."),
    ItemExercise(
        id="t10", idea="flux through, not at the wire", right="d",
        options={"a": "no voltage, since nothing moves inside the coil",
                 "b": "no voltage, since nothing cuts its wire",
                 "c": "a steady voltage, since the steel is near",
                 "d": "a voltage, since the flux through it changes"},
        tells={"a": "only motion inside induces",
               "b": "the flux has to touch the wire",
               "c": "the voltage follows the flux"},
        worked="Faraday's law counts the flux through the loop, wherever in the loop it passes."),
)

TEACHING_NOTE = """
**Give it out after lesson 4**, 12 minutes, books closed; it is not marked. Ten of the ideas of the test before, in a
third dress. What has not moved by now is worth an hour of lesson 5. It may be discussed once all have handed in.
"""

LESSON = Lesson(id="94", title="Half-way", version=1, silent=True, test="half-way", exercises=ITEMS,
                teaching_note=TEACHING_NOTE)
