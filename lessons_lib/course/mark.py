"""``mark``: from returned work to marks, notes, open questions, what was unclear, and what could not be read."""
import hashlib
from dataclasses import dataclass, replace

from lessons_lib.course import open_questions
from lessons_lib.course.earlier_marks import EarlierMarks
from lessons_lib.course.folder import Course, counted
from lessons_lib.course.given_out import GivenOut, lessons_given_out
from lessons_lib.course.marking import Marker
from lessons_lib.course.notes import notes_page
from lessons_lib.course.returned import days_late, read_returned, received_at
from lessons_lib.exercises.declaration import DRAWN
from lessons_lib.exercises.making import make_sheet
from lessons_lib.exercises.returns import merged
from lessons_lib.exercises.sheet_file import write_whole

_MOST_LINES = 20


@dataclass(frozen=True, kw_only=True)
class LessonMarks:
    """The marks of one bench for one lesson; *texts* are the latest open texts, exercise id -> text."""

    lesson: object
    outcomes: dict
    late_percent: float
    checks: tuple
    texts: dict

    @property
    def most(self):
        """What all exercises together can earn."""
        return sum(one.most for one in self.outcomes.values())

    @property
    def total(self):
        """What they earned, less what being late costs; texts that wait for marks count nothing yet."""
        return round(sum(one.marks or 0 for one in self.outcomes.values()) * (1 - self.late_percent / 100), 4)


@dataclass(frozen=True, kw_only=True)
class Marking:
    """One run: bench -> lesson id -> `LessonMarks`, what was unclear, not read, moved, what else to look at."""

    benches: dict
    unclear: list
    not_read: list
    moved: list
    remarks: list
    waiting: int


def mark(course):
    """Mark everything that was returned and write the folder ``marks``; return the `Marking`."""
    lessons = {id: course.lessons[id] for id in lessons_given_out(course)}
    if not lessons:
        raise ValueError("Nothing was given out yet. Run give-out first.")
    given_out = {id: GivenOut(course, lesson) for id, lesson in lessons.items()}
    folder = course.folder / "marks"
    earlier = EarlierMarks(folder / "history.jsonl")
    cells = {**_cells_of(earlier), **open_questions.read_marks(folder / "open_questions.csv")}
    by_hand, remarks = _by_hand(course, cells)
    arrivals, not_read = read_returned(course, given_out)
    benches = {bench: {} for bench in course.students}
    for (bench, id), here in counted(sorted(arrivals.items()), "lessons marked"):
        marker = _marker(course, given_out[id], lessons[id], bench, by_hand.get(bench, {}))
        benches[bench][id] = _lesson_marks(course, marker, lessons[id], bench, here)
    remarks += [*_texts_that_changed(earlier, benches, cells), *_unlisted(course, arrivals),
                *_versions(given_out, lessons)]
    marks, texts = _plain(benches, cells)
    moved = earlier.differences(marks)
    waiting, unclear = _write(course, lessons, benches, not_read, cells), _unclear(arrivals)
    course.write_table("marks/unclear.csv", ("lesson", "exercise", "bench", "line"), unclear)
    earlier.keep(marks, texts, moved)
    return Marking(benches=benches, unclear=unclear, not_read=not_read, moved=moved, remarks=remarks, waiting=waiting)


def _by_hand(course, cells):
    """Return bench -> exercise -> marks, and a remark for every cell that holds none."""
    most = {exercise.id: course.settings.most_marks(exercise)
            for lesson in course.lessons.values() for exercise in lesson.exercises if exercise.kind == "text"}
    marks, remarks = {}, []
    for (bench, id), cell in cells.items():
        try:
            marks.setdefault(bench, {})[id] = open_questions.mark_in(cell, most.get(id, 0))
        except ValueError as error:
            remarks.append(f"open_questions.csv, {bench} {id}: {error}.")
    return marks, remarks


