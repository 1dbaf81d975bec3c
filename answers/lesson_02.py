"""Lesson 02, Ohm's law for magnetic circuits: model answers, slips with their notes, worked answers, teaching note."""
import math

from lessons_lib.exercises.declaration import (
    ChoiceExercise,
    Evening,
    FormulaExercise,
    Given,
    Lesson,
    NumberExercise,
    OrderExercise,
    PredictionExercise,
    RecallExercise,
    Slip,
    Step,
    Stretch,
    Symbol,
    TextExercise,
    ToVote,
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


def turns_for(remanence, length, recoil, current):
    """Turns of a coil that has the MMF of a magnet."""
    return magnet_mmf(remanence, length, recoil) / current


def loop_flux(B_r, l, A, mu_rec, mu_0, R_air):
    """Flux of magnet and air in series."""
    return B_r * l / (mu_0 * mu_rec) / (l / (mu_0 * mu_rec * A) + R_air)


def gap_reluctance(gap, area):
    return gap / (MU_0 * area)


def pull_grows(iron, area, opened, closed):
    """Pull of a relay with its gap closed, relative to the pull with its gap open, at the same current."""
    return ((iron + gap_reluctance(opened, area)) / (iron + gap_reluctance(closed, area))) ** 2


def shape_coefficient(diameter, length, air):
    return length / (MU_0 * disc(diameter) * air)


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

pressed_string = ChoiceExercise(
    id="m1", quick=True, right="b",
    options={"a": "two thirds of what it was", "b": "one and a half times what it was", "c": "twice what it was"},
    notes={"a": "It is one and a half times what it was: a shorter way there and back takes less time.",
           "b": "Correct: f = c/(2L), and one divided by two thirds is one and a half.",
           "c": "It is one and a half times what it was. Twice would be half of the length."})

closed_surface = ChoiceExercise(
    id="m2", quick=True, right="a",
    options={"a": "zero", "b": "the flux of the magnet inside it", "c": "the flux density times the whole area"},
    notes={"a": "Correct: what goes out at one place comes in at another.",
           "b": "It is zero: the magnet's flux goes out at one place and comes in at another.",
           "c": "It is zero: on one part of the surface the flux goes out, on another it comes in."})

field_inside = RecallExercise(
    id="m3", where="lesson 1",
    sentence="H reverses. Outside it goes from the north pole round to the south pole. Inside it also goes from north "
             "to south, so it points against B.",
    worked="Against B: inside as well as outside, H goes from the north pole to the south pole.")

same_current = ChoiceExercise(
    id="s1", quick=True, right="a",
    options={"a": "Ampère's law: what drives the flux round a loop is the current through it, each turn counted once",
             "b": "Ohm's law: a voltage is a current times a resistance",
             "c": "the flux through a closed surface adds up to zero"},
    notes={"a": "Correct: the loop goes once through all turns, so the current counts once for each of them.",
           "b": "That is for the coil's wire, and gives its voltage. Here it is asked what drives flux.",
           "c": "That holds here, too, but says nothing of what drives the flux. Which law has a current in it?"})

# ---- predictions -----------------------------------------------------------------------------------------------------

coil_for_magnet = PredictionExercise(
    id="p4",
    question="A coil is wound on a rod of the magnet's size that is no magnet, but just as permeable. Its current is "
             "set so that as much flux passes through its middle as through the magnet's. How do its lines of flux "
             "run?",
    options={"a": "they all leave at the two ends: a winding lets no flux through the side",
             "b": "like the magnet's in the rod, but hardly any outside: a coil has no poles",
             "c": "like the magnet's outside, but the other way round inside",
             "d": "like the magnet's, outside and inside"},
    seen_question="Set the current so that turns times current is the magnet's MMF. How do the coil's lines run?",
    seen_options={"a": "all leave at the two ends", "b": "hardly any outside", "c": "the other way round inside",
                  "d": "as in the magnet's picture, everywhere"},
    seen="d",
    seen_notes={
        "a": "Look again at the winding in the picture: do lines of flux cross it?",
        "b": "Look again outside the coil, and at N and S.",
        "c": "Look again at the arrow heads halfway up: in the rod, then beside it.",
        "d": "Yes, that is what the panel shows. Now look for what differs: read H in both."})

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
    id="p2", further=True,
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
    id="p3", further=True,
    question="The air gap between the rod and the lid of the pot is doubled, from 1 mm to 2 mm. The flux through the "
             "gap ...",
    options={"a": "halves", "b": "falls, but by far less than half", "c": "does not change",
             "d": "falls to a quarter"},
    seen_question="Move the gap from 1 to 2 mm. The flux through the gap ...",
    seen_options={"a": "halves", "b": "falls by less than a third", "c": "stays the same", "d": "falls to a quarter"},
    seen="b",
    seen_notes={
        "a": "Look again: read the flux through the gap at 1 mm and at 2 mm and divide.",
        "b": "Yes, that is what the panel shows: the magnet's own reluctance is the same, and a wider gap has more "
             "flux round its edge.",
        "c": "That is nearly true of the flux in the rod. Look again at the flux through the gap.",
        "d": "Look again: read the flux through the gap at 1 mm and at 2 mm and divide."})

