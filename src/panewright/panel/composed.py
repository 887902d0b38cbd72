"""One design on what was settled: its circuit, frame, corners and closing, and every check."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import Literal

from panewright.circuit.maxima import key_points
from panewright.circuit.network import Network
from panewright.circuit.trace import Curve
from panewright.climate.heat import Encapsulation, Temperatures
from panewright.enclosure.bypass import Bypass, choose_bypass
from panewright.enclosure.junction import Bypassing, judge_junction
from panewright.enclosure.rating import label_fuse_a
from panewright.frame.support.bracket import Bracket
from panewright.order.order import Order
from panewright.panel.closed import Asking, Closing, close
from panewright.panel.closing import amounts_of, closed_by, diodes_of, mass_of
from panewright.panel.design import Design, Electrical, Label, PanelCurve, Structural
from panewright.panel.electric import electrical
from panewright.panel.electric.hot import Hot, judge_hot
from panewright.panel.electric.lot import lot_loss
from panewright.panel.electric.wiring import Unlike, Wired, network_at
from panewright.panel.holding.cornered import joint_of, with_clip, with_holding_clip
from panewright.panel.holding.growing import growth_of
from panewright.panel.holding.mounted import bracket_of, mounted, whole, with_bracket
from panewright.panel.poured import Poured, poured_of
from panewright.panel.proving import LEAD_MM2, Proved, all_checks
from panewright.panel.serials import serials
from panewright.panel.settling import Asked, Taken
from panewright.structure.corners.handled import with_clips_kg
from panewright.structure.drilling.fixing import Joint
from panewright.structure.drilling.frame_plan import FramePlan, plan_frame
from panewright.structure.mass import Mass
from panewright.structure.sundries import Amounts

LOW_LIGHT_W_M2 = 200.0
NO_LINE = Curve((), ())  #: of a curve that nobody draws
Designed = tuple[Design, Taken, tuple[Network, ...]]  #: with what was settled, and the circuit in each state
Joined = tuple[FramePlan, Amounts, Closing]  #: a frame on its clips, and what closes it
Condition = tuple[Literal["STC", "hot", "low light"], float, float]


def composed(asked: Asked, unlike: tuple[Unlike, ...], on: tuple[Asked, Taken]) -> Designed:
    """The design without what only pages show, what was settled, and the circuit in each condition."""
    order, shelf = asked.order, asked.shelf
    asked, taken = on
    wired = _wired(asked, taken, unlike)
    heat, behind = taken.weather.heat, order.parts.encapsulation
    curves, networks, hot = _at_work(wired, _conditions(asked, taken), heat, behind)
    poured = poured_of(order, taken.layup, taken.held, wired, shelf)
    pour = poured[0].pour if poured else None
    frame, amounts, closing, mass_kg = _joined(asked, taken, wired, poured, curves[0].points.isc_a)
    bracket = _bracket(asked, taken, frame, mass_kg)
    amounts = with_bracket(amounts, bracket, shelf)
    proved = _proved(asked, taken, wired, frame, closing, amounts, curves[0], hot, bracket)
    label = _label(order, taken, curves[0], proved.mass)
    design = Design(
        order=order,
        revision="",
        electrical=_electrical(asked, taken, wired, curves, networks[0], hot),
        layup=taken.layup,
        pour=pour,
        closing=closing,
        structural=_structural(taken, proved),
        label=label,
        amounts=amounts,
        weighed=(),
        checks=all_checks(proved, taken.tabs[0], taken.buses[0], label),
    )
    return design, taken, networks


def _wired(asked: Asked, taken: Taken, unlike: tuple[Unlike, ...]) -> Wired:
    """The lay-up with its ribbons and its bypass diode."""
    run = electrical.tab_run(asked.order, taken.layup.plan.cell_gap_mm)
    tab, bus, bypass = taken.tabs[0].strip, taken.buses[0].strip, _bypass(asked, taken)
    return Wired(taken.layup, asked.cells.models, tab, bus, run, bypass, taken.light, unlike)


def _bypass(asked: Asked, taken: Taken) -> Bypass | None:
    """A diode where one is needed or ordered, or there are several; none in a panel built without."""
    plan, asks = taken.layup.plan, _bypassing(asked, taken)
    kept = tuple(row.part for row in asked.shelf.bypasses)
    if plan.substrings == 1 and not kept:
        return None
    return choose_bypass(
        kept,
        electrical.guarded(asked.cells, plan.cells_a_diode),
        always=plan.substrings > 1 or asked.order.wishes.substrings is not None,
        cool=lambda diode: all(each.passed for each in judge_junction(diode, asks).checks),
    )


@lru_cache(maxsize=2)
def _at_work(
    wired: Wired, conditions: tuple[Condition, ...], heat: Temperatures, behind: Encapsulation
) -> tuple[tuple[PanelCurve, ...], tuple[Network, ...], Hot]:
    """Its curves, circuits and hottest cell; kept, for other corners change none of it."""
    curves, networks = _curves(wired, conditions)
    return curves, networks, judge_hot(wired, networks[0], heat, behind)


def _curves(
    wired: Wired, conditions: tuple[Condition, ...]
) -> tuple[tuple[PanelCurve, ...], tuple[Network, ...]]:
    """The panel's key points in each condition, their lines not yet drawn, and its circuits."""
    networks = tuple(network_at(wired, sun, cell_c) for _, sun, cell_c in conditions)
    curves = tuple(
        PanelCurve(*condition, key_points(network), NO_LINE)
        for condition, network in zip(conditions, networks, strict=True)
    )
    return curves, networks


