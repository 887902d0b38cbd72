"""Orders that are wrong, each in its own way: the mistake is told at its line and key, with reason and cure.

A sound order is kept as sections of lines; each case changes it. The line expected is counted here from the
changed text itself, so the scanner that finds lines is held against something else.
"""

from __future__ import annotations

import copy
import time

import pytest

from panewright.errors import OrderError, Problem
from panewright.order.parse import parse_bytes, parse_order
from panewright.shelf.load import load_shelf

Sections = dict[str, dict[str, str]]

SOUND: Sections = {
    "order": {"name": '"Trial"', "panels": "2", "serial": '"0007"', "units": '"metric"'},
    "load": {
        "battery": '"agm"',
        "battery_voltage": '"12 V"',
        "controller": '"direct"',
        "controller_most": '"30 V"',
    },
    "cell": {"name": '"156 mm poly"'},
    "site": {
        "code": '"EN"',
        "wind": '"26 m/s"',
        "wind_code": '"EN 1991-1-4"',
        "wind_kind": '"10 min mean"',
        "wind_return": '"50 yr"',
        "ground": '"II"',
        "snow": '"0.8 kPa"',
        "record_cold": '"-14 degC"',
        "record_heat": '"37 degC"',
        "tilt": '"35 deg"',
        "height": '"3 m"',
    },
    "layout": {"cells_in_series": "36"},
    "parts": {"front": '"glass"'},
    "money": {"labour": '"38 EUR/h"'},
}
IN_FULL = {
    "width": '"156 mm"',
    "length": '"156 mm"',
    "busbars": "3",
    "isc": '"8.57 A"',
    "voc": '"0.622 V"',
    "imp": '"8.05 A"',
    "vmp": '"0.507 V"',
    "front": '"minus"',
}
DRAWN: dict[str, str | None] = {
    "profile": '"drawn"',
    "seat": '"30 mm"',
    "upright": '"40 mm"',
    "wall": '"3 mm"',
    "alloy": '"6060-T66"',
    "bar": '"6 m"',
    "outline": '"0, 0; 30, 0; 30, 3; 3, 3; 3, 40; 0, 40 mm"',
}
ASCE = {
    "code": '"ASCE"',
    "wind_code": '"ASCE 7-16"',
    "wind_kind": '"3 s gust"',
    "wind_risk": '"II"',
    "ground": '"C"',
}


def written(sections: Sections) -> str:
    blocks = (
        "\n".join([f"[{name}]", *(f"{k} = {v}" for k, v in keys.items())]) for name, keys in sections.items()
    )
    return "# a trial order\n\n" + "\n\n".join(blocks) + "\n"


def changed(**changes: str | None) -> Sections:
    """The sound order with section__key = value changed, added, or taken out where the value is None."""
    sections = copy.deepcopy(SOUND)
    for place, value in changes.items():
        section, _, key = place.partition("__")
        sections.setdefault(section, {})[key] = value or ""
        if value is None:
            del sections[section][key]
    return sections


def in_full(**changes: str | None) -> Sections:
    """The sound order with its cell described in full."""
    sections = changed()
    sections["cell"] = {key: value for key, value in (IN_FULL | changes).items() if value is not None}
    return sections


def under_asce(**changes: str | None) -> Sections:
    """The sound order under ASCE."""
    sections = changed(site__wind_return=None)
    sections["site"] |= ASCE
    sections["site"] = {k: v for k, v in (sections["site"] | changes).items() if v is not None}
    return sections


def drawn(**changes: str | None) -> Sections:
    """The sound order with a drawn rail."""
    row = DRAWN | changes
    return changed(parts__rail="{ " + ", ".join(f"{k} = {v}" for k, v in row.items() if v is not None) + " }")


def line_of(text: str, dotted: str) -> int | None:
    """The line on which a key, or else its section's head, stands."""
    section, _, key = dotted.partition(".")
    head, here = None, ""
    for number, line in enumerate(text.split("\n"), 1):
        if line.startswith("["):
            here = line.strip("[]")
            head = number if here == section else head
        elif here == section and key and line.startswith(f"{key.split('.')[0]} ="):
            return number
    return head


