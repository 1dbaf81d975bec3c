"""What the course predicts for the house pickup's resonance on its cable, with all that is not known put in."""
from types import MappingProxyType

from lessons_lib.base.as_made import as_made
from lessons_lib.base.materials import magnet_grade
from lessons_lib.base.value import Value
from lessons_lib.base.workshop import house_load
from lessons_lib.lessons.instrument import house_instrument

# the words of the page's box -> what is known of it
KNOWN_WITHIN = MappingProxyType({
    "turns": as_made.turns,
    "recoil_permeability": magnet_grade("alnico 5").recoil_permeability,
    "self_capacitance": as_made.self_capacitance,
    "cable": Value(house_load["cable_capacitance"], "F", "an assumption", (475e-12, 525e-12))})


def house_resonance(*, turns, recoil_permeability, self_capacitance, cable):
    """Frequency (Hz) of the peak of the house coil on its cable, with an amplifier of 1 MΩ and no controls.

    Parameters
    ----------
    turns : float
        As a share of the number written down.
    recoil_permeability : float
        Of the rods.
    self_capacitance, cable : float
        F.

    Notes
    -----
    The wire's resistance goes with the turns; it hardly moves the peak. Left out: currents in the rods, which make the
    peak lower by 2.1 dB and move it by 0.6 %.

    Examples
    --------
    >>> print(f"{house_resonance(turns=1.0, recoil_permeability=3.6, self_capacitance=100e-12, cable=500e-12):.0f} Hz")
    4390 Hz
    """
    coil = house_instrument.loaded(capacitance=self_capacitance, cable_capacitance=cable)
    return coil.built(turns=turns, inductance=house_instrument.inductance_share(recoil_permeability)).peak()[0]
