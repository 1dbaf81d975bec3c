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

    def __init__(self, axes, *, x=None, y=None, x_of=float, y_of=float, at=(0.0, 0.0)):
        self._axes, self._names, self._coordinates, self._at = axes, (x, y), (x_of, y_of), at

    def described(self, specs, shown):
        """Where the point is in the picture (points from the upper left), and which places give which values."""
        at = self._at(shown) if callable(self._at) else self._at
        place = [of(shown[name]) if name else one for name, of, one in zip(self._names, self._coordinates, at)]
        x, y = self._dots(*place)
        moved = {}
        for direction, (name, of) in enumerate(zip(self._names, self._coordinates)):
            if name:
                spec = specs[name]
                values = _range_of(spec)
                there = [self._dots(*(of(value) if one == direction else place[one] for one in (0, 1)))[direction]
                         for value in values]
                moved["xy"[direction]] = {"name": name, "places": there, "values": values,
                                          "low": spec.low, "step": spec.step}
        return {"x": x, "y": y, **{f"along_{letter}": one for letter, one in moved.items()}}

    def _dots(self, x, y):
        across, up = self._axes.transData.transform((x, y))
        return round(float(across), 1), round(float(self._axes.figure.bbox.height - up), 1)


def _range_of(spec):
    if not isinstance(spec, Slider) or spec.logarithmic:
        raise ValueError(f"a grip must move a slider with even steps; got {spec.name!r}.")
    return np.linspace(spec.low, spec.high, _PLACES).tolist()
