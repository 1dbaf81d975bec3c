"""Lesson 05, velocity: model answers, slips with their notes, worked answers, teaching note."""
import math

import numpy as np

from lessons_lib.exercises.declaration import (
    ChoiceExercise,
    CurveAxis,
    CurveExercise,
    Entry,
    EstimateExercise,
    Evening,
    FormulaExercise,
    Given,
    Lesson,
    Near,
    NumberExercise,
    OrderExercise,
    PointsExercise,
    PredictionExercise,
    RecallExercise,
    Signed,
    Slip,
    Step,
    Stretch,
    Symbol,
    TextExercise,
    ToVote,
    Twin,
)

SCALE_LENGTH, STEEL = 0.600, 7850.0     # m, kg/m3: stated in the questions


def mass_per_length(diameter):
    return STEEL * math.pi * diameter ** 2 / 4


def tension_of(frequency, diameter):
    return mass_per_length(diameter) * (2 * SCALE_LENGTH * frequency) ** 2


def peak_speed(force, tension, density):
    return force / (2 * math.sqrt(tension * density))


def corner_runs(x, pluck, pickup, frequency):
    """Velocity in units of F/(2Z) over time *x*: half of the pulled slope runs each way, mirrored at the ends."""
    def slope(place):       # in units of F/T; the two ends are at 0 and at 1
        return (np.abs((place + 1) % 2 - 1) < pluck) - pluck
    way = 2 * frequency * x
    return slope(pickup + way) - slope(pickup - way)


def where_it_is(x, pluck, pickup, frequency):
    """Displacement relative to the one before the release."""
    def shape(place):
        at = (place + 1) % 2 - 1
        near, far = np.minimum(np.abs(at), pluck), np.maximum(np.abs(at), pluck)
        return np.sign(at) * near * (1 - far)
    way = 2 * frequency * x
    return (shape(pickup + way) + shape(pickup - way)) / (2 * shape(pickup))


def two_places_partials(pluck=1 / 4, pickup=1 / 3):
    """Amplitudes of the first five partials of the velocity, relative to that of the first."""
    n = np.arange(1, 6)
    level = np.abs(np.sin(n * math.pi * pluck) * np.sin(n * math.pi * pickup)).round(12) / n
    return dict(zip(("first", "second", "third", "fourth", "fifth"), level / level[0]))


def rms_gain(semitones):
    return 10 * math.log10(2 ** (semitones / 12))


# ---- quick questions -------------------------------------------------------------------------------------------------

flat_flux = ChoiceExercise(
    id="m1", quick=True, right="b",
    options={"a": "at its largest, too", "b": "zero", "c": "the flux times the number of turns"},
    notes={"a": "It is zero: at the top of its curve the flux is large but does not change, and only change makes a "
                "voltage.",
           "b": "Correct: at the top of its curve the flux does not change, and only change makes a voltage.",
           "c": "It is zero: flux times turns is the flux linkage. The voltage is how fast that changes, and at the "
                "top it does not."})

flux_in_magnet = ChoiceExercise(
    id="m2", quick=True, right="c", options={"a": "about half", "b": "about a tenth", "c": "about a thousandth"},
    notes={"a": "It is about a thousandth. The string touches only a small part of the flux, and that part "
                "makes the signal.",
           "b": "It is about a thousandth. The string touches only a small part of the flux, and that part "
                "makes the signal.",
           "c": "Correct: about a tenth of a per cent, and yet this small part makes the whole signal."})

what_fails = RecallExercise(
    id="m3", where="lesson 2",
    sentence="What fails in the comparison: nothing flows, and a constant flux heats nothing; nothing insulates; the "
             "curve of the material is bent, and the material remembers.")

half_a_wave = ChoiceExercise(
    id="s1", quick=True, right="b",
    options={"a": "The two pieces of string hold the force with their tension.",
             "b": "The string holds half a wave in its fundamental.",
             "c": "A wave runs faster on a string that is tighter or lighter."},
    notes={"a": "It is half a wave on the string. No force comes into step 2; it waits for step 5.",
           "b": "Correct: half a wave is as long as the string, so a whole one is twice as long.",
           "c": "It is half a wave on the string. Step 2 knows neither tension nor mass; tight and light come together "
                "in step 3."})

two_passes = ChoiceExercise(
    id="s2", quick=True, further=True, right="c",
    options={"a": "Twice the speed is four times the power.",
             "b": "The shorter the string, the higher its note.",
             "c": "The corner that ends the pulse has run further, by twice the shorter way to the bridge."},
    notes={"a": "It is how long the pulse lasts. The square of the speed comes in with step 3.",
           "b": "It is how long the pulse lasts. Here there is only one string and one note.",
           "c": "Correct: that is how long the string over the pickup moves, and there are two such times in a "
                "period."})

# ---- predictions -----------------------------------------------------------------------------------------------------

octave_up = PredictionExercise(
    id="p1",
    question="The same string is plucked with the same force, open and then at the 12th fret, an octave higher. "
             "Plectrum and pickup stay where they are. The peak of the voltage, and its fundamental:",
    options={"a": "both double: twice the frequency, twice the speed", "b": "both stay the same",
             "c": "the peak stays the same, the fundamental more than doubles",
             "d": "both halve: half the string, half the swing"},
    seen_question="Set the fret to 12, everything else as it was at first. Peak and fundamental of the voltage, "
                  "relative to those of the open string:",
    seen_options={"a": "both about 2", "b": "both 1", "c": "peak 1, fundamental above 2", "d": "both about half"},
    seen="c",
    seen_notes={
        "a": "Look again at the read-out of the peak relative to the open string, at fret 12 with the same force.",
        "b": "That is so for the peak. Look again at the fundamental relative to the open string.",
        "c": "Yes, that is what the panel shows. Look at the pulses: as high as before, but they come twice "
             "as often.",
        "d": "Look again: two read-outs compare with the open string, one for the peak and one for the fundamental."})