def _marker(course, given_out, lesson, bench, by_hand):
    drawn = given_out.drawn(bench)
    present = [exercise for exercise in lesson.exercises if exercise.kind not in DRAWN or exercise.id in drawn]
    lesson = replace(lesson, exercises=tuple(present))      # one written later was given to nobody yet
    sheet = make_sheet(lesson, secret=course.secret, bench=bench, drawn=drawn)
    return Marker(lesson, sheet, drawn, course.settings, by_hand)


def _lesson_marks(course, marker, lesson, bench, arrivals):
    """Mark what had arrived at each price of lateness, and keep the best: sending more never costs anything."""
    late, times = course.settings.late, sorted({one.received for one in arrivals if one.received})
    latest = {0: None}      # percent off -> the last time at that price
    for time in times:
        days = days_late(course.settings, lesson.id, bench, time)
        latest[min(late.at_most, late.percent_a_day * days)] = time
    ways = []
    for percent, time in latest.items():
        here = [one for one in arrivals if not one.received or time and one.received <= time]
        if here:
            ways.append(LessonMarks(
                lesson=lesson, outcomes=marker.outcomes(merged([one.content for one in here])), late_percent=percent,
                checks=tuple(sorted({one.content.check for one in arrivals})),
                texts=marker.texts(merged([one.content for one in arrivals]))))
    return max(ways, key=lambda way: way.total)


# ---- what the instructor is told -------------------------------------------------------------------------------------

def _text_mark(text):
    return hashlib.sha256(text.encode()).hexdigest()[:8]


def _plain(benches, cells):
    """Return marks and open texts as plain data for the history."""
    marks = {bench: {id: _plain_lesson(one) for id, one in lessons.items()}
             for bench, lessons in benches.items() if lessons}
    texts = {f"{bench} {id}": {"text": _text_mark(text), "cell": cells.get((bench, id), "")}
             for bench, lessons in benches.items() for one in lessons.values() for id, text in one.texts.items()}
    return marks, texts


def _plain_lesson(one):
    how = f"{one.late_percent:g} % off for being late" if one.late_percent else "in time"
    return {"receipt": {"marks": None, "how": how, "because": {"late": one.late_percent}}, **{
        name: {"marks": outcome.marks, "how": outcome.how, "because": outcome.because}
        for name, outcome in one.outcomes.items()}}


def _cells_of(earlier):
    texts = earlier.last["texts"] if earlier.last else {}
    return {tuple(which.split(" ", 1)): kept["cell"] for which, kept in texts.items()}


def _texts_that_changed(earlier, benches, cells):
    before = earlier.last["texts"] if earlier.last else {}
    return [f"{bench} {id}: the text is another one than at the last marking; look at its mark again."
            for bench, lessons in benches.items() for one in lessons.values() for id, text in one.texts.items()
            if cells.get((bench, id)) and before.get(f"{bench} {id}", {}).get("text") not in (None, _text_mark(text))]


def _versions(given_out, lessons):
    return [f"Lesson {id} was given out under version {', '.join(map(str, older))} of the model answers; marked under "
            f"version {lesson.version}, with the values that were given out."
            for id, lesson in lessons.items()
            if (older := sorted(set(given_out[id].versions.values()) - {lesson.version}))]


def _unlisted(course, arrivals):
    if not received_at(course):
        return []
    files = [one.file for here in arrivals.values() for one in here if not one.received]
    others = " and others" if files[5:] else ""
    return [f"Not in received.csv, so in time: {', '.join(files[:5])}{others}."] if files else []


def _unclear(arrivals):
    """Return (lesson, exercise, bench, line) of what students did not understand: lines on one exercise together."""
    return sorted({(id, event["exercise"], bench, " ".join(event["line"].split()))
                   for (bench, id), here in arrivals.items()
                   for event in merged([one.content for one in here]) if event["event"] == "unclear"})


# ---- files -----------------------------------------------------------------------------------------------------------

