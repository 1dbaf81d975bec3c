"""The settings of a whole pickup: one record, kept in a TOML file and read from one, and some to begin with."""
import json
import math
from dataclasses import dataclass, fields, replace
from pathlib import Path
from types import MappingProxyType

from lessons_lib.base.checks import one_of
from lessons_lib.base.units import in_unit, unit_of
from lessons_lib.base.workshop import GRADES, ROW, house_coil, house_load, house_magnet, house_strings
from lessons_lib.lessons.instrument import Instrument, house_instrument, instrument_of
from lessons_lib.lessons.own_instrument import KEYS, check_coil, check_string, house_record, read_toml, tables_in

FORMS = ("rods", "screws", "pair")
OWN = "own"                         # a magnet or a string that is none of the workshop's
MAGNETS, STRINGS = (*GRADES, OWN), (*house_strings, OWN)
# switches; the first word is as the lessons have it
METALS, WRAPS, SPREADS = ("does not answer", "answers"), ("bronze", "nickel-plated steel"), ("not shown", "shown")

# table -> key in the file -> (name in Settings, unit, least, most) or (name, words): the ranges are the sliders'.
# What `instrument.toml` has is named and read as there; heights, turns, wires and magnets go further here.
FILE_KEYS = MappingProxyType({
    "magnet": {"form": ("form", FORMS), "grade": ("grade", MAGNETS), **KEYS["magnet"],
               "remanence_T": ("remanence", "T", 0, 1.3)},
    "coil": KEYS["coil"] | {"turns": ("turns", "1", 1000, 12000), "wire_AWG": ("gauge", "AWG", 40, 46)},
    "place": KEYS["place"] | {"string_height_mm": ("height", "mm", 2, 6), "aside_mm": ("aside", "mm", 0, 3),
                              "fret": ("fret", "1", 0, 19)},
    "strings": KEYS["strings"],
    "play": {"string": ("string", STRINGS), "force_N": ("force", "N", 0, 2), "direction_degrees": (
        "direction", "°", 0, 90)},
    "load": {
        "self_capacitance_pF": ("own", "pF", 0, 300), "cable_pF": ("cable", "pF", 0, 2000),
        "volume_kohm": ("volume", "kΩ", 50, math.inf), "volume_setting": ("volume_setting", "1", 0.1, 1),
        "tone_kohm": ("tone", "kΩ", 50, math.inf), "tone_setting": ("tone_setting", "1", 0, 1),
        "amplifier_kohm": ("amplifier", "kΩ", 20, 10000)},
    "world": {"metal": ("metal", METALS), "wrap": ("wrap", WRAPS), "spread": ("spread", SPREADS)}})

# name in Settings (or of a part of the coil's form) -> (unit, least, most), for sliders
RANGES = MappingProxyType({
    "string_diameter" if (table, name) == ("strings", "diameter") else name: tuple(allowed)
    for table, keys in FILE_KEYS.items() for name, *allowed in keys.values() if len(allowed) == 3})
# of an own string: name in its record -> name in Settings
_OWN_STRING = {"frequency": "frequency", "diameter": "string_diameter", "core": "core",
               "linear_density": "linear_density"}


@dataclass(frozen=True, kw_only=True)
class Settings:
    """Every slider of the whole pickup, SI; left out: the workshop's. Hashable.

    instrument: the form of the coil, places across, and the strings by name; an `Instrument`.
    form: "rods", "screws" (steel screws on one bar magnet, all of the workshop's sizes) or "pair" (two coils with rods
    side by side along the strings, the second with magnets and winding reversed, in series).
    grade: one of MAGNETS; with "own" the rods have *remanence* (T) and *recoil_permeability*. diameter, length (m): of
    a rod.
    string: one of STRINGS; with "own" it has *frequency* (Hz), *string_diameter* and *core* (m), *linear_density*
    (kg/m), and is over the pole of string III.
    height, aside (m): of the string's axis at rest above the pole, and from the pole's middle. scale_length (m);
    pickup_place, pluck_place (m from the bridge); fret.
    force (N), direction (rad, 0 up and down, pi/2 sideways): of the pluck.
    turns, gauge (American): of the winding in the coil's window. own, cable (F), volume, tone, amplifier (ohm),
    volume_setting, tone_setting (0 to 1): as in lesson 6; infinite ohms: no such control.
    metal: one of METALS, whether eddy currents flow in the poles. wrap: one of WRAPS, of the wound strings.
    spread: one of SPREADS, whether it is told how far other pickups of this description may be from this one.
    """

    instrument: Instrument = house_instrument
    form: str = "rods"
    grade: str = "alnico 5"
    diameter: float = house_magnet["diameter"]
    length: float = house_magnet["length"]
    remanence: float = house_magnet["remanence"]
    recoil_permeability: float = house_magnet["recoil_permeability"]
    string: str = "III"
    frequency: float = house_strings["III"]["frequency"]
    string_diameter: float = house_strings["III"]["diameter"]
    core: float = house_strings["III"]["core"]
    linear_density: float = house_strings["III"]["linear_density"]
    height: float = house_instrument.place["string_height"]
    aside: float = 0.0
    scale_length: float = house_instrument.place["scale_length"]
    fret: int = 0
    pickup_place: float = house_instrument.place["pickup_place"]
    pluck_place: float = house_instrument.place["pluck_place"]
    force: float = 1.0
    direction: float = 0.0
    turns: int = house_instrument.coil["turns"]
    gauge: int = house_instrument.gauge
    own: float = house_load["capacitance"]
    cable: float = house_load["cable_capacitance"]
    volume: float = house_load["volume_resistance"]
    volume_setting: float = 1.0
    tone: float = house_load["tone_resistance"]
    tone_setting: float = 1.0
    amplifier: float = house_load["input_resistance"]
    metal: str = METALS[0]
    wrap: str = WRAPS[0]
    spread: str = SPREADS[0]

    def __post_init__(self):
        for name, words in (("form", FORMS), ("grade", MAGNETS), ("string", STRINGS), ("metal", METALS),
                            ("wrap", WRAPS), ("spread", SPREADS)):
            one_of(name, getattr(self, name), words)

    @property
    def row(self):
        """The string: frequency, diameter, core, linear_density; an own core is never thicker than its string."""
        if self.string != OWN:
            return self.instrument.strings[self.string]
        row = {key: getattr(self, name) for key, name in _OWN_STRING.items()}
        return MappingProxyType(row | {"diameter": max(self.string_diameter, self.core)})

    @property
    def pole_number(self):
        """Of the pole that it is over, 0 under string VI."""
        return ROW.index(self.string.removesuffix(" wound").replace(OWN, "III"))

    @property
    def pole_y(self):
        """Where the middle of that pole is across the strings, m."""
        return self.instrument.place["string_y"][self.pole_number]


