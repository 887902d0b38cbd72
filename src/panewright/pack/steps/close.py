"""Steps that close the panel: pour, back, label and the last reading."""

from __future__ import annotations

from panewright.bench.predicted import STC_C, STC_W_M2, cells_voc_v, panel_isc_a, panel_voc_v, stc
from panewright.drawing.sheet import Step
from panewright.pack.bench import Bench, count, listed
from panewright.pack.figures.label import HEIGHT_MM, WIDTH_MM
from panewright.pack.pages import caution

PULL_N = 50.0  #: what a cable's clamp must hold, about a weight of 5 kg; common practice
SETS_H: dict[str, float] = {"silicone pour": 24.0, "film": 1.0, "air gap": 0.0}
"""Until a pour has set at shop heat, or a laminate is cool; common practice, its sheet decides. [h]"""

GLUE_H = 24.0  #: until the glue under the box bears a pull; common practice
_CLEAR_OF_BEAD_MM = 2.0  # film ends this far short of where the bead will lie; common practice


def encapsulate(bench: Bench) -> Step:
    """The pour, the film or the air gap, as the order asked."""
    kind = bench.design.order.parts.encapsulation
    if kind == "silicone pour" and bench.design.pour is not None:
        return _pour(bench)
    return _film(bench) if kind == "film" else _air_gap(bench)


def _pour(bench: Bench) -> Step:
    pour = bench.design.pour
    assert pour is not None
    batch_kg = pour.mix_kg / pour.batches
    return Step(
        "Pour the encapsulant",
        f"Level the pane to {bench.say(0.5, 'mm', 1)} over its length. Mix {bench.say(pour.mix_kg, 'kg')} "
        f"({_volume(bench, pour.mix_ml)}) in {count(pour.batches, 'batch', 'batches')} of "
        f"{bench.say(batch_kg, 'kg')}; weigh both parts. Pour from one edge and let it creep under the "
        f"cells, then fill to {bench.size(pour.depth_mm)} over the glass.",
        "Trial patch first, on a scrap cell with your flux: does it set? Each batch lies on the pane "
        f"within {pour.batch_min:.0f} minutes of mixing. Lift bubbles out with a needle while it flows; "
        "press down any cell that floats.",
        f"{bench.size(pour.depth_mm)} deep everywhere",
        bench.minutes("Mix, pour"),
        caution.VAPOUR,
    )


def _volume(bench: Bench, volume_ml: float) -> str:
    """A volume to mix: litres, or fluid ounces."""
    if bench.design.order.job.units == "us":
        return bench.say(volume_ml, "ml")
    return bench.say(volume_ml / 1000, "l")


def _film(bench: Bench) -> Step:
    """Glass, film, cells, film and back sheet become one pane before there is any frame."""
    design = bench.design
    rim = bench.size(design.structural.bead.bite_mm + _CLEAR_OF_BEAD_MM)
    volts = bench.say(cells_voc_v(design, design.layup.plan.in_series, STC_W_M2, STC_C), "V")
    return Step(
        "Laminate",
        "Lay the second film and the back sheet over the cells, lead the tails of the buses out through a "
        f"slit in both, and laminate in a vacuum by the film maker's time and heat. Film and sheet end {rim} "
        "from the pane's edge all round: the bead needs bare glass.",
        "No bubble, no cell out of line, no glue on the bare rim. Read the volts again when it is cool: as "
        "before laminating.",
        f"{volts} in {bench.sun}",
        bench.minutes("Close") // 2,
        "The press burns; hot film gives off vapour. Air the room.",
    )


def _air_gap(bench: Bench) -> Step:
    return Step(
        "Close over an air gap",
        "Fix the string to the back board so that no cell can touch the glass, and the board behind the "
        "pane, on the seat. Dry the space and fit a filtered vent at the lowest corner.",
        "Shake gently: nothing moves. Expect fog and corrosion within a few years: an air gap is not a seal.",
        "",
        bench.minutes("Close") // 2,
    )


def close_back(bench: Bench) -> Step:
    """Back, box, leads and earth."""
    leads = listed([f"{lead.pole} lead" for lead in bench.design.layup.leads])
    poured = bench.design.order.parts.encapsulation == "silicone pour"
    sealed = ", then coat lug and bolt with paste" if bench.design.amounts.isolators else ""
    weight = bench.say(5.0, "kg", 1) if bench.design.order.job.units == "metric" else bench.say(5.0, "kg", 2)
    return Step(
        "Close the back" if poured else "Fix the box and the leads",
        f"{'Fix the back sheet. ' if poured else ''}Glue the box over the exits of the {leads}; clamp the "
        "cable so that a pull never reaches a joint. Bolt the earth lead to the bare frame with a toothed "
        f"washer{sealed}. Keep drain holes open.",
        f"Pull each cable with {bench.say(PULL_N, 'N', 2)}, the weight of about {weight}, common practice: "
        "nothing moves. Earth to every rail: under 0.1\u2009Ω.",
        f"{bench.say(panel_voc_v(bench.design, STC_W_M2, STC_C), 'V')} in {bench.sun}",
        bench.minutes("Close the back", "Fix the brackets") - (0 if poured else bench.minutes("Close") // 2),
        caution.VAPOUR,
    )


def label(bench: Bench) -> Step:
    """The label with the serial."""
    serials = bench.design.label.serials
    span = serials[0] if len(serials) == 1 else f"{serials[0]} to {serials[-1]}"
    return Step(
        "Label",
        f"Print label.svg at full size ({bench.size(WIDTH_MM)} × {bench.size(HEIGHT_MM)} a label) on "
        f"weatherproof stock; one for each serial: {span}. Stick it on the back, where it can be read with "
        "the panel on its brackets.",
        "The code scans to the serial. The serial stands on the test sheet too.",
        serials[0],
        5.0,
        caution.NOT_LISTED,
    )


def measure(bench: Bench) -> Step:
    """The reading that the label has to stand for."""
    points = stc(bench.design).points
    volts, amps = (
        bench.say(panel_voc_v(bench.design, 800.0, 45.0), "V"),
        bench.say(panel_isc_a(bench.design, 800.0, 45.0), "A"),
    )
    return Step(
        "Measure in the sun",
        "Clear sky, sun square on the panel, nothing moving in front. Let the cells warm for ten "
        "minutes. Read irradiance, back temperature, Voc, Isc and a point near the best one; fill in the "
        "test sheet.",
        "Compare with the table beside the fields at the nearest light and heat. On a usual day, "
        f"800\u2009W/m² and a cell at {bench.heat(45.0)}, about {volts} and {amps}.",
        f"{bench.say(points.power_w, 'W')} at STC",
        bench.minutes("Clean, label"),
        caution.LIVE,
    )
