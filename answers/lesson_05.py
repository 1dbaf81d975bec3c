"""Lesson 05, velocity: model answers, slips with their notes, worked answers, teaching note."""
import math

from lessons_lib.exercises.declaration import (
    ChoiceExercise,
    Evening,
    Given,
    Lesson,
    NumberExercise,
    PredictionExercise,
    Slip,
    Step,
    Stretch,
    TextExercise,
    ToVote,
    Twin,
)

SCALE_LENGTH, STEEL = 0.600, 7850.0     # m, kg/m3: stated in the questions

TWO_PLACES = "Two places matter: where the string is plucked and where it is heard. Is there one sine ratio for each?"


def mass_per_length(diameter):
    return STEEL * math.pi * diameter ** 2 / 4


def tension_of(frequency, diameter):
    return mass_per_length(diameter) * (2 * SCALE_LENGTH * frequency) ** 2


def peak_speed(force, tension, density):
    return force / (2 * math.sqrt(tension * density))


def sine_ratio(place, n=3):
    return math.sin(n * math.pi * place) / math.sin(math.pi * place)


def third_over_first(pluck, pickup):
    return sine_ratio(pluck) * sine_ratio(pickup) / 3


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

in_a_row = ChoiceExercise(
    id="m3", quick=True, right="a",
    options={"a": "they add", "b": "the smaller one counts", "c": "the larger one counts"},
    notes={"a": "Correct: one flux passes both, one after the other.",
           "b": "They add: one flux passes both, one after the other. In parallel the smaller one would count "
                "most.",
           "c": "They add: one flux passes both. If one is far larger, the sum is near it, but the other still "
                "counts."})

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
    id="s2", quick=True, right="c",
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

# ---- exercises -------------------------------------------------------------------------------------------------------

