"""An invented class of households: two seasons of each with a course between, and sheets drawn for a crowd.

Everything here is invented: it shows what a circle does and tests nothing about households.
"""

from __future__ import annotations

import datetime as dt
import random
import uuid
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

from ledger import clock
from ledger.circle import Call, Sheet

if TYPE_CHECKING:
    from ledger.book import Book

__all__ = ["NAME", "ZONES", "build", "call_for", "events", "last_season", "sheets", "zone_of"]

NAME = "Lower Fold canning class"
ZONES = ("5", "6")
_SPACE = uuid.UUID("c0ffee00-5eed-4a11-8b0c-2600f7000019")
_ASK = (
    "cost",
    "minutes",
    "unsealed_share",
    "short_share",
    "waste",
    "own_energy",
    "yield",
    "change_short",
    "change_unsealed",
    "change_minutes",
)
_FIRST_APPLES, _FIRST_PICKLES = (9, 5), (7, 20)

Body = dict[str, Any]


def last_season(today: dt.date | None = None) -> int:
    """Return the year of the newest season that is over: one ends with October."""
    today = today or clock.today()
    return today.year if today.month > 10 else today.year - 1


def call_for(year: int) -> Call:
    """Return the class's call for a season, with the one before the course."""
    return Call.make(
        NAME,
        year,
        (f"{year}-01-01", f"{year}-10-31"),
        products=["apple sauce/boiling water", "dill pickle/boiling water"],
        crops=["tomato", "cucumber"],
        zones=ZONES,
        ask=_ASK,
        before=(f"{year - 1}-01-01", f"{year - 1}-10-31"),
    )


def zone_of(number: int) -> str:
    """Return the zone of a household by its number: the second has few, and is put together with the first."""
    return ZONES[number % 5 == 0]


def events(number: int, year: int, seed: int = 19) -> Iterator[Body]:
    """Yield the events of one household: the season of `year` and the one before, the course between.

    Parameters
    ----------
    number : int
        Which household, from 0.
    """
    rng = random.Random(f"{seed}/{number}")
    told = [
        *_settings(year, rng),
        *_season(year - 1, rng, taught=False),
        *_season(year, rng, taught=True),
    ]
    for at, event in enumerate(sorted(told, key=lambda one: one["on"])):
        yield {**event, "id": str(uuid.uuid5(_SPACE, f"{seed}/{number}/{year}/{at}"))}


def build(book: Book, number: int, year: int, seed: int = 19) -> int:
    """Write a household into an empty book; return how many events that were."""
    from ledger.door import Answers

    lines = ((at, at, event) for at, event in enumerate(events(number, year, seed), 1))
    done = book.import_events(lines, answers=Answers(importing=True, yes={"future"}))
    if done.bad_count:
        raise RuntimeError(
            f"the demo's event {done.bad[0].number} was refused: {done.bad[0].problem}"
        )
    return book.log.count()


def _event(kind: str, on: dt.date | str, **body: Any) -> Body:
    return {"kind": kind, "on": str(on), "body": body}


def _settings(year: int, rng: random.Random) -> Iterator[Body]:
    day = f"{year - 1}-01-01"
    for name, value in {
        "people": str(rng.randint(2, 6)),
        "altitude": "1500 ft",
        "currency": "USD",
        "measures": "us",
        "kcal_per_person_day": "2100",
        "price_of_gas": "1.40 per therm",
        "labour_rate": "0 per hour",
    }.items():
        yield _event("setting_changed", day, name=name, value=value)
    for item, measure, more in (
        ("tomato", "mass", {"food": "11529", "kcal_per_100g": "18"}),
        ("cucumber", "mass", {"food": "11205", "kcal_per_100g": "15"}),
        ("apple", "mass", {"food": "09003", "kcal_per_100g": "52"}),
        ("potato", "mass", {"food": "11352", "kcal_per_100g": "77"}),
        ("flour", "mass", {"food": "20081", "kcal_per_100g": "364"}),
        ("salt", "mass", {"kcal_per_100g": "0"}),
        ("vinegar", "volume", {"kcal_per_100g": "18", "g_per_ml": "1.01"}),
        ("apple sauce", "volume", {"kcal_per_100g": "50", "g_per_ml": "1.03"}),
        ("dill pickle", "volume", {"kcal_per_100g": "12", "g_per_ml": "1.02"}),
    ):
        yield _event("item_described", day, item=item, sort="food", measure=measure, **more)
    yield _event(
        "item_described",
        day,
        item="pint jar",
        sort="jar",
        measure="count",
        holds="1 pt",
        years="10",
    )
    yield _event(
        "item_described",
        day,
        item="water-bath kettle",
        sort="equipment",
        measure="count",
        years="20",
    )
    bought = [
        {"item": "pint jar", "amount": "160", "paid": f"{rng.uniform(130, 190):.2f}"},
        {"item": "lid", "amount": "400", "paid": f"{rng.uniform(70, 130):.2f}"},
        {"item": "water-bath kettle", "amount": "1", "paid": f"{rng.uniform(35, 90):.2f}"},
        {"item": "salt", "amount": "20 lb", "paid": f"{rng.uniform(9, 16):.2f}"},
    ]
    yield _event("bought", day, lines=bought, shop="mill lane store")


