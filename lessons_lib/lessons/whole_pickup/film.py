"""Lines of flux that come to the string, and the instants of one period of a pluck, slowed."""
from functools import lru_cache

import numpy as np
from scipy.constants import mu_0

from lessons_lib.lessons.string_lines import PoleInPickup, StringInSpace, one_path, trace
from lessons_lib.lessons.whole_pickup.model import whole_pickup
from lessons_lib.lessons.whole_pickup.parts import pickup_of, rod, steel_of
from lessons_lib.physics.string_answer import string_line

# m, of the cut across the strings; lines of the deepest pole and its bar are in it
CUT = {"half_width": 12e-3, "sides": (-9.6e-3, 9.6e-3), "bottom": -22e-3, "top": 9e-3, "grid": 0.25e-3, "reach": 18e-3}
TUBE = 20e-9            # Wb from one line to the next, of what a slice of the string gathers
PALE = 6                # lines of the pole without a string, from its axis to its wall
PLACES = 13             # of the string in a film's lines; from one to the next it moves less than it is thick
_NONE = np.zeros((2, 0))


def lines(settings, height=None, place=None):
    """Lines of flux that come to the string, in the cut across the strings through the middle of the pole.

    Parameters
    ----------
    settings : Settings
    height, place : float, optional
        Of the string's axis above the pole and aside of its middle, m; else where it rests.

    Returns
    -------
    ndarray, shape (2, n)
        y and z of many lines parted by NaN, m from the middle of the pole's face: as many lines as a slice of the
        string, `string_lines.SLICE` long, gathers flux.

    Notes
    -----
    Over a rod magnet the neighbours are left out, as in lesson 3, and of a pair the other coil's rod; over screws all
    six and the bar are in.
    """
    height, place = (settings.height if height is None else height, settings.aside if place is None else place)
    return _lines(_body(settings), steel_of(settings), round(height, 8), round(place, 8))


def pale_lines(settings):
    """Lines of the pole without a string in the same cut, all round: y and z (m), parted by NaN."""
    return _pale_lines(_body(settings), settings.length if settings.form != "screws" else None)


def _body(settings):
    """What the lines are drawn for: the rod alone, or the pole with all of its pickup."""
    return rod(settings) if settings.form != "screws" else PoleInPickup(pickup_of(settings), settings.pole_number)


@lru_cache(maxsize=64)
def _lines(body, steel, height, place):
    along = body.flux_density(string_line(height=height, y=place)) / mu_0
    if not along.any():
        return _NONE
    string = StringInSpace(steel.magnetise(along), height=height, place=place)
    start = string.round_the_middle(body, TUBE)
    return one_path(trace(body, start, np.full(start.shape[1], -1.0), string, CUT))[1:]


@lru_cache(maxsize=8)
def _pale_lines(body, length):
    """From the middle of a rod up and down; from low in a screw, which has its bar below it, up."""
    start = body.diameter / 2 * (np.arange(PALE) + 0.5) / PALE
    start = np.concatenate([-start, start])
    places = np.stack([0 * start, start, np.full(start.shape, -8e-3 if length is None else -length / 2)])
    if not body.flux_density(places.T).any():
        return _NONE
    return one_path(trace(body, np.tile(places, 2), np.repeat([1.0, -1.0], start.size), frame=CUT))[1:]


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
