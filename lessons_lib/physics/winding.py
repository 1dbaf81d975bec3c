"""Coils: a round one and a long one with half-round ends, the winding smeared evenly over its rectangular section.

The field is exact for the smeared current (`smeared_current`); the wire follows from the same sizes.
"""
import math
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from lessons_lib.base.checks import finite, not_negative, one_of, points_in_space, positive, refuse
from lessons_lib.physics.coil_inductance import inductance, mutual_inductance
from lessons_lib.physics.smeared_current import angle_rule, arc_field, arc_potential, bar_field, bar_potential

_POINTS_AT_ONCE = 256   # keeps the work of one batch in the processor's cache


@dataclass(frozen=True, kw_only=True)
class _Coil:
    """Sizes and methods that both coils share; SI units."""

    inner_radius: float
    outer_radius: float
    bottom: float
    top: float
    turns: float
    x: float = 0.0
    y: float = 0.0
    winding_sense: int = 1

    def __post_init__(self):
        positive(inner_radius=self.inner_radius, outer_radius=self.outer_radius)
        finite(bottom=self.bottom, top=self.top, turns=self.turns, x=self.x, y=self.y)
        if self.inner_radius >= self.outer_radius:
            refuse("inner_radius", f"below outer_radius = {self.outer_radius!r}", self.inner_radius)
        if self.bottom >= self.top:
            refuse("bottom", f"below top = {self.top!r}", self.bottom)
        if self.turns < 1:
            refuse("turns", "1 or more", self.turns)
        one_of("winding_sense", self.winding_sense, (1, -1))

    def flux_density(self, points):
        """Flux density per ampere (T/A), shape (..., 3), at points (m) of that shape.

        Positive upwards in the bore for winding_sense 1 (current anticlockwise seen from above). The wire is
        smeared over the section, inside of which the answer is that current's field; steps from turn to turn show
        within a wire's diameter only. Biot and Savart's law in closed form but for the angle of the round parts: 1e-5,
        within a tenth of a radius of the winding 1e-4 (tests/test_winding_field.py: magnets of its shape).

        Examples
        --------
        >>> coil = RoundCoil(inner_radius=0.99e-2, outer_radius=1.01e-2, bottom=-1e-4, top=1e-4, turns=1000)
        >>> coil.flux_density([0, 0, 0]).round(4)    # mu0 turns / (2 radius)
        array([0.    , 0.    , 0.0628])
        """
        points = points_in_space(points)
        shape_alone = replace(self, turns=1, winding_sense=1, x=0.0, y=0.0)
        return self._density * _unit_field(shape_alone, self._own(points).tobytes()).reshape(points.shape)

    def vector_potential(self, points):
        """Vector potential per ampere, T m/A, shape (..., 3), at points of shape (..., 3); also inside the winding."""
        points = points_in_space(points)
        return self._density * _in_batches(self._potential, self._own(points)).reshape(points.shape)

    def _own(self, points):
        return points.reshape(-1, 3) - (self.x, self.y, 0.0)

    @property
    def _density(self):
        """Current density, A/m2 per ampere in the wire, with its sign."""
        return self.winding_sense * self.turns / self._window

    @property
    def _window(self):
        return (self.outer_radius - self.inner_radius) * (self.top - self.bottom)

    @property
    def _section(self):
        """Its two sides (radii) and its two faces (heights), m."""
        return np.array([self.inner_radius, self.outer_radius]), np.array([self.bottom, self.top])

    def _section_distance(self, radius, z):
        """From a point to the section in its own plane, m; zero inside."""
        return np.hypot(np.maximum(0, np.maximum(self.inner_radius - radius, radius - self.outer_radius)),
                        np.maximum(0, np.maximum(self.bottom - z, z - self.top)))

    def self_inductance(self):
        """Inductance in air, H, its own section included (relative error 1e-5, 5e-5 for a section 1000 times as long).

        Examples
        --------
        >>> brooks = RoundCoil(inner_radius=0.01, outer_radius=0.02, bottom=0.0, top=0.01, turns=1)
        >>> round(brooks.self_inductance() / 0.015 * 1e6, 4)   # Brooks's coil: 1.6994 microhenry per metre of radius
        1.6994
        """
        return inductance(self)

    def mutual_inductance(self, other):
        """Mutual inductance in air with another coil, H; negative where the two oppose each other in series."""
        x, y = (abs(round(of_other - own, 12)) for own, of_other in ((self.x, other.x), (self.y, other.y)))
        one, beside = replace(self, x=0.0, y=0.0, winding_sense=1), replace(other, x=x, y=y, winding_sense=1)
        return self.winding_sense * other.winding_sense * mutual_inductance(one, beside)

    def mean_turn(self):
        """Length of the middle turn, m."""
        return 2 * self.straight_length + math.pi * (self.inner_radius + self.outer_radius)

    def mean_area(self):
        """Area that a turn encloses, mean of all turns, m2."""
        inner, outer = self.inner_radius, self.outer_radius
        return self.straight_length * (inner + outer) + math.pi / 3 * (inner ** 2 + inner * outer + outer ** 2)

    def wire_length(self):
        """Length of all turns, m; the slope from turn to turn and the leads are left out."""
        return self.turns * self.mean_turn()

    def resistance(self, wire, temperature=20.0):
        """Resistance at zero frequency, ohm, wound with a wire of `magnet_wire`, at a temperature in C (-50 to 200)."""
        return wire.resistance(self.wire_length(), temperature)

    def turns_that_fit(self, wire):
        """Whole turns that the winding's section holds when every turn takes a square of the insulated diameter.

        Layers laid into each other's grooves hold up to 15 % more, wild winding less."""
        return int(self._window / wire.insulated_diameter**2)

    def fill_factor(self, wire):
        """Share of the section taken by the turns' squares of insulated diameter; above 1 they do not fit."""
        return float(self.turns * wire.insulated_diameter**2 / self._window)


