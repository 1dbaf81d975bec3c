"""Readings with their fit, drawn and shown in the page; each function returns the picture, for a report."""
import numpy as np

from lessons_lib.base.units import in_unit, said
from lessons_lib.page.canvas import show
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.gauss_readings import rod_of_strength_one
from lessons_lib.pictures.readings import ReadingsAndModel, misses, readable
from lessons_lib.pictures.style import FLUX_DENSITY, INK, new_figure

_POINTS = 150       # of a line


def _show(picture, sentence, x, fit, unit):
    """Say a sentence and what the fit leaves over at the places x (SI, said in the unit), and show the picture."""
    where = misses(in_unit(x, unit), fit.standardised, unit)
    left = f"The fit misses readings by {where}." if where else "The fit runs within 2 sigma of every reading."
    picture.say(f"{sentence} {left} {fit.remark}")
    show(picture.axes.figure, picture.alt_text())
    return picture


def _picture(**labels):
    return ReadingsAndModel(new_figure(width=8.0, height=4.6), **labels)


def _in(fit, unit, rows=slice(None)):
    """Readings, sigma and model of a fit (or of some rows of it) in the unit of an axis."""
    return {name: in_unit(getattr(fit, name)[rows], unit) for name in ("readings", "sigma", "model")}


def show_resonances(readings, fit):
    """Resonance (kHz) against added capacitance (pF): readings and the `fit_added_capacitance` to them."""
    added = np.linspace(0.0, readings["added capacitance"].max(), _POINTS)
    line = 1 / (2 * np.pi * np.sqrt(fit["inductance"] * (fit["capacitance"] + added)))
    picture = _picture(x_label="added capacitance (pF)", y_label="resonance (kHz)")
    picture.add("with capacitors", x=in_unit(readings["added capacitance"], "pF"), **_in(fit, "kHz"),
                line=(in_unit(added, "pF"), in_unit(line, "kHz")), colour=INK)
    first, last = (f"{readable(in_unit(end, 'kHz'))} kHz" for end in (fit.readings.max(), fit.readings.min()))
    return _show(picture, f"The resonance falls from {first} with the least capacitance to {last} with the most.",
                 readings["added capacitance"], fit, "pF")


def show_gauss(readings, fit, *, diameter, length, grade=None, recoil_permeability=None):
    """Flux density (mT) against distance (mm): readings and the `fit_gauss_readings` to them, with its arguments."""
    distance = np.linspace(0.0, readings["distance"].max(), _POINTS)
    places = np.stack([0 * distance, 0 * distance, distance + fit["stand_off"]], axis=-1)
    rod = rod_of_strength_one(diameter=diameter, length=length, grade=grade, recoil_permeability=recoil_permeability)
    line = fit.values[0] * rod.flux_density(places)[:, 2]
    picture = _picture(x_label="distance to the tip (mm)", y_label="flux density (mT)")
    picture.add("over the rod", x=in_unit(readings["distance"], "mm"), **_in(fit, "mT"),
                line=(in_unit(distance, "mm"), in_unit(line, "mT")), colour=FLUX_DENSITY["color"])
    of_what = f"of {grade}" if grade else f"with a recoil permeability of {rod.recoil_permeability:g}"
    return _show(picture, f"The curve of a rod {of_what} runs through the readings.",
                 readings["distance"], fit, "mm")


def show_response(readings, fit, *, resistance):
    """Raw voltage (mV) against frequency: each run and the `fit_exciter_response` to them; the coil's ohms besides."""
    picture = _picture(x_label="frequency (Hz)", y_label="voltage (mV)", log_x=True, log_y=True)
    frequency, added, peaks = readings["frequency"], readings["added capacitance"], []
    line = np.geomspace(frequency.min(), frequency.max(), _POINTS)
    for extra in np.unique(added):
        coil = LoadedCoil(resistance=resistance, inductance=fit["inductance"], capacitance=fit["capacitance"] + extra,
                          input_resistance=fit["load_resistance"])
        run, voltage = added == extra, fit["coupling"] * line * np.abs(coil.response(line))
        peaks.append(f"{readable(in_unit(line[voltage.argmax()], 'kHz'))} kHz with {said(extra, 'pF', '.0f')} added")
        picture.add(f"{said(extra, 'pF', '.0f')} added", x=frequency[run], **_in(fit, "mV", run),
                    line=(line, in_unit(voltage, "mV")))
    return _show(picture, f"The voltage rises with the frequency and is largest at {' and at '.join(peaks)}.",
                 frequency, fit, "Hz")


def show_height(lowered, fit, *, curve):
    """Level of plucks against how far (m) the pickup was lowered: readings and the `fit_string_height` to them."""
    lowered = np.asarray(lowered, dtype=float)
    line = np.linspace(0.0, lowered.max(), _POINTS)
    first = fit["gain"] * curve(fit["height"])
    picture = _picture(x_label="lowered by (mm)", y_label="level (1 at nearest place)", log_y=True)
    picture.add("fundamental", x=in_unit(lowered, "mm"), readings=fit.readings / first, sigma=fit.sigma / first,
                model=fit.model / first, line=(in_unit(line, "mm"), curve(fit["height"] + line) / curve(fit["height"])))
    return _show(picture, f"The level falls to {readable(fit.readings[-1] / first)} of the fitted one at the nearest "
                 f"place, as that of a string {said(fit['height'], 'mm', '.2f')} high does.",
                 lowered, fit, "mm")
