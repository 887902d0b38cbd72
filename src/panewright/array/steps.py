"""Light and heat on every cell of an array at each moment of a year.

    cell = (beam + halo) (1 - shadow) + (dome + rim) (share of the dome it sees) + ground

each part as it comes through the panel's face, less dirt and snow. Where a panel's cells see nearly the same
of the dome, and no shadow lies on them, they are alike and quickly asked; where they only see the dome
unlike, or all of a substring lies in one shadow, its light is a slope, nearly as quickly asked. Snow lies
from the lower edge up.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from panewright.array.field import Steps
from panewright.array.member import Member
from panewright.array.moments import Moments, Whole
from panewright.circuit.chords.sloped import LEAST_SLOPED_W_M2, steepest
from panewright.climate.hourly import hourly_cell_c
from panewright.sky.hours import Floats, Hours
from panewright.sky.received import Received, Standing, received
from panewright.sky.shadow.cast import DARK
from panewright.sky.shadow.shade import Surroundings, dome_share

_SEES_ALIKE = 0.01  # of the dome: cells that see it so nearly alike are alike
_ALIKE = 0.015  # of their mean light: cells that differ no more are alike
_PARTED = 1e-6  # of a shadow's share: cells that differ by more are no slope
ALIKE, NO_SLOPE = -1, -1.0
_SUMMER, _WINTER = 6, 0  # months in which trees let least and most through


_Open = tuple[Received, Floats]  # a panel where nothing stands in the way, and the heat of its cells


@dataclass(frozen=True)
class Lit:
    """Steps for the loops, with what each panel would get in the open."""

    steps: Steps
    plane_w_m2: Floats  #: (step, panel): all that falls on it
    faced_w_m2: Floats  #: through its face


def steps_of(hours: Hours, members: Sequence[Member], at: Moments, sees: Sequence[Floats]) -> Lit:
    """Light on every panel and, where its cells differ, on every cell; `sees` as `dome_of` of each panel."""
    kept: dict[tuple[object, ...], _Open] = {}
    found: list[_Column] = []
    for p, member in enumerate(members):
        key = (member.pane.plane, member.face, member.dirt, member.behind)
        kept[key] = light = kept.get(key) or _in_the_open(hours, member)
        found.append(_column(member, light, at, p, sees[p]))
    first = np.cumsum([0, *(len(each.cells) for each in found)])
    number = [
        np.where(each.number >= 0, each.number + k, ALIKE) for each, k in zip(found, first, strict=False)
    ]
    even, heat, plane, faced, clear, row = (
        np.stack(each, axis=1)
        for each in zip(*((*each.even, n) for each, n in zip(found, number, strict=True)), strict=True)
    )
    rows = (_below([getattr(each, name) for each in found]) for name in ("cells", "means", "rises"))
    return Lit(Steps(even, clear, heat, row, *rows), plane, faced)


def _in_the_open(hours: Hours, member: Member) -> _Open:
    got = received(hours, Standing(member.pane.plane, member.face, member.dirt))
    return got, hourly_cell_c(got.plane_w_m2, hours.air_c, hours.wind_m_s, member.behind)


def _below(tables: Sequence[Floats]) -> Floats:
    """Tables of unlike width below each other, with a last row that nobody asks for."""
    width = max(table.shape[1] for table in tables)
    wide = [np.pad(table, ((0, 0), (0, width - table.shape[1]))) for table in tables]
    return np.concatenate([*wide, np.zeros((1, width))])


@dataclass(frozen=True)
class _Column:
    """Light of one panel by step, and rows of what its cells get where they differ."""

    even: tuple[Floats, ...]  #: light if alike, heat, light in the open: all, through the face, clean
    number: Whole  #: row of each step, or ALIKE
    cells: Floats
    means: Floats
    rises: Floats


def _column(member: Member, light: _Open, at: Moments, p: int, sees: Floats) -> _Column:
    got, heat = light
    h, parts = at.hour, got.faced
    straight, dome, ground = (
        each[h] * got.clean[h] * member.left
        for each in (parts.beam_w_m2 + parts.halo_w_m2, parts.dome_w_m2 + parts.rim_w_m2, parts.ground_w_m2)
    )
    clear = straight + dome + ground
    row, cover = at.row[:, p], got.cover[h]
    straight = np.where(row == DARK, 0.0, straight)
    even = straight + dome * sees.mean() + ground
    apart = np.flatnonzero((row >= 0) | (cover > 0) | (np.ptp(sees) > _SEES_ALIKE))
    still = _still(at, row)
    apart = apart[~still[apart]]
    shadow = np.zeros((apart.size, sees.size))
    shadow[row[apart] >= 0] = at.shadows[p][row[apart][row[apart] >= 0]]
    bare = 1 - _under_snow(member, cover[apart])
    lit = (straight[apart, None] * (1 - shadow) + dome[apart, None] * sees + ground[apart, None]) * bare
    even[apart], unlike = lit.mean(axis=1), np.ptp(lit, axis=1) > _ALIKE * lit.mean(axis=1)
    apart = apart[unlike]
    number = np.full(h.size, ALIKE)
    number[apart] = np.arange(apart.size)
    first = np.maximum.accumulate(np.where(still, 0, np.arange(h.size)))
    means, rises = _slopes(member, sees, lit[unlike], dome[apart], (shadow[unlike], bare[unlike]))
    return _Column(
        (even[first], heat[h], got.plane_w_m2[h], parts.whole_w_m2[h], clear),
        number[first],
        lit[unlike],
        means,
        rises,
    )


def _slopes(
    member: Member, sees: Floats, lit: Floats, dome: Floats, taken: tuple[Floats, ...]
) -> tuple[Floats, Floats]:
    """Mean light of each substring, and how steep its slope is; below 0 where a shadow or snow parts it."""
    ends = member.law.first_cell
    means = np.add.reduceat(lit, ends[:-1], axis=1) / np.diff(ends)
    steep = np.array([steepest(sees[a:b]) for a, b in pairwise(ends)])
    bare = np.minimum.reduceat(taken[1], ends[:-1], axis=1)
    rises = dome[:, None] * bare / np.maximum(means, LEAST_SLOPED_W_M2)
    sloped = (means >= LEAST_SLOPED_W_M2) & ((rises <= steep) | (steep == 0))
    for each in taken:
        most, least = (way.reduceat(each, ends[:-1], axis=1) for way in (np.maximum, np.minimum))
        sloped &= most - least <= _PARTED
    return means, np.where(sloped, rises, NO_SLOPE)


def _still(at: Moments, row: Whole) -> NDArray[np.bool_]:
    """Whether a step has the hour and the shadows of the step before, and so its light."""
    still = np.zeros(row.size, dtype=bool)
    still[1:] = (at.hour[1:] == at.hour[:-1]) & (row[1:] == row[:-1])
    return still


def dome_of(member: Member, around: Surroundings) -> Floats:
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
