"""The crate as a maker reads it on the screen."""

from __future__ import annotations

from collections.abc import Iterator

from panewright.crate.crated import Crated
from panewright.crate.reasons import sizes
from panewright.crate.screws import Joint
from panewright.crate.timber import Section
from panewright.pack.bench import count
from panewright.pack.bench import told as length
from panewright.pack.customary import Units
from panewright.pack.figures.crate import section_words, thin_words
from panewright.pack.pages.crate_wood import seam_words, wood_rows
from panewright.pack.verdict import answer, by_need, sentence, told
from panewright.panel.design import Design
from panewright.units import show

_SIDES = {"face": "faces", "edge": "long sides", "end": "short sides"}


def crate_told(design: Design, crated: Crated) -> str:
    """What travels how, why, and what breaks a rule."""
    return "\n".join(_lines(design, crated)).replace("\u2009", " ") + "\n"


def _lines(design: Design, crated: Crated) -> Iterator[str]:
    job, units = design.order.job, design.order.job.units
    yield crated.reason
    yield ""
    yield f"{job.number} {job.name}, revision {design.revision}, {count(job.panels, crated.goods)}"
    if not design.proven:
        yield "  The design itself is NOT PROVEN: see panewright design."
    yield f"  {loads_told(crated)}"
    for name, room in (("inside", crated.inside), ("outside", crated.outside)):
        yield f"  {name} {sizes(room, units)}"
    yield f"  {show(crated.gross_kg, 'kg', units)}, {show(crated.tare_kg, 'kg', units)} of it {crated.shell}"
    yield from _foam(crated, units)
    yield from _boards(crated, units)
    yield ""
    yield sentence(crated.checks)
    for check in (each for each in by_need(crated.checks) if not each.passed):
        yield f"  {check.rule}: {told(check, units)} ({check.source})"
        yield f"    {check.cure}"
    yield ""
    for choice in crated.weighed:
        yield f"{choice.question}"
        yield f"  {answer(choice)}"
    yield ""
    yield from crated.notes


def loads_told(crated: Crated) -> str:
    """How many crates hold how many."""
    return "; ".join(f"{count(n, crated.shell)} of {count(held, crated.goods)}" for held, n in crated.loads)


def _foam(crated: Crated, units: str) -> Iterator[str]:
    for each in crated.padding:
        thick = thin_words(each.thickness_mm, units)
        fall = length(round(each.fall_mm, 0), units)
        shock = f"{show(each.shock_g, 'g')} of {show(each.fragile_g, 'g')} from {fall}"
        yield f"  {_SIDES[each.side]}: {count(2 * each.pads, 'pad')} {thick} {each.foam}, {shock}"


def _boards(crated: Crated, units: Units) -> Iterator[str]:
    yield ""
    yield f"To {'cut' if crated.shell == 'carton' else 'saw'} for one {crated.shell}"
    for each in crated.boards:
        long = length(each.long_mm, units)
        if each.stuff == "softwood":
            section = section_words(Section(each.wide_mm, each.thick_mm), units)
            yield f"  {each.count} × {each.name}, {each.stuff} {section}, {long}"
        else:
            wide, thick = length(each.wide_mm, units), thin_words(each.thick_mm, units)
            stuff = "board" if each.stuff == "card" else each.stuff
            yield f"  {each.count} × {each.name}, {stuff} {thick}, {long} × {wide}"
    yield from _wood(crated, units)
    for joint in crated.joints:
        yield f"  {joint.count} × screw {joint.screw.name}, {joint_words(joint)}"


def _wood(crated: Crated, units: Units) -> Iterator[str]:
    """Bars and sheets to buy for all crates."""
    for name, words, bought, sawn in wood_rows(crated, units):
        yield f"  to buy for {count(crated.crates, crated.shell)}: {name}, {words} ({sawn} of {bought} sawn)"
    yield from (f"  {words}" for words in seam_words(crated, units))


def joint_words(joint: Joint) -> str:
    """Through what into what; aslant where no screw reaches through."""
    return f"{joint.name}, skewed from either side" if joint.skewed else joint.name
