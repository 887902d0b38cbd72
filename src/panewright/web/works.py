"""The kinds of long work in a shop: plans, price lists, cells dealt and compared, records kept safe."""

from __future__ import annotations

from typing import TYPE_CHECKING

from panewright.errors import PanewrightError, Problem
from panewright.web.work import Outcome, Words, Work

if TYPE_CHECKING:
    from panewright.web.floor import Floor

_PLANS = Words(
    busy=Problem("Another plan is being made.", "Wait until it is done, or stop it."),
    stopped=Problem("It was stopped.", "No plan was made."),
    gone=Problem("The work ended before the plan was done.", "Make it again; nothing was changed."),
    cut_off=Problem("The shop was closed before the plan was done.", "Make it again; nothing was changed."),
)
_LISTS = Words(
    busy=Problem("Another catalogue is being reckoned.", "Wait until it is done, or stop it."),
    stopped=Problem("It was stopped.", "The range is kept below; reckon it again when you like."),
    gone=Problem("The work ended before it was done.", "Begin it again."),
    cut_off=Problem(
        "The shop was closed before every size was reckoned.", "The range is kept below; reckon it again."
    ),
)
_DEALS = Words(
    busy=Problem("Another lot is being matched.", "Wait until it is done, or stop it."),
    stopped=Problem("It was stopped.", "No cell was dealt."),
    gone=Problem("The work ended before the lot was matched.", "Begin it again; nothing was changed."),
    cut_off=Problem(
        "The shop was closed before the lot was matched.", "Begin it again; nothing was changed."
    ),
)
_OFFERS = Words(
    busy=Problem("Other offers are being compared.", "Wait until it is done, or stop it."),
    stopped=Problem("It was stopped.", "The offers are kept below; compare them again when you like."),
    gone=Problem("The work ended before it was done.", "Begin it again."),
    cut_off=Problem("The shop was closed before this was done.", "The offers are kept below."),
)
_RECORDS = Words(
    busy=Problem("Something else is being done with the records.", "Wait until it is done, or stop it."),
    stopped=Problem("It was stopped.", "Nothing was changed."),
    gone=Problem("The work ended before it was done.", "Begin it again; nothing was half done."),
    cut_off=Problem(
        "The shop was closed before this was done.", "See how the records stand, and begin it again."
    ),
)
_LATE = Problem(
    "The backup was put back before it could be stopped.", "What stood before is the newest backup."
)


class KeptSafe(Work):
    """Work on the records as a whole: after it other records may stand."""

    async def _ended(self, what: str, outcome: Outcome) -> None:
        from panewright.desk.records.keeping import tidy

        try:
            if await self._floor.renewed():
                self.outcomes.clear()  # they told of other records
                outcome = outcome if outcome.came is not None else Outcome(outcome.at, problems=(_LATE,))
            await self._floor.asks(tidy, self._floor.place)
        except PanewrightError as mistake:
            outcome = Outcome(outcome.at, problems=mistake.problems)
        finally:
            await super()._ended(what, outcome)


class Works:
    """All of them."""

    def __init__(self, floor: Floor) -> None:
        self.cutting = Work(floor, "cutting", _PLANS)
        self.catalogue = Work(floor, "catalogue", _LISTS)
        self.dealing = Work(floor, "dealing", _DEALS)
        self.offers = Work(floor, "offers", _OFFERS)
        self.records = KeptSafe(floor, "records", _RECORDS)

    def recall(self) -> None:
        """What was cut off when the server ended last."""
        for each in (self.cutting, self.catalogue, self.dealing, self.offers, self.records):
            each.recall()
