"""A small book to read against, and readings in one short line."""

from __future__ import annotations

import datetime as dt
import json

from ledger.book import Book
from ledger.door import Answers

TODAY = dt.date(2026, 9, 2)  # a Wednesday
FOODS = [
    "plum",
    "tomato",
    "egg",
    "sugar",
    "potato",
    "pasta",
    "lettuce",
    "carrot",
    "apple",
    "pear",
    "cucumber",
    "pepper",
    "rice",
    "bean",
    "Apfelmus",
    "honey",
    "Birne",
    "Marmelade",
]
BATCHES = (
    ("tomato sauce", "pressure", 14, "quart jar", ("R1", "R14")),
    ("strawberry jam", "boiling water", 10, "half-pint jar", ("K10", "K19")),
    ("green bean", "pressure", 14, "pint jar", None),
    ("plum butter", "boiling water", 11, "half-pint jar", None),
    ("canned tomato", "boiling water", 9, "quart jar", ("R40", "R48")),
    ("Apfelmus", "boiling water", 6, "500 ml jar", None),
)


def filled(path) -> Book:
    """Return a book with a dozen items, six batches, a shop and a bed."""
    book = Book.open(path)
    answers = Answers(yes=True)
    more = {"Apfelmus": {"g_per_ml": "1"}}
    for name in FOODS:
        measure = "count" if name == "egg" else "mass"
        body = {"item": name, "sort": "food", "measure": measure, **more.get(name, {})}
        book.write("item_described", body, on="2026-01-01", answers=answers)
    for makes, method, jars, jar, labels in BATCHES:
        made = {"jars": jars, "jar": jar}
        if labels:
            made["labels"] = {"from": labels[0], "to": labels[1]}
        used = [{"item": "tomato", "amount": "10 lb"}]
        body = {"makes": makes, "method": method, "used": used, "made": [made], "minutes": "30"}
        book.write("put_up", body, on="2026-08-01", answers=answers)
    flour = {"item": "bread flour", "amount": "50 lb", "paid": "30"}
    book.write("bought", {"shop": "the mill", "lines": [flour]}, on="2026-05-01", answers=answers)
    picked = {"item": "cucumber", "amount": "3 lb", "bed": "south bed"}
    book.write("harvested", {"lines": [picked]}, on="2026-08-20", answers=answers)
    return book


def short(reading) -> str:
    """Return a reading as the tables write it: entries, ?asked, ~waiting, <left over>."""
    out = " + ".join(_entry(one) for one in reading.entries)
    asked = [f"{'~' if one.waits else '?'}{one.code}" for one in reading.questions]
    left = [f"<{one}>" for one in reading.left_over]
    return " ".join([*([out] if out else []), *sorted(asked), *left]) or "nothing"


def _entry(one) -> str:
    body = dict(one.body)
    day = "" if one.on == TODAY.isoformat() else f"@{one.on}"
    head = f"{one.kind}{day} "
    if one.kind == "put_up":
        made = ", ".join(_made(part) for part in body.pop("made"))
        used = ", ".join(_line(part) for part in body.pop("used"))
        method = body.pop("method", "?")
        head += f"{body.pop('makes')} ({method}) {made}" + (f" <- {used}" if used else "")
    elif "lines" in body or "ate" in body:
        head += ", ".join(_line(part) for part in body.pop("lines" if "lines" in body else "ate"))
    elif one.kind == "price_seen":
        head += f"{body.pop('amount')} {body.pop('item')}"
    else:
        head += body.pop("crop", None) or body.pop("skill")
    return "; ".join([head, *(f"{name}={_value(body[name])}" for name in sorted(body))])


def _line(line) -> str:
    line = dict(line)
    said = f"{line.pop('amount', '-')} {line.pop('item', '-')}"
    return " ".join([said, *(f"{name}={line[name]}" for name in sorted(line))])


def _made(part) -> str:
    many = f"{part['jars']} {part.get('jar', 'jar')}" if "jars" in part else part["amount"]
    return f"{many} {part['kept']}" + (f" !{part['unsealed']}" if "unsealed" in part else "")


def _value(value) -> str:
    if isinstance(value, list):
        return ",".join(_value(one) for one in value)
    if isinstance(value, dict):
        return " ".join(str(one) for one in value.values())
    return str(value)


def bodies(place, kind):
    """Return the bodies of a kind that count, of the book at a place."""
    with Book.open(place) as book:
        catalogue = book.catalogue()
        entries = catalogue.entries(book.log)
        rows = [row for chunk in book.log.read(kinds=(kind,)) for row in chunk]
        return [
            json.loads(row[10])
            for row in rows
            if entries.newest(entries.root(row[1])) == row[1]
            and not entries.is_struck(entries.root(row[1]))
        ]
