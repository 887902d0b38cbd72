"""Orders spoilt or answered anew, from a random generator alone.

Two ways: the text is torn (lines lost, doubled, values exchanged, units and letters changed), so that most
orders are refused; or keys get other values that the schema itself allows, so that most can be read and
go on to be designed.
"""

from __future__ import annotations

import math
import re
from random import Random

from panewright.order.schema import KEYS, SECTIONS
from panewright.order.schema_mounting import BELONGS
from panewright.order.sections.in_full import IN_FULL
from panewright.shelf.key import Key
from panewright.shelf.shelf import Shelf
from panewright.units import KINDS, read, written

_ODD = ('""', "1e400", "nan", "-inf", "true", "[]", "{}", "1979-05-27", "9" * 30, '"9e99 mm"', '"-0 V"')
_UNITS = ("mm", "in", "m/s", "kPa", "psf", "degC", "%", "V", "A", "%/K", "yr", "kg", "", "AWG", "furlong")
_LETTERS = ("", "\n", '"', "[", "]", "=", "{", "}", "#", ".", "'", "\\", "9", "-", "\t", "\u00a0", "\u2028")
_VALUE = re.compile(r"^(\s*[\w.]+\s*=\s*)(.*)$")


def torn(text: str, chance: Random) -> str:
    """The text with one to four tears."""
    for _ in range(chance.randint(1, 4)):
        text = chance.choice(_TEARS)(text, chance)
    return text


def _lose_line(text: str, chance: Random) -> str:
    lines = text.split("\n")
    del lines[chance.randrange(len(lines))]
    return "\n".join(lines)


def _double_line(text: str, chance: Random) -> str:
    lines = text.split("\n")
    lines.insert(chance.randrange(len(lines) + 1), chance.choice(lines))
    return "\n".join(lines)


def _exchange_values(text: str, chance: Random) -> str:
    lines = text.split("\n")
    places = [k for k, line in enumerate(lines) if _VALUE.match(line)]
    if len(places) < 2:
        return text
    one, other = chance.sample(places, 2)
    (head, value), (head2, value2) = (_VALUE.match(lines[k]).groups() for k in (one, other))  # type: ignore[union-attr]
    lines[one], lines[other] = head + value2, head2 + value
    return "\n".join(lines)


def _odd_value(text: str, chance: Random) -> str:
    return _new_value(text, chance, chance.choice(_ODD))


def _wrong_unit(text: str, chance: Random) -> str:
    figure = chance.choice(("0", "1", "-3", "12,5", "1 1/2", "1e9", "1e-9", "25"))
    return _new_value(text, chance, f'"{figure} {chance.choice(_UNITS)}"')


def _new_value(text: str, chance: Random, value: str) -> str:
    lines = text.split("\n")
    places = [k for k, line in enumerate(lines) if _VALUE.match(line)]
    if places:
        k = chance.choice(places)
        lines[k] = _VALUE.sub(lambda found: found.group(1) + value, lines[k])
    return "\n".join(lines)


def _figure_changed(text: str, chance: Random) -> str:
    """One figure many times greater or smaller, or negative."""
    figures = list(re.finditer(r"\d+(?:\.\d+)?", text))
    if not figures:
        return text
    found = chance.choice(figures)
    new = chance.choice(
        ("0", "-1", "1e3", "1e30", f"{float(found.group()) * 10 ** chance.uniform(-2, 2):.4g}")
    )
    return text[: found.start()] + new + text[found.end() :]


def _letter_changed(text: str, chance: Random) -> str:
    k = chance.randrange(len(text) + 1)
    return text[:k] + chance.choice(_LETTERS) + text[k + 1 :]


def _any_letters(text: str, chance: Random) -> str:
    k = chance.randrange(len(text) + 1)
    letters = "".join(
        chr(chance.choice((chance.randrange(1, 256), chance.randrange(256, 0xD800)))) for _ in range(5)
    )
    return text[:k] + letters + text[k:]


def _cut_off(text: str, chance: Random) -> str:
    return text[: chance.randrange(len(text) + 1)]


_PARTICULAR = {
    f"site.{name}" for name in ("roof_gap", "roof_edge", "upper_drop", "hill_height", "hill_slope")
}
_TEARS = (
    _lose_line,
    _double_line,
    _exchange_values,
    _odd_value,
    _wrong_unit,
    _figure_changed,
    _letter_changed,
    _any_letters,
    _cut_off,
)


def answered_anew(text: str, shelf: Shelf, chance: Random) -> str:
    """The text with one to eight keys set to values that the schema allows.

    Keys that go with one way of mounting only, or with one kind of ground, mostly come with it.
    """
    way = chance.choice(sorted(BELONGS))
    for _ in range(chance.randint(1, 8)):
        key = KEYS[chance.choice(sorted(KEYS))]
        if key.dotted in _PARTICULAR and chance.random() < 0.8:
            continue
        if key.section == "mounting" and chance.random() < 0.9:
            if key.name not in BELONGS[way]:
                continue
            text = with_answer(text, "mounting.on", f'"{way}"')
        if key.section == "cell" and key.name not in ("name", "parts", "cut"):
            continue  # a cell is described whole, below
        text = with_answer(text, key.dotted, any_answer(key, shelf, chance))
    return _cell_anew(text, chance) if chance.random() < 0.25 else text


