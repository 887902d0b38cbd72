"""The three kinds of light of a year: one that a file lacks follows from the others, or is split off.

Light on level ground alone is split by D. Erbs, S. Klein, J. Duffie, Solar Energy 28, 1982, p. 293.
"""

from __future__ import annotations

import numpy as np

from panewright.intake.weather.gaps import filled
from panewright.sky.course import Course
from panewright.sky.hours import Floats
from panewright.sky.split import split

_LOWEST = 0.0523  # cosine of 87 degrees: with the sun lower, what is straight cannot be told from what is not


def whole_light(
    figures: dict[str, Floats], course: Course, name: str
) -> tuple[dict[str, Floats], tuple[str, ...]]:
    """Level, direct and diffuse light of every hour, and what was filled; `SheetError` for a long gap."""
    kinds, said = _closed({key: figures[key] for key in ("level", "direct", "diffuse")}, course)
    for key, found in kinds.items():
        by_day = np.where(np.isnan(found) & ~course.up, 0.0, found)
        kinds[key], told = filled(key, by_day, name)
        said = (*said, *told)
    return kinds, said


def _closed(kinds: dict[str, Floats], course: Course) -> tuple[dict[str, Floats], tuple[str, ...]]:
    """A kind that is missing all year is made of the others."""
    level, direct, diffuse = kinds["level"], kinds["direct"], kinds["diffuse"]
    none = {key for key, found in kinds.items() if np.isnan(found).all()}
    if none == {"level"}:
        return {**kinds, "level": direct * course.upright + diffuse}, _made(
            "light on level ground", "the other two"
        )
    if none == {"diffuse"}:
        made = np.maximum(level - direct * course.upright, 0.0)
        return {**kinds, "diffuse": made}, _made("light of the sky", "the other two")
    if none == {"direct"}:
        high = course.upright > _LOWEST
        beam = np.where(high, np.maximum(level - diffuse, 0.0), 0.0)
        straight = np.minimum(beam / np.maximum(course.upright, _LOWEST), course.outside_w_m2)
        return {**kinds, "direct": straight}, _made("direct light", "the other two")
    if none == {"direct", "diffuse"}:
        parted = split(level, course)
        parts = {"level": level, "direct": parted.direct_w_m2, "diffuse": parted.diffuse_w_m2}
        return parts, _made("direct light and light of the sky", "the light on level ground, by Erbs")
    return kinds, ()


def _made(what: str, of: str) -> tuple[str, ...]:
    return (f"The file has no {what}: made of {of}.",)