# ---- exercises -------------------------------------------------------------------------------------------------------

ROD = {"diameter": Given("diameter of the rod", unit="mm", low=4.5, high=5.2, step=0.05),
       "length": Given("length of the rod", unit="mm", low=12, high=18, step=0.5),
       "recoil": Given("recoil permeability", unit="1", low=3.0, high=4.5, step=0.1)}

own_reluctance = NumberExercise(
    id="2.1", further=True, unit="MA/Wb", tolerance=0.02, size=(20, 1500), given=ROD,
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

coil_turns = NumberExercise(
    id="2.9", unit="1", tolerance=0.02, size=(1000, 25000), marks=2,
    given={"remanence": Given("remanence of the recoil line", unit="T", low=0.60, high=0.80, step=0.01),
           "length": ROD["length"], "recoil": ROD["recoil"],
           "current": Given("current in the coil", unit="A", low=0.20, high=0.80, step=0.01)},
    answer=turns_for,
    slips=(Slip("MMF alone", magnet_mmf,
                "That is the MMF, in A: the current that one single turn would need. How many turns share it?"),
           Slip("times the current", lambda remanence, length, recoil, current:
                magnet_mmf(remanence, length, recoil) * current,
                "More current, fewer turns: multiply or divide by the current?"),
           Slip("upside down", lambda remanence, length, recoil, current:
                1 / turns_for(remanence, length, recoil, current),
                "Turns times current is the MMF. Solve that for the turns once more."),
           Slip("permeability left out", lambda remanence, length, current: remanence * length / MU_0 / current,
                WHICH_FACTOR),
           Slip("permeability above the line", lambda remanence, length, recoil, current:
                remanence * length * recoil / MU_0 / current,
                "A core that is more permeable needs less current. Does its permeability go above or below the line?"),
           Slip("length left out", lambda remanence, recoil, current: remanence / (MU_0 * recoil) / current,
                "Remanence over permeability is a field strength, in A/m. Along which length does it act?"),
           Slip("length left out, kA/m", lambda remanence, recoil, current:
                remanence / (MU_0 * recoil) / current / 1e3,
                "Remanence over permeability is a field strength, in kA/m. Along which length does it act?")),
    common=("thousand", "mu_0", "four pi"),
    steps={"mmf": Step("A", magnet_mmf)},
    notes=("First the MMF of the magnet, in A. Then ask how many turns make that of the given current.",
           "A coil's MMF is turns times current, by Ampère's law. It replaces the magnet if N I = B_r l/(μ₀ μ_rec)."),
    twin=Twin({"remanence": 0.40, "length": 10.0, "recoil": 1.1, "current": 2.0},
              "A piece of ferrite: {remanence}, {length} long, recoil permeability {recoil}. Its MMF is {mmf}. With "
              "{current} in the wire that takes {answer} turns, on a core that is no more permeable than the ferrite."),
    worked="The magnet's MMF is B_r l/(μ₀ μ_rec) = {mmf}. A coil with {current} in its wire has that MMF with {answer} "
           "turns.",
    teaching_note="Any whole number near it is right. Let someone work out the heat of such a coil: a winding 1 mm "
                  "thick, half copper, needs 90 to 530 W for the MMFs of these magnets.")

flux_in_letters = FormulaExercise(
    id="2.11", asked="Wb",
    symbols={"B_r": Symbol("remanence", "T", 0.6, 0.8), "l": Symbol("length of the magnet", "mm", 12, 18),
             "A": Symbol("cross-section of the magnet", "mm2", 15, 22),
             "mu_rec": Symbol("recoil permeability", "1", 3, 4.5),
             "mu_0": Symbol("magnetic constant", "H/m", MU_0, MU_0),
             "R_air": Symbol("reluctance of the air", "MA/Wb", 22, 36)},
    answer=loop_flux, written="B_r*l/(mu_0*mu_rec) / (l/(mu_0*mu_rec*A) + R_air)",
    slips=(Slip("air alone", lambda B_r, l, mu_rec, mu_0, R_air: B_r * l / (mu_0 * mu_rec * R_air),
                "The magnet is not a short circuit for its own flux. Which reluctance is missing?"),
           Slip("magnet alone", lambda B_r, A: B_r * A,
                "That is the flux with nothing outside but iron. Which reluctance is missing?"),
           Slip("in parallel", lambda B_r, l, A, mu_rec, mu_0, R_air:
                B_r * l / (mu_0 * mu_rec) * (mu_0 * mu_rec * A / l + 1 / R_air),
                "One loop, one flux: it passes through both, one after the other. Is that in series or in parallel?"),
           Slip("magnet like air", lambda B_r, l, A, mu_rec, mu_0, R_air:
                B_r * l / (mu_0 * mu_rec) / (l / (mu_0 * A) + R_air),
                "The magnet's own reluctance came out as that of as much air. " + WHICH_FACTOR),
           Slip("permeability left out of the MMF", lambda B_r, l, A, mu_rec, mu_0, R_air:
                B_r * l / mu_0 / (l / (mu_0 * mu_rec * A) + R_air),
                "Look at the MMF once more: which permeability is below its line?"),
           Slip("permeability above the line", lambda B_r, l, A, mu_rec, mu_0, R_air:
                B_r * l / (mu_0 * mu_rec) / (l * mu_rec / (mu_0 * A) + R_air),
                "A more permeable magnet is an easier path. Is its permeability above or below the line?")),
    notes=("Three pieces: what drives, and two reluctances. Write each with its letters, then put them together.",
           "Ohm's law: flux is MMF divided by reluctance, and reluctances in series add.",
           "A coil of N turns with the current I, on a core of reluctance R_m, has the flux N*I/(R_m + R_air)."),
    worked="The MMF is B_r l/(μ₀ μ_rec), the magnet's own reluctance l/(μ₀ μ_rec A), and the air's is in series with "
           "it. So the flux is the first, divided by the sum of the other two; or, shorter, B_r A l/(l + μ₀ μ_rec A "
           "R_air).",
    teaching_note="Ask for the two limits. Closed by iron (R_air = 0) it is B_r A, the flux of the remanence. Where "
                  "R_air is very large, it is the MMF divided by R_air.")

field_in_letters = FormulaExercise(
    id="2.12", asked="A/m",
    symbols={"F": Symbol("MMF of the magnet", "A", 1800, 3400),
             "R_m": Symbol("reluctance of the magnet", "MA/Wb", 140, 260),
             "R_air": Symbol("reluctance of the air", "MA/Wb", 22, 36),
             "l": Symbol("length of the magnet", "mm", 14, 18)},
    answer=lambda F, R_m, R_air, l: -F * R_air / (l * (R_m + R_air)), written="-F*R_air / (l*(R_m + R_air))",
    slips=(Slip("sign", lambda F, R_m, R_air, l: F * R_air / (l * (R_m + R_air)),
                "The magnitude is right. In which direction does H point inside a magnet, if B is counted positive?"),
           Slip("all of the MMF", lambda F, l: -F / l, NO_FLUX),
           Slip("all of the MMF, sign", lambda F, l: F / l, AND_THE_SIGN.format(NO_FLUX)),
           Slip("magnet's reluctance", lambda F, R_m, R_air, l: -F * R_m / (l * (R_m + R_air)), WHICH_REST),
           Slip("magnet's reluctance, sign", lambda F, R_m, R_air, l: F * R_m / (l * (R_m + R_air)),
                AND_THE_SIGN.format(WHICH_REST))),
    notes=("First solve Ampère's law for H. Then the flux is still in it: replace that, too.",
           "H l + Φ R_air = 0, and Φ = F/(R_m + R_air).",
           "A battery of 9 V with 2 Ω inside and a lamp of 1 Ω: the lamp has 9 V × 1/(2 + 1) = 3 V of it. So the air "
           "takes its share of the MMF."),
    worked="Ampère's law without a current: H l = −Φ R_air. The flux is F/(R_m + R_air). So H is "
           "−F R_air/(l (R_m + R_air)): the share of the MMF that the air takes, along the length of the rod, against "
           "B.",
    teaching_note="It is H in the middle of the rod, by the circuit; 2.4 has numbers and says how far it can be "
                  "trusted. Ask what it becomes when steel closes the path: R_air goes towards zero, and so does H.")

circuit_flux = NumberExercise(
    id="2.3", further=True, unit="uWb", tolerance=0.02, size=(1.5, 70),
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
    id="2.4", further=True, unit="kA/m", tolerance=0.02, size=(-120, -3), follows=circuit_flux,
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

from_air_to_shape = NumberExercise(
    id="2.10", further=True, unit="1", tolerance=0.02, size=(2, 16),
    given={"diameter": Given("diameter of the rod", unit="mm", low=4.6, high=5.2, step=0.05),
           "length": Given("length of the rod", unit="mm", low=14, high=18, step=0.5),
           "air": Given("reluctance of the air, for the whole rod", unit="MA/Wb", low=80, high=100, step=0.5)},
    answer=shape_coefficient,
    slips=(Slip("upside down", lambda diameter, length, air: 1 / shape_coefficient(diameter, length, air),
                "An easy path through the air makes P large. Does the air's reluctance go above or below the line?"),
           Slip("magnetic constant left out", lambda diameter, length, air: length / (disc(diameter) * air),
                "l/A is a reluctance times μ₀. Where does μ₀ go?"),
           Slip("area left out", lambda length, air: length / (MU_0 * air),
                "Which cross-section belongs to the length of the rod?"),
           Slip("length left out", lambda diameter, air: 1 / (MU_0 * disc(diameter) * air),
                "P is a plain number. Which length is missing above the line?")),
    common=("diameter for radius", "square for circle", "thousand", "million", "mu_0", "four pi"),
    steps={"area": Step("mm2", disc),
           "as_air": Step("MA/Wb", lambda diameter, length: length / (MU_0 * disc(diameter)))},
    notes=("Work out what a rod of *air* of this size would have as its reluctance, l/(μ₀ A). Compare it with the "
           "air's.",
           "B = Φ/A and H = −Φ R_air/l, divided: P = l/(μ₀ A R_air)."),
    twin=Twin({"diameter": 6.0, "length": 20.0, "air": 50.0},
              "Another rod: {diameter} across has {area}, and as much air {length} long has {as_air}. The air outside "
              "has {air}, so P = {answer}."),
    worked="The cross-section is {area}. As much air, {length} long, would have {as_air}; the air outside has {air}. "
           "Their ratio is P = {answer}.",
    teaching_note="P says how many times easier the air outside is than a rod of air in the magnet's place.")

curve_point = NumberExercise(
    id="2.5", further=True, unit="T", tolerance=0.03, size=(0.15, 1.6), marks=2,
    given={"remanence": Given("remanence of the curve", unit="T", low=1.05, high=1.15, step=0.01),
           "coercivity": Given("coercivity", unit="kA/m", low=58, high=64, step=0.5),
           "product": Given("largest energy product", unit="kJ/m3", low=34, high=38, step=0.5),
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
    teaching_note="The alloy is invented, and outside of the panel's sliders: who has only moved them must think now. "
                  "Two lines on squared paper are good enough: the tolerance is 3 %.")

most_of_b = PredictionExercise(
    id="p5", further=True,
    question="The house rod, of alnico 5, is alone in air. Where inside it is B largest?",
    options={"a": "nowhere: it is the same throughout, within a few per cent", "b": "in the middle, on the axis",
             "c": "in the middle, at the wall", "d": "just below the face, where the pole is"},
    seen_question="With the length as it is, read B at the three places. It is largest ...",
    seen_options={"a": "nowhere: they are within a few per cent", "b": "in the middle, on the axis",
                  "c": "in the middle, at the wall", "d": "just below the face"},
    seen="c",
    seen_notes={
        "a": "Look again: read B in the middle and just below the face, and divide.",
        "b": "Look again: beside the middle of the axis there is the middle of the wall.",
        "c": "Yes, that is what the panel shows: at the wall the backward field is a little weaker, and on the steep "
             "part of the curve a little in H is much in B.",
        "d": "Look again: by the time it reaches the face, most of the flux has left through the side."})

two_pieces = ChoiceExercise(
    id="2.17", further=True, right="b",
    options={"a": "larger in the piece below the face: the curve is steeper there",
             "b": "nearly the same in both pieces",
             "c": "larger in the middle piece: B is larger there",
             "d": "zero in both: so small a change moves neither"},
    notes={"a": "Does a piece go back along the curve that it came down? Which line does a small change follow?",
           "b": "Both move along recoil lines, and those of one alloy are nearly parallel.",
           "c": "How far B moves depends on a slope. Which slope, and is it another one where B is larger?",
           "d": "A recoil line is flat, but is it level?"},
    worked="Each piece leaves the curve and moves along its own recoil line. These lines begin at different points, "
           "but they are nearly parallel: the same change of H gives nearly the same change of B. So for a string's "
           "small changes an uneven rod answers like an even one.",
    teaching_note="This is why a course of pickups may use one straight line for a rod that is nowhere on it. Let the "
                  "class draw the two recoil lines into the panel's chart.")

longer_rod = NumberExercise(
    id="2.6", unit="1", tolerance=0.01, size=(1.02, 1.3), marks=2,
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

four_circuits = OrderExercise(
    id="2.13",
    options={"a": "one rod",
             "b": "two rods, end to end",
             "c": "two rods, side by side",
             "d": "one rod, with steel nearby that halves the reluctance of the air"},
    right="c > b = d > a",
    slips=(Slip("twice the MMF, twice the flux", "b > c", "In line the MMF doubles. What else doubles, and how much of "
                                                           "the whole was it?"),
           Slip("two rods are two rods", "b = c", "Write what drives and what hinders for both. Are the two fractions "
                                                  "equal?"),
           Slip("the air counts most", "d > c", "Which of the two reluctances is most of the whole? Which circuit "
                                                "halves that one?"),
           Slip("the air counts as much", "c = d", "Both halve a reluctance. Which of the two is most of the whole?"),
           Slip("half the air above two rods", "d > b", "Double the MMF and all reluctances of (d): the flux stays as "
                                                        "it was. Compare that with (b)."),
           Slip("two rods above half the air", "b > d", "Double the MMF and all reluctances of (d): the flux stays as "
                                                        "it was. Compare that with (b)."),
           Slip("no gain in line", "a = b", "Both the MMF and the magnets' reluctance double. Does the air's double, "
                                            "too?"),
           Slip("no gain by steel", "a = d", "The air is a small part of the whole, but is it none?")),
    notes=("Give the air the reluctance 1. What is the whole of each loop, and what drives it?",
           "Flux is MMF divided by the whole reluctance. In line MMF and own reluctance double; side by side the own "
           "reluctance halves.",
           "Batteries of 1 V with 4 Ω inside, and a lamp of 1 Ω: one alone gives 1/5 A, two in series 2/9 A, two in "
           "parallel 1/3 A."),
    worked="With the air as 1 and the MMF of one rod as 1: (a) 1/(6 + 1) = 0.143, (b) 2/(12 + 1) = 0.154, (c) "
           "1/(3 + 1) = 0.250, (d) 1/(6 + 0.5) = 0.154, which is (b) with both numbers halved. So {order}.",
    teaching_note="Who halves the largest part wins. The tie is no accident: two rods in the same air, or one rod in "
                  "half of it, are the same fraction.")

relay_pull = NumberExercise(
    id="2.14", further=True, unit="1", tolerance=0.03, size=(3, 200),
    given={"iron": Given("reluctance of all the iron", unit="MA/Wb", low=1.0, high=2.0, step=0.1),
           "area": Given("cross-section of the gap", unit="mm2", low=40, high=60, step=1),
           "opened": Given("gap when open", unit="mm", low=0.80, high=1.20, step=0.05),
           "closed": Given("gap when closed", unit="mm", low=0.10, high=0.20, step=0.01)},
    answer=pull_grows,
    slips=(Slip("flux for pull", lambda iron, area, opened, closed: math.sqrt(pull_grows(iron, area, opened, closed)),
                "That is how the flux grows. How does the pull go with the flux?"),
           Slip("gap alone", lambda opened, closed: (opened / closed) ** 2,
                "The iron stays in the loop when the gap closes. Which reluctance is missing?"),
           Slip("gap alone, flux for pull", lambda opened, closed: opened / closed,
                "Two things are missing: the reluctance of the iron, and the step from flux to pull."),
           Slip("upside down", lambda iron, area, opened, closed: 1 / pull_grows(iron, area, opened, closed),
                "The question asks for the pull with the gap closed, divided by that with the gap open.")),
    steps={"r_open": Step("MA/Wb", lambda opened, area: gap_reluctance(opened, area)),
           "r_closed": Step("MA/Wb", lambda closed, area: gap_reluctance(closed, area)),
           "flux": Step("1", lambda iron, area, opened, closed: math.sqrt(pull_grows(iron, area, opened, closed)))},
    notes=("First the reluctance of the gap, open and closed. Then the whole loop, twice.",
           "The MMF stays, so the flux grows as the whole reluctance falls; and the pull goes with the square of the "
           "flux."),
    twin=Twin({"iron": 3.0, "area": 100, "opened": 2.0, "closed": 0.5},
              "A larger relay: the gap has {r_open} when open and {r_closed} when closed, the iron {iron}. The flux "
              "grows {flux} times, the pull {answer} times."),
    worked="The gap has {r_open} when open and {r_closed} when closed. With {iron} in series each time, the flux grows "
           "by a factor of {flux}, and the pull by the square of that, {answer}.",
    teaching_note="Ask why a relay closes with a snap: the nearer the armature, the larger the pull. Real iron "
                  "saturates when closed, and the factor is smaller then.")

holding_current = FormulaExercise(
    id="2.15", further=True, asked="A",
    symbols={"I": Symbol("current that just pulls the armature in", "mA", 60, 120),
             "R_iron": Symbol("reluctance of all the iron", "MA/Wb", 1, 2),
             "R_open": Symbol("reluctance of the gap when open", "MA/Wb", 11, 24),
             "R_closed": Symbol("reluctance of the gap when closed", "MA/Wb", 1.3, 4)},
    answer=lambda I, R_iron, R_open, R_closed: I * (R_iron + R_closed) / (R_iron + R_open),
    written="I * (R_iron + R_closed) / (R_iron + R_open)",
    slips=(Slip("gap alone", lambda I, R_open, R_closed: I * R_closed / R_open,
                "The iron stays in the loop when the gap closes. Which reluctance is missing?"),
           Slip("squared", lambda I, R_iron, R_open, R_closed: I * ((R_iron + R_closed) / (R_iron + R_open)) ** 2,
                "The same pull needs the same flux. Does the flux go with the current, or with its square?"),
           Slip("root", lambda I, R_iron, R_open, R_closed: I * ((R_iron + R_closed) / (R_iron + R_open)) ** 0.5,
                "The same pull needs the same flux. Does the flux go with the current, or with its root?"),
           Slip("upside down", lambda I, R_iron, R_open, R_closed: I * (R_iron + R_open) / (R_iron + R_closed),
                "With the gap closed the loop is easier. Does it take more current for the same flux, or less?")),
    notes=("The pull is to be the same. What must then be the same, too?",
           "The same pull means the same flux: N I divided by the whole reluctance, open and closed.",
           "A loop of 10 MA/Wb that becomes one of 2 MA/Wb needs a fifth of the current for the same flux."),
    worked="The same pull needs the same flux: N I/(R_iron + R_open) before, N I_hold/(R_iron + R_closed) afterwards. "
           "The turns cancel, so I_hold = I (R_iron + R_closed)/(R_iron + R_open).",
    teaching_note="For the relay of the page that is 18 % of the current. This is why a relay lets go at a much "
                  "smaller current than it needs to close, and why some circuits turn the current down once it is "
                  "closed.")

right_and_wrong = TextExercise(
    id="2.8", further=True,
    rubric=((1, "Right: one flux round a loop, driven by an MMF against reluctances that add (or the like)."),
            (1, "Wrong, two of: nothing flows; constant flux heats nothing; nothing insulates; a magnet remembers."),
            (1, "A measurement of one of them: temperature of steel that carries flux; readings beside the steel.")),
    worked="Right: round one loop there is one flux, driven by an MMF, and reluctances in series add like "
           "resistances. Wrong: nothing flows and nothing is heated; a magnet holds its flux for years without any "
           "supply. Nor is there an insulator for flux: air carries a good part of it. Measurement: put a steel bar "
           "across the magnet, and for an hour compare its temperature with that of a bar on its own: both stay "
           "equally warm. Or move a probe along the bar: it reads a flux density beside the iron all the way.",
    teaching_note="\"It wears out the magnet\" is a frequent third sentence. Ask what a battery would do in its place.")

TEACHING_NOTE = """
**Demonstration with real parts.** A rod magnet, a steel nut and a stack of card. Hang the nut under the magnet with
0, 1, 2, 4 cards between, and pull with a spring balance. Twice the gap takes away less
than half of the pull at first, more than half later: no power law. (The pull goes with the square of the flux.) Ask
why. Then put a second rod end to end with the first and read the field at the pole: a few per cent more. Then
side by side, like poles together (hold them, they push each other away; take old rods, because it weakens alnico).
With a coil of some hundred turns on a bolt and a supply limited to 1 A show that a compass takes it for a magnet;
switch on for seconds only, because it gets hot, and let the person in charge of the room connect it.
Cautions as in lesson 1: implants, pinching; safety glasses against splinters.

**What to ask.** "Where is the battery's internal resistance in this circuit?" "Which number on this page belongs to the
shape, and which to the material?" "If nothing insulates, why does the comparison help at all?"

**What goes wrong.** Reluctance in parallel instead of in series. The magnet taken as a source without reluctance:
five to thirteen times too much flux. "Two magnets, twice the flux." The remanence of the data sheet taken as the flux
density of a rod in air. The air's reluctance taken for a constant of nature: it belongs to one way of
averaging. "H in the magnet" taken for one number: on the axis of the house rod it is −27 kA/m in the middle, −125 just
below the faces, −50 as the mean.

**Say it openly**: the straight line that replaces the curve is good for the field above the pole and for small
changes; it is not the truth inside the alloy. The panel at the end of section 4 says by how much: 0.17 to 0.98 T in one
rod, and on the line 23 % too little flux through its middle.
"""

EVENINGS = (Evening(
    aim="What drives flux, and what it is driven against: Ampère's law makes a magnet and a coil the same source.",
    on_the_table="Two rod magnets, a steel nut, card, a spring balance, a compass; a coil of some hundred turns on a "
                 "bolt, a bench supply that is limited to 1 A, a clip-on thermometer.",
    stretches=(
        Stretch(minutes=7, what="The film of the closing lid, cautions, three quick questions.",
                ask="A twentieth of the gap: what would twenty times the flux need?"),
        Stretch(minutes=12, what="Section 1: the two tables, Ampère's law; the three lines for coil and magnet side by "
                                 "side on the board.",
                ask="Which line of the two is Ampère's law, and what changed in it?"),
        Stretch(minutes=8, what="Prediction, then magnet beside coil; the coil on the bolt moves a compass.",
                ask="Where do the two differ, and where do they not?"),
        Stretch(minutes=10, what="Examples, which principle, exercise 2.9.",
                ask="Who has the fewest turns, and why?"),
        Stretch(minutes=18, what="Section 2: prediction, circuit beside field, the example, then 2.11 and 2.12.",
                ask="Where is the battery's internal resistance?"),
        Stretch(minutes=13, what="Section 3: two rods, exercises 2.6, 2.7 and 2.13; the demonstration with real rods.",
                ask="What doubled, and what did not?"),
        Stretch(minutes=3, what="The summary, read aloud by students.", ask="What was not clear?")),
    at_home="The further parts: the numbers of one rod (2.1, 2.3), H in the middle, load line and curve (section 4), "
            "keepers and gaps (section 5), a relay (section 6), the open question."),)

TO_VOTE = (
    ToVote(
        question="A coil of 1000 turns carries 2 A. It is wound again on the same core, with 4000 turns on the same "
                 "length. For the same flux it now needs ...",
        options={"a": "0.5 A", "b": "1 A", "c": "2 A", "d": "8 A"}, right="a",
        because="Only turns times current counts: 2000 A both times. The flux is the same, so the current is a "
                "quarter.",
        twin=ToVote(
            question="On the same core are, in turn: 500 turns with 4 A, 2000 turns with 1 A, 8000 turns with 0.25 A. "
                     "Which gives the most flux?",
            options={"a": "500 turns: the current is largest", "b": "2000 turns: neither is small",
                     "c": "8000 turns: they are the most", "d": "none: all give the same"},
            right="d", because="Each of them has an MMF of 2000 A.")),
    ToVote(
        question="A magnet's own reluctance is seven times that of the air outside. Steel nearby halves the air's "
                 "reluctance. The magnet's flux ...",
        options={"a": "doubles", "b": "grows by about 7 %", "c": "stays exactly the same", "d": "halves"}, right="b",
        because="In series 7 + 1 = 8 become 7 + 0.5 = 7.5, so the flux grows by 8/7.5: about 7 %. Who looks at the air "
                "alone says that it doubles.",
        twin=ToVote(
            question="A weak battery has an internal resistance of 7 Ω, and its lamp has 1 Ω. A lamp of 0.5 Ω takes "
                     "its place. The current ...",
            options={"a": "doubles", "b": "becomes 1.5 times as large", "c": "grows by about 7 %", "d": "falls"},
            right="c", because="8 Ω become 7.5 Ω. It is the same circuit.")),
    ToVote(
        question="A steel bar joins the poles of a magnet and carries its flux for a year. After that ...",
        options={"a": "the bar is warm, because flux flows in it", "b": "the magnet is weak, because its flux was used",
                 "c": "neither is the case", "d": "both are the case"}, right="c",
        because="Nothing flows and nothing is used: a constant flux takes no power. The bar keeps the magnet strong.",
        twin=ToVote(
            question="A coil in air keeps up a constant flux, and it gets hot. The heat comes from ...",
            options={"a": "the flux in the air", "b": "the current in the wire", "c": "both, by halves",
                     "d": "the flux through the copper"},
            right="b", because="The wire has a resistance. The constant flux takes no power, neither in air nor in "
                               "copper.")))

LESSON = Lesson(
    id="02", title="Ohm's law for magnetic circuits", version=1, exercises=(
        pressed_string, closed_surface, field_inside, coil_for_magnet, own_reluctance, same_current, coil_turns,
        which_is_larger, flux_in_letters, field_in_letters, circuit_flux, replacement_field, longer_rod, side_by_side,
        four_circuits, shorter_rod, most_of_b, two_pieces, from_air_to_shape, curve_point,
        wider_gap, relay_pull, holding_current, right_and_wrong),
    teaching_note=TEACHING_NOTE, evenings=EVENINGS, to_vote=TO_VOTE)
