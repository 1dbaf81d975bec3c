"""The three panels of lesson 5: one string over its frets, its partials, the curved map; and the sound of four frets.

The functions of numbers under them are beside them, in model.py and conditions.py.
"""
from functools import partial

from lessons_lib.base.units import said
from lessons_lib.lessons.instrument import in_mm, shown
from lessons_lib.lessons.lesson_05.conditions import OCTAVE, broken_conditions, hear_four_frets
from lessons_lib.lessons.lesson_05.model import (
    PARTIALS,
    STRINGS_TO_CHOOSE,
    bent,
    curved_map_curves,
    fret_curves,
    fret_measures,
    partial_curves,
    partial_levels,
    shown_level,
)
from lessons_lib.page.controls import Choice, Slider, begin
from lessons_lib.page.panel import Panel
from lessons_lib.pictures.over_frets import STYLES, BentVoltage, OverFrets, PartialStems, Pulses, SlopeOverHeight
from lessons_lib.pictures.style import GREY, TEXT, new_figure

__all__ = ["broken_conditions", "curved_map", "hear_four_frets", "over_the_frets", "partials"]

FRET = Slider(name="fret", label="fret", unit="", low=0, high=19, start=0, step=1, whole=True)
STRING = Choice(name="string", label="string", options={name: name for name in STRINGS_TO_CHOOSE}, start="VI")
PLUCK = Slider(name="pluck_place", label="plucked at", unit="mm", low=20, high=180, step=5,
               start=lambda instrument: round(in_mm(instrument.place["pluck_place"])))
PICKUP = Slider(name="pickup_place", label="pickup at", unit="mm", low=20, high=180, step=5,
                start=lambda instrument: round(in_mm(instrument.place["pickup_place"])))
RULE = Choice(name="rule", label="every pluck has the same",
              options={"force": "force", "displacement": "displacement", "energy": "energy"}, start="force")
HAND = Choice(name="hand", label="hand and pickup",
              options={"stay where they are": "place", "keep their share of the string": "fraction"}, start="place")
FINGER = Slider(name="finger", label="width of the finger", unit="mm", low=0, high=20, start=0, step=1)
APERTURE = Slider(name="aperture", label="width of the pickup", unit="mm", low=0, high=30, start=0, step=1)
HEIGHT_AT_REST = Slider(name="height", label="height at rest", unit="mm", low=2, high=3.5, step=0.1,
                        start=lambda instrument: in_mm(instrument.place["string_height"]))
SINE_AMPLITUDE = Slider(name="amplitude", label="amplitude", unit="mm", low=0.05, high=1, start=0.3, step=0.05)

_HAND_WORDS = {"place": "hand and pickup stay where they are",
               "fraction": "hand and pickup keep their share of the string"}
_RULE_WORDS = {"force": "with the same force", "displacement": "pulled equally far", "energy": "with the same energy"}


def frets_figure():
    """A figure and the function that draws fret_curves into it."""
    figure = new_figure(width=8.0, height=5.6)
    pulses = Pulses(figure.add_axes((0.11, 0.75, 0.86, 0.235)))
    parts = [OverFrets(figure.add_axes((0.085 + 0.327 * i, 0.155, 0.245, 0.455)), name=name, unit=unit)
             for i, (name, unit) in enumerate((("displacement", "mm"), ("velocity", "m/s"), ("voltage", "mV")))]
    names = {"-": "solid", "--": "dashed", "-.": "dash-dot"}
    figure.text(0.5, 0.008, ", ".join(f"{names[style]}: {measure}" for measure, style in STYLES.items())
                + "; pale: the other two rules; 1: the open string's peak", color=GREY, fontsize=TEXT - 1,
                ha="center")

    def draw(data):
        return pulses.update(**data["pulses"]) + [artist for part in parts for artist in part.update(**data["curves"])]
    return figure, draw


def _over_open(at, measure, fret=None):
    return f"x {at.times_open('velocity', measure, fret):.2f}"


def _goes(at, measure):
    times = at.times_open("velocity", measure)
    return "stays the same" if abs(times - 1) < 0.005 else "rises" if times > 1 else "falls"


def _frets_words(at, *, string, hand, **_):
    """The open string gives its values and what the octave makes of them; any other fret is compared with it."""
    sizes = (f"peak velocity {said(at.value('velocity', 'peak'), 'm/s', '.3f')}, peak voltage "
             f"{said(at.value('voltage', 'peak'), 'mV', '.1f')}, peak displacement "
             f"{said(at.value('displacement', 'peak'), 'mm', '.3f')}")
    rule = f"{_RULE_WORDS[at.rule]}; {_HAND_WORDS[hand]}"
    if at.fret == 0:
        octave = ", ".join(f"{measure} {_over_open(at, measure, OCTAVE)}" for measure in STYLES)
        return (f"String {string} over its frets, {rule}. This is the open string, "
                f"{said(at.frequency, 'Hz', '.1f')}, the reference for all frets: {sizes}, RMS "
                f"{said(at.value('velocity', 'RMS'), 'm/s', '.3f')}, fundamental "
                f"{said(at.value('velocity', 'fundamental'), 'm/s', '.3f')}. The curves show velocity and voltage at "
                f"fret {OCTAVE}: {octave}. Velocity comes in pulses of one height.")
    compared = ", ".join(f"the {measure} {_goes(at, measure)} ({_over_open(at, measure)})" for measure in STYLES)
    return (f"String {string} over its frets, {rule}. At fret {at.fret}, {said(at.frequency, 'Hz', '.1f')}, "
            f"compared with the open string, in velocity and voltage, {compared}: {sizes}. Velocity comes in pulses of "
            "one height.")


