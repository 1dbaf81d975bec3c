"""The five steps of the desk, each on the functions that the commands use, too."""
from functools import partial
from html import escape
from pathlib import Path

import ipywidgets as W

from lessons_lib.base.pages import table
from lessons_lib.course.commands import new_not_read_told, received_told, steps_after
from lessons_lib.course.evenings import EVENINGS, write_evenings
from lessons_lib.course.given_out import kept_ids
from lessons_lib.course.make_and_remove import new_course, new_course_like
from lessons_lib.course.mark import mark
from lessons_lib.course.pack import add_lessons, typed_in
from lessons_lib.course.play import ready
from lessons_lib.course.received import begin_received, take_own_times
from lessons_lib.course.returned import drop_in
from lessons_lib.course.right_answers import write_key, write_worked
from lessons_lib.course.telling import EXPECTED, in_words
from lessons_lib.desk.parts import WIDE, DeskStep, button, captioned, row
from lessons_lib.desk.standing import came_and_missing, look, what_it_is


class ChooseCourse(DeskStep):
    """Where the course is; a new one is made here, and nothing that is there is changed."""

    title = "1. The course folder"
    explains = "It holds the class list, the secret, returned work and marks. Keep it to yourself, and keep a copy."

    def controls(self):
        self.path = W.Text(description="Course folder:", placeholder="~/autumn", style={"description_width": "9em"},
                           layout=WIDE)
        self.benches = W.BoundedIntText(value=30, min=1, max=9000, description="Benches of a new course:",
                                        style={"description_width": "13em"}, layout={"width": "20em"})
        self.like = W.Text(description="With settings like:", placeholder="nothing, or an earlier course: ~/autumn26",
                           style={"description_width": "9em"}, layout=WIDE)
        self.path.observe(lambda _: self.desk.look(), "value")
        self.make = button("Make a new course", lambda: self.work(self._make))
        return [self.path, self.like, row(self.benches, self.make)]

    def _make(self):
        standing = self.desk.standing
        if standing.folder is None:
            return standing.says
        if like := self.like.value.strip():
            said = new_course_like(standing.folder, Path(like).expanduser(), self.benches.value)
            return "\n".join([look(self.path.value).says, *said, "Next: look at course.toml, then at class_list.csv."])
        new = new_course(standing.folder, self.benches.value)
        return f"{look(self.path.value).says}\n" + (
            f"New: {', '.join(new)}. Next: fill in class_list.csv with a spreadsheet (one bench on each line; names "
            "are for you alone) and look at course.toml with a text editor; its title is what students read. Then give "
            "out."
            if new else "Everything was there already. Nothing was changed.")


class GiveOut(DeskStep):
    """Whether all is ready, and which lessons go into the pack."""

    title = "2. Give out lessons"
    explains = ("“Is all ready?” looks at settings, secret, class list, dates and pages, and works through all lessons "
                "with the model answers: some seconds, and nothing is written. “Give out” makes one zip for the whole "
                "class, and the bench cards to print. Lesson 00 and what was given out before are always in it; "
                "numbers given out before never change.")

    def controls(self):
        self.boxes = W.VBox([], layout={"overflow": "visible"})
        return [self.boxes, row(button("Is all ready?", lambda: self.work_on(self._ready)),
                                button("Give out", self._press))]

    def show_lessons(self, course):
        """Show the lessons that can be given out; those given out before stay in the pack."""
        given = kept_ids(course) if course else []
        self.boxes.children = [
            W.Checkbox(value=lesson.id in given, disabled=lesson.id in given, indent=False, layout={"width": "auto"},
                       description=f"{lesson.id} {lesson.title}{' (given out before)' if lesson.id in given else ''}")
            for lesson in (course.lessons.values() if course else ()) if lesson.id != "00"]     # 00 always goes too

    def chosen(self):
        """Return the ids of the lessons to add."""
        return [box.description[:2] for box in self.boxes.children if box.value and not box.disabled]

    def _ready(self, course):
        *lines, last = ready(course).lines
        self.shown.value = f"<ul>{''.join(f'<li>{escape(line)}</li>' for line in lines)}</ul>"
        return last

    def _press(self):
        course, chosen = self.chosen_course(), self.chosen()
        if course is None:
            return
        if not chosen and not kept_ids(course):
            return self.say("Choose at least one lesson.")
        try:
            typed, _ = typed_in(course, chosen)
        except EXPECTED as error:
            return self.say(in_words(error))
        questions = [f"Typed into the pages, for nobody but you: {typed}."] if typed else []
        if (course.folder / "cards.html").exists():
            more = f"add {', '.join(chosen)} to what was given out" if chosen else (
                "make the pack of the lessons given out so far again")
            questions.append(f"This will {more}. cards.csv and cards.html are there already and will be written again; "
                             "earlier packs and all numbers stay as they are.")
        give_out = partial(self._give_out, course, chosen)      # what was asked about, whatever is typed until the yes
        if not questions:
            return self.work(give_out)
        yes = {"Yes, give out": give_out} if not typed else {
            "Take it out, give out": give_out, "Leave it in, give out": partial(give_out, as_typed=True)}
        self.ask("\n".join(questions), {**yes, "No, leave it": None})

    def _give_out(self, course, chosen, as_typed=False):
        added = add_lessons(course, chosen, as_typed=as_typed)
        self.show_lessons(self.desk.course())
        return "\n".join([*added.lines, f"Next: {added.next}"])


