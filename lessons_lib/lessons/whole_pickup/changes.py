"""What changed, and why: one sentence for each setting, every number and direction taken from the model."""
import math
from dataclasses import fields
from types import MappingProxyType

import numpy as np

from lessons_lib.base.units import in_unit, resistance_words, said, with_unit
from lessons_lib.lessons.whole_pickup.model import pickup_of, whole_pickup
from lessons_lib.lessons.whole_pickup.settings import OWN, Settings
from lessons_lib.physics.steel import SteelString

TREBLE = 5e3            # Hz, where a level of the treble is read
_ASIDE_STEP = 2e-5      # m, for the slope of the linkage across
_HELD = {"tension": "more than a tenth of the tension would tune the string",
         "pole": "the string would come nearer to the pole than 0.9 mm"}


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
    held = "" if not now.held_back else (
        f" (the pluck is held back to {said(now.force, 'N', '.2f')}, because {_HELD[now.held_back]})")
    return f"{cause}; {_moved('the peak at the amplifier', was.peak, now.peak, 'mV')}{held}; {lesson}."


# ---- how a change is said --------------------------------------------------------------------------------------------

def _figures(value, unit):
    """A number with three figures, as long as it has no more than three decimals."""
    shown = abs(in_unit(value, unit))
    decimals = 0 if shown < 1e-9 else min(3, max(0, 2 - math.floor(math.log10(shown))))
    return said(value, unit, f"z.{decimals}f")


def _both(first, second, unit, spec):
    """Two values, the unit once, behind the second; one text where they are the same to the last figure."""
    one, two = (_figures(value, unit) if spec is None else said(value, unit, spec) for value in (first, second))
    return (two,) if one == two else (one.removesuffix(with_unit("", unit)), two)


def _instead(was, now, unit, spec=None):
    """Now instead of before, or still."""
    texts = _both(now, was, unit, spec)
    return f"still {texts[0]}" if len(texts) == 1 else " instead of ".join(texts)


def _at(was, now, unit, spec=None):
    """At a value instead of another, or still there."""
    text = _instead(was, now, unit, spec)
    return f"still at {text.removeprefix('still ')}" if text.startswith("still") else f"at {text}"


def _moved(name, was, now, unit, spec=None):
    """A quantity rises, falls or stays."""
    ends = _both(was, now, unit, spec)
    return f"{name} stays at {ends[0]}" if len(ends) == 1 else (
        f"{name} {'rises' if now > was else 'falls'} from {' to '.join(ends)}")


def _then(was, now, effect_was, effect_now):
    """So or but: whether an effect goes with its cause."""
    return "so" if (now - was) * (effect_now - effect_was) >= 0 else "but"


def _setting(was, now, name, unit, spec):
    return _instead(getattr(was.settings, name), getattr(now.settings, name), unit, spec)


def _linkage(was, now):
    by = _instead(was.linkage_swing, now.linkage_swing, "µWb")
    return f"the flux linkage {'still ' * by.startswith('still')}swings by {by.removeprefix('still ')}"


def _speed(was, now, what="the pluck"):
    text = _instead(was.peak_velocity, now.peak_velocity, "m/s", ".2f")
    return f"{what} {'still ' * text.startswith('still')}moves it at {text.removeprefix('still ')}"


def _resonance(was, now):
    old, new = was.response_peak, now.response_peak
    if old and new:
        return _moved("the peak of the response", old[0], new[0], "kHz", ".2f")
    if new:
        return f"the response has a peak now, at {said(new[0], 'kHz', '.2f')}"
    return f"the response has no peak{' now' if old else ', as before'}"


def _hump(one):
    """Height of the peak of the response above low frequencies, dB."""
    return one.coil.peak()[1] - one.coil.low_frequency_level


def _damping(was, now):
    return f"the peak of the response is {_instead(_hump(was), _hump(now), 'dB', 'z.1f')} high"


def _level(was, now, frequency):
    return _at(*(20 * math.log10(abs(one.coil.response(frequency))) for one in (was, now)), "dB", "+z.1f")


# ---- magnet ----------------------------------------------------------------------------------------------------------

def _flux(was, now):
    return f"the flux in the pole is {_instead(was.pole_flux, now.pole_flux, 'µWb')}"


