"""A panel that stands by weight alone: how many kilograms keep it from sliding, lifting and turning over.

Side view, wind pressing from the front (pushes back and down) or lifting from behind (pushes forward and up):

              /|
         N  \\/ |        H = N sin tilt at the height z of the panel's middle
            /  |        V = N cos tilt
      [==]/____|[==]    blocks in two rows, their weight in the middle of the footprint

For each wind and each way to fail the weight needed follows in closed form: W = demand / factor. Factors:
ASCE 0.6 W with 0.6 D (ASCE 7-10 and later 2.4.1); EN 1.5 Q with 0.9 G, friction over 1.25 (EN 1990 A1.2(A),
EN 1997-1 table A.2: EQU; recalled).

The wind acts off the middle where that is worse: up or down the slope, or to a side.
Snow holds down, so it is left out against wind; what piles up over a low edge that stands out before the
footprint may turn it over. Under the blocks all of it presses, with the worst wind.

The stand's own weight is not counted. The footprint is rigid: the stand ties all blocks together, and is
not looked at itself. Ice under the blocks leaves a tenth of the weight as friction: state surface "ice"
where that may happen.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from panewright.check import Check
from panewright.climate.site import Family
from panewright.frame.support.block import Block
from panewright.structure.mounting.forces import HOLDING, PRESSING, Panel, Wind
from panewright.units import GRAVITY_M_S2, MM

FRICTION_FACTOR: dict[Family, float] = {"ASCE": 1.0, "EN": 1.25}  #: divides the coefficient
_CURE = "Lay more or heavier blocks, make the footprint deeper or wider, or tilt the panel less."


@dataclass(frozen=True, slots=True)
class Stand:
    """A panel on a weighted footprint."""

    panel: Panel
    depth_mm: float  #: of the footprint, front to back
    width_mm: float
    low_edge_mm: float  #: of the panel, above what the stand lies on
    friction: float
    friction_source: str

    def __post_init__(self) -> None:
        if min(self.depth_mm, self.width_mm) <= 0 or self.friction <= 0:
            raise ValueError(f"a stand has a footprint and friction, got {self}")

    @property
    def middle_mm(self) -> float:
        """Height of the panel's middle. [mm]"""
        return self.low_edge_mm + self.panel.rise_mm / 2

    @property
    def holding(self) -> float:
        """Share of own weight that may be counted on. [-]"""
        return HOLDING[self.panel.family]

    @property
    def grip(self) -> float:
        """Friction that may be counted on. [-]"""
        return self.friction / FRICTION_FACTOR[self.panel.family]


@dataclass(frozen=True, slots=True)
class Need:
    """One way to fail: the whole weight that keeps it off, panel included. [N]"""

    way: str
    weight_n: float


def needs(stand: Stand) -> tuple[Need, ...]:
    """Whole weight for each way to fail, the share that counts as holding taken out."""
    return tuple(Need(way, max(0.0, weight) / stand.holding) for way, weight in _needs(stand))


def _needs(stand: Stand) -> Iterator[tuple[str, float]]:
    """The worst wind for each way to fail, as weight in the middle of the footprint. [N]"""
    winds = stand.panel.winds
    yield "sliding", max((_sliding_n(stand, wind) for wind in winds), default=0.0)
    yield "lifting off", max((-_press_n(stand, wind) for wind in winds), default=0.0)
    for way, sign in (("back", 1.0), ("forward", -1.0)):
        worst = max((_turning_n(stand, wind, sign) for wind in winds), default=0.0)
        yield f"turning over {way}", worst
    yield "turning over sideways", max((_sideways_n(stand, wind) for wind in winds), default=0.0)
    if stand.panel.drift_n > 0:
        yield "turning over in piled-up snow", _piled_n(stand)


def _press_n(stand: Stand, wind: Wind) -> float:
    """Upright part of a wind, plus presses. [N]"""
    return stand.panel.upright_n(stand.panel.across_n(wind))


def _sliding_n(stand: Stand, wind: Wind) -> float:
    return abs(stand.panel.level_n(stand.panel.across_n(wind))) / stand.grip - _press_n(stand, wind)


def _turning_n(stand: Stand, wind: Wind, sign: float) -> float:
    """About the back edge (sign plus) or the front edge of the footprint. [N]"""
    turn = stand.panel.turning_nm(wind, stand.middle_mm)
    return sign * turn / (stand.depth_mm / 2 * MM) - _press_n(stand, wind)


def _sideways_n(stand: Stand, wind: Wind) -> float:
    """About either side of the footprint, the wind off to that side where it presses, or away. [N]"""
    off = 2 * wind.across_share * stand.panel.width_mm / stand.width_mm
    press = _press_n(stand, wind)
    return max(-press * (1 + off), press * (off - 1))


def _piled_n(stand: Stand) -> float:
    """About the front edge, by the snow alone that piles up over the low edge. [N]"""
    panel, half = stand.panel, stand.depth_mm / 2 * MM
    return panel.drift_nm / half - panel.drift_n


def least_ballast_kg(stand: Stand) -> float:
    """Blocks that the worst need asks for, the panel's own weight taken off. [kg]"""
    worst = max(need.weight_n for need in needs(stand))
    return max(0.0, worst - stand.panel.weight_n) / GRAVITY_M_S2


