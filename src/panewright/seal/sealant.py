"""A sealant as sold, and a bead drawn with it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Sealant:
    """A cured elastic sealant."""

    name: str
    design_pa: float  #: short-term tension a structural bead may bear
    dead_load_pa: float  #: shear it may bear for ever; 0 where the maker gives none
    movement: float  #: share of its width it may move either way, 0.25 for class 25
    cartridge_ml: float
    structural: bool  #: sold for structural glazing


@dataclass(frozen=True, slots=True)
class Bead:
    """A bead round the pane: bite along the glass, glue line between glass and rail, gap at the edge."""

    sealant: Sealant
    bite_mm: float
    glue_line_mm: float
    gap_mm: float  #: between the pane's edge and the upright, all round

    def __hash__(self) -> int:
        """Of its sizes: beads of other sealants alike in all of them are few."""
        return hash((self.bite_mm, self.glue_line_mm, self.gap_mm))
