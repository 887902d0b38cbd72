"""Offers of cells as a person writes them down: a table of what each seller asks and what is believed of it.

want = 36 good cells a panel, from the order; here what each step of the shop loses

[want]
sure = "95 %"              # that the cells are enough
least_cell = "3.9 W"       # a measured cell below is set aside

[[step]]
name = "soldering"
lost = "3 of 100"          # counted; or "2 %", where it is well known

[[offer]]
name = "mixed box"
price = "71.00"            # of a pack
pack = 40
carriage = "12.00"
lost = "1 of 20"           # dead on arrival
measured = "yes"           # each cell comes with figures, or is measured here
measuring = "0.10"         # what measuring a cell costs
sample = "thirty.csv"      # measured cells of it, in a table beside; in place of grades
sample_of = 500            # cells of the lot they were taken from

[[offer.grade]]            # one kind of cell within the box; shares add to 100 %
share = "60 %"
current = "-4 %"           # about the nameplate
current_spread = "2 %"     # one standard deviation
"""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Any

from panewright.cell.model import CellModel, diode_at
from panewright.circuit.mismatch.spread import Spread
from panewright.desk.lots import kinds
from panewright.desk.lots.need import rate_of
from panewright.desk.lots.sampled import sample_of
from panewright.errors import PanewrightError, Problem, SheetError
from panewright.lots.buying.offer import Grade, Offer
from panewright.lots.buying.order import Want
from panewright.lots.buying.rate import Rate
from panewright.lots.buying.sample import Sample
from panewright.panel.design import Design
from panewright.shelf.key import Fault, Key
from panewright.shelf.reading import Reading, read_row

STC_W_M2, STC_C = 1000.0, 25.0
MOST_OFFERS = 40  #: compared at once; each is played through some hundred times
_LOST = {"kind": "text", "example": "2 %"}
_SHARE: dict[str, Any] = {"kind": "share", "least": "-90 %", "most": "100 %", "example": "-4 %"}
_WIDE: dict[str, Any] = {"kind": "share", "least": "0 %", "most": "90 %", "example": "2 %"}

WANT = (
    Key("want", "panels", "count", "How many panels; else as the order says.", 5, least=1, most=10_000),
    Key("want", "sure", "share", "That the cells are enough.", "95 %", least="50 %", most="99.999 %"),
    Key(
        "want",
        "least_cell",
        "power",
        "A measured cell below is set aside.",
        "3.9 W",
        least="0 W",
        most="50 W",
    ),
    Key("want", "rating", "power", "A panel below does not count.", "100 W", least="0.1 W", most="2000 W"),
)
STEP = (
    Key("step", "name", "text", "What is done.", "soldering", required=True),
    Key("step", "lost", comment="How many cells it costs.", required=True, **_LOST),  # type: ignore[arg-type]
)
OFFER = (
    Key("offer", "name", "text", "Who offers what.", "mixed box", required=True),
    Key("offer", "cell", "text", "Which cell of the shelf; else the order's.", "156 mm poly"),
    Key("offer", "price", "money", "Of a pack.", "71.00", required=True),
    Key("offer", "pack", "count", "Cells in a pack.", 40, required=True, least=1, most=1_000_000),
    Key("offer", "carriage", "money", "Of a delivery.", "12.00"),
    Key("offer", "lost", comment="Dead on arrival.", **_LOST),  # type: ignore[arg-type]
    Key("offer", "measured", "choice", "Whether each cell has its figures.", "yes", choices=("yes", "no")),
    Key("offer", "measuring", "money", "What measuring a cell costs.", "0.10"),
    Key("offer", "sample", "text", "A table of cells that were measured of it.", "thirty.csv"),
    Key("offer", "sample_of", "count", "Cells of the lot they were taken from.", 500, least=5, most=10**7),
)
GRADE = (
    Key("grade", "share", "share", "Of the box.", "60 %", required=True, least="0 %", most="100 %"),
    Key("grade", "current", comment="Above or below the nameplate.", **_SHARE),
    Key("grade", "voltage", comment="Above or below the nameplate, at equal light.", **_SHARE),
    Key("grade", "shunt", "share", "Of the nameplate's.", "50 %", least="0.1 %", most="1000 %"),
    Key("grade", "current_spread", comment="One standard deviation.", **_WIDE),
    Key("grade", "voltage_spread", comment="One standard deviation.", **_WIDE),
)


@dataclass(frozen=True, slots=True)
class Asked:
    """Offers, and what they are wanted for."""

    offers: tuple[Offer, ...]
    want: Want


Beside = Callable[
    [str], bytes
]  #: the bytes of a file named in the text; `PanewrightError` where there is none


def asked(
    text: str, file: str, design: Design, panels: int | None = None, *, beside: Beside | None = None
) -> Asked:
    """Offers out of their text, for the panels of a design; every mistake in it at once.

    `beside` finds tables of samples; None where no file can be named.
    """
    try:
        table = tomllib.loads(text)
    except tomllib.TOMLDecodeError as broken:
        cure = "Write it as the handbook's page on buying shows."
        raise SheetError([Problem(f"The offers are no TOML: {broken}.", cure, file=file)]) from broken
    read = _Reader(file, design, [], beside)
    want, offers = read.want(table, panels), tuple(read.offers(table))
    if len(offers) > MOST_OFFERS:
        reason = f"{len(offers)} offers are too many: {MOST_OFFERS} at most."
        read.tell("offer", Fault(reason, "Compare the likely ones."))
    if not offers and not read.problems:
        read.tell("offer", Fault("There is no offer.", "Begin each with [[offer]]."))
    if read.problems or want is None:
        raise SheetError(read.problems)
    return Asked(offers, want)


