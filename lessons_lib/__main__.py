"""``python -m lessons_lib``: what an instructor runs from the command line."""
import argparse
import sys
from pathlib import Path

from lessons_lib.course import commands
from lessons_lib.course.telling import EXPECTED, in_words

_FOLDER = {"type": Path, "metavar": "FOLDER", "help": "the course folder"}
_WITH = {"type": Path, "metavar": "FOLDER", "action": "append", "default": [], "dest": "others",
         "help": "another course folder of the same lessons; may be given several times"}


def _run_handouts(arguments):
    from lessons_lib.handouts.write import run_handouts  # brings the panels, and their drawing
    return run_handouts(arguments)


# command -> (what runs it and returns the words to print, what it does, example, arguments behind the folder)
_COMMANDS = {
    "new-course": (commands.run_new_course, "make a course folder: settings, secret, class list to fill in",
                   "autumn --students 24", {
        "--students": {"type": int, "metavar": "N", "help": "benches on the class list (default: 30, or as many as the "
                                                            "other course has)"},
        "--like": {"type": Path, "metavar": "FOLDER", "help": "take the settings of this course along, without its "
                                                              "deadlines, extensions, secret and names"}}),
    "give-out": (commands.run_give_out, "make one pack for everybody, and the bench cards", "autumn --lessons 1-2", {
        "--lessons": {"metavar": "LIST", "help": "lessons to add, such as 1-2 or 3; without it the pack of the lessons "
                                                 "given out so far is made again"},
        "--as-typed": {"action": "store_true", "help": "leave in the pages what you typed into them: answers, cards, "
                                                       "presenting()"}}),
    "mark": (commands.run_mark, "mark everything in the folder returned", "autumn", {}),
    "marks-table": (commands.run_marks_table, "write the marks with names and other columns of the class list",
                    'autumn --columns "number,student,total"', {
        "--columns": {"metavar": "LIST", "help": "headings of the class list and of marks.csv, with commas between "
                                                 "(default: the class list's, the total and the lessons)"},
        "--with": _WITH}),
    "oneroster": (commands.run_oneroster, "write the marks of lessons by the open standard OneRoster 1.2",
                  "autumn --student-id number --class-id 4711", {
        f"--{what}-id": {"default": "", "metavar": metavar, "help": words} for what, metavar, words in (
            ("student", "COLUMN", "column of the class list with the system's name of each student (default: "
                                  "sourcedId where there is one, else the bench)"),
            ("class", "ID", "the system's name of the class (default: made up)"),
            ("school", "ID", "of the school"), ("session", "ID", "of the term"))}),
    "joint-report": (commands.run_joint_report,
                     "mark several courses of the same lessons, and write one class report of them all",
                     "autumn --with autumn-b", {"--with": _WITH}),
    "notes-by-name": (commands.run_notes_by_name, "write each student's page of notes under their name, ready to send",
                      "autumn --by number", {
        "--by": {"metavar": "COLUMN", "help": "column of the class list that names the files (default: the student's "
                                              "name)"}}),
    "missing": (commands.run_missing, "say who has not handed in, by name, lesson by lesson", "autumn --lessons 2", {
        "--lessons": {"metavar": "LIST", "help": "such as 1-2 (default: all given out)"}}),
    "received": (commands.run_received, "begin received.csv, or add the returns that are not in it yet", "autumn", {
        "--own-times": {"action": "store_true", "help": "take each file's own time as its time of receipt"}}),
    "worked-answers": (commands.run_worked_answers,
                       "write the worked answers with one bench's numbers", "autumn --bench b017", {
        "--bench": {"required": True, "metavar": "BENCH", "help": "such as b017"}}),
    "play": (commands.run_play, "say whether all is ready for a class, and play all lessons with the model answers",
             "autumn --pages", {
        "--pages": {"action": "store_true", "help": "also run every cell of the pages (takes minutes)"}}),
    "key": (commands.run_key, "write the right values of some benches, or of all, on one page",
            "autumn --benches b010,b017", {
        "--benches": {"metavar": "LIST", "help": "such as b010,b017 (default: the class list)"},
        "--lessons": {"metavar": "LIST", "help": "such as 1-2 (default: all given out)"}}),
    "evenings": (commands.run_evenings,
                 "write the plan of each evening, questions to vote on and teaching notes, to print",
                 "autumn --lessons 1-2", {
        "--lessons": {"metavar": "LIST", "help": "such as 1-2 (default: all there are, given out or not)"}}),
    "remove-course": (commands.run_remove_course, "remove a course folder with everything in it, after asking",
                      "autumn", {}),
    "handouts": (_run_handouts, "write lessons as files to print, with given values and room for answers",
                 "print --lessons 1-3 --benches b003", {
        "folder": {"type": Path, "metavar": "FOLDER", "help": "where the files go"},
        "--lessons": {"metavar": "LIST", "help": "such as 1-3 (default: all; of a course: all given out)"},
        "--benches": {"metavar": "LIST", "help": "such as b003,b004 (default: b000; of a course: the class list)"},
        "--course": {"type": Path, "metavar": "FOLDER", "help": "the course whose benches these are; without it they "
                                                                "are for self-study"}}),
}


def main(words=None):
    """Run the command in *words* (default: the command line's); return the exit status."""
    parser = argparse.ArgumentParser(prog="python -m lessons_lib", description="The instructor's commands.")
    subparsers = parser.add_subparsers(dest="command", required=True, metavar="command")
    for name, (_, does, example, arguments) in _COMMANDS.items():
        command = subparsers.add_parser(name, help=does, description=f"{does[0].upper()}{does[1:]}.",
                                        epilog=f"example: python -m lessons_lib {name} {example}")
        for argument, options in {"folder": _FOLDER, **arguments}.items():
            command.add_argument(argument, **options)
    arguments = parser.parse_args(words)
    try:
        print(_COMMANDS[arguments.command][0](arguments))
    except EXPECTED as error:
        print(in_words(error), file=sys.stderr)
        return 1
    return 0


if __name__ == "__main__":
    sys.stdout.reconfigure(errors="replace")    # a file or a pipe may have fewer letters than a console
    sys.exit(main())
