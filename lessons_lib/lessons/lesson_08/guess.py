"""The panel of a guess: curves placed by sliders; the readings are drawn over them, and the guess stays, when asked."""
from lessons_lib.base.units import said
from lessons_lib.lessons.lesson_08.model import (
    ADDED,
    COIL_RESISTANCE,
    GuessBesideReadings,
    exciter_runs,
    guess_curves,
    top_of,
)
from lessons_lib.page.controls import Choice, Slider
from lessons_lib.page.panel import Panel
from lessons_lib.pictures.exciter import guess_and_readings
from lessons_lib.pictures.style import new_figure

INDUCTANCE = Slider(name="inductance", label="inductance", unit="H", low=1, high=6, start=2, step=0.05)
OWN = Slider(name="own", label="self-capacitance", unit="pF", low=40, high=300, start=100, step=5)
LOAD_RESISTANCE = Slider(name="load", label="resistance across it", unit="kΩ", low=50, high=5000, start=500,
                         logarithmic=True)
READINGS = Choice(name="shown", label="readings", start=False,
                  options={"hidden, until I have made my guess": False, "drawn over my guess": True})


def _run(extra):
    return f"{said(extra, 'pF', '.0f')} added" if extra else "nothing added"


def _peak_level(coil):
    level = said(top_of(coil)[1], "dB", "+.1f")
    return level if coil.peak()[0] else f"none; {level} at the resonance"


def _beside(guessed, found):
    return f"{said(guessed, 'kHz', '.2f')} guessed, {said(found, 'kHz', '.2f')} found"


def guess_then_data(sheet=None, readings=None, resistance=COIL_RESISTANCE):
    """Panel: a guess of the coil's response, and the exciter readings (SI columns) with what a fit to them finds."""
    runs = None if readings is None else exciter_runs(readings, resistance)
    ends = ADDED if readings is None else (min(readings["added capacitance"]), max(readings["added capacitance"]))
    names = tuple(map(_run, ends))
    figure = new_figure(width=8.0, height=4.4)
    picture = guess_and_readings(figure.add_axes((0.085, 0.125, 0.905, 0.85)), level=(-30, 25), runs=names)

    def said_of(one):
        now = one.now
        if one.runs is None:
            return {**{f"resonance, {name}": said(place, "kHz", ".2f") for name, place in zip(names, now.resonances)},
                    **{f"peak, {name}": _peak_level(coil) for name, coil in zip(names, now.coils)},
                    "Q, nothing added": f"{now.bare.q_factor:.2f}"}
        kept, found = one.kept, one.runs.found
        return {"curves and readings apart, RMS": said(one.apart, "dB", ".2f"),
                **{f"resonance, {name}": _beside(*both)
                   for name, *both in zip(names, kept.resonances, found.resonances)},
                "inductance": f"{said(kept.bare.inductance, 'H', '.2f')} guessed, "
                              f"{said(found.bare.inductance, 'H', '.2f')} found",
                "Q, nothing added": f"{kept.bare.q_factor:.2f} guessed, {found.bare.q_factor:.2f} found"}

    def alt(one, **_):
        now, (first, second) = one.now, names
        if one.runs is None:
            return ("A guess of the response, level relative to low frequencies against frequency. Resonance with "
                    f"{first} at {said(now.resonances[0], 'kHz', '.2f')}, peak {_peak_level(now.bare)}; with "
                    f"{second} at {said(now.resonances[1], 'kHz', '.2f')}, peak {_peak_level(now.loaded)}; Q with "
                    f"nothing added {now.bare.q_factor:.2f}.")
        kept, found = one.kept, one.runs.found
        count = sum(len(frequency) for frequency, _ in one.runs.levels)
        return (f"{count} readings over two curves, {said(one.apart, 'dB', '.2f')} apart from them (RMS), and the guess "
                f"in grey. Resonance with {first}: {_beside(kept.resonances[0], found.resonances[0])}; with {second}: "
                f"{_beside(kept.resonances[1], found.resonances[1])}; inductance "
                f"{said(kept.bare.inductance, 'H', '.2f')} guessed, {said(found.bare.inductance, 'H', '.2f')} found.")
    return Panel(
        sliders=(INDUCTANCE, OWN, LOAD_RESISTANCE, *((READINGS,) if runs else ())), sheet=sheet, prediction="p1",
        numbers=GuessBesideReadings(runs, resistance=resistance, added=ends), arrays=guess_curves, readouts=said_of,
        figure=figure, draw=lambda data: picture.update(**data), alt=alt)
