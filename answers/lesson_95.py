"""Lesson 95, the examination, form A: the bank of exercises with marks for each step; form B is made from it.

An exercise of the bank is declared here once: ranges, formula, tolerance, slips, points. Form B has the same with other
words. Texts name no object of the question, so that they serve both forms.
"""
import math
from inspect import signature

import numpy as np

from lessons_lib.exercises.declaration import (
    ChoiceExercise,
    Derived,
    Given,
    Lesson,
    NumberExercise,
    Slip,
    Step,
    TextExercise,
    Twin,
)

MU_0 = 4e-7 * math.pi
DB = 20 / math.log(10)      # of one power of e
TIMES = 0.25 * np.arange(1, 5)      # in steps

RAISED = {1e3: "10³", 1e-3: "10⁻³", 1e6: "10⁶", 1e-6: "10⁻⁶"}
POWER_OF_TEN = ("The digits are right. A power of ten is not: write every value in its plain unit first, then look at "
                "the unit that is asked.")


def disc(diameter):
    return math.pi * diameter ** 2 / 4


def gap(length, diameter):
    return length / (MU_0 * disc(diameter))


def in_parallel(one, other):
    return one * other / (one + other)


def loop(magnet, near, far, branch):
    return magnet + far + in_parallel(near, branch)


def in_the_branch(mmf, magnet, near, far, branch):
    return mmf / loop(magnet, near, far, branch) * near / (near + branch)


def level(ratio):
    return 20 * math.log10(ratio)


def impedance(tension, density):
    return math.sqrt(tension * density)


def reactance(inductance, frequency):
    return 2 * math.pi * frequency * inductance


def resonance(inductance, capacitance):
    return 1 / (2 * math.pi * math.sqrt(inductance * capacitance))


def share(resistance, load):
    return load / (resistance + load)


def out_by(*factors, of, marks):
    """Slips that are right but for a power of ten, 10³ and so on, each with the *marks* of all other steps."""
    def of_all(factor):
        def formula(**values):
            return factor * of(**values)
        formula.__signature__ = signature(of)
        return formula
    return tuple(Slip(f"power of ten, {RAISED[factor]}", of_all(factor), POWER_OF_TEN, marks) for factor in factors)


# ---- the bank --------------------------------------------------------------------------------------------------------

def flux(diameter, field):
    return field * disc(diameter)


flux_of_a_face = NumberExercise(
    id="95.1", unit="uWb", tolerance=0.02, size=(0.5, 8), marks=2,
    given={"diameter": Given("diameter of the pole face", unit="mm", low=4.2, high=5.4, step=0.1),
           "field": Given("mean flux density over it", unit="mT", low=62, high=118, step=1)},
    answer=flux,
    points=((1, "area of the circle, πd²/4"), (1, "times B, with the right power of ten")),
    slips=(Slip("diameter for radius", lambda diameter, field: 4 * flux(diameter, field),
                "What is squared in π r² is the radius, half of the diameter.", 1),
           Slip("square for circle", lambda diameter, field: field * diameter ** 2,
                "That is the flux through a square. How much of the square does the circle fill?", 1),
           *out_by(1e3, 1e-3, of=flux, marks=1)),
    steps={"area": Step("mm2", disc)},
    notes=("First the area of the circle, in m². The diameter is given.",
           "Flux is flux density times area, Φ = B A, where B is along the normal."),
    twin=Twin({"diameter": 6.0, "field": 50},
              "A circle {diameter} across has {area}. With {field} the flux is 0.050 × 2.827·10⁻⁵ Wb = {answer}."),
    worked="A circle {diameter} across has the area πd²/4 = {area}. Times {field} that is {answer}.")

closed_surface = ChoiceExercise(
    id="95.2", right="c",
    options={"a": "less than 9 µWb, because the field gets weaker with the distance",
             "b": "more than 9 µWb, because the pole adds flux of its own",
             "c": "9 µWb",
             "d": "an amount that depends on how large the surface is"},
    notes={"a": "The field gets weaker because the same flux has more area. Does any of it end on the way?",
           "b": "A pole is where flux leaves the rod; it does not make any. Where did that flux come from?",
           "c": "What enters a closed surface leaves it somewhere.",
           "d": "A larger surface has less flux on each square millimetre. And in all?"},
    worked="The flux through a closed surface adds up to zero: what enters leaves, whatever the surface's shape.")


