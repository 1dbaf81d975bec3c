"""An instrument of one's own: what is refused and how, and that the panels of all lessons open with it."""
import importlib
import inspect
import math
import re
import textwrap
from collections.abc import Mapping
from dataclasses import is_dataclass
from pathlib import Path

import numpy as np
import pytest
from matplotlib.text import Text

from invented_student import unpack
from lessons_lib import open_sheet, progress
from lessons_lib.base.workshop import house_magnet
from lessons_lib.course.folder import Course
from lessons_lib.course.pack import give_out
from lessons_lib.lessons.instrument import house_instrument, instrument_of, shown
from lessons_lib.lessons.own_instrument import VARIABLE, house_record, in_use, read_instrument
from lessons_lib.page.controls import Slider
from lessons_lib.physics.six_strings import workshop_row
from notebooks import lessons
from notebooks import read as read_notebook
from shown import alt, message, panel_makers, pieces, readouts

TOP = Path(__file__).resolve().parent.parent
# every value at the end of its range that gives the strongest and the weakest signal, as far as the rules let them
STRONGEST = """
name = "strongest"
magnet = {diameter_mm = 6, length_mm = 20, remanence_T = 1, recoil_permeability = 1}
coil = {straight_length_mm = 50, inner_radius_mm = 4, outer_radius_mm = 8.5, bottom_mm = -17, top_mm = 0, turns = 10000}
place = {scale_length_mm = 900, pluck_place_mm = 180, pickup_place_mm = 180, string_height_mm = 2}
strings.VI = {frequency_Hz = 60, density_g_per_m = 7, core_mm = 0.5}
strings.V = {frequency_Hz = 90}
strings.IV = {frequency_Hz = 110}
strings.III = {frequency_Hz = 150, diameter_mm = 1, core_mm = 1}
strings."III wound" = {frequency_Hz = 150}
strings.II = {frequency_Hz = 240}
strings.I = {frequency_Hz = 250, density_g_per_m = 0.9, diameter_mm = 0.46, core_mm = 0.46}
"""
WEAKEST = """
name = "weakest"
magnet = {diameter_mm = 4, length_mm = 8, remanence_T = 0.5, recoil_permeability = 5}
coil = {straight_length_mm = 58, inner_radius_mm = 2.4, outer_radius_mm = 5, bottom_mm = -8, top_mm = -4, turns = 4000}
place = {scale_length_mm = 590, pluck_place_mm = 20, pickup_place_mm = 50, string_height_mm = 3.5}
strings.VI = {core_mm = 0.2}
strings.I = {core_mm = 0.24}
"""


def example():
    """The file that the README shows."""
    shown = re.search(r"^  ```toml\n(.+?)^  ```", (TOP / "README.md").read_text(encoding="utf-8"),
                      re.DOTALL | re.MULTILINE)
    return textwrap.dedent(shown[1])


def read(tmp_path, text):
    path = tmp_path / "own.toml"
    path.write_text(text, encoding="utf-8")
    return read_instrument(path)


# ---- reading ---------------------------------------------------------------------------------------------------------

def test_the_readmes_example_is_read(tmp_path):
    own = read(tmp_path, example())
    assert own.name == "a low cithrel" and own.gauge == 43 and own.coil["turns"] == 6200
    assert own.magnet["diameter"] == pytest.approx(4.8e-3) and own.place["scale_length"] == pytest.approx(0.68)
    assert own.strings["VI"]["linear_density"] == pytest.approx(8.1e-3)
    assert own.strings["III"] == house_record.strings["III"] and own.place["string_y"] == house_record.place["string_y"]


def test_what_is_left_out_stays_the_workshops(tmp_path):
    own = read(tmp_path, 'name = "same"')
    assert (own.magnet, own.coil, own.gauge, own.place, own.strings) == (
        house_record.magnet, house_record.coil, house_record.gauge, house_record.place, house_record.strings)


