"""One graph above, four below to choose from."""
import numpy as np

from lessons_lib.pictures.style import BLACK, FLUX, GREY, MS, MV, TEXT, UWB, VOLTAGE, dress


class FluxAndFourVoltages:
    """A graph of flux linkage over four graphs of voltage, lettered (a) to (d).

    Parameters
    ----------
    figure : matplotlib.figure.Figure
    time : float
        Length of the time axes, s.
    linkage, voltage : float
        Fixed limits to both sides of zero, Wb and V.
    """

    def __init__(self, figure, *, time, linkage, voltage):
        above = figure.add_axes((0.32, 0.66, 0.40, 0.31))
        dress(above, x_label="", y_label="linkage (µWb)", x_limits=(0, time * MS),
              y_limits=(-linkage * UWB, linkage * UWB))
        self._linkage, = above.plot([], [], linewidth=2.4, animated=True, **FLUX)
        self._voltages, self.axes = {}, {}
        for n, letter in enumerate("abcd"):
            axes = figure.add_axes((0.085 + 0.232 * n, 0.13, 0.205, 0.36))
            dress(axes, x_label="time (ms)", y_label="" if n else "voltage (mV)", x_limits=(0, time * MS),
                  y_limits=(-voltage * MV, voltage * MV))
            axes.tick_params(labelleft=not n)
            axes.set_title(f"({letter})", fontsize=TEXT, color=BLACK)
            self.axes[letter] = axes
            self._voltages[letter], = axes.plot([], [], linewidth=2.4, animated=True, **VOLTAGE)
        for axes in (above, *self.axes.values()):
            axes.axhline(0, color=GREY, linewidth=0.8)

    def update(self, *, time, linkage, voltages):
        """Show other graphs: s and Wb, shape (n,); *voltages* maps each letter to V, shape (n,)."""
        time = np.asarray(time) * MS
        self._linkage.set_data(time, np.asarray(linkage) * UWB)
        for letter, line in self._voltages.items():
            line.set_data(time, np.asarray(voltages[letter]) * MV)
        return [self._linkage, *self._voltages.values()]
