"""Lesson 02, Ohm's law for magnetic circuits: model answers, slips with their notes, worked answers, teaching note."""
import math

from lessons_lib.exercises.declaration import (
    ChoiceExercise,
    Given,
    Lesson,
    NumberExercise,
    PredictionExercise,
    Slip,
    Step,
    TextExercise,
    Twin,
)

MU_0 = 4e-7 * math.pi   # as students type it; the exact constant differs by less than 1e-9

ONE_CONVERSION = ("A factor of a thousand or a million: a length or an area is still in millimetres. Write every "
                  "length in m. Does the area go above or below the line?")
WHICH_FACTOR = "Compare with the same piece made of air. Which factor makes the difference?"
# 2.4: the two slips are met with either sign
WHICH_REST = "If there were no air in the loop, B would be B_r, and H zero. Which reluctance makes the difference?"
NO_FLUX = "That is H with no flux at all. How much of the MMF does the flux take in the magnet itself?"
AND_THE_SIGN = "{} And which way does H point inside a magnet?"


def disc(diameter):
    return math.pi * diameter ** 2 / 4


def rod_reluctance(diameter, length, recoil):
    return length / (MU_0 * recoil * disc(diameter))


def magnet_mmf(remanence, length, recoil):
    return remanence * length / (MU_0 * recoil)


def on_curve(remanence, coercivity, product, coefficient):
    """Where the load line of a permeance coefficient meets the rectangular hyperbola: (B, magnitude of H)."""
    fullness = product / (remanence * coercivity)
    a = (2 * math.sqrt(fullness) - 1) / fullness
    slope = MU_0 * coefficient
    half = (slope * coercivity + remanence) / 2
    # the root written so that it stays exact for a flat curve, a near zero
    size = remanence * coercivity / (half + math.sqrt(half ** 2 - a * slope * remanence * coercivity))
    return slope * size, size


def on_straight_line(remanence, coercivity, coefficient):
    slope = MU_0 * coefficient
    return slope * remanence * coercivity / (remanence + slope * coercivity)


# ---- quick questions -------------------------------------------------------------------------------------------------

gauss_reading = ChoiceExercise(
    id="m1", quick=True, right="b", options={"a": "0.85 T", "b": "0.085 T", "c": "8.5 T"},
    notes={"a": "It is 0.085 T: ten thousand gauss make a tesla, not a thousand.",
           "b": "Correct: ten thousand gauss make a tesla.",
           "c": "It is 0.085 T: ten thousand gauss make a tesla. Several tesla is more than any magnet here gives."})

closed_surface = ChoiceExercise(
    id="m2", quick=True, right="a",
    options={"a": "zero", "b": "the flux of the magnet inside it", "c": "the flux density times the whole area"},
    notes={"a": "Correct: what goes out at one place comes in at another.",
           "b": "It is zero: the magnet's flux goes out at one place and comes in at another.",
           "c": "It is zero: on one part of the surface the flux goes out, on another it comes in."})

field_inside = ChoiceExercise(
    id="m3", quick=True, right="b", options={"a": "with B", "b": "against B", "c": "neither, H is zero there"},
    notes={"a": "It points against B: inside as well as outside, H goes from the north pole to the south pole.",
           "b": "Correct: inside the rod, too, H goes from the north pole to the south pole.",
           "c": "It points against B and is not zero; it is the demagnetising field."})

# ---- predictions -----------------------------------------------------------------------------------------------------

which_is_larger = PredictionExercise(
    id="p1",
    question="In the circuit of the house magnet: which reluctance is larger, the magnet's own or that of all the air "
             "round it?",
    options={"a": "the air's, by far: air is not iron", "b": "the magnet's own, several times as large",
             "c": "they are about equal", "d": "the magnet has none"},
    seen_question="At the sliders' first values: what do the read-outs of the two reluctances show?",
    seen_options={"a": "the air's is several times the magnet's", "b": "the magnet's is several times the air's",
                  "c": "they are about equal"},
    seen="b",
    seen_notes={
        "a": "Look again at the two read-outs in MA/Wb, with the sliders as they were at first.",
        "b": "Yes, that is what the panel shows. In the air the flux can spread over an enormous cross-section; the "
             "rod is long and thin.",
        "c": "Look again at the two read-outs in MA/Wb: how many times does one go into the other?"})

