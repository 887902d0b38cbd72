"""A new array from what a maker decides: each field a key of the text, which is written from them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from panewright.desk.arrays.strings import quoted
from panewright.errors import Problem

_NUMBER = re.compile(r"[-+−]?\d+(?:[.,]\d+)?")


@dataclass(frozen=True, slots=True)
class Field:
    """One answer: its key, how it is asked, and the unit of a bare number."""

    key: str
    ask: str
    unit: str = ""
    example: str = ""
    hint: str = ""
    choices: tuple[tuple[str, str], ...] = ()
    value: str = ""  #: that stands there to begin with

    @property
    def id(self) -> str:
        """For a page."""
        return "a-" + self.key.replace(".", "-")


@dataclass(frozen=True, slots=True)
class Group:
    """Fields that belong together."""

    name: str
    title: str
    fields: tuple[Field, ...]
    hint: str = ""
    open: bool = True


_GROUNDS = (
    ("dwelling", "a dwelling"),
    ("other building", "another building"),
    ("open ground", "open ground"),
)
_MOUNTS = (
    ("open", "open at the back"),
    ("close to roof", "close to a roof"),
    ("closed back", "closed at the back"),
)
_KINDS = (("mppt", "seeks the best voltage"), ("direct", "joins panels and battery directly"))
_BANKS = (("", "no battery"), ("flooded", "lead, flooded"), ("agm", "AGM"), ("gel", "gel"), ("lfp", "LFP"))

GROUPS = (
    Group(
        "place",
        "Where it stands",
        (
            Field("array.name", "What it is called", example="Boathouse"),
            Field("place.latitude", "Latitude", "deg", "47.6", "north positive"),
            Field("place.longitude", "Longitude", "deg", "9.4", "east positive"),
            Field("rules.coldest", "Record cold", "degC", "-18", "of the air, ever"),
            Field("rules.hottest_air", "Record heat", "degC", "36", "of the air, ever"),
            Field("rules.on", "What it stands on", choices=_GROUNDS),
            Field(
                "rules.family", "Whose rules", choices=(("IEC", "IEC"), ("NEC", "NEC of the United States"))
            ),
        ),
    ),
    Group(
        "sky",
        "Its weather",
        (
            Field(
                "sky.light",
                "Light of each month",
                "kWh/m2/d",
                "0.9 1.7 2.9 4.2 5.1 5.6 5.7 4.8 3.4 2.0 1.0 0.7",
            ),
            Field("sky.air", "Air of each month", "degC", "0 1 5 9 14 17 19 18 14 10 5 1"),
            Field("sky.clearness", "Or a share of a clear sky", "%", "65", "where nobody knows the light"),
        ),
        "Twelve figures, January first: light on level ground, kWh/m² on a usual day; mean air, °C.",
    ),
    Group(
        "stand",
        "The plane they lie on",
        (
            Field("stand.tilt", "Tilt", "deg", "30", "0 lies flat"),
            Field("stand.azimuth", "Looks to", "deg", "180", "180 is south, 90 east"),
            Field("stand.mounting", "Behind them", choices=_MOUNTS),
            Field("stand.columns", "Side by side", example="3", hint="then rows upward"),
        ),
        "More planes, and what throws a shadow, are written in the text afterwards.",
    ),
    Group(
        "serials",
        "Panels built here",
        (Field("panel.serials", "Their serials", example="0042, 0043"),),
    ),
    Group(
        "order",
        "Panels of an order",
        (
            Field("panel.order", "Its number", example="JL-7"),
            Field("panel.count", "How many of them", example="4"),
        ),
    ),
    Group(
        "label",
        "Panels by their label",
        (
            Field("label.name", "What they are called", example="old"),
            Field("label.count", "How many alike", example="2"),
            Field("label.voc", "Voc", "V", "22.4"),
            Field("label.vmp", "Vmp", "V", "18.2"),
            Field("label.isc", "Isc", "A", "8.55"),
            Field("label.imp", "Imp", "A", "8.0"),
            Field("label.cells", "Cells in series", example="36"),
            Field("label.width", "Width", "mm", "670"),
            Field("label.height", "Height", "mm", "1480"),
            Field("label.fuse", "Largest fuse", "A", "15"),
            Field("label.age", "Age", "yr", "6"),
        ),
        open=False,
    ),
    Group(
        "controller",
        "Controller",
        (
            Field("controller.kind", "Its kind", choices=_KINDS),
            Field("controller.most", "Highest input voltage", "V", "100"),
            Field("controller.current", "Current into the battery", "A", "30"),
            Field("controller.inputs", "Inputs", example="1", hint="each with a tracker of its own"),
        ),
    ),
    Group(
        "battery",
        "Battery",
        (
            Field("battery.kind", "Its kind", choices=_BANKS, value="agm"),
            Field("battery.volts", "Voltage of the bank", "V", "24"),
            Field("battery.capacity", "Capacity", "Ah", "200"),
            Field("battery.temperature", "Where it stands it has", "degC", "15"),
        ),
    ),
    Group(
        "load",
        "What draws from it",
        (
            Field("load.power", "Power", "W", "40"),
            Field("load.from", "From hour", example="18"),
            Field("load.until", "Until hour", example="23"),
        ),
        "More loads are written in the text afterwards.",
    ),
)
_COUNTS = {
    "panel.count",
    "label.count",
    "label.cells",
    "stand.columns",
    "controller.inputs",
    "load.from",
    "load.until",
}
_OF_BATTERY = ("battery.volts", "battery.capacity", "battery.temperature", "controller.current")


def text_of(typed: Mapping[str, str]) -> str:
    """The text that the answers make; what was left open is left out."""
    said = {key: value.strip() for key, value in typed.items() if value.strip()}
    if not said.get("battery.kind"):
        said = {key: value for key, value in said.items() if key not in _OF_BATTERY}
    return "\n".join(_lines(said)) + "\n"


def _lines(said: Mapping[str, str]) -> Iterator[str]:
    for section in ("array", "place", "rules", "sky"):
        yield from _section(f"[{section}]", section, said)
    yield from _section("[[stand]]", "stand", said, {"name": "roof"})
    for row, keys in _panel_rows(said):
        yield from _section("[[panel]]", row, {key: said[key] for key in keys if key in said})
    for section in ("controller", "battery"):
        yield from _section(f"[{section}]", section, said)
    if said.get("battery.kind"):
        yield from _section("[[load]]", "load", said)


def _panel_rows(said: Mapping[str, str]) -> Iterator[tuple[str, tuple[str, ...]]]:
    """The entries of panels that are told, in their order: section of the form, and its keys."""
    if "panel.serials" in said:
        yield "panel", ("panel.serials",)
    if "panel.order" in said:
        yield "panel", ("panel.order", "panel.count")
    if any(key.startswith("label.") for key in said):
        yield "label", tuple(key for key in said if key.startswith("label."))


def _section(
    head: str, section: str, said: Mapping[str, str], more: Mapping[str, str] | None = None
) -> Iterator[str]:
    told = {key: value for key, value in said.items() if key.startswith(f"{section}.")}
    if not told:
        return
    yield head
    for name, value in (more or {}).items():
        yield f"{name} = {quoted(value)}"
    for field in _fields():
        if field.key in told:
            yield f"{field.key.partition('.')[2]} = {_value(field, told[field.key])}"
    yield ""


def _value(field: Field, typed: str) -> str:
    """A count as a number, a bare number with its unit, anything else as it was typed."""
    if field.key in _COUNTS and typed.isascii() and typed.isdecimal() and len(typed) < 9:
        return str(int(typed))
    figures = typed.replace(";", " ").split()
    bare = field.unit and figures and all(_NUMBER.fullmatch(each) for each in figures)
    typed = f"{' '.join(each.replace(',', '.') for each in figures)} {field.unit}" if bare else typed
    return quoted(typed)


def _fields() -> Iterator[Field]:
    return (field for group in GROUPS for field in group.fields)


def wrong(typed: Mapping[str, str], problems: Sequence[Problem]) -> dict[str, Problem]:
    """What is wrong by field; what belongs to no field is under the key of none."""
    said = {key: value for key, value in typed.items() if value.strip()}
    rows = [keys for _, keys in _panel_rows(said)]
    found: dict[str, Problem] = {}
    for problem in problems:
        key = _field_of(problem.key, rows)
        found.setdefault(key, problem)
    return found


def _field_of(key: str, rows: Sequence[tuple[str, ...]]) -> str:
    """The field of a key such as 'panel 2.voc'."""
    section, _, name = key.partition(".")
    word, _, number = section.partition(" ")
    if word == "panel" and number.isdecimal() and int(number) <= len(rows):
        row = rows[int(number) - 1]
        word = row[0].partition(".")[0]
        name = name or row[0].partition(".")[2]
    dotted = f"{word}.{name}"
    known = {field.key for field in _fields()}
    if dotted in known:
        return dotted
    first = next((each.key for each in _fields() if each.key.startswith(f"{word}.")), "")
    return first if word != "panel" else "panel.serials"
