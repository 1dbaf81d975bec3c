"""Poles under six strings: turning them, what is kept while one moves, heights that make levels equal."""
import math
from collections import Counter
from dataclasses import replace

import numpy as np
import pytest

from lessons_lib.base.workshop import house_screw
from lessons_lib.physics import bar_magnet, loops, magnetised, rod_surface, surface_currents, winding
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.pole_heights import equal_levels
from lessons_lib.physics.six_strings import decibels, first_pulses, in_a_row, sensitivities, with_tops, workshop_row
from lessons_lib.physics.steel import SteelPole
from row_of_six import DELTA, LEAK, LONG, PLACES, POSTS, ROW, rods, screws

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


def test_a_search_that_does_not_settle_says_so(monkeypatch):
    class Lost:
        status, message = 0, "too many steps"
    monkeypatch.setattr("lessons_lib.physics.pole_heights.least_squares", lambda *args, **more: Lost)
    with pytest.raises(RuntimeError, match="^heights of the poles must settle; got too many steps.$"):
        equal_levels(POSTS, ROW, lowest=-1e-3, highest=1e-3)
