"""A finding in sentences: what the groups hold, what a curve cannot part, what no reading shows."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from panewright.bench.fault.foretold import Wrong
from panewright.bench.fault.kinds import Group, Key
from panewright.bench.fault.size import Size
from panewright.circuit.network import Network


@dataclass(frozen=True, slots=True)
class Alike:
    """Things that one curve cannot tell apart, and what would part them."""

    things: tuple[str, ...]
    parted_by: str  #: the measurement, one sentence


WORDS: dict[Key, str] = {
    "cell gone": "a cell left out or shorted through",
    "cell turned": "a cell the wrong way round",
    "bypass shorted": "a bypass diode that is shorted",
    "bypass turned": "a bypass diode the wrong way round",
    "joint open": "a joint that is off, all ribbons of it",
    "weak cell": "one weak cell",
    "cracked cell": "one cracked cell",
    "resistance": "a resistance too much",
    "shunt": "a shunted cell",
    "dimmed": "a dimmed panel, or light read too high",
    "string open": "a string that carries nothing",
}

STRANGE = 4.0  #: times their errors; common practice, no source

_GROUPS: dict[Group, str] = {
    "healthy": "nothing",
    "lost voltage": "lost voltage: a cell missing, shorted or turned, a bypass diode shorted or turned, or a "
    "joint that is off",
    "weak cell": "one weak cell: cracked, dirty or shaded",
    "added resistance": "a resistance too much: a cold joint, an open ribbon, a poor lead",
    "shunted cell": "a shunted cell",
    "dimmed": "the whole panel dimmed, or the light read too high",
    "open string": "a string that carries nothing",
    "two faults": "two faults at once",
}

IN_REACH: dict[Key, str] = {
    "resistance": "Short the panel in full sun and read the volts over each lead with its end, and over each "
    "screw or joint in the box: mend what drops more than some tens of millivolts.",
    "string open": "Test each lead to its end and every joint in the box for continuity; join what is open.",
    "joint open": "Look into the box whether an end of the row's ribbon is off, and solder it.",
}  #: what of a closed panel may be the cause as well, and is looked at first

_ROW_OUT = Alike(  # by a few readings; many part them, as the diode's own drop shows
    ("a bypass diode that is shorted", "a joint of its row that is off"),
    "Cover the panel and test the row's bypass diode in the box with a meter's diode range: a shorted one "
    "reads next to nothing either way, a sound one a few tenths of a volt one way, and then a joint is off.",
)
_WEAK = Alike(
    ("a crack", "dirt", "a shadow on one cell"),
    "Wipe the pane, turn the panel out of every shadow and read again: what stays is the cell.",
)
_ALIKE: dict[Key, Alike] = {
    "joint open": Alike(
        ("a joint that is off, all its ribbons", "an end of the row's ribbon that is off in the box"),
        "Look into the box; then, with the lay-up open and the panel shorted in full sun, the gap has the "
        "volts of its whole row across it, and no cell has.",
    ),
    "cell gone": Alike(
        ("a cell left out", "a cell shorted through"),
        "Count the cells; then read the voltage of each alone, in light.",
    ),
    "weak cell": _WEAK,
    "cracked cell": _WEAK,
    "resistance": Alike(
        ("a cold joint", "an open ribbon", "a poor lead or end of one"),
        "Read the volts across each joint and lead while the panel is shorted in full sun: a joint gives "
        "some millivolts.",
    ),
    "shunt": Alike(
        ("a shunt through the cell", "solder or ribbon over the cell's edge"),
        "Look along the cell's edges; then cover the rest and read the cell alone in little light.",
    ),
    "dimmed": Alike(
        ("dirt on the whole pane", "all cells weaker than their sheet says", "light read too high"),
        "Wipe the pane and read the light again, with another sensor in the panel's plane.",
    ),
}


def alike(group: Group, wrong: Wrong, likely: Collection[Key] = ()) -> Alike | None:
    """What the likeliest kind of a group holds that no curve parts; `likely` are the single kinds left."""
    told = [_ALIKE[kind.key] for kind in wrong.kinds if kind.key in _ALIKE]
    if {"joint open", "bypass shorted"} <= set(likely):
        told = [_ROW_OUT, *told]
    if group == "healthy" or not told:
        return None
    told = list(dict.fromkeys(told))  # two of a kind are parted in one way
    things = tuple(thing for each in told for thing in each.things)
    return Alike(things, " ".join(each.parted_by for each in told))


def hidden(network: Network) -> tuple[str, ...]:
    """What readings of an unshaded panel cannot show."""
    rows = [row for string in network.strings for row in string.substrings]
    if not any(row.bypass for row in rows):
        return ()
    return (
        "A bypass diode that is open or missing shows nothing while no cell is shaded: cover one cell of "
        "each row in turn and read the curve, or test the diode itself.",
    )


def left_out(strays: int) -> tuple[str, ...]:
    """How many of the readings did not count, in a sentence.

    >>> left_out(1)
    ('1 reading is left out as a stray: it lies far off whatever may be wrong.',)
    """
    if not strays:
        return ()
    many = (
        "reading is left out as a stray: it lies"
        if strays == 1
        else "readings are strays, left out: they lie"
    )
    return (f"{strays} {many} far off whatever may be wrong.",)


def strange(scatter: float) -> tuple[str, ...]:
    """Where nothing that is supposed explains the readings: a word of doubt about the readings themselves."""
    if scatter < STRANGE:
        return ()
    return (
        "LOOK: nothing that is supposed explains these readings; they lie "
        f"{scatter:.0f} times their errors off. Is the file of this panel, and are its units, "
        "the light and the heat right?",
    )


def sure(odds: float) -> str:
    """Odds in words; never wholly sure, as only what was supposed is weighed.

    >>> sure(0.914), sure(0.99999), sure(0.0002)
    ('91 % sure', 'over 99 % sure', 'under 1 % sure')
    """
    if odds > 0.99:
        return "over 99 % sure"
    return f"{100 * odds:.0f} % sure" if odds >= 0.01 else "under 1 % sure"


def verdict(
    called: bool, healthy: float, first: Group, odds: float, size: Sequence[Size], cost_share: float
) -> tuple[str, ...]:
    """What is told first, in sentences."""
    if first == "healthy":
        tail = "What may still be wrong is too small to show, or hidden."
        return (f"Nothing wrong is to be seen ({sure(healthy)}).", tail)
    how = "".join(f"; {each.words}" for each in size)
    guess = f"{_GROUPS[first]} ({sure(odds)}){how}. It costs {100 * cost_share:.1f} % of Pmp."
    if called:
        return (f"Faulty ({sure(1 - healthy)}). Likeliest is {guess}",)
    doubt = f"It may also be healthy ({sure(healthy)}): read again, or with a better instrument."
    return (f"Not called faulty. Likeliest is {guess}", doubt)