def _per_ampere(one):
    """B (T) of one ampere in the coil where the string is at rest: how well the pole joins string and coil."""
    s = one.settings
    return float(np.linalg.norm(pickup_of(s).field_per_ampere((0.0, s.pole_y + s.aside, s.height))))


def _joins(was, now):
    """What the pole does besides carrying flux of its own: by reciprocity the field of one ampere at the string."""
    old, new = map(_per_ampere, (was, now))
    if abs(new / old - 1) < 0.005:
        return ""
    return f" and the pole leads {'more' if new > old else 'less'} of the string's flux through the coil"


def _magnet_of(one):
    return "a magnet of your own" if one.settings.grade == OWN else one.settings.grade


def _field(one):
    """Steady flux density (T) where the string's axis rests, without the string."""
    s = one.settings
    return float(np.linalg.norm(pickup_of(s).flux_density((0.0, s.pole_y + s.aside, s.height))))


def _by_magnet(was, now):
    """The two factors of the linkage, the field that magnetises the string and the pole's part, and what they give."""
    return (f"{_flux(was, now)}, the field at the string {_instead(_field(was), _field(now), 'mT')}{_joins(was, now)}, "
            f"so {_linkage(was, now)}")


def _grade(was, now):
    words = f"{_magnet_of(now)} instead of {_magnet_of(was)}"
    return f"{words[0].upper()}{words[1:]}: {_by_magnet(was, now)}", "lessons 2 and 3"


def _remanence(was, now):
    cause = f"{_setting(was, now, 'remanence', 'T', '.2f')} of remanence"
    fluxes, swings = (was.pole_flux, now.pole_flux), (was.linkage_swing, now.linkage_swing)
    least, most = (np.divide(min(pair), max(pair) or 1.0) for pair in (fluxes, swings))
    saturates = ", less than in proportion because the steel of the string saturates" if most > 1.05 * least else ""
    return f"With {cause} {_flux(was, now)}, so {_linkage(was, now)}{saturates}", "lessons 1 and 3"


def _recoil(was, now):
    more = now.settings.recoil_permeability > was.settings.recoil_permeability
    return (f"With a recoil permeability of {_setting(was, now, 'recoil_permeability', '', '.1f')} the rod "
            f"gives way {'more' if more else 'less'} to its own demagnetising field: "
            f"{_by_magnet(was, now)}", "lessons 1 and 3")


def _diameter(was, now):
    thick = now.settings.diameter > was.settings.diameter
    return (f"A {'thicker' if thick else 'thinner'} rod, {_setting(was, now, 'diameter', 'mm', '.1f')}: "
            f"{_by_magnet(was, now)}", "lessons 1 and 3")


def _length(was, now):
    long = now.settings.length > was.settings.length
    return (f"In a {'longer' if long else 'shorter'} rod, {_setting(was, now, 'length', 'mm', '.1f')}, the ends are "
            f"{'farther apart and demagnetise it less' if long else 'nearer together and demagnetise it more'}: "
            f"{_by_magnet(was, now)}", "lessons 1 and 2")


def _form(was, now):
    words = ("Steel screws on one bar magnet", "rod magnets")
    new, old = words if now.settings.form == "screws" else reversed(words)
    steel = "more" if now.inductance > was.inductance else "less"
    return (f"{new[0].upper()}{new[1:]} instead of {old[0].lower()}{old[1:]}: {_flux(was, now)}, {_linkage(was, now)}, "
            f"and the coil has {steel} permeable poles in it, so its inductance is "
            f"{_instead(was.inductance, now.inductance, 'H', '.2f')} and {_resonance(was, now)}", "lesson 7")


# ---- string ----------------------------------------------------------------------------------------------------------

def _height(was, now):
    old, new = map(_field, (was, now))
    far = "Farther from" if now.settings.height > was.settings.height else "Nearer to"
    return (f"{far} the pole, {_setting(was, now, 'height', 'mm', '.1f')}, the string is in a field of "
            f"{_instead(old, new, 'mT')}, {_then(old, new, was.linkage_swing, now.linkage_swing)} "
            f"{_linkage(was, now)}", "lesson 4")


