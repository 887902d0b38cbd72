"""How the loads and proofs were reckoned, step by step, for the engineer who doubts them."""

from __future__ import annotations

from collections.abc import Iterable

from panewright.check import Check
from panewright.climate.reckoning import Reckoning
from panewright.drawing.sheet import Block, Heading, Page, Table, Words
from panewright.glass.strength.hail import largest_ball_mm
from panewright.glass.strength.steps import strength_steps
from panewright.glass.warp import one_face_damp, one_face_warm
from panewright.pack.bench import Bench
from panewright.pack.pages.front import NO_FIGURE, pane_out_of_range, say_demand, say_limit
from panewright.pack.pages.table import words_table
from panewright.pack.wording import in_units, signs
from panewright.panel.holding.touched import touched
from panewright.structure.bead.bead import gap_range_mm
from panewright.structure.rails.rails import RailProof


def reckoning_pages(bench: Bench) -> tuple[Page, ...]:
    """Loads, then heat with what it does to the curve, then the pane, then rails and bead."""
    return (_loads(bench), _heat(bench), _pane(bench), _proofs(bench))


def steps_table(bench: Bench, steps: Iterable[Reckoning], caption: str = "") -> Table:
    """Reckoning steps as rows of words and figures."""
    units = bench.design.order.job.units
    rows = tuple((signs(in_units(step.words, units)), bench.say(step.value, step.unit, 4)) for step in steps)
    return Table(("Step", "Value"), rows, (0.74, 0.26), ("left", "right"), caption)


def _loads(bench: Bench) -> Page:
    built, site = bench.design.structural, bench.design.order.site
    wind, snow, loads = built.wind, built.snow, built.loads
    cases = tuple(
        (
            case.name,
            bench.say(case.pressure_pa, "Pa"),
            _lasting(case.duration_s),
            "factored" if case.factored else "service",
        )
        for case in loads.cases
    )
    blocks: list[Block] = [
        Words(
            f"Wind, snow, glass, frame and bead follow the family {site.family}, wind by "
            f"{site.wind.edition}; rules of another family are not used for them. Electrical rules name "
            "their own source beside them."
        ),
        Heading("Wind"),
        steps_table(bench, wind.reckoning),
        *_forces(bench),
        Heading("Snow"),
        steps_table(bench, snow.reckoning + (loads.drift.reckoning if loads.drift else ())),
        Heading("All loads together"),
        words_table(("Case", "Across the pane", "Lasts", "Level"), cases),
        Words(
            _LASTING[site.family],
            "small",
        ),
    ]
    return Page("Reckoning: loads", tuple(blocks))


def _forces(bench: Bench) -> tuple[Block, ...]:
    """The wind on the whole panel, for whoever proves what it stands on; none on roofs and walls."""
    forces = bench.design.structural.wind.forces
    if not forces:
        return ()
    rows = tuple(
        (each.words, bench.say(each.service_pa, "Pa"), _share(each.along_share), _share(each.across_share))
        for each in forces
    )
    words = (
        "Mean over the panel at the service level above, plus on the face; its place from the middle, as a "
        "share of the sloping length towards the high edge (minus: the low edge), and of the width to a side."
    )
    heads = ("Wind on the whole panel", "Mean", "Along", "Aside")
    return (words_table(heads, rows), Words(words, "small"))


def _share(part: float) -> str:
    return f"{100 * part:.3g}\u2009%"


_LASTING = {
    "ASCE": "Plus presses on the face, minus lifts. A combination lasts as long as one load of its size "
    "that tires glass as much; E1300 weighs each part by its own length.",
    "EN": "Plus presses on the face, minus lifts. A combination lasts as long as its shortest load, "
    "as EN 16612 takes it.",
}


def _lasting(seconds: float) -> str:
    """A duration as one says it."""
    for unit, length in (("years", 31_557_600.0), ("days", 86_400.0), ("h", 3600.0), ("min", 60.0)):
        if seconds >= 2 * length:
            return f"{seconds / length:.3g}\u2009{unit}"
    return f"{seconds:.3g}\u2009s"


def _heat(bench: Bench) -> Page:
    """How hot and how cold the parts get, and what the panel gives then."""
    blocks: list[Block] = [
        Words(
            "Each figure is a heat balance of this panel's own layers in steady weather: the sun it takes in "
            "against power, air, clear sky and ground. A passing hour is milder."
        ),
        Heading("Heat and cold"),
        steps_table(bench, bench.design.structural.temperatures.reckoning),
        Heading("Current and voltage"),
        words_table(("What", "Value"), _electric_rows(bench)),
    ]
    return Page("Reckoning: heat and electricity", tuple(blocks))


