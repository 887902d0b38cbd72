"""The long campaigns, and what they found: `python benchmarks/proof.py`.

Writes docs/proof/README.md. `--share 0.1` runs a tenth of every campaign; `--only circuits` that one alone,
whose results then take the place of the last; `--seed` and `--day` are written down with the results. A
campaign that takes nights (faults, matching) is run in slices: `--only faults --share 0.05 --first 300`
answers panels 300 to 399, keeps a row of each in docs/proof, and reckons its section from all rows that are
kept. Ends with 1 where something failed, or where a campaign could not run because a program is missing and
PEERS=none was not said.
"""

from __future__ import annotations

import argparse
import datetime
import os
import platform
import re
import shutil
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, Generic, TypeVar

import clock  # first: it sets the number of threads before numpy is loaded
from campaigns import (
    circuits,
    cutting,
    diodes,
    doors,
    faults,
    greatest,
    kept,
    killed,
    killed_restore,
    killed_shop,
    matching,
    matching_beside,
    matching_told,
    nameplates,
    orders,
    outside_panes,
    packs,
    panes,
    placed,
    ratings,
    thresholds,
    unsynced,
)
from campaigns.found import Found

REPORT = Path(__file__).parents[1] / "docs" / "proof" / "README.md"


A = TypeVar("A", bound=kept.Answer)


@dataclass(frozen=True, slots=True)
class Sliced(Generic[A]):
    """How the cases of a slice are answered, what is told of all, and where and how their rows are kept."""

    answers: Callable[[int, int, int], Iterator[Sequence[A]]]
    told_of: Callable[[Sequence[A]], Found]
    file: str
    form: kept.Form[A]

    def done(self, part: kept.Slice) -> Done:
        """A slice answered and added to those that are kept."""
        answered = self.answers(part.count, part.seed, part.first)
        rows = kept.keep(part, answered, REPORT.parent / self.file, self.form)
        found = self.told_of([row.answer for row in rows])
        notes = (*found.notes, *(f"Slice: {each}" for each in kept.slices(rows, self.form.things)))
        return Done(replace(found, notes=notes), sum(row.seconds for row in rows))


@dataclass(frozen=True, slots=True)
class Campaign:
    """One campaign with its usual number of cases."""

    run: Callable[[int, int], Found]
    count: int
    fewest: int = 5  #: cases, however small a share is asked for
    needs: str = ""  #: a program without which it says nothing
    sliced: Sliced[Any] | None = None  #: answers slices that are kept

    def cases(self, share: float) -> int:
        """A share of the usual number, but never so few that they would say nothing."""
        return max(min(self.count, self.fewest), round(self.count * share))


NAMED = Sliced(faults.answers, faults.told_of, "faults_named.csv", faults.FORM)
MATCHED = Sliced(matching.answers, matching_told.told_of, "lots_matched.csv", matching_told.FORM)
CAMPAIGNS = (
    Campaign(diodes.campaign, 10_000, 10_000),
    Campaign(nameplates.campaign, 2_000, 2_000),
    Campaign(panes.campaign, 240, 60),
    Campaign(outside_panes.campaign, 5),
    Campaign(circuits.campaign, 240, 20, "ngspice"),
    Campaign(greatest.campaign, 10_000, 180),
    Campaign(cutting.campaign, 300, 20),
    Campaign(matching.campaign, 60, 4, sliced=MATCHED),
    Campaign(matching_beside.campaign, 20, 4),
    Campaign(ratings.campaign, 300, 60),
    Campaign(faults.campaign, 2_000, 14, "ngspice", NAMED),
    Campaign(doors.campaign, 600, 30),
    Campaign(thresholds.campaign, 40, 2),
    Campaign(placed.campaign, 400, 24),
    Campaign(packs.campaign, 100),  # of as many examples as there are
    Campaign(orders.campaign, 2_000),
    Campaign(killed.campaign, 500),
    Campaign(unsynced.campaign, 200, needs="cc"),
    Campaign(killed_restore.campaign, 200),
    Campaign(killed_shop.campaign, 50, 3, "chromium"),
)


@dataclass(frozen=True, slots=True)
class Done:
    """A campaign's outcome and its time."""

    found: Found
    seconds: float


def main(arguments: list[str]) -> int:
    """Run all campaigns, write the report, give the exit status."""
    asked = _asked(arguments)
    clock.one_core()
    done, wanted = [], wanted_campaigns(asked.only)
    for campaign in wanted:
        if campaign.needs and shutil.which(campaign.needs) is None:
            print(f"NOT RUN: {campaign.run.__module__}; {campaign.needs} is not installed", flush=True)
            continue
        done.append(_timed(campaign, asked))
        print(_line(done[-1]), flush=True)
    REPORT.parent.mkdir(parents=True, exist_ok=True)
    text = again(REPORT.read_text("utf-8"), done, asked) if asked.only else report(done, asked)
    REPORT.write_text(text, "utf-8")
    missing = len(done) < len(wanted) and os.environ.get("PEERS") != "none"
    return int(missing or not all(each.found.holds for each in done))