def _season(year: int, rng: random.Random, *, taught: bool) -> Iterator[Body]:
    """Yield one season: a garden, two products, meals, and what is lost."""
    care = rng.betavariate(6, 2) if taught else rng.betavariate(3, 2)
    yield from _garden(year, rng)
    yield from _batches(year, rng, care, taught=taught)
    yield from _meals(year, rng, taught=taught)
    for month in (6, 8, 10):
        lost = rng.uniform(4, 30) * (1.2 - care)
        yield _event(
            "discarded",
            dt.date(year, month, 12),
            why="spoiled",
            lines=[{"item": "tomato" if month == 8 else "potato", "amount": f"{lost:.1f} lb"}],
        )


def _garden(year: int, rng: random.Random) -> Iterator[Body]:
    for crop, area, a_metre, weeks in (
        ("tomato", rng.uniform(6, 18), rng.gauss(3.2, 0.8), 7),
        ("cucumber", rng.uniform(4, 10), rng.gauss(3.0, 0.7), 6),
    ):
        work = [{"person": "one of us", "minutes": str(rng.randint(40, 120))}]
        yield _event(
            "planted",
            dt.date(year, 5, 20),
            crop=crop,
            plants=round(area * 3),
            area=f"{area:.1f} m2",
            how="set out",
            work=work,
        )
        for week in range(weeks):
            on = dt.date(year, 7, 10) + dt.timedelta(days=7 * week + rng.randint(0, 3))
            kilograms = max(area * max(a_metre, 0.8) / weeks * rng.uniform(0.6, 1.4), 0.5)
            yield _event("harvested", on, item=crop, amount=f"{kilograms:.1f} kg")
    for month in (7, 8):
        yield _event(
            "harvested",
            dt.date(year, month, 28),
            item="potato",
            amount=f"{rng.uniform(20, 120):.0f} lb",
        )
    for week in range(4):
        on = dt.date(year, 9, 1) + dt.timedelta(days=9 * week)
        yield _event("harvested", on, item="apple", amount=f"{rng.uniform(20, 45):.0f} lb")


def _batches(year: int, rng: random.Random, care: float, *, taught: bool) -> Iterator[Body]:
    for makes, first, times in (
        ("apple sauce", _FIRST_APPLES, rng.randint(2, 6)),
        ("dill pickle", _FIRST_PICKLES, rng.randint(1, 4)),
    ):
        for at in range(times):
            on = dt.date(year, *first) + dt.timedelta(days=6 * at + rng.randint(0, 2))
            yield from _batch(makes, on, rng, care, taught=taught)


