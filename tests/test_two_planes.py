"""Two planes of one string: against solvers of the whole equations, closed forms, and limits."""
import math

import numpy as np
import pytest
from numpy.testing import assert_allclose
from scipy.integrate import solve_ivp
from scipy.linalg import expm
from scipy.optimize import brentq

from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.physics.induction import linkage_map
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.two_planes import TwoPlanes, heard_directions, pull_stiffness, spring_shift, turned

SLANTED = {"shift": turned(-3.0, 1.0, 0.2), "decay": turned(1.2, 0.4, 0.7)}
UP, ASLANT = (1.0, 0.0), (math.cos(0.6), math.sin(0.6))
TIME = np.linspace(0.0, 1.5, 31)


def planes(shift=0.0, decay=0.0, **others):
    """With the axes of springs and losses upright: pairs of principal values."""
    return TwoPlanes(frequency=100.0, shift=np.diag(np.broadcast_to(shift, 2)),
                     decay=np.diag(np.broadcast_to(decay, 2)), **others)


def solved(frequency, shift, decay, pull):
    """Displacement at TIME by u'' + 2 D u' + K u = 0, K = omega^2 + 2 omega shift, from rest, by scipy."""
    omega = 2 * math.pi * frequency
    stiffness = omega ** 2 * np.eye(2) + 2 * omega * shift

    def change(_, state):
        return np.concatenate([state[2:], -stiffness @ state[:2] - 2 * decay @ state[2:]])
    return solve_ivp(change, (0, TIME[-1]), [*pull, 0.0, 0.0], method="DOP853", t_eval=TIME, rtol=1e-10,
                     atol=1e-10).y[:2].T


def off(frequency):
    """Largest error of the slow equations against the whole ones, as a share of the pull."""
    slow = TwoPlanes(frequency=frequency, **SLANTED).swing(TIME, pull=ASLANT)
    shown = (slow * np.exp(2j * np.pi * frequency * TIME)[:, None]).real
    return np.abs(shown - solved(frequency, pull=ASLANT, **SLANTED)).max()


def test_slow_equations_against_a_solver_of_the_whole_ones():
    """First order: the error is (shift^2 + decay^2) t/(2 omega), and half as large at twice the frequency."""
    low, high = off(100.0), off(200.0)
    assert low < (3.0 ** 2 + 1.2 ** 2) * 1.5 / (4 * math.pi * 100.0)
    assert high == pytest.approx(low / 2, rel=0.1)


@pytest.mark.parametrize("turn", [0.0, 0.3, math.pi / 4])
def test_closed_form_against_the_matrix_exponential(turn):
    both = TwoPlanes(frequency=100.0, shift=turned(-3.0, 1.0, 0.2), decay=turned(1.2, 0.4, 0.2 + turn))
    expected = [expm((1j * both.shift - both.decay) * t) @ ASLANT for t in TIME]
    assert_allclose(both.swing(TIME, pull=ASLANT), expected, atol=1e-13)
    assert_allclose(sorted(both.rates, key=abs), sorted(np.linalg.eigvals(1j * both.shift - both.decay), key=abs))


def test_what_is_heard_is_the_sum_of_two_notes():
    both = TwoPlanes(frequency=100.0, **SLANTED)
    first, second = both.notes(pull=ASLANT, ear=UP)
    summed = first * np.exp(both.rates[0] * TIME) + second * np.exp(both.rates[1] * TIME)
    assert_allclose(both.heard(TIME, pull=ASLANT, ear=UP), summed, atol=1e-13)
    assert both.decays[0] > both.decays[1] > 0 and sum(both.decays) == pytest.approx(np.trace(both.decay))


@pytest.mark.parametrize("seed", range(8))
def test_energy_never_grows(seed):
    draw = np.random.default_rng(seed)
    both = TwoPlanes(frequency=100.0, shift=turned(*draw.normal(0, 5, 3)), decay=turned(*draw.uniform(0, 3, 3)))
    energy = (np.abs(both.swing(np.linspace(0, 10, 400), pull=draw.normal(size=2))) ** 2).sum(axis=-1)
    assert (np.diff(energy) <= 1e-12).all()


# ------------------------------------------------------------------ limits

def test_without_a_magnet_there_is_one_note():
    silent = planes(shift=0.0, decay=(1.2, 0.4))
    assert silent.beat == 0 and silent.decays == pytest.approx((1.2, 0.4))
    assert_allclose(planes(decay=0.7).swing(TIME, pull=ASLANT), np.outer(np.exp(-0.7 * TIME), ASLANT), atol=1e-14)
    assert_allclose(planes(decay=0.7).notes(pull=ASLANT, ear=UP), [ASLANT[0], 0])


