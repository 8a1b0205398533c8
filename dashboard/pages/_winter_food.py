"""What the winter's questions on food tell: what lasts, what is lacking, what keeps, what was lost."""

from __future__ import annotations

from typing import Any

from dashboard.ask import Ask
from dashboard.drawings.ranked import Bar
from dashboard.elements import html
from dashboard.pages._told import MOST, Told, bars, figured, name_of, spoken, told
from dashboard.parts import figure
from dashboard.parts.saying import say
from ledger.messages import says
from ledger.projections import Answer

__all__ = ["TOLD"]

_A_YEAR, _A_MONTH, _IN_MONTHS = 364, 30.4, 61
"""Days."""
_GAPS = 2
"""Ways to close a gap that stand under the sentence."""


def _days(ask: Ask, value: float) -> str:
    return ask.words("today.n_days", n=ask.words.number(value, 2 if value < 100 else 3))


def _in_words(ask: Ask, answer: Answer, start: int, many: int) -> Any:
    """Return some of the ledger's sentences, one below the other."""
    texts = list(answer.totals.get("in_words", ()))[start : start + many]
    return spoken(ask, texts) or None


def enough(ask: Ask, answer: Answer) -> Told | None:
    """Tell how many days each need is met."""
    rows = [r for r in answer.rows() if r["days"] is not None]
    if not rows:
        return None
    energy = next((r for r in rows if r["nutrient"] == "energy"), rows[0])
    gaps = [text for text in answer.totals["in_words"] if says(text, "enough-to-close")]
    at = answer.totals["in_words"].index(gaps[0]) if gaps else 0
    under = _in_words(ask, answer, at, _GAPS) if gaps else None
    parts = {
        "energy": _figure_of_days(ask, energy),
        "first": _figure_of_days(ask, rows[0], "look"),
        "what": name_of(ask, rows[0]["nutrient"]),
    }
    is_next = answer.totals["days_asked"] > _A_YEAR
    key = "winter.next_says" if is_next else "winter.enough_says"
    if energy is rows[0]:
        key = "winter.next_energy" if is_next else "winter.enough_energy"
    wanted = float(answer.totals["days_asked"])
    several = [
        Bar(
            name_of(ask, r["nutrient"]),
            _days(ask, r["days"]),
            r["days"],
            wanted,
            looks=r["days"] < wanted,
        )
        for r in rows
    ]
    return bars(ask, told(ask, key, parts, under), several, _days(ask, wanted))


def _figure_of_days(ask: Ask, row: dict[str, Any], kind: str = "own", column: str = "days") -> Any:
    return html.Span(figure(_days(ask, row[column]), row["why"], column), className=kind)


def eaten(ask: Ask, answer: Answer) -> Told | None:
    """Tell how much of each need was eaten."""
    words = ask.words
    rows = [
        r for r in answer.rows() if r["share_of_need"] is not None and r["nutrient"] != "sodium"
    ]
    if not rows:
        return None
    parts = {
        "what": name_of(ask, rows[0]["nutrient"]),
        "share": figured(ask, answer, rows[0], "share_of_need", "look"),
    }
    several = [
        Bar(
            name_of(ask, r["nutrient"]),
            words.percent(r["share_of_need"]),
            r["share_of_need"],
            1.0,
            looks=r["share_of_need"] < 1,
        )
        for r in rows
    ]
    under = _in_words(ask, answer, 0, 2)
    return bars(ask, told(ask, "winter.eaten_says", parts, under), several, words("winter.need"))


def who_eats(ask: Ask, answer: Answer) -> Told | None:
    """Tell what each at the table needs a day."""
    rows = [r for r in answer.rows() if r["energy_kcal"] is not None]
    every = next((r for r in rows if r["person"] == "all"), None)
    if every is None:
        return None
    parts = {
        "kcal": figured(ask, answer, every, "energy_kcal"),
        "n": ask.words.number(answer.totals["people"], 3),
    }
    several = [
        Bar(
            r["person"] or ask.words("winter.somebody"),
            f"{ask.words.whole(r['energy_kcal'])} kcal",
            r["energy_kcal"],
        )
        for r in rows
        if r is not every
    ]
    under = ask.words("winter.who_under")
    return bars(ask, told(ask, "winter.who_says", parts, under), several)


def without(ask: Ask, answer: Answer) -> Told | None:
    """Tell how long what is there lasts without the shop or without power."""
    rows = [r for r in answer.rows() if r["days"] is not None]
    if not rows:
        return None
    is_power = "power" in answer.totals["without"]
    key = "winter.no_power_says" if is_power else "winter.no_shop_says"
    last = rows[-1]
    under: list[Any] = [] if not is_power else [_in_words(ask, answer, 0, 1)]
    thrown = [one.text for one in answer.footnotes if one.id == "thawed"]
    if thrown and is_power:
        under += [html.Br(), html.B(say(ask, thrown[0]))]
    parts = {"days": _figure_of_days(ask, last)}
    several = [Bar(name_of(ask, r["step"]), _days(ask, r["days"]), r["days"]) for r in rows]
    return bars(ask, told(ask, key, parts, under or None), several)


