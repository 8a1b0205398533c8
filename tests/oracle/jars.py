"""Rules 7 and 10: jars that came back, that are out and empty, and good jars."""

from __future__ import annotations

from collections import defaultdict
from fractions import Fraction as F
from math import floor

from oracle.model import Jars

BAD = ("seal failed", "spoiled", "broken")
EMPTIED = ("eaten", "used", "seed", "discarded")


def whole_jars(one, amount):
    """Return floor(jars x amount / whole + 0.001)."""
    return floor(F(one.jars * amount, one.whole) + F(1, 1000)) if one.whole else 0


def count_jars(entries, items, lots, draws, made):
    """Return `Jars` by jar item; write each made entry's good jars."""
    more = defaultdict(int)
    for place, jar, many in _counts(entries, items):
        earlier = [one for one in entries if _order(one) <= place]
        ids = {one.id for one in earlier}
        draws_then = [one for one in draws if one.entry in ids]
        made_then = [one for one in made if one.entry in ids]
        then = _count(earlier, items, lots, draws_then, made_then).get(jar)
        more[jar] = many - (then.got - then.filled + then.back if then else 0)
    found = _count(entries, items, lots, draws, made)
    for jar, pieces in more.items():
        one = found.setdefault(jar, Jars(jar, got=0, filled=0, back=0, gone=0))
        one.got += pieces
    return found


def _order(entry):
    return entry.on, entry.phase, entry.at, entry.seq


def _counts(entries, items):
    """Return (place, jar, pieces) of the last count of each jar."""
    last = {}
    for entry in sorted(entries, key=_order):
        many = defaultdict(int)
        for line in entry.body["lines"] if entry.kind == "counted" else []:
            item = items.name(line["item"])
            pieces = items.pieces(item, line) if items.sort(item) == "jar" else None
            if pieces is not None:
                many[item] += floor(F(pieces, 1000))
        for item, pieces in many.items():
            last[item] = (_order(entry), item, pieces)
    return last.values()


def _count(entries, items, lots, draws, made):
    taken = defaultdict(list)
    for draw in draws:
        for one in draw.allocations:
            taken[one.lot].append((draw, one.amount))
    found = {}
    for jar, pieces in _got(entries, items).items():
        found[jar] = Jars(jar, got=pieces, filled=0, back=0, gone=0)
    for one in made:
        if not one.jars:
            continue
        drawn = [pair for lot in one.lots for pair in taken[lot]]
        bad = sum(amount for draw, amount in drawn if draw.why in BAD)
        one.good_jars = one.jars - whole_jars(one, bad)
        if one.jar is None:
            continue
        jars = found.setdefault(one.jar, Jars(one.jar, got=0, filled=0, back=0, gone=0))
        gone = sum(amount for draw, amount in drawn if _keeps_jar(draw))
        back = sum(amount for draw, amount in drawn if _gives_back(draw))
        jars.filled += one.jars
        jars.back += whole_jars(one, back)
        jars.gone += whole_jars(one, gone)
    return found


def _keeps_jar(draw):
    return draw.cause == "given" or draw.why == "broken"


def _gives_back(draw):
    return (draw.cause in EMPTIED or draw.as_eaten) and draw.why != "broken"


def _got(entries, items):
    """Return the pieces of each jar item that came in, less empty ones given away or discarded."""
    got = defaultdict(int)
    for entry in entries:
        sign = {"bought": 1, "received": 1, "given_away": -1, "discarded": -1}.get(entry.kind)
        for line in entry.body["lines"] if sign else []:
            item = items.name(line["item"])
            if items.sort(item) == "jar":
                pieces = items.pieces(item, line)
                if pieces is not None:
                    got[item] += sign * pieces
    return {item: floor(F(whole, 1000)) for item, whole in got.items()}