def loop_flux(mmf, magnet, air):
    return mmf / (magnet + air)


flux_in_series = NumberExercise(
    id="95.3", unit="uWb", tolerance=0.02, size=(3, 40), marks=2,
    given={"mmf": Given("MMF of the magnet", unit="A", low=1800, high=3200, step=20),
           "magnet": Given("reluctance of the magnet", unit="MA/Wb", low=130, high=240, step=2),
           "air": Given("reluctance of the air", unit="MA/Wb", low=22, high=38, step=0.5)},
    answer=loop_flux,
    points=((1, "adds the two reluctances"), (1, "MMF divided by reluctance, with the right power of ten")),
    slips=(Slip("air alone", lambda mmf, air: mmf / air,
                "The flux passes through the magnet, too. Which reluctance is missing?", 1),
           Slip("magnet alone", lambda mmf, magnet: mmf / magnet,
                "The flux has to come back outside of the magnet. Which reluctance is missing?", 1),
           Slip("in parallel", lambda mmf, magnet, air: mmf / in_parallel(magnet, air),
                "One flux passes through both, one after the other. Is that in series or in parallel?", 1),
           *out_by(1e3, 1e-3, 1e6, of=loop_flux, marks=1)),
    steps={"sum": Step("MA/Wb", lambda magnet, air: magnet + air)},
    notes=("One source, two reluctances, one loop: draw it.", "Φ = F/R, and reluctances in series add."),
    twin=Twin({"mmf": 1000, "magnet": 80, "air": 20},
              "{magnet} and {air} in series make {sum}. {mmf} divided by that is {answer}."),
    worked="{magnet} and {air} in series make {sum}. {mmf} divided by that is {answer}.")

gap_of_air = NumberExercise(
    id="95.4", unit="MA/Wb", tolerance=0.02, size=(20, 400), marks=3,
    given={"length": Given("length of the gap", unit="mm", low=1.2, high=3.6, step=0.1),
           "diameter": Given("diameter of the round cross-section", unit="mm", low=3.6, high=5.2, step=0.1)},
    answer=gap,
    points=((1, "area πd²/4 of the cross-section"), (1, "l/(µ₀ A), with the length above and the area below"),
            (1, "µ₀, m and m² put in: the right power of ten")),
    slips=(Slip("diameter for radius", lambda length, diameter: gap(length, diameter) / 4,
                "What is squared in π r² is the radius, half of the diameter.", 2),
           Slip("square for circle", lambda length, diameter: length / (MU_0 * diameter ** 2),
                "That is a gap with a square cross-section.", 2),
           Slip("upside down", lambda length, diameter: 1e6 / gap(length, diameter),
                "A longer gap is harder to pass. Does your number grow with the length?", 1),
           Slip("no constant", lambda length, diameter: length / disc(diameter) * 1e6,
                "That is length divided by area. Which constant belongs to air?", 1),
           *out_by(1e3, 1e-3, 1e6, 1e-6, of=gap, marks=2)),
    steps={"area": Step("mm2", disc)},
    notes=("First the cross-section in m², then the length in m.", "R = l/(µ₀ A): air has no other factor."),
    twin=Twin({"length": 5.0, "diameter": 6.0},
              "{length} of air with a cross-section {diameter} across, {area}: "
              "5.0·10⁻³/(4π·10⁻⁷ × 2.827·10⁻⁵) A/Wb = {answer}."),
    worked="A circle {diameter} across has {area}. {length} divided by µ₀ times that is {answer}.")

