"""Bench cards: the bench with its code, as a table and as a page to print and cut."""
from html import escape

from lessons_lib.course.pages import page_bytes
from lessons_lib.exercises.bench import ALPHABET, check_character
from lessons_lib.exercises.draws import keyed
from lessons_lib.exercises.sheet_file import write_whole


def bench_card(secret, bench):
    """Return the card of a bench: five characters of a keyed hash, and the check character.

    Examples
    --------
    >>> bench_card("a secret", "b017")
    'b017-JK4XAQ'
    """
    code = "".join(ALPHABET[byte % len(ALPHABET)] for byte in keyed(secret, "card", bench)[:5])
    return f"{bench}-{code}{check_character(bench, code)}"


def write_cards(course):
    """Write cards.csv and cards.html of the class and the spare benches into the course folder."""
    students = {**course.students, **{bench: "(spare)" for bench in course.spares}}
    cards = [(bench, bench_card(course.secret, bench), student) for bench, student in students.items()]
    course.write_table("cards.csv", ("bench", "card", "student"), cards)
    write_whole(course.folder / "cards.html", page_bytes(
        f"Bench cards: {course.settings.title}",
        "<p>Print, cut out, and give each student one. At marking, the code shows that the work is this bench's.</p>",
        f"<div class=cards>{''.join(_card(card, student) for _, card, student in cards)}</div>"))


def _card(card, student):
    return (f"<div class=card>{escape(student) or '&nbsp;'}<br><strong>{card}</strong><br>"
            f"Type this once, on the page 00_start_here:<br><code>use_card(\"{card}\")</code></div>")
