"""The test sheet: what to read, what it should be, and room to write it with a thick pencil."""

from __future__ import annotations

from panewright.bench.predicted import STC_C, STC_W_M2, cells_voc_v, panel_isc_a, panel_voc_v, stc
from panewright.drawing.sheet import Block, Caution, Fields, Heading, Page, Words
from panewright.pack.bench import Bench
from panewright.pack.pages import caution
from panewright.pack.pages.table import words_table

LIGHTS = (1000.0, 800.0, 600.0, 200.0)
HEATS_C = (15.0, 25.0, 35.0, 45.0, 55.0)
THERMOMETER = ("back, middle", "back, edge", "air")  #: where heat is read
POINTS = 5  #: readings between short and open circuit


def readings_pages(bench: Bench) -> tuple[Page, ...]:
    """One sheet to copy for every serial."""
    return (_bench_sheet(bench), _sun_sheet(bench))


BEFORE_CLOSING: dict[str, tuple[tuple[str, tuple[str, ...]], ...]] = {
    "silicone pour": (
        ("Before the pour", ("string", "insulation")),
        ("In the open box", ("diodes", "substrings")),
    ),
    "film": (
        ("Before laminating", ("string",)),
        ("In the open box", ("diodes", "substrings")),
        ("Before the lid goes on", ("insulation",)),
    ),
    "air gap": (
        ("On the open board", ("string",)),
        ("On its seats", ("insulation",)),
        ("In the open box", ("diodes", "substrings")),
    ),
}
"""What is read while it can still be mended: heading and readings, by what lies behind the cells."""


def _who() -> tuple[Block, ...]:
    return (
        Fields((("serial", ""), ("date", ""), ("by", "")), 3),
        Fields((("meter", ""), ("light measured with", ""), ("heat measured with", "")), 3),
    )


def _bench_sheet(bench: Bench) -> Page:
    """Readings while building: each column, the string, diodes, insulation."""
    plan = bench.design.layup.plan
    column = bench.say(cells_voc_v(bench.design, plan.rows, STC_W_M2, STC_C), "V")
    columns = tuple((f"column {number}", "V") for number in range(1, plan.columns + 1))
    blocks: list[Block] = [
        Words("Copy this sheet for every serial; it stays with the panel's record."),
        *_who(),
        Heading("Lots that went in"),
        Fields(
            (("cells", ""), ("ribbon", ""), ("flux and solder", ""), ("sealant", ""), ("encapsulant", "")), 3
        ),
        Heading("Voc of each column"),
        Words(
            f"Expect {column} at 1000\u2009W/m², cell at {bench.heat(25.0)}, and all columns alike within "
            "1 % in the same light."
        ),
        Fields(columns, 4),
    ]
    for heading, asked in BEFORE_CLOSING[bench.design.order.parts.encapsulation]:
        fields = [field for name in asked for field in _fields(bench, name)]
        blocks += [Heading(heading), Fields(tuple(fields), 4)]
    return Page("Test sheet, at the bench", tuple(blocks))


def _fields(bench: Bench, name: str) -> tuple[tuple[str, str], ...]:
    """The lines to fill in for one kind of reading."""
    plan = bench.design.layup.plan
    if name == "string":
        return (("whole string", "V"),)
    if name in ("diodes", "substrings"):
        diodes = plan.substrings * plan.strings if bench.design.electrical.bypass else 0
        return tuple((f"{name[:-1]} {number}", "V") for number in range(1, diodes + 1))
    return (("insulation", "MΩ"), ("earth to rails", "Ω"))


def _sun_sheet(bench: Bench) -> Page:
    """Readings of the finished panel, with what to expect beside."""
    points = tuple(
        (name, unit) for n in range(1, POINTS + 1) for name, unit in ((f"V {n}", "V"), (f"I {n}", "A"))
    )
    us = bench.design.order.job.units == "us"
    degrees, hotter = ("°F", "4 to 5 °F") if us else ("°C", "2 to 3 K")
    blocks: list[Block] = [
        *_who(),
        Fields((("irradiance", "W/m²"), *((name, degrees) for name in THERMOMETER)), 4),
        Fields((("Voc", "V"), ("Isc", "A"), ("Vmp", "V"), ("Imp", "A")), 4),
        Heading("Points between short and open circuit"),
        Fields(points, 4),
        Heading("What to expect"),
        Words(_sentence(bench)),
        words_table(*_expected(bench), caption="Voc by the heat of the cells, Isc by the light"),
        Words(f"A cell is some {hotter} hotter than the back behind it in full sun; common practice."),
        Fields((("watts at STC", "W"), ("passed, by", "")), 2),
        Caution(caution.LIVE),
    ]
    return Page("Test sheet, in the sun", tuple(blocks))


def _sentence(bench: Bench) -> str:
    points = stc(bench.design).points
    return (
        f"At STC {bench.say(points.power_w, 'W')}: {bench.say(points.vmp_v, 'V')} and "
        f"{bench.say(points.imp_a, 'A')}. Isc follows the light; Voc falls as the cells warm and hardly "
        "follows the light."
    )


def _expected(bench: Bench) -> tuple[tuple[str, ...], tuple[tuple[str, ...], ...]]:
    """Voc for each light and heat, and Isc for each light at 25 degC."""
    heads = ("Light", "Isc", *(f"Voc at {bench.heat(heat)}" for heat in HEATS_C))
    rows = tuple(
        (
            bench.say(light, "W/m2"),
            bench.say(panel_isc_a(bench.design, light, STC_C), "A"),
            *(bench.say(panel_voc_v(bench.design, light, heat), "V") for heat in HEATS_C),
        )
        for light in LIGHTS
    )
    return heads, rows