nearer_the_bridge = PredictionExercise(
    id="p4",
    question="The string is pulled aside with 1 N at 100 mm from the bridge. Then it is pulled with the same 1 N at "
             "60 mm, where it goes aside only two thirds as far. Once the string over the pickup moves, its speed is, "
             "the second time, ...",
    options={"a": "two thirds as large: it was pulled two thirds as far", "b": "the same",
             "c": "larger: the short end is steeper", "d": "no single number: it grows and falls like a sine"},
    seen_question="Set the time to 1.5 ms. Then pluck at 60 mm in place of 100 mm, with the same force. The speed over "
                  "the pickup ...",
    seen_options={"a": "falls to about two thirds", "b": "does not change", "c": "rises",
                  "d": "is another one at every instant of the pulse"},
    seen="b",
    seen_notes={
        "a": "Look again at the read-out of the velocity, at 1.5 ms, for both places. What falls is how far it was "
             "pulled.",
        "b": "Yes, that is what the panel shows: steeper on one side of the plectrum, and flatter by as much on the "
             "other.",
        "c": "Look again at the read-out of the velocity, at 1.5 ms, for both places. One side is steeper; what of the "
             "other?",
        "d": "Look again at the lower graph: move the time slowly while the string over the pickup moves."})

gap_of_the_comb = PredictionExercise(
    id="p2", further=True,
    question="The pickup is at a quarter of the open string, so it does not hear partial 4, at 349 Hz. The "
             "string is now fretted at the octave. The first partial that the pickup's place misses is ...",
    options={"a": "still partial 4, now at 698 Hz", "b": "partial 2, again at 349 Hz", "c": "partial 8, at 1397 Hz",
             "d": "none: only the open string has such a gap"},
    seen_question="Set the fret to 12 and read the first gap by the pickup's place:",
    seen_options={"a": "698 Hz, partial 4", "b": "349 Hz, partial 2", "c": "1397 Hz, partial 8", "d": "no gap"},
    seen="b",
    seen_notes={
        "a": "Look again at the read-out of the gap, first at fret 0 and then at fret 12.",
        "b": "Yes, that is what the panel shows: the gap stays at its frequency, whatever the fret.",
        "c": "Look again at the read-out of the gap, first at fret 0 and then at fret 12.",
        "d": "Look again: the read-out names a frequency and a partial at every fret."})

double_swing = PredictionExercise(
    id="p3", further=True,
    question="A string swings up and down over its pole as a pure sine. The amplitude goes from 0.3 mm to 0.6 mm. "
             "The second harmonic, as a share of the fundamental, ...",
    options={"a": "stays the same: both double", "b": "doubles", "c": "becomes four times as large",
             "d": "stays zero: a pure motion gives a pure voltage"},
    seen_question="Set the amplitude to 0.3 mm, then to 0.6 mm, and read the second harmonic in per cent. It ...",
    seen_options={"a": "stays the same", "b": "doubles, within a tenth", "c": "becomes about four times as large",
                  "d": "is zero"},
    seen="b",
    seen_notes={
        "a": "Look again at the per cent behind the second harmonic, at 0.3 mm and at 0.6 mm.",
        "b": "Yes, that is what the panel shows. In millivolts it becomes four times as large; the fundamental "
             "doubles.",
        "c": "That is so for the millivolts. Look again at the per cent.",
        "d": "Look again at the read-out of the second harmonic. Is it zero at any amplitude of the slider?"})

which_plane_is_heard = PredictionExercise(
    id="p5", further=True,
    question="String III is plucked at a slant of 45°: it swings as far sideways as up and down, and its two notes are "
             "1.54 Hz apart. What does the level of the pickup's voltage do?",
    options={"a": "it swells and ebbs about three times in two seconds",
             "b": "it falls evenly: no beat at all",
             "c": "it falls fast at first and slowly later, without a beat",
             "d": "it rises before it falls"},
    seen_question="Set the string to III, everything else as it was at first. The level, in the picture, ...",
    seen_options={"a": "swells and ebbs", "b": "is a straight line down to −40 dB",
                  "c": "is steep at first and flat later", "d": "rises before it falls"},
    seen="b",
    seen_notes={
        "a": "Look again at the thick line, with the string set to III and the slant to 45°.",
        "b": "Yes, that is what the panel shows. The string has two notes all the same. Look at what the pickup hears "
             "sideways, and compare with string VI.",
        "c": "Look again at the thick line, with the string set to III: is it steeper in the first second than in the "
             "third?",
        "d": "Look again: where does the thick line begin, and does it rise anywhere?"})

# ---- exercises -------------------------------------------------------------------------------------------------------

STRING = {"F": Symbol("force at release", "N", 0.6, 2.5), "T": Symbol("tension", "N", 62, 85),
          "mass": Symbol("mass per unit length", "g/m", 1.0, 7.0), "L": Symbol("length of the string", "mm", 600, 700),
          "x": Symbol("place of the plectrum, from the bridge", "mm", 60, 100)}

