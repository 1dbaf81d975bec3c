"""Lesson 01, the magnet and its flux: model answers, slips with their notes, worked answers, teaching note, rubric."""
import math
from functools import cache

import numpy as np

from lessons_lib.base.workshop import house_magnet
from lessons_lib.exercises.declaration import (
    ChoiceExercise,
    Derived,
    EstimateExercise,
    Evening,
    FormulaExercise,
    Given,
    Lesson,
    NumberExercise,
    OrderExercise,
    PredictionExercise,
    RecallExercise,
    Slip,
    Step,
    Stretch,
    Symbol,
    TextExercise,
    ToVote,
    Twin,
)

MU_0 = 4e-7 * math.pi   # as students type it; the exact constant differs by less than 1e-9
RINGS = 8
STRIPS = 8              # of the wall of a rod's upper half

TWO_QUANTITIES = ("Flux density and flux are two things. Which of them does the probe show, and which does the "
                  "question ask for?")
POWER_LAW = ("A power law is for points and for small magnets far away. At this distance the pole face is not a "
             "point: which formula of this section holds close by?")


def disc(diameter):
    return math.pi * diameter ** 2 / 4


def _first(z, diameter, length):
    return (length + z) / math.hypot(length + z, diameter / 2)


def _second(z, diameter):
    return z / math.hypot(z, diameter / 2)


def _even(z, diameter, length):
    """The bracket of the on-axis formula of an evenly magnetised rod."""
    return _first(z, diameter, length) - _second(z, diameter)


def _house(z):
    """B of the house magnet on its axis, as the panel shows it."""
    from lessons_lib.physics.magnets import RodMagnet  # brings scipy, and a lesson opens without it
    return RodMagnet(**house_magnet).flux_density([0, 0, z])[2]


@cache
def _on_the_surface(radius, strip):
    """Mean B out of each ring of a rod's top face and each strip of its upper wall: parts of its remanence.

    A rod of the house magnet's recoil permeability; *radius* and height of a *strip*, m.
    """
    from lessons_lib.physics.magnets import RodMagnet
    rod = RodMagnet(diameter=2 * radius, length=2 * STRIPS * strip, remanence=1.0,
                    recoil_permeability=house_magnet["recoil_permeability"])
    rings, heights = radius * np.arange(RINGS + 1) / RINGS, strip * (np.arange(STRIPS + 1) - STRIPS)
    out_of_face = np.diff(rod.flux_function(rings, 0.0)) / np.diff(math.pi * rings ** 2)
    return out_of_face, -np.diff(rod.flux_function(radius, heights)) / (2 * math.pi * radius * strip)


def _out_of_face(radius, strip, remanence):
    return remanence * _on_the_surface(round(radius, 9), round(strip, 9))[0]


def _out_of_wall(radius, strip, remanence):
    return remanence * _on_the_surface(round(radius, 9), round(strip, 9))[1]


def _face_flux(radius, strip, remanence):
    rings = math.pi * radius ** 2 * (2 * np.arange(RINGS) + 1) / RINGS ** 2
    return np.sum(_out_of_face(radius, strip, remanence) * rings)


def _middle_flux(radius, strip, remanence):
    return (_face_flux(radius, strip, remanence)
            + _by_wall(radius, strip, _out_of_wall(radius, strip, remanence)))


def _seen(strips, covered):
    """The values of all strips but the covered one, which is counted from 1 at the bottom."""
    return np.delete(strips, round(float(covered)) - 1)


def _by_face(width, ring, out_of_face):
    return np.sum(out_of_face * 2 * math.pi * ring * width)


def _by_wall(radius, strip, out_of_wall):
    return np.sum(out_of_wall) * 2 * math.pi * radius * strip


def _between_neighbours(place, out_of_wall):
    """B half-way between the two strips on both sides of the gap in the row."""
    below = int(np.argmax(np.diff(place)))
    return (out_of_wall[below] + out_of_wall[below + 1]) / 2


def _covered(radius, strip, middle, face, out_of_wall):
    """Mean B of the strip that no probe reaches: what is still missing from the flux of the middle, on its area."""
    return (middle - face - _by_wall(radius, strip, out_of_wall)) / (2 * math.pi * radius * strip)


# ---- quick questions -------------------------------------------------------------------------------------------------

cut_magnet = ChoiceExercise(
    id="m1", quick=True, right="b",
    options={"a": "one north pole and one south pole", "b": "two whole magnets", "c": "two pieces without poles"},
    notes={"a": "No: each half has both poles. A pole cannot be cut off, because the flux goes on through the cut.",
           "b": "Correct: the flux goes on through the cut, so each half has both poles.",
           "c": "No: each half is a magnet with both poles. The flux goes on through the cut."})

square_metre = ChoiceExercise(
    id="m2", quick=True, right="c", options={"a": "1000", "b": "10 000", "c": "1 000 000"},
    notes={"a": "A metre has 1000 mm, and a square metre has 1000 rows of 1000: a million.",
           "b": "That is for square centimetres: 100 rows of 100. In millimetres it is 1000 rows of 1000: a million.",
           "c": "Correct: 1000 rows of 1000 square millimetres."})

half_as_long = RecallExercise(
    id="m3", where="page 00",
    sentence="A wave runs along the string, turns round at the end and comes back. Its speed depends on the tension "
             "and on the wire, and neither has changed. So on half the length it comes back twice as often: the "
             "frequency (how many times a second) doubles",
    worked="The speed of the wave is the same, and its way there and back is half as long: it comes back twice as "
           "often.")

where_it_goes = ChoiceExercise(
    id="s1", quick=True, right="c",
    options={"a": "flux leaves a magnet at its poles", "b": "flux is flux density times area",
             "c": "the flux through a closed surface adds up to zero"},
    notes={"a": "Half of this flux left through the wall, before it came to the face. What do bottom, face and wall "
                "form together?",
           "b": "Steps 1 and 2 are that. In step 3 there is no area any more, only three fluxes of one surface.",
           "c": "Correct: bottom, face and wall are one closed surface, so what comes in is what goes out."})

# ---- predictions -----------------------------------------------------------------------------------------------------

where_it_leaves = PredictionExercise(
    id="p1",
    question="Of the flux that passes the middle of the rod, how much leaves through the side of the upper half, "
             "before it reaches the top face?",
    options={"a": "almost nothing: flux leaves at the poles, which are the end faces", "b": "about a tenth",
             "c": "about half or more, but not all", "d": "all of it"},
    seen_question="At the sliders' first values: what share of the flux leaves through the side wall?",
    seen_options={"a": "under 5 %", "b": "about a tenth", "c": "more than half, but not all", "d": "all of it"},
    seen="c",
    seen_notes={
        "a": "Look again at the read-out of the side wall, with the sliders as they were at first. Then count the "
             "lines that cross the side of the upper half.",
        "b": "Look again at the read-out of the side wall, with the sliders as they were at first.",
        "c": "Yes, that is what the panel shows. Move the length up and down: the share "
             "changes, but it is never small.",
        "d": "Look again: the flux through the end face has its own read-out, and it is not zero."})

