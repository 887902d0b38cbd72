"""Trade symbols of a single-line drawing, each in its own strokes, in mm of paper.

What they mean follows IEC 60617 (recalled): a fuse is a rectangle with the line through it, a diode a
triangle against a bar, a battery long and short plates, earth a line over ever shorter ones, an isolator an
open blade at a bar. A sign lies along the line that runs through it, left to right; `upright` turns it so
that what was left is above. Lines end where the signs begin: `reach` says how far a sign goes from its
middle to either side.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from panewright.drawing.drawing import Arc, Item, Layer, Path, Point, Text, box
from panewright.drawing.lettering import CAPITAL

FUSE_MM = (7.0, 2.6)  #: length and height of a fuse's rectangle
_CURRENT: Layer = "ribbon"  # copper carries current


@dataclass(frozen=True, slots=True)
class Sign:
    """A symbol whose middle is the origin."""

    items: tuple[Item, ...]
    reach: float  #: from its middle to where the line goes on [mm]

    def at(self, middle: Point) -> tuple[Item, ...]:
        """Its strokes round another middle."""
        return tuple(_turned(item, middle, (1.0, 0.0)) for item in self.items)

    def upright(self, middle: Point) -> tuple[Item, ...]:
        """The same with what was left above."""
        return tuple(_turned(item, middle, (0.0, -1.0)) for item in self.items)


def _turned(item: Item, middle: Point, along: Point) -> Item:
    """Turned so that its x runs `along`, then moved; words stay level."""
    (c, s), turn = along, -90.0 if along[1] else 0.0

    def place(point: Point) -> Point:
        return middle[0] + c * point[0] - s * point[1], middle[1] + s * point[0] + c * point[1]

    match item:
        case Path():
            return replace(item, points=tuple(map(place, item.points)))
        case Arc():
            start, end = item.start_deg + turn, item.end_deg + turn
            return replace(item, centre=place(item.centre), start_deg=start, end_deg=end)
        case Text():
            return replace(item, at=_foot(place(_middle(item)), item.height_mm))
        case _:
            raise ValueError("a sign has no dimensions")


def _middle(text: Text) -> Point:
    return text.at[0], text.at[1] + CAPITAL / 2 * text.height_mm


def _foot(middle: Point, height_mm: float) -> Point:
    return middle[0], middle[1] - CAPITAL / 2 * height_mm


def letters(words: str, middle: Point, height_mm: float) -> Text:
    """Words whose middle lies there."""
    return Text(_foot(middle, height_mm), words, height_mm, "text", "centre", bold=True)


def line(*points: Point) -> Path:
    """A wire."""
    return Path(points, _CURRENT)


def fuse() -> Sign:
    """A rectangle, the line through it."""
    long, high = FUSE_MM[0] / 2, FUSE_MM[1] / 2
    return Sign((box(-long, -high, long, high, "hole", True), line((-long - 1, 0), (long + 1, 0))), long + 1)


def diode() -> Sign:
    """A triangle that points where current may go, against a bar."""
    triangle = Path(((-1.6, 1.6), (-1.6, -1.6), (1.6, 0.0)), "ink", closed=True, filled=True)
    bar = Path(((1.6, 1.6), (1.6, -1.6)), "ink")
    return Sign((line((-3.0, 0), (3.0, 0)), triangle, bar), 3.0)


def isolator() -> Sign:
    """An open blade, and the bar at which it ends."""
    blade = Path(((-2.4, 0.0), (2.2, 2.6)), "ink")
    bar = Path(((2.4, -1.1), (2.4, 1.1)), "ink")
    hinge = Arc((-2.4, 0.0), 0.35, "ink", filled=True)
    ends = line((-3.6, 0), (-2.4, 0)), line((2.4, 0), (3.6, 0))
    return Sign((*ends, blade, bar, hinge), 3.6)


def connector() -> Sign:
    """A plug in its socket."""
    plug = box(-1.1, -0.45, 0.5, 0.45, "ink", True)
    socket = Arc((0.3, 0.0), 1.1, "ink", 270.0, 90.0)
    return Sign((line((-1.8, 0), (-1.1, 0)), plug, socket, line((1.4, 0), (1.8, 0))), 1.8)


def battery() -> Sign:
    """Two cells: a long thin plate is plus, a short thick one minus; plus lies left."""
    plates: list[Item] = []
    for x in (-2.6, 0.8):
        plates.append(Path(((x, -3.4), (x, 3.4)), "ink"))
        plates.append(box(x + 1.4, -1.8, x + 1.9, 1.8, "ink", True))
    plus = (Path(((-4.6, 2.2), (-3.4, 2.2)), "ink"), Path(((-4.0, 1.6), (-4.0, 2.8)), "ink"))
    ends = line((-5.0, 0), (-2.6, 0)), line((-0.7, 0), (0.8, 0))
    return Sign((*ends, *plates, *plus), 5.0)


def converter(most: float = 6.0) -> Sign:
    """A square parted by a slant: direct current on either side."""
    square = box(-most, -most, most, most, "hole", True)
    slant = Path(((-most, -most), (most, most)), "ink")
    marks: list[Item] = []
    for x, y in ((-0.45 * most, 0.45 * most), (0.45 * most, -0.45 * most)):
        marks += [Path(((x - 1.3, y + d), (x + 1.3, y + d)), "ink") for d in (-0.45, 0.45)]
    return Sign((square, slant, *marks), most)


def switched(most: float = 6.0) -> Sign:
    """A square with a switch in it: a controller that joins panels and battery outright."""
    square = box(-most, -most, most, most, "hole", True)
    blade = Path(((-0.4 * most, 0.0), (0.4 * most, 0.45 * most)), "ink")
    ends = Path(((-most, 0.0), (-0.4 * most, 0.0)), "ink"), Path(((0.45 * most, 0.0), (most, 0.0)), "ink")
    return Sign((square, blade, *ends), most)


def round_machine(letter: str) -> Sign:
    """A turning machine: G for a generator, M for a motor."""
    return Sign((Arc((0, 0), 5.0, "hole", filled=True), letters(letter, (0.0, 0.0), 5.0)), 5.0)


def load() -> Sign:
    """What draws current: an arrow into a rectangle."""
    head = Path(((-3.0, 0.9), (-3.0, -0.9), (-1.4, 0.0)), "ink", closed=True, filled=True)
    return Sign((box(-1.4, -4.0, 5.0, 4.0, "hole", True), line((-5.0, 0), (-3.0, 0)), head), 5.0)


def earth() -> Sign:
    """A line over two shorter ones, hung from the left."""
    bars = [Path(((x, -half), (x, half)), "ink") for x, half in ((0.0, 3.0), (1.1, 2.0), (2.2, 1.0))]
    return Sign((Path(((-3.0, 0.0), (0.0, 0.0)), "ink"), *bars), 3.0)


def arrester() -> Sign:
    """A rectangle with an arrow in it: what leads a surge to earth."""
    head = Path(((1.0, 0.9), (1.0, -0.9), (2.6, 0.0)), "ink", closed=True, filled=True)
    inside = Path(((-3.5, 0.0), (1.0, 0.0)), "ink")
    return Sign((box(-3.5, -1.6, 3.5, 1.6, "hole", True), inside, head), 3.5)


def conductors(middle: Point) -> tuple[Item, ...]:
    """Two short strokes across a line: it stands for two conductors, plus and minus."""
    x, y = middle
    return tuple(Path(((x + d - 0.5, y - 1.2), (x + d + 0.5, y + 1.2)), "ink") for d in (-0.5, 0.5))


def joint(at: Point) -> Item:
    """Where lines meet."""
    return Arc(at, 0.55, "ink", filled=True)
