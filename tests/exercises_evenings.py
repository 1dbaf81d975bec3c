"""The made-up garden lesson with two evenings and two questions to vote on."""
from dataclasses import replace

from exercises_following import GARDEN
from lessons_lib.exercises.declaration import Evening, Stretch, ToVote

FIRST = Evening(
    aim="How much of a pond is covered, and how to <measure> it.",
    stretches=(Stretch(minutes=10, what="The quick question, the kite.", ask="What will it do?"),
               Stretch(minutes=25, what="Ponds: 1.1, and 1.6 in pairs.", ask="Which area is asked?"),
               Stretch(minutes=30, what="Beds: 1.2.")),
    on_the_table="A compass, string.", at_home="1.3.")
SECOND = Evening(aim="Both gates.", stretches=(Stretch(minutes=60, what="1.4, then 1.5.", ask="Which one swings?"),))
VOTES = (
    ToVote(question="A pond twice as wide is how many times as large?", options={"a": "twice", "b": "four times"},
           right="b", because="Areas go with the *square*.",
           twin=ToVote(question="Half as wide?", options={"a": "a quarter", "b": "half"}, right="a",
                       because="Again the square.")),
    ToVote(question="Which gate swings?", options={"a": "one", "b": "both"}, right="b", because="They share a post."))
EVENINGS = replace(GARDEN, evenings=(FIRST, SECOND), to_vote=VOTES, teaching_note="Bring **a spade**.")
EVENINGS_ANSWERS = "from exercises_evenings import EVENINGS as LESSON\n"
