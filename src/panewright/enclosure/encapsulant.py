"""What keeps water off the cells: poured silicone, laminated film, or nothing but air.

Pour. Two-part clear silicone levels itself on the back of the pane, sunny side down. It fills the depth
from glass to cell face, round the cells, and over their backs; the cells take their own room out of it. It
is mixed in batches: each must be weighed, stirred, freed of bubbles and poured well within its pot life at
the heat of the shop, and fit the cup. A cell is more than twice as heavy as silicone and sinks unless air
is caught under it. Sulphur, tin-cured silicone, amines and some fluxes keep a platinum-cured silicone from
setting: a trial patch on a tabbed scrap cell tells.

Film. Two sheets, in front of the cells and behind, larger than the pane all round, shrink in the heat.

What the silicone is stands in `silicone.py`, what goes wrong in `inhibition.py`, `floating.py` and
`degassing.py`. Waste in cup and on spatula, and the pace of the work: common practice.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from panewright.check import Check
from panewright.enclosure.silicone import Silicone, at_work

PRACTICE = "common practice of the trade, no source"
LEAST_FRONT_MM = 0.3  #: silicone between glass and cell, or bubbles cannot leave
LEAST_COVER_MM = 1.0  #: silicone over the highest ribbon on the back
BATCH_SHARE = 0.5  #: of the pot life, after which a batch should lie on the pane
FRONT_MM, BACK_MM = 1.0, 2.0  #: as poured: from glass to cell face, and over the backs; common practice


@dataclass(frozen=True, slots=True)
class Bench:
    """How one pair of hands works."""

    cup_ml: float = 1500.0  #: mixed at once in a vessel three times as large
    set_up_min: float = 12.0  #: weigh, stir, free of bubbles, whatever the batch
    pour_ml_per_min: float = 150.0
    waste: float = 0.08  #: left in cup and on spatula, share of what is poured
    shop_c: float = 23.0  #: heat of the shop, which rules the pot life


@dataclass(frozen=True, slots=True)
class PourAsk:
    """The room to be filled."""

    pane_mm2: float  #: inside the dam
    front_mm: float  #: from glass to cell face
    cell_mm: float  #: thickness of the cells
    back_mm: float  #: over the backs of the cells
    cells_mm2: float  #: area of all cells
    ribbon_mm: float = 0.4  #: the highest ribbon over a cell's back
    dam_mm: float | None = None  #: height of the rim that holds the pour; None where nothing limits it


@dataclass(frozen=True, slots=True)
class Pour:
    """What to mix."""

    volume_ml: float  #: on the pane
    mix_ml: float  #: with waste
    mix_kg: float
    poured_kg: float  #: on the pane
    batches: int
    batch_ml: float
    batch_min: float  #: from the first drop of hardener to the last drop on the pane
    depth_mm: float  #: from glass to the top of the pour
    checks: tuple[Check, ...]

    @property
    def poured_share(self) -> float:
        """Share of the mix that lies on the pane. [-]"""
        return self.poured_kg / self.mix_kg


def volume_ml(ask: PourAsk) -> float:
    """Silicone that lies on the pane when it is level. [ml]"""
    depth_mm = ask.front_mm + ask.cell_mm + ask.back_mm
    return (ask.pane_mm2 * depth_mm - ask.cells_mm2 * ask.cell_mm) / 1000


def most_batch_ml(silicone: Silicone, bench: Bench) -> float:
    """Largest batch that fits the cup and lies on the pane at half its pot life. [ml]"""
    pouring_min = BATCH_SHARE * at_work(silicone, bench.shop_c).pot_life_min - bench.set_up_min
    return max(0.0, min(bench.cup_ml, pouring_min * bench.pour_ml_per_min))


def pour(ask: PourAsk, silicone: Silicone | None = None, bench: Bench | None = None) -> Pour:
    """How much to mix, in how many batches, and whether the fill is sound.

    >>> pour(PourAsk(pane_mm2=1e6, front_mm=1.0, cell_mm=0.2, back_mm=1.5, cells_mm2=8e5)).volume_ml
    2540.0
    """
    silicone, bench = silicone or Silicone(), bench or Bench()
    volume = volume_ml(ask)
    mix = volume * (1 + bench.waste)
    # a silicone too quick for one pair of hands is told by its check; a full cup then stands for the batch
    batches = max(1, math.ceil(mix / (most_batch_ml(silicone, bench) or bench.cup_ml) - 1e-9))
    batch_min = bench.set_up_min + mix / batches / bench.pour_ml_per_min
    return Pour(
        volume_ml=volume,
        mix_ml=mix,
        mix_kg=mix * 1e-6 * silicone.density_kg_m3,
        poured_kg=volume * 1e-6 * silicone.density_kg_m3,
        batches=batches,
        batch_ml=mix / batches,
        batch_min=batch_min,
        depth_mm=ask.front_mm + ask.cell_mm + ask.back_mm,
        checks=(*fill_checks(ask), _pot_life_check(batch_min, at_work(silicone, bench.shop_c).pot_life_min)),
    )


def _check(rule: str, demand: float, limit: float, unit: str, cure: str) -> Check:
    return Check(rule, demand, limit, unit, PRACTICE, cure, "enclosure")


def fill_checks(ask: PourAsk) -> tuple[Check, ...]:
    """The pour is deep enough in front, covers the ribbons behind, and stays within its rim."""
    depth_mm = ask.front_mm + ask.cell_mm + ask.back_mm
    front_cure = "Lay the cells on more silicone: a thinner film traps bubbles."
    cover_cure = "Pour deeper: ribbon near the surface lets water in."
    checks = [
        _check("silicone between glass and cells", LEAST_FRONT_MM, ask.front_mm, "mm", front_cure),
        _check("silicone over the ribbons", ask.ribbon_mm + LEAST_COVER_MM, ask.back_mm, "mm", cover_cure),
    ]
    if ask.dam_mm is not None:
        checks.append(
            _check("pour within its rim", depth_mm, ask.dam_mm, "mm", "Raise the rim, or pour less deep.")
        )
    return tuple(checks)


def _pot_life_check(batch_min: float, pot_life_min: float) -> Check:
    cure = "Take a silicone with a longer pot life, or pour with more hands."
    limit = BATCH_SHARE * pot_life_min * 60
    return _check("batch on the pane at half its pot life", batch_min * 60, limit, "s", cure)