wider_disc = PredictionExercise(
    id="p2",
    question="The disc, 1 mm above the face, grows from 2.5 mm radius to 4 mm. What happens to the mean flux density "
             "over the disc, and to the flux through it?",
    options={"a": "both grow", "b": "the mean flux density falls, the flux grows", "c": "the flux stays the same",
             "d": "both fall"},
    seen_question="Move the radius from 2.5 to 4 mm. What do the mean flux density and the exact flux do?",
    seen_options={"a": "both grow", "b": "the mean falls, the flux grows",
                  "c": "the mean falls, the flux stays the same", "d": "both fall"},
    seen="b",
    seen_notes={
        "a": "Look again at the mean: read it at 2.5 mm, then at 4 mm.",
        "b": "Yes, that is what the panel shows: less flux for each square millimetre, but many more of them.",
        "c": "Look again at the exact flux: read it at 2.5 mm, then at 4 mm.",
        "d": "Look again at the exact flux: read it at 2.5 mm, then at 4 mm."})

how_it_falls = PredictionExercise(
    id="p3", further=True,
    question="From 1 mm to 2 mm above the face of the house magnet, the flux density falls to ...",
    options={"a": "a quarter", "b": "an eighth", "c": "half", "d": "about two thirds"},
    seen_question="Set the distance to 1 mm. What does the read-out of the local exponent show?",
    seen_options={"a": "about −2, the inverse square", "b": "about −3", "c": "about −1", "d": "about −0.4"},
    seen="d",
    seen_notes={
        "a": "Look again: set the distance to 1 mm and read the local exponent.",
        "b": "Look again at 1 mm. A value near −3 comes only far away: find where.",
        "c": "Look again: set the distance to 1 mm. A value of −1 comes a little further out: find where.",
        "d": "Yes, that is what the panel shows, and B falls to about two thirds from 1 to 2 mm. Now find the distance "
             "at which the exponent is −2: does it stay −2?"})

which_way_inside = PredictionExercise(
    id="p4",
    question="B points upwards through the whole rod. In the middle of the rod, H ...",
    options={"a": "points upwards, like B", "b": "points downwards, against B", "c": "is zero",
             "d": "has no direction, only a magnitude"},
    seen_question="Move the place from the middle of the rod to 3 mm above its top face. What does H do?",
    seen_options={"a": "it points upwards all the way", "b": "downwards inside the rod, upwards above it",
                  "c": "upwards inside the rod, downwards above it", "d": "it is zero inside"},
    seen="b",
    seen_notes={
        "a": "Look again at the sign of H in the middle of the rod (place 0).",
        "b": "Yes, that is what the panel shows: at the face H reverses. B does not.",
        "c": "Look again at the signs: first in the middle of the rod, then above it.",
        "d": "Look again at H in the middle of the rod, and then close to the face but still inside."})

# ---- exercises -------------------------------------------------------------------------------------------------------

five_loops = OrderExercise(
    id="1.10",
    options={"a": "a round loop of diameter d, at right angles to the field",
             "b": "a round loop of diameter 2d, at right angles to the field, where the field is half as strong",
             "c": "a round loop of diameter 2d, with 60° between the field and its normal",
             "d": "a square loop of side d, at right angles to the field",
             "e": "a round loop of diameter 2d, with its plane along the field"},
    right="b = c > d > a > e",
    slips=(Slip("twice the area, b", "a = b", "Twice as wide, and also twice as high: how many times the area is "
                                              "that?"),
           Slip("twice the area, c", "a = c", "Twice as wide, and also twice as high: how many times the area is "
                                              "that?"),
           Slip("square below two discs", "d > b", "Give the small round loop the area 1. What have the large ones, "
                                                   "and what is left of it in half the field?"),
           Slip("square below a tilted disc", "d > c", "Give the small round loop the area 1. What have the large "
                                                       "ones, and what is left of it at 60°?"),
           Slip("angle left out, or sine", "c > b", "Compare what is left: in half the field, and at 60° from the "
                                                    "normal. Sine or cosine, and how much is it?"),
           Slip("half the field counts less", "b > c", "Compare what is left: in half the field, and at 60° from the "
                                                       "normal. How much is cos 60°?"),
           Slip("round above square", "a > d", "Does the round loop fit into the square one, or the other way "
                                               "round?"),
           Slip("round like square", "a = d", "Does the round loop fit into the square one, or the other way round?"),
           Slip("edge on", "e > a", "Where the plane of a loop is along the field: does any tube go through it?"),
           Slip("edge on, nothing", "e = a", "Where the plane of a loop is along the field: does any tube go through "
                                             "it?")),
    notes=("Give loop (a) the flux 1. How many of that has each of the others?",
           "Flux is B times area times the cosine of the angle between field and normal: three factors, one after the "
           "other.",
           "A loop three times as wide as another has nine times the area. In a third of the field it has 9/3 = 3 "
           "times the flux."),
    worked="With loop (a) as 1: twice the diameter is four times the area, so (b) has 4 times a half = 2, and (c) has "
           "4 cos 60° = 2. The square has d² where the disc has π d²/4: 1.27. Through (e) no tube goes at all. So "
           "{order}.",
    teaching_note="No calculator. Let them vote on (b) and (c) first, then on the square: draw the disc into it.")

