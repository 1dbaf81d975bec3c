"""The named functions that compute an answer's right side: the model of a design, the fit to a table of readings.

A sheet names one, and only what stands here is ever called. Of the exercises this module alone knows physics, and
loads a part of it when an answer first needs it: opening a sheet stays light.
"""
from lessons_lib.exercises.reading import shortened


def _design():
    from lessons_lib.physics import design
    return design


def _coil_and_cable():
    from lessons_lib.physics import coil_and_cable
    return coil_and_cable


def _fits():
    from lessons_lib.physics import fits
    return fits


def _shortcuts():
    from lessons_lib.physics import shortcuts
    return shortcuts


def _small_coils():
    from lessons_lib.physics import small_coils
    return small_coils


# name of a function -> what loads its module
HOMES = {
    "design_report": _design, "parts_list": _design,
    "peak_report": _coil_and_cable, "peak_parts": _coil_and_cable,
    "small_coils_report": _small_coils, "small_coils_parts": _small_coils,
    "fit_gauss_readings": _fits, "fit_added_capacitance": _fits, "fit_exciter_response": _fits,
    "fit_stated_gauss_readings": _fits,
    "inductance_without_own_capacitance": _shortcuts, "inductance_by_a_line_through_the_origin": _shortcuts,
    "inductance_from_the_last_reading": _shortcuts, "flux_of_the_first_reading": _shortcuts,
    "flux_of_a_uniform_rod": _shortcuts, "flux_on_the_recoil_line": _shortcuts,
}


def model(name):
    """Return the function of a name; ValueError with a sentence for one that is not in `HOMES`.

    Examples
    --------
    >>> model("design_report").__module__
    'lessons_lib.physics.design'
    """
    if name not in HOMES:
        raise ValueError(f"this sheet asks for a computation that the library does not have: {name}; get a fresh "
                         "copy of the course from where you got it")
    return getattr(HOMES[name](), name)


def why(error):
    """Return what an error of a model says, for a sentence; of one that is not meant for people, its kind."""
    meant = isinstance(error, (ValueError, RuntimeError)) and str(error)
    return shortened(str(error), 200) if meant else f"the computation stopped with {type(error).__name__}"
