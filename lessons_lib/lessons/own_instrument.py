"""An instrument of one's own: strings, magnet, coil and places in one TOML file, checked when it is read.

Only what the file gives replaces a value of the workshop's instrument. The panels show it; exercises, answers and the
pages' own numbers stay with the workshop's.
"""
import math
import os
import tomllib
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cached_property, lru_cache
from numbers import Real
from pathlib import Path
from types import MappingProxyType

from lessons_lib.base.checks import refuse
from lessons_lib.base.units import in_unit, said, unit_of
from lessons_lib.base.workshop import house_coil, house_magnet, house_place, house_screw, house_strings

FILE, VARIABLE = "instrument.toml", "LESSONS_INSTRUMENT"
HOUSE_GAUGE = 44        # American gauge of the workshop's wire

# table -> key in the file -> (name in the record, unit, least, most); the ranges are the sliders'
KEYS = {
    "magnet": {
        "diameter_mm": ("diameter", "mm", 4, 6), "length_mm": ("length", "mm", 8, 20),
        "remanence_T": ("remanence", "T", 0.5, 1), "recoil_permeability": ("recoil_permeability", "1", 1, 5)},
    "coil": {
        "straight_length_mm": ("straight_length", "mm", 50, 58), "inner_radius_mm": ("inner_radius", "mm", 2.4, 5),
        "outer_radius_mm": ("outer_radius", "mm", 4, 8.5), "bottom_mm": ("bottom", "mm", -17, -5),
        "top_mm": ("top", "mm", -4.5, 0), "turns": ("turns", "1", 4000, 10000), "wire_AWG": ("gauge", "AWG", 42, 44)},
    "place": {
        "scale_length_mm": ("scale_length", "mm", 590, 900), "pluck_place_mm": ("pluck_place", "mm", 20, 180),
        "pickup_place_mm": ("pickup_place", "mm", 50, 180), "string_height_mm": ("string_height", "mm", 2, 3.5)},
    "strings": {
        "frequency_Hz": ("frequency", "Hz", 30, 500), "diameter_mm": ("diameter", "mm", 0.2, 2),
        "core_mm": ("core", "mm", 0.2, 1), "density_g_per_m": ("linear_density", "g/m", 0.2, 20)}}
_WHOLE = ("turns", "wire_AWG", "fret")
_CORES = {"VI": (0.2, 0.5), "I": (0.24, 0.46)}      # mm, of two sliders that begin there
_TENSIONS = {"VI": (60, 90)}                        # N, of a slider
_BLADE = (1.5e-3, 28e-3)        # m, half width and half length of the blade that lesson 7 puts into the coil


@dataclass(frozen=True, kw_only=True)
class InstrumentRecord:
    """What the panels show: records as in `base.workshop`, and the American gauge of the coil's wire; hashable."""

    name: str
    magnet: MappingProxyType
    coil: MappingProxyType
    gauge: int
    place: MappingProxyType
    strings: MappingProxyType

    @property
    def window(self):
        """What the coil's wire can fill, m2."""
        return (self.coil["outer_radius"] - self.coil["inner_radius"]) * (self.coil["top"] - self.coil["bottom"])

    def __hash__(self):
        return self._hash

    @cached_property
    def _hash(self):
        strings = frozenset((name, frozenset(string.items())) for name, string in self.strings.items())
        return hash((self.name, self.gauge, strings,
                     *(frozenset(part.items()) for part in (self.magnet, self.coil, self.place))))


house_record = InstrumentRecord(name="the workshop's", magnet=house_magnet, coil=house_coil, gauge=HOUSE_GAUGE,
                                place=house_place, strings=house_strings)


def read_instrument(path):
    """Return the `InstrumentRecord` in a TOML file.

    Raises
    ------
    OSError
        Where the file cannot be opened.
    ValueError
        Where something in it cannot be used; the message is one sentence.

    Notes
    -----
    The ranges are those of the panels' sliders; the rules between values see to it that rod, screw and blade stand
    inside the coil and that the longest screws' bar stays below it.
    """
    return read_toml(path, _instrument_from)


def read_toml(path, made_from):
    """What *made_from* makes of the tables in a TOML file; what is wrong is a ValueError that begins with the path."""
    path = Path(path)
    try:
        found = tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except ValueError as error:
        raise ValueError(f"{path} cannot be read: {str(error).rstrip('.')}.") from None
    try:
        return made_from(found)
    except ValueError as error:
        raise ValueError(f"{path}: {error}") from None


def _instrument_from(found):
    name, tables = tables_in(found, KEYS, house_strings)
    coil = house_coil | {"gauge": HOUSE_GAUGE} | tables["coil"]
    instrument = InstrumentRecord(
        name=name, magnet=MappingProxyType(house_magnet | tables["magnet"]), gauge=coil.pop("gauge"),
        coil=MappingProxyType(coil), place=MappingProxyType(house_place | tables["place"]),
        strings=MappingProxyType({key: MappingProxyType(house | tables["strings"].get(key, {}))
                                  for key, house in house_strings.items()}))
    check_coil(instrument)
    bottom, length = -instrument.coil["bottom"], instrument.magnet["length"]
    _hold(f"[magnet] length_mm must be {_mm(bottom)} or more, down to the coil's bottom", length >= bottom - 1e-9,
          _mm(length))
    for key, string in instrument.strings.items():
        check_string(f"[strings.{key}]", string, instrument.place["scale_length"], key)
    return instrument