def _batch(
    makes: str, on: dt.date, rng: random.Random, care: float, *, taught: bool
) -> Iterator[Body]:
    jars = rng.randint(7, 9)
    unsealed = sum(rng.random() < 0.12 * (1.15 - care) for _ in range(jars))
    minutes = rng.gauss(150 if taught else 175, 25) * (1.25 - 0.3 * care)
    work = [{"person": "one of us", "minutes": f"{max(minutes, 45):.0f}"}]
    common: Body = {
        "makes": makes,
        "method": "boiling water",
        "equipment": ["water-bath kettle"],
        "headspace": "1/2 in",
        "fuel": [{"metered": "gas", "amount": "0.25 therm"}],
        "work": work,
        "loads": 1,
        "made": [
            {
                "jars": jars,
                "jar": "pint jar",
                "kept": "shelf",
                **({"unsealed": unsealed} if unsealed else {}),
            }
        ],
    }
    short = rng.random() < (0.06 if taught else 0.3)
    if makes == "apple sauce":
        used = [{"item": "apple", "amount": f"{1.5 * jars:.1f} lb"}]
        yield _event("put_up", on, **common, used=used, pack="hot", minutes="15" if short else "20")
        return
    paid = f"{rng.uniform(2.6, 4.4):.2f}"
    yield _event("bought", on, lines=[{"item": "vinegar", "amount": "2 qt", "paid": paid}])
    used = [
        {"item": "cucumber", "amount": f"{jars:.0f} lb"},
        {"item": "vinegar", "amount": "6 cup"},
        {"item": "salt", "amount": "8 oz"},
    ]
    acid = [{"acid": "vinegar 5%", "amount": "6 cup", "per": "batch"}]
    yield _event(
        "put_up", on, **common, used=used, pack="raw", acid=acid, minutes="10" if short else "15"
    )


def _meals(year: int, rng: random.Random, *, taught: bool) -> Iterator[Body]:
    """Yield a meal a week that stands for the week's: most of it bought."""
    for week in range(42):
        on = dt.date(year, 1, 8) + dt.timedelta(days=7 * week)
        flour, potato = rng.uniform(5, 11), rng.uniform(6, 14)
        lines = [
            {"item": "flour", "amount": f"{flour:.1f} lb", "paid": f"{0.55 * flour:.2f}"},
            {"item": "potato", "amount": f"{potato + 1:.1f} lb", "paid": f"{0.95 * potato:.2f}"},
        ]
        yield _event("bought", on, lines=lines, shop="saturday market")
        ate = [
            {"item": "flour", "amount": f"{flour:.1f} lb"},
            {"item": "potato", "amount": f"{potato:.1f} lb"},
        ]
        if 29 <= week <= 38:
            ate.append({"item": "tomato", "amount": f"{rng.uniform(1, 3):.1f} kg"})
            ate.append({"item": "cucumber", "amount": f"{rng.uniform(0.3, 1):.1f} kg"})
        if week >= 40:
            ate.append({"item": "apple", "amount": f"{rng.uniform(3, 8):.1f} lb"})
        if taught and week % 3 == 0 and week < 15:  # what was put up the year before
            ate.append({"item": "apple sauce", "amount": f"{rng.randint(1, 2)} pint jars"})
        yield _event("eaten", on + dt.timedelta(days=1), ate=ate, people=rng.randint(2, 6))


def sheets(
    call: Call, cards: Sequence[str], seed: int = 19, made_on: str = "2026-11-01"
) -> Iterator[bytes]:
    """Yield a drawn sheet for each card, one line each: what a programme of thousands would gather."""
    rng = random.Random(seed)
    for at, card in enumerate(cards):
        figures = {name: _drawn(name, one.low, one.high, rng) for name, one in call.figures.items()}
        for part, whole in _PARTS:
            most = min(figures[whole] or 0, call.figures[part].high)
            figures[part] = (
                min(round(rng.expovariate(1 / (0.1 * most + 0.1))), most)
                if part != "judged"
                else most
            )
        yield (
            Sheet.make(call, card, call.zones[at % len(call.zones)], figures, made_on).to_bytes()
            + b"\n"
        )


_PARTS = (
    ("judged", "batches"), ("short", "judged"), ("no_process", "judged"), ("not_recorded", "judged"),
    ("unsealed", "canned"), ("kept_over_year", "kept"),
)  # fmt: skip
_MIDDLES = {
    "people": 4, "batches": 14, "skills": 18, "canned": 90, "kept": 60, "own_energy": 110, "own_weight": 240,
    "own_value": 260, "waste": 60, "hours": 110, "spent": 9_000, "saved": 12_000, "jars": 24, "cost": 240,
    "minutes": 26, "learning": 930, "area": 1200, "yield": 2600,
}  # fmt: skip


def _drawn(name: str, low: int, high: int, rng: random.Random) -> int | None:
    base = name.split("_", 1)[1] if name[0] in "pc" and name[1:2].isdigit() else name
    value = _MIDDLES.get(base, 10) * rng.lognormvariate(0, 0.55)
    if name.startswith("change_"):
        value = rng.gauss(-15, 60)
    if base in ("learning", "cost", "area") and rng.random() < 0.15:
        return None
    return min(max(round(value), low), high)
