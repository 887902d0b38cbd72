"""Which letters the one face of pages and drawings has: Latin, Greek, Cyrillic, and the signs of the trade.

The row below was read from the font once, and a test holds it against the font. A letter that is not there
is set as a box.
"""

from __future__ import annotations

import unicodedata
from bisect import bisect_right
from functools import lru_cache

_HAS = (  # first and last letter of each run, in sixteens
    "20-7e a0-17e 180 18f 192-193 1a0-1a1 1af-1b0 1c2 1cd-1dc 1e2-1e3 1e6-1e7 1ea-1eb 1f4-1f5 1f8-1f9 "
    "1fc-1fd 218-21b 237 243 250-25c 25e-268 26a 26c-276 278-27b 27d-27e 280-284 288-292 294-295 298-299 "
    "29c-29d 29f 2a1-2a2 2b0 2b2-2b3 2b7-2b9 2bb-2bc 2be-2bf 2c1 2c6-2cc 2d0-2d1 2d8-2de 2e0-2e3 300-30c "
    "30f 311-313 318-320 323-32a 32c 32e-331 334 339-33d 342 345 361 374-375 37a 37e 384-38a 38c 38e-3a1 "
    "3a3-3ce 3d0-3d1 3d5 3d7 3d9 3db 3dd 3e1 400-45f 462-463 472-475 490-493 496-49b 4a0-4a3 4aa-4ab "
    "4ae-4b3 4b6-4b7 4ba-4bb 4c0-4c2 4cf-4d1 4d4-4d9 4e2-4e3 4e6-4e9 4ee-4ef 4f2-4f3 1d43 1d47-1d49 1d4d "
    "1d4f-1d50 1d52 1d56-1d58 1d5b 1d9c 1da0 1dbb 1e06-1e07 1e0c-1e0f 1e16-1e17 1e20-1e21 1e24-1e25 "
    "1e2a-1e2b 1e32-1e3b 1e3e-1e49 1e52-1e53 1e58-1e63 1e6c-1e6f 1e80-1e85 1e8e-1e8f 1e92-1e97 1e9e "
    "1ea0-1ef9 1f00-1f15 1f18-1f1d 1f20-1f45 1f48-1f4d 1f50-1f57 1f59 1f5b 1f5d 1f5f-1f7d 1f80-1fb4 "
    "1fb6-1fc4 1fc6-1fd3 1fd6-1fdb 1fdd-1fef 1ff2-1ff4 1ff6-1ffe 2007 2012-2016 2018-201a 201c-201e "
    "2020-2022 2026 202f-2030 2032-2033 2035 2039-203a 203c-203f 2044 2047-2049 2070-2071 2074-2079 "
    "207d-2089 208d-208e 2094 20a1 20a4 20a6-20a7 20a9 20ab-20ac 20ae 20b1-20b2 20b4-20b5 20b8-20ba 20bd "
    "2113 2116-2117 2120 2122 2126 212e 2150-215e 2189 2190-2193 2202 2206 220f 2211-2212 2215 2219-221a "
    "221e 222b 2248 2260 2264-2265 231c-231f 25a0 25b2-25b3 25b6-25b7 25bc-25bd 25c0-25c1 25c6 25c9-25ca "
    "25cc 2610-2611 266a 2713 2752 27e6-27e7 2e22-2e25 2e3a-2e3b fb00-fb04 feff 1f16a-1f16b "
)


@lru_cache(maxsize=1)
def runs() -> tuple[tuple[int, int], ...]:
    """First and last letter of each run, by their number."""
    pairs = (run.split("-") for run in _HAS.split())
    return tuple((int(pair[0], 16), int(pair[-1], 16)) for pair in pairs)


def unprinted(words: str) -> str:
    """The letters of these words that the face has not, each once, in their order; blanks print as such.

    >>> unprinted("Łódź"), unprinted("\u7530\u4e2d, Oslo")
    ('', '\u7530\u4e2d')
    """
    if words.isascii():
        return ""
    return "".join(dict.fromkeys(letter for letter in words if not _has(letter)))


def numbered(missing: str, most: int = 6) -> str:
    """Letters by their numbers, for they may not print where they are told either.

    >>> numbered("\u7530\u4e2d")
    'U+7530 U+4E2D'
    """
    shown = " ".join(f"U+{ord(letter):04X}" for letter in missing[:most])
    return f"{shown} and more" if len(missing) > most else shown


def _has(letter: str) -> bool:
    at = bisect_right(runs(), (ord(letter), 0x110000)) - 1
    return (at >= 0 and ord(letter) <= runs()[at][1]) or unicodedata.category(letter) in ("Zs", "Cc", "Cf")
