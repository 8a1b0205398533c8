"""Why a figure of a week's putting up says so."""

from __future__ import annotations

from typing import TYPE_CHECKING
from urllib.parse import unquote

from ledger.errors import NotFound
from ledger.projections.base import Node
from ledger.questions.next_season.trees import Trees
from ledger.questions.planning.asked import from_address
from ledger.questions.planning.batches import Batches, Week
from ledger.questions.planning.plan import Plan
from ledger.questions.shared.arithmetic import difference, product, quotient, total
from ledger.questions.shared.common import event_node, whole_unit
from ledger.questions.shared.opening import check_figure
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["why_week"]


def why_week(state: State, week: str, more: list[str], field: str | None) -> Node:
    """Return a figure of one week's putting up as a tree (see `ledger.questions.next_season.why.why`)."""
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
            "address", f"nothing like {unquote(item)!r} is put up in the week of {week}",
            "Take an address from `croftbook show next-season --preserving --json`",
        )  # fmt: skip
    nodes = _Nodes(plan, batches, found).all()
    name = field or ("jars" if found.jars is not None else "raw_g")
    check_figure("next-season", name, nodes)
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
        wanted, left = self.week.jars, there.value
        if wanted is None or left is None:
            return Node("not in jars", None, what)
        if wanted <= float(left):
            return Node("enough", 0.0, what)
        return difference(f"{what} to get", what, Node(f"{what} wanted this week", float(wanted), what), there)  # fmt: skip
