"""What changed, and why: one sentence for each setting, every number and direction taken from the model."""
import math
from dataclasses import fields
from types import MappingProxyType

import numpy as np

from lessons_lib.base.units import in_unit, resistance_words, said
from lessons_lib.lessons.whole_pickup import nearer
from lessons_lib.lessons.whole_pickup.model import whole_pickup
from lessons_lib.lessons.whole_pickup.parts import is_wound, lowest_of
from lessons_lib.lessons.whole_pickup.settings import OWN, WRAPS, Settings
from lessons_lib.lessons.whole_pickup.words import (
    at_value,
    both,
    damping,
    instead,
    level,
    linkage,
    moved,
    resonance,
    setting,
    speed,
)

_POLES = {"rods": "rod magnets", "screws": "steel screws on one bar magnet"}
_COILS = {"rods": "one coil over rod magnets", "screws": "one coil over steel screws",
          "pair": "a pair of coils with the second reversed"}
TREBLE = 5e3            # Hz, where a level of the treble is read
_HELD = {"tension": "more than a tenth of the tension would tune the string",
         "pole": "the string would come nearer to the pole than {}",
         "wide": "the string would swing farther than 3 mm over the pickup"}


def changes(before, after):
    """One sentence about what changed between two settings, in physics, and the lesson that explains it.

    Parameters
    ----------
    before, after : Settings

    Returns
    -------
    str
        Empty where nothing changed.

    Examples
    --------
    >>> print(changes(Settings(), Settings(force=0.5)))    # doctest: +ELLIPSIS
    With 0.50 instead of 1.00 N on the string the pluck moves it at 0.88 instead of 1.76 m/s, ...
    """
    changed = [field.name for field in fields(Settings) if getattr(before, field.name) != getattr(after, field.name)]
    if not changed:
        return ""
    was, now = whole_pickup(before), whole_pickup(after)
    cause, lesson = _SENTENCES[changed[0]](was, now) if len(changed) == 1 and changed[0] in _SENTENCES else (
        "Several things changed at once, and their effects multiply or cancel", "move one at a time to see why")
    held = "" if not now.held_back else (f" (the pluck is held back to {said(now.force, 'N', '.2f')}, because "
                                         f"{_HELD[now.held_back].format(said(lowest_of(after), 'mm', '.1f'))})")
    return f"{cause}; {moved('the peak at the amplifier', was.peak, now.peak, 'mV')}{held}; {lesson}."


# ---- magnet ----------------------------------------------------------------------------------------------------------

def _flux(was, now):
    return f"the flux in the pole is {instead(was.pole_flux, now.pole_flux, 'µWb')}"


def _by_magnet(was, now):
    """The two factors of the linkage, the field that magnetises the string and the pole's part, and what they give.

    The pole's part is, by reciprocity, the field of one ampere at the string.
    """
    old, new = was.per_ampere, now.per_ampere
    leads = "" if abs(new / old - 1) < 0.005 else (
        f" and the pole leads {'more' if new > old else 'less'} of the string's flux through the coil")
    return (f"{_flux(was, now)}, the field at the string {instead(was.field, now.field, 'mT')}{leads}, "
            f"so {linkage(was, now)}")


def _grade(was, now):
    new, old = ("a magnet of your own" if one.settings.grade == OWN else one.settings.grade for one in (now, was))
    return f"{new[0].upper()}{new[1:]} instead of {old}: {_by_magnet(was, now)}", "lessons 2 and 3"


def _remanence(was, now):
    cause = f"{setting(was, now, 'remanence', 'T', '.2f')} of remanence"
    fluxes, swings = (was.pole_flux, now.pole_flux), (was.linkage_swing, now.linkage_swing)
    least, most = (np.divide(min(pair), max(pair) or 1.0) for pair in (fluxes, swings))
    saturates = ", less than in proportion because the steel of the string saturates" if most > 1.05 * least else ""
    return f"With {cause} {_flux(was, now)}, so {linkage(was, now)}{saturates}", "lessons 1 and 3"


def _recoil(was, now):
    more = now.settings.recoil_permeability > was.settings.recoil_permeability
    return (f"With a recoil permeability of {setting(was, now, 'recoil_permeability', '', '.1f')} the rod "
            f"gives way {'more' if more else 'less'} to its own demagnetising field: "
            f"{_by_magnet(was, now)}", "lessons 1 and 3")


def _diameter(was, now):
    thick = now.settings.diameter > was.settings.diameter
    return (f"A {'thicker' if thick else 'thinner'} rod, {setting(was, now, 'diameter', 'mm', '.1f')}: "
            f"{_by_magnet(was, now)}", "lessons 1 and 3")


