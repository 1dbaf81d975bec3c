"""Fields of round currents: the loop and the thin current sheet (ideal solenoid), in complete elliptic integrals.

Places are rho (m, from the axis, not negative) and z (m, along it); arrays broadcast, radii (m) too. Currents run about
+z, right-handed.
"""
import numpy as np
from scipy.constants import mu_0, pi
from scipy.special import ellipe, ellipkm1

_BLOCK = 8192  # numbers that stay in the processor's cache


def complete_elliptic(kc, p, c, s):
    """Bulirsch's general complete elliptic integral, for kc and p above zero.

    The integral of (c cos^2 t + s sin^2 t) / ((cos^2 t + p sin^2 t) sqrt(cos^2 t + kc^2 sin^2 t)), t = 0 ... pi/2.

    Parameters
    ----------
    kc, p, c, s : array_like
        Numbers without unit; they broadcast. kc is the complementary modulus.

    Returns
    -------
    ndarray

    Notes
    -----
    R. Bulirsch, Numer. Math. 13, 305 (1969): descending Landen steps, six of them for full precision.

    Examples
    --------
    >>> float(complete_elliptic(1.0, 1.0, 1.0, 1.0) * 2 / pi)    # the quarter circle
    1.0
    """
    p = np.sqrt(p)
    s = s / p
    mean, product = np.ones_like(kc), kc
    root = kc
    while True:
        c, s, p = c + s / p, 2 * (s + c * product / p), p + product / p
        mean, last = mean + root, mean
        if not (np.abs(last - root) > 1e-8 * last).any():  # so put, a NaN does not keep it going
            return pi / 2 * (s + c * mean) / (mean * (mean + p))
        root = 2 * np.sqrt(product)
        product = root * mean


def _in_blocks(formula, *arrays):
    """Evaluate the formula on pieces of the broadcast arrays that fit into the cache."""
    arrays = np.broadcast_arrays(*arrays)
    shape, flat = arrays[0].shape, [np.ravel(a) for a in arrays]
    pieces = [formula(*(a[i:i + _BLOCK] for a in flat)) for i in range(0, max(flat[0].size, 1), _BLOCK)]
    if isinstance(pieces[0], tuple):
        return tuple(np.concatenate(part).reshape(shape) for part in zip(*pieces))
    return np.concatenate(pieces).reshape(shape)


def _distances(rho, z, radius):
    """Squares of the largest and the smallest distance of a point from the loop."""
    return (rho + radius) ** 2 + z ** 2, (rho - radius) ** 2 + z ** 2


def loop_field(rho, z, *, radius):
    """Flux density of a round loop in the plane z = 0.

    Parameters
    ----------
    rho, z : array_like
        Place, m; rho not negative.
    radius : array_like
        Radius of the loop, m.

    Returns
    -------
    B_rho, B_z : ndarray
        T per ampere; NaN on the wire.

    Notes
    -----
    W. R. Smythe, *Static and Dynamic Electricity*, 7.10. Thin wire.

    Examples
    --------
    >>> _, B_z = loop_field(0.0, 0.0, radius=1.0)
    >>> round(float(B_z / mu_0), 12)    # 1 / (2 radius)
    0.5
    """
    return _in_blocks(_loop_field, rho, z, radius)


def _loop_field(rho, z, a):
    far, near = _distances(rho, z, a)
    with np.errstate(divide="ignore", invalid="ignore"):
        K, E = ellipkm1(near / far), ellipe(np.minimum(4 * a * rho / far, 1.0))  # rounding may exceed 1
        E = np.where(near > 0, E / near, np.nan)
        scale = mu_0 / (2 * pi * np.sqrt(far))
        B_z = scale * (K + (a ** 2 - rho ** 2 - z ** 2) * E)
        B_rho = scale * z / rho * ((a ** 2 + rho ** 2 + z ** 2) * E - K)
    # near the axis the bracket is lost in rounding: there div B = 0 gives B_rho = -(rho/2) dB_z/dz
    axis = 0.75 * mu_0 * a ** 2 * z * rho / (a ** 2 + z ** 2) ** 2.5
    return np.where(4 * a * rho < 1e-4 * far, axis, B_rho), B_z


