"""Readings that go wrong as they do at a bench: they decide nothing, on sound panels and on faulty ones.

The panels and their defects are invented; that readings go wrong in these ways is common practice, no source.
"""

from dataclasses import replace

import numpy as np
import pytest

from panewright.bench.fault.evidence import weigh
from panewright.bench.fault.finding import found, of_groups
from panewright.bench.fault.likelihood import distances
from panewright.bench.fault.readings import Points
from panewright.bench.fault.strays import between_axes
from panewright.circuit.place import CellAt

PANELS = {"sound": (), "weak": (("weak cell", CellAt(0, 5), 0.2),)}
VOC, ISC = 21.0, 7.0  #: about those of the panel, to put readings beyond them


def beside(read: Points, volt: float, amp: float) -> Points:
    """One reading more, of the errors that the others have."""
    more = (volt, amp, 0.005 * abs(volt), 0.005 * abs(amp))
    arrays = (read.voltage_v, read.current_a, read.voltage_error_v, read.current_error_a)
    both = [np.append(array, each) for array, each in zip(arrays, more, strict=True)]
    return Points(*both, read.irradiance_w_m2, read.cell_c, read.common)


def spiked(read: Points, *spikes: tuple[int, float]) -> Points:
    """Currents of single readings times a factor."""
    amps = read.current_a.copy()
    for at, times in spikes:
        amps[at] *= times
    return replace(read, current_a=amps)


DEFECTS = {
    "past Voc": lambda read: beside(read, 1.3 * VOC, -0.5 * ISC),
    "past Isc": lambda read: beside(read, -0.4 * VOC, 1.02 * ISC),
    "far out on the axis of volts": lambda read: beside(read, 1.2 * VOC, 0.0),
    "far up on the axis of amperes": lambda read: beside(read, 0.0, 1.3 * ISC),
    "a spike down": lambda read: spiked(read, (25, 0.5)),
    "two spikes": lambda read: spiked(read, (12, 1.1), (33, 0.8)),
    "no contact for a moment": lambda read: spiked(read, (20, 0.0)),
    "short of Voc": lambda read: read.only(read.voltage_v < 0.9 * read.voltage_v.max()),
    "short of Isc": lambda read: read.only(read.voltage_v > 0.2 * read.voltage_v.max()),
    "doubled": lambda read: read.only(np.r_[np.arange(60), 10, 10, 30, 31, 45]),
}


@pytest.mark.parametrize("defect", DEFECTS)
def test_a_sound_panel_stays_sound(by, swept, defect):
    told = found(by, DEFECTS[defect](swept()))
    assert not told.called
    assert told.first.group == "healthy"


@pytest.mark.parametrize("defect", ["past Voc", "a spike down", "two spikes", "short of Voc"])
def test_a_weak_cell_stays_one(by, swept, defect):
    told = found(by, DEFECTS[defect](swept(*PANELS["weak"])))
    assert told.called
    assert told.first.group == "weak cell"


@pytest.mark.parametrize("panel", PANELS)
def test_of_clean_readings_none_is_left_out_and_the_odds_are_as_they_were(by, swept, panel):
    read = swept(*PANELS[panel])
    told = found(by, read)
    assert told.points.voltage_v.size == read.voltage_v.size
    assert told.healthy_odds == pytest.approx(of_groups(weigh(by, read))["healthy"], abs=1e-9)


def test_how_many_are_strays_is_told_and_of_a_sweep_past_open_circuit_nothing(by, swept):
    past = beside(swept(), 1.05 * VOC, -0.3 * ISC)
    assert not any("left out" in each for each in found(by, past).words)
    told = found(by, spiked(past, (25, 0.5)))
    assert any("1 reading is left out as a stray" in each for each in told.words)


def test_readings_of_another_panel_are_told_to_be_strange_first(by, swept):
    read = swept()
    other = replace(read, voltage_v=1.6 * read.voltage_v, current_a=0.5 * read.current_a)
    assert found(by, other).words[0].startswith("LOOK: nothing that is supposed explains these readings")
    assert not any("LOOK" in each for each in found(by, swept(*PANELS["weak"])).words)


def test_a_spike_does_not_pull_the_curve_to_itself(by, wrong, swept):
    """The other readings lie about it as they did."""
    curve = by.foretold.curves([wrong()])
    plain, _ = distances(curve, swept())
    off, scatter = distances(curve, spiked(swept(), (25, 0.5)))
    assert off[0, 25] > 30
    assert np.delete(off[0], 25) == pytest.approx(np.delete(plain[0], 25), abs=0.2)
    assert scatter[0] < 1.5


def test_of_a_few_meter_readings_none_is_called_a_stray(by, swept):
    few = spiked(swept(), (40, 0.9)).only(np.array([k in (0, 15, 30, 40, 55) for k in range(60)]))
    assert found(by, few).points.voltage_v.size == 5


def test_a_panel_read_with_its_leads_swapped_has_no_reading_to_look_at(by, swept):
    read = swept()
    with pytest.raises(ValueError, match="between the axes"):
        between_axes(by.foretold, replace(read, current_a=-read.current_a - 1.0))
