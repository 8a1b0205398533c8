"""Rule 12 on random books: nothing is lost or made up, in whole units, money, grams and energy."""

from __future__ import annotations

import random
from collections import Counter
from fractions import Fraction as F

from hypothesis import given, settings
from strategies import books, questions, random_book, random_moments

from oracle import COMPONENTS, reckon

ENDS = ("eaten", "given", "discarded", "missing", "seed")


def check_amounts(book):
    supplied, drawn, there = Counter(), Counter(), Counter()
    for lot in book.lots.values():
        assert lot.whole > 0
        assert 0 <= lot.left <= lot.whole
        supplied[lot.item] += lot.whole
        there[lot.item] += lot.left
    for draw in book.draws:
        assert sum(one.amount for one in draw.allocations) == draw.whole
        assert all(book.lots[one.lot].item == draw.item for one in draw.allocations)
        drawn[draw.item] += draw.whole
    assert all(supplied[item] == drawn[item] + there[item] for item in supplied | drawn)


def check_order(book):
    """No draw takes from a lot that comes after it."""
    for draw in book.draws:
        for one in draw.allocations:
            lot = book.lots[one.lot]
            assert lot.step < draw.step or lot.id == f"{draw.entry}:{draw.n}u"


def check_money(book):
    """What was paid, given and worked is in what is there, in the ends, or waits for a harvest."""
    shelf = sum((lot.figures.all_in * lot.left / lot.whole for lot in book.lots.values()), F(0))
    ends = sum((d.figures.all_in for d in book.draws if d.cause in ENDS), F(0))
    kept = F(0)  # leftovers carry their share of a meal on
    for meal in book.meals:
        kept += meal.figures.all_in * meal.left
    raw = sum((lot.figures.all_in for lot in book.lots.values() if lot.is_raw), F(0))
    made = sum((one.figures.all_in for one in book.made if one.lots), F(0))
    drawn_on = sum(
        (d.figures.all_in for d in book.draws if d.cause in ("used", "fuel", "lids")), F(0)
    )
    assert all(one.lots for one in book.made)
    own = made - drawn_on  # labour, wear, metered fuel
    assert own >= 0
    assert raw + own + kept == shelf + ends
    garden = sum((lot.figures.cost["garden"] for lot in book.lots.values() if lot.is_raw), F(0))
    assert garden == sum((one.amount for one in book.inputs if one.season), F(0))


def check_food(book):
    """Grams and energy of raw things are in what is there or was eaten, given, thrown, missed."""
    for name in ("grams", "kcal"):
        raw = there = F(0)
        for lot in book.lots.values():
            total = sum(getattr(lot.figures, name).values(), F(0))
            there += total * lot.left / lot.whole
            raw += total if lot.is_raw else 0
        ends = F(0)
        for draw in book.draws:
            total = sum(getattr(draw.figures, name).values(), F(0))
            if draw.cause in ENDS:
                ends += total
            elif draw.cause in ("fuel", "lids"):
                ends += sum(
                    sum(getattr(book.lots[one.lot].figures, name).values(), F(0))
                    * one.amount
                    / book.lots[one.lot].whole
                    for one in draw.allocations
                )
        left = sum(
            (sum(getattr(m.figures, name).values(), F(0)) * m.left for m in book.meals), F(0)
        )
        assert raw + left == there + ends


def check_batches(book):
    """A made entry costs what its lots cost, sealed and unsealed together."""
    for one in book.made:
        for name in COMPONENTS:
            assert one.figures.cost[name] == sum(
                book.lots[lot].figures.cost[name] for lot in one.lots
            )


CHECKS = (check_amounts, check_order, check_money, check_food, check_batches)


def test_conservation_on_300_random_books():
    for seed in range(300):
        rng = random.Random(seed)
        events = random_book(rng, rng.randint(5, 60))
        book = reckon(events, *random_moments(events, rng))
        for check in CHECKS:
            check(book)


@settings(deadline=None, max_examples=50)
@given(questions(max_size=25))
def test_conservation_for_any_question(question):
    book = reckon(*question)
    for check in CHECKS:
        check(book)


@settings(deadline=None, max_examples=25)
@given(books(max_size=25))
def test_the_past_is_a_prefix_of_the_log(events):
    cut = events[len(events) // 2]["recorded_at"] if events else "2026-01-01T00:00:00Z"
    prefix = [event for event in events if event["recorded_at"] <= cut]
    then, now = reckon(prefix), reckon(events, known_at=cut)
    assert then.jar_cost == now.jar_cost
    assert then.shelf == now.shelf
