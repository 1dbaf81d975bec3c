"""One quantity to choose: a slider with a box for a typed number, or one of some words. What is said, not how it looks.

`board.js` makes the controls of a page from what `described` says.
"""
import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from lessons_lib.base.checks import refuse
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

    def __post_init__(self):
        unit_of(self.unit)

    @property
    def digits(self):
        """Decimals that the step needs."""
        return max(0, -math.floor(math.log10(self.step) + 1e-9))

    def tidy(self, value):
        """The value as it is shown: what a student sees is what is computed with."""
        value = float(f"{value:.3g}") if self.logarithmic else round(float(value), self.digits)
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
            refuse(self.label, f"{kind} from {self.low:g} to {self.high:g}{unit}", came)
        return value

    def in_si(self, value):
        """The value for the panel's function."""
        return int(value) if self.whole else value * unit_of(self.unit).factor

    def shown(self, value):
        """The value in digits."""
        return f"{value:.6g}"

    def text(self, value):
        """The value of the panel's function as it would be typed."""
        return self.shown(in_unit(value, self.unit))

    def words(self, value):
        """The value of the panel's function as it is shown, with its unit."""
        return with_unit(self.text(value), self.unit)

    def taken(self, came):
        """The value for what came from the page: a number where a hand moved, a text where one was typed."""
        return self.read(came) if isinstance(came, str) else self.tidy(came)

    def described(self):
        """Its control, for the page."""
        low, high, step = ((math.log10(self.low), math.log10(self.high), 1 / STEPS_A_DECADE) if self.logarithmic
                           else (self.low, self.high, self.step))
        return {"name": self.name, "label": self.label, "unit": self.unit, "low": low, "high": high, "step": step,
                "logarithmic": self.logarithmic, "digits": self.digits, "start": self.shown(self.start)}


def begin(instrument, *specs):
    """Return the sliders and choices with the instrument's values as first ones, where they begin with such a value.

    Examples
    --------
    >>> turns = Slider(name="turns", label="turns", unit="", low=4000, high=10000, start=lambda one: one["turns"])
    >>> begin({"turns": 7600}, turns)[0].start
    7600
    """
    return tuple(replace(spec, start=spec.start(instrument)) if callable(spec.start) else spec for spec in specs)


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
    group : str
        A heading under which it is shown, with its neighbours of the same heading; "" for none.
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
    group: str = ""

    def __post_init__(self):
        if not callable(self.start) and self.start not in self.options.values():
            refuse("start", f"one of {', '.join(map(repr, self.options.values()))}", self.start)

    def in_si(self, value):
        """The value itself: words have no unit."""
        return value

    def words(self, value):
        """What is shown for the value of the panel's function."""
        return next(words for words, one in self.options.items() if one == value)

    shown = text = words

    def taken(self, came):
        """The value for what came from the page: its words, or itself."""
        if came in self.options:
            return self.options[came]
        if came in self.options.values():
            return came
        refuse(self.label, f"one of {', '.join(self.options)}", came)

    def described(self):
        """Its control, for the page."""
        return {"name": self.name, "label": self.label, "options": list(self.options), "start": self.words(self.start),
                **({"group": self.group} if self.group else {})}
