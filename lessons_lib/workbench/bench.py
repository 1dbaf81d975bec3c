"""The bench's files by name: a student's own where they serve, else the invented ones, and a line that says which."""
from pathlib import Path
from types import MappingProxyType

from lessons_lib.base.workshop import house_magnet, house_strings
from lessons_lib.physics.fits import fit_added_capacitance, fit_exciter_response, fit_gauss_readings
from lessons_lib.physics.recorded_pluck import fit_pluck
from lessons_lib.workbench.readings import (
    EXCITER_RESPONSE, GAUSS_AGAINST_DISTANCE, METER_READINGS, RESONANCE_WITH_CAPACITORS, read_readings)
from lessons_lib.workbench.recordings import read_recording

INVENTED = "data"       # beside the page
_ANY_RESISTANCE = 6e3   # ohm: enough to see whether a fit is possible at all


def _try_resonance(readings):
    fit_added_capacitance(readings["added capacitance"], readings["resonance"])


def _try_gauss(readings):
    fit_gauss_readings(readings["distance"], readings["flux density"], diameter=house_magnet["diameter"],
                       length=house_magnet["length"])


def _try_response(readings):
    fit_exciter_response(readings["frequency"], readings["voltage"], resistance=_ANY_RESISTANCE,
                         added_capacitance=readings["added capacitance"])


# name of a file -> its columns, and what must be possible with them
_TABLES = MappingProxyType({
    "resonance_with_capacitors.csv": (RESONANCE_WITH_CAPACITORS, _try_resonance),
    "gauss_against_distance.csv": (GAUSS_AGAINST_DISTANCE, _try_gauss),
    "exciter_response.csv": (EXCITER_RESPONSE, _try_response),
    "meter_readings.csv": (METER_READINGS, lambda readings: None)})


def from_bench(name, folder=INVENTED, *, near=house_strings["VI"]["frequency"]):
    """Read a file of the bench and print in a line what was read.

    Parameters
    ----------
    name : str
        One of the workbench's CSV files, or a name that ends with .wav.
    folder : path
        Of the bench's own files.
    near : float, Hz
        What the string of a recording is tuned to.

    Returns
    -------
    Readings or Recording

    Raises
    ------
    ValueError
        For a name that the workbench does not know, or where the invented file itself cannot be read.

    Notes
    -----
    Where the folder's file is missing, cannot be read or leads to no fit, one sentence says so and the invented file of
    that name is taken, so that a page goes on.

    Examples
    --------
    >>> from_bench("lengths.csv")
    Traceback (most recent call last):
        ...
    ValueError: "lengths.csv" is no file of this bench; name a .wav, or one of resonance_with_capacitors.csv, \
gauss_against_distance.csv, exciter_response.csv, meter_readings.csv.
    """
    if name not in _TABLES and not str(name).lower().endswith(".wav"):
        raise ValueError(f'"{name}" is no file of this bench; name a .wav, or one of {", ".join(_TABLES)}.')
    try:
        found, whose = _read(name, Path(folder), near), "" if Path(folder) == Path(INVENTED) else "your own"
    except (ValueError, RuntimeError, OSError) as trouble:
        if Path(folder) == Path(INVENTED):
            raise
        print(f"{name}, your own: {trouble} So this page goes on with the invented file.")
        found, whose = _read(name, Path(INVENTED), near), ""
    print(" ".join([f"{name}, {whose or 'invented'}: {_what(found)}.", *found.remarks]))
    return found


def _read(name, folder, near):
    if name not in _TABLES:
        recording = read_recording(folder / name)
        fit_pluck(recording.samples, recording.rate, near=near, count=2)
        return recording
    columns, must_be_possible = _TABLES[name]
    readings = read_readings(folder / name, columns=columns)
    must_be_possible(readings)
    return readings


def _what(found):
    if hasattr(found, "rate"):
        return f"{found.duration:.3g} s, {found.rate} samples a second"
    return f"{len(found)} rows of " + ", ".join(f"{name} ({found.units[name]})" for name in found.columns)
