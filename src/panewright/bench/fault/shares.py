"""A shop's own shares of its panels: how many are sound, how many have which fault, before any reading.

What a shop says of some groups holds; the others share what is left as they do where nobody says anything.
Where a panel can have none of the others, those that were said make up the whole.
"""

from __future__ import annotations

from collections.abc import Mapping

from panewright.bench.fault.kinds import Group

WHOLE = 1e-3  #: how far shares of all groups may be from one


def own_shares(given: Mapping[Group, float], usual: Mapping[Group, float]) -> dict[Group, float]:
    """Shares of every group, adding up to 1; `ValueError` where those given are more than all.

    >>> made = own_shares({"healthy": 0.9}, {"healthy": 0.5, "weak cell": 0.3, "dimmed": 0.2})
    >>> {group: round(share, 3) for group, share in made.items()}
    {'healthy': 0.9, 'weak cell': 0.06, 'dimmed': 0.04}
    """
    said, rest = sum(given.values()), {group: usual[group] for group in usual if group not in given}
    if said > 1 + WHOLE:
        raise ValueError(why_not(given, usual))
    left, theirs = max(1.0 - said, 0.0), sum(rest.values())
    if theirs == 0:
        return {group: given.get(group, 0.0) / said for group in usual}
    return {group: given.get(group, left * usual[group] / theirs) for group in usual}


def why_not(given: Mapping[Group, float], usual: Mapping[Group, float]) -> str:
    """Why shares cannot be so; empty where they can."""
    said = sum(given.values())
    if said > 1 + WHOLE:
        return f"They add up to {100 * said:.3g}%, which is more than all panels."
    if all(share == 0 for group, share in usual.items() if group not in given) and said < 1 - WHOLE:
        return f"Every group is said, and they add up to {100 * said:.3g}% of all panels."
    return ""


def told(shares: Mapping[Group, float], own: bool) -> str:
    """What was taken for true before anything was read, in a sentence."""
    alike = "each group of faults as likely as the next, for nobody has said otherwise"
    whose = "by the shop's own shares" if own else alike
    return f"Before any reading {100 * shares['healthy']:.3g} % of panels were taken to be sound, {whose}."
