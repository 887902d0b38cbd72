"""Which tools a step wants beside the bench itself; common practice, no source."""

from __future__ import annotations

from panewright.frame.joining.rivet import Rivet
from panewright.pack.bench import Bench

METER = "multimeter"
IRON = "soldering iron, 60 to 80 W, chisel tip"
_PLAIN: dict[str, tuple[str, ...]] = {
    "sort-cells": ("lamp", METER, "soft gloves"),
    "trial-patch": ("scales to 1 g", "cup", "stirrer", "scrap of glass", "clock"),
    "cut-rails": ("mitre saw with a metal blade", "stop and clamp", "rule", "file"),
    "clean-pane": ("rule", "two lint-free cloths", "gloves"),
    "set-pane": ("cartridge gun", "spatula", "spacers", "masking tape", "suction cups"),
    "cure-bead": ("knife, for the trial bead",),
    "tab-cells": (IRON, "side cutters", "flux pen", "bending jig", "warm, flat, soft bed"),
    "string-column": (IRON, "printed template", METER, "tape"),
    "join-columns": (IRON, "side cutters", "two boards to turn the columns over"),
    "bypass-diodes": (IRON, METER),
    "polarity": (METER, "sleeves + and −"),
    "insulation": ("insulation tester, 500 V", "gloves"),
    "close-back": ("cartridge gun", "spanner", METER, "spring balance"),
    "label": ("printer at full size",),
    "measure-sun": (METER, "irradiance meter", "thermometer", "level stand"),
}
_CLOSING = {
    "silicone pour": ("scales to 1 g", "two cups", "stirrer", "needle", "level", "clock"),
    "film": ("vacuum laminating press", "knife", METER),
    "air gap": ("screwdriver", "drying bags"),
}


def tools(bench: Bench, key: str) -> tuple[str, ...]:
    """Names of tools, those first that the hand takes first; nothing for a step that nobody knows."""
    frame = bench.design.structural.frame
    if key == "encapsulate":
        return _CLOSING[bench.design.order.parts.encapsulation]
    if key == "drill-rails":
        sizes = sorted({hole.diameter_mm for piece in frame.pieces for hole in piece.holes})
        slots = ("round file",) if frame.slot_mm else ()
        return ("rule", "centre punch", f"drills {', '.join(map(bench.drill, sizes))}", *slots, "deburrer")
    if key == "join-frame":
        board = _for_board(bench) if bench.design.amounts.board_screws else ()
        if frame.joint is None:
            return ("TIG welder, mask and gloves", "four corner clamps", "rule", "grinder", *board)
        driver = "rivet gun" if isinstance(frame.joint.fastener, Rivet) else "screwdriver and spanner"
        return (driver, "four corner clamps", "square", "rule", *board)
    if key == "close-back":
        die = "the plugs' die" if bench.design.amounts.plugs else "a die for ferrules"
        return (*_PLAIN[key], f"crimping pliers with {die}")
    return _PLAIN.get(key, ())


def _for_board(bench: Bench) -> tuple[str, ...]:
    """What a board behind an air gap is sawn and drilled with; a vent plug's own name tells its size."""
    parts = (*bench.quote.lines, *bench.quote.brought)
    plugs = (line.name for line in parts if line.use == "vent")
    return ("saw for the board", "drill", *(f"drill for the {plug}" for plug in plugs), "deburrer")