flux_through_disc = NumberExercise(
    id="1.1", further=True, unit="uWb", tolerance=0.02, size=(0.3, 8),
    given={"diameter": Given("diameter of the pole", unit="mm", low=4.5, high=5.2, step=0.05),
           "field": Given("mean flux density over the disc", unit="G", low=600, high=1200, step=10)},
    answer=lambda diameter, field: field * disc(diameter),
    # the answer is typed in uWb: a reading of 0.085 T or of 850 G comes in as 0.085 or 850 of them
    slips=(Slip("flux density in tesla", lambda field: field * 1e-6, TWO_QUANTITIES),
           Slip("flux density in millitesla", lambda field: field * 1e3 * 1e-6, TWO_QUANTITIES),
           Slip("flux density in gauss", lambda field: field * 1e4 * 1e-6, TWO_QUANTITIES),
           Slip("circumference", lambda diameter, field: field * math.pi * diameter,
                "You multiplied by the length of the rim. Which area does the flux go through?")),
    common=("diameter for radius", "square for circle", "pi", "gauss", "gauss by ten", "thousand", "million"),
    steps={"tesla": Step("T", lambda field: field), "area": Step("mm2", disc)},
    notes=("Look at two places: the gauss have to become tesla, and the diameter has to become an area.",
           "Flux is flux density times area, Φ = B A. The disc has the area π d²/4."),
    twin=Twin({"diameter": 6.0, "field": 500},
              "Another pole: {field} over a disc of {diameter}. That is {tesla} on {area} (2.827·10⁻⁵ m²), so the flux "
              "is 0.05 × 2.827·10⁻⁵ Wb = {answer}."),
    worked="{field} is {tesla}. The disc of {diameter} has the area π d²/4 = {area}. With 1 T on 1 mm² = 1 µWb, the "
           "flux is their product, {answer}.",
    teaching_note="The field is given in gauss on purpose: with mT the slip of the unit and the slip of the area would "
                  "give the same number.")

tilted_window = NumberExercise(
    id="1.2", further=True, unit="uWb", tolerance=0.02, size=(1, 25),
    given={"width": Given("width of the window", unit="mm", low=58, high=62, step=0.5),
           "height": Given("height of the window", unit="mm", low=8, high=10, step=0.1),
           "field": Given("flux density", unit="mT", low=8, high=16, step=0.1),
           "angle": Given("angle between field and normal", unit="deg", low=20, high=40, step=1)},
    answer=lambda width, height, field, angle: field * width * height * math.cos(angle),
    slips=(Slip("angle left out", lambda width, height, field: field * width * height,
                "Only the part of B along the normal counts. What does the angle do to it?"),
           Slip("sine", lambda width, height, field, angle: field * width * height * math.sin(angle),
                "The angle is measured from the normal, not from the plane of the window. Which function is largest at "
                "0°?"),
           Slip("degrees as radians",
                lambda width, height, field, angle: field * width * height * math.cos(math.degrees(angle)),
                "Your calculator seems to have taken the degrees as radians. Which mode is it in?"),
           Slip("divided by the cosine", lambda width, height, field, angle: field * width * height / math.cos(angle),
                "A tilted window cannot catch more than a straight one. Multiply or divide by the cosine?"),
           Slip("flux density in millitesla", lambda field, angle: field * 1e3 * math.cos(angle) * 1e-6,
                TWO_QUANTITIES)),
    common=("thousand", "million"),
    steps={"area": Step("mm2", lambda width, height: width * height),
           "straight": Step("uWb", lambda width, height, field: field * width * height)},
    notes=("Look at the angle: between which two directions is it measured? And is your calculator set to degrees?",
           "Only the part of B along the normal counts: Φ = B A cos θ."),
    twin=Twin({"width": 50, "height": 10, "field": 20, "angle": 60},
              "Another window: {width} times {height} is {area}. In {field}, straight on, it would catch {straight}. "
              "Tilted by {angle} it catches cos 60° = 0.5 of that: {answer}."),
    worked="The window's area is {width} times {height} = {area}. Straight on, it would catch {field} times that, "
           "{straight}. Tilted by {angle}, it catches that times the cosine: {answer}.",
    teaching_note="Hold a picture frame in the light of a lamp and turn it: the shadow shrinks with the cosine.")

ring_by_ring = NumberExercise(
    id="1.3", further=True, unit="uWb", tolerance=0.03, size=(0.4, 14), marks=2,
    given={},
    hidden={"peak": Given("peak", unit="mT", low=80, high=140, step=1),
            "spread": Given("spread", unit="mm", low=2.24, high=3.2, step=0.08)},
    derived={"width": Derived("width of every ring", unit="mm", decimals=2, formula=lambda spread: 2 * spread / RINGS),
             "radius": Derived("middle of the ring", unit="mm", decimals=2,
                               formula=lambda spread: (np.arange(RINGS) + 0.5) * 2 * spread / RINGS),
             "field": Derived("flux density there", unit="mT", decimals=1,
                              formula=lambda peak,
                              spread: peak * np.exp(-((np.arange(RINGS) + 0.5) * 2 / RINGS) ** 2))},
    answer=lambda width, radius, field: np.sum(field * 2 * math.pi * radius * width),
    fuller=lambda peak, spread: math.pi * spread ** 2 * peak * -math.expm1(-4),
    slips=(Slip("largest reading on all of the area",
                lambda width, field: np.max(field) * math.pi * (RINGS * width) ** 2,
                "You gave the whole disc the reading of its middle. Is the field as strong at its edge?"),
           Slip("plain mean on all of the area",
                lambda width, field: np.mean(field) * math.pi * (RINGS * width) ** 2,
                "In a plain mean every ring counts the same. Which ring has more area, the first or the last?"),
           Slip("two pi left out", lambda width, radius, field: np.sum(field * radius * width),
                "How long is a ring of radius r? A factor of 2π is still missing."),
           Slip("discs for rings", lambda radius, field: np.sum(field * math.pi * radius ** 2),
                "You added whole discs, each of which contains the smaller ones. How much area does the ring "
                "alone have?"),
           Slip("half the circumference", lambda width, radius, field: np.sum(field * math.pi * radius * width),
                "A factor of 2 is missing. Is the length of a ring π r or 2π r?"),
           Slip("one ring", lambda width, radius, field: field[0] * 2 * math.pi * radius[0] * width,
                "That is the innermost ring alone. The others bring more.")),
    common=("thousand", "million"),
    notes=("Take one ring first: its area is its length, 2π r, times its width. Its flux is B times that.",
           "Flux adds up: every ring brings B times its own area, and the outer rings have more area."),
    twin=Twin({"width": 0.5, "radius": [0.25, 0.75, 1.25, 1.75, 2.25, 2.75, 3.25, 3.75],
               "field": [100, 90, 80, 70, 60, 50, 40, 30]},
              "Another pole, rings {width} wide, from the inside out {field}. The first ring is 2π × 0.25 × 0.5 = "
              "0.785 mm² with 100 mT: 78.5 nWb. The last is 2π × 3.75 × 0.5 = 11.78 mm² with 30 mT: 353 nWb. "
              "All eight together: {answer}."),
    worked="Each ring's area is 2π r times {width}; its flux is that times its B (1 mT on 1 mm² is 1 nWb). Added up "
           "for the rings at {radius} with {field}: {answer}.",
    teaching_note="Let two groups add up the same table, one with the plain mean. The argument "
                  "about the result teaches it.")

