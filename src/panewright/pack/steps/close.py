"""Steps that close the panel: pour, back, label and the last reading."""

from __future__ import annotations

from panewright.bench.predicted import STC_C, STC_W_M2, panel_isc_a, panel_voc_v, stc
from panewright.bench.readings import string_law, substring_readings
from panewright.drawing.sheet import Step
from panewright.enclosure.relief import TESTED_N
from panewright.pack.bench import Bench, count, listed
from panewright.pack.figures.label import HEIGHT_MM, WIDTH_MM
from panewright.pack.pages import caution
from panewright.pack.pages.box import far_words
from panewright.pack.pages.closing import back_size
from panewright.pack.pages.encapsulating import grams, hours, minutes
from panewright.panel.closed import FILM_CLEAR_MM
from panewright.seal.quantity import FILLET_MM
from panewright.structure.sundries import PATCH_KG
from panewright.units import show

LABEL_MIN = 5.0  #: of cleaning, labelling and measuring, what the label takes; common practice
GLUE_H = 24.0  #: until the glue under the box bears a pull; common practice


def sets_h(bench: Bench) -> float:
    """Until a pour has cured at the heat of the shop, or a laminate is cool. [h]"""
    closing = bench.design.closing
    if closing.laminating:
        return closing.laminating.minutes / 60
    return closing.pour.work.full_h if closing.pour else 0.0


def encapsulate(bench: Bench) -> Step:
    """The pour, the film or the air gap, as the order asked."""
    kind = bench.design.order.parts.encapsulation
    if kind == "silicone pour" and bench.design.pour is not None:
        return _pour(bench)
    return _film(bench) if kind == "film" else _air_gap(bench)


def trial_patch(bench: Bench) -> Step | None:
    """A patch of the same batch numbers, days before it matters; None where nothing is poured."""
    poured = bench.design.closing.pour
    if bench.design.pour is None or poured is None:
        return None
    near = bench.design.order.closing.near
    about = f" with {listed(near)} beside it" if near else ""
    return Step(
        "Pour a trial patch",
        "Once for each lot of silicone, before the first panel that it goes into. Tab a scrap cell with your "
        f"own ribbon and flux, lay it on glass inside a scrap of the rail with its bead{about}, and pour "
        f"{show(1000 * PATCH_KG, 'g', digits=2)} of the silicone over it, weighed as the mix card says. "
        "The Closing page lists what keeps it from setting.",
        f"After {hours(poured.work.full_h)} at {bench.heat(poured.work.at_c)}: rubber everywhere, also "
        "round flux, "
        "ribbon and bead. Wet anywhere: find out what did it before any cell is poured in.",
        f"set in {hours(poured.work.handle_h)}",
        bench.minutes_once("Pour a trial patch"),
        caution.VAPOUR,
    )


def _pour(bench: Bench) -> Step:
    pour, poured = bench.design.pour, bench.design.closing.pour
    assert pour is not None
    assert poured is not None
    first = poured.card.batches[0]
    return Step(
        "Pour the encapsulant",
        f"Level the pane to {bench.say(0.5, 'mm', 1)} over its length. Mix {bench.say(pour.mix_kg, 'kg')} "
        f"({_volume(bench, pour.mix_ml)}) in {count(pour.batches, 'batch', 'batches')} of "
        f"{grams(first.part_a_g)} A and {grams(first.part_b_g)} B (mix card, Closing page). Pour from one "
        "edge and "
        f"let it creep under the cells, then fill to {bench.size(pour.depth_mm)} over the glass.",
        f"Each batch lies on the pane within {first.lies_by_min:.0f} minutes of mixing, half its pot life; "
        f"{pour.batch_min:.0f} minutes are expected. Lift bubbles out with a needle "
        f"while it flows; {grams(1000 * poured.floating.hold_kg)} holds down any cell that floats. Leave "
        "it level "
        f"for {hours(poured.work.gel_h)}, turn it after {hours(poured.work.handle_h)}.",
        f"{bench.size(pour.depth_mm)} deep everywhere, {bench.say(pour.poured_kg, 'kg')} on the pane",
        bench.minutes("Mix, pour"),
        caution.VAPOUR,
    )


def _volume(bench: Bench, volume_ml: float) -> str:
    """A volume to mix: litres, or fluid ounces."""
    if bench.design.order.job.units == "us":
        return bench.say(volume_ml, "ml")
    return bench.say(volume_ml / 1000, "l")


