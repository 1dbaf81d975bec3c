"""The parts of a pickup in one picture, each with the number of its lesson."""
import numpy as np

from lessons_lib.pictures.strings import StringAlong
from lessons_lib.pictures.style import BODY, COPPER, FLUX, GHOST, INK, MM, MUTED, NORTH, PAPER, STEEL, TEXT, label
from lessons_lib.pictures.things import EDGE, Bobbin, Coil, Magnet, disc, rounded

POLE = -4.0         # place of the pole in the picture, mm
_END, _SWING = 50.0, 1.7


class CourseMap:
    """Draws it once, when it is made.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
        100 mm wide, 50 mm high.
    magnet : dict
        diameter, length (m).
    coil : dict
        inner_radius, outer_radius, bottom, top (m).
    string : dict
        height over the pole, diameter (m).
    flux : dict
        rho (n,), z (m,), m, and flux (m, n), Wb, round the magnet, whose top is at z = 0.
    """

    def __init__(self, axes, *, magnet, coil, string, flux):
        self._axes = axes
        axes.set(xlim=(-50, 50), ylim=(-27, 23), aspect="equal")
        axes.set_axis_off()
        height = string["height"] * MM
        Bobbin(axes, moves=False).update(**coil, x=POLE / MM)
        Coil(axes, moves=False).update(**coil, x=POLE / MM)
        Magnet(axes, moves=False).update(top=0.0, **magnet, x=POLE / MM)
        self._flux(**flux)
        self._swing(height)
        StringAlong(axes, moves=False).update(x=np.array([-_END, _END]) / MM, wound=True, **string)
        self._circuit(POLE + coil["outer_radius"] * MM, coil["bottom"] * MM)
        self._six()
        self._meter()
        for number, x, y, name, aside, up in (
                (1, POLE, -8.5, "magnet", 0, -12), (2, POLE - 13.6, -8.5, "flux", -3, 0),
                (3, POLE, height, "string", 0, 5.5), (4, POLE + 4.7, -8.5, "coil", 3.2, 0),
                (5, 28, height, "motion", 0, 5.5), (6, 38.6, -15, "amplifier", 0, -8),
                (7, -27, 15, "six strings", 3.2, 0), (8, -40, -18, "bench", 0, -7)):
            self._name(number, x, y, name, aside, up)

    def _line(self, x, y, color=INK, width=EDGE, **more):
        self._axes.plot(x, y, color=color, linewidth=width, **more)

    def _flux(self, *, rho, z, flux):
        """Lines of flux on both sides of the magnet, in equal steps."""
        rho, size = np.asarray(rho) * MM, np.abs(flux)
        both = np.concatenate([-rho[:0:-1], rho]), np.concatenate([size[:, :0:-1], size], axis=1)
        levels = size.max() * np.arange(3, 10) / 10
        self._axes.contour(both[0] + POLE, np.asarray(z) * MM, both[1], levels, colors=FLUX["color"], linewidths=0.9,
                           zorder=2.5)

    def _swing(self, height):
        """Where the string comes to as it swings."""
        x = np.linspace(-_END, _END, 121)
        for sign in (1, -1):
            self._line(x, height + sign * _SWING * np.cos(np.pi * x / (2 * _END)), GHOST, 1.2)

    def _circuit(self, x, y):
        """A cable from the coil to a box with a knob and a loudspeaker."""
        along = np.linspace(0, 1, 41)
        sag = y - 0.8 - (15 + y) * along - 5.5 * np.sin(np.pi * along)
        self._line(x + (27 - x) * along, sag, INK, 3.0, solid_capstyle="round")
        self._line(x + (27 - x) * along, sag, COPPER, 1.6, solid_capstyle="round")
        rounded(self._axes, 27, -20.5, 21, 11, BODY, corner=1.5)
        for place, radius, face in ((44, 3.2, PAPER), (44, 1.2, STEEL), (31.5, 1.9, STEEL)):
            disc(self._axes, place, -15, radius, face, zorder=3)
        self._line([31.5, 32.6], [-15, -13.6], zorder=4)

    def _six(self):
        """The pickup from above: six poles in one long coil, six strings across it."""
        x, gap, far = -40.0, 2.1, 15.0
        rounded(self._axes, x - 2.2, far - 7.3, 4.4, 14.6, COPPER, corner=2.2)
        for number in range(6):
            y = far + (number - 2.5) * gap
            disc(self._axes, x, y, 0.85, NORTH, zorder=3)
            self._line([x - 9, x + 9], [y, y], INK, 1.9 - 0.2 * number)

    def _meter(self):
        """A meter with its hand."""
        x, y = -40.0, -15.0
        rounded(self._axes, x - 8, y - 6.2, 16, 13, BODY, corner=1.5)
        turn = np.linspace(np.pi / 5, 4 * np.pi / 5, 5)
        self._line(np.concatenate([[x + 6.2 * np.cos(one), x + 7.0 * np.cos(one), np.nan] for one in turn]),
                   np.concatenate([[y - 2 + 6.2 * np.sin(one), y - 2 + 7.4 * np.sin(one), np.nan] for one in turn]),
                   MUTED)
        self._line([x, x + 3.6], [y - 2, y + 4.4], INK, 1.6)

    def _name(self, number, x, y, name, aside, up):
        """A number on its part, the name beside it: *aside* mm to a side (0: none), *up* mm above or below."""
        disc(self._axes, x, y, 2.3, PAPER, linewidth=1.4, zorder=5)
        label(self._axes, str(number), position=(x, y - 0.1), ha="center", va="center", zorder=6, fontsize=TEXT + 1,
              fontweight="bold")
        label(self._axes, name, position=(x + aside, y + up), ha=["center", "left", "right"][int(np.sign(aside))],
              va="center", zorder=6, fontsize=TEXT)
