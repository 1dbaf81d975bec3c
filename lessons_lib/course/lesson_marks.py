"""The marks of one bench for one lesson: of everything that was handed in the best, less what its lateness costs."""
from collections import defaultdict
from dataclasses import dataclass, replace

from lessons_lib.course.marking import Marker
from lessons_lib.course.received import late_rule, percent_off
from lessons_lib.course.returned_history import MOST_COMPUTED, to_mark
from lessons_lib.exercises.making import make_sheet
from lessons_lib.exercises.returns import merged

_MOST_FILES = 5


@dataclass(frozen=True, kw_only=True)
class LessonMarks:
    """The marks of one bench for one lesson.

    *offs* maps the check code of each return to the per cent that lateness takes off, by the *late_rule*; *texts* is
    exercise id -> list of `Text`; *history* holds all that the bench handed in of the lesson; *remarks* are sentences
    for the instructor.
    """

    lesson: object
    outcomes: dict
    offs: dict
    late_rule: list
    texts: dict
    history: object
    remarks: list

    @property
    def checks(self):
        """The check codes of the returns."""
        return tuple(sorted(self.offs))

    @property
    def most(self):
        """What all exercises together can earn."""
        return sum(one.most for one in self.outcomes.values())

    @property
    def total(self):
        """What counts; texts that wait for marks count nothing yet."""
        return round(sum(one.marks or 0 for one in self.outcomes.values()), 4)

    @property
    def late_percent(self):
        """What lateness takes off what was earned; where nothing was, what it would."""
        earned = sum(one.earned for one in self.outcomes.values())
        return round(100 * (1 - self.total / earned), 2) if earned else min(self.offs.values())

    def last_text(self, exercise_id):
        """Return the `Text` of an open question that a marker is to see last; None without any."""
        return to_mark(self.texts[exercise_id])[-1] if exercise_id in self.texts else None


def marker_for(course, given_out, lesson, bench, by_hand):
    """Return the `Marker` of a bench; exercises that were written after its values were given out are left out."""
    drawn = given_out.drawn(bench)
    present = [exercise for exercise in lesson.exercises if not exercise.is_drawn or exercise.id in drawn]
    lesson = replace(lesson, exercises=tuple(present))
    sheet = make_sheet(lesson, secret=course.secret, bench=bench, drawn=drawn)
    return Marker(lesson, sheet, drawn, course.settings, by_hand)


def lesson_marks(course, marker, lesson, bench, arrivals, extensions):
    """Mark all that arrived of a lesson; every answer at the price of the first return that brought it."""
    contents = [one.content for one in arrivals]
    offs = [percent_off(course.settings, extensions, lesson.id, bench, one.received) for one in arrivals]
    came = merged(contents)
    history = marker.history_of(came, offs)
    outcomes, texts = marker.outcomes(history), marker.texts(history)
    by_check = {}
    for content, off in zip(contents, offs):
        by_check[content.check] = min(off, by_check.get(content.check, off))
    remarks = [*_two_contents(bench, lesson, came, arrivals), *_left_out(bench, history)]
    return LessonMarks(lesson=lesson, outcomes=outcomes, offs=by_check, texts=texts, history=history, remarks=remarks,
                       late_rule=late_rule(course.settings, extensions, lesson.id, bench))


def _two_contents(bench, lesson, came, arrivals):
    """A sentence where one id stands for two things: somebody wrote a file that no sheet wrote."""
    known, files = defaultdict(list), set()
    for event, places in came:
        known[event["id"]].append(places)
    doubled = [places for places in known.values() if len(places) > 1]
    for places in doubled:
        files |= {arrivals[place].file for one in places for place in one}
    if not doubled:
        return []
    others = " and others" if len(files) > _MOST_FILES else ""
    return [f"{bench} lesson {lesson.id}: {len(doubled)} of its entries exist in two forms, in "
            f"{', '.join(sorted(files)[:_MOST_FILES])}{others}. A sheet never writes that: a file was changed, by the "
            "bench or by somebody who has its return. Both forms are read and the best counts, so nobody loses by it."]


def _left_out(bench, history):
    return [f"{bench} {exercise_id}: {count} different answers were not looked at; of each return the last "
            f"{MOST_COMPUTED} are." for exercise_id, count in history.left_out.items() if count]
