"""Lesson 04, the coil and Faraday's law: model answers, slips with their notes, worked answers, teaching note."""
import math

import numpy as np

from lessons_lib.exercises.declaration import (
    ChoiceExercise,
    CurveAxis,
    CurveExercise,
    Derived,
    EstimateExercise,
    Evening,
    FormulaExercise,
    FunctionExercise,
    Given,
    Lesson,
    NumberExercise,
    OrderExercise,
    PredictionExercise,
    ReadOff,
    RecallExercise,
    Signal,
    Slip,
    Step,
    Stretch,
    Symbol,
    TextExercise,
    ToVote,
    Twin,
)

COPPER = 1.72e-8    # ohm m, as the page gives it
G = 9.81            # m/s2

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

closed_surface = RecallExercise(
    id="m3", where="lesson 1",
    sentence="A tube never ends: what goes into any closed surface at one place comes out at another.")

principle = ChoiceExercise(
    id="s1", quick=True, right="b",
    options={"a": "Flux is flux density times area.", "b": "Only the rate of change of the linkage counts.",
             "c": "Turns in series add up what each of them does."},
    notes={"a": "It is the rate of change, Faraday's law. No area and no flux density comes into step 2.",
           "b": "Correct: that is Faraday's law, and the time comes in with it.",
           "c": "It is the rate of change, Faraday's law. Adding up the turns was step 1."})

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
    seen_question="Set the swing direction to 90 and leave all else as it is. The highest dot is ...",
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
    id="p3", further=True,
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

more_and_more = PredictionExercise(
    id="p4", further=True,
    question="From 1000 turns to 2000, the signal's level above both hisses together rises by nearly 6 dB. From 20 000 "
             "turns to 40 000 it ...",
    options={"a": "rises by about 6 dB once more", "b": "rises by less than 1 dB", "c": "falls by about 6 dB"},
    seen_question="Read \"signal above both hisses\" at 20 000 and at 40 000 turns, with 10 nV/√Hz. It ...",
    seen_options={"a": "rises by about 6 dB", "b": "rises by less than 1 dB", "c": "falls by about 6 dB"},
    seen="b",
    seen_notes={
        "a": "Look again at the read-out \"signal above both hisses\" at both numbers of turns, and subtract.",
        "b": "Yes, that is what the panel shows. Which of the two hisses grows with the turns?",
        "c": "Look again at the read-out \"signal above both hisses\", and at its curve's right end."})

# ---- marked exercises ------------------------------------------------------------------------------------------------

TURNS = Given("turns of the coil", unit="1", low=5000, high=9500, step=50)

