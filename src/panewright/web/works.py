"""Long work in a shop: plans, price lists, cells dealt and compared, arrays, records kept safe."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from typing import TYPE_CHECKING

from panewright.errors import PanewrightError, Problem
from panewright.web.doing import Doing
from panewright.web.work import Outcome, Words, Work

if TYPE_CHECKING:
    from panewright.desk.records.place import Place

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
_ARRAYS = Words(
    busy=Problem("Another array is being reckoned.", "Wait until it is done, or stop it."),
    stopped=Problem("It was stopped.", "Strings and limits are told without it; reckon it when you like."),
    gone=Problem("The work ended before the array was reckoned.", "Begin it again; nothing was changed."),
    cut_off=Problem(
        "The shop was closed before the array was reckoned.", "Begin it again; nothing was changed."
    ),
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
    """Work on the records as a whole: after it other records may stand.

    `renewed` tells whether they do, `place` where they lie.
    """

    def __init__(
        self, doing: Doing, words: Words, renewed: Callable[[], Awaitable[bool]], place: Callable[[], Place]
    ) -> None:
        super().__init__(doing, "records", words)
        self._renewed, self._place = renewed, place

    async def _ended(self, what: str, outcome: Outcome) -> None:
        from panewright.desk.records.keeping import tidy

        try:
            if await self._renewed():
                self.outcomes.clear()  # they told of other records
                outcome = outcome if outcome.came is not None else Outcome(outcome.at, problems=(_LATE,))
            await self._doing.asks(tidy, self._place())
        except PanewrightError as mistake:
            outcome = Outcome(outcome.at, problems=mistake.problems)
        finally:
            await super()._ended(what, outcome)


class Works:
    """All of them."""

    def __init__(
        self, doing: Doing, renewed: Callable[[], Awaitable[bool]], place: Callable[[], Place]
    ) -> None:
        self.cutting = Work(doing, "cutting", _PLANS)
        self.catalogue = Work(doing, "catalogue", _LISTS)
        self.dealing = Work(doing, "dealing", _DEALS)
        self.offers = Work(doing, "offers", _OFFERS)
        self.arrays = Work(doing, "arrays", _ARRAYS)
        self.records = KeptSafe(doing, _RECORDS, renewed, place)

    def recall(self) -> None:
        """What was cut off when the server ended last."""
        for each in (self.cutting, self.catalogue, self.dealing, self.offers, self.arrays, self.records):
            each.recall()
