"""Which bench works here: bench cards, and the work folder that remembers one."""
import re
from pathlib import Path

from lessons_lib.exercises.sheet_file import write_whole
from lessons_lib.exercises.verdicts import State, Verdict, sentence
from lessons_lib.exercises.work_folder import claim, is_in_file_list, work_folder

# no 0 and O, no 1 and I: a card is read off paper
ALPHABET = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ"
SELF_STUDY_BENCHES = tuple(f"b{number:03d}" for number in range(10))
_CARD = re.compile(rf"(b\d{{3,4}})(?:-([{ALPHABET}]{{6}}))?", re.ASCII)
_DASH = re.compile(r"\s*[-‐‑‒–—−]\s*")      # as letters on a screen and word processors make it
_REMEMBERED = "bench_card.txt"


def check_character(bench, code):
    """Return the character that ends a card: one wrong character or two swapped figures change it.

    Examples
    --------
    >>> check_character("b017", "7QK4M")
    '3'
    """
    places = [int(figure) for figure in bench[1:]] + [ALPHABET.index(character) for character in code]
    # odd weights have an inverse modulo 32, so every single wrong character shows
    return ALPHABET[sum((2 * place + 1) * value for place, value in enumerate(places)) % len(ALPHABET)]


def read_card(text):
    """Return (bench, code with its check character or an empty text) of a typed card; the form alone is checked.

    ValueError with a sentence for a student where it has none.
    """
    if not isinstance(text, str):
        raise ValueError('write the card in quotes, such as use_card("b003")')
    head, dash, tail = _DASH.sub("-", text.strip(), count=1).partition("-")
    match = _CARD.fullmatch(head.lower() + dash + tail.upper())
    if not match:
        raise ValueError("a card is a bench, a dash and six characters, never 0, O, 1 or I; "
                         "for self-study, type one of b000 to b009")
    bench, code = match[1], match[2] or ""
    if not code and bench not in SELF_STUDY_BENCHES:
        raise ValueError(f"bench {bench} needs its code: type the whole card, the bench, a dash and six characters")
    if code and check_character(bench, code[:5]) != code[5]:
        raise ValueError("one character is wrong, or two are swapped; compare it with the card again")
    return bench, code


def remembered_card():
    """Return (bench, code) of the remembered card, or None."""
    try:
        return read_card((work_folder() / _REMEMBERED).read_text(encoding="ascii"))
    except (OSError, ValueError):
        return None


def use_card(text):
    """Remember a typed bench card, "b017-..." or a self-study bench such as "b003", in the work folder.

    Three dots leave what is remembered as it is.
    """
    if text is ... or text == "...":
        if card := remembered_card():
            return Verdict(State.KEPT, f"You are working at bench {card[0]}, as before.")
        if Path("sheets").is_dir():     # a pack: there is no bench without a card
            return Verdict(State.NO_BENCH, "Type your card in place of the three dots, between the quotation marks.")
        return Verdict(State.OPEN, f"You are working at bench {SELF_STUDY_BENCHES[0]}, for self-study. With a card, "
                                   "type it in place of the three dots, between the quotation marks.")
    try:
        bench, code = read_card(text)
    except ValueError as error:
        return Verdict(State.UNREADABLE, sentence(str(error)))
    before = remembered_card()
    try:
        folder, card = work_folder(), f"{bench}-{code}" if code else bench
        claim(folder)
        write_whole(folder / _REMEMBERED, f"{card}\n".encode("ascii"))
    except ValueError as error:
        return Verdict(State.NO_BENCH, str(error))
    except OSError as error:
        return Verdict(State.NO_BENCH, f"The card could not be saved in the folder {folder} "
                                       f"({error.strerror or error}).")
    where = "" if is_in_file_list(folder) is not False else (
        f" Your work is kept in {folder}, which the file list does not show: what you hand in can be saved from its "
        "page.")
    if before and before[0] != bench:
        return Verdict(State.KEPT, f"You are now working at bench {bench}; the answers of {before[0]} are kept. "
                                   f"Run the cells with open_sheet again.{where}")
    return Verdict(State.KEPT, f"You are working at bench {bench}.{where}")
