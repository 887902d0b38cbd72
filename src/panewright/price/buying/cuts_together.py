"""What is cut for many orders at once: rails from bars, fronts from sheets, ribbon from spools."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import count
from typing import TypeVar

from panewright.cutting.bars.bars import cut_from
from panewright.cutting.bars.stock import Bar, StockShort
from panewright.cutting.piece import Piece, PieceTooLong, Saw
from panewright.cutting.plan import CutPlan
from panewright.cutting.sheets.sheet import Cutter, Panel, PanelTooLarge, Sheet
from panewright.cutting.sheets.sheet_plan import SheetPlan
from panewright.cutting.sheets.sheets import cut_sheets
from panewright.cutting.spools import Ends, SpoolPlan, cut_spools
from panewright.layup.lengths import bus_pieces, tab_pieces
from panewright.panel.design import Design
from panewright.price.cuts import rail_pieces
from panewright.structure.panes.cut_glass import HEATED

Plan = TypeVar("Plan", CutPlan, SheetPlan, SpoolPlan)


_SAW, _SCORER, _ENDS = Saw(3.0, 5.0), Cutter(0.0, 10.0, 15.0), Ends(200.0, 500.0)


Known = tuple[str, str, str, float, float]
"""Whose piece, of which part, its name, its length and width; a width of 0 for what has none."""


@dataclass(frozen=True, slots=True)
class Begun:
    """Panels of an order whose pieces lie cut already, whoever cut them."""

    rails: int = 0
    fronts: int = 0
    tabs: int = 0
    buses: int = 0


@dataclass(frozen=True, slots=True)
class Job:
    """So many panels of one design, for one order."""

    order: str
    design: Design
    panels: int
    begun: Begun = field(default_factory=Begun)

    def __post_init__(self) -> None:
        if self.panels < 1:
            raise ValueError(f"a job has at least one panel, got {self.panels} of {self.order}")


@dataclass(frozen=True, slots=True)
class Racks:
    """What there is to cut from, by the name of the part; bars of a rail not named are bought as sold."""

    bars: Mapping[str, Sequence[Bar]] = field(default_factory=dict)
    sheets: Mapping[str, Sequence[Sheet]] = field(default_factory=dict)
    spools: Mapping[str, Sequence[Bar]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Tools:
    """What cutting loses, and from which size on a rest is kept; figures are common practice, no source."""

    saw: Saw = _SAW
    cutter: Cutter = _SCORER
    ends: Ends = _ENDS
    keep_bar_mm: float = 500.0
    keep_sheet_mm: tuple[float, float] = (600.0, 300.0)
    keep_spool_mm: float = 2000.0


@dataclass(frozen=True, slots=True)
class Uncut:
    """A part that is not cut from the racks, and why; the last sentence says what to do."""

    part: str
    why: str


@dataclass(frozen=True, slots=True)
class Together:
    """One plan over all orders, each part with its own; every piece says whose it is."""

    bars: tuple[tuple[str, CutPlan], ...] = ()
    sheets: tuple[tuple[str, SheetPlan], ...] = ()
    spools: tuple[tuple[str, SpoolPlan], ...] = ()
    uncut: tuple[Uncut, ...] = ()


def front_panels(job: Job) -> tuple[Panel, ...]:
    """The fronts of a job, where they may be cut from a sheet; a patterned sheet keeps its direction."""
    pane = job.design.structural.pane
    if pane.sheet.treatment in HEATED:
        return ()
    turns = pane.sheet.surface != "patterned"
    return (Panel("front", round(pane.long_mm, 2), round(pane.short_mm, 2), job.panels, turns, job.order),)


def ribbon_pieces(job: Job) -> tuple[tuple[str, Piece], ...]:
    """Ribbon of a job: the ribbon's name and the piece. A tab is of one length; no joint lies within."""
    electrical = job.design.electrical
    names = {"tab": electrical.tab.name, "bus": electrical.bus.name}
    return tuple(
        (
            names[kind.use],
            Piece(kind.name, round(kind.length_mm, 1), kind.quantity * job.panels, 0, job.order),
        )
        for kind in (*tab_pieces(job.design.layup), *bus_pieces(job.design.layup))
    )


@dataclass(frozen=True, slots=True)
class Stage:
    """A part that is being planned: which one of how many, and of how many pieces."""

    part: str
    pieces: int
    number: int  #: from 1
    of: int


Told = Callable[[Stage], None]


def _nobody(_stage: Stage) -> None:
    return None


def cut_together(
    jobs: Sequence[Job],
    racks: Racks,
    tools: Tools | None = None,
    cut: Mapping[Known, int] | None = None,
    told: Told = _nobody,
) -> Together:
    """One plan for all orders at once; a part that cannot be cut is told, and stops no other.

    `cut` are pieces that lie cut already, and are not cut again. `told` hears which part is planned next.
    """
    with_, there = tools or Tools(), Counter(cut or {})
    rails = _rails(jobs, there)
    fronts = _fronts(jobs, racks, there)
    ribbons = _ribbons(jobs, racks, there)
    hear = _counting(told, len(rails) + len(fronts) + len(ribbons))
    uncut: list[Uncut] = list(_as_ordered(jobs, racks))
    bars = _planned(
        rails,
        lambda name, pieces: cut_from(pieces, _bars(name, jobs, racks), with_.saw, with_.keep_bar_mm),
        uncut,
        hear,
    )
    sheets = _planned(
        fronts,
        lambda name, panels: cut_sheets(panels, racks.sheets[name], with_.cutter, with_.keep_sheet_mm),
        uncut,
        hear,
    )
    spools = _planned(
        ribbons,
        lambda name, pieces: cut_spools(pieces, racks.spools[name], with_.ends, with_.keep_spool_mm),
        uncut,
        hear,
    )
    return Together(bars, sheets, spools, tuple(uncut))


