"""How strings snake through the columns, and which columns meet at which end.

A string begins at the bottom of its first column, runs up, down the next, and so on. Neighbouring
strings in parallel run in opposite senses, so that columns side by side belong to the same pole:

    string 1 >   < string 2
    | 0  1  |  2  3 |          minus ends at columns 0 and 3, plus ends at columns 1 and 2
"""

from __future__ import annotations

from panewright.layup.layup import End, Plan


def columns_in_order(plan: Plan, string: int) -> tuple[int, ...]:
    """The columns of one string in the order in which it runs through them."""
    count = plan.columns_a_string
    columns = tuple(range(string * count, (string + 1) * count))
    return columns if string % 2 == 0 else columns[::-1]


def end_after(column_ordinal: int) -> End:
    """The pane's end at which a string is after so many of its columns; 0 is its beginning."""
    return "bottom" if column_ordinal % 2 == 0 else "top"


def joins_at(plan: Plan, end: End) -> bool:
    """Whether some bus joins two columns at that end."""
    joins = range(1, plan.columns_a_string)
    return any(end_after(join) == end for join in joins)


def minus_lane(plan: Plan) -> int:
    """The lane of the bus that carries the minus lead; it passes outside whatever lies in its way."""
    beside_joins = joins_at(plan, "bottom")
    if not plan.leads_one_end:
        return 2 if beside_joins and plan.strings > 1 else 1
    if plan.strings == 1:
        return 2 if beside_joins else 1
    if plan.strings == 2:
        return 2
    return 3 if beside_joins else 2


def plus_lane(plan: Plan) -> int:
    """The lane of the bus that carries the plus lead."""
    if not plan.leads_one_end:
        return 2 if joins_at(plan, "top") and plan.strings > 1 else 1
    if plan.strings == 2:
        return 1  # both plus columns lie side by side, nothing between them
    return 2 if joins_at(plan, "bottom") else 1


def lanes(plan: Plan) -> int:
    """How many bus ribbons lie side by side at the fuller end."""
    return max(minus_lane(plan), plus_lane(plan))


def reachable_substrings(columns_a_string: int) -> tuple[int, ...]:
    """Numbers of bypass diodes a string may have.

    A diode's wire is reached only where a bus joins two columns, and at the end where the leads are: each
    substring then spans an even number of columns. With leads at opposite ends one diode spans the string.

    >>> reachable_substrings(6), reachable_substrings(4), reachable_substrings(8), reachable_substrings(3)
    ((1, 3), (1, 2), (1, 2, 4), (1,))
    """
    if columns_a_string % 2:
        return (1,)
    pairs = columns_a_string // 2
    return tuple(count for count in range(1, pairs + 1) if pairs % count == 0)
