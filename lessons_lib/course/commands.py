"""What the commands say: arguments of the command line in, words to print out. The other files do the work."""
import re
from pathlib import PurePosixPath

from lessons_lib.base.words import plural
from lessons_lib.course.class_list import who_is_missing
from lessons_lib.course.evenings import write_evenings
from lessons_lib.course.folder import Course, command_line
from lessons_lib.course.joint import joint_report
from lessons_lib.course.make_and_remove import new_course, new_course_like, remove_course, what_goes
from lessons_lib.course.mark import mark
from lessons_lib.course.oneroster import Ids, write_oneroster
from lessons_lib.course.pack import add_lessons, read_lessons
from lessons_lib.course.play import ready
from lessons_lib.course.received import begin_received, take_own_times
from lessons_lib.course.right_answers import write_key, write_worked
from lessons_lib.course.tables import saved_otherwise
from lessons_lib.course.telling import some
from lessons_lib.course.with_names import write_marks_table, write_named_notes

_MOST_LINES = 20
_BENCH_IN_NAME = re.compile(r"(?<![a-z0-9])b\d{3,4}(?!\d)", re.ASCII)


def run_new_course(arguments):
    """Run ``new-course``, with or without --like."""
    folder, like, students = arguments.folder, arguments.like, arguments.students
    give_out = f"  {command_line('give-out', folder, '--lessons', 1)}"
    if like:
        return "\n".join([f"New: {folder}, like {like}.", *new_course_like(folder, like, students),
                          "Next: look at course.toml, its title and deadlines first; fill in class_list.csv; then run",
                          give_out])
    new = new_course(folder, 30 if students is None else students)
    if not new:
        return f"{folder} already has everything. Nothing was changed."
    return (f"New in {folder}: {', '.join(new)}. Keep secret.txt to yourself and keep a copy of the folder.\n"
            f"Next: fill in class_list.csv (one bench on each line) and look at course.toml; its title is what "
            f"students read. Then run\n{give_out}")


def run_give_out(arguments):
    """Run ``give-out``."""
    course = Course(arguments.folder)
    ids = read_lessons(arguments.lessons) if arguments.lessons else []
    added = add_lessons(course, ids, as_typed=arguments.as_typed)
    hint = "To leave in the pack what was typed, run this again with --as-typed."
    hints = [hint] if added.typed and not arguments.as_typed else []
    return "\n".join([*added.lines, *hints, *_unread_lists([course]), f"Next: {added.next} Put what comes back into "
                      f"{course.folder / 'returned'}, then run\n  {command_line('mark', course.folder)}"])


def run_mark(arguments):
    """Run ``mark``."""
    course = Course(arguments.folder)
    with course.busy():
        return marking_told(course, mark(course))


def marking_told(course, done):
    """Return what the instructor reads after a `Marking`."""
    folder = course.folder / "marks"
    lines = [f"Work from {done.returned} of {done.benches} benches was marked. In {folder}: class_report.html (what to "
             f"teach again), marks.csv, notes (one page for each bench), open_questions.csv (texts not yet marked: "
             f"{done.waiting}), unclear.csv (lines on what was unclear: {len(done.unclear)}), not_read.csv (files: "
             f"{len(done.not_read)})."]
    lines += [*new_not_read_told(done), *done.remarks]
    if done.moved:
        lines += ["Since the last marking:", *(f"  {line}" for line in done.moved[:_MOST_LINES])]
        if len(done.moved) > _MOST_LINES:
            lines.append(f"  and {len(done.moved) - _MOST_LINES} more, in history.jsonl")
    return "\n".join([*lines, f"Next: {'; '.join(steps_after(done))}."])


def new_not_read_told(done):
    """Return a sentence in a list on the files that do not count and that the last `Marking` had not; else none."""
    return [f"New in not_read.csv: {some(done.new_not_read)}."] if done.new_not_read else []


def steps_after(done):
    """Return what the instructor does after a `Marking`, in order."""
    steps = [("look at not_read.csv", done.not_read), ("read class_report.html", done.returned),
             ("write marks into the column marks of open_questions.csv and mark again", done.waiting),
             ("put the class's returns into the folder returned and mark again", not done.returned),
             ("give each student the page of their bench in notes", done.returned and not done.waiting)]
    return [step for step, needed in steps if needed]


def _unread_lists(courses):
    """A sentence for each class list that was saved in another format; its names are not in what was written."""
    return [sentence for course in courses for sentence in saved_otherwise(course.folder, "class_list.csv")]


def _courses(arguments):
    return [Course(folder) for folder in (arguments.folder, *arguments.others)]


def run_marks_table(arguments):
    """Run ``marks-table``."""
    columns = [column.strip() for column in (arguments.columns or "").split(",") if column.strip()]
    courses = _courses(arguments)
    return "\n".join([marks_table_told(*write_marks_table(courses, columns)), *_unread_lists(courses)])


def marks_table_told(path, rows, remarks):
    """Return what the instructor reads after `write_marks_table`."""
    students = plural(rows, "student", "students")
    return "\n".join([f"{path}: {rows} {students}, with names. Keep it to yourself.", *remarks])


def run_oneroster(arguments):
    """Run ``oneroster``."""
    ids = Ids(student=arguments.student_id, group=arguments.class_id, school=arguments.school_id,
              session=arguments.session_id)
    folder, results = write_oneroster(Course(arguments.folder), ids)
    return f"{folder}: {results} results. Next: read README.txt there; then give oneroster.zip to the college's system."


