"""The plain functions behind the panel of the first page: SI numbers in, small records and arrays out."""
from dataclasses import dataclass

import numpy as np

from lessons_lib.base.checks import positive
from lessons_lib.base.units import said
from lessons_lib.base.workshop import house_coil, house_magnet, house_place, house_strings
from lessons_lib.lessons.rod import flux_map
from lessons_lib.physics.plucked_string import TunedString

WHOLE = 0.6     # m, the string that no finger presses
SHORTEST = 0.2
WIRE = 0.4e-3   # kg/m, of a plain steel string: it sets the tension, and no frequency
PULLED, HEARD = 0.08, 0.05      # m from the bridge: where it is plucked, 1 mm aside, and where it is listened to
LOUDEST = 4.6   # m/s, of the quickest waves on the shortest string
SECONDS = 1.2


def frequency(speed, length):
    """Frequency (Hz) of the fundamental of a string of *length* (m) on which waves run at *speed* (m/s)."""
    return speed / (2 * length)


@dataclass(frozen=True, kw_only=True)
class ShorterNote:
    """Frequency of the note and of the whole string's, Hz."""

    frequency: float
    whole: float

    @property
    def ratio(self):
        """How many times the frequency of the whole string."""
        return self.frequency / self.whole


def shorter_note(*, length, speed):
    """The note of a part of the string that is *length* long (m), with waves at *speed* (m/s), as a ShorterNote.

    Examples
    --------
    >>> shorter_note(length=0.3, speed=240.0)
    ShorterNote(frequency=400.0, whole=200.0)
    """
    positive(length=length, speed=speed)
    return ShorterNote(frequency=frequency(speed, length), whole=frequency(speed, WHOLE))


def _swing(length):
    """Shape of the fundamental on a part of the string, for a picture."""
    place = np.linspace(0, length, 49)
    return place, np.sin(np.pi * place / length)


def shorter_curve(note, *, length, speed):
    """What the two halves of the picture take: the string with its finger, the curve of notes with two dots."""
    lengths, pressed = np.linspace(SHORTEST, WHOLE, 81), length < WHOLE
    return {"string": {"length": WHOLE, "finger": length if pressed else None, "frets": [length] if pressed else [],
                       "shape": _swing(length), "before": _swing(WHOLE)},
            "chart": {"note": (lengths, frequency(speed, lengths)), "now": (length, note.frequency),
                      "whole": (WHOLE, note.whole) if pressed else None,
                      "words": {"now": said(note.frequency, "Hz", ".0f"),
                                "note": f"whole string\n{said(note.whole, 'Hz', '.0f')}" if pressed else ""}}}


def notes(note, rate, *, length, speed):
    """Caption -> velocity (m/s) of the plucked string, *rate* samples a second: the whole one, then the shorter one.

    Examples
    --------
    >>> [caption for caption in notes(shorter_note(length=0.3, speed=240.0), 22050, length=0.3, speed=240.0)]
    ['the whole string, 200 Hz', 'a length of 300 mm, 400 Hz']
    """
    strings = {f"the whole string, {said(note.whole, 'Hz', '.0f')}": WHOLE}
    if length < WHOLE:
        strings[f"a length of {said(length, 'mm', '.0f')}, {said(note.frequency, 'Hz', '.0f')}"] = length
    time = np.arange(int(SECONDS * rate)) / rate
    plucks = {caption: TunedString(length=one, tension=WIRE * speed ** 2, linear_density=WIRE).pluck(
        displacement=1e-3, place=PULLED) for caption, one in strings.items()}
    return {caption: pluck.velocity(time, HEARD)[0] for caption, pluck in plucks.items()}


def parts():
    """What the picture of the course takes: the workshop's magnet, coil and string VI in SI, and the magnet's flux."""
    window = {name: house_coil[name] for name in ("inner_radius", "outer_radius", "bottom", "top")}
    flux = flux_map(**house_magnet)
    return {"coil": window, "magnet": {name: house_magnet[name] for name in ("diameter", "length")},
            "string": {"height": house_place["string_height"], "diameter": house_strings["VI"]["diameter"]},
            "flux": {name: flux[name] for name in ("rho", "z", "flux")}}
