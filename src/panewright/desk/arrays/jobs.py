"""What a page of an array asks another process for: its panels in their light, strings arranged, its year."""

from __future__ import annotations

import pickle
from dataclasses import dataclass
from typing import TYPE_CHECKING

from panewright.desk.arrays.year_shown import YearShown
from panewright.desk.progress import at
from panewright.errors import Problem, RecordError
from panewright.order.site.site import OfFile

if TYPE_CHECKING:
    from panewright.array.plan.plan import Placed, Plan
    from panewright.array.plan.tried import Basis
    from panewright.array.plan.weather import Weathered
    from panewright.desk.arrays.strings import Strings
    from panewright.desk.records.place import Place
    from panewright.order.site.site import Site

_BEGUN, _BASED = 2, 8  # per cent


@dataclass(frozen=True, slots=True)
class YearMade:
    """A reckoned year for its page, with the strings that it was reckoned for."""

    seen: YearShown
    strings: Strings
    papers: tuple[tuple[str, str], ...]  #: names of its papers, and what they are
    kept: bytes  #: the plan itself, to be taken out again by `plan_in`


def array_basis(place: Place, name: str, text: str) -> Basis:
    """The panels of an array's text, found in the records; `OrderError` with every mistake."""
    from panewright.array.plan.tried import basis_of

    at(_BEGUN)
    site, panels, weather = _found(place, name, text)
    at(_BASED)
    return basis_of(site, panels, weather.usual)


def array_arranged(basis: Basis) -> Strings:
    """The strings that give most; none where none holds the limits."""
    from panewright.array.plan.tried import best_strings
    from panewright.desk.arrays.strings import Tried

    names = [panel.serial for panel in basis.panels]
    return tuple(Tried(each.input + 1, tuple(names[p] for p in each.panels)) for each in best_strings(basis))


def array_year(name: str, text: str, basis: Basis) -> YearMade:
    """The year of an array with everything that follows from it."""
    from panewright.array.plan.composed import plan_of
    from panewright.array.plan.weather import weathered
    from panewright.desk.arrays.papers import kind_of, makers_of
    from panewright.desk.arrays.strings import Tried
    from panewright.desk.arrays.year_shown import year_shown
    from panewright.order.site.parse import parse_site

    site = parse_site(text, f"{name}.toml")
    of_file = basis.hours if isinstance(site.weather, OfFile) else None
    weather = weathered(site, of_file)
    plan = plan_of(site, basis.panels, weather, lambda share, _words: at(_BASED + int((99 - _BASED) * share)))
    names = [panel.serial for panel in plan.panels]
    numbers = tuple(sorted({each.input for each in site.strings})) or tuple(range(len(plan.inputs)))
    strings = tuple(
        Tried(number + 1, tuple(names[p] for p in row.panels))
        for number, each in zip(numbers, plan.inputs, strict=True)
        for row in each.rows
    )
    papers = tuple((file, kind_of(file)) for file in makers_of(plan))
    return YearMade(year_shown(plan), strings, papers, pickle.dumps(plan, protocol=5))


def array_paper(kept: bytes, file: str) -> bytes:
    """One paper of a plan that was kept; `RecordError` where it has none of that name."""
    from panewright.desk.arrays.papers import makers_of

    made = makers_of(plan_in(kept)).get(file)
    if made is None:
        raise RecordError(
            [Problem("The array has no paper of that name.", "Take one of its list.", value=file)]
        )
    return made()


def _found(place: Place, name: str, text: str) -> tuple[Site, tuple[Placed, ...], Weathered]:
    """The site with its panels laid and its weather; all that is not found is told."""
    from panewright.desk.arrays.in_records import beside
    from panewright.desk.arrays.known import Sources
    from panewright.desk.arrays.planned import both_of, site_of
    from panewright.desk.records.place import opened

    file = f"{name}.toml"
    site = site_of(text, file)
    with opened(place) as ledger:
        panels, weather = both_of(site, Sources(beside(ledger), ledger, file))
    return site, panels, weather


def plan_in(kept: bytes) -> Plan:
    """The plan that a process of our own has packed."""
    from panewright.array.plan.plan import Plan

    made = pickle.loads(kept)
    assert isinstance(made, Plan)
    return made