mean_voltage = NumberExercise(
    id="4.1", unit="mV", tolerance=0.02, size=(15, 600), further=True,
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
    id="4.2", unit="mV", tolerance=0.02, size=(5, 600), marks=2, further=True,
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

four_motions = OrderExercise(
    id="4.14", marks=2,
    options={"a": "it swings by 0.2 mm to each side, at 300 Hz", "b": "it swings by 0.6 mm to each side, at 100 Hz",
             "c": "it is held 1 mm nearer to the pole, and stays there",
             "d": "it moves evenly towards the pole, by 1 mm within 5 ms"},
    right="a = b > d > c",
    slips=(Slip("nearest is most", "c > d", STILL), Slip("nearest is most", "c = d", STILL),
           Slip("cycles", "d > a", "The speed in (d) is a length divided by a time. The highest speed of a sine is ω "
                                   "times its amplitude: is ω the number of cycles a second?"),
           Slip("amplitude alone", "b > a", "The one in (b) swings farther, and takes longer for it. Which of the two "
                                            "is faster at its fastest?"),
           Slip("frequency alone", "a > b", "The one in (a) swings more often, and less far. Which of the two is "
                                            "faster at its fastest?")),
    notes=("Write the highest speed beside each motion, in m/s. Nothing else differs.",
           "The voltage is the slope of the linkage times the speed; the highest speed of a sine is 2πf times the "
           "amplitude.",
           "A sine of 0.5 mm at 50 Hz has a highest speed of 0.157 m/s. An even motion of 0.5 mm within 4 ms has 0.125 "
           "m/s, all the time: it comes second."),
    worked="The highest speeds: (a) and (b) 2π · 0.06 m/s = 0.38 m/s, a third of the amplitude at three times the "
           "frequency; (d) 1 mm/5 ms = 0.20 m/s; (c) none, so no voltage, although the linkage is larger. So {order}.",
    teaching_note="Ask for (c) first: nearness alone gives nothing. An answer with (d) first has left out 2π. The "
                  "check without it: in one swing the string of (b) runs 4 times 0.6 mm, so even on average it has "
                  "0.24 m/s.")

from_the_swing = FormulaExercise(
    id="4.15", marks=2, asked="V",
    symbols={"turns": Symbol("turns of the coil", "1", 5000, 9500),
             "swing": Symbol("from the lowest to the highest flux in a turn", "nWb", 6, 20),
             "frequency": Symbol("frequency", "Hz", 80, 400)},
    answer=lambda turns, swing, frequency: math.pi * turns * swing * frequency / math.sqrt(2),
    written="turns * (swing/2) * 2*pi*frequency / sqrt(2)",
    slips=(Slip("peak", lambda turns, swing, frequency: math.pi * turns * swing * frequency,
                "That is the peak. One more step leads to RMS."),
           Slip("swing as amplitude", lambda turns, swing, frequency:
                math.sqrt(2) * math.pi * turns * swing * frequency,
                "From its lowest to its highest value: is that the amplitude of the flux?"),
           Slip("peak to peak", lambda turns, swing, frequency: 2 * math.pi * turns * swing * frequency,
                "That is the whole height of the voltage, from its lowest to its highest value. RMS is asked."),
           Slip("cycles", lambda turns, swing, frequency: turns * swing * frequency / math.sqrt(8),
                "The steepest slope of a sine is ω times its amplitude. Is ω the number of cycles a second?"),
           Slip("mean", lambda turns, swing, frequency: 2 * turns * swing * frequency,
                "That is the mean voltage while the flux rises from its lowest to its highest value. RMS is a little "
                "more."),
           Slip("single turn", lambda swing, frequency: math.pi * swing * frequency / math.sqrt(2), ONE_TURN),
           Slip("divided by the frequency", lambda turns, swing, frequency:
                turns * swing / (2 * math.sqrt(2) * 2 * math.pi * frequency),
                "The same swing more often in a second: does that give more voltage, or less?")),
    notes=("Four steps: the amplitude of the flux, its steepest slope in time, all turns, then from peak to RMS.",
           "A sine of amplitude A has the steepest slope ωA, with ω = 2πf; for a sine, RMS is the peak divided by √2.",
           "100 turns, 2 µWb from lowest to highest, 10 Hz: the amplitude is 1 µWb, the steepest slope 62.8 µWb/s, the "
           "peak of all turns 6.28 mV, and RMS 4.44 mV."),
    worked="The amplitude of the flux is swing/2. Its steepest slope is 2π·frequency times that, all turns together "
           "have turns times as much, and RMS is the peak divided by √2: turns * (swing/2) * 2*pi*frequency / sqrt(2). "
           "In numbers it is 2.22 times turns, swing and frequency. Makers of transformers know it as 4.44 times "
           "turns, frequency and the largest flux, which is half of this swing.",
    teaching_note="What counts is that 2, 2π and √2 come from three different places; let them say which from where. "
                  "Any equal form is right, and 3.14 for pi as well.")

scope_reading = NumberExercise(
    id="4.3", unit="mV", tolerance=0.02, size=(20, 300), further=True,
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
    id="4.4", unit="kohm", tolerance=0.02, size=(2.5, 16), further=True,
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
    id="4.6", right="c", further=True,
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


def dropped_magnet(x, drop, radius, largest):
    """Voltages that someone might expect of a magnet dropped through a flat coil, at the times x."""
    middle = math.sqrt(2 * drop / G)

    def voltage(height, speed):     # upwards; the flux of a small magnet through a ring on its axis
        return 3 * largest * height * speed / radius ** 2 * (1 + (height / radius) ** 2) ** -2.5

    falling = voltage(drop - G * x ** 2 / 2, -G * x)
    slower = -voltage(drop - G * (2 * middle - x) ** 2 / 2, -G * (2 * middle - x))
    linkage = (1 + ((drop - G * x ** 2 / 2) / radius) ** 2) ** -1.5
    return {"second part higher": falling, "turned over": -falling, "first part higher": slower,
            "both parts alike": voltage(G * middle * (middle - x), -G * middle),
            "shape of the linkage": linkage * np.abs(falling).max()}


which_voltage = CurveExercise(
    id="4.16", marks=2, right="second part higher", curves=dropped_magnet,
    x=CurveAxis("time", "ms", 0, 0, 240), y=CurveAxis("voltage", "mV", 0),
    given={"drop": Given("height above the coil at which it is let go", unit="mm", low=80, high=100, step=5),
           "radius": Given("radius of the coil", unit="mm", low=60, high=75, step=5),
           "largest": Given("largest flux linkage", unit="mWb", low=6, high=9, step=0.5)},
    notes={"second part higher": "First the linkage grows, then it falls; and it falls faster than it grew, because "
                                 "the magnet falls ever faster.",
           "turned over": "The parts are where they belong. Which sign does the voltage have while the linkage grows?",
           "first part higher": "The signs are right. Is the magnet faster on its way to the coil, or on its way out?",
           "both parts alike": "The signs are right. Does the magnet come to the coil as fast as it leaves it?",
           "shape of the linkage": SAME_SHAPE},
    worked="While the magnet comes, the linkage grows, and the voltage is negative. At the middle of the coil the "
           "linkage is largest, flat for a moment: zero. Then it falls, and the voltage is positive. The magnet, let "
           "go {drop} above the coil, is faster on its way out, so the linkage falls more steeply than it grew, and "
           "the second part is higher. That is curve {letter}.",
    teaching_note="Ask for the areas, volts times seconds: each is a change of linkage. The second is larger, by an "
                  "eighth to two fifths, since some flux is linked already when the magnet is let go. From far away "
                  "they would be equal, and what is higher would have to be shorter. A coil of some hundred turns and "
                  "a scope or a sound card show the curve; let the magnet drop into a cushion. Cautions of lesson 1.")

touching_the_wire = ChoiceExercise(
    id="4.9", right="b",
    options={"a": "zero, because there is no field where the wire is", "b": "10 mV, whether the turn is narrow or wide",
             "c": "less than 10 mV, the less the wider the turn is", "d": "zero, because neither turn nor ring moves"},
    notes={"a": "Read the law again: which flux does it ask for, that at the wire, or that through the turn?",
           "b": "The law asks for the change of the flux through the turn, wherever inside the turn that flux is.",
           "c": "How much flux does the narrow turn enclose, and how much the wide one?",
           "d": "Does the law ask what moves, or what changes?"},
    worked="The flux through the turn changes by 20 µWb in 2 ms: 20·10⁻⁶/(2·10⁻³) V = 10 mV. All of that flux is in "
           "the steel, so a wide turn encloses as much as a narrow one. The wire need not meet the field, and nothing "
           "need move. This is how a transformer works.",
    teaching_note="\"The flux must touch the wire\" is common, and no wonder: many pictures show a wire that moves "
                  "through lines of a field. Two coils on one steel ring and a meter settle it.")

sideways_graph = ChoiceExercise(
    id="4.10", right="d",
    options={"a": "zero all the time, since both sides are alike",
             "b": "two waves in each swing, highest each time the string is over the middle",
             "c": "one wave in each swing, as for a swing up and down",
             "d": "two waves in each swing, zero each time the string is over the middle"},
    notes={"a": "Both sides have the same linkage. Is it also the same in between?",
           "b": "That is the shape of the linkage itself. How steep is the linkage's curve over the middle?",
           "c": "From one end of the swing to the other: how often does the linkage rise, and how often fall?",
           "d": "Over the middle the linkage is at its highest and flat for a moment. It falls to both sides, so all "
                "comes twice in a swing."},
    worked="From the middle to the left end the linkage falls, back to the middle it rises, to the right end it falls "
           "again, and back it rises: two rises and two falls in one swing, so the voltage has twice the string's "
           "frequency. Over the middle the linkage is at its highest: flat, so the voltage is zero there. It is zero "
           "at the two ends as well, where the string stands still for a moment. That is graph (d).",
    teaching_note="Graph (b) has the right frequency and is the linkage again; graph (c) forgets that both sides count "
                  "alike. Let them follow one swing with a finger on the curve at the left.")


def sideways_peak(fall, aside, amplitude, frequency):
    return 2 * math.pi * frequency * fall * (amplitude / aside) ** 2


peak_sideways = NumberExercise(
    id="4.11", unit="mV", tolerance=0.02, size=(0.4, 60), marks=2, further=True,
    given={"fall": Given("how much lower the linkage is", unit="uWb", low=1.0, high=4.0, step=0.1),
           "aside": Given("so far beside the middle", unit="mm", low=0.40, high=0.60, step=0.05),
           "amplitude": Given("amplitude of the sideways swing", unit="mm", low=0.70, high=1.00, step=0.01),
           "frequency": Given("frequency of the string", unit="Hz", low=87, high=350, step=1)},
    answer=sideways_peak,
    slips=(Slip("straight", lambda fall, aside, amplitude, frequency:
                2 * math.pi * frequency * fall * amplitude / aside,
                "Twice as far aside: does the linkage fall by twice as much, or by more? It goes with y²."),
           Slip("not stretched", lambda fall, frequency: 2 * math.pi * frequency * fall,
                "The fall is given at one distance, and the string swings out to another."),
           Slip("both at their highest", lambda fall, aside, amplitude, frequency:
                2 * sideways_peak(fall, aside, amplitude, frequency),
                "Where is the string fastest, and where is it farthest out? Are both at their highest at once?"),
           Slip("half", lambda fall, aside, amplitude, frequency:
                sideways_peak(fall, aside, amplitude, frequency) / 2,
                "A factor of two is missing: the slope of k·y² is 2k·y."),
           Slip("cycles", lambda fall, aside, amplitude, frequency:
                sideways_peak(fall, aside, amplitude, frequency) / (2 * math.pi),
                "The highest speed of a sine is ω times its amplitude. Is ω the number of cycles a second?"),
           Slip("RMS", lambda fall, aside, amplitude, frequency:
                sideways_peak(fall, aside, amplitude, frequency) / math.sqrt(2),
                "The question asks for the peak. Is this another kind of amplitude?")),
    common=("thousand", "million"),
    steps={"k": Step("uWb", lambda fall, aside: fall * (1e-3 / aside) ** 2)},
    notes=("First k: the fall, divided by the square of the distance at which it was read.",
           "e = 2k·y·v, with y = a sin ωt and v = aω cos ωt. The product of sine and cosine is at most one half, so "
           "the peak is k·a²·ω."),
    twin=Twin({"fall": 5.0, "aside": 1.00, "amplitude": 2.00, "frequency": 50},
              "Another string: {fall} at {aside}; k is {k} for each mm². Swinging {amplitude} to each side at "
              "{frequency}, it gives k·a²·ω = 5.0·10⁻⁶ · 2.00² · 2π·50 V = {answer}."),
    worked="k is {k} for each mm². So the peak k·a²·ω is {answer}. With twice the amplitude it would be four times as "
           "large: a faint sound that grows fast.",
    teaching_note="Who has no calculus takes e = 2k·y·v from the page. The square is worth a word: up and down, twice "
                  "the amplitude gives twice the voltage.")

which_way_round = ChoiceExercise(
    id="4.12", right="b",
    options={"a": "its own flux points up, the current is clockwise",
             "b": "its own flux points up, the current is anticlockwise",
             "c": "its own flux points down, the current is clockwise",
             "d": "its own flux points down, the current is anticlockwise"},
    notes={"a": "The flux is found. Now the right hand: thumb along that flux, and where do the fingers point?",
           "b": "The flux through the coil is upwards and shrinks; the current's own flux makes up for a little of it.",
           "c": "The hand is right for that flux. But is the flux opposed here, or its change? It is shrinking.",
           "d": "Two steps to look at again: does the flux grow or shrink, and which way does the thumb point?"},
    worked="1. The rod's flux passes upwards through the coil, and so does what the string adds. 2. The string goes "
           "away: the flux shrinks. 3. The current's own flux opposes that change, so it points upwards as well. 4. "
           "Thumb up: the fingers of the right hand go round anticlockwise, as seen from above.",
    teaching_note="The usual wrong one is (c), \"opposes the flux\": for a flux that grows it gives the right answer, "
                  "so ask about one that shrinks. Let them say the four steps aloud, hand in the air.")


def mean_voltages(time, linkage):
    return -np.diff(linkage) / np.diff(time)


def largest(values):
    return values[np.argmax(np.abs(values))]


def steepest(time, linkage):
    return largest(mean_voltages(time, linkage))


def steepest_step(time, linkage):
    return int(np.argmax(np.abs(mean_voltages(time, linkage))))


def six_linkages(first, slow, quick, long, back, down):
    return list(np.cumsum([first, slow, quick, long, -back, -down]))


table_of_linkages = NumberExercise(
    id="4.13", unit="mV", tolerance=0.02, size=(-45, 55), marks=2,
    given={},
    # quick is even, down odd, half of long between whole numbers: no two steps are equally steep
    hidden={"first": Given("first linkage", unit="uWb", low=2, high=15, step=1),
            "slow": Given("a small rise", unit="uWb", low=4, high=16, step=1),
            "quick": Given("a quick rise", unit="uWb", low=22, high=40, step=2),
            "long": Given("a long rise", unit="uWb", low=53, high=63, step=2),
            "back": Given("a small fall", unit="uWb", low=2, high=12, step=1),
            "down": Given("a quick fall", unit="uWb", low=25, high=47, step=2)},
    derived={"time": Derived("time", unit="ms", decimals=0, formula=lambda: [0, 1e-3, 2e-3, 4e-3, 6e-3, 7e-3]),
             "linkage": Derived("flux linkage", unit="uWb", decimals=0, formula=six_linkages)},
    answer=steepest,
    slips=(Slip("sign", lambda time, linkage: -steepest(time, linkage),
                "The magnitude is right. Which sign does the voltage have while the linkage grows?"),
           Slip("largest step", lambda linkage: largest(-np.diff(linkage)) / 1e-3,
                "That is the largest difference of the linkages. Did every step take the same time?"),
           Slip("largest step, sign", lambda linkage: -largest(-np.diff(linkage)) / 1e-3,
                "That is the largest difference of the linkages. Did every step take the same time?"),
           Slip("the largest step's voltage", lambda time, linkage:
                mean_voltages(time, linkage)[np.argmax(np.abs(np.diff(linkage)))],
                "That step changes the linkage most, and it takes longest. Is it also the steepest?"),
           Slip("the other sign", lambda time, linkage: largest(
               mean_voltages(time, linkage)[mean_voltages(time, linkage) * steepest(time, linkage) < 0]),
                "That is one of the five, but another one is larger in magnitude."),
           Slip("same shape", lambda linkage: linkage.max() * 1e3,
                "That is the largest linkage. What does the law make of a linkage that stays large?"),
           Slip("linkage over time", lambda time, linkage: largest(-linkage[1:] / time[1:]),
                "That divides a linkage by the time so far. Which two differences does the law divide?")),
    common=("thousand", "million"),
    steps={"change": Step("uWb", lambda time, linkage: np.diff(linkage)[steepest_step(time, linkage)]),
           "within": Step("ms", lambda time, linkage: np.diff(time)[steepest_step(time, linkage)])},
    notes=("Write two new columns: the differences of the linkages, and the differences of the times.",
           "e = −ΔΛ/Δt for each pair of neighbours: five voltages. Look at their magnitudes, then at the sign."),
    twin=Twin({"time": [0, 5, 15], "linkage": [0, 100, 150]},
              "Another table, 0, 100 and 150 µWb at 0, 5 and 15 ms: the steepest step is the first, {change} in "
              "{within}, so {answer}. (The second, 50 µWb in 10 ms, gives −5 mV.)"),
    worked="The steepest of the five steps is the one that changes the linkage by {change} in {within}. With Faraday's "
           "minus that makes {answer}. The step with the largest change takes longer and is less steep.",
    teaching_note="The law by hand: what a computer does with samples. Who likes to program goes on to 4.7, which asks "
                  "the same of a function.")


# ---- elsewhere -------------------------------------------------------------------------------------------------------

dynamo = FormulaExercise(
    id="4.17", marks=2, asked="V", further=True,
    symbols={"speed": Symbol("speed of the bicycle", "m/s", 2, 8),
             "roller": Symbol("diameter of the roller", "mm", 18, 30),
             "pairs": Symbol("pairs of poles", "1", 2, 6), "turns": Symbol("turns of the coil", "1", 100, 300),
             "flux": Symbol("largest flux in each turn", "uWb", 20, 60)},
    answer=lambda speed, roller, pairs, turns, flux: 2 * turns * flux * pairs * speed / roller,
    written="turns * flux * 2*pi * pairs * speed / (pi*roller)",
    slips=(Slip("pairs forgotten", lambda speed, roller, turns, flux: 2 * turns * flux * speed / roller,
                "How often does the flux go through its cycle while the roller turns once?"),
           Slip("poles for pairs", lambda speed, roller, pairs, turns, flux:
                4 * turns * flux * pairs * speed / roller,
                "One cycle of the flux takes a north pole and a south pole. Or is the radius in it for the diameter?"),
           Slip("radius twice", lambda speed, roller, pairs, turns, flux: turns * flux * pairs * speed / roller,
                "While the roller turns once, the tyre runs by its circumference. That is π times which length?"),
           Slip("cycles", lambda speed, roller, pairs, turns, flux:
                turns * flux * pairs * speed / (math.pi * roller),
                "The frequency is found. The steepest slope of a sine is ω times its amplitude: what is ω?"),
           Slip("no circumference", lambda speed, roller, pairs, turns, flux:
                2 * math.pi * turns * flux * pairs * speed / roller,
                "How far does the tyre run while the roller turns once: by its diameter?"),
           Slip("single turn", lambda speed, roller, pairs, flux: 2 * flux * pairs * speed / roller, ONE_TURN),
           Slip("RMS", lambda speed, roller, pairs, turns, flux:
                math.sqrt(2) * turns * flux * pairs * speed / roller,
                "The question asks for the peak. Is this another kind of amplitude?")),
    notes=("In steps: how often the roller turns in a second, then how often the flux goes through its cycle, then the "
           "steepest slope.",
           "One turn of the roller is one circumference of way. The peak is turns times 2πf times the amplitude of the "
           "flux.",
           "One pair of poles, a roller of 31.8 mm (100 mm round), 1 m/s: ten turns a second, 10 Hz. With 100 turns "
           "and 10 µWb the peak is 100 · 62.8 · 10 µV = 63 mV."),
    worked="The roller turns speed/(π·roller) times a second, and the flux goes through pairs times as many cycles. "
           "The peak is turns · 2πf · flux: turns * flux * 2*pi * pairs * speed / (pi*roller). The π goes out. With "
           "invented numbers, 150 turns, 40 µWb, 4 pairs, a roller of 22 mm and 5 m/s: 11 V.",
    teaching_note="Let them find what is missing: neither the wheel nor its spokes, only the way along the rim. Twice "
                  "the speed, twice the voltage, of the open coil; that with a lamp the current soon stops growing is "
                  "lesson 6 (at high frequencies the inductance hinders it in proportion).")


def volts_a_turn(area):
    return math.sqrt(2) * math.pi * 50 * 1.3 * area


volts_of_a_turn = EstimateExercise(
    id="4.18", unit="V", factor=3, size=(1e-6, 1e6), marks=1, further=True, answer=lambda: volts_a_turn(9e-4),
    because="about 3 cm by 3 cm, so 1.2 mWb at the peak; times 2π·50 and divided by √2",
    slips=(Slip("a flux", lambda: 1.3 * 9e-4, "That is the flux of the core, in Wb. How fast does it change?"),
           Slip("no area", lambda: volts_a_turn(1.0), "Through which area does the flux pass? In m²."),
           Slip("hundredths", lambda: volts_a_turn(9e-2), "How many square centimetres are in a square metre?")),
    notes=("First the area of the core in m², then its largest flux.",
           "The peak of a turn's voltage is 2πf times the largest flux; RMS is that divided by √2."),
    twin=Twin({}, "A core of 1 cm by 1 cm has a largest flux of 0.13 mWb. Times 2π·50 that is a peak of 41 mV, and 29 "
                  "mV RMS for each turn."),
    worked="Two fingers are about 3 cm: 9 cm² = 9·10⁻⁴ m². The largest flux is 1.3 · 9·10⁻⁴ Wb = 1.2 mWb, the peak "
           "2π·50 · 1.2 mWb/s = 0.37 V, so RMS about {answer} for each turn. For 230 V such a core needs about 900 "
           "turns; with a few hundred its steel would saturate.",
    teaching_note="Any thickness from 2 to 5 cm is a good guess. Nobody opens a device with a mains plug for this.")

both_hisses = FormulaExercise(
    id="4.19", marks=2, asked="uV", further=True,
    symbols={"hiss": Symbol("hiss of the first coil alone, RMS", "uV", 0.8, 1.6),
             "amplifier": Symbol("hiss of the amplifier, RMS", "uV", 1.2, 2.8),
             "turns": Symbol("turns of the first coil", "1", 5000, 7000),
             "new": Symbol("turns of the second coil", "1", 9000, 14000)},
    answer=lambda hiss, amplifier, turns, new: math.sqrt((hiss * new / turns) ** 2 + amplifier ** 2),
    written="sqrt((hiss * new/turns)^2 + amplifier^2)",
    slips=(Slip("plain sum", lambda hiss, amplifier, turns, new: hiss * new / turns + amplifier,
                "That would be right if both always pushed the same way at the same time. Do they know of each other?"),
           Slip("as the resistance", lambda hiss, amplifier, turns, new:
                math.sqrt((hiss * (new / turns) ** 2) ** 2 + amplifier ** 2),
                "The resistance goes with the square of the turns. Does the hiss go with the resistance itself?"),
           Slip("root of the turns", lambda hiss, amplifier, turns, new:
                math.sqrt(hiss ** 2 * new / turns + amplifier ** 2),
                "That takes the resistance in proportion to the turns. What else happens to wire in a full window?"),
           Slip("no turns", lambda hiss, amplifier: math.sqrt(hiss ** 2 + amplifier ** 2),
                "That is the first coil with the amplifier. What does the second coil's resistance do?"),
           Slip("amplifier too", lambda hiss, amplifier, turns, new:
                new / turns * math.sqrt(hiss ** 2 + amplifier ** 2),
                "Does the amplifier know how many turns are in front of it?"),
           Slip("upside down", lambda hiss, amplifier, turns, new:
                math.sqrt((hiss * turns / new) ** 2 + amplifier ** 2),
                "More turns in the same window: is the resistance larger, or smaller?"),
           Slip("coil alone", lambda hiss, turns, new: hiss * new / turns,
                "That is the second coil alone. The amplifier comes behind it.")),
    notes=("Two steps: the hiss of the second coil alone, then both together.",
           "In a full window the resistance goes with the square of the turns, and the hiss with the root of the "
           "resistance. Voltages that know nothing of each other add by their squares.",
           "A coil of 1000 turns with a hiss of 0.2 µV is wound again with 3000: 0.6 µV. With 0.8 µV of the amplifier "
           "that makes 1.0 µV, because 0.36 + 0.64 is 1."),
    worked="Twice the turns have four times the resistance, and so twice the hiss: the second coil alone hisses with "
           "hiss · new/turns. The amplifier knows nothing of it, so squares add: sqrt((hiss * new/turns)^2 + "
           "amplifier^2).",
    teaching_note="The square of the one law and the root of the other meet: let them say both. Who adds plainly has "
                  "taken hiss for a steady voltage. The same rule as for the errors of lesson 8.")

order_above_hiss = OrderExercise(
    id="4.20", marks=2, further=True,
    options={"a": "5000 turns that just fill the window", "b": "10 000 turns that just fill the window",
             "c": "5000 turns of thinner wire, with half of the copper's cross-section of (a)",
             "d": "the coil of (a), and the string is twice as fast"},
    right="d > a = b > c",
    slips=(Slip("more turns are better", "b > a", "Twice the turns give twice the signal. What do they give of hiss?"),
           Slip("ohms alone", "a > b", "Four times the ohms are twice the hiss. And what do twice the turns do to the "
                                       "signal?"),
           Slip("equal turns", "a = c", "The turns are equal, and so is the signal. Is the resistance?"),
           Slip("thin wire is hot", "c > a", "More ohms with the same turns: does the signal grow, or the hiss?"),
           Slip("speed hisses", "a = d", "Does a resistor know how fast the string moves?")),
    notes=("Write two factors beside each, relative to (a): that of the signal, and that of the hiss.",
           "The signal goes with turns and speed, the hiss with the root of the resistance. A full window has four "
           "times the resistance for twice the turns.",
           "A coil with three times the turns in the same full window has three times the signal, nine times the "
           "resistance and three times the hiss: no better and no worse."),
    worked="Relative to (a): (b) has twice the signal, four times the resistance and twice the hiss, so nothing is "
           "gained. (c) has the same signal, twice the resistance and 1.4 times the hiss: 3 dB worse. (d) has twice "
           "the signal and the same hiss: 6 dB better. So {order}.",
    teaching_note="It is the window's copper that counts against the coil's own hiss, not the turns: an empty half of "
                  "it costs 3 dB. Against the amplifier's hiss turns do count.")

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
    id="4.7", tolerance=0.03, marks=3, further=True,
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
    id="4.8", further=True,
    rubric=((1, "Electrical: inductance grows with the square of the turns, so treble is lost (or resistance, load)."),
            (1, "Geometrical: thinner wire in the same window, more enamel; or outer turns are longer and link less."),
            (1, "Practical: such wire breaks, winding takes hours, hum grows as well (or the like).")),
    worked="Electrical: 50 000 turns in the same window make 94 H. With the cable's capacitance there is no peak left "
           "in the treble; at 5 kHz the amplifier gets 24 dB less than from the house coil, although the open coil "
           "gives 16 dB more. Geometrical: the copper would have to be 24 µm thick, and the resistance would be 250 "
           "kΩ, as much as the volume control. Practical: wire as thin as that breaks at the least pull, enamel takes "
           "an ever larger share, and hum grows with the turns just as the signal does.",
    teaching_note="\"Louder is always better\" is answered by the lower graph of the third panel.")

TEACHING_NOTE = """
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

EVENING = Evening(
    aim="The voltage of a coil is the rate at which its linkage changes, with a minus; each student has computed one, "
        "and found which way round an induced current flows.",
    on_the_table="A coil of some thousand turns with a joined pair of ends, a meter with its zero in the middle, a rod "
                 "magnet; a steel ring with two coils, if there is one; loudspeakers.",
    stretches=(
        Stretch(minutes=7, what="The opening film and sound; the three quick questions.",
                ask="The string is held down. Why does the meter show nothing?"),
        Stretch(minutes=15, what="Section 1: prediction, panel, the lines of code; the string that cuts nothing, 4.9.",
                ask="Where on the displacement graph is the voltage largest?"),
        Stretch(minutes=17, what="The worked example, s1, the short way for a sine; 4.14 and 4.15, in pairs.",
                ask="What does the string at the very top of its swing give?"),
        Stretch(minutes=13, what="Section 2: prediction, panel, the four clips, 4.10.",
                ask="How often does the linkage fall in one swing?"),
        Stretch(minutes=14, what="Section 3: the four steps with the right hand, 4.12; pole and winding, 4.5; 4.16.",
                ask="Is the flux opposed, or its change?"),
        Stretch(minutes=9, what="Section 4: the table, 4.13; the three votes of the first page once more.",
                ask="Which step is the steepest, and which only the largest?")),
    at_home="4.13 where time was short; 4.1, 4.2, 4.3 and 4.6 to practise. Then sections 5 to 7, which are further: "
            "turns and wire with 4.4 and 4.8, what hisses with 4.19 and 4.20, the function of 4.7 (twenty minutes in "
            "pairs where Python is new), 4.11, the dynamo of 4.17, the transformer of 4.18.")

TO_VOTE = (
    ToVote(
        question="Two coils are side by side. In one of them the current is raised from 1 A to 2 A, and then stays at "
                 "2 A. A minute later a voltmeter across the other coil shows ...",
        options={"a": "a steady voltage, twice that at 1 A", "b": "a steady voltage, the same as at 1 A",
                 "c": "nothing, as at 1 A"}, right="c",
        because="There is twice as much flux, but it does not change any more. Only while the current rose was there a "
                "voltage.",
        twin=ToVote(
            question="A strong magnet and a coil are fixed to one board. A hand carries the board straight across the "
                     "room. (Leave the earth's field out.) On the way a voltmeter on the board, across the coil, "
                     "shows ...",
            options={"a": "nothing", "b": "a steady voltage, larger for a faster hand",
                     "c": "a voltage that grows on the way"}, right="a",
            because="Relative to the magnet the coil is at rest, so the flux through it stays as it is. The law "
                    "asks for a change of that flux, not for motion.")),
    ToVote(
        question="A current in a very long, thin coil is switched on. A wide ring of wire lies round the middle of "
                 "that coil, where its field is inside it alone. While the current rises, the ring has ...",
        options={"a": "no voltage: no field reaches its wire", "b": "a voltage, because the flux through it changes",
                 "c": "a voltage only if the ring moves"}, right="b",
        because="The flux inside the thin coil passes through the ring, and it changes. The law does not ask whether "
                "the wire meets any field.",
        twin=ToVote(
            question="All the flux of a closed steel ring is in the steel, and does not change. A loop of wire round "
                     "one side of it is made twice as wide. Meanwhile its voltage is ...",
            options={"a": "positive, because it links more flux", "b": "negative, because it opposes the flux",
                     "c": "zero, because it links the same flux as before"}, right="c",
            because="The wider loop encloses the same steel, so the same flux, and nothing changes. A larger area "
                    "alone is no change of flux.")),
    ToVote(
        question="One closed ring lies on another. In the lower one a battery drives a current, clockwise as seen "
                 "from above, and it is turned down slowly. Meanwhile the current in the upper ring is ...",
        options={"a": "clockwise", "b": "anticlockwise", "c": "zero: a current that falls induces none"}, right="a",
        because="Lenz: against the change. The flux of the lower ring is being lost, so the upper one makes some in "
                "the same direction, with a current of the same sense. \"Anticlockwise\" opposes the flux: that is the "
                "common mistake.",
        twin=ToVote(
            question="A closed copper ring hangs on a long thread and swings through the gap of a strong horseshoe "
                     "magnet, its plane at right angles to the field. The magnet ...",
            options={"a": "holds it back on the way in, and pushes it on on the way out",
                     "b": "holds it back on the way in, and again on the way out",
                     "c": "does nothing to it, because copper is not magnetic"}, right="b",
            because="On the way in the flux through the ring grows, on the way out it shrinks. The current "
                    "opposes both changes, and so it opposes the motion both times: the swing soon dies out.")))

LESSON = Lesson(
    id="04", title="The coil and Faraday's law", version=1, exercises=(
        small_change, series_loop, closed_surface, shape_of_voltage, touching_the_wire, principle, mean_voltage,
        peak_voltage, four_motions, from_the_swing, scope_reading, sideways_motion, sideways_graph, peak_sideways,
        which_way_round, both_turned, pick_the_graph, which_voltage, table_of_linkages, twice_the_turns,
        wire_resistance, more_and_more, both_hisses, order_above_hiss, why_not_more, own_function, dynamo,
        volts_of_a_turn),
    teaching_note=TEACHING_NOTE, evenings=(EVENING,), to_vote=TO_VOTE)
