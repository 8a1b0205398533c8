"""Where does a name stand in the book: items, people, beds, shops, batches and their labels?"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.labels import split_label
from ledger.projections.base import Answer, Column, Option, Projection
from ledger.questions.shared.common import answer
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State
    from ledger.replay.columns import Array

__all__ = ["COLUMNS", "PROJECTION", "build"]

COLUMNS = (
    Column("sort", "What", "", "item, recipe, person, bed, variety, shop or neighbour, or batch.", main=True),
    Column("name", "Name", "", "As the book first spelled it; of a batch what it makes.", main=True),
    Column("also", "Also", "", "Another name under which it was found; of a batch the label asked for.", main=True, rare=True),
    Column("entries", "Entries", "entries", "How many entries that count name it.", main=True),
    Column("first_on", "First", "day", "Day of the first of them; null where none does."),
    Column("last_on", "Last", "day", "Day of the newest of them; null where none does.", main=True),
    Column("entry", "Entry", "", "Of a batch its entry's id; null for the others."),
)  # fmt: skip
_SORTS = ("item", "recipe", "person", "bed", "variety", "place", "batch")


def build(state: State, *, of: str | None = None) -> Answer:
    """Return every name that has all the words in it, one record a name or batch.

    Parameters
    ----------
    state : State
    of : str, optional
        Words, or parts of them, in either case; a jar's label finds its batch. Default: every name.

    Returns
    -------
    Answer
        Columns as in `COLUMNS`: names that begin so first, then those most written of; batches last,
        the newest first.
    """
    words = (of or "").casefold().split()
    names = [one for one in state.once(_names) if _has(words, one["name"], one["also_all"])]
    records = [_found(words, one) for one in names]
    begin = (of or "").casefold()
    records.sort(key=lambda one: (not one["name"].casefold().startswith(begin), -one["entries"]))
    records += _batches(state, words)
    return answer(state, "mentions", COLUMNS, records, totals={"names": len(records)})


def _has(words: list[str], name: str, also: tuple[str, ...]) -> bool:
    return any(all(word in said.casefold() for word in words) for said in (name, *also))


def _found(words: list[str], one: dict[str, Any]) -> dict[str, Any]:
    """Return a name with the other one that was asked for, where its own does not have the words."""
    also = (
        None
        if _has(words, one["name"], ())
        else next(a for a in one["also_all"] if _has(words, a, ()))
    )
    return {**one, "also": also}


def _names(state: State) -> list[dict[str, Any]]:
    """Return every name of the book, with how many entries name it."""
    out = []
    for sort, name, also, ev in _named(state):
        days = state.moment.on[ev]
        out.append(
            {
                "sort": sort, "name": name, "also_all": also, "entries": int(ev.size),
                "first_on": day_text(int(days.min())) if ev.size else None,
                "last_on": day_text(int(days.max())) if ev.size else None,
            }
        )  # fmt: skip
    return out


def _named(state: State) -> Iterator[tuple[str, str, tuple[str, ...], Array]]:
    """Yield sort, name, other names, and the events that name it."""
    journal, facts = state.journal, state.facts
    by_item = _grouped(_items(state), facts.items)
    for item in range(facts.items):
        also = tuple(facts.facts[item].also or ())
        yield "item", facts.names[item], also, by_item[item]
    for _, body in state.bodies("recipe_written"):
        made = [ev for ev, one in state.bodies("recipe_written") if one["recipe"] == body["recipe"]]
        if made and made[0] == _:  # once for each recipe, however often it was written anew
            yield "recipe", str(body["recipe"]), (), np.array(made, np.int64)
    texts = journal.people.texts
    for code, ev in enumerate(_grouped(_people(state), len(texts))):
        if ev.size:
            yield "person", texts[code], (), ev
    texts = journal.garden.texts
    for sort in ("bed", "variety"):
        for code, ev in enumerate(_grouped(_garden(state, sort), len(texts))):
            if ev.size:
                yield sort, texts[code], (), ev
    texts = journal.whom.texts
    events = np.arange(state.moment.rank.size)
    for code, ev in enumerate(
        _grouped([(journal.tables["events"]["whom"][: events.size], events)], len(texts), state)
    ):
        if ev.size:
            yield "place", texts[code], (), ev


def _grouped(
    pairs: list[tuple[Array, Array]], many: int, state: State | None = None
) -> list[Array]:
    """Return for each code the events that name it, each once."""
    code = np.concatenate([one for one, _ in pairs]).astype(np.int64)
    ev = np.concatenate([one for _, one in pairs]).astype(np.int64)
    named = code >= 0
    if state is not None:
        named &= state.moment.rank[ev] >= 0
    both = np.unique(np.stack([code[named], ev[named]]), axis=1)
    ends = np.searchsorted(both[0], np.arange(many + 1))
    return [both[1, ends[i] : ends[i + 1]] for i in range(many)]


def _rows(state: State, table: str, column: str) -> tuple[Array, Array]:
    """Return a column of a table and the events of its rows, of those that count."""
    rows, columns = state.moment.rows(state.journal, table), state.journal.tables[table]
    return columns[column][rows], columns["ev"][rows]


def _items(state: State) -> list[tuple[Array, Array]]:
    tables = (("supplies", "item"), ("draws", "item"), ("counts", "item"), ("prices", "item"),
              ("batches", "makes"), ("planted", "crop"))  # fmt: skip
    out = []
    for table, column in tables:
        raw, ev = _rows(state, table, column)
        out.append((np.where(raw >= 0, state.facts.canon[np.maximum(raw, 0)], -1), ev))
    return out


def _people(state: State) -> list[tuple[Array, Array]]:
    events = np.flatnonzero(state.moment.rank >= 0)
    by = state.journal.tables["events"]["by"][events]
    described = [
        (state.journal.people.find(str(body["person"])), ev)
        for ev, body in state.bodies("person_described")
    ]
    known = np.array([one for one in described if one[0] is not None], np.int64).reshape(-1, 2)
    return [_rows(state, "work", "person"), (by, events), (known[:, 0], known[:, 1])]


def _garden(state: State, column: str) -> list[tuple[Array, Array]]:
    """Return varieties or beds of plantings, and of pickings by the supplies that they are rows of."""
    picked, supplies = state.journal.tables["picked"], state.journal.tables["supplies"]
    ev = supplies["ev"][picked["row"]]
    rows = state.moment.of(ev)
    return [_rows(state, "planted", column), (picked[column][rows], ev[rows])]


def _batches(state: State, words: list[str]) -> list[dict[str, Any]]:
    """Return the batches of that name, or with the jar of that label, the newest first."""
    makes, ev = _rows(state, "batches", "makes")
    names = [state.facts.names[int(state.facts.canon[one])] for one in makes]
    label = split_label(words[0]) if len(words) == 1 else ("", None)
    labelled = _labelled(state, label) if label[1] is not None else set()
    out = []
    for name, one in zip(names, ev.tolist(), strict=True):
        has_label = one in labelled
        if not (has_label or _has(words, name, ())):
            continue
        day = day_text(int(state.moment.on[one]))
        out.append(
            {
                "sort": "batch", "name": name, "also": words[0].upper() if has_label else None,
                "entries": 1, "first_on": day, "last_on": day, "entry": state.entry_id(one),
            }
        )  # fmt: skip
    return sorted(out, key=lambda one: str(one["last_on"]), reverse=True)


def _labelled(state: State, label: tuple[str, int | None]) -> set[int]:
    """Return the events whose jars have a label: its letters as they are, its number within the range."""
    prefix, number = label
    assert number is not None
    out = set()
    for ev, _, first, last in state.journal.labels:
        begins, low = split_label(str(first))
        high = split_label(str(last))[1]
        if begins.casefold() == prefix.casefold() and (low or 0) <= number <= (high or -1):
            out.add(int(ev))
    return out


PROJECTION = Projection(
    name="mentions",
    title="Mentions",
    question=__doc__.strip(),
    columns=COLUMNS,
    build=build,
    options=(Option("of", "words of a name, or a jar's label", "plum"),),
)
