"""The six panels of lesson 7; the functions of numbers under them are beside them, in model.py, joined.py, pair.py."""
import math
from functools import partial

import numpy as np

from lessons_lib.base.units import in_unit, said
from lessons_lib.lessons.instrument import in_mm, shown
from lessons_lib.lessons.lesson_07.joined import REACH, SOUNDING, TIME, closing, flux_near, joined, waves
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
    poles_at,
    raised,
    raised_map,
    string_levels,
    strings_over,
)
from lessons_lib.lessons.lesson_07.pair import (
    ASIDE,
    HEAD,
    HUM_FLOOR,
    RATE,
    WIRINGS,
    hear_six_strings,
    hum_pair,
    opening,
    six_plucks,
    what_it_costs,
)
from lessons_lib.page.controls import Choice, Slider, begin
from lessons_lib.page.film import Film
from lessons_lib.page.grips import Grip
from lessons_lib.page.panel import Panel
from lessons_lib.page.sound import Sound
from lessons_lib.physics.six_strings import decibels, simple_law
from lessons_lib.pictures.coil_pair import PERIODS, PairOfCoils
from lessons_lib.pictures.response import said_frequency
from lessons_lib.pictures.six_coils import ClosingFlux, OneCoilOrSix
from lessons_lib.pictures.six_strings import HALF_WIDTH, BentSideways, FieldOverSix, LevelsOfSix
from lessons_lib.pictures.style import new_figure

__all__ = ["HEAD", "bent_sideways", "field_over_six", "hear_six_strings", "hum_of_a_pair", "hum_pair", "levels_of_six",
           "make_equal", "one_coil_or_six", "opening", "what_it_costs", "where_flux_closes"]

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
COILS = Choice(name="coils", label="coils", start="long",
               options={"one long coil": "long", "six in series, equal turns of each": "each",
                        "six in series, equal turns of all": "all", "six in series, equal length of wire": "wire",
                        "six in series, equal output of string IV": "output"})
SOUNDS = Choice(name="sounding", label="what sounds", start="one",
                options={"string IV alone": "one", "strings IV and III": "two", "all six strings": "six"})
TURNS = Slider(name="turns", label="turns of the long coil", unit="", low=4000, high=10000, step=100, whole=True,
               start=lambda instrument: instrument.coil["turns"])
POLES = Choice(name="kind", label="poles", start="six",
               options={"one rod, round coil": "one", "six rods, long coil": "six"})
LOOP = Slider(name="loop", label="radius of the loop", unit="mm", low=3.2, high=in_unit(REACH, "mm"), start=4, step=0.1)
LOUDEST = 0.3           # V, of a plain third over flush rods

ARRANGEMENT_WORDS = {"rods": "rods, long coil", "screws": "screws, long coil", "six coils": "rods, small coils",
                     "alternating": "alternating coils", "blade": "blade, long coil"}


def _level(level, digits=1):
    return "nothing" if level == -math.inf else said(level, "dB", f"+z.{digits}f")


def _raised_words(one):
    before, now = (said(field, "mT", ".1f") for field in one.over_pole)
    return now if before == now else f"{before} → {now}"


def _alt_of_field(one, *, kind, number, raised, look):
    beside = one.next_string
    poles = "six rods" if kind == "rods" else "six screws on a bar"
    moved = (f"Raised by {{raised by}}, this pole changes the level of its own string by "
             f"{{level of string {NAMES[number]}}}, that of string {NAMES[beside]} beside it by "
             f"{{of its neighbour {NAMES[beside]}}}." if raised else "All poles are flush.")
    return (f"The field above {poles}, cut across the strings: it is strongest close to their tops, and at the strings "
            f"it dips between two poles. At {said(look, 'mm', '.1f')} height: "
            f"{said(one.over_pole[0], 'mT', '.1f')} over the pole of string {NAMES[number]} with all poles flush, "
            f"{said(one.over_pole[1], 'mT', '.1f')} now, {said(one.half_way, 'mT', '.1f')} half way to the next pole. "
            f"{moved}")


