"""The panels of lesson 5: a string over its frets, let go, its partials, the curved map, a slanting pluck; sounds.

The functions of numbers under them are beside them, one file each; their figures are in figures.py.
"""
from functools import partial
from math import isfinite

from lessons_lib.base.units import said
from lessons_lib.lessons.instrument import in_mm, shown
from lessons_lib.lessons.lesson_05.conditions import OCTAVE, broken_conditions, hear_four_frets, opening
from lessons_lib.lessons.lesson_05.figures import (
    FINGER_AT,
    curved_map_figure,
    frets_figure,
    let_go_figure,
    partials_figure,
    two_decays_figure,
)
from lessons_lib.lessons.lesson_05.frets import fret_film, fret_instants, heard_pluck
from lessons_lib.lessons.lesson_05.let_go import BEFORE, FORCES, LAST, let_go, let_go_instant, release_height
from lessons_lib.lessons.lesson_05.model import (
    HEARD_RATE,
    MEASURES,
    PARTIALS,
    PLUCK_RULES,
    STRINGS_TO_CHOOSE,
    bent,
    curved_map_instants,
    fret_measures,
    heard_bend,
    partial_curves,
    partial_levels,
    shown_level,
)
from lessons_lib.lessons.lesson_05.two_decays import DEEP, HEIGHTS, STRINGS, decay_curves, heard_decays
from lessons_lib.lessons.lesson_05.two_decays import two_decays as slanting_pluck
from lessons_lib.page.controls import Choice, Slider, begin
from lessons_lib.page.film import Film
from lessons_lib.page.grips import Grip
from lessons_lib.page.panel import Panel
from lessons_lib.page.sound import Sound

__all__ = ["broken_conditions", "curved_map", "hear_four_frets", "opening", "over_the_frets", "partials",
           "released", "two_decays"]

FRET = Slider(name="fret", label="fret", unit="", low=0, high=19, start=0, step=1, whole=True)
STRING = Choice(name="string", label="string", options={name: name for name in STRINGS_TO_CHOOSE}, start="VI")
PLUCK = Slider(name="pluck_place", label="plucked at", unit="mm", low=20, high=180, step=5,
               start=lambda instrument: round(in_mm(instrument.place["pluck_place"])))
PICKUP = Slider(name="pickup_place", label="pickup at", unit="mm", low=20, high=180, step=5,
                start=lambda instrument: round(in_mm(instrument.place["pickup_place"])))
RULE = Choice(name="rule", label="every pluck has the same", options=dict(zip(PLUCK_RULES, PLUCK_RULES)),
              start="force")
HAND = Choice(name="hand", label="hand and pickup",
              options={"stay where they are": "place", "keep their share of the string": "fraction"}, start="place")
FINGER = Slider(name="finger", label="width of the finger", unit="mm", low=0, high=20, start=0, step=1)
APERTURE = Slider(name="aperture", label="width of the pickup", unit="mm", low=0, high=30, start=0, step=1)
HEIGHT_AT_REST = Slider(name="height", label="height at rest", unit="mm", low=2, high=3.5, step=0.1,
                        start=lambda instrument: in_mm(instrument.place["string_height"]))
SINE_AMPLITUDE = Slider(name="amplitude", label="amplitude", unit="mm", low=0.05, high=1, start=0.3, step=0.05)

TIME = Slider(name="time", label="time since the release", unit="ms", low=BEFORE * 1e3, high=LAST * 1e3,
              start=BEFORE * 1e3, step=0.05)
PULL = Slider(name="force", label="force", unit="N", low=FORCES[0], high=FORCES[1], start=1, step=0.1)

STRING_OF_ROW = Choice(name="string", label="string", options={name: name for name in STRINGS}, start="VI")
HEIGHT = Slider(name="height", label="height of the string", unit="mm", low=HEIGHTS[0] * 1e3, high=HEIGHTS[1] * 1e3,
                step=0.1, start=lambda instrument: in_mm(instrument.place["string_height"]))
SLANT = Slider(name="slant", label="neck gives way, outward by", unit="°", low=0, high=45, start=0, step=5)
RATIO = Slider(name="ratio", label="decay at right angles, ×", unit="", low=0.25, high=1, start=0.5, step=0.05)
ANGLE = Slider(name="angle", label="plucked, outward by", unit="°", low=0, high=70, start=45, step=5)

_LOUDEST, _PLAYED = 0.3, 0.9       # V of the house's pickup: at the level of all sounds, and at most
_RULE_WORDS = {"force": "with the same force", "displacement": "pulled equally far", "energy": "with the same energy"}


