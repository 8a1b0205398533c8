"""Why a day of when-to-sow says so: frosts seen, the table's row, the packet and the test."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.messages import sentence
from ledger.projections.base import Node
from ledger.questions.shared.arithmetic import difference, quotient, total
from ledger.questions.shared.common import event_node
from ledger.questions.shared.frosts import frosts_of
from ledger.questions.shared.opening import check_figure, no_record
from ledger.questions.shared.sown import Sown, sown_of

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["why"]

_FIGURES = (
    "last_sowing_days",
    "spring_frost_day",
    "fall_frost_day",
    "days_to_harvest",
    "germination",
    "seeds_wanted",
    "to_order",
    "soil_min_f",
    "soil_best_f",
    "again_days",
    "standard",
    "germination_low",
    "germination_high",
    "plants",
    "seeds_left",
)


def why(state: State, key: str, field: str | None = None) -> Node:
    """Return a figure as a tree.

    Parameters
    ----------
    key : str
        ``2027/0.1/tomato``.

    Raises
    ------
    NotFound
        When there is no such record or figure.
    """
    from ledger.questions.when_to_sow.risk import risk_of

    year, _, rest = key.partition("/")
    text, _, name = rest.partition("/")
    figure = field or "last_sowing_days"
    if year.isdigit() and name:
        risk = risk_of(text)
        one = next((s for s in sown_of(state, risk, int(year)) if s.name == name), None)
        if one is not None:
            check_figure("when-to-sow", figure, _FIGURES)
            return _tree(state, one, risk, figure)
    raise no_record("when-to-sow", key)


def _tree(state: State, one: Sown, risk: float, figure: str) -> Node:
    if figure in ("spring_frost_day", "fall_frost_day"):
        return frosts_of(state).node(state, risk, spring=figure.startswith("spring"))
    if figure in ("last_sowing_days", "days_to_harvest"):
        days = _days(state, one)
        if figure == "days_to_harvest" or one.row is None or days.value is None:
            return days
        parts = [
            days,
            Node(sentence("why-shorter-days-fall-virginia-formula"), one.row.fall_days, "days"),
            Node(sentence("why-picking-common-practice-no-source"), one.picking, "days"),
            Node(sentence("why-frost-kills"), one.row.tender_days, "days"),
            Node(sentence("why-seed-setting-out"), one.raised, "days"),
        ]
        return total(sentence("why-last-sowing-before-first-fall"), "days", *parts)
    if figure in ("soil_min_f", "soil_best_f", "again_days", "standard", "plants"):
        return _of_table(one, figure)
    return _of_seed(state, one, figure)


def _of_seed(state: State, one: Sown, figure: str) -> Node:
    """Return a figure of a crop's seed: its test, what is wanted, left and to order."""
    seed = one.seed
    if figure == "seeds_left" and seed is not None and seed.seeds is not None:
        return event_node(
            state, seed.seeds[1], sentence("why-seeds-left"), float(seed.seeds[0]), "seeds"
        )
    if seed is None or seed.test is None:
        return Node(sentence("why-no-test-written-down"), None, "")
    rate = _rate(state, one, figure)
    if figure.startswith("germination"):
        return rate
    return _wanted(state, one, rate, figure)


def _rate(state: State, one: Sown, figure: str) -> Node:
    """Return the germination of a tested seed, or an end of its range."""
    assert one.seed is not None
    assert one.seed.test is not None
    found, grew, sown, ev = one.seed.test
    if figure in ("germination_low", "germination_high"):
        end = found.low if figure.endswith("low") else found.high
        return event_node(state, ev, sentence("why-end-95-per-cent-range"), end, "0 to 1")
    sprouted = event_node(state, ev, sentence("why-sprouted"), float(grew), "seeds")
    return quotient(
        sentence("why-germination"),
        "0 to 1",
        sprouted,
        Node(sentence("why-laid-out"), float(sown), "seeds"),
    )


def _wanted(state: State, one: Sown, rate: Node, figure: str) -> Node:
    """Return the seeds that the plan's plants take, and how many of them to order."""
    columns = one.seed_columns()
    if columns["seeds_wanted"] is None or one.seed is None:
        return Node(sentence("why-path-not-known"), None, "seeds")
    plants = Node(sentence("why-plants-plan"), one.plants, "plants")
    bare = quotient(sentence("why-plants-germination"), "seeds", plants, rate)
    rest = float(columns["seeds_wanted"]) - float(bare.value or 0.0)
    up = Node(sentence("why-rounded-up-whole-seeds"), rest, "seeds")
    wanted = total(sentence("why-seeds-wanted"), "seeds", bare, up)
    if figure == "seeds_wanted":
        return wanted
    if one.seed.seeds is None:
        return Node(sentence("why-seeds-left-not-written-down"), None, "seeds")
    said, ev = one.seed.seeds
    short = difference(
        sentence("why-order"),
        "seeds",
        wanted,
        event_node(state, ev, sentence("why-seeds-left"), float(said), "seeds"),
    )
    return (
        short
        if float(short.value or 0.0) > 0
        else Node(sentence("why-nothing-order"), 0.0, "seeds")
    )


def _days(state: State, one: Sown) -> Node:
    if one.seed is not None and one.seed.days is not None:
        return event_node(
            state,
            one.seed.days[1],
            sentence("why-days-harvest-packet"),
            float(one.seed.days[0]),
            "days",
        )
    if one.row is None or one.row.days is None:
        return Node(sentence("why-days-harvest-not-known"), None, "days")
    low, high = one.row.days
    ends = [
        Node(sentence("why-table-low"), low, "days"),
        Node(sentence("why-table-high"), high, "days"),
    ]
    return Node(sentence("why-days-harvest-middle-table"), (low + high) / 2, "days", "middle", ends)


def _of_table(one: Sown, figure: str) -> Node:
    """Return a figure of the table's row, or of the plan, as a leaf."""
    row = one.row
    values = {
        "soil_min_f": (row.soil_min_f if row else None, "deg F"),
        "soil_best_f": (row.soil_best_f if row else None, "deg F"),
        "again_days": (row.again_days if row else None, "days"),
        "standard": (one.seed_columns()["standard"], "0 to 1"),
        "plants": (one.plants, "plants"),
    }
    value, unit = values[figure]
    label = sentence("why-plants-plan") if figure == "plants" else sentence("why-table-sowing")
    return Node(label, value, unit)
