"""Where the string's flux was before: conservation, its surface added up, lines followed by another solver."""
from functools import cache

import numpy as np
import pytest
from scipy.constants import mu_0
from scipy.integrate import quad, solve_ivp, trapezoid

from lesson_03_pole import PICKUP, ROD, SIX, STRING
from lessons_lib.exercises.self_study import load_lessons
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_03 import before
from lessons_lib.lessons.lesson_03.before import before_and_now, rising, ways_and_curves
from lessons_lib.lessons.lesson_03.circuit import fitted_circuit
from lessons_lib.lessons.lesson_03.model import DRAWN_HEIGHTS, magnetised, three_fluxes
from lessons_lib.lessons.string_lines import StringInSpace
from lessons_lib.physics.magnetic_circuit import Branch, MagneticCircuit
from lessons_lib.physics.steel import STRING_PLACES, SteelString
from notebooks import NOTEBOOKS, assert_printed, prose

PROSE = prose("03")
ANSWERS = next(lesson for lesson in load_lessons(NOTEBOOKS.parent / "answers") if lesson.id == "03")
BOTH = before_and_now(height=2.5e-3, permeability=100.0)
INSIDE = magnetised(height=2.5e-3, instrument=house_instrument, **STRING)
STRING_6 = StringInSpace(INSIDE, height=2.5e-3, place=0.0)
COIL = house_instrument.coil


# ------------------------------------------------------------------ what rises into the string's place

@pytest.mark.parametrize("across, gathered", [(0.1, 0.0), (0.1, 60e-6), (0.1, -60e-6), (0.02, 200e-6), (0.02, -200e-6)])
def test_what_enters_a_round_wire_is_its_inward_field_added_up(across, gathered):
    """By scipy's quad round the wire: field across it, and what it keeps, evenly from all sides."""
    radius = 0.23e-3
    expected, _ = quad(lambda angle: max(0.0, across * np.sin(angle) + gathered / (2 * np.pi * radius)) * radius,
                       0, 2 * np.pi, points=np.linspace(0.5, 6, 12), limit=400)
    assert float(rising(across, gathered, radius)) == pytest.approx(expected, rel=1e-5, abs=1e-12)
    # Gauss: what enters less what leaves is what is kept
    assert rising(across, gathered, radius) - rising(across, -gathered, radius) == pytest.approx(gathered, abs=1e-15)


def _entering(field, radius):
    """Flux (Wb) into a tube round the string's place, between the two places where its flux is largest."""
    x, angle = np.linspace(-BOTH.most, BOTH.most, 81), (np.arange(180) + 0.5) / 180 * 2 * np.pi
    out = np.array([0 * angle, np.cos(angle), np.sin(angle)])
    inward = [-(out * field(at + 0 * angle, radius * out[1], 2.5e-3 + radius * out[2])).sum(0) for at in x]
    return trapezoid(np.maximum(inward, 0).mean(-1) * 2 * np.pi * radius, x)


def of_rod(x, y, z):
    return ROD.flux_density(np.stack([x, y, z], axis=-1)).T


def test_what_rises_there_by_adding_up_the_field_round_it():
    before_it_came = _entering(of_rod, SIX.magnetic_radius)
    now = _entering(lambda *place: of_rod(*place) + STRING_6.flux_density(*place), 1.001 * SIX.magnetic_radius)
    assert BOTH.rising_before == pytest.approx(before_it_came, rel=0.01)
    assert BOTH.rising_now == pytest.approx(now, rel=0.01)


def test_along_its_place_the_air_leads_what_a_string_of_air_would():
    """The rod's field along x, over the cross-section of the string at the place where its flux is largest."""
    on_axis = of_rod(*np.array([[BOTH.most], [0.0], [2.5e-3]]))[0, 0]
    assert BOTH.along_before == pytest.approx(on_axis * SIX.area, rel=5e-3)
    assert BOTH.fluxes.string == pytest.approx(PICKUP.string_flux(SIX, height=2.5e-3), rel=1e-6)
    air = SteelString(diameter=0.46e-3, relative_permeability=1.0)
    assert BOTH.along_before < PICKUP.string_flux(air, height=2.5e-3) < 1.1 * BOTH.along_before


