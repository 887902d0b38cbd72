"""The crate's wood, foam, screws and work in the price: all of it, once, and in every number of panels."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.crate.amounts import Amount, amounts, screws
from panewright.crate.ask import ask_of
from panewright.crate.crated import crated
from panewright.crate.crating import way
from panewright.crate.timber import YARDS
from panewright.pack.customary import counted
from panewright.pack.packing import packing
from panewright.pack.pages.crate_wood import wood_rows
from panewright.price.bill import bill
from panewright.price.buying.buying import Asked, Stores, purchases
from panewright.price.buying.open_orders import sources_of
from panewright.price.hours import minutes_of
from panewright.price.money import cents, exact
from panewright.price.offers.breaks import breaks, in_number
from panewright.price.offers.quote import quote
from panewright.price.packing import WASTE, Loads, Packing, packing_needs
from panewright.shelf.load import load_shelf

SHELF = load_shelf()


@pytest.fixture(scope="module")
def packed(design):
    return quote(design, SHELF, None, packing(design, SHELF))


def wished(design, **wishes):
    order = design.order
    return replace(design, order=replace(order, crate=replace(order.crate, **wishes)))


def test_the_lines_of_the_crate_hold_every_board_of_all_crates(design, packed):
    found = crated(ask_of(design))
    lines = [line for line in packed.lines if line.group == "crate"]
    of = {
        of: found.crates * sum(each.count for each in amounts(found.crate) if each.of == of)
        for of in ("plywood", "batten")
    }
    boards = [each for each in found.boards if each.stuff == "softwood"]
    metres = found.crates * sum(each.count * each.long_mm for each in boards) / 1000
    assert of["batten"] == pytest.approx(metres)
    assert sum(float(line.one) for line in lines if line.use == "plywood") * packed.panels == pytest.approx(
        of["plywood"] / 3.125, rel=1e-4
    )
    for use, total in (("batten", metres), ("crate screw", found.crates * found.screws)):
        told = sum(float(line.one) * packed.panels for line in lines if line.use == use)
        assert told == pytest.approx(total, rel=1e-4)
    assert sum(line.mass_kg for line in lines) == 0


@pytest.mark.parametrize("units", YARDS)
@pytest.mark.parametrize("carried", ["by hand", "pallet"])
def test_the_plywood_that_is_bought_is_as_thick_as_what_is_sawn(design, units, carried):
    asked = replace(ask_of(design), units=units)
    boards = [each for each in way(asked, carried, 1).crate.boards if each.stuff == "plywood"]
    sold = {row.name: row.part.wall_mm for row in SHELF.sundries if row.part.use == "plywood"}
    for each in boards:
        (need,) = packing_needs([Amount("plywood", 1.0, each.thick_mm)], SHELF, Loads(1, 1), units)
        assert sold[need.name] == pytest.approx(each.thick_mm, abs=0.01)


def test_each_screw_of_the_crate_is_priced_by_its_size(design, packed):
    found = crated(ask_of(design))
    lines = {line.name: line for line in packed.lines if line.use == "crate screw"}
    for screw, number in screws(found.crate).items():
        line = lines[f"wood screw {screw.name.replace('×', 'x')}"]
        assert line.per_crate == number
        assert line.buy == number * found.crates
        part = SHELF.row(line.name).part
        assert (part.fit_mm, part.wall_mm) == pytest.approx((screw.wide_mm, screw.long_mm), abs=0.1)
    assert len(lines) == len(screws(found.crate)) > 1


def test_all_of_it_has_a_price_and_is_in_the_sum_once(design, packed):
    bare = quote(design, SHELF)
    crate = sum(line.cost for line in packed.lines if line.group == "crate")
    assert packed.unpriced == 0
    assert crate > 0
    assert packed.parts == bare.parts + crate
    assert [line for line in packed.lines if line.group != "crate"] == list(bare.lines)


def test_its_work_is_as_the_steps_of_packing_say(design, packed):
    found = crated(ask_of(design))
    bare = quote(design, SHELF)
    more = sum(work.minutes for work in packed.work) - sum(work.minutes for work in bare.work)
    once = (
        "Build the crate",
        "Cut the foam and glue it in",
        "Close and mark the crate",
        "Weigh and measure the crate",
    )
    asked = found.crates * sum(map(minutes_of, once))
    assert float(more) == asked + design.order.job.panels * minutes_of("Put the panels into the crate")


def test_each_number_has_crates_of_its_own(design, packed):
    for each in breaks(design, SHELF, packed, packs=packing):
        other = in_number(design, each.panels)
        assert each.order == quote(other, SHELF, None, packing(other, SHELF)).price_order


def test_what_is_collected_has_no_crate_in_its_price_and_kits_have(design):
    assert packing(wished(design, by="collected"), SHELF) == Packing()
    kit = replace(design.order.kit, sold_as="kit")
    found = packing(replace(design, order=replace(design.order, kit=kit)), SHELF)
    assert {need.use for need in found.needs} >= {"plywood", "batten", "foam", "crate screw"}
    assert found.counts["crated panels"] == design.order.job.panels


def test_what_is_collected_is_crated_without_a_carrier(design):
    found = crated(ask_of(wished(design, by="collected")))
    assert found.taken is None
    assert "Collected" in found.reason
    assert all("carrier" not in check.rule for check in found.checks)


def test_a_size_that_the_shelf_lacks_has_no_price_and_is_named():
    (need,) = packing_needs([Amount("batten", 12.0, 33.0, 77.0)], SHELF, Loads(1, 2))
    assert need.price is None
    assert "33 × 77" in need.name
    assert bill((need,), 2)[0].cost is None


@pytest.mark.parametrize("measure", ["metric", "us"])
def test_a_sheet_is_never_much_thinner_than_reckoned(measure):
    for thick in (4.0, 6.0, 9.0) if measure == "metric" else (4.7625, 6.35, 9.525):
        (need,) = packing_needs([Amount("plywood", 1.0, thick)], SHELF, Loads(1, 1), measure)
        part = SHELF.row(need.name).part
        assert part.wall_mm >= thick - 0.3


@given(st.floats(0.01, 500.0), st.integers(1, 200), st.sampled_from(["plywood", "batten", "foam"]))
def test_the_shares_of_all_panels_are_never_less_than_what_is_sawn(count, panels, of):
    sizes = {"plywood": (4.0, 0.0, ""), "batten": (18.0, 38.0, ""), "foam": (50.0, 0.0, SHELF.foams[0].name)}[
        of
    ]
    made = bill(packing_needs([Amount(of, count, *sizes)], SHELF, Loads(1, panels)), panels)
    assert all(line.buy >= Decimal(str(round(count, 3))) * (1 + WASTE[of]) - Decimal("0.02") for line in made)


def test_one_part_is_one_line_whatever_it_is_for(packed):
    """Two kinds of board may be cut from one sheet, as two pads from one foam."""
    wood = [Amount("plywood", 1.0, 4.7), Amount("plywood", 2.0, 4.7625)]
    (need,) = packing_needs(wood, SHELF, Loads(1, 1), "us")
    assert need.one == 3
    names = [(line.name, line.size) for line in packed.lines]
    assert len(names) == len(set(names))


@given(st.integers(1, 40), st.integers(1, 500), st.data())
def test_screws_are_bought_to_the_piece_however_they_are_shared_out(crates, screws, data):
    panels = data.draw(st.integers(crates, 12 * crates))
    one = Amount("crate screw", screws, 4.0, 60.0, "4 × 60 mm")
    (need,) = packing_needs([one], SHELF, Loads(crates, panels))
    (line,) = bill((need,), panels)
    assert line.per_crate == screws
    assert line.buy == screws * crates
    (bought,) = purchases([Asked("A-1", None, panels, (need,), {})], Stores({}), {})
    assert bought.asked == bought.gross == screws * crates


def test_foam_is_bought_in_every_thickness_that_is_cut_and_by_its_true_area(design, packed):
    found = crated(ask_of(design))
    boards = [each for each in amounts(found.crate) if each.of == "foam"]
    lines = {line.name: line for line in packed.lines if line.use == "foam"}
    assert len(lines) == len({(each.name, each.thick_mm) for each in boards})
    assert {each.thick_mm for each in boards} <= set(YARDS["metric"].block_foam_mm)
    for each in boards:
        line = lines[f"{each.name}, {each.thick_mm:g} mm"]
        assert float(line.per_crate) == pytest.approx(each.count, abs=1e-6)
        sheet = next(row for row in SHELF.foams if row.name == each.name)
        assert line.price == cents(sheet.price * Decimal(str(each.thick_mm)) / 50)


def test_foams_of_two_thicknesses_are_two_lines_of_the_buying_list_of_one_supplier():
    foam = SHELF.foams[0].name
    two = [Amount("foam", 1.0, thick, 0.0, foam) for thick in (20.0, 50.0)]
    asked = Asked("A-1", None, 1, packing_needs(two, SHELF, Loads(1, 1)), {})
    bought = purchases([asked], Stores({}), sources_of([asked], SHELF))
    assert [each.item for each in bought] == [f"{foam}, 20 mm", f"{foam}, 50 mm"]
    assert len({each.source.supplier for each in bought}) == 1
    assert bought[0].cost < bought[1].cost == cents(SHELF.foams[0].price * Decimal("1.1"))


@pytest.mark.parametrize("panels", [1, 7, 40])
@pytest.mark.parametrize("units", ["metric", "us"])
def test_page_parts_list_buying_list_and_price_tell_one_amount_of_wood(design, panels, units):
    made = in_number(design, panels)
    order = replace(made.order, job=replace(made.order.job, units=units))
    wood = tuple(row.part for row in SHELF.sundries if row.measure == units)
    made = replace(made, order=replace(order, crate=replace(order.crate, wood=wood)))
    packed, found = packing(made, SHELF), crated(ask_of(made))
    lines = [line for line in bill(packed.needs, panels) if line.use in ("plywood", "batten")]
    listed = purchases([Asked("A-1", None, panels, packed.needs, {})], Stores({}), {})
    buying = {each.item: each for each in listed}
    page = [row[2] for row in wood_rows(found, units)]
    assert len(page) == len(lines) == len(found.bought)
    for line, told, each in zip(lines, page, sorted(found.bought, key=in_turn(lines)), strict=True):
        pieces = (*each.sold, *each.asked)
        metres = exact(sum(one.count * one.long_mm for one in pieces) / 1000)
        area = sum(one.count * one.long_mm * one.wide_mm for one in pieces) / 1e6
        assert line.buy == (metres if line.use == "batten" else sum(one.count for one in pieces))
        said = counted(exact(area), "square metre", units) if area else counted(line.buy, "metre", units)
        assert told == said
        assert buying[line.name].gross == buying[line.name].buy == line.buy
        assert line.cost == cents(line.buy * SHELF.row(line.name).price)


def in_turn(lines):
    """As the list has them."""
    names = [line.name for line in lines]
    return lambda each: names.index(each.name)


def test_two_orders_buy_the_bars_of_both(design):
    needs = packing(design, SHELF).needs
    number = design.order.job.panels
    both = [Asked(name, None, number, needs, {}) for name in ("A-1", "A-2")]
    one = {line.name: line.buy for line in bill(needs, number) if line.use in ("plywood", "batten")}
    told = {each.item: each.buy for each in purchases(both, Stores({}), {})}
    assert one
    assert all(told[name] == 2 * buy for name, buy in one.items())


def test_plywood_of_a_shelf_without_sheets_is_bought_by_area_and_by_the_piece_it_must_be_asked():
    rows = (replace(row, part=replace(row.part, long_mm=0.0, short_mm=0.0)) for row in SHELF.sundries)
    by_piece = replace(SHELF, sundries=tuple(rows))
    rows = (replace(row, sold_by="square metre") for row in by_piece.sundries)
    by_area = replace(SHELF, sundries=tuple(rows))
    ply = Amount("plywood", 2.0, 4.0)
    (need,) = packing_needs([ply], by_piece, Loads(1, 1))
    assert need.price is None
    assert "to be asked" in need.source
    (need,) = packing_needs([ply], by_area, Loads(1, 1))
    assert bill((need,), 1)[0].buy == Decimal("2.30")


def test_battens_sold_by_the_piece_without_their_lengths_must_be_asked():
    """So many metres at the price of a piece would be wrong."""
    rows = tuple(replace(row, sold_by="each") if row.part.use == "batten" else row for row in SHELF.sundries)
    size = next(row.part for row in rows if row.part.use == "batten")
    wood = Amount("batten", 6.0, size.wall_mm, size.fit_mm)
    (need,) = packing_needs([wood], replace(SHELF, sundries=rows), Loads(1, 1))
    assert (need.price, need.sold_by) == (None, "metre")
    assert "to be asked" in need.source


def test_a_part_that_no_panels_mass_counts_is_not_told_to_weigh_nothing(design, packed):
    """A diode weighs two grams and counts with its box: an empty cell, not 0.0 kg."""
    parts = next(each for each in packed.listings if each.name == "Parts")
    place = [column.name for column in parts.columns].index("Mass in one panel")
    told = {row[1]: row[place] for row in parts.rows}
    assert told
    for line in packed.lines:
        assert (told[line.name] is None) == (round(line.mass_kg, 4) == 0)
    assert sum(mass or 0.0 for mass in told.values()) == pytest.approx(design.label.mass_kg, abs=0.05)
