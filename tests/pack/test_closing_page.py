"""The page of closing, for each way to encapsulate."""

from dataclasses import replace
from itertools import pairwise

import pytest

from panewright.drawing.sheet import Caution, Table, Verdicts, Words
from panewright.enclosure.inhibition import INHIBITORS
from panewright.pack.bench import Bench
from panewright.pack.pages.closing import CLOSING, closing_page
from panewright.pack.steps.steps import bench_steps
from panewright.panel.choose import design_panel
from panewright.shelf.load import load_shelf

SHELF = load_shelf()


def bench_of(made, how="silicone pour", **closing):
    order = made.design.order
    parts = replace(order.parts, encapsulation=how)
    order = replace(order, parts=parts, closing=replace(order.closing, **closing))
    return Bench(design_panel(order, SHELF), made.quote)


def said(page):
    words = [block.words for block in page.blocks if isinstance(block, Words | Caution)]
    cells = [cell for block in page.blocks if isinstance(block, Table) for row in block.rows for cell in row]
    return " ".join((*words, *cells))


def test_the_mix_card_has_a_line_for_each_batch_and_its_grams_make_the_mix(made):
    bench = Bench(made.design, made.quote)
    page = closing_page(bench)
    (card,) = [block for block in page.blocks if isinstance(block, Table) and "Mix card" in block.caption]
    assert len(card.rows) == made.design.pour.batches
    grams = [float(cell.partition("\u2009")[0]) for row in card.rows for cell in row[1:3]]
    assert sum(grams) == pytest.approx(1000 * made.design.pour.mix_kg, rel=0.01)
    starts = [int(row[3].partition("\u2009")[0]) for row in card.rows]
    assert all(one < other for one, other in pairwise(starts))


def test_what_strings_of_such_panels_may_come_to_is_cautioned_above_sixty_volts(made):
    def told(system_v):
        label = replace(made.design.label, system_v=system_v)
        return said(closing_page(Bench(replace(made.design, label=label), made.quote)))

    high = told(600.0)
    assert "may come to 600\u2009V" in high
    assert "licensed people" in high
    assert "may come to" not in told(60.0)


def test_the_page_shows_every_rule_of_the_closing(made):
    page = closing_page(Bench(made.design, made.quote))
    (verdicts,) = [block for block in page.blocks if isinstance(block, Verdicts)]
    assert page.title == CLOSING
    assert verdicts.checks == made.design.closing.checks


def test_all_inhibitors_are_listed_where_nobody_said_what_lies_about_and_only_those_named_else(made):
    whole = said(closing_page(bench_of(made)))
    assert all(name in whole for name in INHIBITORS)
    few = said(closing_page(bench_of(made, near=("masking tape",))))
    assert "masking tape" in few
    assert "latex gloves" not in few
    assert "None of the usual things" in said(closing_page(bench_of(made, near=())))


@pytest.mark.parametrize(
    ("how", "words"),
    [
        ("film", ("gel", "pump", "breather cloth", "Press")),
        ("air gap", ("dew point", "vented", "Vent at the lowest corner", "washers")),
    ],
)
def test_film_and_gap_have_words_of_their_own(made, how, words):
    bench = bench_of(made, how)
    page = closing_page(bench)
    text = said(page) + "".join(c for b in page.blocks if isinstance(b, Table) for c in b.columns)
    assert all(word in text for word in words)
    assert "Mix" not in text


def test_a_sealed_gap_says_for_how_long(made):
    bench = bench_of(made, "air gap", gap="sealed", desiccant_g=100.0)
    assert "stays clear for about" in said(closing_page(bench))


def test_leads_plugs_and_earth_are_told(made):
    text = said(closing_page(Bench(made.design, made.quote)))
    for words in (
        "one make and series",
        "under load",
        "0.1\u2009Ω",
        "hole E",
        "toothed washer",
        "cable glands",
    ):
        assert words in text


def test_the_trial_patch_comes_long_before_the_pour_and_only_with_one(made):
    steps = bench_steps(Bench(made.design, made.quote))
    keys = [step.key for step in steps]
    patch = steps[keys.index("trial-patch")]
    assert keys.index("trial-patch") < keys.index("cut-rails") < keys.index("encapsulate")
    assert patch.wait_h == made.design.closing.pour.work.full_h
    assert set(patch.meanwhile) <= set(keys) | {"bypass-diodes"}
    assert "encapsulate" not in patch.meanwhile
    for how in ("film", "air gap"):
        assert "trial-patch" not in [step.key for step in bench_steps(bench_of(made, how))]


def test_a_cold_shop_waits_longer(made):
    waits = [
        step.wait_h
        for shop_c in (23.0, 15.0)
        for step in bench_steps(bench_of(made, shop_c=shop_c))
        if step.key == "encapsulate"
    ]
    assert waits[0] == pytest.approx(24.0)
    assert waits[1] > 1.5 * waits[0]
