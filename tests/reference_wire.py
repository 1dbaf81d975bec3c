"""An independent solver for tests: an endless straight-line wire in any applied field, exact in every harmonic.

On the wire's surface the applied field is split into waves exp(i k x) and harmonics cos, sin (m theta). Each of them is
answered by modified Bessel functions (potential I_m inside, I_m and K_m outside); nothing is discretised but the
Fourier integrals. No axis field, no charge, no thin-wire assumption: nothing in common with the library's nodes.
"""
import numpy as np
from scipy.constants import mu_0
from scipy.special import ive, kve


def _waves(field, place, radius, harmonics, half_length, count):
    """Wave numbers and, by harmonic, the waves of the potential's surface values, shape (harmonics, count)."""
    x = (np.arange(count) - count // 2) * (2 * half_length / count)
    theta = np.arange(2 * harmonics + 2) * np.pi / (harmonics + 1)
    y, z = place[0] + radius * np.cos(theta), place[1] + radius * np.sin(theta)
    points = np.stack(np.broadcast_arrays(x, y[:, None], z[:, None]), axis=-1)
    H = field(points)
    along = np.fft.fft(np.fft.ifft(H[..., 0], axis=0), axis=1)
    round_it = H[..., 2] * np.cos(theta)[:, None] - H[..., 1] * np.sin(theta)[:, None]
    round_it = np.fft.fft(np.fft.ifft(round_it, axis=0), axis=1)
    k = 2 * np.pi * np.fft.fftfreq(count, 2 * half_length / count)
    return k, along[0], round_it[1:harmonics + 1]


def _answer(m, z, permeability):
    """Normal derivative times radius over potential at the surface inside, and potential inside over applied."""
    # Scaled functions ive, kve: their products I K stay finite. I' and K' from the recurrences.
    i, k = ive(m, z), kve(m, z)
    di = (ive(m - 1, z) + ive(m + 1, z)) / 2
    dk = -(kve(m - 1, z) + kve(m + 1, z)) / 2
    return z * di / i, 1 / (z * (permeability * di * k - i * dk))


def wire_linkage(static_field, coil_field, *, place, radius, permeability, harmonics=4, half_length=0.2, count=4096):
    """Integral of M . mu0 H_coil over the wire at place = (y, z), along x: the coil's linkage (Wb-turns).

    static_field, coil_field: functions from points (..., 3) to H in A/m (the coil's per ampere). Several permeabilities
    at once cost no more than one.
    """
    permeability = np.asarray(permeability, dtype=float)
    k, static_along, static_round = _waves(static_field, place, radius, harmonics, half_length, count)
    _, coil_along, coil_round = _waves(coil_field, place, radius, harmonics, half_length, count)
    z = np.abs(k) * radius
    z[0] = 1e-9  # a uniform field along the wire: the limit of long waves
    # Green: integral of grad u . grad v over the wire = integral of v du/dn over its surface.
    ratio, inside = _answer(0, z, permeability[..., None])
    total = (ratio / z**2 * radius**2 * inside * (static_along * coil_along.conj()).real).sum(-1)
    for m in range(1, harmonics + 1):
        ratio, inside = _answer(m, z, permeability[..., None])
        product = (static_round[m - 1] * coil_round[m - 1].conj()).real
        # potential = radius * round / m; +m and -m are worth the same after summing over k of both signs
        total += 2 * (ratio * (radius / m)**2 * inside * product).sum(-1)
    return mu_0 * (permeability - 1) * 2 * np.pi * total * (2 * half_length / count) / count
