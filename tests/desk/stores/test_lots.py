"""How many labels a lot needs, and which lot a scanned code means."""

import shutil
from datetime import UTC, datetime
from decimal import Decimal

import pytest

from panewright.desk.stores.lots import code_of, mark_of, shown_lot
from panewright.ledger.open import open_ledger
from panewright.ledger.stores.lots import Lot, save_lot


@pytest.fixture
def ledger(tmp_path, empty_shop):
    shutil.copytree(empty_shop, tmp_path, dirs_exist_ok=True)
    opened = open_ledger(tmp_path / "shop.db")
    yield opened
    opened.close()


def kept(ledger, mark, unit="each", amount=None):
    lot = Lot("silicone", "neutral", unit, amount=amount and Decimal(amount))
    save_lot(ledger, mark, lot, seen=0, by="Ann", at=datetime.now(UTC))
    return shown_lot(ledger, mark)


@pytest.mark.parametrize(
    ("unit", "amount", "labels"),
    [
        ("cartridge", "12", 12),
        ("Cartridges", "12", 12),
        ("boxes", "3", 3),
        ("each", "200", 1),
        ("m", "50", 1),
        ("roll", "1.5", 1),
        ("roll", None, 1),
        ("tin", "0", 1),
    ],
)
def test_what_comes_in_pieces_gets_a_label_for_each(ledger, unit, amount, labels):
    assert kept(ledger, "S1", unit, amount).pieces == labels


@pytest.mark.parametrize("mark", ["C1", "roll 3", "LOT-7", "40063813", "é-1"])
def test_a_code_leads_back_to_its_mark_and_so_does_the_mark_itself(ledger, mark):
    kept(ledger, mark)
    assert mark_of(ledger, code_of(mark)) == mark_of(ledger, f" {mark} ") == mark


def test_a_label_is_read_as_a_label_whatever_marks_there_are(ledger):
    kept(ledger, "LOT-7")
    assert mark_of(ledger, "LOT-7") == "LOT-7"  # typed
    kept(ledger, "7")
    assert mark_of(ledger, code_of("7")) == "7"
    assert mark_of(ledger, code_of("LOT-7")) == "LOT-7"
    assert mark_of(ledger, "LOT-") == mark_of(ledger, "") == mark_of(ledger, "LOT-9") == ""
