"""Packing list and assembly book: every part counted, a figure for every step, nothing on top of another."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

import examples
from panewright import desk
from panewright.crate.crated import crated
from panewright.drawing.bounds import bounds
from panewright.drawing.drawing import Text
from panewright.drawing.overlap import overlaps
from panewright.drawing.sheet import Book, Fields, Figure, Numbers, Steps, Table, Verdicts
from panewright.order.terms import Kit
from panewright.pack.bench import Bench
from panewright.pack.carriage import carriage
from panewright.pack.crate_told import crate_told
from panewright.pack.figures.crate import crate_section
from panewright.pack.figures.steps.step import DRAWN, ROOM, step_figure
from panewright.pack.kit_claim import BUILT, claims
from panewright.pack.leaf import BookLeaf, CsvLeaf
from panewright.pack.pack import kit_leaves, make_pack
from panewright.pack.packing import packing
from panewright.pack.pages.assembly import assembly_book, customer_steps
from panewright.pack.pages.caution import GLASS_EDGE, WAFER
from panewright.pack.pages.closing import back_size
from panewright.pack.pages.front import front_pages, headline
from panewright.pack.pages.kit import PAPERS, Box, boxed, hurting, kit_book, line_key, paper_key, papers
from panewright.pack.pages.lists import lists_pages
from panewright.pack.pages.money import market_page
from panewright.pack.pages.mounting import mounting_page
from panewright.pack.pages.quote import make_quote
from panewright.pack.sent import BULK_KG_L, PAPERS_KG, asked
from panewright.pack.steps.steps import KEYS, bench_steps
from panewright.pack.steps.takes import amount_said, takes
from panewright.pack.steps.tools import tools
from panewright.pack.verdict import price
from panewright.panel.choose import design_panel
from panewright.paper.leaf import render
from panewright.price.bill import PIECES
from panewright.price.buying.open_orders import asked_of
from panewright.price.kit import total_kg
from panewright.price.offers.offer import offer
from panewright.price.offers.quote import quote
from panewright.shelf.load import load_shelf

CLOSED = ("silicone pour", "film", "air gap")


def kit(made, *brings, closed="silicone pour"):
    parts = replace(made.design.order.parts, encapsulation=closed)
    order = replace(made.design.order, kit=Kit("kit", brings), parts=parts)
    same = closed == made.design.order.parts.encapsulation
    design = replace(made.design, order=order) if same else design_panel(order, load_shelf())
    return Bench(design, quote(design, load_shelf()))


def test_every_step_that_there_is_has_a_figure_of_its_own():
    assert set(DRAWN) == set(KEYS.values())


@pytest.mark.parametrize("closed", CLOSED)
def test_figures_fit_and_no_words_lie_on_each_other(made, closed):
    bench = kit(made, "frame", closed=closed)
    system = bench.design.order.job.units
    for each in customer_steps(bench):
        drawn = each.step.figure
        around = bounds(drawn.drawing, system)
        assert around.width_mm / drawn.scale <= ROOM.width_mm, each.key
        assert around.height_mm / drawn.scale <= ROOM.height_mm, each.key
        assert overlaps(drawn.drawing, system) == (), each.key


def told(book):
    return " ".join(getattr(block, "words", "") for page in book.pages for block in page.blocks)


def books(bench):
    return (
        kit_book(bench, "1", ""),
        assembly_book(bench, "1", ""),
        make_quote(bench, offer(bench.design, bench.quote)),
        Book("Build book", "1", "A", "A4", front_pages(bench)),
    )


def test_no_paper_of_a_kit_claims_what_somebody_else_builds_or_brings(made):
    whole, bare = kit(made), kit(made, "glass", "cells")
    for book in books(whole):
        assert BUILT in told(book), book.title
        assert "The customer brings" not in told(book).replace("the customer brings them", "")
        assert "The finished panel is measured" not in told(book)
    brought = [line.name for line in bare.quote.brought]
    assert len(brought) >= 2
    assert "lines not in the box: the customer brings them" in told(kit_book(bare, "1", ""))
    assert "1 line not in the box: the customer brings it" in told(kit_book(kit(made, "glass"), "1", ""))
    for book in books(bare):
        (said,) = [words for words in claims(bare) if words != BUILT]
        assert said in told(book), book.title
        assert all(name in said for name in brought)
        assert "The customer brings cells " in said
        assert " and glass " in said
        assert "holds only where they are what the order names" in said
    assert claims(Bench(made.design, made.quote)) == ()


def test_the_first_page_of_a_kit_speaks_of_kits(made):
    bench = kit(made)
    page = front_pages(bench)[0]
    pairs = dict(next(block for block in page.blocks if isinstance(block, Numbers)).pairs)
    assert "Price of one kit" in pairs
    assert not any("watt" in name for name in pairs)
    said = " ".join(getattr(block, "words", "") for block in page.blocks)
    assert re.search(r"\b\d+\skits?\b", said, re.IGNORECASE)
    assert f", built by {bench.design.order.job.maker}" not in said
    drawn = next(block for block in page.blocks if isinstance(block, Figure))
    assert drawn.caption == "What one kit becomes"


def test_the_parts_of_an_order_of_kits_are_told_for_kits(made):
    bench = kit(made)
    page = next(page for page in lists_pages(bench) if page.title == "Parts")
    said = " ".join(getattr(block, "words", "") for block in page.blocks)
    heads = [head for block in page.blocks if isinstance(block, Table) for head in block.columns]
    assert re.search(r"For \d+ kits?\.", said)
    assert "One kit takes" in heads
    assert "One panel takes" not in heads


def test_an_unknown_step_shows_the_finished_panel(made):
    assert step_figure(kit(made), "polish").caption == "The finished panel"


def test_the_first_column_is_drawn_whole_and_the_others_as_outlines(made):
    bench = kit(made)
    drawn = step_figure(bench, "string-column").drawing
    numbers = {item.words for item in drawn.items if isinstance(item, Text)}
    rows = bench.design.layup.plan.rows
    assert {str(number) for number in range(1, rows + 1)} <= numbers
    assert str(rows + 1) not in numbers
    ghosts = [item for item in drawn.items if getattr(item, "layer", "") == "hidden"]
    assert len(ghosts) == len(bench.design.layup.cells) - rows


def test_every_step_tells_tools_and_what_goes_in_as_the_parts_list_has_it(made):
    bench = Bench(made.design, made.quote)
    for each in bench_steps(bench):
        assert each.step.tools == tools(bench, each.key) != ()
        assert each.step.takes == takes(bench, each.key)
    told = {line.name for line in made.quote.lines if line.group != "mounting"}
    said = " | ".join(words for each in bench_steps(bench) for words in each.step.takes)
    assert sorted(name for name in told if name not in said) == []


def test_a_step_takes_what_a_builder_can_count(made):
    bench = Bench(made.design, made.quote)
    told = {key: takes(bench, key) for key in ("clean-pane", "cut-rails", "set-pane", "tab-cells")}
    (glass,) = [line for line in made.quote.lines if line.use == "sheet"]
    assert told["clean-pane"] == (f"1 pane of {glass.name}, {glass.size}",)
    assert told["cut-rails"] == (f"4 rails of {made.design.structural.rail.name}",)
    assert re.match(r"\d+\u2009cartridges? ", told["set-pane"][0])
    assert "tabbing ribbon" in told["tab-cells"][0]
    if made.design.order.job.units == "metric":
        assert any(re.match(r"\d+\u2009ml ", words) for words in told["tab-cells"])
    pieces = [
        line for line in made.quote.lines if line.sold_by in PIECES and line.use not in ("sheet", "rail")
    ]
    for line in pieces:
        number = Decimal(amount_said(bench, line).split("\u2009")[0])
        assert line.one <= number == int(number) < line.one + 1


def test_what_the_customer_brings_is_named_once(made):
    bench = kit(made, "cells", "glass")
    page = kit_book(bench, "order", "").pages[0]
    (table,) = [
        each for each in page.blocks if isinstance(each, Table) and each.columns[-1] == "One panel takes"
    ]
    amounts = {row[0]: row[2] for row in table.rows}
    (cells,) = [line for line in bench.quote.brought if line.use == "cell"]
    assert amounts[cells.name] == f"{cells.one:f}"
    assert "1 pane" in amounts.values()


def test_waits_are_told_where_they_are(made):
    for each in bench_steps(Bench(made.design, made.quote)):
        assert bool(each.step.wait) is (each.wait_h > 0)


def test_a_box_has_four_rails_and_all_that_is_on_the_parts_list(made):
    bench = kit(made)
    rails = [each for each in boxed(bench) if each.use == "rail"]
    assert [each.amount for each in rails] == [Decimal(1)] * 4
    others = [each for each in boxed(bench) if each.use != "rail"]
    assert len(others) == len([line for line in bench.quote.lines if line.use != "rail"])
    assert all(each.amount - each.spare >= 0 for each in others)


def test_a_box_weighs_no_less_than_what_stays_of_it_in_the_panel(made):
    bench = kit(made)
    stays = sum(line.mass_kg for line in bench.quote.lines)
    assert stays <= total_kg(boxed(bench)) <= 1.5 * stays


def test_what_is_brought_is_in_no_box_and_still_asked_for_at_its_step(made):
    bench = kit(made, "cells", "glass")
    assert not {each.group for each in boxed(bench)} & {"cells", "glass"}
    said = {each.key: each.step for each in customer_steps(bench)}
    assert said["clean-pane"].takes
    assert "you bring" in said["sort-cells"].do


def test_the_shop_has_sawn_and_drilled_unless_the_customer_brings_the_rails(made):
    ready = [each.key for each in customer_steps(kit(made))]
    own = [each.key for each in customer_steps(kit(made, "frame"))]
    assert set(own) - set(ready) == {"cut-rails", "drill-rails"}
    assert [each.key for each in bench_steps(kit(made))] == own


def test_papers_of_a_kit_are_written_and_the_same_twice(made):
    bench = kit(made, "glass")
    one, two = ({leaf.name: render(leaf) for leaf in kit_leaves(bench.design, bench.quote)} for _ in range(2))
    assert one == two
    assert list(one) == ["kit.pdf", "kit.csv", "assembly.pdf", "template.pdf", "glass.pdf", "label.svg"]
    _, listed, book, *_ = kit_leaves(bench.design, bench.quote)
    assert isinstance(listed, CsvLeaf)
    assert isinstance(book, BookLeaf)
    (steps,) = [block for page in book.book.pages for block in page.blocks if isinstance(block, Steps)]
    assert all(step.figure and step.do and step.check for step in steps.steps)
    assert all(
        step.caution for step in steps.steps if "solder" in step.do.lower() or "glass" in step.title.lower()
    )


def test_the_pack_of_a_kit_tells_its_crate_and_carrier_as_its_quote_and_its_packing_list_do(made):
    bench = kit(made)
    found = crated(asked(bench.design, bench.quote.lines))
    pack = make_pack(bench.design, bench.quote)
    assert {"crate.pdf", "kit.pdf"} <= {leaf.name for leaf in pack.leaves}
    assert pack.leaf("design.json").record.crate == found
    assert (found.goods, found.panels) == ("kit", bench.design.order.job.panels)
    assert found.reason in told(kit_book(bench, "1", ""))
    said = carriage(bench.design, found)
    assert "kit" in said.goods
    assert said.cost == found.price
    assert found.because == said.because
    for words in (*told(pack.leaf("crate.pdf").book).splitlines(), crate_told(bench.design, found)):
        assert not re.search(r"\bpanels?\b", words.replace("photovoltaic panel", "")), words


def test_a_kit_s_package_holds_what_is_in_it_and_shrinks_with_what_the_customer_brings(made):
    design = made.design
    whole, bare = kit(made), kit(made, "glass", "frame")
    flat, small = (asked(each.design, each.quote.lines).panel for each in (whole, bare))
    built = design.structural
    assert flat.long_mm >= max(built.pane.long_mm, *(piece.length_mm for piece in built.frame.pieces))
    assert flat.short_mm >= built.pane.short_mm
    assert flat.deep_mm >= built.pane.sheet.nominal_mm + built.rail.upright_mm
    assert small.long_mm < flat.long_mm
    assert small.mass_kg < flat.mass_kg
    known = total_kg(boxed(whole))
    assert flat.mass_kg == pytest.approx(known + PAPERS_KG)
    volume_l = small.long_mm * small.short_mm * small.deep_mm / 1e6
    assert volume_l >= total_kg(boxed(bare)) / BULK_KG_L


def test_a_crate_without_pane_or_cells_speaks_of_neither_and_weighs_no_more_than_what_is_in_it(made):
    bench = kit(made, "glass", "cells")
    found = crated(asked(bench.design, bench.quote.lines))
    content_kg = found.loads[0][0] * (total_kg(boxed(bench)) + PAPERS_KG)
    assert found.gross_kg - found.tare_kg == pytest.approx(content_kg)
    pages = told(make_pack(bench.design, bench.quote).leaf("crate.pdf").book)
    assert not re.search(r"\b([Gg]lass|[Cc]ells?|sheets of card)\b", pages)
    assert "the customer brings it" in pages
    for cut in ("across", "along"):
        assert all(
            getattr(item, "layer", "") != "pane" for item in crate_section(found.crate, cut, 1.0).items
        )
    assert hurting(("glass", "cells")) == ()
    assert [hurting((brings,))[0].words for brings in ("glass", "cells")] == [WAFER, GLASS_EDGE]


def test_a_kit_bears_what_lies_in_its_box_bears(made):
    """Rails, ribbon and silicone are no panel; a class that is stated stays."""
    bench = kit(made, "glass", "cells")
    ask = asked(bench.design, bench.quote.lines)
    assert ask.fragility.named == "rugged"
    for brings in (("glass",), ("cells",), ()):
        other = kit(made, *brings)
        assert asked(other.design, other.quote.lines).fragility.named == made.design.order.crate.fragility
    stated = replace(bench.design.order, assumptions=())
    as_stated = asked(replace(bench.design, order=stated), bench.quote.lines)
    assert as_stated.fragility.named == made.design.order.crate.fragility


def test_a_small_kit_without_pane_and_cells_travels_in_a_smaller_and_cheaper_crate():
    bench = kit(examples.made("henhouse"), "glass", "cells")
    stated = replace(bench.design.order, assumptions=())
    rugged, delicate = (
        crated(asked(design, bench.quote.lines))
        for design in (bench.design, replace(bench.design, order=stated))
    )
    assert rugged.proven
    assert max(each.thickness_mm for each in rugged.padding) < min(
        each.thickness_mm for each in delicate.padding
    )
    assert rugged.tare_kg < 0.8 * delicate.tare_kg
    assert rugged.price < delicate.price / 2


def test_what_is_had_at_the_site_is_in_no_box_and_no_crate_and_nothing_waits_for_it():
    text = (Path(__file__).parents[2] / "examples" / "fence.toml").read_text("utf-8")
    design = desk.design(f'{text}\n[kit]\nsold_as = "kit"\n'.encode(), "fence.toml").design
    bench = Bench(design, quote(design, load_shelf()))
    at_site = [part for part in design.structural.mounting.parts if part.at_site]
    assert {part.sold_by for part in at_site} == {"each", "kilogram"}  # the post and its concrete
    names = {part.name for part in at_site}
    assert not names & {each.name for each in boxed(bench)}
    assert total_kg(boxed(bench)) < 1.25 * design.label.mass_kg
    assert not names & {need.name for need in asked_of(design, load_shelf(), panels=3).needs}
    post, page = design.structural.mounting.standing, repr(mounting_page(bench))
    assert all(name in page for name in names)
    assert repr(f"1, {bench.size(round(post.height_mm + post.embedment_mm))} long") in page
    assert ("closed box weighs", "lb") in [
        pair
        for block in kit_book(bench, "1", "").pages[0].blocks
        if isinstance(block, Fields)
        for pair in block.labels
    ]


def test_what_the_crate_is_built_of_is_no_line_of_the_packing_list(made):
    bench = kit(made)
    priced = quote(bench.design, load_shelf(), None, packing(bench.design, load_shelf()))
    assert any(line.group == "crate" for line in priced.lines)
    assert boxed(Bench(bench.design, priced)) == boxed(bench)


def test_no_page_tells_what_a_watt_of_a_kit_costs(made):
    bench = kit(made, "cells", "glass")
    found = offer(bench.design, bench.quote)
    pages = (*make_quote(bench, found).pages, market_page(bench, found))
    heads = [
        words
        for page in pages
        for block in page.blocks
        if isinstance(block, Table)
        for words in block.columns
    ]
    assert "Kits" in heads
    assert not [words for words in heads if "watt" in words]
    assert "watt" not in price(bench.quote)
    assert "Price of a watt" not in dict(headline(bench))


def test_minutes_of_a_kit_are_those_of_the_finished_panel(made):
    whole = {each.key: each.minutes for each in bench_steps(Bench(made.design, made.quote))}
    mine = {each.key: each.minutes for each in bench_steps(kit(made))}
    assert mine == whole


@pytest.mark.parametrize("closed", CLOSED)
def test_every_page_that_a_step_sends_the_builder_to_is_in_the_book(made, closed):
    bench = kit(made, closed=closed)
    (book,) = [leaf.book for leaf in kit_leaves(bench.design, bench.quote) if leaf.name == "assembly.pdf"]
    titles = {page.title for page in book.pages}
    asked = {
        "Closing",
        "Wiring",
        "Tabs to cut and bend",
        "Bus ribbon to cut and mark",
        "Frame, rails and holes",
    }
    assert asked | {"Corner of the frame", "Frame, edge and brackets", "Junction box, leads, earth"} <= titles
    assert not any(isinstance(block, Verdicts) for page in book.pages for block in page.blocks)


def test_who_brings_glass_or_rails_gets_the_papers_to_have_them_made(made):
    assert papers(kit(made)) == PAPERS
    sent = {paper[1].split(":")[0].split(",")[0] for paper in papers(kit(made, "glass", "frame"))}
    assert {"glass.pdf", "jig.pdf"} <= sent


@pytest.mark.parametrize("brings", [(), ("glass",), ("frame",), ("cells", "glass", "frame")])
def test_a_kit_is_written_with_every_paper_that_its_packing_list_names(made, brings):
    bench = kit(made, *brings)
    named = {name for _, words in papers(bench) for name in re.findall(r"\w+\.(?:pdf|svg)", words)}
    written = [leaf.name for leaf in kit_leaves(bench.design, bench.quote)]
    assert named <= set(written)
    assert len(written) == len(set(written))


def test_the_last_step_says_which_holes_take_brackets_and_how_the_back_is_cut(made):
    bench = kit(made)
    (back,) = [each.step for each in customer_steps(bench) if each.key == "close-back"]
    assert "holes B" in back.do
    assert back_size(bench) in back.do


def test_the_list_of_one_box_tells_who_put_which_line_in_and_changes_nothing_else(made):
    bench = kit(made)
    lines = boxed(bench)
    box = Box("0042", 2, {line_key(lines[0]): "Ann, 2026-03-02 09:30", paper_key("label"): "Ben, 2026-03-02"})
    page, plain = (kit_book(bench, "order", "", each).pages[0] for each in (box, None))
    tables, plainly = ([each for each in found.blocks if isinstance(each, Table)] for found in (page, plain))
    assert [row[:-1] for row in tables[0].rows] == list(plainly[0].rows)
    assert [row[-1] for row in tables[0].rows] == ["Ann, 2026-03-02 09:30", *[""] * (len(lines) - 1)]
    assert [row[-1] for row in tables[1].rows if row[-1]] == ["Ben, 2026-03-02"]
    assert tables[0].ticks
