"""Lesson 03, the string in the field: model answers, slips with their notes, worked answers, teaching note."""
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
SCALE_LENGTH = 0.600    # m, given in the question
HEIGHTS = np.array([2.3e-3, 2.5e-3, 2.7e-3])

STEEL_FULL = 1.9        # T, as the page has it
NAIL = 4e-3             # m, given in the question


def disc(diameter):
    return math.pi * diameter ** 2 / 4


def in_parallel(one, other):
    return one * other / (one + other)


def taken_off(path, branch):
    """What a branch in parallel with a path takes off its reluctance."""
    return path - in_parallel(path, branch)


def added_flux(mmf, magnet, near, far, branch):
    total = magnet + near + far
    return mmf / total * taken_off(near, branch) / total


def in_the_bar(mmf, r_magnet, r_near, r_far, r_bar):
    """Flux in a bar across the near air."""
    return mmf / (r_magnet + in_parallel(r_near, r_bar) + r_far) * r_near / (r_near + r_bar)


def slowest(teeth, circumference, frequency, voltage, threshold):
    """Speed at which the voltage, in proportion to it, has fallen to the threshold."""
    return frequency / teeth * circumference * threshold / voltage


def new_share(magnet, near, far):
    """Of the flux that a partial short circuit takes out of the near air, what is new in the loop."""
    return near / (magnet + near + far)


def bent_share(stiffness, tension, place):
    """The share by which the frequency falls."""
    return stiffness * SCALE_LENGTH * math.sin(math.pi * place) ** 2 / (math.pi ** 2 * tension)


def cents(stiffness, tension, place, share=lambda part: part):
    return 1200 * math.log2(1 - share(bent_share(stiffness, tension, place)))


# ---- quick questions -------------------------------------------------------------------------------------------------

small_change = ChoiceExercise(
    id="m1", quick=True, right="b",
    options={"a": "1 %", "b": "about an eighth of 1 %", "c": "7 %"},
    notes={"a": "It is about an eighth of 1 %: the air is only one part in eight of the whole loop.",
           "b": "Correct: the air is one part in eight of the loop, so the loop changes by an eighth of 1 %.",
           "c": "It is about an eighth of 1 %: the magnet's own reluctance, seven parts in eight, does not change."})

wider_disc = ChoiceExercise(
    id="m2", quick=True, right="c", options={"a": "stays the same", "b": "doubles", "c": "is four times as large"},
    notes={"a": "The flux is four times as large: B stays the same, the area does not.",
           "b": "It is four times as large: the area goes with the square of the diameter.",
           "c": "Correct: the area goes with the square of the diameter."})

speed_on_a_string = RecallExercise(
    id="m3", where="lesson 0 (Start here)",
    sentence="Its speed depends on the tension and on the wire, and neither has changed.")

which_for_two_branches = ChoiceExercise(
    id="s1", quick=True, right="c",
    options={"a": "a small change of the reluctance changes the flux by the same share",
             "b": "one after the other: the same flux runs through both, and the drops add up",
             "c": "between the same two points: both have the same drop, and the fluxes add up"},
    notes={"a": "That is step 4. Step 2 puts two branches together that begin and end at the same two points.",
           "b": "That is for the whole loop, step 1: there the reluctances add up. In step 2 the result is smaller "
                "than either of the two.",
           "c": "Correct: two branches in parallel."})

which_for_what_is_left = ChoiceExercise(
    id="s2", quick=True, right="a",
    options={"a": "over equal distances an equal share is lost",
             "b": "at twice the distance a quarter is left",
             "c": "over equal distances an equal amount is lost"},
    notes={"a": "Correct: that is what an exponential law says.",
           "b": "That is the inverse-square law, for points. Step 2 uses an exponential: equal distances, equal "
                "shares.",
           "c": "That would be a straight line, and it would reach zero. An exponential loses equal shares."})

# ---- predictions -----------------------------------------------------------------------------------------------------

flux_in_the_magnet = PredictionExercise(
    id="p1",
    question="The string is lifted from 2 mm to 4 mm. The flux in the magnet falls ...",
    options={"a": "by half", "b": "by a quarter", "c": "by a few per cent",
             "d": "by less than a fifth of a per cent"},
    seen_question="Set the height to 2 mm, then to 4 mm, and read what the string adds to the flux in the magnet. It "
                  "adds ...",
    seen_options={"a": "about half of the flux, then a quarter", "b": "a few per cent, then less",
                  "c": "one or two tenths of a per cent, then less than one tenth", "d": "nothing at all"},
    seen="c",
    seen_notes={
        "a": "Look again at the read-out in per cent, behind \"the string adds to the magnet\".",
        "b": "Look again: where is the decimal point in the read-out behind \"the string adds to the magnet\"?",
        "c": "Yes, that is what the panel shows. The whole signal of a pickup lives in this small part.",
        "d": "Nearly. Look again: the percentage is small, but is it zero?"})

signal_over_height = PredictionExercise(
    id="p2",
    question="The flux in the magnet hardly changes. And the signal? The string moves at 1 m/s: at 4 mm, how much is "
             "left of the signal at 2 mm?",
    options={"a": "nearly all: 99.9 %", "b": "about 80 %", "c": "about a third", "d": "about a hundredth"},
    seen_question="Set the height to 4 mm. The signal there is ...",
    seen_options={"a": "nearly as large as at 2 mm", "b": "about 80 % of it", "c": "about a third of it",
                  "d": "about a hundredth of it"},
    seen="c",
    seen_notes={
        "a": "Look again at the large number, the share of the signal at 2 mm.",
        "b": "Look again: is the height at 4 mm?",
        "c": "Yes, that is what the panel shows. The signal comes from the change alone, and the change is all near "
             "the pole.",
        "d": "Look again at the large number, the share of the signal at 2 mm."})

where_it_was = PredictionExercise(
    id="p5",
    question="Of the flux that the string gathers, how much had passed up through the turns of the coil before the "
             "string came?",
    options={"a": "none: the string draws new flux out of the magnet", "b": "about a quarter",
             "c": "about two thirds", "d": "more than nine tenths"},
    seen_question="Read the large number at 1.5 mm, at 2.5 mm and at 6 mm. It is ...",
    seen_options={"a": "zero, or nearly", "b": "about a quarter", "c": "about two thirds",
                  "d": "more than nine tenths, at each height"},
    seen="d",
    seen_notes={
        "a": "Look again at the large number, and at the two numbers that it comes from: gathered, and new in the "
             "turn.",
        "b": "Look again at the large number.",
        "c": "Look again at the large number, at all three heights.",
        "d": "Yes, that is what the panel shows. The flux was there; the string leads it another way above the coil."})

