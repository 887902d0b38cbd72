"""What the records say of breakage, waste and hours, as the next quote takes it."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterator
from decimal import Decimal
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from panewright.ledger.open import Ledger
    from panewright.price.actuals import Actuals, PanelTook, Taken

_MOVED_BY = (
    "step",
    "hours",
    "stock",
    "serials",
    "cut",
)  #: kinds of changes after which the figures may be others
Counts: TypeAlias = dict[int, dict[str, Decimal]]  #: by design: how much of each kind of work is in one panel


class OwnFigures:
    """The shop's own figures for whoever asks often; read again once something that moves them is written."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger, self._at, self._counted = ledger, -1, Counts()
        self._found: Actuals | None = None

    def now(self) -> Actuals:
        """As they stand."""
        from panewright.ledger.changes import newest

        at = newest(self._ledger)
        if self._found is None or self._moved(at):
            self._found = actuals(self._ledger, self._counted)
        self._at = at
        return self._found

    def forget(self) -> None:
        """Other records stand now: numbers of changes and designs begin anew."""
        self._found = None
        self._counted.clear()

    def _moved(self, at: int) -> bool:
        from panewright.ledger.changes import MOST, since

        if at - self._at >= MOST:
            return True
        return at > self._at and any(each.kind in _MOVED_BY for each in since(self._ledger, self._at))


def actuals(ledger: Ledger, counted: Counts | None = None) -> Actuals:
    """The shop's own figures, for `desk.design`; nothing in them where nothing was told.

    `counted` keeps what was read of designs, which never change, for whoever asks again.
    """
    from panewright.pack.steps.work import WORK
    from panewright.price.actuals import Actuals, pace

    panels = tuple(_panels(ledger, {} if counted is None else counted))
    found = (pace(keys, work, panels) for keys, work in WORK)
    return Actuals(tuple(_taken(ledger)), tuple(each for each in found if each is not None))


def _taken(ledger: Ledger) -> Iterator[Taken]:
    """Parts that were lost or used, by their names on the shelf; panes of all sizes together."""
    from panewright.ledger.stores.actuals import losses
    from panewright.price.actuals import Taken
    from panewright.price.buying.panes import without_size

    sums: dict[tuple[str, str], tuple[Decimal, Decimal]] = {}
    for each in losses(ledger):
        part = without_size(each.item), each.unit
        used, lost = sums.get(part, (Decimal(0), Decimal(0)))
        sums[part] = used + each.used, lost + each.lost
    for (name, unit), (used, lost) in sums.items():
        yield Taken(name, unit, used, lost)


def _panels(ledger: Ledger, counted: Counts) -> Iterator[PanelTook]:
    """The panels begun last of which minutes were told and whose design is known."""
    from panewright.ledger.orders.designs import figures_of
    from panewright.ledger.stores.actuals import minutes_of_panels
    from panewright.price.actuals import PanelTook

    minutes: dict[tuple[str, int], dict[str, Decimal]] = defaultdict(dict)
    for each in minutes_of_panels(ledger):
        minutes[each.serial, each.design][each.step] = each.minutes
    for (_, design), told in minutes.items():
        if design not in counted:
            counted[design] = _counts(figures_of(ledger, design))
        yield PanelTook(told, counted[design])


def _counts(figures: str) -> dict[str, Decimal]:
    """How much of each kind of work is in one panel of a design; nothing where it was kept otherwise."""
    from panewright.price.hours import one_panel

    try:
        quote = json.loads(figures)["quote"]
        return dict(one_panel(((each["step"], each["count"]) for each in quote["work"]), quote["panels"]))
    except (KeyError, TypeError, ValueError, ArithmeticError):
        return {}