Thing = TypeVar("Thing", Piece, Panel)


def _counting(told: Told, of: int) -> Callable[[str, int], None]:
    numbers = count(1)
    return lambda part, pieces: told(Stage(part, pieces, next(numbers), of))


def _planned(
    wanted: Mapping[str, list[Thing]],
    plan: Callable[[str, list[Thing]], Plan],
    uncut: list[Uncut],
    hear: Callable[[str, int], None],
) -> tuple[tuple[str, Plan], ...]:
    """A plan for each part; where there is none, why."""
    found = []
    for name in sorted(wanted):
        hear(name, sum(each.quantity for each in wanted[name]))
        try:
            found.append((name, plan(name, wanted[name])))
        except (PieceTooLong, PanelTooLarge, StockShort) as short:
            uncut.append(Uncut(name, f"{name}: {short}"))
    return tuple(found)


def _grouped(pairs: Iterable[tuple[str, Thing]]) -> dict[str, list[Thing]]:
    found: dict[str, list[Thing]] = defaultdict(list)
    for name, thing in pairs:
        found[name].append(thing)
    return found


def rails_to_cut(jobs: Sequence[Job], cut: Mapping[Known, int] | None = None) -> dict[str, list[Piece]]:
    """The rails that are still to be sawn for these jobs, part by part; `cut` lie cut already."""
    return _rails(jobs, Counter(cut or {}))


def _rails(jobs: Sequence[Job], there: Counter[Known]) -> dict[str, list[Piece]]:
    return _grouped(
        (name, replace(piece, quantity=left))
        for job in jobs
        for name in (job.design.structural.rail.name,)
        for piece in rail_pieces(job.design, job.panels, job.order)
        if (left := _lacking(_known(name, piece), piece.quantity, job.panels, job.begun.rails, there=there))
    )


def _fronts(jobs: Sequence[Job], racks: Racks, there: Counter[Known]) -> dict[str, list[Panel]]:
    return _grouped(
        (name, replace(panel, quantity=left))
        for job in jobs
        if (name := job.design.structural.pane.sheet.name) in racks.sheets
        for panel in front_panels(job)
        for known in ((job.order, name, panel.name, panel.width_mm, panel.height_mm),)
        if (left := _lacking(known, panel.quantity, job.panels, job.begun.fronts, there=there))
    )


def _ribbons(jobs: Sequence[Job], racks: Racks, there: Counter[Known]) -> dict[str, list[Piece]]:
    return _grouped(
        (name, replace(piece, quantity=left))
        for job in jobs
        for name, piece in ribbon_pieces(job)
        if name in racks.spools
        for begun in (_ribbon_begun(job, name),)
        if (left := _lacking(_known(name, piece), piece.quantity, job.panels, begun, there=there))
    )


def _ribbon_begun(job: Job, name: str) -> int:
    """Panels of which all pieces of that ribbon are cut; one ribbon may serve as both."""
    electrical = job.design.electrical
    uses = ((electrical.tab.name, job.begun.tabs), (electrical.bus.name, job.begun.buses))
    return min(begun for used, begun in uses if used == name)


def _known(part: str, piece: Piece) -> Known:
    return piece.order, part, piece.name, piece.length_mm, 0.0


def _lacking(known: Known, wanted: int, panels: int, begun: int, *, there: Counter[Known]) -> int:
    """Pieces still to cut; what is counted for one kind is not counted for the next of the same name."""
    taken = min(wanted, there[known])
    there[known] -= taken
    return max(0, min(wanted - taken, wanted * (panels - begun) // panels))


def _bars(name: str, jobs: Sequence[Job], racks: Racks) -> Sequence[Bar]:
    """What lies in the racks, else bars as they are sold."""
    if name in racks.bars:
        return racks.bars[name]
    rails = (job.design.structural.rail for job in jobs)
    return [Bar(next(rail.bar_mm for rail in rails if rail.name == name))]


def _as_ordered(jobs: Sequence[Job], racks: Racks) -> Iterator[Uncut]:
    """Fronts that are ordered to size, and ribbon without a spool."""
    for name, treatment in sorted(
        {(s.name, s.treatment) for s in (j.design.structural.pane.sheet for j in jobs)}
    ):
        if treatment in HEATED:
            yield Uncut(name, f"{name} is {treatment} and never cut. Order each pane to its size.")
        elif name not in racks.sheets:
            yield Uncut(name, f"No sheet of {name} is in the racks. Order each pane to its size.")
    ribbons = {name for job in jobs for name, _ in ribbon_pieces(job)}
    for name in sorted(ribbons - set(racks.spools)):
        yield Uncut(name, f"No spool of {name} is in the racks. Say what is on the spools, or buy one.")
