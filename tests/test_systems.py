"""What Windows and macOS would trip over, tried without them: names, long paths, encodings, consoles of few letters."""
import ast
import os
import re
import subprocess
import sys
from importlib.metadata import distributions
from pathlib import PurePosixPath, PureWindowsPath
from unicodedata import normalize

import pytest

from fixed_course import TOP, course_in
from lessons_lib.course.file_names import as_compared, is_reserved
from lessons_lib.course.folder import command_line
from lessons_lib.course.pack import files_below, give_out
from small_class import exercise

MOST_LETTERS = 259      # of a path on Windows where long ones are not switched on: MAX_PATH is 260 with the end (from
#                         Microsoft's "Maximum Path Length Limitation", quoted from memory)
FOLDERS = ("lessons_lib", "notebooks", "answers", "tests")


@pytest.fixture(scope="module")
def whole_pack(tmp_path_factory):
    """(name of the pack with all lessons, the names in it below its folder)."""
    from zipfile import ZipFile
    course = course_in(tmp_path_factory.mktemp("whole") / "course", students=1)
    path, *_ = give_out(course, sorted(course.lessons))
    names = ZipFile(path).namelist()
    assert all(name.startswith(f"{path.stem}/") for name in names)
    return path.stem, [name.partition("/")[2] for name in names]


# ---- names and paths -------------------------------------------------------------------------------------------------

def unusable(names):
    """The names that Windows refuses, and those of which it tells no two apart."""
    parts = {part for name in names for part in PurePosixPath(name).parts}
    bad = {part for part in parts if is_reserved(part) or part != part.strip(" ") or part.endswith(".")
           or re.search(r'[<>:"|?*\\\x00-\x1f]', part) or part != normalize("NFC", part)}
    seen, alike = {}, []
    for name in names:
        for path in (name, *map(str, PurePosixPath(name).parents)):
            if seen.setdefault(as_compared(path), path) != path:
                alike.append(path)
    return sorted(bad), alike


def test_every_name_in_the_pack_and_in_the_checkout_can_be_used(whole_pack):
    checkout = [f"{folder}/{name}" for folder in FOLDERS for name in files_below(TOP / folder)
                if "my_work" not in name]
    assert len(checkout) > 500 and len(whole_pack[1]) > 100
    assert unusable(checkout) == unusable(whole_pack[1]) == ([], [])


def test_that_such_names_are_found():
    assert unusable(["a/b.py", "A/c.py"]) == ([], ["A"])
    assert unusable(["Zoe\u0308.py", "Zo\xeb.py"]) == (["Zoe\u0308.py"], ["Zo\xeb.py"])
    assert unusable(["aux.py", "x/con/y", "a:b", "e.", " f", "lpt1.txt", "console.py"])[0] == [
        " f", "a:b", "aux.py", "con", "e.", "lpt1.txt"]


def too_long(folder, names):
    """Those of the paths below a *folder* that Windows does not open by itself."""
    return [name for name in names if len(str(PureWindowsPath(folder, name))) > MOST_LETTERS]


def test_the_pack_can_be_unpacked_where_browsers_put_it(whole_pack):
    """In a zip's folder of the same name, below a person's downloads; Python's own files beside each come to it."""
    name, names = whole_pack
    folder = f"C:\\Users\\{'a' * 20}\\Downloads\\{name}\\{name}"
    compiled = [re.sub(r"([^/]+)\.py$", r"__pycache__/\1.cpython-313.pyc.123456789012", one) for one in names]
    assert too_long(folder, [*names, *compiled, "notebooks/my_work/return-b010-01.json.new"]) == []
    assert too_long(folder + "\\" + "b" * 60, compiled) != []       # and it is not far from there


def test_the_environment_can_be_installed_at_the_top_of_the_disk(whole_pack):
    """Where the README sends people whose paths are too long; what is installed here stands for what is there."""
    below = [str(file).replace("../../../", "../", 1) for one in distributions() for file in one.files or ()
             if "__pycache__" not in str(file)]
    installed = [f"Lib/site-packages/{name}" if not name.startswith("../") else name[3:] for name in below]
    assert len(installed) > 5000
    assert too_long(f"C:\\course\\{whole_pack[0]}\\.venv", installed) == []
    assert too_long(f"C:\\{'a' * 150}\\.venv", installed) != []


# ---- text files ------------------------------------------------------------------------------------------------------

def unsaid(source):
    """Lines of calls that leave encoding or line ends of a text to the system."""
    for call in (node for node in ast.walk(ast.parse(source)) if isinstance(node, ast.Call)):
        name, owner = getattr(call.func, "attr", getattr(call.func, "id", "")), getattr(call.func, "value", None)
        said = {one.arg for one in call.keywords}
        words = [one.value for one in (*call.args, *(key.value for key in call.keywords if key.arg == "mode"))
                 if isinstance(one, ast.Constant)]
        mode = next((word for word in words if re.fullmatch("[rwxab+t]+", str(word))), "r")
        is_ours = isinstance(owner, ast.Name) and owner.id in ("reading", "os", "archive")     # these open no text
        if name == "read_text" and owner and not is_ours:
            wrong = not (said & {"encoding"} or call.args)
        elif name == "write_text":
            wrong = not {"encoding", "newline"} <= said
        elif name == "open" and not is_ours and "b" not in mode:
            wrong = not {"encoding", *(() if mode == "r" else {"newline"})} <= said
        else:
            wrong = name in ("run", "Popen", "check_output") and "text" in said and "encoding" not in said
        if wrong:
            yield call.lineno


