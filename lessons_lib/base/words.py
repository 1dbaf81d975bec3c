"""Words that follow a number, words for what somebody may have meant, and a text as it can be stored."""
import re
from difflib import get_close_matches


def plural(count, one, several):
    """Return the words for so many things: *one* where *count* is 1, else *several*.

    Examples
    --------
    >>> plural(1, "row stands", "rows stand"), plural(2, "row stands", "rows stand")
    ('row stands', 'rows stand')
    """
    return one if count == 1 else several


def did_you_mean(word, known):
    """Return a question to add to a refusal, or an empty text where none of the *known* words is near.

    Examples
    --------
    >>> did_you_mean("B17", ["b016", "b017", "b117"]), did_you_mean("1", ["01", "10"]), did_you_mean("Anna", ["b010"])
    (' Did you mean b017?', ' Did you mean 01?', '')
    """
    known, number = list(known), re.fullmatch(r"b?\s*(\d+)", word.strip().lower(), re.ASCII)
    spelled = [f"b{int(number[1]):03d}", f"{int(number[1]):02d}"] if number else [word.strip().lower()]
    near = [one for one in spelled if one in known] or get_close_matches(word, known, n=1)
    return f" Did you mean {near[0]}?" if near else ""


def storable(text):
    """Return *text* without blanks at its ends, broken characters as question marks."""
    return text.encode("utf-8", "replace").decode().strip()
