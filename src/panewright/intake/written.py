"""Numbers as people write them: decimal points or commas, marks of thousands, a unit beside, or nothing.

What can be read in two ways is read in the one that a cell could show, if only one could; else it is refused.
An empty field or 'n/a' is no reading and no mistake. 'OL', a meter's overload, is one, except where it says
that a shunt is too large to be read.
"""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from panewright.intake.measure import UNITS, Unit, unit_of
from panewright.intake.quantity import Quantity

_NOTHING = frozenset(
    {
        "",
        "-",
        "--",
        "---",
        "–",
        "—",
        "?",
        "/",
        ".",
        "n/a",
        "na",
        "n.a.",
        "#n/a",
        "#nv",
        "nan",
        "none",
        "null",
        "nil",
    }
    | {"nd", "n.d.", "k.a.", "k. a.", "n.v.", "nv", "n.m.", "not measured", "missing", "x"}
)
_OVERLOAD = frozenset(
    {"ol", "o.l", "o.l.", "0l", "0.l", "overload", "over", "ovl", "ovld", "overrange", "over range"}
)
_FAULTS = re.compile(
    r"#(?:DIV/0!|REF!|VALUE!|NAME\?|NUM!|NULL!|BEZUG!|WERT!|ZAHL!|VALEUR!|NOM\?|NOMBRE!)", re.IGNORECASE
)
_DATE = re.compile(
    r"\d{4}-\d\d-\d\d( \d\d:\d\d:\d\d)?|\d{1,2}[./]\d{1,2}[./]\d{2,4}|\d{1,2}(?:-|\. ?)[A-Za-z]{3,9}\.?"
)
_PLAIN = re.compile(r"[-+0-9.eE\x1f ]*")
_NUMBER = re.compile(r"([-+]?(?:\d[\d.,' ]*|[.,]\d+)(?:[eE][-+]?\d{1,3})?)\s*(.*)", re.ASCII | re.DOTALL)
_SIGNS = str.maketrans({"\u2212": "-", "\u2013": "-", "\u00a0": " ", "\u202f": " ", "\u2009": " ", "’": "'"})
_LONGEST = 60


@dataclass(frozen=True, slots=True)
class Fault:
    """Why a field is no reading."""

    reason: str
    cure: str


@dataclass(frozen=True, slots=True)
class Figures:
    """A column in SI; nan where nothing was read, and why where something should have been."""

    values: NDArray[np.float64]
    faults: Mapping[int, Fault] = field(default_factory=dict)
    notes: Mapping[str, int] = field(default_factory=dict)  #: what was settled on the way: how often


def figures(texts: Sequence[str], quantity: Quantity, unit: Unit, decimal_mark: str) -> Figures:
    """A column's numbers, in SI.

    >>> from panewright.intake.quantity import QUANTITIES
    >>> column = figures(["612", "0,61 V", "n/a", "chip"], QUANTITIES["voc_v"], UNITS["voltage"][1], ",")
    >>> column.values.tolist(), column.faults[3].reason
    ([0.612, 0.61, nan, nan], 'This is no number.')
    """
    quick = _quick(texts, decimal_mark)
    if quick is not None:
        return Figures(quick * unit.factor + unit.offset)
    read = {text: _one(text, quantity, unit, decimal_mark) for text in dict.fromkeys(texts)}
    values = np.array([read[text][0] for text in texts], np.float64)
    faults = {text: fault for text, (_, fault, _) in read.items() if fault}
    noted = {text: note for text, (_, _, note) in read.items() if note}
    wrong = {place: faults[text] for place, text in enumerate(texts) if text in faults} if faults else {}
    return Figures(values, wrong, Counter(noted[text] for text in texts if text in noted) if noted else {})


def _quick(texts: Sequence[str], decimal_mark: str) -> NDArray[np.float64] | None:
    """A column of nothing but plain numbers and empty fields; None where there is more to it."""
    if max(map(len, texts), default=0) > _LONGEST:
        return None
    joined = "\x1f".join(texts)
    if decimal_mark == ",":
        if "." in joined:
            return None
        joined = joined.replace(",", ".")
    if not _PLAIN.fullmatch(joined):
        return None
    try:
        values = [float(text) if text else math.nan for text in joined.split("\x1f")] if texts else []
    except ValueError:
        return None
    found = np.array(values, np.float64)
    return None if np.isinf(found).any() else found


