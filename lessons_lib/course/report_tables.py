"""The counts of one lesson as sections of the class report."""
from html import escape
from typing import NamedTuple

from lessons_lib.course.charts import count_bar, tries_bar
from lessons_lib.course.class_shares import LEAST_FOR_DISCRIMINATION, discrimination, share_text
from lessons_lib.course.tally import ExerciseTally, PredictionTally, TextTally, ranked

_MOST_SLIPS, _MOST_VALUES = 5, 6


class Column(NamedTuple):
    """A column of a table: its heading, and the class that the style sheet lays it out by; words need none."""

    heading: str
    css: str = ""


_EXERCISE, _QUESTION, _BAR = Column("exercise", css="id"), Column("question"), Column("", css="chart")


def lesson_section(tally, questions, unclear):
    """Return the HTML of a `LessonTally`; *questions* is exercise id -> its question."""
    return (f"<section class=lesson><h2>Lesson {escape(tally.lesson.id)}, {escape(tally.lesson.title)}</h2>"
            f"<p>{tally.returned} returned.</p>"
            + _tries(tally, questions) + _slips(tally) + _unexplained(tally) + _predictions(tally)
            + _texts(tally, questions) + _unclear(tally, unclear) + "</section>")


def _of_kind(tally, kind):
    return [(exercise, one) for exercise in tally.lesson.exercises
            if isinstance(one := tally.exercises[exercise.id], kind)]


def _table(title, columns, rows, says=""):
    """A table under a title; cells are HTML. Nothing where there are no rows."""
    if not rows:
        return ""
    classes = [f" class={column.css}" if column.css else "" for column in columns]
    top = "".join(f"<th scope=col{css}>{column.heading}</th>" for css, column in zip(classes, columns))
    lines = ("".join(f"<td{css}>{cell}</td>" for css, cell in zip(classes, row)) for row in rows)
    body = "".join(f"<tr>{line}</tr>" for line in lines)
    return (f"<h3>{title}</h3>{f'<p class=key>{says}</p>' if says else ''}"
            f"<table><thead><tr>{top}</tr></thead><tbody>{body}</tbody></table>")


def _numbers(*headings):
    return [Column(heading, css="number") for heading in headings]


def _tries(tally, questions):
    with_d = tally.returned >= LEAST_FOR_DISCRIMINATION
    rows = []
    for exercise, tries in _of_kind(tally, ExerciseTally):
        n = tries.answered
        row = [escape(exercise.id), f"<span class=question>{escape(questions.get(exercise.id, ''))}</span>",
               tries_bar(tries.first, tries.right, n) if n else "", share_text(tries.first, n) if n else "",
               share_text(tries.right, n) if n else "", f"{n} of {tally.returned}"]
        if with_d:
            row.append(_discrimination(tally, exercise.id))
        rows.append(row)
    columns = [_EXERCISE, _QUESTION, _BAR, *_numbers("at first try", "in the end", "answered"),
               *(_numbers("discrimination") if with_d else [])]
    carried = [f"{exercise.id}: {tries.carried}" for exercise, tries in _of_kind(tally, ExerciseTally) if tries.carried]
    return _table("Right at the first try, and in the end", columns, rows,
                  "Dark: right at first. Light: right in the end. White: not right. The whisker is one standard error "
                  "of the share right in the end."
                  + (f" Right with the student's own earlier value (method marks): {escape(', '.join(carried))}."
                     if carried else ""))


def _discrimination(tally, exercise_id):
    if exercise_id not in tally.scored:
        return ""
    found = discrimination(tally.firsts, tally.scored.index(exercise_id))
    return "" if found is None else f"{found:+.2f}".replace("-", "−")


def _slips(tally):
    rows = []
    for exercise, tries in _of_kind(tally, ExerciseTally):
        if not exercise.quick:
            rows += [_note_row(exercise, f"<strong>{escape(name)}</strong>: {escape(note)}", count, tries,
                               tries.notes.get((name, note)))
                     for (name, note), count in ranked(tries.slips)[:_MOST_SLIPS]]
            rows += [_note_row(exercise, escape(note), count.read, tries, count)
                     for note, count in sorted(tries.notes.items(), key=str) if isinstance(note, str)]
    columns = (_EXERCISE, Column("slip, and its note"), _BAR, *_numbers("benches", "tried again", "then right"))
    return _table("Slips, and whether their notes helped", columns, rows,
                  f"Benches that made a slip at any try, the {_MOST_SLIPS} most frequent of each exercise; then the "
                  "general notes, with the number of times they were read. Then right: with the next different try.")


def _note_row(exercise, words, count, tries, after):
    n, (tried, right) = tries.answered, (after.tried, after.right) if after else (0, 0)
    return (escape(exercise.id), words, count_bar(min(count, n), n), f"{count} of {n}", str(tried),
            share_text(right, tried) if tried else "")


def _unexplained(tally):
    rows = [(escape(exercise.id), f"{one.unexplained_first} of {one.wrong_first}",
             escape(", ".join(f"{value} ({count})" for value, count in ranked(one.unexplained)[:_MOST_VALUES])))
            for exercise, one in _of_kind(tally, ExerciseTally) if one.unexplained]
    columns = (_EXERCISE, *_numbers("of wrong first tries"), Column("values outside all slips"))
    return _table("What no slip explains", columns, rows,
                  "The wrong first tries that fit no slip; then the values, with the number of benches that gave each "
                  "at any try.")


def _predictions(tally):
    rows = [(escape(exercise.id),
             f"<span class=question>{escape(exercise.question)}</span>{_predicted(exercise, one)}",
             f"<span class=question>{escape(exercise.seen_question)}</span>{_seen(exercise, one)}")
            for exercise, one in _of_kind(tally, PredictionTally) if one.predicted]
    columns = (Column("prediction", css="id"), Column("predicted"), Column("seen on the panel"))
    return _table("Predicted, and seen", columns, rows,
                  "The first prediction and the first look. In brackets, how sure: benches that were guessing, were "
                  "leaning this way, would bet on it. Predictions are never scored.")


def _predicted(exercise, one):
    return "".join(f"<br>{one.predicted[letter]}× ({letter}) {escape(text)} "
                   f"[{', '.join(str(one.sure[letter, sure]) for sure in (1, 2, 3))}]"
                   for letter, text in exercise.options.items() if one.predicted[letter])


def _seen(exercise, one):
    lines = "".join(f"<br>{one.saw[letter]}× ({letter}) {escape(text)}{' ← the panel' * (letter == exercise.seen)}"
                    for letter, text in exercise.seen_options.items() if one.saw[letter] or letter == exercise.seen)
    looked = one.saw.total()
    return lines + (f"<br>as the panel shows: {share_text(one.saw[exercise.seen], looked)}" if looked else "")


def _texts(tally, questions):
    rows = [(escape(exercise.id), f"<span class=question>{escape(questions.get(exercise.id, ''))}</span>",
             f"{one.answered} of {tally.returned}", str(one.short), str(one.marked), str(one.answered - one.marked),
             f"{one.marks / one.marked:.1f} of {one.most:g}" if one.marked else "")
            for exercise, one in _of_kind(tally, TextTally)]
    columns = (_EXERCISE, _QUESTION, *_numbers("answered", "too short", "marked", "not yet marked", "mean mark"))
    return _table("Open questions", columns, rows)


def _unclear(tally, unclear):
    rows = [(escape(exercise), f'<span class=line>{escape(line)}</span>')
            for lesson, exercise, _, line in unclear if lesson == tally.lesson.id]
    return _table("What students called unclear", (_EXERCISE, Column("line")), rows)
