"""The made-up garden lesson, of which a number, an open text and a prediction are further."""
from dataclasses import replace

from exercises_following import GARDEN

FURTHER = ("p1", "1.2", "1.5")
PART_FURTHER = replace(GARDEN, exercises=tuple(replace(one, further=True) if one.id in FURTHER else one
                                               for one in GARDEN.exercises))
FURTHER_ANSWERS = "from exercises_further import PART_FURTHER as LESSON\n"
