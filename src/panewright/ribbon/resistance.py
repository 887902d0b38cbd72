"""What a solder-coated copper strip resists, and what that costs in watts.

Copper and coat lie side by side, so their conductances add. Both metals drift with heat by about the
same share a kelvin; the copper's coefficient is used for the whole strip.

Along a busbar the current grows from nothing at the far end to the whole share I / k at the cell's
edge (k busbars). The power lost in a strip of resistance R is then one third of what the whole current
would lose, not one half: the integral of (x / L)^2 over L is L / 3. One half is the drop in voltage
from the far end. Over the gap between two cells, and round a stress loop, the whole share flows.

    cell              gap      next cell
    ==================----.    tab on the front of one cell, one third counts
                           '---==================   tab on the back of the next, one third counts

A strip which stops short of the cell's far edge by b takes in the share b / L in one lump at its end:
the integral becomes (L^3 - b^3) / (3 L^2). What the printed busbar or the back metal loses on the way
to that end is left out.

[IACS] International annealed copper standard: 1.724e-8 ohm m at 20 degC, 0.00393 per kelvin.
"""

from __future__ import annotations

from dataclasses import dataclass

from panewright.ribbon.strip import Strip
from panewright.units import MM

COPPER_PER_K = 0.00393  #: change of resistivity, share of that at 20 degC [IACS]
COPPER_KG_M3 = 8890.0  #: annealed copper [IACS]
SOLDER_KG_M3 = 8500.0  #: tin-lead, 60 to 63 % tin; from memory


@dataclass(frozen=True, slots=True)
class TabRun:
    """The way of the tabs that serve one cell: along its front, over to the next, along its back."""

    busbars: int
    length_mm: float  #: of the cell along the busbars
    gap_mm: float  #: between two cells
    loop_mm: float = 0.0  #: bend or stress loop on top of the gap
    front_bare_mm: float = 0.0  #: the tab ends this far short of the cell's far edge in front
    back_bare_mm: float = 0.0  #: and on the back

    def __post_init__(self) -> None:
        if self.busbars < 1 or self.length_mm <= 0 or min(self.gap_mm, self.loop_mm) < 0:
            raise ValueError(
                f"tabs run on a busbar or more, along a cell, over a gap of 0 or more, got {self}"
            )
        if not (0 <= self.front_bare_mm <= self.length_mm and 0 <= self.back_bare_mm <= self.length_mm):
            raise ValueError(f"the bare end of a tab is no longer than its cell, got {self}")


@dataclass(frozen=True, slots=True)
class TabLoss:
    """What the tabs of one cell lose."""

    front_w: float
    back_w: float
    gap_w: float

    @property
    def total_w(self) -> float:
        """All three together. [W]"""
        return self.front_w + self.back_w + self.gap_w


def heat_factor(temperature_c: float) -> float:
    """Resistance of copper against that at 20 degC. [-] [IACS]

    >>> round(heat_factor(75), 5)
    1.21615
    """
    return 1 + COPPER_PER_K * (temperature_c - 20.0)


def coat_area_mm2(strip: Strip) -> float:
    """Cross-section of the solder all round. [mm2]"""
    wide, thick = strip.width_mm + 2 * strip.coat_mm, strip.thickness_mm + 2 * strip.coat_mm
    return wide * thick - strip.width_mm * strip.thickness_mm


def ohm_per_m(strip: Strip, temperature_c: float = 20.0) -> float:
    """Resistance of a metre of strip, copper and coat side by side. [ohm/m]

    >>> round(ohm_per_m(Strip("2 x 0.15", 2.0, 0.15, coat_mm=0.0)), 6)
    0.057467
    """
    copper_m2, coat_m2 = strip.width_mm * strip.thickness_mm * MM**2, coat_area_mm2(strip) * MM**2
    siemens_m = copper_m2 / strip.copper_ohm_m + coat_m2 / strip.coat_ohm_m
    return heat_factor(temperature_c) / siemens_m


def kg_per_m(strip: Strip) -> float:
    """Mass of a metre of strip, copper and coat. [kg/m]"""
    copper_m2, coat_m2 = strip.width_mm * strip.thickness_mm * MM**2, coat_area_mm2(strip) * MM**2
    return copper_m2 * COPPER_KG_M3 + coat_m2 * SOLDER_KG_M3


def collected_mm(length_mm: float, bare_mm: float = 0.0) -> float:
    """Length of strip that would lose as much with the whole current in it. [mm]

    >>> collected_mm(156.0)
    52.0
    """
    return (length_mm**3 - bare_mm**3) / (3 * length_mm**2)


def tab_loss(strip: Strip, run: TabRun, current_a: float, temperature_c: float = 20.0) -> TabLoss:
    """Watts which the tabs of one cell lose at a cell current shared evenly by its busbars. [W]"""
    share_a = current_a / run.busbars
    watt_per_mm = run.busbars * share_a**2 * ohm_per_m(strip, temperature_c) * MM
    return TabLoss(
        front_w=watt_per_mm * collected_mm(run.length_mm, run.front_bare_mm),
        back_w=watt_per_mm * collected_mm(run.length_mm, run.back_bare_mm),
        gap_w=watt_per_mm * (run.gap_mm + run.loop_mm),
    )


def cell_equivalent_ohm(strip: Strip, run: TabRun, temperature_c: float = 20.0) -> float:
    """The one resistance in series with a cell which loses what its tabs lose. [ohm]

    >>> bare = Strip("2 x 0.15", 2.0, 0.15, coat_mm=0.0)
    >>> round(cell_equivalent_ohm(bare, TabRun(busbars=2, length_mm=78, gap_mm=3)), 7)
    0.0015803
    """
    return tab_loss(strip, run, 1.0, temperature_c).total_w


def tab_length_mm(run: TabRun) -> float:
    """Ribbon that one cell needs: front, way over and back, on every busbar. [mm]"""
    front, back = run.length_mm - run.front_bare_mm, run.length_mm - run.back_bare_mm
    return run.busbars * (front + run.gap_mm + run.loop_mm + back)
