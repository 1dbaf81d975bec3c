"""The strings of the workshop's instrument over its own pickup, as a table: python tests/workshop_table.py

Six house magnets, the house coil, no tuning of any number. Every string over its own rod, its axis 2.5 mm above.
"""
import math
from dataclasses import dataclass, fields

import numpy as np

from lessons_lib.base.workshop import house_coil, house_magnet, house_place, house_strings
from lessons_lib.physics.induction import harmonic_levels, pickup_voltage
from lessons_lib.physics.magnets import RodMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.plucked_string import TunedString
from lessons_lib.physics.six_strings import first_pulses, in_a_row, sensitivities, workshop_row
from lessons_lib.physics.winding import LongCoil

PLACE = house_place["pickup_place"]
PERIOD = np.arange(400) / 100   # four periods of a sine


@dataclass(frozen=True, kw_only=True)
class Row:
    """One string; every field carries its unit."""

    string: str
    sensitivity_V_per_m_s: float
    first_pulse_mV: float            # 1 N, by the sensitivity at rest
    level_dB_re_VI: float
    first_pulse_in_full_mV: float    # the same pluck, up, through the bent linkage; middle of the pulse
    second_harmonic_percent: float   # of the pluck's first partial alone
    decay_length_mm: float           # of the sensitivity, 2 to 3 mm


@dataclass(frozen=True)
class Sine:
    """A string that goes up and down at 1 Hz: the first partial of a pluck, size (m), without decay."""

    size: float

    def displacement(self, time, place, aperture=0.0):
        return self.size * np.cos(2 * np.pi * time), np.zeros_like(time)

    def velocity(self, time, place, aperture=0.0):
        return -2 * np.pi * self.size * np.sin(2 * np.pi * time), np.zeros_like(time)


def workshop_pickup():
    return Pickup(poles=in_a_row(RodMagnet(**house_magnet), house_place["string_y"]), coils=LongCoil(**house_coil))


def table():
    """Rows of the seven strings, VI first, the wound third last."""
    pickup, names = workshop_pickup(), ("VI", "V", "IV", "III", "II", "I", "III wound")
    strings = workshop_row() + workshop_row(third="III wound")[3:4]
    pulses = first_pulses(pickup, strings)
    return [_row(pickup, *one, pulses[0]) for one in zip(names, strings, sensitivities(pickup, strings), pulses)]


def _row(pickup, name, string, sensitivity, pulse, reference):
    record = house_strings[name]
    tuned = TunedString.tuned(frequency=record["frequency"], length=house_place["scale_length"],
                              linear_density=record["linear_density"])
    motion = tuned.pluck(force=1.0, place=house_place["pluck_place"], highest_frequency=100.5 * tuned.frequency(1))
    where = {"height": string.height, "y": string.y, "place": PLACE}
    in_pulse = (PLACE - motion.place + 2 * np.linspace(0.3, 0.7, 101) * motion.place) / tuned.wave_speed
    in_full = pickup_voltage(pickup, string.steel, motion, in_pulse, **where)
    swing = Sine(abs(motion.partials(PLACE).displacement_up[0]))
    wave = pickup_voltage(pickup, string.steel, swing, PERIOD, **where)
    lines = harmonic_levels(wave, PERIOD, fundamental=1.0, count=4)
    high, low = pickup.sensitivity(string.steel, height=[2e-3, 3e-3], y=string.y)
    return Row(string=name, sensitivity_V_per_m_s=sensitivity, first_pulse_mV=1e3 * pulse,
               level_dB_re_VI=20 * math.log10(pulse / reference), first_pulse_in_full_mV=1e3 * abs(in_full.mean()),
               second_harmonic_percent=100 * lines.amplitude[1] / lines.amplitude[0],
               decay_length_mm=1 / math.log(high / low))


def main():
    names = [field.name for field in fields(Row)]
    print("| " + " | ".join(name.replace("_", " ") for name in names) + " |\n|" + "---|" * len(names))
    for row in table():
        print(f"| {row.string} | {row.sensitivity_V_per_m_s:.4f} | {row.first_pulse_mV:.0f} "
              f"| {row.level_dB_re_VI:+.1f} | {row.first_pulse_in_full_mV:.0f} "
              f"| {row.second_harmonic_percent:.1f} | {row.decay_length_mm:.2f} |")


if __name__ == "__main__":
    main()
