"""What to do about a fault in a known place: what to exchange, by which spare, what the panel gives then.

Powers are those of the whole circuit at STC, solved exactly. Of spares that bring the panel to within a
thousandth of what the best of them does, the weakest is proposed: a better one is worth more elsewhere. Of
two faults the one that was located is mended and the other stays: both powers are reckoned with it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from panewright.bench.fault.foretold import Foretold
from panewright.bench.fault.kinds import Key
from panewright.bench.fault.numbered import where
from panewright.bench.fault.place.belief import Spot
from panewright.bench.fault.place.next import Lies
from panewright.bench.fault.wording import IN_REACH, WORDS, sure
from panewright.cell.damage import Exchanged
from panewright.cell.diode import Diode
from panewright.cell.key_points import key_points as cell_points
from panewright.circuit.damage import Fault
from panewright.circuit.maxima import key_points
from panewright.circuit.place import CellAt

_ENOUGH = 1e-3  # of the best spare's power: what a better spare would add


@dataclass(frozen=True, slots=True)
class Spare:
    """A cell that could go in."""

    name: str
    cell: Diode  #: at STC, in the light behind the panel's own pane
    left: int = 1  #: how many there are


@dataclass(frozen=True, slots=True)
class Fitted:
    """The panel's power with a spare in that place."""

    spare: str
    after_w: float


@dataclass(frozen=True, slots=True)
class Rework:
    """What to do, and what it brings."""

    steps: tuple[str, ...]  #: sentences, in order
    spare: str | None  #: the one to take; None where no part is exchanged, or none is left
    before_w: float  #: Pmp at STC as it is
    after_w: float  #: as it would be, with what else is wrong left as it is
    sound_w: float  #: as it was foretold
    spares: tuple[Fitted, ...] = ()  #: all that were weighed, the most power first
    at_most: bool = False  #: whether `after_w` comes only if the cause lies where it can be mended

    @property
    def gained_w(self) -> float:
        """What it brings."""
        return self.after_w - self.before_w


_CELLS: tuple[Key, ...] = ("cell gone", "weak cell", "cracked cell", "shunt", "cell turned")
_STEPS: dict[Key, tuple[str, ...]] = {
    "cell gone": ("Unsolder what bridges the gap{at} and put a cell in.",),
    "cell turned": ("Unsolder the cell{at}, turn it round and solder it again; have a spare at hand.",),
    "weak cell": ("Wipe the pane{at} and read again.", "If it is as weak as before, exchange the cell."),
    "cracked cell": (
        "Wipe the pane{at} and read again.",
        "If it stays, look for a crack; exchange the cell.",
    ),
    "shunt": ("Look for solder over the edge{at} and take it off.", "If it stays, exchange the cell."),
    "resistance": ("Solder the joint{at} again, all its ribbons, and the leads at its end of the string.",),
    "joint open": ("Solder the joint{at} again, all its ribbons; pull at each before the panel is closed.",),
    "bypass shorted": ("Exchange the bypass diode{at}.",),
    "bypass turned": ("Unsolder the bypass diode{at} and turn it round.",),
    "string open": ("Find the break{at} with a meter and join it.",),
    "dimmed": ("Wipe the whole pane; read the light anew with a second sensor.",),
}
_OUTSIDE: tuple[Key, ...] = ("bypass shorted", "bypass turned", "dimmed")  # within reach of a closed panel
_ELSE = (
    "If all of them are sound it lies behind the pane and stays so: rate it as it is, or take it for parts."
)
_AT_MOST: tuple[Key, ...] = ("dimmed",)  # the light read too high, or all cells weaker: nothing comes of it
_AS_FORETOLD = "the power told is that with a cell as it was foretold."
_CLOSED = "The panel is closed: what lies behind the pane stays so. Rate it as it is, or take it for parts."


def rework(
    foretold: Foretold, spot: Spot, spares: Sequence[Spare] | None = None, lies: Lies = "open"
) -> Rework:
    """What to do about one thing in one place; `ValueError` for a panel that is healthy.

    `spares` is None where none were named, and empty where none is left.
    """
    if spot.kind is None:
        raise ValueError("nothing is wrong, so nothing is to be reworked")
    key = spot.kind.key
    before = key_points(foretold.stc_with(spot.wrong().and_also(spot.beside))).power_w
    left = key_points(foretold.stc_with(spot.beside)).power_w
    first = tuple(step.format(at=where(foretold.network, spot.place)) for step in _STEPS[key])
    made = Rework(first, None, before, left, foretold.stc_w, at_most=key in _AT_MOST)
    if lies == "closed" and key in IN_REACH:
        made = replace(made, steps=(IN_REACH[key], _ELSE), at_most=True)
    elif lies == "closed" and key not in _OUTSIDE:
        wiped = first[:1] if key in ("weak cell", "cracked cell") else ()
        made = replace(made, steps=(*wiped, _CLOSED), after_w=before)
    elif key in _CELLS and isinstance(spot.place, CellAt):
        made = _with_spare(foretold, spot, spares, made)
    return replace(made, steps=(*made.steps, *_stays(spot)))


def _stays(spot: Spot) -> tuple[str, ...]:
    """What else is wrong and is not mended by that."""
    told = " and ".join(WORDS[kind.key] for kind in spot.beside.kinds)
    return (f"Then read again: {told} stays ({sure(spot.beside_odds)}).",) if told else ()


def _with_spare(foretold: Foretold, spot: Spot, spares: Sequence[Spare] | None, made: Rework) -> Rework:
    if spares is None:
        return replace(made, steps=(*made.steps, f"No spares were named: {_AS_FORETOLD}"))
    assert isinstance(spot.place, CellAt)
    fitted = {
        spare.name: key_points(
            foretold.stc_with(spot.beside, Fault(Exchanged(spare.cell), spot.place))
        ).power_w
        for spare in spares
        if spare.left > 0
    }
    if not fitted:
        return replace(made, steps=(*made.steps, f"No spare cell is left: {_AS_FORETOLD}"))
    enough = max(fitted.values()) * (1 - _ENOUGH)
    able = [spare for spare in spares if fitted.get(spare.name, 0.0) >= enough]
    taken = min(able, key=lambda spare: cell_points(spare.cell).power_w)
    ranked = sorted(fitted.items(), key=lambda pair: -pair[1])
    return replace(
        made,
        steps=(*made.steps, f"Take spare {taken.name}."),
        spare=taken.name,
        after_w=fitted[taken.name],
        spares=tuple(Fitted(name, watts) for name, watts in ranked),
    )
