"""A model put through readings by least squares: values, how sure they are, and what is left over."""
from dataclasses import dataclass

import numpy as np
from scipy.optimize import least_squares
from scipy.stats import chi2, norm, t

from lessons_lib.base.checks import array_of_finite, finite_array, refuse

_LEVEL = 0.975          # upper end of a two-sided interval of 95 %
_IMPROBABLE = 0.01      # chance below which residuals contradict the stated uncertainty
_ALIKE = 1e7            # condition number from which two unknowns cannot be told apart
_FEW = 6                # readings below which nothing is said about their order


@dataclass(frozen=True, kw_only=True, eq=False)
class Fit:
    """What a fit found.

    names, units, values, uncertainties (one sigma), intervals (95 %, pairs): one entry a quantity, SI.
    readings, model, sigma (one sigma of each reading as stated, or from the scatter), residuals (reading minus model),
    standardised (residuals divided by sigma): one entry a reading, in the order they were given.
    correlation: matrix between the quantities. degrees_of_freedom: readings minus unknowns.
    reduced_chi_square: NaN where no uncertainty was stated or no reading is left over.
    scatter: the magnitude of the residuals where no uncertainty was stated, as a share of the reading; else NaN.
    remark: a sentence about the residuals.

    ``fit["inductance"]`` is a value, ``fit.uncertainty("inductance")`` and ``fit.interval("inductance")`` go with it.
    """

    names: tuple
    units: tuple
    values: tuple
    uncertainties: tuple
    intervals: tuple
    readings: np.ndarray
    model: np.ndarray
    sigma: np.ndarray
    correlation: np.ndarray
    degrees_of_freedom: int
    reduced_chi_square: float
    scatter: float
    remark: str

    @property
    def residuals(self):
        """Reading minus model, in the unit of the readings."""
        return self.readings - self.model

    @property
    def standardised(self):
        """Residuals divided by the sigma of their reading."""
        return self.residuals / self.sigma

    def __getitem__(self, name):
        return self.values[self._place(name)]

    def uncertainty(self, name):
        """One sigma of a quantity, SI."""
        return self.uncertainties[self._place(name)]

    def interval(self, name):
        """95 % interval of a quantity, a pair, SI."""
        return self.intervals[self._place(name)]

    def _place(self, name):
        if name not in self.names:
            raise KeyError(f"name must be one of {', '.join(self.names)}; got {name!r}.")
        return self.names.index(name)


def adjust(model, start, readings, *, uncertainty, names, units, quantities=None, sizes=None, order=slice(None)):
    """Find the unknowns that bring a model closest to readings: a `Fit`.

    Parameters
    ----------
    model : callable
        Unknowns, shape (k,), to predictions, shape (n,).
    start : array_like, shape (k,)
    readings : array_like, shape (n,)
    uncertainty : None, float or array_like of shape (n,)
        One sigma of the readings, in their unit. None: taken from their scatter, the same share of every reading.
    names, units : sequence of str
        Of the quantities that are reported.
    quantities : callable, optional
        Unknowns to quantities; without it the unknowns themselves.
    sizes : array_like, shape (n,), optional
        Where no uncertainty is stated: what the scatter is a share of, instead of the readings.
    order : array_like of int, shape (n,), optional
        In which readings are neighbours, for the remark, where it is not the order they are given in.

    Raises
    ------
    ValueError
        For too few readings, an uncertainty not above zero, unknowns that these readings cannot tell apart.
    RuntimeError
        When the search does not end.

    Notes
    -----
    A stated uncertainty is believed: intervals are 1.96 sigma. Where residuals are so large that chance would give
    them once in a hundred times, intervals are widened by the root of the reduced chi-square, with Student's t, and
    the remark says so. Without a statement the scatter and Student's t do it. Linear propagation: good while the
    intervals are small beside the values. The residuals show no error that all readings share.

    Examples
    --------
    >>> fit = adjust(lambda p: p[0] * np.array([1.0, 2.0, 3.0]), [1.0], [2.0, 4.0, 6.0], uncertainty=0.1,
    ...              names=["slope"], units=["V"])
    >>> round(fit["slope"], 6), round(fit.uncertainty("slope"), 4)      # 0.1 / sqrt(1 + 4 + 9)
    (2.0, 0.0267)
    """
    readings = finite_array(readings=readings)
    stated, freedom = uncertainty is not None, _freedom(readings, start, uncertainty)
    sigma = _sigma(readings if sizes is None else sizes, uncertainty)
    found = least_squares(lambda p: (model(p) - readings) / sigma, start, x_scale="jac", method="lm")
    if not found.success or not np.isfinite(found.x).all():
        raise RuntimeError("The search for the best values did not end; the readings may not be what the model is for.")
    chi = found.fun @ found.fun / freedom if freedom else np.nan
    widening, reach = _widening(chi, freedom, stated)
    values, slopes = _reported(quantities, found.x)
    covariance = slopes @ _covariance(found.jac) @ slopes.T
    own = np.sqrt(np.diag(covariance))
    spread = own * np.sqrt(widening)
    sigma = sigma if stated else sigma * max(np.sqrt(chi), 1e-300)
    return Fit(names=tuple(names), units=tuple(units), values=tuple(values.tolist()),
               uncertainties=tuple(spread.tolist()),
               intervals=tuple(zip((values - reach * spread).tolist(), (values + reach * spread).tolist())),
               readings=readings, model=model(found.x), sigma=sigma,
               correlation=covariance / np.outer(own, own), degrees_of_freedom=freedom,
               reduced_chi_square=float(chi) if stated else np.nan, scatter=np.nan if stated else float(np.sqrt(chi)),
               remark=_remark(found.fun[order], chi, freedom, stated))


