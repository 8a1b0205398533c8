"""How far a public release's quartiles are off, by size of the group and number of figures: printed, and held to the design.

Lognormal values (sigma 0.55) of one product's cost; error of low, middle and high in per cent of the sample's own.
"""

from __future__ import annotations

import numpy as np
import pytest

pytestmark = pytest.mark.simulation
RUNS = 200
DESIGNED = {  # n: {figures: middle's median error, per cent}, as measured in the design
    100: {6: 15, 12: 27},
    500: {6: 2.8, 12: 6, 24: 12},
    1000: {6: 1.6, 12: 3.1, 24: 5},
    10000: {6: 0.3, 12: 0.4, 24: 0.6},
}


def test_errors_by_size_and_number_of_figures():
    pytest.importorskip("opendp", reason="OpenDP is not installed (pip install '.[many]')")
    from ledger.circle.private import mechanism, quartiles_of
    from ledger.circle.told import BY_NAME

    edges = BY_NAME["cost"].edges
    rng = np.random.default_rng(8)
    for many, wanted in DESIGNED.items():
        for figures, middle in wanted.items():
            drawn = mechanism(figures, 1.0)
            errors, sampling, told = [], [], 0
            for _ in range(RUNS):
                values = np.clip(300 * rng.lognormal(0, 0.55, many), 50, 3000).round()
                true = np.percentile(values, [25, 50, 75])
                population = 300 * np.exp(0.55 * np.array([-0.6745, 0, 0.6745]))
                sampling.append(np.abs(true - population) / population)
                noisy = np.array(drawn(np.histogram(values, [*edges[:-1], np.inf])[0].tolist()))
                said = quartiles_of(noisy, edges, 1, float(figures))
                if said[1] is not None:
                    told += 1
                    errors.append(np.abs(np.array(said, float) - true) / true)
            found = 100 * np.median(errors, axis=0) if errors else np.full(3, np.nan)
            alone = 100 * np.median(sampling, axis=0)
            print(f"n {many:5}, F {figures:2}: low, middle, high off by {found[0]:.1f}, {found[1]:.1f}, {found[2]:.1f} %; sampling alone "
                  f"{alone[0]:.1f}, {alone[1]:.1f}, {alone[2]:.1f} %; told {told} of {RUNS}")  # fmt: skip
            if 80 * figures <= many:  # what the rules of a release allow
                assert told == RUNS
            if many >= 500:
                assert found[1] <= 1.5 * middle + 0.5
