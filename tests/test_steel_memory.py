"""Memory of the string's steel: loops added up, Gans's curve by its own series, and a small swing solved anew."""
import math

import numpy as np
import pytest
from scipy.constants import mu_0
from scipy.integrate import quad
from scipy.optimize import brentq

from lesson_07_pages import HEIGHT
from lessons_lib.lessons.lesson_07.model import PLACES, pickup
from lessons_lib.physics.six_strings import workshop_row
from lessons_lib.physics.steel import STRING_PLACES, STRING_WEIGHTS, SteelString
from steel_memory import RayleighSteel, reversible_slope, small_swing

STEEL = RayleighSteel(initial_permeability=100.0, constant=0.15)
THIRD = workshop_row()[3]


def swing(**more):
    return small_swing(pickup("rods"), SteelString(diameter=0.43e-3, **more), height=HEIGHT, y=THIRD.y)


# ---- Rayleigh's loops ------------------------------------------------------------------------------------------------

@pytest.mark.parametrize("amplitude", [1.0, 520.0])
def test_loss_is_the_area_of_the_loop(amplitude):
    """Added up numerically, the way up and the way down: the integral of H dB once round."""
    area, _ = quad(lambda H: np.subtract(*STEEL.branches(H, amplitude=amplitude)[::-1]), -amplitude, amplitude)
    assert STEEL.loss(amplitude) == pytest.approx(area, rel=1e-9)
    assert STEEL.loss(2 * amplitude) == pytest.approx(8 * STEEL.loss(amplitude))


def test_branches_meet_at_the_tips_on_the_curve_of_first_magnetisation():
    rising, falling = STEEL.branches([-520.0, 520.0], amplitude=520.0)
    assert rising == pytest.approx(falling)
    assert rising[1] == pytest.approx(mu_0 * (100 * 520 + 0.15 * 520 ** 2))      # mu_i H + nu H^2: Rayleigh
    assert STEEL.branches(0.0, amplitude=520.0)[1] == pytest.approx(STEEL.remanence(520.0))


def test_without_the_constant_there_is_no_memory():
    straight = RayleighSteel(initial_permeability=100.0, constant=0.0)
    rising, falling = straight.branches(np.linspace(-500, 500, 5), amplitude=500.0)
    assert (rising == falling).all() and straight.loss(500.0) == straight.remanence(500.0) == 0


@pytest.mark.parametrize("call, words", [
    (lambda: RayleighSteel(initial_permeability=0.5, constant=0.1), "initial_permeability must be"),
    (lambda: RayleighSteel(initial_permeability=100.0, constant=-1.0), "constant must be"),
    (lambda: STEEL.branches(600.0, amplitude=520.0), "field_strength must be within the amplitude; got 600"),
    (lambda: reversible_slope([0.5, 1.0]), "share must be between -1 and 1; got 1"),
    (lambda: swing(wrap_diameter=0.6e-3, wrap_permeability=8.0), "wrap_permeability must be 1")])
def test_bad_input(call, words):
    with pytest.raises(ValueError, match=words):
        call()


# ---- the reversible slope --------------------------------------------------------------------------------------------

def test_gans_curve_at_tabulated_points():
    """x is found by bisection and the slope by differences of coth x - 1/x: nothing is shared with the module."""
    def langevin(x):
        return 1 / math.tanh(x) - 1 / x
    for share in (0.1, 0.5, 0.79, 0.95, 0.999):
        x = brentq(lambda x: langevin(x) - share, 1e-3, 1e5, xtol=1e-10)
        step = 1e-4 * x
        expected = 3 * (langevin(x + step) - langevin(x - step)) / (2 * step)
        assert reversible_slope(share) == pytest.approx(expected, rel=2e-4)
        assert reversible_slope(-share) == reversible_slope(share)


def test_gans_curve_at_both_ends():
    """1 - 9/5 m^2 for small m (the series of coth x - 1/x), 3 (1 - m)^2 near saturation."""
    assert reversible_slope(0.0) == pytest.approx(1)
    assert reversible_slope(0.05) == pytest.approx(1 - 1.8 * 0.05 ** 2, rel=1e-4)
    assert reversible_slope(1 - 1e-4) == pytest.approx(3e-8, rel=1e-6)


# ---- a small swing ---------------------------------------------------------------------------------------------------

@pytest.mark.parametrize("number", range(6))
def test_by_the_curve_it_is_the_sensitivity(number):
    """The step either way is the same, so what is left is the field's mean round the surface: radius squared."""
    one = workshop_row()[number]
    found = small_swing(pickup("rods"), one.steel, height=HEIGHT, y=one.y)
    assert found.by_curve == pytest.approx(pickup("rods").sensitivity(one.steel, height=HEIGHT, y=one.y), rel=1e-3)
    assert found.carried < found.reversible < found.by_curve


def test_a_straight_law_has_no_memory():
    """No saturation: the reversible slope is the curve's. The field of one ampere has nearly the rod's shape, so half
    of the sensitivity is carried (reciprocity: what moves may be the field or the magnetisation)."""
    found = swing(saturation=1e4)
    assert found.reversible == pytest.approx(found.by_curve, rel=1e-6)
    assert found.carried / found.by_curve == pytest.approx(0.5, abs=0.08)


def test_deep_in_saturation_all_is_carried():
    """The more easily the steel saturates, the less of it is left to change; in the end only far from the pole."""
    shares = [found.carried / found.by_curve for found in
              (swing(saturation=one, relative_permeability=1000.0) for one in (1.0, 0.1, 0.01))]
    assert shares == sorted(shares) and shares[-1] > 0.98


def test_the_change_solved_anew():
    """Along the string: dM = slope (dH + field of the changed charges), straight lines from node to node; the changed
    M across the string is taken from the module's law, as it has next to no field of its own along it."""
    found, steel, rods = swing(), SteelString(diameter=0.43e-3), pickup("rods")

    def line(z):
        return np.stack(np.broadcast_arrays(STRING_PLACES, PLACES[3], z), axis=-1)
    step = 1e-5
    still, low, high = (steel.magnetise(rods.flux_density(line(HEIGHT + up)) / mu_0) for up in (0.0, -step, step))
    H = np.linalg.norm(still.field_strength, axis=-1)
    knee = 1.9 / (mu_0 * 99)
    slope = 99 / (1 + (H / knee) ** 2) ** 1.5
    saturation = (H / knee) / np.sqrt(1 + (H / knee) ** 2)
    ends = (STRING_PLACES[:-1] + STRING_PLACES[1:]) / 2         # charge: where M changes, a disc's field on the axis
    def own(M):
        apart = STRING_PLACES[:, None] - ends
        disc = apart / (2 * np.hypot(apart, steel.magnetic_radius) ** 3)
        return -(disc * steel.magnetic_radius ** 2 / 2) @ np.diff(M)
    matrix = np.column_stack([own(column) for column in np.eye(len(H))])
    applied = (low.applied - high.applied)[:, 0] / (2 * step)
    heard = []
    for one in (slope, 99 * reversible_slope(saturation)):
        change = np.linalg.solve(np.eye(len(H)) - one[:, None] * matrix, one * applied)
        heard.append(steel.area * np.sum(STRING_WEIGHTS * change * rods.field_per_ampere(line(HEIGHT))[:, 0]))
    lost = (heard[0] - heard[1]) / found.by_curve
    assert (found.by_curve - found.reversible) / found.by_curve == pytest.approx(lost, abs=0.02)