@pytest.mark.parametrize("folder", ["lessons_lib", "answers"])
def test_every_text_file_is_opened_with_its_encoding_and_written_with_its_line_ends(folder):
    found = {str(path): lines for path in (TOP / folder).rglob("*.py")
             if (lines := list(unsaid(path.read_text(encoding="utf-8"))))}
    assert found == {}


def test_that_such_calls_are_found():
    wrong = ["open(p)", "open(p, 'w', encoding='utf-8')", "p.open('a')", "p.read_text()", "p.write_text('x')",
             "p.write_text(x, encoding='utf-8')", "subprocess.run(w, text=True)", "open(p, mode='x', encoding='utf-8')"]
    right = ["open(p, 'rb')", "p.open('ab')", "p.read_text('utf-8')", "os.open(p, f)", "reading.read_text(v)",
             "p.write_text(x, encoding='utf-8', newline='')", "open(p, encoding='utf-8')", "read_text(v)",
             "run(w, text=True, encoding='utf-8')", "open(p, 'w', encoding='utf-8', newline='')"]
    assert [list(unsaid(one)) for one in (*wrong, *right)] == [*[[1]] * len(wrong), *[[]] * len(right)]


# ---- a console of few letters ----------------------------------------------------------------------------------------

EACH = """import runpy, sys
for words in {commands!r}:
    sys.stdout.reconfigure(errors="strict")
    sys.argv = ["lessons_lib", *words]
    print("$", *words[:1], flush=True)
    try:
        runpy.run_module("lessons_lib", run_name="__main__", alter_sys=False)
    except SystemExit as done:
        print("\\n=", done.code, flush=True)
"""


def test_every_command_prints_on_a_console_of_western_letters(small):
    """As on Windows where UTF-8 is not switched on: what the code page has not becomes a question mark, at worst."""
    student = small.student("b010")
    student.right(exercise(student, "1.1"))
    small.give_back(student)
    (small.folder / "class_list.csv").write_text("bench,student\nb010,Łukasz Чан\nb011,Ωmega → ∞\nb012,李\n",
                                                 encoding="utf-8")
    small.settings('title = "Przetwornik Ω 李 →"\ndeadlines = { "01" = 2030-03-01T18:00:00 }')
    folder, beside = str(small.folder), str(small.home / "jesień Ω")
    commands = [["new-course", beside, "--like", folder], ["give-out", folder, "--lessons", "1"], ["mark", folder],
                ["mark", folder], ["play", folder], ["key", folder], ["missing", folder], ["received", folder],
                ["marks-table", folder], ["notes-by-name", folder], ["joint-report", folder, "--with", folder],
                ["oneroster", folder], ["evenings", folder], ["worked-answers", folder, "--bench", "b010"],
                ["handouts", str(small.home / "druk → 李"), "--lessons", "90"], ["remove-course", beside],
                ["marks-table", folder, "--columns", "Ω"], ["mark", f"{beside}x"]]
    console = {"PYTHONIOENCODING": "cp1252:strict", "PYTHONUTF8": "0",
               "PYTHONPATH": os.pathsep.join([str(TOP), str(TOP / "tests")])}
    done = subprocess.run([sys.executable, "-c", EACH.format(commands=commands)], capture_output=True,
                          stdin=subprocess.DEVNULL, env={**os.environ, **console})
    said, failed = done.stdout.decode("cp1252"), done.stderr.decode("cp1252")
    assert "Traceback" not in failed and "UnicodeEncodeError" not in failed, failed
    assert re.findall(r"^\$ (\S+)", said, re.MULTILINE) == [words[0] for words in commands]
    assert [int(code) for code in re.findall(r"^= (\S+)", said, re.MULTILINE)] == [
        # pages of another lesson, a course with itself, nothing typed, no such column, no course
        words[0] in ("play", "joint-report", "remove-course") or words[-1] in ("Ω", f"{beside}x") for words in commands]
    assert "Missing: ?mega ? ? (b011); ? (b012)." in said and f"{small.home}/jesie? ?" in said


# ---- how Windows writes a path ---------------------------------------------------------------------------------------

def test_a_command_is_told_as_the_command_prompt_takes_it(monkeypatch):
    monkeypatch.setattr("lessons_lib.course.folder.os.name", "nt")
    monkeypatch.setattr(sys, "orig_argv", [r".venv\Scripts\python"])
    said = command_line("mark", PureWindowsPath(r"D:\My courses\autumn"))
    monkeypatch.undo()
    assert said == r'.venv\Scripts\python -m lessons_lib mark "D:\My courses\autumn"'


@pytest.mark.parametrize("named, path", [("../mine/answers", r"D:\autumn\..\mine\answers"),
                                         ("C:/mine/answers", r"C:\mine\answers"), ("/mine", r"D:\mine")])
def test_a_folder_in_the_settings_is_seen_from_the_course_on_any_drive(named, path):
    """What `read_settings` does with it, by Python's own rules for Windows."""
    assert PureWindowsPath(r"D:\autumn") / named == PureWindowsPath(path)
