"""Clauses that belong to the one before: ``..., used 35 lb tomatoes``, ``..., paid 7.90``."""

from __future__ import annotations

from dataclasses import replace

from ledger.saying.clauses import Clause
from ledger.saying.money import Money
from ledger.saying.pieces import Piece
from ledger.saying.tokens import Token

__all__ = ["join"]

_USED = frozenset({"used", "verbraucht", "genommen"})
_PAID = frozenset(
    {
        "paid",
        "spent",
        "cost",
        "costs",
        "bezahlt",
        "kostete",
        "kosteten",
        "kostet",
        "kosten",
        "zahlte",
        "zahlten",
    }
)
_OPENED = frozenset(
    {"opened", "open", "geöffnet", "öffnete", "öffneten", "aufgemacht", "angebrochen"}
)
_AGAIN = frozenset({"processed", "canned", "eingekocht", "put up"})


def join(clauses: list[Clause], tokens: list[Token]) -> list[Clause]:
    """Return the clauses, those that only say more of the one before joined to it."""
    out: list[Clause] = []
    for one in clauses:
        if (
            one.verb is not None
            and tokens[one.verb.start].low in _PAID
            and one.spoken
            and one.spoken.kind == "bought"
        ):
            one.pieces = [
                _as_money(piece) if k == 0 else piece for k, piece in enumerate(one.pieces)
            ]
        last = out[-1] if out else None
        more = _more_of(last, one, tokens) if last is not None else None
        if last is None or more is None:
            out.append(one)
            continue
        start = one.verb.start if one.verb else 0
        comma = Piece("comma", None, start, start)
        last.pieces += [comma, *(one.before and [*one.before, comma]), *more]
    return out


def _more_of(last: Clause, one: Clause, tokens: list[Token]) -> list[Piece] | None:
    """Return the pieces to give to the clause before, or None where this one stands by itself."""
    if last.spoken is None or one.verb is None or one.more or not _is_one_breath(last, one, tokens):
        return None
    said = tokens[one.verb.start].low
    things = any(piece.tag in ("word", "name") for piece in one.pieces)
    if last.spoken.kind == "put_up" and said in _USED:
        lead = Piece("prep", frozenset({"from"}), one.verb.start, one.verb.end)
        return [lead, *one.pieces]
    if last.spoken.kind == "put_up" and one.verb.value.kind == "put_up" and not things:
        method = one.verb.value.method
        method = None if method == "cook" else method  # "canned 20 lb plums, made 7 quarts"
        more = [Piece("process", method, one.verb.start, one.verb.end)] if method else []
        return [*more, *one.pieces]
    if last.spoken.kind == "put_up" and one.verb.value.kind == "got" and not things:
        return [*one.pieces]
    if last.spoken.kind in ("bought", "got") and said in _PAID and not things:
        return [_as_money(piece) for piece in one.pieces]
    if (
        last.spoken.kind == "discarded"
        and one.verb.value.kind == "discarded"
        and not one.pieces
        and not one.before
    ):
        last.verb = (
            replace(last.verb, value=one.verb.value)
            if last.verb and last.spoken.why == "other"
            else last.verb
        )
        return []
    if (
        last.spoken.kind == "eaten"
        and last.verb is not None
        and tokens[last.verb.start].low in _OPENED
        and one.verb.value.kind == "discarded"
        and not any(piece.tag in ("amount", "name") for piece in one.pieces)
    ):  # nobody ate of what was opened and thrown out
        last.verb = replace(last.verb, value=one.verb.value)
        return [*one.pieces]
    return None


def _as_money(piece: Piece) -> Piece:
    said = piece.value
    if piece.tag == "amount" and said.unit is None and not said.doubt:
        return Piece(
            "money",
            Money(said.many, piece.end - piece.start, "for", is_bare=True),
            piece.start,
            piece.end,
        )
    return piece


def _is_one_breath(last: Clause, one: Clause, tokens: list[Token]) -> bool:
    """Return whether no sentence ends between two clauses."""
    first = max(
        (piece.end for piece in [*last.pieces, *([last.verb] if last.verb else [])]), default=0
    )
    start = one.verb.start if one.verb else first
    return not any(token.low in ("\n", ";", ".", "!") for token in tokens[first:start])
