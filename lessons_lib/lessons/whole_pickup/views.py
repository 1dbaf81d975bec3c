"""What the picture of the whole pickup shows: at rest, and over one period of a pluck."""
import numpy as np

from lessons_lib.base.workshop import house_bar, house_screw
from lessons_lib.lessons.whole_pickup.film import film, lines, pale_lines
from lessons_lib.lessons.whole_pickup.model import FREQUENCIES
from lessons_lib.lessons.whole_pickup.parts import rod
from lessons_lib.physics.six_strings import decibels
from lessons_lib.pictures.whole_pickup import HARMONIC_ZERO, LEVELS

FRETS = np.arange(20)
_ALONG = 41             # places of the string's shape
_TRACE = 160            # instants of a trace


def picture(one):
    """Everything at rest, with the string as it is pulled and one period from the release on.

    Parameters
    ----------
    one : WholePickup

    Returns
    -------
    dict
        string, cut, traces, response: what the pictures of `pictures.whole_pickup` take.
    """
    s = one.settings
    rest = s.aside, s.height
    places, moved = _shapes(one, [0.0])
    strip = {"length": s.scale_length, "frets": s.scale_length / 2 ** (FRETS[1:] / 12), "pickup": s.pickup_place,
             "pluck": s.pluck_place, "finger": one.tuned.length if s.fret else None}
    return {"string": strip | {"pulled": (places, moved[0])},
            "cut": _cut(one) | {"rest": rest, "string": rest, "lines": lines(s)},
            "traces": _traces(one) | {"now": None, "dots": None}, "response": _response(one)}


def swinging(one, n=24):
    """The same at *n* instants of a period, the string on its way."""
    still, frames = picture(one), film(one.settings, n)
    places, moved = _shapes(one, [frame["time"] for frame in frames])
    way = _way(one)
    return [still | {
        "string": still["string"] | {"shape": (places, shape)},
        "cut": still["cut"] | {"string": (frame["place"], frame["height"]), "lines": frame["lines"]},
        "traces": still["traces"] | {"now": number / n, "dots": (
            way[0] * frame["up"] + way[1] * frame["across"], frame["linkage"], frame["amplifier"])},
    } for number, (frame, shape) in enumerate(zip(frames, moved))]


def _way(one):
    """Up and across, of a step along the way on which the string is plucked."""
    return np.cos(one.settings.direction), np.sin(one.settings.direction)


def _shapes(one, times):
    """Places from the bridge to the fret (m), and the displacement along the pluck there at each of some times (m)."""
    places, way = np.linspace(0, one.tuned.length, _ALONG), _way(one)
    moved = [np.zeros(len(times)) if not 0 < place < one.tuned.length else np.tensordot(
        way, np.stack(one.motion.displacement(np.asarray(times), place)), axes=1) for place in places]
    return places, np.transpose(moved)


def _cut(one):
    s = one.settings
    if s.form != "screws":
        pole, bar = {"diameter": s.diameter, "length": s.length, "remanence": rod(s).remanence}, None
    else:
        pole = {name: house_screw[name] for name in ("diameter", "length")}
        bar = {"top": house_bar["centre"][2] + house_bar["size"][2] / 2, "thickness": house_bar["size"][2],
               "width": house_bar["size"][1]}
    up, across = (np.array([part[one.one_period].min(), part[one.one_period].max()]) for part in (one.up, one.across))
    if np.cos(s.direction) * np.sin(s.direction) < 0:
        across = across[::-1]
    return {"pole": pole, "bar": bar, "turns": s.turns, "pale": pale_lines(s), "diameter": s.row["diameter"],
            "core": s.row["core"], "ends": np.column_stack([s.aside + across, s.height + up])}


def _traces(one):
    share, period = np.linspace(0, 1, _TRACE), one.period
    up, across, linkage, voltage, amplifier = (np.interp(share * period, one.time, values) for values in (
        one.up, one.across, one.linkage, one.voltage, one.amplifier))
    way = _way(one)
    return {"share": share, "traces": (way[0] * up + way[1] * across, linkage, amplifier), "open_circuit": voltage,
            "period": period}


def _response(one):
    level = one.levels[1] - decibels(HARMONIC_ZERO, 1e-3)
    return {"frequency": FREQUENCIES, "response": one.response, "peak": one.response_peak,
            "band": one.bands[1] and (one.bands[1].low, one.bands[1].high),
            "harmonics": (one.harmonics.frequency, np.where(level > LEVELS[0], level, np.nan))}
