"""The response by an exciter coil: two curves that are moved, over them the readings and the guess that was kept."""
from dataclasses import replace

from lessons_lib.pictures.lines import Axis, Lines
from lessons_lib.pictures.marks import Curve, Dots
from lessons_lib.pictures.response import KHZ, ZERO
from lessons_lib.pictures.style import HOUSE_LOOK, INK, VOLTAGE

FREQUENCY = replace(KHZ, limits=(200.0, 20e3), ticks=KHZ.ticks[1:])
RUNS = (VOLTAGE, {"color": INK, "linestyle": "--"})     # without and with a capacitor added


def guess_and_readings(axes, *, level, runs):
    """`Lines` for level relative to low frequencies against frequency, without and with an added capacitor.

    Parameters
    ----------
    level : (float, float)
        Fixed limits, dB.
    runs : (str, str)
        What the two runs are called. Their curves are "now 0" and "now 1", the kept guess is "kept 0" and "kept 1", the
        readings are "read 0" and "read 1".
    """
    pale = [HOUSE_LOOK, {**HOUSE_LOOK, "linestyle": "--"}]
    return Lines(axes, x=FREQUENCY, y=Axis("level relative to low frequencies", "dB", level), parts=[
        ZERO,
        *(Curve(f"kept {n}", word, look) for n, (word, look) in enumerate(zip(("your guess", ""), pale))),
        *(Curve(f"now {n}", run, look, width=2.6) for n, (run, look) in enumerate(zip(runs, RUNS))),
        *(Dots(f"read {n}", look, marker=marker, hollow=hollow, size=6)
          for n, (look, marker, hollow) in enumerate(zip(RUNS, "os", (False, True))))])
