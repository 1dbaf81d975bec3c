"""The band of the whole pickup: the whole model at the ends of one quantity alone, no spread, nothing solved twice."""
import math
import re
from dataclasses import replace

import numpy as np
import pytest

from lessons_lib.base.value import Value
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.whole_pickup import panels
from lessons_lib.lessons.whole_pickup.band import NAMES, bands_of, quantities_of
from lessons_lib.lessons.whole_pickup.changes import changes
from lessons_lib.lessons.whole_pickup.parts import pickup_of, steel_of
from lessons_lib.lessons.whole_pickup.settings import OWN, WRAPS
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.spread import in_scale
from shown import alt, message
from whole_settings import OWN_MAGNET, START, of

SHOWN = {"spread": "shown"}


def alone(settings, name):
    """The settings' quantities of which only one spreads, and that one."""
    found = quantities_of(settings)
    return {key: value if key == name else Value(value, value.unit, value.source) for key, value in found.items()}, (
        found[name])


# ---- where it vanishes -----------------------------------------------------------------------------------------------

@pytest.mark.parametrize("changed", [{}, {"form": "screws"}, {"form": "pair", "metal": "answers"}])
def test_without_a_spread_there_is_no_band(changed):
    one = of(**changed)
    sharp = {name: Value(value, value.unit, value.source, (float(value),) * 2)
             for name, value in quantities_of(one.settings).items()}
    peak, place = bands_of(one, sharp)
    assert (peak.low, peak.median, peak.high) == pytest.approx((one.peak,) * 3, rel=1e-9)
    assert (place.low, place.median, place.high) == pytest.approx((one.response_peak[0],) * 3, rel=1e-9)


def test_with_the_switch_off_or_nothing_to_hear_there_is_none():
    assert of().bands == of(force=0.0, **SHOWN).bands == of(OWN_MAGNET, remanence=0.0, **SHOWN).bands == (None, None)
    assert of(own=0.0, cable=0.0, volume=math.inf, tone=math.inf, amplifier=1e9, **SHOWN).bands[1] is None
    assert "nothing that could spread" in changes(replace(START, force=0.0), replace(START, force=0.0, **SHOWN))


# ---- one quantity alone: between 16 and 84 % of its range is what two of three have ----------------------------------

WHOLE = {
    "height": lambda value: {"height": value}, "magnet": lambda value: {"remanence": 0.75 * value},
    "poles": lambda value: {"recoil_permeability": value,      # a rod of the same field
                            "remanence": house_instrument.rod.with_recoil_permeability(value).remanence},
    "turns": lambda value: {"turns": round(7600 * value)},
    "capacitance": lambda value: {"own": value}}


@pytest.mark.parametrize("name", WHOLE)
@pytest.mark.parametrize("place", [{}, {"height": 3.6e-3, "aside": 1.5e-3, "string": "VI"}])
def test_one_quantity_alone_is_the_whole_model_at_its_ends(name, place):
    settings = replace(OWN_MAGNET, **place)
    known, value = alone(settings, name)
    one = of(settings)
    ends = [of(settings, **WHOLE[name](float(in_scale(value, share)))) for share in (0.16, 0.5, 0.84)]
    for band, expected in zip(bands_of(one, known), ([end.peak for end in ends],
                                                     [end.response_peak[0] for end in ends])):
        low, median, high = sorted(expected)
        width = max(high - low, 1e-4 * median)
        assert (band.low, band.median, band.high) == pytest.approx((low, median, high), abs=0.06 * width)
        assert band.most == NAMES[name] or width == 1e-4 * median


@pytest.mark.parametrize("name, of_string", [
    ("permeability", "relative_permeability"), ("saturation", "saturation"), ("wrap", "wrap_permeability")])
@pytest.mark.parametrize("height, aside", [(2.2e-3, 0.0), (3.4e-3, 0.0), (5.2e-3, 1.5e-3)])
def test_steel_alone_is_the_sensitivity_at_rest(name, of_string, height, aside):
    settings = replace(START, string="VI", wrap=WRAPS[1], height=height, aside=aside)
    known, value = alone(settings, name)
    at = {"height": height, "y": settings.pole_y + aside}
    own = pickup_of(settings).sensitivity(steel_of(settings), **at)
    low, high = sorted(pickup_of(settings).sensitivity(replace(steel_of(settings), **{
        of_string: float(in_scale(value, share))}), **at) / own for share in (0.16, 0.84))
    one = of(settings)
    band, _ = bands_of(one, known)
    assert (band.low / one.peak, band.high / one.peak) == pytest.approx((low, high), abs=0.06 * (high - low))


