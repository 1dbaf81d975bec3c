"""``joint-report``: one class report of several courses with the same lessons. No names, no benches."""
from contextlib import ExitStack
from dataclasses import replace
from types import SimpleNamespace

from lessons_lib.course.class_report import report_page
from lessons_lib.course.given_out import lessons_given_out
from lessons_lib.course.mark import mark
from lessons_lib.course.tally import LessonTally
from lessons_lib.exercises.sheet_file import write_whole

JOINT_REPORT = "joint_report.html"


def joint_report(courses):
    """Mark several courses and write the report of them all into the first one's folder.

    Returns
    -------
    (path, list of Marking)

    Raises
    ------
    ValueError
        Where one folder is named twice, where courses have different exercises under the same lesson, or where one
        cannot be marked; the message is one sentence.
    """
    folders = [course.folder.resolve() for course in courses]
    if len(set(folders)) < len(folders) or len(folders) < 2:
        raise ValueError("A joint report needs at least two different course folders; name the others with --with.")
    lessons = _all_lessons(courses)
    tallies = {lesson_id: LessonTally(lesson) for lesson_id, lesson in sorted(lessons.items())}
    with ExitStack() as held:
        for course in courses:
            held.enter_context(course.busy())
        markings = [mark(course, tallies) for course in courses]
        titles = dict.fromkeys(course.settings.title for course in courses)
        # what a report asks a course for, of all of them together
        joint = SimpleNamespace(settings=replace(courses[0].settings, title=" and ".join(titles)), students=[
            (place, bench) for place, course in enumerate(courses) for bench in course.students])
        path = courses[0].folder / JOINT_REPORT
        unclear = sorted(line for marking in markings for line in marking.unclear)
        begun = {}
        for lesson_id, time in (pair for marking in markings for pair in marking.begun.items()):
            begun[lesson_id] = min(time, begun.get(lesson_id, time))
        write_whole(path, report_page(joint, tallies, unclear, begun))
    return path, markings


def _all_lessons(courses):
    """Id -> lesson of all that were given out anywhere."""
    lessons, contents = {}, {}
    for course in courses:
        for lesson_id in lessons_given_out(course):
            lesson = course.lessons[lesson_id]
            content = lesson.version, [(one.id, one.kind) for one in lesson.exercises]
            lessons.setdefault(lesson_id, lesson)
            if contents.setdefault(lesson_id, content) != content:
                raise ValueError(f"Lesson {lesson_id} of {course.settings.title} has not the same exercises, or not "
                                 "the same version, as in the courses named before it.")
    return lessons
