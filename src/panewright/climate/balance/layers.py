"""What a panel is made of from front to back, as numbers that heat asks for."""

from __future__ import annotations

from dataclasses import dataclass, replace

from panewright.climate.balance.layer import Layer, Solid


@dataclass(frozen=True, slots=True)
class Layers:
    """Layers before and behind the cells, and what becomes of the sun in them."""

    front: tuple[Layer, ...]  #: from the cover inward to the cell's face
    back: tuple[Layer, ...]  #: from the cell's back outward
    cover_takes: float  #: of the sunlight, what warms the cover itself [-]
    cell_takes: float  #: of the sunlight, what the cell takes in [-]
    gives: float  #: of the sunlight, what leaves the cell as power at 25 degC; 0 at open circuit [-]
    front_emits: float = 0.84  #: emissivity of the cover's face; glass, EN 673 0.837 (recalled)
    back_emits: float = 0.85  #: of the back sheet: plastics 0.8 to 0.9 (recalled)

    def __post_init__(self) -> None:
        shares = (self.cover_takes, self.cell_takes, self.gives)
        if not self.front or not self.back:
            raise ValueError(f"cells have at least one layer before and one behind them, got {self}")
        if min(shares) < 0 or self.cover_takes + self.cell_takes > 1 or self.gives > self.cell_takes:
            raise ValueError(
                f"cover and cell share the sunlight, and power is part of the cell's, got {self}"
            )
        if not (0 < self.front_emits <= 1 and 0 < self.back_emits <= 1):
            raise ValueError(f"a face emits more than nothing, and at most as a black one, got {self}")

    @property
    def idle(self) -> Layers:
        """The same panel with its leads open."""
        return replace(self, gives=0.0)


POURED = Layers(
    front=(Solid(3.2, 1.0), Solid(1.0, 0.2)),
    back=(Solid(2.0, 0.2), Solid(0.35, 0.2)),
    cover_takes=0.01,
    cell_takes=0.90,
    gives=0.16,
)
"""Glass of 3.2 mm, a pour, a back sheet: the usual build, for those who know no better of theirs."""
