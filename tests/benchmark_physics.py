"""How fast the computation is, as ratios to plain references in the same run: python tests/benchmark_physics.py

Times are the best of several, warm, but for "new heights", where nothing is known of the geometry yet. A ratio says
more than a time: it hardly depends on what else the machine does.
"""
import math
import os
import platform
from time import perf_counter

import magpylib
import numpy as np
from scipy.constants import mu_0
from scipy.interpolate import RectBivariateSpline

from lessons_lib.base.workshop import house_bar, house_coil, house_magnet, house_place, house_screw, house_strings
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.induction import linkage_map, pickup_voltage
from lessons_lib.physics.magnets import BarMagnet, RodMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.plucked_string import TunedString
from lessons_lib.physics.six_strings import first_pulses, in_a_row, with_tops, workshop_row
from lessons_lib.physics.steel import SteelPole, SteelString
from lessons_lib.physics.winding import LongCoil, RoundCoil
from reference_solid import box, cylinder, magnetise_solids
from reference_wire import wire_linkage

PLACES, COIL = house_place["string_y"], LongCoil(**house_coil)


def best(action, times=5):
    """Shortest time of an action, s; run once before."""
    action()
    spans = []
    for _ in range(times):
        start = perf_counter()
        action()
        spans.append(perf_counter() - start)
    return min(spans)


def once(action):
    start = perf_counter()
    action()
    return perf_counter() - start


def rod_map():
    """200 x 200 points round a rod; both are closed forms."""
    rod = RodMagnet(diameter=5e-3, length=17e-3, remanence=0.75)
    plain = magpylib.magnet.Cylinder(polarization=(0, 0, 0.75), dimension=(5e-3, 17e-3), position=(0, 0, -8.5e-3))
    x, z = np.meshgrid(np.linspace(-12e-3, 12e-3, 200), np.linspace(-22e-3, 10e-3, 200))
    points = np.stack([x, 0.3e-3 + 0 * x, z], axis=-1)
    error = np.abs(rod.flux_density(points) - plain.getB(points)).max() / 0.75
    yield ("map of a rod, 200 x 200 points", best(lambda: rod.flux_density(points)), 0.020,
           f"magpylib (they differ by {error:.0e})", best(lambda: plain.getB(points)))


def one_string():
    """A string over one pole, new height each time; the exact wire takes the fields of the same pickup."""
    single = Pickup(poles=RodMagnet(diameter=5e-3, length=16e-3, remanence=1.0), coils=RoundCoil(
        inner_radius=3.5e-3, outer_radius=6.5e-3, bottom=-13e-3, top=-3e-3, turns=7000))
    bent, straight = SteelString(diameter=0.5e-3), SteelString(diameter=0.5e-3, saturation=math.inf)
    wire = best(lambda: wire_linkage(
        lambda points: single.flux_density(points) / mu_0, lambda points: single.field_per_ampere(points) / mu_0,
        place=(0.0, 2.5e-3), radius=0.25e-3, permeability=100.0, harmonics=3, count=1024), 2)
    for name, string in (("straight line", straight), ("saturating", bent)):
        yield (f"one string over one pole, {name}", best(lambda: single.flux_linkage(string, height=2.5e-3), 20), 0.003,
               "exact wire, straight line", wire)


