"""The pickup: poles, bars and coils together, and the flux that a steel string adds to the coils.

By reciprocity: the linkage gained from a string is the integral of M . B over it, M its magnetisation in the pickup's
steady field, B the field of one ampere in the coils, poles included.
"""
import math
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations

import numpy as np
from scipy.constants import mu_0

from lessons_lib.base.checks import from_zero, points_in_space, refuse
from lessons_lib.physics.assembly import check_clear, check_fit
from lessons_lib.physics.eddy_currents import permeability_with_eddy_currents
from lessons_lib.physics.magnetised import answer_at, as_rod, fields_above, settle
from lessons_lib.physics.magnets import BarMagnet, RodMagnet
from lessons_lib.physics.steel import STRING_PLACES, SteelPole, SteelString, string_line
from lessons_lib.physics.winding import LongCoil, RoundCoil

_STEP = 2e-5        # m, for slopes: 4e-5 of the slope is lost at 1 mm over a pole, rounding stays below it
_CURRENT = 1e-3     # A, for the energy view: small beside the magnets, large beside rounding
_LINES = 64         # string positions worked on at once


@dataclass(frozen=True, kw_only=True)
class Pickup:
    """Poles, coils in series and bar magnets.

    Parameters
    ----------
    poles : RodMagnet, SteelPole, or several of them
    coils : RoundCoil, LongCoil, or several of them
        Their voltages add; ``winding_sense=-1`` turns one over.
    bars : BarMagnet or several of them, optional
        Under or beside the poles.

    Raises
    ------
    ValueError
        For parts that overlap, a coil above z = 0 (the top of the coil form), a pickup without a coil.

    Notes
    -----
    Strings run along x; heights are those of the string's axis above z = 0. Everything but the string is a straight
    line: magnets on their recoil line, steel poles of constant permeability. Left out: eddy currents, hysteresis, the
    string's work back on the poles (0.5 to 1.3 % of the linkage). Against finite elements (tests/test_pickup.py):
    0.5 % over magnets, 1 % with a saturating string, 3 % over steel poles on a bar.

    The pickup's own fields are solved once and kept.

    Examples
    --------
    >>> coil = RoundCoil(inner_radius=3.5e-3, outer_radius=6.5e-3, bottom=-13e-3, top=-3e-3, turns=7000)
    >>> pickup = Pickup(poles=RodMagnet(diameter=5e-3, length=16e-3, remanence=1.0), coils=coil)
    >>> far, near = pickup.flux_linkage(SteelString(diameter=0.5e-3), height=[2.5e-3, 1.5e-3])
    >>> bool(near > far)
    True
    """

    poles: tuple
    coils: tuple
    bars: tuple = ()

    def __post_init__(self):
        kinds = {"poles": (RodMagnet, SteelPole), "coils": (RoundCoil, LongCoil), "bars": (BarMagnet,)}
        for name, allowed in kinds.items():
            parts = getattr(self, name)
            parts = (parts,) if isinstance(parts, allowed) else tuple(parts)
            for part in parts:
                if not isinstance(part, allowed):
                    raise TypeError(f"{name} must be {' or '.join(kind.__name__ for kind in allowed)}; got {part!r}.")
            object.__setattr__(self, name, parts)
        if not self.coils:
            refuse("coils", "one coil or more", self.coils)
        check_fit(self.poles, self.coils, self.bars)

    @cached_property
    def steady(self):
        """Poles and bars as they are magnetised without string and current, as MagnetisedParts."""
        return settle(self.poles, self.bars)

    @cached_property
    def _per_ampere(self):
        return settle(self.poles, self.bars, self._coil_strength)

    def _coil_strength(self, points):
        """H (A/m) of one ampere in the coils, in air, where bodies ask for it."""
        field = _folded(self._coil_field, self._middle) if self._mirrored else self._coil_field
        return field(points) / mu_0

    def _coil_field(self, points):
        """B (T) of one ampere in the coils, in air."""
        return sum(coil.flux_density(points) for coil in self.coils)

    def flux_density(self, points):
        """Steady B (T) without string and current, shape (..., 3), at points (m) of shape (..., 3)."""
        return self.steady.flux_density(points_in_space(points))

    def field_per_ampere(self, points):
        """B (T per ampere) of the coils with poles and bars answering, shape (..., 3), at points (m) of that shape."""
        points = points_in_space(points)
        return self._coil_field(points) + self._per_ampere.flux_density(points)

    def inductance(self):
        """Inductance (H) of the coils in series at low frequency, poles and bars inside."""
        return self._in_air + self._per_ampere.linkage(self._coil_field)

    @cached_property
    def _in_air(self):
        """Inductance (H) of the coils in series without poles and bars."""
        return (sum(coil.self_inductance() for coil in self.coils)
                + 2 * sum(one.mutual_inductance(other) for one, other in combinations(self.coils, 2)))

    def impedance(self, frequency):
        """Impedance (ohm, complex, of frequency's shape) of the coils in series, poles and bars answering.

        Without the wire's resistance. Divided by 2 pi j times the frequency (Hz) it is the inductance; its real
        part is what the eddy currents in the poles take.

        Each pole has the permeability that its eddy currents leave it (`permeability_with_eddy_currents`): exact for a
        long rod; against finite elements with conductivity, one rod in a round coil, L within 1 % and the added
        resistance within 5 % from 1 Hz to 10 kHz, alnico and steel (tests/test_eddy_currents.py). Without a resistivity
        it is j w L of `inductance`. Left out: currents in bars, covers and plates, and those across a pole.
        """
        frequency = from_zero(frequency=frequency)
        if all(pole.resistivity == math.inf for pole in self.poles):
            return 2j * math.pi * frequency * self.inductance()
        shown = np.stack([np.ravel(permeability_with_eddy_currents(
            relative_permeability=as_rod(pole, steady=False).relative_permeability, resistivity=pole.resistivity,
            diameter=pole.diameter, frequency=frequency)) for pole in self.poles], axis=-1)
        linkage = self._in_air + answer_at(self.poles, shown, self._per_ampere, self._coil_strength, self._coil_field)
        return (2j * math.pi * frequency * linkage.reshape(frequency.shape))[()]

    def steady_linkage(self):
        """Flux linkage (Wb-turns) of the coils with the magnets, without string: all but a few tenths of a per cent."""
        return self.steady.linkage(self._coil_field)

    def flux_linkage(self, string, *, height, y=0.0):
        """Linkage gained from a string: with the string minus without it.

        Parameters
        ----------
        string : SteelString
        height, y : float or array
            Places (m) of the string's axis above z = 0 and across; they broadcast.

        Returns
        -------
        float or ndarray
            Wb-turns, positive where the coil's own current direction would magnetise the string the same way.

        Raises
        ------
        ValueError
            Where the string meets the coil form, a pole or a bar; for NaN.
        RuntimeError
            When the string's magnetisation does not settle.
        """
        return self._at_each(self._linkage, string, height, y)

    def sensitivity(self, string, *, height, y=0.0):
        """-d(linkage)/d(height), V per m/s, positive where coming nearer raises the linkage; arguments as above.

        Central difference over 2 x 0.02 mm: better than 1e-4 of the value down to 1 mm over the poles.
        """
        return self._at_each(lambda string, points: -_slope(self._linkage, string, points), string, height, y)

    def linkage_by_energy(self, string, *, height, y=0.0):
        """The same linkage from energy: d/di of the co-energy the field gains from the string, at i = 0.

        Magnet and current act together on the easier path that the string offers; the part of the energy that needs
        both, per ampere, is the linkage. The string is solved anew with a small current flowing either way, and no
        product M . B of two fields is formed: an answer of its own, checked against `flux_linkage` in a test.
        """
        def mixed(string, points):
            steady, per_ampere = self._fields(points)
            current = _CURRENT / mu_0 * per_ampere
            more, less = (string.magnetise(field).coenergy() for field in (steady + current, steady - current))
            return (more - less) / (2 * _CURRENT)

        return self._at_each(mixed, string, height, y)

    def pull(self, string, *, height, y=0.0):
        """Force (N) that draws the string down to the pickup; negative where it is pushed up. Arguments as above."""
        return self._at_each(self._pull, string, height, y)

    def pull_gradient(self, string, *, height, y=0.0):
        """-d(pull)/d(height), N/m, positive where coming nearer raises the pull: magnitude of the negative spring.

        Better than 2e-4 of the value; 1 % nearer to a pole than a quarter of its diameter, where poles count in panels.
        """
        return self._at_each(lambda string, points: -_slope(self._pull, string, points), string, height, y)

    def string_flux(self, string, *, height, y=0.0):
        """Largest flux (Wb) along the string, as a magnitude. Arguments as above."""
        return self._at_each(lambda string, points: np.abs(string.magnetise(self._fields(points)[0]).flux()).max(-1),
                             string, height, y)

    def _at_each(self, measure, string, height, y):
        """Apply measure(string, points) to the lines at every height and y, some at a time."""
        if not isinstance(string, SteelString):
            raise TypeError(f"string must be a SteelString; got {string!r}.")
        height, y = check_clear(self, string, height, y)
        lines = string_line(height=height.ravel(), y=y.ravel(), middle=self._middle)
        batches = [measure(string, lines[i:i + _LINES]) for i in range(0, len(lines), _LINES)]
        return np.concatenate(batches or [np.zeros(0)]).reshape(height.shape)[()]

    @cached_property
    def _middle(self):
        return float(np.mean([body.x for body in self.poles or self.coils]))

    @cached_property
    def _mirrored(self):
        """Whether both halves of a string see the same."""
        places = [part.x for part in self.poles + self.coils] + [bar.centre[0] for bar in self.bars]
        return all(x == self._middle for x in places) and all(bar.axis != "x" for bar in self.bars)

    def _fields(self, points):
        """Along strings: steady H (A/m), and B (T) of one ampere with poles and bars answering."""
        if self._mirrored:
            half = points[..., len(STRING_PLACES) // 2:, :]
            return tuple(np.concatenate([field[..., :0:-1, :] * (-1, 1, 1), field], axis=-2)
                         for field in self._outside(half))
        return self._outside(points)

    def _outside(self, points):
        steady, answer = fields_above((self.steady, self._per_ampere), points)
        return steady, self._coil_field(points) + mu_0 * answer

    def _linkage(self, string, points):
        steady, per_ampere = self._fields(points)
        return string.magnetise(steady).linkage(per_ampere)

    def _pull(self, string, points):
        field_slope = _slope(lambda _, points: mu_0 * self._fields(points)[0], string, points)
        return -string.magnetise(self._fields(points)[0]).linkage(field_slope)


def _slope(measure, string, points):
    """d/dz of measure(string, points)."""
    step = np.array([0.0, 0.0, _STEP])
    above, below = np.split(measure(string, np.concatenate([points + step, points - step])), 2)
    return (above - below) / (2 * _STEP)


def _folded(field, middle):
    """The same vector field, worked out on one side of the plane x = middle only, for both sides see the same."""
    def look_up(points):
        across = points[..., 0] - middle
        one_side = np.stack([np.abs(across), points[..., 1], points[..., 2]], axis=-1).reshape(-1, 3)
        places, back = np.unique(one_side.round(12), axis=0, return_inverse=True)
        values = field(places + (middle, 0.0, 0.0))[back.reshape(-1)].reshape(points.shape)
        return np.concatenate([np.copysign(1.0, across)[..., None] * values[..., :1], values[..., 1:]], axis=-1)
    return look_up
