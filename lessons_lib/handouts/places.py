"""Room for answers: what stands on paper where the page takes an answer or a prediction. No answer is known here."""
from html import escape

from lessons_lib.base.units import shown_unit
from lessons_lib.panels.cards import SURENESS

BOX = '<span class="box"></span>'
TICK = '<span class="square"></span>'


def lines(count):
    """Return lines to write on."""
    return f'<div class="lines">{"<div></div>" * count}</div>'


def ticks(options):
    """Return options by letter, each with a box to tick."""
    return "<ul>" + "".join(f'<li class="tick">({letter}) {escape(text)}</li>'
                            for letter, text in options.items()) + "</ul>"


def answer_place(exercise_id, record):
    """Return the room for the answer to an exercise of a sheet."""
    return f'<div class="place" data-exercise="{exercise_id}">{_PLACES[record["kind"]](exercise_id, record)}</div>'


def _boxed(exercise_id, unit):
    return f'<p class="answer">{escape(exercise_id)}: {BOX} {escape(shown_unit(unit)) or "(a plain number)"}</p>'


def _number(exercise_id, record):
    return f'<div class="working"><span>Working</span></div>{_boxed(exercise_id, record["unit"])}'


def _choice(exercise_id, record):
    return ""       # its options stand above, each with its own box


def _text(exercise_id, record):
    return lines(max(9, record["least_words"] // 6))      # words to a line of handwriting


def _function(exercise_id, record):
    return lines(4) + '<p class="page-only">Your function is tried on the page itself: type it in there.</p>'


def _entry(entry):
    number = f"{shown_unit(entry['unit'])}, {entry['low']:g} to {entry['high']:g}".replace("-", "−").lstrip(", ")
    asked = ", ".join(entry["options"]) if entry["options"] else number
    return (f'<tr><th scope="row">{escape(entry["label"])}</th><td>{escape(asked)}</td>'
            f"<td>{' '.join([BOX] * entry['count'])}</td></tr>")


def _entries(entries):
    return f"<table>{''.join(map(_entry, entries.values()))}</table>"


def _design(exercise_id, record):
    return _entries(record["entries"]) + '<p class="page-only">Your design is computed on the page itself.</p>'


def _measured(exercise_id, record):
    heads = "".join(f'<th scope="col">{escape(one["label"])} ({escape(shown_unit(one["unit"]))})</th>'
                    for one in record["columns"].values())
    rows = f"<tr>{'<td>&nbsp;</td>' * len(record['columns'])}</tr>" * 8
    return (f'<table class="readings"><thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table>'
            + (_entries(record["sizes"]) if record["sizes"] else "") + _boxed(exercise_id, record["unit"]))


_PLACES = {"number": _number, "choice": _choice, "text": _text, "function": _function, "design": _design,
           "measured": _measured}


def prediction_place(card):
    """Return a `PredictionCard` to fill in before the figures are looked at."""
    sure = " ".join(f"{TICK}&nbsp;{escape(words)}" for words in SURENESS)
    return ('<section class="prediction"><h3>Before you turn the page</h3>'
            f"<p><strong>{escape(card.question)}</strong></p>{ticks(card.options)}"
            f"<p>How sure? {sure}</p><p>Why, in a line:</p>{lines(1)}</section>")


def seen_place(card):
    """Return the question after the figures."""
    return (f'<section class="seen"><h3>What did you see?</h3><p><strong>{escape(card.seen_question)}</strong> '
            f"(On paper: read it off the figures.)</p>{ticks(card.seen_options)}</section>")