three_steps = FormulaExercise(
    id="5.8", marks=2, symbols=STRING, asked="m/s", answer=lambda F, T, mass: F / (2 * math.sqrt(T * mass)),
    written="F / (2*sqrt(T*mass))",
    slips=(Slip("whole jump", lambda F, T, mass: F / math.sqrt(T * mass),
                "The corner splits into two that run apart. Which part of the slope's jump does each of them carry?"),
           Slip("the wave speed", lambda T, mass: math.sqrt(T / mass),
                "That is how fast a corner runs along the string. How fast does the string behind it drop?"),
           Slip("the slope", lambda F, T: F / (2 * T),
                "That is the slope of the wedge, a plain number. How long does the wedge get in each second?"),
           Slip("quotient for product", lambda F, T, mass: F / (2 * math.sqrt(T / mass)),
                "Multiply step by step: the slope has T below the fraction line, the speed of the corner has its root "
                "above it. What is left?"),
           Slip("the impedance", lambda T, mass: math.sqrt(T * mass),
                "That is a force for each speed, in kg/s. Which force is it here, and what do you divide by what?"),
           Slip("how far", lambda F, T, L, x: F * x * (L - x) / (L * T),
                "That is how far the plectrum pulls the string aside. The question is how fast the string moves."),
           Slip("one sine", lambda F, T, mass, L, x: math.pi * F * x * (L - x) / (L ** 2 * math.sqrt(T * mass)),
                "This takes the whole motion for one sine. The panel shows pulses with a flat top: use the steps.")),
    notes=("How high is the grey wedge at the pickup, a time t after the corner has passed? Divide by t.",
           "A wedge that opens by so much for each metre, times the metres that its corner runs in a second. Letters "
           "that are in neither of the two stay out.",
           "A wedge opens by 0.02 for each metre, and its corner runs at 100 m/s: the string drops at 0.02 × 100 m/s "
           "= 2 m/s."),
    worked="The wedge opens by F/(2T) for each metre. Its corner runs √(T/μ) metres in a second. The product is "
           "F/(2T) × √(T/μ) = F/(2√(Tμ)). Neither L nor x is in one of the two.",
    teaching_note="Two letters too many are there on purpose. Ask of each why it stays out: the corner has the same "
                  "jump wherever the plectrum was (step 1), and knows nothing of the ends before it has met one.")

tension = NumberExercise(
    id="5.1", further=True, unit="N", tolerance=0.02, size=(6, 450), marks=2,
    given={"frequency": Given("note of the open string", unit="Hz", low=196, high=350, step=1),
           "diameter": Given("diameter of the wire", unit="mm", low=0.25, high=0.33, step=0.01)},
    answer=tension_of,
    slips=(Slip("one wave on the string", lambda frequency, diameter: tension_of(frequency, diameter) / 4,
                "How much of a wave fits on the string in its fundamental: a whole one, or half of one?"),
           Slip("diameter as radius", lambda frequency, diameter: 4 * tension_of(frequency, diameter),
                "Look again at the length you squared for the cross-section: is it the wire's radius or its diameter?"),
           Slip("speed not squared", lambda frequency, diameter:
                mass_per_length(diameter) * 2 * SCALE_LENGTH * frequency,
                "From c = √(T/μ): what happens to the root when you solve for T?"),
           Slip("the wave speed", lambda frequency: 2 * SCALE_LENGTH * frequency,
                "That is the speed of the wave, in m/s. Which tension gives it on this wire?")),
    common=("square for circle", "pi", "prefix", "million"),
    steps={"mass": Step("g/m", mass_per_length), "speed": Step("m/s", lambda frequency: 2 * SCALE_LENGTH * frequency)},
    notes=("Two steps: the mass of one metre of the wire, then the speed that the wave needs to give this note.",
           "The fundamental is half a wave long: c = 2 L f. And c = √(T/μ), so T = μ c²."),
    twin=Twin({"frequency": 150, "diameter": 0.40},
              "Another wire, {diameter}, has {mass}. For {frequency} on 600 mm the wave runs at "
              "{speed}. So T = 9.865·10⁻⁴ × 180² N = {answer}."),
    worked="A wire of {diameter} has {mass}. For {frequency} the wave must run at {speed}. T = μ c² = "
           "{answer}.",
    teaching_note="Compare with the house strings: 66 to 83 N. Thick wire tuned high comes out above 110 N: ask "
                  "what the neck says.")

pulse_height = NumberExercise(
    id="5.2", further=True, unit="m/s", tolerance=0.02, size=(0.2, 12),
    given={"force": Given("force at release", unit="N", low=0.6, high=2.5, step=0.1),
           "tension": Given("tension", unit="N", low=62, high=85, step=1),
           "density": Given("mass per unit length", unit="g/m", low=0.4, high=7.0, step=0.1)},
    answer=peak_speed,
    slips=(Slip("whole step", lambda force, tension, density: 2 * peak_speed(force, tension, density),
                "The corner splits into two that run apart. Which part of the slope's jump does each of them carry?"),
           Slip("root lost", lambda force, tension, density: force / (2 * tension * density),
                "Compare the units: N times kg/m is (kg/s)². What turns it into kg/s?"),
           Slip("grams", lambda force, tension, density: peak_speed(force, tension, 1e3 * density),
                "A factor of √1000: the mass per unit length is under a root. In which unit did you put it in?"),
           Slip("the wave speed", lambda tension, density: math.sqrt(tension / density),
                "That is the speed with which the wave runs along the string. The question is how fast the string "
                "moves up and down."),
           Slip("quotient for product", lambda force, tension, density: force / (2 * math.sqrt(tension / density)),
                "Z holds tension and mass per unit length. Is it the root of their product or of their quotient?"),
           Slip("the impedance", lambda tension, density: math.sqrt(tension * density),
                "That is Z, in kg/s. Where does the force come in?")),
    common=("prefix",),
    steps={"Z": Step("kg/s", lambda tension, density: math.sqrt(tension * density))},
    notes=("First the string's impedance Z = √(T μ), with μ in kg/m. Then the peak speed.",
           "Each of the two corners carries half of the slope's jump: F/(2Z). Neither length nor note is in it."),
    twin=Twin({"force": 3.0, "tension": 90, "density": 10.0},
              "Another string: {tension} and {density} give Z = √(90 × 0.010) = {Z}. With {force} the peak is 3.0/(2 × "
              "0.9487) m/s = {answer}."),
    worked="Z = √(T μ) = {Z}. F/(2Z) with {force} is {answer}.",
    teaching_note="Ask before the number: which of length, note and place of the pickup does the question leave "
                  "out, and why?")

