"""Lesson 08, design and measure: model answers, slips with their notes, worked answers, teaching note."""
import math

import numpy as np

from lessons_lib.base.materials import ROD_GRADES
from lessons_lib.base.workshop import GRADES
from lessons_lib.exercises.declaration import (
    ChoiceExercise,
    CurveAxis,
    CurveExercise,
    Derived,
    DesignExercise,
    Entry,
    EstimateExercise,
    Evening,
    FitSlip,
    FormulaExercise,
    Given,
    Lesson,
    Limit,
    MeasuredExercise,
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

FOUR_PI_SQUARED = 4 * math.pi ** 2
TOPS = {"alnico 5": [0.7, 0.6, 0.6, -2.4, -1.9, -0.4], "alnico 2": [0.6, 0.4, 0.4, -2.0, -1.5, -0.4],
        "alnico 3": [0.6, 0.4, 0.4, -1.9, -1.4, -0.3]}      # mm: levels nearly equal

LINE_THROUGH_NOTHING = ("The coil has some capacitance before you add yours: what do the readings say of it? A line "
                        "through the origin would say none.")
SQUARES = "In which order were squaring and subtracting done? Each frequency has its own 1/f²."


def resonance(inductance, capacitance):
    return 1 / (2 * math.pi * math.sqrt(inductance * capacitance))


def from_two(bare, loaded, added):
    return (1 / loaded ** 2 - 1 / bare ** 2) / (FOUR_PI_SQUARED * added)


def half_of_root(inductance, capacitance):
    return 0.5 * math.hypot(inductance, capacitance)


def root_mean_square(*residuals):
    return math.sqrt(sum(one ** 2 for one in residuals) / len(residuals))


def level(ratio):
    return 20 * math.log10(ratio)


def raw_level(low_voltage, peak_voltage):
    return level(peak_voltage / low_voltage)


def corrected(low, low_voltage, peak, peak_voltage):
    return raw_level(low_voltage, peak_voltage) - level(peak / low)


# ---- quick questions -------------------------------------------------------------------------------------------------

hum_pair = ChoiceExercise(
    id="m1", quick=True, right="b",
    options={"a": "hum and signal both cancel", "b": "hum cancels, the signal adds",
             "c": "hum adds, the signal cancels"},
    notes={"a": "Hum cancels and the signal adds: the signal changes its sign twice, the hum only once.",
           "b": "Correct: the signal changes its sign twice, the hum only once.",
           "c": "It is the other way round: the signal changes its sign twice, the hum only once."})

above_self_resonance = ChoiceExercise(
    id="m2", quick=True, right="c",
    options={"a": "a little too high", "b": "a little too low", "c": "negative"},
    notes={"a": "It is negative: there the self-capacitance wins, and a capacitance looks like a negative inductance. "
                "Far below the resonance it is a little too high.",
           "b": "It is negative: there the self-capacitance wins, and a capacitance looks like a negative inductance.",
           "c": "Correct: there the self-capacitance wins, and a capacitance looks like a negative inductance."})

what_a_pickup_hears = RecallExercise(
    id="m3", where="lesson 4",
    sentence="A pickup does not hear where the string is. It hears how fast the string moves.")

what_is_left = ChoiceExercise(
    id="s1", quick=True, right="b",
    options={"a": "At resonance the voltage is largest.",
             "b": "What is the same in both cases goes out in the difference.",
             "c": "Twice the capacitance gives half the frequency."},
    notes={"a": "It is the difference: the unknown self-capacitance is in both lines, and a subtraction takes it out.",
           "b": "Correct: the unknown self-capacitance is in both, and a subtraction takes it out.",
           "c": "It is the difference, which takes the unknown self-capacitance out. (And half the frequency takes "
                "four times the capacitance.)"})

squares_add = ChoiceExercise(
    id="s2", quick=True, right="c",
    options={"a": "The larger error counts alone.", "b": "Errors of two instruments add up in full.",
             "c": "Independent errors partly cancel: their squares add."},
    notes={"a": "Their squares add. That comes near to the larger one alone only if the other is much smaller.",
           "b": "Their squares add. In full they would add if the two were always wrong to opposite sides.",
           "c": "Correct: in the mean of (a − b)² the mixed term is zero, and the squares are left."})

# ---- predictions -----------------------------------------------------------------------------------------------------

twice_and_half = PredictionExercise(
    id="p1",
    question="A coil gets twice the inductance and half the self-capacitance. What becomes of its resonance with "
             "nothing added, and of the one with 470 pF added across it?",
    options={"a": "both stay", "b": "the first stays, the second moves down",
             "c": "the first stays, the second moves up", "d": "both move"},
    seen_question="Set 2 H and 200 pF and read both resonances; then 4 H and 100 pF. What became of them?",
    seen_options={"a": "both stayed", "b": "the first stayed, the second moved down",
                  "c": "the first stayed, the second moved up", "d": "both moved"},
    seen="b",
    seen_notes={
        "a": "Look again at the read-out of the resonance with 470 pF, before and after.",
        "b": "Yes, that is what the panel shows. One run without a capacitor cannot tell the two coils apart; the "
             "second run can.",
        "c": "Look again at the read-out with 470 pF: which of the two numbers is smaller?",
        "d": "Look again at the resonance with nothing added, at 2 H and 200 pF and at 4 H and 100 pF."})

wrong_zero = PredictionExercise(
    id="p2",
    question="A gauss meter shows 1 mT too much in every reading. Touching the rod it reads about 140 mT, at 10 mm "
             "about 8 mT. The rod's strength and the place of the sensitive spot are fitted to readings from 0 to 10 "
             "mm. The flux in the rod that follows is ...",
    options={"a": "less than 2 % wrong", "b": "2 to 10 % wrong",
             "c": "more than 10 % wrong, and a residual of more than 5 % shows it",
             "d": "more than 10 % wrong, and no residual is above 5 %"},
    seen_question="Let the zero be wrong by 1 mT, with readings out to 10 mm. Flux and largest residual:",
    seen_options={"a": "less than 2 % wrong", "b": "2 to 10 % wrong",
                  "c": "more than 10 % wrong, and the largest residual is more than 5 %",
                  "d": "more than 10 % wrong, and the largest residual is 5 % or less"},
    seen="d",
    seen_notes={
        "a": "Look again at the flux found, with the zero wrong by 1 mT.",
        "b": "Look again at the percentage behind the flux found, with the zero wrong by 1 mT.",
        "c": "Yes for the flux. Now look again at the largest residual.",
        "d": "Yes, that is what the panel shows: the other unknown moves as well, and together they hide the error."})

other_rods = PredictionExercise(
    id="p3",
    question="Six rods of alnico 5 are replaced by six ferrite rods of the same size. Coil, wire and cable stay. The "
             "resonance with the cable ...",
    options={"a": "stays within 2 %", "b": "falls by more than 2 %",
             "c": "rises by more than 2 %"},
    seen_question="Set the grade from alnico 5 to ferrite and touch nothing else. The resonance with the cable ...",
    seen_options={"a": "stays within 2 %", "b": "falls by more than 2 %", "c": "rises by more than 2 %"},
    seen="c",
    seen_notes={
        "a": "Look again at the resonance with the cable, first with alnico 5 and then with ferrite.",
        "b": "Look again: with which of the two grades is the number larger?",
        "c": "Yes, that is what the panel shows. Rods are a core as well as magnets: which of the two lets a coil's "
             "own field pass more easily?"})

# ---- exercises -------------------------------------------------------------------------------------------------------

two_resonances = NumberExercise(
    id="8.1", unit="H", tolerance=0.03, size=(1.5, 7), marks=2, further=True,
    hidden={"inductance": Given("inductance", unit="H", low=2.0, high=5.0, step=0.05),
            "own": Given("self-capacitance", unit="pF", low=90, high=200, step=5)},
    given={"added": Given("added capacitance", unit="pF", low=300, high=1000, step=10)},
    derived={"bare": Derived("resonance with nothing added", unit="kHz", decimals=2,
                             formula=lambda inductance, own: resonance(inductance, own)),
             "loaded": Derived("resonance with it", unit="kHz", decimals=2,
                               formula=lambda inductance, own, added: resonance(inductance, own + added))},
    answer=from_two,
    slips=(Slip("no squares", lambda bare, loaded, added: (1 / loaded - 1 / bare) / (FOUR_PI_SQUARED * added),
                "In 1/f² the frequencies are squared: have yours been?"),
           Slip("squares subtracted first", lambda bare, loaded, added:
                1 / (FOUR_PI_SQUARED * added * (bare ** 2 - loaded ** 2)), SQUARES),
           Slip("subtracted, then squared", lambda bare, loaded, added:
                (1 / loaded - 1 / bare) ** 2 / (FOUR_PI_SQUARED * added), SQUARES),
           Slip("frequencies subtracted", lambda bare, loaded, added:
                1 / (FOUR_PI_SQUARED * added * (bare - loaded) ** 2), SQUARES),
           Slip("self-capacitance ignored", lambda loaded, added: 1 / (FOUR_PI_SQUARED * loaded ** 2 * added),
                "The coil has some capacitance before you add yours. What does the other resonance say of it?"),
           Slip("added capacitance with nothing added", lambda bare, added: 1 / (FOUR_PI_SQUARED * bare ** 2 * added),
                "That joins the resonance with nothing added to a capacitance that was not there."),
           Slip("kilohertz left", lambda bare, loaded, added: 1e6 * from_two(bare, loaded, added),
                "The frequencies are in kHz, and they are squared: that is a thousand, twice."),
           Slip("kilohertz and picofarad left", lambda bare, loaded, added: 1e-6 * from_two(bare, loaded, added),
                "Two prefixes are left. Write the frequencies in Hz (they are squared) and the capacitance in F."),
           Slip("picofarad left", lambda bare, loaded, added: 1e-12 * from_two(bare, loaded, added),
                "Is the added capacitance in F? A picofarad is 10⁻¹² of one."),
           Slip("sign", lambda bare, loaded, added: -from_two(bare, loaded, added),
                "Which of the two frequencies is lower, and which of the two 1/f² is then larger?")),
    common=("two pi squared", "two pi", "prefix"),
    steps={"more": Step("1", lambda bare, loaded: 1e9 * (1 / loaded ** 2 - 1 / bare ** 2))},
    notes=("Write 1/f² for both cases. Which part is in both, and which in one only?",
           "1/(4π² f²) = L (C + added). Subtract one from the other: the self-capacitance is gone, and L times the "
           "added one is left."),
    twin=Twin({"added": 2000, "bare": 5.00, "loaded": 2.00},
              "Another coil: 5.00 kHz, and 2.00 kHz with {added} more. 1/f² is 40·10⁻⁹ s² and 250·10⁻⁹ s²; the "
              "difference {more}·10⁻⁹ s² over 4π² × 2·10⁻⁹ F is {answer}."),
    worked="1/f² with {added} added, less 1/f² with nothing: {more}·10⁻⁹ s². Divided by 4π² and the added capacitance "
           "that is {answer}.",
    teaching_note="Ask for the self-capacitance as well: it comes out less well, since it is a small part of the sum.")

added_capacitors = MeasuredExercise(
    id="8.2", fit="fit_added_capacitance", quantity="inductance", unit="H", size=(0.1, 30), tolerance=0.03, marks=2,
    columns={"capacitance": Entry("added capacitance", unit="pF", low=0, high=20000),
             "frequency": Entry("resonance", unit="Hz", low=200, high=50000)}, rows=(3, 40),
    slips=tuple(FitSlip("self-capacitance left out", way, LINE_THROUGH_NOTHING) for way in (
        "inductance_without_own_capacitance", "inductance_by_a_line_through_the_origin",
        "inductance_from_the_last_reading")),
    common=("two pi squared", "two pi", "prefix"),
    notes=("Plot 1/(2πf)² against the added capacitance. What is its slope?",
           "1/(2πf)² = L (C + added): a straight line with the slope L. polyfit gives slope and start.",
           "If 1/(2πf)² grows by 0.8·10⁻⁹ s² from 100 to 300 pF, the slope is 0.8·10⁻⁹ s² / 200·10⁻¹² F = 4 H. Two "
           "readings near each other say little: take the whole line."),
    example={"table": [[0, 7862], [100, 6107], [220, 4997], [330, 4328], [470, 3783], [680, 3253], [1000, 2769]]},
    worked="The {rows} invented readings lead to {answer}, ±{tolerance}. A plain straight line through 1/(2πf)² "
           "(every point with the same weight) says 2.92 H, within that.",
    teaching_note="The fit comes further down the page, and its number after the exciter. What is taught is to draw a "
                  "line of one's own first. A bench with readings of its own gives its own number, and the check "
                  "follows it.")

def through_the_origin(x, own):
    """What might be left of 1/(2πf)² when a line through the origin is fitted to it, divided by the inductance."""
    share = x / x[-1]
    too_steep = own * (1 - share * share.sum() / (share @ share))       # least squares: Σ x·residual = 0
    return {"falling": too_steep, "rising": -too_steep, "all on one side": own + 0 * x,
            "a wave": own * np.sin(2 * math.pi * share),
            "noise": 0.25 * own * np.sin(2.3 * np.arange(len(x)) ** 1.4)}


left_over = CurveExercise(
    id="8.11", marks=2, right="falling", curves=through_the_origin,
    x=CurveAxis("added capacitance", "pF", 0, 0, 1000), y=CurveAxis("residual/inductance", "pF", 0),
    given={"own": Given("self-capacitance of the coil", unit="pF", low=100, high=200, step=10)},
    notes={"falling": "Without added capacitance the reading is not zero and the model is; so the line is made too "
                      "steep, and is too high at the far end.",
           "rising": "Take the first point, with nothing added. Which of the two is larger there, reading or model?",
           "all on one side": "That is left when the true slope is kept. But the fit chooses the slope that misses the "
                              "readings least: would a steeper one miss them less?",
           "a wave": "Readings and model are two straight lines here. What is the difference of two straight lines?",
           "noise": "Here the readings have none. And the model leaves something out: can it hide that?"},
    worked="With nothing added the reading is L times {own}, and the model's line, through the "
           "origin, has nothing there: the first residual is positive. To come near the other readings the fit must "
           "choose a line that is too steep; so it is below the readings at first and above them at the far end. Two "
           "straight lines differ by a straight line: it falls from plus to minus. That is {letter}.",
    teaching_note="A residual that starts at one side and ends at the other asks for a constant that the model has "
                  "not. On the board: the two lines first, then their difference. The inductance found in this way is "
                  "too high, since the line is too steep; that is one of the slips of 8.2.")

what_95_per_cent_says = ChoiceExercise(
    id="8.9", right="c",
    options={"a": "95 % of the readings are between 3.14 and 3.26 H.",
             "b": "The true inductance is certainly between 3.14 and 3.26 H.",
             "c": "Of twenty intervals made in this way, about nineteen hold the true value, if the model is right.",
             "d": "The result is 5 % wrong."},
    notes={"a": "Are the readings inductances? The interval speaks of the result, not of single readings.",
           "b": "One interval of twenty misses even if all is well. And what if the model is wrong?",
           "c": "It says how good the way of measuring is, and it trusts the model.",
           "d": "The interval is less than 2 % of the value to each side. What are the 95 % a share of?"},
    worked="The interval comes out differently on every bench that measures this coil. Of twenty such intervals about "
           "nineteen hold the true value: that is what 95 % promises. It promises so only if the model is right and "
           "the readings share no error; what all readings share is in no interval.",
    teaching_note="Where a class has measured one coil, let every bench draw its interval on the board: about one in "
                  "twenty misses what all of them together say.")


error_of_inductance = FormulaExercise(
    id="8.12", marks=2, asked="1",
    symbols={"u_f": Symbol("uncertainty of the frequency, as a share", "1", 0.01, 0.03),
             "u_c": Symbol("uncertainty of the capacitance, as a share", "1", 0.005, 0.015)},
    answer=lambda u_f, u_c: math.hypot(2 * u_f, u_c), written="sqrt((2*u_f)^2 + u_c^2)",
    slips=(Slip("no power", lambda u_f, u_c: math.hypot(u_f, u_c),
                "Let the frequency alone be 1 % high, and compute the inductance once more: how far off is it?"),
           Slip("solved for it", lambda u_f, u_c: math.sqrt(4 * u_f ** 2 - u_c ** 2),
                "That solves the page's formula for u(L). But there the frequency was computed from L and C. Which two "
                "are measured here?"),
           Slip("straight sum", lambda u_f, u_c: 2 * u_f + u_c,
                "The shares are right. Independent errors partly cancel: how do they add, then?"),
           Slip("straight sum, no power", lambda u_f, u_c: u_f + u_c,
                "Two things: with which power does each come in? And independent errors do not simply add."),
           Slip("a difference", lambda u_f, u_c: 2 * u_f - u_c,
                "Nobody knows that the two errors oppose each other. How do independent errors add?"),
           Slip("both doubled", lambda u_f, u_c: 2 * math.hypot(u_f, u_c),
                "Is the capacitance squared in it, too?"),
           Slip("half", lambda u_f, u_c: math.hypot(u_f / 2, u_c),
                "A frequency 1 % too high: is the inductance off by half a per cent, or by more?"),
           Slip("half of both", lambda u_f, u_c: math.hypot(u_f, u_c) / 2,
                "That is the formula of the page with other letters. Which power of f and of C is L?"),
           Slip("root forgotten", lambda u_f, u_c: (2 * u_f) ** 2 + u_c ** 2,
                "Squares of shares were added. What is still to be done with that sum?"),
           Slip("two under the square", lambda u_f, u_c: math.sqrt(2 * u_f ** 2 + u_c ** 2),
                "Is the 2 squared as well? The share of f is doubled first, then squared.")),
    notes=("Solve for L first. Which powers of f and of C are in it?",
           "L = 1/((2πf)² C): f comes in twice, C once. Independent shares add as squares.",
           "With 3 % and 8 %: the frequency brings in 6 %, so √(6² + 8²) % = 10 %."),
    worked="L = 1/((2πf)² C). A frequency that is 1 % high makes L 2 % low, and a capacitance that is 1 % high makes "
           "it 1 % low. The squares of the two shares add: sqrt((2*u_f)^2 + u_c^2).",
    teaching_note="Solving the page's formula for u(L) is the tempting wrong way: it has a minus under the root, as if "
                  "two measurements could take errors away from each other. What is computed has the errors of all "
                  "that is measured.")

which_to_measure = OrderExercise(
    id="8.13", marks=2,
    options={"a": "the inductance", "b": "the coil's self-capacitance", "c": "the cable's capacitance",
             "d": "the DC resistance"},
    given={"u_inductance": Given("uncertainty of the inductance", unit="%", low=1.0, high=4.0, step=0.5),
           "own": Given("self-capacitance of the coil", unit="pF", low=80, high=160, step=10),
           "u_own": Given("its uncertainty", unit="pF", low=10, high=40, step=5),
           "cable": Given("capacitance of the cable", unit="pF", low=400, high=700, step=50),
           "u_cable": Given("its uncertainty", unit="pF", low=20, high=70, step=5),
           "u_resistance": Given("uncertainty of the DC resistance", unit="%", low=5, high=8, step=1)},
    right=lambda u_inductance, own, u_own, cable, u_cable: {
        "a": u_inductance, "b": u_own / (own + cable), "c": u_cable / (own + cable), "d": 0.0},
    slips=(Slip("each by its own per cent", lambda u_inductance, own, u_own, cable, u_cable, u_resistance: {
                    "a": u_inductance, "b": u_own / own, "c": u_cable / cable, "d": u_resistance},
                "Each was taken as a share of itself. What do the two capacitances enter as: one by one, or as a sum?"),
           Slip("own per cent of three", lambda u_inductance, own, u_own, cable, u_cable: {
                    "a": u_inductance, "b": u_own / own, "c": u_cable / cable},
                "Each was taken as a share of itself. What do the two capacitances enter as: one by one, or as a sum?"),
           Slip("resistance", "d > a", "Where is the DC resistance in the formula of the resonance?"),
           Slip("resistance", "d > b", "Where is the DC resistance in the formula of the resonance?"),
           Slip("resistance", "d > c", "Where is the DC resistance in the formula of the resonance?")),
    notes=("By how many per cent does each of them shift the resonance? Half of what share, of what?",
           "f = 1/(2π√(L C)), where C is the sum of all that is in parallel: an error in pF counts as a share of the "
           "sum.",
           "2 % for L; 200 pF ± 30 pF and 800 pF ± 40 pF. Of the sum of 1000 pF they are 3 % and 4 %. So the cable "
           "first, then the self-capacitance, then L, although 30 pF of 200 pF are 15 %."),
    worked="L counts with {u_inductance}. The capacitances are in parallel: {u_own} and {u_cable}, each as a share of "
           "the sum of {own} and {cable}. (All three are halved by the root, which changes no order.) The DC "
           "resistance is not in the resonance at all. So {order}.",
    teaching_note="A large percentage of a small part may be less than a small one of a large part. Since squares add, "
                  "the first in the order often is nearly all of the answer: let them compute the whole, then without "
                  "the first, then without the last.")


def sigmas_apart(first, second, u_first, u_second):
    return (second - first) / math.hypot(u_first, u_second)


do_they_agree = NumberExercise(
    id="8.10", unit="1", tolerance=0.04, size=(0.5, 6),
    given={"first": Given("inductance by the first instrument", unit="H", low=2.50, high=4.00, step=0.01),
           "u_first": Given("its uncertainty, one sigma", unit="H", low=0.03, high=0.06, step=0.01),
           "u_second": Given("uncertainty of the second, one sigma", unit="H", low=0.07, high=0.10, step=0.01)},
    hidden={"apart": Given("difference", unit="H", low=0.10, high=0.40, step=0.01)},
    derived={"second": Derived("inductance by the second instrument", unit="H", decimals=2,
                               formula=lambda first, apart: first + apart)},
    answer=sigmas_apart,
    slips=(Slip("straight sum", lambda first, second, u_first, u_second: (second - first) / (u_first + u_second),
                "Independent errors partly cancel. How do they add, then?"),
           Slip("the larger one alone", lambda first, second, u_second: (second - first) / u_second,
                "Only one of the two uncertainties is in it. The other instrument may be wrong, too."),
           Slip("the smaller one alone", lambda first, second, u_first: (second - first) / u_first,
                "Only one of the two uncertainties is in it. The other instrument may be wrong, too."),
           Slip("root forgotten", lambda first, second, u_first, u_second:
                (second - first) / (u_first ** 2 + u_second ** 2),
                "The squares were added. What is still to be done with that sum?"),
           Slip("a difference", lambda first, second, u_first, u_second:
                (second - first) / math.sqrt(u_second ** 2 - u_first ** 2),
                "One uncertainty does not take away from the other. How do independent errors add?"),
           Slip("two sigma", lambda first, second, u_first, u_second:
                sigmas_apart(first, second, u_first, u_second) / 2,
                "That counts in intervals of 95 %. The question asks for how many times one sigma."),
           Slip("a share", lambda first, second: (second - first) / first,
                "That is the difference as a share of the value. How large is it against the uncertainty?")),
    common=("sign",),
    steps={"both": Step("H", lambda u_first, u_second: math.hypot(u_first, u_second))},
    notes=("First the uncertainty of the difference, from both instruments.",
           "Independent errors: √(u₁² + u₂²). Then divide the difference by it."),
    twin=Twin({"first": 5.00, "u_first": 0.08, "u_second": 0.15, "second": 5.51},
              "Another coil: {first} and {second}. √(0.08² + 0.15²) H = {both}; the difference of 0.51 H is {answer} "
              "times that."),
    worked="√(u₁² + u₂²) = {both}. The difference of {first} and {second}, divided by it, is {answer}.",
    teaching_note="Then ask what follows. Under 2 they agree; over 3 one of them, or the model, is suspect; between, "
                  "measure again. Two intervals that overlap a little may still be 2.5 sigma apart.")

uncertain_resonance = NumberExercise(
    id="8.3", unit="%", tolerance=0.05, size=(1.2, 7), further=True,
    given={"inductance": Given("uncertainty of the inductance", unit="%", low=2.0, high=5.0, step=0.5),
           "capacitance": Given("uncertainty of the capacitance", unit="%", low=3.0, high=10.0, step=0.5)},
    answer=half_of_root,
    slips=(Slip("no half", lambda inductance, capacitance: 2 * half_of_root(inductance, capacitance),
                "L and C are under a root. What does a root do to a small percentage?"),
           Slip("straight sum, halved", lambda inductance, capacitance: (inductance + capacitance) / 2,
                "Independent errors partly cancel. How do they add, then?"),
           Slip("straight sum", lambda inductance, capacitance: inductance + capacitance,
                "Two things: L and C are under a root, and independent errors do not simply add."),
           Slip("the mean square's root", lambda inductance, capacitance:
                half_of_root(inductance, capacitance) * math.sqrt(2),
                "Did you take the root of the mean of the squares? Here the sum of the squares is under the root, and "
                "the half in front of it."),
           Slip("root forgotten", lambda inductance, capacitance: 50 * (inductance ** 2 + capacitance ** 2),
                "Squares of percentages were added. What is still to be done with that sum?"),
           Slip("a difference", lambda inductance, capacitance: abs(capacitance - inductance) / 2,
                "Nobody knows that the two errors oppose each other. How do independent errors add?")),
    common=("hundred",),
    steps={"both": Step("%", lambda inductance, capacitance: math.hypot(inductance, capacitance))},
    notes=("f₀ goes like L to the power −1/2. By how many per cent does f₀ change when L changes by 1 %?",
           "Each contributes half of its own percentage; independent ones add as squares: ½√(u_L² + u_C²)."),
    twin=Twin({"inductance": 6.0, "capacitance": 8.0},
              "Another bench: {inductance} and {capacitance}. √(6² + 8²) % = {both}; half of it is {answer}."),
    worked="√(u_L² + u_C²) = {both}; half of it is {answer}.",
    teaching_note="Independent means: L from one instrument, C from another. L and C from one fit are tied together: "
                  "in the invented data one is high when the other is low, and the resonance is known better than this "
                  "formula says.")

rms_residual = NumberExercise(
    id="8.4", unit="dB", tolerance=0.01, size=(0.2, 1.5), further=True,
    given={f"r{number}": Given(f"residual {number}", unit="dB", low=-1.3, high=1.3, step=0.1)
           for number in range(1, 6)},
    answer=lambda r1, r2, r3, r4, r5: root_mean_square(r1, r2, r3, r4, r5),
    slips=(Slip("mean", lambda r1, r2, r3, r4, r5: (r1 + r2 + r3 + r4 + r5) / 5,
                "That is the mean: signs cancel in it. Which step comes before the mean?"),
           Slip("mean of magnitudes", lambda r1, r2, r3, r4, r5: sum(map(abs, (r1, r2, r3, r4, r5))) / 5,
                "Is that the mean of the magnitudes? RMS names three steps, from its last letter to its first."),
           Slip("no root", lambda r1, r2, r3, r4, r5: root_mean_square(r1, r2, r3, r4, r5) ** 2,
                "Is that the mean square? Which step is left, then?"),
           Slip("no mean", lambda r1, r2, r3, r4, r5: root_mean_square(r1, r2, r3, r4, r5) * math.sqrt(5),
                "That is the root of the sum. How many readings share it?"),
           Slip("divided by four", lambda r1, r2, r3, r4, r5: root_mean_square(r1, r2, r3, r4, r5) * math.sqrt(5 / 4),
                "The sum of the squares was divided by four, as for a scatter about a mean. The question asks for the "
                "mean of all five squares."),
           Slip("divided by five outside", lambda r1, r2, r3, r4, r5:
                root_mean_square(r1, r2, r3, r4, r5) / math.sqrt(5),
                "Is the five under the root, or outside?"),
           Slip("largest", lambda r1, r2, r3, r4, r5: max(map(abs, (r1, r2, r3, r4, r5))),
                "That is the largest residual alone. What do the other four say?")),
    steps={"squares": Step("1", lambda r1, r2, r3, r4, r5: sum(one ** 2 for one in (r1, r2, r3, r4, r5)))},
    notes=("Read RMS backwards: square, mean, root.",
           "Square each residual, so that signs cannot cancel; take the mean of the five squares; then the root. Give "
           "two decimals."),
    twin=Twin({"r1": 2.0, "r2": -1.0, "r3": 2.0, "r4": 0.0, "r5": -4.0},
              "Other residuals: 2, −1, 2, 0 and −4 dB. Their squares sum to {squares}; the mean is 5 and the root "
              "{answer}."),
    worked="The five squares sum to {squares}. A fifth of it, and the root: {answer}.",
    teaching_note="Then ask what the mean of the residuals is good for: it shows an error that all readings share.")

corrected_peak = NumberExercise(
    id="8.5", unit="dB", tolerance=0.2, size=(5, 22), further=True,
    hidden={"height": Given("height of the peak", unit="dB", low=8.0, high=17.0, step=0.1),
            "coupling": Given("voltage per hertz, in microvolts", unit="1", low=1.2, high=2.4, step=0.05)},
    given={"low": Given("a low frequency", unit="Hz", low=200, high=500, step=10),
           "peak": Given("frequency of the peak", unit="kHz", low=3.0, high=9.0, step=0.1)},
    derived={"low_voltage": Derived("voltage read there", unit="mV", decimals=3,
                                    formula=lambda coupling, low: 1e-6 * coupling * low),
             "peak_voltage": Derived("voltage read at the peak", unit="mV", decimals=1,
                                     formula=lambda coupling, peak, height:
                                     1e-6 * coupling * peak * 10 ** (height / 20))},
    answer=corrected,
    slips=(Slip("raw", raw_level,
                "Those are the raw voltages. Does the same current induce the same voltage at both frequencies?"),
           Slip("multiplied", lambda low, low_voltage, peak, peak_voltage:
                raw_level(low_voltage, peak_voltage) + level(peak / low),
                "The raw voltage has one factor of frequency too many. Is it taken out by multiplying?"),
           Slip("divided twice", lambda low, low_voltage, peak, peak_voltage:
                raw_level(low_voltage, peak_voltage) - 2 * level(peak / low),
                "Faraday's law brings in the frequency once. How often was it taken out? And is the sign right?"),
           Slip("three decibels an octave", lambda low, low_voltage, peak, peak_voltage:
                raw_level(low_voltage, peak_voltage) - level(peak / low) / 2,
                "Twice the frequency is twice the voltage. How many decibels is that?"),
           Slip("ten log", lambda low, low_voltage, peak, peak_voltage:
                corrected(low, low_voltage, peak, peak_voltage) / 2,
                "Decibels of a voltage ratio are 20 log₁₀ of it; the 10 belongs to ratios of power."),
           Slip("a plain ratio", lambda low, low_voltage, peak, peak_voltage:
                10 ** (corrected(low, low_voltage, peak, peak_voltage) / 20),
                "That is a ratio of voltages. How is it put in decibels?"),
           Slip("hertz and kilohertz", lambda low, low_voltage, peak, peak_voltage:
                corrected(low, low_voltage, peak, peak_voltage) + 60,
                "That is 60 dB off, a factor of a thousand: is one frequency in kHz and the other in Hz?")),
    common=("sign", "natural log"),
    steps={"raw": Step("dB", raw_level), "rise": Step("dB", lambda low, peak: level(peak / low))},
    notes=("First divide each voltage by its frequency. Then compare.",
           "The current is the same at all frequencies, so the induced voltage goes like f. What is left after "
           "dividing by f is the coil's response."),
    twin=Twin({"low": 100, "peak": 2.0, "low_voltage": 0.100, "peak_voltage": 20.0},
              "Another coil: from {low_voltage} to {peak_voltage} is {raw}. The frequency grows by a factor of 20, "
              "{rise}. So the response has a peak of {answer}."),
    worked="The raw voltages rise by {raw}. The frequencies account for {rise} of it. What is left is the peak of the "
           "response: {answer}.",
    teaching_note="Ask for the slope of the raw data far below the peak first: 6 dB an octave, whatever the coil.")

rod_readings = MeasuredExercise(
    id="8.6", fit="fit_stated_gauss_readings", quantity="flux", unit="uWb", size=(0.05, 2500), tolerance=0.03,
    marks=2,
    columns={"distance": Entry("distance", unit="mm", low=0, high=100),
             "flux_density": Entry("flux density", unit="G", low=-20000, high=20000)},
    sizes={"diameter": Entry("diameter of the rod", unit="mm", low=1, high=50),
           "length": Entry("length of the rod", unit="mm", low=1, high=100),
           "grade": Entry("kind of magnet", options=ROD_GRADES),
           "uncertainty": Entry("uncertainty of a reading, one sigma", unit="%", low=0.2, high=20)}, rows=(4, 40),
    slips=(FitSlip("uniform rod", "flux_of_a_uniform_rod",
                   "That is the flux in a uniform magnet. What did the residuals say of it?"),
           FitSlip("recoil line", "flux_on_the_recoil_line",
                   "That is the flux in a rod on the recoil line of the data sheet. What did the residuals say of it?"),
           FitSlip("first reading", "flux_of_the_first_reading",
                   "That is the first reading times the rod's area: flux before the face, where the tip was. Most of "
                   "the flux left the rod through its side."),),
    common=("gauss", "thousand"),
    notes=("The fit of the page, with your own kind of magnet, gives several numbers. Which of them is a flux?",
           "Whole curve, one model: its height gives the strength of the magnet, its shape says where the spot is. The "
           "flux in the middle is then computed, since no probe can go there.",
           "A twin: if every reading doubles, the flux doubles, and the spot stays where it is."),
    example={"table": [[0, 1279.9], [0.5, 1117.7], [1, 895.3], [1.5, 777.7], [2, 634.4], [2.5, 510.1], [3, 427.0],
                       [4, 294.0], [5, 217.9], [6, 167.4], [8, 106.8], [10, 68.8]],
             "diameter": 5, "length": 17, "grade": "alnico 5", "uncertainty": 1.5},
    worked="The {rows} invented readings, on the curve of alnico 5, lead to {answer}, ±{tolerance} (95 %, from the "
           "stated 1.5 % of each reading). The uniform magnet and the recoil line of 3.6 would say 9 and 5 % more, and "
           "their residuals turn both down.",
    teaching_note="Three models in a row, and residuals that are 4.1, 3.0 and 1.4 times what was stated: it is the "
                  "place of the page where residuals turn models down. A straight line with a slope of 10 fits as well "
                  "as the curve and has 3 % less flux inside: what nobody measured depends on the model. Ask what a "
                  "strength of 0.95 says of the alloy: nearly all of it is the coercivity. The check refuses residuals "
                  "that chance would give less than once in a thousand times: a wrong kind, a zero off by 2 mT (four "
                  "times out of five), distances off by 10 %.")


far_enough = EstimateExercise(
    id="8.14", unit="mm", factor=2, size=(0.01, 1e6), further=True,
    answer=lambda: 30e-3 * (1.6e-3 / 50e-6) ** (1 / 3),
    because="32 times less than at 30 mm from the middle, so the cube root of 32 times as far, 3.2 times",
    slips=(Slip("one over the distance", lambda: 30e-3 * 1.6e-3 / 50e-6,
                "Twice as far from a small magnet: is half of the field left, or less?"),
           Slip("by the cube", lambda: 30e-3 * (1.6e-3 / 50e-6) ** 3,
                "The field falls with the cube. Does the distance grow with the cube, then, or with its root?")),
    notes=("By which factor must the field fall? And how does it fall far away from a magnet?",
           "Far away the field goes like 1/distance³, counted from the magnet's middle."),
    twin=Twin({}, "A field of 8 mT at 10 mm from the middle of a tiny magnet: to come down to 1 mT it takes twice the "
                  "distance, since 2³ = 8."),
    worked="From 1.6 mT to 0.05 mT is a factor of 32. Far away the field falls with the cube of the distance, so 3.2 "
           "times 30 mm are enough: about {answer}. (The model of the panel says 92 mm.) Still farther away it is the "
           "earth's field that spoils the zero, and no longer the rod's.",
    teaching_note="The exponent comes near −3 only where the rod looks small; from 30 mm on that is fair. Turn the "
                  "probe round far from everything: half of the difference of the two readings is the earth's field "
                  "along it.")

# ---- elsewhere -------------------------------------------------------------------------------------------------------

def lowered_by_currents(low, high, resonance):
    """Share by which an inductance is lower at 1 kHz than at 120 Hz, once the capacitance's part is taken out."""
    return 1 - high * (1 - (1e3 / resonance) ** 2) / low


metal_on_the_meter = NumberExercise(
    id="8.16", unit="%", tolerance=0.05, size=(3, 14), further=True, marks=2,
    given={"low": Given("inductance that the meter shows at 120 Hz", unit="H", low=4.10, high=4.30, step=0.01),
           "high": Given("inductance that it shows at 1 kHz", unit="H", low=3.90, high=4.08, step=0.01),
           "resonance": Given("self-resonance of the coil", unit="kHz", low=5.0, high=6.5, step=0.1)},
    answer=lowered_by_currents,
    slips=(Slip("capacitance forgotten", lambda low, high: 1 - high / low,
                "That is how the two readings differ. What does the capacitance alone do to the second one?"),
           Slip("capacitance the wrong way", lambda low, high, resonance: 1 - high / low / (1 - (1e3 / resonance) ** 2),
                "Below its resonance a meter reads too much. Was the coil's inductance at 1 kHz more than the reading, "
                "or less?"),
           Slip("no square", lambda low, high, resonance: 1 - high * (1 - 1e3 / resonance) / low,
                "How does the capacitance's part grow with the frequency?"),
           Slip("capacitance alone", lambda resonance: (1e3 / resonance) ** 2,
                "That is what the capacitance does. What do the two readings say besides?")),
    common=("hundred", "sign"),
    steps={"part": Step("%", lambda resonance: (1e3 / resonance) ** 2),
           "inside": Step("H", lambda high, resonance: high * (1 - (1e3 / resonance) ** 2))},
    notes=("First undo what the capacitance does at 1 kHz: what would the meter show there without it?",
           "With x = 1 kHz divided by the resonance, the reading is L/(1 − x²). So the inductance at 1 kHz is the "
           "reading times (1 − x²); compare it with the one at 120 Hz, where the capacitance does next to nothing."),
    twin=Twin({"low": 5.00, "high": 4.90, "resonance": 4.0},
              "Another coil: {low}, {high}, resonance {resonance}. At 1 kHz x² is {part}, so the inductance there "
              "is {inside}. That is {answer} less than {low}."),
    worked="At 1 kHz x² is {part}; without the capacitance the meter would show {inside} there. Compared with "
           "{low} at 120 Hz that is {answer} less: the currents in the steel.",
    teaching_note="Capacitance moves the reading up and metal moves it down, so two readings that agree prove nothing. "
                  "With alnico rods the same step is 0.14 %, which no meter of the course can tell.")

metal_detector = NumberExercise(
    id="8.15", unit="%", tolerance=0.03, size=(0.01, 2), marks=2, further=True,
    given={"tone": Given("pitch of the tone, with the metal there", unit="Hz", low=60, high=400, step=10),
           "frequency": Given("frequency of the oscillator that stays", unit="kHz", low=80, high=150, step=1)},
    answer=lambda tone, frequency: 2 * tone / frequency,
    slips=(Slip("no factor", lambda tone, frequency: tone / frequency,
                "That is the share of the frequency. With which power of L does the frequency go?"),
           Slip("half", lambda tone, frequency: tone / frequency / 2,
                "A small share of L makes half of it in the frequency. Which way is it asked here?"),
           Slip("root", lambda tone, frequency: math.sqrt(tone / frequency),
                "A root of a share is not what a root does to a small percentage. Try 1 %: √1.01 is how much?"),
           Slip("upside down", lambda tone, frequency: 1e-4 * frequency / tone,
                "Which of the two frequencies is the small part, and which the whole?")),
    common=("thousand", "hundred"),
    steps={"share": Step("%", lambda tone, frequency: tone / frequency)},
    notes=("First the share by which the frequency has changed: the tone is the difference.",
           "f goes like L to the power −1/2: a small share of L makes half of it in f."),
    twin=Twin({"tone": 500, "frequency": 50},
              "Another detector: {tone} of {frequency} are {share}. So its inductance has changed by {answer}."),
    worked="The oscillators are {tone} apart, of {frequency}: {share}. The frequency goes like L^(−1/2), so L has "
           "changed by twice that, {answer}.",
    teaching_note="A change of some hertz in a hundred thousand is heard at once; few meters of inductance would show "
                  "it. Ask for its price: the two oscillators must stay as constant as that by themselves.")

# ---- the design ------------------------------------------------------------------------------------------------------

def known(magnet, wire, turns):
    name = list(TOPS)[int(magnet)]
    return {"magnet": name, "wire": int(wire), "turns": int(turns), "tops": TOPS[name]}


def reported(magnet, wire, turns):
    from lessons_lib.physics.design import design_report  # brings scipy, and a lesson opens without it
    design = known(magnet, wire, turns)
    return design_report(**{**design, "tops": [1e-3 * top for top in design["tops"]]})


def bound(quantity, share, more=0.0):
    return lambda magnet, wire, turns: share * getattr(reported(magnet, wire, turns), quantity) + more


UNDER_THE_ROOT = ("It is within a per cent of 1/(2π√(LC)): of the two under the root the cable stays, and L goes "
                  "with the square of the turns, and with the rods' permeability.")

pickup = DesignExercise(
    id="8.7", model="design_report", parts="parts_list", marks=6,
    entries={"magnet": Entry("grade of the rods", options=GRADES),
             "wire": Entry("gauge of the wire, AWG", low=40, high=46, whole=True),
             "turns": Entry("turns", low=1000, high=15000, whole=True),
             "tops": Entry("height of each pole's top over the form, string VI first", unit="mm", low=-3, high=1,
                           count=6)},
    hidden={"magnet": Given("magnet", unit="1", low=0, high=2, step=1),
            "wire": Given("wire", unit="1", low=44, high=45, step=1),
            "turns": Given("turns", unit="1", low=6000, high=7800, step=100)},
    known=known,
    derived={"lowest_resonance": Derived("resonance with the cable, at least", unit="kHz", decimals=2,
                                         formula=bound("resonance", 0.93)),
             "highest_resonance": Derived("resonance with the cable, at most", unit="kHz", decimals=2,
                                          formula=bound("resonance", 1.07)),
             "most_resistance": Derived("resistance, at most", unit="kΩ", decimals=1,
                                        formula=bound("resistance", 1.08)),
             "most_fill": Derived("share of the window, at most", unit="1", decimals=2, formula=bound("fill", 1.06)),
             "least_sensitivity": Derived("sensitivity of string VI, at least", unit="V s/m", decimals=3,
                                          formula=bound("sensitivity", 0.92)),
             "most_spread": Derived("spread of the six levels, at most", unit="dB", decimals=1,
                                    formula=bound("spread", 1.0, more=0.7)),
             "most_copper": Derived("copper, at most", unit="g", decimals=1, formula=bound("copper", 1.08))},
    limits=(
        Limit(quantity="resonance", label="resonance with the cable", least="lowest_resonance",
              most="highest_resonance", too_low=UNDER_THE_ROOT, too_high=UNDER_THE_ROOT),
        Limit(quantity="resistance", label="resistance", most="most_resistance",
              too_high="It goes with the turns, divided by the wire's cross-section."),
        Limit(quantity="fill", label="share of the window", most="most_fill",
              too_high="It goes with the turns and with the square of the wire's diameter, coat and all."),
        Limit(quantity="sensitivity", label="sensitivity of string VI", least="least_sensitivity",
              too_low="It goes with the turns, with the field at string VI (grade) and with the first pole's height."),
        Limit(quantity="spread", label="spread of the six levels", most="most_spread",
              too_high="The six heights move it most. Which string is loudest? If one height is at its end, try "
                       "another grade."),
        Limit(quantity="copper", label="copper", most="most_copper",
              too_high="It goes with the turns and with the wire's cross-section.")),
    worked="Between {lowest_resonance} and {highest_resonance}: one way is {design}.",
    teaching_note="Let two benches compare their ways: the same limits are met by different grades and turns. Who is "
                  "stuck at one limit reads which chosen things move it.")

# ---- the report ------------------------------------------------------------------------------------------------------

report = TextExercise(
    id="8.8", least_words=80,
    rubric=((1, "Claim: a number with its uncertainty; it could turn out wrong."),
            (1, "Model and data: what went in, what was fitted, how sure; invented or own."),
            (1, "Residuals: read (waves or none, how large), and not taken as a proof."),
            (1, "A limit that matters, and a next experiment that could change the claim.")),
    worked="Claim: the coil has 2.84 H, give or take 0.03 H (95 %), and 142 pF with the probe. Model: an inductance in "
           "series with 7350 Ω (its DC resistance, measured), capacitance and one resistance across it, driven by a "
           "voltage in proportion to the frequency. Data: 48 voltages over the exciter coil, 2 % each as stated, "
           "invented by the course's script; and, apart from them, seven resonances with capacitors that lead to 2.88 "
           "H, give or take 0.08 H (95 %): the two agree. Residuals: no waves, and their mean square is 1.1 times what "
           "was stated. Two limits that matter: capacitors that are all off their marked value by 2 % would shift the "
           "inductance by 2 % and leave no trace; and losses that grow with frequency are one number here, so the "
           "794 kΩ are not a real resistor's. One that does not: the self-capacitance is spread along the winding, "
           "which matters above the resonance only, where there are few readings. The level 3 mm lower, 0.279 of the "
           "first, was predicted as 0.289 for a string 2.0 mm high: 4 % apart, within the 10 % of ratios. Next "
           "experiment: measure the capacitors on a bridge, and repeat. If they are right within 0.5 %, the claim "
           "stands; if all are high, the inductance comes down by as much.",
    teaching_note="Marks go to the statement, not to closeness: a ratio within 10 % is a good result, and an absolute "
                  "level within a factor of two is one. A report that says \"the model is right because the residuals "
                  "are small\" gets no point for its residuals: they do not show what all readings share.")

TEACHING_NOTE = """
With one evening of 90 minutes only: sections 1 and 2, then section 6, the design. All measuring of one's own may be
left out; the report may be written at home.

**Demonstration with real parts.** Three capacitors, a pickup, a small air coil fed through a large resistor, a sound
card with an input of 1 MΩ or a probe. Sweep once, put 470 pF across, sweep again: the peak moves. Let the class say the
inductance before anything is fitted. Then a rod, a gauss meter and feeler gauges of brass or plastic (steel ones
spoil the reading): read at 0, 1, 2 and 4 mm, and again after turning the meter's zero by 1 mT. Cautions: the page's
list; magnets and implants (15 cm, stronger sets 30 cm), one magnet at a time; safety glasses on when strings are tuned,
plucked with a breaking loop, or cut; amplifiers with a mains plug stay closed and earthed; sound at zero first,
headphones on last. Local rules and the people in charge of the room come first.

**What to ask.** "Which error would your residuals never show?" "What did you write down before you saw the fit?" "Which
of the limits pull against each other?" "What would change your mind?"

**What goes wrong.** The peak taken for the resonance, without the correction of 1/(4Q²). The probe pulled off for the
run without a capacitor. The self-capacitance forgotten. Distances measured to the tip of the probe and believed. A
number that fits taken for the number on the data sheet (10 for a recoil permeability). A model taken as proved because
the residuals are small; or a good measurement thrown away because the interval is wide.

**Own data.** A bench's own files take the place of the invented ones by one line at the head of the page; what is wrong
with a file is said there, and the page goes on with the invented file. In 8.2 and 8.6 the readings go with the answer
and are marked by the same fit. In 8.6 the kind of magnet goes along: four kinds of alnico, ferrite, neodymium. Alnico
of a kind that nobody knows: try alnico 5 and alnico 8; one of them leaves residuals three times too large. (Alnico 2
and 3 cannot be told from 5 by the residuals. Their strength can: a rod of alnico 5 taken for alnico 2 would have to be
1.6 times as strong as its data sheet.)

**Say it openly**: the invented data come from the very models that fit them, so everything fits. A real bench never
does as well: eddy currents, drift, a probe off its axis. Absolute levels to a factor of two are a good result.
"""

EVENINGS = (
    Evening(
        aim="The coil: its inductance and self-capacitance by two ways, each with how sure it is, and whether the two "
            "agree.",
        on_the_table="A pickup, three capacitors, a small air coil fed through a large resistor, a probe or a sound "
                     "card with an input of 1 MΩ; the guide WORKBENCH.md on paper. Without them: the invented data.",
        stretches=(
            Stretch(minutes=10, what="The three plucks; quick questions; section 1, guide and cautions.",
                    ask="What do you write down before you see whether it fits?"),
            Stretch(minutes=26, what="Section 2: the worked example, s1; the line through seven readings, 8.2; what "
                                     "residuals show, 8.11, and what the fit's interval says, 8.9.",
                    ask="What does 95 % promise, and on what condition?"),
            Stretch(minutes=12, what="Section 3: prediction, then the panel: first the guess, then the readings.",
                    ask="Which of the two runs tells 2 H from 4 H?"),
            Stretch(minutes=23, what="Two ways to one coil: the worked example, s2, 8.10; how errors travel, 8.12 and "
                                     "8.13; the component meter.",
                    ask="Do they agree? And which measurement would you repeat first?")),
        at_home="8.1 to practise; 8.3, 8.4 and 8.5, the band, and the metal that answers (8.16), which are further."),
    Evening(
        aim="The magnet: which model the residuals turn down, and which error can hide from them. Then a design "
            "within limits.",
        on_the_table="A rod, a gauss meter, feeler gauges of brass or plastic, a wooden table.",
        stretches=(
            Stretch(minutes=11, what="Section 4: prediction and panel, the wrong zero.",
                    ask="Which error hides from your residuals, and which reading would show it?"),
            Stretch(minutes=17, what="Three models of a magnet, one after the other; 8.6.",
                    ask="A number fits. Is it what it is called?"),
            Stretch(minutes=26, what="Section 6: prediction, panel, the design 8.7, in pairs; two benches compare.",
                    ask="Which of the limits pull against each other?"),
            Stretch(minutes=16, what="Section 7: the report, its claim said aloud first; what the models leave out.",
                    ask="What would change your mind?")),
        at_home="The report 8.8, finished; section 5, the plucks, 8.14, and the metal detector, which are further."))

TO_VOTE = (
    ToVote(
        question="A fit goes through all readings, and its residuals are small and look like noise. So ...",
        options={"a": "the model is right, and so is the number", "b": "all readings may still share an error",
                 "c": "the interval can be left away"}, right="b",
        because="Small residuals say that model and readings fit each other. An error that all readings share moves "
                "the number and leaves the residuals as they are.",
        twin=ToVote(
            question="A ruler has shrunk by 2 %. Twenty lengths are measured with it, and a straight line through them "
                     "fits well. Which shows the 2 %?",
            options={"a": "waves in the residuals", "b": "a wider interval",
                     "c": "only a measurement with another ruler"}, right="c",
            because="All readings share the error, so the line fits as well as before. Two instruments are worth more "
                    "than one with small residuals.")),
    ToVote(
        question="Four times as many readings of the same kind are taken. The interval of the fitted number becomes "
                 "about ...",
        options={"a": "half as wide", "b": "a quarter as wide", "c": "as wide as before"}, right="a",
        because="Independent errors add as squares, so the mean of n readings is better by the root of n: four times "
                "the work for half the width.",
        twin=ToVote(
            question="Two independent uncertainties, 3 % and 4 %, go into one product. Its uncertainty is about ...",
            options={"a": "1 %", "b": "7 %", "c": "5 %"}, right="c",
            because="√(3² + 4²) = 5. They would make 7 only if both were always wrong to the same side.")),
    ToVote(
        question="Two instruments say 3.00 H and 3.10 H, each with one sigma of 0.07 H. The two ...",
        options={"a": "contradict each other: the numbers differ", "b": "agree: they are one sigma apart",
                 "c": "agree only if a third one says 3.05 H"}, right="b",
        because="The difference has one sigma of √2 · 0.07 H = 0.10 H. Two honest measurements are that far apart, or "
                "farther, in about one case of three.",
        twin=ToVote(
            question="One bench says 150 pF, another 180 pF, each with one sigma of 5 pF. The two ...",
            options={"a": "agree: nobody is perfect", "b": "agree, since both intervals are wide",
                     "c": "are about four sigma apart: look for an error"}, right="c",
            because="The difference has one sigma of 7 pF, and 30 pF are more than four times that. Chance does that "
                    "less than once in ten thousand times.")))

LESSON = Lesson(
    id="08", title="Design and measure", version=2, exercises=(
        hum_pair, above_self_resonance, what_a_pickup_hears, what_is_left, two_resonances, added_capacitors, left_over,
        what_95_per_cent_says, rms_residual, twice_and_half, squares_add, do_they_agree, error_of_inductance,
        which_to_measure, uncertain_resonance, corrected_peak, metal_on_the_meter,
        wrong_zero, far_enough, rod_readings, other_rods, pickup, report, metal_detector),
    teaching_note=TEACHING_NOTE, evenings=EVENINGS, to_vote=TO_VOTE)
