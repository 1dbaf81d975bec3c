"""The library behind the course: physics computed live, pictures, panels, and exercises with their sheets.

The names a notebook starts with load when they are first used: a script that wants the physics gets nothing else.
"""
from typing import TYPE_CHECKING

from lessons_lib.base.offered import offered

__all__, __getattr__, __dir__ = offered(__name__, __file__)

if TYPE_CHECKING:
    from lessons_lib.exercises.bench import use_card
    from lessons_lib.exercises.open_sheet import progress
    from lessons_lib.opening import open_sheet, presenting
    from lessons_lib.page.curves import curves
    from lessons_lib.page.votes import vote, votes_again
