"""What was assumed and what was weighed: every choice the order left open, with its reason."""

from __future__ import annotations

from panewright.drawing.sheet import Block, Heading, Page, Table, Words
from panewright.pack.pages.front import ASSUMED, WEIGHED
from panewright.pack.pages.table import without_empty, words_table
from panewright.pack.verdict import answer
from panewright.pack.wording import signs
from panewright.panel.design import Design, Weighed


def weighing_pages(design: Design) -> tuple[Page, ...]:
    """Assumptions first, then choices."""
    return (_assumed(design), _weighed(design))


def _assumed(design: Design) -> Page:
    assumptions = design.order.assumptions
    blocks: list[Block] = []
    if not assumptions:
        blocks.append(Words("The order states everything; nothing was assumed."))
    else:
        lead = (
            "The order does not say these. Each holds until the order says otherwise: read them before "
            "building."
        )
        blocks.append(Words(lead))
        rows = tuple((each.key, signs(each.value), signs(each.reason)) for each in assumptions)
        blocks.append(words_table(("In the order", "Taken", "Because"), rows))
    models = dict.fromkeys(words for model in design.electrical.models for words in model.assumed)
    if models:
        blocks += [Heading("Of the cell"), *(Words(signs(words)) for words in models)]
    return Page(ASSUMED, tuple(blocks))


def _weighed(design: Design) -> Page:
    blocks: list[Block] = []
    if not design.weighed:
        blocks.append(Words("The order left nothing to choose."))
    for choice in design.weighed:
        blocks += [Heading(choice.question), Words(answer(choice)), *_table(choice)]
    return Page(WEIGHED, tuple(blocks))


def _table(choice: Weighed) -> tuple[Table, ...]:
    if not choice.rows:
        return ()
    rows = tuple(tuple(signs(words) for words in row) for row in choice.rows)
    return (words_table(*without_empty(choice.columns, rows)),)