QUARTER = 1 / 4        # of the length: where the plectrum of 5.9 is


def five_curves(x, force, impedance, frequency, pickup):
    top = force / (2 * impedance)
    down_first = top * corner_runs(x, QUARTER, pickup, frequency)
    return {"as asked": down_first, "the whole jump": 2 * down_first, "up first": -down_first,
            "plucked in the middle": top * corner_runs(x, 1 / 2, pickup, frequency),
            "where it is": top * where_it_is(x, QUARTER, pickup, frequency)}


at_a_quarter = CurveExercise(
    id="5.9", marks=2, x=CurveAxis("time", "ms", 2, 0, 10), y=CurveAxis("velocity", "m/s", 2),
    given={"force": Given("force at release", unit="N", low=0.8, high=2.4, step=0.1),
           "impedance": Given("impedance of the string", unit="kg/s", low=0.30, high=0.80, step=0.02),
           "frequency": Given("note of the string", unit="Hz", low=110, high=145, step=5),
           "pickup": Given("pickup, share of the length from the bridge", unit="1", low=0.14, high=0.18, step=0.01)},
    curves=five_curves, right="as asked",
    notes={"as asked": "Correct: the height is F/(2Z), the first pulse goes down, and it comes early, because the "
                       "pickup is near the plectrum.",
           "the whole jump": "The pulses come when they should. Now compute the height: which part of the jump does a "
                             "corner carry?",
           "up first": "The string was pulled up and held. Which way does it go when it is let go?",
           "plucked in the middle": "Height and sign are right. When does the first corner arrive? A corner needs half "
                                    "a period for the whole length. How far is it from plectrum to pickup?",
           "where it is": "This has its largest value while the string is still held aside. How fast is the string "
                          "then?"},
    worked="F/(2Z) with {force} and {impedance} is the height of each pulse. The string was pulled up, so the first "
           "pulse goes down. A corner needs half a period of {frequency} for the whole length; from a quarter to the "
           "share {pickup} it is not far, so the first pulse begins early in the period. The second one, upwards, ends "
           "as long before the period does. Both are in {letter}.",
    teaching_note="Three things decide: sign, height, time. Let pairs name, for each wrong curve, the one thing that "
                  "is wrong with it. With the plectrum in the middle the pulses are evenly spaced; ask why.")

five_plucks = OrderExercise(
    id="5.10", marks=2, right="c = e > a = b > d",
    options={"a": "Nothing is changed.", "b": "The string is fretted at the octave.",
             "c": "The string is tuned down until its tension is a quarter.",
             "d": "Another string is there, four times as heavy for each metre, at the same tension.",
             "e": "The string is pulled aside twice as far."},
    slips=(Slip("from the other end", "d > a = b > c = e", "Which end of the order comes first in this question?"),
           Slip("an octave is faster", "b > a", "It comes back twice as often. Is the length in F/(2Z)?"),
           Slip("an octave goes less far", "a > b", "It goes less far aside. Is the length in F/(2Z)?"),
           Slip("slack is slow", "a > c",
                "The corner does run more slowly. How steep must the slack string be to hold the same force?"),
           Slip("tension drops out", "a = c", "The corner runs half as fast. And how large is the jump F/T now?"),
           Slip("no root", "c > e", "The tension is in Z under a root. What becomes of Z with a quarter of it?"),
           Slip("less than twice", "e > c", "What becomes of Z with a quarter of the tension, and of F/(2Z)?"),
           Slip("mass drops out", "a = d", "The slopes are the same. Does the corner run as fast on the heavy string?"),
           Slip("heavy moves more", "d > a", "Is Z, which holds the mass, above or below the fraction line?"),
           Slip("distance drops out", "a = e",
                "The place and the string are the same. Which force does twice the distance take?")),
    notes=("For each of the five ask two things: what is the force, and what is Z?",
           "F/(2Z) with Z = √(T μ). The slopes of a string that is held are proportional to the force.",
           "Nine times the mass for each metre: Z is three times as large; with the same force the speed is a third."),
    worked="With (a) as 1: at the octave F and Z stay, 1. A quarter of the tension halves Z, 2. Four times the mass "
           "for each metre doubles Z, 1/2. Twice as far at the same place takes twice the force, 2. So {order}.",
    teaching_note="(c) divides the class: the wave gets slower and the string faster. Draw the slack string, held by "
                  "the same force: four times as steep.")

