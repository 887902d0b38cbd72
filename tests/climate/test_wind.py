"""Laws of wind: more of it never helps, families never mix, nothing is read past the end of a table."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.climate.site import Hill, Site, Size, Wind
from panewright.climate.wind.load import wind_pressures

ASCE = Site(
    "ASCE",
    Wind(45.0, "3 s gust", "ASCE 7-16", risk_category="II", ground="C"),
    1000.0,
    -20.0,
    40.0,
    30.0,
    3.0,
    0.0,
    "free-standing",
)
EN = Site(
    "EN",
    Wind(26.0, "10 min mean", "EN 1991-1-4", return_years=50, ground="II"),
    1000.0,
    -20.0,
    40.0,
    20.0,
    3.0,
    0.0,
    "free-standing",
)
MOUNTINGS = ("free-standing", "pole", "flat roof", "roof-parallel", "wall")
sites = st.builds(
    lambda site, mounting, tilt, height, zone: replace(
        site, mounting=mounting, tilt_deg=90.0 if mounting == "wall" else tilt, height_m=height, zone=zone
    ),
    st.sampled_from([ASCE, EN]),
    st.sampled_from(MOUNTINGS),
    st.floats(0, 90),
    st.floats(0.5, 18),
    st.sampled_from(["middle", "edge", "corner", None]),
)


def faster(site, factor):
    return replace(site, wind=replace(site.wind, speed_m_s=site.wind.speed_m_s * factor))


@given(sites, st.floats(1.0, 2.0))
def test_more_wind_never_means_less_pressure(site, factor):
    calm, rough = wind_pressures(site), wind_pressures(faster(site, factor))
    assert rough.down_pa >= calm.down_pa
    assert rough.up_pa >= calm.up_pa


@given(sites, st.floats(0.0, 5.0))
def test_a_higher_panel_never_sees_less_wind(site, more_m):
    higher = replace(site, height_m=site.height_m + more_m)
    assert wind_pressures(higher).velocity_pressure_pa >= wind_pressures(site).velocity_pressure_pa


@given(sites)
def test_strength_level_is_never_below_service_level(site):
    load = wind_pressures(site)
    assert load.strength_down_pa >= load.down_pa > 0
    assert load.strength_up_pa >= load.up_pa > 0


@given(sites)
def test_every_pressure_used_is_a_line_of_the_reckoning(site):
    load = wind_pressures(site)
    shown = [step.value for step in load.reckoning if step.unit == "Pa"]
    assert load.velocity_pressure_pa in shown
    assert load.down_pa in shown
    assert load.up_pa in shown


@pytest.mark.parametrize("zone", ["middle", "edge", "corner"])
@pytest.mark.parametrize(("site", "most"), [(ASCE, 0.24), (EN, 0.16)])
@given(st.floats(0, 89), st.floats(0, 1))
def test_pressure_does_not_jump_as_a_free_standing_panel_tilts(site, most, zone, tilt_deg, step):
    """No table rises faster than this for each degree, in parts of q; the joins are no steeper."""
    here = wind_pressures(replace(site, tilt_deg=tilt_deg, zone=zone))
    there = wind_pressures(replace(site, tilt_deg=tilt_deg + step, zone=zone))
    q = here.velocity_pressure_pa
    assert abs(there.up_pa - here.up_pa) <= most * q * step + 1e-6
    assert abs(there.down_pa - here.down_pa) <= most * q * step + 1e-6


@given(sites)
def test_middle_edge_and_corner_are_ordered(site):
    inner, edge, corner = (wind_pressures(replace(site, zone=zone)) for zone in ("middle", "edge", "corner"))
    assert inner.up_pa <= edge.up_pa <= corner.up_pa
    assert inner.down_pa <= edge.down_pa <= corner.down_pa


@given(sites)
def test_a_pole_and_a_stand_see_the_same_pressure_and_only_the_pole_is_turned(site):
    stand, pole = (wind_pressures(replace(site, mounting=name)) for name in ("free-standing", "pole"))
    assert (stand.down_pa, stand.up_pa) == (pole.down_pa, pole.up_pa)
    assert all(force.across_share > 0 for force in pole.forces)


@given(sites)
def test_the_mean_over_the_whole_panel_never_exceeds_the_pane_s_pressure(site):
    load = wind_pressures(site)
    assert bool(load.forces) == site.in_the_open
    for force in load.forces:
        assert -load.up_pa * (1 + 1e-12) <= force.service_pa <= load.down_pa * (1 + 1e-12)
        assert abs(force.strength_pa) >= abs(force.service_pa) > 0
        assert abs(force.along_share) <= 0.25


@given(st.sampled_from([ASCE, EN]), st.floats(0, 90))
def test_the_wind_takes_hold_from_both_sides(site, tilt_deg):
    forces = wind_pressures(replace(site, mounting="pole", tilt_deg=tilt_deg)).forces
    assert min(force.service_pa for force in forces) < 0 < max(force.service_pa for force in forces)


@given(st.sampled_from(["10 min mean", "1 h mean", "fastest mile"]), st.floats(10, 90))
def test_a_longer_mean_is_a_faster_gust(kind, speed_m_s):
    stated = replace(ASCE, wind=replace(ASCE.wind, kind=kind, speed_m_s=speed_m_s))
    gust = replace(ASCE, wind=replace(ASCE.wind, speed_m_s=speed_m_s))
    assert wind_pressures(stated).velocity_pressure_pa > wind_pressures(gust).velocity_pressure_pa


@pytest.mark.parametrize(
    ("site", "tilt_deg", "holds"), [(ASCE, 45, True), (ASCE, 46, False), (EN, 76, False)]
)
def test_a_roof_steeper_than_the_table_is_told(site, tilt_deg, holds):
    load = wind_pressures(replace(site, mounting="roof-parallel", tilt_deg=float(tilt_deg)))
    assert all(check.passed for check in load.checks) is holds


def test_a_steep_panel_under_en_says_that_two_rules_were_joined():
    load = wind_pressures(replace(EN, tilt_deg=50.0))
    assert load.down_pa == pytest.approx(2.2 * load.velocity_pressure_pa)
    assert any("judgement" in step.words for step in load.reckoning)


def test_a_wall_panel_that_leans_is_told():
    load = wind_pressures(replace(ASCE, mounting="wall", tilt_deg=60.0))
    assert not all(check.passed for check in load.checks)


@pytest.mark.parametrize(
    ("site", "wind"),
    [
        (EN, replace(EN.wind, kind="1 h mean")),
        (EN, replace(EN.wind, kind="fastest mile")),
        (EN, replace(EN.wind, edition="ASCE 7-16")),
        (ASCE, replace(ASCE.wind, edition="EN 1991-1-4", risk_category=None)),
    ],
)
def test_a_speed_that_no_rule_converts_never_passes(site, wind):
    checks = wind_pressures(replace(site, wind=wind)).checks
    wrong = [check for check in checks if not check.passed]
    assert len(wrong) == 1
    assert not wrong[0].covered


def test_cladding_in_exposure_b_takes_the_wind_at_30_feet():
    low = replace(ASCE, mounting="roof-parallel", wind=replace(ASCE.wind, ground="B"))
    assert (
        wind_pressures(low).velocity_pressure_pa
        == wind_pressures(replace(low, height_m=9.144)).velocity_pressure_pa
    )


@given(st.floats(2, 49))
def test_a_milder_return_period_is_raised_and_a_rarer_one_kept(years):
    stated = wind_pressures(replace(EN, wind=replace(EN.wind, return_years=years)))
    usual = wind_pressures(EN)
    rare = wind_pressures(replace(EN, wind=replace(EN.wind, return_years=200.0)))
    assert stated.velocity_pressure_pa > usual.velocity_pressure_pa
    assert rare.velocity_pressure_pa == usual.velocity_pressure_pa


@pytest.mark.parametrize(
    "site",
    [replace(ASCE, wind=replace(ASCE.wind, ground="II")), replace(EN, wind=replace(EN.wind, ground="C"))],
)
def test_ground_of_the_other_family_is_our_own_mistake(site):
    with pytest.raises(ValueError, match="knows the"):
        wind_pressures(site)


hills = st.builds(
    Hill, st.sampled_from(["ridge", "escarpment", "hill"]), st.floats(0.5, 500), st.floats(1, 5000)
)


@given(sites, hills)
def test_a_crest_is_never_calmer_than_flat_ground(site, hill):
    flat, crest = (wind_pressures(replace(site, hill=each)).velocity_pressure_pa for each in (None, hill))
    assert flat <= crest


def test_a_hill_without_height_is_our_own_mistake():
    with pytest.raises(ValueError, match="a hill has a height"):
        Hill("ridge", 0.0, 10.0)


anywhere = st.builds(
    lambda site, wind, mounting, zone, tilt, height, altitude: replace(
        site,
        wind=replace(site.wind, **wind),
        mounting=mounting,
        zone=zone,
        tilt_deg=tilt,
        height_m=height,
        altitude_m=altitude,
    ),
    st.sampled_from([ASCE, EN]),
    st.fixed_dictionaries(
        {
            "speed_m_s": st.floats(10, 120),
            "kind": st.sampled_from(["3 s gust", "10 min mean", "1 h mean", "fastest mile"]),
            "return_years": st.one_of(st.none(), st.floats(1.001, 3000)),
        }
    ),
    st.sampled_from(MOUNTINGS),
    st.sampled_from(["middle", "edge", "corner", None]),
    st.floats(0, 90),
    st.floats(0, 200),
    st.floats(-430, 6000),
)


@given(anywhere)
def test_any_site_gives_sound_figures_or_a_failed_check_and_never_a_fault(site):
    load = wind_pressures(site)
    figures = [load.down_pa, load.up_pa, *(step.value for step in load.reckoning)]
    assert all(math.isfinite(figure) for figure in figures)
    assert min(load.down_pa, load.up_pa) > 0
    assert all(check.cure and check.room == "climate" for check in load.checks)


roofs = st.builds(
    lambda tilt, height, zone: replace(
        ASCE, mounting="flat roof", tilt_deg=tilt, height_m=height, zone=zone, lower_edge_mm=300.0
    ),
    st.floats(0, 40),
    st.floats(1, 40),
    st.sampled_from(["middle", "edge", "corner", None]),
)


@given(roofs, st.floats(0.05, 3.0), st.floats(1.0, 4.0), st.floats(200.0, 2000.0))
def test_on_a_flat_roof_a_larger_panel_never_sees_more_and_a_longer_never_less(site, area_m2, more, long_mm):
    here = wind_pressures(site, Size(area_m2, long_mm)).up_pa
    assert wind_pressures(site, Size(more * area_m2, long_mm)).up_pa <= here * (1 + 1e-12)
    assert wind_pressures(site, Size(area_m2, more * long_mm)).up_pa >= here * (1 - 1e-12)
    if long_mm <= 2042:
        assert wind_pressures(site).up_pa >= here * (1 - 1e-12)


def test_a_panel_without_area_is_our_own_mistake():
    with pytest.raises(ValueError, match="an area and a length"):
        Size(0.0, 1000.0)


def test_en_has_no_rule_for_a_panel_on_a_roof_and_says_so():
    load = wind_pressures(replace(EN, mounting="flat roof"))
    unruled = [check for check in load.checks if not check.passed]
    assert [check.rule for check in unruled] == ["wind rule for a panel that stands on a roof"]
    assert not unruled[0].covered
    assert load.up_pa == wind_pressures(EN).up_pa


@pytest.mark.parametrize(
    ("site", "ends", "beyond"), [(ASCE, 45.0, "sign of figure"), (EN, 30.0, "signboard")]
)
def test_the_reckoning_says_where_one_rule_ends_and_which_takes_over(site, ends, beyond):
    shallow, steep = (wind_pressures(replace(site, tilt_deg=tilt)) for tilt in (ends, ends + 1))
    assert [step.value for step in shallow.reckoning if "tilts up to" in step.words] == [ends]
    assert not any(beyond in step.words for step in shallow.reckoning)
    assert any(beyond in step.words and "judgement" in step.words for step in steep.reckoning)
    assert all(check.limit is not None and check.limit < 90 for check in steep.checks if "tilt" in check.rule)


@pytest.mark.parametrize("edition", ["ASCE 7-05", "ASCE 7-10", "ASCE 7-22"])
def test_coefficients_of_another_edition_are_named(edition):
    told = wind_pressures(replace(ASCE, wind=replace(ASCE.wind, edition=edition))).reckoning
    assert any(f"coefficient of ASCE 7-16, taken under {edition}" in step.words for step in told)
    assert not any("taken under" in step.words for step in wind_pressures(ASCE).reckoning)
