"""Whatever an order says, it is an order or told: no traceback, no warning, however far it is carried."""

from __future__ import annotations

import re
import time
import traceback
import warnings
from dataclasses import dataclass
from pathlib import Path
from random import Random

from campaigns.found import Found
from campaigns.mutation import answered_anew, torn
from panewright.errors import OrderError
from panewright.order.parse import parse_bytes
from panewright.pack.pack import make_pack, record
from panewright.pack.verdict import verdict
from panewright.panel.choose import design_panel
from panewright.paper.leaf import render
from panewright.paper.record import json_bytes
from panewright.price.offers.quote import quote
from panewright.shelf.load import load_shelf
from panewright.shelf.shelf import Shelf

EXAMPLES = Path(__file__).parents[2] / "examples"
SLOW_S = 20.0  #: a design that takes longer is a failure of its own
_TOO_LONG = f"took more than {SLOW_S:g} s"
_SRC = re.compile(r'File "[^"]*/(panewright/[^"]+)", line (\d+)')


@dataclass(frozen=True, slots=True)
class Carry:
    """How far an order is carried."""

    design: bool = True
    pack: bool = False


@dataclass(frozen=True, slots=True)
class Outcome:
    """Where one order went, and by which fault it ended if it did."""

    word: str  #: 'told', 'read', 'proven', 'not proven', 'told late', 'fault' or 'slow'
    fault: str = ""
    seconds: float = 0.0


def campaign(count: int, seed: int, design: float = 1.0, pack: float = 0.05) -> Found:
    """Random orders, all read; of those that can be read a share is designed, and of these a share packed."""
    chance, shelf = Random(seed), load_shelf()
    texts = [path.read_text("utf-8") for path in sorted(EXAMPLES.glob("*.toml"))]
    counts: dict[str, int] = {}
    faults: dict[str, tuple[bytes, Carry]] = {}
    slowest, slowest_order = 0.0, b""
    for _ in range(count):
        data = _spoilt(chance.choice(texts), shelf, chance)
        carry = Carry(design=chance.random() < design, pack=chance.random() < pack)
        found = outcome(data, shelf, carry)
        counts[found.word] = counts.get(found.word, 0) + 1
        if found.seconds > slowest:
            slowest, slowest_order = found.seconds, data
        if found.fault:
            faults.setdefault(found.fault, (data, carry))
    failures = tuple(
        f"{fault}\n{_least(data, fault, shelf, carry)}" for fault, (data, carry) in sorted(faults.items())
    )
    notes = (f"slowest from text to price: {slowest:.1f} s, {_said(slowest_order)}",)
    against = "an order or what is wrong with it"
    return Found("orders, spoilt or answered anew", against, count, counts, (), failures, notes)


def _said(data: bytes) -> str:
    """An order without its remarks, on one line."""
    lines = [line for line in data.decode("utf-8", "replace").split("\n") if line and line[0] != "#"]
    return " | ".join(lines)[:1500]


def _least(data: bytes, fault: str, shelf: Shelf, carry: Carry) -> str:
    """The least order that shows a fault; a slow one as it is, for it would take too long to try."""
    return data.decode("utf-8", "replace") if fault == _TOO_LONG else shrunk(data, fault, shelf, carry)


def shrunk(data: bytes, fault: str, shelf: Shelf, carry: Carry) -> str:
    """The order without any line that the fault does not need; many lines at a time first, then one."""
    lines = data.split(b"\n")
    for size in (8, 4, 2, 1):
        k = 0
        while k < len(lines):
            fewer = lines[:k] + lines[k + size :]
            if outcome(b"\n".join(fewer), shelf, carry).fault == fault:
                lines = fewer
            else:
                k += size
    return b"\n".join(lines).decode("utf-8", "replace")


def _spoilt(text: str, shelf: Shelf, chance: Random) -> bytes:
    way = chance.random()
    if way < 0.6:
        text = answered_anew(text, shelf, chance)
    if way > 0.55:
        text = torn(text, chance)
    data = text.encode("utf-8", "surrogatepass")
    if chance.random() < 0.03:
        k = chance.randrange(len(data) + 1)
        data = data[:k] + chance.randbytes(4) + data[k:]
    return data


def outcome(data: bytes, shelf: Shelf, carry: Carry) -> Outcome:
    """What becomes of an order's bytes; warnings count as faults."""
    start = time.process_time()  # others on the machine do not count
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error")
            word = _carried(data, shelf, carry)
    except Exception as error:  # any other than OrderError is what is looked for
        return Outcome("fault", named(error))
    took = time.process_time() - start
    return Outcome("slow", _TOO_LONG, took) if took > SLOW_S else Outcome(word, "", took)


def _carried(data: bytes, shelf: Shelf, carry: Carry) -> str:
    try:
        order = parse_bytes(data, "order.toml", shelf)
    except OrderError as mistake:
        whole = mistake.problems and all(p.reason and p.cure and p.key for p in mistake.problems)
        if not whole:
            raise AssertionError(f"a problem without reason, cure or key: {mistake}") from mistake
        return "told"
    if not carry.design:
        return "read"
    try:
        made = design_panel(order, shelf)
    except OrderError:
        return "told late"
    price = quote(made, shelf)
    verdict(made, price)
    json_bytes(record(made, price))
    if carry.pack:
        for leaf in make_pack(made, price).leaves:
            render(leaf)
    return "proven" if made.proven else "not proven"


def named(error: Exception) -> str:
    """A fault by its kind, its words without figures, and the innermost line of ours."""
    places = _SRC.findall("".join(traceback.format_tb(error.__traceback__)))
    where = ":".join(places[-1]) if places else "outside"
    words = re.sub(r"[-+]?\d[\d.e+-]*", "#", str(error).split(", got")[0])[:90]
    return f"{type(error).__name__} at {where}: {words}"