def loop_flux(rho, z, *, radius):
    """Flux of a round loop in the plane z = 0 through the coaxial circle of radius rho at height z.

    Parameters
    ----------
    rho, z, radius : array_like
        m.

    Returns
    -------
    ndarray
        Flux function 2 pi rho A_phi, Wb per ampere: the mutual inductance of two thin coaxial loops; inf on the wire.

    Notes
    -----
    J. C. Maxwell, *A Treatise on Electricity and Magnetism*, art. 701.

    Examples
    --------
    >>> small = loop_flux(1e-3, 0.0, radius=1.0)    # field in the middle times area
    >>> round(float(small / (mu_0 / 2 * pi * 1e-6)), 5)
    1.0
    """
    return _in_blocks(_loop_flux, rho, z, radius)


def _loop_flux(rho, z, a):
    far, near = _distances(rho, z, a)
    m = np.minimum(4 * a * rho / far, 1.0)  # rounding may exceed 1
    exact = (1 - m / 2) * ellipkm1(near / far) - ellipe(m)
    # near the axis the difference is lost in rounding: its power series
    series = pi / 32 * m ** 2 * (1 + 3 / 4 * m + 75 / 128 * m ** 2)
    return mu_0 * np.sqrt(far) * np.where(m < 1e-3, series, exact)


def sheet_field(rho, z, *, radius, bottom, top):
    """Flux density of a thin cylindrical current sheet: the ideal solenoid, or a uniformly magnetised rod.

    Parameters
    ----------
    rho, z : array_like
        Place, m; rho not negative.
    radius, bottom, top : array_like
        The sheet, m.

    Returns
    -------
    B_rho, B_z : ndarray
        T per A/m of sheet current. On the sheet itself B_z is the mean of its two sides; NaN on its edges.

    Notes
    -----
    N. Derby, S. Olbert, Am. J. Phys. 78, 229 (2010).

    Examples
    --------
    >>> _, B_z = sheet_field(0.0, 0.0, radius=1.0, bottom=-1e4, top=1e4)
    >>> round(float(B_z / mu_0), 6)    # long solenoid: B = mu0 times A/m
    1.0
    """
    return tuple(end - start for end, start in zip(_in_blocks(_sheet_end, rho, np.subtract(z, bottom), radius),
                                                   _in_blocks(_sheet_end, rho, np.subtract(z, top), radius)))


def _sheet_end(rho, z, a):
    far, near = _distances(rho, z, a)
    kc = np.sqrt(np.where(near > 0, near / far, np.nan))
    gamma = (a - rho) / (a + rho)
    on_wall = gamma == 0
    p = np.where(on_wall, 1.0, gamma ** 2)
    R = np.sqrt(far)
    B_rho = mu_0 / pi * a / R * complete_elliptic(kc, 1.0, 1.0, -1.0)
    B_z = mu_0 / pi * a / (a + rho) * z / R * complete_elliptic(kc, p, 1.0, np.where(on_wall, 1.0, gamma))
    return B_rho, B_z


def sheet_flux(rho, z, *, radius, bottom, top):
    """Flux of a thin cylindrical current sheet through the coaxial circle of radius rho at height z.

    Parameters
    ----------
    rho, z, radius, bottom, top : array_like
        m; rho not negative.

    Returns
    -------
    ndarray
        Flux function 2 pi rho A_phi, Wb per A/m of sheet current. Finite and continuous everywhere.

    Notes
    -----
    The loop's vector potential integrated along the sheet, then by parts over the angle:
    mu0 a^2 rho^2 z times the integral of sin^2 t / (D^2 sqrt(D^2 + z^2)), t = 0 ... pi, at each end, with
    D^2 = a^2 + rho^2 - 2 a rho cos t. No term cancels near the axis or at the wall.

    Examples
    --------
    >>> flux = sheet_flux(1.0, 0.0, radius=1.0, bottom=-1e4, top=1e4)
    >>> round(float(flux / (mu_0 * pi)), 4)    # long solenoid: field times area
    1.0
    """
    return (_in_blocks(_sheet_flux_end, rho, np.subtract(z, bottom), radius)
            - _in_blocks(_sheet_flux_end, rho, np.subtract(z, top), radius))


def _sheet_flux_end(rho, z, a):
    far, near = _distances(rho, z, a)
    kc = np.sqrt(np.where(near > 0, near / far, 1.0))  # on the edge itself z = 0 makes the term vanish
    p = np.maximum(((a - rho) / (a + rho)) ** 2, 1e-30)
    both = complete_elliptic(kc, 1.0, 0.0, 1.0) - p * complete_elliptic(kc, p, 0.0, 1.0)
    return 2 * mu_0 * a * rho * z / np.sqrt(far) * both
