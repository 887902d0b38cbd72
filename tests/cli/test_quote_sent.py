"""`panewright quote --sent`: a quote that went out stands in the records, on its order, with its days."""

from __future__ import annotations

import shutil
from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner

from panewright.cli.main import cli
from panewright.ledger.open import open_ledger
from panewright.ledger.orders.orders import find_order
from panewright.ledger.orders.promises import quotes_sent

ORDER = Path(__file__).parents[2] / "examples" / "frost-sensor.toml"


@pytest.fixture
def shop(tmp_path, empty_shop):
    return Path(shutil.copytree(empty_shop, tmp_path / "shop"))


def run(order, folder, *words):
    told = ["quote", str(order), "--to", str(folder / "quote.pdf"), *map(str, words)]
    return CliRunner().invoke(cli, told)


def kept(shop, number):
    ledger = open_ledger(shop / "shop.db")
    found = quotes_sent(ledger, number), find_order(ledger, number)
    ledger.close()
    return found


def test_it_is_kept_on_its_order_with_total_revision_and_days(shop, tmp_path):
    told = run(ORDER, tmp_path, "--sent", "--by", "Ann", "--shop", shop, "--date", "2026-11-26")
    assert told.exit_code in (0, 1), told.output
    number = told.output.split("Order ")[-1].split(",")[0]
    (one,), stands = kept(shop, number)
    assert stands.text == ORDER.read_text("utf-8")
    assert one.day == date(2026, 11, 26)
    assert one.until > one.day
    assert f"{one.total:f}" in told.output
    assert f"To pay for 12: {one.total:,.2f}".replace(",", " ") in told.output.replace("\u2009", " ")
    again = run(ORDER, tmp_path, "--sent", "--by", "Ann", "--shop", shop, "--date", "2026-12-01")
    assert again.exit_code == told.exit_code
    sent, stands = kept(shop, number)
    assert [each.order_version for each in sent] == [1, 1]
    assert stands.version == 1


def test_an_order_that_says_otherwise_in_the_records_is_never_written_over(shop, tmp_path):
    run(ORDER, tmp_path, "--sent", "--by", "Ann", "--shop", shop)
    other = tmp_path / "other.toml"
    other.write_text(ORDER.read_text("utf-8") + "\n# changed\n")
    told = run(other, tmp_path, "--sent", "--by", "Ann", "--shop", shop)
    assert told.exit_code == 2
    assert "another text" in told.output


def test_without_a_shop_or_a_name_nothing_is_written(tmp_path):
    told = run(ORDER, tmp_path, "--sent")
    assert told.exit_code == 2
    assert "--shop" in told.output
    assert not (tmp_path / "quote.pdf").exists()


@pytest.mark.parametrize("day", ["9999-12-31", "1999-12-31", "0001-01-01", "2026-02-30", "tomorrow"])
def test_a_day_of_no_shop_is_told_and_nothing_is_written(tmp_path, day):
    told = run(ORDER, tmp_path, "--date", day)
    assert told.exit_code == 2
    assert day in told.output
    assert not (tmp_path / "quote.pdf").exists()