def wanted_campaigns(only: str) -> tuple[Campaign, ...]:
    """All campaigns, or the one that is named; a `SystemExit` that says which there are."""
    names = {campaign.run.__module__.rpartition(".")[2]: campaign for campaign in CAMPAIGNS}
    if only and only not in names:
        raise SystemExit(f"--only {only}: there is no such campaign; there are {', '.join(sorted(names))}")
    return (names[only],) if only else CAMPAIGNS


def _asked(arguments: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--share", type=float, default=1.0, help="of each campaign's usual number of cases")
    parser.add_argument("--only", default="", help="a campaign's file in benchmarks/campaigns, without .py")
    parser.add_argument("--first", type=int, default=0, help="number of the first case of a slice")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--day", default=datetime.datetime.now(tz=datetime.UTC).date().isoformat())
    return parser.parse_args(arguments)


def _timed(campaign: Campaign, asked: argparse.Namespace) -> Done:
    count = campaign.cases(asked.share)
    if campaign.sliced:
        part = kept.Slice(asked.first, count, asked.seed, asked.day, _command(asked))
        return campaign.sliced.done(part)
    start = time.perf_counter()
    found = campaign.run(count, asked.seed)
    return Done(found, time.perf_counter() - start)


def _line(done: Done) -> str:
    verdict = "holds" if done.found.holds else f"FAILS ({len(done.found.failures)} kinds of fault)"
    return f"{done.found.what:36} {done.found.tried:6} cases {done.seconds:7.0f} s  {verdict}"


def report(done: list[Done], asked: argparse.Namespace) -> str:
    """The report's text."""
    head = [
        "# What the long campaigns found",
        "",
        "Written by the run itself; do not edit.",
        "",
        f"- Command: `{_command(asked)}`",
        f"- Day: {asked.day}",
        f"- Machine: {_cpu()}, {os.cpu_count()} cores, one used; Python {platform.python_version()}",
        f"- Time: {sum(each.seconds for each in done):.0f} s in all",
        f"- Not run: {_not_run()}",
        "",
        "| Campaign | Held against | Cases | Time | Verdict |",
        "| --- | --- | ---: | ---: | --- |",
    ]
    lines = [_row(each) for each in done]
    return "\n".join([*head, *lines, "", *(line for each in done for line in _section(each.found))])


def again(text: str, done: list[Done], asked: argparse.Namespace) -> str:
    """The last report with the results of some campaigns that were run by themselves."""
    parts = re.split(r"(?m)^(?=## )", text)
    for each in done:
        if "\n| --- |" not in parts[0]:
            raise SystemExit("the last report has no table; run all campaigns first")
        section = _section(each.found)
        if f"\n| {each.found.what} |" not in parts[0]:  # a campaign that was not there then
            parts[0] = f"{parts[0].rstrip()}\n{_row(each)}\n\n"
            parts[-1] = f"{parts[-1].rstrip()}\n\n"
            parts.append(section[0] + "\n")
        section[2:2] = [f"Run by itself: `{_command(asked)}`, {asked.day}.", ""]
        rows = parts[0].split("\n")
        mine = f"| {each.found.what} |"
        parts[0] = "\n".join(_row(each) if row.startswith(mine) else row for row in rows)
        parts = ["\n".join(section) + "\n" if part.startswith(section[0] + "\n") else part for part in parts]
    return "".join(parts)


def _command(asked: argparse.Namespace) -> str:
    only = f" --only {asked.only}" if asked.only else ""
    first = f" --first {asked.first}" if getattr(asked, "first", 0) else ""
    return f"make proof (python benchmarks/proof.py --share {asked.share:g}{only}{first} --seed {asked.seed})"


def _row(done: Done) -> str:
    found, verdict = done.found, "holds" if done.found.holds else "FAILS"
    return f"| {found.what} | {found.against} | {found.tried} | {done.seconds:.0f} s | {verdict} |"


def _not_run() -> str:
    missing = [program for program in ("ngspice", "ccx", "cc", "chromium") if shutil.which(program) is None]
    return ", ".join(f"what needs {program}" for program in missing) or "nothing"


def _section(found: Found) -> list[str]:
    """Figures and faults of one campaign."""
    lines = [f"## {found.what[0].upper()}{found.what[1:]}", ""]
    if found.counts:
        lines += [", ".join(f"{count} {word}" for word, count in sorted(found.counts.items())) + ".", ""]
    if found.deviations:
        lines += ["| Figure | Worst | Allowed | Worst in |", "| --- | ---: | ---: | --- |"]
        lines += [f"| {d.figure} | {d.worst:.1e} | {d.allowed:.0e} | {d.where} |" for d in found.deviations]
        lines.append("")
    lines += [line for note in found.notes for line in (f"{note}.", "")]
    for failure in found.failures:
        lines += ["Fault:", "", "```text", failure.replace("```", "'''").replace(">>>", "> > >"), "```", ""]
    return lines


def _cpu() -> str:
    """The processor's name, as far as the system tells."""
    try:
        lines = Path("/proc/cpuinfo").read_text("utf-8").splitlines()
    except OSError:
        return platform.processor() or platform.machine()
    names = [line.partition(":")[2].strip() for line in lines if line.startswith("model name")]
    return names[0] if names else platform.machine()


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
