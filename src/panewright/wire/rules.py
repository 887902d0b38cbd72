"""What a run must carry, asked of the one family of rules under which it is laid."""

from __future__ import annotations

import math
from dataclasses import dataclass

from panewright.check import Check
from panewright.wire import iec, nec
from panewright.wire.ampacity import CONTINUOUS_FACTOR, GREATEST_CURRENT_FACTOR
from panewright.wire.drop import DROP_SHARE
from panewright.wire.laid import Laid
from panewright.wire.sizes import Size

_MORE_METAL = "Take a thicker run, or lay it cooler, in shade or with fewer others beside it."


@dataclass(frozen=True, slots=True)
class Run:
    """A pair of conductors from one place to another, by what flows in them."""

    one_way_m: float
    greatest_a: float  #: panels: 1.25 of all their Isc together; a controller's output: what it is rated for
    working_a: float
    working_v: float
    fuse_a: float | None = None  #: of the fuse that protects it, None where there is none
    drop_share: float = DROP_SHARE  #: of the working voltage that may be lost
    drop_why: str = ""  #: where that share comes from; empty: common practice

    def __post_init__(self) -> None:
        if not (0 <= self.one_way_m < math.inf and 0 < self.greatest_a < math.inf):
            raise ValueError(f"a run has a length of 0 or more and a current above 0, got {self}")
        if min(self.working_a, self.working_v) <= 0 or (self.fuse_a is not None and self.fuse_a <= 0):
            raise ValueError(f"a run has currents and voltages above 0, got {self}")
        if not 0 < self.drop_share < 1:
            raise ValueError(f"a run may lose a share between 0 and 1, got {self.drop_share:g}")


def greatest_of_panels_a(isc_sum_a: float) -> float:
    """Current that counts of panels side by side: 1.25 of all Isc. [A] NEC 690.8(A), IEC 62548

    >>> greatest_of_panels_a(8.55)
    10.6875
    """
    return GREATEST_CURRENT_FACTOR * isc_sum_a


def round_it_c(laid: Laid) -> float:
    """Air that counts round a run in the hottest hour. [degC]"""
    return nec.round_it_c(laid) if laid.family == "NEC" else iec.round_it_c(laid)


def bundled_a(size: Size, laid: Laid) -> float | None:
    """Ampacity in air of 30 degC beside its neighbours; None where the family does not cover the size. [A]"""
    if laid.family == "NEC":
        table_a, together = nec.table_a(size, laid), nec.bundle_left(laid.beside)
    else:
        table_a, together = iec.table_a(size, laid), iec.circuits_left(laid.beside)
    return None if table_a is None else table_a * together


def carried_a(size: Size, laid: Laid) -> float | None:
    """Ampacity where it lies, in heat and beside its neighbours. [A]"""
    table_a, left = (
        (nec.table_a(size, laid), nec.left(laid))
        if laid.family == "NEC"
        else (iec.table_a(size, laid), iec.left(laid))
    )
    return None if table_a is None else table_a * left


def run_checks(size: Size, run: Run, laid: Laid, drop_v: float) -> tuple[Check, ...]:
    """All rules of the run's family for one size. NEC 690.8(B), 110.14(C), 240.4; IEC 60364-5-52, -4-43"""
    found = [_heat_check(size, run, laid), _terminal_check(size, run, laid), _drop_check(run, drop_v)]
    if laid.family == "NEC":
        found.insert(0, _before_heat_check(size, run, laid))
    if run.fuse_a is not None:
        found.append(_fuse_check(size, run.fuse_a, laid))
    return tuple(found)


def _before_heat_check(size: Size, run: Run, laid: Laid) -> Check:
    return Check(
        rule="current in the run before heat is counted",
        demand=CONTINUOUS_FACTOR * run.greatest_a,
        limit=nec.table_a(size, laid),
        unit="A",
        source="NEC 690.8(B), table 310.16",
        cure="Take a thicker run.",
        room="wire",
    )


def _heat_check(size: Size, run: Run, laid: Laid) -> Check:
    nec_source = "NEC 690.8(B), 310.15(B) and (C)(1), table 310.16"
    return Check(
        rule="current in the run in its heat",
        demand=run.greatest_a,
        limit=carried_a(size, laid),
        unit="A",
        source=nec_source if laid.family == "NEC" else "IEC 60364-5-52, tables B.52",
        cure=_MORE_METAL,
        room="wire",
    )


def _terminal_check(size: Size, run: Run, laid: Laid) -> Check:
    by_nec = laid.family == "NEC"
    return Check(
        rule="terminals of the run stay cool enough",
        demand=run.greatest_a * (CONTINUOUS_FACTOR if by_nec else 1.0),
        limit=nec.terminal_a(size, laid) if by_nec else iec.terminal_a(size, laid),
        unit="A",
        source="NEC 110.14(C), 75 °C column" if by_nec else "IEC 60364-5-52, 523.1 (recalled)",
        cure="Take a thicker run, or terminals that bear more heat.",
        room="wire",
    )


def _drop_check(run: Run, drop_v: float) -> Check:
    return Check(
        rule="voltage lost in the run",
        demand=drop_v,
        limit=run.drop_share * run.working_v,
        unit="V",
        source=run.drop_why or f"{100 * run.drop_share:g} % of the working voltage: common practice",
        cure="Take a thicker or a shorter run, or more panels in series.",
        room="wire",
    )


def _fuse_check(size: Size, fuse_a: float, laid: Laid) -> Check:
    """The next size up, which NEC 240.4(B) lets pass, is not used."""
    limit, by_nec = carried_a(size, laid), laid.family == "NEC"
    if limit is not None and by_nec:
        limit = min(limit, nec.fuse_limit_a(size) or math.inf)
    return Check(
        rule="fuse protects the run",
        demand=fuse_a,
        limit=limit,
        unit="A",
        source="NEC 240.4 and 240.4(D)" if by_nec else "IEC 60364-4-43, 433.1",
        cure="Take a thicker run, or a smaller fuse that still carries the current.",
        room="wire",
    )
