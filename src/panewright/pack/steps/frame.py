"""Steps that make the frame and set the pane in it."""

from __future__ import annotations

import math

from panewright.drawing.sheet import Step
from panewright.frame.joining.rivet import Rivet
from panewright.frame.rail import Rail
from panewright.pack.bench import Bench, by_rule, count, told
from panewright.pack.figures.frame import diagonal_mm
from panewright.pack.pages import caution
from panewright.pack.setting_blocks import block_words
from panewright.price.needs import holes
from panewright.seal.quantity import bead_volume_ml, cartridges
from panewright.structure.corners.squareness import SQUARE_MM
from panewright.structure.drilling.fixing import BOARD, Joint

CURE_MM_A_DAY = 2.0  #: how fast one-part silicone cures inward from its free side; common practice
LEAST_CURE_DAYS = 3


def cut_rails(bench: Bench) -> Step:
    """Saw the rails."""
    frame = bench.design.structural.frame
    units = bench.design.order.job.units
    lengths = sorted({piece.length_mm for piece in frame.pieces}, reverse=True)
    ends = "square" if frame.corner == "lapped" else "45°, both ends"
    copes = [piece.cope_mm for piece in frame.pieces if piece.cope_mm > 0]
    back = f" Cut back the seats of bottom and top by {bench.size(max(copes))} at both ends." if copes else ""
    return Step(
        "Cut the rails",
        f"Saw {count(len(frame.pieces), 'rail')} of {frame.rail.name} as the cut list says; ends {ends}. "
        f"Trim the bar's end first; clamp a stop so that opposite rails come out alike.{back}",
        "Lay opposite rails back to back: no step at either end that a nail feels. Deburr every edge.",
        " and ".join(told(length, units) for length in lengths),
        bench.minutes("Cut the rails", "Cut back the seats"),
        caution.CHIPS,
    )


def drill_rails(bench: Bench) -> Step:
    """Mark and drill."""
    total = holes(bench.design)
    sizes = sorted(
        {hole.diameter_mm for piece in bench.design.structural.frame.pieces for hole in piece.holes}
    )
    return Step(
        "Mark and drill",
        "Hook the rule at the datum end and mark every hole of the rail before moving it. Centre-punch, "
        f"drill small, then to size: {', '.join(map(bench.drill, sizes))}.{_slotting(bench)}"
        f"{_threaded(bench)}",
        "Rails of one kind laid side by side: all holes in line. Deburr both sides.",
        f"{count(total, 'hole')} in all",
        bench.minutes("Mark, drill"),
        caution.CHIPS,
    )


def _threaded(bench: Bench) -> str:
    """That the holes of a board's screws are not drilled wider, where there are any."""
    if not bench.design.amounts.board_screws:
        return ""
    return f" Leave the holes S at {bench.drill(BOARD.hole_mm)}: the board's screws cut their thread in them."


def _slotting(bench: Bench) -> str:
    """How slots are made, where there are any."""
    long = bench.design.structural.frame.slot_mm
    if not long:
        return ""
    return (
        f" Slots along the rail: two holes {bench.size(long)} apart, one to either side of the mark; file "
        "away what stands between."
    )


def assemble_frame(bench: Bench) -> Step:
    """Corners and square."""
    frame = bench.design.structural.frame
    joined = _welding(frame.rail) if frame.joint is None else _clipping(bench, frame.joint)
    return Step(
        "Join the frame",
        f"{joined}{_boarded(bench)}",
        f"Measure both diagonals; they differ by no more than {bench.off(SQUARE_MM)}. No rocking on the "
        "bench.",
        f"both {by_rule(diagonal_mm(frame), bench.design.order.job.units)}",
        bench.minutes("Join the corners", "Weld the corners", "Cut the back board", "Drill and slit"),
        caution.WELD if frame.joint is None else "",
    )


def _boarded(bench: Bench) -> str:
    """The board behind an air gap, marked off the empty frame; nothing where there is none."""
    if not bench.design.amounts.board_screws:
        return ""
    return (
        " Then cut the back board, hold it to the empty frame, mark it through the holes S, and drill and "
        "slit it off the frame as the Closing page says."
    )


