"""What prints as boxes is told with its key, in the verdict, the book, the quote and the kit."""

from pathlib import Path

from click.testing import CliRunner

from panewright import desk
from panewright.cli.main import cli
from panewright.order.letters import boxes, boxes_told

KIOSK = (Path(__file__).parents[2] / "examples" / "kiosk.toml").read_text("utf-8")
HOSTILE = KIOSK.replace("Ticket kiosk", "田中 kiosk").replace("Tarn Street Workshop", "한국")


def test_every_text_of_an_order_is_looked_at():
    assert boxes(KIOSK) == ()
    assert boxes(HOSTILE) == (("order.name", "田中"), ("order.maker", "한국"))
    assert boxes('[parts]\nrail = {name = "木"}\n[closing]\nnear = ["ゴム"]') == (
        ("parts.rail.name", "木"),
        ("closing.near", "ゴム"),
    )


def test_many_keys_stay_few_words():
    told = boxes_told("[order]\n" + "\n".join(f'k{number} = "田"' for number in range(9)))
    assert "3 keys more" in told
    assert told.count("U+7530") == 6


def test_the_verdict_the_quote_and_the_kit_tell_it(tmp_path):
    told = "order.name (U+7530 U+4E2D), order.maker (U+D55C U+AD6D)"
    file = tmp_path / "order.toml"
    file.write_text(HOSTILE, "utf-8")
    run = CliRunner().invoke
    assert told in run(cli, ["design", str(file)]).output
    assert told in run(cli, ["quote", str(file), "--to", str(tmp_path / "q.pdf")]).output
    assert told in run(cli, ["kit", str(file), "--to", str(tmp_path / "kit")]).output
    assert desk.boxes(desk.design(KIOSK.encode(), "x")) == ()
