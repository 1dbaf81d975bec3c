"""Lesson 02: every number of its prose computed again, and its predictions checked against what the panels show."""
import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.constants import mu_0, pi

from lessons_lib.base.materials import MagnetGrade, Value, magnet_grade
from lessons_lib.base.workshop import house_magnet
from lessons_lib.exercises.self_study import load_lessons
from lessons_lib.lessons.lesson_02.coil import magnet_and_coil
from lessons_lib.lessons.lesson_02.model import circuit_and_field, load_line_point, pot_circuit, pot_flux
from lessons_lib.physics.air_paths import free_rod_reluctance
from lessons_lib.physics.magnetic_circuit import MagneticCircuit, air_reluctance, demagnetising_curve, working_point
from lessons_lib.physics.magnets import RodMagnet
from notebooks import ANSWERS, assert_printed, prose

PROSE = prose("02")
HOUSE = RodMagnet(**house_magnet)
EXERCISES = {one.id: one for lesson in load_lessons(ANSWERS) if lesson.id == "02" for one in lesson.exercises}
AREA = pi * HOUSE.diameter ** 2 / 4


def grade(remanence, coercivity, product):
    """An alnico of the worked example."""
    values = {"remanence": remanence, "coercivity": coercivity, "energy_product": product, "recoil_permeability": 3.6}
    return MagnetGrade(name="example", **{name: Value(value, "", "invented") for name, value in values.items()})


def air(factor):
    """Reluctance of the house rod's air for one of the two averages."""
    return air_reluctance(length=HOUSE.length, area=AREA, demagnetising_factor=factor)


EXAMPLE = grade(1.20, 50e3, 40e3)
FULLNESS = 40e3 / (1.20 * 50e3)

# what the page prints: the number computed here, the words in which it stands there
NUMBERS = [
    (0.010 / (mu_0 * 2.0 * pi * 3e-3 ** 2) / 1e6, "**141 MA/Wb**"),
    (2400 / 150e6 * 1e6, "find 16 µWb"),
    (FULLNESS, "= 0.667$ and"),
    ((2 * math.sqrt(FULLNESS) - 1) / FULLNESS, "= 0.9495$."),
    (mu_0 * 5 * 48e3, "= 0.302$ T"),
    (float(demagnetising_curve(EXAMPLE, -48e3)), "= 0.542$ T"),
    (mu_0 * 5 * 49e3, "line 0.308 T"),
    (float(demagnetising_curve(EXAMPLE, -49e3)), "= 0.345$ T"),
    (working_point(EXAMPLE, permeance_coefficient=5)[0], "about 0.31 T"),
    ((1 / HOUSE.magnetometric_factor() - 1), "$P$ = 7.76"),
    (air(HOUSE.magnetometric_factor()) / 1e6, "88.8 MA/Wb"),
    (HOUSE.length / (mu_0 * AREA * air(HOUSE.magnetometric_factor())), "$P$ = 7.76"),
    (HOUSE.midplane_flux() * 1e6, "12.4 µWb"),
    (air(HOUSE.fluxmetric_factor()) / 1e6, "the middle had 27.6 MA/Wb"),
    (HOUSE.length / (mu_0 * AREA * air(HOUSE.fluxmetric_factor())), "MA/Wb and 25."),
    (1.20 * 0.0050 / (mu_0 * 1.05), "= 4547 A"),
    (round(1.20 * 0.0050 / (mu_0 * 1.05) / 0.50, -2), "**9100 turns**"),
    (working_point(magnet_grade("alnico 5"), permeance_coefficient=7.76)[0], "says 0.48 T"),
]


@pytest.mark.parametrize("value, words", NUMBERS, ids=[words for _, words in NUMBERS])
def test_numbers_of_the_prose(value, words):
    assert_printed(value, words, PROSE)


def test_what_the_coil_beside_the_magnet_means():
    """Section 1: H in both, their difference, and the heat of the coil at 2000 turns and 1.41 A."""
    both = magnet_and_coil(length=HOUSE.length, remanence=HOUSE.remanence,
                           recoil_permeability=HOUSE.recoil_permeability, turns=2000, current=1.41)
    assert both.share == pytest.approx(1, abs=1e-3)
    assert_printed(both.magnet_h / 1e3, "−26.3 kA/m in the magnet", PROSE)
    assert_printed(both.coil_h / 1e3, "139.5 kA/m in the core", PROSE)
    assert_printed(both.magnet.mmf / HOUSE.length / 1e3, "= 165.8 kA/m", PROSE)
    assert float(f"{both.heat:.1g}") == 300 and "turns 300 W into heat at 2820 A" in PROSE
    assert both.magnet.circuit_flux / both.magnet.field_flux == pytest.approx(1.04, abs=0.005)
    assert both.circuit_flux / both.field_flux == pytest.approx(1.04, abs=0.005)


