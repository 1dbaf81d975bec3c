"""The pack: one zip for everybody, with the library, the pages and the sheets of all benches, and no answers."""
import hashlib
import io
import re
import zipfile
from dataclasses import dataclass

from lessons_lib.base.words import plural
from lessons_lib.course.folder import keep_mark, same_secret, write_cards
from lessons_lib.course.given_out import GivenOut, all_given_out, lessons_given_out, need_lesson
from lessons_lib.course.pack_pages import OTHER_PAGES, pack_page, pack_readme, typed_and_changed, typed_told
from lessons_lib.course.settings import CHECKOUT
from lessons_lib.course.telling import counted
from lessons_lib.exercises.making import make_sheet
from lessons_lib.exercises.sheet_file import sheet_bytes, write_whole
from lessons_lib.lessons.own_instrument import FILE, read_instrument

FIRST_PAGE = "00"
_FIXED_TIME = (2000, 1, 1, 0, 0, 0)


def read_lessons(text):
    """Return the lesson ids in a text such as "1-3,5".

    Examples
    --------
    >>> read_lessons("1-3,5")
    ['01', '02', '03', '05']
    """
    ids = set()
    for part in text.split(","):
        found = re.fullmatch(r"\s*(\d{1,2})\s*(?:-\s*(\d{1,2})\s*)?", part, re.ASCII)
        if not found:
            raise ValueError(f'"{text[:40]}" names no lessons; write 1-2, or 1,3.')
        low, high = int(found[1]), int(found[2] or found[1])
        if high < low:
            raise ValueError(f'"{part.strip()}" names no lessons; write the smaller number first.')
        ids.update(f"{number:02d}" for number in range(low, high + 1))
    return sorted(ids)


def chosen_ids(text, known, refusal):
    """Return the lesson ids in a text, all *known* ones without a text; *refusal*, with {} for the id, of another."""
    ids = read_lessons(text) if text else list(known)
    for lesson_id in ids:
        if lesson_id not in known:
            raise ValueError(refusal.format(lesson_id))
    return ids


def give_out(course, ids, *, as_typed=False):
    """Keep the values of lessons for every bench and write the pack of all lessons given out so far, and the cards.

    Parameters
    ----------
    course : Course
    ids : list of str
        Lessons to add; the first page always goes with them.
    as_typed : bool
        Whether answers, cards and the like that somebody typed into the pages stay in them.

    Returns
    -------
    (path, int, list)
        The pack, how many sheets it has, and (bench, exercise, slip) of slips that a bench's sheet goes without.
    """
    lessons = _lessons_with(course, ids)
    pages = _pages(course, lessons, as_typed=as_typed)
    sheets, left_out = _all_sheets(course, lessons)
    data = files_below(course.settings.notebooks / "data")
    files = {**_library(), **{f"notebooks/{page.name}": page.content for page in pages}, **sheets,
             **{f"notebooks/data/{name}": content for name, content in data.items()},
             "README.md": pack_readme(course.settings, lessons, pages).encode()}
    if own := course.settings.instrument:
        read_instrument(own)        # refuses one that is not in order
        files[f"notebooks/{FILE}"] = own.read_bytes()
    name = _pack_name([lesson.id for lesson in lessons], files)
    path = course.folder / "packs" / f"{name}.zip"
    write_whole(path, _zip_bytes({f"{name}/{inner}": data for inner, data in files.items()}))
    write_cards(course)
    return path, len(sheets), left_out


def _lessons_with(course, ids):
    """The lessons *ids*, those given out before and the first page's, in order."""
    return [need_lesson(course, lesson_id) for lesson_id in sorted({FIRST_PAGE, *ids, *lessons_given_out(course)})]


def typed_in(course, ids):
    """Return what was typed into, and what else is changed in, the pages of the pack of *ids* and all given out before.

    Both are words, empty where there is nothing.
    """
    return typed_and_changed(_pages(course, _lessons_with(course, ids)))


def _pages(course, lessons, **more):
    """The pages of the lessons, then those that every pack has besides."""
    notebooks = course.settings.notebooks
    others = [path for name in OTHER_PAGES if (path := notebooks / name).exists()]
    return [pack_page(path, lesson, **more) for path, lesson in [
        *((page_of(notebooks, lesson.id), lesson) for lesson in lessons), *((path, None) for path in others)]]


def _all_sheets(course, lessons):
    """Return name -> bytes of all sheets, and slips too near to a right value; all is kept before any sheet leaves."""
    files, left_out, kept = {}, [], [GivenOut(course, lesson) for lesson in lessons]
    for bench in counted([*course.students, *course.spares], "sheets of benches"):
        for lesson, given_out in zip(lessons, kept):
            try:
                drawn = given_out.give(course.secret, bench)
                sheet = make_sheet(lesson, secret=course.secret, bench=bench, drawn=drawn)
                files[f"notebooks/sheets/{lesson.id}/{bench}.json"] = sheet_bytes(sheet)
                left_out += [(bench, exercise_id, name) for exercise_id, one in drawn.items()
                             for name, number, _ in one.slips if not one.tells(number)]
            except Exception as error:  # a formula of the answers may fail in any way
                why = error if isinstance(error, ValueError) else f"{type(error).__name__}: {error}"
                raise ValueError(f"Lesson {lesson.id} cannot be made for {bench}: {why}") from error
    keep_mark(course.folder, course.secret)
    for given_out in kept:
        given_out.save()
    return files, left_out