def _film(bench: Bench) -> Step:
    """Glass, film, cells, film and back sheet become one pane before there is any frame."""
    design = bench.design
    rim = bench.size(design.structural.bead.bite_mm + FILM_CLEAR_MM)
    volts = bench.say(string_law(design, "encapsulate").at(STC_W_M2, STC_C), "V")
    return Step(
        "Laminate",
        "Lay the second film and the back sheet over the cells, lead the tails of the buses out through "
        f"{_slits(bench)}, and laminate {_by_card(bench)}. Film and sheet end {rim} "
        "from the pane's edge all round: the bead needs bare glass.",
        "No bubble, no cell out of line, no glue on the bare rim. Read the volts again when it is cool: as "
        "before laminating.",
        f"{volts} in {bench.sun}",
        bench.minutes("Close") // 2,
        "The press burns; hot film gives off vapour. Air the room.",
    )


def _slits(bench: Bench) -> str:
    """Where the tails leave film and sheet: all at their exits, or far ones under the box."""
    if not any(tail.way_mm for tail in bench.design.layup.tails):
        return "a slit in both"
    return (
        "slits in the film, along its back where they leave beside the box, and out through a slit in the "
        "sheet under the box"
    )


def _by_card(bench: Bench) -> str:
    """The laminating card in a line."""
    card = bench.design.closing.laminating
    assert card is not None
    pump, hold = card.phases[0].minutes, card.phases[3].minutes
    return (
        f"in a vacuum by the card on the Closing page: pump {minutes(pump)} cold, press when the film is at "
        f"{bench.heat(round(card.press_c))}, hold {minutes(hold)} at {bench.heat(card.plate_c)}"
    )


def _air_gap(bench: Bench) -> Step:
    return Step(
        "Close over an air gap",
        "Fix the string to the board so that no cell can touch the glass, and lay it on the seats from "
        f"behind. {_screwed(bench)} {_vent(bench)}",
        "Shake gently: nothing moves. Expect fog and corrosion within a few years: an air gap is not a seal.",
        _dew(bench),
        bench.minutes("Close") // 2,
    )


def _screwed(bench: Bench) -> str:
    """Its screws, through the seats' own holes."""
    screws = count(bench.design.amounts.board_screws, "screw")
    return (
        f"Drive {screws} with washers through the board into the seats (holes S of the frame drawing) by "
        "hand: they cut their own thread, and end short of the pane."
    )


def _vent(bench: Bench) -> str:
    """How the gap breathes, or what keeps it dry."""
    closing = bench.design.order.closing
    if closing.gap == "vented":
        return "Dry the space; the vent plug sits in its hole at the board's lowest corner."
    if not closing.desiccant_g:
        return "Dry the space and shut it on a dry day; there is no desiccant."
    sieve = f"{grams(closing.desiccant_g)} of baked molecular sieve"
    return f"Dry the space, lay in {sieve} and shut it within the hour."


def _dew(bench: Bench) -> str:
    fog = bench.design.closing.fog
    return "" if fog is None else f"air shut in fogs at {bench.heat(round(fog.enclosed_dew_c))}"


