"""The class list with all its columns: who is who, which spare bench took the place of which; who has not handed in."""
import re
from dataclasses import dataclass
from functools import cached_property

from lessons_lib.course.given_out import lessons_given_out
from lessons_lib.course.returned import arrived
from lessons_lib.course.tables import lines_in, refuse

INSTEAD_OF = "instead of"
_OURS = ("bench", INSTEAD_OF)


@dataclass(frozen=True, eq=False)
class Student:
    """One person of the class: *benches*, the first one first; *name*; *cells*, heading as typed -> cell."""

    benches: tuple
    name: str
    cells: dict

    @property
    def called(self):
        """The name with the bench, or the bench alone."""
        return f"{self.name} ({self.benches[-1]})" if self.name else self.benches[-1]

    @cached_property
    def email(self):
        """What is in a column called e-mail or mail, or an empty text."""
        return next((cell for heading, cell in self.cells.items()
                     if re.fullmatch(r"(e.?)?mail( address)?", heading, re.IGNORECASE)), "")


def read_class_list(course):
    """Return the `Student`s of class_list.csv, in its order.

    A spare bench has a line of its own; where its cell in a column ``instead of`` names another bench, both are one
    student, with the cells of the line that was there first and, where they are empty, of the spare's.

    Raises
    ------
    ValueError
        Where the list cannot be used, or the column names what is no other bench of it; a sentence for each such line.
    """
    names = course.students     # it has checked benches and lines
    _, ((_, head), *lines) = lines_in((course.folder / "class_list.csv").read_bytes())
    keys, rows, before, faults = [heading.strip().lower() for heading in head], {}, {}, []
    for line, cells in lines:
        cells = [*(cell.strip() for cell in cells), *[""] * len(head)]
        row = dict(zip(keys, cells))
        bench = row["bench"].lower()
        rows[bench] = {heading.strip(): cell for heading, cell in zip(head, cells)
                       if heading.strip() and heading.strip().lower() not in _OURS}
        if other := row.get(INSTEAD_OF, "").lower().partition("-")[0]:
            before[bench] = other
            where = f'class_list.csv, line {line}: {bench} is there instead of "{other[:20]}"'
            seen = other
            while seen in before and seen != bench:
                seen = before[seen]
            if other not in names:
                faults.append(f"{where}, which is not in the list.")
            elif seen == bench:
                faults.append(f"{where}, and that one instead of it. Leave one of the two cells empty.")
                del before[bench]       # so that it is told once
    refuse(faults)
    return list(_people(names, rows, before))


def _people(names, rows, before):
    """One `Student` for the benches that stand for each other, at the place of the first one."""
    benches = {}
    for bench in names:
        first = bench
        while first in before:
            first = before[first]
        benches.setdefault(first, []).append(bench)
    for first in filter(benches.get, names):
        here = [first, *(one for one in benches[first] if one != first)]
        cells = {heading: next((rows[bench][heading] for bench in here if rows[bench][heading]), "")
                 for heading in rows[first]}
        yield Student(tuple(here), next((names[bench] for bench in here if names[bench]), ""), cells)


def heading_of(students, column):
    """Return the heading that *column* names, in whatever capitals; ValueError where the class list has none such."""
    headings = list(students[0].cells)
    for heading in headings:
        if heading.lower() == column.strip().lower():
            return heading
    raise ValueError(f'class_list.csv has no column "{column[:40]}"; it has {", ".join(headings)}.')


def who_is_missing(course, ids=()):
    """Return who has not handed in: ((lesson, how many have, those who have not), (file, why) of what does not count).

    The first is a list with every lesson that carries marks, its `Student`s in the order of the class list.

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
            found.append((lesson, f"{len(students) - len(absent)} of {len(students)}", absent))
    return found, not_read
