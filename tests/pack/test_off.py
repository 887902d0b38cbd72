"""How far a hand may be off, as a rule of the order's units shows it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from panewright.pack.bench import Bench


@pytest.mark.parametrize(
    ("units", "size", "said"),
    [
        ("us", 0.5, "1/64 in (0.40 mm)"),
        ("us", 1.0, "1/32 in (0.79 mm)"),
        ("us", 2.0, "5/64 in (2.0 mm)"),
        ("us", 0.2, "0.00787 in (0.2 mm)"),
        ("metric", 0.5, "0.5 mm"),
    ],
)
def test_half_a_millimetre_is_a_sixty_fourth_of_an_inch_and_never_more(made, units, size, said):
    order = made.design.order
    design = replace(made.design, order=replace(order, job=replace(order.job, units=units)))
    assert Bench(design, made.quote).off(size).replace("\u2009", " ") == said
