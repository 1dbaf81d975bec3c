"""Two coils wired three ways, by nodes; the comb of two places, by partials of a plucked string."""
import math

import numpy as np
import pytest

from lessons_lib.base.workshop import house_load, house_place, house_strings
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_07.pair import pair
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.plucked_string import TunedString
from lessons_lib.physics.two_coils import WIRINGS, TwoCoils, comb, first_null

UNEQUAL = TwoCoils(resistances=(8e3, 5e3), inductances=(2.2, 1.3), mutual=-0.3)
EQUAL = TwoCoils(resistances=(8.7e3, 8.7e3), inductances=(2.17, 2.17), mutual=0.2)
FREQUENCIES = (1.0, 300.0, 5e3)


def by_branches(pair, wiring, frequency, voltages, *, current=0.0):
    """Voltage at the ends by loops and branches, unknowns (v, i1, i2), with a current pushed into the ends."""
    s = 2j * np.pi * frequency
    (R, S), (L, K), M = pair.resistances, pair.inductances, s * pair.mutual
    Z1, Z2, (e1, e2) = R + s * L, S + s * K, voltages
    # each coil's voltage is e + Z i + M (the other's i)
    if wiring == "parallel":        # v is both of them; the currents share the one pushed in
        matrix, right = [[1, -Z1, -M], [1, -M, -Z2], [0, 1, 1]], [e1, e2, current]
    else:                           # v is the first plus or minus the second, whose current turns over with its leads
        turn = 1 if wiring == "series" else -1
        matrix = [[1, -(Z1 + turn * M), -(M + turn * Z2)], [0, 1, 0], [0, 0, 1]]
        right = [e1 + turn * e2, current, turn * current]
    return np.linalg.solve(np.array(matrix, dtype=complex), np.array(right, dtype=complex))[0]


@pytest.mark.parametrize("wiring", WIRINGS)
@pytest.mark.parametrize("frequency", FREQUENCIES)
def test_impedance_and_shares_by_branches(wiring, frequency):
    of_current = by_branches(UNEQUAL, wiring, frequency, (0, 0), current=1.0)
    assert UNEQUAL.impedance(wiring, frequency) == pytest.approx(of_current, rel=1e-12)
    for n, voltages in enumerate(((1, 0), (0, 1))):
        seen = by_branches(UNEQUAL, wiring, frequency, voltages)
        assert UNEQUAL.shares(wiring, frequency)[n] == pytest.approx(seen, rel=1e-12)


@pytest.mark.parametrize("wiring", WIRINGS)
def test_resistance_and_inductance_are_those_of_low_frequencies(wiring):
    low = UNEQUAL.impedance(wiring, 0.01)
    assert (low.real, low.imag / (2 * np.pi * 0.01)) == pytest.approx(
        (UNEQUAL.resistance(wiring), UNEQUAL.inductance(wiring)), rel=1e-6)
    everywhere = EQUAL.impedance(wiring, np.array(FREQUENCIES))
    assert everywhere == pytest.approx(EQUAL.resistance(wiring)
                                       + 2j * np.pi * np.array(FREQUENCIES) * EQUAL.inductance(wiring))


def test_the_house_pair_in_series_is_the_pickup_with_both_coils():
    """`Pickup` with both coils solves twelve rods with both currents at once."""
    both = pair(-1)
    L, K = (Pickup(poles=both.poles, coils=coil).inductance() for coil in both.coils)
    alike, opposed = both.inductance(), Pickup(poles=both.poles, coils=(
        both.coils[0], type(both.coils[1])(**{**vars(both.coils[1]), "winding_sense": -1}))).inductance()
    two = TwoCoils(resistances=(8.7e3, 8.7e3), inductances=(L, K), mutual=(alike - opposed) / 4)
    assert two.inductance("series") == pytest.approx(alike, rel=1e-6)
    assert two.inductance("out of phase") == pytest.approx(opposed, rel=1e-6)
    assert two.mutual < 0       # side by side: one coil's flux comes back down through the other


@pytest.mark.parametrize("wiring", ["series", "parallel"])
def test_the_loaded_pair_by_nodes(wiring):
    """Each coil with its own capacitance across it, cable and amplifier at the ends: 4 unknowns, node by node."""
    load = {"cable_capacitance": 500e-12, "input_resistance": 1e6}
    coil, (R, L, M) = EQUAL.loaded(wiring, capacitance=100e-12, **load), (8.7e3, 2.17, 0.2)
    for frequency in FREQUENCIES:
        s = 2j * np.pi * frequency
        own, outside = s * 100e-12, s * 500e-12 + 1e-6
        # v1, v2 across the coils, i1, i2 through them: v = 1 - (R + s L) i - s M i', i = own v + outside's current
        across = np.array([[1, 0, R + s * L, s * M], [0, 1, s * M, R + s * L]])
        nodes = np.array([[-own - outside, -outside, 1, 0], [-outside, -own - outside, 0, 1]] if wiring == "series"
                         else [[-own - outside, -own, 1, 1], [1, -1, 0, 0]])
        v = np.linalg.solve(np.vstack([across, nodes]), np.array([1, 1, 0, 0], dtype=complex))
        seen = v[0] + v[1] if wiring == "series" else v[0]
        drive = 2 if wiring == "series" else 1
        assert drive * coil.response(frequency) == pytest.approx(seen, rel=1e-9)


