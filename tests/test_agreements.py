"""The map of agreements (agreements.md): every named test exists; and agreements that no other file's tests hold."""
import ast
import re
from pathlib import Path

import numpy as np
import pytest

from lessons_lib.base.workshop import house_coil, house_magnet, house_place
from lessons_lib.physics.induction import pickup_voltage
from lessons_lib.physics.magnets import BarMagnet, RodMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.six_strings import in_a_row
from lessons_lib.physics.steel import SteelPole, SteelString
from lessons_lib.physics.winding import LongCoil
from workshop_table import Sine

HERE = Path(__file__).parent
PLACES = house_place["string_y"]


def rows():
    lines = (HERE / "agreements.md").read_text(encoding="utf-8").splitlines()
    cells = [[cell.strip() for cell in line.strip("|").split("|")] for line in lines if line.startswith("|")]
    return [row for row in cells if row[0] != "models" and not set(row[0]) <= set("-")]


def test_rows_are_whole_and_there_are_many():
    assert len(rows()) > 60
    for row in rows():
        assert len(row) == 5 and all(row), row


def test_one_test_a_row_and_every_test_exists():
    named = [row[-1].strip("`") for row in rows()]
    assert len(set(named)) == len(named)
    for name in named:
        file, function = re.fullmatch(r"(test_\w+\.py)::(test_\w+)(?:\[\w+\])?", name).groups()
        tree = ast.parse((HERE / file).read_text(encoding="utf-8"))
        assert function in {node.name for node in tree.body if isinstance(node, ast.FunctionDef)}, name


# --- agreements of their own

def test_rod_and_bar_of_one_moment_far_away():
    rod = RodMagnet(diameter=5e-3, length=17e-3, remanence=0.75, top=8.5e-3)
    side = 5e-3 * np.sqrt(np.pi) / 2   # the same section
    bar = BarMagnet(size=(side, side, 17e-3), centre=(0, 0, 0), remanence=0.75)
    points = 0.5 * np.array([[1, 0, 0], [0, 0, 1], [0.6, 0, 0.8]])
    # round or square section: (5 mm / 0.5 m)^2, and less
    assert rod.flux_density(points) == pytest.approx(bar.flux_density(points), rel=2e-3, abs=1e-15)
    moment, dipole = 0.75 * np.pi / 4 * 5e-3**2 * 17e-3, np.array([-1, 2])
    # a dipole's field, J V / (4 pi r^3): next term (17 mm / 0.5 m)^2 and half of it
    assert rod.flux_density(points[:2])[:, 2] == pytest.approx(moment / (4 * np.pi * 0.5**3) * dipole, rel=2e-3)


def test_steel_pole_is_a_magnet_without_remanence():
    sizes, coil = {"diameter": 4.8e-3, "length": 17e-3}, LongCoil(**house_coil)
    steel, magnet = (Pickup(poles=in_a_row(pole, PLACES), coils=coil) for pole in (
        SteelPole(**sizes, relative_permeability=200.0), RodMagnet(**sizes, remanence=0.0, recoil_permeability=200.0)))
    points = np.array([[0.0, 5.1e-3, 2.5e-3], [4e-3, 0.0, 1e-3]])
    assert steel.inductance() == pytest.approx(magnet.inductance(), rel=1e-12)
    assert steel.field_per_ampere(points) == pytest.approx(magnet.field_per_ampere(points), rel=1e-12)
    assert not steel.flux_density(points).any() and not magnet.flux_density(points).any()


def test_small_swing_hears_the_sensitivity():
    pickup = Pickup(poles=in_a_row(RodMagnet(**house_magnet), PLACES), coils=LongCoil(**house_coil))
    string, time, swing = SteelString(diameter=0.43e-3), np.linspace(0.0, 1.0, 41), 1e-6
    voltage = pickup_voltage(pickup, string, Sine(swing), time, height=2.5e-3, y=PLACES[3], place=0.15)
    speed, _ = Sine(swing).velocity(time, 0.15)
    sensitivity = pickup.sensitivity(string, height=2.5e-3, y=PLACES[3])
    assert voltage == pytest.approx(sensitivity * speed, abs=1e-3 * sensitivity * np.abs(speed).max())
