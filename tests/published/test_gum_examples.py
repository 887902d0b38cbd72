"""JCGM 100:2008 (GUM), example H.2: resistance and reactance from readings taken together (recalled).

Means of five readings: V 4.9990 V, I 19.6610 mA, phase 1.044 46 rad, with standard uncertainties 0.0032 V,
0.0095 mA, 0.000 75 rad and correlations -0.36, 0.86 and -0.65. Printed: R 127.732 ohm with 0.071, X 219.847
with 0.295, Z 254.260 with 0.236; correlations -0.588 (R, X), -0.485 (R, Z), 0.993 (X, Z). The readings' own
digits are used for uncertainties and correlations, as the example does.
"""

from math import cos, sin

import numpy as np
import pytest

from panewright.bench.rate.budget import Input, budgets

VOLTS = (5.007, 4.994, 5.005, 4.990, 4.999)
MILLIAMPS = (19.663, 19.639, 19.640, 19.685, 19.678)
PHASES = (1.0456, 1.0438, 1.0468, 1.0428, 1.0433)


@pytest.fixture(scope="module")
def found():
    columns = np.array([VOLTS, MILLIAMPS, PHASES])
    means = columns.mean(axis=1)
    sigma = columns.std(axis=1, ddof=1) / np.sqrt(5)
    between = np.corrcoef(columns)

    def law(off):
        volts = means[0] + off.get("V", 0.0)
        amps = (means[1] + off.get("I", 0.0)) / 1000
        phase = means[2] + off.get("phase", 0.0)
        return {"R": volts / amps * cos(phase), "X": volts / amps * sin(phase), "Z": volts / amps}

    inputs = [Input(*each) for each in zip(("V", "I", "phase"), sigma, ("V", "mA", "rad"), strict=True)]
    together = {("V", "I"): between[0, 1], ("V", "phase"): between[0, 2], ("I", "phase"): between[1, 2]}
    return budgets(law, inputs, together)


@pytest.mark.parametrize(
    ("figure", "value", "sigma"), [("R", 127.732, 0.071), ("X", 219.847, 0.295), ("Z", 254.260, 0.236)]
)
def test_values_and_uncertainties_to_the_printed_digits(found, figure, value, sigma):
    budget = found.of(figure)
    assert budget.value == pytest.approx(value, abs=5e-4)
    assert budget.sigma == pytest.approx(sigma, abs=1e-3)  # the example rounds its inputs first
    assert sum(term.share for term in budget.terms) == pytest.approx(1.0)
    assert budget.bend_share < 0.01


@pytest.mark.parametrize(
    ("one", "other", "printed"), [("R", "X", -0.588), ("R", "Z", -0.485), ("X", "Z", 0.993)]
)
def test_how_the_results_go_together(found, one, other, printed):
    assert found.correlation(one, other) == pytest.approx(printed, abs=5e-4)


def test_without_the_correlations_the_resistance_would_look_less_sure(found):
    """The example's own lesson: they matter."""
    alone = sum(term.moves**2 for term in found.of("R").terms) ** 0.5
    assert alone > 2 * found.of("R").sigma