def _one(text: str, quantity: Quantity, unit: Unit, mark: str) -> tuple[float, Fault | None, str]:
    clean = text.translate(_SIGNS).strip()
    small = clean.casefold()
    if small in _NOTHING:
        return math.nan, None, ""
    if small in _OVERLOAD:
        return _overloaded(quantity)
    found = _NUMBER.fullmatch(clean)
    if len(clean) > _LONGEST or found is None or _DATE.fullmatch(clean):
        return math.nan, _no_number(clean), ""
    own = _unit(found.group(2), quantity, unit)
    if own is None:
        shown = ", ".join(each.name for each in UNITS.get(quantity.kind, ()))
        cure = f"Write one of: {shown}." if shown else "Write the number alone."
        return (
            math.nan,
            Fault(f"{found.group(2)[:20]!r} is no unit of {quantity.said}.", cure),
            "",
        )
    return _settled(found.group(1), quantity, own, mark)


def _unit(letters: str, quantity: Quantity, unit: Unit) -> Unit | None:
    """The unit beside a figure, with the sign of its column's; the column's own where none is."""
    if letters.strip() in ("", unit.name):
        return unit
    own = unit_of(letters, quantity.kind)
    return replace(own, factor=math.copysign(own.factor, unit.factor)) if own else None


def _overloaded(quantity: Quantity) -> tuple[float, Fault | None, str]:
    if quantity.name == "shunt_ohm":
        return math.nan, None, "beyond the meter's range, counted as not read"
    cure = "Read it again in a wider range of the meter, or leave the field empty."
    return math.nan, Fault("The meter was overloaded: it shows no figure.", cure), ""


def _no_number(clean: str) -> Fault:
    if clean.startswith("="):
        cure = "Open the file in a spreadsheet program, let it reckon, and save it again."
        return Fault("This is a formula without its value.", cure)
    if _FAULTS.fullmatch(clean):
        return Fault(
            "The spreadsheet's own formula failed here.", "Mend the formula, or leave the field empty."
        )
    if _DATE.fullmatch(clean):
        cure = "Write the number again into a field that the spreadsheet takes for text or a number."
        return Fault("This is a date; a spreadsheet may have made it of a number.", cure)
    return Fault(
        "This is no number.", "Write the number alone, or leave the field empty where nothing was read."
    )


def _settled(digits: str, quantity: Quantity, unit: Unit, mark: str) -> tuple[float, Fault | None, str]:
    """The one way to read these digits."""
    ways = _ways(digits, mark)
    values = {way: float(way) * unit.factor + unit.offset for way in ways}
    if not ways or not all(map(math.isfinite, values.values())):
        return math.nan, Fault("This is no number.", "Write it with one mark of decimals and no other."), ""
    if len(ways) == 1:
        return values[ways[0]], None, _other_mark(digits, ways[0], mark)
    fit = [way for way in ways if quantity.likely(values[way])]
    if len(fit) == 1:
        return values[fit[0]], None, "could be read in two ways, of which a cell can show but one"
    said = " or ".join(ways)
    return math.nan, Fault(f"This may mean {said}.", "Write it without a mark of thousands."), ""


def _other_mark(digits: str, way: str, mark: str) -> str:
    """A decimal that is marked otherwise than the rest of the table's is told."""
    if "." not in way or mark in digits:
        return ""
    return "written with a point for decimals" if mark == "," else "written with a comma for decimals"


def _ways(digits: str, mark: str) -> tuple[str, ...]:
    """Every number that digits with these marks can mean, the likelier first.

    >>> _ways("1.234,5", ","), _ways("9.123", ","), _ways("9.12", ","), _ways("1 012", ".")
    (('1234.5',), ('9123', '9.123'), ('9.12',), ('1012',))
    """
    bare = re.sub(r"(?<=\d)[' ](?=\d{3}(?!\d))", "", digits.strip())
    other = "." if mark == "," else ","
    if re.search(r"[' ]", bare):
        return ()
    body, exponent = (*re.split(r"([eE].*)", bare, maxsplit=1), "")[:2]
    last, first = body.rfind(mark), body.rfind(other)
    if first < 0:
        return (body.replace(mark, ".") + exponent,) if body.count(mark) < 2 else _thousands(body, mark)
    if last < 0:
        grouped = () if exponent else _thousands(body, other)
        return grouped + ((body.replace(other, ".") + exponent,) if body.count(other) == 1 else ())
    low, high = (mark, other) if last > first else (other, mark)
    whole, _, rest = body.partition(low)
    grouped = _thousands(whole, high)
    return (f"{grouped[0]}.{rest}{exponent}",) if grouped and not {".", ","} & set(rest) else ()


def _thousands(body: str, mark: str) -> tuple[str, ...]:
    """The number if its marks part thousands."""
    if re.fullmatch(rf"[-+]?[1-9]\d{{0,2}}(?:{re.escape(mark)}\d{{3}})+", body):
        return (body.replace(mark, ""),)
    return ()