coming_nearer = PredictionExercise(
    id="p3",
    question="A fine string comes from 4 mm down to 1.5 mm. In a straight-line steel its flux would grow nearly "
             "threefold. In real wire the flux ...",
    options={"a": "grows nearly threefold, too", "b": "grows by about two thirds", "c": "stays as it is",
             "d": "falls, because the steel is full"},
    seen_question="Read the flux of the wire at 4 mm and at 1.5 mm and divide. It grows ...",
    seen_options={"a": "nearly threefold", "b": "by about two thirds", "c": "not at all"},
    seen="b",
    seen_notes={
        "a": "That is the straight-line steel. Look again at the read-out \"flux, wire\".",
        "b": "Yes, that is what the panel shows: near 1.9 T the steel has little left to give.",
        "c": "Look again: read \"flux, wire\" at 4 mm and at 1.5 mm and divide."})

pitch_near_a_magnet = PredictionExercise(
    id="p4",
    question="The magnet pulls on the string. When the magnet comes nearer, the string sounds ...",
    options={"a": "higher, because it is pulled tighter", "b": "lower, by some cents",
             "c": "lower, by more than a semitone",
             "d": "just the same"},
    seen_question="Move the height from 4 mm to 1.5 mm. The pitch ...",
    seen_options={"a": "rises", "b": "falls by 10 to 30 cents", "c": "falls by more than 100 cents",
                  "d": "stays the same"},
    seen="b",
    seen_notes={
        "a": "Look again at the sign in the read-out \"change of pitch\".",
        "b": "Yes, that is what the panel shows. A pull that grows towards the magnet is a negative spring.",
        "c": "Look again: the read-out is in cents, and a semitone is 100 cents.",
        "d": "Look again at the read-out \"change of pitch\" at 1.5 mm."})

known_best = PredictionExercise(
    id="p6", further=True,
    question="String III is at 4 mm. Three numbers are computed, and magnet, steel, heights and turns are known within "
             "their ranges only. Which number is known best, in per cent?",
    options={"a": "its signal, in millivolts", "b": "its signal divided by its own signal at 2 mm",
             "c": "its signal divided by that of string VI at 4 mm", "d": "all three equally well"},
    seen_question="Set the height to 4 mm. The narrowest of the three bands is that of ...",
    seen_options={"a": "the signal", "b": "the signal divided by its own at 2 mm",
                  "c": "the signal divided by that of string VI", "d": "none: they are equally wide"},
    seen="c",
    seen_notes={
        "a": "Look again: the signal is the shaded band.",
        "b": "Look again at 4 mm, at both of the ratios' read-outs.",
        "c": "Yes, that is what the panel shows. Both strings are of one steel and over one kind of magnet.",
        "d": "Look again at the three read-outs in per cent."})

# ---- exercises -------------------------------------------------------------------------------------------------------

lines_of_the_bar = ChoiceExercise(
    id="3.11", right="b",
    options={"a": "fewer than 12: the steel keeps some of them", "b": "12",
             "c": "more than 12: the bar is a magnet now, and adds lines of its own"},
    notes={"a": "A line has no end. Draw a closed surface round the bar: how much flux goes in, all in all?",
           "b": "Correct: the bar has a closed surface, too.",
           "c": "The lines that a magnet adds outside run on inside of it. Draw a closed surface round the bar: how "
                "much flux goes in, all in all?"},
    worked="Round the bar, a closed surface: as much flux goes out as comes in (lesson 1). The bar does become a "
           "magnet; but the flux of a magnet, too, runs round and is closed. So 12 come out, further on.",
    teaching_note="Look at the drawings first, and let nobody rub anything out: four points to compare with are below "
                  "the panel. Lines that end in the steel, or only at its ends, are the frequent ones.")

four_branches = OrderExercise(
    id="3.12", right="d > a = c > b",
    options={"a": "height 2.0 mm, area 8 mm²", "b": "height 4.0 mm, area 8 mm²", "c": "height 3.0 mm, area 12 mm²",
             "d": "height 2.0 mm, area 12 mm²"},
    slips=(Slip("reluctance", "b > a = c > d",
                "That is the order of the reluctances. Which branch gathers more, one that is easy to pass, or one "
                "that is hard?"),
           Slip("further away", "b > a", "A longer gap is harder to pass. What does that do to the flux?"),
           Slip("smaller area", "a > d", "Both are at one height. Is a wider gap easier to pass, or harder?"),
           Slip("height alone", "a > c", "You compared heights. The areas differ, too: what becomes of h/A?"),
           Slip("area alone", "c > a", "You compared areas. The heights differ, too: what becomes of h/A?")),
    notes=("All four lie across the same near air. By what alone do the branches differ?",
           "R_string = 2h/(μ₀A): only h/A counts here. The easier branch gathers more flux.",
           "Another two: 1.5 mm with 6 mm², and 3.5 mm with 14 mm². Both have h/A = 0.25 per mm: a tie."),
    worked="h/A is 0.25 per mm for (a), 0.50 for (b), 0.25 for (c) and 0.167 for (d). Across the same near air the "
           "branch with the least h/A gathers most: {order}.",
    teaching_note="No calculator. Who says a > c has looked at the height alone; ask for a third pair that ties with "
                  "the two.")

