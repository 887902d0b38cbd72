"""What papers of a kit may claim: the drawings are proved, what somebody else builds or brings is not."""

from __future__ import annotations

from panewright.order.terms import Kit
from panewright.pack.bench import Bench, listed
from panewright.price.bill import Line

BUILT = (
    "The checks are of the drawings. This panel is built by somebody else: whoever builds it follows the "
    "assembly book, measures it and answers for it. No paper of this kit proves the panel that is built."
)
_ONLY_IF = (
    "The customer brings {}. The shop has not seen {}: every check in which {} counts holds only where {} "
    "what the order names, in size, thickness and kind."
)
_KINDS = {"cells": "cells", "glass": "glass", "ribbon": "ribbon"}
CELLS_BROUGHT = "Predicted at STC, for cells as ordered; the builder brought these: measure."


def claims(bench: Bench) -> tuple[str, ...]:
    """What stands beside the verdict on every paper of a kit; nothing for finished panels."""
    if not bench.design.order.kit.is_kit:
        return ()
    brought = [what(line) for line in bench.quote.brought]
    if not brought:
        return (BUILT,)
    one = len(brought) == 1
    words = ("it", "it", "it is") if one else ("them", "one of them", "they are")
    return BUILT, _ONLY_IF.format(listed(brought), *words)


def what(line: Line) -> str:
    """A part with what it is, where its name alone does not tell: 'cells 125 mm mono'."""
    kind = _KINDS.get(line.group, "")
    return line.name if kind.rstrip("s") in line.name else f"{kind} {line.name}"


def on_label(kit: Kit) -> str:
    """What the label of a kit says of cells that the shop did not choose."""
    return CELLS_BROUGHT if kit.is_kit and "cells" in kit.brings else ""
