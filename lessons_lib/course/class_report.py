"""The class report: what to teach again first, then the counts behind it. No names, no benches, no clock."""
from lessons_lib.base.pages import page_bytes
from lessons_lib.course import teach_again
from lessons_lib.course.class_shares import LEAST_FOR_DISCRIMINATION, LEAST_FOR_SHARES
from lessons_lib.course.questions import questions_of
from lessons_lib.course.report_tables import lesson_tables

_MOST_POINTS, _MOST_EARLIER = 5, (2, 1)     # of the lesson before, and of those before it


def report_page(course, tallies, unclear):
    """Return the page as bytes.

    Parameters
    ----------
    course : Course
    tallies : dict
        Lesson id -> `LessonTally`.
    unclear : list
        (lesson, exercise, bench, line) of what students called unclear; the bench is not shown.
    """
    returned = {lesson_id: tally for lesson_id, tally in tallies.items() if tally.returned}
    questions = {lesson_id: questions_of(course, tally.lesson) for lesson_id, tally in returned.items()}
    benches = len(course.students)
    newest = _newest(returned, benches)
    return page_bytes(
        "course/templates/class_report.html", course=course.settings.title, benches=benches,
        returned=[(lesson_id, tally.returned) for lesson_id, tally in tallies.items()],
        small=[lesson_id for lesson_id, tally in returned.items() if tally.returned < LEAST_FOR_SHARES],
        newest=newest and _newest_points(returned[newest], questions[newest], unclear),
        earlier=list(_earlier_points(returned, newest, questions, unclear)),
        lessons=[lesson_tables(tally, questions[lesson_id], unclear)
                 for lesson_id, tally in sorted(returned.items(), reverse=True)],
        rules=[rule.replace("%", " %") for rule in teach_again.RULES],
        least_for_shares=LEAST_FOR_SHARES, least_for_discrimination=LEAST_FOR_DISCRIMINATION)


def _newest(returned, benches):
    """The last lesson that at least a third of the class returned, else the one that most returned."""
    many = [lesson_id for lesson_id, tally in returned.items() if 3 * tally.returned >= benches]
    return max(many) if many else max(returned, key=lambda lesson_id: returned[lesson_id].returned, default=None)


def _newest_points(tally, questions, unclear):
    points = _points(tally, questions, unclear)
    return {"lesson": tally.lesson, "returned": tally.returned, "too_few": tally.returned < LEAST_FOR_SHARES,
            "points": points[:_MOST_POINTS], "rest": [exercise_id for exercise_id, _, _ in points[_MOST_POINTS:]],
            "forgotten": _with_questions(teach_again.forgotten(tally), questions), "easy": teach_again.easy(tally),
            "unexplained": teach_again.unexplained(tally)}


def _earlier_points(returned, newest, questions, unclear):
    earlier = [lesson_id for lesson_id in sorted(returned, reverse=True)
               if lesson_id != newest and returned[lesson_id].returned >= LEAST_FOR_SHARES]
    for place, lesson_id in enumerate(earlier):
        if points := _points(returned[lesson_id], questions[lesson_id], unclear):
            yield {"lesson": returned[lesson_id].lesson, "points": points[:_MOST_EARLIER[min(place, 1)]]}


def _points(tally, questions, unclear):
    return _with_questions([(one.about, " ".join(one.says)) for one in teach_again.points(tally, unclear)], questions)


def _with_questions(points, questions):
    """(exercise, its question, a sentence)."""
    return [(exercise_id, questions.get(exercise_id, ""), says) for exercise_id, says in points]
