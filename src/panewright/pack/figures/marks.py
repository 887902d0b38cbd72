"""Marks to paint on a crate, in simple shapes of our own, for what ISO 780 names in words."""

from __future__ import annotations

from collections.abc import Iterator

from panewright.drawing.drawing import Arc, Drawing, Item, Path, Point, Text

_SIDE = 40.0  # of one mark's square
_PITCH = 64.0


def marks_figure(mass: str, text_mm: float = 4.5) -> Drawing:
    """Fragile, this way up, keep dry, and how many kilograms two people lift."""
    items: list[Item] = []
    shapes = (_fragile, _up, _dry, _mass)
    words = ("fragile", "this way up", "keep dry", f"{mass}, its middle here")
    for number, (shape, said) in enumerate(zip(shapes, words, strict=True)):
        left = number * _PITCH
        items += [_moved(item, left) for item in shape()]
        items.append(Text((left + _SIDE / 2, -2.0 * text_mm), said, text_mm, align="centre"))
    return Drawing("Marks on the crate", tuple(items))


def _moved(item: Item, right: float) -> Item:
    if isinstance(item, Path):
        points = tuple((x + right, y) for x, y in item.points)
        return Path(points, item.layer, item.closed, item.filled)
    if isinstance(item, Arc):
        centre = item.centre[0] + right, item.centre[1]
        return Arc(centre, item.radius_mm, item.layer, item.start_deg, item.end_deg, item.filled)
    raise ValueError(f"a mark is made of lines and arcs, got {item}")


def _shape(*points: Point, filled: bool = True) -> Path:
    return Path(points, "ink", closed=True, filled=filled)


def _fragile() -> Iterator[Item]:
    """A stemmed glass with a crack."""
    yield _shape((10.0, 38.0), (30.0, 38.0), (27.0, 22.0), (22.0, 17.0), (18.0, 17.0), (13.0, 22.0))
    yield _shape((18.5, 17.0), (21.5, 17.0), (21.5, 5.0), (18.5, 5.0))
    yield _shape((10.0, 2.0), (30.0, 2.0), (30.0, 5.0), (10.0, 5.0))
    crack = (20.0, 38.0), (17.5, 32.0), (21.5, 29.0), (18.5, 24.5), (22.5, 30.0), (19.5, 32.5), (22.0, 38.0)
    yield Path(crack, "hole", closed=True, filled=True)


def _up() -> Iterator[Item]:
    """Two arrows over a bar."""
    for middle in (12.0, 28.0):
        yield _shape((middle - 7.0, 24.0), (middle + 7.0, 24.0), (middle, 38.0))
        yield _shape((middle - 2.5, 10.0), (middle + 2.5, 10.0), (middle + 2.5, 24.0), (middle - 2.5, 24.0))
    yield _shape((3.0, 2.0), (37.0, 2.0), (37.0, 6.0), (3.0, 6.0))


def _dry() -> Iterator[Item]:
    """A roof over a box, drops above."""
    yield _shape((2.0, 16.0), (20.0, 27.0), (38.0, 16.0), (38.0, 20.0), (20.0, 31.0), (2.0, 20.0))
    yield _shape((11.0, 2.0), (29.0, 2.0), (29.0, 14.0), (11.0, 14.0))
    for middle in (8.0, 20.0, 32.0):
        yield _shape((middle - 1.8, 34.0), (middle + 1.8, 34.0), (middle, 40.0))


def _mass() -> Iterator[Item]:
    """A ring with a cross: the middle of the mass."""
    yield Arc((20.0, 20.0), 14.0, "ink")
    yield _shape((2.0, 19.2), (38.0, 19.2), (38.0, 20.8), (2.0, 20.8))
    yield _shape((19.2, 2.0), (20.8, 2.0), (20.8, 38.0), (19.2, 38.0))
    yield Arc((20.0, 20.0), 4.0, "ink", filled=True)
