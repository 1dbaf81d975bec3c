"""``oneroster``: the marks of lessons by the open standard OneRoster 1.2 (1EdTech, formerly IMS Global), as CSV.

Read in public sources for this: the names of the manifest's properties, the columns of lineItems.csv and results.csv
with those that must be filled, the words for ``scoreStatus``. From memory, since the standard's own tables could not be
read: the order of the columns, the columns of categories.csv, that a delta may name classes, schools and users that the
receiver knows already, UTF-8 without a byte-order mark. README.txt beside the files says so.
"""
import io
import re
import zipfile
from dataclasses import dataclass
from datetime import datetime, timezone

from lessons_lib.base.pages import LIBRARY
from lessons_lib.course.class_list import heading_of
from lessons_lib.course.tables import refuse, table_bytes
from lessons_lib.course.with_names import NAMES_FOLDER, NamedMarks
from lessons_lib.exercises.sheet_file import write_whole

_IN_EACH = ("sourcedId", "status", "dateLastModified")
COLUMNS = {
    "categories": (*_IN_EACH, "title", "weight"),
    "lineItems": (*_IN_EACH, "title", "description", "assignDate", "dueDate", "classSourcedId", "categorySourcedId",
                  "academicSessionSourcedId", "resultValueMin", "resultValueMax", "schoolSourcedId"),
    "results": (*_IN_EACH, "lineItemSourcedId", "studentSourcedId", "scoreStatus", "score", "scoreDate", "comment",
                "textScore", "classSourcedId", "inProgress", "incomplete", "late", "missing"),
}
MANIFEST = ("manifest.version", "oneroster.version", *(f"file.{name}" for name in (
    "academicSessions", "categories", "classes", "classResources", "courses", "courseResources", "demographics",
    "enrollments", "lineItemLearningObjectiveIds", "lineItems", "lineItemScoreScales", "orgs", "resources",
    "resultLearningObjectiveIds", "results", "resultScoreScales", "roles", "scoreScales", "userProfiles",
    "userResources", "users")), "source.systemName", "source.systemCode")
_VALUES = {"manifest.version": "1.0", "oneroster.version": "1.2", "source.systemName": "Marks of lessons in notebooks",
           "source.systemCode": "lessons_lib"}


@dataclass(frozen=True, kw_only=True)
class Ids:
    """What the college's system calls things; *student* is a column of the class list, empty for the benches.

    An empty text for *group* (the class), *school* or *session* is replaced by one that is made up.
    """

    student: str = ""
    group: str = ""
    school: str = ""
    session: str = ""


def oneroster_files(course, ids):
    """Return name -> bytes of the standard's files for the marks of a course, and README.txt.

    Raises
    ------
    ValueError
        Where there are no marks, or a student has no id, or two have the same; the message is one sentence.
    """
    marks = NamedMarks(course)
    column = ids.student or next((one for one in marks.headings if one.lower() == "sourcedid"), "")
    students = _students_and_ids(marks, column)
    made_up = re.sub(r"[^A-Za-z0-9]+", "-", course.settings.title).strip("-").lower()
    called = {"class": ids.group or made_up or "class", "school": ids.school or "school",
              "academic session": ids.session or "session"}
    marked = datetime.fromtimestamp((course.folder / "marks" / "marks.csv").stat().st_mtime).astimezone()
    always = ("active", f"{marked.astimezone(timezone.utc):%Y-%m-%dT%H:%M:%S.000Z}")
    group, school, session = called.values()
    category = f"{group}-lessons"
    tables = {"categories": [(category, *always, "Lessons", None)], "lineItems": [], "results": []}
    for heading in marks.lessons:
        number, most = re.fullmatch(r"lesson (\d+) \(of ([\d.,]+)\)", heading).groups()
        due = course.settings.deadlines.get(number, marked)
        item = f"{group}-lesson-{number}"
        tables["lineItems"].append((
            item, *always, f"Lesson {number}, {course.lessons[number].title}", course.settings.title, f"{due:%Y-%m-%d}",
            f"{due:%Y-%m-%d}", group, category, session, 0, float(most.replace(",", ".")), school))
        for student, student_id in students:
            tables["results"].append((
                f"{item}-{student_id}", *always, item, student_id,
                *_result(marks, heading, marks.row(student), f"{marked:%Y-%m-%d}", group)))
    files = {f"{name}.csv": _csv(COLUMNS[name], rows) for name, rows in tables.items()}
    files["manifest.csv"] = _csv(("propertyName", "value"), [
        (name, _VALUES.get(name) or ("delta" if name.removeprefix("file.") in COLUMNS else "absent"))
        for name in MANIFEST])
    not_given = [f"{what}: {value}" for (what, value), own in zip(called.items(), (ids.group, ids.school, ids.session))
               if not own]
    readme = (LIBRARY / "course/templates/oneroster_readme.txt").read_text(encoding="utf-8")
    files["README.txt"] = readme.format(
        students=f"the column {column} of class_list.csv" if column else "their benches",
        ids="\n".join(f"  {one}" for one in not_given) or "  none").encode()
    return files


def _students_and_ids(marks, column):
    """(student, id) of the whole class."""
    if not column:
        return [(student, student.benches[0]) for student in marks.students]
    heading, found, faults = heading_of(marks.students, column), {}, []
    for student in marks.students:
        student_id = student.cells[heading]
        if not student_id or student_id in found:
            why = "is there twice" if student_id else "is empty"
            faults.append(f"class_list.csv: the {heading} of {student.benches[0]} {why}; each student needs another "
                          "one.")
        found[student_id] = student
    refuse(faults)
    return [(student, student_id) for student_id, student in found.items()]


def _result(marks, lesson, row, date, group):
    score = row.get(lesson)
    cells = [row.get(heading) for heading in marks.of_lesson(lesson)]
    late = next((row.get(heading) for heading in marks.of_lesson(lesson) if heading.endswith("late %")), None)
    waits, yes = "to mark" in cells, {True: "true", False: "false"}
    status = "not submitted" if score is None else "partially graded" if waits else "fully graded"
    return (status, score, date, None, None, group, "false", yes[waits], "" if late is None else yes[bool(late)],
            yes[score is None])


def _csv(head, rows):
    return table_bytes(head, rows).removeprefix(b"\xef\xbb\xbf")      # a machine reads it: no mark, decimal points


def write_oneroster(course, ids):
    """Write the files into with_names/oneroster of the course folder; return that folder and how many results."""
    folder = course.folder / NAMES_FOLDER / "oneroster"
    with course.busy():
        files = oneroster_files(course, ids)
        sink = io.BytesIO()
        with zipfile.ZipFile(sink, "w") as archive:
            for name, data in sorted(files.items()):
                write_whole(folder / name, data)
                if name.endswith(".csv"):
                    archive.writestr(zipfile.ZipInfo(name), data, zipfile.ZIP_DEFLATED)
        write_whole(folder / "oneroster.zip", sink.getvalue())
    return folder, files["results.csv"].count(b"\r\n") - 1
