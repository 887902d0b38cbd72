"""A rail as sold: an angle, a channel or a tube of aluminium, in bars of one length."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from panewright.frame.outline import Outline

Profile = Literal["angle", "channel", "tube", "drawn"]
Alloy = Literal["6063-T5", "6063-T52", "6063-T6", "6061-T6", "6060-T66"]


@dataclass(frozen=True, slots=True)
class Rail:
    """A rail's section. The seat carries the pane; the upright stands beside the pane's edge.

    Angle: seat and upright legs. Channel: two seats (flanges) and the upright between them (web).
    Tube: seat is the width, upright the depth.
    """

    name: str
    profile: Profile
    seat_mm: float  #: width of the leg, flange or tube side the pane bears on
    upright_mm: float  #: depth of the section at right angles to the pane
    wall_mm: float
    alloy: Alloy
    bar_mm: float  #: length it is sold in
    outline_mm: Outline = ()  #: of a drawn one, from the heel
    holes_mm: tuple[Outline, ...] = ()

    def __post_init__(self) -> None:
        if min(self.seat_mm, self.upright_mm, self.wall_mm, self.bar_mm) <= 0:
            raise ValueError(f"a rail has positive sizes, got {self}")
        if 2 * self.wall_mm >= min(self.seat_mm, self.upright_mm):
            raise ValueError(f"a rail's wall is thinner than half its narrowest side, got {self}")
