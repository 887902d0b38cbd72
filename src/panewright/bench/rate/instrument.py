"""An instrument: how far its readings may be off, and until when its calibration holds.

A class or a data sheet bounds every reading: within it each error is as likely, so the standard uncertainty
is the bound over the root of 3 (JCGM 100:2008, 4.3.7, recalled). A certificate states k = 2: half of it. The
last digit rounds: a digit over the root of 12.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from math import hypot, sqrt

SOON_DAYS = 30  #: before its day an instrument is told to be due; common practice


@dataclass(frozen=True, slots=True)
class Instrument:
    """One instrument of the shop."""

    name: str
    kind: str  #: 'multimeter', 'tracer', 'reference cell', 'thermometer' ...
    share: float  #: standard uncertainty in proportion to a reading
    own: float = 0.0  #: standard uncertainty of any reading, in its unit
    digit: float = 0.0  #: the last digit, in its unit
    calibrated: date | None = None
    due: date | None = None
    source: str = "common practice, no source"  #: of its figures

    def __post_init__(self) -> None:
        if not self.name or min(self.share, self.own, self.digit) < 0:
            raise ValueError(f"an instrument has a name and uncertainties of 0 or more, got {self}")

    def sigma(self, reading: float) -> float:
        """Standard uncertainty of one reading."""
        return hypot(self.share * reading, self.own, self.rounding)

    @property
    def rounding(self) -> float:
        """Standard uncertainty by its last digit, anew with every reading."""
        return self.digit / sqrt(12)

    def wrong_on(self, day: date) -> str:
        """What is wrong with its calibration that day; empty where it is good.

        >>> first, due = date(2026, 1, 5), date(2027, 1, 5)
        >>> of_class("meter 2", "multimeter", 0.005, calibrated=first, due=due).wrong_on(date(2027, 2, 1))
        'meter 2 was due for calibration on 2027-01-05.'
        """
        if self.calibrated is None:
            return f"{self.name} was never calibrated."
        if self.calibrated > day:
            return f"{self.name} was calibrated only later, on {self.calibrated}."
        if self.due is None:
            return f"{self.name} has no day on which it is due again."
        return f"{self.name} was due for calibration on {self.due}." if self.due < day else ""

    def soon_due(self, day: date) -> bool:
        """Whether it must go for calibration within a month."""
        return self.due is not None and 0 <= (self.due - day).days <= SOON_DAYS


def of_class(
    name: str,
    kind: str,
    within_share: float,
    digit: float = 0.0,
    *,
    within: float = 0.0,
    calibrated: date | None = None,
    due: date | None = None,
) -> Instrument:
    """By what its class or data sheet says no reading is off by more."""
    bounds = [f"{within_share:.3g} of the reading"] * bool(within_share or not within)
    bounds += [f"{within:.3g} of its unit"] * bool(within)
    source = f"bound of {' and '.join(bounds)}, even within it (JCGM 100, recalled)"
    share, own = within_share / sqrt(3), within / sqrt(3)
    return Instrument(name, kind, share, own, digit, calibrated, due, source)


def of_certificate(
    name: str,
    kind: str,
    expanded_share: float,
    digit: float = 0.0,
    *,
    calibrated: date | None = None,
    due: date | None = None,
) -> Instrument:
    """By its certificate, which states k = 2."""
    source = f"certificate: {expanded_share:.3g} of the reading with k = 2"
    return Instrument(name, kind, expanded_share / 2, 0.0, digit, calibrated, due, source)
