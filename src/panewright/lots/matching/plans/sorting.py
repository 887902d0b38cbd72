"""Plain sorting, as a maker does it: by the current at most power, dealt in order.

All pieces in falling order of their own Imp, a soldered string as a whole by its own. Seat after seat is
filled, string after string, panel after panel: each time with the next piece that may sit there. A piece that
no open substring takes waits for the next panel. A panel that cannot be filled so is tried again with
soldered strings first, the longest before the others; where that fails too, it is not made.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from panewright.lots.matching.deal import Filling, Rules
from panewright.lots.matching.pieces import Whole
from panewright.lots.matching.proof.fills import fills_of, shared_out


def dealt(rules: Rules, order: Sequence[int], panels: int) -> Whole:
    """Panels filled in this order: (panels, strings, most pieces of a string), -1 where there are fewer."""
    waiting = list(order)
    made: list[list[list[int]]] = []
    while len(made) < panels:
        filling, rest = _filled(rules, waiting)
        if any(filling.room):  # single cells may stand in the way of soldered strings
            filling, rest = _filled(rules, sorted(waiting, key=lambda k: -rules.size[k]))
            rest = [k for k in waiting if k in set(rest)]
        if any(filling.room):
            break
        made.append(by_string(rules, filling.held))
        waiting = rest
    return packed(made, rules)


def dealt_evenly(rules: Rules, order: Sequence[int], panels: int) -> Whole:
    """So many panels where leaky and weak pieces are shared among them evenly, as many as are needed.

    Sorting leaves such pieces waiting till the last panels cannot take them all.
    """
    special = (rules.leaks > 0) | (rules.largest < max(rules.seats.driven))
    sound = [k for k in order if not special[k]]
    lack = panels * rules.seats.count - int(rules.size[sound].sum())
    wanted = [k for k in order if special[k] and rules.largest[k] >= min(rules.seats.driven)]
    within = int(np.searchsorted(np.cumsum(rules.size[wanted]), lack)) + 1 if lack > 0 else 0
    waiting, made = sound, list[list[list[int]]]()
    for turn in np.array_split(np.array(wanted[:within], dtype=np.int64), panels):
        filling, rest = _filled(rules, [*turn.tolist(), *waiting])
        if any(filling.room):
            break
        made.append(by_string(rules, filling.held))
        waiting = rest
    return packed(made, rules)


def dealt_to_fill(rules: Rules, order: Sequence[int], panels: int) -> Whole:
    """So many panels that pieces of several sizes fill, shared out for it; none where they do not.

    Sorting uses up loose pieces that soldered strings need beside them.
    """
    sizes, strings = np.unique(rules.size), len(rules.seats.strings)
    open_to = [k for k in order if rules.largest[k] >= min(rules.seats.driven)]
    fills = fills_of(rules.size[open_to], sizes, rules.seats.strings)
    waiting = [[k for k in open_to if rules.size[k] == size] for size in sizes]
    ways = shared_out(fills, [len(each) for each in waiting], panels * strings) if fills else []
    rows = [[each.pop(0) for each, n in zip(waiting, way, strict=True) for _ in range(n)] for way in ways]
    fit = all(rules.allowed(k % strings, np.array(row)) for k, row in enumerate(rows))
    made = [rows[k : k + strings] for k in range(0, len(rows), strings)]
    return packed(made if fit else [], rules)


def _filled(rules: Rules, order: list[int]) -> tuple[Filling, list[int]]:
    filling = rules.open()
    rest: list[int] = []
    left, every = rules.seats.count, range(len(rules.seats.substrings))
    for at, piece in enumerate(order):
        if not left:
            return filling, [*rest, *order[at:]]
        if filling.put(piece, every):
            left -= int(rules.size[piece])
        else:
            rest.append(piece)
    return filling, rest


def by_string(rules: Rules, held: Sequence[Sequence[int]]) -> list[list[int]]:
    """Pieces string by string, from those that each substring holds."""
    strings: list[list[int]] = [[] for _ in rules.seats.strings]
    for k, string in enumerate(rules.seats.string_of_substring):
        strings[string] += held[k]
    return strings


def packed(made: list[list[list[int]]], rules: Rules) -> Whole:
    """Panels as one array, -1 where a string has fewer pieces than another."""
    most = max((len(string) for panel in made for string in panel), default=1)
    table = np.full((len(made), len(rules.seats.strings), most), -1, dtype=np.int64)
    for p, panel in enumerate(made):
        for s, string in enumerate(panel):
            table[p, s, : len(string)] = string
    return table
