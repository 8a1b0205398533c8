"""Jar cost: what one jar of ours costs, against the shop's of as much; batch by batch, and of everything."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from typing import Any

from dashboard.ask import Ask
from dashboard.drawings.batches import Season, batches, sparkline
from dashboard.drawings.home_and_shop import home_and_shop
from dashboard.elements import dcc, html
from dashboard.pages._jar_marks import mark_link, mark_sign, marked_cells, saved_unmarked
from dashboard.pages._page import Page
from dashboard.parts import (
    answer_table,
    answered,
    figure,
    notes_of,
    nothing_yet,
    plain_table,
    section,
    sentence,
)
from dashboard.parts.drawings import drawing, small
from dashboard.parts.folds import all_link
from dashboard.parts.keeping import named, spoken
from dashboard.parts.strips import strip, switch
from ledger.projections import Answer
from ledger.replay import COMPONENTS

__all__ = ["PAGE", "draw", "says"]

_SEASONS = 3
"""Seasons whose batches are drawn: the newest."""
_POINTS = 24
"""Batches in a line of the table."""
_GLANCE = 8
_MONEY = "cost_per_jar"
_COLUMNS = (
    "on", "jars", "cost.all_in", "cost_per_jar", "shop_price_per_jar", "saved_per_jar", "saved",
)  # fmt: skip

Row = Mapping[str, Any]


def draw(ask: Ask) -> Any:
    """Return one item's newest batch, its parts, its batches, and everything that was put up."""
    every = ask.show("jar-cost")
    if every.is_empty:
        return nothing_yet(ask, "jar_cost", "put_up")
    items = _most_made(every)
    chosen = ask.query.get("item", "")
    chosen = chosen if chosen in items else items[0]
    answer = ask.show("jar-cost", item=chosen)
    last = _last(answer)
    words, jars = ask.words, set(_each_in_jars(every))
    at_once = [item for item in items if item in jars or item == chosen] if jars else items
    return [
        strip(ask, "item", words("jar_cost.item"), chosen, [(i, _name(i)) for i in at_once]),
        answered(_sentence(ask, last), under=_under(ask, last)),
        _one(ask, last),
        _batches(ask, answer, chosen, last),
        _everything(ask, every, items),
        _all_batches(ask, every, [item for item in items if item not in at_once], chosen),
        notes_of(ask, answer),
    ]


def says(ask: Ask) -> Any:
    """Return the page's answer in a line."""
    every = ask.show("jar-cost")
    if every.is_empty:
        return None
    item = _most_made(every)[0]
    return [f"{_name(item)}: ", *_sentence(ask, _last(ask.show("jar-cost", item=item)))]


def _most_made(every: Answer) -> list[str]:
    """Return everything put up: what is in jars first, by how often it was."""
    counts, jars = Counter(every.column("item")), Counter(_each_in_jars(every))
    return sorted(counts, key=lambda item: (-jars[item], -counts[item], item))


def _last(answer: Answer) -> Row:
    return answer.records([answer.count - 1])[0]


def _each_in_jars(every: Answer) -> list[str]:
    """Return what was put up in jars, once an entry."""
    both = zip(every.column("item"), every.column("jars"), strict=True)
    return [item for item, jars in both if jars is not None]


def _name(item: str) -> str:
    return named(spoken(item))


def _counts_time(ask: Ask) -> bool:
    return ask.query.get("time") != "no"


def _cost(ask: Ask, row: Row) -> tuple[str, Any]:
    """Return the column of a jar's cost as it is asked for, and its value."""
    name = _MONEY if _counts_time(ask) else "per_jar.before_labour"
    return name, _at(row, name)


def _at(row: Row, name: str) -> Any:
    """Return a value of a record whose groups are nested, or None."""
    for part in name.split("."):
        row = row[part]  # type: ignore[assignment]
    return row


def _saved(ask: Ask, row: Row) -> tuple[str, Any]:
    name = "saved_per_jar" if _counts_time(ask) else "saved_per_jar_before_labour"
    return name, None if row["standing_text"] else row[name]


