"""The three kinds of light of a year: what an hour lacks of them follows from the others, or is split off.

Light on level ground alone is split by D. Erbs, S. Klein, J. Duffie, Solar Energy 28, 1982, p. 293.
"""

from __future__ import annotations

import numpy as np

from panewright.intake.weather.gaps import WORDS, filled
from panewright.sky.course import Course
from panewright.sky.hours import Floats
from panewright.sky.split import split

_KINDS = ("level", "direct", "diffuse")
_LOWEST = 0.0523  # cosine of 87 degrees: with the sun lower, what is straight cannot be told from what is not


def whole_light(
    figures: dict[str, Floats], course: Course, name: str
) -> tuple[dict[str, Floats], tuple[str, ...]]:
    """Level, direct and diffuse light of every hour, and what was filled; `SheetError` for a long gap."""
    found = {key: np.where(np.isnan(figures[key]) & ~course.up, 0.0, figures[key]) for key in _KINDS}
    closed, said = _closed(found, course)
    for key, each in closed.items():
        closed[key], told = filled(key, each, name)
        said = (*said, *told)
    return closed, said


def _closed(kinds: dict[str, Floats], course: Course) -> tuple[dict[str, Floats], tuple[str, ...]]:
    """Hours that lack one kind get it from the other two; those with level light alone are split."""
    level, direct, diffuse = (kinds[key] for key in _KINDS)
    parted = split(np.nan_to_num(level), course)
    alone = np.isnan(direct) & np.isnan(diffuse) & ~np.isnan(level)
    made = {
        "level": direct * course.upright + diffuse,
        "direct": np.where(alone, parted.direct_w_m2, _straight(level - diffuse, course)),
        "diffuse": np.where(alone, parted.diffuse_w_m2, np.maximum(level - direct * course.upright, 0.0)),
    }
    whole = {key: np.where(np.isnan(kinds[key]), made[key], kinds[key]) for key in _KINDS}
    said = []
    if split_off := int(alone.sum()):
        said.append(f"{split_off} hours have light on level ground alone: parted by Erbs.")
    for key in _KINDS:
        if count := int((np.isnan(kinds[key]) & ~np.isnan(whole[key]) & ~alone).sum()):
            said.append(f"{count} hours without {WORDS[key]} are made of the other two kinds.")
    return whole, tuple(said)


def _straight(beam: Floats, course: Course) -> Floats:
    """Direct light that gives this much on level ground."""
    high = course.upright > _LOWEST
    found = np.maximum(beam, 0.0) / np.maximum(course.upright, _LOWEST)
    return np.where(high, np.minimum(found, course.outside_w_m2), beam * 0.0)
