"""The frame's corner drawn, and the clip that holds it as it is cut, bent and drilled."""

from __future__ import annotations

from functools import partial

from panewright.drawing.drawing import Drawing
from panewright.drawing.paper_size import Size
from panewright.drawing.sheet import Block, Page, Words
from panewright.frame.rail import Rail
from panewright.pack.bench import Bench
from panewright.pack.figures.clip import NAMES, clip_figure
from panewright.pack.figures.corner import corner_figure
from panewright.pack.figures.scale import figure, page_room
from panewright.pack.figures.titled import STRIP_MM, strip, title_of
from panewright.pack.pages.frame import corner_words, frame_tolerance
from panewright.structure.corners.clip_cut import ClipCut, clip_cut

_WORDS_MM = 22.0
CLIP_TOLERANCE_MM = 0.3  #: holes of a clip, from its datum; common practice


def corner_pages(bench: Bench) -> tuple[Page, ...]:
    """The corner; and its clip, where there is one."""
    clip = clip_cut(bench.design.structural.frame)
    return (_corner(bench), _clip(bench, clip)) if clip else (_corner(bench),)


def _room(bench: Bench) -> Size:
    return page_room(bench.design.order.job.paper, _WORDS_MM + STRIP_MM)


def _corner(bench: Bench) -> Page:
    design, units = bench.design, bench.design.order.job.units
    title = title_of(
        design,
        "Corner of the frame",
        material=rail_words(design.structural.rail),
        tolerance=frame_tolerance(bench),
    )
    blocks: tuple[Block, ...] = (
        Words(corner_words(bench)),
        figure(
            partial(corner_figure, design), _room(bench), "A corner; the others turned or mirrored", units
        ),
        strip(design, title),
    )
    return Page("Corner of the frame", blocks)


def rail_words(rail: Rail) -> str:
    """A rail with its alloy."""
    return f"{rail.name}, {rail.alloy}"


def _clip(bench: Bench, clip: ClipCut) -> Page:
    design, units = bench.design, bench.design.order.job.units
    title = title_of(design, NAMES[clip.kind], material=clip.clip.name, tolerance=clip_tolerance(bench))

    def drawn(text_mm: float) -> Drawing:
        return clip_figure(clip, text_mm, units)

    blocks: tuple[Block, ...] = (
        Words(_clip_words(bench, clip)),
        figure(drawn, _room(bench), NAMES[clip.kind], units),
        strip(design, title),
    )
    return Page("Corner clip to make", blocks)


def clip_tolerance(bench: Bench) -> str:
    """As a title block says it."""
    return f"holes ± {bench.off(CLIP_TOLERANCE_MM)} from the datum; deburr all round (common practice)"


def _clip_words(bench: Bench, clip: ClipCut) -> str:
    """How many, and how they are made."""
    panels = bench.design.order.job.panels
    number = 4 * panels
    every = f"{number} for this order, 4 for each panel."
    turn = "" if clip.alike else " All are cut alike; turned over, the same clip serves the mirrored corner."
    how = {
        "sawn": "Bought ready or sawn off a bar of angle; mark both legs from the outside of the heel.",
        "bent": (
            "Cut and drill the strip flat, then bend it once, up along the dashes, round a bar of the radius "
            "told. Bend one of scrap first and measure its legs: the bend of your own vice decides."
        ),
        "flat": "Cut the plate, clamp all of them together and drill them at once.",
    }[clip.kind]
    return f"{every} {how}{turn}"
