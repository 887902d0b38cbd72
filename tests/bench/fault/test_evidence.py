"""What is wrong, from curves of the panel's own circuit: each group where it shows, nothing invented."""

from functools import cache

import numpy as np
import pytest

from panewright.bench.fault.box import Box, first_axes, steps
from panewright.bench.fault.evidence import (
    Looked,
    Prepared,
    beside_one,
    prepared,
    suppositions,
    weigh,
    weighed,
)
from panewright.bench.fault.foretold import Foretold, Wrong
from panewright.bench.fault.kinds import KINDS, sites, sites_of_two
from panewright.bench.fault.readings import Common, Points
from panewright.cell.diode import Diode
from panewright.cell.model import CellModel, diode_at
from panewright.circuit.damage import Fault, JointOpen, damaged
from panewright.circuit.network import Network, String, Substring
from panewright.circuit.place import CellAt, DiodeAt
from panewright.circuit.trace import trace
from panewright.enclosure.bypass import Bypass

SCHOTTKY = Bypass("Schottky", 5e-6, 0.02698, 0.01, 15.0, 45.0)
MODEL = CellModel(Diode(8.55, 2.3e-9, 0.02826, 0.003, 20.0, 0.005, -18.0, 3.4), 1.05, 0.0005, 24336.0)
KIND = {kind.key: kind for kind in KINDS}
GROUPS = ("healthy", "lost voltage", "weak cell", "added resistance", "shunted cell", "dimmed", "two faults")
SHARES = {**dict.fromkeys(GROUPS, 1 / 7), "open string": 0.0}
AT = CellAt(0, 5)
SCATTER = 0.005


def panel(irradiance_w_m2: float, cell_c: float) -> Network:
    cell = diode_at(MODEL, irradiance_w_m2, cell_c)
    row = Substring((cell,) * 18, (0.0012,) * 18, SCHOTTKY)
    return Network((String((row, row)),), 0.01)


@cache
def ready() -> Prepared:
    foretold = Foretold(panel, 800.0, 40.0)
    return prepared(foretold, suppositions(foretold.network, SHARES))


def odds(network: Network, seed: int = 1, scatter: float = SCATTER) -> dict[str, float]:
    """Of each group, for a curve of sixty points of that panel."""
    chance, curve = np.random.default_rng(seed), trace(network, 60)
    v, i = np.array(curve.voltage_v), np.array(curve.current_a)
    v, i = v * (1 + scatter * chance.normal(size=v.size)), i * (1 + scatter * chance.normal(size=i.size))
    read = Points(v, i, SCATTER * np.abs(v), SCATTER * np.abs(i), 800.0, 40.0, Common())
    weighed = weigh(ready(), read)
    parts = np.exp([each.log - weighed[0].log for each in weighed])
    found = dict.fromkeys(GROUPS, 0.0)
    for each, part in zip(weighed, parts / parts.sum(), strict=True):
        found[each.supposition.group] += float(part)
    return found


def with_wrong(*things: tuple[str, object, float]) -> Network:
    wrong = Wrong(
        tuple(KIND[key] for key, _, _ in things),
        tuple(place for _, place, _ in things),
        tuple(strength for _, _, strength in things),
    )
    return ready().foretold.network_with(wrong)


CLEAR = {
    "a cell turned": (("cell turned", AT, 0.0),),
    "a diode shorted": (("bypass shorted", DiodeAt(0, 1), 0.0),),
    "a diode turned": (("bypass turned", DiodeAt(0, 0), 0.0),),
    "a fifth of a cell dark": (("weak cell", AT, 0.2),),
    "a cold joint": (("resistance", AT, 0.08),),
    "a bad shunt": (("shunt", AT, 3.0),),
    "a dusty panel": (("dimmed", None, 0.25),),
    "a crack and a cold joint": (("weak cell", AT, 0.3), ("resistance", CellAt(0, 20), 0.1)),
    "a dark cell under dust": (("weak cell", AT, 0.4), ("dimmed", None, 0.3)),
}


@pytest.mark.parametrize("name", CLEAR)
def test_what_shows_clearly_is_ranked_first(name):
    things = CLEAR[name]
    group = KIND[things[0][0]].group if len(things) == 1 else "two faults"
    found = odds(with_wrong(*things))
    assert max(found, key=found.get) == group
    assert found[group] > 0.6


@pytest.mark.parametrize("seed", range(3))
def test_a_healthy_panel_is_most_likely_healthy(seed):
    found = odds(panel(800.0, 40.0), seed)
    assert max(found, key=found.get) == "healthy"


def test_a_dimmed_panel_is_told_from_a_weak_cell_only_by_the_light_that_was_read():
    """Two per cent less light than read is nothing: the reading itself is no surer."""
    found = odds(with_wrong(("dimmed", None, 0.01)))
    assert found["healthy"] > found["dimmed"]


def test_how_strong_it_is_comes_with_bounds_that_hold_it():
    curve = trace(with_wrong(("weak cell", AT, 0.2)), 60)
    v, i = np.array(curve.voltage_v), np.array(curve.current_a)
    best = weigh(ready(), Points(v, i, SCATTER * np.abs(v), SCATTER * np.abs(i), 800.0, 40.0))[0]
    ((likeliest, low, high),) = best.strengths
    assert low < 0.2 < high
    assert likeliest == pytest.approx(0.2, rel=0.03)


def test_shares_add_up_to_those_of_their_groups():
    supposed = suppositions(panel(1000.0, 25.0), SHARES)
    for group in GROUPS:
        assert sum(each.share for each in supposed if each.group == group) == pytest.approx(1 / 7)


