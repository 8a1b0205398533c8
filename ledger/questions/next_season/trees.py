"""Trees of what a crop is wanted for: jars and plates, through recipes, to events."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from ledger.projections.base import Node
from ledger.questions.planning.wants import Level, Want
from ledger.questions.shared.arithmetic import among, difference, product, quotient, total
from ledger.questions.shared.common import event_node, whole_unit
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.questions.planning.plan import CropPlan, Plan

__all__ = ["Trees"]

_MANY = 40
"""Events named one by one in one sum; more are summed by month."""


class Trees:
    """Builds the trees of one plan."""

    def __init__(self, plan: Plan) -> None:
        self.plan, self.state = plan, plan.state
        self.recipes, self.wants = plan.recipes, plan.wants

    # -- wants ---------------------------------------------------------------------------

    def want(self, want: Want, level: Level) -> Node:
        """Return what a year takes of an item."""
        name = self.state.facts.names[want.item]
        if want.source == "asked":
            return Node(
                f"{name} wanted: {want.said}", want.whole[level], whole_unit(self.state, want.item)
            )
        if want.source == "target" and want.ev is not None:
            target = self.wants.targets[want.item]
            unit = whole_unit(self.state, want.item)
            leaf = event_node(self.state, want.ev, "", target.amount * 1000, unit)
            times = Node("times a year", float(target.times or 1), "")
            return product(f"{name} wanted in a year", unit, leaf, times)
        unit = whole_unit(self.state, want.item)
        plain = self._used(want, level, name, unit)
        if want.liked is None:
            return plain
        said = f"liked {want.liked.mean:.1f} of 5 in {want.liked.meals} meals"
        return product(f"{name} wanted in a year", unit, plain, Node(said, want.liked.factor, "times"))  # fmt: skip

    def _used(self, want: Want, level: Level, name: str, unit: str) -> Node:
        """Return what the last year took, or the years with the least or the most."""
        last = self._sum(f"{name} {want.said}", unit, self.wants.used(want.item))
        if level == 1 or self.wants.years == 1:
            return last
        years = [last] + [
            Node(f"{name} in year {back + 1} back", self.wants.in_year(want.item, back), unit)
            for back in range(1, self.wants.years)
        ]
        how = "lowest" if level == 0 else "highest"
        return among(how, f"the {how} of {len(years)} years", unit, *years)

    def _sum(self, label: str, unit: str, events: Sequence[tuple[int, int]]) -> Node:
        if len(events) <= _MANY:
            return total(label, unit, *self._leaves(unit, events))
        months: dict[str, list[tuple[int, int]]] = {}
        for ev, whole in events:
            months.setdefault(day_text(int(self.state.moment.on[ev]))[:7], []).append((ev, whole))
        parts = [total(month, unit, *self._leaves(unit, some)) for month, some in months.items()]
        return total(label, unit, *parts)

    def _leaves(self, unit: str, events: Sequence[tuple[int, int]]) -> list[Node]:
        return [event_node(self.state, ev, "", float(whole), unit) for ev, whole in events]

    # -- recipes -------------------------------------------------------------------------

    def rate(self, made: int, part: int, level: Level) -> Node:
        """Return what one of a made item takes of a thing that goes straight in."""
        names = self.state.facts.names
        entry = self.recipes.made[made]
        one = entry.parts[part]
        label = f"{names[part]} in one of {names[made]}"
        takes, gives_ = whole_unit(self.state, part), whole_unit(self.state, made)
        if one.recipe is not None:
            ev, used, gives = one.recipe
            leaf = event_node(self.state, ev, "", float(used), takes)
            return quotient(f"{label}, by recipe", "", leaf, Node("it gives", float(gives), gives_))
        if level == 1:
            used_ = self._sum(f"{names[part]} used", takes, list(one.used.items()))
            return quotient(label, "", used_, self._sum(f"{names[made]} made", gives_, list(entry.batches.items())))  # fmt: skip
        batches = [
            quotient(
                f"batch of {day_text(int(self.state.moment.on[ev]))}", "",
                event_node(self.state, ev, "", float(one.used.get(ev, 0)), takes),
                Node("made", float(whole), gives_),
            )
            for ev, whole in entry.batches.items()
        ]  # fmt: skip
        how = "lowest" if level == 0 else "highest"
        return among(how, f"{label}: the {how} of its batches", "", *batches)

    def take(self, made: int, of: int, level: Level) -> Node:
        """Return what one of a made item takes of a crop, through batches of batches."""
        names = self.state.facts.names
        parts = []
        for part in self.recipes.made[made].parts:
            if part == of:
                parts.append(self.rate(made, part, level))
            elif part in self.recipes.made and self.recipes.take(part, of, level) > 0:
                rate = self.rate(made, part, level)
                parts.append(product(f"through {names[part]}", "", rate, self.take(part, of, level)))  # fmt: skip
        return (
            parts[0]
            if len(parts) == 1
            else total(f"{names[of]} in one of {names[made]}", "", *parts)
        )

    # -- a crop --------------------------------------------------------------------------

    def fresh(self, crop: CropPlan, level: Level) -> Node:
        """Return what is wanted of a crop as it is, in grams."""
        if crop.fresh[level] is None:
            return Node("no weight of it is known", None, "g")
        want, unit = self.wants.of.get(crop.item), whole_unit(self.state, crop.item)
        parts = []
        if want is not None and want.source == "use":
            parts.append(self.want(want, level))
        elif want is not None:
            into = total("of that, put up", unit, *self._into(crop, level))
            whole = self.want(want, level)
            if crop.fresh[level]:
                parts.append(difference("the rest of it", unit, whole, into))
        if want is None or want.source == "use":
            seeds = self.wants.seeded(crop.item)
            parts += [self._sum(f"{crop.name} kept for seed", unit, seeds)] if seeds else []
        return product(f"{crop.name} as it is", "g", total("wanted", unit, *parts), self._per(crop))  # fmt: skip

    def made(self, crop: CropPlan, level: Level, *, jars: bool | None = None) -> Node:
        """Return what is made takes of a crop, in grams: all, what is in jars, or what is not."""
        if crop.made[level] is None:
            return Node("no weight of it is known", None, "g")
        label = {None: "goes into what is made", True: "goes into jars", False: "goes elsewhere"}[jars]  # fmt: skip
        return product(
            f"{crop.name} that {label}", "g",
            total("in all", whole_unit(self.state, crop.item), *self._into(crop, level, jars)), self._per(crop),
        )  # fmt: skip

    def _into(self, crop: CropPlan, level: Level, jars: bool | None = None) -> list[Node]:
        names, unit = self.state.facts.names, whole_unit(self.state, crop.item)
        return [
            product(f"{crop.name} for {names[want.item]}", unit, self.want(want, level), self.take(want.item, crop.item, level))
            for want, _ in self.plan.into(crop.item, level)
            if jars is None or (self.plan.jars_of(want) is not None) == jars
        ]  # fmt: skip

    def _per(self, crop: CropPlan) -> Node:
        per = self.state.facts.grams_per_whole(crop.item)
        return Node("grams in one whole unit", per, "g")

    def jars(self, crop: CropPlan) -> Node:
        """Return the jars of everything in jars that a crop goes into."""
        if crop.jars is None:
            return Node("it goes into no jar", None, "jars")
        parts = []
        for want, _ in crop.products:
            made = self.recipes.made.get(want.item)
            if made is None or not made.per_jar:
                continue
            jar = "jar" if made.jar is None else self.state.facts.names[made.jar]
            each = Node(f"in one {jar}", made.per_jar, whole_unit(self.state, want.item))
            name = self.state.facts.names[want.item]
            parts.append(quotient(f"jars of {name}", "jars", self.want(want, 1), each))
        return total("jars", "jars", *parts)
