"""Charts over many panels in the shop: peel samples written down, told when they are none, charted."""

from __future__ import annotations

import re
from html import unescape

from click.testing import CliRunner

from panewright.cli.main import cli


def serial_of(client, jetty):
    return re.search(rf"/build/{jetty}/([\w-]+)", client.get(f"/build/{jetty}").text).group(1)


def test_peel_samples_are_kept_charted_and_told_when_they_are_none(client, jetty, floor):
    client.post(f"/build/{jetty}/begin")
    serial = serial_of(client, jetty)
    page = unescape(client.get("/charts").text)
    assert page.count("a chart begins with 4") == 3
    wrong = client.post("/charts/peeled", data={"serial": serial, "pulls": "2.1"})
    assert wrong.status_code == 422
    assert "A sample is of several joints." in wrong.text
    assert client.post("/charts/peeled", data={"serial": "nobody", "pulls": "2.1 2.2"}).status_code == 422
    for sample in ("2.1 2.3 2.2", "2.2 2.0 2.3", "2.0 2.1 2.4", "2.3 2.2 2.1", "1.2 1.1 1.3"):
        assert client.post("/charts/peeled", data={"serial": serial, "pulls": sample}).status_code == 303
    page = unescape(client.get("/charts?good=4").text)
    assert f"Stop and look at {serial}" in page
    assert page.count("data-points=") == 1
    asked = CliRunner().invoke(cli, ["chart", "--shop", str(floor.folder), "--good", "4"])
    assert asked.exit_code == 1, asked.output
    assert "Joint pull: 5 charted." in asked.output
    assert "STOP AND LOOK. joint pull: mean within three sigma" in asked.output
