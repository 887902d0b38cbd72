"""Loss in the fingers by count of busbars, from loss density = J^2 s r l^2 / 3 with l half the busbar pitch.

Confidence: derived (the formula integrated apart from this project; 350 A/m2, 2 mm, 50 ohm/m, 156 mm).
"""

import pytest

from panewright.cell.fingers import Fingers, finger_ohm


@pytest.mark.parametrize(("busbars", "loss_w_m2"), [(2, 6.21075), (3, 2.76033), (4, 1.55269), (5, 0.99372)])
def test_fingers_lose_by_the_square_of_the_busbar_pitch(busbars, loss_w_m2):
    fingers = Fingers(busbars, width_mm=156.0, length_mm=100.0, pitch_mm=2.0, ohm_per_m=50.0)
    current, area = 350.0 * 0.156 * 0.1, 0.156 * 0.1
    assert finger_ohm(fingers) * current**2 / area == pytest.approx(loss_w_m2, rel=2e-6)
