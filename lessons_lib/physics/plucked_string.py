"""A string under tension: its notes, and what it takes to pull it aside."""
import math
from dataclasses import dataclass, replace

import numpy as np

from lessons_lib.base.checks import between, finite_array, not_negative, positive, refuse
from lessons_lib.base.materials import steel
from lessons_lib.physics.string_motion import PluckedMotion

_STEEPEST = 0.1  # release force over tension: above it the pull itself would tune a steel string noticeably sharp


@dataclass(frozen=True, kw_only=True)
class TunedString:
    """A string stretched between bridge (place 0) and nut (place *length*).

    Parameters
    ----------
    length, tension, linear_density : float
        m, N, kg/m, above zero.
    core_diameter : float
        Diameter of the steel core, m, for the stiffness; 0 for a perfectly flexible string.
    young_modulus : float
        Of the core, Pa.
    decay_up, decay_across : float
        Decay rate of slow partials moving up and down, and across, 1/s.
    decay_growth : float
        What a partial's decay rate gains per square of its angular frequency, s.

    Notes
    -----
    Stiff string with pinned ends: f_n = n f_0 sqrt(1 + B n^2), B = pi^3 E d^4 / (64 T L^2) (H. Fletcher, J. Acoust.
    Soc. Am. 36, 203 (1964)). Windings add mass only. The decay law, rate = constant + growth (2 pi f)^2, is the usual
    two-constant law of string models; **its numbers are assumed**: 5.8 s to -60 dB up and down, twice that across.
    That what holds the string sets its decay is measured (A. Paté, J.-L. Le Carrou, B. Fabre, J. Acoust. Soc. Am. 135,
    3045 (2014): mobility of the neck, one plane). That the two planes decay differently is common experience. Left out:
    the magnet's pull on the string, motion of the ends, change of tension while it swings.

    Examples
    --------
    >>> round(float(TunedString(length=0.5, tension=64.0, linear_density=0.001).frequency(2)), 3)
    505.964
    """

    length: float
    tension: float
    linear_density: float
    core_diameter: float = 0.0
    young_modulus: float = steel("music wire").young_modulus
    decay_up: float = 1.2
    decay_across: float = 0.6
    decay_growth: float = 5e-9

    def __post_init__(self):
        positive(length=self.length, tension=self.tension, linear_density=self.linear_density,
                 young_modulus=self.young_modulus)
        not_negative(core_diameter=self.core_diameter, decay_up=self.decay_up, decay_across=self.decay_across,
                     decay_growth=self.decay_growth)

    @classmethod
    def tuned(cls, *, frequency, length, linear_density, core_diameter=0.0,
              young_modulus=steel("music wire").young_modulus, **decay):
        """The string whose first partial is *frequency* (Hz), stiffness counted in; the tension follows.

        Raises ValueError, besides those of the class, where stiffness alone gives a higher note than asked for.

        Examples
        --------
        >>> TunedString.tuned(frequency=100.0, length=0.5, linear_density=0.001).tension
        10.0
        """
        positive(frequency=frequency, length=length, linear_density=linear_density, young_modulus=young_modulus)
        not_negative(core_diameter=core_diameter)
        of_stiffness = math.pi ** 3 * young_modulus * core_diameter ** 4 / (64 * length ** 2)
        tension = linear_density * (2 * length * frequency) ** 2 - of_stiffness
        if tension <= 0:
            refuse("frequency", "above the note that stiffness alone gives", frequency)
        return cls(length=length, tension=tension, linear_density=linear_density, core_diameter=core_diameter,
                   young_modulus=young_modulus, **decay)

    def at_fret(self, fret):
        """The same string under the same tension, shortened by *fret* semitones (0: the open string)."""
        not_negative(fret=fret)
        return replace(self, length=self.length / 2 ** (fret / 12))

    @property
    def wave_speed(self):
        """Speed of a wave on the flexible string, sqrt(T/mu), m/s."""
        return math.sqrt(self.tension / self.linear_density)

    @property
    def impedance(self):
        """Characteristic impedance, sqrt(T mu), kg/s."""
        return math.sqrt(self.tension * self.linear_density)

    @property
    def inharmonicity(self):
        """B in f_n = n f_0 sqrt(1 + B n^2), no unit."""
        return (math.pi ** 3 * self.young_modulus * self.core_diameter ** 4
                / (64 * self.tension * self.length ** 2))

    def frequency(self, n):
        """Frequency of partial *n* (1, 2, ...; arrays broadcast), Hz."""
        n = finite_array(n=n)
        if not (n >= 1).all():
            refuse("n", "a partial's number, 1 or above", n.min())
        return n * self.wave_speed / (2 * self.length) * np.sqrt(1 + self.inharmonicity * n ** 2)

    def pluck(self, *, force=None, displacement=None, energy=None, place, width=0.0, angle=0.0,
              highest_frequency=10e3):
        """Pull the string aside at one place, hold it still, let go at time 0.

        Parameters
        ----------
        force, displacement, energy : float
            Exactly one: N at release, m at the middle of the finger, J stored in the string.
        place : float
            Middle of the finger, m from the bridge.
        width : float
            Length of string over which the force is spread evenly, m; 0 for a sharp point.
        angle : float
            Direction of the pull, radians: 0 up (+z), pi/2 across (+y), pi towards the coil.
        highest_frequency : float
            Partials above it are left out, Hz. See `PluckedMotion`.

        Returns
        -------
        PluckedMotion

        Raises
        ------
        ValueError
            For none or several of the three strengths, a negative one, a force above a tenth of the tension (small
            slopes only), a place outside the string, a finger that reaches over an end.

        Notes
        -----
        Flexible string: displacement = F (x (L - x)/L - w/8)/T, energy = F^2 (x (L - x)/L - w/6)/(2T). Stiffness
        changes the shape under the finger only, by about sqrt(E I/T): 1 % of the displacement at worst on the
        workshop's strings.

        Examples
        --------
        >>> string = TunedString(length=0.6, tension=60.0, linear_density=0.001)
        >>> round(string.pluck(force=1.2, place=0.3).release_displacement, 6)
        0.003
        """
        given = {"force": force, "displacement": displacement, "energy": energy}
        given = {name: value for name, value in given.items() if value is not None}
        if len(given) != 1:
            refuse("strength of the pluck", "exactly one of force, displacement, energy", ", ".join(given) or "none")
        not_negative(width=width, **given)
        between(0.0, self.length, place=place)
        if not 0 < place < self.length or width > 2 * min(place, self.length - place):
            refuse("place", f"on the string of {self.length:g} m with a finger's width of {width:g} m", place)
        motion = PluckedMotion(string=self, release_force=1.0, place=place, width=width, angle=angle,
                               highest_frequency=highest_frequency)
        if displacement is not None:
            force = displacement / motion.release_displacement
        elif energy is not None:
            force = math.sqrt(energy / motion.release_energy)
        if force > _STEEPEST * self.tension:
            refuse("release force", f"at most a tenth of the tension, {_STEEPEST * self.tension:.3g} N", force)
        return replace(motion, release_force=force)
