"""Lesson 90, the test before the course: items, the notion behind each wrong letter, teaching note."""
from lessons_lib.exercises.declaration import ItemExercise, Lesson

ITEMS = (
    ItemExercise(
        id="t1", idea="flux and flux density", right="b",
        options={"a": "the same flux and the same flux density",
                 "b": "the same flux and a larger flux density",
                 "c": "less flux and the same flux density",
                 "d": "more flux and a larger flux density"},
        tells={"a": "flux and flux density are one thing",
               "c": "a smaller area means less flux",
               "d": "squeezing makes more flux"},
        worked="Flux is counted over a whole area, flux density for each square metre of it: B = Φ/A."),
    ItemExercise(
        id="t2", idea="closed surface", right="c",
        options={"a": "the flux of the north pole",
                 "b": "half the flux of the north pole",
                 "c": "zero",
                 "d": "an amount that depends on the surface's distance from the pole"},
        tells={"a": "a pole is a source of flux",
               "b": "a pole is a source of flux",
               "d": "flux fades with distance"},
        worked="Lines of flux have no ends: what enters a closed surface leaves it somewhere else."),
    ItemExercise(
        id="t3", idea="direction of the field", right="a",
        options={"a": "along the magnet, the way from its north pole to its south pole",
                 "b": "along the magnet, the way from its south pole to its north pole",
                 "c": "straight at the magnet",
                 "d": "straight away from the magnet"},
        tells={"b": "the field outside runs from south to north",
               "c": "the needle points at the magnet",
               "d": "the needle points at the magnet"},
        worked="B runs in closed loops: from south to north inside a magnet, from north to south outside."),
    ItemExercise(
        id="t4", idea="soft iron in a field", right="d",
        options={"a": "now keep away from the bar and go round it",
                 "b": "run as they ran before",
                 "c": "are pushed back by the bar",
                 "d": "now bend towards the bar and run through it"},
        tells={"a": "iron keeps the field out",
               "b": "only magnets change a field",
               "c": "iron becomes a like pole"},
        worked="Soft iron is an easy path: the field magnetises it, and lines that ran beside it bend in."),
    ItemExercise(
        id="t5", idea="poles and charges", right="d",
        options={"a": "pushes the charged ball away from the pole",
                 "b": "pulls the charged ball towards the pole",
                 "c": "pushes the charged ball sideways",
                 "d": "does nothing to the charged ball"},
        tells={"a": "poles act on charges at rest",
               "b": "poles act on charges at rest",
               "c": "moving and resting charges are not told apart"},
        worked="A magnetic field acts on magnets and on charges that move; charges at rest feel electric fields "
               "only."),
    ItemExercise(
        id="t6", idea="which metals", right="a",
        options={"a": "a nail of plain steel",
                 "b": "a pipe of pure copper",
                 "c": "a strip of aluminium",
                 "d": "all three of them"},
        tells={"b": "copper is attracted",
               "c": "aluminium is attracted",
               "d": "all metals are attracted"},
        worked="Iron, nickel, cobalt and most of their alloys are ferromagnetic; copper, aluminium, bronze and brass "
               "are not."),
    ItemExercise(
        id="t7", idea="a source with resistance of its own", right="b",
        options={"a": "halves",
                 "b": "falls by about a tenth",
                 "c": "stays exactly the same",
                 "d": "doubles"},
        tells={"a": "the source's own resistance is left out",
               "c": "a battery gives a constant current",
               "d": "more resistance takes more current"},
        worked="Most of the loop is inside the source, so what is outside hardly counts: add both, then divide."),
    ItemExercise(
        id="t8", idea="in parallel", right="c",
        options={"a": "gets less hot, and the battery gives the same current",
                 "b": "gets hotter, and the battery gives more current",
                 "c": "stays as hot, and the battery gives more current",
                 "d": "stays as hot, and the battery gives the same current"},
        tells={"a": "a battery gives a constant current",
               "b": "more heaters mean more for each",
               "d": "a battery gives a constant current"},
        worked="Across an ideal source the voltage is fixed: each branch takes V/R, and the currents add up."),
    ItemExercise(
        id="t9", idea="a gap in a magnetic circuit", right="b",
        options={"a": "a quarter",
                 "b": "half",
                 "c": "the same",
                 "d": "twice"},
        tells={"a": "everything magnetic falls with the square",
               "c": "a source gives a constant flux",
               "d": "more gap, more flux"},
        worked="Flux is MMF divided by reluctance; the gap's reluctance is in proportion to its length, and a coil's "
               "MMF to its turns."),
    ItemExercise(
        id="t10", idea="nothing is used up", right="d",
        options={"a": "smaller than in the yoke before it",
                 "b": "zero",
                 "c": "larger than in the yoke before it",
                 "d": "the same as in the yoke before it"},
        tells={"a": "flux is used up on its way",
               "b": "flux is used up on its way",
               "c": "a gap makes flux"},
        worked="In one path without leaks the flux, like a current, is the same at every place."),
    ItemExercise(
        id="t11", idea="a voltage needs a change", right="c",
        options={"a": "a large steady voltage",
                 "b": "a small steady voltage",
                 "c": "zero",
                 "d": "a voltage that slowly falls"},
        tells={"a": "the voltage follows the flux",
               "b": "the voltage follows the flux",
               "d": "a magnet is used up"},
        worked="The voltage is the rate of change of the flux linkage: no change, no voltage."),
    ItemExercise(
        id="t12", idea="from flux to voltage as graphs", right="b",
        options={"a": "growing, then steady, then falling",
                 "b": "steady, then zero, then steady with the other sign",
                 "c": "zero, then steady, then zero",
                 "d": "steady with the same sign all the time"},
        tells={"a": "the voltage follows the flux",
               "c": "a voltage where the flux is large",
               "d": "the sign of the change is left out"},
        worked="The voltage follows the slope of the flux, with its sign, and not its height."),
    ItemExercise(
        id="t13", idea="against the change", right="a",
        options={"a": "is drawn after the magnet, since the field gets weaker",
                 "b": "is pushed away, since its current opposes the field",
                 "c": "feels no force, since only a growing field induces",
                 "d": "feels no force, since copper is not magnetic"},
        tells={"b": "it opposes the flux, not its change",
               "c": "only growing flux induces",
               "d": "only magnetic metals are acted on"},
        worked="An induced current opposes the change: it keeps up a field that gets weaker and works against one "
               "that grows."),
    ItemExercise(
        id="t14", idea="flux through, not at the wire", right="a",
        options={"a": "as large a voltage, since as much flux passes through it",
                 "b": "no voltage, since there is no field at its wire",
                 "c": "a larger voltage, since its area is larger",
                 "d": "a smaller voltage, since its wire is farther away"},
        tells={"b": "the flux has to touch the wire",
               "c": "a larger loop has more flux",
               "d": "the flux has to touch the wire"},
        worked="Faraday's law counts the flux through the loop, wherever in the loop it passes."),
    ItemExercise(
        id="t15", idea="turns", right="b",
        options={"a": "20 mV",
                 "b": "60 mV",
                 "c": "180 mV",
                 "d": "6.7 mV"},
        tells={"a": "turns do not count",
               "c": "turns count twice",
               "d": "turns share the flux"},
        worked="Every turn has the same voltage, and the turns are in series."),
    ItemExercise(
        id="t16", idea="faster", right="c",
        options={"a": "as large as the first time",
                 "b": "half as large as the first time",
                 "c": "twice as large as the first time",
                 "d": "four times as large as the first time"},
        tells={"a": "the time does not count",
               "b": "a shorter time means less voltage",
               "d": "the rate counts twice"},
        worked="The mean voltage is the change of flux divided by the time it takes."),
    ItemExercise(
        id="t17", idea="speed of the string, speed of the wave", right="b",
        options={"a": "the note is higher, and each point of the string reaches twice the speed",
                 "b": "the note is the same, and each point of the string reaches twice the speed",
                 "c": "the note is the same, and each point of the string reaches the same speed as before",
                 "d": "the note is lower, and each point of the string reaches the same speed as before"},
        tells={"a": "force makes waves faster",
               "c": "speed of the string taken for that of the wave",
               "d": "amplitude sets the note"},
        worked="Tension and mass per length set the speed of the wave; how far it is pulled sets the speed of the "
               "string."),
    ItemExercise(
        id="t18", idea="speed and frequency", right="d",
        options={"a": "the same",
                 "b": "half that of the first",
                 "c": "four times that of the first",
                 "d": "twice that of the first"},
        tells={"a": "amplitude alone sets the speed",
               "b": "a higher frequency is slower",
               "c": "speed and acceleration are not told apart"},
        worked="The largest speed of a sine is 2πf times its amplitude."),
    ItemExercise(
        id="t19", idea="a capacitor and frequency", right="c",
        options={"a": "grows",
                 "b": "stays as it is",
                 "c": "falls",
                 "d": "first grows, then falls"},
        tells={"a": "a capacitor blocks high frequencies",
               "b": "frequency does not count",
               "d": "every circuit has a peak"},
        worked="A capacitor's reactance 1/(2πfC) falls as the frequency rises, and with it its share of the voltage."),
    ItemExercise(
        id="t20", idea="resonance", right="d",
        options={"a": "8.0 kHz",
                 "b": "5.7 kHz",
                 "c": "2.0 kHz",
                 "d": "2.8 kHz"},
        tells={"a": "more capacitance raises the resonance",
               "b": "capacitors in parallel halve",
               "c": "the root is left out"},
        worked="f₀ = 1/(2π√(LC)): twice the capacitance divides it by √2, four times by 2."),
)

