"""What instruments showed: of a panel, a cell or a lot, with the calibration that held at that time."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import Connection, exists, select
from sqlalchemy.orm import aliased

from panewright.errors import Problem, RecordError
from panewright.ledger.asking import Wanted, all_of, one_of
from panewright.ledger.open import Ledger
from panewright.ledger.tables.built import BuiltRow as Builts
from panewright.ledger.tables.built import SeatRow as Seats
from panewright.ledger.tables.lots import CellRow as Cells
from panewright.ledger.tables.lots import LotRow as Lots
from panewright.ledger.tables.readings import CalibrationRow as Calibrations
from panewright.ledger.tables.readings import FileRow as Files
from panewright.ledger.tables.readings import InstrumentRow as Instruments
from panewright.ledger.tables.readings import ReadingRow as Readings
from panewright.ledger.tables.serials import SerialRow as Serials
from panewright.ledger.writing import add, known, unknown, write


@dataclass(frozen=True, slots=True)
class Instrument:
    """A meter, tracer, balance or reference cell."""

    name: str
    kind: str
    number: str = ""  #: the maker's serial number
    calibrated: date | None = None  #: last
    due: date | None = None


@dataclass(frozen=True, slots=True)
class Reading:
    """What was read. Of a panel (`serial`), of a marked cell (`lot` and `cell`) or of a whole lot (`lot`)."""

    quantity: str
    value: float
    unit: str
    serial: str = ""
    lot: str = ""
    cell: str = ""
    step: str = ""
    light_w_m2: float | None = None
    heat_c: float | None = None
    instrument: str = ""
    file: str = ""  #: digest of the raw file
    corrects: int | None = None  #: number of the reading whose place this one takes
    note: str = ""


@dataclass(frozen=True, slots=True)
class ReadingKept:
    """A reading as it is kept."""

    id: int
    reading: Reading
    calibrated: date | None  #: the instrument's day of calibration that held then
    due: date | None
    corrected: bool  #: another reading takes its place
    by: str
    at: datetime

    @property
    def overdue(self) -> bool:
        """Whether the instrument's calibration had run out, or none was known."""
        if not self.reading.instrument:
            return False
        return self.calibrated is None or (self.due is not None and self.at.date() > self.due)


def add_instrument(
    ledger: Ledger, name: str, *, kind: str, number: str = "", by: str, at: datetime, tap: str = ""
) -> Instrument:
    """An instrument the shop reads with."""

    def work(db: Connection) -> int:
        return add(db, Instruments, name=name, kind=kind, number=number, who=by, at=at)

    write(ledger, work, kind="instrument", key=name, at=at, tap=tap)
    return Instrument(name, kind, number)


def calibrate(
    ledger: Ledger,
    name: str,
    *,
    day: date,
    by: str,
    at: datetime,
    due: date | None = None,
    file: str = "",
    note: str = "",
    tap: str = "",
) -> None:
    """Note an instrument's day of calibration, when it runs out, and its certificate."""

    def work(db: Connection) -> int:
        keys = {
            "instrument_id": known(db, Instruments.name, name, "instrument"),
            "file_id": known(db, Files.sha256, file, "file") if file else None,
        }
        return add(db, Calibrations, day=day, due=due, note=note, who=by, at=at, **keys)

    write(ledger, work, kind="instrument", key=name, at=at, tap=tap)


def instruments(ledger: Ledger) -> tuple[Instrument, ...]:
    """Every instrument with its last calibration."""
    last = (
        select(Calibrations.id)
        .where(Calibrations.instrument_id == Instruments.id)
        .order_by(Calibrations.day.desc(), Calibrations.id.desc())
        .limit(1)
        .correlate(Instruments)
        .scalar_subquery()
    )
    told = (Instruments.name, Instruments.kind, Instruments.number, Calibrations.day, Calibrations.due)
    wanted = select(*told).outerjoin(Calibrations, Calibrations.id == last).order_by(Instruments.id)
    with ledger.reading() as db:
        return all_of(db, wanted, Instrument)


def read(ledger: Ledger, reading: Reading, *, by: str, at: datetime, tap: str = "") -> ReadingKept:
    """Keep a reading, with the calibration of its instrument that held at that time."""
    if not (reading.serial or reading.lot):
        raise ValueError(f"a reading is of a panel, a cell or a lot, got {reading}")

    def work(db: Connection) -> int:
        keys = _keys(db, reading, at.date())
        names = ("step", "quantity", "value", "unit", "light_w_m2", "heat_c", "note")
        told = {name: getattr(reading, name) for name in names}
        return add(db, Readings, who=by, at=at, **told, **keys)

    about = reading.serial or reading.cell or reading.lot
    row = write(ledger, work, kind="reading", key=about, at=at, tap=tap)
    with ledger.reading() as db:
        return one_of(db, _readings().where(Readings.id == row), _kept)


