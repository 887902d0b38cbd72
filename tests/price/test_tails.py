"""The ribbon to the box and the ends of the leads are counted once, and the same, wherever they are told."""

import math
from dataclasses import replace
from decimal import Decimal
from functools import cache

import pytest

import examples
from panewright import desk
from panewright.layup.buses import crossings
from panewright.layup.lengths import bus_pieces
from panewright.layup.stations import bus_kinds
from panewright.pack.bench import Bench
from panewright.pack.steps.takes import lines_of
from panewright.panel.electric.watts import wired_of
from panewright.panel.electric.wiring import network_at
from panewright.price.kit import as_kit, packing
from panewright.price.lists import ribbon_listing
from panewright.price.offers.quote import quote
from panewright.ribbon.resistance import kg_per_m, ohm_per_m
from panewright.shelf.load import load_shelf

FAR = "bathhouse"  # ten columns: two of its taps leave beside the box


def line(made, use):
    (found,) = [each for each in made.quote.lines if each.use == use]
    return found


@cache
def ended(leads):
    text = (examples.FOLDER / "fence.toml").read_text("utf-8")
    return desk.design(f'{text}\n[closing]\nleads = "{leads}"\n'.encode(), "x")


@pytest.mark.parametrize("name", [FAR, "kiosk", "frost-sensor"])
def test_parts_sheet_list_step_and_mass_have_the_same_metres_of_bus(name):
    made = examples.made(name)
    design, layup = made.design, made.design.layup
    metres = sum(piece.length_mm for piece in (*layup.buses, *layup.tails)) / 1000
    assert len(layup.tails) == len(layup.leads) + len(layup.taps)
    assert float(line(made, "bus").one) == pytest.approx(metres, abs=1e-3)
    assert sum(piece.metres for piece in bus_pieces(layup)) == pytest.approx(metres)
    assert sum(kind.length_mm * kind.quantity for kind in bus_kinds(layup)) / 1000 == pytest.approx(metres)
    rows = [row for row in ribbon_listing(design).rows if row[0] == design.electrical.bus.name]
    assert sum(row[2] * row[3] for row in rows) / 1000 == pytest.approx(metres, abs=0.01)
    assert dict(design.structural.mass.parts)["buses"] == pytest.approx(
        metres * kg_per_m(design.electrical.bus)
    )
    (bus,) = [each for each in lines_of(Bench(design, made.quote), "join-columns") if each.use == "bus"]
    assert float(bus.one) == pytest.approx(metres, abs=1e-3)


def test_a_far_tap_brings_its_sleeve_into_parts_kit_step_and_mass():
    made = examples.made(FAR)
    far = [tail for tail in made.design.layup.tails if tail.way_mm > 0]
    sleeve = line(made, "sleeve")
    assert len(far) == 2
    assert float(sleeve.one) == pytest.approx(
        sum(math.ceil(t.rise_mm + t.way_mm) for t in far) / 1000, abs=1e-3
    )
    assert sleeve.price is not None
    assert dict(made.design.structural.mass.parts)[sleeve.name] == pytest.approx(sleeve.mass_kg)
    boxed = packing(made.quote.lines, ())
    assert any(each.use == "sleeve" and each.amount >= sleeve.one for each in boxed)
    uses = [each.use for each in lines_of(Bench(made.design, made.quote), "join-columns")]
    assert "sleeve" in uses


def test_a_crossing_has_its_film_in_the_parts_list():
    """Three strings side by side: ribbons of one cross the bus of another."""
    text = (examples.FOLDER / "fence.toml").read_text("utf-8")
    plain = examples.made("fence")
    assert not [each for each in plain.quote.lines if each.use == "crossing film"]
    made = desk.design(f"{text}\n[layout]\nstrings = 3\n".encode(), "x")
    layup = made.design.layup
    film = line(made, "crossing film")
    wide = (layup.plan.bus_width_mm + 4) / 1000
    assert len(crossings(layup.buses)) > 0
    assert float(film.one) == pytest.approx(len(crossings(layup.buses)) * wide, abs=1e-3)
    (mass,) = [row[10] for row in made.quote.listings[0].rows if row[1] == film.name]
    assert mass == pytest.approx(film.mass_kg, rel=0.01)
    assert 0 < mass < 0.001
    bench = Bench(made.design, made.quote)
    assert bench.mass(film.mass_kg / 100) == "under 0.1\u2009oz"
    assert bench.mass(0.002) == "0.1\u2009oz"


def test_the_leads_resist_by_their_tails_as_well():
    """Twice the tail's length of bus ribbon, copper at the cells' heat."""
    design = examples.made("kiosk").design
    wired = wired_of(design)
    bare = replace(wired, layup=replace(wired.layup, tails=()))
    more = network_at(wired, 1000, 25.0).lead_ohm - network_at(bare, 1000, 25.0).lead_ohm
    metres = sum(tail.length_mm for tail in wired.layup.tails if tail.pole != "between") / 1000
    assert metres == pytest.approx(0.134)
    assert more == pytest.approx(metres * ohm_per_m(wired.bus, 25.0))
    assert design.electrical.network.lead_ohm == pytest.approx(network_at(wired, 1000, 25.0).lead_ohm)


def test_a_panel_takes_a_pair_of_plugs_unless_its_leads_end_bare():
    plugs, bare = ended("plugs"), ended("bare")
    pair = line(plugs, "plug")
    assert (pair.one, pair.buy) == (1, plugs.design.order.job.panels)
    assert pair.price is not None
    assert "Invented price" in pair.source
    assert not [each for each in bare.quote.lines if each.use == "plug"]
    ferrules = line(bare, "ferrule")
    assert (ferrules.one, ferrules.buy) == (1, bare.design.order.job.panels)
    assert not [each for each in plugs.quote.lines if each.use == "ferrule"]
    lighter = plugs.design.label.mass_kg - bare.design.label.mass_kg
    assert lighter == pytest.approx(pair.mass_kg - ferrules.mass_kg)
    assert plugs.quote.price_order > bare.quote.price_order


def test_a_pair_of_plugs_takes_its_minutes_and_lies_in_a_kit():
    made = ended("plugs")
    (work,) = [each for each in made.quote.work if each.step.startswith("Crimp plug")]
    assert work.minutes == Decimal(6 * made.design.order.job.panels)
    kit = as_kit(made.design)
    boxed = packing(quote(kit, load_shelf()).lines, ())
    assert [each.amount for each in boxed if each.use == "plug"] == [1]


def test_each_tail_is_joined_to_its_terminal_and_each_bare_end_takes_a_ferrule_in_minutes_of_their_own():
    made = ended("bare")
    panels = made.design.order.job.panels
    minutes = {each.step: each.minutes for each in made.quote.work}
    assert minutes["Join the tails to their terminals"] == 2 * len(made.design.layup.tails) * panels
    assert minutes["Crimp ferrules on the leads"] == 2 * panels
    uses = [each.use for each in lines_of(Bench(made.design, made.quote), "close-back")]
    assert "ferrule" in uses
