"""`python -m panewright.cli`."""

from panewright.cli.main import cli

cli()
