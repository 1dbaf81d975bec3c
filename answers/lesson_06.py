"""Lesson 06, the coil as a circuit: model answers, slips with their notes, worked answers, teaching note."""
import math

import numpy as np

from lessons_lib.exercises.declaration import (
    ChoiceExercise,
    CurveAxis,
    CurveExercise,
    Derived,
    DesignExercise,
    Entry,
    Evening,
    FormulaExercise,
    Given,
    Lesson,
    Limit,
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

OWN, AMPLIFIER = 100e-12, 1e6      # F, ohm: the page's round numbers
COIL_PART = "Either the inductance's part is missing, or it came out too small. Compute 2πfL by itself first."
IN_PARALLEL = "Self-capacitance and cable are in parallel, between the same two wires. Do their capacitances add?"
IN_SERIES = "Coil and load are in series: the load gets its share of which sum?"
TWO_DECIMALS = "Is your answer rounded to one decimal? Give two. "
THOUSAND = "A factor of a thousand in a plain number: write R and the load in Ω, C in F, L in H."
TURNS_TWICE = ("Turns count twice: once as they make the flux, and once as they link it. How often do they "
               "count in yours?")
BOTH_DAMP = "Two things damp the resonance: the coil's resistance and the load. Are both in your formula?"


def reactance(inductance, frequency):
    return 2 * math.pi * frequency * inductance


def resonance(inductance, capacitance):
    return 1 / (2 * math.pi * math.sqrt(inductance * capacitance))


def side_by_side(*resistances):
    return 1 / sum(1 / one for one in resistances)


def loss(resistance, load):
    return 20 * math.log10(load / (resistance + load))


def quality(resistance, load, capacitance, inductance):
    return math.sqrt(inductance * capacitance * (1 + resistance / load)) / (
        inductance / load + resistance * capacitance)


# ---- quick questions -------------------------------------------------------------------------------------------------

peak_at_the_octave = ChoiceExercise(
    id="m1", quick=True, right="b",
    options={"a": "doubles", "b": "stays the same", "c": "halves"},
    notes={"a": "It stays the same: the peak of the velocity is F/(2Z), and neither fret nor length is in it.",
           "b": "Correct: the peak of the velocity is F/(2Z), and neither fret nor length is in it.",
           "c": "It stays the same: the peak of the velocity is F/(2Z), and neither fret nor length is in it."})

full_window = ChoiceExercise(
    id="m2", quick=True, right="c",
    options={"a": "stays the same", "b": "becomes twice as large", "c": "becomes four times as large"},
    notes={"a": "It becomes four times as large: twice the length of wire, and half the cross-section.",
           "b": "It becomes four times as large: twice the length of wire, and half the cross-section.",
           "c": "Correct: twice the length of wire, and half the cross-section."})

what_makes_the_signal = RecallExercise(
    id="m3", where="lesson 3", sentence="The signal is the slope of the flux against the height.")

# ---- which principle a step of a worked example is -------------------------------------------------------------------

squares_of_the_impedance = ChoiceExercise(
    id="s1", quick=True, right="b",
    options={"a": "Ohm's law: a voltage is a current times a resistance",
             "b": "voltages a quarter of a period apart add as the sides of a right-angled triangle",
             "c": "resistances in series add"},
    notes={"a": "Ohm's law comes in when a voltage is divided by the current. Here two parts are put together that do "
                "not peak at the same time: the sides of a right-angled triangle, (b).",
           "b": "Correct: one current, two voltages a quarter of a period apart, so their squares add.",
           "c": "Resistances in series do add: their voltages peak together. The inductance's voltage peaks a "
                "quarter of a period earlier: right angles, (b)."})

reciprocal_of_the_root = ChoiceExercise(
    id="s2", quick=True, right="c",
    options={"a": "capacitances in parallel add", "b": "the voltage is the slope",
             "c": "at the resonance the two reactances are equally large"},
    notes={"a": "That is step 1. Step 2 is what follows from 2πf₀L = 1/(2πf₀C): (c).",
           "b": "That is where the reactance of an inductance comes from. Step 2 is what follows from 2πf₀L = "
                "1/(2πf₀C): (c).",
           "c": "Correct: 2πf₀L = 1/(2πf₀C), solved for 2πf₀."})

share_of_the_load = ChoiceExercise(
    id="s3", quick=True, right="a",
    options={"a": "one current through two resistances: the voltage divides as they do",
             "b": "one voltage across several resistances: the conductances add",
             "c": "the power goes with the square of the voltage"},
    notes={"a": "Correct: coil and load are in series, a voltage divider.",
           "b": "That is step 1, for the parts of the load. In step 2 coil and load share one current: a voltage "
                "divider, (a).",
           "c": "The 20 of the decibel comes from that. In step 2 coil and load share one current: a voltage divider, "
                "(a)."})

sum_of_the_losses = ChoiceExercise(
    id="s4", quick=True, right="c",
    options={"a": "at the resonance the two reactances are equally large",
             "b": "resistances in series add",
             "c": "the energy that the load takes and the energy that the wire takes add up"},
    notes={"a": "That is in the root of step 1. Step 2 puts two losses together: (c).",
           "b": "The load is across the coil, not in series with it, and these are times. Each belongs to a loss of "
                "energy, and the losses add: (c).",
           "c": "Correct: each time belongs to one loss of energy, and losses add."})

turns_in_the_mmf = ChoiceExercise(
    id="s5", quick=True, right="a",
    options={"a": "each turn adds its current to the MMF", "b": "each turn adds its flux to the linkage",
             "c": "flux is MMF divided by reluctance"},
    notes={"a": "Correct: 3000 turns with 1 A each are 3000 ampere-turns.",
           "b": "That is step 1, from the linkage back to one turn. In step 2 each turn adds its current: (a).",
           "c": "That is step 3. In step 2 each turn adds its current to the MMF: (a)."})

# ---- predictions -----------------------------------------------------------------------------------------------------

peak_across_both = PredictionExercise(
    id="p4",
    question="An alternating current of 640 Hz, 1 mA at its peak, flows through the house coil. At this frequency the "
             "wire's resistance and the inductance have equally large voltages: 8.7 V at the peak, each. How large is "
             "the peak of the voltage across both in series?",
    options={"a": "17.4 V", "b": "8.7 V", "c": "12.3 V", "d": "0 V"},
    seen_question="Set the frequency to 640 Hz. The read-out \"peak across both\" says ...",
    seen_options={"a": "17.4 V, the sum of the two peaks", "b": "8.7 V, as one of them alone",
                  "c": "12.3 V, less than the sum of the two peaks", "d": "0 V, they cancel"},
    seen="c",
    seen_notes={
        "a": "Look again at the large read-out, with the frequency at 640 Hz.",
        "b": "Look again: is the frequency at 640 Hz, and do you read the line of both?",
        "c": "Yes, that is what the panel shows. The two are never at their peaks together; their arrows are at right "
             "angles.",
        "d": "Look again: at which moments is one of the two voltages zero, and what is the other one then?"})

sideways_or_down = PredictionExercise(
    id="p1",
    question="Two changes, one at a time. First the cable gets twice the capacitance. Then, with the old cable back, "
             "the volume control gets half its resistance. What happens to the peak of the response?",
    options={"a": "the cable mainly moves it to another frequency, the control mainly lowers it",
             "b": "the cable mainly lowers it, the control mainly moves it to another frequency",
             "c": "both mainly move it to another frequency", "d": "both mainly lower it"},
    seen_question="Set the cable to 1000 pF; then back to 500 pF and the volume control to 125 kΩ. Frequency and "
                  "height of the peak:",
    seen_options={"a": "cable: a quarter lower in frequency, height within 1 dB; control: under a tenth in frequency, "
                       "2 to 3 dB lower",
                  "b": "cable: under a tenth in frequency, 2 to 3 dB lower; control: a quarter lower in frequency, "
                       "height within 1 dB",
                  "c": "both: a quarter lower in frequency, height within 1 dB",
                  "d": "both: under a tenth in frequency, 2 to 3 dB lower"},
    seen="a",
    seen_notes={
        "a": "Yes, that is what the panel shows. Capacitance decides where the peak is, the load how high it is.",
        "b": "Look again at the read-out of the peak: change the cable alone first, then the control alone.",
        "c": "Look again at the read-out of the peak with the control at 125 kΩ: what has changed more, frequency or "
             "height?",
        "d": "Look again at the read-out of the peak with the cable at 1000 pF: what has changed more, frequency or "
             "height?"})

double_pots = PredictionExercise(
    id="p2",
    question="Players swap both controls for ones of twice the resistance (500 and 1000 kΩ in place of 250 and 500 kΩ) "
             "and say that it sounds brighter. It does. What happens to the response?",
    options={"a": "the higher the frequency, the more is gained",
             "b": "most is gained round the peak, and hardly anything well above it",
             "c": "the peak moves far up in frequency", "d": "every frequency gains the same"},
    seen_question="Set the volume control to 500 and the tone control to 1000 kΩ, both at 100 %. Compare the height of "
                  "the peak, the level at the lowest frequencies and that at 10 kHz with the house setting (+5.41 dB, "
                  "−0.37 dB, −12.59 dB).",
    seen_options={"a": "10 kHz gains more than the peak", "b": "the peak gains about 3 dB, 10 kHz less than half a dB",
                  "c": "the peak moves up by more than a third", "d": "all three gain the same"},
    seen="b",
    seen_notes={
        "a": "Look again at the read-out at 10 kHz, before and after.",
        "b": "Yes, that is what the panel shows. Above the peak the capacitance decides; the controls hardly matter.",
        "c": "Look again at the frequency of the peak, before and after.",
        "d": "Look again: subtract the old reading from the new one, for each of the three."})

above_resonance = PredictionExercise(
    id="p3",
    question="A component meter is clipped to the bare house coil: no cable, no controls. It is set to inductance, and "
             "its test frequency to 15 kHz, above the coil's self-resonance. It will show ...",
    options={"a": "the same inductance as at 1 kHz", "b": "a positive inductance, but under half of that at 1 kHz",
             "c": "a negative inductance", "d": "exactly zero"},
    seen_question="Set the meter's frequency to 15 000 Hz. It reads ...",
    seen_options={"a": "the same as at 1 kHz", "b": "positive, under half of that at 1 kHz", "c": "a negative number",
                  "d": "zero"},
    seen="c",
    seen_notes={
        "a": "Look again at the meter's display, and mind the sign.",
        "b": "Look again at the meter's display, and mind the sign.",
        "c": "Yes, that is what the panel shows. Up there the coil's self-capacitance takes more current than its "
             "inductance.",
        "d": "Look again at the meter's display, and mind the sign."})

poles_of_the_highest_peak = PredictionExercise(
    id="p5", further=True,
    question="One winding is put over alnico rods, over steel screws on a bar magnet, and over ferrite rods: same "
             "wire, cable and amplifier, no controls. If no current could flow in the poles, the peak over the screws "
             "would be the highest, 14.6 dB, then alnico, 13.9 dB, then ferrite, 13.3 dB. But currents do flow. Over "
             "which poles is the peak the highest now?",
    options={"a": "over the screws, as without currents", "b": "over alnico", "c": "over ferrite",
             "d": "all three are equally high"},
    seen_question="Choose one kind of poles after the other, and read the height of the peak with currents. The "
                  "highest one is ...",
    seen_options={"a": "that over the screws, 14.6 dB", "b": "that over alnico, 13.9 dB",
                  "c": "that over ferrite, 13.3 dB", "d": "none, they are within 0.1 dB of each other"},
    seen="c",
    seen_notes={
        "a": "Look again: 14.6 dB is in the read-out \"without\". And with currents?",
        "b": "Look again: 13.9 dB is in the read-out \"without\". And with currents?",
        "c": "Yes, that is what the panel shows. Currents turn the order round: 13.3 dB over ferrite, in which none "
             "flows, 11.8 dB over alnico, 11.3 dB over the screws.",
        "d": "Look again at the first read-out, once for each kind of poles."})

# ---- exercises -------------------------------------------------------------------------------------------------------

magnitude_of_impedance = NumberExercise(
    id="6.1", unit="kohm", tolerance=0.02, size=(5, 20), marks=2,
    given={"resistance": Given("resistance of the coil", unit="kohm", low=5.0, high=9.0, step=0.1),
           "inductance": Given("inductance", unit="H", low=2.0, high=4.0, step=0.05),
           "frequency": Given("frequency", unit="Hz", low=250, high=600, step=5)},
    answer=lambda resistance, inductance, frequency: math.hypot(resistance, reactance(inductance, frequency)),
    slips=(Slip("plain sum", lambda resistance, inductance, frequency: resistance + reactance(inductance, frequency),
                "The two voltages do not peak at the same time: R and 2πfL are at right angles. How are they added?"),
           Slip("resistance only", lambda resistance: resistance, COIL_PART),
           Slip("cycles", lambda resistance, inductance, frequency: math.hypot(resistance, frequency * inductance),
                COIL_PART),
           Slip("reactance only", lambda inductance, frequency: reactance(inductance, frequency),
                "That is 2πfL, the part of the inductance alone. Which other part is in series with it?"),
           # typed in kohm squared where kohm are asked
           Slip("no root", lambda resistance, inductance, frequency:
                (resistance ** 2 + reactance(inductance, frequency) ** 2) / 1e3,
                "That is the square of the impedance. Which step is left?"),
           Slip("sign", lambda resistance, inductance, frequency: -math.hypot(
                resistance, reactance(inductance, frequency)), "The figures are right. Can a magnitude be negative?")),
    common=("prefix",),
    steps={"X": Step("kohm", reactance)},
    notes=("First 2πfL by itself, in Ω. Then ask how it goes together with R.",
           "The impedance of R and L in series has the magnitude √(R² + (2πfL)²)."),
    twin=Twin({"resistance": 10.0, "inductance": 5.0, "frequency": 700},
              "Another coil: {inductance} at {frequency} make 2πfL = {X}. With {resistance}: √(10.0² + 21.99²) kΩ = "
              "{answer}."),
    worked="2πfL = {X}. With {resistance} at right angles the magnitude is {answer}.",
    teaching_note="Ask at which frequency both parts are equal: for the house coil at 640 Hz. Below it a meter sees "
                  "mostly the wire's resistance.")

resonance_with_cable = NumberExercise(
    id="6.2", unit="kHz", tolerance=0.02, size=(1.8, 6.5), marks=2,
    given={"inductance": Given("inductance", unit="H", low=2.0, high=5.0, step=0.05),
           "own": Given("self-capacitance of the coil", unit="pF", low=60, high=160, step=5),
           "cable": Given("capacitance of the cable", unit="pF", low=350, high=650, step=10)},
    answer=lambda inductance, own, cable: resonance(inductance, own + cable),
    slips=(Slip("omega", lambda inductance, own, cable: 1 / math.sqrt(inductance * (own + cable)),
                "That is ω, in radians per second. The question asks for cycles per second."),
           Slip("no root", lambda inductance, own, cable: 1 / (2 * math.pi * inductance * (own + cable)),
                "Far too large: which part of the formula is under a root?"),
           Slip("coil only", lambda inductance, own: resonance(inductance, own), "What else is connected to the coil?"),
           Slip("cable only", lambda inductance, cable: resonance(inductance, cable),
                "Close. Which small capacitance is across the coil even without a cable?"),
           Slip("in series", lambda inductance, own, cable: resonance(inductance, own * cable / (own + cable)),
                IN_PARALLEL),
           Slip("2π under the root", lambda inductance, own, cable: 1 / math.sqrt(
                2 * math.pi * inductance * (own + cable)), "Look at the root: is 2π under it, too?")),
    common=("pico for nano", "prefix"),
    steps={"capacitance": Step("pF", lambda own, cable: own + cable)},
    notes=("Which capacitances are across the coil, and do they add? Write them in F first.",
           "f₀ = 1/(2π√(LC)), with all the capacitance across the coil."),
    twin=Twin({"inductance": 6.0, "own": 200, "cable": 800},
              "Another coil: {own} and {cable} are in parallel, {capacitance}. With {inductance}: √(6.0 × 1.0·10⁻⁹) = "
              "7.746·10⁻⁵ s, and f₀ = 1/(2π × 7.746·10⁻⁵ s) = {answer}."),
    worked="Self-capacitance and cable add: {capacitance}. With {inductance}, 1/(2π√(LC)) = {answer}.",
    teaching_note="The damped peak of the panel is lower: 4.19 kHz for the house setting, not 4.42 kHz.")

cable_for_a_resonance = FormulaExercise(
    id="6.8", asked="pF", marks=2,
    symbols={"inductance": Symbol("inductance", "H", 2, 4),
             "own": Symbol("self-capacitance of the coil", "pF", 60, 160),
             "frequency": Symbol("resonance that is wanted", "kHz", 2, 3.5)},
    answer=lambda inductance, own, frequency: 1 / ((2 * math.pi * frequency) ** 2 * inductance) - own,
    written="1 / ((2 * pi * frequency)^2 * inductance) - own",
    slips=(Slip("all the capacitance", lambda inductance, frequency: 1 / ((2 * math.pi * frequency) ** 2 * inductance),
                "That is all the capacitance across the coil. Must the cable bring all of it?"),
           Slip("own added", lambda inductance, own, frequency:
                1 / ((2 * math.pi * frequency) ** 2 * inductance) + own,
                "The coil has its self-capacitance already. Does the cable then have to bring more, or less?"),
           Slip("cycles", lambda inductance, own, frequency: 1 / (frequency ** 2 * inductance) - own,
                "The frequency is in cycles per second. What turns it into radians per second?"),
           Slip("cycles, all of it", lambda inductance, frequency: 1 / (frequency ** 2 * inductance),
                "The frequency is in cycles per second. What turns it into radians per second?"),
           Slip("2π not squared", lambda inductance, own, frequency:
                1 / (2 * math.pi * frequency ** 2 * inductance) - own,
                "Square both sides of 2πf₀ = 1/√(LC). Is the 2π squared, too?")),
    notes=("Begin with 2πf₀ = 1/√(LC). Which capacitances are in this C?",
           "(2πf₀)² = 1/(LC), where C is self-capacitance and cable together. Solve for C, then for the cable.",
           "A twin: 2πf₀ = 10 000 per second with 10 H takes 1/(10⁸ · 10) F = 1000 pF in all. A coil that has 200 pF "
           "itself needs 800 pF of cable."),
    worked="All the capacitance is C = 1/((2πf₀)²L). The coil has its self-capacitance already; the cable brings the "
           "rest, 1/((2πf₀)²L) less the self-capacitance.",
    teaching_note="Let them try the formula on the house coil: 3 kHz takes about 1200 pF of cable. And 12 kHz, above "
                  "its resonance without a cable? The formula says a negative capacitance: no cable does it.")

MORE_TURNS = "Does the inductance change with the turns, and which way does f₀ go then?"

five_coils = OrderExercise(
    id="6.9", right="a = e > b > c = d",
    options={"a": "5000 turns, 500 pF", "b": "5000 turns, 1000 pF", "c": "10 000 turns, 500 pF",
             "d": "5000 turns, 2000 pF", "e": "5000 turns of thinner wire, 500 pF"},
    slips=(Slip("turns once", "a = e > b = c > d",
                "Is twice the capacitance as good as twice the turns? How does L go with the turns?"),
           Slip("turns once, without (e)", "b = c > d",
                "Is twice the capacitance as good as twice the turns? How does L go with the turns?"),
           Slip("more capacitance, higher", "b > a",
                "Where is C in the formula of f₀? Which way does f₀ go when C grows?"),
           Slip("more turns, higher", "c > a", MORE_TURNS), Slip("turns left out", "a = c", MORE_TURNS),
           Slip("ohms move it down", "a > e", "Thinner wire has more ohms. Is R in the formula of f₀?"),
           Slip("ohms move it up", "e > a", "Thinner wire has more ohms. Is R in the formula of f₀?")),
    notes=("f₀ goes with 1/√(LC). Compare each coil with (a): by which factor is L larger, by which C?",
           "In one window L goes with the square of the turns. Equal products LC have equal f₀, whatever R is.",
           "A twin: a third of the turns with nine times the capacitance. L is a ninth, LC as before, and so is f₀."),
    worked="Relative to (a) the product LC is twice as large in (b), four times as large in (c), by the square of the "
           "turns, and in (d), by the capacitance; in (e) it is the same. So {order}.",
    teaching_note="(c) and (d) have the same f₀ and not the same peak: (c) has twice the voltage, four times the "
                  "inductance, and is damped more by the same load.")

parallel_loads = NumberExercise(
    id="6.3", unit="kohm", tolerance=0.01, size=(110, 180),
    given={"volume": Given("volume control", unit="kohm", low=200, high=300, step=2),
           "tone": Given("tone control", unit="kohm", low=420, high=560, step=5),
           "amplifier": Given("input of the amplifier", unit="kohm", low=900, high=1100, step=10)},
    answer=lambda volume, tone, amplifier: side_by_side(volume, tone, amplifier),
    slips=(Slip("sum", lambda volume, tone, amplifier: volume + tone + amplifier,
                "That is their sum. Can three resistances in parallel resist more than one of them alone?"),
           Slip("mean", lambda volume, tone, amplifier: (volume + tone + amplifier) / 3,
                "That is their mean. Can three resistances in parallel resist more than the smallest of them alone?"),
           Slip("no amplifier", lambda volume, tone: side_by_side(volume, tone),
                "Close. Does any current go into the amplifier, too?"),
           Slip("no tone control", lambda volume, amplifier: side_by_side(volume, amplifier),
                "Three resistances are in parallel. Is the tone control among yours?"),
           Slip("no volume control", lambda tone, amplifier: side_by_side(tone, amplifier),
                "Three resistances are in parallel. Is the volume control among yours?"),
           # 1/kohm typed where kohm are asked
           Slip("not turned over", lambda volume, tone, amplifier: 1e6 / side_by_side(volume, tone, amplifier),
                "That is the sum of the conductances. One step leads from it to a resistance."),
           Slip("product over sum", lambda volume, tone, amplifier:
                volume * tone * amplifier / (volume + tone + amplifier) / 1e3,
                "Product divided by sum works for two. Check the units of what you have for three.")),
    common=("prefix",),
    steps={"conductance": Step("1", lambda volume, tone, amplifier: 1e3 / side_by_side(volume, tone, amplifier))},
    notes=("All three are in parallel, between the same two wires. What do they share, the voltage or the current?",
           "In parallel the conductances add: 1/R = 1/R₁ + 1/R₂ + 1/R₃."),
    twin=Twin({"volume": 100, "tone": 250, "amplifier": 500},
              "Other parts: 1/100 + 1/250 + 1/500 = 0.016 in 1/kΩ. The reciprocal of that is {answer}."),
    worked="The conductances of {volume}, {tone} and {amplifier} add to {conductance} per kΩ. The reciprocal of that "
           "is {answer}.",
    teaching_note="The tone control counts as its track here: at these frequencies its 22 nF are nearly a short.")

low_loss = NumberExercise(
    id="6.4", further=True, unit="dB", tolerance=0.015, size=(-1.0, -0.4),
    # heavy loads: with lighter ones R/R_load in place of R/(R + R_load) would pass
    given={"resistance": Given("resistance of the coil", unit="kohm", low=7.0, high=9.5, step=0.1),
           "load": Given("all the load together", unit="kohm", low=90, high=116, step=1)},
    answer=loss,
    slips=(Slip("ten log", lambda resistance, load: loss(resistance, load) / 2,
                "These are voltages. Does the 10 or the 20 belong in front of the logarithm?"),
           Slip("sign", lambda resistance, load: -loss(resistance, load),
                "Is the voltage at the load more or less than the induced one? What sign does a loss have in dB?"),
           Slip("natural log", lambda resistance, load: loss(resistance, load) * math.log(10),
                "Which logarithm are decibels made with?"),
           Slip("ratio", lambda resistance, load: load / (resistance + load),
                "That is the ratio of the voltages, a plain number. How many dB is it?"),
           Slip("wrong part", lambda resistance, load: loss(load, resistance),
                "That is the part of the voltage across the coil's resistance. Which part reaches the amplifier?"),
           Slip("one less R over load", lambda resistance, load: 20 * math.log10(1 - resistance / load),
                TWO_DECIMALS + IN_SERIES),     # often the right answer rounded
           Slip("load over R", lambda resistance, load: 20 * math.log10(load / resistance), IN_SERIES)),
    steps={"ratio": Step("1", lambda resistance, load: load / (resistance + load))},
    notes=(TWO_DECIMALS + "And at low frequencies only resistances count: two of them in series divide the induced "
           "voltage. Which part is across the load?",
           "The load gets R_load/(R + R_load) of the induced voltage. In dB: 20 log₁₀ of that."),
    twin=Twin({"resistance": 12.0, "load": 80},
              "Another coil: {resistance} into {load}. The load gets 80/92 = {ratio} of the voltage: 20 log₁₀ of it is "
              "{answer}."),
    worked="The load gets {ratio} of the induced voltage. That is {answer}.",
    teaching_note="Under 1 dB in every case: at low frequencies the load hardly matters. The peak feels it.")

q_of_the_loaded_coil = NumberExercise(
    id="6.5", further=True, unit="1", tolerance=0.03, size=(0.8, 4.2), marks=3,
    given={"resistance": Given("resistance of the coil", unit="kohm", low=5.0, high=9.0, step=0.1),
           "load": Given("all the load together", unit="kohm", low=90, high=250, step=2),
           "capacitance": Given("all the capacitance together", unit="pF", low=450, high=1000, step=10),
           "inductance": Given("inductance", unit="H", low=2.0, high=5.0, step=0.05)},
    answer=quality,
    slips=(Slip("no resistance", lambda load, capacitance, inductance: load * math.sqrt(capacitance / inductance),
                BOTH_DAMP),
           Slip("no load", lambda resistance, capacitance, inductance: math.sqrt(inductance / capacitance) / resistance,
                BOTH_DAMP),
           Slip("upside down", lambda resistance, load, capacitance, inductance:
                1 / quality(resistance, load, capacitance, inductance),
                "A larger load resistance damps less. Does your Q grow with it?"),
           Slip("no root", lambda resistance, load, capacitance, inductance:
                inductance * capacitance * (1 + resistance / load) / (inductance / load + resistance * capacitance),
                "Check the units: Q is a plain number. What turns s² into s?"),
           Slip("thousand times", lambda resistance, load, capacitance, inductance:
                1e3 * quality(resistance, load, capacitance, inductance), THOUSAND),
           Slip("a thousandth", lambda resistance, load, capacitance, inductance:
                quality(resistance, load, capacitance, inductance) / 1e3, THOUSAND)),
    common=("pico for nano",),
    steps={"above": Step("ms", lambda resistance, load, capacitance, inductance:
                         math.sqrt(inductance * capacitance * (1 + resistance / load))),
           "load_time": Step("ms", lambda load, inductance: inductance / load),
           "coil_time": Step("ms", lambda resistance, capacitance: resistance * capacitance)},
    notes=("Three times, all in s: the root in the numerator (with its small 1 + R/R_load), and in the denominator "
           "L/R_load and R·C.",
           "Q = √(LC(1 + R/R_load)) / (L/R_load + R·C), everything in Ω, H and F."),
    twin=Twin({"resistance": 4.0, "load": 1000, "capacitance": 400, "inductance": 6.0},
              "Another coil, {inductance} and {resistance} with {capacitance} into {load}: numerator {above}, "
              "denominator {load_time} plus {coil_time}. Q = {answer}."),
    worked="Numerator {above}; denominator {load_time} for the load plus {coil_time} for the coil's resistance. Q = "
           "{answer}.",
    teaching_note="Compare the two times of the denominator: with common parts the load damps more than the coil's "
                  "resistance.")



def level(ratio):
    return 20 * np.log10(np.abs(ratio))


def responses(x, resistance, inductance, cable, volume, tone):
    """Levels (dB) of four circuits at the frequencies x."""
    s, load = 2j * np.pi * x, side_by_side(volume, tone, AMPLIFIER)
    coil = resistance + s * inductance

    def loaded(load, capacitance):
        return level(1 / (1 + coil * (1 / load + s * capacitance)))
    return {"cable and all the load": loaded(load, OWN + cable), "no cable": loaded(load, OWN),
            "the amplifier as the only load": loaded(AMPLIFIER, OWN + cable),
            "it falls from 2πfL = R on": level(load / (resistance + load) / (1 + s * inductance / resistance))}


which_response = CurveExercise(
    id="6.10", marks=2, x=CurveAxis("frequency", "kHz", 2, 0, 10), y=CurveAxis("level", "dB", 1), curves=responses,
    right="cable and all the load",
    given={"resistance": Given("resistance of the coil", unit="kohm", low=6.0, high=9.0, step=0.1),
           "inductance": Given("inductance", unit="H", low=2.0, high=3.5, step=0.05),
           "cable": Given("capacitance of the cable", unit="pF", low=400, high=900, step=50),
           "volume": Given("volume control", unit="kohm", low=250, high=500, step=250),
           "tone": Given("tone control", unit="kohm", low=250, high=500, step=250)},
    notes={"cable and all the load": "Correct: all the capacitance says where the peak is, all the load how high.",
           "no cable": "This is the coil with its self-capacitance alone. What else is across it, and what does that "
                       "do to f₀?",
           "the amplifier as the only load": "The place is right. And the height? This Q is that of a coil whose only "
                                             "load is the amplifier. What else takes energy out?",
           "it falls from 2πfL = R on": "This one falls from where 2πfL is as large as the wire's R. But the voltage "
                                        "divides between the coil and what is across it: how large is 2πfL there "
                                        "beside the load?"},
    worked="The coil's 100 pF and {cable} add; with {inductance}, the resonance is at 1/(2π√(LC)), and the peak a "
           "little below it. {volume}, {tone} and 1 MΩ in parallel are the load, which with {resistance} of wire makes "
           "Q, and so about the height. Only curve {letter} has both.",
    teaching_note="Ask each bench for f₀ first, then for the load: place and height are two questions. Letters and "
                  "curves differ from bench to bench.")


# ---- a peak to order -------------------------------------------------------------------------------------------------

def in_entries(cable, capacitor, volume, tone):
    return {"cable": round(cable), "capacitor": round(capacitor * 1e12), "volume": round(volume / 1e3),
            "tone": round(tone / 1e3)}


def bound(quantity, share=1.0, more=0.0):
    def formula(cable, capacitor, volume, tone):
        from lessons_lib.physics.coil_and_cable import peak_report  # brings scipy, and a lesson opens without it
        report = peak_report(cable=cable, capacitor=capacitor, volume=volume, tone=tone)
        return share * getattr(report, quantity) + more
    return formula


ALL_CAPACITANCE = ("All the capacitance decides: 100 pF for each metre of cable, the capacitor, and the coil's own "
                   "100 pF. ")
ALL_LOAD = "Both controls and the amplifier take energy out, the smallest resistance most. "

peak_to_order = DesignExercise(
    id="6.11", model="peak_report", parts="peak_parts", marks=3,
    entries={"cable": Entry("length of the cable", unit="m", low=0.5, high=20),
             "capacitor": Entry("capacitor across the coil, 0 for none", unit="pF", low=0, high=2000),
             "volume": Entry("volume control", unit="kΩ", low=50, high=2000),
             "tone": Entry("tone control", unit="kΩ", low=50, high=2000)},
    hidden={"cable": Given("cable", unit="m", low=3, high=7, step=1),
            "capacitor": Given("capacitor", unit="pF", low=200, high=800, step=50),
            "volume": Given("volume", unit="kohm", low=150, high=350, step=50),
            "tone": Given("tone", unit="kohm", low=250, high=1000, step=250)},
    known=in_entries,
    derived={"lowest_peak": Derived("frequency of the peak, at least", unit="kHz", decimals=2,
                                    formula=bound("peak", 0.96)),
             "highest_peak": Derived("frequency of the peak, at most", unit="kHz", decimals=2,
                                     formula=bound("peak", 1.04)),
             "least_height": Derived("height of the peak, at least", unit="dB", decimals=1,
                                     formula=bound("peak_height", more=-0.5)),
             "most_height": Derived("height of the peak, at most", unit="dB", decimals=1,
                                    formula=bound("peak_height", more=0.5)),
             "least_reach": Derived("length of the cable, at least", unit="m", decimals=0, formula=bound("reach"))},
    limits=(
        Limit(quantity="peak", label="frequency of the peak", least="lowest_peak", most="highest_peak",
              too_low=ALL_CAPACITANCE + "Can you do with less?",
              too_high=ALL_CAPACITANCE + "Where can more come from?"),
        Limit(quantity="peak_height", label="height of the peak", least="least_height", most="most_height",
              too_low=ALL_LOAD + "Larger controls damp less.", too_high=ALL_LOAD + "Smaller controls damp more."),
        Limit(quantity="reach", label="length of the cable", least="least_reach",
              too_low="The player does not reach the amplifier. If the cable brings more capacitance, what may go?")),
    worked="Between {lowest_peak} and {highest_peak}, {least_height} to {most_height} high: one way is {design}. Any "
           "cable that is long enough does as well, with so much less across the coil; and any two controls with the "
           "same resistance in parallel.",
    teaching_note="Let two benches with near limits compare their ways: metres of cable for picofarads, a small volume "
                  "control for a small tone control. What do all right answers share? All the capacitance, and the "
                  "load.")

reluctance_of_the_coil = NumberExercise(
    id="6.6", unit="MA/Wb", tolerance=0.02, size=(4, 50), marks=2,
    given={"turns": Given("turns of the coil", unit="1", low=5000, high=9500, step=50),
           "inductance": Given("inductance", unit="H", low=2.0, high=5.0, step=0.05)},
    answer=lambda turns, inductance: turns ** 2 / inductance,
    slips=(Slip("turns once", lambda turns, inductance: turns / inductance, TURNS_TWICE),
           # typed in that unit as it stands
           Slip("turns once, in A/Wb", lambda turns, inductance: turns / inductance * 1e6, TURNS_TWICE),
           Slip("in A/Wb", lambda turns, inductance: turns ** 2 / inductance * 1e6,
                "That is the value in A/Wb. How many A/Wb are one MA/Wb?"),
           Slip("upside down", lambda turns, inductance: inductance / turns ** 2 * 1e6,
                "That is flux per ampere-turn, the reciprocal. Is a reluctance MMF divided by flux, or flux by MMF?"),
           Slip("no turns", lambda inductance: 1e6 / inductance,
                "Where do the turns come in? One ampere through all of them makes how many ampere-turns?")),
    common=("prefix",),
    steps={"flux": Step("uWb", lambda turns, inductance: inductance / turns)},
    notes=("Let 1 A flow. How large is the MMF of all turns, and how large is the flux, if the linkage is L times 1 A?",
           "MMF N·I divided by flux L·I/N gives the reluctance N²/L."),
    twin=Twin({"turns": 2000, "inductance": 1.0},
              "Another coil: 1 A in {turns} turns is an MMF of 2000 A. The linkage is 1.0 Wb, so each turn links "
              "{flux}: reluctance {answer}."),
    worked="1 A makes an MMF of {turns} ampere-turns and a flux of {flux} through each turn. MMF divided by "
           "flux is {answer}.",
    teaching_note="The house coil has 27 MA/Wb; without its rods it would have 36, with rods that resist nothing 13. "
                  "So about half of what resists is the air, and half the rods.")

detector_and_coin = NumberExercise(
    id="6.12", unit="Hz", tolerance=0.02, size=(30, 300), further=True,
    given={"inductance": Given("inductance of the detector's coil", unit="mH", low=0.8, high=2.0, step=0.1),
           "capacitance": Given("capacitance across it", unit="nF", low=1.5, high=3.0, step=0.1),
           "share": Given("share by which a coin lowers the inductance", unit="%", low=0.1, high=0.4, step=0.01)},
    answer=lambda inductance, capacitance, share: resonance(inductance, capacitance) * (1 / math.sqrt(1 - share) - 1),
    slips=(Slip("no half", lambda inductance, capacitance, share: share * resonance(inductance, capacitance),
                "The inductance is under a root. By what share does a root change, when what is under it changes a "
                "little?"),
           Slip("omega", lambda inductance, capacitance, share:
                2 * math.pi * resonance(inductance, capacitance) * (1 / math.sqrt(1 - share) - 1),
                "Is your resonance in cycles per second, or in radians per second?"),
           Slip("the resonance itself", lambda inductance, capacitance: resonance(inductance, capacitance),
                "That is the coil's resonance, far above all that is heard. Which difference reaches the ear?"),
           Slip("lower", lambda inductance, capacitance, share:
                resonance(inductance, capacitance) * (1 - 1 / math.sqrt(1 - share)),
                "The magnitude is right. Less inductance: does the resonance go up or down? And what is a difference "
                "of two frequencies, as it is heard?")),
    common=("prefix", "hundred"),
    steps={"f0": Step("kHz", resonance), "half": Step("%", lambda share: share / 2)},
    notes=("First the resonance without the coin. Then ask by what share it changes; two numbers that are nearly equal "
           "must not be rounded before they are subtracted.",
           "f₀ goes with 1/√L: a small share less of L is half that share more of f₀."),
    twin=Twin({"inductance": 5.0, "capacitance": 5.0, "share": 0.05},
              "Another detector: {inductance} and {capacitance} have their resonance at {f0}. A coin that takes "
              "{share} off the inductance raises it by half of that share: {answer}."),
    worked="Without the coin the resonance is at {f0}. The coin takes {share} off the inductance, and half of that "
           "share, {half}, comes on top of the frequency: {answer}.",
    teaching_note="The numbers are invented, their order of magnitude is common practice, without a source. The half "
                  "is that of every small change under a root: ask for it in the 2 % error of a capacitor.")

# ---- when the metal answers ------------------------------------------------------------------------------------------

def filled_up_to(depth, frequency, diameter):
    return frequency * (depth / (diameter / 2)) ** 2


flux_fills_the_pole = NumberExercise(
    id="6.13", unit="Hz", tolerance=0.02, size=(3, 450), marks=2, further=True,
    given={"depth": Given("skin depth in the steel", unit="mm", low=0.20, high=0.45, step=0.01),
           "frequency": Given("frequency of that skin depth", unit="kHz", low=1.0, high=4.0, step=0.1),
           "diameter": Given("diameter of the pole", unit="mm", low=3.0, high=6.0, step=0.1)},
    answer=filled_up_to,
    slips=(Slip("diameter", lambda depth, frequency, diameter: filled_up_to(depth, frequency, 2 * diameter),
                "Is the axis a whole diameter below the surface, or a radius?"),
           Slip("not squared", lambda depth, frequency, diameter: frequency * depth / (diameter / 2),
                "The frequency is under a root. What does twice the skin depth take: half the frequency, or less?"),
           Slip("diameter, not squared", lambda depth, frequency, diameter: frequency * depth / diameter,
                "The frequency is under a root. What does twice the skin depth take: half the frequency, or less? "
                "And is the axis a diameter below the surface?"),
           Slip("upside down", lambda depth, frequency, diameter: frequency * (diameter / 2 / depth) ** 2,
                "Is the skin depth larger at a higher frequency, or at a lower one?"),
           Slip("upside down, not squared", lambda depth, frequency, diameter: frequency * diameter / 2 / depth,
                "Is the skin depth larger at a higher frequency, or at a lower one?")),
    common=("prefix",),
    steps={"radius": Step("mm", lambda diameter: diameter / 2),
           "times": Step("1", lambda depth, diameter: diameter / 2 / depth)},
    notes=("Steel and permeability stay. How does the skin depth go with the frequency alone? And which length of the "
           "pole shall it be as large as?",
           "δ goes with 1/√f: as many times the skin depth, that number squared less frequency."),
    twin=Twin({"depth": 0.50, "frequency": 8.0, "diameter": 10.0},
              "Another pole: its radius is {radius}, {times} times the {depth} that belong to {frequency}. The square "
              "of that is 100, so {answer}."),
    worked="The radius is {radius}, {times} times the skin depth of {depth}. The frequency is {frequency} divided by "
           "the square of that: {answer}.",
    teaching_note="Steel poles carry alternating flux through the whole cross-section at a few hertz only: 13 Hz for "
                  "the house screw, below the lowest string. An alnico rod of 5 mm does up to 5.3 kHz.")

which_way_to_cut = ChoiceExercise(
    id="6.14", further=True, right="b",
    options={"a": "they stay in one piece",
             "b": "they are cut along their length into thin strips, and put together with varnish between",
             "c": "they are cut across into thin discs, and stacked with varnish between",
             "d": "they are plated with copper all round"},
    notes={"a": "In one piece a ring of current has its whole way round the axis. What could cut that ring?",
           "b": "Correct: the rings round the axis are cut, and what is left of them in a thin strip is little. The "
                "flux still runs along the steel.",
           "c": "Each disc is still whole all round: which way do the currents flow, round the axis or along it? And "
                "the varnish is a gap in the flux's way.",
           "d": "Copper conducts better than steel, and is closed all round. Does more or less current flow round the "
                "pole then?"},
    worked="The flux runs along the pole, so the induced voltage drives currents round the axis. Cuts along the length "
           "interrupt them and leave the flux its way; cuts across do neither. So (b).",
    teaching_note="Have them draw the ring first, then the cut. The same reason has transformer sheets lie along the "
                  "flux. A slit along a brass cover does the same for the cover.")

hiss_of_thinner_wire = ChoiceExercise(
    id="6.15", further=True, right="d",
    options={"a": "is twice as large", "b": "is √2 times as large",
             "c": "is as large as before, with less at low frequencies and more at the peak",
             "d": "is as large as before, with more at low frequencies and less at the peak"},
    notes={"a": "Twice the resistance: the hiss of a lone resistor goes with its root. And what does line 1 say of a "
                "capacitance that has any resistance across it?",
           "b": "So it would be with the resistor alone, in a fixed band. What does line 2 say, and which letter is "
                "not in it?",
           "c": "The sum is right. At 200 Hz the wire is nearly all that hisses: what does twice its resistance do "
                "there? And what does it do to a peak?",
           "d": "Correct: more ohms bring more hiss where little damps, and they damp the peak. The sum is √(kT/C)."},
    worked="Over all frequencies it is √(kT/C), and C is as before. At low frequencies the wire's own hiss "
           "arrives nearly whole, so with twice the resistance there is more of it. At the peak the wire also damps, "
           "and there is less. For the house coil 12 and 42 nV/√Hz become 16 and 37.",
    teaching_note="Twice the resistance is twice the source and, near the peak, a broader and lower response. Students "
                  "who know only 4kTR choose (b): ask over which band.")

two_workbenches = TextExercise(
    id="6.7",
    rubric=((1, "1 kHz reads about 1 % high: the self-capacitance takes part, 1/(1 − f²/f_s²) with f_s near 9 kHz."),
            (1, "120 Hz reads low by R²C, about 4 mH; Q_m is only 0.35: mostly resistance, so a large uncertainty."),
            (1, "A judgement with a reason: both read right, neither reads L itself (3.00 H); or a third frequency "
                "decides.")),
    worked="Both are right about what they read, and neither reads the inductance itself. At 1 kHz the coil's "
           "self-capacitance carries a little current against that of the inductance; the reading is high by 1/(1 − "
           "f²/f_s²). With f_s = 9.2 kHz that is 1.2 %, less R²C: 3.00 H reads 3.03 H. At 120 Hz this rise is "
           "negligible, and R²C = (6.5 kΩ)² × 100 pF = 4 mH is missing: 2.996 H. But there Q_m is 0.35, so the meter "
           "sees mostly resistance and its own uncertainty is large. The bench at 1 kHz would say: at 120 Hz you "
           "measure wire. The bench at 120 Hz would say: at 1 kHz you measure capacitance, too. The value put in is "
           "3.00 H; a reading at a third frequency would show the rise with f².",
    teaching_note="The coil of the question has 3.00 H, 6.5 kΩ and 100 pF, and nothing in it that conducts. Eddy "
                  "currents pull the other way (section 8). In alnico rods they are too weak for that: the house coil "
                  "still reads more at 1 kHz, 2.173 H after 2.157 H. Over steel screws they win: 4.12 H after 4.23 H.")

TEACHING_NOTE = """
**Demonstration with real parts.** A pickup, a component meter with two or more frequencies, a 470 pF and a 1000 pF
capacitor, a 100 kΩ resistor, a sound card and a small air coil as an exciter. Read R, then L at 120 Hz and 1 kHz, and
at 10 kHz if the meter has it. Then sweep the exciter with the sound card: the peak, then with the capacitor across
the pickup (sideways), then with the resistor (down). Cautions: nothing with a mains plug is opened, here or later;
amplifiers stay closed and earthed, and one works at the pickup's own plug, unplugged from the amplifier. A sound
card's input is a load, too: it needs 1 MΩ (an instrument's input, or a buffer); at the 10 to 50 kΩ of a line input
there is no peak to see. And the exciter's voltage grows with the frequency: take off 6 dB per octave before you compare
with the panel. Start every sound low.

**What to ask.** "Which parts of the circuit decide where the peak is, and which how high?" "What does a player change
who buys a longer cable?" "What does the meter assume about the thing between its clips?"

**What goes wrong.** Peaks of voltages added as if they came together. Q of the loaded coil and Q_m of the meter taken
for one number. The resonance taken for a property of the pickup alone. R and 2πfL added as numbers. Capacitances in
parallel taken like resistances in parallel. All the capacitance ordered as cable. ω for f. Resistance taken for
strength: a thinner wire with the same turns gives more ohms and no more voltage. A reading in henry believed without
asking at which frequency it was made.

**Say it openly**: with steel screws, covers or brass plates the inductance falls and the losses rise with frequency.
The core of this lesson has none of that, so real peaks are lower and broader than its peaks. Section 8 (further) has
the currents in rods and screws: *metal answers*. Covers and plates are still left out, and what the same currents take
from the strings' voltage: 0.1 dB at 4 kHz over alnico, 1 dB over steel screws.
"""

EVENINGS = (
    Evening(
        aim="From a coil to its circuit: what resistance, inductance and capacitance each do, and where the peak is.",
        on_the_table="A pickup, a component meter, capacitors of 470 and 1000 pF, a short lead and a long one; paper.",
        stretches=(
            Stretch(minutes=7, what="Opening sounds and the three quick questions.",
                    ask="The cable lets every frequency pass. Where does the brightness go?"),
            Stretch(minutes=22, what="Section 1: the circuit, the turning arrows with their prediction, the worked "
                                     "example, 6.1.",
                    ask="When is the wire's voltage at its peak, and how large is the inductance's then?"),
            Stretch(minutes=32, what="Section 2: cable and volume control with their prediction, claims 1 and 2, the "
                                     "worked example, 6.2; backwards, 6.8, and the five coils of 6.9, in pairs.",
                    ask="Which parts decide where the peak is, and which how high?"),
            Stretch(minutes=11, what="Section 3: the load as a voltage divider, claim 3, the worked example, 6.3.",
                    ask="What do parts in parallel share, and what do parts in series share?")),
        at_home="6.4, which is further; the panel of section 2 once more, with the reader's own cable."),
    Evening(
        aim="What controls do to the peak, a peak made to order, and what a component meter assumes.",
        on_the_table="As before, and a resistor of 100 kΩ; a meter with two test frequencies or more.",
        stretches=(
            Stretch(minutes=11, what="What is left of the first evening, book closed; section 4 to the volume control: "
                                     "prediction and panel, claims 4 and 5.",
                    ask="Twice the resistance at the same voltage: how much current does it take?"),
            Stretch(minutes=12, what="Section 4 from Q on: three lines to the formula, the worked example, the curves "
                                     "of 6.10.",
                    ask="Which of the two losses is larger in your coil?"),
            Stretch(minutes=17, what="A peak to order, 6.11: two benches compare their ways. Three loads by ear.",
                    ask="What do all right answers to one order share?"),
            Stretch(minutes=12, what="Section 5: the meter, with its prediction.",
                    ask="What does the meter assume about the thing between its clips?"),
            Stretch(minutes=10, what="Section 6: the worked example, 6.6.",
                    ask="Twice the turns: how many times the MMF of 1 A, the flux, the linkage?"),
            Stretch(minutes=12, what="The open question 6.7, in pairs, then in writing; limits of the model, summary.",
                    ask="Which claim will you correct next time you hear it, and with which number?")),
        at_home="6.5 and sections 7, 8 and 9, which are further; 6.7 in clean words."))

TO_VOTE = (
    ToVote(
        question="One alternating current flows through a resistance and an inductance in series. Their voltages peak "
                 "at 3 V and at 4 V. The voltage across both peaks at ...",
        options={"a": "7 V", "b": "5 V", "c": "1 V"}, right="b",
        because="The two peaks are a quarter of a period apart, so 3 and 4 are the sides of a right-angled triangle. "
                "7 V would need both peaks at one moment, 1 V half a period between them.",
        twin=ToVote(
            question="Across a coil the voltage peaks at 13 V, that of its wire alone at 5 V (leave out its "
                     "capacitance). That of its inductance peaks at ...",
            options={"a": "12 V", "b": "8 V", "c": "18 V"}, right="a",
            because="13 is the long side of the triangle, 5 one of the others: √(169 − 25) = 12. Peaks that come at "
                    "different moments are not subtracted as numbers.")),
    ToVote(
        question="A pickup with usual controls sounds duller over 9 m of cable than over 3 m. The reason is mainly ...",
        options={"a": "the resistance of the longer wire", "b": "that the longer cable damps the peak",
                 "c": "that the longer cable's capacitance moves the peak down"}, right="c",
        because="Some ohms of cable are nothing beside the kilohms of the coil. Some 600 pF more across the coil move "
                "the peak down, and everything above the peak drops; the peak's height hardly changes.",
        twin=ToVote(
            question="With a short lead a player wants the sound of his long cable. He connects across the coil ...",
            options={"a": "a capacitor with the capacitance that is missing", "b": "a resistor of 100 kΩ",
                     "c": "a resistor as large as that of the longer wire"}, right="a",
            because="What made the difference is the cable's capacitance, so it is put back. The resistors would damp "
                    "the peak, or short the coil.")),
    ToVote(
        question="Two coils of the same form, over the same magnets and strings: one has 6 kΩ, the other 9 kΩ. Which "
                 "one gives the larger voltage?",
        options={"a": "the one with 9 kΩ", "b": "these numbers do not tell it", "c": "the one with 6 kΩ"}, right="b",
        because="The turns decide the voltage. More ohms may be more turns, or the same turns of thinner wire.",
        twin=ToVote(
            question="On a hot stage a coil's wire gets 40 K warmer and its resistance 16 % larger. The voltage that "
                     "the strings induce ...",
            options={"a": "grows by 16 %", "b": "falls by 16 %", "c": "stays the same"}, right="c",
            because="Turns, flux and motion are as before; ohms measure wire. (Copper: 0.39 % for each kelvin.)")))

LESSON = Lesson(
    id="06", title="The coil as a circuit", version=1, exercises=(
        peak_at_the_octave, full_window, what_makes_the_signal, peak_across_both, squares_of_the_impedance,
        magnitude_of_impedance, sideways_or_down, reciprocal_of_the_root, resonance_with_cable, cable_for_a_resonance,
        five_coils, share_of_the_load, parallel_loads, low_loss, double_pots, sum_of_the_losses, q_of_the_loaded_coil,
        which_response, peak_to_order, above_resonance, turns_in_the_mmf, reluctance_of_the_coil, detector_and_coin,
        poles_of_the_highest_peak, flux_fills_the_pole, which_way_to_cut, hiss_of_thinner_wire,
        two_workbenches),
    teaching_note=TEACHING_NOTE, evenings=EVENINGS, to_vote=TO_VOTE)
