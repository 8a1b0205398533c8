"""Random books of households that are described: who eats, what the food table has, freezer, water, beds."""

from __future__ import annotations

import random
import uuid

from strategies.gardens import garden_book

__all__ = ["winter_book", "with_more"]

_FOODS = {
    "plum": "09279", "tomato": "11529", "bean": "11052", "garlic": "11215", "egg": "01123",
    "sugar": "19335", "milk": "01077", "bread": "18075", "shop sauce": "11549",
}  # fmt: skip
_PEOPLE = (("Ada", "female", 39), ("Bo", "male", 44), ("Cleo", "female", 9), ("Dov", "male", 0))


def winter_book(seed, size=80):
    """Return a random book that also says who eats and which row of the food table some items are."""
    rng = random.Random(seed)
    events = garden_book(seed, size)
    for event in events:
        body = event["body"]
        if event["kind"] == "item_described" and body["item"] in _FOODS and rng.random() < 0.8:
            body["food"] = _FOODS[body["item"]]
    first = min((event["on"] for event in events), default="2024-01-01")
    said = [
        ("person_described", {"person": name, "sex": sex, "age": age})
        for name, sex, age in _PEOPLE
        if rng.random() < 0.6
    ]
    said.append(("setting_changed", {"name": "people", "value": str(rng.randint(1, 5))}))
    if rng.random() < 0.7:
        said.append(("setting_changed", {"name": "freezer_room", "value": "10 cu ft"}))
    if rng.random() < 0.5:
        water = {"item": "water", "sort": "food", "measure": "volume"}
        line = {"n": 1, "item": "water", "amount": "40 l", "whole": 40_000_000, "measure": "volume",
                "basis": "exact", "paid": "3"}  # fmt: skip
        said += [("item_described", water), ("bought", {"lines": [line]})]
    return with_more(events, seed, [(kind, body, first) for kind, body in said])


def with_more(events, seed, said):
    """Return a book with more written down behind it, each as its kind, body and day."""
    recorded = events[-1]["recorded_at"] if events else "2024-01-01T08:00:00Z"
    same = {"v": 1, "at": None, "recorded_at": recorded, "by": None, "replaces": None}
    ids = (str(uuid.uuid5(uuid.NAMESPACE_OID, f"{seed} {at}")) for at in range(len(said)))
    more = [
        {**same, "seq": seq, "id": id_, "kind": kind, "on": on, "body": body}
        for seq, (id_, (kind, body, on)) in enumerate(zip(ids, said, strict=True), len(events) + 1)
    ]
    return [*events, *more]
