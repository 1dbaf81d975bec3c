"""Turns and wire in the window of the instrument's coil: SI numbers in, a small record and arrays out."""
import math
from dataclasses import dataclass

import numpy as np

from lessons_lib.base.materials import magnet_wire
from lessons_lib.base.units import said
from lessons_lib.base.workshop import house_load
from lessons_lib.lessons.instrument import house_instrument

_BASS_AND_TREBLE = np.array([100.0, 5e3])                   # Hz, where levels at the amplifier are read
_NO_TONE = house_load | {"tone_resistance": math.inf}       # the tone control is left out


@dataclass(frozen=True, kw_only=True)
class Winding:
    """A coil in the window of the instrument's: turns, turns_that_fit with this wire, wire_length (m), resistance
    (ohm), that of a wire that just fills the window and its copper diameter (m), inductance (H), open-circuit voltage
    divided by that of the instrument's, frequency of the peak with its load (Hz), levels (dB) at the amplifier relative
    to the instrument's."""

    turns: int
    turns_that_fit: int
    wire_length: float
    resistance: float
    filling_resistance: float
    filling_diameter: float
    inductance: float
    voltage: float
    peak_frequency: float
    level_at_100_hz: float
    level_at_5_khz: float

    @property
    def fits(self):
        """Whether the turns fit in with this wire."""
        return self.turns <= self.turns_that_fit

    @property
    def filled(self):
        """What they take of the window with this wire; over 1 they do not fit."""
        return self.turns / self.turns_that_fit


def filling_wire(turns, instrument=house_instrument):
    """The wire with which so many turns just fill the window, each in a square of the insulated diameter."""
    thick = magnet_wire(diameter=1e-4)
    return magnet_wire(diameter=math.sqrt(instrument.window / turns) * thick.diameter / thick.insulated_diameter)


DRAWN_ONCE_IN = 100     # turns: one wire is drawn for so many, as thick as all of them
_SEEN = 2               # windows that are drawn


def drawn_turns(turns, diameter, instrument=house_instrument):
    """Where the drawn wires of a coil are: in layers from the inside, in proportion to the room that all turns take.

    Parameters
    ----------
    turns : int
    diameter : float
        Of the insulated wire, m; each turn takes a square of it.

    Returns
    -------
    dict
        outward and up, shape (wires,): from the inner and lower corner of the window, m; thickness of a drawn wire, m;
        fits, shape (wires,): whether there is room for it. Wires out of two windows' width are left away.

    Examples
    --------
    >>> wires = drawn_turns(6000, 60e-6)
    >>> wires["fits"].size, bool(wires["fits"].all()), round(float(wires["thickness"]), 6)
    (60, True, 0.0006)
    """
    coil = instrument.long_coil
    width, length = coil.outer_radius - coil.inner_radius, coil.top - coil.bottom
    square = DRAWN_ONCE_IN * diameter ** 2
    room = max(1, round(width / math.sqrt(square)))     # layers that fill the window: the room stays in proportion
    thickness = width / room
    along = square / thickness
    layer = ((np.arange(round(turns / DRAWN_ONCE_IN)) + 0.5) * along / length).astype(int)
    layer = layer[layer < _SEEN * room]
    first, number = (count[layer] for count in (np.searchsorted(layer, np.arange(layer[-1] + 1)), np.bincount(layer)))
    step = np.where(layer < layer[-1], length / number, np.minimum(along, length / number))
    up = (np.arange(layer.size) - first + 0.5) * step
    up = np.where(layer % 2, length - up, up)           # to and fro, as it is wound
    return {"outward": (layer + 0.5) * thickness, "up": up, "thickness": min(along, thickness), "fits": layer < room}


def _levels(circuit, turns, frequency, instrument):
    """At the amplifier for equal string speed at every frequency, dB: of a circuit with its turns, of the instrument's.

    0 dB is the open voltage of the instrument's coil.
    """
    both = (turns / instrument.coil["turns"], circuit), (1.0, instrument.loaded(**_NO_TONE))
    return [20 * np.log10(share * np.abs(coil.response(frequency))) for share, coil in both]


def winding(*, turns, gauge, instrument=house_instrument):
    """A coil of so many *turns* of a wire of that American *gauge*, as a `Winding`.

    Notes
    -----
    The self-capacitance is taken as 100 pF whatever the turns; real coils differ, and a huge coil would have more.
    """
    wire, coil = magnet_wire(awg=gauge), instrument.winding(turns)
    filling, circuit = filling_wire(turns, instrument), instrument.loaded(turns=turns, wire=wire, **_NO_TONE)
    low, high = np.subtract(*_levels(circuit, turns, _BASS_AND_TREBLE, instrument))
    return Winding(turns=turns, turns_that_fit=coil.turns_that_fit(wire), wire_length=coil.wire_length(),
                   resistance=coil.resistance(wire), filling_resistance=coil.resistance(filling),
                   filling_diameter=float(filling.diameter), inductance=circuit.inductance,
                   voltage=turns / instrument.coil["turns"], peak_frequency=circuit.peak()[0],
                   level_at_100_hz=float(low), level_at_5_khz=float(high))


def winding_curves(one, *, turns, gauge, instrument=house_instrument):
    """What `TurnsInWindow.update` takes."""
    frequency, counts, wire = np.geomspace(100, 1e4, 120), np.geomspace(1e3, 5e4, 25), magnet_wire(awg=gauge)
    coils = [(instrument.winding(n), filling_wire(n, instrument)) for n in counts]
    this, house = _levels(instrument.loaded(turns=turns, wire=wire, **_NO_TONE), turns, frequency, instrument)
    words = said(one.filled, "%", ".0f") + " full" if one.fits else f"{one.filled:.3g} windows full"
    return {"windows": [drawn_turns(turns, one_wire.insulated_diameter, instrument)
                        for one_wire in (wire, filling_wire(turns, instrument))],
            "words": ((words, one.fits), (f"{said(one.filling_diameter, 'µm', '.1f')} of copper", True)),
            "resistance": {"turns": counts, "same_wire": [coil.resistance(wire) for coil, _ in coils],
                           "full_window": [coil.resistance(filling) for coil, filling in coils],
                           "at": (turns, one.resistance, one.filling_resistance)},
            "output": {"frequency": frequency, "house": house, "this": this}}
