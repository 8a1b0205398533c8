"""What tests of our-table share: the question asked of a state, and its records by their keys."""

from __future__ import annotations

import math

from ledger.projections import PROJECTIONS

KG = 1_000_000  # mg
OUR_TABLE = PROJECTIONS["our-table"]


def ask(state, **options):
    return OUR_TABLE.build(state, **options).to_dict()


def by_key(answer):
    return {(r["period"], r["basis"], r["origin"]): r for r in answer["records"]}


def close(mine, theirs):
    return math.isclose(float(mine or 0), float(theirs), rel_tol=1e-9, abs_tol=1e-9)
