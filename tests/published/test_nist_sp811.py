"""NIST Special Publication 811 (2008), Guide for the Use of the SI, appendix B.8.

From memory; the factors that the guide prints bold are exact.

Tolerance: half a unit of the last printed digit.
"""

import pytest

from panewright.units import read

EXACT = [
    ("1 in", "size", 25.4),
    ("1 ft", "distance", 0.3048),
    ("1 yd", "distance", 0.9144),
    ("1 mi", "distance", 1609.344),
    ("1 mil", "size", 0.0254),
    ("1 in2", "area", 645.16),
    ("1 ft2", "area", 92903.04),
    ("1 mph", "speed", 0.44704),
    ("1 ft/s", "speed", 0.3048),
    ("1 lb", "mass", 0.45359237),
    ("1 in3", "volume", 16.387064),
    ("1 kgf/m2", "pressure", 9.80665),
    ("1 bar", "pressure", 1e5),
]
ROUNDED = [  # as printed, seven figures
    ("1 lbf/ft2", "pressure", "4.788026E+01"),
    ("1 psi", "pressure", "6.894757E+03"),
    ("1 ksi", "pressure", "6.894757E+06"),
    ("1 lbf", "force", "4.448222E+00"),
    ("1 knot", "speed", "5.144444E-01"),
    ("1 km/h", "speed", "2.777778E-01"),
    ("1 gal", "volume", "3.785412E+03"),
    ("1 fl oz", "volume", "2.957353E+01"),
    ("1 oz", "mass", "2.834952E-02"),
    ("1 lb/ft3", "density", "1.601846E+01"),
    ("1 rad", "angle", "5.729578E+01"),
]


@pytest.mark.parametrize(("text", "kind", "factor"), EXACT)
def test_exact_factors_are_met_to_the_last_bit(text, kind, factor):
    assert read(text, kind) == factor


@pytest.mark.parametrize(("text", "kind", "printed"), ROUNDED)
def test_rounded_factors_are_met_to_the_printed_digits(text, kind, printed):
    assert f"{read(text, kind):.6E}" == printed


@pytest.mark.parametrize(
    ("text", "celsius"), [("32 degF", 0.0), ("212 degF", 100.0), ("-459.67 degF", -273.15)]
)
def test_fahrenheit_meets_the_fixed_points(text, celsius):
    assert read(text, "temperature") == celsius
