"""Findings in the shop's records: what was found, further readings one by one, and what was mended."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from panewright.desk.fault import recorded, settings
from panewright.desk.fault.found import PanelFound, Tell
from panewright.desk.rating.figure import NoFigure, figure_of
from panewright.desk.shop.who import Who
from panewright.errors import BenchError, Problem, RecordError

if TYPE_CHECKING:
    from panewright.ledger.bench.ratings import Found
    from panewright.ledger.open import Ledger

_KINDS = {"A": "current", "V": "voltage"}
FOUND, TOLD, BACK, MENDED = "found", "told", "taken back", "mended"


def keep(ledger: Ledger, made: PanelFound, files: Mapping[str, tuple[str, bytes]], who: Who) -> None:
    """What was found by the command, with its raw files: 'curve', and 'bench' where there is one."""
    from panewright.ledger.files import attach, store

    told: dict[str, Any] = {**recorded.of_finding(made), "files": {}}
    for what, (name, data) in files.items():
        by: dict[str, Any] = {"by": who.by, "at": who.at}
        raw = store(ledger, data, name=name[:120], media="application/octet-stream", **by)
        title = f"{name}, looked at for what is wrong"[:80]
        attach(ledger, raw.sha256, kind="reading", serial=told["serial"], title=title, **by)
        told["files"][what] = raw.sha256
    keep_found(ledger, told, None, who)


def keep_found(ledger: Ledger, told: dict[str, Any], rating: int | None, who: Who) -> None:
    """What was found of a panel."""
    from panewright.ledger.bench.ratings import keep_finding

    said = " ".join((*told["words"], *told["believed"]))
    text = json.dumps(told)
    keep_finding(ledger, told["serial"], FOUND, said, text, rating=rating, by=who.by, at=who.at, tap=who.tap)


def keep_tell(ledger: Ledger, serial: str, rating: int, typed: Mapping[str, str], who: Who) -> None:
    """One further measurement with its readings, as a page sends it; `BenchError` where they are none."""
    from panewright.ledger.bench.ratings import keep_finding

    units = typed.get("units", "").split()
    values = [_value(typed.get(f"reading-{n}", ""), unit) for n, unit in enumerate(units)]
    lies = "open" if typed.get("lies") == "open" else "closed"
    done = settings.written(settings.read(_json(typed.get("setting", ""))))
    text = json.dumps({"setting": done, "readings": values, "lies": lies})
    read = ", ".join(f"{value:g} {unit}" for value, unit in zip(values, units, strict=True))
    said = f"{typed.get('how', '')[:300]} Read: {read}."
    keep_finding(ledger, serial, TOLD, said, text, rating=rating, by=who.by, at=who.at, tap=who.tap)


def take_back(ledger: Ledger, serial: str, rating: int, who: Who) -> None:
    """The last further measurement counts no more; both rows stay."""
    from panewright.ledger.bench.ratings import findings, keep_finding

    if not tells_of(findings(ledger, serial), rating):
        problem = Problem("Nothing was measured that could be taken back.", "Load the page again.")
        raise RecordError([problem])
    keep_finding(
        ledger, serial, BACK, "the last reading", "{}", rating=rating, by=who.by, at=who.at, tap=who.tap
    )


def keep_mended(ledger: Ledger, serial: str, rating: int | None, typed: Mapping[str, str], who: Who) -> None:
    """What was mended: with what was found, and as a repair of the panel."""
    from panewright.desk.serials.after import keep_repair
    from panewright.ledger.bench.ratings import keep_finding

    words = " ".join(typed.get("words", "").split())
    keep_repair(ledger, serial, {"words": words}, Who(who.by, who.at, f"{who.tap}m" if who.tap else ""))
    keep_finding(ledger, serial, MENDED, words, "{}", rating=rating, by=who.by, at=who.at, tap=who.tap)


def tells_of(found: Sequence[Found], rating: int) -> tuple[Tell, ...]:
    """The further measurements that count, of one rating.

    Of older records only the sentence tells what was done; the number of a proposal tells nothing any more.
    """
    kept: list[Tell] = []
    for each in found:
        if each.rating != rating:
            continue
        if each.what == TOLD:
            told = json.loads(each.text)
            done = settings.read(told["setting"]) if "setting" in told else None
            kept.append(Tell(0, tuple(told["readings"]), told["lies"], done, each.said))
        elif each.what == BACK and kept:
            kept.pop()
    return tuple(kept)


def _json(text: str) -> Any:
    try:
        return json.loads(text)
    except ValueError:
        return None


def _value(text: str, unit: str) -> float:
    """A reading; a bare number is in the unit that was asked for."""
    plain = text.strip()
    if unit not in _KINDS:
        raise BenchError([Problem("There is no such unit.", "Load the page again.", key="reading")])
    bare = plain and not any(map(str.isalpha, plain))
    try:
        return figure_of(f"{plain} {unit}" if bare else plain, _KINDS[unit])[0]
    except NoFigure as none:
        raise BenchError([none.problem("reading", plain)]) from none
