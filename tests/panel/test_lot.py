"""What the scatter of a lot costs a design."""

from functools import cache
from pathlib import Path

import pytest

from panewright.circuit.mismatch.drawn import simulated_loss
from panewright.circuit.mismatch.spread import Spread
from panewright.order.parse import parse_order
from panewright.panel.choose import design_panel
from panewright.panel.electric.lot import lot_loss
from panewright.shelf.load import load_shelf

HENHOUSE = Path(__file__).parents[2] / "examples" / "henhouse.toml"


@cache
def design(spread=""):
    text = HENHOUSE.read_text("utf-8")
    assert text.count("[cell]\n") == 1
    text = text.replace("[cell]\n", f'[cell]\nspread = "{spread}"\n' if spread else "[cell]\n")
    shelf = load_shelf()
    return design_panel(parse_order(text, HENHOUSE.name, shelf), shelf)


def test_a_lot_that_is_not_told_costs_what_nobody_knows():
    assert design().electrical.lot is None


def test_the_orders_own_spread_is_counted_and_nothing_else_of_the_design_changes():
    told = design("1 %")
    assert told.electrical.lot == lot_loss(design().electrical.network, 0.01)
    assert told.label == design().label
    assert told.checks == design().checks


@pytest.mark.parametrize(
    ("spread", "by_formula"), [(0.005, True), (0.01, True), (0.03, False), (0.05, False)]
)
def test_formula_and_simulation_agree_on_either_side_of_the_border(spread, by_formula):
    network = design().electrical.network
    lost = lot_loss(network, spread)
    other = simulated_loss(network, Spread(light=spread), 1500, seed=7)
    assert lost.by_formula == by_formula
    assert lost.share == pytest.approx(other.by_spread, rel=0.04 if by_formula else 0.1)


def test_equal_cells_lose_nothing():
    assert lot_loss(design().electrical.network, 0.0).share == 0.0
