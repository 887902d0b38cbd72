"""Laws of the heat balance."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.climate.balance.film import carried_w_m2, still_w_m2k
from panewright.climate.balance.layer import AirSpace, Solid, nusselt
from panewright.climate.balance.layers import POURED
from panewright.climate.balance.network import Leak, Network, Path, imbalance_w_m2, settled_k
from panewright.climate.balance.rail import FINISHES, coldest_rail_c, hottest_rail_c, rail_c
from panewright.climate.balance.steady import Heats, heats, network
from panewright.climate.balance.surroundings import Surroundings, clear_sky_c, radiated_w_m2
from panewright.units import KELVIN

LAWS = settings(deadline=None, max_examples=60)
BOARD = (Solid(4.0, 0.15), Solid(0.35, 0.2))
BOXED = replace(POURED, front=(Solid(3.2, 1.0), AirSpace(10.0)), back=BOARD)
ACRYLIC = replace(
    POURED, front=(Solid(5.0, 0.19), Solid(1.0, 0.2)), cover_takes=0.1, cell_takes=0.8, front_emits=0.9
)
FILM = replace(POURED, front=(Solid(3.2, 1.0), Solid(0.45, 0.35)), back=(Solid(0.45, 0.35), Solid(0.35, 0.2)))

builds = st.sampled_from([POURED, FILM, ACRYLIC, BOXED])
gaps_mm = st.one_of(st.none(), st.floats(0, 300))
airs_c, tilts_deg, winds_m_s = st.floats(-60, 55), st.floats(0, 90), st.floats(0, 15)
suns_w_m2 = st.floats(0, 1200)


@st.composite
def weathers(draw, suns=suns_w_m2, winds=winds_m_s):
    air_c = draw(airs_c)
    return Surroundings(air_c, clear_sky_c(air_c), draw(suns), draw(winds), draw(tilts_deg), draw(gaps_mm))


def parts(found: Heats):
    return found.face_c, found.cover_c, found.cell_c, found.back_c, *found.behind_c


def below(cooler: Heats, hotter: Heats):
    return all(a <= b + 1e-6 for a, b in zip(parts(cooler), parts(hotter), strict=True))


@LAWS
@given(builds, weathers())
def test_every_node_gives_off_what_it_takes_in(layers, around):
    net = network(layers, around)
    found = settled_k(net, around.air_k + 1)
    assert np.abs(imbalance_w_m2(net, found)).max() < 1e-9
    out = sum(leak.flux_w_m2(found[leak.node]) for leak in net.leaks)
    assert out == pytest.approx(sum(net.put_in_w_m2), rel=1e-9, abs=1e-8)


@LAWS
@given(builds, weathers(), st.floats(0, 500))
def test_more_sun_is_never_colder(layers, around, more_w_m2):
    brighter = replace(around, sun_w_m2=around.sun_w_m2 + more_w_m2)
    assert below(heats(layers, around), heats(layers, brighter))


@LAWS
@given(builds, weathers(suns=st.floats(400, 1200)), st.floats(0, 10))
def test_more_wind_on_a_sunlit_panel_is_never_hotter(layers, around, more_m_s):
    windier = replace(around, wind_m_s=around.wind_m_s + more_m_s)
    assert below(heats(layers, windier), heats(layers, around))


@LAWS
@given(builds, weathers(), st.floats(0, 30))
def test_warmer_air_is_never_colder(layers, around, more_k):
    air_c = around.air_c + more_k
    warmer = replace(around, air_c=air_c, sky_c=clear_sky_c(air_c))
    assert below(heats(layers, around), heats(layers, warmer))


@LAWS
@given(weathers(suns=st.floats(300, 1200)))
def test_a_poured_cell_is_never_hotter_than_the_same_one_behind_an_air_gap(around):
    poured = replace(POURED, back=BOARD)
    assert heats(poured, around).cell_c <= heats(BOXED, around).cell_c + 1e-6


@LAWS
@given(builds, weathers())
def test_a_cell_that_gives_power_is_never_hotter_than_an_idle_one(layers, around):
    assert heats(layers, around).cell_c <= heats(layers.idle, around).cell_c + 1e-6


@LAWS
@given(weathers(suns=st.floats(300, 1200)), st.floats(2, 8), st.floats(0, 8))
def test_a_thicker_plastic_cover_keeps_the_cell_no_cooler(around, thick_mm, more_mm):
    thin, thick = (
        replace(ACRYLIC, front=(Solid(mm, 0.19), Solid(1.0, 0.2))) for mm in (thick_mm, thick_mm + more_mm)
    )
    assert heats(thin, around).cell_c <= heats(thick, around).cell_c + 1e-6


@LAWS
@given(builds, weathers(suns=st.floats(400, 1200)), st.floats(10, 300), st.floats(0, 300))
def test_more_room_behind_is_never_hotter(layers, around, gap_mm, more_mm):
    near, far = (replace(around, gap_mm=gap) for gap in (gap_mm, gap_mm + more_mm))
    assert heats(layers, far).cell_c <= heats(layers, near).cell_c + 1e-6
    assert heats(layers, replace(around, gap_mm=None)).cell_c < heats(layers, far).cell_c


@LAWS
@given(builds, airs_c, tilts_deg, winds_m_s, gaps_mm)
def test_without_sun_and_without_a_cold_sky_all_is_as_warm_as_the_air(layers, air_c, tilt, wind, gap_mm):
    found = heats(layers, Surroundings(air_c, air_c, 0.0, wind, tilt, gap_mm))
    assert parts(found) == pytest.approx([air_c] * len(parts(found)), abs=1e-3)


@LAWS
@given(builds, weathers(suns=st.just(0.0)))
def test_at_night_a_panel_lies_between_sky_and_air(layers, around):
    assert all(around.sky_c - 1e-6 <= part <= around.air_c + 1e-3 for part in parts(heats(layers, around)))


@LAWS
@given(builds, weathers(suns=st.floats(400, 1200)), st.floats(0, 4000))
def test_heat_put_into_a_cell_warms_it_less_and_less(layers, around, heat_w_m2):
    none, some, twice = (heats(layers.idle, around, share * heat_w_m2).cell_c for share in (0, 1, 2))
    assert none <= some + 1e-6
    assert twice - some <= some - none + 1e-3 or layers is BOXED  # rolls of air begin of a sudden


@LAWS
@given(weathers(), st.floats(-40, 100), st.floats(0, 30))
def test_a_hotter_pane_and_the_sun_never_cool_a_rail(around, pane_c, more_k):
    dark = replace(around, sun_w_m2=0.0)
    for extreme in (hottest_rail_c, coldest_rail_c):
        assert extreme(pane_c, around) <= extreme(pane_c + more_k, around) + 1e-6
        assert extreme(pane_c, dark) <= extreme(pane_c, around) + 1e-6
    assert coldest_rail_c(pane_c, around) <= hottest_rail_c(pane_c, around)


@LAWS
@given(st.floats(-20, 90), st.floats(20, 50), st.sampled_from(FINISHES))
def test_a_shaded_rail_lies_between_the_air_and_its_pane(pane_c, leg_mm, finish):
    around = Surroundings(20.0, 20.0, 0.0, 0.0, 35.0)
    rail = rail_c(pane_c, around, finish, leg_mm)
    assert min(20.0, pane_c) - 1e-6 <= rail <= max(20.0, pane_c) + 1e-6


@LAWS
@given(st.floats(-50, 50), st.floats(0, 60), st.floats(0, 180), st.floats(0, 10))
def test_a_hotter_face_never_loses_less(over_k, more_k, facing_deg, wind_m_s):
    cool, hot = (
        carried_w_m2(290.0 + over, 290.0, facing_deg, wind_m_s) for over in (over_k, over_k + more_k)
    )
    assert cool <= hot + 1e-9


@LAWS
@given(st.floats(0.5, 60), st.floats(0, 90))
def test_air_rises_better_from_the_upper_side_of_a_hot_plate(over_k, tilt_deg):
    up, down = (still_w_m2k(over_k, 290.0, facing) for facing in (tilt_deg, 180 - tilt_deg))
    assert down <= up + 1e-9
    cold_down, cold_up = (still_w_m2k(-over_k, 290.0, facing) for facing in (180 - tilt_deg, tilt_deg))
    assert cold_up <= cold_down + 1e-9


@LAWS
@given(st.floats(0, 1e7), st.floats(0, 1e6), st.floats(0, 90))
def test_rolls_never_let_less_through(ra, more, tilt_deg):
    assert 1.0 <= nusselt(ra, tilt_deg) <= nusselt(ra + more, tilt_deg)


@LAWS
@given(st.floats(0, 180), airs_c)
def test_a_face_as_warm_as_sky_and_ground_radiates_nothing_net(facing_deg, air_c):
    around = Surroundings(air_c, air_c, 0.0, 0.0, 0.0)
    assert radiated_w_m2(air_c + KELVIN, 0.9, facing_deg, around) == pytest.approx(0.0, abs=1e-9)


def test_two_nodes_with_straight_laws_are_met_exactly():
    net = Network(
        (10.0, 0.0),
        (Path(0, 1, lambda a, b: 5.0 * (a - b)),),
        (Leak(1, lambda t: 2.0 * (t - 300.0)),),
    )
    assert settled_k(net, 200.0) == pytest.approx((307.0, 305.0), abs=1e-9)


def test_nodes_without_a_balance_are_told():
    with pytest.raises(ValueError, match="no balance found"):
        settled_k(Network((10.0,), (), (Leak(0, lambda t: 5.0 - 1e-9 * t),)), 300.0)


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: Solid(0.0, 1.0),
        lambda: AirSpace(10.0, 1.2),
        lambda: replace(POURED, front=()),
        lambda: replace(POURED, cover_takes=0.2),
        lambda: replace(POURED, gives=0.95),
        lambda: replace(POURED, back_emits=0.0),
        lambda: Surroundings(20.0, 10.0, -1.0, 0.0, 30.0),
        lambda: Surroundings(20.0, 10.0, 1.0, 0.0, 95.0),
        lambda: Surroundings(20.0, 10.0, 1.0, 0.0, 30.0, -5.0),
        lambda: Surroundings(-300.0, -300.0, 1.0, 0.0, 30.0),
    ],
)
def test_nonsense_is_refused(wrong):
    with pytest.raises(ValueError, match="got"):
        wrong()


def test_half_of_what_the_cover_takes_enters_each_of_its_faces():
    net = network(replace(POURED, cover_takes=0.04), Surroundings(20.0, 4.0, 1000.0, 1.0, 35.0))
    assert net.put_in_w_m2 == (20.0, 20.0, 900.0, 0.0, 0.0)


@LAWS
@given(builds, weathers(), st.floats(0.4, 1.0))
def test_thin_air_never_cools_a_panel_in_the_sun_more(layers, around, share):
    """Compared where the panel is warmer than the air all through: there air only takes heat."""
    sunny = replace(around, sun_w_m2=1000.0)
    thick, thin = heats(layers, sunny), heats(layers, replace(sunny, air_share=share))
    if min(parts(thick)) > around.air_c:
        assert below(thick, thin)


@LAWS
@given(builds, airs_c, tilts_deg, st.floats(0.4, 1.0))
def test_thin_air_never_warms_a_panel_at_night_more(layers, air_c, tilt_deg, share):
    night = Surroundings(air_c, clear_sky_c(air_c), 0.0, 0.0, tilt_deg)
    assert below(heats(layers, replace(night, air_share=share)), heats(layers, night))


def test_air_without_weight_is_our_own_mistake():
    with pytest.raises(ValueError, match="air weighs something"):
        Surroundings(20.0, 4.0, 0.0, 0.0, 30.0, air_share=0.0)
