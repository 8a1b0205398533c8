"""Is it enough for us: of what do we run short first, what brings it, and what would close the gap?"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from ledger.amounts import format_whole
from ledger.messages import Choice, Day, Names, fixed, sentence
from ledger.messages import measured as digits
from ledger.messages.units import amount_later
from ledger.methods.cover import shortest, standing
from ledger.projections.base import Answer, Column, Option, Projection
from ledger.questions.enough import why as enough_why
from ledger.questions.enough.asked import LEAST_KNOWN, OF, Asked, asked_of
from ledger.questions.enough.figures import figures
from ledger.questions.enough.gap import bed_of, shop_of
from ledger.questions.enough.notes import cautions, notes
from ledger.questions.enough.supply import Supply
from ledger.questions.quantities import about, decimals, measured, paid
from ledger.questions.shared.common import answer, number
from ledger.questions.who_eats.eaters import Eaters, eaters_of
from ledger.reference.needs import NUTRIENTS
from ledger.reference.nutrients import LABELS, UNITS
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.figures import Figure
    from ledger.replay import State

__all__ = ["COLUMNS", "PROJECTION", "build"]

_UNIT = "kcal, g, mg or ug, named in `unit`"
COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("nutrient", "Nutrient", "", "Energy, eight nutrients, and sodium the other way round.", main=True),
    Column("unit", "Unit", "", "kcal, g, mg or ug of its amounts (RAE of vitamin A, DFE of folate)."),
    Column("days", "Days", "days", "Supply / need a day: how long the pantry, or what next season would bring, covers it; null for what was eaten, for sodium, and below 70 per cent of weight known.", main=True),
    Column("share_of_need", "Of the need", "0 to 1", "Supply / need of the days asked for; of sodium the part of the level above which risk rises.", main=True),
    Column("standing", "Standing", "", "For the days asked for: `covered`, `may be short` (below the allowance), `likely short` (below the average requirement); of sodium `below the level` or `above the level`. Null where too little is known, or an infant is all there is.", main=True),
    Column("supply", "Supply", _UNIT, "What the food holds, salt in the box left out."),
    Column("need_per_day", "Need a day", _UNIT, "Of all at the table, infants left out; of sodium the sum of the levels (CDRR)."),
    Column("share_known", "Known", "0 to 1", "Part of the food by weight of which this nutrient is known."),
    Column("at_least", "At least", "yes or no", "Some food's figure is not known and counts nothing, so there is more."),
    Column("own_share", "Our own", "0 to 1", "Part of the supply that was grown here; null of no supply.", main=True),
    Column("brought_by", "Brought by", "", "The three foods that bring most of it.", main=True),
    Column("gap", "Gap", _UNIT, "Need of the days asked for less the supply, where that is above 0; null for sodium."),
    Column("shop_item", "From the shop", "", "What closes the gap for the least money, at the newest price known; null without a gap, or a price."),
    Column("shop_amount", "So much", "", "How much of it."),
    Column("shop_cost", "For", "money", "What that costs."),
    Column("bed_crop", "From a bed", "", "The crop grown here that closes the gap on the least ground, by published yields."),
    Column("bed_m2", "Ground", "m2", "How much ground."),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip

_SODIUM = "sodium_mg"


def build(
    state: State,
    *,
    of: str | None = None,
    days: str | float | None = None,
    start: str | None = None,
    end: str | None = None,
    **more: Any,
) -> Answer:
    """Return one record a nutrient, what is short first at the top.

    Parameters
    ----------
    state : State
    of : {'pantry', 'eaten', 'next season'}, optional
        What is set against the need; default the pantry.
    days : text or float, optional
        For how many days there should be enough; default 30, of next season 365, of what was eaten its own days.
    start, end : ISO text, optional
        The first and last day of what was eaten (``--from``, ``--to``); default the last 30 days.

    Returns
    -------
    Answer
        Columns as in `COLUMNS`; ``totals["short_first"]`` names the headline.

    Raises
    ------
    InputError
        When an option is not what it may be.
    """
    asked = asked_of(state, of, days, start or more.get("from"), end or more.get("to"))
    eaters = eaters_of(state)
    supply, known_of = figures(state, asked)
    records = [_record(state, asked, eaters, supply, known_of, n) for n in range(len(NUTRIENTS))]
    records.sort(key=_place)
    known = {r["nutrient"]: r["days"] for r in records if r.get("days") is not None}
    says_enough = supply.share_known >= LEAST_KNOWN
    first = shortest(known) if says_enough and asked.of != "eaten" else None
    totals = _totals(state, asked, eaters, supply, records, first)
    columns = _shown(asked)
    assumptions = [*cautions(asked, supply), *notes(state, asked, eaters, supply)]
    return answer(state, "enough", columns, records, totals=totals, assumptions=assumptions)


def _shown(asked: Asked) -> tuple[Column, ...]:
    hidden = "days" if asked.of == "eaten" else "share_of_need"
    return tuple(replace(c, main=c.main and c.name != hidden) for c in COLUMNS)


def _place(record: dict[str, Any]) -> tuple[Any, ...]:
    is_sodium = record["nutrient"] == "sodium"
    share = record.get("share_of_need")
    return is_sodium, share is None, share or 0.0, record["nutrient"]


def _record(
    state: State, asked: Asked, eaters: Eaters, supply: Supply, figures: dict[str, Figure], n: int
) -> dict[str, Any]:
    name = NUTRIENTS[n]
    is_sodium = name == _SODIUM
    value = {column: number(figure.value(n)) for column, figure in figures.items()}
    known, share = value["share_known"], value["share_of_need"]
    record: dict[str, Any] = {
        "why": f"enough/{asked.address}/{name}",
        "nutrient": LABELS[name],
        "unit": UNITS[name],
        **value,
        "at_least": known is None or known < 1,
        "brought_by": supply.brought_by(n),
        "assumptions": ["doctor", "needs", *(["level"] if is_sodium else [])],
    }
    if share is not None and is_sodium:
        record["standing"] = "below the level" if share <= 1 else "above the level"
    elif share is not None:
        average, amount = eaters.average(name), value["supply"] or 0.0
        wanted = (value["need_per_day"] or 0.0) * asked.days
        record["standing"] = standing(
            amount, wanted, None if average is None else average * asked.days
        )
        if value["gap"]:
            record |= _closed(state, n, value)
    return record


def _closed(state: State, n: int, value: dict[str, float | None]) -> dict[str, Any]:
    """Return what closes a gap from the shop and from a bed, by name."""
    out: dict[str, Any] = {}
    bought, grown, facts = shop_of(state, n), bed_of(state, n), state.facts
    if bought is not None and value["shop_cost"] is not None:
        measures = state.settings.newest("measures", "us") or "us"
        whole = round(value["shop_cost"] / bought.price)
        text = format_whole(whole, facts.measure[bought.item], measures=measures)
        out |= {"shop_item": facts.names[bought.item], "shop_amount": amount_later(text)}
    return out | ({} if grown is None else {"bed_crop": facts.names[grown.item]})


def _totals(
    state: State,
    asked: Asked,
    eaters: Eaters,
    supply: Supply,
    records: list[dict[str, Any]],
    first: str | None,
) -> dict[str, Any]:
    totals: dict[str, Any] = {
        "people": eaters.count,
        "days_asked": asked.days,
        "share_known": supply.share_known,
        "short_first": first,
        "not_known": supply.not_known,
    }
    totals["in_words"] = _words(state, asked, records, first, supply.share_known)
    missing = []
    if not supply.food.items.size:
        missing.append(sentence("enough-nothing", of=Choice(asked.kind)))
    if supply.not_known:
        missing.append(
            sentence("enough-not-known-what-is-in", names=Names(tuple(supply.not_known), most=8))
        )
    if supply.no_weight:
        missing.append(
            sentence(
                "enough-no-weight-known-counts-nothing", names=Names(tuple(supply.no_weight[:8]))
            )
        )
    totals["missing"] = missing
    return totals


def _words(
    state: State, asked: Asked, records: list[dict[str, Any]], first: str | None,
    share_known: float,
) -> list[str]:  # fmt: skip
    out = []
    if asked.of == "eaten" and share_known >= LEAST_KNOWN:
        out.append(_eaten(asked, records))
    by_name = {r["nutrient"]: r for r in records}
    if first is not None:
        days = by_name[first]["days"]
        out.append(
            sentence(
                "enough-short-first",
                nutrient=fixed(first),
                n=decimals(days, 1),
                of=Choice(asked.kind),
            )
        )
        if first != "energy" and by_name["energy"].get("days") is not None:
            out.append(sentence("enough-energy-days", n=decimals(by_name["energy"]["days"], 1)))
    for record in [r for r in records if r.get("gap")][:3]:
        ways = []
        if record.get("shop_item"):
            ways.append(
                sentence(
                    "enough-from-shop",
                    amount=digits(record["shop_amount"]),
                    name=record["shop_item"],
                    price=paid(state, record["shop_cost"]),
                )
            )
        if record.get("bed_crop"):
            ways.append(
                sentence(
                    "enough-from-bed",
                    ground=measured(state, record["bed_m2"], "m2"),
                    crop=record["bed_crop"],
                )
            )
        if ways:
            out.append(
                sentence(
                    "enough-to-close",
                    n=about(asked.days),
                    nutrient=fixed(record["nutrient"]),
                    ways=Names(tuple(ways)),
                )
            )
    return out


def _eaten(asked: Asked, records: list[dict[str, Any]]) -> str:
    """Return of what least was eaten, and the period."""
    days = {"day": Day(day_text(asked.start)), "day2": Day(day_text(asked.end))}
    known = [r for r in records if r.get("share_of_need") is not None and r["nutrient"] != "sodium"]
    if not known:
        return sentence("enough-eaten-no-need", **days)
    least = min(known, key=lambda r: r["share_of_need"])
    energy = next((r["share_of_need"] for r in known if r["nutrient"] == "energy"), None)
    return sentence(
        "enough-eaten-least",
        **days,
        nutrient=fixed(least["nutrient"]),
        n=round(least["share_of_need"] * 100),
        energy=None if energy is None else round(energy * 100),
    )


PROJECTION = Projection(
    name="enough",
    title="Enough",
    question="Is it enough for us, of what do we run short first, and what would close the gap?",
    columns=COLUMNS,
    build=build,
    why=enough_why.why,
    options=(
        Option("of", "the pantry as it stands, what was eaten, or what next season's plan would bring", "pantry", choices=OF),
        Option("days", "for how many days there should be enough (30 unless said, 365 of next season)", "90"),
        Option("from", "of what was eaten: the first day", "2026-10-01", kind="day"),
        Option("to", "of what was eaten: the last day", "2026-10-31", kind="day"),
    ),
)  # fmt: skip
