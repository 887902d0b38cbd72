"""Every key that the text of an array may have, with its bounds, its default and the reason for that.

Sections written as [[panel]] may stand several times; each is read as 'panel 1', 'panel 2'.
"""

from __future__ import annotations

from panewright.order.site.schema_box import BATTERY, CONTROLLER, GENERATOR, LOAD
from panewright.order.site.schema_money import CABLE, MONEY, SIZES
from panewright.order.site.schema_pump import PUMP
from panewright.order.site.schema_stand import PANEL, STAND, STRING, THING
from panewright.shelf.key import Key

SECTIONS = {
    "array": "what it is called, and how to write things down",
    "place": "where it stands",
    "rules": "whose rules hold, and how cold and hot it gets",
    "sky": "the weather: a file, twelve means, or a share of a clear sky",
    "stand": "a plane on which panels lie",
    "panel": "panels in the order in which they lie: by serials, by an order, or by a label",
    "string": "panels in series; left out altogether, the program arranges",
    "thing": "what stands in the way of the light nearby",
    "skyline": "what stands in the way far off",
    "controller": "the charge controller by its sheet",
    "battery": "the bank",
    "load": "what draws power",
    "generator": "what helps out",
    "pump": "a pump that the panels drive by day, without a battery",
    "cable": "how long the runs are, and how they lie",
    "money": "what things cost",
    "sizes": "what is looked through for the front of sizes",
}
ROWS = ("stand", "panel", "string", "thing", "load")  #: that may stand several times

_ARRAY = (
    Key("array", "name", "text", "what the array is called", "Boathouse", required=True, most=60),
    Key(
        "array",
        "units",
        "choice",
        "how documents write sizes",
        "metric",
        default="metric",
        reason="millimetres unless the text says us",
        choices=("metric", "us"),
    ),
    Key("array", "currency", "text", "of all money here", "EUR", default="EUR", reason="none named", most=3),
    Key("array", "paper", "choice", "size of printed pages", "A4", choices=("A4", "Letter")),
)
_PLACE = (
    Key("place", "latitude", "angle", "north positive", "47.6 deg", True, least="-90 deg", most="90 deg"),
    Key("place", "longitude", "angle", "east positive", "9.4 deg", True, least="-180 deg", most="180 deg"),
    Key(
        "place",
        "altitude",
        "distance",
        "above the sea",
        "400 m",
        default="0 m",
        reason="sea level: the sky is a little duller there than higher up",
        least="-430 m",
        most="6000 m",
    ),
    Key("place", "zone", "time", "of the local clock, east positive", "1 h", least="-12 h", most="14 h"),
)
_RULES = (
    Key("rules", "family", "choice", "IEC, or NEC of the United States", "IEC", choices=("IEC", "NEC")),
    Key("rules", "coldest", "temperature", "record low", "-18 degC", True, least="-90 degC", most="40 degC"),
    Key(
        "rules", "hottest_air", "temperature", "record high", "36 degC", True, least="0 degC", most="65 degC"
    ),
    Key(
        "rules",
        "on",
        "choice",
        "what the panels lie on or at",
        "dwelling",
        default="dwelling",
        reason="the strictest; write open ground where no building is near",
        choices=("dwelling", "other building", "open ground"),
    ),
)
_SKY = (
    Key(
        "sky",
        "weather",
        "text",
        "a file beside this text: EPW, TMY3, TMY2 or PVGIS",
        "boathouse.epw",
        most=200,
    ),
    Key(
        "sky",
        "light",
        "text",
        "on level ground, of a usual day of each month",
        "0.9 1.7 2.9 4.2 5.1 5.6 5.7 4.8 3.4 2.0 1.0 0.7 kWh/m2/d",
    ),
    Key("sky", "air", "text", "mean of each month", "0 1 5 9 14 17 19 18 14 10 5 1 degC"),
    Key("sky", "years", "count", "that are made from the means", 10, least=1, most=40),
    Key("sky", "seed", "count", "another number makes other years", 1, least=0, most=999_999),
    Key("sky", "clearness", "share", "of a clear sky's light, each day", "70 %", least="5 %", most="100 %"),
    Key(
        "sky",
        "dirt",
        "text",
        "share of the light: one figure, or twelve",
        "2 %",
        default="2 %",
        reason="rain keeps a tilted panel so clean; dust and birds take more",
    ),
)
_SKYLINE = (
    Key(
        "skyline",
        "points",
        "text",
        "directions from north over east, and heights there",
        "90 deg: 5 deg, 180 deg: 8 deg",
        required=True,
        most=2000,
    ),
)

EVERY = (
    *(*_ARRAY, *_PLACE, *_RULES, *_SKY, *STAND, *PANEL, *STRING, *THING, *_SKYLINE),
    *(*CONTROLLER, *BATTERY, *LOAD, *GENERATOR, *PUMP, *CABLE, *MONEY, *SIZES),
)


def keys_of(section: str) -> tuple[Key, ...]:
    """The keys of a section, in the order in which people are asked."""
    return tuple(key for key in EVERY if key.section == section)
