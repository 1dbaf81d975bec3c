"""What an instructor typed into the pages does not reach students unnoticed: by page, in the pack, on paper."""
import json
import shutil
import subprocess
import zipfile
from types import SimpleNamespace

import pytest

from code_cell import code
from desk_buttons import press, said
from lessons_lib.__main__ import main
from lessons_lib.course.clean_page import asked_of, clean_page
from lessons_lib.course.make_and_remove import new_course
from lessons_lib.course.read_page import Ask, read_page
from lessons_lib.desk import instructor_desk
from lessons_lib.exercises.draws import SELF_STUDY_SECRET
from lessons_lib.exercises.making import make_sheet
from lessons_lib.exercises.self_study import load_lessons
from lessons_lib.handouts import write
from lessons_lib.handouts.page import Handout
from notebooks import NOTEBOOKS, lessons, pages

LESSONS = {lesson.id: lesson for lesson in load_lessons(NOTEBOOKS.parent / "answers")}
TYPED = {"number": "3.25", "choice": '"b"', "text": '"""\nBecause ... of the flux.\n"""', "function": "voltage",
         "design": '{"wire": 44}', "measured": "2.2"}


@pytest.mark.parametrize("path", lessons(), ids=lambda path: path.stem)
def test_a_page_with_everything_answered_is_the_stored_one_again(path):
    lesson = LESSONS[path.name[:2]]
    asked, kinds = asked_of(lesson.exercises), {one.id: one.kind for one in lesson.exercises}
    stored = json.loads(path.read_bytes())
    assert clean_page(stored, asked) == (stored, [])
    worked, ids = json.loads(path.read_bytes()), []
    for cell in read_page(worked):
        if isinstance(cell, Ask):
            ids.append(cell.exercise_id)
            typed = cell.source.replace(cell.empty, TYPED.get(kinds[cell.exercise_id], "3.25"), 1)
            worked["cells"][cell.place]["source"] = typed.splitlines(keepends=True)
    for place, typed in ((-1, "presenting()"), (1, "from lessons_lib import presenting")):
        worked["cells"].insert(place, code(typed))
    page, found = clean_page(worked, asked)
    assert [cell["source"] for cell in page["cells"]] == [cell["source"] for cell in stored["cells"]]
    assert ids and found[0] == ("presenting", "") and [name for what, name in found if what == "answer"] == ids


