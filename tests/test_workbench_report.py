"""The report: whole in one file, what the bench writes is text, numbers with their units and uncertainties."""
import re
from html.parser import HTMLParser

import numpy as np
import pytest

from lessons_lib.base.units import prefixed
from lessons_lib.exercises.verdicts import Table
from lessons_lib.physics.fits import fit_added_capacitance
from lessons_lib.pictures.readings import ReadingsAndModel
from lessons_lib.pictures.style import new_figure
from lessons_lib.workbench.readings import RESONANCE_WITH_CAPACITORS, read_readings
from lessons_lib.workbench.report import (
    figure,
    fit_table,
    heading,
    points,
    prose,
    readings_table,
    words_table,
    write_report,
)

FILE = b"added capacitance (nF);resonance (kHz)\n0;8,8\n0,22;5,6\n0,47;4,2\n1,0;3,1\n"
READINGS = read_readings(FILE, columns=RESONANCE_WITH_CAPACITORS)
FIT = fit_added_capacitance(READINGS["added capacitance"], READINGS["resonance"])
NASTY = '<script>alert("1")</script> & <img src=x onerror=y>'


def picture():
    drawn = new_figure(height=5.0)
    lines = ReadingsAndModel(drawn, x_label="added capacitance (pF)", y_label="resonance (kHz)")
    x = READINGS["added capacitance"] * 1e12
    lines.add("coil", x=x, readings=FIT.readings / 1e3, sigma=FIT.sigma / 1e3, model=FIT.model / 1e3)
    return drawn, lines


class Tags(HTMLParser):
    """Every tag, and whether they close in order."""

    def __init__(self):
        super().__init__()
        self.open, self.seen, self.attributes = [], [], []

    def handle_starttag(self, tag, attrs):
        self.seen.append(tag)
        self.attributes += attrs
        if tag not in ("meta", "img"):
            self.open.append(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag


@pytest.fixture
def page(tmp_path):
    drawn, lines = picture()
    path = write_report(tmp_path / "report.html", NASTY, heading(NASTY), NASTY, prose("One.\n\nTwo."),
                        readings_table(READINGS, NASTY), fit_table(FIT, "The coil"),
                        figure(drawn, alt=lines.alt_text() + NASTY, caption=NASTY),
                        points("What the model leaves out", ["Eddy currents.", NASTY]))
    return path.read_text(encoding="utf-8")


def test_the_page_is_whole_and_what_was_written_stays_text(page):
    tags = Tags()
    tags.feed(page)
    assert tags.open == [] and "script" not in tags.seen and tags.seen.count("img") == 1
    assert not [name for name, _ in tags.attributes if name.startswith("on") or name == "href"]
    assert not re.search(r"https?:|@import|url\(", page)
    assert all(value.startswith("data:image/png;base64,") for name, value in tags.attributes if name == "src")


def test_readings_stand_in_their_own_units_with_how_they_were_read(page):
    for text in ("added capacitance (nF)", "resonance (kHz)", ">0.47<", ">4.2<", "Read with decimal commas."):
        assert text in page


def test_values_stand_with_two_digits_of_uncertainty(page):
    row = re.search(r"<td>inductance</td>(.*?)</tr>", page)[1]
    value, sigma, low, high, unit = re.findall(r"<td[^>]*>([^<]*)</td>", row)
    assert unit == "H" and len(sigma.replace(".", "").lstrip("0")) == 2
    assert len({len(text.split(".")[1]) for text in (value, sigma, low, high)}) == 1
    assert float(value) == pytest.approx(FIT["inductance"], abs=0.5 * 10.0 ** -len(value.split(".")[1]))
    assert re.search(r"<td>capacitance</td>.*?<td>pF</td>", page)


def test_three_dots_write_nothing_and_say_so(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    for dots in ("...", ...):
        assert write_report(dots, "t", "text").startswith("Nothing is written yet. For a report, type a name")
    assert list(tmp_path.iterdir()) == []


def test_a_plain_text_is_prose_and_long_ones_are_refused(tmp_path):
    assert prose("One.\n\nTwo.") == "<p>One.</p><p>Two.</p>"
    with pytest.raises(ValueError, match="20001 characters; at most 20000"):
        write_report(tmp_path / "a.html", "t", "x" * 20_001)
    with pytest.raises(ValueError, match="ends with .html; got 'a.txt'"):
        write_report(tmp_path / "a.txt", "t")


def test_a_figure_needs_words_and_a_drawing():
    with pytest.raises(ValueError, match="alt must be a sentence"):
        figure(picture()[0], alt=" ")
    with pytest.raises(TypeError, match="drawing must be a PNG or a figure; got str."):
        figure("<svg/>", alt="a line")


@pytest.mark.parametrize("value, unit, shown", [(1.4e-10, "F", "140 pF"), (0.713, "T", "0.713 T"),
                                                (6e-4, "m", "0.6 mm"), (8800.0, "Hz", "8.8 kHz"), (0.0, "H", "0 H"),
                                                (4.7, "", "4.7 "), (1.69e-6, "V/Hz", "1.69 µV/Hz"),
                                                (7.7e5, "ohm", "770 kΩ")])
def test_units_that_read_well(value, unit, shown):
    factor, text = prefixed(value, unit)
    assert f"{value * factor:.6g} {text}" == shown


def test_the_picture_shows_readings_model_and_what_is_left():
    drawn, lines = picture()
    lower = lines.residual_axes.lines[-1]
    np.testing.assert_allclose(lower.get_ydata(), FIT.standardised)
    np.testing.assert_allclose(lines.axes.lines[0].get_ydata(), FIT.model / 1e3)
    assert lines.residual_axes.get_ylim()[1] >= np.abs(FIT.standardised).max()
    assert [text.get_text() for text in lines.axes.texts] == ["model,\ncoil", "read"]
    assert "coil: 4 readings, from 8.8 at 0 to 3.1 at 1000;" in lines.alt_text()


def test_runs_differ_in_marker_and_dashes_not_in_colour_alone():
    lines = ReadingsAndModel(new_figure(), x_label="x", y_label="y")
    for name in "abcd":
        lines.add(name, x=[1, 2], readings=[1, 2], sigma=[1, 1], model=[1, 2])
    models = [line for line in lines.axes.lines if line.get_label().startswith("model")]
    assert len({line.get_linestyle() for line in models}) == 4
    assert len({line.get_marker() for line in lines.residual_axes.lines[1:]}) == 4


def test_the_point_comes_first_in_the_alternative_text_and_numbers_are_readable():
    lines = ReadingsAndModel(new_figure(), x_label="frequency (Hz)", y_label="voltage (mV)")
    lines.add("coil", x=[200, 7080, 15000], readings=[0.34581, 62.4, 13.16], sigma=[1, 1, 1], model=[0.3, 62, 13])
    lines.say("The voltage is largest at 7.08 kHz.")
    assert lines.alt_text().startswith("The voltage is largest at 7.08 kHz. Voltage (mV) against frequency (Hz). ")
    assert "from 0.346 at 200 over 62.4 at 7080 to 13.2 at 15000" in lines.alt_text()
    assert not re.search(r"\de[+-]?\d", lines.alt_text())


def test_a_list_of_parts_is_a_table_and_no_design_is_nothing():
    parts = Table(caption="Parts", head=("part", "how much"), rows=(("copper", "13 g < 1 oz"),))
    assert "<td>copper</td><td>13 g &lt; 1 oz</td>" in words_table(parts)
    assert words_table("There is no design yet.") == ""
