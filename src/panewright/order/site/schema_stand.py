"""The keys of [[stand]], [[panel]], [[string]] and [[thing]]: what lies where, and what stands in the way."""

from __future__ import annotations

from panewright.shelf.key import Key


def _spot(section: str, name: str, comment: str, example: str, usual: str = "", why: str = "") -> Key:
    """A distance from where places are told; `usual` where it may be left out."""
    default = usual or None
    return Key(
        section, name, "distance", comment, example, default=default, reason=why, least="-2 km", most="2 km"
    )


def _volt(name: str, comment: str, example: str) -> Key:
    return Key("panel", name, "voltage", comment, example, least="0.3 V", most="400 V")


def _amp(name: str, comment: str, example: str) -> Key:
    return Key("panel", name, "current", comment, example, least="5 mA", most="60 A")


STAND = (
    Key("stand", "name", "text", "what the stand is called", "roof", required=True, most=30),
    Key(
        "stand",
        "tilt",
        "angle",
        "0 deg lies flat, 90 deg stands",
        "30 deg",
        True,
        least="0 deg",
        most="90 deg",
    ),
    Key(
        "stand",
        "azimuth",
        "angle",
        "where panels look, from north over east: 180 deg is south",
        "180 deg",
        True,
        least="0 deg",
        most="360 deg",
    ),
    Key(
        "stand",
        "mounting",
        "choice",
        "what cools the backs",
        "open",
        default="open",
        reason="air passes behind the panels; close to a roof they are hotter: write it there",
        choices=("open", "close to roof", "closed back"),
    ),
    _spot("stand", "east", "of its lower left corner, seen from its face", "0 m", "0 m", "told from there"),
    _spot("stand", "north", "the same", "0 m", "0 m", "as east"),
    _spot("stand", "up", "the same, above the ground", "0.5 m", "0.5 m", "a low stand"),
    Key("stand", "columns", "count", "panels side by side", 4, least=1, most=200),
    Key(
        "stand",
        "gap",
        "size",
        "between panels",
        "20 mm",
        default="20 mm",
        reason="room for clamps",
        least="0 mm",
        most="5 m",
    ),
    Key(
        "stand",
        "albedo",
        "share",
        "of the light that the ground throws back",
        "20 %",
        default="20 %",
        reason="grass and soil; snow is counted by itself",
        least="0 %",
        most="90 %",
    ),
)
PANEL = (
    Key("panel", "serials", "text", "built here: by the records", "0042, 0043", most=4000),
    Key("panel", "order", "text", "designed: an order's file beside this text", "jetty.toml", most=200),
    Key("panel", "name", "text", "what panels by a label or an order are called", "old", most=30),
    Key("panel", "count", "count", "how many alike", 2, least=1, most=400),
    Key("panel", "stand", "text", "on which they lie", "roof", most=30),
    Key(
        "panel",
        "age",
        "years",
        "since they were new",
        "6 yr",
        default="0 yr",
        reason="new",
        least="0 yr",
        most="60 yr",
    ),
    _volt("voc", "by the label: open circuit", "22.4 V"),
    _volt("vmp", "at the greatest power", "18.2 V"),
    _amp("isc", "short circuit", "8.55 A"),
    _amp("imp", "at the greatest power", "8.0 A"),
    Key("panel", "cells", "count", "in series", 36, least=1, most=300),
    Key("panel", "cell_columns", "count", "of cells, side by side", 4, least=1, most=40),
    Key("panel", "diodes", "count", "bypass diodes in the box", 2, least=0, most=100),
    Key("panel", "width", "size", "of the frame", "670 mm", least="30 mm", most="4 m"),
    Key("panel", "height", "size", "of the frame, up the slope", "1480 mm", least="30 mm", most="4 m"),
    Key("panel", "fuse", "current", "largest series fuse", "15 A", least="0.1 A", most="100 A"),
    Key("panel", "system", "voltage", "largest system voltage", "600 V", least="10 V", most="2000 V"),
    Key("panel", "voc_per_k", "per kelvin", "change of Voc", "-0.32 %/K", least="-0.6 %/K", most="-0.15 %/K"),
)
STRING = (
    Key("string", "panels", "text", "in series, from minus to plus", "0042, 0043", required=True, most=4000),
    Key(
        "string",
        "input",
        "count",
        "of the controller",
        1,
        default=1,
        reason="the first input",
        least=1,
        most=20,
    ),
)
THING = (
    Key(
        "thing",
        "kind",
        "choice",
        "row: the next row of panels, or any slanted flat thing",
        "post",
        required=True,
        choices=("post", "crown", "wall", "row"),
    ),
    Key("thing", "name", "text", "for people", "chimney", default="", reason="no name", most=40),
    _spot("thing", "east", "where it stands; of a wall or row one end", "3 m"),
    _spot("thing", "north", "the same", "-2 m"),
    _spot("thing", "height", "post, wall: its top; crown: from twig to twig", "4 m"),
    Key("thing", "width", "distance", "post, crown: across; row: along", "0.4 m", least="1 mm", most="2 km"),
    _spot("thing", "foot", "height at which it begins; of a row its lower edge", "0 m"),
    _spot("thing", "middle", "crown: height of its middle", "5 m"),
    _spot("thing", "to_east", "wall: its other end", "8 m"),
    _spot("thing", "to_north", "the same", "-2 m"),
    Key("thing", "length", "distance", "row: up its slope", "1.5 m", least="1 mm", most="500 m"),
    Key("thing", "tilt", "angle", "row", "30 deg", least="0 deg", most="90 deg"),
    Key("thing", "azimuth", "angle", "row", "180 deg", least="0 deg", most="360 deg"),
    Key("thing", "lets_through", "text", "crown: share of the light, one or twelve", "15 %"),
)
BELONGS = {  #: keys of a thing by its kind, those that it must have first
    "post": (("height", "width"), ("foot",)),
    "crown": (("height", "width", "middle"), ("lets_through",)),
    "wall": (("height", "to_east", "to_north"), ("foot",)),
    "row": (("width", "length", "tilt", "azimuth"), ("foot",)),
}