flux_added = NumberExercise(
    id="3.2", unit="nWb", tolerance=0.03, size=(1, 30), marks=3,
    given={"mmf": Given("MMF of the magnet", unit="A", low=2300, high=2900, step=20),
           "magnet": Given("reluctance of the magnet", unit="MA/Wb", low=170, high=200, step=1),
           "near": Given("near air", unit="MA/Wb", low=5, high=9, step=0.1),
           "far": Given("far air", unit="MA/Wb", low=18, high=23, step=0.1),
           "branch": Given("string branch", unit="MA/Wb", low=350, high=600, step=5)},
    answer=added_flux,
    fuller=lambda mmf, magnet, near, far, branch: (
        mmf / (magnet + near + far - taken_off(near, branch)) - mmf / (magnet + near + far)),
    slips=(Slip("all of the air", lambda mmf, magnet, near, far, branch:
                mmf * taken_off(near + far, branch) / (magnet + near + far) ** 2,
                "Which part of the air is the string in parallel with? The far part stays as it is."),
           Slip("far air", lambda mmf, magnet, near, far, branch:
                mmf * taken_off(far, branch) / (magnet + near + far) ** 2,
                "Which part of the air is the string in parallel with, the near one or the far one?"),
           Slip("flux in the string", lambda mmf, magnet, near, far, branch:
                mmf / (magnet + near + far) * near / (near + branch),
                "That is about the flux in the string itself. The question asks what the flux in the magnet gains."),
           # (magnet + near) || (branch + far): the flux grows by half of itself
           Slip("brackets", lambda mmf, magnet, near, far, branch:
                mmf / in_parallel(magnet + near, branch + far) - mmf / (magnet + near + far),
                "Where do the brackets of the formula begin and end? Which two reluctances are in parallel, and which "
                "are in series with that pair?"),
           Slip("in series", lambda mmf, magnet, near, far, branch:
                mmf / (magnet + near + far + branch) - mmf / (magnet + near + far),
                "The string offers a further path. Can a further path raise the reluctance?"),
           Slip("the whole flux", lambda mmf, magnet, near, far: mmf / (magnet + near + far),
                "That is the flux in the magnet. The question asks by how much the string makes it grow."),
           # typed: 0.046 for a change of 0.046 %
           Slip("share in per cent", lambda magnet, near, far, branch:
                1e-9 * 100 * taken_off(near, branch) / (magnet + near + far),
                "That is the change in per cent of the flux. The question asks for the change itself, in nWb."),
           # typed in nWb: 0.107 for 0.107 MA/Wb
           Slip("change of the reluctance", lambda near, branch: 1e-9 * taken_off(near, branch) / 1e6,
                "That is the change of the reluctance, in MA/Wb. What share of the whole loop is it?"),
           Slip("MMF divided by the change", lambda mmf, near, branch: mmf / taken_off(near, branch),
                "You divided by the change of the reluctance. What share of the whole reluctance is it?")),
    common=("sign", "prefix", "million"),
    steps={"total": Step("MA/Wb", lambda magnet, near, far: magnet + near + far),
           "change": Step("MA/Wb", lambda near, branch: taken_off(near, branch)),
           "flux": Step("uWb", lambda mmf, magnet, near, far: mmf / (magnet + near + far))},
    notes=("In steps: the whole reluctance without string, the flux; then near air and string in parallel: how much "
           "less is that than the near air alone? Keep six figures: you subtract two nearly equal numbers.",
           "For a small change the shares are equal: ΔΦ/Φ = ΔR/R, where R is the whole loop."),
    twin=Twin({"mmf": 2000, "magnet": 170, "near": 10, "far": 20, "branch": 490},
              "Another string: {magnet}, {near} and {far} make {total}, so the flux is {flux}. With the "
              "string branch of {branch} in parallel the near air loses {change}: one thousandth of the whole. So the "
              "flux gains one thousandth, {answer}."),
    worked="The loop has {total} and carries {flux}. With {branch} in parallel the near air of {near} loses {change}. "
           "The same share of the flux is gained: {answer}.",
    teaching_note="Twenty to fifty times too much: that is the flux in the string. Nine to thirty times: all of the "
                  "air was taken. Several thousand nWb: the brackets were read as (magnet + near) || (string + far). "
                  "Whoever keeps only three figures of near air and string in parallel loses the answer in the "
                  "rounding: a good moment to speak of differences.")

flux_in_a_bar = FormulaExercise(
    id="3.13", asked="Wb", marks=2,
    symbols={"mmf": Symbol("MMF of the magnet", "A", 2000, 3000),
             "r_magnet": Symbol("reluctance of the magnet", "MA/Wb", 20, 40),
             "r_near": Symbol("near air", "MA/Wb", 10, 30), "r_far": Symbol("far air", "MA/Wb", 8, 25),
             "r_bar": Symbol("branch of the bar", "MA/Wb", 10, 30)},
    answer=in_the_bar,
    written="mmf / (r_magnet + r_near*r_bar/(r_near + r_bar) + r_far) * r_near/(r_near + r_bar)",
    slips=(Slip("flux in the magnet", lambda mmf, r_magnet, r_near, r_far, r_bar:
                mmf / (r_magnet + in_parallel(r_near, r_bar) + r_far),
                "That is the flux in the magnet. It divides between near air and bar: what share takes the bar?"),
           Slip("flux in the near air", lambda mmf, r_magnet, r_near, r_far, r_bar:
                mmf / (r_magnet + in_parallel(r_near, r_bar) + r_far) * r_bar / (r_near + r_bar),
                "The easier the bar's way, the more flux takes it. Does your share grow when r_bar gets small?"),
           Slip("as if the bar changed nothing", lambda mmf, r_magnet, r_near, r_far, r_bar:
                mmf / (r_magnet + r_near + r_far) * r_near / (r_near + r_bar),
                "Your loop is the one without the bar. This bar is as easy to pass as the near air: is the flux in "
                "the magnet still what it was?"),
           Slip("brackets", lambda mmf, r_magnet, r_near, r_far, r_bar:
                mmf / in_parallel(r_magnet + r_near, r_bar + r_far) * r_near / (r_near + r_bar),
                "Where do the brackets of the page's formula begin and end? Which two reluctances are in parallel?"),
           Slip("brackets, all of it", lambda mmf, r_magnet, r_near, r_far, r_bar:
                mmf / in_parallel(r_magnet + r_near, r_bar + r_far),
                "Where do the brackets of the page's formula begin and end? Which two reluctances are in parallel?"),
           Slip("across all of the air", lambda mmf, r_magnet, r_near, r_far, r_bar:
                mmf / (r_magnet + in_parallel(r_near + r_far, r_bar)) * (r_near + r_far) / (r_near + r_far + r_bar),
                "Across which part of the air is the bar? The far air comes after the two."),
           Slip("in series", lambda mmf, r_magnet, r_near, r_far, r_bar: mmf / (r_magnet + r_near + r_far + r_bar),
                "You added them all up, as if the bar came after the air. It offers a second path beside the near "
                "air."),
           Slip("bar alone", lambda mmf, r_bar: mmf / r_bar,
                "You let all of the MMF drop across the bar. What drop is left between its two ends?"),
           Slip("no near air", lambda mmf, r_magnet, r_far, r_bar: mmf / (r_magnet + r_bar + r_far),
                "Some flux still goes through the near air. Where is r_near in your formula?"),
           Slip("sum for parallel", lambda mmf, r_magnet, r_near, r_far, r_bar:
                mmf / (r_magnet + r_near + r_bar + r_far) * r_near / (r_near + r_bar),
                "Two paths in parallel are easier to pass than either alone. Is your sum of the two smaller than "
                "each?"),
           Slip("gain of the magnet", lambda mmf, r_magnet, r_near, r_far, r_bar:
                mmf / (r_magnet + in_parallel(r_near, r_bar) + r_far) - mmf / (r_magnet + r_near + r_far),
                "That is what the magnet gains. The question asks for all of the flux in the bar.")),
    notes=("Two steps: first the flux in the magnet, with the bar there. Then: how does it divide between near air and "
           "bar?",
           "In parallel both have the same drop, r_near times its flux and r_bar times its flux; and the two fluxes "
           "together are the flux in the magnet.",
           "With numbers: 2000 A; in MA/Wb 150 for the magnet, near air 20, bar 20, far air 40. The pair has 10, the "
           "loop 200, so the magnet has 10 µWb. The drop across the pair is 10 µWb × 10 MA/Wb = 100 A, and the bar "
           "carries 100 A/(20 MA/Wb) = 5 µWb."),
    worked="The pair has r_near r_bar/(r_near + r_bar), so the magnet has the flux mmf/(r_magnet + pair + r_far). The "
           "drop across the pair is that flux times the pair; divided by r_bar it is the flux in the bar. The pair "
           "divided by r_bar is r_near/(r_near + r_bar): the harder the other way, the more takes this one. All "
           "together: mmf / (r_magnet + r_near*r_bar/(r_near + r_bar) + r_far) * r_near/(r_near + r_bar).",
    teaching_note="Let them test it in their heads before they type: what should come out for r_bar without limit, and "
                  "what for r_bar = 0? (Nothing; and mmf/(r_magnet + r_far).) With a thin string one may leave the "
                  "string out of the loop, with a bar not.")

