"""The closed table of unit spellings: what a student may write behind a number, and nothing else.

No general unit parser reads a student's text: a table cannot hang, and it cannot guess.
"""
import math
import unicodedata
from dataclasses import dataclass
from types import MappingProxyType

from lessons_lib.base.words import storable

LONGEST = 20  # characters; every spelling is far shorter


@dataclass(frozen=True, kw_only=True)
class Unit:
    """A unit: *factor* times the number gives SI; *dimension* in words, with its article."""

    factor: float
    dimension: str

    @property
    def absolute(self):
        """True for decibel and cent: their tolerance is a width, not a share of the answer."""
        return self.dimension in ("a level", "a musical interval")


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

UNITS = MappingProxyType({
    spelling: Unit(factor=float(factor), dimension=dimension)
    for dimension, spellings in _SPELLINGS.items() for spelling, factor in spellings.items()})


def read_unit(text):
    """Return the `Unit` that *text* spells.

    Both micro signs, both ohm signs, raised figures and ``mm^2`` are read; a declaration may use any of them.

    Raises
    ------
    ValueError
        For anything outside the table; the message is a sentence for a student.

    Examples
    --------
    >>> read_unit("mm²").factor
    1e-06
    """
    if not isinstance(text, str):
        raise ValueError('the unit must be a short text in quotes, such as "mm"')
    if len(text) > LONGEST:
        raise ValueError(f"the unit is longer than {LONGEST} characters")
    spelling = _normal(text)
    if spelling not in UNITS:
        raise ValueError(f'"{storable(text)}" is not one of the units read here')
    return UNITS[spelling]


def _normal(text):
    # compatibility form: one micro sign, one ohm sign, raised 2 becomes 2
    return unicodedata.normalize("NFKC", text).strip().replace("^", "")


def into(number, unit, asked):
    """Return *number*, written in *unit*, as a number in the *asked* unit.

    Parameters
    ----------
    number : float
    unit : str or None
        A spelling of the table; None or an empty text means the asked unit.
    asked : str
        A spelling of the table.

    Raises
    ------
    ValueError
        For an unknown unit or a unit of something else; the message is a sentence for a student.

    Examples
    --------
    >>> into(1200.0, "G", "mT")
    120.0
    """
    if unit is None or (isinstance(unit, str) and unit.strip() in ("", asked)):
        return number
    target = read_unit(asked)
    try:
        given = read_unit(unit)
    except ValueError as error:
        raise ValueError(f"{error}; write one of {', '.join(spellings_like(asked))}") from None
    if given.dimension != target.dimension:
        raise ValueError(f"the unit {unit.strip()} measures {given.dimension}; {asked_words(asked)}")
    return number * (given.factor / target.factor)


def asked_words(asked):
    """Return what is asked, in words with the unit.

    Examples
    --------
    >>> asked_words("uWb")
    'the answer is a flux, in µWb'
    """
    dimension = read_unit(asked).dimension
    return f"the answer is {dimension}" + ("" if asked == "1" else f", in {shown_unit(asked)}")


def spellings_like(asked):
    """Return the spellings that measure the same as *asked*, the asked one first."""
    alike = _SPELLINGS[read_unit(asked).dimension]
    return [asked, *(spelling for spelling in alike if spelling != _normal(asked))]


def with_unit(text, unit):
    """Return a number's *text* with a true minus and its unit behind it; a plain number stays bare."""
    text = text.replace("-", "−")
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
