"""Shadows on cells against geometry done otherwise: rays from points, pvlib's rows, views of the sky."""

from random import Random

import numpy as np
import pytest
from pvlib import shading

from panewright.errors import SkyError
from panewright.sky.place import Plane
from panewright.sky.shadow.cast import CLEAR, DARK
from panewright.sky.shadow.pane import Pane
from panewright.sky.shadow.shade import Skyline, Surroundings, dome_share, shade, sun_vectors
from panewright.sky.shadow.things import Crown, Post, Slab, Wall, axes

MARCH = np.array([2])


def grid(columns, rows, size, gap=0.0):
    step = size + gap
    return tuple(
        (k * step, j * step, k * step + size, j * step + size) for j in range(rows) for k in range(columns)
    )


def shares_at(pane, things, zenith, azimuth, month=2):
    found = shade(
        pane, Surroundings(tuple(things)), np.array([zenith]), np.array([azimuth]), np.array([month])
    )
    if found.row[0] == CLEAR:
        return np.zeros(len(pane.cells_m))
    return np.ones(len(pane.cells_m)) if found.row[0] == DARK else found.shares[found.row[0]]


def lit_along(point, ray, thing, month):
    """Share of light that a ray from a point gets past a thing, by solid geometry."""
    if isinstance(thing, Crown):
        middle = np.array([thing.east_m, thing.north_m, thing.middle_m])
        half = np.array([thing.width_m, thing.width_m, thing.height_m]) / 2
        p, d = (point - middle) / half, ray / half
        b, c = p @ d, p @ p - 1
        return thing.lets_through[month] if b * b >= (d @ d) * c and b < 0 else 1.0
    if isinstance(thing, Post):
        flat = ray[:2] / np.hypot(*ray[:2])
        to = np.array([thing.east_m, thing.north_m]) - point[:2]
        along, aside = to @ flat, to @ np.array([-flat[1], flat[0]])
        height = point[2] + along * ray[2] / np.hypot(*ray[:2])
        return 0.0 if along > 0 and abs(aside) < thing.width_m / 2 and height < thing.height_m else 1.0
    plane = thing.plane if isinstance(thing, Slab) else None
    right, up, normal = axes(plane)
    t = (np.array(thing.corner_m) - point) @ normal / (ray @ normal)
    met = point + t * ray - np.array(thing.corner_m)
    inside = 0 < met @ right < thing.width_m and 0 < met @ up < thing.length_m
    return 0.0 if t > 0 and inside else 1.0


def by_rays(pane, things, zenith, azimuth, month, points=24):
    ray, (corner, right, up, normal) = sun_vectors(np.array([zenith]), np.array([azimuth]))[0], pane.frame
    if ray @ normal <= 0:
        return np.ones(len(pane.cells_m))
    at = (np.arange(points) + 0.5) / points
    found = []
    for x, y, a, b in pane.cells_m:
        lit = 0.0
        for u in at:
            for v in at:
                point = corner + (x + u * (a - x)) * right + (y + v * (b - y)) * up
                lit += np.prod([lit_along(point, ray, thing, month) for thing in things])
        found.append(1 - lit / points**2)
    return np.array(found)


@pytest.mark.parametrize("seed", range(10))
def test_shares_are_those_of_rays_from_many_points(seed):
    chance = Random(seed)
    pane = Pane(
        (0.0, 0.0, 1.0), Plane(chance.uniform(5, 70), chance.uniform(140, 220)), grid(2, 3, 0.5, gap=0.01)
    )
    through = tuple(chance.uniform(0.2, 0.9) for _ in range(12))
    things = [
        Post(chance.uniform(-1, 1.5), chance.uniform(-2.5, -1), 4.0, 0.3),
        Crown(chance.uniform(-1, 2), chance.uniform(-5, -3), 3.5, 1.5, 2.5, through),
        Slab((chance.uniform(-1, 0.5), -2.0, 1.2), Plane(40, 170), 0.8, 1.1),
    ]
    for _ in range(4):
        zenith, azimuth, month = chance.uniform(15, 75), chance.uniform(130, 230), chance.randrange(12)
        got = shares_at(pane, things, zenith, azimuth, month)
        assert got == pytest.approx(by_rays(pane, things, zenith, azimuth, month), abs=0.05)


def test_a_posts_shadow_is_as_long_as_it_must_be():
    """A post of 2 m under a sun 45 degrees high throws a shadow of 2 m."""
    pane = Pane(
        (-0.05, 0.0, 0.0), Plane(0, 180), tuple((0.0, k * 0.1, 0.1, k * 0.1 + 0.1) for k in range(40))
    )
    got = shares_at(pane, [Post(0.0, -0.001, 2.0, 0.04)], 45.0, 180.0)
    assert got[:19] == pytest.approx(0.4, abs=1e-9)
    assert got[21:] == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize(("zenith", "azimuth"), [(60, 180), (72, 200), (80, 165), (30, 180), (76, 230)])