flux_of_a_branch = NumberExercise(
    id="95.5", unit="nWb", tolerance=0.03, size=(25, 400), marks=3,
    given={"mmf": Given("MMF of the magnet", unit="A", low=2200, high=2900, step=20),
           "magnet": Given("reluctance of the magnet", unit="MA/Wb", low=165, high=200, step=1),
           "near": Given("near air", unit="MA/Wb", low=6, high=10, step=0.1),
           "far": Given("far air", unit="MA/Wb", low=17, high=24, step=0.1),
           "branch": Given("branch of the string", unit="MA/Wb", low=450, high=750, step=5)},
    answer=in_the_branch,
    # with the near air alone in the loop, as if the branch took nothing from it
    fuller=lambda mmf, magnet, near, far, branch: mmf / (magnet + near + far) * near / branch,
    points=((1, "reluctance of the loop: magnet, far air, and the near part (with the branch in parallel, or without)"),
            (1, "flux of the loop: MMF divided by it"),
            (1, "the share of the branch: R_near/(R_near + R_branch)")),
    slips=(Slip("whole flux", lambda mmf, magnet, near, far, branch: mmf / loop(magnet, near, far, branch),
                "That is the flux in the magnet. Which share of it takes the branch?", 2),
           Slip("near air's share", lambda mmf, magnet, near, far, branch:
                mmf / loop(magnet, near, far, branch) * branch / (near + branch),
                "That is the flux in the near air. The larger of two reluctances in parallel takes the smaller flux.",
                2),
           Slip("all of the air", lambda mmf, magnet, near, far, branch:
                mmf / (magnet + in_parallel(near + far, branch)) * (near + far) / (near + far + branch),
                "Which part of the air is the branch in parallel with?", 2),
           Slip("all of the MMF", lambda mmf, branch: mmf / branch,
                "Is the whole MMF across the branch? Some of it is used for the magnet and the far air."),
           Slip("in series", lambda mmf, magnet, near, far, branch: mmf / (magnet + near + far + branch),
                "That is one loop with everything in series. Which two are side by side?", 1),
           *out_by(1e3, 1e-3, of=in_the_branch, marks=2)),
    steps={"near_part": Step("MA/Wb", lambda near, branch: in_parallel(near, branch)),
           "loop": Step("MA/Wb", loop),
           "whole": Step("uWb", lambda mmf, magnet, near, far, branch: mmf / loop(magnet, near, far, branch))},
    notes=("Draw the circuit. Which two reluctances have the same ends?",
           "First the flux of the whole loop. Then the MMF across the near air is the same as across the branch."),
    twin=Twin({"mmf": 2000, "magnet": 160, "near": 12, "far": 28, "branch": 588},
              "{near} and {branch} in parallel make {near_part}; with {magnet} and {far} the loop has {loop}, so its "
              "flux is {whole}. Of this the branch takes 12/(12 + 588): {answer}."),
    worked="{near} and {branch} in parallel make {near_part}; with {magnet} and {far} the loop has {loop}. {mmf} "
           "divided by that is {whole}. Near air and branch share it in the inverse ratio of their reluctances: the "
           "branch takes {answer}.")

fall_in_level = NumberExercise(
    id="95.6", unit="dB", tolerance=0.1, size=(-5, -1), marks=2,
    given={"away": Given("moved away by", unit="mm", low=0.5, high=1.2, step=0.05),
           "decay": Given("decay length of the signal", unit="mm", low=2.6, high=3.4, step=0.05)},
    answer=lambda away, decay: -DB * away / decay,
    points=((1, "the ratio exp(−x/δ), or its exponent −x/δ"), (1, "20 log₁₀ of it, with its minus")),
    slips=(Slip("sign", lambda away, decay: DB * away / decay,
                "The magnitude is right. Does the level rise or fall on the way?", 1),
           Slip("ten log", lambda away, decay: -DB / 2 * away / decay,
                "The signal is a voltage. Which factor is in front of its logarithm?", 1),
           Slip("exponent", lambda away, decay: -away / decay,
                "That is the exponent of e. How many dB are one power of e?", 1),
           Slip("ratio", lambda away, decay: math.exp(-away / decay),
                "That is the ratio. How is it put in decibels?", 1),
           Slip("upside down", lambda away, decay: -DB * decay / away,
                "A longer decay length means a slower fall. Which length is above the line?", 1)),
    steps={"exponent": Step("1", lambda away, decay: away / decay),
           "ratio": Step("1", lambda away, decay: math.exp(-away / decay))},
    notes=("First the ratio of the two signals, below 1.", "S ~ exp(−x/δ), and a level is 20 log₁₀ of a ratio."),
    twin=Twin({"away": 1.5, "decay": 3.0},
              "{away} with {decay}: exp(−{exponent}) = {ratio}, and 20 log₁₀ of it is {answer}."),
    worked="{away} divided by {decay} is {exponent}; exp(−{exponent}) = {ratio}, and 20 log₁₀ of it is {answer}.")


def motion_voltage(turns, slope, speed):
    return turns * slope * speed


