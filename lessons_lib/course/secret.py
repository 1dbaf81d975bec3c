"""The secret of a course: read as people save it, and known again by a mark kept beside what it made."""
import re

from lessons_lib.course.cards import bench_card
from lessons_lib.course.tables import read_table
from lessons_lib.exercises.draws import keyed
from lessons_lib.exercises.sheet_file import write_whole

LEAST = 32      # characters
_PUT_BACK = "Put it back from your copy of the course folder: without it no code is right."
_ABOUT = "is the mark of the secret that these values were made with; it tells another secret, and nothing else of it."


def read_secret(folder):
    """Return the text in secret.txt of a course *folder*.

    Raises
    ------
    ValueError
        Where it is missing, empty, unreadable or not what `new-course` wrote; the message says what to do.
    """
    try:
        data = (folder / "secret.txt").read_bytes()
    except FileNotFoundError:
        data = b""
    except OSError as error:
        raise ValueError(f"secret.txt cannot be read ({error.strerror or error}). {_PUT_BACK}") from None
    # editors add a byte-order mark, or save two bytes for each letter
    text = data.decode("utf-16" if data[:2] in (b"\xff\xfe", b"\xfe\xff") else "utf-8-sig", "replace").strip()
    if not text:
        raise ValueError(f"secret.txt is missing or empty. {_PUT_BACK}")
    if len(text) < LEAST or not text.isascii():
        raise ValueError(f"secret.txt must hold the line that new-course wrote, {LEAST} letters and digits or more. "
                         f"{_PUT_BACK}")
    return text


def refuse_another(folder, secret):
    """Refuse a *secret* that is not the one that made what the course in *folder* gave out.

    A course that was given out without a mark is known by its cards, where they are still there.
    """
    if not any((folder / "given_out").glob("[0-9][0-9].json")):
        return
    kept = _kept_mark(folder)
    if kept and kept != _mark(secret) or not kept and _makes_other_cards(folder, secret):
        raise ValueError("secret.txt is not the one that made this course: all numbers and codes would be others. Put "
                         "the right one back from your copy of the course folder. Nothing was changed.")


def keep_mark(folder, secret):
    """Write the mark of a *secret* beside what it makes."""
    if _kept_mark(folder) != _mark(secret):
        write_whole(folder / "given_out" / "made_with.txt", f"{_mark(secret)} {_ABOUT}\n".encode())


def _mark(secret):
    return keyed(secret, "mark of the secret").hex()[:32]


def _kept_mark(folder):
    path = folder / "given_out" / "made_with.txt"
    found = re.match(rb"[0-9a-f]{32}\b", path.read_bytes()) if path.exists() else None
    return found and found[0].decode()


def _makes_other_cards(folder, secret):
    """Whether the cards of the folder are all others than the *secret* makes."""
    path = folder / "cards.csv"
    cards = [row.get("card", "") for row in read_table(path.read_bytes())] if path.exists() else []
    cards = [card for card in cards if re.fullmatch(r"b\d{3,4}-\w{6}", card)]
    return bool(cards) and not any(card == bench_card(secret, card.partition("-")[0]) for card in cards)
