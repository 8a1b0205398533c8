"""How long would we last without the shop, without power, without water?"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.errors import InputError
from ledger.messages import Choice, Day, Message, Names, Typed, sentence
from ledger.projections.base import Answer, Column, Option, Projection
from ledger.questions.food.nutrients import held
from ledger.questions.how_long import listed as how_long_list
from ledger.questions.how_long import why as how_long_why
from ledger.questions.how_long.figures import freezer_full, of_steps, of_water
from ledger.questions.how_long.gather import RATES
from ledger.questions.how_long.steps import Step, steps_of
from ledger.questions.how_long.water import Water, water_of
from ledger.questions.quantities import about, decimals
from ledger.questions.shared.common import answer, number
from ledger.questions.shared.larder import larder_of
from ledger.questions.shared.reserve import Kept
from ledger.questions.who_eats.eaters import eaters_of
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["COLUMNS", "PROJECTION", "WITHOUT", "build"]

WITHOUT = ("shop", "power", "water")
COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("step", "Step", "", "What is eaten, drunk or kept, in the order in which it is used.", main=True),
    Column("without", "Without", "", "shop, power or water."),
    Column("hours", "Hours", "hours", "How long it keeps cold, shut; null elsewhere.", main=True),
    Column("days", "Days", "days", "How long its energy or protein, whichever is less, lasts the household by itself; of water its litres. Null where it is not known.", main=True),
    Column("energy_days", "By energy", "days", "The same by energy alone."),
    Column("protein_days", "By protein", "days", "The same by protein alone."),
    Column("kg", "Weight", "kg", "Weight of it; null of water."),
    Column("what", "What", "", "The foods that bring most of its energy, or what the figure rests on.", main=True),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip


def build(
    state: State,
    *,
    without: str | Iterable[str] | None = None,
    water: str | None = None,
    to_add: bool = False,
) -> Answer:
    """Return one record a step; or what the published reserve lists have more of.

    Parameters
    ----------
    state : State
    without : {'shop', 'power', 'water'} or several, optional
        Default the shop.
    water : text, optional
        Water stored, ``120 L``; default what the book has of an item called water.
    to_add : bool
        Instead, one record a group of the reserve lists: wanted, there, to add.

    Returns
    -------
    Answer
        Columns as in `COLUMNS`, or those of the list.

    Raises
    ------
    InputError
        When an option is not what it may be.
    """
    stored = water_of(state, water)
    if to_add:
        return how_long_list.build(state, stored)
    wanted = _asked(without)
    eaters = eaters_of(state)
    records = _records(state, "power" if "power" in wanted else "shop", steps_of(state, wanted))
    if "water" in wanted:
        records += _water(state, stored)
    totals: dict[str, Any] = {"people": eaters.count, "without": list(wanted)}
    totals["in_words"] = _words(wanted, records)
    missing = (
        [] if larder_of(state).eatable.size else [sentence("reserve-no-food-house-written-down")]
    )
    if "water" in wanted and stored is None:
        missing.append(sentence("reserve-how-much-water-stored-not"))
    totals["missing"] = missing
    notes = [*_notes(state, wanted), *eaters.assumptions()]
    for record in records:
        record["assumptions"] = [note.id for note in notes]
    return answer(state, "how-long", COLUMNS, records, totals=totals, assumptions=notes)


def _asked(without: str | Iterable[str] | None) -> tuple[str, ...]:
    asked = (without,) if isinstance(without, str) else tuple(without or ("shop",))
    asked = tuple(part.strip() for one in asked for part in one.split(","))
    for one in asked:
        if one not in WITHOUT:
            raise InputError(
                "without",
                Message.of("refusal-not-one-of", text=Typed(one), words=Names(tuple(WITHOUT))),
            )
    return tuple(one for one in WITHOUT if one in asked)


def _records(state: State, without: str, steps: list[Step]) -> list[dict[str, Any]]:
    figures = of_steps(state, steps)
    return [
        {
            "why": f"how-long/{without}/{step.name}",
            "step": step.name,
            "without": without,
            **{name: number(one.value(row)) for name, one in figures.items()},
            "what": _most(state, step.food),
        }
        for row, step in enumerate(steps)
    ]


def _most(state: State, food: list[Kept]) -> list[str]:
    sums: dict[str, float] = {}
    names, energy = state.once(held).names, state.once(held).of(0).values
    for one in food:
        sums[names[one.row]] = sums.get(names[one.row], 0.0) + float(energy[one.row])
    return [name for name in sorted(sums, key=lambda n: (-sums[n], n)) if sums[name] > 0][:4]


def _water(state: State, stored: Water | None) -> list[dict[str, Any]]:
    days = of_water(state, stored)
    return [
        {
            "why": f"how-long/{'water' if stored is None else stored.address}/{name}",
            "step": name,
            "without": "water",
            "days": number(days.value(row)),
            "what": [sentence(said)],
        }
        for row, (name, _, _, said) in enumerate(RATES)
    ]


def _words(wanted: tuple[str, ...], records: list[dict[str, Any]]) -> list[str]:
    by_step = {r["step"]: r for r in records}
    out: list[str] = []
    is_known = any(r["days"] is not None for r in records if r["without"] != "water")
    if "power" in wanted and is_known:
        ready, warm = by_step["without stove or cold"], by_step["all that stands without cold"]
        out.append(
            sentence(
                "reserve-without-power",
                n=about(by_step["fridge"]["hours"]),
                freezer=_hours(by_step["freezer"]["hours"]),
                cold=decimals(ready["days"] or 0, 1),
                warm=decimals(warm["days"] or 0, 1),
            )
        )
    elif "shop" in wanted and is_known:
        out.append(
            sentence(
                "reserve-without-shop-days-all-table", n=decimals(by_step["all"]["days"] or 0, 1)
            )
        )
    if "water" in wanted and by_step["water to drink and cook"]["days"] is not None:
        drink, wash = (
            by_step["water to drink and cook"]["days"],
            by_step["water to drink and wash"]["days"],
        )
        out.append(
            sentence(
                "reserve-without-water-days-drink-cook", n=decimals(drink, 1), n2=decimals(wash, 1)
            )
        )
    return out


def _hours(hours: float | None) -> str:
    return (
        sentence("reserve-less-than-a-day")
        if hours is None
        else sentence("reserve-hours", n=round(hours))
    )


def _notes(state: State, wanted: tuple[str, ...]) -> list[Assumption]:
    out = [
        Assumption("not-in-it", sentence("reserve-medicines-infants-animals-not-these-2"), ()),
        Assumption(
            "two",
            sentence("reserve-days-energy-protein-whichever-less"),
        ),
    ]
    counted = state.events("counted")
    if counted.size:
        last = day_text(int(state.moment.on[counted].max()))
        out.append(Assumption("counted", sentence("reserve-stock-last-counted", day=Day(last))))
    else:
        out.append(Assumption("counted", sentence("reserve-stock-never-counted-sets-right")))
    if "power" in wanted:
        full = number(freezer_full(state).value(0))
        out.append(
            Assumption(
                "hours",
                sentence(
                    "reserve-shut-fridge-keeps",
                    full=None if full is None else round(full * 100),
                    how=Choice("half" if full is None or full >= 0.5 else "less"),
                ),
            )
        )
        out.append(
            Assumption(
                "thawed",
                sentence("reserve-throw-away-what-above-degrees"),
            )
        )
        out.append(Assumption("stove", sentence("reserve-what-eaten-without-stove-common")))
    if "water" in wanted:
        out.append(
            Assumption(
                "water",
                sentence("reserve-more-needed-heat-when-ill"),
            )
        )
    return out


PROJECTION = Projection(
    name="how-long",
    title="How long",
    question="How long would we last without the shop, without power, without water?",
    columns=COLUMNS,
    build=build,
    why=how_long_why.why,
    options=(
        Option("without", "what there is none of: shop, power or water; may be repeated", "power", kind="list"),
        Option("water", "how much water is stored", "120 L"),
        Option("to_add", "what the published reserve lists have more of than the house", "--to-add", kind="flag"),
    ),
    variants={"to_add": how_long_list.COLUMNS},
)  # fmt: skip
