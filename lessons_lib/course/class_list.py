"""The class list with all its columns: who is who, and which spare bench took the place of which."""
import re
from dataclasses import dataclass
from functools import cached_property

from lessons_lib.course.tables import lines_in

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
        Where the list cannot be used, or the column names what is no other bench of it; the message is one sentence.
    """
    names = course.students     # it has checked benches and lines
    _, ((_, head), *lines) = lines_in((course.folder / "class_list.csv").read_bytes())
    keys, rows, before = [heading.strip().lower() for heading in head], {}, {}
    for line, cells in lines:
        cells = [*(cell.strip() for cell in cells), *[""] * len(head)]
        row = dict(zip(keys, cells))
        bench = row["bench"].lower()
        rows[bench] = {heading.strip(): cell for heading, cell in zip(head, cells)
                       if heading.strip() and heading.strip().lower() not in _OURS}
        if other := row.get(INSTEAD_OF, "").lower().partition("-")[0]:
            before[bench] = other
            _check(bench, other, names, before, line)
    return _joined(names, rows, before)


def _check(bench, other, names, before, line):
    where = f'class_list.csv, line {line}: {bench} is there instead of "{other[:20]}"'
    if other not in names:
        raise ValueError(f"{where}, which is not in the list.")
    seen = bench
    while seen in before:
        seen = before[seen]
        if seen == bench:
            raise ValueError(f"{where}, and that one instead of it. Leave one of the two cells empty.")


def _joined(names, rows, before):
    benches = {}
    for bench in names:
        first = bench
        while first in before:
            first = before[first]
        benches.setdefault(first, []).append(bench)
    return [_student([first, *(one for one in here if one != first)], names, rows)
            for first, here in sorted(benches.items(), key=lambda pair: list(names).index(pair[0]))]


def _student(benches, names, rows):
    headings = rows[benches[0]]
    cells = {heading: next((rows[bench][heading] for bench in benches if rows[bench][heading]), "")
             for heading in headings}
    return Student(tuple(benches), next((names[bench] for bench in benches if names[bench]), ""), cells)