def _sideways(one):
    """Sensitivity (V per m/s) of the string at rest to motion across, as a magnitude."""
    s = one.settings
    ends = pickup_of(s).flux_linkage(SteelString(diameter=s.row["core"]), height=s.height,
                                     y=s.pole_y + s.aside + np.array([-_ASIDE_STEP, _ASIDE_STEP]))
    return abs(np.diff(ends)[0]) / (2 * _ASIDE_STEP) * s.turns / s.instrument.coil["turns"]


def _aside(was, now):
    return (f"At {_setting(was, now, 'aside', 'mm', '.1f')} from the middle of the pole the string gives "
            f"{_instead(was.sensitivity, now.sensitivity, 'mV per m/s')} up and down and "
            f"{_instead(_sideways(was), _sideways(now), 'mV per m/s')} sideways, and {_linkage(was, now)}", "lesson 4")


def _direction(was, now):
    new, old = (f"{in_unit(one.settings.direction, '°'):.0f}°" for one in (now, was))
    both = " up and down and ".join(_both(now.sensitivity, _sideways(now), "mV per m/s", None))
    return (f"Plucked at {new} instead of {old} from the upright: the string gives {both} sideways, and "
            f"{_linkage(was, now)}", "lesson 4")


def _string(was, now):
    words = ["a string of your own" if one.settings.string == OWN else f"string {one.settings.string}"
             for one in (now, was)]
    cores = _instead(*(one.settings.row["core"] for one in (was, now)), "mm", ".2f")
    return (f"{words[0][0].upper()}{words[0][1:]} instead of {words[1]}: its steel is {cores} thick, and "
            f"{_speed(was, now, 'the same force')} because its impedance is {_impedance(was, now)}; {_linkage(was, now)}",
            "lessons 5 and 7")


def _impedance(was, now):
    return _instead(was.tuned.impedance, now.tuned.impedance, "kg/s", ".3f")


def _tension(was, now):
    return _instead(was.tuned.tension, now.tuned.tension, "N", ".1f")


def _tuned(cause, was, now):
    return (f"{cause}, the string has a tension of {_tension(was, now)} and an impedance of {_impedance(was, now)}, so "
            f"{_speed(was, now)}", "lesson 5")


def _frequency(was, now):
    return _tuned(f"Tuned to {_setting(was, now, 'frequency', 'Hz', '.1f')}", was, now)


def _density(was, now):
    return _tuned(f"With {_setting(was, now, 'linear_density', 'g/m', '.2f')} at the same pitch", was, now)


def _scale(was, now):
    return _tuned(f"On a scale of {_setting(was, now, 'scale_length', 'mm', '.0f')} at the same pitch", was, now)


def _core(was, now):
    thick = now.settings.core > was.settings.core
    return (f"With {'more' if thick else 'less'} steel, a core of {_setting(was, now, 'core', 'mm', '.2f')}, "
            f"{'more' if thick else 'less'} is magnetised, so {_linkage(was, now)}", "lessons 3 and 7")


def _outside(was, now):
    return ("A pickup hears the steel of the core, and the motion follows from pitch and linear density, which stay: "
            "the outer diameter alone changes nothing", "lessons 5 and 7")


# ---- the pluck -------------------------------------------------------------------------------------------------------

def _lowest(was, now):
    """How near to the pole the string comes: nearer, it gives more for the same speed."""
    ends = (one.settings.height + float(one.up.min()) for one in (was, now))
    return f"at its lowest it is {_instead(*ends, 'mm', '.2f')} above the pole"


def _fret(was, now):
    pitches = _at(*(1 / one.period for one in (was, now)), "Hz", ".1f")
    return (f"At fret {_setting(was, now, 'fret', '', '.0f')} the string sounds {pitches}; its tension and its "
            f"impedance are the same, so {_speed(was, now)}, and {_lowest(was, now)}", "lesson 5")


def _first_gap(was, now, name):
    """First frequency that a place along the string leaves out."""
    return _at(*(one.tuned.wave_speed / (2 * getattr(one.settings, name)) for one in (was, now)), "Hz", ".0f")


def _pickup_place(was, now):
    return (f"The pickup is {_setting(was, now, 'pickup_place', 'mm', '.0f')} from the bridge, so the first gap in its "
            f"spectrum is {_first_gap(was, now, 'pickup_place')}; {_speed(was, now)}, and "
            f"{_lowest(was, now)}", "lesson 5")


