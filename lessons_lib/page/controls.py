"""One quantity to choose: a box for a typed number beside a slider with the same value; or one of some words."""
import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

import ipywidgets as W

from lessons_lib.base.units import in_unit, unit_of, with_unit

STEPS_A_DECADE = 40     # of a logarithmic slider


@dataclass(frozen=True, kw_only=True)
class Slider:
    """What a slider may choose, in the unit in which it is shown.

    Parameters
    ----------
    name : str
        The keyword of the panel's function.
    label, unit : str
        As shown; the unit is one of the table in `base.units`, "" for a plain number.
    low, high, start : float
        Range and first value, in the shown unit; start(instrument) where it is a value of the instrument (`begin`).
    step : float
        Step of the keyboard and of dragging; on a logarithmic slider a ratio is taken: 40 steps a decade.
    logarithmic, whole : bool
        Logarithmic scale; whole numbers only.
    slow : bool
        A new value takes long to draw: the number comes at once, the picture after a short rest.

    Examples
    --------
    >>> length = Slider(name="length", label="length", unit="mm", low=8, high=20, start=17, step=0.5)
    >>> length.read("9,3")
    9.3
    >>> length.read("30")
    Traceback (most recent call last):
        ...
    ValueError: length must be a number from 8 to 20 mm; got '30'.
    """

    name: str
    label: str
    unit: str
    low: float
    high: float
    start: float
    step: float = 0.1
    logarithmic: bool = False
    whole: bool = False
    slow: bool = False

    def __post_init__(self):
        unit_of(self.unit)

    @property
    def full_label(self):
        """Label with unit."""
        return f"{self.label} ({self.unit})" if self.unit else self.label

    @property
    def digits(self):
        """Decimals that the step needs."""
        return max(0, -math.floor(math.log10(self.step) + 1e-9))

    def tidy(self, value):
        """The value as it is shown: what a student sees is what is computed with."""
        value = float(f"{value:.3g}") if self.logarithmic else round(value, self.digits)
        return min(max(value, self.low), self.high)

    def read(self, text):
        """The number that was typed; ValueError with the rule and what came otherwise."""
        try:
            value = float(text.strip().replace(",", "."))
        except ValueError:
            value = math.nan
        if not self.low <= value <= self.high or (self.whole and value != int(value)):
            kind = "a whole number" if self.whole else "a number"
            unit = f" {self.unit}" if self.unit else ""
            came = text if len(text) <= 30 else text[:30] + "…"
            raise ValueError(f"{self.label} must be {kind} from {self.low:g} to {self.high:g}{unit}; got {came!r}.")
        return value

    def in_si(self, value):
        """The value for the panel's function."""
        return int(value) if self.whole else value * unit_of(self.unit).factor

    def shown(self, value):
        """The value in digits."""
        return f"{value:.6g}"

    def words(self, value):
        """The value of the panel's function as it is shown, with its unit."""
        return with_unit(self.shown(in_unit(value, self.unit)), self.unit)

    def row(self, *, changed, refused):
        """Its widgets."""
        return SliderRow(self, changed=changed, refused=refused)


def begin(instrument, *specs):
    """Return the sliders and choices with the instrument's values as first ones, where they begin with such a value.

    Examples
    --------
    >>> turns = Slider(name="turns", label="turns", unit="", low=4000, high=10000, start=lambda one: one["turns"])
    >>> begin({"turns": 7600}, turns)[0].start
    7600
    """
    return tuple(replace(spec, start=spec.start(instrument)) if callable(spec.start) else spec for spec in specs)


