"""What was given out: the values of each bench, kept in the course folder. Sheets and marks are made from these."""
import json

from lessons_lib.exercises.draws import Drawn, draw_lesson
from lessons_lib.exercises.sheet_file import write_whole

NOTHING_YET = "Nothing has been given out yet. Run give-out first."


class GivenOut:
    """The kept values of one *lesson* in a *course*.

    Attributes
    ----------
    lesson : Lesson
    versions : dict
        Bench -> version of the lesson when the bench got its values.
    """

    def __init__(self, course, lesson):
        self.lesson = lesson
        self._path = course.folder / "given_out" / f"{lesson.id}.json"
        content = json.loads(self._path.read_bytes()) if self._path.exists() else {"benches": {}}
        self.versions = {bench: kept["version"] for bench, kept in content["benches"].items()}
        # as text, which takes a tenth of the memory: a class may be large, and one bench at a time is looked at
        self._values = {bench: json.dumps(kept["values"]) for bench, kept in content["benches"].items()}

    def __contains__(self, bench):
        return bench in self._values

    def drawn(self, bench):
        """Return exercise id -> `Drawn` with the bench's kept values, under the formulas of today.

        Raises
        ------
        ValueError
            Where an exercise asks for values that the bench was not given.
        """
        kept = self._kept_values(bench)
        drawn = {}
        for exercise in self.lesson.exercises:
            if values := kept.get(exercise.id):
                if missing := sorted(set(exercise.shown) - set(values["shown"])):
                    raise ValueError(f"Exercise {exercise.id} now asks for {', '.join(missing)}, which {bench} was not "
                                     "given. Put its old values back into the model answers, or give the exercise a "
                                     "new id.")
                drawn[exercise.id] = Drawn(exercise=exercise, hidden=values["hidden"],
                                           shown={name: values["shown"][name] for name in exercise.shown})
        return drawn

    def give(self, secret, bench):
        """Draw for the bench what it does not have yet, and keep it in memory; return all its `Drawn`."""
        drawn = draw_lesson(self.lesson, secret=secret, bench=bench, kept=self.drawn(bench))
        self.versions.setdefault(bench, self.lesson.version)
        self._values[bench] = json.dumps({**self._kept_values(bench), **{
            exercise_id: {"shown": one.shown, "hidden": one.hidden} for exercise_id, one in drawn.items()}},
            allow_nan=False)
        return drawn

    def save(self):
        """Write what is in memory."""
        content = {"lesson": self.lesson.id, "benches": {
            bench: {"version": self.versions[bench], "values": self._kept_values(bench)}
            for bench in sorted(self._values)}}
        write_whole(self._path, (json.dumps(content, indent=1, allow_nan=False) + "\n").encode())

    def _kept_values(self, bench):
        return json.loads(self._values.get(bench, "{}"))


def kept_ids(course):
    """Return the ids of the lessons whose values are kept, in order, without a look into the model answers."""
    return sorted(path.stem for path in (course.folder / "given_out").glob("[0-9][0-9].json"))


def lessons_given_out(course):
    """Return the ids of the lessons that were given out so far, in order.

    Raises
    ------
    ValueError
        Where the model answers of one are gone, or the course has not the secret that made its values.
    """
    if ids := kept_ids(course):
        course.secret       # refuses another one, before a command makes anything with it
    return [need_lesson(course, lesson_id).id for lesson_id in ids]


def all_given_out(course):
    """Return lesson id -> `GivenOut` of the lessons that were given out, in order; errors as there."""
    return {lesson_id: GivenOut(course, course.lessons[lesson_id]) for lesson_id in lessons_given_out(course)}


def need_lesson(course, lesson_id):
    """Return the lesson of an id; ValueError where the model answers have none."""
    if lesson_id not in course.lessons:
        raise ValueError(f"There is no lesson {lesson_id} in {course.settings.answers}; "
                         f"there are {', '.join(course.lessons)}.")
    return course.lessons[lesson_id]
