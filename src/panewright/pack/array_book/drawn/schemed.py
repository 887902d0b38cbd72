"""A plan as its single-line drawing needs it: what is really there, with its figures in the site's units."""

from __future__ import annotations

from collections.abc import Iterator
from math import isfinite

from panewright.array.limits import string_cold_v, string_hot_v
from panewright.array.plan.legs import BANK, DOWN, STRINGS, leg_of
from panewright.array.plan.plan import Leg, Placed, Plan
from panewright.array.protection import Need
from panewright.order.site.site import Lift
from panewright.pack.array_book.drawn.scheme import Hung, Scheme, Strand, string_sign
from panewright.pack.array_book.saying import flow, heat, say, typed
from panewright.pack.bench import count
from panewright.units import show

DRAWN = {
    "blocking diodes",
    "combiner box",
    "fuse at the battery",
    "disconnect of the panels",
    "disconnect of the battery",
    "isolator at the controller",
    "frames earthed",
    "guard against surges",
}
"""Needs that have a sign in the drawing; the others are told in its key."""
_ISOLATORS = ("disconnect of the panels", "isolator at the controller")
_NAMES = {"agm": "lead-acid, AGM", "flooded": "lead-acid, flooded", "gel": "lead-acid, gel", "lfp": "LFP"}


def scheme_of(plan: Plan) -> Scheme:
    """The drawing's record."""
    site = plan.site
    tags = {leg.name: f"W{n}" for n, leg in enumerate(plan.legs, 1)}
    asked = {need.thing for need in needs_of(plan) if need.needed}
    return Scheme(
        name=site.named.name,
        strands=tuple(strands_of(plan)),
        box="combiner box" in asked,
        isolators=tuple(name for name in _ISOLATORS if name in asked),
        string_tag=tags.get(STRINGS, ""),
        input_tag=tags.get(DOWN, ""),
        bank_tag=tags.get(BANK, ""),
        controller=_controller(plan),
        converts=site.box.controller.kind == "mppt",
        hung=tuple(_hung(plan)),
        bank_isolator="disconnect of the battery" in asked,
        bank_fuse=_bank_fuse(plan) if site.bank and "fuse at the battery" in asked else "",
        earthed="frames earthed" in asked,
        surge="guard against surges" in asked,
        key=tuple(_key(plan)),
    )


def needs_of(plan: Plan) -> tuple[Need, ...]:
    """What may be asked for, but for what belongs to a battery that is not there."""
    return tuple(need for need in plan.needs if plan.site.bank or "battery" not in need.thing)


def strands_of(plan: Plan) -> Iterator[Strand]:
    """Strings with their letters, input after input."""
    rules, number = plan.site.rules, 0
    blocking = any(need.needed for need in plan.needs if need.thing == "blocking diodes")
    for at, each in enumerate(plan.inputs):
        for row in each.rows:
            plates = tuple(plan.panels[p].plate for p in row.panels)
            fuse = plan.fuses[number]
            yield Strand(
                sign=string_sign(number),
                serials=tuple(plan.panels[p].serial for p in row.panels),
                cold_v=string_cold_v(plates, rules.coldest_c),
                hot_v=string_hot_v(plates, plan.hot_cell_c),
                isc_a=max(plate.isc_a for plate in plates),
                fused=fuse.needed,
                fuse_a=fuse.size_a if fuse.needed else None,
                blocking=blocking,
                input=at,
            )
            number += 1


def places_of(plan: Plan) -> dict[int, str]:
    """Letter and number of each wired panel, by its number: B3 is the third of string B."""
    rows = [row for each in plan.inputs for row in each.rows]
    return {p: f"{string_sign(s)}{k}" for s, row in enumerate(rows) for k, p in enumerate(row.panels, 1)}


def left_out(plan: Plan) -> tuple[Placed, ...]:
    """Panels that lie there unwired."""
    return tuple(plan.panels[p] for p in plan.left_out)


