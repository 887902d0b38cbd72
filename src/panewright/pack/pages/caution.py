"""What can hurt at this trade, worded once and shown wherever the hand is about to do it."""

from __future__ import annotations

from panewright.drawing.sheet import Block, Caution, Heading, Page, Words

GLASS_EDGE = (
    "Glass edges cut. Gloves and goggles; carry a pane upright, by its long sides, never flat overhead."
)
KNIFE = "A knife for board is sharp: cut away from the hand, along a straight edge of metal."
CHIPS = "Aluminium chips and burrs cut. Goggles; clamp the bar; deburr before the glass comes near."
PLASTIC = (
    "Plastic sheet: chips fly and edges are sharp. Goggles; its film stays on; clamp it on a flat bench, for "
    "a sheet that flutters cracks."
)
SOLDER = (
    "Hot iron, flux fumes and, where the ribbon is tinned with it, lead. Draw the fumes away; no food at "
    "the bench; wash hands before eating."
)
WELD = (
    "Welding: the arc blinds and burns, aluminium glows at no warning colour, fumes harm. Mask, gloves, air; "
    "nothing that burns near; a practised welder does it."
)
WAFER = "A cell breaks at a touch and its splinters are sharp. Goggles; never force a cell flat."
VAPOUR = (
    "Curing silicone gives off vapour; isocyanate kinds (polyurethane) harm the lungs for good. Air the "
    "room; gloves; a mask where the maker's safety sheet asks for one."
)
LIVE = (
    "A panel in light is live and cannot be switched off. Direct current does not let go and it arcs: "
    "cover the panel before touching bare ends; never part a connector that carries current."
)
LIVE_SHORT = "A panel in light is live and cannot be switched off; direct current does not let go and arcs."
SERIES = (
    "In series such panels may come to {}, and no switch takes that off them in light. Above 60 V it is no "
    "longer what dry hands bear: it can kill. In many places licensed people alone may join such strings."
)
HOT_SPOT = (
    "A shaded or cracked cell can heat until it starts a fire. Do not leave a doubtful panel short-circuited."
)
BATTERY = (
    "Batteries give off gas that explodes and short-circuit at hundreds of amperes. Fuse at the battery."
)
LFP_COLD = (
    "An LFP battery must not be charged below freezing: keep it where it never freezes, or take one whose "
    "own guard stops the charge."
)
CRATE = (
    "A load over {} is lifted by two, or by a truck; agree on the word, lift with the legs, gloves and boots."
)
CRATED_GLASS = "Glass in a crate: splinters when it falls, and no way to see it. Open it upright, goggles on."
ROOF = "Roofs and wind: a pane is a sail. Two people, a still day, and ropes; keep off a wet roof."
CARRIES = (
    "Wind pulls at what carries the panel as much as it pushes. The timber, steel, roof or ground behind it "
    "is not known here: show these forces to whoever answers for it. Local code and a licensed engineer "
    "decide."
)
NOT_LISTED = (
    "Hand-built panels are not listed or certified. Many places forbid them on buildings or on the grid: "
    "local code and a licensed person decide."
)
NO_CERTIFICATE = "These numbers are an aid to judgement, not a certificate."

ALL = (GLASS_EDGE, CHIPS, WAFER, SOLDER, VAPOUR, LIVE, HOT_SPOT, BATTERY, ROOF, NOT_LISTED)

PROVES = (
    "Each check compares what the place and the circuit ask of this panel with what its parts may bear, "
    "by the rule book or law named beside it.",
    "The figures hold for the parts written down here, at the sizes written down here, put together as "
    "the steps say.",
)
PROVES_NOT = (
    "That a joint is well made, a cell uncracked, a bead without a void: only inspection and measurement "
    "show that.",
    "That the ground, the roof, the timber or the steel behind the mounting bears the panel, or is as the "
    "order says; where the mounting is by others, only the panel with its brackets was looked at.",
    "Hail, impact, fire, salt and years of heat and damp.",
    "That it may be sold, insured, put on a building or joined to the grid.",
)


def caution_page(*, lfp: bool = False) -> Page:
    """All cautions on one page, then what the checks prove and what they do not."""
    blocks: list[Block] = [Caution(words, close=True) for words in (*ALL, *((LFP_COLD,) if lfp else ()))]
    blocks += [Heading("What the checks prove"), *(Words(words) for words in PROVES)]
    blocks += [Heading("What they do not prove"), *(Words(words) for words in PROVES_NOT)]
    return Page("Cautions", (*blocks, Words(NO_CERTIFICATE, "lead")))
