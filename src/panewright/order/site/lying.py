"""[[stand]], [[panel]] and [[string]]: which panels lie where, and in which string."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil
from pathlib import PurePath

from panewright.cell.nameplate import Nameplate, impossible
from panewright.climate.hourly import Behind
from panewright.order.answers import Answers
from panewright.order.site.figures import parts
from panewright.order.site.rows import Rows
from panewright.order.site.site import ByLabel, ByOrder, BySerial, LabelFigures, Stand, Typed, Wished
from panewright.shelf.key import nearest
from panewright.sky.place import Plane
from panewright.wire.ampacity import needed_ampacity_a

MOST_PANELS = 400
USUAL_VOC_PER_K, USUAL_ISC_PER_K = -0.0032, 0.0005  #: of silicon panels; common practice, no source
_BEHIND: dict[str, Behind] = {"open": "open", "close to roof": "close", "closed back": "closed"}
_WAYS = {"serials": "serials of the records", "order": "an order", "voc": "a label"}
_LABEL = ("voc", "vmp", "isc", "imp", "cells", "width", "height")
_OF_LABEL = (*_LABEL, "cell_columns", "diodes", "fuse", "system", "voc_per_k")
_NARROW_CELLS, _BY_DIODE = 40, 24  # cells up to which four columns are usual; cells behind one diode
Known = BySerial | ByOrder | ByLabel


def read_stands(answers: Answers, rows: Rows) -> tuple[Stand, ...]:
    """Every stand; its columns are settled once its panels are counted."""
    if not rows.of("stand"):
        cure = 'Add [[stand]] with name = "roof", tilt = "30 deg" and azimuth = "180 deg".'
        answers.wrong("stand", "No stand is told, so panels lie nowhere.", cure)
    names: set[str] = set()
    stands = []
    for row in rows.of("stand"):
        stand = _stand(answers, row)
        if stand.name in names:
            answers.wrong(
                f"{row}.name", f"Another stand is called {stand.name} too.", "Give each its own name."
            )
        names.add(stand.name)
        stands.append(stand)
    return tuple(stands)


def _stand(answers: Answers, row: str) -> Stand:
    plane = Plane(
        answers.number(f"{row}.tilt"), answers.number(f"{row}.azimuth"), float(answers.exact(f"{row}.albedo"))
    )
    east, north, up = (answers.number(f"{row}.{name}") for name in ("east", "north", "up"))
    behind = _BEHIND.get(answers.word(f"{row}.mounting"), "open")
    columns = answers.sound_count(f"{row}.columns") or 0
    name, gap_mm = answers.word(f"{row}.name"), answers.number(f"{row}.gap")
    return Stand(name, plane, behind, (east, north, up), columns, gap_mm)


def read_panels(answers: Answers, rows: Rows, stands: Sequence[Stand]) -> tuple[Wished, ...]:
    """Every panel in its place; places are filled from the lower left, row by row."""
    if not rows.of("panel"):
        cure = 'Add [[panel]] with serials = "0042, 0043", or with order = "jetty.toml" and count = 4.'
        answers.wrong("panel", "No panel is told.", cure)
    numbered: dict[str, int] = {}
    found: list[tuple[str, str, Known, int, float]] = []
    for row in rows.of("panel"):
        stand, age = _stand_of(answers, row, stands), answers.number(f"{row}.age")
        found += [(row, name, known, stand, age) for name, known in _named(answers, row, numbered)]
    _refuse_twice(answers, found)
    if len(found) > MOST_PANELS:
        answers.wrong("panel", f"There are {len(found)} panels.", f"Plan {MOST_PANELS} at most at once.")
    return tuple(_placed(answers, rows, stands, found))


def _placed(
    answers: Answers, rows: Rows, stands: Sequence[Stand], found: Sequence[tuple[str, str, Known, int, float]]
) -> Iterator[Wished]:
    taken = dict.fromkeys(range(len(stands)), 0)
    columns = []
    for number, (row, stand) in enumerate(zip(rows.of("stand"), stands, strict=True)):
        alike = max(1, sum(each[3] == number for each in found))
        answers.assume(f"{row}.columns", alike, "all panels side by side, in one row")
        columns.append(stand.columns or alike)
    for row, name, known, stand_number, age in found:
        at = taken[stand_number] = taken.get(stand_number, 0) + 1
        wide = columns[stand_number] if columns else 1
        line = answers.source.line(row)
        yield Wished(name, known, stand_number, (at - 1) % wide, (at - 1) // wide, age, line)


def _refuse_twice(answers: Answers, found: Sequence[tuple[str, str, Known, int, float]]) -> None:
    seen: set[str] = set()
    for row, name, known, _, _ in found:
        if name in seen:
            key = "serials" if isinstance(known, BySerial) else "name"
            answers.wrong(f"{row}.{key}", f"{name} is named twice.", "A panel lies in one place: keep one.")
        seen.add(name)


def _stand_of(answers: Answers, row: str, stands: Sequence[Stand]) -> int:
    """Number of the stand that a panel lies on."""
    names = [stand.name for stand in stands]
    if len(names) == 1:
        answers.assume(f"{row}.stand", names[0], "the only stand")
    elif names:
        answers.needs(f"{row}.stand", f"there are {len(names)} stands.")
    name = answers.sound_word(f"{row}.stand")
    if name is None or not names:
        return 0
    if name not in names:
        cure = f"The stands are {', '.join(names)}."
        answers.wrong(f"{row}.stand", f"No stand is called {name}.{nearest(name, names)}", cure)
        return 0
    return names.index(name)


def _named(answers: Answers, row: str, numbered: dict[str, int]) -> Iterator[tuple[str, Known]]:
    """The panels of one entry, each with its name."""
    told = [name for name in _WAYS if answers.given(f"{row}.{name}")]
    if not told:
        cure = f"Add serials, or order and count, or a label: {', '.join(_LABEL)}."
        answers.wrong(row, f"{row} does not say which panels they are.", cure)
        return
    for name in told[1:]:
        reason = f"{row} is told by {_WAYS[told[0]]} and by {_WAYS[name]}; one of them is meant."
        answers.wrong(f"{row}.{name}", reason, f"Drop {name} or {told[0]}.")
    way = told[0]
    for name in () if way == "voc" else _OF_LABEL[1:]:
        answers.bars(f"{row}.{name}", f"{name} belongs to a label, not to {_WAYS[way]}.", f"Drop {name}.")
    if way == "serials":
        yield from _by_serials(answers, row)
        return
    known = ByOrder(answers.word(f"{row}.order")) if way == "order" else _label(answers, row)
    answers.assume(
        f"{row}.name", PurePath(known.file).stem if isinstance(known, ByOrder) else "panel", "no name told"
    )
    answers.assume(f"{row}.count", 1, "one panel")
    name = answers.word(f"{row}.name")
    for _ in range(answers.count(f"{row}.count")):
        numbered[name] = numbered.get(name, 0) + 1
        yield f"{name} {numbered[name]}", known if known else ByOrder("")


def _by_serials(answers: Answers, row: str) -> Iterator[tuple[str, Known]]:
    for name in ("count", "name"):
        answers.bars(
            f"{row}.{name}", f"Each serial is a panel by itself; {name} says nothing.", f"Drop {name}."
        )
    serials = parts(answers.word(f"{row}.serials"))
    if not serials and not answers.faulty(f"{row}.serials"):
        answers.wrong(f"{row}.serials", "No serial is named.", 'Write them as in serials = "0042, 0043".')
    for serial in serials:
        yield serial, BySerial(serial)


def _label(answers: Answers, row: str) -> ByLabel | None:
    """The figures of a label; None where they cannot be."""
    for name in _LABEL[1:]:
        answers.needs(f"{row}.{name}", "a panel by its label is known by it.")
    if any(answers.sound(f"{row}.{name}") is None for name in _LABEL):
        return None
    voc, vmp, isc, imp = (answers.number(f"{row}.{name}") for name in _LABEL[:4])
    cells = answers.count(f"{row}.cells")
    per_k = answers.sound_number(f"{row}.voc_per_k")
    wide, high = answers.number(f"{row}.width"), answers.number(f"{row}.height")
    plate = Nameplate(isc, voc / cells, imp, vmp / cells, USUAL_ISC_PER_K, per_k or USUAL_VOC_PER_K)
    for reason in impossible(plate, wide * high / cells):
        answers.wrong(f"{row}.voc", f"Of one of {cells} cells: {reason}", "Read the label again.")
    columns = _columns(answers, row, cells)
    answers.assume(f"{row}.diodes", ceil(cells / _BY_DIODE), "one for each 24 cells or less is usual")
    least = f"{needed_ampacity_a(isc):.4g} A"
    answers.assume(f"{row}.fuse", least, "the least a series fuse can be: the safe side; its label says more")
    answers.assume(f"{row}.system", "600 V", "old panels bear as much; the label says it")
    diodes, fuse, system = (
        answers.count(f"{row}.diodes"),
        *(answers.number(f"{row}.{n}") for n in ("fuse", "system")),
    )
    if diodes > cells:
        answers.wrong(
            f"{row}.diodes", f"There are {diodes} diodes for {cells} cells.", "Count them in the box."
        )
    if not per_k and not answers.given(f"{row}.voc_per_k"):
        why = "in cold the table of the rules is taken, which stays above common silicon; in heat -0.32 %/K"
        answers.assumed_open(f"{row}.voc_per_k", "unknown", why)
    figures = LabelFigures(voc, vmp, isc, imp, fuse, system, cells, diodes, columns, wide, high, per_k)
    return ByLabel(figures)


def _columns(answers: Answers, row: str, cells: int) -> int:
    """Columns of cells: as told, or as panels of so many cells usually have."""
    usual = 4 if cells <= _NARROW_CELLS else 6
    fitting = next((n for n in (usual, 4, 6, 3, 2, 1) if cells % n == 0), 1)
    answers.assume(f"{row}.cell_columns", fitting, f"usual for {cells} cells")
    columns = answers.count(f"{row}.cell_columns")
    if columns and cells % columns:
        reason = f"{cells} cells do not lie in {columns} columns."
        answers.wrong(f"{row}.cell_columns", reason, f"Write {fitting}, or count the cells again.")
    return columns


def read_strings(answers: Answers, rows: Rows, panels: Sequence[Wished], inputs: int) -> tuple[Typed, ...]:
    """Strings as typed; none where the program arranges."""
    names = [panel.name for panel in panels]
    seen: set[str] = set()
    strings = []
    for row in rows.of("string"):
        told = parts(answers.word(f"{row}.panels"))
        if not told and not answers.faulty(f"{row}.panels"):
            answers.wrong(
                f"{row}.panels", "No panel is named.", "Name them from minus to plus, or drop the string."
            )
        for name in told:
            if name not in names:
                hint, cure = nearest(name, names), f"The panels are {_some(names)}."
                answers.wrong(f"{row}.panels", f"No panel is called {name}.{hint}", cure)
            elif name in seen:
                reason = f"{name} lies in a string already."
                answers.wrong(f"{row}.panels", reason, "A panel lies in one string: keep one.")
            seen.add(name)
        number = answers.count(f"{row}.input")
        if number > inputs:
            cure = f"Write 1 to {inputs}, or inputs of the controller."
            answers.wrong(f"{row}.input", f"The controller has {inputs} input{'s' * (inputs > 1)}.", cure)
        strings.append(Typed(tuple(names.index(name) for name in told if name in names), number - 1))
    return tuple(strings)


def _some(names: Sequence[str]) -> str:
    return ", ".join(names[:12]) + (f" and {len(names) - 12} more" if len(names) > 12 else "")
