"""Lesson 04, the coil and Faraday's law: model answers, slips with their notes, worked answers, teaching note."""
import math

import numpy as np

from lessons_lib.exercises.declaration import (
    ChoiceExercise,
    FunctionExercise,
    Given,
    Lesson,
    NumberExercise,
    PredictionExercise,
    ReadOff,
    Signal,
    Slip,
    Step,
    TextExercise,
    Twin,
)

COPPER = 1.72e-8    # ohm m, as the page gives it

STILL = "A still string gives nothing. Where is its speed in your formula?"
LINKAGE = "That is a change of flux linkage. Faraday asks how fast it comes about."
LENGTH = "That is the length of the wire. What else does its resistance depend on?"
RADIUS = "Look again at the length you squared: is it a radius or a diameter?"
ONE_TURN = "That is the voltage of a single turn. The turns are in series: what do their voltages do?"


def disc(diameter):
    return math.pi * diameter ** 2 / 4


SAME_SHAPE = ("Your result has the shape of the linkage itself. What does the voltage do where the linkage is flat on "
              "top?")

# ---- quick questions -------------------------------------------------------------------------------------------------

small_change = ChoiceExercise(
    id="m1", quick=True, right="a",
    options={"a": "less than one per cent of it", "b": "about a tenth of it", "c": "about half of it"},
    notes={"a": "Correct: about a tenth of a per cent with six magnets. All of the signal is in that small part.",
           "b": "It is less than one per cent: about a tenth of a per cent carries all of the signal.",
           "c": "It is less than one per cent. What changes by a large factor is the signal, not the flux."})

series_loop = ChoiceExercise(
    id="m2", quick=True, right="c",
    options={"a": "doubles, too", "b": "halves", "c": "falls, but by much less than half"},
    notes={"a": "It falls, but by much less than half: the magnet's own reluctance does not change, and is the larger "
                "one.",
           "b": "It falls by much less than half: the magnet's own reluctance does not change, and is the larger one.",
           "c": "Correct: the magnet's own reluctance does not change, and is the larger one."})

flux_of_a_disc = ChoiceExercise(
    id="m3", quick=True, right="b",
    options={"a": "a flux density, in T", "b": "a flux, in Wb", "c": "a field strength, in A/m"},
    notes={"a": "It is a flux, in Wb: 1 Wb is 1 T times 1 m².",
           "b": "Correct: 1 Wb is 1 T times 1 m².",
           "c": "It is a flux, in Wb: flux density times area."})

# ---- predictions -----------------------------------------------------------------------------------------------------

shape_of_voltage = PredictionExercise(
    id="p1",
    question="The string swings up and down like a sine. At the instant when the coil's flux linkage is highest, the "
             "voltage is ...",
    options={"a": "highest, too: much flux, much voltage", "b": "about zero", "c": "lowest: it opposes the flux",
             "d": "the same as at every other instant"},
    seen_question="As long as nothing moves, the dotted line marks an instant of highest linkage. The voltage there "
                  "is ...",
    seen_options={"a": "highest", "b": "about zero", "c": "lowest", "d": "something in between"},
    seen="b",
    seen_notes={
        "a": "Look again: follow the dotted line down to the lowest graph.",
        "b": "Yes, that is what the panel shows. At the top of the hill the linkage neither grows nor falls.",
        "c": "Look again: follow the dotted line down to the lowest graph.",
        "d": "Look again: read the voltage at the dotted line, and compare it with the peak."})

sideways_motion = PredictionExercise(
    id="p2",
    question="The string swings sideways over the middle of its pole, not up and down. The voltage is ...",
    options={"a": "just as large, at the same frequency", "b": "exactly nothing",
             "c": "small, and mostly at twice the frequency", "d": "small, and mostly at half the frequency"},
    seen_question="Set the swing direction to 90 and leave the string over the middle. The highest dot is ...",
    seen_options={"a": "harmonic 1", "b": "none: all are under −60 dB", "c": "harmonic 2, well below 0 dB",
                  "d": "harmonic 3"},
    seen="c",
    seen_notes={
        "a": "Look again, with the swing direction at 90 and the string at 0 mm off the middle: which dot is highest?",
        "b": "Look again, with the swing direction at 90: one dot is well above −60 dB.",
        "c": "Yes, that is what the panel shows. Twice in every swing the string comes over the pole, and twice it "
             "leaves.",
        "d": "Look again, with the swing direction at 90 and the string at 0 mm off the middle: count the dots."})