def page_of(notebooks, lesson_id):
    """Return the path of a lesson's page in the folder *notebooks*; ValueError where there is not just one."""
    found = sorted(notebooks.glob(f"{lesson_id}_*.ipynb"))
    if len(found) != 1:
        raise ValueError(f"{notebooks} has {len(found)} pages {lesson_id}_*.ipynb for lesson {lesson_id}; "
                         "one is needed.")
    return found[0]


def _library():
    """The library as students need it: what only instructors run stays here."""
    kinds = (files_below(CHECKOUT / "lessons_lib", pattern) for pattern in ("*.py", "*.js", "*.css", "templates/*"))
    return {**{f"lessons_lib/{name}": data for kind in kinds for name, data in kind.items()
               if not name.startswith(("course/", "desk/", "handouts/", "__main__"))},
            **{name: (CHECKOUT / name).read_bytes() for name in ("requirements.txt", "pyproject.toml")}}


def files_below(folder, pattern="*"):
    """Return name below the folder -> bytes of every file; what systems and JupyterLab hide there is left out."""
    names = {path.relative_to(folder): path for path in sorted(folder.rglob(pattern)) if path.is_file()}
    return {name.as_posix(): path.read_bytes() for name, path in names.items()
            if not any(part.startswith(".") for part in name.parts)}


def _pack_name(ids, files):
    """Name a pack after its lessons and its content, so that a renewed one never unpacks over an older one."""
    total, runs = hashlib.sha256(), []
    for name, data in sorted(files.items()):
        total.update(hashlib.sha256(name.encode()).digest() + hashlib.sha256(data).digest())
    for number in map(int, ids):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    lessons = "+".join(f"{run[0]:02d}" if len(run) == 1 else f"{run[0]:02d}-{run[-1]:02d}" for run in runs)
    return f"pickup_lessons_{lessons}_{total.hexdigest()[:6]}"


def _zip_bytes(files):
    sink = io.BytesIO()
    with zipfile.ZipFile(sink, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as pack:
        for name in sorted(files):
            entry = zipfile.ZipInfo(name, _FIXED_TIME)     # the same files, the same bytes
            entry.compress_type, entry.external_attr = zipfile.ZIP_DEFLATED, 0o644 << 16
            entry.create_system = 3
            pack.writestr(entry, files[name])
    return sink.getvalue()


def _who_needs_what(course, ids, benches):
    """Return what to do with cards and pack, seen from the lessons *ids* and *benches* given out before."""
    lessons = [f"lesson {int(lesson_id)}" for lesson_id in lessons_given_out(course) if lesson_id not in ids]
    late = [bench for bench in course.students if bench not in benches]
    if not ids:
        return "print cards.html, and give everybody the zip."
    new = f"new since last time: {', '.join([*lessons, *late]) or 'no lesson, no bench'}."
    cards = f" Print the {plural(len(late), 'card', 'cards')} of {', '.join(late)}." if late else ""
    if lessons:
        return f"{new}{cards} Give everybody the zip; cards given out before stay valid."
    needed = "Those who are new need this zip; the others" if late else "All"
    return f"{new}{cards} {needed} may keep the pack they have, unless you changed pages or exercises."


@dataclass(frozen=True, kw_only=True)
class Added:
    """What one giving out did: sentences on what was written, on what was typed into the pages, what to do next.

    *typed* names the latter alone; `lines` has it, too.
    """

    lines: tuple
    typed: str
    next: str


def add_lessons(course, ids, *, as_typed=False):
    """Give out the lessons *ids* and all given out before, with nobody else at work in the folder; return `Added`."""
    with course.busy():
        if not ids and not lessons_given_out(course):
            raise ValueError("Nothing has been given out yet; name the lessons, such as 1-2.")
        before = {lesson_id: set(given.versions) for lesson_id, given in all_given_out(course).items()}
        path, sheets, left_out = give_out(course, ids, as_typed=as_typed)
        if left_out:
            course.write_table("given_out/left_out.csv", ("bench", "exercise", "slip"), left_out)
    lines = [f"{path}: {sheets} sheets, {path.stat().st_size / 1e6:.1f} MB, the same pack for everybody.",
             f"cards.csv and cards.html: {len(course.students)} benches and {len(course.spares)} spare ones."]
    if left_out:
        lines.append(f"{len(left_out)} slips are too near to values that were given out before; the sheets of these "
                     "benches do without them: given_out/left_out.csv.")
    typed, changed = typed_in(course, ids)
    return Added(lines=(*lines, *typed_told(typed, changed, as_typed=as_typed), *same_secret(course)), typed=typed,
                 next=_who_needs_what(course, list(before), set().union(*before.values())))
