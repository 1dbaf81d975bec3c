"""Quantities and units that a column of readings may have, and how they are written back."""
from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class Quantity:
    """units: name to factor to SI. largest: the size (SI) that a reading on this bench does not reach."""

    units: dict
    largest: float


QUANTITIES = {
    "length": Quantity(units={"m": 1.0, "cm": 1e-2, "mm": 1e-3, "um": 1e-6}, largest=2.0),
    "flux density": Quantity(units={"T": 1.0, "mT": 1e-3, "uT": 1e-6, "G": 1e-4, "kG": 0.1}, largest=0.7),
    "capacitance": Quantity(units={"F": 1.0, "uF": 1e-6, "nF": 1e-9, "pF": 1e-12}, largest=1e-4),
    "inductance": Quantity(units={"H": 1.0, "mH": 1e-3}, largest=100.0),
    "frequency": Quantity(units={"Hz": 1.0, "kHz": 1e3}, largest=1e6),
    "resistance": Quantity(units={"ohm": 1.0, "kohm": 1e3, "Mohm": 1e6}, largest=1e9),
    "voltage": Quantity(units={"V": 1.0, "mV": 1e-3, "uV": 1e-6}, largest=1e3),
    "temperature": Quantity(units={"C": 1.0}, largest=200.0),
}

# other spellings of the same units
_SPELLINGS = {"gauss": "G", "gs": "G", "kilogauss": "kG", "tesla": "T", "millitesla": "mT", "µt": "uT", "μt": "uT",
              "µm": "um", "μm": "um", "µf": "uF", "μf": "uF", "µv": "uV", "μv": "uV", "ω": "ohm", "ohms": "ohm",
              "kω": "kohm", "k": "kohm", "mω": "Mohm", "degc": "C", "°c": "C", "celsius": "C"}


def unit_named(text, kind):
    """The unit that *text* names among those of a quantity; None for another.

    Examples
    --------
    >>> unit_named("gauss", "flux density"), unit_named("mt", "flux density"), unit_named("s", "length")
    ('G', 'mT', None)
    """
    text, units = text.strip(), QUANTITIES[kind].units
    if text in units:
        return text
    text = _SPELLINGS.get(text.lower(), text)
    alike = [unit for unit in units if unit.lower() == text.lower()]
    return text if text in units else alike[0] if len(alike) == 1 else None
