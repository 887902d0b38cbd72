"""What a shop says once for all its panels: how it labels and judges, and how many of them have which fault.

It is the file `bench.toml` in the shop's folder.

Its keys are those of the file beside a curve, of which it may hold the shop's own; what is said beside a
curve goes before them.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from panewright.desk.rating.bench_text import read_bench
from panewright.desk.rating.typed import refuse_wrong_rules
from panewright.errors import BenchError, Problem

FILE = "bench.toml"
SHARES = "shares."
OWN = ("label.", SHARES)  #: how keys of a shop begin


def shop_words(folder: Path) -> dict[str, str]:
    """Words by key; nothing where there is no such file. `BenchError` with every mistake."""
    file = folder / FILE
    if not file.is_file():
        return {}
    return read_shop_words(file.read_bytes(), str(file))


def read_shop_words(data: bytes, file: str) -> dict[str, str]:
    """Words by key out of such a file; `BenchError` with every mistake."""
    found = read_bench(data, file)
    wrong = [key for key in found.words if not key.startswith(OWN)]
    wrong += [f"instrument.{name}" for name in found.instruments]
    if wrong:
        cure = f"Here stand keys that begin with {', '.join(OWN)}; the rest goes beside a curve."
        raise BenchError([Problem("This is no rule of a shop.", cure, file, key=key) for key in wrong])
    refuse_wrong_rules(found.words, file)
    return dict(found.words)


def shares_words(folder: Path) -> dict[str, str]:
    """What of it tells how many panels have which fault."""
    return {key: text for key, text in shop_words(folder).items() if is_share(key)}


def with_shares(words: Mapping[str, str], own: Mapping[str, str]) -> dict[str, str]:
    """Words kept with a rating, by the shares that the shop says now; of two sets of shares none is mixed."""
    return {**(without_shares(words) if own else words), **own}


def without_shares(words: Mapping[str, str]) -> dict[str, str]:
    """The rest of them."""
    return {key: text for key, text in words.items() if not is_share(key)}


def is_share(key: str) -> bool:
    """Whether a key tells how many panels have which fault."""
    return key.startswith(SHARES)