def test_one_plane_alone_is_a_plain_exponential():
    """An upright pluck, or any pluck under a pickup that hears one principal direction only: no beat."""
    both = planes(shift=(-3.0, 1.0), decay=(1.2, 0.4))
    for pull, ear in ((UP, ASLANT), (ASLANT, UP)):
        assert_allclose(np.abs(both.heard(TIME, pull=pull, ear=ear)), ASLANT[0] * np.exp(-1.2 * TIME))
    assert both.beat > 0        # the string has two notes all the same


def test_equal_decays_make_a_pure_beat():
    both = planes(shift=(-3.0, 1.0), decay=0.5)
    heard = np.abs(both.heard(TIME, pull=(1, 1), ear=(1, 1)))
    assert_allclose(heard, 2 * np.exp(-0.5 * TIME) * np.abs(np.cos(2.0 * TIME)), atol=1e-13)
    assert both.beat == pytest.approx(4.0 / (2 * math.pi))


def test_two_stages():
    """Fast first, slow after: 90 % of a note of 6/s and 10 % of one of 0.6/s, with no beat."""
    both, aslant = planes(decay=(6.0, 0.6)), {"pull": (math.sqrt(0.9), math.sqrt(0.1)),
                                             "ear": (math.sqrt(0.9), math.sqrt(0.1))}
    early = np.log(np.abs(both.heard([0.0, 1e-6], **aslant)))
    assert (early[0] - early[1]) / 1e-6 == pytest.approx(0.9 * 6.0 + 0.1 * 0.6, rel=1e-4)
    late = np.log(np.abs(both.heard([3.0, 4.0], **aslant)))
    assert late[0] - late[1] == pytest.approx(0.6, rel=1e-3)
    assert_allclose(both.notes(**aslant), [0.9, 0.1])
    by_root = brentq(lambda t: 0.9 * math.exp(-6 * t) + 0.1 * math.exp(-0.6 * t) - 0.05, 0, 5)
    assert both.time_down_to(0.05, **aslant) == pytest.approx(by_root, rel=1e-3)
    assert both.time_down_to(2.0, **aslant) == 0 and math.isnan(both.time_down_to(0.05, **aslant, longest=1.0))


@pytest.mark.parametrize("apart", [0.5, 0.99, 1.5])
def test_losses_pull_two_notes_together(apart):
    """Two strings on a bridge that only takes energy: rates -d +- sqrt(d^2 - e^2) (Weinreich 1977, from memory)."""
    both = TwoPlanes(frequency=100.0, shift=np.diag([apart, -apart]), decay=np.ones((2, 2)))
    if apart < 1:
        assert both.beat == 0 and both.decays == pytest.approx(
            (1 + math.sqrt(1 - apart ** 2), 1 - math.sqrt(1 - apart ** 2)))
    else:
        assert both.decays == pytest.approx((1, 1)) and both.beat == pytest.approx(math.sqrt(apart ** 2 - 1) / math.pi)


def test_where_the_two_rates_are_one_the_swing_is_known_and_the_notes_are_not():
    one = TwoPlanes(frequency=100.0, shift=np.diag([1.0, -1.0]), decay=np.ones((2, 2)))
    assert np.isnan(one.notes(pull=UP, ear=UP)).all()
    assert_allclose(one.swing(TIME, pull=UP)[:, 0], (1 + 1j * TIME) * np.exp(-TIME), atol=1e-6)    # by hand


@pytest.mark.parametrize("wrong, words", [
    ({"decay": turned(1.0, -0.1, 0.3)}, "decay must be a matrix without principal values below zero; got -0.1"),
    ({"shift": [[0, 1], [2, 0]]}, "shift must be a symmetric 2 x 2 matrix; got"),
    ({"shift": [1.0, 2.0]}, "shift must be a symmetric 2 x 2 matrix; got")])
def test_what_is_no_string_is_refused(wrong, words):
    with pytest.raises(ValueError, match=words):
        TwoPlanes(frequency=100.0, **SLANTED | wrong)


def test_a_pull_is_a_direction():
    with pytest.raises(ValueError, match=r"pull must be two numbers \(up, across\), not both zero; got \[0.0, 0.0\]."):
        TwoPlanes(frequency=100.0, **SLANTED).heard(TIME, pull=(0, 0), ear=UP)


# ------------------------------------------------------------------ the magnet as a spring