CASES: list[tuple[str, Sections, str]] = [
    # units
    ("a bare number in quotes", changed(site__wind='"26"'), "site.wind"),
    ("a bare number", changed(site__wind="26"), "site.wind"),
    ("a number with a point", changed(site__snow="0.8"), "site.snow"),
    ("the unit of another kind", changed(site__wind='"26 kPa"'), "site.wind"),
    ("an unknown unit", changed(site__wind='"26 furlongs"'), "site.wind"),
    ("a unit alone", changed(site__tilt='"deg"'), "site.tilt"),
    ("nothing", changed(site__tilt='""'), "site.tilt"),
    ("not a number", changed(site__snow='"nan kPa"'), "site.snow"),
    ("not a number, as a number", changed(site__snow="nan"), "site.snow"),
    ("without end", changed(site__snow='"inf kPa"'), "site.snow"),
    ("a number past floats", changed(site__snow="1e400"), "site.snow"),
    ("a quantity past floats", changed(site__snow='"1e400 kPa"'), "site.snow"),
    ("an exponent without end", changed(site__snow='"1e999999999 kPa"'), "site.snow"),
    ("a comma that may be read in two ways", changed(site__height='"1,234 m"'), "site.height"),
    ("two numbers", changed(site__height='"3 4 m"'), "site.height"),
    ("a range", changed(site__height='"3-4 m"'), "site.height"),
    ("colder than cold can be", changed(site__record_cold='"-300 degC"'), "site.record_cold"),
    # bounds
    ("negative snow", changed(site__snow='"-1 kPa"'), "site.snow"),
    ("snow as high as a house", changed(site__snow='"80 kPa"'), "site.snow"),
    ("a breeze for a storm", changed(site__wind='"2 m/s"'), "site.wind"),
    ("a wind on another planet", changed(site__wind='"400 m/s"'), "site.wind"),
    ("tilted past upright", changed(site__tilt='"120 deg"'), "site.tilt"),
    ("no panels", changed(order__panels="0"), "order.panels"),
    ("fewer than no panels", changed(order__panels="-3"), "order.panels"),
    ("a million panels", changed(order__panels="1000000"), "order.panels"),
    ("a huge whole number", changed(order__panels="9" * 400), "order.panels"),
    ("a negative gap", changed(layout__cell_gap='"-1 mm"'), "layout.cell_gap"),
    ("a gap without any room", changed(layout__cell_gap='"0 mm"'), "layout.cell_gap"),
    ("a panel for a giant", changed(layout__most_mass='"5 t"'), "layout.most_mass"),
    ("a negative margin on cost", changed(money__margin='"-5 %"'), "money.margin"),
    ("a cable without copper", changed(load__cable_area='"0 mm2"'), "load.cable_area"),
    ("a storm of every year", changed(site__wind_return='"1 yr"'), "site.wind_return"),
    ("a pin of one bracket", changed(parts__brackets="1"), "parts.brackets"),
    # types
    ("yes for a count", changed(order__panels="true"), "order.panels"),
    ("a list for a count", changed(order__panels="[1, 2]"), "order.panels"),
    ("half a panel", changed(order__panels="1.5"), "order.panels"),
    ("a count in quotes", changed(order__panels='"2"'), "order.panels"),
    ("a number for a name", changed(order__name="3"), "order.name"),
    ("yes for a name", changed(order__name="true"), "order.name"),
    ("a date for a name", changed(order__name="2024-05-01"), "order.name"),
    ("a list for a speed", changed(site__wind='["26 m/s"]'), "site.wind"),
    ("a table for a speed", changed(site__wind='{ speed = "26 m/s" }'), "site.wind"),
    ("a time for a speed", changed(site__wind="07:32:00"), "site.wind"),
    ("a list for a part", changed(parts__rail='["angle"]'), "parts.rail"),
    ("a number for a part", changed(parts__glass="4"), "parts.glass"),
    ("a number for the ground", changed(site__ground="2"), "site.ground"),
    ("an empty name", changed(order__name='""'), "order.name"),
    ("a name of two lines", changed(order__name='"one\\ntwo"'), "order.name"),
    ("a name without end", changed(order__name='"' + "a" * 300 + '"'), "order.name"),
    ("a serial that cannot be counted on", changed(order__serial='"first"'), "order.serial"),
    ("money without sense", changed(money__labour='"plenty"'), "money.labour"),
    ("negative money", changed(money__labour='"-5 EUR/h"'), "money.labour"),
    ("money of another land", changed(money__labour='"38 XYZ/h"'), "money.labour"),
    ("a currency that the shelf has not", changed(order__currency='"XYZ"'), "order.currency"),
    # choices and names
    ("no such battery", changed(load__battery='"nickel"'), "load.battery"),
    ("no such paper", changed(order__paper='"A3"'), "order.paper"),
    ("no such mounting", changed(site__mounting='"floating"'), "site.mounting"),
    ("no such cell on the shelf", changed(cell__name='"157 mm poly"'), "cell.name"),
    ("no such rail on the shelf", changed(parts__rail='"angle 31 x 30 x 3 mm"'), "parts.rail"),
    ("a part without a name", changed(parts__tab='""'), "parts.tab"),
    ("no such edition", changed(site__wind_code='"EN 1991-1-5"'), "site.wind_code"),
    ("cut in four", changed(cell__parts="4"), "cell.parts"),
    ("cut in quarters", changed(cell__cut='"quarter"'), "cell.cut"),
    # missing
    ("no name", changed(order__name=None), "order.name"),
    ("no wind", changed(site__wind=None), "site.wind"),
    ("no kind of wind", changed(site__wind_kind=None), "site.wind_kind"),
    ("no edition", changed(site__wind_code=None), "site.wind_code"),
    ("no return period", changed(site__wind_return=None), "site.wind_return"),
    ("no risk category", under_asce(wind_risk=None), "site.wind_risk"),
    ("no snow", changed(site__snow=None), "site.snow"),
    ("no record cold", changed(site__record_cold=None), "site.record_cold"),
    ("no cell", changed(cell__name=None), "cell.name"),
    ("no battery and no count", changed(load__battery=None, load__battery_voltage=None), "load.battery"),
    ("no battery voltage", changed(load__battery_voltage=None), "load.battery_voltage"),
    ("no controller", changed(load__controller=None, load__controller_most=None), "load.controller"),
    ("no limit of the controller", changed(load__controller_most=None), "load.controller_most"),
    ("a described cell without its front", in_full(front=None), "cell.front"),
    ("a described cell without busbars", in_full(busbars=None), "cell.busbars"),
    ("a described cell without voltage", in_full(voc=None), "cell.voc"),
    # contradictions
    ("an hour's mean under EN", changed(site__wind_kind='"1 h mean"'), "site.wind_kind"),
    ("a fastest mile under EN", changed(site__wind_kind='"fastest mile"'), "site.wind_kind"),
    ("a wind of no kind", under_asce(wind_kind='"breeze"'), "site.wind_kind"),
    ("no such zone", changed(site__zone='"rim"'), "site.zone"),
    ("a gap to a roof in the open", changed(site__roof_gap='"80 mm"'), "site.roof_gap"),
    ("a roof's edge at a wall", changed(site__mounting='"wall"', site__roof_edge='"1 m"'), "site.roof_edge"),
    (
        "a low edge along a roof",
        changed(site__mounting='"roof-parallel"', site__lower_edge='"1 m"'),
        "site.lower_edge",
    ),
    ("a low edge above the top", changed(site__lower_edge='"3 m"'), "site.lower_edge"),
    ("a low edge without a unit", changed(site__lower_edge='"800"'), "site.lower_edge"),
    ("a hill without a height", changed(site__hill='"ridge"', site__hill_slope='"80 m"'), "site.hill_height"),
    ("a hill without a slope", changed(site__hill='"hill"', site__hill_height='"20 m"'), "site.hill_slope"),
    ("the height of no hill", changed(site__hill_height='"20 m"'), "site.hill_height"),
    ("no such hill", changed(site__hill='"dune"'), "site.hill"),
    ("a wall of no roof", changed(site__upper_drop='"3 m"'), "site.upper_drop"),
    ("a higher roof without end", changed(site__upper_roof='"300 m"'), "site.upper_roof"),
    ("a return period under ASCE 7-16", under_asce(wind_return='"50 yr"'), "site.wind_return"),
    ("a risk category under EN", changed(site__wind_risk='"II"'), "site.wind_risk"),
    (
        "a risk category under ASCE 7-05",
        under_asce(wind_code='"ASCE 7-05"', wind_return='"50 yr"'),
        "site.wind_risk",
    ),
    ("an ASCE edition under EN", changed(site__wind_code='"ASCE 7-16"'), "site.wind_code"),
    ("an ASCE exposure under EN", changed(site__ground='"C"'), "site.ground"),
    ("an EN terrain under ASCE", under_asce(ground='"II"'), "site.ground"),
    ("colder than it is hot", changed(site__record_cold='"40 degC"'), "site.record_cold"),
    (
        "cold and heat exchanged",
        changed(site__record_cold='"37 degC"', site__record_heat='"30 degC"'),
        "site.record_cold",
    ),
    ("both cells and battery", changed(load__cells="60"), "load.battery"),
    (
        "a direct controller without a battery",
        changed(load__battery=None, load__battery_voltage=None, load__cells="36"),
        "load.controller",
    ),
    (
        "a limit of no controller",
        changed(load__battery=None, load__battery_voltage=None, load__controller=None, load__cells="36"),
        "load.controller_most",
    ),
    ("a voltage that no bank has", changed(load__battery_voltage='"13 V"'), "load.battery_voltage"),
    ("absorption below the bank", changed(load__absorption='"11 V"'), "load.absorption"),
    ("absorption of another bank", changed(load__absorption='"28.8 V"'), "load.absorption"),
    ("float above absorption", changed(load__absorption='"14 V"', load__float='"14.4 V"'), "load.float"),
    ("columns and rows for other cells", changed(layout__columns="4", layout__rows="8"), "layout.rows"),
    (
        "columns and rows for other strings",
        changed(layout__columns="4", layout__rows="9", layout__strings="2"),
        "layout.rows",
    ),
    ("columns that do not divide", changed(layout__columns="5", layout__strings="1"), "layout.columns"),
    ("diodes that do not divide", changed(layout__bypass_diodes="5"), "layout.bypass_diodes"),
    (
        "another count",
        changed(load__battery=None, load__battery_voltage=None, load__cells="60", load__controller='"mppt"'),
        "layout.cells_in_series",
    ),
    (
        "strings that do not divide",
        changed(layout__cells_in_series=None, layout__columns="3", layout__rows="3", layout__strings="2"),
        "layout.strings",
    ),
    (
        "wider than long",
        changed(layout__most_long='"0.5 m"', layout__most_short='"1 m"'),
        "layout.most_short",
    ),
    ("cut and parts apart", changed(cell__cut='"half"', cell__parts="3"), "cell.cut"),
    ("a shelf cell described anew", in_full(name='"156 mm poly"'), "cell.name"),
    ("corners in a way nobody knows", changed(parts__corner='"glued"'), "parts.corner"),
    ("a fastener nobody knows", changed(parts__corner_fastener='"screw M7"'), "parts.corner_fastener"),
    (
        "welded corners with a fastener",
        changed(parts__corner='"welded"', parts__corner_fastener='"screw M5"'),
        "parts.corner_fastener",
    ),
    ("metals kept apart now and then", changed(parts__isolate='"maybe"'), "parts.isolate"),
    ("a tolerance of the gap below nothing", changed(parts__gap_tolerance='"-1 mm"'), "parts.gap_tolerance"),
    ("a front of glass and a sheet of acrylic", changed(parts__glass='"3 mm cast acrylic"'), "parts.front"),
    # what no cell can be
    ("more current at work than shorted", in_full(imp='"9 A"'), "cell.imp"),
    ("more voltage at work than open", in_full(vmp='"0.65 V"'), "cell.vmp"),
    ("more current than the sun gives", in_full(isc='"20 A"', imp='"19 A"'), "cell.isc"),
    ("voltage that grows with heat", in_full(voc_per_k='"0.34 %/K"'), "cell.voc_per_k"),
    ("drift in millivolts", in_full(voc_per_k='"-2.1 mV/K"'), "cell.voc_per_k"),
    ("a circle within the wafer", in_full(circle='"78 mm"'), "cell.circle"),
    ("a circle that clips nothing", in_full(circle='"230 mm"'), "cell.circle"),
    ("busbars that cover the cell", in_full(busbars="30", busbar_width='"5 mm"'), "cell.busbars"),
    ("a module's voltage for a cell's", in_full(voc='"22.4 V"'), "cell.voc"),
    # parts in full
    (
        "a part with an unknown key",
        changed(parts__tab='{ width = "2 mm", thick = "0.2 mm" }'),
        "parts.tab.thick",
    ),
    ("a part that lacks a size", changed(parts__tab='{ width = "2 mm" }'), "parts.tab.thickness"),
    (
        "a part with a bare number",
        changed(parts__tab='{ width = 2, thickness = "0.2 mm" }'),
        "parts.tab.width",
    ),
    ("an empty part", changed(parts__rail="{}"), "parts.rail.profile"),
    (
        "a wall thicker than its rail",
        changed(
            parts__rail='{ profile = "angle", seat = "20 mm", upright = "20 mm", wall = "12 mm", '
            'alloy = "6063-T6", bar = "6 m" }'
        ),
        "parts.rail",
    ),
    ("a drawn rail without its outline", drawn(outline=None), "parts.rail.outline"),
    (
        "an outline without a unit",
        drawn(outline='"0, 0; 30, 0; 30, 3; 3, 3; 3, 40; 0, 40"'),
        "parts.rail.outline",
    ),
    ("an outline of one figure a corner", drawn(outline='"0; 30; 3 mm"'), "parts.rail.outline"),
    ("an outline with decimal commas", drawn(outline='"0, 0; 30,5, 0; 0, 40 mm"'), "parts.rail.outline"),
    ("an outline of words", drawn(outline='"left, right; up, down mm"'), "parts.rail.outline"),
    (
        "an outline of two lines",
        drawn(outline='"0, 0; 9, 0; 0, 9 | 1, 1; 2, 1; 1, 2 mm"'),
        "parts.rail.outline",
    ),
    (
        "an outline in metres",
        drawn(outline='"0, 0; 30, 0; 30, 3; 3, 3; 3, 40; 0, 40 m"'),
        "parts.rail.outline",
    ),
    (
        "an outline that crosses itself",
        drawn(outline='"0, 0; 30, 40; 30, 0; 0, 40 mm"'),
        "parts.rail.outline",
    ),
    (
        "an outline of another size",
        drawn(outline='"0, 0; 30, 0; 30, 3; 3, 3; 3, 41; 0, 41 mm"'),
        "parts.rail.outline",
    ),
    ("an outline without a seat", drawn(outline='"0, 0; 30, 0; 0, 40 mm"'), "parts.rail.outline"),
    ("a list for an outline", drawn(outline="[0, 0, 30, 0]"), "parts.rail.outline"),
    ("an outline without end", drawn(outline='"' + "0, 0; " * 2000 + '0, 1 mm"'), "parts.rail.outline"),
    ("an outline of an angle", drawn(profile='"angle"'), "parts.rail.outline"),
    ("a hole outside", drawn(holes='"20, 20; 25, 20; 25, 25 mm"'), "parts.rail.holes"),
    ("a hole through the seat", drawn(holes='"10, 1; 20, 1; 20, 2 mm"'), "parts.rail.holes"),
    (
        "glass of no treatment",
        changed(parts__glass='{ thickness = "4 mm", treatment = "none" }'),
        "parts.glass",
    ),
    (
        "tempered acrylic",
        changed(
            parts__front='"acrylic"',
            parts__glass='{ material = "acrylic", thickness = "4 mm", treatment = "tempered" }',
        ),
        "parts.glass",
    ),
    (
        "an interlayer of no thickness",
        changed(parts__glass='{ thickness = "6 mm", treatment = "tempered", interlayer = "pvb" }'),
        "parts.glass",
    ),
    (
        "a ply of glass that is not laminated",
        changed(parts__glass='{ thickness = "6 mm", treatment = "tempered", ply = "3 mm" }'),
        "parts.glass",
    ),
    (
        "a ply as thick as both",
        changed(
            parts__glass='{ thickness = "6 mm", treatment = "tempered", interlayer = "pvb", '
            'between = "0.76 mm", ply = "6 mm" }',
        ),
        "parts.glass",
    ),
    (
        "laminated acrylic",
        changed(
            parts__glass='{ material = "acrylic", thickness = "6 mm", treatment = "none", '
            'interlayer = "pvb", between = "0.76 mm" }',
            parts__front='"acrylic"',
        ),
        "parts.glass",
    ),
    (
        "an interlayer nobody knows",
        changed(
            parts__glass='{ thickness = "6 mm", treatment = "tempered", interlayer = "honey", '
            'between = "0.76 mm" }',
        ),
        "parts.glass.interlayer",
    ),
    (
        "glass thicker than it is sold",
        changed(parts__glass='{ nominal = "4 mm", thickness = "5 mm", treatment = "tempered" }'),
        "parts.glass",
    ),
    # unknown keys and sections
    ("a misspelt key", changed(site__heigth='"3 m"'), "site.heigth"),
    ("a key of another section", changed(order__tilt='"35 deg"'), "order.tilt"),
    ("a key that nothing is like", changed(money__zebra='"1"'), "money.zebra"),
    ("an unknown section", changed(garden__size='"3 m"'), "garden"),
]


