"""Why a figure of enough says so: food by food down to its lots, and who was described."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.messages import sentence
from ledger.messages.words import fixed
from ledger.projections.base import Node
from ledger.questions.enough.asked import Asked, asked_of
from ledger.questions.enough.gap import bed_of, shop_of
from ledger.questions.enough.supply import Supply, supply_of
from ledger.questions.shared.arithmetic import difference, product, quotient, total
from ledger.questions.shared.common import event_node
from ledger.questions.shared.opening import check_figure, no_record
from ledger.questions.who_eats.eaters import eaters_of, group_words
from ledger.reference.needs import NUTRIENTS
from ledger.reference.nutrients import AMOUNTS, LABELS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["why"]

_FIGURES = (
    "days",
    "supply",
    "need_per_day",
    "share_of_need",
    "own_share",
    "gap",
    "shop_cost",
    "bed_m2",
    "share_known",
)


def why(state: State, key: str, field: str | None = None) -> Node:
    """Return a figure of enough as a tree.

    Parameters
    ----------
    key : str
        ``pantry/30/iron_mg``, ``eaten/2026-10-01/2026-10-31/iron_mg``, ``next-season/30/iron_mg``.
    field : str, optional
        A column of the answer; default the days, of what was eaten the share of the need.

    Raises
    ------
    NotFound
        When there is no such record, or no such figure of it.
    """
    *path, name = key.split("/")
    asked = _asked(state, path)
    if asked is None or name not in NUTRIENTS:
        raise no_record("enough", key)
    plain = "days" if asked.of != "eaten" and name != "sodium_mg" else "share_of_need"
    figure = field or plain
    check_figure("enough", figure, _FIGURES)
    return _figure(state, asked, NUTRIENTS.index(name), figure)


def _asked(state: State, path: list[str]) -> Asked | None:
    if len(path) == 3 and path[0] == "eaten":
        return asked_of(state, "eaten", None, path[1], path[2])
    if len(path) == 2 and path[0] in ("pantry", "next-season"):
        return asked_of(state, path[0].replace("-", " "), path[1], None, None)
    return None


def _figure(state: State, asked: Asked, n: int, figure: str) -> Node:
    name = NUTRIENTS[n]
    unit, supply = AMOUNTS[name], supply_of(state, asked)
    there = _supply(state, supply, n)
    per_day = _need(state, name)
    horizon = Node(sentence("why-days-asked"), asked.days, "days")
    if name == "sodium_mg" and asked.of == "pantry":
        energy = _supply(state, supply, 0)
        horizon = quotient(
            sentence("why-days-energy-lasts"), "days", energy, _need(state, NUTRIENTS[0])
        )
    wanted = product(sentence("why-need-these-days"), unit, per_day, horizon)
    if figure == "supply":
        return there
    if figure == "need_per_day":
        return per_day
    if figure == "share_known":
        known = sum(p.grams * float(p.known[n]) for p in supply.portions)
        whole = Node(sentence("why-weight-all"), supply.grams, "g of food")
        return quotient(
            sentence("why-part-known"),
            "0 to 1",
            Node(sentence("why-weight-known"), known, "g of food"),
            whole,
        )
    if figure == "days":
        return quotient(sentence("why-days-of", name=fixed(LABELS[name])), "days", there, per_day)
    if figure == "share_of_need":
        return quotient(
            sentence("why-part-need", name=fixed(LABELS[name])), "0 to 1", there, wanted
        )
    if figure == "own_share":
        return quotient(
            sentence("why-part-grown-here"), "0 to 1", _supply(state, supply, n, own=True), there
        )
    gap = difference(sentence("why-gap"), unit, wanted, there)
    if not gap.value or not isinstance(gap.value, float) or gap.value <= 0:
        return Node(sentence("why-gap"), 0.0 if figure == "gap" else None, unit)
    return gap if figure == "gap" else _closed(state, n, gap, figure)


def _closed(state: State, n: int, gap: Node, figure: str) -> Node:
    from ledger.questions.shared.larder import larder_of

    unit, size = AMOUNTS[NUTRIENTS[n]], float(gap.value or 0.0)
    per = larder_of(state).per_whole
    if figure == "shop_cost":
        eaters = eaters_of(state)
        bought = shop_of(state, n, size, eaters.need[NUTRIENTS[n]] / eaters.count)
        if bought is None:
            return Node(sentence("why-from-shop"), None, "money")
        name = state.facts.names[bought.item]
        each = Node(
            sentence("why-one-whole-unit-food-table", name=name), float(per[bought.item, n]), unit
        )
        whole = quotient(sentence("why-so-much", name=name), "whole units", gap, each)
        price = event_node(
            state, bought.ev, sentence("why-price-one-whole-unit", name=name), bought.price, "money"
        )
        return product(sentence("why-name-from-shop", name=name), "money", whole, price)
    grown = bed_of(state, n, size)
    if grown is None:
        return Node(sentence("why-bed"), None, "m2")
    name = state.facts.names[grown.item]
    grams = Node(
        sentence("why-published-yields", name=name, note=grown.note), grown.grams_per_m2, "g a m2"
    )
    weight = state.facts.grams_per_whole(grown.item) or 1.0
    each = Node(
        sentence("why-one-gram-food-table", name=name),
        float(per[grown.item, n]) / weight,
        f"{unit} a g",
    )
    return quotient(
        sentence("why-ground-of", name=name),
        "m2",
        gap,
        product(sentence("why-square-metre"), unit, grams, each),
    )


def _need(state: State, name: str) -> Node:
    eaters = eaters_of(state)
    if name != "sodium_mg":
        return eaters.node(name)
    nodes = []
    for person, _, row in eaters.parts(name):
        if person is not None and row is not None:
            label = sentence("why-level", name=person.name, group=group_words(row.group))
            nodes.append(event_node(state, person.ev, label, row.cdrr or 0.0, "mg of sodium a day"))
    if eaters.unknown:
        left = eaters.sodium_level() - sum(float(node.value or 0.0) for node in nodes)
        nodes.append(Node(sentence("why-people-no-known-age-adults"), left, "mg of sodium a day"))
    return total(sentence("why-level-household"), "mg of sodium a day", *nodes)


def _supply(state: State, supply: Supply, n: int, *, own: bool = False) -> Node:
    """Return what there is of a nutrient, by item and lot."""
    unit = AMOUNTS[NUTRIENTS[n]]
    by_item: dict[int, list[Node]] = {}
    sizes: dict[int, float] = {}
    for p in supply.portions:
        value = float(p.own[n] if own else p.nutrients[n])
        if p.known[n] == 0 and not value:
            continue
        label = sentence("why-grams", n=round(p.grams))
        if p.known[n] < 1:
            known = round(100 * float(p.known[n]))
            label = sentence("why-grams-known-of", n=round(p.grams), n2=known)
        if p.lot < 0:
            node = Node(sentence("why-likely-picked", what=label), value, unit)
        else:
            node = event_node(state, int(state.lots["ev"][p.lot]), label, value, unit)
        by_item.setdefault(p.item, []).append(node)
        sizes[p.item] = sizes.get(p.item, 0.0) + value
    order = sorted(by_item, key=lambda item: (-sizes[item], item))
    nodes = [total(state.facts.names[item], unit, *by_item[item]) for item in order]
    return total(
        sentence("why-grown-here") if own else sentence("why-what-food-holds"), unit, *nodes
    )
