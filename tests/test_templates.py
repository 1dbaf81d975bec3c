"""The templates of all pages: whatever is put in is text, in every place; one stylesheet; packed where needed."""
import os
import re
import subprocess
import sys
from itertools import count
from types import SimpleNamespace as Record

import pytest
from jinja2 import DictLoader, Environment

from lessons_lib.base.pages import LIBRARY, css_text, environment, page_bytes, piece
from lessons_lib.course.class_report import ReportBar
from lessons_lib.course.pack import _library
from lessons_lib.exercises import paper
from lessons_lib.handouts.figures import Figure

TEMPLATES = sorted(path.relative_to(LIBRARY).as_posix() for path in LIBRARY.glob("*/templates/*.html"))
TEXT = {name: (LIBRARY / name).read_text(encoding="utf-8") for name in TEMPLATES}
# the only HTML that comes from elsewhere: it was escaped by whoever wrote it, or is a stored picture
SAFE = {"handouts/templates/handout.html": ["foreword"],
        "handouts/templates/parts.html": ["text", "text", "tables", "sentence", "picture"],
        "handouts/templates/words.html": ["text"]}

# ---- values for each template; each text is replaced by one with tags, but for those that begin with "=" -------------

LESSON = Record(id="id", title="title", silent=False)
BAR = ReportBar("words", (("=dark", 0, 0.5), ("=light", 0.5, 0.2)), (0.1, 0.4))
OPTIONS = {"=a": "text", "=b": "text"}
POINTS = [("id", "question", "says")]
BLOCKS = [
    paper.Lines(2), paper.Working(), paper.Box("id", "unit"), paper.Entries((paper.Boxes("label", "asked", 2),)),
    paper.Readings(("column", "column")), paper.PageOnly("text"), paper.Grid(("head",), (("cell",),)),
    paper.Right("value", "before", "after"), paper.Paragraph("text"),
    paper.FormulaLine("id", ("symbol", "symbol")), paper.Ranks("id", 2),
    paper.Curves((("letter", "points"),), 30.0, "words")]
TABLES = {
    "lesson": LESSON, "returned": 12, "most_slips": 5, "with_discrimination": True, "carried": ["id"],
    "tries": [Record(called="id", question="question", bar=BAR, first="share", right="share", answered=10,
                     discrimination="number")],
    "slips": [Record(exercise_id="id", slip="slip", note="note", bar=BAR, count=3, answered=9, tried=1, right="share")],
    "unexplained": [("id", "count", "values")],
    "predictions": [Record(called="id", question="question", seen_question="question", as_shown="share",
                           predicted=[Record(count=1, letter="letter", text="text", sure="sure")],
                           seen=[Record(count=1, letter="letter", text="text", shown=True)]),
                    Record(called="id", question="question", seen_question="", as_shown="", predicted=[],
                           seen=[Record(count=0, letter="letter", text="text", shown=True)])],
    "texts": [("id", "question", Record(answered=3, short=1, waiting=2, marked=1, marks=2.0, most=3.0))],
    "unclear": [("id", "line")]}
VOTE = {"question": "question", "options": OPTIONS, "right": "letter", "because": "because"}
OUTCOME = {"answer": "answer", "most": 2.0}
PARTS = [
    ("=place", ("id", BLOCKS)), ("=sound", None), ("=film", None), ("=unclear", None),
    ("=listing", ("source", [("", "text"), ("=<img>", "text")])), ("=outputs", [("", "text")]),
    ("=votes", [Record(question="question", options=OPTIONS)]),
    ("=prose", "=<p>ours</p>"), ("=meaning", "=<p>ours</p>"), ("=given", "=<p>ours</p>"), ("=verdict", "=<p>ours</p>"),
    ("=panel", {"name": "name", "sureness": ["words"], "figures": [
        Figure("drawing", 100.0, [("value", True), ("value", False)], {"=label": "words"}, "alt")],
        "card": Record(question="question", options=OPTIONS, seen_question="question", seen_options=OPTIONS)})]
