"""A whole pack from a whole design."""

import json
import math
from dataclasses import replace

import pytest

from panewright.bench.predicted import STC_C, STC_W_M2, cells_voc_v, panel_isc_a, panel_voc_v, stc
from panewright.check import Check
from panewright.crate.ask import ask_of
from panewright.crate.crated import crated
from panewright.drawing.bounds import bounds
from panewright.drawing.overlap import overlaps
from panewright.drawing.paper_size import figure_area
from panewright.drawing.sheet import Caution, Figure, Steps, Table, Verdicts, Words
from panewright.pack.leaf import BookLeaf, DxfLeaf, RecordLeaf, SvgLeaf, TemplateLeaf
from panewright.pack.pack import make_pack
from panewright.pack.pages import caution
from panewright.pack.pages.book import make_book
from panewright.pack.pages.front import NO_FIGURE, PANE_RANGE
from panewright.pack.verdict import verdict
from panewright.panel.electric.watts import account_at_work
from panewright.paper.pdf import book_pdf
from panewright.paper.record import json_bytes

DRAWN = "glass.pdf jig.pdf spacer.pdf layout.dxf frame.dxf glass.dxf clip.dxf spacer.dxf crate.pdf"
FILES = f"book.pdf quote.pdf template.pdf {DRAWN} parts.xlsx parts.csv cuts.csv design.json label.svg"


def blocks(made, kind):
    return [block for page in book(made).pages for block in page.blocks if isinstance(block, kind)]


def book(made):
    leaf = made.pack.leaf("book.pdf")
    assert isinstance(leaf, BookLeaf)
    return leaf.book


def test_a_pack_holds_every_file_once(made):
    assert [leaf.name for leaf in made.pack.leaves] == FILES.split()


def test_asking_for_a_file_that_is_not_there_is_a_mistake(made):
    with pytest.raises(KeyError):
        made.pack.leaf("cover.pdf")


def test_no_words_lie_on_each_other_in_any_figure(made):
    system = made.design.order.job.units
    for figure in blocks(made, Figure):
        assert overlaps(figure.drawing, system) == (), figure.drawing.name


def test_no_words_lie_on_each_other_in_the_label_and_the_workshop_files(made):
    system = made.design.order.job.units
    for leaf in made.pack.leaves:
        if isinstance(leaf, TemplateLeaf | DxfLeaf | SvgLeaf):
            assert overlaps(leaf.drawing, system) == (), leaf.name


def test_every_figure_fits_its_page(made):
    room = figure_area(made.design.order.job.paper)
    for figure in blocks(made, Figure):
        around = bounds(figure.drawing, made.design.order.job.units)
        assert around.width_mm / figure.scale <= room.width_mm, figure.drawing.name
        assert around.height_mm / figure.scale <= room.height_mm, figure.drawing.name


def made_book(design, quote):
    return make_book(design, quote, account_at_work(design), crated(ask_of(design)))


def test_the_book_can_be_printed(made):
    assert book_pdf(book(made)).startswith(b"%PDF")


def test_the_same_design_makes_the_same_book(made):
    assert made_book(made.design, made.quote) == book(made)


def test_the_stamp_stands_on_every_book_with_a_failing_check_and_on_no_other(made):
    assert book(made).stamp == ("" if made.design.proven else "NOT PROVEN")


def test_the_first_page_says_first_whether_every_check_holds(made):
    first = book(made).pages[0].blocks[0]
    assert isinstance(first, Words)
    assert first.size == "lead"
    assert first.words.startswith("Every check holds" if made.design.proven else "NOT PROVEN")


def test_no_failing_check_is_missing_from_the_book_and_no_check_at_all(made):
    failing = [check for check in made.design.checks if not check.passed]
    shown = [check for block in blocks(made, Verdicts) for check in block.checks]
    assert all(check in shown for check in failing)
    told = [row[0] for table in blocks(made, Table) if table.columns[0] == "Rule" for row in table.rows]
    assert sorted(told) == sorted(check.rule for check in made.design.checks)


def test_every_caution_of_the_trade_is_in_the_book(made):
    said = [block.words for block in blocks(made, Caution)]
    assert all(words in said for words in caution.ALL)


def test_every_step_says_what_to_check(made):
    steps, packing = blocks(made, Steps)
    assert len(steps.steps) >= 16
    assert all(step.do and step.check for step in (*steps.steps, *packing.steps))


def test_steps_follow_the_work(made):
    steps, _ = blocks(made, Steps)
    titles = [step.title for step in steps.steps]
    order = [titles[0], "Cut the rails", "Join the frame", "Tab the cells", "Solder the bus ribbon"]
    order += ["Check the insulation", "Pour the encapsulant", "Close the back", "Label", "Measure in the sun"]
    assert titles[0].startswith("Sort")
    places = [titles.index(title) for title in order]
    assert places == sorted(places)


def test_the_panel_reads_at_stc_what_its_curve_says(made):
    points = stc(made.design).points
    assert panel_voc_v(made.design, STC_W_M2, STC_C) == pytest.approx(points.voc_v)
    assert panel_isc_a(made.design, STC_W_M2, STC_C) == pytest.approx(points.isc_a)


