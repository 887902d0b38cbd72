"""The junction box: where it sits on the back, what leaves the pane there, and how it is wired inside.

The box's own size is whatever the shop buys: drawn is the room it has to cover. A diode's ring (cathode) is
at the plus end of its cells. Terminals stand as their ribbons arrive, seen from behind.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from panewright.drawing.bounds import bounds
from panewright.drawing.drawing import Arc, Dimension, Drawing, Item, Path, Point, Text, box
from panewright.drawing.lettering import text_width_mm
from panewright.drawing.move import mirrored
from panewright.layup.drawn.figure import bus_boxes, cell_outline, lead_marks
from panewright.layup.drawn.halves import beyond
from panewright.layup.drawn.rim import rim_round
from panewright.layup.drawn.signs import arrow_head, centred, pole_sign
from panewright.layup.layup import Layup
from panewright.layup.tails import box_room
from panewright.pack.figures.finished import rim
from panewright.panel.design import Design

_SHOWN = 0.3  # of the panel's width, above the end margin
_PITCH, _BESIDE = 11.0, 0.65  # terminal to terminal, and a cable beside its terminal's middle, in letters
_LEVEL = 3.4  # from diode to diode


@dataclass(frozen=True, slots=True)
class Exit:
    """A ribbon that leaves the pane into a box."""

    after_cell: int  #: counted along the panel; 0 the minus lead
    string: int
    at: Point  #: seen sunny side up
    name: str


@dataclass(frozen=True, slots=True)
class Diode:
    """A bypass diode between two exits, by their places in the row."""

    name: str
    cells: str
    minus: int
    plus: int
    level: int = 1


def exits(layup: Layup) -> tuple[Exit, ...]:
    """Leads and taps in the order they are seen from behind, left to right."""
    last = len(layup.cells)
    found = [
        Exit(0 if lead.pole == "minus" else last, -1, lead.at, f"{'−' if lead.pole == 'minus' else '+'} lead")
        for lead in layup.leads
    ]
    found += [
        Exit(t.after_cell, t.string, t.at, f"tap {t.after_cell}|{t.after_cell + 1}") for t in layup.taps
    ]
    return tuple(sorted(found, key=lambda each: (-each.at[0], each.at[1])))


def box_over(layup: Layup) -> tuple[float, float, float, float]:
    """Left, bottom, right, top of the least box, seen sunny side up. [mm]"""
    return box_room(layup.plan, layup.leads, layup.taps).least


def _one_end(layup: Layup) -> bool:
    """Whether all that leaves the pane does so in its lower half."""
    return all(each.at[1] < layup.pane_height_mm / 2 for each in exits(layup))


def box_place_figure(design: Design, text_mm: float) -> Drawing:
    """The end of the panel with the box, from behind: exits, tails to the box, earth bond. [mm]

    All of the panel where leads leave at both ends.
    """
    layup, frame = design.layup, design.structural.frame
    wide, out = layup.pane_width_mm, rim(frame).margin_mm
    items: list[Item] = [*_seen_behind(design)]
    if _one_end(layup):
        items = [*_below(items, layup.plan.end_margin_mm + _SHOWN * wide)]
    items += [box(*box_over(layup), "border"), *_far_tails(layup)]
    items += lead_marks(layup, text_mm, out)
    turned = mirrored(Drawing("Junction box", tuple(items), "sunny side up"), wide / 2)
    seen = bounds(turned)  # the frame, or a name that reaches further
    beside = (seen.right - wide, -seen.left)
    return turned.with_items((*_exit_sizes(layup, text_mm, out, beside), *_earth(design, text_mm)))


def _seen_behind(design: Design) -> Iterator[Path]:
    """Pane, frame, cells, pale, and buses."""
    layup, edge = design.layup, rim(design.structural.frame)
    yield box(0, 0, layup.pane_width_mm, layup.pane_height_mm, "pane", filled=True)
    yield from rim_round(layup, edge, "behind")
    yield from (Path(cell_outline(each.shape, each.centre), "band", True, True) for each in layup.cells)
    yield from bus_boxes(layup)


def _far_tails(layup: Layup) -> Iterator[Path]:
    """Each tail that runs along the back to the box."""
    for tail in layup.tails:
        if tail.way_mm > 0:
            yield Path((tail.at, tail.into), "lead")


def _below(items: list[Item], cut: float) -> Iterator[Path]:
    """What lies under a level, cut there."""
    for item in items:
        if isinstance(item, Path) and (kept := beyond(item.points, cut, below=True)):
            yield Path(kept, item.layer, True, item.filled)


def _exit_sizes(layup: Layup, text: float, out: float, beside: tuple[float, float]) -> Iterator[Dimension]:
    """Exits from the pane's left edge and from their end, as seen from behind.

    Distances from the low end stand at the right, from the top at the left, or small panels had no room.
    """
    wide, high = layup.pane_width_mm, layup.pane_height_mm
    for way, end, side, clear in ((-1.0, 0.0, wide, beside[0]), (1.0, high, 0.0, beside[1])):
        there = [each for each in exits(layup) if (each.at[1] < high / 2) == (way < 0)]
        past_names = end + way * (out + (3.4 if way < 0 else 2.6) * text)
        for level, each in enumerate(there):
            x, off = wide - each.at[0], (1.0 + 1.9 * level) * text
            yield Dimension((x, past_names), (0.0, past_names), -way * off, text, "x", outside=True)
        for level, y in enumerate(sorted({each.at[1] for each in there}, reverse=way < 0)):
            off = clear + (1.6 + 2.2 * level) * text
            yield Dimension((side, end), (side, y), -off, text, "y", outside=True)


def _earth(design: Design, text: float) -> Iterator[Item]:
    """The earth bond's hole in the bottom rail, from the end that is seen at the right."""
    frame, layup = design.structural.frame, design.layup
    holes = [hole for piece in frame.pieces for hole in piece.holes if hole.purpose == "earth"]
    if not holes:
        return
    margin, wide = rim(frame).margin_mm, layup.pane_width_mm
    end = wide + margin - (frame.outer_width_mm - frame.pieces[0].length_mm) / 2
    x, y = end - holes[0].along_mm, -margin
    yield Arc((x, y), 0.3 * text, "mark", filled=True)
    low = sum(each.at[1] < layup.pane_height_mm / 2 for each in exits(layup))
    foot, off = y - 3.4 * text, (1.2 + 1.9 * low) * text
    yield Dimension((x, foot), (end, foot), -off, text, "x", "earth bond, from the rail's end", outside=True)


