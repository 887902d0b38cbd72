"""Columns as they are called, in many habits and languages."""

from __future__ import annotations

import pytest

from panewright.intake.cells import FIGURES
from panewright.intake.measure import unit_of
from panewright.intake.naming import heading, known, named
from panewright.intake.quantity import QUANTITIES, names

CALLED = {
    "mark": ["Cell No.", "Zelle Nr.", "N°", "#", "cell_id", "Barcode", "Ogniwo nr", "Numéro cellule", "№"],
    "isc_a": [
        *("Isc [mA]", "ISC(A)", "I_sc/A", "isc_ma", "Short-circuit current (A)", "Kurzschlußstrom in A"),
        *("Courant de court-circuit (mA)", "Corriente de cortocircuito [A]", "Corrente di cortocircuito"),
        *("Kortsluitstroom [A]", "Prąd zwarcia [A]", "Ik [A]", "Icc", "Corrente de curto-circuito [A]"),
        *("Kurzschlusstrom", "Isc (25°C, 1000 W/m²) [A]"),
    ],
    "voc_v": [
        *(
            "Voc (mV)",
            "U0 [mV]",
            "Uoc",
            "Leerlaufspannung [V]",
            "Tension à vide (mV)",
            "Voltaje circuito abierto",
        ),
        *("Tensione a circuito aperto [V]", "Nullastspanning", "Napięcie obwodu otwartego [V]", "V_oc"),
    ],
    "at_a": [
        "I @ 0.5 V",
        "I bei 0,5 V [A]",
        "Icell@500mV",
        "I(0.5V)",
        "I_0.5V [A]",
        "Current at 0.55 V (A)",
        "I load",
    ],
    "at_v": ["V load", "Test voltage [V]", "Lastspannung"],
    "imp_a": [
        "Imp",
        "Impp [A]",
        "Im (A)",
        "Strom im MPP",
        "Prąd MPP [A]",
        "Current at max power",
        "I max [A]",
    ],
    "vmp_v": ["Vmpp", "Umpp [mV]", "Vm", "Spannung im MPP [V]", "Voltage at maximum power", "Napięcie MPP"],
    "pmp_w": ["Pmpp /W", "P max (Wp)", "Leistung [W]", "Puissance crête", "Potenza massima [mW]", "Moc [W]"],
    "fill_factor": ["FF %", "Füllfaktor", "Fill factor", "Facteur de forme [%]", "Współczynnik wypełnienia"],
    "efficiency": ["Eta [%]", "Eff", "Wirkungsgrad (%)", "η", "Rendement [%]", "Sprawność"],
    "shunt_ohm": ["Rsh (Ohm)", "R_sh [Ω]", "Shunt resistance", "Parallelwiderstand [kΩ]"],
    "reverse_a": ["Irev@-12V [A]", "I @ -10 V", "Sperrstrom [mA]", "Leakage current (mA)", "Irev2"],
    "reverse_v": ["Vrev", "Sperrspannung [V]"],
    "irradiance_w_m2": [
        "E [W/m²]",
        "Sun",
        "G (suns)",
        "Einstrahlung W/m2",
        "Irradiance",
        "Éclairement [W/m2]",
    ],
    "cell_c": ["T cell degF", "Temp", "Tc (°C)", "Zelltemperatur [°C]", "Température cellule (°C)", "T [K]"],
    "grade": ["Bin", "Grade", "Klasse", "Lot", "Qualité"],
    "remark": ["Remarks", "Bemerkung", "Défauts", "Observaciones", "Uwagi"],
    "time": ["Date", "Datum", "Timestamp", "Heure"],
}


@pytest.mark.parametrize(
    ("quantity", "text"), [(name, text) for name, said in CALLED.items() for text in said]
)
def test_a_heading_names_its_quantity(quantity, text):
    assert named(text).quantity == quantity


@pytest.mark.parametrize(
    "text",
    [
        "Ambient temp (°C)",
        "Rs [mOhm]",
        "Isc error",
        "",
        "9.12",
        "17",
        "Supplier",
        "Cell type",
        "Cell width (mm)",
        "Isc deviation [%]",
        "Raumtemperatur Luft",
        "Ecke ab",
    ],
)
def test_what_is_no_reading_of_a_cell_is_not_taken_for_one(text):
    assert not named(text).quantity
    assert not known(text)


@pytest.mark.parametrize("text", ["I [A]", "Current", "U (V)", "Spannung", "V"])
def test_a_current_that_does_not_say_which_is_left_open(text):
    told = named(text)
    assert (told.quantity, len(told.choices)) == ("", 3)


@pytest.mark.parametrize(
    ("text", "at_v", "unit", "reading"),
    [
        ("I @ 0.5 V [A]", 0.5, "A", 0),
        ("I bei 500 mV (mA)", 0.5, "mA", 0),
        ("I @ −10 V", -10.0, "", 0),
        ("Isc 2 [A]", None, "A", 2),
        ("2. Messung Isc [A]", None, "A", 2),
        ("Isc (2)", None, "", 2),
        ("Isc_1_A", None, "A", 1),
        ("Reading 3: Voc (mV)", None, "mV", 3),
        ("Einstrahlung W/m2", None, "W/m2", 0),
        ("I (A) at 0,55 V", 0.55, "A", 0),
        ("U0", None, "", 0),
        ("Isc in mA bei 1000 W/m²", None, "mA", 0),
        ("I in A bei 0,5 V", 0.5, "A", 0),
        ("Isc\n(A)", None, "A", 0),
        ("Isc(A)_2", None, "A", 2),
    ],
)
def test_a_heading_is_taken_apart(text, at_v, unit, reading):
    told = heading(text)
    assert (told.at_v, told.unit, told.reading) == (at_v, unit, reading)


def test_every_figure_has_names_and_every_name_finds_its_own():
    assert set(FIGURES) <= set(QUANTITIES)
    for name in QUANTITIES:
        own = [key for key, found in names().whole.items() if found == name]
        assert own, name
        assert all(named(key).quantity == name for key in own if not any(letter.isdigit() for letter in key))


@pytest.mark.parametrize(
    ("text", "kind", "factor"),
    [
        ("mOhm", "resistance", 1e-3),
        ("MΩ", "resistance", 1e6),
        ("mΩ", "resistance", 1e-3),
        ("kOhm", "resistance", 1e3),
        ("mW/cm²", "light", 10.0),
        ("W m⁻²", "light", 1.0),
        ("suns", "light", 1000.0),
        ("µA", "current", 1e-6),
        ("Wp", "power", 1.0),
        ("%", "share", 0.01),
    ],
)
def test_a_unit_is_known_by_its_letters(text, kind, factor):
    unit = unit_of(text, kind)
    assert unit is not None
    assert unit.factor == factor


def test_heat_comes_to_degrees_celsius():
    fahrenheit, kelvin = unit_of("°F", "heat"), unit_of("K", "heat")
    assert fahrenheit
    assert kelvin
    assert 77 * fahrenheit.factor + fahrenheit.offset == pytest.approx(25)
    assert 298.15 * kelvin.factor + kelvin.offset == pytest.approx(25)


@pytest.mark.parametrize(
    "text", ["Ref cell temp (C)", "Temp. Referenzzelle", "Température cellule de référence"]
)
def test_a_reference_cell_s_own_heat_is_not_the_cell_s(text):
    assert named(text).quantity == ""
    assert "left unread" in named(text).asked
    assert named("Cell temp (C)").quantity == "cell_c"