voltage_of_motion = NumberExercise(
    id="95.7", unit="mV", tolerance=0.02, size=(10, 400), marks=2,
    given={"turns": Given("turns of the coil", unit="1", low=5000, high=9000, step=50),
           "slope": Given("slope of the flux in each turn", unit="nWb/mm", low=8, high=22, step=0.1),
           "speed": Given("speed towards the pole", unit="m/s", low=0.40, high=1.50, step=0.01)},
    answer=motion_voltage,
    points=((1, "e = N v S"), (1, "nWb/mm changed to Wb/m: the right power of ten")),
    slips=(Slip("single turn", lambda slope, speed: slope * speed, "That is the voltage of one turn.", 1),
           Slip("no speed", lambda turns, slope: turns * slope,
                "That is the slope of all turns together. How fast is that slope passed?"),
           *out_by(1e3, 1e-3, 1e-6, of=motion_voltage, marks=1)),
    steps={"all": Step("Wb/m", lambda turns, slope: turns * slope)},
    notes=("How many Wb/m are one nWb/mm? Then count the turns.",
           "The flux linkage changes with the height by N S, and the height with the time by v: e = N v S."),
    twin=Twin({"turns": 4000, "slope": 5.0, "speed": 0.5},
              "{turns} turns times {slope} is {all}. Times {speed} that is {answer}."),
    worked="1 nWb/mm is 10⁻⁶ Wb/m, so {turns} turns times {slope} is {all}. Times {speed} that is {answer}.")

from_flux_to_voltage = ChoiceExercise(
    id="95.8", right="b",
    options={"a": "rising, then constant, then falling twice as steeply",
             "b": "constant, then zero, then constant with the other sign and twice as large",
             "c": "constant, then zero, then constant with the other sign and half as large",
             "d": "constant, then zero, then constant with the same sign and twice as large"},
    notes={"a": "That is the graph of the flux. The voltage follows its slope.",
           "b": "The voltage follows the slope of the flux, with its sign.",
           "c": "The same change in half of the time: is the slope larger or smaller?",
           "d": "Once the flux grows, once it falls. What does that do to the sign?"},
    worked="A slope that is constant makes a constant voltage, no slope none. Back in half of the time is twice the "
           "slope, with the other sign.")

against_the_change = ChoiceExercise(
    id="95.9", right="d",
    options={"a": "a south pole, which pushes the rod on",
             "b": "a south pole, because it opposes the flux of the rod",
             "c": "no pole, because the rod moves away and the flux gets weaker",
             "d": "a north pole, which pulls the rod back"},
    notes={"a": "A current that pushed would make its own motion faster, and energy from nothing.",
           "b": "It opposes the change of the flux, not the flux. Does the flux grow or fall here?",
           "c": "A flux that gets weaker changes, too.",
           "d": "The current keeps up the flux that gets weaker, and holds the rod back."},
    worked="The flux through the ring gets weaker, and the current keeps it up: the side towards the rod becomes the "
           "pole that pulls, and the motion is held back.")


def mean_voltage(turns, time, flux):
    return turns * (flux[3] - flux[1]) / (time[3] - time[1])


voltage_of_a_table = NumberExercise(
    id="95.10", unit="mV", tolerance=0.02, size=(20, 600), marks=2,
    given={"turns": Given("turns of the coil", unit="1", low=5000, high=9000, step=50)},
    hidden={"step": Given("step", unit="ms", low=0.8, high=1.6, step=0.08),
            "start": Given("flux at first", unit="nWb", low=18, high=30, step=0.1),
            "first": Given("first change", unit="nWb", low=1.5, high=3.0, step=0.1),
            "second": Given("second change", unit="nWb", low=6.0, high=9.0, step=0.1),
            "third": Given("third change", unit="nWb", low=7.0, high=10.0, step=0.1)},
    derived={"time": Derived("time", unit="ms", decimals=2, formula=lambda step: step * TIMES),
             "flux": Derived("flux in each turn", unit="nWb", decimals=1, formula=lambda start, first, second, third:
                             start + np.array([0, first, first + second, first + second + third]))},
    answer=mean_voltage,
    points=((1, "change of the flux divided by its time, second value to fourth"),
            (1, "times the turns, with the right power of ten")),
    slips=(Slip("whole table", lambda turns, time, flux: turns * (flux[3] - flux[0]) / (time[3] - time[0]),
                "That is the mean over the whole table. Between which two values is it asked?", 1),
           Slip("single turn", lambda time, flux: (flux[3] - flux[1]) / (time[3] - time[1]),
                "That is the voltage of one turn.", 1),
           Slip("flux by time", lambda turns, time, flux: turns * flux[3] / time[3],
                "A flux that stays makes no voltage, however large it is. What has changed, and in which time?", 1),
           Slip("whole time", lambda turns, time, flux: turns * (flux[3] - flux[1]) / time[3],
                "The change is right. How long did it take, from the second value to the fourth?", 1),
           *out_by(1e3, 1e-3, of=mean_voltage, marks=1)),
    steps={"change": Step("nWb", lambda flux: flux[3] - flux[1]), "took": Step("ms", lambda time: time[3] - time[1])},
    notes=("Take two values of the table: by how much has the flux changed, and in which time?",
           "The mean voltage is N ΔΦ/Δt."),
    twin=Twin({"turns": 4000, "time": [0.5, 1.0, 1.5, 2.0], "flux": [10.0, 12.0, 16.0, 22.0]},
              "From the second value to the fourth the flux changes by {change} in {took}. Times {turns} that is "
              "{answer}."),
    worked="From the second value to the fourth the flux changes by {change} in {took}. Times {turns} turns that is "
           "{answer}.")


