"""The library behind the course: physics computed live, pictures, panels, and exercises with their sheets.

The names a notebook starts with load when they are first used: a script that wants the physics gets nothing else.
"""
from importlib import import_module

_HOMES = {"use_card": "bench", "open_sheet": "open_sheet", "progress": "open_sheet", "presenting": "sheet"}
__all__ = list(_HOMES)


def __getattr__(name):
    if name not in _HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.exercises.{_HOMES[name]}"), name)


def __dir__():
    return [*globals(), *_HOMES]
