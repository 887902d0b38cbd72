"""A mapping proposed from a table: by its headings, by its units, and by the figures themselves.

A heading tells the quantity. Its unit stands in the heading, in the line under it, beside the figures, or is
told by the likely sizes of a cell's readings. Where that leaves two, nothing is guessed: both are told.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from panewright.intake.mapping import LIGHT, SHARED, SIGNED, Bound, Mapping
from panewright.intake.measure import UNITS, Unit, unit_of
from panewright.intake.naming import Named, heading, named
from panewright.intake.quantity import QUANTITIES, Quantity
from panewright.intake.sheet import Sheet
from panewright.intake.written import figures

_SAMPLE = 2000  # rows, spread over the table
_COMMA = re.compile(r"[-+]?\d*,\d+(?:\s*\D*)?", re.ASCII)
_POINT = re.compile(r"[-+]?\d*\.\d+(?:\s*\D*)?", re.ASCII)
_LEAST_DIFFER = 0.2  # of a mark's fields are unlike, even where a cell was read five times
_LIKELY = 0.5  # of the figures, at least, must be likely in a unit for it to be the one
_LIGHT = re.compile(r"(\d{2,4})\s*W\s?/\s?m(?:2|²)", re.IGNORECASE)
_HEAT = re.compile(r"(-?\d{1,2}(?:[.,]\d+)?)\s*(?:°|deg)\s?C", re.IGNORECASE)
_TURNED = (
    "Most are below zero, as a load counts them or with leads turned round: turned = true takes them so."
)
_STANDARD = re.compile(r"\bSTC\b|standard test conditions", re.IGNORECASE)


def propose(sheet: Sheet) -> Mapping:
    """What each column of a table seems to be, each with its reason.

    >>> from panewright.intake.sheet import read_sheet
    >>> mapping = propose(read_sheet(b"No;Isc;Uoc [mV];T\\n1;9,12;611;77\\n2;9,05;608;78\\n", "lot.csv"))
    >>> for each in mapping.bound: print(each)
    No: the cell's mark (names the cell's mark).
    Isc: short-circuit current in A (names short-circuit current; its figures are likely only in A).
    Uoc [mV]: open-circuit voltage in mV (names open-circuit voltage; the heading says mV).
    T: heat of the cell (names heat of the cell). LOOK: 77 to 78 may be degC or degF.
    """
    sample = _sample(sheet)
    mark = decimal_mark(sample)
    found = [_bound(sheet, column, sample[column], mark) for column in range(len(sheet.header))]
    found = _currents(_marked(found, sample))
    return Mapping(tuple(_numbered(found)), mark, _given(sheet, found))


def _sample(sheet: Sheet) -> list[list[str]]:
    step = max(len(sheet) // _SAMPLE, 1)
    return [list(column[::step]) for column in sheet.columns]


def decimal_mark(sample: Sequence[Sequence[str]]) -> str:
    """The mark that most numbers have which have one."""
    count = Counter(
        "," if _COMMA.fullmatch(text) else "." for column in sample for text in column if _has_mark(text)
    )
    return "," if count[","] > count["."] else "."


def _has_mark(text: str) -> bool:
    return bool(_COMMA.fullmatch(text) or _POINT.fullmatch(text))


def _bound(sheet: Sheet, column: int, sample: list[str], mark: str) -> Bound:
    header = sheet.header[column]
    said, told = named(header), heading(header)
    written = told.unit or sheet.units[column]
    start = Bound(column + 1, header, said.quantity, why=said.why, reading=told.reading, written=written)
    if not said.quantity:
        return replace(start, choices=said.choices, doubt=_which(said))
    quantity = QUANTITIES[said.quantity]
    doubt = "" if said.sure else "The heading is not written as any name that is known."
    start = replace(start, doubt=doubt, at_v=told.at_v)
    if not quantity.kind:
        return start
    values = _plain(sample, quantity, mark)
    if quantity.kind in SIGNED and not quantity.name.startswith("reverse") and _below(values):
        found = _with_unit(start, quantity, -values)
        return replace(found, doubt=f"{found.doubt} {_TURNED}".strip()) if found.quantity else found
    return _with_unit(start, quantity, values)


def _below(values: np.ndarray) -> bool:
    """Whether most figures are below zero, which a cell in the light shows no meter that is rightly put."""
    return bool(values.size) and bool(np.mean(values < 0) > _LIKELY)


def _which(said: Named) -> str:
    if not said.choices:
        return said.asked
    return "It may be " + " or ".join(QUANTITIES[each].said for each in said.choices) + "."


def _plain(sample: list[str], quantity: Quantity, mark: str) -> np.ndarray:
    """The sample's figures as they stand, those with a unit of their own left out."""
    alone = [text for text in sample if not any(letter.isalpha() for letter in text)]
    anything = replace(quantity, least=-1e300, most=1e300)
    values = figures(alone, anything, Unit("", quantity.kind, 1.0), mark).values
    return values[np.isfinite(values)]


