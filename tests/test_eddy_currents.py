"""Eddy currents in rods and screws: a closed form, finite elements with conductivity, limits where they vanish."""
import math
from dataclasses import replace

import numpy as np
import pytest
from numpy.testing import assert_allclose
from scipy.constants import mu_0, pi
from scipy.integrate import solve_ivp
from scipy.interpolate import CubicSpline

from lessons_lib.base.workshop import house_bar, house_coil, house_screw
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.physics import surface_currents
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.eddy_currents import (
    MetalInField,
    as_loops,
    flux_density_across,
    metal_of,
    permeability_with_eddy_currents,
    skin_depth,
)
from lessons_lib.physics.magnets import BarMagnet, RodMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.steel import SteelPole
from lessons_lib.physics.winding import LongCoil, RoundCoil
from reference_fem import Region, alternating_linkage

COIL = {name: house_coil[name] for name in ("inner_radius", "outer_radius", "bottom", "top", "turns")}
ROD = {"diameter": 5e-3, "length": 17e-3}
ALNICO = RodMagnet(**ROD, remanence=0.7, recoil_permeability=3.6, resistivity=0.47e-6)
STEEL = SteelPole(**ROD, relative_permeability=500.0, resistivity=0.15e-6)
FREQUENCIES = (1.0, 1e3, 4e3, 10e3)


def pickup(pole, **more):
    return Pickup(poles=pole, coils=RoundCoil(**COIL), **more)


# ---- the permeability ------------------------------------------------------------------------------------------------

def test_skin_depth_of_copper_at_the_mains():
    """8.5 mm at 60 Hz: any handbook of electrical engineering (from memory)."""
    assert skin_depth(resistivity=1.68e-8, relative_permeability=1.0, frequency=60.0) == pytest.approx(8.5e-3, rel=0.02)


@pytest.mark.parametrize("frequency", [3.0, 300.0, 30e3, 3e6])
def test_permeability_of_a_cylinder_by_its_equation(frequency):
    """The mean of H over the section of H'' + H'/rho + k^2 H = 0, H = 1 at the surface, added up as a power series."""
    mu, rho, radius = 80.0, 0.2e-6, 2.5e-3
    k2 = -1j * 2 * pi * frequency * mu_0 * mu / rho
    if abs(k2) * radius ** 2 > 900:      # thick against the skin depth: the series loses its figures; the plane's law
        expected = mu * 2 / (1j * np.sqrt(k2) * radius) * (1 + 1 / (2j * np.sqrt(k2) * radius))
        expected = expected if expected.real > 0 else -expected
        shown = permeability_with_eddy_currents(relative_permeability=mu, resistivity=rho, diameter=2 * radius,
                                                frequency=frequency)
        assert abs(shown) == pytest.approx(abs(expected), rel=0.05)
        return
    term, at_surface, mean = 1 + 0j, 0j, 0j
    for n in range(1, 200):
        at_surface += term
        mean += term / n
        term *= -k2 * radius ** 2 / (4 * n ** 2)
    expected = mu * mean / at_surface
    assert permeability_with_eddy_currents(relative_permeability=mu, resistivity=rho, diameter=2 * radius,
                                           frequency=frequency) == pytest.approx(expected, rel=1e-8)


def test_limits_of_the_permeability():
    """No frequency, no conductivity: the material's own; far up: two skin depths over the radius, 45 degrees late."""
    own = {"relative_permeability": 500.0, "diameter": 5e-3}
    assert permeability_with_eddy_currents(**own, resistivity=math.inf, frequency=1e4) == 500
    assert permeability_with_eddy_currents(**own, resistivity=1e-7, frequency=0.0) == 500
    shown = permeability_with_eddy_currents(**own, resistivity=0.15e-6, frequency=1e8)
    depth = skin_depth(resistivity=0.15e-6, relative_permeability=500.0, frequency=1e8)
    assert abs(shown) == pytest.approx(500 * math.sqrt(2) * depth / 2.5e-3, rel=0.01)
    assert math.degrees(np.angle(shown)) == pytest.approx(-45, abs=0.5)


