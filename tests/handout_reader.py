"""A handout read as its elements, and the right values that a page would give away."""
import re
from html.parser import HTMLParser

VOID = {"meta", "img", "br", "hr"}      # of the elements that a handout has, those that HTML never closes


class Reader(HTMLParser):
    """The elements of a page in order, each with what stands in it; a tag that does not fit is an error."""

    def __init__(self, page):
        super().__init__()
        self.open, self.elements = [], []
        self.feed(page)
        self.close()
        assert self.open == []

    def handle_starttag(self, tag, attributes):
        element = {"tag": tag, "text": "", **dict(attributes)}
        self.elements.append(element)
        if tag not in VOID:
            self.open.append(element)

    def handle_startendtag(self, tag, attributes):
        self.elements.append({"tag": tag, "text": "", **dict(attributes)})

    def handle_endtag(self, tag):
        assert self.open.pop()["tag"] == tag, (tag, self.getpos())

    def handle_data(self, data):
        for element in self.open:
            element["text"] += data

    def of(self, **wanted):
        return [one for one in self.elements if all(one.get(name) == value for name, value in wanted.items())]


# ---- and what must not be in it --------------------------------------------------------------------------------------

def given_away(page, values):
    """Right values that are found: within the tolerance in a place for answers, or with five figures anywhere."""
    reader = Reader(page)
    for exercise_id, one in values.items():
        if one.exercise.kind in ("design", "curve", "order"):
            continue
        digits = f"{abs(one.answer):.12e}".replace(".", "")[:5]
        numbers = re.findall(r"\d[\d.]{4,}", reader.elements[0]["text"])
        yield from (f"{exercise_id}: {found}" for found in numbers if found.replace(".", "").lstrip("0")[:5] == digits)
        for place in reader.of(**{"data-exercise": exercise_id}):
            own = place["text"].replace(f"{exercise_id}:", "")
            yield from (f"{exercise_id}: {found} in its place" for found in re.findall(r"[-−]?\d+\.?\d*", own)
                        if one.scale.distance(float(found.replace("−", "-")), one.answer) < 2)
