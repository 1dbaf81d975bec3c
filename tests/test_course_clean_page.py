"""What an instructor typed into the pages does not reach students unnoticed: by cell, by page, in the pack."""
import json
import shutil
import subprocess
import zipfile
from types import SimpleNamespace

import pytest

from desk_buttons import press, said
from lessons_lib.__main__ import main
from lessons_lib.course.clean_page import asked_of, clean_page, without_traces
from lessons_lib.course.make_and_remove import new_course
from lessons_lib.course.read_page import LIVE, WORKED, Ask, read_page
from lessons_lib.desk import instructor_desk
from lessons_lib.exercises.draws import SELF_STUDY_SECRET
from lessons_lib.exercises.making import make_sheet
from lessons_lib.exercises.self_study import load_lessons
from lessons_lib.handouts import write
from lessons_lib.handouts.page import Handout
from notebooks import NOTEBOOKS, lessons

LESSONS = {lesson.id: lesson for lesson in load_lessons(NOTEBOOKS.parent / "answers")}
ASKED = {"1.1": ("number", "mm"), "1.2": ("number", "1"), "1.4": ("choice", None), "1.5": ("text", None),
         "1.6": ("measured", "H"), "1.7": ("design", None), "1.8": ("function", None)}
EMPTY = {"1.1": 'sheet.answer("1.1", ..., "mm")', "1.2": 'sheet.answer("1.2", ...)',
         "1.4": 'sheet.answer("1.4", "...")',
         "1.5": 'sheet.answer("1.5", """\n\n""")', "1.6": 'sheet.answer("1.6", ..., "H", table=rows, diameter=5)',
         "1.7": 'sheet.answer("1.7", ...)', "1.8": 'sheet.answer("1.8", ...)'}


def code(source, tags=(), **more):
    seven = {"output_type": "stream", "name": "stdout", "text": "7"}
    return {"cell_type": "code", "source": source, "outputs": [seven], "metadata": {"tags": list(tags)},
            "execution_count": 3, **more}


def cleaned(*cells):
    """The sources that are left of code cells, and what was found."""
    page, found = clean_page({"cells": [code(cell) if isinstance(cell, str) else cell for cell in cells],
                              "metadata": {}}, ASKED)
    return ["".join(cell["source"]) for cell in page["cells"]], found


# ---- one cell --------------------------------------------------------------------------------------------------------

@pytest.mark.parametrize("exercise_id, typed", [
    ("1.1", 'sheet.answer("1.1", 3.25, "mm")'), ("1.1", 'sheet.answer("1.1", 3.25e-3, "m")'),
    ("1.1", 'sheet.answer("1.1", 3,25, "mm")'), ("1.1", "sheet.answer('1.1', '3,25', 'mm')"),
    ("1.1", 'sheet.answer("1.1", 4 * 0.8, "mm")  # about 3.2'), ("1.1", 'sheet.answer("1.1", 3.25 mm)'),
    ("1.1", 'sheet.answer("1.1", value=3.25)'), ("1.1", 'result = sheet.answer("1.1", 3.25)'),
    ("1.1", 'sheet.answer("1.1",\n             3.25,\n             "mm")'), ("1.2", 'sheet.answer("1.2", -0.5)'),
    ("1.2", 'sheet.answer("1.2", 50, "%")'), ("1.4", 'sheet.answer("1.4", "b")'), ("1.4", 'sheet.answer("1.4", b)'),
    ("1.5", 'sheet.answer("1.5", """\nBecause the field ... (see above).\n""")'),
    ("1.5", 'sheet.answer("1.5", "Because.")'), ("1.5", 'sheet.answer("1.5", """\nSays "why".""")'),
    ("1.6", 'sheet.answer("1.6", 2.2, "H", table=rows, diameter=5)'),
    ("1.7", 'sheet.answer("1.7", {"wire": 44, "turns": 7600})'),
    ("1.7", 'sheet.answer("1.7", {"wire": 44, "turns": ...})'), ("1.8", 'sheet.answer("1.8", voltage)'),
    ("1.8", 'sheet.answer("1.8", lambda flux, time: -np.gradient(flux, time))')])
def test_an_answer_goes_back_to_its_empty_form(exercise_id, typed):
    assert cleaned(typed) == ([EMPTY[exercise_id]], [("answer", exercise_id)])


@pytest.mark.parametrize("typed, left", [
    ('v = sheet.given("1.1")\nprint(v)  # 3.2\nsheet.answer("1.1", v["a"] / 2, "mm")', EMPTY["1.1"]),
    ('import csv\nrows = csv.rows\nown = 2.2\nsheet.answer("1.6", own, "H", table=rows, diameter=5)',
     f'import csv\nrows = csv.rows\n{EMPTY["1.6"]}')])
def test_of_the_lines_beside_an_answer_those_stay_that_the_page_needs(typed, left):
    sources, found = cleaned(typed)
    assert sources == [left] and [what for what, _ in found] == ["answer", "lines"]


@pytest.mark.parametrize("source", [
    *EMPTY.values(), '# put it here\nsheet.answer("1.1", ..., "mm")', 'sheet.answer("1.5", "")', 'use_card("...")',
    '# sheet.unclear("1.1", "why?")', 'sheet.parts_list("1.7")', 'print("presenting()")', 'sheet.answer("1.4", ...)',
    'sheet.answer("1.7", {"wire": ..., "turns": ...})', "%matplotlib inline\nx = 3", "not Python at all",
    "def voltage(flux, time):\n    return ...", ""])
