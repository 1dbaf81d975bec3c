"""The seven panels of lesson 7; what is under them is beside them: model.py, joined.py, pair.py, wired.py, words.py."""
import math
from functools import partial

import numpy as np

from lessons_lib.base.units import in_unit, said
from lessons_lib.base.workshop import ROW
from lessons_lib.lessons.instrument import in_mm, shown
from lessons_lib.lessons.lesson_07 import model, pair, words
from lessons_lib.lessons.lesson_07.joined import REACH, SOUNDING, TIME, closing, flux_near, joined, waves
from lessons_lib.lessons.lesson_07.model import PLACES, make_equal
from lessons_lib.lessons.lesson_07.pair import HEAD, hear_six_strings, hum_pair, opening, what_it_costs
from lessons_lib.lessons.lesson_07.wired import FREQUENCIES, PAIR_REACH, curves, wired
from lessons_lib.lessons.lesson_07.words import ARRANGEMENT_WORDS, flux_words, level_words
from lessons_lib.page.controls import Choice, Slider, begin
from lessons_lib.page.film import Film
from lessons_lib.page.grips import Grip
from lessons_lib.page.panel import Panel
from lessons_lib.page.sound import Sound
from lessons_lib.physics.six_strings import NICKEL_PLATED, decibels, simple_law
from lessons_lib.pictures.coil_pair import PERIODS, CoilsAndComb, PairOfCoils
from lessons_lib.pictures.response import said_frequency
from lessons_lib.pictures.six_coils import ClosingFlux, OneCoilOrSix
from lessons_lib.pictures.six_strings import HALF_WIDTH, BentSideways, FieldOverSix, LevelsOfSix
from lessons_lib.pictures.style import new_figure

__all__ = ["HEAD", "bent_sideways", "field_over_six", "hear_six_strings", "hum_of_a_pair", "hum_pair", "levels_of_six",
           "make_equal", "one_coil_or_six", "opening", "two_coils_three_ways", "what_it_costs", "where_flux_closes"]

KIND = Choice(name="kind", label="poles", options={"six rod magnets": "rods", "six screws on a bar": "screws"},
              start="screws")
SHORT_KIND = Choice(name="kind", label="poles", start="rods",
                    options={"six rod magnets": "rods", "six short screws on a bar": "short screws"})
NUMBER = Choice(name="number", label="pole under string", options={name: n for n, name in enumerate(ROW)}, start=2)
RAISED = Slider(name="raised", label="raised by", unit="mm", low=0, high=1.2, start=0, step=0.1)
LOOK = Slider(name="look", label="look at height", unit="mm", low=2, high=5, step=0.1,
              start=lambda instrument: in_mm(instrument.place["string_height"]))
THIRD = Choice(name="third", label="string III", options={"plain": "III", "wound": "III wound"}, start="III")
WRAP = Choice(name="wrap", label="wrap", options={"bronze": 1.0, "nickel-plated steel": NICKEL_PLATED}, start=1.0)
TOPS = tuple(Slider(name=name, label=f"top under {name}", unit="mm", low=in_mm(model.LOWEST), high=in_mm(model.HIGHEST),
                    start=0, step=0.05) for name in ROW)
BENT = Slider(name="bend", label="pushed sideways", unit="mm", low=0, high=in_unit(model.BEND, "mm"), start=0, step=0.1)
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
WIRING = Choice(name="wiring", label="wiring", start="series",
                options={"one coil alone": "one", "series": "series", "parallel": "parallel",
                         "series, out of phase": "out of phase"})
APART = Slider(name="apart", label="coils apart", unit="mm", low=in_mm(PAIR_REACH[0]), high=in_mm(PAIR_REACH[1]),
               start=in_mm(2 * pair.ASIDE), step=1)
ON_STRING = Choice(name="name", label="string", options={name: name for name in ROW}, start="IV")
LOUDEST = 0.3           # V, of a plain third over flush rods

def field_over_six(sheet=None, instrument=None):
    """Panel: the field over all six strings, and what raising one pole does to the six levels."""
    instrument = shown(instrument)
    figure = new_figure(height=4.6)
    picture = FieldOverSix(figure, y=model.MAP_Y, z=model.MAP_Z, strings=model.strings_over(instrument),
                           coil=instrument.long_coil)
    edge = in_unit(HALF_WIDTH, "mm") - 1
    return Panel(
        title="A raised pole lifts its own string",
        sliders=begin(instrument, KIND, NUMBER, RAISED, LOOK), compute=partial(model.raised, instrument=instrument),
        shown=lambda one: {
            f"level of string {ROW[one.number]}": level_words(one.changes[one.number], 2),
            f"of its neighbour {ROW[one.next_string]}": level_words(one.changes[one.next_string], 2),
            "of any other, at most": level_words(one.far, 3),
            "field over this pole": words.raised_words(one),
            "half way to the next pole": said(one.half_way, "mT", ".1f")},
        message=words.alt_of_field, figure=figure, draw=picture,
        data=lambda one, **values: model.raised_map(**values, instrument=instrument) | {
            "changes": [level_words(change, 2) for change in one.changes], "words": words.raised_words(one)},
        grips=(Grip(picture.axes, y="raised", at=lambda values: (in_unit(PLACES[values["number"]], "mm"), 0.0)),
               Grip(picture.axes, y="look", at=(edge, 0.0))),
        on_paper=({}, {"raised": 1e-3}, {"kind": "rods", "raised": 1e-3}), sheet=sheet, prediction="p1")


