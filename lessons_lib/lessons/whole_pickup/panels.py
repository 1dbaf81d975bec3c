"""The whole pickup on one screen, its file, and a first look at it.

The functions of numbers under it are beside it, in model.py, views.py and changes.py, the figures in figures.py.
"""
from dataclasses import replace
from functools import partial

from lessons_lib.base.checks import refuse
from lessons_lib.base.units import in_unit, said
from lessons_lib.base.workshop import house_magnet
from lessons_lib.lessons.instrument import in_mm, shown
from lessons_lib.lessons.own_instrument import in_use
from lessons_lib.lessons.whole_pickup import model, settings, views
from lessons_lib.lessons.whole_pickup.changes import changes
from lessons_lib.lessons.whole_pickup.figures import first_figure, whole_figure
from lessons_lib.lessons.whole_pickup.settings import OWN, PRESETS, begin_with
from lessons_lib.lessons.whole_pickup.words import stretch
from lessons_lib.page.controls import Choice, Slider
from lessons_lib.page.film import Film
from lessons_lib.page.grips import Grip
from lessons_lib.page.panel import Panel
from lessons_lib.page.sound import Sound

_LOUDEST = 0.4          # V that play at the level of all sounds; with the workshop's parts at most 10 dB more
_FAINTEST = 1e-9        # V, under it there is rounding alone
_FILM = 2.4             # s
_SHOWN_IN = {"volume_setting": "%", "tone_setting": "%"}
_OF_RODS = {"grade", "diameter", "length"}
_NEARER = "Nearer to the world"
_FORMS = {"rod magnets": "rods", "screws on a bar": "screws", "a pair, reversed": "pair"}


def _slider(start, name, label, step, **more):
    """A slider over the range that a file may have, beginning with a value of *start*."""
    unit, *ends = settings.RANGES[name]
    shown_in = _SHOWN_IN.get(name, unit)
    low, high = ends if shown_in == unit else (round(in_unit(end, shown_in), 6) for end in ends)
    begins = round(in_unit(getattr(start, name), shown_in), 6)
    return Slider(**{"name": name, "label": label, "unit": "" if shown_in == "1" else shown_in, "low": low,
                     "high": high, "step": step, "start": begins} | more)


def _sliders(start):
    """All of them; a magnet or a string of one's own is among the choices where *start* has it."""
    grades, strings = ({name: name for name in names if name != OWN or getattr(start, field) == OWN}
                       for field, names in (("grade", settings.MAGNETS), ("string", settings.STRINGS)))
    slider, whole = partial(_slider, start), {"whole": True}
    switches = (Choice(name=name, label=label, options=options, start=getattr(start, name), group=_NEARER)
                for name, label, options in (("metal", "metal answers", dict(zip(("no", "yes"), settings.METALS))),
                                             ("wrap", "wrap of strings", {word: word for word in settings.WRAPS}),
                                             ("spread", "spread of parts", {word: word for word in settings.SPREADS})))
    return (
        Choice(name="form", label="poles", options=_FORMS, start=start.form),
        Choice(name="grade", label="magnet", options=grades, start=start.grade),
        slider("diameter", "rod diameter", 0.1), slider("length", "rod length", 0.5),
        Choice(name="string", label="string", options=strings, start=start.string),
        slider("height", "height", 0.1), slider("aside", "aside", 0.1),
        slider("pickup_place", "pickup at", 5), slider("fret", "fret", 1, **whole),
        slider("pluck_place", "plucked at", 5), slider("force", "force", 0.05),
        slider("direction", "direction", 5), slider("turns", "turns", 100, **whole),
        slider("gauge", "wire gauge", 1), slider("cable", "cable", 50),
        slider("volume_setting", "volume", 5), slider("tone_setting", "tone", 5), *switches)


def _film(one):
    return Film(frames=tuple(views.swinging(one)), seconds=_FILM,
                words=f"one period, {said(one.period, 'ms', '.1f')}, takes {said(_FILM, 's', 'g')}")


def _sound(one, louder):
    if one.peak < _FAINTEST:
        refuse("peak at the amplifier", "more than 0 to be heard", said(one.peak, "mV", "z.0f"))
    return Sound(signals={"this pluck at the amplifier": one.sound()}, rate=model.SOUND_RATE,
                 loudest=_LOUDEST * louder)


def _told(start, before, now):
    """What changed; a bar under screws asks nobody what the rods were, and what one begins from is no slider moved."""
    was, now_is = (replace(start, **values) for values in (before, now))
    if now_is in PRESETS.values() and was in PRESETS.values():
        return changes(PRESETS["the workshop's"], now_is)
    changed = {name for name in now if before[name] != now[name]}
    if was.form == now_is.form == "screws" and changed <= _OF_RODS:
        return ("Nothing changes: the poles are the workshop's steel screws on its bar; magnet, diameter and length "
                "are a rod's.")
    return changes(was, now_is)


