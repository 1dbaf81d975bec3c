"""Lesson 06, the coil as a circuit: model answers, slips with their notes, worked answers, teaching note."""
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

half_in_decibel = ChoiceExercise(
    id="m3", quick=True, right="a",
    options={"a": "about 6 dB", "b": "about 3 dB", "c": "about 10 dB"},
    notes={"a": "Correct: 20 log₁₀ of one half is −6.0 dB.",
           "b": "It is about 6 dB: 20 log₁₀ of one half is −6.0 dB. The 3 dB belong to half the power.",
           "c": "It is about 6 dB: 20 log₁₀ of one half is −6.0 dB."})

# ---- predictions -----------------------------------------------------------------------------------------------------

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

# ---- exercises -------------------------------------------------------------------------------------------------------

magnitude_of_impedance = NumberExercise(
    id="6.1", unit="kohm", tolerance=0.02, size=(5, 20),
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
    id="6.2", unit="kHz", tolerance=0.02, size=(1.8, 6.5),
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
    id="6.4", unit="dB", tolerance=0.015, size=(-1.0, -0.4),
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
    id="6.5", unit="1", tolerance=0.03, size=(0.8, 4.2), marks=2,
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

reluctance_of_the_coil = NumberExercise(
    id="6.6", unit="MA/Wb", tolerance=0.02, size=(4, 50),
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
    teaching_note="The house coil has 27 MA/Wb; without its rods it would have 36. So most of what resists is air, and "
                  "the rods change it by a quarter.")

two_workbenches = TextExercise(
    id="6.7",
    rubric=((2, "At 1 kHz the reading is about 1 % high, because the self-capacitance takes part: 1/(1 − f²/f_s²) with "
                "a self-resonance near 9 kHz."),
            (2, "At 120 Hz the reading is low by R²C, about 4 mH, and Q_m is only 0.35: most of what the meter sees is "
                "resistance, so a small error of phase is a large error of inductance."),
            (2, "A judgement with a reason: both readings are right for what a meter reads; the inductance put in is "
                "between the two, 3.00 H; and a next step (a third frequency, or both benches at one frequency).")),
    worked="Both are right about what they read, and neither reads the inductance itself. At 1 kHz the coil's "
           "self-capacitance carries a little current against that of the inductance; the reading is high by 1/(1 − "
           "f²/f_s²). With f_s = 9.2 kHz that is 1.2 %, less R²C: 3.00 H reads 3.03 H. At 120 Hz this rise is "
           "negligible, and R²C = (6.5 kΩ)² × 100 pF = 4 mH is missing: 2.996 H. But there Q_m is 0.35, so the meter "
           "sees mostly resistance and its own uncertainty is large. The bench at 1 kHz would say: at 120 Hz you "
           "measure wire. The bench at 120 Hz would say: at 1 kHz you measure capacitance, too. The value put in is "
           "3.00 H; a reading at a third frequency would show the rise with f².",
    teaching_note="The coil of the question has 3.00 H, 6.5 kΩ and 100 pF. Real coils with steel or covers read less "
                  "at higher frequencies because of eddy currents; then 120 Hz and 1 kHz differ the other way.")

TEACHING_NOTE = """
**Time plan** (85 minutes): quick questions 5, the circuit and 6.1 15, the cable with its panel and 6.2 15, controls
with the second panel, 6.3 to 6.5 25, three loads by ear 5, the meter with its panel and 6.6 15, limits 5; the open
question at home.

**Demonstration with real parts.** A pickup, a component meter with two or more frequencies, a 470 pF and a 1000 pF
capacitor, a 100 kΩ resistor, a sound card and a small air coil as an exciter. Read R, then L at 120 Hz and 1 kHz, and
at 10 kHz if the meter has it. Then sweep the exciter with the sound card: the peak, then with the capacitor across
the pickup (sideways), then with the resistor (down). Cautions: nothing with a mains plug is opened, here or later;
amplifiers stay closed and earthed, and one works at the pickup's own plug, unplugged from the amplifier. A sound
card's input is a load, too: state it. Start every sound low.

**What to ask.** "Which parts of the circuit decide where the peak is, and which how high?" "What does a player change
who buys a longer cable?" "What does the meter assume about the thing between its clips?"

**What goes wrong.** The resonance taken for a property of the pickup alone. R and 2πfL added as numbers. Capacitances
in parallel taken like resistances in parallel. ω for f. Resistance taken for strength: a thinner wire with the same
turns gives more ohms and no more voltage. A reading in henry believed without asking at which frequency it was made.

**Say it openly**: with steel screws, covers or brass plates the inductance falls and the losses rise with frequency.
The circuit of this lesson has none of that, so real peaks are lower and broader than its peaks.
"""

LESSON = Lesson(
    id="06", title="The coil as a circuit", version=1, exercises=(
        peak_at_the_octave, full_window, half_in_decibel, magnitude_of_impedance, sideways_or_down,
        resonance_with_cable, double_pots, parallel_loads, low_loss, q_of_the_loaded_coil, above_resonance,
        reluctance_of_the_coil, two_workbenches),
    teaching_note=TEACHING_NOTE)
