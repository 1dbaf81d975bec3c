"""Six strings: levels against the hand's law, bending, turning screws, and heights that make levels equal."""
import math
from collections import Counter
from dataclasses import dataclass, replace
from functools import cache

import numpy as np
import pytest

from lessons_lib.base.workshop import house_bar, house_coil, house_magnet, house_place, house_screw, house_small_coil
from lessons_lib.physics import bar_magnet, loops, magnetised, rod_surface, surface_currents, winding
from lessons_lib.physics.magnets import BarMagnet, RodMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.pole_heights import equal_levels
from lessons_lib.physics.six_strings import (
    PlacedString,
    decibels,
    first_pulses,
    in_a_row,
    sensitivities,
    simple_law,
    with_tops,
    workshop_row,
)
from lessons_lib.physics.steel import SteelPole, SteelString
from lessons_lib.physics.winding import LongCoil, RoundCoil

PLACES = house_place["string_y"]
LONG = LongCoil(**house_coil)
SMALL = RoundCoil(**house_small_coil)
ROW = workshop_row()


@cache
def rods(coils=LONG):
    return Pickup(poles=in_a_row(RodMagnet(**house_magnet), PLACES), coils=coils)


@cache
def screws(top=0.0):
    return Pickup(poles=in_a_row(SteelPole(**house_screw), PLACES, [top] * 6), coils=LONG, bars=BarMagnet(**house_bar))


# --- a stand-in with closed forms

DELTA, LEAK = 3e-3, 0.1


@dataclass(frozen=True)
class Exponential:
    """Each string hears its own pole as exp(-gap/delta), and the neighbours' as a tenth of that."""

    poles: tuple

    def sensitivity(self, string, *, height, y=0.0):
        apart = np.abs(np.asarray(y)[..., None] - [pole.y for pole in self.poles])
        share = np.where(apart < 1e-3, 1.0, np.where(apart < 11e-3, LEAK, 0.0))
        return string.area * share @ np.exp(-(height - np.array([pole.top for pole in self.poles])) / DELTA)


@dataclass(frozen=True)
class Post:
    y: float
    top: float = 0.0


POSTS = Exponential(poles=in_a_row(Post(0.0), PLACES))


# --- levels

# Core area times 1/(2Z), dB re string VI: the course's table, 7850 kg/m3, T = mu (2 L f)^2; one decimal printed.
@pytest.mark.parametrize("third, level", [("III", 7.3), ("III wound", -1.0)])
def test_simple_law(third, level):
    levels = decibels(simple_law(workshop_row(third=third)))
    assert levels == pytest.approx([0.0, 0.6, 0.4, level, 5.3, 2.8], abs=0.06)


@pytest.mark.parametrize("third", ["III", "III wound"])
def test_computed_levels_follow_the_simple_law(third):
    """Loud plain third, four alike wound strings: there already in the simple law. Rods 0.9 dB off, screws 1.5."""
    row = workshop_row(third=third)
    simple = decibels(simple_law(row))
    over_rods, over_screws = decibels(first_pulses(rods(), row)), decibels(first_pulses(screws(), row))
    assert over_rods == pytest.approx(simple, abs=1.0)
    assert over_screws == pytest.approx(simple, abs=1.6)
    assert over_rods[3] > over_rods[0] + 7 if third == "III" else np.ptp(over_rods[:4]) < 2


def test_first_pulses_of_the_workshop():
    """Finite elements: 76 mV for string VI over an outer rod, 190 mV for the plain third over a middle one; 1 N."""
    pulses = first_pulses(rods(), ROW)
    assert pulses[[0, 3]] * 1e3 == pytest.approx([76, 190], rel=0.01)
    assert first_pulses(rods(), ROW, force=2.0) == pytest.approx(2 * pulses, rel=1e-12)
    speeds = 1 / (2 * np.array([string.impedance for string in ROW]))
    assert pulses == pytest.approx(sensitivities(rods(), ROW) * speeds, rel=1e-12)