def peak_speed(force, tension, density):
    return force / (2 * impedance(tension, density))


speed_of_a_pluck = NumberExercise(
    id="95.11", unit="m/s", tolerance=0.02, size=(0.6, 6), marks=3,
    given={"force": Given("force of the pluck", unit="N", low=0.60, high=1.60, step=0.02),
           "tension": Given("tension", unit="N", low=58, high=88, step=1),
           "density": Given("mass per unit length", unit="g/m", low=0.40, high=1.20, step=0.01)},
    answer=peak_speed,
    points=((1, "Z = √(Tμ)"), (1, "g/m changed to kg/m before the root"), (1, "F/(2Z)")),
    slips=(Slip("grams", lambda force, tension, density: peak_speed(force, tension, 1e3 * density),
                "Which unit of mass belongs to newtons, gram or kilogram? It is under a root.", 2),
           Slip("no half", lambda force, tension, density: 2 * peak_speed(force, tension, density),
                "A kink runs off to both sides. What does that do to the force on each?", 2),
           Slip("no root", lambda force, tension, density: force / (2 * tension * density),
                "Tμ is the square of the impedance.", 2),
           Slip("speed of the wave", lambda force, tension, density: force / (2 * math.sqrt(tension / density)),
                "√(T/μ) is the speed of the wave. Which root is the impedance?", 2),
           Slip("impedance", lambda tension, density: impedance(tension, density),
                "That is the impedance, in kg/s. One step is left.", 2)),
    steps={"Z": Step("kg/s", impedance)},
    notes=("First the impedance, from the tension and the mass per unit length in kg/m.",
           "v = F/(2Z), with Z = √(Tμ)."),
    twin=Twin({"force": 1.00, "tension": 50, "density": 2.00},
              "Z = √(50 × 2.00·10⁻³) = {Z}. {force} divided by twice that is {answer}."),
    worked="Z is the root of {tension} times {density}, {Z}. {force} divided by twice that is {answer}.")


def magnitude(resistance, inductance, frequency):
    return math.hypot(resistance, reactance(inductance, frequency))


impedance_of_a_coil = NumberExercise(
    id="95.12", unit="kohm", tolerance=0.02, size=(5, 25), marks=2,
    given={"resistance": Given("resistance of the coil", unit="kohm", low=5.0, high=9.0, step=0.1),
           "inductance": Given("inductance", unit="H", low=2.0, high=4.0, step=0.05),
           "frequency": Given("frequency", unit="Hz", low=300, high=560, step=5)},
    answer=magnitude,
    points=((1, "reactance 2πfL, in Ω or kΩ"), (1, "√(R² + (2πfL)²)")),
    slips=(Slip("plain sum", lambda resistance, inductance, frequency: resistance + reactance(inductance, frequency),
                "The two voltages do not peak at the same time. How are sides at right angles added?", 1),
           Slip("reactance", reactance, "That is 2πfL alone. Where is R?", 1),
           Slip("no two pi", lambda resistance, inductance, frequency: math.hypot(resistance, inductance * frequency),
                "The reactance takes ω, 2π times the frequency.", 1),
           Slip("no root", lambda resistance, inductance, frequency:
                magnitude(resistance, inductance, frequency) ** 2 / 1e3,
                "That is the square of the magnitude, in kΩ². One step is left.", 1),
           *out_by(1e3, 1e-3, of=magnitude, marks=1)),
    steps={"X": Step("kohm", reactance)},
    notes=("First 2πfL by itself, in Ω.", "|Z| = √(R² + (2πfL)²)."),
    twin=Twin({"resistance": 10.0, "inductance": 5.0, "frequency": 700},
              "2πfL of {inductance} at {frequency} is {X}. With {resistance} at right angles that makes {answer}."),
    worked="2πfL of {inductance} at {frequency} is {X}. With {resistance} at right angles that makes {answer}.")


