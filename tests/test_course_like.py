"""Next year and another section: settings taken along, a new secret, one report of several courses."""
import re
import shutil

import pytest

from lessons_lib.__main__ import main
from lessons_lib.course.class_list import read_class_list
from lessons_lib.course.folder import Course, same_secret
from lessons_lib.course.make_and_remove import new_course, new_course_like
from lessons_lib.course.settings import read_settings
from small_class import SECRET, SmallClass, exercise

SETTINGS = """\
# our own words
title = "Coils # and [strings]"      # what students read
answers = '{answers}'
notebooks = "pages"
instrument = "own/instrument.toml"
deadlines."02" = 2030-01-01T12:00:00
carried_forward = 0.5

[marks]
"1.1" = 5           # more than usual
[slip_marks]
"1.1" = {{ "pi" = 1 }}

[deadlines]         # of last year
# "03" = 2030-10-10T18:00:00
"01" = 2030-10-10T18:00:00
[late]
percent_a_day = 10
[extensions]
"b010" = 2
"""


@pytest.fixture
def old(tmp_path):
    folder = tmp_path / "autumn"
    new_course(folder, 4)
    (tmp_path / "answers").mkdir()
    text = SETTINGS.format(answers="../answers").replace('deadlines."02"', '# deadlines."02"')
    (folder / "course.toml").write_text(text, encoding="utf-8-sig")
    (folder / "class_list.csv").write_text("Bench;Student;Number;instead of\nb010;Ada;17;\nb011;Bo;18;\nb901;;;b011\n")
    for name in ("pages/01_a.ipynb", "pages/data/x.csv", "pages/my_work/log.jsonl", "pages/__pycache__/x",
                 "own/instrument.toml", "given_out/01.json", "marks/marks.csv", "received.csv", "returned/x.json"):
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text("x")
    return folder


def files(folder):
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}


def test_settings_go_along_and_all_that_belongs_to_a_class_stays(old, tmp_path, capsys):
    before = {path: path.read_bytes() for path in old.rglob("*") if path.is_file()}
    assert main(["new-course", str(tmp_path / "autumn27"), "--like", str(old)]) == 0
    said = capsys.readouterr().out
    for words in ("still read the title “Coils # and [strings]”", "Left out: deadlines (1), extensions (1),",
                  "Copied with them: pages, own/instrument.toml.",
                  "the columns Bench, Student, Number is empty, for 2 b"):
        assert words in said
    new = tmp_path / "autumn27"
    assert files(new) == {".gitignore", "course.toml", "class_list.csv", "secret.txt", "pages/01_a.ipynb",
                          "pages/data/x.csv", "own/instrument.toml"}
    settings, was = read_settings(new / "course.toml"), read_settings(old / "course.toml")
    assert (settings.marks, settings.slip_marks, settings.late, settings.carried_forward, settings.title) == (
        was.marks, was.slip_marks, was.late, was.carried_forward, was.title)
    assert settings.deadlines == settings.extensions == {} and was.deadlines and was.extensions
    assert settings.answers.resolve() == tmp_path / "answers" and settings.notebooks == new / "pages"
    assert settings.instrument == new / "own/instrument.toml"
    lines = (new / "course.toml").read_text().split("\n")
    assert "# our own words" in lines and "[deadlines]         # of last year" in lines
    assert [(one.benches, one.name, one.cells) for one in read_class_list(Course(new))] == [
        ((bench,), "", {"Student": "", "Number": ""}) for bench in ("b010", "b011")]
    assert Course(new).secret != Course(old).secret and same_secret(Course(new)) == []
    assert {path: path.read_bytes() for path in before} == before


def test_a_folder_elsewhere_names_the_same_answers(old, tmp_path):
    new_course_like(tmp_path / "years" / "2031" / "autumn", old, 7)
    course = Course(tmp_path / "years" / "2031" / "autumn")
    assert course.settings.answers.resolve() == tmp_path / "answers" and len(course.students) == 7
    assert 'answers = "../../../answers"' in (course.folder / "course.toml").read_text()


@pytest.mark.parametrize("place", ["itself", "a course", "no course", "copied"])
def test_what_cannot_be_made_like_another(old, tmp_path, place, capsys):
    new_course(tmp_path / "spring", 1)
    shutil.copytree(old, tmp_path / "copied")
    folder, like = {"itself": (old, old), "a course": (tmp_path / "spring", old), "copied": (tmp_path / "copied", old),
                    "no course": (tmp_path / "new", tmp_path)}[place]
    assert main(["new-course", str(folder), "--like", str(like)]) == 1
    said = capsys.readouterr().err
    assert ("is not a course folder" if place == "no course" else "is a course already") in said
    assert said.count("\n") == 1 and not (tmp_path / "new").exists()