def test_the_same_string_six_times_is_symmetric():
    row = [replace(ROW[0], y=y) for y in PLACES]
    for pickup in (rods(), screws()):
        levels = decibels(sensitivities(pickup, row))
        assert levels == pytest.approx(levels[::-1], abs=1e-5)
        assert np.ptp(levels) < 1.0       # outer poles have one neighbour only
        assert levels[2] > levels[0]


def test_six_small_coils_in_series():
    """Each string hears its own coil nearly alone; the voltages of the six add."""
    six = rods(coils=in_a_row(SMALL, PLACES))
    string = ROW[2]
    alone = [Pickup(poles=six.poles, coils=coil).sensitivity(string.steel, height=string.height, y=string.y)
             for coil in six.coils]
    assert six.sensitivity(string.steel, height=string.height, y=string.y) == pytest.approx(sum(alone), rel=1e-9)
    assert abs(alone[2] / sum(alone)) > 0.9


def test_decibels():
    assert decibels([0.5, -0.5], reference=1.0) == pytest.approx([-6.0206] * 2, abs=1e-4)   # 20 log10(1/2)


# --- bending

def bent_levels(pickup, string, y):
    """Level (dB) of a string pushed sideways to y, relative to that at its own place, by sensitivity."""
    return decibels(pickup.sensitivity(string.steel, height=string.height, y=np.append(string.y, y)))[1:]


def test_bending_over_rods_and_small_coils():
    """The dip lies half way between two poles, and is deeper with six small coils than with one long one."""
    string, y = ROW[2], ROW[2].y + np.linspace(0, 10.2e-3, 9)
    long, small = (bent_levels(rods(coils=coils), string, y) for coils in (LONG, in_a_row(SMALL, PLACES)))
    for levels in (long, small):
        assert levels[0] == 0.0 and np.argmin(levels) == 4
        assert levels == pytest.approx(levels[::-1], abs=0.05)   # the next pole but one is not the same on both sides
    assert small[4] < long[4] - 1.0


def test_bending_against_the_reach_of_two_poles():
    levels = bent_levels(POSTS, ROW[0], [PLACES[1], PLACES[0], 0.1])
    # over the outer pole one neighbour, over the next two; far away nothing at all
    assert levels == pytest.approx([20 * math.log10((1 + 2 * LEAK) / (1 + LEAK)), 0.0, -math.inf])


def test_blade_has_no_dip():
    blade = BarMagnet(size=(3e-3, 56e-3, 12e-3), centre=(0, 0, -6e-3), remanence=0.3)
    levels = bent_levels(Pickup(poles=(), coils=LONG, bars=blade), ROW[2], ROW[2].y + np.linspace(0, 10.2e-3, 9))
    assert np.abs(levels).max() < 0.1


# --- turning

def turning_effect(pickup, row, turn=0.1e-3):
    """dB/m: level of a string (row) over the turn of a pole (column), one pole after the other."""
    tops = np.array([pole.top for pole in pickup.poles])
    before, *after = (decibels(first_pulses(with_tops(pickup, tops + move), row), 1.0)
                      for move in (0 * tops, *turn * np.eye(len(tops))))
    return np.stack([levels - before for levels in after], axis=-1) / turn


def test_turning_posts():
    """A small turn: 20/ln(10)/delta times the pole's share of what the string hears."""
    effect = turning_effect(POSTS, ROW, turn=1e-7)
    shares = np.eye(6) + LEAK * (np.eye(6, k=1) + np.eye(6, k=-1))
    wanted = 20 / math.log(10) / DELTA * shares / shares.sum(axis=1, keepdims=True)
    assert effect == pytest.approx(wanted, rel=1e-4)             # turn / (2 delta)


def test_turning_one_screw_quietens_its_neighbours():
    effect = 1e-3 * turning_effect(screws(0.5e-3), ROW)          # dB per mm
    assert np.diag(effect) == pytest.approx([3.1] * 6, abs=0.25)
    neighbours = np.concatenate([np.diag(effect, 1), np.diag(effect, -1)])
    assert ((-0.3 < neighbours) & (neighbours < -0.05)).all()    # they share one bar, and lean on each other
    assert np.abs(np.triu(effect, 2)).max() < 0.02
    # Up and down alike to first order, so the screws may be turned one by one.
    down = 1e-3 * turning_effect(screws(0.5e-3), ROW, turn=-0.1e-3)
    assert np.diag(down) == pytest.approx(np.diag(effect), rel=0.1)


