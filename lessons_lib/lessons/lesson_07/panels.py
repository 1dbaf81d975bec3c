"""The four panels of lesson 7: the field over six poles, six levels, a string bent sideways, a pair against hum.

The functions of numbers under them are beside them, in model.py and pair.py.
"""
import math
from functools import partial

from lessons_lib.base.units import in_unit, said
from lessons_lib.base.workshop import house_bar
from lessons_lib.lessons.instrument import in_mm, shown
from lessons_lib.lessons.lesson_07.model import (
    BEND,
    HIGHEST,
    LOWEST,
    MAP_Y,
    MAP_Z,
    NAMES,
    PLACES,
    bent_curves,
    bent_levels,
    make_equal,
    raised,
    raised_map,
    string_levels,
)
from lessons_lib.lessons.lesson_07.pair import HEAD, HUM_FLOOR, WIRINGS, hear_six_strings, hum_pair, what_it_costs
from lessons_lib.page.controls import Choice, Slider, begin
from lessons_lib.page.panel import Panel
from lessons_lib.pictures.six_strings import FieldAcross, FieldOverSix, HumBars, LevelAcross, LevelBars
from lessons_lib.pictures.style import new_figure

__all__ = ["HEAD", "bent_sideways", "field_over_six", "hear_six_strings", "hum_of_a_pair", "hum_pair", "levels_of_six",
           "make_equal", "what_it_costs"]

KIND = Choice(name="kind", label="poles", options={"six rod magnets": "rods", "six screws on a bar": "screws"},
              start="screws")
SHORT_KIND = Choice(name="kind", label="poles", start="rods",
                    options={"six rod magnets": "rods", "six short screws on a bar": "short screws"})
NUMBER = Choice(name="number", label="pole under string", options={name: n for n, name in enumerate(NAMES)}, start=2)
RAISED = Slider(name="raised", label="raised by", unit="mm", low=0, high=1.2, start=0, step=0.1)
LOOK = Slider(name="look", label="look at height", unit="mm", low=2, high=5, step=0.1,
              start=lambda instrument: in_mm(instrument.place["string_height"]))
THIRD = Choice(name="third", label="string III", options={"plain": "III", "wound": "III wound"}, start="III")
TOPS = tuple(Slider(name=name, label=f"top under {name}", unit="mm", low=in_mm(LOWEST), high=in_mm(HIGHEST),
                    start=0, step=0.05) for name in NAMES)
BENT = Slider(name="bend", label="pushed sideways", unit="mm", low=0, high=in_unit(BEND, "mm"), start=0, step=0.1)
BENT_HEIGHT = Slider(name="height", label="string height", unit="mm", low=2, high=4, step=0.1,
                     start=lambda instrument: in_mm(instrument.place["string_height"]))
MORE_TURNS = Slider(name="more_turns", label="more turns there", unit="%", low=0, high=5, start=0, step=0.1)
UNEVEN = Slider(name="uneven", label="more hum field there", unit="%", low=-5, high=5, start=0, step=0.1)

ARRANGEMENT_WORDS = {"rods": "rods, one long coil", "screws": "screws on a bar, one long coil",
                     "six coils": "rods, six small coils", "alternating": "six small coils, alternating",
                     "blade": "blade, one long coil"}


def _level(level, digits=1):
    return "nothing" if level == -math.inf else said(level, "dB", f"+z.{digits}f")


def _alt_of_field(one, *, kind, number, raised, look):
    beside = one.next_string
    poles = "six rods" if kind == "rods" else "six screws on a bar"
    moved = (f"Raised by {said(raised, 'mm', 'g')}, this pole changes the level of its own string by "
             f"{_level(one.changes[number], 2)}, that of string {NAMES[beside]} beside it by "
             f"{_level(one.changes[beside], 2)}."
             if raised else "All poles are flush.")
    return (f"Map and cut of the flux density over {poles}: above them it is strongest close to their tops, and at the "
            f"strings it dips between two poles. At {said(look, 'mm', '.1f')} height: "
            f"{said(one.over_pole[0], 'mT', '.1f')} over the pole of string {NAMES[number]} with all poles flush, "
            f"{said(one.over_pole[1], 'mT', '.1f')} now, {said(one.half_way, 'mT', '.1f')} half way to the next pole. "
            f"{moved}")


def field_figure(instrument):
    """A figure and the function that draws raised_map into it."""
    figure = new_figure(width=8.0, height=6.0)
    y, height = instrument.place["string_y"], instrument.place["string_height"]
    above = FieldOverSix(figure.add_axes((0.095, 0.44, 0.80, 0.50)), figure.add_axes((0.915, 0.47, 0.025, 0.43)),
                         y=MAP_Y, z=MAP_Z, strings=[(at, height, name) for at, name in zip(y, NAMES)],
                         bar=(house_bar["size"][1], house_bar["size"][2], house_bar["centre"][2]))
    below = FieldAcross(figure.add_axes((0.095, 0.095, 0.80, 0.32)), half_width=MAP_Y[-1], strings=PLACES)
    return figure, lambda data: above.update(**data["map"]) + below.update(**data["across"])


def field_over_six(sheet=None, instrument=None):
    """Panel: the field over all six strings, and what raising one pole does to the six levels."""
    instrument = shown(instrument)
    figure, draw = field_figure(instrument)
    return Panel(
        sliders=begin(instrument, KIND, NUMBER, RAISED, LOOK), compute=partial(raised, instrument=instrument),
        data=lambda _, **values: raised_map(**values, instrument=instrument), figure=figure, draw=draw, sheet=sheet,
        prediction="p1",
        shown=lambda one: {
            f"level of string {NAMES[one.number]}": _level(one.changes[one.number], 2),
            f"of its neighbour {NAMES[one.next_string]}": _level(one.changes[one.next_string], 2),
            "of any other, at most": _level(one.far, 3),
            "field over this pole, flush": said(one.over_pole[0], "mT", ".1f"), 
            "raised": said(one.over_pole[1], "mT", ".1f"),
            "half way to the next pole": said(one.half_way, "mT", ".1f")},
        message=_alt_of_field)


