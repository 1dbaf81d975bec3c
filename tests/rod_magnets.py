"""A rod, points in and around it, and errors of vectors: what tests of magnets share."""
import numpy as np

ROD = {"diameter": 5e-3, "length": 16e-3}


def scattered(count=2000, size=(12e-3, 12e-3, 40e-3)):
    """Points in and round a rod with its top at z = 0, none on its surface."""
    return (np.random.default_rng(5).random((count, 3)) - (0.5, 0.5, 0.7)) * size


def relative_error(got, wanted):
    return np.linalg.norm(got - wanted, axis=-1) / np.linalg.norm(wanted, axis=-1)


def on_axis(rod, *heights):
    return rod.flux_density([(rod.x, rod.y, rod.top + height) for height in heights])[:, 2]
