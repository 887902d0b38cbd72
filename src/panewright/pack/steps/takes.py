"""What goes in at each step, with amounts from the parts list, for one panel and nothing lost."""

from __future__ import annotations

from panewright.pack.bench import Bench
from panewright.pack.customary import measure
from panewright.price.bill import Line

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
    "join-columns": ("bus",),
    "bypass-diodes": ("bypass",),
    "encapsulate": ("encapsulant", "film"),
    "close-back": ("back sheet", "box", "lead", "earth", "drain", "bracket", "bolt"),
    "label": ("label",),
}
_LAMINATED = {
    "encapsulate": ("film", "back sheet"),
    "close-back": ("box", "lead", "earth", "drain", "bracket", "bolt"),
}
_SCREWED = {
    "encapsulate": ("back sheet", "board screw"),
    "close-back": ("box", "lead", "earth", "drain", "bracket", "bolt"),
}


def lines_of(bench: Bench, key: str) -> tuple[Line, ...]:
    """Lines of the parts list, and of what the customer brings, that go in at a step."""
    others = {"film": _LAMINATED, "air gap": _SCREWED}.get(bench.design.order.parts.encapsulation, {})
    uses = others.get(key, _TAKES.get(key, ()))
    there = (*bench.quote.lines, *bench.quote.brought)
    return tuple(line for use in uses for line in there if line.use == use)


def takes(bench: Bench, key: str) -> tuple[str, ...]:
    """The same in words, such as '72 125 mm mono'; amounts stand first."""
    return tuple(said(bench, line) for line in lines_of(bench, key))


def said(bench: Bench, line: Line) -> str:
    """Amount and name of one line, for one panel."""
    by = measure(line.sold_by, bench.design.order.job.units)
    figure = f"{by.amount(line.one):f}"
    if not by.name:
        return f"{figure} × {line.name}"
    return f"{figure}\u2009{by.name} {line.name}"
