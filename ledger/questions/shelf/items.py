"""`show shelf --items`: one record an item, how long it lasts and whether that is long enough."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from ledger.messages import Names, joined, sentence
from ledger.messages.units import amount_later, unit
from ledger.projections.base import Answer, Assumption, Column
from ledger.questions.ahead.lasting import Ahead, ahead_of, ahead_of_item
from ledger.questions.ahead.plain import gone
from ledger.questions.ahead.widening import lately
from ledger.questions.shared.common import UNITS, answer
from ledger.questions.shared.jars import left_in_words
from ledger.questions.shared.use_past import AHEAD
from ledger.questions.shared.wanting import Wanting, wanting, wanting_said
from ledger.questions.shelf.figures import item_figures
from ledger.questions.shelf.items_gather import ENDS, Items
from ledger.questions.shelf.standing import item_standing, standing_cautions
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["ITEM_COLUMNS", "address_of", "build_items"]

_AMOUNT = "g, ml, pieces or kJ"
_UNIT = "in the unit of `unit`"
_FEW, _YEAR = 26, 52
_LAST = "9999"
_ENDS = "the tenth, fiftieth and ninetieth of a hundred"

ITEM_COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("eat_first", "Eat", "", "1 is to be eaten first: what passes its best before it is eaten, and fresh food of which the household says no keeping time, then by day, then by run-out."),
    Column("item", "Item", "", "What it is.", main=True),
    Column("measure", "Kept by", "", "mass, volume, count, energy, or the counted unit it was said in."),
    Column("left.whole", "Left (whole units)", "mg, ul, 1/1000 piece or J", "What is left of all its lots, exactly."),
    Column("left.measure", "Measure", "", "mass, volume, count or energy."),
    Column("left.text", "Left", "", "What is left, in words; jars by size.", main=True),
    Column("standing", "Standing", "", "How the gravest of its lots stands beside what is published; null where nothing is compared."),
    Column("standing_text", "Said of it", "", "What is said of that before it is eaten, with the day; null where there is nothing to say."),
    Column("mark", "Mark", "", "The same standing where it is graver than beyond it; else null.", main=True, rare=True),
    Column("jars_left", "Jars", "jars", "Jars left, an open one as a part; null when not in jars."),
    Column("lots", "Lots", "lots", "How many lots have something left."),
    Column("unit", "Unit", "", "The unit of the amounts of this record: g, ml, pieces or kJ."),
    Column("used_per_week.low", "Used a week, low", _AMOUNT, f"Use a week over the coming {AHEAD} weeks, low; {_UNIT}. Low, likely and high are {_ENDS}; null where fewer than four weeks are known, or none was used."),
    Column("used_per_week.likely", "Used a week", _AMOUNT, f"The same, likely; {_UNIT}."),
    Column("used_per_week.high", "Used a week, high", _AMOUNT, f"The same, high; {_UNIT}."),
    Column("used_text", "Used\na week", "", "Use a week, likely, in words; how long none was used; null where too little is known.", main=True),
    Column("weeks_left.low", "Weeks left, low", "weeks", "Weeks until nothing is left, when no more comes, low; null where not known, and beyond five years."),
    Column("weeks_left.likely", "Weeks left", "weeks", "The same, likely."),
    Column("weeks_left.high", "Weeks left, high", "weeks", "The same, high."),
    Column("weeks_text", "Weeks\nleft", "", "Low to high, in words.", main=True),
    Column("runs_out_on.early", "Runs out, early", "day", "Day on which nothing is left: with the low weeks."),
    Column("runs_out_on.likely", "Runs out", "day", "The same, with the likely weeks."),
    Column("runs_out_on.late", "Runs out, late", "day", "The same, with the high weeks."),
    Column("next_supply_on", "Next supply", "day", "When more is expected, by the household's own past; null where that does not tell.", main=True),
    Column("next_supply_by", "Next supply by", "", "season: as in earlier years; rhythm: after the usual pause."),
    Column("reaches_next_supply", "Lasts till then", "chance", "Chance that what is left lasts until more comes, 0 to 1, over the days on which it may; null where either is not known."),
    Column("reaches_text", "Lasts\ntill then", "", "The same chance, in words.", main=True),
    Column("target", "Target", _AMOUNT, f"How much should be there now by the household's target; {_UNIT}; null where none is set."),
    Column("target_said", "Target as set", "", "The target in the household's words."),
    Column("short_of_target", "Short of target", _AMOUNT, f"What is missing to it, 0 when there is enough; {_UNIT}."),
    Column("short_text", "Short", "", "What is missing to it, in words."),
    Column("past_best", "Past best", _AMOUNT, f"How much passes its best before it would be eaten; {_UNIT}; null where use is not known."),
    Column("past_best_on", "Past best on", "day", "The day from which on."),
    Column("past_best_text", "Past best\nuneaten", "", "How much passes its best before it would be eaten, in words.", main=True),
    Column("best_until", "Best until", "day", "First day on which some of it passes its best: the household's word, else the early end of the published period."),
    Column("seasonal", "Seasonal", "yes or no", "Whether its weeks show that use comes back at the same time of the year."),
    Column("weeks_known", "Weeks known", "weeks", "Past weeks, of the last five years, in which there was some; a week that ran dry counts as far as it went."),
    Column("ranges_held", "Ranges held", "times", "Of earlier ranges of use a week and of run-out, how many held what came: those of the last eight moments, four weeks apart, whose twelve weeks are over; null where none was said."),
    Column("ranges_said", "Ranges said", "times", "How many those were."),
    Column("held_text", "Ranges\nheld", "", "Both in words.", main=True),
    Column("how_sure", "How sure", "", "What keeps the range wide, in words; null where a year or more is known."),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip

_SAID: dict[str, Callable[[], str]] = {
    "own-weeks": lambda: sentence("shelf-own-weeks", n=AHEAD),
    "own-seasons": lambda: sentence("shelf-own-seasons"),
    "none-there": lambda: sentence("shelf-none-there"),
    "even-pauses": lambda: sentence("shelf-even-pauses"),
    "people-changed": lambda: sentence("shelf-people-changed"),
    "few-weeks": lambda: sentence("shelf-few-weeks", n=_FEW),
    "season-not-known": lambda: sentence("shelf-season-unknown"),
    "earlier-ranges": lambda: sentence("shelf-earlier-ranges"),
    "widened": lambda: sentence("shelf-widened"),
    "next-by-season": lambda: sentence("shelf-next-by-season"),
    "next-by-rhythm": lambda: sentence("shelf-next-by-rhythm"),
    "best-as-published": lambda: sentence("shelf-best-as-published"),
    "target-until-supply": lambda: sentence("shelf-target-until-supply"),
    "beyond-five-years": lambda: sentence("shelf-beyond-five-years"),
}

_HOW_SURE = {
    "few-weeks": "shelf-sure-few-weeks",
    "season-not-known": "shelf-sure-season-unknown",
}


def address_of(name: str) -> str:
    """Return the address of an item's record."""
    return f"shelf/items/{name.replace(' ', '-')}"


