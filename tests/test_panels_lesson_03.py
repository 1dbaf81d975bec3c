"""The functions under the panels of lesson 3 against the pickup, the circuit solver and conservation of flux."""
import itertools

import numpy as np
import pytest
from numpy.testing import assert_allclose
from scipy.optimize import brentq

from lessons_lib.lessons.flux_cut import StringInCut, rod_field, trace
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_03.circuit import circuit_and_model, circuit_curves, fitted_circuit
from lessons_lib.lessons.lesson_03.lines import cut
from lessons_lib.lessons.lesson_03.model import (
    detuning,
    fields_along,
    one_pole,
    over_heights,
    pull_and_pitch,
    pull_curves,
    saturation_curves,
    straight_and_wire,
    three_fluxes,
)
from lessons_lib.physics.magnetic_circuit import Branch, MagneticCircuit
from lessons_lib.physics.steel import STRING_PLACES, SteelString
from lessons_lib.physics.string_answer import string_field
from lessons_lib.pictures.over_height import OverHeight
from lessons_lib.pictures.string_circuit import SharesOverHeight, StringLoop
from lessons_lib.pictures.string_cut import FluxAlongString, StringCut
from lessons_lib.pictures.style import new_figure

PICKUP, ROD = one_pole(house_instrument), house_instrument.rod
STRING = {"place": 0.0, "core": 0.46e-3, "permeability": 100.0, "saturates": 1}
WIRE = SteelString(diameter=0.46e-3)


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
    assert_allclose(circuit.added(fit_height) / circuit.flux(), computed.share_of_magnet, rtol=1e-9)
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
    data = circuit_curves(circuit_and_model(**at), **at)["curves"]
    for curve, share in (("model", data["at"][1]), ("circuit", data["at"][2])):
        assert np.interp(4e-3, data["heights"], data[curve]) == pytest.approx(share, rel=0.01)
    both = circuit_and_model(height=4e-3, fit_height=2.5e-3, core=0.46e-3, saturates=1)
    assert both.difference == pytest.approx(data["at"][2] / data["at"][1] - 1)


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
        at = {"height": 2.5e-3, "core": core, "permeability": permeability}
        data = saturation_curves(straight_and_wire(**at), **at)
        for wire, straight in (data["density"]["values"], data["signal"]["values"]):
            assert (wire <= straight * (1 + 1e-6)).all()
    at_once = straight_and_wire(height=6e-3, core=0.46e-3, permeability=20.0)
    assert at_once.wire_flux == pytest.approx(at_once.straight_flux, rel=0.03)


def test_detuning_against_the_loaded_strings_own_equation():
    """An ideal string with a point spring -K: sin(k L) k T = K sin(k q L) sin(k (1 - q) L), solved for its lowest k."""
    K, T, q, L = 10.0, 75.0, 0.25, 0.6

    def equation(k):
        return k * T * np.sin(k * L) - K * np.sin(k * q * L) * np.sin(k * (1 - q) * L)
    exact = brentq(equation, 0.9 * np.pi / L, 1.1 * np.pi / L) * L / np.pi
    assert detuning(K, T, q) == pytest.approx(1200 * np.log2(exact), abs=0.1)   # first order


def test_pull_curves_run_through_the_marked_points():
    at = {"height": 3e-3, "core": 0.46e-3, "tension": 79.3, "place": 0.25}
    data = pull_curves(pull_and_pitch(**at), **at)
    for curve in data.values():
        assert np.interp(3e-3, curve["heights"], curve["values"][0]) == pytest.approx(curve["at"][1], rel=1e-3)


# ------------------------------------------------------------------ lines in the cut

def test_the_strings_field_in_the_cut_is_that_of_its_magnetisation():
    magnetised = WIRE.magnetise(fields_along(2.5e-3, 0.0)[0])
    string = StringInCut(magnetised, 2.5e-3)
    x, z = np.array([0.5e-3, 4e-3, 9e-3, 3e-3]), np.array([4e-3, 4e-3, 1e-3, 0.8e-3])
    found = np.stack(string.total(x, z, 0 * x, 0 * x), axis=-1)
    points = np.stack([x, 0 * x, z], axis=-1)
    expected = string_field(magnetised, points, height=2.5e-3)[:, [0, 2]]
    # the part across as long cylinders: a tenth of it is off some millimetres away
    assert_allclose(found, expected, atol=0.06 * np.abs(expected).max())


def test_what_enters_the_steel_runs_along_in_it():
    """At the string's surface the upright part has no jump; inside, all of the flux of the string passes."""
    magnetised = WIRE.magnetise(fields_along(2.5e-3, 0.0)[0])
    string, x = StringInCut(magnetised, 2.5e-3), np.array([1e-3, 3e-3, 8e-3])
    for side in (-1, 1):
        bz = [string.total(x, 2.5e-3 + side * (0.23e-3 + off) + 0 * x, 0 * x, 0.05 + 0 * x)[1] for off in (-1e-9, 1e-9)]
        assert_allclose(bz[0], bz[1], atol=6e-3)
    along = string.total(x, 2.5e-3 + 0 * x, 0 * x, 0 * x)[0]
    assert_allclose(along * WIRE.area, np.interp(x, STRING_PLACES, magnetised.flux()), rtol=1e-2)


