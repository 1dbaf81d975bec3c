"""Take the README's pictures from the pages as they are now: python tests/readme_pictures.py

Each picture keeps the digest of the words that it shows; tests/test_readme.py finds one that is older than its page.
Needs Chromium.
"""
import hashlib
import html
import importlib
import io
import re
import tempfile
from dataclasses import dataclass
from pathlib import Path

from PIL import Image, PngImagePlugin

import lessons_lib
from invented_student import at_desk
from invented_term import make_term, mark_by_hand
from lab import chromium, lab_server, open_notebook, run_all
from lessons_lib.course.folder import Course
from lessons_lib.course.mark import mark
from notebooks import NOTEBOOKS, copy_of_notebooks, read

PICTURES = NOTEBOOKS / "pictures"
WORDS = "words"             # the PNG's text that holds the digest


@dataclass(frozen=True)
class LessonPicture:
    """A panel in its page, after an invented prediction if it asks for one; *call* of its cell, *height* in dots."""

    lesson: str
    call: str
    height: int
    prediction: tuple = ()

    def words(self):
        """Text before the panel and what the panel says when it opens."""
        cells = read(page_of(self.lesson)).cells
        place = next(n for n, cell in enumerate(cells) if self.call in cell.source and cell.cell_type == "code")
        panels = importlib.import_module(f"lessons_lib.lessons.{self.folder}.panels")
        state = getattr(panels, re.search(r"panels\.(\w+)", self.call)[1])().at()
        return [cells[place - 1].source, state.alt, *(" ".join(pair) for pair in
                                                      [*state.values.items(), *state.readouts.items()])]


    @property
    def folder(self):
        """Of its panels."""
        return f"lesson_{self.lesson}" if self.lesson.isdigit() else self.lesson


LESSON_PICTURES = {
    "whole_pickup": LessonPicture("whole_pickup", "panels.whole_pickup()", 690),
    "lesson_04": LessonPicture("04", "panels.moving_string(sheet", 660, ("p1", "b", 2, "a flat top has no slope"))}


def page_of(lesson):
    return next(path for path in NOTEBOOKS.glob("*.ipynb") if path.name.startswith(lesson))


def report_words(page):
    """What a class report says before its tables, as text."""
    top, = re.findall(r"<h1.*?(?=<h2[^>]*>Lesson)", page, flags=re.DOTALL)
    return [" ".join(html.unescape(re.sub("<[^>]+>", " ", top)).split())]


def digest(words):
    return hashlib.sha256("\n".join(words).encode()).hexdigest()[:16]


def digest_kept(name):
    """The digest of the words that a stored picture shows."""
    with Image.open(PICTURES / f"{name}.png") as picture:
        return picture.info.get(WORDS)


def store(name, png, words):
    """Write a picture with few colours and the digest of its words."""
    note = PngImagePlugin.PngInfo()
    note.add_text(WORDS, digest(words))
    path = PICTURES / f"{name}.png"
    Image.open(io.BytesIO(png)).convert("RGB").quantize(64).save(path, optimize=True, pnginfo=note)
    print(f"{path.name}, {path.stat().st_size / 1e3:.0f} kB")


def lesson_png(browser, address, picture):
    """The panel's cell with the end of the text before it."""
    page = browser.new_page(viewport={"width": 1400, "height": picture.height + 160})
    open_notebook(page, address, page_of(picture.lesson).name)
    assert run_all(page), "a cell raised"
    page.evaluate("() => { window.jupyterapp.commands.execute('application:toggle-left-area'); }")
    cell = page.locator(".jp-CodeCell").filter(has=page.locator(".cm-content", has_text=picture.call)).first
    cell.locator(".lesson-grip").first.wait_for()
    # the cell's top comes to rest a little below the edge of the view
    cell.evaluate("""cell => { const view = cell.closest('.jp-WindowedPanel-outer');
        view.scrollTop += cell.getBoundingClientRect().top - view.getBoundingClientRect().top - 10; }""")
    page.wait_for_timeout(500)
    view = page.locator(".jp-WindowedPanel-outer").bounding_box()
    png = page.screenshot(clip={"x": view["x"] + 40, "y": view["y"] + 10, "width": min(view["width"] - 60, 1290),
                                "height": picture.height})
    page.close()
    return png


def report_png(browser, report):
    """The first screen of a class report."""
    page = browser.new_page(viewport={"width": 1000, "height": 760})
    page.goto(report.as_uri())
    png = page.screenshot()
    page.close()
    return png


def main():
    with copy_of_notebooks() as folder, chromium() as browser:
        for picture in LESSON_PICTURES.values():
            if picture.prediction:
                with at_desk(folder, folder / "my_work"):
                    prediction, *made = picture.prediction
                    lessons_lib.open_sheet(picture.lesson).predict(prediction, *made)
        with lab_server(folder) as address:
            for name, picture in LESSON_PICTURES.items():
                store(name, lesson_png(browser, address, picture), picture.words())
        with tempfile.TemporaryDirectory() as home:
            course = make_term(Path(home))
            mark(course)
            mark_by_hand(course)
            mark(Course(course.folder))
            report = course.folder / "marks" / "class_report.html"
            store("class_report", report_png(browser, report), report_words(report.read_text(encoding="utf-8")))


if __name__ == "__main__":
    main()
