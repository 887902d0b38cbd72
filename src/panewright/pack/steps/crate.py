"""How a crate is packed, step by step."""

from __future__ import annotations

from panewright.crate.crated import Crated
from panewright.crate.stack import BLOCKS
from panewright.drawing.sheet import Step, Steps
from panewright.pack.bench import Bench, count
from panewright.pack.pages import caution
from panewright.price.hours import minutes_of

_MINUTES = {  # as the price counts them
    "build": minutes_of("Build the crate"),
    "pads": minutes_of("Cut the foam and glue it in"),
    "panel": minutes_of("Put the panels into the crate"),
    "close": minutes_of("Close and mark the crate"),
    "weigh": minutes_of("Weigh and measure the crate"),
}


_BEARS = {"panel": "Every pad bears on a frame's corner", "kit": "Every pad bears on a loose board"}
_BEHIND = {"panel": "on the frame: corners and half way", "kit": "on the board: corners and half way"}


def crate_steps(bench: Bench, crated: Crated) -> Steps:
    """From the box to the carrier, for one crate."""
    return Steps(
        (
            *(_build(crated), _flat(bench) if crated.goods == "kit" else _cover(), _pads(bench, crated)),
            *(_stack(crated), _close(), _weigh(bench, crated)),
        )
    )


def _build(crated: Crated) -> Step:
    number = next(each.count for each in crated.boards if each.name == "sill")
    sills = "two sills" if number == 2 else f"{number} sills"
    under = sills if crated.by_hand else f"{sills}, bearers across under them"
    lifts = " and a batten to grip across each end" if crated.by_hand else ""
    joined = any(each.name.endswith("part 1") for each in crated.boards)
    over = " Sheets meet over a batten, half of it under each." if joined else ""
    return Step(
        "Build the box",
        f"Floor on {under}; sides and ends with battens outside along every edge{lifts}. The lowest batten "
        f"of each side laps its sill.{over} Screws as the table says. Leave the lid off.",
        "Both diagonals of the floor are alike; no screw comes through.",
        minutes=_MINUTES["build"],
    )


def _cover() -> Step:
    return Step(
        "Make the panels safe",
        "Tape the ends of the leads apart, coil them behind the panel, cover each sunny side against light.",
        "No bare end; nothing stands out behind the blocks.",
        caution=caution.LIVE_SHORT,
    )


def _flat(bench: Bench) -> Step:
    """Only what the shop sends is packed."""
    brings = bench.design.order.kit.brings
    pane, rails, cells = (group not in brings for group in ("glass", "frame", "cells"))
    small = "rails and small parts" if rails else "small parts"
    said = [
        *(["pane between two sheets of card"] if pane else []),
        f"{small} in one layer{' over it' if pane else ' on card'}, in bags and boxes",
        *(["cells in a box of their own, padded"] if cells else []),
        "all of it tied between the loose boards",
    ]
    words = "; ".join(said)
    hurts = [caution.GLASS_EDGE] * pane + [caution.WAFER] * cells
    return Step(
        "Make each kit a flat package",
        f"{words[0].upper()}{words[1:]}.",
        "Nothing rattles or slides when the package is tilted; every line of the packing list is ticked.",
        caution=" ".join(hurts),
    )


def _pads(bench: Bench, crated: Crated) -> Step:
    thick = {each.side: bench.size(each.thickness_mm) for each in crated.padding}
    told = f"{thick['face']} on the faces, {thick['edge']} along the long sides, {thick['end']} at the ends"
    return Step(
        "Glue the pads in",
        f"Pads at the corners{_alone(crated)}: {told}. Loose boards between foam and panels, not glued.",
        f"{_BEARS[crated.goods]}{', none on a pane alone' if crated.crate.stack.panel.pane else ''}.",
        minutes=_MINUTES["pads"],
    )


def _alone(crated: Crated) -> str:
    """Where one pad stands alone."""
    where = {"edge": "along the long sides", "end": "at the ends"}
    found = [where[each.side] for each in crated.padding if each.pads == 1]
    return f", one in the middle {' and '.join(found)}" if found else ""


def _stack(crated: Crated) -> Step:
    panels = crated.loads[0][0]
    how = "on their long sides, upright" if crated.crate.stack.lay == "on edge" else "flat, one over another"
    return Step(
        f"Put the {crated.goods}s in",
        f"{count(panels, crated.goods)} {how}, {BLOCKS} blocks behind each, {_BEHIND[crated.goods]}.",
        "Tight by hand, nothing moves when the crate is tilted a little; serials written on the list.",
        minutes=_MINUTES["panel"] * panels,
        caution=caution.GLASS_EDGE if crated.crate.stack.panel.pane else "",
    )


def _close() -> Step:
    return Step(
        "Close the lid",
        "List of serials, order and cautions in a bag under the lid. Screw the lid, do not nail it.",
        "The foam under the lid is pressed by no more than a tenth.",
        minutes=_MINUTES["close"],
    )


def _weigh(bench: Bench, crated: Crated) -> Step:
    people = {0: "a pallet truck", 1: "one person", 2: "two people"}[crated.people]
    return Step(
        "Weigh and mark",
        f"Marks, mass and address on two sides. It is moved by {people}.",
        "The mass written on it is that of the scale.",
        expect=f"{bench.say(crated.gross_kg, 'kg')} by its parts.",
        minutes=_MINUTES["weigh"],
    )