def wired(layup: Layup) -> tuple[Diode, ...]:
    """Every bypass diode with the terminals it joins; wider ones lie deeper, so that none crosses another."""
    row = exits(layup)
    place = {(each.after_cell, each.string): n for n, each in enumerate(row)}
    minus = next(n for n, each in enumerate(row) if each.name.startswith("−"))
    plus = next(n for n, each in enumerate(row) if each.name.startswith("+"))
    plan, found = layup.plan, list[Diode]()
    for string in range(plan.strings):
        first = string * plan.in_series
        for start, end in zip(layup.diode_after, layup.diode_after[1:], strict=False):
            left = minus if start == 0 else place[first + start, string]
            right = plus if end == plan.in_series else place[first + end, string]
            name = f"D{len(found) + 1}"
            found.append(Diode(name, f"cells {first + start + 1} to {first + end}", left, right))
    return _levelled(found)


def _levelled(found: list[Diode]) -> tuple[Diode, ...]:
    """Each a level below all that it meets, the narrowest first."""
    done: list[Diode] = []
    for diode in sorted(found, key=lambda each: abs(each.plus - each.minus)):
        low, high = sorted((diode.minus, diode.plus))
        under = [o.level for o in done if min(o.minus, o.plus) < high and low < max(o.minus, o.plus)]
        done.append(Diode(diode.name, diode.cells, diode.minus, diode.plus, 1 + max(under, default=0)))
    return tuple(sorted(done, key=lambda each: int(each.name[1:])))


def box_wiring(layup: Layup, text_mm: float, diodes: bool = True) -> Drawing:
    """Inside the box, seen from behind: terminals in a row, diodes between them, leads out below."""
    row, text = exits(layup), text_mm
    drawn = wired(layup) if diodes else ()
    deep = max((each.level for each in drawn), default=0)
    foot = -(deep + 1.2) * _LEVEL * text
    right = (len(row) - 1) * _PITCH * text
    items: list[Item] = [box(-4.5 * text, foot, right + 4.5 * text, 3.2 * text, "border")]
    for number, each in enumerate(row):
        items += _terminal(each, number * _PITCH * text, text)
    for diode in drawn:
        items += _diode(diode, text)
    items += _leads_out(row, foot, text)
    return Drawing("Inside the box", tuple(items), "sunny side down")


def _terminal(each: Exit, x: float, text: float) -> Iterator[Item]:
    """A ribbon from above to its terminal, with its name and what it is."""
    yield box(x - 0.3 * text, 0.7 * text, x + 0.3 * text, 5.2 * text, "ribbon", filled=True)
    yield box(x - 0.9 * text, -0.7 * text, x + 0.9 * text, 0.7 * text, "lead", filled=True)
    yield Text((x, 5.8 * text), each.name, text, "text", "centre", bold=True)


def _diode(diode: Diode, text: float) -> Iterator[Item]:
    """Down from both terminals, across with triangle and ring; its name over the first piece of the line."""
    x0, x1 = diode.minus * _PITCH * text, diode.plus * _PITCH * text
    y = -diode.level * _LEVEL * text
    for x in (x0, x1):
        yield Path(((x, -0.7 * text), (x, y)), "lead")
    yield Path(((x0, y), (x1, y)), "lead")
    way = 1.0 if x1 > x0 else -1.0
    middle = min(x0, x1) + (_PITCH + _BESIDE) / 2 * text
    tip = (middle + 0.6 * way * text, y)
    yield arrow_head(tip, (way, 0.0), 1.2 * text, "ink")
    yield Path(((tip[0], y - 0.6 * text), (tip[0], y + 0.6 * text)), "ink")
    words = f"{diode.name}, {diode.cells}"
    room = (_PITCH - _BESIDE - 0.8) * text
    letters = min(text, text * room / text_width_mm(words, text))
    yield Text((middle, y + 0.9 * text), words, letters, "text", "centre")


def _leads_out(row: tuple[Exit, ...], foot: float, text: float) -> Iterator[Item]:
    """Both cables down through their glands, clamped; they cross wires of diodes and join none."""
    for number, each in enumerate(row):
        if not each.name.endswith("lead"):
            continue
        x, end = (number * _PITCH + _BESIDE) * text, foot - 2.2 * text
        yield Path(((x, -0.7 * text), (x, end)), "lead")
        yield box(
            x - 0.8 * text, foot - 0.7 * text, x + 0.8 * text, foot + 0.7 * text, "bracket", filled=True
        )
        pole: Literal["minus", "plus"] = "minus" if each.name.startswith("−") else "plus"
        yield Arc((x, end - 0.8 * text), 0.8 * text, "lead")
        yield pole_sign(pole, (x, end - 0.8 * text), 1.2 * text)
        yield centred("cable", (x, end - 2.6 * text), text)
