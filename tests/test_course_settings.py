"""A course's settings: those that are taken, those that are refused, and in which sentence."""
import pytest

from exercises_following import write_answers
from lessons_lib.course.folder import Course
from lessons_lib.course.pack import read_lessons
from lessons_lib.course.settings import Late, new_settings, read_settings


def settings_of(tmp_path, text):
    path = tmp_path / "course.toml"
    path.write_text(text, encoding="utf-8")
    return read_settings(path)


def test_the_template_can_be_read_as_it_is_and_with_every_example_switched_on(tmp_path):
    plain = settings_of(tmp_path, new_settings("autumn"))
    assert plain.title == "autumn" and plain.late == Late() and not plain.decimal_comma
    every = new_settings("autumn").replace("\n# ", "\n").replace("Settings of this course. Lines that", "#")
    every = "\n".join(line for line in every.splitlines() if line[:1] in "[\"" or "=" in line)
    on = settings_of(tmp_path, every)
    assert on.answers == tmp_path / "../answers" and on.decimal_comma and on.late.percent_a_day == 10
    assert on.further_counts and not plain.further_counts
    assert on.marks == {"1.3": 3} and on.slip_marks == {"1.1": {"pi": 0.5}} and on.extensions == {"b017": 2}


@pytest.mark.parametrize("text, words", [
    ("title = ", "cannot be read"), ("tolerance = 3", '"tolerance" is not a setting; there are title, answers'),
    ("title = 3", "title must be a text in quotes; got 3."), ("decimal_comma = 1", "must be true or false"),
    ("further_counts = 1", "further_counts must be true or false; got 1."), ("further_count = true", "Did you mean"),
    ("carried_forward = 2", "a share from 0 to 1"), ('[marks]\n"1.3" = -1', "a number from 0 for each name"),
    ('[marks]\n"1.3" = true', "a number from 0"), ('[marks]\n"1.3" = nan', "a number from 0"),
    ('[tolerances]\n"1.3" = 0', "a number above 0"), ('[slip_marks]\n"1.1" = 1', "a table of slip and marks"),
    ('[deadlines]\n"01" = 3', "such as 2030-10-10T18:00:00"),
    ('[deadlines]\n"01" = 2030-10-10T18:00:00\n"02" = 2030-10-10', 'to 2999; got "02" = 2030-10-10.'),
    ('[deadlines]\n"02" = 10.10.2030', "Write a date and time as 2030-10-10T18:00:00."),
    ('[deadlines]\n"01" = 0001-01-01T00:00:00', "in the years from 1971 to 2999; got"),
    ('[deadlines]\n"01" = 9999-12-31T23:59:59', "in the years from 1971 to 2999; got"),
    ("[late]\nat_most = 150", "at_most"), ("[late]\nat_most = 150", "100"),
    ("[late]\npercent_a_day = 101", "percent_a_day must be from 0 to 100 (per cent); got 101."),
    ('[tolerance]\n"1.3" = 0.1', "Did you mean tolerances?"), ("[late]\nat_least = 3", "Did you mean at_most?"),
    ('[late]\npercent = 3', '"percent" is not a setting of [late]'),
    ('answers = "C:\\Users\\ada"', 'Write folders with /, on Windows, too, such as "C:/mine/answers".'),
    ('answers = "D:\\mine"', "Write folders with /"), ('notebooks = "C:\\new"', "notebooks must be written with /, on "
     "Windows, too; got 'C:\\new'."), ("late = 3", "late must be"), ("\udcff", "cannot be read"),
])
def test_settings_that_cannot_be_used(tmp_path, text, words):
    path = tmp_path / "course.toml"
    path.write_bytes(text.encode("utf-8", "surrogateescape"))
    with pytest.raises(ValueError, match="course.toml") as caught:
        read_settings(path)
    assert words in str(caught.value)


@pytest.mark.parametrize("text, words", [
    ('[marks]\n"9.9" = 1', 'marks in course.toml must name an exercise; got "9.9".'),
    ('[tolerances]\n"1,3" = 0.1', 'tolerances in course.toml must name an exercise; got "1,3". Did you mean 1.3?'),
    ('[marks]\n"p1" = 3', "p1 is a prediction, which is never scored. Take its line out."),
    ('[marks]\n"m1" = 0.5', "m1 is a quick question, which is"),
    ('[slip_marks."1.1"]\n"open parts" = 1', "Did you mean open part?"),
    ('[deadlines]\n"1" = 2030-10-10T18:00:00',
     'deadlines in course.toml must name a lesson; got "1". Did you mean 01?'),
    ('[deadlines]\n"09" = 2030-10-10T18:00:00', 'must name a lesson; got "09".'),
    ('[extensions]\n"B017" = 2', 'extensions in course.toml must name a bench of the class; got "B017". Did you mean '
                                 'b017?'),
    ('[extensions]\n"b17" = 2', "Did you mean b017?"), ('[extensions]\n"17" = 2', "Did you mean b017?"),
    ('[extensions]\n"Anna" = 2', 'must name a bench of the class; got "Anna".'),
    ('[extensions]\n"b901" = 2', 'must name a bench of the class; got "b901".'),
    ('[slip_marks."1.1"]\nx = 1', 'exercise 1.1 has no slip "x"; it has open part, all of it, diameter for radius'),
    ('[slip_marks."1.4"]\nx = 1', "it has none"),
    ('[tolerances]\n"1.1" = 1.5', "exercise 1.1 takes a share below 1; got 1.5."),
    ('[tolerances]\n"1.4" = 0.1', "exercise 1.4 takes none; got 0.1."),
])
def test_settings_for_what_is_not_there(folder, tmp_path, text, words):
    answers = write_answers(tmp_path / "answers")
    (folder / "course.toml").write_text(f"answers = '{answers}'\n{text}", encoding="utf-8")
    with pytest.raises(ValueError) as caught:
        Course(folder).lessons
    assert words in str(caught.value)


def test_settings_for_what_is_there_are_taken(folder, tmp_path):
    (folder / "course.toml").write_text(f"answers = '{write_answers(tmp_path / 'answers')}'\n" + """
[marks]
"1.1" = 3
"p1" = 0
[deadlines]
"01" = 2030-10-10T18:00:00
[late]
percent_a_day = 100
at_most = 100
[extensions]
"b017" = 2
""", encoding="utf-8")
    assert list(Course(folder).lessons) == ["00", "01"]


@pytest.mark.parametrize("text, ids", [("1", ["01"]), ("1-3", ["01", "02", "03"]), ("00", ["00"]),
                                       (" 1 , 4-5,2", ["01", "02", "04", "05"])])
def test_lists_of_lessons(text, ids):
    assert read_lessons(text) == ids


@pytest.mark.parametrize("text", ["", "one", "1-", "3-1", "1..3", "٣", "100", "1,"])
def test_what_is_no_list_of_lessons(text):
    with pytest.raises(ValueError, match="names no lessons"):
        read_lessons(text)