def test_the_row_in_front_shades_what_pvlib_says(zenith, azimuth):
    """pvlib.shading.shaded_fraction1d: K. Anderson, A. Jensen, Shaded fraction and backtracking in
    single-axis trackers on rolling terrain, J. Renewable Sustainable Energy 16, 2024."""
    tilt, length, pitch = 35.0, 2.0, 3.5
    plane = Plane(tilt, 180)
    cells = tuple((0.0, k * length / 50, 1.0, (k + 1) * length / 50) for k in range(50))
    row = Slab((-400.0, -pitch, 0.0), plane, 800.0, length)
    got = shares_at(Pane((0.0, 0.0, 0.0), plane, cells), [row], zenith, azimuth).mean()
    asked = shading.shaded_fraction1d(
        zenith, azimuth, axis_azimuth=90, shaded_row_rotation=tilt, collector_width=length, pitch=pitch
    )
    assert got == pytest.approx(float(asked), abs=2e-3)


def test_a_long_wall_hides_as_much_sky_as_its_angle():
    """View of the sky past a horizon raised by m before a plane tilted by t: (1 + cos(t + m)) / 2, against
    (1 + cos t) / 2: Duffie and Beckman, chapter 2, isotropic sky (geometry)."""
    tilt, height = 40.0, 3.0
    pane = Pane((0.0, 0.0, 0.0), Plane(tilt, 180), ((-0.01, 0.0, 0.01, 0.01),))
    wall = Wall((-3000.0, -5.0), (3000.0, -5.0), height)
    mask = np.degrees(np.arctan2(height, 5.0))
    asked = (1 + np.cos(np.radians(tilt + mask))) / (1 + np.cos(np.radians(tilt)))
    assert dome_share(pane, Surroundings((wall,)), 0)[0] == pytest.approx(asked, abs=0.01)


def test_an_open_site_gets_the_whole_dome():
    pane = Pane((0.0, 0.0, 0.0), Plane(30, 180), grid(3, 2, 0.16))
    assert dome_share(pane, Surroundings(), 5) == pytest.approx(np.ones(6))


def test_below_the_skyline_all_is_dark():
    pane, around = (
        Pane((0.0, 0.0, 0.0), Plane(30, 180), grid(1, 1, 0.1)),
        Surroundings((), Skyline(((90, 20), (180, 5), (270, 10)))),
    )
    zenith = np.array([75.0, 75.0, 86.0])
    found = shade(pane, around, zenith, np.array([90.0, 180.0, 180.0]), np.zeros(3, dtype=np.int64))
    assert found.row.tolist() == [DARK, CLEAR, DARK]


def test_a_sun_behind_the_panel_leaves_it_dark():
    pane = Pane((0.0, 0.0, 0.0), Plane(60, 180), grid(1, 1, 0.1))
    assert shares_at(pane, [Post(0, -1, 2, 0.1)], 80.0, 0.0).tolist() == [1.0]


def test_what_stands_behind_the_panel_throws_no_shadow_on_it():
    pane = Pane((0.0, 0.0, 0.0), Plane(30, 180), grid(2, 2, 0.16))
    assert shares_at(pane, [Post(0.1, 3.0, 9.0, 2.0)], 40.0, 180.0).tolist() == [0.0] * 4


def test_bare_twigs_let_more_through_in_winter():
    leaves = (0.6, 0.6, 0.5, 0.3, 0.2, 0.1, 0.1, 0.1, 0.2, 0.4, 0.6, 0.6)
    pane = Pane((0.0, 0.0, 0.0), Plane(30, 180), grid(1, 1, 0.1))
    crown = Crown(0.0, -3.0, 3.0, 4.0, 4.0, leaves)
    for month, through in enumerate(leaves):
        assert shares_at(pane, [crown], 45.0, 180.0, month)[0] == pytest.approx(1 - through)


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        (lambda: Post(0, 0, 0.0, 0.1), "height"),
        (lambda: Crown(0, 0, 3, 2, 2, (0.5,) * 11), "each month"),
        (lambda: Wall((0, 0), (0, 0), 2.0), "length"),
        (lambda: Skyline(((400, 10),)), "skyline"),
        (lambda: Skyline(((10, 10), (10, 20))), "twice"),
        (lambda: Pane((0, 0, 0), Plane(30, 180), ((0, 0, 0, 1),)), "width and a height"),
    ],
)
def test_what_cannot_stand_is_refused(wrong, said):
    with pytest.raises(SkyError, match=said):
        wrong()
