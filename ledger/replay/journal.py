"""The journal: stored events decoded once, straight into columns.

Bodies are parsed in chunks, kind by kind, into lean structs and from there into the columns of
`tables`; nothing but the columns is kept, and the few bodies that state facts. What is counted
at a moment (`settle`) is decided on the columns.
"""

from __future__ import annotations

import copy
from collections.abc import Callable, Sequence
from itertools import product
from operator import attrgetter, itemgetter
from typing import Any

import msgspec
import numpy as np

from ledger import errors
from ledger.kinds import KINDS, kind_of, lean_body, newer_than_this, upcast
from ledger.messages import Code, sentence
from ledger.replay import tables
from ledger.replay.bodies import Bodies
from ledger.replay.columns import Array, Names, Table
from ledger.replay.garden_columns import take_harvested, take_planted
from ledger.replay.kitchen_columns import take_counted, take_discarded, take_eaten, take_put_up
from ledger.replay.line_columns import (
    KEPT,
    take_draws,
    take_lines,
    take_supplies,
    take_targets,
    take_work,
)
from ledger.replay.trade_columns import take_bought, take_given_away, take_received
from ledger.replay.ways import Ways

__all__ = ["KEPT", "Journal"]

_KINDS = tuple(KINDS)
_CODES = {name: code for code, name in enumerate(_KINDS)}
_PHASES = np.array([KINDS[kind].phase for kind in _KINDS], np.int8)
_CAUSE = {name: code for code, name in enumerate(tables.CAUSES)}
_NAN = float("nan")


_UNREAD = frozenset({"basis", "note"})
"""Fields that no column holds though most bodies have them: a tenth of decoding."""

UNREAD = -1
"""The code of what is set aside."""

_COPIED = (
    "labels",
    "bodies",
    "_read",
    "first_said",
    "unread",
    "looked_up",
    "_label_at",
)


def _facts(kind: str, text: str) -> list[dict[str, Any]]:
    """Return bodies that are kept as they were written, each one that is a body of its kind.

    Raises
    ------
    msgspec.DecodeError
    """
    bodies: list[dict[str, Any]] = msgspec.json.decode(text)
    msgspec.convert(bodies, list[lean_body(KINDS[kind])])  # type: ignore[misc]
    return bodies


