"""Lesson 06, section 8: numbers of its prose, of its prediction and its exercises; its panel and its picture.

The model under it is checked in test_eddy_currents.py; here is what the lesson makes of it.
"""
import math

import numpy as np
import pytest
from matplotlib.lines import Line2D
from numpy.testing import assert_allclose

from lesson_06_coil import AT
from lessons_lib.base.materials import magnet_grade, steel
from lessons_lib.base.workshop import house_bar, house_screw
from lessons_lib.exercises.draws import SELF_STUDY_SECRET, draw
from lessons_lib.exercises.self_study import load_lessons
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_06 import panels as lesson_06
from lessons_lib.lessons.lesson_06.metal import metal_and_curves, over_poles, poles_and_metal
from lessons_lib.lessons.lesson_06.model import level, meter, peak_of, reading, response
from lessons_lib.physics.eddy_currents import permeability_with_eddy_currents, skin_depth
from lessons_lib.physics.magnetised import answer_at
from lessons_lib.physics.magnets import BarMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.six_strings import in_a_row
from lessons_lib.physics.steel import SteelPole
from lessons_lib.pictures.metal_in_coil import MetalInCoil
from lessons_lib.pictures.style import new_figure
from notebooks import NOTEBOOKS, assert_printed, prose
from shown import alt, readouts

PROSE = prose("06")
LESSON = next(lesson for lesson in load_lessons(NOTEBOOKS.parent / "answers") if lesson.id == "06")
KINDS = ("alnico", "screws", "ferrite")
ALNICO = {"resistivity": magnet_grade("alnico 5").resistivity, "relative_permeability": 3.6}
STEEL = {"resistivity": steel("screw steel").resistivity, "relative_permeability": 500.0}


def over(poles, frequency=4e3, cable=500e-12):
    return over_poles(poles=poles, cable=cable, frequency=frequency)


def heights(poles):
    """Of the peak without and with currents, dB above the lowest frequencies."""
    return peak_of(over(poles).still)[1], peak_of(over(poles).flowing)[1]


def on_the_meter(frequency):
    """The house coil alone, with currents in its rods."""
    return meter(gauge=44, turns=7600, capacitance=100e-12, frequency=frequency, metal_answers=True).chosen


def screws_on_the_meter(frequency, currents=True):
    one = over("screws")
    return reading(one.flowing if currents else one.still, frequency)


NUMBERS = [
    (100 / math.e, "falls to 37 % with"),
    (1e3 * skin_depth(**ALNICO, frequency=1e3), "| 5.8 mm | "),
    (1e3 * skin_depth(**ALNICO, frequency=10e3), "mm | 1.8 mm |"),
    (1e3 * skin_depth(**STEEL, frequency=1e3), "| 0.28 mm |"),
    (1e3 * skin_depth(**STEEL, frequency=10e3), "| 0.087 mm |"),
    (over("screws").still.inductance, "Over the screws 4.28 H"), (over("screws", 1e3).inductance, "become 4.06 H"),
    (over("screws", 10e3).inductance, "and 3.56 H"), (over("screws").added / 1e3, "the metal adds 9.4 kΩ"),
    (np.subtract(*heights("screws")), "Their peak is 3.4 dB lower"),
    (peak_of(over("screws").flowing)[0] / 1e3, "in frequency: 3.24 kHz"),
    (peak_of(over("screws").still)[0] / 1e3, "not 3.13"),
    (np.subtract(*heights("alnico")), "Over alnico it is 2.1 dB lower"),
    (on_the_meter(120.0).inductance, "coil reads 2.157 H at"), (on_the_meter(1e3).inductance, "and 2.173 H at"),
    (screws_on_the_meter(120.0).inductance, "would be 4.23 H"), (screws_on_the_meter(1e3).inductance, "and 4.12 H"),
    (on_the_meter(10e3).inductance, "now reads 5.9 H"), (AT.chosen.inductance, "not 12.7 H"),
    (on_the_meter(10e3).quality, "$Q_m$ of 0.92"), (AT.chosen.quality, "not 2.2."),
    (response().peak_height, "goes from 5.4 to"), (response(metal_answers=True).peak_height, "to 4.7 dB"),
]


@pytest.mark.parametrize("value, words", NUMBERS, ids=[words for _, words in NUMBERS])
def test_numbers_of_the_section(value, words):
    assert_printed(value, words, PROSE)


def test_materials_of_the_table_are_those_of_the_panel():
    assert poles_and_metal("alnico")[0]["resistivity"] == ALNICO["resistivity"] == pytest.approx(0.47e-6)
    assert poles_and_metal("screws")[0]["resistivity"] == STEEL["resistivity"] == pytest.approx(0.15e-6)
    assert [poles_and_metal(kind)[0]["relative_permeability"] for kind in KINDS] == pytest.approx([3.6, 500, 1.07])