def build_items(state: State, only: int | None = None) -> Answer:
    """Return one record an item with something left or a target, what to eat first coming first.

    Parameters
    ----------
    only : int, optional
        The number of the one item to tell of.

    Returns
    -------
    Answer
        Columns as in `ITEM_COLUMNS`; ``totals["gone"]`` names what is all gone and was used of
        late, ``totals["missing"]`` says what data would answer more.
    """
    ahead = ahead_of(state) if only is None else ahead_of_item(state, only)
    figures = {
        name: one().values.tolist() for name, one in item_figures(Items(state, ahead)).items()
    }
    records = [
        _record(state, ahead, row, {name: _known(one[row]) for name, one in figures.items()})
        for row in range(ahead.items.size)
    ]
    wanted = [_wanted(state, lots) for lots in ahead.lots]
    ranked = sorted(zip(records, wanted, strict=True), key=lambda one: _first(*one))
    records = [record for record, _ in ranked]
    for rank, (record, one) in enumerate(ranked, 1):
        record["eat_first"] = rank
        record["assumptions"] += [one.rests] if one is not None else []
    used = {one for record in records for one in record["assumptions"]}
    assumptions = [Assumption(one, says()) for one, says in _SAID.items() if one in used]
    assumptions = [
        *standing_cautions(state, [lot for lots in ahead.lots for lot in lots]),
        *wanting_said((record["item"], one) for record, one in ranked),
        *assumptions,
    ]
    out = gone(state, ahead, 7 * AHEAD) if only is None else []
    totals = {"items": len(records), "gone": out}
    totals |= {"in_words": _in_words(records, out), "missing": _missing(records)}
    return answer(state, "shelf", ITEM_COLUMNS, records, totals=totals, assumptions=assumptions)


