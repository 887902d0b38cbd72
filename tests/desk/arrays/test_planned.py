"""Where an array's panels are known from, through the doors: records with their ratings, orders, labels."""

import shutil
from datetime import UTC, datetime

import pytest
from click.testing import CliRunner

from examples import FOLDER, made
from panewright.cli.main import cli
from panewright.desk.arrays.known import Sources, in_folder, none_beside, panels_of
from panewright.desk.arrays.planned import planned, site_of, weather_of
from panewright.desk.shop.shop import Shop
from panewright.desk.shop.who import Who
from panewright.errors import PanewrightError
from panewright.ledger.open import open_ledger
from panewright.ledger.orders.orders import save_order
from planned import SITE

NOW = datetime(2026, 6, 20, 14, 0, tzinfo=UTC)
BENCH = FOLDER / "bench"
SERIALS = (
    SITE[: SITE.index("[[panel]]")] + '[[panel]]\nserials = ["0051"]\n' + SITE[SITE.index("[controller]") :]
)


@pytest.fixture(scope="module")
def shop(tmp_path_factory, empty_shop):
    """A shop with one serial begun, and rated on the bench."""
    folder = tmp_path_factory.mktemp("array") / "shop"
    shutil.copytree(empty_shop, folder)
    opened = Shop.open(folder)
    save_order(opened.ledger, "HD-2", (FOLDER / "henhouse.toml").read_text(), seen=0, by="Ann", at=NOW)
    opened.begin_serials("HD-2", 1, made("henhouse"), Who("Ann", NOW))
    opened.close()
    return folder


def rate(shop):
    words = ["rate", BENCH / "henhouse-sweep.csv", "--bench", BENCH / "henhouse-bench.toml"]
    words += ["--serial", "0051", "--by", "Ann", "--shop", shop]
    result = CliRunner().invoke(cli, [str(word) for word in words])
    assert result.exit_code == 0, result.output


def found(shop, text=SERIALS):
    ledger = open_ledger(shop / "shop.db", files=shop / "files")
    try:
        return panels_of(site_of(text, "hut.toml"), Sources(none_beside, ledger, "hut.toml"))
    finally:
        ledger.close()


def test_a_serial_is_known_by_its_design_until_it_is_rated_and_by_its_rating_then(shop):
    """72.37 W is what `panewright rate` tells of the example's sweep, see tests/cli/test_rate.py."""
    (before,) = found(shop)
    assert before.known_by == "design of Henhouse door"
    assert before.rated_w == pytest.approx(
        made("henhouse").design.electrical.curves[0].points.power_w, rel=1e-6
    )
    rate(shop)
    (after,) = found(shop)
    assert after.known_by == "measured on 2026-06-20"
    assert after.rated_w == pytest.approx(72.37, abs=0.01)
    assert after.doubt.settled
    assert after.doubt.common_share == pytest.approx(2.5 / 2 / 72.37, rel=0.02)
    assert len(after.outline.cells_m) == len(before.outline.cells_m)


def test_serials_that_the_records_do_not_know_are_told_all_at_once_with_their_line(shop):
    text = SERIALS.replace('"0051"', '"0051", "7777", "8888"')
    with pytest.raises(PanewrightError) as told:
        found(shop, text)
    said = [str(problem) for problem in told.value.problems]
    line = text[: text.index("serials")].count("\n")
    assert len(said) == 2
    assert all(f"hut.toml:{line}" in each for each in said)
    assert "7777" in said[0]
    assert "8888" in said[1]


def test_without_records_serials_are_asked_for_a_shop():
    with pytest.raises(PanewrightError, match="--shop"):
        panels_of(site_of(SERIALS, "hut.toml"), Sources(none_beside, None, "hut.toml"))


def test_an_order_beside_the_text_is_designed_once_for_all_its_panels():
    text = SERIALS.replace('serials = ["0051"]', 'order = "henhouse.toml"\ncount = 3')
    panels = panels_of(site_of(text, "hut.toml"), Sources(in_folder(FOLDER), None, "hut.toml"))
    assert panels[0] is panels[1] is panels[2]
    assert panels[0].known_by == "design of Henhouse door"