from_a_blur = EstimateExercise(
    id="5.11", unit="m/s", factor=3, size=(0.002, 5000), marks=1, answer=lambda: 1.2,
    because="it swings 1.5 mm to each side like a sine, so 2 pi f a is about 0.8 m/s",
    slips=(Slip("the wave speed", lambda: 105.0,
                "That is how fast a corner runs along the string. How far does the string itself go in one swing?"),
           Slip("millimetres", lambda: 1200.0, "A factor of a thousand: did the width go in as mm or as m?")),
    notes=("How far does the string go in a whole period, there and back, and how long is a period?",
           "A mean speed is a distance divided by a time. The peak of a sine is π/2 times its mean; pulses have more."),
    twin=Twin({}, "A blur 10 mm wide at 20 Hz: there and back are 20 mm in 50 ms, so 0.4 m/s on the average. The "
                  "fastest is somewhat more, about 0.6 m/s for a sine."),
    worked="There and back are 6 mm in 1/87.3 s: 0.52 m/s on the average. As a sine, 2π × 87.3 Hz × 1.5 mm = "
           "0.82 m/s. The ideal string of the panels, which rests between its pulses, reaches 1.6 m/s with this blur. "
           "About {answer} is between the two: the speed of somebody walking.",
    teaching_note="The surprise is how slow it is: a walk, while the wave runs at 105 m/s. Any of the three ways to "
                  "think is worth the mark; ask for the sentence, not for the digits.")

SEEN = {"h": Symbol("distance that the string is pulled aside", "mm", 1, 3), "x": STRING["x"], "L": STRING["L"],
        "f": Symbol("note of the string", "Hz", 80, 200), "mass": STRING["mass"]}

from_what_is_seen = FormulaExercise(
    id="5.12", marks=2, further=True, symbols=SEEN, asked="m/s",
    answer=lambda h, x, L, f: h * f * L ** 2 / (x * (L - x)), written="h*f*L^2 / (x*(L - x))",
    slips=(Slip("one slope", lambda h, x, L, f: h * f * L / x,
                "That is the slope on the bridge's side alone. What does the other piece add to the jump?"),
           Slip("whole jump", lambda h, x, L, f: 2 * h * f * L ** 2 / (x * (L - x)),
                "The corner splits into two. Which part of the jump does each of them carry?"),
           Slip("one wave on the string", lambda h, x, L, f: h * f * L ** 2 / (2 * x * (L - x)),
                "A factor of two: does the string hold a whole wave in its fundamental, or half of one?"),
           Slip("one sine", lambda h, f: 2 * math.pi * f * h,
                "That is a string that swings as one sine. Here a corner passes, and the top of the pulse is flat."),
           Slip("the wave speed", lambda L, f: 2 * L * f,
                "That is how fast the corner runs. What does the slope of the wedge make of it?")),
    notes=("How steep are the two pieces of the string while it is held? You know h and both lengths.",
           "Half of the jump of the slope, times the speed of the corner; and c = 2 L f.",
           "Pulled 3 mm aside at 100 mm of 400 mm: slopes 0.03 and 0.01, a jump of 0.04, half of it 0.02. At 100 Hz "
           "the corner runs at 80 m/s: 1.6 m/s."),
    worked="The slopes are h/x and h/(L − x), the jump is h L/(x (L − x)). Half of it times c = 2 L f is "
           "h f L²/(x (L − x)). The mass is not needed: note and length say how fast the corner runs.",
    teaching_note="The same speed as F/(2Z), from what one can see and hear. At the same shares of the string it is "
                  "proportional to h f: that is the 6 dB per octave of section 2.")

how_often = NumberExercise(
    id="5.4", unit="dB", tolerance=0.2, size=(0.9, 3.2), marks=3, further=True,
    given={"semitones": Given("semitones up", unit="1", low=5, high=10, step=1),
           "pluck": Given("plucked, from the bridge", unit="mm", low=60, high=100, step=5),
           "pickup": Given("pickup, from the bridge", unit="mm", low=120, high=150, step=5)},
    answer=rms_gain,
    slips=(Slip("peak", lambda: 0.0, "The peak is the same. How often does the pulse come, at the higher note?"),
           Slip("amplitude twice", lambda semitones: 2 * rms_gain(semitones),
                "Twice as often is twice the power, not twice the voltage. Which logarithm belongs to power?"),
           Slip("sign", lambda semitones: -rms_gain(semitones),
                "Which note is the reference, the lower one or the higher one?")),
    steps={"ratio": Step("1", lambda semitones: 2 ** (semitones / 12)),
           "share": Step("%", lambda pluck: 2 * pluck / SCALE_LENGTH)},
    notes=("For which share of each period is the velocity not zero? What becomes of that share when the string "
           "gets shorter?",
           "The pulse keeps height and length and comes f times a second, so the power is proportional to f: "
           "10 log₁₀ of the ratio."),
    twin=Twin({"semitones": 14, "pluck": 40, "pickup": 110},
              "Another case: {semitones} semitones up are {ratio} times the frequency, so the pulses come {ratio} "
              "times as often. 10 log₁₀ of that is {answer}."),
    worked="On every fret a pulse lasts as long as the wave takes for 2 × {pluck}; the two pulses of a period fill "
           "{share} of the open string's period. They come {ratio} times as often, so the power is {ratio} times as "
           "large: {answer}.",
    teaching_note="The places matter only in that together they are less than the fretted string (here both are in "
                  "its half nearer the bridge), and the nearer one sets the pulse. Two numbers too many are there on "
                  "purpose.")

