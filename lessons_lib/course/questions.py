"""The question of each exercise in a few words, taken from the lesson's page."""
import json
import re

from lessons_lib.course.read_page import Question, read_page

_LONGEST = 140
_ENDS = re.compile(r"(?<=[.?!:])\s+(?=[A-Z(*$])")


def questions_of(course, lesson):
    """Return exercise id -> its question, shortened; what the page does not name is left out."""
    pages = sorted(course.settings.notebooks.glob(f"{lesson.id}_*.ipynb"))
    texts = _texts(pages[0]) if pages else {}
    found = {exercise.id: _question(texts.get(exercise.id, "")) for exercise in lesson.exercises}
    found |= {exercise.id: exercise.question for exercise in lesson.exercises if not exercise.is_scored}
    return {exercise_id: _short(question) for exercise_id, question in found.items() if question}


def _texts(page):
    """Exercise id -> what stands under its head."""
    try:
        cells = read_page(json.loads(page.read_bytes()))
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return {}       # the report goes without its questions
    return {cell.exercise_id: cell.text for cell in reversed(cells) if isinstance(cell, Question)}    # the first counts


def _question(text):
    """Of its first paragraph the last sentence that asks, or that is left open with the one before; else the first."""
    paragraph = re.split(r"\n- \(a\)|\n\n", text.strip(), maxsplit=1)[0]
    sentences = _ENDS.split(" ".join(paragraph.split()))
    asking = [place for place, sentence in enumerate(sentences) if sentence.endswith(("?", "..."))]
    if not asking:
        return sentences[0]
    last = asking[-1]
    begin = max(0, last - 1) if sentences[last].endswith("...") else last   # left open, it needs what comes before it
    return " ".join(sentences[begin:last + 1])


def _short(text):
    plain = re.sub(r"[*`$]|\\cdot|\\,", "", text).strip()
    return plain if len(plain) <= _LONGEST else f"{plain[:_LONGEST].rsplit(' ', 1)[0]} …"