def _length(was, now):
    long = now.settings.length > was.settings.length
    return (f"In a {'longer' if long else 'shorter'} rod, {setting(was, now, 'length', 'mm', '.1f')}, the ends are "
            f"{'farther apart and demagnetise it less' if long else 'nearer together and demagnetise it more'}: "
            f"{_by_magnet(was, now)}", "lessons 1 and 2")


def _form(was, now):
    forms = now.settings.form, was.settings.form
    new, old = ((_COILS if "pair" in forms else _POLES)[form] for form in forms)
    begin = f"{new[0].upper()}{new[1:]} instead of {old}"
    inductance = f"{instead(was.inductance, now.inductance, 'H', '.2f')} and {resonance(was, now)}"
    if "pair" in forms:
        twice = ("; reversed in winding alone the hum cancels, reversed in winding and magnet the string's voltage adds"
                 if forms[0] == "pair" else "")
        return (f"{begin}: 0.1 µT of the mains give {instead(was.hum, now.hum, 'mV', '.2f')} of hum, "
                f"{linkage(was, now)}{twice}; the inductance is {inductance}", "lesson 7")
    steel = "more" if now.inductance > was.inductance else "less"
    return (f"{begin}: {_flux(was, now)}, {linkage(was, now)}, and the coil has {steel} permeable poles in it, so its "
            f"inductance is {inductance}", "lesson 7")


# ---- string ----------------------------------------------------------------------------------------------------------

def _height(was, now):
    as_the_field = (now.field - was.field) * (now.linkage_swing - was.linkage_swing) >= 0
    far = "Farther from" if now.settings.height > was.settings.height else "Nearer to"
    return (f"{far} the pole, {setting(was, now, 'height', 'mm', '.1f')}, the string is in a field of "
            f"{instead(was.field, now.field, 'mT')}, {'so' if as_the_field else 'but'} {linkage(was, now)}", "lesson 4")


def _aside(was, now):
    return (f"At {setting(was, now, 'aside', 'mm', '.1f')} from the middle of the pole the string gives "
            f"{instead(was.sensitivity, now.sensitivity, 'mV per m/s')} up and down and "
            f"{instead(was.sideways, now.sideways, 'mV per m/s')} sideways, and {linkage(was, now)}", "lesson 4")


def _direction(was, now):
    new, old = (f"{in_unit(one.settings.direction, '°'):.0f}°" for one in (now, was))
    gives = " up and down and ".join(both(now.sensitivity, now.sideways, "mV per m/s", None))
    return (f"Plucked at {new} instead of {old} from the upright: the string gives {gives} sideways, and "
            f"{linkage(was, now)}", "lesson 4")


def _string(was, now):
    new, old = ("a string of your own" if one.settings.string == OWN else f"string {one.settings.string}"
                for one in (now, was))
    wrapped = any(one.settings.wrap == WRAPS[1] and is_wound(one.settings) for one in (was, now))
    steel = "core" if wrapped else "steel"      # a wrap of steel is steel, too
    cores = instead(*(one.settings.row["core"] for one in (was, now)), "mm", ".2f")
    return (f"{new[0].upper()}{new[1:]} instead of {old}: its {steel} is {cores} thick, and "
            f"{speed(was, now, 'the same force')} because its impedance is {_impedance(was, now)}; {linkage(was, now)}",
            "lessons 5 and 7")


def _impedance(was, now):
    return instead(was.tuned.impedance, now.tuned.impedance, "kg/s", ".3f")


def _tuned(cause, name, unit, spec):
    def sentence(was, now):
        tension = instead(was.tuned.tension, now.tuned.tension, "N", ".1f")
        return (f"{cause.format(setting(was, now, name, unit, spec))}, the string has a tension of {tension} and an "
                f"impedance of {_impedance(was, now)}, so {speed(was, now)}", "lesson 5")
    return sentence


def _core(was, now):
    thick = now.settings.core > was.settings.core
    return (f"With {'more' if thick else 'less'} steel, a core of {setting(was, now, 'core', 'mm', '.2f')}, "
            f"{'more' if thick else 'less'} is magnetised, so {linkage(was, now)}", "lessons 3 and 7")


# ---- the pluck -------------------------------------------------------------------------------------------------------

def _lowest(was, now):
    """How near to the pole the string comes: nearer, it gives more for the same speed."""
    ends = (one.settings.height + float(one.up.min()) for one in (was, now))
    return f"at its lowest it is {instead(*ends, 'mm', '.2f')} above the pole"


def _fret(was, now):
    pitches = at_value(*(1 / one.period for one in (was, now)), "Hz", ".1f")
    return (f"At fret {setting(was, now, 'fret', '', '.0f')} the string sounds {pitches}; its tension and its "
            f"impedance are the same, so {speed(was, now)}, and {_lowest(was, now)}", "lesson 5")


def _first_gap(was, now, name):
    """First frequency that a place along the string leaves out."""
    return at_value(*(one.tuned.wave_speed / (2 * getattr(one.settings, name)) for one in (was, now)), "Hz", ".0f")


