"""The commands as a person types them: what they print, write and answer with."""

import json
import re
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from panewright.cli.main import cli

EXAMPLES = Path(__file__).parents[2] / "examples"


def run(*words: object) -> Result:
    return CliRunner().invoke(cli, [str(word) for word in words])


def test_a_design_that_holds_answers_0_and_writes_nothing(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    result = run("design", EXAMPLES / "frost-sensor.toml")
    assert result.exit_code == 0
    assert "Every check holds" in result.output
    assert list(tmp_path.iterdir()) == []


def test_a_design_that_fails_answers_1_and_still_writes_a_stamped_pack(tmp_path):
    result = run("pack", EXAMPLES / "bathhouse.toml", "--to", tmp_path / "pack")
    assert result.exit_code == 1
    assert "NOT PROVEN" in result.output
    assert (tmp_path / "pack" / "book.pdf").read_bytes().startswith(b"%PDF")


def test_the_json_of_a_design_is_one_document():
    result = run("design", "--json", EXAMPLES / "frost-sensor.toml")
    assert result.exit_code == 0
    assert json.loads(result.stdout)["proven"] is True


def test_two_orders_are_cut_together_and_the_plan_is_written(tmp_path):
    files = EXAMPLES / "jetty.toml", EXAMPLES / "fence.toml"
    result = run("cut", *files, "--to", tmp_path / "plan")
    assert result.exit_code == 0
    assert "Proven: no other plan costs less." in result.stdout
    assert "JL-7 long rail" in result.stdout
    assert "NF-5 long rail" in result.stdout
    assert sorted(each.name for each in (tmp_path / "plan").iterdir()) == ["cutting.csv", "cutting.pdf"]
    stages = result.stderr.splitlines()
    assert stages[:2] == ["Designing order JL-7, 1 of 2.", "Designing order NF-5, 2 of 2."]
    parts = len(stages) - 2
    told = [re.fullmatch(r"Cutting (.+), part (\d+) of (\d+): \d+ pieces\.", line) for line in stages[2:]]
    assert [(each[2], each[3]) for each in told] == [(f"{n}", f"{parts}") for n in range(1, parts + 1)]
    assert not any(line in result.stdout for line in stages)


def test_cutting_takes_what_lies_in_the_shop_and_changes_nothing_there(tmp_path):
    from panewright.desk.shop.shop import Shop
    from panewright.desk.shop.who import Who
    from panewright.ledger.stores.stock import Remnant

    shop = Shop.open(tmp_path / "shop")
    shop.keep_remnant(Remnant("P7", "angle 50 x 50 x 4 mm", 5200.0), Who.now("Ann"))
    shop.close()
    one, two = (run("cut", EXAMPLES / "jetty.toml", "--shop", tmp_path / "shop") for _ in range(2))
    assert "piece P7" in one.stdout
    assert one.stdout == two.stdout


def test_an_acrylic_front_is_cut_from_a_whole_sheet_that_is_bought(tmp_path):
    text = (EXAMPLES / "bathhouse.toml").read_text("utf-8")  # 1633 x 715 mm
    (tmp_path / "from-stock.toml").write_text(f'{text}glass_from = "cut from stock"\n', "utf-8")
    to_size = run("cut", EXAMPLES / "bathhouse.toml")
    assert "Order each pane to its size." in to_size.stdout
    for asked in ((EXAMPLES / "bathhouse.toml", "--buy-sheets"), (tmp_path / "from-stock.toml",)):
        cut = run("cut", *asked)
        assert cut.exit_code == 1  # the order is meant to fail its checks
        assert cut.stdout.startswith("NOT PROVEN: BF-3.")
        assert "3 mm cast acrylic: 1 sheet, 1 of 2000 mm × 800 mm to buy for 30.40 EUR. Proven" in cut.stdout
        assert "1 × BF-3 front 1633 mm × 715 mm" in cut.stdout


def test_mistakes_of_all_orders_to_cut_for_are_told_at_once(tmp_path):
    for name in ("a", "b"):
        (tmp_path / f"{name}.toml").write_text("[order]\nnumber = 7\n", "utf-8")
    result = run("cut", tmp_path / "a.toml", tmp_path / "b.toml")
    assert result.exit_code == 2
    assert "a.toml" in result.output
    assert "b.toml" in result.output


def test_the_crate_of_an_order_is_told_and_nothing_is_written(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    result = run("crate", EXAMPLES / "frost-sensor.toml")
    assert result.exit_code == 0
    assert result.stdout.startswith("Parcel, ")
    assert "To saw for one crate" in result.stdout
    assert list(tmp_path.iterdir()) == []


def test_the_crate_of_an_order_for_a_program():
    told = json.loads(run("crate", "--json", EXAMPLES / "frost-sensor.toml").stdout)
    assert sum(held * count for held, count in told["loads"]) == told["panels"] == 12


def test_the_crate_of_a_panel_that_is_not_proven_answers_1_and_says_so():
    result = run("crate", EXAMPLES / "bathhouse.toml")
    assert result.exit_code == 1
    assert "NOT PROVEN" in result.stdout


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "empty"),
        (b"\xff\xfe\x00\x01", "text"),
        (b"[site]\nwind = 45\n", "site.wind"),
        (b"[site\n", "head"),
    ],
)
def test_a_wrong_order_answers_2_and_writes_nothing(tmp_path, content, said):
    order = tmp_path / "order.toml"
    order.write_bytes(content)
    result = run("pack", order, "--to", tmp_path / "pack")
    assert result.exit_code == 2
    assert said in result.stderr
    assert result.stdout == ""
    assert list(tmp_path.iterdir()) == [order]


def test_an_order_that_is_not_there_answers_2(tmp_path):
    result = run("design", tmp_path / "nothing.toml")
    assert result.exit_code == 2
    assert "nothing.toml" in result.stderr


def test_a_new_order_can_be_designed_at_once(tmp_path):
    order = tmp_path / "first.toml"
    assert run("new", order).exit_code == 0
    assert order.read_text("utf-8") == run("new").stdout
    assert run("design", order).exit_code == 0
    again = run("new", order)
    assert again.exit_code == 2
    assert "is there already" in again.stderr


@pytest.mark.parametrize("command", sorted(cli.commands))
def test_every_command_says_what_it_does(command):
    assert len(run(command, "--help").output.splitlines()) >= 5
    assert cli.commands[command].help


def test_help_opens_no_numerical_library():
    code = (
        "import sys, panewright.cli.main; print([m for m in ('numpy', 'scipy', 'typst') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


@pytest.mark.parametrize("below", ["", "deep"])
def test_a_shop_in_the_place_of_a_file_is_told_with_its_place_and_cure(tmp_path, below):
    taken = tmp_path / "notes.txt"
    taken.write_text("kept")
    result = run("open", "--shop", taken / below if below else taken)
    assert result.exit_code == 2
    assert str(taken) in result.output
    assert "--shop" in result.output
    assert taken.read_text() == "kept"
