"""The string as a branch of the magnetic circuit: fitted at one height, checked against the model at others."""
from dataclasses import dataclass
from functools import lru_cache

from scipy.constants import mu_0
from scipy.interpolate import CubicSpline

from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_03.model import CURVE_HEIGHTS, DRAWN_HEIGHTS, ThreeFluxes, over_heights, three_fluxes
from lessons_lib.lessons.rod import circuit_and_field
from lessons_lib.physics.magnetic_circuit import in_parallel, in_series


@dataclass(frozen=True, kw_only=True)
class StringCircuit:
    """Magnet, near air in parallel with the string branch, far air: MMF in A, reluctances in A/Wb, gap_area in m2."""

    mmf: float
    magnet: float
    near_air: float
    far_air: float
    gap_area: float

    def branch(self, height):
        """Reluctance of gap, steel, gap, as two gaps: the steel's share is inside the fitted area."""
        return 2 * height / (mu_0 * self.gap_area)

    def flux(self, height=None):
        """Flux in the magnet (Wb) with the string at a height (m), or without it."""
        near = self.near_air if height is None else in_parallel(self.near_air, self.branch(height))
        return self.mmf / in_series(self.magnet, near, self.far_air)

    def share(self, height):
        """What the string adds to the flux in the magnet, as a share of it."""
        return (self.flux(height) - self.flux()) / self.flux()

    def string_flux(self, height):
        """Flux in the string branch, Wb."""
        return self.flux(height) * self.near_air / (self.near_air + self.branch(height))


@lru_cache(maxsize=256)
def fitted_circuit(fit_height, core, saturates, instrument=house_instrument):
    """The circuit whose two free numbers give the computed model's two fluxes at one height.

    Notes
    -----
    Free are the share of the air that is in parallel with the string and the area of the gap. Magnet and the whole of
    the air are those of lesson 2. With x the reluctance that the string takes off the near air, the flux it adds
    settles x; the flux that the string gathers is the loop's times x divided by the near air, which settles the rest.
    """
    computed = three_fluxes(height=fit_height, core=core, saturates=saturates, instrument=instrument)
    rod = circuit_and_field(**instrument.magnet)
    total = rod.own_reluctance + rod.air_reluctance
    flux = rod.circuit_flux * (1 + computed.share_of_magnet)
    string = computed.gathered * rod.circuit_flux / computed.magnet
    taken_off = total - rod.mmf / flux
    near = taken_off * flux / string
    branch = near * (flux - string) / string
    return StringCircuit(mmf=rod.mmf, magnet=rod.own_reluctance, near_air=near, far_air=rod.air_reluctance - near,
                         gap_area=2 * fit_height / (mu_0 * branch))


@dataclass(frozen=True, kw_only=True)
class CircuitAndModel:
    """The fitted circuit at a height (m) beside the computed model there; signals in V per m/s, and at 2 mm."""

    circuit: StringCircuit
    height: float
    model: ThreeFluxes
    signal: float
    signal_at_2_mm: float

    @property
    def difference(self):
        """What the string adds by the circuit, divided by that of the model, less one."""
        return self.circuit.share(self.height) / self.model.share_of_magnet - 1


def circuit_and_model(*, height, fit_height, core, saturates, instrument=house_instrument):
    """The circuit fitted at one height and checked against the model at another, as a CircuitAndModel."""
    signal = over_heights(core, saturates=saturates, instrument=instrument).signal
    return CircuitAndModel(
        circuit=fitted_circuit(fit_height, core, saturates, instrument), height=height,
        model=three_fluxes(height=height, core=core, saturates=saturates, instrument=instrument),
        signal=signal(height), signal_at_2_mm=signal(2e-3))


@lru_cache(maxsize=32)
def _computed_shares(core, saturates, instrument):
    computed = CURVE_HEIGHTS[::2]
    return CubicSpline(computed, [three_fluxes(height=float(height), core=core, saturates=saturates,
                                               instrument=instrument).share_of_magnet for height in computed])


def circuit_curves(both, *, height, fit_height, core, saturates, instrument=house_instrument):
    """What StringLoop.update takes, and the shares over DRAWN_HEIGHTS with those at the two heights."""
    circuit = both.circuit
    return {"loop": {"height": height, "mmf": circuit.mmf, "magnet": circuit.magnet, "near_air": circuit.near_air,
                     "far_air": circuit.far_air, "branch": circuit.branch(height),
                     "pair": in_parallel(circuit.near_air, circuit.branch(height)), "flux": circuit.flux(height),
                     "string_flux": circuit.string_flux(height)},
            "shares": {"model": _computed_shares(core, saturates, instrument)(DRAWN_HEIGHTS),
                       "circuit": [circuit.share(one) for one in DRAWN_HEIGHTS],
                       "now": ([height] * 2, [both.model.share_of_magnet, circuit.share(height)]),
                       "height": fit_height, "fit": (fit_height, circuit.share(fit_height))}}