class SliderRow:
    """The widgets of one Slider; calls changed(spec) for a new value and refused(sentence) for a wrong one."""

    def __init__(self, spec, *, changed, refused):
        self.spec, self.value = spec, spec.start
        # the start counts as typed: it, too, may lie between two steps
        self._changed, self._refused, self._silent, self._is_typed = changed, refused, False, True
        self.box = W.Text(value=spec.shown(spec.start), description=spec.full_label, continuous_update=False,
                          style={"description_width": "13em"},
                          layout={"flex": "0 0 auto", "width": "18.5em", "max_width": "100%"})
        self.slider = self._make_slider()
        # where the page is narrow or zoomed, the slider goes below its box
        self.view = W.Box([self.box, self.slider],
                          layout={"flex_flow": "row wrap", "width": "400px", "max_width": "100%"})
        self.view.add_class("lesson-slider")
        self.slider.observe(self._moved, "value")
        self.box.observe(self._typed, "value")

    def _make_slider(self):
        spec, look = self.spec, {"readout": False, "layout": {"flex": "1 1 120px", "min_width": "110px"}}
        if spec.logarithmic:
            return W.FloatLogSlider(value=spec.start, min=math.log10(spec.low), max=math.log10(spec.high),
                                    step=1 / STEPS_A_DECADE, readout_format=".3g", **look)
        return W.FloatSlider(value=spec.start, min=spec.low, max=spec.high, step=spec.step,
                             readout_format=f".{spec.digits}f", **look)

    def _moved(self, change):
        # the slider is not set from here: an answer that comes late would pull the handle back under a moving hand
        if not self._silent and not self._is_echo(change.new):
            self._is_typed = False
            self._take(self.spec.tidy(change.new))

    def _is_echo(self, position):
        """Whether the page only moved the handle to the step nearest to a number that was typed between two steps."""
        if not self._is_typed:
            return False
        if self.spec.logarithmic:
            return abs(math.log10(position / self.value)) <= 0.51 / STEPS_A_DECADE
        return abs(position - self.value) <= 0.51 * self.spec.step

    def _typed(self, change):
        if self._silent:
            return
        try:
            value = self.spec.read(change.new)
        except ValueError as trouble:
            self._refused(f"{trouble} The panel still shows {self.spec.shown(self.value)}.")
        else:
            self._is_typed = True
            self._take(value, self.slider)

    def _take(self, value, *followers):
        self.value, self._silent = value, True
        try:
            self.box.value = self.spec.shown(value)
            for follower in followers:
                follower.value = value
        finally:
            self._silent = False
        self._changed(self.spec)


@dataclass(frozen=True, kw_only=True)
class Choice:
    """One of some words, from a list that opens by keyboard.

    Parameters
    ----------
    name : str
        The keyword of the panel's function.
    label : str
        As shown.
    options : mapping of str to value
        What is shown -> what the function gets.
    start : value
        One of the values; or start(instrument), as with a `Slider`.

    Examples
    --------
    >>> rule = Choice(name="rule", label="rule", options={"one force": "force", "one energy": "energy"}, start="force")
    >>> rule.in_si("energy")
    'energy'
    """

    name: str
    label: str
    options: Mapping
    start: object
    slow: bool = False

    def __post_init__(self):
        if not callable(self.start) and self.start not in self.options.values():
            raise ValueError(f"start must be one of {', '.join(map(repr, self.options.values()))}; got {self.start!r}.")

    def in_si(self, value):
        """The value itself: words have no unit."""
        return value

    def words(self, value):
        """What is shown for the value of the panel's function."""
        return next(words for words, one in self.options.items() if one == value)

    def row(self, *, changed, refused):
        """Its widgets; nothing can be refused."""
        return ChoiceRow(self, changed=changed)


class ChoiceRow:
    """The widgets of one Choice; calls changed(spec) for a new value."""

    def __init__(self, spec, *, changed):
        self.spec, self._changed = spec, changed
        self.slider = W.Dropdown(options=list(spec.options.items()), value=spec.start, description=spec.label,
                                 style={"description_width": "13em"}, layout={"width": "392px", "max_width": "100%"})
        self.view = W.Box([self.slider], layout={"width": "400px", "max_width": "100%"})
        self.slider.observe(lambda _: self._changed(self.spec), "value")

    @property
    def value(self):
        """What is chosen."""
        return self.slider.value
