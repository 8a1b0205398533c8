"""``show ... --against``: two dates on the command line."""

from __future__ import annotations

import json
import shlex

import pytest

from ledger.cli import main


@pytest.fixture
def run(tmp_path, capsys, fixed_day):
    def go(line):
        status = main([*shlex.split(line), "--book", str(tmp_path / "book.sqlite")])
        return status, *capsys.readouterr()

    for year, price in ((2025, "2.00"), (2026, "3.00")):
        go(f"price 'plum, 1 lb' --price {price} --on {year}-07-01")
        go(f"buy '1 lb plum' --paid {price} --on {year}-07-01")
        go(f"harvest '10 lb plum' --bed orchard --on {year}-08-01")
    return go


def test_season_against_the_one_before(run):
    status, out, _ = run("show season --season 2026 --against 2025")
    assert status == 0
    assert "10.00 more" in out
    assert max(map(len, out.splitlines())) <= 80
    status, out, _ = run("show season --season 2026 --against 2025 --json")
    (record,) = json.loads(out)["records"]
    assert record["from_price"] == pytest.approx(10, abs=1e-4)
    status, out, _ = run(f"why {record['why']} from_price")
    assert status == 0
    assert "amount now x change" in out


def test_day_in_words(run):
    status, out, _ = run("show shelf --against '1 Jan 2026'")
    assert status == 0
    assert "2026-01-01" in out


def test_word_that_is_no_day_is_refused(run):
    status, out, err = run("show shelf --against whenever")
    assert (status, out) == (2, "")
    assert "against" in err
