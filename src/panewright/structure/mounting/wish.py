"""What an order says of the mounting; None is the tool's choice."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from panewright.frame.support.block import Block
from panewright.frame.support.bracket import Bracket
from panewright.frame.support.post import Post
from panewright.frame.support.timber import Species
from panewright.frame.support.wood_screw import WoodScrew
from panewright.structure.mounting.ground.soil import Ground, Surface

On = Literal["by others", "timber", "steel", "post", "ground ballast", "roof ballast"]


@dataclass(frozen=True, slots=True)
class TimberWish:
    """The timber that brackets are screwed to, and the screws."""

    species: Species
    wet: bool
    depth_mm: float  #: in the direction of the screw
    width_mm: float
    screw: WoodScrew | None = None
    screws: int | None = None  #: in each bracket


@dataclass(frozen=True, slots=True)
class PostWish:
    """One post under the middle of the panel, in concrete in the ground."""

    post: Post | None
    height_mm: float  #: ground to the middle of the panel, or to its top edge
    collar_mm: float  #: diameter of the concrete
    embedment_mm: float | None
    ground: Ground
    bearing_pa: float | None = None
    from_top: bool = False  #: whether the height is that of the top edge


@dataclass(frozen=True, slots=True)
class BallastWish:
    """A frame that stands by the weight of blocks."""

    surface: Surface
    friction: float
    friction_source: str
    block: Block | None
    blocks: int | None
    footprint_depth_mm: float | None
    footprint_width_mm: float | None
    low_edge_mm: float | None  #: above what the stand lies on; None: as the panel's height leaves it
    bearing_pa: float | None


@dataclass(frozen=True, slots=True)
class Mounting:
    """What carries the panel, with the wishes that go with it."""

    on: On = "by others"
    bracket: Bracket | None = None
    support_wall_mm: float = 0.0  #: of steel that brackets are bolted to
    timber: TimberWish | None = None
    post: PostWish | None = None
    ballast: BallastWish | None = None
