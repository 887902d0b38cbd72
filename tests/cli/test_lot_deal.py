"""`panewright lot match`, `swap` and `why`: what they print, write and answer."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from panewright.cli.main import cli
from panewright.desk.deals.deal import Deal, from_text

EXAMPLES = Path(__file__).parents[2] / "examples"
BARN = EXAMPLES / "lots" / "barn-roof.csv"
ORDER = EXAMPLES / "bathhouse.toml"


def run(*words: object) -> Result:
    return CliRunner().invoke(cli, ["lot", *[str(word) for word in words]])


@pytest.fixture(scope="module")
def dealt(tmp_path_factory):
    folder = tmp_path_factory.mktemp("match") / "deal"
    words = ("--aim", "reach", "--rating", "150 W", "--panels", "3", "--proof", folder.parent / "proof.json")
    result = run("match", ORDER, BARN, *words, "--to", folder)
    assert result.exit_code == 0, result.output
    return folder, result.output


def test_the_report_names_panels_comparisons_bound_and_what_is_left(dealt):
    folder, said = dealt
    assert "Aim: most panels that reach 150 W." in said
    assert "3 panels, " in said
    for words in ("own sd", "common sd", "reaches", "What a panel gives may be off by "):
        assert words in said
    for words in ("This deal", "Plain sorting", "At random", "Proven bound", "Left over: 38", "lost"):
        assert words in said
    assert said.count("\n      ") >= 3
    written = {file.name for file in folder.iterdir()}
    assert {"picks.pdf", "picks.xlsx", "picks.csv", "labels.pdf", "deal.json"} <= written
    assert {f"panel-{n}-{side}.svg" for n in (1, 2, 3) for side in ("front", "bench")} <= written


def test_a_broken_cell_gets_another_and_the_papers_are_written_anew(dealt):
    folder, _ = dealt
    first = (folder / "picks.csv").read_text().splitlines()[1].split(",")[2]
    ranked = run("swap", folder, first)
    assert ranked.exit_code == 0, ranked.output
    assert f"Cell {first} sits in panel 1, place 1." in ranked.output
    assert "  1. " in ranked.output
    best = ranked.output.splitlines()[1].split(". ")[1].split(":")[0]
    taken = run("swap", folder, first, "--with", best, "--because", "corner off")
    assert f"Panel 1, place 1: {best} instead of {first} (corner off)." in taken.output
    assert f"1,1,{best}," in (folder / "picks.csv").read_text()
    assert "was taken out of panel 1, place 1: corner off." in run("why", folder, first).output
    said = run("why", folder / "deal.json", best).output
    assert "sits in panel 1" in said
    assert "Of exchanges with other panels the best, with " in said
    papers = {file.name: file.read_bytes() for file in folder.iterdir()}
    again = run("match", ORDER, BARN, "--to", folder)
    assert again.exit_code == 2
    assert f"another folder with --to, and add --leave-out {first}; nothing was changed." in again.output
    assert papers == {file.name: file.read_bytes() for file in folder.iterdir()}


def test_papers_are_written_though_only_the_first_line_is_read(dealt, tmp_path):
    folder = shutil.copytree(dealt[0], tmp_path / "deal")
    first = deal_of(folder).panels[1].cells[0]
    program = [sys.executable, "-m", "panewright.cli", "lot", "swap", str(folder), first, "--with"]
    best = run("swap", folder, first).output.splitlines()[1].split(". ")[1].split(":")[0]
    made = subprocess.Popen([*program, best], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
    made.stdout.close()  # as `| true`: the first line that is told already ends the command
    made.wait(60)
    assert f"2,1,{best}," in (folder / "picks.csv").read_text()
    assert deal_of(folder).gone[-1] == first


def deal_of(folder: Path) -> Deal:
    return from_text((folder / "deal.json").read_text())


def test_mistakes_are_told_without_a_traceback(dealt, tmp_path):
    folder, _ = dealt
    for words, said in (
        (("why", folder, "B56"), "cell = B56: This lot has no such cell."),
        (("swap", tmp_path, "B001"), "Name the folder that `panewright lot match` wrote."),
        (("swap", BARN, "B001"), "This is no deal of cells: it is cut off, or no JSON, at line 1"),
        (("match", ORDER, BARN, "--aim", "reach"), "rating: This aim needs a rating."),
        (("match", ORDER, BARN, "--sure", "90 %"), "sure: Most watts has nothing to reach."),
        (("match", ORDER, BARN, "--step", "95 W"), "step = 95 W: This is no price step."),
        (("match", ORDER, tmp_path / "none.csv"), "none.csv"),
        (("match", ORDER, BARN, "--soldered", ORDER), "There is no "),
        (("match", ORDER, BARN, "--seed", "-1"), "x>=0"),
    ):
        result = run(*words)
        assert result.exit_code == 2, words
        assert said in result.output
        assert isinstance(result.exception, SystemExit)


def test_fewer_panels_than_asked_answers_1(tmp_path):
    words = ("match", ORDER, BARN, "--aim", "reach", "--rating", "170 W", "--panels", "1")
    result = run(*words, "--to", tmp_path / "deal")
    assert result.exit_code == 1, result.output
    assert "No panel can be made so." in result.output
    short = re.search(
        r"one more panel of ([\d.]+)\u2009W, ([\d.]+)\u2009W short of 170\u2009W", result.output
    )
    assert float(short[1]) + float(short[2]) == pytest.approx(170, abs=2e-3)
    assert (tmp_path / "deal" / "picks.pdf").exists()


def test_the_proof_of_the_bound_is_written_and_reckoned_again(dealt, tmp_path):
    folder, _ = dealt
    proof = folder.parent / "proof.json"
    found = run("check", folder, proof)
    assert found.exit_code == 0, found.output
    assert "The bound is proven." in found.output
    (tmp_path / "lower.json").write_text(proof.read_text().replace('"value":3.0', '"value":2.0'))
    refused = run("check", folder, tmp_path / "lower.json")
    assert refused.exit_code == 1
    assert "The deal tells a bound of 3, the proof is of 2." in refused.output
    assert "The bound is NOT proven." in refused.output
    nothing = run("check", folder, folder / "deal.json")
    assert nothing.exit_code == 2
    assert "This is no proof of a bound" in nothing.output


def test_cells_of_which_nobody_knows_the_light_are_asked_for_and_then_told_on_every_paper(tmp_path):
    rows = [
        f"K{n:02},{3.92 + 0.007 * (n * 7 % 40):.3f},0.62,{3.71 + 0.007 * (n * 7 % 40):.3f},0.518"
        for n in range(40)
    ]
    (tmp_path / "dark.csv").write_text("Cell,Isc [A],Voc [V],Imp [A],Vmp [V]\n" + "\n".join(rows))
    words = (
        "match",
        EXAMPLES / "kiosk.toml",
        tmp_path / "dark.csv",
        "--panels",
        "1",
        "--to",
        tmp_path / "deal",
    )
    assert "No row tells in which light" in run(*words).output
    assert not (tmp_path / "deal").exists()
    result = run(*words, "--light", "unknown")
    assert result.exit_code == 0, result.output
    for told in (result.output, (tmp_path / "deal" / "deal.json").read_text()):
        assert "Nobody knows in which light the cells were read." in told
        assert "All cells together may be off by" in told


def test_remarked_cells_are_told_with_their_deal_and_left_out_where_asked(tmp_path):
    rows = [
        f"K{n:02},{5.6 + 0.003 * n:.3f},0.62,{'Cracked corner' if n in (3, 9) else ''}" for n in range(40)
    ]
    (tmp_path / "marked.csv").write_text("At STC\nCell,Isc [A],Voc [V],Remark\n" + "\n".join(rows))
    words = ("match", EXAMPLES / "kiosk.toml", tmp_path / "marked.csv", "--panels", "1")
    assert "No remark says this." in run(*words, "--leave-out-remark", "crakced").output
    told = run(*words, "--to", tmp_path / "told")
    assert "Cell K03: Its row says 'Cracked corner'. It stays in." in told.output
    assert "Its row says 'Cracked corner'." in run("why", tmp_path / "told", "K03").output
    without = run(*words, "--leave-out-remark", "cracked", "--to", tmp_path / "without")
    assert without.exit_code == 0, without.output
    assert "38 cells, taken for" in without.output
    assert not {"K03", "K09"} & seated(tmp_path / "without")


def test_soft_cells_are_suspected_and_by_reverse_they_sit_nowhere(tmp_path):
    amps = {n: (9.0 if n in (3, 9) else 0.4 + 0.01 * (n % 9)) for n in range(40)}
    rows = [
        f"K{n:02},{5.62 + 0.003 * n:.3f},0.62,{5.3 + 0.003 * n:.3f},0.518,{amp}" for n, amp in amps.items()
    ]
    head = "Read at STC\nCell,Isc [A],Voc [V],Imp [A],Vmp [V],Irev @ -10 V [A]\n"
    (tmp_path / "soft.csv").write_text(head + "\n".join(rows))
    words = (EXAMPLES / "kiosk.toml", tmp_path / "soft.csv", "--panels", "1")
    read = run("read", tmp_path / "soft.csv", "--cell", "125 mm mono", "--to", tmp_path / "cells.csv")
    assert [line.split()[0] for line in read.output.splitlines() if ", reverse: " in line] == ["K03", "K09"]
    assert "breaks down at" in (tmp_path / "cells.csv").read_text("utf-8-sig")
    kept = run("match", *words, "--reverse", "--to", tmp_path / "kept")
    assert kept.exit_code == 0, kept.output
    assert not {"K03", "K09"} & seated(tmp_path / "kept")
    assert "K09 is left over. In reverse it bears no substring of this panel" in kept.output
    few = run("match", *words, "--reverse-most", "0.01 W", "--to", tmp_path / "none")
    assert few.exit_code == 1
    assert "No panel can be made so." in few.output


def seated(folder: Path) -> set[str]:
    return {line.split(",")[2] for line in (folder / "picks.csv").read_text().splitlines()[1:]}


def test_cells_of_another_size_are_not_bent_to_the_order_s(tmp_path):
    found = run(
        "match", EXAMPLES / "kiosk.toml", EXAMPLES / "lots" / "scheune.csv", "--to", tmp_path / "deal"
    )
    assert found.exit_code == 2
    assert "The middle cell gives 8.6 A in full sun, 125 mm mono 5.42 A." in found.output
    assert "The nearest on the shelf is 156 mm poly" in found.output
    assert not (tmp_path / "deal").exists()


def test_where_sorting_is_the_best_there_is_the_deal_is_not_praised(tmp_path):
    words = ("--aim", "reach", "--rating", "230 W", "--to", tmp_path / "deal")
    found = run("match", EXAMPLES / "workshop.toml", EXAMPLES / "lots" / "barn-roof.csv", *words)
    assert "plain sorting comes to the bound already" in found.output
    assert "% of the way" not in found.output
