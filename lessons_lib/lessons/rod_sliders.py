"""The sliders of a rod magnet and its corner to drag, as several lessons have them; the step between lines of flux."""
from lessons_lib.lessons.instrument import in_mm
from lessons_lib.page.controls import Slider
from lessons_lib.page.grips import Grip

TUBE = 1e-6     # Wb from one flux line to the next

DIAMETER = Slider(name="diameter", label="diameter", unit="mm", low=4, high=6, step=0.1,
                  start=lambda instrument: in_mm(instrument.magnet["diameter"]))
LENGTH = Slider(name="length", label="length", unit="mm", low=8, high=20, step=0.5,
                start=lambda instrument: in_mm(instrument.magnet["length"]))
REMANENCE = Slider(name="remanence", label="remanence", unit="T", low=0.3, high=1.3, step=0.05,
                   start=lambda instrument: instrument.magnet["remanence"])
RECOIL_PERMEABILITY = Slider(name="recoil_permeability", label="recoil permeability", unit="", low=1, high=5, step=0.1,
                             start=lambda instrument: instrument.magnet["recoil_permeability"])


def rod_corner(axes, *, below=1.0):
    """The lower right corner of a drawn rod as a `Grip` for diameter and length; *below* zero is that share of it."""
    return Grip(axes, x="diameter", x_of=lambda wide: wide / 2, y="length", y_of=lambda long: -below * long)
