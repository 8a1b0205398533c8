"""Figures through batches: row after row, and by SciPy at once, against a dense solve."""

from __future__ import annotations

import numpy as np
import pytest

from ledger.replay import tracing


def drawn(rng, rows, lots):
    """Return own figures, takes and gives of rows that take only of lots of earlier rows."""
    own = rng.random((rows, 5)) * (rng.random((rows, 5)) < 0.6)
    own[:, 3] = 0.0
    maker = np.sort(rng.integers(0, rows - 1, lots))
    also = np.maximum(maker - rng.integers(0, 3, lots), 0)
    gives = np.r_[0:lots, 0:lots], np.r_[maker, also], rng.random(2 * lots) / 2
    row = rng.integers(1, rows, 2 * lots)
    lot = rng.integers(0, lots, 2 * lots)
    earlier = maker[lot] < row
    return own, (row[earlier], lot[earlier], rng.random(2 * lots)[earlier]), gives


@pytest.mark.parametrize("few", [4096, 0])
@pytest.mark.parametrize("seed", range(4))
def test_figures_are_those_of_the_dense_system(monkeypatch, few, seed):
    monkeypatch.setattr(tracing, "_FEW", few)
    rng = np.random.default_rng(seed)
    own, takes, gives = drawn(rng, 60, 40)
    take, carry = np.zeros((60, 40)), np.zeros((40, 60))
    np.add.at(take, takes[:2], takes[2])
    np.add.at(carry, gives[:2], gives[2])
    rows = np.linalg.solve(np.eye(60) - take @ carry, own)
    found = tracing.solve(own, takes, gives, 40)
    assert found.rows == pytest.approx(rows)
    assert found.lots == pytest.approx(carry @ rows)


def test_nothing_taken_or_nothing_there_is_carried_as_it_is():
    none = np.empty(0, np.int64)
    own = np.eye(3)
    gives = np.array([0, 1]), np.array([0, 2]), np.array([1.0, 0.5])
    found = tracing.solve(own, (none, none, none.astype(float)), gives, 2)
    assert found.rows.tolist() == own.tolist()
    assert found.lots.tolist() == [[1.0, 0.0, 0.0], [0.0, 0.0, 0.5]]
    empty = tracing.solve(np.zeros((0, 3)), (none,) * 3, (none, none, none.astype(float)), 0)
    assert empty.lots.shape == (0, 3)
