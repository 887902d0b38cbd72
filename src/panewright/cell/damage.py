"""What goes wrong with one cell, each as a change of its diode.

cracked    A share of the area is cut off from all ribbons. What is left is a smaller cell: light, saturation
           current, shunt and breakdown conductance go with the area, series resistance goes over it.
           A crack that cuts nothing off changes nothing today, and may open later. A piece that hangs on by a
           few fingers lies between the two.
shaded     A share of the light is gone. Lit and dark part lie side by side on one junction, so their light
           adds and all else is that of the whole cell. True while the layer and the fingers between the parts
           drop next to nothing: the series resistance is taken behind both.
soiled     An even film takes a share of the light: to the diode the same.
shunted    A path through the junction, beside the shunt that is there. It is straight: the same at all
           voltages and as hot as it may be. Real shunts bend, and some grow with heat.
exchanged  Another cell lies there, of whatever figures. What is wrong with it comes after.
ribbon     A ribbon came off in front: its current must reach the neighbour through the fingers, and the
           ribbons left carry more (see `fingers`). Front and back of a ribbon are one wire, so the gap and
           the part on the next cell's back carry what the front collects.

Each strength is refused outside the range in which the record means anything.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from panewright.cell.diode import Diode
from panewright.cell.fingers import Fingers, finger_ohm, ribbon_shares


@dataclass(frozen=True, slots=True)
class Cracked:
    """A share of the cell's area is cut off."""

    share: float  #: 0 to under 1

    def __post_init__(self) -> None:
        if not 0 <= self.share < 1:
            raise ValueError(
                f"a crack cuts off a share from 0 to under 1 of a cell, got {self.share:g}: what is cut off "
                "whole is an open joint"
            )

    def of(self, cell: Diode) -> Diode:
        """What is left of a cell."""
        return cell.part(1 - self.share)


@dataclass(frozen=True, slots=True)
class Shaded:
    """A share of the cell's area lies in shade, or all of it under a thin one."""

    share: float  #: of the area, 0 to 1
    depth: float = 1.0  #: share of the light that is missing there; 1 is black

    def __post_init__(self) -> None:
        _refuse_share("a shade covers", self.share)
        _refuse_share("a shade is as deep as", self.depth)

    def of(self, cell: Diode) -> Diode:
        """The cell in the light that is left."""
        return replace(cell, light_a=cell.light_a * (1 - self.share * self.depth))


@dataclass(frozen=True, slots=True)
class Soiled:
    """An even film of dirt."""

    lost: float  #: share of the light it takes, 0 to 1

    def __post_init__(self) -> None:
        _refuse_share("dirt takes", self.lost)

    def of(self, cell: Diode) -> Diode:
        """The cell in the light that is left."""
        return replace(cell, light_a=cell.light_a * (1 - self.lost))


@dataclass(frozen=True, slots=True)
class Shunted:
    """A path of its own through the junction."""

    ohm: float

    def __post_init__(self) -> None:
        if not self.ohm > 0:
            raise ValueError(
                f"a shunt has a resistance above 0 ohm, got {self.ohm:g}: for a dead short write 0.001"
            )

    def of(self, cell: Diode) -> Diode:
        """The cell with the path beside its own shunt."""
        return replace(cell, shunt_ohm=1 / (1 / cell.shunt_ohm + 1 / self.ohm))


@dataclass(frozen=True, slots=True)
class Exchanged:
    """Another cell in this place."""

    other: Diode

    def of(self, _cell: Diode) -> Diode:
        """The other cell, whatever lay there."""
        return self.other


@dataclass(frozen=True, slots=True)
class RibbonOff:
    """Ribbons that have come off a cell's front, some but not all."""

    fingers: Fingers
    apart: tuple[int, ...]  #: which, from 1 at one edge of the cell
    ribbon_ohm: float = 0.0  #: one ribbon's third in front, its gap, and its third behind, together

    def __post_init__(self) -> None:
        if not 0 <= self.ribbon_ohm < float("inf"):
            raise ValueError(f"a ribbon has a resistance of 0 ohm or more, got {self.ribbon_ohm:g}")
        ribbon_shares(self.fingers, self.apart)  # refuses ribbons that are not there

    def of(self, cell: Diode) -> Diode:
        """The cell with the further way through its fingers."""
        return replace(cell, series_ohm=cell.series_ohm + self.finger_ohm)

    @property
    def finger_ohm(self) -> float:
        """What the further way through the fingers adds to the cell. [ohm]"""
        return finger_ohm(self.fingers, self.apart) - finger_ohm(self.fingers)

    @property
    def joint_ohm(self) -> float:
        """What the ribbons left add to the joint, as they carry more. [ohm]"""
        shares = ribbon_shares(self.fingers, self.apart)
        return self.ribbon_ohm * (sum(share**2 for share in shares) - 1 / self.fingers.busbars)


OfCell = Cracked | Shaded | Soiled | Shunted | Exchanged | RibbonOff  #: what changes a cell's diode


def _refuse_share(words: str, share: float) -> None:
    if not 0 <= share <= 1:
        raise ValueError(f"{words} a share from 0 to 1, got {share:g}: write 0.25 for a quarter")
