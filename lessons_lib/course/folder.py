"""The course folder: secret, cards, class list, settings, model answers, lock. It belongs to the instructor."""
import os
import re
import shlex
import subprocess
import sys
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from lessons_lib.base.pages import page_bytes
from lessons_lib.base.words import did_you_mean
from lessons_lib.course.settings import check_known, read_settings
from lessons_lib.course.tables import needed_rows, read_table, refuse, table_bytes
from lessons_lib.exercises.bench import ALPHABET, SELF_STUDY_BENCHES, check_character
from lessons_lib.exercises.draws import keyed
from lessons_lib.exercises.self_study import WhenAsked, lessons_in
from lessons_lib.exercises.sheet_file import write_whole

FIRST_BENCH, FIRST_SPARE = 10, 901
_SECRET_LENGTH = 32      # characters, at least
_PUT_BACK = "Put it back from your copy of the course folder: without it no code is right."
# a line of the class list that got into a cell of the line before
_BENCH_BEGINS = re.compile(r"\n\s*\"?\s*(b\d{3,4})\b", re.ASCII | re.IGNORECASE)


@dataclass(frozen=True)
class Course:
    """A course *folder*; everything is read when it is first asked for."""

    folder: Path

    @cached_property
    def settings(self):
        """The `Settings` of course.toml."""
        if not (self.folder / "course.toml").is_file():
            beside = sorted(path.parent.name for path in self.folder.resolve().parent.glob("*/course.toml"))
            near = did_you_mean(self.folder.name, beside)
            raise ValueError(f"{self.folder} is not a course folder: it has no course.toml.{near} "
                             f"Make one with: {command_line('new-course', self.folder)}")
        return read_settings(self.folder / "course.toml")

    @cached_property
    def secret(self):
        """The text that the numbers and codes of all benches come from; another than made the course is refused."""
        secret = read_secret(self.folder)
        refuse_another(self.folder, secret)
        return secret

    @cached_property
    def students(self):
        """Bench -> name, or an empty text, in the order of class_list.csv."""
        students, faults, rows = {}, [], needed_rows(self.folder / "class_list.csv")
        columns = [name for name in (rows[0][1] if rows else {}) if name]
        others = [name for name in columns if name not in ("bench", "student") and any(row[name] for _, row in rows)]
        if others and "bench" in columns and "student" not in columns:
            raise ValueError(f"class_list.csv has the columns {', '.join(columns)}: names are read from a column "
                             "called student. Give the one with the names that heading, or add an empty one; others "
                             "may have any.")
        for line, row in rows:
            where, bench = f"class_list.csv, line {line}", row.get("bench", "").lower()
            if lost := next(filter(None, map(_BENCH_BEGINS.search, row.values())), None):
                faults.append(f"{where}: a quotation mark is opened there and not closed, so {lost[1]} would be lost. "
                              "Close it, or take it out.")
            elif "bench" in row and not bench and row.get("student"):
                faults.append(f"{where} has a name but no bench.")
            elif not re.fullmatch(r"b\d{3,4}", bench, re.ASCII) or bench in SELF_STUDY_BENCHES:
                faults.append(f'{where}: "{bench[:20]}" is not a bench of a class; write b and three or four digits, '
                              "from b010 on, in a column called bench.")
            elif bench in students:
                faults.append(f"{where}: {bench} is there twice.")
            else:
                students[bench] = row.get("student", "")
        refuse(faults if "bench" in columns else faults[:1])    # without its column all lines are wrong alike
        if not students:
            raise ValueError("class_list.csv has no bench. Write one on each line, under the heading bench.")
        return students

    @property
    def spares(self):
        """Benches for latecomers and lost cards: a tenth of the class, at least three; numbers from b901 up."""
        free = (f"b{number}" for number in range(FIRST_SPARE, 10_000) if f"b{number}" not in self.students)
        return [next(free) for _ in range(max(3, -(-len(self.students) // 10)))]

    @cached_property
    def lessons(self):
        """Id -> `Lesson` of the model answers with the tolerances of this course, each loaded when it is asked for."""
        declared = lessons_in(self.settings.answers)
        check_known(self.settings, declared, self.students)
        return WhenAsked(declared, lambda lesson_id: self.settings.apply(declared[lesson_id]))

    def write_table(self, name, head, rows):
        """Write a table into the folder, as the settings want decimals."""
        write_whole(self.folder / name, table_bytes(head, rows, decimal_comma=self.settings.decimal_comma))

    @contextmanager
    def busy(self):
        """Hold the folder for one command; ValueError where another one holds it. The lock ends with the process."""
        self.settings     # a folder that is none is told before anything is written
        with open(self.folder / ".busy", "ab") as file:
            try:
                try:
                    import fcntl
                except ImportError:
                    import msvcrt
                    msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
                else:
                    fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
            except OSError:
                raise ValueError(f"{self.folder} is busy: another command is working there. Wait until it has "
                                 "finished.") from None
            yield


def read_secret(folder):
    """Return the text in secret.txt of a course *folder*.

    Raises
    ------
    ValueError
        Where it is missing, empty, unreadable or not what `new-course` wrote; the message says what to do.
    """
    try:
        data = (folder / "secret.txt").read_bytes()
    except FileNotFoundError:
        data = b""
    except OSError as error:
        raise ValueError(f"secret.txt cannot be read ({error.strerror or error}). {_PUT_BACK}") from None
    # editors add a byte-order mark, or save two bytes for each letter
    text = data.decode("utf-16" if data[:2] in (b"\xff\xfe", b"\xfe\xff") else "utf-8-sig", "replace").strip()
    if not text:
        raise ValueError(f"secret.txt is missing or empty. {_PUT_BACK}")
    if len(text) < _SECRET_LENGTH or not text.isascii():
        raise ValueError(f"secret.txt must hold the line that new-course wrote, {_SECRET_LENGTH} letters and digits or "
                         f"more. {_PUT_BACK}")
    return text


def refuse_another(folder, secret):
    """Refuse a *secret* that is not the one that made what the course in *folder* gave out.

    A course that was given out without a mark is known by its cards, where they are still there.
    """
    if not any((folder / "given_out").glob("[0-9][0-9].json")):
        return
    if kept := _kept_mark(folder):
        is_another = kept != _secret_mark(secret)
    else:
        path = folder / "cards.csv"
        cards = [row.get("card", "") for row in read_table(path.read_bytes())] if path.exists() else []
        cards = [card for card in cards if re.fullmatch(r"b\d{3,4}-\w{6}", card)]
        is_another = bool(cards) and not any(card == bench_card(secret, card.partition("-")[0]) for card in cards)
    if is_another:
        raise ValueError("secret.txt is not the one that made this course: all numbers and codes would be others. Put "
                         "the right one back from your copy of the course folder. Nothing was changed.")


def keep_mark(folder, secret):
    """Write the mark of a *secret* beside what it makes."""
    if _kept_mark(folder) != _secret_mark(secret):
        write_whole(folder / "given_out" / "made_with.txt", (
            f"{_secret_mark(secret)} is the mark of the secret that these values were made with; it tells another "
            "secret, and nothing else of it.\n").encode())


def _secret_mark(secret):
    return keyed(secret, "mark of the secret").hex()[:32]


def _kept_mark(folder):
    path = folder / "given_out" / "made_with.txt"
    found = re.match(rb"[0-9a-f]{32}\b", path.read_bytes()) if path.exists() else None
    return found and found[0].decode()


def same_secret(course):
    """Return a sentence in a list where a folder beside has the secret of this course; else an empty list."""
    here = course.folder.resolve()
    for path in sorted(here.parent.glob("*/secret.txt")):
        try:
            is_same = path.parent != here and path.read_text(encoding="ascii").strip() == course.secret
        except (OSError, ValueError):
            continue
        if is_same:
            return [f"{path.parent} has the same secret as {here}, so the same numbers and cards: one is a copy of the "
                    "other. For another class or year make a folder of its own with new-course --like."]
    return []


def bench_card(secret, bench):
    """Return the card of a bench: five characters of a keyed hash, and the check character.

    Examples
    --------
    >>> bench_card("a secret", "b017")
    'b017-JK4XAQ'
    """
    code = "".join(ALPHABET[byte % len(ALPHABET)] for byte in keyed(secret, "card", bench)[:5])
    return f"{bench}-{code}{check_character(bench, code)}"


def write_cards(course):
    """Write cards.csv and cards.html of the class and the spare benches into the course folder."""
    students = {**course.students, **{bench: "(spare)" for bench in course.spares}}
    cards = [(bench, bench_card(course.secret, bench), student) for bench, student in students.items()]
    course.write_table("cards.csv", ("bench", "card", "student"), cards)
    write_whole(course.folder / "cards.html", page_bytes(
        "course/templates/cards.html", course=course.settings.title,
        cards=[(card, student) for _, card, student in cards]))


def command_line(*words):
    """Return one of the project's commands as the shell here takes it, with the interpreter as it was called."""
    words = [sys.orig_argv[0], "-m", "lessons_lib", *map(str, words)]
    return subprocess.list2cmdline(words) if os.name == "nt" else shlex.join(words)


def git_says(folder, *words):
    """Return the bytes that git prints in a folder; None where it finds nothing, or there is no git."""
    try:
        asked = subprocess.run(["git", "-C", folder, *words], capture_output=True)
    except FileNotFoundError:
        return None
    return asked.stdout if asked.returncode == 0 else None
