"""Parts pinned by the order: by their name on the shelf, or as a table that describes them in full."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Literal, TypeVar, cast

from panewright.glass.pane import Sheet
from panewright.order.answers import Answers
from panewright.order.order import Assumption, CornerWay, Parts, Touched
from panewright.order.sections.bracket_places import read_places
from panewright.order.sections.in_full import IN_FULL
from panewright.order.sections.named import pick
from panewright.shelf import parts as shelf_parts
from panewright.shelf.key import Fault, described
from panewright.shelf.reading import Reading, read_row
from panewright.shelf.shelf import Row, Shelf
from panewright.structure.contact import Isolate
from panewright.structure.corners.corner import Corner
from panewright.units import written

Part = TypeVar("Part")
_LARGER = ("screw M5", "screw M6")  #: stainless screws with nuts, the usual one first
Front = Literal["glass", "acrylic", "polycarbonate"]


def read_parts(answers: Answers, shelf: Shelf) -> Parts:
    """The [parts] section; None where the tool chooses."""
    sheet = part(answers, "parts.glass", shelf.sheets, shelf_parts.sheet)
    if sheet and isinstance(described_sheet := answers.raw["parts.glass"], dict):
        _assume_material(answers, sheet, described_sheet)
    corner = cast(Corner, answers.word("parts.corner"))
    return Parts(
        tab=part(answers, "parts.tab", shelf.tabs, shelf_parts.strip),
        bus=part(answers, "parts.bus", shelf.buses, shelf_parts.strip),
        sheet=sheet,
        front=_front(answers, sheet),
        rail=part(answers, "parts.rail", shelf.rails, shelf_parts.rail),
        brackets_per_long_side=answers.sound_count("parts.brackets"),
        bracket_from_end_mm=answers.sound_number("parts.bracket_from_end"),
        sealant=part(answers, "parts.sealant", shelf.sealants, shelf_parts.sealant),
        bite_mm=answers.sound_number("parts.bite"),
        gap_mm=answers.sound_number("parts.gap"),
        glue_line_mm=answers.sound_number("parts.glue_line"),
        corner=corner,
        corner_fastener=_fastener(answers, corner),
        other_corners=_other_corners(answers, corner),
        isolate=cast(Isolate, answers.word("parts.isolate")),
        gap_tolerance_mm=answers.sound_number("parts.gap_tolerance"),
        held=cast(Literal["four sides", "two long sides"], answers.word("parts.held")),
        touched=cast(Touched, answers.word("parts.touched")),
        encapsulation=cast(Literal["silicone pour", "film", "air gap"], answers.word("parts.encapsulation")),
        pour=part(answers, "parts.pour", shelf.pours, shelf_parts.pour),
        film=part(answers, "parts.film", shelf.films, shelf_parts.film),
        back=part(answers, "parts.back", shelf.backs, shelf_parts.back),
        glass_from=cast(Literal["ordered to size", "cut from stock"], answers.word("parts.glass_from")),
        glass_holes=answers.count("parts.glass_holes"),
        bracket_places_mm=read_places(answers),
    )


def _fastener(answers: Answers, corner: Corner) -> str | None:
    """What joins rails and clips; welded corners have neither."""
    if corner != "welded":
        return answers.word("parts.corner_fastener")
    reason, cure = (
        "Welded corners have no clip to fasten.",
        "Leave corner_fastener out, or take mitred corners.",
    )
    answers.bars("parts.corner_fastener", reason, cure)
    return None


def _other_corners(answers: Answers, corner: Corner) -> tuple[CornerWay, ...]:
    """What may be tried where the usual corner fails: a larger screw, then lapped rails, as far as both are
    left open. Nobody is made to weld."""
    if corner == "welded":
        return ()
    stated = answers.given("parts.corner_fastener")
    usual = answers.word("parts.corner_fastener")
    corners: tuple[Corner, ...] = (corner,) if answers.given("parts.corner") else ("mitred", "lapped")
    ways = (CornerWay(meet, held) for meet in corners for held in ((usual,) if stated else _LARGER))
    return tuple(way for way in ways if way != CornerWay(corner, usual))


def _assume_material(answers: Answers, sheet: Sheet, stated: dict[str, object]) -> None:
    """What a sheet described in full leaves to its material."""
    figures = {
        "density": written(sheet.density_kg_m3, "density"),
        "expansion": written(sheet.expansion_per_k, "per kelvin"),
        "transmittance": written(sheet.solar_transmittance, "share"),
        "nominal": written(sheet.nominal_mm, "size"),
    }
    for name, value in figures.items():
        if name not in stated:
            reason = (
                "no other is named than the thinnest it may be"
                if name == "nominal"
                else f"common for {sheet.material}"
            )
            answers.assumed_open(f"parts.glass.{name}", value, reason)


def _front(answers: Answers, sheet: Sheet | None) -> Front:
    """What the pane is made of: the named sheet decides, and must agree with what is stated."""
    stated = answers.sound_word("parts.front")
    if sheet is None:
        return cast(Front, answers.word("parts.front"))
    if stated and stated != sheet.material:
        cure = f'Write front = "{sheet.material}", or name another sheet.'
        answers.wrong("parts.front", f"The sheet named is {sheet.material}.", cure)
    answers.assume("parts.front", sheet.material, "the sheet named is made of it")
    return sheet.material


def part(
    answers: Answers, dotted: str, rows: Sequence[Row[Part]], make: Callable[[str, Reading], Part]
) -> Part | None:
    """The part at a key: nothing, a name, or a table in full."""
    raw = answers.raw.get(dotted)
    if raw is None:
        return None
    if isinstance(raw, str):
        return pick(answers, dotted, rows)
    if isinstance(raw, dict):
        return _in_full(answers, dotted, raw, make)
    cure = f'Write a name in quotes, such as "{rows[0].name if rows else "..."}", or a table in full.'
    answers.wrong(dotted, f"A part is a name or a table, not {described(raw)}.", cure)
    return None


def _in_full(
    answers: Answers, dotted: str, raw: dict[str, object], make: Callable[[str, Reading], Part]
) -> Part | None:
    columns = IN_FULL[dotted]
    reading = read_row(raw, columns)
    for name, fault in reading.faults.items():
        answers.wrong(f"{dotted}.{name}", fault.reason, fault.cure)
    if reading.faults:
        return None
    for column in columns:
        if column.name not in raw and column.default is not None:
            reading.values[column.name] = column.read(column.default)
            place, reason = f"{dotted}.{column.name}", column.reason or "usual in the trade"
            answers.assumptions[place] = Assumption(place, str(column.default), reason)
    return _made(answers, dotted, reading, make)


def _made(
    answers: Answers, dotted: str, reading: Reading, make: Callable[[str, Reading], Part]
) -> Part | None:
    """The part, or a told mistake where its figures contradict one another."""
    try:
        return make(f"{dotted.rpartition('.')[2]} of the order", reading)
    except Fault as fault:
        answers.wrong(f"{dotted}.{fault.key}" if fault.key else dotted, fault.reason, fault.cure)
    except ValueError as mistake:
        answers.wrong(dotted, f"{str(mistake).partition(', got')[0]}.", "Mend its figures.")
    return None
