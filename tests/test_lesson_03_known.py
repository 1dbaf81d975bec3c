"""How well lesson 3's signal is known: the bands of its panel by other ways, every number of section 10."""
import numpy as np
import pytest
from numpy.testing import assert_allclose

from band_by_drawing import band_by_drawing
from lesson_03_pole import PICKUP
from lessons_lib.base.as_made import as_made
from lessons_lib.base.materials import magnet_grade, steel
from lessons_lib.exercises.self_study import load_lessons
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_03.known import GROUPS, HEIGHTS, REFERENCE, WORDS, bands, known_to, quantities, signal
from lessons_lib.physics.spread import band
from lessons_lib.physics.steel import SteelString
from notebooks import NOTEBOOKS, prose

PROSE = prose("03")
SECTION = PROSE[PROSE.index("## 10. How well"):PROSE.index("## What this model leaves out")]
ANSWERS = next(lesson for lesson in load_lessons(NOTEBOOKS.parent / "answers") if lesson.id == "03")
THIRD = house_instrument.strings["III"]["core"]
NOMINAL = {name: float(value) for name, value in quantities("all of it").items() if name != "other_offset"}


@pytest.mark.parametrize("height", (1.5e-3, 2.5e-3, 6e-3))
def test_with_nothing_off_it_is_the_signal_of_the_pickup(height):
    plain = PICKUP.sensitivity(SteelString(diameter=THIRD), height=height)
    assert_allclose(signal(height, core=THIRD, **NOMINAL), plain, rtol=2e-3)


def test_the_six_are_those_of_the_tables():
    wire, rod = steel("music wire"), magnet_grade("alnico 5")
    found = quantities("all of it")
    assert set(found) == set(WORDS) and found["permeability"] == wire.relative_permeability
    assert (found["saturation"].spread, found["recoil"].spread) == (wire.saturation.spread,
                                                                    pytest.approx(rod.recoil_permeability.spread))
    assert found["offset"].spread == pytest.approx((-0.2e-3, 0.2e-3))
    assert all(not hasattr(value, "spread") for value in quantities("the steel").values() if value in (1.0, 0.0))
    assert {name for group in list(GROUPS.values())[1:] for name in group} == set(WORDS)


@pytest.mark.parametrize("group", list(GROUPS)[1:])
def test_less_unknown_is_a_narrower_band(group):
    part, whole = bands(group), bands("all of it")
    assert ((part.high - part.low) / part.median < 1.02 * (whole.high - whole.low) / whole.median + 1e-12).all()


def test_the_ratio_to_itself_is_one_at_its_own_height():
    at = np.argmin(np.abs(HEIGHTS - REFERENCE))
    found = bands("all of it")
    assert_allclose([found.low[1, at], found.median[1, at], found.high[1, at]], 1, rtol=1e-12)


def test_bands_by_drawing_everything_at_once():
    """The magnet on a grid of its recoil permeability, so that few have to be solved."""
    def three(other_offset, recoil, **values):
        values |= {"recoil": round(4 * recoil) / 4}
        one = signal(4e-3, core=THIRD, **values)
        other = signal(4e-3 + other_offset - values["offset"], core=house_instrument.strings["VI"]["core"], **values)
        return np.array([one, one / signal(REFERENCE, core=THIRD, **values), one / other])
    honest = band_by_drawing(three, quantities("all of it"), draws=200)
    known = known_to(height=4e-3, group="all of it")
    width = honest.high - honest.low
    assert (np.abs(np.array(known.low) - honest.low) < 0.13 * width).all()
    assert (np.abs(np.array(known.high) - honest.high) < 0.13 * width).all()


def ranges(known):
    """From the median to 16 and to 84 %, as shares of it: of the signal and of its two ratios."""
    return list(zip(-known.below, known.above))


def share_of_permeability(known):
    """Of the variance of the signal, and whether anything contributes more."""
    share = known.shares["permeability"][0]
    return share, share == max(one[0] for one in known.shares.values())


def per_cent(ends):
    return " to ".join(f"{100 * end:+.0f} %".replace("-", "−") for end in ends)


