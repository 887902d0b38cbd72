"""Units: what a person writes becomes a number once, and a number becomes words in one way."""

MM = 1e-3  #: metres in a millimetre
INCH_MM = 25.4  #: millimetres in an inch
KELVIN = 273.15  #: kelvin at 0 degC