def test_a_strong_bar_under_screws_is_the_model_with_that_bar():
    settings = replace(START, form="screws")
    pickup, one = pickup_of(settings), of(settings)
    bar, = pickup.bars
    at = {"height": settings.height, "y": settings.pole_y}
    range_of_bar = Value(1.0, "1", "a test", (0.9, 1.1))
    low, high = (Pickup(poles=pickup.poles, coils=pickup.coils, bars=replace(bar, remanence=share * bar.remanence))
                 .sensitivity(steel_of(settings), **at) / pickup.sensitivity(steel_of(settings), **at)
                 for share in in_scale(range_of_bar, [0.16, 0.84]))
    known, _ = alone(settings, "magnet")
    band, _ = bands_of(one, known | {"magnet": range_of_bar})
    assert (band.low / one.peak, band.high / one.peak) == pytest.approx((low, high), abs=0.02 * (high - low))


# ---- all of them -----------------------------------------------------------------------------------------------------

def test_what_counts_most():
    """With rods the steel is saturated, so that its permeability hardly counts; over screws it counts most."""
    rods, screws, wrapped = (of(**changed, **SHOWN).bands[0] for changed in (
        {}, {"form": "screws"}, {"string": "VI", "wrap": WRAPS[1]}))
    assert rods.most == NAMES["memory"] and screws.most == NAMES["permeability"]
    assert wrapped.shares["wrap"] > 0.25 and "wrap" not in rods.shares
    assert sum(rods.shares.values()) == pytest.approx(1, abs=0.1)
    near, far = (of(height=height, **SHOWN).bands[0].shares["permeability"] for height in (2e-3, 6e-3))
    assert far > 2 * near


def test_a_moved_slider_solves_no_field(monkeypatch):
    assert of(**SHOWN).bands and of(metal="answers", **SHOWN).bands

    def refuse(*_, **__):
        raise AssertionError("solved again")
    for name in ("inductance", "flux_density", "field_per_ampere", "sensitivity", "flux_linkage", "impedance"):
        monkeypatch.setattr(Pickup, name, refuse)
    for changed in ({"height": 3.15e-3}, {"turns": 6150}, {"cable": 1.5e-10}, {"force": 0.65}, {"gauge": 41},
                    {"fret": 4}, {"tone_setting": 0.15}, {"pickup_place": 0.065}):
        for metal in ("answers", "does not answer"):
            peak, _ = of(metal=metal, **changed, **SHOWN).bands
            assert peak.low < peak.median < peak.high


@pytest.mark.parametrize("changed", [
    {"grade": "ferrite"}, {"grade": "alnico 2"}, {"grade": OWN, "recoil_permeability": 1.0}, {"tone_setting": 0.0},
    {"turns": 12000, "cable": 2e-9, "volume_setting": 0.1}, {"height": 6e-3, "aside": 3e-3}, {"direction": math.pi / 2},
    {"form": "pair", "string": "I"}, {"own": 0.0}])
def test_everywhere_it_is_finite_and_about_what_is_shown(changed):
    one = of(**changed, **SHOWN)
    peak, place = one.bands
    assert 0.3 * one.peak < peak.low < peak.median < peak.high < 2 * one.peak
    if place:
        assert 0.7 * one.response_peak[0] < place.low < place.high < 1.3 * one.response_peak[0]
    assert np.isfinite(list(peak.shares.values())).all()


# ---- said and shown --------------------------------------------------------------------------------------------------

def test_the_sentence_has_the_band():
    sentence, (peak, place) = changes(START, replace(START, **SHOWN)), of(**SHOWN).bands
    low, high, median = map(float, re.search(r"give ([\d.]+) to ([\d.]+) mV \(median ([\d.]+) mV\)", sentence).groups())
    assert (low, high, median) == pytest.approx((peak.low * 1e3, peak.high * 1e3, peak.median * 1e3), rel=5e-3)
    assert f"peak at {place.low / 1e3:.2f} to {place.high / 1e3:.2f} kHz" in sentence
    assert f"the {peak.most}, which no model here computes, counts most" in sentence and ". " not in sentence
    assert "stays at 255 mV" in sentence and "nothing else" in changes(replace(START, **SHOWN), START)


def test_the_panel_shows_it_only_when_it_is_asked():
    panel = panels.whole_pickup()
    off, pieces = dict(panel.board.frame["shown"]), panel.board.frame["pieces"]
    panel.asked(spread="shown")
    on = dict(panel.board.frame["shown"])
    assert message(panel) == "" and off.items() < on.items()
    assert panel.board.frame["pieces"] != pieces and on["two of three give"] in alt(panel)
    assert on["mostly by"] == "hysteresis in the string"
    panel.asked(spread="not shown")
    assert dict(panel.board.frame["shown"]) == off and "such pickups" not in alt(panel)
    assert panel.board.frame["pieces"] == pieces