shorter_rod = PredictionExercise(
    id="p2",
    question="A rod made shorter has a smaller permeance coefficient. It goes from 8 to 4. The flux density at the "
             "working point on the curve ...",
    options={"a": "stays the same, because remanence is a property of the material", "b": "falls to about half",
             "c": "falls to about nine tenths", "d": "rises, because the air is nearer"},
    seen_question="Set the coefficient to 8, then to 4, and read B each time. B ...",
    seen_options={"a": "stays the same, within a few per cent", "b": "falls to about half",
                  "c": "falls to about nine tenths", "d": "rises"},
    seen="b",
    seen_notes={
        "a": "Look again: read B at 8 and at 4 and divide.",
        "b": "Yes, that is what the panel shows: below the knee the curve is steep, H hardly moves, so B follows the "
             "load line.",
        "c": "Look again: read B at 8 and at 4 and divide. Are both points above the knee?",
        "d": "Look again: read B at 8 first, then at 4."})

wider_gap = PredictionExercise(
    id="p3",
    question="The air gap between the rod and the lid of the pot is doubled, from 1 mm to 2 mm. The flux through the "
             "gap ...",
    options={"a": "halves", "b": "falls, but by far less than half", "c": "does not change",
             "d": "falls to a quarter"},
    seen_question="Move the gap from 1 to 2 mm. The flux through the gap ...",
    seen_options={"a": "halves", "b": "falls by less than a third", "c": "stays the same", "d": "falls to a quarter"},
    seen="b",
    seen_notes={
        "a": "Look again: read the flux through the gap at 1 mm and at 2 mm and divide.",
        "b": "Yes, that is what the panel shows: only one part of the circuit has changed much; the magnet is the "
             "same, and the leaks nearly so.",
        "c": "That is nearly true of the flux in the rod. Look again at the flux through the gap.",
        "d": "Look again: read the flux through the gap at 1 mm and at 2 mm and divide."})

# ---- exercises -------------------------------------------------------------------------------------------------------

ROD = {"diameter": Given("diameter of the rod", unit="mm", low=4.5, high=5.2, step=0.05),
       "length": Given("length of the rod", unit="mm", low=12, high=18, step=0.5),
       "recoil": Given("recoil permeability", unit="1", low=3.0, high=4.5, step=0.1)}

own_reluctance = NumberExercise(
    id="2.1", unit="MA/Wb", tolerance=0.02, size=(20, 1500), given=ROD,
    answer=rod_reluctance,
    slips=(Slip("as air", lambda diameter, length: length / (MU_0 * disc(diameter)), WHICH_FACTOR),
           Slip("permeability above the line",
                lambda diameter, length, recoil: length * recoil / (MU_0 * disc(diameter)),
                "A more permeable piece is an easier path. Does the permeability go above or below the line?"),
           Slip("permeance", lambda diameter, length, recoil: 1e6 / rod_reluctance(diameter, length, recoil),
                "That is the permeance, 1/R. A longer path is harder: does your number grow with the length?"),
           Slip("length in mm or area in mm2", lambda diameter, length, recoil:
                1e3 * rod_reluctance(diameter, length, recoil), ONE_CONVERSION),
           Slip("area in mm2", lambda diameter, length, recoil:
                1e-6 * rod_reluctance(diameter, length, recoil), ONE_CONVERSION),
           Slip("both in mm", lambda diameter, length, recoil:
                1e-3 * rod_reluctance(diameter, length, recoil), ONE_CONVERSION),
           Slip("not in millions", lambda diameter, length, recoil: 1e6 * rod_reluctance(diameter, length, recoil),
                "A factor of a million: the question asks for MA/Wb, millions of A/Wb. Is your number in A/Wb?")),
    common=("diameter for radius", "square for circle", "mu_0", "four pi"),
    steps={"area": Step("mm2", disc)},
    notes=("Take the pieces one by one: the length in m, the area of the cross-section in m², then μ₀ times the recoil "
           "permeability.",
           "Reluctance is length divided by permeability times area: R = l/(μ₀ μ_rec A). Longer "
           "is harder, thicker is easier."),
    twin=Twin({"diameter": 6.0, "length": 20.0, "recoil": 2.0},
              "Another rod: {length} long and {diameter} across has a cross-section of {area}. 0.020/(4π·10⁻⁷ × 2 × "
              "2.827·10⁻⁵) A/Wb is {answer}."),
    worked="With a diameter of {diameter} the cross-section is {area}. R is {length}, divided by μ₀ times "
           "{recoil} times this cross-section: {answer}.",
    teaching_note="Ask for the unit before the number: A/Wb. Anyone who finds Wb/A has the permeance.")

