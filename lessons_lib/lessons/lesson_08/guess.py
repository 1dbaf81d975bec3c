"""The panel of a guess: curves placed by sliders; the readings can be drawn on top of them."""
from functools import partial

from lessons_lib.base.units import said
from lessons_lib.lessons.lesson_08.model import ADDED, COIL_RESISTANCE, coil_guess, exciter_runs, guess_curves, top_of
from lessons_lib.page.controls import Choice, Slider
from lessons_lib.page.panel import Panel
from lessons_lib.pictures.exciter import GuessAndReadings
from lessons_lib.pictures.style import new_figure

INDUCTANCE = Slider(name="inductance", label="inductance", unit="H", low=1, high=6, start=2, step=0.05)
OWN = Slider(name="own", label="self-capacitance", unit="pF", low=40, high=300, start=100, step=5)
LOAD_RESISTANCE = Slider(name="load", label="resistance across it", unit="kΩ", low=50, high=5000, start=500,
                         logarithmic=True)
DRAWN = Choice(name="drawn", label="readings", options={"not drawn yet": False, "drawn": True}, start=False)


def _run(extra):
    return f"{said(extra, 'pF', '.0f')} added" if extra else "nothing added"


def _peak_level(coil):
    level = said(top_of(coil)[1], "dB", "+.1f")
    return level if coil.peak()[0] else f"none; {level} at the resonance"


def _beside(guessed, found):
    return f"{said(guessed, 'kHz', '.2f')} guessed, {said(found, 'kHz', '.2f')} found"


def guess_panel(sheet=None, readings=None, resistance=COIL_RESISTANCE):
    """Panel: a guess by sliders; the readings and their fit can be drawn on top of it.

    Parameters
    ----------
    sheet : Sheet, optional
    readings : Readings, optional
        SI columns "added capacitance", "frequency", "voltage". Without them there is nothing to draw on top.
    resistance : float
        Of the coil, ohm.
    """
    runs = None if readings is None else exciter_runs(readings, resistance)
    ends = ADDED if readings is None else (min(readings["added capacitance"]), max(readings["added capacitance"]))
    names = tuple(map(_run, ends))
    figure = new_figure(width=8.0, height=4.2)
    picture = GuessAndReadings(figure.add_axes((0.09, 0.14, 0.88, 0.83)), level=(-30, 25), runs=names)

    def compute(*, drawn=False, **values):
        return coil_guess(**values, resistance=resistance, added=ends), runs if drawn else None

    def curves(both, **_):
        guess, found = both
        over = {"readings": found.levels, "fitted": guess_curves(found.found)["guess"]} if found else {}
        return guess_curves(guess) | over

    return Panel(
        sliders=(INDUCTANCE, OWN, LOAD_RESISTANCE, *((DRAWN,) if runs else ())), figure=figure,
        draw=lambda data: picture.update(**data), sheet=sheet, prediction="p1", compute=compute, data=curves,
        shown=partial(_said, names), message=partial(_alt_text, names))


def _said(names, both):
    guess, runs = both
    if not runs:
        return {**{f"resonance, {name}": said(one, "kHz", ".2f") for name, one in zip(names, guess.resonances)},
                **{f"peak, {name}": _peak_level(coil) for name, coil in zip(names, guess.coils)},
                "Q, nothing added": f"{guess.bare.q_factor:.2f}"}
    found = runs.found
    return {**{f"resonance, {name}": _beside(*both) for name, *both in zip(names, guess.resonances, found.resonances)},
            "inductance": f"{said(guess.bare.inductance, 'H', '.2f')} guessed, "
                          f"{said(found.bare.inductance, 'H', '.2f')} found",
            "Q, nothing added": f"{guess.bare.q_factor:.2f} guessed, {found.bare.q_factor:.2f} found"}


def _alt_text(names, both, **_):
    (guess, runs), (first, second) = both, names
    if not runs:
        return ("A guess of the response, level relative to low frequencies against frequency. Resonance with "
                f"{first} at {said(guess.resonances[0], 'kHz', '.2f')}, peak {_peak_level(guess.bare)}; with "
                f"{second} at {said(guess.resonances[1], 'kHz', '.2f')}, peak {_peak_level(guess.loaded)}; Q with "
                f"nothing added {guess.bare.q_factor:.2f}.")
    found = runs.found
    count = sum(len(frequency) for frequency, _ in runs.levels)
    return (f"{count} readings with the fit's curves through them, and the guess. Resonance with {first}: "
            f"{_beside(guess.resonances[0], found.resonances[0])}; with {second}: "
            f"{_beside(guess.resonances[1], found.resonances[1])}; inductance "
            f"{said(guess.bare.inductance, 'H', '.2f')} guessed, {said(found.bare.inductance, 'H', '.2f')} found.")
