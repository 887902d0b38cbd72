"""What the page of an array shows: words and pictures, ready to be set, and nothing to reckon with."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from panewright.errors import PanewrightError, Problem

if TYPE_CHECKING:
    from panewright.array.plan.tried import Basis, Outcome
    from panewright.desk.arrays.strings import Strings
    from panewright.desk.orders.shown import Bar
    from panewright.order.site.site import Site, Wished


@dataclass(frozen=True, slots=True)
class Tile:
    """A panel to be put into a string."""

    name: str
    id: str
    told: tuple[str, ...]  #: its watts and volts; where it lies until they are known
    label: str  #: all of it, for those who hear the page
    serial: bool  #: whether the records hold it


@dataclass(frozen=True, slots=True)
class Place:
    """A place of a string, from 1."""

    to: str  #: as a page sends it
    number: int
    tile: Tile | None  #: None for the free one at its plus end


@dataclass(frozen=True, slots=True)
class StringShown:
    """One string from minus to plus."""

    letter: str
    input: int
    places: tuple[Place, ...]
    told: str  #: its volts in cold and heat
    fuse: str


@dataclass(frozen=True, slots=True)
class Board:
    """All strings of an array, and what lies in none."""

    strings: tuple[StringShown, ...]
    out: tuple[Tile, ...]
    inputs: tuple[int, ...]  #: of the controller


@dataclass(frozen=True, slots=True)
class Limits:
    """What strings would do, at once."""

    holds: bool
    sentence: str
    figures: tuple[tuple[str, str], ...]
    failing: tuple[Bar, ...]
    nearest: tuple[Bar, ...]
    checks: tuple[Bar, ...]
    fuses: tuple[tuple[str, str], ...]  #: string, sentence
    wires: tuple[tuple[str, str, str], ...]  #: run, conductor, what it loses
    wire_says: str


_NEAREST = 4
_LEAST_TOLD = 1e-3


def mistakes(name: str, text: str) -> tuple[Problem, ...]:
    """Every mistake in an array's text."""
    from panewright.order.site.parse import parse_site

    try:
        parse_site(text, f"{name}.toml")
    except PanewrightError as mistake:
        return mistake.problems
    return ()


def board(site: Site, strings: Strings, basis: Basis | None, outcome: Outcome | None) -> Board:
    """The strings with their tiles."""
    from panewright.desk.arrays.strings import left_out

    tiles = {tile.name: tile for tile in _tiles(site, basis)}
    shown = tuple(
        _string(number, each.input, [tiles[name] for name in each.panels], site, outcome)
        for number, each in enumerate(strings)
    )
    out = tuple(tiles[name] for name in left_out(site, strings))
    return Board(shown, out, tuple(range(1, site.box.inputs + 1)))


def _tiles(site: Site, basis: Basis | None) -> Sequence[Tile]:
    from panewright.order.site.site import BySerial

    tiles = []
    for number, panel in enumerate(site.panels):
        lies = _where(site, panel)
        told = _watts(basis, number, site.named.units) if basis else (lies,)
        label = f"Panel {panel.name}, {', '.join(dict.fromkeys((*told, lies)))}"
        ours = isinstance(panel.known, BySerial)
        tiles.append(Tile(panel.name, f"tile-{number}", told, label, ours))
    return tiles


def _watts(basis: Basis, number: int, units: str) -> tuple[str, str]:
    from panewright.units import show

    panel = basis.panels[number]
    return show(panel.member.rated_w, "W", units), show(panel.plate.vmp_v, "V", units)


def _where(site: Site, panel: Wished) -> str:
    return f"{site.stands[panel.stand].name}, {panel.column + 1} across, {panel.row + 1} up"


def _string(
    number: int, at_input: int, tiles: Sequence[Tile], site: Site, outcome: Outcome | None
) -> StringShown:
    from panewright.array.sign import sign_of

    places = [Place(f"{number + 1}-{p}", p, tile) for p, tile in enumerate(tiles, 1)]
    places.append(Place(f"{number + 1}-{len(tiles) + 1}", len(tiles) + 1, None))
    told, fuse = _volts(outcome, number, site.named.units)
    return StringShown(sign_of(number), at_input, tuple(places), told, fuse)


def _volts(outcome: Outcome | None, number: int, units: str) -> tuple[str, str]:
    """Cold and hot volts of a string, and its fuse."""
    from panewright.units import show

    if outcome is None or number >= len(outcome.strings):
        return "", ""
    each = outcome.strings[number]
    cold = show(each.cold_v, "V", units) if each.cold_v is not None else "unknown"
    fuse = ""
    if each.fuse.needed:
        fuse = f"fuse {show(each.fuse.size_a, 'A', units)}" if each.fuse.size_a else "no fuse fits"
    return f"{cold} open in record cold, {show(each.hot_v, 'V', units)} at work in heat", fuse


def limits(site: Site, outcome: Outcome) -> Limits:
    """Limits, fuses, wires and what the arrangement loses."""
    from panewright.array.sign import sign_of
    from panewright.desk.orders.shown import bar

    units = site.named.units
    bars = tuple(bar(check, units) for check in outcome.checks)
    ranked = sorted(outcome.checks, key=lambda check: -check.utilisation)
    failing = tuple(bar(check, units) for check in ranked if not check.passed)
    nearest = tuple(bar(check, units) for check in ranked if check.passed)[:_NEAREST]
    fuses = tuple((sign_of(n), each.fuse.why) for n, each in enumerate(outcome.strings))
    return Limits(
        not failing,
        _sentence(len(failing), len(bars)),
        _figures(site, outcome),
        failing,
        nearest,
        bars,
        fuses,
        _wires(site, outcome),
        "By the currents of moments that stand for the year; the reckoned year chooses them again.",
    )


def _sentence(failing: int, checks: int) -> str:
    if not failing:
        return f"These strings hold all {checks} limits"
    return f"{failing} of {checks} limits {'does' if failing == 1 else 'do'} not hold"


def _figures(site: Site, outcome: Outcome) -> tuple[tuple[str, str], ...]:
    from panewright.units import show

    units = site.named.units
    direct = site.box.controller.kind == "direct" or site.box.straight
    where = " at the voltage it is tied to" if direct else ""
    return (
        (f"Gives in a usual year{where}", show(outcome.kwh, "kWh", units)),
        ("Lost against each panel on its own", _lost(1 - outcome.kept_share)),
        ("In no string", _panels(len(outcome.left_out))),
    )


def share(part: float) -> str:
    """A share in per cent, as every page writes it.

    >>> share(0.0123)
    '1.23\\u2009%'
    """
    from panewright.units import show

    return show(100 * part, "%")


def _lost(part: float) -> str:
    """By moments that stand for a year nobody tells less than a thousandth."""
    return "under 0.1\u2009%" if part < _LEAST_TOLD else share(part)


def _panels(count: int) -> str:
    return "no panel" if not count else "1 panel" if count == 1 else f"{count} panels"


def _wires(site: Site, outcome: Outcome) -> tuple[tuple[str, str, str], ...]:
    from panewright.units import show

    units = site.named.units
    return tuple(
        (
            f"{leg.title[0].upper()}{leg.title[1:]}",
            f"{leg.count} × {size}",
            f"{show(leg.kwh_a_year, 'kWh', units)} a year",
        )
        for leg, size in outcome.wires
    )
