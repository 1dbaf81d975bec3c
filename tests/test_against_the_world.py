"""What others have measured on instruments, against the workshop's pickup: same laws, same order of magnitude.

The workshop's instrument is invented, so no number can be met to a per cent: what is checked is what any such pickup
shows. Each check has the wrong physics beside it that would not pass. How closely, and why no closer:
agreements.md.
"""
import math
from dataclasses import replace

import numpy as np
import pytest

from lesson_03_pole import cross_section_exponent
from lesson_04_swing import sideways
from lessons_lib.base.materials import magnet_grade
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_03.pull import pull_and_pitch
from lessons_lib.physics.alnico_rod import AlnicoRod
from lessons_lib.physics.induction import harmonic_levels, pickup_voltage
from lessons_lib.physics.steel import SteelString
from workshop_table import PERIOD, Sine

PICKUP, THIRD = house_instrument.pickup, house_instrument.y_of("III")
WIRE = SteelString(diameter=0.43e-3)
HEIGHTS = np.array([2.0, 3.0, 4.0, 5.0, 6.0]) * 1e-3

# J. Audio Eng. Soc. 65(9), 711 (2017), "Analytical modeling and experimental characterization of a magnetic pickup":
# its abstract was read, not its figures and numbers; below "the abstract of 2017"


def test_output_of_plain_strings_is_proportional_to_their_cross_section():
    """The abstract of 2017: in proportion to the cross-section, the square of the diameter."""
    assert [cross_section_exponent(height) for height in (2.5e-3, 4e-3)] == pytest.approx([2, 2], abs=0.1)
    # steel without saturation has 1.66 and 1.72, and is refused by what was measured
    straight = [cross_section_exponent(height, math.inf) for height in (2.5e-3, 4e-3)]
    assert (np.abs(np.subtract(straight, 2)) > 0.25).all()


def second_harmonics(string, amplitude, heights):
    """Level (dB) of the second harmonic relative to the first, of a sine up and down over the third string's pole."""
    waves = [pickup_voltage(PICKUP, string, Sine(amplitude), PERIOD, height=height, y=THIRD, place=0.15)
             for height in heights]
    return np.array([harmonic_levels(wave, PERIOD, fundamental=1.0, count=4).level()[1] for wave in waves])


def test_distortion_depends_on_the_amplitude_and_hardly_on_the_distance():
    """The abstract of 2017: strongly on the string's amplitude, weakly on its distance from the pickup."""
    for diameter in (0.25e-3, 0.43e-3):
        levels = second_harmonics(replace(WIRE, diameter=diameter), 0.5e-3, HEIGHTS)
        assert np.ptp(levels) < 1.5 and (levels < -20).all()
    amplitudes = [second_harmonics(WIRE, a, HEIGHTS[:2]).mean() for a in (0.25e-3, 0.5e-3, 1e-3)]
    assert np.diff(amplitudes) == pytest.approx([6, 6], abs=0.3)      # in proportion
    # steel without saturation: 5 dB from the nearest to the farthest
    assert np.ptp(second_harmonics(replace(WIRE, saturation=math.inf), 0.5e-3, HEIGHTS)) > 4


def ratio_of_permeabilities(height, **law):
    """Signal with a permeability of 200 relative to that with 100, over the house's spread of 50 to 200."""
    more, less = (PICKUP.sensitivity(replace(WIRE, relative_permeability=mu, **law), height=height, y=THIRD)
                  for mu in (200.0, 100.0))
    return more / less


def test_the_strings_material_hardly_matters_while_it_is_saturated():
    """The abstract of 2017: materials seem to have no influence; which ones were compared is not said in it."""
    assert ratio_of_permeabilities(2.5e-3) == pytest.approx(1, abs=0.02)
    assert ratio_of_permeabilities(1.5e-3) == pytest.approx(1, abs=0.05)
    # farther away it is not saturated, and here the model says something else than the abstract
    assert ratio_of_permeabilities(4e-3) == pytest.approx(1.16, abs=0.02)
    assert ratio_of_permeabilities(6e-3) == pytest.approx(1.36, abs=0.03)
    assert ratio_of_permeabilities(2.5e-3, saturation=math.inf) > 1.5


