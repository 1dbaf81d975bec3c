"""The counts of one lesson as sections of the class report."""
from html import escape

from lessons_lib.course.charts import count_bar, tries_bar
from lessons_lib.course.class_shares import LEAST_FOR_DISCRIMINATION, discrimination, share_text
from lessons_lib.course.tally import ExerciseTally, PredictionTally, TextTally, ranked

_MOST_SLIPS, _MOST_VALUES = 5, 6


def lesson_section(tally, questions, unclear):
    """Return the HTML of a `LessonTally`; *questions* is exercise id -> its question."""
    return (f"<section class=lesson><h2>Lesson {escape(tally.lesson.id)}, {escape(tally.lesson.title)}</h2>"
            f"<p>{tally.returned} returned.</p>"
            + _tries(tally, questions) + _slips(tally) + _unexplained(tally) + _predictions(tally)
            + _texts(tally, questions) + _unclear(tally, unclear) + "</section>")


def _of_kind(tally, kind):
    return [(exercise, one) for exercise in tally.lesson.exercises
            if isinstance(one := tally.exercises[exercise.id], kind)]


def _table(title, head, rows, says=""):
    """A table under a title; cells are HTML. Nothing where there are no rows."""
    if not rows:
        return ""
    top = "".join(f"<th scope=col{_class(name)}>{name}</th>" for name in head)
    lines = ("".join(f"<td{_class(name)}>{cell}</td>" for name, cell in zip(head, row)) for row in rows)
    body = "".join(f"<tr>{line}</tr>" for line in lines)
    return (f"<h3>{title}</h3>{f'<p class=key>{says}</p>' if says else ''}"
            f"<table><thead><tr>{top}</tr></thead><tbody>{body}</tbody></table>")


def _class(name):
    kinds = {"exercise": "id", "prediction": "id", "": "chart"}
    words = {"question", "slip, and its note", "values outside all slips", "predicted", "seen on the panel", "line"}
    return f" class={kinds.get(name, 'number')}" if name not in words else ""


def _tries(tally, questions):
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
    head = ["exercise", "question", "", "at first try", "in the end", "answered",
            *(["discrimination"] if with_d else [])]
    carried = [f"{exercise.id}: {one.carried}" for exercise, one in _of_kind(tally, ExerciseTally) if one.carried]
    return _table("Right at the first try, and in the end", head, rows,
                  "Dark: right at first. Light: right in the end. White: not right. The whisker is one standard error "
                  "of the share in the end."
                  + (f" Right from an own earlier value (method marks): {escape(', '.join(carried))}."
                     if carried else ""))


def _discrimination(tally, exercise_id):
    if exercise_id not in tally.scored:
        return ""
    found = discrimination(tally.firsts, tally.scored.index(exercise_id))
    return "" if found is None else f"{found:+.2f}".replace("-", "−")


def _slips(tally):
    rows = []
    for exercise, one in _of_kind(tally, ExerciseTally):
        if not getattr(exercise, "quick", False):
            rows += [_note_row(exercise, f"<strong>{escape(name)}</strong>: {escape(note)}", count, one,
                               one.notes.get((name, note)))
                     for (name, note), count in ranked(one.slips)[:_MOST_SLIPS]]
            rows += [_note_row(exercise, escape(note), count.read, one, count)
                     for note, count in sorted(one.notes.items(), key=str) if isinstance(note, str)]
    return _table("Slips, and whether their notes helped", (
        "exercise", "slip, and its note", "", "benches", "tried again", "right then"), rows,
        f"Benches that made a slip at any try, the {_MOST_SLIPS} most frequent of each exercise; then the general "
        "notes, with the times they were read. Right then: with the next different try.")


def _note_row(exercise, words, count, one, after):
    tried, right = (after.tried, after.right) if after else (0, 0)
    return (escape(exercise.id), words, count_bar(min(count, one.answered), one.answered), f"{count} of {one.answered}",
            str(tried), share_text(right, tried) if tried else "")


def _unexplained(tally):
    rows = [(escape(exercise.id), f"{one.unexplained_first} of {one.wrong_first}",
             escape(", ".join(f"{value} ({count})" for value, count in ranked(one.unexplained)[:_MOST_VALUES])))
            for exercise, one in _of_kind(tally, ExerciseTally) if one.unexplained]
    return _table("What no slip explains", ("exercise", "of wrong first tries", "values outside all slips"), rows,
                  "The wrong first tries that fit no slip; then the values, with the benches that gave one at any try.")


def _predictions(tally):
    rows = [(escape(exercise.id),
             f"<span class=question>{escape(exercise.question)}</span>{_predicted(exercise, one)}",
             f"<span class=question>{escape(exercise.seen_question)}</span>{_seen(exercise, one)}")
            for exercise, one in _of_kind(tally, PredictionTally) if one.predicted]
    return _table("Predicted, and seen", ("prediction", "predicted", "seen on the panel"), rows,
                  "The first prediction and the first look. In brackets how sure: benches that were guessing, were "
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
    return _table("Open questions", ("exercise", "question", "answered", "too short", "marked", "wait for marks",
                                     "mean mark"), rows)


def _unclear(tally, unclear):
    rows = [(escape(exercise), f'<span class=line>{escape(line)}</span>')
            for lesson, exercise, _, line in unclear if lesson == tally.lesson.id]
    return _table("What students called unclear", ("exercise", "line"), rows)
