"""A person's mistake is told in sentences, by every command alike."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager

import click

from panewright.errors import PanewrightError


@contextmanager
def told_plainly() -> Iterator[None]:
    """A person's mistake is told in sentences on standard error, without a traceback."""
    try:
        yield
    except PanewrightError as mistake:
        for problem in mistake.problems:
            click.echo(str(problem), err=True)
        sys.exit(2)
    except BrokenPipeError:
        raise  # whoever reads the output has seen enough
    except OSError as reason:
        click.echo(f"The output cannot be written: {reason.strerror or reason}.", err=True)
        sys.exit(2)
