"""The moments of a year at which an array is looked at: hours, and quarters of hours while a shadow moves.

The light of an hour is that of its middle. Where a shadow moves over a panel within the hour, the hour is
parted in four, each with the sun where it stands then; the light that falls in the open is the hour's.
"""

from __future__ import annotations

from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from panewright.array.member import Member
from panewright.sky.course import course_over
from panewright.sky.hours import Floats, Hours
from panewright.sky.shadow.cast import CLEAR, DARK
from panewright.sky.shadow.shade import Shade, Surroundings, shade

QUARTERS = 4
_NIGHT_W_M2 = 0.5
Whole = NDArray[np.int64]


@dataclass(frozen=True)
class Moments:
    """Steps of a year and the shadows in each of them."""

    hour: Whole  #: of each step
    share: Floats  #: of the hour
    row: Whole  #: (step, panel): of its shadows, CLEAR or DARK
    shadows: tuple[Floats, ...]  #: of each panel: rows by cell


def moments(hours: Hours, around: Surroundings, members: Sequence[Member]) -> Moments:
    """Steps of the hours with light; with no shadows nearby, each is an hour."""
    lit = np.flatnonzero(hours.level_w_m2 > _NIGHT_W_M2)
    with ThreadPoolExecutor(2) as pool:
        found = list(pool.map(lambda member: _shadows(hours, around, member, lit), members))
    moving = np.zeros(lit.size, dtype=bool)
    for each in found:
        rows = each.row.reshape(lit.size, QUARTERS)
        moving |= (rows >= 0).any(axis=1) | (rows.min(axis=1) != rows.max(axis=1))
    first = np.arange(lit.size)[:, None] * QUARTERS + np.arange(QUARTERS)
    kept = np.where(moving[:, None], True, np.arange(QUARTERS) == QUARTERS // 2)
    steps, times = first[kept], np.where(moving, QUARTERS, 1)
    return Moments(
        np.repeat(lit, times),
        np.repeat(1 / times, times),
        np.stack([each.row[steps] for each in found], axis=1),
        tuple(each.shares for each in found),
    )


def _shadows(hours: Hours, around: Surroundings, member: Member, lit: Whole) -> Shade:
    """Shadows on a panel in each quarter of the hours with light."""
    month = np.repeat(hours.months[lit], QUARTERS)
    if not around.things and not around.skyline.points_deg:
        return Shade(np.full(month.size, CLEAR), np.zeros((0, len(member.pane.cells_m))))
    after = ((np.arange(QUARTERS) + 0.5) / QUARTERS - 0.5) * 3600
    when = hours.middles[lit][:, None].astype("datetime64[s]") + np.round(after).astype("timedelta64[s]")
    course = course_over(hours.place, when.ravel())
    found = shade(member.pane, around, course.zenith_deg, course.azimuth_deg, month)
    behind = course.projection(member.pane.plane) <= 0  # no beam falls there: nothing is shaded
    return Shade(np.where(behind & (found.row == DARK), CLEAR, found.row), found.shares)
