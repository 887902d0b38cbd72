"""`panewright rate`: what it prints and writes, with what it answers, and what it keeps with a serial."""

from __future__ import annotations

import json
import shutil
from datetime import UTC, datetime

import pytest
from click.testing import CliRunner, Result

from examples import FOLDER, made
from panewright.cli.main import cli
from panewright.desk.shop.shop import Shop
from panewright.desk.shop.who import Who
from panewright.ledger.bench.readings import add_instrument, calibrate
from panewright.ledger.open import open_ledger
from panewright.ledger.orders.orders import save_order
from panewright.ledger.serials.life import life

BENCH = FOLDER / "bench"
NOW = datetime(2026, 6, 20, 14, 0, tzinfo=UTC)
GIVEN = ("--bench", BENCH / "henhouse-bench.toml")


def run(*words: object) -> Result:
    return CliRunner().invoke(cli, ["rate", *[str(word) for word in words]])


def test_a_panel_is_rated_by_its_order_and_its_report_written(tmp_path):
    sweep = BENCH / "henhouse-sweep.csv"
    result = run(FOLDER / "henhouse.toml", sweep, *GIVEN, "--to", tmp_path)
    assert result.exit_code == 0, result.output
    for part in (
        "Serial 0051: PASS, label 73 W",
        "instrument due soon: load 1, volts",
        "Pmp: 72.37 W, ± 2.5 W (k = 2); predicted 73.48 W",
        "procedure 4: Pmp 72.05 W",
        "light: sensor askew: 0.01 share moves it by 0.7 W",
        "cell 1 (reference cell): certificate: 0.018 of the reading with k = 2",
        "insulation between cells and frame: 65.3 of 140 Mohm, holds",
    ):
        assert part in result.output
    assert (tmp_path / "test-report-0051.pdf").read_bytes().startswith(b"%PDF")


def test_what_label_it_would_bear_is_told_at_an_even_risk_and_surely(tmp_path):
    """72.37 W over 0.95 is 76.2 W; less 2.5 W of uncertainty (k = 2) it is 73.6 W."""
    words = (FOLDER / "henhouse.toml", BENCH / "henhouse-sweep.csv", *GIVEN, "--shop", tmp_path)
    result = run(*words)
    assert "PASS, label 73 W, guard 0." in result.output
    assert "bear a label of 76 W at an even risk, surely (its whole uncertainty off) 73 W." in result.output
    (tmp_path / "bench.toml").write_text('label.guard = "1"\nlabel.tolerance = "3 %"\n')
    guarded = run(*words)
    assert "Serial 0051: REWORK, label 73 W, guard 1." in guarded.output
    assert "By its own power it would bear a label of 72 W with the shop's guard of 1." in guarded.output


def test_a_shop_s_own_rules_are_refused_where_they_are_none(tmp_path):
    (tmp_path / "bench.toml").write_text('label.guard = "much"\nlabel.colour = "blue"\n')
    words = (FOLDER / "henhouse.toml", BENCH / "henhouse-sweep.csv", *GIVEN, "--shop", tmp_path)
    result = run(*words)
    assert result.exit_code == 2
    assert f"{tmp_path / 'bench.toml'}: label.guard = much" in result.output
    assert "label.colour: There is no such key." in result.output
    (tmp_path / "bench.toml").write_text('day = "2026-06-20"\n[instrument.m1]\nwithin = "1 %"\n')
    told = run(*words).output
    assert "day: This is no rule of a shop." in told
    assert "instrument.m1: This is no rule of a shop." in told


def test_what_lacks_is_told_and_nothing_is_written(tmp_path):
    result = run(FOLDER / "henhouse.toml", BENCH / "henhouse-sweep.csv", "--to", tmp_path)
    assert result.exit_code == 2
    assert "light.by: How was the light known? Write one of: reference cell" in result.output
    assert "heat.by: How was the cells' heat known?" in result.output
    assert list(tmp_path.iterdir()) == []
    assert "Name the order and the curve" in run(BENCH / "henhouse-sweep.csv").output


@pytest.fixture
def shop(tmp_path, empty_shop):
    """A shop with the serial begun and one of its instruments written down."""
    shutil.copytree(empty_shop, tmp_path / "shop")
    opened, who = Shop.open(tmp_path / "shop"), Who("Ann", NOW)
    ledger = opened.ledger
    save_order(ledger, "HD-2", (FOLDER / "henhouse.toml").read_text(), seen=0, by="Ann", at=NOW)
    opened.begin_serials("HD-2", 1, made("henhouse"), who)
    add_instrument(ledger, "cell 1", kind="reference cell", by="Ann", at=NOW)
    calibrate(ledger, "cell 1", day=NOW.date(), by="Ann", at=NOW)
    opened.close()
    return tmp_path / "shop"


