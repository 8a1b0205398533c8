"""Why a day of when-to-sow says so: frosts seen, the table's row, the packet and the test."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.errors import NotFound
from ledger.projections._arithmetic import difference, quotient, total
from ledger.projections._common import event_node
from ledger.projections._frosts import frosts_of
from ledger.projections._sown import Sown, sown_of
from ledger.projections.base import Node

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
    from ledger.projections.when_to_sow import risk_of

    year, _, rest = key.partition("/")
    text, _, name = rest.partition("/")
    figure = field or "last_sowing_days"
    if year.isdigit() and name:
        risk = risk_of(text)
        one = next((s for s in sown_of(state, risk, int(year)) if s.name == name), None)
        if one is not None:
            if figure not in _FIGURES:
                raise NotFound(
                    "figure",
                    f"{figure!r} is not a figure of when-to-sow",
                    f"It has: {', '.join(_FIGURES)}",
                )
            return _tree(state, one, risk, figure)
    raise NotFound(
        "address",
        f"there is no record {key!r} of when-to-sow",
        "Take an address from `croftbook show when-to-sow --json`",
    )


def _tree(state: State, one: Sown, risk: float, figure: str) -> Node:
    if figure in ("spring_frost_day", "fall_frost_day"):
        return frosts_of(state).node(state, risk, spring=figure.startswith("spring"))
    if figure in ("last_sowing_days", "days_to_harvest"):
        days = _days(state, one)
        if figure == "days_to_harvest" or one.row is None or days.value is None:
            return days
        parts = [
            days,
            Node("shorter days in fall (Virginia formula)", one.row.fall_days, "days"),
            Node("picking (common practice, no source)", one.picking, "days"),
            Node("frost kills it", one.row.tender_days, "days"),
            Node("from seed to setting out", one.raised, "days"),
        ]
        return total("last sowing before the first fall frost", "days", *parts)
    seed = one.seed
    if seed is None or seed.test is None:
        return Node("no test is written down", None, "")
    _, grew, sown, ev = seed.test
    rate = quotient(
        "germination",
        "0 to 1",
        event_node(state, ev, "sprouted", float(grew), "seeds"),
        Node("laid out", float(sown), "seeds"),
    )
    if figure == "germination":
        return rate
    columns = one.seed_columns()
    if columns["seeds_wanted"] is None:
        return Node("not known", None, "seeds")
    bare = quotient(
        "plants by germination", "seeds", Node("plants of the plan", one.plants, "plants"), rate
    )
    up = Node(
        "rounded up to whole seeds",
        float(columns["seeds_wanted"]) - float(bare.value or 0.0),
        "seeds",
    )
    wanted = total("seeds wanted", "seeds", bare, up)
    if figure == "seeds_wanted" or seed.seeds is None:
        return (
            wanted
            if figure == "seeds_wanted"
            else Node("seeds left are not written down", None, "seeds")
        )
    left = event_node(state, seed.seeds[1], "seeds left", float(seed.seeds[0]), "seeds")
    short = difference("to order", "seeds", wanted, left)
    return short if float(short.value or 0.0) > 0 else Node("nothing to order", 0.0, "seeds")


def _days(state: State, one: Sown) -> Node:
    if one.seed is not None and one.seed.days is not None:
        return event_node(
            state, one.seed.days[1], "days to the harvest (packet)", float(one.seed.days[0]), "days"
        )
    if one.row is None or one.row.days is None:
        return Node("days to the harvest are not known", None, "days")
    low, high = one.row.days
    ends = [Node("table, low", low, "days"), Node("table, high", high, "days")]
    return Node(
        "days to the harvest (middle of the table's)", (low + high) / 2, "days", "middle", ends
    )
