"""Which ribbon: every candidate with what it loses and costs, in order of merit.

A wider or thicker tab resists less, a wider one shades more, a thicker one pulls harder on the brittle
wafer when the copper cools from the iron, and more copper costs more. With prices, merit is money: the ribbon
of a cell and the watts it loses, each watt at what it costs to make good. Without prices, merit is watts.

A bus lies beside the silicon: it shades nothing, but a wide one asks for a longer pane. With prices the one
that costs least with its watts and its room is the best; without, the lightest that keeps the loss small. How
hard a stiff bus pulls at the last joints of a column when the glass grows is not weighed.

Two guides below are common practice of the trade without a source: a tab no thicker than 0.25 mm on
wafers of 0.2 mm or more and 0.2 mm on thinner ones, and hardly wider than the busbar it is soldered to.
Beside the first stands what the wafer itself bears, by `stress`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from panewright.check import Check
from panewright.ribbon.bus import BusRun, buses_equivalent_ohm
from panewright.ribbon.cell import TabbedCell, Worth
from panewright.ribbon.count import TabCount, judge_counts
from panewright.ribbon.resistance import kg_per_m, tab_length_mm, tab_loss
from panewright.ribbon.shadow import shaded_mm2, shaded_share
from panewright.ribbon.stress import end_mpa, one_face, stress_checks
from panewright.ribbon.strip import Strip
from panewright.units import MM

__all__ = ["BusRow", "BusedPanel", "TabRow", "TabbedCell", "Worth", "judge_buses", "judge_tabs"]

PRACTICE = "common practice of the trade, no source"
WIDTH_TOLERANCE_MM = 0.5  #: a tab may be wider than its busbar by this much
BUS_LOSS_SHARE = 0.01  #: of the panel's power, lost in all its bus ribbon together


@dataclass(frozen=True, slots=True)
class TabRow:
    """One candidate for the tabs and what it costs a cell."""

    strip: Strip
    resistance_w: float
    shadow_w: float
    equivalent_ohm: float  #: in series with the cell
    metres: float  #: of ribbon a cell
    mass_kg: float  #: of ribbon a cell
    bow_mm: float  #: of a cell tabbed on one face only, at the bench
    end_mpa: float  #: stretch of the wafer ahead of a tab's end
    counts: tuple[TabCount, ...]  #: every number of tabs the busbars allow, the most first
    merit: float  #: the lower the better: watts, or money where prices were given
    checks: tuple[Check, ...]
    price: float | None = None  #: of a cell's ribbon, where prices were given

    @property
    def money(self) -> float | None:
        """Ribbon, lost watts and room in one figure; None without prices."""
        return None if self.price is None else self.merit

    @property
    def fewer(self) -> TabCount | None:
        """One busbar left without a tab; None where there is but one."""
        return self.counts[1] if len(self.counts) > 1 else None

    @property
    def total_w(self) -> float:
        """Resistance and shadow together, of one cell. [W]"""
        return self.resistance_w + self.shadow_w

    def shaded(self, pmp_w: float) -> float:
        """Share of a cell's light that the tabs take, by its power. [-]"""
        return self.shadow_w / pmp_w

    @property
    def passed(self) -> bool:
        """Whether the guides of the trade are kept and the wafer bears it."""
        return all(check.passed for check in self.checks)


@dataclass(frozen=True, slots=True)
class BusRow:
    """One candidate for the bus ribbons and what it costs the panel."""

    strip: Strip
    equivalent_ohm: float  #: all pieces of bus in series with the panel
    loss_w: float
    share: float  #: of the panel's power
    drop_v: float
    density_a_mm2: float  #: current over the section of the copper
    metres: float
    mass_kg: float
    merit: float  #: the lower the better: mass, or money where prices were given
    checks: tuple[Check, ...]
    price: float | None = None  #: of all bus ribbon, where prices were given

    @property
    def money(self) -> float | None:
        """Ribbon, lost watts and room in one figure; None without prices."""
        return None if self.price is None else self.merit

    @property
    def passed(self) -> bool:
        """Whether the loss stays within the share allowed."""
        return all(check.passed for check in self.checks)

    def string_ohm(self, strings: int) -> float:
        """As one of so many strings feels it: the others' current runs there too. [ohm]"""
        return strings * self.equivalent_ohm


def thickness_check(strip: Strip, wafer_mm: float) -> Check:
    """A tab is not thicker than a brittle wafer bears."""
    return Check(
        rule="tab not too thick for the wafer",
        demand=strip.thickness_mm,
        limit=0.25 if wafer_mm >= 0.2 - 1e-9 else 0.2,
        unit="mm",
        source=PRACTICE,
        cure="Take a thinner, wider tab: a thick one cracks the cell as it cools.",
        room="ribbon",
    )


def width_check(strip: Strip, busbar_width_mm: float) -> Check:
    """A tab is hardly wider than the busbar it lies on."""
    return Check(
        rule="tab not wider than the busbar",
        demand=strip.width_mm,
        limit=busbar_width_mm + WIDTH_TOLERANCE_MM,
        unit="mm",
        source=PRACTICE,
        cure="Take a narrower tab: beside the busbar it shades the cell and holds nothing.",
        room="ribbon",
    )


