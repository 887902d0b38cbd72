"""A lot matched in the shop: wished, dealt, explained, laid at the bench, exchanged, told as built."""

from __future__ import annotations

import csv
import io
import random
import re
from html import unescape
from pathlib import Path

import pytest

EXAMPLES = Path(__file__).parents[2] / "examples"


def lot_csv(cells=84, seed=5):
    """INVENTED cells of 125 mm, read in full sun."""
    dice = random.Random(seed)
    lines = ["Cell,Isc [A],Voc [V],Imp [A],Vmp [V],E [W/m2],T [degC]"]
    for n in range(1, cells + 1):
        isc, voc = 5.7 * (1 + dice.gauss(0, 0.02)), 0.62 * (1 + dice.gauss(0, 0.004))
        lines.append(f"K{n:03},{isc:.3f},{voc:.4f},{isc * 0.945:.3f},{voc * 0.835:.4f},1000,25")
    return "\n".join(lines) + "\n"


def tapped(client, path, tap, **data):
    return client.post(path, data=data, headers={"x-tap": (tap * 24)[:24]})


@pytest.fixture
def kiosk(client):
    content = (EXAMPLES / "kiosk.toml").read_bytes()
    answer = client.post("/orders/take", files={"file": ("kiosk.toml", content)})
    assert answer.status_code == 303
    number = answer.headers["location"].rsplit("/", 1)[1]
    dropped = client.post("/cells/take", data={"lot": "K1"}, files={"file": ("lot.csv", lot_csv().encode())})
    assert dropped.headers["location"] == "/cells/K1"
    return number


@pytest.fixture
def dealt(client, kiosk):
    """The number of the order, and where the deal is."""
    asked = {"order": kiosk, "aim": "reach", "rating": "90 W", "panels": "2"}
    answer = tapped(client, "/cells/K1/match", "m", **asked)
    assert answer.status_code == 200, answer.text
    where = answer.headers.get("x-go") or waited(client)
    return kiosk, where


def waited(client):
    return client.get("/cells/K1/match/wait", headers={"x-parts": "matching"}).headers["x-go"]


@pytest.fixture
def begun(client, dealt):
    """The first panel of the deal, and the serial that it is."""
    number, where = dealt
    assert client.post(f"/build/{number}/begin").status_code == 303
    page = client.get(f"{where}/1").text
    serial = re.search(r"<option>([^<]+)</option>", page).group(1)
    assert tapped(client, f"{where}/1/give", "g", serial=serial).headers["x-go"] == f"{where}/1"
    return number, where, serial


def places(client, where):
    """Marks of a panel's places, as its page lists them."""
    page = unescape(client.get(f"{where}/1").text)
    return re.findall(
        r'<li id="p-(\d+)"[^>]*><span class="n">\d+</span><span class="what"><b>([^<]+)</b>', page
    )


def test_the_wish_is_chosen_on_a_page_and_its_mistakes_stand_there(client, kiosk):
    page = client.get("/cells/K1/match").text
    assert f'value="{kiosk}"' in page
    assert "Most panels that reach a rating" in page
    assert 'href="/cells/K1/match"' in client.get("/cells/K1").text
    assert 'href="/cells/K1/match"' in client.get("/lots/K1").text
    for told, said in (
        ({"aim": "reach"}, "This aim needs a rating."),
        ({"aim": "money", "steps": "95 W"}, "This is no price step."),
        ({"panels": "many"}, "This is no whole number."),
        ({"aim": "burn"}, "There is no such aim."),
        ({"aim": "reach", "rating": "90 W", "sure": "9"}, "sure"),
        ({"soldered": "K001, K999"}, "This cell is not in the lot."),
        ({"order": "nobody"}, "do not know it"),
    ):
        answer = client.post("/cells/K1/match", data={"order": kiosk, **told})
        page = answer.text if answer.status_code == 422 else client.get("/cells/K1/match").text
        if answer.status_code == 303:
            client.get("/cells/K1/match/wait", headers={"x-parts": "matching"})
            page = client.get("/cells/K1/match").text
        assert said in unescape(page), told


