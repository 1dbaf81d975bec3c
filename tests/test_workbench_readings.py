"""Files of readings: what is read and said, and the one sentence for what is not."""
import numpy as np
import pytest

from lessons_lib.workbench.readings import (
    GAUSS_AGAINST_DISTANCE,
    METER_READINGS,
    RESONANCE_WITH_CAPACITORS,
    read_readings,
)


def read(text, columns=GAUSS_AGAINST_DISTANCE):
    return read_readings(text if isinstance(text, bytes) else text.encode(), columns=columns)


PLAIN = "distance (mm),flux density (mT)\n0,130\n1,84.5\n2,55\n"


def test_a_plain_file_is_read_without_a_remark():
    readings = read(PLAIN)
    np.testing.assert_allclose(readings["distance"], [0, 1e-3, 2e-3])
    np.testing.assert_allclose(readings["flux density"], [0.13, 0.0845, 0.055])
    np.testing.assert_allclose(readings.as_written("flux density"), [130, 84.5, 55])
    assert readings.remarks == () and len(readings) == 3


# other ways to write the same table, and a word of the remark about it
SAME = {
    "gauss": ("distance (mm),flux density (G)\n0,1300\n1,845\n2,550\n", "gauss: 10 000 G are 1 T"),
    "gauss in words, cm": ("Distance [cm], Flux  Density [gauss]\n0,1300\n.1,845\n.2,550\n", "gauss"),
    "tesla, metres": ("distance (m),flux density (T)\n0,.13\n1e-3,8.45e-2\n+0.002,0.055\n", None),
    "decimal commas": ("distance (mm);flux density (mT)\r\n0;130\r\n1,0;84,5\r\n2;55\r\n", "Read with decimal commas."),
    "tabs": ("distance (mm)\tflux density (mT)\n0\t130\n1\t84,5\n2\t55\n", "Read with decimal commas."),
    "byte-order mark": (b"\xef\xbb\xbf" + PLAIN.encode(), None),
    "sixteen bits": (PLAIN.encode("utf-16"), None),
    "Western European": (b"# gr\xf6\xdfe\n" + PLAIN.encode(), "Western European"),
    "comments, empty lines": ("# bench 7\n\n" + PLAIN + "\n,,\n", None),
    "other columns": ("who,flux density (mT),distance (mm)\na,130,0\nb,84.5,1\nc,55,2\n", "Not read: the column who."),
    "not in order": ("distance (mm),flux density (mT)\n2,55\n0,130\n1,84.5\n", "sorted by distance"),
    "underscores": (PLAIN.replace("flux density", "flux_density"), None),
    "quotes": ('"distance (mm)","flux density (mT)"\n"0","130"\n"1","84.5"\n"2","55"\n', None),
}


@pytest.mark.parametrize("case", SAME)
def test_other_ways_to_write_it_give_the_same(case):
    text, said = SAME[case]
    readings = read(text)
    np.testing.assert_allclose(readings["distance"], [0, 1e-3, 2e-3])
    np.testing.assert_allclose(readings["flux density"], [0.13, 0.0845, 0.055])
    assert (said is None and readings.remarks == ()) or said in " ".join(readings.remarks)


REFUSED = {
    "empty": ("", "it is empty"),
    "blanks": (" \n\n", "it is empty"),
    "header alone": ("distance (mm),flux density (G)\n", "no readings under it"),
    "missing column": ("distance (mm),field (G)\n1,900\n",
                       'The column "flux density" is missing; the first line names "distance .mm.", "field .G.".'),
    "no header": ("1,900\n2,600\n", 'The column "distance" is missing; the first line names "1", "900".'),
    "no unit": ("distance,flux density (G)\n1,900\n", 'has no unit; write it as "distance'),
    "wrong unit": ("distance (mm),flux density (H)\n1,900\n", 'has the unit "H"; write it'),
    "gauss for tesla": ("distance (mm),flux density (T)\n1,900\n", "reaches 900 T, .*are they in gauss"),
    "twice": ("distance (mm),distance (mm),flux density (G)\n1,1,900\n", "is twice in the first line"),
    "text in a cell": ("distance (mm),flux density (G)\n1,900\n2,600 G\n",
                       'Line 3, column "flux density": "600 G" is not a number'),
    "empty cell": ("distance (mm),flux density (G)\n1,900\n2,\n", "Line 3.*the cell is empty"),
    "short line": ("distance (mm),flux density (G)\n1,900\n2\n", "Line 3.*the cell is empty"),
    "NaN": ("distance (mm),flux density (G)\n1,nan\n", 'Line 2.*"nan" is not a reading'),
    "huge": ("distance (mm),flux density (G)\n1,1e999\n", "Line 2.*not a number"),
    "thousands": ("distance (mm);flux density (G)\n1;1.300,5\n", 'Line 2.*"1.300,5" is not a number'),
    "decimal commas between commas": ("distance (mm),flux density (G)\n1,0,900,5\n",
                                      "Line 2 has 4 cells.*put semicolons"),
    "too many rows": ("distance (mm),flux density (G)\n" + "1,900\n" * 5001, "5001 rows; at most 5000"),
    "too large": ("#" * 1_000_001, "too large; at most 1 MB"),
    "workbook": (b"PK\x03\x04rest", "no text; save the table as CSV"),
    "binary": (b"\x00\x01\x02", "no text"),
    "digits of another script": ("distance (mm),flux density (G)\n١,900\n", "not a number"),
}


@pytest.mark.parametrize("case", REFUSED)
def test_what_cannot_be_read_gets_one_sentence(case):
    text, sentence = REFUSED[case]
    with pytest.raises(ValueError, match=sentence) as caught:
        read(text)
    assert "\n" not in str(caught.value) and len(str(caught.value)) < 300


def test_a_file_that_is_not_there(tmp_path):
    with pytest.raises(ValueError, match="There is no file .*gauss.csv"):
        read_readings(tmp_path / "gauss.csv", columns=GAUSS_AGAINST_DISTANCE)
    with pytest.raises(TypeError, match="source must be a path or bytes; got list."):
        read_readings([1], columns=GAUSS_AGAINST_DISTANCE)


def test_rows_copied_twice_are_kept_and_named():
    readings = read(PLAIN + "2,55\n")
    assert len(readings) == 4 and "1 row is there again" in readings.remarks[0]


def test_a_repeated_distance_with_another_reading_is_nothing_to_remark():
    assert read(PLAIN + "2,56\n").remarks == ()


def test_units_of_the_other_files():
    readings = read("added capacitance (nF),resonance (kHz)\n0.47,4.2\n", RESONANCE_WITH_CAPACITORS)
    assert (readings["added capacitance"][0], readings["resonance"][0]) == pytest.approx((470e-12, 4200))
    readings = read("frequency (Hz),inductance (mH),resistance (kΩ)\n120,2300,−6.2\n", METER_READINGS)
    assert (readings["inductance"][0], readings["resistance"][0]) == pytest.approx((2.3, -6200))


def test_no_bytes_break_the_reader():
    rng = np.random.default_rng(5)
    for _ in range(300):
        data = bytearray(PLAIN.encode())
        for place in rng.integers(len(data), size=3):
            data[place] = rng.integers(256)
        try:
            readings = read(bytes(data))
        except ValueError as error:
            assert "\n" not in str(error)
        else:
            assert all(np.isfinite(column).all() for column in readings.columns.values())