twice_the_turns = PredictionExercise(
    id="p3",
    question="The winder puts twice the turns into the same full window, with thinner wire. The resistance becomes ...",
    options={"a": "twice as large", "b": "four times as large",
             "c": "the same, because it is the same amount of copper", "d": "half as large"},
    seen_question="Read \"resistance, window just full\" at 5000 and at 10 000 turns. It is ...",
    seen_options={"a": "twice as large", "b": "four times as large", "c": "the same"},
    seen="b",
    seen_notes={
        "a": "Look again at the read-out \"resistance, window just full\" at 5000 and at 10 000 turns, and divide.",
        "b": "Yes, that is what the panel shows: twice the length, and half the cross-section.",
        "c": "Look again at the read-out \"resistance, window just full\", at 5000 and at 10 000 turns."})

# ---- marked exercises ------------------------------------------------------------------------------------------------

TURNS = Given("turns of the coil", unit="1", low=5000, high=9500, step=50)

mean_voltage = NumberExercise(
    id="4.1", unit="mV", tolerance=0.02, size=(15, 600),
    given={"turns": TURNS, "swing": Given("change of the flux through each turn", unit="nWb", low=6, high=20, step=0.1),
           # a linkage in uWb typed as mV is the answer times this time: far from the factor of a half
           "time": Given("time it takes", unit="ms", low=0.76, high=1.20, step=0.01)},
    answer=lambda turns, swing, time: turns * swing / time,
    slips=(Slip("minus", lambda turns, swing, time: -turns * swing / time,
                "The magnitude is right, and so is Faraday's minus; but the question asks for it without sign."),
           Slip("single turn", lambda swing, time: swing / time, ONE_TURN),
           Slip("turns twice", lambda turns, swing, time: turns ** 2 * swing / time, "The turns were counted twice."),
           # typed for a change of 84 uWb: 84, or 0.084 where it was left in Wb and called V
           Slip("no time, uWb", lambda turns, swing: turns * swing * 1e3, LINKAGE),
           Slip("no time, Wb", lambda turns, swing: turns * swing, LINKAGE),
           Slip("times time", lambda turns, swing, time: turns * swing * time * 1e6,
                "The same change in less time: does that give more or less?")),
    common=("thousand", "million", "two"),
    steps={"linkage": Step("uWb", lambda turns, swing: turns * swing)},
    notes=("First the change of the flux linkage: all turns together. Then ask how fast.",
           "Faraday: mean voltage is the change of flux linkage divided by the time, NΔΦ/Δt."),
    twin=Twin({"turns": 4000, "swing": 5.0, "time": 2.0},
              "Another coil: {turns} turns, {swing} in each, within {time}. The linkage changes by {linkage}, so the "
              "mean voltage is 20·10⁻⁶/(2.0·10⁻³) V = {answer}."),
    worked="All {turns} turns together change their linkage by {linkage}. In {time} that makes {answer}.",
    teaching_note="Only the magnitude is asked. Ask for the unit: Wb/s is V.")

