"""A shop goes by its own tables: prices, suppliers, carriers; without them by the packaged ones."""

import os
import subprocess
import sys
from decimal import Decimal
from pathlib import Path

import pytest
from click.testing import CliRunner

from panewright import desk
from panewright.cli.main import cli
from panewright.desk.designed import designed
from panewright.desk.own_shelf import SAID, go_by_shop, hold, own_shelf, own_tables, write_tables
from panewright.errors import ShelfError
from panewright.shelf.load import load_shelf

JETTY = (Path(__file__).parents[2] / "examples" / "jetty.toml").read_text()


@pytest.fixture(autouse=True)
def nothing_said(monkeypatch):
    monkeypatch.setenv(SAID, "")  # so that what a test says is taken back after it


@pytest.fixture
def own(tmp_path):
    """A shop's folder with dearer cells and with nothing else of its own."""
    shelf = tmp_path / "shop" / "shelf"
    write_tables(shelf)
    for table in shelf.glob("*.toml"):
        if table.name != "cells.toml":
            table.unlink()
    dearer(shelf / "cells.toml")
    return shelf


def dearer(table):
    table.write_text(table.read_text().replace('\nprice = "', '\nprice = "10'))


def cell_price(shelf, name="125 mm mono"):
    return next(row.price for row in shelf.cells if row.name == name)


def test_tables_written_out_are_the_packaged_shelf(tmp_path):
    write_tables(tmp_path / "all")
    assert load_shelf(tmp_path / "all") == load_shelf()


def test_nothing_is_written_over(own):
    before = (own / "cells.toml").read_bytes()
    with pytest.raises(ShelfError, match="is there already; nothing was written"):
        write_tables(own)
    assert (own / "cells.toml").read_bytes() == before
    assert [path.name for path in own.iterdir()] == ["cells.toml"]


def test_a_shop_goes_by_its_own_tables_and_else_by_the_packaged(own):
    name = load_shelf().cells[0].name
    go_by_shop(own.parent)
    assert cell_price(own_shelf(), name) > cell_price(load_shelf(), name)
    assert own_shelf().rails == load_shelf().rails
    assert own_tables() == ("cells.toml",)


def test_what_was_named_goes_before_the_shop_s(own, tmp_path, monkeypatch):
    write_tables(tmp_path / "other")
    monkeypatch.setenv(SAID, str(tmp_path / "other"))
    go_by_shop(own.parent)
    assert os.environ[SAID] == str(tmp_path / "other")
    assert own_shelf() == load_shelf()


def test_a_changed_table_is_read_anew(own):
    go_by_shop(own.parent)
    before = designed(JETTY, "jetty.toml").quote.price_each
    dearer(own / "cells.toml")
    assert designed(JETTY, "jetty.toml").quote.price_each > before


def test_an_open_shop_keeps_to_the_tables_as_they_stood_and_so_do_its_processes(own):
    go_by_shop(own.parent)
    before = own_shelf()
    hold()
    (own / "cells.toml").write_text("[[cells]]\nname = 3\n")
    assert own_shelf() == before
    told = "from panewright.desk.own_shelf import own_shelf; print(own_shelf().cells[0].price)"
    child = subprocess.run([sys.executable, "-c", told], capture_output=True, text=True, check=True)
    assert child.stdout.strip() == str(before.cells[0].price)


def test_a_table_that_is_wrong_is_told_and_holds_no_shop(own):
    (own / "cells.toml").write_text("[[cells]\n")
    go_by_shop(own.parent)
    for way in (own_shelf, hold):
        with pytest.raises(ShelfError, match=r"cells\.toml.*It cannot be read"):
            way()


def test_own_money_needs_own_prices(own):
    (own / "shop.toml").write_text('currency = "NOK"\n')
    go_by_shop(own.parent)
    with pytest.raises(ShelfError, match=r"rails\.toml is priced in EUR, the shop in NOK") as told:
        own_shelf()
    assert not any("cells.toml" in each.reason for each in told.value.problems)


def test_a_shop_with_all_prices_in_its_own_money_quotes_in_it(tmp_path, monkeypatch):
    shelf = tmp_path / "shelf"
    write_tables(shelf)
    for table in (shelf / "shop.toml", shelf / "carriers.toml"):
        table.write_text(table.read_text().replace('currency = "EUR"', 'currency = "NOK"'))
    monkeypatch.setenv(SAID, str(shelf))
    made = desk.design(JETTY.replace('"EUR"', '"NOK"').encode(), "jetty.toml")
    assert made.quote.currency == "NOK"
    assert "NOK" in desk.verdict(made)
    assert "EUR" not in desk.verdict(made)


def test_commands_go_by_what_is_named(own, tmp_path):
    order = tmp_path / "jetty.toml"
    order.write_text(JETTY)
    told = {
        shelf: CliRunner().invoke(cli, [*shelf, "quote", str(order), "--to", str(tmp_path / "q.pdf")]).output
        for shelf in ((), ("--shelf", str(own)))
    }
    assert len(set(told.values())) == 2
    missing = CliRunner().invoke(cli, ["--shelf", str(tmp_path / "none"), "design", str(order)])
    assert missing.exit_code == 2
    assert "There is no such folder" in missing.output


def test_the_command_writes_them_out(tmp_path):
    done = CliRunner().invoke(cli, ["tables", "--to", str(tmp_path / "mine")])
    assert done.exit_code == 0
    assert "carriers.toml" in done.output
    assert load_shelf(tmp_path / "mine").carriers == load_shelf().carriers
    assert all(isinstance(row.price, Decimal) for row in load_shelf(tmp_path / "mine").rails)
