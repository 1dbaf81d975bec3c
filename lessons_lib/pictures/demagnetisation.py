"""The demagnetising curve of a magnet with its load line, working point and recoil line."""
import numpy as np
from matplotlib.patches import Rectangle

from lessons_lib.pictures.style import BLACK, BLUE, FLUX_DENSITY, GREY, KA_PER_M, ROD_FILL, dress, label

RECOIL = {"color": BLUE, "linestyle": "-."}
LOAD = {"color": BLACK, "linestyle": "--"}
STRAIGHT = {"color": GREY, "linestyle": ":"}


class LoadLine:
    """B against H in the second quadrant.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    h_limit, b_limit : float
        Fixed limits: H from -h_limit (A/m) to 0, B from 0 to b_limit (T).
    """

    def __init__(self, axes, *, h_limit, b_limit):
        self.axes, self._h_limit, self._b_limit = axes, h_limit, b_limit
        dress(axes, x_label="field strength H in the magnet (kA/m)", y_label="flux density B (T)",
              x_limits=(-h_limit * KA_PER_M, 0.0), y_limits=(0, b_limit))
        axes.yaxis.tick_right()
        axes.yaxis.set_label_position("right")
        axes.spines["left"].set_visible(False)
        axes.spines["right"].set_visible(True)
        axes.grid(True, color="#DDDDDD", linewidth=0.8)
        moving = {"animated": True}
        self._energy = axes.add_patch(Rectangle((0, 0), 0, 0, facecolor=ROD_FILL, edgecolor="none", **moving))
        self._straight, = axes.plot([], [], linewidth=1.8, **STRAIGHT, **moving)
        self._curve, = axes.plot([], [], linewidth=2.6, **FLUX_DENSITY, **moving)
        self._load, = axes.plot([], [], linewidth=2.0, **LOAD, **moving)
        self._recoil, = axes.plot([], [], linewidth=2.2, **RECOIL, **moving)
        self._straight_point, = axes.plot([], [], "s", color=GREY, markersize=8, fillstyle="none", markeredgewidth=1.8,
                                          **moving)
        self._point, = axes.plot([], [], "o", color=BLACK, markersize=9, **moving)
        where = {"va": "center", "transform": axes.transAxes}
        for text, look, place in (("demagnetising curve", FLUX_DENSITY, 0.02), ("load line", LOAD, 0.31),
                                  ("straight line from B$_r$ to H$_c$", STRAIGHT, 0.46), ("grey area: BH", None, 0.83)):
            label(axes, text, look, animated=False, **where).set_position((place, 0.96))
        self._recoil_word = label(axes, look=RECOIL, **where)
        self._recoil_word.set_position((0.02, 0.88))

    def update(self, *, h, b, load_slope, at, straight_at, recoil_remanence):
        """Show another magnet and load line.

        Parameters
        ----------
        h, b : array_like, shape (n,)
            The curve from the coercivity to the remanence, A/m and T.
        load_slope : float
            B divided by H of the load line, T m/A, negative.
        at, straight_at : (float, float)
            Working points (A/m, T) on the curve and on the straight line between its ends.
        recoil_remanence : float or None
            Where the recoil line meets H = 0, T; None for no line.

        Returns
        -------
        list of matplotlib.artist.Artist
        """
        h, b = np.asarray(h) * KA_PER_M, np.asarray(b)
        self._curve.set_data(h, b)
        self._straight.set_data(h[[0, -1]], b[[0, -1]])
        far = max(-self._h_limit, 0.84 * self._b_limit / load_slope)      # below the names
        self._load.set_data([far * KA_PER_M, 0], [far * load_slope, 0])
        self._point.set_data([at[0] * KA_PER_M], [at[1]])
        self._straight_point.set_data([straight_at[0] * KA_PER_M], [straight_at[1]])
        self._energy.set_bounds(at[0] * KA_PER_M, 0, -at[0] * KA_PER_M, at[1])
        self._show_recoil(at, recoil_remanence)
        return [self._energy, self._straight, self._curve, self._load, self._recoil, self._recoil_word,
                self._straight_point, self._point]

    def _show_recoil(self, at, recoil_remanence):
        drawn = recoil_remanence is not None
        self._recoil.set_data(*([[at[0] * KA_PER_M, 0], [at[1], recoil_remanence]] if drawn else [[], []]))
        self._recoil_word.set_text("recoil line" if drawn else "no recoil line: it would end above B$_r$")
