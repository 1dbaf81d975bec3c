"""Pages for the instructor and for print: plain HTML, readable without a network; every text is escaped."""
import re
from html import escape

_STYLE = """
body { font-family: sans-serif; line-height: 1.5; max-width: 50em; margin: 2em auto; padding: 0 1em; }
table { border-collapse: collapse; margin: 1em 0; }
th, td { border: 1px solid #666; padding: 0.3em 0.6em; text-align: left; vertical-align: top; }
.answer { white-space: pre-wrap; overflow-wrap: anywhere; }
.cards { display: grid; grid-template-columns: 1fr 1fr; gap: 0; }
.card { border: 1px dashed #666; padding: 1em; break-inside: avoid; }
.card code { white-space: nowrap; }
.card strong { font: bold 1.6em monospace; }
@media print { section { break-inside: avoid; } body { margin: 0; max-width: none; } }
"""


def page_bytes(title, *parts):
    """Return a whole page of HTML *parts*, as bytes."""
    return "\n".join((
        "<!DOCTYPE html>", '<html lang="en"><head><meta charset="utf-8">', f"<title>{escape(title)}</title>",
        f"<style>{_STYLE}</style></head><body>", f"<h1>{escape(title)}</h1>", *parts, "</body></html>\n",
    )).encode("utf-8", "replace")


def table(head, rows):
    """Return a table of HTML; cells are plain texts."""
    lines = ["".join(f"<td class=answer>{escape(cell)}</td>" for cell in row) for row in rows]
    top = "".join(f"<th scope=col>{escape(cell)}</th>" for cell in head)
    return f"<table><thead><tr>{top}</tr></thead><tbody>{''.join(f'<tr>{line}</tr>' for line in lines)}</tbody></table>"


def prose(text):
    """Return a text of the model answers as HTML: paragraphs at empty lines, ``**bold**``, everything else as it is."""
    bold = re.sub(r"\*\*(.+?)\*\*", r"<strong>\1</strong>", escape(text.strip()), flags=re.DOTALL)
    return "".join(f"<p>{one}</p>" for one in re.split(r"\n\s*\n", bold) if one)
