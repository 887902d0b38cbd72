"""Boxes packed: the newest row of a line holds, beside the steps of the bench and never among them."""

from __future__ import annotations

import pytest
from words import NOON, begun, later

from panewright.errors import RecordError
from panewright.ledger.kept import upgrade
from panewright.ledger.kept.check import check
from panewright.ledger.open import Ledger, engine_of, open_ledger, url_of
from panewright.ledger.orders.kits import Packed, all_packed, pack, packed
from panewright.ledger.serials.life import life
from panewright.ledger.serials.steps import tick, ticks
from panewright.ledger.serials.telling import told


def test_the_newest_row_of_a_line_holds(ledger):
    panel, other = begun(ledger)
    pack(ledger, panel, "kit: rail 900", by="Ann", at=NOON)
    pack(ledger, panel, "kit paper: label", by="Ben", at=later(1))
    pack(ledger, panel, "kit: rail 900", by="Ben", at=later(2), done=False)
    assert packed(ledger, panel) == (
        Packed("kit: rail 900", False, "Ben", later(2)),
        Packed("kit paper: label", True, "Ben", later(1)),
    )
    assert len(all_packed(ledger, panel)) == 3
    assert packed(ledger, other) == ()
    assert ticks(ledger, panel) == ()


def test_a_tap_that_comes_twice_packs_once_and_the_life_tells_it(ledger):
    panel, _ = begun(ledger)
    for _ in range(2):
        pack(ledger, panel, "kit: rail 900", by="Ann", at=NOON, tap="t" * 24)
    assert len(all_packed(ledger, panel)) == 1
    assert "In its box" in told(life(ledger, panel))
    assert "rail 900 (Ann)" in told(life(ledger, panel))
    assert check(ledger).faults == ()


def test_a_box_that_is_not_known_is_told(ledger):
    with pytest.raises(RecordError, match="the records do not know it"):
        pack(ledger, "JL-7777", "kit: x", by="Ann", at=NOON)


def test_what_was_ticked_as_a_step_before_lies_in_the_box_after(tmp_path):
    where = str(tmp_path / "shop.db")
    engine = engine_of(url_of(where))
    upgrade.to(engine, "0005")
    ledger = Ledger(engine, None)
    panel, _ = begun(ledger)
    for step in ("kit: rail 900", "tab", "kitchen"):
        tick(ledger, panel, step, by="Ann", at=NOON)
    ledger.close()
    ledger = open_ledger(where)
    assert packed(ledger, panel) == (Packed("kit: rail 900", True, "Ann", NOON),)
    assert len(ticks(ledger, panel)) == 3
    assert check(ledger).faults == ()
    ledger.close()