two_nodes = PointsExercise(
    id="5.13", marks=2, further=True,
    entries={name: Entry(f"{name} partial, relative to the first", unit="%", low=0, high=100)
             for name in ("second", "third", "fourth", "fifth")},
    right=lambda: two_places_partials(),
    features=(Signed("third", "Where does the third partial rest, and what is there?", zero=3),
              Signed("fourth", "Where does the fourth partial rest, and what is there?", zero=3),
              Near("second", "The 1/n alone makes 50 %. What do the sines of the two places do to partials 1 and 2?",
                   factor=1.25),
              Near("fifth", "The sines of partial 5 are those of partial 1, but for their signs. What is left?",
                   factor=1.5)),
    worked="Partial 3 has a node at one third, where the pickup is, and partial 4 has one at a quarter, where the "
           "plectrum is. Second: sin(2π/3) = sin(π/3), and sin(2π/4)/sin(π/4) = √2, so √2/2. Fifth: both sines as "
           "for partial 1, but for the sign, so 1/5. {points}.",
    teaching_note="Four sines known from a drawing of the circle are enough; no calculator. Then set the panel to 150 "
                  "and 200 mm and look. Ask next for the two places that remove partials 2 and 3.")

second_harmonic = NumberExercise(
    id="5.6", unit="%", tolerance=0.03, size=(1.5, 30), further=True,
    given={"amplitude": Given("amplitude of the string", unit="mm", low=0.20, high=0.80, step=0.02),
           "delta": Given("decay length of the fitted law", unit="mm", low=2.5, high=3.4, step=0.05)},
    answer=lambda amplitude, delta: amplitude / (2 * delta),
    slips=(Slip("whole amplitude", lambda amplitude, delta: amplitude / delta,
                "sin × cos of one angle is half a sine of twice the angle. Where did the half go?"),
           Slip("in the flux", lambda amplitude, delta: amplitude / (4 * delta),
                "That is the share in the flux. What does the rate of change do to a partial of twice the frequency?"),
           Slip("upside down", lambda amplitude, delta: delta / (2 * amplitude),
                "A larger swing bends more: does the amplitude belong above or below the fraction line?")),
    common=("hundred",),
    steps={"share": Step("1", lambda amplitude, delta: amplitude / delta)},
    notes=("Put u = a sin ωt into S(1 − u/δ) and multiply by the velocity a ω cos ωt.",
           "The product of sine and cosine is half a sine of twice the frequency: the second harmonic is a/(2δ)."),
    twin=Twin({"amplitude": 1.00, "delta": 4.00},
              "Another string: a/δ = {amplitude} / {delta} = {share}. Half of it is 0.125, so {answer}."),
    worked="a/δ = {share}; half of it is {answer}.",
    teaching_note="The panel does the same with the computed map: at 2.5 mm it is within a few per cent of the law.")

by_what_is_it_held = OrderExercise(
    id="5.14", marks=1, further=True, right="a > b = d > c",
    options={"a": "The diaphragm is held back by its stiffness alone, as by a spring: the same push moves it equally "
                  "far at both notes.",
             "b": "The diaphragm is held back by friction alone: the same push gives it the same speed.",
             "c": "The diaphragm is held back by its mass alone: the same push gives it the same acceleration.",
             "d": "No microphone, but the string of section 1: same force, and the peak is taken."},
    slips=(Slip("from the other end", "c > b = d > a", "Which end of the order comes first in this question?"),
           Slip("equally far, equally loud", "a = b",
                "The voltage follows the speed. Equally far, twice as often: what does that do to the speed?"),
           Slip("mass does not matter", "b = c",
                "With the same acceleration a swing that takes half the time gains less speed. How much less?"),
           Slip("heavier is louder", "c > b",
                "The same acceleration for half as long: is the speed larger, or smaller?"),
           Slip("the string is louder", "d > b",
                "Of the string the peak is asked. What does it do from fret to fret?")),
    notes=("First the speed at both notes, then the voltage.",
           "For a sine the speed is 2π f times the distance, and the acceleration 2π f times the speed.",
           "Equally far at 100 Hz and at 300 Hz: three times the speed. The same acceleration: a third of the speed."),
    worked="B and l are the same at both notes, so the ratio of the voltages is that of the speeds. Stiffness: 2. "
           "Friction: 1. Mass: 1/2. The peak of the string with the same force: 1. So {order}.",
    teaching_note="It is the lesson's question once more: *which* thing is the same? Only friction makes the response "
                  "flat, and so the makers pay for a brake.")

PLANES = {"f": Symbol("frequency of the string without the magnet", "Hz", 80, 350),
          "T": Symbol("tension", "N", 62, 85), "L": Symbol("length of the string", "mm", 600, 700),
          "up": Symbol("strength of the negative spring for motion up and down", "N/m", 8, 30),
          "side": Symbol("stiffness of the ordinary spring for motion sideways", "N/m", 2, 7),
          "w": Symbol("swing over the pickup as a share of that at the middle", "1", 0.5, 0.9)}


def beat(f, T, L, up, side, w):
    return f * (up + side) * L * w ** 2 / (math.pi ** 2 * T)