def test_a_deal_shows_panels_comparisons_and_what_is_left(client, dealt):
    number, where = dealt
    page = unescape(client.get(where).text)
    for words in (
        f"/orders/{number}",
        "Plain sorting",
        "reaches 90\u2009W with ",
        " itself, ",
        "Proven bound",
        "All cells together may be off by 3.3%",
        "panels</dt><dd>2",
        "left over</dt><dd>12",
    ):
        assert words in page
    assert page.count('class="button" href="/deals/1?cell=') == 12
    assert "Lay it" in page
    assert 'href="/deals/1"' in client.get("/cells/K1/match").text


def test_a_cell_left_over_is_explained_and_one_that_sits_has_others_ranked(client, dealt):
    _, where = dealt
    left = re.search(r"\?cell=(K\d+)", client.get(where).text).group(1)
    later = client.get(f"{where}?cell={left}").text
    assert f'data-wants="/deals/1?cell={left}"' in later
    shown = client.get(f"{where}?cell={left}", headers={"x-parts": "dealcell"}).text
    assert f"Cell {left} is left over." in shown
    seated = places(client, where)[4][1]
    shown = client.get(f"{where}?cell={seated}&wait=1").text
    assert f"Cell {seated} sits in panel 1, place 5." in shown
    assert shown.count('name="into"') == 10
    assert "no such cell" in client.get(f"{where}?cell=X1&wait=1").text


def test_papers_are_taken_along_and_say_the_same(client, dealt):
    _, where = dealt
    rows = list(csv.DictReader(io.StringIO(client.get(f"{where}/papers/picks.csv").text)))
    told = [(row["place"], row["cell"]) for row in rows if row["panel"] == "1"]
    assert told == places(client, where)
    assert client.get(f"{where}/papers/picks.pdf").content.startswith(b"%PDF")
    points = list(csv.DictReader(io.StringIO(client.get(f"{where}/papers/curves.csv").text)))
    first = [each for each in points if each["panel"] == "1"]
    page = unescape(client.get(f"{where}/1").text)
    isc = float(re.search(r"<dt>Isc</dt><dd>([\d.]+)", page).group(1))
    assert float(first[0]["current, A"]) == pytest.approx(isc, abs=1e-3)
    assert "Predicted curve" in page
    assert "data-points" in page
    assert client.get(f"{where}/papers/labels.pdf").content.startswith(b"%PDF")
    assert client.get(f"{where}/papers/picks.xlsx").content.startswith(b"PK")
    for name in ("picks.doc", "other.pdf"):
        assert client.get(f"{where}/papers/{name}").status_code == 404


def test_cells_are_laid_by_the_next_button_and_by_a_tap_on_the_drawing(client, begun):
    _, where, serial = begun
    marks = dict(places(client, where))
    first = tapped(client, f"{where}/1/lay", "a", cell="1", state="laid")
    assert "1</b> of 36 laid" in first.text
    assert f"{marks['1']} laid at place 1" in first.text
    assert f'<p class="expect">{marks["2"]}</p>' in first.text
    by_tap = tapped(client, f"{where}/1/lay", "b", cell="7", state="laid")
    assert "&#34;7&#34;: &#34;laid&#34;" in by_tap.text
    assert "2</b> of 36 laid" in by_tap.text
    lifted = tapped(client, f"{where}/1/lay", "c", cell="7", state="sound")
    assert "1</b> of 36 laid" in lifted.text
    record = unescape(client.get(f"/serial/{serial}").text)
    assert f"{marks['1']}" in record
    assert "1 of 36 laid" in unescape(client.get(where).text)
    assert f'href="{where}"' in client.get(f"/build/{begun[0]}").text


