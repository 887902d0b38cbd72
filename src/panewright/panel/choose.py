"""One order becomes one design: rooms judge, this room ranks and picks."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import Literal

from panewright.circuit.maxima import key_points
from panewright.circuit.network import Network
from panewright.circuit.trace import Curve, trace
from panewright.climate.site import RAILS_MM, Site, Size
from panewright.climate.snow.snow import SnowLoad, snow_pressure
from panewright.climate.wind.load import WindLoad, wind_pressures
from panewright.enclosure.bypass import choose_bypass
from panewright.enclosure.junction import Bypassing, judge_junction
from panewright.enclosure.rating import label_fuse_a
from panewright.frame.support.bracket import Bracket
from panewright.glass.strength.survival import survive
from panewright.order.order import Order
from panewright.panel.closed import Asking, Closing, close
from panewright.panel.closing import amounts_of, closed_by, mass_of
from panewright.panel.corner_ways import broken_at_corners, corner_checks, holds_better, other_ways
from panewright.panel.design import Design, Electrical, Label, PanelCurve, Structural
from panewright.panel.electric import electrical
from panewright.panel.electric.hot import Hot, judge_hot
from panewright.panel.electric.lot import lot_loss
from panewright.panel.electric.wiring import Unlike, Wired, network_at
from panewright.panel.holding.cornered import joint_of, with_clip, with_holding_clip
from panewright.panel.holding.growing import growth_of
from panewright.panel.holding.mounted import bracket_of, mounted, whole, with_bracket
from panewright.panel.holding.touched import doubtful_touches
from panewright.panel.layers import is_as_usual
from panewright.panel.poured import Poured, poured_of
from panewright.panel.proving import LEAD_MM2, Proved, all_checks
from panewright.panel.revision import revision
from panewright.panel.serials import serials
from panewright.panel.settling import Asked, Taken, settle
from panewright.panel.weighed.weighing import weighed
from panewright.panel.weighed.weighing_closing import weighed_closing
from panewright.panel.weighed.weighing_corners import weighed_corners
from panewright.shelf.shelf import Shelf
from panewright.structure.drilling.fixing import Joint
from panewright.structure.drilling.frame_plan import FramePlan, plan_frame
from panewright.structure.mass import Mass
from panewright.structure.sundries import Amounts
from panewright.units import MM

LOW_LIGHT_W_M2 = 200.0
_SIZES = 4  # an end for rounds in which the size and the wind on it chase each other
_POINTS = 101  # of each curve
NO_LINE = Curve((), ())  #: of a curve that nobody draws
Designed = tuple[Design, Taken, tuple[Network, ...]]  #: with what was settled, and the circuit in each state
Condition = tuple[Literal["STC", "hot", "low light"], float, float]


def design_panel(order: Order, shelf: Shelf, unlike: tuple[Unlike, ...] = ()) -> Design:
    """The whole design of one order, from parts of one shelf; of a panel that is built, its own cells."""
    brief, taken, networks = _designed(_asked(order, shelf), unlike)
    drawn = tuple(
        replace(each, curve=trace(network, _POINTS))
        for each, network in zip(brief.electrical.curves, networks, strict=True)
    )
    tests = survive(brief.structural.pane, order.site.family, order.parts.held)
    return replace(
        brief,
        revision=revision(order, shelf),
        electrical=replace(brief.electrical, curves=drawn),
        structural=replace(brief.structural, pane_tests=tests),
        weighed=(
            *weighed(order, taken.study, taken.held, taken.tabs, taken.buses),
            weighed_corners(brief.order, taken.held, brief.structural.mass.total_kg, shelf),
            *weighed_closing(order, brief.closing),
        ),
    )


def design_briefly(order: Order, shelf: Shelf) -> Design:
    """The same choices and the same verdict, without what only pages show: for many designs at once.

    Left empty are the revision, the lines of the curves, type tests of the pane, and what was weighed; of the
    curves only that at STC is there. Checks
    of hands and knees are left out where a pane is sure to hold them by far, or where another check fails by
    more than they can.
    """
    return _touched(_designed(replace(_asked(order, shelf), brief=True), ())[0])


def _touched(brief: Design) -> Design:
    """With hands and knees on its pane, where they may be what it fails by most."""
    parts, proof = brief.order.parts, brief.structural.pane_proof
    if parts.sheet is None:  # they had their say in its choice
        return brief
    worst = max(check.utilisation for check in brief.checks)
    asked = doubtful_touches(brief.structural.pane, brief.order.site.family, parts, max(1.0, worst))
    if not asked:
        return brief
    after = brief.checks.index(proof.checks[-1]) + 1
    return replace(
        brief,
        checks=(*brief.checks[:after], *asked, *brief.checks[after:]),
        structural=replace(brief.structural, pane_proof=replace(proof, checks=(*proof.checks, *asked))),
    )


def _designed(asked: Asked, unlike: tuple[Unlike, ...]) -> Designed:
    """With corners that hold, where the order leaves open how rails meet."""
    first = _settled(asked)
    usual = _behind(asked, unlike, first)
    broken = broken_at_corners(usual[0].checks)
    if not broken:
        return usual
    for order in other_ways(asked.order, broken[0]):
        way = replace(asked, order=order)
        settled = _settled_again(way, first, usual[0])
        mass_kg, fastener = usual[0].structural.mass.total_kg, order.parts.corner_fastener
        if broken_at_corners(corner_checks(settled[1].held, fastener, mass_kg, asked.shelf)):
            continue  # it is not worth the rest of a design
        tried = _behind(way, unlike, settled)
        if holds_better(tried[0].checks, usual[0].checks):
            return tried
    return usual


def _settled_again(way: Asked, first: tuple[Asked, Taken], usual: Design) -> tuple[Asked, Taken]:
    """Another fastener changes nothing of what is settled; lapped rails bend otherwise."""
    if way.order.parts.corner == usual.order.parts.corner:
        return replace(first[0], order=way.order), first[1]
    return _settled(way)


def _behind(asked: Asked, unlike: tuple[Unlike, ...], settled: tuple[Asked, Taken]) -> Designed:
    """Where another back is taken than heat and light were reckoned with, once more behind the one taken."""
    first = _designed_once(asked, unlike, settled)
    order, back = asked.order, first[0].closing.back
    if is_as_usual(order, back):
        return first
    behind = replace(asked, order=replace(order, parts=replace(order.parts, back=back)))
    design, taken, networks = _designed_once(behind, unlike, _settled(behind))
    return replace(design, order=order), taken, networks


def _designed_once(asked: Asked, unlike: tuple[Unlike, ...], settled: tuple[Asked, Taken]) -> Designed:
    """The design without what only pages show, what was settled, and the circuit in each condition."""
    order, shelf = asked.order, asked.shelf
    asked, taken = settled
    wired = _wired(asked, taken, unlike)
    curves, networks = _curves(wired, _conditions(asked, taken))
    poured = poured_of(order, taken.layup, taken.held, wired, shelf)
    pour = poured[0].pour if poured else None
    frame, amounts, closing = _joined(asked, taken, wired, poured, curves[0].points.isc_a)
    bracket = _bracket(asked, taken, wired, frame, amounts)
    amounts = with_bracket(amounts, bracket, shelf)
    hot = judge_hot(wired, networks[0], taken.weather.heat, order.parts.encapsulation)
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


def _asked(order: Order, shelf: Shelf) -> Asked:
    """What the site does; the rail stands above the pane's low edge, so snow does not slide off."""
    return Asked(order, shelf, *_weather(order.site), electrical.read_cells(order))


