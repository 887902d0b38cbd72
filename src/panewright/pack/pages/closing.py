"""Closing: mix or laminating card, the back, the box with its diodes and leads, the earth, and every rule."""

from __future__ import annotations

from panewright.check import Check
from panewright.drawing.sheet import Block, Caution, Heading, Page, Table, Verdicts, Words
from panewright.enclosure.back_board import APART_MM, WASHER_MM
from panewright.enclosure.box import BARE, LEAST_IP, PLUGS
from panewright.enclosure.rating import TOUCH_V
from panewright.enclosure.relief import TESTED_N
from panewright.pack.bench import Bench, count
from panewright.pack.pages import caution
from panewright.pack.pages.encapsulating import encapsulating
from panewright.pack.pages.table import words_table
from panewright.seal.quantity import FILLET_MM
from panewright.structure.drilling.board import tapping_screw

CLOSING = "Closing"  #: title of the page


def closing_page(bench: Bench) -> Page:
    """All that closes the panel, in the order of the work, and how it was judged."""
    rules = (Heading("The rules of closing"), Verdicts(closing_checks(bench)))
    return Page(CLOSING, (*_work(bench), *rules))


def closing_work_page(bench: Bench) -> Page:
    """The same for who only builds: the steps send there for mix, times, back, box and earth."""
    return Page(CLOSING, _work(bench))


def _work(bench: Bench) -> tuple[Block, ...]:
    return (
        *encapsulating(bench),
        Heading("The back"),
        Words(_back(bench)),
        Heading("The box, its diodes and leads"),
        _box(bench),
        Words(_leads(bench)),
        *(Words(words, "small") for words in (PLUGS if bench.design.amounts.plugs else BARE)),
        Heading("The earth"),
        Words(_earth(bench)),
        Caution(caution.LIVE),
        *_series(bench),
    )


def _series(bench: Bench) -> tuple[Caution, ...]:
    """What a label allows of strings, where it is more than hands bear."""
    system_v = bench.design.label.system_v
    return (Caution(caution.SERIES.format(bench.say(system_v, "V"))),) if system_v > TOUCH_V else ()


def closing_checks(bench: Bench) -> tuple[Check, ...]:
    """As the design has them."""
    return bench.design.closing.checks


def _back(bench: Bench) -> str:
    closing = bench.design.closing
    back, load = closing.back, closing.back_load
    metal = (
        " Its skins are metal: keep live parts a creepage away and bond it to the earth."
        if back.kind == "metal-skinned"
        else ""
    )
    return (
        f"{back.name[0].upper()}{back.name[1:]}. It holds {bench.say(back.holds_v, 'V')} of system voltage "
        "(this "
        f"panel's label: {bench.say(load.system_v, 'V')}) and bears {bench.heat(back.bears_c)}; the cells "
        "before "
        f"it come to {bench.heat(round(load.hottest_c))} at the record heat, leads "
        f"open.{metal} Cut it {back_size(bench)}, {_WHERE[bench.design.order.parts.encapsulation]}."
        f"{_fillet(bench)}{_screws(bench)}"
    )


_WHERE = {
    "silicone pour": "so that it lies between the seats",
    "film": "so that it ends inside the bead",
    "air gap": "so that it lies on the seats, inside the frame's edges",
}


def back_size(bench: Bench) -> str:
    """What closes the back, as it is cut."""
    long, short = bench.design.closing.back_mm
    return f"{bench.size(long)} × {bench.size(short)}"


def _fillet(bench: Bench) -> str:
    """How a back sheet on a pour is held."""
    if not bench.design.amounts.fillet_ml:
        return ""
    sealant = bench.design.structural.bead.sealant
    return (
        f" A fillet of {sealant.name}, {bench.size(FILLET_MM)} high, holds its edge to the seats all round."
    )


def _screws(bench: Bench) -> str:
    """How a board behind an air gap is held."""
    if not bench.design.closing.screwed:
        return ""
    vent = " Drill the hole of the vent plug at its lowest corner too." if bench.design.amounts.vents else ""
    return (
        f" Tapping screws with washers of {bench.size(WASHER_MM)} hold it to the seat, about "
        f"{bench.size(APART_MM)} apart at most. Before any cell lies on it, hold it to the empty frame, "
        "mark it through the holes S of the frame drawing, drill it to "
        f"{bench.drill(tapping_screw().hole_mm)} off the frame and deburr. Slit it over the exits of the "
        "leads (Junction box, seen from behind as the bench "
        f"sees the string).{vent}"
    )


def _box(bench: Bench) -> Table:
    ask = bench.design.closing.box
    rows = [
        (
            "label of the box, at least",
            f"{bench.say(ask.volts, 'V')}, {bench.say(ask.amps, 'A')}, {LEAST_IP}",
        ),
        ("air round it", bench.heat(round(ask.around_c))),
        *_diodes(bench),
    ]
    return words_table(("What", "Figure"), tuple(rows))


def _diodes(bench: Bench) -> tuple[tuple[str, str], ...]:
    closing, bypass = bench.design.closing, bench.design.electrical.bypass
    junction = closing.junction
    if bypass is None or junction is None:
        return (("bypass diodes", "none: the cells bear each other's voltage"),)
    return (
        (
            "bypass diodes",
            f"{count(bench.design.amounts.diodes, 'diode')} {bypass.name}; wiring page: over which cells",
        ),
        ("heat of one at Isc", bench.say(junction.heat_w, "W")),
        (
            "its junction at Isc, and for an hour at 1.25 Isc",
            _two(bench, junction.at_isc_c, junction.at_most_c),
        ),
        ("it bears, and for an hour", _two(bench, bypass.bears_c, bypass.survives_c)),
        ("its leak when the shade leaves", bench.say(junction.leak_w, "W")),
    )


def _two(bench: Bench, one_c: float, other_c: float) -> str:
    return f"{bench.say(round(one_c), 'degC')}, {bench.say(round(other_c), 'degC')}"


def _leads(bench: Bench) -> str:
    lead = bench.design.closing.lead
    return (
        f"Leads of {bench.say(lead.area_mm2, 'mm2', 1)}, {bench.size(lead.outer_mm)} over all: bend them no "
        f"tighter than {bench.size(lead.bend_mm)} inside where they are tied, "
        f"{bench.size(lead.moving_bend_mm)} "
        f"where they move. The clamp has to hold {bench.say(lead.pull_n, 'N', 2)} by the rule for cable "
        "glands; "
        f"the bench pulls {bench.say(TESTED_N, 'N', 2)}. Short diode legs, clamped or soldered to the "
        "box's copper "
        "plates: they carry the heat away."
    )


def _earth(bench: Bench) -> str:
    bond = bench.design.closing.earth
    corners = (
        "" if bond.contacts == 1 else " Every corner gets toothed washers too: anodising parts the rails."
    )
    return (
        "Bolt at the hole E of the bottom rail (frame drawing). Bare the metal under the toothed washer, "
        "smear it, "
        f"tinned lug, stainless bolt.{corners} From the bolt to the farthest rail expect "
        f"{bench.say(1000 * bond.ohm, 'mohm', 2)}, at most 0.1\u2009Ω. The test sends "
        f"{bench.say(bond.test_a, 'A')} through it, 2.5 times the label's fuse: "
        f"{bench.say(bond.volts, 'V', 2)}."
    )
