"""The invented bench data: what a workbench would have written down, made by the models with noise put in.

``python -m lessons_lib.workbench.invented FOLDER`` writes the files anew, always the same.
"""
import argparse
import re
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path

import numpy as np
from scipy.io import wavfile

from lessons_lib.base.materials import magnet_grade
from lessons_lib.base.units import in_unit, said
from lessons_lib.base.workshop import house_coil, house_magnet, house_place, house_strings
from lessons_lib.physics.alnico_rod import AlnicoRod
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.induction import pickup_voltage
from lessons_lib.physics.magnets import RodMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.plucked_string import TunedString
from lessons_lib.physics.steel import SteelString
from lessons_lib.physics.winding import LongCoil

PLUCKS = ("pluck_near.wav", "pluck_middle.wav", "pluck_far.wav")
_SEED = 20_117
_RATE, _LENGTH = 22_050, 1.5        # Hz, s


@dataclass(frozen=True, kw_only=True)
class Truth:
    """What the invented bench is made of, and the noise of its instruments (one sigma, shares of a reading)."""

    strength: float = 0.95                  # of a rod of the workshop's alnico, on the curve and on its recoil line
    stand_off: float = 0.64e-3              # m
    gauss_noise: float = 0.015
    inductance: float = 2.84                # H
    capacitance: float = 141e-12            # F, with the probe
    resistance: float = 7350.0              # ohm, at 23 degrees C
    load_resistance: float = 760e3          # ohm, probe and losses together
    capacitor_noise: float = 0.008          # of each resonance
    meter_noise: float = 0.003
    response_noise: float = 0.02
    coupling: float = 1.7e-6                # V per Hz
    string_height: float = 2.15e-3          # m
    lowered: tuple = (0.0, 3e-3, 7e-3)      # m
    pluck_force: float = 0.4                # N, a very thin copper loop that breaks
    pluck_noise: float = 0.02
    hiss: float = 4e-4                      # of full scale, rms


TRUTH = Truth()


def _csv_bytes(header, *columns, formats):
    """Columns in SI, written in the units that the header names."""
    columns = map(in_unit, columns, re.findall(r"\((.+?)\)", header))
    rows = [",".join(format(value, form) for value, form in zip(row, formats)) for row in zip(*columns)]
    return ("\r\n".join([header, *rows]) + "\r\n").encode("ascii")


def _noisy(rng, values, share):
    return values * (1 + share * rng.standard_normal(np.shape(values)))


def gauss_against_distance():
    """The file of gauss readings over the workshop's rod, bytes."""
    distance = np.array([0, 0.5, 1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10]) * 1e-3
    rod = AlnicoRod(grade=magnet_grade("alnico 5"), diameter=house_magnet["diameter"], length=house_magnet["length"])
    places = np.stack([0 * distance, 0 * distance, distance + TRUTH.stand_off], axis=-1)
    readings = _noisy(_generator(0), TRUTH.strength * rod.flux_density(places)[:, 2], TRUTH.gauss_noise)
    return _csv_bytes("distance (mm),flux density (G)", distance, readings, formats=(".1f", ".1f"))


def _coil(added=0.0):
    return LoadedCoil(resistance=TRUTH.resistance, inductance=TRUTH.inductance, capacitance=TRUTH.capacitance + added,
                      input_resistance=TRUTH.load_resistance)


def resonance_with_capacitors():
    """The file of resonances with capacitors across the coil, bytes."""
    added = np.array([0, 100, 220, 330, 470, 680, 1000]) * 1e-12
    resonance = 1 / (2 * np.pi * np.sqrt(TRUTH.inductance * (TRUTH.capacitance + added)))
    return _csv_bytes("added capacitance (pF),resonance (Hz)", added,
                      _noisy(_generator(1), resonance, TRUTH.capacitor_noise), formats=(".0f", ".0f"))


def meter_readings():
    """The file of what a component meter shows as a coil in series with a resistance, bytes."""
    frequency = np.array([120.0, 1e3, 1e4])
    # what lies across the coil lies across the meter too
    impedance = 1 / (1 / _coil().impedance(frequency) + 1 / TRUTH.load_resistance)
    inductance, resistance = _noisy(_generator(2), np.array([impedance.imag / (2 * np.pi * frequency), impedance.real]),
                                    TRUTH.meter_noise)
    return _csv_bytes("frequency (Hz),inductance (H),resistance (kohm)", frequency, inductance, resistance,
                      formats=(".0f", ".3f", ".3f"))


def exciter_response():
    """The file of voltages over an exciter coil of constant current, without and with a capacitor, bytes."""
    frequency, added = np.geomspace(200, 15e3, 24).round(-1), np.array([0.0, 470e-12])
    voltage = np.concatenate([TRUTH.coupling * frequency * np.abs(_coil(extra).response(frequency))
                              for extra in added])
    return _csv_bytes("added capacitance (pF),frequency (Hz),voltage (mV)", np.repeat(added, frequency.size),
                      np.tile(frequency, 2), _noisy(_generator(3), voltage, TRUTH.response_noise),
                      formats=(".0f", ".0f", ".4g"))


def workshop_pickup():
    """Six rods on their recoil lines under the workshop's long coil."""
    rods = [RodMagnet(**house_magnet | {"remanence": TRUTH.strength * house_magnet["remanence"], "y": y})
            for y in house_place["string_y"]]
    return Pickup(poles=rods, coils=LongCoil(**house_coil))