def peak(inductance, own, cable):
    return resonance(inductance, own + cable)


resonance_with_cable = NumberExercise(
    id="95.13", unit="kHz", tolerance=0.02, size=(2, 7), marks=3,
    given={"inductance": Given("inductance", unit="H", low=2.0, high=4.5, step=0.05),
           "own": Given("self-capacitance of the coil", unit="pF", low=80, high=160, step=5),
           "cable": Given("capacitance of the cable", unit="pF", low=300, high=650, step=10)},
    answer=peak,
    points=((1, "adds the two capacitances"), (1, "1/(2π√(LC)) with L in H and C in F"),
            (1, "worked out, in kHz: the right power of ten")),
    slips=(Slip("cable alone", lambda inductance, cable: resonance(inductance, cable),
                "The coil has a capacitance, too, across the same two wires.", 2),
           Slip("coil alone", lambda inductance, own: resonance(inductance, own),
                "The cable is across the coil, too.", 2),
           Slip("in series", lambda inductance, own, cable: resonance(inductance, in_parallel(own, cable)),
                "Both are across the coil, side by side. Do capacitances in parallel add, or their reciprocals?", 2),
           Slip("no two pi", lambda inductance, own, cable: 2 * math.pi * peak(inductance, own, cable),
                "That is ω, in radians per second.", 2),
           Slip("no root", lambda inductance, own, cable: 1 / (2 * math.pi * inductance * (own + cable)),
                "L times C is a time squared. Which step makes it a time?", 2),
           *out_by(1e3, 1e-3, 1e-6, of=peak, marks=2)),
    steps={"C": Step("pF", lambda own, cable: own + cable),
           "root": Step("ms", lambda inductance, own, cable: math.sqrt(inductance * (own + cable)))},
    notes=("Which capacitances are across the coil? Write them in F.",
           "f₀ = 1/(2π√(LC)), with all of the capacitance."),
    twin=Twin({"inductance": 6.0, "own": 200, "cable": 800},
              "{own} and {cable} make {C}. With {inductance} the root √(LC) is {root}, and 1/(2π) divided by it "
              "{answer}."),
    worked="{own} and {cable} make {C}. With {inductance} the root √(LC) is {root}, and 1/(2π) divided by it {answer}.")

loss_of_a_load = NumberExercise(
    id="95.14", unit="dB", tolerance=0.015, size=(-1.0, -0.4), marks=2,
    # heavy loads: with lighter ones R/R_load in place of R/(R + R_load) would pass
    given={"resistance": Given("resistance of the coil", unit="kohm", low=7.0, high=9.5, step=0.1),
           "load": Given("all the load together", unit="kohm", low=90, high=116, step=1)},
    answer=lambda resistance, load: level(share(resistance, load)),
    points=((1, "share R_load/(R + R_load)"), (1, "20 log₁₀ of it, with its minus and two decimals")),
    slips=(Slip("sign", lambda resistance, load: -level(share(resistance, load)),
                "The magnitude is right. Is the voltage at the load larger or smaller than the induced one?", 1),
           Slip("ten log", lambda resistance, load: level(share(resistance, load)) / 2,
                "These are voltages. Which factor is in front of the logarithm?", 1),
           Slip("share", share, "That is the share. How is it put in decibels?", 1),
           Slip("natural log", lambda resistance, load: 20 * math.log(share(resistance, load)),
                "Decibels are made with the logarithm to base ten.", 1),
           Slip("coil's share", lambda resistance, load: level(1 - share(resistance, load)),
                "That is what stays in the coil. Which part is across the load?", 1),
           Slip("coil by load", lambda resistance, load: level(resistance / load),
                "That compares the two resistances. Which share of the voltage is across the load?", 1)),
    steps={"share": Step("1", share)},
    notes=("At low frequencies only the two resistances count. Which part is across the load?",
           "The load gets R_load/(R + R_load); a level is 20 log₁₀ of a ratio of voltages."),
    twin=Twin({"resistance": 12.0, "load": 80},
              "{load} and {resistance} in series: the load gets {share}, and 20 log₁₀ of it is {answer}."),
    worked="{load} and {resistance} in series: the load gets {share}, and 20 log₁₀ of it is {answer}.")

