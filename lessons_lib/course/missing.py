"""``missing``: who has not handed in, by name, lesson by lesson, from what is in the folder returned now."""
from dataclasses import dataclass

from lessons_lib.course.class_list import read_class_list
from lessons_lib.course.given_out import lessons_given_out
from lessons_lib.course.returned import arrived


@dataclass(frozen=True, kw_only=True)
class Missing:
    """Of one *lesson*: how many of the class have handed in (*came* of *all*), and the `Student`s who have not."""

    lesson: object
    came: int
    all: int
    students: list

    @property
    def says(self):
        """A line to paste: lesson, counts, names."""
        head = f"Lesson {self.lesson.id}, {self.lesson.title}: {self.came} of {self.all} have handed in."
        return f"{head} Missing: {'; '.join(one.called for one in self.students)}." if self.students else head

    @property
    def addresses(self):
        """The e-mail addresses of the class list, as a mail program takes them; an empty text without any."""
        return ", ".join(one.email for one in self.students if one.email)


def who_is_missing(course, ids=()):
    """Return (a `Missing` for each lesson that carries marks, how many files do not count).

    Parameters
    ----------
    course : Course
    ids : sequence of str
        Of the lessons; without any, all that were given out.

    Raises
    ------
    ValueError
        For a lesson that was not given out, or a class list that cannot be used; the message is one sentence.
    """
    given, most_marks = lessons_given_out(course), course.settings.most_marks
    if strange := [one for one in ids if one not in given]:
        raise ValueError(f"Lesson {', '.join(strange)} has not been given out yet.")
    students, (arrivals, not_read) = read_class_list(course), arrived(course)
    found = []
    for lesson_id in ids or given:
        lesson = course.lessons[lesson_id]
        if any(map(most_marks, lesson.exercises)):
            absent = [one for one in students if not any((bench, lesson_id) in arrivals for bench in one.benches)]
            found.append(Missing(lesson=lesson, came=len(students) - len(absent), all=len(students), students=absent))
    return found, len(not_read)