def test_what_is_wrong_with_panels_and_weather_is_told_together(tmp_path):
    text = SERIALS.replace('serials = ["0051"]', 'order = "nowhere.toml"')
    text = text.replace(
        'clearness = "60 %"\nair = "0 1 5 9 14 17 19 18 14 10 5 1 degC"', 'weather = "none.epw"'
    )
    with pytest.raises(PanewrightError) as told:
        planned(text, Sources(in_folder(tmp_path), None, "hut.toml"))
    said = "\n".join(str(problem) for problem in told.value.problems)
    assert "nowhere.toml" in said
    assert "none.epw" in said


def test_an_order_that_is_wrong_is_told_at_its_own_lines(tmp_path):
    (tmp_path / "bad.toml").write_text('[order]\nname = ""\n')
    text = SERIALS.replace('serials = ["0051"]', 'order = "bad.toml"')
    with pytest.raises(PanewrightError, match=r"bad.toml:2: order.name"):
        panels_of(site_of(text, "hut.toml"), Sources(in_folder(tmp_path), None, "hut.toml"))


def test_a_weather_file_beside_the_text_is_the_weather(tmp_path):
    """Greensboro, carried by an open library: 1574 kWh/m2 on level ground, as its own reader sums it."""
    import pvlib

    file = next(iter(pvlib.__path__)) + "/data/723170TYA.CSV"
    shutil.copy(file, tmp_path / "year.csv")
    text = SERIALS.replace(
        'clearness = "60 %"\nair = "0 1 5 9 14 17 19 18 14 10 5 1 degC"', 'weather = "year.csv"'
    )
    site = site_of(text, "hut.toml")
    weather = weather_of(site, Sources(in_folder(tmp_path), None, "hut.toml"))
    theirs = pvlib.iotools.read_tmy3(file, coerce_year=1990, map_variables=True)[0]["ghi"].sum() / 1000
    assert weather.usual.level_kwh_m2 == pytest.approx(theirs, rel=1e-3)
    assert weather.years == (weather.usual,)


def test_the_command_plans_an_array_of_serials_end_to_end(shop, tmp_path):
    rate(shop) if found(shop)[0].known_by.startswith("design") else None
    (tmp_path / "hut.toml").write_text(SERIALS)
    words = ["array", str(tmp_path / "hut.toml"), "--shop", str(shop), "--to", str(tmp_path / "out")]
    result = CliRunner().invoke(cli, words)
    assert result.exit_code in (0, 1), result.output
    assert "known by measured on 2026-06-20: 0051" in result.stdout
    assert "72.4\u2009W in standard light" in result.stdout
    assert "100 %  done" not in result.stderr
    assert "the year, hour by hour" in result.stderr
    assert "no size that was looked at serves 50 % of the load" in result.stdout  # one panel, 45 W all day
    names = {path.name for path in (tmp_path / "out").iterdir()}
    assert names >= {"array.txt", "array.pdf", "strings.csv", "to-buy.csv", "energy.csv"}
    assert "0051" in (tmp_path / "out" / "strings.csv").read_text("utf-8-sig")


def test_the_command_tells_every_mistake_and_writes_nothing(tmp_path):
    text = SITE.replace('"40 deg"', '"140 deg"').replace('volts = "12 V"', 'volts = "13 V"')
    (tmp_path / "hut.toml").write_text(text)
    words = ["array", str(tmp_path / "hut.toml"), "--to", str(tmp_path / "out")]
    result = CliRunner().invoke(cli, words)
    assert result.exit_code == 2
    assert "hut.toml:15: stand 1.tilt" in result.stderr
    assert "battery.volts" in result.stderr
    assert not (tmp_path / "out").exists()


def test_a_file_that_is_not_there_is_told(tmp_path):
    result = CliRunner().invoke(cli, ["array", str(tmp_path / "none.toml")])
    assert result.exit_code == 2
    assert "none.toml" in result.stderr