def test_turns_add_up():
    """Two screws turned together: what each does alone, as long as the turns are small."""
    pickup, tops = screws(0.5e-3), np.full(6, 0.5e-3)
    both = np.array([0.0, 0.1e-3, -0.1e-3, 0.0, 0.0, 0.0])
    before, after = (decibels(first_pulses(turned, ROW), 1.0) for turned in (pickup, with_tops(pickup, tops + both)))
    assert after - before == pytest.approx(turning_effect(pickup, ROW) @ both, abs=0.02)


# --- what is kept while one pole moves

KEPT = (surface_currents._coupling, surface_currents._feedback, rod_surface._field_matrix, magnetised._mean_of_currents,
        bar_magnet._field_of_shape, winding._unit_field)


@pytest.fixture
def worked_out(monkeypatch):
    """Counts the places at which a field of a loop, of a coil's straights and of a bar's face is worked out."""
    counts = Counter()

    def count(module, name, size_of):
        formula = getattr(module, name)

        def counted(*args):
            counts[name] += size_of(args)
            return formula(*args)
        monkeypatch.setattr(module, name, counted)
    for module, name, size_of in ((loops, "_loop_field", lambda args: args[0].size),
                                  (winding, "bar_field", lambda args: len(args[0])),
                                  (bar_magnet, "_pole", lambda args: args[0].size)):
        count(module, name, size_of)

    def counted(pickup):
        counts.clear()
        return first_pulses(pickup, ROW), dict(counts)
    return counted


@pytest.mark.parametrize("make", [rods, screws])
def test_a_moved_pole_is_worked_out_alone_and_comes_out_the_same(make, worked_out):
    """Of six poles one moves: its places in the coil and over the bar are new, and what passes between it and the rest.

    Without anything kept: six poles' places; six strings and poles at distances of one to six, to and fro."""
    moved = with_tops(make(), (0.0, 0.0, 0.3e-3, 0.0, 0.0, 0.0))
    sensitivities(replace(make()), ROW)
    pulses, then = worked_out(replace(moved))
    for kept in KEPT:
        kept.cache_clear()
    anew, whole = worked_out(replace(moved))
    assert pulses == pytest.approx(anew, rel=1e-9)      # rounding
    shares = {name: then[name] / whole[name] for name in whole}
    assert shares.pop("_loop_field") < 0.5 and max(shares.values()) < 0.2, shares


# --- heights that make levels equal

def test_posts_are_made_equal():
    found = equal_levels(POSTS, ROW, lowest=-8e-3, highest=2e-3)
    assert found.within_bounds and found.spread < 0.01 and found.message.startswith("All levels within 0.0")
    # With no leak the heights are a closed form: gap differences of delta ln(ratio).
    alone = replace(POSTS, poles=tuple(replace(post, y=post.y * 2) for post in POSTS.poles))
    row = [replace(string, y=2 * string.y) for string in ROW]
    tops = equal_levels(alone, row, lowest=-8e-3, highest=2e-3).tops
    wanted = -DELTA * np.log(first_pulses(alone, row))
    # the pull back to the start is worth 0.02 dB per mm
    assert tops - tops.mean() == pytest.approx(wanted - wanted.mean(), abs=2e-5)


def test_bounds_that_do_not_allow_it():
    found = equal_levels(POSTS, ROW, lowest=-0.5e-3, highest=0.5e-3)
    assert not found.within_bounds and found.spread > 0.1
    assert found.message == (f"The bounds leave {found.spread:.1f} dB between the strings; "
                             f"poles on a bound: 0, 1, 2, 3, 4.")
    # quiet strings up, loud ones down: VI, V, IV against III, II; string I lies between
    assert found.tops[:5] == pytest.approx([0.5e-3] * 3 + [-0.5e-3] * 2, abs=1e-6)


