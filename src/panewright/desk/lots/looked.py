"""A table looked at for a page: columns with samples, what is open, and its readings where nothing is."""

from __future__ import annotations

from collections.abc import Mapping as Typed
from dataclasses import dataclass, replace

from panewright.desk.lots.table import look
from panewright.errors import PanewrightError, Problem, SheetError
from panewright.intake.accuracy import ACCURACIES, accuracies_of, accuracy_words
from panewright.intake.cells import CellRows
from panewright.intake.light import STC, STC_CELL_C, STC_LIGHT_W_M2, in_light
from panewright.intake.mapping import GIVEN, SIGNED, UNKNOWN, Bound, Mapping
from panewright.intake.mapping_text import as_toml, from_toml
from panewright.intake.measure import UNITS
from panewright.intake.quantity import QUANTITIES

_SAMPLES, _LETTERS = 3, 40
_MINUS = ("-", "\u2212", "\u2013")
LEFT_UNREAD = ""
AS_GIVEN = "given"  #: of the light: a figure that is typed


@dataclass(frozen=True, slots=True)
class Looked:
    """What came of looking."""

    name: str
    text: str  #: the mapping
    shape: tuple[str, ...]
    samples: tuple[tuple[str, ...], ...]  #: of each column, the first fields with something in them
    titles: tuple[str, ...]
    rows: CellRows | None  #: None while a column is open
    problems: tuple[Problem, ...] = ()  #: what is open

    @property
    def sure(self) -> bool:
        """Whether it can be read without a person's look."""
        return self.rows is not None and not from_toml(self.text).doubts


@dataclass(frozen=True, slots=True)
class Column:
    """A column as a picker shows it."""

    number: int
    header: str
    quantity: str
    unit: str
    reading: int
    at_v: str
    turned: bool
    may_turn: bool  #: whether a page asks for its sign
    full_sun: str
    may_scale: bool  #: whether a page asks what a reference cell shows in full sun
    why: str
    doubt: str
    samples: tuple[str, ...]


def looked(data: bytes, name: str, mapping: str = "") -> Looked:
    """The table in these bytes by a mapping, or by a proposed one."""
    table = look(data, name, mapping)
    samples = tuple(
        tuple(field.strip()[:_LETTERS] for field in column if field.strip())[:_SAMPLES]
        for column in ([*each[:200]] for each in table.sheet.columns)
    )
    rows: CellRows | None = None
    problems: tuple[Problem, ...] = ()
    try:
        rows = table.read()
    except SheetError as told:
        problems = told.problems
    sheet = table.sheet
    return Looked(sheet.name, table.text, sheet.header, samples, sheet.titles, rows, problems)


def columns(text: str, samples: tuple[tuple[str, ...], ...] = ()) -> tuple[Column, ...]:
    """The columns of a mapping, each with its samples where they are known."""
    shown = samples or ((),) * len(from_toml(text).bound)
    return tuple(
        Column(
            each.column,
            each.header or f"column {each.column}",
            each.quantity,
            each.unit,
            max(each.reading, 1),
            _typed(each.at_v),
            each.turned,
            each.kind in SIGNED and (each.turned or any(text.startswith(_MINUS) for text in some)),
            _typed(each.full_sun),
            each.may_be_reference,
            each.why,
            each.doubt,
            some,
        )
        for each, some in zip(from_toml(text).bound, shown, strict=True)
    )


def _typed(value: float | None) -> str:
    return "" if value is None else f"{value:g}"


def quantities() -> tuple[tuple[str, str], ...]:
    """What a column may be: key and words."""
    return tuple((each.name, each.said) for each in QUANTITIES.values())


def units() -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Units kind by kind."""
    return tuple((kind, tuple(unit.name for unit in some)) for kind, some in UNITS.items())


def given(text: str) -> dict[str, str]:
    """What holds for all rows, as one would type it again."""
    mapping = from_toml(text)
    return {name: f"{mapping.given[name]:g}" if name in mapping.given else "" for name in GIVEN}


def light(text: str) -> str:
    """What was said of the light where no column says it: STC, given, unknown; '' where nothing."""
    mapping = from_toml(text)
    if mapping.light == UNKNOWN:
        return UNKNOWN
    said = mapping.given.get("irradiance_w_m2")
    if said is None:
        return ""
    return STC if (said, mapping.given.get("cell_c")) == (STC_LIGHT_W_M2, STC_CELL_C) else AS_GIVEN


def light_open(text: str) -> bool:
    """Whether the light must still be said."""
    return from_toml(text).open_light


def anew(text: str, proposed: str) -> str:
    """A mapping that another table was read by, for this one; light and heat of that day stay behind."""
    before, fresh = from_toml(text), from_toml(proposed)
    given = {name: value for name, value in before.given.items() if name not in GIVEN[:2]}
    return as_toml(replace(before, given={**given, **fresh.given}, light=""))


def errors(text: str) -> tuple[tuple[str, str, str, str], ...]:
    """What may be said of the readings' errors: key, words, an example, and what was said."""
    said = dict(accuracy_words(from_toml(text).errors))
    return tuple(
        (name, words, example, said.get(name, "")) for name, (_, _, example, _, words) in ACCURACIES.items()
    )