tension = NumberExercise(
    id="5.1", unit="N", tolerance=0.02, size=(6, 450), marks=2,
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
    id="5.2", unit="m/s", tolerance=0.02, size=(0.2, 12),
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

same_distance = NumberExercise(
    id="5.3", unit="1", tolerance=0.02, size=(1.05, 2.5), further=True,
    given={"semitones": Given("semitones up", unit="1", low=3, high=10, step=1)},
    answer=lambda semitones: 2 ** (semitones / 12),
    slips=(Slip("same force", lambda: 1.0,
                "That is the answer for equal force. Which force pulls a shorter string equally far?"),
           Slip("upside down", lambda semitones: 2 ** (-semitones / 12),
                "The question asks for the higher note divided by the lower one."),
           Slip("squared", lambda semitones: 2 ** (semitones / 6),
                "One factor of the frequency too many: by how many octaves did the note rise?"),
           Slip("root", lambda semitones: 2 ** (semitones / 24),
                "That is the answer for equal energy. Here the distance is the same.")),
    notes=("How long is the string at this fret, compared with before? And which force pulls it equally far aside?",
           "At the same share of the string, the force for one distance is proportional to 1/L, as the frequency is."),
    twin=Twin({"semitones": 16},
              "Another fret: {semitones} up. The string is 2^(−16/12) as long, so the same distance takes 2^(16/12) "
              "times the force: {answer} times the peak."),
    worked="The string is shorter by the factor 2^({semitones}/12). The same distance at the same share of it takes "
           "that much more force, so the peak grows by the factor {answer}.",
    teaching_note="Let half of the class solve it for equal force. Both are right; the question decides.")

how_often = NumberExercise(
    id="5.4", unit="dB", tolerance=0.2, size=(0.9, 3.2), marks=3,
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
    teaching_note="The places matter only in that both are in the half of the fretted string nearer the bridge, and "
                  "the nearer one sets the pulse. Two numbers too many are there on purpose.")

third_partial = NumberExercise(
    id="5.5", unit="1", tolerance=0.03, size=(0.5, 2.2), marks=2, further=True,
    given={"pluck": Given("plucked, share of the string", unit="1", low=0.10, high=0.17, step=0.005),
           "pickup": Given("pickup, share of the string", unit="1", low=0.18, high=0.24, step=0.005)},
    answer=third_over_first,
    slips=(Slip("displacement", lambda pluck, pickup: third_over_first(pluck, pickup) / 3,
                "Displacement falls as 1/n². Does the coil hear displacement?"),
           Slip("no 1/n", lambda pluck, pickup: 3 * third_over_first(pluck, pickup),
                "The sines are there. What does the partial's own number do to it?"),
           Slip("pluck alone", lambda pluck: sine_ratio(pluck) / 3, TWO_PLACES),
           Slip("pickup alone", lambda pickup: sine_ratio(pickup) / 3, TWO_PLACES),
           Slip("1/n alone", lambda: 1 / 3, "That is 1/n alone. Which two sines belong to it?"),
           Slip("1/n² alone", lambda: 1 / 9, "That is 1/n², of the displacement, and without its sines."),
           Slip("degrees", lambda pluck, pickup: third_over_first(math.radians(pluck), math.radians(pickup)),
                "Does your calculator count angles in degrees? Here they are in radians: π is half a turn."),
           Slip("upside down", lambda pluck, pickup: 1 / third_over_first(pluck, pickup),
                "The question asks for the third partial divided by the first.")),
    steps={"first": Step("1", lambda pluck, pickup: math.sin(math.pi * pluck) * math.sin(math.pi * pickup)),
           "third": Step("1", lambda pluck, pickup:
                         math.sin(3 * math.pi * pluck) * math.sin(3 * math.pi * pickup) / 3)},
    notes=("Write v_n for n = 3 and for n = 1 and divide: F and Z cancel. Angles are in radians: π is half a turn.",
           "Partial n of the velocity has 1/n, a sine for the place of plucking, and a sine for the place of "
           "listening."),
    twin=Twin({"pluck": 0.050, "pickup": 0.300},
              "Another case: {pluck} and {pickup}. First: sin(0.05π) sin(0.3π) = {first}. Third: sin(0.15π) "
              "sin(0.9π)/3 = {third}. The ratio is {answer}."),
    worked="First: sin(πp) sin(πq) = {first}. Third: sin(3πp) sin(3πq)/3 = {third}. The ratio is {answer}.",
    teaching_note="Ratios above 1 surprise: the third partial can be stronger than the first. Ask where to pluck so "
                  "that it is missing.")

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

web_page = TextExercise(
    id="5.7",
    rubric=((1, "First half: true only without a load (or far below the resonance) and for a small swing."),
            (1, "Second half: true of the peak, one string, one force; with a number for what is not (RMS +3 dB).")),
    worked="\"No frequency response of its own\": true if the coil is not loaded and the notes are far below its "
           "resonance; then voltage is velocity times a factor without any frequency in it, as long as the swing is "
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
of the two old ones. The comb taken for a property of the note: it stays at its frequency. Degrees in the calculator in
5.5. The turns counted again: in this lesson S holds all of them.

**Say it openly**: the ideal string has no edges rounded by a finger, no stiffness and no decay. The table of section 5
says what each of them costs; the widths of finger and pickup in it are assumed. And 1 N is no small swing: the panel's
voltage is S at rest times the velocity.
"""

EVENING = Evening(
    aim="Each student has seen why the peak speed is F/(2Z) with neither length nor place in it, has computed one, and "
        "can say for whom \"the output does not depend on frequency\" is true.",
    on_the_table="A steel string instrument with a pickup, a sound card or an oscilloscope, a spool of thin copper "
                 "wire, safety glasses; loudspeakers. A long soft rope or spring on the floor shows a corner running.",
    stretches=(
        Stretch(minutes=7, what="The opening sound; the three quick questions.",
                ask="Which of the two gets softer up the neck, and why not both?"),
        Stretch(minutes=10, what="Section 1: prediction and panel over the frets; the loop of wire, at the table.",
                ask="Which of peak, RMS and fundamental does a level meter show?"),
        Stretch(minutes=11, what="Prediction and panel of the release; the three steps, read aloud with the time "
                                 "slider.",
                ask="One side gets steeper. What does the other side do, and why by as much?"),
        Stretch(minutes=16, what="The worked example and its second half, then 5.1 and 5.2 in pairs.",
                ask="Where in F/(2Z) is the pickup?"),
        Stretch(minutes=14, what="Section 2: the table line by line; how large the RMS is, 5.4.",
                ask="What exactly does your hand keep equal when you play up the neck?"),
        Stretch(minutes=5, what="Section 5: the six conditions, and the sound.",
                ask="Which of the six is broken in your own playing?"),
        Stretch(minutes=10, what="The open question 5.7: aloud in pairs first, then in writing.",
                ask="Which word of the sentence joins two things that have nothing to do with each other?")),
    at_home="What is further: 5.3, the partials (section 3) with 5.5, the curved map (section 4) with 5.6.")

TO_VOTE = (
    ToVote(
        question="The same string is plucked with the same force, open and an octave higher. The peak of the coil's "
                 "voltage is, an octave higher, ...",
        options={"a": "twice as large", "b": "the same", "c": "half as large"}, right="b",
        because="The peak speed is F/(2Z): force, tension, mass per metre, and no length. The pulses come twice as "
                "often, and that is seen in the RMS, not in the peak.",
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
            question="The pickup is moved twice as far from the plectrum, along the same string; both stay nearer the "
                     "bridge. The pulse of the same pluck then ...",
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
        flat_flux, flux_in_magnet, in_a_row, octave_up, nearer_the_bridge, half_a_wave, tension, pulse_height,
        same_distance, two_passes, how_often, gap_of_the_comb, third_partial, double_swing, second_harmonic, web_page),
    teaching_note=TEACHING_NOTE, evenings=(EVENING,), to_vote=TO_VOTE)
