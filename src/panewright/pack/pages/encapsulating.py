"""What goes on the mix card, the laminating card, or is told of an air gap."""

from __future__ import annotations

from panewright.drawing.sheet import Block, Caution, Heading, Table, Words
from panewright.enclosure.degassing import IN_CUP_MM, STIRRED_AIR, VACUUM_PA
from panewright.enclosure.fog import Fog
from panewright.enclosure.inhibition import INHIBITORS, Inhibitor, known
from panewright.enclosure.laminating import PUMPED_PA, Laminating
from panewright.pack.bench import Bench, count, listed
from panewright.pack.pages import caution
from panewright.pack.pages.table import words_table
from panewright.panel.poured import Poured
from panewright.units import show


def encapsulating(bench: Bench) -> tuple[Block, ...]:
    """The blocks of whatever lies round the cells."""
    closing = bench.design.closing
    if closing.pour:
        return _poured(bench, closing.pour)
    if closing.laminating:
        return _laminated(bench, closing.laminating)
    return _gapped(bench, closing.fog) if closing.fog else ()


def grams(mass_g: float) -> str:
    """What a balance shows; both measures weigh silicone in grams."""
    return show(mass_g, "g", digits=4 if mass_g >= 1000 else 3)


def minutes(time_min: float) -> str:
    """A time by the clock of the bench."""
    return show(float(round(time_min)), "min", digits=len(str(round(time_min))))


def hours(time_h: float) -> str:
    """A longer time; days from three on.

    >>> hours(5.3), hours(24.0), hours(97.0)
    ('5.3\u2009h', '24\u2009h', '4.0\u2009days')
    """
    return show(time_h / 24, "days", digits=2) if time_h >= 72 else show(time_h, "h", digits=2)


def _poured(bench: Bench, poured: Poured) -> tuple[Block, ...]:
    made, work = poured.pour, poured.work
    lead = (
        f"Mix {bench.say(made.mix_kg, 'kg')} of {poured.silicone.name} in "
        f"{count(made.batches, 'batch', 'batches')}. In a shop at {bench.heat(work.at_c)} a batch may be "
        "worked "
        f"for {minutes(work.pot_life_min)} and lies on the pane by half of that."
    )
    return (
        Words(lead, "lead"),
        _mix_card(poured),
        Words(
            "The clock runs from the first drop of part B of the first batch. Weigh B to within "
            f"{show(poured.card.off_g, 'g', digits=2)}; stir until no streak is left, scrape walls and "
            "floor, stir again.",
            "small",
        ),
        Heading("Until it has cured"),
        _calendar(bench, poured),
        Words(_bubbles(bench, poured)),
        Words(_afloat(bench, poured)),
        Heading("What keeps it from setting"),
        *_inhibitors(bench),
        Caution(caution.VAPOUR),
    )


def _mix_card(poured: Poured) -> Table:
    heads = ("Batch", "Part A", "Part B", "B goes in at", "On the pane by", "Stiff at")
    rows = tuple(
        (
            str(row.number),
            grams(row.part_a_g),
            grams(row.part_b_g),
            minutes(row.mixed_at_min),
            minutes(row.lies_by_min),
            minutes(row.stiff_by_min),
        )
        for row in poured.card.batches
    )
    return words_table(heads, rows, caption="Mix card, one panel")


def _calendar(bench: Bench, poured: Poured) -> Table:
    work = poured.work
    rows = (
        ("no longer flows: leave it level until then", hours(work.gel_h)),
        ("may be turned and carried, with care", hours(work.handle_h)),
        ("cured: the back goes on, leads may be pulled", hours(work.full_h)),
    )
    return words_table((f"At {bench.heat(work.at_c)}, day and night", "After"), rows)


def _bubbles(bench: Bench, poured: Poured) -> str:
    airless, cup = poured.degassing, poured.pour.batch_ml / 1000
    vessel_l, work = cup * airless.foam_times, poured.work
    return (
        f"Bubbles. At {bench.heat(work.at_c)} the mix has {bench.say(work.viscosity_pa_s, 'Pa s')}; in the "
        f"pour all wider than {bench.say(airless.smallest_mm, 'mm', 1)} rise out within the pot life. In the "
        f"cup those of {bench.size(IN_CUP_MM)} need {minutes(airless.cup_rest_min)}. In a vacuum of "
        f"{VACUUM_PA / 100:.0f}\u2009mbar they need {minutes(airless.vacuum_rest_min)}, and a mix with "
        f"{100 * STIRRED_AIR:.0f}\u2009% of air stirred in foams to {airless.foam_times:.1f} times: a vessel "
        f"of {bench.say(max(2 * vessel_l, 3 * cup), 'l')} for a batch."
    )


