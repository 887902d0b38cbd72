"""What is said of a deal: each panel, what it was held against, what is left over and why."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from functools import partial
from typing import TYPE_CHECKING

from panewright.desk.deals.curves import KeyFigures
from panewright.desk.deals.deal import Against, Deal, DealtPanel, Swap
from panewright.desk.deals.doubted import doubt_words, doubted
from panewright.errors import Problem, RecordError
from panewright.price.money import amount
from panewright.units.showing import show

if TYPE_CHECKING:
    from panewright.circuit.place import CellAt
    from panewright.lots.matching.matched import Matched

MOST_WHYS, _FEW_WHYS = 12, 3  #: of the cells left over, the strongest: it is of those that one asks
_MANY_SEATS = 1000  # each reason tries every seat: of more seats fewer are told unasked
_KEYS = ("Isc", "Voc", "Imp", "Vmp")
_WATTS = 5  # digits of a panel's power: what matching brings is a few thousandths


@dataclass(frozen=True, slots=True)
class Compared:
    """One line of what a deal was held against."""

    what: str
    value: str
    note: str = ""


def watts(value: float, digits: int = _WATTS) -> str:
    """Watts as every page of a deal writes them.

    >>> watts(98.7654)
    '98.765\\u2009W'
    """
    return show(value, "W", digits=digits)


def per_cent(share: float) -> str:
    """A small share.

    >>> per_cent(0.0123)
    '1.23 %'
    """
    return f"{100 * share:.2f} %"


def lost(panel: DealtPanel) -> tuple[str, str]:
    """What the cells lose by not being alike, and in ribbon and leads, as shares of their own watts.

    Of a deal that was kept before they were told apart both together stand in the first place.
    """
    if not panel.bare_w:
        return f"{per_cent(1 - panel.power_w / panel.own_w)} with ribbon", ""
    ribbon = (panel.bare_w - panel.power_w) / panel.own_w
    return per_cent(1 - panel.bare_w / panel.own_w), per_cent(ribbon)


def lost_words(panel: DealtPanel) -> str:
    """The same in a line."""
    mismatch, ribbon = lost(panel)
    return f"lost {mismatch} by mismatch, {ribbon} in ribbon and leads" if ribbon else f"lost {mismatch}"


def score_words(deal: Deal, score: tuple[float, ...]) -> str:
    """A score in the aim's own words."""
    if not score:
        return "nothing"
    first, aim = score[0], deal.wish.aim
    if aim == "watts":
        return watts(first)
    if aim == "money":
        return money(Decimal(f"{first / 100:.2f}"), deal.currency)
    return f"{panels(first)}, {watts(score[1])}{'' if aim == 'reach' else ' left over'}"


def panels(number: float) -> str:
    """Panels in words.

    >>> panels(1.0), panels(1.4167)
    ('1 panel', '1.42 panels')
    """
    return "1 panel" if number == 1 else f"{number:.3g} panels" if number % 1 else f"{number:.0f} panels"


def money(value: str | Decimal, currency: str) -> str:
    """A price as it is written everywhere.

    >>> money("240", "EUR")
    '240.00\\u2009EUR'
    """
    return amount(Decimal(value), currency)


def bound_words(deal: Deal) -> str:
    """The bound in the aim's own words."""
    value, kind = deal.against.bound, deal.against.bound_kind
    if deal.wish.aim == "money":
        return money(Decimal(f"{value / 100:.2f}"), deal.currency)
    if deal.wish.aim == "watts":
        return watts(value)
    return panels(value) if deal.wish.aim == "reach" or kind == "panels" else watts(value)


def compared(deal: Deal) -> tuple[Compared, ...]:
    """This deal beside sorting, chance and the bound."""
    against, what = deal.against, "As matched" if deal.swaps else "This deal"
    return (
        Compared(what, score_words(deal, against.score), _closed(against)),
        Compared("Plain sorting", score_words(deal, against.sorting), "by current, the strongest first"),
        Compared("At random", score_words(deal, against.chance), "the mean of several seeded deals"),
        Compared("Proven bound", bound_words(deal), _bound_note(deal)),
    )


def _closed(against: Against) -> str:
    if against.bound_kind == "exhausted":
        return "every way was tried: there is no better one"
    if against.closed == 1 and against.score == against.sorting:
        return "plain sorting comes to the bound already"
    return f"{against.closed:.0%} of the way from sorting to the bound"


def _bound_note(deal: Deal) -> str:
    if deal.against.bound_kind == "exhausted":
        return "what it gives itself"
    if deal.wish.aim == "remainder" and deal.against.bound_kind != "panels":
        return "no deal of these cells leaves more over"
    return "no deal of these cells comes to more"


def sentence(deal: Deal) -> str:
    """The whole in a sentence."""
    made, left = sum(each.power_w for each in deal.panels), len(deal.left)
    if not deal.panels:
        return "No panel can be made so."
    over = "1 cell is left over" if left == 1 else f"{left} cells are left over"
    return f"{panels(len(deal.panels))}, {watts(made)} in all; {over}."


