"""Lesson 07: every number of its prose computed again, and its predictions checked against what the panels show."""
import math
from dataclasses import replace

import numpy as np
import pytest

from lesson_07_pages import (
    BAR,
    COST,
    HALF,
    HEIGHT,
    LONG_COIL,
    ONE_ROD,
    PLAIN,
    ROD,
    SCREW,
    SIX,
    SIX_RODS,
    WIRE,
    WOUND,
    bell,
    db,
    flexible_fourth,
    lowered,
    magnetic_wrap,
    shared,
    spikes,
)
from lessons_lib.base.workshop import ROW
from lessons_lib.exercises.self_study import load_lesson
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_07.joined import closing
from lessons_lib.lessons.lesson_07.model import BEND, SHORT, arranged, bent_level, pickup, string_levels
from lessons_lib.lessons.lesson_07.pair import hum_pair, pair
from lessons_lib.physics.hum import hum_voltages
from lessons_lib.physics.six_strings import decibels, simple_law, workshop_row
from notebooks import NOTEBOOKS, assert_printed, prose

PROSE = prose("07")
LESSON = load_lesson(NOTEBOOKS.parent / "answers" / "lesson_07.py")


def lifted(kind, name, by=1e-3):
    string = workshop_row()[ROW.index(name)]
    high, low = (pickup(kind).sensitivity(string.steel, height=HEIGHT + up, y=string.y) for up in (by, 0))
    return db(high / low)


def of_lone_coils():
    """Inductances (H) of six small coils with six rods inside, each coil by itself, added."""
    six = arranged("six coils")
    return sum(replace(six, coils=coil).inductance() for coil in six.coils)


def at(loop, name, kind="six"):
    """A flux near string VI in nWb."""
    return 1e9 * getattr(closing(kind=kind, loop=loop), name)


def worked(bar, leak, branch, raised):
    """Steps 1 to 5 of the shared MMF, by hand."""
    before, after = (1 / (1 / leak + 5 / branch + 1 / one) for one in (branch, raised))
    shares = [beside / (bar + beside) for beside in (before, after)]
    return before, shares[0], after, shares[1], 100 * (shares[1] / shares[0] - 1)


def per_kilohm(own, beside, resistance, voltage, long):
    """Steps 1 to 5 of six coils in series, by hand."""
    volts, ohms = own + 2 * beside, 6 * resistance
    return volts, ohms, volts / ohms, voltage / long, voltage / long / (volts / ohms)


SHORTS = [string_levels(kind="short screws", third=third) for third in ("III", "III wound")]

