"""Words as they may go on paper: nothing that hides, turns round or breaks the line.

What a person typed is shown letter for letter, except letters that are not to be seen at all: control
codes, codes that turn the reading direction, and halves of letters. The thin space before a unit, which the
face lacks, becomes its no-break space: a fifth of the letter body wide, as a thin space is, and it keeps a
figure and its unit on one line.
"""

from __future__ import annotations

import re

from panewright.drawing.lettering import text_width_mm

POINT_MM = 25.4 / 72  #: a printer's point [mm]

SIDES = {
    "sunny side up": "seen from the sun, sunny side up",
    "sunny side down": "seen from the bench, sunny side down",
    "": "",
}  #: which side a drawing shows, as every page says it

_UNSEEN = re.compile(
    "[\u0000-\u001f\u007f-\u009f\u00ad\u061c\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\uffff\ud800-\udfff]"
)
_MIXED = re.compile(r"(?<=\d) (?=\d{1,2}/(?:2|4|8|16|32)\b)")  # 10 3/16 in two lines is another size
_THIN = {0x2009: "\u00a0", 0x202F: "\u00a0"}


def printable(words: str) -> str:
    """The words without letters that cannot be seen, line breaks as spaces.

    >>> printable("A\\tB\\u202e 5\\u2009mm\\x00")
    'A B 5\\xa0mm'
    >>> printable("10 3/16 in")
    '10\\xa03/16 in'
    """
    seen = _UNSEEN.sub("", words.replace("\t", " ").replace("\n", " ").replace("\r", ""))
    return _MIXED.sub("\u00a0", seen).translate(_THIN)


def shortened(words: str, width_mm: float, points: float) -> str:
    """Words that fit one line of a page's head, with dots where some had to go.

    >>> shortened("0042 Shed roof", 50, 8.5), shortened("a very long name of an order", 25, 8.5)
    ('0042 Shed roof', 'a very long nam…')
    """
    size = points * POINT_MM
    if text_width_mm(words, size, bold=True) <= width_mm:
        return words
    kept = words
    while kept and text_width_mm(kept.rstrip() + "…", size, bold=True) > width_mm:
        kept = kept[:-1]
    return kept.rstrip() + "…"