def field_over_six(sheet=None, instrument=None):
    """Panel: the field over all six strings, and what raising one pole does to the six levels."""
    instrument = shown(instrument)
    figure = new_figure(height=4.6)
    picture = FieldOverSix(figure, y=MAP_Y, z=MAP_Z, strings=strings_over(instrument), coil=instrument.long_coil)
    edge = in_unit(HALF_WIDTH, "mm") - 1
    return Panel(
        title="A raised pole lifts its own string",
        sliders=begin(instrument, KIND, NUMBER, RAISED, LOOK), compute=partial(raised, instrument=instrument),
        shown=lambda one: {
            f"level of string {NAMES[one.number]}": _level(one.changes[one.number], 2),
            f"of its neighbour {NAMES[one.next_string]}": _level(one.changes[one.next_string], 2),
            "of any other, at most": _level(one.far, 3),
            "field over this pole": _raised_words(one),
            "half way to the next pole": said(one.half_way, "mT", ".1f")},
        message=_alt_of_field, figure=figure, draw=lambda data: picture.update(**data),
        data=lambda one, **values: raised_map(**values, instrument=instrument) | {
            "changes": [_level(change, 2) for change in one.changes], "words": _raised_words(one)},
        grips=(Grip(picture.axes, y="raised", at=lambda values: (in_unit(PLACES[values["number"]], "mm"), 0.0)),
               Grip(picture.axes, y="look", at=(edge, 0.0))),
        on_paper=({}, {"raised": 1e-3}, {"kind": "rods", "raised": 1e-3}), sheet=sheet, prediction="p1")


def _alt_of_levels(one, *, kind, third, **_):
    poles = "six rods" if kind == "rods" else "six short screws on a bar"
    moved = ", ".join(f"{name} {said(in_unit(top, 'mm'), '', '+z.2f')}" for name, top in zip(NAMES, one.tops) if top)
    tops = f"tops in mm: {moved}, all others flush" if moved else "all flush"
    return (f"Six strings with a {'plain' if third == 'III' else 'wound'} third plucked with 1 N each over {poles}, "
            f"{tops}: string {one.loudest} is the loudest and string {one.softest} the softest, "
            "{between loudest and softest} apart. First pulses and levels relative to string VI over flush poles: "
            + "; ".join(f"{name} {{{name}}}" for name in NAMES) + ".")


def levels_of_six(sheet=None, instrument=None):
    """Panel: the levels of six strings at the same pluck, with the height of every pole."""
    instrument = shown(instrument)
    figure, loudest = new_figure(height=4.8), decibels(simple_law(instrument.row())).max()
    picture = LevelsOfSix(figure, strings=strings_over(instrument), coil=instrument.long_coil,
                          levels=(-10, max(16, loudest + 8)))     # a raised pole brings up to 6 dB
    return Panel(
        title="Equal gaps are not equal levels",
        sliders=(SHORT_KIND, *TOPS, THIRD), compute=partial(string_levels, instrument=instrument),
        shown=lambda one: {"between loudest and softest": said(one.spread, "dB", ".1f")} | {
            name: f"{said(pulse, 'mV', '.1f')}, {_level(level)}"
            for name, pulse, level in zip(NAMES, one.pulses, one.levels)},
        message=_alt_of_levels, figure=figure, draw=lambda data: picture.update(**data),
        data=lambda one, *, kind, **_: {
            "levels": one.levels, "by_law": one.by_law, "loudest": one.loudest, "softest": one.softest,
            "poles": poles_at(kind, one.tops, instrument), "steel": kind != "rods"},
        grips=tuple(Grip(picture.axes, y=name, at=(in_unit(place, "mm"), 0.0)) for name, place in zip(NAMES, PLACES)),
        sound=lambda one, *, kind, third, **_: Sound(
            signals={"VI, V, IV, III, II, I, each plucked with 1 N": six_plucks(one, third, 0.4, instrument)},
            rate=RATE, loudest=LOUDEST * instrument.louder),
        on_paper=({}, {"III": -1e-3}, {"third": "III wound"}), sheet=sheet, prediction="p2")


