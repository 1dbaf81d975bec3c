"""Lesson 7, one coil or six and where flux closes: the functions against other ways to the same; pictures and words."""
import math
from dataclasses import replace

import numpy as np
import pytest
from matplotlib.text import Text
from numpy.testing import assert_allclose

from lessons_lib.base.workshop import house_load
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_07 import panels as lesson_07
from lessons_lib.lessons.lesson_07.joined import REACH, TIME, closing, flux_near, joined, middle_flux, waves
from lessons_lib.lessons.lesson_07.model import PLACES, arranged
from lessons_lib.physics.pickup import Pickup
from lessons_lib.pictures.six_coils import ClosingFlux, OneCoilOrSix
from lessons_lib.pictures.style import VOLTAGE, new_figure
from shown import alt, readouts

ROW, ROD, SMALL = house_instrument.row(), house_instrument.rod, house_instrument.small_coil


# ------------------------------------------------------------------ one coil or six

@pytest.mark.parametrize("coils, name", [("long", "rods"), ("each", "six coils")])
def test_coils_in_series_are_the_pickup_as_a_whole(coils, name):
    one, whole = joined(coils=coils, sounding="six", turns=7600), arranged(name)
    assert_allclose(one.of_each_string, [whole.sensitivity(string.steel, height=string.height, y=string.y)
                                         for string in ROW])
    assert one.inductance == pytest.approx(whole.inductance())
    assert one.turns == sum(coil.turns for coil in whole.coils)


def test_turns_count_once_in_the_voltage_and_twice_in_the_inductance():
    half, whole = (joined(coils="each", sounding="two", turns=turns) for turns in (4000, 8000))
    assert_allclose(whole.parts, 2 * half.parts)
    assert whole.inductance == pytest.approx(4 * half.inductance) and half.level == pytest.approx(whole.level)
    assert whole.wire == pytest.approx(2 * half.wire) and whole.resistance == pytest.approx(2 * half.resistance)


def test_what_is_held_equal_is_equal():
    long = joined(coils="long", sounding="one", turns=6400)
    six = {held: joined(coils=held, sounding="one", turns=6400) for held in ("each", "all", "wire", "output")}
    assert long.level == 0 and six["output"].level == pytest.approx(0, abs=1e-9)
    assert six["each"].turns == 6 * long.turns and six["all"].turns == pytest.approx(long.turns)
    assert six["wire"].wire == pytest.approx(long.wire)
    assert six["wire"].resistance == pytest.approx(long.resistance)
    assert six["each"].level - six["all"].level == pytest.approx(20 * math.log10(6))


def test_the_peak_is_near_the_undamped_one():
    """By hand, 1/(2 pi sqrt(L C)) with coil and cable; the controls pull it down by some per cent (lesson 6)."""
    capacitance = house_load["capacitance"] + house_load["cable_capacitance"]
    for coils in ("long", "each", "output"):
        one = joined(coils=coils, sounding="one", turns=7600)
        undamped = 1 / (2 * math.pi * math.sqrt(one.inductance * capacitance))
        assert 0.9 * undamped < one.peak < undamped


def test_voltages_are_waves_of_their_own_pitch_that_add():
    one = joined(coils="long", sounding="two", turns=7600)
    here, long = waves(one)
    assert list(here) == ["IV", "III"]
    assert_allclose(sum(here.values()), long)
    assert long[0] == pytest.approx(1) and np.abs(long).max() <= 1
    period = 1 / house_instrument.strings["IV"]["frequency"]
    assert np.interp(period, TIME, here["IV"]) == pytest.approx(here["IV"][0], rel=5e-3)
    assert one.of_each_coil == pytest.approx(one.of_each_string.sum())
    # a sixth of the turns: six times less of each, and no phase between them
    six, _ = waves(joined(coils="all", sounding="two", turns=7600))
    each, _ = waves(joined(coils="each", sounding="two", turns=7600))
    assert_allclose(6 * six["III"], each["III"])


# ------------------------------------------------------------------ where the flux closes

def through_a_disc(whole, coil, radius):
    """Flux (Wb) up through a round disc, mean of the heights of a coil: B added up, no current and no reciprocity."""
    nodes, weights = np.polynomial.legendre.leggauss(24)
    heights, flux = coil.bottom + (coil.top - coil.bottom) / 2 * (nodes + 1), 0.0
    for inner, outer in ((0.0, ROD.diameter / 2), (ROD.diameter / 2, radius)):      # B jumps at the rod's side
        rho, height = np.meshgrid(inner + (outer - inner) / 2 * (nodes + 1), heights)
        upright = whole.flux_density(np.stack([rho, 0 * rho, height], axis=-1))[..., 2]
        flux += math.pi * (outer - inner) * float(weights / 2 @ (upright * rho) @ weights)
    return flux


