"""What the printed fingers of a cell lose on the way to the nearest soldered ribbon.

Light makes current evenly, J amperes a square metre. A finger of length l that ends at a ribbon carries
nothing at its tip and J s l at the ribbon (s the distance between fingers). As on a ribbon, the power lost is
one third of what the whole current would lose: a field of such fingers loses, on each square metre,

    J^2 s r l^2 / 3            r ohm a metre of finger

Between two ribbons a distance d apart each takes its half, l = d / 2; from the cell's edge to the outermost
ribbon the whole of it, l = d. Summed over the width w and turned into one resistance which the cell's whole
current would pass, with L the length along the ribbons:

    R = s r / (L w^2) * (sum of edge^3 / 3 + sum of between^3 / 12)

Ribbons lie evenly: k of them, the outermost half a pitch from the edge.

    edge |  p/2  | ribbon |   p   | ribbon |   p   | ribbon |  p/2  | edge

The nameplate counts every busbar as contacted. A busbar that gets no ribbon is as one whose ribbon came off.

True for a full square that gives its current evenly over its face. The printed busbar's own width, what it
carries lengthways, and the layer under the fingers are left out.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from panewright.units import MM


@dataclass(frozen=True, slots=True)
class Fingers:
    """The printed grid of a cell's front."""

    busbars: int
    width_mm: float  #: across the busbars
    length_mm: float  #: along the busbars
    pitch_mm: float = 2.0  #: from finger to finger; common practice, no source
    ohm_per_m: float = 50.0  #: of one finger; common practice, no source; cells differ by half of it

    def __post_init__(self) -> None:
        if self.busbars < 1 or min(self.width_mm, self.length_mm, self.pitch_mm) <= 0 or self.ohm_per_m < 0:
            raise ValueError(f"fingers have a busbar or more, sizes > 0 and ohm per metre >= 0, got {self}")


def finger_ohm(fingers: Fingers, apart: Sequence[int] = ()) -> float:
    """Resistance in series with the cell that loses what its fingers lose. [ohm]

    `apart` are the ribbons, from 1 at one edge, that have come off in front.

    >>> third = Fingers(busbars=3, width_mm=156, length_mm=156)
    >>> round(350.0**2 * finger_ohm(third) * 0.156 * 0.156, 5)  # loss of each m2 at 350 A/m2, [W]
    2.76033
    """
    ribbons = _ribbons_m(fingers, apart)
    edges, between = _edges_m(fingers, ribbons), [b - a for a, b in pairwise(ribbons)]
    cubed = sum(d**3 for d in edges) / 3 + sum(d**3 for d in between) / 12
    width, length = fingers.width_mm * MM, fingers.length_mm * MM
    return fingers.pitch_mm * MM * fingers.ohm_per_m / (length * width**2) * cubed


def ribbon_shares(fingers: Fingers, apart: Sequence[int] = ()) -> tuple[float, ...]:
    """Share of the cell's current that each ribbon still soldered takes. [-]

    >>> ribbon_shares(Fingers(3, 156, 156), apart=(2,)), ribbon_shares(Fingers(2, 156, 156), apart=(1,))
    ((0.5, 0.5), (1.0,))
    """
    ribbons = _ribbons_m(fingers, apart)
    first, last = _edges_m(fingers, ribbons)
    reach = [first, *((b - a) / 2 for a, b in pairwise(ribbons) for _ in range(2)), last]
    width = fingers.width_mm * MM
    return tuple((low + high) / width for low, high in zip(reach[::2], reach[1::2], strict=True))


def left_bare(busbars: int, ribbons: int) -> tuple[int, ...]:
    """Which busbars get no ribbon where there are fewer ribbons than busbars, those that do spread evenly.

    >>> left_bare(3, 3), left_bare(3, 2), left_bare(5, 3)
    ((), (2,), (2, 4))
    """
    if not 1 <= ribbons <= busbars:
        raise ValueError(f"{busbars} busbars take 1 to {busbars} ribbons, got {ribbons}")
    kept = {1 + (2 * place + 1) * busbars // (2 * ribbons) for place in range(ribbons)}
    return tuple(number for number in range(1, busbars + 1) if number not in kept)


def _ribbons_m(fingers: Fingers, apart: Sequence[int]) -> list[float]:
    """Where the ribbons lie that still hold, from one edge. [m]"""
    ribbons = range(1, fingers.busbars + 1)
    if not set(apart) <= set(ribbons):
        raise ValueError(f"ribbons are counted from 1 to {fingers.busbars}, got {tuple(apart)}")
    if not set(ribbons) - set(apart):
        raise ValueError(f"all {fingers.busbars} ribbons are off: that is an open joint, not fingers' work")
    pitch = fingers.width_mm * MM / fingers.busbars
    return [(number - 0.5) * pitch for number in ribbons if number not in apart]


def _edges_m(fingers: Fingers, ribbons: list[float]) -> tuple[float, float]:
    """From each edge of the cell to its nearest ribbon. [m]"""
    return ribbons[0], fingers.width_mm * MM - ribbons[-1]
