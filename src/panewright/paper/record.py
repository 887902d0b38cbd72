"""A tree of records for programs: JSON in which order and figures never change by themselves.

Fields stand as in the record, keys of mappings sorted. Floats are the shortest figures that read back the
same, money is text so that no program rounds it, days are text by ISO 8601, and what is no number is null.
"""

from __future__ import annotations

import json
import math
from collections.abc import Mapping, Set
from dataclasses import fields, is_dataclass
from datetime import date
from decimal import Decimal
from enum import Enum
from fractions import Fraction
from functools import lru_cache
from typing import Any


def json_bytes(record: object) -> bytes:
    """The record as JSON in UTF-8, indented by one, ended by a line feed."""
    words = json.dumps(plain(record), ensure_ascii=False, indent=1, allow_nan=False)
    return (words + "\n").encode("utf-8", errors="replace")


def plain(thing: Any) -> Any:
    """The same tree in dicts, lists, text and numbers only."""
    match thing:
        case None | bool() | str():
            return thing
        case Enum():
            return plain(thing.value)
        case int():
            return int(thing)
        case float():
            return float(thing) if math.isfinite(thing) else None
        case Decimal():
            return f"{thing:f}" if thing.is_finite() else None
        case Fraction():
            return str(thing)
        case date():
            return thing.isoformat()
        case Mapping():
            return {str(key): plain(value) for key, value in sorted(thing.items(), key=lambda kv: str(kv[0]))}
        case tuple() | list():
            return [plain(part) for part in thing]
        case Set():
            return sorted((plain(part) for part in thing), key=str)
    return _record_or_array(thing)


def _record_or_array(thing: Any) -> Any:
    """A record by its fields; numbers and arrays of the numerical library by their own list."""
    if is_dataclass(thing) and not isinstance(thing, type):
        return {name: plain(getattr(thing, name)) for name in _names(type(thing))}
    if hasattr(thing, "tolist"):
        return plain(thing.tolist())
    raise TypeError(f"no way to write {type(thing).__name__} for a program")


@lru_cache(maxsize=512)
def _names(kind: type) -> tuple[str, ...]:
    return tuple(field.name for field in fields(kind))
