"""Six strings over their poles, cut across the strings: field above, six levels, a string bent from pole to pole."""
import numpy as np
from matplotlib.patches import PathPatch
from matplotlib.path import Path

from lessons_lib.base.units import said
from lessons_lib.pictures.lines import Axis, Lines
from lessons_lib.pictures.marks import Curve, Dots, Level
from lessons_lib.pictures.strings import StringEnd
from lessons_lib.pictures.style import FLUX_DENSITY, HOUSE_LOOK, INK, MM, MT, MUTED, TEXT, VOLTAGE, label, to_scale
from lessons_lib.pictures.things import Coil, Magnet, Screw, box

HALF_WIDTH = 34e-3              # m, of a row of six
_LEFT = 0.10                    # share of the figure
_STEPS = (10, 20, 50, 100, 200)     # mT: where the blue becomes deeper


class RowOfPoles:
    """Six poles in their coil, the strings over them end-on; what is lower than the axes is not seen.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
        In mm, to scale.
    strings : sequence of (str, float, float, float, float)
        Name, y, height of the axis, diameter, diameter of the steel core, m.
    coil : LongCoil
    """

    def __init__(self, axes, *, strings, coil):
        end = coil.straight_length / 2
        outer, bottom = MM * (end + coil.outer_radius), MM * coil.bottom
        box(axes, -outer, bottom, 2 * outer, -bottom)
        Coil(axes, moves=False).update(inner_radius=end + coil.inner_radius, outer_radius=end + coil.outer_radius,
                                       bottom=coil.bottom, top=coil.top)
        self._magnets, self._screws, self._strings = (
            [kind(axes) for _ in strings] for kind in (Magnet, Screw, StringEnd))
        self._ends = [{"x": y, "height": height, "diameter": diameter, "core": core, "least": 8e-4}
                      for _, y, height, diameter, core in strings]

    def update(self, poles, *, steel):
        """Show *poles*, (y, diameter, top, length) each, m: screws where they are *steel*, else magnets."""
        kinds = self._screws if steel else self._magnets
        drawn = [thing.update(x=y, diameter=diameter, top=top, length=length)
                 for thing, (y, diameter, top, length) in zip(kinds, poles)]
        drawn = [artists if steel else artists[:3] for artists in drawn]        # the lower letter is out of sight
        strings = [thing.update(**place) for thing, place in zip(self._strings, self._ends)]
        return [artist for artists in (*drawn, *strings) for artist in artists]


