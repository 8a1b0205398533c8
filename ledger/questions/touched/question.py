"""What touches what: from a purchase, an item, a lot, a gauge, a schedule or a batch to whoever had of it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.errors import NotFound
from ledger.messages import Message, Names, Sentence, Typed, sentence
from ledger.projections.base import Answer, Assumption, Column, Node, Option, Projection
from ledger.questions.shared.gauges import gauge_tests, test_line
from ledger.questions.shared.opening import entry_leaf
from ledger.questions.touched.origins import STARTS, Start, start_of
from ledger.questions.touched.rows import MOST_JUDGED, backward_frame, forward_frame
from ledger.questions.touched.touching import touching
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["COLUMNS", "PROJECTION", "build"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("what", "What", "", "there, given, eaten, discarded, lost, batch; backward batch, bought, harvested, received, found, unrecorded.", main=True),
    Column("on", "Day", "day", "When that was; of what is there, when it came in or was put up.", main=True),
    Column("item", "Item", "", "What it is; of a batch, what it made.", main=True),
    Column("amount", "Amount", "g, ml, pieces or kJ", "How much is there, was taken, or was made; backward, how much came in."),
    Column("unit", "Unit", "", "The unit of that: g, ml, pieces or kJ."),
    Column("text", "Amount", "", "The same in words; null beyond three thousand records.", main=True),
    Column("jars", "Jars", "jars", "The same in jars, an open one as a part; null when not in jars.", main=True),
    Column("kept", "Kept", "", "Where the lot is kept."),
    Column("who", "Who", "", "Who got it, or whom it came from; of a meal, how many ate; null where nobody wrote that down.", main=True),
    Column("people", "People", "people", "How many ate; null where nobody wrote that down, and of anything but a meal."),
    Column("guests", "Guests", "people", "How many of them were guests."),
    Column("how", "How", "", "gift, barter or sold; why it was discarded; how it was received."),
    Column("by", "By", "", "Who wrote it down."),
    Column("lot", "Lot", "", "Id of the lot; null of a batch."),
    Column("batch", "Batch", "", "Entry of the batch that the lot came out of; null where it came out of none."),
    Column("event", "Entry", "", "Entry that the record tells of."),
    Column("standing", "Standing", "", "How what is there stands beside what is published; null where nothing is compared, of anything else, and where more than 200 batches lie behind it."),
    Column("standing_text", "Mark", "", "What is said of it before it is eaten; null where there is nothing to say.", main=True, rare=True),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip


def build(state: State, *, back: bool = False, **said: str | None) -> Answer:
    """Return what came of something, or with `back` what it came from.

    Parameters
    ----------
    back : bool
        From the lot, batch or meal to what went into it.
    **said
        One of ``item, lot, batch, purchase, gauge, schedule, meal``.

    Returns
    -------
    Answer
        Columns as in `COLUMNS`; ``totals`` has how many lots, jars, meals, gifts and batches, and who got some.

    Raises
    ------
    InputError, NotFound
        When nothing to follow is named, or there is no such thing.
    """
    start = start_of(state, {name: text for name, text in said.items() if text})
    frame = (_backward if back else _forward)(state, start)
    assumptions = [] if back else [Assumption("signs", sentence("standing-signs-of-who-ate"))]
    frame["assumptions"] = [[one.id for one in assumptions] for _ in range(len(frame))]
    totals = _totals(frame, start, back=back)
    if said.get("gauge"):
        totals["in_words"] += [test_line(state, one) for one in state.once(gauge_tests)] or [
            sentence("recall-no-test")
        ]
    return Answer(
        name="touched",
        as_of=day_text(state.as_of_day),
        known_at=state.known_at,
        currency=state.settings.newest("currency") or "USD",
        columns=COLUMNS,
        cells={name: frame[name].tolist() for name in frame},
        totals=totals,
        assumptions=assumptions,
    )


def _forward(state: State, start: Start) -> Any:
    graph = state.once(touching)
    seeds = np.concatenate([start.lots, graph.nodes_of(start.events)])
    found = graph.reached(seeds)
    batches = state.journal.tables["events"]["kind"] == _put_up()
    evs = np.union1d(graph.evs[found[graph.lots :]], start.events).astype(np.int64)
    return forward_frame(state, COLUMNS, found[: graph.lots], evs[batches[evs]])


def _backward(state: State, start: Start) -> Any:
    graph = state.once(touching)
    seeds = np.concatenate([start.lots, graph.nodes_of(start.events)])
    found = graph.reached(seeds, back=True)
    evs = np.union1d(graph.evs[found[graph.lots :]], start.events).astype(np.int64)
    evs = evs[state.journal.tables["events"]["kind"][evs] == _put_up()]
    return backward_frame(state, COLUMNS, found[: graph.lots], evs)


def _put_up() -> int:
    from ledger.kinds import KINDS

    return list(KINDS).index("put_up")


def _totals(frame: Any, start: Start, *, back: bool) -> dict[str, Any]:
    what = frame["what"].to_numpy()
    if back:
        batches = int((what == "batch").sum())
        words = [
            sentence(
                "recall-went-into",
                what=start.said,
                lots=_many("recall-lots", len(frame) - batches),
                batches=_many("recall-batches", batches),
            )
        ]
        return {"lots": len(frame) - batches, "batches": batches, "in_words": words}
    of = {name: frame[what == name] for name in ("there", "given", "eaten", "batch")}
    jars = float(sum(one for one in of["there"]["jars"] if one is not None))
    meals, gifts = of["eaten"]["event"].nunique(), of["given"]["event"].nunique()
    got = sorted({str(one) for one in of["given"]["who"] if one})
    unknown = int(sum(one is None for one in of["given"]["who"]))
    words = [
        sentence(
            "recall-came-of",
            what=start.said,
            lots=_many("recall-lots", len(of["there"])),
            jars=_many("recall-jars", jars),
            meals=_many("recall-meals", meals),
            gifts=_many("recall-gifts", gifts),
            batches=_many("recall-batches", len(of["batch"])),
        )
    ]
    if got:
        words.append(sentence("recall-given-to", names=Names(tuple(got))))
    if len(of["batch"]) > MOST_JUDGED:
        words.append(sentence("recall-not-judged"))
    if unknown:
        words.append(sentence("recall-nobody-named", n=unknown))
    return {
        "lots_there": len(of["there"]), "jars_there": jars, "meals": int(meals), "gifts": int(gifts),
        "batches": len(of["batch"]), "given_to": got, "in_words": words,
    }  # fmt: skip


def _many(id_: str, count: float) -> Sentence:
    return sentence(id_, n=count)


def why(state: State, key: str, field: str | None = None) -> Node:
    """Return the entry behind a record.

    Raises
    ------
    NotFound
        When there is no such lot or entry.
    """
    lot = state.lot_ids.get(key)
    if lot is not None:
        return entry_leaf(state, int(state.lots["ev"][lot]), state.lot_id(lot))
    place = state.journal.place_of(key)
    if place is not None and place < state.moment.root.size:
        root = state.moment.root[place]
        evs = np.flatnonzero((state.moment.root == root) & (state.moment.rank >= 0))
        if evs.size:
            return entry_leaf(state, int(evs[0]), key)
    raise NotFound(
        "address",
        Message.of("refusal-no-lot-or-entry", text=Typed(key)),
    )


_HELP = {
    "item": ("every lot of this item", "salt"),
    "lot": ("this lot, or the jar with this label", "5f0c0a0e:1"),
    "batch": ("this batch (the beginning of its id)", "5f0c0a0e"),
    "purchase": ("what came in by this entry", "5f0c0a0e"),
    "gauge": ("the loads by this gauge since it was last right: dial, or a canner", "dial"),
    "schedule": ("batches set beside this schedule or product", "snap_beans-raw-quart-dial-1"),
    "meal": ("what this meal or gift was taken from", "5f0c0a0e"),
}
assert list(_HELP) == list(STARTS)

PROJECTION = Projection(
    name="touched",
    title="What touches what",
    question="What came of it: which jars are there, who ate of it, who got some; and what went into it?",
    columns=COLUMNS,
    build=build,
    why=why,
    options=(
        *(Option(name, text, example) for name, (text, example) in _HELP.items()),
        Option("back", "the other way: what went into it", "--back", kind="flag"),
    ),
)
