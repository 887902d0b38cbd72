"""How a carton is packed, step by step."""

from __future__ import annotations

from panewright.crate.crated import Crated
from panewright.drawing.sheet import Step, Steps
from panewright.pack.bench import Bench, count
from panewright.price.hours import minutes_of

_MINUTES = {  # as the price counts them
    "fold": minutes_of("Cut and fold the carton"),
    "foam": minutes_of("Cut the foam for the carton"),
    "wrap": minutes_of("Wrap the kits and put them into the carton"),
    "close": minutes_of("Fill, tape, weigh and mark the carton"),
}


def carton_steps(bench: Bench, crated: Crated) -> Steps:
    """From the sheets of board to the carrier, for one carton."""
    return Steps((_fold(), _foam(bench, crated), _wrap(crated), _close(bench, crated)))


def _fold() -> Step:
    return Step(
        "Cut and fold the carton",
        "Cut tray and lid as the table says. Score each wall’s fold with something blunt, notch the corners, "
        "fold the walls up and glue or tape the corner flaps inside. The lid goes over the whole tray.",
        "The lid slides over the tray to its foot; no fold has torn.",
        minutes=_MINUTES["fold"],
        tools=("knife", "straight edge", "blunt scoring tool", "tape"),
    )


def _foam(bench: Bench, crated: Crated) -> Step:
    thick = {each.side: bench.size(each.thickness_mm) for each in crated.padding}
    return Step(
        "Cut the foam and lay it in",
        f"Pads of {thick['face']} on floor and lid, {thick['edge']} along the long sides, {thick['end']} at "
        "the ends; where there are two or four they lie at the corners, one alone in the middle. Glue or "
        "tape each to the carton.",
        "Every pad bears on card, none on a bag of small parts.",
        minutes=_MINUTES["foam"],
    )


def _wrap(crated: Crated) -> Step:
    held = crated.loads[0][0]
    several = f" {count(held, 'kit')} lie one over another, foam blocks between them." if held > 1 else ""
    return Step(
        "Wrap the kit and put it in",
        "Small parts in bags and boxes, rails in one layer, card on all six sides, tape round it lengthwise "
        f"and across.{several}",
        "Nothing rattles or slides when the package is tilted; every line of the packing list is ticked.",
        minutes=_MINUTES["wrap"] * held,
    )


def _close(bench: Bench, crated: Crated) -> Step:
    people = {1: "one person", 2: "two people"}[crated.people]
    return Step(
        "Fill, close and weigh",
        "Crumpled paper into what is hollow, the papers on top. Lid on, tape round it twice across and once "
        f"lengthwise. Mass and address on its top. It is moved by {people}.",
        "Shaken, nothing is heard; the mass written on it is that of the scale.",
        expect=f"{bench.say(crated.gross_kg, 'kg')} by its parts.",
        minutes=_MINUTES["close"],
    )
