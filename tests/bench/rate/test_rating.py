"""Label, verdict, checklist and flags."""

from dataclasses import replace
from datetime import UTC, date, datetime
from types import SimpleNamespace

import pytest

from panewright.bench.rate import light
from panewright.bench.rate.between import Between
from panewright.bench.rate.budget import Budget, Input, Term
from panewright.bench.rate.checklist import Asked, Tried, checklist, needed_mohm, safe, withstand_v
from panewright.bench.rate.flags import OUT_OF_DATE, Flag, flags
from panewright.bench.rate.heat import by_back
from panewright.bench.rate.instrument import of_class
from panewright.bench.rate.known_cells import LOT, MEASURED, NAMEPLATE
from panewright.bench.rate.rated import UNITS, Figure, Rated, Taken
from panewright.bench.rate.rating import Prediction, Rule, judge
from panewright.cell.key_points import KeyPoints
from panewright.curve.measured import Measured
from panewright.curve.moved.choice import Chosen, Given, Gone
from panewright.curve.moved.moved import Moved
from panewright.curve.points import PointsRead, Read
from panewright.sky.light import clear_light
from panewright.sky.place import Place, Plane

PREDICTED = Prediction(KeyPoints(8.5, 22.0, 8.0, 18.0), MEASURED)  # 144 W, fill factor 0.77
CURVE = Measured(tuple(0.5 * k for k in range(46)), tuple(8.5 - 0.19 * k for k in range(46)), 900.0, 45.0)
SHORT = Measured(CURVE.voltage_v[:-1], CURVE.current_a[:-1], 900.0, 45.0)
ASKED = Asked(area_m2=0.8, system_v=600.0, fuse_a=15.0, rails=4, diodes=2, cells=36, strings=2)
READ = (2200.0, 60.0, 600.0, 55.0, (0.02, 0.05, 0.03, 0.08), 37.5, (0.32, 0.31))
DONE = Tried(*READ, ends_v=19.8, strings_a=(3.4, 3.3), pulled_n=(50.0, 50.0))


def rated(unrated=(), share=0.02, **figures):
    """A panel with these figures, the others as predicted; each known to a share (k = 1)."""
    as_predicted = {"power_w": 144.0, "isc_a": 8.5, "voc_v": 22.0, "imp_a": 8.0, "vmp_v": 18.0}
    values = {**as_predicted, "fill_factor": 144 / 187, **figures}
    term = Term(Input("light: sensor", share, "share"), 1.0, share, 1.0)
    known = {name: Budget(name, value, (term,), share * value, 0.0) for name, value in values.items()}
    made = tuple(
        Figure(name, None if name in unrated else known[name], "why not" if name in unrated else "")
        for name in UNITS
    )
    read = PointsRead(*(Read(values[name], 0.0) for name in ("isc_a", "voc_v", "imp_a", "vmp_v", "power_w")))
    chosen = Chosen(Gone(Moved(CURVE, "1", (), None), read), (), "")
    budgets = SimpleNamespace(of=lambda name: known[name])
    return Rated(made, chosen, budgets, 900.0, 45.0)


def test_a_panel_as_predicted_passes_with_its_label_cut_to_whole_steps():
    found = judge(rated(), PREDICTED, Rule(step_w=5))
    assert (found.label_w, found.verdict) == (140, "pass")
    assert found.bears_w == 150  # 144 W over 0.95
    assert found.surely_bears_w == 145  # 144 W less 5.76 W, over 0.95
    assert all(check.passed for check in found.checks)


@pytest.mark.parametrize(
    ("figures", "word"),
    [
        ({"power_w": 130.0}, "Pmp rated against the prediction"),
        ({"isc_a": 7.9}, "Isc rated against the prediction"),
        ({"isc_a": 9.1}, "Isc rated against the prediction"),
        ({"voc_v": 20.5}, "Voc rated against the prediction"),
        ({"fill_factor": 0.70}, "fill factor rated against the prediction"),
    ],
)
def test_a_figure_surely_off_is_a_rework_that_names_it(figures, word):
    found = judge(rated(**figures), PREDICTED)
    assert found.verdict == "rework"
    assert word in found.why
    assert word in [check.rule for check in found.checks if not check.passed]


def test_less_than_both_uncertainties_together_proves_nothing():
    assert judge(rated(isc_a=8.2, voc_v=21.3), PREDICTED).verdict == "pass"
    assert judge(rated(isc_a=8.2, share=0.005), PREDICTED).verdict == "rework"


@pytest.mark.parametrize(("cells", "verdict"), [(MEASURED, "rework"), (LOT, "rework"), (NAMEPLATE, "pass")])
def test_a_lot_beside_its_sheet_is_no_fault_where_only_the_sheet_is_known(cells, verdict):
    """Voc short by 1.9 %, read to 0.4 %: surely off measured cells, not off a nameplate."""
    off = rated(voc_v=22.0 * 0.981, share=0.004)
    assert judge(off, replace(PREDICTED, cells=cells)).verdict == verdict


