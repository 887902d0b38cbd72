"""The hole jig: each kind of rail as a paper sleeve at full size, to wrap round it and punch through.

Opened about the heel as in the rails' own drawings: the upright above the fold, the seat below. All lines are
the rail's own outside faces; what stands below the foot of a strip is waste once it is cut.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from panewright.drawing.drawing import Drawing, Item, Path, Text
from panewright.drawing.lettering import text_width_mm
from panewright.drawing.move import merged, moved
from panewright.layup.drawn.signs import arrow_head, spread
from panewright.pack.bench import told
from panewright.pack.figures.frame import LETTERS, hole_centre, hole_mark, rail_outline
from panewright.structure.drilling.drill import drill_words
from panewright.structure.drilling.frame_plan import FramePlan, Hole, RailPiece

_APART = 3.0  # strips, in letters, beyond their words
_WORDS = {
    "bracket": "bracket",
    "corner": "corner clip",
    "drain": "drain",
    "earth": "earth",
    "board": "board screw",
}


def jig_drawing(
    kinds: Sequence[tuple[str, RailPiece]], frame: FramePlan, system: str = "metric", text_mm: float = 3.2
) -> Drawing:
    """One strip for each kind of rail, below each other, datum at the left. [mm]"""
    level, strips = 0.0, []
    for names, piece in kinds:
        strips.append(moved(jig_strip(names, piece, frame, system, text_mm), 0.0, level))
        level -= _tall_mm(piece, frame, system, text_mm)
    return merged("Hole jig for the rails", tuple(strips))


def _tall_mm(piece: RailPiece, frame: FramePlan, system: str, text: float) -> float:
    """From one strip's heel to the next one's."""
    longest = max((text_width_mm(_said(hole, system), text) for hole in piece.holes), default=0.0)
    return frame.rail.upright_mm + frame.rail.seat_mm + longest + (7.5 + _APART) * text


def jig_strip(names: str, piece: RailPiece, frame: FramePlan, system: str, text: float) -> Drawing:
    """One rail's sleeve; its datum end at 0, its heel at 0. [mm]"""
    seat, upright = frame.rail.seat_mm, frame.rail.upright_mm
    items: list[Item] = [
        Path(rail_outline(piece, frame), "border", closed=True),
        Path(((0.0, 0.0), (piece.length_mm, 0.0)), "hidden"),
    ]
    for hole in piece.holes:
        items += hole_mark(hole)
    items += letters(piece.holes, text)
    items += places(piece.holes, -seat, text, system)
    items += _datum(upright, text)
    size = f"{frame.rail.name}, {told(piece.length_mm, system)} long"
    head = f"{names.capitalize()}: {size}. {drills(piece, system)}"
    items.append(Text((0.0, upright + 2.9 * text), head, text, bold=True))
    return Drawing(names, tuple(items))


def letters(holes: Sequence[Hole], text: float) -> Iterator[Text]:
    """The kind of each hole right of its cross; left of it where another letter stands there already."""
    taken: list[tuple[float, float]] = []
    for hole in holes:
        (x, y), aside = hole_centre(hole), 0.9 * hole.diameter_mm + hole.slot_mm / 2 + 0.3 * text
        at, low = x + aside, y - 0.33 * text
        free = all(max(abs(at - x0), abs(low - y0)) > text for x0, y0 in taken)
        taken.append((at, low))
        place = (at, low) if free else (x - aside, low)
        yield Text(place, LETTERS[hole.purpose], text, "text", "left" if free else "right", bold=True)


def _said(hole: Hole, system: str) -> str:
    kind = f"{LETTERS[hole.purpose]} slot" if hole.slot_mm else LETTERS[hole.purpose]
    return f"{kind}  {told(hole.along_mm, system)}"


def places(holes: tuple[Hole, ...], foot: float, text: float, system: str) -> Iterator[Item]:
    """Below the strip: each hole's kind and its distance from the datum, to check the paper with a rule."""
    ordered = sorted(holes, key=lambda hole: hole.along_mm)
    middles = spread([hole.along_mm for hole in ordered], [1.15 * text] * len(ordered), 0.25 * text)
    top, bend = foot - 0.6 * text, foot - 2.0 * text
    for hole, middle in zip(ordered, middles, strict=True):
        words = _said(hole, system)
        yield Path(((hole.along_mm, top), (middle, bend)), "dimension")
        at = (middle + 0.33 * text, bend - 0.4 * text - text_width_mm(words, text))
        yield Text(at, words, text, "dimension", "left", 90.0)


def _datum(upright: float, text: float) -> Iterator[Item]:
    """What goes where: the datum end, and the fold, in words over the strip."""
    over = upright + 1.2 * text
    yield arrow_head((0.0, upright), (0.0, -1.0), 1.2 * text, "ink")
    words = "datum: this end flush with the rail's left end, upright towards you; fold back at the dashes"
    yield Text((1.2 * text, over), words, text)


def drills(piece: RailPiece, system: str) -> str:
    """Which letter takes which drill."""
    sizes = {hole.purpose: hole.diameter_mm for hole in piece.holes}
    said = (
        f"{letter} {drill_words(sizes[purpose], system)} {_WORDS[purpose]}"
        for purpose, letter in LETTERS.items()
        if purpose in sizes
    )
    return "Drill " + ", ".join(said)