def _string_grips(axes, instrument):
    """Finger, hand and pickup of a whole string: each along it, at its own height."""
    length = in_mm(instrument.place["scale_length"])

    def shrunk(shown):
        return 2 ** (-shown["fret"] / 12) if shown.get("hand") == "fraction" else 1.0

    return (Grip(axes, x="fret", x_of=lambda fret: length * (2 ** (-fret / 12) + FINGER_AT[0]), at=(0.0, FINGER_AT[1])),
            *(Grip(axes, x=name, times=shrunk, at=(0.0, height))
              for name, height in (("pluck_place", 0.2), ("pickup_place", -0.36))))


def _over_open(at, measure, fret=None):
    return f"× {at.times_open('velocity', measure, fret):.2f}"


def _frets_words(at, **_):
    """The open string gives its values and what the octave makes of them; any other fret is compared with it."""
    begins = (f"A plucked string with two corners running apart, the pulses of voltage over its pickup, and three "
              f"lines over the frets. String {{string}}, {_RULE_WORDS[at.rule]}; hand and pickup {{hand and pickup}}.")
    sizes = ("peak velocity {peak velocity}, peak voltage {peak voltage}, peak displacement {peak displacement at the "
             "pickup}")
    if at.fret == 0:
        octave = ", ".join(f"{measure} {_over_open(at, measure, OCTAVE)}" for measure in MEASURES)
        return (f"{begins} This is the open string, {{fundamental at}}, the reference for all frets: {sizes}, RMS "
                f"{said(at.value('velocity', 'RMS'), 'm/s', '.3f')}, fundamental "
                f"{said(at.value('velocity', 'fundamental'), 'm/s', '.3f')}. The lines show velocity and voltage at "
                f"fret {OCTAVE}: {octave}. Velocity comes in pulses of one height.")

    def compared(measure):
        times = at.times_open("velocity", measure)
        goes = "stays the same" if abs(times - 1) < 0.005 else "rises" if times > 1 else "falls"
        return f"the {measure} {goes} ({_over_open(at, measure)})"
    return (f"{begins} At fret {at.fret}, {{fundamental at}}, compared with the open string, in velocity and voltage, "
            f"{', '.join(map(compared, MEASURES))}: {sizes}. Velocity comes in pulses of one height.")


def over_the_frets(sheet=None, instrument=None):
    """Panel: peak, RMS and fundamental of the voltage of one string over its frets, and the motion behind them."""
    instrument = shown(instrument)
    figure, draw, axes = frets_figure(instrument.place["scale_length"])

    def film(at, **values):
        frames, period = fret_film(at, **values, instrument=instrument)
        return Film(frames=frames, seconds=3.2, words=f"one period, {said(period, 'ms', '.1f')}, takes 3.2 s")

    def sound(at, **values):
        plucks = {f"fret {fret}" if fret else "open string":
                  heard_pluck(at, **values | {"fret": fret}, instrument=instrument) for fret in sorted({0, at.fret})}
        peak, most = max(abs(voltage).max() for voltage in plucks.values()), _PLAYED * instrument.louder
        if peak > most:
            raise ValueError(f"peak voltage of a pluck that is played must be at most {said(most, 'mV', '.0f')}; got "
                             f"{said(peak, 'mV', '.0f')}.")
        return Sound(signals=plucks, rate=HEARD_RATE, loudest=_LOUDEST * instrument.louder)

    return Panel(
        title="The peak stays, the rest does not", sliders=begin(instrument, FRET, STRING, PLUCK, PICKUP, RULE, HAND),
        compute=partial(fret_measures, instrument=instrument),
        data=lambda at, **values: fret_instants(at, **values, instrument=instrument)[0], figure=figure, draw=draw,
        film=film, sound=sound, grips=_string_grips(axes, instrument), sheet=sheet, prediction="p1",
        on_paper=({}, {"fret": 12}, {"fret": 12, "hand": "fraction"}), message=_frets_words,
        shown=lambda at: {
            "peak relative to the open string": _over_open(at, "peak"),
            "RMS relative to the open string":
                f"{_over_open(at, 'RMS')} ({said(shown_level(at.times_open('velocity', 'RMS')), 'dB', '+z.1f')})",
            "fundamental relative to the open string": _over_open(at, "fundamental"),
            "fundamental at": said(at.frequency, "Hz", ".1f"),
            "peak velocity": said(at.value("velocity", "peak"), "m/s", ".3f"),
            "peak voltage": said(at.value("voltage", "peak"), "mV", ".1f"),
            "peak displacement at the pickup": said(at.value("displacement", "peak"), "mm", ".3f")})


