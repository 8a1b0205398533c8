"""Random books of gardens: plantings and pickings that name beds, varieties and sizes, or do not."""

from __future__ import annotations

import random

from strategies.books import random_book

__all__ = ["garden_book"]


def garden_book(seed, size=70):
    """A random book whose plantings and pickings name beds, varieties and sizes, or do not."""
    rng = random.Random(seed)
    events = random_book(rng, size)
    for event in events:
        body = event["body"]
        lines = body["lines"] if event["kind"] == "harvested" else []
        for part in lines + ([body] if event["kind"] == "planted" else []):
            for name, values in (("variety", ("Opal", "Red Egg")), ("bed", ("south", "long bed"))):
                if rng.random() < 0.5:
                    part[name] = rng.choice(values)
            if rng.random() < 0.5:
                part["plants"] = rng.randint(0, 30)
        if event["kind"] == "planted":
            body |= {"row": "20 ft"} if rng.random() < 0.5 else {}
            body |= {"area": "4 m2"} if rng.random() < 0.5 else {}
    return events
