"""An order is written for programs whatever it states: every key is stated once in some order."""

import json

import pytest

from panewright.order.parse import parse_order
from panewright.order.schema import CELL_IN_FULL, KEYS, SECTIONS
from panewright.order.schema_mounting import BELONGS
from panewright.order.sections.closing import BELONGS as OF_ONE_KIND
from panewright.order.template import stated
from panewright.paper.record import plain
from panewright.shelf.load import load_shelf

BATTERY = [key for key in KEYS if key.startswith("load.") and key != "load.cells"]
IN_FULL = [key.dotted for key in CELL_IN_FULL]
HILL = ["site.hill_height", "site.hill_slope", "site.upper_drop"]
ROOF = ["site.roof", "site.roof_gap", "site.roof_edge"]
BY_WAY = {way: [f"mounting.{name}" for name in names] for way, names in BELONGS.items()}
AMERICAN = {
    "site.code": "ASCE",
    "site.wind_code": "ASCE 7-22",
    "site.wind_kind": "3 s gust",
    "site.wind_return": None,
}
APART = {*IN_FULL, *HILL, *ROOF, "load.cells", "site.wind_risk", "parts.bracket_places"}.union(
    *BY_WAY.values(), *OF_ONE_KIND.values()
)
MANY = {
    "all that goes with all": ([key for key in KEYS if key not in APART], {}),
    "no battery": (["load.cells"], dict.fromkeys(BATTERY)),
    "a cell in full": (IN_FULL, {"cell.name": "seen nowhere"}),
    "a hill and a higher roof": (HILL, {"site.hill": "ridge", "site.upper_roof": "6 m"}),
    "a roof": (ROOF, {"site.mounting": "roof-parallel"}),
    "by risk": (["site.wind_risk"], AMERICAN),
    "every bracket placed": (["parts.bracket_places"], {"parts.brackets": 3}),
    **{way: (keys, {"mounting.on": way}) for way, keys in BY_WAY.items()},
    **{kind: (list(keys), {"parts.encapsulation": kind}) for kind, keys in OF_ONE_KIND.items()},
}


def text_of(keys, changed):
    """An order that states these keys by their examples, and what goes with them."""
    values = {key: KEYS[key].example for key in KEYS if stated(KEYS[key]) or key in keys} | changed
    lines = []
    for section in SECTIONS:
        lines.append(f"[{section}]")
        named = {key: value for key, value in values.items() if key.startswith(f"{section}.")}
        lines += [KEYS[key].assignment(value) for key, value in named.items() if value is not None]
    return "\n".join(lines)


@pytest.mark.parametrize("what", MANY)
def test_whatever_an_order_states_can_be_written_for_a_program(what):
    order = parse_order(text_of(*MANY[what]), "all.toml", load_shelf())
    assert json.loads(json.dumps(plain(order), allow_nan=False))["text"] == order.text


def test_every_key_is_stated_in_one_of_them():
    assert set(KEYS) == {key for keys, _ in MANY.values() for key in keys}
