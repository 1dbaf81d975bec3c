"""Names for files that every system takes: Windows keeps some for itself, and many tell no capitals apart."""
import re
from unicodedata import normalize

# no names for files on Windows, whatever follows behind a point
_RESERVED = re.compile(r"(con|prn|aux|nul|(com|lpt)[\d¹²³])", re.IGNORECASE)
_MOST_BYTES = 200       # of the 255 that a name may have; what is put behind it comes to these


def bare_name(text):
    """Return *text* with nothing in it that a file's name may not have; it may be empty, or `is_reserved`.

    Examples
    --------
    >>> bare_name(" Li/../Чан: a? "), bare_name("...")
    ('Li_.._Чан_ a_', '')
    """
    bare = re.sub(r"[^\w.() -]", "_", normalize("NFC", " ".join(text.split())))
    return bare.encode("utf-8", "replace")[:_MOST_BYTES].decode("utf-8", "ignore").strip(" .")


def is_reserved(name):
    """Whether Windows keeps a name for itself.

    Examples
    --------
    >>> is_reserved("Con.html"), is_reserved("nul .a.b"), is_reserved("Connie")
    (True, True, False)
    """
    return bool(_RESERVED.fullmatch(name.partition(".")[0].strip()))


def as_compared(name):
    """Return a name as those systems compare it that tell neither capitals nor two spellings of an accent apart."""
    return normalize("NFC", normalize("NFC", name).casefold())
