"""When to sow's sources are proved: a number changed in the log moves what its tree says, and nothing else."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from projections.winter_tools import check_tree
from questions.proving import TIMES, WHOLE, Proof, base, leaves, names_its_source

from ledger.questions.when_to_sow.question import PROJECTION

QUICK = settings(max_examples=12, deadline=None, suppress_health_check=list(HealthCheck))
AS_OF = "2026-11-01"
CROPS = ("tomato", "carrot", "lettuce", "green bean")
NUMBERS = ("days", "seeds")

CHECKED = st.fixed_dictionaries(
    {"crop": st.sampled_from(CROPS)},
    optional={
        "days": st.integers(20, 90), "seeds": st.integers(0, 90), "year": st.integers(2018, 2026),
        "sown": st.just(20),
    },
).map(lambda body: {**body, "sprouted": 13} if "sown" in body else body)  # fmt: skip
FROSTS = st.lists(
    st.tuples(st.integers(2000, 2025), st.integers(1, 28)),
    max_size=14,
    unique_by=lambda one: one[0],
)


@st.composite
def gardens(draw):
    """Return a book of crops, checks of their seed, and frosts."""
    bodies = [("planted", {"crop": crop, "plants": 40}) for crop in CROPS]
    bodies += [("seed_checked", body) for body in draw(st.lists(CHECKED, max_size=6))]
    bodies += [
        ("frost_seen", {"frost": name, "seen": f"{year}-{month}-{day:02}"})
        for name, month in (("last of spring", "05"), ("first of fall", "10"))
        for year, day in draw(FROSTS)
    ]
    return [
        {"seq": n, "id": f"00000000-0000-0000-0000-{n:012}", "kind": kind, "v": 1, "on": "2026-05-20",
         "recorded_at": f"2026-05-20T10:{n:02}:00Z", "body": body}
        for n, (kind, body) in enumerate(bodies, 1)
    ]  # fmt: skip


def more(event):
    """Return an event with its days or seeds TIMES as much; None: it has none."""
    numbers = {name: event["body"][name] * TIMES for name in NUMBERS if name in event["body"]}
    return {**event, "body": {**event["body"], **numbers}} if numbers else None


def proof(figure, unit, at):
    """Return how a figure is opened, at one of the crops that have it."""

    def opened(events):
        state = base(events, AS_OF)
        found = [r["why"].partition("/")[2] for r in PROJECTION.build(state).rows() if r[figure]]
        key = found[at % len(found)] if found else None
        return key, key and PROJECTION.why(state, key, figure, deep=WHOLE)

    def valued(state, key):
        return PROJECTION.why(state, key, figure).value

    return Proof(opened, valued, more, unit, AS_OF)


FIGURES = [("last_sowing_days", "days"), ("days_to_harvest", "days"), ("seeds_left", "seeds")]


@pytest.mark.parametrize(("figure", "unit"), FIGURES)
@QUICK
@given(gardens(), st.integers(0, 9))
def test_a_number_in_a_leaf_moves_the_figure_as_its_tree_says(figure, unit, events, at):
    proof(figure, unit, at).holds_inside(events)


@pytest.mark.parametrize(
    ("figure", "unit"), [*FIGURES, ("germination", "seeds"), ("spring_frost_day", "day")]
)
@QUICK
@given(gardens(), st.integers(0, 9))
def test_a_number_outside_the_tree_moves_nothing(figure, unit, events, at):
    proof(figure, unit, at).holds_outside(events)


@QUICK
@given(gardens())
def test_every_leaf_names_where_it_comes_from(events):
    state = base(events, AS_OF)
    answer = PROJECTION.build(state)
    assert answer.rows()
    for record in answer.rows():
        for column in answer.columns:
            if isinstance(record[column.name], float | int):
                tree = PROJECTION.why(state, record["why"].partition("/")[2], column.name)
                assert tree.value == pytest.approx(record[column.name])
                check_tree(tree)
                assert all(names_its_source(leaf) for leaf in leaves(tree)), column.name
