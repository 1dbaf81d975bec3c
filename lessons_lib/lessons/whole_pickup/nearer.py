"""What changed where the model came nearer to the world, or an own string's steel: sentences, as in changes.py."""
from types import MappingProxyType

import numpy as np

from lessons_lib.base.units import said
from lessons_lib.lessons.whole_pickup.band import NAMES
from lessons_lib.lessons.whole_pickup.parts import WRAP, is_wound
from lessons_lib.lessons.whole_pickup.settings import OWN, SPREADS, WRAPS
from lessons_lib.lessons.whole_pickup.words import at_value, damping, instead, linkage, resonance, setting, stretch
from lessons_lib.physics.eddy_currents import MetalInField

_AT = 5e3               # Hz, where inductance and loss with currents in the poles are told


def _metal(was, now):
    if not was.coil.loops and not now.coil.loops:
        return ("The rods are of ferrite, or taken for it, which hardly conducts: no current flows in them, and "
                "nothing changes", "lesson 6")
    inductance, loss = (instead(*ends, unit, ".2f") for ends, unit in zip(
        zip(*(_seen(one.coil) for one in (was, now))), ("H", "kΩ")))
    old, new = was.response_peak, now.response_peak
    where = at_value(old[0], new[0], "kHz", ".2f") if old and new else resonance(was, now)
    cause = ("Currents flow in the metal of the poles, heat it and keep part of the changing flux out of it"
             if now.coil.loops else
             "No current flows in the metal of the poles any more, which heats nothing and keeps no flux out of it")
    return (f"{cause}: at {said(_AT, 'kHz', '.0f')} the coil has {inductance}, and a resistance of {loss} beside that "
            f"of its wire, so {damping(was, now)}, {where}", "lesson 6")


def _seen(coil):
    """Inductance (H) of a coil at _AT, and the resistance (ohm) that its loops add there."""
    impedance = MetalInField(coil.inductance, coil.loops).impedance(_AT)
    return impedance.imag / (2 * np.pi * _AT), impedance.real


def _wrap(was, now):
    string = "Your own string" if now.settings.string == OWN else f"String {now.settings.string}"
    if not is_wound(now.settings):
        return f"{string} is plain: it has no wrap, and nothing changes", "lesson 7"
    magnetised = ("only the core is magnetised" if now.settings.wrap == WRAPS[0] else
                  f"the wrap is magnetised beside the core (with an effective permeability of "
                  f"{WRAP:.0f}, low because of the gaps between its turns)")
    return (f"With a wrap of {now.settings.wrap} instead of {was.settings.wrap} {magnetised}, so {linkage(was, now)}, "
            "while it moves as before", "lesson 7")


def _outside(was, now):
    if now.settings.wrap == WRAPS[0]:
        return ("A pickup hears the steel of the core, and the motion follows from pitch and linear density, which "
                "stay: the outer diameter alone changes nothing", "lessons 5 and 7")
    thick = now.settings.row["diameter"] > was.settings.row["diameter"]
    outside = setting(was, now, "string_diameter", "mm", ".2f")
    return (f"With {'more' if thick else 'less'} of a wrap of steel, {outside} outside, {linkage(was, now)}, while it "
            "moves as before", "lessons 5 and 7")


def _spread(was, now):
    peak, place = now.bands
    if now.settings.spread == SPREADS[0]:
        return "The spread of the parts is not shown any more, and nothing else changes", "lesson 3"
    if peak is None:
        return "There is no voltage, so there is nothing that could spread", "lesson 3"
    memory = ", which no model here computes," if peak.most == NAMES["memory"] else ""
    where = "" if place is None else (
        f"; their responses peak at {stretch(place, 'kHz', '.2f')}, where the {place.most} counts most")
    return (f"Two of three pickups that are built to this description give {stretch(peak, 'mV')} at the amplifier, "
            f"where the {peak.most}{memory} counts most{where}", "lesson 3")


SENTENCES = MappingProxyType({"metal": _metal, "wrap": _wrap, "spread": _spread, "string_diameter": _outside})
