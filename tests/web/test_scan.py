"""A lot scanned at the bench goes straight into the panel; what speaks against it is asked first."""

import re
from datetime import UTC, date, datetime
from decimal import Decimal

import pytest

from panewright.desk.built.noted import happened
from panewright.ledger.serials.affected import serials_of_lot
from panewright.ledger.stores.lots import Lot, save_lot

BENCH = "/build/JL-7/0042"
pytestmark = pytest.mark.usefixtures("begun")


def tapped(client, path, tap, **data):
    return client.post(path, data=data, headers={"x-tap": (tap * 24)[:24]})


@pytest.fixture
def begun(client, floor, jetty):
    assert client.post(f"/build/{jetty}/begin").status_code == 303
    for mark, lot in (
        ("C1", Lot("cells", "125 mm mono", "each", batch="B-9")),
        ("C2", Lot("cells", "156 mm poly", "each")),
        ("S1", Lot("silicone", "structural silicone, one part", "cartridge", expires=date(2020, 5, 1))),
        ("R1", Lot("tabs", "1.5 x 0.2 mm", "m")),
        ("T1", Lot("tape", "yellow", "roll")),
    ):
        save_lot(floor.shop.ledger, mark, lot, seen=0, by="Ann", at=datetime.now(UTC))
    return "0042"


def told(floor):
    noted = happened(floor.shop.ledger, "0042")
    return noted.built.happened if noted else None


def test_a_step_says_what_goes_in_and_no_lot_at_first(client):
    step = client.get(BENCH).text.partition('id="step-sort-cells"')[2].partition("\n</li>")[0]
    assert "<li>Cells <small>no lot yet</small></li>" in step
    assert f'action="{BENCH}/scan"' in step


def test_a_scan_puts_the_lot_in_at_the_step_that_is_due(client, floor):
    answer = tapped(client, f"{BENCH}/scan", "a", lot="LOT-C1")
    assert answer.status_code == 200
    assert '<b class="word holds">C1</b>' in answer.text
    assert "Cells C1 is in" in answer.text
    assert {each.lot for each in told(floor).cells} == {"C1"}
    assert len(told(floor).cells) == client.get("/panel/JL-7").text.count('<g class="cell')
    assert [each.serial for each in serials_of_lot(floor.shop.ledger, "C1")] == ["0042"]


def test_a_scan_sent_again_after_a_lost_answer_counts_once(client, floor):
    for _ in range(2):
        answer = tapped(client, f"{BENCH}/scan", "a", lot="C1")
        assert answer.status_code == 200
        assert "Cells C1 is in" in answer.text
    assert happened(floor.shop.ledger, "0042").version == 1
    again = tapped(client, f"{BENCH}/scan", "b", lot="C1")
    assert again.status_code == 422
    assert "Every place has its cell already" in again.text


def test_the_undo_takes_it_out_and_keeps_what_was_told_before(client, floor):
    tapped(client, f"{BENCH}/built/joint", "a", kind="tab", after="3")
    answer = tapped(client, f"{BENCH}/scan", "b", lot="C1")
    undo = answer.text.partition('id="undo"')[2]
    assert f'action="{BENCH}/scan/back"' in undo
    version = re.search(r'name="version" value="(\d+)"', undo)[1]
    back = tapped(client, f"{BENCH}/scan/back", "c", version=version)
    assert back.status_code == 200
    assert "no lot yet" in back.text.partition('id="step-sort-cells"')[2].partition("\n</li>")[0]
    assert (told(floor).cells, len(told(floor).joints)) == ((), 1)


