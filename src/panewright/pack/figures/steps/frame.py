"""Rails sawn, drilled and joined; the pane cleaned."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from panewright.drawing.drawing import Drawing, Item, Path, box
from panewright.drawing.move import merged, moved
from panewright.pack.bench import Bench, by_rule
from panewright.pack.figures.finished import rails
from panewright.pack.figures.frame import diagonal_mm, rail_figure
from panewright.pack.figures.steps.arrow import arrow
from panewright.pack.figures.steps.lying import laid, with_words
from panewright.structure.drilling.frame_plan import RailPiece


def sawn_rails(bench: Bench, text: float) -> Drawing:
    """One rail of each length, as it leaves the saw. [mm]"""
    frame, units = bench.design.structural.frame, bench.design.order.job.units
    drawn = tuple(
        rail_figure(replace(piece, holes=()), frame, text, units, name) for name, piece in _kinds(bench)
    )
    down = 9.0 * text + frame.rail.seat_mm + frame.rail.upright_mm
    return merged("Rails", tuple(moved(each, 0.0, -n * down) for n, each in enumerate(drawn)), "")


def _kinds(bench: Bench) -> tuple[tuple[str, RailPiece], ...]:
    """The longest rail and, where there is one, the shorter."""
    pieces = bench.design.structural.frame.pieces
    by_length = {round(piece.length_mm, 2): piece for piece in pieces}
    found = [by_length[length] for length in sorted(by_length, reverse=True)]
    counts = [
        sum(round(each.length_mm, 2) == round(piece.length_mm, 2) for each in pieces) for piece in found
    ]
    return tuple((f"{number} × so", piece) for number, piece in zip(counts, found, strict=True))


def drilled_rail(bench: Bench, text: float) -> Drawing:
    """The rail with most holes, from its datum. [mm]"""
    frame = bench.design.structural.frame
    piece = max(frame.pieces, key=lambda each: len(each.holes))
    return rail_figure(piece, frame, text, bench.design.order.job.units)


def joined_frame(bench: Bench, text: float) -> Drawing:
    """Four rails pressed together at their corners, and both diagonals. [mm]"""
    frame = bench.design.structural.frame
    left, low, right, top = _outer(bench)
    seat = frame.rail.seat_mm
    items: list[Item] = [*rails(frame)]
    items.append(box(left + seat, low + seat, right - seat, top - seat, "hidden"))
    for corner, across in (((left, low), (right, top)), ((left, top), (right, low))):
        items.append(Path((corner, across), "centre"))
    for x, out in ((left, -1.0), (right, 1.0)):
        for y, up in ((low, -1.0), (top, 1.0)):
            items.append(
                box(
                    min(x, x - out * seat),
                    min(y, y - up * seat),
                    max(x, x - out * seat),
                    max(y, y - up * seat),
                    "mark",
                    filled=True,
                )
            )
            items += arrow((x + out * 3.4 * text, y), (x + out * 0.6 * text, y), 0.9 * text)
    said = f"both diagonals {by_rule(diagonal_mm(frame), bench.design.order.job.units)}"
    turned = laid(items, tall=top - low > right - left)
    return with_words("The frame joined", turned, said, text, "sunny side up")


def _outer(bench: Bench) -> tuple[float, float, float, float]:
    """The frame's outside, from the pane's corner. [mm]"""
    frame = bench.design.structural.frame
    margin = (frame.outer_width_mm - frame.pane_width_mm) / 2
    return -margin, -margin, frame.pane_width_mm + margin, frame.pane_height_mm + margin


def cleaned_pane(bench: Bench, text: float) -> Drawing:
    """The pane with the rim that no finger touches again. [mm]"""
    frame, bite = bench.design.structural.frame, bench.design.structural.bead.bite_mm
    wide, high = frame.pane_width_mm, frame.pane_height_mm
    items: list[Item] = [box(0.0, 0.0, wide, high, "pane", filled=True)]
    items += _band(wide, high, bite)
    said = f"this rim, {bench.size(bite)} wide, carries the bead: clean, dry, untouched"
    return with_words("The pane", laid(items, tall=high > wide), said, text)


def _band(wide: float, high: float, bite: float) -> Iterator[Item]:
    """Four strips along the edges."""
    yield box(0.0, 0.0, wide, bite, "mark", filled=True)
    yield box(0.0, high - bite, wide, high, "mark", filled=True)
    yield box(0.0, bite, bite, high - bite, "mark", filled=True)
    yield box(wide - bite, bite, wide, high - bite, "mark", filled=True)
