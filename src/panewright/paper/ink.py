"""What each layer looks like: colour, one of three line weights, dash and fill.

A colour has a meaning and never stands alone. Copper carries current; deep blue is silicon; pale green is
glass; grey is aluminium; amber says 'look here'; red, with a crossed shape, says 'do not'. Fills are pale,
so that words stay readable on them and a black and white print shows light greys under dark outlines.
Every colour used for words has a contrast of 7 : 1 or more on the paper.
"""

from __future__ import annotations

from dataclasses import dataclass

from panewright.drawing.drawing import Layer

THIN, MEDIUM, THICK = 0.18, 0.35, 0.7  #: the three line weights [mm of paper]
HAIR = 0.12  #: the grid of a chart only, which should barely be seen [mm of paper]

INK, SOFT, PAPER = "#1b1f24", "#4b5157", "#ffffff"
SILICON, SILICON_PALE = "#17325c", "#dde6f1"
COPPER, COPPER_PALE, COPPER_WORDS = "#a9541c", "#e3b089", "#853c0c"
GLASS, GLASS_PALE = "#3c7355", "#edf5f0"
METAL, METAL_PALE = "#565d64", "#e4e6e8"
AMBER = "#e09b12"
RED = "#a30f1a"


@dataclass(frozen=True, slots=True)
class Ink:
    """How one layer is drawn; lengths in millimetres of paper whatever the scale."""

    stroke: str = INK
    width_mm: float = MEDIUM
    dash_mm: tuple[float, ...] = ()
    fill: str = "none"  #: for filled items only
    letters: str = INK


_DASHED = (2.4, 1.2)
_DASH_DOT = (6.0, 1.2, 0.6, 1.2)
_DOTTED = (0.4, 0.9)

INKS: dict[Layer, Ink] = {
    "cell": Ink(SILICON, MEDIUM, fill=SILICON_PALE),
    "limit": Ink(SILICON, THIN, _DOTTED),
    "busbar": Ink("#7b8694", THIN, fill="#b9c2cd"),
    "ribbon": Ink(COPPER, MEDIUM, fill=COPPER_PALE),
    "bus": Ink(COPPER, THICK, fill=COPPER_PALE, letters=COPPER_WORDS),
    "lead": Ink(COPPER, THICK, fill=COPPER_PALE, letters=COPPER_WORDS),
    "pane": Ink(GLASS, MEDIUM, fill=GLASS_PALE),
    "bead": Ink(SOFT, THIN, fill="#cfc9bc"),
    "encapsulant": Ink(GLASS, THIN, fill="#f6f9f4"),
    "rail": Ink(METAL, MEDIUM, fill=METAL_PALE),
    "hole": Ink(INK, THIN, fill=PAPER),
    "bracket": Ink(METAL, MEDIUM, fill="#c5cacf"),
    "hidden": Ink(INK, THIN, _DASHED),
    "centre": Ink(INK, THIN, _DASH_DOT),
    "dimension": Ink(INK, THIN, fill=INK),
    "text": Ink(INK, THIN),
    "number": Ink(INK, THIN),
    "border": Ink(INK, MEDIUM),
    "cut": Ink(INK, THIN, (4.0, 2.0)),
    "plus": Ink(INK, THICK, fill=PAPER),
    "minus": Ink(INK, THICK, fill=PAPER),
    "axis": Ink(INK, THIN),
    "grid": Ink("#d5d9dc", HAIR),
    "predicted": Ink(SILICON, MEDIUM, letters=SILICON),
    "measured": Ink(INK, THICK),
    "band": Ink("none", THIN, fill="#e2e7ea", letters=SOFT),
    "mark": Ink(INK, THIN, fill=AMBER),
    "ink": Ink(INK, MEDIUM, fill=INK),
    "string-1": Ink(INK, THIN, fill="#dde6f1"),
    "string-2": Ink(INK, THIN, fill="#f6e2d1"),
    "string-3": Ink(INK, THIN, fill="#e0efe5"),
    "string-4": Ink(INK, THIN, fill="#f8ecc4"),
    "string-5": Ink(INK, THIN, fill="#e8e0f1"),
    "string-6": Ink(INK, THIN, fill="#d7eded"),
    "string-7": Ink(INK, THIN, fill="#ececd3"),
    "string-8": Ink(INK, THIN, fill="#e9e6e3"),
    "warn": Ink(RED, THICK, fill=RED, letters=RED),
}