def test_a_tap_that_comes_twice_lays_once(client, floor, begun):
    from panewright.ledger.serials.laid import all_laid

    _, where, serial = begun
    for _ in range(2):
        tapped(client, f"{where}/1/lay", "a", cell="1", state="laid")
    assert len(all_laid(floor.shop.ledger, serial)) == 1


def test_a_cell_that_broke_is_exchanged_and_its_story_stays(client, floor, begun):
    from panewright.ledger.serials.laid import all_laid

    _, where, serial = begun
    old = dict(places(client, where))["3"]
    tapped(client, f"{where}/1/lay", "a", cell="3", state="laid")
    broke = tapped(client, f"{where}/1/lay", "b", cell="3", state="broken", why="cracked")
    assert broke.headers["x-go"] == f"{where}?cell={old}#dealcell"
    page = client.get(f"{where}?cell={old}&wait=1").text
    new = re.search(r'name="into" value="([^"]+)"', page).group(1)
    done = tapped(client, f"{where}/swap", "c", cell=old, into=new, why="cracked")
    assert done.headers["x-go"] == f"{where}/1?new=3"
    assert dict(places(client, where))["3"] == new
    tapped(client, f"{where}/1/lay", "d", cell="3", state="laid")
    assert [(each.cell, each.what) for each in all_laid(floor.shop.ledger, serial)] == [
        (old, "laid"),
        (old, "broken"),
        (new, "laid"),
    ]
    assert f"{new} instead of {old} (cracked)." in unescape(client.get(where).text)
    record = unescape(client.get(f"/serial/{serial}").text)
    assert "broke" in record
    assert old in record
    assert "was taken out of panel 1, place 3" in client.get(f"{where}?cell={old}&wait=1").text
    assert f"1,3,{new}," in client.get(f"{where}/papers/picks.csv").text


def test_a_cell_exchanged_while_it_lies_is_told_as_broken(client, floor, begun):
    from panewright.ledger.serials.laid import all_laid

    _, where, serial = begun
    old = dict(places(client, where))["1"]
    tapped(client, f"{where}/1/lay", "a", cell="1", state="laid")
    page = client.get(f"{where}?cell={old}&wait=1").text
    new = re.search(r'name="into" value="([^"]+)"', page).group(1)
    tapped(client, f"{where}/swap", "c", cell=old, into=new, why="chipped")
    told = [(each.cell, each.what, each.reason) for each in all_laid(floor.shop.ledger, serial)]
    assert told == [(old, "laid", ""), (old, "broken", "chipped")]


def test_two_hands_that_exchange_at_once_are_told(client, begun):
    _, where, _ = begun
    marks = dict(places(client, where))
    left = re.findall(r"\?cell=(K\d+)", client.get(where).text)
    assert tapped(client, f"{where}/swap", "a", cell=marks["1"], into=left[0]).status_code == 200
    gone = tapped(client, f"{where}/swap", "b", cell=marks["2"], into=left[0])
    assert gone.status_code == 422
    assert "may not go there" in gone.text


def test_without_a_serial_nothing_is_laid_and_a_serial_is_one_panel(client, begun):
    _, where, serial = begun
    answer = tapped(client, f"{where}/2/lay", "a", cell="1", state="laid")
    assert answer.status_code == 422
    assert "Nobody said which serial this is." in answer.text
    assert f"<option>{serial}</option>" not in client.get(f"{where}/2").text
    twice = tapped(client, f"{where}/2/give", "b", serial=serial)
    assert twice.status_code == 422
    assert "That serial is panel 1." in twice.text
    assert client.get(f"{where}/3").status_code == 404
    assert client.get("/deals/99").status_code == 404


