"""The strategies are worth what they reach."""

from __future__ import annotations

from collections import Counter

import msgspec
from oracle import COMPONENTS, reckon

from ledger.kinds import KINDS
from strategies import random_book, smallest

LOTS = ("grown", "given", "foraged", "made", "left", "unrecorded", "found", "unsealed")
DRAWS = ("seed", "used", "fuel", "lids", "missing", "named", "named in vain", "named and more")
MESS = (
    "replaced",
    "4 deep",
    "at least",
    "priced whole",
    "contradicted",
    "carried forward",
    "jars never written down",
    "saved",
)


def depths(book):
    """Return how many batches deep each batch is."""
    by_lot = {lot: one.entry for one in book.made for lot in one.lots}
    found = {}
    for batch in dict.fromkeys(one.entry for one in book.made):
        used = [draw for draw in book.draws if draw.entry == batch and draw.cause == "used"]
        below = [found.get(by_lot.get(one.lot), 0) for draw in used for one in draw.allocations]
        found[batch] = 1 + max(below, default=0)
    return found


def reached(events):
    """Return how often a book holds each thing that random books are to hold."""
    book, seen = reckon(events), Counter(event["kind"] for event in events)
    seen["replaced"] = sum(1 for event in events if event["replaces"])
    for lot in book.lots.values():
        seen.update([lot.origin, *(["unsealed"] if lot.id.endswith("f") else [])])
    for draw in book.draws:
        named = any(one.named for one in draw.allocations)
        seen[draw.cause] += 1
        seen["named"] += named
        seen["named in vain"] += draw.lot is not None and not named
        seen["named and more"] += named and len(draw.allocations) > 1
    for one in book.made:
        seen.update(name for name in COMPONENTS if one.figures.cost[name])
        seen["at least" if one.figures.at_least else "priced whole"] += 1
    seen.update(f"{min(depth, 4)} deep" for depth in depths(book).values())
    seen["contradicted"] += sum(one.contradicted for one in book.counts)
    seen["carried forward"] += len(book.carried_forward)
    seen["jars never written down"] += sum(one.empty < 0 for one in book.jars.values())
    seen["saved"] += sum(one["saved"] is not None for one in book.jar_cost)
    return seen


def test_random_books_hold_every_kind_of_mess():
    seen = Counter()
    for seed in range(150):
        seen.update(reached(random_book(seed, 60)))
    wanted = (*KINDS, *LOTS, *DRAWS, *MESS, *COMPONENTS)
    assert {name: seen[name] for name in wanted if seen[name] < 5} == {}


def test_the_same_seed_gives_the_same_book():
    assert random_book(7, 50) == random_book(7, 50)
    assert random_book(7, 50) != random_book(8, 50)


def test_a_failing_book_is_made_as_small_as_can_be():
    def fails(events):
        """Something was eaten from an unsealed jar."""
        draws = [d for d in reckon(events).draws if d.cause == "eaten"]
        return any(one.lot.endswith("f") for draw in draws for one in draw.allocations)

    book = next(
        book
        for book in (random_book(seed, 60, mixed=False) for seed in range(3, 200))
        if fails(book)
    )
    small = smallest(book, fails)
    assert fails(small)
    assert [e["seq"] for e in small] == list(range(1, len(small) + 1))
    assert [e["kind"] for e in small if e["kind"] != "item_described"] == ["put_up", "eaten"]


def test_random_bodies_are_of_the_vocabulary():
    """The stored form of each kind takes every random body, unknown fields refused."""
    for seed in range(40):
        for event in random_book(seed, 60):
            kind = KINDS[event["kind"]].body
            msgspec.convert(event["body"], kind, dec_hook=lambda as_type, text: as_type(text))
