"""What a column takes, the same in SQLite and in PostgreSQL; what it does not take is a `RecordError`.

SQLite would keep a text of any length, a time without a zone and a number with a rounding error, and
PostgreSQL would answer with words of its own. So the column itself looks at each value first.
"""

from __future__ import annotations

import math
from datetime import UTC, datetime
from decimal import Decimal
from typing import Any

from sqlalchemy import BigInteger, DateTime, Dialect, Double, Text
from sqlalchemy.types import TypeDecorator

from panewright.errors import Problem, RecordError

LINE_MOST = 200  #: characters of a name
PROSE_MOST = 20_000  #: characters of a note
DOCUMENT_MOST = 4_000_000  #: characters of an order, a design's figures, the shelf
_AMOUNT_MOST = 10**9  #: of a unit; thousands of the largest still add up in a database's whole numbers
_PLACES = 6


class Moment(TypeDecorator[datetime]):
    """A moment, kept in UTC. A time without a zone is refused: nobody could say later when it was."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """To UTC."""
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError(f"a moment needs its zone, got {value!r}")
        try:
            there = value.astimezone(UTC)
        except OverflowError as reason:
            raise _refused(value, "is no time of this world.", "Set the clock.") from reason
        return there.replace(tzinfo=None) if dialect.name == "sqlite" else there

    def process_result_value(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """As UTC, whatever zone the server shows."""
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if dialect.name == "sqlite" else value.astimezone(UTC)


class _Words(TypeDecorator[str]):
    """Text of a bounded length that both databases can keep."""

    impl = Text
    cache_ok = True
    most = PROSE_MOST

    def process_bind_param(self, value: str | None, dialect: Dialect) -> str | None:  # noqa: ARG002
        """As it is, or refused."""
        if value is None:
            return None
        if len(value) > self.most:
            raise _refused(value, f"is longer than {self.most} characters.", "Shorten it.")
        if "\0" in value or any("\ud800" <= each <= "\udfff" for each in value):
            raise _refused(value, "holds a character that is no text.", "Type it again.")
        return value


class Prose(_Words):
    """A note: any text, also none."""

    cache_ok = True


class Document(_Words):
    """A whole file's text."""

    cache_ok = True
    most = DOCUMENT_MOST


class Line(_Words):
    """A name: one line that is not blank."""

    cache_ok = True
    most = LINE_MOST

    def process_bind_param(self, value: str | None, dialect: Dialect) -> str | None:
        """As it is, or refused."""
        if value is not None and not value.strip():
            raise _refused(value, "A name in the records is left blank.", "Write it.")
        if value is not None and any(each < " " for each in value):
            raise _refused(value, "holds a line end or another sign that is no letter.", "Write one line.")
        return super().process_bind_param(value, dialect)


class Amount(TypeDecorator[Decimal]):
    """A decimal number to a millionth of its unit, kept as a whole number, so that sums are exact."""

    impl = BigInteger
    cache_ok = True

    def process_bind_param(self, value: Decimal | None, dialect: Dialect) -> int | None:  # noqa: ARG002
        """In millionths."""
        if value is None:
            return None
        small = value.is_finite() and abs(value) < _AMOUNT_MOST
        millionths = int(value * 10**_PLACES) if small else 0
        if not small or Decimal(millionths).scaleb(-_PLACES) != value:
            raise _refused(str(value), "is no amount.", "Write a number with at most six decimal places.")
        return millionths

    def process_result_value(self, value: int | Decimal | None, dialect: Dialect) -> Decimal | None:  # noqa: ARG002
        """In units."""
        return None if value is None else plain(Decimal(int(value)).scaleb(-_PLACES))


class Figure(TypeDecorator[float]):
    """A measured number; one that is not finite is refused."""

    impl = Double
    cache_ok = True

    def process_bind_param(self, value: float | None, dialect: Dialect) -> float | None:  # noqa: ARG002
        """As it is, or refused."""
        if value is not None and not math.isfinite(value):
            raise _refused(str(value), "is no reading.", "Write the number that the instrument showed.")
        return None if value is None else float(value)


def plain(value: Decimal) -> Decimal:
    """Without zeros at the end and without an exponent.

    >>> plain(Decimal("1.500000")), plain(Decimal("120"))
    (Decimal('1.5'), Decimal('120'))
    """
    return value.quantize(Decimal(1)) if value == value.to_integral_value() else value.normalize()


def _refused(value: Any, reason: str, cure: str) -> RecordError:
    shown = str(value)[:40].encode("ascii", "backslashreplace").decode()
    return RecordError([Problem(reason=reason, cure=cure, key="record", value=shown)])
