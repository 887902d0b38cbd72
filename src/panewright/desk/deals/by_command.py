"""What the commands ask of a lot and an order: matched, kept in a folder, asked again, changed."""

from __future__ import annotations

import shlex
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING

from panewright.desk.deals import dealing, papers, proofs, swapping, told
from panewright.desk.deals.deal import Deal, from_text
from panewright.desk.deals.soldered import from_column
from panewright.desk.deals.soldered import from_text as soldered_text
from panewright.desk.deals.wish import Wish
from panewright.desk.designed import designed
from panewright.desk.lots import kinds, stood, table
from panewright.desk.lots.settled import Settled
from panewright.errors import FolderError, Problem, SheetError

if TYPE_CHECKING:
    from panewright.intake.cells import CellRows
    from panewright.lots.matching.matched import Matched
    from panewright.lots.matching.proof.certificate import Certificate
    from panewright.panel.design import Design


@dataclass(frozen=True, slots=True)
class Lot:
    """Where a lot's cells stand, and what is said of them beside their readings."""

    file: Path
    mapping: Path | None = None
    cell: str = ""  #: their kind on the shelf; '' for the order's
    left_out: tuple[str, ...] = ()
    remarked: tuple[str, ...] = ()  #: words of remarks whose cells are left out
    soldered: Path | None = None
    column: str = ""  #: of strings that are soldered already
    beside: table.Beside = field(default_factory=table.Beside)  #: what is said of light and errors


@dataclass(frozen=True, slots=True)
class Dealt:
    """A deal with its design, ready to be asked."""

    deal: Deal
    design: Design
    matched: Matched
    bound: Certificate | None = None  #: with its proof, where it was matched just now

    def proof(self) -> bytes:
        """What proves the bound, as a file of its own."""
        if self.bound is None:
            raise ValueError("a deal that was kept has no proof with it")
        return proofs.as_text(self.bound).encode()

    def files(self) -> dict[str, bytes]:
        """Its papers and itself."""
        return papers.files(self.design, self.deal, self.matched)


def match(order: Path, lot: Lot, wish: Wish, panels: int | None = None) -> Dealt:
    """The lot's cells put into the order's panels, as many as it asks for where nothing is said."""
    from panewright import desk

    text = desk.read(order)
    design = desk.design(text, order.name).design
    rows, soldered = _read(lot)
    count = design.order.job.panels if panels is None else panels
    told_wish = replace(wish, panels=count, soldered=soldered or wish.soldered)
    kind = lot.cell or (design.order.cell.name if design.order.cell.name in kinds.names() else "")
    out = [Settled(mark, "leave out") for mark in (*lot.left_out, *_remarked(rows, lot))]
    _refuse_parted(soldered, {each.mark for each in out})
    standing = stood.stand(rows, kind, out)
    made, bound = dealing.proven_deal(design, order.name, (lot.file.name, standing), told_wish)
    return Dealt(made, design, dealing.revived(made, design), bound)


def _read(lot: Lot) -> tuple[CellRows, tuple[tuple[str, ...], ...]]:
    """The rows, and the strings that are soldered already."""
    kept = table.mapping_text(lot.mapping) if lot.mapping else ""
    looked = table.look(table.file_bytes(lot.file), lot.file.name, kept, str(lot.mapping), lot.beside)
    rows = looked.read()
    if missing := [mark for mark in lot.left_out if mark not in set(rows.marks)]:
        cure = "Write a mark as the table has it."
        problem = Problem("This lot has no such cell.", cure, key="leave out", value=missing[0][:40])
        raise SheetError([problem])
    if lot.soldered:
        return rows, soldered_text(table.mapping_text(lot.soldered), str(lot.soldered))
    return rows, from_column(looked.sheet, rows, lot.column) if lot.column else ()


