"""``mark``: from returned work to marks, notes, open questions, the class report, and what could not be read."""
from dataclasses import dataclass

from lessons_lib.course.class_report import report_page
from lessons_lib.course.earlier_marks import EarlierMarks, marks_in, read_open_questions
from lessons_lib.course.folder import same_secret
from lessons_lib.course.given_out import GivenOut, lessons_given_out
from lessons_lib.course.marking import lesson_marks, marker_for
from lessons_lib.course.marks_folder import MarksFiles, Staged
from lessons_lib.course.received import read_extensions, received_remarks, received_times
from lessons_lib.course.returned import read_returned
from lessons_lib.course.tally import LessonTally, SameReadings
from lessons_lib.course.telling import counted


@dataclass(frozen=True, kw_only=True)
class Marking:
    """What one run did: how many *benches* there are and how many *returned* work; the lists name what to look at."""

    benches: int
    returned: int
    unclear: list
    not_read: list
    moved: list
    remarks: list
    waiting: int


def mark(course, also=None):
    """Mark everything that was returned and write the folder ``marks``; return the `Marking`.

    *also* may hold `LessonTally`s by lesson id, of several courses together: this one's benches are added to them.

    One bench after the other is read, marked and let go: memory does not grow with the class but for its tables.
    """
    lessons = {lesson_id: course.lessons[lesson_id] for lesson_id in lessons_given_out(course)}
    if not lessons:
        raise ValueError("Nothing has been given out yet. Run give-out first.")
    with Staged(course.folder / "marks") as staged:
        return _Run(course, lessons, staged, also or {}).whole()


class _Run:
    def __init__(self, course, lessons, staged, also):
        self._course, self._lessons, self._staged, self._also = course, lessons, staged, also
        folder = course.folder / "marks"
        self._given_out = {lesson_id: GivenOut(course, lesson) for lesson_id, lesson in lessons.items()}
        self._earlier = EarlierMarks(folder / "history.jsonl")
        self._cells, self._comments = (
            _cells(self._earlier, kept, read_open_questions(folder / "open_questions.csv", name))
            for kept, name in (("cells", "marks"), ("comments", "comment")))
        self._extensions, self._times = read_extensions(course), received_times(course)
        self._files = MarksFiles(course, lessons, staged, late=bool(self._times))
        self._tallies = {lesson_id: LessonTally(lesson) for lesson_id, lesson in lessons.items()}
        self._unclear, self._moved, self._remarks, self._same = [], [], [], SameReadings()

    def whole(self):
        """Mark bench by bench, then write what is about all of them."""
        arrivals, not_read = read_returned(self._course, self._given_out, self._times)
        self._remarks += [*_folders(self._course, not_read), *same_secret(self._course),
                          *received_remarks(self._course, self._times, arrivals),
                          *_versions(self._given_out, self._lessons)]
        with open(self._staged.place("history.jsonl", self._course.folder / "marks/history.jsonl"), "ab") as history:
            if _is_torn(history):
                history.write(b"\n")
            for bench in counted(self._course.students, "benches marked"):
                here = {lesson_id: arrivals[bench, lesson_id]
                        for lesson_id in self._lessons if (bench, lesson_id) in arrivals}
                self._bench(bench, here, history)
            for bench, lesson_id in self._earlier.others(arrivals):
                self._compare(history, bench, lesson_id, None, {})
        self._remarks += self._same.remarks()
        self._unclear.sort()
        self._files.write(self._unclear, not_read)
        self._staged.write("class_report.html", report_page(self._course, self._tallies, self._unclear))
        moved = [sentence for _, sentences in sorted(self._moved) for sentence in sentences]
        return Marking(benches=len(self._course.students), returned=len({bench for bench, _ in arrivals}),
                       unclear=self._unclear, not_read=not_read, moved=moved, remarks=self._remarks,
                       waiting=self._files.waiting)

    def _bench(self, bench, arrivals, history):
        found = {}
        for lesson_id, here in arrivals.items():
            by_hand, faults = self._marks_by_hand(bench, self._lessons[lesson_id])
            marker = marker_for(self._course, self._given_out[lesson_id], self._lessons[lesson_id], bench, by_hand)
            marks = lesson_marks(self._course, marker, self._lessons[lesson_id], bench, here, self._extensions)
            found[lesson_id] = marks
            for tallies in (self._tallies, self._also):
                if lesson_id in tallies:
                    tallies[lesson_id].add(marker, marks)
            self._same.add(bench, marker, marks)
            self._unclear += _unclear(bench, marks)
            texts = {name: self._kept_text(bench, name, marks) for name in marks.texts}
            self._remarks += [*faults, *marks.remarks, *_texts_that_changed(self._earlier, bench, marks, texts)]
            self._compare(history, bench, lesson_id, _plain(marks), texts)
        self._files.add(bench, found, self._cells, self._comments)

    def _marks_by_hand(self, bench, lesson):
        """(exercise id -> id of a text -> marks, a remark for each cell that holds none)."""
        found, remarks = {}, []
        for exercise in lesson.exercises:
            if cells := self._cells.get((bench, exercise.id)):
                found[exercise.id], faults = marks_in(cells, self._course.settings.most_marks(exercise))
                remarks += [f"open_questions.csv, {bench} {exercise.id}: {fault}." for fault in faults]
        return found, remarks

    def _kept_text(self, bench, exercise_id, one):
        """What the history keeps of an open question: the text shown last, and what was typed beside its texts."""
        last, typed = one.last_text(exercise_id).id, {}
        for name, column in (("cells", self._cells), ("comments", self._comments)):
            cells = column.setdefault((bench, exercise_id), {})
            if "" in cells:
                cells[last] = cells.pop("")
            typed[name] = {text_id: cell for text_id, cell in sorted(cells.items()) if cell}
        return {"text": last, "cells": typed["cells"], **({"comments": typed["comments"]} if typed["comments"] else {})}

    def _compare(self, history, bench, lesson_id, marks, texts):
        line, moved = self._earlier.compare(bench, lesson_id, marks, texts)
        history.write(line)
        if moved:
            self._moved.append(((bench, lesson_id), moved))


