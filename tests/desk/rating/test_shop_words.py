"""What a shop says once for all its panels goes after what is said beside a curve."""

from __future__ import annotations

from pathlib import Path

from panewright.desk.rating.bench_text import BenchText
from panewright.desk.rating.by_command import Asked
from panewright.desk.rating.shop_words import shares_words, with_shares


def test_words_beside_a_curve_go_before_the_shop_s_and_two_sets_of_shares_are_not_mixed(tmp_path):
    (tmp_path / "bench.toml").write_text(
        'label.guard = "1"\nlabel.step = "5 W"\nshares.healthy = "95 %"\nshares.dimmed = "4 %"\n'
    )
    asked = Asked(Path("c.csv"), None, {}, shop=tmp_path)
    assert asked.words_with(BenchText({"label.guard": "0"}, {})) == {
        "label.guard": "0", "label.step": "5 W", "shares.healthy": "95 %", "shares.dimmed": "4 %",
    }  # fmt: skip
    own = asked.words_with(BenchText({"shares.healthy": "50 %"}, {}))
    assert own == {"label.guard": "1", "label.step": "5 W", "shares.healthy": "50 %"}
    kept = {"day": "2026-06-20", "shares.weak_cell": "60 %"}
    assert with_shares(kept, shares_words(tmp_path)) == {
        "day": "2026-06-20", "shares.healthy": "95 %", "shares.dimmed": "4 %",
    }  # fmt: skip
    assert with_shares(kept, {}) == kept


def test_a_shop_without_such_a_file_says_nothing(tmp_path):
    assert shares_words(tmp_path) == {}
