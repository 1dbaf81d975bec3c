"""The step of the desk with names in it: who is missing, marks and notes by name, several sections together."""
from pathlib import Path

import ipywidgets as W

from lessons_lib.course.class_list import who_is_missing
from lessons_lib.course.commands import joint_told, marks_table_told, missing_told, named_notes_told
from lessons_lib.course.folder import Course
from lessons_lib.course.joint import JOINT_REPORT, joint_report
from lessons_lib.course.with_names import NAMES_FOLDER, write_marks_table, write_named_notes
from lessons_lib.desk.parts import WIDE, DeskStep, button, row


class Named(DeskStep):
    """What has names in it, and what is of several course folders."""

    title = "6. Names and sections"
    explains = ("Names and all other columns come from class_list.csv. What is written has names in it and is in the "
                "folder with_names: for you, for the college's own system, and each page for its student alone.")

    def controls(self):
        style = {"description_width": "15em"}
        self.columns = W.Text(description="Columns of the table:", style=style, layout=WIDE,
                              placeholder="all of the class list, total, lessons; or number, student, total")
        self.by = W.Text(description="Pages named by column:", style=style, layout=WIDE, placeholder="student")
        self.others = W.Text(description="Together with the sections in:", style=style, layout=WIDE,
                             placeholder="nothing, or course folders such as ~/autumn-b; ~/autumn-c")
        return [row(button("Who has not handed in", self._missing)),
                self.columns, self.others, row(button("Table of marks with names", self._table),
                                               button("One report of all sections", self._joint)),
                self.by, row(button("Pages of notes by name", self._notes))]

    def _missing(self):
        self.work_on(lambda course: missing_told(*who_is_missing(course)))

    def _courses(self, course):
        others = [text.strip() for text in self.others.value.split(";") if text.strip()]
        return [course, *(Course(Path(text).expanduser()) for text in others)]

    def _table(self):
        name = "joint_marks.csv" if self.others.value.strip() else "marks.csv"

        def write(course):
            columns = [column.strip() for column in self.columns.value.split(",") if column.strip()]
            return marks_table_told(*write_marks_table(self._courses(course), columns))

        self._write(f"{NAMES_FOLDER}/{name}", write)

    def _notes(self):
        self._write(f"{NAMES_FOLDER}/letters.csv",
                    lambda course: named_notes_told(*write_named_notes(course, self.by.value.strip())))

    def _joint(self):
        def write(course):
            courses = self._courses(course)
            return joint_told(courses, *joint_report(courses))

        self._write(JOINT_REPORT, write)

    def _write(self, name, write):
        self.work_on(write, there=name, question="{path} is there from before and will be written again.",
                     choices={"Yes, write it again": write, "No, leave it": None})