how_often_it_beats = FormulaExercise(
    id="5.15", marks=2, further=True, symbols=PLANES, asked="Hz", answer=beat,
    written="f*(up + side)*L*w^2 / (pi^2*T)",
    slips=(Slip("difference of the springs", lambda f, T, L, up, side, w: beat(f, T, L, up, -side, w),
                "One spring takes the note down, the other takes it up. How far apart are the two then?"),
           Slip("one plane alone", lambda f, T, L, up, w: beat(f, T, L, up, 0.0, w),
                "That is how far the note of motion up and down falls. Where is the note of motion sideways?"),
           Slip("other plane alone", lambda f, T, L, side, w: beat(f, T, L, 0.0, side, w),
                "That is how far the note of motion sideways rises. Where is the note of motion up and down?"),
           Slip("swing not squared", lambda f, T, L, up, side, w: beat(f, T, L, up, side, w) / w,
                "The energy of a spring goes with the square of the way. With which power does the swing come in?"),
           Slip("shares, not hertz", lambda T, L, up, side, w: beat(1.0, T, L, up, side, w),
                "That is by which share of itself the note changes. How many hertz are that?"),
           Slip("mean shift", lambda f, T, L, up, side, w: beat(f, T, L, up, side, w) / 2,
                "That is the distance of each note from the middle between the two. How far are they apart?")),
    notes=("Where is each of the two notes, relative to the note without the magnet?",
           "Lesson 3 has the change of one note, as a share of the frequency. Take it once for each plane, with its "
           "sign.",
           "One note 3 Hz below and the other 1 Hz above the one without the magnet beat 4 times a second."),
    worked="Up and down the note changes by −f × up × L w²/(π² T), sideways by +f × side × L w²/(π² T). The distance "
           "of the two is the sum of both without their signs: f (up + side) L w²/(π² T).",
    teaching_note="The sign is the exercise: two springs of opposite kind part the notes. Put in string VI at 2.5 mm "
                  "(16.0 and 4.5 N/m, w² = 1/2, 79.3 N, 0.600 m, 87.3 Hz): 0.69 Hz, as the panel says.")


def equally_loud(fast, slow, gap):
    return gap / (20 / fast - 20 / slow)


slow_one_left = NumberExercise(
    id="5.16", unit="s", tolerance=0.03, size=(0.3, 5), marks=2, further=True,
    given={"fast": Given("time in which the fast note falls by 20 dB", unit="s", low=1.0, high=2.0, step=0.1),
           "slow": Given("time in which the slow note falls by 20 dB", unit="s", low=3.0, high=5.0, step=0.1),
           "gap": Given("how far the slow note is below the fast one at first", unit="dB", low=8, high=18, step=1)},
    answer=equally_loud,
    slips=(Slip("the slow one does not fall", lambda fast, gap: gap / (20 / fast),
                "Both notes fall in the meantime. By how much does the gap shrink in a second?"),
           Slip("sum of both", lambda fast, slow, gap: gap / (20 / fast + 20 / slow),
                "Both fall. Does the gap then shrink by the sum or by the difference of what they lose?"),
           Slip("difference of the times", lambda fast, slow, gap: gap / 20 * (slow - fast),
                "What is subtracted is what each loses in a second, in dB, and not the two times."),
           Slip("when the slow one is down", lambda slow, gap: gap / (20 / slow),
                "That is when the slow note has fallen by as much as the gap. What does the other one do?")),
    notes=("How many dB does each note lose in a second?",
           "Two straight lines in a picture of the level over the time: the gap shrinks by the difference of their "
           "slopes each second."),
    steps={"loss": Step("dB", lambda fast: 20 / fast), "loss2": Step("dB", lambda slow: 20 / slow)},
    twin=Twin({"fast": 0.5, "slow": 2.5, "gap": 24},
              "Another pluck: the fast note loses {loss} a second, the slow one {loss2}. The gap of {gap} shrinks by "
              "32 dB a second, so they are equally strong after {answer}."),
    worked="The fast note loses {loss} a second, the slow one {loss2}. The gap of {gap} shrinks by the difference each "
           "second, so both are equally strong after {answer}. There the beats are deepest: where the two cancel, "
           "nothing is left. Later the slow note is heard almost alone.",
    teaching_note="Where the two lines cross, the beats are deepest. Ask what the ear takes for \"the\" sustain: the "
                  "first slope or the last.")

web_page = TextExercise(
    id="5.7",
    rubric=((1, "First half: true only far below the resonance (a cable moves it down), for a small swing."),
            (1, "Second half: true of the peak, one string, one force; with a number for what is not (RMS +3 dB).")),
    worked="\"No frequency response of its own\": true if the notes are far below the resonance of coil and "
           "cable; then voltage is velocity times a factor without any frequency in it, as long as the swing is "
           "small. \"Because the velocity is always the same\": true if the same string is let go with the same force "
           "and only the peak is meant. For an octave the RMS grows by 3 dB and the fundamental by a factor of 2.45 "
           "with our places; and if the string is pulled equally far at the same share of its length, the peak "
           "doubles. And even where it is the same, that is the string's doing, not the pickup's: the word "
           "\"because\" is wrong.",
    teaching_note="The best answers notice that the \"because\" joins two things that have nothing to do with "
                  "each other.")

TEACHING_NOTE = """
**Demonstration with real parts.** A steel string instrument with a pickup, a sound card or an oscilloscope, and a spool
of thin copper wire. Lay a loop of the wire round the string, pull gently until it breaks: that is the same force every
time (common practice). About half a newton for each strand of the house wire, and a loop has two strands: an estimate
from the strength of soft copper, so try it on a scale. Do it open and at the octave, same place. The first pulse is
about equally high, and there are twice as many. Then pull by eye equally far: the octave is clearly louder. Cautions:
safety glasses on, a string under tension whips when it breaks; broken wire is sharp; set the amplifier low before
anything is plugged in, and leave its case closed.

**What to ask.** "Which of peak, RMS and fundamental does a level meter show, and which does the ear care about?" "What
exactly does your hand keep equal when you play up the neck?" "Where in F/(2Z) is the pickup?"

**What goes wrong.** "Higher, so faster, so louder", and the opposite, "it never depends on frequency": both are right
for one rule and wrong for another. The wave speed taken for the speed of the string. Displacement's 1/n² in place of
velocity's 1/n. The piece of string between the two corners taken for level: it is straight, and its slope is the mean
of the two old ones, each with its sign. The comb taken for a property of the note: it stays at its frequency. "Slack,
so slow" in 5.10: the wave is, the string is not. The turns counted again: in this lesson S holds all of them.

**Say it openly**: the ideal string has no edges rounded by a finger, no stiffness and no decay. The table of section 6
says what each of them costs; the widths of finger and pickup in it are assumed. And 1 N is no small swing: the panel's
voltage is S at rest times the velocity.
"""

