"""Invented offers that a person begins with and writes over."""

SAMPLE = """\
# INVENTED offers, to be written over: what each seller asks, and what is believed of it.

[want]
sure = "95 %"

[[step]]
name = "soldering"
lost = "3 of 100"

[[offer]]
name = "A grade"
price = "80.00"
pack = 40
carriage = "9.00"
lost = "0.5 %"

[[offer]]
name = "mixed box, measured here"
price = "56.00"
pack = 50
carriage = "14.00"
lost = "1 of 20"
measured = "yes"
measuring = "0.10"

[[offer.grade]]
share = "70 %"
current = "-2 %"
current_spread = "2 %"

[[offer.grade]]
share = "30 %"
current = "-12 %"
current_spread = "3 %"
"""