def test_settings_that_are_written_in_an_unusual_way_are_not_half_taken_along(old, tmp_path):
    (old / "course.toml").write_text('title = """\n[deadlines]\nx = 1\n"""\n')
    with pytest.raises(ValueError, match="is written in a way that cannot be taken along"):
        new_course_like(tmp_path / "new", old)
    assert not (tmp_path / "new").exists()


def test_without_like_it_is_as_before(tmp_path, capsys):
    assert main(["new-course", str(tmp_path / "a")]) == 0 and len(Course(tmp_path / "a").students) == 30
    assert "New in" in capsys.readouterr().out


# ---- one secret in two folders ---------------------------------------------------------------------------------------

def test_a_copied_folder_is_warned_of_by_give_out_mark_and_desk(small, capsys):
    from lessons_lib.desk.standing import look
    for command in (["give-out", str(small.folder)], ["mark", str(small.folder)]):
        assert main(command) == 0 and "same secret" not in capsys.readouterr().out
    shutil.copytree(small.folder, small.home / "copied")
    for command in (["give-out", str(small.home / "copied")], ["mark", str(small.home / "copied")]):
        assert main(command) == 0
        said = capsys.readouterr().out
        assert f"{small.folder} has the same secret as {small.home / 'copied'}" in said and "new-course --like" in said
    assert "has the same secret" in look(str(small.folder)).says
    (small.home / "copied" / "secret.txt").write_text(SECRET.upper())
    assert "same secret" not in look(str(small.folder)).says


def test_folders_beside_that_cannot_be_read_are_passed_over(small):
    (small.home / "a" / "secret.txt").mkdir(parents=True)
    (small.home / "b").mkdir()
    (small.home / "b" / "secret.txt").write_bytes(b"\xff" * 64)
    assert same_secret(small.course) == []


# ---- several sections ------------------------------------------------------------------------------------------------

@pytest.fixture
def sections(small, tmp_path):
    """Two sections of three, given out under two secrets; in each somebody has handed in."""
    other = SmallClass(small.home / "b")
    other.settings('title = "Section B"')
    for section, bench, ids in ((small, "b010", ("1.1", "1.4")), (other, "b010", ("1.1",)), (other, "b011", ())):
        student = section.student(bench)
        for exercise_id in ids:
            student.right(exercise(student, exercise_id))
        student.unclear("1.2", f"why {bench}?")
        section.give_back(student)
        (section.folder / "class_list.csv").write_text("bench,student\n" + "".join(
            f"b01{number},Namesake {number}\n" for number in range(3)))
    return small, other


def test_one_report_of_two_sections(sections, capsys):
    """Three returns of six benches; 1.1 was right twice and 1.4 once, as they were answered above."""
    one, other = sections
    assert main(["joint-report", str(one.folder), "--with", str(other.folder)]) == 0
    said = capsys.readouterr().out
    assert f"{one.folder}: work from 1 of 3 benches was marked." in said and "work from 2 of 3" in said
    page = (one.folder / "joint_report.html").read_text(encoding="utf-8")
    assert "<h1>Class report: Course and Section B</h1>" in page
    assert "Benches: 6. Returned, lesson by lesson: 00: 0, 01: 3." in page
    found = dict(re.findall(r"<td class=id>(1\.\d)</td>.*?<td class=number>[^<]*</td>"
                            r"<td class=number>([^<]*)</td>", " ".join(page.split()).replace("> <", "><")))
    assert found["1.1"] == "2 of 2" and found["1.4"] == "1 of 1"
    assert "why b010?" in page and "Namesake" not in page
    for section in sections:        # each has its own marks, as mark would have written them
        before = (section.folder / "marks/marks.csv").read_bytes()
        section.mark()
        assert (section.folder / "marks/marks.csv").read_bytes() == before
        assert "Benches: 3" in section.text("class_report.html")


def test_different_lessons_are_not_added_up(sections, capsys):
    from exercises_following import write_answers
    one, other = sections
    write_answers(other.answers, """
from dataclasses import replace
from exercises_following import GARDEN
LESSON = replace(GARDEN, version=2)
""")
    assert main(["joint-report", str(one.folder), "--with", str(other.folder)]) == 1
    assert "Lesson 01 of Section B has not the same exercises, or not the same version" in capsys.readouterr().err
    assert main(["joint-report", str(one.folder)]) == 1
    assert main(["joint-report", str(one.folder), "--with", f"{one.folder}/../course"]) == 1
    assert capsys.readouterr().err.count("needs at least two different course folders") == 2
    assert not (one.folder / "joint_report.html").exists()
