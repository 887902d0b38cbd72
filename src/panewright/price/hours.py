"""How long the work takes, from counts of what is on the bench.

A rate is minutes for one of something, at the pace of a practised maker. No standard gives such
figures: every rate below is common practice without a source, and this one table is the place to
change it. Rates 'per order' are paid once, however many panels are built.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

SOURCE = "common practice, no source"
Count = Literal[
    "orders",
    "panels",
    "cells",
    "cut cells",
    "tab ends",
    "columns",
    "bus joints",
    "tails",
    "plugs",
    "ferrules",
    "diodes",
    "rails",
    "holes",
    "corners",
    "welded corners",
    "seats cut back",
    "boards",
    "board holes",
    "metres of bead",
    "brackets",
    "batches of pour",
    "kilograms of pour",
    "trial patches",
    "kits",
    "crates",
    "crated panels",
    "cartons",
    "kits in cartons",
]


@dataclass(frozen=True, slots=True)
class Rate:
    """Minutes for one of something."""

    step: str
    minutes: Decimal
    per: Count
    source: str = SOURCE


RATES: tuple[Rate, ...] = (
    Rate("Set up the bench, print and tape the template", Decimal(45), "orders"),
    Rate("Pour a trial patch", Decimal(15), "trial patches"),
    Rate("Look over and sort the cells", Decimal("0.5"), "cells"),
    Rate("Cut cells to strips", Decimal("1.0"), "cut cells"),
    Rate("Cut the rails", Decimal(4), "rails"),
    Rate("Mark, drill and deburr", Decimal("1.5"), "holes"),
    Rate("Cut back the seats", Decimal(3), "seats cut back"),
    Rate("Join the corners and square the frame", Decimal(8), "corners"),
    Rate("Weld the corners, square and dress the frame", Decimal(15), "welded corners"),
    Rate("Cut the back board", Decimal(10), "boards"),
    Rate("Drill and slit the back board", Decimal("1.5"), "board holes"),
    Rate("Clean the glass", Decimal(10), "panels"),
    Rate("Lay the bead and tool it", Decimal(4), "metres of bead"),
    Rate("Set the pane", Decimal(10), "panels"),
    Rate("Cut and bend the ribbon", Decimal("0.25"), "tab ends"),
    Rate("Tab the cells", Decimal("0.6"), "tab ends"),
    Rate("Lay out and string", Decimal("0.7"), "cells"),
    Rate("Read the voltage of each column", Decimal(2), "columns"),
    Rate("Solder the bus ribbon", Decimal("1.5"), "bus joints"),
    Rate("Cut, bend and sleeve the tails", Decimal("1"), "tails"),
    Rate("Fit the bypass diodes and the box", Decimal(5), "diodes"),
    Rate("Check polarity and insulation", Decimal(15), "panels"),
    Rate("Mix, pour: weigh and stir a batch, lift its bubbles", Decimal(12), "batches of pour"),
    Rate("Mix, pour: pour and watch", Decimal("6.5"), "kilograms of pour"),
    Rate("Close the back, lead the cable, earth", Decimal(40), "panels"),
    Rate("Join the tails to their terminals", Decimal(2), "tails"),
    Rate("Crimp plug and socket to the leads", Decimal(3), "plugs"),
    Rate("Crimp ferrules on the leads", Decimal(1), "ferrules"),
    Rate("Fix the brackets", Decimal(4), "brackets"),
    Rate("Clean, label and measure", Decimal(35), "panels"),
    Rate("Pick, count and weigh a kit", Decimal(40), "kits"),
    Rate("Build the crate", Decimal(60), "crates"),
    Rate("Cut the foam and glue it in", Decimal(15), "crates"),
    Rate("Put the panels into the crate", Decimal(4), "crated panels"),
    Rate("Close and mark the crate", Decimal(10), "crates"),
    Rate("Weigh and measure the crate", Decimal(10), "crates"),
    Rate("Cut and fold the carton", Decimal(20), "cartons"),
    Rate("Cut the foam for the carton", Decimal(10), "cartons"),
    Rate("Wrap the kits and put them into the carton", Decimal(6), "kits in cartons"),
    Rate("Fill, tape, weigh and mark the carton", Decimal(10), "cartons"),
)


@dataclass(frozen=True, slots=True)
class Work:
    """One kind of work over the whole order."""

    step: str
    count: Decimal
    per: Count
    each_minutes: Decimal
    source: str = SOURCE

    @property
    def minutes(self) -> Decimal:
        """Minutes over the whole order."""
        return self.count * self.each_minutes


def hours_by_step(counts: dict[Count, Decimal], rates: tuple[Rate, ...] = RATES) -> tuple[Work, ...]:
    """The work of one order, step by step; steps with nothing to do are left out.

    `counts` are over the whole order: the cells of all panels, the rails of all frames.

    >>> [work.minutes for work in hours_by_step({"rails": Decimal(8)})]
    [Decimal('32')]
    """
    found = ((rate, counts.get(rate.per, Decimal(0))) for rate in rates)
    return tuple(
        Work(rate.step, count, rate.per, rate.minutes, rate.source) for rate, count in found if count > 0
    )


def one_panel(order: Iterable[tuple[str, str]], panels: int) -> Iterator[tuple[str, Decimal]]:
    """How much of each kind of work one panel takes, from the counts of its order."""
    for step, count in order:
        yield step, Decimal(count) / panels


def minutes_of(step: str) -> float:
    """Minutes for one of a step, by the table. [min]

    >>> minutes_of("Build the crate")
    60.0
    """
    return float(next(rate.minutes for rate in RATES if rate.step == step))


def hours(work: tuple[Work, ...]) -> Decimal:
    """Hours in all, to a tenth. [h]"""
    return (sum((step.minutes for step in work), Decimal(0)) / 60).quantize(Decimal("0.1"))