def _pluck_place(was, now):
    pulled = _instead(*(one.motion.release_displacement for one in (was, now)), "mm", ".2f")
    return (f"Plucked {_setting(was, now, 'pluck_place', 'mm', '.0f')} from the bridge, the string is pulled aside by "
            f"{pulled} and the first gap in its spectrum is {_first_gap(was, now, 'pluck_place')}; "
            f"{_speed(was, now)}, and {_lowest(was, now)}", "lesson 5")


def _force(was, now):
    return (f"With {_instead(was.force, now.force, 'N', '.2f')} on the string {_speed(was, now)}, in "
            f"proportion to the force, so {_linkage(was, now)}", "lesson 5")


# ---- coil and load ---------------------------------------------------------------------------------------------------

def _room(now):
    return "" if now.fits else f" (they do not fit in the window: with this wire it holds {now.turns_that_fit})"


def _turns(was, now):
    return (f"With {_setting(was, now, 'turns', '', '.0f')} turns{_room(now)} the open coil's peak is "
            f"{_instead(was.open_peak, now.open_peak, 'mV')}, in proportion; the inductance goes as the square of the "
            f"turns, {_instead(was.inductance, now.inductance, 'H', '.2f')}, so {_resonance(was, now)}",
            "lessons 4 and 6")


def _gauge(was, now):
    return (f"With wire of AWG {_setting(was, now, 'gauge', '', '.0f')}{_room(now)} the coil has a resistance of "
            f"{_instead(was.resistance, now.resistance, 'kΩ', '.1f')}, so {_damping(was, now)}", "lesson 6")


def _capacitance(what, name):
    def sentence(was, now):
        more = getattr(now.settings, name) > getattr(was.settings, name)
        return (f"With a {what} of {_setting(was, now, name, 'pF', '.0f')} the coil has {'more' if more else 'less'} "
                f"capacitance beside it, so {_resonance(was, now)}", "lesson 6")
    return sentence


def _control(what, name):
    def sentence(was, now):
        old, new = (getattr(one.settings, name) for one in (was, now))
        known = [resistance_words(value) if math.isfinite(value) else "" for value in (new, old)]
        words = (f"{what} of {known[0]} instead of {known[1] or 'none'}" if known[0]
                 else f"No {what.partition(' ')[2]} instead of one of {known[1]}")
        return (f"{words} loads the coil {'less' if new > old else 'more'}: {_damping(was, now)}, and low frequencies "
                f"are {_level(was, now, 0.0)}", "lesson 6")
    return sentence


def _volume_setting(was, now):
    return (f"The volume control at {_setting(was, now, 'volume_setting', '%', '.0f')} divides the voltage: low "
            f"frequencies are {_level(was, now, 0.0)}, and with the resistance that "
            f"is before the cable {_TREBLE_WORDS} is {_level(was, now, TREBLE)}", "lesson 6")


def _tone_setting(was, now):
    less = now.settings.tone_setting < was.settings.tone_setting
    return (f"With the tone control at {_setting(was, now, 'tone_setting', '%', '.0f')} there is "
            f"{'less' if less else 'more'} resistance before its capacitor, which takes {'more' if less else 'less'} of "
            f"the treble: {_TREBLE_WORDS} is {_level(was, now, TREBLE)}", "lesson 6")


_TREBLE_WORDS = said(TREBLE, "kHz", ".0f")
_SENTENCES = MappingProxyType({
    "form": _form, "grade": _grade, "diameter": _diameter, "length": _length, "remanence": _remanence,
    "recoil_permeability": _recoil, "string": _string, "frequency": _frequency, "string_diameter": _outside,
    "core": _core, "linear_density": _density, "height": _height, "aside": _aside, "scale_length": _scale,
    "fret": _fret, "pickup_place": _pickup_place, "pluck_place": _pluck_place, "force": _force,
    "direction": _direction, "turns": _turns, "gauge": _gauge, "own": _capacitance("self-capacitance", "own"),
    "cable": _capacitance("cable", "cable"), "volume": _control("A volume control", "volume"),
    "volume_setting": _volume_setting, "tone": _control("A tone control", "tone"), "tone_setting": _tone_setting,
    "amplifier": _control("An amplifier input", "amplifier")})
