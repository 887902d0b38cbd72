"""Panels on their stands: where each one's corner comes to lie, by hand."""

from math import cos, radians, sin

import pytest

from panewright.array.plan.panel import of_label
from panewright.array.plan.placing import placed
from planned import site


def lie(own):
    return placed(own, [of_label(panel.known.label) for panel in own.panels])


def test_a_row_lies_side_by_side_with_its_gaps_and_the_next_row_over_it():
    own = site(("columns = 4", 'columns = 2\ngap = "30 mm"'))
    found = lie(own)
    assert [(each.left_mm, each.up_mm) for each in found] == [(0, 0), (700, 0), (0, 1510), (700, 1510)]


def test_places_in_the_open_follow_tilt_and_azimuth():
    """Looking south, seen from its face the right is east; up the slope is up and north."""
    own = site(("columns = 4", 'columns = 2\neast = "10 m"\nnorth = "5 m"'), ('up = "1 m"', 'up = "2 m"'))
    found, slope = lie(own)[3], 1.480 + 0.020
    east, north, up = found.member.pane.corner_m
    assert east == pytest.approx(10 + 0.690)
    assert north == pytest.approx(5 + slope * cos(radians(40)))
    assert up == pytest.approx(2 + slope * sin(radians(40)))


def test_looking_east_the_right_is_north():
    own = site(('azimuth = "180 deg"', 'azimuth = "90 deg"'))
    east, north, up = lie(own)[1].member.pane.corner_m
    assert (east, north, up) == pytest.approx((0.0, 0.690, 1.0))


def test_age_takes_half_a_percent_a_year():
    """Jordan and Kurtz 2013, as in `array.worth`."""
    found = lie(site(("count = 2", 'count = 2\nage = "10 yr"')))
    assert [each.member.left for each in found] == pytest.approx([0.995**10] * 2 + [1.0] * 2)


def test_so_many_panels_as_the_site_has():
    own = site()
    with pytest.raises(ValueError, match="4 panels"):
        placed(own, [of_label(own.panels[0].known.label)])