def _wanted(state: State, lots: list[int]) -> Wanting | None:
    """Return when the first fresh lot of an item wants eating whose keeping the household does not say."""
    fresh = [one for lot in lots if (one := wanting(state, lot)) is not None and one.rests]
    return min(fresh, default=None)


def _first(record: dict[str, Any], wanted: Wanting | None) -> tuple[Any, ...]:
    late, best, weeks = record["past_best_on"], record["best_until"], record["weeks_left.likely"]
    if wanted is not None:
        late = min(late or _LAST, day_text(wanted.day))
    return (
        not record["lots"],
        late is None, late or "",
        best is None, best or "",
        weeks is None, weeks or 0,
        record["item"],
    )  # fmt: skip


def _record(state: State, ahead: Ahead, row: int, known: dict[str, float | None]) -> dict[str, Any]:
    item, facts = int(ahead.items[row]), state.facts
    measure = facts.measure[item]
    supply, one = ahead.supplies[row], ahead.use.ahead[row]
    whole = int(known["left.whole"] or 0)
    out = {
        "why": address_of(facts.strand_name(item)),
        "item": facts.names[item],
        "measure": measure,
        "left.whole": whole,
        "left.measure": measure,
        "left.text": left_in_words(state, ahead.lots[row])
        if ahead.lots[row]
        else _text(state, whole / 1000, measure),
        "jars_left": known["jars_left"],
        "lots": int(known["lots"] or 0),
        **item_standing(state, ahead.lots[row]),
        "unit": UNITS[measure],
        "next_supply_on": _day(known["next_supply_on"]),
        "next_supply_by": supply.rule or None,
        "reaches_next_supply": known["reaches_next_supply"],
        "reaches_text": _chance(known["reaches_next_supply"]),
        "best_until": _day(known["best_until"]),
        "seasonal": one is not None and one.seasonal,
        "weeks_known": known["weeks_known"],
        **_held(known),
        **_use(state, ahead, row, measure, known),
        **_run_out(ahead, row, known),
        **_target(state, ahead, row, measure, known),
        **_past_best(state, measure, known),
    }
    rests = _rests_on(state, ahead, row, out)
    unsure = joined("; ", [sentence(id_) for name, id_ in _HOW_SURE.items() if name in rests])
    return out | {"assumptions": rests, "how_sure": unsure or None}


def _held(known: dict[str, float | None]) -> dict[str, Any]:
    """Return how many of the last ranges of an item held."""
    held, said = known["ranges_held"], known["ranges_said"]
    if held is None or said is None:
        return dict.fromkeys(("ranges_held", "ranges_said", "held_text"))
    many = int(held), int(said)
    return {
        "ranges_held": many[0],
        "ranges_said": many[1],
        "held_text": sentence("shelf-held", n=many[0], n2=many[1]),
    }


def _use(
    state: State, ahead: Ahead, row: int, measure: str, known: dict[str, float | None]
) -> dict[str, Any]:
    low, likely, high = (known[f"used_per_week.{name}"] for name in ENDS)
    text: str | None = None if likely is None else _text(state, likely, measure)
    if likely is None and not ahead.use.too_few(row):
        many = round(ahead.use.known(row))
        text = sentence("shelf-none-in-weeks", n=many)
    elif likely is not None and high is not None and likely < high / 20:
        text = sentence("shelf-up-to", amount=_text(state, high, measure))
    return {
        "used_per_week.low": low,
        "used_per_week.likely": likely,
        "used_per_week.high": high,
        "used_text": text,
    }


def _run_out(ahead: Ahead, row: int, known: dict[str, float | None]) -> dict[str, Any]:
    found = ahead.weeks_left[:3, row]
    out: dict[str, Any] = {"weeks_text": None}
    for weeks, day in zip(ENDS, ("early", "likely", "late"), strict=True):
        out[f"weeks_left.{weeks}"] = known[f"weeks_left.{weeks}"]
        out[f"runs_out_on.{day}"] = _day(known[f"runs_out_on.{day}"])
    if not math.isnan(found[0]):
        low, high = _weeks(float(found[0])), _weeks(float(found[2]))
        out["weeks_text"] = amount_later(low if low == high else f"{low} to {high}")
        if math.isinf(found[2]):
            out["weeks_text"] = (
                unit("years")
                if math.isinf(found[0])
                else sentence("shelf-to-years", weeks=amount_later(low))
            )
    return out


