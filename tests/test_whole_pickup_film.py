"""The film of the whole pickup is one period, and its lines follow the field."""
from dataclasses import replace

import numpy as np
import pytest
from numpy.testing import assert_allclose

from lessons_lib.lessons.string_lines import PoleInPickup, field_of
from lessons_lib.lessons.whole_pickup.film import PLACES, film, pale_lines
from lessons_lib.lessons.whole_pickup.parts import pickup_of, rod
from whole_settings import START, of


@pytest.mark.parametrize("changed", [{}, {"direction": 1.0, "aside": 1e-3}, {"form": "screws"}])
def test_the_film_is_one_period(changed):
    here, instants = of(**changed), film(replace(START, **changed), 24)
    assert len(instants) == 24 and instants[0]["time"] == 0.0
    assert instants[-1]["time"] == pytest.approx(here.period * 23 / 24)
    drawn = {id(instant["lines"]): instant["lines"] for instant in instants}
    assert 3 < len(drawn) <= PLACES
    for instant in instants:
        assert instant["height"] == pytest.approx(here.settings.height + instant["up"])
        away = np.hypot(*(instant["lines"][:, 0] - (instant["place"], instant["height"])))    # where a line begins
        way = np.hypot(np.ptp(here.up), np.ptp(here.across))
        assert away < 0.6 * way / (PLACES - 1) + 1.06 * here.settings.row["core"] / 2
    nearest = min(instants, key=lambda instant: instant["height"])
    if not changed.get("aside"):
        assert nearest["linkage"] == pytest.approx(max(instant["linkage"] for instant in instants), rel=0.02)


@pytest.mark.parametrize("form", ["screws", "rods"])
def test_lines_without_a_string_follow_the_field(form):
    settings = replace(START, form=form)
    y, z = pale_lines(settings)
    ahead = np.stack([np.diff(y), np.diff(z)], axis=-1)
    middle = np.stack([np.zeros(len(y) - 1), (y[1:] + y[:-1]) / 2, (z[1:] + z[:-1]) / 2], axis=-1)
    above = np.isfinite(ahead[:, 0]) & (middle[:, 2] > 0.5e-3)
    body = rod(settings) if form == "rods" else PoleInPickup(pickup_of(settings), settings.pole_number)
    field = body.flux_density(middle[above])[:, 1:]
    cosine = (ahead[above] * field).sum(-1) / np.linalg.norm(ahead[above], axis=-1) / np.linalg.norm(field, axis=-1)
    assert above.sum() > 100 and np.mean(np.abs(cosine) > 0.99) > 0.97


def test_a_pole_in_a_pickup_has_the_pickups_field_about_its_own_face():
    pickup = pickup_of(replace(START, form="screws"))
    pole = pickup.poles[3]
    points = np.array([[1e-3, 0.5e-3, 2e-3], [-4e-3, 3e-3, 4e-3], [6e-3, -5e-3, 1.3e-3]])
    exact = pickup.flux_density(points + (0.0, pole.y, 0.0))
    assert_allclose(field_of(PoleInPickup(pickup, 3), *points.T).T, exact, atol=0.04 * np.abs(exact).max())
