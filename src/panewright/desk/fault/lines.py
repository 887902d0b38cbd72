"""What is said of a finding at the command."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from typing import Any

from panewright.bench.fault.numbered import stretches

_LEAST = 0.01  #: odds below which a suspect is not listed


def lines(told: dict[str, Any]) -> Iterator[str]:
    """All of it, out of what is told of it."""
    serial = f"Serial {told['serial']}: " if told["serial"] else ""
    first, *more = told["words"]
    yield f"{serial}{first}"
    yield from (f"  {each}" for each in more)
    yield told["before"]
    yield from (f"Of the file: {each}" for each in told["doubts"])
    yield "What may be wrong:"
    yield from (f"  {line}" for each in told["suspects"] if each["odds"] >= _LEAST for line in _suspect(each))
    yield from (f"Hidden: {each}" for each in told["hidden"])
    yield from _told(told)
    yield from told["believed"]
    if told["cells"]:
        yield f"Cells, by their numbers on the drawings: {cells_words(told)}."
    yield from _next(told)
    yield from _mend(told)


def cells_words(told: dict[str, Any], most: int = 8) -> str:
    """The likeliest cells with their odds; those as likely to the percent together.

    >>> odds = {7: 0.4, 8: 0.302, 9: 0.298}
    >>> cells_words({"cells": [{"cell": cell, "odds": each} for cell, each in odds.items()]})
    'cell 7 (40 %), cells 8 to 9 (30 % each)'
    """
    named, left = [], len(told["cells"])
    for odds, group in groupby(told["cells"], lambda each: percent(each["odds"])):
        cells = [each["cell"] for each in group]
        named.append(f"{stretches(cells)} ({odds}{' each' * (len(cells) > 1)})")
        left -= len(cells)
        if len(named) == most:
            break
    return f"{', '.join(named)} and {left} more" if left > 0 else ", ".join(named)


def percent(share: float) -> str:
    """A share as it is told, to the percent."""
    return f"{100 * share:.0f} %"


def kinds_words(suspect: dict[str, Any], most: int = 4) -> str:
    """What a group holds, with its odds; '' where one thing alone is likely."""
    likely = [each for each in suspect["kinds"][:most] if each["odds"] >= _LEAST]
    if suspect["group"] == "healthy" or len(likely) < 2:
        return ""
    return ", ".join(f"{each['words']} {percent(each['odds'])}" for each in likely)


def reads(outcome: dict[str, Any], advice: dict[str, Any]) -> str:
    """What the meter would show, without what that would mean: '0.309 to 0.328 A, 85.3 to 90.5 %'."""
    first, *second = advice["asks"]
    shows = f"{outcome['reads_low']:.3g} to {outcome['reads_high']:.3g} {first['unit']}"
    if not second:
        return shows
    return f"{shows}, {100 * outcome['low']:.1f} to {100 * outcome['high']:.1f} %"


def meaning(outcome: dict[str, Any]) -> str:
    """What that would mean, and how likely it is to come out so."""
    words = outcome["words"]
    return f"{words[:1].upper()}{words[1:]} ({percent(outcome['odds'])})"


def reads_of(advice: dict[str, Any]) -> str:
    """What the figures of the outcomes are of."""
    first, *second = advice["asks"]
    if not second:
        return f"What the {first['words']} would tell:"
    return f"What the {first['words']} would tell, and its share of the {second[0]['words']}, which counts:"


def outcome_words(outcome: dict[str, Any], advice: dict[str, Any]) -> str:
    """One outcome: what the meter would show, what that would mean, how likely it is.

    Of two readings the second is foretold, and the share of it told: that is what counts.
    """
    first, *second = advice["asks"]
    shows = f"{first['words']} from {outcome['reads_low']:.3g} to {outcome['reads_high']:.3g} {first['unit']}"
    if second:
        then = outcome.get("beside", advice["beside"])  # an older record has one for all outcomes
        shows += (
            f", {100 * outcome['low']:.1f} to {100 * outcome['high']:.1f} % of {second[0]['words']} "
            f"({then:.3g} {second[0]['unit']} foretold)"
        )
    return f"{shows}: {outcome['words']} ({percent(outcome['odds'])})"


def _suspect(suspect: dict[str, Any]) -> Iterator[str]:
    size = "".join(f"; {each}" for each in suspect["size"])
    cost = f"; costs {suspect['cost_w']:.3g} W at STC" if suspect["cost_w"] > 0 else ""
    yield f"{percent(suspect['odds'])} {suspect['group']}{size}{cost}"
    if kinds := kinds_words(suspect):
        yield f"  {kinds}"
    if suspect["alike"]:
        yield f"  no curve parts {', '.join(suspect['alike'])}. {suspect['parted_by']}"


def _told(told: dict[str, Any]) -> Iterator[str]:
    for nth, each in enumerate(told["told"], start=1):
        read = ", ".join(f"{value:g}" for value in each["readings"])
        yield f"Measured {nth}: {each['how']} Read: {read}."


def _mend(told: dict[str, Any]) -> Iterator[str]:
    if mend := told["rework"]:
        yield f"To mend it: {' '.join(mend['steps'])}"
        most = "at most " if mend["at_most"] else ""
        yield f"  {mend['before_w']:.3g} W at STC as it is, {most}{mend['after_w']:.3g} W after."
        if mend["spares"]:
            best = ", ".join(f"{each['spare']} {each['after_w']:.4g} W" for each in mend["spares"])
            yield f"  With the best spares: {best}."
    for each in told["too_small"]:
        least = f"called from {each['from']}" if each["from"] else "never called by such readings"
        yield f"Too small to see: {each['words']}, {least}"


def _next(told: dict[str, Any]) -> Iterator[str]:
    for nth, each in enumerate(told["next"], start=1):
        yield f"{'Measure next' if nth == 1 else 'Or'} ({nth}): {each['how']} ({each['minutes']:g} min)"
        yield from (f"  {outcome_words(outcome, each)}" for outcome in each["outcomes"])
    if told["assumed"]:
        yield told["assumed"]
    if told["next"]:
        asks = ", ".join(f"{ask['words']}, {ask['unit']}" for ask in told["next"][0]["asks"])
        yield f"Then tell it: --read '1: ...' with {asks}."
    if told["hides"]:
        yield told["hides"]
