"""One serial as it really is, judged afresh.

Everything the design decided is pinned; what happened is the only difference. The same rooms then judge it
again. What is measured short in one place is taken to be so all round: that errs on the safe side. Cells with
readings of their own, cracks and poor joints stand in the circuit where they are; the string's window of
voltages is still that of the kind.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from math import inf
from typing import Any

from panewright.cell.key_points import KeyPoints
from panewright.check import Check
from panewright.circuit.trace import Curve
from panewright.errors import BuiltError, Problem
from panewright.frame.joining.fastener import FASTENERS
from panewright.order.order import Order
from panewright.panel.choose import design_panel
from panewright.panel.design import Design
from panewright.panel.electric.own import own_model
from panewright.panel.electric.wiring import Unlike
from panewright.panel.happened import Deviation, Happened, Substitution, problems
from panewright.panel.pinned import pinned_order, pinned_shelf
from panewright.shelf.key import nearest
from panewright.shelf.shelf import Row, Shelf
from panewright.structure.rails.rails import Brackets, brackets_at

_MOST_LISTED = 8


@dataclass(frozen=True, slots=True)
class Changed:
    """A rule as the design had it and as the built panel has it; None where it is not asked."""

    rule: str
    planned: Check | None
    built: Check | None

    @property
    def broken(self) -> bool:
        """Whether a rule that held, or was not asked, no longer holds."""
        held = self.planned is None or self.planned.passed
        return held and self.built is not None and not self.built.passed


@dataclass(frozen=True, slots=True)
class Built:
    """One serial: what went into it, what it should give, and every check."""

    serial: str
    revision: str  #: of the design
    happened: Happened
    points: KeyPoints  #: expected at STC, of its own cells
    curve: Curve
    mass_kg: float
    checks: tuple[Check, ...]
    changed: tuple[Changed, ...]  #: against the design

    @property
    def proven(self) -> bool:
        """Whether every check holds."""
        return all(check.passed for check in self.checks)


def build(design: Design, shelf: Shelf, happened: Happened) -> Built:
    """The serial as it is; `BuiltError` with every mistake in what is said of it."""
    wrong = [*problems(design, happened), *_wrong_parts(design, shelf, happened.substitutions)]
    if wrong:
        raise BuiltError(wrong)
    happened = replace(happened, substitutions=tuple(_planned(design, happened.substitutions)))
    made = as_built(design, shelf, happened)
    stc = made.electrical.curves[0]
    return Built(
        serial=happened.serial,
        revision=design.revision,
        happened=happened,
        points=stc.points,
        curve=stc.curve,
        mass_kg=made.structural.mass.total_kg,
        checks=made.checks,
        changed=tuple(_changed(design.checks, made.checks)),
    )


def as_built(design: Design, shelf: Shelf, happened: Happened) -> Design:
    """The design as it was really built, with all its figures; what happened must be sound."""
    order, kept = pinned_order(design), pinned_shelf(design, shelf)
    for each in happened.substitutions:
        order, kept = _exchanged(order, kept, shelf, each)
    parts = replace(order.parts, **_sizes(design, happened.deviations))
    return design_panel(replace(order, parts=parts), kept, _unlike(design, happened))


def _exchanged(order: Order, kept: Shelf, shelf: Shelf, swap: Substitution) -> tuple[Order, Shelf]:
    """Order and shelf with one part exchanged."""
    name = swap.key.removeprefix("parts.")
    if name == "corner_fastener":
        return replace(order, parts=replace(order.parts, corner_fastener=swap.really)), kept
    field, group = _GROUPS[swap.key]
    row = next(row for row in getattr(shelf, group) if _plain(row.name) == _plain(swap.really))
    rows: dict[str, Any] = {group: (row,)}
    kept = replace(kept, **rows)
    if field is None:
        return order, kept
    more: dict[str, Any] = {field: row.part}
    if field == "sheet":
        more["front"] = row.part.material
    return replace(order, parts=replace(order.parts, **more)), kept


#: what may be exchanged: the order's key, its field, and the group of the shelf
_GROUPS: dict[str, tuple[str | None, str]] = {
    "parts.tab": ("tab", "tabs"),
    "parts.bus": ("bus", "buses"),
    "parts.glass": ("sheet", "sheets"),
    "parts.rail": ("rail", "rails"),
    "parts.sealant": ("sealant", "sealants"),
    "parts.pour": ("pour", "pours"),
    "parts.film": ("film", "films"),
    "parts.back": ("back", "backs"),
    "parts.bypass": (None, "bypasses"),  # no key of an order: the design always takes it from the shelf
}
KEYS = (*_GROUPS, "parts.corner_fastener")  #: of parts that may be exchanged


def _wrong_parts(design: Design, shelf: Shelf, swaps: Iterable[Substitution]) -> Iterator[Problem]:
    """Parts that cannot have been taken."""
    seen: set[str] = set()
    for swap in swaps:
        if told := _wrong_part(design, shelf, swap, seen):
            yield Problem(*told, key=swap.key[:60] or "substitution", value=swap.really[:60])
        seen.add(swap.key)


def _wrong_part(design: Design, shelf: Shelf, swap: Substitution, seen: set[str]) -> tuple[str, str] | None:
    if swap.key not in KEYS:
        return (
            f"No part of that key can be exchanged.{nearest(swap.key, KEYS)}",
            f"The keys are {', '.join(KEYS)}.",
        )
    if swap.key in seen:
        return "This part is exchanged twice.", "Keep the substitution that is true."
    if not swap.reason.strip():
        return "A substitution without a reason helps nobody in year twelve.", "Say why it was made."
    if swap.key == "parts.bypass" and design.electrical.bypass is None:
        return "The design has no bypass diode.", "Leave the substitution out."
    if swap.key == "parts.corner_fastener" and design.order.parts.corner_fastener is None:
        return "The corners are welded.", "Leave the substitution out."
    if closed := _closed_otherwise(design, swap.key):
        return closed, "Leave the substitution out."
    names = part_names(shelf, swap.key)
    if _plain(swap.really) in map(_plain, names):
        return None
    more = ", ..." if len(names) > _MOST_LISTED else ""
    cure = f"The shelf has {', '.join(names[:_MOST_LISTED])}{more}. Put what was used on the shelf first."
    return f"The shelf has no such part.{nearest(swap.really, names)}", cure


def _closed_otherwise(design: Design, key: str) -> str:
    """Why a panel has no such part inside; "" where it has."""
    closed = design.order.parts.encapsulation
    lacking = {
        "parts.pour": "nothing is poured" if design.closing.pour is None else "",
        "parts.film": "no film is in it" if design.closing.laminating is None else "",
    }
    return f"The panel is closed by {closed}: {lacking[key]}." if lacking.get(key) else ""


def part_names(shelf: Shelf, key: str) -> list[str]:
    """What the shelf has for a key of substitutions, by name."""
    if key == "parts.corner_fastener":
        return list(FASTENERS)
    rows: tuple[Row[Any], ...] = getattr(shelf, _GROUPS[key][1])
    return [row.name for row in rows]


def _plain(name: str) -> str:
    return "".join(name.lower().replace("×", "x").split())


def _planned(design: Design, swaps: Iterable[Substitution]) -> Iterator[Substitution]:
    """Each substitution with the name of what was planned."""
    for swap in swaps:
        yield swap if swap.planned else replace(swap, planned=planned_part(design, swap.key))


def planned_part(design: Design, key: str) -> str:
    """The design's own part at a key of substitutions, by name."""
    made, held, closing = design.electrical, design.structural, design.closing
    names: dict[str, Callable[[], str]] = {
        "parts.tab": lambda: made.tab.name,
        "parts.bus": lambda: made.bus.name,
        "parts.glass": lambda: held.pane.sheet.name,
        "parts.rail": lambda: held.rail.name,
        "parts.sealant": lambda: held.bead.sealant.name,
        "parts.pour": lambda: closing.pour.silicone.name if closing.pour else "none",
        "parts.film": lambda: closing.laminating.film.name if closing.laminating else "none",
        "parts.back": lambda: closing.back.name,
        "parts.bypass": lambda: made.bypass.name if made.bypass else "none",
        "parts.corner_fastener": lambda: design.order.parts.corner_fastener or "welded",
    }
    return names[key]()