def _pane(bench: Bench) -> Page:
    """What the pane does under those loads, and what it would do under some that are none of the place."""
    built = bench.design.structural
    order = bench.design.order
    touches = touched(built.pane, order.site.family, order.parts.held)
    blocks: list[Block] = [
        Heading("Pane"),
        words_table(("What", "Value"), _pane_rows(bench)),
        Heading("Type tests, no loads of this place"),
        words_table(("What", "Demand", "Limit", ""), _apart_rows(bench, built.pane_tests)),
        Words(
            "A laboratory presses a panel so for an hour on each face, three times. A pane that lives "
            "through it is not proved for a roof, and one that is proved for a calm garden may break in it.",
            "small",
        ),
        Heading("A hand or a knee on the pane"),
        words_table(("What", "Demand", "Limit", ""), _apart_rows(bench, touches)),
        Words(
            "Nobody walks or kneels on a panel. These rows say what a slip would do: a force on 100 mm by "
            "100 mm, in the middle of the pane or beside its long side, whichever is worse. "
            f"{_TOUCHED[order.parts.touched]}",
            "small",
        ),
    ]
    return Page("Reckoning: pane", tuple(blocks))


_TOUCHED = {
    "none": "The order counts none of them among its checks.",
    "hand": "The order counts the hand among its checks; the knee is shown for whoever mends the roof.",
    "knee": "The order counts both among its checks.",
}


def _proofs(bench: Bench) -> Page:
    """What rails and bead do under those loads."""
    built = bench.design.structural
    blocks: list[Block] = [
        Heading("Rails"),
        words_table(
            ("What", "Long rail", "Short rail"), _rail_rows(bench, (built.rail_proof, built.short_rail_proof))
        ),
        Words(
            "The frame bends and twists as a whole. Free: the pane only loads it. On the elastic bead: the "
            "silicone holds it sideways as a spring. Held: the bead's line does not move sideways. Sag and "
            "twist are checked on the elastic bead where it is structural silicone, else free; stress at "
            "the worst. Pressing and lifting differ by their size only; the larger is shown. Corners and "
            "brackets are taken at their worse bound.",
            "small",
        ),
        Heading("Bead"),
        words_table(("What", "Value"), _bead_rows(bench)),
    ]
    return Page("Reckoning: rails and bead", tuple(blocks))


def _pane_rows(bench: Bench) -> tuple[tuple[str, str], ...]:
    pane, proof = bench.design.structural.pane, bench.design.structural.pane_proof
    unknown = pane_out_of_range(proof.checks)
    rows = [
        ("long side", bench.say(pane.long_mm, "mm", 4)),
        ("short side", bench.say(pane.short_mm, "mm", 4)),
        ("thickness reckoned with", bench.say(pane.sheet.thickness_mm, "mm")),
        ("largest deflection", NO_FIGURE if unknown else bench.say(proof.deflection_mm, "mm")),
        ("largest stress", NO_FIGURE if unknown else bench.say(proof.peak_mpa, "MPa")),
        ("its place from the middle, along and across", NO_FIGURE if unknown else _peak_place(bench)),
        ("stress at the middle", NO_FIGURE if unknown else bench.say(proof.centre_mpa, "MPa")),
        ("used up most by", proof.governing),
    ]
    if proof.non_factored_load_pa is not None:
        nfl = "non-factored load, ASTM E1300: annealed, 3 s, 8 in 1000 broken"
        rows.append((nfl, NO_FIGURE if unknown else bench.say(proof.non_factored_load_pa, "Pa")))
    rows += [] if unknown else _strength_rows(bench)
    rows += _warp_rows(bench)
    ball = bench.size(round(largest_ball_mm(pane.sheet)))
    rows.append(("largest ball of ice it is taken to live through; the weakest of the proofs", ball))
    return tuple(rows)


def _peak_place(bench: Bench) -> str:
    proof = bench.design.structural.pane_proof
    return f"{bench.size(round(proof.peak_long_mm))}, {bench.size(round(proof.peak_short_mm))}"


def _strength_rows(bench: Bench) -> list[tuple[str, str]]:
    """The rule book's strength for the load that uses up most of it."""
    built, family = bench.design.structural, bench.design.order.site.family
    proof = built.pane_proof
    load = next((each for each in built.loads.pane_loads if each.name == proof.governing), None)
    if load is None:
        return []
    steps = strength_steps(built.pane.sheet, family, load, proof.non_factored_load_pa)
    return [(step.words, bench.say(step.value, step.unit)) for step in steps]


