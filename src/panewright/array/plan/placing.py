"""Panels laid on their stands: row by row from the lower left corner, with the gap between them.

A row is as high as its highest panel; unlike panels stand on the row's lower line.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from panewright.array.member import Member
from panewright.array.plan.panel import Panel
from panewright.array.plan.plan import Placed
from panewright.array.worth import DEGRADATION
from panewright.order.site.site import Site, Stand, Wished
from panewright.sky.shadow.pane import Pane
from panewright.sky.shadow.things import axes
from panewright.units import MM


def placed(site: Site, panels: Sequence[Panel]) -> tuple[Placed, ...]:
    """Every panel of the site in its place; `panels` in the order of the site's."""
    if len(panels) != len(site.panels):
        raise ValueError(f"a site of {len(site.panels)} panels is laid with as many, got {len(panels)}")
    return tuple(
        _placed(site, wish, panel, _corner_mm(site, panels, number))
        for number, (wish, panel) in enumerate(zip(site.panels, panels, strict=True))
    )


def _corner_mm(site: Site, panels: Sequence[Panel], number: int) -> tuple[float, float]:
    """Lower left corner of a panel along its stand: to the right, and up the slope."""
    wish = site.panels[number]
    gap = site.stands[wish.stand].gap_mm
    mates = [
        (each, panel.outline)
        for each, panel in zip(site.panels, panels, strict=True)
        if each.stand == wish.stand
    ]
    right = sum(
        own.width_mm + gap for each, own in mates if each.row == wish.row and each.column < wish.column
    )
    rows = range(wish.row)
    up = sum(max(own.height_mm for each, own in mates if each.row == row) + gap for row in rows)
    return right, up


def _placed(site: Site, wish: Wished, panel: Panel, corner_mm: tuple[float, float]) -> Placed:
    stand = site.stands[wish.stand]
    member = Member(
        wish.name,
        panel.law,
        _pane(stand, panel, corner_mm),
        panel.rated_w,
        stand.behind,
        dirt=site.dirt,
        left=(1 - DEGRADATION) ** wish.age_years,
    )
    return Placed(
        wish.name,
        replace(panel.plate, serial=wish.name),
        member,
        panel.known_by,
        wish.stand,
        wish.column,
        wish.row,
        panel.outline.width_mm,
        panel.outline.height_mm,
        *corner_mm,
        doubt=panel.doubt,
        age_years=wish.age_years,
    )


def _pane(stand: Stand, panel: Panel, corner_mm: tuple[float, float]) -> Pane:
    right, up, _ = axes(stand.plane)
    at = np.array(stand.corner_m) + MM * (corner_mm[0] * right + corner_mm[1] * up)
    return Pane((float(at[0]), float(at[1]), float(at[2])), stand.plane, panel.outline.cells_m)
