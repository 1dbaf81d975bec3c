"""Quantities that a column of readings may have; their units are those of the table in `base.units`."""
from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True, kw_only=True)
class Quantity:
    """largest: the size (SI) that a reading on this bench does not reach. usual: the unit a bench most often writes."""

    largest: float
    usual: str


QUANTITIES = MappingProxyType({
    "length": Quantity(largest=2.0, usual="mm"), "flux density": Quantity(largest=0.7, usual="G"),
    "capacitance": Quantity(largest=1e-4, usual="pF"), "inductance": Quantity(largest=100.0, usual="H"),
    "frequency": Quantity(largest=1e6, usual="Hz"), "resistance": Quantity(largest=1e9, usual="kohm"),
    "voltage": Quantity(largest=1e3, usual="mV"), "temperature": Quantity(largest=200.0, usual="C")})