def _warp_rows(bench: Bench) -> list[tuple[str, str]]:
    """How a plastic sheet bows where one of its faces grows more than the other."""
    pane = bench.design.structural.pane
    if pane.sheet.material == "glass":
        return []
    damp, warm = one_face_damp(pane), one_face_warm(pane)
    return [
        ("bow with its sunny face damp, lying free, over the long side", bench.say(damp.free_mm, "mm")),
        ("the same, edges held flat by the bead", bench.say(damp.held_mm, "mm")),
        ("bow the other way in full sun, held so", bench.say(warm.held_mm, "mm")),
    ]


def _apart_rows(bench: Bench, checks: tuple[Check, ...]) -> tuple[tuple[str, ...], ...]:
    """What is no load of the place, and what it would do to the pane."""
    return tuple(
        (
            check.rule,
            say_demand(bench, check),
            say_limit(bench, check),
            check.verdict,
        )
        for check in checks
    )


def _rail_rows(bench: Bench, proofs: tuple[RailProof, RailProof]) -> tuple[tuple[str, ...], ...]:
    """Each figure of the long and of the short rail, under every way of the pane's hold."""
    rows = [("length", *(bench.say(proof.length_mm, "mm", 4) for proof in proofs))]
    for words, bound in (("free", "free"), ("on the elastic bead", "bead"), ("held", "held")):
        rows += [
            (f"{what}, {words}", *(_bound(bench, proof, level, bound, figure, unit) for proof in proofs))
            for what, level, figure, unit in _RAIL_FIGURES
            if (bound, figure) != ("held", "sideways_mm")
        ]
    brackets, corners = ([_force(bench, proof, which) for proof in proofs] for which in ("bracket", "corner"))
    return (
        *rows,
        ("bracket: along, sideways, across", *brackets),
        ("corner: along, sideways, across", *corners),
    )


_RAIL_FIGURES = (
    ("sag of the pane's edge", "service", "sag_mm", "mm"),
    ("sideways", "service", "sideways_mm", "mm"),
    ("twist", "service", "twist_deg", "deg"),
    ("stress", "design", "stress_mpa", "MPa"),
)


def _bound(bench: Bench, proof: RailProof, level: str, bound: str, figure: str, unit: str) -> str:
    return bench.say(getattr(getattr(getattr(proof, level), bound), figure), unit)


def _force(bench: Bench, proof: RailProof, which: str) -> str:
    """Largest of each, at the level of strength; a dash where the side has no bracket."""
    force = proof.design.bracket if which == "bracket" else proof.design.corner.force
    if not force.bolt_n:
        return NO_FIGURE
    return ", ".join(bench.say(part, "N") for part in (force.along_n, force.sideways_n, force.across_n))


def _bead_rows(bench: Bench) -> tuple[tuple[str, str], ...]:
    built = bench.design.structural
    bead, loads, need = built.bead, built.loads, built.bead_need
    narrowest, widest = gap_range_mm(bead, need)
    return (
        ("suction on the bead", bench.say(loads.suction_pa, "Pa")),
        ("tension it may bear", bench.say(bead.sealant.design_pa * 1e-6, "MPa")),
        ("movement it may bear, of its width", f"{bead.sealant.movement:.0%}"),
        ("bite", bench.size(bead.bite_mm)),
        ("glue line", bench.size(bead.glue_line_mm)),
        (
            "gap at the edge; of it for size and square",
            f"{bench.size(bead.gap_mm)}; {bench.say(need.tolerance_mm, 'mm')}",
        ),
        (
            "gap at the far edge, narrowest and widest",
            f"{bench.say(narrowest, 'mm')} and {bench.say(widest, 'mm')}",
        ),
    )


def _electric_rows(bench: Bench) -> tuple[tuple[str, str], ...]:
    """Each condition's key points, and what the ribbon takes."""
    electrical = bench.design.electrical
    rows = [
        (
            f"{curve.name}: {bench.say(curve.irradiance_w_m2, 'W/m2')}, {bench.say(curve.cell_c, 'degC')}",
            f"{bench.say(curve.points.power_w, 'W')}; {bench.say(curve.points.vmp_v, 'V')}, "
            f"{bench.say(curve.points.imp_a, 'A')}; Voc {bench.say(curve.points.voc_v, 'V')}, Isc "
            f"{bench.say(curve.points.isc_a, 'A')}",
        )
        for curve in electrical.curves
    ]
    rows.append(("tabbing ribbon takes, of each cell", bench.say(electrical.tab_loss.total_w, "W")))
    return tuple(rows)
