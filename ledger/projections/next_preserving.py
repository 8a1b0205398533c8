"""The preserving that next season implies: what to put up in which week, with what and how long."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any
from urllib.parse import quote, unquote

from ledger.amounts import format_whole
from ledger.answers import Assumption
from ledger.errors import NotFound
from ledger.messages import Day, Message, Typed
from ledger.projections.base import Answer, Column, Node
from ledger.projections.next_asked import from_address
from ledger.projections.next_batches import Batches, Store, Week
from ledger.projections.next_plan import Plan
from ledger.projections.next_trees import Trees
from ledger.projections.next_words import Words
from ledger.questions.shared.arithmetic import product, quotient, total
from ledger.questions.shared.common import answer, event_node, whole_unit
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["COLUMNS", "answer_of", "why_week"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("week", "Week of", "day", "Its Monday; the week by whose end enough of the crop has come in, as it was picked in the seasons so far. Null where it was never picked.", main=True),
    Column("item", "To put up", "", "What is made.", main=True),
    Column("method", "Method", "", "How it was put up so far."),
    Column("batches", "Batches", "batches", "Of the size of one's own so far, the last of the year perhaps smaller.", main=True),
    Column("makes", "Makes", "", "In words.", main=True),
    Column("jar", "Jar", "", "The jar that most of it goes into; null when not in jars."),
    Column("jars", "Jars", "jars", "Whole jars, batch by batch."),
    Column("crop", "Crop", "", "The crop that most of it is, by weight."),
    Column("raw_g", "Of it", "g", "Of that crop, as picked."),
    Column("takes", "Takes", "", "All crops that go in, as picked, in words.", main=True),
    Column("loads", "Loads", "loads", "Canner loads, batch by batch, by the setting jars_per_load; null for other methods.", main=True),
    Column("jars_there", "Jars there", "jars", "What earlier weeks leave of the jars in the house, the full ones of today taken as empty by then."),
    Column("jars_to_get", "Jars to get", "jars", "What is lacking this week beside those."),
    Column("lid", "Lid", "", "Which lids the jars take."),
    Column("lids_there", "Lids there", "lids", "What earlier weeks leave of the lids in the house."),
    Column("lids_to_get", "Lids to get", "lids", "What is lacking this week beside those."),
    Column("hours", "Hours", "hours", "By one's own minutes for each jar (or amount) so far, cooking beforehand included; null where none were written down.", main=True),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip

_TEXTS = {
    "weeks-as-before": "The crop comes in as in the seasons so far, moved to next season day by day.",
    "batches-as-before": "Batches, jars and minutes are those of your own batches in the year up to the newest of each.",
    "full-jars-emptied": "Jars that are full today count as empty by then.",
}
_FIRST = "How long, how hot and how much acid is not said here: follow the published, tested process for that jar and altitude (`croftbook show as-published`)."


def answer_of(plan: Plan) -> Answer:
    """Return one record a week and product; `totals` has jars, lids, hours and loads."""
    batches, words = Batches(plan), Words(plan)
    records = [_record(plan, batches, words, week) for week in batches.weeks]
    used = {one for record in records for one in record["assumptions"]}
    hours = [r["hours"] for r in records if r["hours"] is not None]
    totals: dict[str, Any] = {
        "season": plan.garden.next,
        "jars": {jar: _store(one) for jar, one in batches.jars.items()},
        "lids": {lid: _store(one) for lid, one in batches.lids.items()},
        "loads": sum(r["loads"] or 0 for r in records),
        "hours": sum(hours) if hours else None,
        "in_words": _in_words(batches, records),
        "missing": _missing(words, records),
    }
    return answer(
        plan.state, "next-season", COLUMNS, records, totals=totals,
        assumptions=[Assumption(name, text) for name, text in _TEXTS.items() if name in used],
    )  # fmt: skip


def _record(plan: Plan, batches: Batches, words: Words, week: Week) -> dict[str, Any]:
    facts, made = plan.state.facts, plan.recipes.made[week.item]
    jar, name = batches.jar(week.item), facts.names[week.item]
    day = None if week.day is None else day_text(week.day)
    address = f"next-season/week={day or 'unknown'}/{quote(name, safe=' ')}"
    asked = plan.asked.address
    each = plan.recipes.minutes_each(week.item)
    said = format_whole(round(week.amount), facts.measure[week.item], measures=words.measures)
    if week.jars is not None:
        said = f"{week.jars} {jar or 'jar'}" + ("" if week.jars == 1 else "s")
    rests = ["batches-as-before"] + (["weeks-as-before"] if day else [])
    return {
        "why": address + (f"/{asked}" if asked else ""),
        "week": day,
        "item": name,
        "method": made.method,
        "batches": week.batches,
        "makes": said,
        "jar": jar,
        "jars": week.jars,
        "crop": week.crop.name,
        "raw_g": _raw(plan, week, week.crop.item, week.crop.kept),
        "takes": _takes(plan, words, week),
        "loads": week.loads,
        "jars_there": week.jars_there,
        "jars_to_get": _to_get(week.jars, week.jars_there),
        "lid": None if week.jars_there is None else batches.lid(week.item),
        "lids_there": week.lids_there,
        "lids_to_get": _to_get(week.jars, week.lids_there),
        "hours": None if each is None else week.amount * each / 60,
        "assumptions": rests + (["full-jars-emptied"] if week.jars_there is not None else []),
    }


def _raw(plan: Plan, week: Week, crop: int, kept: float) -> float | None:
    per = plan.state.facts.grams_per_whole(crop)
    return None if per is None else week.amount * plan.recipes.take(week.item, crop, 1) * per / kept


def _takes(plan: Plan, words: Words, week: Week) -> str:
    found = [(_raw(plan, week, c.item, c.kept) or 0.0, c.name) for c in plan.crops]
    return ", ".join(f"{words.weight(g)} {name}" for g, name in sorted(found, reverse=True) if g)


def _to_get(wanted: int | None, there: int | None) -> int | None:
    return None if wanted is None or there is None else max(0, wanted - there)


def _store(one: Store) -> dict[str, int]:
    full = {} if one.full is None else {"full now": one.full}
    return {
        "wanted": one.wanted,
        "empty" if full else "there": one.there,
        **full,
        "to get": one.to_get,
    }


def _in_words(batches: Batches, records: list[dict[str, Any]]) -> list[str]:
    if not records:
        return []
    out = []
    for name, one in [*batches.jars.items(), *batches.lids.items()]:
        there = (
            f"{one.there} in hand"
            if one.full is None
            else f"{one.there} empty and {one.full} full now"
        )
        gap = f"{one.to_get} to get" if one.to_get else "enough"
        out.append(f"{name}s: {one.wanted} wanted, {there}; {gap}.")
    by_week: dict[str, float] = {}
    for record in records:
        if record["week"] and record["hours"]:
            by_week[record["week"]] = by_week.get(record["week"], 0.0) + record["hours"]
    if by_week:
        most = max(by_week, key=lambda week: by_week[week])
        out.append(f"{sum(by_week.values()):.0f} hours in all; most in the week of {most}: {by_week[most]:.0f}.")  # fmt: skip
    return [*out, _FIRST]


def _missing(words: Words, records: list[dict[str, Any]]) -> list[str]:
    out = [] if records else ["Nothing that keeps is wanted of what grows here: `croftbook target` or a batch (`croftbook putup`) says what is."]  # fmt: skip
    late = sorted({r["crop"] for r in records if r["week"] is None})
    out += [f"When {name} is picked is not known yet: its pickings tell (`croftbook harvest`)." for name in late]  # fmt: skip
    idle = sorted({r["item"] for r in records if r["hours"] is None})
    out += [f"No hours of {', '.join(idle)} are written down: `croftbook putup --work` takes them."] if idle else []  # fmt: skip
    return out + words.missing_of_use()


# -- why ---------------------------------------------------------------------------------


def why_week(state: State, week: str, more: list[str], field: str | None) -> Node:
    """Return a figure of one week's putting up as a tree (see `_next_why.why`)."""
    from ledger.projections.next_why import refuse

    item, *asked = more or [""]
    plan = Plan(state, from_address(state, asked))
    batches = Batches(plan)
    number = state.facts.find(unquote(item))
    found = next(
        (
            w for w in batches.weeks
            if w.item == number and week == ("unknown" if w.day is None else day_text(w.day))
        ),
        None,
    )  # fmt: skip
    if found is None:
        raise NotFound(
            "address",
            Message.of("refusal-not-put-up-in-week", text=Typed(unquote(item)), week=Day(week)),
        )
    nodes = _Nodes(plan, batches, found).all()
    name = field or ("jars" if found.jars is not None else "raw_g")
    if name not in nodes:
        raise refuse(name, list(nodes))
    return nodes[name]


