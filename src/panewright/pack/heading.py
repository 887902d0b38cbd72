"""What stands at the head of every paper of an order: its number and name, and whether it is proven."""

from __future__ import annotations

from panewright.panel.design import Design

NOT_PROVEN = "NOT PROVEN"


def stamp(design: Design) -> str:
    """What stands across every page; nothing where every check holds."""
    return "" if design.proven else NOT_PROVEN


def order_words(design: Design) -> str:
    """Number and name of the order, as on every page."""
    job = design.order.job
    return " ".join(part for part in (job.number, job.name) if part)
