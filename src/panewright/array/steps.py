"""Light and heat on every cell of an array at each moment of a year.

    cell = (beam + halo) (1 - shadow) + (dome + rim) (share of the dome it sees) + ground

each part as it comes through the panel's face, less dirt and snow. Where a panel's cells see nearly the same
of the dome, and no shadow lies on them, they are alike and quickly asked. Snow lies from the lower edge up.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from panewright.array.field import Steps
from panewright.array.member import Member
from panewright.array.moments import Moments, Whole
from panewright.climate.hourly import hourly_cell_c
from panewright.sky.course import course_over
from panewright.sky.face import through
from panewright.sky.hours import Floats, Hours
from panewright.sky.monthly import left_share
from panewright.sky.shadow.cast import DARK
from panewright.sky.shadow.shade import Surroundings, dome_share
from panewright.sky.snow import snow_cover, with_snowy_ground
from panewright.sky.tilted import Parts, on_plane

_SEES_ALIKE = 0.01  # of the dome: cells that see it so nearly alike are alike
_ALIKE = 0.015  # of their mean light: cells that differ no more are alike
ALIKE = -1
_SUMMER, _WINTER = 6, 0  # months in which trees let least and most through


@dataclass(frozen=True)
class Open:
    """A panel's light in the open, hour by hour. [W/m2]"""

    plane_w_m2: Floats  #: all that falls on it
    parts: Parts  #: through its face
    clean: Floats  #: share that dirt leaves
    cover: Floats  #: share of its length under snow
    cell_c: Floats


@dataclass(frozen=True)
class Lit:
    """Steps for the loops, with what each panel would get in the open."""

    steps: Steps
    plane_w_m2: Floats  #: (step, panel): all that falls on it
    faced_w_m2: Floats  #: through its face


def open_light(hours: Hours, member: Member) -> Open:
    """What a panel gets where nothing stands in the way."""
    plane, course = member.pane.plane, course_over(hours.place, hours.middles)
    light = with_snowy_ground(hours, plane.albedo)
    parts = on_plane(light, course, plane)
    whole = parts.whole_w_m2
    return Open(
        whole,
        through(parts, course, plane, member.face),
        left_share(member.dirt, hours.months),
        snow_cover(hours, plane, whole),
        hourly_cell_c(whole, hours.air_c, hours.wind_m_s, member.behind),
    )


def steps_of(hours: Hours, around: Surroundings, members: Sequence[Member], at: Moments) -> Lit:
    """Light on every panel and, where its cells differ, on every cell."""
    cells = max(len(member.pane.cells_m) for member in members)
    columns, rows, first = [], [], 0
    kept: dict[tuple[object, ...], Open] = {}
    for p, member in enumerate(members):
        key = (member.pane.plane, member.face, member.dirt, member.behind)
        light = kept.setdefault(key, open_light(hours, member)) if key not in kept else kept[key]
        column = _column(member, light, around, at, p)
        apart = column[1].shape[0]
        columns.append((*column[0], np.where(column[2] >= 0, column[2] + first, ALIKE)))
        rows.append(np.pad(column[1], ((0, 0), (0, cells - column[1].shape[1]))))
        first += apart
    even, heat, plane, faced, clear, row = (np.stack(each, axis=1) for each in zip(*columns, strict=True))
    shaded = np.concatenate([*rows, np.zeros((1, cells))])
    return Lit(Steps(even, clear, heat, row, shaded), plane, faced)


def _column(
    member: Member, light: Open, around: Surroundings, at: Moments, p: int
) -> tuple[tuple[Floats, ...], Floats, Whole]:
    """Of one panel by step: light if alike, heat, light in the open thrice; rows of cells; which row."""
    h, parts = at.hour, light.parts
    sees = _dome(member, around)
    straight, dome, ground = (
        each[h] * light.clean[h] * member.left
        for each in (parts.beam_w_m2 + parts.halo_w_m2, parts.dome_w_m2 + parts.rim_w_m2, parts.ground_w_m2)
    )
    faced = parts.whole_w_m2[h]
    clear = straight + dome + ground
    row, cover = at.row[:, p], light.cover[h]
    straight = np.where(row == DARK, 0.0, straight)
    even = straight + dome * sees.mean() + ground
    apart = np.flatnonzero((row >= 0) | (cover > 0) | (np.ptp(sees) > _SEES_ALIKE))
    still = _still(at, row)
    apart = apart[~still[apart]]
    shadow = np.zeros((apart.size, sees.size))
    shadow[row[apart] >= 0] = at.shadows[p][row[apart][row[apart] >= 0]]
    lit = straight[apart, None] * (1 - shadow) + dome[apart, None] * sees + ground[apart, None]
    lit *= 1 - _under_snow(member, cover[apart])
    even[apart], unlike = lit.mean(axis=1), np.ptp(lit, axis=1) > _ALIKE * lit.mean(axis=1)
    apart, lit = apart[unlike], lit[unlike]
    number = np.full(h.size, ALIKE)
    number[apart] = np.arange(apart.size)
    first = np.maximum.accumulate(np.where(still, 0, np.arange(h.size)))
    number, even = number[first], even[first]
    return (even, light.cell_c[h], light.plane_w_m2[h], faced, clear), lit, number


def _still(at: Moments, row: Whole) -> NDArray[np.bool_]:
    """Whether a step has the hour and the shadows of the step before, and so its light."""
    still = np.zeros(row.size, dtype=bool)
    still[1:] = (at.hour[1:] == at.hour[:-1]) & (row[1:] == row[:-1])
    return still


def _dome(member: Member, around: Surroundings) -> Floats:
    """Share of the dome that each cell sees: the mean of summer and winter, for trees."""
    if not around.things and not around.skyline.points_deg:
        return np.ones(len(member.pane.cells_m))
    both = [dome_share(member.pane, around, month) for month in (_SUMMER, _WINTER)]
    return np.asarray(np.mean(both, axis=0))


def _under_snow(member: Member, cover: Floats) -> Floats:
    """Share of each cell that lies under snow: rows by step."""
    lower, upper = np.array(member.pane.cells_m)[:, [1, 3]].T
    edge = cover[:, None] * upper.max()
    return np.asarray(np.clip((edge - lower) / (upper - lower), 0.0, 1.0))