def test_a_rating_of_a_serial_is_kept_with_its_raw_file_its_report_and_its_readings(shop):
    sweep = BENCH / "henhouse-sweep.csv"
    result = run(sweep, *GIVEN, "--serial", "0051", "--by", "Ann", "--shop", shop, "--json")
    assert result.exit_code == 0, result.output
    ledger = open_ledger(shop / "shop.db", files=shop / "files")
    known = life(ledger, "0051")
    ledger.close()
    (kept,) = known.ratings
    assert kept.rating.verdict == "pass"
    assert kept.rating.power_w == pytest.approx(72.37, abs=0.01)
    assert json.loads(kept.rating.text)["words"]["heat.by"] == "back sensor"
    assert [(each.kind, each.name) for each in known.papers] == [
        ("reading", "henhouse-sweep.csv"),
        ("report", "test-report-0051-2026-06-20.pdf"),
    ]
    stored = shop / "files" / kept.rating.curve[:2] / kept.rating.curve
    assert stored.read_bytes() == sweep.read_bytes()
    read = {each.reading.quantity: each.reading for each in known.readings}
    assert read["measure-sun.rated-power"].file == kept.rating.curve
    assert read["measure-sun.rated-open-circuit-voltage"].instrument == "cell 1"


def test_a_kept_rating_is_set_aside_by_command_with_its_reason(shop):
    words = ("--serial", "0051", "--shop", shop)
    run(BENCH / "henhouse-sweep.csv", *GIVEN, *words, "--by", "Ann")
    assert run(*words, "--set-aside", "a leaf on the pane").exit_code == 2
    done = run(*words, "--by", "Ben", "--set-aside", "a leaf on the pane")
    assert done.exit_code == 0, done.output
    assert "is set aside. It stays in the records" in done.output
    ledger = open_ledger(shop / "shop.db", files=shop / "files")
    known = life(ledger, "0051")
    ledger.close()
    assert [each.aside for each in known.ratings] == ["a leaf on the pane"]
    standing = [each for each in known.readings if not each.corrected and each.reading.note != "taken back"]
    assert standing == []
    again = run(*words, "--by", "Ben", "--set-aside", "once more")
    assert again.exit_code == 2
    assert "No rating of it counts." in again.output


def test_a_serial_that_is_not_known_is_told(shop):
    result = run(BENCH / "henhouse-sweep.csv", *GIVEN, "--serial", "0099", "--shop", shop)
    assert result.exit_code == 2
    assert "serial = 0099: the records do not know it." in result.output


def test_a_fault_is_found_by_the_command_drawn_and_kept_with_the_serial(shop, tmp_path):
    cold = [BENCH / "henhouse-cold-joint.csv", *GIVEN, "--serial", "0051", "--shop", shop]
    words = ["fault", *map(str, cold), "--by", "Ann", "--to", str(tmp_path / "drawn")]
    result = CliRunner().invoke(cli, words)
    assert result.exit_code == 1, result.output
    assert "Serial 0051: Faulty" in result.output
    assert "Measure next (1): " in result.output
    assert sorted(each.name for each in (tmp_path / "drawn").iterdir()) == [
        "fault-bench.svg",
        "fault-front.svg",
    ]
    ledger = open_ledger(shop / "shop.db", files=shop / "files")
    known = life(ledger, "0051")
    (found,) = known.findings
    ledger.close()
    kept = {each.name: each for each in known.papers}
    assert list(kept) == ["henhouse-cold-joint.csv", "henhouse-bench.toml"]
    for name, each in kept.items():
        assert (shop / "files" / each.sha256[:2] / each.sha256).read_bytes() == (BENCH / name).read_bytes()
    assert json.loads(found.text)["files"]["curve"] == kept["henhouse-cold-joint.csv"].sha256
    assert found.what == "found"
    assert found.said.startswith("Faulty")
    assert json.loads(found.text)["suspects"][0]["group"] == "added resistance"


def test_what_was_mended_is_kept_by_command_as_a_repair_and_told_on_the_panel_s_page(shop):
    words = ("--serial", "0051", "--shop", str(shop))
    asked = CliRunner().invoke(cli, ["fault", *words, "--mended", "joint 7 soldered again"])
    assert asked.exit_code == 2
    assert "name --serial and --by, and no file" in asked.output
    done = CliRunner().invoke(cli, ["fault", *words, "--by", "Ben", "--mended", "joint 7 soldered again"])
    assert done.exit_code == 0, done.output
    ledger = open_ledger(shop / "shop.db", files=shop / "files")
    known = life(ledger, "0051")
    ledger.close()
    assert [(each.what, each.said) for each in known.findings] == [("mended", "joint 7 soldered again")]
    assert [each.words for each in known.repairs] == ["joint 7 soldered again"]
