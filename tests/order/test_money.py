"""What an order says of money, kits and hands: read whole, or every mistake told with its cure."""

from datetime import date
from decimal import Decimal

import pytest

from panewright.errors import OrderError
from panewright.order.parse import parse_order
from panewright.order.terms import Hands, Kit, MarketPrice, Tax, Terms
from panewright.shelf.load import load_shelf
from short_order import short_order

WHOLE = {
    "breaks": '"20, 1, 5, 5"',
    "tax": '"19 %"',
    "tax_name": '"VAT"',
    "prices": '"with tax"',
    "valid_days": "14",
    "deposit": '"40 %"',
    "payment": '"rest before dispatch"',
    "conditions": '"Goods stay ours."',
    "carriage": '"60.50 EUR"',
    "market_price": '"0.25 EUR"',
    "market_source": '"three offers"',
    "market_date": '"2026-11-02"',
}


def order(**keys):
    sections = {}
    for place, value in keys.items():
        section, _, key = place.partition("__")
        sections.setdefault(section, []).append(f"{key} = {value}")
    lines = [line for section, rows in sections.items() for line in (f"[{section}]", *rows)]
    return parse_order(short_order(more="\n".join(lines)), "trial.toml", load_shelf())


def mistakes(**keys):
    with pytest.raises(OrderError) as told:
        order(**keys)
    return {problem.key: problem for problem in told.value.problems}


def test_terms_are_read_as_written():
    terms = order(**{f"money__{name}": value for name, value in WHOLE.items()}).money.terms
    assert terms == Terms(
        breaks=(1, 5, 20),
        tax=Tax("VAT", Decimal("0.19"), included=True),
        valid_days=14,
        deposit=Decimal("0.4"),
        payment="rest before dispatch",
        conditions="Goods stay ours.",
        carriage=Decimal("60.50"),
        market=MarketPrice(Decimal("0.25"), "three offers", date(2026, 11, 2)),
    )


def test_an_order_that_says_nothing_of_it_has_the_usual_terms():
    plain = order()
    assert (plain.money.terms, plain.kit, plain.hands) == (Terms(), Kit(), Hands())


def test_a_kit_and_hands_are_read():
    made = order(kit__sold_as='"kit"', kit__customer_brings='"Glass , cells"', hands__people="2")
    assert made.kit == Kit("kit", ("cells", "glass"))
    assert made.hands == Hands(people=2)


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("money__breaks", '"1, many"'),
        ("money__breaks", '"0, 5"'),
        ("money__breaks", '"1, 2, 3, 4, 5, 6, 7, 8, 9"'),
        ("money__breaks", '"1001"'),
        ("money__breaks", '"99999999999999999999"'),
        ("money__breaks", '"²"'),
        ("money__breaks", '","'),
        ("money__tax", '"120 %"'),
        ("money__carriage", '"60 USD"'),
        ("money__valid_days", "0"),
        ("kit__customer_brings", '"glass, luck"'),
        ("kit__sold_as", '"kits"'),
        ("hands__people", "3"),
        ("hands__cure_places", "0"),
        ("hands__cure_places", "101"),
        ("hands__cure_places", "1.5"),
        ("hands__cure_places", '"two"'),
    ],
)
def test_each_mistake_stands_at_its_key_with_a_cure(key, value):
    found = mistakes(**{key: value})
    assert list(found) == [key.replace("__", ".")]
    assert all(problem.cure for problem in found.values())


def test_a_tax_needs_its_name_and_a_name_its_rate():
    assert list(mistakes(money__tax='"20 %"')) == ["money.tax_name"]
    assert list(mistakes(money__tax_name='"VAT"')) == ["money.tax"]


def test_a_market_price_needs_source_and_day():
    assert list(mistakes(money__market_price='"0.25 EUR"')) == ["money.market_date", "money.market_source"]
    told = {f"money__{name}": WHOLE[name] for name in ("market_price", "market_source")}
    assert list(mistakes(**told, money__market_date='"2026-02-30"')) == ["money.market_date"]


def test_nobody_sells_a_watt_for_nothing():
    told = {f"money__{name}": WHOLE[name] for name in ("market_source", "market_date")}
    found = mistakes(**told, money__market_price='"0 EUR"')
    assert list(found) == ["money.market_price"]
    assert found["money.market_price"].cure
