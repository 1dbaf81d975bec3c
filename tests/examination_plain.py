"""What tests of the examination share: its two forms, and every formula of theirs once more in plain numbers."""
import math

import pytest

from lessons_lib.exercises.self_study import load_lesson
from notebooks import ANSWERS

A, B = (load_lesson(ANSWERS / f"lesson_{one}.py") for one in ("95", "96"))
FORMS = {"95": A, "96": B}
PAIRS = list(zip(A.exercises, B.exercises, strict=True))
NUMBERS = [one.id.partition(".")[2] for one in A.exercises if one.kind == "number"]
SECRET = "a fixed secret of at least thirty-two characters\n"
every_form = pytest.mark.parametrize("form", FORMS)
every_number = pytest.mark.parametrize("number", NUMBERS)


# Every formula once more, in the units that are shown and asked: exercise -> (right, slip -> (number, marks)).

def circle(diameter):
    return math.pi * (diameter / 2) ** 2


def plain(number, g):
    """(right answer, {slip: (number typed, marks)}) from what the table of given values shows."""
    if number == "1":       # mT on mm² is nWb
        right = circle(g["diameter"]) * g["field"] / 1e3
        return right, {"diameter for radius": (4 * right, 1), "square for circle": (right * 4 / math.pi, 1),
                       "power of ten, 10³": (1e3 * right, 1), "power of ten, 10⁻³": (right / 1e3, 1)}
    if number == "3":       # A by MA/Wb is µWb
        both = g["magnet"] + g["air"]
        right = g["mmf"] / both
        return right, {"air alone": (g["mmf"] / g["air"], 1), "magnet alone": (g["mmf"] / g["magnet"], 1),
                       "in parallel": (g["mmf"] * both / (g["magnet"] * g["air"]), 1),
                       "power of ten, 10³": (1e3 * right, 1), "power of ten, 10⁻³": (right / 1e3, 1),
                       "power of ten, 10⁶": (1e6 * right, 1)}
    if number == "4":       # mm by mm² is 10³/m, divided by 4π·10⁻⁷ and by 10⁶
        right = g["length"] / circle(g["diameter"]) * 1e3 / (4e-7 * math.pi) / 1e6
        return right, {"diameter for radius": (right / 4, 2), "square for circle": (right * math.pi / 4, 2),
                       "upside down": (1 / (1e6 * right), 1),
                       "no constant": (g["length"] / circle(g["diameter"]) * 1e3, 1),
                       "power of ten, 10³": (1e3 * right, 2), "power of ten, 10⁻³": (right / 1e3, 2),
                       "power of ten, 10⁶": (1e6 * right, 2), "power of ten, 10⁻⁶": (right / 1e6, 2)}
    if number == "5":
        near, branch = g["near"], g["branch"]
        flux = 1e3 * g["mmf"] / (g["magnet"] + g["far"] + 1 / (1 / near + 1 / branch))
        right = flux * near / (near + branch)
        air = near + g["far"]
        return right, {"whole flux": (flux, 2), "near air's share": (flux - right, 2),
                       "all of the air": (1e3 * g["mmf"] / (g["magnet"] + 1 / (1 / air + 1 / branch)) * air /
                                          (air + branch), 2),
                       "all of the MMF": (1e3 * g["mmf"] / branch, 0),
                       "in series": (1e3 * g["mmf"] / (g["magnet"] + air + branch), 1),
                       "power of ten, 10³": (1e3 * right, 2), "power of ten, 10⁻³": (right / 1e3, 2)}
    if number == "6":
        left = math.exp(-g["away"] / g["decay"])
        right = 20 * math.log10(left)
        return right, {"sign": (-right, 1), "ten log": (10 * math.log10(left), 1), "exponent": (math.log(left), 1),
                       "ratio": (left, 1), "upside down": (-8.6859 * g["decay"] / g["away"], 1)}
    if number == "7":       # nWb/mm times m/s is µV
        right = g["turns"] * g["slope"] * g["speed"] / 1e3
        return right, {"single turn": (right / g["turns"], 1), "no speed": (g["turns"] * g["slope"] / 1e3, 0),
                       "power of ten, 10³": (1e3 * right, 1), "power of ten, 10⁻³": (right / 1e3, 1),
                       "power of ten, 10⁻⁶": (right / 1e6, 1)}
    if number == "10":      # nWb by ms is µV
        (first, second, _, last), (begin, from_here, _, to) = g["flux"], g["time"]
        mean = g["turns"] / 1e3
        right = mean * (last - second) / (to - from_here)
        return right, {"whole table": (mean * (last - first) / (to - begin), 1), "single turn": (right / g["turns"], 1),
                       "flux by time": (mean * last / to, 1), "whole time": (mean * (last - second) / to, 1),
                       "power of ten, 10³": (1e3 * right, 1), "power of ten, 10⁻³": (right / 1e3, 1)}
    if number == "11":
        force, tension, density = g["force"], g["tension"], g["density"] / 1e3
        z = (tension * density) ** 0.5
        return force / z / 2, {"grams": (force / z / 2 / 1000 ** 0.5, 2), "no half": (force / z, 2),
                               "no root": (force / z ** 2 / 2, 2),
                               "speed of the wave": (force / 2 / (tension / density) ** 0.5, 2), "impedance": (z, 2)}
    if number == "12":      # H times Hz is Ω
        resistance, turning = g["resistance"], g["inductance"] * g["frequency"] / 1e3
        x = 2 * math.pi * turning
        right = (resistance ** 2 + x ** 2) ** 0.5
        return right, {"plain sum": (resistance + x, 1), "reactance": (x, 1),
                       "no two pi": ((resistance ** 2 + turning ** 2) ** 0.5, 1), "no root": (right ** 2, 1),
                       "power of ten, 10³": (1e3 * right, 1), "power of ten, 10⁻³": (right / 1e3, 1)}
    if number == "13":
        def f0(picofarad):
            return 1 / (2 * math.pi * (g["inductance"] * picofarad * 1e-12) ** 0.5) / 1e3
        own, cable = g["own"], g["cable"]
        right = f0(own + cable)
        return right, {"cable alone": (f0(cable), 2), "coil alone": (f0(own), 2),
                       "in series": (f0(1 / (1 / own + 1 / cable)), 2), "no two pi": (2 * math.pi * right, 2),
                       "no root": (1 / (2 * math.pi * g["inductance"] * (own + cable) * 1e-12) / 1e3, 2),
                       "power of ten, 10³": (1e3 * right, 2), "power of ten, 10⁻³": (right / 1e3, 2),
                       "power of ten, 10⁻⁶": (right / 1e6, 2)}
    if number == "14":
        share = g["load"] / (g["load"] + g["resistance"])
        right = 20 * math.log10(share)
        return right, {"sign": (-right, 1), "ten log": (right / 2, 1), "share": (share, 1),
                       "natural log": (20 * math.log(share), 1), "coil's share": (20 * math.log10(1 - share), 1),
                       "coil by load": (20 * math.log10(g["resistance"] / g["load"]), 1)}
    raise KeyError(number)
