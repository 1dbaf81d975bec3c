"""Flux lines round a rod: contours of the flux function in equal steps, so that every tube carries the same flux."""
import numpy as np
from matplotlib.colors import to_rgba
from matplotlib.patches import Rectangle

from lessons_lib.base.units import said
from lessons_lib.pictures.style import BLUE, BODY, FLUX, INK, MM, MT, NORTH, SOUTH, TEXT, caption, dress, label

SHADES = {0.01: 0.08, 0.03: 0.2, 0.1: 0.34, 0.3: 0.5}      # from this B on, T: how dense the shade is
BY_FACE, BY_SIDE = 2.0, 0.9     # width of a line


class FluxLines:
    """A section through a rod and the flux round it.

    Parameters
    ----------
    half_width, bottom, top : float
        Fixed limits of the section, m.
    step : float
        Flux from one line to the next, Wb: the flux of one tube, taken all the way round the axis.
    shaded : bool
        With a scale for the shade of B.
    magnet : bool
        Otherwise the rod is the core of a coil: grey, with the poles' letters.
    aside : bool
        The letters of the poles are beside the rod, which has something else in it.

    Notes
    -----
    The field turned about the axis is drawn on both sides of it. Lines close unless they leave the frame. Lines of
    equal flux crowd at the rod's wall even where B is the same all over, because the outer rings are longer: the shade
    shows B itself.
    """

    def __init__(self, axes, *, half_width, bottom, top, step, shaded=False, magnet=True, aside=False):
        self.axes, self.step, self._aside, self._fields = axes, step, aside, []
        self._colours = (NORTH, SOUTH) if magnet else (BODY, BODY)
        dress(axes, x_label="distance from the axis (mm)", y_label="height z (mm)",
              x_limits=(-half_width * MM, half_width * MM), y_limits=(bottom * MM, top * MM))
        axes.set_aspect("equal")
        axes.set_title(f"from one line to the next: {said(step, 'µWb', 'g')}", fontsize=TEXT, loc="left", color=INK)
        moving = {"animated": True}
        self._halves = [axes.add_patch(Rectangle((0, 0), 1, 1, edgecolor="none", **moving)) for _ in range(2)]
        self._edge = axes.add_patch(Rectangle((0, 0), 1, 1, fill=False, edgecolor=INK, linewidth=1.6, **moving))
        marks = {"markersize": 5, "linestyle": "none", "color": FLUX["color"], "animated": True}
        self._up, self._down = axes.plot([], [], "^", **marks)[0], axes.plot([], [], "v", **marks)[0]
        self._exits = axes.plot([], [], "o", markersize=4.5, linestyle="none", color=INK, **moving)[0]
        self._poles = [label(axes, ha="center", va="center", fontsize=TEXT + 1) for _ in range(2)]
        self._counts = {"face": label(axes, look=FLUX, ha="center", va="bottom", fontsize=TEXT + 1),
                        "side": label(axes, look=FLUX, ha="left", va="center", fontsize=TEXT + 1)}
        if shaded:
            self._draw_scale()

    def _draw_scale(self):
        """What the shades mean, above the frame at its right end."""
        right, up, wide = 1.0, 1.015, 0.075
        for n, (least, density) in enumerate(reversed(SHADES.items())):
            left = right - (n + 1) * wide
            self.axes.add_patch(Rectangle((left, up), wide, 0.045, transform=self.axes.transAxes, clip_on=False,
                                          facecolor=BLUE, alpha=density, edgecolor="none"))
            caption(self.axes, f"{least * MT:.0f}", x=left + 0.01, up=up)
        caption(self.axes, "shade: B in mT, from", {"color": BLUE}, x=right - len(SHADES) * wide - 0.01, up=up,
                ha="right")

    def update(self, *, rho, z, flux, diameter, length, face=None, shade=None, top=0.0):
        """Show another field.

        Parameters
        ----------
        rho, z : array_like, shapes (n,), (m,)
            Distances from the axis (from 0 on, rising) and heights, m; the rod's wall and faces are among them.
        flux : array_like, shape (m, n)
            Flux through the circle of radius rho at height z, Wb; positive upward.
        diameter, length, top : float
            The rod, m.
        face : float, optional
            Flux through the upper face, Wb: with it the lines are counted that leave by face and by side.
        shade : (ndarray, ndarray, ndarray), optional
            Distances (k,) and heights (i,), m, and magnitudes of B (i, k), T, for the shade. Two equal distances let B
            jump there.
        """
        rho, z, flux = np.asarray(rho) * MM, np.asarray(z) * MM, np.asarray(flux)
        diameter, length, top = diameter * MM, length * MM, top * MM
        for field in self._fields:
            field.remove()
        size, by_face = np.abs(flux), 0 if face is None else int(abs(face) / self.step)
        shades = [] if shade is None else [self._shade(*(np.asarray(one) for one in shade))]
        lines = self._lines(rho, z, size, by_face)
        self._fields = [*shades, lines]
        self._show_rod(diameter, length, top, upward=flux.flat[size.argmax()] > 0)
        self._show_directions(rho, z, flux, top - length / 2)
        counts = [] if face is None else self._count(rho, z, size, (diameter / 2, length, top), by_face)
        return [*([] if shades else self._halves), *shades, lines, self._up, self._down, self._edge, *self._poles,
                *counts]

    def _show_rod(self, diameter, length, top, upward):
        self._edge.set_bounds(-diameter / 2, top - length, diameter, length)
        for half, color, low in zip(self._halves, self._colours if upward else self._colours[::-1],
                                    (top - length / 2, top - length)):
            half.set(bounds=(-diameter / 2, low, diameter, length / 2), facecolor=color)
        for pole, text, place in zip(self._poles, "NS" if upward else "SN", (top - 1.3, top - length + 1.3)):
            pole.set(text=text, position=(-(diameter / 2 + 1.4) * self._aside, place))

    def _shade(self, rho, z, size):
        """B on both sides of the axis, in few steps."""
        shade = self.axes.contourf(np.concatenate([-rho[::-1], rho]) * MM, z * MM,
                                   np.concatenate([size[:, ::-1], size], axis=1), [*SHADES, 1e3],
                                   colors=[to_rgba(BLUE, density) for density in SHADES.values()])
        shade.set_animated(True)
        return shade

    def _lines(self, rho, z, size, by_face):
        levels = self.step * np.arange(1, max(2, int(np.ceil(size.max() / self.step))))
        widths = np.array([BY_FACE] * by_face + [BY_SIDE] * (len(levels) - by_face)) * min(1, np.sqrt(15 / len(levels)))
        lines = self.axes.contour(np.concatenate([-rho[:0:-1], rho]), z,
                                  np.concatenate([size[:, :0:-1], size], axis=1), levels, colors=FLUX["color"],
                                  linewidths=widths)
        lines.set_animated(True)
        return lines

    def _show_directions(self, rho, z, flux, middle):
        """Arrow heads where lines cross the middle height: there they run along the axis."""
        row = flux[np.abs(z - middle).argmin()]
        inner, outer = crossings(rho, np.abs(row), self.step)
        inner = inner[::4]      # inside, the lines are too close for a head on each
        up, down = (inner, outer) if row[np.abs(row).argmax()] > 0 else (outer, inner)
        for marks, places in ((self._up, up), (self._down, down)):
            marks.set_data(np.concatenate([-places, places]), np.full(2 * len(places), middle))

    def _count(self, rho, z, size, rod, by_face):
        """Dots where lines leave the upper half, and how many leave by the face and how many by the side."""
        radius, length, top = rod
        upper = (z >= top - length / 2 - 1e-9) & (z <= top)
        wall = size[upper, np.abs(rho - radius).argmin()][::-1]     # from the edge of the face down to the middle
        levels = self.step * np.arange(1, int(np.ceil(size.max() / self.step)))
        disc = rho <= radius + 1e-9
        face = size[np.abs(z - top).argmin(), disc]
        places = [(np.interp(level, face, rho[disc]), top) for level in levels[:by_face]]
        places += [(radius, np.interp(level, wall, z[upper][::-1])) for level in levels[by_face:]]
        across, heights = np.transpose(places) if places else np.zeros((2, 0))
        self._exits.set_data(np.concatenate([-across, across]), np.tile(heights, 2))
        for name, count, place in (("face", by_face, (0, top + 1.6)),
                                   ("side", len(levels) - by_face, (radius + 1.2, top - length / 5))):
            self._counts[name].set(text=f"{count} by the {name}", position=place)
        return [self._exits, *self._counts.values()]


def crossings(rho, flux, step):
    """Places where a flux that rises to one maximum and falls again crosses whole steps: (on the way up, down).

    Examples
    --------
    >>> crossings([0, 2, 4], [0, 2.5, 0], 1.0)
    (array([0.8, 1.6]), array([3.2, 2.4]))
    """
    rho, flux = np.asarray(rho, dtype=float), np.asarray(flux, dtype=float)
    peak = flux.argmax()
    levels = step * np.arange(1, int(np.ceil(flux[peak] / step)))
    upward = np.interp(levels, flux[:peak + 1], rho[:peak + 1])
    fallen = levels[levels > flux[-1]]
    return upward, np.interp(fallen, flux[:peak - 1 if peak else None:-1], rho[:peak - 1 if peak else None:-1])
