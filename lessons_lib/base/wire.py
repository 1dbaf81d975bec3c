"""Magnet wire: round copper under a thin coat of enamel."""
import math
from dataclasses import dataclass

from lessons_lib.base.checks import between, positive
from lessons_lib.base.units import said
from lessons_lib.base.value import Value

_TEMPERATURE_RANGE = (-50.0, 200.0)   # C: copper's straight line in temperature, and what enamel stands


@dataclass(frozen=True, kw_only=True)
class MagnetWire:
    """A wire: bare diameter and insulated_diameter (m), area of the copper (m2), resistance_per_metre (ohm/m, 20 C)."""

    name: str
    diameter: float
    insulated_diameter: float
    area: float
    resistance_per_metre: float
    temperature_coefficient: float

    def resistance(self, length, temperature=20.0):
        """Resistance (ohm) of a length (m) of the wire at a temperature (C, from -50 to 200)."""
        positive(length=length)
        between(*_TEMPERATURE_RANGE, temperature=temperature)
        return float(self.resistance_per_metre * length * (1 + self.temperature_coefficient * (temperature - 20.0)))


def magnet_wire(*, awg=None, diameter=None):
    """The record of a magnet wire, by its gauge or by the diameter of its copper.

    Parameters
    ----------
    awg : float, optional
        American wire gauge, 36 to 46.
    diameter : float, optional
        Diameter of the bare copper, m, from 10 um to 1 mm. Give this or awg.

    Returns
    -------
    MagnetWire
        Every field but the name is a float that also has .unit, .spread and .source.

    Raises
    ------
    TypeError
        When both or neither of the two are given, or one is not a number.
    ValueError
        For a gauge or a diameter outside the range.

    Notes
    -----
    Gauge: the exact law 0.127 mm x 92^((36 - awg)/39). Wire tables after ASTM B258 round the diameter to a tenth of a
    mil instead, which moves the resistance by up to 3 % (2.9 % at AWG 40, 0.5 % at AWG 42, 2.3 % at AWG 44).
    Resistance: annealed standard copper, 1/58 ohm mm2/m at 20 C (IEC 60028), 0.393 % per degree. Real fine wire is
    drawn thinner by the pull of the winding and comes out some per cent higher.
    Insulated diameter: nine eighths of the bare one, a rule of thumb for a single coat, from memory; coats differ, so
    its spread is wide. IEC 60317-0-1, grade 1, from memory, allows at most 1.2 times (0.060 mm over 0.050 mm, 0.067
    over 0.056, 0.076 over 0.063).

    Examples
    --------
    >>> wire = magnet_wire(diameter=0.05e-3)
    >>> round(wire.resistance_per_metre, 2)
    8.78
    >>> magnet_wire(awg=36).diameter
    0.000127
    """
    if (awg is None) == (diameter is None):
        raise TypeError(f"magnet_wire must be given awg or diameter; got awg={awg!r} and diameter={diameter!r}.")
    if awg is not None:
        between(36, 46, awg=awg)
        name, source = f"AWG {awg:g}", "exact law of the American wire gauge"
        diameter = 0.127e-3 * 92 ** ((36 - awg) / 39)
    else:
        between(1e-5, 1e-3, diameter=diameter)
        name, source = said(diameter, "mm", ".4g"), "as given"
    area = math.pi / 4 * diameter**2
    copper = "annealed standard copper, 1/58 ohm mm2/m at 20 C, IEC 60028"
    enamel = ("rule of thumb for a single coat, 9/8 of the bare diameter, from memory; IEC 60317-0-1, grade 1, from "
              "memory: at most 1.2 times")
    return MagnetWire(
        name=name, diameter=Value(diameter, "m", source),
        insulated_diameter=Value(1.125 * diameter, "m", enamel, (1.06 * diameter, 1.2 * diameter)),
        area=Value(area, "m2", source), resistance_per_metre=Value(1e-6 / 58 / area, "ohm/m", f"{copper}; {source}"),
        temperature_coefficient=Value(3.93e-3, "1/K", "annealed standard copper at 20 C, IEC 60028"))
