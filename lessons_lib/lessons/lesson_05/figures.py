"""The figures of lesson 5: each function returns a figure, the function that draws, and axes to take hold of."""
import numpy as np

from lessons_lib.base.units import said
from lessons_lib.lessons.lesson_05.frets import PERIODS_SHOWN
from lessons_lib.lessons.lesson_05.let_go import BEFORE, LAST, STRING, scales
from lessons_lib.lessons.lesson_05.model import COMB_FREQUENCIES, FRETS, MEASURES, PARTIALS
from lessons_lib.lessons.lesson_05.two_decays import LOWEST, SECONDS
from lessons_lib.pictures.lines import Axis, Lines
from lessons_lib.pictures.marks import Between, Curve, Dots, Level
from lessons_lib.pictures.over_pole import OverPole
from lessons_lib.pictures.part import PLAIN
from lessons_lib.pictures.strings import WholeString
from lessons_lib.pictures.style import DISPLACEMENT, GRID, HOUSE_LOOK, MM, MUTED, VERMILLION, VOLTAGE, label, new_figure

_FARTHEST_PULL = 1.5e-3     # m, drawn as a displacement of 1
FINGER_AT = 0.0125, 0.11    # where `WholeString` has it: behind the fret, as a share of the length, and its height
_ZERO = Level(value=0.0, look=HOUSE_LOOK)
_LOWEST = -66.0             # dB, where the stems of partials begin


def _string_strip(figure, bottom, height, length):
    """Axes with a whole string from bridge to nut, and draw(data) -> artists."""
    axes = figure.add_axes((0.01, bottom, 0.98, height), xlim=(-25, length * MM + 25), ylim=(-0.86, 0.62))
    axes.set_axis_off()
    for text, x, side in (("bridge", -22, "left"), ("nut", length * MM + 22, "right")):
        label(axes, text, position=(x, 0.5), ha=side, va="center", animated=False)
    string = WholeString(axes)

    def draw(data, shape=None):
        return string.update(
            length=data["length"], frets=data["length"] / 2 ** (FRETS[1:] / 12), pickup=data["pickup"],
            pluck=data["hand"], finger=data["stop"] if data["fret"] else None,
            shape=None if shape is None else (shape[0], shape[1] / _FARTHEST_PULL))
    return axes, draw, string.SWING


def _speed_arrow(axes, swing):
    """A dot on the string and an arrow as long as its speed: draw(place (m), displacement (m), speed in open peaks)."""
    shaft, = axes.plot([], [], color=VERMILLION, linewidth=2.6, animated=True)
    head, = axes.plot([], [], color=VERMILLION, markersize=9, linestyle="none", animated=True)
    dot, = axes.plot([], [], "o", color=VERMILLION, markersize=8, animated=True)

    def draw(x, displacement, speed):
        at = displacement / _FARTHEST_PULL * swing
        end = at + 0.26 * np.clip(speed, -1.6, 1.6)
        dot.set_data([x * MM], [at])
        shaft.set_data([x * MM] * 2, [at, end])
        head.set_data([x * MM], [end])
        head.set(marker="^" if speed > 0 else "v", visible=bool(speed))
        return [shaft, head, dot]
    return draw


def frets_figure(length):
    """The plucked string, its pulses over the pickup, what the coil gives over the frets: data of `fret_instants`."""
    figure = new_figure(width=8.0, height=5.4)
    axes, draw_string, swing = _string_strip(figure, 0.705, 0.29, length)
    draw_speed = _speed_arrow(axes, swing)
    train = Lines(figure.add_axes((0.13, 0.515, 0.86, 0.185)), room=120.0, grid=False,
                  x=Axis("periods of the open string", "", (0, PERIODS_SHOWN), ticks=(0, 0.5, 1, 1.5, 2)),
                  y=Axis("voltage", "", (-3.2, 3.2), ticks=(-2, -1, 0, 1, 2)),
                  parts=[Curve("open_string", look=HOUSE_LOOK, width=4.0),
                         Curve("fretted", look=VOLTAGE, width=1.8), Level("now", upright=True),
                         Level(value=1.0, word="peak of the\nopen string", look=HOUSE_LOOK, width=0.0)])
    chart = Lines(figure.add_axes((0.13, 0.105, 0.86, 0.285)), room=120.0,
                  x=Axis("fret", "", (0, FRETS[-1]), ticks=(0, 3, 5, 7, 9, 12, 15, 17, 19)),
                  y=Axis("times the\nopen string", "", (0.34, 7), log=True, ticks=(0.5, 1, 2, 5)),
                  parts=[Curve(name, name, VOLTAGE | {"linestyle": style}, dot=dot, width=width)
                         for name, style, dot, width in zip(MEASURES, ("-", "--", "-."), "oDs", (3.0, 2.2, 2.2))])

    def draw(data):
        string, pulses, measures = data["string"], data["train"], data["measures"]
        return (draw_string(string, string["shape"]) + draw_speed(string["pickup"], *string["over_pickup"])
                + train.update(**pulses) + chart.update(FRETS, **measures))
    return figure, draw, axes