class FieldOverSix:
    """The field above six poles, and what one raised pole does: to the levels, and to the upright B at one height.

    Parameters
    ----------
    y, z : array_like
        Places of the map's columns and rows, m.
    strings, coil
        As of a `RowOfPoles`.
    """

    _ROOM = 88      # points, for words to the right

    def __init__(self, figure, *, y, z, strings, coil):
        width = 0.985 - _LEFT - self._ROOM / 576
        self.axes, _ = to_scale(figure, left=_LEFT, bottom=0.595, width=width,
                                x_limits=(-HALF_WIDTH, HALF_WIDTH), z_limits=(-5e-3, 7.5e-3))
        self.axes.set_ylabel("height (mm)", fontsize=TEXT)
        self.axes.set(xticks=[], yticks=[0, 2, 4, 6])
        self.axes.spines["bottom"].set_visible(False)
        # with a hair of no field all round, where lines of equal field close
        self._y, self._z = (MM * np.concatenate([[ends[0] - 1e-6], ends, [ends[-1] + 1e-6]]) for ends in (y, z))
        shade = {"facecolor": FLUX_DENSITY["color"], "alpha": 0.16, "edgecolor": "none", "animated": True}
        self._shades = [self.axes.add_patch(PathPatch(Path(np.zeros((0, 2))), **shade)) for _ in _STEPS]
        self._row = RowOfPoles(self.axes, strings=strings, coil=coil)
        self._look, = self.axes.plot([], [], color=MUTED, linestyle=":", linewidth=1.4, animated=True)
        self._here = label(self.axes, "B below\nis read here", va="center", clip_on=False, animated=True)
        above = {"xycoords": ("data", "axes fraction"), "textcoords": "offset points", "ha": "center", "fontsize": TEXT}
        for name, y_of, *_ in strings:
            self.axes.annotate(name, (y_of * MM, 1.0), (0, 22), color=INK, **above)
        self._changes = [self.axes.annotate("", (one[1] * MM, 1.0), (0, 5), animated=True, **above) for one in strings]
        self.curves = Lines(
            figure.add_axes((_LEFT, 0.12, 0.985 - _LEFT, 0.43)), room=self._ROOM,
            x=Axis("place across the strings", "mm", (-HALF_WIDTH, HALF_WIDTH)),
            y=Axis("upright B, relative", "", (-0.2, 2.0)),
            parts=[Level(value=0.0), Curve("flat", "all flush", HOUSE_LOOK), Curve("moved", "now", FLUX_DENSITY),
                   Dots("before", HOUSE_LOOK), Dots("over", FLUX_DENSITY)])

    def update(self, *, size, poles, steel, look, number, changes, across, flat, moved, over, words):
        """Show another row.

        Parameters
        ----------
        size : array_like, shape (rows, columns), T
        poles, steel
            As of `RowOfPoles.update`.
        look : float
            Height at which B is read, m.
        number : int
            Of the raised pole.
        changes : sequence of str
            What is written over each string.
        across : array_like, shape (n,), m
        flat, moved : array_like, shape (n,)
            Upright B there with all poles flush, and now, in shares of one B.
        over : (float, float, float)
            Place of the raised pole (m), the shares over it before and now.
        words : str
            What is written at the latter.
        """
        contours = self.axes.contour(self._y, self._z, np.pad(np.asarray(size) * MT, 1), _STEPS)
        contours.remove()
        for shade, path in zip(self._shades, contours.get_paths()):
            shade.set_path(path)
        self._look.set_data([-HALF_WIDTH * MM, HALF_WIDTH * MM], [look * MM] * 2)
        self._here.set_position((HALF_WIDTH * MM + 1, look * MM))
        for n, (text, word) in enumerate(zip(self._changes, changes)):
            text.set(text=word, color=INK if n == number else MUTED, fontweight="bold" if n == number else "normal")
        return [*self._shades, *self._row.update(poles, steel=steel), self._look, self._here, *self._changes,
                *self.curves.update(across, flat=flat, moved=moved, over=(over[0], over[2]), before=over[:2],
                                    words={"over": words})]


class LevelsOfSix:
    """A level over each string, with what the hand's law says; below, to scale, the poles and strings.

    Parameters
    ----------
    strings, coil
        As of a `RowOfPoles`.
    levels : (float, float)
        Fixed limits, dB.
    """

    _ROOM = 92      # points

    def __init__(self, figure, *, strings, coil, levels):
        width = 0.985 - _LEFT - self._ROOM / 576
        self.axes, high = to_scale(figure, left=_LEFT, bottom=0.02, width=width,
                                   x_limits=(-HALF_WIDTH, HALF_WIDTH), z_limits=(-7e-3, 5.2e-3))
        self.axes.set(xticks=[], yticks=[])
        self.axes.spines[:].set_visible(False)
        self._row, self._y = RowOfPoles(self.axes, strings=strings, coil=coil), [one[1] for one in strings]
        figure.text(0.012, 0.02 + high * 11.5 / 12.2, "top (mm)", va="center", fontsize=TEXT - 1, color=INK)
        self._tops = [label(self.axes, ha="center", va="center") for _ in strings]
        bottom = 0.02 + high + 0.075
        self.levels = Lines(
            figure.add_axes((_LEFT, bottom, 0.985 - _LEFT, 0.975 - bottom)), room=self._ROOM,
            x=Axis("", "", (-HALF_WIDTH, HALF_WIDTH), ticks={one[1]: one[0] for one in strings}),
            y=Axis("level", "dB", levels),
            parts=[Level("highest"), Level("lowest"), Level("law of the last", "law by hand", HOUSE_LOOK, width=0.0),
                   Dots("law", HOUSE_LOOK, marker="D", hollow=True),
                   Dots("levels", VOLTAGE, size=10, most=6)])

    def update(self, *, levels, by_law, poles, steel, loudest, softest):
        """Show levels and the law's (dB), one a string; poles as `RowOfPoles.update`; names of two strings."""
        y = np.array(self._y)
        for word, (place, diameter, top, _) in zip(self._tops, poles):
            word.set(text=said(top * MM, "", "+z.2f") if top else "flush", position=(place * MM, 4.5))
        return self.levels.update(
            highest=np.max(levels), lowest=np.min(levels), law=(y + 3.6e-3, by_law),
            **{"law of the last": by_law[-1]}, levels=(y, levels),
            words={"highest": f"{loudest}: loudest", "lowest": f"{softest}: softest",
                   "levels": [said(level, "", "+z.1f") for level in levels]}) + [
            *self._row.update(poles, steel=steel), *self._tops]


