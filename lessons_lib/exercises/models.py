"""The named functions that compute an answer's right side: the model of a design, the fit to a table of readings.

A sheet names one, and only what stands here is ever called. A module is loaded when an answer first needs it, so that
exercises know no physics.
"""
from importlib import import_module

from lessons_lib.exercises.reading import shortened

HOMES = {
    "design_report": "lessons_lib.physics.design", "parts_list": "lessons_lib.physics.design",
    "fit_gauss_readings": "lessons_lib.physics.fits", "fit_added_capacitance": "lessons_lib.physics.fits",
    "fit_resonance": "lessons_lib.physics.fits", "fit_exciter_response": "lessons_lib.physics.fits",
    "fit_stated_gauss_readings": "lessons_lib.physics.fits",
    "inductance_without_own_capacitance": "lessons_lib.physics.shortcuts",
    "inductance_by_a_line_through_the_origin": "lessons_lib.physics.shortcuts",
    "inductance_from_the_last_reading": "lessons_lib.physics.shortcuts",
    "flux_of_the_first_reading": "lessons_lib.physics.shortcuts",
    "flux_of_a_uniform_rod": "lessons_lib.physics.shortcuts",
    "flux_on_the_recoil_line": "lessons_lib.physics.shortcuts",
}


def model(name):
    """Return the function of a name.

    Raises
    ------
    ValueError
        For a name that is not in `HOMES`.

    Examples
    --------
    >>> model("design_report").__module__
    'lessons_lib.physics.design'
    """
    if name not in HOMES:
        raise ValueError(f"this sheet asks for a computation that the library does not have: {name}; take the course "
                         "afresh from where you got it")
    return getattr(import_module(HOMES[name]), name)


def why(error):
    """Return what an error of a model says, for a sentence; of one that is not meant for people, its kind."""
    meant = isinstance(error, (ValueError, RuntimeError)) and str(error)
    return shortened(str(error), 200) if meant else f"the computation stopped with {type(error).__name__}"
