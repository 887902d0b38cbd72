"""Cover, bus ribbon and count of cells, taken in turn until none changes.

The count depends a little on the light and the heat behind the cover and on the bus, the cover on the size
of the pane, the pane on the count and on the width of the bus. A sketch inside a middling rail gives cover,
light and bus to begin with; then whole rounds follow, each from what the one before it took. Where the sketch
foretold what the first round takes, that round is the last.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from panewright.circuit.hot.guard import HeatLimit
from panewright.circuit.string_count import StringAsk, StringStudy
from panewright.climate.heat import Temperatures, temperatures
from panewright.climate.snow.snow import SnowLoad
from panewright.climate.wind.load import WindLoad
from panewright.enclosure.rating import label_system_v
from panewright.glass.pane import Sheet
from panewright.layup.layup import Layup
from panewright.layup.place import lay
from panewright.layup.rank import Ranked
from panewright.layup.room import gap_mm
from panewright.layup.runs import bus_runs, bus_shares
from panewright.order.order import Order
from panewright.panel.electric import electrical
from panewright.panel.electric.hot import heat_limit, most_c
from panewright.panel.electric.light import Lit, light_of, white_of
from panewright.panel.holding.counted import counted as near_counts
from panewright.panel.holding.field import FIRST_GAP_MM, Field, Weather, sheets_for
from panewright.panel.holding.field import plans as plans_of
from panewright.panel.holding.field import rails as rails_of
from panewright.panel.holding.held import Held
from panewright.panel.holding.standing import panes_over
from panewright.panel.holding.structural import hold
from panewright.panel.layers import behind_mm, layers_of
from panewright.ribbon.choice import BusedPanel, BusRow, TabRow
from panewright.ribbon.strip import Strip
from panewright.shelf.shelf import Shelf

_ROUNDS = 6  # one or two are the rule: the last finds nothing changed
_FIRST_LIGHT = 0.9


@dataclass(frozen=True, slots=True)
class Asked:
    """What no round changes."""

    order: Order
    shelf: Shelf
    wind: WindLoad
    snow: SnowLoad
    cells: electrical.Cells
    brief: bool = False  #: whether only what is taken is wanted, not what was weighed beside it

    def weather(self, sheet: Sheet) -> Weather:
        """What the site does to a panel under that sheet."""
        order = self.order
        heat = temperatures(
            order.site,
            layers_of(order, sheet, self.cells),
            order.closing.shop_c,  # pane and frame are joined where the panel is closed
            spot_c=most_c(order.parts.encapsulation),
        )
        return Weather(heat, self.wind, self.snow)

    def heat_limit(self, heat: Temperatures) -> HeatLimit:
        """What a shaded cell may reach."""
        wafer_mm, behind = self.order.cell.shape.thickness_mm, self.order.parts.encapsulation
        return heat_limit(self.cells.least, wafer_mm, heat, behind)

    @property
    def tabs(self) -> tuple[TabRow, ...]:
        """Tabbing ribbons, the best first."""
        pinned = self.order.wishes.cell_gap_mm
        gap = gap_mm(self.order.cell.shape) if pinned is None else pinned
        return electrical.rank_tabs(self.order, self.shelf, self.cells, gap)


@dataclass(frozen=True, slots=True)
class Before:
    """What a round begins with."""

    sheet: Sheet
    bus: Strip
    light: float  #: share of the light that reaches the silicon
    bus_ohm: float  #: of all buses, in one string's line


@dataclass(frozen=True, slots=True)
class Taken:
    """What one round took."""

    study: StringStudy
    weather: Weather  #: under the sheet it began with
    held: Held
    layup: Layup
    tabs: tuple[TabRow, ...]
    buses: tuple[BusRow, ...]
    light: float
    system_v: float

    @property
    def next_round(self) -> Before:
        """What the next round begins with."""
        bus, strings = self.buses[0], self.layup.plan.strings
        return Before(self.held.pane.sheet, bus.strip, self.light, bus.string_ohm(strings))


def settle(asked: Asked) -> Taken:
    """Rounds until nothing changes, or a few at most.

    Two sheets may ask for one another for ever: under the heat of the one the other is lightest. The thicker
    of them is then taken as if the order had asked for it.
    """
    tabs = asked.tabs  # no round changes them
    before = _sketched(asked, tabs[0])
    gone: list[Before] = []
    for _ in range(_ROUNDS):
        taken = _round(asked, tabs, before)
        if taken.next_round == before:
            break
        gone.append(before)
        before = taken.next_round
        if before in gone:
            asked = _with_sheet(asked, [round_.sheet for round_ in gone[gone.index(before) :]])
    return taken


def _with_sheet(asked: Asked, turning: list[Sheet]) -> Asked:
    """The same with the thickest of the sheets that take turns."""
    sheet = max(turning, key=lambda each: each.nominal_mm)
    return replace(asked, order=replace(asked.order, parts=replace(asked.order.parts, sheet=sheet)))


def _sketched(asked: Asked, tab: TabRow) -> Before:
    """Sheet, light and bus of a lay-out inside the middle one of the rails: mostly those that stay."""
    sheet = sheets_for(asked.order, asked.shelf)[0]
    start = Before(sheet, electrical.bus_strip(asked.order, asked.shelf), _FIRST_LIGHT, 0.0)
    field, study = _counted(asked, tab, start)
    gap = asked.order.parts.gap_mm or FIRST_GAP_MM
    rails = rails_of(field)
    ranked = plans_of(field, rails[len(rails) // 2], gap)
    layup = _laid(asked, ranked, tab)
    bus = _buses(asked, layup, study.chosen)[0]
    pinned = asked.order.parts.sheet
    only_which = replace(field, brief=True)  # hands and knees that a sheet surely bears are not reckoned yet
    taken = pinned or panes_over(only_which, ranked[0]).chosen.pane.sheet
    return Before(
        taken, bus.strip, _light(asked, tab.strip, taken, layup), bus.string_ohm(layup.plan.strings)
    )


def _round(asked: Asked, tabs: tuple[TabRow, ...], before: Before) -> Taken:
    """Count, lay-out, frame, cover and bus once."""
    field, study = _counted(asked, tabs[0], before)
    held = hold(field)
    layup = _laid(asked, held.ranked, tabs[0])
    return Taken(
        study=study,
        weather=field.weather,
        held=held,
        layup=layup,
        tabs=tabs,
        buses=_buses(asked, layup, study.chosen),
        light=_light(asked, tabs[0].strip, held.pane.sheet, layup),
        system_v=field.system_v,
    )


def _light(asked: Asked, tab: Strip, sheet: Sheet, layup: Layup) -> float:
    """Share of the light that reaches the silicon behind that sheet. [-]"""
    order = asked.order
    run = electrical.tab_run(order, layup.plan.cell_gap_mm)
    white = white_of(order.parts.back)
    return light_of(Lit(order.cell, sheet, order.parts.encapsulation, tab, run, layup, white)).share


def _counted(asked: Asked, tab: TabRow, before: Before) -> tuple[Field, StringStudy]:
    """The count of cells, and what such a field of cells asks of the pane."""
    weather = asked.weather(before.sheet)
    ask = electrical.ask_for(asked.order, asked.cells, weather.heat, tab, before.light, before.bus_ohm)
    guarded = electrical.cells_a_diode(asked.cells, asked.heat_limit(weather.heat), before.light)
    field = Field(asked.order, asked.shelf, weather, 1, before.bus.width_mm, 0.0, guarded, asked.brief)
    study = _filled(field, ask)
    return _with_count(field, study), study


def _filled(field: Field, ask: StringAsk) -> StringStudy:
    """The study with the count that fills its columns best: its own, or a near one that holds as well."""
    study = electrical.study(ask)
    if field.order.wishes.in_series:
        return study
    # where no count holds both ends, the one that lays out best a little under what the controller bears
    near = study.acceptable or tuple(range(max(1, study.chosen * 7 // 8), study.chosen + 1))
    counted = near_counts(_with_count(field, study), near)
    best = max(counted, key=lambda each: each.merit, default=None)
    if best is None or best.cells == study.chosen:
        return study
    first = counted[0]
    told = first.cells == study.chosen
    own = f"{first.cells} as {first.words}" if told else "the other fills no lay-out as ordered"
    why = f"{best.cells} as {best.words}, {own}"
    return electrical.study(replace(ask, laid_out=best.cells, laid_why=why))


def _with_count(field: Field, study: StringStudy) -> Field:
    row = next(row for row in study.rows if row.cells == study.chosen)
    system_v = label_system_v(row.cold_voc_v, field.order.load.system_v)
    return replace(field, in_series=study.chosen, system_v=system_v)


def _laid(asked: Asked, ranked: tuple[Ranked, ...], tab: TabRow) -> Layup:
    behind = behind_mm(asked.order)
    return lay(ranked[0].plan, asked.order.cell, tab.strip.width_mm, behind_mm=behind)


def _buses(asked: Asked, layup: Layup, in_series: int) -> tuple[BusRow, ...]:
    """Bus ribbons for this lay-out, the best first."""
    strings, points = layup.plan.strings, asked.cells.points
    panel = BusedPanel(
        runs=bus_runs(layup),
        current_a=strings * points.imp_a,
        pmp_w=strings * in_series * points.power_w,
        shares=bus_shares(layup),
        far_mm=sum(tail.way_mm for tail in layup.tails if tail.pole != "between"),
    )
    return electrical.rank_buses(asked.order, asked.shelf, panel)
