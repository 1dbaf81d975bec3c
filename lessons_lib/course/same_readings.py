"""The same readings of a function from several benches: a remark for a talk with each, and never a deduction."""
from lessons_lib.exercises.declaration import FunctionExercise
from lessons_lib.exercises.verdicts import State

_MOST_BENCHES = 8


class SameReadings:
    """Collects what benches handed in as the readings of their functions, bench by bench.

    Notes
    -----
    A function leads to the same readings at every bench, since its signals are the same. Those of the model answers'
    functions are therefore no sign of anything and are left out.
    """

    def __init__(self):
        self._benches, self._usual = {}, {}

    def add(self, bench, marker, one):
        """Take what a bench handed in, from its `Marker` and its `LessonMarks`."""
        for exercise in one.lesson.exercises:
            if isinstance(exercise, FunctionExercise) and exercise.id in marker.records:
                for judged in one.history.answers(marker.records[exercise.id]):
                    claim = judged.entry["value"]
                    if judged.state == State.RIGHT and claim not in self._usual_claims(exercise):
                        self._benches.setdefault((exercise.id, claim), {})[bench] = None

    def remarks(self):
        """Return a sentence for all readings that came from more than one bench."""
        for (exercise_id, _), found in sorted(self._benches.items()):
            if len(found) > 1:
                benches = ", ".join(list(found)[:_MOST_BENCHES]) + " and others" * (len(found) > _MOST_BENCHES)
                yield (f"{exercise_id}: {benches} handed in the same right readings to the last digit, and not those "
                       "of the model answer. Functions written alike do that, and so does a text that was passed on: "
                       "ask each to explain theirs. Nothing is taken off.")

    def _usual_claims(self, exercise):
        if exercise.id not in self._usual:
            functions = exercise.answer, *exercise.also_right
            self._usual[exercise.id] = {exercise.claim(function) for function in functions}
        return self._usual[exercise.id]
