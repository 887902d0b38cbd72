"""Where the watts of a design go: from its cells, each bare at its own best, to the panel.

Every stage is the design's own circuit with one more thing in it, in this order: the cells joined by
nothing; the light on its way through cover and past ribbons; the bypass diodes; the ribbons along the
cells; their solder; the bus ribbons, which makes it the design's circuit at STC; and if asked the heat of a
running panel, in cells and copper alike.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import accumulate
from operator import mul

from panewright.circuit.account import Account, Stage, account
from panewright.circuit.network import Network, String, Substring
from panewright.panel.design import Design
from panewright.panel.electric.electrical import STC_C, STC_W_M2, tab_run
from panewright.panel.electric.light import Light, Lit, counted, light_of, white_of
from panewright.panel.electric.wiring import Wired, network_at
from panewright.ribbon.resistance import cell_equivalent_ohm
from panewright.ribbon.solder import solder_ohm

MISMATCH, DIODES = "unlike cells share one current", "bypass diodes, closed"
TABS, BUSES = "resistance of the ribbons along the cells", "resistance of the bus ribbons"
JOINTS = "solder under the ribbons, sound"
HEAT = "heat of the cells"


def light_in(design: Design) -> Light:
    """The steps of the light in this design; the last makes them what its circuit counts with."""
    return counted(light_of(lit_of(design)), design.electrical.light)


def lit_of(design: Design) -> Lit:
    """What lies in the way of this design's light."""
    order = design.order
    return Lit(
        order.cell,
        design.structural.pane.sheet,
        order.parts.encapsulation,
        design.electrical.tab,
        tab_run(order, design.layup.plan.cell_gap_mm),
        design.layup,
        white_of(order.parts.back),
    )


def account_of(design: Design, cell_c: float | None = None) -> Account:
    """From the sum of the bare cells' own powers to the panel's at STC, or with its cells at `cell_c`. [W]"""
    return account(tuple(_stages(design, cell_c)))


def account_at_work(design: Design) -> Account:
    """The same down to the panel at work, as hot as on a usual sunny day; the last term is that heat. [W]"""
    return account_of(design, design.structural.temperatures.running_cell_c)


def wired_of(design: Design) -> Wired:
    """The lay-up with its ribbons, as the design's circuit was made from it."""
    made = design.electrical
    run = tab_run(design.order, design.layup.plan.cell_gap_mm)
    return Wired(design.layup, made.models, made.tab, made.bus, run, made.bypass, made.light, made.unlike)


def _stages(design: Design, cell_c: float | None) -> Iterator[Stage]:
    wired, light = wired_of(design), light_in(design)
    yield MISMATCH, _bare(_lit(wired, 1.0))
    left = accumulate((step.share for step in light.steps), mul)
    for step, share in zip(light.steps, left, strict=True):
        yield step.words, _bare(_lit(wired, share))
    whole = design.electrical.network
    if design.electrical.bypass is not None:
        yield DIODES, _joined(whole, 0.0)
    tabs_ohm = cell_equivalent_ohm(wired.tab, wired.run, STC_C)
    yield TABS, _joined(whole, tabs_ohm)
    yield JOINTS, _joined(whole, tabs_ohm + solder_ohm(wired.tab, wired.run))
    yield BUSES, whole
    if cell_c is not None:
        yield HEAT, network_at(wired, STC_W_M2, cell_c)


def _lit(wired: Wired, share: float) -> Network:
    return network_at(replace(wired, light=share), STC_W_M2, STC_C)


def _bare(network: Network) -> Network:
    """The same cells, joined by nothing that resists and guarded by nothing."""
    strings = tuple(String(tuple(_plain(part) for part in string.substrings)) for string in network.strings)
    return Network(strings)


def _plain(part: Substring) -> Substring:
    return replace(part, joints_ohm=(0.0,) * len(part.cells), bypass=None)


def _joined(network: Network, most_ohm: float) -> Network:
    """The same cells and diodes, each joint no more than its ribbons resist, and no bus."""
    strings = tuple(
        replace(string, tail_ohm=0.0, substrings=tuple(_eased(part, most_ohm) for part in string.substrings))
        for string in network.strings
    )
    return Network(strings)


def _eased(part: Substring, most_ohm: float) -> Substring:
    return replace(part, joints_ohm=tuple(min(ohm, most_ohm) for ohm in part.joints_ohm))