def levels_of_six(sheet=None, instrument=None):
    """Panel: the levels of six strings at the same pluck, with the height of every pole."""
    instrument = shown(instrument)
    figure, loudest = new_figure(height=4.8), decibels(simple_law(instrument.row())).max()
    picture = LevelsOfSix(figure, strings=model.strings_over(instrument), coil=instrument.long_coil,
                          levels=(-10, max(16, loudest + 8)))     # a raised pole brings up to 6 dB
    return Panel(
        title="Equal gaps are not equal levels",
        sliders=(SHORT_KIND, *TOPS, THIRD, WRAP), compute=partial(model.string_levels, instrument=instrument),
        shown=lambda one: {"between loudest and softest": said(one.spread, "dB", ".1f")} | {
            name: f"{said(pulse, 'mV', '.1f')}, {level_words(level)}"
            for name, pulse, level in zip(ROW, one.pulses, one.levels)},
        message=words.alt_of_levels, figure=figure, draw=picture,
        data=lambda one, *, kind, **_: {
            "levels": one.levels, "by_law": one.by_law, "loudest": one.loudest, "softest": one.softest,
            "poles": model.poles_at(kind, one.tops, instrument), "steel": kind != "rods"},
        grips=tuple(Grip(picture.axes, y=name, at=(in_unit(place, "mm"), 0.0)) for name, place in zip(ROW, PLACES)),
        sound=lambda one, *, kind, third, **_: Sound(
            signals={"VI, V, IV, III, II, I, each plucked with 1 N": pair.six_plucks(one, third, 0.4, instrument)},
            rate=pair.RATE, loudest=LOUDEST * instrument.louder),
        on_paper=({}, {"III": -1e-3}, {"third": "III wound"}), sheet=sheet, prediction="p2")


def bent_sideways(sheet=None, instrument=None):
    """Panel: the level of string IV pushed sideways from its pole to the next, for five arrangements."""
    instrument = shown(instrument)
    figure, string = new_figure(height=5.2), instrument.strings["IV"]
    picture = BentSideways(figure, names=ARRANGEMENT_WORDS, reach=model.BEND, floor=-13, pole=instrument.rod.diameter,
                           string=(string["diameter"], string["core"]))
    return Panel(
        title="Between two poles a string gets softer",
        sliders=begin(instrument, BENT_HEIGHT, BENT), compute=partial(model.bent_levels, instrument=instrument),
        shown=lambda one: {f"deepest, {ARRANGEMENT_WORDS[name]}": level_words(one.dip[name])
                           for name in ("rods", "six coils", "screws", "alternating", "blade")},
        message=lambda one, *, height, bend: (
            "String IV, {string height} high and pushed sideways, gets softer until it is half way to the next pole; "
            "over a blade it does not. At {pushed sideways}: "
            + "; ".join(f"{said_as} {level_words(one.here[name])}" for name, said_as in ARRANGEMENT_WORDS.items())
            + ". Deepest over the rods with one long coil: {deepest, rods, long coil}, with six small coils: "
            "{deepest, rods, small coils}."),
        figure=figure, draw=picture,
        data=lambda one, *, bend, height: {
            "bend": model.WAY, "levels": one.on_the_way, "at": bend, "height": height, "now": one.here,
            "words": {name: f"{said_as} {level_words(one.here[name])}" for name, said_as in ARRANGEMENT_WORDS.items()}},
        grips=(Grip(picture.axes, x="bend", y="height"),),
        on_paper=({}, {"bend": 5.1e-3}, {"bend": 5.1e-3, "height": 4e-3}), sheet=sheet, prediction="p3")


def _coil_words(one):
    return {"DC resistance": said(one.resistance, "kΩ", ".1f"), "inductance": said(one.inductance, "H", ".3g"),
            "peak": said_frequency(one.peak) if one.peak else "none"}


def _joined_data(one, *, coils, sounding, instrument, **_):
    here, long = waves(one, instrument)
    return {"coils": "long" if coils == "long" else "six", "time": TIME, "waves": here, "long": long,
            "sounds": SOUNDING[sounding], "given": [*map(words.mv, one.of_each_coil)],
            "words": {"sum": "sum" if len(here) > 1 else "IV", "long": "long coil"}}


