"""The functions under the panels of lesson 3 against the pickup, the circuit solver and conservation of flux."""
import itertools

import numpy as np
import pytest
from numpy.testing import assert_allclose
from scipy.optimize import brentq
from scipy.signal import hilbert

from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_03 import panels
from lessons_lib.lessons.lesson_03.circuit import circuit_and_model, circuit_curves, fitted_circuit
from lessons_lib.lessons.lesson_03.lines import MOST_LINES, picture, swinging, tube_for
from lessons_lib.lessons.lesson_03.model import (
    ALONG,
    DRAWN_HEIGHTS,
    SWING,
    gains_of_a_swing,
    magnetised,
    one_pole,
    over_heights,
    saturation_curves,
    straight_and_wire,
    three_fluxes,
)
from lessons_lib.lessons.lesson_03.pull import aslant, detuning, envelope, pull_and_pitch, pull_curves
from lessons_lib.lessons.string_lines import FRAME, StringInSpace, field_of, lines_through, trace
from lessons_lib.physics.magnetic_circuit import Branch, MagneticCircuit
from lessons_lib.physics.steel import STRING_PLACES, SteelString
from lessons_lib.physics.string_answer import string_field
from lessons_lib.pictures.bent import BentAxis
from lessons_lib.pictures.string_circuit import StringLoop
from lessons_lib.pictures.string_over_rod import FluxAndGain, StringOverRod
from lessons_lib.pictures.style import new_figure
from lessons_lib.pictures.wire_over_pole import FilledWire, PulledString

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
        wire, straight, *left = saturation_curves(core=core, permeability=permeability)
        assert (wire <= straight * (1 + 1e-6)).all()
        assert all((0 < one).all() and (one <= 1 + 1e-6).all() for one in left)
        assert (left[1] <= left[0] + 1e-3).all()     # the signal suffers more than the flux
    at_once = straight_and_wire(height=6e-3, core=0.46e-3, permeability=20.0)
    assert at_once.wire_flux == pytest.approx(at_once.straight_flux, rel=0.03)


def test_the_marked_shares_are_on_their_curves():
    at = {"core": 0.25e-3, "permeability": 100.0}
    now, curves = straight_and_wire(height=3e-3, **at), saturation_curves(**at)
    for curve, value in zip(curves, (now.wire_density, now.straight_density, now.flux_left, now.signal_left)):
        assert np.interp(3e-3, DRAWN_HEIGHTS, curve) == pytest.approx(value, rel=2e-3)


def test_how_full_the_wire_is_by_its_flux_density():
    """Where the flux is largest B = J + mu0 H along the wire, and mu0 H by the page's law for J is some 0.04 T."""
    now = straight_and_wire(height=1.5e-3, core=0.25e-3, permeability=100.0)
    s = brentq(lambda s: 1.9 * s / np.sqrt(1 + s ** 2) + 1.9 * s / 99 - now.wire_density, 0, 100)
    at_largest = np.abs(magnetised(height=1.5e-3, place=0.0, core=0.25e-3, permeability=100.0, saturates=True,
                                   instrument=house_instrument).flux()).argmax()
    assert np.interp(STRING_PLACES[at_largest], ALONG, now.fullness) == pytest.approx(s / np.sqrt(1 + s ** 2), rel=0.02)
    assert now.fullness.max() < 1


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
    now = pull_and_pitch(height=3e-3, **at)
    for curve, value in zip(pull_curves(**at), (now.pull, now.cents, now.across_cents)):
        assert np.interp(3e-3, DRAWN_HEIGHTS, curve) == pytest.approx(value, rel=1e-3)


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


# ------------------------------------------------------------------ lines in space

def string_at(height, place=0.0, **steel):
    inside = magnetised(height=height, place=place, instrument=house_instrument,
                        **{name: value for name, value in (STRING | steel).items() if name != "place"})
    return StringInSpace(inside, height=height, place=place), inside


EXTREMES = list(itertools.product((1.5e-3, 6e-3), (0.0, 3e-3, 8e-3), (0.2e-3, 1e-3), (20.0, 1000.0), (0, 1)))


