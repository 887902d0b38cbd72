"""Light from place, date and clock: laws of any clear sky, its uncertainty, and what is refused."""

from datetime import UTC, datetime, timedelta, timezone

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.errors import SkyError
from panewright.sky.clear import clear_sky, usual_turbidity
from panewright.sky.light import Doubt, clear_light
from panewright.sky.place import Air, Place, Plane
from panewright.sky.sun import incidence_deg, sun_at

HERE, SOUTH = Place(43.0, 5.0, 100.0), Plane(40.0, 180.0)
NOON = datetime(2026, 6, 20, 11, 40, tzinfo=UTC)


@given(st.floats(0, 90), st.floats(0, 360), st.floats(0, 90), st.floats(0, 360))
def test_a_panel_that_faces_the_sun_sees_it_straight_on_and_turns_with_it(height, azimuth, tilt, turn):
    assert incidence_deg(height, azimuth, Plane(90 - height, azimuth)) == pytest.approx(0, abs=2e-5)
    one = incidence_deg(height, azimuth, Plane(tilt, turn))
    other = incidence_deg(height, (azimuth + 77) % 360, Plane(tilt, (turn + 77) % 360))
    assert one == pytest.approx(other, abs=1e-4)


@given(st.floats(2, 6), st.floats(0.1, 2))
@settings(max_examples=15, deadline=None)
def test_hazier_air_lets_less_through_and_more_aside(turbidity, more):
    clean, hazy = (
        clear_sky(HERE, SOUTH, NOON, Air(turbidity=each)) for each in (turbidity, turbidity + more)
    )
    assert hazy.direct_w_m2 < clean.direct_w_m2
    assert hazy.level_w_m2 < clean.level_w_m2
    assert hazy.diffuse_w_m2 > clean.diffuse_w_m2


def test_the_parts_add_and_the_face_takes_its_share():
    sky = clear_sky(HERE, SOUTH, NOON)
    assert 850 < sky.plane_w_m2 < 1100
    assert sky.plane_w_m2 == pytest.approx(sky.beam_w_m2 + sky.sky_w_m2 + sky.ground_w_m2)
    assert 0.96 * sky.plane_w_m2 < sky.seen_w_m2 < sky.plane_w_m2
    flat = clear_sky(HERE, Plane(0, 0), NOON)
    assert flat.plane_w_m2 == pytest.approx(flat.level_w_m2, rel=0.01)
    assert flat.ground_w_m2 == 0


def test_slantwise_light_loses_more_at_the_face():
    steep = clear_sky(HERE, SOUTH, NOON)
    low = clear_sky(HERE, SOUTH, NOON + timedelta(hours=5))
    assert low.incidence_deg > 70
    assert low.seen_w_m2 / low.plane_w_m2 < steep.seen_w_m2 / steep.plane_w_m2 - 0.02


def test_place_and_clock_alone_give_light_to_six_or_seven_percent():
    light = clear_light(HERE, SOUTH, NOON)
    assert 0.055 < light.sigma_w_m2 / light.value_w_m2 < 0.075
    greatest = sorted(light.terms, key=lambda term: -term.moves_w_m2)[:2]
    assert {term.name for term in greatest} == {"turbidity", "model of the clear sky"}


def test_a_low_sun_is_less_sure_and_so_is_a_clock_an_hour_off():
    noon, evening = clear_light(HERE, SOUTH, NOON), clear_light(HERE, SOUTH, NOON + timedelta(hours=5))
    assert evening.sigma_w_m2 / evening.value_w_m2 > 1.3 * noon.sigma_w_m2 / noon.value_w_m2
    sure = Doubt(0, 0, 0, 0, 0, 0, 0, 0)
    assert clear_light(HERE, SOUTH, NOON, doubt=sure).sigma_w_m2 == 0
    hour = clear_light(HERE, SOUTH, NOON + timedelta(hours=3), doubt=Doubt(clock_s=3600))
    assert next(term for term in hour.terms if term.name == "clock").moves_w_m2 > 100


def test_a_turbidity_that_was_measured_is_taken():
    assert clear_light(HERE, SOUTH, NOON, Air(turbidity=2.5)).sky.turbidity == 2.5
    assert clear_light(HERE, SOUTH, NOON).sky.turbidity == pytest.approx(usual_turbidity(HERE, NOON))


def test_the_zone_of_the_clock_counts():
    local = datetime(2026, 6, 20, 13, 40, tzinfo=timezone(timedelta(hours=2)))
    assert sun_at(HERE, local).height_deg == pytest.approx(sun_at(HERE, NOON).height_deg, abs=1e-9)


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        (lambda: clear_sky(HERE, SOUTH, NOON.replace(hour=0)), "below the horizon"),
        (lambda: clear_sky(HERE, SOUTH, NOON.replace(hour=4, minute=20)), "degrees high"),
        (lambda: clear_sky(HERE, SOUTH, NOON.replace(tzinfo=None)), "has no zone"),
        (lambda: clear_sky(HERE, SOUTH, NOON.replace(year=1800)), "for the years"),
        (lambda: clear_sky(HERE, Plane(90, 0), NOON), "behind the panel"),
        (lambda: Place(91, 0), "latitude = 91"),
        (lambda: Place(40, 181), "longitude = 181"),
        (lambda: Plane(95, 400), "tilt = 95(.|\n)*azimuth = 400"),
        (lambda: Air(turbidity=0.5), "turbidity = 0.5"),
        (lambda: Place(float("nan"), 0), "latitude = nan"),
    ],
)
def test_what_cannot_be_is_refused_with_its_cure(asked, words):
    with pytest.raises(SkyError, match=words) as told:
        asked()
    assert all(problem.cure for problem in told.value.problems)
