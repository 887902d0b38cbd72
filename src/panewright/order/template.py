"""A commented order to start from, made of the same schema that reads orders."""

from __future__ import annotations

from panewright.order.schema import SECTIONS, keys_of
from panewright.order.sections.in_full import IN_FULL
from panewright.shelf.key import Key

# keys that a first order states although none of them alone is required
_STATED = frozenset(
    {"load.battery", "load.battery_voltage", "load.controller", "load.controller_most", "cell.name"}
    | {"site.code", "site.wind_code", "site.wind_kind", "site.wind_return"}
)
_WIDEST = 96
_HEAD = """\
# An order for a hand-built photovoltaic panel.
#
# Every length, pressure, speed and temperature carries its unit: "25 mm", "1 1/2 in", "17 psf", "-14 degC".
# Lines behind a # are left out: the tool takes the value that stands there, or chooses and says why.
# Take the # away and write your own.
"""


def template() -> str:
    """The text of a first order; it is itself an order that can be read."""
    sections = (_section(name, words) for name, words in SECTIONS.items())
    return "\n".join((_HEAD, *sections))


def stated(key: Key) -> bool:
    """Whether a first order states this key."""
    return key.required or key.dotted in _STATED


def _section(name: str, words: str) -> str:
    lines = [f"[{name}]  # {words}"]
    described = name == "cell"
    for key in keys_of(name):
        if described and key.name == "width":
            lines += ["# in place of a name, a cell described in full:"]
        lines += _lines(key)
    return "\n".join(lines) + "\n"


def _lines(key: Key) -> list[str]:
    """A key with its value, what it means, and what becomes of it when it is left out."""
    value = key.example if stated(key) or key.default in (None, "") else key.default
    line = key.assignment(value)
    remark = "; ".join(part for part in (key.comment, _choices(key), _left_out(key)) if part)
    lead = "" if stated(key) else "# "
    if remark and len(lead + line + remark) > _WIDEST:
        lines = [f"# ({remark})", f"{lead}{line}"]
    else:
        lines = [f"{lead}{line}" + (f"  # {remark}" if remark else "")]
    if key.dotted in IN_FULL:
        columns = ", ".join(column.assignment() for column in IN_FULL[key.dotted] if column.required)
        lines.append(f"# {key.name} = {{ {columns} }}")
    return lines


def _choices(key: Key) -> str:
    return f"one of {', '.join(key.choices)}" if key.choices else ""


def _left_out(key: Key) -> str:
    return f"left out: {key.reason}" if key.reason and not stated(key) else ""
