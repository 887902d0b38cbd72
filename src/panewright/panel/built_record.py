"""A built panel as plain lists, words and numbers, and back to the very same record.

Records become dicts of their fields. Numbers that JSON has no word for are written as words. What a field may
hold is read from the records themselves, so a field that is added needs nothing here.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import fields, is_dataclass
from functools import cache
from types import NoneType, UnionType
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

from panewright.panel.built import Built

Plain = dict[str, Any]
_WORDS = {"infinite": math.inf, "minus infinite": -math.inf, "not a number": math.nan}


def as_record(built: Built) -> Plain:
    """The built panel, fit for JSON."""
    record: Plain = _plain(built)
    return record


def from_record(record: Mapping[str, Any]) -> Built:
    """The built panel that was written so; `ValueError` where it was not."""
    built = _read(Built, record)
    assert isinstance(built, Built)
    return built


def _plain(thing: Any) -> Any:
    if is_dataclass(thing) and not isinstance(thing, type):
        return {each.name: _plain(getattr(thing, each.name)) for each in fields(thing)}
    if isinstance(thing, tuple):
        return [_plain(each) for each in thing]
    if isinstance(thing, float) and not math.isfinite(thing):
        return next(word for word, value in _WORDS.items() if value == thing or thing != thing != value)
    return float(thing) if isinstance(thing, float) else thing


def _read(kind: Any, plain: Any) -> Any:
    """A value of that kind."""
    if _is_record(kind):
        return _record(kind, plain)
    origin = get_origin(kind)
    if origin in (Union, UnionType):
        return _one_of(get_args(kind), plain)
    if origin is tuple and isinstance(plain, Sequence):
        return tuple(_read(get_args(kind)[0], each) for each in plain)
    if origin is Literal and plain in get_args(kind):
        return plain
    if kind is float and isinstance(plain, int | float | str):
        return _WORDS[plain] if isinstance(plain, str) else float(plain)
    if isinstance(kind, type) and isinstance(plain, kind):
        return plain
    raise ValueError(f"a record holds {kind} here, got {plain!r}")


def _record(kind: Any, plain: Any) -> Any:
    hints: dict[str, Any] = _hints(kind)
    if not isinstance(plain, Mapping) or not set(plain) <= set(hints):
        raise ValueError(f"{kind.__name__} is written with {', '.join(hints)}, got {plain!r}")
    return kind(**{name: _read(hints[name], value) for name, value in plain.items()})


def _one_of(kinds: tuple[Any, ...], plain: Any) -> Any:
    """None, or the record that has all these fields, or the plain kind."""
    if plain is None and NoneType in kinds:
        return None
    for kind in kinds:
        if _is_record(kind) and isinstance(plain, Mapping) and set(plain) <= set(_hints(kind)):
            return _read(kind, plain)
    others = [kind for kind in kinds if kind is not NoneType and not _is_record(kind)]
    if not others:
        raise ValueError(f"a record holds one of {kinds} here, got {plain!r}")
    return _read(others[0], plain)


def _is_record(kind: Any) -> bool:
    return isinstance(kind, type) and is_dataclass(kind)


@cache
def _hints(kind: Any) -> dict[str, Any]:
    return {each.name: get_type_hints(kind)[each.name] for each in fields(kind)}
