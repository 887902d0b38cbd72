"""The bench's rules on a page: kept in the shop's own file, refused as the file is, nothing written over."""

import re

from panewright.desk.rating.shop_words import FILE, shop_words


def stood(client):
    return re.search(r'name="stood" value="(\w+)"', client.get("/rules").text)[1]


def test_rules_are_kept_in_the_shop_s_file_and_its_remarks_stay(client, floor):
    file = floor.folder / FILE
    file.write_text('# agreed in May\nlabel.guard = "1"\nshares.dimmed = "4 %"  # dust\n')
    said = {"stood": stood(client), "label.guard": "0", "label.step": "5 W", "shares.healthy": "95 %"}
    assert client.post("/rules", data=said).status_code == 303
    assert shop_words(floor.folder) == {
        "label.guard": "0", "label.step": "5 W", "shares.healthy": "95 %",
    }  # fmt: skip
    assert "# agreed in May" in file.read_text()
    assert 'value="95 %"' in client.get("/rules").text


def test_a_shop_without_such_a_file_gets_one_with_the_first_rule(client, floor):
    assert not (floor.folder / FILE).exists()
    client.post("/rules", data={"stood": stood(client), "shares.weak_cell": "2 %"})
    assert shop_words(floor.folder) == {"shares.weak_cell": "2 %"}


def test_what_the_file_may_not_say_the_page_refuses_and_writes_nothing(client, floor):
    wrong = {"stood": stood(client), "label.step": "5", "shares.healthy": "80 %", "shares.dimmed": "70 %"}
    answer = client.post("/rules", data=wrong)
    assert answer.status_code == 422
    assert "more than all panels" in answer.text
    assert 'value="70 %"' in answer.text
    assert "Typed: 5" in answer.text
    assert not (floor.folder / FILE).exists()


def test_a_file_changed_meanwhile_is_not_written_over(client, floor):
    before = stood(client)
    (floor.folder / FILE).write_text('label.step = "1 W"\n')
    answer = client.post("/rules", data={"stood": before, "label.step": "5 W"})
    assert answer.status_code == 422
    assert "changed meanwhile" in answer.text
    assert shop_words(floor.folder) == {"label.step": "1 W"}


def test_a_file_with_a_mistake_is_told_and_left_to_its_writer(client, floor):
    text = 'light.by = "telephone"\n'
    (floor.folder / FILE).write_text(text)
    page = client.get("/rules")
    assert page.status_code == 422
    assert "no rule of a shop" in page.text
    assert client.post("/rules", data={"label.step": "5 W"}).status_code == 422
    assert (floor.folder / FILE).read_text() == text
