"""One moment of a book: everything that counted by then, matched and traced.

A `State` is what projections read. Lots and draws are dicts of columns; rows are in the order of
the book. Costs are worked out when first asked for.
"""

from __future__ import annotations

import copy
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any, TypeVar

import numpy as np

from ledger.days import day_number, day_text
from ledger.errors import TooLarge
from ledger.kinds import KINDS
from ledger.labels import split_label
from ledger.replay import tables
from ledger.replay.columns import Array
from ledger.replay.costing import Costs
from ledger.replay.durables import Durables
from ledger.replay.facts import Facts, Settings
from ledger.replay.flows import ORIGINS, Flows, Moment, build_flows
from ledger.replay.garden import Input
from ledger.replay.growing import Change, grow_flows, grow_matched
from ledger.replay.journal import Journal
from ledger.replay.matching import Flow, Matched, match, refuse_overflow
from ledger.replay.prices import Prices
from ledger.replay.regrown import Before

__all__ = [
    "State",
    "build_state",
    "columns_of",
    "day_number",
    "day_text",
    "grow_state",
    "state_of",
]

_KIND = {name: code for code, name in enumerate(KINDS)}
_TIMELESS = np.isin(
    np.arange(len(_KIND)), [_KIND[k] for k in ("item_described", "setting_changed")]
)
_MISSING = len(tables.ROLES)
_APART = {"pos", "day", "came"}
"""Columns of every lot and draw that those of their flows are not, or do not have."""
_Out = TypeVar("_Out")