def test_workshop_screws_with_a_wound_third():
    """Screws that reach 1.5 mm up and 3 mm down (shorter ones, clear of the bar), strings at 3 mm."""
    screw = SteelPole(**house_screw | {"length": 14e-3})
    pickup = Pickup(poles=in_a_row(screw, PLACES), coils=LONG, bars=screws().bars)
    row = workshop_row(third="III wound", height=3e-3)
    found = equal_levels(pickup, row, lowest=-3e-3, highest=1.5e-3)
    assert found.within_bounds and found.spread < 0.1
    assert np.argmin(found.tops) == 4                             # string II is the loudest
    levels = decibels(first_pulses(with_tops(pickup, found.tops), row), 1.0)
    assert levels == pytest.approx(found.levels, abs=1e-9)


def test_workshop_rods_with_the_plain_third():
    """The plain third is too loud for a millimetre and a half; what the bounds allow is the best there is."""
    lowest, highest = -1.5e-3, 1.2e-3
    found = equal_levels(rods(), ROW, lowest=lowest, highest=highest)
    assert not found.within_bounds and "3.8 dB" in found.message
    free = found.tops[5]
    assert lowest < free < highest

    def scatter(top):
        return decibels(first_pulses(with_tops(rods(), np.append(found.tops[:5], top)), ROW), 1.0).std()
    here = scatter(free)
    assert here < scatter(free + 0.1e-3) and here < scatter(free - 0.1e-3)


# --- bad input

@pytest.mark.parametrize("call, message", [
    (lambda: workshop_row(third="IV"), "third must be one of 'III', 'III wound'; got 'IV'."),
    (lambda: workshop_row(height=-1e-3), "height must be a finite number above zero; got -0.001."),
    (lambda: replace(ROW[0], impedance=0.0), "impedance must be a finite number above zero; got 0.0."),
    (lambda: replace(ROW[0], y=math.nan), "y must be a finite number; got nan."),
    (lambda: with_tops(screws(), [0.0, 0.0]), "tops must be one height for each of 6 poles; got 'shape (2,)'."),
    (lambda: in_a_row(SMALL, [math.nan]), "places must be an array of finite numbers; got nan."),
    (lambda: first_pulses(POSTS, ROW, force=-1.0), "force must be a finite number, zero or above; got -1.0."),
    (lambda: decibels([0.0, 1.0]), "reference must be a finite number above zero; got 0.0."),
    (lambda: with_tops(screws(), np.full(6, -0.1e-3)),
     "bars must be clear of the other parts; got 'bar 0 and pole 0 in the same place'."),
    (lambda: equal_levels(screws(), ROW, lowest=-1e-3, highest=1e-3),
     "bars must be clear of the other parts; got 'bar 0 and pole 0 in the same place'."),
    (lambda: equal_levels(rods(), ROW, lowest=-1e-3, highest=2.4e-3),
     "height must be the string's axis, its lower side clear of the coil form (z = 0), the poles and the bars; "
     "got 0.0025."),
    (lambda: equal_levels(POSTS, ROW, lowest=1e-3, highest=1e-3), "lowest must be below highest; got "),
    (lambda: equal_levels(POSTS, ROW[:5], lowest=-1e-3, highest=1e-3),
     "row must be one string over each of 6 poles; got 5."),
])
def test_refused(call, message):
    with pytest.raises(ValueError) as refusal:
        call()
    assert str(refusal.value).startswith(message)


def test_a_string_must_be_steel():
    with pytest.raises(TypeError, match="^steel must be a SteelString; got 0.0005.$"):
        PlacedString(steel=0.5e-3, impedance=0.5, height=2.5e-3)
    assert PlacedString(steel=SteelString(diameter=0.5e-3), impedance=0.5, height=2.5e-3).y == 0.0


def test_a_search_that_does_not_settle_says_so(monkeypatch):
    class Lost:
        status, message = 0, "too many steps"
    monkeypatch.setattr("lessons_lib.physics.pole_heights.least_squares", lambda *args, **more: Lost)
    with pytest.raises(RuntimeError, match="^heights of the poles must settle; got too many steps.$"):
        equal_levels(POSTS, ROW, lowest=-1e-3, highest=1e-3)