def judge_tab(strip: Strip, cell: TabbedCell, temperature_c: float = 20.0) -> TabRow:
    """One candidate on one cell; its merit is the watts a cell loses."""
    run = cell.run
    lost = tab_loss(strip, run, cell.imp_a, temperature_c).total_w
    covered_mm = run.length_mm - run.front_bare_mm
    shaded = shaded_mm2(strip, run.busbars, cell.busbar_width_mm, covered_mm)
    shadow = cell.pmp_w * shaded_share(shaded, cell.area_mm2)
    metres = tab_length_mm(run) * MM
    pull = one_face(strip, cell.wafer)
    return TabRow(
        strip=strip,
        resistance_w=lost,
        shadow_w=shadow,
        equivalent_ohm=tab_loss(strip, run, 1.0, temperature_c).total_w,
        metres=metres,
        mass_kg=metres * kg_per_m(strip),
        bow_mm=pull.bow_mm,
        end_mpa=end_mpa(strip, cell.wafer, pull.force_n),
        counts=judge_counts(strip, cell, temperature_c),
        merit=lost + shadow,
        checks=(
            thickness_check(strip, cell.wafer_mm),
            width_check(strip, cell.busbar_width_mm),
            *stress_checks(strip, cell.wafer),
        ),
    )


def judge_tabs(
    strips: Sequence[Strip], cell: TabbedCell, temperature_c: float = 20.0, worth: Worth | None = None
) -> tuple[TabRow, ...]:
    """All candidates, best first: those which pass, then by watts lost or, with prices, by money."""
    rows = [judge_tab(strip, cell, temperature_c) for strip in strips]
    if worth is not None:
        rows = [
            _priced_tab(row, price, worth.per_watt) for row, price in zip(rows, worth.per_metre, strict=True)
        ]
    return tuple(sorted(rows, key=lambda row: (not row.passed, row.merit)))


def _priced_tab(row: TabRow, per_metre: float, per_watt: float) -> TabRow:
    price = row.metres * per_metre
    return replace(row, price=price, merit=price + row.total_w * per_watt)


@dataclass(frozen=True, slots=True)
class BusedPanel:
    """All bus ribbon of a panel, and the panel's figures at STC."""

    runs: tuple[BusRun, ...]
    current_a: float  #: at maximum power, all strings together
    pmp_w: float
    most_share: float = BUS_LOSS_SHARE
    shares: tuple[float, ...] = ()  #: of the current, that each run carries; none where all carry the whole
    far_mm: float = 0.0  #: of leads' tails that run along the back to the box

    def __post_init__(self) -> None:
        if self.shares and len(self.shares) != len(self.runs):
            raise ValueError(f"{len(self.runs)} runs of bus need as many shares, got {len(self.shares)}")

    @property
    def is_mostly_tail(self) -> bool:
        """Whether more ribbon runs along the back to the box than lies on the pane."""
        return self.far_mm > sum(run.on_pane_mm for run in self.runs)


def bus_check(share: float, most_share: float, *, mostly_tail: bool = False) -> Check:
    """The bus ribbons lose no more than a small share of the panel's power."""
    cure = "Take a wider or thicker bus ribbon, or lay two on each other."
    tail = (
        "Most of it is lost in the far lead's tail along the back to the box: an even number of columns for "
        "each string brings both leads to one end. Or take"
    )
    return Check(
        rule="power lost in the bus ribbons",
        demand=100 * share,
        limit=100 * most_share,
        unit="%",
        source=PRACTICE,
        cure=cure.replace("Take", tail) if mostly_tail else cure,
        room="ribbon",
    )


def judge_bus(strip: Strip, panel: BusedPanel, temperature_c: float = 20.0) -> BusRow:
    """One candidate for all bus ribbons of a panel; its merit is its mass."""
    shares = panel.shares or (1.0,) * len(panel.runs)
    ohm = buses_equivalent_ohm(strip, panel.runs, temperature_c, shares)
    loss = panel.current_a**2 * ohm
    metres = sum(run.length_mm for run in panel.runs) * MM
    mass = metres * kg_per_m(strip)
    return BusRow(
        strip=strip,
        equivalent_ohm=ohm,
        loss_w=loss,
        share=loss / panel.pmp_w,
        drop_v=panel.current_a * ohm,
        density_a_mm2=panel.current_a / (strip.width_mm * strip.thickness_mm),
        metres=metres,
        mass_kg=mass,
        merit=mass,
        checks=(bus_check(loss / panel.pmp_w, panel.most_share, mostly_tail=panel.is_mostly_tail),),
    )


def judge_buses(
    strips: Sequence[Strip], panel: BusedPanel, temperature_c: float = 20.0, worth: Worth | None = None
) -> tuple[BusRow, ...]:
    """All candidates: those which lose little enough, best first; then the rest, least loss first."""
    rows = [judge_bus(strip, panel, temperature_c) for strip in strips]
    if worth is not None:
        on_pane_m = sum(run.on_pane_mm for run in panel.runs) * MM
        rows = [
            _priced_bus(row, price, worth, on_pane_m)
            for row, price in zip(rows, worth.per_metre, strict=True)
        ]
    return tuple(sorted(rows, key=lambda row: (not row.passed, row.merit if row.passed else row.loss_w)))


def _priced_bus(row: BusRow, per_metre: float, worth: Worth, on_pane_m: float) -> BusRow:
    """A tail costs ribbon and watts, but no room on the pane."""
    price, room_m2 = row.metres * per_metre, on_pane_m * row.strip.width_mm * MM
    return replace(row, price=price, merit=price + row.loss_w * worth.per_watt + room_m2 * worth.per_m2)
