"""The kinds of exercise, a file each: what the model answers declare, and what is read from a bench's sheet."""
from lessons_lib.exercises.kinds.choice import ChoiceRecord
from lessons_lib.exercises.kinds.curve import CurveRecord
from lessons_lib.exercises.kinds.design import DesignRecord
from lessons_lib.exercises.kinds.estimate import EstimateRecord
from lessons_lib.exercises.kinds.formula import FormulaRecord
from lessons_lib.exercises.kinds.function import FunctionRecord
from lessons_lib.exercises.kinds.item import ItemRecord
from lessons_lib.exercises.kinds.measured import MeasuredRecord
from lessons_lib.exercises.kinds.number import NumberRecord
from lessons_lib.exercises.kinds.order import OrderRecord
from lessons_lib.exercises.kinds.points import PointsRecord
from lessons_lib.exercises.kinds.prediction import PredictionRecord
from lessons_lib.exercises.kinds.recall import RecallRecord
from lessons_lib.exercises.kinds.silent import SilentRecord
from lessons_lib.exercises.kinds.text import TextRecord

KINDS = {record.kind: record for record in (NumberRecord, ChoiceRecord, TextRecord, PredictionRecord, FunctionRecord,
                                            DesignRecord, MeasuredRecord, FormulaRecord, OrderRecord, EstimateRecord,
                                            CurveRecord, PointsRecord, ItemRecord, RecallRecord)}


def read_record(exercise_id, fields):
    """Return the `Record` of one exercise from what a sheet holds of it."""
    record = KINDS[fields["kind"]](fields, id=exercise_id)
    return SilentRecord(record) if fields.get("silent") else record


def read_records(content):
    """Return exercise id -> its `Record`, in the order of the page, of a sheet's *content*."""
    return {exercise_id: read_record(exercise_id, fields) for exercise_id, fields in content["exercises"].items()}