def _with_unit(bound: Bound, quantity: Quantity, values: np.ndarray) -> Bound:
    if written := bound.written:
        unit = unit_of(written, quantity.kind)
        if unit is None:
            per_area = (
                " It is per area: multiply by the cell's first."
                if "cm2" in written or "cm²" in written
                else ""
            )
            return replace(
                bound,
                quantity="",
                why=f"[{written}] is no unit of {quantity.said}",
                doubt=f"Left unread.{per_area}{_reference(written, quantity)}",
            )
        return _held_against(
            replace(bound, unit=unit.name, why=f"{bound.why}; the heading says {unit.name}"), quantity, values
        )
    if not values.size:
        first = UNITS[quantity.kind][0].name
        return replace(
            bound, unit=first, why=f"{bound.why}; {first} for any figure without a unit of its own"
        )
    return _by_size(bound, quantity, values)


def _reference(written: str, quantity: Quantity) -> str:
    """What to do with the volts or amperes of a reference cell: only who owns it knows what it shows."""
    if quantity.kind != "light" or not (unit_of(written, "voltage") or unit_of(written, "current")):
        return ""
    return (
        f" Of a reference cell say how many {written} it shows in full sun, as its calibration says: "
        f'quantity = "{LIGHT}", full_sun = ...'
    )


def _by_size(bound: Bound, quantity: Quantity, values: np.ndarray) -> Bound:
    """The unit in which the figures are likely for a cell."""
    likely = [unit for unit in UNITS[quantity.kind] if _share_likely(values, quantity, unit) >= _LIKELY]
    if quantity.kind == "resistance" or quantity.name == "reverse_a":  # any size is likely of these
        likely = [UNITS[quantity.kind][0]]
        bound = replace(bound, doubt=f"No unit is written; {likely[0].name} is taken.")
    span = f"{values.min():.4g} to {values.max():.4g}"
    names = list({unit.factor: unit.name for unit in reversed(likely)}.values())[::-1]
    if len(names) == 1:
        return replace(bound, unit=names[0], why=f"{bound.why}; its figures are likely only in {names[0]}")
    if names:
        return replace(bound, choices=tuple(names), doubt=f"{span} may be {' or '.join(names)}.")
    return replace(bound, doubt=f"{span} is not likely of a cell in any unit.")


def _share_likely(values: np.ndarray, quantity: Quantity, unit: Unit) -> float:
    """How many of the figures a cell could show in this unit; heat is held against a shop's and a roof's."""
    si = values * unit.factor + unit.offset
    size = np.abs(si) if quantity.name.startswith("reverse") else si
    return float(np.mean((size >= quantity.least) & (size <= quantity.most)))


