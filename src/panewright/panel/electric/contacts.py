"""What a cell's fingers make of fewer tabs than busbars, told to the ribbon in its own terms."""

from __future__ import annotations

from panewright.cell.fingers import Fingers, finger_ohm, left_bare, ribbon_shares
from panewright.ribbon.cell import Contacts


def fewer_tabs(fingers: Fingers) -> tuple[Contacts, ...]:
    """Every number of tabs under that of the busbars, the most first."""
    bare = [left_bare(fingers.busbars, tabs) for tabs in range(fingers.busbars - 1, 0, -1)]
    with_all = finger_ohm(fingers)
    return tuple(
        Contacts(ribbon_shares(fingers, apart), finger_ohm(fingers, apart) - with_all) for apart in bare
    )
