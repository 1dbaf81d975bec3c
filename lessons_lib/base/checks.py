"""Argument checks with one message pattern: "name must be rule; got value"."""
import math
from numbers import Real

import numpy as np


def refuse(name, rule, value):
    """Raise the ValueError of the house: *name* must be *rule*; got *value*."""
    raise ValueError(f"{name} must be {rule}; got {value!r}.")


def _check_numbers(values, rule, accepts):
    for name, value in values.items():
        if isinstance(value, (bool, np.bool_)) or not isinstance(value, Real):
            raise TypeError(f"{name} must be {rule}; got {value!r}.")
        if not accepts(value):
            refuse(name, rule, value)


def positive_number(name, value):
    """Check that a value, by whatever name, is a finite number above zero."""
    positive(**{name: value})


def positive(**values):
    """Check that every named value is a finite number above zero."""
    _check_numbers(values, "a finite number above zero", lambda v: math.isfinite(v) and v > 0)


def from_zero(**values):
    """Return every named array_like as a float array (one alone as it is), checked to be finite and not negative."""
    arrays = finite_array(**values)
    for name, array in zip(values, [arrays] if len(values) == 1 else arrays):
        if (array < 0).any():
            refuse(name, "zero or above", float(array[array < 0].flat[0]))
    return arrays


def positive_or_infinite(**values):
    """Check that every named value is a number above zero, or infinite."""
    positive(**{name: value for name, value in values.items() if value != math.inf})


def not_negative(**values):
    """Check that every named value is a finite number, zero or above."""
    _check_numbers(values, "a finite number, zero or above", lambda v: math.isfinite(v) and v >= 0)


def finite(**values):
    """Check that every named value is a finite number."""
    _check_numbers(values, "a finite number", math.isfinite)


def at_least(low, **values):
    """Check that every named value is a finite number, low or above."""
    finite(**values)
    for name, value in values.items():
        if value < low:
            refuse(name, f"{low:g} or above", value)


def between(low, high, **values):
    """Check that every named value is a number from low to high, both included."""
    _check_numbers(values, f"a number from {low:g} to {high:g}", lambda v: low <= v <= high)


def one_of(name, value, options):
    """Check that a value is one of the options."""
    if value not in options:
        refuse(name, "one of " + ", ".join(map(repr, options)), value)


def array_of_finite(name, value):
    """Return a value, by whatever name, as a float array without NaN or infinity."""
    try:
        array = np.asarray(value, dtype=float)
    except (TypeError, ValueError):
        raise TypeError(f"{name} must be an array of numbers; got {value!r}.") from None
    if not np.isfinite(array).all():
        refuse(name, "an array of finite numbers", float(array[~np.isfinite(array)].flat[0]))
    return array


def finite_array(**values):
    """Return every named value as a float array without NaN or infinity (one value: the array itself)."""
    arrays = [array_of_finite(name, value) for name, value in values.items()]
    return arrays[0] if len(arrays) == 1 else arrays


def points_in_space(points):
    """Return the points as a float array of shape (..., 3), metres."""
    array = finite_array(points=points)
    if array.ndim == 0 or array.shape[-1] != 3:
        refuse("points", "an array of shape (..., 3)", f"shape {array.shape}")
    return array
