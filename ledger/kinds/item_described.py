"""An item described: what sort of thing it is, how it is measured, what it weighs and holds."""

from __future__ import annotations

import re
from typing import Annotated, Any, Literal

from ledger.amounts import canonical
from ledger.errors import InputError
from ledger.kinds import telling
from ledger.kinds.fields import Amount, Decimal, ItemName, Note, Text, about
from ledger.kinds.kind import Form, Kind, Phase
from ledger.kinds.parts import Keeps, Struct
from ledger.kinds.resolving import Body, Resolver, above_zero
from ledger.messages import Choice, Message, Sentence, Typed
from ledger.messages.units import unit as unit_said
from ledger.reference import foods
from ledger.reference.foods import by_id

Sort = Literal["food", "jar", "lid", "equipment", "garden input", "fuel", "supply"]


class ItemDescribed(Struct, kw_only=True):
    """What the household says of an item: for all days, the newest word winning field by field."""

    item: Annotated[ItemName, about("Item", "Its name", "garlic")]
    sort: Annotated[Sort, about("Sort", "What sort of thing it is", "food")]
    measure: Annotated[
        Literal["mass", "volume", "count", "energy"] | None,
        about("Measure", "What it is reckoned in, on all days", "mass"),
    ] = None
    food: Annotated[
        Text | None, about("Food-table row", "Id of its row in the food table", "11215")
    ] = None
    kcal_per_100g: Annotated[
        Decimal | None, about("kcal per 100 g", "Energy of the edible part", "149")
    ] = None
    g_per: Annotated[
        dict[str, Decimal] | None,
        about("Grams per", "Weight in grams of one of a unit", {"clove": "5"}),
    ] = None
    pieces_per: Annotated[
        dict[str, Decimal] | None,
        about("Pieces per", "How many pieces one of a unit is", {"packet": "12"}),
    ] = None
    g_per_ml: Annotated[
        Decimal | None, about("Grams per ml", "Weight of one millilitre in grams", "1.03")
    ] = None
    holds: Annotated[Amount | None, about("Holds", "What one of this jar holds", "1 qt")] = None
    shop_equivalent: Annotated[
        ItemName | None, about("Shop equivalent", "What you would buy instead", "store plum spread")
    ] = None
    keeps: Annotated[
        Keeps | None, about("Keeps", "How long it keeps, by place", {"fridge": "4 days"})
    ] = None
    also: Annotated[
        list[ItemName] | None, about("Also", "Other names of the same thing", ["knoblauch"])
    ] = None
    uses: Annotated[Decimal | None, about("Uses", "How many uses one of it gives", "20")] = None
    years: Annotated[Decimal | None, about("Years", "How many years a durable lasts", "10")] = None
    feeds: Annotated[
        ItemName | None, about("Feeds", "What this feed or bedding goes into", "egg")
    ] = None
    note: Annotated[Note | None, about("Note", "Anything worth remembering", "")] = None


_SAID = {
    "measure": "kept by {}",
    "kcal_per_100g": "{} kcal per 100 g",
    "g_per_ml": "one ml {} g",
    "holds": "holds {}",
    "shop_equivalent": "in the shop {}",
    "uses": "{} uses",
    "years": "{} years",
    "feeds": "goes into {}",
}


_WHERE = {
    "shelf": "on the shelf",
    "fridge": "in the fridge",
    "freezer": "in the freezer",
    "cellar": "in the cellar",
}


def tell(body: dict[str, Any]) -> str:
    """Say it in one line."""
    more = [text.format(body[name]) for name, text in _SAID.items() if name in body]
    if row := by_id(body["food"]) if "food" in body else None:  # its number is nobody's word
        more.append(f"food table: {row.description.replace(', ', ' ')}")
    more += [f"one {unit} {grams} g" for unit, grams in body.get("g_per", {}).items()]
    more += [f"one {unit} {many} pieces" for unit, many in body.get("pieces_per", {}).items()]
    keeps = body.get("keeps", {})
    spans = [f"{keeps[place]} {where}" for place, where in _WHERE.items() if place in keeps]
    more += [f"keeps {', '.join(spans)}"] if spans else []
    if body.get("also"):
        more.append(f"also {', '.join(body['also'])}")
    a = "" if body["sort"] in ("food", "equipment", "fuel") else "a "
    return f"{body['item']} is {a}{body['sort']}" + (f" ({', '.join(more)})" if more else "")


def says(body: dict[str, Any]) -> Message:
    """Return what `tell` says, as a message."""
    more = [_said(name, body[name]) for name in _SAID if name in body]
    if row := by_id(body["food"]) if "food" in body else None:
        more.append(Message.of("told-food-table", row=row.description.replace(", ", " ")))
    for unit, grams in body.get("g_per", {}).items():
        more.append(Message.of("told-grams-each", unit=_unit(unit), x=telling.measure(str(grams))))
    for unit, many in body.get("pieces_per", {}).items():
        more.append(Message.of("told-pieces-each", unit=_unit(unit), x=telling.measure(str(many))))
    keeps = body.get("keeps", {})
    spans = [
        Message.of("told-keeps-at", span=span(keeps[one]), place=Choice(one))
        for one in _WHERE
        if one in keeps
    ]
    more += [Message.of("told-keeps", spans=telling.texts(spans))] if spans else []
    if body.get("also"):
        more.append(Message.of("told-also", names=telling.texts(body["also"])))
    told = {"item": body["item"], "sort": Choice(body["sort"].replace(" ", "-"))}
    if more:
        return Message.of("told-item-with", **told, more=telling.texts(more))
    return Message.of("told-item", **told)


