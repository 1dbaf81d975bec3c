"""The kinds of exercise, a file each: what the model answers declare, and what is read from a bench's sheet."""
from collections.abc import Mapping

from lessons_lib.exercises.kinds.choice import ChoiceRecord
from lessons_lib.exercises.kinds.design import DesignRecord
from lessons_lib.exercises.kinds.function import FunctionRecord
from lessons_lib.exercises.kinds.measured import MeasuredRecord
from lessons_lib.exercises.kinds.number import NumberRecord
from lessons_lib.exercises.kinds.prediction import PredictionRecord
from lessons_lib.exercises.kinds.text import TextRecord

KINDS = {record.kind: record for record in (NumberRecord, ChoiceRecord, TextRecord, PredictionRecord, FunctionRecord,
                                            DesignRecord, MeasuredRecord)}


def read_record(exercise_id, fields):
    """Return the `Record` of one exercise from what a sheet holds of it."""
    return KINDS[fields["kind"]](exercise_id, fields)


class Records(Mapping):
    """Exercise id -> its `Record`, in the order of the page, of a sheet's *content*; each is read when it is needed."""

    def __init__(self, content):
        self._fields, self._read = content["exercises"], {}

    def __iter__(self):
        return iter(self._fields)

    def __len__(self):
        return len(self._fields)

    def __getitem__(self, exercise_id):
        if exercise_id not in self._read:
            self._read[exercise_id] = read_record(exercise_id, self._fields[exercise_id])
        return self._read[exercise_id]
