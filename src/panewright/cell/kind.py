"""A kind of cell as it can be bought or ordered."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from panewright.cell.nameplate import Nameplate
from panewright.cell.shape import Shape

Pole = Literal["minus", "plus", "behind"]


@dataclass(frozen=True, slots=True)
class CellKind:
    """A whole cell as bought, and into how many strips the maker cuts it."""

    name: str
    shape: Shape  #: of the whole cell as bought
    nameplate: Nameplate  #: of the whole cell as bought
    front: Pole  #: the pole on the sunny side; 'behind' for back-contact cells
    parts: int = 1  #: 1 whole, 2 halves, 3 thirds
    shunt_ohm_cm2: float = 5000.0  #: assumed where the nameplate says nothing
    breakdown_v: float = -15.0  #: reverse voltage past which the cell must never be driven
    spread: float | None = None  #: standard deviation of Isc in the lot, as a share; None where not known