own_mmf = NumberExercise(
    id="2.2", unit="A", tolerance=0.02, size=(300, 18000),
    given={"remanence": Given("remanence of the recoil line", unit="T", low=0.60, high=0.80, step=0.01),
           "length": ROD["length"], "recoil": ROD["recoil"]},
    answer=magnet_mmf,
    slips=(Slip("permeability left out", lambda remanence, length: remanence * length / MU_0,
                WHICH_FACTOR),
           Slip("length left out", lambda remanence, recoil: remanence / (MU_0 * recoil),
                "That is a field strength, in A/m. Along which length does it act?"),
           Slip("length left out, kA/m", lambda remanence, recoil: remanence / (MU_0 * recoil) / 1e3,
                "That is a field strength, in kA/m. Along which length does it act?"),
           Slip("remanence left out", lambda length, recoil: length / (MU_0 * recoil),
                "Nothing in your number says how strong the magnet is. Where does its remanence come in?")),
    common=("thousand", "mu_0", "four pi"),
    steps={"field": Step("kA/m", lambda remanence, recoil: remanence / (MU_0 * recoil))},
    notes=("First the field strength of the line where B is zero, B_r/(μ₀ μ_rec), in A/m. Then the length.",
           "The MMF of a magnet is a field strength times the magnet's length: F = B_r l/(μ₀ μ_rec)."),
    twin=Twin({"remanence": 0.40, "length": 10.0, "recoil": 1.1},
              "A piece of ferrite: {remanence}, {length} long, recoil permeability {recoil}. The field strength is "
              "{field}; times 0.010 m that makes {answer}."),
    worked="B_r/(μ₀ μ_rec) is {field}; times {length} that makes {answer}.",
    teaching_note="The area plays no part: a thicker rod has the same MMF and less reluctance.")

circuit_flux = NumberExercise(
    id="2.3", unit="uWb", tolerance=0.02, size=(1.5, 70),
    given={"mmf": Given("MMF of the magnet", unit="A", low=1800, high=3400, step=20),
           "magnet": Given("reluctance of the magnet", unit="MA/Wb", low=140, high=260, step=2),
           "air": Given("reluctance of the air", unit="MA/Wb", low=22, high=36, step=0.5)},
    answer=lambda mmf, magnet, air: mmf / (magnet + air),
    slips=(Slip("air alone", lambda mmf, air: mmf / air,
                "The magnet is not a short circuit for its own flux. Which reluctance is missing?"),
           Slip("magnet alone", lambda mmf, magnet: mmf / magnet,
                "Where does the flux go when it has left the magnet? That part of its path has a reluctance, too."),
           Slip("side by side", lambda mmf, magnet, air: mmf * (magnet + air) / (magnet * air),
                "One loop, one flux: it passes through both, one after the other. Is that in series or in parallel?"),
           Slip("upside down", lambda mmf, magnet, air: 1e-6 * 1e-6 * (magnet + air) / mmf,
                "More MMF, more flux: does the MMF go above or below the line?")),
    common=("thousand", "million"),
    steps={"sum": Step("MA/Wb", lambda magnet, air: magnet + air)},
    notes=("Draw the loop: one source, two reluctances. Which path does the flux take?",
           "Ohm's law: flux is MMF divided by reluctance, and reluctances in series add."),
    twin=Twin({"mmf": 1000, "magnet": 80, "air": 20},
              "Another loop: {mmf} with {magnet} and {air} in series. The sum is {sum}, so the flux is 1000/(100·10⁶) "
              "Wb = {answer}."),
    worked="In series {magnet} and {air} make {sum}. The flux is {mmf} divided by that, {answer}.",
    teaching_note="Let the class draw the same loop with a battery, its internal resistance and a lamp.")

