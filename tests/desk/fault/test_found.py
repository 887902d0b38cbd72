"""What is wrong with the invented panel: its cold joint found, and told to the joint by further readings."""

from __future__ import annotations

import json
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from examples import made

sys.path.append(str(Path(__file__).parents[1] / "rating"))

import invented_bench as invented

from panewright.bench.fault.finding import find
from panewright.bench.fault.foretold import Foretold
from panewright.bench.fault.readings import AS_BUILT
from panewright.bench.rate import of_design
from panewright.bench.rate.known_cells import MEASURED
from panewright.desk.fault import drawn, lines, recorded
from panewright.desk.fault.by_command import tells_of
from panewright.desk.fault.found import Tell, found
from panewright.desk.fault.points import points
from panewright.desk.rating.bench_text import read_bench
from panewright.desk.rating.measured import read
from panewright.desk.rating.rated import Panel
from panewright.desk.rating.sources import sources
from panewright.desk.rating.typed import typed
from panewright.errors import BenchError
from panewright.panel.electric.watts import wired_of
from panewright.panel.electric.wiring import network_at


@pytest.fixture(scope="module")
def look():
    """What readings of the henhouse panel say."""
    bench = read_bench((invented.BENCH / "henhouse-bench.toml").read_bytes(), "henhouse-bench.toml")
    design = made("henhouse").design

    def looked(name, tells=(), lies="closed", **words):
        curve = read((invented.BENCH / name).read_bytes(), name)
        told = typed({**bench.words, **words})
        return found(Panel(design), curve, (told, bench.instruments), tells, lies)

    return looked


@pytest.fixture(scope="module")
def cold(look):
    return look("henhouse-cold-joint.csv")


def test_a_shop_s_own_shares_are_taken_and_told(look):
    """A joint too poor for sure in a shop where one panel in seven is sound: less so where nearly all are."""
    alike, own = look("henhouse-cold-joint.csv"), {"shares.healthy": "97 %", "shares.dimmed": "1 %"}
    shop = look("henhouse-cold-joint.csv", **own)
    assert "Before any reading 14.3% of panels were taken to be sound" in alike.before
    assert "97% of panels were taken to be sound, by the shop's own shares." in shop.before
    odds = [each.finding.healthy_odds / (1 - each.finding.healthy_odds) for each in (alike, shop)]
    least = 0.97 / 0.03 * 6  # by Bayes' rule, were all groups but the joint's out of the question
    assert odds[1] / odds[0] > 0.1 * least
    assert alike.before in "\n".join(lines.lines(recorded.of_finding(alike)))
    with pytest.raises(BenchError, match="more than all panels"):
        look("henhouse-cold-joint.csv", **{"shares.healthy": "97 %", "shares.dimmed": "10 %"})


def test_a_sound_panel_is_not_called_faulty_and_what_would_be_is_told(look):
    sound = look("henhouse-sweep.csv")
    told = recorded.of_finding(sound)
    assert not told["called"]
    assert (told["next"], told["cells"], told["rework"]) == ([], [], None)
    assert {each["words"] for each in told["too_small"]} >= {"one weak cell", "a resistance too much"}


def test_a_cold_joint_is_found_with_its_size_and_cost(cold):
    told = recorded.of_finding(cold)
    assert told["called"]
    assert told["suspects"][0]["group"] == "added resistance"
    (size,) = cold.finding.first.size
    assert size.low < invented.COLD_OHM < size.high
    assert 4 < told["suspects"][0]["cost_w"] < 7
    assert len(told["next"]) == 3
    assert sum(each["odds"] for each in told["next"][0]["outcomes"]) == pytest.approx(1, abs=0.05)
    json.dumps(told, allow_nan=False)


def test_further_readings_narrow_it_down(look):
    """The reading given is the middle of the outcome that holds the true cell."""
    tells = []
    state = look("henhouse-cold-joint.csv", (), "open")
    for _ in range(2):
        advice = state.next[0]
        right = next(each for each in advice.outcomes if _holds(each.words, invented.COLD_CELL))
        ratio = (right.low + right.high) / 2
        tells.append(Tell(1, (2.0 * ratio, 2.0) if len(advice.asks) == 2 else (ratio,), "open"))
        state = look("henhouse-cold-joint.csv", tells, "open")
        if not state.next:
            break
    told = recorded.of_finding(state)
    cells = [each["cell"] for each in told["cells"] if each["odds"] > 0.02]
    assert invented.COLD_CELL in cells
    assert len(cells) < 20
    assert [len(each["readings"]) for each in told["told"]] == [len(each.readings) for each in tells]
    marks = drawn.classes(told)
    assert marks[invented.COLD_CELL] == "suspect"


def _holds(words, cell):
    import re

    spans = re.findall(r"cells? (\d+)(?: to (\d+))?", words)
    return any(int(low) <= cell <= int(high or low) for low, high in spans)


def test_light_or_heat_told_by_the_panel_itself_finds_nothing(look):
    for words in ({"heat.by": "Voc itself"}, {"light.by": "own Isc"}):
        with pytest.raises(BenchError, match="would be taken for"):
            look("henhouse-sweep.csv", **words)


def test_readings_that_fit_no_measurement_are_refused(look):
    for tells, said in (
        ([Tell(9, (1.0, 2.0))], "No such measurement was proposed"),
        ([Tell(1, (1.0,))], "not the readings that were asked for"),
        ([Tell(1, (1.0, 0.0))], "The second cannot be 0"),
    ):
        with pytest.raises(BenchError, match=said):
            look("henhouse-cold-joint.csv", tells)
    with pytest.raises(BenchError, match="read = first: many: These are no readings"):
        tells_of(["first: many"], "closed")


def test_it_is_told_in_lines_and_drawn_from_both_sides(cold):
    told = recorded.of_finding(cold)
    page = "\n".join(lines.lines(told))
    for part in (
        "Serial 0051: Faulty",
        "Measure next (1): ",
        "Hidden: A bypass diode",
        "Cells, by their numbers",
    ):
        assert part in page
    files = drawn.drawings(cold.design, told)
    assert set(files) == {"fault-bench.svg", "fault-front.svg"}
    assert b"3%" in files["fault-bench.svg"]


def test_a_panel_of_a_slightly_poorer_lot_is_not_called_faulty():
    """Voc 0.8 % lower, 2 % less current, 0.02 ohm more: nobody knows a built panel better by what went in."""
    text = (invented.BENCH / "henhouse-sweep.csv").read_text().splitlines()
    top = next(k for k, line in enumerate(text) if line.startswith("Time")) + 1
    rows = [line.split(",") for line in text[top:] if line.strip()]
    poorer = [
        f"{t},{0.992 * float(v) - 0.02 * float(i):.4f},{0.98 * float(i):.4f},{light},{heat}"
        for t, v, i, light, heat in rows
    ]
    bench = read_bench((invented.BENCH / "henhouse-bench.toml").read_bytes(), "henhouse-bench.toml")
    curve = read("\n".join([*text[:top], *poorer]).encode(), "poorer.csv")
    design, told = made("henhouse").design, typed(bench.words)
    by, wired = of_design.known(design).coefficients, wired_of(design)
    at = points(curve, sources(curve, told, bench.instruments, by), of_design.predicted(design, MEASURED))
    foretold = Foretold(lambda light, c: network_at(wired, light, c), at.irradiance_w_m2, at.cell_c)
    assert not find(foretold, at).called
    assert find(foretold, replace(at, common=replace(at.common, voc=0.0, series=0.0))).called
    assert (at.common.voc, at.common.series) == (AS_BUILT.voc, AS_BUILT.series)
    assert at.common.light >= 0.01
