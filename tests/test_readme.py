"""README and guide name files that are there, and the checking machine finds the README's test command."""
import re
import subprocess
from pathlib import Path

import pytest

import readme_pictures

TOP = Path(__file__).resolve().parent.parent


@pytest.mark.parametrize("page", ["README.md", "DEVELOPERS.md"])
def test_named_files_are_there(page):
    text = (TOP / page).read_text(encoding="utf-8")
    named = set(re.findall(r"\b(?:tests|notebooks|lessons_lib|answers)/[\w./]+\.(?:py|md|txt|png|ipynb)\b", text))
    named = {name for name in named if "NN" not in name}
    assert named
    assert [name for name in sorted(named) if not (TOP / name).exists()] == []


def test_every_lesson_is_in_the_readme():
    text = (TOP / "README.md").read_text(encoding="utf-8")
    for notebook in (TOP / "notebooks").glob("[0-9][0-9]_*.ipynb"):
        assert f"| {notebook.name[:2]} " in text, notebook.name


def test_what_self_checking_is_good_for_is_said_to_instructors_and_students():
    words = {"README.md": "A seal keeps the answer from being read; it does not stop someone who programs",
             "lessons_lib/course/templates/pack_readme.md": "the verdicts are for practice",
             "notebooks/00_start_here.ipynb": "marks do not rest on it"}
    for page, said in words.items():
        assert said in (TOP / page).read_text(encoding="utf-8"), page


def test_every_lesson_is_linked_on_the_first_page():
    first = (TOP / "notebooks" / "00_start_here.ipynb").read_text(encoding="utf-8")
    for notebook in (TOP / "notebooks").glob("0[1-9]_*.ipynb"):
        assert f"({notebook.name})" in first


def test_the_checking_machine_runs_the_readmes_own_command():
    program = re.search(r"awk '([^']+)'", (TOP / ".ci" / "run").read_text(encoding="utf-8"))[1]
    found = subprocess.run(["awk", program, str(TOP / "README.md")], capture_output=True, text=True, check=True).stdout
    assert found.count("\n") == 1 and found.strip().endswith("-m pytest tests")


@pytest.mark.parametrize("name", readme_pictures.LESSON_PICTURES)
def test_no_picture_of_a_page_is_older_than_its_words(name):
    picture = readme_pictures.LESSON_PICTURES[name]
    assert readme_pictures.digest_kept(name) == readme_pictures.digest(picture.words()), "run tests/readme_pictures.py"


def test_the_picture_of_the_class_report_is_not_older_than_its_words(term):
    page = (term / "marks" / "class_report.html").read_text(encoding="utf-8")
    words = readme_pictures.report_words(page)
    assert "What to teach again" in words[0]
    assert readme_pictures.digest_kept("class_report") == readme_pictures.digest(words), "run tests/readme_pictures.py"
