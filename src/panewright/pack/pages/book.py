"""The book: all pages of one order, for the maker, the helper at the bench and the doubting engineer."""

from __future__ import annotations

from panewright.circuit.account import Account
from panewright.crate.crated import Crated
from panewright.drawing.sheet import Book
from panewright.pack.bench import Bench
from panewright.pack.carriage import carriage
from panewright.pack.heading import order_words, stamp
from panewright.pack.pages.box import box_page
from panewright.pack.pages.caution import caution_page
from panewright.pack.pages.closing import closing_page
from panewright.pack.pages.corner import corner_pages
from panewright.pack.pages.crate import crate_pages
from panewright.pack.pages.frame import frame_pages
from panewright.pack.pages.front import front_pages
from panewright.pack.pages.layup import layup_pages
from panewright.pack.pages.lists import lists_pages
from panewright.pack.pages.money import market_page
from panewright.pack.pages.mounting import mounting_page
from panewright.pack.pages.plan import plan_page
from panewright.pack.pages.readings import readings_pages
from panewright.pack.pages.reckoning import reckoning_pages
from panewright.pack.pages.safe_wind import safe_wind_pages
from panewright.pack.pages.shade import shade_page
from panewright.pack.pages.watts import watts_page
from panewright.pack.pages.weighing import weighing_pages
from panewright.pack.steps.steps import steps_page
from panewright.panel.design import Design
from panewright.price.offers.offer import Offer, offer
from panewright.price.offers.quote import Quote


def make_book(
    design: Design, quote: Quote, watts: Account, crated: Crated | None, offered: Offer | None = None
) -> Book:
    """All pages in the order in which they are needed.

    `watts` go from the bare cells to the panel at work.
    """
    bench = Bench(design, quote)
    pages = (
        *front_pages(bench),
        *weighing_pages(design),
        *reckoning_pages(bench),
        *safe_wind_pages(bench),
        watts_page(bench, watts),
        shade_page(bench),
        *layup_pages(bench),
        *frame_pages(bench),
        *corner_pages(bench),
        box_page(bench),
        mounting_page(bench),
        closing_page(bench),
        *lists_pages(bench),
        market_page(bench, offered or offer(design, quote, reckoned=carriage(design, crated))),
        steps_page(bench),
        plan_page(bench),
        *readings_pages(bench),
        *(crate_pages(bench, crated) if crated else ()),
        caution_page(lfp=_charges_lfp(design)),
    )
    job = design.order.job
    return Book(
        "Build book", order_words(design), design.revision, job.paper, pages, job.units, stamp(design)
    )


def _charges_lfp(design: Design) -> bool:
    battery = design.order.load.battery
    return battery is not None and battery.chemistry == "lfp"
