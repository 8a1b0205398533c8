"""Why a figure of a week's putting up says so."""

from __future__ import annotations

from typing import TYPE_CHECKING
from urllib.parse import unquote

from ledger.errors import NotFound
from ledger.messages import sentence
from ledger.messages.units import unit as unit_name
from ledger.messages.words import fixed
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
            "batches": (week.batches, sentence("why-harvest-weeks-allows")),
            "loads": (week.loads, sentence("why-each-batch-setting-jars-per")),
            "jars_there": (week.jars_there, sentence("why-what-earlier-weeks-leave-jars")),
            "lids_there": (week.lids_there, sentence("why-what-earlier-weeks-leave-lids")),
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
                node = product(sentence("why-for-it", name=self.name), self.whole_unit, node, self.trees.take(one, item, 1))  # fmt: skip
            parts.append(node)
        year = (
            parts[0]
            if len(parts) == 1
            else total(sentence("why-crop-wanted-in-year", name=self.name), self.whole_unit, *parts)
        )
        share = Node(sentence("why-part-week-harvest-weeks-allows"), self.week.share, "0 to 1")
        return product(sentence("why-this-week", name=self.name), self.whole_unit, year, share)

    def _jars(self) -> Node:
        made = self.plan.recipes.made[self.week.item]
        if self.week.jars is None or not made.per_jar:
            return Node(sentence("why-not-put-up-in-jars"), None, "jars")
        jar = self.batches.jar(self.week.item) or "jar"
        jars = quotient(sentence("why-jars-amount"), "jars", self._amount(), Node(sentence("why-in-one-jar", jar=fixed(jar)), made.per_jar, self.whole_unit))  # fmt: skip
        up = Node(
            sentence("why-up-whole-jars-batch-batch"),
            self.week.jars - float(jars.value or 0),
            "jars",
        )
        return total(sentence("why-jars"), "jars", jars, up)

    def _raw(self) -> Node:
        crop = self.week.crop
        per = self.plan.state.facts.grams_per_whole(crop.item)
        if per is None:
            return Node(sentence("why-no-weight-known"), None, "g")
        grams = product(
            sentence("why-in-it", name=crop.name), "g", self._amount(), self.trees.take(self.week.item, crop.item, 1),
            Node(sentence("why-grams-one-whole-unit"), per, "g"),
        )  # fmt: skip
        kept = Node(sentence("why-share-left-after-trimming"), crop.kept, "0 to 1")
        return quotient(sentence("why-as-picked", name=crop.name), "g", grams, kept)

    def _hours(self) -> Node:
        if self.plan.recipes.minutes_each(self.week.item) is None:
            return Node(sentence("why-no-work"), None, "hours")
        minutes = product(
            sentence("why-minutes"), "minutes", self._amount(), self._each(self.week.item)
        )
        return quotient(
            sentence("why-hours"), "hours", minutes, Node(sentence("why-per-hour"), 60.0, "minutes")
        )

    def _each(self, item: int) -> Node:
        recipes, state = self.plan.recipes, self.plan.state
        known, gave = recipes.minutes(item)
        name = state.facts.names[item]
        work = [event_node(state, ev, "", minutes, "minutes") for ev, minutes in known.items()]
        parts = [
            quotient(
                sentence("why-minutes-one", name=name), "minutes", total(sentence("why-note-work"), "minutes", *work),
                Node(sentence("why-these-batches-gave"), gave, whole_unit(state, item)),
            )
        ]  # fmt: skip
        for one in recipes.cooked_for(item):
            if recipes.minutes_each(one) is not None:
                parts.append(product(sentence("why-cooked", name=state.facts.names[one]), "minutes", self.trees.rate(item, one, 1), self._each(one)))  # fmt: skip
        return (
            parts[0]
            if len(parts) == 1
            else total(sentence("why-minutes-one-all-told", name=name), "minutes", *parts)
        )

    def _to_get(self, what: str, there: Node) -> Node:
        wanted, left = self.week.jars, there.value
        if wanted is None or left is None:
            return Node(sentence("why-not-in-jars"), None, what)
        if wanted <= float(left):
            return Node(sentence("why-enough"), 0.0, what)
        return difference(sentence("why-to-get", what=unit_name(what)), what, Node(sentence("why-wanted-week", what=unit_name(what)), float(wanted), what), there)  # fmt: skip
