"""The class report: what to teach again first, then the counts behind it. No names, no benches, no clock."""
import json
import re
import unicodedata
from typing import NamedTuple

from lessons_lib.base.pages import page_bytes
from lessons_lib.course import teach_again
from lessons_lib.course.gain import before_and_after
from lessons_lib.course.read_page import Question, read_page
from lessons_lib.course.tally import ExerciseTally, PredictionTally, TextTally, by_frequency
from lessons_lib.course.teach_again import (
    LEAST_FOR_DISCRIMINATION,
    LEAST_FOR_SHARES,
    discrimination,
    share_text,
    standard_error,
)

_MOST_POINTS, _MOST_EARLIER = 5, (2, 1)     # of the lesson before, and of those before it
_MOST_SLIPS, _MOST_VALUES = 5, 6
_LONGEST_QUESTION, _FEW_WORDS = 140, 3
_BELOW = str.maketrans("0123456789", "₀₁₂₃₄₅₆₇₈₉")
_ASKING = ("Write ", "Put ", "Choose ", "Estimate ", "Set ", "Order ")
_SENTENCE_ENDS = re.compile(r"(?<=[.?!:])\s+(?=[A-Z(*$])")


def report_page(course, tallies, unclear, begun=None):
    """Return the page as bytes.

    Parameters
    ----------
    course : Course
    tallies : dict
        Lesson id -> `LessonTally`.
    unclear : list
        (lesson, exercise, bench, line) of what students called unclear; the bench is not shown.
    begun : dict, optional
        Lesson id -> time at which work of it was first marked: says which lessons came after an examination.
    """
    tests = before_and_after(tallies)
    counts = [(lesson_id, tally.returned) for lesson_id, tally in tallies.items()]
    returned = {lesson_id: tally for lesson_id, tally in tallies.items() if tally.returned and not tally.lesson.test}
    questions = {lesson_id: questions_of(course, tally.lesson) for lesson_id, tally in returned.items()}
    benches = len(course.students)
    newest = _newest(returned, benches, begun or {})
    again = {lesson_id: _points(tally, questions[lesson_id], unclear) for lesson_id, tally in returned.items()}
    earlier = [lesson_id for lesson_id in sorted(again, reverse=True)
               if lesson_id != newest and returned[lesson_id].returned >= LEAST_FOR_SHARES]
    return page_bytes(
        "course/templates/class_report.html", course=course.settings.title, benches=benches,
        returned=counts, tests=tests,
        small=[lesson_id for lesson_id, tally in returned.items() if tally.returned < LEAST_FOR_SHARES],
        newest=newest and _newest_points(returned[newest], questions[newest], again[newest]),
        earlier=[{"lesson": returned[lesson_id].lesson, "points": again[lesson_id][:_MOST_EARLIER[min(place, 1)]]}
                 for place, lesson_id in enumerate(earlier) if again[lesson_id]],
        lessons=[lesson_tables(tally, questions[lesson_id], unclear)
                 for lesson_id, tally in sorted(returned.items(), reverse=True)],
        rules=teach_again.TEACHING_RULES,
        least_for_shares=LEAST_FOR_SHARES, least_for_discrimination=LEAST_FOR_DISCRIMINATION)


def _newest(returned, benches, begun):
    """The last lesson that a third returned, else the one that most did; an examination only if none began later."""
    many = [lesson_id for lesson_id, tally in returned.items() if 3 * tally.returned >= benches]
    if not many:
        return max(returned, key=lambda one: returned[one].returned, default=None)
    last = max((one for one in many if not returned[one].lesson.silent), default=None)
    later = [one for one in many if last is None or begun.get(one, "") >= begun.get(last, "")]
    return max(later)


def _newest_points(tally, questions, points):
    return {"lesson": tally.lesson, "returned": tally.returned, "too_few": tally.returned < LEAST_FOR_SHARES,
            "points": points[:_MOST_POINTS], "rest": [called for called, _, _ in points[_MOST_POINTS:]],
            "forgotten": _with_questions(tally, teach_again.forgotten(tally), questions),
            "steps": _with_questions(tally, teach_again.steps_not_followed(tally), questions),
            "easy": teach_again.easy(tally), "unexplained": teach_again.unexplained(tally)}