# what the page prints: the number computed here, the words in which it is said there
NUMBERS = [
    (SCREW.changes[2], "own string gains 3.0 dB for"), (-SCREW.changes[3], "neighbour loses 0.10 dB"),
    (-ROD.changes[3], "neighbours lose 0.09 dB"), (BAR / 1e6, "(3.1 MA/Wb)"),
    (-100 * shared(BAR), "costs the other five 0.18 %"),
    (worked(20, 150, 450, 225)[0], "$ = 50.0 MA/Wb"), (worked(20, 150, 450, 225)[1], " = 0.714 of the MMF"),
    (worked(20, 150, 450, 225)[2], "$ = 45.0 MA/Wb"), (worked(20, 150, 450, 225)[3], " = 0.692 of the MMF"),
    (worked(20, 150, 450, 225)[4], "that is −3.1 %"), (worked(25, 150, 300, 150)[0], ": 37.5 MA/Wb"),
    (worked(25, 150, 300, 150)[1], " = 0.600 of the MMF"), (worked(25, 150, 300, 150)[2], ": 33.3 MA/Wb"),
    (worked(25, 150, 300, 150)[3], " = 0.571 of the MMF"), (worked(25, 150, 300, 150)[4], "comes to −4.8 %"),
    (decibels(simple_law(workshop_row()))[3], "below says +7.3 and"),
    (round(decibels(simple_law(workshop_row(third="III wound")))[3], 1), " and −1.0 dB."),
    (1.5 ** 2 * 1.5, " = 3.38."), (db(1.5 ** 3), " = 10.6 dB."), (db(2.5 ** 2 * 0.8), "comes to 14.0 dB"),
    (100 * (1 - SIX["each"].inductance / of_lone_coils()), "(here 12 %)"),
    (-SIX["all"].level, "coils give 17.5 dB less"), (100 * SIX["all"].under_fourth, "gives 92 % of the voltage"),
    (100 * (SIX["output"].wire / LONG_COIL.wire - 1), "six cost 36 % more"),
    (100 * house_instrument.small_coil.fill_factor(WIRE), "already fill 84 % of"),
    (100 * house_instrument.long_coil.fill_factor(WIRE), "they fill 67 %"),
    (per_kilohm(30, 1.5, 1, 45, 4.5)[4], " = 1.82 times"), (per_kilohm(36, 2, 2, 60, 6)[2], " = 3.33 mV"),
    (per_kilohm(36, 2, 2, 60, 6)[4], "comes to 3.0."),
    (1e9 * SIX_RODS["most"], "VI leads 243 nWb"), (at(6.2e-3, "carried"), "still carries 220 nWb"),
    (100 * at(6.2e-3, "carried") / (1e9 * SIX_RODS["most"]), " nWb, 91 %"), (at(10e-3, "carried"), " mm 155, at"),
    (at(15e-3, "carried"), " mm 90 nWb."), (1e9 * ONE_ROD["most"], "alone: 231 nWb at most"),
    (100 * at(6.2e-3, "carried", "one") / (1e9 * ONE_ROD["most"]), "and 87 % of it"),
    (at(3.2e-3, "added"), "copper gets 34 nWb"), (at(6.2e-3, "added"), "outer edge 49:"),
    (1e9 * SIX_RODS["added"].max(), "The most, 57 nWb"),
    (1e3 * SIX_RODS["radii"][SIX_RODS["added"].argmax()], "is 11 mm from the axis"),
    (1e6 * SIX_RODS["rods"], "rods go 69.0 µWb"), (100 * SIX_RODS["mean"], "links 71 % of that"),
    (100 * ONE_ROD["mean"], "round coil 88 %"), (db(0.02), "that is −34.0 dB"),
    (PLAIN.levels[3], "is 8.0 dB louder than string"), (-WOUND.levels[3], "falls to 0.5 dB below"),
    (20 / math.log(10), "= 8.686$ dB"),
    (magnetic_wrap(5)[0], "string VI then gains 5 to"), (magnetic_wrap(20)[0], " to 9 dB, strings"),
    (magnetic_wrap(5)[2], "and IV gain 3 to"), (magnetic_wrap(20)[1], " to 7 dB, and of"),
    (PLAIN.levels[3] - magnetic_wrap(5)[0], "only 2.8 dB are left"),
    (max(np.abs(one.levels - one.by_law).max() for one in SHORTS), "it misses by up to 2.6 dB"),
    (-lowered("rods", 1e-3), "takes away 1.7 dB;"), (lowered("rods", -1e-3), "brings only 1.2 dB."),
    (ROD.changes[2], "it was 1.15 dB in section"),
    (ROD.over_pole[0] * 1e3, "rose from 65 "), (ROD.over_pole[1] * 1e3, " to 102 mT"),
    (-lifted("rods", "III"), "loses 2.9 dB."),
    (float(bent_level("rods", HEIGHT, HALF)), "the dip is −4.4 dB"),
    (float(bent_level("screws", HEIGHT, HALF)), "screws it is −4.8 dB"),
    (float(bent_level("six coils", HEIGHT, HALF)), "deeper, −5.9 dB"),
    (-float(bent_level("alternating", HEIGHT, HALF)), "falls by 23 dB"),
    (db(COST["rods, six coils"].sensitivity / COST["rods, alternating"].sensitivity), "is 1.7 dB softer"),
    (flexible_fourth().wave_speed, "mm at 187 m/s"), (-spikes(), "but 7.4 dB lower"),
    (float(bent_level("rods", HEIGHT, HALF)) - bell("rods", HALF), "the bell is 2 dB wrong"),
    (hum_pair(more_turns=0.0, uneven=0.0).signal["both"], "such a pair is 6.6 dB above"),
    (hum_pair(more_turns=0.0, uneven=0.0).signal["neither reversed"], "the pair gives 3.5 dB"),
    (hum_pair(more_turns=0.02, uneven=0.0).hum["both"], "both reversed, −34 dB of"),
    (hum_pair(more_turns=0.02, uneven=0.02).hum["both"] - hum_pair(more_turns=0.02, uneven=0.0).hum["both"],
     "with both 6 dB more"),
    (1e3 * COST["rods, six coils"].wire / COST["rods, six coils"].turns, "24 mm on average"),
    (1e3 * COST["rods, long coil"].wire / COST["rods, long coil"].turns, "and 132 mm in the long coil"),
    (100 * (COST["rods, six coils"].wire / COST["rods, long coil"].wire - 1), "only 9 % more wire"),
    (-db(COST["rods, six coils"].sensitivity / COST["rods, long coil"].sensitivity), "*lose* 2 dB of"),
    (-db(COST["blade, long coil"].sensitivity / COST["rods, long coil"].sensitivity), "and 4.7 dB less"),
    (-db(COST["rods, alternating"].sensitivity / COST["rods, long coil"].sensitivity), "(alternating ones 3.6 dB)"),
    (2 * COST["rods, long coil"].turns, "15 200 turns"), (2 * COST["rods, long coil"].resistance / 1e3, "17.4 kΩ and"),
    (hum_pair(more_turns=0.0, uneven=0.0).signal["both"], "for 6.6 dB more signal"),
]


