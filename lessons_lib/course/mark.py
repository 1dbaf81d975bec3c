"""``mark``: from returned work to marks, notes, open questions, the class report, and what could not be read."""
from collections import defaultdict
from dataclasses import dataclass, replace

from lessons_lib.course.class_list import read_class_list
from lessons_lib.course.class_report import report_page
from lessons_lib.course.copied import Copied
from lessons_lib.course.earlier_marks import EarlierMarks, marks_in, read_open_questions, rows_of_nobody
from lessons_lib.course.folder import same_secret
from lessons_lib.course.given_out import NOTHING_YET, all_given_out
from lessons_lib.course.marking import Marker
from lessons_lib.course.marks_folder import MarksFiles, Staged
from lessons_lib.course.received import late_rule, percent_off, read_extensions, received_remarks, received_times
from lessons_lib.course.returned import read_returned
from lessons_lib.course.returned_history import MOST_COMPUTED, to_mark
from lessons_lib.course.tables import as_typed, numbered_rows_of, saved_otherwise
from lessons_lib.course.tally import LessonTally
from lessons_lib.course.telling import counted
from lessons_lib.exercises.log import ends_whole
from lessons_lib.exercises.making import make_sheet
from lessons_lib.exercises.returns import merged

_MOST_FILES = 5


@dataclass(frozen=True, kw_only=True)
class LessonMarks:
    """The marks of one bench for one lesson.

    *without_marks* holds the outcomes of further exercises that were answered and carry none. *offs* maps the check
    code of each return to the per cent that lateness takes off, by the *late_rule*; *texts* is exercise id -> list of
    `Text`; *history* holds all that the bench handed in of the lesson; *remarks* are sentences for the instructor.
    """

    lesson: object
    outcomes: dict
    without_marks: dict
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

    @property
    def as_kept(self):
        """Plain data for the history, by the names of exercises, and "receipt"."""
        return {"receipt": {"marks": None, "how": "", "because": {"late": self.late_rule}}, **{
            name: {"marks": one.marks, "how": one.how, "off": one.off if one.earned else 0, "because": one.because}
            for name, one in self.outcomes.items()}}

    def last_text(self, exercise_id):
        """Return the `Text` of an open question that a marker is to see last; None without any."""
        return to_mark(self.texts[exercise_id])[-1] if exercise_id in self.texts else None


def _marker(course, given_out, bench, by_hand):
    """The `Marker` of a bench; exercises that were written after its values were given out are left out."""
    drawn = given_out.drawn(bench)
    present = [one for one in given_out.lesson.exercises if not one.is_drawn or one.id in drawn]
    lesson = replace(given_out.lesson, exercises=tuple(present))
    sheet = make_sheet(lesson, secret=course.secret, bench=bench, drawn=drawn, for_marking=True)
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
    remarks = _two_contents(bench, lesson, came, arrivals)
    remarks += [f"{bench} {exercise_id}: {count} different answers were not looked at; of each return the last "
                f"{MOST_COMPUTED} are." for exercise_id, count in history.left_out.items() if count]
    return LessonMarks(lesson=lesson, outcomes=outcomes, without_marks=marker.without_marks(history), offs=by_check,
                       texts=texts, history=history, remarks=remarks,
                       late_rule=late_rule(course.settings, extensions, lesson.id, bench))


def _two_contents(bench, lesson, came, arrivals):
    """A sentence where one id stands for two things: somebody wrote a file that no sheet wrote."""
    known = defaultdict(list)
    for event, places in came:
        known[event["id"]].append(places)
    doubled = [forms for forms in known.values() if len(forms) > 1]
    files = {arrivals[place].file for forms in doubled for places in forms for place in places}
    if not doubled:
        return []
    others = " and others" if len(files) > _MOST_FILES else ""
    return [f"{bench} lesson {lesson.id}: {len(doubled)} of its entries exist in two forms, in "
            f"{', '.join(sorted(files)[:_MOST_FILES])}{others}. A sheet never writes that: a file was changed, by the "
            "bench or by somebody who has its return. Both forms are read and the best counts, so nobody loses by it."]