def _form_of(name, coil, strings):
    """The part of an instrument that no slider sets: the coil's form and the strings by name."""
    turns = {"turns": house_coil["turns"]}
    if coil | turns == house_coil and strings == house_strings:
        return house_instrument
    return instrument_of(replace(house_record, name=name, coil=MappingProxyType(coil | turns),
                                 strings=MappingProxyType(dict(strings))))


def begin_with(instrument):
    """The settings that are an `Instrument`'s own, string III plucked with 1 N behind the workshop's load.

    Examples
    --------
    >>> begin_with(house_instrument) == Settings()
    True
    """
    place, third = instrument.place, instrument.strings["III"]
    return Settings(
        instrument=_form_of(instrument.name, dict(instrument.coil), instrument.strings),
        grade="alnico 5" if instrument.magnet == house_magnet else OWN, **instrument.magnet,
        **{name: third[key] for key, name in _OWN_STRING.items()}, height=place["string_height"],
        **{name: place[name] for name in ("scale_length", "pickup_place", "pluck_place")},
        turns=instrument.coil["turns"], gauge=instrument.gauge)


PRESETS = MappingProxyType({
    "the workshop's": Settings(), "nearer": Settings(height=2e-3), "more turns": Settings(turns=10000),
    "long cable": Settings(cable=1500e-12), "screws on a bar": Settings(form="screws"),
    "a pair against hum": Settings(form="pair"),
    "another string": Settings(string="VI")})


# ---- a file ----------------------------------------------------------------------------------------------------------

def read_settings(path):
    """Return the `Settings` in a TOML file: tables and keys of `instrument.toml`, and of *play* and *load*.

    Raises
    ------
    OSError
        Where the file cannot be opened.
    ValueError
        Where something in it cannot be used; the message is one sentence.
    """
    return read_toml(path, _settings_from)


def _settings_from(found):
    name, tables = tables_in(found, FILE_KEYS, STRINGS)
    rows = {key: MappingProxyType(row | tables["strings"].get(key, {}))
            for key, row in {**house_strings, OWN: house_strings["III"]}.items()}
    own, coil, magnet = rows.pop(OWN), house_coil | tables["coil"], tables["magnet"]
    wound = {key: tables["coil"][key] for key in ("turns", "gauge") if key in tables["coil"]}
    coil.pop("gauge", None)
    if "grade" not in magnet and {"remanence", "recoil_permeability"} & magnet.keys():
        magnet["grade"] = OWN
    settings = Settings(
        instrument=_form_of(name, coil, rows), **magnet, **wound, **tables["place"], **tables["play"],
        **tables["load"], **tables["world"], **{name: own[key] for key, name in _OWN_STRING.items()})
    check_coil(replace(settings.instrument, magnet=MappingProxyType({"diameter": settings.diameter})))
    if settings.string != OWN:      # of an own string every place of the sliders can be kept
        check_string(f"[strings.{settings.string}]", settings.row, settings.scale_length)
    return settings


def save_settings(settings, path):
    """Write `Settings` into a TOML file (path: str or Path) from which `read_settings` gives them back."""
    strings = {key: row for key, row in settings.instrument.strings.items() if row != house_strings[key]}
    own = {key: getattr(settings, name) for key, name in _OWN_STRING.items()}
    values = {**settings.instrument.coil, **{field.name: getattr(settings, field.name) for field in fields(settings)}}
    tables = dict.fromkeys((key for key in FILE_KEYS if key != "strings"), values) | {
        f'strings."{key}"': row for key, row in {**strings, OWN: own}.items()}
    lines = [f"name = {_written(settings.instrument.name)}"]
    for table, record in tables.items():
        keys = FILE_KEYS[table.partition(".")[0]]
        lines += ["", f"[{table}]", *(f"{key} = {_written(record[meant], *allowed)}"
                                      for key, (meant, *allowed) in keys.items())]
    Path(path).write_text("\n".join(lines) + "\n", encoding="utf-8", newline="\n")


def _written(value, unit="1", *_):
    """TOML of a word, or of a number (SI) in its unit."""
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False)
    return repr(value if unit_of(unit).factor == 1 else float(f"{in_unit(value, unit):.12g}"))