def test_what_nobody_typed_stays_as_it_is(source):
    assert cleaned(source) == ([source], [])


def test_what_the_page_works_out_itself_stays():
    shown = code('x = 3\nsheet.answer("1.1", x, "mm")', tags=[WORKED])
    assert cleaned(shown) == ([shown["source"]], [])


@pytest.mark.parametrize("typed, left, found", [
    ('use_card("b003")', 'use_card("...")', "card"), ("use_card('B017 - 7QK4MP')", 'use_card("...")', "card"),
    ('use_card(b003)', 'use_card("...")', "card"), ("use_card(b017-7QK 4MP)", 'use_card("...")', "card"),
    ('a = 3\nuse_card(text="b003"); b = 4', 'a = 3\nuse_card("..."); b = 4', "card"),
    ("from lessons_lib import presenting\npresenting()\n\na = 3", "a = 3", "presenting"),
    ("from lessons_lib import open_sheet, presenting\n\nsheet = open_sheet('03')\npresenting()   # for the evening",
     "from lessons_lib import open_sheet\n\nsheet = open_sheet('03')", "presenting"),
    ("a = 3; presenting()", "a = 3", "presenting"), ("presenting(); a = 3", "a = 3", "presenting"),
    ("a = 1; presenting(); b = 'µ'", "a = 1; b = 'µ'", "presenting"),
    ("b = 'µΩ'; presenting()\nc = 4", "b = 'µΩ'\nc = 4", "presenting"),
    ("import lessons_lib\nlessons_lib.presenting()\na = 3", "import lessons_lib\na = 3", "presenting"),
    ("from lessons_lib import presenting as show\nshow()\na = 3", "a = 3", "presenting"),
    ("if True:\n    presenting()", "if True:\n    None", "presenting"),
    ("%time\npresenting()\na = 3", "%time\na = 3", "presenting"), ("presenting()\na = 3 mm", "a = 3 mm", "presenting"),
    ('sheet.unclear("1.3", "why\\nso?")', '# sheet.unclear("1.3", "why\\nso?")', "unclear"),
    ('a = 3\nsheet.predict("p1", "a", 2)', "a = 3", "prediction"),
    ('sheet.parts_list("1.7", {"wire": 44})', 'sheet.parts_list("1.7")', "design")])
def test_calls_that_belong_on_no_students_page(typed, left, found):
    sources, things = cleaned(typed)
    assert sources == [left] and {what for what, _ in things} == {found}


def test_a_cell_with_nothing_else_in_it_goes():
    assert cleaned("a = 3", "from lessons_lib import presenting\npresenting()", "", "b = 4")[0] == [
        "a = 3", "", "b = 4"]


QUESTION = {"cell_type": "markdown", "metadata": {}, "source": "### Exercise 1.8\nWrite the body of `voltage`."}


@pytest.mark.parametrize("typed", [
    "def voltage(flux, time):\n    return -np.gradient(flux, time)",
    "import numpy as np\n\ndef slope(a, b):\n    return np.gradient(a, b)\n\n"
    "def voltage(flux, time):\n    # the minus\n    return -slope(flux, time)\nprint(voltage([1], [2]))",
    "voltage = lambda flux, time: -np.gradient(flux, time)"])
def test_a_students_own_function_is_emptied_and_what_it_gave_goes_with_it(typed):
    page, found = clean_page({"cells": [QUESTION, code(typed), code("print(voltage(3, 4))"), code("print(3)")],
                              "metadata": {}}, ASKED)
    _, body, tried, other = page["cells"]
    assert "".join(body["source"]).removeprefix("import numpy as np\n") == "def voltage(flux, time):\n    return ..."
    assert found == [("function", "voltage")] and body["outputs"] == tried["outputs"] == [] != other["outputs"]


def test_other_functions_are_the_pages():
    source = "def slope(flux, time):\n    return 3"
    assert clean_page({"cells": [QUESTION, code(source)], "metadata": {}}, ASKED)[1] == []


def test_traces_of_running_are_taken_out():
    slider = {"output_type": "display_data", "data": {"application/vnd.jupyter.widget-view+json": {}}, "metadata": {}}
    error = {"output_type": "error", "ename": "E", "evalue": "", "traceback": ["/home/ada/pages"]}
    warning = {"output_type": "stream", "name": "stderr", "text": "/home/ada"}
    kept = {"output_type": "execute_result", "data": {"text/plain": "7"}, "metadata": {}, "execution_count": 41}
    cells = [code("print(3)", outputs=[slider, error, warning, kept], id="a"),
             code("panels.hear()", tags=[LIVE], id="b"), code('sheet.given("1.1")', id="c")]
    cells[0]["metadata"] |= {"execution": {"iopub.status.busy": "2030-01-01"}, "trusted": True}
    page = without_traces({"cells": cells, "metadata": {"widgets": {"state": {"b": "typed"}}, "kernelspec": {
        "name": "my-venv"}}})
    assert [cell["outputs"] for cell in page["cells"]] == [[{**kept, "execution_count": 1}], [], []]
    assert [cell["metadata"] for cell in page["cells"]] == [{}, {"tags": [LIVE]}, {}]
    assert set(page["metadata"]) == {"kernelspec", "language_info"}
    assert page["metadata"]["kernelspec"]["name"] == "python3"


# ---- whole pages -----------------------------------------------------------------------------------------------------

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
    clean = {path.name: json.loads(path.read_bytes()) for path in lessons()}
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
