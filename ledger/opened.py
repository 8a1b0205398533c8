"""Marked jars: asked about before a meal, a gift or a batch opens one, told by an import; and settled.

What is grave is taken only on purpose (``--knowingly``): no answer given in advance to every question,
as ``--yes`` is, may open such a jar.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.amounts import format_whole
from ledger.door import Answers, Entry
from ledger.door.lots import OPENING
from ledger.errors import DANGER, InputError, NeedsAnswer
from ledger.items import item_key
from ledger.kinds import KINDS
from ledger.messages import (
    Choice,
    Code,
    Day,
    Message,
    Names,
    Sentence,
    fixed,
    joined,
    measured,
    sentence,
)
from ledger.messages.units import amount as amount_said
from ledger.published import OPEN
from ledger.questions.shared.batch_marks import marks_by_entry
from ledger.questions.shared.held import held_in
from ledger.questions.shared.jars import so_many
from ledger.questions.shared.put_up_as import amount_typed, put_up_as
from ledger.questions.shared.standing import risky_items, standings
from ledger.questions.shared.stands import Standing
from ledger.questions.shared.use_by import use_by_of
from ledger.replay import tables
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = [
    "check_settling",
    "jars_meant",
    "jars_or_measure",
    "mark_said",
    "may_open",
    "opened_by_import",
    "questions",
    "says_jars",
    "settles",
]

_MOST = 20_000
"""Lots that an import looks at: each batch behind them is set beside the tables."""
_KIND = {name: code for code, name in enumerate(KINDS)}
_FED = tables.CAUSES.index("fed to animals")


def may_open(state: State, entry: Entry) -> bool:
    """Return whether an entry names something of which a marked jar may be there."""
    name = OPENING.get(entry.kind)
    if name is None or not isinstance(entry.body, dict):
        return False
    if entry.kind == "discarded" and entry.body.get("why") != "fed to animals":
        return False
    lines = entry.body.get(name) or ([entry.body] if "item" in entry.body else [])
    items = {
        state.facts.find(str(one["item"]))
        for one in lines
        if isinstance(one, dict) and "item" in one
    }
    return bool(items & state.once(risky_items))


def mark_said(state: State, ev: int) -> str | None:
    """Return what the mark says that stands on what is left of a batch; None where none does."""
    return state.once(marks_by_entry).get(state.entry_id(ev))


def says_jars(entry: Entry) -> bool:
    """Return whether an entry takes something by the jar."""
    return any(_is_jar(line) for line in _lines(entry))


def jars_meant(state: State, entry: Entry) -> Any:
    """Return an entry's body with the jars named that it takes by the jar.

    "A pint jar of green beans" is of those that were put up: taken from what was picked, nobody would be told
    how that jar stands, nor later who had of it.

    Raises
    ------
    InputError
        Naming the line's item: where no jar of it is there, but of something made of it, or where no batch
        alone has so many.
    """
    body = entry.body
    name = OPENING[entry.kind]
    lines = [_by_jar(state, line) if _is_jar(line) else line for line in _lines(entry)]
    return {**body, name: lines} if name in body else {**body, **lines[0]}


def jars_or_measure(book: Callable[[], State], entry: Entry, answers: Answers) -> Any:
    """Return an entry's body with jars in place of a measure by which jars were meant.

    A quart of green beans is 13 oz of what was picked, or a jar of it: where jars of that size stand
    under the fresh food's name, it is asked which.

    Parameters
    ----------
    book : callable
        Gives the book as it is on the entry's day; called only where an amount may mean jars.

    Raises
    ------
    NeedsAnswer
        Naming the line's amount.
    """
    body, name = entry.body, OPENING[entry.kind]
    lines = []
    for n, line in enumerate(_lines(entry)):
        said = None if line.get("lot") or _is_jar(line) else amount_typed(line)
        if said is not None and said.maybe_jar and _stands(book(), line, said.maybe_jar):
            jars = so_many(said.times / 1000, said.maybe_jar)
            question = sentence(
                "doubt-quart-or-jar",
                amount=measured(str(line["amount"])),
                name=str(line["item"]),
                jars=amount_said(jars),
            )
            field = f"{name}[{n}].amount" if name in body else "amount"
            doubt = NeedsAnswer("quart-or-jar", field, question, amount_said(jars))
            if answers.choose(doubt):
                lines.append({**line, "amount": jars})
                continue
        lines.append(line)
    return {**body, name: lines} if name in body else {**body, **lines[0]}


def _stands(state: State, line: dict[str, Any], jar: str) -> bool:
    """Return whether jars of a size stand under the name of a fresh food."""
    own = state.facts.find(str(line.get("item", "")))
    if own is None:
        return False
    mine = np.isin(state.lots["item"], state.facts.strands.several(own)) & (state.left > 0)
    held = state.once(held_in)
    return any(
        held.name(lot) == jar and put_up_as(state, lot) is not None
        for lot in np.flatnonzero(mine).tolist()
    )


def _is_jar(line: dict[str, Any]) -> bool:
    return not line.get("lot") and ("jar" in str(line.get("amount", "")) or "jars" in line)


def _by_jar(state: State, line: dict[str, Any]) -> dict[str, Any]:
    said, lots = str(line.get("item", "")), state.lots
    own = state.facts.find(said)
    if own is None:
        return line
    there = np.flatnonzero(state.left > 0)
    mine = there[np.isin(lots["item"][there], state.facts.strands.several(own))]
    in_jars, held = mine[lots["jars"][mine] > 0], state.once(held_in).jars
    if not in_jars.size and (held[mine] > 0).any():
        return line  # jars that were only counted, bought or given bear no name that a line could take from
    if not in_jars.size:
        _refuse_other_jars(state, line, own, there[lots["jars"][there] > 0])
        return line
    if held[mine[0]] > 0:
        return line  # the oldest stands in jars: first in, first out takes it by itself
    wanted = _many(line)
    whole = lots["jars"][in_jars] * state.left[in_jars] / lots["whole"][in_jars]
    enough = in_jars[whole >= wanted - 1e-9]
    if not enough.size:
        raise InputError(
            "item",
            Message.of("refusal-batch-jars-left", name=said, n=wanted, most=whole[0]),
        )
    return {**line, "lot": state.lot_id(int(enough[0]))}


def _many(line: dict[str, Any]) -> float:
    if "jars" in line:
        return float(line["jars"])
    number = re.match(r"\s*(\d+(?:\.\d+)?)", str(line.get("amount", "")))
    return float(number[1]) if number else 1.0


def _refuse_other_jars(state: State, line: dict[str, Any], own: int, in_jars: Any) -> None:
    words = _stems(state.facts.names[own])
    names = {state.facts.names[int(one)] for one in state.lots["item"][in_jars].tolist()}
    meant = sorted(one for one in names if words < _stems(one))
    if meant:
        raise InputError(
            "item",
            Message.of("refusal-no-jar-but", item=line["item"], names=Names(tuple(meant))),
            Message.of(
                "refusal-name-it-so-or-amount", amount=line.get("amount", "1 jar"), item=meant[0]
            ),
        )


def _lines(entry: Entry) -> list[dict[str, Any]]:
    body = entry.body if isinstance(entry.body, dict) else {}
    lines = body.get(OPENING.get(entry.kind, ""), None) or [body]
    return [one for one in lines if isinstance(one, dict)] if isinstance(lines, list) else []


def _stems(name: str) -> set[str]:
    return {word.removesuffix("s") for word in item_key(name).split()}


def questions(then: State, ev: int, kind: str) -> Iterator[NeedsAnswer]:
    """Yield what is asked about the marked jars that an event opens, the gravest first.

    Parameters
    ----------
    then : State
        The book with the event.
    ev : int
        The event's place.
    """
    found = _opened(then, np.flatnonzero(then.draws["ev"] == ev))
    several: dict[tuple[int, str], tuple[Standing, int]] = {}
    for lot, amount, standing in found:
        key = int(then.lots["item"][lot]), standing.text
        several[key] = standing, several.get(key, (standing, 0))[1] + amount
    for (item, text), (standing, amount) in sorted(
        several.items(), key=lambda one: (one[1][0].rank, one[0])
    ):
        said = sentence(
            "standing-from-jar",
            amount=measured(_said(then, item, amount)),
            name=then.facts.names[item],
            text=text,
        )
        code = DANGER if standing.is_grave else "open-standing"
        yield _asked(code, OPENING[kind], then.entry_id(standing.ev), said, *_danger_of(standing))
    yield from _past(then, ev, kind)


def _past(then: State, ev: int, kind: str) -> Iterator[NeedsAnswer]:
    """Yield what is asked about jars that did not seal and are past their published time in the fridge."""
    day = int(then.moment.on[ev])
    for draw in np.flatnonzero(then.draws["ev"] == ev).tolist():
        for row in then.allocations_of_draw(draw).tolist():
            lot, amount = int(then.allocations[1][row]), int(then.allocations[2][row])
            by = use_by_of(then, lot)[0] if then.lots["suffix"][lot] == 1 else None
            if by is None or by >= day:
                continue
            item = int(then.lots["item"][lot])
            said = sentence(
                "standing-from-unsealed",
                amount=measured(_said(then, item, amount)),
                name=then.facts.names[item],
                day=Day(day_text(by)),
            )
            signs = sentence("standing-signs")
            yield _asked(DANGER, OPENING[kind], then.lot_id(lot), said, signs)


def _danger_of(standing: Standing) -> list[str]:
    """Return what is said of the danger: the signs of it, and of what is open whether it is botulism."""
    if standing.is_grave:
        return [sentence("standing-signs")]
    if standing.in_oil or standing.is_low_acid:
        how = Choice("oil" if standing.in_oil else "low-acid")
        return [sentence("standing-botulism", how=how)]
    return []


def _asked(code: str, field: str, about: str, said: str, *danger: str) -> NeedsAnswer:
    texts = [said, *danger, sentence("standing-taken-ask")]
    return NeedsAnswer(code, field, joined(" ", texts), sentence("standing-taken"), about)


def _opened(state: State, draws: np.ndarray[Any, Any]) -> list[tuple[int, int, Standing]]:
    """Return (lot, amount, standing) of the marked lots that draws take from."""
    role = state.draws["role"][draws]
    wanted = [tables.ROLES.index(name) for name in ("used", "ate", "lines")]
    draws = draws[np.isin(role, wanted)]
    rows = (
        np.concatenate([state.allocations_of_draw(int(d)) for d in draws])
        if draws.size
        else np.zeros(0, np.int64)
    )
    lots, amounts = state.allocations[1][rows], state.allocations[2][rows]
    found = state.once(standings).of(np.unique(lots).tolist())
    out = []
    for lot, amount in zip(lots.tolist(), amounts.tolist(), strict=True):
        one = found[lot]
        if one is not None and one.is_marked:
            out.append((lot, amount, one))
    return out


def _said(state: State, item: int, whole: int) -> str:
    measures = state.settings.newest("measures", "us") or "us"
    return format_whole(whole, state.facts.measure[item], measures=measures)


def opened_by_import(state: State, after: int) -> Iterator[str]:
    """Say which events written down after one (its number) took from marked jars."""
    events, draws = state.journal.tables["events"], state.draws
    kind, cause = events["kind"][draws["ev"]], events["cause"][draws["ev"]]
    takes = np.isin(kind, [_KIND[name] for name in ("eaten", "given_away", "put_up")])
    takes |= (kind == _KIND["discarded"]) & (cause == _FED)
    rows = np.flatnonzero(takes & (draws["ev"] >= after))
    draw, taken, _ = state.allocations  # all at once: each asking walks the whole graph
    state.once(standings).of(np.unique(taken[np.isin(draw, rows[-_MOST:])]).tolist())
    for row in rows[-_MOST:].tolist():
        for lot, amount, standing in _opened(state, np.array([row])):
            item = int(state.lots["item"][lot])
            yield sentence(
                "standing-event-took",
                n=int(draws["ev"][row]) + 1,
                amount=measured(_said(state, item, amount)),
                name=state.facts.names[item],
                text=standing.text,
            )
    if rows.size > _MOST:
        yield f"{rows.size - _MOST} earlier lines were not looked at: `croftbook show touched` tells"


def check_settling(state: State, entry: Entry) -> None:
    """Refuse to settle a batch that does not stand open.

    Raises
    ------
    InputError
        Naming `batch`.
    """
    batch = entry.body.get("batch")
    place = state.journal.place_of(batch) if isinstance(batch, str) else None
    if place is None:
        return  # the door says so
    root = int(state.moment.root[place])
    ev = next((int(e) for e in state.events("put_up") if state.moment.root[e] == root), None)
    if ev is None:
        return
    problem = _not_open(state, ev)
    if problem is not None:
        raise InputError("batch", problem)


def _not_open(state: State, ev: int) -> Sentence | None:
    """Return what is wrong with settling a batch; None where it stands open."""
    known = state.once(standings)
    own, made_of = known.unsettled(ev), known.made_of(ev)
    grave = next((one for one in (own, made_of) if one is not None and one.is_grave), None)
    if grave is not None:
        return sentence("refusal-settle-graver", how=grave.text)
    if own is None:
        return sentence("refusal-settle-nothing")
    if own.standing not in OPEN:
        if made_of is not None and made_of.is_marked:
            batch = state.entry_id(made_of.ev)[:8]
            return sentence("refusal-settle-is", how=made_of.text, batch=Code(batch))
        return sentence("refusal-settle-stands", how=fixed(own.standing))
    return None


def settles(state: State, after: int) -> Iterator[str]:
    """Say which batches looked up after an event (its number) that settles nothing."""
    by_root = {int(state.moment.root[ev]): int(ev) for ev in state.events("put_up").tolist()}
    for ev, body in state.bodies("checked"):
        place = state.journal.place_of(body["batch"])
        batch = None if place is None else by_root.get(int(state.moment.root[place]))
        if ev >= after and batch is not None:
            problem = _not_open(state, batch)
            if problem is not None:
                yield f"event {ev + 1}: batch {body['batch'][:8]} is not settled by it: {problem}"
