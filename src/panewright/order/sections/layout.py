"""Pins and preferences of the lay-up, held against one another."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal, cast

from panewright.order.answers import Answers
from panewright.order.order import Wishes


def read_wishes(answers: Answers) -> Wishes:
    """The [layout] section, with the count of cells where [load] gives it."""
    for key, reason, cure in (*_count_problems(answers), *_side_problems(answers)):
        answers.wrong(key, reason, cure)
    return Wishes(
        in_series=_in_series(answers),
        strings=answers.sound_count("layout.strings"),
        columns=answers.sound_count("layout.columns"),
        rows=answers.sound_count("layout.rows"),
        substrings=answers.sound_count("layout.bypass_diodes"),
        cell_gap_mm=answers.sound_number("layout.cell_gap"),
        string_gap_mm=answers.sound_number("layout.string_gap"),
        margin_mm=answers.sound_number("layout.margin"),
        leads=cast(Literal["one end", "any"], answers.word("layout.leads")),
        most_mass_kg=answers.number("layout.most_mass"),
        most_long_mm=answers.sound_number("layout.most_long"),
        most_short_mm=answers.sound_number("layout.most_short"),
    )


def _in_series(answers: Answers) -> int | None:
    """As stated, or as many as columns and rows hold for each string."""
    stated = answers.sound_count("layout.cells_in_series") or answers.sound_count("load.cells")
    columns, rows = answers.sound_count("layout.columns"), answers.sound_count("layout.rows")
    if stated or not columns or not rows:
        return stated
    return columns * rows // (answers.sound_count("layout.strings") or 1)


def _count_problems(answers: Answers) -> Iterator[tuple[str, str, str]]:
    """Counts that cannot all be true: key, reason, cure."""
    pinned, asked = answers.sound_count("layout.cells_in_series"), answers.sound_count("load.cells")
    if pinned and asked and pinned != asked:
        cure = "Keep one of them, or write the same number."
        yield "layout.cells_in_series", f"[load] asks for {asked} cells in series.", cure
    series, strings = pinned or asked, answers.sound_count("layout.strings")
    columns, rows = answers.sound_count("layout.columns"), answers.sound_count("layout.rows")
    if series:
        yield from _sharing_problems(series, answers.sound_count("layout.bypass_diodes"))
        yield from _grid_problems(series, strings, columns, rows)
    elif columns and rows and strings and columns * rows % strings:
        reason = f"{columns * rows} cells cannot be shared by {strings} strings."
        yield "layout.strings", reason, f"Choose strings that divide {columns * rows}."


def _sharing_problems(series: int, diodes: int | None) -> Iterator[tuple[str, str, str]]:
    if diodes and series % diodes:
        fits = ", ".join(str(n) for n in range(1, min(series, 24) + 1) if series % n == 0)
        reason = f"{series} cells cannot be shared equally by {diodes} bypass diodes."
        yield "layout.bypass_diodes", reason, f"Write one of {fits}, or leave it out."


def _grid_problems(
    series: int, strings: int | None, columns: int | None, rows: int | None
) -> Iterator[tuple[str, str, str]]:
    """Columns and rows must hold all cells, neither more nor fewer."""
    total = series * strings if strings else None
    if columns and rows:
        places = columns * rows
        if total is not None and places != total:
            cure = "Mend columns or rows, or leave one of them out."
            yield (
                "layout.rows",
                f"{columns} columns of {rows} hold {places} cells; {total} are asked for.",
                cure,
            )
        elif total is None and places % series:
            cure = f"Mend columns or rows so that they hold {series} cells, or leave one of them out."
            yield (
                "layout.rows",
                f"{columns} columns of {rows} hold {places} cells, no multiple of {series}.",
                cure,
            )
    elif total is not None:
        for name, count in (("columns", columns), ("rows", rows)):
            if count and total % count:
                fits = ", ".join(str(n) for n in range(1, min(total, 24) + 1) if total % n == 0)
                yield (
                    f"layout.{name}",
                    f"{total} cells cannot stand in {count} {name}.",
                    f"Write one of {fits}.",
                )


def _side_problems(answers: Answers) -> Iterator[tuple[str, str, str]]:
    longest, widest = answers.sound_number("layout.most_long"), answers.sound_number("layout.most_short")
    if longest and widest and widest > longest:
        yield (
            "layout.most_short",
            "The short side may be longer than the long side.",
            "Exchange the two figures.",
        )