TEACHING_NOTE = """
**Give it out before lesson 1**, 25 minutes in class, books closed; it is not marked, and you say so. Do not discuss
it: the test after the course has other items of the same ideas, and what is known of these is lost for it.

**What it asks.** Twenty ideas, one item each, all written for this course; the test after it asks the same ideas in
other words. The wrong letters are notions that research has found again and again: that the voltage follows the flux
(A. Sanchez and M. Loverude; K. Zuza, J. M. Almudí, J. Guisasola 2012), that flux has to touch the wire (W. M. Thong
and R. Gunstone 2008), that an induced current opposes the flux and not its change (A. Sihvola and others 2012), that
poles act on charges at rest (D. P. Maloney 1985; T. M. Scaife and A. F. Heckler 2010), that a battery gives a
constant current (P. V. Engelhardt and R. J. Beichner 2004), that waves run faster on a string plucked harder (M. C.
Wittmann). We read abstracts of most of them, and cite the last two from memory. No item of a published test is
copied.

**For scale.** After usual teaching of electricity and magnetism large groups were at 44 to 47 % of a published test,
from 25 to 31 % before (D. P. Maloney and others 2001); normalised gains in mechanics were 0.23 after usual and 0.48
after active teaching (R. R. Hake 1998).
"""

LESSON = Lesson(id="90", title="Before the course", version=1, silent=True, test="before", exercises=ITEMS,
                teaching_note=TEACHING_NOTE)