def let_go_figure(instrument):
    """The string just after its release over the velocity at the pickup: data of `let_go_instant`."""
    figure, length = new_figure(width=8.0, height=5.4), instrument.place["scale_length"]
    farthest, fastest = scales(instrument)
    shape = Lines(
        figure.add_axes((0.09, 0.475, 0.88, 0.515)), room=0.0, grid=False,
        x=Axis("place, from the bridge", "mm", (0, length)),
        y=Axis("displacement", "mm", (-0.55 * farthest, 1.2 * farthest)),
        parts=[_ZERO, Level("pickup", "pickup", upright=True, at=0.06), Between("old", "new", GRID),
               Curve("old", width=0.0), Curve("new", width=0.0), Curve("held", look=HOUSE_LOOK, width=1.8),
               Curve("string", look=PLAIN, width=3.0), Curve("drop", look=VOLTAGE, width=3.0),
               Dots("slopes", marker="", lift=-33, most=3), Dots("point", VOLTAGE), Dots("corner", size=6),
               Dots("to_bridge", marker="<", size=9), Dots("to_nut", marker=">", size=9)])
    speed = Lines(
        figure.add_axes((0.09, 0.115, 0.88, 0.27)), room=0.0,
        x=Axis("time since the release", "ms", (BEFORE, LAST)),
        y=Axis("velocity", "m/s", (-1.45 * fastest, 1.1 * fastest)),
        parts=[_ZERO, Level("time", upright=True), Curve("velocity", look=VOLTAGE, width=2.6), Dots("now", VOLTAGE)])
    label(speed.axes, "velocity over the pickup", position=(0.99, 0.90), transform=speed.axes.transAxes, ha="right",
          va="top", animated=False)
    label(shape.axes, f"string {STRING}, far too steep; slopes in mm per m", position=(0.99, 0.97),
          transform=shape.axes.transAxes, ha="right", va="top", animated=False)

    def draw(data):
        seen = {name: data.get(name)
                for name in ("held", "string", "point", "corner", "to_bridge", "to_nut", "old", "new", "drop")}
        x, y, slopes = zip(*data["slopes"])
        return (shape.update(pickup=data["point"][0], slopes=(x, y), **seen,
                             words={"slopes": [said(1e3 * one, "", "+z.1f") for one in slopes]})
                + speed.update(time=data["time"], velocity=data["velocity"],
                               now=(data["time"], data["velocity"][1][-1])))
    return figure, draw, shape.axes


def partials_figure(length):
    """The string with its finger, and its partials over the comb of the pickup's place: data of `partial_curves`."""
    figure = new_figure(width=8.0, height=5.2)
    axes, draw_string, _ = _string_strip(figure, 0.735, 0.26, length)
    levels = Lines(
        figure.add_axes((0.095, 0.115, 0.895, 0.61)), room=0.0, grid=False,
        x=Axis("frequency", "Hz", (COMB_FREQUENCIES[0], COMB_FREQUENCIES[-1]), log=True,
               ticks=(100, 200, 500, 1e3, 2e3, 5e3, 1e4)),
        y=Axis("level", "dB", (_LOWEST, 18), ticks=(-60, -40, -20, 0)),
        parts=[Between("comb", "floor"), Curve("comb", look=HOUSE_LOOK, width=1.2), Curve("floor", width=0.0),
               Level("pickup_gap", upright=True), Level("pluck_gap", upright=True, at=0.90),
               Dots("velocity", look=VOLTAGE, stems=_LOWEST, size=7, most=PARTIALS),
               Dots("displacement", look={"color": MUTED}, marker="s", size=5, side=-1, most=PARTIALS)])

    def draw(data):
        lines = {name: data[name] for name in ("velocity", "displacement")}
        seen = {name: np.where(line > _LOWEST, line, np.nan) for name, line in lines.items()}
        words = {"pickup_gap": f"the pickup misses {said(data['pickup_gap'], 'Hz', '.0f')}",
                 "pluck_gap": f"the hand misses {said(data['pluck_gap'], 'Hz', '.0f')}"}
        named = next((n for n in range(1, PARTIALS) if all(line[n] > _LOWEST + 6 for line in lines.values())), 0)
        words |= {name: [""] * named + [name] for name in lines}
        return (draw_string(data["string"])
                + levels.update(comb=data["comb"], floor=(COMB_FREQUENCIES[[0, -1]], np.full(2, _LOWEST)),
                                pickup_gap=data["pickup_gap"], pluck_gap=data["pluck_gap"], words=words,
                                **{name: (data["frequency"], level) for name, level in seen.items()}))
    return figure, draw, axes


