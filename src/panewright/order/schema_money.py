"""What an order may say of money, kits and hands."""

from __future__ import annotations

from panewright.shelf.key import Key

MONEY = (
    Key("money", "labour", "money", "an hour at the bench", "40 EUR/h"),
    Key(
        "money",
        "overhead",
        "share",
        "on top of parts and labour",
        "15 %",
        default="15 %",
        reason="rent, tools and power of a small shop",
        least="0 %",
        most="500 %",
    ),
    Key(
        "money",
        "margin",
        "share",
        "on top of cost",
        "20 %",
        default="20 %",
        reason="a common margin of a small shop",
        least="0 %",
        most="500 %",
    ),
    Key("money", "breaks", "text", "numbers of panels that the offer prices", "1, 5, 10, 25", most=60),
    Key(
        "money",
        "tax",
        "share",
        "on what is sold; none is reckoned where it is left out",
        "20 %",
        least="0 %",
        most="60 %",
    ),
    Key("money", "tax_name", "text", "as the law calls it", "VAT", most=30),
    Key(
        "money",
        "prices",
        "choice",
        "whether the offer tells prices with or without that tax",
        "without tax",
        choices=("without tax", "with tax"),
    ),
    Key("money", "valid_days", "count", "how long the offer stands; 30 if left out", 30, least=1, most=365),
    Key("money", "deposit", "share", "of what is to pay, when ordering", "40 %", least="0 %", most="100 %"),
    Key("money", "payment", "text", "when the rest is due", "rest before dispatch", most=120),
    Key(
        "money",
        "conditions",
        "text",
        "your own words under the offer",
        "Goods stay ours until paid.",
        most=900,
    ),
    Key("money", "carriage", "money", "of the whole order, without tax", "60 EUR"),
    Key("money", "market_price", "money", "of one watt ready-made, as you read it", "0.25 EUR"),
    Key("money", "market_source", "text", "where you read it", "three offers by post", most=120),
    Key("money", "market_date", "text", "the day you read it", "2026-11-02", most=10),
)
KIT = (
    Key(
        "kit",
        "sold_as",
        "choice",
        "who builds it; a finished panel if left out",
        "kit",
        choices=("finished panel", "kit"),
    ),
    Key(
        "kit",
        "customer_brings",
        "text",
        "groups of the parts list, such as glass, cells",
        "glass, cells",
        most=90,
    ),
)
HANDS = (
    Key("hands", "people", "count", "who work at the bench; 1 if left out", 2, least=1, most=2),
    Key("hands", "day_hours", "count", "hours of hands a day; 8 if left out", 8, least=1, most=14),
    Key("hands", "days_a_week", "count", "from Monday on; 5 if left out", 5, least=1, most=7),
    Key(
        "hands",
        "cure_places",
        "count",
        "panels that can lie flat and cure at once; 2 if left out",
        4,
        least=1,
        most=100,
    ),
    Key("hands", "forms", "count", "templates to string on; 1 if left out", 1, least=1, most=20),
    Key("hands", "presses", "count", "vacuum presses for film; 1 if left out", 1, least=1, most=20),
)
