"""The panel of a guess: curves placed by sliders; the readings are drawn over them, and the guess stays, when asked."""
from functools import partial

from lessons_lib.base.units import said
from lessons_lib.lessons.lesson_08.metal import METER, shown_by_meter
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
from lessons_lib.pictures.response import guess_and_readings
from lessons_lib.pictures.style import new_figure

INDUCTANCE = Slider(name="inductance", label="inductance", unit="H", low=1, high=6, start=2, step=0.05)
OWN = Slider(name="own", label="self-capacitance", unit="pF", low=40, high=300, start=100, step=5)
LOAD_RESISTANCE = Slider(name="load", label="resistance across it", unit="kΩ", low=50, high=5000, start=500,
                         logarithmic=True)
METAL = Choice(name="metal", label="metal in the coil", start="none", options={
    "no currents in it": "none", "rods of alnico answer": "alnico", "rods of steel answer": "steel"})
DRAWN = Choice(name="drawn", label="readings", options={"not yet: I am guessing": False, "drawn over my guess": True},
               start=False)

METER_SHOWS = f"a meter shows at {', '.join(said(one, 'kHz', 'g') for one in METER)}"


def _run(extra):
    return f"{said(extra, 'pF', '.0f')} added" if extra else "nothing added"


def _peak_level(coil):
    level = said(top_of(coil)[1], "dB", "+.1f")
    return level if coil.peak()[0] else f"none; {level} at the resonance"


def _beside(guessed, found):
    return f"{said(guessed, 'kHz', '.2f')} guessed, {said(found, 'kHz', '.2f')} found"


def guess_panel(sheet=None, readings=None, resistance=COIL_RESISTANCE):
    """Panel: a guess by sliders; the readings can be drawn over it, and the guess stays while the sliders go on.

    Parameters
    ----------
    sheet : Sheet, optional
    readings : Readings, optional
        SI columns "added capacitance", "frequency", "voltage". Without them there is nothing to draw.
    resistance : float
        Of the coil, ohm.
    """
    runs = None if readings is None else exciter_runs(readings, resistance)
    ends = ADDED if readings is None else (min(readings["added capacitance"]), max(readings["added capacitance"]))
    names = tuple(map(_run, ends))
    figure = new_figure(width=8.0, height=4.4)
    picture = guess_and_readings(figure.add_axes((0.085, 0.125, 0.905, 0.85)), level=(-30, 25), runs=names)

    return Panel(
        title="One curve gives LC, a second tells L from C", sliders=(
            INDUCTANCE, OWN, LOAD_RESISTANCE, METAL, *((DRAWN,) if runs else ())),
        compute=GuessBesideReadings(runs, resistance=resistance, added=ends), data=guess_curves, figure=figure,
        draw=lambda data: picture.update(**data), shown=partial(_said, names), message=partial(_message, names),
        on_paper=({}, {"inductance": 2.0, "own": 200e-12}, {"inductance": 4.0, "own": 100e-12}), sheet=sheet,
        prediction="p1")


def _said(names, one):
    now = one.now
    if one.runs is None:
        return {**{f"resonance, {name}": said(place, "kHz", ".2f") for name, place in zip(names, now.resonances)},
                **{f"peak, {name}": _peak_level(coil) for name, coil in zip(names, now.coils)},
                "Q, nothing added": f"{now.bare.q_factor:.2f}",
                METER_SHOWS: ", ".join(said(one, "H", "z.2f") for one in shown_by_meter(now.bare))}
    kept, found = one.kept, one.runs.found
    return {"curves and readings apart, RMS": said(one.apart, "dB", ".2f"),
            **{f"resonance, {name}": _beside(*both) for name, *both in zip(names, kept.resonances, found.resonances)},
            "inductance": f"{said(kept.inductance, 'H', '.2f')} guessed, "
                          f"{said(found.inductance, 'H', '.2f')} found",
            "Q, nothing added": f"{kept.bare.q_factor:.2f} guessed, {found.bare.q_factor:.2f} found"}


def _message(names, one, *, metal, **_):
    first, second = names
    resonances = f"Resonance with {first}: {{resonance, {first}}}; with {second}: {{resonance, {second}}}"
    currents = "" if metal == "none" else " In the model {metal in the coil}: currents flow in them."
    if one.runs is None:
        return (f"A guess of the response, level relative to low frequencies against frequency. {resonances}; peaks "
                f"{{peak, {first}}} and {{peak, {second}}}; Q with nothing added {{Q, nothing added}}.{currents}")
    count = sum(len(frequency) for frequency, _ in one.runs.levels)
    return (f"{count} readings over two curves, {{curves and readings apart, RMS}} apart from them (RMS), and the "
            f"guess in grey. {resonances}; inductance {{inductance}}.{currents}")
