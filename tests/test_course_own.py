"""The README's page "Make it your own", done as it says: its lesson is taken from there, played and given out."""
import re
import shutil
import zipfile
from pathlib import Path

import nbformat
import pytest

from lessons_lib import open_sheet, progress, use_card
from lessons_lib.__main__ import main
from lessons_lib.course.folder import Course
from lessons_lib.course.make_and_remove import new_course

TOP = Path(__file__).resolve().parent.parent
SECTION = re.search(r"## Make it your own\n(.*?)\n## ", (TOP / "README.md").read_text(encoding="utf-8"), re.DOTALL)[1]


def block(kind):
    """The only block of code of a kind in the section."""
    text, = re.findall(rf"^   ```{kind}\n(.*?)^   ```", SECTION, re.MULTILINE | re.DOTALL)
    return re.sub("^   ", "", text, flags=re.MULTILINE)


def own_page():
    """The page that the section's table describes, cell by cell."""
    cells = []
    for kind, what in re.findall(r"^   \| (text|code) \| (.*) \|$", SECTION, re.MULTILINE):
        make = nbformat.v4.new_markdown_cell if kind == "text" else nbformat.v4.new_code_cell
        cells.append(make("\n\n".join(re.findall(r"`([^`]+)`", what))))
    page = nbformat.v4.new_notebook(cells=cells)
    page.metadata.kernelspec = {"name": "python3", "display_name": "Python 3", "language": "python"}
    return page


@pytest.fixture
def mine(tmp_path, monkeypatch):
    """A checkout's pages and answers copied, the first lesson alone; a course beside that names the copies."""
    (tmp_path / "checkout").mkdir()
    for folder, names in (("answers", ["lesson_00.py"]), ("notebooks", ["00_start_here.ipynb", "data"])):
        (tmp_path / "mine" / folder).mkdir(parents=True)
        for name in names:
            copy = shutil.copytree if (TOP / folder / name).is_dir() else shutil.copyfile
            copy(TOP / folder / name, tmp_path / "mine" / folder / name)
    monkeypatch.chdir(tmp_path / "checkout")
    new_course(tmp_path / "autumn", 2)
    text = (tmp_path / "autumn/course.toml").read_text().replace("\n[marks]", f"\n{block('toml')}\n[marks]")
    (tmp_path / "autumn/course.toml").write_text(text)
    (tmp_path / "mine/answers/lesson_09.py").write_text(block("python"), encoding="utf-8")
    nbformat.write(own_page(), tmp_path / "mine/notebooks/09_wire_on_a_bobbin.ipynb")
    return tmp_path / "mine"


def test_the_lesson_on_the_page_plays_and_goes_out_with_its_data(mine, capsys):
    for command in (["play", "../autumn", "--pages"], ["give-out", "../autumn", "--lessons", "9"]):
        assert main(command) == 0, capsys.readouterr().err
    assert "2 lessons, 7 exercises and all pages were played" in capsys.readouterr().out
    pack, = (mine.parent / "autumn/packs").glob("*.zip")
    names = {name.partition("/")[2] for name in zipfile.ZipFile(pack).namelist()}
    assert {"notebooks/09_wire_on_a_bobbin.ipynb", "notebooks/sheets/09/b010.json"} < names
    assert any(name.startswith("notebooks/data/") for name in names)


def test_the_page_in_the_copy_opens_for_self_study(mine, monkeypatch):
    monkeypatch.chdir(mine / "notebooks")
    monkeypatch.delenv("LESSONS_WORK_FOLDER", raising=False)
    use_card("b009")
    sheet = open_sheet("09")
    turns, turn = dict(sheet.given("9.1")).values()
    assert sheet.answer("9.1", turns * turn / 1e3, "m").state == "right"
    assert "of wire" in sheet.worked_answer("9.1").text and len(progress().rows) == 2


def test_an_exercise_is_left_out_by_its_marks(mine):
    path = mine.parent / "autumn/course.toml"
    path.write_text(path.read_text().replace('# "1.3" = 3', '"9.1" = 0'))
    course = Course(mine.parent / "autumn")
    assert course.settings.most_marks(course.lessons["09"]["9.1"]) == 0


def test_the_wrong_way_that_is_named_is_known_by_its_note(mine):
    course = Course(mine.parent / "autumn")
    wire = course.lessons["09"]["9.1"]
    assert wire.answer(turns=7000, turn=0.13) == pytest.approx(910) and wire.size[0] < 910 < wire.size[1]
    assert wire.slips[0].formula(turns=7000, turn=0.13) == pytest.approx(455)
