"""From what was typed and read to light, heat and meters as the rating takes them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from panewright.bench.rate import heat, light
from panewright.bench.rate.heat import Heat
from panewright.bench.rate.instrument import Instrument
from panewright.bench.rate.light import Light, Sensor, Slant
from panewright.curve.moved.coefficients import STC_C, STC_W_M2, Coefficients
from panewright.curve.points import read_points
from panewright.desk.rating import instruments
from panewright.desk.rating.instruments import Written
from panewright.desk.rating.measured import PanelRead
from panewright.desk.rating.typed import Typed
from panewright.errors import BenchError, Problem

Shop = Mapping[str, Written]
_UNIT = {"light": "W/m2", "voltage": "V", "current": "A"}


@dataclass(frozen=True, slots=True)
class Sources:
    """Light, heat and the two meters."""

    light: Light
    heat: Heat
    volts: Instrument
    amps: Instrument
    said: tuple[str, ...]


def sources(read: PanelRead, told: Typed, shop: Shop, by: Coefficients) -> Sources:
    """All four; `BenchError` or `SkyError` where something lacks or cannot be."""
    if lacking := list(unsaid(read, told)):
        raise BenchError(lacking)
    said: list[str] = []
    volts = _meter(told.volts, read.volts, ("voltmeter", "meters.volts"), shop)
    amps = _meter(told.amps, read.amps, ("ammeter", "meters.amps"), shop)
    hot = _heat(read, told, shop, (by, said))
    return Sources(_light(read, told, shop, (by, hot, said)), hot, volts, amps, tuple(said))


def unsaid(read: PanelRead, told: Typed) -> Iterator[Problem]:
    """What of light and heat was neither typed nor stands in the file."""
    own = told.heat
    by_file = own.by != "the air" and (read.back_c is not None or read.cell_c is not None)
    if own.by != "Voc itself" and own.reading_c is None and not by_file:
        cure = "Write what it read: '45.4 C'; or take Voc itself, and Voc is then not rated."
        yield Problem(f"What {own.by} read is not known.", cure, key="heat.reading")
    if told.light.by in ("clear sky", "own Isc"):
        return
    if told.light.reading is None and read.light_w_m2 is None:
        cure = "Write what the sensor read; or take a clear sky by place and clock."
        yield Problem("The light is not known, and the file does not say it.", cure, key="light.reading")


def _meter(name: str, own: Instrument | None, of: tuple[str, str], shop: Shop) -> Instrument:
    """The one named; else as the readings state their own, else a poor one."""
    kind, key = of
    return own if own and not name else instruments.known(name, kind, shop, key).instrument


def _heat(read: PanelRead, told: Typed, shop: Shop, more: tuple[Coefficients, list[str]]) -> Heat:
    by, said = more
    own = told.heat
    if own.by == "Voc itself":
        return heat.by_voc(by)
    kind = "infrared gun" if own.by == "infrared gun" else "thermometer"
    meter = instruments.known(own.instrument, kind, shop, "heat.instrument").instrument
    if own.by == "the air":
        assert own.reading_c is not None
        return heat.by_air(own.reading_c, own.wind_m_s, meter)
    cells = own.reading_c is None and read.back_c is None and read.cell_c is not None
    value = own.reading_c if own.reading_c is not None else read.cell_c if cells else read.back_c
    assert value is not None
    if own.reading_c is None:
        said.append(
            f"The heat is the file's: {value:.4g} degC, {'of the cells' if cells else 'behind them'}."
        )
    behind_k = 0.0 if cells else heat.BEHIND_K
    return (
        heat.by_gun(value, meter, behind_k)
        if kind == "infrared gun"
        else heat.by_back(value, meter, behind_k)
    )


def _light(read: PanelRead, told: Typed, shop: Shop, more: tuple[Coefficients, Heat, list[str]]) -> Light:
    by, hot, said = more
    if told.light.by == "clear sky":
        return _by_sky(told)
    if told.light.by == "own Isc":
        return _by_own_isc(read, by, hot)
    kind = told.light.by
    known = instruments.known(told.light.instrument, kind, shop, "light.instrument")
    value, unit = _light_read(read, told, said)
    if told.light.how == "light meter":
        if unit != "light":
            cure = "Write it in W/m2."
            raise BenchError([Problem("A light meter reads irradiance.", cure, key="light.reading")])
        return light.by_meter(value, known.instrument, Slant())
    at_stc = told.light.at_stc or known.at_stc or ((STC_W_M2, "light") if unit == "light" else None)
    if at_stc is None or at_stc[1] != unit:
        reason = f"What {kind} reads at STC is not known in {_UNIT[unit]}."
        cure = "Write light.at_stc, or at_stc of the instrument: what it reads in 1000 W/m2 at 25 degC."
        raise BenchError([Problem(reason, cure, key="light.at_stc")])
    sensor = Sensor(known.instrument, at_stc[0])
    sensor_c = told.light.sensor_c
    if sensor_c is None:
        sensor_c = STC_C if unit == "light" else hot.cell_c(STC_W_M2 * value / at_stc[0], _voc(read))
        if unit != "light":
            said.append(f"The sensor's own heat is taken for the cells': {sensor_c:.3g} degC.")
    made = light.by_panel if kind == "second panel" else light.by_cell
    return made(value, sensor_c, sensor, Slant())


def _light_read(read: PanelRead, told: Typed, said: list[str]) -> tuple[float, str]:
    """What was typed of the light, else what the file says."""
    if told.light.reading is not None:
        return told.light.reading
    assert read.light_w_m2 is not None
    said.append(f"The light is the file's: {read.light_w_m2:.4g} W/m2.")
    return read.light_w_m2, "light"


def _by_sky(told: Typed) -> Light:
    from panewright.sky.light import clear_light
    from panewright.sky.place import Air, Place, Plane

    own = told.light
    assert own.moment is not None
    latitude, longitude, height = own.place
    tilt, azimuth = own.turned
    return light.by_sky(
        clear_light(Place(latitude, longitude, height), Plane(tilt, azimuth), own.moment, Air(own.haze))
    )


def _by_own_isc(read: PanelRead, by: Coefficients, hot: Heat) -> Light:
    """The panel's own Isc, taken for the predicted one."""
    isc = read_points(read.cleaned.curve).isc_a
    if isc is None:
        cure = "Sweep from zero volts, or read Isc with a meter."
        raise BenchError([Problem("The curve does not reach short circuit.", cure, key="light.by")])
    panel = Instrument("the panel itself", "second panel", 0.0, source="its own circuit")
    sensor = Sensor(panel, by.isc_a, by.alpha_per_k)
    cell_c = hot.cell_c(STC_W_M2 * isc.value / by.isc_a, _voc(read))
    return light.by_own_isc(isc.value, cell_c, sensor)


def _voc(read: PanelRead) -> float | None:
    found = read_points(read.cleaned.curve).voc_v
    return found.value if found else None