def test_the_strings_field_is_that_of_its_magnetisation():
    string, inside = string_at(2.5e-3, place=3e-3)
    points = np.array([[0.5e-3, 3e-3, 4e-3], [4e-3, 5e-3, 4e-3], [9e-3, 2e-3, 1e-3], [3e-3, 4e-3, 0.8e-3]])
    expected = string_field(inside, points, height=2.5e-3, y=3e-3)
    # the part across as long cylinders: a tenth of it is off some millimetres away
    assert_allclose(string.flux_density(*points.T).T, expected, atol=0.06 * np.abs(expected).max())


@pytest.mark.parametrize("place", (0.0, 3e-3))
def test_what_comes_out_of_the_steel_is_what_the_flux_along_it_loses(place):
    """No flux is made or lost (Gauss): through a tube just round the wire, between two places."""
    string, inside = string_at(2.5e-3, place=place)
    x, angle = np.linspace(5e-3, 9e-3, 81), np.linspace(0, 2 * np.pi, 73)[:-1]
    x_, angle_ = (one.ravel() for one in np.meshgrid(x, angle))
    radius, out = 0.25e-3, np.array([np.cos(angle_), np.sin(angle_)])
    place_ = x_, place + radius * out[0], 2.5e-3 + radius * out[1]
    field = string.flux_density(*place_) + field_of(ROD, *place_)
    outward = (field[1:] * out).sum(0).reshape(angle.size, x.size).mean(0) * 2 * np.pi * radius
    lost = -np.diff(np.interp(x[[0, -1]], STRING_PLACES, inside.flux()))[0]
    assert np.trapezoid(outward, x) == pytest.approx(lost, rel=0.05)


def test_lines_without_string_are_contours_of_the_flux_function():
    seeds = np.array([1.0e-3, 2.0e-3])
    lines = trace(ROD, np.stack([seeds, 0 * seeds, np.full(2, 0.8e-3)]), np.ones(2))
    for line in np.moveaxis(lines, 1, 0):
        x, _, z = line[:, ~np.isnan(line[0])]
        flux = ROD.flux_function(x, z)
        assert_allclose(flux, flux[0], rtol=0.02)


def test_the_rods_field_is_looked_up_to_two_per_cent():
    points = np.array([[0.3e-3, 1e-3, 1.1e-3], [3e-3, -1e-3, 2e-3], [7e-3, 4e-3, 5e-3]])
    assert_allclose(field_of(ROD, *points.T).T, ROD.flux_density(points), rtol=0.02, atol=3e-4)


@pytest.mark.parametrize("height, place, core, permeability, saturates", EXTREMES)
def test_lines_begin_in_the_rod_and_end_outside_of_the_frame(height, place, core, permeability, saturates):
    """With as many of them as there is flux, at every end of every slider."""
    steel = {"core": core, "permeability": permeability, "saturates": saturates}
    string, inside = string_at(height, place, **steel)
    tube = tube_for(**steel)
    to_steel, in_steel, away, to_middle = lines_through(ROD, string, tube)
    for line in np.moveaxis(np.concatenate([to_steel, to_middle], axis=1), 1, 0):
        x, y, z = line[:, np.flatnonzero(~np.isnan(line[0]))[-1]]
        assert z < FRAME["bottom"] and np.hypot(x, y) < ROD.diameter / 2
    for line in np.moveaxis(away, 1, 0):
        x, y, z = line[:, np.flatnonzero(~np.isnan(line[0]))[-1]]
        assert x > FRAME["half_width"] or not FRAME["bottom"] < z < FRAME["top"] or y > 15e-3
    largest = np.abs(inside.flux()[np.abs(STRING_PLACES) < 13e-3]).max()
    assert abs(to_steel.shape[1] - largest / tube) <= 0.5 + 1e-9 and to_steel.shape[1] <= MOST_LINES + 1
    assert in_steel.shape[1] == to_steel.shape[1]


