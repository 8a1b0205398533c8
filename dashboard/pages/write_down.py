"""Write down: one form a kind, the common six first."""

from __future__ import annotations

import textwrap
from typing import Any

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from dashboard.errands import Errands
from dashboard.forms.form import form_of
from dashboard.forms.happened import happened
from dashboard.forms.specs import COMMON, FORMS
from dashboard.forms.understanding import recent_recipes
from dashboard.pages._page import Page
from dashboard.parts import icon, section
from dashboard.parts.danger import to_discard
from dashboard.parts.kinds import icon_of
from ledger.door.lots import OPENING
from ledger.door.recipes import from_recipe, recipe_of
from ledger.errors import InputError
from ledger.kinds import decode_stored

__all__ = ["PAGE", "draw", "kind_tiles"]

_RECIPES = 8
"""Recipes offered by name; the others are typed."""

_LINE = 80
"""Letters of the last entry that stand on the button."""


def kind_tiles(ask: Ask, kinds: tuple[str, ...]) -> Any:
    """Return tiles that begin an entry of some kinds."""
    return html.Ul(
        [
            html.Li(
                dcc.Link(
                    [icon(icon_of(kind)), ask.words.kind(kind)],
                    href=f"/write?kind={kind}", className="tile",
                )
            )
            for kind in kinds
        ],
        className="tiles",
    )  # fmt: skip


def draw(ask: Ask) -> Any:
    """Return the buttons to every form, or the form that is asked for."""
    kind = ask.query.get("kind")
    if kind not in FORMS:
        others = tuple(one for one in FORMS if one not in COMMON)
        more = html.Details([html.Summary(ask.words("write.others")), kind_tiles(ask, others)])
        return [happened(ask), section(ask.words("write.begin"), kind_tiles(ask, COMMON), more)]
    body, on = _from_recipe(ask) if kind == "put_up" else None, None
    wanted = ask.query.get("replaces") or ask.query.get("like")
    if wanted:
        event = ask.data.book.log.get(ask.data.book.find(wanted))
        if event is not None and event.kind == kind:
            body = decode_stored(event.kind, event.v, event.body)
            on = event.on if ask.query.get("replaces") else None
    if kind == "item_described" and ask.query.get("item"):
        body = body or {"item": ask.query["item"]}
    if kind == "discarded" and ask.query.get("batch"):
        body = body or to_discard(ask, ask.query["batch"])
    body = body or _of_jar(ask, kind) or (_basket(ask) if kind == "bought" else None)
    replaces = ask.query.get("replaces") if body else None
    says = ask.words("write.correcting") if replaces else ask.words.kind(kind, "says")
    is_plain = bool(FORMS[kind].steps) and not replaces  # its steps say it
    return [
        None if is_plain else html.P(says, className="under"),
        None if body else _same_as_last(ask, kind),
        None if body or kind != "put_up" else _recipes(ask),
        form_of(ask, kind, body=body, on=on, replaces=replaces),
    ]


def _titled(ask: Ask) -> str:
    kind = ask.query.get("kind")
    return ask.words.kind(kind) if kind in FORMS else ask.words("nav.write")


def _from_recipe(ask: Ask) -> dict[str, Any] | None:
    """Return the batch that a recipe asked for gives, so many times; None where there is none."""
    said = {key: ask.query[key] for key in ("recipe", "times") if ask.query.get(key)}
    catalogue = ask.data.book.catalogue()
    if recipe_of(catalogue, said.get("recipe")) is None:
        return None
    try:
        return from_recipe(catalogue, said)
    except InputError:  # no number of times: as the recipe stands
        return from_recipe(catalogue, {"recipe": said["recipe"]})


def _of_jar(ask: Ask, kind: str) -> dict[str, Any] | None:
    """Return the entry about one jar that its label leads to; None where none is meant."""
    lot, name = ask.query.get("jar"), OPENING.get(kind)
    row = (
        next((one for one in ask.show("shelf").rows() if one["lot"] == lot), None) if lot else None
    )
    if row is None or name is None or not row["jar"]:
        return None
    line = {"item": row["item"], "amount": f"1 {row['jar']}", "lot": ask.query.get("label") or lot}
    return {name: [line]}


def _basket(ask: Ask) -> dict[str, Any] | None:
    """Return the purchase of what is ticked on the shopping list, at the prices seen last."""
    if not ask.query.get("basket"):
        return None
    ticked = Errands.of(ask.data).ticked()
    rows = [
        row
        for row in ask.show("stocking-up").records()
        if row["item"] in ticked and row["packs_wanted"]
    ]
    if not rows:
        return None
    lines = [
        {
            "item": row["item"],
            "amount": f"{int(row['packs_wanted'])} x {row['pack']['text']}",
            "paid": f"{row['cost']:.2f}",
        }
        for row in rows
    ]
    shops = {row["shop"] for row in rows if row["shop"]}
    return {"lines": lines, **({"shop": shops.pop()} if len(shops) == 1 else {})}


def _recipes(ask: Ask) -> Any:
    """Return links that fill the form from a recipe, those last followed first."""
    links = [
        dcc.Link(name, href=ask.link(recipe=name), className="chip")
        for name in recent_recipes(ask.data)[:_RECIPES]
    ]
    if not links:
        return None
    return html.Div(
        [
            html.P(ask.words("write.from_recipe"), className="quiet"),
            html.Div(links, className="strip"),
        ]
    )


def _same_as_last(ask: Ask, kind: str) -> Any:
    """Return a link that fills the form with the last entry of its kind."""
    last = next(
        (row for row in ask.data.history() if row.kind == kind and row.state == "holds"), None
    )
    if last is None:
        return None
    line = textwrap.shorten(ask.words.line(last.line), _LINE, placeholder=" …")
    return html.P(
        dcc.Link(
            html.Span([ask.words("write.same"), " ", html.Span(line, className="quiet")]),
            href=f"/write?kind={kind}&like={last.id}", className="same",
        )
    )  # fmt: skip


PAGE = Page("write", "/write", draw, keeps_typing=True, titled=_titled)