def _held_against(bound: Bound, quantity: Quantity, values: np.ndarray) -> Bound:
    """A unit that the heading says, held against the figures: a slip of it shows."""
    unit = bound.unit_known
    if unit is None or not values.size or _share_likely(values, quantity, unit) >= _LIKELY:
        return bound
    better = [each.name for each in UNITS[quantity.kind] if _share_likely(values, quantity, each) >= _LIKELY]
    meant = f" Is it {' or '.join(better)}?" if better else ""
    span = f"{values.min():.4g} to {values.max():.4g}"
    doubt = f"Most figures, {span}, are not likely of a cell in {unit.name}.{meant}"
    return replace(bound, doubt=f"{bound.doubt} {doubt}".strip())


def _marked(found: list[Bound], sample: list[list[str]]) -> list[Bound]:
    """One column for the mark: the best named; where none is, one without a name whose words all differ."""
    marks = [each for each in found if each.quantity == "mark"]
    if marks:
        best = max(marks, key=lambda each: _worth_as_mark(each, sample[each.column - 1]))
        return [_only(each, best) if each in marks else each for each in found]
    for each in found:
        texts = sample[each.column - 1]
        if not each.header and texts and _differ(texts) == 1 and not any(map(_has_mark, texts)):
            doubt = "It has no heading, but no two fields are alike: is it the cell's mark?"
            return [
                replace(each, quantity="mark", why="no two are alike", doubt=doubt)
                if other is each
                else other
                for other in found
            ]
    return found


def _worth_as_mark(each: Bound, texts: list[str]) -> tuple[bool, bool, float]:
    """A column that names a cell before one that only counts rows, if its fields do differ."""
    counts = "".join(heading(each.header).words) in ("no", "nr", "n", "num", "lp", "ndeg", "ndego", "lfdnr")
    return _differ(texts) > _LEAST_DIFFER, not counts, _differ(texts)


def _only(each: Bound, best: Bound) -> Bound:
    if each is best:
        return each
    doubt = f"It may be the mark as well as {best.header or 'another column'}, which was taken."
    return replace(each, quantity="", why="one column is the mark", doubt=doubt)


def _differ(texts: list[str]) -> float:
    return len(set(texts)) / max(len(texts), 1)


def _currents(found: list[Bound]) -> list[Bound]:
    """A bare current beside a column of the fixed voltage is the current at it."""
    fixed = any(each.quantity == "at_v" for each in found)
    bare = [each for each in found if "at_a" in each.choices]
    if not fixed or len(bare) != 1 or any(each.quantity == "at_a" for each in found):
        return found
    unit = unit_of(bare[0].written, "current") or UNITS["current"][0]
    why = "stands beside a fixed voltage"
    new = replace(bare[0], quantity="at_a", unit=unit.name, why=why, choices=(), doubt="")
    return [new if each is bare[0] else each for each in found]


def _numbered(found: list[Bound]) -> Iterator[Bound]:
    """Columns of one quantity are several readings; those whose headings do not count are counted here."""
    taken: set[tuple[str, int]] = set()
    for each in found:
        if not each.kind:
            yield each
            continue
        nth = each.reading or (0 if each.quantity in SHARED else 1)
        while (each.quantity, max(nth, 1)) in taken:
            nth = max(nth, 1) + 1
        taken.add((each.quantity, max(nth, 1)))
        if nth > max(each.reading, 1) and each.at_v is None:
            again = f"{QUANTITIES[each.quantity].said} stands there already: taken as reading {nth}."
            each = replace(each, doubt=f"{each.doubt} {again}".strip())
        yield replace(each, reading=nth)


def _given(sheet: Sheet, found: list[Bound]) -> dict[str, float]:
    """Light and heat that the titles or the headings say of every row."""
    told = " ".join(sheet.titles)
    bound = {each.quantity for each in found}
    words = " ".join((told, *(header for header in sheet.header if heading(header).conditions)))
    given = {}
    light, heat = _LIGHT.search(words), _HEAT.search(words)
    if "irradiance_w_m2" not in bound and (light or _STANDARD.search(words)):
        given["irradiance_w_m2"] = float(light.group(1)) if light else 1000.0
    if "cell_c" not in bound and (heat or _STANDARD.search(words)):
        given["cell_c"] = float(heat.group(1).replace(",", ".")) if heat else 25.0
    return given