def run_joint_report(arguments):
    """Run ``joint-report``."""
    courses = _courses(arguments)
    return joint_told(courses, *joint_report(courses))


def joint_told(courses, path, markings):
    """Return what the instructor reads after `joint_report`."""
    lines = []
    for course, done in zip(courses, markings):
        lines.append(f"{course.folder}: work from {done.returned} of {done.benches} benches was marked.")
        lines += [f"  {line}" for line in (*done.remarks, *done.moved)]
    return "\n".join([*lines, f"{path}: the report of all together. Next: open it in a browser."])


def run_notes_by_name(arguments):
    """Run ``notes-by-name``."""
    course = Course(arguments.folder)
    told = named_notes_told(*write_named_notes(course, (arguments.by or "").strip()))
    return "\n".join([told, *_unread_lists([course])])


def named_notes_told(path, pages, without):
    """Return what the instructor reads after `write_named_notes`."""
    lines = [f"{path.parent / 'notes'}: {pages} {plural(pages, 'page', 'pages')}, one for each student. {path.name} "
             "beside it names bench, student, e-mail address and page, for a mail merge."]
    if without:
        lines.append(f"Nothing handed in, so no page: {'; '.join(without)}.")
    return "\n".join(lines)


def run_missing(arguments):
    """Run ``missing``."""
    ids = read_lessons(arguments.lessons) if arguments.lessons else ()
    course = Course(arguments.folder)
    return "\n".join([missing_told(*who_is_missing(course, ids)), *_unread_lists([course])])


def missing_told(found, not_read):
    """Return what `who_is_missing` gave, as lines to paste."""
    lines = []
    for lesson, came, absent in found:
        names = f" Missing: {'; '.join(one.called for one in absent)}." if absent else ""
        lines.append(f"Lesson {lesson.id}, {lesson.title}: {came} have handed in.{names}")
        if addresses := ", ".join(one.email for one in absent if one.email):
            lines.append(f"  Addresses: {addresses}")
    if not_read:
        benches = {bench for file, _ in not_read for bench in _BENCH_IN_NAME.findall(PurePosixPath(file).name.lower())}
        senders = dict.fromkeys(student.called for *_, absent in found for student in absent
                                if benches.intersection(student.benches))
        named = f" By their names, from: {'; '.join(senders)}." if senders else ""
        lines.append(f"Files in returned that do not count: {len(not_read)}. Somebody above may have sent one; mark, "
                     f"and not_read.csv says why.{named}")
    return "\n".join(lines or ["No lesson that carries marks has been given out yet."])


def run_received(arguments):
    """Run ``received``."""
    course, own_times = Course(arguments.folder), arguments.own_times
    new = begin_received(course, own_times=own_times)
    taken = take_own_times(course) if own_times else []
    told = received_told(course, new, own_times=own_times, taken=taken or None)
    return f"{told}\nNext: {command_line('mark', arguments.folder)}"


def received_told(course, new, *, own_times=False, taken=None):
    """Return what the instructor reads after `begin_received` has added the *new* files.

    *taken*: those whose line was there, and whose own time `take_own_times` took over then; None where it was not run.
    """
    added = f"{course.folder / 'received.csv'}: {len(new)} {plural(len(new), 'line was', 'lines were')} added"
    if taken is not None:
        return (f"{added}, and {len(taken)} that had no time got the file's own. That is the time of saving or copying "
                "on somebody's machine: check it.")
    if not new:
        return "Every return has its line in received.csv. Nothing was changed."
    times = ("Each has the file's own time as its time of receipt. That is the time of saving or copying on somebody's "
             "machine: check it." if own_times else
             "Fill in the column received; beside it is each file's own time, which is that of saving or copying on "
             "somebody's machine: take it over where it is right. A line without a time counts as in time.")
    return f"{added}, one for each return that had none. {times}"


def run_worked_answers(arguments):
    """Run ``worked-answers``."""
    path = write_worked(Course(arguments.folder), arguments.bench.strip().lower())
    return f"{path}: for your eyes only. Next: open it in a browser."


def run_evenings(arguments):
    """Run ``evenings``."""
    path, plans = write_evenings(Course(arguments.folder), arguments.lessons)
    return (f"{path}: {plans} {plural(plans, 'plan', 'plans')} of an evening, one page each, then questions to vote on "
            "and teaching notes, for your eyes only. Next: print it from a browser.")


def run_key(arguments):
    """Run ``key``."""
    path, benches = write_key(Course(arguments.folder), arguments.benches, arguments.lessons)
    whose = "one bench" if len(benches) == 1 else f"{len(benches)} benches"
    return f"{path}: right values of {whose}, for your eyes only. Next: open it in a browser."


def run_play(arguments):
    """Run ``play``."""
    found = ready(Course(arguments.folder), arguments.pages)
    if found.faults:
        raise ValueError("\n".join(found.lines))
    return "\n".join(found.lines)


def run_remove_course(arguments):
    """Run ``remove-course``."""
    print(what_goes(arguments.folder))
    try:
        typed = input(f'Type the name of the folder, "{arguments.folder.resolve().name}", to remove it: ')
    except EOFError:
        typed = ""
    remove_course(arguments.folder, typed)
    return f"{arguments.folder} was removed. Copies of it, and the files you gave out, are yours to look after."