def _conditions(asked: Asked, taken: Taken) -> tuple[Condition, ...]:
    """Name, irradiance [W/m2] and heat of the cells [degC]; STC first, and alone where that is enough."""
    stc_c, full, hot_c = electrical.STC_C, electrical.STC_W_M2, taken.weather.heat.hot_cell_c
    if asked.brief:
        return (("STC", full, stc_c),)
    return ("STC", full, stc_c), ("hot", full, hot_c), ("low light", LOW_LIGHT_W_M2, stc_c)


def _proved(
    asked: Asked,
    taken: Taken,
    wired: Wired,
    frame: FramePlan,
    closing: Closing,
    amounts: Amounts,
    stc: PanelCurve,
    hot: Hot,
    bracket: Bracket,
) -> Proved:
    """Mass, and with it all that the checks are held against."""
    held, layup = taken.held, taken.layup
    mass = mass_of(held, frame, layup, wired, amounts, asked.shelf)
    seen = whole(asked.order, taken.weather, frame, mass.total_kg, drift=held.loads.drift)
    mounting = mounted(asked.order, held, frame, seen, bracket=bracket, shelf=asked.shelf)
    return Proved(
        asked.order,
        taken.weather,
        asked.cells,
        taken.study,
        held,
        layup,
        frame,
        mass,
        mounting,
        closing,
        wired,
        stc.points,
        hot,
    )


def _bracket(asked: Asked, taken: Taken, frame: FramePlan, mass_kg: float) -> Bracket:
    """The bracket, from the mass of a panel on the shelf's first ones."""
    seen = whole(asked.order, taken.weather, frame, mass_kg, drift=taken.held.loads.drift)
    return bracket_of(asked.order, taken.held, frame, seen, asked.shelf)