@dataclass(frozen=True, kw_only=True)
class RoundCoil(_Coil):
    """A round coil about a vertical axis.

    Parameters
    ----------
    inner_radius, outer_radius : float, m
        The winding lies between them; 0 < inner_radius < outer_radius.
    bottom, top : float, m
        Heights of the winding's lower and upper face; bottom < top.
    turns : float
        1 or more.
    x, y : float, m
        Place of the axis.
    winding_sense : 1 or -1
        1: current anticlockwise seen from above; -1: turned over.
    """

    straight_length = 0.0

    def _field(self, points):
        radius, turn = _turned_into_plane(points)
        field = arc_field(*self._whole_circle(radius, points[:, 2]))
        return turn(field[:, 0], 0 * radius, field[:, 2])

    def _potential(self, points):
        radius, turn = _turned_into_plane(points)
        return turn(0 * radius, arc_potential(*self._whole_circle(radius, points[:, 2]))[:, 1], 0 * radius)

    def _whole_circle(self, radius, z):
        """Arguments of an arc from 0 to pi that counts twice, for points turned into the half plane y = 0 < x."""
        scale = self._section_distance(radius, z) / np.clip(radius, self.inner_radius, self.outer_radius)
        angles, weights = angle_rule(0.0, np.pi, 0.0, scale)
        return np.stack([radius, 0 * radius, z], axis=-1), *self._section, angles, 2 * weights


def _turned_into_plane(points):
    """Radius of every point, and a function that turns its components (radial, azimuthal, upward) back to x, y, z."""
    radius = np.hypot(points[:, 0], points[:, 1])
    azimuth = np.arctan2(points[:, 1], points[:, 0])
    cos, sin = np.cos(azimuth), np.sin(azimuth)

    def turn(radial, azimuthal, upward):
        return np.stack([radial * cos - azimuthal * sin, radial * sin + azimuthal * cos, upward], axis=-1)
    return radius, turn


@dataclass(frozen=True, kw_only=True)
class LongCoil(_Coil):
    """A coil of two straights along y joined by two half rounds.

    Parameters
    ----------
    straight_length : float, m
        0 or more; from the centre of one half round to the centre of the other.
    inner_radius, outer_radius : float, m
        The winding lies between them, measured from the line that joins the two centres.
    bottom, top, turns, x, y, winding_sense
        As for `RoundCoil`; x and y are the place of the coil's middle.
    """

    straight_length: float

    def __post_init__(self):
        not_negative(straight_length=self.straight_length)
        super().__post_init__()

    def _field(self, points):
        return self._both_halves(points, bar_field, arc_field)

    def _potential(self, points):
        return self._both_halves(points, bar_potential, arc_potential)

    def _both_halves(self, points, of_bar, of_arc):
        """The right straight and the upper half round; the other half is the same, turned by half a turn."""
        turned = points * (-1.0, -1.0, 1.0)
        both = np.concatenate([points, turned])
        end = self.straight_length / 2
        from_centre = both - (0.0, end, 0.0)
        sides, faces = self._section
        value = (of_bar(both, sides, np.array([-end, end]), faces)
                 + of_arc(from_centre, sides, faces, *angle_rule(0.0, np.pi, *self._nearest_angle(from_centre))))
        half, other = np.split(value, 2)
        return half + other * (-1.0, -1.0, 1.0)

    def _nearest_angle(self, from_centre):
        """Angle of the half round nearest to every point, and the distance there over the radius."""
        x, y, z = from_centre.T
        beside = np.maximum(0, -y)                       # how far the point is below the half round's ends
        radius = np.where(beside > 0, np.abs(x), np.hypot(x, y))
        distance = np.hypot(self._section_distance(radius, z), beside)
        return np.arctan2(np.maximum(0, y), x), distance / np.clip(radius, self.inner_radius, self.outer_radius)


def _in_batches(of_unit_density, points):
    return np.concatenate([of_unit_density(points[i:i + _POINTS_AT_ONCE])
                           for i in range(0, max(len(points), 1), _POINTS_AT_ONCE)])


@lru_cache(maxsize=256)
def _unit_field(coil, points):
    """B (T) of 1 A/m2 at points as bytes; kept: strings and poles come again with other magnets and turns."""
    field = _in_batches(coil._field, np.frombuffer(points).reshape(-1, 3))
    field.setflags(write=False)
    return field
