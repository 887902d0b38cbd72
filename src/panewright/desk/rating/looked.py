"""A curve's file looked at for a page: its columns, what is open, and the curve where nothing is."""

from __future__ import annotations

from dataclasses import dataclass

from panewright.desk.curves import settled, table
from panewright.desk.curves.settled import CurveColumn
from panewright.desk.rating.measured import PanelRead, read
from panewright.errors import PanewrightError, Problem


@dataclass(frozen=True, slots=True)
class CurveLooked:
    """What came of looking."""

    name: str
    mapping: str  #: '' of a meter's readings
    columns: tuple[CurveColumn, ...]
    read: PanelRead | None  #: None where it could not be read
    problems: tuple[Problem, ...] = ()

    @property
    def doubts(self) -> bool:
        """Whether a person should look at a column."""
        return bool(self.problems) or any(each.doubt for each in self.columns)


def looked(data: bytes, name: str, mapping: str = "", serial: str = "") -> CurveLooked:
    """The file in these bytes; what is wrong with it is told, not raised."""
    text, shown = "", tuple[CurveColumn, ...]()
    try:
        if not name.lower().endswith(".toml"):
            found = table.look(data, name, mapping)
            text, shown = found.text, settled.columns(found)
        return CurveLooked(name, text, shown, read(data, name, text, serial))
    except PanewrightError as mistake:
        return CurveLooked(name, text, shown, None, mistake.problems)
