"""What presses on a pane."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

LoadKind = Literal["wind", "snow", "own weight", "combined"]


@dataclass(frozen=True, slots=True)
class PaneLoad:
    """An even pressure across a pane; its sign does not matter to the pane, so it carries none."""

    name: str
    pressure_pa: float
    duration_s: float
    kind: LoadKind
    factored: bool  #: whether the partial factors of EN 1990 are already in it
    parts: tuple[PaneLoad, ...] = ()  #: what a combination is made of, for rules that weigh each part

    def __post_init__(self) -> None:
        if not self.pressure_pa >= 0 or not self.duration_s > 0:
            raise ValueError(f"a load has a size and lasts some time, got {self}")


@dataclass(frozen=True, slots=True)
class PatchLoad:
    """A force spread evenly over a small square anywhere on a pane: a hand, a knee."""

    name: str
    force_n: float
    side_mm: float  #: of the square that it is spread over
    duration_s: float
    factored: bool  #: whether the partial factors of EN 1990 are already in it

    def __post_init__(self) -> None:
        if not self.force_n >= 0 or not self.side_mm > 0 or not self.duration_s > 0:
            raise ValueError(f"a patch has a size, and its force lasts some time, got {self}")
