"""Laws of the carton: when it is taken, what it bears, and that its pieces make it."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.crate.amounts import amounts
from panewright.crate.ask import Ask
from panewright.crate.carton import Carton, crush_n
from panewright.crate.crated import crated
from panewright.crate.crating import ways
from panewright.crate.fragility import fragility
from panewright.crate.room import Room
from panewright.crate.stack import Panel
from panewright.crate.timber import YARDS
from panewright.order.order import CrateWishes
from panewright.shelf.load import load_shelf
from panewright.units import INCH_MM
from panewright.units.scale import POUND_N

SHELF = load_shelf()
WISH = CrateWishes(
    by=None,
    way=None,
    lay="on edge",
    most_panels=None,
    most_kg=30.0,
    handling="ordinary",
    drop_mm=None,
    fragility="rugged",
    foams=tuple(row.part for row in SHELF.foams),
    border=False,
    carriers=SHELF.carriers,
    cartons=tuple(row.part for row in SHELF.cartons),
)


def ask(kits=2, sides=(1260.0, 250.0, 75.0), mass_kg=7.5, named="rugged", pane=False, **wish) -> Ask:
    panel = Panel(*sides, 0.0, mass_kg, "kit", pane=pane, foam_mm=YARDS["metric"].block_foam_mm)
    bears = fragility(named, 9000.0 if pane else None, 15.0)
    return Ask(kits, panel, bears, replace(WISH, **wish), "EUR")


asks = st.builds(
    ask,
    st.integers(1, 40),
    st.tuples(st.floats(400.0, 2300.0), st.floats(250.0, 390.0), st.floats(20.0, 200.0)),
    st.floats(1.0, 35.0),
    handling=st.sampled_from(["careful", "ordinary", "rough"]),
)


@settings(max_examples=25, deadline=None)
@given(asks)
def test_a_carton_that_is_taken_keeps_every_rule_and_the_limits_of_a_parcel(asked):
    made = crated(asked)
    if made.shell == "crate":
        assert not any(way.shell == "carton" and way.taken and not way.fails for way in ways(asked))
        return
    if not made.proven:
        return
    carton, carrier = made.crate, made.taken.carrier
    assert carrier.kind == "parcel"
    assert made.gross_kg <= min(carrier.most_kg, carton.board.most_kg, asked.wish.most_kg)
    assert sum(made.outside.sides_mm) <= carton.board.most_sides_mm
    assert carton.stacked_n <= carton.crush_n
    assert (
        max(board.long_mm for board in carton.boards if board.stuff == "card") <= carton.board.sheet_long_mm
    )


@pytest.mark.parametrize(
    "changed", [{"pane": True}, {"named": "delicate"}, {"way": "pallet"}, {"by": "freight"}, {"cartons": ()}]
)
def test_what_breaks_or_is_wanted_otherwise_goes_in_a_crate(changed):
    assert crated(ask()).shell == "carton"
    assert crated(ask(**changed)).shell == "crate"


def test_what_is_too_heavy_or_too_long_for_every_board_goes_in_a_crate():
    for asked in (ask(mass_kg=40.0), ask(sides=(2600.0, 250.0, 75.0))):
        assert crated(asked).shell == "crate"
        assert all(way.fails or way.taken is None for way in ways(asked) if way.shell == "carton")


def test_tray_and_lid_fold_up_to_the_sizes_that_are_told():
    carton = crated(ask()).crate
    assert isinstance(carton, Carton)
    tray, lid = carton.boards[:2]
    assert tray.long_mm == carton.inside.along_mm + 2 * carton.inside.up_mm
    assert tray.wide_mm == carton.inside.across_mm + 2 * carton.inside.up_mm
    over_tray = carton.inside.along_mm + 2 * carton.board.thick_mm
    assert lid.long_mm == pytest.approx(over_tray + 2 * carton.lid_wall_mm, abs=1.0)
    assert carton.outside.along_mm == pytest.approx(over_tray + 2 * carton.board.thick_mm)
    assert carton.outside.up_mm == pytest.approx(carton.lid_wall_mm + carton.board.thick_mm)


def test_its_mass_is_that_of_its_pieces_and_all_of_them_are_bought():
    made = crated(ask())
    carton, bought = made.crate, {each.of: each for each in amounts(made.crate)}
    card = sum(b.count * b.long_mm * b.wide_mm for b in carton.boards if b.stuff == "card") / 1e6
    assert bought["carton"].count == pytest.approx(card)
    assert "plywood" not in bought
    foam = carton.tare_kg - card * carton.board.kg_m2 - carton.fill_kg
    assert 0 < foam < 2.0
    assert made.gross_kg == pytest.approx(carton.tare_kg + 2 * 7.5)


def test_the_words_name_the_cheaper_freight_that_was_not_taken():
    asked = ask(kits=4, sides=(1690.0, 250.0, 150.0), mass_kg=14.5)
    made = crated(asked)
    assert made.shell == "carton"
    assert made.decided_by == "rugged"
    assert "it needs no crate; crated, by freight," in made.because
    least = min(
        way.price for way in ways(ask(kits=4, sides=(1690.0, 250.0, 150.0), mass_kg=14.5)) if way.price
    )
    assert f"{least:.2f}" in made.because
    assert least < made.price


def test_mckee_is_the_same_in_pounds_and_inches():
    """5.87 edge crush x root of thickness x perimeter, in lbf and in (McKee 1963, recalled)."""
    board = next(row.part for row in SHELF.cartons)
    crush_lbf = 5.87 * 48.0 * (board.thick_mm / INCH_MM * 80.0) ** 0.5
    as_48 = replace(board, edge_crush_n_m=48.0 * float(POUND_N) / (INCH_MM / 1000))
    told = crush_n(as_48, Room(24.0 * INCH_MM, 16.0 * INCH_MM, 12.0 * INCH_MM))
    assert told == pytest.approx(crush_lbf * float(POUND_N), rel=1e-9)


def test_grades_of_the_shelf_are_those_of_the_carriers_rule():
    """Rule 41 / Item 222 (recalled): 48 lbf/in 100 lb, 95 in; 61 lbf/in 140 lb, 110 in."""
    rows = [(48.0, 100.0, 95.0), (61.0, 140.0, 110.0)]
    for row, (crush, pounds, inches) in zip(SHELF.cartons, rows, strict=True):
        part = row.part
        assert part.edge_crush_n_m == pytest.approx(crush * float(POUND_N) / 0.0254, rel=2e-3)
        assert part.most_kg == pytest.approx(pounds * 0.45359237, abs=0.6)
        assert part.most_sides_mm == pytest.approx(inches * INCH_MM, abs=1.0)