def test_numbers_of_the_three_ways():
    string_field = INSIDE.field_strength[:, 0]
    flux = np.interp(BOTH.most, STRING_PLACES, INSIDE.flux())
    inside, applied = (np.interp(BOTH.most, STRING_PLACES, one) for one in (string_field, INSIDE.applied[:, 0]))
    for value, words in ((BOTH.most * 1e3, "At 3.9 mm to each side"), (BOTH.along_before * 1e9, "led 4.8 nWb along"),
                         (BOTH.fluxes.string * 1e9, "steel leads 231 nWb"),
                         (BOTH.fluxes.string / BOTH.along_before, "48 times"),
                         (flux / SIX.area, "At 1.4 T this steel"), (BOTH.rising_before * 1e9, "189 nWb rose into"),
                         (BOTH.rising_now * 1e9, "Now 630 nWb do"),
                         (BOTH.passed_before * 1e9, "So 434 nWb, 94 %"), (BOTH.share * 100, "94 %, had passed")):
        assert_printed(float(value), words.replace("So 434 nWb, 94 %", "434 nWb"), PROSE)
        assert words in PROSE
    assert BOTH.rising_now - BOTH.fluxes.gathered == pytest.approx(170e-9, abs=5e-9)
    assert "About 170 nWb of them leave the steel again above" in PROSE
    assert flux / (mu_0 * SIX.area * inside) == pytest.approx(69, abs=1) and "a permeability of 69 left" in PROSE
    assert inside / applied == pytest.approx(0.70, abs=0.01) and "weaken the field inside it to 70 %" in PROSE
    assert BOTH.fluxes.added_in_magnet / BOTH.fluxes.gathered == pytest.approx(0.03, abs=0.005)
    assert "14.5 nWb more: 3 % of what the string gathers" in PROSE


@pytest.mark.parametrize("permeability", (20.0, 100.0, 200.0))
@pytest.mark.parametrize("height", (1.5e-3, 2.5e-3, 6e-3))
def test_more_than_nine_tenths_at_each_height(height, permeability):
    """Prediction p5."""
    assert 0.9 < before_and_now(height=height, permeability=permeability).share < 1


# ------------------------------------------------------------------ lines, followed by scipy's solver

def follow(start, sense, string):
    """To the rod or to the steel: places (3, n), and if it is the steel; by solve_ivp, not by the panel's steps."""
    def direction(_, place):
        field = of_rod(*place[:, None])[:, 0] + (string.flux_density(*place[:, None])[:, 0] if string else 0)
        return sense * field / np.linalg.norm(field)

    def at_rod(_, place):
        return max(np.hypot(*place[:2]) - ROD.diameter / 2, place[2], -ROD.length - place[2])

    def at_steel(_, place):
        return np.hypot(place[1], place[2] - string.height) - string.radius if string else 1.0
    at_rod.terminal = at_steel.terminal = True
    at_rod.direction = at_steel.direction = -1
    found = solve_ivp(direction, (0, 3), start, events=(at_rod, at_steel), rtol=1e-5, atol=1e-7, max_step=20e-3)
    return found.y, found.t[-1], len(found.t_events[1]) > 0


@cache
def both_ways(level):
    """A line at a *level* of the string's flux to one side: what `follow` gives before, and all of its way now."""
    right = STRING_PLACES >= 0
    x, flux = STRING_PLACES[right], INSIDE.flux()[right]
    peak = flux.argmax()
    into = np.interp(level * flux[peak], flux[:peak + 1], x[:peak + 1])
    out = np.interp(level * flux[peak], flux[:peak - 1:-1], x[:peak - 1:-1])
    foot, way, _ = follow(STRING_6.surface(np.array([into]), -1)[:, 0], -1, STRING_6)
    on_face = foot[:, -1]
    place, through = out, True
    while through:      # some come back to the string further on, and pass through it
        path, length, through = follow(STRING_6.surface(np.array([place]), 1)[:, 0], 1, STRING_6)
        way, place = way + length, path[0, -1]
    return on_face, follow(on_face + [0, 0, 3e-5], 1, None), (way, out - into, path)


def least_distance(path):
    """How near to the axis (m) a way down passes the coil."""
    passes = (path[2] > COIL["bottom"]) & (path[2] < COIL["top"])
    return np.hypot(path[0], path[1])[passes].min(initial=np.inf)


def test_all_of_it_comes_up_through_every_turn_and_comes_down_far_outside():
    """So what the string gathers links every turn, and a turn's other lines lose what it does not gain."""
    nearest = []
    for level in (0.05, 0.35, 0.55, 0.95):
        on_face, _, (_, _, path) = both_ways(level)
        assert on_face[2] == pytest.approx(0, abs=1e-6) and np.hypot(*on_face[:2]) < COIL["inner_radius"]
        nearest.append(least_distance(path))
    assert min(nearest) == pytest.approx(19.7e-3, abs=1e-3) and "19 mm and more from the axis" in PROSE


@pytest.mark.parametrize("level, foot, was, now, steel", [(0.55, 0.9, 570, 89, 9), (0.95, 1.8, 132, 138, 2)])
def test_lengths_of_the_ways_that_the_page_tells(level, foot, was, now, steel):
    on_face, (_, length, _), (air, in_steel, _) = both_ways(level)
    assert on_face[0] == pytest.approx(foot * 1e-3, abs=0.05e-3)
    assert f"leaves the face {foot} mm from its middle" in PROSE
    assert length == pytest.approx(was * 1e-3, rel=0.02) and f"went {was} mm" in PROSE
    assert air == pytest.approx(now * 1e-3, rel=0.02) and round(in_steel * 1e3) == steel
    assert f"{now} mm" in PROSE