def test_a_panel_that_is_laid_becomes_the_panel_as_built_by_its_own_cells(client, begun):
    number, where, serial = begun
    early = tapped(client, f"/build/{number}/{serial}/built/cells-laid", "e", deal="1")
    assert "0 of 36 cells of this deal are laid." in early.text
    for place in range(1, 37):
        client.post(f"{where}/1/lay", data={"cell": str(place), "state": "laid"})
    page = client.get(f"{where}/1").text
    assert "All are laid" in page
    told = tapped(client, f"/build/{number}/{serial}/built/cells-laid", "f", deal="1")
    assert told.headers["x-go"] == f"/build/{number}/{serial}/built"
    record = unescape(client.get(f"/serial/{serial}").text)
    assert "As built" in record
    assert dict(places(client, where))["36"] in record
    assert "1 panel holds" in client.get("/lots/K1").text


def test_cells_that_lie_in_panels_or_broke_are_not_dealt_again(client, begun):
    number, where, _ = begun
    marks = dict(places(client, where))
    tapped(client, f"{where}/1/lay", "a", cell="1", state="laid")
    tapped(client, f"{where}/1/lay", "b", cell="2", state="laid")
    tapped(client, f"{where}/1/lay", "c", cell="2", state="broken")
    asked = {"order": number, "aim": "reach", "rating": "90 W", "panels": "2"}
    answer = tapped(client, "/cells/K1/match", "n", **asked)
    again = answer.headers.get("x-go") or waited(client)
    assert again == "/deals/2"
    page = unescape(client.get(again).text)
    assert "Cells that lie in panels already, or broke: 2." in page
    text = client.get(f"{again}/papers/deal.json").json()
    assert not {marks["1"], marks["2"]} & set(text["marks"])


def dealt_anew(client, number, tap, **more):
    """Another deal of the lot; its address and its cells."""
    answer = tapped(client, "/cells/K1/match", tap, **{"order": number, "aim": "watts", **more})
    assert answer.status_code == 200, answer.text
    where = answer.headers.get("x-go") or waited(client)
    return where, client.get(f"{where}/papers/deal.json").json()


@pytest.fixture
def another(client):
    """A second order of the same panels."""
    text = (EXAMPLES / "kiosk.toml").read_text().replace('"TK-3"', '"TK-4"')
    answer = client.post("/orders/take", files={"file": ("other.toml", text.encode())})
    assert answer.status_code == 303, answer.text
    return answer.headers["location"].rsplit("/", 1)[1]


def test_a_cell_that_broke_before_it_was_laid_is_dealt_nowhere_again(client, floor, dealt):
    from panewright.ledger.serials.laid import taken

    number, where = dealt
    old = dict(places(client, where))["4"]
    page = client.get(f"{where}?cell={old}&wait=1").text
    new = re.search(r'name="into" value="([^"]+)"', page).group(1)
    tapped(client, f"{where}/swap", "a", cell=old, into=new, why="fell off the bench")
    assert taken(floor.shop.ledger, "K1") == (old,)  # what spares and replacements leave out
    _, deal = dealt_anew(client, number, "b", panels="2")
    assert old not in deal["marks"]
    assert "Cells that lie in panels already, or broke: 1. They are not dealt again." in deal["said"]


def test_cells_that_a_deal_waits_for_are_left_out_unless_asked(client, dealt, another):
    number, _ = dealt
    assert (number, another) == ("TK-3", "TK-4")
    shown = unescape(client.get("/cells/K1/match").text)
    assert "72 cells for order TK-3" in shown
    short = tapped(client, "/cells/K1/match", "a", order=another, panels="1")
    said = short.text if short.status_code == 422 else client.get("/cells/K1/match").text
    assert "The lot has 12 cells; one panel takes 36." in unescape(said)
    assert "Deal 1 for order TK-3: 72 cells" in unescape(said)
    _, deal = dealt_anew(client, another, "b", panels="1", **{"free-1": "yes"})
    assert len(deal["marks"]) == 84
    weak = {"aim": "remainder", "rating": "85 W", "panels": "1"}
    own, _ = dealt_anew(client, number, "c", **weak, **{"free-2": "yes"})
    left = re.findall(r"\?cell=(K\d+)", client.get(own).text)
    assert "36 cells for order TK-4" in unescape(client.get("/cells/K1/match").text)
    wait = {mark for _, mark in places(client, "/deals/2")}
    seated = places(client, own)[0][1]
    offered = re.findall(r'name="into" value="([^"]+)"', client.get(f"{own}?cell={seated}&wait=1").text)
    assert offered
    assert not wait & set(offered)
    theirs = next(iter(wait.intersection(left)))
    gone = tapped(client, f"{own}/swap", "d", cell=seated, into=theirs)
    assert gone.status_code == 422
    assert "Another deal waits for this cell." in gone.text


