"""An order and a lot become a deal; a deal that was kept becomes what can be asked again."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from panewright.cell.curve import current_a, voltage_v
from panewright.cell.diodes import Diodes
from panewright.cell.key_points import KeyPoints, key_points
from panewright.cell.peak import peak
from panewright.cell.root import Array
from panewright.desk.deals.deal import Against, Deal, DealtPanel
from panewright.desk.deals.held import Barred
from panewright.desk.deals.wish import Wish, asked_of
from panewright.desk.lots import kinds
from panewright.desk.lots.stood import Stood
from panewright.desk.progress import at
from panewright.errors import Problem, SheetError
from panewright.lots.matching.asked import Aim, MostWatts
from panewright.lots.matching.doubt import Doubt
from panewright.lots.matching.match import bench, match
from panewright.lots.matching.matched import Matched, Panel, Seat
from panewright.lots.matching.plans.making import Made
from panewright.lots.matching.plans.scoring import Steps, price
from panewright.lots.matching.proof.certificate import Certificate
from panewright.lots.matching.seats import Seats
from panewright.lots.matching.spares import breaks, spares_of
from panewright.lots.matching.unmade import hindered, unmade
from panewright.lots.standing.covered import covered
from panewright.lots.standing.less import without
from panewright.lots.standing.standing import Standing
from panewright.panel.design import Design

_DIGITS = 10
_REMARKS = 40  # of a lot that are told with a deal
_STOOD = 40  # percent of the work are done when cells go to panels
_NAMED = 12  # spares that are named
_NOTHING_BARRED = Barred()


def deal(
    design: Design, file: str, lot: tuple[str, Stood], wish: Wish, *, barred: Barred = _NOTHING_BARRED
) -> Deal:
    """The lot's cells, less those barred, put into the panels; `SheetError` for what cannot be asked."""
    return proven_deal(design, file, lot, wish, barred=barred)[0]


def proven_deal(
    design: Design, file: str, lot: tuple[str, Stood], wish: Wish, *, barred: Barred = _NOTHING_BARRED
) -> tuple[Deal, Certificate]:
    """The same with what proves its bound."""
    name, stood = lot
    here = without(stood.standing, barred.marks)
    if not here.marks:
        raise SheetError(
            [Problem("No cell of this lot is left.", _cure("Take another lot", barred), key="cells")]
        )
    behind = _rounded(covered(here, design.electrical.light))
    doubt = Doubt(np.array([float(f"{x:.4g}") for x in behind.power_sd_w.tolist()]), here.common_share)
    asked = asked_of(wish, design, behind.marks, doubt)
    _enough(design, behind, wish, barred)
    at(_STOOD)
    matched = match(behind, asked, wish.seed, far=lambda share: at(_STOOD + round((90 - _STOOD) * share)))
    at(90)
    made = Deal(
        order=design.order.text,
        file=file,
        lot=name,
        kind=stood.kind,
        wish=wish,
        marks=behind.marks,
        figures=tuple(map(tuple, behind.cells.table.tolist())),
        panels=tuple(panel_of(each) for each in matched.panels),
        against=_against(matched),
        currency=design.order.job.currency if wish.aim == "money" else "",
        said=(
            *_said(design, stood, barred),
            *_raised(wish, asked.aim),
            *_spares(wish, matched),
            *_unmade(matched),
        ),
        sd_w=tuple(doubt.own_w.tolist()),
        common_share=doubt.common_share,
        grades=_words(stood, stood.grades, behind.marks),
        remarks=_words(stood, stood.remarks, behind.marks),
    )
    return made, matched.bound


def _words(stood: Stood, words: tuple[str, ...], marks: tuple[str, ...]) -> tuple[str, ...]:
    """What is written of these cells of the lot; empty where nothing is of any."""
    of = dict(zip(stood.standing.marks, words, strict=False))
    found = tuple(of.get(mark, "") for mark in marks)
    return found if any(found) else ()