def _joined(
    asked: Asked, taken: Taken, wired: Wired, poured: tuple[Poured, ...], isc_a: float
) -> tuple[FramePlan, Amounts, Closing, float]:
    """The frame on corner clips that hold, and the panel's mass: first with the shelf's first clip.

    Another clip moves holes; what closes the panel hangs on them only where a board is screwed to the frame.
    Of the mass it changes its own alone.
    """
    order, held, shelf = asked.order, taken.held, asked.shelf

    def with_joint(chosen: Joint | None, known: Closing | None) -> Joined:
        frame = _frame(order, taken, chosen)
        closing = known or close(_closing(asked, taken, wired, frame, isc_a), poured)
        amounts = amounts_of(order, taken.layup, held, frame, closing, wired, isc_a)
        amounts = replace(amounts, closed=closed_by(order, shelf, closing))
        return frame, with_clip(amounts, shelf), closing

    first = joint_of(order.parts.corner_fastener, shelf)
    frame, amounts, closing = with_joint(first, None)
    mass_kg = mass_of(held, frame, taken.layup, wired, amounts, shelf).total_kg
    chosen = with_holding_clip(held, first, mass_kg, shelf)
    if first is None or chosen is None or chosen == first:
        return frame, amounts, closing, mass_kg
    frame, amounts, closing = with_joint(chosen, None if closing.screwed else closing)
    return frame, amounts, closing, with_clips_kg(mass_kg, first.clip, chosen.clip)


def _closing(asked: Asked, taken: Taken, wired: Wired, frame: FramePlan, isc_a: float) -> Asking:
    """What the rooms that close a panel are asked with."""
    ribbon = max(wired.tab, wired.bus, key=lambda strip: strip.thickness_mm)
    return Asking(
        order=asked.order,
        shelf=asked.shelf,
        weather=taken.weather,
        held=taken.held,
        frame=frame,
        ribbon=ribbon,
        bypass=wired.bypass,
        bypassing=_bypassing(asked, taken),
        diodes=diodes_of(wired),
        isc_a=isc_a,
        system_v=taken.system_v,
        lead_mm2=LEAD_MM2,
    )


def _bypassing(asked: Asked, taken: Taken) -> Bypassing:
    count = taken.layup.plan.cells_a_diode
    return electrical.bypassing(asked.cells, count, taken.weather.heat, taken.light)


def _frame(order: Order, taken: Taken, joint: Joint | None) -> FramePlan:
    held, layup = taken.held, taken.layup
    return plan_frame(
        held.pane,
        held.bead.bead,
        held.rail,
        held.frame.brackets,
        upright=layup.pane_height_mm >= layup.pane_width_mm,
        corner=order.parts.corner,
        joint=joint,
        growth=growth_of(order, held, taken.weather),
        board=order.parts.encapsulation == "air gap",
    )


def _label(order: Order, taken: Taken, stc: PanelCurve, mass: Mass) -> Label:
    points = stc.points
    return Label(
        pmp_w=points.power_w,
        voc_v=points.voc_v,
        isc_a=points.isc_a,
        vmp_v=points.vmp_v,
        imp_a=points.imp_a,
        fuse_a=label_fuse_a(points.isc_a),
        system_v=taken.system_v,
        mass_kg=mass.total_kg,
        serials=serials(order.job.first_serial, order.job.panels),
    )


def _electrical(
    asked: Asked, taken: Taken, wired: Wired, curves: tuple[PanelCurve, ...], network: Network, hot: Hot
) -> Electrical:
    strings = taken.layup.plan.strings
    return Electrical(
        models=asked.cells.models,
        string=taken.study,
        tab=wired.tab,
        bus=wired.bus,
        tab_loss=electrical.loss_of(wired.tab, wired.run, curves[0].points.imp_a, strings),
        bypass=wired.bypass,
        light=wired.light,
        unlike=wired.unlike,
        network=network,
        curves=curves,
        hot=hot,
        lot=lot_loss(network, asked.order.cell.spread),
    )


def _structural(taken: Taken, proved: Proved) -> Structural:
    held, weather = taken.held, taken.weather
    return Structural(
        temperatures=weather.heat,
        wind=weather.wind,
        snow=weather.snow,
        loads=held.loads,
        pane=held.pane,
        pane_proof=held.panes.chosen.proof,
        pane_tests=(),
        sheets=tuple(row.pane.sheet for row in held.panes.rows),
        bead=held.bead.bead,
        bead_need=held.bead.need,
        rail=held.rail,
        rail_proof=held.frame.long,
        short_rail_proof=held.frame.short,
        frame=proved.frame,
        brackets=held.frame.brackets,
        mass=proved.mass,
        mounting=proved.mounting,
        low=held.low,
    )
