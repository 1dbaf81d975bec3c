"""The figures of lesson 4: each function returns a figure, the function that draws, and axes to take hold of."""
from dataclasses import replace

import numpy as np

from lessons_lib.base.units import said
from lessons_lib.lessons.lesson_04.hiss import FEWEST, MOST
from lessons_lib.lessons.lesson_04.model import ASIDE_FALL, ASIDE_SWING, FILMED, HARMONICS, PLAIN_THIRD, PRESSED, SHOWN
from lessons_lib.lessons.lesson_04.window import DRAWN_ONCE_IN
from lessons_lib.pictures.coil_pair import HUM
from lessons_lib.pictures.lines import Axis, Lines
from lessons_lib.pictures.marks import DOTTED, PLAIN, Curve, Dots, Level
from lessons_lib.pictures.over_pole import OverPole
from lessons_lib.pictures.style import (
    BLUE,
    DISPLACEMENT,
    FLUX,
    HOUSE_LOOK,
    INK,
    MM,
    MUTED,
    TEXT,
    VOLTAGE,
    label,
    new_figure,
)
from lessons_lib.pictures.three_traces import ThreeTraces
from lessons_lib.pictures.turns import WireWindows

LOWEST_LEVEL = -60.0
_SAME_WIRE = {"color": MUTED, "linestyle": "--"}
_ZERO = Level(value=0.0, look=HOUSE_LOOK)


def _over_pole(figure, corner, inch_per_mm, x, z, instrument, **coil):
    """Axes in millimetres, equally long both ways, with the pole; (axes, draw(path, string))."""
    width, height = ((high - low) * inch_per_mm for low, high in (x, z))
    axes = figure.add_axes((*corner, width / figure.get_figwidth(), height / figure.get_figheight()), xlim=x, ylim=z)
    pole, diameter = OverPole(axes, magnet=instrument.magnet, **coil), instrument.strings[PLAIN_THIRD]["diameter"]
    return axes, lambda data: pole.update(**data["path"], string=data["string"], diameter=diameter)


def held_string_figure(instrument):
    """The string over its pole, and beside it where it is and the voltage up to now: data of `held_instants`."""
    figure, z = new_figure(width=8.0, height=2.85), (-1.2, 4.1)      # mm
    axes, draw_string = _over_pole(figure, (0.01, 0.01), 0.525, (-2.8, 2.8), z, instrument)
    rows = [Lines(figure.add_axes((0.49, bottom, 0.50, 0.36)), room=62.0, grid=False, y=y,
                  x=Axis("time", "ms", (0, FILMED), bare=bare), parts=[_ZERO, Curve("line", look=look),
                                                                       Dots("dot", look, side=1)])
            for bottom, bare, look, y in (
                (0.605, True, DISPLACEMENT, Axis("displacement", "mm", (-1.6 * PRESSED, 1.6 * PRESSED))),
                (0.19, False, VOLTAGE, Axis("voltage", "mV", (-0.12 * instrument.louder, 0.12 * instrument.louder))))]

    for row, quantity in zip(rows, ("displacement\n(mm)", "voltage\n(mV)")):
        row.axes.set_ylabel(quantity)

    def draw(data):
        time, *lines = data["traces"]
        words = "held still" if data["held"] else "let go", said(lines[1][-1], "mV", "z.0f")
        return draw_string(data) + sum((row.update(line=(time, line), dot=(time[-1], line[-1]), words={"dot": word})
                                        for row, line, word in zip(rows, lines, words)), [])
    return figure, draw


def moving_string_figure(instrument):
    """The string over its pole, and beside it three traces: data of `swing_instants`."""
    figure, louder = new_figure(width=8.0, height=5.4), instrument.louder
    coil, top = instrument.coil, 6.0                # mm from here on
    side = max(6.5, coil["outer_radius"] * MM + 0.3)
    bottom = min(-18.2, -instrument.magnet["length"] * MM - 1.2, coil["bottom"] * MM - 2.0)
    scale = min(2.6 / (2 * side), 4.84 / (top - bottom))
    axes, draw_string = _over_pole(figure, (0.01, 0.02), scale, (-side, side), (bottom, top), instrument, coil=coil)
    for text, x, z in ((f"string {PLAIN_THIRD},\nend-on", -side + 0.1, top - 1.2),
                       ("coil", -coil["outer_radius"] * MM + 0.8, coil["bottom"] * MM - 1.2)):
        label(axes, text, position=(x, z), va="center", animated=False)
    rows = [figure.add_axes((0.465, bottom, 0.51, height))
            for bottom, height in ((0.775, 0.195), (0.465, 0.255), (0.105, 0.305))]
    traces = ThreeTraces(*rows, time=SHOWN, displacement=0.9e-3, linkage=155e-6 * louder, voltage=225e-3 * louder)
    shown = ("traces", "instant", "now", "grows")
    return figure, lambda data: draw_string(data) + traces.update(**{name: data[name] for name in shown}), axes