rod_added_up = NumberExercise(
    id="1.8", unit="uWb", tolerance=0.03, size=(6, 22), marks=3,
    given={"width": Given("width of every ring of the face", unit="mm", low=0.28, high=0.34, step=0.01),
           "strip": Given("height of every strip of the wall", unit="mm", low=1.00, high=1.10, step=0.05)},
    hidden={"remanence": Given("remanence", unit="T", low=0.60, high=0.90, step=0.01)},
    derived={"radius": Derived("radius of the rod", unit="mm", decimals=2, formula=lambda width: RINGS * width),
             "ring": Derived("middle of the ring", unit="mm", decimals=3,
                             formula=lambda width: (np.arange(RINGS) + 0.5) * width),
             "out_of_face": Derived("B out of the face", unit="mT", decimals=1, formula=_out_of_face),
             "place": Derived("strip: middle above the rod's middle", unit="mm", decimals=3,
                              formula=lambda strip: (np.arange(STRIPS) + 0.5) * strip),
             "out_of_wall": Derived("B out of the wall", unit="mT", decimals=1, formula=_out_of_wall)},
    answer=lambda width, ring, out_of_face, radius, strip, out_of_wall:
        _by_face(width, ring, out_of_face) + _by_wall(radius, strip, out_of_wall),
    slips=(Slip("face left out", lambda radius, strip, out_of_wall: _by_wall(radius, strip, out_of_wall),
                "That is the wall alone. Is the surface closed without the face?"),
           Slip("wall left out", lambda width, ring, out_of_face: _by_face(width, ring, out_of_face),
                "That is the face alone. What came in through the middle and left before it reached the face?"),
           Slip("sign of the face", lambda width, ring, out_of_face, radius, strip, out_of_wall:
                _by_wall(radius, strip, out_of_wall) - _by_face(width, ring, out_of_face),
                "You subtracted the face. Does the flux of the face come out of the surface, or in?"),
           Slip("sign of the wall", lambda width, ring, out_of_face, radius, strip, out_of_wall:
                _by_face(width, ring, out_of_face) - _by_wall(radius, strip, out_of_wall),
                "You subtracted the wall. Does the flux of the wall come out of the surface, or in?"),
           Slip("flat strips", lambda width, ring, out_of_face, radius, strip, out_of_wall:
                _by_face(width, ring, out_of_face) + _by_wall(radius, strip, out_of_wall) / math.pi,
                "You took each strip as flat, as wide as the rod looks from the side. It goes round: how long is it?"),
           Slip("one side of the wall", lambda width, ring, out_of_face, radius, strip, out_of_wall:
                _by_face(width, ring, out_of_face) + _by_wall(radius, strip, out_of_wall) / 2,
                "Half of the wall's flux is missing. A strip goes all the way round: is that π R or 2π R?"),
           Slip("diameter round the wall", lambda width, ring, out_of_face, radius, strip, out_of_wall:
                _by_face(width, ring, out_of_face) + _by_wall(radius, strip, out_of_wall) * 2,
                "The wall's flux came out twice as large as it is. Is the way round it 2π R or 2π d?"),
           Slip("discs for strips", lambda width, ring, out_of_face, radius, out_of_wall:
                _by_face(width, ring, out_of_face) + np.sum(out_of_wall) * math.pi * radius ** 2,
                "You gave each strip the area of a whole disc. A strip is the wall of a very short tube."),
           Slip("two pi left out", lambda width, ring, out_of_face, radius, strip, out_of_wall:
                (_by_face(width, ring, out_of_face) + _by_wall(radius, strip, out_of_wall)) / (2 * math.pi),
                "A factor of 2π is missing: how long is a ring, and how long is a strip?"),
           Slip("flux densities added", lambda out_of_face, out_of_wall:
                (np.sum(out_of_face) + np.sum(out_of_wall)) * 1e-3,    # the sum in mT, typed as uWb
                "You added flux densities. Only fluxes add up: first give each reading its area.")),
    common=("thousand", "million"),
    steps={"by_face": Step("uWb", _by_face), "by_wall": Step("uWb", _by_wall),
           "around": Step("mm2", lambda radius, strip: 2 * math.pi * radius * strip)},
    notes=("Make two sums: the rings of the face with their different areas, and the strips of the wall, which all "
           "have the same area.",
           "Bottom, face and wall are one closed surface: what comes in through the middle is what goes out through "
           "face and wall, B times area, piece by piece."),
    twin=Twin({"width": 0.5, "radius": 4.0, "strip": 2.0, "ring": [0.25, 0.75, 1.25, 1.75, 2.25, 2.75, 3.25, 3.75],
               "out_of_face": [100, 100, 100, 100, 100, 110, 120, 150], "place": [1, 3, 5, 7, 9, 11, 13, 15],
               "out_of_wall": [2, 4, 8, 12, 18, 26, 40, 90]},
              "A thicker rod, {radius} in radius. Rings {width} wide have 2π r times that as their areas, from 0.785 "
              "to 11.8 mm²; times {out_of_face} they make {by_face}. Every strip, {strip} high, has 2π R times that = "
              "{around}; the readings {out_of_wall} add up to 200 mT, so the wall makes {by_wall}. Together {answer}."),
    worked="The rings of the face, each with the area 2π r times {width}, bring {by_face} together. Every strip of the "
           "wall has the area 2π R times {strip} = {around}; together they bring {by_wall}. So {answer} come in "
           "through the middle.",
    teaching_note="Two at a bench: one adds up the face, the other the wall. Then ask the class which share left by "
                  "the wall: every rod here gives nearly the same. The readings are of a rod as the library computes "
                  "it: their sum is its flux to within 0.1 %.")

