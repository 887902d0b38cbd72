"""The panels of an open shop: begun, found, and all that is known of one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from panewright.errors import Problem, RecordError

if TYPE_CHECKING:
    from panewright.desk import Made
    from panewright.desk.shop.who import Who
    from panewright.ledger.files import File
    from panewright.ledger.open import Ledger
    from panewright.ledger.serials.life import Life
    from panewright.ledger.serials.serials import Serial


PAPERS = {"reading": "raw file of readings", "report": "report", "certificate": "certificate"}


@dataclass(frozen=True, slots=True)
class Paper:
    """A file about a panel, kept byte for byte."""

    kind: str  #: one of `PAPERS`
    title: str
    name: str  #: the file's own
    content: bytes


@dataclass(frozen=True, slots=True)
class Progress:
    """A panel begun, and how many of its steps are ticked."""

    serial: Serial
    ticked: int


class Serials:
    """What an open shop does with its panels."""

    ledger: Ledger

    def begin_serials(self, number: str, version: int, made: Made, who: Who) -> tuple[str, ...]:
        """Begin every panel of an order by the design of one version of it."""
        from panewright.desk.serials.begun import design_record
        from panewright.ledger.orders.designs import record_design
        from panewright.ledger.serials.serials import open_serials

        record = design_record(made, number, version)
        record_design(self.ledger, record, by=who.by, at=who.at, tap=f"{who.tap}d" if who.tap else "")
        return open_serials(self.ledger, number, by=who.by, at=who.at, tap=who.tap)

    def serials(self, number: str = "") -> tuple[Progress, ...]:
        """The panels begun, of one order or the newest of all, with how far each is."""
        from panewright.ledger.serials.serials import serials
        from panewright.ledger.serials.steps import ticks

        return tuple(
            Progress(each, sum(tick.done for tick in ticks(self.ledger, each.serial)))
            for each in serials(self.ledger, order=number, most=60)
        )

    def find_serial(self, words: str) -> Serial | None:
        """The panel whose serial stands in what was typed or scanned; None where there is none."""
        from panewright.ledger.serials.serials import find_serial

        for each in dict.fromkeys((words.strip(), *reversed(words.split()))):
            try:
                return find_serial(self.ledger, each[:60])
            except RecordError:
                continue
        return None

    def life(self, serial: str) -> Life:
        """Everything that is known of a panel."""
        from panewright.ledger.serials.life import life

        return life(self.ledger, serial)

    def keep_photograph(self, serial: str, picture: bytes, title: str, who: Who) -> None:
        """Keep a photograph of a panel."""
        from panewright.ledger.files import attach, store

        kept = store(
            self.ledger,
            picture,
            name="photograph.jpg",
            media="image/jpeg",
            by=who.by,
            at=who.at,
            tap=f"{who.tap}f" if who.tap else "",
        )
        attach(
            self.ledger,
            kept.sha256,
            kind="photograph",
            title=title[:80],
            serial=serial,
            by=who.by,
            at=who.at,
            tap=who.tap,
        )

    def keep_paper(self, serial: str, paper: Paper, who: Who) -> None:
        """Keep a paper of a panel, byte for byte as it came; nothing in it is read."""
        from panewright.ledger.files import attach, store

        if paper.kind not in PAPERS or not paper.content:
            raise RecordError([Problem("there is no such paper to keep.", "Choose a file and its kind.")])
        kept = store(
            self.ledger,
            paper.content,
            name=paper.name[:120] or "paper",
            media="application/octet-stream",
            by=who.by,
            at=who.at,
            tap=f"{who.tap}f" if who.tap else "",
        )
        told = {"kind": paper.kind, "title": paper.title[:80], "serial": serial}
        attach(self.ledger, kept.sha256, **told, by=who.by, at=who.at, tap=who.tap)

    def kept_file(self, sha256: str) -> File:
        """What is known of a kept file."""
        from panewright.ledger.files import find_file

        return find_file(self.ledger, sha256)

    def file(self, sha256: str) -> bytes:
        """A kept file's bytes."""
        from panewright.ledger.files import fetch

        return fetch(self.ledger, sha256)