def least_blocks(stand: Stand, block: Block) -> int:
    """Whole blocks, an even number, so that both rows weigh the same."""
    return max(2, 2 * math.ceil(least_ballast_kg(stand) / block.mass_kg / 2 - 1e-9))


def judge_ballast(
    stand: Stand, block: Block, blocks: int, bearing: tuple[float | None, str]
) -> tuple[Check, ...]:
    """Every way to fail against the weight there is; `bearing` is what lies under it [Pa], and its source."""
    there = stand.panel.weight_n + blocks * block.mass_kg * GRAVITY_M_S2
    return (
        *(_held(need, there, stand) for need in needs(stand)),
        _even(blocks),
        _rows(stand, block),
        _stack(stand, block, blocks),
        *_clear(stand, block, blocks),
        _bearing(stand, block, blocks, bearing),
    )


def _held(need: Need, there_n: float, stand: Stand) -> Check:
    american = stand.panel.family == "ASCE"
    source = "ASCE 7 2.4.1, 0.6 D + 0.6 W" if american else "EN 1990 A1.2(A) EQU, 0.9 G + 1.5 Q"
    if "sliding" in need.way:
        source += f"; friction {stand.friction:g}, {stand.friction_source}"
    return Check(f"ballast against {need.way}", need.weight_n, there_n, "N", source, _CURE, "structure")


def _even(blocks: int) -> Check:
    cure = "Lay an even number of blocks, half of them in each row."
    return Check(
        "blocks shared evenly by both rows", float(blocks % 2), 0.0, "-", "geometry", cure, "structure"
    )


def _rows(stand: Stand, block: Block) -> Check:
    cure = "Make the footprint deeper, or lay narrower blocks."
    needed = 2 * block.short_mm
    return Check("two rows on the footprint", needed, stand.depth_mm, "mm", "geometry", cure, "structure")


def stack_mm(stand: Stand, block: Block, blocks: int) -> float:
    """Height of the blocks of a row, stacked where they find no place side by side. [mm]"""
    return block.high_mm * math.ceil(blocks / 2 / _places(stand, block))


def _stack(stand: Stand, block: Block, blocks: int) -> Check:
    source = "no higher than a block is wide; common practice, no source"
    cure = "Take heavier blocks or a wider footprint."
    high = stack_mm(stand, block, blocks)
    return Check("height of stacked blocks", high, block.short_mm, "mm", source, cure, "structure")


def under_panel_mm(stand: Stand, block: Block) -> float:
    """Room for the front row's blocks under the panel; without end where they lie before it. [mm]"""
    panel, tilt = stand.panel, math.radians(stand.panel.tilt_deg)
    front = -stand.depth_mm / 2
    if front + block.short_mm <= -panel.reach_mm / 2:
        return math.inf
    lowest = -panel.reach_mm / 2 + panel.deep_mm * math.sin(tilt)
    high = stand.low_edge_mm - panel.deep_mm * math.cos(tilt)
    return max(0.0, high + max(0.0, front - lowest) * math.tan(tilt))


def _clear(stand: Stand, block: Block, blocks: int) -> tuple[Check, ...]:
    """Nothing to look at where no block lies under the panel."""
    room = under_panel_mm(stand, block)
    if math.isinf(room):
        return ()
    cure = "Make the footprint deeper, so that blocks lie before the panel; or raise the panel."
    source = "geometry: underside of the frame over the front row"
    high = stack_mm(stand, block, blocks)
    return (Check("blocks clear of the panel above them", high, room, "mm", source, cure, "structure"),)


def pressure_pa(stand: Stand, block: Block, blocks: int) -> float:
    """Under the blocks of the row that the worst wind leans on, with snow. [Pa]"""
    panel = stand.panel
    own = PRESSING[panel.family] * (panel.weight_n + blocks * block.mass_kg * GRAVITY_M_S2) + panel.snow_n
    own += panel.drift_n + 2 * panel.drift_nm / (stand.depth_mm * MM)
    rows = [
        (own + max(0.0, _press_n(stand, wind))) / 2
        + abs(panel.turning_nm(wind, stand.middle_mm)) / (stand.depth_mm * MM)
        for wind in panel.winds
    ]
    row = max(rows, default=own / 2)
    return row / min(max(1.0, blocks / 2), _places(stand, block)) / block.foot_m2


def _places(stand: Stand, block: Block) -> int:
    """Blocks side by side in a row, long sides along it; what is more is stacked on them."""
    return max(1, math.floor(stand.width_mm / block.long_mm))


def roof_kg_m2(stand: Stand, block: Block, blocks: int) -> float:
    """What the whole stand weighs for each square metre of its footprint, no wind, no snow. [kg/m2]"""
    return (stand.panel.mass_kg + blocks * block.mass_kg) / (stand.depth_mm * stand.width_mm * MM**2)


def _bearing(stand: Stand, block: Block, blocks: int, bearing: tuple[float | None, str]) -> Check:
    limit, source = bearing
    cure = "Ask the building's engineer what the roof bears, and state it; or lay larger blocks."
    demand = pressure_pa(stand, block, blocks)
    return Check("pressure under the blocks", demand, limit, "Pa", source, cure, "structure")