def test_places_that_a_curve_could_not_tell_apart_are_one():
    network = panel(1000.0, 25.0)
    assert len(sites(network, KIND["weak cell"])) == 1
    assert len(sites_of_two(network, KIND["weak cell"], KIND["shunt"])) == 2  # in one row, in two
    assert sites(network, KIND["string open"]) == ()


def test_a_panel_without_diodes_has_none_to_suspect():
    bare = Network((String((Substring((MODEL.stc,) * 12, (0.001,) * 12),)),))
    kinds = {kind.key for each in suppositions(bare, SHARES) for kind in each.wrong.kinds}
    assert not {"bypass shorted", "joint open"} & kinds
    assert "cell turned" in kinds


def test_nothing_is_likelier_than_the_likeliest_point_of_its_grid():
    """Two faults that are one ridge across their grid; a cubic followed beyond the edge once ran away."""
    axis = np.log(np.array([0.147, 0.173, 0.205, 0.241, 0.284, 0.335]))
    log = -300.0 - 2000.0 * np.abs(axis[:, None] - axis) / (axis[1] - axis[0])
    pair = next(
        each for each in ready().supposed if [k.key for k in each.wrong.kinds] == ["weak cell", "weak cell"]
    )
    (told,) = weighed(Looked((pair,), ((Box((axis, axis), log),),)), [pair])
    assert told.log <= -300.0


def test_a_clear_fault_leaves_room_for_one_beside_it_that_is_too_small_to_see():
    """Half of the light is gone; a joint that resists a little as well would look the same.

    Two faults are drawn as often as one, and a tenth of these pairs is so: the odds cannot be nothing.
    """
    found = odds(with_wrong(("dimmed", None, 0.487), ("resistance", AT, 0.004)))
    assert found["dimmed"] > found["two faults"] > 0.01


def test_two_faults_that_both_show_clearly_are_found_between_the_points_of_the_first_grid():
    """A shade of 0.3 and a joint once came out as a shade and a turned cell: the needle was passed by."""
    curve = trace(with_wrong(("weak cell", AT, 0.3), ("resistance", CellAt(0, 20), 0.05)), 60)
    v, i = np.array(curve.voltage_v), np.array(curve.current_a)
    best = weigh(ready(), Points(v, i, SCATTER * np.abs(v), SCATTER * np.abs(i), 800.0, 40.0))[0]
    assert [kind.key for kind in best.best.kinds] == ["weak cell", "resistance"]
    assert best.best.strengths == pytest.approx((0.3, 0.05), rel=0.05)


@pytest.mark.parametrize("shade", [0.66, 0.72, 0.77, 0.8, 0.82, 0.844, 0.86, 0.9])
def test_a_cell_that_is_nearly_dark_is_one_fault_wherever_it_lies_in_the_first_grid(shade):
    """Of a shade of 0.844 the needle stood between points far below it, and two shades were named instead."""
    found = odds(with_wrong(("weak cell", AT, shade)))
    assert max(found, key=found.get) == "weak cell"


@pytest.mark.parametrize("gone", [0.1, 0.35, 0.6, 0.8])
def test_a_crack_is_one_fault_though_what_is_left_of_the_cell_resists_more(gone):
    """Weighed as a shade alone, a crack of 0.6 was two faults for sure: a shade and a resistance."""
    found = odds(with_wrong(("cracked cell", AT, gone)))
    assert max(found, key=found.get) == "weak cell"


def test_a_voltmeter_reads_nothing_behind_an_open_joint():
    """Two loads agree with a joint that is off and with a dark cell; the full Voc rules out the first."""
    curve = trace(with_wrong(("weak cell", AT, 0.85)), 400)
    amps = np.array([0.0, 2.2, 4.4, curve.current_a[0]])
    volts = np.interp(amps, np.array(curve.current_a[::-1]), np.array(curve.voltage_v[::-1]))
    read = Points(volts, amps, SCATTER * np.abs(volts), SCATTER * np.abs(amps), 800.0, 40.0, Common())
    logs = {each.best.kinds[0].key: each.log for each in weigh(ready(), read) if len(each.best.kinds) == 1}
    assert logs["weak cell"] > logs["joint open"] + 20


@pytest.mark.parametrize("seed", range(4))
def test_a_joint_that_is_off_is_one_fault_though_light_and_heat_are_read_a_little_wrong(seed):
    """Its curve begins at Voc. A Voc read above that was held against the curve's other end, which let light
    and heat come out wrong: a dimmed panel was found beside the joint."""
    true = damaged(panel(789.0, 39.2), Fault(JointOpen(), AT))
    found = odds(true, seed)
    assert max(found, key=found.get) == "lost voltage"
    assert found["two faults"] < 0.5


def test_a_grid_about_a_cell_that_is_all_but_dark_stays_within_its_range():
    """Twice the band about it once reached below no light at all."""
    supposed = ready().supposed
    nothing = [Box(axes, np.full([axis.size for axis in axes], -1e3)) for axes in map(first_axes, wrongs())]
    dark = Box((steps(np.log(0.85), np.log(0.97), 9),), np.linspace(0.0, 5.0, 9))
    at = next(k for k, each in enumerate(supposed) if each.wrong.kinds == (KIND["weak cell"],))
    found = beside_one(supposed, [*nothing[:at], dark, *nothing[at + 1 :]])
    assert found
    for k, axes in found:
        for kind, axis in zip(supposed[k].wrong.kinds, axes, strict=True):
            assert np.log(kind.least) <= axis.min() < axis.max() <= np.log(kind.most)


def wrongs() -> list[Wrong]:
    return [each.wrong for each in ready().supposed]
