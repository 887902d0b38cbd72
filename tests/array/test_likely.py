"""The likely range of a year: what a draw of every cause by chance gives, and what each cause must do."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pvlib
import pytest

from invented_panels import Made
from panewright.array.doubts import RATINGS, SOURCES, Doubts, Rated, by_known
from panewright.array.likely import Cause, bounds, likely
from panewright.array.member import Member
from panewright.array.wiring import Input, Row
from panewright.array.year import Span, year_of
from panewright.circuit.line import as_written
from panewright.intake.weather.weather import read_weather
from panewright.sky.place import Plane
from panewright.sky.shadow.pane import Pane
from panewright.sky.shadow.shade import Skyline, Surroundings

SHAPES = tuple(
    (0.16 * (k // 6), 0.16 * (k % 6), 0.16 * (k // 6) + 0.15, 0.16 * (k % 6) + 0.15) for k in range(36)
)
MADE = Made(36, 2, scatter=0.0)
LAW = MADE.law()
OPEN, HILLS = Surroundings(), Surroundings((), Skyline(((0, 25),)))


def members(tilt=35.0, count=2, **told):
    return tuple(
        Member(f"P{k}", LAW, Pane((1.1 * k, 0.0, 0.5), Plane(tilt, 180), SHAPES), 150.0, **told)
        for k in range(count)
    )


def year(panels, around=OPEN, hours=None):
    inputs = tuple(Input((Row((k,)),)) for k in range(len(panels)))
    return year_of(hours or HOURS, around, panels, inputs, (Span(),) * len(panels))


FILE = Path(pvlib.__file__).parent / "data" / "723170TYA.CSV"  # Greensboro, TMY3, carried by pvlib
HOURS = read_weather(FILE.read_bytes(), FILE.name)


@pytest.fixture(scope="module")
def plain():
    return year(members())


@pytest.fixture(scope="module")
def found(plain):
    return likely(plain, members(), Doubts(by_known(["built record"] * 2)))


def share(told, name):
    return {cause.name: cause.share for cause in told.causes}[name]


@pytest.mark.parametrize("coverage", [0.5, 0.8, 0.95])
@pytest.mark.parametrize("shares", [(0.04, 0.03, 0.02), (0.15, 0.01), (0.05,) * 9])
def test_bounds_hold_as_many_of_drawn_years_as_they_say(shares, coverage):
    """Every cause drawn by itself, as a factor on the energy: 200,000 years of chance."""
    told = bounds(3000.0, [Cause("one", each, "") for each in shares], coverage)
    chance = np.random.default_rng(5)
    drawn = 3000.0 * np.prod(1 + np.array(shares) * chance.standard_normal((200_000, len(shares))), axis=1)
    within = np.mean((drawn >= told.low_kwh) & (drawn <= told.high_kwh))
    assert within == pytest.approx(coverage, abs=0.012)
    assert told.low_kwh < told.middle_kwh < told.high_kwh


def test_a_wide_doubt_never_reaches_below_nothing():
    told = bounds(100.0, [Cause("all", 0.9, "")], 0.99)
    assert told.low_kwh > 0


def test_the_middle_is_the_years_energy_and_causes_are_told_the_greatest_first(plain, found):
    assert found.middle_kwh == plain.kwh
    assert [cause.share for cause in found.causes] == sorted((c.share for c in found.causes), reverse=True)
    assert all(cause.why.endswith(".") and cause.share > 0 for cause in found.causes)
    assert len({cause.name for cause in found.causes}) == len(found.causes) == 9


def test_a_usual_year_is_known_to_some_six_to_nine_hundredths(found):
    """Published uncertainties of a year's foretold yield are 5 to 10 % with k = 1 (recalled)."""
    assert 0.06 < found.share < 0.09


def test_what_panels_share_does_not_even_out_and_what_each_has_does(plain):
    one = members(count=1)
    alone = likely(year(one), one, Doubts((Rated(0.03, 0.0, "each by itself"),)))
    many = likely(plain, members(), Doubts((Rated(0.03, 0.0, "each by itself"),) * 2))
    alike = likely(plain, members(), Doubts((Rated(0.0, 0.03, "one meter"),) * 2))
    assert share(alone, "the panels' ratings") == pytest.approx(0.03)
    assert share(many, "the panels' ratings") == pytest.approx(0.03 / np.sqrt(2), rel=1e-3)
    assert share(alike, "the panels' ratings") == pytest.approx(0.03)


def test_ways_of_knowing_share_nothing_with_each_other(plain):
    mixed = likely(plain, members(), Doubts((Rated(0.0, 0.04, "one"), Rated(0.0, 0.03, "other"))))
    assert share(mixed, "the panels' ratings") == pytest.approx(np.hypot(0.02, 0.015), rel=1e-3)


