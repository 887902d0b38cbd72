"""National Electrical Code, article 690, from public transcriptions (seen); worked example derived.

Table 690.7(A), crystalline silicon: factor on Voc by the band of lowest ambient temperature, the key is the
band's lower end. 690.8: 1.25 and 1.25 again, 1.5625 Isc.
"""

import pytest

from panewright.enclosure.rating import cold_factor, cold_voc_v, label_fuse_a

LOWER_C = [20, 15, 10, 5, 0, -5, -10, -15, -20, -25, -30, -35, -40]
FACTOR = [1.02, 1.04, 1.06, 1.08, 1.1, 1.12, 1.14, 1.16, 1.18, 1.2, 1.21, 1.23, 1.25]


@pytest.mark.parametrize(("lower_c", "factor"), [*zip(LOWER_C, FACTOR, strict=True)])
def test_cold_factor_is_as_printed_at_both_ends_of_its_band(lower_c, factor):
    assert cold_factor(lower_c) == factor
    assert cold_factor(lower_c + 4) == factor


def test_a_22_4_v_panel_on_a_morning_of_minus_12():
    assert cold_voc_v(22.4, -12.0) == pytest.approx(25.984)
    assert 4 * cold_voc_v(22.4, -12.0) == pytest.approx(103.936)
    assert cold_voc_v(22.4, -12.0, voc_per_k=-0.0034) == pytest.approx(25.21792)


def test_the_table_ends_at_minus_40():
    with pytest.raises(ValueError, match="ends at -40"):
        cold_factor(-41.0)


@pytest.mark.parametrize(
    ("isc_a", "fuse_a"), [(8.55, 15), (4.26, 8), (9.6, 15), (9.61, 20), (0.3, 1), (17.1, 30)]
)
def test_label_fuse_is_the_next_size_above_1_5625_isc(isc_a, fuse_a):
    assert label_fuse_a(isc_a) == fuse_a