def _welding(rail: Rail) -> str:
    seam = "each mitre all round" if rail.profile == "tube" else "upright and seat of each mitre from outside"
    return (
        "Clamp all four corners flat and square on the bench, tack each, measure the diagonals, then weld "
        f"{seam}, opposite corners in turn. Grind flush only where the pane or a bracket comes."
    )


def _clipping(bench: Bench, joint: Joint) -> str:
    """How the clips are fastened, and what goes between unlike metals."""
    if isinstance(joint.fastener, Rivet):
        how = (
            "rivet a clip to both ends of bottom and top, two rivets in each leg, set the side rails on, "
            "square the frame, drill the clips through and rivet them"
        )
    else:
        how = "screw the corner clips finger tight, two screws in each leg, square the frame, then tighten"
    apart = (
        "Nylon washers under head and nut, jointing paste on shank and clip: salt eats aluminium round "
        "bare stainless."
        if bench.design.amounts.isolators
        else "A smear of grease on the threads: bare steel eats aluminium in the wet, so all is stainless "
        "or aluminium."
    )
    return f"On a flat bench, {how}. {apart}"


def clean_glass(bench: Bench) -> Step:
    """Glass ready for silicone."""
    pane = bench.design.structural.pane
    units = bench.design.order.job.units
    patterned = " Pattern to the cells, smooth face to the sun." if pane.sheet.surface == "patterned" else ""
    plastic = pane.sheet.material != "glass"
    wash = (
        "soapy water, then dry; no alcohol, no solvent"
        if plastic
        else "alcohol, two cloths, one wet and one dry"
    )
    return Step(
        "Clean the pane",
        f"Measure the pane. Clean both faces and the rim with {wash}.{patterned} Touch the rim no more "
        "after that.",
        "Breathe on it: the mist is even. Look along the edges for chips; a chipped tempered pane goes back.",
        f"{told(pane.long_mm, units)} × {told(pane.short_mm, units)}",
        bench.minutes("Clean the glass"),
        caution.GLASS_EDGE,
    )


def set_pane(bench: Bench) -> Step:
    """Bead and pane."""
    built = bench.design.structural
    bead, pane = built.bead, built.pane
    volume = bead_volume_ml(bead, pane.long_mm, pane.short_mm, pane.sheet.nominal_mm)
    number = cartridges(volume, bead)
    film = bench.design.order.parts.encapsulation == "film"
    again = "Wipe the bare rim once more. " if film else ""
    return Step(
        "Lay the bead and set the pane",
        f"{again}Spacers of {bench.size(bead.glue_line_mm)} on the seat; {block_words(bench)}. "
        f"One unbroken bead of {bead.sealant.name}, a little higher than the "
        "spacers. Lower the pane, press until it meets the spacers, fill the gap and tool it.",
        f"Gap at eight places: {bench.size(bead.gap_mm)} all round. Through the glass: no void, "
        f"{bench.size(bead.bite_mm)} of bead everywhere.",
        f"{bench.say(volume, 'ml')}, {count(number, 'cartridge')}",
        bench.minutes("Lay the bead", "Set the pane"),
        caution.VAPOUR,
    )


def cure_days(bite_mm: float) -> int:
    """Days until a bead has cured through from its free side.

    >>> cure_days(9.0)
    5
    """
    return max(LEAST_CURE_DAYS, math.ceil(bite_mm / CURE_MM_A_DAY))


def cure_bead(bench: Bench) -> Step:
    """Waiting, and what to do meanwhile."""
    days = cure_days(bench.design.structural.bead.bite_mm)
    meanwhile = " Meanwhile cut ribbon, tab the cells and string the columns."
    if bench.design.order.parts.encapsulation == "film":
        meanwhile = ""  # the cells lie in the pane already
    return Step(
        "Let the bead cure",
        "Leave the frame flat and unmoved in a room that is neither cold nor bone dry: silicone cures by "
        f"damp from its free side.{meanwhile}",
        "Press a fingernail into the trial bead made from the same cartridge, cut it: rubber all through.",
        f"about {days} days at {bench.size(CURE_MM_A_DAY)} a day",
        0.0,
    )