def test_up_and_down_is_heard_far_better_than_sideways():
    """The abstract of 2017, and P. Lotton, B. Lihoreau, E. Brasseur, Proceedings of ISMA (2014), p. 355, abstract."""
    levels = sideways().levels
    assert levels[1] == pytest.approx(-30, abs=1) and levels[0] < levels[1] - 10      # at twice the frequency
    assert sideways(offset=2e-3).levels[0] > levels[0] + 20       # beside the pole's middle it is not so


def test_a_high_string_is_split_by_a_few_hertz():
    """"On the order of a few Hz" for a high E string: Feinberg, J. Acoust. Soc. Am., on natural frequency splitting of
    a string in a magnet's field; abstract read, its distances are not in it."""
    core, tension = house_instrument.strings["I"]["core"], house_instrument.tension("I")
    place = house_instrument.place["pickup_place"] / house_instrument.place["scale_length"]
    near, far = (pull_and_pitch(height=height, core=core, tension=tension, place=place).detuned()
                 for height in (1.5e-3, 5e-3))
    split = [house_instrument.strings["I"]["frequency"] * (2 ** (across / 1200) - 2 ** (up / 1200))
             for up, across in (near, far)]
    assert 0.5 < split[0] < 5 and split[0] == pytest.approx(2.0, abs=0.05)
    assert split[1] < 0.5 and near[0] < 0 < near[1]


def flux_swing(name, height, amplitude):
    """From the lowest to the highest point of a swing, as a share of one pole's part of the coil's steady linkage."""
    low, high = PICKUP.flux_linkage(house_instrument.steel_of(name), height=height + np.array([-amplitude, amplitude]),
                                    y=house_instrument.y_of(name))
    return (low - high) / (PICKUP.steady_linkage() / len(PICKUP.poles))


def test_a_strong_pluck_swings_the_flux_by_about_a_hundredth():
    """"About 1 %" of the static flux for a strong pluck: M. Zollner, Physik der Elektrogitarre, ch. 5.4, p. 5-17, as
    quoted; neither string and height nor whether that is from rest or from end to end is known.

    Compared: the thickest core, 1 mm up and down, 2 mm over its pole, from end to end, relative to one pole's share.
    """
    assert 1 / 3 < flux_swing("VI", 2e-3, 1e-3) / 0.01 < 3
    assert flux_swing("VI", 2e-3, 1e-3) == pytest.approx(0.0045, rel=0.03)
    # a pluck that is not strong, and the flux of all six poles in the place of one's, are outside of that
    assert flux_swing("III", 2.5e-3, 0.6e-3) < 0.01 / 3 and flux_swing("VI", 2e-3, 1e-3) / 6 < 0.01 / 3


def test_a_pole_of_alnico_5_is_weaker_than_computed():
    """0.093 to 0.095 T at the pole of a rod of 4.75 x 16.5 mm, alnico 5: a page of a builder of pickups, no name on it.

    The library does not agree: 0.121 T a millimetre over the face, 0.093 T at 1.7 mm. What is checked is by how much.
    """
    rod = AlnicoRod(grade=magnet_grade("alnico 5"), diameter=4.75e-3, length=16.5e-3)
    field = rod.flux_density([(0.0, 0.0, z) for z in (0.3e-3, 1e-3, 1.7e-3)])[:, 2]
    assert field[1] / 0.094 == pytest.approx(1.28, abs=0.02)
    assert field[2] == pytest.approx(0.094, rel=0.02)
    # the low end of the grade is no way out: it is a few per cent lower
    grade = magnet_grade("alnico 5")
    least = {name: min(getattr(grade, name).spread) for name in ("remanence", "coercivity", "energy_product")}
    low = replace(rod, grade=replace(grade, **least)).flux_density((0.0, 0.0, 1e-3))[2]
    assert 1.15 < low / 0.094 < field[1] / 0.094
    # on the face and a millimetre over it, as they seem to be quoted, 0.095 and 0.093 T are no rod's field: from 0.3
    # to 1 mm it falls by 18 %
    assert field[1] / field[0] == pytest.approx(0.82, abs=0.01)
