"""Suppliers on the shelf: every one that a row names has a record, and a wrong record is told."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from panewright.errors import ShelfError
from panewright.price.bill import Need
from panewright.price.buying.buying import Asked, Stores, by_supplier, purchases
from panewright.price.buying.buying_lists import supplier_listing, supplier_words
from panewright.price.buying.open_orders import sources_of
from panewright.shelf.load import load_shelf
from panewright.shelf.parts import GROUPS

SHELF = load_shelf()
OWN = """
[[suppliers]]
name = "Harrow Ribbon (invented)"
address = "Unit 4"
contact = "Ann"
lead_days = 9
least = "100.00"
note = "closed in August"
"""


def bought(shelf):
    """Some ribbon to buy."""
    row = shelf.tabs[0]
    need = Need("ribbon", row.name, Decimal("3"), row.sold_by, row.price)
    asked = [Asked("A", None, 1, (need,), {})]
    return by_supplier(purchases(asked, Stores({}), sources_of(asked, shelf)), shelf.suppliers)[0]


def test_every_supplier_that_a_row_names_has_an_address_and_a_contact():
    named = {row.supplier for group in GROUPS for row in getattr(SHELF, group) if row.supplier}
    assert named
    for name in sorted(named):
        found = SHELF.supplier(name)
        assert found.address, name
        assert found.contact, name


def test_the_list_of_a_supplier_carries_its_record(tmp_path):
    (tmp_path / "suppliers.toml").write_text(OWN)
    found = bought(load_shelf(tmp_path))
    assert found.short == Decimal(100) - found.cost > 0
    words = " ".join(supplier_words(found, "EUR"))
    for told in ("Unit 4", "Ann", "closed in August", "more to order"):
        assert told in words
    heads = [column.name for column in supplier_listing(found, "EUR", date(2026, 3, 2)).columns]
    assert {"Pack", "Least", "Lead days"} <= set(heads)


def test_a_part_without_a_lead_time_has_that_of_its_supplier(tmp_path):
    (tmp_path / "suppliers.toml").write_text(OWN)
    (tmp_path / "tabs.toml").write_text(
        '[[tabs]]\nname = "tab"\nwidth = "2 mm"\nthickness = "0.2 mm"\nprice = "0.1"\nsold_by = "metre"\n'
        'supplier = "Harrow Ribbon (invented)"\nsource = "trial"\n'
    )
    assert bought(load_shelf(tmp_path)).lines[0].source.lead_days == 9


def test_a_supplier_without_a_record_is_no_mistake(tmp_path):
    (tmp_path / "suppliers.toml").write_text("")
    found = bought(load_shelf(tmp_path))
    assert found.record is None
    assert supplier_words(found, "EUR") == ()
    assert found.short == 0


@pytest.mark.parametrize(
    ("was", "now", "key"),
    [
        ('"100.00"', '"-1.00"', "suppliers[1].least"),
        ("= 9", "= -9", "suppliers[1].lead_days"),
        ('name = "Harrow Ribbon (invented)"', 'name = " "', "suppliers[1]"),
        ('note = "closed in August"', 'fax = "1"', "suppliers[1].fax"),
    ],
)
def test_a_wrong_record_is_told_once_with_its_place(tmp_path, was, now, key):
    (tmp_path / "suppliers.toml").write_text(OWN.replace(was, now))
    with pytest.raises(ShelfError) as told:
        load_shelf(tmp_path)
    (problem,) = told.value.problems
    assert problem.key.startswith(key)
    assert problem.cure