def test_the_coil_is_too_hot_to_touch_within_a_second():
    """Copper and core warmed together; densities and heats (kg/m3, J/(kg K)) of copper and steel, from memory."""
    copper = 0.5 * pi * 6e-3 * 1e-3 * HOUSE.length * 8900 * 390
    core = AREA * HOUSE.length * 7800 * 460
    assert 300 / (copper + core) > 60       # kelvin in the first second, and the wire alone rises faster
    assert "too hot to touch within a second" in PROSE


def test_mmf_of_the_worked_example_is_close_to_2000_ampere():
    assert 0.50 * 0.010 / (mu_0 * 2.0) == pytest.approx(2000, rel=0.01) and "close to 2000 A" in PROSE


def test_the_two_averages_of_the_air_differ_three_times():
    assert air(HOUSE.magnetometric_factor()) / air(HOUSE.fluxmetric_factor()) == pytest.approx(3, abs=0.3)
    assert "about three times as much" in PROSE


def test_the_magnets_own_reluctance_is_several_times_that_of_the_air():
    """Prediction p1, and the 4 % between circuit and field."""
    house = circuit_and_field(**house_magnet)
    assert 4 < house.own_reluctance / house.air_reluctance < 10
    assert house.circuit_flux / house.field_flux - 1 == pytest.approx(0.04, abs=0.005)
    even = circuit_and_field(**house_magnet | {"recoil_permeability": 1.0})
    assert even.circuit_flux == pytest.approx(even.field_flux, rel=1e-9)    # "would agree exactly"


def test_h_in_the_middle_by_the_circuit_and_by_the_field():
    """Section 2: -Phi R_air/l is H in the middle cross-section; the mean along the axis is another number."""
    house, line = circuit_and_field(**house_magnet), mu_0 * HOUSE.recoil_permeability
    by_circuit = -house.circuit_flux * house.air_reluctance / HOUSE.length
    assert by_circuit == pytest.approx((house.circuit_flux / AREA - HOUSE.remanence) / line)     # no loop needed
    by_field = (HOUSE.midplane_flux() / AREA - HOUSE.remanence) / line
    assert_printed(by_circuit / 1e3, "−20.9 kA/m", PROSE)
    assert_printed(by_field / 1e3, "−26.3 kA/m", PROSE)
    even = circuit_and_field(**house_magnet | {"recoil_permeability": 1.0})     # there the two are one
    assert -even.circuit_flux * even.air_reluctance / HOUSE.length == pytest.approx(
        (even.field_flux / AREA - HOUSE.remanence) / mu_0)


def test_h_along_the_axis():
    """The mean by 200 Gauss points; outside, from face to face, H adds up to the opposite (Ampère's law).

    The loop runs along the axis to 1 m; what a dipole adds beyond is less than a thousandth.
    """
    def on_axis(z):
        return HOUSE.field_strength(np.stack([0 * z, 0 * z, z], axis=-1))[:, 2]

    nodes, weights = np.polynomial.legendre.leggauss(200)
    mean = weights @ on_axis((nodes - 1) / 2 * HOUSE.length) / 2
    assert_printed(mean / 1e3, "−49.9 kA/m", PROSE)
    assert_printed(float(on_axis(np.array([-1e-5]))[0]) / 1e3, "−125 kA/m", PROSE)
    logarithm = np.log(1e-7) + (nodes + 1) / 2 * np.log(1e7)
    outside = 2 * (weights @ (on_axis(np.exp(logarithm)) * np.exp(logarithm))) * np.log(1e7) / 2
    assert outside == pytest.approx(-mean * HOUSE.length, rel=2e-3)


def test_one_line_is_good_within_8_per_cent_above_the_face():
    """Section 3; the full solution's figures are computed again in test_recoil_magnets."""
    on_curve, heights = [121, 84, 57, 28], [1e-3, 2e-3, 3e-3, 5e-3]     # mT
    on_line = [HOUSE.flux_density([0, 0, height])[2] * 1e3 for height in heights]
    assert max(abs(line / curve - 1) for line, curve in zip(on_line, on_curve)) < 0.08
    for values in (on_curve, on_line):
        assert " | ".join(f"{value:.0f}" for value in values) in PROSE
    # nearer and further away: test_recoil_magnets
    assert "From 1 to 5 mm above the face the line of 0.75 T is good to within 8 %" in PROSE


