"""A row is what the order of that size gives, whoever reckons it."""

from __future__ import annotations

import os
import signal
import threading
import time
from dataclasses import replace

import pytest

from panewright import desk
from panewright.catalogue import crew as crews
from panewright.catalogue.carriage import travels
from panewright.catalogue.crew import crew
from panewright.catalogue.part import how_many, parts_of
from panewright.catalogue.reading import parse_family
from panewright.catalogue.row import Asked, Carried, in_words, row_of, worst_failing
from panewright.catalogue.work import Stopped, rows_of
from panewright.check import Check
from panewright.desk.carried import travels as sent_as
from panewright.desk.orders.crated import crated as desk_crated
from panewright.glass.plate.almanac.touches import OFF
from panewright.order.parse import parse_order
from panewright.pack.carriage import carriage
from panewright.panel.choose import design_briefly, design_panel
from panewright.price.offers.carriage import carriage_of
from panewright.price.offers.quote import priced
from panewright.structure.panes.safe_wind import both_families, safe_wind

COLLECTED = '\n[crate]\nby = "collected"\n'  # a catalogue leaves crate and carriage out


def whole(small, member):
    return desk.design(f"{small.text(member)}{COLLECTED}".encode(), "size.toml")


def test_a_row_has_the_figures_of_the_whole_design_and_its_quote(small, rows):
    members = [member for layup in small.layups() for member in layup]
    for number in (0, 3, 6):
        made, row = whole(small, members[number]), rows[number]
        design, figures = made.design, row.figures
        label, frame = design.label, design.structural.frame
        assert row.holds == design.proven
        assert figures.pmp_w == round(label.pmp_w, 1)
        assert (figures.vmp_v, figures.voc_v) == (round(label.vmp_v, 2), round(label.voc_v, 2))
        assert (figures.imp_a, figures.isc_a) == (round(label.imp_a, 2), round(label.isc_a, 2))
        assert figures.mass_kg == round(label.mass_kg, 2)
        sides = sorted((frame.outer_width_mm, frame.outer_height_mm))
        assert [figures.short_mm, figures.long_mm] == pytest.approx(sides, abs=0.05)
        assert figures.rail == design.structural.rail.name
        assert figures.prices[0] == made.quote.price_each
        assert figures.per_watt == made.quote.price_per_watt
        worst = worst_failing(design.checks)
        assert row.fails == ("" if worst is None else in_words(worst, "metric"))


def test_each_of_ten_costs_what_an_order_of_ten_quotes(small, rows):
    member = next(small.layups())[0]
    text = small.text(member).replace("[order]", "[order]\npanels = 10", 1)
    made = desk.design(f"{text}{COLLECTED}".encode(), "ten.toml")
    assert rows[0].figures.prices[1] == made.quote.price_each
    assert rows[0].figures.prices[1] < rows[0].figures.prices[0]


def test_safe_wind_is_that_of_the_safe_wind_page(small, rows):
    member = next(small.layups())[1]
    made = whole(small, member)
    pane, site = made.design.structural.pane, made.design.order.site
    own = safe_wind(pane, both_families(site)[0], (pane.sheet,))
    assert rows[1].figures.safe_wind_m_s == pytest.approx(own.speed_m_s[0], abs=0.11)


def test_a_brief_design_makes_the_same_choices_and_fails_the_same_checks(small, shelf):
    member = next(small.layups())[0]
    order = parse_order(small.text(member), "size", shelf)
    brief, full = design_briefly(order, shelf), design_panel(order, shelf)
    sure = [check for check in full.checks if check.passed and "one hand" in check.rule]
    assert [check for check in brief.checks if check not in sure] == [
        check for check in full.checks if check not in sure
    ]
    assert (brief.label, brief.amounts, brief.layup, brief.pour) == (
        full.label,
        full.amounts,
        full.layup,
        full.pour,
    )
    held = replace(brief.structural, pane_tests=full.structural.pane_tests, sheets=full.structural.sheets)
    assert replace(held, pane_proof=full.structural.pane_proof) == full.structural