class DropReturns(DeskStep):
    """Files that students sent are kept in the folder returned."""

    title = "3. Bring in the returns"
    explains = ("The files that students sent you, a few hundred at once at most. They go into the folder returned of "
                "the course; where a name is taken, the file gets a number. If nothing appears for a minute, they were "
                "too many for the browser: choose fewer. (Or copy them there yourself, in any subfolders.) Zips are "
                "read as they are. received.csv is for times of receipt, where being late costs marks; the files' own "
                "times are those of saving or copying, so look at them before you take them over.")

    def controls(self):
        self.upload = W.FileUpload(multiple=True, accept=".json,.txt,.zip", description="Choose returned files",
                                   layout={"width": "auto"})
        self.upload.observe(lambda change: change.new and self.work(self._keep), "value")
        return [row(self.upload, button("Begin or continue received.csv", self._received),
                    button("Take over the files' own times", self._own_times))]

    def _received(self):
        self.work_on(lambda course: received_told(course, begin_received(course)))

    def _own_times(self):
        self.work_on(lambda course: received_told(course, begin_received(course), taken=take_own_times(course)))

    def _keep(self):
        files, self.upload.value = self.upload.value, ()
        course = self.desk.course()
        if course is None:
            return "Choose a course folder first; the files were not kept."
        rows, new = [], 0
        for number, file in enumerate(files, start=1):
            content = bytes(file["content"])
            try:
                path, is_new = drop_in(course.folder / "returned", file["name"], content)
                new += is_new
                rows.append((file["name"], path.name if is_new else f"{path.name}, was there already",
                             what_it_is(content)))
            except EXPECTED as error:
                rows.append((file["name"], "not kept", in_words(error)))
            self.bar.say("files kept", number, len(files))
        self.shown.value = captioned("What came in", ("file", "kept as", "what it is"), rows)
        return f"New: {new} of {len(files)} files, in {course.folder / 'returned'}. Next: mark."


class Mark(DeskStep):
    """Marks everything in the folder returned, and shows what came."""

    title = "4. Mark"
    explains = ("Computes all marks again from the numbers that were given out. Do it as often as you like: after new "
                "returns, or when you have written marks and comments for open texts into marks/open_questions.csv.")

    def controls(self):
        return [row(button("Mark", self._press))]

    def _press(self):
        self.work_on(self._mark, there="marks/marks.csv", question=(
            "The marks in {path.parent} are from before and will be written again. What you typed into "
            "open_questions.csv is read first and kept; what changes is listed with its reason."),
            choices={"Yes, mark again": self._mark, "No, leave them": None})

    def _mark(self, course):
        with course.busy():
            done = mark(course)
        summary, (head, rows) = came_and_missing(course)
        moved = "".join(f"<li>{escape(line)}</li>" for line in done.moved)
        self.shown.value = "".join((
            *(f"<p>{escape(line)}</p>" for line in (*new_not_read_told(done), *done.remarks)),
            captioned("What came, what is missing", ("lesson", "returned", "benches without a return"), summary),
            captioned("What could not be read or does not count", ("file", "why"), done.not_read),
            f"<h3>What changed since the last marking</h3><ul>{moved}</ul>" if moved else "",
            f"<details><summary>Marks, bench by bench</summary>{table(head, rows)}</details>"))
        return (f"Work from {done.returned} of {done.benches} benches is marked. Texts not yet marked: "
                f"{done.waiting}. All is in {course.folder / 'marks'}.\nNext: {'; '.join(steps_after(done))}.")


class Read(DeskStep):
    """Pages for the instructor, shown here; where each lies is said."""

    title = "5. Read"
    explains = "Pages for your eyes only, shown below. To print one, open its file in a browser."

    def controls(self):
        self.bench = W.Dropdown(description="Bench:", options=[], style={"description_width": "4em"},
                                layout={"width": "12em"})
        return [row(button("Plans of the evenings",
                           lambda: self._make(EVENINGS, lambda course: write_evenings(course)[0]))),
                row(button("Class report", lambda: self._file("marks/class_report.html", "Mark first.")),
                    button("Bench cards", lambda: self._file("cards.html", "Give out first."))),
                row(self.bench, button("Worked answers for this bench", self._worked),
                    button("Key of right values, all benches",
                           lambda: self._make("key.html", lambda course: write_key(course)[0])))]

    def show_benches(self, course):
        """Fill the list."""
        benches = [*course.students, *course.spares] if course else []
        if list(self.bench.options) != benches:
            chosen, self.bench.options = self.bench.value, benches
            self.bench.value = chosen if chosen in benches else next(iter(benches), None)

    def _file(self, name, first):
        self.work_on(lambda course: self._show(path) if (path := course.folder / name).exists()
                     else f"There is no {path} yet. {first}")

    def _worked(self):
        bench = self.bench.value
        self._make(f"worked/{bench}.html", lambda course: write_worked(course, bench))

    def _make(self, name, write):
        """Write a page and show it; where it is there from before, ask which."""
        def write_and_show(course):
            return self._show(write(course))

        self.work_on(write_and_show, there=name, question="{path} is there from before.", choices={
            "Show it as it is": lambda course: self._show(course.folder / name), "Write it again": write_and_show})

    def _show(self, path):
        page = path.read_text(encoding="utf-8")
        # sandboxed: whatever a page holds, it runs nothing and loads nothing
        self.shown.value = (f'<iframe title="{escape(path.stem.replace("_", " "))}" sandbox '
                            f'srcdoc="{escape(page, quote=True)}"></iframe>')
        return f"Shown below: {path}"
