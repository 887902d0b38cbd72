"""The commands that look after the records, as a person types them."""

import json
import shutil
import sys
from datetime import UTC, datetime
from decimal import Decimal
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

sys.path.append(str(Path(__file__).parents[1] / "ledger"))

import full

from panewright.cli.main import cli
from panewright.desk.shop.shop import Shop
from panewright.errors import RecordError
from panewright.ledger.files import place
from panewright.ledger.open import open_ledger
from panewright.ledger.orders.orders import save_order, versions
from panewright.ledger.stores.stock import Movement, move

NOW = datetime(2026, 5, 4, tzinfo=UTC)


def run(shop: Path, *words: object, said: str | None = None) -> Result:
    environment = {"PANEWRIGHT_SHOP": str(shop), "PANEWRIGHT_RECORDS": ""}
    return CliRunner().invoke(cli, ["ledger", *map(str, words)], env=environment, input=said)


@pytest.fixture
def shop(tmp_path, empty_shop):
    shutil.copytree(empty_shop, tmp_path / "shop")
    ledger = open_ledger(tmp_path / "shop" / "shop.db")
    full.shop(ledger)
    ledger.close()
    return tmp_path / "shop"


def test_a_backup_goes_where_it_is_told_and_comes_back(shop, tmp_path):
    made = run(shop, "backup", tmp_path / "b.zip")
    assert made.exit_code == 0, made.output
    assert "3 files" in made.output
    ledger = open_ledger(shop / "shop.db")
    save_order(ledger, "JL-9", "third", seen=2, by="Ann", at=NOW)
    ledger.close()
    back = run(shop, "restore", tmp_path / "b.zip")
    assert back.exit_code == 0, back.output
    assert "What stood before is kept" in back.output
    ledger = open_ledger(shop / "shop.db")
    assert len(versions(ledger, "JL-9")) == 2
    ledger.close()


def test_a_backup_lies_in_the_shop_where_nothing_else_is_said(shop):
    assert run(shop, "backup").exit_code == 0
    assert len(list((shop / "backups").glob("*.zip"))) == 1


def test_a_restore_into_nothing_makes_a_shop(shop, tmp_path):
    run(shop, "backup", tmp_path / "b.zip")
    assert run(tmp_path / "new", "restore", tmp_path / "b.zip").exit_code == 0
    assert run(tmp_path / "new", "check").output.endswith("files are sound.\n")


def test_a_backup_that_is_none_is_told(shop, tmp_path):
    (tmp_path / "b.zip").write_bytes(b"no zip")
    result = run(shop, "restore", tmp_path / "b.zip")
    assert result.exit_code == 2
    assert "cannot be read as a backup" in result.output
    assert run(shop, "restore", tmp_path / "none.zip").exit_code == 2


def test_check_answers_0_or_1(shop):
    assert run(shop, "check").exit_code == 0
    ledger = open_ledger(shop / "shop.db")
    next(iter((shop / "files").rglob("*/*"))).unlink()
    assert place(ledger, "00").parent.parent == shop / "files"
    ledger.close()
    result = run(shop, "check")
    assert result.exit_code == 1
    assert "is missing." in result.output
    assert run(shop, "backup").exit_code == 1


def test_export_show_and_customer(shop, tmp_path):
    assert run(shop, "export", tmp_path / "out").exit_code == 0
    assert (tmp_path / "out" / "reading.csv").is_file()
    assert "Serial JL-0001: panel 1 of order JL-9" in run(shop, "show", "JL-0001").output
    result = run(shop, "show", "JL-7777")
    assert (result.exit_code, result.output) == (
        2,
        "serial = JL-7777: the records do not know it. Look how it is written.\n",
    )
    assert (
        json.loads(run(shop, "customer", "K-1").output)["versions"][0]["person"]["mail"] == "plum@row.example"
    )


def test_erase_asks_first(shop):
    words = ("erase", "K-1", "--reason", "asked by letter", "--by", "Ann")
    assert run(shop, *words, said="n\n").exit_code == 1
    assert "plum@row.example" in run(shop, "customer", "K-1").output
    result = run(shop, *words, "--yes")
    assert result.exit_code == 0, result.output
    assert "Look at this file: plumrow.jpg" in result.output
    assert "plum@row.example" not in run(shop, "customer", "K-1").output


@pytest.mark.parametrize(
    "command", [("check",), ("backup",), ("show", "X"), ("customer", "X"), ("export", "x")]
)
def test_where_no_records_are_none_are_made(tmp_path, command):
    result = run(tmp_path / "none", *command)
    assert result.exit_code == 2
    assert "there are no records" in result.output
    assert not (tmp_path / "none").exists()


@pytest.mark.parametrize("command", [("check",), ("backup",), ("show", "X")])
def test_records_of_no_bytes_are_lost_ones_and_no_new_shop(tmp_path, command):
    lost = tmp_path / "shop.db"
    lost.touch()
    result = run(tmp_path, *command)
    assert result.exit_code == 2
    assert "the file of the records is empty" in result.output
    assert "ledger restore" in result.output
    with pytest.raises(RecordError, match="is empty"):
        Shop.open(tmp_path)
    assert lost.stat().st_size == 0


def test_panels_of_a_batch_a_lot_and_an_instrument(shop):
    assert run(shop, "batch", "B7").output == "JL-0001: 2 cells and material\n"  # its cells; two more taken
    assert run(shop, "batch", "G1").output == "JL-0001: material\n"
    assert run(shop, "instrument", "meter 2").output == "JL-0001: 3 readings, 2026-05-04 to 2026-05-04\n"
    assert run(shop, "instrument", "meter 2", "--since", "2026-05-05").output == "No panel.\n"
    for wrong in (("batch", "B77"), ("instrument", "meter 3")):
        result = run(shop, *wrong)
        assert result.exit_code == 2
        assert "the records do not know it" in result.output


def test_a_quote_by_the_shops_own_figures(shop):
    order = Path(__file__).parents[2] / "examples" / "kiosk.toml"
    ledger = open_ledger(shop / "shop.db")
    for reason in ("used", "broken"):
        lost = Movement("125 mm mono", Decimal(50), "each", reason)
        move(ledger, lost, by="Ann", at=NOW)
    ledger.close()
    plain = CliRunner().invoke(cli, ["design", str(order), "--json"])
    own = CliRunner().invoke(cli, ["design", str(order), "--json", "--shop", str(shop)])
    bought = [json.loads(each.output)["quote"]["cells_bought"] for each in (plain, own)]
    assert bought[1] > bought[0] + 5
    result = CliRunner().invoke(cli, ["design", str(order), "--shop", str(shop / "none")])
    assert result.exit_code == 2
    assert "there are no records" in result.output
