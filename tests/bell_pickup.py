"""A stand-in for a pickup with a closed form, and a string that swings over it as one sine."""
from dataclasses import dataclass

import numpy as np

from lessons_lib.physics.plucked_string import TunedString

PSI, DELTA, WIDTH = 5e-4, 3e-3, 4e-3     # Wb-turns at height 0, decay length of the linkage, width across


@dataclass(frozen=True)
class Wire:
    """All that the map asks of a string: the radius that must clear the poles, wrap included."""

    outer_radius: float = 0.0


@dataclass(frozen=True)
class Pole:
    top: float


@dataclass(frozen=True)
class BellPickup:
    """A stand-in with a closed form: exponential in height, a bell across."""

    poles: tuple = ()

    def flux_linkage(self, string, *, height, y=0.0):
        return PSI * np.exp(-height / DELTA - (y / WIDTH) ** 2)


@dataclass(frozen=True)
class Swinging:
    """One sine in each plane."""

    frequency: float
    up: float = 0.0
    across: float = 0.0

    def displacement(self, time, place, aperture=0.0):
        return tuple(size * np.cos(2 * np.pi * self.frequency * time) for size in (self.up, self.across))

    def velocity(self, time, place, aperture=0.0):
        omega = 2 * np.pi * self.frequency
        return tuple(-omega * size * np.sin(omega * time) for size in (self.up, self.across))


STEEL = Wire()
TIME = np.arange(4800) / 48000           # ten periods of 100 Hz
REST = dict(height=2.5e-3, place=0.15)


def workshop_string(**more):
    return TunedString.tuned(frequency=87.3, length=0.6, linear_density=7.23e-3, core_diameter=0.46e-3, **more)
