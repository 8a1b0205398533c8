"""An item described: what sort of thing it is, how it is measured, what it weighs and holds."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from ledger.kinds.fields import Amount, Decimal, ItemName, Note, Text, about
from ledger.kinds.kind import Kind, Phase
from ledger.kinds.parts import Keeps, Struct
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


KIND = Kind(
    name="item_described",
    command="item",
    title="Describe an item",
    summary="say what an item is, weighs, holds or is called",
    body=ItemDescribed,
    phase=Phase.FACTS,
    tell=tell,
    example={"item": "garlic", "sort": "food", "measure": "mass", "g_per": {"clove": "5"}},
)
