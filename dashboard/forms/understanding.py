"""How a text was understood, at once: the amount in words, the item, and names that it could become."""

from __future__ import annotations

import json
from typing import Any
from urllib.parse import urlencode

from dashboard.ask import Ask
from dashboard.data import Data
from dashboard.elements import dcc, html
from dashboard.parts.danger import mark_of
from ledger.amounts import format_whole, parse_amount
from ledger.door import Answers
from ledger.door.lots import OPENING
from ledger.door.recipes import recipe_of
from ledger.door.texts import PARTS, Texts
from ledger.errors import InputError, LedgerError, NeedsAnswer
from ledger.items import item_key

__all__ = [
    "last_paid",
    "mark_of_item",
    "newest_bodies",
    "recent_items",
    "recent_lines",
    "recent_recipes",
    "understood",
]

_CHIPS = 5


def understood(ask: Ask, kind: str, text: str | None, id: dict[str, Any]) -> list[Any]:
    """Return what a line's text was understood as, and buttons that complete its item.

    Parameters
    ----------
    ask : Ask
    kind : str
        Kind of the form: what was written in such entries before is offered first.
    text : str or None
        What stands in the box so far.
    id : dict
        The box's: its field is ``lines``, ``used``, ``made`` and so on, and a completing button puts the
        text there.
    """
    field = id["field"]
    text = " ".join((text or "").split())
    if field == "recipe":
        return _recipe(ask, text)
    if field not in PARTS and field != "line":
        return []  # a name or a note holds no amount
    if not text:
        return []
    texts = Texts(ask.data.book.catalogue(), Answers())
    try:
        part = PARTS[field if field in PARTS else "lines"](texts, text, field)
        if "item" in part:  # a count alone may find nothing
            parse_amount(
                part["amount"], measures=texts.measures, comma=texts.comma, zero=kind == "counted"
            )
    except (InputError, NeedsAnswer) as error:
        said = error.question if isinstance(error, NeedsAnswer) else error.problem
        head = _head(text)
        near = _beginning(ask.data, kind, text[len(head) :].strip()) if head else []
        return [html.Span(ask.words.said(said), className="said"), _chips(head, near, id)]
    item = part.get("item")
    known = item is not None and texts.catalogue.is_item(item)
    shown = html.Span(
        _words(ask, part, texts), className="said-well" if known or item is None else "said"
    )
    if kind == "bought" and known and item is not None:
        return [shown, _last_price(ask, texts.catalogue.name(item), part["amount"])]
    if item is None or known:
        mark = mark_of_item(ask, kind, item)
        if mark is None:
            return [shown]
        shown.className = "said"  # no green on what stands in danger
        return [shown, mark]
    near = _beginning(ask.data, kind, item)
    return [shown, _chips(part["amount"], near, id)]


def _last_price(ask: Ask, item: str, amount: str) -> Any:
    """Return what just so much cost last; croft.js puts it into an empty price beside."""
    last = last_paid(ask.data, item, amount)
    if last is None:
        return None
    paid, shop = last
    said = ask.words("bill.last", money=ask.words.money(float(paid)), shop=shop or "–")
    return html.Span(said, className="quiet", **{"data-paid": paid})


def mark_of_item(ask: Ask, kind: str, item: str | None) -> Any:
    """Return the gravest mark of an item's jars, where an entry may open one; None where there is none."""
    if item is None or kind not in OPENING:
        return None
    name = ask.data.book.catalogue().name(item)
    rows = [row for row in ask.show("shelf").rows() if row["item"] == name]
    return next((mark for row in rows if (mark := mark_of(ask, row)) is not None), None)


def _recipe(ask: Ask, name: str) -> list[Any]:
    """Return a link that fills the form from a recipe that the book has."""
    if recipe_of(ask.data.book.catalogue(), name) is None:
        return []
    href = f"{ask.path}?{urlencode({'kind': 'put_up', 'recipe': name})}"
    return [dcc.Link(ask.words("forms.from_recipe"), href=href, className="button quiet-button")]


def _words(ask: Ask, part: dict[str, Any], texts: Texts) -> str:
    """Return a part in words: ``31 lb 8 oz (14.3 kg) of plum``."""
    words = ask.words
    if "jars" in part:
        return words("forms.jars", n=part["jars"], jar=part["jar"])
    if "person" in part:
        return words("forms.minutes", person=part["person"], minutes=part["minutes"])
    if "amount" not in part:
        return ""
    try:
        _, amount, _ = texts.amount(f"{part['amount']}", "amount", zero=True)
    except LedgerError:
        return str(part["amount"])
    other = "metric" if words.measures != "metric" else "us"
    said = str(part["amount"])
    if amount.measure in ("mass", "volume"):
        said = f"{said} ({words.said(format_whole(amount.whole, amount.measure, measures=other))})"
    item = part.get("item")
    if item is None:
        return said
    is_new = "" if texts.catalogue.is_item(item) else f" – {words('forms.new_item')}"
    return words("forms.of", amount=said, item=item) + is_new


