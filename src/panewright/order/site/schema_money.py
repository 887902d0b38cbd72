"""The keys of [cable], [money] and [sizes]. Prices taken for granted are invented: mend them."""

from __future__ import annotations

from panewright.shelf.key import Key

_LIES = ("air", "clipped", "conduit", "conduit, one cable")
_YES = ("yes", "no")


def _far(name: str, comment: str, usual: str, why: str) -> Key:
    return Key("cable", name, "distance", comment, usual, default=usual, reason=why, least="0 m", most="1 km")


def _lies(name: str, usual: str, why: str) -> Key:
    return Key("cable", name, "choice", "how it lies", usual, default=usual, reason=why, choices=_LIES)


CABLE = (
    _far("strings", "one way, from each string to where strings meet", "5 m", "a small array"),
    _lies("strings_lie", "air", "tied under the panels"),
    Key(
        "cable",
        "under_panels",
        "choice",
        "whether strings' wires lie close behind hot panels",
        "yes",
        default="yes",
        reason="most do; it is the hotter",
        choices=_YES,
    ),
    _far("down", "one way, from there to the controller", "10 m", "from a roof into the house"),
    _lies("down_lie", "conduit", "single wires in a pipe: they carry least"),
    _far("bank", "one way, from the controller to the battery", "1.5 m", "as short as it can be"),
    _lies("bank_lie", "clipped", "on the wall"),
)


def _price(name: str, comment: str, usual: str, why: str = "invented; write your own") -> Key:
    return Key("money", name, "money", comment, f"{usual} EUR", default=usual, reason=why)


MONEY = (
    _price("panel_watt", "a watt of these panels", "0.80"),
    _price("bought_watt", "a watt of a ready-made panel", "0.45"),
    Key(
        "money",
        "bought_life",
        "years",
        "of a ready-made panel",
        "25 yr",
        default="25 yr",
        reason="as long as most are warranted",
        least="1 yr",
        most="60 yr",
    ),
    _price("string", "box, posts and connectors of one more string", "60"),
    _price("bank_kwh", "a kWh of bank by its nominal voltage", "180"),
    _price("fixed", "the controller and what else is there once", "250"),
    _price("a_year", "each year, for upkeep", "0", "none named"),
    _price("metre", "a metre of single conductor, however thick", "0.40"),
    _price("mm2", "on top, a metre for each mm2", "0.20"),
    _price("kwh", "what a kWh is worth that no wire loses", "0.60"),
    Key(
        "money",
        "life",
        "years",
        "of the array",
        "25 yr",
        default="25 yr",
        reason="common for panels",
        least="1 yr",
        most="60 yr",
    ),
    Key(
        "money",
        "interest",
        "share",
        "a year, above inflation",
        "3 %",
        default="3 %",
        reason="common; mend it",
        least="0 %",
        most="40 %",
    ),
)
SIZES = (
    Key("sizes", "strings", "text", "numbers of strings that may be", "1, 2, 3"),
    Key("sizes", "bank", "text", "from the smallest to the largest", "50 Ah, 800 Ah"),
    Key(
        "sizes",
        "served",
        "text",
        "shares of the load that are looked for",
        "90 %, 95 %, 99 %",
        default="90 %, 95 %, 98 %, 99 %, 99.5 %",
        reason="from often enough to nearly always",
    ),
)
