"""What a maker wants of a lot, as typed, and the same as the matching takes it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from itertools import accumulate, pairwise
from typing import TYPE_CHECKING, Literal, TypeVar, get_args

from panewright.cell.key_points import key_points
from panewright.errors import Problem, SheetError
from panewright.lots.matching.asked import (
    Aim,
    Asked,
    BestRemainder,
    Limits,
    MostMoney,
    MostReaching,
    MostWatts,
    Reverse,
    Step,
)
from panewright.lots.matching.doubt import Doubt, raised_w
from panewright.lots.matching.seats import Seats
from panewright.shelf.key import Fault, Key

if TYPE_CHECKING:
    from panewright.panel.design import Design

AimName = Literal["watts", "reach", "money", "remainder"]
AIMS: dict[AimName, str] = {
    "watts": "most watts in all",
    "reach": "most panels that reach a rating",
    "money": "most money by price steps",
    "remainder": "so many panels that reach a rating, the best cells left over",
}
MOST_STEPS = 12
MOST_STRINGS = 4000  #: that are soldered already
_RATING = Key("", "rating", "power", "", "95 W", least="0.001 W", most="100000 W")
_FROM = Key("", "step", "power", "", "95 W", least="0.001 W", most="100000 W")
_PRICE = Key("", "step", "money", "", "80.00")
_SURE = Key("", "sure", "share", "", "90 %", least="50 %", most="99.9 %")
_LEAKY = Key("", "leaky", "resistance", "", "5 ohm", least="0 ohm", most="100000 ohm")
_MOST = Key("", "reverse most", "power", "", "15 W", least="0.001 W", most="1000 W")
T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Wish:
    """As it is typed: quantities with their units, numbers as numbers."""

    aim: AimName = "watts"
    rating: str = ""
    steps: tuple[tuple[str, str], ...] = ()  #: from so many watts on, this price
    panels: int = 0  #: no more than these; 0: as many as there are cells for
    spares: int = 0
    leaky: str = ""  #: a cell whose shunt is below, as measured bare, is leaky
    most_leaky: int = 0
    reverse: bool = False  #: no cell where the others can break it down
    soldered: tuple[tuple[str, ...], ...] = ()  #: marks from the minus end
    seed: int = 1
    sure: str = (
        ""  #: the chance with which each panel shall reach its rating or step; '' for as it is reckoned
    )
    reverse_most: str = ""  #: watts that may go into a dark cell; '' for no limit but breakdown

    @property
    def words(self) -> str:
        """The aim in words."""
        sure = f", each with a chance of {self.sure}" if self.sure else ""
        if self.aim == "reach":
            return f"most panels that reach {self.rating}{sure}"
        if self.aim == "money":
            said = ", ".join(f"{price} from {watts}" for watts, price in self.steps)
            return f"most money: {said}{sure}"
        if self.aim == "remainder":
            count = "1 panel that reaches" if self.panels == 1 else f"{self.panels} panels that reach"
            return f"{count} {self.rating}{sure}, the best cells left over"
        return AIMS["watts"]


def counted_w(wish: Wish, price: str = "") -> float | None:
    """What a panel of this price counts for: the rating, or its step; None where nothing is. [W]"""
    if wish.aim == "watts":
        return None
    if wish.aim != "money":
        return float(_RATING.read(wish.rating))
    steps = sorted((float(_FROM.read(w)), _PRICE.read(p)) for w, p in wish.steps)
    same = [watts for watts, each in steps if price and each == Decimal(price)]
    return same[0] if same else steps[0][0]


def asked_of(wish: Wish, design: Design, marks: Sequence[str], doubt: Doubt | None = None) -> Asked:
    """The same for the matching; `SheetError` with every mistake in it.

    Where a chance is wished, ratings are raised by what a panel of the worst known cells may be off.
    """
    read = _Reader([])
    aim = read.surely(wish, read.aim(wish), doubt, len(design.layup.cells))
    limits = read.limits(wish, design)
    network = design.electrical.network
    if len(wish.soldered) > MOST_STRINGS:
        why = f"{len(wish.soldered)} soldered strings are too many: {MOST_STRINGS} at most."
        read.problems.append(Problem(why, "Match the lot in parts.", key="soldered"))
    read.problems += _soldered_problems(wish.soldered, set(marks), Seats.of(network))
    if read.problems or aim is None:
        raise SheetError(read.problems)
    return Asked(network, aim, limits, wish.soldered, wish.spares, wish.panels or None)


@dataclass(slots=True)
class _Reader:
    problems: list[Problem]

    def value(self, key: Key, typed: str, kind: type[T]) -> T | None:
        """What is typed behind a key; its fault is told."""
        try:
            value = key.read(typed)
        except Fault as fault:
            self.problems.append(Problem(fault.reason, fault.cure, key=key.name, value=typed[:60]))
            return None
        return value if isinstance(value, kind) else kind(value)  # type: ignore[call-arg]

    def aim(self, wish: Wish) -> Aim | None:
        if wish.aim not in get_args(AimName):
            cure = f"Write one of: {', '.join(AIMS)}."
            self.problems.append(Problem("There is no such aim.", cure, key="aim", value=str(wish.aim)[:40]))
            return None
        if wish.aim == "watts":
            return MostWatts()
        return self._money(wish) if wish.aim == "money" else self._rated(wish)

    def surely(self, wish: Wish, aim: Aim | None, doubt: Doubt | None, cells: int) -> Aim | None:
        """The same aim with each rating so high that a panel reaches what is asked with the chance wished."""
        if not wish.sure.strip() or aim is None:
            return aim
        if isinstance(aim, MostWatts):
            cure = "Choose an aim with a rating or steps, or leave the chance out."
            self.problems.append(Problem("Most watts has nothing to reach.", cure, key="sure"))
            return aim
        sure = self.value(_SURE, wish.sure, float)
        if sure is None or doubt is None:
            return aim
        own_w, common = doubt.worst_w(cells), doubt.common_share
        try:
            if isinstance(aim, MostMoney):
                return MostMoney(
                    tuple(Step(raised_w(s.from_w, sure, own_w, common), s.price) for s in aim.steps)
                )
            return replace(aim, rating_w=raised_w(aim.rating_w, sure, own_w, common))
        except ValueError:
            cure = "Ask for a smaller chance, or measure the light better."
            self.problems.append(Problem("The readings are too rough for that.", cure, key="sure"))
            return aim

    def _rated(self, wish: Wish) -> Aim | None:
        if not wish.rating.strip():
            cure = "Say what a panel must give, such as 95 W."
            self.problems.append(Problem("This aim needs a rating.", cure, key="rating"))
            return None
        watts = self.value(_RATING, wish.rating, float)
        if wish.aim == "remainder" and not wish.panels:
            why = "The best remainder is left by so many panels."
            self.problems.append(Problem(why, "Say how many panels are to be made.", key="panels"))
            return None
        if watts is None:
            return None
        return MostReaching(watts) if wish.aim == "reach" else BestRemainder(wish.panels, watts)

    def _money(self, wish: Wish) -> Aim | None:
        if not 0 < len(wish.steps) <= MOST_STEPS:
            cure = f"Say from how many watts on a panel earns how much, in {MOST_STEPS} steps at most."
            said = f"Here are {len(wish.steps)}." if wish.steps else "Here is none."
            self.problems.append(Problem(f"Money is reckoned by price steps. {said}", cure, key="step"))
            return None
        rows = [(self.value(_FROM, w, float), self.value(_PRICE, p, Decimal)) for w, p in wish.steps]
        steps = [Step(w, p) for w, p in rows if w is not None and p is not None and p > 0]
        if len(steps) < len(rows):
            if not self.problems:
                self.problems.append(Problem("A step earns nothing.", "Leave it out.", key="step"))
            return None
        steps.sort(key=lambda step: step.from_w)
        if not all(a.from_w < b.from_w and a.price < b.price for a, b in pairwise(steps)):
            why = "More watts must earn more money from step to step."
            self.problems.append(Problem(why, "Put the steps right.", key="step"))
            return None
        return MostMoney(tuple(steps))

    def limits(self, wish: Wish, design: Design) -> Limits:
        """A leaky cell is one by its bare shunt; behind the cover every shunt is so much larger."""
        bare = self.value(_LEAKY, wish.leaky, float) if wish.leaky.strip() else 0.0
        if wish.spares < 0 or wish.most_leaky < 0 or wish.panels < 0:
            self.problems.append(Problem("Less than none cannot be.", "Write 0 or more.", key="spares"))
        if wish.seed < 0:
            cure = "Write 0 or more."
            self.problems.append(Problem("A seed is no less.", cure, key="seed", value=str(wish.seed)))
        return Limits(
            (bare or 0.0) / design.electrical.light,
            max(0, wish.most_leaky),
            self.reverse(wish, design) if wish.reverse or wish.reverse_most.strip() else None,
        )

    def reverse(self, wish: Wish, design: Design) -> Reverse:
        """The others of a substring on the coldest morning, as for the diodes of the design."""
        from panewright.enclosure.bypass import FIRST_DROP_V
        from panewright.panel.electric.electrical import read_cells

        most = self.value(_MOST, wish.reverse_most, float) if wish.reverse_most.strip() else None
        given = key_points(design.electrical.network.strings[0].substrings[0].cells[0]).isc_a
        return Reverse(
            read_cells(design.order).cold_voc_v, FIRST_DROP_V, given, float("inf") if most is None else most
        )


def _soldered_problems(soldered: Sequence[Sequence[str]], marks: set[str], seats: Seats) -> Iterator[Problem]:
    """Cells that are not there or in two strings, and strings that fit no panel."""
    seen: set[str] = set()
    fit = _lengths(seats)
    for number, string in enumerate(soldered, 1):
        key = f"soldered string {number}"
        for mark in string:
            if mark not in marks:
                cure = "Write it as the table of cells has it, or leave it out of the string."
                yield Problem("This cell is not in the lot.", cure, key=key, value=mark[:40])
            elif mark in seen:
                yield Problem("This cell sits in two places.", "Look again.", key=key, value=mark[:40])
            seen.add(mark)
        if len(string) > max(seats.substrings) and len(string) not in fit:
            sizes = ", ".join(map(str, sorted(fit)))
            why = f"{len(string)} soldered cells are no part of this panel."
            cure = f"A string lies within {max(seats.substrings)} cells of a diode or fills them: {sizes}."
            yield Problem(why, cure, key=key)


def _lengths(seats: Seats) -> set[int]:
    """Lengths that fill one substring or several that follow each other."""
    return {total for string in seats.strings for k in range(len(string)) for total in accumulate(string[k:])}