def test_bare_cells_read_at_the_bench_nearly_what_the_covered_panel_reads(made):
    bare = cells_voc_v(made.design, made.design.layup.plan.in_series, STC_W_M2, STC_C)
    assert bare == pytest.approx(stc(made.design).points.voc_v, rel=0.02)
    assert bare > stc(made.design).points.voc_v


def test_a_panel_reads_less_volts_warm_and_less_amperes_in_less_light(made):
    assert panel_voc_v(made.design, 800.0, 45.0) < panel_voc_v(made.design, 800.0, 25.0)
    half = panel_isc_a(made.design, 500.0, 25.0)
    assert half == pytest.approx(panel_isc_a(made.design, 1000.0, 25.0) / 2, rel=0.01)


def test_the_record_says_the_verdict_of_every_check(made):
    leaf = made.pack.leaf("design.json")
    assert isinstance(leaf, RecordLeaf)
    record = json.loads(json_bytes(leaf.record))
    assert record["proven"] is made.design.proven
    assert [check["verdict"] for check in record["checks"]] == [c.verdict for c in made.design.checks]
    assert record["quote"]["price_each"] == str(made.quote.price_each)


def test_the_screen_tells_every_failure_with_its_cure(made):
    said = verdict(made.design, made.quote)
    for check in made.design.checks:
        if not check.passed:
            assert check.rule in said
            assert check.cure.replace("\u2009", " ") in said  # a terminal has no thin space
    assert said.startswith("Every check holds" if made.design.proven else "NOT PROVEN")


def test_a_book_in_inches_gives_the_frame_in_inches(made):
    units = made.design.order.job.units
    words = book(made).pages[0].blocks[1].words
    assert ("in (" in words) is (units == "us")


def test_lists_for_programs_say_on_every_row_whether_the_design_is_proven(made):
    for name in ("parts.csv", "cuts.csv"):
        leaf = made.pack.leaf(name)
        assert leaf.listing.columns[-1].name == "Proven"
        assert {row[-1] for row in leaf.listing.rows} == {"yes" if made.design.proven else "no"}


def test_what_is_not_proven_says_so_in_every_file_of_the_workshop(made):
    unproven = replace(made.design, checks=(*made.design.checks, Check("sag", 2.0, 1.0, "mm", "a test")))
    pack = make_pack(unproven, made.quote)
    for name in ("layout.dxf", "frame.dxf", "glass.dxf", "clip.dxf", "spacer.dxf"):
        words = [item for item in pack.leaf(name).drawing.items if getattr(item, "layer", "") == "warn"]
        assert [item.words for item in words] == ["NOT PROVEN"]
    assert pack.leaf("parts.xlsx").note == "NOT PROVEN"
    assert pack.leaf("template.pdf").stamp == "NOT PROVEN"
    assert {row[-1] for row in pack.leaf("parts.csv").listing.rows} == {"no"}


def test_a_section_names_no_side(made):
    (section,) = [figure for figure in blocks(made, Figure) if figure.drawing.name.startswith("Section")]
    assert section.drawing.side == ""


def test_a_pane_past_the_range_of_its_theory_shows_dashes(made):
    def past(check):
        """As the glass room tells it: the range fails, and what the plate's theory gave has no limit."""
        if check.rule in PANE_RANGE:
            return replace(check, demand=2 * check.limit)
        of_plate = check.room == "glass" and check.unit in ("mm", "MPa")
        return replace(check, demand=math.nan, limit=None) if of_plate else check

    failing = tuple(past(check) for check in made.design.checks)
    assert {check.rule for check in failing} >= set(PANE_RANGE)
    structural = made.design.structural
    proof = replace(structural.pane_proof, checks=failing)
    design = replace(made.design, checks=failing, structural=replace(structural, pane_proof=proof))
    pages = made_book(design, made.quote).pages
    tables = [block for page in pages for block in page.blocks if isinstance(block, Table)]
    rows = {row[0]: row[1] for table in reversed(tables) for row in table.rows}  # the first is of the checks
    assert rows["largest deflection"] == rows["largest stress"] == NO_FIGURE
    plate = [c.rule for c in failing if c.room == "glass" and c.unit in ("mm", "MPa")]
    assert {rows[rule] for rule in plate if rule not in PANE_RANGE} <= {NO_FIGURE}


def test_the_panes_strength_is_reckoned_step_by_step(made):
    pages = made_book(made.design, made.quote).pages
    page = next(page for page in pages if page.title == "Reckoning: pane")
    rows = dict(next(block for block in page.blocks if isinstance(block, Table)).rows)
    assert {"its place from the middle, along and across", "stress at the middle"} <= set(rows)
    proof = made.design.structural.pane_proof
    assert rows["used up most by"] == proof.governing
    family = made.design.order.site.family
    last = "load resistance" if family == "ASCE" else "design strength f_gd"
    assert any(words.startswith(last) for words in rows)
