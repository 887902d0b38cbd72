"""A tablet at a shop that is watched: it asks no other address, and its script complains of nothing."""

from __future__ import annotations

from contextlib import contextmanager

from served import TABLET


@contextmanager
def watched(browser, served):
    """What it asks of other addresses, and what its script complains of, is kept and looked at in the end."""
    context = browser.new_context(viewport=TABLET, has_touch=True)
    opened = context.new_page()
    opened.foreign, opened.complaints = [], []
    opened.on(
        "request",
        lambda asked: (
            opened.foreign.append(asked.url)
            if not asked.url.startswith((served.url, "data:", "blob:"))
            else None
        ),
    )
    opened.on("pageerror", lambda mistake: opened.complaints.append(str(mistake)))
    opened.on(
        "console",
        lambda told: opened.complaints.append(told.text) if "Content Security Policy" in told.text else None,
    )
    yield opened
    assert opened.foreign == []
    assert opened.complaints == []
    context.close()
