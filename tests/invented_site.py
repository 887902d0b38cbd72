"""The head of an invented array's text: where it stands, its weather, its stand; panels and boxes follow."""


def headed(name: str, rest: str) -> str:
    """A text with this name and what follows the stand."""
    return f"""[array]
name = "{name}"
[place]
latitude = "47 deg"
longitude = "9 deg"
[rules]
coldest = "-15 degC"
hottest_air = "35 degC"
[sky]
clearness = "60 %"
air = "0 1 5 9 14 17 19 18 14 10 5 1 degC"
[[stand]]
name = "roof"
tilt = "30 deg"
azimuth = "180 deg"
{rest}"""
