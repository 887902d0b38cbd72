"""Words from other rooms as the maker reads them: signs for units, sources without notes on how they came.

Where a source was seen or only recalled matters to who doubts a figure; it stays in the table of every
check and is left out of the first page.
"""

from __future__ import annotations

import re

from panewright.units import show

_RECALL = re.compile(
    r"\s*\((?:seen|not seen|recalled|memory|from memory|derived)\)"
    r"|[,;]?\s*(?:from memory|recalled|not seen)\b"
)
_METRES = re.compile(r"(\d+(?:\.\d+)?) m\b(?!/)")


def signs(words: str) -> str:
    """Degrees by their sign.

    >>> signs("voltages at 25 degC")
    'voltages at 25 °C'
    """
    return words.replace(" degC", " °C").replace(" degF", " °F").replace("degC", "°C").replace("degF", "°F")


def plain_source(source: str) -> str:
    """A source without how it came to be known.

    >>> plain_source("charge controller handbook, at 25 degC (seen)")
    'charge controller handbook, at 25 °C'
    >>> plain_source("common practice for LFP cells, from memory")
    'common practice for LFP cells'
    """
    return signs(_RECALL.sub("", source)).strip()


def in_units(words: str, system: str) -> str:
    """Heights within a step's words in the order's units.

    >>> in_units("Kz, exposure C at 4.572 m", "us"), in_units("ground 1310.64 m above the sea", "us")
    ('Kz, exposure C at 15.0\\u2009ft', 'ground 4300\\u2009ft above the sea')
    """
    if system != "us":
        return words
    return _METRES.sub(lambda found: show(float(found.group(1)), "m", system), words)
