"""Fits give back what was put in, with honest intervals, against other libraries and over drawn noise."""
import dataclasses

import magpylib
import numpy as np
import pytest

from lessons_lib.physics.adjustment import adjust
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.fits import fit_added_capacitance, fit_exciter_response, fit_gauss_readings
from lessons_lib.physics.magnets import RodMagnet
from lessons_lib.physics.recorded_pluck import SensitivityCurve, fit_pluck, fit_string_height

DISTANCE = np.array([0, 0.5, 1, 1.5, 2, 3, 4, 5, 6, 8, 10]) * 1e-3
ADDED = np.array([0, 100, 220, 330, 470, 680, 1000]) * 1e-12
SWEEP = np.geomspace(200, 15e3, 25)
COIL = LoadedCoil(resistance=6e3, inductance=2.9, capacitance=130e-12, input_resistance=4e5)
LOWERED = np.tile([0.0, 2e-3, 4e-3, 6e-3, 8e-3], 2)
HEIGHTS = np.arange(1e-3, 12e-3, 0.25e-3)
CURVE = SensitivityCurve(HEIGHTS, (HEIGHTS + 4e-3) ** -3.0)


FEW = DISTANCE[::2]     # the permeable rod takes longer


def over_rod(recoil_permeability, distance=DISTANCE):
    places = np.zeros((distance.size, 3))
    places[:, 2] = distance + 0.6e-3
    rod = RodMagnet(diameter=5e-3, length=17e-3, remanence=0.72, recoil_permeability=recoil_permeability)
    return rod.flux_density(places)[:, 2]


def two_runs():
    runs = [dataclasses.replace(COIL, capacitance=130e-12 + extra) for extra in (0.0, 470e-12)]
    return np.concatenate([1e-6 * SWEEP * np.abs(coil.response(SWEEP)) for coil in runs])


# name: (clean readings, noise as a share, fit of readings and stated uncertainty, what was put in)
CASES = {
    "uniform rod": (over_rod(1.0), 0.015, lambda B, u: fit_gauss_readings(
        DISTANCE, B, diameter=5e-3, length=17e-3, uncertainty=u), {"remanence": 0.72, "stand_off": 0.6e-3}),
    "permeable rod": (over_rod(3.6, FEW), 0.015, lambda B, u: fit_gauss_readings(
        FEW, B, diameter=5e-3, length=17e-3, recoil_permeability=3.6, uncertainty=u),
        {"remanence": 0.72, "stand_off": 0.6e-3}),
    "added capacitance": (1 / (2 * np.pi * np.sqrt(2.9 * (130e-12 + ADDED))), 0.01, lambda f, u: fit_added_capacitance(
        ADDED, f, uncertainty=u), {"inductance": 2.9, "capacitance": 130e-12}),
    "two runs": (two_runs(), 0.02, lambda v, u: fit_exciter_response(
        np.tile(SWEEP, 2), v, added_capacitance=np.repeat([0.0, 470e-12], 25), resistance=6e3, uncertainty=u),
        {"inductance": 2.9, "capacitance": 130e-12, "load_resistance": 4e5, "q_factor": COIL.q_factor}),
    "height": (7 * CURVE(2.2e-3 + LOWERED), 0.02, lambda a, u: fit_string_height(
        LOWERED, a, curve=CURVE, uncertainty=u), {"height": 2.2e-3, "gain": 7.0}),
}


# both ways of knowing the uncertainty, but once only for the two that take longest
@pytest.mark.parametrize("case, stated", [(case, stated) for case in CASES for stated in (False, True)
                                          if (case, stated) not in (("permeable rod", False), ("two runs", True))])
def test_the_interval_covers_what_was_put_in(case, stated):
    # 95 % of 200 draws: 190, one sigma of the count 3; 90 to 98.5 % is what is promised
    clean, noise, fit, truth = CASES[case]
    rng, inside = np.random.default_rng(8), dict.fromkeys(truth, 0)
    for _ in range(200):
        sigma = noise * np.abs(clean)
        found = fit(clean + sigma * rng.standard_normal(clean.size), sigma if stated else None)
        for name, value in truth.items():
            low, high = found.interval(name)
            inside[name] += low <= value <= high
    assert all(180 <= count <= 197 for count in inside.values()), inside