what_is_new = NumberExercise(
    id="3.9", unit="nWb", tolerance=0.02, size=(1, 15), marks=2, further=True,
    given={"flux": Given("flux in the string", unit="nWb", low=110, high=190, step=2),
           "magnet": Given("reluctance of the magnet", unit="MA/Wb", low=170, high=200, step=1),
           "near": Given("near air", unit="MA/Wb", low=5, high=9, step=0.1),
           "far": Given("far air", unit="MA/Wb", low=18, high=23, step=0.1)},
    answer=lambda flux, magnet, near, far: flux * new_share(magnet, near, far),
    slips=(Slip("passed before", lambda flux, magnet, near, far: flux * (1 - new_share(magnet, near, far)),
                "That is the part that ran through the magnet before. The question asks for the part that is new."),
           Slip("all of the air", lambda flux, magnet, near, far: flux * (near + far) / (magnet + near + far),
                "Across which part of the air does the string lie? Only that part is spared a drop."),
           Slip("far air", lambda flux, magnet, near, far: flux * far / (magnet + near + far),
                "Across which part of the air does the string lie, the near one or the far one?"),
           Slip("far air left out", lambda flux, magnet, near: flux * near / (magnet + near),
                "The drop drives flux round the whole loop. Which part of the loop is missing below your fraction "
                "bar?"),
           Slip("of the air only", lambda flux, near, far: flux * near / (near + far),
                "The drop drives flux round the whole loop. Is the magnet in your sum?"),
           # typed: 33.1 for 160 * 7 / 185 + 7 + 20
           Slip("no brackets", lambda flux, magnet, near, far: flux * near / magnet + 1e-15 * (near + far),
                "A calculator does not see a long fraction bar. Which sum needs brackets?"),
           Slip("upside down", lambda flux, magnet, near, far: flux / new_share(magnet, near, far),
                "Can more be new than the string carries? Which of the two belongs above the fraction bar?"),
           # typed: 3.2 for a share of 3.2 %
           Slip("share in per cent", lambda magnet, near, far: 1e-7 * new_share(magnet, near, far),
                "That is the share in per cent. The question asks for the flux itself, in nWb.")),
    common=("prefix", "million"),
    steps={"total": Step("MA/Wb", lambda magnet, near, far: magnet + near + far),
           "share": Step("%", new_share)},
    notes=("First the reluctance of the whole loop without the string. Which part of it is the near air?",
           "ΔΦ = Φ_string R_near/R, where R is magnet, near air and far air together."),
    twin=Twin({"flux": 400, "magnet": 150, "near": 20, "far": 30},
              "Another string, with {flux}: the loop of {magnet}, {near} and {far} has {total}. The near air is "
              "{share} of it, and so much of the string's flux is new: {answer}."),
    worked="The loop has {total}, and the near air is {share} of it. That share of {flux} is new in the magnet: "
           "{answer}. All the rest ran through the magnet before.",
    teaching_note="Ask for the rest, too: it is nearly everything. Then ask what a string across all of the air would "
                  "do: then a tenth and more would be new.")

softer_steel = ChoiceExercise(
    id="3.10", right="b",
    options={"a": "three times as large", "b": "the same as before", "c": "a third of what it was"},
    notes={"a": "The new flux itself is three times as large. And its share of what the string gathers?",
           "b": "What counts for the share is only which part of the loop the string lies across.",
           "c": "More flux takes the string's way, and more is new. In what ratio do the two grow?"},
    worked="The share is R_near/R, and the string is not in it: three times the flux in the string, three times the "
           "new flux. (The computed model says nearly the same: of a straight-line steel with permeability 100, 3.0 % "
           "of what it gathers at 2.5 mm is new in the magnet, and 3.6 % with 1000.)",
    teaching_note="Who says \"three times\" has the new flux in mind, and is right about that.")

central_difference = NumberExercise(
    id="3.3", unit="nWb/mm", tolerance=0.03, size=(3, 60),
    given={},
    hidden={"middle": Given("flux at 2.5 mm", unit="nWb", low=20, high=32, step=0.5),
            "decay": Given("decay of the flux", unit="mm", low=1.9, high=2.3, step=0.05)},
    derived={"height": Derived("height of the string", unit="mm", decimals=1,
                               formula=lambda middle: HEIGHTS + 0 * middle),
             "flux": Derived("added to the flux of a turn", unit="nWb", decimals=2,
                             formula=lambda middle, decay: middle * np.exp(-(HEIGHTS - 2.5e-3) / decay))},
    answer=lambda height, flux: (flux[0] - flux[2]) / (height[2] - height[0]),
    slips=(Slip("half the distance", lambda height, flux: (flux[0] - flux[2]) / (height[1] - height[0]),
                "From the first row to the last: over what distance did the flux change?"),
           # typed in nWb/mm: 5.4 for 5.4 nWb
           Slip("not divided", lambda flux: (flux[0] - flux[2]) * 1e3,
                "That is a change of flux, in nWb. Over what distance does it happen?"),
           Slip("flux divided by height", lambda height, flux: flux[1] / height[1],
                "A slope is one change divided by another. You divided the flux itself by the height itself."),
           Slip("multiplied", lambda height, flux: (flux[0] - flux[2]) * (height[2] - height[0]) * 1e6,
                "For each millimetre: do you multiply by the distance, or divide by it?"),
           Slip("minus", lambda height, flux: -(flux[0] - flux[2]) / (height[2] - height[0]),
                "The number is right. The question asks for the magnitude: leave the minus out.")),
    common=("thousand", "million"),
    steps={"fall": Step("nWb", lambda flux: flux[0] - flux[2]),
           "distance": Step("mm", lambda height: height[2] - height[0])},
    notes=("Take the first row and the last: by how much does the flux fall, and over what distance?",
           "A slope is the change of the flux divided by the change of the height."),
    twin=Twin({"height": [2.0, 2.5, 3.0], "flux": [40.0, 32.0, 25.0]},
              "Another string, at {height} with {flux}: from first to last the flux falls by {fall} over {distance}. "
              "That is {answer}."),
    worked="From the first height to the last the flux falls by {fall} over {distance}: {answer}.",
    teaching_note="Why not from row to row? The slopes of the two steps differ by some 10 %, and their mean is this "
                  "one.")