def _head(text: str) -> str:
    """Return the part of a text that is its amount: up to the last number and a unit after it."""
    from ledger.amounts import split_line

    try:
        _, item = split_line(text, measures="us", comma=False)
    except LedgerError:
        return ""
    return text[: len(text) - len(item)].strip() if item else text


def recent_items(data: Data, kind: str) -> list[str]:
    """Return the book's items: those last written in entries of a kind, then in any, then the rest."""

    def make() -> list[str]:
        catalogue = data.book.catalogue()
        own: dict[str, None] = {}
        other: dict[str, None] = {}
        for one, body in newest_bodies(data):
            for name in _names(body):
                (own if one == kind else other).setdefault(name)
        return list(dict.fromkeys([*own, *other, *sorted(catalogue.names())]))

    return data.kept(("recent", kind), make)


def recent_lines(data: Data, kind: str, name: str, many: int = 8) -> list[str]:
    """Return lines as last written in entries of a kind, one an item: ``10 lb sugar``, ``Ada 90``."""

    def make() -> list[str]:
        found: dict[str, str] = {}
        for one, body in newest_bodies(data):
            if one != kind:
                continue
            for line in _lines(body) if name != "work" else ():
                found.setdefault(line["item"], f"{line['amount']} {line['item']}")
            for part in body.get("work", ()) if name == "work" else ():
                found.setdefault(part["person"], f"{part['person']} {part['minutes']}")
        return list(found.values())[:many]

    return data.kept(("recent lines", kind, name, many), make)


def _lines(body: dict[str, Any]) -> list[dict[str, Any]]:
    several = [line for name in ("lines", "ate") for line in body.get(name, ())]
    return [line for line in several if line.get("item") and line.get("amount")]


def last_paid(data: Data, item: str, amount: str) -> tuple[str, str] | None:
    """Return what was paid last for just so much of an item, and the shop; None where nothing was."""

    def make() -> dict[tuple[str, str], tuple[str, str]]:
        found: dict[tuple[str, str], tuple[str, str]] = {}
        for kind, body in newest_bodies(data):
            if kind == "bought":
                for line in _lines(body):
                    if line.get("paid"):
                        key = (item_key(line["item"]), line["amount"])
                        found.setdefault(key, (line["paid"], body.get("shop") or ""))
        return found

    return data.kept(("last paid",), make).get((item_key(item), amount))


def recent_recipes(data: Data) -> list[str]:
    """Return the book's recipes by name, those last followed first."""

    def make() -> list[str]:
        names = [str(one["recipe"]) for one in data.book.catalogue().recipes.values()]
        followed = [body.get("recipe") for kind, body in newest_bodies(data) if kind == "put_up"]
        return [name for name in dict.fromkeys([*followed, *names]) if name in names]

    return data.kept(("recipes",), make)


def newest_bodies(data: Data, many: int = 1000) -> list[tuple[str, dict[str, Any]]]:
    """Return kinds and bodies of the newest events, newest first."""
    return data.newest(many)


def _names(body: dict[str, Any]) -> list[str]:
    found = [str(body[key]) for key in ("makes", "crop", "item") if body.get(key)]
    for name in ("lines", "used", "ate"):
        found += [str(line["item"]) for line in body.get(name, ()) if isinstance(line, dict)]
    return found


def _beginning(data: Data, kind: str, begun: str) -> list[str]:
    """Return items whose name, or a word of it, begins as typed; last used first."""
    key = item_key(begun)
    if not key:
        return recent_items(data, kind)[:_CHIPS]
    return [
        name
        for name in recent_items(data, kind)
        if item_key(name).startswith(key)
        or any(word.startswith(key) for word in item_key(name).split())
    ]


def _chips(head: str, names: list[str], id: dict[str, Any]) -> Any:
    shown = names[:_CHIPS] if head else []
    if not shown:
        return None
    box = json.dumps(id, separators=(",", ":"))  # as the browser spells it
    return html.Span(
        [
            html.Button(
                name, type="button", className="chip", disable_n_clicks=True,
                **{"data-completes": box, "data-text": f"{head} {name}".strip()},
            )
            for name in shown
        ],
        className="chips",
    )  # fmt: skip
