"""A plan's numbers, reckoned again by hand from what its rooms are known to give."""

from datetime import timedelta
from itertools import pairwise

import numpy as np
import pytest

from panewright.array.plan.composed import plan_of
from panewright.array.plan.legs import CONNECTOR, DOWN, STRINGS
from panewright.array.plan.panel import of_label
from panewright.array.plan.placing import placed
from panewright.array.plan.weather import drawn_w, weathered
from panewright.wire.sizes import METRIC
from planned import plan, site

TYPED = (
    "\n[controller]",
    '\n[[string]]\npanels = "new 1, new 2"\n[[string]]\npanels = "old 1, old 2"\n[controller]',
)
CROSSED = (
    "\n[controller]",
    '\n[[string]]\npanels = "new 1, old 1"\n[[string]]\npanels = "old 2, new 2"\n[controller]',
)
POST = (
    "[controller]",
    '[[thing]]\nkind = "post"\neast = "1 m"\nnorth = "-1 m"\nheight = "3 m"\nwidth = "200 mm"\n[controller]',
)
ABREAST = "".join(f'[[string]]\npanels = "{name}"\n' for name in ("new 1", "new 2", "old 1", "old 2"))
DIRECT = ('[controller]\nkind = "mppt"', f'{ABREAST}[controller]\nkind = "direct"')


@pytest.fixture(scope="module")
def made():
    return plan()


def leg(made, name):
    return next(each for each in made.legs if each.name == name)


def test_every_panel_lies_in_one_string_or_in_none(made):
    wired = [p for each in made.inputs for row in each.rows for p in row.panels]
    assert sorted([*wired, *made.left_out]) == [0, 1, 2, 3]
    assert [panel.serial for panel in made.panels] == ["new 1", "new 2", "old 1", "old 2"]


def test_energy_closes_month_by_month(made):
    own = plan(POST)
    lost = own.year.lost_kwh()
    fallen = own.year.hours.by_month(own.year.light_w.sum(axis=1)) / 1000
    assert fallen - sum(lost.values()) == pytest.approx(own.year.month_kwh(), rel=1e-9)
    assert own.wire_kwh == pytest.approx(lost["wire"].sum())
    assert lost["shade"].sum() > 0.005 * fallen.sum()  # the post
    assert own.year.kwh < made.year.kwh


def test_what_wires_lose_in_the_year_is_what_their_sizes_say_with_the_connectors(made):
    """Two ways: volts times amperes of the year, and squares of the currents through tables of wire."""
    tables = leg(made, STRINGS).kwh_a_year + leg(made, DOWN).kwh_a_year
    rows = [row for each in made.inputs for row in each.rows]
    pairs = made.connector_pairs * CONNECTOR.ohm
    squares = (np.asarray(leg(made, STRINGS).flow.amps) ** 2).sum()
    assert made.wire_kwh == pytest.approx(tables + pairs * squares / 1000, rel=0.02)
    assert made.connector_pairs == sum(len(row.panels) + 1 for row in rows)


def test_cold_voltage_is_by_the_table_of_factors_for_panels_nobody_knows(made):
    """NEC table 690.7(A), -11 to -15 degC: 1.16 (seen)."""
    strings = [[made.panels[p].plate.voc_v for p in row.panels] for row in made.inputs[0].rows]
    assert made.cold_v == pytest.approx(1.16 * max(sum(volts) for volts in strings), rel=1e-6)


def test_hot_cells_are_those_of_full_sun_in_record_heat(made):
    """Faiman 2008 in the open: 35 + 1000 / (25 + 6.84) with hardly a wind."""
    assert made.hot_cell_c == pytest.approx(35 + 1000 / 31.84, abs=1e-6)


def test_each_fuse_follows_from_the_other_strings_at_its_input(made):
    """IEC 62548: the others' Isc against the label's fuse (recalled)."""
    rows = [[made.panels[p].plate for p in row.panels] for row in made.inputs[0].rows]
    isc = [max(plate.isc_a for plate in row) for row in rows]
    for number, fuse in enumerate(made.fuses):
        assert fuse.string == number
        assert fuse.reverse_a == pytest.approx(sum(isc) - isc[number])
        assert fuse.needed == (sum(isc) - isc[number] > min(plate.fuse_a for plate in rows[number]))


def test_metres_are_out_and_back_with_a_tenth_for_bends(made):
    by_hand: dict[str, float] = {}
    for each in made.legs:
        name = f"{each.chosen.taken.size.name} copper"
        by_hand[name] = by_hand.get(name, 0.0) + 2 * 1.1 * each.run.one_way_m * each.count
    assert {name: metres >= by_hand[name] for name, metres in made.metres.items()} == dict.fromkeys(
        by_hand, True
    )
    assert all(metres < by_hand[name] + 2 for name, metres in made.metres.items())