level_over_distance = CurveExercise(
    id="3.14", right="the law",
    x=CurveAxis("distance moved", "mm", 1, 0, 4), y=CurveAxis("change of level", "dB", 1),
    given={"decay": Given("decay length of the signal", unit="mm", low=2.4, high=3.2, step=0.1)},
    # 0 - ..., so that they begin at 0 and not at -0
    curves=lambda x, decay: {"the law": 0 - 20 * math.log10(math.e) * x / decay,
                             "ten for twenty": 0 - 10 * math.log10(math.e) * x / decay,
                             "inverse square": 0 - 40 * np.log10(1 + x / 2e-3),
                             "the signal itself": 0 - 20 * (1 - np.exp(-x / decay))},
    notes={"the law": "Correct: over equal distances equal shares, so equal numbers of decibels, 8.7 for each decay "
                      "length.",
           "ten for twenty": "Look at one decay length away: 37 % of the signal is left. How many decibels are that?",
           "inverse square": "Here each millimetre costs fewer decibels than the one before. What share does an "
                             "exponential law take for each?",
           "the signal itself": "This is how the signal itself falls, less and less for each millimetre. What does a "
                                "logarithm make of equal shares?"},
    worked="Over equal distances an equal share is lost; in decibels that is an equal amount. So the curve is a "
           "straight line. There are two: after one decay length, {decay}, 0.37 of the signal is left, and 20 log₁₀ "
           "0.37 = −8.7 dB. That is curve {letter}.",
    teaching_note="Two of the four are straight; the point at one decay length tells them apart. The bent ones are an "
                  "inverse square of the height, from 2 mm on, and the exponential drawn as if it were decibels.")

level_change = NumberExercise(
    id="3.4", unit="dB", tolerance=0.1, size=(-10, -0.5), marks=2, further=True,
    given={"away": Given("how far the string goes away", unit="mm", low=0.4, high=1.2, step=0.05),
           "decay": Given("decay length of the signal", unit="mm", low=2.6, high=3.5, step=0.05)},
    answer=lambda away, decay: 20 * math.log10(math.exp(-away / decay)),
    slips=(Slip("ratio", lambda away, decay: math.exp(-away / decay),
                "That is what is left, as a plain ratio. How many decibels are that?"),
           Slip("exponent", lambda away, decay: -away / decay,
                "That is the natural logarithm of the ratio. Decibels are 20 times the logarithm to base ten."),
           Slip("upside down", lambda away, decay: -20 * math.log10(math.e) * decay / away,
                "A longer decay length means a slower fall. Which of the two lengths belongs above the fraction bar?")),
    common=("reference", "ten log", "natural log"),
    steps={"ratio": Step("1", lambda away, decay: math.exp(-away / decay))},
    notes=("First the plain ratio: what is left of the signal at the new height? Then decibels.",
           "The law says S ~ exp(−h/δ). A level change is 20 log₁₀ of the new signal divided by the old one."),
    twin=Twin({"away": 2.0, "decay": 2.0},
              "Another pickup: {away} further with a decay length of {decay} leaves e⁻¹ = {ratio}. 20 log₁₀ 0.3679 is "
              "{answer}."),
    worked="What is left is exp(−{away}/{decay}) = {ratio}. 20 log₁₀ of it is {answer}.",
    teaching_note="8.69 dB for each decay length. A loss is negative: the old signal is the reference.")

five_signals = OrderExercise(
    id="3.15", marks=2, right="b > c > d > a > e",
    options={"a": "steel, 0.30 mm, at 2.5 mm", "b": "steel, 0.60 mm, at 2.5 mm", "c": "steel, 0.60 mm, at 4.0 mm",
             "d": "as (a), but over a magnet of twice the remanence", "e": "bronze, 0.60 mm, at 2.5 mm"},
    slips=(Slip("twice the magnet, twice the signal", "d > c",
                "What did the library say above: twice the magnet makes the signal how many times as large?"),
           Slip("bronze like steel", "e > a", "Of what must a wire be, so that a magnet makes anything of it?"),
           Slip("distance above all", "a > c",
                "Twice the diameter: how many times the signal? And 1.5 mm further away: how much of it is left?"),
           Slip("magnet counts for nothing", "d = a", "Hardly more is still more."),
           Slip("magnet weakens", "a > d", "Can more magnet give a wire less? Look at the listing above."),
           Slip("smallest first", "e > a > d > c > b", "Which end of the order comes first in this question?")),
    notes=("Take (a) as 1 and find how many times as large each of the others is, roughly.",
           "The signal goes with the square of the diameter; each 2.1 mm further away (one rod, round coil) leaves 37 "
           "%; and near saturation more magnet gives hardly more.",
           "Another pair: 0.20 mm at 2.5 mm against 0.60 mm at 4.6 mm. Nine times by the diameter, 37 % by the "
           "distance: the thick one still gives about three times as much."),
    worked="Relative to (a): (b) has twice the diameter, so about four times the signal. (c) is 1.5 mm further away "
           "and keeps about half of that, twice (a). (The computed model says 3.9 and 1.7.) (d) gains hardly "
           "anything, since the wire is nearly full: 1.1. (e) is not magnetic: nothing. So {order}.",
    teaching_note="The exercise is to put three laws on one scale. Who puts (d) before (c) trusts the magnet more than "
                  "the steel.")

flux_in_a_nail = EstimateExercise(
    id="3.16", unit="nWb", factor=2, size=(10, 1e6),
    answer=lambda: STEEL_FULL * disc(NAIL),
    because="full steel has about 1.9 T, and the nail a cross-section of 12.6 square millimetres",
    slips=(Slip("flux density", lambda: STEEL_FULL * 1e-9, "That is a flux density, in T. Through which area?"),
           Slip("area", lambda: disc(NAIL) * 1e6 * 1e-9,
                "That is the cross-section, in mm². What B has steel that is full?"),
           Slip("circumference", lambda: STEEL_FULL * math.pi * NAIL,
                "Flux is B times an area. Did you take the way round the nail?"),
           Slip("area in mm2", lambda: STEEL_FULL * disc(NAIL) * 1e6,
                "One square millimetre is 10⁻⁶ m². And one nWb is 10⁻⁹ Wb.")),
    common=("prefix",),
    notes=("What limits the flux in steel, however strong the magnet? And is 4 mm a radius or a diameter?",
           "Flux is B times cross-section; no steel carries much more than the B at which it is saturated."),
    twin=Twin({}, "A sewing needle of 1 mm has less than 1 mm² of steel. Near 2 T that can carry some 1500 nWb, not "
                  "more."),
    worked="The nail has π (2 mm)² = 12.6 mm². Full steel has about 1.9 T: 24 000 nWb. That is twice the flux of the "
           "whole house magnet, 12 400 nWb, so the house magnet can never fill the nail. String VI is full with 320 "
           "nWb, and leads 231 to each side.",
    teaching_note="A good pair of numbers to end the section with: what a nail can carry, and what a string can. Any "
                  "value from 1.5 to 2.2 T is a good reason.")

