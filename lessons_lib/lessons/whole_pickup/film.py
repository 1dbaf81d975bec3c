"""Lines of flux round pole and string, and the instants of one period of a pluck, slowed."""
from functools import lru_cache

import numpy as np
from scipy.constants import mu_0

from lessons_lib.lessons.flux_cut import (
    StringInCut,
    both_sides,
    lines_with,
    lines_without,
    pickup_field,
    rod_field,
    seeds_in,
    seeds_of_rod,
)
from lessons_lib.lessons.whole_pickup.model import whole_pickup
from lessons_lib.lessons.whole_pickup.parts import pickup_of, rod
from lessons_lib.physics.steel import SteelString
from lessons_lib.physics.string_answer import string_line

PLACES = 13             # of the string in a film's lines; from one to the next it moves less than it is thick
_NONE = (np.zeros(0), np.zeros(0))


def lines(settings, height=None, place=None):
    """Lines of flux in the upright cut through the string, with it and without it.

    Parameters
    ----------
    settings : Settings
    height, place : float, optional
        Of the string's axis above the pole and aside of its middle, m; else where it rests.

    Returns
    -------
    dict
        with_string, without: (x, z) of many lines parted by NaN, m from the middle of the pole's face; height, place
        (m); core, the steel's diameter (m).

    Notes
    -----
    Over a rod magnet the neighbours are left out, as in lesson 3; over screws all six and the bar are in.
    """
    height, place = (settings.height if height is None else height, settings.aside if place is None else place)
    return _lines(*_pole(settings), settings.row["core"], round(height, 8), round(place, 8))


def _pole(settings):
    """What the lines are drawn for: the rod alone, or the pickup, and where the pole's middle is across."""
    return (rod(settings), 0.0) if settings.form == "rods" else (pickup_of(settings), settings.pole_y)


@lru_cache(maxsize=64)
def _lines(body, pole, core, height, place):
    cut = {"height": height, "place": place, "core": core}
    field, seeds, radius = _field_and_seeds(body, pole, place)
    if not len(seeds):
        return cut | {"with_string": _NONE, "without": _NONE}
    along = body.flux_density(string_line(height=height, y=pole + place)) / mu_0
    string = StringInCut(SteelString(diameter=core).magnetise(along), height)
    up, down = lines_without(field, tuple(seeds), abs(place) > radius)
    return cut | {"with_string": both_sides(down, lines_with(field, seeds, string)), "without": both_sides(down, up)}


def _field_and_seeds(body, pole, place):
    if hasattr(body, "poles"):
        return (pickup_field(body, pole, place), seeds_in(pickup_field(body, pole, 0.0)), body.poles[0].diameter / 2)
    return rod_field(body, abs(place)), seeds_of_rod(body), body.diameter / 2


def film(settings, n=40):
    """The instants of one period of the pluck, from the release on, in *n* even steps.

    Returns
    -------
    list of dict
        time (s), up, across (m, from rest), height, place (m, of the string from the middle of the pole's face),
        linkage (Wb-turns, from rest), voltage, amplifier (V), lines (as `lines` gives them): for the nearest of 13
        places on the string's way, the same object for the same place.
    """
    one = whole_pickup(settings)
    time = np.arange(n) / n * one.period
    up, across, linkage, voltage, amplifier = (np.interp(time, one.time, values) for values in (
        one.up, one.across, one.linkage, one.voltage, one.amplifier))
    way = np.stack([np.cos(settings.direction), np.sin(settings.direction)])
    along = way @ (up, across)
    stops = np.linspace(along.min(), along.max(), PLACES)
    drawn = [lines(settings, settings.height + way[0] * stop, settings.aside + way[1] * stop)
             for stop in stops[np.abs(along[:, np.newaxis] - stops).argmin(axis=1)]]
    return [{"time": t, "up": u, "across": a, "height": settings.height + u, "place": settings.aside + a,
             "linkage": psi, "voltage": e, "amplifier": out, "lines": cut}
            for t, u, a, psi, e, out, cut in zip(time, up, across, linkage, voltage, amplifier, drawn)]
