"""The counts of one lesson as sections of the class report."""
from html import escape

from lessons_lib.course.charts import count_bar, tries_bar
from lessons_lib.course.class_shares import LEAST_FOR_DISCRIMINATION, discrimination, share_text
from lessons_lib.course.tally import ExerciseTally, PredictionTally, TextTally

_MOST_SLIPS, _MOST_VALUES = 5, 6


def lesson_section(tally, questions, unclear):
    """Return the HTML of a `LessonTally`; *questions* is exercise id -> its question."""
    return (f"<section class=lesson><h2>Lesson {escape(tally.lesson.id)}, {escape(tally.lesson.title)}</h2>"
            f"<p>{tally.returned} returned.</p>"
            + "".join(part(tally, questions, unclear) for part in (
                _tries, _slips, _unexplained, _notes, _predictions, _texts, _unclear)) + "</section>")


def _of_kind(tally, kind):
    return [(exercise, one) for exercise in tally.lesson.exercises
            if isinstance(one := tally.exercises[exercise.id], kind)]


def _table(title, head, rows, says=""):
    """A table under a title; cells are HTML. Nothing where there are no rows."""
    if not rows:
        return ""
    top = "".join(f"<th scope=col{_class(name)}>{name}</th>" for name in head)
    body = "".join(f"<tr>{''.join(f'<td{_class(name)}>{cell}</td>' for name, cell in zip(head, row))}</tr>" for row in rows)
    return (f"<h3>{title}</h3>{f'<p class=key>{says}</p>' if says else ''}"
            f"<table><thead><tr>{top}</tr></thead><tbody>{body}</tbody></table>")


def _class(name):
    kinds = {"exercise": "id", "prediction": "id", "": "chart"}
    words = {"question", "slip, and its note", "note", "values outside all slips", "predicted", "how sure",
             "seen on the panel", "line", "slip"}
    return f" class={kinds.get(name, 'number')}" if name not in words else ""


def _tries(tally, questions, unclear):
    with_d = tally.returned >= LEAST_FOR_DISCRIMINATION
    rows = []
    for exercise, one in _of_kind(tally, ExerciseTally):
        n = one.answered
        row = [escape(exercise.id), f"<span class=question>{escape(questions.get(exercise.id, ''))}</span>",
               tries_bar(one.first, one.right, n) if n else "", share_text(one.first, n) if n else "",
               share_text(one.right, n) if n else "", f"{n} of {tally.returned}"]
        if with_d:
            row.append(_discrimination(tally, exercise.id))
        rows.append(row)
    head = ["exercise", "question", "", "at first try", "in the end", "answered", *(["discrimination"] if with_d else [])]
    carried = [f"{exercise.id}: {one.carried}" for exercise, one in _of_kind(tally, ExerciseTally) if one.carried]
    return _table("Right at the first try, and in the end", head, rows,
                  "Dark: right at first. Light: right in the end. White: not right. The whisker is one standard error of the "
                  "share in the end."
                  + (f" Right from an own earlier value (method marks): {escape(', '.join(carried))}." if carried else ""))


def _discrimination(tally, id):
    if id not in tally.scored:
        return ""
    found = discrimination(tally.firsts, tally.scored.index(id))
    return "" if found is None else f"{found:+.2f}".replace("-", "−")


def _slips(tally, questions, unclear):
    rows = [(escape(exercise.id), f"<strong>{escape(name)}</strong>: {escape(note)}", count_bar(count, one.answered),
             f"{count} of {one.answered}")
            for exercise, one in _of_kind(tally, ExerciseTally) if not getattr(exercise, "quick", False)
            for (name, note), count in one.slips.most_common(_MOST_SLIPS)]
    return _table("Slips", ("exercise", "slip, and its note", "", "benches"), rows,
                  f"Benches that made a slip at any try; the {_MOST_SLIPS} most frequent of each exercise.")


def _unexplained(tally, questions, unclear):
    rows = [(escape(exercise.id), f"{one.unexplained_first} of {one.wrong_first}",
             escape(", ".join(f"{value} ({count})" for value, count in one.unexplained.most_common(_MOST_VALUES))))
            for exercise, one in _of_kind(tally, ExerciseTally) if one.unexplained]
    return _table("What no slip explains", ("exercise", "of the wrong first tries", "values outside all slips"), rows,
                  "In brackets the benches that gave such a value at any try.")


def _notes(tally, questions, unclear):
    rows = [(escape(exercise.id), escape(note), str(count.read), str(count.tried),
             share_text(count.right, count.tried) if count.tried else "")
            for exercise, one in _of_kind(tally, ExerciseTally) if not getattr(exercise, "quick", False)
            for note, count in sorted(one.notes.items(), key=lambda pair: -pair[1].read) if count.read > 1]
    return _table("Which notes helped", ("exercise", "note", "read", "tried again", "right then"), rows,
                  "Notes that were read more than once.")


def _predictions(tally, questions, unclear):
    rows = []
    for exercise, one in _of_kind(tally, PredictionTally):
        predicted, saw = one.predicted.total(), one.saw.total()
        if predicted:
            rows.append((
                f'{escape(exercise.id)}', f"<span class=question>{escape(exercise.question)}</span>"
                + _letters(exercise.options, one.predicted), _sureness(one, exercise.options),
                f"<span class=question>{escape(exercise.seen_question)}</span>"
                + _letters(exercise.seen_options, one.saw, exercise.seen)
                + (f"<br>as the panel shows: {share_text(one.saw[exercise.seen], saw)}" if saw else "")))
    return _table("Predicted, and seen", ("prediction", "predicted", "how sure", "seen on the panel"), rows,
                  "The first prediction and the first look. How sure: benches that said 1 (guess), 2, 3 (sure). "
                  "Predictions are never scored.")


def _letters(options, counts, shown=None):
    return "".join(f"<br>{count_of}× ({letter}) {escape(options[letter])}{' ← the panel' if letter == shown else ''}"
                   for letter in options if (count_of := counts[letter]) or letter == shown)


def _sureness(one, options):
    return "&nbsp;<br>" + "<br>".join(f"({letter}) {' / '.join(str(one.sure[letter, sure]) for sure in (1, 2, 3))}"
                                     for letter in options if one.predicted[letter])


def _texts(tally, questions, unclear):
    rows = [(escape(exercise.id), f"<span class=question>{escape(questions.get(exercise.id, ''))}</span>",
             f"{one.answered} of {tally.returned}", str(one.short), str(one.marked), str(one.answered - one.marked),
             f"{one.marks / one.marked:.1f} of {one.most:g}" if one.marked else "")
            for exercise, one in _of_kind(tally, TextTally)]
    return _table("Open questions", ("exercise", "question", "answered", "too short", "marked", "wait for marks",
                                     "mean mark"), rows)


def _unclear(tally, questions, unclear):
    rows = [(escape(exercise), f'<span class=line>{escape(line)}</span>')
            for lesson, exercise, _, line in unclear if lesson == tally.lesson.id]
    return _table("What students called unclear", ("exercise", "line"), rows)
