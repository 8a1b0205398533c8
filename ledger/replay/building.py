"""A moment of a book is built from its journal, grown from another one, or opened from kept columns."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

import numpy as np

from ledger.errors import TooLarge
from ledger.kinds import KINDS
from ledger.replay import tables
from ledger.replay.columns import Array
from ledger.replay.facts import Facts, Settings
from ledger.replay.flows import ORIGINS, Flows, Moment, build_flows
from ledger.replay.growing import Change, grow_flows, grow_matched
from ledger.replay.journal import Journal
from ledger.replay.matching import Flow, Matched, match, refuse_overflow
from ledger.replay.regrown import Before
from ledger.replay.state import State

__all__ = ["build_state", "columns_of", "grow_state", "state_of"]

_KIND = {name: code for code, name in enumerate(KINDS)}
_TIMELESS = np.isin(
    np.arange(len(_KIND)), [_KIND[k] for k in ("item_described", "setting_changed")]
)
_MISSING = len(tables.ROLES)
_APART = {"pos", "day", "came"}


def build_state(journal: Journal, *, as_of: int, known: int) -> State:
    """Settle entries, build flows and match them for one moment.

    Parameters
    ----------
    as_of : int
        Day by which it happened (days since 1970).
    known : int
        How many events of the log were known.

    Raises
    ------
    TooLarge
        Naming the item whose amounts are beyond what can be held.
    """
    moment, entries, newest = _moment(journal, as_of, known)
    facts, settings = _facts(journal, moment, entries, newest)
    flows = build_flows(journal, facts, moment, settings.newest("jar_label_prefix"))
    with _named(facts):
        matched = match(_flow(flows))
    return _state(journal, as_of, known, moment, (facts, settings), flows, matched)


def columns_of(state: State) -> dict[str, dict[str, Array]]:
    """Return what flows and matching made of a moment: `state_of` makes it again from that."""
    flows, matched = state.flows, vars(state.matched)
    return {
        "every lot": state.lots,
        "every draw": state.draws,
        "lot flows": _own(flows.lots, state.lots),
        "draw flows": _own(flows.draws, state.draws),
        "count flows": flows.counts,
        "matched": matched | {"named": np.array([matched["named"]])},
    }


def state_of(
    columns: dict[str, dict[str, Array]], journal: Journal, *, as_of: int, known: int
) -> State:
    """Return the moment that columns were made of, of the same journal."""
    moment, entries, newest = _moment(journal, as_of, known)
    lots, draws = columns["every lot"], columns["every draw"]
    flows = Flows(columns["lot flows"], columns["draw flows"], columns["count flows"])
    _share(flows, lots, draws)
    matched = Matched(
        **{**columns["matched"], "named": int(columns["matched"]["named"][0])}  # type: ignore[arg-type]
    )
    return State(
        journal, as_of, known, moment, *_facts(journal, moment, entries, newest), flows, matched,
        lots, draws, (matched.draw, matched.lot, matched.amount),
    )  # fmt: skip


def grow_state(old: State, journal: Journal, *, as_of: int, known: int) -> State | None:
    """Return the same as `build_state`, from a state of another moment; None where that is no gain.

    Parameters
    ----------
    old : State
        Of the same journal, or of the one that `journal` branched from.
    """
    facts = old.facts.of_journal(journal)
    facts.look_up_units()
    if (facts.canon.size, facts.ways_known) != journal.numbers:
        return None
    moment, _, _ = _moment(journal, as_of, known)
    change = Change(journal, old.moment, moment)
    if change.is_none:
        return old.moved(journal, as_of, known, moment)
    if not change.is_small:
        return None
    prefix = old.settings.newest("jar_label_prefix")
    flows, places, touched = grow_flows(journal, facts, moment, old.flows, change, prefix)
    with _named(facts):
        refuse_overflow(_flow(flows))
        matched, lots = grow_matched(flows, old.matched, old.flows, places, touched)
    state = _state(journal, as_of, known, moment, (facts, old.settings), flows, matched)
    state._lasting = old._lasting
    if "costs" not in vars(old):
        return state
    repriced = change.repriced(journal, facts, old.costs.worn)
    if repriced is not None:
        prices = None if change.is_priced else old.costs.prices
        state.priced = prices, old.costs.durables, old.costs.bought_inputs
        left_before, left = (~np.isnan(some.flows.lots["share"]) for some in (old, state))
        stays = places[0][left_before]
        is_same = left.sum() == stays.size and not (stays < 0).any()
        if is_same and not change.is_batch and lots.size:
            state.before = Before(old.costs, lots, touched | repriced)
    return state


@contextmanager
def _named(facts: Facts) -> Iterator[None]:
    """Name the item whose amounts are too large."""
    try:
        yield
    except TooLarge as error:
        raise TooLarge(facts.names[int(error.item)], error.total) from None


def _flow(flows: Flows) -> Flow:
    lots, draws, counts = flows.lots, flows.draws, flows.counts
    return Flow(
        lots["item"], lots["pos"], lots["whole"],
        draws["item"], draws["pos"], draws["whole"], draws["named"],
        counts["item"], counts["pos"], counts["whole"],
    )  # fmt: skip


def _state(
    journal: Journal,
    as_of: int,
    known: int,
    moment: Moment,
    said: tuple[Facts, Settings],
    flows: Flows,
    matched: Matched,
) -> State:
    lots = _all_lots(flows, matched, moment, journal)
    draws = _all_draws(flows, matched, moment)
    _share(flows, lots, draws)
    return State(
        journal, as_of, known, moment, *said, flows, matched, lots, draws,
        (matched.draw, matched.lot, matched.amount),
    )  # fmt: skip


def _share(flows: Flows, lots: dict[str, Array], draws: dict[str, Array]) -> None:
    """Let flows hold the columns of every lot and draw: once, not twice."""
    for mine, whole in ((flows.lots, lots), (flows.draws, draws)):
        for name in whole.keys() - _APART:
            mine[name] = whole[name][: mine["pos"].size]


def _own(mine: dict[str, Array], whole: dict[str, Array]) -> dict[str, Array]:
    """Return the columns that flows have of their own."""
    return {name: mine[name] for name in mine if name in _APART or name not in whole}


def _moment(journal: Journal, as_of: int, known: int) -> tuple[Moment, Array, Array]:
    """Decide which events count and in which order (rules 1 and 2)."""
    entries, newest = journal.settle(known)
    events = journal.tables["events"]
    kind, on = events["kind"][newest], events["on"][newest]
    # What could not be read has a code below zero, and counts for nothing.
    counts = (kind != _KIND["struck"]) & (kind >= 0) & ((on <= as_of) | _TIMELESS[kind])
    entries, newest = entries[counts], newest[counts]
    key = (events["on"][newest].astype(np.int64) * 8 + events["phase"][newest]) * 2048 + events[
        "at"
    ][newest]
    order = np.argsort(key, kind="stable")
    rank = np.full(len(journal), -1, np.int64)
    rank[newest[order]] = np.arange(order.size)
    return Moment(rank, events["root"], events["on"]), entries, newest


def _facts(
    journal: Journal, moment: Moment, entries: Array, newest: Array
) -> tuple[Facts, Settings]:
    kind = journal.tables["events"]["kind"][newest]
    described = [
        (int(root), journal.bodies[int(ev)])
        for root, ev in zip(
            entries[kind == _KIND["item_described"]],
            newest[kind == _KIND["item_described"]],
            strict=True,
        )
    ]
    settings = Settings()
    ats = journal.tables["events"]["at"]
    for ev in newest[kind == _KIND["setting_changed"]].tolist():
        body = journal.bodies[ev]
        settings.take(ev, (int(moment.on[ev]), int(ats[ev])), body["name"], body["value"])
    return Facts(journal, described), settings


def _all_lots(flows: Flows, matched: Matched, moment: Moment, journal: Journal) -> dict[str, Array]:
    """Return the lots of the flows, then the unrecorded, then the found.

    `came` is `origin`, but grown for what a count found and called home-made.
    """
    lots, draws, counts = flows.lots, flows.draws, flows.counts
    of, at = matched.missing_of, matched.found_of
    extra = of.size + at.size
    out = {
        "ev": np.concatenate([lots["ev"], draws["ev"][of], counts["ev"][at]]),
        "n": np.concatenate([lots["n"], draws["n"][of], counts["n"][at]]),
        "suffix": np.concatenate(
            [lots["suffix"], np.full(of.size, 2, np.int8), np.full(at.size, 3, np.int8)]
        ),
        "item": np.concatenate([lots["item"], draws["item"][of], counts["item"][at]]),
        "whole": np.concatenate([lots["whole"], matched.missing_whole, matched.found_whole]),
        "origin": np.concatenate(
            [
                lots["origin"],
                np.full(of.size, ORIGINS.index("unrecorded"), np.int8),
                np.full(at.size, ORIGINS.index("found"), np.int8),
            ]
        ),
        "kept": np.concatenate([lots["kept"], np.full(extra, -1, np.int8)]),
        "money": np.concatenate([lots["money"], np.full(extra, np.nan)]),
        "jars": np.concatenate([lots["jars"], np.zeros(extra, np.int64)]),
        "share": np.concatenate([lots["share"], np.full(extra, np.nan)]),
        "row": np.concatenate([lots["row"], np.full(extra, -1, np.int64)]),
        "pos": np.concatenate([lots["pos"] * 2, draws["pos"][of] * 2 - 1, counts["pos"][at] * 2]),
    }
    out["day"] = moment.on[out["ev"]]
    own = journal.tables["counts"]["own"][counts["row"][at]] == 1
    out["came"] = out["origin"].copy()
    out["came"][out["ev"].size - at.size :][own] = ORIGINS.index("grown")
    return out


def _all_draws(flows: Flows, matched: Matched, moment: Moment) -> dict[str, Array]:
    """Return the draws of the flows, then what counts found missing."""
    draws, counts, of = flows.draws, flows.counts, matched.loss_of
    out = {
        "ev": np.concatenate([draws["ev"], counts["ev"][of]]),
        "n": np.concatenate([draws["n"], counts["n"][of]]),
        "line": np.concatenate([draws["line"], counts["n"][of]]),
        "item": np.concatenate([draws["item"], counts["item"][of]]),
        "whole": np.concatenate([draws["whole"], matched.loss_whole]),
        "role": np.concatenate([draws["role"], np.full(of.size, _MISSING, np.int8)]),
        "pos": np.concatenate([draws["pos"], counts["pos"][of]]),
    }
    out["day"] = moment.on[out["ev"]]
    return out