def readings(ledger: Ledger, *, serial: str = "", lot: str = "", cell: str = "") -> tuple[ReadingKept, ...]:
    """What was read of a panel, a cell or a lot, oldest first, corrected ones among them."""
    with ledger.reading() as db:
        if serial:
            mine = Readings.serial_id == known(db, Serials.serial, serial, "serial")
        elif cell:
            mine = Readings.cell_id == _cell(db, known(db, Lots.mark, lot, "lot"), cell)
        else:
            mine = Readings.lot_id == known(db, Lots.mark, lot, "lot")
        return all_of(db, _readings().where(mine).order_by(Readings.id), _kept)


def readings_of_cells(ledger: Ledger, serial: str) -> tuple[ReadingKept, ...]:
    """What was read of the cells that lie, or once lay, in a panel, oldest first."""
    with ledger.reading() as db:
        panel = known(db, Serials.serial, serial, "serial")
        inside = select(Seats.cell_id).join(Builts, Seats.built_id == Builts.id)
        inside = inside.where(Builts.serial_id == panel, Seats.cell_id.is_not(None))
        cells = db.scalars(inside.distinct()).all()  # asked apart: PostgreSQL would look at every reading
        return all_of(db, _readings().where(Readings.cell_id.in_(cells)).order_by(Readings.id), _kept)


def _keys(db: Connection, reading: Reading, day: date) -> dict[str, int | None]:
    lot = known(db, Lots.mark, reading.lot, "lot") if reading.lot else None
    meter = known(db, Instruments.name, reading.instrument, "instrument") if reading.instrument else None
    return {
        "serial_id": known(db, Serials.serial, reading.serial, "serial") if reading.serial else None,
        "lot_id": lot,
        "cell_id": _cell(db, lot, reading.cell) if lot and reading.cell else None,
        "instrument_id": meter,
        "calibration_id": _calibration(db, meter, day) if meter else None,
        "file_id": known(db, Files.sha256, reading.file, "file") if reading.file else None,
        "corrects_id": _corrected(db, reading.corrects) if reading.corrects else None,
    }


def _cell(db: Connection, lot: int, mark: str) -> int:
    found = db.scalar(select(Cells.id).where(Cells.lot_id == lot, Cells.mark == mark))
    if found is None:
        raise unknown("cell", mark)
    return found


def _calibration(db: Connection, meter: int, day: date) -> int | None:
    """The last one on or before a day."""
    wanted = select(Calibrations.id).where(Calibrations.instrument_id == meter, Calibrations.day <= day)
    return db.scalar(wanted.order_by(Calibrations.day.desc(), Calibrations.id.desc()).limit(1))


def _corrected(db: Connection, number: int) -> int:
    """The reading to be corrected: there, and not corrected by another one already."""
    if db.scalar(select(Readings.id).where(Readings.id == number)) is None:
        raise unknown("reading", str(number))
    if db.scalar(select(Readings.id).where(Readings.corrects_id == number)) is not None:
        cure = "Correct the one that took its place."
        raise RecordError([Problem("was corrected already.", cure, key="reading", value=str(number))])
    return number


def _readings() -> Wanted:
    after = aliased(Readings)
    about = (Serials.serial, Lots.mark, Cells.mark)
    said = (Readings.quantity, Readings.value, Readings.unit, Readings.step, Readings.note)
    around = (Readings.light_w_m2, Readings.heat_c, Instruments.name, Files.sha256, Readings.corrects_id)
    corrected = exists().where(after.corrects_id == Readings.id)
    kept = (Calibrations.day, Calibrations.due, corrected, Readings.who, Readings.at)
    return (
        select(Readings.id, *about, *said, *around, *kept)
        .outerjoin(Serials, Readings.serial_id == Serials.id)
        .outerjoin(Lots, Readings.lot_id == Lots.id)
        .outerjoin(Cells, Readings.cell_id == Cells.id)
        .outerjoin(Instruments, Readings.instrument_id == Instruments.id)
        .outerjoin(Calibrations, Readings.calibration_id == Calibrations.id)
        .outerjoin(Files, Readings.file_id == Files.id)
    )


def _kept(key, serial, lot, cell, quantity, value, unit, step, note, *rest) -> ReadingKept:  # type: ignore[no-untyped-def]
    light, heat, instrument, file, corrects, calibrated, due, corrected, by, at = rest
    reading = Reading(
        quantity,
        value,
        unit,
        serial=serial or "",
        lot=lot or "",
        cell=cell or "",
        step=step,
        light_w_m2=light,
        heat_c=heat,
        instrument=instrument or "",
        file=file or "",
        corrects=corrects,
        note=note,
    )
    return ReadingKept(key, reading, calibrated, due, corrected, by, at)
