"""How far a pickup as it is made and set up may be from what is written down: a frozen record beside the materials."""
from dataclasses import dataclass

from lessons_lib.base.value import Value
from lessons_lib.base.workshop import house_load, house_place

_PRACTICE = "common practice, no source"


@dataclass(frozen=True, kw_only=True)
class AsMade:
    """Spreads that no table of materials has.

    turns: as a share of the number written down. self_capacitance: F. string_height: m. magnet_strength: of a free
    rod of alnico 5, as a share of what its grade's nominal curve gives; string_memory: what hysteresis, tension and
    remanence of the string's steel may do to the signal, as a factor.
    """

    turns: Value
    self_capacitance: Value
    string_height: Value
    magnet_strength: Value
    string_memory: Value


as_made = AsMade(
    turns=Value(1.0, "1", _PRACTICE, (0.98, 1.02)),
    self_capacitance=Value(house_load["capacitance"], "F", _PRACTICE, (50e-12, 150e-12)),
    string_height=Value(house_place["string_height"], "m", _PRACTICE + ": read with a ruler", (
        house_place["string_height"] - 0.2e-3, house_place["string_height"] + 0.2e-3)),
    # 2.5 mm over a rod of 5 x 17 mm at the corners of the grade's table; how well it is magnetised is left out
    magnet_strength=Value(1.0, "1", "computed from the ranges of coercivity, energy product and remanence of alnico 5",
                          (0.925, 1.023)),
    # minor loops take 11 to 25 % of a small swing (tests/steel_memory.py), another law of the steel some 20 %
    string_memory=Value(1.0, "1", "an estimate, no source: hysteresis, the steel's law and its tension", (0.7, 1.3)))
