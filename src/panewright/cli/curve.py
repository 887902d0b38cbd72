"""`panewright curve`: a measured curve, from a file of sweeps or the readings of a meter."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

import click

from panewright.cli.plainly import told_plainly

if TYPE_CHECKING:
    from panewright.desk.curves.stood import Told

_PATH = click.Path(path_type=Path)


@click.command()
@click.argument("file", type=_PATH)
@click.option("--mapping", type=_PATH, help="Read the columns as this file says, kept by --keep before.")
@click.option(
    "--keep", type=_PATH, help="Write what the columns are taken for, to be changed and used again."
)
@click.option("--irradiance", default="", help="Of all its sweeps: '812 W/m2'.  [default: as the file says]")
@click.option("--cell-temp", default="", help="Of its cells: '41 C'.  [default: as the file says]")
@click.option("--cells", type=click.IntRange(1, 200), help="In series.  [default: as the file says]")
@click.option("--cell", default="", help="Of a meter's readings: the kind of cell, by its name on the shelf.")
@click.option("--to", type=_PATH, help="Write a chart of each thing in it: an SVG file.")
@click.option("--json", "as_json", is_flag=True, help="Print everything for a program to read.")
def curve(
    file: Path,
    mapping: Path | None,
    keep: Path | None,
    irradiance: str,
    cell_temp: str,
    cells: int | None,
    cell: str,
    to: Path | None,
    as_json: bool,
) -> None:
    """Read a measured curve: columns with reasons, sweeps, how good they are, key points, the diode.

    FILE is a table of sweeps (CSV, XLSX), or a meter's readings (TOML). Answers 0 where every row was read
    and every fact of quality holds, else 1.
    """
    with told_plainly():
        from panewright.desk.curves import asked

        told = asked.told(irradiance, cell_temp, cells)
        if file.suffix.lower() == ".toml":
            _meter(file, told, cell, as_json)
            return
        sys.exit(_sweeps(file, (mapping, keep), told, (to, as_json)))


def _meter(file: Path, told: Told, cell: str, as_json: bool) -> None:
    """The readings of a meter."""
    from panewright.desk.curves import asked, metered

    stood = metered.stand(asked.file_bytes(file), file.name, told, cell)
    _tell([asked.meter_json(stood)] if as_json else asked.meter_lines(stood))


def _sweeps(
    file: Path, mapping_and_keep: tuple[Path | None, Path | None], told: Told, out: tuple[Path | None, bool]
) -> int:
    """A table of sweeps; what to answer with."""
    from panewright.desk.curves import asked, stood, table

    (mapping, keep), (to, as_json) = mapping_and_keep, out
    kept = asked.mapping_text(mapping) if mapping else ""
    looked = table.look(asked.file_bytes(file), file.name, kept, str(mapping))
    if not as_json:
        _tell(asked.table_lines(looked))
    if keep:
        asked.keep(keep, looked)
        click.echo(
            f"{keep} keeps them: change it where it is wrong, and name it with --mapping.", err=as_json
        )
    found = stood.stand(looked.read(), told)
    _tell([asked.sweeps_json(looked, found)] if as_json else asked.sweeps_lines(found))
    if to:
        written = asked.write_charts(found, to)
        click.echo(f"Drawn: {', '.join(written)}", err=as_json)
    return 0 if found.held else 1


def _tell(lines: Iterable[str]) -> None:
    for line in lines:
        click.echo(line)
