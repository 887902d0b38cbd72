"""A person's words taken out of a text, and nothing else: keys, numbers and the make of a panel stay.

A customer may be called Glass and have the telephone 12. So a single word counts only as it was typed, in
capitals, or with a capital first; and in an order's text and in JSON only where words stand: never in a key,
nor in place of a number.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable
from typing import Any

ERASED = "(erased)"
Words = re.Pattern[str]

#: heads of tables, keys, and short values that are no text
_HEAD = r"^[ \t]*\[+[\w.-]+\]+[ \t]*(?=\#|$)"
_KEY = r"^[ \t]*[\w.-]+[ \t]*=[ \t]*(?:(?:true|false|[-+]?[\d.]{1,6})[ \t]*(?=\#|$))?"
_KEPT = f"(?m:{_HEAD}|{_KEY})"
_CUSTOMER = re.compile(r"""^[ \t]*customer[ \t]*=[ \t]*(?:"((?:\\.|[^"\\\n])*)"|'([^'\n]*)')""", re.MULTILINE)


def words(told: Iterable[str]) -> Words | None:
    """All that was told of a person, as typed and as TOML and JSON write it; None where nothing was."""
    said = {line.strip() for value in told for line in (value, *value.splitlines())} - {""}
    longest = sorted({form for one in said for form in _forms(one)}, key=lambda form: (-len(form), form))
    if not longest:
        return None
    return re.compile(rf"(?<!\w)(?:{'|'.join(map(_pattern, longest))})(?!\w)")


def customers_in(text: str) -> tuple[str, ...]:
    """Whom an order's text names as its customer."""
    return tuple(_typed(found[1], found[2]) for found in _CUSTOMER.finditer(text))


def out_of_prose(text: str, said: Words) -> str:
    """A note without the person's words."""
    return said.sub(ERASED, text)


def out_of_document(text: str, said: Words) -> str:
    """An order's text, or JSON, without the person's words."""
    try:
        plain = json.loads(text)
    except ValueError:
        return _out_of_order(text, said)
    clean = _within(plain, said)
    return text if clean == plain else json.dumps(clean)


def out_of_deal(text: str, said: Words) -> str:
    """A deal of cells without the person's words: only its order's text bears any, no mark of a cell."""
    plain = json.loads(text)
    before = plain.get("order", "")
    after = _out_of_order(before, said)
    if after == before:
        return text
    return json.dumps({**plain, "order": after}, ensure_ascii=False, separators=(",", ":")) + "\n"


def _within(plain: Any, said: Words) -> Any:
    if isinstance(plain, dict):
        return {key: _within(value, said) for key, value in plain.items()}
    if isinstance(plain, list):
        return [_within(each, said) for each in plain]
    return _out_of_order(plain, said) if isinstance(plain, str) else plain


def _out_of_order(text: str, said: Words) -> str:
    both = re.compile(f"(?P<kept>{_KEPT})|{said.pattern}")
    return both.sub(lambda found: found[0] if found["kept"] is not None else ERASED, text)


def _typed(double: str | None, single: str | None) -> str:
    if double is None:
        return single or ""
    try:
        return str(json.loads(f'"{double}"'))
    except ValueError:
        return double


def _forms(one: str) -> tuple[str, ...]:
    return one, json.dumps(one)[1:-1], json.dumps(one, ensure_ascii=False)[1:-1]


def _pattern(form: str) -> str:
    if not re.fullmatch(r"\w+", form):
        return f"(?i:{re.escape(form)})"
    return "|".join(re.escape(each) for each in sorted({form, form.upper(), form.capitalize()}))