class _Nodes:
    """The figures of one week."""

    def __init__(self, plan: Plan, batches: Batches, week: Week) -> None:
        self.plan, self.batches, self.week = plan, batches, week
        self.trees = Trees(plan)
        self.name = plan.state.facts.names[week.item]
        self.whole_unit = whole_unit(plan.state, week.item)

    def all(self) -> dict[str, Node]:
        """Return every figure by its column."""
        week = self.week
        counted = {
            "batches": (week.batches, "as the harvest by weeks allows"),
            "loads": (week.loads, "each batch by the setting jars_per_load"),
            "jars_there": (week.jars_there, "what earlier weeks leave of the jars"),
            "lids_there": (week.lids_there, "what earlier weeks leave of the lids"),
        }
        out = {n: Node(label, None if v is None else float(v), n.partition("_")[0]) for n, (v, label) in counted.items()}  # fmt: skip
        return {
            **out,
            "jars": self._jars(),
            "raw_g": self._raw(),
            "hours": self._hours(),
            "jars_to_get": self._to_get("jars", out["jars_there"]),
            "lids_to_get": self._to_get("lids", out["lids_there"]),
        }

    def _amount(self) -> Node:
        recipes, item = self.plan.recipes, self.week.item
        parts = []
        for one, want in self.plan.wants.of.items():
            if not recipes.take(one, item, 1):
                continue
            node = self.trees.want(want, 1)
            if one != item:
                node = product(f"{self.name} for it", self.whole_unit, node, self.trees.take(one, item, 1))  # fmt: skip
            parts.append(node)
        year = (
            parts[0]
            if len(parts) == 1
            else total(f"{self.name} wanted in a year", self.whole_unit, *parts)
        )
        share = Node(
            "part of it this week, as the harvest by weeks allows", self.week.share, "0 to 1"
        )
        return product(f"{self.name} this week", self.whole_unit, year, share)

    def _jars(self) -> Node:
        made = self.plan.recipes.made[self.week.item]
        if self.week.jars is None or not made.per_jar:
            return Node("not put up in jars", None, "jars")
        jar = self.batches.jar(self.week.item) or "jar"
        jars = quotient("jars by amount", "jars", self._amount(), Node(f"in one {jar}", made.per_jar, self.whole_unit))  # fmt: skip
        up = Node(
            "up to whole jars, batch by batch", self.week.jars - float(jars.value or 0), "jars"
        )
        return total("jars", "jars", jars, up)

    def _raw(self) -> Node:
        crop = self.week.crop
        per = self.plan.state.facts.grams_per_whole(crop.item)
        if per is None:
            return Node("no weight of it is known", None, "g")
        grams = product(
            f"{crop.name} in it", "g", self._amount(), self.trees.take(self.week.item, crop.item, 1),
            Node("grams in one whole unit", per, "g"),
        )  # fmt: skip
        kept = Node("share left after trimming", crop.kept, "0 to 1")
        return quotient(f"{crop.name}, as picked", "g", grams, kept)

    def _hours(self) -> Node:
        if self.plan.recipes.minutes_each(self.week.item) is None:
            return Node("no work was written down", None, "hours")
        minutes = product("minutes", "minutes", self._amount(), self._each(self.week.item))
        return quotient("hours", "hours", minutes, Node("minutes in an hour", 60.0, "minutes"))

    def _each(self, item: int) -> Node:
        recipes, state = self.plan.recipes, self.plan.state
        known, gave = recipes.minutes(item)
        name = state.facts.names[item]
        work = [event_node(state, ev, "", minutes, "minutes") for ev, minutes in known.items()]
        parts = [
            quotient(
                f"minutes for one of {name}", "minutes", total("work", "minutes", *work),
                Node("these batches gave", gave, whole_unit(state, item)),
            )
        ]  # fmt: skip
        for one in recipes.cooked_for(item):
            if recipes.minutes_each(one) is not None:
                parts.append(product(f"{state.facts.names[one]} cooked for it", "minutes", self.trees.rate(item, one, 1), self._each(one)))  # fmt: skip
        return (
            parts[0]
            if len(parts) == 1
            else total(f"minutes for one of {name}, all told", "minutes", *parts)
        )

    def _to_get(self, what: str, there: Node) -> Node:
        from ledger.questions.shared.arithmetic import difference

        wanted, left = self.week.jars, there.value
        if wanted is None or left is None:
            return Node("not in jars", None, what)
        if wanted <= float(left):
            return Node("enough", 0.0, what)
        return difference(f"{what} to get", what, Node(f"{what} wanted this week", float(wanted), what), there)  # fmt: skip
