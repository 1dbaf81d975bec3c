"""The sheet a student works on. Nothing here raises for what a student types, so that "run all cells" never stops."""
from numbers import Integral

from lessons_lib.exercises import reading, so_far
from lessons_lib.exercises.bench import SELF_STUDY_BENCHES, remembered_card
from lessons_lib.exercises.kinds import read_record
from lessons_lib.exercises.kinds.design import DesignRecord
from lessons_lib.exercises.kinds.kind import Record
from lessons_lib.exercises.kinds.prediction import PredictionRecord
from lessons_lib.exercises.kinds.silent import SilentRecord, silent_result
from lessons_lib.exercises.kinds.text import TextRecord
from lessons_lib.exercises.log import History, Log
from lessons_lib.exercises.returns import LARGEST, return_bytes
from lessons_lib.exercises.sealing import letter_says
from lessons_lib.exercises.sheet_file import write_whole
from lessons_lib.exercises.verdicts import GivenValues, State, Table, Verdict, VerdictWithFile, sentence
from lessons_lib.exercises.work_folder import is_in_file_list, work_folder


class Sheet:
    """One lesson's exercises for one bench; made by `open_sheet`.

    Attributes
    ----------
    trouble : Verdict or None
        Why there is nothing to work on.
    """

    def __init__(self, *, content=None, worked=None, loud=None, trouble=None):
        self.trouble = trouble      # worked: exercise id -> worked answer; ValueError with a sentence
        self._loud = loud           # gives exercise id -> `Record` that tells right from wrong; ValueError likewise
        if content:
            self.lesson, self.title, self.bench, self._version = (
                content[name] for name in ("lesson", "title", "bench", "version"))
            self._fields, self._records, self._worked = content["exercises"], {}, worked
            self._further = frozenset(content.get("further", ()))
            self._log = Log(work_folder() / f"log-{self.bench}.jsonl")

    def __repr__(self):
        if self.trouble:
            return repr(self.trouble)
        return f"Lesson {self.lesson}, {self.title}: sheet of bench {self.bench}."

    def given(self, exercise_id):
        """Return the `GivenValues` of an exercise: a mapping that shows itself as a table."""
        record, trouble = self._find(exercise_id)
        if not trouble and not record.get("given"):
            trouble = Verdict(State.OPEN, "There are no given values; the question has all you need.", exercise_id)
        return GivenValues(reading.shortened(exercise_id), [] if trouble else record["given"], trouble)

    def answer(self, exercise_id, value=None, unit=None, *more, **readings):
        """Judge and keep an answer, and return the `Verdict`; ``...`` or nothing shows what was kept before.

        Parameters
        ----------
        exercise_id : str
            "1.1".
        value : number, str, function, dict of entries or ...
        unit : str or None
            A unit's spelling; without one the asked unit is meant.
        **readings
            Of a measured exercise: ``table=`` rows of readings, and the sizes it names.
        """
        record, trouble = self._find(exercise_id)
        if trouble:
            return trouble
        if more and record.takes_readings:
            return Verdict(State.UNREADABLE, f"Name what goes with the answer: {record.beside}.", exercise_id)
        if more or (isinstance(unit, Integral) and isinstance(value, Integral)):
            return Verdict(State.UNREADABLE, "Put all numbers in square brackets." if record.kind == "points" else
                           "There are too many numbers; write a decimal point, not a comma.", exercise_id)
        if record.is_empty(value, readings):
            return self._kept_before(record)
        if readings and not record.takes_readings:
            return Verdict(State.UNREADABLE, "This exercise takes no readings with its answer.", exercise_id)
        try:
            judged = record.judge(value, unit, readings)
        except ValueError as error:
            return Verdict(State.UNREADABLE, sentence(str(error)), exercise_id)
        history = self._look()
        lost = history.keep_answer(self._log, record, judged)
        return self._verdict(record, judged, history, after=lost)

    def kept_text(self, exercise_id):
        """Return the text kept last for an open question, for a report; an empty one where there is none."""
        record, trouble = self._find(exercise_id, TextRecord)
        kept = [] if trouble else self._look().answers(record)
        return kept[-1].entry["value"] if kept else ""

    def limits(self, exercise_id):
        """Return the limits of a design as plain records, for a panel; none where there is no such exercise here."""
        record, trouble = self._find(exercise_id, DesignRecord)
        return [] if trouble else record["limits"]

    def parts_list(self, exercise_id, design=...):
        """Return the parts of a design as a `Table` to print: of the dict given here, else of the last one kept."""
        record, trouble = self._find(exercise_id, DesignRecord)
        if trouble:
            return trouble
        try:
            if reading.is_blank(design):
                kept = self._look().answers(record)
                if not kept:
                    return Verdict(State.NOT_ANSWERED, "There is no design yet.", exercise_id)
                design = kept[-1].entry["value"]
            design = record.read(design)
            return Table(caption=f"Parts for {exercise_id}: {record.text(design)}", head=("part", "quantity"),
                         rows=record.parts_rows(design))
        except (ValueError, RuntimeError) as error:
            return Verdict(State.UNREADABLE, sentence(str(error)), exercise_id)

    def prediction(self, prediction_id):
        """Return the `PredictionCard` of a prediction, or None where there is none (`trouble` may say why)."""
        record, trouble = self._find(prediction_id, PredictionRecord)
        if trouble:
            return None
        return record.card(self._look(), needs_reason=self.bench not in SELF_STUDY_BENCHES)

    def predict(self, prediction_id, choice, sureness, reason=""):
        """Keep a prediction: a letter, how sure from 1 to 3 (None: a vote may leave it open), and one line why."""
        record, trouble = self._find(prediction_id, PredictionRecord)
        if trouble:
            return trouble
        try:
            letter = reading.read_letter(choice, record["options"])
            line = reading.read_text(reason, reading.ONE_LINE)
            if not (record.is_vote and sureness is None):
                sureness = reading.read_sureness(sureness)
        except ValueError as error:
            return Verdict(State.UNREADABLE, sentence(str(error)), prediction_id)
        lost = self._look().keep(self._log, prediction_id, "prediction",
                                 {"choice": letter, "sureness": sureness, "reason": line})
        then = (f"You will see it again {record['again']}." if record.is_vote else
                f"Your prediction is {letter}. Now look.")
        return Verdict(State.LOST if lost else State.KEPT, _sentences(then, lost), prediction_id)

    def saw(self, prediction_id, choice):
        """Keep what the student saw, and say whether the panel shows it."""
        record, trouble = self._find(prediction_id, PredictionRecord)
        if trouble:
            return trouble
        try:
            letter = reading.read_letter(choice, record["seen_options"])
        except ValueError as error:
            return Verdict(State.UNREADABLE, sentence(str(error)), prediction_id)
        right, note = letter_says(record, letter)
        lost = self._look().keep(self._log, prediction_id, "saw", {"choice": letter})
        return Verdict(State.RIGHT if right else State.NOT_YET, _sentences(note, lost), prediction_id)

    def unclear(self, exercise_id, line=""):
        """Tell the instructor in one line what is not understood."""
        _, trouble = self._find(exercise_id)
        if trouble:
            return trouble
        try:
            text = reading.read_line(line)
        except ValueError as error:
            return Verdict(State.UNREADABLE, sentence(str(error)), exercise_id)
        if not text:
            return Verdict(State.UNREADABLE, "Write in one line what is not clear.", exercise_id)
        lost = self._look().keep(self._log, exercise_id, "unclear", {"line": text})
        kept = ("Kept with your work. You work alone, so nobody else reads it: look again beside the worked answer."
                if self.bench in SELF_STUDY_BENCHES else "Thank you. This goes with your work.")
        return Verdict(State.LOST if lost else State.KEPT, lost or kept, exercise_id)

    def worked_answer(self, exercise_id):
        """Show the worked answer of a self-study bench, once the student has tried."""
        record, trouble = self._find(exercise_id)
        if trouble:
            return trouble
        if self.bench not in SELF_STUDY_BENCHES:
            return Verdict(State.OPEN, "Your instructor has the worked answers for this bench.", exercise_id)
        if wanted := record.still_to_do(self._look().tries(record)):
            return Verdict(State.NOT_YET, wanted, exercise_id)
        try:
            worked = self._worked(exercise_id) or "There is no worked answer to this one."
            return Verdict(State.OPEN, worked, exercise_id)
        except ValueError as error:
            return Verdict(State.NO_SHEET, sentence(str(error)), exercise_id)

    def progress(self):
        """Return a `Table` of this lesson's exercises and how far each is; where some are further, core is counted."""
        if self.trouble:
            return self.trouble
        exercises = self._so_far()
        rows = tuple((one.called, str(one.state), str(one.tries) if one.tries else "") for one in exercises)
        counts = so_far.counts_said(exercises)
        return Table(caption=f"Lesson {self.lesson}, {self.title}, bench {self.bench}{counts and f': {counts}'}",
                     head=("exercise", "status", "tries"), rows=rows)

    def done(self, *, further=False):
        """Return how many core exercises (or *further* ones) are right or kept, and how many there are."""
        return so_far.done(self._so_far(), further=further)

    def result(self):
        """Say, to a self-study bench, how many of a silent lesson's answers are right."""
        if self.trouble:
            return self.trouble
        if not any(isinstance(self._record(one), SilentRecord) for one in self._fields):
            return Verdict(State.OPEN, "This lesson says with every answer whether it is right.")
        if not self._loud or self.bench not in SELF_STUDY_BENCHES:
            return Verdict(State.OPEN, "Your instructor has the result.")
        try:
            return silent_result(self._look(), self._loud())
        except ValueError as error:
            return Verdict(State.NO_SHEET, sentence(str(error)))

    def return_work(self):
        """Write the file for the instructor into the work folder: where it is, what it holds, what is missing."""
        if self.trouble:
            return self.trouble
        if self.bench in SELF_STUDY_BENCHES:
            return Verdict(State.OPEN, f"Bench {self.bench} is for self-study: there is nothing to hand in.")
        if not (card := remembered_card()):
            return Verdict(State.NO_BENCH, f"There is no card of {self.bench} any more. Type it again on the page "
                                           "00_start_here.")
        if card[0] != self.bench:
            return Verdict(State.NOT_YET, f"The card was changed: it is now that of {card[0]}, and this sheet is for "
                                          f"{self.bench}. Run the cell with open_sheet again.")
        data, check = return_bytes(bench=self.bench, code=card[1], lesson=self.lesson, version=self._version,
                                   events=self._look().lesson_events())
        name = f"return-{self.bench}-{self.lesson}.json"
        if len(data) > LARGEST:
            return Verdict(State.NOT_YET, "There are more tries in this lesson than a return can hold. Ask your "
                                          "instructor.")
        try:
            folder = work_folder()
            write_whole(folder / name, data)
        except ValueError as error:
            return Verdict(State.NOT_YET, str(error))
        except OSError as error:
            return Verdict(State.NOT_YET, f"{name} could not be written: {error.strerror or error}.")
        place = f"{name} is in the folder {folder}" + (
            ", which the file list does not show." if is_in_file_list(folder) is False else ".")
        return VerdictWithFile(State.READY, f"{place}\n{so_far.what_it_holds(self._so_far())}\n"
                               f"Its check code is {check}; your instructor's list shows the same.", file=(name, data))

    def _record(self, exercise_id):
        if exercise_id not in self._records:
            fields = self._fields[exercise_id]
            self._records[exercise_id] = read_record(exercise_id, fields)
        return self._records[exercise_id]

    def _look(self):
        """What the log says now."""
        return History(self._log.events(), self.lesson)

    def _find(self, exercise_id, kind=Record):
        """Return (record, None), or (None, why not)."""
        if self.trouble:
            return None, Verdict(self.trouble.state, self.trouble.text, reading.shortened(exercise_id))
        if not isinstance(exercise_id, str):
            return None, Verdict(State.UNREADABLE, 'Write the exercise in quotes, such as "1.1".')
        try:
            if exercise_id in self._fields and isinstance(record := self._record(exercise_id), kind):
                return record, None
            alike = [known for known in self._fields if isinstance(self._record(known), kind)]
        except ValueError as error:     # model answers that cannot be used
            return None, Verdict(State.NO_SHEET, sentence(str(error)), exercise_id)
        return None, Verdict(State.UNREADABLE, f"Lesson {self.lesson} has no such exercise here; "
                                               f"it has {', '.join(alike)}.", reading.shortened(exercise_id))

    def _verdict(self, record, judged, history, before="", after=""):
        says, name = _sentences(history.general_note(record, judged), judged.text), record["id"]
        earlier = record.get("follows") if judged.state == State.NOT_YET else None
        if earlier and self._how_far(earlier, history)[0] != State.RIGHT:
            says = f"{name} builds on {earlier}, which is not right yet."
        if judged.state != State.RIGHT and record.how_far(history)[0] == State.RIGHT:
            says = _sentences(says, "It was right before, and that counts.")
        elif (judged.unmatched and self.bench in SELF_STUDY_BENCHES
              and not record.still_to_do(history.tries(record))):
            says = _sentences(says, f'The worked answer is open now: sheet.worked_answer("{name}").')
        return Verdict(judged.state, _sentences(before, says, after), name)

    def _kept_before(self, record):
        history = self._look()
        if not (answers := history.answers(record)):
            return Verdict(State.NOT_ANSWERED, "Put your answer in place of the three dots.", record["id"])
        return self._verdict(record, answers[-1], history,
                             before=f"Kept from before: {record.shown(answers[-1].entry)}.")

    def _so_far(self):
        history = self._look()
        begun = [event.get("exercise") for event in history.lesson_events()]
        return [so_far.SoFar(exercise_id, *(self._how_far(exercise_id, history) if exercise_id in begun
                                            else (State.NOT_ANSWERED, 0)), exercise_id in self._further)
                for exercise_id in self._fields]

    def _how_far(self, exercise_id, history):
        try:
            return self._record(exercise_id).how_far(history)
        except ValueError:      # model answers that cannot be used
            return State.NO_SHEET, 0


def _sentences(*parts):
    return " ".join(filter(None, parts))
