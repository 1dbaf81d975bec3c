"""What marking counts for the class report, one student after the other, counted by hand."""
from exercises_following import GARDEN
from lessons_lib.course.class_report import report_page
from lessons_lib.course.tally import BUILDS_ON, GENERAL_NOTES, SIZE


def tally_of(small):
    """The tally that marking makes of the small class."""
    seen = {}

    def page(course, tallies, unclear, begun):
        seen.update(tallies)
        return report_page(course, tallies, unclear, begun)

    small.patch("lessons_lib.course.mark.report_page", page)
    small.mark()
    return seen["01"]


def test_slips_notes_and_unexplained_values(small):
    first, second, third = (small.student(bench) for bench in ("b010", "b011", "b012"))
    pond = GARDEN["1.1"]
    first.right(pond)
    first.wrong(pond, 1.2)          # after the right one nothing counts
    _, slip, note = second.drawn(pond).own_slips[0]
    second.type("1.1", float(f"{slip:.5g}"))
    second.type("1.1", float(f"{slip * 1.001:.5g}"))        # the same bin is no new try
    second.right(pond)
    third.wrong(pond, 0.7)
    third.wrong(pond, 0.95)
    third.type("1.1", 5e6)
    for one in (first, second, third):
        small.give_back(one)
    tally = tally_of(small).exercises["1.1"]
    assert (tally.answered, tally.first, tally.right) == (3, 1, 2)
    assert tally.slips == {("open part", note): 1}
    assert (tally.wrong_first, tally.unexplained_first) == (2, 1)
    assert tally.unexplained == {
        "0.7 × the right value": 1, "near miss, within 10 %": 1, "far outside the expected range": 1}
    notes = {name: (one.read, one.tried, one.right) for name, one in tally.notes.items()}
    assert notes == {("open part", note): (1, 1, 1), GENERAL_NOTES[0]: (1, 1, 0), GENERAL_NOTES[1]: (1, 1, 0),
                     SIZE: (1, 0, 0)}


def test_what_builds_on_a_wrong_answer(small):
    student = small.student()
    student.wrong(GARDEN["1.1"], 1.15)
    student.wrong(GARDEN["1.6"], 1.3)           # read: it builds on 1.1
    student.right(GARDEN["1.1"])
    student.wrong(GARDEN["1.6"], 0.8)           # now its own note
    small.give_back(student)
    tally = tally_of(small).exercises["1.6"]
    assert {name: one.read for name, one in tally.notes.items()} == {BUILDS_ON: 1, GENERAL_NOTES[1]: 1}


def test_choices_levels_and_predictions(small):
    student = small.student()
    student.type("1.4", "a")
    level = student.drawn(GARDEN["1.3"]).answer
    student.type("1.3", round(level + 0.7, 2), "dB")
    with student._desk():
        student.sheet.predict("p1", "b", 3, "wind")
        student.sheet.predict("p1", "a", 1, "after all")        # the first is the one before looking
        student.sheet.saw("p1", "b")
        student.sheet.saw("p1", "a")
    small.give_back(student)
    tally = tally_of(small)
    assert tally.exercises["1.4"].slips == {("(a) left", "And the other one?"): 1}
    assert tally.exercises["1.3"].unexplained == {"+0.7 dB from the right value": 1}
    one = tally.exercises["p1"]
    assert (one.predicted, one.sure, one.saw) == ({"b": 1}, {("b", 3): 1}, {"b": 1})
