"""What readings of this bench must look like before a page goes on with them; a sentence says what does not fit."""
from types import MappingProxyType

import numpy as np

from lessons_lib.base.units import in_unit, said
from lessons_lib.base.words import plural
from lessons_lib.base.workshop import house_magnet
from lessons_lib.physics.fits import fit_added_capacitance, fit_exciter_response, fit_gauss_readings
from lessons_lib.physics.recorded_pluck import fit_pluck

_ANY_RESISTANCE = 6e3       # ohm: enough to see whether a fit is possible at all
_FARTHEST_OFF = 0.03        # of the frequency: a string that is tuned
_WEAKEST = -20.0            # dB, of the fundamental under another partial
_UNSURE = 0.1               # of its size: a fundamental that no decaying wave describes
_SLOWEST = 0.05             # 1/s: a generator, no string
_OVER_THE_REST = 10.0       # so many times the spectrum beside it: a tone, no noise
_RANGES = MappingProxyType({    # name of a result -> its words, least, most, unit to show, what may be wrong
    "remanence": ("a remanence", 0.1, 1.5, "T",
                  "No magnet of this bench has that. Are the readings in gauss, and the distances in mm?"),
    "stand_off": ("a depth of the spot", -0.5e-3, 5e-3, "mm",
                  "The sensitive spot cannot be so deep in the tip. Look at the distances."),
    "inductance": ("an inductance", 0.1, 30.0, "H",
                   "No pickup has that. Are the capacitances in pF, and the frequencies in Hz?"),
    "capacitance": ("a self-capacitance", 5e-12, 2e-9, "pF",
                    "No pickup has that much of its own. Are the capacitances in pF, and the frequencies in Hz?")})


def _enough_rows(readings, least):
    if len(readings) < least:
        raise ValueError(f"It has {len(readings)} {plural(len(readings), 'row', 'rows')}; {least} or more are needed.")


def _within(fit, *names):
    """Refuse results that no bench has."""
    for name in names:
        words, low, high, unit, advice = _RANGES[name]
        if not low <= fit[name] <= high:
            raise ValueError(f"The readings lead to {words} of {in_unit(fit[name], unit):.3g} {unit}. {advice}")


def _resonances(readings):
    _enough_rows(readings, 3)
    added, resonance = readings["added capacitance"], readings["resonance"]
    if resonance[np.argmax(added)] >= resonance[np.argmin(added)]:
        raise ValueError("A resonance is lower with more capacitance, and these do not fall. Were columns or rows "
                         "swapped?")
    _within(fit_added_capacitance(added, resonance), "inductance", "capacitance")


def _gauss(readings):
    _enough_rows(readings, 4)
    distance, flux_density = readings["distance"], readings["flux density"]
    if not (flux_density > 0).all() and not (flux_density < 0).all():
        raise ValueError("Over one pole all readings have one sign, and these have not (or one is zero). Is the zero "
                         "of the meter right?")
    size = np.abs(flux_density)
    if size[np.argmax(distance)] > 0.9 * size[np.argmin(distance)]:
        raise ValueError("The readings do not fall with the distance. Were columns or rows swapped?")
    _within(fit_gauss_readings(distance, flux_density * np.sign(flux_density[0]), diameter=house_magnet["diameter"],
                               length=house_magnet["length"]), "remanence", "stand_off")


def _response(readings):
    _enough_rows(readings, 8)
    if np.ptp(readings["added capacitance"]) == 0:
        raise ValueError("Two runs with different added capacitances are needed, and this is one.")
    try:
        fit = fit_exciter_response(readings["frequency"], readings["voltage"], resistance=_ANY_RESISTANCE,
                                   added_capacitance=readings["added capacitance"])
    except (ValueError, RuntimeError):
        raise ValueError("No coil of a pickup explains these runs. Are the capacitances in pF, the frequencies in Hz, "
                         "and the voltages not yet divided by frequency?") from None
    _within(fit, "inductance", "capacitance")


def _meter(readings):
    if not (readings["frequency"] > 0).all():
        raise ValueError("A meter reads at a frequency above zero; the column has zero or less.")
    if not (readings["resistance"] > 0).all():
        raise ValueError("A coil's series resistance is above zero; the column has zero or less.")


TABLES = MappingProxyType({
    "resonance_with_capacitors.csv": _resonances, "gauss_against_distance.csv": _gauss,
    "exciter_response.csv": _response, "meter_readings.csv": _meter})


def readings_must_fit(name, readings):
    """Look at the readings of a file of the bench, by its name.

    Raises
    ------
    ValueError or RuntimeError
        With a sentence: too few rows, no fit is possible, or it leads to what no bench has.
    """
    with np.errstate(all="ignore"):     # what comes of it is looked at
        TABLES[name](readings)


def _stands_out(recording, near):
    """Whether the spectrum has a peak near a frequency (Hz), far above what is half of it to both sides."""
    spectrum = np.abs(np.fft.rfft(recording.samples * np.hanning(recording.samples.size)))
    away = np.abs(np.fft.rfftfreq(recording.samples.size, 1 / recording.rate) / near - 1)
    return spectrum[away < _FARTHEST_OFF].max(initial=0.0) > _OVER_THE_REST * np.median(spectrum[away < 0.5])


def tone_of(recording, near):
    """Partials of a recording that must be a pluck of a string tuned to *near* (Hz), as `fit_pluck` gives them.

    Raises
    ------
    ValueError or RuntimeError
        With a sentence: no such tone, or none that dies away.
    """
    with np.errstate(all="ignore"):
        pluck = fit_pluck(recording.samples, recording.rate, near=near, count=3)
    first = pluck.fits[0]
    if (abs(pluck.frequency[0] / near - 1) > _FARTHEST_OFF or pluck.level[1:].max() > -_WEAKEST
            or not _stands_out(recording, near) or not first.uncertainty("amplitude") < _UNSURE * pluck.amplitude[0]):
        raise ValueError(f"No tone near {said(near, 'Hz', '.1f')} was found; is it string VI in tune, plucked once?")
    if pluck.decay[0] < _SLOWEST:
        raise ValueError("The tone does not die away; was the string plucked once and left alone?")
    return pluck
