"""B, J and H along the axis of a rod, one above the other, all in tesla so that they can be added by eye."""
import numpy as np
from matplotlib.patches import Rectangle

from lessons_lib.pictures.style import (
    BLACK,
    FIELD_STRENGTH,
    FLUX_DENSITY,
    GREY,
    MM,
    POLARISATION,
    ROD_FILL,
    TEXT,
    dress,
    label,
)


class AlongAxis:
    """Two axes, one above the other: B and J above, mu0 H below; the rod is a grey band, the place a dot.

    Parameters
    ----------
    upper, lower : matplotlib.axes.Axes
    s_limits : (float, float)
        Places along the axis, m from the middle of the rod.
    b_limits, h_limits : (float, float)
        Fixed limits of B and mu0 H, T.
    """

    def __init__(self, upper, lower, *, s_limits, b_limits, h_limits):
        self.axes = upper, lower
        span = tuple(np.array(s_limits) * MM)
        dress(upper, x_label="", y_label="B, J (T)", x_limits=span, y_limits=b_limits)
        dress(lower, x_label="place along the axis, from the middle of the rod (mm)", y_label="µ$_0$H (T)",
              x_limits=span, y_limits=h_limits)
        upper.tick_params(labelbottom=False)
        for axes in self.axes:
            axes.axhline(0, color=GREY, linewidth=0.8)
        self._bands = [axes.add_patch(Rectangle((0, 0), 1, 1, transform=axes.get_xaxis_transform(), animated=True,
                                                facecolor=ROD_FILL, edgecolor=BLACK, linewidth=0.8))
                       for axes in self.axes]
        self._zeros = [axes.axhline(0, color=GREY, linewidth=0.8, animated=True) for axes in self.axes]
        self._b = self._line(upper, FLUX_DENSITY)
        self._j = self._line(upper, POLARISATION)
        self._h = self._line(lower, FIELD_STRENGTH)
        self._dots = [axes.plot([], [], "o", markersize=8, color=colour["color"], markeredgecolor=BLACK,
                                animated=True)[0]
                      for axes, colour in ((upper, FLUX_DENSITY), (lower, FIELD_STRENGTH))]
        self._words = [self._word(upper, "B", FLUX_DENSITY, (0.97, 0.30)),
                       self._word(upper, "J, in the rod only", POLARISATION, (0.97, 0.84)),
                       self._word(lower, "µ$_0$H", FIELD_STRENGTH, (0.97, 0.84))]

    @staticmethod
    def _line(axes, look):
        return axes.plot([], [], linewidth=2.4, animated=True, **look)[0]

    @staticmethod
    def _word(axes, text, look, place):
        word = label(axes, text, look, ha="right", transform=axes.transAxes, fontsize=TEXT)
        word.set_position(place)
        return word

    def update(self, *, place, b, j, mu0_h, at, length):
        """Show other curves.

        Parameters
        ----------
        place : array_like, shape (n,)
            m from the middle of the rod. Two equal places let a curve jump there.
        b, j, mu0_h : array_like, shape (n,)
            T. NaN leaves a gap.
        at : float
            The place of the dots, m.
        length : float
            Length of the rod, m.

        Returns
        -------
        list of matplotlib.artist.Artist
        """
        place = np.asarray(place) * MM
        for band in self._bands:
            band.set_bounds(-length / 2 * MM, 0, length * MM, 1)
        for line, values in ((self._b, b), (self._j, j), (self._h, mu0_h)):
            line.set_data(place, values)
        for dot, values in zip(self._dots, (b, mu0_h)):
            dot.set_data([at * MM], [np.interp(at * MM, place, values)])
        return [*self._bands, *self._zeros, self._j, self._b, self._h, *self._words, *self._dots]
