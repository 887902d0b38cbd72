"""What else hangs on a panel: how much of each sundry one panel takes, and what of it stays there.

A use may be sold by the piece, the metre, the square metre, the kilogram or the litre; each use says how
much of each it takes. All amounts without a geometry behind them are common practice, no source. Of each
use the first row of the shelf that fits is taken. The panel's mass and the parts list read the same list.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache

from panewright.shelf.shelf import Row, Shelf, Sundry, Use
from panewright.structure.drilling.fixing import Joint, joint, rows_that_fit

LEADS_M = 1.8  #: both leads together
SEAM_FLUX_L = 0.0002  #: flux for one ribbon along one busbar
SEAM_SOLDER_KG = 0.00005  #: solder added where the ribbon's own coat does not do
JOINT_SOLDER_KG = 0.0004  #: solder on a bus joint
BACK_WASTE, FILM_WASTE, POUR_WASTE = 0.05, 0.10, 0.0  # the pour's own waste is in its mass
SLEEVE_WASTE = 0.10  #: of sleeve and film, cut to a little more than their place
BOX_DIODES = (2, 4, 6, 12)  #: diodes that the boxes of the shelf take, the smallest first
THIN_LEAD_A = 25.0  #: what the first lead on the shelf carries in a bundle in the sun
WELD_FILLER_KG = 0.006  #: filler rod in one corner
CORNER_JOINT = joint("screw M5")
FLUX_KG_L = 0.8  #: alcohol based
PATCH_KG = 0.05  #: silicone of a trial patch, once for an order that is poured
PIECES = frozenset({"each", "bar", "cartridge"})


@dataclass(frozen=True, slots=True)
class Closed:
    """What closes the panel, by name; nothing where the shelf's first of its use is taken."""

    pour: str = ""
    film: str = ""
    back: str = ""
    board_screw: str = ""
    film_kg_m2: float = 0.0
    back_kg_m2: float = 0.0


FIRST_OF_SHELF = Closed()


@dataclass(frozen=True, slots=True)
class Amounts:
    """What sundries are counted by, for one panel."""

    encapsulation: str
    back_m2: float  #: of what closes the back, as it is cut
    round_m: float
    pour_kg: float  #: mixed
    pour_l: float
    diodes: int
    corners: int
    corner_screws: int
    brackets: int
    drains: int
    seams: int  #: ribbons along busbars, both sides counted
    joints: int  #: on bus ribbons and leads
    isc_a: float
    blocks: int = 2  #: setting blocks under the low edge
    gap_mm: float = 6.0  #: that a block must fit into
    poured_share: float = 1.0  #: of the mix, that lies on the pane
    joint: Joint | None = CORNER_JOINT  #: of rails and corner clips; None where they are welded
    welds: int = 0  #: corners that are welded
    isolators: int = 0  #: fasteners with nylon washers and paste
    bracket_row: int = 0  #: which of the shelf's brackets
    clip_row: int = 0  #: which of the shelf's clips of that metal
    closed: Closed = FIRST_OF_SHELF
    board_screws: int = 0  #: that hold a board behind an air gap
    desiccant_kg: float = 0.0  #: in a sealed air gap
    vents: int = 0  #: of an air gap that breathes
    film_m2: float = 0.0  #: of both films of a laminate, as they are cut
    fillet_ml: float = 0.0  #: of sealant, that holds a back sheet on a pour
    sleeve_m: float = 0.0  #: over tails that run along the back
    plugs: int = 0  #: pairs of plug and socket on the leads
    ferrules: int = 0  #: pairs, with caps, on leads that end bare
    film_m: float = 0.0  #: strip of film, where ribbon crosses a bus


@dataclass(frozen=True, slots=True)
class Taken:
    """How one use is counted in each way it may be sold, and how much of it is lost."""

    use: Use
    by: Mapping[str, float]
    waste: float = 0.0
    stays: float = 1.0  #: share of the amount that is still there in the finished panel
    hole_mm: float | None = None  #: that it goes through, where not the use's own
    place: int = 0  #: which of the shelf's rows of that use; the last where there are fewer
    name: str = ""  #: of the row, where the design chose one by name
    kg_each: float = 0.0  #: of one in the first way it is counted, where the order describes its own


@dataclass(frozen=True, slots=True)
class Sold:
    """One use as the shelf sells it; no row where the shelf lacks it."""

    taken: Taken
    row: Row[Sundry] | None
    quantity: float
    sold_by: str

    @property
    def name(self) -> str:
        """Of the row, or of the use where the shelf has none."""
        return self.row.name if self.row else self.taken.name or self.taken.use

    @property
    def mass_kg(self) -> float:
        """What stays in one finished panel. [kg]"""
        each_kg = self.row.part.mass_kg if self.row else self.taken.kg_each
        return self.quantity * self.taken.stays * each_kg


