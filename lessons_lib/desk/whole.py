"""The desk as a whole: its steps one below the other, on one course folder."""
from contextlib import contextmanager

import ipywidgets as W
from IPython.display import HTML, display

from lessons_lib.base import by_keyboard
from lessons_lib.course.folder import Course
from lessons_lib.course.telling import EXPECTED, in_words
from lessons_lib.desk.named import Named
from lessons_lib.desk.parts import DESK_STYLE
from lessons_lib.desk.standing import look
from lessons_lib.desk.steps import ChooseCourse, DropReturns, GiveOut, Mark, Read


class InstructorDesk:
    """The steps of a class; display it by naming it last in a cell. Nothing happens before a button is pressed.

    Attributes
    ----------
    standing : FolderState
        Of the folder that was typed.
    """

    def __init__(self, folder=""):
        self.standing, self._read = look(""), None
        self.choose, self.give_out, self.returns, self.mark, self.read, self.named = self.steps = [
            step(self) for step in (ChooseCourse, GiveOut, DropReturns, Mark, Read, Named)]
        self.view = W.VBox([W.HTML(DESK_STYLE), *(step.view for step in self.steps)], layout={"max_width": "100%"})
        self.choose.path.value = str(folder)
        self.look()

    def course(self):
        """Return the `Course`, everything in it to be read afresh, or None."""
        return Course(self.standing.folder) if self.standing.is_course else None

    def look(self):
        """Say how things stand in the folder, and offer its lessons and benches."""
        self.standing = look(self.choose.path.value)
        said = [self.standing.says]
        # lessons are read once a folder: that takes a second
        is_new = self.standing.folder != self._read or self.standing.is_course != bool(self.give_out.boxes.children)
        course, self._read = self.course(), self.standing.folder
        try:
            if is_new:
                self.give_out.show_lessons(course)
            self.read.show_benches(course)
        except EXPECTED as error:
            said.append(in_words(error))
        self.choose.say("\n".join(said))

    @contextmanager
    def held(self):
        """Hold every button while one step works."""
        pressable = [one for step in self.steps for one in step.buttons()]
        for one in pressable:
            one.disabled = True
        try:
            yield
        finally:
            for one in pressable:
                one.disabled = False

    def _ipython_display_(self):
        display(HTML(by_keyboard.BEFORE))
        display(self.view)


def instructor_desk(folder=""):
    """Return the desk, at a course *folder* where one is named.

    Examples
    --------
    >>> instructor_desk().choose.path.value
    ''
    """
    return InstructorDesk(folder)