def panel_of(panel: Panel) -> DealtPanel:
    """A matched panel as a deal keeps it."""
    points = panel.points
    told = "" if panel.price is None else f"{panel.price:f}"
    cells = tuple(seat.mark for seat in panel.seats)
    key = points.isc_a, points.voc_v, points.imp_a
    return DealtPanel(cells, points.power_w, panel.own_w, *key, told, panel.bare_w, panel.curve)


def _rounded(lot: Standing) -> Standing:
    """Figures with no more digits than a deal keeps, so that one kept and read again gives the same watts."""
    table = [[float(f"{x:.{_DIGITS}g}") for x in row] for row in lot.cells.table.tolist()]
    return _standing(lot.marks, np.array(table), lot)


def _standing(marks: tuple[str, ...], table: Array, before: Standing | None = None) -> Standing:
    """A lot by its curves alone."""
    cells, none = Diodes.of_table(table), np.zeros(len(marks))
    top = peak(cells)
    ends = current_a(cells, none), voltage_v(cells, none), top.imp_a, top.vmp_v, top.power_w
    rest = (none, top.power_w, top.power_w, none, none, none)
    if before is not None:
        rest = (
            before.power_sd_w,
            before.power_low_w,
            before.power_high_w,
            before.imp_sd_a,
            before.shunt_sd,
            before.readings,
        )
    return Standing(marks, cells, *ends, *rest)


def _cure(cure: str, barred: Barred) -> str:
    """With the cells that are left out and need not be."""
    deals = ", ".join(each.words for each in barred.held)
    return f"{cure}, or let the cells of open deals be dealt again. {deals}." if deals else f"{cure}."


def _enough(design: Design, lot: Standing, wish: Wish, barred: Barred) -> None:
    """Cells of another kind, or too few for one panel."""
    need, spared = len(design.layup.cells), f" with {wish.spares} to spare" if wish.spares else ""
    theirs = float(np.median(lot.isc_a))
    ours = key_points(design.electrical.network.strings[0].substrings[0].cells[0]).isc_a
    if not kinds.LIKE[0] < theirs / ours < kinds.LIKE[1]:
        why = f"The lot's cells give {theirs:.3g} A behind the cover, those of the order {ours:.3g} A."
        cure = "Name the order that these cells are for, or settle the unit of their currents."
        raise SheetError([Problem(why, cure, key="cells")])
    if len(lot.marks) - wish.spares < need:
        why = f"The lot has {len(lot.marks)} cells; one panel takes {need}{spared}."
        cure = _cure("Take a larger lot, or an order of fewer cells", barred)
        raise SheetError([Problem(why, cure, key="cells")])


def _against(matched: Matched) -> Against:
    return Against(
        matched.score,
        matched.sorted_score,
        matched.random_score,
        matched.bound.value,
        matched.bound.kind,
        float(matched.closed),
    )


def _said(design: Design, stood: Stood, barred: Barred) -> Iterator[str]:
    """What a maker should know of the lot before it is laid, first of all how sure its level is."""
    yield from stood.standing.said
    yield from barred.said
    if stood.kind != design.order.cell.name:
        yield f"The lot is taken for {stood.kind}; the order is of {design.order.cell.name}."
    if stood.suspects:
        yield from (f"Of the lot: {each.reason}" for each in stood.suspects if not each.mark)
        if count := len({each.mark for each in stood.suspects if each.mark}):
            yield f"Cells that are suspected of something: {count}. They are taken as they stand."
        remarks = [each for each in stood.suspects if each.kind == "remark"]
        yield from (f"Cell {each.mark}: {each.reason}" for each in remarks[:_REMARKS])
        if len(remarks) > _REMARKS:
            yield f"And {len(remarks) - _REMARKS} more cells are remarked: the list of the lot has them all."


def _raised(wish: Wish, aim: Aim) -> Iterator[str]:
    """For what it was dealt, where a chance was wished."""
    if wish.sure and not isinstance(aim, MostWatts):
        dealt = ", ".join(f"{each:.1f}\u2009W" for each in Steps.of(aim).ratings_w)
        yield (
            f"To reach that with {wish.sure}, panels were dealt for {dealt}: as much more as the readings of "
            "the worst known cells, and all readings together, may be off."
        )