def levels_figure():
    """A figure and the function that draws `StringLevels` into it."""
    figure = new_figure(width=8.0, height=5.4)
    bars = LevelBars(figure.add_axes((0.09, 0.40, 0.89, 0.58)), figure.add_axes((0.09, 0.085, 0.89, 0.23)), names=NAMES,
                     levels=(-12, 18), tops=(LOWEST, HIGHEST))
    return figure, lambda one: bars.update(levels=one.levels, by_law=one.by_law, tops=one.tops)


def _alt_of_levels(one, *, kind, third, **_):
    poles = "six rods" if kind == "rods" else "six short screws on a bar"
    raised_ones = ", ".join(f"{name} {said(in_unit(top, 'mm'), '', '+z.2f')}"
                            for name, top in zip(NAMES, one.tops) if top)
    tops = f"tops in mm: {raised_ones}, all others flush" if raised_ones else "all flush"
    return (f"Six strings with a {'plain' if third == 'III' else 'wound'} third plucked with 1 N each over {poles}, "
            f"{tops}: string {one.loudest} is the loudest and string {one.softest} the softest, "
            f"{said(one.spread, 'dB', '.1f')} apart. First pulses: "
            + ", ".join(f"{name} {said(pulse, 'mV', '.1f')}" for name, pulse in zip(NAMES, one.pulses)) + ".")


def levels_of_six(sheet=None, instrument=None):
    """Panel: the levels of six strings at the same pluck, with the height of every pole."""
    instrument = shown(instrument)
    figure, draw = levels_figure()
    return Panel(
        sliders=(SHORT_KIND, *TOPS, THIRD), compute=partial(string_levels, instrument=instrument),
        data=lambda one, **_: one, figure=figure, draw=draw, sheet=sheet, prediction="p2",
        shown=lambda one: {name: f"{said(pulse, 'mV', '.1f')}, {_level(level)}"
                              for name, pulse, level in zip(NAMES, one.pulses, one.levels)}
        | {"between loudest and softest": said(one.spread, "dB", ".1f")},
        message=_alt_of_levels)


def bent_sideways_figure():
    """A figure and the function that draws bent_curves into it."""
    figure = new_figure(width=8.0, height=4.4)
    across = LevelAcross(figure.add_axes((0.09, 0.13, 0.89, 0.74)), names=ARRANGEMENT_WORDS, reach=BEND, floor=-15)
    return figure, lambda data: across.update(**data)


def bent_sideways(sheet=None, instrument=None):
    """Panel: the level of string IV pushed sideways from its pole to the next, for five arrangements."""
    instrument = shown(instrument)
    figure, draw = bent_sideways_figure()
    return Panel(
        sliders=begin(instrument, BENT_HEIGHT, BENT), compute=partial(bent_levels, instrument=instrument),
        data=lambda _, **values: bent_curves(**values, instrument=instrument), figure=figure, draw=draw, sheet=sheet,
        prediction="p3",
        shown=lambda one: {words: f"{_level(one.here[name])} (deepest {_level(one.dip[name])})"
                              for name, words in ARRANGEMENT_WORDS.items()},
        message=lambda one, *, height, bend: (
            f"String IV, {said(height, 'mm', '.1f')} high and pushed sideways, gets softer until it is half way to "
            f"the next pole; over a blade it does not. At {said(bend, 'mm', '.1f')}: "
            + ", ".join(f"{words} {_level(one.here[name])}" for name, words in ARRANGEMENT_WORDS.items())
            + f". Deepest over the rods with one coil: {_level(one.dip['rods'])}, with six small coils: "
            f"{_level(one.dip['six coils'])}."))


def hum_figure():
    """A figure and the function that draws a `Pair` into it."""
    figure = new_figure(width=8.0, height=4.2)
    bars = HumBars(figure.add_axes((0.10, 0.14, 0.88, 0.84)), names=list(WIRINGS), levels=(HUM_FLOOR, 30))
    return figure, lambda one: bars.update(signal=list(one.signal.values()), hum=list(one.hum.values()))


def _alt_of_hum(one, *, more_turns, uneven):
    field = said(abs(uneven), "%", ".3g") + (" stronger" if uneven > 0 else " weaker") if uneven else "even"
    left = one.hum["both"]
    hum = "no hum is left" if left == -math.inf else f"the hum {_level(left)}"
    return ("A second coil with its winding and its magnets reversed keeps the signal and loses the hum that both "
            f"coils pick up alike. With {said(more_turns, '%', '.3g')} more turns and a hum field that is {field} "
            f"there, the signal is {_level(one.signal['both'])} and {hum}. With neither reversed they are "
            f"{_level(one.signal['neither reversed'])} and {_level(one.hum['neither reversed'])}. The string moves in "
            "the same way over both coils.")


def hum_of_a_pair(sheet=None, instrument=None):
    """Panel: signal and hum of two coils in series, the second one's winding or magnets or both reversed."""
    instrument = shown(instrument)
    figure, draw = hum_figure()
    return Panel(
        sliders=(MORE_TURNS, UNEVEN), compute=partial(hum_pair, instrument=instrument),
        data=lambda one, **_: one, figure=figure, draw=draw, sheet=sheet, prediction="p4",
        shown=lambda one: {f"{words}: signal": f"{_level(one.signal[words])}, hum {_level(one.hum[words])}"
                              for words in WIRINGS},
        message=_alt_of_hum)
