"""What a person writes becomes a number, once.

Reading is exact: every factor is a fraction, and only the last step rounds to a float. The factors
that a treaty or a statute fixes (inch, pound, standard gravity, knot) are exact [1]; the others follow.

[1] NIST Special Publication 811 (2008), appendix B.8. Wire gauge: ASTM B258, d = 0.127 mm 92^((36-n)/39).
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from difflib import get_close_matches
from fractions import Fraction
from functools import cache, lru_cache

from panewright.units.scale import KSI, PCF, POUND_N, PSF, PSI

_LONGEST_TEXT = 80
_LARGEST = 10**12  # in the base unit of any kind: far beyond anything on a bench, far from float trouble


class UnitError(ValueError):
    """A text that cannot be read as the quantity asked for; tells the reason and the cure."""

    def __init__(self, reason: str, cure: str) -> None:
        self.reason = reason
        self.cure = cure
        super().__init__(f"{reason} {cure}")


@dataclass(frozen=True, slots=True)
class _Kind:
    """A kind of quantity: how to speak of it, and its units as 'name other-name ...': factor to the first."""

    noun: str
    example: str
    units: dict[str, str]
    compound: bool = False  #: may be written in two parts, '5 ft 3 in'


_LENGTH = {
    "mm millimetre millimetres millimeter millimeters": "0.001",
    "cm centimetre centimetres centimeter centimeters": "0.01",
    "m metre metres meter meters": "1",
    "um micron microns micrometre micrometer": "0.000001",
    'in inch inches "': "0.0254",
    "ft foot feet '": "0.3048",
    "yd yard yards": "0.9144",
    "mil thou": "0.0000254",
}
_KINDS = {
    "size": _Kind(
        "a size", '"25 mm" or "1 1/2 in"', {n: str(Fraction(f) * 1000) for n, f in _LENGTH.items()}, True
    ),
    "distance": _Kind(
        "a distance", '"12 m" or "40 ft"', _LENGTH | {"km": "1000", "mi mile miles": "1609.344"}, True
    ),
    "area": _Kind(
        "an area",
        '"4 mm2" or "AWG 12"',
        {"mm2 sqmm": "1", "cm2": "100", "m2": "1e6", "in2 sqin": "645.16", "ft2 sqft": "92903.04"}
        | {"kcmil mcm": "0.506707479097497779"},
    ),
    "volume": _Kind(
        "a volume",
        '"310 ml" or "10 fl oz"',
        {"ml cm3 cc": "1", "cl": "10", "dl": "100", "l litre litres liter liters dm3": "1000", "m3": "1e6"}
        | {"in3": "16.387064", "floz": "29.5735295625", "pt pint": "473.176473", "qt quart": "946.352946"}
        | {"gal gallon gallons": "3785.411784"},
    ),
    "mass": _Kind(
        "a mass",
        '"25 kg" or "55 lb"',
        {"kg kilogram kilograms": "1", "g gram grams": "0.001", "t tonne tonnes": "1000"}
        | {"lb lbs lbm pound pounds": "0.45359237", "oz ounce ounces": "0.028349523125"},
        True,
    ),
    "pressure": _Kind(
        "a pressure",
        '"0.8 kPa" or "17 psf"',
        {"Pa N/m2": "1", "hPa mbar": "100", "kPa kN/m2": "1000", "MPa N/mm2": "1e6", "GPa": "1e9"}
        | {"bar": "1e5", "kgf/m2": "9.80665", "psf lbf/ft2 lb/ft2": PSF}
        | {"psi lbf/in2 lb/in2": PSI, "ksi": KSI},
    ),
    "specific volume": _Kind(
        "a volume of one kilogram",
        '"5000 cm3/kg" or "139 in3/lb"',
        {"cm3/kg": "1", "m3/kg": "1e6", "in3/lb": str(Fraction("16.387064") / Fraction("0.45359237"))},
    ),
    "force": _Kind("a force", '"50 N" or "11 lbf"', {"N": "1", "kN": "1000", "lbf": str(POUND_N)}),
    "line force": _Kind(
        "a force along a line",
        '"8.4 kN/m" or "48 lbf/in"',
        {"N/m": "1", "kN/m N/mm": "1000", "lbf/in lb/in": str(POUND_N / Fraction("0.0254"))},
    ),
    "density": _Kind("a density", '"2500 kg/m3"', {"kg/m3": "1", "g/cm3": "1000", "lb/ft3": PCF}),
    "speed": _Kind(
        "a speed",
        '"26 m/s" or "100 mph"',
        {"m/s mps": "1", "km/h kmh kph": str(Fraction(10, 36)), "mph mi/h": "0.44704", "ft/s fps": "0.3048"}
        | {"kn kt kts knot knots": str(Fraction(1852, 3600))},
    ),
    "temperature": _Kind(
        "a temperature", '"-14 degC" or "7 degF"', {"degC C celsius": "1", "K kelvin": "1", "degF F": "5/9"}
    ),
    "angle": _Kind(
        "an angle", '"35 deg"', {"deg degree degrees": "1", "gon": "0.9", "rad": "57.29577951308232087679815"}
    ),
    "voltage": _Kind("a voltage", '"12 V"', {"V volt volts": "1", "mV": "0.001", "kV": "1000"}),
    "voltage per kelvin": _Kind(
        "a drift of voltage", '"-3 mV/K"', {"V/K V/degC": "1", "mV/K mV/degC mV/C": "0.001"}
    ),
    "current": _Kind("a current", '"8.5 A"', {"A amp amps ampere amperes": "1", "mA": "0.001", "uA": "1e-6"}),
    "resistance": _Kind("a resistance", '"5 mohm"', {"ohm ohms": "1", "mohm": "0.001", "kohm": "1000"}),
    "area resistance": _Kind(
        "a resistance of one area", '"5000 ohm cm2"', {"ohmcm2": "1", "kohmcm2": "1000", "mohmcm2": "0.001"}
    ),
    "conductance": _Kind("a conductance", '"0.2 S"', {"S A/V siemens": "1", "mS": "0.001", "uS": "1e-6"}),
    "power": _Kind("a power", '"60 W"', {"W watt watts Wp": "1", "mW": "0.001", "kW kWp": "1000"}),
    "charge": _Kind("a charge", '"200 Ah"', {"Ah": "1", "mAh": "0.001"}),
    "daily light": _Kind(
        "light of a day",
        '"4.2 kWh/m2/d"',
        {"kWh/m2/d kWh/m2d kWh/m2/day": "1", "MJ/m2/d MJ/m2d": str(Fraction(5, 18))},
    ),
    "flow": _Kind(
        "a flow",
        '"3 m3/h" or "13 gpm"',
        {"m3/h": "1", "l/min lpm": "0.06", "l/h": "0.001", "l/s": "3.6", "gpm gal/min": "0.2271247070400"},
    ),
    "time": _Kind(
        "a time",
        '"3 s" or "30 d"',
        {"s sec second seconds": "1", "min minute minutes": "60", "h hr hour hours": "3600"}
        | {"d day days": "86400", "week weeks": "604800", "yr yrs year years a": "31557600"},
        True,
    ),
    "years": _Kind("a number of years", '"50 yr"', {"yr yrs year years a": "1"}),
    "per kelvin": _Kind(
        "a change with temperature",
        '"-0.34 %/K"',
        {"%/K %/degC %/C": "0.01", "/K 1/K /degC 1/degC /C 1/C K-1": "1"}
        | {"ppm/K ppm/degC um/m/K um/mK": "1e-6"}
        | {"%/degF %/F": "0.018", "/degF 1/degF /F": "1.8", "ppm/degF": "1.8e-6"},
    ),
    "viscosity": _Kind("a viscosity", '"1.5 Pa s"', {"Pas": "1", "mPas cP": "0.001", "P poise": "0.1"}),
    "kelvin per watt": _Kind("a thermal resistance", '"18 K/W"', {"K/W degC/W C/W": "1"}),
    "conductivity": _Kind("a conductivity of heat", '"0.2 W/mK"', {"W/mK W/m/K": "1"}),
    "water loss": _Kind("a loss of water", '"1.5 g/m2/d"', {"g/m2/d g/m2d g/m2day": "1"}),
    "share": _Kind("a share", '"25 %"', {"% percent percents": "0.01"}),
}
KINDS = tuple(_KINDS)  #: every kind that `read` knows

_SIGNS = str.maketrans(
    {"\u2212": "-", "\u2012": "-", "\u2013": "-", "\ufe63": "-", "\uff0d": "-", "\u2044": "/"}
    | dict.fromkeys("\u00a0\u2009\u202f\u2007\u2002\u2003", " ")
    | {"′": "'", "’": "'", "″": '"', "”": '"', "“": '"', "·": " "}
    | {"℃": "degC", "℉": "degF", "°": "deg", "º": "deg", "˚": "deg", "Ω": "ohm", "\u2126": "ohm"}
    | {"µ": "u", "μ": "u", "½": " 1/2", "¼": " 1/4", "¾": " 3/4"}
    | {"⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8"}
)
_POWERS = str.maketrans({"²": "2", "³": "3", "^": "", "*": "", "(": "", ")": "", " ": ""})
_NUMBER = re.compile(
    r"(?:(?P<whole>\d+)(?:\s+|-))?(?P<above>\d+)\s*/\s*(?P<below>\d+)"
    r"|(?P<decimal>(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+-]?\d+)?)",
    re.ASCII,
)
_WORD = re.compile(r"\s*([A-Za-z]+|'{1,2}|\")\.?(?:-(?=\d)|\s+|(?=\d)|$)", re.ASCII)
_GAUGE = re.compile(r"(?:AWG\s*#?\s*(\d{1,2}(?:/0)?)|#?\s*(\d{1,2}(?:/0)?)\s*AWG)", re.IGNORECASE | re.ASCII)
_NOT_FINITE = re.compile(r"[+-]?\s*(nan|inf|infinity|infinite)\b", re.IGNORECASE)
_PREFIXED = re.compile(r"[mM](V|A|W|Wp|Pa|S|N|ohm|ohmcm2)")


def read(text: str, kind: str) -> float:
    """The number behind what a person wrote, in the base unit of its kind.

    size mm, distance m, area mm2, volume ml, mass kg, specific volume cm3/kg, pressure Pa, force N,
    line force N/m, density kg/m3, speed m/s, temperature degC, angle deg, voltage V, current A,
    resistance ohm,
    area resistance ohm cm2, conductance S, power W, charge Ah, daily light kWh/m2/d, flow m3/h,
    time s, years yr, per kelvin 1/K, share 1.

    >>> read("1 1/2 in", "size"), read("5 ft 3 in", "distance"), read("-14,5 °C", "temperature")
    (38.1, 1.6002, -14.5)
    """
    return float(read_exact(text, kind))


@lru_cache(maxsize=1024)
def read_exact(text: str, kind: str) -> Fraction:
    """The same number before it is rounded to a float.

    Kept, for the rows of a shelf write the same sizes again and again.
    """
    asked = _KINDS[kind]
    clean = _cleaned(text, asked)
    if kind == "area" and (gauge := _GAUGE.fullmatch(clean)):
        return _gauge_mm2(gauge.group(1) or gauge.group(2))
    negative = clean.startswith("-")
    body = clean[1:].lstrip() if clean.startswith(("-", "+")) else clean
    value = _in_parts(body, asked, kind) if asked.compound else None
    if value is None:
        value = _in_one(text, body, negative, kind)
    if abs(value) > _LARGEST:
        raise UnitError(f"{text.strip()} is larger than anything that can be built.", _ask(asked))
    return value if kind == "temperature" else -value if negative else value


def written(value: float, kind: str) -> str:
    """A value as one would write it in an order, in the base unit of its kind.

    >>> written(0.15, "share"), written(30.0, "distance"), written(-0.0034, "per kelvin")
    ('15 %', '30 m', '-0.34 %/K')
    """
    base = {"per kelvin": "%/K", "share": "%", "volume": "ml", "distance": "m", "size": "mm", "years": "yr"}
    named = base.get(kind) or next(iter(_KINDS[kind].units)).split()[0]
    return f"{float(Fraction(repr(float(value))) / _factors(kind)[named]):.12g} {named}"


def _ask(asked: _Kind) -> str:
    return f"Write {asked.noun} as a number and its unit, such as {asked.example}."


def _cleaned(text: str, asked: _Kind) -> str:
    if not isinstance(text, str):
        raise UnitError(f"{text!r} is not text with a unit.", _ask(asked))
    clean = text.translate(_SIGNS).strip()
    if not clean:
        raise UnitError("Nothing is written here.", _ask(asked))
    if len(clean) > _LONGEST_TEXT:
        raise UnitError(f"{len(clean)} letters are too long for {asked.noun}.", _ask(asked))
    if _NOT_FINITE.match(clean):
        raise UnitError(f"{text.strip()} is not a figure that a thing can have.", _ask(asked))
    return clean


def _figure(found: re.Match[str], asked: _Kind) -> Fraction:
    """The number found, exact; refuses what can be read in two ways."""
    said = found.group()
    if found["below"]:
        above, below = int(found["above"]), int(found["below"])
        if below == 0:
            raise UnitError(f"{said} divides by nothing.", _ask(asked))
        if found["whole"] and above >= below:
            raise UnitError(f"{said} has a fraction of one or more.", "Write the fraction smaller than one.")
        return int(found["whole"] or 0) + Fraction(above, below)
    if re.fullmatch(r"[1-9]\d{0,2},\d{3}", said):
        plain, point = said.replace(",", ""), said.replace(",", ".")
        raise UnitError(f"{said} may mean {plain} or {point}.", f'Write "{plain}" or "{point}".')
    exponent = re.search(r"[eE][+-]?(\d+)$", said)
    if exponent and int(exponent.group(1)) > 99:
        raise UnitError(f"{said} is beyond every measure.", _ask(asked))
    return Fraction(said.replace(",", ".").lower().rstrip(".").replace(".e", ".0e"))


def _in_parts(body: str, asked: _Kind, kind: str) -> Fraction | None:
    """A sum of parts such as '5 ft 3 1/2 in', each unit smaller than the last; None if it is none."""
    at, total, last = 0, Fraction(0), None
    while at < len(body):
        number = _NUMBER.match(body, at)
        word = _WORD.match(body, number.end()) if number else None
        factor = _factor(word.group(1), kind) if word else None
        if number is None or word is None or factor is None:
            return None
        part = _figure(number, asked) * factor
        if last is not None and (part >= last or (last / factor).denominator > 1):
            cure = f"Each part must divide the unit before it and be less than one of it. {_ask(asked)}"
            raise UnitError(f"{body} adds parts that do not follow one another.", cure)
        at, total, last = word.end(), total + part, factor
    return total if last is not None else None


def _in_one(text: str, body: str, negative: bool, kind: str) -> Fraction:
    """One number and one unit."""
    asked, shown = _KINDS[kind], text.strip()
    found = _NUMBER.match(body)
    if found is None:
        raise UnitError(f"{shown} does not begin with a number.", _ask(asked))
    unit = body[found.end() :].strip()
    if not unit:
        raise UnitError(f"{shown} has no unit.", _ask(asked))
    figure, factor = _figure(found, asked), _factor(unit, kind)
    if factor is None:
        raise _wrong_unit(shown, unit, kind)
    if kind == "temperature":
        return _celsius(shown, -figure if negative else figure, _canonical(unit), factor)
    return figure * factor


def _celsius(shown: str, figure: Fraction, unit: str, factor: Fraction) -> Fraction:
    zero = {"f": Fraction(32), "k": Fraction("273.15")}
    letter = "k" if unit.lower() in ("k", "kelvin") else "f" if "f" in unit.lower() else "c"
    value = (figure - zero.get(letter, Fraction(0))) * factor
    if value < Fraction("-273.15"):
        raise UnitError(f"{shown} lies below absolute zero.", _ask(_KINDS["temperature"]))
    return value


def _gauge_mm2(size: str) -> Fraction:
    """Copper area of an American wire gauge, solid. [mm2] ASTM B258."""
    number = 1 - int(size[0]) if size.endswith("/0") else int(size)
    if not -3 <= number <= 40:
        raise UnitError(f"AWG {size} is no wire that is made.", 'Write a gauge from "AWG 4/0" to "AWG 40".')
    diameter_mm = 0.127 * 92 ** ((36 - number) / 39)
    return Fraction(math.pi / 4 * diameter_mm**2)


def _canonical(unit: str) -> str:
    spoken = re.sub(r"\bper\b", "/", unit.replace("per cent", "%").replace("''", '"'))
    return spoken.translate(_POWERS).rstrip(".")


@cache
def _factors(kind: str) -> dict[str, Fraction]:
    return {name: Fraction(factor) for names, factor in _KINDS[kind].units.items() for name in names.split()}


@cache
def _any_case(kind: str) -> dict[str, Fraction]:
    # 'MM' and 'MPH' are safe to guess, 'mpa' and 'MV' are not: there m or M is a thousandth or a million
    return {name.lower(): factor for name, factor in _factors(kind).items() if not _PREFIXED.fullmatch(name)}


def _factor(unit: str, kind: str) -> Fraction | None:
    name = _canonical(unit)
    return _factors(kind).get(name) or _any_case(kind).get(name.lower())


def _wrong_unit(shown: str, unit: str, kind: str) -> UnitError:
    asked = _KINDS[kind]
    if kind == "per kelvin" and (drift := re.fullmatch(r"(mV|V|mA|A)/(K|degC|C)", _canonical(unit))):
        point = "Voc" if drift.group(1).endswith("V") else "Isc"
        cure = f'Divide by the {point} it belongs to and write a share per kelvin, such as "-0.34 %/K".'
        return UnitError(f"{shown} says a change but not of what {point}.", cure)
    if re.match(r"[\d.,]", unit):
        return UnitError(f"{shown} has a gap or a second mark inside its number.", _ask(asked))
    others = [other.noun for name, other in _KINDS.items() if _factor(unit, name) is not None]
    if others:
        return UnitError(f"{unit} measures {others[0]}, not {asked.noun}.", _ask(asked))
    near = get_close_matches(_canonical(unit), list(_factors(kind)), n=1, cutoff=0.5)
    hint = f" Is {near[0]} meant?" if near else ""
    return UnitError(f"{unit!r} is no unit of {asked.noun}.{hint}", _ask(asked))