@pytest.mark.parametrize("frequency", [30.0, 1e3, 20e3])
def test_flux_density_across_a_rod_by_its_equation(frequency):
    """B'' + B'/r = (2j/depth^2) B from the axis outwards, by scipy's solve_ivp; its mean is the permeability shown."""
    steel = {"relative_permeability": 200.0, "resistivity": 0.2e-6, "diameter": 4e-3}
    depth = skin_depth(resistivity=0.2e-6, relative_permeability=200.0, frequency=frequency)
    radius = np.linspace(0.0, 2e-3, 401)
    start = 1e-9
    solved = solve_ivp(lambda r, b: [b[1], 2j / depth ** 2 * b[0] - b[1] / r], (start, 2e-3), [1 + 0j, 0j],
                       t_eval=radius[1:], rtol=1e-9, atol=1e-14).y[0]
    expected = np.append(1.0, solved) / solved[-1]
    across = flux_density_across(radius, **steel, frequency=frequency)
    assert_allclose(across, expected, atol=1e-6)
    mean = CubicSpline(radius, across * 2 * radius / 2e-3 ** 2).integrate(0.0, 2e-3)
    shown = permeability_with_eddy_currents(**steel, frequency=frequency)
    assert mean == pytest.approx(shown / 200.0, rel=1e-3)


def test_limits_of_the_flux_density_across_a_rod():
    """Even without current or frequency; in thick metal 1/e one skin depth below the surface, and a radian late."""
    rod, radius = {"relative_permeability": 500.0, "diameter": 5e-3}, np.linspace(0.0, 2.5e-3, 5)
    assert_allclose(flux_density_across(radius, **rod, resistivity=math.inf, frequency=1e4), 1.0)
    assert_allclose(flux_density_across(radius, **rod, resistivity=1e-7, frequency=0.0), 1.0)
    depth = skin_depth(resistivity=1e-7, relative_permeability=500.0, frequency=1e6)
    below = flux_density_across(2.5e-3 - depth, **rod, resistivity=1e-7, frequency=1e6)
    assert below == pytest.approx(np.exp(-1 - 1j), rel=0.01)
    assert flux_density_across(0.0, **rod, resistivity=1e-7, frequency=1e9) == 0


# ---- the impedance of a pickup ---------------------------------------------------------------------------------------

# L (H) and added resistance (ohm) at 1 Hz, 1, 4 and 10 kHz of one rod of 5 x 17 mm in the workshop's round coil: finite
# elements with conductivity, computed once by another program than this project's
BY_OTHER_CODE = [(ALNICO, (0.3816, 0.3812, 0.3757, 0.3516), (0, 47.5, 730, 3761)),
                 (STEEL, (1.0989, 1.0131, 0.9191, 0.8253), (0, 530, 3433, 10742))]


@pytest.mark.parametrize("pole, inductance, resistance", BY_OTHER_CODE, ids=("alnico", "steel"))
def test_one_rod_against_finite_elements_of_another_program(pole, inductance, resistance):
    impedance = pickup(pole).impedance(FREQUENCIES)
    assert impedance.imag / (2 * pi * np.array(FREQUENCIES)) == pytest.approx(inductance, rel=0.01)
    assert impedance.real[1:] == pytest.approx(resistance[1:], rel=0.05) and impedance.real[0] < 0.1


@pytest.mark.parametrize("frequency", [1e3, 10e3])
@pytest.mark.parametrize("pole", (ALNICO, STEEL), ids=("alnico", "steel"))
def test_one_rod_against_our_own_finite_elements(pole, frequency):
    """The recipe that computes the table above once more: axially symmetric, skin depth resolved at the rod's skin."""
    permeability = getattr(pole, "recoil_permeability", None) or pole.relative_permeability
    rod = Region(outer=2.5e-3, bottom=-17e-3, top=0.0, relative_permeability=permeability, resistivity=pole.resistivity)
    coil = Region(inner=COIL["inner_radius"], outer=COIL["outer_radius"], bottom=COIL["bottom"], top=COIL["top"],
                  ampere_turns=COIL["turns"])
    linkage = alternating_linkage([rod], coil, frequency)
    impedance = pickup(pole).impedance(frequency)
    assert impedance.imag / (2 * pi * frequency) == pytest.approx(linkage.real, rel=0.01)
    assert impedance.real == pytest.approx(-2 * pi * frequency * linkage.imag, rel=0.05)


def test_without_conductivity_it_is_the_inductance():
    still = pickup(RodMagnet(**ROD, remanence=0.7, recoil_permeability=3.6))
    assert still.impedance(1e3) == pytest.approx(2j * pi * 1e3 * still.inductance())
    barely = pickup(RodMagnet(**ROD, remanence=0.7, recoil_permeability=3.6, resistivity=1e3))
    assert barely.impedance(1e4) == pytest.approx(2j * pi * 1e4 * still.inductance(), rel=1e-6)
    assert pickup(STEEL).impedance(0.0) == 0


