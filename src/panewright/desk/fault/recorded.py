"""A finding as JSON, for programs, pages and the records; units in the names."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from panewright.bench.fault.finding import Suspect
from panewright.bench.fault.kinds import Key
from panewright.bench.fault.place.next import Advice
from panewright.bench.fault.place.outcome import Outcome
from panewright.bench.fault.rework import Rework
from panewright.bench.fault.wording import WORDS
from panewright.desk.fault import settings
from panewright.desk.fault.found import PanelFound, Told

_SELDOM = 0.005  #: odds below which a cell is not told
_PLACES = 6
_SPARES = 5  # of those that were weighed, the best


def of_finding(made: PanelFound) -> dict[str, Any]:
    """All of it."""
    finding, state = made.finding, made.state
    network = state.foretold.network
    cells = sorted(made.odds_of_cells().items(), key=lambda pair: (-pair[1], pair[0]))
    return {
        "serial": made.serial,
        "revision": made.design.revision,
        "called": finding.called,
        "healthy_odds": finding.healthy_odds,
        "words": list(finding.words),
        "before": made.before,
        "hidden": list(finding.hidden),
        "doubts": list(made.doubts),
        "suspects": [_suspect(each) for each in finding.suspects],
        "believed": list(state.words) if finding.called else [],
        "located": state.located.words(network) if finding.called and state.located else None,
        "places": [{"words": each.words(network), "odds": each.odds} for each in state.places[:_PLACES]],
        "cells": [{"cell": cell, "odds": odds} for cell, odds in cells if odds > _SELDOM and finding.called],
        "told": [_told(each) for each in made.told],
        "lies": made.lies,
        "next": [_advice(each) for each in made.next],
        "assumed": made.assumed if made.next else "",
        "hides": made.hides,
        "rework": _rework(made.rework),
        "too_small": [
            {
                "words": WORDS[each.key],
                "from": f"{each.size.value:.2g} {each.size.unit}" if each.size else None,
            }
            for each in made.small
        ],
    }


def _suspect(suspect: Suspect) -> dict[str, Any]:
    kinds = [{"words": _both(keys), "odds": odds} for keys, odds in suspect.kinds]
    alike = suspect.alike
    return {
        "group": suspect.group,
        "odds": suspect.odds,
        "kinds": kinds,
        "size": [each.words for each in suspect.size],
        "cost_w": suspect.cost_w,
        "cost_share": suspect.cost_share,
        "alike": list(alike.things) if alike else [],
        "parted_by": alike.parted_by if alike else "",
    }


def _both(keys: Sequence[Key]) -> str:
    """What is wrong; two of a kind are one and another."""
    if len(keys) > 1 and len(set(keys)) == 1:
        return f"{WORDS[keys[0]]} and another"
    return " and ".join(WORDS[key] for key in keys) or "nothing"


def _rework(made: Rework | None) -> dict[str, Any] | None:
    if made is None:
        return None
    watts = {"before_w": made.before_w, "after_w": made.after_w, "sound_w": made.sound_w}
    spares = [{"spare": each.spare, "after_w": each.after_w} for each in made.spares[:_SPARES]]
    told = {"steps": list(made.steps), "spare": made.spare, "at_most": made.at_most}
    return {**told, **watts, "spares": spares}


def _advice(advice: Advice) -> dict[str, Any]:
    return {
        "measurement": advice.measurement,
        "how": advice.how,
        "asks": [{"words": each.words, "unit": each.unit} for each in advice.asks],
        "setting": settings.written(advice.setting),
        "beside": advice.beside,
        "outcomes": [_outcome(each) for each in advice.outcomes],
        "expected_bits": advice.expected_bits,
        "minutes": advice.minutes,
    }


def _outcome(outcome: Outcome) -> dict[str, Any]:
    """With what the meter shows: of two readings the first, beside the second as it then would be."""
    times = 1.0 if outcome.beside is None else outcome.beside
    return {
        "beside": outcome.beside,
        "low": outcome.low,
        "high": outcome.high,
        "reads_low": outcome.low * times,
        "reads_high": outcome.high * times,
        "words": outcome.words,
        "odds": outcome.odds,
    }


def _told(told: Told) -> dict[str, Any]:
    return {
        "how": told.how,
        "setting": settings.written(told.setting),
        "readings": list(told.readings),
        "words": list(told.words),
    }
