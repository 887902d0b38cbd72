"""What is known of arrays by their texts: panels in the light of their year, and the year itself."""

from __future__ import annotations

from collections import OrderedDict
from typing import TYPE_CHECKING

from panewright.web.reckoner import digest, trim

if TYPE_CHECKING:
    from panewright.array.plan.tried import Basis, Outcome
    from panewright.desk.arrays.jobs import YearMade
    from panewright.desk.arrays.strings import Strings
    from panewright.errors import Problem


class Planned:
    """The newest arrays that somebody looked at."""

    def __init__(self) -> None:
        self._bases: OrderedDict[str, Basis] = OrderedDict()
        self._years: OrderedDict[str, YearMade] = OrderedDict()
        self._outcomes: OrderedDict[str, Outcome] = OrderedDict()
        self._refused: OrderedDict[str, tuple[Problem, ...]] = OrderedDict()

    def forget(self) -> None:
        """Let go of all that is known."""
        for kept in (self._bases, self._years, self._outcomes, self._refused):
            kept.clear()

    def basis(self, text: str) -> Basis | None:
        """The panels of a text, whatever its strings."""
        return self._bases.get(_key(text))

    def keep_basis(self, text: str, basis: Basis) -> None:
        """Keep them."""
        self._bases[_key(text)] = basis
        trim(self._bases)

    def year(self, text: str) -> YearMade | None:
        """The year of a text."""
        return self._years.get(digest(text))

    def keep_year(self, text: str, year: YearMade) -> None:
        """Keep it."""
        self._years[digest(text)] = year
        trim(self._years)

    def refused(self, text: str) -> tuple[Problem, ...]:
        """Why a text could not be reckoned."""
        return self._refused.get(digest(text), ())

    def refuse(self, text: str, problems: tuple[Problem, ...]) -> None:
        """Keep that it could not."""
        self._refused[digest(text)] = problems
        trim(self._refused)

    def drop(self, text: str) -> None:
        """Reckon it anew when next asked: what the records tell of its panels has changed."""
        self._bases.pop(_key(text), None)
        self._years.pop(digest(text), None)
        self._refused.pop(digest(text), None)
        self._outcomes.clear()

    def outcome(self, text: str, basis: Basis, strings: Strings) -> Outcome:
        """What strings would do; the same is not reckoned twice."""
        from panewright.array.plan.tried import tried
        from panewright.desk.arrays.strings import typed_of

        key = f"{_key(text)} {strings!r}"
        if key not in self._outcomes:
            self._outcomes[key] = tried(basis, typed_of(basis.site, strings))
            trim(self._outcomes)
        return self._outcomes[key]


def _key(text: str) -> str:
    from panewright.desk.arrays.strings import without_strings

    return digest(without_strings(text))
