"""What the command asks: files read, the panel found, the rating made, its report written."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from panewright.desk.curves.asked import file_bytes, mapping_text
from panewright.desk.rating import measured
from panewright.desk.rating.bench_text import BenchText, read_bench
from panewright.desk.rating.rated import Panel, PanelRated, rated
from panewright.desk.rating.shop_words import is_share, shop_words, without_shares
from panewright.desk.rating.typed import typed

if TYPE_CHECKING:
    from panewright.ledger.open import Ledger


@dataclass(frozen=True, slots=True)
class Asked:
    """What was given at the command."""

    curve: Path
    bench: Path | None  #: how light and heat were known
    words: Mapping[str, str]  #: by options; they go before what the file says
    mapping: Path | None = None
    serial: str = ""
    shop: Path | None = None  #: whose own rules hold where nothing else is said

    def words_with(self, bench: BenchText) -> dict[str, str]:
        """All that was said: by the shop, over it by the file, over both by options."""
        own = shop_words(self.shop) if self.shop else {}
        said = {**bench.words, **self.words}
        return {**own, **said} if not any(map(is_share, said)) else {**without_shares(own), **said}


def of_order(order: Path, asked: Asked) -> PanelRated:
    """By the order's design."""
    from panewright import desk

    made = desk.design(desk.read(order), order.name)
    return _rated(Panel(made.design, asked.serial), asked, bench_of(asked))


def of_serial(ledger: Ledger, asked: Asked, by: str = "") -> PanelRated:
    """By the serial as it was built, with the shop's instruments; kept where it is said who measured."""
    from panewright.desk.rating.kept import keep, panel_of, shop_instruments
    from panewright.desk.shop.who import Who

    bench = bench_of(asked)
    both = BenchText(bench.words, {**shop_instruments(ledger), **bench.instruments})
    made = _rated(panel_of(ledger, asked.serial), asked, both)
    if by.strip():
        keep(ledger, made, file_bytes(asked.curve), Who.now(by.strip()))
    return made


def _rated(panel: Panel, asked: Asked, bench: BenchText) -> PanelRated:
    told = typed(asked.words_with(bench), str(asked.bench or ""))
    mapping = mapping_text(asked.mapping) if asked.mapping else ""
    read = measured.read(file_bytes(asked.curve), asked.curve.name, mapping, asked.serial)
    return rated(panel, read, told, bench.instruments)


def bench_of(asked: Asked) -> BenchText:
    """What the file beside the curve says; nothing where none was named."""
    if asked.bench is None:
        return BenchText({}, {})
    return read_bench(file_bytes(asked.bench), asked.bench.name)