def _controller(plan: Plan) -> tuple[str, ...]:
    """Lines of its words; none where panels feed straight."""
    box = plan.site.box
    if box.straight:
        return ()
    kind = "MPPT controller" if box.controller.kind == "mppt" else "Direct controller (PWM)"
    inputs = f"{count(box.inputs, 'input')}, {typed(plan, box.controller.most_v, 'V')} at most"
    gives = box.output_a if isfinite(box.output_a) else box.output_w
    unit = "A" if isfinite(box.output_a) else "W"
    return (kind, inputs, f"gives {typed(plan, gives, unit)} at most")


def _hung(plan: Plan) -> Iterator[Hung]:
    site = plan.site
    if site.bank:
        bank = site.bank
        size = f"{typed(plan, bank.battery.nominal_v, 'V')}, {typed(plan, bank.capacity_ah, 'Ah')}"
        kind = _NAMES[bank.battery.chemistry]
        yield Hung(("Battery", size, f"{kind}, at {heat(plan, bank.bank_c)}"), "battery")
    if site.draws:
        yield Hung(("Loads", *(f"{draw.name}: {draw_words(draw.watts)}" for draw in site.draws)), "load")
    if site.pump:
        yield Hung(("Pump", *_pump(plan, site.pump)), "motor")
    elif not (site.bank or site.draws):
        yield Hung(("Load", "not described in the site's text"), "load")
    if site.generator:
        power, start = typed(plan, site.generator.power_w, "W"), f"{100 * site.generator.start:.0f}\u2009%"
        yield Hung(("Generator", f"{power}, starts at {start} of the bank's charge"), "generator")


def _pump(plan: Plan, pump: Lift) -> Iterator[str]:
    yield f"{typed(plan, pump.rated_v, 'V')}, {typed(plan, pump.rated_a, 'A')}"
    yield f"{flow(plan, pump.flow_m3_h)} against {typed(plan, pump.head_m, 'm')}"
    yield f"lifts {typed(plan, pump.lift_m, 'm')}"


def draw_words(watts: tuple[float, ...]) -> str:
    """What is drawn in a day.

    >>> draw_words((0.0,) * 20 + (25.0,) * 4)
    '100\\u2009Wh a day'
    """
    return f"{show(sum(watts), 'Wh')} a day"


def _bank_fuse(plan: Plan) -> str:
    leg = leg_of(plan.legs, BANK)
    size = leg.run.fuse_a if leg else None
    return "fuse at plus" if size is None else f"fuse at plus, {typed(plan, size, 'A')}"


def _key(plan: Plan) -> Iterator[str]:
    """Each run by its tag, then what has no sign."""
    for n, leg in enumerate(plan.legs, 1):
        yield f"W{n} {leg.title}: {leg_words(plan, leg)}"
    pairs = count(plan.connector_pairs, "pair")
    yield f"Every line is two conductors, plus and minus. Plugs and sockets: {pairs}, all of one make."
    others = [need_words(need) for need in needs_of(plan) if need.needed and need.thing not in DRAWN]
    if others:
        yield f"Also asked for, with no sign here: {'; '.join(others)}."


def need_words(need: Need) -> str:
    """A thing with its article."""
    return f"{need.thing} ({need.article})"


def leg_words(plan: Plan, leg: Leg) -> str:
    """How many, how long, of which section, what is lost."""
    many = f"{leg.count} × " if leg.count > 1 else ""
    length = f"{many}{typed(plan, leg.run.one_way_m, 'm')} one way"
    taken = leg.chosen.taken
    if taken is None:
        return f"{length}; NO SECTION ON THE LIST KEEPS EVERY RULE"
    lost = f"{say(plan, taken.drop_v, 'V', 2)} lost at {say(plan, leg.run.working_a, 'A')}"
    return f"{length}, {taken.size.name} {taken.size.metal}; {lost}"
