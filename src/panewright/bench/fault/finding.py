"""What a panel's readings say is wrong with it: how sure, where it can be, how much it costs.

Odds are those of `evidence`: the share of panels with such a fault times how likely the readings are on their
curves. A panel is called faulty where it is healthy with less than `CALLED_UNDER`: the greatest that leaves
the sound panels called under 2 % by more than chance, of those tried; see the handbook's page on faults.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from panewright.bench.fault.evidence import Prepared, Weighed, prepared, suppositions
from panewright.bench.fault.foretold import Foretold
from panewright.bench.fault.kinds import Group, Key, alike_places
from panewright.bench.fault.readings import Points
from panewright.bench.fault.size import Size, sizes
from panewright.bench.fault.strays import sifted
from panewright.bench.fault.wording import Alike, alike, hidden, left_out, strange, verdict
from panewright.circuit.maxima import key_points
from panewright.circuit.place import Place

SHARES: Mapping[Group, float] = {
    "healthy": 1 / 7, "lost voltage": 1 / 7, "weak cell": 1 / 7, "added resistance": 1 / 7,
    "shunted cell": 1 / 7, "dimmed": 1 / 7, "two faults": 1 / 7, "open string": 0.0,
}  # fmt: skip
SHARES_ABREAST: Mapping[Group, float] = dict.fromkeys(SHARES, 1 / 8)  #: where strings lie side by side
CALLED_UNDER = 0.06  #: a panel is called faulty where it is healthy with less than this
_LIKELY = 0.05  # odds within its group from which on a kind is a thing that may be
_SELDOM = 1e-4  # odds below which a supposition is not told


@dataclass(frozen=True, slots=True)
class Suspect:
    """One group of faults that the readings cannot tell apart, after they were read."""

    group: Group
    odds: float  #: 0 to 1
    kinds: tuple[tuple[tuple[Key, ...], float], ...]  #: single kinds, or pairs; odds within the group
    size: tuple[Size, ...]  #: of the likeliest, one for each kind that comes in strengths
    cost_w: float  #: what the likeliest takes of Pmp at STC
    cost_share: float  #: the same as a share of Pmp
    places: tuple[tuple[Place, ...], ...]  #: of each kind of the likeliest, all places that fit alike well
    alike: Alike | None  #: what the group holds that no curve parts, and what would part it


@dataclass(frozen=True, slots=True)
class Finding:
    """What is likely wrong with one panel."""

    suspects: tuple[Suspect, ...]  #: the likeliest first, healthy among them
    healthy_odds: float
    called: bool  #: whether the panel is called faulty
    words: tuple[str, ...]  #: the verdict, one sentence each
    hidden: tuple[str, ...]  #: what no such readings could show
    weighed: tuple[Weighed, ...]  #: every supposition, the likeliest first
    points: Points  #: the readings that counted

    @property
    def first(self) -> Suspect:
        """The likeliest group."""
        return self.suspects[0]


def find(
    foretold: Foretold,
    points: Points,
    shares: Mapping[Group, float] | None = None,
    under: float = CALLED_UNDER,
) -> Finding:
    """What readings say, of a panel foretold in the light and heat that were read.

    `shares` of each group among panels add up to 1; alike unless told.
    """
    return found(ready(foretold, shares), points, under)


def ready(foretold: Foretold, shares: Mapping[Group, float] | None = None) -> Prepared:
    """What can be reckoned before anything is read but light and heat."""
    abreast = len(foretold.network.strings) > 1
    given = shares or (SHARES_ABREAST if abreast else SHARES)
    return prepared(foretold, suppositions(foretold.network, given))


def found(by: Prepared, points: Points, under: float = CALLED_UNDER) -> Finding:
    """The same, of what was prepared."""
    sift = sifted(by, points)
    weighed = sift.weighed
    odds = odds_of(weighed)
    suspects = tuple(_suspects(by.foretold, weighed, odds))
    healthy = sum(each.odds for each in suspects if each.group == "healthy")
    called = healthy < under
    first = suspects[0]
    words = verdict(called, healthy, first.group, first.odds, first.size, first.cost_share)
    words = (*strange(sift.scatter), *words, *left_out(sift.strays))
    return Finding(suspects, healthy, called, words, hidden(by.foretold.network), weighed, sift.points)


def odds_of(weighed: Sequence[Weighed]) -> np.ndarray:
    """Odds of every supposition, adding up to 1."""
    log = np.array([each.log for each in weighed])
    parts = np.exp(log - log.max())
    return np.asarray(parts / parts.sum())


def of_groups(weighed: Sequence[Weighed]) -> dict[Group, float]:
    """Odds of every group."""
    told: dict[Group, float] = {}
    for each, part in zip(weighed, odds_of(weighed), strict=True):
        group = each.supposition.group
        told[group] = told.get(group, 0.0) + float(part)
    return told


def _suspects(foretold: Foretold, weighed: Sequence[Weighed], odds: np.ndarray) -> Iterator[Suspect]:
    groups = of_groups(weighed)
    for group in sorted(groups, key=lambda each: -groups[each]):
        mine = [(each, float(part)) for each, part in zip(weighed, odds, strict=True)]
        mine = [(each, part) for each, part in mine if each.supposition.group == group]
        if groups[group] > _SELDOM or group == "healthy":
            yield _suspect(foretold, group, groups[group], mine)


def _suspect(foretold: Foretold, group: Group, odds: float, mine: Sequence[tuple[Weighed, float]]) -> Suspect:
    best = max(mine, key=lambda each: each[1])[0]
    wrong, network = best.best, foretold.network
    kinds: dict[tuple[Key, ...], float] = {}
    for each, part in mine:
        keys = tuple(kind.key for kind in each.supposition.wrong.kinds)
        kinds[keys] = kinds.get(keys, 0.0) + part / max(odds, 1e-300)
    cost_w = max(foretold.stc_w - key_points(foretold.stc_with(wrong)).power_w, 0.0)
    places = tuple(
        alike_places(network, kind, place) for kind, place in zip(wrong.kinds, wrong.places, strict=True)
    )
    told = tuple(sorted(kinds.items(), key=lambda pair: -pair[1]))
    return Suspect(
        group,
        odds,
        told,
        sizes(wrong, best.strengths, foretold.scale),
        cost_w,
        cost_w / foretold.stc_w,
        places,
        alike(group, wrong, [keys[0] for keys, part in told if len(keys) == 1 and part >= _LIKELY]),
    )
