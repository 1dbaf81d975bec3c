"""A band by calling the function itself once a draw, all quantities at once: slow; what `band` is checked against."""
import numpy as np

from lessons_lib.physics.spread import Band, in_scale


def band_by_drawing(function, quantities, *, draws=2000, seed=1):
    """The `Band` by independent random draws (JCGM 101:2008, 5); the same *seed* gives the same draws.

    An end of the band has a standard uncertainty of some 1.5 standard deviations of the result divided by the square
    root of *draws*. For the shares each quantity is moved alone, at a tenth of the draws.
    """
    def at(**moved):
        return np.asarray(function(**{name: float(value) for name, value in quantities.items()} | moved), dtype=float)
    random = np.random.default_rng(seed)
    places = {name: in_scale(value, random.random(draws)) for name, value in quantities.items()
              if getattr(value, "spread", None) and value.spread[0] != value.spread[1]}
    results = np.stack([at(**{name: float(drawn[n]) for name, drawn in places.items()}) for n in range(draws)])
    low, median, high = np.percentile(results, (16, 50, 84), axis=0)
    variance, shares = results.var(axis=0), {name: np.zeros(results.shape[1:])[()] for name in quantities}
    for name, drawn in places.items():
        alone = np.stack([at(**{name: float(one)}) for one in drawn[::10]])
        shares[name] = alone.var(axis=0) / variance
    return Band(at()[()], median[()], low[()], high[()], shares)