def _refuse_parted(soldered: tuple[tuple[str, ...], ...], out: set[str]) -> None:
    """A soldered string cannot go in without one of its cells."""
    cure = (
        "Let the cell in, or leave out the whole string: unsay that it is soldered, and leave out each cell."
    )
    problems = [
        Problem(
            "This cell is left out, the string it is soldered into is not.", cure, key=key, value=mark[:40]
        )
        for key, string in ((f"soldered string {n}", each) for n, each in enumerate(soldered, 1))
        for mark in string
        if mark in out
    ]
    if problems:
        raise SheetError(problems)


def _remarked(rows: CellRows, lot: Lot) -> tuple[str, ...]:
    """Cells whose remark has one of these words in it; `SheetError` for words that no remark has."""
    found: dict[str, None] = {}
    for word in lot.remarked:
        pairs = zip(rows.marks, rows.remarks, strict=True)
        those = [mark for mark, remark in pairs if word.casefold() in remark.casefold()]
        if not those or not word.strip():
            cure = "Write a part of a remark as the table has it."
            raise SheetError([Problem("No remark says this.", cure, key="leave out remark", value=word[:40])])
        found |= dict.fromkeys(those)
    return tuple(found)


def opened(place: Path) -> tuple[Dealt, Path]:
    """A deal that was kept, and its folder."""
    file = place / papers.DEAL if place.is_dir() else place
    deal = from_text(_text(file, "Name the folder that `panewright lot match` wrote."), str(file))
    design = designed(deal.order, deal.file).design
    return Dealt(deal, design, dealing.revived(deal, design)), file.parent


def refuse_exchanged(folder: Path) -> None:
    """A deal whose cells broke is not written over: nothing else tells which they are."""
    file = folder / papers.DEAL
    if not file.is_file():
        return
    try:
        before = from_text(_text(file, "Choose another folder with --to."), str(file))
    except SheetError:
        return  # no deal: nothing of an exchange stands in it
    if before.swaps:
        out = " ".join(f"--leave-out {shlex.quote(mark)}" for mark in before.gone)
        why = (
            f"is a deal in which cells were exchanged since ({len(before.swaps)} times): matched anew over "
            "it, which of them broke would be lost, and they would be dealt again."
        )
        cure = f"Choose another folder with --to{f', and add {out}' if out else ''}; nothing was changed."
        raise FolderError([Problem(why, cure, file=str(file))])


def _text(file: Path, cure: str) -> str:
    try:
        return file.read_text("utf-8", "replace")
    except (OSError, ValueError) as reason:
        why = f"cannot be read: {getattr(reason, 'strerror', None) or reason}."
        raise FolderError([Problem(why, cure, file=str(file))]) from reason


def checked(place: Path, proof: Path) -> proofs.Checked:
    """Whether the bound of a deal that was kept is proven by a file."""
    dealt, _ = opened(place)
    text = _text(proof, "Name the file that `panewright lot match --proof` wrote.")
    return proofs.checked(dealt.deal, dealt.matched, proofs.from_text(text, str(proof)))


def swapped(dealt: Dealt, mark: str, into: str, why: str) -> Dealt:
    """The deal with another cell in that place."""
    made = swapping.swapped(dealt.deal, dealt.matched, mark, into, why)
    return Dealt(made, dealt.design, dealing.revived(made, dealt.design))


def steps_of(typed: Sequence[str]) -> tuple[tuple[str, str], ...]:
    """Price steps as typed, '95 W = 80.00'.

    >>> steps_of(["95 W = 80.00"])
    (('95 W', '80.00'),)
    """
    found = [each.partition("=") for each in typed]
    if wrong := [each for each, (_, mark, price) in zip(typed, found, strict=True) if not (mark and price)]:
        cure = 'Write from how many watts on, and the price: "95 W = 80.00".'
        raise SheetError([Problem("This is no price step.", cure, key="step", value=wrong[0][:40])])
    return tuple((watts.strip(), price.strip()) for watts, _, price in found)


def told_left(dealt: Dealt) -> tuple[str, ...]:
    """What is left over and why."""
    return tuple(told.of_left(dealt.deal, dealt.matched))
