"""What work of one's own does not look like: entries, texts or readings that benches share, answers found by trying."""
import heapq

from lessons_lib.course.returned_history import short
from lessons_lib.course.telling import some
from lessons_lib.exercises.declaration import FunctionExercise
from lessons_lib.exercises.kinds.kind import up_to_done
from lessons_lib.exercises.reading import words
from lessons_lib.exercises.verdicts import State

_MOST_BENCHES = 8
MANY_TRIES = 15         # different answers before the right one, from which on it is told
_KEPT_IDS = 16          # of a return's entries, those with the smallest ids: of a copied half one is missed in 65 000


class Copied:
    """Collects, bench by bench, what the instructor should hear of; it takes nothing off.

    *first_benches* maps a bench to the first one of the same student, where a spare replaces a lost card.
    """

    def __init__(self, first_benches):
        self._student = first_benches
        self._first, self._shared = {}, {}          # id of an entry -> bench; (lesson, two benches) -> their files
        self._files, self._texts, self._tried, self._readings, self._usual = {}, {}, {}, {}, {}

    def add(self, bench, marker, one, files):
        """Take what a bench handed in of a lesson in *files*, from its `Marker` and its `LessonMarks`."""
        lesson_id, ids = one.lesson.id, one.history.ids
        self._files[bench, lesson_id] = files
        for other in {self._first[lesson_id, name] for name in ids if (lesson_id, name) in self._first}:
            if not self._are_one((other, bench)):
                self._shared[lesson_id, other, bench] = [*self._files[other, lesson_id], *files]
        for name in heapq.nsmallest(_KEPT_IDS, ids):
            self._first.setdefault((lesson_id, name), bench)
        for exercise in one.lesson.exercises:
            for text in one.texts.get(exercise.id, ()):
                if words(text.text) >= exercise.least_words:
                    alike = short(text.text.casefold().split())
                    self._texts.setdefault((exercise.id, alike), {})[bench] = None
            if isinstance(exercise, FunctionExercise) and exercise.id in marker.records:
                for judged in one.history.answers(marker.records[exercise.id]):
                    claim = judged.entry["value"]
                    if judged.state == State.RIGHT and claim not in self._usual_claims(exercise):
                        self._readings.setdefault((exercise.id, claim), {})[bench] = None
            if exercise.is_marked and exercise.id in marker.records:
                tried = list(up_to_done(one.history.tries(marker.records[exercise.id]).values()))
                if len(tried) > MANY_TRIES and tried[-1].state == State.RIGHT:
                    self._tried.setdefault(bench, []).append(f"{exercise.id} ({len(tried) - 1})")

    def remarks(self):
        """Return a sentence or two for each thing found."""
        for (exercise_id, _), found in sorted(self._readings.items()):
            if len(found) > 1:
                benches = ", ".join(list(found)[:_MOST_BENCHES]) + " and others" * (len(found) > _MOST_BENCHES)
                yield (f"{exercise_id}: {benches} handed in the same right readings to the last digit, and not those "
                       "of the model answer. Functions written alike do that, and so does a text that was passed on: "
                       "ask each to explain theirs. Nothing is taken off.")
        for benches, found in _by_benches(self._shared):
            files = [file for _, here in found for file in here]
            lessons = ", ".join(lesson_id for lesson_id, _ in found)
            yield (f"{' and '.join(benches)} lesson {lessons}: the same entries are in the returns of both "
                   f"({some(files)}). Every sheet gives its entries ids of their own, so one return was made from the "
                   "other. Nothing is taken off, since the files do not show which came first: ask both, take the file "
                   "that is not to count out of the folder returned, and mark again.")
        alike = {(exercise_id, *benches): () for (exercise_id, _), benches in self._texts.items()
                 if not self._are_one(benches)}
        for benches, found in _by_benches(alike):
            questions = ", ".join(exercise_id for exercise_id, _ in found)
            yield (f"{questions}: {some(benches)} handed in the same text, word for word. Mark it as you would "
                   "one text of all of them, or ask each for another.")
        for bench, found in sorted(self._tried.items()):
            yield (f"{bench}: right only after {MANY_TRIES} or more different wrong answers: {some(found)}. A program "
                   "that tries values does that: ask for the way there. Nothing is taken off.")

    def _usual_claims(self, exercise):
        """What the model answers' functions read: the signals are the same at every bench, so that is no sign."""
        if exercise.id not in self._usual:
            functions = exercise.answer, *exercise.also_right
            self._usual[exercise.id] = {exercise.claim(function) for function in functions}
        return self._usual[exercise.id]

    def _are_one(self, benches):
        return len({self._student.get(bench, bench) for bench in benches}) == 1


def _by_benches(found):
    """(benches, list of (lesson or exercise, what was found)) of a dict by (lesson or exercise, *benches)."""
    grouped = {}
    for (name, *benches), what in sorted(found.items(), key=lambda pair: pair[0][1:]):
        grouped.setdefault(tuple(benches), []).append((name, what))
    return grouped.items()
