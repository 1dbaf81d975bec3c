"""The functions under the panels of lesson 3 against the pickup and the circuit solver; pull, pitch and two notes."""
import itertools

import numpy as np
import pytest
from numpy.testing import assert_allclose
from scipy.optimize import brentq
from scipy.signal import hilbert

from lesson_03_pole import PICKUP, ROD, STRING, WIRE
from lessons_lib.lessons.lesson_03.circuit import circuit_and_model, circuit_curves, fitted_circuit
from lessons_lib.lessons.lesson_03.model import (
    ALONG,
    DRAWN_HEIGHTS,
    SWING,
    fullness,
    magnetised,
    over_heights,
    straight_and_wire,
    three_fluxes,
)
from lessons_lib.lessons.lesson_03.pull import aslant, detuning, envelope, pull_and_pitch
from lessons_lib.physics.magnetic_circuit import Branch, MagneticCircuit
from lessons_lib.physics.steel import STRING_PLACES

# ------------------------------------------------------------------ three fluxes

@pytest.mark.parametrize("height, place", [(1.5e-3, 0.0), (2.5e-3, 3e-3), (6e-3, 8e-3)])
def test_coil_and_string_are_those_of_the_pickup(height, place):
    flux = three_fluxes(height=height, **STRING | {"place": place})
    assert_allclose(flux.added_in_turn * 7600, PICKUP.flux_linkage(WIRE, height=height, y=place), rtol=1e-9)
    assert_allclose(flux.string, PICKUP.string_flux(WIRE, height=height, y=place), rtol=1e-9)
    assert flux.magnet == ROD.midplane_flux()


@pytest.mark.parametrize("saturates", (0, 1))
def test_every_string_of_the_sliders_settles(saturates):
    for height, place, core, permeability in itertools.product(
            (1.5e-3, 6e-3), (0.0, 8e-3), (0.2e-3, 1e-3), (20.0, 1000.0)):
        flux = three_fluxes(height=height, place=place, core=core, permeability=permeability, saturates=saturates)
        assert 0 < flux.string < 0.2 * flux.magnet
        if saturates:
            assert flux.flux_density < 1.9 + 0.1        # the field beside M: a few hundredths of a tesla


# ------------------------------------------------------------------ the circuit

@pytest.mark.parametrize("fit_height, saturates", [(1.5e-3, 1), (2.5e-3, 1), (4e-3, 0)])
def test_the_fit_gives_both_computed_numbers_where_it_is_made(fit_height, saturates):
    circuit = fitted_circuit(fit_height, 0.46e-3, saturates)
    computed = three_fluxes(height=fit_height, **STRING | {"saturates": saturates})
    assert_allclose(circuit.share(fit_height), computed.share_of_magnet, rtol=1e-9)
    assert_allclose(circuit.string_flux(fit_height) / circuit.flux(), 2 * computed.string / computed.magnet, rtol=1e-9)


def test_the_circuit_by_the_network_solver():
    circuit = fitted_circuit(2.5e-3, 0.46e-3, 1)
    solved = MagneticCircuit([
        Branch(name="magnet", start="bottom", end="pole", mmf=circuit.mmf, reluctance=circuit.magnet),
        Branch(name="near", start="pole", end="beyond", reluctance=circuit.near_air),
        Branch(name="string", start="pole", end="beyond", reluctance=circuit.branch(4e-3)),
        Branch(name="far", start="beyond", end="bottom", reluctance=circuit.far_air)]).solve()
    assert_allclose([solved.flux["magnet"], solved.flux["string"]], [circuit.flux(4e-3), circuit.string_flux(4e-3)],
                    rtol=1e-9)


def test_all_of_the_air_is_that_of_lesson_two():
    circuit = fitted_circuit(2.5e-3, 0.46e-3, 1)
    # the course's figures: magnet 191 MA/Wb, air 27.6 MA/Wb
    assert_allclose([circuit.magnet, circuit.near_air + circuit.far_air], [191e6, 27.6e6], rtol=3e-3)


def test_circuit_curves_run_through_the_marked_points():
    at = {"height": 4e-3, "fit_height": 2.5e-3, "core": 0.46e-3, "saturates": 1}
    data = circuit_curves(circuit_and_model(**at), **at)["shares"]
    for curve, share in zip(("model", "circuit"), data["now"][1]):
        assert np.interp(4e-3, DRAWN_HEIGHTS, data[curve]) == pytest.approx(share, rel=0.01)
    assert np.interp(2.5e-3, DRAWN_HEIGHTS, data["model"]) == pytest.approx(data["fit"][1], rel=0.01)
    both = circuit_and_model(height=4e-3, fit_height=2.5e-3, core=0.46e-3, saturates=1)
    assert both.difference == pytest.approx(data["now"][1][1] / data["now"][1][0] - 1)


# ------------------------------------------------------------------ curves over the height

@pytest.mark.parametrize("height", [1.5e-3, 1.57e-3, 2.5e-3, 5.9e-3])
def test_curves_are_those_of_the_pickup(height):
    curve = over_heights(0.46e-3, 100.0, True)
    assert_allclose(curve.signal(height), PICKUP.sensitivity(WIRE, height=height), rtol=1e-3)
    assert_allclose(curve.pull(height), PICKUP.pull(WIRE, height=height), rtol=1e-3)
    assert_allclose(curve.pull_gradient(height), PICKUP.pull_gradient(WIRE, height=height), rtol=1e-3)
    assert_allclose(curve.flux(height), PICKUP.string_flux(WIRE, height=height), rtol=2e-3)