class Journal(Bodies):
    """Every event so far, as columns.

    Attributes
    ----------
    tables : dict of str to Table
        See `ledger.replay.tables.TABLES`; `ev` is an event's place in the log, ``seq - 1``.
    items, units, people, lots, garden : Names
        The texts behind the coded columns; `garden` has varieties, beds and sizes as typed, `whom` shops.
    unread : dict of int to str
        What is set aside, by place, as this program cannot read it: counted nowhere, and told of.
    ways : Ways
        In which ways amounts were said: the column `way` of lines.
    first_said : dict of int to (int, int, str)
        How each raw name was first said: when (rising), the way, and the amount as typed.
    """

    def __init__(self) -> None:
        super().__init__()
        self.tables = {name: Table(dtypes) for name, dtypes in tables.TABLES.items()}
        self.items, self.units, self.people, self.lots = Names(), Names(), Names(), Names()
        self.garden, self.whom = Names(), Names()
        self.unread: dict[int, str] = {}
        self.ways = Ways()
        self.first_said: dict[int, tuple[int, int, str]] = {}
        self.said_before: set[int] = set()
        self._decoders = {
            name: msgspec.json.Decoder(list[lean_body(kind, _UNREAD)])  # type: ignore[misc]
            for name, kind in KINDS.items()
            if name not in _FACTS
        }

    def __len__(self) -> int:
        return len(self.tables["events"])

    @property
    def numbers(self) -> tuple[int, int]:
        """How many names, and ways of saying an amount of one, have a number so far."""
        return len(self.items), len(self.ways)

    def branch(self) -> Journal:
        """Return a copy that takes more events in while this one stays as it is."""
        other = copy.copy(self)
        other.tables = {name: table.copy() for name, table in self.tables.items()}
        for name in ("items", "units", "people", "lots", "garden", "whom", "ways"):
            setattr(other, name, getattr(self, name).copy())
        for name in _COPIED:
            setattr(other, name, copy.copy(getattr(self, name)))
        self._branched(other)
        other._of_bodies = {make: dict(kept) for make, kept in self._of_bodies.items()}
        return other

    # -- taking events in ---------------------------------------------------------------

    def take(self, rows: Sequence[tuple[Any, ...]]) -> None:
        """Take stored events in, in sequence.

        Parameters
        ----------
        rows : sequence of tuple
            ``(seq, kind, v, on, at, by, replaces, body)``.

        What this program cannot read is set aside (`unread`).

        Raises
        ------
        BookDamaged
            An event is missing.
        """
        if not rows:
            return
        start, count, self.said_before = len(self), len(rows), set(self.first_said)
        if rows[0][0] != start + 1 or rows[-1][0] != start + count:
            missing = next(n for n, row in enumerate(rows, start + 1) if row[0] != n)
            raise errors.BookDamaged(sentence("refusal-event-missing", n=missing))
        kinds, versions, ons, ats, bys, replaces, bodies = (
            list(map(itemgetter(column), rows)) for column in range(1, 8)
        )
        kinds = list(self._readable(kinds, versions, start))
        events = self._envelope(kinds, ons, ats, start)
        self._roots(events["root"], replaces, start)
        found, first = np.unique(events["kind"], return_index=True)
        written = set(versions)
        for code in found[np.argsort(first)].tolist():
            if code == UNREAD:
                continue
            kind, places = _KINDS[code], np.flatnonzero(events["kind"] == code).tolist()
            texts = list(map(bodies.__getitem__, places))
            if written - set(range(KINDS[kind].reads, KINDS[kind].v + 1)):
                texts = [self._raised(kind, versions[i], bodies[i], start + i + 1) for i in places]
            try:
                self._take_kind(kind, [start + i for i in places], texts, events, start)
            except (msgspec.DecodeError, UnicodeError) as error:
                if not self._set_aside(kind, places, texts, events, start):
                    raise errors.BookDamaged(
                        sentence("refusal-cannot-be-read", name=kind, why=Code(str(error)))
                    ) from error
        self.tables["events"].extend(count, {**events, "by": self.people.codes(bys)})

    def _envelope(
        self,
        kinds: Sequence[str],
        ons: Sequence[str],
        ats: Sequence[str | None],
        start: int,
    ) -> dict[str, Array]:
        count = len(kinds)
        minute = {a: 720 if a is None else int(a[:2]) * 60 + int(a[3:5]) for a in set(ats)}
        codes = {kind: _CODES.get(kind, UNREAD) for kind in set(kinds)}
        code = np.array(list(map(codes.__getitem__, kinds)), np.int8)
        return {
            "kind": code,
            "on": np.array(ons, "datetime64[D]").astype(np.int32),
            "phase": np.where(code == UNREAD, 0, _PHASES[code]).astype(np.int8),
            "at": np.array(list(map(minute.__getitem__, ats)), np.int16),
            "root": np.arange(start, start + count, dtype=np.int32),
            "cause": np.zeros(count, np.int8),
            **{name: np.full(count, _NAN) for name in ("people", "got", "liked")},
            "guests": np.zeros(count),
            "whom": np.full(count, -1, np.int32),
        }

    def _readable(self, kinds: Sequence[str], versions: Sequence[int], start: int) -> Sequence[str]:
        """Return the kinds, "" for what this program does not know, which is set aside and told of."""
        known = {(kind, v) for kind in KINDS for v in range(1, KINDS[kind].v + 1)}
        written = set(versions)
        one_version = len(written) == 1
        found = set(
            product(set(kinds), written) if one_version else zip(kinds, versions, strict=True)
        )
        if known >= found:
            return kinds
        out = list(kinds)
        for i, pair in enumerate(zip(kinds, versions, strict=True)):
            if pair not in known:
                self.unread[start + i] = newer_than_this([(*pair, start + i + 1)])[0]
                out[i] = ""
        return out

    def _set_aside(
        self, kind: str, places: list[int], texts: list[str], events: dict[str, Array], start: int
    ) -> bool:
        """Take a kind's bodies one by one, those that cannot be read set aside; whether any was."""
        whole, bad = [], []
        for i, text in zip(places, texts, strict=True):
            try:
                if kind in _FACTS:
                    _facts(kind, f"[{text}]")
                else:
                    self._decoders[kind].decode(f"[{text}]")
                whole.append((i, text))
            except (msgspec.DecodeError, UnicodeError):
                bad.append(i)
                self.unread[start + i] = (
                    f"event {start + i + 1}, {kind}, has a body that cannot be read"
                )
        events["kind"][bad] = UNREAD
        if bad and whole:
            self._take_kind(
                kind, [start + i for i, _ in whole], [t for _, t in whole], events, start
            )
        return bool(bad)

    def _roots(self, root: Array, replaces: Sequence[str | None], start: int) -> None:
        """Lead each replacement to the first event of its entry."""
        if any(replaces):
            said = [(start + i, id_) for i, id_ in enumerate(replaces) if id_ is not None]
            self._lead(root, said, start)

    def _lead(self, root: Array, said: list[tuple[int, str]], start: int) -> None:
        """Lead events, by place, to the first event of the entry whose id each of them names."""
        places, before = self.written_at(id_ for _, id_ in said), self.tables["events"]["root"]
        for ev, id_ in said:
            place = places.get(id_)
            if place is not None and place < ev:
                root[ev - start] = root[place - start] if place >= start else before[place]

    def _raised(self, kind: str, v: int, text: str, seq: int) -> str:
        if v >= KINDS[kind].reads:
            return text
        body = upcast(kind_of(kind, seq=seq), v, msgspec.json.decode(text), seq=seq)
        return msgspec.json.encode(body, order="sorted").decode()

    # -- one kind at a time -------------------------------------------------------------

    def _take_kind(
        self, kind: str, places: list[int], texts: list[str], events: dict[str, Array], start: int
    ) -> None:
        joined = f"[{','.join(texts)}]"
        if kind in _FACTS:
            facts = _facts(kind, joined)
            self.bodies.update(zip(places, facts, strict=True))
            if kind == "item_described":
                self.items.codes([self.bodies[p]["item"] for p in places])
            elif kind == "target_set":
                take_targets(self, facts)
            return
        bodies = self._decoders[kind].decode(joined)
        if any(origin.by_how for origin in KINDS[kind].supplies.values()):
            events["cause"][np.array(places) - start] = [_CAUSE[b.how] for b in bodies]
        take: Callable[..., None] | None = getattr(self, f"_take_{kind}", None)
        if take is not None:
            take(bodies, places, events, start)
        for name in KINDS[kind].supplies:
            field = tables.FIELDS.index(name)
            self._supplies(places, list(map(attrgetter(name), bodies)), field, bodies)
        for name in KINDS[kind].draws:
            if name != "lids":
                self._draws(places, list(map(attrgetter(name), bodies)), name)
        if hasattr(bodies[0], "work"):
            works = list(map(attrgetter("work"), bodies))
            if any(works):
                self._work(places, works)

    def _take_struck(
        self, bodies: Sequence[Any], places: list[int], events: dict[str, Array], start: int
    ) -> None:
        said = [(ev, body.id) for body, ev in zip(bodies, places, strict=True)]
        self._lead(events["root"], said, start)

    _take_planted, _take_harvested = take_planted, take_harvested
    _take_eaten, _take_put_up = take_eaten, take_put_up
    _take_discarded, _take_counted = take_discarded, take_counted
    _take_bought, _take_received, _take_given_away = take_bought, take_received, take_given_away

    def _take_price_seen(
        self, bodies: Sequence[Any], places: list[int], events: dict[str, Array], start: int
    ) -> None:
        self._add("prices", places, bodies, money=[float(b.price) for b in bodies])

    # -- lines --------------------------------------------------------------------------

    _add, _supplies, _draws, _work = take_lines, take_supplies, take_draws, take_work

    # -- settling -----------------------------------------------------------------------

    def settle(self, known: int) -> tuple[Array, Array]:
        """Return the state of every entry by the moment when `known` events were written down.

        Returns
        -------
        entries : ndarray of int, shape (entries,)
            Place of each entry's first event, rising.
        newest : ndarray of int, shape (entries,)
            Place of the event that holds for it.
        """
        root = self.tables["events"]["root"][:known]
        newest = np.full(known, -1, np.int32)
        newest[root] = np.arange(known, dtype=np.int32)
        entries = np.flatnonzero(newest >= 0)
        return entries, newest[entries]


_FACTS = frozenset(
    name
    for name, kind in KINDS.items()
    if not (kind.supplies or kind.draws or hasattr(Journal, f"_take_{name}"))
)
"""Kinds that state facts: what brings nothing in or out, and has no columns of its own."""