@dataclass(frozen=True, kw_only=True)
class Marking:
    """What one run did: how many *benches* there are and how many *returned* work; the lists name what to look at."""

    benches: int
    returned: int
    begun: dict         # lesson -> when work of it was first marked
    unclear: list
    not_read: list
    new_not_read: list  # names of those files that the last run had not
    moved: list
    remarks: list
    waiting: int


def mark(course, also=None):
    """Mark everything that was returned and write the folder ``marks``; return the `Marking`.

    *also* may hold `LessonTally`s by lesson id, of several courses together: this one's benches are added to them.

    One bench after the other is read, marked and let go: memory does not grow with the class but for its tables.
    """
    given_out = all_given_out(course)
    if not given_out:
        raise ValueError(NOTHING_YET)
    with Staged(course.folder / "marks") as staged:
        return _Run(course, given_out, staged, also or {}).whole()


class _Run:
    def __init__(self, course, given_out, staged, also):
        self._course, self._given_out, self._staged, self._also = course, given_out, staged, also
        folder, lessons = course.folder / "marks", {lesson_id: one.lesson for lesson_id, one in given_out.items()}
        self._earlier = EarlierMarks(folder / "history.jsonl")
        table = folder / "open_questions.csv"
        self._typed = read_open_questions(table)
        self._cells = _typed_beside(self._earlier, "cells", self._typed)
        self._comments = _typed_beside(self._earlier, "comments", read_open_questions(table, "comment"))
        self._extensions, self._times = read_extensions(course), received_times(course)
        self._files = MarksFiles(course, lessons, staged, late=bool(self._times))
        self._tallies = {lesson_id: LessonTally(lesson) for lesson_id, lesson in lessons.items()}
        self._unclear, self._moved, self._copied = [], [], Copied({
            bench: student.benches[0] for student in read_class_list(course) for bench in student.benches})
        self._remarks = [*saved_otherwise(course.folder), *rows_of_nobody(table, course.students, {
            exercise.id for lesson in lessons.values() for exercise in lesson.exercises})]

    def whole(self):
        """Mark bench by bench, then write what is about all of them."""
        arrivals, not_read = read_returned(self._course, self._given_out, self._times)
        self._remarks += [f"returned/{name}: {reason}. Nothing in it was read." for name, reason in not_read
                          if (self._course.folder / "returned" / name).is_dir()]
        self._remarks += [*same_secret(self._course), *received_remarks(self._course, self._times, arrivals)]
        for lesson_id, given_out in self._given_out.items():
            now = given_out.lesson.version
            if older := sorted(set(given_out.versions.values()) - {now}):
                self._remarks.append(
                    f"Lesson {lesson_id} was given out under version {', '.join(map(str, older))} of the model "
                    f"answers; marked under version {now}, with the values that were given out.")
        with open(self._staged.place("history.jsonl", self._course.folder / "marks/history.jsonl"), "ab") as history:
            if not ends_whole(history.name):
                history.write(b"\n")
            for bench in counted(self._course.students, "benches marked"):
                here = {lesson_id: arrivals[bench, lesson_id]
                        for lesson_id in self._given_out if (bench, lesson_id) in arrivals}
                self._bench(bench, here, history)
            for bench, lesson_id in self._earlier.others(arrivals):
                self._compare(history, bench, lesson_id, None, {}, **({} if bench in self._course.students else {
                    "gone": "the bench is not in class_list.csv any more, and its returns stay where they are"}))
        self._remarks += self._copied.remarks()
        self._unclear.sort()
        self._files.write(self._unclear, not_read)
        self._staged.write("class_report.html", report_page(
            self._course, self._tallies, self._unclear, self._earlier.begun))
        moved = [sentence for _, sentences in sorted(self._moved) for sentence in sentences]
        return Marking(benches=len(self._course.students), returned=len({bench for bench, _ in arrivals}),
                       begun=self._earlier.begun, unclear=self._unclear, not_read=not_read,
                       new_not_read=self._new(not_read), moved=moved, remarks=self._remarks,
                       waiting=self._files.waiting)

    def _new(self, not_read):
        """Names of files that the table of the last run has not; none where there was no run."""
        path = self._course.folder / "marks/not_read.csv"
        try:
            known = {as_typed(row["file"]) for _, row in numbered_rows_of(path) if "file" in row}
        except ValueError:
            return []       # it was saved as something else
        return [name for name, _ in not_read if name not in known] if path.exists() else []

    def _bench(self, bench, arrivals, history):
        found = {}
        for lesson_id, here in arrivals.items():
            lesson = self._given_out[lesson_id].lesson
            by_hand, faults = self._marks_by_hand(bench, lesson)
            marker = _marker(self._course, self._given_out[lesson_id], bench, by_hand)
            marks = lesson_marks(self._course, marker, lesson, bench, here, self._extensions)
            found[lesson_id] = marks
            for tallies in (self._tallies, self._also):
                if lesson_id in tallies:
                    tallies[lesson_id].add(marker, marks, (self._course.folder, bench))
            self._copied.add(bench, marker, marks, [one.file for one in here])
            self._unclear += sorted({
                (lesson_id, exercise.id, bench, " ".join(event["line"].split()))    # each line once
                for exercise in lesson.exercises for event in marks.history.told(exercise.id, "unclear")})
            texts = {name: self._kept_text(bench, name, marks) for name in marks.texts}
            self._remarks += [*faults, *marks.remarks, *_texts_that_changed(self._earlier, bench, marks, texts),
                              *self._of_no_text(bench, marks)]
            self._compare(history, bench, lesson_id, marks.as_kept, texts)
        self._files.add(bench, found, self._cells, self._comments)

    def _marks_by_hand(self, bench, lesson):
        """(exercise id -> id of a text -> marks, a remark for each cell that holds none)."""
        found, remarks = {}, []
        for exercise in lesson.exercises:
            if cells := self._cells.get((bench, exercise.id)):
                found[exercise.id], faults = marks_in(cells, self._course.settings.most_marks(exercise))
                remarks += [f"open_questions.csv, {bench} {exercise.id}: {fault}." for fault in faults]
        return found, remarks

    def _of_no_text(self, bench, marks):
        """A sentence for each mark that was typed beside an id which no text has, now or before."""
        return [f'open_questions.csv, {bench} {name}: "{cell[:40]}" is beside the text id t{text_id[:20]}, which none '
                "of its texts has, so it counts nowhere. Put the column text id right, or type the mark again."
                for name, texts in marks.texts.items() for text_id, cell in self._typed.get((bench, name), {}).items()
                if cell and text_id not in {"", *(one.id for one in texts),
                                            *self._earlier.texts.get((bench, name), {}).get("cells", ())}]

    def _kept_text(self, bench, exercise_id, one):
        """What the history keeps of an open question: the text shown last, and what was typed beside its texts."""
        last, typed = one.last_text(exercise_id).id, {}
        for name, column in (("cells", self._cells), ("comments", self._comments)):
            cells = column.setdefault((bench, exercise_id), {})
            if "" in cells:
                cells[last] = cells.pop("")
            typed[name] = {text_id: cell for text_id, cell in sorted(cells.items()) if cell}
        return {"text": last, "cells": typed["cells"], **({"comments": typed["comments"]} if typed["comments"] else {})}

    def _compare(self, history, bench, lesson_id, marks, texts, **gone):
        line, moved = self._earlier.compare(bench, lesson_id, marks, texts, **gone)
        history.write(line)
        if moved:
            self._moved.append(((bench, lesson_id), moved))


def _typed_beside(earlier, name, typed):
    """(bench, exercise) -> id of a text -> cell: those *name* of the history, and over them what was *typed* since."""
    cells = {where: dict(kept.get(name, {})) for where, kept in earlier.texts.items()}
    for where, here in typed.items():
        kept = cells.setdefault(where, {})
        for text_id, cell in here.items():
            kept[text_id or earlier.texts.get(where, {}).get("text", "")] = cell
    return cells


def _texts_that_changed(earlier, bench, one, texts):
    """A sentence for every text that came after one that was marked, and may earn more."""
    return [f"{bench} {exercise_id}: another text came after one that was marked. That mark stands; the new one has a "
            "row in open_questions.csv, and the better of the two counts."
            for exercise_id, kept in texts.items() if kept["cells"] and (outcome := one.outcomes.get(exercise_id))
            and kept["text"] in outcome.waiting and kept["text"] not in kept["cells"]
            and earlier.texts.get((bench, exercise_id), {}).get("text") not in (None, kept["text"])]
