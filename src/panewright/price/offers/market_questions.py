"""What a market may ask of whoever sells a panel: questions, with what the design answers to each.

No answer here is advice on law. Limits are named with the text they were read in or recalled from; texts
change, and a country may ask more. Local law, the insurer and a licensed person decide.

[IEC] IEC 61140 and IEC 60364-4-41: direct current up to 120 V without ripple is extra-low voltage; 60 V is
      where dry skin is taken to need no guard, 30 V where wet (recalled).
[LVD] Directive 2014/35/EU: electrical equipment from 75 V to 1500 V direct current (recalled).
[GPS] Regulation (EU) 2023/988 on general product safety: consumer goods outside of other texts (recalled).
[ROHS] Directive 2011/65/EU: lead to 0.1 % by mass of each homogeneous material; article 2(4)(i) leaves out
      panels for systems that professionals design, assemble and install for good at one place (recalled).
[WEEE] Directive 2012/19/EU: panels are waste equipment; whoever first places one on a market registers,
      marks it and pays for taking it back (recalled).
[NEC] NFPA 70 article 690: equipment for PV systems is listed (690.4), conductors on or in buildings
(recalled).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from panewright.enclosure.rating import TOUCH_V
from panewright.panel.design import Design
from panewright.price.offers.quote import Quote

EDGE_V, LVD_V, EXTRA_LOW_V = 50.0, 75.0, 120.0
_LEAD = "Pb"


@dataclass(frozen=True, slots=True)
class Question:
    """One thing that may be asked."""

    topic: str
    asked: str
    answer: str  #: what this design says to it
    source: str


def questions(design: Design, made: Quote) -> tuple[Question, ...]:
    """All of them, in the order in which they are met."""
    return tuple(_questions(design, made))


def _questions(design: Design, made: Quote) -> Iterator[Question]:
    yield _voltage(cold_voc_v(design), design.label.system_v)
    yield _lead(made)
    yield _waste(design)
    yield _building(design)
    yield Question(
        "type test",
        "Does the buyer, the grid or the installer ask for a listed or type-tested panel?",
        "No. This panel is built by hand and is neither; its checks are reckoned, not tested. It cannot be "
        "sold "
        "as one that is.",
        "IEC 61215 and IEC 61730, UL 61730; NEC 690.4 (recalled)",
    )
    yield Question(
        "insurance",
        "Does the maker's cover bear a claim for fire, a falling pane or a shock years later? Does the "
        "buyer's "
        "building insurer allow the panel?",
        "The design cannot say. Ask both in writing before it is sold; show them the book.",
        "no text; ask the insurer",
    )


def cold_voc_v(design: Design) -> float:
    """Open-circuit voltage of one panel at the record cold. [V]"""
    study = design.electrical.string
    return next(row.cold_voc_v for row in study.rows if row.cells == study.chosen)


def _voltage(cold_v: float, label_v: float) -> Question:
    """By which side of 50, 60, 75 and 120 V the panel stands; several in series stand higher."""
    told = f"One panel reaches {cold_v:.0f}\u2009V on the coldest morning. "
    if cold_v <= EDGE_V:
        told += "That is below 50 V and 60 V: dry hands are taken to need no guard; it still arcs and burns. "
    elif cold_v <= TOUCH_V:
        told += "That is past 50 V, where some laws begin, and not past 60 V. "
    else:
        told += (
            "That is past 60 V: bare parts are not to be touched in any light, and connectors that cannot be "
        )
        told += "parted under load by hand may be asked for. "
    told += "From 75 V the low-voltage directive may apply. " if cold_v < LVD_V else _past_75(cold_v)
    told += "Panels in series add their volts: ask again for the whole string. "
    told += f"The label lets a string come to {label_v:.0f}\u2009V."
    asked = "Which voltage class is it, and what changes at 50, 60, 75 and 120 V direct current?"
    return Question("voltage", asked, told, "IEC 61140, IEC 60364-4-41; 2014/35/EU; (EU) 2023/988 (recalled)")


def _past_75(cold_v: float) -> str:
    told = "It is past 75 V: the low-voltage directive may ask for a file, a declaration and a mark. "
    if cold_v > EXTRA_LOW_V:
        told += "It is past 120 V: no longer extra-low voltage. "
    return told


def _lead(made: Quote) -> Question:
    """Whether anything on the parts list is known to hold lead."""
    soldered = [line for line in (*made.lines, *made.brought) if line.use in ("tab", "bus", "solder")]
    leaded = [line.name for line in soldered if _LEAD in line.name]
    known = f"{' and '.join(leaded)} hold{'s' if len(leaded) == 1 else ''} lead." if leaded else ""
    plain = known or "No part names lead."
    return Question(
        "lead",
        "Is there lead in the solder, and does the law on hazardous substances reach this panel?",
        f"{plain} What coats the ribbons stands on their data sheet; common coats hold lead. A panel that "
        "professionals install for good at one place may stand outside of that law; one for a boat, a cart "
        "or "
        "a kit may not.",
        "2011/65/EU, article 4 and 2(4)(i) (recalled)",
    )


def _waste(design: Design) -> Question:
    longest = max(design.structural.pane.long_mm, design.structural.pane.short_mm)
    size = "longer" if longest > 500.0 else "no longer"
    return Question(
        "waste",
        "Who registers as the producer, marks the panel and pays for taking it back?",
        f"Whoever sells it first in a country is asked, also for one panel. A side is {size} than 50 cm, "
        "which "
        "sorts it into large or small equipment.",
        "2012/19/EU (recalled)",
    )


def _building(design: Design) -> Question:
    area = design.structural.pane.long_mm * design.structural.pane.short_mm * 1e-6
    return Question(
        "building and fire",
        "Does the place ask for a permit, a fire class of the roof covering, or glass over heads that holds "
        "together when broken?",
        f"A pane of {area:.2f}\u2009m², {design.structural.pane.sheet.name}; no fire class is known. The "
        "wind and "
        "snow it was reckoned for stand in the book.",
        "local building code; NEC 690 for wiring on buildings (recalled)",
    )
