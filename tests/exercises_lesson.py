"""A made-up lesson about garden work, for the tests of exercises: every kind, no physics of the course."""
import math

from lessons_lib.exercises.declaration import (
    ChoiceExercise,
    Derived,
    Given,
    Lesson,
    NumberExercise,
    PredictionExercise,
    Slip,
    Step,
    TextExercise,
    Twin,
)
from lessons_lib.exercises.draws import draw
from lessons_lib.exercises.making import make_sheet
from lessons_lib.exercises.sheet_file import sheet_bytes

pond = NumberExercise(
    id="1.1",
    given={"diameter": Given("diameter of the round pond", unit="mm", low=4.5, high=5.2, step=0.05),
           "share": Given("share that is covered", unit="%", low=30, high=60, step=1)},
    unit="mm2", tolerance=0.02, size=(4, 14),
    answer=lambda diameter, share: share * math.pi * diameter ** 2 / 4,
    slips=(Slip("open part", lambda diameter, share: (1 - share) * math.pi * diameter ** 2 / 4,
                "Is the covered part asked, or the open one?"),
           Slip("all of it", lambda diameter: math.pi * diameter ** 2 / 4, "That is the whole pond.")),
    common=("diameter for radius", "square for circle", "pi", "million", "hundred"),
    notes=("Draw the pond and shade what is asked.", "A share of an area is a factor on the area."),
    twin=Twin(given={"diameter": 8.0, "share": 25},
              text="With {diameter} and {share}: the whole is {whole}, the covered part {answer}."),
    steps={"whole": Step("mm2", lambda diameter: math.pi * diameter ** 2 / 4)},
    worked="The whole pond is π d²/4 = {whole}; {share} of it is {answer}.",
    marks=2, teaching_note="Bring a compass.")

beds = NumberExercise(
    id="1.2",
    given={"step": Given("distance of the posts", unit="mm", low=10, high=10, step=1)},
    hidden={"first": Given("first speed", unit="m/s", low=2, high=4, step=0.1)},
    derived={"place": Derived("place", unit="mm", decimals=0, formula=lambda step: [n * step for n in range(5)]),
             "speed": Derived("speed", unit="m/s", decimals=2,
                              formula=lambda first: [first * math.exp(-n / 4) for n in range(5)])},
    unit="m/s", tolerance=0.03, size=(1.2, 2.8),
    answer=lambda speed: speed.mean(),
    fuller=lambda first: first * sum(math.exp(-n / 4) for n in range(5)) / 5,
    slips=(Slip("first only", lambda speed: speed[0], "One post does not speak for all."),),
    notes=("Use every row.", "A mean is the sum over the count."),
    twin=Twin(given={"step": 10, "place": [0, 10, 20], "speed": [9.0, 6.0, 3.0]}, text="{speed}: together {answer}."),
    worked="The mean of {speed} is {answer}.")

level = NumberExercise(
    id="1.3",
    given={"ratio": Given("ratio", unit="1", low=0.5, high=0.8, step=0.01)},
    unit="dB", tolerance=0.1, size=(-7, -1), common=("ten log", "natural log", "reference"),
    answer=lambda ratio: 20 * math.log10(ratio),
    notes=("Which logarithm?", "20 times the logarithm."),
    twin=Twin(given={"ratio": 0.1}, text="{ratio} makes {answer}."), worked="{answer}")

gate = ChoiceExercise(
    id="1.4", options={"a": "left", "b": "right", "c": "both"}, right="c",
    notes={"a": "And the other one?", "b": "And the left one?", "c": "Both swing."},
    worked="Both, because they share a post.")

recall = ChoiceExercise(
    id="m1", options={"a": "hot", "b": "cold"}, right="b", quick=True,
    notes={"a": "Ice is cold.", "b": "Yes, ice is cold."})

essay = TextExercise(
    id="1.5", rubric=((2, "names a tool"), (1, "says why")), worked="A spade, because the soil is heavy.")

guess = PredictionExercise(
    id="p1", question="What will the kite do?", options={"a": "rise", "b": "fall"},
    seen_question="What did it do?", seen_options={"a": "It rose.", "b": "It fell."}, seen="a",
    seen_notes={"a": "It rose.", "b": "Look again: which way does the string point?"})

LESSON = Lesson(id="01", title="The garden", version=1, exercises=(recall, guess, pond, beds, level, gate, essay))


def lay_desk(folder):
    for bench in ("b000", "b017"):
        lay_sheet(folder, bench)


def lay_sheet(folder, bench, content=None):
    path = folder / "sheets" / "01" / f"{bench}.json"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(sheet_bytes(content or make_sheet(LESSON, secret="test", bench=bench)))
    return path


def lay_answers(folder, module="exercises_lesson", lesson_id="01"):
    """Model answers beside the *folder* of a page: a file that takes the LESSON of a module of the tests."""
    path = folder.parent / "answers" / f"lesson_{lesson_id}.py"
    path.parent.mkdir(exist_ok=True)
    path.write_text(f"from {module} import LESSON\n", encoding="utf-8")
    return path


def drawn(exercise_id, bench="b000"):
    return draw(LESSON[exercise_id], secret="test", bench=bench)