def _money(ask: Ask, row: Row, value: Any) -> str:
    """Return money, at least so much where something has no price."""
    text = ask.words.money(value)
    return ask.words("jar_cost.at_least", money=text) if row["at_least"] else text


def _coins(ask: Ask, row: Row, value: Any) -> str:
    """Return money without its sign, which stands in the table's head."""
    text = ask.words.coins(value)
    return ask.words("jar_cost.at_least", money=text) if row["at_least"] else text


def _sentence(ask: Ask, row: Row) -> list[Any]:
    """Return what one costs, and what the shop asks for as much."""
    words = ask.words
    if row["jars"]:
        name, value = _cost(ask, row)
        text = _money(ask, row, value)  # it stands at the sentence's head
        ours = html.Span(figure(text[:1].upper() + text[1:], row["why"], name), className="own")
        said = {"ours": ours, "jar": _jar(ask, row)}
        if row["shop_price_per_jar"] is None:
            return sentence(ask, "jar_cost.answer_alone", said)
        shop = figure(words.money(row["shop_price_per_jar"]), row["why"], "shop_price_per_jar")
        return sentence(ask, "jar_cost.answer", {**said, "shop": html.Span(shop, className="shop")})
    name = "cost.all_in"
    ours = figure(_money(ask, row, row["cost"]["all_in"]), row["why"], name)
    amount = words.grams(row["mass_g"]) if row["mass_g"] else words.ml(row["volume_ml"])
    said = {"ours": html.Span(ours, className="own"), "amount": amount}
    return sentence(ask, "jar_cost.answer_whole", said)


def _jar(ask: Ask, row: Row) -> str:
    """Return a jar as it is said of one: a pint, a quart, or the book's own."""
    jar = row["jar"] or "jar"
    short = f"jar_cost.{str(jar).replace(' ', '_').replace('-', '_')}"
    return str(ask.words(short) if ask.words.has(short) else ask.words.word("answers", jar))


def _under(ask: Ask, row: Row) -> list[Any]:
    words, day = ask.words, ask.words.day(row["on"])
    if mark := mark_link(ask, row):
        return [words("jar_cost.put_up_on", day=day), " ", mark]
    time = words("jar_cost.counted" if _counts_time(ask) else "jar_cost.left_out")
    if not row["jars"]:
        out = [words("jar_cost.put_up_on", day=day)]
        if row["saved"] is not None:
            money = figure(words.money(row["saved"]), row["why"], "saved")
            out += [" ", *sentence(ask, "jar_cost.saved_whole", {"money": money})]
        return out
    key = "jar_cost.jars_of" if row["jars"] > 1 else "jar_cost.one_jar_of"
    out = [words(key, n=words.number(row["jars"]), day=day)]
    name, saved = _saved(ask, row)
    if saved is not None:
        money = figure(words.money(abs(saved)), row["why"], name)
        key = "jar_cost.saves" if saved >= 0 else "jar_cost.costs_more"
        out += [" ", *sentence(ask, key, {"money": money, "time": time})]
    return out


# -- one jar ----------------------------------------------------------------------------


def _one(ask: Ask, row: Row) -> Any:
    """Return the two bars of a jar and the bill of its parts."""
    if not row["jars"]:
        return None
    bars = html.Div([_bars(ask, row), _time(ask)])
    return html.Div([bars, _bill(ask, row)], className="two")


def _time(ask: Ask) -> Any:
    return switch(ask, "time", "no", ask.words("jar_cost.count_time"))


def _bars(ask: Ask, row: Row) -> Any:
    words = ask.words
    value = _cost(ask, row)[1]
    rest, time = row["per_jar"]["before_labour"], row["per_jar"]["labour"]
    ours = [(rest, words("jar_cost.bar_rest", money=words.money(rest)), "paid")]
    if _counts_time(ask) and time:
        ours.append((time, words("jar_cost.bar_time", money=words.money(time)), "time"))
    price = row["shop_price_per_jar"]
    shop = None if price is None else (price, words("jar_cost.bar_shop"), words.money(price))
    said = words(
        "jar_cost.bars_say", ours=_money(ask, row, value), jar=_jar(ask, row),
        shop=words.money(price) if price is not None else words("jar_cost.no_price"),
    )  # fmt: skip
    if not value and not price:
        return None
    return drawing(
        ask, "jar-cost",
        lambda width: home_and_shop(
            ours, (words("jar_cost.ours"), _money(ask, row, value)), shop, said, width=width, scheme=ask.scheme
        ),
        said, _numbers(ask, row), desk=440,
    )  # fmt: skip


