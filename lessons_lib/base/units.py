"""The one table of units, and how a number is said: what a student may write, what is printed, its factor to SI.

The table is closed. No general unit parser reads a student's text: a table cannot hang, and it cannot guess.
"""
import math
import re
import unicodedata
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from lessons_lib.base.checks import refuse
from lessons_lib.base.words import storable

RAISED = str.maketrans("-0123456789/", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹ᐟ")     # as exponents are printed
LONGEST = 20  # characters; every spelling is far shorter
# BIPM, The International System of Units (SI Brochure), 9th edition (2019), Table 7: exponent of ten -> prefix
_PREFIXES = {-12: "p", -9: "n", -6: "µ", -3: "m", 0: "", 3: "k", 6: "M"}


@dataclass(frozen=True, kw_only=True)
class Unit:
    """A unit: *factor* times the number gives SI; *dimension* in words, with its article."""

    factor: float
    dimension: str

    @property
    def absolute(self):
        """True for decibel and cent: their tolerance is a width, not a share of the answer."""
        return self.dimension in ("a level", "a musical interval")


# What a student may write behind an answer: this is a promise. Degree: SI Brochure, 9th edition, Table 8; gauss and
# oersted: its 8th edition (2006), Table 9. One spelling for each size of unit comes first.
_SPELLINGS = {
    "a length": {"m": 1, "cm": 1e-2, "mm": 1e-3, "um": 1e-6, "μm": 1e-6},
    "an area": {"m2": 1, "cm2": 1e-4, "mm2": 1e-6},
    "a flux density": {"T": 1, "mT": 1e-3, "uT": 1e-6, "μT": 1e-6, "G": 1e-4, "gauss": 1e-4},
    "a flux": {"Wb": 1, "mWb": 1e-3, "uWb": 1e-6, "μWb": 1e-6, "nWb": 1e-9, "V s": 1},
    "a current": {"A": 1, "mA": 1e-3, "At": 1, "A-turns": 1},
    "a field strength": {"A/m": 1, "kA/m": 1e3, "Oe": 1e3 / (4 * math.pi), "kOe": 1e6 / (4 * math.pi)},
    "a reluctance": {"A/Wb": 1, "MA/Wb": 1e6, "1/H": 1},
    "a flux per unit length": {"Wb/m": 1, "nWb/mm": 1e-6, "V s/m": 1},
    "a resistance": {"ohm": 1, "Ohm": 1, "Ω": 1, "kohm": 1e3, "kOhm": 1e3, "kΩ": 1e3,
                     "Mohm": 1e6, "MOhm": 1e6, "MΩ": 1e6},
    "an inductance": {"H": 1, "mH": 1e-3},
    "a capacitance": {"F": 1, "uF": 1e-6, "μF": 1e-6, "nF": 1e-9, "pF": 1e-12},
    "a voltage": {"V": 1, "mV": 1e-3, "uV": 1e-6, "μV": 1e-6},
    "a frequency": {"Hz": 1, "kHz": 1e3},
    "a time": {"s": 1, "ms": 1e-3},
    "a force": {"N": 1, "mN": 1e-3},
    "a stiffness": {"N/m": 1},
    "a mass": {"kg": 1, "g": 1e-3},
    "a mass per unit length": {"kg/m": 1, "g/m": 1e-3},
    "a mechanical impedance": {"kg/s": 1},
    "a speed": {"m/s": 1, "mm/s": 1e-3},
    "an angle": {"rad": 1, "deg": math.pi / 180, "°": math.pi / 180},
    "an energy product": {"J/m3": 1, "kJ/m3": 1e3},
    "a plain number": {"1": 1, "%": 1e-2},
    "a level": {"dB": 1},
    "a musical interval": {"cent": 1, "cents": 1},
}

# What panels and reports say besides, and what the head of a column of readings may be: no answer may have it.
_NOT_IN_ANSWERS = {
    "a plain number": {"": 1},
    "a flux density": {"kG": 0.1, "kilogauss": 0.1, "gs": 1e-4, "tesla": 1, "millitesla": 1e-3},
    "a resistance": {"ohms": 1, "k": 1e3},
    "a temperature": {"C": 1, "degC": 1, "°C": 1, "celsius": 1},     # in degrees Celsius here, never in kelvin
    "a power": {"W": 1},
    "a sensitivity": {"V per m/s": 1, "mV per m/s": 1e-3},
    "a volume": {"cm3": 1e-6},
    "a density": {"kg/m3": 1},
    "a permeability": {"H/m": 1},
    "a resistivity": {"ohm m": 1},
    "a noise density": {"nV/√Hz": 1e-9},
    "a wire gauge": {"AWG": 1},
    "an amount of data": {"byte": 1, "MB": 1e6},
}


def _by_spelling(spellings_of):
    return {spelling: Unit(factor=float(factor), dimension=dimension)
            for dimension, spellings in spellings_of.items() for spelling, factor in spellings.items()}


UNITS = MappingProxyType(_by_spelling(_SPELLINGS))
_ALL = MappingProxyType({**UNITS, **_by_spelling(_NOT_IN_ANSWERS)})


@cache
def unit_of(unit):
    """Return the `Unit` of a spelling that the course itself uses, "" of a plain number; ValueError for any other.

    Examples
    --------
    >>> unit_of("mV per m/s").factor
    0.001
    """
    if _normal(unit) not in _ALL:
        refuse("unit", "one of the spellings of the table in base/units.py", unit)
    return _ALL[_normal(unit)]


def in_unit(value, unit):
    """Return a *value* in SI as a number of the *unit*; an array gives an array.

    Examples
    --------
    >>> in_unit(4.7e-9, "pF"), in_unit(2345.0, "kHz"), in_unit(0.0021, "m")
    (4700.0, 2.345, 0.0021)
    """
    factor = unit_of(unit).factor
    if factor >= 1:
        return value / factor
    many = 1 / factor       # times a whole number has one rounding less than divided by a decimal share
    return value * (float(round(many)) if math.isclose(many, round(many), rel_tol=1e-15) else many)


def said(value, unit, spec):
    """Return the text of a *value* in SI: number, true minus, blank, and the unit as it is printed.

    Parameters
    ----------
    value : float
    unit : str
        A spelling of the table; "" for a plain number, which stays bare.
    spec : str
        Python's format of the number: ".2f" decimals, ".3g" figures, "+z.1f" always with a sign and no minus zero.

    Notes
    -----
    A blank between number and unit: SI Brochure, 9th edition, 5.4.3; before per cent, too: 5.4.7.

    Examples
    --------
    >>> said(-2.5e-3, "mT", "+.1f"), said(8697.1, "kΩ", ".3g"), said(-0.04, "dB", "+z.1f"), said(0.12, "%", "+.1f")
    ('−2.5 mT', '8.7 kΩ', '+0.0 dB', '+12.0 %')
    """
    return with_unit(format(in_unit(value, unit), spec), unit)


def resistance_words(ohm):
    """Return the text of a resistance, three figures.

    Examples
    --------
    >>> resistance_words(8697.1), resistance_words(1e6)
    ('8.7 kΩ', '1 MΩ')
    """
    return said(ohm, "MΩ" if ohm >= 999.5e3 else "kΩ", ".3g")


def prefixed(value, unit):
    """Return the factor from SI and the unit in which a value reads well; lengths in mm, the rest by SI prefix.

    Examples
    --------
    >>> prefixed(1.4e-10, "F"), prefixed(0.0021, "m"), prefixed(2.3, "H")
    ((1000000000000.0, 'pF'), (1000.0, 'mm'), (1.0, 'H'))
    """
    if unit in ("", "m", "1/s"):
        return (1e3, "mm") if unit == "m" else (1.0, unit)
    size = 0 if not value or 0.1 <= abs(value) < 1000 else 3 * math.floor(math.log10(abs(value)) / 3)
    size = min(max(size, min(_PREFIXES)), max(_PREFIXES))
    return 10.0 ** -size, _PREFIXES[size] + ("Ω" if unit == "ohm" else unit)


@cache
def column_units(quantity):
    """Return what the head of a column of a *quantity* may say, in small letters -> the unit it stands for.

    Examples
    --------
    >>> column_units("inductance")
    mappingproxy({'h': 'H', 'mh': 'mH'})
    >>> column_units("flux density")["gauss"]
    'G'
    """
    found = {spelling: unit.factor for spelling, unit in _ALL.items() if unit.dimension.partition(" ")[2] == quantity}
    first = {factor: spelling for spelling, factor in reversed(found.items())}
    return MappingProxyType({spelling.lower(): first[factor] for spelling, factor in found.items()})


def read_unit(text):
    """Return the `Unit` that *text* spells.

    Both micro signs, both ohm signs, raised figures and ``mm^2`` are read; a declaration may use any of them. Anything
    outside the table is a ValueError with a sentence for a student.

    Examples
    --------
    >>> read_unit("mm²").factor
    1e-06
    """
    if not isinstance(text, str):
        raise ValueError('the unit must be a short text in quotes, such as "mm"')
    if len(text) > LONGEST:
        raise ValueError(f"the unit is longer than {LONGEST} characters")
    spelling = text if text in UNITS else _normal(text)
    if spelling not in UNITS:
        raise ValueError(f'"{storable(text)}" is not one of the units read here')
    return UNITS[spelling]


def _normal(text):
    # compatibility form: one micro sign, one ohm sign, raised 2 becomes 2
    return unicodedata.normalize("NFKC", text).strip().replace("^", "")


def spellings_like(asked):
    """Return the spellings that measure the same as *asked*, the asked one first."""
    alike = _SPELLINGS[read_unit(asked).dimension]
    return [asked, *(spelling for spelling in alike if spelling != _normal(asked))]


def with_unit(text, unit):
    """Return a number's *text* with a true minus and its unit behind it; a plain number stays bare.

    Examples
    --------
    >>> with_unit("-2.4e+07", "nWb"), with_unit("44", "")
    ('−2.4 × 10⁷ nWb', '44')
    """
    text = re.sub(r"e[+-]\d+", lambda power: " × 10" + str(int(power[0][1:])).translate(RAISED), text).replace("-", "−")
    return text if unit in ("", "1") else f"{text} {shown_unit(unit)}"


def shown_unit(unit):
    """Return a unit's spelling as it is printed: with µ, raised figures, the degree sign, cents as many.

    Examples
    --------
    >>> shown_unit("uWb"), shown_unit("kJ/m3"), shown_unit("cent")
    ('µWb', 'kJ/m³', 'cents')
    """
    if unit in ("", "1"):
        return ""
    if unit == "cent":
        return "cents"
    if unit.startswith("u"):
        unit = "µ" + unit[1:]
    return unit.replace("m2", "m²").replace("m3", "m³").replace("deg", "°")
