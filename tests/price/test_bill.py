"""Lines of the parts list."""

from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from panewright.price.bill import GROUPS, STEPS, Need, bill, line, total

SOLD_BY = st.sampled_from(sorted(STEPS))
NEEDS = st.builds(
    Need,
    group=st.sampled_from(GROUPS),
    name=st.just("part"),
    one=st.decimals("0.001", 100, places=3),
    sold_by=SOLD_BY,
    price=st.decimals("0.01", 500, places=2),
    waste=st.decimals(0, "0.3", places=2),
)


@given(NEEDS, st.integers(1, 200))
def test_an_order_buys_at_least_what_its_panels_take_with_what_is_lost(need, panels):
    made = line(need, panels)
    assert made.buy >= need.one * (1 + need.waste) * panels
    assert made.buy < need.one * (1 + need.waste) * panels + STEPS[need.sold_by]


@given(NEEDS, st.integers(1, 200))
def test_buying_at_once_never_buys_more_than_panel_by_panel(need, panels):
    made = line(need, panels)
    assert made.buy <= line(need, 1).buy * panels


@given(st.lists(NEEDS, max_size=12), st.integers(1, 20))
def test_the_total_is_the_sum_of_what_is_shown(needs, panels):
    lines = bill(tuple(needs), panels)
    assert total(lines) == sum((made.cost for made in lines), Decimal(0))
    assert all(made.cost == made.cost.quantize(Decimal("0.01")) for made in lines)


def test_lines_stand_in_the_order_of_their_groups():
    needs = tuple(Need(group, group, Decimal(1), "each", Decimal(1)) for group in reversed(GROUPS))
    assert tuple(made.group for made in bill(needs, 1)) == GROUPS


def test_a_part_without_a_price_is_listed_and_left_out_of_the_sum():
    lines = bill((Need("frame", "own rail", Decimal(1), "bar", None),), 2)
    assert lines[0].buy == 2
    assert lines[0].cost is None
    assert total(lines) == 0


def test_what_a_panel_does_not_take_is_not_listed():
    assert bill((Need("frame", "drain", Decimal(0), "each", Decimal(1)),), 1) == ()


def test_a_rule_of_its_own_decides_what_is_bought():
    need = Need("cells", "cell", Decimal(36), "each", Decimal(2), buy=Decimal(76))
    made = line(need, 2)
    assert (made.buy, made.cost) == (76, Decimal("152.00"))
