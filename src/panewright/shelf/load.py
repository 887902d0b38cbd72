"""The shelf read from its tables, every mistake in them at once.

Tables are TOML files, one for each kind of part, each row with its price and its source. A shop with
its own prices keeps a folder of such files; a table the folder lacks is taken from the packaged shelf.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from decimal import Decimal
from functools import cache
from importlib import resources
from importlib.resources.abc import Traversable
from pathlib import Path
from typing import Any, TypeVar, cast

from panewright.drawing.letters import numbered, unprinted
from panewright.errors import Problem, ShelfError
from panewright.shelf.carriage import CARRIER, Carrier, carrier
from panewright.shelf.columns.sale import BUYING, SALE
from panewright.shelf.key import Fault, Key
from panewright.shelf.parts import GROUPS
from panewright.shelf.reading import Reading, read_row
from panewright.shelf.shelf import Row, Shelf
from panewright.shelf.supplier import SUPPLIER, Supplier, supplier

Made = TypeVar("Made")
_SHOP, _CARRIERS, _SUPPLIERS = "shop", "carriers", "suppliers"
_STOCK = Key("shop", "stock_glass", "size", "long and short side", "2 m", least="100 mm", most="7 m")
_AMOUNT = re.compile(r"[0-9]{1,6}(\.[0-9]{1,3})?")
_TABLES = (_SHOP, *GROUPS, _CARRIERS, _SUPPLIERS)


def load_shelf(folder: Path | None = None) -> Shelf:
    """All that can be had, from the packaged tables or a folder of own ones, or ShelfError."""
    if folder is None:
        return _packaged()
    if not folder.is_dir():
        cure = "Name a folder with shelf tables, or name none for the packaged shelf."
        raise ShelfError([Problem("There is no such folder.", cure, file=str(folder))])
    stray = [
        Problem("is no table of a shelf.", f"The tables are {_files()}.", file=str(path))
        for path in sorted(folder.glob("*.toml"))
        if path.stem not in _TABLES
    ]
    return _load(folder, stray)


@cache
def _packaged() -> Shelf:
    return _load(None, [])


def _files() -> str:
    return ", ".join(f"{name}.toml" for name in _TABLES)


@dataclass(slots=True)
class _Table:
    """One table being read: its file's name and the list that its problems go to."""

    file: str
    problems: list[Problem] = field(default_factory=list)

    def tell(self, key: str, fault: Fault, value: object = "") -> None:
        self.problems.append(Problem(fault.reason, fault.cure, self.file, key=key, value=str(value)[:60]))


def _load(folder: Path | None, problems: list[Problem]) -> Shelf:
    groups: dict[str, Any] = {}
    for name, (columns, make) in GROUPS.items():
        table, content = _opened(name, folder, problems)
        groups[name] = _rows(table, name, content, columns, make)
    table, content = _opened(_CARRIERS, folder, problems)
    carriers = _carriers(table, content)
    table, content = _opened(_SUPPLIERS, folder, problems)
    suppliers = _suppliers(table, content)
    table, content = _opened(_SHOP, folder, problems)
    currency, stock = _shop(table, content)
    problems += _foreign(folder, currency)
    if problems:
        raise ShelfError(problems)
    return Shelf(currency=currency, stock_glass_mm=stock, carriers=carriers, suppliers=suppliers, **groups)


def _foreign(folder: Path | None, currency: str) -> Iterator[Problem]:
    """Packaged tables beside an own currency: their prices are in another one."""
    if folder is None or currency == _packaged().currency:
        return
    for name in GROUPS:
        if not (folder / f"{name}.toml").is_file():
            reason = f"The packaged {name}.toml is priced in {_packaged().currency}, the shop in {currency}."
            cure = f"Write your own {name}.toml; one without a row says that there is none."
            yield Problem(reason, cure, file=str(folder))


def _opened(name: str, folder: Path | None, problems: list[Problem]) -> tuple[_Table, dict[str, Any]]:
    """The table's place for problems, and what stands in it (nothing where it cannot be read)."""
    own = folder / f"{name}.toml" if folder else None
    packaged: Traversable = resources.files("panewright.shelf") / "tables" / f"{name}.toml"
    path = own if own is not None and own.is_file() else packaged
    table = _Table(str(path) if path is own else path.name, problems)
    try:
        return table, tomllib.loads(path.read_text("utf-8"))
    except UnicodeDecodeError:
        table.tell(
            name,
            Fault("It cannot be read: it is not written in UTF-8.", "Save the table as plain text in UTF-8."),
        )
    except (OSError, ValueError, RecursionError) as mistake:
        table.tell(
            name, Fault(f"It cannot be read: {mistake}.", "Mend the table or take it out of the folder.")
        )
    return table, {}


def _rows(
    table: _Table, name: str, content: dict[str, Any], columns: tuple[Key, ...], make: Callable[..., object]
) -> tuple[Row[Any], ...]:
    """Each row as a part with its price; names are unique, prices zero or more."""

    def row(place: str, reading: Reading) -> Row[Any] | None:
        part, amounts = _made(table, place, reading, make), _made(table, place, reading, _amounts)
        price = cast(Decimal, reading.values["price"])
        sold_by = cast(Any, reading.word("sold_by"))
        if part is None or amounts is None:
            return None
        days, (pack, least) = reading.values.get("lead_days"), amounts
        return Row(
            *(reading.word("name"), part, price, sold_by, reading.word("source")),
            supplier=reading.word("supplier"),
            lead_days=days if isinstance(days, int) else None,
            pack=pack,
            least=least,
        )

    return _each(table, name, content, (*SALE, *BUYING, *columns), row)


