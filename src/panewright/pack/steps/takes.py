"""What goes in at each step, with amounts from the parts list, for one panel and nothing lost."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from panewright.pack.bench import Bench, count
from panewright.pack.customary import counted, finely
from panewright.price.bill import PIECES, Line
from panewright.price.money import up_to

_TAKES: dict[str, tuple[str, ...]] = {
    "sort-cells": ("cell",),
    "cut-rails": ("rail",),
    "join-frame": (
        "corner",
        "cleat",
        "screw",
        "tapping screw",
        "rivet",
        "stainless rivet",
        "filler",
        "isolator",
    ),
    "clean-pane": ("sheet",),
    "set-pane": ("sealant", "block", "tape"),
    "tab-cells": ("tab", "flux"),
    "string-column": ("solder",),
    "join-columns": ("bus", "sleeve", "crossing film"),
    "bypass-diodes": ("box", "bypass"),
    "encapsulate": ("encapsulant", "film"),
    "close-back": ("back sheet", "box", "lead", "plug", "ferrule", "earth", "drain", "bracket", "bolt"),
    "label": ("label",),
}
_LAMINATED = {
    "encapsulate": ("film", "back sheet"),
    "close-back": ("box", "lead", "plug", "ferrule", "earth", "drain", "bracket", "bolt"),
}
_SCREWED = {
    "join-frame": (*_TAKES["join-frame"], "back sheet"),  # its board is drilled with the empty frame
    "encapsulate": ("board screw", "desiccant", "vent"),
    "close-back": ("box", "lead", "plug", "ferrule", "earth", "drain", "bracket", "bolt"),
}


def lines_of(bench: Bench, key: str) -> tuple[Line, ...]:
    """Lines of the parts list, and of what the customer brings, that go in at a step."""
    if key == "trial-patch":
        return tuple(replace(line, one=line.once) for line in bench.quote.lines if line.once) or tuple(
            replace(line, one=line.once) for line in bench.quote.brought if line.once
        )
    others = {"film": _LAMINATED, "air gap": _SCREWED}.get(bench.design.order.parts.encapsulation, {})
    uses = others.get(key, _TAKES.get(key, ()))
    if key == "close-back" and bench.design.electrical.bypass is not None:
        uses = tuple(use for use in uses if use != "box")  # its diodes sit in it already
    there = (*bench.quote.lines, *bench.quote.brought)
    return tuple(line for use in uses for line in there if line.use == use)


def takes(bench: Bench, key: str) -> tuple[str, ...]:
    """The same in words, such as '72 × 125 mm mono'; amounts stand first."""
    return tuple(said(bench, line) for line in lines_of(bench, key))


def said(bench: Bench, line: Line) -> str:
    """Amount and name of one line, for one panel; of a pane its sides too, of ribbon which it is."""
    number = amount_said(bench, line)
    if line.use == "sheet":
        return f"{number} of {line.name}, {line.size}"
    if line.use == "rail":
        return f"{number} {_of(line)}"
    if line.use == "sealant" and bench.design.amounts.fillet_ml > 0:
        return f"{number} {line.name}, what is left seals the back"
    if line.group == "ribbon":
        own = _of(line) if _is_own(line) else line.name
        return f"{number} {line.size} {own}"
    return f"{number} × {line.name}" if line.sold_by == "each" else f"{number} {line.name}"


def _is_own(line: Line) -> bool:
    """Whether the order described it, as 'rail of the order'."""
    return line.name == f"{line.use} of the order"


def _of(line: Line) -> str:
    """What it is of, without telling the thing twice."""
    return "of the order" if _is_own(line) else f"of {line.name}"


def amount_said(bench: Bench, line: Line) -> str:
    """How much one panel takes as a builder counts it: panes, rails, whole pieces, else what is measured."""
    if line.use == "sheet":
        return "1 pane"
    if line.use == "rail":
        return count(len(bench.design.structural.frame.pieces), "rail")
    units = bench.design.order.job.units
    if line.sold_by in PIECES:
        return counted(up_to(line.one, Decimal(1)), line.sold_by, units)
    return finely(line.one, line.sold_by, units)
