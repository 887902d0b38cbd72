"""A mapping proposed for a curve's file: by headings, by units, and by the figures themselves.

A heading tells the quantity; its unit stands in it, in the line under it, or is told by the size of the
greatest figure. Where no heading tells, the figures may: a third column that is the product of two is their
power. What stays open is told.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from itertools import permutations

import numpy as np
from numpy.typing import NDArray

from panewright.intake.curves.blocks import Block, Blocks
from panewright.intake.curves.mapping import CLOCK, Columns, CurveMapping, Taken
from panewright.intake.curves.moments import moment
from panewright.intake.curves.naming import named, unit_in, units_of
from panewright.intake.curves.quantity import OF_A_LINE, OF_A_POINT, QUANTITIES
from panewright.intake.measure import Unit
from panewright.intake.proposal import decimal_mark
from panewright.intake.quantity import Quantity
from panewright.intake.written import figures

_MOST = 0.9  # of the points: past open circuit a current may grow without end
_SAMPLE = 2000  # rows, spread over the table
_BY_UNIT_ALONE = "only its unit tells"
_ALIKE = 0.02  # of the greatest power: a column that is the product of two others
_ANY = Quantity("voltage_v", "a number", "voltage", -1e300, 1e300)

Sample = list[list[str]]


def propose(blocks: Blocks) -> CurveMapping:
    """What each column of each table seems to be, each with its reason.

    >>> from panewright.intake.curves.blocks import read_blocks
    >>> mapping = propose(read_blocks(b"t;U [mV];Strom;E\\n0;12;9,1;812\\n1;611;0,1;811\\n", "curve.csv"))
    >>> for each in mapping.tables[0]: print(each)
    t: time in s (is a short form; its figures rise). LOOK: No unit is written; s is taken.
    U [mV]: voltage in mV (names voltage; the heading says mV).
    Strom: current in A (names current; its greatest figure is likely only in A).
    E: irradiance in W/m2 (names irradiance; its figures are likely only in W/m2).
    """
    first = {block.header: block for block in reversed(blocks.blocks)}
    shapes = list(dict.fromkeys(block.header for block in blocks.blocks))
    samples = {head: _sample([block for block in blocks.blocks if block.header == head]) for head in shapes}
    mark = decimal_mark([column for sample in samples.values() for column in sample])
    return CurveMapping(tuple(_columns(first[head], samples[head], mark) for head in shapes), mark)


def _sample(blocks: Sequence[Block]) -> Sample:
    """Some rows of all tables of one shape."""
    step = max(sum(map(len, blocks)) // _SAMPLE, 1)
    return [
        [text for block in blocks for text in block.columns[column][::step]]
        for column in range(len(blocks[0].header))
    ]


def _columns(block: Block, sample: Sample, mark: str) -> Columns:
    numbers = [_numbers(column, mark) for column in sample]
    found = [_taken(block, place, sample[place], numbers[place]) for place in range(len(block.header))]
    found = _by_figures(found, numbers)
    like = {
        name: [numbers[each.column - 1] for each in found if each.quantity == name] for name in QUANTITIES
    }
    found = [
        _with_unit(each, sample[each.column - 1], np.concatenate(like[each.quantity]))
        if each.quantity
        else each
        for each in found
    ]
    return tuple(_numbered(_held_against_power(_without_strange_volts(found), numbers)))


def _numbers(texts: list[str], mark: str) -> NDArray[np.float64]:
    """A sample's figures as they stand, nan where there is none."""
    return figures(texts, _ANY, Unit("", "voltage", 1.0), mark).values


def _taken(block: Block, place: int, texts: list[str], numbers: NDArray[np.float64]) -> Taken:
    header = block.header[place]
    said = named(header)
    written = block.units[place] or said.unit
    start = Taken(place + 1, header, "", nth=said.nth, why=said.why, written=written)
    if said.choices:
        return _short_form(start, texts, numbers)
    if said.asked:
        return replace(start, why=said.why, doubt=said.asked)
    if not said.quantity or said.quantity in OF_A_LINE:
        return replace(start, why=said.why if header else "it has no heading")
    if said.why == _BY_UNIT_ALONE and block.units[place]:  # the line under it says more
        return replace(start, quantity=said.quantity, why=said.why)
    doubt = "" if said.sure else "The heading is not written as any name that is known."
    return replace(start, quantity=said.quantity, doubt=doubt)