peak_voltage = NumberExercise(
    id="4.2", unit="mV", tolerance=0.02, size=(5, 600), marks=2,
    given={"turns": TURNS,
           "slope": Given("change of flux in each turn with height", unit="nWb/mm", low=8, high=25, step=0.1),
           "amplitude": Given("amplitude of the string", unit="mm", low=0.30, high=1.00, step=0.01),
           "frequency": Given("frequency", unit="Hz", low=87, high=350, step=1)},
    answer=lambda turns, slope, amplitude, frequency: turns * slope * amplitude * 2 * math.pi * frequency,
    slips=(Slip("single turn", lambda slope, amplitude, frequency:
                slope * amplitude * 2 * math.pi * frequency, ONE_TURN),
           # a linkage typed in uWb, or left in Wb and called V
           Slip("no speed, uWb", lambda turns, slope, amplitude: turns * slope * amplitude * 1e3, STILL),
           Slip("no speed, Wb", lambda turns, slope, amplitude: turns * slope * amplitude, STILL),
           Slip("cycles", lambda turns, slope, amplitude, frequency: turns * slope * amplitude * frequency,
                "The highest speed of a sine is ω times its amplitude. Is ω the number of cycles a second?"),
           Slip("RMS", lambda turns, slope, amplitude, frequency:
                turns * slope * amplitude * math.sqrt(2) * math.pi * frequency,
                "The question asks for the peak. Is this another kind of amplitude?"),
           Slip("peak to peak", lambda turns, slope, amplitude, frequency:
                turns * slope * amplitude * 4 * math.pi * frequency,
                "From zero to the highest point, or from lowest to highest?")),
    common=("thousand", "million", "two pi"),
    steps={"speed": Step("m/s", lambda amplitude, frequency: 2 * math.pi * frequency * amplitude),
           "all": Step("V s/m", lambda turns, slope: turns * slope)},
    notes=("First the highest speed of the string. Then the slope of all the turns together.",
           "The voltage is (change of linkage with height) times speed; the highest speed of a sine is 2πf times the "
           "amplitude."),
    twin=Twin({"turns": 3000, "slope": 10.0, "amplitude": 0.2, "frequency": 50},
              "A slow string: {turns} turns, {slope}, amplitude {amplitude} at {frequency}. Highest speed {speed}; "
              "slope of all turns together {all}; product {answer}."),
    worked="The highest speed is {speed}. The slope of all turns together is {all}. The peak is their product, "
           "{answer}.",
    teaching_note="The slope is taken as constant here. The panel's string sees it change by a third over its swing.")

scope_reading = NumberExercise(
    id="4.3", unit="mV", tolerance=0.02, size=(20, 300),
    given={"reading": Given("peak to peak", unit="mV", low=80, high=600, step=2)},
    answer=lambda reading: reading / (2 * math.sqrt(2)),
    slips=(Slip("peak", lambda reading: reading / 2, "That is the peak. One more step leads to RMS."),
           Slip("RMS of peak to peak", lambda reading: reading / math.sqrt(2),
                "The root of two belongs to the peak. Is the whole height the peak?"),
           Slip("untouched", lambda reading: reading, "That is the reading itself. Two steps lead from it to RMS."),
           Slip("mean", lambda reading: reading / math.pi,
                "That is the mean of a sine with all its half waves turned up. RMS is the root of the mean square."),
           Slip("upwards", lambda reading: reading * math.sqrt(2),
                "Can the RMS value be larger than the whole height?")),
    common=("thousand", "ten"),
    steps={"half": Step("mV", lambda reading: reading / 2)},
    notes=("From lowest to highest is twice the peak. Begin there.",
           "For a sine: RMS = peak/√2 and peak to peak = 2·peak."),
    twin=Twin({"reading": 1000}, "A reading of {reading}: the peak is {half}, and divided by √2 that is {answer}."),
    worked="Half of {reading} is the peak, {half}. Divided by √2 it is {answer}.",
    teaching_note="A scope shows peak to peak, a meter RMS, a data sheet often does not say which.")

