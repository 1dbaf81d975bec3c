"""A student's own function: called in the student's own kernel on the sheet's signals, its results read off as numbers.

Only these numbers, the *claim*, are kept and come back. Nobody else runs a student's code.
"""
import re
import sys
from threading import Thread
from time import monotonic

import numpy as np

from lessons_lib.exercises import reading

LONGEST_RUN = 5.0   # s for all signals together
_NUMBER = r"([+-]?\d+(?:\.\d*)?(?:e[+-]?\d{1,3})?)"


def _mean(values, time):
    steps = np.diff(time)
    return float(steps @ (values[1:] + values[:-1]) / 2 / steps.sum())


def _first_zero(values, time):
    places = np.flatnonzero(np.sign(values[1:]) * np.sign(values[:-1]) <= 0)
    if not places.size:
        raise ValueError("never crosses zero in the part that is looked at")
    n = places[0]
    change = values[n] - values[n + 1]
    return time[n] + (time[n + 1] - time[n]) * (values[n] / change if change else 0.0)


READERS = {"largest": lambda values, time: values.max(), "mean": _mean, "first zero": _first_zero}


def read_off(values, time, *, read, between=None):
    """Return one number of a curve: its largest value, its mean or the time of its first zero.

    Parameters
    ----------
    values, time : array_like, shape (n,)
    read : str
        A name of `READERS`.
    between : (float, float), optional
        The part of the time, both ends with it, that is looked at.

    Raises
    ------
    ValueError
        Where there is no zero; the message says so in a few words.

    Examples
    --------
    >>> float(read_off([4.0, 2.0, -2.0], [0.0, 1.0, 2.0], read="first zero"))
    1.5
    """
    values, time = np.asarray(values, dtype=float), np.asarray(time, dtype=float)
    low, high = between or (time[0], time[-1])
    inside = (time >= low) & (time <= high)
    return READERS[read](values[inside], time[inside])


def claim_of(function, record, longest_run=LONGEST_RUN):
    """Return the claim of a *function* on the signals of a sheet's *record*: label, number and unit of every reading.

    ValueError with a sentence for a student, whatever is wrong with the function.
    """
    if not callable(function):
        raise ValueError("a function is needed: write its name, without quotes and without brackets after it")
    signals, numbers = record["signals"], []
    outcome = _run_beside(lambda: [_as_array(function(np.array(signal["values"]), np.array(signal["time"])))
                                   for signal in signals.values()], longest_run)
    results = {name: _checked(result, signals[name]) for name, result in zip(signals, outcome)}
    for part in record["parts"]:
        signal = signals[part["signal"]]
        try:
            number = read_off(results[part["signal"]], signal["time"], read=part["read"], between=part["between"])
        except ValueError as error:
            raise ValueError(f"the result on {signal['label']} {error}") from None
        numbers.append(number / part["factor"])
    return claim_text(record["parts"], numbers)


def claim_text(parts, numbers):
    """Return the *numbers*, in the units of the *parts*, as the text that is kept."""
    return "; ".join(f"{part['label']} {number:.6g} {part['unit']}" for part, number in zip(parts, numbers))


def claimed(parts, text):
    """Return the numbers in a claim; ValueError with a sentence for a student for a text that is none."""
    pattern = "; ".join(f"{re.escape(part['label'])} {_NUMBER} {re.escape(part['unit'])}" for part in parts)
    found = re.fullmatch(pattern, text) if len(text) <= reading.LONGEST_TEXT else None
    if not found:
        raise ValueError("a function is needed: write its name, without quotes and without brackets after it")
    return [reading.read_number(float(one)) for one in found.groups()]


def _as_array(result):
    """The result as numbers; what is none of that, unchanged."""
    if result is None or result is ...:
        return result
    try:
        return result if np.iscomplexobj(result) else np.asarray(result, dtype=float)
    except (TypeError, ValueError):
        return result


def _run_beside(work, longest_run):
    """Do the work in a thread that is stopped when time is over, so that a loop without end holds nobody up."""
    end, outcome = monotonic() + longest_run, {}

    def watch(frame, event, argument):
        if monotonic() > end:
            raise TimeoutError
        return watch

    def run():
        sys.settrace(watch)     # of this thread alone
        try:
            outcome["done"] = work()
        except BaseException as error:      # whatever a student's function does, the page goes on
            outcome["failed"] = error
        finally:
            sys.settrace(None)

    worker = Thread(target=run, daemon=True)
    worker.start()
    worker.join(longest_run + 1)
    if "done" in outcome:
        return outcome["done"]
    error = outcome.get("failed")
    if error is None or isinstance(error, TimeoutError):
        raise ValueError(f"the function did not finish within {longest_run:g} seconds; is there a loop that never "
                         "ends?")
    raise ValueError(f"the function stopped with {type(error).__name__}{_said(error)}")


def _said(error):
    try:
        return f": {reading.shortened(str(error), 100)}"
    except Exception:       # an exception of the student's own that cannot even be shown
        return ""


def _checked(result, signal):
    count, about = len(signal["time"]), f"on {signal['label']} the function"
    if result is ...:
        raise ValueError("the function still returns the three dots; put what it should return in their place")
    if result is None:
        raise ValueError(f"{about} returns nothing; is there a line that begins with return?")
    if not isinstance(result, np.ndarray) or result.dtype.kind != "f":
        raise ValueError(f"{about} returns {type(result).__name__}; an array of numbers is needed")
    if result.shape != (count,):
        came = "one number" if result.ndim == 0 else "an array of shape " + "×".join(map(str, result.shape))
        came = f"{result.size} values" if result.ndim == 1 else came
        raise ValueError(f"{about} returns {came} for {count} instants; one voltage for each instant is needed")
    if bad := int((~np.isfinite(result)).sum()):
        raise ValueError(f"{about} returns {count} values, {bad} of them not finite; was something divided by zero?")
    return result