def test_half_the_coefficient_gives_about_half_the_flux_density():
    """Prediction p2; and H hardly moves below the knee."""
    alnico = magnet_grade("alnico 5")
    curve = {name: float(getattr(alnico, name)) for name in ("remanence", "coercivity", "energy_product")}
    long, short = (load_line_point(permeance_coefficient=coefficient, **curve) for coefficient in (8, 4))
    assert short.b / long.b == pytest.approx(0.5, abs=0.05)
    assert short.h == pytest.approx(long.h, rel=0.05)


def test_a_gap_twice_as_wide_takes_much_less_than_half_of_its_flux():
    """Prediction p3, and what the page says of the leaking part."""
    magnet = {name: house_magnet[name] for name in ("remanence", "recoil_permeability")}
    near, far = (pot_flux(gap=gap, pot_width=20e-3, **magnet) for gap in (1e-3, 2e-3))
    assert 0.67 < far.through_gap / near.through_gap < 0.95
    assert far.rod == pytest.approx(near.rod, rel=0.05)
    assert near.past_gap / near.rod == pytest.approx(0.5, abs=0.1)
    assert_printed(far.gap_reluctance / near.gap_reluctance, "mm has 1.7 times the reluctance of one of", PROSE)


def test_the_magnet_and_the_edge_of_the_gap_hold_the_flux_back_and_the_leaks_do_not():
    """Each cause is taken away in turn: the gap's flux at 2 mm over that at 1 mm, and at 0.3 mm over that at 6 mm."""
    def through(gap, *, leaks=True, own=1.0, edge=True):
        magnet = {name: house_magnet[name] for name in ("remanence", "recoil_permeability")}
        branches = pot_circuit(gap=gap, pot_width=20e-3, **magnet).branches
        straight = gap / (mu_0 * pi * house_magnet["diameter"] ** 2 / 4)
        return MagneticCircuit([replace(one, reluctance=one.reluctance * own if one.name.startswith("rod") else
                                        straight if one.name == "gap" and not edge else one.reluctance)
                                for one in branches if leaks or not one.name.startswith("leak")]).solve().flux["gap"]

    def doubled(**causes):
        return 1 - through(2e-3, **causes) / through(1e-3, **causes)

    def closed(**causes):
        return through(0.3e-3, **causes) / through(6e-3, **causes)

    assert doubled(leaks=False) < doubled() < min(doubled(own=1e-6), doubled(edge=False))
    assert closed(leaks=False) < 1.5 and closed() == pytest.approx(2.2, abs=0.1)
    assert min(closed(edge=False), closed(own=1e-6)) > 4
    for words in ("through the gap about doubled", "flux also goes round its edge. So", "magnet stays the same. So"):
        assert words in PROSE


def test_a_rod_of_twice_the_length():
    """Section 4: 13 % more flux from 17 to 34 mm, 7 % with the air unchanged."""
    longer = RodMagnet(**house_magnet | {"length": 34e-3})
    assert longer.midplane_flux() / HOUSE.midplane_flux() == pytest.approx(1.13, abs=0.005)
    house = circuit_and_field(**house_magnet)
    own, air = house.own_reluctance, house.air_reluctance
    assert 2 * (own + air) / (2 * own + air) == pytest.approx(1.07, abs=0.005)
    assert "grows by 13 %" in PROSE and "(7 %)" in PROSE
    one, two = (circuit_and_field(**house_magnet | {"length": length}) for length in (17e-3, 34e-3))
    assert two.circuit_flux / one.circuit_flux == pytest.approx(1.10, abs=0.005) and "circuit says 10 %" in PROSE
    assert [round(100 * (rod.circuit_flux / rod.field_flux - 1)) for rod in (one, two)] == [4, 1]
    assert "4 % too high for one rod, and only 1 % for two" in PROSE
    one, two = (free_rod_reluctance(diameter=HOUSE.diameter, length=length) for length in (17e-3, 34e-3))
    assert two < 0.8 * one and "twice as much side to leave through" in PROSE     # by the surface alone


def test_the_straight_line_promises_too_much_change():
    """The slope of B_r to H_c against the recoil slope: change of B for a change of the permeance coefficient P.

    B = mu0 P H on a line of slope s: dB/dP = mu0 H s/(s + mu0 P). At P of the volume and of the mid-plane, section 3.
    """
    alnico = magnet_grade("alnico 5")

    def sensitivity(remanence, slope, coefficient):
        total = slope + mu_0 * coefficient
        return mu_0 * remanence * slope / total ** 2

    def too_much(factor):
        coefficient = 1 / factor - 1
        return (sensitivity(alnico.remanence, alnico.remanence / alnico.coercivity, coefficient)
                / sensitivity(house_magnet["remanence"], mu_0 * 3.6, coefficient))

    assert too_much(HOUSE.magnetometric_factor()) == pytest.approx(1.5, abs=0.15)
    assert 3.5 < too_much(HOUSE.fluxmetric_factor()) < 4
    assert "from one and a half times to nearly four times" in PROSE