under_the_clamp = FormulaExercise(
    id="1.13", asked="T", marks=2,
    symbols={"phi_middle": Symbol("flux through the middle", "uWb", 16, 22),
             "phi_face": Symbol("flux out of the face", "uWb", 4, 6),
             "phi_strips": Symbol("flux out of the strips that were read, together", "uWb", 5, 8),
             "R": Symbol("radius of the rod", "mm", 2, 4), "h": Symbol("height of the covered strip", "mm", 0.8, 1.6)},
    answer=lambda phi_middle, phi_face, phi_strips, R, h: (phi_middle - phi_face - phi_strips) / (2 * math.pi * R * h),
    written="(phi_middle - phi_face - phi_strips) / (2*pi*R*h)",
    slips=(Slip("face left out", lambda phi_middle, phi_strips, R, h: (phi_middle - phi_strips) / (2 * math.pi * R * h),
                "The flux of the middle leaves through wall *and* face. Which of the two is missing?"),
           Slip("strips left out", lambda phi_middle, phi_face, R, h: (phi_middle - phi_face) / (2 * math.pi * R * h),
                "Is all of what leaves through the wall under the clamp?"),
           Slip("sign of the face", lambda phi_middle, phi_face, phi_strips, R, h:
                (phi_middle + phi_face - phi_strips) / (2 * math.pi * R * h),
                "Which of the two comes into the closed surface, the flux of the middle or that of the face?"),
           Slip("all added", lambda phi_middle, phi_face, phi_strips, R, h:
                (phi_middle + phi_face + phi_strips) / (2 * math.pi * R * h),
                "You added what comes in to what goes out. What must all of it add up to?"),
           Slip("sign of the whole", lambda phi_middle, phi_face, phi_strips, R, h:
                (phi_face + phi_strips - phi_middle) / (2 * math.pi * R * h),
                "Let it go through with numbers: 10 come in, 3 and 4 go out. Does the rest go out or come in?"),
           Slip("flat strip", lambda phi_middle, phi_face, phi_strips, R, h:
                (phi_middle - phi_face - phi_strips) / (2 * R * h),
                "You took the strip as flat, as wide as the rod looks from the side. It goes round: how long is it?"),
           Slip("half the way round", lambda phi_middle, phi_face, phi_strips, R, h:
                (phi_middle - phi_face - phi_strips) / (math.pi * R * h),
                "A strip goes all the way round: is that π R or 2π R?"),
           Slip("disc for strip", lambda phi_middle, phi_face, phi_strips, R:
                (phi_middle - phi_face - phi_strips) / (math.pi * R ** 2),
                "That is divided by the area of a disc. The covered strip is the wall of a very short tube.")),
    notes=("First the flux that is missing, with its signs; then the area that it goes through.",
           "Over a closed surface the flux adds up to zero: what comes in through the middle goes out through face "
           "and wall.",
           "10 µWb come in, 3 leave through the face and 4 through the strips that were read: 3 are missing. On a "
           "strip 1 mm high round a rod of 2 mm radius, 2π × 2 × 1 = 12.6 mm², that is 0.24 T."),
    worked="What comes in through the middle and does not go out elsewhere goes out under the clamp: phi_middle − "
           "phi_face − phi_strips. The strip, cut open and laid flat, has the area 2π R h. So B is "
           "(phi_middle − phi_face − phi_strips)/(2π R h).",
    teaching_note="The principle without a table of numbers. Ask for the unit of each side first. Exercise 1.9 has the "
                  "numbers, for those who like them.")

covered_strip = NumberExercise(
    id="1.9", further=True, unit="mT", tolerance=0.03, size=(15, 180), marks=2,
    given={"radius": Given("radius of the rod", unit="mm", low=2.30, high=2.70, step=0.10),
           "strip": Given("height of every strip of the wall", unit="mm", low=1.00, high=1.10, step=0.05)},
    hidden={"remanence": Given("remanence", unit="T", low=0.60, high=0.90, step=0.01),
            "covered": Given("covered strip", unit="1", low=5, high=7, step=1)},
    derived={"middle": Derived("flux through the middle, by the loop", unit="uWb", decimals=3,
                               formula=_middle_flux),
             "face": Derived("flux out of the face, by its rings", unit="uWb", decimals=3, formula=_face_flux),
             "place": Derived("strip: middle above the rod's middle", unit="mm", decimals=3,
                              formula=lambda strip, covered: _seen((np.arange(STRIPS) + 0.5) * strip, covered)),
             "out_of_wall": Derived("B out of the wall", unit="mT", decimals=1,
                                    formula=lambda radius, strip, remanence, covered:
                                    _seen(_out_of_wall(radius, strip, remanence), covered))},
    answer=_covered,
    slips=(Slip("face left out", lambda radius, strip, middle, out_of_wall:
                _covered(radius, strip, middle, 0.0, out_of_wall),
                "The flux of the middle leaves through wall *and* face. Which of the two is missing?"),
           Slip("sign of the face", lambda radius, strip, middle, face, out_of_wall:
                _covered(radius, strip, middle, -face, out_of_wall),
                "You added the face to the middle. Which of the two comes into the closed surface, which goes out?"),
           Slip("flat strips", lambda radius, strip, middle, face, out_of_wall:
                (middle - face - _by_wall(radius, strip, out_of_wall) / math.pi) / (2 * radius * strip),
                "You took each strip as flat, as wide as the rod looks from the side. It goes round: how long is it?"),
           Slip("one side of the wall", lambda radius, strip, middle, face, out_of_wall:
                (middle - face - _by_wall(radius, strip, out_of_wall) / 2) / (math.pi * radius * strip),
                "A strip goes all the way round: is that π R or 2π R?"),
           Slip("one side, of the missing strip alone", lambda radius, strip, middle, face, out_of_wall:
                2 * _covered(radius, strip, middle, face, out_of_wall),
                "The flux is right. It leaves all the way round: which area does it have?"),
           Slip("mean of its neighbours", lambda place, out_of_wall: _between_neighbours(place, out_of_wall),
                "That is half-way between the strips beside it. B does not grow evenly up the wall: what must all the "
                "fluxes add up to?"),
           Slip("flux in microweber", lambda radius, strip, middle, face, out_of_wall: 1e3 * (
                middle - face - _by_wall(radius, strip, out_of_wall)), "That is the strip's flux. " + TWO_QUANTITIES),
           Slip("flux in nanoweber", lambda radius, strip, middle, face, out_of_wall: 1e6 * (
                middle - face - _by_wall(radius, strip, out_of_wall)), "That is the strip's flux. " + TWO_QUANTITIES)),
    common=("thousand", "million"),
    steps={"around": Step("mm2", lambda radius, strip: 2 * math.pi * radius * strip),
           "others": Step("uWb", _by_wall),
           "missing": Step("uWb", lambda radius, strip, middle, face, out_of_wall:
                           middle - face - _by_wall(radius, strip, out_of_wall))},
    notes=("First the flux: what comes in through the middle, less what is known to go out. The area comes last.",
           "Over a closed surface the flux adds up to zero. So the covered strip lets out what is missing."),
    twin=Twin({"radius": 4.0, "strip": 2.0, "middle": 16.0, "face": 6.0, "place": [1, 3, 5, 7, 9, 11, 15],
               "out_of_wall": [2, 4, 8, 12, 18, 26, 90]},
              "A thicker rod: {middle} come in, {face} leave through the face. Every strip has 2π R times {strip} = "
              "{around}; seven of them, with 160 mT in all, let out {others}. What is missing is {missing}; on "
              "{around} that makes {answer}."),
    worked="Every strip has the area 2π R times {strip} = {around}; the seven strips that were read let out {others}. "
           "With {face} out of the face and {middle} in through the middle, {missing} are missing. On {around} that "
           "is {answer}.",
    teaching_note="Who reads between the neighbours is a tenth to nearly a half too high: B grows faster and faster up "
                  "the wall. A loop that is pulled off the rod gives the flux of the middle: lesson 4.")

