"""A tree of records written as JSON (`paper/record.py`) comes back as the same records."""

from __future__ import annotations

import types
from dataclasses import fields, is_dataclass
from decimal import Decimal
from functools import lru_cache
from typing import Any, Literal, TypeVar, Union, get_args, get_origin, get_type_hints

Record = TypeVar("Record")


def read(kind: type[Record], told: Any) -> Record:
    """A record of that kind; `ValueError` where what is told is none.

    >>> from panewright.cutting.piece import Piece
    >>> read(Piece, {"name": "rail", "length_mm": 840, "quantity": 2})
    Piece(name='rail', length_mm=840.0, quantity=2, mitred_ends=0, order='')
    """
    try:
        found: Record = _of(kind, told)
    except (KeyError, TypeError, AttributeError, ArithmeticError) as wrong:
        raise ValueError(f"no {kind.__name__}: {wrong}") from wrong
    return found


def _of(kind: Any, told: Any) -> Any:
    origin, inner = get_origin(kind), get_args(kind)
    if is_dataclass(kind):
        return _record(kind, told)
    if origin is tuple:
        each = [inner[0]] * len(told) if inner[1:] == (...,) else inner
        return tuple(_of(one, value) for one, value in zip(each, told, strict=True))
    if origin in (Union, types.UnionType):
        return None if told is None else _of(next(one for one in inner if one is not type(None)), told)
    if origin is Literal or kind is Any:
        return told
    if kind is float and isinstance(told, int | float):
        return float(told)
    if kind is Decimal:
        return Decimal(told)
    if type(told) is not kind:
        raise TypeError(f"{kind} is not {told!r}")
    return told


def _record(kind: Any, told: Any) -> Any:
    hints = _hints(kind)
    return kind(**{name: _of(hints[name], told[name]) for name in hints if name in told})


@lru_cache(maxsize=64)
def _hints(kind: Any) -> dict[str, Any]:
    hints = get_type_hints(kind)
    return {field.name: hints[field.name] for field in fields(kind)}
