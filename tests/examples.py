"""The example orders designed and packed, once for all tests of one process that only look at them."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from panewright import desk
from panewright.pack.leaf import Pack
from panewright.pack.pack import make_pack

FOLDER = Path(__file__).parents[1] / "examples"
NAMES = tuple(sorted(path.stem for path in FOLDER.glob("*.toml")))


def anew(name: str) -> desk.Made:
    """An example designed and priced, whoever did it before."""
    path = FOLDER / f"{name}.toml"
    return desk.design(path.read_bytes(), path.name)


@cache
def made(name: str) -> desk.Made:
    """An example designed and priced."""
    return anew(name)


@cache
def packed(name: str) -> Pack:
    """Its pack."""
    return make_pack(made(name).design, made(name).quote)
