"""The pour: one silicone after the other of the shelf, each with its batches, its clock and its checks."""

from __future__ import annotations

from dataclasses import dataclass

from panewright.cell.shape import area_mm2
from panewright.check import Check
from panewright.enclosure.degassing import Degassing, Liquid, degassing
from panewright.enclosure.encapsulant import BACK_MM, FRONT_MM, Bench, Pour, PourAsk, pour
from panewright.enclosure.floating import Floating, floating
from panewright.enclosure.inhibition import inhibition_check
from panewright.enclosure.mixing import MixCard, layers_check, mix_card
from panewright.enclosure.silicone import AtWork, Silicone, at_work, shop_checks
from panewright.layup.layup import Layup
from panewright.order.order import Order
from panewright.panel.electric.wiring import Wired
from panewright.panel.holding.held import Held
from panewright.shelf.shelf import Shelf
from panewright.structure.rails.seat import dam_mm, poured_mm2


@dataclass(frozen=True, slots=True)
class Poured:
    """One silicone in this panel."""

    silicone: Silicone
    work: AtWork
    pour: Pour
    card: MixCard
    floating: Floating
    degassing: Degassing
    checks: tuple[Check, ...]

    @property
    def passed(self) -> bool:
        """Whether every check holds."""
        return all(check.passed for check in self.checks)


def poured_of(order: Order, layup: Layup, held: Held, wired: Wired, shelf: Shelf) -> tuple[Poured, ...]:
    """The order's silicone, or the first of the shelf that holds every rule; then the others.

    Nothing where the order asks for no pour.
    """
    if order.parts.encapsulation != "silicone pour":
        return ()
    ask, pinned = _ask(order, layup, held, wired), order.parts.pour
    cell_mm2 = max(area_mm2(cell.shape) for cell in layup.cells)
    kept = tuple(row.part for row in shelf.pours if row.part != pinned)
    rows = [_poured(order, ask, cell_mm2, each) for each in ((pinned, *kept) if pinned else kept)]
    first = 0 if pinned else next((n for n, row in enumerate(rows) if row.passed), 0)
    return (rows[first], *rows[:first], *rows[first + 1 :])


def _ask(order: Order, layup: Layup, held: Held, wired: Wired) -> PourAsk:
    ribbon = max(wired.tab, wired.bus, key=lambda strip: strip.thickness_mm)
    cell_mm = order.cell.shape.thickness_mm
    return PourAsk(
        pane_mm2=poured_mm2(held.pane, held.rail, held.bead.bead, FRONT_MM + cell_mm + BACK_MM),
        front_mm=FRONT_MM,
        cell_mm=cell_mm,
        back_mm=BACK_MM,
        cells_mm2=sum(area_mm2(cell.shape) for cell in layup.cells),
        ribbon_mm=ribbon.thickness_mm + 2 * ribbon.coat_mm,
        dam_mm=dam_mm(held.rail, held.bead.bead),
    )


def _poured(order: Order, ask: PourAsk, cell_mm2: float, silicone: Silicone) -> Poured:
    shop_c = order.closing.shop_c
    work, made = at_work(silicone, shop_c), pour(ask, silicone, Bench(shop_c=shop_c))
    card = mix_card(made, silicone, work)
    afloat = floating(ask.cell_mm, cell_mm2, ask.front_mm, silicone.density_kg_m3)
    liquid = Liquid(silicone.density_kg_m3, work.viscosity_pa_s)
    airless = degassing(made.depth_mm, made.batch_ml, work.pot_life_min, liquid)
    checks = (
        *made.checks,
        *shop_checks(silicone, shop_c),
        layers_check(card, work),
        inhibition_check(order.closing.near or (), silicone.cures_by),
        *afloat.checks,
        *airless.checks,
    )
    return Poured(silicone, work, made, card, afloat, airless, checks)
