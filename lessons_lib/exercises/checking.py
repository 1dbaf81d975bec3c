"""From what a student typed to a judgement: pure functions of the sheet's record and the answer, no log, no memory."""
from dataclasses import dataclass, field

from lessons_lib.base.units import asked_words, into, read_unit, shown_unit, with_unit
from lessons_lib.exercises import reading
from lessons_lib.exercises.designs import computed, design_text, findings, findings_text, read_design
from lessons_lib.exercises.functions import claim_of, claimed
from lessons_lib.exercises.measured import (
    read_readings,
    readings_name,
    readings_text,
    result_of,
    result_text,
    slips_met,
)
from lessons_lib.exercises.sealing import RIGHT, Scale, digest
from lessons_lib.exercises.verdicts import State, sentence


@dataclass(frozen=True, kw_only=True)
class Judgement:
    """What is said of one answer.

    *try_name* tells tries apart (the bin, the letter); two answers of one bin are one try, no name is no try.
    *entry* is what the log keeps. *unmatched* says that no slip fits: the next general note is due. *share* is how much
    of a design's limits is met, *slips* names what a number from own readings fits.
    """

    state: State
    text: str
    try_name: str = ""
    entry: dict = field(default_factory=dict)
    unmatched: bool = False
    share: float = 0.0
    slips: tuple = ()

    @property
    def is_readable(self):
        """Whether the answer is kept."""
        return self.state != State.UNREADABLE


def judge(exercise_id, record, value, unit=None, readings=None):
    """Return the `Judgement` on an answer to exercise *exercise_id* of a sheet; unreadable ones are a judgement too.

    *readings* are those that go with the answer of a measured exercise.
    """
    try:
        if record["kind"] == "measured":
            return _judge_measured(record, value, unit, readings)
        return _JUDGES[record["kind"]](exercise_id, record, value, unit)
    except ValueError as error:
        return Judgement(state=State.UNREADABLE, text=sentence(str(error)))


def shown_entry(record, entry):
    """Return a kept answer as the student wrote it; of a function what was read off."""
    if record["kind"] == "function":
        return entry["value"].replace("-", "−")
    if record["kind"] == "design":
        return design_text(record, entry["value"])
    if record["kind"] not in ("number", "measured"):
        return f'"{reading.shortened(entry["value"], 80)}"'
    number = with_unit(f"{entry['value']:.6g}", entry["unit"])
    return number if record["kind"] == "number" else f"{number} with {readings_text(record, entry['readings'])}"


def _judge_number(exercise_id, record, value, unit):
    typed = reading.read_number(value)
    number = reading.read_number(into(typed, unit, record["unit"]))
    unit = (unit or "").strip() or record["unit"]
    if unit in record.get("not_in", ()):
        raise ValueError(f"give the answer in {shown_unit(record['unit'])} here, not in {unit}: "
                         "changing the unit is the exercise")
    scale = Scale(tolerance=record["tolerance"], absolute=record["absolute"], phase=record["phase"])
    name = scale.bin(number)
    said = record["sealed"].get(digest(record["salt"], exercise_id, "number", name))
    state, text = _number_says(record, number, said)
    if state == State.RIGHT and reading.figures(typed) > 5:
        text = f"{text} Three or four figures are enough: the given values carry no more.".strip()
    return Judgement(state=state, text=text, try_name=name, entry={"value": typed, "unit": unit},
                     unmatched=state == State.NOT_YET and said is None)


def _number_says(record, number, said):
    low, high = record["size"]
    if said == RIGHT:
        return State.RIGHT, f"Within {_tolerance(record)} of what your given values lead to."
    if said is not None:
        return State.NOT_YET, record["slip_notes"][said]
    if not (low <= number <= high or low <= -number <= high):   # a wrong sign alone is no matter of units
        return State.FAR, _far(record["unit"])
    return State.NOT_YET, ""


def _far(unit):
    if read_unit(unit).dimension == "a plain number":
        return ("No one's numbers lead to an answer like this. Which quantity goes on top of the fraction, and which "
                "below?")
    return f"No one's numbers lead to an answer like this. Look at the units first: {asked_words(unit)}."


