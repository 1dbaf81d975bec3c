"""One physical effect a file: pure functions and small frozen dataclasses, SI units throughout.

A number that breaks the rule of its parameter raises ValueError, and what is no number TypeError; docstrings name what
raises besides. What the pages need, and the workshop's parts, can be imported from here; a name loads its module alone.
"""
from typing import TYPE_CHECKING

from lessons_lib.base.offered import offered

__all__, __getattr__, __dir__ = offered(__name__, __file__)

if TYPE_CHECKING:
    from lessons_lib.base.materials import magnet_grade
    from lessons_lib.base.wire import magnet_wire
    from lessons_lib.base.workshop import house_bar, house_coil, house_magnet, house_place, house_strings
    from lessons_lib.physics.bar_magnet import BarMagnet
    from lessons_lib.physics.coil_response import LoadedCoil
    from lessons_lib.physics.cover import RoundCover
    from lessons_lib.physics.design import design_report, turns_for
    from lessons_lib.physics.fits import fit_added_capacitance, fit_exciter_response
    from lessons_lib.physics.gauss_readings import fit_gauss_readings
    from lessons_lib.physics.induction import harmonic_levels, induced_voltage, pickup_voltage
    from lessons_lib.physics.magnetic_circuit import (
        MagneticCircuit,
        air_reluctance,
        in_parallel,
        in_series,
        reluctance,
        working_point,
    )
    from lessons_lib.physics.magnets import RodMagnet, recoil_magnet
    from lessons_lib.physics.pickup import Pickup
    from lessons_lib.physics.plucked_string import TunedString
    from lessons_lib.physics.recorded_pluck import fit_string_height
    from lessons_lib.physics.six_strings import decibels, in_a_row, simple_law, workshop_row
    from lessons_lib.physics.spread import band
    from lessons_lib.physics.steel import SteelPole, SteelString
    from lessons_lib.physics.string_answer import added_midplane_flux
    from lessons_lib.physics.winding import LongCoil, RoundCoil