def test_every_number_of_the_section():
    near, at, reach, far = (known_to(height=height, group="all of it") for height in (1.5e-3, 2.5e-3, 4e-3, 6e-3))
    signals = per_cent(ranges(at)[0]).replace(" to ", " and ")
    assert f"between {signals} of {at.median[0] * 1e3:.1f} mV per m/s" in SECTION
    share, most = share_of_permeability(at)
    assert most and f"Most of that ({share:.0%}".replace("%", " %") in SECTION
    assert f"at 1.5 mm the band is {per_cent(ranges(near)[0])}" in SECTION and not share_of_permeability(near)[1]
    assert f"At 6 mm it is {per_cent(ranges(far)[0])}" in SECTION
    assert share_of_permeability(far) == (pytest.approx(0.9, abs=0.03), True)
    assert f"since each height is read by itself: {per_cent((-0.08, 0.09))}" in SECTION
    assert per_cent(ranges(at)[2]) == per_cent((-0.08, 0.09))
    assert f"at 4 mm the ratio is only known to {per_cent(ranges(reach)[1])}" in SECTION
    assert 0.8 < 20 * np.log10(1 + ranges(at)[0][1]) < -20 * np.log10(1 + ranges(at)[0][0]) < 1.4      # "about 1 dB"
    steels, magnets = (known_to(height=2.5e-3, group=group) for group in ("the steel", "the magnet"))
    assert "the ratio is known to 1 %" in SECTION and max(map(abs, ranges(steels)[2])) < 0.01
    assert "nothing is left to see" in SECTION and max(map(abs, ranges(magnets)[2])) < 0.003


def test_ranges_are_printed_as_the_tables_have_them():
    low, high = as_made.magnet_strength.spread
    assert f"(−{100 * (1 - low):.1f} % to +{100 * (high - 1):.1f} %, computed" in SECTION
    for text, value in (("(50 to 200)", steel("music wire").relative_permeability),
                        ("(1.8 to 2.0 T)", steel("music wire").saturation),
                        ("(3.0 to 4.5)", magnet_grade("alnico 5").recoil_permeability)):
        assert text in SECTION and value.spread == tuple(map(float, text.strip("() T").split(" to ")))
    assert "±0.2 mm" in SECTION and "by 2 %" in SECTION and as_made.turns.spread == (0.98, 1.02)


def test_the_permeability_is_drawn_evenly_in_its_logarithm():
    assert "as often between 50 and 100 as between 100 and 200" in SECTION
    assert band(lambda a: a, {"a": steel("music wire").relative_permeability}).median == pytest.approx(100, rel=1e-3)


def test_which_number_to_trust():
    """Exercise 3.18: one ruler, so the height is off by the same for both strings and both heights."""
    alike = {name: value for name, value in quantities("all of it").items() if name != "other_offset"}
    sixth = house_instrument.strings["VI"]["core"]

    def height_of_40_mv(**values):
        heights = np.linspace(1.6e-3, 5.9e-3, 200)
        return np.interp(-40e-3, -signal(heights, core=THIRD, **values), heights)
    found = {"a": band(lambda **values: signal(4e-3, core=THIRD, **values), alike),
             "b": band(lambda **values: signal(4e-3, core=THIRD, **values) / signal(2e-3, core=THIRD, **values), alike),
             "c": band(lambda **values: signal(4e-3, core=THIRD, **values) / signal(4e-3, core=sixth, **values), alike),
             "d": band(height_of_40_mv, alike)}
    widths = {letter: (one.below + one.above) / 2 for letter, one in found.items()}
    assert ANSWERS["3.18"].right == min(widths, key=widths.get) == "c"
    assert widths["c"] < 0.005 and widths["d"] == pytest.approx(0.11, abs=0.01)
    assert {letter: round(widths[letter], 1) for letter in "ab"} == {"a": 0.2, "b": 0.2}
    assert "within half a per cent" in ANSWERS["3.18"].worked and "(d) has 11 %" in ANSWERS["3.18"].worked


def test_the_prediction_is_seen():
    """Prediction p6: at 4 mm the ratio to string VI has the narrowest band."""
    known = known_to(height=4e-3, group="all of it")
    widths = [high - low for low, high in ranges(known)]
    assert widths[2] < 0.6 * widths[1] < widths[0] and ANSWERS["p6"].seen == "c"