def test_on_the_meter_capacitance_wins_over_alnico_and_the_currents_over_screws():
    assert on_the_meter(1e3).inductance > on_the_meter(120.0).inductance
    assert screws_on_the_meter(1e3).inductance < screws_on_the_meter(120.0).inductance
    # each alone: the capacitance raises, and lowering is the currents' doing
    assert screws_on_the_meter(1e3, currents=False).inductance > screws_on_the_meter(120.0, currents=False).inductance
    note = LESSON["6.7"].teaching_note
    for value, words in ((on_the_meter(1e3).inductance, "kHz, 2.173 H after"),
                         (on_the_meter(120.0).inductance, "after 2.157 H."),
                         (screws_on_the_meter(1e3).inductance, "win: 4.12 H"),
                         (screws_on_the_meter(120.0).inductance, "after 4.23 H")):
        assert_printed(value, words, note)


def test_with_the_controls_the_load_damps_more_than_the_metal_does():
    """Times as in the denominator of Q: L/R_load of 143 kohm, and the added resistance times the capacitance."""
    for kind in ("alnico", "screws"):
        one = over(kind, peak_of(over(kind).flowing)[0])
        assert one.added * 600e-12 < one.inductance / 143e3 / 2


def test_prediction_p5_currents_turn_the_order_round():
    still, flowing = ({kind: heights(kind)[n] for kind in KINDS} for n in (0, 1))
    assert still["screws"] > still["alnico"] > still["ferrite"]
    assert flowing["ferrite"] > flowing["alnico"] > flowing["screws"]
    question = LESSON["p5"]
    for kind, words in (("screws", "highest, 14.6 dB"), ("alnico", "alnico, 13.9 dB"), ("ferrite", "ferrite, 13.3 dB")):
        assert_printed(still[kind], words, question.question)
    for kind, words in (("ferrite", "round: 13.3 dB"), ("alnico", "flows, 11.8 dB"), ("screws", "alnico, 11.3 dB")):
        assert_printed(flowing[kind], words, question.seen_notes["c"])
    assert still["ferrite"] == pytest.approx(flowing["ferrite"], abs=1e-9)


def test_what_the_currents_take_from_the_strings_voltage_is_said():
    """Of the coil's field along string III, 4 mm beside a pole, where by reciprocity the voltage comes from."""
    place, along = np.array([4e-3, house_instrument.y_of("III"), 2.5e-3]), np.array([1.0, 0.0, 0.0])

    def of_a_magnet(points):
        """B (T) of 1 A m2 along the string at that place."""
        away = points - place
        r = np.linalg.norm(away, axis=-1, keepdims=True)
        return 1e-7 * (3 * away * (away @ along)[..., None] / r ** 5 - along / r ** 3)
    screws = Pickup(poles=in_a_row(SteelPole(**house_screw), house_instrument.place["string_y"]),
                    coils=house_instrument.long_coil, bars=BarMagnet(**house_bar))
    lost = {}
    for name, pickup, material in (("alnico", house_instrument.pickup, ALNICO), ("screws", screws, STEEL)):
        shown = permeability_with_eddy_currents(**material, diameter=pickup.poles[0].diameter,
                                                frequency=np.array([0.0, 4e3]))
        answer = answer_at(pickup.poles, np.stack([shown] * 6, axis=-1), pickup._per_ampere, pickup._coil_strength,
                           of_a_magnet)
        field = pickup._coil_field(place) @ along + answer
        assert field[0].real == pytest.approx(pickup.field_per_ampere(place) @ along, rel=1e-3)
        lost[name] = 20 * math.log10(abs(field[0] / field[1]))
    assert (round(lost["alnico"], 1), round(lost["screws"])) == (0.1, 1)
    assert "at 4 kHz it is 0.1 dB over alnico rods, 1 dB over steel screws" in PROSE
    assert "0.1 dB at 4 kHz over alnico, 1 dB over steel screws" in LESSON.teaching_note.replace("\n", " ")


# ---- exercises -------------------------------------------------------------------------------------------------------

