"""On how many of its busbars a cell gets a tab.

Fewer tabs: less ribbon to buy and solder, less shadow, fewer ends that pull at the wafer; but more current
in each tab, and longer ways for the cell's fingers. What those make of it is told from above, as `Contacts`.
"""

from __future__ import annotations

from dataclasses import dataclass

from panewright.ribbon.cell import Contacts, TabbedCell, on_every_busbar
from panewright.ribbon.resistance import tab_length_mm, tab_loss
from panewright.ribbon.shadow import shaded_mm2, shaded_share
from panewright.ribbon.strip import Strip
from panewright.units import MM


@dataclass(frozen=True, slots=True)
class TabCount:
    """One number of tabs on a cell, and what it costs."""

    tabs: int
    resistance_w: float  #: in the tabs
    finger_w: float  #: in the fingers, over what they lose with a tab on every busbar
    shadow_w: float
    metres: float  #: of ribbon a cell

    @property
    def total_w(self) -> float:
        """All that a cell loses by it. [W]"""
        return self.resistance_w + self.finger_w + self.shadow_w


def judge_counts(strip: Strip, cell: TabbedCell, temperature_c: float = 20.0) -> tuple[TabCount, ...]:
    """A tab on every busbar, then each way to leave some out."""
    ways = (on_every_busbar(cell.run.busbars), *cell.fewer)
    return tuple(judge_count(strip, cell, contacts, temperature_c) for contacts in ways)


def judge_count(strip: Strip, cell: TabbedCell, contacts: Contacts, temperature_c: float = 20.0) -> TabCount:
    """One number of tabs on one cell."""
    busbars, tabs = cell.run.busbars, len(contacts.shares)
    together = sum(share**2 for share in contacts.shares)
    shaded = shaded_mm2(strip, tabs, cell.busbar_width_mm, cell.run.length_mm - cell.run.front_bare_mm)
    return TabCount(
        tabs=tabs,
        resistance_w=busbars * together * tab_loss(strip, cell.run, cell.imp_a, temperature_c).total_w,
        finger_w=contacts.finger_ohm * cell.imp_a**2,
        shadow_w=cell.pmp_w * shaded_share(shaded, cell.area_mm2),
        metres=tab_length_mm(cell.run) * MM * tabs / busbars,
    )
