"""A customer erased from a page: asked twice, told what stays, and what may still hold the name."""

from __future__ import annotations

import pytest

from panewright.desk.records import keeping

NAME = "Ada Muster"


@pytest.fixture(autouse=True)
def patient(monkeypatch):
    monkeypatch.setattr("panewright.web.work.A_MOMENT_S", 60.0)


@pytest.fixture
def known(client, jetty):
    client.post(f"/orders/{jetty}/customer", data={"mark": "K-7", "name": NAME, "mail": "ada@example.org"})
    client.post(f"/build/{jetty}/begin")
    assert NAME in client.get("/customers/K-7").text
    return "/customers/K-7/erase"


def test_the_page_tells_what_goes_and_what_stays_before_anything_happens(client, floor, known):
    client.post("/records/backup")
    text = client.get(known).text
    for words in (f"Erase {NAME}?", "cannot be undone", "1 order and 4 panels", "Photographs"):
        assert words in text
    assert str(next((floor.folder / "backups").glob("*.zip"))) in text
    assert f'href="{known}"' in client.get("/customers/K-7").text


@pytest.mark.parametrize(
    "typed",
    [
        {},
        {"reason": "letter"},
        {"word": "K-7"},
        {"reason": " ", "word": "K-7"},
        {"reason": "x", "word": "K7"},
    ],
)
def test_nobody_is_erased_by_a_slip(client, known, typed):
    answer = client.post(known, data=typed)
    assert answer.status_code == 422
    assert "Nobody was erased" in answer.text
    assert NAME in client.get("/customers/K-7").text


def test_erased_is_gone_from_every_page_and_the_panels_stay(client, floor, known):
    client.post("/records/backup")
    client.post("/records/out")
    assert keeping.written_out(floor.place).exists()
    answer = client.post(known, data={"reason": f"letter of {NAME}", "word": "K-7"})
    assert (answer.status_code, answer.headers["location"]) == (303, known)
    assert not keeping.written_out(floor.place).exists()
    text = client.get(known).text
    for words in ("Customer K-7 is erased", "taken out of", "1 order and 4 panels"):
        assert words in text
    assert str(next((floor.folder / "backups").glob("*.zip"))) in text
    assert "Erase for good" not in text
    for path in (
        known,
        "/customers",
        "/customers/K-7",
        "/customers/K-7/all.json",
        "/orders/JL-7/customer",
        "/serial/0042",
    ):
        page = client.get(path)
        assert page.status_code == 200
        assert NAME not in page.text
        assert "ada@example.org" not in page.text
    assert "All is sound" in client.post("/records/check", headers={"x-tap": "e" * 24}).text


def test_a_customer_nobody_knows_is_told(client):
    assert client.get("/customers/K-99/erase").status_code == 404
    client.post("/customers/K-99/erase", data={"reason": "x", "word": "K-99"})
    assert client.get("/customers").status_code == 200


def test_a_page_from_elsewhere_erases_nobody(client, known):
    head = {"origin": "http://evil.example"}
    answer = client.post(known, data={"reason": "x", "word": "K-7"}, headers=head)
    assert answer.status_code == 403
    assert NAME in client.get("/customers/K-7").text
