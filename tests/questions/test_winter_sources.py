"""The winter's sources are proved: a number changed in the log moves what its tree says, and nothing else."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from projections.winter_tools import check_tree
from questions.proving import ENERGY, WHOLE, Proof, base, changed, leaves, names_its_source
from strategies.winters import winter_book

from ledger.projections import PROJECTIONS

QUICK = settings(max_examples=8, deadline=None, suppress_health_check=list(HealthCheck))
AS_OF = "2026-06-01"
BOOK = st.builds(winter_book, st.integers(0, 10_000), st.integers(40, 90))
ASKED = [
    ("who-eats", {}),
    ("enough", {}),
    ("enough", {"days": "300"}),
    ("enough", {"of": "eaten", "start": "2024-01-01"}),
    ("enough", {"of": "next season"}),
    ("how-long", {}),
    ("how-long", {"without": "power,water"}),
    ("how-long", {"without": "water", "water": "80 L"}),
    ("how-long", {"to_add": True}),
    ("glut", {}),
    ("whole-year", {}),
    ("whole-year", {"limits": True}),
]


def energy(event):
    """Return an event with the energy of an item changed; None: it says none."""
    return changed(event) if event["body"].get(ENERGY) else None


def by_energy(name, figure, at=0, **options):
    """Return how a figure that counts energy is opened and changed."""
    question = PROJECTIONS[name]

    def opened(events):
        state = base(events, AS_OF)
        found = [r["why"] for r in question.build(state, **options).rows() if r[figure]]
        if not found:
            return None, None
        key = found[at % len(found)].partition("/")[2]
        return key, question.why(state, key, figure, deep=WHOLE)

    return Proof(
        opened, lambda state, key: question.why(state, key, figure).value, energy, "kcal per", AS_OF
    )


PROOFS = (by_energy("how-long", "energy_days"), by_energy("how-long", "kg"), by_energy("enough", "supply"))  # fmt: skip


@pytest.mark.parametrize("proof", PROOFS, ids=("energy_days", "kg", "supply"))
@QUICK
@given(BOOK)
def test_an_energy_changed_in_a_leaf_moves_the_figure_as_its_tree_says(proof, events):
    proof.holds_inside(events)


@pytest.mark.parametrize("proof", PROOFS, ids=("energy_days", "kg", "supply"))
@QUICK
@given(BOOK)
def test_an_energy_changed_outside_the_tree_moves_nothing(proof, events):
    proof.holds_outside(events)


@pytest.mark.parametrize(("name", "options"), ASKED)
@pytest.mark.parametrize("seed", range(3))
def test_every_leaf_names_where_it_comes_from(name, options, seed):
    """And every node is what its parts give; the column and the root are one."""
    state, question = base(winter_book(seed, 90), AS_OF), PROJECTIONS[name]
    answer, seen = question.build(state, **options), 0
    for record in answer.rows():
        for column in answer.columns:
            value = record[column.name]
            if isinstance(value, bool) or not isinstance(value, float | int):
                continue
            tree = question.why(state, record["why"].partition("/")[2], column.name)
            assert tree.value == pytest.approx(value, rel=1e-12)
            check_tree(tree)
            for leaf in leaves(tree):
                assert names_its_source(leaf), (record["why"], column.name, leaf)
                seen += 1
    assert seen or not answer.rows()