def _short_form(start: Taken, texts: list[str], numbers: NDArray[np.float64]) -> Taken:
    """A 't' is a time where the unit under it, a clock or rising figures say so, else a heat."""
    if start.written:
        time = unit_in(start.written, "time") is not None
        return replace(start, quantity="time" if time else "cell_c", why="its unit tells which of two it is")
    if any(map(moment, texts[:5])):
        return replace(start, quantity="time", why=f"{start.why}; its fields are times of day")
    known = numbers[np.isfinite(numbers)]
    if known.size > 1 and np.all(np.diff(known) > 0):
        return replace(start, quantity="time", why=f"{start.why}; its figures rise")
    return replace(start, quantity="cell_c", why=f"{start.why}; its figures do not rise as a time does")


def _without_strange_volts(found: list[Taken]) -> list[Taken]:
    """Volts of which only the unit tells, beside a named voltage and one current: no second sweep."""
    volts = [each for each in found if each.quantity == "voltage_v"]
    named_so = [each for each in volts if each.why != _BY_UNIT_ALONE]
    if not named_so or sum(each.quantity == "current_a" for each in found) != 1:
        return found
    there = f"The voltage is {named_so[0].header!r}, and there is one current"
    doubt = f"{there}: left unread. Whose volts are these?"
    strange = [each for each in volts if each.why == _BY_UNIT_ALONE]
    return [
        replace(each, quantity="", unit="", choices=(), doubt=doubt) if each in strange else each
        for each in found
    ]


def _by_figures(found: list[Taken], numbers: list[NDArray[np.float64]]) -> list[Taken]:
    """Voltage and current where no heading tells them."""
    got = {each.quantity for each in found}
    free = [
        each.column - 1
        for each in found
        if not each.quantity and each.why in ("it has no heading", "no name that is known")
        if np.mean(np.isfinite(numbers[each.column - 1])) > 0.5
    ]
    lacking = [name for name in OF_A_POINT[:2] if name not in got]
    if not lacking or got & {"load_ohm", "shunt_v"} or len(free) < len(lacking):
        return found
    if len(lacking) == 1 and len(free) == 1:
        why = f"no heading is the {QUANTITIES[lacking[0]].said}, and no other column is left"
        return _as(found, {free[0]: lacking[0]}, why, "Is it?")
    if len(lacking) == 2 and (three := _product(free, numbers)):
        meant = dict(zip(three, ("voltage_v", "current_a", "power_w"), strict=True))
        return _as(found, meant, "one column is the product of two", "Is the voltage before the current?")
    if len(lacking) == 2:
        meant = dict(zip(free, lacking, strict=False))
        return _as(
            found, meant, "no heading tells; the voltage is mostly first", "Is it the other way round?"
        )
    return found


def _as(found: list[Taken], meant: dict[int, str], why: str, doubt: str) -> list[Taken]:
    return [
        replace(each, quantity=meant[place], why=why, doubt=doubt) if place in meant else each
        for place, each in enumerate(found)
    ]


def _product(free: list[int], numbers: list[NDArray[np.float64]]) -> tuple[int, int, int] | None:
    """Three columns of which the last is the product of the others."""
    for first, second, third in permutations(free[:6], 3):
        if first < second and _is_product(numbers[first], numbers[second], numbers[third]):
            return first, second, third
    return None


def _is_product(v: NDArray[np.float64], i: NDArray[np.float64], p: NDArray[np.float64]) -> bool:
    size = float(np.nanmax(np.abs(p), initial=0.0))
    off = np.abs(np.abs(v * i) - np.abs(p))
    return size > 0 and float(np.ptp(v[np.isfinite(v)])) > 0 and bool(np.nanmedian(off) < _ALIKE * size / 10)


def _with_unit(each: Taken, texts: list[str], numbers: NDArray[np.float64]) -> Taken:
    """The unit that is written, or else the only one in which the figures are likely."""
    if not each.kind:
        return each
    if each.quantity == "time" and any(map(moment, [text for text in texts if text.strip()][:5])):
        return replace(each, unit=CLOCK, why=f"{each.why}; moments are written")
    quantity = QUANTITIES[each.quantity]
    if each.written:
        unit = unit_in(each.written, quantity.kind)
        if unit is None:
            doubt = f"[{each.written}] is no unit of {quantity.said}: left unread."
            return replace(each, quantity="", doubt=doubt)
        told = each.why if each.why == _BY_UNIT_ALONE else f"{each.why}; the heading says {unit.name}"
        return _held_against(replace(each, unit=unit.name, why=told), quantity, unit, numbers)
    if each.quantity == "time":
        return replace(each, unit="s", doubt="No unit is written; s is taken.")
    return _by_size(each, quantity, numbers)


