"""Every key an order may have: the one table behind reading, suggestions, the template and the handbook.

A default here is written as a person writes it, with the reason that goes into the list of assumptions.
Keys without a default stay open (the tool chooses and says what it weighed) or are required.
"""

from __future__ import annotations

from dataclasses import replace

from panewright.order.schema_closing import CLOSING
from panewright.order.schema_crate import CRATE
from panewright.order.schema_money import HANDS, KIT, MONEY
from panewright.order.schema_mounting import MOUNTING
from panewright.order.schema_parts import PARTS
from panewright.order.schema_site import SITE
from panewright.shelf.columns.electric import CELL
from panewright.shelf.key import Key

SECTIONS = {
    "order": "who asked, how many, and how to write things down",
    "load": "what the panel feeds: a battery behind a controller, or just a number of cells",
    "cell": "the cells: by name from the shelf, or described in full",
    "site": "where the panel stands and what the weather there can do",
    "mounting": "what carries the panel, so that it can be proved too",
    "layout": "how the cells lie; whatever is left out the tool chooses",
    "parts": "parts by name from the shelf or described in full; whatever is left out the tool chooses",
    "closing": "the shop in which the panel is encapsulated and closed",
    "crate": "how finished panels travel: crates, carriers",
    "money": "what work and money cost in this shop, and on which terms it sells",
    "kit": "whether panels are sold as kits, and which parts the customer brings",
    "hands": "who works how long, and what may cure at once: for the plan over days",
}