def _release_words(now, *, time, **_):
    held = ("A string held aside: two straight pieces that meet in a corner, slopes {slopes when held}, a jump of "
            "{jump at the corner}. ")
    if time <= 0:
        return held + "It is at rest."
    parted = (f"{said(time, 'ms', '.2f')} after the release the corner has become two, each with half of the jump, "
              "which run apart at {speed of the corners}; the piece between them is straight. ")
    if now.velocity:
        return held + parted + ("The string over the pickup moves at {velocity over the pickup}; since the release it "
                                "has moved by {moved since the release}.")
    return held + parted + ("No corner has reached the pickup yet, or the pulse is over: there the string is at rest, "
                            "velocity {velocity over the pickup}, moved by {moved since the release}.")


def released(sheet=None, instrument=None):
    """Panel: a string just before and after it is let go, and the velocity of its point over the pickup."""
    instrument = shown(instrument)
    figure, draw, axes = let_go_figure(instrument)
    compute, instant = (partial(one, instrument=instrument) for one in (let_go, let_go_instant))

    def film(_, **values):
        moments = [values | {"time": BEFORE + n * (LAST - BEFORE) / 47} for n in range(48)]
        return Film(frames=[instant(compute(**moment), **moment) for moment in moments], seconds=6.0,
                    words="4 ms take 6 s")

    def corner(values):
        pluck_place = PLUCK.in_si(values["pluck_place"])
        return 0.0, in_mm(release_height(force=values["force"], pluck_place=pluck_place, instrument=instrument))

    def slope(number, form="+z.1f"):
        return f"{said(number, 'mm', form)} per m"

    def passed(now):
        moved = said(now.moved, "mm", "+z.2f" if now.moved else ".2f")
        return f"{moved}, the corner {said(now.run, 'mm', '.0f')} on" if isfinite(now.run) else moved

    return Panel(
        title="The corner that passes gives the speed", sliders=begin(instrument, PLUCK, PICKUP, TIME, PULL),
        compute=compute, data=instant, figure=figure, draw=draw, film=film, sheet=sheet, prediction="p4",
        grips=(Grip(axes, x="pluck_place", at=corner), Grip(axes, x="pickup_place", at=(0.0, -0.5))),
        on_paper=({}, {"time": 1.5e-3}, {"time": 1.5e-3, "pluck_place": 0.06}),
        shown=lambda now: {
            "velocity over the pickup": said(now.velocity, "m/s", "+z.3f" if now.velocity else ".3f"),
            "moved since the release": passed(now),
            "slopes when held": f"{slope(now.slopes[0])}, {slope(now.slopes[1])}",
            "jump at the corner": slope(now.jump, ".1f"),
            "speed of the corners": said(now.wave_speed, "m/s", ".1f"),
            "half the jump times this speed": said(now.speed, "m/s", ".3f"),
            "the pulse lasts": said(now.pulse, "ms", ".2f")},
        message=_release_words)


def partials(sheet=None, instrument=None):
    """Panel: the partials of displacement and velocity over the comb of the pickup's place."""
    instrument = shown(instrument)
    figure, draw, axes = partials_figure(instrument.place["scale_length"])

    def shown_words(levels):
        first, pluck = (f"{said(gap, 'Hz', '.0f')}, partial {gap / levels.frequency[0]:.2f}"
                        for gap in (levels.pickup_gap, levels.pluck_gap))
        return {"first gap by the pickup's place": first, "by the place of plucking": pluck,
                "fundamental at": said(levels.frequency[0], "Hz", ".1f"),
                "third divided by first partial, displacement": f"{levels.third_over_first('displacement'):.3f}",
                "third divided by first partial, velocity": f"{levels.third_over_first('velocity'):.3f}",
                f"last partial ({PARTIALS}) at": said(levels.frequency[-1], "Hz", ".0f"),
                "the widths change it by": said(shown_level(levels.smoothing), "dB", "+z.1f")}

    return Panel(
        title="The gap stays at its frequency",
        sliders=begin(instrument, FRET, STRING, PLUCK, PICKUP, FINGER, APERTURE),
        compute=partial(partial_levels, instrument=instrument), data=partial(partial_curves, instrument=instrument),
        figure=figure, draw=draw, sheet=sheet, prediction="p2", grips=_string_grips(axes, instrument),
        on_paper=({}, {"fret": 12}, {"finger": 10e-3, "aperture": 10e-3}), shown=shown_words,
        message=lambda levels, **_: (
            "Partials over frequency, under the comb of the pickup's place, which no fret moves. Those of the velocity "
            "fall as 1/n, those of the displacement as 1/n squared: the third is {third divided by first partial, "
            "velocity} of the first in velocity and {third divided by first partial, displacement} in displacement. "
            f"The pickup's place makes its first gap at {said(levels.pickup_gap, 'Hz', '.0f')}, the place of plucking "
            f"at {said(levels.pluck_gap, 'Hz', '.0f')}; the fundamental is {{fundamental at}}. The widths of finger "
            f"and pickup take {said(abs(shown_level(levels.smoothing)), 'dB', '.1f')} from partial {PARTIALS}."))


