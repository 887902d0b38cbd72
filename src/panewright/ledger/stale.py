"""Somebody else saved in the meantime: told with what stands now, so that nobody's work is lost."""

from __future__ import annotations

from typing import Protocol

from panewright.errors import Problem, StaleError


class Version(Protocol):
    """Anything that is saved version by version."""

    @property
    def version(self) -> int:
        """From 1."""

    @property
    def by(self) -> str:
        """Who saved it."""


def refuse_stale(what: str, key: str, *, seen: int, stands: Version | None) -> None:
    """`StaleError` where the version looked at is not the one that stands."""
    if (stands.version if stands else 0) == seen:
        return
    if stands is None:
        reason, cure = "there is no such thing yet.", "Save it as a new one."
    else:
        reason = f"{stands.by} saved version {stands.version} in the meantime."
        cure = "Look at it, then save yours again; nothing was lost."
    raise StaleError([Problem(reason, cure, key=what, value=key)], stands)
