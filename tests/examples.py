"""The example orders designed and packed, once for all tests of one process that only look at them."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

from panewright import desk
from panewright.pack.bench import Bench
from panewright.pack.leaf import Pack
from panewright.pack.pack import make_pack
from panewright.panel.choose import design_panel
from panewright.price.offers.quote import quote
from panewright.shelf.load import load_shelf

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


WAYS = ("silicone pour", "film", "air gap")
ANOTHER_WAY = ("fence", "frost-sensor", "henhouse", "jetty")
"""Examples that are closed in every way: both measures, one panel and many, small and large."""
CLOSED = tuple((name, way) for name in NAMES for way in WAYS if way == WAYS[0] or name in ANOTHER_WAY)
"""Each example as it is, all of them poured, and some of them closed in the other ways."""


@cache
def closed(name: str, way: str) -> Bench:
    """An example as its steps see it, closed in a way that its own order may not ask for."""
    own = made(name)
    order = own.design.order
    if order.parts.encapsulation == way:
        return Bench(own.design, own.quote)
    shelf = load_shelf()
    design = design_panel(replace(order, parts=replace(order.parts, encapsulation=way)), shelf)
    return Bench(design, quote(design, shelf))
