"""A small array of invented panels, planned once for the tests that ask about it."""

from functools import cache

from panewright.array.plan.composed import plan_of
from panewright.array.plan.panel import of_label
from panewright.array.plan.placing import placed
from panewright.array.plan.weather import weathered
from panewright.order.site.parse import parse_site

SITE = """# invented
[array]
name = "Hut"
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
tilt = "40 deg"
azimuth = "180 deg"
up = "1 m"
columns = 4
[[panel]]
name = "new"
count = 2
voc = "22.4 V"
vmp = "18.2 V"
isc = "8.55 A"
imp = "8.0 A"
cells = 36
width = "670 mm"
height = "1480 mm"
fuse = "15 A"
[[panel]]
name = "old"
count = 2
voc = "21.6 V"
vmp = "17.2 V"
isc = "7.9 A"
imp = "7.3 A"
cells = 36
width = "670 mm"
height = "1480 mm"
fuse = "15 A"
[controller]
kind = "mppt"
most = "100 V"
current = "40 A"
input_current = "50 A"
[battery]
kind = "agm"
volts = "12 V"
capacity = "200 Ah"
[[load]]
power = "45 W"
[sizes]
strings = "1, 2"
bank = "50 Ah, 400 Ah"
served = "50 %, 90 %"
"""


def site(*changes):
    """The site with some of its text changed."""
    text = SITE
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    return parse_site(text, "hut.toml")


@cache
def plan(*changes):
    """Its plan; kept, for many tests ask about one."""
    own = site(*changes)
    known = {each.known: of_label(each.known.label) for each in own.panels}
    return plan_of(own, placed(own, [known[each.known] for each in own.panels]), weathered(own, None))
