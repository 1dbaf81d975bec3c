"""The bench's files by name: a student's own where they serve, else the invented ones, and a line that says which."""
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path
from types import MappingProxyType

import numpy as np

from lessons_lib.base.units import said
from lessons_lib.base.workshop import house_place, house_strings
from lessons_lib.physics.recorded_pluck import fit_string_height, sensitivity_curve
from lessons_lib.physics.steel import SteelString
from lessons_lib.workbench.invented import PLUCKS, TRUTH, noise_of, workshop_pickup
from lessons_lib.workbench.plausible import readings_must_fit, tone_of
from lessons_lib.workbench.readings import (
    EXCITER_RESPONSE,
    GAUSS_AGAINST_DISTANCE,
    METER_READINGS,
    RESONANCE_WITH_CAPACITORS,
    read_readings,
)
from lessons_lib.workbench.recordings import read_recording

INVENTED = "data"       # beside the page
_STRING = house_strings["VI"]
_TROUBLES = (ValueError, RuntimeError, OSError, ArithmeticError)

_COLUMNS = MappingProxyType({        # name of a file -> its columns
    "resonance_with_capacitors.csv": RESONANCE_WITH_CAPACITORS, "gauss_against_distance.csv": GAUSS_AGAINST_DISTANCE,
    "exciter_response.csv": EXCITER_RESPONSE, "meter_readings.csv": METER_READINGS})


@dataclass(frozen=True, kw_only=True, eq=False)
class Plucks:
    """Three plucks of string VI that belong together.

    lowered: how far the pickup was lowered for each, m. recordings: as read. tones: their partials (`RecordedPluck`).
    """

    lowered: tuple
    recordings: tuple
    tones: tuple

    @property
    def amplitude(self):
        """Of the fundamentals at their start, shape (3,), of full scale."""
        return np.array([tone.amplitude[0] for tone in self.tones])


def from_bench(name, folder=INVENTED):
    """Read a table of the bench and print in a line what was read.

    Parameters
    ----------
    name : str
        One of the workbench's CSV files.
    folder : path
        Of the bench's own files.

    Returns
    -------
    BenchReadings
        Their first remark says whether they are invented.

    Raises
    ------
    ValueError
        For a name that the workbench does not know, or where the invented file itself cannot be read.

    Notes
    -----
    Where the folder's file is missing, cannot be read or leads to nothing that a bench has, one sentence says so and
    the invented file of that name is taken, so that a page goes on.

    Examples
    --------
    >>> from_bench("lengths.csv")
    Traceback (most recent call last):
        ...
    ValueError: "lengths.csv" is no file of this bench; name one of resonance_with_capacitors.csv, \
gauss_against_distance.csv, exciter_response.csv, meter_readings.csv.
    """
    if name not in _COLUMNS:
        raise ValueError(f'"{name}" is no file of this bench; name one of {", ".join(_COLUMNS)}.')
    whose = "invented"
    if _has_own(folder) and not (Path(folder) / name).is_file():
        whose = "not among your own files, so the invented one"
    elif _has_own(folder):
        try:
            return _told(name, "your own", _readings_in(name, Path(folder)))
        except _TROUBLES as trouble:
            print(f"{name}, your own: {_sentence(trouble)} So this page goes on with the invented file.")
    return _told(name, whose, _readings_in(name, Path(INVENTED)))


def from_bench_plucks(folder=INVENTED, *, lowered=TRUTH.lowered, near=_STRING["frequency"]):
    """Read the three recordings of string VI, all of one bench, and print in a line what was read.

    Parameters
    ----------
    folder : path
        Of the bench's own files.
    lowered : sequence of three floats, m
        How far the pickup was lowered for the near, the middle and the far one of the bench's own.
    near : float, Hz
        What the string is tuned to.

    Returns
    -------
    Plucks

    Notes
    -----
    One gain holds for all three, so own and invented ones are never mixed: where one is missing or cannot be used, or
    their levels fall as at no height above the workshop's pickup, a sentence says so and all three invented ones are
    taken, with their own steps of lowering.
    """
    whose = "invented"
    missing = [name for name in PLUCKS if not (Path(folder) / name).is_file()]
    if _has_own(folder) and len(missing) == len(PLUCKS):
        whose = "not among your own files, so the invented ones"
    elif _has_own(folder):
        try:
            if missing:
                raise ValueError(f"{missing[0]} is not there.")
            return _plucks_told("your own", _plucks(Path(folder), lowered, near))
        except _TROUBLES as trouble:
            print(f"Plucks, your own: {_sentence(trouble)} The three belong together (one gain), so this page goes on "
                  "with the three invented ones.")
    return _plucks_told(whose, _plucks(Path(INVENTED), TRUTH.lowered, _STRING["frequency"]))


@lru_cache(maxsize=1)
def string_curve():
    """Sensitivity of the workshop's pickup to string VI against height, 1 to 12 mm: a `SensitivityCurve`."""
    return sensitivity_curve(workshop_pickup(), SteelString(diameter=_STRING["core"]), lowest=1e-3, highest=12e-3,
                             y=house_place["string_y"][0])


def _has_own(folder):
    return Path(folder) != Path(INVENTED)


def _sentence(trouble):
    text = str(trouble) or f"it stopped with {type(trouble).__name__}."
    return text if text.startswith(PLUCKS) else text[0].upper() + text[1:]


def _readings_in(name, folder):
    readings = read_readings(folder / name, columns=_COLUMNS[name])
    readings_must_fit(name, readings)
    return readings


def _told(name, whose, readings):
    columns = ", ".join(f"{column} ({readings.units[column]})" for column in readings.columns)
    print(" ".join([f"{name}, {whose}: {len(readings)} rows of {columns}.", *readings.remarks]))
    return _marked(readings, whose, name)


def _marked(found, whose, name):
    """The same, with whose it is as its first remark: that goes wherever it is shown."""
    remark = "The bench's own file." if whose == "your own" else f"Invented by the course's script: {noise_of(name)}."
    return replace(found, remarks=(remark, *found.remarks))


def _plucks(folder, lowered, near):
    recordings, tones = [], []
    for name in PLUCKS:
        try:
            recordings.append(read_recording(folder / name))
            tones.append(tone_of(recordings[-1], near))
        except _TROUBLES as trouble:
            raise ValueError(f"{name}: {_sentence(trouble)}") from None
    if len({one.rate for one in recordings}) > 1:
        raise ValueError("The three have not one rate of samples; record all alike.")
    plucks = Plucks(lowered=tuple(lowered), recordings=tuple(recordings), tones=tuple(tones))
    _must_give_a_height(plucks)
    return plucks


def _must_give_a_height(plucks):
    level = plucks.amplitude
    try:
        with np.errstate(all="ignore"):
            fit_string_height(plucks.lowered, level, curve=string_curve(), uncertainty=TRUTH.pluck_noise * level)
    except _TROUBLES:
        ratios = " : ".join(f"{one:.2g}" for one in level / level[0])
        raise ValueError(f"The three levels, {ratios}, fall in a way that no height above the workshop's pickup "
                         "explains. Look at their order, the gain and the steps.") from None


def _plucks_told(whose, plucks):
    for name, one, lowered in zip(PLUCKS, plucks.recordings, plucks.lowered):
        print(" ".join([f"{name}, {whose}: {said(one.duration, 's', '.3g')}, {one.rate} samples a second, pickup "
                        f"lowered by {said(lowered, 'mm', 'g')}.", *one.remarks]))
    return replace(plucks, recordings=tuple(_marked(one, whose, name)
                                            for name, one in zip(PLUCKS, plucks.recordings)))