@pytest.mark.parametrize("text, said", [
    ("", "name must be a text of 1 to 60 letters; got None."),
    ('name = "a\\nb"', "name must be a text of 1 to 60 letters; got 'a\\nb'."),
    ("name = ", "cannot be read: Invalid value (at end of document)."),
    ("name='x'\nmagnets = {}", 'the file has no "magnets"; did you mean magnet?'),
    ("name='x'\nmagnet = 5", "magnet in [magnet] must be a table of values; got 5."),
    ("name='x'\n[magnet]\ndiametre_mm = 5", '[magnet] has no "diametre_mm"; did you mean diameter_mm?'),
    ("name='x'\n[magnet]\nremanence_t = 0.7", '[magnet] has no "remanence_t"; did you mean remanence_T?'),
    ("name='x'\n[coil]\nq = 1", '[coil] has no "q"; there are straight_length_mm, inner_radius_mm,'),
    ("name='x'\n[magnet]\ndiameter_mm = '5'", "[magnet] diameter_mm must be a number from 4 to 6; got '5'."),
    ("name='x'\n[magnet]\ndiameter_mm = true", "[magnet] diameter_mm must be a number from 4 to 6; got True."),
    ("name='x'\n[magnet]\ndiameter_mm = nan", "[magnet] diameter_mm must be a number from 4 to 6; got nan."),
    ("name='x'\n[magnet]\nremanence_T = 1.2", "[magnet] remanence_T must be a number from 0.5 to 1; got 1.2."),
    ("name='x'\n[coil]\nturns = 7000.5", "[coil] turns must be a whole number from 4000 to 10000; got 7000.5."),
    ("name='x'\n[coil]\nwire_AWG = 40", "[coil] wire_AWG must be a whole number from 42 to 44; got 40."),
    ("name='x'\n[strings.VII]\ncore_mm = 1", '[strings] has no "VII"; did you mean VI?'),
    ("name='x'\n[strings.V]\ncore_mm = 1", "[strings.V] core_mm must be diameter_mm or less; got 1."),
    ("name='x'\n[strings.VI]\ncore_mm = 0.6", "[strings.VI] core_mm must be from 0.2 to 0.5; got 0.6."),
    ("name='x'\n[strings.I]\ncore_mm = 0.23", "[strings.I] core_mm must be from 0.24 to 0.46; got 0.23."),
    ("name='x'\n[strings.VI]\nfrequency_Hz = 100",
     "[strings.VI] frequency_Hz, density_g_per_m and the scale length must "
     "make a tension from 60 to 90 N; got 104.1 N."),
    ("name='x'\n[coil]\ninner_radius_mm = 2.7", "[coil] inner_radius_mm must be 2.92 or more, so that rods, screws and "
     "blade of the panels fit in; got 2.7."),
    ("name='x'\n[coil]\nouter_radius_mm = 4",
     "[coil] outer_radius_mm must be 1 more than inner_radius_mm, or larger; got "
     "4."),
    ("name='x'\n[coil]\nbottom_mm = -5", "[coil] bottom_mm must be 3 below top_mm, or lower; got -5."),
    ("name='x'\n[coil]\nbottom_mm = -6\nouter_radius_mm = 5",
     "[coil] radii and heights must leave a window of 10 mm2 or more for the wire; got 6.3 mm2."),
    ("name='x'\n[magnet]\nlength_mm = 12",
     "[magnet] length_mm must be 14.5 or more, down to the coil's bottom; got 12."),
])
def test_each_fault_is_one_sentence(tmp_path, text, said):
    with pytest.raises(ValueError) as trouble:
        read(tmp_path, text)
    assert str(trouble.value).startswith(f"{tmp_path / 'own.toml'}") and said in str(trouble.value)
    assert "\n" not in str(trouble.value)


def test_the_blade_sets_the_least_inner_radius():
    """Lesson 7's blade is 3 mm by 56 mm; beyond the straight 51 mm its corners lie in the half rounds."""
    assert math.hypot(1.5, (56 - 51) / 2) == pytest.approx(2.915, abs=1e-3)


# ---- in the panels ---------------------------------------------------------------------------------------------------