def test_what_is_kept_of_a_rod_stays_real_after_frequency_zero():
    """There the permeability is complex without an imaginary part: it equals the float that later fields ask for."""
    rods = [RodMagnet(diameter=4.7e-3, length=15e-3, y=y, remanence=0.7, recoil_permeability=3.3, resistivity=0.5e-6)
            for y in (-5e-3, 5e-3)]
    coil = LongCoil(**{**COIL, "inner_radius": 3.2e-3, "outer_radius": 6.6e-3}, straight_length=12e-3)
    conducting = Pickup(poles=rods, coils=coil)
    conducting.inductance()
    for kept in (surface_currents._alone, surface_currents._feedback):
        kept.cache_clear()      # as when many other rods came between
    assert conducting.impedance(np.array([0.0, 1e3])).dtype == complex
    still = Pickup(poles=[replace(rod, resistivity=math.inf) for rod in rods], coils=coil)
    assert still.field_per_ampere((0.0, 0.0, 2e-3)).dtype == float and isinstance(still.inductance(), float)


def row_of_six(**more):
    screws = [SteelPole(**{**house_screw, "y": y, **more}) for y in np.linspace(-26, 26, 6) * 1e-3]
    coil = LongCoil(**{**COIL, "inner_radius": 3.2e-3, "outer_radius": 6.6e-3}, straight_length=52e-3)
    return Pickup(poles=screws, coils=coil, bars=BarMagnet(**house_bar))


def test_six_screws_over_a_bar_lose_inductance_and_gain_resistance():
    """Towards zero frequency it is the inductance with the bar; then it falls, and never gives energy."""
    six = row_of_six(resistivity=0.15e-6)
    frequencies = np.array([0.5, 100.0, 1e3, 4e3, 10e3])
    impedance = six.impedance(frequencies)
    inductance = impedance.imag / (2 * pi * frequencies)
    assert inductance[0] == pytest.approx(six.inductance(), rel=1e-3)
    assert (np.diff(inductance) < 0).all() and (impedance.real > 0).all() and (np.diff(impedance.real) > 0).all()


@pytest.mark.parametrize("pole", (ALNICO, STEEL), ids=("alnico", "steel"))
def test_loops_stand_for_the_metal(pole):
    """Coils with resistances across them, all positive: within half a per cent from 20 Hz to 20 kHz."""
    fitted, between = np.geomspace(20, 20e3, 25), np.geomspace(25, 19e3, 40)
    metal = as_loops(pickup(pole).impedance(fitted), fitted)
    assert metal.inductance > 0 and all(L > 0 and R > 0 for L, R in metal.loops)
    assert metal.at_low_frequency == pytest.approx(pickup(pole).inductance(), rel=0.005)
    assert np.abs(metal.impedance(between) / pickup(pole).impedance(between) - 1).max() < 0.005


def test_one_loop_is_found_again():
    """An impedance made of one loop at a corner of the grid comes back as that loop."""
    corner = 1e4
    one = MetalInField(0.3, ((0.1, 2 * pi * corner * 0.1),))
    found = as_loops(one.impedance(np.geomspace(20, 20e3, 25)), np.geomspace(20, 20e3, 25))
    assert found.inductance == pytest.approx(0.3, rel=1e-6) and len(found.loops) == 1
    assert found.loops[0] == pytest.approx(one.loops[0], rel=1e-6)


@pytest.mark.parametrize("call, text", [
    (lambda: pickup(STEEL).impedance(-1.0), "frequency must be zero or above; got -1.0"),
    (lambda: SteelPole(**ROD, relative_permeability=9.0, resistivity=0.0), "resistivity must be a finite number above"),
    (lambda: RodMagnet(**ROD, remanence=1.0, resistivity=-1e-7), "resistivity must be a finite number above"),
    (lambda: as_loops([1j], [100.0]), "frequency must be three or more above zero"),
    (lambda: flux_density_across(3e-3, relative_permeability=2.0, resistivity=1e-6, diameter=5e-3, frequency=1e3),
     "distance must be at most half the diameter; got 0.003")])
def test_bad_input_gets_a_sentence(call, text):
    with pytest.raises(ValueError, match=text):
        call()


# ---- in the coil's circuit -------------------------------------------------------------------------------------------

LOAD = {"resistance": 6.5e3, "capacitance": 600e-12, "input_resistance": 250e3}