def _words(one):
    held = ", held back" if one.held_back else ""
    fits = "" if one.fits else ", too few"
    peak, place = one.bands     # of two of three pickups of the same description, where it is asked for
    return {"peak at the amplifier": said(one.peak, "mV", ".3g"), "open coil": said(one.open_peak, "mV", ".3g"),
            "linkage swing": said(one.linkage_swing, "µWb", ".3g"),
            "string speed": said(one.peak_velocity, "m/s", ".2f"), "pluck": f"{said(one.force, 'N', '.2f')}{held}",
            "field at string": said(one.field, "mT", ".1f"),
            "hum in 0.1 µT": said(one.hum, "mV", ".2f"), "above hiss and hum": _above(*model.above_hiss_and_hum(one)),
            "coil": f"{said(one.inductance, 'H', '.2f')}, {said(one.coil.resistance, 'kΩ', '.2f')}",
            "room for": f"{one.turns_that_fit} turns{fits}",
            "response peak": said(one.response_peak[0], "kHz", ".2f") if one.response_peak else "no peak",
            **({"two of three give": stretch(peak, "mV"), "mostly by": peak.most} if peak else {}),
            **({"two of three peak at": stretch(place, "kHz", ".2f"), "there mostly by": place.most} if place else {})}


def _above(hiss, hum):
    if hiss is None:
        return "no signal"
    return f"{said(hiss, 'dB', '.0f')}, no hum" if hum is None else f"{hiss:.0f} and {said(hum, 'dB', 'z.0f')}"


_MESSAGE = (
    "A whole pickup. Above, the string from bridge to nut with pickup, hand and finger; below at the left the pole in "
    "its coil with lines of flux to the string, {height} above it; at the right displacement, flux linkage and voltage "
    "over one period, and the response with the harmonics of this pluck. String {string}, fret {fret}, plucked with "
    "{pluck}, over {poles}: the flux linkage swings by {linkage swing}, the open coil gives {open coil}, and "
    "{peak at the amplifier} reach the amplifier. Response: {response peak}.")
_OF_MANY = (" Two of three such pickups give {two of three give}, mostly by the {mostly by}.",
            " Their responses peak in the shade, at {two of three peak at}, mostly by the {there mostly by}.")


def _start(path, instrument):
    """The settings to begin with, and a line about them: on an own instrument, or why they are not the file's."""
    if path is None:
        return begin_with(shown(instrument)), "" if instrument else in_use().note
    try:
        return settings.read_settings(path), ""
    except (OSError, ValueError) as error:
        why = f"{path} cannot be opened: {error.strerror}." if isinstance(error, OSError) else error
        return settings.Settings(), f"{why} This is the workshop's pickup."


def whole_pickup(path=None, instrument=None):
    """Panel: from the magnet to the sound, everything that can be moved, on one screen.

    Parameters
    ----------
    path : str or Path, optional
        A file of settings to begin with, as `save_pickup` writes it. One that cannot be used is told over the panel.
    instrument : Instrument, optional
        Whose settings to begin with where no file is given; left out: the one in use.
    """
    start, note = _start(path, instrument)
    louder = max(1.0, start.remanence / house_magnet["remanence"] if start.grade == OWN else 1.0)
    length = in_mm(start.scale_length)
    figure, draw, strip, cut = whole_figure(start.instrument, length=start.scale_length, stronger=louder)
    sliders = _sliders(start)
    return Panel(
        title="The whole pickup", sliders=sliders, figure=figure, draw=draw, shown=_words, note=note,
        message=lambda one, **_: _MESSAGE + "".join(words for words, band in zip(_OF_MANY, one.bands) if band),
        compute=lambda **values: model.whole_pickup(replace(start, **values)),
        data=lambda one, **_: views.picture(one), film=lambda one, **_: _film(one),
        sound=lambda one, **_: _sound(one, louder), told=partial(_told, start), keeps=True, grips=(
            Grip(strip, x="fret", x_of=lambda fret: length * (2 ** (-fret / 12) + 0.0125), at=(0.0, 0.11)),
            Grip(strip, x="pluck_place", at=(0.0, 0.3)), Grip(strip, x="pickup_place", at=(0.0, -0.36)),
            Grip(cut, x="aside", y="height")),
        presets={words: {spec.name: getattr(preset, spec.name) for spec in sliders}
                             for words, preset in PRESETS.items()},
        on_paper=({}, {"height": 4e-3}, {"form": "screws"}))


def save_pickup(panel, path):
    """Write what the panel of `whole_pickup` shows into a file that it opens again; *path*: str or Path."""
    settings.save_settings(panel.result.settings, path)
    print(f"{path} holds what the panel shows.")


def first_look(sheet=None, instrument=None):
    """Panel: a string over its magnet in a coil, still and silent until it is asked; height and turns."""
    instrument = shown(instrument)
    start = begin_with(instrument)
    figure, draw, axes = first_figure(instrument)
    return Panel(
        title="A string, a magnet, a coil",
        sliders=(_slider(start, "height", "height of string", 0.1),
                 _slider(start, "turns", "turns of the coil", 100, whole=True)),
        compute=lambda **values: model.whole_pickup(replace(start, **values)), figure=figure, draw=draw, sheet=sheet,
        data=lambda one, **_: views.picture(one), film=lambda one, **_: _film(one),
        sound=lambda one, **_: _sound(one, instrument.louder), grips=(Grip(axes, y="height"),),
        on_paper=({}, {"height": 4e-3}, {"turns": 4000}),
        shown=lambda one: {"peak at the amplifier": said(one.peak, "mV", ".0f")},
        message=("A steel string end-on over a magnet, and a coil of {turns of the coil} turns round it; lines of flux "
                 "go from the magnet to the string. The string is at a height of {height of string}; plucked, it gives "
                 "{peak at the amplifier} at the amplifier."))
