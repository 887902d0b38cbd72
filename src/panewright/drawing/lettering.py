"""How long a line of words will be, before anything is set.

The advance widths are those of Source Sans Pro Regular and Bold, the face of every page and drawing, in
thousandths of the letter body. The thin space before a unit counts as the face's no-break space, a fifth
of the body, which is what is set in its place. No font is opened here: the two rows below were read from
the font once, and a test holds them against it.
"""

from __future__ import annotations

from functools import lru_cache

CAPITAL = 0.660  #: height of a capital as a share of the letter body
DESCENT = 0.205  #: how far g and p hang below the foot
ASCENT = 0.712  #: how far l and d stand above the foot

_REGULAR = (
    "200 289 425 497 497 824 609 249 303 303 418 497 249 311 249 350 497 497 497 497 497 497 497 497 497 497 "
    "249 249 497 497 497 425 847 544 588 571 615 527 494 617 652 263 480 579 486 727 647 664 566 664 569 534 "
    "536 645 515 786 513 476 539 303 350 303 497 500 542 504 553 456 555 496 292 504 544 246 247 495 255 829 "
    "547 542 555 555 347 419 338 544 467 718 446 467 425 303 241 303 497"
)
_BOLD = (
    "200 340 536 528 528 857 667 300 344 344 457 528 300 332 300 339 528 528 528 528 528 528 528 528 528 528 "
    "300 300 528 528 528 463 903 573 605 582 635 548 524 638 674 301 509 614 518 762 665 684 596 684 613 556 "
    "556 665 556 813 567 525 541 344 339 344 528 500 555 527 573 467 573 518 341 534 571 276 278 548 286 857 "
    "572 555 573 573 398 443 383 568 523 776 514 521 460 344 268 344 528"
)
_SIGNS = "\u2009\u202f\u00a0°±²³µ·×−–—…→≤≥½¼¾ΩΔ"
_SIGN_WIDTHS = "202 202 202 331 497 367 367 562 249 497 497 480 800 948 619 497 497 808 781 796 678 588"
_OTHER = 600  # letters not in the rows: a little wider than most, so that room is never short


@lru_cache(maxsize=2)
def advances(bold: bool = False) -> dict[str, int]:
    """Advance width of each known letter, in thousandths of the letter body."""
    rows = _BOLD if bold else _REGULAR
    letters = dict(zip((chr(code) for code in range(32, 127)), map(int, rows.split()), strict=True))
    extra = 1.06 if bold else 1.0  # bold signs are some 6 % wider
    return letters | {
        sign: round(int(w) * extra) for sign, w in zip(_SIGNS, _SIGN_WIDTHS.split(), strict=True)
    }


def text_width_mm(words: str, height_mm: float, bold: bool = False) -> float:
    """Length of a line of words whose letter body is `height_mm` tall. [mm]

    >>> round(text_width_mm("1637.5 mm", 3.5), 2)
    16.07
    """
    return _thousandths(words, bold) * height_mm / 1000


@lru_cache(maxsize=4096)
def _thousandths(words: str, bold: bool) -> int:
    """Kept, for a figure is tried at several scales, with the same words each time."""
    widths = advances(bold)
    return sum([widths.get(letter, _OTHER) for letter in words])