def _write(course, lessons, benches, not_read, cells):
    """Write all tables and pages; return how many open texts wait for marks."""
    folder = course.folder / "marks"
    head, rows = marks_table(course, lessons, benches)
    course.write_table("marks/marks.csv", head, rows)
    texts = [(bench, id, one.outcomes[id].most, text) for bench, found in benches.items()
             for one in found.values() for id, text in one.texts.items() if id in one.outcomes]
    course.write_table("marks/open_questions.csv", open_questions.HEAD, (
        open_questions.row(bench, id, most, _typed(cells.get((bench, id), "")), text)
        for bench, id, most, text in texts))
    course.write_table("marks/not_read.csv", ("file", "why"), not_read)
    pages = {f"{bench}.html": notes_page(course, bench, found) for bench, found in benches.items() if found}
    for name, data in pages.items():
        write_whole(folder / "notes" / name, data)
    for path in (folder / "notes").glob("b*.html"):
        if path.name not in pages:
            path.unlink()
    return sum(one.outcomes[id].marks is None for found in benches.values() for one in found.values()
               for id in one.texts if id in one.outcomes)


def _typed(cell):
    """A cell as it was typed, a number as a number so that it is written as the settings want it."""
    try:
        return float(cell.replace(",", "."))
    except ValueError:
        return cell


def marks_table(course, lessons, benches):
    """Return (head, rows) of marks.csv: a row a bench; empty is not returned, 0 is returned and wrong."""
    most_marks = course.settings.most_marks
    marked = {id: {one.id: most_marks(one) for one in lesson.exercises if most_marks(one)}
              for id, lesson in lessons.items()}
    marked = {id: exercises for id, exercises in marked.items() if exercises}
    late = bool(received_at(course))
    head = ["bench", f"total (of {sum(sum(one.values()) for one in marked.values()):g})"]
    for id, exercises in marked.items():
        head += [f"lesson {id} (of {sum(exercises.values()):g})", *([f"{id} late %"] if late else []),
                 f"{id} check code", *(f"{name} (of {most:g})" for name, most in exercises.items())]
    return head, [_marks_row(bench, found, marked, late) for bench, found in benches.items()]


def _marks_row(bench, found, marked, late):
    totals = [found[id].total for id in marked if id in found]
    row = [bench, sum(totals) if totals else None]
    for id, exercises in marked.items():
        one = found.get(id)
        row += [one and one.total, *([one and one.late_percent] if late else []), one and " ".join(one.checks),
                *(_cell(one.outcomes.get(name)) if one else None for name in exercises)]
    return row


def _cell(outcome):
    if outcome is None:
        return None
    return "to mark" if outcome.marks is None else outcome.marks


def run(arguments):
    """Run ``mark`` from the command line; return the words to print."""
    course = Course(arguments.folder)
    with course.busy():
        done = mark(course)
    folder, returned = course.folder / "marks", sum(bool(found) for found in done.benches.values())
    lines = [f"Returned work of {returned} of {len(done.benches)} benches. In {folder}: marks.csv, notes (one page a "
             f"bench), open_questions.csv (texts that wait for marks: {done.waiting}), unclear.csv (lines on what was "
             f"unclear: {len(done.unclear)}), not_read.csv (files: {len(done.not_read)})."]
    lines += done.remarks
    if done.moved:
        lines += ["Since the last marking:", *(f"  {line}" for line in done.moved[:_MOST_LINES])]
        if len(done.moved) > _MOST_LINES:
            lines.append(f"  and {len(done.moved) - _MOST_LINES} more, in the last line of history.jsonl")
    steps = [("look at not_read.csv", done.not_read),
             ("write marks into the column of open_questions.csv and run mark again", done.waiting),
             ("put the class's returns into the folder returned and run mark again", not returned),
             ("give each student the page of their bench in notes", returned and not done.waiting)]
    return "\n".join([*lines, f"Next: {'; '.join(step for step, needed in steps if needed)}."])
