"""The sign of a string, the same on pages, in records and in the book: A, B ... Z, AA."""

from __future__ import annotations

_LETTERS = 26


def sign_of(number: int) -> str:
    """A string's sign by its number, from 0.

    >>> sign_of(0), sign_of(25), sign_of(26), sign_of(27)
    ('A', 'Z', 'AA', 'AB')
    """
    more, last = divmod(number, _LETTERS)
    return (sign_of(more - 1) if more else "") + chr(ord("A") + last)