def recorded_plucks():
    """Recordings of string VI plucked alike with the pickup at each place: list of float arrays, 1 is full scale."""
    rng, record = _generator(5), house_strings["VI"]
    string = TunedString.tuned(frequency=record["frequency"], length=house_place["scale_length"],
                               linear_density=record["linear_density"], core_diameter=record["core"])
    time = np.arange(round(_RATE * _LENGTH)) / _RATE - 0.1
    pickup, steel = workshop_pickup(), SteelString(diameter=record["core"])
    voltages = []
    for lowered in TRUTH.lowered:
        force = float(_noisy(rng, TRUTH.pluck_force, TRUTH.pluck_noise))
        motion = string.pluck(force=force, place=house_place["pluck_place"], highest_frequency=_RATE / 4)
        voltage = pickup_voltage(pickup, steel, motion, time, height=TRUTH.string_height + lowered,
                                 place=house_place["pickup_place"], y=house_place["string_y"][0])
        voltages.append(_coil().apply(voltage, _RATE))
    gain = 0.6 / np.abs(voltages[0]).max()
    return [gain * voltage + TRUTH.hiss * rng.standard_normal(time.size) for voltage in voltages]


def _wav(samples):
    file = BytesIO()
    wavfile.write(file, _RATE, np.round(samples * 32767).astype("<i2"))
    return file.getvalue()


def _generator(number):
    return np.random.default_rng([_SEED, number])


def noise_of(name):
    """What noise a file of the invented bench has, in words, by its name."""
    shares = {"gauss_against_distance.csv": TRUTH.gauss_noise, "meter_readings.csv": TRUTH.meter_noise,
              "resonance_with_capacitors.csv": TRUTH.capacitor_noise, "exciter_response.csv": TRUTH.response_noise}
    if name in shares:
        return f"noise of {said(shares[name], '%', 'g')} of each reading (one sigma)"
    return f"noise of {said(TRUTH.pluck_noise, '%', 'g')} from pluck to pluck, and hiss"


def _about():
    lowered = ", ".join(said(step, "mm", "g") for step in TRUTH.lowered)
    resistance, plucked, hiss = (said(*one) for one in (
        (TRUTH.resistance, "Ω", ".0f"), (TRUTH.pluck_noise, "%", "g"), (TRUTH.hiss, "%", "g")))
    return f"""# Invented bench data

These numbers were never measured. `python -m lessons_lib.workbench.invented FOLDER` made them: the course's own models
with noise put in. What the bench was made of (the rod's strength, the coil's inductance, the string's height) is in
that script. All noise is normal and independent from reading to reading; one sigma is given.

- `gauss_against_distance.csv`: a probe on the axis of one rod of alnico 5, 5 × 17 mm, alone; distance from the face to
  the tip of the probe. The sensitive spot is some way inside the tip. The rod is on its bent curve, not on a straight
  line. Noise: {said(TRUTH.gauss_noise, '%', 'g')} of each reading.
- `resonance_with_capacitors.csv`: the coil's resonance with capacitors across it, as it is once each peak of the
  response has been corrected for the damping (times 1 + 1/(4Q²)); the probe stays connected. Noise:
  {said(TRUTH.capacitor_noise, '%', 'g')} of each frequency.
- `meter_readings.csv`: a component meter on the same coil, with the same probe and losses across it; inductance and
  resistance in series. Noise: {said(TRUTH.meter_noise, '%', 'g')} of each reading.
- `exciter_response.csv`: the pickup over an exciter coil of constant current, without and with 470 pF across it; raw
  voltages, not yet divided by frequency. The coil's DC resistance is {resistance}, taken as exact.
  Noise: {said(TRUTH.response_noise, '%', 'g')} of each voltage.
- `pluck_near.wav`, `pluck_middle.wav`, `pluck_far.wav`: string VI plucked straight up with a breaking loop 100 mm from
  the bridge, above six rods and the workshop's coil 150 mm from it; pickup lowered by {lowered}; the same
  gain. Noise: {plucked} of the force from pluck to pluck, and hiss of {hiss} of
  full scale (RMS). 16 bit, {_RATE} Hz.

Not in the data, and in every real bench: a probe off the axis, drift, hum, capacitors that are all off their marked
value in the same direction, eddy currents that change with frequency, two planes of motion that beat.
"""


def files():
    """Every file of the invented bench: name to bytes."""
    recordings = dict(zip(PLUCKS, map(_wav, recorded_plucks())))
    return {"gauss_against_distance.csv": gauss_against_distance(), "meter_readings.csv": meter_readings(),
            "resonance_with_capacitors.csv": resonance_with_capacitors(),
            "exciter_response.csv": exciter_response(), "README.md": _about().encode()} | recordings


def write_files(words=None):
    """Write the files into the folder named on the command line."""
    parser = argparse.ArgumentParser(prog="python -m lessons_lib.workbench.invented", description=__doc__)
    parser.add_argument("folder", type=Path, metavar="FOLDER")
    folder = parser.parse_args(words).folder
    folder.mkdir(parents=True, exist_ok=True)
    for name, data in files().items():
        (folder / name).write_bytes(data)


if __name__ == "__main__":
    write_files()
