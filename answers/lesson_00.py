"""Lesson 00, start here: three votes, one panel, one exercise done together, one to do alone. None of it is marked."""
from lessons_lib.exercises.declaration import (
    Given,
    Lesson,
    NumberExercise,
    PredictionExercise,
    Slip,
    Twin,
    VoteExercise,
)


def note_of_string(speed, length):
    return speed / (2 * length)


ONE_WAY = ("Did you count one way only? The wave runs to the end and back before it begins again: "
           "how long is its whole way?")

AGAIN = "at the end of lesson 4"

what_it_hears = VoteExercise(
    id="v1", again=AGAIN,
    question="Four strings swing over the same pickup, one after the other: nylon, bronze, copper, steel. Which does "
             "the pickup hear?",
    options={"a": "all four: each of them moves", "b": "bronze, copper and steel: each of them is a metal",
             "c": "copper alone: it conducts best", "d": "steel alone: a magnet attracts it"},
    seen="d",
    # that conductors count for little is an estimate: the eddy currents of a copper wire of 0.5 mm, at 0.75 m/s in a
    # gradient of 17 T/m, amount to a magnetisation of some 12 A/m; that of steel changes by 10 kA/m and more
    because="The magnet has to magnetise the string, and the string carries its magnetisation along as it swings. Of "
            "the four, only steel can be magnetised (nickel, too). That copper and bronze conduct adds next to "
            "nothing. In a string wound with bronze, the pickup hears the steel core.",
    where="lesson 3, section 1")

held_still = VoteExercise(
    id="v2", again=AGAIN,
    question="A steel string is pulled aside and held there, quite still. A voltmeter is connected to the coil. What "
             "does it show?",
    options={"a": "a steady voltage, larger than before", "b": "a steady voltage, smaller than before",
             "c": "zero", "d": "a voltage that alternates at the frequency of the string's note"},
    seen="c",
    because="With the string aside, the coil links a little less flux; but that little less stays the same, and only a "
            "change of flux makes a voltage.",
    where="lesson 4, section 1")

twice_as_far = VoteExercise(
    id="v3", again=AGAIN,
    question="A steel string swings 2 mm above its pole in the pickup of this course. Now it swings twice as far away, "
             "4 mm above, just as wide and just as fast. How much of the voltage is left?",
    options={"a": "nearly all of it", "b": "about half of it", "c": "about a quarter of it",
             "d": "about an eighth of it"},
    seen="b",
    because="A little more than half is left (over a single rod in a round coil, about a third). Pole and coil are "
            "wider than their distance from the string: laws for points, with the square or the cube of the distance, "
            "do not hold this near.",
    where="lesson 4, in the panel of section 1")

shorter_string = PredictionExercise(
    id="p1",
    question="The string is made half as long, at the same tension. What happens to the frequency of its note?",
    options={"a": "it halves", "b": "it stays the same", "c": "it doubles", "d": "it becomes four times as large"},
    seen_question="Move the length from 600 mm to 300 mm. What does the frequency do?",
    seen_options={"a": "it halves", "b": "it stays the same", "c": "it doubles",
                  "d": "it becomes four times as large"},
    seen="c",
    seen_notes={
        "a": "Look again: set the length to 600 mm, read the frequency, then set 300 mm. Does the number grow or "
             "shrink?",
        "b": "Look again: set the length to 600 mm, then to 300 mm, and read the frequency each time.",
        "c": "Yes, that is what the panel shows: half the length, twice the frequency.",
        "d": "Look again: divide the frequency at 300 mm by the one at 600 mm."})

open_string = NumberExercise(
    id="0.1", unit="Hz", tolerance=0.02, size=(60, 900), marks=0,
    given={"speed": Given("speed of the wave", unit="m/s", low=150, high=420, step=5),
           "length": Given("length of the string", unit="mm", low=560, high=640, step=5)},
    answer=lambda speed, length: note_of_string(speed, length),
    slips=(Slip("one way only", lambda speed, length: speed / length, ONE_WAY),
           Slip("half the length", lambda speed, length: 2 * speed / length,
                "The 2 is in the formula once, below the line. Where did it go in your calculation?"),
           Slip("upside down", lambda speed, length: 2 * length / speed,
                "That is the time of one round trip. How many round trips fit into a second?")),
    common=("thousand", "ten"),
    notes=("Look at the formula just above: which of its letters did you take from the table, and in which unit?",
           "The frequency counts round trips in a second: speed divided by the way there and back."),
    twin=Twin({"speed": 300, "length": 500},
              "Another string: {speed} on {length}. The way there and back is 2 × 0.5 m = 1 m, so the frequency is "
              "300/1 = {answer}."),
    worked="The way there and back is twice {length}. The frequency is the speed {speed} divided by it: {answer}.",
    teaching_note="Done together on the page, with a slip made on purpose, so that everybody has seen a note.")

fretted_string = NumberExercise(
    id="0.2", unit="Hz", tolerance=0.02, size=(90, 2000), marks=0,
    given={"speed": Given("speed of the wave", unit="m/s", low=150, high=420, step=5),
           "length": Given("sounding length", unit="mm", low=300, high=450, step=5)},
    answer=lambda speed, length: note_of_string(speed, length),
    slips=(Slip("one way only", lambda speed, length: speed / length, ONE_WAY),
           Slip("open string", lambda speed: note_of_string(speed, 0.6),
                "That fits a string of 600 mm. Which length sounds now?"),
           Slip("upside down", lambda speed, length: 2 * length / speed,
                "That is the time of one round trip. How many round trips fit into a second?")),
    common=("thousand", "ten"),
    notes=("Which length sounds now? Put it into metres before you divide.",
           "The frequency counts round trips in a second: speed divided by the way there and back."),
    twin=Twin({"speed": 300, "length": 400},
              "Another string: {speed} on {length}. The way there and back is 0.8 m, so the frequency is "
              "300/0.8 = {answer}."),
    worked="The way there and back is twice {length}. The frequency is {speed} divided by it: {answer}.",
    teaching_note="Anyone who is stuck here is stuck with the page, not with physics: sit down beside them.")

TEACHING_NOTE = """
Ten minutes before the plan of lesson 1's evening begins. Let everybody hear the pickup, type their card, vote, save
one prediction and get one note. Do not tell what the votes turn out to be: lesson 4 shows each student their own
again. Say aloud what the checking is: practice. Nobody sees the tries, and tries cost nothing. Say what core and
further are, and which of them carries marks in your course. Show where the folder my_work is.
"""

LESSON = Lesson(
    id="00", title="Start here", version=1,
    exercises=(what_it_hears, held_still, twice_as_far, shorter_string, open_string, fretted_string),
    teaching_note=TEACHING_NOTE)