def settled(text: str, typed: Typed[str, str]) -> str:
    """A mapping with what a form says of its columns; every mistake in it at once."""
    mapping, problems = from_toml(text), list[Problem]()
    for each in mapping.bound:
        try:
            mapping = _with_column(mapping, each, typed)
        except PanewrightError as mistake:
            problems += mistake.problems
    try:
        mapping = _with_given(mapping, typed)
    except PanewrightError as mistake:
        problems += mistake.problems
    said = {name: typed.get(f"error-{name}", "") for name in ACCURACIES}
    figures, wrong = accuracies_of({name: words for name, words in said.items() if words.strip()}, "error")
    problems += wrong
    if any(f"error-{name}" in typed for name in ACCURACIES):
        mapping = replace(mapping, errors=figures)
    if problems:
        raise SheetError(problems)
    if typed.get("decimal_mark", "") in (".", ","):
        mapping = replace(mapping, decimal_mark=typed["decimal_mark"])
    return as_toml(mapping)


def _with_column(mapping: Mapping, each: Bound, typed: Typed[str, str]) -> Mapping:
    n = each.column
    if f"quantity-{n}" not in typed:
        return mapping
    quantity, unit = typed[f"quantity-{n}"], typed.get(f"unit-{n}", "")
    if quantity and quantity not in QUANTITIES:
        raise _wrong(each, quantity, "This is nothing that a column holds.", "Choose from the list.")
    kind = QUANTITIES[quantity].kind if quantity else ""
    known = {one.name for one in UNITS.get(kind, ())}
    if unit not in known:
        fits = unit == "" or quantity != each.quantity
        if not fits:
            raise _wrong(
                each, unit, "This unit is not one of that quantity.", f"Choose of: {', '.join(known)}."
            )
        unit = ""
    reading = int(typed.get(f"reading-{n}", "1")) if typed.get(f"reading-{n}", "1").isdecimal() else 1
    at_v = number(typed.get(f"at-{n}", ""), f"{each.header}: at")
    turned = typed[f"turned-{n}"] == "yes" if f"turned-{n}" in typed else each.turned
    sun = number(typed.get(f"sun-{n}", _typed(each.full_sun)), f"{each.header}: full sun") or 0.0
    if sun < 0:
        raise _wrong(each, f"{sun:g}", "A reference cell shows more than nothing in full sun.", "Look again.")
    if sun and unit:
        raise _wrong(each, unit, "What it shows in full sun is its unit.", "Leave one of the two out.")
    before = (each.quantity, each.unit, each.at_v, each.turned, each.full_sun or 0.0)
    same = (quantity, unit, at_v, turned, sun) == before
    still_open = bool(kind) and not (unit or sun) and quantity == each.quantity
    if same and reading == max(each.reading, 1) and (still_open or not each.doubt):
        return mapping
    nth = each.reading if reading == max(each.reading, 1) else reading
    return mapping.settle(n, quantity, unit or None, reading=nth, at_v=at_v, turned=turned, full_sun=sun)


def _with_given(mapping: Mapping, typed: Typed[str, str]) -> Mapping:
    before = mapping
    said = {name: number(typed.get(f"given-{name}", ""), QUANTITIES[name].said) for name in GIVEN}
    if any(f"given-{name}" in typed for name in GIVEN):
        mapping = replace(mapping, given={name: value for name, value in said.items() if value is not None})
    if typed.get("light", "") in (STC, UNKNOWN):
        _refuse_two(said.get("irradiance_w_m2"), before.given.get("irradiance_w_m2"), typed["light"])
        return in_light(mapping, typed["light"])
    return replace(mapping, light="") if "light" in typed else mapping


def _refuse_two(typed: float | None, before: float | None, way: str) -> None:
    """A light that is typed anew beside a choice that says another."""
    if typed is not None and typed != before and (way, typed) != (STC, STC_LIGHT_W_M2):
        cure = "Choose the light that is written, or empty its field."
        raise SheetError([Problem("Two lights are said.", cure, key="light", value=f"{typed:g} W/m2, {way}")])


def number(typed: str, key: str) -> float | None:
    """A plain number with a point or a comma; None where nothing is typed."""
    words = typed.strip().replace(",", ".")
    if not words:
        return None
    try:
        value = float(words)
    except ValueError:
        value = float("nan")
    if not abs(value) < 1e9:
        raise SheetError([Problem("This is no number.", "Write a number alone.", key=key, value=typed[:40])])
    return value


def _wrong(each: Bound, value: str, reason: str, cure: str) -> SheetError:
    return SheetError([Problem(reason, cure, key=each.header or f"column {each.column}", value=value[:40])])
