"""The lightest sheet that passes is taken, and every candidate's proof is kept."""

from panewright.check import Check
from panewright.glass.load import PaneLoad
from panewright.glass.pane import Sheet
from panewright.structure.loads import Loads
from panewright.structure.panes.choice import choose_pane

LEAST = {3: 2.92, 4: 3.78, 5: 4.57, 6: 5.56}
SHEETS = tuple(
    Sheet(f"{treatment} {nominal}", "glass", treatment, "plain", nominal, least, 2500, 9e-6, 0.9)
    for treatment in ("annealed", "tempered")
    for nominal, least in LEAST.items()
)


def gust(pressure_pa):
    load = PaneLoad("wind gust", pressure_pa, 3.0, "wind", False)
    return Loads("ASCE", (), (load,), pressure_pa, pressure_pa, pressure_pa, pressure_pa, pressure_pa)


def test_the_lightest_pane_that_passes_is_chosen():
    choice = choose_pane(SHEETS, 1600, 1000, "ASCE", lambda _: gust(2400.0))
    passing = [row for row in choice.rows if row.passed]
    assert len(choice.rows) == len(SHEETS)
    assert choice.chosen.pane.sheet.treatment == "tempered"
    assert choice.chosen.mass_kg == min(row.mass_kg for row in passing)


def test_a_lighter_pane_is_taken_where_the_wind_allows_it():
    calm = choose_pane(SHEETS, 1600, 1000, "ASCE", lambda _: gust(500.0))
    rough = choose_pane(SHEETS, 1600, 1000, "ASCE", lambda _: gust(6500.0))
    assert calm.chosen.mass_kg <= rough.chosen.mass_kg


def test_where_no_pane_passes_the_nearest_is_shown():
    choice = choose_pane(SHEETS, 1600, 1000, "ASCE", lambda _: gust(14000.0))
    assert not choice.chosen.passed
    assert choice.chosen.pane.sheet.name == "tempered 6"


def test_each_candidate_is_judged_under_loads_of_its_own_weight():
    seen = []

    def loads_for(pane):
        seen.append(pane.sheet.nominal_mm)
        return gust(1000.0)

    choose_pane(SHEETS, 1200, 800, "ASCE", loads_for)
    assert seen == [sheet.nominal_mm for sheet in SHEETS]


def test_what_is_costly_is_asked_of_the_lightest_until_one_keeps_it():
    asked = []

    def last(pane):
        asked.append(pane.sheet)
        return (Check("knock", 5.0, pane.sheet.nominal_mm, "mm", "test"),)

    plain = choose_pane(SHEETS, 1600, 1000, "ASCE", lambda _: gust(1000.0))
    choice = choose_pane(SHEETS, 1600, 1000, "ASCE", lambda _: gust(1000.0), last=last)
    assert plain.chosen.pane.sheet.nominal_mm < 5 <= choice.chosen.pane.sheet.nominal_mm
    assert asked[-1] == choice.chosen.pane.sheet
    assert len(asked) == len(set(asked)) < len(SHEETS)
    pinned = choose_pane(SHEETS, 1600, 1000, "ASCE", lambda _: gust(1000.0), SHEETS[0], last=last)
    assert pinned.chosen.pane.sheet == SHEETS[0]
    assert any(check.rule == "knock" for check in pinned.chosen.proof.checks)


def test_where_nothing_holds_the_nearest_is_asked_as_well():
    knock = Check("knock", 5.0, 6.0, "mm", "test")
    choice = choose_pane(SHEETS, 1600, 1000, "ASCE", lambda _: gust(14000.0), last=lambda _: (knock,))
    assert knock in choice.chosen.proof.checks