def test_the_flux_and_h_as_formulas():
    """Exercises 2.11 and 2.12 with the house magnet: the panel's circuit, and H as section 2 has it."""
    house = circuit_and_field(**house_magnet)
    flux = EXERCISES["2.11"].answer(HOUSE.remanence, HOUSE.length, AREA, HOUSE.recoil_permeability, mu_0,
                                    house.air_reluctance)
    assert flux == pytest.approx(house.circuit_flux)
    mmf = HOUSE.remanence * HOUSE.length / (mu_0 * HOUSE.recoil_permeability)
    assert EXERCISES["2.12"].answer(mmf, house.own_reluctance, house.air_reluctance, HOUSE.length) == pytest.approx(
        (flux / AREA - HOUSE.remanence) / (mu_0 * HOUSE.recoil_permeability))      # by the recoil line alone
    no_air = EXERCISES["2.11"].answer(HOUSE.remanence, HOUSE.length, AREA, HOUSE.recoil_permeability, mu_0, 0.0)
    assert no_air == pytest.approx(HOUSE.remanence * AREA)      # the teaching note's limit


def test_four_circuits_in_order():
    """Exercise 2.13, by conductances that are solved as a loop of sources and resistances, air 1 and rod 6."""
    flux = {"a": in_loop(1, 6, 1), "b": in_loop(2, 12, 1), "c": in_loop(1, 3, 1), "d": in_loop(1, 6, 0.5)}
    assert flux["c"] > flux["b"] > flux["a"] and flux["b"] == pytest.approx(flux["d"], rel=1e-12)
    assert EXERCISES["2.13"].right == "c > b = d > a" and "The reluctance of one rod is six times" in PROSE
    for letter, words in (("a", "= 0.143,"), ("b", "= 0.154,"), ("c", "= 0.250,"), ("d", "= 0.154,")):
        assert_printed(flux[letter], words, EXERCISES["2.13"].worked)


def in_loop(mmf, magnet, air):
    """Flux of a loop by its node: what the magnet sends into the node, the air takes away."""
    potential = (mmf / magnet) / (1 / magnet + 1 / air)
    return potential / air


def test_the_relay():
    """Section 6: gap, flux and pull, open and closed; the pull also from the energy's change with the gap."""
    area, iron, mmf = 50e-6, 1.5e6, 1000 * 0.10
    gap = {name: wide / (mu_0 * area) for name, wide in (("open", 1.0e-3), ("closed", 0.10e-3))}
    flux = {name: mmf / (iron + one) for name, one in gap.items()}
    pull = {name: one ** 2 / (2 * mu_0 * area) for name, one in flux.items()}
    step = 1e-9
    energy = [mmf ** 2 / 2 / (iron + wide / (mu_0 * area)) for wide in (1.0e-3 - step, 1.0e-3 + step)]
    assert pull["open"] == pytest.approx((energy[0] - energy[1]) / (2 * step), rel=1e-6)
    for value, words in ((gap["open"] / 1e6, "= 15.9 MA/Wb. The"), ((iron + gap["open"]) / 1e6, "100/(17.4"),
                         (flux["open"] * 1e6, "= 5.74 µWb, and the"), (pull["open"], "pull 0.26 N"),
                         (gap["closed"] / 1e6, "has 1.59 MA/Wb"), (flux["closed"] * 1e6, "= 32.3 µWb, and the"),
                         (pull["closed"], "pull 8.3 N")):
        assert_printed(value, words.removeprefix("100/("), PROSE)
        assert words in PROSE
    assert_printed((iron + gap["closed"]) / 1e6, "3.09", PROSE)
    assert EXERCISES["2.14"].answer(iron, area, 1.0e-3, 0.10e-3) == pytest.approx(pull["closed"] / pull["open"])
    hold = EXERCISES["2.15"].answer(0.10, iron, gap["open"], gap["closed"])
    assert 1000 * hold / (iron + gap["closed"]) == pytest.approx(flux["open"])      # the same flux, the same pull
    assert_printed(hold / 0.10 * 100, "that is 18 % of", EXERCISES["2.15"].teaching_note)


def test_lesson_1_says_what_is_asked_from_memory():
    assert EXERCISES["m3"].sentence in prose("01").replace("*", "")