def sideways_figure(instrument):
    """The string over its pole, its voltage below, and the levels of the harmonics: data of `sideways_instants`."""
    figure = new_figure(width=8.0, height=4.6)
    axes, draw_string = _over_pole(figure, (0.015, 0.475), 0.315, (-4.4, 4.4), (-2.2, 5.2), instrument)
    wave = Lines(figure.add_axes((0.115, 0.125, 0.25, 0.255)), grid=False, room=0.0,
                 x=Axis("time in swings of the string", "", (0, 2), ticks=(0, 1, 2)),
                 y=Axis("voltage\n(peak = 1)", "", (-1.2, 1.2), ticks=(-1, 0, 1)),
                 parts=[_ZERO, Level("now", upright=True), Curve("wave", look=VOLTAGE), Dots("dot", look=VOLTAGE)])
    levels = Lines(figure.add_axes((0.525, 0.125, 0.465, 0.845)), room=0.0,
                   x=Axis("harmonic of the voltage", "", (0.4, HARMONICS + 0.6), ticks=range(1, HARMONICS + 1)),
                   y=Axis("level", "dB", (LOWEST_LEVEL - 6, 14),
                          ticks={LOWEST_LEVEL: "under −60", -40: "−40", -20: "−20", 0: "0"}),
                   parts=[Level(value=0.0, word="harmonic 1, swinging up and down", at=0.64, look=HOUSE_LOOK),
                          Dots("levels", look=VOLTAGE, size=11, most=HARMONICS),
                          Dots("under", look=VOLTAGE, size=9, marker="v", hollow=True)])

    def draw(data):
        time, now, wave_now = data["wave"], data["swings"], data["wave_now"]
        level = np.asarray(data["levels"])
        heard, number = level > LOWEST_LEVEL, np.arange(1, HARMONICS + 1)
        return (draw_string(data) + wave.update(wave=time, now=now, dot=(now, wave_now))
                + levels.update(levels=(number, np.where(heard, level, np.nan)),
                                under=(number, np.where(heard, np.nan, LOWEST_LEVEL)),
                                words={"levels": [said(one, "", ".0f") for one in level]}))
    return figure, draw, axes


def turns_figure(instrument):
    """Two windows filled with wires, resistance over turns, output over frequency: data of `winding_curves`."""
    figure = new_figure(width=8.0, height=5.2)
    coil = instrument.long_coil
    windows = WireWindows(figure.add_axes((0.005, 0.02, 0.41, 0.96)), width=coil.outer_radius - coil.inner_radius,
                          length=coil.top - coil.bottom, once_in=DRAWN_ONCE_IN)
    resistance = Lines(figure.add_axes((0.515, 0.605, 0.45, 0.375)), room=0.0,
                       x=Axis("turns", "", (1e3, 5e4), log=True, ticks=(1e3, 2e3, 5e3, 1e4, 2e4, 5e4)),
                       y=Axis("resistance", "kΩ", (70, 1e6), log=True, ticks=(100, 1e3, 1e4, 1e5, 1e6)),
                       parts=[Curve("full_window", look=PLAIN, dot="o", at=2e4, word="window\njust full"),
                              Curve("same_wire", look=_SAME_WIRE, dot="s", at=1.8e3, word="this wire")])
    output = Lines(figure.add_axes((0.515, 0.11, 0.45, 0.375)), room=0.0,
                   x=Axis("frequency", "Hz", (100, 1e4), log=True, ticks=(100, 200, 500, 1e3, 2e3, 5e3, 1e4)),
                   y=Axis("at the amplifier", "dB", (-40, 30), ticks=(-40, -20, 0, 20)),
                   parts=[Curve("house", look=HOUSE_LOOK, at=2.2e2, below=True, word=f"{instrument.whose} coil"),
                          Curve("this", look=VOLTAGE, at=2.2e2, word="this coil")])

    def draw(data):
        *lines, at = (data["resistance"][name] for name in ("turns", "same_wire", "full_window", "at"))
        return (windows.update(data["windows"], data["words"])
                + resistance.update(lines[0], at=at[0], same_wire=lines[1], full_window=lines[2])
                + output.update(data["output"]["frequency"], house=data["output"]["house"],
                                this=data["output"]["this"]))
    return figure, draw


