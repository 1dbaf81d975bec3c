"""The sliders and choices of lesson 3."""
from lessons_lib.lessons.instrument import in_mm
from lessons_lib.lessons.lesson_03.known import GROUPS
from lessons_lib.page.controls import Choice, Slider


def _string_height(instrument):
    return in_mm(instrument.place["string_height"])


def _thick(instrument):
    return in_mm(instrument.strings["VI"]["core"])


STRING_HEIGHT = Slider(name="height", label="height of string", unit="mm", low=1.5, high=6, step=0.1,
                       start=_string_height)
PLACE_ACROSS = Slider(name="place", label="place across", unit="mm", low=0, high=8, start=0, step=0.5)
FIT_HEIGHT = Slider(name="fit_height", label="fitted at a height of", unit="mm", low=1.5, high=6, step=0.1,
                    start=_string_height)
CORE = Slider(name="core", label="diameter of core", unit="mm", low=0.2, high=1.0, start=_thick, step=0.02)
FINE_CORE = Slider(name="core", label="diameter of core", unit="mm", low=0.24, high=0.46, step=0.01,
                   start=lambda instrument: in_mm(instrument.strings["I"]["core"]))
THICK_CORE = Slider(name="core", label="diameter of core", unit="mm", low=0.2, high=0.5, start=_thick, step=0.01)
WIRE_PERMEABILITY = Slider(name="permeability", label="permeability", unit="", low=20, high=200, start=100,
                           logarithmic=True)
PERMEABILITY = Slider(name="permeability", label="permeability", unit="", low=20, high=1000, start=100,
                      logarithmic=True)
SATURATES = Choice(name="saturates", label="saturation", options={"as in a wire": 1, "left out": 0}, start=1)
TENSION = Slider(name="tension", label="tension", unit="N", low=60, high=90, step=0.1,
                 start=lambda instrument: round(instrument.tension("VI"), 1))
SENSING = Slider(name="place", label="pickup, share of length", unit="", low=0.05, high=0.5, step=0.01,
                 start=lambda one: round(one.place["pickup_place"] / one.place["scale_length"], 2))
NOT_KNOWN = Choice(name="group", label="not known", options={name: name for name in GROUPS}, start="all of it")