def _day(day: float | None) -> str | None:
    return None if day is None else day_text(int(day))


def _chance(value: float | None) -> str | None:
    """Return a chance in words; never is not said, nor surely."""
    if value is None:
        return None
    if value < 0.01:
        return sentence("shelf-chance-under")
    if value > 0.99:
        return sentence("shelf-chance-over")
    return f"{value:.0%}".replace("%", " %")


def _weeks(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0") if value < 3 else f"{value:.0f}"


def _target(
    state: State, ahead: Ahead, row: int, measure: str, known: dict[str, float | None]
) -> dict[str, Any]:
    target = ahead.target(row)
    if target is None:
        return dict.fromkeys(("target", "target_said", "short_of_target", "short_text"))
    short = known["short_of_target"]
    text = _text(state, short, measure) if short else None
    return {
        "target": known["target"],
        "target_said": target.said,
        "short_of_target": short,
        "short_text": text,
    }


def _past_best(state: State, measure: str, known: dict[str, float | None]) -> dict[str, Any]:
    amount = known["past_best"]
    return {
        "past_best": amount,
        "past_best_on": _day(known["past_best_on"]),
        "past_best_text": _text(state, amount, measure) if amount else None,
    }


def _rests_on(state: State, ahead: Ahead, row: int, record: dict[str, Any]) -> list[str]:
    target, use = ahead.target(row), ahead.use
    one, past, supply = use.ahead[row], use.pasts[row], ahead.supplies[row]
    per = target is not None and target.share(state.as_of_day, supply.day) < 1
    rests = {
        "own-weeks": one is not None,
        "own-seasons": one is not None and one.seasonal,
        "none-there": one is not None and use.known(row) < past.weeks,
        "even-pauses": one is not None and one.by_chance < 0.5,
        "people-changed": one is not None and use.scaled[row],
        "few-weeks": one is not None and past.weeks < _FEW,
        "season-not-known": one is not None
        and past.weeks < _YEAR
        and (supply.laid_in or past.weeks >= _FEW),
        "earlier-ranges": one is not None and int(ahead.items[row]) in lately(state).items,
        "widened": one is not None and lately(state).factor > 1,
        "next-by-season": ahead.supplies[row].rule == "season",
        "next-by-rhythm": ahead.supplies[row].rule == "rhythm",
        "best-as-published": any(one is not None and one.published for _, one in ahead.best[row]),
        "target-until-supply": per,
        "beyond-five-years": bool(math.isinf(ahead.weeks_left[2, row])),
    }
    return [one for one in _SAID if rests[one]]


def _in_words(records: list[dict[str, Any]], out: list[str]) -> list[str]:
    """Return what a household wants of it all, as sentences."""
    chances = [(r["item"], r["reaches_next_supply"]) for r in records if r["lots"]]
    short = [item for item, chance in chances if chance is not None and chance < 0.5]
    below = [joined(" ", [r["item"], r["short_text"]]) for r in records if r["short_text"]]
    said: list[str] = []
    if short:
        said.append(sentence("shelf-gone-before", names=_names(short)))
    if below:
        said.append(sentence("shelf-short", names=_names(below)))
    if out:
        said.append(sentence("shelf-nothing-left", n=AHEAD, names=_names(out)))
    return said


def _missing(records: list[dict[str, Any]]) -> list[str]:
    few = [r["item"] for r in records if r["used_text"] is None and r["lots"]]
    never = [r["item"] for r in records if r["next_supply_on"] is None]
    nobody = [r["item"] for r in records if r["target_said"] and r["target"] is None]
    out: list[str] = []
    if few:
        out.append(sentence("shelf-use-unknown", names=_names(few)))
    if never:
        out.append(sentence("shelf-supply-unknown", names=_names(never)))
    if nobody:
        out.append(sentence("shelf-target-per-person", names=_names(nobody)))
    return out


def _names(names: list[str]) -> Names:
    return Names(tuple(names), most=8)


def _text(state: State, amount: float, measure: str) -> str:
    from ledger.amounts import format_whole

    measures = state.settings.newest("measures", "us") or "us"
    return amount_later(format_whole(round(amount * 1000), measure, measures=measures))


def _known(value: float) -> float | None:
    return float(value) if math.isfinite(value) else None