near_saturation = ChoiceExercise(
    id="3.6", right="b",
    options={"a": "larger by 20 %", "b": "larger, but by much less than 20 %", "c": "no larger: it is at its limit",
             "d": "smaller, because the steel is full"},
    notes={"a": "That is the straight-line steel. How far is 1.6 T from the 1.9 T of the panel's dotted line?",
           "b": "The last bit up to saturation costs more and more field; the permeability is no longer constant.",
           "c": "Look at the panel's curve for the wire: is it level at 1.6 T?",
           "d": "More field never gives less flux in steel. Look at the panel's curve for the wire."},
    worked="At 1.6 T the wire is near its saturation of about 1.9 T. The flux still grows, but by much less than the "
           "20 % of the straight line: the permeability is no longer constant.",
    teaching_note="Ask what this does to the signal: the slope of the flux is the signal, and the slope is what "
                  "saturation takes.")

detuning = NumberExercise(
    id="3.7", unit="cents", tolerance=0.1, size=(-40, -0.5), marks=2,
    given={"stiffness": Given("slope of the pull", unit="N/m", low=5, high=14, step=0.5),
           "tension": Given("tension of the string", unit="N", low=62, high=85, step=1),
           "place": Given("place of the pickup, share of the length", unit="1", low=0.20, high=0.28, step=0.01)},
    answer=lambda stiffness, tension, place: cents(stiffness, tension, place),
    fuller=lambda stiffness, tension, place: 1200 * math.log2(math.sqrt(
        1 - 2 * bent_share(stiffness, tension, place))),
    slips=(Slip("sign", lambda stiffness, tension, place: cents(stiffness, tension, place, lambda part: -part),
                "A magnet that pulls is a negative spring: does it make the string stiffer or softer?"),
           Slip("no sine", lambda stiffness, tension: cents(stiffness, tension, 0.5),
                "Where the string hardly moves, the pull can do little. Which factor says how far it moves at the "
                "pickup?"),
           Slip("sine not squared", lambda stiffness, tension, place:
                cents(stiffness, tension, place, lambda part: part / math.sin(math.pi * place)),
                "Energy goes with the square of the amplitude. To what power does the formula raise the sine?"),
           Slip("pi left out", lambda stiffness, tension, place:
                cents(stiffness, tension, place, lambda part: part * math.pi ** 2),
                "About ten times too much. What multiplies the tension, below the fraction bar?"),
           Slip("base ten", lambda stiffness, tension, place:
                cents(stiffness, tension, place) * math.log10(2),
                "1200 cents are an octave, a factor of 2 in frequency. Which base of the logarithm belongs to that?"),
           Slip("natural logarithm", lambda stiffness, tension, place: cents(stiffness, tension, place) * math.log(2),
                "1200 cents are an octave, a factor of 2 in frequency. Which base of the logarithm belongs to that?"),
           # about the same number as with the natural logarithm: both notes are told
           Slip("no logarithm", lambda stiffness, tension, place: -1200 * bent_share(stiffness, tension, place),
                "That is 1200 times the share itself. Cents are a logarithm of the ratio of two frequencies: which "
                "step is left out?"),
           Slip("stiffness for frequency", lambda stiffness, tension, place:
                cents(stiffness, tension, place, lambda part: 2 * part),
                "Too large by a factor of two. Frequency goes with the root of the stiffness: which of the two changes "
                "did you take?"),
           Slip("degrees", lambda stiffness, tension, place:
                cents(stiffness, tension, place, lambda part: part * (math.sin(math.radians(math.pi * place))
                                                                      / math.sin(math.pi * place)) ** 2),
                "Does your calculator count angles in degrees? Here they are in radians: π is half a turn."),
           # typed: -0.45 for a change of -0.45 %
           Slip("per cent", lambda stiffness, tension, place:
                -100 * bent_share(stiffness, tension, place),
                "That is the change of the frequency in per cent. How many cents is it?")),
    steps={"sine": Step("1", lambda place: math.sin(math.pi * place) ** 2),
           "share": Step("%", lambda stiffness, tension, place: bent_share(stiffness, tension, place))},
    notes=("First the sine, squared, of π times the place (in radians). Then the share Δf/f, then cents.",
           "Δf/f = −K L sin²(πq)/(π² T), and cents are 1200 log₂(1 + Δf/f)."),
    twin=Twin({"stiffness": 20, "tension": 70, "place": 0.50},
              "A magnet under the middle, {place}, where sin² is {sine}: 20 × 0.600 × 1/(π² × 70) is {share}. A "
              "frequency lower by that share makes 1200 log₂(1 − 0.01737) = {answer}."),
    worked="sin²(π × {place}) is {sine}. K L times that, divided by π² T, is {share}. A frequency lower by that share "
           "is a change of pitch of {answer}.",
    teaching_note="At a higher fret the string is shorter and q is different: the same magnet detunes every fret "
                  "differently.")

energy_of_the_pull = TextExercise(
    id="3.8",
    rubric=((1, "Energy: what the pull takes on the way out it gives back on the way in; it neither drives nor "
                "brakes."),
            (1, "Retuned: a pull that grows towards the magnet is a negative spring, so the note is lower."),
            (1, "When to lower the pickup: beats or false notes on thick strings; the price is level.")),
    worked="The pull depends only on where the string is. On the way towards the magnet it does work on the string, on "
           "the way back the string does the same work against it: over a swing nothing is left. So the magnet neither "
           "drives the string nor takes energy from it; it makes it softer, and the note lower. It does so for motion "
           "up and down. Sideways the string is pulled back to the middle of the pole, so that note is a little "
           "higher: 3 cents up against 11 down for string VI at 2.5 mm. The two beat with each other, and that can "
           "sound like a note that dies early. (A pickup set too close has been measured to shorten the sustain: in "
           "our reading not because it takes energy, but because it changes how the two motions exchange it.) I would "
           "lower the pickup where thick strings near it beat or are out of tune high up the neck. The price is level: "
           "over one rod about a third of the signal is left when 2 mm become 4 mm.",
    teaching_note="\"The magnet brakes the string\" is the frequent first sentence. Ask where the energy would go. Two "
                  "measurements are on the page: no damping by the pickup, and less sustain with the pickup too close. "
                  "The argument leaves the wire's hysteresis out, which takes a little.")