falling_ratio = NumberExercise(
    id="1.4", further=True, unit="1", tolerance=0.02, size=(0.04, 0.9),
    given={"diameter": Given("diameter of the rod", unit="mm", low=4.8, high=5.2, step=0.05),
           "length": Given("length of the rod", unit="mm", low=14, high=18, step=0.5),
           "near": Given("near reading, height", unit="mm", low=1.0, high=1.6, step=0.1),
           "far": Given("far reading, height", unit="mm", low=4.0, high=6.0, step=0.1)},
    answer=lambda diameter, length, near, far: _even(far, diameter, length) / _even(near, diameter, length),
    slips=(Slip("one over distance", lambda near, far: near / far, POWER_LAW),
           Slip("inverse square", lambda near, far: (near / far) ** 2, POWER_LAW),
           Slip("inverse cube", lambda near, far: (near / far) ** 3, POWER_LAW),
           Slip("diameter for radius",
                lambda diameter, length, near,
                far: _even(far, 2 * diameter, length) / _even(near, 2 * diameter, length),
                "R in the formula is the radius. What is given?"),
           Slip("upside down",
                lambda diameter, length, near, far: _even(near, diameter, length) / _even(far, diameter, length),
                "Further away the field is weaker. Which reading goes above the line?"),
           Slip("read off the panel", lambda near, far: _house(far) / _house(near),
                "That is what the panel's magnet gives. The rod of this question is "
                "evenly magnetised: use the formula."),
           Slip("first fraction alone",
                lambda diameter, length, near, far: (_first(far, diameter, length) / _first(near, diameter, length)),
                "The bracket holds two fractions. What does the second one, z/√(z² + R²), take away?"),
           Slip("second fraction alone",
                lambda diameter, near, far: _second(far, diameter) / _second(near, diameter),
                "The bracket holds two fractions. The first, with L + z, is missing.")),
    steps={"at_near": Step("1", lambda diameter, length, near: _even(near, diameter, length)),
           "at_far": Step("1", lambda diameter, length, far: _even(far, diameter, length))},
    notes=("Work out the bracket of the formula once for each height, with R = half "
           "the diameter. Millimetres are fine.",
           "The remanence is a factor of both readings and cancels. What remains is one bracket divided by the "
           "other."),
    twin=Twin({"diameter": 4.0, "length": 10, "near": 2.0, "far": 6.0},
              "Another rod, {diameter} across and {length} long, R = 2 mm. At 2 mm the bracket is 12/√(12² + 2²) − "
              "2/√(2² + 2²) = {at_near}; at 6 mm it is 16/√(16² + 2²) − 6/√(6² + 2²) = {at_far}. Their ratio is "
              "{answer}."),
    worked="With R = half of {diameter} and L = {length}, the bracket is {at_near} at {near} and {at_far} at {far}. "
           "The ratio is {answer}.",
    teaching_note="Students who trust a power law get 1.02 to 1.80, 0.23 to 0.52 or 0.04 to 0.21 times the right "
                  "ratio. Ask where the point would be from which the distance is counted.")

five_places = OrderExercise(
    id="1.11",
    options={"a": "in the middle of the rod",
             "b": "in the air, just above the middle of its top face",
             "c": "in the air, just below the middle of its bottom face",
             "d": "in the air, on the axis, a rod's length above the top face",
             "e": "in the air, a rod's length to the side of the wall, halfway up"},
    right="b = c > d > e > a",
    slips=(Slip("by magnitude", "b = c > a > d > e",
                "That is by magnitude. A value that points downwards is below zero: where does it go?"),
           Slip("H like B", "a > b", "That is where B is largest. Inside, the material's J is taken away: which way "
                                     "does H point there?"),
           Slip("H like B, further up", "a > d", "Inside, the material's J is taken away from B: which way does H "
                                                 "point there, and is that above or below zero?"),
           Slip("down below the south pole", "b > c", "Hold the compass below the south pole. Does its needle point "
                                                      "towards the rod, or away from it?"),
           Slip("up at the south pole alone", "c > b", "The rod is the same seen from both ends. Is H stronger at one "
                                                       "of its faces?"),
           Slip("up beside the rod", "e > d", "Beside the rod the needle points the other way. Is H above or below "
                                              "zero there?"),
           Slip("the stronger one first", "a > e", "Both point downwards. Where is H stronger, and which of the two "
                                                   "numbers is then the lower one?")),
    notes=("First the signs: at which places does H point upwards? Then the magnitudes.",
           "In air, H points as the compass needle does; inside the rod it points against B. It is strong at the "
           "faces and weak far away.",
           "Temperatures of 5, −1 and −20 degrees are in this order, although −20 is the furthest from zero."),
    worked="Upwards: just above the top face, and just below the bottom face as well, where the needle points towards "
           "the south pole. The rod is the same seen from both ends, so these two are equal. Far above it is weak. "
           "Downwards: beside the rod, weak because it is far, and inside, where it is strong. So {order}.",
    teaching_note="B at the same places has the middle of the rod first. Let them write both orders side by side: "
                  "only the place inside changes its rank. On the real alloy the order is the same: −50 instead of "
                  "−26 kA/m in the middle.")

oersted = NumberExercise(
    id="1.5", further=True, unit="kA/m", tolerance=0.01, size=(10, 250),
    given={"coercivity": Given("coercivity of another alloy", unit="Oe", low=550, high=720, step=5)},
    answer=lambda coercivity: coercivity,
    slips=(Slip("sign", lambda coercivity: -coercivity,
                "The field does point backwards; but a data sheet gives a coercivity as "
                "a magnitude (no sign)."),),
    common=("oersted", "prefix", "ten", "hundred"), not_in=("Oe", "kOe"),
    notes=("Look at the line with 1 Oe: how many A/m is it? Then count the thousands.",
           "One oersted is 1000/(4π) A/m, about 80. So a few hundred oersted are some tens of kA/m."),
    twin=Twin({"coercivity": 1000}, "A stronger grade has {coercivity}: 1000 × 79.58 = 79 580 A/m = {answer}."),
    worked="{coercivity} times 79.58 A/m for each oersted is {answer}.",
    teaching_note="Older data sheets, and most people who wind coils, use oersted and gauss. In air, 1 Oe "
                  "corresponds to 1 G.")

