"""A serial told as it was built: lots, another part, a crack, judged afresh at once, and taken back."""

from datetime import UTC, date, datetime, timedelta

import pytest

from panewright.desk.built.noted import happened
from panewright.ledger.serials.affected import serials_of_lot
from panewright.ledger.stores.lots import Lot, save_lot

pytestmark = pytest.mark.usefixtures("begun")

HERE = "/build/JL-7/0042/built"
TODAY = datetime.now(UTC).date()


def tapped(client, path, tap, **data):
    return client.post(path, data=data, headers={"x-tap": (tap * 24)[:24]})


@pytest.fixture
def begun(client, floor, jetty):
    assert client.post(f"/build/{jetty}/begin").status_code == 303
    for mark, lot in (
        ("C1", Lot("cells", "125 mm mono", "each", batch="B-9")),
        ("S1", Lot("silicone", "neutral cure", "cartridge", expires=date(2020, 5, 1))),
        ("R1", Lot("ribbon", "tab 2 x 0.15", "m", expires=TODAY + timedelta(days=90))),
    ):
        save_lot(floor.shop.ledger, mark, lot, seen=0, by="Ann", at=datetime.now(UTC))
    return "0042"


def noted(floor, serial="0042"):
    return happened(floor.shop.ledger, serial)


def test_nothing_is_told_at_first_and_the_likely_lots_are_proposed(client):
    text = client.get(HERE).text
    assert "Nothing is told yet" in text
    assert text.index("Cells C1") < text.index("Ribbon R1") < text.index("Silicone S1")


def test_a_lot_of_cells_lies_everywhere_and_is_found_from_the_lot(client, floor):
    answer = tapped(client, f"{HERE}/lot", "a", lot="C1")
    assert answer.status_code == 200
    cells = noted(floor).built.happened.cells
    assert f"Cells of lot C1: 1 to {len(cells)}" in answer.text
    assert [each.serial for each in serials_of_lot(floor.shop.ledger, "C1")] == ["0042"]
    tapped(client, f"{HERE}/lot", "a", lot="C1")
    assert noted(floor).version == 1


def test_a_lot_past_its_day_is_told_before_it_is_used(client, floor):
    asked = tapped(client, f"{HERE}/lot", "b", lot="S1", amount="1.5")
    assert asked.status_code == 409
    assert "past its day: it was good until 2020-05-01" in asked.text
    assert noted(floor) is None
    used = tapped(client, f"{HERE}/lot", "c", lot="S1", amount="1.5", sure="yes")
    assert used.status_code == 200
    assert "PAST ITS DAY" in used.text
    assert noted(floor).built.happened.batches[0].amount == 1.5


def test_a_lot_that_nobody_wrote_down_is_told_and_what_was_typed_stays(client, floor):
    answer = tapped(client, f"{HERE}/lot", "d", lot="S-9", amount="2")
    assert answer.status_code == 422
    assert "The shelf knows no such lot" in answer.text
    assert 'value="S-9"' in answer.text
    assert noted(floor) is None


def test_a_crack_lowers_the_watts_and_shows_what_changed(client, floor):
    answer = tapped(client, f"{HERE}/deviation", "e", what="crack", place="7", amount="30 %", note="corner")
    assert answer.status_code == 200
    built = noted(floor).built
    assert "Cell 7: a crack cuts off 30 %" in answer.text
    assert built.happened.deviations[0].amount == pytest.approx(0.3)
    assert f"{len(built.changed)} rule" in answer.text
    assert built.changed


def test_a_gap_is_read_with_its_unit(client, floor):
    tapped(client, f"{HERE}/deviation", "f", what="gap", amount="1/4 in")
    assert noted(floor).built.happened.deviations[0].amount == pytest.approx(6.35)


def test_another_part_is_chosen_from_the_shelf_and_wants_a_reason(client, floor):
    from panewright.desk.built.as_built import may_be

    text = client.get(HERE).text
    assert "<optgroup" in text
    made = client.portal.call(floor.reckoner.made, "JL-7", floor.shop.order("JL-7").text)
    parts = next(each for each in may_be(made) if each.key == "parts.tab")
    other = next(name for name in parts.names if name != parts.planned)
    refused = tapped(client, f"{HERE}/part", "g", part=f"parts.tab|{other}", reason="")
    assert refused.status_code == 422
    assert "without a reason" in refused.text
    kept = tapped(client, f"{HERE}/part", "h", part=f"parts.tab|{other}", reason="the roll ran out")
    assert f"Tab: {other}, not {parts.planned}" in kept.text
    assert noted(floor).built.happened.substitutions[0].planned == parts.planned


def test_a_joint_and_a_cell_and_all_of_it_is_taken_out_again(client, floor):
    tapped(client, f"{HERE}/joint", "i", kind="tab", after="3", times="2", note="iron too cold")
    cell = tapped(client, f"{HERE}/cell", "j", place="4", lot="C1", mark="c4", power="96 %")
    assert "Place 4: cell c4 of lot C1, 96 % of its power" in cell.text
    assert "Tab after cell 3 soldered again 2 times" in cell.text
    tapped(client, f"{HERE}/out", "k", what="joints", at="0")
    tapped(client, f"{HERE}/out", "l", what="cell", at="4")
    told = noted(floor)
    assert (told.version, told.built.happened.joints, told.built.happened.cells) == (4, (), ())
    tapped(client, f"{HERE}/earlier", "m", version="2")
    assert noted(floor).built.happened.joints[0].times == 2


@pytest.mark.parametrize(
    ("what", "said"),
    [
        ("deviation", {"what": "crack", "place": "99999", "amount": "0.1"}),
        ("deviation", {"what": "crack", "place": "7", "amount": "much"}),
        ("deviation", {"what": "<b>", "amount": "1"}),
        ("deviation", {"what": "other", "note": ""}),
        ("joint", {"kind": "tab", "after": "-1"}),
        ("joint", {"kind": "weld", "after": "1"}),
        ("cell", {"place": "1", "lot": "none"}),
        ("cell", {"place": "1", "lot": "C1", "power": "nan"}),
        ("part", {"part": "parts.moon|cheese", "reason": "x"}),
        ("out", {"what": "serial", "at": "0"}),
        ("nothing", {}),
    ],
)
def test_what_cannot_be_is_told_and_not_kept(client, floor, what, said):
    answer = tapped(client, f"{HERE}/{what}", "n", **said)
    assert answer.status_code == 422
    assert "mistake" in answer.text
    assert noted(floor) is None


def test_it_works_as_a_plain_form_too(client):
    assert client.post(f"{HERE}/lot", data={"lot": "C1"}).headers["location"] == HERE
    assert "Told so far" in client.get(HERE).text