deaf_below = NumberExercise(
    id="3.17", unit="m/s", tolerance=0.03, size=(0.2, 20), marks=2, further=True,
    given={"teeth": Given("teeth of the ring", unit="1", low=38, high=54, step=1),
           "circumference": Given("circumference of the wheel", unit="m", low=1.70, high=1.94, step=0.02),
           "frequency": Given("frequency", unit="Hz", low=300, high=600, step=10),
           "voltage": Given("voltage at this frequency", unit="V", low=1.2, high=2.0, step=0.05),
           "threshold": Given("least voltage that is noticed", unit="mV", low=100, high=150, step=5)},
    answer=slowest,
    slips=(Slip("speed of the reading", lambda teeth, circumference, frequency:
                frequency / teeth * circumference,
                "At that speed the voltage is the one given. At which speed is it only as large as the threshold?"),
           Slip("frequency at the threshold", lambda frequency, voltage, threshold: frequency * threshold / voltage,
                "That is a frequency, in Hz. How many teeth pass for each turn of the wheel, and how far does the car "
                "go?"),
           Slip("teeth left out", lambda circumference, frequency, voltage, threshold:
                frequency * circumference * threshold / voltage,
                "How often does the voltage go up and down in one turn of the wheel?"),
           Slip("turns per second", lambda teeth, frequency, voltage, threshold:
                frequency / teeth * threshold / voltage,
                "That is how many turns the wheel makes in a second. How far does the car go on each?"),
           Slip("gaps counted, too", lambda teeth, circumference, frequency, voltage, threshold:
                slowest(teeth, circumference, frequency, voltage, threshold) / 2,
                "Tooth and gap together make one swing of the voltage, not two."),
           Slip("voltages upside down", lambda teeth, circumference, frequency, voltage, threshold:
                slowest(teeth, circumference, frequency, threshold, voltage),
                "A smaller voltage: is the car slower then, or faster?"),
           Slip("teeth upside down", lambda teeth, circumference, frequency, voltage, threshold:
                frequency / circumference / teeth * threshold / voltage,
                "A larger wheel goes further in one turn. Does your speed grow with the circumference?"),
           Slip("km/h", lambda teeth, circumference, frequency, voltage, threshold:
                3.6 * slowest(teeth, circumference, frequency, voltage, threshold),
                "That is in kilometres an hour. The question asks for metres a second.")),
    common=("thousand",),
    steps={"turns": Step("Hz", lambda teeth, frequency: frequency / teeth),
           "speed": Step("m/s", lambda teeth, circumference, frequency: frequency / teeth * circumference),
           "part": Step("%", lambda voltage, threshold: threshold / voltage)},
    notes=("First the speed of the car at the reading: teeth in a second, turns in a second, metres in a second.",
           "The voltage is in proportion to the speed: a tenth of the voltage, a tenth of the speed."),
    twin=Twin({"teeth": 100, "circumference": 2.0, "frequency": 1000, "voltage": 4.0, "threshold": 400},
              "A finer ring, {teeth} teeth, at {frequency}: {turns} for the wheel, so {speed} for the car. {threshold} "
              "is {part} of {voltage}: {answer}."),
    worked="{frequency} divided by {teeth} teeth is {turns} for the wheel; with {circumference} a turn the car does "
           "{speed}. {threshold} is {part} of {voltage}, and so is the speed: {answer}.",
    teaching_note="That is about a walking pace. Ask what else makes the voltage smaller (a wider gap between ring and "
                  "pole), and what one broken tooth would look like: one swing missing in each turn.")

which_to_trust = ChoiceExercise(
    id="3.18", right="c", further=True,
    options={"a": "the signal of string III at 4 mm, in millivolts",
             "b": "the signal of string III at 4 mm divided by its own at 2 mm",
             "c": "the signal of string III at 4 mm divided by that of string VI at 4 mm",
             "d": "the height at which string III gives 40 mV, in millimetres"},
    notes={"a": "That takes all of it: magnet, steel, ruler and turns. Which number lets most of them drop out?",
           "b": "Magnet, ruler and turns nearly drop out. And the steel: is the wire as full at 4 mm as at 2 mm?",
           "c": "Correct: magnet, steel, ruler and turns act alike on both strings.",
           "d": "Steel and magnet move that whole curve, and the height with it. In which number do they drop out?"},
    worked="Ask of each what its two parts have in common. (a) and (d) have no second part. In (b) they have ruler and "
           "turns in common, but not the state of the steel: it is nearly full at 2 mm and not at 4 mm, so its "
           "permeability counts in one and hardly in the other. In (c) steel, magnet and turns act alike on both and "
           "nearly drop out, and so does the ruler, since its zero is wrong by the same for both: two out of three "
           "are within half a per cent, where (a) and (b) have some 20 % and (d) has 11 %.",
    teaching_note="In the panel each height is read by itself, so the ruler stays in the ratio of two strings; here "
                  "its zero is common. Ask for a ratio that drops nothing at all: two strings of two steels, each over "
                  "a magnet of its own.")

TEACHING_NOTE = """
**Demonstration with real parts.** A rod magnet upright, 20 cm of steel string held across it with pliers, a gauss probe
on the far side of the string. Move the string away and back: beside the string the probe reads a change, at the
rod's middle none. Then hang the string from a thread beside the magnet and bring it nearer: from some distance on it
jumps. That is the negative spring. Last, tune a thick string, bring a strong rod from below, and listen for the beat.
Cautions: implants, pinching and splinters; a string end pricks and a string under tension can break: safety
glasses on.

**What to ask.** "Which flux?" each time someone says the flux changes. "Where does the flux go that leaves the
string?" "If the flux in the magnet hardly changes, what does the coil notice?" (That flux does change, by a tenth of
a per cent. The coil's turns are wider and the upper ones nearer to the string: each gains about twice as much, and
7600 add up.) "The string gathers 462 nWb and a turn gains 28: where was the rest before?" (It had passed the turns,
too: section 2. The other lines of a turn lose 434 nWb to the string's way, and the turn as a whole gains 28.)

**What goes wrong.** The three fluxes taken for one. All of the air put in parallel with the string, or the
brackets read as (magnet + near) || (string + far). "A pull makes it tighter, so higher." The gap area taken for a
measured thing: it is fitted, and the page shows how far the fit carries. "10 mm of string has 479 MA/Wb, the whole
branch 178: the part is more than the whole." The flux leaves to two sides, and not all of it runs all the way; with the
square of the flux as the weight (its energy), 7.2 mm count each way, in parallel 172 MA/Wb at permeability 100, and
217 with what is left of it at 1.4 T: more than the branch, which is one fitted number for all of this and is no sum of
such parts.

**Say it openly**: the law of the steel is an assumption; permeability 100 and 1.9 T are common practice, and the
choice of law may move the result by 20 to 25 %. The ratio of two strings at one height is better than that, the
ratio of two heights is not (section 10). Steel of this kind has been measured
(S. Wurster and others, 2022: coercivity and saturation of drawn pearlitic wires; J. W. Byeon, S. I. Kwun, 2003:
coercivity, remanence and saturation of eutectoid steel; we read the abstracts). From its composition one expects 2.0
T, the upper end of the range that we allow (1.8 to 2.0 T); that raises the signal by 3 to 4 %. Coercivity and
remanence are not in the model. One measurement (2017) speaks for the saturating law: the output of plain strings was
in proportion to their cross-section.

**If there is very little time**: sections 1, 2 and 4; lesson 4 needs the slope.
"""

