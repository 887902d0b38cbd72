"""What the records say of breakage, waste and hours, as the next quote takes it."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterator
from decimal import Decimal
from functools import lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from panewright.ledger.open import Ledger
    from panewright.price.actuals import Actuals, PanelTook, Taken

_DESIGNS = 64  #: whose work is kept in mind


def actuals(ledger: Ledger) -> Actuals:
    """The shop's own figures, for `desk.design`; nothing in them where nothing was told."""
    from panewright.pack.steps.work import WORK
    from panewright.price.actuals import Actuals, pace

    panels = tuple(_panels(ledger))
    found = (pace(keys, work, panels) for keys, work in WORK)
    return Actuals(tuple(_taken(ledger)), tuple(each for each in found if each is not None))


def _taken(ledger: Ledger) -> Iterator[Taken]:
    """Items that were lost or used; the item's name is the part's name on the shelf."""
    from panewright.ledger.actuals import losses
    from panewright.price.actuals import Taken

    for each in losses(ledger):
        yield Taken(each.item, each.unit, each.used, each.lost)


def _panels(ledger: Ledger) -> Iterator[PanelTook]:
    """The panels begun last of which minutes were told and whose design is known."""
    from panewright.ledger.actuals import minutes_of_panels
    from panewright.ledger.designs import figures_of
    from panewright.price.actuals import PanelTook

    minutes: dict[tuple[str, int], dict[str, Decimal]] = defaultdict(dict)
    for each in minutes_of_panels(ledger):
        minutes[each.serial, each.design][each.step] = each.minutes
    known = {key: figures_of(ledger, key) for key in {design for _, design in minutes}}
    for (_, design), told in minutes.items():
        yield PanelTook(told, dict(_counts(known[design])))


@lru_cache(_DESIGNS)
def _counts(figures: str) -> tuple[tuple[str, Decimal], ...]:
    """How much of each kind of work is in one panel of a design; nothing where it was kept otherwise."""
    from panewright.price.hours import one_panel

    try:
        quote = json.loads(figures)["quote"]
        return tuple(one_panel(((each["step"], each["count"]) for each in quote["work"]), quote["panels"]))
    except (KeyError, TypeError, ValueError, ArithmeticError):
        return ()