def bent_sideways(sheet=None, instrument=None):
    """Panel: the level of string IV pushed sideways from its pole to the next, for five arrangements."""
    instrument = shown(instrument)
    figure, string = new_figure(height=5.2), instrument.strings["IV"]
    picture = BentSideways(figure, names=ARRANGEMENT_WORDS, reach=BEND, floor=-13, pole=instrument.rod.diameter,
                           string=(string["diameter"], string["core"]))
    return Panel(
        title="Between two poles a string gets softer",
        sliders=begin(instrument, BENT_HEIGHT, BENT), compute=partial(bent_levels, instrument=instrument),
        shown=lambda one: {f"deepest, {ARRANGEMENT_WORDS[name]}": _level(one.dip[name])
                           for name in ("rods", "six coils", "screws", "alternating", "blade")},
        message=lambda one, *, height, bend: (
            "String IV, {string height} high and pushed sideways, gets softer until it is half way to the next pole; "
            "over a blade it does not. At {pushed sideways}: "
            + "; ".join(f"{words} {_level(one.here[name])}" for name, words in ARRANGEMENT_WORDS.items())
            + ". Deepest over the rods with one long coil: {deepest, rods, long coil}, with six small coils: "
            "{deepest, rods, small coils}."),
        figure=figure, draw=lambda data: picture.update(**data),
        data=lambda one, **values: bent_curves(one, **values, instrument=instrument) | {
            "words": {name: f"{words} {_level(one.here[name])}" for name, words in ARRANGEMENT_WORDS.items()}},
        grips=(Grip(picture.axes, x="bend", y="height"),),
        on_paper=({}, {"bend": 5.1e-3}, {"bend": 5.1e-3, "height": 4e-3}), sheet=sheet, prediction="p3")


def _mv(value):
    return said(value, "mV", ".0f" if value >= 10e-3 else ".1f")


def _alt_of_joined(one, *, coils, sounding, turns):
    strings = {"one": "string IV alone sounds", "two": "strings IV and III sound", "six": "all six strings sound"}
    six = coils != "long"
    each = (f" The coils give at most {', '.join(map(_mv, one.of_each_coil))}." if six else
            f" It gives {_mv(one.of_each_coil[0])} at most: every turn has the voltages of all strings in it.")
    return (f"{'Six small coils in series' if six else 'One long coil'} from above, {strings[sounding]}, each with "
            f"1 m/s at the pickup.{each} In one wire voltages add; their sum is {{level}} relative to one long coil of "
            f"{turns} turns. {{turns of all coils}} turns, {{DC resistance}}, {{inductance}}, peak at {{peak}}.")


def _joined_data(one, *, coils, sounding, instrument, **_):
    here, long = waves(one, instrument)
    return {"coils": "long" if coils == "long" else "six", "time": TIME, "waves": here, "long": long,
            "sounds": SOUNDING[sounding], "given": [*map(_mv, one.of_each_coil)],
            "words": {"sum": "sum" if len(here) > 1 else "IV", "long": "long coil"}}


def one_coil_or_six(sheet=None, instrument=None):
    """Panel: one long coil or six small ones in series: how voltages add, and what the idle coils cost."""
    instrument = shown(instrument)
    figure = new_figure(height=5.2)
    picture = OneCoilOrSix(figure, strings=list(zip(NAMES, PLACES)), long_coil=instrument.long_coil,
                           small_coil=instrument.small_coil, pole=instrument.rod.diameter, span=TIME[-1])
    return Panel(
        title="One turn round six strings has six voltages in it",
        sliders=begin(instrument, COILS, TURNS, SOUNDS), compute=partial(joined, instrument=instrument),
        shown=lambda one: {
            "level": _level(one.level), "turns of all coils": f"{one.turns:.0f}",
            "wire": said(one.wire, "m", ".0f"), "DC resistance": said(one.resistance, "kΩ", ".1f"),
            "inductance": said(one.inductance, "H", ".3g"),
            "peak": said_frequency(one.peak) if one.peak else "none",
            "string IV, per 1000 turns": said(1000 * one.per_turn, "mV", ".1f"),
            "share of the coil under it": said(one.under_fourth, "%", ".0f")},
        message=_alt_of_joined, figure=figure, draw=lambda data: picture.update(**data),
        data=partial(_joined_data, instrument=instrument),
        on_paper=({"sounding": "two"}, {"coils": "each", "sounding": "two"}, {"coils": "all"}),
        sheet=sheet, prediction="p5")


def _flux(value, unit="nWb"):
    return said(value, unit, ".0f" if unit == "nWb" else ".1f")


