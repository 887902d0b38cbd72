"""Which kinds of material go in at which step, by the names that lots have on a shelf."""

from __future__ import annotations

from panewright.pack.bench import Bench

_SOLDERED = ("solder", "flux")
_AT: dict[str, tuple[str, ...]] = {
    "sort-cells": ("cells",),
    "cut-rails": ("rail",),
    "clean-pane": ("glass",),
    "set-pane": ("silicone", "glass"),
    "tab-cells": ("ribbon", *_SOLDERED, "cells"),
    "string-column": (*_SOLDERED, "cells"),
    "join-columns": ("ribbon", *_SOLDERED),
    "bypass-diodes": ("diodes", "box", *_SOLDERED),
    "close-back": ("sheet", "box", "lead", "silicone", *_SOLDERED),
}
_POURED: dict[str, tuple[str, ...]] = {
    "silicone pour": ("encapsulant",),
    "film": ("film", "sheet"),
    "air gap": ("sheet",),
}
_CALLED = {
    "cell": "cells",
    "diode": "diodes",
    "bypass diodes": "diodes",
    "rails": "rail",
    "pane": "glass",
    "panes": "glass",
    "sealant": "silicone",
    "tab": "ribbon",
    "tabs": "ribbon",
    "bus": "ribbon",
    "ribbons": "ribbon",
    "fastener": "fasteners",
    "screws": "fasteners",
    "rivets": "fasteners",
    "pour": "encapsulant",
    "back sheet": "sheet",
    "junction box": "box",
    "leads": "lead",
}
KINDS = (
    *("cells", "ribbon", "solder", "flux", "silicone", "glass", "rail", "diodes", "fasteners"),
    *("encapsulant", "film", "sheet", "box", "lead"),
)
"""What a lot may be; a shop may have others, of which no step knows."""


def kind_of(words: str) -> str:
    """The kind that a shop's own word means; the word itself where none is known.

    >>> kind_of("Sealant"), kind_of("tabs"), kind_of("tape")
    ('silicone', 'ribbon', 'tape')
    """
    plain = " ".join(words.lower().split())
    return _CALLED.get(plain, plain)


def material(bench: Bench, key: str) -> tuple[str, ...]:
    """What goes in at a step of this panel, the first thing first; nothing where only hands do."""
    parts = bench.design.order.parts
    if key == "encapsulate":
        return _POURED[parts.encapsulation]
    if key == "join-frame":
        return ("fasteners",) if parts.corner_fastener else ()
    return _AT.get(key, ())