def _spares(wish: Wish, matched: Matched) -> Iterator[str]:
    """Which of the cells left over are spares, and what a break costs with them."""
    if not wish.spares or not matched.panels:
        return
    there = [matched.lot.marks[k] for k in spares_of(matched)]
    if len(there) < wish.spares:
        yield (
            f"Spares wished: {wish.spares}. Of the cells left over only {len(there)} may take any place; the "
            "others leak, are soldered, or would break down."
        )
    costs = breaks(matched)
    if costs:
        worst = min(costs, key=lambda each: each.change_w)
        missed = sum(not each.earns for each in costs)
        yield (
            f"Spares that fit any place, the strongest first: {', '.join(there[:_NAMED])}. Where a cell of "
            f"middling watts breaks, a panel loses {-worst.change_w:.3f}\u2009W at most with the best "
            f"(panel {worst.panel + 1}). Panels that then miss what they count for: {missed} of {len(costs)}."
        )


def _unmade(matched: Matched) -> Iterator[str]:
    """The panel that is not made of what is left over, and why."""
    found = unmade(matched)
    if found is None:
        yield from _hindered(matched)
        return
    words = f"The strongest of the cells left over would make one more panel of {found.power_w:.3f}\u2009W"
    if found.lacks_w and found.rating_w:
        yield f"{words}, {found.lacks_w:.3f}\u2009W short of {found.rating_w:.5g}\u2009W."
    else:
        yield f"{words}; no more panels were asked for."


def _hindered(matched: Matched) -> Iterator[str]:
    """Which limits keep cells that would be enough out of one more panel."""
    found, most = hindered(matched), matched.asked.panels
    if found is None or (most is not None and len(matched.panels) >= most):
        return
    bars = (
        (found.leaky, f"leaky, of which one diode may span {matched.rules.most_leaky}"),
        (found.driven, "such that the others of a substring could drive them too far in the shade"),
        (found.soldered, "in soldered strings, which go in whole"),
    )
    why = "; ".join(f"{count} are {words}" for count, words in bars if count)
    if why:
        lead = "No more panels can be filled, in the order of currents"
        yield f"{lead}, of the {found.cells} cells left over: {why}."


def revived(deal: Deal, design: Design) -> Matched:
    """A kept deal as the matching gave it, with what was changed since."""
    lot = _standing(deal.marks, np.array(deal.figures, dtype=float))
    asked = asked_of(deal.wish, design, deal.marks, Doubt(np.array(deal.sd_w), deal.common_share))
    maker = bench(lot, asked)
    where = {mark: k for k, mark in enumerate(deal.marks)}
    count = len(design.layup.cells)
    if any(len(each.cells) != count or not set(each.cells) <= set(where) for each in deal.panels):
        why = "Its panels are not those of its order."
        raise SheetError([Problem(why, "Match the lot again.", key="deal")])
    seats = np.array([[where[mark] for mark in each.cells] for each in deal.panels], dtype=np.int64)
    seats = seats.reshape(-1, count)
    panels = tuple(_panel(each, maker.rules.seats, asked.aim) for each in deal.panels)
    watts = np.array([each.power_w for each in deal.panels])
    made = Made(seats[:, :0], seats, watts, deal.against.score)
    bound = Certificate(deal.against.bound, deal.against.bound_kind, (), (), len(panels), ())
    scores = deal.against.score, deal.against.sorting, deal.against.chance
    return Matched(panels, deal.left, *scores, bound, lot, asked, maker, made)


def _panel(each: DealtPanel, seats: Seats, aim: Aim) -> Panel:
    seated = tuple(Seat(seats.place(k), mark) for k, mark in enumerate(each.cells))
    points = KeyPoints(each.isc_a, each.voc_v, each.imp_a, each.power_w / each.imp_a)
    return Panel(seated, points, each.own_w, each.bare_w, price(aim, each.power_w), each.curve)