FIRST_EVENING = Evening(
    aim="Say where the flux of the string was before the string came, and compute how little of it is new.",
    stretches=(
        Stretch(minutes=7, what="The opening: string VI near and far, heard. Quick questions m1 to m3.",
                ask="What has the magnet done to the string? (It is answered on the second evening.)"),
        Stretch(minutes=17, what="Section 1: draw the lines, 3.11; then the panel, prediction p1 first, and the four "
                                 "points beside the drawing. Three fluxes, written on the board.",
                ask="\"The flux changes\": which flux? And where does this line of yours end?"),
        Stretch(minutes=12, what="Section 2 with its panel, prediction p5 first; then the three ways in which steel is "
                                 "a better path.",
                ask="The string gathers 462 nWb, a turn gains 28: where was the rest?"),
        Stretch(minutes=25, what="Section 3: the circuit, 3.12, both worked examples, s1, 3.2; the bar, 3.13; vote on "
                                 "3.10.",
                ask="Where do the brackets begin and end? What should your formula give for a bar without any "
                    "reluctance?"),
        Stretch(minutes=12, what="The panel of the circuit, prediction p2 first.",
                ask="Where is the circuit's flux right, and is its slope right there, too?")),
    on_the_table="A rod magnet, 20 cm of steel string, pliers, a gauss probe; calculators; safety glasses.",
    at_home="What is left of 3.2 and 3.13; 3.9; section 7 for who wants to know how much of the branch is steel.")

SECOND_EVENING = Evening(
    aim="Get the signal as a slope, see it saturate, and compute what the magnet does to the pitch.",
    stretches=(
        Stretch(minutes=16, what="Section 4: the slope with 3.3, the level with its example, s2 and 3.14.",
                ask="What is lost over the next millimetre: as much again, or the same share?"),
        Stretch(minutes=24, what="Section 5 with its panel, prediction p3 first; 3.6; in pairs 3.15, then 3.16.",
                ask="The flux still grows. Why is the signal so much weaker? Which helps more, twice the magnet or "
                    "twice the steel?"),
        Stretch(minutes=20, what="Section 6 with its panel, prediction p4 first; 3.7. Hear the opening once more.",
                ask="It pulls, so it pulls tighter, so it is higher? Where is the mistake?"),
        Stretch(minutes=11, what="Exercise 3.8: talk in pairs, then write.",
                ask="If the magnet braked the string, where would the energy go?")),
    on_the_table="The same; a thick string on the instrument, a tuner, a strong rod.",
    at_home="3.4 for practice; sections 7 and 8 for who wants to know more; section 9 for everybody who goes "
            "by car; section 10 for who wants to know how far to trust a number.")

TO_VOTE = (
    ToVote(
        question="A steel string is laid over the pole. It now carries 460 nWb. A turn of the coil carries ...",
        options={"a": "460 nWb less than before: the string has taken them", "b": "some 30 nWb more than before",
                 "c": "460 nWb more than before"},
        right="b",
        because="Nearly all of the string's flux had passed the turn before, and still does: it is led another way "
                "only above the coil, so (c) counts it twice. (a) forgets that it still comes up through the turn.",
        twin=ToVote(
            question="A new bridge shortens the way of 460 cars a day that leave a town by its only gate. Some 30 "
                     "drivers more now leave the town each day. How many of the 460 on the bridge had passed the gate "
                     "before?",
            options={"a": "none: they are new", "b": "30", "c": "some 430"}, right="c",
            because="The gate counts 30 more. So the other 430 had passed it before, and took another road beyond it. "
                    "The gate is the turn, the bridge the string.")),
    ToVote(
        question="The string is in parallel with the near air; the far air comes after them. The same "
                 "branch is now laid across near air *and* far air together. The string then raises the flux in the "
                 "magnet by ...",
        options={"a": "more than before", "b": "as much as before", "c": "less than before"}, right="a",
        because="The more of the loop lies between its ends, the larger is the drop that drives flux through the "
                "string, and the larger the share of it that is new: (R_near + R_far)/R instead of R_near/R.",
        twin=ToVote(
            question="A lamp and two equal heaters are in series on a battery. A resistor is put in parallel with one "
                     "heater, then with both heaters together. In which case is the lamp brighter?",
            options={"a": "with one heater", "b": "with both together", "c": "it is the same in both"}, right="b",
            because="More of the loop has a second way beside it, so the resistance of the loop falls further, and the "
                    "lamp gets more current.")),
    ToVote(
        question="Imagine a magnet that pulls a string down with the same small force at every height. Compared with "
                 "no magnet at all, the string sounds ...",
        options={"a": "lower: it is pulled away from where it was", "b": "the same: only its place of rest is another",
                 "c": "higher: it is pulled tighter"}, right="b",
        because="A force that is the same everywhere moves the place of rest and is no spring, neither a stiff nor a "
                "soft one. What makes the note lower is that a real magnet's pull grows as the string comes nearer. "
                "(That it is pulled tighter, by a sag of some hundredths of a millimetre, does not count.)",
        twin=ToVote(
            question="A weight swings up and down on a spring, here and then on the moon, where it weighs a sixth. On "
                     "the moon it swings ...",
            options={"a": "more slowly", "b": "faster", "c": "equally fast"}, right="c",
            because="The weight's force is the same at every height, here as there: it sets how far the spring hangs "
                    "down, and not how fast the mass swings. Spring and mass set that.")))

LESSON = Lesson(
    id="03", title="The string in the field", version=1, exercises=(
        small_change, wider_disc, speed_on_a_string, lines_of_the_bar, flux_in_the_magnet, where_it_was, four_branches,
        which_for_two_branches, flux_added, flux_in_a_bar, softer_steel, what_is_new, signal_over_height,
        central_difference, which_for_what_is_left, level_over_distance, level_change, coming_nearer, near_saturation,
        five_signals, flux_in_a_nail, pitch_near_a_magnet, detuning, energy_of_the_pull,
        deaf_below, known_best, which_to_trust),
    teaching_note=TEACHING_NOTE, evenings=(FIRST_EVENING, SECOND_EVENING), to_vote=TO_VOTE)