def _numbers(ask: Ask, row: Row) -> Any:
    """Return the whole batch's costs, part by part, as a table."""
    answer = ask.show("jar-cost", item=row["item"])
    return answer_table(
        ask, answer, columns=("on", *(f"cost.{name}" for name in COMPONENTS), "cost.all_in"),
        options={"item": row["item"], "batch": row["batch"]}, keep=lambda one: one["why"] == row["why"],
        caption=ask.words("jar_cost.bill_says"),
    )  # fmt: skip


def _bill(ask: Ask, row: Row) -> Any:
    """Return what a jar is made of, the dearest part first."""
    words, parts = ask.words, row["per_jar"]
    names = [n for n in COMPONENTS if parts[n] and (n != "labour" or _counts_time(ask))]
    names.sort(key=lambda name: -parts[name])
    top = max((parts[name] for name in names), default=0) or 1
    rows = [
        [
            words(f"components.{name}"),
            _track(parts[name] / top),
            figure(words.coins(parts[name]), row["why"], f"per_jar.{name}", what=words(f"components.{name}")),
        ]
        for name in names
    ]  # fmt: skip
    name, value = _cost(ask, row)
    foot = [words("jar_cost.sum"), "", figure(_coins(ask, row, value), row["why"], name)]
    heads = [words("jar_cost.bill", jar=_jar(ask, row)), "", words.coin_sign()]
    return html.Div(
        plain_table(
            heads, rows, numeric=(False, False, True), caption=words("jar_cost.bill_says"), foot=foot,
            keeps_columns=True,
        ),
        className="bill",
    )  # fmt: skip


def _track(share: float) -> Any:
    width = f"{100 * min(1.0, max(0.0, share)):.0f}%"
    return html.Span(html.Span(style={"width": width}), className="track")


# -- batch by batch ----------------------------------------------------------------------


def _batches(ask: Ask, answer: Answer, chosen: str, last: Row) -> Any:
    words = ask.words
    table = answer_table(
        ask, answer, columns=_COLUMNS, options={"item": chosen}, newest_first=True,
        caption=words("jar_cost.batches"), cells=marked_cells(ask),
    )  # fmt: skip
    alike = [r for r in answer.records() if r["jar"] == last["jar"] and r["jars"]]
    if not alike:
        return section(words("jar_cost.batches"), table)
    said = _batches_say(ask, alike)
    time = words("jar_cost.counted" if _counts_time(ask) else "jar_cost.left_out")
    newest = words.money(_cost(ask, alike[-1])[1])

    def make(width: float) -> str:
        seasons = _seasons(ask, alike)
        return batches(seasons, newest, said, width=width, scheme=ask.scheme)

    return section(
        words("jar_cost.count", n=answer.count) if answer.count > 1 else words("jar_cost.count_one"),
        drawing(ask, "batches", make, said, table, desk=760),
        note=words("jar_cost.a_jar", jar=_jar(ask, last), time=time),
    )  # fmt: skip


def _seasons(ask: Ask, alike: list[Row]) -> list[Season]:
    """Return the batches of the newest years that had any."""
    years = sorted({row["on"][:4] for row in alike})[-_SEASONS:]
    out = []
    for year in years:
        rows = [row for row in alike if row["on"].startswith(year)]
        shop = [r["shop_price_per_jar"] for r in rows if r["shop_price_per_jar"] is not None]
        said = ask.words("jar_cost.shop_at", money=ask.words.money(shop[-1])) if shop else ""
        costs = [_cost(ask, row)[1] for row in rows]
        out.append(Season(year, costs, shop[-1] if shop else None, said))
    return out


def _batches_say(ask: Ask, alike: list[Row]) -> str:
    values = [_cost(ask, row)[1] for row in alike]
    return str(
        ask.words(
            "jar_cost.batches_say", n=len(alike), low=ask.words.money(min(values)),
            high=ask.words.money(max(values)), last=ask.words.money(values[-1]),
        )
    )  # fmt: skip


