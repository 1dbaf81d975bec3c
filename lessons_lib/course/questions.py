"""The question of each exercise in a few words, taken from the lesson's page."""
import json
import re

_LONGEST = 140
_ENDS = re.compile(r"(?<=[.?!:])\s+(?=[A-Z(*$])")


def questions_of(course, lesson):
    """Return exercise id -> its question, shortened; what the page does not name is left out."""
    pages = sorted(course.settings.notebooks.glob(f"{lesson.id}_*.ipynb"))
    text = "\n\n".join(_prose(pages[0])) if pages else ""
    found = {exercise.id: _question(text, exercise.id) for exercise in lesson.exercises}
    found |= {exercise.id: exercise.question for exercise in lesson.exercises if exercise.kind == "prediction"}
    return {exercise_id: _short(question) for exercise_id, question in found.items() if question}


def _prose(page):
    try:
        cells = json.loads(page.read_bytes())["cells"]
        return ["".join(cell["source"]) for cell in cells if cell["cell_type"] == "markdown"]
    except (OSError, ValueError, KeyError, TypeError):
        return []       # the report goes without its questions


def _question(text, exercise_id):
    """The last sentence that asks, or that is left open with the one before it; else the first one."""
    head = rf"### Exercise {re.escape(exercise_id)}\s*\n|\*\*{re.escape(exercise_id)}\.\*\*"
    found = re.search(rf"^(?:{head})(.*?)(?=\n- \(a\)|\n\n|\Z)", text, re.MULTILINE | re.DOTALL)
    sentences = _ENDS.split(" ".join(found[1].split())) if found else []
    asking = [place for place, one in enumerate(sentences) if one.endswith(("?", "..."))]
    if not asking:
        return sentences[0] if sentences else ""
    begin = asking[-1] - sentences[asking[-1]].endswith("...")     # one that is left open needs what comes before it
    return " ".join(sentences[max(0, begin):asking[-1] + 1])


def _short(text):
    plain = re.sub(r"[*`$]|\\cdot|\\,", "", text).strip()
    return plain if len(plain) <= _LONGEST else f"{plain[:_LONGEST].rsplit(' ', 1)[0]} …"
