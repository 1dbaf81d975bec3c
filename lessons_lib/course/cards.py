"""Bench cards: the bench with its code, as a table and as a page to print and cut."""
from lessons_lib.base.pages import page_bytes
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
        "course/templates/cards.html", course=course.settings.title,
        cards=[(card, student) for _, card, student in cards]))
