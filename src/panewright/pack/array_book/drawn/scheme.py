"""What a single-line drawing is drawn from: an array as strings, inputs, runs and what hangs at the bank."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class Strand:
    """One string as it is drawn."""

    sign: str  #: its letter
    serials: tuple[str, ...]  #: in the order of the current
    cold_v: float | None  #: open, in record cold; None where no factor reaches so far
    hot_v: float  #: at its best in record heat
    isc_a: float
    fused: bool
    fuse_a: float | None  #: None where none is needed, or where none fits
    blocking: bool  #: whether a blocking diode sits in it
    input: int  #: from 0


@dataclass(frozen=True, slots=True)
class Hung:
    """One thing at the end of the chain, with its words."""

    words: tuple[str, ...]  #: lines; the first is its name
    kind: Literal["battery", "load", "generator", "motor"]


@dataclass(frozen=True, slots=True)
class Scheme:
    """All that is really there, and nothing else."""

    name: str
    strands: tuple[Strand, ...]
    box: bool  #: whether strings meet in a combiner box
    isolators: tuple[str, ...]  #: in the run of each input, from the panels on, by their names
    string_tag: str  #: tag of the runs of strings, empty where there is none
    input_tag: str
    bank_tag: str
    controller: tuple[str, ...]  #: lines; empty where panels feed straight
    converts: bool  #: whether the controller seeks the greatest power; else it is a switch
    hung: tuple[Hung, ...]  #: the battery first
    bank_isolator: bool
    bank_fuse: str  #: its words, empty where there is none
    earthed: bool  #: frames
    surge: bool
    key: tuple[str, ...]  #: lines under the drawing: what each tag is

    def __post_init__(self) -> None:
        if not self.strands:
            raise ValueError("an array has a string or more")

    @property
    def inputs(self) -> tuple[tuple[Strand, ...], ...]:
        """Strings by input."""
        numbers = sorted({strand.input for strand in self.strands})
        return tuple(tuple(s for s in self.strands if s.input == number) for number in numbers)


@dataclass(frozen=True, slots=True)
class Like:
    """Strings of one input that differ in nothing but their serials and tenths of a volt."""

    strands: tuple[Strand, ...]
    folded: bool = True  #: drawn as one box, its serials elsewhere

    @property
    def sign(self) -> str:
        """Their letters.

        >>> one = Strand("A", ("1",), 20.0, 15.0, 8.0, False, None, False, 0)
        >>> Like((one,)).sign
        'A'
        """
        first, last = self.strands[0].sign, self.strands[-1].sign
        signs = [strand.sign for strand in self.strands]
        if len(signs) == 1:
            return first
        in_a_row = [string_sign(n) for n in range(_number(first), _number(first) + len(signs))]
        return f"{first}–{last}" if signs == in_a_row else ", ".join(signs)


def string_sign(number: int) -> str:
    """Letter of a string by its number from 0: A to Z, then AA on.

    >>> string_sign(0), string_sign(25), string_sign(26)
    ('A', 'Z', 'AA')
    """
    letters, left = "", number + 1
    while left:
        left, at = divmod(left - 1, 26)
        letters = chr(ord("A") + at) + letters
    return letters


def _number(sign: str) -> int:
    number = 0
    for letter in sign:
        number = 26 * number + ord(letter) - ord("A") + 1
    return number - 1


def alike(strands: Sequence[Strand]) -> tuple[Like, ...]:
    """Strings folded: those with as many panels, the same fuse and the same diode at one input."""
    groups: dict[tuple[object, ...], list[Strand]] = {}
    for strand in strands:
        key = (strand.input, len(strand.serials), strand.fused, strand.fuse_a, strand.blocking)
        groups.setdefault(key, []).append(strand)
    return tuple(Like(tuple(group)) for group in groups.values())