# -- everything --------------------------------------------------------------------------


def _everything(ask: Ask, every: Answer, items: list[str]) -> Any:
    """Return the newest batch of each item in jars."""
    words, in_jars = ask.words, set(_each_in_jars(every))
    shown = [item for item in items if item in in_jars]
    if not shown:
        return None
    limit = None if ask.wants_all("glance") else _GLANCE
    rows = [_glance(ask, every.records(at)) for at in _newest(every, shown[:limit])]
    heads = [words(f"jar_cost.{name}") for name in ("what", "all_batches", "ours", "shop", "saved")]
    return section(
        words("jar_cost.everything"),
        html.Div(
            plain_table(
                heads, rows, numeric=(False, True, True, True, True), caption=words("jar_cost.everything"),
                keeps_columns=True,
            ),
            className="glance",
        ),
        all_link(ask, "glance", len(shown), len(rows)),
        note=words("jar_cost.last_of_each_in", sign=words.coin_sign()),
    )  # fmt: skip


def _newest(every: Answer, items: list[str]) -> list[list[int]]:
    """Return the places of each item's newest batches in jars like those of its last."""
    of: dict[str, list[int]] = {item: [] for item in items}
    for at, (item, jars) in enumerate(zip(every.column("item"), every.column("jars"), strict=True)):
        if jars and item in of:
            of[item].append(at)
    jar = every.column("jar")
    return [[at for at in mine if jar[at] == jar[mine[-1]]][-_POINTS:] for mine in of.values()]


def _total(ask: Ask, totals: Row, name: str) -> str:
    """Return a sum of money with the bound that it is."""
    mark, text = totals["bounds"].get(name, ""), ask.words.money(totals[name])
    return f"{mark} {text}" if mark else text


def _all_batches(ask: Ask, every: Answer, others: list[str], chosen: str) -> Any:
    """Return, folded, every batch of everything, their sums, and what is not in jars to choose."""
    words, totals = ask.words, dict(every.totals, saved=saved_unmarked(every))
    whole = words(
        "jar_cost.in_all", jars=words.number(totals["jars"], 6), cost=_total(ask, totals, "cost"),
        pocket=_total(ask, totals, "out_of_pocket"), saved=_total(ask, totals, "saved"),
    )  # fmt: skip
    table = answer_table(
        ask, every, columns=("item", *_COLUMNS), newest_first=True, cells=marked_cells(ask)
    )
    return html.Details(
        [
            html.Summary(words("jar_cost.every_batch")),
            html.P(whole, className="under"),
            strip(ask, "item", words("jar_cost.others"), chosen, [(i, _name(i)) for i in others]),
            table,
        ],
        className="more", open=ask.wants_all("jar-cost"),
    )  # fmt: skip


def _glance(ask: Ask, rows: list[Row]) -> list[Any]:
    """Return an item's line: name and jar, its batches, ours, the shop's, and what is between them."""
    words, last = ask.words, rows[-1]
    name, value = _cost(ask, last)
    alike = [_cost(ask, row)[1] for row in rows]
    line = words("jar_cost.line_says", n=len(alike), last=words.money(alike[-1]))
    column, saved = _saved(ask, last)
    between: Any = mark_sign(ask, last) or "–"
    if saved is not None:
        sign = "+" if saved >= 0 else "−"
        text = f"{sign}{words.coins(abs(saved))}"
        kind = "own" if saved >= 0 else "look"
        between = html.B(figure(text, last["why"], column), className=kind)
    shop = last["shop_price_per_jar"]
    link = dcc.Link(_name(last["item"]), href=ask.link(item=last["item"]), className="named")
    return [
        html.Span([link, html.Span(f", {_jar(ask, last)}", className="quiet")]),
        small(sparkline(alike, line, scheme=ask.scheme), line),
        figure(_coins(ask, last, value), last["why"], name),
        "–" if shop is None else figure(words.coins(shop), last["why"], "shop_price_per_jar"),
        between,
    ]


PAGE = Page("jar_cost", "/jar-cost", draw)