def test_far_apart_two_equal_coils_are_two_inductors():
    """No mutual inductance: R, L doubled in series and halved in parallel; in parallel the peak is an octave up, as
    L C is a quarter for one cable."""
    apart = TwoCoils(resistances=(8e3, 8e3), inductances=(2.0, 2.0))
    assert [apart.inductance(one) for one in WIRINGS] == [4.0, 1.0, 4.0]
    assert [apart.resistance(one) for one in WIRINGS] == [16e3, 4e3, 16e3]
    series, parallel = (apart.loaded(one, cable_capacitance=500e-12, input_resistance=math.inf)
                        for one in ("series", "parallel"))
    assert parallel.natural_frequency / series.natural_frequency == pytest.approx(2)


# ---- the comb --------------------------------------------------------------------------------------------------------

def flexible(name):
    row = house_strings[name]
    return TunedString.tuned(frequency=row["frequency"], length=house_place["scale_length"],
                             linear_density=row["linear_density"], decay_up=0.0, decay_across=0.0, decay_growth=0.0)


@pytest.mark.parametrize("shares, name", [((1.0, 1.0), "VI"), ((0.5, 0.5), "I")])
def test_comb_by_the_partials_of_a_plucked_string(shares, name):
    """Partial by partial: a long time of both places and of the middle, by Fourier transform of whole periods."""
    string, apart, middle = flexible(name), 18e-3, house_place["pickup_place"]
    motion = string.pluck(force=1.0, place=house_place["pluck_place"], highest_frequency=15e3)
    base = float(string.frequency(1))
    count = 2 * int(15e3 / base) + 8
    time = np.arange(count) / (count * base)
    spectrum = [np.fft.rfft(motion.velocity(time, place)[0]) for place in (middle - apart / 2, middle + apart / 2,
                                                                           middle)]
    heard = np.abs(shares[0] * spectrum[0] + shares[1] * spectrum[1])
    number = np.arange(1, int(15e3 / base))
    there = np.abs(spectrum[2][number]) > 1e-6 * np.abs(spectrum[2]).max()       # the middle is no node of it
    expected = comb(number * base, apart=apart, wave_speed=string.wave_speed, shares=shares)
    assert heard[number][there] == pytest.approx((expected * np.abs(spectrum[2][number]))[there], rel=1e-6,
                                                 abs=1e-9 * np.abs(spectrum[2]).max())
    assert there.sum() > 20


def test_first_null_is_where_the_comb_is_nothing():
    """c/(2d) at 18 mm: 2.9 kHz on string VI and 11.6 kHz on I, worked out beforehand from 2 f L / (2 d)."""
    for name, expected in (("VI", 2.9e3), ("I", 11.6e3)):
        speed = flexible(name).wave_speed
        null = first_null(apart=18e-3, wave_speed=speed)
        assert null == pytest.approx(expected, rel=0.01)
        assert comb(null, apart=18e-3, wave_speed=speed) == pytest.approx(0, abs=1e-12)
        null = first_null(apart=18e-3, wave_speed=speed, wiring="out of phase")
        assert comb(null, apart=18e-3, wave_speed=speed, shares=(1, -1)) == pytest.approx(0, abs=1e-12)


def test_in_one_place_there_is_no_comb():
    everywhere = comb(np.linspace(0, 20e3, 9), apart=0.0, wave_speed=100.0)
    assert (everywhere == 2).all() and first_null(apart=0.0, wave_speed=100.0) == math.inf


@pytest.mark.parametrize("call, words", [
    (lambda: TwoCoils(resistances=(1.0, 0.0), inductances=(1.0, 1.0)), "second_of_resistances must be"),
    (lambda: TwoCoils(resistances=(1.0,), inductances=(1.0, 1.0)), "resistances must be two numbers"),
    (lambda: TwoCoils(resistances=(1.0, 1.0), inductances=(1.0, 1.0), mutual=1.1), "mutual must be at most"),
    (lambda: EQUAL.resistance("crossed"), "wiring must be one of"),
    (lambda: comb(-1.0, apart=1e-2, wave_speed=100.0), "frequency must be"),
    (lambda: first_null(apart=-1e-2, wave_speed=100.0), "apart must be")])
def test_bad_input(call, words):
    with pytest.raises(ValueError, match=words):
        call()


def test_the_house_load_is_one_that_a_pair_takes():
    coil = EQUAL.loaded("parallel", **house_load)
    assert coil.capacitance == 2 * house_load["capacitance"] and coil.peak()[0] > 0
    assert house_instrument.loaded(**house_load).peak()[0] > EQUAL.loaded("series", **house_load).peak()[0]