def _size(quantity: Quantity, numbers: NDArray[np.float64]) -> float:
    """The figure that tells a unit: the greatest of a swept one, the middle of light and heat."""
    known = numbers[np.isfinite(numbers)]
    if not known.size:
        return float("nan")
    if quantity.name in OF_A_POINT:
        return float(np.quantile(np.abs(known), _MOST, method="higher"))
    return float(np.median(known))


def _by_size(each: Taken, quantity: Quantity, numbers: NDArray[np.float64]) -> Taken:
    size = _size(quantity, numbers)
    units = units_of(quantity.kind)
    if quantity.kind == "resistance":
        return replace(each, unit="ohm", doubt=f"{each.doubt} No unit is written; ohm is taken.".strip())
    if np.isnan(size):
        return replace(
            each, unit=units[0].name, why=f"{each.why}; {units[0].name} where no unit stands beside"
        )
    likely = [unit.name for unit in units if quantity.likely(size * unit.factor + unit.offset)]
    which = "greatest figure is" if quantity.name in OF_A_POINT else "figures are"
    if len(likely) == 1:
        return replace(each, unit=likely[0], why=f"{each.why}; its {which} likely only in {likely[0]}")
    doubt = f"{size:.4g} may be {' or '.join(likely)}." if likely else f"{size:.4g} is likely in no unit."
    unread = "" if quantity.name in OF_A_POINT[:2] else " It is left unread until its unit is settled."
    return replace(each, choices=tuple(likely), doubt=f"{each.doubt} {doubt}{unread}".strip())


def _held_against(each: Taken, quantity: Quantity, unit: Unit, numbers: NDArray[np.float64]) -> Taken:
    """A unit that is written, held against the figures: a slip of it shows."""
    size = _size(quantity, numbers)
    if quantity.kind in ("time", "resistance") or not np.isfinite(size) or quantity.name == "shunt_v":
        return each
    si = size * unit.factor + unit.offset
    if quantity.likely(si) or (quantity.name in OF_A_POINT and si < quantity.least):
        return each
    doubt = f"{size:.4g} {unit.name} is not likely of {quantity.said}."
    return replace(each, doubt=f"{each.doubt} {doubt}".strip())


def _held_against_power(found: list[Taken], numbers: list[NDArray[np.float64]]) -> list[Taken]:
    """A column of power that is not the product of voltage and current puts all three in doubt."""
    by = {name: [each for each in found if each.quantity == name and each.unit] for name in OF_A_POINT[:3]}
    if any(len(each) != 1 for each in by.values()):
        return found
    v, i, p = (_si(by[name][0], numbers) for name in OF_A_POINT[:3])
    both = np.isfinite(v * i * p)
    if not np.any(both):
        return found
    off = float(np.median(np.abs(np.abs(v * i) - np.abs(p))[both])) / max(float(np.abs(p[both]).max()), 1e-12)
    if off <= _ALIKE:
        return found
    doubt = f"It is not voltage times current, by {off:.0%} of its greatest in the middle: is a unit wrong?"
    power = by["power_w"][0]
    return [replace(each, doubt=doubt) if each is power else each for each in found]


def _si(each: Taken, numbers: list[NDArray[np.float64]]) -> NDArray[np.float64]:
    unit = each.unit_known
    assert unit is not None  # only columns with a unit come here
    return np.asarray(numbers[each.column - 1] * unit.factor + unit.offset)


def _numbered(found: list[Taken]) -> list[Taken]:
    """Columns of one quantity that do not count themselves are counted; a lone one is of all."""
    count = Counter(each.quantity for each in found)
    taken: Counter[str] = Counter()
    new = []
    for each in found:
        taken[each.quantity] += 1
        alone = count[each.quantity] == 1 or each.quantity not in OF_A_POINT
        counted = (
            len({other.nth for other in found if other.quantity == each.quantity}) == count[each.quantity]
        )
        new.append(replace(each, nth=0 if alone else each.nth if counted else taken[each.quantity]))
    return new
