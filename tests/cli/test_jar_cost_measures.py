"""What a batch cost is said per quart to a household that measures in quarts, else per litre."""

from __future__ import annotations

import json
import shlex

import pytest

from ledger.cli import main

WRITTEN = (
    "price '1 qt tomato sauce' 4.00 --on 2026-08-01",
    "buy '20 lb tomato' --paid 10 --on 2026-08-01",
)
PUT_UP = (
    "putup 'tomato sauce' --used '20 lb tomato' --made '4 quart jars' --method freeze "
    "--on 2026-08-03 --yes"
)


@pytest.fixture
def run(tmp_path, capsys, fixed_day):
    """Run a line of words on one book; return its output."""

    def go(line):
        assert main([*shlex.split(line), "--book", str(tmp_path / "book.sqlite")]) == 0, line
        return capsys.readouterr().out

    return go


@pytest.mark.parametrize(
    ("measures", "said", "unsaid"),
    [("us", "quart", "litre"), ("metric", "litre", "quart"), ("uk", "litre", "quart")],
)
def test_table_and_report_name_the_household_s_own_measure(run, measures, said, unsaid):
    run(f"setting measures {measures}")
    for line in WRITTEN:
        run(f"{line} --yes")
    told = run(PUT_UP)
    assert f"a {said} " in told
    assert f"a {unsaid} " not in told
    shown = run("show jar-cost")
    head = " ".join(shown.split("2026-08-03")[0].split())
    assert said in head
    assert unsaid not in head


def test_a_litre_costs_as_much_as_its_part_of_a_quart(run):
    for line in WRITTEN:
        run(f"{line} --yes")
    run(PUT_UP)
    (record,) = json.loads(run("show jar-cost --json"))["records"]
    for name in ("cost", "shop_price", "saved"):  # 0.946352946 litres a quart: NIST Handbook 44
        quart, litre = record[f"{name}_per_quart"], record[f"{name}_per_liter"]
        assert litre * 0.946352946 == pytest.approx(quart, rel=1e-12)
