"""Laws of a run's section, its heat, its loss and what is bought for it. Prices are invented."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.wire.chosen import Sold, Worth, choose_run
from panewright.wire.connector import Connector, connector_checks
from panewright.wire.heated import Flow, conductor_c, year_kwh
from panewright.wire.laid import Laid
from panewright.wire.lengths import Laying, connector_pairs, metres_to_buy
from panewright.wire.rules import Run, carried_a, greatest_of_panels_a, run_checks
from panewright.wire.sizes import ALUMINIUM_METRIC, GAUGES, METRIC

RUN = Run(12.0, greatest_of_panels_a(2 * 8.55), 15.9, 36.0, fuse_a=30.0)
ROOF = Laid("NEC", "conduit", 38.0, beside=2, above_roof_mm=10.0)
YEAR = Flow((6.0,), hours_each=4000.0, air_c=28.0)
NO_WORTH = Worth(0.0, 0.0)


def offers(sizes, per_mm2=0.15):
    return [Sold(size, 0.2 + per_mm2 * size.area_mm2) for size in sizes]


def test_the_least_cost_that_keeps_every_rule_is_taken():
    chosen = choose_run(RUN, ROOF, YEAR, offers(GAUGES), Worth(0.3, 14.0))
    assert chosen.taken is not None
    assert chosen.taken.holds
    assert all(chosen.taken.cost <= row.cost for row in chosen.looked_at if row.holds)
    assert [row.size.name for row in chosen.looked_at] == [size.name for size in GAUGES]


def test_where_energy_is_worth_nothing_the_rules_alone_choose():
    chosen = choose_run(RUN, ROOF, YEAR, offers(GAUGES), NO_WORTH)
    assert chosen.taken is chosen.thinnest


@given(st.floats(0.0, 5.0), st.floats(0.0, 5.0))
def test_dearer_energy_never_takes_less_metal(one, other):
    cheap, dear = sorted((one, other))
    areas = [
        taken.size.area_mm2
        for price in (cheap, dear)
        if (taken := choose_run(RUN, ROOF, YEAR, offers(GAUGES), Worth(price, 14.0)).taken)
    ]
    assert areas[0] <= areas[1]


def test_a_year_of_hours_is_taken_as_it_comes():
    hours = np.tile([0.0, 4.0, 9.0], 2920)
    by_hour = year_kwh(GAUGES[4], ROOF, 9.0, Flow(hours))
    assert by_hour == pytest.approx(year_kwh(GAUGES[4], ROOF, 9.0, Flow((0.0, 4.0, 9.0), hours_each=2920.0)))


def test_cheap_aluminium_is_taken_a_size_or_two_thicker():
    mixed = [*offers(METRIC), *offers(ALUMINIUM_METRIC, per_mm2=0.03)]
    air = Laid("IEC", "air", 35.0)
    both, copper = (
        choose_run(RUN, air, YEAR, each, Worth(0.4, 14.0)).taken for each in (mixed, offers(METRIC))
    )
    assert both is not None
    assert copper is not None
    assert both.size.metal == "aluminium"
    assert both.size.area_mm2 > copper.size.area_mm2
    assert both.cost < copper.cost


def test_where_nothing_holds_nothing_is_taken_and_all_is_told():
    chosen = choose_run(RUN, ROOF, YEAR, offers(GAUGES[:3]), NO_WORTH)
    assert chosen.taken is None
    assert all(any(not check.passed for check in row.checks) for row in chosen.looked_at)


@pytest.mark.parametrize(("family", "sizes"), [("IEC", GAUGES), ("NEC", METRIC), ("NEC", ALUMINIUM_METRIC)])
def test_a_size_of_the_other_family_is_not_covered(family, sizes):
    chosen = choose_run(RUN, Laid(family, "air", 30.0), YEAR, offers(sizes), NO_WORTH)
    assert chosen.taken is None
    assert all("NOT COVERED" in {check.verdict for check in row.checks} for row in chosen.looked_at)


@pytest.mark.parametrize("laid", [Laid("NEC", "air", 30.0), Laid("IEC", "air", 30.0)], ids=["NEC", "IEC"])
def test_each_family_names_only_its_own_books(laid):
    size = next(size for size in (GAUGES if laid.family == "NEC" else METRIC) if size.area_mm2 > 9)
    sources = [check.source for check in run_checks(size, RUN, laid, 0.1)]
    other = "IEC" if laid.family == "NEC" else "NEC"
    assert not any(other in source for source in sources)


def test_the_code_asks_both_ways_and_the_larger_rules():
    run = Run(1.0, greatest_of_panels_a(16.0), 15.0, 100.0)
    cool, hot = Laid("NEC", "air", 30.0), Laid("NEC", "air", 66.0)
    ten = next(size for size in GAUGES if size.gauge == "10")
    assert [check.passed for check in run_checks(ten, run, cool, 0.1)] == [True] * 4
    failed = [
        check.rule for check in run_checks(ten, Run(1.0, 24.0, 15.0, 100.0), hot, 0.1) if not check.passed
    ]
    assert failed == ["current in the run in its heat"]
    failed = [
        check.rule for check in run_checks(ten, Run(1.0, 29.0, 15.0, 100.0), cool, 0.1) if not check.passed
    ]
    assert failed == ["terminals of the run stay cool enough"]


def test_a_fuse_above_the_ampacity_does_not_protect():
    ten = next(size for size in GAUGES if size.gauge == "10")
    last = {
        fuse: run_checks(ten, Run(1.0, 5.0, 4.0, 100.0, fuse_a=fuse), Laid("NEC", "air", 30.0), 0.1)[
            -1
        ].passed
        for fuse in (30.0, 35.0)
    }
    assert last == {30.0: True, 35.0: False}


def test_at_its_ampacity_in_30_c_a_wire_is_as_hot_as_its_insulation_bears():
    for size, laid in ((GAUGES[4], Laid("NEC", "air", 30.0)), (METRIC[6], Laid("IEC", "air", 30.0, 70))):
        ampacity = carried_a(size, laid)
        assert ampacity is not None
        assert conductor_c(size, laid, ampacity) == pytest.approx(laid.insulation_c)


@given(st.lists(st.floats(0.0, 30.0), min_size=1, max_size=40))
def test_a_year_s_loss_is_the_sum_of_its_hours(amps):
    size, laid = GAUGES[4], Laid("NEC", "air", 30.0)
    by_hand = sum(
        2 * 7.0 * size.ohm_per_m_at(conductor_c(size, laid, amp, 20.0)) * amp**2 / 1000 for amp in amps
    )
    assert year_kwh(size, laid, 7.0, Flow(tuple(amps), air_c=20.0)) == pytest.approx(by_hand)


def test_a_warm_wire_loses_more_than_a_cold_one_by_its_metal_s_own_figure():
    laid = Laid("IEC", "air", 30.0)
    size = ALUMINIUM_METRIC[0]
    ratio = year_kwh(size, laid, 5.0, Flow((1e-3,), air_c=70.0)) / year_kwh(
        size, laid, 5.0, Flow((1e-3,), air_c=20.0)
    )
    assert ratio == pytest.approx(1 + 0.00403 * 50)


def test_what_is_lost_in_a_year_has_its_price_and_its_resistance():
    row = choose_run(RUN, ROOF, YEAR, offers(GAUGES), Worth(0.4, 12.0)).looked_at[6]
    assert row.lost_a_year == pytest.approx(0.4 * row.kwh_a_year)
    assert row.lost == pytest.approx(12.0 * row.lost_a_year)
    assert row.ohm * RUN.working_a == pytest.approx(row.drop_v)


PAIR = Connector(30.0, 1000.0, 2.5, 6.0)


@pytest.mark.parametrize(("family", "asked_a"), [("NEC", 13.359375), ("IEC", 10.6875)])
def test_connectors_carry_what_the_family_asks(family, asked_a):
    found = connector_checks(PAIR, METRIC[5], 8.55, 104.0, family)
    assert found[0].demand == pytest.approx(asked_a)
    assert all(check.passed for check in found)


def test_connectors_are_not_crimped_on_hairs_nor_on_aluminium_nor_on_bars():
    verdicts = [
        connector_checks(PAIR, size, 8.55, 104.0, "IEC")[2].verdict
        for size in (METRIC[3], METRIC[5], METRIC[8], ALUMINIUM_METRIC[0])
    ]
    assert verdicts == ["NOT COVERED", "holds", "TOO MUCH", "NOT COVERED"]
    assert not connector_checks(PAIR, METRIC[5], 25.0, 1100.0, "IEC")[0].passed
    assert not connector_checks(PAIR, METRIC[5], 8.55, 1100.0, "IEC")[1].passed


def test_lengths_are_whole_metres_of_each_colour_and_size():
    bought = metres_to_buy([Laying(METRIC[5], 10.0, 2), Laying(METRIC[6], 0.4), Laying(METRIC[5], 1.0)])
    assert bought == {f"{METRIC[5].name} copper": 48, f"{METRIC[6].name} copper": 2}


@given(st.lists(st.integers(1, 20), max_size=8))
def test_every_string_takes_a_pair_more_than_it_has_panels(panels):
    assert connector_pairs(panels) == sum(panels) + len(panels)


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        (lambda: Laid("NEC", "air", 30.0, 70), "60, 75, 90"),
        (lambda: Laid("IEC", "air", 30.0, 75), "70, 90"),
        (lambda: Laid("IEC", "air", 30.0, terminal_c=75), "terminals"),
        (lambda: Laid("NEC", "air", 30.0, beside=-1), "0 others"),
        (lambda: Run(-1.0, 1.0, 1.0, 1.0), "length"),
        (lambda: Run(1.0, 1.0, 0.0, 1.0), "above 0"),
        (lambda: Run(1.0, 1.0, 1.0, 1.0, drop_share=1.0), "share"),
        (lambda: Sold(METRIC[0], -1.0), "0 or more"),
        (lambda: Worth(math.nan, 1.0), "0 or more"),
        (lambda: Flow(()), "0 A or more"),
        (lambda: Flow((-1.0,)), "0 A or more"),
        (lambda: Flow((math.nan,)), "0 A or more"),
        (lambda: Flow((1.0,) * 2, hours_each=5000.0), "8784"),
        (lambda: Connector(30.0, 1000.0, 6.0, 2.5), "some sizes"),
        (lambda: Connector(30.0, 1000.0, 2.5, 6.0, -1.0), "0 ohm"),
        (lambda: Laying(METRIC[0], -1.0), "length"),
        (lambda: connector_pairs([0]), "a panel or more"),
    ],
)
def test_nonsense_is_refused_with_its_reason(wrong, words):
    with pytest.raises(ValueError, match=words):
        wrong()
