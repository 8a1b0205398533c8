"""What the public is told: noise of the size written down, a budget that holds, and refusals before anything is drawn."""

from __future__ import annotations

import importlib.util
import math
import os
import signal
import subprocess
import sys
import threading

import numpy as np
import pytest
from circle_tools import call_of
from scipy.stats import chisquare

from ledger.circle import Circle
from ledger.circle.private import quartiles_of
from ledger.circle.releases import log_of
from ledger.errors import InputError
from seed_demo import circle as sample

needs_opendp = pytest.mark.skipif(
    importlib.util.find_spec("opendp") is None,
    reason="OpenDP is not installed (pip install '.[many]')",
)


@pytest.fixture
def county(tmp_path):
    """A group of 500 cards, each with a sheet."""
    circle = Circle.begin(tmp_path / "county", call_of())
    (tmp_path / "all").write_bytes(b"".join(sample.sheets(circle.call, circle.cards(500))))
    assert circle.gather([tmp_path / "all"]).taken == 500
    return circle


@needs_opendp
def test_mechanism_spends_what_is_written_down():
    from ledger.circle.private import mechanism

    for figures, epsilon in ((1, 1.0), (6, 1.0), (6, 0.5), (24, 0.1)):
        assert mechanism(figures, epsilon).map(figures) == pytest.approx(epsilon, abs=1e-9)


@needs_opendp
def test_noise_is_the_discrete_laplace_distribution():
    """2,000 draws against its probabilities, (1 - a) / (1 + a) a^|k| with a = e^(-1/scale) (Inusah, Kozubowski 2006)."""
    from ledger.circle.private import mechanism

    scale = 3.0
    noise = np.array(mechanism(3, 1.0)([0] * 2000))
    a = math.exp(-1 / scale)
    ks = np.arange(-12, 13)
    share = (1 - a) / (1 + a) * a ** np.abs(ks)
    expected = np.array([*(2000 * share), 2000 * (1 - share.sum())])
    seen = np.array([*(np.sum(noise == k) for k in ks), np.sum(np.abs(noise) > 12)])
    assert chisquare(seen, expected).pvalue > 1e-6  # once in a million runs of true noise


@needs_opendp
def test_release_tells_six_figures_of_500_cards_with_their_scale(county):
    told = county.tell(private=True)
    assert (told.head["households"], told.head["epsilon"]) == (500, 1.0)
    named = list(dict.fromkeys((c["figure"], c["group"].get("product")) for c in told.cells))
    assert len(named) == 6  # 500 cards x 1 / 80
    for cell in told.cells:
        assert cell["scale"] == 6.0
        assert len(cell["noisy"]) == len(cell["edges"]) - 1
        assert "n" not in cell  # the number of sheets is told by the counts alone
    minutes = next(c for c in told.cells if c["figure"] == "minutes")
    true = sorted(one.figures["p1_minutes"] for one in county.held() if one.figures["p1_jars"])
    assert abs(minutes["middle"] - true[len(true) // 2]) <= 6
    assert minutes["middle_from"] <= minutes["middle"] <= minutes["middle_to"]
    assert county.budget() == (1000, 0)


@needs_opendp
def test_budget_is_refused_when_spent_and_before_anything_is_drawn(county, monkeypatch):
    county.tell(private=True, epsilon=0.5)
    county.tell(private=True, epsilon=0.25)
    monkeypatch.setattr("ledger.circle.private.histograms", lambda *_: pytest.fail("was drawn"))
    with pytest.raises(InputError, match=r"epsilon: 0\.3 is asked for, and 0\.25 is left"):
        county.tell(private=True, epsilon=0.3)
    assert county.budget() == (750, 250)


@needs_opendp
def test_four_at_once_never_overspend(county):
    done = []

    def one():
        try:
            Circle(county.folder).tell(private=True, epsilon=0.6)
            done.append("told")
        except InputError:
            done.append("refused")

    threads = [threading.Thread(target=one) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(done) == ["refused"] * 3 + ["told"]
    assert county.budget() == (600, 400)


KILLED = """
import os, signal, sys
import ledger.circle.private as private
private.histograms = lambda *_: os.kill(os.getpid(), signal.SIGKILL)
from ledger.cli import main
main(["circle", "tell", sys.argv[1], "--out", sys.argv[2], "--private", "--epsilon", "0.4"])
"""


@needs_opendp
def test_killed_between_event_and_noise_is_spent_and_tells_nothing(county, tmp_path):
    out = tmp_path / "told.json"
    done = subprocess.run([sys.executable, "-c", KILLED, str(county.folder), str(out)], check=False, env=os.environ)  # fmt: skip
    assert done.returncode == -signal.SIGKILL
    assert not out.exists()
    assert Circle(county.folder).budget() == (400, 600)


@needs_opendp
def test_exact_and_noisy_figures_of_one_call_exclude_each_other(county):
    county.tell()
    with pytest.raises(InputError, match="went to the class already"):
        county.tell(private=True)
    assert county.budget() == (0, 1000)


@needs_opendp
def test_class_is_told_nothing_after_the_public(county):
    county.tell(private=True, epsilon=0.5)
    with pytest.raises(InputError, match="went to the public already"):
        county.tell()


@pytest.mark.parametrize("epsilon", [0, -1, 1.001, 0.0005, float("nan"), float("inf"), 0.12345])
def test_epsilon_that_cannot_be_spent_is_refused(county, epsilon):
    with pytest.raises(InputError, match="cannot be spent"):
        county.tell(private=True, epsilon=epsilon)


def test_few_cards_and_little_epsilon_carry_nothing(county, circle):
    with pytest.raises(InputError, match="cards: 30 were given out"):
        circle.tell(private=True)
    with pytest.raises(InputError, match=r"epsilon: 0\.1 carries no figure of 500 cards"):
        county.tell(private=True, epsilon=0.1)


def test_without_the_library_nothing_is_spent(county, monkeypatch):
    monkeypatch.setitem(sys.modules, "opendp", None)
    monkeypatch.setitem(sys.modules, "opendp.prelude", None)
    with pytest.raises(InputError, match=r"pip install '\.\[many\]'"):
        county.tell(private=True)
    assert county.budget() == (0, 1000)
    with log_of(county.folder) as log:
        assert log.count() == 0
    assert county.tell().head["for"] == "the class"  # which needs no library


def test_quartiles_of_counts_without_noise_are_those_of_the_values():
    values = np.random.default_rng(3).integers(0, 240, 20_000)
    edges = list(range(0, 242, 4))
    counts = np.histogram(values, edges)[0]
    low, middle, high = quartiles_of(counts, edges, 1, 0.01)
    assert (low, middle, high) == tuple(pytest.approx(np.percentile(values, q), abs=2) for q in (25, 50, 75))  # fmt: skip
    assert quartiles_of(np.array([1, -3, 2, 0]), [0, 1, 2, 3, 4], 1, 6.0) == (None, None, None)
