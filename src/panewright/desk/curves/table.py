"""A curve's file as a person gives it: its tables found, columns proposed or settled, its sweeps read."""

from __future__ import annotations

from dataclasses import dataclass

from panewright.intake.curves.blocks import Blocks, read_blocks
from panewright.intake.curves.mapping import CurveMapping
from panewright.intake.curves.mapping_text import as_toml, from_toml
from panewright.intake.curves.proposal import propose
from panewright.intake.curves.reading import read_sweeps
from panewright.intake.curves.sweeps import SweepsRead


@dataclass(frozen=True, slots=True)
class CurveTable:
    """The tables of a file and what their columns are taken for."""

    blocks: Blocks
    mapping: CurveMapping

    @property
    def text(self) -> str:
        """The mapping as it is kept."""
        return as_toml(self.mapping)

    def read(self) -> SweepsRead:
        """Its sweeps; `SheetError` where a column is not settled."""
        return read_sweeps(self.blocks, self.mapping)


def look(data: bytes, name: str, mapping: str = "", kept_in: str = "the mapping") -> CurveTable:
    """The tables in a file, with the mapping of that text, or with a proposed one where there is none."""
    blocks = read_blocks(data, name)
    return CurveTable(blocks, from_toml(mapping, kept_in) if mapping.strip() else propose(blocks))