@pytest.fixture
def page(tmp_path, monkeypatch):
    """The folder of a page that was just opened: the instrument in use is looked up anew, here and afterwards."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv(VARIABLE, raising=False)
    monkeypatch.setenv("LESSONS_WORK_FOLDER", str(tmp_path / "work"))
    in_use.cache_clear()
    yield tmp_path
    in_use.cache_clear()


def note(capsys):
    """What opening a sheet prints."""
    open_sheet("01")
    return capsys.readouterr().out.strip()


def makers():
    """Lesson and name -> function, for every function that makes a panel of an instrument, without sliders, too."""
    for number in range(9):
        lesson = importlib.import_module(f"lessons_lib.lessons.lesson_{number:02d}.panels")
        for name, make in inspect.getmembers(lesson, inspect.isfunction):
            if make.__module__ == lesson.__name__ and (make.__doc__ or "").startswith("Panel") and (
                    "instrument" in inspect.signature(make).parameters):
                yield f"{number} {name}", make


def is_in_order(panel):
    inside = [spec.low <= panel.values[name] <= spec.high for name, spec in panel.specs.items()
              if isinstance(spec, Slider)]
    return panel.started and all(inside) and pieces(panel) and not message(panel)


def said_by(panel):
    """Read-outs, alternative text, and the words in the picture."""
    in_picture = [text.get_text() for text in panel._drawing.figure.findobj(Text)]
    return " ".join([readouts(panel), alt(panel), *in_picture])


@pytest.mark.parametrize("text", ["README", STRONGEST, WEAKEST], ids=["example", "strongest", "weakest"])
def test_all_panels_open_with_an_own_instrument(page, monkeypatch, capsys, text):
    (page / "mine.toml").write_text(example() if text == "README" else text, encoding="utf-8")
    monkeypatch.setenv(VARIABLE, "mine.toml")
    said = note(capsys)
    assert re.fullmatch(r"Own instrument in use: [\w ]+\. Numbers in the text are those of the workshop's\.", said)
    panels = {name: make() for name, make in makers()}
    assert [name for name, panel in panels.items() if "house" in said_by(panel)] == []
    assert len(panels) >= 20 and [name for name, panel in panels.items() if not is_in_order(panel)] == []
    if text == "README":
        starts = {name: dict(panel.values) for name, panel in panels.items()}
        assert starts["1 lines_of_flux"] == {
            "diameter": 4.8, "length": 18, "remanence": 0.68, "recoil_permeability": 3.6}
        assert starts["3 pull_and_detuning"] == {"height": 2.8, "place": 0.21, "core": 0.48, "tension": 80.7}
        assert starts["4 turns_in_a_window"] == {"turns": 6200, "gauge": 43}
        assert starts["5 partials"]["pickup_place"] == 140
        assert starts["6 coil_and_cable"]["gauge"] == 43
        assert starts["7 bent_sideways"]["height"] == 2.8


def plain(value):
    """What a panel computes, without records and arrays, so that it can be compared."""
    if is_dataclass(value):
        return plain(vars(value))
    if isinstance(value, Mapping):
        return {name: plain(part) for name, part in value.items()}
    if isinstance(value, tuple | list):
        return [plain(part) for part in value]
    return value.tobytes() if isinstance(value, np.ndarray) else value


def computed(panel):
    start = panel._si()
    result = panel._compute(**start)
    return plain([start, result, panel._data(result, **start)])


def test_two_instruments_in_one_kernel_do_not_mix(page, tmp_path):
    """What was worked out for one and kept is not taken for the other: the house's panels compute what they did."""
    own = instrument_of(read(tmp_path, example()))
    for name, make in makers():
        house = make(instrument=house_instrument)
        before = computed(house)
        assert computed(make(instrument=own)) != before, name
        assert computed(house) == before, name


def test_the_panels_that_take_no_instrument_are_those_of_the_house_alone():
    """The first page, and lesson 8, whose limits and readings are the workshop's."""
    without = {f"{lesson} {name}" for lesson in map("{:02d}".format, range(9))
               for name, make in panel_makers(lesson).items() if "instrument" not in inspect.signature(make).parameters}
    assert without == {"00 shorter_string", "08 design_bench", "08 guess_then_data", "08 one_shared_error"}