replacement_field = NumberExercise(
    id="2.4", unit="kA/m", tolerance=0.02, size=(-120, -3), follows=circuit_flux,
    given={"length": Given("length of the rod", unit="mm", low=14, high=18, step=0.5)},
    answer=lambda earlier, air, length: -earlier * air / length,
    slips=(Slip("sign", lambda earlier, air, length: earlier * air / length,
                "The magnitude is right. In which direction does H point inside a magnet, if B is counted positive?"),
           Slip("magnet's reluctance", lambda earlier, magnet, length: -earlier * magnet / length, WHICH_REST),
           Slip("magnet's reluctance, sign", lambda earlier, magnet, length: earlier * magnet / length,
                AND_THE_SIGN.format(WHICH_REST)),
           Slip("all of the MMF", lambda mmf, length: -mmf / length, NO_FLUX),
           Slip("all of the MMF, sign", lambda mmf, length: mmf / length, AND_THE_SIGN.format(NO_FLUX)),
           # typed in kA/m: −310 for a drop of 310 A, or −0.31
           Slip("length left out, A", lambda earlier, air: -earlier * air * 1e3,
                "That is H times the length, in A. Which length is it?"),
           Slip("length left out, kA", lambda earlier, air: -earlier * air,
                "That is H times the length, in kA. Which length is it?")),
    common=("thousand",),
    steps={"drop": Step("A", lambda earlier, air: earlier * air)},
    notes=("First what the air takes of the MMF: flux times the air's reluctance. Then divide by the rod's length, and "
           "think of the sign.",
           "On the recoil line −H l = F − Φ R_m, and in the circuit F − Φ R_m = Φ R_air. So H = −Φ R_air/l."),
    twin=Twin({"mmf": 1000, "magnet": 80, "air": 20, "length": 10.0},
              "In the other loop the flux was {earlier}. The air takes 10·10⁻⁶ × 20·10⁶ A = {drop} of the MMF; "
              "divided by {length} of rod, and against B, that is {answer}."),
    worked="The flux of 2.3 is {earlier}. With B = Φ/A in the middle cross-section, the recoil line says −H l = "
           "F − Φ R_m, and that is what the air takes of the MMF: Φ R_air = {drop}. Divided by {length}, and against "
           "B: {answer}.",
    teaching_note="It is H in the middle only, and for the house rod the circuit is 21 % low (−20.9 instead of −26.3 "
                  "kA/m). The sum of H along the whole rod gives another number, the mean, −49.9: nearer the faces H "
                  "is stronger.")