def test_a_power_under_the_label_s_tolerance_is_a_rework_and_a_guard_asks_for_more():
    weak = rated(power_w=138.5)
    assert judge(weak, PREDICTED, Rule(tolerance_share=0.03)).verdict == "rework"
    assert judge(weak, PREDICTED, Rule(tolerance_share=0.05)).verdict == "pass"
    assert judge(weak, PREDICTED, Rule(tolerance_share=0.05, guard=1.0)).verdict == "rework"


@pytest.mark.parametrize(("guard", "tolerance"), [(0.0, 0.05), (0.5, 0.05), (1.0, 0.02), (1.5, 0.05)])
def test_the_label_that_it_would_bear_is_the_highest_that_passes(guard, tolerance):
    """By the very rule of the verdict: at that label it holds, at the next step it does not."""
    rule = Rule(tolerance_share=tolerance, guard=guard)
    found = judge(rated(power_w=138.5), PREDICTED, rule)
    for label, holds in ((found.bears_w, True), (found.bears_w + 1, False)):
        points = replace(PREDICTED.points, vmp_v=(label + 0.01) / PREDICTED.points.imp_a)
        made = judge(rated(power_w=138.5), replace(PREDICTED, points=points), rule)
        assert made.label_w == label
        (labelled,) = (check for check in made.checks if check.rule == "power rated against the label")
        assert labelled.passed is holds
    assert found.surely_bears_w <= found.bears_w
    assert found.surely_bears_w * (1 - tolerance) + max(guard, 1) * 2 * 0.02 * 138.5 <= 138.5


def test_a_panel_surely_hopeless_is_rejected():
    found = judge(rated(power_w=100.0), PREDICTED)
    assert found.verdict == "reject"
    assert found.why.startswith("100 W is surely under 115.2 W, 80% of the prediction: not to be sold")
    assert judge(rated(power_w=113.0), PREDICTED).verdict == "rework"  # not surely


def test_a_power_not_known_well_enough_passes_nobody_and_says_what_to_better():
    found = judge(rated(share=0.06), PREDICTED)
    assert found.verdict == "measure again"
    assert "Better the largest term first: light: sensor" in found.why
    assert judge(rated(unrated=("power_w", "isc_a", "imp_a")), PREDICTED).verdict == "measure again"


def test_a_grave_flag_passes_nobody_but_a_figure_surely_off_stays_one():
    grave = Flag("moving clouds", "The light moved by 6.0% of its mean.", grave=True)
    found = judge(rated(), PREDICTED, flagged=[grave, Flag("few points", "9 points.")])
    assert (found.verdict, found.why) == ("measure again", f"{grave.told} Read it again.")
    assert judge(rated(), PREDICTED, flagged=[replace(grave, grave=False)]).verdict == "pass"
    assert judge(rated(power_w=100.0), PREDICTED, flagged=[grave]).verdict == "reject"


def test_an_instrument_past_its_calibration_bars_only_where_the_shop_says_so():
    told = flags(taken(day=date(2027, 3, 1)), rated())
    late = [each for each in told if each.name == OUT_OF_DATE]
    assert late
    assert not any(each.grave for each in late)
    lax, strict = (judge(rated(), PREDICTED, Rule(in_date=must), flagged=told) for must in (False, True))
    assert not any(check.rule.startswith("instruments") for check in lax.checks)
    (rule,) = (check for check in strict.checks if check.rule.startswith("instruments"))
    assert (rule.demand, rule.passed) == (len(late), False)
    assert lax.verdict == "pass"
    assert (strict.verdict, strict.why) == ("measure again", rule.cure)
    assert strict.why.startswith(late[0].told)
    off = judge(rated(power_w=100.0), PREDICTED, Rule(in_date=True), flagged=told)
    assert off.verdict == "reject"


def test_what_was_not_rated_is_a_check_without_a_limit():
    found = judge(rated(unrated=("voc_v", "vmp_v")), PREDICTED)
    open_check = next(check for check in found.checks if check.rule.startswith("Voc"))
    assert not open_check.covered
    assert open_check.cure == "why not"
    assert found.verdict == "pass"


def test_a_panel_that_is_not_safe_is_never_passed():
    leaky = checklist(ASKED, replace(DONE, insulation_mohm=12.0))
    found = judge(rated(), PREDICTED, safety=leaky)
    assert found.verdict == "rework"
    assert found.why.startswith("Not safe to sell: insulation between cells and frame.")
    assert judge(rated(), PREDICTED, safety=checklist(ASKED, DONE)).verdict == "pass"


@pytest.mark.parametrize(("area", "needed"), [(0.05, 400), (0.1, 400), (0.8, 50), (1.6, 25)])
def test_insulation_by_area(area, needed):
    """IEC 61215-2 MQT 03: 400 Mohm under 0.1 m2, from there 40 Mohm m2 (recalled)."""
    assert needed_mohm(area) == pytest.approx(needed)


@pytest.mark.parametrize(("system", "test"), [(24, 500), (50, 500), (60, 1120), (600, 2200), (1000, 3000)])
def test_the_test_voltage(system, test):
    """IEC 61215-2 MQT 03: 1000 V and twice the system voltage, 500 V up to 50 V (recalled)."""
    assert withstand_v(system) == test


