"""What can hurt where an array is put together, and the order of the work that keeps it from hurting."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from panewright.array.plan.legs import BANK as BANK_LEG
from panewright.array.plan.legs import leg_of
from panewright.array.plan.plan import Placed, Plan
from panewright.drawing.sheet import Step, Steps, Table
from panewright.pack.array_book.drawn.schemed import strands_of
from panewright.pack.array_book.saying import say, typed
from panewright.pack.bench import count
from panewright.pack.pages.table import words_table

BEFORE = (
    "Panels in light are live and cannot be switched off; in series their voltage can kill, and direct "
    "current does not let go. Cover the panels before their ends are touched."
)
LOAD = (
    "Never part a connector, pull a fuse or open a box while current flows: the arc does not go out by "
    "itself."
)
BANK = (
    "A battery drives hundreds of amperes into a slip of the spanner. Rings and watch off, insulated tools, "
    "its fuse at the plus terminal, and in last of all."
)
GAS = (
    "Lead-acid batteries give off gas that explodes: air the room, no sparks. Acid burns: goggles and gloves."
)
COLD_LFP = "An LFP battery must not be charged below freezing."
ROOF = "Roofs and wind: a panel is a sail. Two people, a still day, ropes and harness; keep off a wet roof."
LISTED = (
    "Hand-built panels are not listed or certified. Many places forbid them on buildings or on the grid, and "
    "leave direct current to licensed people: local code and a licensed person decide."
)
_ALIKE = "plus is plus; no other string at the same input differs by more than a few per cent"
_MOST_STEPS = 8  # strings that get a step each
AID = "These numbers are an aid to judgement, not a certificate."


def volts(plan: Plan) -> tuple[str, ...]:
    """How high it may get between two ends."""
    if plan.cold_v is None:
        return ()
    at = f"Open, in record cold, its longest string gives {say(plan, plan.cold_v, 'V')}"
    return (f"{at}: dangerous to touch.",) if plan.thresholds else (f"{at}.",)


def bank_cautions(plan: Plan) -> tuple[str, ...]:
    """What the battery asks for."""
    if plan.site.bank is None:
        return ()
    return (BANK, COLD_LFP if plan.site.bank.battery.chemistry == "lfp" else GAS)


def work(plan: Plan) -> tuple[Steps | Table, ...]:
    """The work in its order; where strings are many, their measuring is a list to tick."""
    laid, joined = tuple(_laid(plan)), tuple(_joined(plan))
    if len(plan.fuses) <= _MOST_STEPS:
        return (Steps((*laid, *_measured(plan), *joined)),)
    first = Steps((*laid, _MEASURE_ALL))
    return (first, _measuring(plan), Steps(joined, first=len(first.steps) + 1))


_MEASURE_ALL = Step(
    "Join the panels of each string, then measure it",
    "Covered, minus end first. Uncover, measure at the open end, write it down, cover again: the list below.",
    check=_ALIKE,
    caution=BEFORE,
)


def _measuring(plan: Plan) -> Table:
    """Every string with what its meter should show, and room for what it shows."""
    strands = zip(strands_of(plan), plan.strings(), strict=True)
    rows = tuple(
        (strand.sign, f"{strand.input + 1}", ", ".join(strand.serials), _open(plan, string), "______")
        for strand, string in strands
    )
    heads = ("String", "Input", "Serials, minus end first", "Open, 25 °C", "Read, V")
    return replace(words_table(heads, rows), ticks=True)


def _open(plan: Plan, string: tuple[Placed, ...]) -> str:
    return say(plan, sum(placed.plate.voc_v for placed in string), "V")


def _laid(plan: Plan) -> Iterator[Step]:
    yield Step(
        "Lay the panels where the drawing says",
        f"{count(len(plan.panels), 'panel')}, each serial in its place, faces covered with something that no "
        "wind takes. Their ends stay apart, and off metal.",
        check="every serial against the drawing of its stand",
        caution=ROOF if plan.site.rules.on_building else "Wind: a panel is a sail. Two people, a still day.",
    )
    earth = next((need for need in plan.needs if need.thing == "frames earthed"), None)
    if earth:
        asked = "asked for" if earth.needed else "not asked for, and wise"
        yield Step(
            "Earth frames and rails",
            f"Before any wire that carries current. Here it is {asked} ({earth.article}).",
            check="from every frame to the earth: less than an ohm",
        )
    yield Step(
        "Lay the runs, both ends open",
        f"{'; '.join(f'W{n} {leg.title}' for n, leg in enumerate(plan.legs, 1))}. Plus and minus side by "
        "side, marked at both ends; plugs and sockets of one make, crimped with their own tool.",
        check="pull at every crimp; between the two conductors no current passes",
    )
    controller = "" if plan.site.box.straight else " and controller"
    yield Step(
        f"Mount {'box, ' if _boxed(plan) else ''}isolators{controller}",
        "All isolators open, all fuses out and in your pocket.",
        check="every isolator locked or tagged open",
    )


def _measured(plan: Plan) -> Iterator[Step]:
    strands = tuple(strands_of(plan))
    for strand, string in zip(strands, plan.strings(), strict=True):
        yield Step(
            f"String {strand.sign}: join its panels, then measure",
            f"Covered, minus end first: {', '.join(strand.serials)}. Uncover, measure at its open end, cover "
            "again.",
            check=_ALIKE,
            expect=f"open, cells at 25 °C: {_open(plan, string)}",
            caution=BEFORE if strand is strands[0] else "",
        )


def _boxed(plan: Plan) -> bool:
    """Whether strings meet in a combiner box."""
    return any(need.thing == "combiner box" and need.needed for need in plan.needs)


def _joined(plan: Plan) -> Iterator[Step]:
    fused = any(fuse.needed for fuse in plan.fuses)
    fuses = ", string fuses out. Then the fuses in." if fused else "."
    ends = "their box" if _boxed(plan) else "the run down"
    yield Step(
        f"Join the strings to {ends}, and the run to the open isolator",
        f"Panels covered, isolators open{fuses}",
        caution=LOAD,
    )
    if plan.site.bank:
        yield from _bank_steps(plan)
    yield Step(
        "Uncover the panels, close their isolator",
        "The pump turns as the light allows." if plan.pumped else "The controller shows volts, then amperes.",
        check="warm joints after an hour of sun: none hotter than its neighbours",
        caution=LOAD,
    )


def _bank_steps(plan: Plan) -> Iterator[Step]:
    leg = leg_of(plan.legs, BANK_LEG)
    size = f" ({typed(plan, leg.run.fuse_a, 'A')})" if leg and leg.run.fuse_a else ""
    yield Step(
        "Wire controller, loads and battery, the battery's fuse out",
        "Controller and loads first, the battery's terminals last, minus after plus.",
        check="plus is plus at the controller's terminals, fuse holder empty",
        caution=BANK,
    )
    yield Step(
        f"Last of all that is wired: the battery's fuse{size}",
        "In with the fuse, then the battery's isolator closed. The controller wakes by the battery and knows "
        "its voltage. Where the controller's sheet tells another order, its sheet wins.",
    )
