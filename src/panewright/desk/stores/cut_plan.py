"""A cutting plan across open orders, and what it is made from."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from panewright.desk.stores.racks import Source
from panewright.price.buying.cuts_together import Begun, Known, Together, Tools

if TYPE_CHECKING:
    from panewright.ledger.stores.cuts import PieceCut

Units = Literal["metric", "us"]


@dataclass(frozen=True, slots=True)
class Asked:
    """An order to cut for: its text, and of how many panels what is cut already."""

    number: str
    text: str
    begun: Begun = field(default_factory=Begun)


@dataclass(frozen=True, slots=True)
class Job:
    """All that a plan is made from; a worker needs nothing else."""

    orders: tuple[Asked, ...]
    there: tuple[Source, ...]
    tools: Tools
    buys: bool
    cut: tuple[PieceCut, ...]
    buys_sheets: bool = False  #: also for panes that an order has cut to size by who sells them


@dataclass(frozen=True, slots=True)
class Plan:
    """A plan with what it was made for and from."""

    orders: tuple[str, ...]
    units: Units  #: of all orders; metric where they differ
    currency: str
    tools: Tools
    there: tuple[Source, ...]
    together: Together
    notes: tuple[str, ...] = ()
    counted: tuple[tuple[Known, int], ...] | None = (
        None  #: pieces that lay cut when it was made; None: not kept
    )
    unproven: tuple[str, ...] = ()  #: orders of which some check fails
    revisions: tuple[tuple[str, str], ...] = ()  #: each order with the revision of its design
    inches: tuple[str, ...] = ()  #: orders in inches, beside others in millimetres

    def units_of(self, order: str) -> Units:
        """In which a piece of an order is told."""
        return "us" if order in self.inches else self.units


def key_of(source: Source) -> str:
    """A source's name among all: the part and its key."""
    return f"{source.item}; {source.key}"


def proven(plan: Plan) -> dict[str, bool]:
    """Of each part, whether nothing costs less."""
    together = plan.together
    return {
        **{item: cuts.proven for item, cuts in together.bars},
        **{item: cuts.proven for item, cuts in together.sheets},
        **{item: cuts.proven for item, cuts in together.spools},
    }
