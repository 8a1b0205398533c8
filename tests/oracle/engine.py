"""`reckon`: the whole road in one plain pass."""

from __future__ import annotations

import datetime as dt

from oracle.answers import jar_cost, shelf
from oracle.entries import Settings, known, settle
from oracle.garden import Garden, Seasons
from oracle.items import Items
from oracle.jars import count_jars
from oracle.matching import match
from oracle.model import Book
from oracle.prices import Prices
from oracle.steps import Steps
from oracle.tracing import Tracing
from oracle.units import day


def reckon(events, as_of=None, known_at=None):
    """Return the book that stored events make.

    Parameters
    ----------
    events : list of dict
        ``seq id kind v on at recorded_at by replaces body``; the body a dict in its stored form.
    as_of : date or str, optional
        What happened by then, that day included; without it, everything.
    known_at : datetime or str, optional
        What was written down by then; without it, everything.
    """
    if as_of is None:
        as_of = dt.date.max
    elif isinstance(as_of, str):
        as_of = day(as_of)
    entries = settle(events, as_of, known_at)
    items = Items(entries, known(events, known_at))
    settings = Settings(entries)
    prices = Prices(entries, items)
    walked = Steps(entries, items)
    lots, draws = match(walked.steps)
    tracing = Tracing(items, prices, settings, entries)
    tracing.price_raw(lots)
    garden = Garden(Seasons(settings.newest("season_starts")), items, prices)
    garden.spread(entries, lots, draws, as_of)
    meals = tracing.trace(lots, draws, walked.made)
    jars = count_jars(entries, items, lots, draws, walked.made)
    book = Book(
        as_of=as_of,
        entries=entries,
        items=items,
        prices=prices,
        lots=lots,
        draws=draws,
        counts=[step for step in walked.steps if type(step).__name__ == "Count"],
        made=walked.made,
        meals=meals,
        inputs=garden.inputs,
        jars=jars,
    )
    book.jar_cost = jar_cost(items, prices, walked.made)
    book.shelf = shelf(items, lots)
    return book