def test_a_whole_checklist_holds():
    found = checklist(ASKED, DONE, wet=True)
    assert safe(found)
    assert len(found) == 10
    assert len(checklist(replace(ASKED, diodes=0), DONE)) == 8


@pytest.mark.parametrize(
    ("change", "rule"),
    [
        ({"withstood_v": 0.0}, "voltage withstood between cells and frame"),
        ({"insulation_mohm": 49.0}, "insulation between cells and frame"),
        ({"insulation_v": 500.0}, "voltage of the insulation reading"),
        ({"wet_mohm": 49.0}, "insulation in water"),
        ({"earth_ohm": (0.02, 0.02, 0.02, 0.12)}, "earth to each rail"),
        ({"earth_a": 10.0}, "current of the earth test"),
        ({"drops_v": (0.32, 0.0)}, "bypass diodes that do not conduct as they should"),
        ({"ends_v": -19.8}, "voltage at the ends of the leads, red on plus"),
        ({"ends_v": 9.0}, "voltage at the ends of the leads, red on plus"),
        ({"strings_a": (3.4, 1.6)}, "weakest string beside the strongest"),
        ({"strings_a": (0.0, 0.0)}, "weakest string beside the strongest"),
        ({"pulled_n": (50.0, 20.0)}, "pull that every lead has borne"),
    ],
)
def test_one_thing_wrong_fails_one_rule(change, rule):
    found = checklist(ASKED, replace(DONE, **change), wet=True)
    assert [check.rule for check in found if not check.passed] == [rule]


def test_what_was_not_measured_never_passes():
    found = checklist(ASKED, Tried(), wet=True)
    assert not any(check.passed for check in found)
    assert all(check.cure.startswith("It was not measured") for check in found if not check.covered)
    half = checklist(ASKED, replace(DONE, strings_a=(3.4,), pulled_n=(50.0,)))
    assert [check.rule for check in half if not check.covered] == [
        "weakest string beside the strongest",
        "pull that every lead has borne",
    ]
    three = checklist(ASKED, replace(DONE, earth_ohm=(0.02, 0.02, 0.02)))
    assert [check.rule for check in three if not check.covered] == ["earth to each rail"]


GOOD = {"calibrated": date(2026, 1, 1), "due": date(2027, 1, 1)}
METER = of_class("meter 1", "multimeter", 0.005, **GOOD)
BACK = of_class("back 1", "thermometer", 0.0, within=1.0, **GOOD)


def taken(**more):
    lit = light.by_meter(900.0, of_class("sun 1", "light meter", 0.03, **GOOD))
    plain = Taken(Given((CURVE,)), lit, by_back(43.0, BACK), METER, METER, date(2026, 6, 20))
    return replace(plain, **more)


def names(own, made=None):
    return [flag.name for flag in flags(own, made or rated())]


def test_a_good_measurement_has_no_flag():
    assert names(taken()) == []


@pytest.mark.parametrize(
    ("more", "light_w_m2", "name", "grave"),
    [
        ({}, 700.0, "too little sun", False),
        ({}, 300.0, "too little sun", True),
        ({"drift_share": 0.02}, 900.0, "moving clouds", False),
        ({"drift_share": 0.08}, 900.0, "moving clouds", True),
        ({"clipped": True}, 900.0, "clipped", True),
        ({"day": date(2027, 3, 1)}, 900.0, "instrument past its calibration", False),
        ({"day": date(2026, 12, 20)}, 900.0, "instrument due soon", False),
        ({"given": Given((SHORT,))}, 900.0, "sweep not past Voc", False),
    ],
)
def test_each_thing_to_know_is_told(more, light_w_m2, name, grave):
    made = replace(rated(), light_w_m2=light_w_m2)
    found = {flag.name: flag.grave for flag in flags(taken(**more), made)}
    assert found[name] is grave


def test_few_points_that_begin_late_are_told():
    short = Measured(tuple(4 + 1.5 * k for k in range(12)), tuple(8 - 0.7 * k for k in range(12)), 900, 45)
    assert {"few points", "sweep not from Isc"} <= set(names(taken(given=Given((short,)))))


def test_a_meter_s_readings_are_few_by_their_own_count():
    """Voc, Isc and three resistors are what is meant; filled between them are many points."""
    three, five = (taken(between=Between(count, 0.04)) for count in (3, 5))
    assert names(five) == []
    (few,) = flags(three, rated())
    assert (few.name, few.grave) == ("few readings", False)
    assert few.told.startswith("3 readings leave the power open by 8% (k = 2); Voc, Isc and three resistors")


def test_a_low_sun_that_falls_in_aslant_is_told():
    evening = datetime(2026, 6, 20, 17, 30, tzinfo=UTC)
    sky = clear_light(Place(43, 5), Plane(40, 180), evening)
    assert {"low sun", "slanting light"} <= set(names(taken(light=light.by_sky(sky))))