def test_the_interval_of_a_partial_covers_what_was_put_in():
    rate, truth = 4000, ({"amplitude": 0.5, "decay": 2.0, "frequency": 101.0},
                         {"amplitude": 0.3, "decay": 3.0, "frequency": 202.3})
    time, rng, inside = np.arange(3200) / rate, np.random.default_rng(1), {}
    clean = sum(one["amplitude"] * np.exp(-one["decay"] * time) * np.sin(2 * np.pi * one["frequency"] * time + 1)
                for one in truth)
    for _ in range(200):
        pluck = fit_pluck(clean + 0.02 * rng.standard_normal(time.size), rate, near=100.0, count=2)
        for number, one in enumerate(truth):
            for name, value in one.items():
                low, high = pluck.fits[number].interval(name)
                inside[number, name] = inside.get((number, name), 0) + (low <= value <= high)
    assert all(180 <= count <= 197 for count in inside.values()), inside


def test_a_straight_line_is_as_numpy_fits_it():
    # numpy.polyfit: cov=True scales by the scatter, "unscaled" believes the weights
    x, y = np.arange(8.0), np.array([1.1, 2.9, 5.2, 7.1, 8.8, 11.3, 12.9, 15.0])
    names = {"names": ("slope", "start"), "units": ("", "")}
    for uncertainty, sizes, cov in ((0.2, None, "unscaled"), (None, np.ones(8), True)):
        fit = adjust(lambda p: p[0] * x + p[1], [1.0, 0.0], y, uncertainty=uncertainty, sizes=sizes, **names)
        values, covariance = np.polyfit(x, y, 1, w=np.full(8, 1 / (uncertainty or 1.0)), cov=cov)
        np.testing.assert_allclose(fit.values, values, rtol=1e-7)
        own = np.sqrt(np.diag(covariance))
        np.testing.assert_allclose(fit.uncertainties, own, rtol=1e-6)
        np.testing.assert_allclose(fit.correlation, covariance / np.outer(own, own), rtol=1e-6)


def test_a_rod_computed_elsewhere_is_found():
    rod = magpylib.magnet.Cylinder(dimension=(5e-3, 17e-3), polarization=(0, 0, 0.68), position=(0, 0, -8.5e-3))
    readings = rod.getB([(0, 0, d + 0.8e-3) for d in DISTANCE])[:, 2]
    fit = fit_gauss_readings(DISTANCE, readings, diameter=5e-3, length=17e-3)
    assert fit["remanence"] == pytest.approx(0.68, rel=1e-6)
    assert fit["stand_off"] == pytest.approx(0.8e-3, rel=1e-5)


def test_a_south_pole_gives_a_negative_remanence():
    fit = fit_gauss_readings(DISTANCE, -over_rod(1.0), diameter=5e-3, length=17e-3)
    assert fit["remanence"] == pytest.approx(-0.72)


def test_order_does_not_matter_and_readings_stay_in_theirs():
    clean, _, fit, _ = CASES["added capacitance"]
    noisy = clean * (1 + 0.01 * np.random.default_rng(2).standard_normal(clean.size))
    shuffle = np.random.default_rng(3).permutation(clean.size)
    straight, mixed = fit_added_capacitance(ADDED, noisy), fit_added_capacitance(ADDED[shuffle], noisy[shuffle])
    np.testing.assert_allclose(mixed.values, straight.values, rtol=1e-8)
    np.testing.assert_array_equal(mixed.readings, noisy[shuffle])
    np.testing.assert_allclose(mixed.residuals, straight.residuals[shuffle], atol=1e-6)


def test_two_readings_need_their_uncertainty():
    frequency = [8000.0, 4000.0]
    with pytest.raises(ValueError, match="number of readings must be 3 or more, one more than unknowns, or their "
                                         "uncertainty stated; got 2."):
        fit_added_capacitance([0.0, 470e-12], frequency)
    fit = fit_added_capacitance([0.0, 470e-12], frequency, uncertainty=40.0)
    # L = (1/f2^2 - 1/f1^2)/(4 pi^2 dC)
    assert fit["inductance"] == pytest.approx((4000.0 ** -2 - 8000.0 ** -2) / (4 * np.pi ** 2 * 470e-12))
    assert fit.degrees_of_freedom == 0 and fit.remark.startswith("As many readings as unknowns")


@pytest.mark.parametrize("uncertainty, said", [(0.15, "look like noise"), (0.02, "times as large as stated"),
                                               (2.0, "of what was stated")])
def test_the_remark_compares_residuals_with_what_was_stated(uncertainty, said):
    # residuals of about 0.15 without a pattern
    residuals = 0.15 * np.array([1, -1, 1, 1, -1, -1, 1, -1, 1, -1])
    fit = adjust(lambda p: np.full(10, p[0]), [1.0], 5 + residuals, uncertainty=uncertainty, names=["level"],
                 units=[""])
    assert said in fit.remark
    widened = fit.uncertainty("level") / (uncertainty / np.sqrt(10))
    expected = np.sqrt(fit.reduced_chi_square) if "times as large" in fit.remark else 1.0
    assert widened == pytest.approx(expected, rel=1e-6)