def tables_in(found, keys, strings):
    """The name in a file, and its tables in SI by the names in the record.

    Parameters
    ----------
    found : dict
        As tomllib gives it.
    keys : mapping
        Of the form of KEYS; a key that takes one of several words has (name, words) instead of a unit and a range.
    strings : iterable of str
        Names that there may be in [strings].
    """
    _know(found, ("name", *keys), "the file")
    name = found.get("name")
    if not isinstance(name, str) or not 1 <= len(name.strip()) <= 60 or not name.isprintable():
        refuse("name", "a text of 1 to 60 letters", name)
    by_string = _table_in(found, "strings", "the file")
    _know(by_string, strings, "[strings]")
    tables = {key: _record(found, key, keys[key], f"[{key}]") for key in keys if key != "strings"}
    tables["strings"] = {key: _record(by_string, key, keys["strings"], f"[strings.{key}]") for key in by_string}
    return name.strip(), tables


def _table_in(found, name, where):
    table = found.get(name, {})
    if not isinstance(table, dict):
        refuse(f"{name} in {where}", "a table of values", table)
    return table


def _know(found, known, where):
    """Refuse an unknown key; one that looks like a known one gets it named."""
    small = {one.lower(): one for one in known}
    for key in found:
        if key not in known:
            near = get_close_matches(key.lower(), small, n=1, cutoff=0.5)
            raise ValueError(f'{where} has no "{key[:40]}"; '
                             + (f"did you mean {small[near[0]]}?" if near else f"there are {', '.join(known)}."))


def _record(found, name, keys, where):
    """The values of one table, by their names in the record, SI."""
    record, table = {}, _table_in(found, name, where)
    _know(table, keys, where)
    for key, value in table.items():
        meant, *allowed = keys[key]
        if len(allowed) == 1:
            if value not in allowed[0]:
                refuse(f"{where} {key}", "one of " + ", ".join(f'"{word}"' for word in allowed[0]), value)
            record[meant] = value
            continue
        unit, low, high = allowed
        if isinstance(value, bool) or not isinstance(value, Real) or not low <= value <= high or (
                key in _WHOLE and value != int(value)):
            kind = "a whole number" if key in _WHOLE else "a number"
            refuse(f"{where} {key}", f"{kind} from {low:g} to {high:g}", value)
        # 51 times 0.001 is 0.051 here, as the workshop's record has it
        record[meant] = int(value) if key in _WHOLE else float(f"{value * unit_of(unit).factor:.12g}")
    return record


def _hold(rule, holds, got):
    if not holds:
        raise ValueError(f"{rule}; got {got}.")


def check_coil(one):
    """Refuse an instrument whose coil breaks a rule between values, those left out of the file, too."""
    coil = one.coil
    wide = max(one.magnet["diameter"], house_screw["diameter"]) / 2
    farthest = one.place["string_y"][-1] - coil["straight_length"] / 2
    least = max(wide, wide + farthest, math.hypot(_BLADE[0], max(0.0, _BLADE[1] - coil["straight_length"] / 2)))
    least_shown = math.ceil(in_unit(least, "mm") * 100 - 1e-6) / 100
    _hold(f"[coil] inner_radius_mm must be {least_shown:g} or more, so that rods, screws and blade of the panels "
          "fit in", coil["inner_radius"] >= least - 1e-9, _mm(coil["inner_radius"]))
    _hold("[coil] outer_radius_mm must be 1 more than inner_radius_mm, or larger",
          coil["outer_radius"] >= coil["inner_radius"] + 1e-3 - 1e-9, _mm(coil["outer_radius"]))
    _hold("[coil] bottom_mm must be 3 below top_mm, or lower", coil["bottom"] <= coil["top"] - 3e-3 + 1e-9,
          _mm(coil["bottom"]))
    _hold("[coil] radii and heights must leave a window of 10 mm2 or more for the wire",
          one.window >= 10e-6 - 1e-12, f"{in_unit(one.window, 'mm2'):.4g} mm2")


def check_string(where, string, length, name=None):
    """Refuse a string that breaks a rule on a scale *length* (m); by its *name* the limits of sliders count, too."""
    thin, thick = _CORES.get(name, (0.2, 1))            # mm
    slack, tight = _TENSIONS.get(name, (20, 250))       # N, what steel and neck stand
    core = in_unit(string["core"], "mm")
    _hold(f"{where} core_mm must be diameter_mm or less", string["core"] <= string["diameter"] + 1e-12, f"{core:.4g}")
    _hold(f"{where} core_mm must be from {thin:g} to {thick:g}", thin - 1e-9 <= core <= thick + 1e-9, f"{core:.4g}")
    tension = (2 * length * string["frequency"]) ** 2 * string["linear_density"]
    _hold(f"{where} frequency_Hz, density_g_per_m and the scale length must make a tension from {slack} to {tight} N",
          slack <= tension <= tight, said(tension, "N", ".1f"))


def _mm(metres):
    return f"{in_unit(metres, 'mm'):.4g}"


@dataclass(frozen=True, kw_only=True)
class InUse:
    """The instrument that the panels of this process show, and one line about it where it is not the workshop's."""

    instrument: InstrumentRecord
    note: str = ""


@lru_cache(maxsize=1)
def in_use():
    """Return the `InUse` of this process, read once: the file that LESSONS_INSTRUMENT names, else instrument.toml in
    the folder where the notebook runs, else the workshop's instrument. What cannot be used is told, never raised.

    Examples
    --------
    >>> in_use().instrument.magnet["remanence"]
    0.75
    """
    named = os.environ.get(VARIABLE)
    path = Path(named or FILE)
    if not named and not path.exists():
        return InUse(instrument=house_record)
    try:
        own = read_instrument(path)
    except (OSError, ValueError) as error:
        why = f"{path} cannot be opened: {error.strerror}." if isinstance(error, OSError) else error
        return InUse(instrument=house_record, note=f"Own instrument not in use. {why}")
    return InUse(instrument=own, note=f"Own instrument in use: {own.name}. Numbers in the text are those of the "
                                      "workshop's.")