@lru_cache(maxsize=128)
def sold(amounts: Amounts, shelf: Shelf) -> tuple[Sold, ...]:
    """Every sundry of one panel; kept, for mass, parts list and each number of panels ask for it."""
    wanted = (use for use in taken(amounts) if any(use.by.values()))  # many a panel lacks most of them
    found = (_sold(use, shelf, amounts.gap_mm) for use in wanted)
    return tuple(each for each in found if each.quantity > 0)


def _box(diodes: int) -> Taken:
    """The smallest box that takes the diodes; by its name alone where the shelf has none so large."""
    place = sum(diodes > most for most in BOX_DIODES)
    name = "" if place < len(BOX_DIODES) else f"junction box, {diodes} diodes"
    return Taken("box", {"each": 1}, place=place, name=name)


def taken(amounts: Amounts) -> Iterator[Taken]:
    """Every use of one panel."""
    yield from _fixed(amounts)
    yield _box(amounts.diodes)
    thick = int(amounts.isc_a > THIN_LEAD_A)
    yield Taken("lead", {"metre": LEADS_M}, place=thick)
    yield Taken("plug", {"each": amounts.plugs})
    yield Taken("ferrule", {"each": amounts.ferrules}, place=thick)
    yield Taken("sleeve", {"metre": amounts.sleeve_m}, SLEEVE_WASTE)
    yield Taken("crossing film", {"metre": amounts.film_m}, SLEEVE_WASTE)
    yield from _closed(amounts)
    flux_l = amounts.seams * SEAM_FLUX_L
    solder_kg = amounts.seams * SEAM_SOLDER_KG + amounts.joints * JOINT_SOLDER_KG
    yield Taken("flux", {"litre": flux_l, "kilogram": FLUX_KG_L * flux_l}, 0.2, stays=0.0)
    yield Taken("solder", {"kilogram": solder_kg}, 0.2)


def _fixed(amounts: Amounts) -> Iterator[Taken]:
    """What the frame and the bead take."""
    air = amounts.encapsulation == "air gap"
    yield from _corners(amounts)
    yield Taken("bracket", {"each": amounts.brackets}, place=amounts.bracket_row)
    yield Taken("bolt", {"each": amounts.brackets})
    yield Taken("drain", {"each": amounts.drains})
    yield Taken("earth", {"each": 1})
    yield Taken("block", {"each": amounts.blocks})
    yield Taken("tape", {"metre": amounts.round_m if air else 0.0}, 0.05)


def _corners(amounts: Amounts) -> Iterator[Taken]:
    """Clips and what fastens them, or the weld; washers where metals are kept apart."""
    joint = amounts.joint
    if joint:
        yield Taken(joint.clip_use, {"each": amounts.corners}, place=amounts.clip_row)
        fixing = joint.fixing
        yield Taken(fixing.use, {"each": amounts.corner_screws}, hole_mm=fixing.hole_mm)
    yield Taken("filler", {"kilogram": amounts.welds * WELD_FILLER_KG}, 0.2)
    yield Taken("isolator", {"each": amounts.isolators})


def _closed(amounts: Amounts) -> Iterator[Taken]:
    """What lies behind the cells."""
    poured, film = amounts.encapsulation == "silicone pour", amounts.encapsulation == "film"
    pour = {"kilogram": amounts.pour_kg, "litre": amounts.pour_l} if poured else {}
    names = amounts.closed
    share = amounts.poured_share
    yield Taken("encapsulant", pour, POUR_WASTE, stays=share, name=names.pour, kg_each=1.0)
    films = {"square metre": amounts.film_m2} if film else {}
    yield Taken("film", films, FILM_WASTE, name=names.film, kg_each=names.film_kg_m2)
    backs = {"square metre": amounts.back_m2}
    yield Taken("back sheet", backs, BACK_WASTE, name=names.back, kg_each=names.back_kg_m2)
    yield Taken("board screw", {"each": amounts.board_screws}, name=names.board_screw)
    yield Taken("desiccant", {"kilogram": amounts.desiccant_kg})
    yield Taken("vent", {"each": amounts.vents})
    yield Taken("label", {"each": 1})


def _sold(use: Taken, shelf: Shelf, gap_mm: float) -> Sold:
    rows = rows_that_fit(shelf, use.use, gap_mm, use.hole_mm)
    if use.name:
        rows = tuple(row for row in rows if row.name == use.name)
    if not rows:
        sold_by, quantity = next(iter(use.by.items()), ("each", 0.0))
        return Sold(use, None, quantity, sold_by)
    row = rows[min(use.place, len(rows) - 1)]
    return Sold(use, row, _quantity(use, row), row.sold_by)


def _quantity(use: Taken, row: Row[Sundry]) -> float:
    """Amount in the way the row is sold; a pack of unknown content counts as one a panel."""
    if row.sold_by in use.by:
        return use.by[row.sold_by]
    return 1.0 if row.sold_by in PIECES and any(use.by.values()) else 0.0
