"""The pages of a pack, made clean, in words what somebody had typed into them, and the README for students."""
import json
import re
from dataclasses import dataclass

from lessons_lib.base.pages import LIBRARY
from lessons_lib.base.words import plural
from lessons_lib.course.clean_page import asked_of, clean_page, notebook_bytes, without_traces
from lessons_lib.course.folder import git_says

OTHER_PAGES = {"whole_pickup.ipynb": "all of it on one screen, without exercises",      # of no lesson; in every pack
               "words_and_symbols.ipynb": "every term, letter and formula, to look up or to print"}
_MOST_NAMED, _MOST_LETTERS = 4, 30
_GIVEN_ID = re.compile(r"[0-9a-f]{8}(-[0-9a-f-]{27})?")      # as JupyterLab gives them; the course's own are words
_TAKEN_OUT = {"answer": ("the answer to", "the answers to"), "lines": ("lines beside the answer to",) * 2,
              "function": ("the function", "the functions"), "design": ("the design in",) * 2,
              "prediction": ("the prediction", "the predictions"), "unclear": ("what is unclear in",) * 2,
              "card": ("a bench card",) * 2, "presenting": ("presenting()",) * 2}


@dataclass(frozen=True, kw_only=True)
class PackPage:
    """A page for the pack: file name, bytes, and in words what was *typed* into it and which cells are *changed*."""

    name: str
    content: bytes
    typed: str
    changed: str


def pack_page(path, lesson=None, *, as_typed=False):
    """Return the `PackPage` of a lesson, or of a page without exercises; *as_typed* leaves in it what was typed.

    Where git has the page, cells that are not those of the last commit stay in the pack without their outputs.

    Raises
    ------
    ValueError
        Where the file is no notebook.
    """
    asked = asked_of(lesson.exercises if lesson else ())
    notebook, committed = _read_notebook(path, path.read_bytes()), None
    if any((one / ".git").exists() for one in path.resolve().parents):
        committed = git_says(path.parent, "show", f"HEAD:./{path.name}")
    page, found = clean_page(notebook, asked)
    before = clean_page(_read_notebook(path, committed), asked)[0] if committed else None
    changed = _changed(_sources(page), before and _sources(before))
    for cell in page["cells"]:
        if committed and cell.get("id") in changed and cell["cell_type"] == "code":
            cell["outputs"] = []
    told = list(changed.values())
    more = [f"{len(told) - _MOST_NAMED} more"] if len(told) > _MOST_NAMED else []
    return PackPage(name=path.name, content=notebook_bytes(without_traces(notebook if as_typed else page)),
                    typed=", ".join(_typed(found)), changed=", ".join([*told[:_MOST_NAMED], *more]))


def _read_notebook(path, data):
    try:
        notebook = json.loads(data)
        for cell in notebook["cells"]:
            "".join(cell["source"]), cell["metadata"].get("tags"), cell["cell_type"] != "code" or cell["outputs"]
        return notebook
    except (ValueError, KeyError, TypeError, AttributeError) as error:
        raise ValueError(f"{path} cannot be read as a page ({type(error).__name__}: {error}). Put it back from where "
                         "you got the course.") from None


def _typed(found):
    """In words, things of one kind together."""
    names = {}
    for what, name in found:
        names.setdefault(what, []).append(name)
    return [" ".join(filter(None, (plural(len(here), *_TAKEN_OUT[what]), ", ".join(here))))
            for what, here in names.items()]


def _sources(page):
    return {cell["id"]: "".join(cell["source"]) for cell in page["cells"] if "id" in cell}


def _changed(now, before):
    """Return id of a cell -> in words how it is not that of the last commit; cells that are gone, too.

    Where git knows nothing, *before* is None: then those are told that JupyterLab added to one of the course's pages.
    """
    if before is None:
        new = {name: f"{_first_words(text)} added" for name, text in now.items() if _GIVEN_ID.fullmatch(name)}
        return new if len(new) < len(now) / 2 else {}
    return {**{name: f"{_first_words(text)} {'changed' if name in before else 'added'}" for name, text in now.items()
               if before and text != before.get(name)},
            **{name: f"{_first_words(text)} gone" for name, text in before.items() if now and name not in now}}


def _first_words(text):
    line = text.strip().partition("\n")[0]
    return f'"{line[:_MOST_LETTERS].rstrip()}{"…" if line[_MOST_LETTERS:] or line != text.strip() else ""}"'


def typed_and_changed(pages):
    """Return (what was typed, what else is changed) in the *pages* of a pack, page by page, or empty texts."""
    return tuple(", ".join(f"{_short(page.name)} ({words})" for page in pages if (words := getattr(page, name)))
                 for name in ("typed", "changed"))


def _short(name):
    return name[:2] if name[:2].isdigit() else name.removesuffix(".ipynb")


def typed_told(typed, changed, *, as_typed):
    """Return sentences for the instructor on what `typed_and_changed` gives."""
    what = "Left in the pack's pages as typed" if as_typed else "Taken out of the pack's pages"
    return [*([f"{what}: {typed}. Your own pages stay as they are."] if typed else []),
            *([f"Not as they were stored, and in the pack as they are now: {changed}."] if changed else [])]


def pack_readme(settings, lessons, pages):
    """Return the README of a pack with these *lessons* and the paths of its *pages*: theirs first, then others."""
    *more, last = [str(int(lesson.id)) for lesson in lessons[1:] or lessons]
    span = f"lessons {', '.join(more)} and {last}" if more else f"lesson {last}"
    titles = [*(lesson.title for lesson in lessons), *(OTHER_PAGES[page.name] for page in pages[len(lessons):])]
    listed = "\n".join(f"- `notebooks/{page.name}`: {what}" for page, what in zip(pages, titles))
    text = (LIBRARY / "course/templates/pack_readme.md").read_text(encoding="utf-8")
    return text.format(title=settings.title, span=span, first=pages[0].name, pages=listed,
                       further=_marks_of_further(settings, lessons))


def _marks_of_further(settings, lessons):
    """A sentence for students: which further exercises carry marks."""
    further = [one for lesson in lessons for one in lesson.exercises if one.further and one.is_marked]
    marked = [one.id for one in further if settings.most_marks(one)]
    if not marked:
        return "It carries no marks: the core alone makes the full mark."
    if len(marked) == len(further):
        return "It carries marks, too."
    return f"Of it, {', '.join(marked)} {plural(len(marked), 'carries', 'carry')} marks, too."
