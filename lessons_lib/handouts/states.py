"""Which three states of each panel are printed: the one table to fill in for a new lesson.

Lesson -> panel -> three mappings of SI values; what a mapping does not name stands at the slider's first value. Where a
prediction or the question after it names two settings, they are among the three.
"""
from math import pi

FIRST = {}      # the sliders' first values, which are the workshop's

STATES = {
    "00": {
        "shorter_string": (FIRST, {"length": 0.4}, {"length": 0.3}),
    },
    "01": {
        "lines_of_flux": (FIRST, {"recoil_permeability": 1.0}, {"length": 8e-3}),
        "adding_up": (FIRST, {"radius": 4e-3}, {"radius": 8e-3, "rings": 3}),
        "falling_field": ({"z": 1e-3}, {"z": 2e-3}, {"z": 0.1}),
        "inside_the_rod": (FIRST, {"place": 8e-3}, {"place": 11.5e-3}),
    },
    "02": {
        "circuit_beside_field": (FIRST, {"length": 8e-3}, {"recoil_permeability": 1.0}),
        "load_line": ({"permeance_coefficient": 25.0}, {"permeance_coefficient": 8.0}, {"permeance_coefficient": 4.0}),
        "keeper_gap": (FIRST, {"gap": 2e-3}, {"gap": 10e-3}),
    },
    "03": {
        "string_in_field": ({"height": 2e-3}, FIRST, {"height": 4e-3}),
        "string_in_circuit": ({"height": 2e-3}, FIRST, {"height": 4e-3}),
        "saturation": ({"height": 1.5e-3}, FIRST, {"height": 4e-3}),
        "pull_and_detuning": ({"height": 1.5e-3}, FIRST, {"height": 4e-3}),
    },
    "04": {
        "moving_string": (FIRST, {"frequency": 100.0}, {"height": 4e-3}),
        "sideways": (FIRST, {"direction": pi / 2}, {"direction": pi / 2, "offset": 2e-3}),
        "turns_in_a_window": ({"turns": 5000}, {"turns": 10000}, {"turns": 50000}),
    },
    "05": {
        "over_the_frets": (FIRST, {"fret": 12}, {"fret": 12, "hand": "fraction"}),
        "partials": (FIRST, {"fret": 12}, {"finger": 10e-3, "aperture": 10e-3}),
        "curved_map": (FIRST, {"amplitude": 0.6e-3}, {"amplitude": 0.6e-3, "height": 2e-3}),
    },
    "06": {
        "coil_and_cable": (FIRST, {"cable": 1000e-12}, {"volume": 125e3}),
        "controls": (FIRST, {"volume": 500e3, "tone": 1000e3}, {"volume_setting": 0.5}),
        "component_meter": ({"frequency": 1e3}, FIRST, {"frequency": 15e3}),
    },
    "07": {
        "field_over_six": (FIRST, {"raised": 1e-3}, {"kind": "rods", "raised": 1e-3}),
        "levels_of_six": (FIRST, {"III": -1e-3}, {"third": "III wound"}),
        "bent_sideways": (FIRST, {"bend": 5.1e-3}, {"bend": 5.1e-3, "height": 4e-3}),
        "hum_of_a_pair": (FIRST, {"more_turns": 0.02}, {"more_turns": 0.02, "uneven": 0.02}),
    },
    "08": {
        "guess_then_data": (FIRST, {"inductance": 2.0, "own": 200e-12}, {"inductance": 4.0, "own": 100e-12}),
        "one_shared_error": (FIRST, {"zero": 1e-3}, {"zero": 1e-3, "reach": 20e-3}),
        "design_bench": (FIRST, {"magnet": "ferrite"}, {"wire": 42, "turns": 6000}),
    },
}


def states_of(lesson, panel):
    """Return the three states of a panel of a lesson, "01".

    Raises
    ------
    ValueError
        Where the table has none.
    """
    try:
        return STATES[lesson][panel]
    except KeyError:
        raise ValueError(f"Lesson {lesson} shows the panel {panel}, for which no settings are named; "
                         "write three into lessons_lib/handouts/states.py.") from None