def problems_of(text: str) -> tuple[Problem, ...]:
    with pytest.raises(OrderError) as told:
        parse_order(text, "trial.toml", load_shelf())
    return told.value.problems


def test_the_order_that_every_case_changes_is_itself_sound():
    shelf = load_shelf()
    for sections in (changed(), in_full(), under_asce(), drawn()):
        assert parse_order(written(sections), "trial.toml", shelf).job.panels == 2


@pytest.mark.parametrize(("sections", "key"), [case[1:] for case in CASES], ids=[case[0] for case in CASES])
def test_a_mistake_is_told_at_its_key_and_line(sections, key):
    text = written(sections)
    problems = problems_of(text)
    told = [problem for problem in problems if problem.key == key]
    assert told, [str(problem) for problem in problems]
    assert told[0].line == line_of(text, key)
    for problem in problems:
        assert problem.reason.strip().endswith(".") or problem.reason.endswith("?")
        assert problem.cure
        assert problem.file == "trial.toml"
        assert len(problem.value) <= 60


ALONE = [
    case
    for case in CASES
    if case[0] not in ("both cells and battery", "an ASCE edition under EN", "an empty part")
]


@pytest.mark.parametrize(("sections", "key"), [case[1:] for case in ALONE], ids=[case[0] for case in ALONE])
def test_one_mistake_is_told_once_and_raises_no_others(sections, key):
    keys = [problem.key for problem in problems_of(written(sections))]
    followers = {"parts.tab.thick": ["parts.tab.thickness"], "cell.isc": ["cell.imp"]}.get(key, [])
    assert sorted(keys) == sorted([key, *followers])


