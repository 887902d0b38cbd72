"""The bead between pane and rail, held against suction, heat and its own rules.

Setting blocks at the low edge, two or more, bear what pulls the pane down the slope: its own weight and the
snow. Blocks as long as the trade asks, 27 mm for each square metre of glass [S], bear 2500 kg/m3 g / 27 mm =
0.9 MPa of dead weight, whatever the glass's thickness: that is the limit here. Where the gap has no room for
a block the bead bears the pull for ever, in shear.

Pane and frame are joined at shop temperature. In the hottest hour the pane is hot and the frame anything
between the air and the pane; on the coldest night both are cold. The pane stands on setting blocks at the
low edge, so its weight does not hang in the silicone; but all its growth is then at the far edge. There the
gap must bear the whole of it, and the far corners slip most, the whole of one side and half of the other.

Acrylic also swells: 0.1 % from a shop at 60 % to air at 80 % relative humidity [A]; counted with the heat.

[A] an acrylic supplier's page: growth from dry 0.2, 0.3, 0.6 % at 60, 80, 100 % relative humidity (read).
[S] makers' pages on setting blocks: 27 mm a square metre, or 0.1 in a square foot and no less than 4 in; 3 mm
    thick at least (read).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from panewright.check import Check
from panewright.climate.heat import Temperatures
from panewright.frame.metals.aluminium import alloy
from panewright.frame.rail import Rail
from panewright.glass.pane import Pane
from panewright.seal.joint import (
    LEAST_BITE_MM,
    LEAST_GLUE_LINE_MM,
    MOST_RATIO,
    gap_mm,
    shear_glue_line_mm,
    strain,
    suction_bite_mm,
    weight_bite_mm,
)
from panewright.seal.sealant import Bead, Sealant
from panewright.structure.bead.peel import bite_for_turn_mm
from panewright.structure.corners.squareness import edge_tolerance_mm, off_by_standard
from panewright.structure.loads import Loads
from panewright.units import GRAVITY_M_S2, MM

LEAST_GAP_MM = 3.0  #: edge clearance of thin panes, common glazing practice
BLOCK_LONG_MM, LEAST_BLOCKS = 100.0, 2  #: setting blocks under the low edge [S]
BLOCK_EVERY_MM = 150.0  #: of the low edge, at closest: water must find a way between; common practice
THINNEST_BLOCK_MM = 3.0  #: [S]
_BLOCK_MM_A_M2 = 27.0  # of setting block for a square metre of glass [S]
BLOCK_LIMIT_PA = 2500.0 * GRAVITY_M_S2 / (_BLOCK_MM_A_M2 * MM)  #: what that rule lets a block bear
_SWELLING = {"acrylic": 0.001}


@dataclass(frozen=True, slots=True)
class Movement:
    """How far the pane moves in its frame, whichever way is farther."""

    strain: float  #: largest difference of growth between pane and frame, either sign
    slip_mm: float  #: at a far corner, about the middle of the setting blocks
    edge_mm: float  #: at the far edge of the long way, about the setting blocks
    closes_mm: float = 0.0  #: of that, most that the gap gets narrower
    opens_mm: float = 0.0  #: most that it gets wider


@dataclass(frozen=True, slots=True)
class Need:
    """The least bead that would do."""

    bite_mm: float
    glue_line_mm: float
    gap_mm: float
    movement: Movement
    tolerance_mm: float = 0.0  #: of the gap, for size and square


@dataclass(frozen=True, slots=True)
class BeadProof:
    """A bead held against its rules."""

    bead: Bead
    need: Need
    checks: tuple[Check, ...]
    blocks: int = LEAST_BLOCKS  #: setting blocks under the low edge; 0 where the gap has no room

    @property
    def passed(self) -> bool:
        """Whether all its checks hold."""
        return all(check.passed for check in self.checks)


def movement(pane: Pane, frame_expansion_per_k: float, heat: Temperatures) -> Movement:
    """Differential movement of pane and frame from the day they were joined."""
    growth = pane.sheet.expansion_per_k
    swelling = _SWELLING.get(pane.sheet.material, 0.0)
    hot_pane = strain(growth, heat.build_c, heat.hot_glass_c) + swelling
    differences = [
        hot_pane - strain(frame_expansion_per_k, heat.build_c, frame_c)
        for frame_c in (heat.hot_air_c, heat.hot_frame_c)
    ]
    differences.append(strain(growth - frame_expansion_per_k, heat.build_c, heat.cold_c))
    most = max(abs(one) for one in differences)
    return Movement(
        strain=most,
        slip_mm=most * math.hypot(pane.long_mm, pane.short_mm / 2),
        edge_mm=most * pane.long_mm,
        closes_mm=max(0.0, *differences) * pane.long_mm,
        opens_mm=max(0.0, *(-one for one in differences)) * pane.long_mm,
    )


def bead_need(
    pane: Pane,
    sealant: Sealant,
    rail: Rail,
    loads: Loads,
    heat: Temperatures,
    *,
    tolerance_mm: float | None = None,
) -> Need:
    """The least bite, glue line and gap, not rounded; size and square by the family unless told."""
    if tolerance_mm is None:
        tolerance_mm = edge_tolerance_mm(pane, off_by_standard(pane, loads.family))
    moves = movement(pane, alloy(rail.alloy).expansion_per_k, heat)
    bite = (
        suction_bite_mm(loads.suction_pa, pane.short_mm, sealant.design_pa) if sealant.design_pa else math.inf
    )
    if sealant.movement <= 0:
        return Need(bite, math.inf, math.inf, moves, tolerance_mm)
    return Need(
        bite_mm=bite,
        glue_line_mm=shear_glue_line_mm(moves.slip_mm, sealant.movement),
        gap_mm=gap_mm(moves.edge_mm, sealant.movement, tolerance_mm),
        movement=moves,
        tolerance_mm=tolerance_mm,
    )


def choose_bead(
    pane: Pane,
    sealant: Sealant,
    rail: Rail,
    loads: Loads,
    heat: Temperatures,
    *,
    bite_mm: float | None = None,
    gap_mm: float | None = None,
    glue_line_mm: float | None = None,
    tolerance_mm: float | None = None,
) -> Bead:
    """The smallest bead of whole millimetres that holds; bite, gap and glue line may be pinned."""
    need = bead_need(pane, sealant, rail, loads, heat, tolerance_mm=tolerance_mm)
    return bead_for(sealant, need, bite_mm=bite_mm, gap_mm=gap_mm, glue_line_mm=glue_line_mm)


def bead_for(
    sealant: Sealant,
    need: Need,
    *,
    bite_mm: float | None = None,
    gap_mm: float | None = None,
    glue_line_mm: float | None = None,
) -> Bead:
    """The smallest bead of whole millimetres that does what is needed, but for what is pinned."""
    least_glue = _whole(max(LEAST_GLUE_LINE_MM, need.glue_line_mm))
    thick = least_glue if glue_line_mm is None else glue_line_mm
    wide = bite_for_turn_mm(sealant, need.bite_mm, thick) if math.isfinite(need.bite_mm) else math.inf
    bite = bite_mm if bite_mm is not None else max(_whole(max(LEAST_BITE_MM, wide)), _whole(thick))
    glue_line = max(least_glue, _whole(bite / MOST_RATIO)) if glue_line_mm is None else glue_line_mm
    gap = gap_mm if gap_mm is not None else _whole(max(LEAST_GAP_MM, need.gap_mm))
    return Bead(sealant, bite, glue_line, gap)


def gap_range_mm(bead: Bead, need: Need) -> tuple[float, float]:
    """The gap at the far edge at its narrowest and at its widest, size and square at their worst. [mm]"""
    moves, off = need.movement, need.tolerance_mm
    return bead.gap_mm - moves.closes_mm - off, bead.gap_mm + moves.opens_mm + off


def judge_bead(
    pane: Pane,
    bead: Bead,
    rail: Rail,
    loads: Loads,
    heat: Temperatures,
    *,
    tolerance_mm: float | None = None,
) -> BeadProof:
    """Every rule of the bead round this pane."""
    return prove_bead(
        pane, bead, loads, bead_need(pane, bead.sealant, rail, loads, heat, tolerance_mm=tolerance_mm)
    )


def prove_bead(pane: Pane, bead: Bead, loads: Loads, need: Need) -> BeadProof:
    """The same, where it is known what is needed."""
    holds = "ASTM C1401" if loads.family == "ASCE" else "ETAG 002"
    checks = (
        _stress_check(bead, pane, loads, holds),
        _bite_check(bead, need, holds),
        *_shape_checks(bead, need, holds),
        _least_check(
            "gap for heat, cold and cutting",
            max(need.gap_mm, LEAST_GAP_MM),
            bead.gap_mm,
            f"movement over movement class, and {need.tolerance_mm:.1f} mm for size and square",
            "Leave a wider gap, or take a sealant of a higher movement class.",
        ),
        _pull_check(pane, bead, loads, holds),
    )
    return BeadProof(bead, need, checks, blocks(pane, bead, loads))


def _shape_checks(bead: Bead, need: Need, holds: str) -> tuple[Check, ...]:
    """Bite and glue line, and one against the other."""
    return (
        _least_check("least bite", LEAST_BITE_MM, bead.bite_mm, holds, "Draw a wider bead."),
        _least_check("least glue line", LEAST_GLUE_LINE_MM, bead.glue_line_mm, holds, "Use thicker spacers."),
        _least_check(
            "glue line for heat and cold",
            need.glue_line_mm,
            bead.glue_line_mm,
            "shear geometry, movement class of the sealant",
            "Use thicker spacers, or a sealant of a higher movement class.",
        ),
        Check(
            "bite against glue line",
            bead.bite_mm / bead.glue_line_mm,
            MOST_RATIO,
            "-",
            f"{holds}: bite at most three glue lines",
            "Use thicker spacers.",
            "seal",
        ),
        _least_check(
            "bite no less than glue line", bead.glue_line_mm, bead.bite_mm, holds, "Draw a wider bead."
        ),
    )


def _stress_check(bead: Bead, pane: Pane, loads: Loads, source: str) -> Check:
    """Tension in the bead; a sealant not sold to hold panes is outside the rules, whatever its strength."""
    sealant = bead.sealant
    limit = sealant.design_pa * 1e-6 if sealant.structural and sealant.design_pa > 0 else None
    stress = 0.5 * loads.suction_pa * pane.short_mm / bead.bite_mm * 1e-6
    cure = "Draw a wider bead." if limit else "Take a silicone sold for structural glazing."
    words = f"{source}: structural silicone only"
    return Check("bead tension in wind suction", stress, limit, "MPa", words, cure, "seal")


def pull_n(pane: Pane, loads: Loads) -> float:
    """What pulls the pane down the slope. [N]"""
    return loads.along_pa * pane.long_mm * MM * pane.short_mm * MM


def block_long_mm(short_mm: float) -> float:
    """Length of a setting block: as sold, or cut to a third of a narrow pane's side, so that two do not meet.

    >>> block_long_mm(1000.0), block_long_mm(151.0)
    (100.0, 50.0)
    """
    return min(BLOCK_LONG_MM, float(math.floor(short_mm / 3)))


def blocks(pane: Pane, bead: Bead, loads: Loads) -> int:
    """Setting blocks that bear the pull, as many as find room on the short side; two at least."""
    if bead.gap_mm < THINNEST_BLOCK_MM:
        return 0
    one_n = BLOCK_LIMIT_PA * block_long_mm(pane.short_mm) * MM * pane.sheet.nominal_mm * MM
    most = max(LEAST_BLOCKS, int(pane.short_mm // BLOCK_EVERY_MM))
    return min(most, max(LEAST_BLOCKS, math.ceil(pull_n(pane, loads) / one_n - 1e-9)))


def _pull_check(pane: Pane, bead: Bead, loads: Loads, source: str) -> Check:
    """The blocks bear the pane down the slope; without room for them, the bead does."""
    pull, number = pull_n(pane, loads), blocks(pane, bead, loads)
    if not number:
        return _hanging_check(pane, bead, pull, source)
    long = block_long_mm(pane.short_mm)
    return Check(
        "setting blocks under weight and snow",
        pull / (number * long * pane.sheet.nominal_mm),
        BLOCK_LIMIT_PA * 1e-6,
        "MPa",
        f"trade rule of 27 mm of block a square metre of glass, as a stress; {number} blocks of {long:g} mm",
        "Take a thicker sheet, a smaller pane, or lay the long side along the bottom.",
        "seal",
    )


def _hanging_check(pane: Pane, bead: Bead, pull: float, source: str) -> Check:
    dead, about = bead.sealant.dead_load_pa, 2 * (pane.long_mm + pane.short_mm)
    bite = weight_bite_mm(pull / GRAVITY_M_S2, about, dead) if dead else math.inf
    cure = "Leave a gap of 3 mm or more and put setting blocks into it."
    return _least_check("bite against weight and snow", bite, bead.bite_mm, f"{source}, shear for ever", cure)


def _bite_check(bead: Bead, need: Need, source: str) -> Check:
    words = f"{source}, half the short span on the bead"
    return _least_check("bite against suction", need.bite_mm, bead.bite_mm, words, "Draw a wider bead.")


def _least_check(rule: str, needed_mm: float, there_mm: float, source: str, cure: str) -> Check:
    return Check(rule, needed_mm, there_mm, "mm", source, cure, "seal")


def _whole(size_mm: float) -> float:
    """Up to a whole millimetre; rounding dust does not add one."""
    return float(math.ceil(size_mm - 1e-9)) if math.isfinite(size_mm) else size_mm
