"""How an invented student works through a lesson: predictions, tries with slips, notes that help or not, unclear lines.

All of it is drawn from dice that bench, lesson and exercise decide, so that the same class comes out each time.
"""
import random
from dataclasses import dataclass, replace

from lessons_lib.base.units import read_unit
from lessons_lib.exercises.common_slips import COMMON_SLIPS
from lessons_lib.exercises.returns import return_bytes

UNCLEAR = (
    "Which area is meant, the pole or the coil?", "I get the right number but do not see why.", "Why is there a minus?",
    "What is the difference between B and H here?", "Where does the 4 pi come from?", "Is the length the whole rod?",
    "The note says look at the unit, but my unit is right.", "peak or RMS??", "The panel jumps when I move it.",
    "Does the string touch the field lines?", "<b>bold</b> & =1+1", "I do not understand the table.")
SENTENCES = (
    "The flux does not flow like water.", "A measurement would show it: put a bar across and read the probe.",
    "The magnet keeps its flux without any supply.", "The string gives a voltage only while it moves.",
    "More turns make more voltage, and more resistance.", "I would lower the pickup on the side of the thick strings.",
    "The number fits the table within a few per cent.", "It depends on where you look along the side.")
ONE_WAY = 0.65      # share of wrong answers that come from the exercise's own slips


@dataclass
class EventSheet:
    """Takes what a student does, as a sheet would, and makes a return of it; judges and shows nothing."""

    lesson: object
    bench: str
    card: str
    drawn: dict

    def __post_init__(self):
        self.events, self._claims = [], {}

    def _add(self, event, exercise_id, **what):
        number = len(self.events) + 1
        dice = random.Random(f"{self.bench} {self.lesson.id} {number}")
        self.events.append({"id": f"{dice.getrandbits(64):016x}", "number": number, "event": event,
                            "time": f"2030-03-01T08:{number // 60:02d}:{number % 60:02d}+01:00",
                            "lesson": self.lesson.id, "exercise": exercise_id, **what})

    def answer(self, exercise_id, value, unit=None, **readings):
        if callable(value):
            value = self.lesson[exercise_id].claim(value)
        self._add("answer", exercise_id, value=value, **({"unit": unit} if unit else {}),
                  **({"readings": readings} if readings else {}))

    def predict(self, exercise_id, choice, sureness, reason=""):
        self._add("prediction", exercise_id, choice=choice, sureness=sureness, reason=reason)

    def saw(self, exercise_id, choice):
        self._add("saw", exercise_id, choice=choice)

    def unclear(self, exercise_id, line):
        self._add("unclear", exercise_id, line=line)

    def data(self):
        return return_bytes(bench=self.bench, code=self.card[len(self.bench) + 1:], lesson=self.lesson.id,
                            version=self.lesson.version, events=self.events)[0]


