"""A table of measured cells as a person gives it: found, its columns proposed or settled, its rows read."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from panewright.errors import FolderError, Problem, SheetError
from panewright.intake.accuracy import accuracies_of
from panewright.intake.bounds import MOST_BYTES
from panewright.intake.cells import CellRows
from panewright.intake.light import in_light
from panewright.intake.mapping import Mapping
from panewright.intake.mapping_text import as_toml, from_toml
from panewright.intake.proposal import propose
from panewright.intake.reading import read_cells
from panewright.intake.sheet import Sheet, read_sheet


@dataclass(frozen=True, slots=True)
class Table:
    """A table and what its columns are taken for."""

    sheet: Sheet
    mapping: Mapping

    @property
    def text(self) -> str:
        """The mapping as it is kept."""
        return as_toml(self.mapping)

    def read(self) -> CellRows:
        """Its rows as readings; `SheetError` where a column is not settled."""
        return read_cells(self.sheet, self.mapping)


@dataclass(frozen=True, slots=True)
class Beside:
    """What a person says beside a table and its mapping."""

    light: str = ""  #: that its cells were read in; '' where nothing is said
    errors: tuple[str, ...] = ()  #: of its readings, such as 'current = 0.5 %'

    def told(self, mapping: Mapping) -> Mapping:
        """The mapping with it."""
        found = [each.partition("=") for each in self.errors]
        said = {name.strip(): words.strip() for name, _, words in found}
        errors, problems = accuracies_of(said, "error")
        if problems:
            raise SheetError(problems)
        with_errors = replace(mapping, errors={**mapping.errors, **errors})
        return in_light(with_errors, self.light) if self.light.strip() else with_errors


def look(
    data: bytes, name: str, mapping: str = "", kept_in: str = "the mapping", beside: Beside | None = None
) -> Table:
    """The table in a file, with the mapping of that text, or with a proposed one where there is none."""
    sheet = read_sheet(data, name)
    settled = from_toml(mapping, kept_in) if mapping.strip() else propose(sheet)
    return Table(sheet, (beside or Beside()).told(settled))


def file_bytes(path: Path) -> bytes:
    """A table's file as it lies there; `FolderError` where it cannot be read or is too large."""
    try:
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except (OSError, ValueError) as reason:
        told = f"cannot be read: {getattr(reason, 'strerror', None) or reason}."
        raise FolderError([Problem(told, "Name a file that can be read.", file=str(path))]) from reason
    if len(data) > MOST_BYTES:
        told = f"is larger than {MOST_BYTES // 1_000_000} MB."
        raise FolderError([Problem(told, "Part it into smaller tables.", file=str(path))])
    return data


def mapping_text(path: Path) -> str:
    """A kept mapping's text."""
    return file_bytes(path).decode("utf-8", "replace")
