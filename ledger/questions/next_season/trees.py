"""Trees of what a crop is wanted for: jars and plates, through recipes, to events."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from ledger.messages import Day, measured, sentence
from ledger.messages.words import fixed
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

_HOW = {"lowest": "why-lowest", "highest": "why-highest"}
_THAT = {None: "why-crop-into-made", True: "why-crop-into-jars", False: "why-crop-elsewhere"}


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
                sentence("why-wanted-as-asked", name=name, said=want.said),
                want.whole[level],
                whole_unit(self.state, want.item),
            )
        if want.source == "target" and want.ev is not None:
            target = self.wants.targets[want.item]
            unit = whole_unit(self.state, want.item)
            leaf = event_node(self.state, want.ev, "", target.amount * 1000, unit)
            times = Node(sentence("why-times-a-year"), float(target.times or 1), "")
            return product(sentence("why-crop-wanted-in-year", name=name), unit, leaf, times)
        unit = whole_unit(self.state, want.item)
        plain = self._used(want, level, name, unit)
        if want.liked is None:
            return plain
        said = sentence("why-liked", n=measured(f"{want.liked.mean:.1f}"), n2=want.liked.meals)
        return product(sentence("why-crop-wanted-in-year", name=name), unit, plain, Node(said, want.liked.factor, "times"))  # fmt: skip

    def _used(self, want: Want, level: Level, name: str, unit: str) -> Node:
        """Return what the last year took, or the years with the least or the most."""
        last = self._sum(
            sentence("why-as-said", name=name, said=want.said), unit, self.wants.used(want.item)
        )
        if level == 1 or self.wants.years == 1:
            return last
        years = [last] + [
            Node(
                sentence("why-year-back", name=name, n=back + 1),
                self.wants.in_year(want.item, back),
                unit,
            )
            for back in range(1, self.wants.years)
        ]
        how = "lowest" if level == 0 else "highest"
        return among(
            how, sentence("why-years", how=sentence(_HOW[how]), n=len(years)), unit, *years
        )

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
        label = sentence("why-in-one-of", name=names[part], item=names[made])
        takes, gives_ = whole_unit(self.state, part), whole_unit(self.state, made)
        if one.recipe is not None:
            ev, used, gives = one.recipe
            leaf = event_node(self.state, ev, "", float(used), takes)
            return quotient(
                sentence("why-by-recipe", what=label),
                "",
                leaf,
                Node(sentence("why-it-gives"), float(gives), gives_),
            )
        if level == 1:
            used_ = self._sum(
                sentence("why-name-used", name=names[part]), takes, list(one.used.items())
            )
            return quotient(label, "", used_, self._sum(sentence("why-item-made", item=names[made]), gives_, list(entry.batches.items())))  # fmt: skip
        batches = [
            quotient(
                sentence("why-batch-of", day=Day(day_text(int(self.state.moment.on[ev])))), "",
                event_node(self.state, ev, "", float(one.used.get(ev, 0)), takes),
                Node(sentence("why-made-amount"), float(whole), gives_),
            )
            for ev, whole in entry.batches.items()
        ]  # fmt: skip
        how = "lowest" if level == 0 else "highest"
        return among(
            how, sentence("why-among-batches", what=label, how=sentence(_HOW[how])), "", *batches
        )

    def take(self, made: int, of: int, level: Level) -> Node:
        """Return what one of a made item takes of a crop, through batches of batches."""
        names = self.state.facts.names
        parts = []
        for part in self.recipes.made[made].parts:
            if part == of:
                parts.append(self.rate(made, part, level))
            elif part in self.recipes.made and self.recipes.take(part, of, level) > 0:
                rate = self.rate(made, part, level)
                parts.append(product(sentence("why-through", name=names[part]), "", rate, self.take(part, of, level)))  # fmt: skip
        return (
            parts[0]
            if len(parts) == 1
            else total(sentence("why-in-one-of", name=names[of], item=names[made]), "", *parts)
        )

    # -- a crop --------------------------------------------------------------------------

    def fresh(self, crop: CropPlan, level: Level) -> Node:
        """Return what is wanted of a crop as it is, in grams."""
        if crop.fresh[level] is None:
            return Node(sentence("why-no-weight-known"), None, "g")
        want, unit = self.wants.of.get(crop.item), whole_unit(self.state, crop.item)
        parts = []
        if want is not None and want.source == "use":
            parts.append(self.want(want, level))
        elif want is not None:
            into = total(sentence("why-of-that-put-up"), unit, *self._into(crop, level))
            whole = self.want(want, level)
            if crop.fresh[level]:
                parts.append(difference(sentence("why-rest-of-it"), unit, whole, into))
        if want is None or want.source == "use":
            seeds = self.wants.seeded(crop.item)
            parts += (
                [self._sum(sentence("why-kept-seed", name=crop.name), unit, seeds)] if seeds else []
            )
        return product(sentence("why-as-it-is", name=crop.name), "g", total(sentence("why-an-amount"), unit, *parts), self._per(crop))  # fmt: skip

    def made(self, crop: CropPlan, level: Level, *, jars: bool | None = None) -> Node:
        """Return what is made takes of a crop, in grams: all, what is in jars, or what is not."""
        if crop.made[level] is None:
            return Node(sentence("why-no-weight-known"), None, "g")
        label = _THAT[jars]
        return product(
            sentence(label, name=crop.name), "g",
            total(sentence("why-in-all"), whole_unit(self.state, crop.item), *self._into(crop, level, jars)), self._per(crop),
        )  # fmt: skip

    def _into(self, crop: CropPlan, level: Level, jars: bool | None = None) -> list[Node]:
        names, unit = self.state.facts.names, whole_unit(self.state, crop.item)
        return [
            product(sentence("why-for-item", name=crop.name, item=names[want.item]), unit, self.want(want, level), self.take(want.item, crop.item, level))
            for want, _ in self.plan.into(crop.item, level)
            if jars is None or (self.plan.jars_of(want) is not None) == jars
        ]  # fmt: skip

    def _per(self, crop: CropPlan) -> Node:
        per = self.state.facts.grams_per_whole(crop.item)
        return Node(sentence("why-grams-one-whole-unit"), per, "g")

    def jars(self, crop: CropPlan) -> Node:
        """Return the jars of everything in jars that a crop goes into."""
        if crop.jars is None:
            return Node(sentence("why-goes-into-no-jar"), None, "jars")
        parts = []
        for want, _ in crop.products:
            made = self.recipes.made.get(want.item)
            if made is None or not made.per_jar:
                continue
            jar = "jar" if made.jar is None else self.state.facts.names[made.jar]
            each = Node(
                sentence("why-in-one-jar", jar=fixed(jar)),
                made.per_jar,
                whole_unit(self.state, want.item),
            )
            name = self.state.facts.names[want.item]
            parts.append(
                quotient(sentence("why-jars-of", name=name), "jars", self.want(want, 1), each)
            )
        return total(sentence("why-jars"), "jars", *parts)