inside_the_alloy = NumberExercise(
    id="1.6", further=True, unit="kA/m", tolerance=0.02, size=(-240, -12),
    given={"B": Given("flux density", unit="T", low=0.450, high=0.600, step=0.002)},
    # H from -43 to -49.3 kA/m: inside the coercivity of alnico 5, 51 kA/m
    hidden={"gap": Given("gap", unit="mT", low=54, high=62, step=1)},
    derived={"J": Derived("polarisation", unit="T", decimals=3, formula=lambda B, gap: B + gap)},
    answer=lambda B, J: (B - J) / MU_0,
    slips=(Slip("sign", lambda B, J: (J - B) / MU_0,
                "The magnitude is right. Inside the magnet H points against B. Which of B and J is larger?"),
           Slip("as in air", lambda B: B / MU_0, "That is true in air only. What does J take away?"),
           Slip("polarisation alone", lambda J: J / MU_0,
                "That is the magnetisation, J/μ₀. Where does B come in?"),
           Slip("sum", lambda B, J: (B + J) / MU_0,
                "B = μ₀ H + J: bring J to the other side. Which sign does it get there?"),
           # typed in kA/m: −0.057 for −57 mT, or −57
           Slip("constant left out, tesla", lambda B, J: (B - J) * 1e3, "That is μ₀ H, in tesla. One step is left."),
           Slip("constant left out, millitesla", lambda B, J: (B - J) * 1e6,
                "That is μ₀ H, in millitesla. One step is left.")),
    common=("prefix", "mu_0", "four pi"),
    steps={"difference": Step("mT", lambda B, J: B - J)},
    notes=("Solve B = μ₀ H + J for H first, with letters. Then put the numbers in.",
           "H is what is left when the material's contribution J is subtracted from B, divided by μ₀: "
           "H = (B − J)/μ₀."),
    twin=Twin({"B": 0.4, "J": 0.5},
              "Another place: {B} and {J}. B − J = {difference}, and −0.1/(4π·10⁻⁷) A/m is {answer}."),
    worked="B − J = {B} − {J} = {difference}. Divided by μ₀ = 4π·10⁻⁷ T m/A that is {answer}: against B.",
    teaching_note="The numbers are near those of the real alloy in a rod of this shape: H comes out at −43 to −49 "
                  "kA/m, near the coercivity.")

fridge_magnet = EstimateExercise(
    id="1.14", further=True, unit="uWb", factor=3, size=(1e-4, 1e6),
    given={"diameter": Given("diameter of the disc", unit="mm", low=18, high=24, step=1)},
    answer=lambda diameter: 0.1 * disc(diameter), because="0.1 T at the face, between 5 mT and 0.2 T, times its area",
    slips=(Slip("at the phone's limit", lambda diameter: 5e-3 * disc(diameter),
                "That is the flux at the flux density where the phone gives up. Is there more of it at the face, or "
                "less?"),
           Slip("the earth's field", lambda diameter: 50e-6 * disc(diameter),
                "That is what the earth's field sends through such a disc. What does the magnet have at its face?"),
           Slip("flux density in tesla", lambda: 0.1e-6, TWO_QUANTITIES)),
    common=("thousand", "million"),
    steps={"area": Step("mm2", disc), "likely": Step("uWb", lambda diameter: 0.1 * disc(diameter))},
    notes=("Two rough numbers make it: the area of the face, and the mean flux density there.",
           "Flux is flux density times area. The flux density is above what stops the phone, and below that at the "
           "face of the house magnet: nearer to the second than to the first."),
    twin=Twin({"diameter": 60}, "The magnet of a loudspeaker, {diameter} across, as a full disc, has {area}. With "
                                "0.1 T again, that is about {likely}."),
    worked="The face has {area}. The flux density there is above 5 mT, or the phone could read it. It is below the "
           "0.2 T of the house magnet's face: ferrite is weaker, and the disc is short. With 0.1 T: about {answer}. "
           "(For a disc of 20 mm the library has 33 µWb.) That is several times the flux of the house magnet's face, "
           "from a weaker material, because the face is so much larger.",
    teaching_note="Collect the reasons, not the numbers: who multiplies a flux density between 0.04 T and 0.2 T by the "
                  "area is within a factor of 3. Then let them compare with the 4 µWb of the house magnet's face.")

as_strong_as_the_earth = FormulaExercise(
    id="1.15", further=True, asked="m",
    symbols={"r_1": Symbol("first distance", "mm", 50, 90), "B_1": Symbol("the magnet's part there", "uT", 150, 700),
             "B_e": Symbol("flux density of the earth's field", "uT", 40, 60)},
    answer=lambda r_1, B_1, B_e: r_1 * (B_1 / B_e) ** (1 / 3), written="r_1 * (B_1/B_e)^(1/3)",
    slips=(Slip("inverse square", lambda r_1, B_1, B_e: r_1 * (B_1 / B_e) ** 0.5,
                "That would be the inverse-square law, of a single pole. Which law holds far from a small magnet?"),
           Slip("one over distance", lambda r_1, B_1, B_e: r_1 * B_1 / B_e,
                "Twice as far: is B half of what it was, or much less?"),
           Slip("cube for cube root", lambda r_1, B_1, B_e: r_1 * (B_1 / B_e) ** 3,
                "Twice as far makes an eighth of B. So how much further is it to an eighth of B: 512 times, or twice?"),
           Slip("upside down", lambda r_1, B_1, B_e: r_1 * (B_e / B_1) ** (1 / 3),
                "The magnet's part must still fall to that of the earth. Is that nearer or further away?")),
    notes=("Write the law twice, for both distances, and divide: one unknown is left.",
           "Far away B falls with the cube of the distance: B_1 r_1³ = B_e r³.",
           "400 µT at 10 cm, and 50 µT are asked: an eighth, so twice as far, 20 cm."),
    worked="B r³ is the same at both places: B_1 r_1³ = B_e r³. So r = r_1 (B_1/B_e)^(1/3).",
    teaching_note="A disc of 1.14, 20 mm wide, has 700 µT at 5 cm from its middle, so 50 µT at 5 cm × 14^(1/3) "
                  "= 12 cm. Nearer than that a phone's compass shows the magnet rather than north.")