wire_resistance = NumberExercise(
    id="4.4", unit="kohm", tolerance=0.02, size=(2.5, 16),
    given={"turns": TURNS, "mean_turn": Given("length of a mean turn", unit="mm", low=125, high=150, step=0.5),
           "copper": Given("diameter of the copper", unit="mm", low=0.0502, high=0.0633, step=0.0001)},
    answer=lambda turns, mean_turn, copper: COPPER * turns * mean_turn / disc(copper),
    slips=(Slip("single turn", lambda mean_turn, copper: COPPER * mean_turn / disc(copper),
                "That is the resistance of a single turn."),
           # a length typed where kohm are asked: 950 m, or 0.95 km
           Slip("length", lambda turns, mean_turn: turns * mean_turn * 1e3, LENGTH),
           Slip("length, km", lambda turns, mean_turn: turns * mean_turn, LENGTH),
           Slip("diameter for radius", lambda turns, mean_turn, copper:
                COPPER * turns * mean_turn / (math.pi * copper ** 2), RADIUS),
           Slip("radius halved twice", lambda turns, mean_turn, copper:
                COPPER * turns * mean_turn / disc(copper / 2), RADIUS),
           Slip("square", lambda turns, mean_turn, copper: COPPER * turns * mean_turn / copper ** 2,
                "That fits a square wire of side d. How much of that square does the round wire fill?")),
    common=("thousand", "million", "pi", "ten"),
    steps={"length": Step("m", lambda turns, mean_turn: turns * mean_turn),
           "section": Step("mm2", lambda copper: disc(copper))},
    notes=("First the length of all turns in m. Then the cross-section of the wire in m².",
           "Resistance is resistivity times length divided by cross-section, and the cross-section of a round wire is "
           "πd²/4."),
    twin=Twin({"turns": 1000, "mean_turn": 100, "copper": 0.1},
              "A small coil: {turns} turns of {mean_turn} make {length}; a wire of {copper} has a cross-section of "
              "{section}. So the resistance is 1.72·10⁻⁸ · 100/(7.854·10⁻⁹) Ω = {answer}."),
    worked="{turns} turns of {mean_turn} make {length}. The cross-section is {section}. Resistivity times "
           "length, divided by the cross-section, is {answer}.",
    teaching_note="Ten kelvin more add 4 %. Two benches that differ by that may both be right.")

both_turned = ChoiceExercise(
    id="4.5", right="a",
    options={"a": "positive, as in the first row", "b": "negative, and twice as large",
             "c": "negative, as with one of them reversed", "d": "gone: there is no voltage any more"},
    notes={"a": "Two changes of sign cancel: the change of the flux and the way round it is counted are both reversed.",
           "b": "Each of the two changes the sign, not the magnitude. What do two changes of sign make?",
           "c": "The pole reverses the change of flux. The winding reverses which way round it is counted. Both "
                "together?",
           "d": "Each of the two changes the sign, not the magnitude. Is anything lost?"},
    worked="Reversing the pole reverses the flux, and so its change as well: the sign of the voltage changes. Winding "
           "the other way reverses the way round in which the voltage is counted: the sign changes again. Together the "
           "signal is as before. Hum from outside knows nothing of the pole, so its sign changes only once: that is "
           "how a pair of coils can keep the signal and lose the hum.",
    teaching_note="The best question of this lesson for two votes with a discussion between them. Ask what "
                  "happens to hum from outside.")

pick_the_graph = ChoiceExercise(
    id="4.6", right="c",
    options={"a": "zero, then up, flat on top, and down again, like the linkage",
             "b": "first above zero, then zero, then below zero and twice as far",
             "c": "first below zero, then zero, then above zero and twice as far",
             "d": "first below zero, then zero, then above zero and just as far"},
    notes={"a": "Where the linkage is flat on top: how fast does it change there?",
           "b": "The steps are where they belong. Which sign does the voltage have while the linkage grows?",
           "c": "The voltage is zero where the linkage is flat, and twice as large where the "
                "linkage is twice as steep.",
           "d": "Compare the two slopes of the linkage: which one is steeper, and by how much?"},
    worked="While the linkage rises by 60 µWb in 2 ms, the voltage is −60·10⁻⁶/(2·10⁻³) V = −30 mV. Where it is flat, "
           "the voltage is zero. While it falls by as much in 1 ms, the voltage is +60 mV. That is graph (c).",
    teaching_note="Graph (a) is the usual wrong one: about 26 % and 30 % of two groups of students drew the voltage so "
                  "(a poster; see the sources of the page).")