def test_a_deal_gives_way_to_a_later_one_of_its_order_save_a_panel_that_is_begun(client, floor, begun):
    from panewright.desk.deals.held import held

    number, where, serial = begun
    ours = {mark for _, mark in places(client, where)}
    ledger = floor.shop.ledger
    assert [len(each.cells) for each in held(ledger, "K1")] == [72]
    assert [set(each.cells) for each in held(ledger, "K1", number)] == [ours]
    again, deal = dealt_anew(client, number, "b", panels="1")
    assert not ours & set(deal["marks"])
    assert (
        "Deal 1 for order TK-3: 36 cells stand there and are not laid yet. They are left out." in deal["said"]
    )
    assert [len(each.cells) for each in held(ledger, "K1")] == [36, 36]
    tapped(client, f"{again}/1/give", "c", serial=serial)  # the later deal lays that serial now
    assert [each.deal for each in held(ledger, "K1", number)] == [2]


def test_a_cell_that_lies_elsewhere_meanwhile_replaces_nothing(client, floor, begun):
    from datetime import UTC, datetime

    from panewright.ledger.serials.laid import Laying, lay

    _, where, serial = begun
    mark = dict(places(client, where))["5"]
    best = re.search(r'name="into" value="([^"]+)"', client.get(f"{where}?cell={mark}&wait=1").text).group(1)
    lay(floor.shop.ledger, serial, Laying(36, "K1", best), by="Ben", at=datetime.now(UTC))
    assert f'value="{best}"' not in client.get(f"{where}?cell={mark}&wait=1").text.partition("instead")[2]
    gone = tapped(client, f"{where}/swap", "a", cell=mark, into=best)
    assert gone.status_code == 422
    assert "This cell lies elsewhere, or broke." in gone.text


def test_a_serial_of_another_lay_up_is_no_panel_of_the_deal(client, dealt, jetty):
    _, where = dealt
    assert client.post(f"/build/{jetty}/begin").status_code == 303
    answer = tapped(client, f"{where}/1/give", "a", serial="0042")
    assert answer.status_code == 422
    assert "begun by a design with other places" in answer.text


def test_offers_are_compared_for_an_order(client, settled, kiosk):
    page = unescape(client.get("/offers").text)
    assert "INVENTED" in page
    text = re.search(r"<textarea[^>]*>(.*?)</textarea>", page, re.DOTALL).group(1)
    answer = client.post("/offers", data={"order": kiosk, "text": text, "panels": "2"})
    assert answer.status_code == 303
    shown = unescape(settled("/offers", "Playing the offers through"))
    assert "The best first" in shown
    assert "mixed box, measured here" in shown
    filled = {"by": "rows", "order": kiosk, "panels": "1", "caution": "much", "lost0": "1 of 5"}
    row = {"name0": "plain box", "price0": "60.00", "pack0": "40", "rating": "1 W"}
    assert client.post("/offers", data=filled | row).status_code == 303
    shown = unescape(settled("/offers", "Playing the offers through"))
    assert "1. plain box" in shown
    assert "reach the rating" in shown
    assert 'value="plain box"' in shown
    assert 'name = "plain box"' in shown
    broken = client.post("/offers", data={"order": kiosk, "text": "[[offer]]\nname = 3\n"})
    assert broken.status_code == 303
    assert client.post("/offers", data={"order": kiosk, "text": " "}).status_code == 422
