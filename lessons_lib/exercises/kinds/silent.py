"""The record of a silent lesson, an examination or a test: answers are read and kept, and nothing is said of them."""
from lessons_lib.exercises.kinds.kind import Judgement, Record
from lessons_lib.exercises.verdicts import State, Verdict


class SilentRecord(Record):
    """What a sheet holds of an exercise without what tells right from wrong; *loud* is the `Record` of its kind."""

    def __init__(self, loud):
        super().__init__(loud)
        self._loud = loud
        self.kind, self.blank, self.takes_readings = loud.kind, loud.blank, loud.takes_readings

    def is_empty(self, value, readings):
        return self._loud.is_empty(value, readings)

    def judge(self, value, unit=None, readings=None):
        """Return a `Judgement` that says only that it is kept; ValueError with a sentence where it cannot be read."""
        entry = self._loud.read(value, unit, readings)
        return Judgement(state=State.KEPT, text="Your last answer counts; nothing is said of it before all are marked.",
                         try_name=str(sorted(entry.items(), key=str)), entry=entry)

    def shown(self, entry):
        return self._loud.shown(entry)

    def place(self):
        return self._loud.place()

    def still_to_do(self, tries):
        return "" if tries else "It opens once you have answered."


def silent_result(history, loud):
    """Return the `Verdict` on the last answers in a `History`; *loud* is exercise id -> `Record` of the whole sheet."""
    states = {one: [judged.state for judged in history.answers(record)][-1:] for one, record in loud.items()}
    wrong = [one for one, state in states.items() if state and state[0] != State.RIGHT]
    right = sum(state == [State.RIGHT] for state in states.values())
    more = f' Not right: {", ".join(wrong)}. sheet.worked_answer("{wrong[0]}") shows what is.' if wrong else ""
    return Verdict(State.OPEN, f"{right} of {len(states)} right.{more}")
