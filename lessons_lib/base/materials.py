"""Magnet grades and steels: frozen records whose every number carries unit, spread and source.

Measured values scatter from melt to melt; the spread is the range the source gives.
"""
import math
from dataclasses import dataclass

from lessons_lib.base.checks import one_of
from lessons_lib.base.value import Value
from lessons_lib.base.wire import magnet_wire  # noqa: F401  (offered here, beside the other materials)


@dataclass(frozen=True, kw_only=True)
class MagnetGrade:
    """A magnet material: remanence (T), coercivity (A/m, positive), energy_product (J/m3), recoil_permeability (1).

    resistivity: ohm m.
    """

    name: str
    remanence: Value
    coercivity: Value
    energy_product: Value
    recoil_permeability: Value
    resistivity: Value = Value(math.inf, "ohm m", "not known: no current flows")


@dataclass(frozen=True, kw_only=True)
class Steel:
    """A steel, soft or hard-drawn: relative_permeability (initial), saturation (T), density, young_modulus.

    resistivity: ohm m.
    """

    name: str
    relative_permeability: Value
    saturation: Value
    density: Value
    young_modulus: Value
    resistivity: Value = Value(math.inf, "ohm m", "not known: no current flows")


# IEC 60404-8-1:2015 (magnetically hard materials) has minimum values of all magnets here. Its tables could not be read,
# so what is said of them is from memory.
_IEC = "IEC 60404-8-1, from memory"
_MMPA = "MMPA Standard 0100-00, table II-1, from memory"
_MAKERS = "published tables of magnet makers, cast grades"
_ALNICO_5 = _MMPA + "; spread: " + _MAKERS + " (AlNiCo 37/5 of IEC 60404-8-1)"
_RECOIL_5 = _MAKERS + "; " + _IEC + ", AlNiCo 37/5: 3.0 to 4.5"
_RECOIL_8 = _MAKERS + "; " + _IEC + ", AlNiCo 38/11: 2.0 to 3.0"
_ISOTROPIC = "data-sheet value, from memory; " + _IEC + ", isotropic AlNiCo 9/5 and 12/6: 6.0 to 7.0"
_FERRITE = "published tables of magnet makers (hard ferrite of IEC 60404-8-1)"
_PROPERTIES = "MMPA Standard 0100-00, physical properties, from memory"
_RARE_EARTH = ("a usual sintered grade, from memory; energy product and recoil permeability are those of the straight "
               "line, B_r^2 / (4 mu0 mu_rec) and B_r / (mu0 H_c)")
_WIRE = ("common practice, no source. Published for drawn pearlitic wires, abstracts read: coercivity 520 A/m at 24 um "
         "(S. Wurster and others, Nanomaterials 12, 23 (2022)); coercivity and remanence of eutectoid steel (J. W. "
         "Byeon, S. I. Kwun, Mater. Trans. 44, 2184 (2003)); no initial permeability was found")
_EN = "EN 10270-1, from memory"
_ASTM = "a public database of wire after ASTM A228"


def _grade(name, source, remanence, coercivity, energy_product, recoil, recoil_source=None, /, *, resistivity,
           **spreads):
    """One row in the units of the data sheets: T, kA/m, kJ/m3; the resistivity in ohm m."""
    return MagnetGrade(
        name=name,
        remanence=Value(remanence, "T", source, spreads.get("remanence")),
        coercivity=Value(coercivity * 1e3, "A/m", source, spreads.get("coercivity")),
        energy_product=Value(energy_product * 1e3, "J/m3", source, spreads.get("energy_product")),
        recoil_permeability=Value(recoil, "1", recoil_source or source, spreads.get("recoil")),
        resistivity=Value(resistivity, "ohm m", _PROPERTIES))


_GRADES = {grade.name: grade for grade in (
    _grade("alnico 5", _ALNICO_5, 1.28, 51.0, 43.8, 3.6, _RECOIL_5,
           remanence=(1.25, 1.30), coercivity=(47.7e3, 52.5e3), energy_product=(38.2e3, 43.8e3), recoil=(3.0, 4.5),
           resistivity=0.47e-6),
    _grade("alnico 2", _MMPA, 0.75, 45.0, 13.5, 6.4, _ISOTROPIC, recoil=(6.0, 7.0), resistivity=0.65e-6),
    _grade("alnico 3", _MMPA, 0.70, 38.0, 10.7, 6.5, _ISOTROPIC, recoil=(6.0, 7.0), resistivity=0.60e-6),
    _grade("alnico 8", _MAKERS + " (AlNiCo 38/11 of IEC 60404-8-1)", 0.865, 116.5, 40.6, 3.6, _RECOIL_8,
           remanence=(0.83, 0.90), coercivity=(110e3, 123e3), energy_product=(38.2e3, 43.0e3), recoil=(2.0, 3.6),
           resistivity=0.53e-6),
    _grade("ferrite", _FERRITE, 0.3875, 245.0, 28.9, 1.07, _IEC + ", hard ferrite, anisotropic: 1.05 to 1.15",
           remanence=(0.385, 0.390), coercivity=(235e3, 255e3), energy_product=(27.8e3, 30.0e3), recoil=(1.05, 1.15),
           resistivity=1e4),
    _grade("neodymium", _RARE_EARTH, 1.20, 900.0, 270.0, 1.061, resistivity=1.6e-6),
)}
ROD_GRADES = tuple(sorted(_GRADES))

_STEELS = {steel.name: steel for steel in (
    Steel(name="music wire",
          relative_permeability=Value(100.0, "1", _WIRE, (50.0, 200.0)),
          saturation=Value(1.9, "T", _WIRE, (1.8, 2.0)),
          density=Value(7850.0, "kg/m3", _EN + "; " + _ASTM + " gives 7800", (7800.0, 7850.0)),
          young_modulus=Value(200e9, "Pa", "textbook value, from memory; " + _EN + ", 206e9; " + _ASTM + ", 190e9",
                              (190e9, 210e9)),
          resistivity=Value(0.19e-6, "ohm m", "textbook value for carbon steels, from memory")),
    Steel(name="screw steel",
          relative_permeability=Value(500.0, "1", "common practice, no source: free-machining steel as drawn and "
                                      "machined; annealed it has more, from memory", (200.0, 1000.0)),
          saturation=Value(2.0, "T", "textbook value, from memory", (1.9, 2.15)),
          density=Value(7850.0, "kg/m3", "textbook value, from memory"),
          young_modulus=Value(205e9, "Pa", "textbook value, from memory"),
          resistivity=Value(0.15e-6, "ohm m", "textbook value for soft steels, from memory", (0.12e-6, 0.20e-6))),
)}


def magnet_grade(name):
    """The record of a magnet material.

    Parameters
    ----------
    name : str
        "alnico 5", "alnico 2", "alnico 3", "alnico 8", "ferrite" or "neodymium".

    Returns
    -------
    MagnetGrade
        Every field but the name is a float that also has .unit, .spread and .source.

    Raises
    ------
    ValueError
        For a name that is not in the table.

    Examples
    --------
    >>> magnet_grade("alnico 5").remanence
    1.28
    """
    one_of("name of a magnet grade", name, tuple(_GRADES))
    return _GRADES[name]


def steel(name):
    """The record of a steel: "music wire" (strings) or "screw steel" (poles, screws, keepers).

    Returns
    -------
    Steel
        Every field but the name is a float that also has .unit, .spread and .source.

    Raises
    ------
    ValueError
        For a name that is not in the table.

    Examples
    --------
    >>> steel("music wire").saturation
    1.9
    """
    one_of("name of a steel", name, tuple(_STEELS))
    return _STEELS[name]
