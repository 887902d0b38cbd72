"""Shadows through a year: the far skyline, and things nearby, on the cells of a panel."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from panewright.compiling import machine_code
from panewright.errors import Problem, SkyError
from panewright.sky.hours import Floats
from panewright.sky.shadow import cast
from panewright.sky.shadow.cast import CLEAR, DARK
from panewright.sky.shadow.pane import Pane
from panewright.sky.shadow.things import FIGURES, Thing, figures, let_through

_BANDS, _ROUND = 24, 72  # of the dome, by height and round about


@dataclass(frozen=True, slots=True)
class Skyline:
    """Height of what is far away, round about; straight between the points that are told."""

    points_deg: tuple[tuple[float, float], ...] = ()  #: azimuth from north over east, height

    def __post_init__(self) -> None:
        if any(not (0 <= azimuth < 360 and 0 <= height < 90) for azimuth, height in self.points_deg):
            cure = (
                "Give azimuths of 0 to under 360 degrees from north over east, and heights of 0 to under 90."
            )
            raise SkyError([Problem("This is no point of a skyline.", cure)])
        if len({azimuth for azimuth, _ in self.points_deg}) < len(self.points_deg):
            raise SkyError([Problem("One azimuth stands twice in the skyline.", "Give each once.")])

    def height_deg(self, azimuth_deg: Floats) -> Floats:
        """Height in a direction.

        >>> Skyline(((90, 10), (270, 20))).height_deg(np.array([90.0, 180.0, 0.0])).tolist()
        [10.0, 15.0, 15.0]
        """
        if not self.points_deg:
            return np.zeros_like(azimuth_deg)
        where, height = np.array(sorted(self.points_deg)).T
        return np.asarray(np.interp(azimuth_deg % 360, where, height, period=360))


@dataclass(frozen=True, slots=True)
class Surroundings:
    """All that stands in the way."""

    things: tuple[Thing, ...] = ()
    skyline: Skyline = Skyline()


@dataclass(frozen=True)
class Shade:
    """What of each cell of one panel lies in shadow, sun by sun."""

    row: NDArray[np.int64]  #: of `shares`, or CLEAR or DARK
    shares: Floats  #: rows by cell


def sun_vectors(zenith_deg: Floats, azimuth_deg: Floats) -> Floats:
    """Unit vectors to the sun: east, north, up.

    >>> sun_vectors(np.array([90.0, 0.0]), np.array([90.0, 0.0])).round(6).tolist()
    [[1.0, 0.0, 0.0], [0.0, 0.0, 1.0]]
    """
    zenith, azimuth = np.radians(zenith_deg), np.radians(azimuth_deg)
    flat = np.sin(zenith)
    return np.stack([flat * np.sin(azimuth), flat * np.cos(azimuth), np.cos(zenith)], axis=-1)


def shade(
    pane: Pane, around: Surroundings, zenith_deg: Floats, azimuth_deg: Floats, month: NDArray[np.int64]
) -> Shade:
    """Shadows on a panel's cells at suns in months (0 to 11); below the skyline all is dark."""
    hidden = 90 - zenith_deg <= around.skyline.height_deg(azimuth_deg)
    suns, row = sun_vectors(zenith_deg, azimuth_deg), np.full(zenith_deg.size, float(CLEAR))
    seen = np.flatnonzero(~hidden)
    facing = suns @ pane.frame[3] > 0
    row[hidden | ~facing] = DARK
    seen = seen[facing[seen]]
    kinds, known, light = _columns(around.things)
    cells = np.array(pane.cells_m)
    rows = np.zeros((0, len(cells)))
    if len(kinds) and seen.size:
        edge = np.concatenate([cells[:, :2].min(axis=0), cells[:, 2:].max(axis=0)])
        there = (suns[seen], month[seen].astype(float), kinds, known, light)
        row[seen], rows = _cast((*there, pane.frame, cells, *_bands(cells), edge))
    return Shade(row.astype(np.int64), rows)


def _cast(given: tuple[Floats, ...]) -> tuple[Floats, Floats]:
    """Rows and shares at the suns."""
    suns, cells, things, bands = len(given[0]), len(given[6]), len(given[2]), len(given[7])
    row, rows = np.empty(suns), np.zeros((suns, cells))
    count = _loops()["cast_many"](*given, _room(things, bands), np.empty(cells), row, rows)
    return row, rows[:count].copy()


def dome_share(pane: Pane, around: Surroundings, month: int) -> Floats:
    """Of the even light of the dome that a clear site would give, the share each cell gets.

    The dome in patches of equal height, each weighed by its solid angle and the cosine to the panel.
    """
    height = np.degrees(np.arcsin((np.arange(_BANDS) + 0.5) / _BANDS))  # bands of equal solid angle
    azimuth = (np.arange(_ROUND) + 0.5) * 360 / _ROUND
    zenith, round_about = (each.ravel() for each in np.meshgrid(90 - height, azimuth))
    weight = np.maximum(sun_vectors(zenith, round_about) @ pane.frame[3], 0.0)
    found = shade(pane, around, zenith, round_about, np.full(zenith.size, month))
    lit = np.ones((zenith.size, len(pane.cells_m)))
    lit[found.row == DARK] = 0.0
    some = found.row >= 0
    lit[some] -= found.shares[found.row[some]]
    return np.asarray(weight @ lit / weight.sum())


def _columns(around: Sequence[Thing]) -> tuple[Floats, Floats, Floats]:
    """Kinds, figures, and what is let through: rows by month."""
    known = [figures(each) for each in around]
    kinds = np.array([float(kind) for kind, _ in known])
    rows = np.array([row for _, row in known]).reshape(len(known), FIGURES)
    light = np.array([let_through(each) for each in around]).reshape(len(known), 12).T.copy()
    return kinds, rows, light


def _bands(cells: Floats) -> tuple[Floats, Floats]:
    """Lower and upper edges of the rows of cells, and the row of each."""
    bands, band = np.unique(cells[:, [1, 3]], axis=0, return_inverse=True)
    return bands, band.astype(float).ravel()


def _room(count: int, bands: int) -> cast.Room:
    return cast.Room(
        np.zeros((cast.EDGES, 3)),
        np.zeros((count, cast.EDGES, 2)),
        np.zeros(count),
        np.zeros(2 * count),
        np.zeros((bands, cast.LINES, count, 2)),
        np.zeros(bands),
        np.zeros((count, 4)),
    )


@cache
def _loops() -> dict[str, Callable[..., Any]]:
    return machine_code((cast,))