def one_coil_or_six(sheet=None, instrument=None):
    """Panel: one long coil or six small ones in series: how voltages add, and what the idle coils cost."""
    instrument = shown(instrument)
    figure = new_figure(height=5.2)
    picture = OneCoilOrSix(figure, strings=list(zip(ROW, PLACES)), long_coil=instrument.long_coil,
                           small_coil=instrument.small_coil, pole=instrument.rod.diameter, span=TIME[-1])
    return Panel(
        title="One turn round six strings has six voltages in it",
        sliders=begin(instrument, COILS, TURNS, SOUNDS), compute=partial(joined, instrument=instrument),
        shown=lambda one: {
            "level": level_words(one.level), "turns of all coils": f"{one.turns:.0f}",
            "wire": said(one.wire, "m", ".0f"), **_coil_words(one),
            "string IV, per 1000 turns": said(1000 * one.per_turn, "mV", ".1f"),
            "share of the coil under it": said(one.under_fourth, "%", ".0f")},
        message=words.alt_of_joined, figure=figure, draw=picture,
        data=partial(_joined_data, instrument=instrument),
        on_paper=({"sounding": "two"}, {"coils": "each", "sounding": "two"}, {"coils": "all"}),
        sheet=sheet, prediction="p5")


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
            "still in string VI": f"{flux_words(one.carried)}, {said(one.carried / one.most, '%', '.0f')}",
            "magnets' flux in the loop": f"{flux_words(one.linked, 'µWb')} of {flux_words(one.rods, 'µWb')}",
            "added by the string": flux_words(one.added),
            "a mean turn links": said(one.mean, "%", ".0f")},
        message=words.alt_of_closing, figure=figure, draw=picture,
        data=partial(_closing_data, instrument=instrument), grips=(Grip(picture.axes, x="loop", at=(0.0, -5.0)),),
        on_paper=({"loop": 6.2e-3}, {"kind": "one", "loop": 5e-3}, {"loop": 11e-3}), sheet=sheet, prediction="p6")


def _pair_data(one, **_):
    return {name: list(getattr(one, name).values()) for name in ("signal", "hum", "signal_parts", "hum_parts")}


def hum_of_a_pair(sheet=None, instrument=None):
    """Panel: signal and hum of two coils in series, the second one's winding or magnets or both reversed."""
    instrument = shown(instrument)
    figure = new_figure(height=5.2)
    picture = PairOfCoils(figure, wirings=pair.WIRINGS, coil=instrument.long_coil, rod=instrument.rod, aside=pair.ASIDE,
                          height=instrument.place["string_height"], floor=pair.HUM_FLOOR)
    return Panel(
        title="Both reversed: hum goes, signal stays",
        sliders=(MORE_TURNS, UNEVEN), compute=partial(hum_pair, instrument=instrument),
        shown=lambda one: {"hum, both reversed": level_words(one.hum["both"]),
                           "signal, both reversed": level_words(one.signal["both"])} | {
            wiring: f"signal {level_words(one.signal[wiring])}, hum {level_words(one.hum[wiring])}"
            for wiring in pair.WIRINGS if wiring != "both"},
        message=words.alt_of_hum, figure=figure, draw=picture, data=_pair_data,
        film=lambda one, **_: Film(frames=[_pair_data(one) | {"at": at} for at in np.linspace(0, PERIODS, 30)],
                                   seconds=2.5, words="one period in 2 s; one of the hum lasts 20 ms"),
        on_paper=({}, {"more_turns": 0.02}, {"more_turns": 0.02, "uneven": 0.02}), sheet=sheet, prediction="p4")


def _wired_data(one, *, wiring, apart, name, instrument):
    both, half_waves = wiring != "one", {"one": 0, "out of phase": 2}.get(wiring, 1)
    null = said_frequency(one.null) if both else ""
    fits = "half a wave" if half_waves == 1 else "one wave"
    found = curves(one, apart=apart, name=name, instrument=instrument)
    return {"frequency": FREQUENCIES, "this": found["this"], "comb": found["comb"] if both else None,
            "alone": found["alone"] if both else None, "apart": apart, "both": both, "half_waves": half_waves,
            "null": one.null if one.null < FREQUENCIES[-1] else None,
            "words": {"null": null, "wave": f"{fits} between the coils: {null}" if both else ""}}


def two_coils_three_ways(sheet=None, instrument=None):
    """Panel: a pair of coils in series, in parallel, out of phase: resonance, signal, hum, and the comb on a string."""
    instrument = shown(instrument)
    figure = new_figure(height=5.2)
    picture = CoilsAndComb(figure, coil=instrument.long_coil, rod=instrument.rod, level=(-36, 16),
                           height=instrument.place["string_height"])
    return Panel(
        title="Two places on one string make a comb",
        sliders=(APART, ON_STRING, WIRING), compute=partial(wired, instrument=instrument),
        shown=lambda one: {
            "first null of the comb": said_frequency(one.null) if one.null < math.inf else "none",
            "signal": level_words(one.signal), "hum": level_words(one.hum), **_coil_words(one)},
        message=words.alt_of_wired, figure=figure, draw=picture,
        data=partial(_wired_data, instrument=instrument),
        on_paper=({}, {"wiring": "parallel"}, {"wiring": "out of phase"}), sheet=sheet, prediction="p7")