@pytest.mark.parametrize(("columns", "rows"), [(3, 5), (6, 10)])
def test_a_hand_is_told_where_it_is_what_thin_glass_fails_by_most(text, shelf, columns, rows):
    glass = '["3.2 mm low-iron patterned tempered"]'
    range_text = text.replace('["4 mm low-iron tempered", "6 mm low-iron tempered"]', glass)
    range_text = range_text.replace("columns = [2]", f"columns = [{columns}]")
    range_text = range_text.replace("rows = [3, 6]", f"rows = [{rows}]").replace(', "125 mm mono"', "")
    family = parse_family(range_text.encode(), "thin.toml", shelf)
    row = rows_of(family, Asked(shelf, (1,)))[0]
    checks = whole(family, next(family.layups())[0]).design.checks
    worst = worst_failing(checks)
    assert any("one hand" in check.rule and not check.passed for check in checks)
    if rows == 10:
        assert row.fails == in_words(worst, "metric")
        return
    rule, figures = row.fails.split(" (known to 3 %): ")
    assert rule == worst.rule == "glass strength under one hand, factored"
    assert float(figures.split()[0]) == pytest.approx(worst.demand, rel=OFF)
    assert figures.split(" of ")[1] == in_words(worst, "metric").split(" of ")[1]
    assert row.cure == worst.cure


def test_two_processes_give_the_same_rows_as_one(small, asked, rows):
    with crew(2, how_many(small)) as hands:
        assert rows_of(small, asked, hands) == rows


@pytest.mark.parametrize("columns", ["[2]", "[2, 3]"])
@pytest.mark.parametrize("glass", ["[]", '["4 mm low-iron tempered"]', None])
def test_parts_are_counted_as_they_are_made(text, shelf, columns, glass):
    said = text.replace("columns = [2]", f"columns = {columns}")
    if glass is not None:
        line = f"glass = {glass}" if glass != "[]" else ""
        said = said.replace('glass = ["4 mm low-iron tempered", "6 mm low-iron tempered"]', line)
    family = parse_family(said.encode(), "some.toml", shelf)
    assert how_many(family) == len(parts_of(family))
    many = replace(family, rows=(3, 6), cells=family.cells * 4)  # more of one size than one part holds
    assert how_many(many) == len(parts_of(many))


def test_no_more_processes_are_begun_than_there_are_parts():
    with crew(3, 1):
        assert len(crews.multiprocessing.active_children()) == 1
    assert not crews.multiprocessing.active_children()


def test_a_size_that_no_order_can_have_is_a_row_with_the_reason(small, asked):
    member = replace(next(small.layups())[0], rows=6)
    text = small.text(member).replace("[site]", '[parts]\nbracket_from_end = "2 m"\n\n[site]')
    text = text.replace("\n[parts]\nglass", "\n[more]\nglass")
    row = row_of(member, text, asked)
    assert row.figures is None
    assert not row.holds
    assert row.fails
    assert row.cure


def test_who_decides_on_carriage_is_handed_in(small, asked):
    def mass(design, _asked, _bare):
        return Carried("parcel", "mass", f"{design.label.mass_kg:.0f} kg")

    told = replace(asked, carriage=mass)
    member = next(small.layups())[0]
    assert row_of(member, small.text(member), told).figures.carried.way == "parcel"


def test_a_small_panel_goes_by_parcel_and_a_long_one_by_freight(small, asked):
    told = replace(asked, carriage=travels)
    member = next(small.layups())[0]
    short = row_of(member, small.text(member), told).figures.carried
    long = replace(member, rows=14)
    far = row_of(long, small.text(long), told).figures.carried
    assert (short.way, far.way) == ("parcel", "freight")
    assert short.by == "price"
    assert "takes it; no way by freight costs less" in short.why
    assert far.by in ("length", "girth", "mass", "mass by volume", "lifting")
    assert "takes it; " in far.why


@pytest.fixture(scope="module")
def short(small, shelf):
    """One panel of the smallest size, to be sent alone."""
    member = next(small.layups())[0]
    design = design_briefly(parse_order(small.text(member), "size", shelf), shelf)
    order = replace(design.order, job=replace(design.order.job, panels=1))
    return replace(design, order=order)


@pytest.fixture(scope="module")
def bare(short, shelf):
    """Its price at the workshop."""
    return priced(short, shelf)


def with_parcel(design, **limits):
    """The same where the shelf has one parcel carrier with these limits, and freight."""
    wish = design.order.crate
    parcel = next(each for each in wish.carriers if each.kind == "parcel")
    freight = tuple(each for each in wish.carriers if each.kind == "freight")
    wish = replace(wish, carriers=(replace(parcel, **limits), *freight))
    return replace(design, order=replace(design.order, crate=wish))


@pytest.mark.parametrize(
    ("limits", "by", "figures"),
    [
        ({"longest_mm": 500.0}, "length", "mm long, it takes 500"),
        ({"girth_mm": 900.0}, "girth", "mm of length plus girth, it takes 900"),
        ({"most_kg": 5.0}, "mass", "kg in mass, it takes 5.00"),
        ({"divisor_cm3_kg": 500.0}, "mass by volume", "kg to be charged for, it takes"),
    ],
)
def test_freight_is_told_with_the_limit_that_decides(short, asked, bare, limits, by, figures):
    found = travels(with_parcel(short, **limits), asked, bare)
    assert (found.way, found.by) == ("freight", by)
    assert figures in found.why.replace("\u2009", " ")