@lru_cache(maxsize=8)
def _weather(site: Site) -> tuple[WindLoad, SnowLoad]:
    """Kept, for sizes of one catalogue stand on one site."""
    return wind_pressures(site), snow_pressure(site, free_to_slide=False)


def _settled(first: Asked) -> tuple[Asked, Taken]:
    """The lay-up settled; where the wind asks for its size, settled again under the wind on that size."""
    asked, taken = first, settle(first)
    if not first.order.site.by_roof_rule:
        return asked, taken
    size = _size(taken)
    for _ in range(_SIZES):
        asked = replace(first, wind=wind_pressures(first.order.site, size))
        taken = settle(asked)
        found = _size(taken)
        if found.area_m2 >= size.area_m2 and found.long_mm <= size.long_mm:
            break
        size = Size(min(size.area_m2, found.area_m2), max(size.long_mm, found.long_mm))
    return asked, taken


def _size(taken: Taken) -> Size:
    """The pane's area, and its long side up the slope with the rails round it."""
    pane = taken.held.pane
    return Size(pane.long_mm * pane.short_mm * MM**2, pane.long_mm + RAILS_MM)


def _wired(asked: Asked, taken: Taken, unlike: tuple[Unlike, ...]) -> Wired:
    """The lay-up with its ribbons, and a bypass diode wherever one is needed or there are several."""
    order, plan = asked.order, taken.layup.plan
    asks = _bypassing(asked, taken)
    bypass = choose_bypass(
        tuple(row.part for row in asked.shelf.bypasses),
        electrical.guarded(asked.cells, plan.cells_a_diode),
        always=plan.substrings > 1,
        cool=lambda diode: all(each.passed for each in judge_junction(diode, asks).checks),
    )
    run = electrical.tab_run(order, plan.cell_gap_mm)
    tab, bus = taken.tabs[0].strip, taken.buses[0].strip
    return Wired(taken.layup, asked.cells.models, tab, bus, run, bypass, taken.light, unlike)


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


def _bracket(asked: Asked, taken: Taken, wired: Wired, frame: FramePlan, amounts: Amounts) -> Bracket:
    """The bracket, from the mass of a panel on the shelf's first ones."""
    mass = mass_of(taken.held, frame, taken.layup, wired, amounts, asked.shelf)
    drift = taken.held.loads.drift
    seen = whole(asked.order, taken.weather, frame, mass.total_kg, drift=drift)
    return bracket_of(asked.order, taken.held, frame, seen, asked.shelf)


def _joined(
    asked: Asked, taken: Taken, wired: Wired, poured: tuple[Poured, ...], isc_a: float
) -> tuple[FramePlan, Amounts, Closing]:
    """The frame on corner clips that hold: first with the shelf's first clip, for the panel's mass."""
    order, held, shelf = asked.order, taken.held, asked.shelf
    pour = poured[0].pour if poured else None

    def with_joint(chosen: Joint | None) -> tuple[FramePlan, Amounts, Closing]:
        frame = _frame(order, taken, chosen)
        amounts = amounts_of(order, taken.layup, held, frame, pour, wired, isc_a)
        closing = close(_closing(asked, taken, wired, frame, isc_a, amounts.diodes), poured)
        amounts = replace(amounts, closed=closed_by(order, shelf, closing))
        return frame, with_clip(amounts, shelf), closing

    first = joint_of(order.parts.corner_fastener, shelf)
    frame, amounts, closing = with_joint(first)
    mass = mass_of(held, frame, taken.layup, wired, amounts, shelf)
    chosen = with_holding_clip(held, first, mass.total_kg, shelf)
    return (frame, amounts, closing) if chosen == first else with_joint(chosen)


def _closing(asked: Asked, taken: Taken, wired: Wired, frame: FramePlan, isc_a: float, diodes: int) -> Asking:
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
        diodes=diodes,
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
