"""How a stand should be turned: beside a search by pvlib alone, and what everybody knows of the sun."""

from pathlib import Path

import numpy as np
import pvlib
import pytest

from invented_panels import Made
from panewright.array.member import Member
from panewright.array.turned import turns_of
from panewright.array.wiring import Input, Row
from panewright.array.year import Span, year_of
from panewright.intake.weather.weather import read_weather
from panewright.sky.hours import MONTH_DAYS
from panewright.sky.made.clear_year import clear_year
from panewright.sky.place import Air, Place, Plane
from panewright.sky.shadow.pane import Pane
from panewright.sky.shadow.shade import Skyline, Surroundings

FILE = Path(pvlib.__file__).parent / "data" / "723170TYA.CSV"  # Greensboro, TMY3, carried by pvlib
MADE = Made(36, 2, scatter=0.0)
LAW = MADE.law()
SHAPES = tuple(
    (0.16 * (k // 6), 0.16 * (k % 6), 0.16 * (k // 6) + 0.15, 0.16 * (k % 6) + 0.15) for k in range(36)
)
OPEN = Surroundings()
EAST_HILL = Surroundings((), Skyline(((0, 0), (80, 40), (150, 15), (180, 0))))


def stand(tilt=15.0, azimuth=140.0, count=1):
    plane = Plane(tilt, azimuth)
    return [Member(f"P{k}", LAW, Pane((1.1 * k, 0, 0.5), plane, SHAPES), 150.0) for k in range(count)]


def clear(latitude):
    return clear_year(Place(latitude, 0.0), (15.0,) * 12, air=Air(turbidity=3.0))


@pytest.fixture(scope="module")
def hours():
    return read_weather(FILE.read_bytes(), FILE.name)


@pytest.fixture(scope="module")
def found(hours):
    return turns_of(hours, OPEN, stand())


class Plain:
    """A year by pvlib alone: Hay-Davies, plain glass on the beam, Faiman, 0.45 % a kelvin."""

    def __init__(self, hours):
        when = pvlib.iotools.read_tmy3(FILE, coerce_year=1990, map_variables=True)[0].index
        middles = when - (when[0] - when[0].floor("D")) + np.timedelta64(30, "m")
        place = pvlib.location.Location(hours.place.latitude_deg, hours.place.longitude_deg, altitude=273)
        self.sun, self.hours = place.get_solarposition(middles), hours
        self.extra = pvlib.irradiance.get_extra_radiation(middles.day_of_year.to_numpy())

    def months_kwh(self, tilt, azimuth):
        zenith, round_about = (self.sun[name].to_numpy() for name in ("apparent_zenith", "azimuth"))
        light = pvlib.irradiance.get_total_irradiance(
            tilt, azimuth, zenith, round_about, self.hours.direct_w_m2, self.hours.level_w_m2,
            self.hours.diffuse_w_m2, self.extra, model="haydavies", albedo=0.2,
        )  # fmt: skip
        slant = pvlib.iam.physical(pvlib.irradiance.aoi(tilt, azimuth, zenith, round_about))
        seen = light["poa_direct"] * slant + light["poa_diffuse"] * 0.95
        heat = pvlib.temperature.faiman(light["poa_global"], self.hours.air_c, self.hours.wind_m_s)
        return self.hours.by_month(0.15 * seen * (1 - 0.0045 * (heat - 25)) / 1000)

    def kwh(self, tilt, azimuth):
        return self.months_kwh(tilt, azimuth).sum()


@pytest.fixture(scope="module")
def plain(hours):
    return Plain(hours)


def test_no_plane_of_a_search_by_an_open_library_gives_more(found, plain):
    """Every third degree of tilt and every fourth of azimuth: ours is within 0.1 % of the best of them."""
    searched = {(t, a): plain.kwh(t, a) for t in range(22, 44, 3) for a in range(164, 200, 4)}
    best = max(searched, key=searched.__getitem__)
    assert plain.kwh(found.tilt_deg, found.azimuth_deg) > 0.999 * searched[best]
    assert found.tilt_deg == pytest.approx(best[0], abs=3)
    assert found.azimuth_deg == pytest.approx(best[1], abs=5)


def test_what_turning_brings_is_what_the_open_library_says(found, plain):
    gain = plain.kwh(found.tilt_deg, found.azimuth_deg) / plain.kwh(15, 140)
    assert 1 + found.gain_share == pytest.approx(gain, abs=4e-3)


def test_the_best_tilt_at_the_azimuth_as_it_is(found, plain):
    searched = {t: plain.kwh(t, 140) for t in range(0, 61, 2)}
    assert found.held_tilt_deg == pytest.approx(max(searched, key=searched.__getitem__), abs=3)
    assert found.now_kwh < found.held_kwh < found.kwh


@pytest.mark.parametrize("count", [1, 3])
def test_at_the_best_plane_the_full_year_gives_as_much(hours, count, found):
    panels = stand(found.tilt_deg, found.azimuth_deg, count)
    inputs = tuple(Input((Row((k,)),)) for k in range(count))
    year = year_of(hours, OPEN, panels, inputs, (Span(),) * count)
    assert year.kwh == pytest.approx(count * found.kwh, rel=1e-3)


@pytest.mark.parametrize(("latitude", "looks"), [(40.0, 180), (-35.0, 0), (60.0, 180)])
def test_under_a_clear_sky_it_looks_to_the_noon_sun_some_degrees_flatter_than_the_latitude(latitude, looks):
    """Tilt is about the latitude, common practice; flatter, for summer days are long."""
    told = turns_of(clear(latitude), OPEN, stand())
    assert abs(latitude) - 14 <= told.tilt_deg <= abs(latitude) + 2
    assert (told.azimuth_deg - looks + 180) % 360 - 180 == pytest.approx(0, abs=4)


def test_at_the_equator_it_lies_flat():
    told = turns_of(clear(0.0), OPEN, stand(30.0, 180.0))
    assert told.tilt_deg <= 3
    assert told.gain_share > 0.05


@pytest.mark.parametrize("count", ["seasons", "quarters"])
def test_seasons_share_the_months_and_winter_is_the_steeper(found, count):
    parted = getattr(found, count)
    assert sorted(month for season in parted for month in season.months) == list(range(1, 13))
    of = {month: season.tilt_deg for season in parted for month in season.months}
    assert of[12] > found.tilt_deg > of[6]


def test_more_tilts_a_year_bring_more_and_each_what_the_open_library_says(found, plain):
    two, four = (sum(season.kwh for season in each) for each in (found.seasons, found.quarters))
    assert found.kwh < two < four
    by_month = {t: plain.months_kwh(t, found.azimuth_deg) for t in range(0, 91, 3)}
    once = max(sum(each) for each in by_month.values())
    for parted, ours in ((found.seasons, two), (found.quarters, four)):
        theirs = sum(
            max(each[np.array(season.months) - 1].sum() for each in by_month.values()) for season in parted
        )
        assert ours / found.kwh == pytest.approx(theirs / once, abs=3e-3)


def test_no_other_parting_of_the_year_in_two_brings_more(found, plain):
    by_month = np.array([plain.months_kwh(t, found.azimuth_deg) for t in range(0, 91, 5)])

    def brings(months):
        inside = np.isin(np.arange(12), [(m - 1) % 12 for m in months])
        return by_month[:, inside].sum(axis=1).max() + by_month[:, ~inside].sum(axis=1).max()

    searched = [brings(range(first, first + long)) for first in range(1, 13) for long in range(1, 12)]
    assert brings(found.seasons[0].months) > 0.998 * max(searched)


def test_the_worst_month_has_most_on_the_plane_for_it(found, plain):
    days = np.array(MONTH_DAYS)
    searched = [(plain.months_kwh(t, a) / days).min() for t in range(25, 85, 6) for a in range(160, 205, 8)]
    ours = (plain.months_kwh(found.dull.tilt_deg, found.dull.azimuth_deg) / days).min()
    assert ours > 0.99 * max(searched)
    assert found.dull.kwh_day > found.dull.now_kwh_day
    assert found.dull.tilt_deg > found.tilt_deg
    assert found.dull.kwh < found.kwh


def test_a_hill_in_the_east_turns_it_west(hours, found):
    told = turns_of(hours, EAST_HILL, stand())
    assert told.azimuth_deg > found.azimuth_deg + 8
    assert told.kwh < found.kwh


def test_a_stand_that_is_turned_best_gains_nothing(hours, found):
    told = turns_of(hours, OPEN, stand(found.tilt_deg, found.azimuth_deg, 2))
    assert told.gain_share == pytest.approx(0.0, abs=1e-4)
    assert told.gain_share >= 0
    assert told.kwh == pytest.approx(2 * found.kwh, rel=1e-4)


def test_beyond_the_polar_circle_the_months_without_sun_do_not_count():
    told = turns_of(clear(72.0), OPEN, stand())
    assert told.dull.kwh_day > 0
    assert 30 < told.tilt_deg < 75
    assert all(np.isfinite(season.kwh) for season in (*told.seasons, *told.quarters))


def test_panels_of_two_planes_are_no_stand(hours):
    with pytest.raises(ValueError, match="one plane"):
        turns_of(hours, OPEN, [*stand(10.0), *stand(20.0)])


def test_progress_is_told_to_its_end(found, hours):
    heard = []
    turns_of(hours, OPEN, stand(), heard.append)
    assert heard == sorted(heard)
    assert heard[-1] == pytest.approx(1.0)
    assert found == turns_of(hours, OPEN, stand()), "asked again it says the same"
