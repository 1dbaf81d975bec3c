"""Lesson 07, six strings: model answers, slips with their notes, worked answers, teaching note."""
import math
from functools import lru_cache

from lessons_lib.exercises.declaration import (
    ChoiceExercise,
    CurveAxis,
    CurveExercise,
    Derived,
    DesignExercise,
    Entry,
    EstimateExercise,
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

DB = 20 / math.log(10)      # dB in one power of e: 8.686

SHARED = "They share one bar. With the bar's reluctance in series, does what they share stay constant?"
RAISED_ONE = "That is the change in the raised branch itself. The question is about the other five. " + SHARED
NOT_LEFT = ("That is the level of one coil's hum relative to the other's. What is left when the two subtract?")
NEW_BY_OLD = "That is new divided by old. By how many per cent has it changed?"
VOLTAGE_DB = "Decibels of a voltage ratio are 20 log₁₀ of it; the 10 belongs to ratios of power."


def outside(leak, branch, raised):
    """All that is in series with the bar: in parallel the leak, five branches as they were, and the raised one."""
    return 1 / (1 / leak + 5 / branch + 1 / raised)


def shared_mmf(bar, leak, branch, raised):
    """The part of the bar's MMF that leak and branches get."""
    beside = outside(leak, branch, raised)
    return beside / (bar + beside)


def change_of_others(bar, leak, branch, drop):
    return shared_mmf(bar, leak, branch, branch * (1 - drop)) / shared_mmf(bar, leak, branch, branch) - 1


def change_of_all(bar, leak, branch, drop):
    before, after = outside(leak, branch, branch), outside(leak, branch, branch * (1 - drop))
    return (bar + before) / (bar + after) - 1


def level(ratio):
    return 20 * math.log10(ratio)


def plain_over_wound(plain, wound, impedance):
    return level((plain / wound) ** 2 * impedance)


def how_far_down(drop, reach):
    return reach * drop / DB


def along_a_bend(x, spacing, left):
    """Voltage along a bend, relative to over the pole: shapes that follow the computed ones within 0.1."""
    wave = math.pi * x / spacing
    return {"every second rod turned over, one long coil": [math.cos(one) for one in wave],
            "rods all alike, one long coil": [1 - (1 - left) * math.sin(one) ** 2 for one in wave],
            "every second rod and its own coil reversed": [math.cos(one) ** 2 for one in wave],
            "one blade under all strings": [1.0 for _ in wave],
            "one small coil round the first rod alone": [(1 + (one / 4.7e-3) ** 2) ** -1.5 for one in x]}


def for_each_ohm(own, beside, resistance, voltage, long):
    """Voltage over resistance of the long coil, divided by that of six small coils in series."""
    return voltage / long / ((own + 2 * beside) / (6 * resistance))


def left_of_a_pair(length, apart, field, crossings):
    """Amplitude at 50 Hz of what one piece of a crossed pair picks up: the others cancel in pairs."""
    return 2 * math.pi * 50 * field * length * apart / (crossings + 1)


def coils_apart(scale, pitch, null):
    """Half a wave at the null, of a wave that goes there and back in one period of the pitch."""
    return scale * pitch / null


def comb_level(scale, apart, number):
    return level(abs(math.cos(math.pi * number * apart / (2 * scale))))


def linked_share(inner, middle, outer, rod):
    return (inner + middle + outer) / 3 / (6 * rod)


# ---- quick questions -------------------------------------------------------------------------------------------------

longer_cable = ChoiceExercise(
    id="m1", quick=True, right="b",
    options={"a": "moves up", "b": "moves down", "c": "stays where it is"},
    notes={"a": "It moves down: a longer cable has more capacitance, and f₀ = 1/(2π√(LC)).",
           "b": "Correct: a longer cable has more capacitance, and f₀ = 1/(2π√(LC)).",
           "c": "It moves down: the cable's capacitance is in parallel with the coil's and adds to it."})

two_strings = ChoiceExercise(
    id="m2", quick=True, right="a",
    options={"a": "the one with the smaller Z", "b": "the one with the larger Z", "c": "both alike"},
    notes={"a": "Correct: the peak speed is F/(2Z), Z = √(Tμ).",
           "b": "It is the one with the smaller Z: the peak speed is F/(2Z).",
           "c": "It is the one with the smaller Z: the peak speed is F/(2Z). On one string it is the same at every "
                "fret."})

both_reversed = RecallExercise(
    id="m3", where="lesson 4",
    sentence="Reverse the pole or the winding: the sign changes. Reverse both: it stays the same.")

# ---- after the worked examples ---------------------------------------------------------------------------------------

sharing_step = ChoiceExercise(
    id="s1", quick=True, right="b",
    options={"a": "in parallel the reciprocals of the reluctances add",
             "b": "in series the same flux goes through all, so the MMF divides as the reluctances do",
             "c": "the flux of an unchanged branch is proportional to the MMF across it"},
    notes={"a": "That is step 1. In step 2 the bar comes in, and it is in series.",
           "b": "Correct: one flux goes through the bar and then through all that is beside it.",
           "c": "That is step 5. In step 2 the question is which part of the MMF is across the branches."})

level_step = ChoiceExercise(
    id="s2", quick=True, right="c",
    options={"a": "equal force gives equal energy, so both are equally fast",
             "b": "the voltage is the rate of change of the flux linkage",
             "c": "at one force the peak speed is F/(2Z)"},
    notes={"a": "Equal force does not give equal energy. Where does Z come in?",
           "b": "That is why the speed matters at all. Which law says how fast each of the two is?",
           "c": "Correct: the string with the smaller Z is faster, in the ratio of the two Z."})

series_step = ChoiceExercise(
    id="s3", quick=True, right="a",
    options={"a": "in series one current goes through all coils, so their resistances add",
             "b": "in parallel the reciprocals of the resistances add",
             "c": "current goes through a coil only while its own string sounds"},
    notes={"a": "Correct: one wire, one current, and every ohm on its way counts.",
           "b": "That is for coils that are side by side between the same two points. Are these?",
           "c": "One wire goes through all six. Can there be a current in one coil and none in the next?"})

# ---- predictions -----------------------------------------------------------------------------------------------------

one_screw = PredictionExercise(
    id="p1",
    question="There are six steel screws on one bar magnet. One screw is turned up by 1 mm, and its own string gets "
             "louder. The string beside it ...",
    options={"a": "gets louder, too: there is more field about", "b": "gets softer by less than 1 dB",
             "c": "gets softer by 1 dB or more: the screws share one magnet",
             "d": "stays exactly as it was: it has its own screw"},
    seen_question="Set the poles to screws on a bar and raise the one under string IV by 1 mm. The level of its "
                  "neighbour III ...",
    seen_options={"a": "rises", "b": "falls by less than 1 dB", "c": "falls by 1 dB or more", "d": "shows 0.00 dB"},
    seen="b",
    seen_notes={
        "a": "Look again at the sign before the level of the neighbour.",
        "b": "Yes, that is what the panel shows. Compare it with what the string's own screw does.",
        "c": "Look again: which read-out is that of the string's own screw, and which of the neighbour?",
        "d": "Look again at the second read-out, with the pole raised by 1 mm."})

loudest = PredictionExercise(
    id="p2",
    question="Six equal rods, all flush. String III is a plain wire of 0.43 mm, string IV is wound. Every string is "
             "pulled with the same force. The loudest is ...",
    options={"a": "VI: it has the thickest core", "b": "IV: over the middle the field of all rods adds up",
             "c": "III: the thickest plain one", "d": "I: it moves fastest"},
    seen_question="With all rods at 0 mm and the plain third, the highest dot is that of string ...",
    seen_options={"a": "VI", "b": "IV", "c": "III", "d": "I"},
    seen="c",
    seen_notes={
        "a": "Look again: every level is relative to string VI, which is at 0 dB. Is another one higher?",
        "b": "Look again at the dots, with all tops at 0 mm and string III plain.",
        "c": "Yes, that is what the panel shows: some 8 dB above string VI.",
        "d": "Look again at the dots: the fastest string is not the highest one."})

small_coils = PredictionExercise(
    id="p3",
    question="A string is pushed sideways, half way to the next rod, and gets softer. Now every rod gets a small coil "
             "of its own in place of the one long coil, all six in series. The loss half way ...",
    options={"a": "becomes larger", "b": "becomes smaller: now two coils hear the string",
             "c": "stays the same: the rods are the same", "d": "is gone"},
    seen_question="Read the deepest level over the rods with one long coil, and with six small coils. With the small "
                  "coils the dip is ...",
    seen_options={"a": "deeper", "b": "shallower", "c": "as deep, within 0.2 dB", "d": "gone"},
    seen="a",
    seen_notes={
        "a": "Yes, that is what the panel shows. The long coil hears the string everywhere; small ones lose it, too.",
        "b": "Look again at the two levels called deepest: which one is further below zero?",
        "c": "Look again at the two levels called deepest, of rods with the long coil and with small coils.",
        "d": "Look again at the two levels called deepest, of rods with the long coil and with small coils."})

shared_turns = PredictionExercise(
    id="p5",
    question="Six small coils in series take the place of the long one. All six together have as many turns as the "
             "long coil had, a sixth of them in each. String IV sounds alone. Its voltage is ...",
    options={"a": "about the same: as many turns, as much voltage", "b": "about half", "c": "less than a quarter",
             "d": "nothing: five silent coils swallow it"},
    seen_question="Choose \"six in series, equal turns of all\", with string IV alone. The level is ...",
    seen_options={"a": "0 dB, within 1 dB", "b": "between −1 and −12 dB", "c": "below −12 dB", "d": "nothing"},
    seen="c",
    seen_notes={
        "a": "Look again: is the choice \"equal turns of all\"? Then read the large number.",
        "b": "Look again: is the choice \"equal turns of all\", or \"equal turns of each\"?",
        "c": "Yes, that is what the panel shows: −17.5 dB. Compare the voltages over the six coils.",
        "d": "Look again at the coil under string IV: does it give nothing?"})

beyond_copper = PredictionExercise(
    id="p6",
    question="Over its pole string VI gathers flux and leads it away to both sides. Some of it leaves the string on "
             "the way. Where the copper of the long coil ends, 6.2 mm from the pole's axis, the string still carries "
             "this much of its largest flux:",
    options={"a": "nothing: the coil has caught it all", "b": "about a quarter", "c": "about half",
             "d": "more than three quarters"},
    seen_question="With six rods and the loop at 6.2 mm the read-out \"still in string VI\" shows ...",
    seen_options={"a": "0 %", "b": "15 to 35 %", "c": "40 to 60 %", "d": "more than 75 %"},
    seen="d",
    seen_notes={
        "a": "Look again at the black curve, at the right edge of the copper.",
        "b": "Look again: is the loop at 6.2 mm? Read the black curve.",
        "c": "Look again: is the loop at 6.2 mm? Read the black curve.",
        "d": "Yes, that is what the panel shows: 91 %. A coil does not catch flux; it counts what goes through."})

winding_alone = PredictionExercise(
    id="p4",
    question="A second, identical coil is put beside the first and in series with it, wound the other way round. Its "
             "magnets have the same poles on top as the first one's. Assume that the string moves in the same way over "
             "both coils. What is left of hum and signal?",
    options={"a": "no hum, and about twice the signal", "b": "no hum, and the signal of one coil",
             "c": "neither hum nor signal", "d": "twice as much of both"},
    seen_question="With equal turns and an even hum field (both sliders at 0), the column \"winding alone\" "
                  "shows ...",
    seen_options={"a": "no hum, and more signal than one coil", "b": "no hum, and about the signal of one coil",
                  "c": "neither hum nor signal", "d": "more of both than one coil"},
    seen="c",
    seen_notes={
        "a": "Look again: that is the column on the right, where both are reversed.",
        "b": "Look again at the words over the two marks of the second column.",
        "c": "Yes, that is what the panel shows: the coil cannot tell the two apart. The magnets can. (A real "
             "string leaves thin spikes: read on.)",
        "d": "Look again: that is the column on the left, where nothing is reversed."})

parallel_in_a_comb = PredictionExercise(
    id="p7", further=True,
    question="The pair of coils is wired in parallel, 18 mm apart, and its resonance is at 5.4 kHz. On string IV, just "
             "below that, at 5.2 kHz, the pair gives ...",
    options={"a": "more than one coil: the resonance lifts it", "b": "about as much as one coil: the mean of two",
             "c": "far less than one coil"},
    seen_question="Choose parallel, string IV, 18 mm. At the dotted line the curve with the cable is ...",
    seen_options={"a": "above the curve of one coil", "b": "within 3 dB of the curve of one coil",
                  "c": "more than 20 dB below the curve of one coil"},
    seen="c",
    seen_notes={
        "a": "Look again at the dotted line: is the wiring parallel, and the string IV?",
        "b": "Look again at the dotted line: is the wiring parallel, and the string IV?",
        "c": "Yes, that is what the panel shows: half a wave fits between the coils, and nothing is left to lift."})

# ---- exercises -------------------------------------------------------------------------------------------------------

MEGA = "MA/Wb"

six_branches = NumberExercise(
    id="7.1", unit="%", tolerance=0.05, size=(-4, -0.3), marks=2,
    given={"bar": Given("reluctance of the bar itself", unit=MEGA, low=30, high=60, step=1),
           "leak": Given("leak beside the screws", unit=MEGA, low=60, high=120, step=1),
           "branch": Given("each of the six branches", unit=MEGA, low=500, high=1000, step=10),
           "drop": Given("reluctance of the raised one falls by", unit="%", low=20, high=40, step=1)},
    answer=change_of_others,
    slips=(Slip("the raised one", lambda bar, leak, branch, drop:
                (1 + change_of_others(bar, leak, branch, drop)) / (1 - drop) - 1,
                RAISED_ONE),
           Slip("the raised one, nothing shared", lambda drop: 1 / (1 - drop) - 1, RAISED_ONE),
           Slip("nothing", lambda: 0.0, SHARED),
           Slip("the whole flux", change_of_all,
                "That is the change of the whole flux through the bar. What is left for the other five?"),
           Slip("no leak", lambda bar, branch, drop: change_of_others(bar, 1e30, branch, drop),
                "Screws are not the only way round. Which branch is in parallel with them all the time?"),
           Slip("all six raised", lambda bar, leak, branch, drop:
                shared_mmf(bar, leak, branch * (1 - drop), branch * (1 - drop)) / shared_mmf(bar, leak, branch, branch)
                - 1, "How many of the six branches were changed?"),
           Slip("outside alone", lambda leak, branch, drop:
                outside(leak, branch, branch * (1 - drop)) / outside(leak, branch, branch) - 1,
                "That is how the reluctance outside the bar changes. Which share of the bar's MMF is across it, before "
                "and after?"),
           Slip("a share as per cent", lambda bar, leak, branch, drop: change_of_others(bar, leak, branch, drop) / 100,
                "That is a share. How many per cent is it?"),
           Slip("falls to", lambda bar, leak, branch, drop: change_of_others(bar, leak, branch, 1 - drop),
                "The reluctance of the raised branch falls *by* that share, not *to* it."),
           Slip("new over old", lambda bar, leak, branch, drop: 1 + change_of_others(bar, leak, branch, drop),
                NEW_BY_OLD),
           Slip("new over old as per cent", lambda bar, leak, branch, drop:
                (1 + change_of_others(bar, leak, branch, drop)) / 100, NEW_BY_OLD),
           Slip("difference of shares", lambda bar, leak, branch, drop:
                shared_mmf(bar, leak, branch, branch * (1 - drop)) - shared_mmf(bar, leak, branch, branch),
                "That is the difference of two shares. The question asks for the change in % of the old flux.")),
    common=("sign",),
    steps={"before": Step(MEGA, lambda leak, branch: outside(leak, branch, branch)),
           "after": Step(MEGA, lambda leak, branch, drop: outside(leak, branch, branch * (1 - drop))),
           "share": Step("1", lambda bar, leak, branch: shared_mmf(bar, leak, branch, branch)),
           "new_share": Step("1", lambda bar, leak, branch, drop: shared_mmf(bar, leak, branch, branch * (1 - drop)))},
    notes=("First the reluctance of leak and six branches in parallel, before and after. The bar is in series.",
           "The flux of an unchanged branch is proportional to the MMF across it, and its share of the MMF is "
           "R_beside/(R_bar + R_beside)."),
    twin=Twin({"bar": 20, "leak": 200, "branch": 400, "drop": 50},
              "Another bar: {bar}, leak {leak}, six branches of {branch}. In parallel {before}, so the branches get "
              "{share} of the bar's MMF. One branch falls by {drop}: {after} and {new_share}. The other five change "
              "by {answer}."),
    worked="Leak and six branches in parallel: {before}; they get {share} of the bar's MMF. With the raised one: "
           "{after}, so they get {new_share}. The flux of each other branch is proportional to that share: {answer}.",
    teaching_note="Ask for the prediction of this circuit for the string farthest away, then read it in the panel: the "
                  "circuit says the same for all five, the computed field does not.")

raised_one = FormulaExercise(
    id="7.17", marks=1, asked="Wb",
    symbols={"mmf": Symbol("magnetomotive force of the bar", "A", 800, 1200),
             "r_bar": Symbol("reluctance of the bar", MEGA, 20, 60), "r_leak": Symbol("leak", MEGA, 80, 160),
             "r_branch": Symbol("each of the five other branches", MEGA, 500, 900),
             "r_raised": Symbol("branch of the raised screw", MEGA, 250, 450)},
    answer=lambda mmf, r_bar, r_leak, r_branch, r_raised:
        mmf * shared_mmf(r_bar, r_leak, r_branch, r_raised) / r_raised,
    written="mmf / (r_raised * (1 + r_bar * (1/r_leak + 5/r_branch + 1/r_raised)))",
    slips=(Slip("another one", lambda mmf, r_bar, r_leak, r_branch, r_raised:
                mmf * shared_mmf(r_bar, r_leak, r_branch, r_raised) / r_branch,
                "That is the flux of one of the other five. The question is about the raised one."),
           Slip("the whole flux", lambda mmf, r_bar, r_leak, r_branch, r_raised:
                mmf / (r_bar + outside(r_leak, r_branch, r_raised)),
                "That is all the flux of the bar. Which part of it goes through the raised screw?"),
           Slip("a share of the MMF", lambda mmf, r_bar, r_leak, r_branch, r_raised:
                mmf * shared_mmf(r_bar, r_leak, r_branch, r_raised),
                "That is the MMF across the branches, in ampere. Which flux does it drive through the raised one?"),
           Slip("no bar", lambda mmf, r_raised: mmf / r_raised,
                "Is the whole MMF across the screw? What is in series with all the branches?"),
           Slip("in series", lambda mmf, r_bar, r_raised: mmf / (r_bar + r_raised),
                "Are the other branches and the leak not there? They share the bar with it."),
           Slip("six others", lambda mmf, r_bar, r_leak, r_branch, r_raised:
                mmf / (r_raised * (1 + r_bar * (1 / r_leak + 6 / r_branch + 1 / r_raised))),
                "There are six screws in all. How many of them are not raised?"),
           Slip("no leak", lambda mmf, r_bar, r_branch, r_raised:
                mmf * shared_mmf(r_bar, 1e30, r_branch, r_raised) / r_raised,
                "Screws are not the only way round. Which branch is in parallel with them all the time?"),
           Slip("itself left out", lambda mmf, r_bar, r_leak, r_branch, r_raised:
                mmf / (r_raised * (1 + r_bar * (1 / r_leak + 5 / r_branch))),
                "Which reluctances are in parallel beside the bar? Is the raised branch not one of them?"),
           Slip("before it was raised", lambda mmf, r_bar, r_leak, r_branch:
                mmf * shared_mmf(r_bar, r_leak, r_branch, r_branch) / r_branch,
                "That is its flux before it was raised.")),
    notes=("First the MMF across the branches, as in the worked example. Then one branch alone.",
           "The flux of a branch is the MMF across it, divided by that branch's reluctance.",
           "With 60 A, a bar of 1 MA/Wb and 2 MA/Wb beside it in all, 40 A are across each branch; a branch of 10 "
           "MA/Wb gets 4 µWb."),
    worked="The MMF across all branches is mmf · R_beside/(r_bar + R_beside), with 1/R_beside = 1/r_leak + 5/r_branch "
           "+ 1/r_raised. The raised branch gets that, divided by r_raised: "
           "mmf/(r_raised (1 + r_bar (1/r_leak + 5/r_branch + 1/r_raised))).",
    teaching_note="Many forms are right; put two of them on the board and show that they are one. Then let r_bar go to "
                  "zero: what is left of the sharing?")

third = NumberExercise(
    id="7.2", unit="dB", tolerance=0.2, size=(4, 12), marks=2, further=True,
    given={"plain": Given("diameter of the plain wire", unit="mm", low=0.41, high=0.44, step=0.005),
           "wound": Given("core of the wound string", unit="mm", low=0.27, high=0.30, step=0.005),
           "impedance": Given("Z of the wound one / Z of the plain one", unit="1", low=1.06, high=1.20, step=0.01)},
    answer=plain_over_wound,
    slips=(Slip("ten log", lambda plain, wound, impedance: plain_over_wound(plain, wound, impedance) / 2, VOLTAGE_DB),
           Slip("diameter", lambda plain, wound, impedance: level(plain / wound * impedance),
                "The signal is proportional to the steel's cross-section. How does that depend on the diameter?"),
           Slip("Z upside down", lambda plain, wound, impedance: plain_over_wound(plain, wound, 1 / impedance),
                "The speed is F/(2Z). Which of the two moves faster at the same force?"),
           Slip("Z left out", lambda plain, wound: plain_over_wound(plain, wound, 1),
                "The steel is there. Do both strings move equally fast at the same force?"),
           Slip("a plain ratio", lambda plain, wound, impedance: (plain / wound) ** 2 * impedance,
                "That is a ratio of voltages. How is it put in decibels?"),
           Slip("cube", lambda plain, wound, impedance: plain_over_wound(plain, wound, impedance * plain / wound),
                "The diameter was used once too often: a cross-section contains its square.")),
    common=("reference", "natural log"),
    steps={"steel": Step("1", lambda plain, wound: (plain / wound) ** 2),
           "ratio": Step("1", lambda plain, wound, impedance: (plain / wound) ** 2 * impedance)},
    notes=("Two ratios: that of the steel's cross-sections, and that of the speeds at one force.",
           "Voltage is proportional to d² times F/(2Z). Then 20 log₁₀ of the ratio, plain divided by wound."),
    twin=Twin({"plain": 0.50, "wound": 0.25, "impedance": 1.25},
              "Another pair: {plain} divided by {wound}, squared, is {steel}. Times {impedance} for the speeds makes "
              "{ratio}: {answer}."),
    worked="Cross-sections: ({plain} / {wound})² = {steel}. The plain one is {impedance} times as fast. Together "
           "{ratio}, that is {answer}.",
    teaching_note="A class's first guess is that the thick string VI is the loudest. Let them say what a wound "
                  "string's core is. With wraps of nickel-plated steel the guess may be right.")

by_level = OrderExercise(
    id="7.10", marks=2,
    options={"a": "wound, 1.30 mm outside, core 0.40 mm, Z = 0.80 kg/s", "b": "plain, 0.20 mm, Z = 0.125 kg/s",
             "c": "wound, 0.86 mm outside, core 0.40 mm, Z = 0.50 kg/s", "d": "plain, 0.40 mm, Z = 0.25 kg/s"},
    right="d > b = c > a",
    slips=(Slip("thickness", "a > c > d > b", "What of a wound string is steel, and what is bronze?"),
           Slip("the steel alone", "a = c", "The steel is the same. Do both move equally fast at one force?"),
           Slip("the speed alone", "b > d > c > a", "The fastest is first. How much steel moves there?"),
           Slip("diameter for cross-section", "b = d", "Twice the diameter: is that twice the cross-section?"),
           Slip("heavier is louder", "a > c", "Both have the same core. Which of the two has the larger Z, and what "
                                              "does that do at one force?"),
           Slip("thin is louder", "b > c", "b is four times as fast. How much steel has c, compared with b?"),
           Slip("steel wins", "c > b", "c has four times the steel. How fast is it, compared with b?")),
    notes=("Two numbers for each string: the square of the steel's diameter, and Z. Which one divides the other?",
           "The level goes with d²/Z, d of the core where there is one. Equal quotients are equal levels.",
           "A plain wire of 0.30 mm with 0.30 kg/s has 0.30, one of 0.60 mm with 1.20 kg/s has 0.30 as well: a tie."),
    worked="d²/Z in mm² s/kg: a 0.16/0.80 = 0.20, b 0.04/0.125 = 0.32, c 0.16/0.50 = 0.32, d 0.16/0.25 = 0.64. So "
           "{order}: d is 6 dB above b and c, and 10 dB above a.",
    teaching_note="Ask who is louder than they look, and why. A bench that has a tie by computing may not expect one: "
                  "four times the steel at a quarter of the speed.")

lower_it = NumberExercise(
    id="7.3", unit="mm", tolerance=0.03, size=(0.6, 1.6), further=True,
    # what the computed short screw does on its way down, for drops up to 3 dB
    given={"drop": Given("how much softer", unit="dB", low=1.5, high=3.0, step=0.1),
           "reach": Given("reach of the screw, turned down", unit="mm", low=3.8, high=4.4, step=0.05)},
    answer=how_far_down,
    slips=(Slip("ten log", lambda drop, reach: 2 * how_far_down(drop, reach), VOLTAGE_DB),
           Slip("natural log", lambda drop, reach: reach * drop / 20,
                "The law is a power of e, decibels use powers of ten. How many dB are one power of e?"),
           Slip("upside down", lambda drop, reach: 1e-6 * drop / DB / reach,
                "A longer reach means a slower change. Which way does it come in?"),
           Slip("dB as power of e", lambda drop, reach: reach * drop,
                "One reach is not 1 dB. How many dB are one power of e?"),
           # typed for a share of one reach
           Slip("share of a reach", lambda drop: 1e-3 * drop / DB,
                "That is a share of the reach. How long is the whole reach?"),
           Slip("the ratio", lambda drop, reach: reach * 10 ** (drop / 20),
                "The ratio is e to the power of x/r. Which function brings x down?"),
           Slip("sign", lambda drop, reach: -how_far_down(drop, reach),
                "The magnitude is right. The question says how far *down*: is a minus needed?")),
    common=("prefix",),
    steps={"per": Step("1", lambda drop: drop / DB)},
    notes=("How many dB softer does the law make it over one whole reach?",
           "exp(−x/r) in dB is −8.686 x/r. So x is r times the dB, divided by 8.686."),
    twin=Twin({"drop": 6.0, "reach": 2.50},
              "Another screw: {drop} divided by 8.686 dB is {per} of the reach; times {reach} makes {answer}."),
    worked="{drop} divided by 8.686 dB is {per} of the reach; times {reach} makes {answer}.",
    teaching_note="Read the same turn over rods in the panel. Lowering a pole is not the same as lifting the string.")

bend_curve = CurveExercise(
    id="7.11", marks=1, x=CurveAxis("distance to the side", "mm", 1, 0, 10),
    y=CurveAxis("voltage relative to the first pole", "%", 0),
    given={"spacing": Given("from pole to pole", unit="mm", low=9.6, high=10.4, step=0.1),
           "left": Given("left half way over rods all alike", unit="%", low=55, high=65, step=1)},
    curves=along_a_bend, right="every second rod turned over, one long coil",
    notes={"every second rod turned over, one long coil":
           "Yes. The coil is the same everywhere, and the flux that a moving string changes has the other sign over "
           "the next rod. Half way the two poles undo each other.",
           "rods all alike, one long coil":
           "Here the voltage never changes its sign: the next pole does just what the first one does. Are the two "
           "alike?",
           "every second rod and its own coil reversed":
           "Here the sign comes back: something is reversed twice over the next pole. How many things were reversed?",
           "one blade under all strings":
           "Nothing changes on this way: the same pole is everywhere. Is it here?",
           "one small coil round the first rod alone":
           "Here the string simply leaves, and the next pole does nothing. Does the long coil go round the next rod, "
           "too?"},
    worked="One long coil, so no change of its sense. Over the next rod, {spacing} away, the field is turned over, and "
           "so is the voltage: the curve must end as far below zero as it began above. Half way both rods act alike "
           "and opposite, so it goes through zero there. That is {letter}. (Over rods all alike {left} would be left "
           "half way.)",
    teaching_note="Let each group draw its curve before it looks. Who draws zero half way and then plus again has "
                  "reversed the coil as well.")

join = NumberExercise(
    id="7.8", unit="1", tolerance=0.015, size=(1, 2.2), marks=2,
    given={"own": Given("string IV's voltage in the coil under it", unit="mV", low=45, high=55, step=0.5),
           "beside": Given("in each of the two coils beside that", unit="mV", low=3.0, high=4.0, step=0.1),
           "resistance": Given("resistance of each small coil", unit="kΩ", low=1.4, high=1.7, step=0.02),
           "voltage": Given("string IV's voltage in the long coil", unit="mV", low=72, high=80, step=0.5),
           "long": Given("resistance of the long coil", unit="kΩ", low=8.0, high=9.0, step=0.1)},
    answer=for_each_ohm,
    slips=(Slip("one coil's ohms", lambda own, beside, resistance, voltage, long:
                for_each_ohm(own, beside, resistance, voltage, long) / 6,
                "The voltages were added, one resistance was taken. Through how many coils does the current go?"),
           Slip("in parallel", lambda own, beside, resistance, voltage, long:
                for_each_ohm(own, beside, resistance, voltage, long) / 36,
                "A sixth of one resistance: that is for coils in parallel. How are these joined?"),
           Slip("no neighbours", lambda own, resistance, voltage, long:
                for_each_ohm(own, 0.0, resistance, voltage, long),
                "The coil under the string is there. Do the coils beside it give nothing?"),
           Slip("one neighbour", lambda own, beside, resistance, voltage, long:
                for_each_ohm(own, beside / 2, resistance, voltage, long), "How many coils are beside that one?"),
           Slip("neighbours subtracted", lambda own, beside, resistance, voltage, long:
                for_each_ohm(own, -beside, resistance, voltage, long),
                "All six are wound the same way. Do their voltages add or subtract?"),
           Slip("six times its own", lambda own, resistance, voltage, long:
                for_each_ohm(6 * own, 0.0, resistance, voltage, long),
                "Only string IV sounds. What do the coils far from it give?"),
           Slip("upside down", lambda own, beside, resistance, voltage, long:
                1 / for_each_ohm(own, beside, resistance, voltage, long),
                "The question asks for the long coil divided by the six small ones."),
           Slip("voltages alone", lambda own, beside, voltage: voltage / (own + 2 * beside),
                "That compares the voltages. The question asks for voltage per resistance.")),
    steps={"sum": Step("mV", lambda own, beside: own + 2 * beside),
           "ohms": Step("kΩ", lambda resistance: 6 * resistance)},
    notes=("First the six small coils as a whole: what adds up in series?",
           "Voltages add, and resistances add, also those of coils that hear nothing. Then mV per kΩ of both."),
    twin=Twin({"own": 20, "beside": 2.0, "resistance": 0.5, "voltage": 48, "long": 3.0},
              "Another set: {own} and twice {beside} make {sum}; six times {resistance} makes {ohms}. The long one "
              "has {voltage} and {long}. Per kilohm that is {answer} times as much."),
    worked="In series the voltages add to {sum} and the resistances to {ohms}. The long coil has {voltage} and {long}: "
           "{answer} times as many millivolts per kilohm.",
    teaching_note="Ask what the fourth, fifth and sixth coil contribute: ohms. Then let them read in the panel what "
                  "happens to level and peak when the length of wire is held equal.")

closed = NumberExercise(
    id="7.9", unit="%", tolerance=0.02, size=(55, 80), further=True,
    given={"inner": Given("flux through an inner turn", unit="µWb", low=52, high=56, step=0.2),
           "middle": Given("flux through a middle turn", unit="µWb", low=46, high=49, step=0.2),
           "outer": Given("flux through an outer turn", unit="µWb", low=40, high=43, step=0.2),
           "rod": Given("flux through the middle of each rod", unit="µWb", low=11.2, high=12.6, step=0.1)},
    answer=linked_share,
    slips=(Slip("one rod", lambda inner, middle, outer, rod: 6 * linked_share(inner, middle, outer, rod),
                "More than all? How many rods are inside a turn of the long coil?"),
           Slip("not linked", lambda inner, middle, outer, rod: 1 - linked_share(inner, middle, outer, rod),
                "That is the share that comes back inside the turn. The question asks for the share that is linked."),
           Slip("inner turn", lambda inner, rod: inner / (6 * rod),
                "That is an inner turn. What does a mean turn link?"),
           Slip("outer turn", lambda outer, rod: outer / (6 * rod),
                "That is an outer turn. What does a mean turn link?"),
           Slip("sum", lambda inner, middle, outer, rod: 3 * linked_share(inner, middle, outer, rod),
                "The three were added. What makes a mean of a sum?"),
           Slip("upside down", lambda inner, middle, outer, rod: 1 / linked_share(inner, middle, outer, rod),
                "The question asks for what is linked, divided by what the rods have."),
           Slip("as a share", lambda inner, middle, outer, rod: linked_share(inner, middle, outer, rod) / 100,
                "That is a share. How many per cent is it?")),
    steps={"mean": Step("µWb", lambda inner, middle, outer: (inner + middle + outer) / 3),
           "all": Step("µWb", lambda rod: 6 * rod)},
    notes=("What is the mean of three layers with equally many turns, and what do all rods have together?",
           "Mean flux of the three, divided by six times the flux of one rod."),
    twin=Twin({"inner": 36, "middle": 30, "outer": 24, "rod": 10},
              "Another pickup: the mean of {inner}, {middle} and {outer} is {mean}; six rods have {all}. A mean turn "
              "links {answer}."),
    worked="The three layers have equally many turns: their mean is {mean}. Six rods have {all}. A mean turn links "
           "{answer}; the rest has come back inside it.",
    teaching_note="Then ask where the rest is (out of the rods' sides, down between the rods), and whether it matters "
                  "for the signal: this flux is steady.")

hum_of_six = OrderExercise(
    id="7.12", marks=1,
    options={"a": "all six in series, every second one reversed", "b": "all six in series, all alike",
             "c": "all six in parallel, all alike", "d": "all six in series, the last one reversed",
             "e": "one of them alone"},
    right="b > d > c = e > a",
    slips=(Slip("parallel adds", "b = c", "In series voltages add. What is the voltage of six equal batteries side by "
                                          "side?"),
           Slip("parallel divides", "e > c", "It is reluctances and resistances that come to a sixth in parallel. And "
                                             "equal voltages?"),
           Slip("parallel is more", "c > e", "Six equal batteries in parallel: is their voltage higher than that of "
                                             "one?"),
           Slip("one reversed cancels nothing", "b = d", "One of six is subtracted. What is left of six?"),
           Slip("one reversed takes one away", "c > d", "Five add up and one is subtracted. How many are left?"),
           Slip("the sum of all", "a > c", "Three add up, three are subtracted. What is left?"),
           Slip("the sum of all", "a = c", "Three add up, three are subtracted. What is left?")),
    notes=("Write + or − for each coil and add, in units of one coil's hum.",
           "In series the voltages add with their signs; equal voltages in parallel stay one voltage.",
           "Three coils: in series 3, with one reversed 1, in parallel 1."),
    worked="In units of one coil's hum: six in series 6; one of them reversed 5 − 1 = 4; in parallel 1, as of one "
           "alone; three against three 0. So {order}.",
    teaching_note="Then ask which of them one would build: what becomes of the signal in each, with the rods left as "
                  "they are, and with the reversed coil's rod turned over?")

hum_formula = FormulaExercise(
    id="7.13", marks=1, asked="1",
    symbols={"n_1": Symbol("turns of the first coil", "1", 5000, 5200),
             "n_2": Symbol("turns of the second coil, more than n_1", "1", 5250, 5400),
             "b_1": Symbol("hum field at the first coil", "uT", 0.100, 0.104),
             "b_2": Symbol("hum field at the second coil, stronger than b_1", "uT", 0.107, 0.111)},
    answer=lambda n_1, n_2, b_1, b_2: level(n_2 * b_2 / (n_1 * b_1) - 1),
    written="20 * log10((n_2 * b_2 - n_1 * b_1) / (n_1 * b_1))",
    slips=(Slip("ten log", lambda n_1, n_2, b_1, b_2: level(n_2 * b_2 / (n_1 * b_1) - 1) / 2, VOLTAGE_DB),
           Slip("natural log", lambda n_1, n_2, b_1, b_2: 20 * math.log(n_2 * b_2 / (n_1 * b_1) - 1),
                "Here log is the natural logarithm. Which one do decibels use?"),
           Slip("second over first", lambda n_1, n_2, b_1, b_2: level(n_2 * b_2 / (n_1 * b_1)), NOT_LEFT),
           Slip("sum", lambda n_1, n_2, b_1, b_2: level(n_2 * b_2 / (n_1 * b_1) + 1),
                "The two coils are wound in opposite directions. Do their voltages add or subtract?"),
           Slip("turns alone", lambda n_1, n_2: level(n_2 / n_1 - 1),
                "The turns are there. The field is not the same at both coils: where does it come in?"),
           Slip("field alone", lambda b_1, b_2: level(b_2 / b_1 - 1),
                "The field is there. The coils do not have the same number of turns: where do they come in?"),
           Slip("product of differences", lambda n_1, n_2, b_1, b_2: level((n_2 / n_1 - 1) * (b_2 / b_1 - 1)),
                "First each coil's hum, from its turns and its field; then the difference of the two."),
           Slip("difference of shares", lambda n_1, n_2, b_1, b_2: level(b_2 / b_1 - n_2 / n_1),
                "More turns and a stronger field are both at the second coil. Do they help each other or cancel?"),
           Slip("sum of shares", lambda n_1, n_2, b_1, b_2: level(n_2 / n_1 + b_2 / b_1 - 2),
                "Nearly: for small shares one may add them. What does turns times field give exactly?"),
           Slip("re second", lambda n_1, n_2, b_1, b_2: level(1 - n_1 * b_1 / (n_2 * b_2)),
                "The question asks for the hum relative to the first coil. Which one is your reference?"),
           Slip("re both", lambda n_1, n_2, b_1, b_2: level((n_2 * b_2 - n_1 * b_1) / (n_2 * b_2 + n_1 * b_1)),
                "The question asks for the hum relative to the first coil alone, not to both together."),
           Slip("the ratio", lambda n_1, n_2, b_1, b_2: n_2 * b_2 / (n_1 * b_1) - 1,
                "That is the ratio of the voltages. How is it put in decibels?")),
    notes=("What does each coil's hum go with? Write both down, then what is left of the two.",
           "Each voltage is proportional to turns times field. Subtract, divide by the first one, take 20 log₁₀.",
           "First coil 100 turns in a field of 2, second 110 turns in 2.2: 200 and 242, so 42 of 200 is left, a share "
           "of 0.21: −13.6 dB."),
    worked="Hum is proportional to turns times field: n_1 b_1 in the first coil, n_2 b_2 in the second, which is wound "
           "the other way. What is left is the difference, relative to n_1 b_1: "
           "20 log10((n_2 b_2 − n_1 b_1)/(n_1 b_1)).",
    teaching_note="Ask what it gives for n_2 b_2 = n_1 b_1, and whether fewer turns may make up for a stronger field. "
                  "(They may; the page then gives minus infinity.)")

# ---- the bill --------------------------------------------------------------------------------------------------------


def known_coils(rows, reversed_ones, turns):
    """A choice that meets the limits: rows in parallel take wire so much thinner, and so many times the turns."""
    joined, wire = (("six in series", 41), ("two rows of three", 44))[int(rows)]
    return {"joined": joined, "sense": ("all alike", "every second reversed")[int(reversed_ones)], "wire": wire,
            "turns": int(turns) * (1 + int(rows))}


@lru_cache(maxsize=64)
def report_of_known(rows, reversed_ones, turns):
    from lessons_lib.physics.small_coils import small_coils_report  # brings scipy, and a lesson opens without it
    return small_coils_report(**known_coils(rows, reversed_ones, turns))


def of_known_coils(quantity, share, more=0.0):
    return lambda rows, reversed_ones, turns: (
        share * getattr(report_of_known(rows, reversed_ones, turns), quantity) + more)


UNDER_THE_ROOT = ("It is near 1/(2π√(LC)). L goes with the square of the turns; rows in parallel divide it by the "
                  "square of their number. Reversing every second coil adds inductance.")

six_coils = DesignExercise(
    id="7.15", model="small_coils_report", parts="small_coils_parts", marks=3, further=True,
    entries={"joined": Entry("how the six are joined",
                             options=("six in series", "two rows of three", "three rows of two", "six in parallel")),
             "sense": Entry("coils and their rods", options=("all alike", "every second reversed")),
             "wire": Entry("gauge of the wire, AWG", low=38, high=46, whole=True),
             "turns": Entry("turns of each coil", low=500, high=20000, whole=True)},
    hidden={"rows": Given("rows, less one", unit="1", low=0, high=1, step=1),
            "reversed_ones": Given("whether every second is reversed", unit="1", low=0, high=1, step=1),
            "turns": Given("turns in series", unit="1", low=3000, high=4300, step=100)},
    known=known_coils,
    derived={"least_level": Derived("level of string IV, relative to the long coil, at least", unit="dB", decimals=1,
                                    formula=of_known_coils("level", 1.0, -0.6)),
             "lowest_peak": Derived("peak with cable and controls, at least", unit="kHz", decimals=1,
                                    formula=of_known_coils("peak", 0.94)),
             "highest_peak": Derived("peak with cable and controls, at most", unit="kHz", decimals=1,
                                     formula=of_known_coils("peak", 1.06)),
             "most_resistance": Derived("resistance, at most", unit="kΩ", decimals=2,
                                        formula=of_known_coils("resistance", 1.08)),
             "most_fill": Derived("share of a coil's room, at most", unit="1", decimals=2,
                                  formula=of_known_coils("fill", 1.04)),
             "most_hum": Derived("hum in an even field, relative to the long coil, at most", unit="1", decimals=2,
                                 formula=of_known_coils("hum", 1.06, 0.02))},
    limits=(
        Limit(quantity="level", label="level of string IV", least="least_level",
              too_low="It goes with the turns in series between the two ends; rows in parallel give the mean of what "
                      "each row gives. Reversing costs 1.7 dB."),
        Limit(quantity="peak", label="peak with cable and controls", least="lowest_peak", most="highest_peak",
              too_low=UNDER_THE_ROOT, too_high=UNDER_THE_ROOT),
        Limit(quantity="resistance", label="resistance", most="most_resistance",
              too_high="It goes with the turns, divided by the wire's cross-section; rows in parallel divide it by the "
                       "square of their number."),
        Limit(quantity="fill", label="share of a coil's room", most="most_fill",
              too_high="It goes with the turns of each coil and with the square of the wire's diameter."),
        Limit(quantity="hum", label="hum in an even field", most="most_hum",
              too_high="Three coils against three leave none. All alike, it goes with the turns in series.")),
    worked="With a peak between {lowest_peak} and {highest_peak}: one way is {design}. Another: of six in series and "
           "two rows of three, the rows take twice the turns, of wire with half the cross-section (three gauges "
           "thinner). The two are electrically the same.",
    teaching_note="Have two benches with near limits compare: six in series of thick wire and two rows of thin wire "
                  "meet the same limits. Ask why. (Two thin wires side by side are one thick wire.)")

# ---- two coils, three ways -------------------------------------------------------------------------------------------

null_of_a_comb = NumberExercise(
    id="7.18", unit="mm", tolerance=0.02, size=(10, 50), further=True, marks=2,
    given={"scale": Given("length of the string", unit="mm", low=580, high=660, step=5),
           "pitch": Given("its pitch", unit="Hz", low=90, high=150, step=1),
           "null": Given("first null of the comb", unit="kHz", low=2.2, high=4.4, step=0.05)},
    answer=coils_apart,
    slips=(Slip("a whole wave", lambda scale, pitch, null: 2 * coils_apart(scale, pitch, null),
                "That is a whole wave at the null. With a whole wave between them, do the two coils cancel?"),
           Slip("half of it", lambda scale, pitch, null: coils_apart(scale, pitch, null) / 2,
                "How long is the way that a wave goes in one period of the open string, and which part of a wave fits "
                "between the coils at the null?"),
           Slip("the speed", lambda scale, pitch: 2e-3 * scale * pitch,
                "That is the speed of the wave, in m/s. How far does it get in half a period of the null?"),
           Slip("the string's half wave", lambda scale: scale / 2,
                "That is half the string. Which wave is the null about: that of the open string?"),
           Slip("upside down", lambda scale, pitch, null: 1e-3 * null / (scale * pitch),
                "A higher null: are the coils nearer together or further apart?")),
    common=("prefix",),
    steps={"speed": Step("m/s", lambda scale, pitch: 2 * scale * pitch)},
    notes=("First the speed of the wave, from the open string. Then the null.",
           "c is twice the length times the pitch, and f_null = c/(2d)."),
    twin=Twin({"scale": 700, "pitch": 200, "null": 2.0},
              "Another string: twice {scale} times {pitch} is {speed}. The null is at {null}, so the coils are "
              "{answer} apart."),
    worked="The wave goes twice {scale} in one period of {pitch}: {speed}. At the null half a wave fits between the "
           "coils: {speed} divided by twice {null} is {answer}.",
    teaching_note="The pair may be found this way without opening anything: play the open string, look for the partial "
                  "that is missing. Why must one know first that no plucking place took it away (lesson 5)?")

brightest_wiring = OrderExercise(
    id="7.19", marks=1, further=True,
    options={"a": "both in series", "b": "both in parallel", "c": "one of them alone",
             "d": "both in series, out of phase"},
    right="b > c > d > a",
    slips=(Slip("parallel last", "c > b", "In parallel: is the inductance between the two ends more than that of one "
                                          "coil, or less?"),
           Slip("more inductance is higher", "a > c", "f₀ = 1/(2π√(LC)). Does more inductance bring it up or down?"),
           Slip("no mutual inductance", "a = d", "In one of the two, M adds to both inductances. What does it do in "
                                                 "the other?"),
           Slip("M the wrong way", "a > d", "M is positive in series. What do swapped leads make of its sign?"),
           Slip("out of phase cancels L", "d > c", "The *voltages* cancel. Do the inductances, with M a tenth of L?"),
           Slip("parallel is one coil", "b = c", "Equal voltages stay one voltage. And equal inductances, side by "
                                                 "side?")),
    notes=("One cable for all: what is left that moves the resonance?",
           "Write the inductance of each in units of L, with M, and put the smallest first.",
           "With M = 0.2 L: series 2.4 L, parallel 0.6 L."),
    worked="In units of L: series 2 · 1.1 = 2.2, parallel 1.1/2 = 0.55, one alone 1, out of phase 2 · 0.9 = 1.8. The "
           "smallest inductance has the highest resonance: {order}.",
    teaching_note="Brightest by its resonance is not brightest on every string: ask where the comb has its null.")

partial_in_a_comb = NumberExercise(
    id="7.20", unit="dB", tolerance=0.1, size=(-16, -1.5), further=True, marks=2,
    given={"scale": Given("length of the string", unit="mm", low=580, high=660, step=5),
           "apart": Given("coils apart", unit="mm", low=16, high=20, step=0.5),
           "number": Given("number of the partial", unit="1", low=15, high=24, step=1)},
    answer=comb_level,
    slips=(Slip("ten log", lambda scale, apart, number: comb_level(scale, apart, number) / 2, VOLTAGE_DB),
           Slip("degrees", lambda scale, apart, number:
                level(math.cos(math.radians(math.pi * number * apart / (2 * scale)))),
                "That angle is in radians. Is the calculator set to degrees?"),
           Slip("a sine", lambda scale, apart, number:
                level(math.sin(math.pi * number * apart / (2 * scale))),
                "The sine belongs to a pair out of phase."),
           Slip("c is the length times the pitch", lambda scale, apart, number: comb_level(scale / 2, apart, number),
                "How far does a wave go in one period of the open string: once its length?"),
           Slip("relative to one coil", lambda scale, apart, number: comb_level(scale, apart, number) + level(2),
                "That is relative to one coil. The question asks for both coils in one place as the reference."),
           Slip("the ratio", lambda scale, apart, number: math.cos(math.pi * number * apart / (2 * scale)),
                "That is the ratio of the voltages. How is it put in decibels?")),
    common=("sign", "natural log"),
    steps={"angle": Step("1", lambda scale, apart, number: math.pi * number * apart / (2 * scale)),
           "ratio": Step("1", lambda scale, apart, number: math.cos(math.pi * number * apart / (2 * scale)))},
    notes=("The frequency is the partial's number times the pitch, and c is twice the length times the pitch. What is "
           "left of f/c?",
           "f/c is number/(2 · length). The comb is cos(π f d/c) relative to both in one place; then 20 log₁₀."),
    twin=Twin({"scale": 500, "apart": 25, "number": 10},
              "Another one: π · {number} · {apart} divided by twice {scale} is {angle}, its cosine {ratio}: {answer}."),
    worked="f/c is {number} divided by twice {scale}, so πfd/c = {angle}. Its cosine is {ratio}: {answer}.",
    teaching_note="The pitch falls out: at equal lengths the comb takes the same *numbers* from every string. Ask what "
                  "happens at the twelfth fret.")

# ---- elsewhere: a twisted pair ---------------------------------------------------------------------------------------

twisted = NumberExercise(
    id="7.16", unit="uV", tolerance=0.015, size=(0.05, 3), further=True, marks=2,
    given={"length": Given("length of the pair", unit="m", low=6, high=12, step=0.5),
           "apart": Given("wires apart, middle to middle", unit="mm", low=2.0, high=4.0, step=0.1),
           "field": Given("amplitude of the field", unit="uT", low=0.6, high=1.2, step=0.05),
           "crossings": Given("crossings, evenly spaced", unit="1", low=8, high=16, step=2)},
    answer=left_of_a_pair,
    slips=(Slip("not twisted", lambda length, apart, field: left_of_a_pair(length, apart, field, 0),
                "That is the pair without a crossing. What does each crossing do to the sign of the next area?"),
           Slip("one too few", lambda length, apart, field, crossings:
                left_of_a_pair(length, apart, field, crossings - 1),
                "Into how many pieces do so many crossings cut the pair? Draw it with two."),
           Slip("no 2π", lambda length, apart, field, crossings:
                left_of_a_pair(length, apart, field, crossings) / (2 * math.pi),
                "How fast does a field change that swings 50 times a second? What is missing beside f?"),
           Slip("RMS", lambda length, apart, field, crossings:
                left_of_a_pair(length, apart, field, crossings) / math.sqrt(2),
                "The question asks for the amplitude, as the field is given. Was something divided by √2?"),
           Slip("all pieces add", lambda length, apart, field, crossings:
                left_of_a_pair(length, apart, field, crossings) * (crossings + 2) / 2,
                "Those are all the pieces of one sign. What do those of the other sign take away?"),
           Slip("nothing left", lambda: 0.0,
                "An even number of crossings makes an odd number of pieces. Do they all find a partner?")),
    common=("prefix",),
    steps={"pieces": Step("1", lambda crossings: crossings + 1),
           "piece": Step("mm2", lambda length, apart, crossings: length * apart / (crossings + 1))},
    notes=("How many pieces are there, and which of them cancel?",
           "e = 2πfBA, and A is the area that is left when neighbours have cancelled: that of one piece."),
    twin=Twin({"length": 1.5, "apart": 1.0, "field": 2.0, "crossings": 2},
              "A short pair: {length} long, wires {apart} apart, {crossings} crossings make {pieces} pieces of {piece} "
              "each. The signs are +, −, +, so one is left. In {field} at 50 Hz it gives {answer}."),
    worked="{crossings} crossings make {pieces} pieces of {piece} each. Their signs alternate, so one piece is left: "
           "2π · 50 Hz · {field} · {piece} = {answer}.",
    teaching_note="With an odd number of crossings nothing would be left, on paper. What is left of real pairs comes "
                  "from uneven pieces, and from a field that is not even.")

loop_on_the_floor = EstimateExercise(
    id="7.14", unit="m2", factor=3, size=(1e-4, 1e5), further=True, answer=lambda: 4.2,
    because="7600 turns of about 5 cm by 1 cm each",
    slips=(Slip("one turn", lambda: 5.5e-4, "That is the area of one turn. How many turns are there?"),
           Slip("in cm2", lambda: 4.2e4, "How many square centimetres are in a square metre?"),
           Slip("a centimetre as a tenth", lambda: 420.0, "How many square centimetres are in a square metre?")),
    notes=("How long and how wide is one turn of the long coil, roughly? How many are there?",
           "The hum of one turn goes with the area that it goes round. All turns are in series."),
    twin=Twin({}, "A coil of 1000 turns, 10 cm by 2 cm each: 1000 times 0.002 m² is as much as one loop of 2 m²."),
    worked="A turn of the long coil is about 6 cm by 1 cm, with round ends: 5.5 cm². Times 7600 that is {answer}, the "
           "area of a loop of 2 m by 2 m. (Rods lead more of the field through the coil and make it 5.5 m², screws "
           "on a bar 10 m².)",
    teaching_note="Two cables between the same two boxes make such a loop on a floor. Nobody lifts a mains earth to "
                  "open it: lay the cables side by side, and the area goes.")

meter_vote = TextExercise(
    id="7.7",
    rubric=((1, "Why equal readings may differ in loudness: one reason in ear, partials, duration or player's hand."),
            (1, "A listening test that can be done: pairs in a mixed order, hidden, same pluck, several times."),
            (1, "What is counted, and which result would change their mind, given the scatter of five listeners.")),
    worked="A meter adds up voltage, an ear does not: at a moderate level it hears a low note softer than a high one "
           "of the same voltage, and a bright note louder than a dull one; and a first pulse says nothing of how "
           "long the note lasts. Besides, nobody pulls all strings with the same force. A test: a helper plucks two "
           "strings with the loop of wire that breaks, in a mixed order, behind a screen. Five listeners write down "
           "which of the two is louder, each pair four times. Count per pair how often each string wins. If three of"
           " the five change their answer from time to time, the pair is equal enough. Move the pole under the "
           "string that wins, and repeat. The vote is wrong if the heights that come out differ from the meter's by "
           "more than the listeners differ among each other.",
    teaching_note="Five listeners are few: a majority of at least 4 to 1 comes about by chance in three of eight "
                  "cases, either way round. Good answers say so.")

TEACHING_NOTE = """
**Demonstration with real parts.** A six-string instrument with a pickup whose pole screws turn, a sound card, a loop
of thin copper wire that breaks at the same force every time (common practice). Pluck all six strings with it, note
the peaks, turn one screw by one turn, and do it again: its own string changes, the neighbour within the scatter. Then
push string III sideways at the pickup and pluck: the level falls. A compass shows the polarity of two rows of magnets.
Cautions: magnets and watches, cards, pacemakers and other implants (15 cm at least, 30 cm for strong sets); bar
magnets snap together and pinch; safety glasses on when strings are plucked hard or changed. Never lift an amplifier's
earth against hum; its case stays closed.

**What to ask.** "What do six screws share, and what would you measure to see it?" "Why is the plain third the
loudest, and who would have said so?" "Which coils have a voltage while string IV
sounds, and which only resistance?" "What does a pair of coils know that one coil does not?" "For whom is a pickup
balanced?"

**What goes wrong.** The thickest string is taken for the loudest, wrap and all. Lowering a pole is taken for lifting
the string. A magnet's flux is shared out like a cake: what one screw gets, the others lose. Six small coils are
thought to fill the dip, and to give six times one coil's voltage when one string sounds. A coil is thought to catch
flux, which is then used up. Hum and signal are thought to cancel or stay together, always.

**Say it openly**: the screws move up as a whole and leave a gap above the bar; real ones often turn in a threaded
strip of steel. The wraps are bronze but for one switch: with a wrap of nickel-plated steel, expect the wound strings 3
to 9 dB up, and a plain third that hardly stands out. Hum is that of an even field; what comes in through the electric
field or a near transformer is not in it.
"""

FIRST_EVENING = Evening(
    aim="What one turned pole does to its own string and to the others; which string is loudest at one force, and why; "
        "what a string loses between two poles.",
    on_the_table="Ruler, a set of strings with its wrapper (which core is how thick?), a pickup with screws, a small "
                 "screwdriver.",
    stretches=(
        Stretch(minutes=7, what="The six plucks of the opening, aims, three quick questions.",
                ask="Which of the six notes is loudest, and by how much, would you say?"),
        Stretch(minutes=12, what="Section 1 up to its fold: prediction, panel, what it means.",
                ask="What do six screws share, and what would you measure to see it?"),
        Stretch(minutes=15, what="Sharing by the circuit: both worked examples, s1, exercises 7.1 and 7.17.",
                ask="Which reluctances are in parallel, and what is in series with them?"),
        Stretch(minutes=18, what="Section 2: guesses on the board, panel, worked examples, s2, exercise 7.10.",
                ask="Why is string VI not the loudest? What is under its wrap?"),
        Stretch(minutes=15, what="Section 4: prediction, panel, the bell, exercise 7.11.",
                ask="Two coils hear the string half way. How much does each of them give?")),
    at_home="Section 3 (how far a screw goes down, the solver, exercise 7.3) and exercise 7.2, which are further.")

SECOND_EVENING = Evening(
    aim="How coils are joined and what one long coil saves; where the flux of string and magnets closes; what a pair "
        "of coils keeps and what it cancels.",
    on_the_table="Two coils and a meter for resistance; a compass; two rows of magnets. Six lamps in series, if there "
                 "are any.",
    stretches=(
        Stretch(minutes=22, what="Section 5: how coils are joined, prediction, panel, the table; worked examples, s3, "
                                 "exercise 7.8.",
                ask="String IV sounds. What does the coil under string I contribute?"),
        Stretch(minutes=10, what="Section 6: three fluxes, prediction, panel.",
                ask="Does a loop twice as wide get less of what the string adds, or more?"),
        Stretch(minutes=20, what="Section 7: hum, prediction, panel, exercises 7.12 and 7.13.",
                ask="Which of the two, hum and signal, notices that the magnets were turned over?"),
        Stretch(minutes=13, what="The open question 7.7 in pairs, limits, summary.", ask="For whom is a pickup "
                "balanced?")),
    at_home="Sections 8 to 10 (a pair wired three ways, the bill, six coils to design in 7.15, a twisted pair) and "
            "exercise 7.9, which are further.")

TO_VOTE = (
    ToVote(
        question="Six screws are on one flat, wide bar magnet; its own reluctance is a thirtieth of that of everything "
                 "outside it. One screw is taken out altogether. The flux in each of the other five ...",
        options={"a": "rises by a fifth: six shared it, now five do", "b": "hardly changes",
                 "c": "falls by a sixth: one path is missing"},
        right="b",
        because="Outside it is as if a battery of small internal resistance lost one of six lamps: the MMF across the "
                "others stays nearly the same, and so does their flux. Nothing is shared out like a cake.",
        twin=ToVote(
            question="The magnet is now narrow and tall; its own reluctance is as large as that of all six screw paths "
                     "in parallel (there is no other path). One screw is taken out. The flux in each of the other "
                     "five ...",
            options={"a": "rises by about a tenth", "b": "hardly changes", "c": "falls by a sixth"},
            right="a",
            because="Outside there are five paths in place of six: 6/5 of the reluctance. Its share of the MMF rises "
                    "from 1/2 to 6/11, that is by 9 %. The sharing is the magnet's own reluctance, and here it is "
                    "large.")),
    ToVote(
        question="Six small coils are in series, one under each string. String VI sounds alone. A piece of wire "
                 "bridges the coil under string I, so that it is no longer part of the circuit. The voltage ...",
        options={"a": "falls by a sixth", "b": "is gone: the chain is broken", "c": "stays as it was, nearly"},
        right="c",
        because="The coil under string I hears next to nothing of string VI; it brought resistance and inductance. "
                "Bridged is not broken: the wire closes the circuit.",
        twin=ToVote(
            question="From one long coil round all six poles a sixth of its turns is unwound. String VI sounds alone. "
                     "The voltage ...",
            options={"a": "falls by a sixth", "b": "stays as it was, nearly",
                     "c": "falls for one of the strings, and not for this one"},
            right="a",
            because="Every turn of the long coil goes round all six poles and gives voltage for each string: a sixth "
                    "of the turns is a sixth of every string's voltage.")),
    ToVote(
        question="Two identical coils over identical magnets are in series; hum and signal add. Now the magnets of the "
                 "second coil alone are turned over. For low partials ...",
        options={"a": "the hum cancels and the signal adds", "b": "both cancel",
                 "c": "the hum adds and the signal cancels"},
        right="c",
        because="Hum does not need the magnets, so it does not notice. The signal changes its sign with them. The "
                "winding has to be reversed as well: then hum changes once and signal twice.",
        twin=ToVote(
            question="The same two coils, nothing reversed. The second one is taken out with its magnets, turned by "
                     "half a turn on the spot (like a plate on a table, top still up), and put back with its leads as "
                     "they were. Now ...",
            options={"a": "hum and signal add as before", "b": "the hum cancels and the signal adds",
                     "c": "both cancel"},
            right="a",
            because="Seen from above a winding that goes anticlockwise still does, and north is still on top: nothing "
                    "is reversed. To reverse a winding, turn the coil upside down or swap its leads.")))

LESSON = Lesson(
    id="07", title="Six strings", version=1, exercises=(
        longer_cable, two_strings, both_reversed, one_screw, sharing_step, six_branches, raised_one, loudest,
        level_step, by_level, third, lower_it, small_coils, bend_curve, shared_turns, series_step, join, beyond_copper,
        closed, winding_alone, hum_of_six, hum_formula, parallel_in_a_comb, null_of_a_comb,
        brightest_wiring, partial_in_a_comb, six_coils, twisted, loop_on_the_floor, meter_vote),
    teaching_note=TEACHING_NOTE, evenings=(FIRST_EVENING, SECOND_EVENING), to_vote=TO_VOTE)