class Worker:
    """Works on a *lesson* with *sheet*, a real one or an `EventSheet`; *drawn* is exercise id -> `Drawn`."""

    def __init__(self, lesson, sheet, drawn, bench):
        self._lesson, self._sheet, self._drawn, self._bench = lesson, sheet, drawn, bench
        self._ability = min(0.95, max(0.2, random.Random(f"ability {bench}").gauss(0.58, 0.18)))
        self._own = {}      # exercise -> last answer in the asked unit

    def whole(self):
        for exercise in self._lesson.exercises:
            dice = random.Random(f"{self._bench} {exercise.id}")
            if dice.random() < (0.25 if exercise.further else 0.04) and exercise.kind != "prediction":
                continue        # left out
            _WAYS.get(exercise.kind, Worker._tried)(self, exercise, dice)
            if not exercise.quick and dice.random() < 0.3 * max(0, _difficulty(exercise)):
                self._sheet.unclear(exercise.id, dice.choice(UNCLEAR))

    def _prediction(self, exercise, dice):
        liked = random.Random(f"liked {exercise.id}")
        weights = [liked.uniform(0.3, 2) for _ in exercise.options]
        choice = dice.choices(list(exercise.options), weights)[0]
        self._sheet.predict(exercise.id, choice, dice.choices((1, 2, 3), (2, 4, 3))[0], "so I think")
        if not exercise.seen_question:
            return      # a vote, without a panel
        others = [letter for letter in exercise.seen_options if letter != exercise.seen]
        looks_well = 0.9 - 0.4 * max(0, _difficulty(exercise) + 0.1)
        self._sheet.saw(exercise.id, exercise.seen if dice.random() < looks_well else dice.choice(others[:2]))

    def _text(self, exercise, dice):
        text = " ".join(dice.sample(SENTENCES, dice.choice((1, 4, 5, 6))))
        self._sheet.answer(exercise.id, text)

    def _tried(self, exercise, dice):
        """Tries, each with its note, until it is right or the student gives up."""
        is_right = dice.random() < self._ability - _difficulty(exercise) + 0.25 * exercise.quick
        for _ in range(6):
            if is_right:
                self._type(exercise, *self._right(exercise))
                return
            if exercise.kind not in _WRONG:
                return          # got right or left out
            note_helps = _WRONG[exercise.kind](self, exercise, dice)
            if exercise.quick or dice.random() < 0.25:
                return
            is_right = dice.random() < note_helps * (0.5 + 0.6 * self._ability)

    def _right(self, exercise):
        """The right answer; by the own earlier one where that is wrong."""
        value, unit, readings = exercise.model_answer(self._drawn.get(exercise.id))
        before = getattr(exercise, "follows", None)
        if before and before.id in self._own:
            earlier = self._own[before.id] * read_unit(before.unit).factor
            own = replace(self._drawn[exercise.id], own_earlier=earlier).answer
            value = own if abs(own) > 0 else value
        return float(f"{value:.4g}") if exercise.kind == "number" else value, unit, readings

    def _type(self, exercise, value, unit=None, readings=None):
        if exercise.kind == "number":
            self._own[exercise.id] = value
        self._sheet.answer(exercise.id, value, unit, **(readings or {}))

    # ---- wrong answers: each returns how well its note helps ----

    def _wrong_number(self, exercise, dice):
        drawn, kind = self._drawn[exercise.id], dice.random()
        if kind < ONE_WAY and exercise.slips:
            weights = [1 / (place + 1) ** 1.5 for place, _ in enumerate(exercise.slips)]
            value = drawn.in_asked_unit(dice.choices(exercise.slips, weights)[0].formula)
            helps = 0.75
        elif kind < 0.8 and exercise.common:
            value, helps = drawn.answer * dice.choice(COMMON_SLIPS[dice.choice(exercise.common)].factors), 0.65
        elif kind < 0.95:
            value, helps = drawn.answer * dice.choice((0.93, 1.06, 1.15, 0.6, 2.6, 0.41)), 0.35
        else:
            value, helps = exercise.size[1] * dice.choice((40, 3e4)), 0.5
        self._type(exercise, float(f"{value:.4g}"), exercise.unit)
        return helps

    def _wrong_choice(self, exercise, dice):
        wrong = [letter for letter in exercise.options if letter != exercise.right]
        self._type(exercise, dice.choices(wrong, (5, 1, 1)[:len(wrong)])[0])
        return 0.7

    def _wrong_function(self, exercise, dice):
        self._type(exercise, dice.choice(exercise.slips).formula)
        return 0.6

    def _wrong_measured(self, exercise, dice):
        value, unit, readings = self._right(exercise)
        self._type(exercise, value * dice.choice((1000, 2, 0.8)), unit, readings)
        return 0.6

    def _wrong_design(self, exercise, dice):
        design = dict(self._right(exercise)[0])
        name = dice.choice([name for name, value in design.items() if isinstance(value, (int, float))])
        self._type(exercise, {**design, name: type(design[name])(0.7 * design[name])})
        return 0.6

    def _wrong_formula(self, exercise, dice):
        self._type(exercise, dice.choice(("2 * ({})", "1 / ({})", "({}) + 1")).format(exercise.written))
        return 0.6

    def _wrong_order(self, exercise, dice):
        """Somebody's order: the first that is not right."""
        right, _, _ = self._right(exercise)
        orders = (" > ".join(dice.sample(list(exercise.options), len(exercise.options))) for _ in range(9))
        self._type(exercise, next(order for order in orders if order != right))
        return 0.6

    def _wrong_curve(self, exercise, dice):
        letters = exercise.names_by_letter(self._drawn[exercise.id].hidden["order"])
        self._type(exercise, dice.choice([letter for letter, name in letters.items() if name != exercise.right]))
        return 0.7

    def _wrong_estimate(self, exercise, dice):
        value, unit, readings = self._right(exercise)
        self._type(exercise, float(f"{value * dice.choice((1000, 10, 0.1)):.2g}"), unit, readings)
        return 0.6

    def _wrong_points(self, exercise, dice):
        right, _, _ = self._right(exercise)
        name, entry = dice.choice(list(exercise.entries.items()))
        self._type(exercise, {**right, name: max(entry.low, entry.high, key=lambda end: abs(end - right[name]))})
        return 0.6


def _difficulty(exercise):
    """Between -0.25 (easy) and 0.3; what asks for several steps is harder."""
    several_steps = 0.1 * bool(getattr(exercise, "follows", None))
    return random.Random(f"difficulty {exercise.id}").uniform(-0.25, 0.2) + several_steps


_WAYS = {"prediction": Worker._prediction, "text": Worker._text}
_WRONG = {"number": Worker._wrong_number, "choice": Worker._wrong_choice, "function": Worker._wrong_function,
          "measured": Worker._wrong_measured, "design": Worker._wrong_design, "formula": Worker._wrong_formula,
          "order": Worker._wrong_order, "curve": Worker._wrong_curve, "estimate": Worker._wrong_estimate,
          "points": Worker._wrong_points}