# ---- a function of the student's own ---------------------------------------------------------------------------------

def sine_signal():
    time = np.linspace(0, 10e-3, 401)
    return time, 60e-6 * np.sin(2 * math.pi * 200 * time + 0.4)


def trapezoid_signal():
    """Coarse steps at first, then steps half as long."""
    time = np.concatenate([np.arange(0, 1e-3 - 1e-9, 5e-5), np.arange(1e-3, 6e-3 + 1e-9, 2.5e-5)])
    return time, np.interp(time, [0, 1.5e-3, 3.5e-3, 4.5e-3, 5.5e-3, 6e-3], np.array([0.0, 0, 50, 50, 0, 0]) * 1e-6)


def dying_signal():
    time = np.linspace(0, 12e-3, 481)
    return time, 80e-6 * np.exp(-time / 6e-3) * np.sin(2 * math.pi * 150 * time + 0.3)


def signal(label, curve):
    time, linkage = curve()
    # rounded as an instrument would: 0.1 us and 1 nWb; also keeps the sheet small
    return Signal(label=label, values=tuple(np.round(linkage, 11).tolist()), time=tuple(np.round(time, 8).tolist()))


def voltage(flux_linkage, time):
    return -np.gradient(flux_linkage, time)


def differences(flux_linkage, time):
    steps = -np.diff(flux_linkage) / np.diff(time)
    return np.append(steps, steps[-1])


def backwards(flux_linkage, time):
    steps = -np.diff(flux_linkage) / np.diff(time)
    return np.append(steps[0], steps)


own_function = FunctionExercise(
    id="4.7", tolerance=0.03, marks=3,
    signals={"sine": signal("the sine", sine_signal), "trapezoid": signal("the trapezoid", trapezoid_signal),
             "dying": signal("the dying sine", dying_signal)},
    parts=(ReadOff(label="peak of the sine", signal="sine", read="largest", unit="mV"),
           ReadOff(label="mean on the trapezoid from 2 to 3 ms", signal="trapezoid", read="mean", unit="mV",
                   between=(2e-3, 3e-3)),
           ReadOff(label="first zero of the dying sine", signal="dying", read="first zero", unit="ms",
                   between=(0.5e-3, 12e-3))),
    answer=voltage, also_right=(differences, backwards,
                                lambda flux_linkage, time: -np.gradient(flux_linkage, time, edge_order=2),
                                lambda flux_linkage, time: -np.gradient(flux_linkage) / np.gradient(time)),
    slips=(Slip("sign", lambda flux_linkage, time: np.gradient(flux_linkage, time),
                "The magnitudes are those of Faraday's law. Which sign does the voltage have while the linkage "
                "grows?"),
           Slip("per sample", lambda flux_linkage, time: -np.gradient(flux_linkage),
                "That is the change from sample to sample. The law asks for the change in each second: where does "
                "time come in?"),
           Slip("per sample, sign", lambda flux_linkage, time: np.gradient(flux_linkage),
                "That is the change from sample to sample. The law asks for the change in each second: where does "
                "time come in?"),
           Slip("same shape", lambda flux_linkage, time: flux_linkage, SAME_SHAPE),
           Slip("same shape, turned over", lambda flux_linkage, time: -flux_linkage, SAME_SHAPE),
           Slip("first step for all", lambda flux_linkage, time: -np.gradient(flux_linkage) / (time[1] - time[0]),
                "Are all steps of time equally long? Look at the trapezoid's: time[:3] and time[-3:]."),
           Slip("divided by time so far", lambda flux_linkage, time: -flux_linkage / np.maximum(time, time[1]),
                "That divides the linkage by the time so far. Which two differences does the law divide?"),
           Slip("millivolt", lambda flux_linkage, time: -1e3 * np.gradient(flux_linkage, time),
                "A factor of a thousand: the function is asked to return volts.")),
    notes=("Print a few values of your result on a straight line, such as flux_linkage = 3·time: they must be −3 V "
           "throughout.",
           "e = −dΛ/dt: for neighbouring samples the difference of the linkage divided by the difference of the time, "
           "with a minus.",
           "Three samples, 0, 2 and 6 µWb at 0, 1 and 2 ms: between the first two the voltage is −2 mV, between the "
           "last two −4 mV; np.gradient takes −3 mV in the middle, and the neighbour's step at each end."),
    worked="def voltage(flux_linkage, time):\n    return -np.gradient(flux_linkage, time)\n\nnp.gradient takes the "
           "steps of time as they come. By hand: differences by np.diff, one divided by the other, and one value "
           "repeated so that there are as many voltages as instants.",
    teaching_note="What comes back are three readings, not the code. Ask for the code where you doubt. np.diff gives "
                  "one value too few: the page says so in a sentence.")

