"""The fewest bypass diodes that keep shaded cells within a limit."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.cell.diode import Diode
from panewright.circuit.hot.guard import HeatLimit, WattLimit, Wish, guard, split
from panewright.circuit.hot.heat import Cooling, Spread
from panewright.circuit.hot.spot import hot_spots
from panewright.circuit.network import Network, String, Substring
from panewright.enclosure.bypass import Bypass

SCHOTTKY = Bypass("Schottky", 5e-6, 0.027, 0.01, rated_a=15.0, reverse_v=45.0)
SOFT = Diode(8.55, 2.3e-9, 0.02826, 0.003, 20.0, 0.005, -18.0, 3.4)
HARD = replace(SOFT, shunt_ohm=300.0, breakdown_siemens=3e-5, breakdown_v=-30.0)


def panel(cells, strings=1):
    return Network((String((Substring(cells, (0.0012,) * len(cells)),)),) * strings, lead_ohm=0.01)


def worst_w(network):
    return hot_spots(network)[0].absorbed_w


@settings(max_examples=8, deadline=None)
@given(st.integers(6, 24), st.floats(15, 90), st.sampled_from((SOFT, HARD)))
def test_so_many_diodes_hold_the_limit_and_one_fewer_does_not(count, most_w, cell):
    bare = panel((cell,) * count)
    found = guard(bare, Wish(SCHOTTKY, WattLimit(most_w)))
    assert found.check.passed
    assert worst_w(found.network) <= most_w
    if found.diodes > 1:
        string = bare.strings[0]
        fewer = [round(k * count / (found.diodes - 1)) for k in range(found.diodes)]
        assert worst_w(replace(bare, strings=(split(string, fewer, SCHOTTKY),))) > most_w
    elif found.diodes == 1:
        assert worst_w(bare) > most_w


def test_a_string_that_bears_its_own_voltage_needs_no_diode():
    found = guard(panel((SOFT,) * 10), Wish(SCHOTTKY, WattLimit(60.0)))
    assert (found.diodes, found.ends) == (0, ((),))
    assert found.network.strings[0].substrings[0].bypass is None


def test_diodes_end_only_where_they_may():
    found = guard(panel((SOFT,) * 24), Wish(SCHOTTKY, WattLimit(50.0), stops=(6, 10, 16, 22)))
    assert found.ends == ((0, 6, 16, 24),)  # as even as the stops allow; 10, 12 and 2 would hold too
    assert found.check.passed


def test_where_no_diode_helps_the_check_fails_with_every_stop_taken():
    found = guard(panel((SOFT,) * 4), Wish(SCHOTTKY, WattLimit(0.5)))
    assert found.ends == ((0, 1, 2, 3, 4),)
    assert not found.check.passed
    assert found.check.demand == pytest.approx(worst_w(found.network))


def test_soft_cells_at_one_end_do_not_shorten_the_runs_at_the_other():
    mixed = (SOFT,) * 9 + (HARD,) * 9
    found = guard(panel(mixed, strings=2), Wish(SCHOTTKY, WattLimit(36.0)))
    assert found.ends[0] == found.ends[1]
    assert found.check.passed


def test_diodes_that_are_there_already_are_taken_out_first():
    bare = panel((SOFT,) * 12)
    crowded = Network((split(bare.strings[0], (0, 2, 5, 12), SCHOTTKY),), bare.lead_ohm)
    wish = Wish(SCHOTTKY, WattLimit(40.0))
    assert guard(crowded, wish) == guard(bare, wish)


def test_a_turned_cell_keeps_its_place_when_its_string_is_cut():
    string = String((Substring((SOFT,) * 6, (0.0,) * 6, SCHOTTKY, turned=(4,)),))
    cut = split(string, (0, 3, 6), SCHOTTKY)
    assert [part.turned for part in cut.substrings] == [(), (1,)]
    assert split(cut, (), None).substrings[0].turned == (4,)


def test_a_temperature_limit_asks_for_more_diodes_where_it_is_hotter():
    bare, spread = panel((SOFT,) * 24), Spread(24336.0)
    cool, hot = (guard(bare, Wish(SCHOTTKY, HeatLimit(spread, Cooling(air)))) for air in (0.0, 75.0))
    assert cool.diodes < hot.diodes
    assert cool.check.limit == hot.check.limit == 183.0


def test_a_stop_outside_the_string_is_refused():
    with pytest.raises(ValueError, match="cell 1 to 4"):
        guard(panel((SOFT,) * 4), Wish(SCHOTTKY, WattLimit(0.1), stops=(9,)))


@pytest.mark.parametrize("watts", [-1.0, float("nan")])
def test_a_limit_that_is_none_is_refused(watts):
    with pytest.raises(ValueError, match="0 W or more"):
        WattLimit(watts)
