"""What was weighed for the corners: why rails meet so, and every fastener on rails that meet like that."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from panewright.check import Check
from panewright.frame.joining.fastener import FASTENERS
from panewright.panel.corner_ways import corner_checks
from panewright.panel.design import Design, Weighed
from panewright.panel.holding.cornered import held_by
from panewright.panel.holding.held import Held
from panewright.panel.weighed.grid import Column, Grid, ordered, sentences
from panewright.shelf.shelf import Shelf

_KEYS = ("parts.corner", "parts.corner_fastener")


@dataclass(frozen=True, slots=True)
class CornerRow:
    """Rails of this design, joined by one fastener."""

    fastener: str
    worst: Check


def _used(row: CornerRow) -> float | None:
    return row.worst.utilisation if row.worst.covered else None


_CORNERS: tuple[Column[CornerRow], ...] = (
    Column("Joined by", "fastener", lambda row: row.fastener),
    Column("Used", "used_share", _used, "-", "%", 100.0),
    Column("Nearest its limit", "nearest_rule", lambda row: row.worst.rule),
    Column("Holds", "holds", lambda row: "yes" if row.worst.passed else "no"),
)


def weighed_corners(design: Design, held: Held, shelf: Shelf) -> Weighed:
    """How rails meet, and why not the usual way where the order left it open."""
    order, parts = design.order, design.order.parts
    taken = ", ".join(word for word in (parts.corner, parts.corner_fastener) if word)
    open_ = {each.key: each.reason for each in order.assumptions if each.key in _KEYS}
    pins = (
        ("corner", None if _KEYS[0] in open_ else parts.corner),
        ("fastener", None if _KEYS[1] in open_ else parts.corner_fastener),
    )
    said = (f"{each[:1].upper()}{each[1:]}." for each in dict.fromkeys(open_.values()))
    rows = tuple(_rows(design, held, shelf))
    why = sentences(ordered(pins), *said)
    return Grid(_CORNERS, rows, rows).weighed("How do rails meet?", taken, why, order.job.units)


def _rows(design: Design, held: Held, shelf: Shelf) -> Iterator[CornerRow]:
    """Every fastener on its lightest clip that holds; a weld alone, for its rails bend otherwise."""
    taken, mass_kg = design.order.parts.corner_fastener, design.structural.mass.total_kg
    for name in (None,) if taken is None else tuple(FASTENERS):
        own = design.structural.frame.joint
        joint = own if name == taken else held_by(name, held, mass_kg, shelf)
        checks = corner_checks(held, joint, mass_kg)
        yield CornerRow(name or "weld", max(checks, key=lambda check: check.utilisation))