VALUES = {
    "course/templates/cards.html": {"course": "title", "cards": [("card", "student")]},
    "course/templates/notes.html": {"course": "title", "bench": "bench", "lessons": [{
        "waits": True, "all_late": False,
        "marks": Record(lesson=LESSON, total=3.0, most=4.0, late_percent=10.0, checks=("check", "check")),
        "beside": ["id right"],
        "rows": [Record(called="id", outcome=Record(marks=marks, **OUTCOME), says="says", comments=("comment",))
                 for marks in (1.0, 2.0)]}]},
    "course/templates/key.html": {"course": "title", "lessons": [
        {"id": "id", "title": "title", "alike": [("called", "said")], "heads": [("head", True)],
         "rows": [("bench", ["value"])], "points": [("id", "marks", "step")]}]},
    "course/templates/worked.html": {"course": "title", "bench": "bench", "lessons": [
        {"id": "id", "title": "title", "exercises": [
            {"called": "id", "most": 2.0, "blocks": BLOCKS, "worked": "worked", "note": "note"}]}]},
    "course/templates/evenings.html": {"course": "title", "lessons": [{
        "id": "id", "title": "title", "note": "note", "votes": [
            Record(twin=Record(**VOTE), **VOTE)],
        "plans": [{"evening": Record(aim="aim", minutes=60, on_the_table="things", at_home="home"),
                   "rows": [(7, 0, 7, "what", "ask")]}]}]},
    "course/templates/class_report.html": {
        "course": "title", "benches": 12, "returned": [("id", 12)], "small": ["id"], "earlier": [
            {"lesson": LESSON, "points": POINTS}], "rules": ["rule"], "least_for_shares": 10,
        "least_for_discrimination": 40, "lessons": [TABLES], "newest": {
            "lesson": LESSON, "returned": 12, "too_few": False, "points": POINTS, "rest": ["id"], "forgotten": POINTS,
            "steps": POINTS, "easy": ["id"], "unexplained": [("id", 3, 5)]}, "tests": {
                "benches": 12, "least": 10, "left_out": 2, "before": "before", "after": "after", "gain": "gain",
                "known": "known", "share": "share", "not_moved": ["idea"],
                "sure_and_wrong": [("idea", 5, 12, "notion")], "rows": [
                    Record(idea="idea", before="before", half_way="half", after="after", gain="gain")]}},
    "handouts/templates/handout.html": {
        "is_silent": True,
        "lesson": 1, "title": "title", "bench": "bench", "foreword": "=<p>ours</p>",
        "sections": [("exercise", [Record(macro=macro, content=content) for macro, content in PARTS])]},
    "handouts/templates/words.html": {"text": "=<p>ours</p>"},
    "workbench/templates/bench_report.html": {"title": "title", "sections": ["section"]}}
PIECES = {"heading": ["text"], "prose": [["text"]], "points": ["title", ["sentence"]], "table": [
    "caption", ["head"], [[("cell", False), ("cell", True)]]], "readings": ["caption", ["head"], [], ["remark"]],
    "fit": ["caption", [[("cell", False)]], ["said"]], "figure": ["png", "alt", "caption"]}


class Marked:
    """Replaces each text by one with tags and quotes and a number, all different."""

    def __init__(self):
        self._numbers, self.texts = count(1000), []

    def __call__(self, value):
        match value:
            case str() if value.startswith("="):
                return value[1:]
            case str() if value:
                self.texts.append(f"""<b>'{next(self._numbers)}" & <i x=1>""")
                return self.texts[-1]
            case dict():
                return {self(key) if key[:1] == "=" else key: self(inner) for key, inner in value.items()}
            case list():
                return list(map(self, value))
            case tuple():
                return type(value)(*map(self, value)) if hasattr(value, "_fields") else tuple(map(self, value))
            case Record() | paper.Box() | paper.Entries() | paper.Boxes() | paper.Readings() | paper.PageOnly() \
                    | paper.Grid() | paper.Right() | paper.Paragraph() | paper.FormulaLine() \
                    | paper.Ranks() | paper.Curves():
                return type(value)(**{name: self(inner) for name, inner in vars(value).items()})
        return value


def escaped(text):
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace("'", "&#39;").replace(
        '"', "&#34;")


def check(page, texts):
    assert texts and not re.search(r"<[bi]\b|x=1>", page)
    assert [text for text in texts if escaped(text) not in page.replace("\N{NO-BREAK SPACE}", " ")] == []


@pytest.mark.parametrize("name", [name for name in VALUES if "words" not in name])      # that one has no text but ours
def test_every_text_on_every_page_comes_out_escaped(name):
    marked = Marked()
    check(page_bytes(name, **marked(VALUES[name])).decode(), marked.texts)


@pytest.mark.parametrize("name", PIECES)
def test_so_does_every_text_in_a_section_of_the_bench_report(name):
    marked = Marked()
    check(piece("workbench/templates/sections.html", name, *marked(PIECES[name])), marked.texts)


def test_no_template_and_no_macro_was_left_out():
    assert set(VALUES) == {name for name, text in TEXT.items() if "{% extends" in text}
    macros = {name: set(re.findall(r"{% macro (\w+)", text)) for name, text in TEXT.items()}
    assert macros["handouts/templates/parts.html"] == {macro[1:] for macro, _ in PARTS} | {"ticks"}
    assert macros["workbench/templates/sections.html"] == set(PIECES)
    blocks = {name for name, one in vars(paper).items() if isinstance(one, type)} - {"Boxes"}
    assert macros["course/templates/blocks.html"] == blocks | {"lines"}
    assert blocks == {type(one).__name__ for one in BLOCKS}


