"""A metal cover over a round coil: finite elements with conductivity, a plate in closed form, a mirror, limits."""
import math
from dataclasses import replace

import numpy as np
import pytest
from numpy.testing import assert_allclose
from scipy.constants import mu_0, pi
from scipy.integrate import quad_vec
from scipy.special import j1

from lessons_lib.base.wire import magnet_wire
from lessons_lib.base.workshop import house_bar, house_coil, house_load
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.cover import RoundCover
from lessons_lib.physics.magnets import BarMagnet, RodMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.steel import SteelPole
from lessons_lib.physics.winding import LongCoil, RoundCoil
from reference_fem import Region, alternating_linkage

SIZES = {name: house_coil[name] for name in ("inner_radius", "outer_radius", "bottom", "top", "turns")}
COIL = RoundCoil(**SIZES)
ROD = {"diameter": 5e-3, "length": 17e-3}
POLES = {"no pole": (), "alnico": RodMagnet(**ROD, remanence=0.75, recoil_permeability=3.6, resistivity=0.47e-6),
         "steel": SteelPole(**ROD, relative_permeability=500.0, resistivity=0.15e-6)}
PLACE = {"outer_radius": 7.1e-3, "bottom": -15e-3}
BRASS = RoundCover(**PLACE, top=0.6e-3, thickness=0.4e-3, resistivity=0.07e-6)
COVERS = {"brass": BRASS,
          "brass, a hole": RoundCover(**PLACE, top=0.1e-3, thickness=0.5e-3, resistivity=0.07e-6, hole_radius=2.7e-3),
          "nickel silver": RoundCover(**PLACE, top=0.5e-3, thickness=0.3e-3, resistivity=0.3e-6)}
AIR = Pickup(poles=(), coils=COIL)


def under(pole):
    return Pickup(poles=POLES[pole], coils=COIL)


def by_finite_elements(cover, pole, frequency, finest):
    """L (H) and added resistance (ohm) of the coil, axially symmetric; the cover with its whole thickness."""
    inside = cover.outer_radius - cover.thickness
    metal = [Region(inner=inside, outer=cover.outer_radius, bottom=cover.bottom, top=cover.top,
                    resistivity=cover.resistivity),
             Region(inner=cover.hole_radius, outer=inside, bottom=cover.top - cover.thickness, top=cover.top,
                    resistivity=cover.resistivity)]
    if pole != "no pole":
        body = POLES[pole]
        permeability = getattr(body, "recoil_permeability", None) or body.relative_permeability
        metal.append(Region(outer=2.5e-3, bottom=-17e-3, top=0.0, relative_permeability=permeability,
                            resistivity=body.resistivity))
    winding = Region(inner=SIZES["inner_radius"], outer=SIZES["outer_radius"], bottom=SIZES["bottom"],
                     top=SIZES["top"], ampere_turns=SIZES["turns"])
    linkage = alternating_linkage(metal, winding, frequency, finest=finest, growth=1.6)
    return linkage.real, -2 * pi * frequency * linkage.imag


@pytest.mark.parametrize("frequency", [100.0, 1e3, 4e3, 10e3])
@pytest.mark.parametrize("cover", COVERS)
def test_a_cover_against_finite_elements(cover, frequency):
    inductance, resistance = by_finite_elements(COVERS[cover], "no pole", frequency, finest=1e-4)
    impedance = AIR.impedance(frequency) + COVERS[cover].impedance_gained(AIR, frequency)
    assert impedance.imag / (2 * pi * frequency) == pytest.approx(inductance, rel=5e-4)
    assert impedance.real == pytest.approx(resistance, rel=5e-3)


@pytest.mark.parametrize("frequency, finest", [(1e3, 1e-4), (10e3, 3e-5)])      # in steel a skin of 0.09 mm at 10 kHz
@pytest.mark.parametrize("pole", ("alnico", "steel"))
def test_a_cover_with_a_pole_under_it_against_finite_elements(pole, frequency, finest):
    """As near as the pole's own recipe (tests/test_eddy_currents.py); what the cover adds to it is nearer."""
    pickup = under(pole)
    inductance, resistance = by_finite_elements(BRASS, pole, frequency, finest)
    impedance = pickup.impedance(frequency) + BRASS.impedance_gained(pickup, frequency)
    assert impedance.imag / (2 * pi * frequency) == pytest.approx(inductance, rel=0.01)
    assert impedance.real == pytest.approx(resistance, rel=0.05)
    # the pole must answer to the cover's currents: what a coil without pole gains, added to the pole's, is far off
    apart = pickup.impedance(frequency) + BRASS.impedance_gained(AIR, frequency)
    assert abs(apart / complex(resistance, 2 * pi * frequency * inductance) - 1) > (0.03 if frequency < 2e3 else 0.25)


