"""A made-up lesson with the kinds of which no number is asked, or not a number alone."""
from lessons_lib.exercises.declaration import (
    Compared,
    CurveAxis,
    CurveExercise,
    Entry,
    EstimateExercise,
    FormulaExercise,
    Given,
    Lesson,
    Near,
    OrderExercise,
    PointsExercise,
    Signed,
    Slip,
    Symbol,
    Twin,
)

loop = FormulaExercise(
    id="1.1", marks=2,
    symbols={"mmf": Symbol("magnetomotive force", "A", 100, 300), "r_magnet": Symbol("reluctance", "MA/Wb", 20, 80),
             "r_air": Symbol("reluctance of the air", "MA/Wb", 5, 60), "flux": Symbol("flux of another", "uWb", 1, 9),
             "gap": Symbol("length of the gap", "mm", 1, 5), "mu_0": Symbol("constant", "H/m", 1.2566e-6, 1.2566e-6)},
    asked="Wb", answer=lambda mmf, r_magnet, r_air: mmf / (r_magnet + r_air), written="mmf / (r_magnet + r_air)",
    slips=(Slip("parallel", lambda mmf, r_magnet, r_air: mmf * (1 / r_magnet + 1 / r_air),
                "Does all of the flux go through both, or does it divide?"),
           Slip("upside down", lambda mmf, r_magnet, r_air: (r_magnet + r_air) / mmf,
                "Which of the two drives, and which one hinders?")),
    notes=("Follow the flux once round.", "In series, reluctances add up.", "With 1 A and 2 A/Wb in all: 0.5 Wb."),
    worked="The two are in series: mmf / (r_magnet + r_air).")

ladders = OrderExercise(
    id="1.2", marks=1,
    options={"a": "a ladder", "b": "two of them end to end", "c": "one turned round", "d": "a chair"},
    right="b > a = c > d",
    slips=(Slip("turning counts", "a > c", "Does turning it round make it shorter?"),
           Slip("turning counts", "c > a", "Does turning it round make it shorter?"),
           Slip("from the other end", "d > c > a > b", "Which end of the list did you begin with?")),
    notes=("Draw them beside each other.", "Lengths add up.", "Two of 3 m are 6 m."), worked="It is {order}.")

rods = OrderExercise(
    id="1.3", marks=2, options={"a": "first", "b": "second", "c": "both", "d": "the second twice"},
    given={"first": Given("length of the first rod", unit="mm", low=10, high=40, step=5),
           "second": Given("length of the second rod", unit="mm", low=10, high=40, step=5)},
    right=lambda first, second: {"a": first, "b": second, "c": first + second, "d": 2 * second},
    slips=(Slip("twice of the first", lambda first, second: {"a": first, "b": second, "c": first + second,
                                                             "d": 2 * first}, "Which one is doubled?"),),
    notes=("Draw them.", "Lengths add up.", "10 mm and 20 mm are 30 mm."),
    worked="With {first} and {second}: {order}.")

pond = EstimateExercise(
    id="1.4", unit="m2", factor=3, size=(0.01, 1e5), marks=1, answer=lambda: 20.0, because="4 m times 5 m, by steps",
    slips=(Slip("in cm2", lambda: 20e4, "How many square centimetres are in a square metre?"),),
    notes=("How many steps is it?", "An area is a length times a length."), worked="About {answer}.",
    twin=Twin({}, "A table of one metre by half a metre has half a square metre."))

heap = EstimateExercise(
    id="1.5", unit="kg", factor=10, size=(1, 1e7), marks=2, because="a heap is a cone, and sand is heavy",
    given={"height": Given("height of the heap", unit="mm", low=900, high=1800, step=100)},
    answer=lambda height: 1600 * height ** 3, notes=("Which shape?", "Volume times density."),
    slips=(Slip("litres", lambda height: height ** 3, "What does a cubic metre of it weigh?"),),
    twin=Twin({"height": 12000}, "A heap of {height} has {answer}."), worked="{height}: {answer}.")

swing = CurveExercise(
    id="1.6", marks=1, x=CurveAxis("time", "s", 2, 0, 4), y=CurveAxis("speed", "m/s", 2), right="downhill",
    given={"pace": Given("largest speed", unit="m/s", low=1, high=3, step=0.5)},
    curves=lambda x, pace: {"downhill": pace * x / x[-1], "uphill": pace * (1 - x / x[-1]),
                            "backwards": -pace * x / x[-1], "level": pace + 0 * x},
    notes={"downhill": "It gains speed.", "uphill": "Does it gain speed, or lose it?", "backwards": "Which way is it?",
           "level": "Is nothing pulling?"}, worked="With {pace} it is {letter}.")

slope = PointsExercise(
    id="1.7", marks=4, entries={name: Entry(f"height {name}", unit="m", low=-10, high=10)
                                for name in ("begin", "middle", "end")},
    given={"drop": Given("drop in all", unit="m", low=2, high=6, step=0.5)},
    right=lambda drop: {"begin": drop, "middle": drop / 2, "end": 0.0},
    features=(Compared("begin", "middle", "Does it go up or down at first?"),
              Compared("middle", "end", "And then?"), Signed("end", "Where does it arrive?", zero=0.2),
              Near("begin", "How much is it in all?", factor=1.3)),
    worked="With {drop}: {points}.")

LESSON = Lesson(id="01", title="The loop", version=1, exercises=(loop, ladders, rods, pond, heap, swing, slope))
# how an empty answer stands on a page, behind the exercise's number
EMPTY = dict.fromkeys(("1.1", "1.2", "1.3"), '"..."') | {
    "1.4": '..., "m2", because="..."', "1.5": '..., "kg", because="..."', "1.6": '"..."', "1.7": "..."}
SLIPS = {"1.1": lambda student, exercise: ("mmf/r_magnet + mmf/r_air", None, {}),
         "1.2": lambda student, exercise: ("d, c, a, b", None, {}),
         "1.3": lambda student, exercise: ("a=b=c=d", None, {}),
         "1.4": lambda student, exercise: (2e5, "m2", {"because": "four hundred times five hundred"}),
         "1.5": lambda student, exercise: (1e3 * student.drawn(exercise).answer, "kg", {"because": "it is that much"}),
         "1.6": lambda student, exercise: (next(letter for letter, name in exercise.names_by_letter(
             student.whole(exercise).hidden["order"]).items() if name == "uphill"), None, {}),
         "1.7": lambda student, exercise: ([student.drawn(exercise).shown["drop"], 9, 0], None, {})}
# words of the class report with these slips, of the worked page, of the handout
RIGHT_WORDS = {"1.1": ("does it divide", "<strong>mmf / (r_magnet + r_air)</strong>", "r_air, reluctance of the air"),
               "1.2": ("Which end of the list", "<strong>b &gt; a = c &gt; d</strong>", "&gt; or = between them"),
               "1.3": ("another order", "twice of the first", "&gt; or = between them"),
               "1.4": ("in cm2", "4 m times 5 m, by steps", 'class="lines"'),
               "1.5": ("about 1000 × the right value", "<strong>10</strong>", 'class="lines"'),
               "1.6": ("gain speed, or lose it", "<strong>(", "largest speed"),
               "1.7": ("Does it go up or down at first?", "within a factor of 1.3", "height middle")}
