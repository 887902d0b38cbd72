"""Offers of cells out of their text: what is read of them, every mistake told, and how they rank."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import numpy as np
import pytest

from panewright import desk
from panewright.desk.lots.compared import content, listing, ranked, told
from panewright.desk.lots.offer_rows import rows_of, written
from panewright.desk.lots.offered import asked
from panewright.errors import FolderError, Problem, SheetError

EXAMPLES = Path(__file__).parents[3] / "examples"
SMALL = """
[want]
sure = "90 %"
[[step]]
name = "soldering"
lost = "3 of 100"
[[offer]]
name = "dear"
price = "80.00"
pack = 40
[[offer]]
name = "cheap"
price = "40.00"
pack = 40
lost = "1 of 20"
measured = "yes"
measuring = "0.10"
cell = "156 mm mono"
[[offer.grade]]
share = "60 %"
[[offer.grade]]
share = "40 %"
current = "-10 %"
current_spread = "2 %"
shunt = "30 %"
"""


@pytest.fixture(scope="module")
def design():
    return desk.design((EXAMPLES / "frost-sensor.toml").read_bytes(), "frost-sensor.toml").design


def problems(text, design):
    with pytest.raises(SheetError) as mistake:
        asked(text, "offers.toml", design)
    return [f"{each.key}: {each.reason}" for each in mistake.value.problems]


def test_offers_are_read_as_they_are_written(design):
    found = asked(SMALL, "offers.toml", design, panels=2)
    dear, cheap = found.offers
    assert (found.want.panels, found.want.sure) == (2, 0.9)
    assert found.want.cells_each == len(design.layup.cells)
    assert [(each.name, each.lost, each.tried) for each in found.want.steps] == [("soldering", 3, 100)]
    assert (dear.price, dear.pack, dear.measured, dear.defects.mean) == (Decimal("80.00"), 40, False, 0.0)
    assert (cheap.measured, cheap.measuring, cheap.defects.tried) == (True, Decimal("0.10"), 20)
    assert [(each.share, each.light, each.shunt_times) for each in cheap.grades] == [
        (0.6, 0.0, 1.0),
        (0.4, -0.1, 0.3),
    ]
    assert cheap.grades[1].spread.light == 0.02


def test_more_offers_than_are_compared_are_told_with_their_number(design):
    one = '[[offer]]\nname = "plain"\nprice = "80"\npack = 40\n'
    assert problems(41 * one, design) == ["offer: 41 offers are too many: 40 at most."]


def test_cells_work_behind_the_cover_of_the_order(design):
    """A panel of nothing but nameplate cells gives what the design says."""
    plain = '[[offer]]\nname = "plain"\nprice = "80"\npack = 40\n'
    found = ranked(asked(plain, "o.toml", design, panels=1), 1, orders=2)
    assert found.offers[0].watts == pytest.approx(design.electrical.curves[0].points.power_w, rel=1e-3)


def test_the_cheap_lot_is_ranked_with_reasons_and_the_same_seed_says_the_same(design):
    one, two = (ranked(asked(SMALL, "o.toml", design, 2), 7, orders=20) for _ in range(2))
    assert one.reasons == two.reasons
    assert [each.offer.name for each in one.offers] == ["cheap", "dear"]
    words = list(told(asked(SMALL, "o.toml", design, 2), one))
    assert words[0].startswith("Wanted: 2 panels")
    assert words[1].startswith("1. cheap costs")
    assert "more than cheap" in words[2]
    assert [row[0] for row in listing(one).rows] == ["cheap", "dear"]
    assert b"cheap" in content(one, "offers.csv")
    assert content(one, "offers.xlsx").startswith(b"PK")


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("pack = 40", 'pack = "forty"', "offer.pack: pack is a bare whole number"),
        ('price = "80.00"', "", "offer.price: price is missing"),
        ('lost = "3 of 100"', 'lost = "9 of 3"', "step.lost: More are lost than there were"),
        ('lost = "1 of 20"', 'lost = "few"', "offer.lost: "),
        ('share = "40 %"', 'share = "50 %"', "offer.grade: The shares of its grades do not add to 100 %"),
        ('cell = "156 mm mono"', 'cell = "oak"', "offer.cell: There is no such cell on the shelf"),
        ("[want]", "[wanted]", "wanted: There is no such table here"),
        ('shunt = "30 %"', 'shant = "30 %"', "offer.grade.shant: There is no key shant here"),
    ],
)
def test_every_mistake_is_told_with_its_place(design, old, new, says):
    assert any(each.startswith(says) for each in problems(SMALL.replace(old, new, 1), design))


def test_all_mistakes_are_told_at_once(design):
    text = SMALL.replace("pack = 40", "pack = 0").replace("3 of 100", "none")
    assert len(problems(text, design)) == 3
    assert problems("", design) == ["offer: There is no offer."]
    assert "no TOML" in problems("=", design)[0]


def test_an_offer_that_can_never_do_is_told(design):
    never = SMALL.replace('sure = "90 %"', 'least_cell = "49 W"')
    with pytest.raises(SheetError, match="no cell reaches"):
        ranked(asked(never, "o.toml", design, 1), 1, orders=2)


def test_a_panel_under_the_rating_is_not_sold_and_the_rating_turns_the_order(design):
    """A tenth less current for a quarter less money: cheaper by the watt, unless no such panel counts."""
    full = design.electrical.curves[0].points.power_w
    text = (
        '[want]\nrating = "{} W"\n[[offer]]\nname = "bright"\nprice = "80.00"\npack = 40\n'
        '[[offer]]\nname = "dim"\nprice = "60.00"\npack = 40\n'
        '[[offer.grade]]\nshare = "100 %"\ncurrent = "-10 %"\n'
    )
    low, high = (
        asked(text.format(f"{share * full:.3f}"), "o.toml", design, panels=1) for share in (0.5, 0.97)
    )
    any_counts, full_counts = ranked(low, 1, orders=5), ranked(high, 1, orders=5)
    assert [each.offer.name for each in any_counts.offers] == ["dim", "bright"]
    assert [each.offer.name for each in full_counts.offers] == ["bright", "dim"]
    dim = list(told(high, full_counts))[2]
    assert dim.startswith("2. dim sells nothing for 60.00")
    assert f"0% of panels reach {0.97 * full:.3f}"[:22] in dim
    assert listing(full_counts).rows[1][5:8] == (None, None, None)
    assert b"PK" in content(full_counts, "offers.xlsx")


def test_one_order_that_is_never_complete_does_not_stop_the_ranking(design):
    text = SMALL.replace('"90 %"', '"50 %"').replace("3 of 100", "1 of 1").replace('lost = "1 of 20"', "")
    wanted = asked(text, "o.toml", design, panels=1)
    found = ranked(wanted, 6, orders=12)
    assert all(0 < each.undelivered < 0.5 for each in found.offers)
    assert all(each.reached < 1 for each in found.offers)
    assert any("of orders are never complete" in line for line in told(wanted, found))
    assert all(row[-1] > 0 for row in listing(found).rows)


FORM = {
    "sure": "90 %",
    "rating": "",
    "soldering": "3 of 100",
    "name0": 'the "mixed" box',
    "price0": "71.00",
    "pack0": "40",
    "lost0": "1 of 20",
    "measured0": "yes",
    "current0": "-4 %",
    "current_spread0": "2 %",
    "measured1": "no",
    "name2": "plain",
    "price2": "80",
    "pack2": "forty",
}


def test_a_form_is_written_as_text_and_read_back_into_the_form():
    text = written(FORM)
    back = rows_of(text)
    assert (back.want, back.soldering) == ({"sure": "90 %"}, "3 of 100")
    first, second, *empty = back.offers
    assert first == {key[:-1]: value for key, value in FORM.items() if key.endswith("0")}
    assert second == {"name": "plain", "price": "80", "pack": "forty"}
    assert empty == [{}]
    assert written({f"name{n}": "\x00]]" for n in range(3)} | {"price0": '"'})  # whatever is typed is text


def test_what_a_form_says_is_compared_and_its_mistakes_name_the_offer(design):
    found = asked(written(FORM | {"pack2": "40"}), "o.toml", design, panels=1)
    assert [each.name for each in found.offers] == ['the "mixed" box', "plain"]
    assert found.offers[0].grades[0].light == -0.04
    (told_once,) = problems(written(FORM), design)
    assert told_once.startswith("offer.pack: ")
    assert told_once.endswith("That is in offer 2.")


def test_a_text_that_the_form_has_no_fields_for_leaves_it_empty():
    assert rows_of(SMALL).offers == ({}, {}, {})
    assert rows_of("= no TOML").offers == ({}, {}, {})
    assert rows_of("offer = 3").offers == ({}, {}, {})


SAMPLED = """
[[offer]]
name = "box with a sample"
price = "56.00"
pack = 50
measured = "yes"
sample = "few.csv"
sample_of = 500
"""
LIGHT = [8.0, 8.1, 8.2, 7.9, 8.05, 8.15, 7.95, 8.3]


def table(count: int) -> bytes:
    """Invented readings, at standard conditions."""
    rows = [f"A{k},{amps + 0.6:.3f},0.628,{amps:.3f},{0.515 - 0.01 * (k % 3):.3f},1000,25"
            for k, amps in enumerate(LIGHT[:count])]  # fmt: skip
    return "\n".join(["mark,Isc (A),Voc (V),Imp (A),Vmp (V),Light (W/m2),Temp (degC)", *rows]).encode()


def test_a_measured_sample_stands_for_the_cells_of_an_offer(design):
    found = asked(SAMPLED, "o.toml", design, panels=1, beside=lambda _: table(8))
    sample = found.offers[0].sample
    assert (sample.count, sample.lot) == (8, 500)
    lines = list(told(found, ranked(found, seed=1, orders=20)))
    assert lines[1].startswith("box with a sample: 8 of 500 cells were measured: ")
    share = 100 * float(np.std(LIGHT, ddof=1)) / float(np.mean(LIGHT))
    spread = float(lines[1].split("Imp spreads by ")[1].split(" %")[0])
    assert spread == pytest.approx(share, abs=0.2)


def test_a_sample_that_is_none_is_told(design):
    def told_of(text: str, beside=lambda _: table(8)) -> str:
        with pytest.raises(SheetError) as mistake:
            asked(text, "o.toml", design, beside=beside)
        (only,) = mistake.value.problems
        return f"{only.reason} {only.cure}"

    def missing(_: str) -> bytes:
        raise FolderError([Problem("cannot be read: No such file.", "Name another.", file="few.csv")])

    graded = SAMPLED + '[[offer.grade]]\nshare = "100 %"\n'
    assert "in place of grades" in told_of(graded)
    assert "Write both" in told_of(SAMPLED.replace("sample_of = 500", ""))
    assert "4 cells that count" in told_of(SAMPLED, lambda _: table(4))
    assert "more than its lot of 6" in told_of(SAMPLED.replace("500", "6"))
    assert "panewright lot offers" in told_of(SAMPLED, None)
    assert "No such file" in told_of(SAMPLED, missing)