def _sizes(design: Design, deviations: Iterable[Deviation]) -> dict[str, Any]:
    """Sizes that were measured in place of the design's; of several of one kind the last."""
    fields = {"gap": "gap_mm", "glue line": "glue_line_mm", "bite": "bite_mm"}
    found: dict[str, Any] = {}
    moved = {each.place: each.amount for each in deviations if each.what == "bracket"}
    for each in deviations:
        if each.what in fields:
            found[fields[each.what]] = each.amount
    return found | ({"drilled": _moved(design, moved)} if moved else {})


def _moved(design: Design, moved: dict[int, float]) -> Brackets:
    """The brackets where they really are."""
    long_mm = design.structural.rail_proof.length_mm
    places = enumerate(design.structural.brackets.places_mm(long_mm), 1)
    return brackets_at(tuple(sorted(moved.get(number, place) for number, place in places)), long_mm)


def _unlike(design: Design, happened: Happened) -> tuple[Unlike, ...]:
    """Cells with figures of their own, cracks and poor joints."""
    found: dict[int, Unlike] = {}
    strips = len(design.electrical.models)
    for cell in happened.cells:
        if cell.own:
            model = own_model(design.order.cell, (cell.place - 1) % strips, cell.own)
            found[cell.place] = Unlike(cell.place, model)
    for each in happened.deviations:
        was = found.get(each.place, Unlike(each.place))
        if each.what == "cold joint" or (each.what == "crack" and each.amount == 1):
            ohm = inf if each.what == "crack" else each.amount
            found[each.place] = replace(was, joint_ohm=was.joint_ohm + ohm)
        elif each.what == "crack":
            found[each.place] = replace(was, cut_off=1 - (1 - was.cut_off) * (1 - each.amount))
    return tuple(found[number] for number in sorted(found))


def _changed(planned: tuple[Check, ...], built: tuple[Check, ...]) -> Iterator[Changed]:
    """Rules whose figures differ, in the order of the built panel's; then those no longer asked."""
    before, after = _numbered(planned), _numbered(built)
    for key, check in after.items():
        if before.get(key) != check:
            yield Changed(check.rule, before.get(key), check)
    yield from (Changed(check.rule, check, None) for key, check in before.items() if key not in after)


def _numbered(checks: tuple[Check, ...]) -> dict[tuple[str, int], Check]:
    """Checks by their rule, and which of that rule they are: a rule may be held against several things."""
    seen: dict[str, int] = {}
    found: dict[tuple[str, int], Check] = {}
    for check in checks:
        seen[check.rule] = seen.get(check.rule, 0) + 1
        found[check.rule, seen[check.rule]] = check
    return found