def _afloat(bench: Bench, poured: Poured) -> str:
    afloat = poured.floating
    return (
        f"Cells that float. {bench.say(afloat.film_mm, 'mm', 2)} of air under a cell carries it, or a bubble "
        f"under {100 * afloat.share:.0f}\u2009% of it. {grams(1000 * afloat.hold_kg)} on a cell holds it "
        "down "
        "whatever lies below: a nut on a scrap of polyethylene, taken off once the silicone creeps up beside "
        "the cell."
    )


def _inhibitors(bench: Bench) -> tuple[Block, ...]:
    """Those that the order names; all of them where it names none."""
    near, silicone = bench.design.order.closing.near, bench.design.closing.pour
    if silicone and silicone.silicone.cures_by == "tin":
        return (Words("This silicone cures by tin: nothing of a common shop stops it."),)
    if near == ():
        return (
            Words("None of the usual things comes near, the order says. The trial patch has the last word."),
        )
    rows = known(near) if near else tuple(INHIBITORS.values())
    words = (
        "These come near, the order says."
        if near
        else "The order does not say what lies about. Look for these."
    )
    table = words_table(("Thing", "Why", "It", "Instead"), tuple(_inhibitor(row) for row in rows))
    return (
        Words(f"{words} The trial patch, on a tabbed scrap cell with your own flux, has the last word."),
        table,
    )


def _inhibitor(row: Inhibitor) -> tuple[str, str, str, str]:
    return row.name, row.why, "stops it" if row.stops else "may stop it", row.instead


def _laminated(bench: Bench, card: Laminating) -> tuple[Block, ...]:
    sheet = bench.design.closing.film_sheet
    assert sheet is not None
    lead = (
        f"{card.film.name}, twice. Cut each {bench.size(sheet.long_mm)} × {bench.size(sheet.short_mm)}, "
        "the roll "
        f"along the long side: it shrinks by {100 * card.film.shrinks_along:.0f}\u2009% along and "
        f"{100 * card.film.shrinks_across:.0f}\u2009% across."
    )
    rows = tuple(
        (
            phase.words,
            minutes(phase.minutes),
            bench.heat(round(phase.from_c)),
            bench.heat(round(phase.to_c)),
            "down" if phase.pressed else "up",
        )
        for phase in card.phases
    )
    return (
        Words(lead, "lead"),
        words_table(("Step", "Minutes", "Film from", "to", "Press"), rows, caption="Laminating card"),
        Words(_cured(bench, card)),
        Words(_bag(bench)),
        Caution("The press burns; hot film gives off vapour. Air the room."),
    )


def _cured(bench: Bench, card: Laminating) -> str:
    return (
        f"With the {card.heater} at {bench.heat(card.plate_c)} the film comes to "
        f"{100 * card.gel:.0f}\u2009% gel. "
        "The rate of its cure is read from published abstracts and the film's sheet decides: laminate a "
        "scrap "
        "with a thermometer between film and back first, and have the gel of a piece of it measured."
    )


def _bag(bench: Bench) -> str:
    return (
        f"The pump must bring the bag or chamber to {PUMPED_PA / 100:.0f}\u2009mbar and keep it there: shut "
        "the "
        "valve cold, and it may rise by no more than as much again in five minutes. A bag needs a breather "
        "cloth "
        "over all, release sheet next to the film, and an even floor. Leave film in its foil until the "
        "day; it "
        f"must be dry. Trim only when the laminate is under {bench.heat(60.0)}."
    )


def _gapped(bench: Bench, found: Fog) -> tuple[Block, ...]:
    rows = [
        ("dew point of the air as shut in", bench.heat(round(found.enclosed_dew_c))),
        ("the pane in a usual clear night", bench.heat(round(found.night_pane_c))),
        ("a vented gap fogs in clear nights above a humidity of", f"{100 * found.fogs_above:.0f}\u2009%"),
        ("water through bead and back, a dry gap", show(found.grams_a_day, "g") + " a day"),
        ("until it is as damp as outside, all but a third", hours(24 * found.damp_days)),
        ("the desiccant takes it up for", hours(24 * found.desiccant_days)),
        ("molecular sieve for each clear year, sealed", grams(found.sieve_g_a_year)),
    ]
    lead = {
        "vented": "A vented gap fogs in clear nights and dries by day. Contacts corrode: expect years, not "
        "decades.",
        "sealed": f"Sealed, it stays clear for about {found.clear_years:.1f} years.",
    }
    return (
        Words(lead[found.gap], "lead"),
        words_table(("Fog", "Figure"), tuple(rows)),
        Words(_vent(found)),
    )


def _vent(found: Fog) -> str:
    if found.gap == "vented":
        return (
            "Vent at the lowest corner, a filter against insects and spray in it, never upward. Shut it in "
            "on a "
            "dry day."
        )
    parts = [
        "bake the desiccant out by its sheet",
        "shut the gap within the hour",
        "lay butyl inside the bead",
    ]
    return f"To keep it so: {listed(parts)}."