why_not_more = TextExercise(
    id="4.8",
    rubric=((2, "An electrical reason: inductance grows with the square of the turns, so the peak with cable comes "
                "down and treble is lost; or resistance and load take a larger part."),
            (2, "A geometrical one: in a fixed window the wire gets thinner, the share of enamel grows, the "
                "resistance grows with the square; in a larger window outer turns are longer and link less."),
            (2, "A practical one: such wire breaks, winding takes hours, costs, hum and noise grow as well (or the "
                "like).")),
    worked="Electrical: 50 000 turns in the same window make 94 H. With the cable's capacitance there is no peak left "
           "in the treble; at 5 kHz the amplifier gets 24 dB less than from the house coil, although the open coil "
           "gives 16 dB more. Geometrical: the copper would have to be 24 µm thick, and the resistance would be 250 "
           "kΩ, as much as the volume control. Practical: wire as thin as that breaks at the least pull, enamel takes "
           "an ever larger share, and hum grows with the turns just as the signal does.",
    teaching_note="\"Louder is always better\" is answered by the lower graph of the third panel.")

TEACHING_NOTE = """
**Time plan** (90 minutes): quick questions 5, Faraday with the first panel and 4.1 to 4.3 30, sideways motion with
panel and sound 10, turns and wire with panel and 4.4 15, sign with 4.5 and 4.6 10, the function of 4.7 15, open
question 5. Short of time, skip section 2 (sideways) with its sound, and set the open question as homework. Where Python
is new, 4.7 takes twenty minutes in pairs: set it as homework. A class that knows Python is through in 75.

**Demonstration with real parts.** A coil of some thousand turns on a sensitive meter with its zero in the middle, a rod
magnet. Push the magnet in fast, slowly, hold it, pull it out. Turn the magnet over; then exchange the coil's ends. Then
a steel string over a magnet in the coil, on a scope: pluck up and down, then sideways. Cautions of lesson 1 for
magnets; safety glasses on while strings are tight; thin wire cuts: nobody near a running winding machine with loose
sleeves or gloves. Scope and amplifier by their own earthed plugs; never disconnect an earth to get rid of hum.
Sound: level at zero first, headphones last.

**What to ask.** "The magnet rests in the coil. What does the meter show, and why?" "Where on the displacement graph is
the voltage largest?" "What does the string at the very top of its swing give?" "Which of the four changes the sign?"

**What goes wrong.** Voltage in proportion to the flux. "No flux, no voltage." Turns forgotten, or counted twice. The
minus read as "opposes the flux". Peak, RMS and peak to peak exchanged. Cycles a second for radians a second. In 4.7 a
result with one value too few (np.diff), and a fixed step of time.

**Say it openly**: the string of the panel swings as one single sine, and its piece over the pole moves as one. A
plucked string follows in lesson 5. The load of cable and controls follows in lesson 6; the lower graph of the third
panel borrows from it.
"""

LESSON = Lesson(
    id="04", title="The coil and Faraday's law", version=1, exercises=(
        small_change, series_loop, flux_of_a_disc, shape_of_voltage, mean_voltage, peak_voltage, scope_reading,
        sideways_motion, twice_the_turns, wire_resistance, both_turned, pick_the_graph, own_function, why_not_more),
    teaching_note=TEACHING_NOTE)