def _alt_of_closing(one, *, kind, loop):
    poles = "one rod in a round coil" if kind == "one" else "six rods in the long coil"
    return (f"String VI over {poles}, cut along the string, and a loop round the pole at {said(one.at, 'mm', '.1f')}. "
            "String VI still carries {still in string VI} there. The magnets send {magnets' flux in the loop} through "
            "the loop, less in a wider one; the string adds {added by the string}, and more in a wider one as far as "
            "about 11 mm. A mean turn of the winding links {a mean turn links} of the rods' flux.")


def _closing_data(one, *, kind, instrument, **_):
    near = flux_near(kind, instrument)
    return {"kind": kind, "radii": near["radii"], "at": one.at, "carried": near["carried"] / near["most"],
            "added": near["added"] / near["added"].max(), "linked": near["linked"] / near["rods"]}


def where_flux_closes(sheet=None, instrument=None):
    """Panel: what a string carries away from its pole, and what a loop round the pole gets of magnets and string."""
    instrument = shown(instrument)
    figure, string = new_figure(height=5.4), instrument.strings["VI"]
    picture = ClosingFlux(figure, coils={"one": instrument.small_coil, "six": instrument.long_coil}, rod=instrument.rod,
                          string=(instrument.place["string_height"], string["core"]), reach=REACH)
    return Panel(
        title="The string's flux goes out beyond the copper",
        sliders=begin(instrument, POLES, LOOP), compute=partial(closing, instrument=instrument),
        shown=lambda one: {
            "still in string VI": f"{_flux(one.carried)}, {said(one.carried / one.most, '%', '.0f')}",
            "magnets' flux in the loop": f"{_flux(one.linked, 'µWb')} of {_flux(one.rods, 'µWb')}",
            "added by the string": _flux(one.added),
            "a mean turn links": said(one.mean, "%", ".0f")},
        message=_alt_of_closing, figure=figure, draw=lambda data: picture.update(**data),
        data=partial(_closing_data, instrument=instrument), grips=(Grip(picture.axes, x="loop", at=(0.0, -5.0)),),
        on_paper=({"loop": 6.2e-3}, {"kind": "one", "loop": 5e-3}, {"loop": 11e-3}), sheet=sheet, prediction="p6")


def _alt_of_hum(one, *, more_turns, uneven):
    field = said(abs(uneven), "%", ".3g") + (" stronger" if uneven > 0 else " weaker") if uneven else "even"
    left = "no hum is left" if one.hum["both"] == -math.inf else "the hum {hum, both reversed}"
    return ("A second coil with its winding and its magnets reversed keeps the signal and loses the hum that both "
            f"coils pick up alike. With {said(more_turns, '%', '.3g')} more turns and a hum field that is {field} "
            f"there, the signal is {{signal, both reversed}} and {left}. With neither reversed they are "
            f"{_level(one.signal['neither reversed'])} and {_level(one.hum['neither reversed'])}. The string moves in "
            "the same way over both coils.")


def _pair_data(one, **_):
    return {name: list(getattr(one, name).values()) for name in ("signal", "hum", "signal_parts", "hum_parts")}


def hum_of_a_pair(sheet=None, instrument=None):
    """Panel: signal and hum of two coils in series, the second one's winding or magnets or both reversed."""
    instrument = shown(instrument)
    figure = new_figure(height=5.2)
    picture = PairOfCoils(figure, wirings=WIRINGS, coil=instrument.long_coil, rod=instrument.rod, aside=ASIDE,
                          height=instrument.place["string_height"], floor=HUM_FLOOR)
    return Panel(
        title="Both reversed: hum goes, signal stays",
        sliders=(MORE_TURNS, UNEVEN), compute=partial(hum_pair, instrument=instrument),
        shown=lambda one: {"hum, both reversed": _level(one.hum["both"]),
                           "signal, both reversed": _level(one.signal["both"])} | {
            words: f"signal {_level(one.signal[words])}, hum {_level(one.hum[words])}"
            for words in WIRINGS if words != "both"},
        message=_alt_of_hum, figure=figure, draw=lambda data: picture.update(**data), data=_pair_data,
        film=lambda one, **_: Film(frames=[_pair_data(one) | {"at": at} for at in np.linspace(0, PERIODS, 30)],
                                   seconds=2.5, words="one period in 2 s; one of the hum lasts 20 ms"),
        on_paper=({}, {"more_turns": 0.02}, {"more_turns": 0.02, "uneven": 0.02}), sheet=sheet, prediction="p4")