def with_answer(text: str, dotted: str, value: str) -> str:
    """The text with one key set."""
    section, _, name = dotted.partition(".")
    blocks = re.split(r"(?m)^(?=\[)", text)
    for k, block in enumerate(blocks):
        if block.startswith(f"[{section}]"):
            head, *lines = block.rstrip("\n").split("\n")
            kept = [line for line in lines if not re.match(rf"\s*{name}\s*=", line)]
            blocks[k] = "\n".join([head, f"{name} = {value}", *kept, "", ""])
            return "".join(blocks)
    assert section in SECTIONS
    return text.rstrip("\n") + f"\n\n[{section}]\n{name} = {value}\n"


def any_answer(key: Key, shelf: Shelf, chance: Random) -> str:
    """A value that the schema allows at a key, as it is written."""
    if key.kind == "count":
        return str(round(_between(float(key.least or 0), float(key.most or 100), chance)))
    if key.kind == "part":
        return _part(key, shelf, chance)
    return f'"{_words(key, shelf, chance)}"'


def _words(key: Key, shelf: Shelf, chance: Random) -> str:
    if key.choices:
        return chance.choice(key.choices)
    if key.dotted == "cell.name":
        return chance.choice(shelf.cells).name
    if key.kind in KINDS:
        return written(_quantity(key, chance), key.kind)
    if key.kind == "money":
        return f"{chance.choice((0, 0.01, 1, 40, 999999)):g} EUR/h"
    if key.name == "currency":
        return chance.choice(("EUR", "USD", "SEK", "XYZ"))
    return "".join(chance.choice("Aa0 -_<>&#*$@\\\\äß漢") for _ in range(chance.randint(1, 20))).replace(
        "\\", ""
    )


def _quantity(key: Key, chance: Random) -> float:
    least = read(str(key.least), key.kind) if key.least is not None else 0.0
    most = read(str(key.most), key.kind) if key.most is not None else least + 1.0
    return float(f"{_between(least, most, chance):.4g}")


def _between(least: float, most: float, chance: Random) -> float:
    """An end, an even or a logarithmic draw."""
    way = chance.random()
    if way < 0.2:
        return chance.choice((least, most))
    if way < 0.6 or least <= 0 < most:
        return chance.uniform(least, most) if way < 0.6 else least + (most - least) * chance.random() ** 3
    if most <= 0:
        return chance.uniform(least, most)
    return math.exp(chance.uniform(math.log(least), math.log(most)))


def _part(key: Key, shelf: Shelf, chance: Random) -> str:
    rows = {
        "parts.tab": shelf.tabs,
        "parts.bus": shelf.buses,
        "parts.glass": shelf.sheets,
        "parts.rail": shelf.rails,
        "parts.sealant": shelf.sealants,
        "mounting.screw": shelf.wood_screws,
        "mounting.post": shelf.posts,
        "mounting.block": shelf.blocks,
        "parts.pour": shelf.pours,
        "parts.film": shelf.films,
        "parts.back": shelf.backs,
        "crate.foam": shelf.foams,
    }[key.dotted]
    if chance.random() < 0.5:
        return f'"{chance.choice(rows).name}"'
    columns = [c for c in IN_FULL[key.dotted] if c.required or chance.random() < 0.3]
    told = ", ".join(f"{column.name} = {any_answer(column, shelf, chance)}" for column in columns)
    return "{ " + told + " }"


def _cell_anew(text: str, chance: Random) -> str:
    """The cell described in full, with figures that a cell may have."""
    head, _, rest = text.partition("[cell]")
    after = re.search(r"(?m)^\[", rest)
    tail = rest[after.start() :] if after else ""
    return head + described_cell(chance) + tail


def described_cell(chance: Random) -> str:
    """A [cell] table with a likely cell of any size."""
    width, length = (chance.choice((5.0, 26.0, 39.0, 78.0, 125.0, 156.0, 210.0, 230.0)) for _ in range(2))
    isc = width * length * chance.uniform(2e-4, 4.2e-4)
    voc, fill_i, fill_v = chance.uniform(0.5, 0.72), chance.uniform(0.8, 0.97), chance.uniform(0.75, 0.88)
    lines = [
        "[cell]",
        f'width = "{width} mm"',
        f'length = "{length} mm"',
        f"busbars = {chance.randint(1, 5)}",
    ]
    lines += [f'isc = "{isc:.6g} A"', f'voc = "{voc:.4g} V"', f'imp = "{isc * fill_i:.6g} A"']
    lines += [f'vmp = "{voc * fill_v:.4g} V"', f'front = "{chance.choice(("minus", "plus", "behind"))}"']
    lines += [
        f'tolerance = "{chance.choice((0, 0.5, 3))} mm"',
        f'breakdown = "-{chance.uniform(3, 60):.3g} V"',
    ]
    return "\n".join([*lines, "", ""])
