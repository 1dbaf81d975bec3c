"""The made-up garden lesson with an exercise that builds on another one, and a first page to go with it."""
from dataclasses import replace

from exercises_lesson import LESSON, pond
from lessons_lib.exercises.declaration import Given, Lesson, NumberExercise, Slip, Step, Twin

bank = NumberExercise(
    id="1.6", follows=pond, unit="mm", tolerance=0.02, size=(1, 8), marks=3,
    given={"depth": Given("depth of the ditch", unit="mm", low=2, high=3, step=0.1)},
    answer=lambda earlier, depth: earlier / depth,
    slips=(Slip("share left out", lambda earlier, share, depth: earlier / share / depth,
                "Is the whole pond filled in?"),
           Slip("upside down", lambda earlier, depth: earlier * depth * 1e6, "Divide or multiply?")),
    steps={"whole": Step("mm2", lambda earlier, share: earlier / share)},
    notes=("Take the covered part first.", "An area is length times width."),
    twin=Twin({"diameter": 4.0, "share": 50, "depth": 2.0},
              "{diameter}, half of it: {earlier} of {whole}. Over {depth} that is {answer}."),
    worked="The covered part {earlier} over {depth} is {answer}.")

GARDEN = replace(LESSON, exercises=(*LESSON.exercises, bank))
FIRST = Lesson(id="00", title="Before the garden", version=1, exercises=(replace(pond, id="0.1", marks=0),))
GARDEN_ANSWERS = "from exercises_following import GARDEN as LESSON\n"


def write_answers(folder, text=GARDEN_ANSWERS):
    """A folder of model answers with the garden as lesson 01; returns it."""
    folder.mkdir(exist_ok=True)
    (folder / "lesson_00.py").write_text("from exercises_following import FIRST as LESSON\n")
    (folder / "lesson_01.py").write_text(text)
    return folder