def _is_torn(history):
    """Whether the last line of a file, open for appending, has no end."""
    if not history.tell():
        return False
    with open(history.name, "rb") as file:
        file.seek(-1, 2)
        return file.read(1) != b"\n"


def _cells(earlier, name, typed):
    """(bench, exercise) -> id of a text -> cell: those *name* of the history, and over them what was *typed* since."""
    cells = {where: dict(kept.get(name, {})) for where, kept in earlier.texts.items()}
    for where, here in typed.items():
        kept = cells.setdefault(where, {})
        for text_id, cell in here.items():
            kept[text_id or earlier.texts.get(where, {}).get("text", "")] = cell
    return cells


def _plain(one):
    """Return `LessonMarks` as plain data for the history."""
    return {"receipt": {"marks": None, "how": "", "because": {"late": one.late_rule}}, **{
        name: {"marks": outcome.marks, "how": outcome.how, "off": outcome.off if outcome.earned else 0,
               "because": outcome.because} for name, outcome in one.outcomes.items()}}


# ---- what the instructor is told -------------------------------------------------------------------------------------

def _texts_that_changed(earlier, bench, one, texts):
    """A sentence for every text that came after one that was marked, and may earn more."""
    return [f"{bench} {exercise_id}: another text came after one that was marked. That mark stands; the new one has a "
            "row in open_questions.csv, and the better of the two counts."
            for exercise_id, kept in texts.items() if kept["cells"] and (outcome := one.outcomes.get(exercise_id))
            and kept["text"] in outcome.waiting and kept["text"] not in kept["cells"]
            and earlier.texts.get((bench, exercise_id), {}).get("text") not in (None, kept["text"])]


def _folders(course, not_read):
    """A sentence for every folder of returns that was not looked through: many returns may lie in it."""
    return [f"returned/{name}: {reason}. Nothing in it was read." for name, reason in not_read
            if (course.folder / "returned" / name).is_dir()]


def _versions(given_out, lessons):
    return [f"Lesson {lesson_id} was given out under version {', '.join(map(str, older))} of the model answers; marked "
            "under "
            f"version {lesson.version}, with the values that were given out."
            for lesson_id, lesson in lessons.items()
            if (older := sorted(set(given_out[lesson_id].versions.values()) - {lesson.version}))]


def _unclear(bench, one):
    """Return (lesson, exercise, bench, line) of what a student did not understand, each line once."""
    return sorted({(one.lesson.id, exercise.id, bench, " ".join(event["line"].split()))
                   for exercise in one.lesson.exercises for event in one.history.told(exercise.id, "unclear")})
