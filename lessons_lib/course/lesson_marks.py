"""The marks of one bench for one lesson: the best that its returns earn at the price of their lateness."""
from dataclasses import dataclass, replace

from lessons_lib.course.lateness import days_late
from lessons_lib.course.marking import Marker
from lessons_lib.exercises.declaration import DRAWN
from lessons_lib.exercises.making import make_sheet
from lessons_lib.exercises.returns import merged


@dataclass(frozen=True, kw_only=True)
class LessonMarks:
    """The marks of one bench for one lesson; *texts* are the latest open texts, exercise id -> text.

    *history* holds all that the bench did in the lesson, lateness aside.
    """

    lesson: object
    outcomes: dict
    late_percent: float
    checks: tuple
    texts: dict
    history: object

    @property
    def most(self):
        """What all exercises together can earn."""
        return sum(one.most for one in self.outcomes.values())

    @property
    def total(self):
        """What they earned, less what being late costs; texts that wait for marks count nothing yet."""
        return round(sum(one.marks or 0 for one in self.outcomes.values()) * (1 - self.late_percent / 100), 4)


def marker_for(course, given_out, lesson, bench, by_hand):
    """Return the `Marker` of a bench; exercises that were written after its values were given out are left out."""
    drawn = given_out.drawn(bench)
    present = [exercise for exercise in lesson.exercises if exercise.kind not in DRAWN or exercise.id in drawn]
    lesson = replace(lesson, exercises=tuple(present))
    sheet = make_sheet(lesson, secret=course.secret, bench=bench, drawn=drawn)
    return Marker(lesson, sheet, drawn, course.settings, by_hand)


def lesson_marks(course, marker, lesson, bench, arrivals, extensions):
    """Mark what had arrived at each price of lateness, and keep the best: sending more never costs anything."""
    late, times = course.settings.late, sorted({one.received for one in arrivals if one.received})
    latest = {0: None}      # percent off -> the last time at that price
    for time in times:
        days = days_late(course.settings, extensions, lesson.id, bench, time)
        latest[min(late.at_most, late.percent_a_day * days)] = time
    contents = [(one.received, one.content) for one in arrivals]
    everything = marker.history(merged([content for _, content in contents]))
    checks = tuple(sorted({content.check for _, content in contents}))
    ways = []
    for percent, time in latest.items():
        here = [content for received, content in contents if _had_come(received, time)]
        if here:
            history = everything if len(here) == len(contents) else marker.history(merged(here))
            ways.append(LessonMarks(lesson=lesson, outcomes=marker.outcomes(history), late_percent=percent,
                                    checks=checks, texts=marker.texts(everything), history=everything))
    return max(ways, key=lambda way: way.total)


def _had_come(received, time):
    """Whether a return received then had come by *time* (None: before any that has a time)."""
    if not received:        # nobody wrote down when: in time
        return True
    return time is not None and received <= time
