"""What a finding tells: its odds, its sizes, its places, and what it does not claim."""

from dataclasses import replace

import numpy as np
import pytest

from panewright.bench.fault.finding import CALLED_UNDER, SHARES, found, ready
from panewright.bench.fault.kinds import KINDS, Scale
from panewright.bench.fault.readings import AS_BUILT, Common
from panewright.bench.fault.size import size_of
from panewright.bench.fault.wording import alike, hidden
from panewright.cell.diode import Diode
from panewright.circuit.maxima import key_points
from panewright.circuit.network import Network, String, Substring
from panewright.circuit.place import CellAt, DiodeAt

AT = CellAt(0, 5)


@pytest.fixture(scope="module")
def weak(by, swept):
    return found(by, swept(("weak cell", AT, 0.2)))


def test_odds_of_all_groups_add_up_to_one(weak):
    assert sum(each.odds for each in weak.suspects) == pytest.approx(1.0, abs=1e-3)
    assert [each.odds for each in weak.suspects] == sorted((s.odds for s in weak.suspects), reverse=True)


def test_a_weak_cell_may_be_any_cell_of_rows_that_are_alike(weak):
    (places,) = weak.first.places
    assert places == tuple(CellAt(0, number) for number in range(1, 37))


def test_what_it_costs_is_what_the_exact_circuit_gives(by, wrong, weak):
    """At STC, though it was read in 800 W/m2."""
    sound, left = (
        key_points(by.foretold.stc_with(each)).power_w for each in (wrong(), wrong(("weak cell", AT, 0.2)))
    )
    assert weak.first.cost_share == pytest.approx(1 - left / sound, abs=0.01)
    assert weak.first.cost_w == pytest.approx(weak.first.cost_share * by.foretold.stc_w)


def test_what_a_resistance_costs_at_stc_is_more_than_in_the_dull_light_it_was_read_in(by, wrong, swept):
    """It goes by the square of the current."""
    joint = found(by, swept(("resistance", AT, 0.05))).first
    stc = key_points(by.foretold.stc_with(wrong(("resistance", AT, 0.05)))).power_w
    assert joint.group == "added resistance"
    assert joint.cost_w == pytest.approx(by.foretold.stc_w - stc, rel=0.2)


def test_a_crack_dirt_and_a_shadow_are_said_to_be_one(weak):
    assert weak.called
    assert weak.first.alike.things == ("a crack", "dirt", "a shadow on one cell")
    assert "Wipe" in weak.first.alike.parted_by
    assert weak.first.size[0].low < 20 < weak.first.size[0].high


def test_an_open_diode_is_said_to_be_hidden_where_there_are_diodes(weak):
    bare = Network((String((Substring((Diode(8.0, 1e-9, 0.027, 0.004, 20.0),) * 2, (0.001,) * 2),)),))
    assert "bypass diode" in weak.hidden[0]
    assert hidden(bare) == ()


def test_a_shorted_diode_lies_at_a_row(by, swept):
    told = found(by, swept(("bypass shorted", DiodeAt(0, 1), 0.0)))
    assert told.first.group == "lost voltage"
    assert told.first.places == ((DiodeAt(0, 0), DiodeAt(0, 1)),)


@pytest.mark.parametrize("common", [Common(), AS_BUILT])
def test_a_joint_that_is_off_beside_its_diode_is_named_and_no_sound_diode_is(by, swept, common):
    """The diode's own drop shows: it is no short. Voc is that of the other row, and no stray."""
    read = swept(("joint open", AT, 0.0))
    told = found(by, replace(read, common=common))
    assert told.first.group == "lost voltage"
    assert dict(told.first.kinds)["joint open",] > 0.9
    assert told.points.voltage_v.size == read.voltage_v.size
    assert told.first.places == (tuple(CellAt(0, number) for number in range(1, 37)),)
    assert "off in the box" in told.first.alike.things[1]


def test_a_shorted_diode_and_an_open_joint_that_are_both_left_come_with_the_test_that_parts_them(wrong):
    told = alike(
        "lost voltage", wrong(("bypass shorted", DiodeAt(0, 1), 0.0)), ["bypass shorted", "joint open"]
    )
    assert "a joint of its row that is off" in told.things
    assert "diode range" in told.parted_by


def test_two_faults_of_one_kind_are_parted_in_one_way(wrong):
    told = alike(
        "two faults", wrong(("cracked cell", CellAt(0, 1), 0.3), ("cracked cell", CellAt(0, 2), 0.2))
    )
    assert told.things == ("a crack", "dirt", "a shadow on one cell")
    assert told.parted_by.count("Wipe the pane") == 1


def test_a_healthy_panel_is_not_called_and_says_that_faults_may_be_too_small(by, swept):
    told = found(by, swept())
    assert told.first.group == "healthy"
    assert not told.called
    assert "too small" in told.words[1]


def test_the_threshold_alone_decides_what_is_called(by, swept):
    read = swept(("weak cell", AT, 0.2))
    assert found(by, read, under=CALLED_UNDER).called
    assert not found(by, read, under=0.0).called


def test_shares_that_know_better_move_the_odds(by, swept):
    read = swept(("dimmed", None, 0.05))
    rare = {**SHARES, "dimmed": 0.001, "healthy": 2 / 7 - 0.001}
    least, usual = (
        sum(s.odds for s in told.suspects if s.group == "dimmed")
        for told in (found(ready(by.foretold, rare), read), found(by, read))
    )
    assert least < usual


def test_words_name_size_and_cost(weak):
    assert "sure" in weak.words[0]
    assert " % of Pmp" in weak.words[0]
    assert np.isfinite(weak.first.cost_w)


def test_a_panel_of_a_slightly_poorer_lot_is_not_called_where_that_is_allowed_for(by, swept):
    """Voc a hundredth lower, heat read to a tenth of a kelvin: of a panel known exactly that is a fault."""
    read = swept()
    poorer = replace(read, voltage_v=read.voltage_v * 0.99)
    exact, built = (
        found(by, replace(poorer, common=replace(common, heat_k=0.1))) for common in (Common(), AS_BUILT)
    )
    assert exact.healthy_odds < 0.1 * built.healthy_odds
    assert not built.called


def test_the_likeliest_strength_lies_within_its_bounds_and_they_are_told_apart():
    kinds, scale = {each.key: each for each in KINDS}, Scale(panel_ohm=1.0, cell_ohm=1.0)
    told = size_of(kinds["shunt"], scale, (21.0, 0.04, 20.0))
    assert told.low <= told.value <= told.high
    assert told.words == "21 ohm beside the cell (0.04 to 21 ohm)"
    sharp = size_of(kinds["weak cell"], scale, (0.2, 0.199, 0.2012))
    assert sharp.words == "20 % less light on it (19.9 to 20.1 %)"
