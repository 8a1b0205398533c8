"""The plants for nine seasons in ten, in gardens of five shapes of season and 0 to 8 seasons known."""

from __future__ import annotations

import numpy as np
import pytest

from simulation.gardens import SHAPES, measure_gardens

pytestmark = [pytest.mark.simulation, pytest.mark.timeout(900)]

SEASONS = (0, 1, 2, 3, 5, 8)


@pytest.fixture(scope="module")
def figures():
    return {(shape, n): measure_gardens(shape, n) for shape in SHAPES for n in SEASONS}


def test_table(figures, capsys):
    with capsys.disabled():
        print("\nshare of further seasons short;", " | ".join(SHAPES), "| mean | plants / even")
        for n in SEASONS:
            row = [figures[shape, n] for shape in SHAPES]
            mean, times = np.mean([one[0] for one in row]), np.median([one[1] for one in row])
            print(
                f"| {n} |",
                " | ".join(f"{one[0]:.3f}" for one in row),
                f"| {mean:.3f} | x{times:.1f} |",
            )


@pytest.mark.parametrize("n", SEASONS)
def test_short_in_about_one_season_of_ten(figures, n):
    short = [figures[shape, n][0] for shape in SHAPES]
    assert 0.06 <= np.mean(short) <= 0.13
    assert max(short) <= 0.145


def test_more_seasons_take_fewer_plants(figures):
    for shape in SHAPES:
        assert figures[shape, 8][1] < figures[shape, 0][1] < 3.5
