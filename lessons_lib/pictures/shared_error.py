"""Readings with an error that all share, the fit through them, and residuals that hardly show it."""
import numpy as np

from lessons_lib.pictures.style import BLACK, FLUX_DENSITY, GREY, MM, MT, PERCENT, dress, label

_NOISE_BAND = "#E4E4E4"
_STRIP = 30         # per cent


class ReadingsWithSharedError:
    """Flux density against distance, logarithmic, over residuals in per cent.

    Parameters
    ----------
    axes, residual_axes : matplotlib.axes.Axes
    reach : float, m
        Of the distance axis.
    flux_density : (float, float), T
        Fixed limits.
    noise : float
        Share of a reading that the grey band of the residuals shows, to both sides.
    """

    def __init__(self, axes, residual_axes, *, reach, flux_density, noise):
        self.axes, self.residual_axes = axes, residual_axes
        axes.set_yscale("log")
        limits = tuple(one * MT for one in flux_density)
        dress(axes, x_label="", y_label="flux density (mT)", x_limits=(-0.3, reach * MM), y_limits=limits)
        axes.set_yticks([1, 10, 100], ["1", "10", "100"])
        axes.minorticks_off()
        axes.tick_params(labelbottom=False)
        axes.grid(True, color="#DDDDDD", linewidth=0.8)
        dress(residual_axes, x_label="distance to the tip (mm)", y_label="residual (%)", x_limits=(-0.3, reach * MM),
              y_limits=(-_STRIP, _STRIP))
        residual_axes.axhspan(-PERCENT * noise, PERCENT * noise, color=_NOISE_BAND, zorder=0)
        residual_axes.axhline(0, color=BLACK, linewidth=1)
        self._true, = axes.plot([], [], color=GREY, linestyle="--", linewidth=2, animated=True)
        self._fit, = axes.plot([], [], linewidth=2.2, animated=True, **FLUX_DENSITY)
        dots = {"marker": "o", "linestyle": "none", "color": BLACK, "markersize": 5, "animated": True}
        self._dots, = axes.plot([], [], **dots)
        self._left, = residual_axes.plot([], [], **dots)
        self._word = label(axes, ha="right", va="top", transform=axes.transAxes)
        self._word.set(position=(0.99, 0.96), text="dots: readings   line: fit   dashed: the field itself\n"
                                                   "grey band below: two sigma of noise")

    def update(self, *, distance, readings, model, line, true, fitted):
        """Show other readings.

        Parameters
        ----------
        distance, readings, model : array_like, shape (n,), m and T
        line, true, fitted : array_like, shape (k,), m and T
            A finer line: places, the field there, the fit there.

        Returns
        -------
        list of matplotlib.artist.Artist
        """
        distance, readings, model = (np.asarray(one, dtype=float) for one in (distance, readings, model))
        self._true.set_data(np.asarray(line) * MM, np.asarray(true) * MT)
        self._fit.set_data(np.asarray(line) * MM, np.asarray(fitted) * MT)
        self._dots.set_data(distance * MM, readings * MT)
        low, high = self.residual_axes.get_ylim()
        left = PERCENT * (readings - model) / readings
        # what lies beyond the axis stands at its edge; the read-out has its number
        self._left.set_data(distance * MM, np.clip(left, 0.97 * low, 0.97 * high))
        return [self._true, self._fit, self._dots, self._left, self._word]
