"""What holds and joins: screws, posts, blocks, and all that is bought without a proof."""

from __future__ import annotations

from typing import get_args

from panewright.frame.metals.metal import Metal
from panewright.frame.support.post import Shape
from panewright.frame.support.timber import NAMES as TIMBERS
from panewright.frame.support.wood_screw import Kind
from panewright.shelf.key import Key
from panewright.shelf.shelf import Use

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
        "thickness of a bracket, clip, batten or board; length of a crate's screw",
        "4 mm",
        least="1 mm",
        most="200 mm",
    ),
    Key(
        "sundry",
        "fit",
        "size",
        "hole of a screw, bolt, insert; thickness of a block; length of a bracket; width of a clip, batten",
        "6.6 mm",
        least="1 mm",
        most="500 mm",
    ),
    Key(
        "sundry",
        "long",
        "size",
        "long side of a sheet of plywood; cut to size by the square metre if left out",
        "2500 mm",
        least="300 mm",
        most="6 m",
    ),
    Key("sundry", "short", "size", "short side of it", "1250 mm", least="300 mm", most="3 m"),
    Key(
        "sundry",
        "bars",
        "text",
        "lengths in which a batten is sold; by the metre if left out",
        "3 m; 4 m",
        most=200,
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
