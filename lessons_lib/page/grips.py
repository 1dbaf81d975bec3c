"""What can be taken hold of in a picture: a point that is dragged and the sliders that follow."""
import numpy as np

from lessons_lib.page.controls import Slider

_PLACES = 60    # of a slider's range, between which the page draws straight lines


class Grip:
    """A point of the picture that a mouse or a finger can drag; the keyboard has the slider.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
        In whose coordinates the places are.
    x, y : str, optional
        Name of the slider that a drag along, or up, sets.
    x_of, y_of : callable, optional
        x_of(shown value of the slider) -> coordinate, rising or falling all the way; left out: the same number.
    times : callable, optional
        times(shown values of all sliders) -> factor of what x_of gives, where other sliders stretch the picture.
    at : callable or (float, float), optional
        Where the point is in a direction without a slider: at(shown values of all sliders) -> (x, y).

    Examples
    --------
    >>> from lessons_lib.pictures.style import new_figure
    >>> axes = new_figure(width=1, height=1).add_axes((0, 0, 1, 1), xlim=(0, 72), ylim=(0, 72))
    >>> height = Slider(name="height", label="height", unit="mm", low=0, high=10, start=5)
    >>> grip = Grip(axes, y="height", at=(36, 0)).described({"height": height}, {"height": 5})
    >>> grip["x"], grip["y"]
    (36.0, 67.0)
    """

    def __init__(self, axes, *, x=None, y=None, x_of=float, y_of=float, times=None, at=(0.0, 0.0)):
        self._axes, self._names, self._at = axes, (x, y), at
        self._coordinates, self._times = (x_of, y_of), times or (lambda shown: 1.0)

    def described(self, specs, shown):
        """Where the point is in the picture (points from the upper left), and which places give which values."""
        at = self._at(shown) if callable(self._at) else self._at
        x_of, y_of = self._coordinates
        stretched, factor = (lambda value: factor * x_of(value)), self._times(shown)
        ways = tuple(zip(self._names, (stretched, y_of)))
        place = np.array([of(shown[name]) if name else one for (name, of), one in zip(ways, at)], dtype=float)
        x, y = self._dots(place)
        described = {"x": float(x), "y": float(y)}
        for direction, (name, of) in enumerate(ways):
            if name:
                spec = specs[name]
                values = _range_of(spec)
                there = np.tile(place, (len(values), 1))
                there[:, direction] = [of(value) for value in values]
                described[f"along_{'xy'[direction]}"] = {
                    "name": name, "places": self._dots(there)[:, direction].tolist(), "values": values,
                    "low": spec.low, "step": spec.step}
        return described

    def _dots(self, places):
        """Places (..., 2) of the axes as points from the upper left of the picture."""
        dots = self._axes.transData.transform(places)
        dots[..., 1] = self._axes.figure.bbox.height - dots[..., 1]
        return dots.round(1)


def _range_of(spec):
    if not isinstance(spec, Slider) or spec.logarithmic:
        raise ValueError(f"a grip must move a slider with even steps; got {spec.name!r}.")
    return np.linspace(spec.low, spec.high, _PLACES).tolist()