# ------------------------------------------------------------------ the picture

def test_grey_and_green_are_one_deep_in_the_rod_and_part_above_it():
    views = ways_and_curves(BOTH, height=2.5e-3, permeability=100.0)["views"]
    for green, grey in (("now", "before"), ("towards", "towards_before")):
        deep = np.array(views[grey])[:, np.array(views[grey])[1] < -12e-3]
        distances = np.hypot(*(deep[:, :, None] - np.array(views[green])[:, None, :]))
        assert np.nanmax(np.nanmin(distances, axis=1)) < 0.45e-3     # a step of a line is 0.8 mm, or less
    assert np.nanmax(views["before"][1]) > before.FRAME["top"]
    green = np.array(views["now"])
    below = green[:, (green[1] < 0) & (np.abs(green[0]) < 6e-3)]
    assert (np.abs(below[0]) < ROD.diameter / 2).all()


def test_its_curves_run_through_the_marked_points():
    curves = ways_and_curves(BOTH, height=2.5e-3, permeability=100.0)["curves"]
    for name, value in zip(("gathered", "new"), curves["now"][1]):
        assert np.interp(2.5e-3, DRAWN_HEIGHTS, curves[name]) == pytest.approx(value, rel=3e-3)


# ------------------------------------------------------------------ the partial short circuit

@pytest.mark.parametrize("height", (1.5e-3, 2.5e-3, 6e-3))
def test_what_is_new_is_the_share_of_the_loop_that_is_short_circuited(height):
    """By the network solver, exactly: the page's formula and exercise 3.9."""
    circuit = fitted_circuit(2.5e-3, 0.46e-3, 1)
    air = [Branch(name="magnet", start="bottom", end="pole", mmf=circuit.mmf, reluctance=circuit.magnet),
           Branch(name="near", start="pole", end="beyond", reluctance=circuit.near_air),
           Branch(name="far", start="beyond", end="bottom", reluctance=circuit.far_air)]
    alone, both = (MagneticCircuit(branches).solve().flux for branches in (
        air, [*air, Branch(name="string", start="pole", end="beyond", reluctance=circuit.branch(height))]))
    new = both["magnet"] - alone["magnet"]
    given = {"flux": both["string"], "magnet": circuit.magnet, "near": circuit.near_air, "far": circuit.far_air}
    assert new == pytest.approx(ANSWERS["3.9"].answer(**given), rel=1e-9)


def test_the_share_of_the_house_in_circuit_and_field():
    circuit = fitted_circuit(2.5e-3, 0.46e-3, 1)
    share = circuit.near_air / (circuit.magnet + circuit.near_air + circuit.far_air)
    assert share == pytest.approx(BOTH.fluxes.added_in_magnet / BOTH.fluxes.gathered, rel=2e-3)
    assert_printed(share * 100, "The near air is 3.1 % of the loop", PROSE)
    pair = circuit.near_air * circuit.branch(2.5e-3) / (circuit.near_air + circuit.branch(2.5e-3))
    assert_printed(pair / 1e6, "has 6.6 MA/Wb together", PROSE)


def test_softer_steel_gathers_three_times_as_much_and_the_share_hardly_moves():
    """Exercise 3.10 and its worked answer."""
    few, many = (three_fluxes(height=2.5e-3, **STRING | {"permeability": mu, "saturates": 0}) for mu in (1e2, 1e3))
    assert many.gathered == pytest.approx(3 * few.gathered, rel=0.02)
    worked = " ".join(ANSWERS["3.10"].worked.split())
    for one, words in ((few, "permeability 100, 3.0 %"), (many, "and 3.6 % with 1000")):
        share = words.split(", ")[-1].replace(" with 1000", "")
        assert_printed(100 * one.added_in_magnet / one.gathered, share, worked)
        assert words in worked


def test_misread_brackets_raise_the_flux_by_half():
    for height in (2e-3, 3.5e-3):
        thin = fitted_circuit(height, 0.25e-3, 1)
        left, right = thin.magnet + thin.near_air, thin.branch(height) + thin.far_air
        assert thin.mmf * (1 / left + 1 / right) / thin.flux() == pytest.approx(1.5, abs=0.03)
        assert 0 < thin.share(height) < 1e-3
    assert "seems to raise the flux by half. In truth it is less than a thousandth" in PROSE


def test_the_ranges_of_what_a_thin_string_gathers():
    """Exercise 3.9: 110 to 190 nWb."""
    for height in (1.5e-3, 2.5e-3, 4e-3):
        assert 110e-9 < fitted_circuit(height, 0.25e-3, 1).string_flux(height) < 190e-9
