"""Fields of a form, filled by their names."""

from __future__ import annotations


def filled(page, **said):
    for name, value in said.items():
        page.locator(f"#{name.replace('_', '-')}").fill(value)
