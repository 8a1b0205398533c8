"""The formulas of as-published: each gives the column for all batches, and the tree for one."""

from __future__ import annotations

from ledger.figures import Figure, choose, nothing, solved, work
from ledger.messages import joined, sentence
from ledger.questions.as_published.findings import Findings
from ledger.questions.as_published.gather import UNITS, Judged

__all__ = ["figures"]


def figures(judged: Judged) -> dict[str, Figure]:
    """Return every figure of batches by the name of its column; a row is a batch."""
    found = judged.found
    return {
        "standing": Findings(judged).standing.called(
            "standing", text=lambda row: found[row].summary
        ),
        **{
            f"published.{name}": judged.printed(name).called(
                "as-printed",
                line=lambda row: _line(judged, row),
                source=lambda row: _papers(judged, row),
            )
            for name in UNITS
        },
        **{f"done.{name}": judged.done(name) for name in UNITS},
        "done.psi": _psi(judged),
    }


def _psi(judged: Judged) -> Figure:
    """Return the pressure that was judged: of loads whose gauge was off the one that they truly had."""
    done = judged.done("psi")
    none = nothing("").called("no-pressure", unit="psi")
    true = (judged.read - judged.too_high.called("too-high")).called("true-psi")
    each = choose(judged.is_off, work("highest", true, none).called("true-psi"), done)
    return solved(lambda: done.values, lambda: done.bound, "psi", lambda row: (each, row))


def _line(judged: Judged, row: int) -> str:
    return judged.found[row].schedule or sentence("published-no-single-line")


def _papers(judged: Judged, row: int) -> str:
    return joined("; ", judged.found[row].sources) or sentence("published-nothing-for-it")