def hiss_figure(instrument):
    """What is at the amplifier, and the signal's level above it, over turns: data of `hiss_curves`."""
    figure, coil = new_figure(width=8.0, height=5.2), {"color": BLUE, "linestyle": "-."}
    turns = {"quantity": "turns", "unit": "", "limits": (FEWEST, MOST), "log": True,
             "ticks": (100, 300, 1e3, 3e3, 1e4, 3e4)}
    voltages = Lines(figure.add_axes((0.085, 0.54, 0.905, 0.44)), room=112.0, x=Axis(**turns, bare=True),
                     y=Axis("voltage, RMS", "µV", (1e-8, 2.0), log=True,
                            ticks={1e-8: "0.01", 1e-6: "1", 1e-4: "100", 1e-2: "10⁴", 1.0: "10⁶"}),
                     parts=[Curve("signal", "signal", VOLTAGE, dot="o"), Curve("hum", "hum", HUM, dot="D"),
                            Curve("coil", "coil's hiss", coil, dot="s"),
                            Curve("amplifier", "amplifier's hiss", DOTTED, dot="^")])
    levels = Lines(figure.add_axes((0.085, 0.115, 0.905, 0.375)), room=112.0, x=Axis(**turns),
                   y=Axis("signal above ...", "dB", (35, 105), ticks=(40, 60, 80, 100)),
                   parts=[Level("alike", upright=True, at=0.08), Curve("above_coil", "coil's hiss", coil),
                          Curve("above_both", "both hisses", VOLTAGE, dot="o"),
                          Curve("above_hum", "hum", HUM)])

    def draw(data):
        here = {"x": data["turns"], "at": data["at"]}
        return (voltages.update(**here, **data["voltages"])
                + levels.update(**here, **data["levels"], alike=data["alike"], words={"alike": data["words"]}))
    return figure, draw


def _graphs_to_choose(figure, left, width, *, x, first, words, look, voltage, words_at):
    """A graph of what is given over four of voltage, (a) to (d), all over one axis *x*; draw(time, first, voltages)."""
    tall, gap, rows = 0.150, 0.0225, []
    for number, letter in enumerate(("", *"abcd")):
        axes = figure.add_axes((left, 0.095 + (4 - number) * (tall + gap) + 0.02 * (not letter), width, tall))
        rows.append(Lines(axes, room=0.0, x=replace(x, bare=letter != "d"), y=voltage if letter else first,
                          parts=[_ZERO, Curve("line", look=VOLTAGE if letter else look, width=2.6)]))
        axes.set_ylabel("" if letter else words)
        if letter:
            label(axes, f"({letter})", position=(1.01, 0.5), transform=axes.transAxes, fontsize=TEXT + 1, va="center",
                  animated=False)
    figure.text(words_at, 0.095 + 2 * tall + 1.5 * gap, "voltage (mV)", rotation=90, fontsize=TEXT, va="center",
                color=INK)
    return lambda time, given, voltages: [artist for row, line in zip(rows, (given, *voltages.values()))
                                          for artist in row.update(time, line=line)]


def four_graphs_figure():
    """A graph of flux linkage over four graphs of voltage, all over one time axis: data of `graphs_to_choose_from`."""
    figure = new_figure(width=8.0, height=5.4)
    draw = _graphs_to_choose(
        figure, 0.13, 0.80, x=Axis("time", "ms", (0, 8e-3), ticks=[k * 1e-3 for k in range(9)]), look=FLUX,
        first=Axis("", "µWb", (-15e-6, 75e-6), ticks=(0, 50e-6)), words="linkage\n(µWb)",
        voltage=Axis("", "mV", (-75e-3, 75e-3), ticks=(-50e-3, 0, 50e-3)), words_at=0.012)
    return figure, lambda data: draw(data["time"], data["linkage"], data["voltages"])


def sideways_graphs_figure():
    """The linkage across the pole, a sideways swing, and four voltages: data of `sideways_graphs`."""
    figure, reach, deepest = new_figure(width=8.0, height=5.4), ASIDE_SWING, ASIDE_FALL * ASIDE_SWING ** 2
    across = Lines(figure.add_axes((0.09, 0.42, 0.245, 0.44)), room=0.0, grid=False,
                   x=Axis("string aside by", "mm", (-1.1 * reach, 1.1 * reach), ticks=(-reach, 0, reach)),
                   y=Axis("flux linkage", "µWb", (-1.2 * deepest, 0.3 * deepest), ticks=(-2e-6, -1e-6, 0)),
                   parts=[_ZERO, Curve("line", look=FLUX, width=2.6)])
    draw_rows = _graphs_to_choose(
        figure, 0.50, 0.44, x=Axis("time in swings of the string", "", (0, 2), ticks=(0, 1, 2)), look=DISPLACEMENT,
        first=Axis("", "mm", (-1.4 * reach, 1.4 * reach), ticks=(-reach, 0, reach)), words="aside\n(mm)",
        voltage=Axis("", "mV", (-3.25e-3, 3.25e-3), ticks=(-2e-3, 0, 2e-3)), words_at=0.415)
    figure.text(0.02, 0.90, "counted from over the middle", fontsize=TEXT - 1, color=MUTED)
    return figure, lambda data: (across.update(line=data["across"])
                                 + draw_rows(data["time"], data["place"], data["voltages"]))
