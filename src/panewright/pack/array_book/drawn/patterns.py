"""Patterns that tell areas apart in black and white: lines, crosses, dots, each as strokes within a box."""

from __future__ import annotations

from collections.abc import Iterator

from panewright.drawing.drawing import Arc, Item, Layer, Path
from panewright.drawing.placing import Box, clip

PATTERNS = 8  #: none, level, upright, rising, falling, crossed, squared, dotted


def pattern(number: int, area: Box, pitch_mm: float, layer: Layer) -> Iterator[Item]:
    """Strokes of a pattern by its number; the ninth is the first again."""
    kind = number % PATTERNS
    if kind in (1, 6):
        yield from _level(area, pitch_mm, layer)
    if kind in (2, 6):
        yield from _upright(area, pitch_mm, layer)
    if kind in (3, 5):
        yield from _slanted(area, pitch_mm, layer, 1.0)
    if kind in (4, 5):
        yield from _slanted(area, pitch_mm, layer, -1.0)
    if kind == 7:
        yield from _dotted(area, pitch_mm, layer)


def _steps(low: float, high: float, pitch: float) -> Iterator[float]:
    """Even places between two edges, none on an edge."""
    parts = max(1, round((high - low) / pitch))
    yield from (low + (high - low) * k / parts for k in range(1, parts))


def _level(area: Box, pitch: float, layer: Layer) -> Iterator[Path]:
    left, bottom, right, top = area
    yield from (Path(((left, y), (right, y)), layer) for y in _steps(bottom, top, pitch))


def _upright(area: Box, pitch: float, layer: Layer) -> Iterator[Path]:
    left, bottom, right, top = area
    yield from (Path(((x, bottom), (x, top)), layer) for x in _steps(left, right, pitch))


def _slanted(area: Box, pitch: float, layer: Layer, rise: float) -> Iterator[Path]:
    """Lines at 45 degrees, cut at the edges."""
    left, bottom, right, top = area
    high, step = top - bottom, 1.4 * pitch
    start = left - high
    while start < right:
        start += step
        foot, head = (bottom, top) if rise > 0 else (top, bottom)
        part = clip(((start, foot), (start + high, head)), area)
        if part and part[0] != part[1]:
            yield Path(part, layer)


def _dotted(area: Box, pitch: float, layer: Layer) -> Iterator[Arc]:
    left, bottom, right, top = area
    for row, y in enumerate(_steps(bottom, top, pitch)):
        for x in _steps(left + (row % 2) * pitch / 2, right, pitch):
            yield Arc((x, y), 0.12 * pitch, layer)