@dataclass(slots=True)
class _Reader:
    """A text of offers being read: its problems go to one list."""

    file: str
    design: Design
    problems: list[Problem]
    beside: Beside | None
    which: str = ""  #: the offer that is being read, in words

    def tell(self, key: str, fault: Fault, value: object = "") -> None:
        reason = f"{fault.reason} That is in {self.which}." if self.which else fault.reason
        self.problems.append(Problem(reason, fault.cure, self.file, key=key, value=str(value)[:60]))

    def row(self, raw: object, keys: tuple[Key, ...], place: str) -> Reading | None:
        """What a table says; None where anything in it is wrong."""
        if not isinstance(raw, dict):
            self.tell(place, Fault("This is no table.", f"Begin it with [[{place}]]."))
            return None
        reading = read_row(raw, keys)
        for key, fault in reading.faults.items():
            self.tell(f"{place}.{key}", fault, raw.get(key, ""))
        return None if reading.faults else reading

    def rows(self, table: dict[str, Any], name: str) -> list[Any]:
        found = table.get(name, [])
        return found if isinstance(found, list) else [found]

    def want(self, table: dict[str, Any], panels: int | None) -> Want | None:
        for name in set(table) - {"want", "step", "offer"}:
            self.tell(name, Fault("There is no such table here.", "The tables are want, step, offer."))
        reading = self.row(table.get("want", {}), WANT, "want")
        steps = tuple(self._steps(table))
        if reading is None:
            return None
        count = panels or reading.values.get("panels") or self.design.order.job.panels
        return Want(
            self.design.electrical.network,
            int(count),
            steps,
            reading.number("rating") or None,
            reading.number("least_cell"),
            reading.number("sure", 0.95),
        )

    def _steps(self, table: dict[str, Any]) -> Iterator[Rate]:
        for raw in self.rows(table, "step"):
            reading = self.row(raw, STEP, "step")
            rate = self.rate(reading.word("name"), reading.word("lost"), "step.lost") if reading else None
            if rate is not None:
                yield rate

    def rate(self, name: str, typed: str, key: str) -> Rate | None:
        """'2 %' or '3 of 100'."""
        try:
            return rate_of(name, typed)
        except Fault as fault:
            self.tell(key, fault, typed)
        return None

    def offers(self, table: dict[str, Any]) -> Iterator[Offer]:
        for number, raw in enumerate(self.rows(table, "offer"), start=1):
            self.which = f"offer {number}"
            plain = (
                {key: value for key, value in raw.items() if key != "grade"} if isinstance(raw, dict) else raw
            )
            reading = self.row(plain, OFFER, "offer")
            if reading is None:
                continue
            grades = tuple(self.grades(raw, reading.word("name")))
            defects = self.rate("defects on arrival", reading.word("lost"), "offer.lost")
            kind = self.kind(reading)
            sample = self.sample(reading, "grade" in raw)
            if kind is not None and defects is not None and grades:
                yield replace(_offer(reading, kind, grades, defects), sample=sample)
        self.which = ""

    def grades(self, raw: dict[str, Any], name: str) -> Iterator[Grade]:
        found = [self.row(each, GRADE, "offer.grade") for each in self.rows(raw, "grade")]
        if "grade" not in raw:
            yield Grade(1.0)
            return
        told = [each for each in found if each]
        if len(told) < len(found):
            return
        if abs(sum(each.number("share") for each in told) - 1) > 1e-6:
            self.tell(
                "offer.grade", Fault("The shares of its grades do not add to 100 %.", "Mend them."), name
            )
            return
        for each in told:
            spread = Spread(each.number("current_spread"), each.number("voltage_spread"))
            level = each.number("current"), each.number("voltage"), each.number("shunt", 1.0)
            yield Grade(each.number("share"), *level, spread)

    def sample(self, reading: Reading, graded: bool) -> Sample | None:
        """The measured cells of an offer, where it names any."""
        name, lot = reading.word("sample"), reading.values.get("sample_of")
        if not name and lot is None:
            return None
        try:
            if not name or not isinstance(lot, int):
                raise Fault("A sample has a table and a lot.", "Write both `sample` and `sample_of`.")
            if graded:
                raise Fault("A sample stands in place of grades.", "Leave one of them out.")
            if self.beside is None:
                raise Fault("No file can be read here.", "Name it by command: `panewright lot offers`.")
            data = self.beside(name)
            return sample_of(data, name, reading.word("cell"), self.design.electrical.light, lot)
        except Fault as fault:
            self.tell("offer.sample", fault, name)
        except PanewrightError as wrong:
            self.problems += wrong.problems
        return None

    def kind(self, reading: Reading) -> CellModel | None:
        """The cell as it works behind the order's cover."""
        electrical, name = self.design.electrical, reading.word("cell")
        if name and name not in kinds.names():
            cure = f"Write one of: {', '.join(kinds.names())}."
            self.tell("offer.cell", Fault("There is no such cell on the shelf.", cure), name)
            return None
        model = kinds.model(name) if name else electrical.models[0]
        return replace(model, stc=diode_at(model, electrical.light * STC_W_M2, STC_C))


def _offer(reading: Reading, kind: CellModel, grades: tuple[Grade, ...], defects: Rate) -> Offer:
    def money(name: str) -> Decimal:
        value = reading.values.get(name, Decimal(0))
        return value if isinstance(value, Decimal) else Decimal(0)

    pack = reading.values["pack"]
    assert isinstance(pack, int)
    return Offer(
        reading.word("name"),
        kind,
        money("price"),
        pack,
        money("carriage"),
        grades,
        defects,
        reading.word("measured") == "yes",
        money("measuring"),
    )
