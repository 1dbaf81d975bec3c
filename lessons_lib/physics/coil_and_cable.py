"""The house coil with a cable, a capacitor and controls as a few choices: where that puts its peak, and how high."""
from dataclasses import dataclass
from functools import lru_cache

from lessons_lib.base.checks import not_negative, positive
from lessons_lib.base.units import said
from lessons_lib.base.workshop import house_coil, house_load
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.design import design_report

CABLE_PER_METRE = 100e-12   # F/m; common practice, no source


@dataclass(frozen=True, kw_only=True)
class PeakReport:
    """What cable and controls lead to, SI.

    peak (Hz); peak_height (dB above low frequencies); low_level (dB relative to the induced voltage); reach, the
    cable's length (m).
    """

    peak: float
    peak_height: float
    low_level: float
    reach: float


@lru_cache(maxsize=1)
def _house():
    """The house coil's design: its inductance takes most of the time."""
    return design_report(magnet="alnico 5", wire=44, turns=house_coil["turns"], tops=[0.0] * 6)


def cabled_coil(*, cable, capacitor, volume, tone):
    """The house coil with cable and controls, as a `LoadedCoil`; arguments as `peak_report`."""
    not_negative(cable=cable, capacitor=capacitor)
    positive(volume=volume, tone=tone)
    return LoadedCoil(**{**house_load, "capacitance": house_load["capacitance"] + capacitor,
                         "cable_capacitance": cable * CABLE_PER_METRE, "volume_resistance": volume,
                         "tone_resistance": tone},
                      resistance=_house().resistance, inductance=_house().inductance)


def peak_report(*, cable, capacitor, volume, tone):
    """Where cable and controls put the peak of the house coil, and how high.

    Parameters
    ----------
    cable : float
        Length, m, of 100 pF each.
    capacitor : float
        Capacitance soldered across the coil, F; 0: none.
    volume, tone : float
        Whole tracks of the two controls, ohm, both fully up; the tone control with its 22 nF.

    Returns
    -------
    PeakReport

    Raises
    ------
    TypeError, ValueError
        For a value that is not a number or out of range; where the load is so heavy that there is no peak.

    Notes
    -----
    The circuit is `LoadedCoil`'s, into an amplifier of 1 MΩ; what it leaves out is said there. Checked against the
    model of lesson 6, which puts its coil together in another way, and against 1/(2 pi sqrt(L C)) where little damps:
    tests/test_coil_and_cable.py.

    Examples
    --------
    >>> house = peak_report(cable=5, capacitor=0, volume=250e3, tone=500e3)
    >>> round(house.peak / 1e3, 2), round(house.peak_height, 1)
    (4.19, 5.4)
    """
    coil = cabled_coil(cable=cable, capacitor=capacitor, volume=volume, tone=tone)
    (frequency, top), low = coil.peak(), coil.low_frequency_level
    if frequency == 0:
        raise ValueError("there is no peak at all with so heavy a load; take larger controls, or more capacitance")
    return PeakReport(peak=frequency, peak_height=top - low, low_level=low, reach=cable)


def peak_parts(*, cable, capacitor, volume, tone):
    """The parts behind the coil, as (part, how much) in words to order by; arguments as `peak_report`.

    Examples
    --------
    >>> peak_parts(cable=5, capacitor=0, volume=250e3, tone=500e3)[:2]
    (('cable', '5 m, 500 pF'), ('capacitor across the coil', 'none'))
    """
    return (
        ("cable", f"{said(cable, 'm', 'g')}, {said(cable * CABLE_PER_METRE, 'pF', '.0f')}"),
        ("capacitor across the coil", said(capacitor, "pF", ".0f") if capacitor else "none"),
        ("volume control", said(volume, "kΩ", ".0f")),
        ("tone control", f"{said(tone, 'kΩ', '.0f')}, with {said(house_load['tone_capacitance'], 'nF', 'g')}"))
