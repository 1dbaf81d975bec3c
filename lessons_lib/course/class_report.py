"""The class report: what to teach again first, then the counts behind it. No names, no benches, no clock."""
from html import escape

from lessons_lib.course import teach_again
from lessons_lib.course.class_shares import LEAST_FOR_DISCRIMINATION, LEAST_FOR_SHARES
from lessons_lib.course.pages import page_bytes
from lessons_lib.course.questions import questions_of
from lessons_lib.course.report_tables import lesson_section

_MOST_POINTS, _MOST_EARLIER = 5, (2, 1)     # of the lesson before, and of those before it
_STYLE = """<style>
body { max-width: 62em; line-height: 1.4; margin: 1em auto; }
h1 { margin: 0 0 0.2em; font-size: 1.5em; } h2 { border-bottom: 2px solid #333; margin: 1.2em 0 0.3em; }
h3 { margin: 1em 0 0.1em; } h3 + p { margin: 0.1em 0 0.3em; } .again > h2 { margin-top: 0.6em; }
.again li { margin: 0.3em 0; }
.again h3 { margin: 0.6em 0 0; } .again p { margin: 0.4em 0; } .again ol, .again ul { margin: 0.3em 0; }
.question { color: #444; } .warn { border-left: 4px solid #000; padding: 0.3em 0.8em; margin: 0.6em 0; }
table { margin: 0.4em 0; width: 100%; font-size: 0.92em; } th, td { border: 0; border-bottom: 1px solid #bbb;
padding: 0.2em 0.5em; } th { border-bottom: 1px solid #333; }
td.number, th.number { text-align: right; white-space: nowrap; }
td.id { font-weight: bold; white-space: nowrap; }
td.chart { width: 114px; } td.id { width: 1%; } .bar { display: block; }
.line { overflow-wrap: anywhere; } .key { font-size: 0.9em; }
@media print { body { font-size: 9pt; line-height: 1.3; } tr, li { break-inside: avoid; } h2, h3 { break-after: avoid; }
section { break-inside: auto; } }
</style>"""


def report_page(course, tallies, unclear):
    """Return the page as bytes.

    Parameters
    ----------
    course : Course
    tallies : dict
        Lesson id -> `LessonTally`.
    unclear : list
        (lesson, exercise, bench, line) of what students called unclear; the bench is not shown.
    """
    returned = {lesson_id: tally for lesson_id, tally in tallies.items() if tally.returned}
    questions = {lesson_id: questions_of(course, tally.lesson) for lesson_id, tally in returned.items()}
    benches = len(course.students)
    counts = ", ".join(f"{lesson_id}: {tally.returned}" for lesson_id, tally in tallies.items())
    return page_bytes(
        f"Class report: {course.settings.title}", _STYLE,
        f"<p>Benches: {benches}. Returned, lesson by lesson: {counts}. {_small_class(returned)}</p>",
        _again(returned, questions, unclear, benches),
        *(lesson_section(tally, questions[lesson_id], unclear)
          for lesson_id, tally in sorted(returned.items(), reverse=True)),
        _how_to_read())


def _small_class(returned):
    small = [lesson_id for lesson_id, tally in returned.items() if tally.returned < LEAST_FOR_SHARES]
    if not small:
        return ""
    return (f"</p><p class=warn><strong>Fewer than {LEAST_FOR_SHARES} benches returned lesson {', '.join(small)}."
            "</strong> Such small numbers cannot show what a class has understood: shares are left out, and no rule is "
            "applied. A count may point to one person: do not pass this page on.")


def _again(returned, questions, unclear, benches):
    newest = _newest(returned, benches)
    if newest is None:
        return "<section class=again><h2>What to teach again</h2><p>Nothing has been returned yet.</p></section>"
    parts = [f"<h3>Lesson {newest}, {escape(returned[newest].lesson.title)}</h3>",
             _points(returned[newest], questions[newest], unclear, _MOST_POINTS)]
    earlier = [lesson_id for lesson_id in sorted(returned, reverse=True)
               if lesson_id != newest and returned[lesson_id].returned >= LEAST_FOR_SHARES]
    for place, lesson_id in enumerate(earlier):
        if teach_again.points(returned[lesson_id], unclear):
            parts += [f"<h3>Still open from lesson {lesson_id}, {escape(returned[lesson_id].lesson.title)}</h3>",
                      _points(returned[lesson_id], questions[lesson_id], unclear, _MOST_EARLIER[min(place, 1)])]
    return f"<section class=again><h2>What to teach again</h2>{''.join(parts)}</section>"


def _newest(returned, benches):
    """The last lesson that at least a third of the class returned, else the one that most returned."""
    many = [lesson_id for lesson_id, tally in returned.items() if 3 * tally.returned >= benches]
    return max(many) if many else max(returned, key=lambda lesson_id: returned[lesson_id].returned, default=None)


def _points(tally, questions, unclear, most):
    if tally.returned < LEAST_FOR_SHARES:
        return (f"<p>{tally.returned} returned it: too few for any advice. The counts below, and a talk with each "
                "student, say more than a share would.</p>")
    points = [(one.about, " ".join(one.says)) for one in teach_again.points(tally, unclear)]
    rest = ", ".join(exercise_id for exercise_id, _ in points[most:])
    more = f"<p>After these: {escape(rest)}.</p>" if rest else ""
    if most != _MOST_POINTS:
        return _list("ol", points[:most], questions)
    forgotten = teach_again.forgotten(tally)
    return "".join((
        _list("ol", points[:most], questions) or "<p>Nothing stands out.</p>", more,
        f"<p>Start again with these quick questions:</p>{_list('ul', forgotten, questions)}" if forgotten else "",
        _asides(tally)))


def _list(kind, points, questions):
    lines = "".join(f"<li><strong>{escape(exercise_id)}</strong> "
                    f"<span class=question>{escape(questions.get(exercise_id, ''))}</span><br>"
                    f"{escape(says)}</li>" for exercise_id, says in points)
    return f"<{kind}>{lines}</{kind}>" if lines else ""


def _asides(tally):
    easy, unexplained = teach_again.easy(tally), teach_again.unexplained(tally)
    return "".join((
        f"<p>Move quickly past: {escape(', '.join(easy))}.</p>" if easy else "",
        *(f"<p>Look at exercise {escape(exercise_id)} itself: {k} of {n} wrong first answers fit no slip.</p>"
          for exercise_id, k, n in unexplained)))


def _how_to_read():
    items = "".join(f"<li>{escape(rule.replace('%', ' %'))}</li>" for rule in teach_again.RULES)
    return (f"<section><h2>How to read this page</h2>"
            "<p>A bench counts once for each exercise, with its different tries up to the first right one. The "
            "number after ± is one standard error, the square root of p(1 − p)/n with p = (right + 1)/(n + 2): in a "
            "class of 20 with half of them right it is 11 %, so differences below 20 % mean little. Work copied from a "
            "neighbour does not show here, nor do lucky guesses.</p>"
            "<p>A note counts as a help where the next different try was right; a student who gave up after it did not "
            "try again. Discrimination is the share right at first in the upper 27 % of the class minus that in the "
            "lower 27 %, ranked by the other exercises of the lesson; 0.3 and above is good, below 0 means that "
            "something is wrong with the exercise. It is shown from "
            f"{LEAST_FOR_DISCRIMINATION} returns on; with fewer it would be chance.</p>"
            f"<p>The rules for what to teach again:</p><ul class=key>{items}</ul></section>")
