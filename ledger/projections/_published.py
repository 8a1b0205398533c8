"""Batches and lots of a book, as the published tables want them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from ledger.items import item_key
from ledger.published import BatchDone, Judgement, Keeping, batch_of, judge, judge_other, keeps_for
from ledger.published.judging import CANNING
from ledger.published.other import has_figures
from ledger.replay import KEPT

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["batch_done", "batches", "judged", "keeping_of", "schedules_of"]


def schedules_of(state: State) -> dict[str, str]:
    """Return the schedule that each recipe names, by the recipe's key."""
    out = {}
    for _, body in state.bodies("recipe_written"):
        if body.get("schedule"):
            out[item_key(body["recipe"])] = str(body["schedule"])
    return out


def batches(state: State) -> list[tuple[int, dict[str, Any]]]:
    """Return (event, body) of every batch that tables may hold figures for, in order."""
    out = [(int(ev), state.body(int(ev))) for ev in state.events("put_up")]
    return [
        (ev, body)
        for ev, body in out
        if body["method"] in CANNING or has_figures(body["makes"], body["method"])
    ]


def batch_done(
    state: State, ev: int, body: Mapping[str, Any], schedules: Mapping[str, str]
) -> BatchDone:
    """Return a batch with the household's altitude and gauge of that day, and weights."""
    day = int(state.moment.on[ev])
    recipe = body.get("recipe") or body["makes"]

    def grams(line: Mapping[str, Any]) -> float | None:
        item = state.facts.find(line["item"])
        per = None if item is None else state.facts.grams_per_whole(item)
        whole = line.get("whole")
        return None if per is None or whole is None else float(whole) * per

    return batch_of(
        body,
        altitude=state.settings.on("altitude", day),
        gauge=state.settings.on("gauge", day),
        schedule=schedules.get(item_key(str(recipe))),
        grams=grams,
    )


def judged(batch: BatchDone) -> Judgement:
    """Return a batch beside what is published for its method."""
    return judge(batch) if batch.method in CANNING else judge_other(batch)


def keeping_of(state: State, lot: int) -> Keeping | None:
    """Return the published period of a lot on the shelf, with its source; None: none is published."""
    item = int(state.lots["item"][lot])
    ev = int(state.lots["ev"][lot])
    code = int(state.lots["kept"][lot])
    made = state.journal.tables["events"]["kind"][ev]
    method = state.body(ev)["method"] if made == _put_up(state) else None
    kept = KEPT[code] if code >= 0 else None
    jars, whole, left = (
        int(state.lots["jars"][lot]),
        int(state.lots["whole"][lot]),
        int(state.left[lot]),
    )
    part = jars * left / whole if jars and whole else 0.0
    opened = bool(jars) and abs(part - round(part)) > 0.001
    facts = state.facts.facts[item]
    return keeps_for(facts.sort, method, state.facts.names[item], kept, opened=opened)


def _put_up(state: State) -> int:
    from ledger.events import KINDS

    del state
    return list(KINDS).index("put_up")
