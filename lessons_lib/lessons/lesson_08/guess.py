"""The panel of a guess: curves placed by sliders, which stay when the readings are drawn on top of them."""
from lessons_lib.base.units import said
from lessons_lib.lessons.lesson_08.model import ADDED, COIL_RESISTANCE, coil_guess, exciter_runs, guess_curves, top_of
from lessons_lib.page.cards import one_button, status
from lessons_lib.page.controls import Slider
from lessons_lib.page.panel import Panel
from lessons_lib.pictures.exciter import GuessAndReadings
from lessons_lib.pictures.style import new_figure

INDUCTANCE = Slider(name="inductance", label="inductance", unit="H", low=1, high=6, start=2, step=0.05)
OWN = Slider(name="own", label="self-capacitance", unit="pF", low=40, high=300, start=100, step=5)
LOAD_RESISTANCE = Slider(name="load", label="resistance across it", unit="kΩ", low=50, high=5000, start=500,
                         logarithmic=True)


def _run(extra):
    return f"{said(extra, 'pF', '.0f')} added" if extra else "nothing added"


def _peak_level(coil):
    level = said(top_of(coil)[1], "dB", "+.1f")
    return level if coil.peak()[0] else f"none; {level} at the resonance"


def _beside(guessed, found):
    return f"{said(guessed, 'kHz', '.2f')} guessed, {said(found, 'kHz', '.2f')} found"


class GuessPanel(Panel):
    """A guess by sliders; its button draws the readings and their fit on top, and from then on the guess stays.

    Parameters
    ----------
    sheet : Sheet, optional
    readings : Readings, optional
        SI columns "added capacitance", "frequency", "voltage". Without them there is no button.
    resistance : float
        Of the coil, ohm.
    """

    _WIDGETS = (*Panel._WIDGETS, "button")

    def __init__(self, sheet=None, readings=None, resistance=COIL_RESISTANCE):
        self._runs = None if readings is None else exciter_runs(readings, resistance)
        ends = ADDED if readings is None else (min(readings["added capacitance"]), max(readings["added capacitance"]))
        self._names, self.shown = tuple(map(_run, ends)), False
        figure = new_figure(width=8.0, height=4.2)
        picture = GuessAndReadings(figure.add_axes((0.09, 0.14, 0.88, 0.83)), level=(-30, 25), runs=self._names)
        super().__init__(
            sliders=(INDUCTANCE, OWN, LOAD_RESISTANCE), figure=figure, draw=lambda data: picture.update(**data),
            sheet=sheet, prediction="p1",
            numbers=lambda **values: coil_guess(**values, resistance=resistance, added=ends), arrays=self._curves,
            readouts=self._said, alt=self._alt_text)

    def _make_widgets(self):
        self.shown = False
        self.button = one_button("This is my guess: show the readings", self.show_readings)
        super()._make_widgets()

    def show_readings(self):
        """Draw readings and fit on top of the guess; the sliders rest."""
        self.shown = True
        for row in self.rows.values():
            row.box.disabled = row.slider.disabled = True
        self.button.disabled = True
        stays = status("The guess stays; run this box again for another one.")
        self.body.children = [stays if one is self.button else one for one in self.body.children]
        self._show(slow=False)

    def _start(self, note):
        super()._start(note)
        if self._runs is not None:
            controls, *others = self.body.children
            self.body.children = [controls, self.button, *others]

    def _curves(self, guess, **_):
        over = {"readings": self._runs.levels, "fitted": guess_curves(self._runs.found)["guess"]} if self.shown else {}
        return guess_curves(guess) | over

    def _said(self, guess):
        if not self.shown:
            return {**{"resonance, "
                       f"{name}": said(one, "kHz", ".2f") for name, one in zip(self._names, guess.resonances)},
                    **{f"peak, {name}": _peak_level(coil) for name, coil in zip(self._names, guess.coils)},
                    "Q, nothing added": f"{guess.bare.q_factor:.2f}"}
        found = self._runs.found
        return {**{f"resonance, {name}": _beside(*both)
                   for name, *both in zip(self._names, guess.resonances, found.resonances)},
                "inductance": f"{said(guess.bare.inductance, 'H', '.2f')} guessed, "
                              f"{said(found.bare.inductance, 'H', '.2f')} found",
                "Q, nothing added": f"{guess.bare.q_factor:.2f} guessed, {found.bare.q_factor:.2f} found"}

    def _alt_text(self, guess, **_):
        first, second = self._names
        if not self.shown:
            return ("A guess of the response, level relative to low frequencies against frequency. Resonance with "
                    f"{first} at {said(guess.resonances[0], 'kHz', '.2f')}, peak {_peak_level(guess.bare)}; with "
                    f"{second} at {said(guess.resonances[1], 'kHz', '.2f')}, peak {_peak_level(guess.loaded)}; Q with "
                    f"nothing added {guess.bare.q_factor:.2f}.")
        found = self._runs.found
        count = sum(len(frequency) for frequency, _ in self._runs.levels)
        return (f"{count} readings with the fit's curves through them, and the guess in grey. Resonance with {first}: "
                f"{_beside(guess.resonances[0], found.resonances[0])}; with {second}: "
                f"{_beside(guess.resonances[1], found.resonances[1])}; inductance "
                f"{said(guess.bare.inductance, 'H', '.2f')} guessed, {said(found.bare.inductance, 'H', '.2f')} found.")
