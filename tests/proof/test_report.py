"""A campaign that is run by itself takes its place in the last report."""

import argparse

import pytest
from campaigns.found import Found

import proof


def done(what, tried):
    return proof.Done(Found(what, "a peer", tried, {}, (), ()), 1.0)


def test_a_campaign_run_by_itself_takes_its_place():
    whole = argparse.Namespace(share=1.0, only="", seed=1, day="2026-01-01")
    text = proof.report([done("panes bent", 10), done("networks", 20)], whole)
    alone = argparse.Namespace(share=1.0, only="circuits", seed=2, day="2026-01-02")
    mended = proof.again(text, [done("networks", 30)], alone)
    assert "| panes bent | a peer | 10 |" in mended
    assert "| networks | a peer | 30 |" in mended
    assert "| networks | a peer | 20 |" not in mended
    assert mended.count("## Networks") == mended.count("## Panes bent") == 1
    assert (
        "Run by itself: `make proof (python benchmarks/proof.py --share 1 --only circuits --seed 2)`"
        in mended
    )


def test_a_campaign_that_is_not_there_is_told_and_nothing_runs():
    with pytest.raises(SystemExit, match="no such campaign; there are circuits"):
        proof.wanted_campaigns("networks")
    assert len(proof.wanted_campaigns("panes")) == 1
    asked = argparse.Namespace(share=1.0, only="panes", seed=1, day="2026-01-01")
    one = proof.report([done("networks", 20)], asked)
    both = proof.again(one, [done("panes bent", 10)], asked)
    assert "| panes bent | a peer | 10 |" in both
    assert both.count("## Panes bent") == both.count("## Networks") == 1
    assert proof.again(both, [done("panes bent", 10)], asked) == both
    with pytest.raises(SystemExit, match="run all campaigns first"):
        proof.again("# a report\n", [done("panes bent", 1)], asked)