def over_the_frets(sheet=None, instrument=None):
    """Panel: peak, RMS and fundamental of displacement, velocity and voltage of one string over its frets."""
    instrument = shown(instrument)
    figure, draw = frets_figure()

    def readouts(at):
        return {"fundamental at": said(at.frequency, "Hz", ".1f"),
                "peak velocity": said(at.value("velocity", "peak"), "m/s", ".3f"),
                "peak voltage": said(at.value("voltage", "peak"), "mV", ".1f"),
                "peak displacement at the pickup": said(at.value("displacement", "peak"), "mm", ".3f"),
                "voltage relative to the open string, peak": _over_open(at, "peak"),
                "RMS": f"{_over_open(at, 'RMS')} "
                       f"({said(shown_level(at.times_open('velocity', 'RMS')), 'dB', '+z.1f')})",
                "fundamental": _over_open(at, "fundamental")}

    return Panel(sliders=begin(instrument, FRET, STRING, PLUCK, PICKUP, RULE, HAND),
                 compute=partial(fret_measures, instrument=instrument),
                 data=partial(fret_curves, instrument=instrument), figure=figure, draw=draw, sheet=sheet,
                 prediction="p1", shown=readouts, message=_frets_words)


def partials_figure():
    """A figure and the function that draws partial_curves into it."""
    figure = new_figure(width=8.0, height=4.4)
    stems = PartialStems(figure.add_axes((0.09, 0.13, 0.89, 0.84)), lines=PARTIALS)
    return figure, lambda data: stems.update(**data)


def _gap_words(levels, gap):
    return f"{said(gap, 'Hz', '.0f')}, partial {gap / levels.frequency[0]:.2f}"


def partials(sheet=None, instrument=None):
    """Panel: the partials of displacement and velocity, and the comb of the two places."""
    instrument = shown(instrument)
    figure, draw = partials_figure()
    return Panel(
        sliders=begin(instrument, FRET, STRING, PLUCK, PICKUP, FINGER, APERTURE),
        compute=partial(partial_levels, instrument=instrument), data=partial(partial_curves, instrument=instrument),
        figure=figure, draw=draw, sheet=sheet, prediction="p2",
        shown=lambda levels: {
            "fundamental at": said(levels.frequency[0], "Hz", ".1f"),
            "first gap by the pickup's place": _gap_words(levels, levels.pickup_gap),
            "by the place of plucking": _gap_words(levels, levels.pluck_gap),
            "third divided by first partial, displacement": f"{levels.over_first('displacement'):.3f}",
            "velocity": f"{levels.over_first('velocity'):.3f}",
            f"the widths change partial {PARTIALS} ({said(levels.frequency[-1], 'Hz', '.0f')}) by":
                said(shown_level(levels.smoothing), "dB", "+z.1f")},
        message=lambda levels, **_: (
            "The partials of the velocity fall as 1/n under a comb, those of the displacement as 1/n squared: the "
            f"third is {levels.over_first('velocity'):.3f} of the first in velocity and "
            f"{levels.over_first('displacement'):.3f} in displacement. The pickup's place makes its first gap at "
            f"{said(levels.pickup_gap, 'Hz', '.0f')}, the place of plucking at {said(levels.pluck_gap, 'Hz', '.0f')}; "
            f"the fundamental is {said(levels.frequency[0], 'Hz', '.1f')}. The widths of finger and pickup take "
            f"{said(abs(shown_level(levels.smoothing)), 'dB', '.1f')} from partial {PARTIALS}."))


def curved_map_figure():
    """A figure and the function that draws curved_map_curves into it."""
    figure = new_figure(width=8.0, height=4.0)
    slope = SlopeOverHeight(figure.add_axes((0.09, 0.145, 0.385, 0.83)))
    voltage = BentVoltage(figure.add_axes((0.585, 0.145, 0.395, 0.83)))
    return figure, lambda data: slope.update(**data["slope"]) + voltage.update(**data["voltage"])


def curved_map(sheet=None, instrument=None):
    """Panel: a pure sine motion over the curved map, and the second harmonic it makes."""
    instrument = shown(instrument)
    figure, draw = curved_map_figure()
    return Panel(
        sliders=begin(instrument, STRING, HEIGHT_AT_REST, SINE_AMPLITUDE), compute=partial(bent, instrument=instrument),
        data=partial(curved_map_curves, instrument=instrument), figure=figure, draw=draw, sheet=sheet,
        prediction="p3",
        shown=lambda swing: {
            "S at rest": said(swing.slope_at_rest, "V per m/s", ".4f"),
            "fundamental": said(swing.harmonics[0], "mV", ".2f"),
            "second harmonic": f"{said(swing.harmonics[1], 'mV', '.2f')}, {swing.second:.2%}",
            "by the fitted law": f"{swing.by_law:.2%}", "decay length of S": said(swing.decay_length, "mm", ".2f")},
        message=lambda swing, *, amplitude, **_: (
            "A string that swings as a pure sine makes more voltage on the near side of its swing than on the far "
            f"side, so a second harmonic comes in: amplitude {said(amplitude, 'mm', '.2f')}, fundamental "
            f"{said(swing.harmonics[0], 'mV', '.2f')}, second harmonic {said(swing.harmonics[1], 'mV', '.2f')}, that "
            f"is {swing.second:.2%}; the fitted law says {swing.by_law:.2%}."))