def loaded(pole):
    """A coil over a pole with its loops, as a circuit."""
    fitted = np.geomspace(20, 20e3, 25)
    metal = as_loops(pickup(pole).impedance(fitted), fitted, most=4)
    return LoadedCoil(**LOAD, inductance=metal.inductance, loops=metal.loops)


def by_the_impedance(pole, frequency):
    """The response from the pickup's impedance itself, as a divider of two impedances."""
    load = 1 / (2j * pi * frequency * LOAD["capacitance"] + 1 / LOAD["input_resistance"])
    return load / (load + LOAD["resistance"] + pickup(pole).impedance(frequency))


@pytest.mark.parametrize("pole", (ALNICO, STEEL), ids=("alnico", "steel"))
def test_response_and_peak_with_loops_are_those_of_the_impedance(pole):
    frequency = np.geomspace(25, 19e3, 2000)
    direct, coil = by_the_impedance(pole, frequency), loaded(pole)
    assert np.abs(coil.response(frequency) / direct - 1).max() < 0.005
    at, level = coil.peak()
    best = np.argmax(np.abs(direct))
    assert at == pytest.approx(frequency[best], rel=0.01)
    assert level == pytest.approx(20 * math.log10(abs(direct[best])), abs=0.05)
    assert (coil.poles().real < 0).all()


def test_metal_takes_height_from_the_peak():
    """Without the loops' resistances the peak is as high as Q says; with them it is some decibel lower."""
    for pole in (ALNICO, STEEL):
        still = LoadedCoil(**LOAD, inductance=pickup(pole).inductance())
        assert 2 < still.peak()[1] - loaded(pole).peak()[1] < 5
        assert loaded(pole).low_frequency_level == pytest.approx(still.low_frequency_level, abs=1e-9)


def test_loops_without_loss_are_inductance_and_without_resistance_nothing():
    plain = LoadedCoil(**LOAD, inductance=3.0)
    one = LoadedCoil(**LOAD, inductance=2.0, loops=((1.0, 1e12),))
    short = LoadedCoil(**LOAD, inductance=3.0, loops=((1.0, 1e-9),))
    for coil in (one, short):
        assert coil.peak() == pytest.approx(plain.peak(), rel=1e-6)
        assert coil.impedance(1e3) == pytest.approx(plain.impedance(1e3), rel=1e-6)


@pytest.mark.parametrize("loops, text", [
    (((1.0, 1.0),) * 5, "loops must be at most 4; got 5"),
    (((0.0, 1.0),), "inductance_of_a_loop must be a finite number above zero; got 0.0"),
    (((1.0, -1.0),), "resistance_of_a_loop must be a finite number above zero; got -1.0")])
def test_bad_loops_get_a_sentence(loops, text):
    with pytest.raises(ValueError, match=text):
        LoadedCoil(**LOAD, inductance=3.0, loops=loops)


def test_metal_of_a_pickup_is_its_impedance_and_grows_with_the_square_of_the_turns():
    coil = house_instrument.loaded(metal_answers=True, capacitance=0.0, input_resistance=math.inf)
    pickup = house_instrument.pickup
    metal = Pickup(poles=[replace(pole, resistivity=0.47e-6) for pole in pickup.poles], coils=pickup.coils)
    frequency = np.geomspace(25.0, 19e3, 9)
    assert_allclose(house_instrument.metal.impedance(frequency), metal.impedance(frequency), rtol=1e-2)
    # none is slower than the slowest corner of the grid: what rings for minutes would be transformed in whole
    assert all(R >= 2 * pi * 100 * L * (1 - 1e-9) for L, R in house_instrument.metal.loops)
    assert_allclose(coil.impedance(frequency) - coil.resistance, metal.impedance(frequency), rtol=1e-2)
    twice = house_instrument.loaded(turns=15200, metal_answers=True, capacitance=0.0)
    assert_allclose(twice.inductance, 4 * coil.inductance, rtol=1e-12)
    assert_allclose(twice.loops, 4 * np.array(coil.loops), rtol=1e-12)


def test_no_loop_of_a_pickup_rings_for_longer_than_a_hundredth_of_a_second():
    corners = [R / (2 * pi * L) for L, R in house_instrument.metal.loops]
    assert corners and min(corners) > 99 and max(corners) < 1.01e6


def test_ferrite_does_not_answer():
    assert metal_of(house_instrument.pickup, resistivity=1e4).impedance(10e3).real < 1e-3
    assert metal_of(house_instrument.pickup, resistivity=math.inf).loops == ()