BROKEN = [
    ("a value without quotes", "[site]\nwind = 26 m/s\n", 2, "site.wind", 'wind = "26 m/s"'),
    ("a word without quotes", "[load]\nbattery = agm\n", 2, "load.battery", 'battery = "agm"'),
    ("quotes left open", '[order]\n\nname = "Jetty\n', 3, "order.name", "Close the quotes"),
    ("a key twice", '[site]\nwind = "26 m/s"\nsnow = "1 kPa"\nwind = "27 m/s"\n', 4, "site.wind", "keep one"),
    ("a section twice", "[site]\n[cell]\n[site]\n", 3, "site", "keep one"),
    ("a head left open", "[site\nwind = 3\n", 1, "order", "alone on its line"),
    ("no equals sign", "[site]\nwind\n", 2, "site", "one key ="),
    ("a list left open", "[site]\nwind = [1, 2\n", 2, "site.wind", "bracket"),
    ("a key without a value", "[site]\nwind =\n", 2, "site.wind", "one key ="),
    ("a letter that is none", '[order]\nname = "\x01"\n', 2, "order.name", "one key ="),
    ("a number that is none", "[order]\npanels = 08\n", 2, "order.panels", "quotes"),
]


@pytest.mark.parametrize(("text", "line", "key", "cure"), [c[1:] for c in BROKEN], ids=[c[0] for c in BROKEN])
def test_writing_that_is_no_toml_is_told_with_line_and_cure(text, line, key, cure):
    (problem,) = problems_of(text)
    assert (problem.line, problem.key) == (line, key)
    assert cure in problem.cure
    assert problem.reason.endswith(".")