def test_html_is_let_through_in_the_named_places_only():
    found = {name: re.findall(r"{{ *([^{}|]*)\| *safe *}}", text) for name, text in TEXT.items() if "safe" in text}
    assert found == SAFE
    for name, text in TEXT.items():
        assert not re.search(r"autoescape|Markup|xmlattr", text), name
        assert not re.search(r"=\s*{{", text), f"{name}: a value of an attribute needs quotes"
    assert environment().autoescape is True


def test_python_writes_no_html_where_pages_are_written():
    for floor in ("course", "handouts", "workbench"):
        for path in (LIBRARY / floor).rglob("*.py"):
            code = path.read_text(encoding="utf-8")
            assert "html import" not in code or path.name == "prose.py", path     # links of Markdown
            # these are looked for, not written
            assert not re.search(r"</(?!mi>|body>|details>|summary>)|<style|Markup", code), path


def test_a_value_that_is_missing_is_an_error():
    with pytest.raises(ValueError, match="A template cannot be used: course/templates/cards.html: 'cards' is undefin"):
        page_bytes("course/templates/cards.html", course="title")


def test_a_slip_in_a_template_is_one_sentence_with_its_line(monkeypatch):
    loader = DictLoader({"page.html": '{% include "part.html" %}', "part.html": "<p>\n{% if %}"})
    monkeypatch.setattr("lessons_lib.base.pages.environment", lambda: Environment(loader=loader))
    with pytest.raises(ValueError, match=r"^A template cannot be used: part.html, line 2: .*\.$"):
        page_bytes("page.html")
    with pytest.raises(ValueError, match=r"^A template cannot be used: no.html: no.html\.$"):
        page_bytes("no.html")


def test_bold_is_the_one_thing_that_a_text_of_the_answers_may_ask_for():
    found = piece("base/templates/parts.html", "prose", "**A <b>** and <i>\n\n\n& *so* on\n")
    assert found.split("\n") == ["<p><strong>A &lt;b&gt;</strong> and &lt;i&gt;</p>", "<p>&amp; *so* on</p>", ""]


# ---- the stylesheet --------------------------------------------------------------------------------------------------

def test_there_is_one_stylesheet_and_it_knows_every_page():
    assert {path.relative_to(LIBRARY).as_posix() for path in LIBRARY.rglob("*.css")} == {
        "base/templates/style.css", "page/board.css"}       # the latter: what a panel has in a notebook
    style = (LIBRARY / "base/templates/style.css").read_text(encoding="utf-8")
    # the latter two: what runs at the foot
    assert {name for name, text in TEXT.items() if "<style" in text} == {
        "base/templates/page.html", "handouts/templates/handout.html", "handouts/templates/words.html"}
    for name in VALUES:
        css = re.search(r"{% block css %}(.*?){% endblock %}", TEXT[name])[1]
        assert f".{css} " in style, name


@pytest.mark.parametrize("text", ['</style><script>alert("1")</script>', "\\", '"; } body { display: none', "a\nb"])
def test_a_title_at_the_foot_cannot_end_its_quotes(text):
    assert re.fullmatch(r"(\w|[ ·,.]|\\[0-9a-f]+ )*", css_text(text))
    back = re.sub(r"\\([0-9a-f]+) ", lambda found: chr(int(found[1], 16)), css_text(text))
    assert back == text


def test_their_lines_are_as_short_as_those_of_code():
    for path in LIBRARY.glob("*/templates/*"):
        assert max(map(len, path.read_text(encoding="utf-8").splitlines())) <= 120, path


# ---- where they are --------------------------------------------------------------------------------------------------

REPORT = """
import sys
sys.meta_path[:] = [one for one in sys.meta_path if "ditable" not in repr(one)]     # the checkout's own installation
import lessons_lib.workbench.report as r
path = r.write_report("report.html", "Bench 7", r.heading("The coil"), "Warm in here.")
print(path.read_text(encoding="utf-8"), r.__file__)
"""


def test_students_have_the_templates_that_they_need_and_no_others(tmp_path):
    files = _library()
    assert {name for name in files if "/templates/" in name} == {
        f"lessons_lib/{path.relative_to(LIBRARY).as_posix()}"
        for floor in ("base", "workbench") for path in (LIBRARY / floor / "templates").iterdir()}
    for name, data in files.items():
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_bytes(data)
    done = subprocess.run([sys.executable, "-c", REPORT], cwd=tmp_path, capture_output=True, text=True,
                          env={**os.environ, "PYTHONPATH": str(tmp_path)})
    assert done.stderr == "" and str(tmp_path) in done.stdout
    assert '<body class="bench-report">' in done.stdout and "<p>Warm in here.</p>" in done.stdout
