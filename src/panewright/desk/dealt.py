"""Measured cells and their deals, as functions that another process can be asked for by name."""

from __future__ import annotations

from typing import TYPE_CHECKING

from panewright.desk.designed import designed
from panewright.desk.progress import at

if TYPE_CHECKING:
    from panewright.desk.deals.held import Barred
    from panewright.desk.deals.seen import CellSeen
    from panewright.desk.deals.wish import Wish
    from panewright.desk.lots.looked import Looked
    from panewright.desk.lots.ranked import OffersSeen
    from panewright.desk.lots.seen import Weighed
    from panewright.desk.lots.settled import Settled
    from panewright.intake.cells import CellRows


def cells_looked(data: bytes, name: str, mapping: str = "") -> Looked:
    """A table of measured cells: its columns, and its readings where none is open."""
    from panewright.desk.lots.looked import looked

    return looked(data, name, mapping)


def cells_weighed(rows: CellRows, kind: str, settled: tuple[Settled, ...]) -> Weighed:
    """A lot of measured cells as it stands."""
    from panewright.desk.lots.seen import weigh

    return weigh(rows, kind, settled)


def cells_listed(kept: bytes, name: str) -> bytes:
    """Every cell of a weighed lot as a list: CSV or XLSX by its name."""
    from panewright.desk.lots.listed import content
    from panewright.desk.lots.seen import stood_of

    return content(stood_of(kept), name)


def cells_not_read(data: bytes, name: str, mapping: str, to: str) -> bytes:
    """Every row of a table that was not read, as a list; of the table itself, as records keep only some."""
    from panewright.desk.lots.listed import bad_content
    from panewright.desk.lots.table import look

    return bad_content(look(data, name, mapping).read(), to)


def deal_made(order: tuple[str, str], lot: str, kept: bytes, wish: Wish, barred: Barred) -> str:
    """A weighed lot, less the cells barred, dealt to the panels of an order, as a deal is kept."""
    from panewright.desk.deals.deal import as_text
    from panewright.desk.deals.dealing import deal
    from panewright.desk.lots.seen import stood_of

    at(5)
    text, file = order
    design = designed(text, file).design
    at(30)
    return as_text(deal(design, file, (lot, stood_of(kept)), wish, barred=barred))


def deal_cell(text: str, mark: str, taken: tuple[str, ...]) -> CellSeen:
    """One cell of a deal: why it is where it is, and what may take its place."""
    from panewright.desk.deals.seen import cell_seen

    return cell_seen(text, mark, taken)


def deal_swapped(text: str, mark: str, into: str, why: str) -> str:
    """A deal with another cell in one place, as a deal is kept."""
    from panewright.desk.deals.seen import swapped_text

    return swapped_text(text, mark, into, why)


def deal_paper(text: str, name: str) -> bytes:
    """One paper of a deal by its name."""
    from panewright.desk.deals.deal import from_text
    from panewright.desk.deals.dealing import revived
    from panewright.desk.deals.papers import file

    deal = from_text(text)
    at(20)
    design = designed(deal.order, deal.file).design
    at(50)
    return file(design, deal, revived(deal, design), name)


def offers_ranked(text: str, order: str, file: str, panels: int, caution: float) -> OffersSeen:
    """Offers of cells ranked for the panels of an order."""
    from panewright.desk.lots.ranked import ranked_for

    return ranked_for(text, order, file, panels, caution)