def no_water(ask: Ask, answer: Answer) -> Told | None:
    """Tell how long the water lasts."""
    rows = [r for r in answer.rows() if r["days"] is not None]
    if not rows:
        return told(ask, "winter.no_water_none", {}, ask.words("winter.no_water_count"))
    several = [Bar(name_of(ask, r["step"]), _days(ask, r["days"]), r["days"]) for r in rows]
    parts = {"days": _figure_of_days(ask, rows[0])}
    return bars(ask, told(ask, "winter.no_water_says", parts), several)


def to_add(ask: Ask, answer: Answer) -> Told | None:
    """Tell what of the published reserve lists is lacking."""
    words = ask.words
    rows = [r for r in answer.rows() if r["there_kg"] is not None]
    short = [r for r in rows if r["to_add_kg"]]
    several = [
        Bar(
            name_of(ask, r["group"]),
            words.grams(1000 * r["there_kg"]),
            r["there_kg"],
            r["wanted_kg"],
            looks=bool(r["to_add_kg"]),
        )
        for r in rows
    ]
    if not short:
        return bars(ask, told(ask, "winter.to_add_none", {}), several, words("winter.wanted_14"))
    lacks: list[Any] = []
    for n, r in enumerate(short):
        lacks += [f" {words('winter.and')} " if n == len(short) - 1 else ", "] if n else []
        lacks += [figured(ask, answer, r, "to_add_kg", "look"), " ", name_of(ask, r["group"])]
    missing = words("winter.no_water_count") if answer.totals.get("missing") else None
    one = told(ask, "winter.to_add_says", {"lacks": lacks}, missing)
    return bars(ask, one, several, words("winter.wanted_14"))


def _long(ask: Ask, days: float) -> str:
    """Return a long while in months, a short one in days."""
    if days < _IN_MONTHS:
        return _days(ask, days)
    return ask.words("winter.n_months", n=ask.words.whole(days / _A_MONTH))


def keeping(ask: Ask, answer: Answer) -> Told | None:
    """Tell how long things are reckoned to keep, what fails soonest first."""
    words = ask.words
    rows = [r for r in answer.rows() if r["life_days"] is not None]
    if not rows:
        return None
    rows.sort(key=lambda r: r["life_days"])
    parts = {
        "what": rows[0]["item"],
        "days": html.Span(
            figure(_long(ask, rows[0]["life_days"]), rows[0]["why"], "life_days"), className="own"
        ),
        "place": words.word("answers", rows[0]["place"]),
    }
    several = [
        Bar(
            f"{r['item']}, {words.word('answers', r['place'])}",
            _long(ask, r["life_days"]),
            r["life_days"],
        )
        for r in rows
    ]
    under = _in_words(ask, answer, 0, 1)
    return bars(ask, told(ask, "winter.keeping_says", parts, under), several)


def losses(ask: Ask, answer: Answer) -> Told | None:
    """Tell what was lost, and what had gone into it."""
    words, rows = ask.words, answer.rows()
    costly = [r for r in rows if r["money"]]
    if not costly:
        return None
    totals = answer.totals
    parts = {
        "money": html.Span(words.round_money(totals["money"]), className="look"),
        "weight": words.grams(1000 * totals["kg"]),
        "what": costly[0]["item"],
        "cause": name_of(ask, costly[0]["cause"]),
    }
    several = [
        Bar(f"{r['item']}, {name_of(ask, r['cause'])}", words.money(r["money"]), r["money"])
        for r in costly
    ]
    return bars(ask, told(ask, "winter.losses_says", parts), several)


def freezer(ask: Ask, answer: Answer) -> Told | None:
    """Tell what the freezer took, and which lots took most of it."""
    words, rows = ask.words, [r for r in answer.rows() if r["kwh"] is not None]
    if not rows:
        return None
    parts = {
        "kwh": html.Span(f"{words.number(answer.totals['kwh'])} kWh", className="own"),
        "what": rows[0]["item"],
        "day": words.day(rows[0]["on"], short=True),
    }
    several = [
        Bar(
            f"{r['item']}, {words.day(r['on'], short=True)}",
            f"{words.number(r['kwh'])} kWh",
            r["kwh"],
        )
        for r in rows[:MOST]
    ]
    under = _in_words(ask, answer, 0, 1)
    return bars(ask, told(ask, "winter.freezer_says", parts, under), several)


TOLD = {
    "enough": enough,
    "next": enough,
    "eaten": eaten,
    "who_eats": who_eats,
    "no_shop": without,
    "no_power": without,
    "no_water": no_water,
    "to_add": to_add,
    "keeping": keeping,
    "losses": losses,
    "freezer": freezer,
}
"""By the question's name in the address."""