@dataclass
class State:
    """A book at one moment.

    Attributes
    ----------
    as_of_day : int
        Happened by that day (days since 1970).
    known : int
        How many events were written down by then.
    known_at : str or None
        The moment by which they were, when it was asked for.
    moment : Moment
        Which events count, and in which order.
    facts : Facts
    settings : Settings
    lots : dict of ndarray
        ``ev, n, suffix (0 '', 1 f, 2 u, 3 c), item, whole, origin (ORIGINS), kept, money, jars,
        share, day, pos``.
    draws : dict of ndarray
        ``ev, n, item, whole, role (ROLES; 6: missing at a count), day, line, pos``.
    allocations : draw, lot, amount
        Which draw took how much of which lot, in whole units.
    """

    journal: Journal
    as_of_day: int
    known: int
    moment: Moment
    facts: Facts
    settings: Settings
    flows: Flows
    matched: Matched
    lots: dict[str, Array]
    draws: dict[str, Array]
    allocations: tuple[Array, Array, Array]
    known_at: str | None = None
    priced: tuple[Prices | None, Durables, list[Input]] | None = None
    """Prices and purchases of the moment that this one grew from, as far as none came or went."""
    before: Before | None = None
    """The moment that this one grew from, where batches are the same, too; until costs are known."""
    _lasting: dict[Any, dict[Any, Any]] = field(default_factory=dict, repr=False)
    _made: dict[Any, Any] = field(default_factory=dict, repr=False)

    def lasting(self, of: Callable[..., Any]) -> dict[Any, Any]:
        """Return what `of` keeps from this moment to those grown from it: a dict that is its own.

        Items and settings are the same in all of them, and so is what an event says, by its place;
        whatever else a value follows from must stand beside it and be compared.
        """
        return self._lasting.setdefault(of, {})

    def apart(self) -> State:
        """Return this state with what lasts kept apart: events tried out leave nothing behind."""
        other = copy.copy(self)
        other._lasting = {of: dict(kept) for of, kept in self._lasting.items()}
        return other

    def once(self, make: Callable[[State], _Out]) -> _Out:
        """Return ``make(state)``, worked out at the first asking and kept with this moment.

        What several questions share is asked for so; who asks must not change it.
        """
        if make not in self._made:
            self._made[make] = make(self)
        made: _Out = self._made[make]
        return made

    @cached_property
    def taken(self) -> Array:
        """What was drawn from each lot, in whole units, shape (lots,)."""
        _, lot, amount = self.allocations
        out = np.zeros(self.lots["whole"].size, np.int64)
        np.add.at(out, lot, amount)
        return out

    @cached_property
    def left(self) -> Array:
        """What is left of each lot, in whole units, shape (lots,)."""
        return np.asarray(self.lots["whole"] - self.taken)

    @cached_property
    def costs(self) -> Costs:
        """Costs and figures of every lot."""
        costs = Costs(self)
        self.before = None  # else each moment would hold on to the one before it
        return costs

    def moved(self, journal: Journal, as_of: int, known: int, moment: Moment) -> State:
        """Return this state at another day on which the same events count."""
        other = copy.copy(self)
        other.journal, other.as_of_day, other.known, other.moment = journal, as_of, known, moment
        other.facts, other._made = self.facts.of_journal(journal), {}
        if "costs" in vars(self):
            other.costs = self.costs.moved(other)
        return other

    def event_id(self, ev: int) -> str:
        """Return the id of an event by its place."""
        return self.journal.ids[int(ev)]

    def entry_id(self, ev: int) -> str:
        """Return the id of the entry that an event belongs to."""
        return self.journal.ids[int(self.moment.root[int(ev)])]

    def lot_id(self, lot: int) -> str:
        """Return a lot's id: ``<entry id>:<n>`` with f, u or c behind it."""
        suffix = ("", "f", "u", "c")[int(self.lots["suffix"][lot])]
        return f"{self.entry_id(self.lots['ev'][lot])}:{int(self.lots['n'][lot])}{suffix}"

    @cached_property
    def lot_ids(self) -> dict[str, int]:
        """Every lot by its id."""
        return {self.lot_id(i): i for i in range(self.lots["ev"].size)}

    def events(self, kind: str) -> Array:
        """Return the counted events of a kind, in the order of the book."""
        table = self.journal.tables["events"]
        rows = np.flatnonzero(
            (self.moment.rank >= 0) & (table["kind"][: self.moment.rank.size] == _KIND[kind])
        )
        return rows[np.argsort(self.moment.rank[rows])]

    def body(self, ev: int) -> dict[str, Any]:
        """Return the body of an event, read from the log where the journal kept only columns."""
        return self.journal.body(int(ev))

    @cached_property
    def went_bad(self) -> Array:
        """Rows of `allocations` that were discarded as seal failed, spoiled or broken."""
        events, ev = self.journal.tables["events"], self.draws["ev"][self.allocations[0]]
        causes = [tables.CAUSES.index(why) for why in ("seal failed", "spoiled", "broken")]
        return np.flatnonzero(
            (events["kind"][ev] == _KIND["discarded"]) & np.isin(events["cause"][ev], causes)
        )

    @cached_property
    def failed(self) -> Array:
        """What was discarded as seal failed, spoiled or broken, in whole units, shape (lots,)."""
        _, lot, amount = self.allocations
        out = np.zeros(self.lots["whole"].size, np.int64)
        np.add.at(out, lot[self.went_bad], amount[self.went_bad])
        return out

    def labels_drawn(self, lot: int) -> set[int]:
        """Return the label numbers by which jars of a lot were drawn."""
        return self._labels_drawn.get(lot, set())

    @cached_property
    def _labels_drawn(self) -> dict[int, set[int]]:
        out: dict[int, set[int]] = {}
        named, said = self.flows.draws["named"], self.flows.draws["lot_text"]
        rows = np.flatnonzero(named >= 0)
        for lot, text in zip(named[rows].tolist(), said[rows].tolist(), strict=True):
            label = self.journal.lots.texts[text]
            number = split_label(label)[1] if ":" not in label else None
            if number is not None:
                out.setdefault(lot, set()).add(number)
        return out

    def allocations_of_lot(self, lot: int) -> Array:
        """Return the rows of `allocations` that take from a lot."""
        return np.asarray(self._by_lot[1][self._by_lot[0][lot] : self._by_lot[0][lot + 1]])

    def allocations_of_draw(self, draw: int) -> Array:
        """Return the rows of `allocations` of a draw."""
        return np.asarray(self._by_draw[1][self._by_draw[0][draw] : self._by_draw[0][draw + 1]])

    @cached_property
    def _by_lot(self) -> tuple[Array, Array]:
        return _index(self.allocations[1], self.lots["ev"].size)

    @cached_property
    def _by_draw(self) -> tuple[Array, Array]:
        return _index(self.allocations[0], self.draws["ev"].size)

    def bodies(self, kind: str) -> list[tuple[int, dict[str, Any]]]:
        """Return (place, body) of the counted events of a kind that states facts."""
        return [(int(ev), self.journal.bodies[int(ev)]) for ev in self.events(kind)]

    def conservation(self) -> list[str]:
        """Return every item for which what came in is not what went out plus what is there."""
        count = len(self.facts)
        supplied = _sum(self.lots["item"], self.lots["whole"], count)
        there = _sum(self.lots["item"], self.left, count)
        drawn = _sum(self.draws["item"], self.draws["whole"], count)
        wrong = (supplied != drawn + there) | (
            _sum(self.lots["item"], np.minimum(self.left, 0), count) < 0
        )
        return [self.facts.names[i] for i in np.flatnonzero(wrong)]


def _index(numbers: Array, count: int) -> tuple[Array, Array]:
    """Return bounds, shape (count + 1,), and the rows of each number, one behind the other."""
    # One sort of one key is a sixth of a stable one that gives the order.
    order = np.sort(numbers << 32 | np.arange(numbers.size)) & 0xFFFFFFFF
    return np.r_[0, np.cumsum(np.bincount(numbers, minlength=count))], order


def _sum(item: Array, whole: Array, count: int) -> Array:
    out = np.zeros(count, np.int64)
    np.add.at(out, item, whole)
    return out


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