def _freedom(readings, start, uncertainty):
    unknowns = len(start)
    least = unknowns + (uncertainty is None)
    if readings.ndim != 1 or readings.size < least:
        why = "" if uncertainty is not None else ", one more than unknowns, or their uncertainty stated"
        refuse("number of readings", f"{least} or more{why}", readings.size)
    return readings.size - unknowns


def _sigma(readings, uncertainty):
    """One sigma for every reading; in a unit of its own where the scatter is to tell."""
    if uncertainty is None:
        if not readings.all():
            refuse("readings", "other than zero where no uncertainty is stated", 0.0)
        return np.abs(readings)
    sigma = finite_array(uncertainty=uncertainty)
    if sigma.shape not in ((), readings.shape) or not (sigma > 0).all():
        refuse("uncertainty", "above zero, one number or one for each reading", uncertainty)
    return np.broadcast_to(sigma, readings.shape)


def _widening(chi, freedom, stated):
    """Factor on the covariance, and sigmas from the value to the end of its interval."""
    if stated and (not freedom or chi2.sf(chi * freedom, freedom) > _IMPROBABLE):
        return 1.0, norm.ppf(_LEVEL)
    return chi, t.ppf(_LEVEL, freedom)


def _covariance(jacobian):
    """Inverse of J'J, refused where two unknowns move the readings alike."""
    size = np.linalg.norm(jacobian, axis=0)
    if not size.all() or np.linalg.cond(jacobian / size) > _ALIKE:
        refuse("readings", "so different that the unknowns can be told apart", f"{len(jacobian)} that cannot")
    inverse = np.linalg.pinv(jacobian / size) / size[:, np.newaxis]
    return inverse @ inverse.T


def _reported(quantities, unknowns):
    """The quantities, and their slopes by each unknown (central differences)."""
    if quantities is None:
        return unknowns, np.eye(unknowns.size)
    steps = 1e-5 * np.maximum(np.abs(unknowns), 1e-3)
    slopes = [(np.subtract(quantities(unknowns + step), quantities(unknowns - step))) / (2 * step.sum())
              for step in np.diag(steps)]
    return np.asarray(quantities(unknowns)), np.transpose(slopes)


def _remark(residuals, chi, freedom, stated):
    """What the residuals say, in a sentence."""
    if not freedom:
        return ("As many readings as unknowns: the curve goes through every reading, and nothing is left to say "
                "whether the model is right.")
    if len(residuals) >= _FEW and _in_waves(residuals, len(residuals) - freedom):
        return ("The residuals do not look like noise: neighbours are on the same side. The model leaves something "
                "out, or an instrument drifted; the true uncertainty is larger than the intervals.")
    if stated and chi2.sf(chi * freedom, freedom) <= _IMPROBABLE:
        return (f"The residuals are {np.sqrt(chi):.2g} times as large as stated; the intervals are widened by that. "
                "Was the uncertainty stated too small, is a reading wrong, or does the model leave something out?")
    if stated and chi2.cdf(chi * freedom, freedom) <= _IMPROBABLE:
        return (f"The residuals are only {np.sqrt(chi):.2g} of what was stated: the readings are better than that, or "
                "were rounded or smoothed.")
    if len(residuals) < _FEW:
        return "Too few readings to see whether the residuals are noise."
    return "The residuals look like noise: no waves" + (", and no larger than chance allows." if stated else ".")


def _in_waves(residuals, unknowns):
    """Whether neighbours are more alike than chance makes them about once in forty times.

    Noise left over by a fit has its neighbours unlike by about unknowns/n, give or take 1/sqrt(n).
    """
    count = len(residuals)
    return residuals[1:] @ residuals[:-1] > (2 / np.sqrt(count) - unknowns / count) * (residuals @ residuals)


def columns_of_one_length(least, **columns):
    """Columns of readings as float arrays of one length, *least* readings or more."""
    arrays = [np.atleast_1d(array_of_finite(name, values)) for name, values in columns.items()]
    if any(array.ndim != 1 or array.size != arrays[0].size for array in arrays):
        refuse(" and ".join(columns), "columns of one length", ", ".join(f"shape {array.shape}" for array in arrays))
    if arrays[0].size < least:
        refuse(f"number of readings of {next(iter(columns))}", f"{least} or more", arrays[0].size)
    return arrays


def column_above_zero(**columns):
    """Check that every number of the column is above zero."""
    for name, values in columns.items():
        if not (values > 0).all():
            refuse(name, "above zero", float(values.min()))
