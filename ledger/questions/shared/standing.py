"""How the jars stand beside what is published, as long as they are there.

A lot stands as its batch does by today's tables, and never better than a jar that went into it, through
any depth. A correction of the entry, a whole process run anew in time, discarding, and, for what is only
open, a publication looked up since: nothing else ends it.
"""

from __future__ import annotations

import threading
from collections.abc import Iterable
from dataclasses import replace
from itertools import compress
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.kinds import KINDS
from ledger.messages import Day, sentence
from ledger.published import CANNING, GRAVE, OPEN, Judgement
from ledger.published.equipment import tool_named
from ledger.questions.as_published.records import has_judgement, judgement_of, schedules_of
from ledger.questions.shared.common import listed_lots
from ledger.questions.shared.put_up_as import is_weighed
from ledger.questions.shared.stands import LOOKED_UP, Standing, worst
from ledger.questions.touched.touching import Touching, touching
from ledger.replay import KEPT, tables
from ledger.replay.columns import Array
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = [
    "Standings",
    "on_shelf",
    "risky_items",
    "standing_of",
    "standings",
]

_PUT_UP = list(KINDS).index("put_up")

_AGAIN = 120
"""Minutes within which a wrong process may be run anew: 2 hours (UNL_UNSEALED), the strictest printed."""


