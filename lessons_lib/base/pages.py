"""Pages are written from templates: the HTML files in the folders ``templates``, named by their path in the library."""
import re
from functools import cache
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined, TemplateError

LIBRARY = Path(__file__).resolve().parents[1]


@cache
def environment():
    """Return what fills the templates: every value is escaped, and one that is missing is an error."""
    made = Environment(loader=FileSystemLoader(LIBRARY), autoescape=True, undefined=StrictUndefined,
                       trim_blocks=True, lstrip_blocks=True)
    made.filters.update(paragraphs=paragraphs, emphasis=emphasis, css_text=css_text,
                        kind=lambda record: type(record).__name__)
    return made


def page_bytes(template, **values):
    """Return a whole page as bytes.

    Raises
    ------
    ValueError
        Where somebody changed a template so that it cannot be used; the message is one sentence.

    Examples
    --------
    >>> page = page_bytes("course/templates/notes.html", course="Pickups & magnets", bench="b017", lessons=[])
    >>> b"<h1>Bench b017: Pickups &amp; magnets</h1>" in page
    True
    """
    try:
        return environment().get_template(template).render(values).encode("utf-8", "replace")
    except TemplateError as error:
        where = f"{error.name}, line {error.lineno}" if hasattr(error, "lineno") else template
        raise ValueError(f"A template cannot be used: {where}: {error.message}.") from error


def piece(template, name, *values):
    """Return a piece of a page: what the template's macro *name* makes of *values*, safe to stand in another page."""
    return getattr(environment().get_template(template).module, name)(*values)


def table(head, rows):
    """Return a table of plain texts as HTML, for a widget."""
    return str(piece("base/templates/parts.html", "table", head, rows))


def paragraphs(text):
    """Return the paragraphs of a text of the model answers, each as (words, whether they stand in ``**bold**``).

    Examples
    --------
    >>> paragraphs("Look at **both** ends.")
    [[('Look at ', False), ('both', True), (' ends.', False)]]
    """
    return [[(words, bool(place % 2)) for place, words in enumerate(re.split(r"\*\*(.+?)\*\*", one, flags=re.DOTALL))
             if words] for one in re.split(r"\n\s*\n", text.strip()) if one]


def emphasis(text):
    """Return a line of text as (words, whether they are in ``*emphasis*``).

    Examples
    --------
    >>> emphasis("The *mean* of 2 * 3 and 4 * 5.")
    [('The ', False), ('mean', True), (' of 2 * 3 and 4 * 5.', False)]
    """
    return [(words, bool(place % 2)) for place, words in enumerate(re.split(r"\*(?=\S)([^*\n]+)(?<=\S)\*", text))
            if words]


def css_text(text):
    r"""Return a text as it may stand between quotes in a stylesheet, whatever is in it.

    Examples
    --------
    >>> css_text('Ohm & "co"')
    'Ohm \\26  \\22 co\\22 '
    """
    return re.sub(r"[^\w ·,.]", lambda found: rf"\{ord(found[0]):x} ", text)
