"""Spares for a faulty panel out of a lot of the shop's records: which one, and the watts with it."""

from __future__ import annotations

import shutil
from datetime import UTC, datetime

import numpy as np
import pytest

from examples import FOLDER, made
from panewright.bench.fault.foretold import Foretold
from panewright.bench.fault.kinds import KINDS
from panewright.bench.fault.place.belief import Spot, State
from panewright.bench.fault.rework import rework
from panewright.cell.damage import Exchanged
from panewright.cell.key_points import key_points as cell_points
from panewright.circuit.damage import Fault, damaged
from panewright.circuit.maxima import key_points
from panewright.circuit.place import CellAt
from panewright.desk.fault import found as finding
from panewright.desk.fault import lines, recorded, spares
from panewright.desk.lots import kept
from panewright.desk.lots.looked import looked
from panewright.desk.shop.shop import Shop
from panewright.desk.shop.who import Who
from panewright.errors import RecordError
from panewright.ledger.orders.orders import save_order
from panewright.ledger.serials.laid import Laying, lay
from panewright.panel.electric.watts import wired_of
from panewright.panel.electric.wiring import network_at

NOW = datetime(2026, 6, 20, 14, 0, tzinfo=UTC)
WEAK = next(kind for kind in KINDS if kind.key == "weak cell")
PLACE = CellAt(0, 5)


@pytest.fixture(scope="module")
def design():
    return made("henhouse").design


@pytest.fixture(scope="module")
def foretold(design):
    wired = wired_of(design)
    return Foretold(lambda light, heat: network_at(wired, light, heat), 1000.0, 25.0)


@pytest.fixture
def ledger(tmp_path, empty_shop):
    """A shop with a lot of measured cells and a panel begun."""
    shutil.copytree(empty_shop, tmp_path / "shop")
    opened, who = Shop.open(tmp_path / "shop"), Who("Ann", NOW, "t1")
    text = (FOLDER / "henhouse.toml").read_text()
    save_order(opened.ledger, "HD-2", text, seen=0, by="Ann", at=NOW)
    opened.begin_serials("HD-2", 1, made("henhouse"), Who("Ann", NOW))
    data = (FOLDER / "lots" / "barn-roof.csv").read_bytes()
    kept.take(opened.ledger, "barn", data, looked(data, "barn-roof.csv"), who)
    yield opened.ledger
    opened.close()


def test_spares_are_the_lots_cells_behind_the_panels_pane_without_those_that_lie_in_panels(ledger, design):
    every = spares.spares_of(ledger, "barn", design)
    watts = [cell_points(each.cell).power_w for each in every]
    assert watts == sorted(watts)
    assert 1 < len(every) <= spares.MOST
    lay(ledger, "0051", Laying(1, "barn", every[0].name), by="Ann", at=NOW)
    assert every[0].name not in {each.name for each in spares.spares_of(ledger, "barn", design)}


def test_one_of_them_is_proposed_and_its_watts_are_the_circuits(ledger, design, foretold):
    every = spares.spares_of(ledger, "barn", design)
    told = rework(foretold, Spot(WEAK, PLACE, (0.4,), (1.0,)), every, "open")
    cell = next(each.cell for each in every if each.name == told.spare)
    network = damaged(foretold.stc_with(), Fault(Exchanged(cell), PLACE))
    assert told.after_w == pytest.approx(key_points(network).power_w, rel=1e-9)
    assert told.after_w > told.before_w


def test_a_lot_that_holds_no_measured_cells_is_told(ledger, design):
    with pytest.raises(RecordError, match="spares = attic: No measured cells are kept of this lot"):
        spares.spares_of(ledger, "attic", design)


def test_the_finding_hands_them_on_and_tells_them(ledger, design, monkeypatch):
    """What is believed is set to one weak cell, so that no readings have to narrow it down here."""
    import sys
    from pathlib import Path

    sys.path.append(str(Path(__file__).parents[1] / "rating"))
    import invented_bench as invented

    from panewright.desk.rating.bench_text import read_bench
    from panewright.desk.rating.measured import read
    from panewright.desk.rating.rated import Panel
    from panewright.desk.rating.typed import typed

    monkeypatch.setattr(
        finding, "begin", lambda foretold, _: State(foretold, (Spot(WEAK, PLACE, (0.4,), (1.0,)),))
    )
    bench = read_bench((invented.BENCH / "henhouse-bench.toml").read_bytes(), "henhouse-bench.toml")
    name = "henhouse-cold-joint.csv"
    curve = read((invented.BENCH / name).read_bytes(), name)
    every = spares.spares_of(ledger, "barn", design)[::10]
    look = finding.found(Panel(design), curve, (typed(bench.words), bench.instruments), (), "open", every)
    told = recorded.of_finding(look)
    assert told["rework"]["spare"] in {each.name for each in every}
    assert np.isfinite(told["rework"]["spares"][0]["after_w"])
    assert "With the best spares: " in "\n".join(lines.lines(told))
