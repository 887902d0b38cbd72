"""Offers as the fields of a form: a row each, written as the text that is compared, and read back from it."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import tomlkit

_OFFER = ("name", "price", "pack", "carriage", "lost", "measured", "measuring")
_GRADE = ("current", "current_spread")
FIELDS = (*_OFFER, *_GRADE)
WANT = ("sure", "rating", "least_cell")
_ROWS, _SPARE, MOST_ROWS = 3, 1, 12


@dataclass(frozen=True, slots=True)
class OfferRows:
    """What stands in the form."""

    want: Mapping[str, str]
    soldering: str  #: how many cells the shop's work costs
    offers: tuple[Mapping[str, str], ...]  #: empty ones to fill in at the end


def written(form: Mapping[str, str]) -> str:
    """The text of what was filled in; rows without a name and a price are left out."""
    text = tomlkit.document()
    want = {key: form[key].strip() for key in WANT if form.get(key, "").strip()}
    if want:
        text["want"] = want
    if lost := form.get("soldering", "").strip():
        text["step"] = _tables([{"name": "work in the shop", "lost": lost}])
    rows = (_row(form, number) for number in range(MOST_ROWS))
    offers = [_offer(row) for row in rows if row.get("name") or row.get("price")]
    if offers:
        text["offer"] = _tables(offers)
    return tomlkit.dumps(text)


def _row(form: Mapping[str, str], number: int) -> dict[str, str]:
    typed = {key: form.get(f"{key}{number}", "").strip() for key in FIELDS}
    return {key: value for key, value in typed.items() if value}


def _offer(row: Mapping[str, str]) -> dict[str, Any]:
    """A table of the text: whole numbers bare, one grade for all cells where one is told."""
    made: dict[str, Any] = {key: row[key] for key in _OFFER if key in row}
    if row.get("pack", "").isdecimal():
        made["pack"] = int(row["pack"])
    grade = {key: row[key] for key in _GRADE if key in row}
    if grade:
        made["grade"] = _tables([{"share": "100 %", **grade}])
    return made


def _tables(rows: list[dict[str, Any]]) -> Any:
    found = tomlkit.aot()
    for row in rows:
        found.append(tomlkit.item(row))
    return found


def rows_of(text: str) -> OfferRows:
    """The form of a text; empty where the text says more than the form can hold."""
    try:
        table = tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        table = {}
    offers, steps, want = table.get("offer", []), table.get("step", []), table.get("want", {})
    if not _plain(offers, steps, want):
        offers, steps, want = [], [], {}
    filled = [_fields(each) for each in offers]
    empty = max(_ROWS - len(filled), _SPARE)
    return OfferRows(
        {key: str(value) for key, value in want.items()},
        str(steps[0].get("lost", "")) if steps else "",
        tuple((filled + [{} for _ in range(empty)])[:MOST_ROWS]),
    )


def _plain(offers: Any, steps: Any, want: Any) -> bool:
    """Whether the form has a field for everything in it."""
    if not (isinstance(want, dict) and isinstance(steps, list) and isinstance(offers, list)):
        return False
    if set(want) - set(WANT) or len(steps) > 1 or len(offers) > MOST_ROWS:
        return False
    return all(isinstance(each, dict) for each in (*steps, *offers)) and all(map(_simple, offers))


def _simple(offer: dict[str, Any]) -> bool:
    grades = offer.get("grade", [])
    if set(offer) - {*_OFFER, "grade"} or not isinstance(grades, list) or len(grades) > 1:
        return False
    return all(isinstance(each, dict) and not set(each) - {"share", *_GRADE} for each in grades)


def _fields(offer: dict[str, Any]) -> dict[str, str]:
    grade = (offer.get("grade") or [{}])[0]
    told = {key: offer[key] for key in _OFFER if key in offer}
    told |= {key: grade[key] for key in _GRADE if key in grade}
    return {key: str(value) for key, value in told.items()}
