"""A view cut in two at a line between columns, so that each half is drawn large."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from panewright.drawing.drawing import Arc, Dimension, Item, Path, Point, Text
from panewright.drawing.placing import clipped_runs
from panewright.layup.layup import End, Layup

_FAR_MM = 1e6


def cut_x(layup: Layup, end: End) -> float:
    """Between the two columns near the middle where no lead or tap of that end is near. [mm]"""
    plan = layup.plan
    pitch = (layup.pane_width_mm - 2 * plan.side_margin_mm + plan.string_gap_mm) / plan.columns
    middle = layup.pane_height_mm / 2
    places = [*(lead.at for lead in layup.leads), *(tap.at for tap in layup.taps)]
    marks = [x for x, y in places if (y < middle) == (end == "bottom")]

    def clear(columns: int) -> tuple[bool, int]:
        x = plan.side_margin_mm - plan.string_gap_mm / 2 + columns * pitch
        near = min((abs(x - mark) for mark in marks), default=_FAR_MM)
        return near > pitch / 4, -abs(2 * columns - plan.columns)

    near_middle = range(max(1, plan.columns // 2 - 1), min(plan.columns - 1, plan.columns // 2 + 1) + 1)
    best = max(near_middle, key=clear)
    return plan.side_margin_mm - plan.string_gap_mm / 2 + best * pitch


def between(items: Sequence[Item], left: float, right: float) -> Iterator[Item]:
    """What lies between two upright lines; shapes that reach past them are cut there."""
    for item in items:
        match item:
            case Path():
                yield from _cut(item, left, right)
            case Dimension():
                if all(left - 1e-9 <= x <= right + 1e-9 for x in (item.start[0], item.end[0])):
                    yield item
            case Arc() | Text():
                x = item.centre[0] if isinstance(item, Arc) else item.at[0]
                if left <= x <= right:
                    yield item


def _cut(path: Path, left: float, right: float) -> Iterator[Path]:
    """The part of a line or an outline between two upright lines."""
    xs = [x for x, _ in path.points]
    if left <= min(xs) and max(xs) <= right:
        yield path
    elif min(xs) < right and max(xs) > left:
        if not path.closed:
            for run in clipped_runs(path.points, (left, -_FAR_MM, right, _FAR_MM)):
                yield Path(tuple(run), path.layer)
            return
        kept = beyond(beyond(path.points, right, below=True, axis=0), left, below=False, axis=0)
        if kept:
            yield Path(kept, path.layer, True, path.filled)


def beyond(points: Sequence[Point], cut: float, below: bool, axis: int = 1) -> tuple[Point, ...]:
    """The part of a closed outline on one side of a level (axis 1) or upright (axis 0) line.

    Sutherland and Hodgman, Reentrant polygon clipping, 1974.
    """
    kept: list[Point] = []
    for start, end in zip(points, (*points[1:], points[0]), strict=True):
        inside = (start[axis] <= cut) == below, (end[axis] <= cut) == below
        if inside[0]:
            kept.append(start)
        if inside[0] != inside[1]:
            share = (cut - start[axis]) / (end[axis] - start[axis])
            other = start[1 - axis] + (end[1 - axis] - start[1 - axis]) * share
            kept.append((other, cut) if axis else (cut, other))
    return tuple(kept)