def test_wire_never_carries_more_than_straight_line_steel():
    for core, permeability in itertools.product((0.24e-3, 0.46e-3), (20.0, 200.0)):
        both = straight_and_wire(height=DRAWN_HEIGHTS, core=core, permeability=permeability)
        assert (both.wire_density <= both.straight_density * (1 + 1e-6)).all()
        assert all((0 < one).all() and (one <= 1 + 1e-6).all() for one in (both.flux_left, both.signal_left))
        assert (both.signal_left <= both.flux_left + 1e-3).all()     # the signal suffers more than the flux
    at_once = straight_and_wire(height=6e-3, core=0.46e-3, permeability=20.0)
    assert at_once.wire_flux == pytest.approx(at_once.straight_flux, rel=0.03)


def test_the_marked_shares_are_on_their_curves():
    at = {"core": 0.25e-3, "permeability": 100.0}
    now, over = straight_and_wire(height=3e-3, **at), straight_and_wire(height=DRAWN_HEIGHTS, **at)
    for name in ("wire_density", "straight_density", "flux_left", "signal_left"):
        assert np.interp(3e-3, DRAWN_HEIGHTS, getattr(over, name)) == pytest.approx(getattr(now, name), rel=2e-3)


def test_how_full_the_wire_is_by_its_flux_density():
    """Where the flux is largest B = J + mu0 H along the wire, and mu0 H by the page's law for J is some 0.04 T."""
    at = {"height": 1.5e-3, "core": 0.25e-3, "permeability": 100.0}
    now, full = straight_and_wire(**at), fullness(**at)
    s = brentq(lambda s: 1.9 * s / np.sqrt(1 + s ** 2) + 1.9 * s / 99 - now.wire_density, 0, 100)
    at_largest = np.abs(magnetised(**at).flux()).argmax()
    assert np.interp(STRING_PLACES[at_largest], ALONG, full) == pytest.approx(s / np.sqrt(1 + s ** 2), rel=0.02)
    assert full.max() < 1


def test_detuning_against_the_loaded_strings_own_equation():
    """An ideal string with a point spring -K: sin(k L) k T = K sin(k q L) sin(k (1 - q) L), solved for its lowest k."""
    K, T, q, L = 10.0, 75.0, 0.25, 0.6

    def equation(k):
        return k * T * np.sin(k * L) - K * np.sin(k * q * L) * np.sin(k * (1 - q) * L)
    exact = brentq(equation, 0.9 * np.pi / L, 1.1 * np.pi / L) * L / np.pi
    assert detuning(K, T, q) == pytest.approx(1200 * np.log2(exact), abs=0.1)   # first order


def test_a_partial_of_the_loaded_string_by_the_same_equation():
    K, T, q, L = 10.0, 75.0, 0.25, 0.6
    exact = brentq(lambda k: k * T * np.sin(k * L) - K * np.sin(k * q * L) * np.sin(k * (1 - q) * L),
                   1.95 * np.pi / L, 2.02 * np.pi / L) * L / (2 * np.pi)
    assert detuning(K, T, q, partial=2) == pytest.approx(1200 * np.log2(exact), abs=0.1)


def test_pull_curves_run_through_the_marked_points():
    at = {"core": 0.46e-3, "tension": 79.3, "place": 0.25}
    now, over = pull_and_pitch(height=3e-3, **at), pull_and_pitch(height=DRAWN_HEIGHTS, **at)
    for name in ("pull", "cents", "across_cents"):
        assert np.interp(3e-3, DRAWN_HEIGHTS, getattr(over, name)) == pytest.approx(getattr(now, name), rel=1e-3)


# ------------------------------------------------------------------ two notes

NOTES = pull_and_pitch(height=1.5e-3, core=0.46e-3, tension=79.3, place=0.25)


def test_each_note_has_the_detuned_pitch():
    rate, seconds = 2000, 10
    for note, cents in zip(NOTES.notes(seconds, rate), (NOTES.cents, NOTES.across_cents)):
        spectrum = np.abs(np.fft.rfft(note * np.hanning(note.size), 32 * note.size))
        low = spectrum[:int(32 * seconds * 1.5 * NOTES.frequency)]
        assert low.argmax() / (32 * seconds) == pytest.approx(NOTES.frequency * 2 ** (cents / 1200), abs=0.01)


def test_together_they_swell_as_often_as_is_said():
    """Amplitude of the sum of two equal tones by the analytic signal (scipy.signal.hilbert)."""
    time = np.arange(0, 3, 1e-3)
    both = sum(np.cos(2 * np.pi * NOTES.frequency * 2 ** (cents / 1200) * time) / 2
               for cents in (NOTES.cents, NOTES.across_cents))
    inner = slice(200, -200)        # the analytic signal is wrong at the ends
    shown = np.interp(time, *(np.abs(one) for one in envelope(NOTES.beats, 3.0)))
    assert_allclose(np.abs(hilbert(both))[inner], shown[inner], atol=0.03)
    assert np.abs(NOTES.notes(3.0, 4000).sum(axis=0)).max() <= 1


def test_the_path_aslant_is_a_line_then_a_circle_and_the_string_is_on_it():
    (x, z), now = aslant(0.0)
    assert_allclose(x, z)
    assert_allclose(now, 0, atol=1e-12)
    (x, z), _ = aslant(0.25)
    assert_allclose(np.hypot(x, z), 0.7 * SWING)
    (x, z), _ = aslant(0.5)
    assert_allclose(x, -z, atol=1e-12)
    (x, z), now = aslant(0.3)
    assert np.hypot(x - now[0], z - now[1]).min() < 0.03e-3
