"""A rail as sold: an angle, a channel, a tube or a drawn section of aluminium, in bars of one length."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from panewright.frame.shape.drawn import Pocket, Size, flaw, pocket
from panewright.frame.shape.outline import Outline

Profile = Literal["angle", "channel", "tube", "drawn"]
Alloy = Literal["6063-T5", "6063-T52", "6063-T6", "6061-T6", "6060-T66"]


@dataclass(frozen=True, slots=True)
class Rail:
    """A rail's section. The seat carries the pane; the upright stands beside the pane's edge.

    Angle: seat and upright legs. Channel: two seats (flanges) and the upright between them (web).
    Tube: seat is the width, upright the depth. Drawn: any closed line, see `frame/shape/drawn.py`.
    """

    name: str
    profile: Profile
    seat_mm: float  #: width of the leg, flange or tube side the pane bears on
    upright_mm: float  #: depth of the section at right angles to the pane
    wall_mm: float
    alloy: Alloy
    bar_mm: float  #: length it is sold in
    outline_mm: Outline = ()  #: of a drawn one: x along the seat, y along the upright, from the heel
    holes_mm: tuple[Outline, ...] = ()

    def __post_init__(self) -> None:
        if min(self.seat_mm, self.upright_mm, self.wall_mm, self.bar_mm) <= 0:
            raise ValueError(f"a rail has positive sizes, got {self}")
        if 2 * self.wall_mm >= min(self.seat_mm, self.upright_mm):
            raise ValueError(f"a rail's wall is thinner than half its narrowest side, got {self}")
        if (self.profile == "drawn") != bool(self.outline_mm) or (self.holes_mm and not self.outline_mm):
            raise ValueError(f"an outline belongs to a drawn rail and to no other, got {self}")
        if self.outline_mm and (found := flaw(self.outline_mm, self.holes_mm, self._size)):
            raise ValueError(f"{found.reason} {found.cure}")

    def __hash__(self) -> int:
        """Of its sizes: rails of one name and other alloys, or bars, are few."""
        return hash((self.seat_mm, self.upright_mm, self.wall_mm, self.name))

    @property
    def _size(self) -> Size:
        return Size(self.seat_mm, self.upright_mm, self.wall_mm)

    @property
    def pocket(self) -> Pocket:
        """The room for bead and pane over the seat of any rail but a tube."""
        wall, up = self.wall_mm, self.upright_mm
        if self.profile == "drawn" and (room := pocket(self.outline_mm, self._size)):
            return room
        if self.profile == "channel":
            return Pocket(wall, wall, up - wall, self.seat_mm)
        return Pocket(wall, wall, up, wall)