BYTES = [
    ("an empty file", b"", "empty"),
    ("blank lines", b"\n  \n\n", "empty"),
    ("a picture", b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", "not text"),
    ("nothing but zeros", bytes(1000), "not text"),
    ("UTF-16", "[order]\n".encode("utf-16"), "UTF-16"),
    ("Latin-1", '[order]\nname = "Füchse"\n'.encode("latin-1"), "not UTF-8"),
    ("a file too large", b"# " + b"x" * 1_000_001, "bytes"),
]


@pytest.mark.parametrize(("data", "reason"), [case[1:] for case in BYTES], ids=[case[0] for case in BYTES])
def test_bytes_that_are_no_order_are_told(data, reason):
    with pytest.raises(OrderError) as told:
        parse_bytes(data, "trial.toml", load_shelf())
    (problem,) = told.value.problems
    assert reason in problem.reason
    assert problem.cure
    assert problem.key == "order"


def test_the_line_of_a_letter_that_is_not_utf8_is_named():
    with pytest.raises(OrderError, match=r"trial\.toml:2: "):
        parse_bytes(b'[order]\nname = "F\xfcchse"\n', "trial.toml", load_shelf())


def test_a_mark_of_byte_order_is_stepped_over():
    data = b"\xef\xbb\xbf" + written(changed()).encode()
    assert parse_bytes(data, "trial.toml", load_shelf()).job.name == "Trial"


@pytest.mark.parametrize("text", ["a = " + "[" * 5000, "a = " + "{ a = " * 3000, "[" + "a." * 5000 + "a]\n"])
def test_deep_nesting_is_told_and_not_a_crash(text):
    assert problems_of(text)


@pytest.mark.parametrize(
    "chain", ["a." * 20_000 + "b = 1", "[" + "a." * 20_000 + "b]", "x = {" + "a." * 20_000 + "b=1}"]
)
def test_a_key_of_thousands_of_parts_is_told_and_takes_neither_minutes_nor_all_memory(chain):
    begin = time.perf_counter()
    with pytest.raises(OrderError) as told:
        parse_order(f"# {'.' * 80}\n{chain}\n", "", load_shelf())
    assert [(each.line, each.reason) for each in told.value.problems] == [
        (2, "This line has too many points.")
    ]
    assert time.perf_counter() - begin < 1.0


def test_a_number_of_thousands_of_digits_is_told():
    (problem,) = problems_of(f"a = {'9' * 6000}\n")
    assert "too long" in problem.reason


def test_a_text_too_long_is_told():
    (problem,) = problems_of("#" * 1_000_001)
    assert "letters" in problem.reason


def test_a_number_too_long_to_print_is_told():
    problems = problems_of(
        written(changed(order__panels="0x" + "f" * 6000, site__wind="[0x" + "f" * 6000 + "]"))
    )
    assert [problem.value for problem in problems] == ["a very long number", "a very long number"]


def test_letters_that_would_upset_a_screen_are_not_repeated():
    text = written(changed(site__wind='"26 \\u001b[31m"')) + '"\\u001b[2J" = 1\n"" = 2\n'
    problems = problems_of(text)
    assert all(str(problem).isprintable() for problem in problems)
    assert [problem.key for problem in problems] == ["site.wind", "money.?[2J", "money."]


def test_a_key_without_letters_has_a_name_all_the_same():
    assert '""' in [problem.key for problem in problems_of('"" = 1\n')]


def test_a_file_of_unknown_keys_is_told_quickly_and_in_short():
    lines = "".join(f"key_{n} = {n}\n" for n in range(10_000))
    problems = problems_of(f"{lines}[site]\n{lines}")
    assert len(problems) < 70
    told = [(p.key, p.line) for p in problems if "9980 further keys" in p.reason]
    assert told == [("key_20", 21), ("site.key_20", 10_022)]


def test_lines_that_end_in_two_letters_count_as_one():
    text = written(changed(site__wind='"26"'))
    (problem,) = problems_of(text.replace("\n", "\r\n"))
    assert problem.line == line_of(text, "site.wind")


def test_all_mistakes_are_told_at_once_in_the_order_of_their_lines():
    sections = changed(order__panels="0", site__wind='"26"', layout__cell_gap='"9 m"', money__margin="3")
    problems = problems_of(written(sections))
    assert [problem.key for problem in problems] == [
        "order.panels",
        "site.wind",
        "layout.cell_gap",
        "money.margin",
    ]


def test_a_section_that_is_no_section_is_told():
    problems = problems_of('site = "windy"\n')
    assert next(problem for problem in problems if problem.key == "site").line == 1


def test_a_list_of_sections_is_told():
    problems = problems_of('[[site]]\nwind = "26 m/s"\n')
    assert next(problem for problem in problems if problem.key == "site").line == 1


def test_a_misspelt_section_is_answered_with_its_name_and_not_with_all_that_it_lacks():
    text = written(changed()).replace("[site]", "[sight]").replace("[layout]", "[lay-out]")
    problems = problems_of(text)
    assert [problem.key for problem in problems] == ["sight", "lay-out"]
    assert "Is site meant?" in problems[0].reason


def test_a_bare_wind_speed_tells_that_the_same_figure_may_mean_twice_the_pressure():
    sections = changed(site__wind_kind=None, site__wind_code=None, site__wind_return=None, site__code=None)
    problems = problems_of(written(sections))
    assert {p.key for p in problems} == {"site.wind_code", "site.wind_kind", "site.wind_return"}
    assert all("twice the pressure" in p.reason for p in problems)


def test_the_nearest_key_and_name_are_offered():
    problems = problems_of(written(changed(site__heigth='"3 m"', cell__name='"156 mm pol"')))
    assert "Is 156 mm poly meant?" in problems[0].reason
    assert "Is height meant?" in problems[1].reason


def test_a_mistake_shows_file_line_key_value_reason_and_cure():
    text = written(changed(site__wind='"26"'))
    (problem,) = problems_of(text)
    assert str(problem) == (
        f'trial.toml:{line_of(text, "site.wind")}: site.wind = "26": 26 has no unit. '
        'Write a speed as a number and its unit, such as "26 m/s" or "100 mph".'
    )