def _points(tally, questions, unclear):
    points = teach_again.teaching_points(tally, unclear)
    return _with_questions(tally, [(one.about, " ".join(one.says)) for one in points], questions)


def _with_questions(tally, points, questions):
    """(exercise with its word, its question, a sentence)."""
    return [(tally.lesson[exercise_id].called, questions.get(exercise_id, ""), says) for exercise_id, says in points]


class ReportBar(NamedTuple):
    """*words* for a bar, its *pieces* as (shade, start, length), *whisker* its ends or None; the whole length is 1."""

    words: str
    pieces: tuple
    whisker: tuple | None = None


def tries_bar(first, right, n, is_silent=False):
    """Return the `ReportBar` of *n* benches: dark for right at first, lighter for right in the end, white for others.

    A whisker shows one standard error of the share in the end, where there are enough benches for a share.
    *is_silent*: there was one try, so that both are the same.
    """
    whisker = None
    if n >= LEAST_FOR_SHARES:
        reach = standard_error(right, n)
        whisker = tuple(max(0.0, min(1.0, end)) for end in (right / n - reach, right / n + reach))
    words = f"{right} right of {n}" if is_silent else f"{first} right at first, {right} in the end, of {n}"
    return ReportBar(words, (("dark", 0, first / n), ("light", first / n, (right - first) / n)), whisker)


def lesson_tables(tally, questions, unclear):
    """Return the rows of a `LessonTally`'s tables by their names; *questions* is exercise id -> its question."""
    tries = _of_kind(tally, ExerciseTally)
    return {
        "lesson": tally.lesson, "returned": tally.returned, "most_slips": _MOST_SLIPS,
        "with_discrimination": tally.returned >= LEAST_FOR_DISCRIMINATION,
        "tries": [_tries_row(tally, questions, exercise, one) for exercise, one in tries],
        "carried": [f"{exercise.id}: {one.carried}" for exercise, one in tries if one.carried],
        "slips": [row for exercise, one in tries if not exercise.quick
                  for row in _slips(exercise.id, one)],
        "unexplained": [(exercise.id, f"{one.unexplained_first} of {one.wrong_first}", ", ".join(
            f"{value} ({count})" for value, count in by_frequency(one.unexplained)[:_MOST_VALUES]))
            for exercise, one in tries if one.unexplained],
        "predictions": [_prediction(exercise, one) for exercise, one in _of_kind(tally, PredictionTally)
                        if one.predicted],
        "texts": [(exercise.called, questions.get(exercise.id, ""), one)
                  for exercise, one in _of_kind(tally, TextTally)],
        "unclear": [(exercise, line) for lesson, exercise, _, line in unclear if lesson == tally.lesson.id]}


def _of_kind(tally, kind):
    return [(exercise, one) for exercise in tally.lesson.exercises
            if isinstance(one := tally.exercises[exercise.id], kind)]


def _tries_row(tally, questions, exercise, one):
    """How an exercise was answered; without an answer there is no bar and no share."""
    n, scored = one.answered, tally.scored
    found = discrimination(tally.firsts, scored.index(exercise.id)) if exercise.id in scored else None
    return {"called": exercise.called, "question": questions.get(exercise.id, ""), "answered": n,
            "bar": tries_bar(one.first, one.right, n, tally.lesson.silent) if n else None,
            "first": share_text(one.first, n) if n else "", "right": share_text(one.right, n) if n else "",
            "discrimination": "" if found is None else f"{found:+.2f}".replace("-", "−")}