class Standings:
    """The standings of a moment, worked out for the lots that are asked for.

    Parameters
    ----------
    state : State
    """

    def __init__(self, state: State) -> None:
        self._state = state
        self._own: dict[int, tuple[Standing, dict[str, Any]] | None] = {}
        self._plain: dict[int, Standing] = {}
        # What is half worked out stands as unmarked: no other thread may read it meanwhile.
        self._turn = threading.RLock()
        self._of_event: dict[int, Standing | None] = {}
        self._found: dict[int, Standing | None] = {}
        self._marked: set[int] = set()
        self._schedules = schedules_of(state)
        self._settled = _looked_up(state)
        self._missed: dict[int, list[tuple[int, int]]] = {}
        self._pool: dict[int, list[Standing | None]] = {}
        draws, (draw, lot, _) = state.draws, state.allocations
        rows = np.flatnonzero((draws["role"] == len(tables.ROLES))[draw])
        rows = rows[np.argsort(draws["pos"][draw[rows]], kind="stable")]
        of = (draws[name][draw[rows]].tolist() for name in ("item", "pos"))
        for item, pos, one in zip(*of, lot[rows].tolist(), strict=True):
            self._missed.setdefault(item, []).append((pos, one))

    def own(self, ev: int) -> Standing | None:
        """Return how a batch stands by itself; None where nothing is compared."""
        with self._turn:
            found = self._judged(ev)
        return found[0] if found else None

    def unsettled(self, ev: int) -> Standing | None:
        """Return how a batch stands by itself, whatever was looked up since."""
        with self._turn:
            self._judged(ev)
            return self._plain.get(ev)

    def made_of(self, ev: int) -> Standing | None:
        """Return the gravest standing of what went into a batch."""
        with self._turn:
            if ev not in self._of_event:
                self.look_behind([ev])
                self._of_event[ev] = self._inherited(ev)
            return self._of_event[ev]

    def went_in(self, ev: int) -> dict[int, Standing]:
        """Return how each lot that went into a batch stands, of those that are compared with anything."""
        state = self._state
        draws = self._draws_of(ev)
        lots = [one for d in draws for one in state.allocations[1][state.allocations_of_draw(d)]]
        return {lot: one for lot, one in self.of(lots).items() if one is not None}

    def look_behind(self, evs: Iterable[int]) -> None:
        """Work out how all that went into some batches stands: one search, whatever their number."""
        wanted, graph = np.unique(np.fromiter(evs, np.int64)), self._state.once(touching)
        lots = [
            lot
            for ev in np.setdiff1d(wanted, graph.evs).tolist()  # what left nothing is no node
            for d in self._draws_of(ev)
            for lot in self._state.allocations[1][self._state.allocations_of_draw(d)].tolist()
        ]
        with self._turn:
            self._look_behind([*graph.nodes_of(wanted).tolist(), *lots])

    def of(self, lots: Iterable[int]) -> dict[int, Standing | None]:
        """Return how lots stand, whatever their depth."""
        wanted = [int(lot) for lot in lots]
        with self._turn:
            open_ones = [lot for lot in wanted if lot not in self._found]
            if open_ones:
                self._look_behind(open_ones)
            return {lot: self._of_lot(lot) for lot in wanted}

    def _look_behind(self, nodes: list[int]) -> None:
        """Work out what all events behind some lots and events inherit, and those events themselves."""
        behind, seen = list(nodes), set(nodes)
        graph = self._state.once(touching)
        while True:  # found lots lead to what counts missed before them
            reached = graph.reached(np.array(behind, np.int64), back=True)
            lots_behind = np.flatnonzero(reached[: graph.lots])
            more = [
                lot
                for one in lots_behind[self._state.lots["suffix"][lots_behind] >= 2].tolist()
                for lot in self._before(one)
                if lot not in seen and not reached[lot]
            ]
            if not more:
                break
            seen.update(more)
            behind += more
        self._hand_down(graph, graph.evs[reached[graph.lots :]])

    def _hand_down(self, graph: Touching, evs: Array) -> None:
        """Work out what some events inherit, the earliest first: few take anything that is marked."""
        journal = self._state.journal  # all bodies are read together
        batches = evs[journal.tables["events"]["kind"][evs] == _PUT_UP].tolist()
        judged = set(compress(batches, journal.of_bodies(batches, has_judgement)))
        heirs = set(graph.led_to(np.flatnonzero(self._state.lots["suffix"] >= 2)))
        heirs.update(node for lot in self._marked for node in graph.after(lot))
        order = np.argsort(self._state.moment.rank[evs])
        for ev, node in zip(evs[order].tolist(), graph.nodes_of(evs)[order].tolist(), strict=True):
            if ev in self._of_event:
                continue
            inherits = self._of_event[ev] = self._inherited(ev) if node in heirs else None
            own = self._judged(ev) if ev in judged else None
            if inherits is not None or (own is not None and own[0].is_marked):
                for lot in graph.after(node):
                    one = self._of_lot(lot)
                    if one is not None and one.is_marked:
                        self._marked.add(lot)
                        heirs.update(graph.after(lot))

    def of_one(self, lot: int) -> Standing | None:
        """Return how a lot stands, whatever its depth."""
        return self.of([lot])[lot]

    def _of_lot(self, lot: int) -> Standing | None:
        if lot not in self._found:
            lots, self._found[lot] = self._state.lots, None
            ev, suffix = int(lots["ev"][lot]), int(lots["suffix"][lot])
            if suffix >= 2:
                self._found[lot] = self._of_found(lot)
            else:
                own = self._applies(ev, lot)
                self._found[lot] = worst((own, self._of_event.get(ev)))
        return self._found[lot]

    def _before(self, lot: int) -> list[int]:
        """Return the lots of an item that counts had found missing before this one was found."""
        pos, item = int(self._state.lots["pos"][lot]), int(self._state.lots["item"][lot])
        # positions of lots leave room between those of draws
        return [one for at, one in self._missed.get(item, ()) if 2 * at < pos]

    def missed(self) -> list[int]:
        """Return every lot of which a count found some missing."""
        return [lot for several in self._missed.values() for _, lot in several]

    def _of_found(self, lot: int) -> Standing | None:
        """Return the gravest standing of the jars of an item that counts missed before one was found."""
        item, many = int(self._state.lots["item"][lot]), len(self._before(lot))
        pool = self._pool.setdefault(item, [None])
        while len(pool) <= many:
            one = self._of_lot(self._missed[item][len(pool) - 1][1])
            pool.append(worst((pool[-1], one if one is not None and one.is_marked else None)))
        return pool[many]

    def _inherited(self, ev: int) -> Standing | None:
        """Return the gravest standing of what went into a batch or a meal."""
        state = self._state
        out = None
        for draw in self._draws_of(ev):
            rows = state.allocations_of_draw(draw)
            for lot in state.allocations[1][rows].tolist():
                one = self._of_lot(lot)
                if one is None or not one.is_marked or self._is_run_anew(ev, lot, one):
                    continue
                if one.is_grave and self._may_be_fresh(ev, lot):
                    fresh = sentence("standing-was-it-fresh")
                    one = replace(one, standing=OPEN[-1], since=fresh)
                out = worst((out, one.for_child()))
        return out

    def _may_be_fresh(self, ev: int, lot: int) -> bool:
        """Return whether a batch may have used fresh food where the book, oldest first, takes old jars.

        Beans by weight are picked rather than opened: who opens a jar counts jars, or names the lot.
        """
        state = self._state
        if not state.lots["jars"][lot] or state.journal.tables["events"]["kind"][ev] != _PUT_UP:
            return False
        item = int(state.lots["item"][lot])
        lines = [one for one in state.body(ev)["used"] if state.facts.find(one["item"]) == item]
        return bool(lines) and all(not one.get("lot") and is_weighed(one) for one in lines)

    def _draws_of(self, ev: int) -> list[int]:
        order, bounds = self._state.once(_draws_by_event)
        return list(order[bounds[ev] : bounds[ev + 1]].tolist())

    def _judged(self, ev: int) -> tuple[Standing, dict[str, Any]] | None:
        if ev not in self._own:
            self._own[ev] = None
            if self._gets_verdict(ev):
                body = self._state.body(ev)
                self._plain[ev] = self._kept(ev, body)
                self._own[ev] = self._settle(self._plain[ev]), body
        return self._own[ev]

    def _gets_verdict(self, ev: int) -> bool:
        known, journal = self._state.lasting(has_judgement), self._state.journal
        if ev not in known:
            is_batch = journal.tables["events"]["kind"][ev] == _PUT_UP
            known[ev] = bool(is_batch and journal.of_bodies([ev], has_judgement)[0])
        return bool(known[ev])

    def _kept(self, ev: int, body: dict[str, Any]) -> Standing:
        """Return how a batch stands by itself, as at any moment before that judged it so."""
        found = judgement_of(self._state, ev, body, self._schedules)
        known = self._state.lasting(Standings)
        if ev not in known or known[ev][0] is not found:
            known[ev] = found, self._first(ev, body, found)
        standing: Standing = known[ev][1]
        return standing

    def _first(self, ev: int, body: dict[str, Any], found: Judgement) -> Standing:
        return Standing(
            found.standing,
            ev,
            str(body["makes"]),
            int(self._state.moment.on[ev]),
            body["method"] == "pressure" or found.danger is not None,
            in_oil=found.danger is not None and found.danger.oil,
            # only what is grave says so, and looking for it is most of what a plain batch costs
            is_ruled_out=found.standing in GRAVE and found.is_ruled_out,
        )

    def _settle(self, found: Standing) -> Standing:
        """Return a standing with what was looked up since."""
        looked = self._settled.get(int(self._state.moment.root[found.ev]))
        if looked is None or not found.is_marked:
            return found
        at, body = looked
        day = Day(day_text(int(self._state.moment.on[at])))
        if found.is_grave:
            return replace(found, since=sentence("standing-graver-since", day=day))
        if at < found.ev:
            return replace(found, since=sentence("standing-corrected-since", day=day))
        since = sentence("standing-looked-up-in", day=day, publication=str(body["publication"]))
        return replace(found, standing=LOOKED_UP, since=since)

    def _applies(self, ev: int, lot: int) -> Standing | None:
        """Return how a lot stands by its own batch.

        What a canning batch kept back for the fridge went through no canner; where an oven or wax
        closed the jars, they have a few days there. What is kept cold, or in no jar, is in no closed
        jar: only what is grave stays with it.
        """
        found = self._judged(ev)
        if found is None:
            return None
        standing, body = found
        kept = KEPT[int(self._state.lots["kept"][lot])]
        is_cold = kept in ("fridge", "freezer")
        in_jars = bool(self._state.lots["jars"][lot])
        if is_cold and body["method"] in (*CANNING, "freeze"):
            said = " ; ".join((*(body.get("equipment") or ()), str(body.get("note") or "")))
            by_tool = in_jars and kept == "fridge" and tool_named(said) is not None
            return replace(standing, standing=OPEN[-1], in_fridge=True) if by_tool else None
        stays = standing.is_grave or standing.in_oil or (in_jars and not is_cold)
        return standing if stays else None

    def _is_run_anew(self, ev: int, lot: int, of: Standing) -> bool:
        """Return whether a batch is the whole process run again, in time and as published."""
        state = self._state
        if not of.is_own or int(state.lots["ev"][lot]) != of.ev:
            return False
        again = self._judged(ev)
        if again is None or again[1]["method"] not in CANNING:
            return False
        if again[0].standing not in ("as published", "beyond it"):
            return False
        if state.facts.find(again[1]["makes"]) != int(state.lots["item"][lot]):
            return False
        began, ended = _minute(state, ev), _minute(state, of.ev)
        return began is not None and ended is not None and 0 <= began - ended <= _AGAIN


