"""The keys of [pump]: a pump that the panels drive by day, without a battery."""

from __future__ import annotations

from panewright.shelf.key import Key


def _far(name: str, comment: str, example: str, usual: str | None = None, why: str = "") -> Key:
    return Key(
        "pump",
        name,
        "distance",
        comment,
        example,
        required=usual is None,
        default=usual,
        reason=why,
        least="0 m",
        most="400 m",
    )


PUMP = (
    Key("pump", "volts", "voltage", "of its motor, by its plate", "24 V", True, least="3 V", most="400 V"),
    Key("pump", "current", "current", "of its motor, by its plate", "8 A", True, least="50 mA", most="200 A"),
    Key("pump", "rpm", "count", "turns a minute, by its plate", 2800, required=True, least=50, most=20_000),
    Key(
        "pump",
        "winding",
        "resistance",
        "by an ohmmeter, turned slowly",
        "250 mohm",
        True,
        least="1 mohm",
        most="500 ohm",
    ),
    Key(
        "pump",
        "friction",
        "share",
        "of bearings and seals, of its rated pull",
        "5 %",
        default="5 %",
        reason="common for small motors; no source",
        least="0 %",
        most="60 %",
    ),
    Key(
        "pump",
        "start",
        "share",
        "the same while it stands",
        "12 %",
        default="12 %",
        reason="seals stick; common, no source",
        least="0 %",
        most="90 %",
    ),
    Key("pump", "most_volts", "voltage", "that its motor bears", "30 V", least="3 V", most="600 V"),
    Key(
        "pump",
        "flow",
        "flow",
        "one point of its curve, at its rated turns",
        "3 m3/h",
        True,
        least="0.01 m3/h",
        most="500 m3/h",
    ),
    _far("head", "how high it lifts that much", "12 m"),
    _far("shut_head", "how high with its outlet shut", "20 m"),
    Key("pump", "shaft", "power", "at its shaft, at that point", "160 W", True, least="0.5 W", most="50 kW"),
    _far("lift", "from the water's face to the outlet", "6 m"),
    _far(
        "rubs",
        "lost in pipe and bends at that flow",
        "1 m",
        "0 m",
        "a short wide pipe; a long one rubs: state it",
    ),
)
