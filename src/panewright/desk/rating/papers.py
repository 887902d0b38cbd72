"""The test report as a file."""

from __future__ import annotations

from pathlib import Path

from panewright.desk.folder import write_all
from panewright.desk.rating.lines import instruments, predicted
from panewright.desk.rating.rated import PanelRated
from panewright.pack.figures.rated_chart import curves_of
from panewright.pack.leaf import BookLeaf
from panewright.pack.pages.rating import RatingReport, rating_book
from panewright.paper.leaf import render
from panewright.units import show


def name_of(made: PanelRated) -> str:
    """How the file is called."""
    return f"test-report-{plain(made.serial)}.pdf" if made.serial else "test-report.pdf"


def plain(serial: str) -> str:
    """A serial as part of a file's name.

    >>> plain("JL/7 0001")
    'JL-7-0001'
    """
    return "".join(letter if letter.isalnum() else "-" for letter in serial)


def report_bytes(made: PanelRated) -> bytes:
    """The report; the same rating gives the same bytes."""
    return render(BookLeaf(name_of(made), rating_book(_report(made))))


def write(made: PanelRated, folder: Path) -> str:
    """Write it into a folder; its name."""
    name = name_of(made)
    write_all(folder, {name: report_bytes(made)})
    return name


def _report(made: PanelRated) -> RatingReport:
    own = made.rating
    names = ("power_w", "isc_a", "voc_v", "imp_a", "vmp_v", "fill_factor")
    units = made.design.order.job.units
    light, hot = made.sources.light, made.sources.heat
    return RatingReport(
        design=made.design,
        serial=made.serial,
        as_built=made.as_built,
        day=made.day,
        file=made.read.file,
        rated=made.rated,
        curves=curves_of(made.predicted, made.rated),
        rating=own,
        predicted={name: predicted(made, name) for name in names},
        light=f"Light by {made.told.light.by}: {show(light.value_w_m2, 'W/m2', units)}, "
        f"± {show(2 * light.sigma_w_m2, 'W/m2', units, 2)} (k = 2).",
        heat=f"Heat of the cells by {hot.how}: {show(made.rated.cell_c, 'degC', units)}, "
        f"± {show(2 * hot.sigma_k, 'K', units, 2)} (k = 2).",
        flags=made.flags,
        said=made.said,
        instruments=instruments(made),
        safety=made.safety,
    )
