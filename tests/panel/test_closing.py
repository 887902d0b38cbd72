"""How a panel is closed follows the order: the shop's heat, what lies about, film, gap and back."""

from pathlib import Path

import pytest

from panewright.order.parse import parse_order
from panewright.panel.choose import design_panel
from panewright.panel.pinned import pinned_order, pinned_shelf
from panewright.shelf.load import load_shelf
from panewright.structure.mass import bead_mass_kg

SHELF = load_shelf()
FENCE = (Path(__file__).parents[2] / "examples" / "henhouse.toml").read_text("utf-8")


def designed(closing: str = "", parts: str = ""):
    text = f"{FENCE}\n[parts]\n{parts}\n[closing]\n{closing}\n"
    return design_panel(parse_order(text, "henhouse.toml", SHELF), SHELF)


def failed(design):
    return [check.rule for check in design.closing.checks if not check.passed]


@pytest.fixture(scope="module")
def usual():
    return designed()


def test_an_order_that_says_nothing_is_poured_as_before(usual):
    poured = usual.closing.pour
    assert poured.silicone.name == "clear silicone encapsulant, two parts"
    assert (poured.work.at_c, poured.work.pot_life_min, usual.pour.batches) == (23.0, 60.0, 2)
    assert usual.pour is poured.pour
    assert usual.closing.back.name == "white back sheet 0.35 mm"
    assert failed(usual) == []


def test_every_check_of_the_closing_is_a_check_of_the_design(usual):
    assert set(usual.closing.checks) <= set(usual.checks)
    assert all(check.room == "enclosure" for check in usual.closing.checks)


def test_a_hot_shop_takes_a_slower_silicone_and_says_what_was_weighed():
    design = designed('shop_temperature = "38 degC"')
    assert design.closing.pour.silicone.name.endswith("slow")
    (weighed,) = [each for each in design.weighed if "silicone" in each.question]
    assert weighed.taken == design.closing.pour.silicone.name
    assert len(weighed.rows) == len(SHELF.pours)
    assert failed(design) == []


def test_a_cold_shop_is_told_by_its_rule():
    assert failed(designed('shop_temperature = "4 degC"')) == ["shop warm enough for the silicone's figures"]


def test_what_stops_the_cure_fails_the_design_until_the_silicone_is_another():
    assert failed(designed('near = "Latex gloves, masking tape"')) == [
        "things near the pour that stop its cure"
    ]
    assert failed(designed('near = "masking tape"')) == []
    assert designed('near = "none"').order.closing.near == ()
    tin = 'pour = { ratio = "10 : 1", pot_life = "45 min", full_cure = "24 h", oven_cure = "60 min"'
    tin += ', oven = "60 degC", cures_by = "tin" }'
    assert failed(designed('near = "latex gloves"', tin)) == []


def test_a_silicone_of_the_orders_own_is_poured_and_weighed_without_a_price():
    own = 'pour = { ratio = "1,5 : 1", pot_life = "90 min", full_cure = "30 h", oven_cure = "20 min"'
    design = designed("", own + ', oven = "100 degC" }')
    assert design.closing.pour.silicone.parts_a == pytest.approx(1.5)
    (mass,) = [kg for name, kg in design.structural.mass.parts if name == "pour of the order"]
    assert mass == pytest.approx(design.pour.poured_kg)


def test_film_is_laminated_by_a_card_of_its_own():
    design = designed("", 'encapsulation = "film"')
    card = design.closing.laminating
    assert card.plate_c == 145.0
    assert card.gel == pytest.approx(0.85, abs=0.01)
    assert design.closing.pour is None
    assert design.closing.fog is None
    short = designed(
        'hold = "2 min"\nheater = "oven"\nplate_temperature = "130 degC"', 'encapsulation = "film"'
    )
    assert "film cured enough" in failed(short)