def close_back(bench: Bench) -> Step:
    """Back, box, leads and earth."""
    poured = bench.design.order.parts.encapsulation == "silicone pour"
    closing = bench.design.closing
    sealed = ", then coat lug and bolt with paste" if bench.design.amounts.isolators else ""
    weight = bench.say(5.0, "kg", 1) if bench.design.order.job.units == "metric" else bench.say(5.0, "kg", 2)
    return Step(
        "Close the back" if poured else "Fix the box and the leads",
        f"{_sheet(bench) if poured else ''}{_boxed(bench)} {_ends(bench)}Clamp the cable so that "
        f"a pull never reaches a joint, bent no tighter than {bench.size(closing.lead.bend_mm)} inside. "
        f"Bolt the earth lead to the bared frame with a toothed washer{sealed}. {_brackets(bench)}"
        "Press the drain inserts in; keep them open.",
        f"{_substrings(bench)}Pull each cable with {bench.say(TESTED_N, 'N', 2)}, the weight of about "
        f"{weight}, common practice: nothing moves. Earth to every rail: about "
        f"{bench.say(1000 * closing.earth.ohm, 'mohm', 1)}, "
        "under 0.1\u2009Ω.",
        f"{bench.say(panel_voc_v(bench.design, STC_W_M2, STC_C), 'V')} in {bench.sun}",
        bench.minutes("Close the back", "Join the tails", "Crimp", "Fix the brackets")
        - (0 if poured else bench.minutes("Close") // 2),
        caution.VAPOUR,
    )


def _boxed(bench: Bench) -> str:
    """The box over the exits, and every ribbon on its terminal; where the far ones run."""
    tails, taps = [f"{lead.pole} lead" for lead in bench.design.layup.leads], len(bench.design.layup.taps)
    through = listed([*tails, count(taps, "tap")] if taps and bench.design.electrical.bypass else tails)
    board = bench.design.order.parts.encapsulation == "air gap"
    far = f" {far_words(bench)}" if board and far_words(bench) else ""
    return (
        f"Lead the tails ({through}) through the box's floor, glue it over the exits, and clamp or solder "
        f"each tail to its terminal in a loose bow (page Junction box).{far}"
    )


def _ends(bench: Bench) -> str:
    """What comes on the ends of the leads."""
    if not bench.design.amounts.plugs:
        return "Crimp a ferrule on the end of each lead and put its cap over it. "
    return "Crimp plug and socket to the ends of the leads, with the die that their maker names. "


def _substrings(bench: Bench) -> str:
    """What is read in the open box, where diodes sit in it already."""
    found = substring_readings(bench.design)
    if not found:
        return ""
    volts = listed([bench.say(each.value, "V") for each in found])
    return (
        f"Before the lid goes on, read between the two terminals of each diode: {volts} in full sun. Near "
        "zero or minus, and that diode is turned or sits elsewhere. "
    )


def _brackets(bench: Bench) -> str:
    """Which holes take brackets, and how tight; nothing where none is drilled."""
    frame = bench.design.structural.frame
    many = sum(hole.purpose == "bracket" for piece in frame.pieces for hole in piece.holes)
    tight = "tight in round holes, free to slide in slots under a second nut" if frame.slot_mm else "tight"
    return f"Bolt {count(many, 'bracket')} to the holes B of the frame drawing, {tight}. " if many else ""


def _sheet(bench: Bench) -> str:
    """The back sheet on the cured pour: a pour that has set holds nothing laid on it later."""
    sealant, fillet_ml = bench.design.structural.bead.sealant, bench.design.amounts.fillet_ml
    far = any(tail.way_mm for tail in bench.design.layup.tails)
    slit = (
        "slit it under the box, lay the far tails flat on the pour towards it"
        if far
        else "slit it over the exits"
    )
    return (
        f"Cut the back sheet {back_size(bench)}, {slit} and smooth it down on the cured "
        f"pour, no air under it. What holds it is a fillet of {sealant.name}, {bench.size(FILLET_MM)} high, "
        "over its edge and the seats all round and over the slit: "
        f"{bench.say(fillet_ml, 'ml')} of the parts list's. "
    )


def label(bench: Bench) -> Step:
    """The label with the serial."""
    serials = bench.design.label.serials
    span = serials[0] if len(serials) == 1 else f"{serials[0]} to {serials[-1]}"
    return Step(
        "Label",
        f"Print label.svg at full size ({bench.size(WIDTH_MM)} × {bench.size(HEIGHT_MM)} a label) on "
        f"weatherproof stock; one for each serial: {span}. Stick it on the back, where it can be read with "
        "the panel on its brackets.",
        "The code scans to the serial. The serial stands on the test sheet too.",
        serials[0],
        LABEL_MIN,
        caution.NOT_LISTED,
    )


def measure(bench: Bench) -> Step:
    """The reading that the label has to stand for."""
    points = stc(bench.design).points
    volts, amps = (
        bench.say(panel_voc_v(bench.design, 800.0, 45.0), "V"),
        bench.say(panel_isc_a(bench.design, 800.0, 45.0), "A"),
    )
    return Step(
        "Measure in the sun",
        "Clear sky, sun square on the panel, nothing moving in front. Let the cells warm for ten "
        "minutes. Read irradiance, back temperature, Voc, Isc and a point near the best one; fill in the "
        "test sheet.",
        "Compare with the table beside the fields at the nearest light and heat. On a usual day, "
        f"800\u2009W/m² and a cell at {bench.heat(45.0)}, about {volts} and {amps}.",
        f"{bench.say(points.power_w, 'W')} at STC",
        bench.minutes("Clean, label") - LABEL_MIN,
        caution.LIVE,
    )
