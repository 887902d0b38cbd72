"""What the bench asks another process for: curves looked at, panels rated, faults found, charts."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from panewright.bench.fault.place.next import Lies
    from panewright.bench.fault.rework import Spare
    from panewright.desk.charts.kept import ForCharts
    from panewright.desk.charts.told import ChartSeen
    from panewright.desk.fault.found import Tell
    from panewright.desk.rating.instruments import Written
    from panewright.desk.rating.looked import CurveLooked
    from panewright.desk.rating.measured import PanelRead
    from panewright.panel.happened import Happened


def curve_looked(data: bytes, name: str, mapping: str = "", serial: str = "") -> CurveLooked:
    """A file of a curve: its columns, and the curve where none is open."""
    from panewright.desk.rating.looked import looked

    return looked(data, name, mapping, serial)


def panel_rated(
    panel: tuple[str, str, str, Happened | None],
    read: PanelRead,
    words: dict[str, str],
    shop: dict[str, Written],
) -> tuple[dict[str, Any], bytes]:
    """A panel (text, order, serial, what was told of it) rated: what is told of it, and its report."""
    from panewright.desk.rating import kept, papers, recorded
    from panewright.desk.rating.rated import rated
    from panewright.desk.rating.typed import typed

    made = rated(kept.panel(*panel), read, typed(words), shop)
    return recorded.of_rating(made), papers.report_bytes(made)


def fault_found(
    panel: tuple[str, str, str, Happened | None],
    read: PanelRead,
    words: dict[str, str],
    shop: dict[str, Written],
    further: tuple[tuple[Tell, ...], Lies, tuple[Spare, ...] | None],
) -> dict[str, Any]:
    """What is wrong with a panel, as it is told, after further readings; with spares that may go in."""
    from panewright.desk.fault import recorded
    from panewright.desk.fault.found import found
    from panewright.desk.rating import kept
    from panewright.desk.rating.typed import typed

    made = found(kept.panel(*panel), read, (typed(words), shop), *further)
    return recorded.of_finding(made)


def charts_seen(known: ForCharts, good: int) -> tuple[ChartSeen, ...]:
    """Charts over many panels."""
    from panewright.desk.charts.told import seen

    return seen(known, good)
