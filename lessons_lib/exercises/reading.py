"""What a student typed, read as a number, a letter or a text.

Each reader returns it, or raises a ValueError with a sentence for a student.
"""
import math
import re
import unicodedata
from collections.abc import Mapping
from decimal import Decimal
from numbers import Integral, Real

from lessons_lib.base.units import read_unit, shown_unit, spellings_like
from lessons_lib.base.words import storable

LONGEST_TEXT = 8000  # characters
ONE_LINE = 300  # characters
# scripts without blanks between words, by blocks of the Unicode standard -> twelfths of a word a letter
_BLANKLESS = ((re.compile("[\u3005-\u3007\u3400-\u4dbf\u4e00-\u9fff\uf900-\ufaff\U00020000-\U0003ffff]"), 8),   # Han
              (re.compile("[\u3041-\u30ff\u31f0-\u31ff\uff66-\uff9f]"), 4),                                   # kana
              (re.compile("[\u0e00-\u0eff\u1000-\u109f\u1780-\u17ff]"), 3))          # Thai, Lao, Burmese, Khmer
_PLAIN = re.compile(r"[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d{1,4})?", re.ASCII)


def is_blank(value):
    """Return whether nothing was answered yet: ``...``, with or without quotes, None, no text, a dict that has such."""
    if isinstance(value, Mapping):
        return any(is_blank(one) for one in value.values() if not isinstance(one, Mapping))
    return value is ... or value is None or (isinstance(value, str) and value.strip() in ("", "...", "…"))


def read_number(value):
    """Return a number of Python or numpy, or a text such as "1.66", as a finite float."""
    if isinstance(value, str):
        value = _number_in_text(value)
    if isinstance(value, bool):
        raise ValueError("True and False are not numbers; write the number itself")
    if hasattr(value, "__len__"):
        raise ValueError("one number is needed, not a list; write the number without brackets")
    if not isinstance(value, Real):
        raise ValueError(f"a number is needed, and this is of type {type(value).__name__}")
    try:
        number = float(value)
    except OverflowError:
        number = math.inf
    if not math.isfinite(number):
        raise ValueError("the number is not finite; was something divided by zero?")
    return number


def _came(value):
    return f'the text "{shortened(value)}"' if isinstance(value, str) else f"of type {type(value).__name__}"


def _number_in_text(text):
    short = text.strip().replace("\u2212", "-")     # the minus of the pages
    if len(short) <= 40 and re.fullmatch(r"[+-]?\d+,\d+", short, re.ASCII):
        raise ValueError(f"the comma could mean two things; write {short.replace(',', '.')} with a point, without "
                         "quotes")
    if len(short) > 40 or not _PLAIN.fullmatch(short):
        raise ValueError(f"a number is needed, and this is {_came(text)}; "
                         "write the number without quotes, and after it the unit in quotes")
    return float(short)


def into(number, unit, asked):
    """Return *number*, written in *unit*, as a number in the *asked* unit.

    Parameters
    ----------
    number : float
    unit : str or None
        A spelling of the table; None or an empty text means the asked unit.
    asked : str
        A spelling of the table.

    Examples
    --------
    >>> into(1200.0, "G", "mT")
    120.0
    """
    if unit is None or (isinstance(unit, str) and unit.strip() in ("", asked)):
        return number
    target = read_unit(asked)
    try:
        given = read_unit(unit)
    except ValueError as error:
        how = "leave the unit out" if asked == "1" else f"write one of {', '.join(spellings_like(asked))}"
        raise ValueError(f"{error}; {how}") from None
    if given.dimension != target.dimension:
        raise ValueError(f"the unit {unit.strip()} measures {given.dimension}; {asked_words(asked)}")
    return number * (given.factor / target.factor)


def asked_words(asked):
    """Return what is asked, in words with the unit.

    Examples
    --------
    >>> asked_words("uWb")
    'the answer is a flux, in µWb'
    """
    dimension = read_unit(asked).dimension
    return f"the answer is {dimension}" + ("" if asked == "1" else f", in {shown_unit(asked)}")


def figures(number):
    """Return how many significant figures the float *number* is written with.

    Examples
    --------
    >>> figures(1200.0), figures(1.6603)
    (2, 5)
    """
    return len(Decimal(repr(float(number))).normalize().as_tuple().digits)


def read_letter(value, options):
    """Return *value* as one of the *options*' letters; capitals and brackets, as in "(B)", are read too."""
    letter = value.strip().lower().strip("() .") if isinstance(value, str) else None
    if letter not in options:
        raise ValueError(f"write one of the letters {', '.join(options)} in quotes; this is {_came(value)}")
    return letter


def read_line(value):
    """Return a text of one line with single blanks."""
    return " ".join(read_text(value, ONE_LINE).split())


def read_sureness(value):
    """Return how sure somebody is, 1 to 3."""
    if isinstance(value, bool) or not isinstance(value, Integral) or not 1 <= value <= 3:
        raise ValueError('say how sure you are: 1 for "guessing", 2 for "leaning this way", 3 for "would bet on it"')
    return int(value)


def read_text(value, longest=LONGEST_TEXT):
    """Return *value* as a text that can be stored and shown: broken characters become question marks."""
    if not isinstance(value, str):
        raise ValueError("a text in quotes is needed")
    if len(value) > longest:
        raise ValueError(f"the text has {len(value)} characters; at most {longest} are kept")
    return storable(value)


def shortened(text, longest=20):
    """Return the beginning of a *text* as it may be shown; nothing for what is no text."""
    if not isinstance(text, str):
        return ""
    clean = storable(text)
    return clean if len(clean) <= longest else f"{clean[:longest]}…"


def _counts(character):
    return character.isalnum() and not character.isdecimal()


def words(text):
    """Return how many words *text* has.

    Notes
    -----
    A word is a run of letters and figures; marks over and under letters belong to their letters. Some scripts put no
    blanks between words: there three ideographs count as two words, three kana as one, and four letters of Thai, Lao,
    Burmese and Khmer as one, as if they stood apart from everything beside them. By this rule the first article of the
    Universal Declaration of Human Rights, 30 words in English, has 25 to 35 in these languages (tests/test_words.py).

    Examples
    --------
    >>> words("The fluxes add up."), words("磁束は足し合わされる。")
    (4, 5)
    """
    text = "".join(one for one in text if not unicodedata.category(one).startswith("M"))
    twelfths = 0
    for block, share in _BLANKLESS:
        twelfths += share * sum(map(_counts, block.findall(text)))
        text = block.sub(lambda found: " " if _counts(found[0]) else found[0], text)
    return len(re.findall(r"\w[\w'’.-]*", text)) - (-twelfths // 12)