def _slips(exercise_id, one):
    """The most frequent slips of an exercise, then the general notes that were read."""
    counted = [(name, note, count, one.notes.get((name, note)))
               for (name, note), count in by_frequency(one.slips)[:_MOST_SLIPS]]
    counted += [(None, note, count.read, count)
                for note, count in sorted(one.notes.items(), key=str) if isinstance(note, str)]
    for slip, note, count, after in counted:
        n, shown, tried = one.answered, min(count, one.answered), after.tried if after else 0
        yield {"exercise_id": exercise_id, "slip": slip, "note": note, "count": count, "answered": n, "tried": tried,
               "bar": ReportBar(f"{shown} of {n}", (("dark", 0, shown / n if n else 0),)),
               "right": share_text(after.right, tried) if tried else ""}


def _prediction(exercise, one):
    looked = one.saw.total()
    return {
        "called": exercise.called, "question": exercise.question, "seen_question": exercise.seen_question,
        "predicted": [{"count": one.predicted[letter], "letter": letter, "text": text,
                       "sure": ", ".join(str(one.sure[letter, sure]) for sure in (1, 2, 3))}
                      for letter, text in exercise.options.items() if one.predicted[letter]],
        "seen": [{"count": one.saw[letter], "letter": letter, "text": text, "shown": letter == exercise.seen}
                 for letter, text in exercise.seen_options.items() if one.saw[letter] or letter == exercise.seen],
        "as_shown": share_text(one.saw[exercise.seen], looked) if looked else ""}


def questions_of(course, lesson):
    """Return exercise id -> its question, shortened; what the page does not name is left out."""
    try:
        page = sorted(course.settings.notebooks.glob(f"{lesson.id}_*.ipynb"))[0]
        cells = read_page(json.loads(page.read_bytes()))
    except (IndexError, OSError, ValueError, KeyError, TypeError, AttributeError):
        cells = ()      # the report goes without its questions
    texts = {cell.exercise_id: cell.text for cell in reversed(cells) if isinstance(cell, Question)}   # the first counts
    found = {}
    for exercise in lesson.exercises:
        question = _question(texts.get(exercise.id, "")) if exercise.is_scored else exercise.question
        plain = _plain(question)
        if len(plain) > _LONGEST_QUESTION:
            plain = f"{plain[:_LONGEST_QUESTION].rsplit(' ', 1)[0]} …"
        if question:
            found[exercise.id] = plain
    return found


def _plain(text):
    """A question without the marks of Markdown and TeX; a star between blanks, or alone in code, means times."""
    text = re.sub(r"\$([^$]+)\$", lambda found: _plain_formula(found[1]), text.replace("`*`", "×"))
    return re.sub(r"(?<!\s)\*|\*(?!\s)|[`$]", "", text).strip()


def _plain_formula(tex):
    """A short formula as letters: Greek ones by their names, figures below the line."""
    tex = tex.replace(r"\cdot", "·").replace(r"\,", " ")
    for command in set(re.findall(r"\\([A-Za-z]+)", tex)):
        try:
            letter = unicodedata.lookup(f"GREEK {'SMALL' if command.islower() else 'CAPITAL'} LETTER {command}")
        except KeyError:
            continue
        tex = re.sub(rf"\\{command}(?![A-Za-z])", letter, tex)
    return re.sub(r"_\{?(\d)\}?", lambda found: found[1].translate(_BELOW), tex)


def _question(text):
    """Of its first paragraph the last sentence that asks, with the one before where it needs that; else the first."""
    paragraph = re.split(r"\n- \(a\)|\n\n", text.strip(), maxsplit=1)[0]
    sentences = _SENTENCE_ENDS.split(" ".join(paragraph.split()))
    asking = [place for place, sentence in enumerate(sentences)
              if sentence.endswith(("?", "...")) or sentence.startswith(_ASKING)]
    if not asking:
        return sentences[0]
    last = asking[-1]
    # left open or as short as "Which?", it needs what comes before it
    needs_more = sentences[last].endswith("...") or len(sentences[last].split()) <= _FEW_WORDS
    begin = max(0, last - 1) if needs_more else last
    return " ".join(sentences[begin:last + 1])