@pytest.fixture
def worked(tmp_path):
    """A course of one bench on its own copy of the pages, into which an instructor has typed."""
    new_course(tmp_path / "course", 1)
    pages = shutil.copytree(NOTEBOOKS, tmp_path / "pages", ignore=shutil.ignore_patterns("my_work"))
    (tmp_path / "course/course.toml").write_text(f"title = 'autumn'\nnotebooks = '{pages}'\n", encoding="utf-8")
    for begin, old, new in (
            ("00", 'use_card("...")', 'use_card("b004")'), ("01", '"""\n\n"""', '"""\nThe model text.\n"""'),
            ("02", 'sheet.answer("2.7", "...")', 'sheet.answer("2.7", "b")'),
            ("03", 'sheet = open_sheet("03")', 'sheet = open_sheet("03")\nlessons_lib.presenting()'),
            ("04", "    return ...", "    return -np.gradient(flux_linkage, time)")):
        path, = pages.glob(f"{begin}_*.ipynb")
        page = json.loads(path.read_bytes())
        cell = next(cell for cell in page["cells"] if cell["cell_type"] == "code" and old in "".join(cell["source"]))
        cell["source"] = "".join(cell["source"]).replace(old, new).splitlines(keepends=True)
        path.write_text(json.dumps(page, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")
    return tmp_path / "course"


WHAT = "00 (a bench card), 01 (the answer to 1.7), 02 (the answer to 2.7), 03 (presenting()), 04 (the function voltage)"
SECRETS = ('use_card(\\"b004\\")', "The model text.", '\\"2.7\\", \\"b\\"', "presenting()", "return -np.gradient")


def pages_of_pack(course):
    """The words of all pages in the newest pack."""
    newest = max((course / "packs").glob("*.zip"), key=lambda path: path.stat().st_mtime_ns)
    with zipfile.ZipFile(newest) as pack:
        return {name.rpartition("/")[2]: pack.read(name).decode() for name in pack.namelist() if name.endswith("ipynb")}


def test_the_pack_is_made_from_clean_pages_and_give_out_names_what_it_took_out(worked, capsys):
    before = {path: path.read_bytes() for path in (worked.parent / "pages").glob("*.ipynb")}
    assert main(["give-out", str(worked), "--lessons", "1-4"]) == 0
    said = capsys.readouterr().out
    assert f"Taken out of the pack's pages: {WHAT}. Your own pages stay as they are.\n" in said
    assert "To leave in the pack what was typed, run this again with --as-typed." in said
    assert "Not as they were stored" not in said
    assert not [secret for secret in SECRETS for page in pages_of_pack(worked).values() if secret in page]
    assert {path: path.read_bytes() for path in before} == before
    clean = {path.name: json.loads(path.read_bytes()) for path in pages()}
    for name, page in pages_of_pack(worked).items():
        assert [cell["source"] for cell in json.loads(page)["cells"]] == [
            cell["source"] for cell in clean[name]["cells"]]


def test_what_was_typed_stays_in_where_the_instructor_wants_it(worked, capsys):
    assert main(["give-out", str(worked), "--lessons", "1-4", "--as-typed"]) == 0
    said = capsys.readouterr().out
    assert f"Left in the pack's pages as typed: {WHAT}." in said and "--as-typed" not in said.partition("Next:")[0]
    pages = "".join(pages_of_pack(worked).values())
    assert [secret for secret in SECRETS if secret not in pages] == []
    assert "working at" not in pages      # outputs of the bench where it was typed are nobody's


def test_the_desk_asks_what_is_to_become_of_it(worked):
    desk = instructor_desk(worked)
    for box in desk.give_out.boxes.children[:4]:
        box.value = True
    press(desk.give_out, "Give out")
    assert WHAT in said(desk.give_out) and not (worked / "packs").exists()
    press(desk.give_out, "Take it out")
    assert f"Taken out of the pack's pages: {WHAT}." in said(desk.give_out)
    assert "The model text." not in "".join(pages_of_pack(worked).values()) and "--" not in said(desk.give_out)
    press(desk.give_out, "Give out")
    press(desk.give_out, "Leave it in")
    assert f"Left in the pack's pages as typed: {WHAT}." in said(desk.give_out)
    assert "The model text." in "".join(pages_of_pack(worked).values())


def test_what_git_has_otherwise_is_named_and_goes_without_its_outputs(worked, capsys):
    pages = worked.parent / "pages"

    def git(*words):
        subprocess.run(["git", "-C", pages, "-c", "user.name=x", "-c", "user.email=x@y", *words], check=True,
                       capture_output=True)

    path, = pages.glob("03_*.ipynb")
    for words in (["init", "-q"], ["add", "-A"], ["commit", "-q", "-m", "x"]):
        git(*words)
    page = json.loads(path.read_bytes())
    cell = next(cell for cell in page["cells"] if cell["source"] and cell["source"][0].startswith("near, far = "))
    cell["source"][0] = "near, far = 7e6, 20.7e6\n"
    page["cells"].append({**code("print(7)\nprint(8)"), "id": "0a1b"})
    del page["cells"][2]
    path.write_text(json.dumps(page), encoding="utf-8")
    assert main(["give-out", str(worked), "--lessons", "1-4"]) == 0
    assert ('Not as they were stored, and in the pack as they are now: 03 ("near, far = 7e6, 20.7e6…" changed, '
            '"print(7)…" added, "') in capsys.readouterr().out
    cells = {"".join(cell["source"])[:9]: cell for cell in json.loads(pages_of_pack(worked)[path.name])["cells"]}
    assert cells["near, far"]["outputs"] == cells["print(7)\n"]["outputs"] == [] and cells["slope = p"]["outputs"]
    git("commit", "-q", "-a", "-m", "x")
    assert main(["give-out", str(worked)]) == 0 and "Not as they were" not in capsys.readouterr().out


def test_an_added_cell_is_named_where_git_knows_nothing(worked, capsys):
    path, = (worked.parent / "pages").glob("01_*.ipynb")
    page = json.loads(path.read_bytes())
    page["cells"].append({**code("print(7)"), "id": "5c3d7f0e"})
    path.write_text(json.dumps(page), encoding="utf-8")
    assert main(["give-out", str(worked), "--lessons", "1"]) == 0
    assert 'in the pack as they are now: 01 ("print(7)" added).' in capsys.readouterr().out


@pytest.mark.parametrize("broken", [b"", b"[1]", b'{"cells": [{}]}'])
def test_a_file_that_is_no_page_is_one_sentence(worked, broken, capsys):
    path, = (worked.parent / "pages").glob("01_*.ipynb")
    path.write_bytes(broken)
    assert main(["give-out", str(worked), "--lessons", "1"]) == 1
    error = capsys.readouterr().err
    assert error.startswith(f"{path} cannot be read as a page (") and error.count("\n") == 1
    assert not (worked / "given_out").exists()


def test_handouts_are_made_from_clean_pages_too(worked, tmp_path, monkeypatch):
    seen = []
    monkeypatch.setattr(write, "Handout", lambda notebook, **more: SimpleNamespace(page=lambda: seen.append(notebook)))
    monkeypatch.setattr(write, "write_whole", lambda path, data: None)
    sheet = make_sheet(LESSONS["04"], secret=SELF_STUDY_SECRET, bench="b000")
    write.write_handouts(tmp_path, [sheet], notebooks=worked.parent / "pages")
    words = json.dumps(seen)
    assert "return ..." in words and "return -np.gradient" not in words


def test_an_answer_typed_into_a_page_is_room_to_write_on_paper():
    sheet = make_sheet(LESSONS["01"], secret=SELF_STUDY_SECRET, bench="b000")
    page = {"cells": [code('sheet.answer("1.1", 3.25, "uWb")')], "metadata": {}}
    assert b"3.25" not in Handout(page, name="x", content=sheet, figures={}).page()