@pytest.mark.parametrize("value, words", NUMBERS, ids=[words for _, words in NUMBERS])
def test_numbers_of_the_prose(value, words):
    assert_printed(value, words, PROSE)


def test_words_about_sizes():
    assert 0 < db(1 / (1 + shared(BAR))) < 0.02 and "less than 0.02 dB" in PROSE
    for levels in (PLAIN, WOUND):
        assert 0.5 < np.abs(levels.levels - levels.by_law).max() < 0.9
    assert "the law is still within 0.9 dB" in PROSE
    assert COST["screws on a bar"].inductance / COST["rods, long coil"].inductance == pytest.approx(2, rel=0.03)
    hum = hum_voltages(arranged("alternating"), flux_density=1e-6, frequency=50.0)
    assert abs(hum.sum()) < 1e-10 * abs(hum[0])        # three coils against three
    assert abs(bent_level("blade", HEIGHT, np.linspace(0, BEND, 9))).max() < 0.05
    assert 2 * COST["rods, long coil"].wire == pytest.approx(2000, abs=5) and "2000 m of wire" in PROSE
    assert len(pair(-1).poles) == 12 and "twelve rods" in PROSE
    assert SHORT == 14e-3 and "sawn off to 14 mm" in PROSE


def test_prediction_p1_the_neighbour_loses_less_than_1_db():
    assert -1 < SCREW.changes[3] < -0.005 and LESSON["p1"].seen == "b"


def test_prediction_p2_the_plain_third_is_loudest():
    assert PLAIN.loudest == "III" and PLAIN.softest == "VI" and LESSON["p2"].seen == "c"


def test_prediction_p3_small_coils_make_the_dip_deeper():
    assert bent_level("six coils", HEIGHT, HALF) < bent_level("rods", HEIGHT, HALF) - 0.5 and LESSON["p3"].seen == "a"