def disc_over(coil, *, gap, thickness, resistivity, radius=45e-3):
    """A level disc whose lower face is a gap above a coil."""
    bottom = coil.top + gap
    return RoundCover(outer_radius=radius, bottom=bottom, top=bottom + thickness, thickness=thickness,
                      resistivity=resistivity)


@pytest.mark.parametrize("frequency", [300.0, 3e3, 12e3])
def test_a_wide_disc_is_a_plate(frequency):
    """A loop over a plate in closed form: C. V. Dodd, W. E. Deeds, J. Appl. Phys. 39, 2829 (1968), from memory.

    jw pi mu0 a^2 times the integral of J1(ka)^2 exp(-2kh) G over k, G the plate's reflection: of waves in metal of
    alpha^2 = k^2 + jw mu0 / rho, to and fro between its faces.
    """
    a, height, thickness, rho = 5e-3, 2e-3, 0.4e-3, 0.07e-6
    loop = RoundCoil(inner_radius=a - 5e-5, outer_radius=a + 5e-5, bottom=-1e-4, top=0.0, turns=1)
    w = 2 * pi * frequency

    def shares(k):
        alpha = np.sqrt(k ** 2 + 1j * w * mu_0 / rho)
        face, through = (k - alpha) / (k + alpha), np.exp(-2 * alpha * thickness)
        return j1(k * a) ** 2 * np.exp(-2 * k * height) * face * (1 - through) / (1 - face ** 2 * through)
    expected = 1j * w * pi * mu_0 * a ** 2 * quad_vec(shares, 0, 20 / height, limit=500)[0]
    disc = disc_over(loop, gap=height - 5e-5, thickness=thickness, resistivity=rho)
    gained = disc.impedance_gained(Pickup(poles=(), coils=loop), frequency)
    # thin to the first order: a fifth of the thickness relative to the height at most, where the metal screens
    assert abs(gained / expected - 1) < 0.015


def test_metal_without_resistance_is_a_mirror():
    """No flux goes through: the coil sees its mirror image, wound the other way round.

    Currents spread evenly through a thickness mirror at a third of it, since two points of it are a third of it apart
    in the mean, and not at its surface, where currents without resistance would be.
    """
    coil = RoundCoil(inner_radius=4e-3, outer_radius=5e-3, bottom=-2e-3, top=0.0, turns=100)
    disc = disc_over(coil, gap=1e-3, thickness=0.3e-3, resistivity=1e-16)
    mirror = 1e-3 + 0.1e-3
    image = replace(coil, bottom=2 * mirror, top=2 * mirror + 2e-3)
    gained = disc.impedance_gained(Pickup(poles=(), coils=coil), 1e3) / (2j * pi * 1e3)
    assert gained.real == pytest.approx(-coil.mutual_inductance(image), rel=3e-3)   # the plane ends at 45 mm
    assert abs(gained.imag) < 1e-6 * abs(gained.real)


def test_metal_without_conductivity_is_not_there():
    for pole in POLES:
        assert replace(BRASS, resistivity=math.inf).impedance_gained(under(pole), 5e3) == 0
        assert abs(replace(BRASS, resistivity=1.0).impedance_gained(under(pole), 5e3)) < 1e-6 * 2 * pi * 5e3
    assert BRASS.impedance_gained(AIR, 0.0) == 0


@pytest.mark.parametrize("pole", POLES)
def test_a_pole_of_air_and_no_pole_are_one(pole):
    """And cover and pole take energy; at low frequencies as its square, and inductance falls all the way."""
    air = Pickup(poles=SteelPole(**ROD, relative_permeability=1.0), coils=COIL)
    assert BRASS.impedance_gained(air, 4e3) == pytest.approx(BRASS.impedance_gained(AIR, 4e3), rel=1e-9)
    frequency = np.array([10.0, 20.0, 1e3, 5e3, 20e3])
    gained = BRASS.impedance_gained(under(pole), frequency)
    whole = gained + under(pole).impedance(frequency)
    assert (whole.real > 0).all() and (gained.imag < 0).all() and (np.diff(whole.imag / frequency) < 0).all()
    assert whole.real[1] / whole.real[0] == pytest.approx(4, rel=0.02)      # of steel the skin begins at 20 Hz


