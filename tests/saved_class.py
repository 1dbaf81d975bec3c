"""An invented class of three whose tables are filled in with a spreadsheet: what it hands in, what should come out."""
import os

from small_class import SmallClass, exercise

TABLES = ("class_list.csv", "received.csv", "extensions.csv", "marks/open_questions.csv")
TEXTS = {"b010": 'A spade; the soil is heavy, and a "fork" is no help.\n- first the edge\n- then the middle',
         "b011": "=1+1 spades, für schwere Böden, 2,5 mal so tief.",
         "b012": "-3.86 dB\tis no tool; a rake is one: it is light."}
SETTINGS = """
deadlines = { "01" = 2030-10-30T18:00:00 }
late = { percent_a_day = 10, at_most = 50 }
"""
COPIED = 1_919_700_000       # s, when somebody's machine is said to have copied the returns: 31 October 2030


class SavedClass(SmallClass):
    """Three benches that have handed in a number and a text each; the deadline has passed."""

    def __init__(self, folder, hands_in=True):
        super().__init__(folder)
        self.settings(SETTINGS)
        for bench, text in TEXTS.items() if hands_in else ():
            student = self.student(bench)
            student.right(exercise(student, "1.1"))
            student.type("1.5", text)
            os.utime(self.give_back(student), (COPIED, COPIED))