def test_a_thick_bus_takes_the_thicker_film():
    design = designed("", 'encapsulation = "film"\nbus = { width = "5 mm", thickness = "0.4 mm" }')
    assert design.closing.laminating.film.name == "EVA film 0.6 mm"
    (mass,) = [kg for name, kg in design.structural.mass.parts if name == "EVA film 0.6 mm"]
    assert mass > 0


def test_an_air_gap_is_told_when_it_fogs_and_held_against_years_only_where_asked():
    vented = designed("", 'encapsulation = "air gap"')
    assert vented.closing.fog.clear_years == 0.0
    assert failed(vented) == []
    sealed = 'gap = "sealed"\ndesiccant = "{}"\nfog_free = "3 yr"'
    assert failed(designed(sealed.format("20 g"), 'encapsulation = "air gap"')) == ["air gap free of fog"]
    glass = 'encapsulation = "air gap"\nback = "float glass 3 mm, as back"'
    assert failed(designed(sealed.format("150 g"), glass)) == ["screws through a back of glass"]


def test_a_board_behind_an_air_gap_is_held_against_the_wind():
    rules = [check.rule for check in designed("", 'encapsulation = "air gap"').closing.checks]
    assert "back board holds under its screws" in rules


def test_the_board_behind_an_air_gap_carries_its_cells_and_bears_their_heat():
    chosen = designed("", 'encapsulation = "air gap"')
    assert chosen.closing.back.name == "glass-fibre epoxy board 3 mm"
    assert chosen.amounts.board_screws == chosen.structural.frame.holes("board") > 0
    thin = failed(designed("", 'encapsulation = "air gap"\nback = "white back sheet 0.35 mm"'))
    assert thin == [
        "back board stiff enough for its cells",
        "back board's span between its screws",
        "back board's screw ends short of the pane",  # none is made so short
    ]
    soft = designed("", 'encapsulation = "air gap"\nback = "aluminium composite board 3 mm"')
    assert failed(soft) == ["heat the back sheet bears"]


def test_a_back_that_the_order_names_goes_into_heat_light_and_mass(usual):
    glass = designed("", 'back = "float glass 3 mm, as back"')
    assert glass.structural.temperatures.hot_cell_c != usual.structural.temperatures.hot_cell_c
    assert glass.structural.mass.total_kg > usual.structural.mass.total_kg + 1.0
    white, black = (
        designed("", f'encapsulation = "film"{back}') for back in ("", '\nback = "black back sheet 0.32 mm"')
    )
    assert black.electrical.light < white.electrical.light


def test_the_design_pinned_closes_as_it_did():
    for design in (designed('shop_temperature = "38 degC"'), designed("", 'encapsulation = "film"')):
        again = design_panel(pinned_order(design), pinned_shelf(design, SHELF))
        assert again.closing.pour == design.closing.pour
        assert again.closing.laminating == design.closing.laminating
        assert again.closing.back == design.closing.back
        assert again.closing.checks == design.closing.checks


def test_a_fragile_diode_is_passed_over_for_one_that_stays_cool(usual):
    assert usual.closing.junction is not None
    assert usual.closing.junction.at_isc_c < usual.electrical.bypass.bears_c
    assert usual.closing.box.sheds_w == pytest.approx(usual.amounts.diodes * usual.closing.junction.heat_w)


def test_a_back_sheet_on_a_pour_is_held_by_a_fillet_that_is_bought_and_weighed(usual):
    pane, bead = usual.structural.pane, usual.structural.bead
    fillet_ml = 2 * (pane.long_mm + pane.short_mm) * 18.0 / 1000
    assert usual.amounts.fillet_ml == pytest.approx(fillet_ml)
    masses = dict(usual.structural.mass.parts)
    assert masses["bead"] == pytest.approx(bead_mass_kg(pane, bead, also_ml=fillet_ml))
    assert bead_mass_kg(pane, bead, also_ml=fillet_ml) > bead_mass_kg(pane, bead)
    assert designed("", 'encapsulation = "film"').amounts.fillet_ml == 0.0
