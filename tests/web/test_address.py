"""Whatever is written on a lot, a meter or a panel leads to its page: slashes, signs, any alphabet."""

import re
from pathlib import Path

import pytest

EXAMPLES = Path(__file__).parents[2] / "examples"
ODD = ["23/05", "Ω-7", "A #1", "50%", "a?b", "%2F", "~2F", "..", "<b>", "Größe 3/4"]
TAP = {"x-tap": "odd" * 8}


@pytest.mark.parametrize("mark", ODD)
def test_a_lot_and_its_batch_are_found_by_any_mark(client, mark):
    said = {"mark": mark, "kind": "silicone", "name": "neutral", "unit": "tin", "batch": f"B/{mark}"}
    there = client.post("/lots", data=said, headers=TAP).headers["x-go"]
    assert there.isascii()
    page = client.get(there)
    assert page.status_code == 200
    assert f"/lots/{there.removeprefix('/lots/')}/labels" in page.text
    assert client.get(f"{there}/labels").status_code == 200
    batch = re.search(r'href="(/batches/[^"]+)"', page.text)[1]
    assert client.get(batch).status_code == 200
    assert client.get("/serial", params={"code": f"LOT-{mark}"}).headers["location"] == there


@pytest.mark.parametrize("name", ODD)
def test_an_instrument_is_calibrated_under_any_name(client, name):
    client.post("/instruments", data={"name": name, "kind": "multimeter"})
    there = re.search(r'href="(/instruments/[^"]+)"', client.get("/instruments").text)[1]
    answer = client.post(f"{there}/calibrated", data={"day": "2026-02-01"}, headers=TAP)
    assert answer.headers["x-go"] == there
    assert "2026-02-01" in client.get(there).text


@pytest.mark.parametrize("serial", ["PW/26-0042", "Ω 0042", "A#0042", "%2F0042"])
def test_a_panel_is_built_under_any_serial(client, serial):
    text = (EXAMPLES / "jetty.toml").read_text("utf-8")
    text = re.sub(r'(?m)^serial\s*=\s*"[^"]*"', f'serial = "{serial}"', text)
    client.post("/orders/take", files={"file": ("jetty.toml", text.encode())})
    client.post("/build/JL-7/begin")
    bench = re.search(r'href="(/build/JL-7/[^"]+)"', client.get("/build/JL-7").text)[1]
    step = re.search(r'name="step" value="([^"]+)"', client.get(bench).text)[1]
    ticked = client.post(f"{bench}/tick", data={"step": step}, headers=TAP)
    assert "Step ticked" in ticked.text
    assert f'action="{bench}/tick"' in ticked.text
    assert client.post(f"{bench}/tick", data={"step": step}).headers["location"] == bench
    assert client.get(f"{bench}/built").status_code == 200
    record = client.get("/serial", params={"code": serial}).headers["location"]
    claimed = client.post(f"{record}/claim", data={"words": "Gives little."})
    assert claimed.headers["location"] == record
    assert "Gives little." in client.get(record).text