def _tolerance(record):
    if record["absolute"]:
        return with_unit(f"{record['tolerance']:g}", record["unit"])
    return f"{100 * record['tolerance']:g} %"


def _judge_choice(exercise_id, record, value, unit):
    letter = reading.read_letter(value, record["options"])
    right, note = judge_letter(exercise_id, record, letter)
    return Judgement(state=State.RIGHT if right else State.NOT_YET, text=note, try_name=letter, entry={"value": letter})


def judge_letter(exercise_id, record, letter):
    """Return (whether *letter* is the right one, the note on it), of a choice or of what a panel shows."""
    note = record["notes"][record["said"][digest(record["salt"], exercise_id, "note", letter)]]
    return digest(record["salt"], exercise_id, "letter", letter) == record["right"], note


def _judge_text(exercise_id, record, value, unit):
    text = reading.read_text(value)
    written, least = reading.words(text), record["least_words"]
    if written < least:
        return Judgement(state=State.NOT_YET, text=f"Kept: {written} of at least {least} words. Say a little more.",
                         try_name=text, entry={"value": text})
    return Judgement(state=State.KEPT, try_name=text, entry={"value": text},
                     text=f"{written} words. A person reads this: your instructor, or you beside the worked answer.")


def _judge_function(exercise_id, record, value, unit):
    """*value* is the student's function, or the claim that was kept of it."""
    claim = value if isinstance(value, str) else claim_of(value, record)
    names, said = [], []
    for place, (part, number) in enumerate(zip(record["parts"], claimed(record["parts"], claim))):
        names.append(Scale(tolerance=record["tolerance"], absolute=False, phase=part["phase"]).bin(number))
        said.append(part["sealed"].get(digest(record["salt"], exercise_id, f"part {place}", names[-1])))
    right = sum(one == RIGHT for one in said)
    slip = record["sealed"].get(digest(record["salt"], exercise_id, "whole", " ".join(names)))
    notes = [] if slip is None else [record["slip_notes"][slip]]
    entry = {"value": claim}
    if right == len(said):
        return Judgement(state=State.RIGHT, try_name=" ".join(names), entry=entry, text=(
            f"Within {100 * record['tolerance']:g} % in each reading: {shown_entry(record, entry)}."))
    return Judgement(state=State.NOT_YET, try_name=" ".join(names), entry=entry, unmatched=not notes, text=" ".join((
        f"Read off: {shown_entry(record, entry)}. {right} of {len(said)} are right.", *notes)))


def _judge_design(exercise_id, record, value, unit):
    design = read_design(record, value)
    found = findings(record["limits"], computed(record, design))
    share = sum(one.met for one in found) / len(found)
    return Judgement(state=State.RIGHT if share == 1 else State.NOT_YET, text=findings_text(found), share=share,
                     try_name=design_text(record, design), entry={"value": design})


def _judge_measured(record, value, unit, readings):
    typed = reading.read_number(value)
    number = reading.read_number(into(typed, unit, record["unit"]))
    readings = read_readings(record, readings)
    result = result_of(record, readings)
    entry = {"value": typed, "unit": (unit or "").strip() or record["unit"], "readings": readings}
    if result.is_right(number):
        return Judgement(state=State.RIGHT, text=f"{result_text(record, result)}.", entry=entry,
                         try_name=f"right {readings_name(readings)}")
    met = slips_met(record, result, number)
    slips = tuple(name for name, _ in met)
    return Judgement(state=State.NOT_YET, text=" Or: ".join(dict.fromkeys(note for _, note in met)), entry=entry,
                     try_name=f"{', '.join(slips) or f'{number:.3g}'} {readings_name(readings)}", unmatched=not met,
                     slips=slips)


def _judge_prediction(exercise_id, record, value, unit):
    raise ValueError("this is a prediction; make it on the card of its panel")


_JUDGES = {"number": _judge_number, "choice": _judge_choice, "text": _judge_text, "function": _judge_function,
           "design": _judge_design, "prediction": _judge_prediction}
