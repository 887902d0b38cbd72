"""What a shop says once for all its panels, as a page shows and changes it.

It stays the file that a person may write by hand: what else stands in it, remarks among it, stays as it is.
"""

from __future__ import annotations

from collections.abc import Mapping, MutableMapping
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Any, cast

import tomlkit

from panewright.desk.folder import write_all
from panewright.desk.rating.form import Asked, fields
from panewright.desk.rating.shop_words import FILE, read_shop_words, shop_words
from panewright.desk.rating.typed import GROUPS
from panewright.errors import BenchError, Problem

STOOD = "stood"  #: what the form sends back: which file it was filled in from
_OF_GROUP = {"healthy": "Sound"}


@dataclass(frozen=True, slots=True)
class ShopRules:
    """Its words by key as they stand, and what tells this file from one written meanwhile."""

    words: Mapping[str, str]
    stood: str


def asked() -> Mapping[str, tuple[Asked, ...]]:
    """Every field of the page, by its part."""
    shares = tuple(
        Asked(key, _OF_GROUP.get(group, group.capitalize()), "95 %" if group == "healthy" else "2 %")
        for key, group in GROUPS.items()
    )
    return {"label": fields()["label"], "shares": shares}


def shop_rules(folder: Path) -> ShopRules:
    """As they stand; `BenchError` with every mistake in the file."""
    return ShopRules(shop_words(folder), _stood(_data(folder)))


def keep_rules(folder: Path, typed: Mapping[str, str]) -> None:
    """Keep what was typed, an empty field as nothing said; `BenchError` with every mistake, and nothing is
    written. Refused too where the file was changed since the form was filled in."""
    data = _data(folder)
    if typed.get(STOOD, "") != _stood(data):
        cure = "Open the page anew, look at what stands there now, and type it again."
        raise BenchError([Problem("The rules were changed meanwhile, by another screen or by hand.", cure)])
    shop_words(folder)  # a file with a mistake is mended by hand, not written over
    wanted = {key: " ".join(typed.get(key, "").split()) for key in _keys()}
    text = _changed(data.decode("utf-8"), wanted)
    read_shop_words(text.encode(), FILE)
    write_all(folder, {FILE: text.encode()})


def _keys() -> tuple[str, ...]:
    return tuple(each.key for part in asked().values() for each in part)


def _changed(text: str, wanted: Mapping[str, str]) -> str:
    """The file's text with other values; a key that is empty is taken out."""
    document = tomlkit.parse(text)
    for key, value in wanted.items():
        section, name = key.split(".")
        if value:
            table = cast(MutableMapping[str, Any], document.setdefault(section, tomlkit.table()))
            if table.get(name) != value:
                table[name] = value
        elif name in document.get(section, {}):
            del cast(MutableMapping[str, Any], document[section])[name]
    return tomlkit.dumps(document)


def _data(folder: Path) -> bytes:
    file = folder / FILE
    return file.read_bytes() if file.is_file() else b""


def _stood(data: bytes) -> str:
    return sha256(data).hexdigest()[:16]