@pytest.mark.parametrize("stiffness", [-34.0, -17.0, 5.0])
def test_rayleighs_shift_against_the_strings_own_equation(stiffness):
    """A string with a spring at x: (w/c) sin(w L/c) = -(K/T) sin(w x/c) sin(w (L - x)/c), from two straight waves."""
    tension, length, place, f1 = 79.3, 0.6, 0.15, 87.3
    c = 2 * length * f1

    def equation(w):
        return w / c * math.sin(w * length / c) + stiffness / tension * math.sin(w * place / c) * math.sin(
            w * (length - place) / c)
    exact = brentq(equation, 2 * math.pi * 0.9 * f1, 2 * math.pi * 1.1 * f1, xtol=1e-12) - 2 * math.pi * f1
    shift = spring_shift(stiffness, frequency=f1, tension=tension, length=length, place=place)
    assert shift == pytest.approx(exact, rel=2e-2 * abs(stiffness) / 17)
    weak = spring_shift(stiffness / 1e3, frequency=f1, tension=tension, length=length, place=place)
    assert 1e3 * weak == pytest.approx(shift)


def beat_of(name, height, pickup=house_instrument.pickup):
    stiffness = pull_stiffness(pickup, house_instrument.steel_of(name), height=height, y=house_instrument.y_of(name))
    f1 = house_instrument.strings[name]["frequency"]
    shift = spring_shift(stiffness, frequency=f1, tension=house_instrument.tension(name),
                         length=house_instrument.place["scale_length"], place=house_instrument.place["pickup_place"])
    return TwoPlanes(frequency=f1, shift=shift, decay=np.zeros((2, 2))).beat


@pytest.mark.parametrize("name, height, hertz", [("VI", 2.5e-3, 0.68), ("I", 1.5e-3, 1.9), ("I", 2e-3, 1.4),
                                                 ("I", 2.5e-3, 1.0)])
def test_beats_of_the_workshop(name, height, hertz):
    """Computed by other hands: two digits. A measured splitting of a thin high string over a pickup is "of the order of
    a few Hz" (E. C. Feinberg, abstract in J. Acoust. Soc. Am.): the same order."""
    assert beat_of(name, height) == pytest.approx(hertz, rel=0.03)


def test_the_beat_is_gone_without_the_magnet():
    weak = Pickup(poles=[pole.__class__(**vars(pole) | {"remanence": pole.remanence / 1e3})
                         for pole in house_instrument.pickup.poles], coils=house_instrument.long_coil)
    assert beat_of("VI", 2.5e-3, weak) < 1e-5


@pytest.mark.parametrize("height", [1.5e-3, 2.5e-3, 5e-3])
def test_stiffness_up_is_the_slope_of_the_pull(height):
    """By the co-energy here, by M . dB there; 1 %: the pickup's own accuracy of the slope near a pole."""
    place = {"height": height, "y": house_instrument.y_of("VI")}
    string, pickup = house_instrument.steel_of("VI"), house_instrument.pickup
    assert pull_stiffness(pickup, string, **place)[0, 0] == pytest.approx(-pickup.pull_gradient(string, **place),
                                                                         rel=0.01)


def test_over_a_pole_alone_springs_are_upright_and_the_pickup_is_deaf_across():
    alone = Pickup(poles=house_instrument.rod, coils=house_instrument.small_coil)
    string = house_instrument.steel_of("VI")
    spring = pull_stiffness(alone, string, height=2.5e-3)
    assert spring[0, 0] < 0 < spring[1, 1] and abs(spring[0, 1]) < 1e-6 * spring[1, 1]
    up, across = heard_directions(alone, string, height=2.5e-3)
    assert up == pytest.approx(-alone.sensitivity(string, height=2.5e-3)) and abs(across) < 1e-6 * abs(up)
    beside = pull_stiffness(alone, string, height=2.5e-3, y=1e-3)
    assert beside[0, 1] * pull_stiffness(alone, string, height=2.5e-3, y=-1e-3)[0, 1] < 0 < abs(beside[0, 1]) - 1


def test_directions_heard_are_the_slopes_of_the_linkage():
    string, y = house_instrument.steel_of("VI"), house_instrument.y_of("VI")
    smooth = linkage_map(house_instrument.pickup, string, height=(2e-3, 3e-3), y=(y - 1e-3, y + 1e-3))
    expected = np.array(smooth.gradient(np.array([2.4e-3]), np.array([y + 0.3e-3]))).ravel()
    heard = heard_directions(house_instrument.pickup, string, height=2.4e-3, y=y + 0.3e-3)
    assert_allclose(heard, expected, rtol=1e-3, atol=1e-3 * abs(expected[0]))
