"""Laws of current that enters and leaves a bus in steps."""

import subprocess
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.ribbon.bus import BusRun, bus_equivalent_ohm, buses_equivalent_ohm, whole_current_mm
from panewright.ribbon.resistance import ohm_per_m
from panewright.ribbon.strip import Strip

BUS = Strip("5 x 0.2", 5.0, 0.2)
places = st.lists(st.floats(0.0, 900.0), min_size=1, max_size=8)


def test_one_tab_to_one_lead_is_a_plain_resistor():
    assert bus_equivalent_ohm(BUS, BusRun((0.0,), (250.0,))) == pytest.approx(0.25 * ohm_per_m(BUS))


def test_two_tabs_to_two_tabs_by_hand():
    # 1/2 over 50, whole over 100, 1/2 over 50: 12.5 + 100 + 12.5
    assert whole_current_mm(BusRun((0.0, 50.0), (150.0, 200.0))) == pytest.approx(125.0)


def test_a_run_further_on_carries_the_whole_current():
    run, longer = BusRun((0.0, 50.0), (50.0,)), BusRun((0.0, 50.0), (50.0,), on_mm=80.0)
    assert whole_current_mm(longer) - whole_current_mm(run) == pytest.approx(80.0)
    assert longer.length_mm == 130.0


@given(places, places)
def test_the_way_back_loses_the_same(enters, leaves):
    there, back = BusRun(tuple(enters), tuple(leaves)), BusRun(tuple(leaves), tuple(enters))
    assert whole_current_mm(there) == pytest.approx(whole_current_mm(back), rel=1e-9, abs=1e-9)


@given(places, places, st.floats(-500.0, 500.0))
def test_where_the_bus_is_measured_from_does_not_matter(enters, leaves, shift):
    here = BusRun(tuple(enters), tuple(leaves))
    there = BusRun(tuple(e + shift for e in enters), tuple(x + shift for x in leaves))
    assert whole_current_mm(here) == pytest.approx(whole_current_mm(there), rel=1e-6, abs=1e-6)


@given(places, places)
def test_no_bus_loses_more_than_the_whole_current_over_its_whole_length(enters, leaves):
    run = BusRun(tuple(enters), tuple(leaves))
    assert 0 <= whole_current_mm(run) <= run.length_mm * (1 + 1e-9)


def test_pieces_of_bus_add():
    runs = (BusRun((0.0, 78.0), (160.0, 238.0)), BusRun((0.0, 78.0), (39.0,), on_mm=40.0))
    whole = bus_equivalent_ohm(BUS, runs[0], 60.0) + bus_equivalent_ohm(BUS, runs[1], 60.0)
    assert buses_equivalent_ohm(BUS, runs, 60.0) == pytest.approx(whole)


def test_a_bus_without_tabs_is_refused():
    with pytest.raises(ValueError, match="enters and leaves"):
        BusRun((), (1.0,))


@pytest.mark.peer("ngspice")
def test_loss_in_a_bus_is_what_an_outside_simulator_says(tmp_path):
    enters, leaves = (0.0, 52.0, 104.0), (160.0, 212.0, 264.0)
    nodes = (*enters, *leaves)
    lines = [
        "* bus of three tabs in and three out",
        ".options reltol=1e-10 abstol=1e-16 vntol=1e-16 gmin=1e-18",
    ]
    lines += [f"I{n} {'0 n' if n < 3 else 'n'}{n}{'' if n < 3 else ' 0'} {1 / 3:.17g}" for n in range(6)]
    spans = pairwise(nodes)
    lines += [f"R{n} n{n} n{n + 1} {ohm_per_m(BUS) * (b - a) / 1000:.17g}" for n, (a, b) in enumerate(spans)]
    lines += ["Rground n5 0 1e-6", ".control", "set numdgt=12", "op"]
    lines += [
        "let loss = (v(n0)+v(n1)+v(n2)-v(n3)-v(n4)-v(n5))/3",
        "print loss",
        "quit 0",
        ".endc",
        ".end",
        "",
    ]
    netlist = tmp_path / "bus.cir"
    netlist.write_text("\n".join(lines))
    done = subprocess.run(
        ["ngspice", "-b", str(netlist)], capture_output=True, text=True, check=True, timeout=30
    )
    loss = next(float(line.split("=")[1]) for line in done.stdout.splitlines() if line.startswith("loss"))
    assert loss == pytest.approx(bus_equivalent_ohm(BUS, BusRun(enters, leaves)), rel=1e-8)