def test_a_narrow_band_is_one_ring():
    """w^2 M^2 / (R + j w L), L of a ring of square section: a (ln(8 a / 0.447 side) - 2) mu0, Grover, from memory."""
    a, side, rho = 6.9e-3, 0.4e-3, 0.07e-6
    band = RoundCover(outer_radius=a + side / 2, bottom=-side, top=0.0, thickness=side, resistivity=rho,
                      hole_radius=a - side / 2 - 1e-9)
    turn = RoundCoil(inner_radius=a - side / 2, outer_radius=a + side / 2, bottom=-side, top=0.0, turns=1)
    w = 2 * pi * 4e3
    self_inductance = mu_0 * a * (math.log(8 * a / (0.447 * side)) - 2)
    coil = replace(COIL, top=-0.5e-3)
    expected = w ** 2 * coil.mutual_inductance(turn) ** 2 / (rho * 2 * pi * a / side ** 2 + 1j * w * self_inductance)
    assert band.impedance_gained(Pickup(poles=(), coils=coil), 4e3) == pytest.approx(expected, rel=0.01)


@pytest.mark.parametrize("cover", COVERS)
def test_loops_stand_for_cover_and_pole(cover):
    pickup, between = under("alnico"), np.geomspace(25, 19e3, 9)
    metal = COVERS[cover].metal_of(pickup)
    assert len(metal.loops) <= 4
    assert_allclose(metal.impedance(between),
                    pickup.impedance(between) + COVERS[cover].impedance_gained(pickup, between), rtol=1e-3)


def test_brass_lowers_the_peak_by_two_decibels_and_nickel_silver_by_less():
    """Six such coils in series, each with an alnico rod and a cover of 0.4 mm, far from each other, on the house load.

    The peak is looked for by the divider of the impedances as well, without loops.
    """
    pickup, resistance = under("alnico"), 6 * COIL.resistance(magnet_wire(awg=44))
    frequency = np.geomspace(3e3, 4.5e3, 121)
    load = LoadedCoil(resistance=1e-6, inductance=1e-9, **house_load)       # controls, cable, amplifier, capacitance
    covers = [replace(BRASS, resistivity=resistivity) for resistivity in (math.inf, 0.3e-6, 0.07e-6)]
    found = []
    for cover in covers:
        metal = cover.metal_of(pickup).with_turns(math.sqrt(6))
        coil = LoadedCoil(resistance=resistance, inductance=metal.inductance, loops=metal.loops, **house_load)
        found.append((coil.peak()[0], coil.peak()[1] - coil.low_frequency_level))
        inside = resistance + 6 * (pickup.impedance(frequency) + cover.impedance_gained(pickup, frequency))
        across = 1 / loads(load, frequency)
        levels = 20 * np.log10(np.abs(across / (across + inside)))
        assert levels.max() == pytest.approx(coil.peak()[1], abs=0.01)
        assert frequency[levels.argmax()] == pytest.approx(coil.peak()[0], rel=5e-3)
    frequencies, heights = np.transpose(found)
    assert heights == pytest.approx([3.7, 3.0, 1.6], abs=0.06)         # dB above low frequencies
    assert frequencies == pytest.approx([3.91e3, 3.76e3, 3.42e3], rel=5e-3)


def loads(coil, frequency):
    """Admittance (S) of what hangs on a coil, controls fully up, part by part."""
    s = 2j * pi * frequency
    return (s * (coil.capacitance + coil.cable_capacitance) + 1 / coil.volume_resistance + 1 / coil.input_resistance
            + 1 / (coil.tone_resistance + 1 / (s * coil.tone_capacitance)))


@pytest.mark.parametrize("changes, text", [
    ({"thickness": 0.0}, "thickness must be a finite number above zero; got 0.0"),
    ({"resistivity": -1.0}, "resistivity must be a finite number above zero; got -1.0"),
    ({"bottom": 1e-3}, "bottom must be below top = 0.0006; got 0.001"),
    ({"hole_radius": 7e-3}, "hole_radius must be below the wall's inner radius = 0.0067")])
def test_a_bad_cover_gets_a_sentence(changes, text):
    with pytest.raises(ValueError, match=text):
        replace(BRASS, **changes)


@pytest.mark.parametrize("pickup", [
    Pickup(poles=POLES["alnico"], coils=LongCoil(**house_coil)),
    Pickup(poles=(), coils=replace(COIL, x=1e-3)),
    Pickup(poles=(), coils=COIL, bars=BarMagnet(**house_bar))])
def test_another_pickup_gets_a_sentence(pickup):
    with pytest.raises(ValueError, match="pickup must be one RoundCoil and at most one pole, about the z axis"):
        BRASS.impedance_gained(pickup, 1e3)


def test_what_does_not_fit_gets_a_sentence():
    with pytest.raises(ValueError, match="coil must be inside of the cover"):
        replace(BRASS, outer_radius=6.5e-3).impedance_gained(AIR, 1e3)
    with pytest.raises(ValueError, match="pole must be inside of the cover"):
        replace(BRASS, top=0.1e-3).impedance_gained(under("alnico"), 1e3)
    with pytest.raises(TypeError, match="pickup must be a Pickup"):
        BRASS.impedance_gained(COIL, 1e3)
