"""The table of times as it is printed."""

from __future__ import annotations

from row import NotRun, Row

LINE = "{:76} {:>10} {:>10} {:>9}  {:16} {:9} {}"


def told(row: Row | NotRun) -> str:
    """One line of the table."""
    if isinstance(row, NotRun):
        return LINE.format(row.what, "NOT RUN", "", "", "", "", f"{row.program} is not installed")
    ratio = "" if row.ratio is None else f"{row.ratio:.3g} x"
    peer = "" if row.peer_s is None else time_words(row.peer_s)
    return LINE.format(
        row.what, time_words(row.ours_s), peer, ratio, _asked(row), row.verdict, row.peer
    ).rstrip()


def _asked(row: Row) -> str:
    limit = "" if row.most_s is None else f"{row.most_s:g} s"
    times = "" if row.least_ratio is None else f"{row.least_ratio:g} x"
    return " ".join(part for part in (limit, times) if part)


def time_words(seconds: float) -> str:
    """A time with three figures.

    >>> time_words(1.5), time_words(0.0123), time_words(3.2e-5)
    ('1.50 s', '12.3 ms', '32.0 us')
    """
    for factor, unit in ((1.0, "s"), (1e3, "ms")):
        if seconds * factor >= 1:
            return f"{seconds * factor:#.3g} {unit}"
    return f"{seconds * 1e6:#.3g} us"
