"""The plain functions behind two panels of lesson 8: a guessed coil and its readings; an error that readings share."""
import math
from dataclasses import dataclass

import numpy as np

from lessons_lib.base.materials import magnet_grade
from lessons_lib.base.units import said
from lessons_lib.base.workshop import house_magnet
from lessons_lib.lessons.lesson_08.metal import COIL_RESISTANCE, coil_guess
from lessons_lib.physics.alnico_rod import AlnicoRod
from lessons_lib.physics.fits import fit_exciter_response, fit_gauss_readings

GUESS_FREQUENCIES = np.geomspace(100.0, 2e4, 300)

SPOT, NOISE = 0.6e-3, 0.015     # m inside the tip; share of a reading, as in the invented readings
_COUNT = 12
ROD = AlnicoRod(grade=magnet_grade("alnico 5"), diameter=house_magnet["diameter"], length=house_magnet["length"])


def over_low(coil, frequency):
    """Level of a coil's output relative to low frequencies, dB, of frequency's shape (Hz)."""
    return 20 * np.log10(np.abs(coil.response(frequency))) - coil.low_frequency_level


def top_of(coil):
    """Where a coil's curve is highest (Hz, dB relative to low frequencies); without a hump, at its resonance."""
    place, height = coil.peak()
    if not place:
        place = coil.natural_frequency
        return place, float(over_low(coil, place))
    return place, height - coil.low_frequency_level


@dataclass(frozen=True, kw_only=True, eq=False)
class ExciterRuns:
    """Two runs: the coil of each as fitted, and its frequencies (Hz) and levels (dB)."""

    found: tuple
    levels: tuple


def exciter_runs(readings, resistance=COIL_RESISTANCE):
    """The runs with the least and the most capacitance of a table of exciter readings, as `ExciterRuns`.

    Readings are SI columns "added capacitance", "frequency", "voltage"; the coil's resistance is in ohm. Levels are the
    voltages divided by frequency and by the fit's coupling.
    """
    added, frequency, voltage = (np.asarray(readings[name]) for name in ("added capacitance", "frequency", "voltage"))
    fit = fit_exciter_response(frequency, voltage, added_capacitance=added, resistance=resistance)
    ends = added.min(), added.max()
    found = coil_guess(inductance=fit["inductance"], own=fit["capacitance"], load=fit["load_resistance"],
                       resistance=resistance, added=ends)
    level = 20 * np.log10(voltage / (fit["coupling"] * frequency))
    levels = tuple((frequency[added == extra], level[added == extra] - coil.low_frequency_level)
                   for extra, coil in zip(ends, found))
    return ExciterRuns(found=found, levels=levels)


@dataclass(frozen=True, kw_only=True, eq=False)
class Compared:
    """The coils of a guess now; beside the readings also those of the one that was *kept*, and the runs, else None."""

    now: tuple
    kept: tuple | None
    runs: ExciterRuns | None

    @property
    def apart(self):
        """Root of the mean square of readings minus present curves, dB."""
        residuals = [level - over_low(coil, frequency)
                     for coil, (frequency, level) in zip(self.now, self.runs.levels)]
        return float(np.sqrt(np.mean(np.concatenate(residuals) ** 2)))


class GuessBesideReadings:
    """Guesses of a coil (values as of `coil_guess`); the one at which the readings were first drawn is kept.

    Hidden again, the readings are forgotten, and so is the guess.
    """

    def __init__(self, runs=None, **bench):
        self._runs, self._bench, self._kept = runs, bench, None

    def __call__(self, *, drawn=False, **values):
        """Return the `Compared` of these values."""
        now = coil_guess(**values, **self._bench)
        self._kept = (self._kept or now) if drawn else None
        return Compared(now=now, kept=self._kept, runs=self._runs if drawn else None)


def guess_curves(one, **_):
    """What the picture of a `Compared` needs."""
    curves = {f"now {n}": over_low(coil, GUESS_FREQUENCIES) for n, coil in enumerate(one.now)}
    if one.runs:
        curves |= {f"kept {n}": over_low(coil, GUESS_FREQUENCIES) for n, coil in enumerate(one.kept)}
        curves |= {f"read {n}": readings for n, readings in enumerate(one.runs.levels)}
    return {"x": GUESS_FREQUENCIES} | curves


# ---- an error that all readings share --------------------------------------------------------------------------------

@dataclass(frozen=True, kw_only=True, eq=False)
class SharedError:
    """Readings over a rod of alnico 5 with a wrong zero, and what a fit makes of them, SI.

    strength (1: the rod's own), flux through its middle and spot (m inside the tip) as found; residual: the largest
    one, a share of its reading.
    """

    distance: np.ndarray
    readings: np.ndarray
    model: np.ndarray
    strength: float
    flux: float
    spot: float

    @property
    def off(self):
        """By which share the flux, as the strength, is wrong."""
        return self.strength - 1

    @property
    def residual(self):
        """The largest residual, a share of its reading."""
        return float(np.abs(1 - self.model / self.readings).max())


def field_over(distance, spot, strength=1.0):
    """Flux density (T) on the axis of the rod at the spot of a probe whose tip is at a distance (m, array)."""
    places = np.zeros((np.size(distance), 3))
    places[:, 2] = np.asarray(distance) + spot
    return strength * ROD.flux_density(places)[:, 2]


def shared_error(*, zero, reach):
    """Twelve noise-free readings from the face out to a reach (m), all too high by a zero (T), and the fit to them."""
    distance = reach * (np.arange(_COUNT) / (_COUNT - 1)) ** 1.5
    readings = field_over(distance, SPOT) + zero
    fit = fit_gauss_readings(distance, readings, diameter=ROD.diameter, length=ROD.length, grade=ROD.grade.name)
    return SharedError(distance=distance, readings=readings, model=fit.model,
                       strength=fit["strength"], flux=fit["flux"], spot=fit["stand_off"])


def shared_error_curves(one, *, reach, **_):
    """What the picture of a `SharedError` needs."""
    line = np.linspace(0.0, reach, 120)
    return {"distance": one.distance, "readings": one.readings, "model": one.model, "line": line,
            "true": field_over(line, SPOT), "fitted": field_over(line, one.spot, one.strength), "spot": SPOT,
            "flux": one.flux, "words": too_high(one.off)}


def too_high(share):
    """A share in words: "22 % too high"."""
    if math.isclose(share, 0, abs_tol=5e-4):
        return "right"
    size = said(abs(share), "%", ".1f" if abs(share) < 0.1 else ".0f")
    return f"{size} too {'high' if share > 0 else 'low'}"
