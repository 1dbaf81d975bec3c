"""Room for answers: what stands on paper where the page takes an answer. No answer is known here."""
from lessons_lib.exercises.paper import Box, Entries, Entry, Lines, PageOnly, Readings, Working
from lessons_lib.exercises.units import shown_unit


def answer_place(exercise_id, record):
    """Return the room for the answer to an exercise of a sheet, as blocks of `lessons_lib.exercises.paper`."""
    return _PLACES[record["kind"]](exercise_id, record)


def _box(exercise_id, record):
    return Box(exercise_id, shown_unit(record["unit"]))


def _entries(entries):
    return Entries(tuple(Entry(one["label"], _asked(one), one["count"]) for one in entries.values()))


def _asked(entry):
    if entry["options"]:
        return ", ".join(entry["options"])
    return f"{shown_unit(entry['unit'])}, {entry['low']:g} to {entry['high']:g}".replace("-", "−").lstrip(", ")


def _number(exercise_id, record):
    return Working(), _box(exercise_id, record)


def _choice(exercise_id, record):
    return ()       # its options stand above, each with its own box


def _text(exercise_id, record):
    return (Lines(max(9, record["least_words"] // 6)),)      # words to a line of handwriting


def _function(exercise_id, record):
    return Lines(4), PageOnly("Your function is tried on the page itself: type it in there.")


def _design(exercise_id, record):
    return _entries(record["entries"]), PageOnly("Your design is computed on the page itself.")


def _measured(exercise_id, record):
    readings = Readings(tuple(f"{one['label']} ({shown_unit(one['unit'])})" for one in record["columns"].values()))
    return readings, *([_entries(record["sizes"])] if record["sizes"] else []), _box(exercise_id, record)


_PLACES = {"number": _number, "choice": _choice, "text": _text, "function": _function, "design": _design,
           "measured": _measured}
