"""exp and ln without a branch, so that a compiler can work out eight at once.

Compiled functions use these in place of the library's where cells stand abreast; run as written they serve
tests only. Both are reductions by powers of two and a polynomial of the rest, as in W. J. Cody, W. Waite,
Software Manual for the Elementary Functions, 1980, ch. 6 and 5; the coefficients are those of the series of
exp and of artanh. Against the library's they err by no more than 4.5e-16 of the value.
"""

from __future__ import annotations

import numpy as np

LEAST, MOST = -708.0, 709.0  #: beyond these exp stays what it is there
_LN2_HIGH, _LN2_LOW = 6.93147180369123816490e-01, 1.90821492927058770002e-10  # ln 2 in two parts
_PER_LN2 = 1.4426950408889634
_ROUNDER = 6755399441055744.0  # 1.5 * 2^52: a sum with it holds the nearest whole number in its last bits
_EXPONENT = 52  # bits of the fraction
_ROOT_HALF = 0x3FE6A09E667F3BCD  # the bits of the root of one half
_E3, _E4, _E5, _E6, _E7, _E8 = 1 / 6, 1 / 24, 1 / 120, 1 / 720, 1 / 5040, 1 / 40320
_E9, _E10, _E11, _E12, _E13 = 1 / 362880, 1 / 3628800, 1 / 39916800, 1 / 479001600, 1 / 6227020800
_A3, _A5, _A7, _A9, _A11 = 2 / 3, 2 / 5, 2 / 7, 2 / 9, 2 / 11
_A13, _A15, _A17, _A19, _A21 = 2 / 13, 2 / 15, 2 / 17, 2 / 19, 2 / 21


def exp(x: float) -> float:
    """e to the power x; below -708 and above 709 as there.

    >>> bool(abs(exp(1.0) - 2.718281828459045) < 1e-15)
    True
    """
    inside = min(max(x, LEAST), MOST)
    shifted = inside * _PER_LN2 + _ROUNDER
    whole = shifted - _ROUNDER
    r = (inside - whole * _LN2_HIGH) - whole * _LN2_LOW
    r2 = r * r
    r4 = r2 * r2
    a = (1.0 + r) + r2 * (0.5 + r * _E3)
    b = (_E4 + r * _E5) + r2 * (_E6 + r * _E7)
    c = (_E8 + r * _E9) + r2 * (_E10 + r * _E11)
    part = (a + r4 * b) + r4 * r4 * (c + r4 * (_E12 + r * _E13))
    bits = np.float64(part).view(np.int64) + (np.float64(shifted).view(np.int64) << _EXPONENT)
    return np.int64(bits).view(np.float64)


def log(x: float) -> float:
    """Natural logarithm of a positive number of at least 2.3e-308.

    >>> bool(abs(log(10.0) - 2.302585092994046) < 1e-15)
    True
    """
    bits = np.float64(x).view(np.int64)
    power = (bits - _ROOT_HALF) >> _EXPONENT
    part = np.int64(bits - (power << _EXPONENT)).view(np.float64)
    whole = np.float64(power)
    s = (part - 1.0) / (part + 1.0)
    z = s * s
    z2 = z * z
    low, middle = (_A3 + z * _A5) + z2 * (_A7 + z * _A9), (_A11 + z * _A13) + z2 * (_A15 + z * _A17)
    rest = low + z2 * z2 * (middle + z2 * z2 * (_A19 + z * _A21))
    return whole * _LN2_HIGH + (2.0 * s + (rest * z * s + whole * _LN2_LOW))
