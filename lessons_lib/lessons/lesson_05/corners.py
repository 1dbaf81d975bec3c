"""The two corners that run apart on a plucked string: exact for a flexible, undamped one plucked at a point."""
import math

import numpy as np


def _fold(place, length):
    """A place on the endless mirrored string brought back onto the real one, and the sign it has there."""
    turned = place % (2 * length)
    return np.where(turned > length, 2 * length - turned, turned), np.where(turned > length, -1.0, 1.0)


def pulled(string, force, pluck_place, place):
    """The shape just before the release (m), mirrored with the other sign beyond both ends."""
    on, sign = _fold(place, string.length)
    near, far = np.minimum(on, pluck_place), np.maximum(on, pluck_place)
    return sign * force / string.tension * near * (string.length - far) / string.length


def displaced(string, force, pluck_place, place, time):
    """Displacement (m) of an ideal string let go at 0: half of the pulled shape runs each way.

    Place (m from the bridge) and time (s) broadcast. Length and tension are the string's; d'Alembert's solution.

    Examples
    --------
    >>> from lessons_lib.physics.plucked_string import TunedString
    >>> string = TunedString(length=0.6, tension=60.0, linear_density=0.001)
    >>> half_a_period = string.length / string.wave_speed
    >>> displaced(string, 1.2, 0.3, 0.3, np.array([0.0, half_a_period])).round(6)
    array([ 0.003, -0.003])
    """
    way = string.wave_speed * np.asarray(time)
    return (pulled(string, force, pluck_place, place + way) + pulled(string, force, pluck_place, place - way)) / 2


def plucked_shape(string, force, pluck_place, time):
    """The ideal string at one instant: straight between its ends and its two running corners.

    Returns
    -------
    place, displacement : ndarray, shape (4,)
        m; bridge, corner, corner, nut.
    """
    corners, _ = _fold(pluck_place + string.wave_speed * time * np.array([-1.0, 1.0]), string.length)
    place = np.array([0.0, *np.sort(corners), string.length])
    return place, displaced(string, force, pluck_place, place, time)


def pulses(string, force, pluck_place, place, time):
    """Velocity (m/s) in time (s) of an ideal string let go at 0: two travelling halves of the slope that was pulled.

    Examples
    --------
    >>> from lessons_lib.physics.plucked_string import TunedString
    >>> string = TunedString(length=0.6, tension=60.0, linear_density=0.001)
    >>> pulses(string, 1.2, 0.1, 0.15, np.array([1e-4, 3e-4, 1.5e-3]))     # F/(2Z) = 2.449
    array([ 0.        , -2.44948974,  0.        ])
    """
    def slope(x):
        x = np.abs((x + string.length) % (2 * string.length) - string.length)
        return force / string.tension * ((x < pluck_place) - pluck_place / string.length)
    way = string.wave_speed * np.asarray(time)
    return string.wave_speed / 2 * (slope(place + way) - slope(place - way))


def pulse_train(string, force, pluck_place, place, last):
    """The corners of the graph of `pulses` from 0 to *last*: time (s) and velocity (m/s), two entries a step."""
    ways = [2 * k * string.length + sign * (place + mirror * pluck_place) for sign in (-1, 1) for mirror in (-1, 1)
            for k in range(math.ceil(last * string.wave_speed / (2 * string.length)) + 2)]
    passes = np.unique(np.round(np.array(ways) / string.wave_speed, 12))       # a corner is at the place
    edges = np.array([0.0, *passes[(passes > 0) & (passes < last)], last])
    levels = pulses(string, force, pluck_place, place, (edges[1:] + edges[:-1]) / 2)
    return np.repeat(edges, 2)[1:-1], np.repeat(levels, 2)
