"""Rule 9: what a batch costs beside what it draws: labour, fuel by the meter, wear."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from fractions import Fraction as F

from oracle.model import Figures
from oracle.units import first_number, price_per_joule

CANNING = ("boiling water", "pressure")


@dataclass
class OwnCosts:
    """What the pot bears, what is shared over jars by number, and jar wear by made entry."""

    is_canning: bool
    pot: Figures = field(default_factory=Figures)
    by_jars: Figures = field(default_factory=Figures)
    wear: dict[int, Figures] = field(default_factory=lambda: defaultdict(Figures))
    hours: F = F(0)


def own_costs(tracing, entry, made, spent):
    """Return the own costs of a batch; `spent` keeps what each equipment has been charged."""
    own = OwnCosts(is_canning=entry.body["method"] in CANNING)
    _labour(own, entry, tracing.settings)
    heat = own.by_jars if own.is_canning else own.pot
    for line in entry.body.get("fuel") or []:
        if "metered" in line:
            _metered(heat, line, entry, tracing.settings)
    loads = entry.body.get("loads", 1)
    for text in entry.body.get("equipment") or []:
        _equipment(heat, tracing, entry, tracing.items.name(text), loads, spent)
    for one in made:
        if one.jars and one.jar:
            each = _wear(tracing, one.jar, entry, _filled)
            if each is None:
                own.wear[one.n].unpriced.add(one.jar)
            else:
                own.wear[one.n].cost["jar_wear"] += each * one.jars
    return own


def _labour(own, entry, settings):
    minutes = sum((F(one["minutes"]) for one in entry.body.get("work") or []), F(0))
    own.hours = minutes / 60
    rate = settings.on("labour_rate", entry.on)
    if rate is not None:
        own.pot.cost["labour"] += own.hours * first_number(rate)


def _metered(heat, line, entry, settings):
    price = settings.on(f"price_of_{line['metered']}", entry.on)
    if price is None:
        heat.unpriced.add(line["metered"])
    else:
        heat.cost["fuel"] += price_per_joule(price) * line["whole"]


def _equipment(heat, tracing, entry, item, loads, spent):
    each = _wear(tracing, item, entry, _loads)
    if each is None:
        heat.unpriced.add(item)
        return
    paid, _ = tracing.prices.bought(item, entry.on)
    charge = min(each * loads, max(paid - spent[item], F(0)))
    spent[item] += charge
    heat.cost["equipment"] += charge


def _wear(tracing, item, entry, used_in_year):
    """Return the wear of one use of a durable on the day of an entry; None if never bought."""
    paid, pieces = tracing.prices.bought(item, entry.on)
    if not pieces:
        return None
    price = paid / pieces
    uses, years = tracing.items.durable(item, entry.on, tracing.entries)
    if uses:
        return price / uses
    used = sum(
        used_in_year(tracing.items, item, one.body)
        for one in tracing.entries
        if one.kind == "put_up" and one.on.year == entry.on.year
    )
    return price / ((years or 10) * max(F(1), used / pieces))


def _filled(items, jar, body):
    return sum(
        made.get("jars") or 0
        for made in body["made"]
        if made.get("jar") and items.name(made["jar"]) == jar
    )


def _loads(items, item, body):
    named = sum(1 for text in body.get("equipment") or [] if items.name(text) == item)
    return named * body.get("loads", 1)