EVENING = Evening(
    aim="Each student has seen why the peak speed is F/(2Z) with neither length nor place in it, has put the formula "
        "together, and can say for whom \"the output does not depend on frequency\" is true.",
    on_the_table="A steel string instrument with a pickup, a sound card or an oscilloscope, a spool of thin copper "
                 "wire, safety glasses; loudspeakers. A long soft rope or spring on the floor shows a corner running.",
    stretches=(
        Stretch(minutes=7, what="The opening sound; the three quick questions.",
                ask="Which of the two gets softer up the neck, and why not both?"),
        Stretch(minutes=10, what="Section 1: prediction and panel over the frets; the loop of wire, at the table.",
                ask="Which of peak, RMS and fundamental does a level meter show?"),
        Stretch(minutes=15, what="Prediction and panel of the release; the three steps, read aloud with the time "
                                 "slider; then 5.8 in pairs.",
                ask="One side gets steeper. What does the other side do, and why by as much?"),
        Stretch(minutes=9, what="The worked example; 5.9: first alone, then pairs name what is wrong with each curve.",
                ask="Where in F/(2Z) is the pickup?"),
        Stretch(minutes=13, what="Section 2: the table line by line; 5.10, and the estimate 5.11 by everyone alone.",
                ask="What exactly does your hand keep equal when you play up the neck?"),
        Stretch(minutes=5, what="Section 6: the six conditions, and the sound.",
                ask="Which of the six is broken in your own playing?"),
        Stretch(minutes=12, what="The open question 5.7: aloud in pairs first, then in writing.",
                ask="Which word of the sentence joins two things that have nothing to do with each other?")),
    at_home="What is further: numbers for 5.1 and 5.2, the formula 5.12, the RMS (section 3) with 5.4, the partials "
            "(section 4) with 5.13, the curved map (section 5) with 5.6, the microphone (section 7) with 5.14, the two "
            "planes (section 8) with 5.15 and 5.16.")

TO_VOTE = (
    ToVote(
        question="Two instruments have strings of one wire under one tension, one of them twice as long. Both are "
                 "plucked 60 mm from the bridge with the same force, and have the same pickup at 80 mm. The peak of "
                 "the voltage of the long one is ...",
        options={"a": "twice as large", "b": "the same", "c": "half as large"}, right="b",
        because="The peak speed is F/(2Z): force, tension, mass per metre, and no length. On the long one the pulses "
                "come half as often, and that is seen in the RMS, not in the peak.",
        twin=ToVote(
            question="The same string is now pulled equally *far* each time, at the same share of its length. An "
                     "octave higher, the peak of the voltage is ...",
            options={"a": "the same", "b": "half as large", "c": "twice as large"}, right="c",
            because="A string of half the length needs twice the force to go equally far, and the peak follows the "
                    "force. \"The same\" is the answer for equal force.")),
    ToVote(
        question="A string is held aside at one point and let go. Another point, between plectrum and nut, ...",
        options={"a": "starts at once, slowly, and gets faster", "b": "starts at once at full speed",
                 "c": "waits, and then moves at full speed"}, right="c",
        because="Nothing reaches the point before the corner does. When the corner has passed, the point moves by "
                "equal distances in equal times. The smooth start belongs to a string that swings as one single sine.",
        twin=ToVote(
            question="The pickup is moved twice as far from the plectrum, along the same string; both of its places "
                     "are nearer to the bridge than the plectrum. The pulse of the same pluck then ...",
            options={"a": "comes later and is as high as before", "b": "comes later and is half as high",
                     "c": "comes at the same time and is half as high"}, right="a",
            because="The corner has further to run, so it is later. It brings the same jump of the slope, and the "
                    "ideal string takes nothing from it on the way.")),
    ToVote(
        question="Two strings have the same tension; one is four times as heavy per metre. Both are plucked with the "
                 "same force. The peak speed of the heavy one, relative to the light one, is ...",
        options={"a": "half", "b": "a quarter", "c": "the same: the force and the tension are the same"}, right="a",
        because="F/(2Z) with Z = √(T μ): four times the mass per metre is twice the Z. The slopes are the same on "
                "both, but the corner runs half as fast on the heavy one.",
        twin=ToVote(
            question="One string is tuned up until its tension is four times as large. It is plucked with the same "
                     "force as before. Its peak speed, relative to before, is ...",
            options={"a": "twice as large: the wave runs twice as fast", "b": "half as large", "c": "the same"},
            right="b",
            because="The wave does run twice as fast, but the slopes that hold the force are only a quarter. Twice a "
                    "quarter is half, as F/(2Z) says.")))

LESSON = Lesson(
    id="05", title="Velocity", version=1, exercises=(
        flat_flux, flux_in_magnet, what_fails, octave_up, nearer_the_bridge, three_steps, half_a_wave, tension,
        pulse_height, at_a_quarter, five_plucks, from_a_blur, from_what_is_seen, two_passes, how_often, gap_of_the_comb,
        two_nodes, double_swing, second_harmonic, by_what_is_it_held, which_plane_is_heard, how_often_it_beats,
        slow_one_left, web_page),
    teaching_note=TEACHING_NOTE, evenings=(EVENING,), to_vote=TO_VOTE)
