"""Every batch of the table of verdicts, run through a book of its own and set beside the rule book."""

from __future__ import annotations

from collections import Counter

import pytest
import verdict_table as table

CASES = table.cases()
RIGHT = [case for case in CASES.values() if case.right]
KINDS = ("lenient", "no caution", "graver", "caution out of place")


@pytest.fixture(scope="module")
def outcomes(tmp_path_factory):
    """What the book says of every case, in books of their own."""
    folder = tmp_path_factory.mktemp("verdicts")
    return {name: table.run(case, CASES, folder) for name, case in CASES.items()}


def told(misses):
    """Say the misses as a table, gravest first."""
    lines = []
    for kind in KINDS:
        for miss in (one for one in misses if one.kind.startswith(kind)):
            case, got = miss.case, miss.got
            lines.append(
                f"{miss.kind:<12} {case.id:<28} wanted {'/'.join(case.allowed):<14} got {got.verdict:<8}"
                f" rule {case.why}\n{'':13}{case.where}: {got.text[:200]}"
            )
    counts = Counter(one.kind.split(":")[0] for one in misses)
    head = f"{len(misses)} misses over {len(CASES)} batches: {dict(counts)}"
    return "\n".join([head, *lines])


def test_no_batch_stands_better_or_worse_than_the_rule_book_says(outcomes):
    misses = [miss for name, case in CASES.items() for miss in table.compare(case, outcomes[name])]
    assert not misses, "\n" + told(misses)


def test_of_correct_batches_a_quarter_at_most_is_left_to_check(outcomes):
    """And none is called short, or worse."""
    found = Counter(outcomes[case.id].verdict for case in RIGHT)
    assert found["check"] <= len(RIGHT) / 4, found
    worse = {case.id: outcomes[case.id].verdict for case in RIGHT}
    allowed = {case.id: {"ok", "beyond", "check", *case.allowed} for case in RIGHT}
    assert not {name: said for name, said in worse.items() if said not in allowed[name]}


def test_table_is_as_large_as_it_must_be():
    assert len(CASES) >= 750
    assert len(RIGHT) >= 200