def curved_map(sheet=None, instrument=None):
    """Panel: a pure sine motion over the curved map, and the second harmonic it makes."""
    instrument = shown(instrument)
    figure, draw, over_pole = curved_map_figure(instrument)
    instants = partial(curved_map_instants, instrument=instrument)
    return Panel(
        title="The bend makes an octave", sliders=begin(instrument, STRING, HEIGHT_AT_REST, SINE_AMPLITUDE),
        compute=partial(bent, instrument=instrument), data=lambda swing, **values: instants(swing, [0.0], **values)[0],
        film=lambda swing, **values: Film(frames=instants(swing, [n / 48 for n in range(48)], **values), seconds=2.0,
                                          words="one turn takes 2 s"),
        sound=lambda swing, **values: Sound(signals=heard_bend(swing, **values, instrument=instrument), rate=HEARD_RATE,
                                            loudest=0.1 * instrument.louder),
        figure=figure, draw=draw, sheet=sheet, prediction="p3", grips=(Grip(over_pole, y="height"),),
        on_paper=({}, {"amplitude": 0.6e-3}, {"amplitude": 0.6e-3, "height": 2e-3}),
        shown=lambda swing: {
            "second harmonic": f"{said(swing.second, '%', '.2f')}, {said(swing.harmonics[1], 'mV', '.2f')}",
            "by the fitted law": said(swing.by_law, "%", ".2f"),
            "fundamental": said(swing.harmonics[0], "mV", ".2f"),
            "S at rest": said(swing.slope_at_rest, "V per m/s", ".4f"),
            "decay length of S": said(swing.decay_length, "mm", ".2f")},
        message=(
            "A string end-on moves along a bent curve of S over its height. A string that swings as a pure sine makes "
            "more voltage on the near side of its swing than on the far side, so a second harmonic comes in: amplitude "
            "{amplitude}, fundamental {fundamental}, second harmonic {second harmonic}; the fitted "
            "law says {by the fitted law}."))


def _decay_words(now, *, string, **_):
    """What the two notes are, and which of them is heard."""
    begins = (f"A string end-on over its pole, and the level of what the pickup hears of string {string}, plucked at a "
              "slant of {plucked, outward by}. The string has two notes, {the two notes differ by} apart, that fall "
              "by {they fall by}; sideways the pickup hears {sideways the pickup hears}. ")
    if now.is_one:
        heard = "One of the two is heard alone: its level falls evenly. "
    elif isfinite(now.slower_by):
        side = "above" if now.slower_by > 0 else "below"
        heard = (f"At the release the note that dies more slowly is {said(abs(now.slower_by), 'dB', '.0f')} {side} the "
                 "other, and both are heard. ")
    else:
        heard = "Here the two have become one. "
    return begins + heard + ("The level changes by {level in the first second} in the first second, and, "
                             f"{said(-DEEP, 'dB', '.0f')} down, by {{level at last}}; it is 20 dB below its loudest "
                             "for good after {20 dB down after}.")


def two_decays(sheet=None, instrument=None):
    """Panel: a slanting pluck over the pickup, its two notes with their decays, and the level of what is heard."""
    instrument = shown(instrument)
    figure, draw, axes = two_decays_figure(instrument)
    return Panel(
        title="Two planes, two decays", sliders=begin(instrument, STRING_OF_ROW, HEIGHT, SLANT, RATIO, ANGLE),
        compute=partial(slanting_pluck, instrument=instrument), data=partial(decay_curves, instrument=instrument),
        figure=figure, draw=draw, grips=(Grip(axes, y="height"),), sheet=sheet, prediction="p5",
        sound=lambda _, **values: Sound(signals=heard_decays(**values, instrument=instrument), rate=HEARD_RATE,
                                        loudest=1.0),
        on_paper=({"string": "III"}, {}, {"angle": ANGLE.in_si(70)}), message=_decay_words,
        shown=lambda now: {
            "20 dB down after": said(now.quiet_after, "s", ".1f"),
            "level in the first second": said(-now.first_second, "dB", "+z.1f"),
            "level at last": f"{said(-now.last, 'dB', '+z.1f')} a second",
            "the two notes differ by": said(now.planes.beat, "Hz", ".2f"),
            "they fall by": f"{now.falls[0]:.1f} and {said(now.falls[1], 'dB', '.1f')} a second",
            "sideways the pickup hears": f"{said(abs(now.ear[1]), '%', '.1f')} of up and down"})