hum = ChoiceExercise(
    id="95.15", right="a",
    options={"a": "the hum voltages cancel, and the signal voltages add up",
             "b": "the hum voltages add up, and the signal voltages cancel",
             "c": "both cancel",
             "d": "both add up"},
    notes={"a": "Winding and magnet turned: the signal's sign changes twice, the hum's once.",
           "b": "The hum comes from outside. Does it notice the magnets?",
           "c": "The signal's sign changes with the winding, and once more with what?",
           "d": "The hum does not come through the magnets. What has changed for it?"},
    worked="Hum changes its sign with the winding alone, signal with winding and magnet: twice, so not at all.")

string_and_voltage = TextExercise(
    id="95.16",
    rubric=((1, "the steel string is a path for flux: the nearer it is to the pole, the more flux"),
            (1, "as it swings, the flux through the coil changes"),
            (1, "the voltage is N times the rate of change of the flux (Faraday)"),
            (1, "zero where the string turns back; largest near its middle place, where it is fastest")),
    worked="The steel string is an easy path for flux, beside the air: the nearer it comes to the pole, the smaller is "
           "the reluctance and the more flux passes through the coil. As the string swings, that flux goes up and "
           "down. The coil's voltage is its number of turns times the rate at which the flux changes, by Faraday's "
           "law. At the upper and lower end of the swing the string stands still for a moment, the flux does not "
           "change, and the voltage is zero. It is largest near the middle, where the string is fastest.",
    teaching_note="A little before or after the middle is right, too: the slope of the flux is larger near the pole.")

TEACHING_NOTE = """
**What it is.** Sixty minutes, 34 marks, on what is core in lessons 1 to 7: a minute and three quarters for a mark.
Forms A (95) and B (96) come from one bank, with the same ranges, formulas, tolerances, slips and marks, in other words;
each bench has its own numbers in each form. Neighbours cannot copy a number, and nobody has a harder one.

**How to give it.** One form for all, the other as the retake; or both, give-out --lessons 95,96, one half of the class
with A and the other with B, by a list that you keep. A bench's marks are under the form that it handed in; under the
other it has none. Give out on the day, because the pack holds the questions. Beforehand print: handouts for everybody
who writes on paper, one for each bench, and some in case a machine fails (the numbers are the same as on the page), and
Words and symbols, whose formulas are allowed. The pages know nothing of the time: you keep it.

**What counts.** Of each exercise the last answer that can be read; earlier ones count nothing. At the bell each runs
sheet.return_work() and hands the file in as after a lesson; then run mark. A right number earns all marks. A number
that fits a slip earns what is named for that slip, the marks of the steps that were right all the same; any other
number earns none. The pages that worked-answers writes show both; [slip_marks] in course.toml goes before them. The
open question waits in open_questions.csv: one mark for each point of its rubric.

**On paper.** key writes one page with the right numbers of all benches and the marks of each step. Give a step's marks
where the step is there, and go on with the student's own value: a slip costs its own step and no other. A right number
without working earns all, as it does on the page.

**Late work.** What comes after the bell you leave out of returned, unless the rules of your school take it. A return
that comes later puts its answers in the place of earlier ones, because the last ones count. With a deadline for the
form and a line in received.csv, [late] takes its share off those answers. Extra time that somebody has a right to is a
later bell.

**As a mock examination.** Self-study benches (b000 to b009) may sit either form: sheet.result() says how many answers
are right, and sheet.worked_answer("95.1") shows the way. It counts no marks.

**Afterwards.** The class report has the examination as it has a lesson, with one try for each exercise: what was right,
which slips, what to teach again. Powers of ten will be among them: they cost one mark each time.
"""

LESSON = Lesson(
    id="95", title="Examination, form A", version=1, silent=True, teaching_note=TEACHING_NOTE, exercises=(
        flux_of_a_face, closed_surface, flux_in_series, gap_of_air, flux_of_a_branch, fall_in_level, voltage_of_motion,
        from_flux_to_voltage, against_the_change, voltage_of_a_table, speed_of_a_pluck, impedance_of_a_coil,
        resonance_with_cable, loss_of_a_load, hum, string_and_voltage))
