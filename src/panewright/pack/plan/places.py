"""The kinds of places that a panel holds while it lies still, and their names in words."""

from __future__ import annotations

CURE, FORM, PRESS = "cure", "form", "press"
_ONE = {CURE: "cure place", FORM: "template", PRESS: "press"}
_SEVERAL = {PRESS: "presses"}


def named(kind: str, number: int = 1) -> str:
    """A place of a kind, or several of them.

    >>> named("cure"), named("form", 3), named("press", 2)
    ('cure place', 'templates', 'presses')
    """
    one = _ONE.get(kind, f"{kind} place")
    return one if number == 1 else _SEVERAL.get(kind, f"{one}s")
