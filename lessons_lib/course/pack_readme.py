"""The README that goes with a pack: for students, and complete without anything else."""
_TEXT = """\
# {title}: pages with numbers of your own

This folder holds the pages of {span} and the exercises of every bench in your class. Your **bench card** says which
bench is yours.

## Start

You need Python 3.11 or newer, nothing else. Open a terminal in the folder of this README. One line sets everything up
and opens the first page:

<!-- start command -->
```
python3 -m venv .venv && .venv/bin/pip install -r requirements.txt && .venv/bin/jupyter lab notebooks/{first}
```

On Windows, in the Command Prompt:

```
py -m venv .venv && .venv\\Scripts\\pip install -r requirements.txt && .venv\\Scripts\\jupyter lab notebooks\\{first}
```

The first time this takes two or three minutes and about 0.6 GB of disk. From the second day on, the last part is
enough: `.venv/bin/jupyter lab notebooks/{first}`, on Windows `.venv\\Scripts\\jupyter lab notebooks\\{first}`. Stop
with Ctrl-C in the terminal.

- *"ensurepip is not available"* (Debian, Ubuntu): install the package `python3-venv`, then run the line again.
- *"requires a different Python"* (macOS comes with an old one): install a newer Python, delete the folder `.venv`, and
  run the line again with the new one's name, such as `python3.13`.
- *"Long Path support"* or *"No such file or directory"* while it installs (Windows): move the whole folder near the
  top of the disk, such as `C:\\course`, and run the line again. Where `py` is not known, write `python`.
- *No browser opens*: copy the address that the terminal shows, with its token, into a browser on the same machine.

## Work

1. On the page `00_start_here`, type your card once: `use_card("b017-7QK4MP")`, with your own bench and code.
2. Open a lesson, predict, move the sliders, answer in place of the three dots. Try as often as you like: tries cost
   nothing.
3. Come back when you like. Your answers are in `notebooks/my_work`; keep that folder. On the pages, an answer from
   before shows again when you run its cell.

The pages here:

{pages}

## Hand in

Each lesson ends with a cell for this (or type it into a new cell):

```
sheet.return_work()
```

It writes a file such as `return-b017-01.json` into `notebooks/my_work` and says what it holds and what is missing.
Give that file to your instructor; do not change it. You can read it with any editor: it holds your
bench and its code, your answers and predictions with their times, and what you said is unclear. Your name is not in it.
If you worked on two computers, hand in from both.

You may hand in again as often as you like. For each exercise the best counts of all that you handed in. Where your
instructor takes marks off for being late, each answer is priced by the day on which it first came: hand in what you
have in time, and more later. Of your open texts the last one is read, unless it is shorter than half of your longest;
then the longer one is. Of designs and of answers with your own readings the last twenty different ones in each file
are looked at: hand in when one is good.

## A new pack during the term

When your instructor gives you a newer pack, unpack it where you like: it makes a folder of its own and changes
nothing in the old one. Then copy the folder `notebooks/my_work` from the old folder into `notebooks` of the new one,
and run the start line there. Card, answers and predictions are all there; text that you wrote into cells but did not
run stays in the old pages. When the new folder works, you can delete `.venv` in the old one.

## What the checking is good for

The pages hold no answers, only seals that say whether a number fits. A seal keeps the answer from being read; it does
not stop someone who programs: a program can try thousands of numbers in a second, and nobody learns anything by it. So
the verdicts are for practice. Your marks come from what you hand in, and from what you can explain.
"""


def pack_readme(title, lessons, pages):
    """Return the README of a pack with these *lessons*, and the paths of their *pages*."""
    *more, last = [str(int(lesson.id)) for lesson in lessons[1:] or lessons]
    span = f"lessons {', '.join(more)} and {last}" if more else f"lesson {last}"
    listed = "\n".join(f"- `notebooks/{page.name}`: {lesson.title}" for lesson, page in zip(lessons, pages))
    return _TEXT.format(title=title, span=span, first=pages[0].name, pages=listed)