def test_lines_without_string_are_contours_of_the_flux_function():
    seeds = np.array([1.0e-3, 2.0e-3])
    lines = trace(rod_field(ROD, 0.0), seeds, np.full(2, 0.8e-3), np.ones(2))
    for line in np.moveaxis(lines, 1, 0):
        x, z = line[:, ~np.isnan(line[0])]
        flux = ROD.flux_function(x, z)
        assert_allclose(flux, flux[0], rtol=0.02)


def test_the_rods_field_is_looked_up_to_two_per_cent():
    x, z = np.array([0.3e-3, 3e-3, 7e-3]), np.array([1.1e-3, 2e-3, 5e-3])
    expected = ROD.flux_density(np.stack([x, 0 * x + 1e-3, z], axis=-1))
    assert_allclose(np.stack(rod_field(ROD, 1e-3)(x, z)), expected[:, [0, 2]].T, rtol=0.02, atol=3e-4)


def test_the_cut_is_mirrored_and_the_flux_along_runs_both_ways():
    data = cut(height=2.5e-3, **STRING)
    x, z = data["cut"]["with_string"]
    assert_allclose(x[:len(x) // 2], -x[len(x) // 2:])
    flux = data["along"]["flux"]
    assert_allclose(flux, -flux[::-1], atol=1e-12)
    assert flux.max() == pytest.approx(three_fluxes(height=2.5e-3, **STRING).string, rel=1e-6)
    assert np.nanmax(z) > 7e-3


# ------------------------------------------------------------------ pictures, with numbers a person can foresee

def test_string_cut_draws_rod_coil_and_string_to_scale():
    picture = StringCut(new_figure().add_subplot(), radius=3e-3, coil=(4e-3, 5e-3, -2e-3), half_width=10e-3,
                        bottom=-5e-3,
                        top=8e-3)
    rod, left, right, without, string, *_ = picture.update(
        with_string=([0, 1e-3], [0, 1e-3]), without=([0, 2e-3], [0, 3e-3]), height=2e-3, core=1e-3, place=0.0)
    assert rod.get_bbox().bounds == pytest.approx((-3, -5, 6, 5))
    assert right.get_bbox().bounds == pytest.approx((4, -5, 1, 3))
    assert left.get_bbox().bounds == pytest.approx((-5, -5, 1, 3))
    assert string.get_bbox().bounds == pytest.approx((-10, 1.5, 20, 1))
    assert list(without.get_ydata()) == [0, 3]
    rod, *_ = picture.update(with_string=([], []), without=([], []), height=2e-3, core=1e-3, place=3.5e-3)
    assert rod.get_width() == 0


def test_flux_along_string_chooses_its_scale():
    picture = FluxAlongString(new_figure().add_subplot(), half_width=17e-3)
    line, upper, lower, *_ = picture.update(x=[-5e-3, 0, 5e-3], flux=[-300e-9, 0, 300e-9])
    assert upper.get_text() == "500 nWb" and lower.get_text() == "−500 nWb"
    assert_allclose(line.get_ydata(), [-0.6, 0, 0.6])


def test_string_loop_shows_its_values():
    picture = StringLoop(new_figure().add_subplot())
    texts = {artist.get_text() for artist in picture.update(mmf=2400, magnet=180e6, near_air=10e6, far_air=12e6,
                                                            branch=990e6,
                                                            flux=12e-6, string_flux=121e-9)}
    assert texts == {"2400 A", "180 MA/Wb", "10.0 MA/Wb", "12.0 MA/Wb", "990 MA/Wb", "12.000 µWb", "121 nWb"}


def test_shares_and_curves_mark_the_chosen_height():
    shares = SharesOverHeight(new_figure().add_subplot(), heights=(1e-3, 6e-3), share=4e-3)
    model, circuit, fit, points = shares.update(heights=[1e-3, 6e-3], model=[2e-3, 0], circuit=[1e-3, 0],
                                                at=(2e-3, 1e-3, 2e-3),
                                                fit=(3e-3, 1e-3))
    assert_allclose(points.get_ydata(), [0.1, 0.2]) and list(fit.get_xdata()) == [3]
    assert_allclose(model.get_ydata(), [0.2, 0])
    curve = OverHeight(new_figure().add_subplot(), quantity="pull", unit="mN", heights=(1e-3, 6e-3),
                       y_limits=(0, 50),
                       curves=(("", {"color": "black", "linestyle": "-"}),))
    line, points = curve.update(heights=[1e-3, 6e-3], values=([0.04, 0.0],), at=(2e-3, 0.03))
    assert_allclose(line.get_ydata(), [40, 0])
    assert list(points.get_xdata()) == [2] and points.get_ydata() == pytest.approx([30])
