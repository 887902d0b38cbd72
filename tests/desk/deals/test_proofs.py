"""The proof of a bound in a file: the same again, caught where it was changed, refused where it is none."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from panewright.desk.deals import by_command, proofs
from panewright.desk.deals.wish import Wish
from panewright.errors import SheetError

KIOSK = Path(__file__).parents[3] / "examples" / "kiosk.toml"
WISHES = {
    "watts": Wish(),
    "money": Wish(aim="money", steps=(("85 W", "80"), ("95 W", "100"))),
    "remainder": Wish(aim="remainder", rating="88 W"),
}


@pytest.fixture(scope="module")
def dealt(cells_file):
    """Every aim of one lot, with its proof."""
    lot = by_command.Lot(cells_file)
    return {kind: by_command.match(KIOSK, lot, wish, 2) for kind, wish in WISHES.items()}


@pytest.mark.parametrize("kind", WISHES)
def test_a_kept_proof_is_the_same_again_and_holds(dealt, kind):
    made = dealt[kind]
    bound = proofs.from_text(made.proof().decode())
    assert bound.kind == kind
    assert proofs.as_text(bound).encode() == made.proof()
    found = proofs.checked(made.deal, made.matched, bound)
    assert found.holds, found.wrong


@pytest.mark.parametrize("kind", WISHES)
def test_a_bound_that_is_lower_or_of_another_deal_is_not_proven(dealt, kind):
    made = dealt[kind]
    deal, bound = made.deal, made.bound
    low = bound.value * 0.99
    lower = replace(deal, against=replace(deal.against, bound=low))
    assert (
        "The prices do not prove this bound."
        in " ".join(proofs.checked(lower, made.matched, replace(bound, value=low)).wrong)
        or not proofs.checked(lower, made.matched, replace(bound, value=low)).holds
    )
    assert not proofs.checked(deal, made.matched, replace(bound, value=low)).holds
    assert not proofs.checked(deal, made.matched, replace(bound, panels=1)).holds
    dearer = tuple(replace(each, costs=tuple(c - 0.1 for c in each.costs)) for each in bound.proofs)
    if kind == "watts":
        assert not proofs.checked(deal, made.matched, replace(bound, proofs=dearer)).holds
    short = tuple(replace(each, prices=each.prices[:-1]) for each in bound.proofs)
    assert not proofs.checked(deal, made.matched, replace(bound, proofs=short)).holds
    gap = tuple(replace(each, low_a=each.low_a + 0.1) for each in bound.proofs)
    assert not proofs.checked(deal, made.matched, replace(bound, proofs=gap)).holds


def test_what_is_no_proof_is_told_with_its_key(dealt):
    told = json.loads(dealt["watts"].proof())
    for key, value, said in (
        ("written_as", 9, "written_as"),
        ("kind", "hope", "kind"),
        ("value", "much", "value"),
        ("halves", 99, "halves"),
        ("more", 1, "more"),
        ("proofs", [{"low_a": [0.0]}], "proofs"),
    ):
        with pytest.raises(SheetError, match="This is no proof of a bound") as wrong:
            proofs.from_text(json.dumps({**told, key: value}))
        assert said in str(wrong.value)
    with pytest.raises(SheetError, match="cut off"):
        proofs.from_text(dealt["watts"].proof().decode()[:400])


def test_where_every_way_was_tried_all_are_tried_again(cells_file):
    marks = [f"K{n:03}" for n in range(1, 64)]
    soldered = tuple(tuple(marks[k : k + 9]) for k in range(0, 63, 9))
    rest = tuple(f"K{n:03}" for n in range(64, 85))
    made = by_command.match(KIOSK, by_command.Lot(cells_file, left_out=rest), Wish(soldered=soldered), 1)
    assert made.bound.kind == "exhausted"
    found = proofs.checked(made.deal, made.matched, proofs.from_text(made.proof().decode()))
    assert (found.words, found.holds) == ("Every way was tried again.", True)
    lower = replace(made.deal, against=replace(made.deal.against, bound=made.bound.value * 0.99))
    assert not proofs.checked(lower, made.matched, made.bound).holds
