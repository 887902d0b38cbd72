"""Which plan suits best, as points with a reason for each.

Points are taken off, never given, so that every figure says what a plan costs:

    leads at both ends    a cable must cross the panel's back
    aspect                outside of 1 to 2.2 a panel is clumsy to carry and its frame sags; squared
    span                  the short side of the pane decides how thick the glass must be
    columns               every column has two rows of joints on bus ribbons
    diodes                more cells under one diode than it can keep from harm: a check would fail
    glass                 a stock sheet is cut down, or none is large enough
    limits                too long, too wide or too heavy for what the order allows: last of all

How the points weigh against each other is this workshop's judgement, not a standard.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from panewright.cell.kind import CellKind
from panewright.layup.layup import Plan
from panewright.layup.plan_facts import PlanFacts, facts
from panewright.units import show

MOST_CELLS_A_DIODE = 24  #: common practice for crystalline cells; what keeps them from harm may ask for fewer
POINTS_TOO_MANY = 50.0  #: for a diode over more: a check will fail
Units = Literal["metric", "us"]
POINTS_A_CELL = 5.0  #: for every cell more than the voltage needs: cells are the dearest part


@dataclass(frozen=True, slots=True)
class Preferences:
    """What the order and the shelf prefer; None sets no limit."""

    leads_one_end: bool = True
    least_aspect: float = 1.0
    most_aspect: float = 2.2
    most_cells_a_diode: int = MOST_CELLS_A_DIODE
    stock_glass_mm: tuple[tuple[float, float], ...] = ()  #: long and short sides kept by glass shops
    most_long_mm: float | None = None
    most_short_mm: float | None = None
    glass_kg_m2: float = 0.0  #: mass of the sheet for a square metre
    most_mass_kg: float | None = None  #: of the pane alone
    units: Units = "metric"  #: that reasons are told in


@dataclass(frozen=True, slots=True)
class Ranked:
    """A plan with its points and the reason for each."""

    plan: Plan
    facts: PlanFacts
    parts: tuple[tuple[str, float, str], ...]  #: (name, points lost as a negative number, reason)
    words: str  #: one sentence

    @property
    def score(self) -> float:
        """Sum of the points; 0 is perfect."""
        return sum(points for _, points, _ in self.parts)

    @property
    def lost(self) -> str:
        """What points are taken off for, the dearest first."""
        dear = sorted((part for part in self.parts if part[1] < -0.5), key=lambda part: part[1])
        return ", ".join(f"{name} {-points:.0f}" for name, points, _ in dear)

    @property
    def within_limits(self) -> bool:
        """Whether no limit of the order is passed."""
        return all(name != "limits" for name, _, _ in self.parts)


@dataclass(frozen=True, slots=True)
class Counted:
    """A count of cells in series with its best lay-out."""

    cells: int
    best: Ranked
    more: int  #: cells more than the voltage needs

    @property
    def merit(self) -> float:
        """Points of the lay-out, less those of the cells that are not needed."""
        return self.best.score - POINTS_A_CELL * self.more

    @property
    def words(self) -> str:
        """For a person: what the lay-out is and what it costs."""
        spare = f" and {POINTS_A_CELL * self.more:.0f} for {self.more} more" if self.more else ""
        plan = self.best.plan
        return f"{plan.columns} x {plan.rows} loses {-self.best.score:.0f} points{spare}"


def rank(plans: Iterable[Plan], kind: CellKind, preferences: Preferences | None = None) -> tuple[Ranked, ...]:
    """All plans, the best first; equal ones in a fixed order."""
    wanted = preferences or Preferences()
    ranked = [_judged(plan, facts(plan, kind), wanted) for plan in plans]
    return tuple(sorted(ranked, key=lambda each: (-each.score, each.plan.columns, each.plan.substrings)))


def _judged(plan: Plan, figures: PlanFacts, wanted: Preferences) -> Ranked:
    parts = (
        *_leads_part(figures, wanted),
        *_aspect_part(figures, wanted),
        *_span_part(figures, wanted),
        ("columns", -3.0 * plan.columns, f"{plan.columns} columns end on bus ribbons"),
        *_diode_part(figures, wanted),
        *_glass_part(figures, wanted),
        *_limit_parts(figures, wanted),
    )
    return Ranked(plan, figures, parts, _sentence(plan, figures, parts, wanted.units))


Parts = tuple[tuple[str, float, str], ...]


def sides_told(one_mm: float, other_mm: float, units: Units) -> str:
    """Two sides in words; inches to 1/32 with the millimetres beside.

    >>> sides_told(1930.4, 711.2, "metric"), sides_told(1930.4, 711.2, "us")
    ('1930 x 711 mm', '76 x 28\\u2009in (1930 x 711 mm)')
    """
    millimetres = f"{one_mm:.0f} x {other_mm:.0f} mm"
    if units == "metric":
        return millimetres
    one, other = (show(side, "mm", units).partition(" (")[0] for side in (one_mm, other_mm))
    return f"{one.removesuffix('in').rstrip()} x {other} ({millimetres})"


def _span_part(figures: PlanFacts, wanted: Preferences) -> Parts:
    side = f"{figures.short_mm:.0f} mm"
    if wanted.units == "us":
        side = show(figures.short_mm, "mm", wanted.units)
    return (("span", -figures.short_mm / 25, f"the pane is {side} at its narrower side"),)


def _leads_part(figures: PlanFacts, wanted: Preferences) -> Parts:
    if figures.leads_one_end:
        return ()
    points = -100.0 if wanted.leads_one_end else -15.0
    return (("leads", points, "the leads come out at opposite ends"),)


def _aspect_part(figures: PlanFacts, wanted: Preferences) -> Parts:
    over = max(0.0, figures.aspect - wanted.most_aspect, wanted.least_aspect - figures.aspect)
    if over <= 0:
        return ()
    return (("aspect", -10 * over**2, f"the pane is {figures.aspect:.1f} times as long as wide"),)


def _diode_part(figures: PlanFacts, wanted: Preferences) -> Parts:
    over = figures.cells_a_diode - wanted.most_cells_a_diode
    spare = -figures.cells_a_diode / wanted.most_cells_a_diode  # fewer diodes where both are enough
    if over <= 0:
        return (("diodes", -1.0 - spare, f"a diode for every {figures.cells_a_diode} cells"),)
    return (("diodes", -POINTS_TOO_MANY - 2.0 * over, f"{figures.cells_a_diode} cells lie under one diode"),)


def _glass_part(figures: PlanFacts, wanted: Preferences) -> Parts:
    """The stock sheet with least waste, as it is or turned."""
    if not wanted.stock_glass_mm:
        return ()
    fitting = [
        (1 - figures.area_m2 * 1e6 / (long * short), long, short)
        for long, short in wanted.stock_glass_mm
        if figures.long_mm <= long and figures.short_mm <= short
    ]
    if not fitting:
        return (("glass", -25.0, "no stock sheet is large enough: the glass is made to order"),)
    waste, long, short = min(fitting)
    pane = sides_told(long, short, wanted.units)
    return (("glass", -20 * waste, f"the next stock pane, {pane}, is {waste:.0%} too large"),)


def _limit_parts(figures: PlanFacts, wanted: Preferences) -> Parts:
    mass = figures.area_m2 * wanted.glass_kg_m2
    limits = (
        (figures.long_mm, wanted.most_long_mm, "mm", "long"),
        (figures.short_mm, wanted.most_short_mm, "mm", "wide"),
        (mass, wanted.most_mass_kg, "kg", "of glass"),
    )
    return tuple(
        ("limits", -1000.0, _past(value, limit, unit, what, units=wanted.units))
        for value, limit, unit, what in limits
        if limit is not None and value > limit * (1 + 1e-12)
    )


def _past(value: float, limit: float, unit: str, what: str, *, units: Units) -> str:
    if units == "metric":
        return f"{value:.0f} {unit} {what}, {limit:.0f} at most"
    return f"{show(value, unit, units)} {what}, {show(limit, unit, units)} at most"


def _sentence(plan: Plan, figures: PlanFacts, parts: Parts, units: Units) -> str:
    strings = "" if plan.strings == 1 else f" in {plan.strings} strings"
    size = sides_told(figures.pane_width_mm, figures.pane_height_mm, units)
    leads = "both leads at one end" if figures.leads_one_end else "a lead at each end"
    against = [
        reason for name, points, reason in parts if name in {"limits", "aspect", "glass"} and points <= -3
    ]
    columns = "column" if plan.columns == 1 else "columns"
    count = plan.substrings * plan.strings
    diodes, each = ("one diode", "") if count == 1 else (f"{count} diodes", " each")
    words = (
        f"{plan.columns} {columns} of {plan.rows}{strings}: pane {size}, {leads}, {diodes} over "
        f"{figures.cells_a_diode} cells{each}, silicon on {figures.silicon_share:.0%}"
    )
    return f"{words}; but {'; '.join(against)}." if against else f"{words}."