def test_the_size_taken_costs_least_of_those_that_keep_the_rules(made):
    """Price by the metre and lost energy over 25 years at 3 %: 17.413 years' worth (annuity factor)."""
    taken = leg(made, DOWN).chosen.taken
    costs = {}
    for option in leg(made, DOWN).chosen.looked_at:
        metres = 2 * 1.1 * 10.0
        price = metres * (0.40 + 0.20 * option.size.area_mm2)
        if option.holds:
            costs[option.size.name] = price + option.kwh_a_year * 0.60 * 17.41314769
    assert min(costs, key=costs.get) == taken.size.name
    assert {size.name for size in METRIC} >= set(costs)


def test_from_the_inputs_to_the_bank_nothing_is_lost_untold(made):
    """One clear-sky year: what the inputs give is used, or lost by a cause."""
    own = made.balance
    assert own.years == 1
    assert own.used_kwh + sum(own.way_kwh.values()) == pytest.approx(made.year.month_kwh(), abs=1e-6)
    assert own.offered_kwh - own.used_kwh == pytest.approx(own.unused_kwh)


def test_the_load_is_served_or_missing(made):
    own = made.balance
    load = 0.045 * 24 * np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
    night = own.served_kwh + own.missing_kwh - load  # the controller's own watt while nothing comes
    assert (night > 0).all()
    assert (night < 0.001 * 24 * 31).all()
    assert own.served_share == pytest.approx(own.served_kwh.sum() / (own.served_kwh + own.missing_kwh).sum())
    assert own.worst_share == own.served_share
    assert own.charge.shape == (8760,)
    assert ((own.charge >= 0) & (own.charge <= 1)).all()


def test_capital_and_the_cost_of_a_kwh_are_annuities_by_hand(made):
    watts = sum(panel.member.rated_w for panel in made.panels)
    strings = sum(len(each.rows) for each in made.inputs)
    wires = sum(each.chosen.taken.price * each.count for each in made.legs)
    bank = 180 * 200 * 12 / 1000
    capital = 0.80 * watts + 60 * strings + 250 + wires + bank
    assert float(made.capital) == pytest.approx(capital, abs=0.01)
    years = range(1, 26)
    lasts = made.balance.bank_years
    bought = {int(np.ceil(lasts * n)) for n in range(1, 50) if np.ceil(lasts * n) < 25}
    money = capital + sum(bank / 1.03**year for year in bought)
    energy = made.balance.served_kwh.sum() * sum(0.995 ** (y - 1) / 1.03**y for y in years)
    assert float(made.per_kwh) == pytest.approx(money / energy, rel=1e-4)


def test_the_front_is_not_beaten_by_itself(made):
    assert made.front
    for cheap, dear in pairwise(made.front):
        assert dear.per_kwh >= cheap.per_kwh
        assert dear.served.share > cheap.served.share


def test_a_likely_range_holds_the_year_and_the_best_turn_is_no_worse(made):
    assert made.likely.low_kwh < made.year.kwh < made.likely.high_kwh
    assert made.turns.kwh >= made.turns.now_kwh
    assert 120 < made.turns.azimuth_deg < 240  # the northern half of the earth looks south


@pytest.mark.parametrize("typed", [TYPED, CROSSED], ids=["alike", "crossed"])
def test_typed_strings_are_kept_and_never_better_than_the_best_found(made, typed):
    own = plan(typed)
    assert own.arrangement is None
    assert own.best is not None
    assert own.weighed_share <= 1 - own.best.lost_share + 1e-9
    assert own.year.kwh <= made.year.kwh * 1.003  # 48 moments stand for the year
    named = [[own.panels[p].serial for p in row.panels] for row in own.inputs[0].rows]
    assert ", ".join(named[0]) == typed[1].split('"')[1]


def test_a_short_string_beside_a_long_one_weighs_what_the_year_gives():
    """Past its open voltage a string swallows current: the year's circuit and the weighing agree."""
    uneven = '\n[[string]]\npanels = "new 1, new 2, old 1"\n[[string]]\npanels = "old 2"\n[controller]'
    own = plan(("\n[controller]", uneven))
    assert own.kept_share < 0.6
    assert own.weighed_share == pytest.approx(own.kept_share, rel=0.03)