def which():
    """Remanence of the rod that the panels show, of the workshop's, and whether string VI is the workshop's steel."""
    return (shown().magnet["remanence"], house_magnet["remanence"], shown().row()[0].steel == workshop_row()[0].steel)


def test_the_file_beside_the_notebook_is_taken_and_answers_keep_the_workshops(page):
    (page / "instrument.toml").write_text(example(), encoding="utf-8")
    assert which() == (0.68, 0.75, False)


@pytest.mark.parametrize("lesson", ["05", "06", "07"])
def test_what_the_cells_of_a_page_print_stays_the_workshops(page, capsys, lesson):
    """The text quotes these numbers: with an own instrument in use every cell prints what the stored page shows."""
    (page / "instrument.toml").write_text(STRONGEST, encoding="utf-8")
    stored, names, compared = next(path for path in lessons() if path.name.startswith(lesson)), {}, 0
    for cell in read_notebook(stored).cells:
        if cell.cell_type == "code" and not cell.source.startswith(("panels.", "sheet.", "# sheet")):
            exec(cell.source, names)
            printed = capsys.readouterr().out
            if cell.outputs:
                assert printed == "".join(output["text"] for output in cell.outputs)
                compared += 1
    assert compared >= 5 and which() == (1.0, 0.75, False)


@pytest.mark.parametrize("text, why", [
    ('name = "x"\nmagnet = {remanence_T = 5}', "[magnet] remanence_T must be a number from 0.5 to 1; got 5."),
    (None, "mine.toml cannot be opened: No such file or directory.")])
def test_a_file_that_cannot_be_used_is_told_and_stops_nothing(page, monkeypatch, capsys, text, why):
    if text:
        (page / "mine.toml").write_text(text)
    monkeypatch.setenv(VARIABLE, "mine.toml")
    said = note(capsys)
    assert said.startswith("Own instrument not in use. mine.toml") and said.endswith(why)
    assert which() == (0.75, 0.75, True)


def test_a_look_at_all_lessons_does_not_say_it_again(page, capsys):
    (page / "instrument.toml").write_text(example(), encoding="utf-8")
    (page / "sheets" / "01").mkdir(parents=True)
    assert "01" in str(progress()) and capsys.readouterr().out == "" and note(capsys)


def test_without_a_file_nothing_is_said(page, capsys):
    assert note(capsys) == "" and which() == (0.75, 0.75, True)


def test_the_same_values_make_one_key(tmp_path):
    """Caches are keyed by the instrument: by its values, not by where they were read."""
    first, second = (read(tmp_path, text) for text in (example(), example()))
    assert first == second and hash(first) == hash(second) and instrument_of(first) is instrument_of(second)
    other = read(tmp_path, example().replace("turns = 6200", "turns = 6201"))
    assert other != first and len({first, second, other}) == 2


# ---- in a course -----------------------------------------------------------------------------------------------------

def test_a_course_puts_its_instrument_beside_the_pages(small):
    (small.folder / "instrument.toml").write_text(example(), encoding="utf-8")
    small.settings('instrument = "instrument.toml"')
    before = {name: path.read_bytes() for name in ("00",
                                                   "01") for path in [small.folder / "given_out" / f"{name}.json"]}
    notebooks = unpack(give_out(small.course, [])[0], small.home / "again")
    assert (notebooks / "instrument.toml").read_text(encoding="utf-8") == example()
    assert before == {name: (small.folder / "given_out" / f"{name}.json").read_bytes() for name in before}


@pytest.mark.parametrize("text, why", [('name = 5', "name must be a text"), (None, "instrument.toml")])
def test_a_course_with_a_faulty_instrument_gives_nothing_out(small, text, why):
    if text:
        (small.folder / "instrument.toml").write_text(text)
    small.settings('instrument = "instrument.toml"')
    packs = sorted((small.folder / "packs").iterdir())
    with pytest.raises((ValueError, OSError), match=why):
        give_out(Course(small.folder), [])
    assert sorted((small.folder / "packs").iterdir()) == packs
