"""What a year's weather sends to a panel's cells, and what takes how much of it on the way.

Each step is named after what a maker decides: how the panel is turned, what stands around it, its face, how
clean it is kept, what becomes of snow. Light is counted as if it fell straight on, for so cells are rated.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from panewright.sky.course import course_over
from panewright.sky.face import Face, through
from panewright.sky.hours import Floats, Hours
from panewright.sky.monthly import USUAL_DIRT, left_share
from panewright.sky.place import Plane
from panewright.sky.snow import snow_cover, with_snowy_ground
from panewright.sky.tilted import Parts, Way, on_plane

StepName = Literal["turned", "around", "face", "dirt", "snow"]


@dataclass(frozen=True)
class Seen:
    """Of each part of the light, the share that what stands around leaves; hour by hour, or one for all."""

    sun: Floats | float = 1.0  #: beam and halo
    dome: Floats | float = 1.0
    rim: Floats | float = 1.0
    ground: Floats | float = 1.0


@dataclass(frozen=True)
class Standing:
    """What a maker decides about a panel's light."""

    plane: Plane
    face: Face = "physical"
    dirt: tuple[float, ...] = USUAL_DIRT  #: share that is lost, month by month
    seen: Seen = Seen()  #: past what stands around; all of it where nothing does
    way: Way = "Hay-Davies"


@dataclass(frozen=True)
class Step:
    """What one thing adds or takes, hour by hour. [W/m2]"""

    name: StepName
    adds_w_m2: Floats  #: below zero where it takes


@dataclass(frozen=True)
class Received:
    """A year's light on the cells."""

    level_w_m2: Floats  #: where it begins: light on level ground
    plane_w_m2: Floats  #: on the plane in the open, which warms the cells
    steps: tuple[Step, ...]
    faced: Parts  #: through the face, past what stands around, before dirt and snow
    clean: Floats  #: share that dirt leaves
    cells: Parts  #: where it ends, part by part; snow is in it by the share of the panel that it covers
    cover: Floats  #: that share, from the lower edge up

    @property
    def cells_w_m2(self) -> Floats:
        """Light on the cells, all parts."""
        return self.cells.whole_w_m2


def received(hours: Hours, standing: Standing) -> Received:
    """The light of a year on a panel's cells, step by step; `SkyError` for dirt that is no share."""
    plane, course = standing.plane, course_over(hours.place, hours.middles)
    open_ = on_plane(with_snowy_ground(hours, plane.albedo), course, plane, standing.way)
    around = _times(open_, standing.seen)
    faced = through(around, course, plane, standing.face)
    left, cover = left_share(standing.dirt, hours.months), snow_cover(hours, plane, open_.whole_w_m2)
    clean = _scaled(faced, left)
    cells = _scaled(clean, 1 - cover)
    ways: tuple[tuple[StepName, Parts], ...] = (
        ("turned", open_), ("around", around), ("face", faced), ("dirt", clean), ("snow", cells)
    )  # fmt: skip
    before, steps = hours.level_w_m2, []
    for name, parts in ways:
        steps.append(Step(name, parts.whole_w_m2 - before))
        before = parts.whole_w_m2
    return Received(hours.level_w_m2, open_.whole_w_m2, tuple(steps), faced, left, cells, cover)


def _times(parts: Parts, seen: Seen) -> Parts:
    return Parts(
        parts.beam_w_m2 * seen.sun,
        parts.halo_w_m2 * seen.sun,
        parts.dome_w_m2 * seen.dome,
        parts.rim_w_m2 * seen.rim,
        parts.ground_w_m2 * seen.ground,
    )


def _scaled(parts: Parts, share: Floats) -> Parts:
    return _times(parts, Seen(share, share, share, share))