curve_point = NumberExercise(
    id="2.5", unit="T", tolerance=0.03, size=(0.15, 1.6), marks=2,
    given={"remanence": Given("remanence of the curve", unit="T", low=1.24, high=1.30, step=0.01),
           "coercivity": Given("coercivity", unit="kA/m", low=48, high=53, step=0.5),
           "product": Given("largest energy product", unit="kJ/m3", low=40, high=44, step=0.5),
           "coefficient": Given("permeance coefficient", unit="1", low=6.0, high=9.0, step=0.1)},
    answer=lambda remanence, coercivity, product, coefficient: on_curve(remanence, coercivity, product, coefficient)[0],
    slips=(Slip("straight line", on_straight_line,
                "That is on the straight line from the remanence to the coercivity. The curve bulges out above that "
                "line: where does the load line meet it?"),
           Slip("remanence", lambda remanence: remanence,
                "Only a path closed through iron keeps the remanence. This rod is in air."),
           Slip("field strength", lambda remanence, coercivity, product, coefficient:
                on_curve(remanence, coercivity, product, coefficient)[1] / 1e3,
                "That is the magnitude of H in kA/m. The question asks for B at the same point.")),
    common=("sign", "mu_0", "gauss"),
    steps={"slope": Step("mT", lambda coefficient: MU_0 * coefficient * 1e3),
           "H": Step("kA/m", lambda remanence, coercivity, product, coefficient:
                     on_curve(remanence, coercivity, product, coefficient)[1])},
    notes=("Draw the load line: for H = 40 kA/m, how large is B on it? One more point is the origin.",
           "The working point is on two lines at once: the material's curve, and B = μ₀ P H, which the shape "
           "dictates."),
    twin=Twin({"remanence": 1.25, "coercivity": 50.0, "product": 40.0, "coefficient": 20.0},
              "A much longer rod, {coefficient}: its load line rises by {slope} for each kA/m. With {remanence}, "
              "{coercivity} and {product} it meets the curve where H has the magnitude {H}, so at {answer}."),
    worked="The load line rises by {slope} for each kA/m. It meets the curve of {remanence}, {coercivity} and "
           "{product} where H has the magnitude {H}; there B is {answer}.",
    teaching_note="Reading off paper is good enough: the tolerance is 3 %. Ask how far the point is from the knee.")

longer_rod = NumberExercise(
    id="2.6", unit="1", tolerance=0.01, size=(1.02, 1.3),
    given={"magnet": Given("reluctance of the magnet", unit="MA/Wb", low=140, high=260, step=2),
           "air": Given("reluctance of the air", unit="MA/Wb", low=22, high=36, step=0.5)},
    answer=lambda magnet, air: 2 * (magnet + air) / (2 * magnet + air),
    slips=(Slip("MMF alone", lambda: 2.0, "The MMF doubles. What else doubles with a second rod in line?"),
           Slip("no change", lambda: 1.0,
                "Both the MMF and the magnet's reluctance double. Does the air's double, too? (If your number was "
                "rounded: give three figures.)"),
           Slip("rounded to one decimal", lambda: 1.1,
                "Is that rounded? The flux grows by so little that one decimal cannot show it: give three figures."),
           Slip("reluctance alone", lambda magnet, air: (magnet + air) / (2 * magnet + air),
                "You doubled the reluctance of the magnets. Their MMF grows, too."),
           Slip("half", lambda: 0.5, "More of the same magnet can hardly give half the flux. What does the MMF do?"),
           Slip("upside down", lambda magnet, air: (2 * magnet + air) / (2 * (magnet + air)),
                "The question asks for the new flux divided by the old one.")),
    steps={"before": Step("MA/Wb", lambda magnet, air: magnet + air),
           "after": Step("MA/Wb", lambda magnet, air: 2 * magnet + air)},
    notes=("Write Ohm's law twice, for one rod and for two, and divide. The MMF cancels, except for a 2.",
           "Two rods in line have twice the MMF and twice the reluctance of one; only the air's part stays the same."),
    twin=Twin({"magnet": 100, "air": 50},
              "Another rod: {magnet} and {air}. Before: F/{before}. After: 2F/{after}. The ratio is {answer}."),
    worked="Before: F divided by {before}. After: 2F divided by {after}. The ratio is {answer}.",
    teaching_note="Not the same as one rod made longer: that one works on a better recoil line. The page says so.")

