"""A made-up lesson with the kinds of which no number is asked, or not a number alone."""
from lessons_lib.exercises.declaration import FormulaExercise, Lesson, Slip, Symbol

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

LESSON = Lesson(id="01", title="The loop", version=1, exercises=(loop,))
EMPTY = {"1.1": '"..."'}    # how an empty answer stands on a page, behind the exercise's number
SLIPS = {"1.1": lambda student, exercise: ("mmf/r_magnet + mmf/r_air", None, {})}
# words of the class report with these slips, of the worked page, of the handout
RIGHT_WORDS = {"1.1": ("does it divide", "<strong>mmf / (r_magnet + r_air)</strong>", "r_air, reluctance of the air")}