_ORDER = (
    Key("order", "name", "text", "what the job is called", "Jetty lights", required=True, most=60),
    Key(
        "order",
        "number",
        "text",
        "the order's number",
        "1",
        default="1",
        reason="the first of its name",
        most=30,
    ),
    Key("order", "customer", "text", "", "", default="", reason="nobody named: built for stock", most=80),
    Key(
        "order",
        "maker",
        "text",
        "the name on the label",
        "",
        default="",
        reason="no name for the label",
        most=60,
    ),
    Key("order", "panels", "count", "how many alike", 1, default=1, reason="one panel", least=1, most=1000),
    Key(
        "order",
        "serial",
        "text",
        "of the first panel",
        "0001",
        default="0001",
        reason="numbering begins here",
        most=20,
    ),
    Key("order", "currency", "text", "of the shelf's prices", "EUR"),
    Key(
        "order",
        "units",
        "choice",
        "how documents write sizes and loads",
        "metric",
        default="metric",
        reason="millimetres unless the order says us",
        choices=("metric", "us"),
    ),
    Key("order", "paper", "choice", "size of the printed pages", "A4", choices=("A4", "Letter")),
)
_LOAD = (
    Key("load", "battery", "choice", "its kind", "agm", choices=("flooded", "agm", "gel", "lfp")),
    Key("load", "battery_voltage", "voltage", "nominal", "12 V", least="2 V", most="400 V"),
    Key(
        "load",
        "controller",
        "choice",
        "direct joins the string to the battery by a switch (PWM)",
        "direct",
        choices=("direct", "mppt"),
    ),
    Key(
        "load",
        "controller_most",
        "voltage",
        "highest open-circuit voltage its input bears; on its label",
        "50 V",
        least="5 V",
        most="1500 V",
    ),
    Key(
        "load",
        "controller_drop",
        "voltage",
        "lost inside while charging; usual for its kind if left out",
        "0.3 V",
        least="0 V",
        most="5 V",
    ),
    Key(
        "load",
        "headroom",
        "voltage",
        "an MPPT input must exceed the battery by this; usual for its kind if left out",
        "1 V",
        least="0 V",
        most="30 V",
    ),
    Key(
        "load",
        "cable_length",
        "distance",
        "one way, panel to controller",
        "5 m",
        default="5 m",
        reason="a short run; the drop is reckoned from it",
        least="0 m",
        most="500 m",
    ),
    Key(
        "load",
        "cable_area",
        "area",
        "copper of one core",
        "4 mm2",
        default="4 mm2",
        reason="the common solar lead",
        least="0.2 mm2",
        most="120 mm2",
    ),
    Key(
        "load",
        "blocking_drop",
        "voltage",
        "a blocking diode in the line",
        "0 V",
        default="0 V",
        reason="the controller blocks at night, no diode in the line",
        least="0 V",
        most="3 V",
    ),
    Key(
        "load",
        "absorption",
        "voltage",
        "whole bank at 25 degC, from the battery's maker; usual for its kind if left out",
        "14.4 V",
        least="2 V",
        most="600 V",
    ),
    Key("load", "float", "voltage", "the same, held when full", "13.8 V", least="2 V", most="600 V"),
    Key(
        "load",
        "drift",
        "voltage per kelvin",
        "of one battery cell with heat, 0 or negative; usual for its kind if left out",
        "-3 mV/K",
        least="-9 mV/K",
        most="0 mV/K",
    ),
    Key(
        "load",
        "battery_temperature",
        "temperature",
        "at which it is charged; warm lead-acid wants less voltage",
        "25 degC",
        least="-40 degC",
        most="70 degC",
    ),
    Key(
        "load",
        "battery_coldest",
        "temperature",
        "while it is charged; LFP must not freeze",
        "5 degC",
        least="-60 degC",
        most="60 degC",
    ),
    Key("load", "efficiency", "share", "of an MPPT controller", "96 %", least="50 %", most="100 %"),
    Key("load", "cells", "count", "cells in series, where no battery is named", 60, least=1, most=1000),
    Key(
        "load",
        "system_voltage",
        "voltage",
        "largest that the label allows: panels in series add theirs; their own alone if left out",
        "600 V",
        least="2 V",
        most="1500 V",
    ),
)
_CUT = (
    Key("cell", "name", "text", "a cell on the shelf, or a name for the one described here", "125 mm mono"),
    Key("cell", "parts", "count", "strips cut from each cell", 1, least=1, most=3),
    Key("cell", "cut", "choice", "the same in words", "whole", choices=("whole", "half", "third")),
    Key(
        "cell",
        "spread",
        "share",
        "of the lot: standard deviation of Isc; a class 2 % wide from end to end has 0.6 %",
        "1 %",
        least="0 %",
        most="20 %",
    ),
)
_LAYOUT = (
    Key("layout", "cells_in_series", "count", "in one string", 36, least=1, most=1000),
    Key("layout", "strings", "count", "in parallel", 1, least=1, most=20),
    Key("layout", "columns", "count", "side by side", 4, least=1, most=100),
    Key("layout", "rows", "count", "cells in a column", 9, least=1, most=200),
    Key("layout", "bypass_diodes", "count", "for each string", 2, least=1, most=100),
    Key("layout", "cell_gap", "size", "between cells of a column", "2 mm", least="0.5 mm", most="50 mm"),
    Key("layout", "string_gap", "size", "between columns", "3 mm", least="0.5 mm", most="100 mm"),
    Key("layout", "margin", "size", "silicon to the edge of the pane", "25 mm", least="3 mm", most="300 mm"),
    Key(
        "layout",
        "leads",
        "choice",
        "where the two leads come out",
        "one end",
        choices=("one end", "any"),
        default="any",
        reason="the tool weighs both",
    ),
    Key(
        "layout",
        "most_mass",
        "mass",
        "the panel may weigh",
        "23 kg",
        default="23 kg",
        reason="what one person should lift at most (NIOSH, memory)",
        least="0.1 kg",
        most="200 kg",
    ),
    Key("layout", "most_long", "size", "longest the panel may be", "2 m", least="50 mm", most="4 m"),
    Key("layout", "most_short", "size", "widest the panel may be", "1 m", least="50 mm", most="4 m"),
)


#: what describes a cell; needed in full only where no shelf cell is named
CELL_IN_FULL = tuple(replace(column, required=False) for column in CELL)
CELL_NEEDS = tuple(column.name for column in CELL if column.required)

KEYS: dict[str, Key] = {
    key.dotted: key
    for section in (
        _ORDER,
        _LOAD,
        (*_CUT, *CELL_IN_FULL),
        SITE,
        MOUNTING,
        _LAYOUT,
        PARTS,
        CLOSING,
        CRATE,
        MONEY,
        KIT,
        HANDS,
    )
    for key in section
}


def keys_of(section: str) -> tuple[Key, ...]:
    """The keys of one section, in the order in which people are asked."""
    return tuple(key for key in KEYS.values() if key.section == section)
