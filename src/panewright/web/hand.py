"""The hand at a page: whose it is, what it taps, and how that is taken back."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from starlette.requests import Request

from panewright.web.answer import session, tap_of

if TYPE_CHECKING:
    from panewright.desk.shop.who import Who


@dataclass(frozen=True, slots=True)
class Undo:
    """How the last tap is taken back."""

    words: str
    to: str
    values: tuple[tuple[str, str], ...] = ()


def who(request: Request) -> Who:
    """Who taps, now."""
    from panewright.desk.shop.who import Who

    return Who.now(session(request).by, tap_of(request))


def whole(typed: object) -> int:
    """A whole number that a page sends; 0 where it is none."""
    return int(typed) if isinstance(typed, str) and typed.isdecimal() and len(typed) < 10 else 0


async def typed_of(request: Request) -> dict[str, str]:
    """What a form sends, bounded."""
    return {name: str(value)[:4000] for name, value in (await request.form()).items()}
