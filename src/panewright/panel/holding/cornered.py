"""The corners of a design: their clip from the shelf, and what they are held against."""

from __future__ import annotations

from dataclasses import replace

from panewright.panel.holding.held import Held
from panewright.shelf.shelf import Shelf
from panewright.structure.corners.handled import Handled, clip_of
from panewright.structure.drilling.fixing import Joint, clips_for, joint, rows_that_fit
from panewright.structure.sundries import Amounts


def handled(held: Held, fastened: Joint | None, mass_kg: float) -> Handled:
    """The panel as it comes off the bench."""
    return Handled(
        pane=held.pane,
        bead=held.bead.bead,
        rail=held.rail,
        loads=held.loads,
        mass_kg=mass_kg,
        joint=fastened,
        at_corner=(held.frame.long.design.corner, held.frame.short.design.corner),
    )


def joint_of(fastener: str | None, shelf: Shelf) -> Joint | None:
    """The order's fastener with the first clip that goes with it; None where corners are welded."""
    if fastener is None:
        return None
    usual = joint(fastener)
    return replace(usual, clip=clips_for(shelf, usual)[0])


def with_holding_clip(held: Held, first: Joint | None, mass_kg: float, shelf: Shelf) -> Joint | None:
    """The same joint with the lightest clip that holds."""
    if first is None:
        return None
    return replace(first, clip=clip_of(handled(held, first, mass_kg), clips_for(shelf, first)))


def held_by(fastener: str | None, held: Held, mass_kg: float, shelf: Shelf) -> Joint | None:
    """That fastener with the lightest clip that holds."""
    return with_holding_clip(held, joint_of(fastener, shelf), mass_kg, shelf)


def with_clip(amounts: Amounts, shelf: Shelf) -> Amounts:
    """The same amounts, with the joint's own clip of the shelf's."""
    if amounts.joint is None:
        return amounts
    names = [row.name for row in rows_that_fit(shelf, amounts.joint.clip_use, amounts.gap_mm)]
    clip = amounts.joint.clip.name
    return replace(amounts, clip_row=names.index(clip)) if clip in names else amounts
