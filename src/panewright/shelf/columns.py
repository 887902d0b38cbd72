"""What each kind of part is described by: the columns of the shelf's tables.

An order that describes a part in full uses the same columns under its own key.
"""

from __future__ import annotations

from typing import get_args

from panewright.frame.metals.metal import Metal
from panewright.frame.support.post import Shape
from panewright.frame.support.timber import NAMES as TIMBERS
from panewright.frame.support.wood_screw import Kind
from panewright.shelf.key import Key
from panewright.shelf.shelf import Use

STRIP = (
    Key("strip", "width", "size", "of the copper", "2 mm", True, least="0.2 mm", most="40 mm"),
    Key("strip", "thickness", "size", "of the copper", "0.15 mm", True, least="0.03 mm", most="2 mm"),
    Key(
        "strip", "coat", "size", "solder on every face", "20 um", default="20 um", most="0.2 mm", least="0 um"
    ),
)
SHEET = (
    Key(
        "sheet",
        "material",
        "choice",
        "what it is made of",
        "glass",
        True,
        choices=("glass", "acrylic", "polycarbonate"),
    ),
    Key(
        "sheet",
        "treatment",
        "choice",
        "how the glass was hardened; none for plastics",
        "tempered",
        True,
        choices=("annealed", "heat-strengthened", "tempered", "none"),
    ),
    Key(
        "sheet",
        "surface",
        "choice",
        "plain or rolled with a pattern",
        "plain",
        default="plain",
        choices=("plain", "patterned"),
    ),
    Key("sheet", "nominal", "size", "thickness as sold", "4 mm", least="1 mm", most="25 mm"),
    Key(
        "sheet",
        "thickness",
        "size",
        "thinnest it may be; of laminated glass both plies together",
        "3.8 mm",
        True,
        least="0.8 mm",
        most="25 mm",
    ),
    Key(
        "sheet",
        "interlayer",
        "choice",
        "laminated glass: what binds its two plies",
        "pvb",
        choices=("pvb", "ionoplast", "eva"),
    ),
    Key(
        "sheet",
        "between",
        "size",
        "laminated glass: thickness of the interlayer",
        "0.76 mm",
        least="0.2 mm",
        most="5 mm",
    ),
    Key(
        "sheet",
        "ply",
        "size",
        "laminated glass: thinnest of the outer ply; half of both if left out",
        "2.92 mm",
        least="0.4 mm",
        most="20 mm",
    ),
    Key("sheet", "density", "density", "", "2500 kg/m3", least="500 kg/m3", most="5000 kg/m3"),
    Key("sheet", "expansion", "per kelvin", "linear", "9 ppm/K", least="1 ppm/K", most="300 ppm/K"),
    Key("sheet", "transmittance", "share", "solar, whole sheet", "91 %", least="20 %", most="100 %"),
)
RAIL = (
    Key("rail", "profile", "choice", "", "angle", True, choices=("angle", "channel", "tube", "drawn")),
    Key(
        "rail",
        "seat",
        "size",
        "leg, flange or side under the pane",
        "30 mm",
        True,
        least="6 mm",
        most="200 mm",
    ),
    Key(
        "rail",
        "upright",
        "size",
        "depth at right angles to the pane",
        "30 mm",
        True,
        least="6 mm",
        most="200 mm",
    ),
    Key("rail", "wall", "size", "wall thickness", "3 mm", True, least="0.8 mm", most="15 mm"),
    Key(
        "rail",
        "alloy",
        "choice",
        "",
        "6060-T66",
        True,
        choices=("6063-T5", "6063-T52", "6063-T6", "6061-T6", "6060-T66"),
    ),
    Key("rail", "bar", "size", "length it is sold in", "6 m", True, least="0.5 m", most="8 m"),
    Key(
        "rail",
        "outline",
        "text",
        "corners of a drawn one, x along the seat, y along the upright, from the heel",
        "0, 0; 30, 0; 30, 3; 3, 3; 3, 40; 0, 40 mm",
        most=6000,
    ),
    Key(
        "rail",
        "holes",
        "text",
        "closed lines within it, one from the other by |",
        "1, 20; 2, 20; 2, 30 mm",
        most=6000,
    ),
)
SEALANT = (
    Key(
        "sealant",
        "design",
        "pressure",
        "short-term tension it may bear",
        "138 kPa",
        True,
        least="5 kPa",
        most="1 MPa",
    ),
    Key(
        "sealant",
        "dead_load",
        "pressure",
        "shear it may bear for ever; 0 Pa where none is given",
        "7 kPa",
        default="0 Pa",
        least="0 Pa",
        most="100 kPa",
    ),
    Key("sealant", "movement", "share", "of its width, either way", "25 %", True, least="1 %", most="100 %"),
    Key("sealant", "cartridge", "volume", "", "310 ml", True, least="10 ml", most="25 l"),
    Key(
        "sealant",
        "use",
        "choice",
        "what it is sold for",
        "structural",
        True,
        choices=("structural", "weather seal"),
    ),
)
CELL = (
    Key("cell", "width", "size", "across the busbars", "125 mm", True, least="5 mm", most="230 mm"),
    Key("cell", "length", "size", "along the busbars", "125 mm", True, least="5 mm", most="230 mm"),
    Key(
        "cell",
        "circle",
        "size",
        "diameter of the ingot that clips the corners",
        "150 mm",
        least="10 mm",
        most="400 mm",
    ),
    Key("cell", "busbars", "count", "printed lines on the front", 2, True, least=1, most=30),
    Key(
        "cell",
        "busbar_width",
        "size",
        "",
        "1.6 mm",
        default="1.6 mm",
        reason="the common width on cells of two or three busbars",
        least="0.03 mm",
        most="10 mm",
    ),
    Key(
        "cell",
        "thickness",
        "size",
        "",
        "0.2 mm",
        default="0.2 mm",
        reason="the common wafer",
        least="0.05 mm",
        most="1 mm",
    ),
    Key(
        "cell",
        "tolerance",
        "size",
        "each side may be longer or shorter by this",
        "0.5 mm",
        default="0.5 mm",
        reason="cells of one lot differ by tenths of a millimetre",
        least="0 mm",
        most="3 mm",
    ),
    Key(
        "cell",
        "isc",
        "current",
        "short-circuit current at STC, whole cell",
        "5.42 A",
        True,
        least="1 mA",
        most="25 A",
    ),
    Key("cell", "voc", "voltage", "open-circuit voltage at STC", "0.63 V", True, least="0.3 V", most="0.9 V"),
    Key("cell", "imp", "current", "current at maximum power", "5.12 A", True, least="1 mA", most="25 A"),
    Key("cell", "vmp", "voltage", "voltage at maximum power", "0.518 V", True, least="0.2 V", most="0.9 V"),
    Key(
        "cell",
        "isc_per_k",
        "per kelvin",
        "drift of Isc with heat",
        "0.05 %/K",
        default="0.05 %/K",
        reason="median of the crystalline modules in the public CEC list",
        least="-0.05 %/K",
        most="0.2 %/K",
    ),
    Key(
        "cell",
        "voc_per_k",
        "per kelvin",
        "drift of Voc with heat",
        "-0.34 %/K",
        default="-0.34 %/K",
        reason="median of the crystalline modules in the public CEC list",
        least="-0.6 %/K",
        most="-0.1 %/K",
    ),
    Key(
        "cell",
        "front",
        "choice",
        "the pole on the sunny side; look, never assume",
        "minus",
        True,
        choices=("minus", "plus", "behind"),
    ),
    Key(
        "cell",
        "shunt",
        "area resistance",
        "",
        "5000 ohm cm2",
        default="5000 ohm cm2",
        reason="a sound cell of common quality",
        least="50 ohm cm2",
        most="1e6 ohm cm2",
    ),
    Key(
        "cell",
        "breakdown",
        "voltage",
        "reverse voltage never to be passed",
        "-12 V",
        default="-12 V",
        reason="low end of what sorted crystalline cells bear",
        least="-60 V",
        most="-3 V",
    ),
)
BYPASS = (
    Key("bypass", "saturation", "current", "", "6.8e-6 A", True, least="1e-15 A", most="0.1 A"),
    Key(
        "bypass",
        "ideality",
        "voltage",
        "n k T / q at 25 degC",
        "0.027 V",
        True,
        least="0.02 V",
        most="0.08 V",
    ),
    Key("bypass", "series", "resistance", "", "0.007 ohm", True, least="0 ohm", most="1 ohm"),
    Key("bypass", "rated", "current", "forward, in a box", "15 A", True, least="0.1 A", most="60 A"),
    Key("bypass", "reverse", "voltage", "it may block", "45 V", True, least="5 V", most="2000 V"),
)
USES: tuple[str, ...] = get_args(Use)
KINDS: tuple[str, ...] = get_args(Kind)
SHAPES: tuple[str, ...] = get_args(Shape)
METALS: tuple[str, ...] = get_args(Metal)
SUNDRY = (
    Key("sundry", "use", "choice", "", "box", True, choices=USES),
    Key("sundry", "mass", "mass", "of one as sold", "120 g", True, least="0 g", most="50 kg"),
    Key(
        "sundry",
        "wall",
        "size",
        "of a bracket, clip, batten or board: thickness",
        "4 mm",
        least="1 mm",
        most="100 mm",
    ),
    Key(
        "sundry",
        "fit",
        "size",
        "hole of a screw, bolt or insert; thickness of a block; length of a bracket, width of a clip, batten",
        "6.6 mm",
        least="1 mm",
        most="500 mm",
    ),
)
WOOD_SCREW = (
    Key(
        "wood_screw",
        "kind",
        "choice",
        "lag and wood screws to the American standard, coach screws to the European one",
        "coach screw",
        True,
        choices=KINDS,
    ),
    Key("wood_screw", "diameter", "size", "of the thread outside", "8 mm", True, least="3 mm", most="25 mm"),
    Key("wood_screw", "length", "size", "under the head", "80 mm", True, least="15 mm", most="500 mm"),
)
POST = (
    Key("post", "shape", "choice", "", "round", True, choices=SHAPES),
    Key("post", "outer", "size", "diameter or side", "60.3 mm", True, least="15 mm", most="400 mm"),
    Key("post", "wall", "size", "of a tube", "3.2 mm", least="0.8 mm", most="25 mm"),
    Key("post", "length", "size", "as sold", "3 m", True, least="0.5 m", most="8 m"),
    Key("post", "metal", "choice", "of a tube", "S235", choices=METALS),
    Key("post", "timber", "choice", "species or strength class", "C24", choices=TIMBERS),
)
BLOCK = (
    Key("block", "mass", "mass", "", "20 kg", True, least="1 kg", most="2000 kg"),
    Key("block", "long", "size", "long side, lying", "400 mm", True, least="50 mm", most="3 m"),
    Key("block", "short", "size", "short side, lying", "400 mm", True, least="50 mm", most="3 m"),
    Key("block", "high", "size", "", "50 mm", True, least="20 mm", most="1 m"),
)
SALE = (
    Key("row", "name", "text", "as an order writes it", "4 mm low-iron tempered", True),
    Key("row", "price", "money", "of one as sold, in the shelf's currency", "1.20", True),
    Key(
        "row",
        "sold_by",
        "choice",
        "",
        "each",
        True,
        choices=("each", "metre", "square metre", "bar", "cartridge", "kilogram", "litre"),
    ),
    Key("row", "source", "text", "where the figures come from", "data sheet", True),
)
BUYING = (
    Key("row", "supplier", "text", "who sells it", "Marsh Glass (invented)", most=80),
    Key(
        "row", "lead_days", "count", "from ordering to the shop's door, Sundays counted", 7, least=0, most=400
    ),
    Key("row", "pack", "text", "only whole packs are sold: what is in one, in sold_by", "25", most=12),
    Key("row", "least", "text", "the least that is sold at once, in sold_by", "50", most=12),
)
"""What a row may say of buying it; each may be left out."""