def _unit(code: str) -> Any:
    """Return a unit as it is said in any language."""
    said = unit_said(code)
    return said.says if isinstance(said, Sentence) else said


def _said(name: str, value: Any) -> Message:
    """Return what a field says of the item."""
    if name == "measure":
        return Message.of("told-kept-by", measure=Choice(value))
    if name == "shop_equivalent":
        return Message.of("told-in-the-shop", item=value)
    if name == "feeds":
        return Message.of("told-goes-into", item=value)
    x = telling.measure(str(value))
    if name == "kcal_per_100g":
        return Message.of("told-kcal", x=x)
    if name == "g_per_ml":
        return Message.of("told-grams-of-ml", x=x)
    if name == "holds":
        return Message.of("told-holds", x=x)
    if name == "uses":
        return Message.of("told-uses", x=x)
    return Message.of("told-lasts-years", x=x)


def span(text: str) -> Message | str:
    """Return a span as it is written down, ``4 days``, as it can be said in any language."""
    found = _SPAN_SAID.fullmatch(text.strip())
    if found is None:
        return text
    n, last, unit = figure(found[1]), found[2], Choice(found[3].lower())
    if last is None:
        return Message.of("told-span", n=n, unit=unit)
    return Message.of("told-span-range", n=n, n2=figure(last), unit=unit)


def figure(text: str) -> float:
    """Return a number, whole where it is."""
    value = float(text)
    return int(value) if value.is_integer() else value


_SPAN_SAID = re.compile(
    r"(\d+(?:\.\d+)?)(?: to (\d+(?:\.\d+)?))? (day|week|month|year)s?", re.IGNORECASE
)


_SPAN = re.compile(r"\s*\d+(\.\d+)?\s*(day|week|month|year)s?\s*", re.IGNORECASE)


def resolve(body: Body, lines: Resolver) -> Body:
    """Return a description as it is stored: units by their own names, the food table's row by its id.

    Raises
    ------
    InputError, NeedsAnswer
    """
    name, out = body["item"], dict(body)
    out |= _units_of(body, lines)
    if "food" in body:
        out["food"] = _food(body["food"], name, lines)
    if "holds" in body and lines.amount(body["holds"], "holds").measure != "volume":
        raise InputError(
            "holds",
            Message.of("refusal-not-a-volume", text=body["holds"]),
            Message.of("refusal-like-quart"),
        )
    for place, span in (body.get("keeps") or {}).items():
        if not _SPAN.fullmatch(span):
            raise InputError(
                f"keeps.{place}",
                Message.of("refusal-not-a-span", text=Typed(span)),
            )
    for key in ("shop_equivalent", "feeds"):
        if key in body:
            out[key] = lines.catalogue.name(body[key])
    for key in ("uses", "years"):
        above_zero(body, key, key)
    if "also" in body:
        out["also"] = [" ".join(other.split()) for other in body["also"]]
    out["item"] = lines.catalogue.name(name)
    return out


def _units_of(body: Body, lines: Resolver) -> Body:
    """Return what one of a unit weighs and how many pieces it is, units by their own names."""
    out: Body = {}
    if "g_per" in body:
        out["g_per"] = {
            canonical(unit, lines.measures) or unit: grams for unit, grams in body["g_per"].items()
        }
        if any(float(grams) <= 0 for grams in body["g_per"].values()):
            raise InputError("g_per", Message.of("refusal-weight-zero"))
    if "g_per_ml" in body and float(body["g_per_ml"]) <= 0:
        raise InputError("g_per_ml", Message.of("refusal-zero"), Message.of("refusal-grams-per-ml"))
    if "pieces_per" in body:
        known = lines.facts(body["item"])
        out["pieces_per"] = {
            **((known.pieces_per if known else None) or {}),
            **{canonical(unit) or unit: many for unit, many in body["pieces_per"].items()},
        }
        if any(float(many) <= 0 for many in out["pieces_per"].values()):
            raise InputError("pieces_per", Message.of("refusal-zero"), Message.of("refusal-pieces"))
    return out


def _food(said: str, item: str, lines: Resolver) -> str:
    """Return the id of a food-table row: by id, by its own name, or by an everyday name."""
    if foods.by_id(said) is not None:
        return said
    row = foods.by_description(said)
    if row is not None:
        return row.id
    plain = lines.plain(said)
    if plain is not None:
        return plain.food
    near = "; ".join(p.description for p in (foods.propose(said, 3) or foods.propose(item, 3)))
    raise InputError(
        "food",
        Message.of("refusal-no-food-row", text=Typed(said)),
        Message.of("refusal-may-be", near=near) if near else "",
    )


KIND = Kind(
    name="item_described",
    command="item",
    title="Describe an item",
    summary="say what an item is, weighs, holds or is called",
    body=ItemDescribed,
    phase=Phase.FACTS,
    supplies={},
    draws=(),
    resolve=resolve,
    words=("item",),
    typed=(
        'item garlic --sort food --g-per "clove 5"',
        'item "quart jar" --sort jar --years 10',
        'item "plum butter" --sort food --keeps "shelf 12 months" --shop-equivalent "store plum spread"',
    ),
    tell=tell,
    says=says,
    form=Form(("item", "sort", "shop_equivalent", "keeps", "g_per")),
    example={"item": "garlic", "sort": "food", "measure": "mass", "g_per": {"clove": "5"}},
)