def of_deal(deal: Deal) -> Iterator[str]:
    """The report at the command."""
    yield f"Lot {deal.lot}: {len(deal.marks)} cells, taken for {deal.kind}."
    yield from deal.said
    yield f"Aim: {deal.wish.words}."
    yield sentence(deal)
    if deal.panels:
        yield from _table(deal)
        yield from _curves(deal)
        yield "Mismatch is what its cells lose by not being alike, ribbon what is lost in joints and leads."
        yield from doubt_words(deal)
    width = max(len(each.value) for each in compared(deal))
    yield from (f"  {each.what:13} {each.value:>{width}}  ({each.note})" for each in compared(deal))


def _table(deal: Deal) -> Iterator[str]:
    columns: list[tuple[int, str, list[str]]] = [
        (7, "panel", [str(number) for number in range(1, len(deal.panels) + 1)]),
        (12, "gives", [watts(each.power_w) for each in deal.panels]),
        *_doubts(deal),
        (14, "cells alone", [watts(each.own_w) for each in deal.panels]),
        (11, "mismatch", [lost(each)[0] for each in deal.panels]),
        (9, "ribbon", [lost(each)[1] for each in deal.panels]),
    ]
    if any(each.price for each in deal.panels):
        columns.append((14, "price", [money(each.price, deal.currency) for each in deal.panels]))
    widths = [width for width, _, _ in columns]
    for row in zip(*((head, *column) for _, head, column in columns), strict=True):
        yield "".join(f"{each:>{width}}" for each, width in zip(row, widths, strict=True))


def _curves(deal: Deal) -> Iterator[str]:
    """Where each panel's curve begins, bends and ends."""
    yield "".join(f"{head:>{width}}" for head, width in zip(("panel", *_KEYS), (7, *[10] * 4), strict=True))
    for number, each in enumerate(deal.panels, 1):
        key = KeyFigures.of(each)
        yield f"{number:>7}" + "".join(f"{words:>10}" for words in (key.isc, key.voc, key.imp, key.vmp))


def _doubts(deal: Deal) -> Iterator[tuple[int, str, list[str]]]:
    """How well each panel is known, where the deal tells it."""
    known = [each for each in doubted(deal) if each is not None]
    if known:
        yield 10, "own sd", [each.own for each in known]
        yield 12, "common sd", [each.common for each in known]
    if any(each.reaches for each in known):
        yield 11, "reaches", [each.reaches for each in known]


def of_left(deal: Deal, matched: Matched) -> Iterator[str]:
    """What is left over, the strongest cells first, each with its reason."""
    if not deal.left:
        yield "No cell is left over."
        return
    strongest = by_power(deal, matched)
    yield f"Left over: {len(deal.left)}, the strongest first."
    most = whys(deal)
    for mark in strongest[:most]:
        yield f"  {why_words(matched, mark)}"
    if len(strongest) > most:
        rest = ", ".join(strongest[most : most + 2 * MOST_WHYS])
        yield f"  and {rest}{', ...' if len(strongest) > most + 2 * MOST_WHYS else ''}"


def whys(deal: Deal) -> int:
    """How many of the cells left over are explained unasked."""
    return MOST_WHYS if sum(len(each.cells) for each in deal.panels) <= _MANY_SEATS else _FEW_WHYS


def by_power(deal: Deal, matched: Matched) -> tuple[str, ...]:
    """Cells left over, the strongest first."""
    power = dict(zip(matched.lot.marks, matched.lot.power_w.tolist(), strict=True))
    return tuple(sorted(deal.left, key=lambda mark: -power[mark]))


def why_words(matched: Matched, mark: str) -> str:
    """Why a cell is where it is, places numbered as on the drawings: on through all strings."""
    from panewright.lots.matching.explain import why

    return why(matched, mark).told(partial(_drawn, matched.rules.seats.length))


def reason_words(matched: Matched, mark: str) -> str:
    """The same without saying where it is, for a column of a list that says it."""
    from panewright.lots.matching.explain import why

    return why(matched, mark).told_reason(partial(_drawn, matched.rules.seats.length))


def _drawn(in_series: int, place: CellAt) -> str:
    return f"place {place.string * in_series + place.number}"


def of_cell(deal: Deal, matched: Matched, mark: str) -> str:
    """Why a cell is where it is."""
    known(deal, mark)
    for each in reversed(deal.swaps):
        if each.out == mark and mark in deal.gone:
            why_out = f": {each.why}" if each.why else ""
            return f"Cell {mark} was taken out of panel {each.panel}, place {each.place}{why_out}."
    remarks = [f" {each}" for each in deal.said if each.startswith(f"Cell {mark}: ")]
    return "".join([why_words(matched, mark), *remarks])


def swap_words(swap: Swap) -> str:
    """What was changed at one place."""
    why_out = f" ({swap.why})" if swap.why else ""
    return f"Panel {swap.panel}, place {swap.place}: {swap.into} instead of {swap.out}{why_out}."


def known(deal: Deal, mark: str) -> None:
    """A cell of the lot, or what is wrong with the mark."""
    if mark not in deal.marks:
        from panewright.shelf.key import nearest

        cure = f"Write a mark as the table has it.{nearest(mark, deal.marks)}"
        raise RecordError([Problem("This lot has no such cell.", cure, key="cell", value=mark[:40])])