closed_surface = TextExercise(
    id="1.7", further=True,
    rubric=((1, "The surface is closed: it has a bottom (or goes round the whole rod), and what leaves it came in "
                "there."),
            (1, "More leaves through the side of the upper half than through the end face."),
            (1, "A test that could fail: B along the normal, times area, summed for face and side, and compared.")),
    worked="A surface that works: a cylinder a little wider than the rod, from just above the face down to the middle "
           "of the rod, where it is closed by a flat disc that cuts through rod and air. Through the part of the disc "
           "inside the rod, flux comes in; through the cap and the wall it goes out, and some comes down again through "
           "the air part of the disc. The sum is zero. Of the house magnet's flux about two thirds (of the real alloy "
           "nearly three quarters) leave through the side wall of the upper half, the rest through the face. "
           "Test: move along the side with the probe flat on the wall, so that it reads the part of B that leaves; "
           "multiply each reading by the area of its strip, 2π r times its height; do the same ring by ring on the "
           "face; compare the two sums with each other.",
    teaching_note="Look for the bottom of the surface: most answers forget to close it. Best is a cup round the top "
                  "half whose bottom cuts the rod in its middle. For the second point, \"all of it at the end\" earns "
                  "nothing; the house magnet loses about two thirds through the side.")


TEACHING_NOTE = """
**Demonstration with real parts.** One rod magnet, a sheet of card, iron filings in a closed flat box, a gauss probe
on a ruler. First the prediction on paper: where does the flux leave? Then move along the side with the probe flat
against the wall. The reading near the end is not the only one. Then lift the probe from the face in steps of 1 mm (a
stack of card of known thickness) and draw the readings on double logarithmic paper. Find out first how deep in the
probe its chip sits: within 3 mm of the face, 2 mm more take away more than half of the reading. Cautions: implants,
pinching, splinters, swallowing; the lesson's box says it.

**What to ask.** "The flux through which surface?" each time someone says flux. "Where would you have to stand for
the inverse-square law?" "If H points down inside, what stops the magnet from demagnetising itself?" (lesson 2).

**What goes wrong.** Flux mistaken for flux density (half of the class, in the first hour). Areas changed from mm² to m²
with one step of 1000. All rings given the same weight. H drawn along B, because "field" means both. A picture of field
lines that leave only at the ends: let them count lines in the panel.
"""

EVENINGS = (Evening(
    aim="The total flux of a rod as a sum over its surface; flux, flux density and field strength kept apart.",
    on_the_table="One rod magnet, a gauss probe, a sheet of card, iron filings in a closed flat box, a compass; a can "
                 "whose lid comes off, as the closed surface.",
    stretches=(
        Stretch(minutes=7, what="The film of the compass, cautions, three quick questions.",
                ask="How often does the needle turn, and why twice?"),
        Stretch(minutes=12, what="Section 1: everyone predicts, then the panel, then the filings.",
                ask="Of ten lines through the middle: how many have left before the face?"),
        Stretch(minutes=9, what="Section 2: flux density, flux, the worked example, exercise 1.10.",
                ask="The flux through which surface?"),
        Stretch(minutes=11, what="Adding up, ring by ring: prediction, panel, the example with three rings.",
                ask="Which ring counts most, and does it have the strongest field?"),
        Stretch(minutes=16, what="The whole rod, added up: the example, which principle, 1.8 with two at a bench (one "
                                 "the face, one the wall), then 1.13 alone.",
                ask="Where is the bottom of the can, and what goes through it?"),
        Stretch(minutes=13, what="Section 4: prediction, panel, exercise 1.11.",
                ask="Which of B, H and J ends at the face?"),
        Stretch(minutes=2, what="The summary, read aloud by students.", ask="What was not clear?")),
    at_home="The further parts: numbers for a disc, a window, more rings and a covered strip (1.1, 1.2, 1.3, 1.9), "
            "how the field falls (section 3), H in an alloy, oersted, a phone as a probe (section 5), the open "
            "question."),)

TO_VOTE = (
    ToVote(
        question="A rod magnet is made twice as thick and twice as long, of the same alloy. Halfway up, B is as "
                 "before. The flux through its middle is ...",
        options={"a": "as before, because B is", "b": "twice as large", "c": "four times as large",
                 "d": "eight times as large"},
        right="c",
        because="Flux is B times area, and twice as thick means four times the cross-section. B alone does not tell "
                "the flux (a); the volume (d) does not come in.",
        twin=ToVote(
            question="The same B of 50 mT goes straight through two discs, of 2 mm and of 6 mm diameter. The larger "
                     "disc has ...",
            options={"a": "nine times the flux", "b": "three times the flux", "c": "the same flux",
                     "d": "a ninth of the flux"},
            right="a", because="The same B on nine times the area: nine times the flux.")),
    ToVote(
        question="A ring of wire with a flat soap film in it faces the north pole of a magnet. Somebody blows: the "
                 "film, still on its ring, bulges towards the pole, and its area doubles. The flux through it is "
                 "then ...",
        options={"a": "twice as large: the area has doubled", "b": "the same: the ring is the same",
                 "c": "larger: the field is stronger nearer to the pole", "d": "smaller: parts of it are oblique"},
        right="b",
        because="The flat film and the bulged one close a space between them, with only air in it. What goes into it "
                "through one film comes out through the other. Stronger field, more area and oblique parts make up for "
                "one another exactly.",
        twin=ToVote(
            question="5 µWb go through the cloth of an umbrella, from inside to outside. A flat sheet of paper is put "
                     "into the umbrella's rim and closes it. The flux through the paper is ...",
            options={"a": "less: its area is smaller", "b": "more: it is flat", "c": "5 µWb, wherever the magnet is",
                     "d": "5 µWb, unless the magnet is between cloth and paper"},
            right="c", because="Cloth and paper are a closed surface. What goes out through the cloth comes in through "
                               "the paper, also with a whole magnet inside: its flux comes back to it.")),
    ToVote(
        question="Halfway up a rod magnet on its own, with the north pole on top, H points ...",
        options={"a": "down, because it goes from north to south inside, too", "b": "up, because B does",
                 "c": "nowhere: all of the field there is B", "d": "sideways, out of the wall"},
        right="a",
        because="H = (B − J)/μ₀, and inside J is larger than B. B goes up, because its tubes close (b).",
        twin=ToVote(
            question="A rod magnet is on its side, its north pole to the right. In its middle ...",
            options={"a": "B and H point to the right", "b": "B and H point to the left",
                     "c": "B points to the left, H to the right", "d": "B points to the right, H to the left"},
            right="d", because="Inside, B goes from south to north, H from north to south.")))

LESSON = Lesson(
    id="01", title="The magnet and its flux", version=1, exercises=(
        cut_magnet, square_metre, half_as_long, where_it_leaves, five_loops, flux_through_disc, tilted_window,
        wider_disc, ring_by_ring, where_it_goes, rod_added_up, under_the_clamp, covered_strip, how_it_falls,
        falling_ratio, which_way_inside, five_places, inside_the_alloy, oersted, fridge_magnet, as_strong_as_the_earth,
        closed_surface),
    teaching_note=TEACHING_NOTE, evenings=EVENINGS, to_vote=TO_VOTE)
