"""The one record of the workshop's instrument, a six-string steel tenor cithrel (invented), as plain data in SI units.

house_magnet, house_coil: keyword arguments of RodMagnet and LongCoil.
house_screw, house_bar: the other way, a SteelPole under each string and the one BarMagnet below them.
house_small_coil: a RoundCoil for each string in place of the long one.
house_load: the coil's self-capacitance and what hangs on it, keyword arguments of LoadedCoil.
GRADES: of rods that may take the house magnet's place.
house_strings: the seven strings by name. ROW: six names in their order over the poles, of which III wound has III's.
house_place: where things are.
"""
from types import MappingProxyType

house_magnet = MappingProxyType({
    "diameter": 5e-3, "length": 17e-3,
    # remanence of the recoil line: a rod with it gives the field of the full solution on the alnico curve at 2 to 3 mm
    "remanence": 0.75, "recoil_permeability": 3.6})

house_coil = MappingProxyType({
    "straight_length": 51e-3, "inner_radius": 3.2e-3, "outer_radius": 6.2e-3,
    "bottom": -14.5e-3, "top": -2.5e-3, "turns": 7600})

# As long as the rods, so that the same coil form takes them; mild steel, from the lower half of its usual range. They
# stand on the bar: from here a screw can only go up.
house_screw = MappingProxyType({"diameter": 4.8e-3, "length": 17e-3, "relative_permeability": 500.0})

# A ferrite bar under all six screws, magnetised upward through its thickness; its upper face at -17 mm. Its size is
# common flat stock.
house_bar = MappingProxyType({
    "size": (12.7e-3, 60e-3, 3.2e-3), "centre": (0.0, 0.0, -18.6e-3), "remanence": 0.38, "recoil_permeability": 1.08})

# The long coil's turns, wire and height; the radii leave 0.1 mm round a rod and 0.2 mm to the neighbour's coil.
house_small_coil = MappingProxyType({
    "inner_radius": 2.6e-3, "outer_radius": 5e-3, "bottom": -14.5e-3, "top": -2.5e-3, "turns": 7600})

# What rods of the house size may be made of; rare earth pulls and pinches: not in this class.
GRADES = ("alnico 2", "alnico 3", "alnico 5", "alnico 8", "ferrite")

# Common practice, no source.
house_load = MappingProxyType({
    "capacitance": 100e-12, "cable_capacitance": 500e-12, "volume_resistance": 250e3, "tone_resistance": 500e3,
    "tone_capacitance": 22e-9, "input_resistance": 1e6})


def _string(note_frequency, diameter, core, linear_density):
    return MappingProxyType({"frequency": note_frequency, "diameter": diameter, "core": core,
                             "linear_density": linear_density})


# The string-maker's diameters: a common light set of the trade. Linear densities: steel of 7850 kg/m3, wraps of
# 8300 kg/m3 that fill pi/4 of their ring.
house_strings = MappingProxyType({
    "I": _string(349.2, 0.25e-3, 0.25e-3, 0.385e-3),
    "II": _string(261.6, 0.33e-3, 0.33e-3, 0.671e-3),
    "III": _string(207.7, 0.43e-3, 0.43e-3, 1.140e-3),
    "III wound": _string(207.7, 0.48e-3, 0.28e-3, 1.262e-3),
    "IV": _string(155.6, 0.66e-3, 0.36e-3, 2.366e-3),
    "V": _string(116.5, 0.89e-3, 0.42e-3, 4.240e-3),
    "VI": _string(87.3, 1.17e-3, 0.46e-3, 7.230e-3),
})
ROW = ("VI", "V", "IV", "III", "II", "I")

house_place = MappingProxyType({
    "scale_length": 0.600,      # m, bridge to nut
    "pluck_place": 0.100,       # m from the bridge
    "pickup_place": 0.150,      # m from the bridge
    "string_height": 2.5e-3,    # m, axis of the string above the pole face
    "string_spacing": 10.2e-3,  # m, at the pickup
    # y of each string's pole, string VI first: -25.5 ... 25.5 mm
    "string_y": tuple((n - 2.5) * 10.2e-3 for n in range(6)),
})