def _end_on(figure, instrument, heights, half_width, bottom, tall):
    """Axes of one scale at the left of a figure of 8 inches, *half_width* (mm) to both sides, and the `OverPole`."""
    low, high = heights
    inch = tall * figure.get_figheight() / ((high - low) * MM)
    axes = figure.add_axes((0.005, bottom, 2 * half_width * inch / 8, tall), xlim=(-half_width, half_width),
                           ylim=(low * MM, high * MM))
    return axes, OverPole(axes, magnet=instrument.magnet)


def curved_map_figure(instrument):
    """The string over its pole beside S at its height, and the voltage of a turn: data of `curved_map_instants`."""
    figure, louder = new_figure(width=8.0, height=4.6), instrument.louder
    heights, bottom, tall = (-1.1e-3, 5.0e-3), 0.125, 0.855
    axes, pole = _end_on(figure, instrument, heights, 1.2, bottom, tall)
    slope = Lines(figure.add_axes((0.265, bottom, 0.235, tall)), room=0.0,
                  x=Axis("S", "V per m/s", (0, 0.2 * louder)), y=Axis("height of the string", "mm", heights,
                                                                      ticks=[k * 1e-3 for k in range(6)]),
                  parts=[Level("height"), Curve("slope", look={"color": MUTED, "linestyle": "-"}),
                         Curve("swing", look=VOLTAGE, width=5.0), Dots("dot", look=VOLTAGE)])
    turn = Axis("time in turns of the swing", "", (0, 1), ticks=(0, 0.25, 0.5, 0.75, 1))
    wave = Lines(figure.add_axes((0.60, 0.50, 0.385, 0.48)), room=0.0,
                 x=Axis("", "", (0, 1), ticks=(0, 0.25, 0.5, 0.75, 1), bare=True),
                 y=Axis("voltage\n(S constant: peak 1)", "", (-1.8, 1.8), ticks=(-1, 0, 1)),
                 parts=[_ZERO, Level("now", upright=True), Curve("straight", look=HOUSE_LOOK, width=1.6),
                        Curve("bent", look=VOLTAGE, dot="o"),
                        Level(value=1.45, word="pale: S constant", at=0.5, look=HOUSE_LOOK, width=0.0)])
    octave = Lines(figure.add_axes((0.60, bottom, 0.385, 0.30)), room=0.0, x=turn,
                   y=Axis("voltage", "", (-0.27, 0.27), ticks=(-0.2, 0, 0.2)),
                   parts=[_ZERO, Level("now", upright=True), Curve("second", look=VOLTAGE, dot="o")])
    label(octave.axes, "second harmonic alone", position=(0.5, 1.02), transform=octave.axes.transAxes, ha="center",
          va="bottom", animated=False)

    def draw(data):
        waves, now, row = data["waves"], data["turn"], instrument.strings[data["string"]]
        times, height = waves["turn"], data["height"]
        return (pole.update(**data["path"], string=(0.0, height), diameter=row["diameter"], core=row["core"])
                + slope.update(height=height, slope=data["slope"], swing=data["swing"],
                               dot=(data["slope_now"], height))
                + wave.update(times, at=now, now=now, straight=waves["straight"], bent=waves["bent"])
                + octave.update(times, at=now, now=now, second=waves["second"]))
    return figure, draw, axes


def two_decays_figure(instrument):
    """The plucked string over its pole beside the level of what is heard and of its two notes: data of `decay_curves`.
    """
    figure, bottom, tall = new_figure(width=8.0, height=4.2), 0.13, 0.85
    axes, pole = _end_on(figure, instrument, (-1.1e-3, 7.7e-3), 2.7, bottom, tall)
    yields, = axes.plot([], [], linewidth=1.6, animated=True, **DISPLACEMENT)
    levels = Lines(
        figure.add_axes((0.36, bottom, 0.63, tall)), x=Axis("time since the release", "s", (0, SECONDS)),
        y=Axis("level", "dB", (LOWEST, 6.0), ticks=(0, -10, -20, -30, -40, -50)), room=0.0,
        parts=[*(Curve(name + sample, look=PLAIN | {"linestyle": dashes}, width=1.8) for sample in ("", ", sample")
                 for name, dashes in (("fast", "--"), ("slow", "-."))), Curve("heard", look=VOLTAGE, width=2.8),
               Level("quiet", "20 dB below the loudest", at=0.78), Dots("then", VOLTAGE)])

    def draw(data):
        yields.set_data(*(np.transpose(data["gives way"]) * MM))
        return [yields, *pole.update(**data["end-on"]), *levels.update(**data["levels"])]
    return figure, draw, axes