def test_a_panel_too_heavy_to_lift_and_a_shock_are_told_as_such(short, asked, bare):
    heavy = replace(short, label=replace(short.label, mass_kg=29.0))
    assert travels(heavy, asked, bare).by == "lifting"
    wish = replace(short.order.crate, fragility="very delicate")
    found = travels(replace(short, order=replace(short.order, crate=wish)), asked, bare)
    assert (found.way, found.by) == ("freight", "shock")
    assert "moved by hand" not in found.why  # a light panel is not refused for its mass


@pytest.mark.parametrize("more", ["", '\n[money]\ncarriage = "33.00"\n'], ids=["by the tariff", "as ordered"])
def test_crate_and_carriage_of_one_are_those_of_a_quote_of_it(small, asked, more):
    """At the workshop as collected; beside it what the same order costs more when it is sent."""
    member = next(small.layups())[0]
    text = small.text(member) + more
    found = row_of(member, text, replace(asked, quantities=(1, 10), carriage=travels)).figures
    made, fetched = (desk.design(each.encode(), "one.toml") for each in (text, text + COLLECTED))
    sent = crated_as(made.design, found=desk_crated(made))
    assert found.prices[0] == fetched.quote.price_each
    assert found.carried.cost == made.quote.price_each - fetched.quote.price_each + sent
    ten = row_of(member, text, replace(asked, quantities=(10,), carriage=travels)).figures
    assert ten.carried == found.carried


def crated_as(design, found):
    """Carriage as the offer tells it."""
    return carriage_of(design.order.money.terms, carriage(design, found)).cost


def test_what_is_collected_or_asked_for_has_no_cost_beside_its_price(small, asked):
    member = next(small.layups())[0]
    text = small.text(member)
    unknown = replace(asked, carriage=travels)
    assert row_of(member, text + COLLECTED, unknown).figures.carried.cost is None


def test_crate_and_carriage_of_a_kit_are_those_of_its_own_package(small, asked):
    """A kit without cells and glass is a small parcel, not the crate of a finished panel."""
    member = next(small.layups())[0]
    text = small.text(member) + '\n[kit]\nsold_as = "kit"\ncustomer_brings = "glass, cells"\n'
    found = row_of(member, text, replace(asked, quantities=(1,), carriage=sent_as)).figures
    made, fetched = (desk.design(each.encode(), "one.toml") for each in (text, text + COLLECTED))
    crated = desk_crated(made)
    assert found.carried.cost is not None
    assert found.carried.cost == made.quote.price_each - fetched.quote.price_each + crated.price
    assert found.carried.way == crated.taken.carrier.kind
    assert crated.shell == "carton"


def test_progress_is_told_from_nothing_to_all(small, asked):
    heard = []
    rows_of(small, asked, told=lambda done, of: heard.append((done, of)))
    assert heard == [(0, 8), (4, 8), (8, 8)]


@pytest.mark.parametrize("processes", [1, 2])
def test_whoever_calls_it_off_stops_it_and_leaves_no_process(small, asked, processes):
    off, heard = threading.Event(), []

    def told(done, _of):
        heard.append(done)
        if done:
            off.set()

    with pytest.raises(Stopped), crew(processes, how_many(small)) as hands:
        rows_of(small, asked, hands, told, off.is_set)
    assert 0 < heard[-1] < 8
    assert not [child for child in crews.multiprocessing.active_children() if child.is_alive()]


def test_a_process_that_dies_costs_no_row(small, asked, rows):
    def told(done, _of):
        if done == 4:
            for child in crews.multiprocessing.active_children():
                os.kill(child.pid, signal.SIGKILL)
                time.sleep(0.05)

    with crew(2, how_many(small)) as hands:
        assert rows_of(small, asked, hands, told) == rows


def test_the_worst_failing_check_is_the_farthest_past_its_limit():
    holds = Check("sag", 1.0, 2.0, "mm", "book")
    past = Check("bite", 9.0, 6.0, "mm", "book")
    farther = Check("stress", 9.0, 3.0, "MPa", "book")
    unknown = Check("drilled glass", 1.0, None, "-", "book")
    assert worst_failing((holds,)) is None
    assert worst_failing((holds, past, farther)) is farther
    assert worst_failing((holds, past, farther, unknown)) is unknown
    assert "not covered" in in_words(unknown, "metric")
    assert in_words(past, "metric").replace("\u2009", " ") == "bite: 9.00 mm of 6.00 mm"