def test_one_steel_has_one_step_from_line_to_line():
    """Nearer is more lines: 287 nWb at 1.5 mm, 93 at 6 mm, in steps of 25."""
    tube = tube_for(core=0.46e-3, permeability=100.0, saturates=1)
    counts = [lines_through(ROD, string_at(height)[0], tube)[0].shape[1] for height in (1.5e-3, 2.5e-3, 4e-3, 6e-3)]
    assert tube == 25e-9 and counts == [11, 9, 6, 4]


def test_the_pictures_flux_is_that_of_the_string():
    gains = gains_of_a_swing(height=2.5e-3, **STRING)
    data = picture(gains, height=2.5e-3, **STRING)
    x, z = data["views"]["lines"]
    assert_allclose(x[:len(x) // 2], -x[len(x) // 2:])
    places, flux = data["along"]
    assert_allclose(flux, -flux[::-1], atol=1e-12)
    fluxes = three_fluxes(height=2.5e-3, **STRING)
    assert flux.max() == pytest.approx(fluxes.string, rel=5e-3)     # which is the largest at a node
    assert data["now"] == (0.0, pytest.approx(fluxes.added_in_turn))


@pytest.mark.parametrize("height, place", [(1.5e-3, 0.0), (2.5e-3, 3e-3)])
def test_the_gain_within_a_swing_is_that_of_the_pickup(height, place):
    gains = gains_of_a_swing(height=height, **STRING | {"place": place})
    for share in (-0.6, 0.4):
        exact = PICKUP.flux_linkage(WIRE, height=height + share * SWING, y=place) / 7600
        assert gains(share) == pytest.approx(exact, rel=2e-3)


def test_the_film_is_a_closed_loop_of_thirteen_heights():
    frames = swinging(gains_of_a_swing(height=2.5e-3, **STRING), height=2.5e-3, **STRING)
    heights = [frame["views"]["height"] for frame in frames]
    assert len(frames) == 24 and len(set(heights)) == 13
    assert (min(heights), max(heights)) == pytest.approx((2e-3, 3e-3)) and heights[0] == 2.5e-3
    assert heights[-1] - heights[0] == pytest.approx(heights[0] - heights[1], abs=1e-9)
    assert [frame["now"][1] for frame in frames] == pytest.approx(
        [float(np.interp(frame["now"][0], *frame["swing"])) for frame in frames], rel=2e-3)


@pytest.mark.parametrize("make, away", [(panels.string_in_field, {}), (panels.string_in_field, {
    "core": 1e-3, "permeability": 1000.0, "saturates": 0}), (panels.pull_and_detuning, {"place": 0.5})])
def test_films_can_be_sent(make, away):
    panel = make()
    values = {name: spec.in_si(spec.start) for name, spec in panel.specs.items()} | away
    film = panel._film(panel._compute(**values), **values).described(panel._drawing)
    assert 24 <= len(film["frames"]) <= 48 and sum(len(one) for slot in film["slots"] for one in slot) < 150_000


# ------------------------------------------------------------------ pictures, with numbers a person can foresee

def axes(count=1):
    return new_figure().subplots(1, count)


def test_string_over_rod_draws_to_scale():
    side, end = axes(2)
    coil = {"inner_radius": 3.2e-3, "outer_radius": 6.2e-3, "bottom": -14.5e-3, "top": -2.5e-3}
    picture = StringOverRod(side, end, magnet={"top": 0.0, "diameter": 5e-3, "length": 17e-3}, coil=coil,
                            pale=([0, 1e-3], [0, 2e-3]), end_words="end", half_width=12e-3,
                            sides=(-7e-3, 10e-3), bottom=-4e-3, top=8e-3)
    _, steel, _, lines, towards, *_, disc, word = picture.update(
        lines=([0, 1e-3], [0, 3e-3]), towards=([0, 2e-3], [0, 1e-3]), height=2e-3, core=1e-3, place=3e-3, tube=25e-9)
    assert list(steel.get_xdata()) == [-12, 12] and list(steel.get_ydata()) == [2, 2]
    assert list(lines.get_ydata()) == [0, 3] and list(towards.get_xdata()) == [0, 2]
    assert disc.center == (3, 2) and disc.radius == 0.5
    assert word.get_text() == "flux of the string: 25 nWb a line"
    assert side.get_xlim() == (-12, 12) and end.get_xlim() == (-7, 10)


def test_flux_and_gain_keep_their_axes():
    """A third of the flux is a third of the height; ten times the knee is the end."""
    picture = FluxAndGain(*axes(2), half_width=12e-3, period=10e-3, swing_words="swing of 1 mm")
    for size, height in ((300e-9, 1.0), (100e-9, 1 / 3), (3000e-9, 1.5)):
        line, gain, dot, *_ = picture.update(along=([-5e-3, 5e-3], [-size, size]), swing=([0, 1], [30e-9, 30e-9]),
                                             now=(0.5, 30e-9))
        assert_allclose(line.get_ydata(), [-height, height])
    assert list(gain.get_xdata()) == [0, 10] and (*dot.get_xdata(), *dot.get_ydata()) == (5, 0.5)


def test_a_bent_axis_is_even_then_logarithmic():
    cents = BentAxis("change of pitch", "cents", knee=25.0, low=-1.5, high=1.0, ticks=(-1, 0, 1))
    assert_allclose(cents.place([-250.0, -25.0, -5.0, 0.0, 12.5]), [-1.5, -1, -0.2, 0, 0.5])
    assert cents.place(-25 * 10 ** 0.5) == pytest.approx(-1.25)      # half a decade is half of the band
    assert cents.axis.ticks == {-1.5: "−250", -1: "−25", 0: "0", 1: "25"}
    assert [band.value for band in cents.bands()] == [(-1, -1.5)]


def test_string_loop_shows_its_values_and_gaps_as_long_as_they_are():
    picture, values = StringLoop(axes()), {"mmf": 2400, "magnet": 180e6, "near_air": 10e6, "far_air": 12e6,
                                           "branch": 990e6, "flux": 12e-6, "string_flux": 121e-9}
    artists = picture.update(height=2e-3, **values)
    texts = {artist.get_text() for artist in artists if hasattr(artist, "get_text")}
    assert texts == {"2400 A", "180 MA/Wb", "near air 10.0 MA/Wb", "12.0 MA/Wb", "gap, steel, gap 990 MA/Wb",
                     "flux in the magnet 12.000 µWb", "gathered 121 nWb"}
    tops = []
    for height in (2e-3, 4e-3, 6e-3):
        _, gap, other, *_ = picture.update(height=height, **values)
        assert gap.get_height() == other.get_height() > 0
        tops.append(gap.get_y() + gap.get_height())
    assert tops[2] - tops[1] == pytest.approx(tops[1] - tops[0]) and tops[2] < 10


def test_a_wire_is_filled_as_far_as_it_is_magnetised():
    picture = FilledWire(axes(), diameter=5e-3, half_width=12e-3, top=8e-3)
    wire, fill, word = picture.update(x=np.linspace(-20e-3, 20e-3, 81), fullness=np.full(81, 0.25), height=3e-3)
    bottom, thick = wire.get_y(), wire.get_height()
    assert bottom + thick / 2 == pytest.approx(3)
    assert fill.get_xy()[:, 1].max() == pytest.approx(bottom + thick / 4) and word.get_text() == "25% full"


def test_the_arrow_is_as_long_as_the_pull_is_strong():
    picture = PulledString(axes(), diameter=5e-3, half_width=3e-3, bottom=-1e-3, top=7e-3, longest=60e-3)
    path, arrow, disc, _ = picture.update(height=3e-3, core=1e-3, pull=30e-3, path=([0, 1e-3], [0, 1e-3]),
                                          now=(1e-3, 1e-3))
    assert np.ptp(arrow.get_xy()[:, 1]) == pytest.approx(1)
    assert np.ptp(picture.update(height=3e-3, core=1e-3, pull=60e-3)[1].get_xy()[:, 1]) == pytest.approx(2)
    picture.update(height=3e-3, core=1e-3, pull=30e-3, path=([0, 1e-3], [0, 1e-3]), now=(1e-3, 1e-3))
    assert list(path.get_ydata()) == [3, 4] and disc.center == (1, 4)
