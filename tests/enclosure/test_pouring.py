"""A pour by the clock, the thermometer and the scales: laws that hold for any shop and any silicone."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.enclosure.arrhenius import Timed, energy_j_mol, slower
from panewright.enclosure.degassing import (
    FLOWING,
    Liquid,
    cup_mm,
    degassing,
    foam_times,
    rest_min,
    rise_mm_s,
    smallest_mm,
)
from panewright.enclosure.encapsulant import Bench, PourAsk, pour
from panewright.enclosure.floating import SILICON_KG_M3, floating, lift_n, lifting_film_mm
from panewright.enclosure.inhibition import INHIBITORS, inhibition_check
from panewright.enclosure.mixing import layers_check, mix_card
from panewright.enclosure.silicone import Silicone, at_work, shop_checks

shops, lasting = st.floats(5.0, 45.0), st.floats(10.0, 240.0)
ASK = PourAsk(pane_mm2=1e6, front_mm=1.0, cell_mm=0.2, back_mm=2.0, cells_mm2=8e5)


@given(shops, shops, lasting)
def test_a_hotter_shop_has_a_shorter_pot_life_and_no_fewer_batches(one_c, other_c, pot_min):
    cold_c, hot_c = sorted((one_c, other_c))
    silicone = Silicone(pot_life_min=pot_min)
    cold, hot = at_work(silicone, cold_c), at_work(silicone, hot_c)
    assert hot.pot_life_min <= cold.pot_life_min
    assert hot.full_h <= cold.full_h
    many, few = (pour(ASK, silicone, Bench(shop_c=shop_c)) for shop_c in (hot_c, cold_c))
    if all(check.passed for check in many.checks):
        assert many.batches >= few.batches


@given(st.floats(1.0, 100.0), st.floats(10.0, 30.0), st.floats(1.5, 50.0), st.floats(40.0, 120.0))
def test_two_times_give_back_each_other(hours, cold_c, ratio, warmer_k):
    slow, fast = Timed(hours, cold_c), Timed(hours / ratio, cold_c + warmer_k)
    energy = energy_j_mol(slow, fast)
    assert slow.time * slower(energy, slow.at_c, fast.at_c) == pytest.approx(fast.time)
    assert slower(energy, slow.at_c, slow.at_c) == 1.0


@given(shops)
def test_it_gels_before_it_is_handled_and_is_handled_before_it_has_cured(shop_c):
    work = at_work(Silicone(), shop_c)
    assert work.pot_life_min / 60 < work.gel_h < work.handle_h < work.full_h


@pytest.mark.parametrize(
    ("shop_c", "rule"),
    [(5.0, "shop warm enough for the silicone's figures"), (44.0, "shop cool enough to pour in")],
)
def test_a_shop_outside_the_sheets_figures_is_told(shop_c, rule):
    assert [check.rule for check in shop_checks(Silicone(), shop_c) if not check.passed] == [rule]
    assert all(check.passed for check in shop_checks(Silicone(), 20.0))


@given(st.floats(0.2, 20.0), shops)
def test_the_card_weighs_out_the_mix_in_its_ratio(parts_a, shop_c):
    silicone = Silicone(parts_a=parts_a)
    work, made = at_work(silicone, shop_c), pour(ASK, silicone, Bench(shop_c=shop_c))
    card = mix_card(made, silicone, work)
    assert len(card.batches) == made.batches
    assert sum(row.part_a_g + row.part_b_g for row in card.batches) == pytest.approx(1000 * made.mix_kg)
    for row in card.batches:
        assert row.part_a_g == pytest.approx(parts_a * row.part_b_g)
        assert row.lies_by_min <= row.stiff_by_min
    starts = [row.mixed_at_min for row in card.batches]
    assert starts == sorted(starts)
    assert card.poured_min == pytest.approx(starts[-1] + made.batch_min)


def test_many_slow_batches_of_a_quick_silicone_show_their_layers():
    silicone = Silicone(pot_life_min=30.0)
    work = at_work(silicone, 23.0)
    huge = PourAsk(pane_mm2=3e6, front_mm=1.0, cell_mm=0.2, back_mm=2.0, cells_mm2=2e6)
    assert not layers_check(mix_card(pour(huge, silicone), silicone, work), work).passed
    assert layers_check(mix_card(pour(ASK), Silicone(), at_work(Silicone(), 23.0)), work).passed


@given(st.sets(st.sampled_from(sorted(INHIBITORS))))
def test_only_what_stops_platinum_is_counted(near):
    stops = sum(INHIBITORS[name].stops for name in near)
    assert inhibition_check(near, "platinum").demand == stops
    assert inhibition_check(near, "platinum").passed == (stops == 0)
    assert inhibition_check(near, "tin").passed


def test_the_cure_of_a_poisoned_pour_names_each_thing_and_what_to_take_instead():
    told = inhibition_check(("latex gloves", "fresh epoxy"), "platinum").cure
    assert "in place of latex gloves nitrile" in told
    assert "fresh epoxy" in told


@given(st.floats(0.1, 0.4), st.floats(900.0, 2000.0))
def test_a_cell_on_its_film_of_air_neither_rises_nor_sinks(cell_mm, liquid):
    film = lifting_film_mm(cell_mm, liquid)
    assert lift_n(cell_mm, film, liquid, 24336.0) == pytest.approx(0.0, abs=1e-9)
    assert lift_n(cell_mm, film * 1.01, liquid, 24336.0) > 0


def test_a_thin_cell_floats_on_a_quarter_of_a_millimetre():
    found = floating(0.18, 156.0**2, 1.0, 1030.0)
    assert found.film_mm == pytest.approx(0.18 * (2330 - 1030) / 1030)
    assert found.share == pytest.approx(found.film_mm)
    assert found.hold_kg == pytest.approx((1030 * 1.18e-3 - 2330 * 0.18e-3) * 0.024336)
    assert not floating(0.18, 1e4, 1.0, SILICON_KG_M3 + 1).checks[0].passed


@given(st.floats(0.05, 1.0), st.floats(1.01, 5.0), st.floats(0.2, 10.0))
def test_larger_bubbles_rise_faster_and_thicker_silicone_holds_them(bubble, more, viscosity):
    thin, thick = Liquid(1030.0, viscosity), Liquid(1030.0, viscosity * more)
    assert rise_mm_s(bubble * more, thin) > rise_mm_s(bubble, thin) > rise_mm_s(bubble, thick)


@given(st.floats(1.0, 10.0), st.floats(5.0, 300.0), st.floats(0.2, 10.0))
def test_the_smallest_bubble_just_leaves_in_time(depth, minutes, viscosity):
    liquid = Liquid(1030.0, viscosity)
    assert rest_min(depth, smallest_mm(depth, minutes, liquid), liquid) == pytest.approx(minutes)


@given(st.floats(1000.0, 101325.0), st.floats(0.01, 0.3))
def test_a_deeper_vacuum_foams_more(vacuum, air):
    assert foam_times(vacuum, air) >= foam_times(101325.0, air) == pytest.approx(1 / (1 - air))


def test_no_vacuum_is_deeper_than_none():
    with pytest.raises(ValueError, match="got 0 Pa"):
        foam_times(0.0)


def test_a_cup_holds_its_batch():
    high = cup_mm(1000.0)
    assert 3.14159265 / 4 * high**3 == pytest.approx(1e6)


def test_a_thick_quick_silicone_keeps_its_bubbles():
    rules = [c.rule for c in degassing(3.2, 1000.0, 10.0, Liquid(1030.0, 20.0)).checks if not c.passed]
    assert rules == ["bubbles one can see leave before the pour stiffens"]
    thin = degassing(3.2, 1000.0, 60.0, Liquid(1000.0, 0.02))
    assert [c.rule for c in thin.checks if not c.passed] == ["bubbles slow enough for Stokes' law"]


def test_a_cold_silicone_is_thicker_as_two_measured_ones_are():
    """Monteiro et al., J. of Plastination: 1180 and 3730, 410 and 1500 mPa s at 25 and -25 degC."""
    told = Silicone(viscosity_pa_s=1.0, sheet_c=25.0)
    thicker = at_work(told, -25.0).viscosity_pa_s
    assert 3730 / 1180 < thicker < 1500 / 410
    assert at_work(told, 25.0).viscosity_pa_s == pytest.approx(1.0)


def test_what_rises_while_the_mix_thickens_is_the_mean_of_its_thinness():
    steps = 10000
    mean = sum(2.0 ** -((step + 0.5) / steps) for step in range(steps)) / steps
    assert pytest.approx(mean, rel=1e-6) == FLOWING
