"""The few exact measures that reading and showing share.

[1] NIST Special Publication 811 (2008), appendix B.8.
"""

from __future__ import annotations

from fractions import Fraction

MM = 1e-3  #: metres in a millimetre
INCH_MM = 25.4  #: millimetres in an inch
KELVIN = 273.15  #: kelvin at 0 degC
GRAVITY_M_S2 = 9.80665  #: standard, exact

POUND_N = Fraction("0.45359237") * Fraction("9.80665")  #: one pound-force, exact [1]
PSI = str(POUND_N / Fraction("0.0254") ** 2)  #: pascal in a pound per square inch
PSF = str(POUND_N / Fraction("0.3048") ** 2)  #: and per square foot
KSI = str(1000 * Fraction(PSI))
PCF = str(Fraction("0.45359237") / Fraction("0.3048") ** 3)  #: kg/m3 in a pound per cubic foot
POUND_FORCE_N = float(POUND_N)  #: newtons in a pound
PSF_PA = float(Fraction(PSF))  #: pascal in a pound on a square foot
PCF_N_M3 = float(POUND_N / Fraction("0.3048") ** 3)  #: and in a cubic foot