@pytest.mark.parametrize(
    ("lot", "step", "words"),
    [
        ("S1", "set-pane", "past its day: it was good until 2020-05-01"),
        ("R1", "", "It is not due here but at Tab the cells"),
        ("C2", "", "The design has 125 mm mono; this lot is 156 mm poly."),
        ("T1", "", "No step of this panel asks for tape."),
    ],
)
def test_a_wrong_or_an_old_lot_is_asked_about_and_goes_in_all_the_same(client, floor, lot, step, words):
    asked = tapped(client, f"{BENCH}/scan", "a", lot=lot, step=step)
    assert asked.status_code == 422
    assert words in asked.text
    assert told(floor) is None
    used = tapped(client, f"{BENCH}/scan", "b", lot=lot, step=step or "sort-cells", sure="yes")
    assert used.status_code == 200
    held = {each.lot for each in told(floor).cells} | {each.lot for each in told(floor).batches}
    assert held == {lot}


def test_the_right_lot_at_its_own_step_is_not_asked_about(client, floor):
    answer = tapped(client, f"{BENCH}/scan", "a", lot="R1", step="tab-cells")
    assert answer.status_code == 200
    assert told(floor).batches[0].lot == "R1"
    again = tapped(client, f"{BENCH}/scan", "b", lot="R1", step="join-columns")
    assert again.status_code == 422
    assert "It is in already" in again.text


def test_more_cells_lie_where_none_lies_yet(client, floor):
    tapped(client, f"{BENCH}/built/lot", "a", lot="C1", places="1-30")
    tapped(client, f"{BENCH}/scan", "b", lot="C2", sure="yes")
    lots = [each.lot for each in told(floor).cells]
    assert lots[:30] == ["C1"] * 30
    assert set(lots[30:]) == {"C2"}


def test_a_panels_code_opens_its_record_and_a_strange_one_is_told(client):
    assert tapped(client, f"{BENCH}/scan", "a", lot="0044").headers["x-go"] == "/serial/0044"
    strange = tapped(client, f"{BENCH}/scan", "b", lot="LOT-X9")
    assert strange.status_code == 422
    assert "The shelf knows no such lot" in strange.text


def test_a_code_does_on_the_page_as_built_and_on_the_search_page_too(client, floor):
    assert tapped(client, f"{BENCH}/built/lot", "a", lot="LOT-C1").status_code == 200
    assert {each.lot for each in told(floor).cells} == {"C1"}
    doubt = tapped(client, f"{BENCH}/built/lot", "b", lot="LOT-C2")
    assert "The design has 125 mm mono" in doubt.text
    assert client.get("/serial?code=LOT-C1").headers["location"] == "/lots/C1"


def test_it_works_as_a_plain_form_too(client, floor):
    assert client.post(f"{BENCH}/scan", data={"lot": "C1"}).headers["location"] == BENCH
    assert {each.lot for each in told(floor).cells} == {"C1"}


def test_labels_bear_the_code_the_words_and_the_last_day(client, floor):
    save_lot(
        floor.shop.ledger,
        "S 2",
        Lot("silicone", "neutral", "cartridges", amount=Decimal(12), expires=date(2030, 5, 1)),
        seen=0,
        by="Ann",
        at=datetime.now(UTC),
    )
    assert 'href="/lots/S%202/labels"' in client.get("/lots/S 2").text
    page = client.get("/lots/S 2/labels").text
    assert page.count("good until <span>2030-05-01<") == 12
    assert client.get("/lots/S 2/labels?n=3").text.count("good until <span>2030-05-01<") == 3
    assert client.get("/lots/S 2/labels?n=9999").text.count("good until <span>2030-05-01<") == 60
    assert client.get("/lots/C1/labels?n=x").text.count("batch B-9") == 1


def test_the_code_on_a_label_reads_as_it_is_scanned(client):
    from io import BytesIO

    import segno

    from panewright.desk.stores.lots import code_of
    from panewright.intake.photograph import codes

    shown, picture = client.get("/lots/C1/labels").text, BytesIO()
    made = segno.make(code_of("C1"), error="m", micro=False)
    assert re.search(r'<path[^>]* d="([^"]+)"', made.svg_inline(border=4, omitsize=True))[1] in shown
    made.save(picture, kind="png", scale=8)
    assert codes(picture.getvalue()) == ("LOT-C1",)