def _pickup_place(was, now):
    return (f"The pickup is {setting(was, now, 'pickup_place', 'mm', '.0f')} from the bridge, so the first gap in its "
            f"spectrum is {_first_gap(was, now, 'pickup_place')}; {speed(was, now)}, and "
            f"{_lowest(was, now)}", "lesson 5")


def _pluck_place(was, now):
    pulled = instead(*(one.motion.release_displacement for one in (was, now)), "mm", ".2f")
    return (f"Plucked {setting(was, now, 'pluck_place', 'mm', '.0f')} from the bridge, the string is pulled aside by "
            f"{pulled} and the first gap in its spectrum is {_first_gap(was, now, 'pluck_place')}; "
            f"{speed(was, now)}, and {_lowest(was, now)}", "lesson 5")


def _force(was, now):
    return (f"With {instead(was.force, now.force, 'N', '.2f')} on the string {speed(was, now)}, in "
            f"proportion to the force, so {linkage(was, now)}", "lesson 5")


# ---- coil and load ---------------------------------------------------------------------------------------------------

def _room(now):
    return "" if now.fits else f" (they do not fit in the window: with this wire it holds {now.turns_that_fit})"


def _turns(was, now):
    return (f"With {setting(was, now, 'turns', '', '.0f')} turns{_room(now)} the open coil's peak is "
            f"{instead(was.open_peak, now.open_peak, 'mV')}, in proportion; the inductance goes as the square of the "
            f"turns, {instead(was.inductance, now.inductance, 'H', '.2f')}, so {resonance(was, now)}",
            "lessons 4 and 6")


def _gauge(was, now):
    return (f"With wire of AWG {setting(was, now, 'gauge', '', '.0f')}{_room(now)} the coil has a resistance of "
            f"{instead(was.coil.resistance, now.coil.resistance, 'kΩ', '.1f')}, so {damping(was, now)}", "lesson 6")


def _capacitance(what, name):
    def sentence(was, now):
        more = getattr(now.settings, name) > getattr(was.settings, name)
        return (f"With a {what} of {setting(was, now, name, 'pF', '.0f')} the coil has {'more' if more else 'less'} "
                f"capacitance beside it, so {resonance(was, now)}", "lesson 6")
    return sentence


def _control(what, name):
    def sentence(was, now):
        old, new = (getattr(one.settings, name) for one in (was, now))
        known = [resistance_words(value) if math.isfinite(value) else "" for value in (new, old)]
        words = (f"{what} of {known[0]} instead of {known[1] or 'none'}" if known[0]
                 else f"No {what.partition(' ')[2]} instead of one of {known[1]}")
        return (f"{words} loads the coil {'less' if new > old else 'more'}: {damping(was, now)}, and low frequencies "
                f"are {level(was, now, 0.0)}", "lesson 6")
    return sentence


def _volume_setting(was, now):
    return (f"The volume control at {setting(was, now, 'volume_setting', '%', '.0f')} divides the voltage: low "
            f"frequencies are {level(was, now, 0.0)}, and with the resistance that "
            f"is before the cable {_TREBLE_WORDS} is {level(was, now, TREBLE)}", "lesson 6")


def _tone_setting(was, now):
    less = now.settings.tone_setting < was.settings.tone_setting
    return (f"With the tone control at {setting(was, now, 'tone_setting', '%', '.0f')} there is "
            f"{'less' if less else 'more'} resistance before its capacitor, which takes {'more' if less else 'less'} "
            f"of the treble: {_TREBLE_WORDS} is {level(was, now, TREBLE)}", "lesson 6")


_TREBLE_WORDS = said(TREBLE, "kHz", ".0f")
_SENTENCES = MappingProxyType({
    "form": _form, "grade": _grade, "diameter": _diameter, "length": _length, "remanence": _remanence,
    "recoil_permeability": _recoil, "string": _string, "core": _core, "height": _height, "aside": _aside,
    "frequency": _tuned("Tuned to {}", "frequency", "Hz", ".1f"),
    "linear_density": _tuned("With {} at the same pitch", "linear_density", "g/m", ".2f"),
    "scale_length": _tuned("On a scale of {} at the same pitch", "scale_length", "mm", ".0f"),
    "fret": _fret, "pickup_place": _pickup_place, "pluck_place": _pluck_place, "force": _force,
    "direction": _direction, "turns": _turns, "gauge": _gauge, "own": _capacitance("self-capacitance", "own"),
    "cable": _capacitance("cable", "cable"), "volume": _control("A volume control", "volume"),
    "volume_setting": _volume_setting, "tone": _control("A tone control", "tone"), "tone_setting": _tone_setting,
    "amplifier": _control("An amplifier input", "amplifier"), **nearer.SENTENCES})
