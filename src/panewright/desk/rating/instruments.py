"""The instruments of a rating: what is written of each becomes an uncertainty; one that is not named is poor.

What nobody wrote of an instrument is taken from its kind, widely, and it counts as never calibrated.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date

from panewright.bench.rate.instrument import Instrument, of_certificate, of_class
from panewright.desk.rating.figure import NoFigure, figure_of, within
from panewright.errors import BenchError, Problem

_MOST_SHARE = 0.5
_DIGITS = ("voltage", "current", "light", "heat", "rise")
#: within which an instrument of a kind reads, where nothing is written of it: share, then own unit
_OF_KIND = {
    "voltmeter": (0.01, 0.0),
    "ammeter": (0.02, 0.0),
    "reference cell": (0.04, 0.0),
    "second panel": (0.06, 0.0),
    "light meter": (0.10, 0.0),
    "telephone": (0.14, 0.0),
    "thermometer": (0.0, 2.0),
    "infrared gun": (0.0, 3.0),
}


@dataclass(frozen=True, slots=True)
class Written:
    """One instrument as it is written down: figures as they stand on its paper or leaflet."""

    name: str
    kind: str = ""
    within: str = ""  #: '0.5 %' or '1 K': its class, its leaflet
    certificate: str = ""  #: '2 %': with k = 2
    digit: str = ""  #: '0.01 V': the last digit that it shows
    at_stc: str = ""  #: '100 mV': of a cell or a panel that tells the light
    calibrated: date | None = None
    due: date | None = None


@dataclass(frozen=True, slots=True)
class Known:
    """One instrument as the rating takes it."""

    instrument: Instrument
    at_stc: tuple[float, str] | None = None  #: in SI, and its kind


def known(name: str, kind: str, shop: Mapping[str, Written], key: str) -> Known:
    """The instrument of that name; where none is named, one of its kind, never calibrated."""
    if not name:
        share, own = _OF_KIND[kind]
        article = "an" if kind[0] in "aeiou" else "a"
        made = of_class(f"{article} {kind} without a name", kind, share, within=own)
        return Known(made)
    if name not in shop:
        reason = "There is no such instrument."
        said = ", ".join(sorted(shop)) or "none"
        cure = f"Write it under Instruments of the shop, or in the file. Known: {said}."
        raise BenchError([Problem(reason, cure, key=key, value=name[:40])])
    return _of(shop[name], kind)


def mistakes(written: Written) -> tuple[Problem, ...]:
    """What is wrong with what is written of one; nothing where it can be read."""
    try:
        _of(written, "voltmeter")
    except BenchError as wrong:
        return wrong.problems
    return ()


def _of(written: Written, kind: str) -> Known:
    share, own = _OF_KIND[kind]
    at_stc = _figure(written, "at_stc", ("voltage", "current", "light"))
    digit = _figure(written, "digit", _DIGITS)
    paper = _figure(written, "certificate", ("share",))
    bound = _figure(written, "within", ("share", "rise", "heat"))
    last, called = digit[0] if digit else 0.0, written.kind or kind
    if bound:
        share, own = (bound[0], 0.0) if bound[1] == "share" else (0.0, bound[0])
    made = (
        of_certificate(written.name, called, paper[0], last)
        if paper
        else of_class(written.name, called, share, last, within=own)
    )
    return Known(replace(made, calibrated=written.calibrated, due=written.due), at_stc)


def _figure(written: Written, field: str, kinds: tuple[str, ...]) -> tuple[float, str] | None:
    text = getattr(written, field)
    if not text:
        return None
    try:
        value, kind = figure_of(text, *kinds)
        return within(
            value, 0, _MOST_SHARE if kind == "share" else 1e4, "of it" if kind == "share" else ""
        ), kind
    except NoFigure as none:
        raise BenchError([none.problem(f"instrument.{written.name}.{field}", text)]) from none