class BentSideways:
    """Level of a string on its way from pole to pole over several arrangements; below, to scale, where the string is.

    Parameters
    ----------
    names : sequence of str
        Of the arrangements, at most as many as `LOOKS`.
    reach : float
        From pole to pole, m.
    floor : float
        Lowest level shown, dB.
    string : (float, float)
        Its diameter and that of its core, m.
    pole : float
        Diameter of the poles, m.
    """

    # one colour a kind of coil: one long one, six small ones
    LOOKS = (VOLTAGE, VOLTAGE | {"linestyle": "--"}, {"color": INK, "linestyle": "-"},
             {"color": INK, "linestyle": "--"}, VOLTAGE | {"linestyle": ":"})
    _ROOM = 175     # points

    def __init__(self, figure, *, names, reach, floor, string, pole):
        width, beside = 0.985 - _LEFT - self._ROOM / 576, 3e-3
        x_limits = (-beside, reach + beside)
        self.axes, high = to_scale(figure, left=_LEFT, bottom=0.115, width=width, x_limits=x_limits,
                                   z_limits=(-1.3e-3, 4.6e-3))
        self.axes.set_xlabel("string IV pushed sideways by (mm)", fontsize=TEXT)
        self.axes.set(xticks=range(0, 11, 2), yticks=[0, 2, 4])
        self.axes.set_ylabel("height (mm)", fontsize=TEXT)
        for at, name in ((0.0, "IV"), (reach, "III")):
            Magnet(self.axes, moves=False).update(x=at, top=0.0, diameter=pole, length=0.0165, remanence=0)
            self.axes.text(at * MM, -0.65, f"pole under {name}", ha="center", va="center", fontsize=TEXT - 1, color=INK)
        self._way, = self.axes.plot([], [], color=MUTED, linestyle=":", linewidth=1.4, animated=True)
        self._string, (self._diameter, self._core) = StringEnd(self.axes), string
        self._names, self._floor = names, floor
        self._reach = reach
        bottom = 0.115 + high + 0.03
        self.levels = Lines(
            figure.add_axes((_LEFT, bottom, 0.985 - _LEFT, 0.975 - bottom)), room=self._ROOM,
            x=Axis("", "mm", x_limits, ticks=[at * 1e-3 for at in range(0, 11, 2)], bare=True),
            y=Axis("level", "dB", (floor, 1.0)),
            parts=[Level("at", upright=True), *(Curve(name, "", look, width=2.4)
                                                for name, look in zip(names, self.LOOKS)),
                   # of equal levels the first is written highest
                   *(Level(f"{name} now", look=look, width=0.0) for name, look in [*zip(names, self.LOOKS)][::-1]),
                   *(Dots(f"{name} dot", look, size=7) for name, look in zip(names, self.LOOKS))])

    def update(self, *, bend, levels, at, height, now, words):
        """Show another place.

        Parameters
        ----------
        bend : array_like, shape (n,), m
        levels : dict of str -> array_like
            Levels (dB) on the way, by arrangement.
        at, height : float
            Where the string is, m.
        now : dict of str -> float
            Levels there.
        words : dict of str -> str
            What is written beside them.
        """
        # rounded, so that words of equal levels keep their order
        seen = {name: max(round(level, 2), self._floor) for name, level in now.items()}
        self._way.set_data([0, self._reach * MM], [height * MM] * 2)
        return self.levels.update(
            np.asarray(bend), at=at, **levels, **{f"{name} now": level for name, level in seen.items()},
            **{f"{name} dot": (at, level) for name, level in now.items()},
            words={f"{name} now": words[name] for name in now}) + [
            self._way, *self._string.update(x=at, height=height, diameter=self._diameter, core=self._core)]