def test_the_flux_fills_the_pole_where_the_skin_depth_is_its_radius():
    """By the formula of the skin depth: the resistivity that gives the depth, then the frequency for the radius."""
    for bench in range(20):
        drawn = draw(LESSON["6.13"], secret=SELF_STUDY_SECRET, bench=f"b{bench:03d}")
        si = drawn.si
        metal = {"relative_permeability": 300.0, "resistivity":
                 si["depth"] ** 2 * math.pi * si["frequency"] * 4e-7 * math.pi * 300.0}
        assert skin_depth(**metal, frequency=si["frequency"]) == pytest.approx(si["depth"])
        assert skin_depth(**metal, frequency=drawn.answer) == pytest.approx(si["diameter"] / 2)
    note = LESSON["6.13"].teaching_note
    assert skin_depth(**STEEL, frequency=13.0) == pytest.approx(house_screw["diameter"] / 2, rel=0.04)
    assert skin_depth(**ALNICO, frequency=5.3e3) == pytest.approx(2.5e-3, rel=0.01)
    assert "13 Hz for the house screw" in note and "5.3 kHz" in note


def test_the_flux_nearly_fills_a_pole_of_one_skin_depth():
    shown = permeability_with_eddy_currents(**STEEL, diameter=2 * skin_depth(**STEEL, frequency=100.0), frequency=100.0)
    assert abs(shown) > 0.95 * 500 and "nearly fills the pole" in PROSE


def test_thin_wires_in_place_of_a_thick_pole_lose_little():
    """Cut along its length: at 4 kHz a wire as thick as half a skin depth takes a thousandth of what it stores."""
    depth = skin_depth(**STEEL, frequency=4e3)
    thick, thin = (permeability_with_eddy_currents(**STEEL, diameter=diameter, frequency=4e3)
                   for diameter in (4.8e-3, depth / 2))
    assert -thick.imag / thick.real > 0.9 and -thin.imag / thin.real < 0.02 and thin.real > 0.99 * 500


# ---- panel and picture -----------------------------------------------------------------------------------------------

@pytest.mark.parametrize("kind", KINDS)
def test_the_winding_over_poles_is_a_divider_of_its_impedance(kind):
    one, (_, metal), frequency = over(kind), poles_and_metal(kind), 3e3
    load = 1 / (2j * math.pi * frequency * 600e-12 + 1e-6)
    by_hand = load / (load + one.still.resistance + metal.impedance(frequency))
    assert level(one.flowing, frequency) == pytest.approx(20 * math.log10(abs(by_hand)), abs=1e-6)
    s = 2j * math.pi * 4e3
    assert one.added + s * one.inductance == pytest.approx(metal.impedance(4e3))


def test_alnico_over_the_house_coil_is_the_instruments_metal():
    assert poles_and_metal("alnico")[1] is house_instrument.metal
    assert over("alnico").still.inductance == pytest.approx(house_instrument.inductance(), rel=1e-4)


def test_the_panel_says_the_peaks_and_the_depth():
    panel = lesson_06.poles_that_answer()
    assert readouts(panel).startswith("peak with currents: 4.36 kHz, +11.8 dB without: 4.39 kHz, +13.9 dB")
    panel.asked(poles="steel screws on a bar")
    assert "skin depth: 0.138 mm" in readouts(panel) and "resistance that the metal adds: 9.3" in readouts(panel)
    assert "with them at 3.24 kHz, +11.3 dB" in alt(panel)
    panel.asked(poles="ferrite rods")
    assert "skin depth: none: no current" in readouts(panel) and "flux density on the axis: 100.0 %" in readouts(panel)
    switched = lesson_06.coil_and_cable()
    assert "Eddy currents" not in alt(switched)
    switched.asked(metal_answers="yes")
    assert "Eddy currents flow in the rods." in alt(switched) and "4.12 kHz, +4.67 dB" in readouts(switched)


def test_the_picture_marks_the_skin_depth_only_inside_a_pole():
    figure = new_figure()
    picture = MetalInCoil(*figure.subplots(1, 2), radius=3e-3)

    def drawn(**settings):
        artists = picture.update(**metal_and_curves(over(**settings))["metal"])
        return ([one.get_xydata() for one in artists if isinstance(one, Line2D)],
                [one.get_text() for one in artists if hasattr(one, "get_text")])
    lines, texts = drawn(poles="screws", frequency=200.0)
    assert "one skin depth" in texts and {"2.47 H", "1.81 H"} <= set(texts)
    depth = 1e3 * skin_depth(**STEEL, frequency=200.0)
    places = [line[0, 0] for line in lines if len(line) == 2]
    assert_allclose(sorted(places), [-2.4, 2.4 - depth, 2.4], atol=1e-9)
    assert "one skin depth" not in drawn(poles="alnico", frequency=1e3)[1]
    flat, = (line for line in drawn(poles="ferrite")[0] if len(line) > 2)
    assert_allclose(flat[:, 1], 1.0)