def test_waves_in_the_residuals_are_named():
    wrong = fit_gauss_readings(DISTANCE, over_rod(1.0) + 5e-3, diameter=5e-3, length=17e-3)   # a meter not set to zero
    assert wrong.remark.startswith("The residuals do not look like noise")


def test_a_meter_not_set_to_zero_is_found_when_asked_for():
    readings = over_rod(1.0) + 1e-3
    hidden = fit_gauss_readings(DISTANCE, readings, diameter=5e-3, length=17e-3)
    assert hidden["remanence"] == pytest.approx(0.72 * 1.15, rel=0.02)     # printed to two digits
    fit = fit_gauss_readings(DISTANCE, readings, diameter=5e-3, length=17e-3, meter_zero=True)
    np.testing.assert_allclose(fit.values[:3], (0.72, 0.6e-3, 1e-3), rtol=1e-5)


def test_the_model_of_the_exciter_is_the_loaded_coil():
    fit = CASES["two runs"][2](two_runs(), None)
    assert fit["q_factor"] == pytest.approx(COIL.q_factor) and fit["load_resistance"] == pytest.approx(4e5, rel=1e-6)


def test_two_heights_that_serve_alike_are_refused():
    # log slope that falls and rises again, symmetric about 4 mm: 0 and 2 mm lower from 2.5 mm and from 3.5 mm
    curve = SensitivityCurve(HEIGHTS, np.exp(-3e2 * HEIGHTS + 3e6 * (HEIGHTS - 4e-3) ** 3))
    with pytest.raises(ValueError, match="levels must be such that one height serves best; got .*lower the pickup"):
        fit_string_height([0.0, 2e-3], curve(np.array([2.4e-3, 4.4e-3])), curve=curve, uncertainty=[0.02, 0.01])


REFUSED = {
    "lengths": (lambda: fit_gauss_readings([0, 1e-3], [0.1], diameter=5e-3, length=17e-3), "columns of one length"),
    "negative distance": (lambda: fit_gauss_readings(DISTANCE - 1e-3, over_rod(1.0), diameter=5e-3, length=17e-3),
                          "distance must be zero or above; got -0.001."),
    "zero reading": (lambda: fit_gauss_readings([0, 1e-3, 2e-3], [0.1, 0.05, 0.0], diameter=5e-3, length=17e-3),
                     "other than zero where no uncertainty is stated"),
    "NaN": (lambda: fit_gauss_readings([0, 1e-3, 2e-3], [0.1, np.nan, 0.0], diameter=5e-3, length=17e-3), "finite"),
    "one distance": (lambda: fit_gauss_readings([1e-3] * 4, [0.1, 0.11, 0.1, 0.09], diameter=5e-3, length=17e-3),
                     "so different that the unknowns can be told apart"),
    "uncertainty": (lambda: fit_added_capacitance(ADDED, 5e3 - 1e12 * ADDED, uncertainty=0.0), "uncertainty must be"),
    "one capacitance": (lambda: fit_added_capacitance([1e-10] * 3, [5e3, 5e3, 5e3]), "two different values or more"),
    "rising": (lambda: fit_added_capacitance([0, 1e-10, 2e-10], [4e3, 5e3, 6e3]), "lower with more capacitance"),
    "no own": (lambda: fit_added_capacitance([1e-10, 2e-10, 4e-10], [9e3, 5e3, 2e3]), "self-capacitance"),
    "one run": (lambda: fit_exciter_response(SWEEP, SWEEP, added_capacitance=0 * SWEEP, resistance=6e3), "two diff"),
    "short": (lambda: fit_pluck(np.sin(np.arange(4000) / 10), 8000, near=50.0), "32 periods or longer"),
    "silent": (lambda: fit_pluck(np.zeros(4000), 8000, near=100.0), "not all zero"),
    "too many partials": (lambda: fit_pluck(np.ones(4000), 8000, near=100.0, count=40), "highest partial"),
    "steep": (lambda: fit_string_height([0, 1e-3, 3e-3], [1.0, 0.1, 0.001], curve=CURVE), "serves best"),
    "one place": (lambda: fit_string_height([0, 0.0], [1.0, 0.9], curve=CURVE, uncertainty=0.1), "two different"),
}


@pytest.mark.parametrize("case", REFUSED)
def test_what_cannot_be_fitted_is_refused(case):
    call, sentence = REFUSED[case]
    with pytest.raises(ValueError, match=sentence):
        call()


def test_an_unknown_name_is_told_the_known_ones():
    with pytest.raises(KeyError, match="inductance, capacitance"):
        fit_added_capacitance(ADDED, CASES["added capacitance"][0])["L"]