@pytest.mark.parametrize("source", SOURCES)
def test_each_source_of_weather_counts_as_it_is_told(plain, source):
    told = likely(plain, members(), Doubts(by_known(["design"] * 2), source))
    assert share(told, "where the weather is from") == SOURCES[source][0]


def test_years_gone_through_tell_how_far_years_differ(plain):
    ran = (900.0, 1000.0, 1100.0, 950.0, 1050.0)
    told = likely(plain, members(), Doubts(by_known(["label"] * 2), years_kwh=ran))
    assert share(told, "weather from year to year") == pytest.approx(np.std(ran, ddof=1) / 1000)
    few = likely(plain, members(), Doubts(by_known(["label"] * 2), years_kwh=ran[:4], years_share=0.06))
    assert share(few, "weather from year to year") == 0.06


def test_a_flat_panel_has_no_doubt_of_the_tilted_sky(found):
    flat = members(0.0)
    told = likely(year(flat), flat, Doubts(by_known(["built record"] * 2)))
    assert share(told, "light on the tilted panel") < 0.003
    assert 0.005 < share(found, "light on the tilted panel") < 0.04


def test_dirt_that_takes_much_is_known_ill():
    dirty = members(dirt=(0.10,) * 12)
    told = likely(year(dirty), dirty, Doubts(by_known(["built record"] * 2)))
    assert share(told, "dirt") == pytest.approx(0.05, abs=1e-6)
    old = members(dirt=(0.10,) * 12, left=0.8)
    told = likely(year(old), old, Doubts(by_known(["built record"] * 2)))
    assert share(told, "dirt") == pytest.approx(0.05, abs=1e-6), "what age took is no dirt"


def test_heat_is_the_open_librarys_warmth_times_what_a_kelvin_takes(plain, found):
    """pvlib's Faiman, weighed by energy, times what a kelvin takes by the exact circuit."""
    plane = plain.light_w[:, 0] / 150.0 * 1000
    warm = pvlib.temperature.faiman(plane, HOURS.air_c, HOURS.wind_m_s) - HOURS.air_c
    rise = np.average(warm, weights=plain.panel_w[:, 0])
    watts = [np.prod(as_written(MADE.network([800.0] * 36, heat)).peak()) for heat in (30.0, 60.0)]
    per_k = np.log(watts[0] / watts[1]) / 30
    assert share(found, "the panels' heat") == pytest.approx(per_k * np.hypot(0.15 * rise, 1.0), rel=5e-3)


def test_a_hot_roof_is_known_less_than_an_open_rack(found):
    roof = members(behind="closed")
    told = likely(year(roof), roof, Doubts(by_known(["built record"] * 2)))
    assert share(told, "the panels' heat") > 1.2 * share(found, "the panels' heat")


def test_shadow_counts_by_what_it_takes(found):
    assert share(found, "shadows and snow") == 0.005
    dark = year(members(), HILLS)
    told = likely(dark, members(), Doubts(by_known(["built record"] * 2)))
    taken = 1 - dark.alone_w.sum() / dark.open_w.sum()
    assert taken > 0.05
    assert share(told, "shadows and snow") == pytest.approx(0.25 * taken)


def test_age_widens_and_a_panel_rated_now_has_settled(plain, found):
    doubts = Doubts(by_known(["built record"] * 2), ages=(10.0, 20.0))
    assert share(likely(plain, members(), doubts), "ageing") == pytest.approx(np.hypot(0.075, 0.01), rel=1e-3)
    assert share(found, "ageing") == pytest.approx(0.01)
    assert share(likely(plain, members(), Doubts(by_known(["measured"] * 2))), "ageing") == 0.0


def test_an_array_in_the_dark_gives_nothing_for_sure(plain):
    dark = replace(plain, panel_w=plain.panel_w * 0, input_w=plain.input_w * 0)
    told = likely(dark, members(), Doubts(by_known(["design"] * 2)))
    assert (told.low_kwh, told.middle_kwh, told.high_kwh, told.causes) == (0.0, 0.0, 0.0, ())


@pytest.mark.parametrize(
    ("wrong", "why"),
    [
        ({"years_share": -0.1}, "shares from 0"),
        ({"air_k": float("nan")}, "0 to 20 K"),
        ({"ages": (1.0,)}, "has an age"),
        ({"years_kwh": (0.0,)}, "more than 0 kWh"),
    ],
)
def test_doubts_that_cannot_be_are_refused(wrong, why):
    with pytest.raises(ValueError, match=why):
        Doubts(tuple(RATINGS.values())[:2], **wrong)


def test_ratings_and_panels_are_as_many(plain):
    with pytest.raises(ValueError, match="as many ratings"):
        likely(plain, members(), Doubts(by_known(["design"])))


@pytest.mark.parametrize("coverage", [0.0, 1.0, 1.5])
def test_a_coverage_is_a_share(coverage):
    with pytest.raises(ValueError, match="between 0 and 1"):
        bounds(1.0, (), coverage)