side_by_side = ChoiceExercise(
    id="2.7", right="b",
    options={"a": "MMF doubled, reluctance of the magnets the same",
             "b": "MMF the same, reluctance of the magnets halved",
             "c": "both doubled", "d": "MMF the same, reluctance of the magnets doubled"},
    notes={"a": "Does the MMF act along the length of a rod, or over its area? Which of the two has changed?",
           "b": "In parallel they have the MMF of one rod, and the flux has twice the area.",
           "c": "Does the MMF act along the length of a rod, or over its area? And is a wider path harder or easier?",
           "d": "Two paths in parallel: is that harder or easier for the flux than one?"},
    worked="Side by side, the length along which the magnets push is the same, so the MMF is the same. The flux has "
           "twice the area to run through, so the reluctance of the magnets is halved.",
    teaching_note="Two identical batteries in parallel: the same voltage, half the internal resistance.")

right_and_wrong = TextExercise(
    id="2.8",
    rubric=((2,
             "Right in the comparison: one flux round a loop, MMF as the drive, reluctances in series add (or the "
             "like)."),
            (2, "Wrong in it, one mark each, two at most: nothing flows; a constant flux heats nothing; no material "
                "keeps flux in, so much of it leaves through the side; a magnet remembers."),
            (2, "A measurement that shows one of them: the temperature of a keeper that carries constant flux stays "
                "the same; or probe readings beside the iron; or a compass near it.")),
    worked="Right: round one loop there is one flux, driven by an MMF, and reluctances in series add like "
           "resistances. Wrong: nothing flows and nothing is heated; a magnet holds its flux for years without any "
           "supply. Nor is there an insulator for flux: air carries a good part of it. Measurement: put a steel bar "
           "across the magnet, and for an hour compare its temperature with that of a bar on its own: both stay "
           "equally warm. Or move a probe along the bar: it reads flux beside the iron all the way.",
    teaching_note="\"It wears out the magnet\" is a frequent third sentence. Ask what a battery would do in its place.")

TEACHING_NOTE = """
**Time plan** (80 minutes): quick questions 5, magnet as a source with 2.1 and 2.2 15, the loop with its panel, 2.3
and 2.4 20, load line with panel and 2.5 20, pot and gap with panel, 2.6 and 2.7 15, open question 5 or at home.

**Demonstration with real parts.** A rod magnet, a steel nut and a stack of card. Hang the nut under the magnet with
0, 1, 2, 4 cards between, and pull with a spring balance. Twice the gap takes away less
than half of the pull at first, more than half later: no power law. (The pull goes with the square of the flux.) Ask
why. Then put a second rod end to end with the first and read the field at the pole: a few per cent more. Then
side by side, like poles together (hold them, they push each other away; take old rods, because it weakens alnico).
Cautions as in lesson 1: implants, pinching; safety glasses against splinters.

**What to ask.** "Where is the battery's internal resistance in this circuit?" "Which number on this page belongs to the
shape, and which to the material?" "If nothing insulates, why does the comparison help at all?"

**What goes wrong.** Reluctance in parallel instead of in series. The magnet taken as a source without reluctance:
five to thirteen times too much flux. "Two magnets, twice the flux." The remanence of the data sheet taken as the flux
density of a rod in air. The air's reluctance taken for a constant of nature: it belongs to one way of
averaging. "H in the magnet" taken for one number: on the axis of the house rod it is −27 kA/m in the middle, −125 just
below the faces, −50 as the mean.

**Say it openly**: the straight line that replaces the curve is good for the field above the pole and for small
changes; it is not the truth inside the alloy. The page says by how much.
"""

LESSON = Lesson(
    id="02", title="Ohm's law for magnetic circuits", version=1, exercises=(
        gauss_reading, closed_surface, field_inside, own_reluctance, own_mmf, which_is_larger, circuit_flux,
        replacement_field, shorter_rod, curve_point, wider_gap, longer_rod, side_by_side, right_and_wrong),
    teaching_note=TEACHING_NOTE)
