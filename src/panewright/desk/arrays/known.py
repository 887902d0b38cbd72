"""Where each panel of an array is known from: the records by its serial, an order's design, or its label."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from panewright.errors import FolderError, PanewrightError, Problem, RecordError

if TYPE_CHECKING:
    from panewright.array.plan.panel import Limits, Panel
    from panewright.circuit.network import Network
    from panewright.ledger.bench.ratings import RatingKept
    from panewright.ledger.open import Ledger
    from panewright.order.site.site import BySerial, Site, Wished

Beside = Callable[[str], bytes]  #: bytes of a file that stands beside the site's text


@dataclass(frozen=True)
class Sources:
    """Where panels are looked up."""

    beside: Beside
    ledger: Ledger | None = None  #: None where no records were opened
    file: str = ""  #: of the site's text, for what is told


def panels_of(site: Site, sources: Sources) -> tuple[Panel, ...]:
    """Every panel of the site, in its order; one that is not found is told with all others that are not."""
    found: dict[object, Panel] = {}
    problems: list[Problem] = []
    for wish in site.panels:
        if wish.known in found:
            continue
        try:
            found[wish.known] = _panel(wish, sources)
        except PanewrightError as mistake:
            problems += [_of_wish(problem, wish, sources) for problem in mistake.problems]
    if problems:
        raise RecordError(list(dict.fromkeys(problems)))
    return tuple(found[wish.known] for wish in site.panels)


def _of_wish(problem: Problem, wish: Wished, sources: Sources) -> Problem:
    """A problem at the line of the panel that asks, unless a file of its own tells its place."""
    if problem.file and problem.line:
        return problem
    key, value = f"panel {wish.name}", problem.value or problem.file
    return replace(problem, file=sources.file, line=wish.line, key=problem.key or key, value=value)


def _panel(wish: Wished, sources: Sources) -> Panel:
    from panewright.array.plan.panel import of_label
    from panewright.order.site.site import ByLabel, ByOrder

    if isinstance(wish.known, ByLabel):
        return of_label(wish.known.label)
    if isinstance(wish.known, ByOrder):
        return _of_order(wish.known.file, sources)
    return _of_serial(wish.known, sources)


def _of_order(file: str, sources: Sources) -> Panel:
    from panewright.array.doubts import RATINGS
    from panewright.array.plan.panel import limits_of_design, networks_of_design, outline_of_design, panel_of
    from panewright.desk.designed import designed
    from panewright.order.source import decoded

    design = designed(decoded(sources.beside(file), file), file).design
    limits, outline = limits_of_design(design), outline_of_design(design)
    known = f"design of {design.order.job.name}"
    return panel_of(networks_of_design(design), limits, outline, known, RATINGS["design"])


def _of_serial(known: BySerial, sources: Sources) -> Panel:
    """As it was built, or as it was designed; moved to its last rating where one counts."""
    from panewright.array.doubts import RATINGS
    from panewright.array.plan.panel import limits_of_design, networks_of_design, outline_of_design, panel_of
    from panewright.desk.rating.kept import panel_of as kept
    from panewright.ledger.bench.ratings import ratings, that_holds

    if sources.ledger is None:
        reason, cure = "No records are open in which serials stand.", "Name the shop's folder with --shop."
        raise RecordError([Problem(reason, cure, value=known.serial)])
    panel = kept(sources.ledger, known.serial)
    networks, limits = networks_of_design(panel.design), limits_of_design(panel.design)
    outline = outline_of_design(panel.design)
    rated = that_holds(ratings(sources.ledger, known.serial))
    if rated is not None:
        return _as_rated(
            panel_of(networks, limits, outline, "", RATINGS["measured"]), networks, rated, limits
        )
    if panel.as_built:
        return panel_of(networks, limits, outline, "built record", RATINGS["built record"])
    return panel_of(networks, limits, outline, f"design of {panel.design.order.job.name}", RATINGS["design"])


def _as_rated(own: Panel, networks: tuple[Network, Network], kept: RatingKept, limits: Limits) -> Panel:
    """Its circuit moved to the figures that were rated; what was not rated stays as built."""
    from panewright.array.doubts import as_measured
    from panewright.array.plan.panel import panel_of
    from panewright.circuit.met import Figures, met

    told = json.loads(kept.rating.text).get("figures", {})
    named = {name: (told.get(name) or {}).get("value") for name in ("power_w", "isc_a", "voc_v")}
    moved = met(networks[0], networks[1], Figures(**named))
    doubt = as_measured(kept.rating.power_w, kept.rating.power_off_w)
    words = f"measured on {kept.rating.day:%Y-%m-%d}"
    if not moved.power_met:
        words += ", its power out of reach of its Isc and Voc"
    return panel_of((moved.cool, moved.warm), limits, own.outline, words, doubt)


def in_folder(folder: Path) -> Beside:
    """Files beside a text that stands in this folder; `FolderError` where one cannot be read."""
    from panewright.desk.folder import read
    from panewright.desk.lots.table import file_bytes

    def beside(file: str) -> bytes:
        path = folder / file
        return read(path) if path.suffix == ".toml" else file_bytes(path)

    return beside


def none_beside(file: str) -> bytes:
    """Where a text stands in no folder: every file it names is refused."""
    cure = "Write the array's text as a file beside it, or name serials, labels and means of the sky."
    raise FolderError([Problem("this text stands in no folder.", cure, file=file)])