def six_strings():
    """All levels over a bar with six screws."""
    screw = SteelPole(**house_screw | {"length": 16.8e-3})
    bar = BarMagnet(**house_bar | {"centre": (0.0, 0.0, -18.7e-3)})
    pickup, row = Pickup(poles=in_a_row(screw, PLACES), coils=COIL, bars=bar), workshop_row()
    first_pulses(pickup, row)
    magnet = magpylib.magnet.Cuboid(polarization=(0, 0, 0.38), dimension=bar.size, position=bar.centre)
    solids = [cylinder(diameter=4.8e-3, length=16.8e-3, permeability=500, y=y) for y in PLACES]
    solids.append(box(size=bar.size, centre=bar.centre, permeability=1.08, cells=(6, 30, 2)))
    in_space = once(lambda: magnetise_solids(solids, magnet.getH, lambda points: COIL.flux_density(points) / mu_0,
                                             folded=True))
    new = min(once(lambda: first_pulses(with_tops(pickup, 1e-5 * turn * np.arange(1, 7)), row)) for turn in range(1, 4))
    yield "six strings, six screws on a bar, new heights", new, 1.0, "triangles in space, fields alone", in_space
    yield ("six strings, the same screws again", best(lambda: first_pulses(pickup, row)), 1.0,
           "triangles in space, fields alone", in_space)


def sound():
    """3 s from the motion to the loaded voltage; the plain way sums partial by partial, slopes from a spline."""
    string, steel = house_strings["III"], SteelString(diameter=house_strings["III"]["core"])
    pickup = Pickup(poles=in_a_row(RodMagnet(**house_magnet), PLACES), coils=COIL)
    tuned = TunedString.tuned(frequency=string["frequency"], length=0.6, linear_density=string["linear_density"])
    load = LoadedCoil(resistance=8.6e3, inductance=2.17, capacitance=100e-12, volume_resistance=250e3,
                      tone_resistance=500e3, tone_capacitance=22e-9, cable_capacitance=500e-12)
    for rate in (48000, 22050):
        time = np.arange(3 * rate) / rate
        motion = tuned.pluck(force=0.8, place=0.1, angle=0.4, highest_frequency=rate / 4.8)

        def live():
            voltage = pickup_voltage(pickup, steel, motion, time, height=2.5e-3, place=0.15, y=PLACES[3])
            return load.apply(voltage, rate)
        heights, ys = np.linspace(1.2e-3, 4e-3, 15), PLACES[3] + np.linspace(-1e-3, 1e-3, 9)
        table = pickup.flux_linkage(steel, height=heights[:, None], y=ys)

        def plain():
            spline, parts = RectBivariateSpline(heights, ys, table), motion.partials(0.15)
            up, across, v_up, v_across = np.zeros((4, time.size))
            for n in range(parts.number.size):
                wave, angle = np.exp(-parts.decay_up[n] * time), 2 * np.pi * parts.frequency[n] * time
                other = np.exp(-parts.decay_across[n] * time)
                up += parts.displacement_up[n] * wave * np.cos(angle)
                across += parts.displacement_across[n] * other * np.cos(angle)
                v_up -= parts.velocity_up[n] * wave * np.sin(angle)
                v_across -= parts.velocity_across[n] * other * np.sin(angle)
            where = 2.5e-3 + up, PLACES[3] + across
            return -(spline.ev(*where, dx=1) * v_up + spline.ev(*where, dy=1) * v_across)
        goal = 0.3 if rate == 22050 else math.nan   # sound is played at 22.05 kHz
        reference = "partial by partial and a spline, unloaded", once(plain)
        yield f"3 s of sound, {rate} a second", best(live, 3), goal, *reference
        linkage_map.cache_clear()
        yield "the same, the linkage's map made first", once(live), math.nan, *reference


def main():
    print(f"{os.cpu_count()} cores, load before {os.getloadavg()[0]:.1f}, {platform.machine()}, "
          f"Python {platform.python_version()}, numpy {np.__version__}")
    print(f"{'':46}{'time':>9}{'goal':>9}{'plain':>9}  times faster than")
    for measure in (rod_map, one_string, six_strings, sound):
        for name, span, goal, plain_name, plain in measure():
            wanted = "" if math.isnan(goal) else f"{1e3 * goal:.0f} ms"
            print(f"{name:46}{1e3 * span:6.1f} ms{wanted:>9}{1e3 * plain:6.0f} ms  {plain / span:8.1f}  {plain_name}")
    print(f"load after {os.getloadavg()[0]:.1f}")


if __name__ == "__main__":
    main()