def _amounts(_name: str, reading: Reading) -> tuple[Decimal, Decimal]:
    """What is in a pack, and the least that is sold at once."""
    return _whole_amount(reading, "pack"), _whole_amount(reading, "least")


def _carriers(table: _Table, content: dict[str, Any]) -> tuple[Carrier, ...]:
    """Each carrier; it is no part and has a price of its own kind."""

    def row(place: str, reading: Reading) -> Carrier | None:
        return _made(table, place, reading, carrier)

    return _each(table, _CARRIERS, content, CARRIER, row)


def _suppliers(table: _Table, content: dict[str, Any]) -> tuple[Supplier, ...]:
    """Each supplier that rows may name; a name without a record is no mistake."""

    def row(place: str, reading: Reading) -> Supplier | None:
        return _made(table, place, reading, supplier)

    return _each(table, _SUPPLIERS, content, SUPPLIER, row)


def _each(
    table: _Table,
    name: str,
    content: dict[str, Any],
    columns: tuple[Key, ...],
    make: Callable[[str, Reading], Made | None],
) -> tuple[Made, ...]:
    """What each row makes; names are unique."""
    rows: dict[str, Made] = {}
    listed = content.get(name, [])
    if not isinstance(listed, list) or set(content) - {name}:
        table.tell(name, Fault("The table holds something else.", f"Write rows that begin with [[{name}]]."))
        return ()
    for number, raw in enumerate(listed, 1):
        place = f"{name}[{number}]"
        reading = _row(table, place, raw, columns)
        row = make(place, reading) if reading else None
        called = reading.word("name") if reading else ""
        if row and called.lower() in rows:
            fault = Fault("This name stands twice.", "Give each row its own name.")
            table.tell(f"{place}.name", fault, called)
        elif row:
            rows[called.lower()] = row
    return tuple(rows.values())


def _row(table: _Table, place: str, raw: object, columns: tuple[Key, ...]) -> Reading | None:
    """What a row says; None where anything in it is wrong."""
    if not isinstance(raw, dict):
        table.tell(place, Fault("A row is a table.", "Begin it with two square brackets."))
        return None
    reading = read_row(raw, columns)
    reading.faults.update(_unprinted(reading))
    for key, fault in reading.faults.items():
        table.tell(f"{place}.{key}", fault, raw.get(key, ""))
    return None if reading.faults else reading


def _unprinted(reading: Reading) -> Iterator[tuple[str, Fault]]:
    """Words of a row that drawings and lists would show as boxes."""
    for key, value in reading.values.items():
        if isinstance(value, str) and (missing := unprinted(value)):
            reason = (
                f"The papers' face has no letters for {numbered(missing)}: boxes would stand there in print."
            )
            yield key, Fault(reason, f"Write {key} in Latin, Greek or Cyrillic letters.")


def _made(table: _Table, place: str, reading: Reading, make: Callable[[str, Reading], Made]) -> Made | None:
    """The part of a row; a told mistake where its figures contradict one another."""
    name = reading.word("name")
    try:
        return make(name, reading)
    except ValueError as mistake:
        fault = (
            mistake if isinstance(mistake, Fault) else Fault(f"{mistake}.", "Mend the figures of the row.")
        )
        told = reading.values.get(fault.key)
        value = told if isinstance(told, str) else name
        table.tell(f"{place}.{fault.key}" if fault.key else place, fault, value)
        return None


def _whole_amount(reading: Reading, key: str) -> Decimal:
    """An amount as the part is sold, 0 where none is told."""
    words = reading.word(key)
    if not words:
        return Decimal(0)
    if not _AMOUNT.fullmatch(words) or not Decimal(words) > 0:
        raise Fault(f"{words} is no amount above zero.", f'Write a bare number, such as {key} = "25".', key)
    return Decimal(words)


def _shop(table: _Table, content: dict[str, Any]) -> tuple[str, tuple[tuple[float, float], ...]]:
    """The currency of all prices, and the glass sizes that are kept in stock."""
    currency, sizes = content.get("currency"), content.get("stock_glass", [])
    if not (isinstance(currency, str) and len(currency) == 3 and currency.isalpha() and currency.isupper()):
        table.tell("currency", Fault("It is no currency.", 'Write three capitals, such as currency = "EUR".'))
    stock = []
    for number, pair in enumerate(sizes if isinstance(sizes, list) else [sizes], 1):
        try:
            stock.append(_pair(pair))
        except Fault as fault:
            table.tell(f"stock_glass[{number}]", fault, pair)
    return str(currency), tuple(stock)


def _pair(pair: object) -> tuple[float, float]:
    if not isinstance(pair, list) or len(pair) != 2:
        raise Fault("A stock size is two sides.", 'Write them as ["2000 mm", "1000 mm"].')
    long_mm, short_mm = sorted((float(_STOCK.read(side)) for side in pair), reverse=True)
    return long_mm, short_mm
