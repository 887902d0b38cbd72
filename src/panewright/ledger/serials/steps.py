"""Steps done at the bench: by whom, when, in how many minutes; and the clocks that run meanwhile."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from sqlalchemy import Connection, exists, func, select
from sqlalchemy.orm import aliased

from panewright.ledger.asking import Wanted, all_of, one_of
from panewright.ledger.open import Ledger
from panewright.ledger.tables.serials import SerialRow as Serials
from panewright.ledger.tables.serials import StepRow as Steps
from panewright.ledger.tables.serials import TimerRow as Timers
from panewright.ledger.writing import add, known, write

LATEST = 5_000  #: clocks started last, among which those that run are looked for


@dataclass(frozen=True, slots=True)
class Tick:
    """A step ticked, or ticked off again where `done` is false."""

    step: str
    done: bool
    by: str
    at: datetime
    minutes: Decimal | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class Timer:
    """A clock that runs for a step; `ends` is None where it only counts up."""

    serial: str
    step: str
    starts: datetime
    ends: datetime | None
    by: str


def tick(
    ledger: Ledger,
    serial: str,
    step: str,
    *,
    by: str,
    at: datetime,
    minutes: Decimal | None = None,
    done: bool = True,
    note: str = "",
    tap: str = "",
) -> Tick:
    """Tick a step of a panel; `done=False` takes the tick back with a row of its own."""

    def work(db: Connection) -> int:
        panel = known(db, Serials.serial, serial, "serial")
        values = {"step": step, "done": done, "minutes": minutes, "note": note, "who": by, "at": at}
        return add(db, Steps, serial_id=panel, **values)

    row = write(ledger, work, kind="step", key=serial, at=at, tap=tap)
    with ledger.reading() as db:
        return one_of(db, _ticks().where(Steps.id == row), Tick)


def ticks(ledger: Ledger, serial: str) -> tuple[Tick, ...]:
    """How each step of a panel stands, in the order in which they were first ticked."""
    return tuple({each.step: each for each in all_ticks(ledger, serial)}.values())


def all_ticks(ledger: Ledger, serial: str) -> tuple[Tick, ...]:
    """Every tick of a panel and every one taken back, oldest first."""
    with ledger.reading() as db:
        panel = known(db, Serials.serial, serial, "serial")
        return all_of(db, _ticks().where(Steps.serial_id == panel), Tick)


def start_timer(
    ledger: Ledger,
    serial: str,
    step: str,
    *,
    by: str,
    at: datetime,
    ends: datetime | None = None,
    tap: str = "",
) -> Timer:
    """Start a clock for a step: it takes the place of one that runs for the same step."""
    _clock(ledger, serial, step, by=by, at=at, ends=ends, stopped=False, tap=tap)
    return Timer(serial, step, at, ends, by)


def stop_timer(ledger: Ledger, serial: str, step: str, *, by: str, at: datetime, tap: str = "") -> None:
    """Stop the clock of a step."""
    _clock(ledger, serial, step, by=by, at=at, ends=None, stopped=True, tap=tap)


def timers(ledger: Ledger, serial: str | None = None) -> tuple[Timer, ...]:
    """The clocks that run, of one panel or among those started last of all, oldest first."""
    after = aliased(Timers)
    newer = exists().where(
        after.serial_id == Timers.serial_id, after.step == Timers.step, after.id > Timers.id
    )
    wanted = (
        select(Serials.serial, Timers.step, Timers.starts, Timers.ends, Timers.who)
        .join(Serials, Timers.serial_id == Serials.id)
        .order_by(Timers.id)
    )
    with ledger.reading() as db:
        if serial is not None:
            panel = known(db, Serials.serial, serial, "serial")
            wanted = wanted.where(Timers.serial_id == panel)
        else:
            newest = db.scalar(select(func.max(Timers.id))) or 0
            wanted = wanted.where(Timers.id > newest - LATEST)
        return all_of(db, wanted.where(Timers.stopped.is_(False), ~newer), Timer)


def _clock(
    ledger: Ledger,
    serial: str,
    step: str,
    *,
    by: str,
    at: datetime,
    ends: datetime | None,
    stopped: bool,
    tap: str,
) -> None:
    def work(db: Connection) -> int:
        panel = known(db, Serials.serial, serial, "serial")
        values = {"step": step, "starts": at, "ends": ends, "stopped": stopped, "who": by, "at": at}
        return add(db, Timers, serial_id=panel, **values)

    write(ledger, work, kind="timer", key=serial, at=at, tap=tap)


def _ticks() -> Wanted:
    """Rows of steps, oldest first."""
    return select(Steps.step, Steps.done, Steps.who, Steps.at, Steps.minutes, Steps.note).order_by(Steps.id)
