"""What is done as it was done before: a meal or a batch "as last time", a dish by its recipe."""

from __future__ import annotations

from typing import Any

from ledger.saying.drafting import Body, Context
from ledger.saying.known import bare
from ledger.saying.names import Named
from ledger.saying.plain import typed

__all__ = ["again_batch", "dish_lines"]

_ONCE = ("note", "work", "labels", "unsealed", "went", "liked", "fuel", "left")
"""Fields that tell of one time alone."""


def dish_lines(context: Context) -> Body | None:
    """Return the meal of a dish that is named without amounts: as last time, else by its recipe."""
    names = [one.words for one in context.things.lines if one.words is not None]
    if len(names) != 1 or any(one.amounts or one.lot for one in context.things.lines):
        return None
    named = context.maker.names.find(context.scanner.said(*names[0]))
    name = named.item
    found = (
        _last_meal(context, name) if "again" in context.things.facts else _by_recipe(context, name)
    )
    if found is not None:
        _name_rest(context, named)
    return found


def _last_meal(context: Context, name: str) -> Body | None:
    for _, on, body, _ in reversed(context.known.rows("eaten")):
        if on > context.on.isoformat():
            continue
        said = [bare(one) for one in (body.get("dish"), body.get("note")) if one]
        if bare(name) in said:
            return _kept(body, ("ate",), ("dish", "people", "guests"))
        own = [one for one in body["ate"] if bare(one["item"]) == bare(name)]
        if own:
            return _kept({**body, "ate": own}, ("ate",), ("people", "guests"))
    return None


def _by_recipe(context: Context, name: str) -> Body | None:
    wanted = context.known.catalogue.key(name)
    if context.known.jars(name) or context.known.about("put_up", name, "-"):
        return None  # there is some made: out of that
    for _, _, body, _ in reversed(context.known.rows("recipe_written")):
        if wanted in (
            context.known.catalogue.key(body["recipe"]),
            context.known.catalogue.key(body["makes"]),
        ):
            plain = typed(body)
            lines = [{k: one[k] for k in ("item", "amount")} for one in plain["uses"]]
            return {"ate": lines, "dish": body["recipe"]}
    return None


def again_batch(context: Context) -> list[tuple[str, Body]] | None:
    """Return the last batch of a thing once more; None where there was none."""
    names = [one.words for one in context.things.lines if one.words is not None]
    if len(names) != 1 or any(one.amounts for one in context.things.lines):
        return None
    named = context.maker.names.find(context.scanner.said(*names[0]), makes=True)
    key = context.known.catalogue.key(named.item)
    for _, on, body, _ in reversed(context.known.rows("put_up")):
        if context.known.catalogue.key(body["makes"]) == key and on <= context.on.isoformat():
            plain: dict[str, Any] = typed(body)
            made = [{k: v for k, v in one.items() if k not in _ONCE} for one in plain["made"]]
            used = [{k: v for k, v in one.items() if k != "lot"} for one in plain["used"]]
            rest = {k: v for k, v in plain.items() if k not in (*_ONCE, "made", "used")}
            _name_rest(context, named)
            return [("put_up", {**rest, "made": made, "used": used})]
    return None


def _name_rest(context: Context, named: Named) -> None:
    """Name the words around a name that are none of it."""
    context.maker.left += [one for one in (named.tail, named.lead) if one]


def _kept(body: Body, lists: tuple[str, ...], fields: tuple[str, ...]) -> Body:
    plain = typed(body)
    out: Body = {
        name: [{k: v for k, v in one.items() if k != "lot"} for one in plain[name]]
        for name in lists
    }
    return out | {name: plain[name] for name in fields if plain.get(name) is not None}