def _minute(state: State, ev: int) -> int | None:
    """Return when an event was, in minutes since 1970; None where no time was written down."""
    at = state.journal.row(ev)[5]
    if at is None:
        return None
    return int(state.moment.on[ev]) * 1440 + int(at[:2]) * 60 + int(at[3:5])


def _draws_by_event(state: State) -> tuple[Any, Any]:
    """Return draws in the order of their events, and where those of each event begin and end."""
    order = np.argsort(state.draws["ev"], kind="stable")
    role = state.draws["role"][order]
    food = (role == tables.ROLES.index("used")) | (role == tables.ROLES.index("ate"))
    order = order[food]
    many = np.bincount(state.draws["ev"][order], minlength=len(state.journal))
    return order, np.r_[0, np.cumsum(many)].tolist()


def _looked_up(state: State) -> dict[int, tuple[int, dict[str, Any]]]:
    """Return, by a batch's first event, the newest looking up of it."""
    out: dict[int, tuple[int, dict[str, Any]]] = {}
    for ev, body in state.bodies("checked"):
        place = state.journal.place_of(body["batch"])
        if place is None or place >= state.moment.root.size:
            continue
        root = int(state.moment.root[place])
        if root not in out or out[root][0] < ev:
            out[root] = ev, body
    return out


def standings(state: State) -> Standings:
    """Return the standings of a moment; ask for them with ``state.once``."""
    return Standings(state)


def on_shelf(state: State) -> dict[int, Standing]:
    """Return how the lots that the shelf lists stand; those that nothing is compared with are left out."""
    found = state.once(standings).of(listed_lots(state).tolist())
    return {lot: one for lot, one in found.items() if one is not None}


def standing_of(state: State, lot: int) -> Standing | None:
    """Return how a lot stands; None where nothing is compared with it."""
    return state.once(standings).of_one(lot)


def risky_items(state: State) -> frozenset[int]:
    """Return the items of which a marked or unsealed jar is there, or a marked one was counted away."""
    items, known = state.lots["item"], state.once(standings)
    loose = listed_lots(state)
    loose = loose[state.lots["suffix"][loose] == 1]
    lots = [lot for lot, one in state.once(on_shelf).items() if one.is_marked]
    gone = known.of(known.missed())
    lots += [lot for lot, one in gone.items() if one is not None and one.is_marked]
    return frozenset([*items[lots].tolist(), *items[loose].tolist()])