def test_a_loop_links_what_goes_through_it():
    whole = Pickup(poles=ROD, coils=SMALL)
    for radius in (5e-3, 10e-3):
        assert closing(kind="one", loop=radius).linked == pytest.approx(through_a_disc(whole, SMALL, radius), rel=0.005)


def test_what_the_string_adds_by_energy():
    """Lesson 3's other way to the linkage, on a loop of one turn; 1e-3 for the spline between computed loops."""
    string, loop = ROW[0], replace(house_instrument.long_coil, inner_radius=8e-3, outer_radius=8.01e-3, turns=1)
    by_energy = Pickup(poles=arranged("rods").poles, coils=loop).linkage_by_energy(
        string.steel, height=string.height, y=string.y)
    assert closing(kind="six", loop=8e-3).added == pytest.approx(by_energy, rel=3e-3)


def test_the_flux_in_the_string_is_the_pickups():
    for kind, y in (("one", 0.0), ("six", PLACES[0])):
        whole = Pickup(poles=ROD, coils=SMALL) if kind == "one" else arranged("rods")
        assert flux_near(kind)["most"] == pytest.approx(
            whole.string_flux(ROW[0].steel, height=ROW[0].height, y=y), rel=1e-6)


def test_flux_through_the_middle_of_rods():
    """One rod: the rod's own solution of lesson 1. Six alike weaken each other: neighbours' flux comes back down."""
    one = middle_flux(Pickup(poles=ROD, coils=SMALL))
    assert one == pytest.approx(ROD.midplane_flux(), rel=2e-3)
    assert 5 * one < middle_flux(arranged("rods")) < 6 * one
    far = [replace(ROD, y=y) for y in (-0.5, 0.5)]
    assert middle_flux(Pickup(poles=far, coils=SMALL)) == pytest.approx(2 * one, rel=1e-4)


def test_a_mean_turn_is_between_the_inner_and_the_outer_one():
    for kind, coil in (("one", SMALL), ("six", house_instrument.long_coil)):
        inner, outer = (closing(kind=kind, loop=radius).linked for radius in (coil.inner_radius, coil.outer_radius))
        near = flux_near(kind)
        assert outer < near["mean"] * near["rods"] < inner
    assert closing(kind="six", loop=1e-3).at == house_instrument.long_coil.inner_radius


# ------------------------------------------------------------------ pictures and words

def test_the_picture_shows_one_coil_or_six_and_who_sounds():
    picture = OneCoilOrSix(new_figure(height=5.2), strings=list(zip(("A", "B"), (-5e-3, 5e-3))), pole=4e-3, span=1e-3,
                           long_coil=replace(house_instrument.long_coil, straight_length=10e-3), small_coil=SMALL)
    drawn = {coils: picture.update(coils=coils, time=[0, 1e-3], waves={"A": np.array([1.0, -1.0])},
                                   long=np.array([1.0, -1.0]), sounds=["A"], given=given, words={"sum": "A"})
             for coils, given in (("long", ["9 mV"]), ("six", ["8 mV", "1 mV"]))}
    said = {coils: [one.get_text() for one in artists if isinstance(one, Text)] for coils, artists in drawn.items()}
    assert "9 mV" in said["long"] and {"8 mV", "1 mV"} <= set(said["six"])
    assert [len(picture._coils[coils]) for coils in ("long", "six")] == [1, 2]
    assert [line.get_color() == VOLTAGE["color"] for line in picture._strings] == [True, False]
    outline = picture._coils["six"][1].get_path().vertices
    assert [outline[:, 0].min(), outline[:, 0].max()] == pytest.approx([0, 10])


def test_the_loop_is_where_the_slider_is():
    picture = ClosingFlux(new_figure(height=5.4), coils={"one": SMALL}, rod=ROD, string=(2.5e-3, 5e-4), reach=REACH)
    picture.update(kind="one", radii=[3e-3, 20e-3], carried=[1, 0], added=[0.5, 1], linked=[1, 0.2], at=7e-3)
    assert np.nanmax(picture._loop.get_xdata()) == pytest.approx(7) and np.nanmin(picture._loop.get_xdata()) == -7


def test_the_words_name_what_is_set():
    panel = lesson_07.one_coil_or_six()
    assert "One long coil" in alt(panel) and "level: +0.0 dB" in readouts(panel)
    panel.asked(coils="six in series, equal turns of all", sounding="all six strings", turns=6000)
    assert "all six strings sound" in alt(panel) and "turns of all coils: 6000" in readouts(panel)
    panel = lesson_07.where_flux_closes()
    panel.asked(loop=6.2)
    assert "still in string VI: 220 nWb, 91 %" in readouts(panel) and "six rods in the long coil" in alt(panel)
    panel.asked(kind="one rod, round coil")
    assert "87 %" in readouts(panel) and "a mean turn links: 88 %" in readouts(panel)