def test_panels_in_no_string_count_in_what_is_kept():
    """Two of four lie in no string: what they would give alone is not lost to heat."""
    own = plan(("\n[controller]", '\n[[string]]\npanels = "new 1, new 2"\n[controller]'))
    assert len(own.left_out) == 2
    watts = [panel.member.rated_w for panel in own.panels]
    assert own.kept_share == pytest.approx(sum(watts[:2]) / sum(watts), rel=0.02)
    assert own.year.lost_kwh()["heat"].sum() < 0.1 * own.year.light_w.sum() / 1000


def test_unlike_panels_crossed_in_strings_lose_more_together():
    alike, crossed = plan(TYPED), plan(CROSSED)
    assert crossed.year.lost_kwh()["together"].sum() > alike.year.lost_kwh()["together"].sum()
    assert crossed.kept_share < alike.kept_share


def test_a_direct_controller_gives_the_current_at_the_battery_s_voltage():
    """12 V panels side by side; what the strings could give at their best is clamped, dropped, or used."""
    own = plan(DIRECT)
    assert set(own.balance.way_kwh) == {"clamp", "switch", "run", "limit", "held back"}
    assert own.balance.way_kwh["clamp"].sum() > 0
    assert own.controlled.output_kwh.sum() < plan().controlled.output_kwh.sum()
    assert own.balance.used_kwh + sum(own.balance.way_kwh.values()) == pytest.approx(
        own.year.month_kwh(), abs=1e-6
    )


def test_without_a_battery_the_output_is_told_and_nothing_of_a_bank():
    bare = (
        ('current = "40 A"', 'power = "500 W"\nleast = "30 V"'),
        ('[battery]\nkind = "agm"\nvolts = "12 V"\ncapacity = "200 Ah"\n', ""),
        ('[[load]]\npower = "45 W"\n', ""),
        ('[sizes]\nstrings = "1, 2"\nbank = "50 Ah, 400 Ah"\nserved = "50 %, 90 %"\n', ""),
    )
    own = plan(*bare)
    assert (own.balance, own.front) == (None, ())
    assert {each.name for each in own.legs} == {STRINGS, DOWN}
    assert not [check for check in own.checks if "battery" in check.rule or "charge" in check.rule]
    assert not [need for need in own.needs if "battery" in need.thing]
    assert all(len(row.panels) >= 2 for each in own.inputs for row in each.rows)  # 30 V asks for two
    assert 0.85 < own.controlled.output_kwh.sum() / own.year.kwh < 1
    assert own.per_kwh > 0


def test_where_no_string_fits_the_limits_fail_and_all_else_is_told():
    own = plan(('most = "100 V"', 'most = "100 V"\nleast = "95 V"'))
    assert not own.proven
    assert "No string" in own.said[0]
    failed = [check.rule for check in own.checks if not check.passed]
    assert "hottest string finishes the charge" in failed
    assert own.year.kwh >= 0


def test_a_record_cold_that_no_table_covers_is_not_covered_and_told():
    own = plan(('coldest = "-15 degC"', 'coldest = "-50 degC"'), TYPED)
    assert own.cold_v is None
    assert [check for check in own.checks if not check.covered]
    assert not own.proven


def test_american_rules_take_gauges():
    own = plan(('name = "Hut"', 'name = "Hut"\nunits = "us"'), TYPED)
    assert all("AWG" in each.chosen.taken.size.name for each in own.legs)
    assert {need.thing for need in own.needs if need.needed} >= {"rapid shutdown", "listed panels"}
    assert all("IEC" not in check.source for check in own.checks if check.room in ("array", "wire"))


def test_loads_go_by_the_local_clock():
    """By a calendar of the standard library: 18 to 22 o'clock, an hour east of Greenwich."""
    own = site(('power = "45 W"', 'power = "45 W"\nfrom = 18\nuntil = 22\nmonths = "2"'))
    hours = weathered(own, None).usual
    told = drawn_w(own, hours)
    for hour in (0, 800, 1033, 1034, 1035, 1036, 1037, 1038, 1039, 1040, 5000):
        local = hours.middles[hour].astype("datetime64[s]").item() + timedelta(hours=1)
        on = local.month == 2 and 18 <= local.hour < 22
        assert told[hour] == (45.0 if on else 0.0)
    assert told.sum() == 45 * 4 * 28


def test_how_far_it_is_goes_up_to_the_end():
    own = site(TYPED)
    heard = []
    known = {each.known: of_label(each.known.label) for each in own.panels}
    panels = placed(own, [known[each.known] for each in own.panels])
    again = plan_of(own, panels, weathered(own, None), lambda share, words: heard.append((share, words)))
    shares = [share for share, _ in heard]
    assert shares == sorted(shares)
    assert (shares[0], shares[-1]) == (0.0, 1.0)
    assert again.year.kwh == plan(TYPED).year.kwh  # the same again gives the same
    assert again.checks == plan(TYPED).checks
