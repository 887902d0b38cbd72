"""A year of an array: alike panels beside a plain year of an open library, unlike ones by what must hold."""

from pathlib import Path

import numpy as np
import pvlib
import pytest

from invented_panels import CELL, Made
from panewright.array.member import Member
from panewright.array.moments import moments
from panewright.array.wiring import Input, Row
from panewright.array.year import CAUSES, Span, year_of
from panewright.intake.weather.weather import read_weather
from panewright.sky.place import Plane
from panewright.sky.shadow.pane import Pane
from panewright.sky.shadow.shade import Skyline, Surroundings
from panewright.sky.shadow.things import Post

FILE = Path(pvlib.__file__).parent / "data" / "723170TYA.CSV"  # Greensboro, TMY3, carried by pvlib
TILT, DIRT = 30.0, 0.02
CELLS = tuple((0.02 + 0.16 * (k // 6), 0.02 + 0.16 * (k % 6)) for k in range(36))
SHAPES = tuple((x, y, x + 0.156, y + 0.156) for x, y in CELLS)
OPEN = Surroundings()


@pytest.fixture(scope="module")
def hours():
    return read_weather(FILE.read_bytes(), FILE.name)


def member(made, number, width=1.1):
    pane = Pane((number * width, 0.0, 0.5), Plane(TILT, 180), SHAPES)
    return Member(f"P{number}", made.law(), pane, 150.0)


ALIKE = tuple(member(Made(36, 2, scatter=0.0), number) for number in range(4))
UNLIKE = tuple(member(Made(36, 2, seed=number), number) for number in range(4))
TWO_BY_TWO = (Input((Row((0, 1), 0.05), Row((2, 3), 0.05)), 0.02),)
SPANS = (Span(10.0, 200.0, (24.0, 28.0, 32.0)),)


def plain_year_kwh(hours):
    """Four alike panels of 36 cells by pvlib alone: its sun, sky, face, heat and single diode."""
    when = pvlib.iotools.read_tmy3(FILE, coerce_year=1990, map_variables=True)[0].index
    middles = when - (when[0] - when[0].floor("D")) + np.timedelta64(30, "m")
    place = pvlib.location.Location(
        hours.place.latitude_deg, hours.place.longitude_deg, tz="Etc/GMT+5", altitude=273
    )
    sun = place.get_solarposition(middles)
    extra = pvlib.irradiance.get_extra_radiation(middles.day_of_year.to_numpy())
    zenith, azimuth = sun["apparent_zenith"].to_numpy(), sun["azimuth"].to_numpy()
    kinds = (hours.direct_w_m2, hours.level_w_m2, hours.diffuse_w_m2)
    sky = pvlib.irradiance.haydavies(
        TILT, 180, kinds[2], kinds[0], extra, zenith, azimuth, return_components=True
    )
    angle = pvlib.irradiance.aoi(TILT, 180, zenith, azimuth)
    beam = np.maximum(np.cos(np.radians(angle)), 0) * kinds[0]
    ground = pvlib.irradiance.get_ground_diffuse(TILT, kinds[1], 0.2)
    spread = pvlib.iam.marion_diffuse("physical", TILT)
    slant = np.nan_to_num(pvlib.iam.physical(angle))
    dome, halo = np.asarray(sky["poa_isotropic"]), np.asarray(sky["poa_circumsolar"])
    plane = beam + dome + halo + ground
    clean = (1 - DIRT) * ((beam + halo) * slant + dome * spread["sky"] + ground * spread["ground"])
    heat = pvlib.temperature.faiman(plane, hours.air_c, hours.wind_m_s)
    return 4 * best_w(np.maximum(clean, 0.0), heat).sum() / 1000


def best_w(light, heat):
    stc, t, lit = CELL.stc, heat + 273.15, light > 1
    growth = (t / 298.15) ** 3 * np.exp(CELL.gap_ev / 8.617333262e-5 * (1 / 298.15 - 1 / t))
    isc = pvlib.pvsystem.i_from_v(
        0, stc.light_a, stc.saturation_a, stc.series_ohm, stc.shunt_ohm, stc.ideality_v
    )
    photo = light / 1000 * (stc.light_a + CELL.isc_per_k * isc * (heat - 25))
    shunt = 1 / (light / 1000 / stc.shunt_ohm + stc.breakdown_siemens)  # in forward the breakdown term leaks
    copper = 1 + 0.00393 * (heat - 25)
    series = 36 * stc.series_ohm + copper * (36 * 0.001 + 0.02) + 0.01
    found = pvlib.pvsystem.max_power_point(
        photo[lit],
        (stc.saturation_a * growth)[lit],
        series[lit],
        36 * shunt[lit],
        36 * (stc.ideality_v * t / 298.15)[lit],
    )
    return np.asarray(found["p_mp"])


@pytest.fixture(scope="module")
def alike(hours):
    return year_of(hours, OPEN, ALIKE, (Input((Row((0, 1)), Row((2, 3)))),), SPANS)


def test_alike_panels_in_the_open_give_the_plain_year_of_an_open_library(hours, alike):
    """pvlib 0.16, single diode after De Soto 2006: within 0.3 %, as asked of the uniform case."""
    assert alike.kwh == pytest.approx(plain_year_kwh(hours), rel=3e-3)


def test_alike_panels_lose_nothing_together(alike):
    lost = alike.lost_kwh()
    assert lost["together"].sum() == pytest.approx(0.0, abs=2e-4 * alike.kwh)
    assert lost["wire"].sum() == pytest.approx(0.0, abs=1e-6)
    assert lost["shade"].sum() == pytest.approx(0.0, abs=1e-9)


@pytest.fixture(scope="module")
def shaded(hours):
    heard = []
    around = Surroundings((Post(1.6, -1.2, 3.0, 0.12),), Skyline(((90, 12), (180, 2), (270, 8))))
    return year_of(hours, around, UNLIKE, TWO_BY_TWO, SPANS, heard.append), heard, around


def test_causes_and_what_is_left_make_the_light_in_every_month(shaded):
    year = shaded[0]
    lost = year.lost_kwh()
    assert tuple(lost) == CAUSES
    light = year.hours.by_month(year.light_w.sum(axis=1)) / 1000
    assert sum(lost.values()) + year.month_kwh() == pytest.approx(light, rel=1e-12)
    for cause in ("slant", "dirt", "shade", "together", "wire"):
        assert (lost[cause] > 0).all(), cause


def test_energy_closes_in_every_hour(shaded):
    """Panels' watts, less what the strings' and the run's wires take, are the input's, hour by hour."""
    year = shaded[0]
    wires = year.panel_w.sum(axis=1) - year.input_w.sum(axis=1)
    assert (wires >= -1e-9 * 600).all()
    again = year_of(year.hours, shaded[2], UNLIKE, (Input((Row((0, 1)), Row((2, 3)))),), SPANS)
    assert again.panel_w.sum(axis=1) == pytest.approx(again.input_w.sum(axis=1), abs=1e-9 * 600)


def test_progress_is_told_and_ends_at_all(shaded):
    heard = shaded[1]
    assert heard == sorted(heard)
    assert heard[-1] == pytest.approx(1.0)
    assert len(heard) > 10


def test_a_posts_shadow_costs_more_than_its_share_of_the_light(shaded):
    """A string gives what its dimmest cell lets pass: the usual lesson, common practice, no source."""
    year = shaded[0]
    lost = year.lost_kwh()["shade"].sum() + year.lost_kwh()["together"].sum()
    assert lost > 0.01 * year.kwh


def test_hours_are_parted_only_while_a_shadow_moves(hours, shaded):
    lit = np.count_nonzero(hours.level_w_m2 > 0.5)
    assert moments(hours, OPEN, UNLIKE).hour.size == lit
    at = moments(hours, shaded[2], UNLIKE)
    assert lit < at.hour.size < 4 * lit
    assert np.bincount(at.hour, weights=at.share, minlength=8760)[hours.level_w_m2 > 0.5] == pytest.approx(
        1.0
    )


def test_a_panel_left_out_gives_nothing(hours):
    year = year_of(hours, OPEN, UNLIKE, (Input((Row((0, 1)),)),), SPANS)
    assert year.panel_w[:, 2:].sum() == 0
    assert year.light_w[:, 2:].sum() > 0
    whole = year_of(hours, OPEN, UNLIKE, (Input((Row((0, 1)), Row((2, 3)))),), SPANS)
    assert year.alone_w.sum(axis=0) == pytest.approx(whole.alone_w.sum(axis=0), rel=1e-3)
    lost, others = year.lost_kwh(), whole.lost_kwh()
    assert lost["heat"].sum() == pytest.approx(others["heat"].sum(), rel=1e-2)  # what is missing is no heat
    assert lost["together"].sum() > year.alone_w[:, 2:].sum() / 1000


def test_circuit_and_pane_must_have_the_same_cells():
    with pytest.raises(ValueError, match="36 cells in its circuit, 35 on it"):
        Member("P9", Made(36, 2).law(), Pane((0, 0, 0), Plane(30, 180), SHAPES[:35]), 150.0)
