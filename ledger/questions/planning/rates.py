"""What one of each made item takes of each thing, as figures: straight, and through batches of batches."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array, Figure, Groups, choose, known_where, method, said, solved, total
from ledger.messages import fixed, sentence
from ledger.questions.costs.sources import Sources
from ledger.questions.planning.wants import HOW, LEVELS
from ledger.questions.quantities import whole_unit
from ledger.questions.telling import label_day

if TYPE_CHECKING:
    from ledger.questions.planning.recipes import Part, Recipes

__all__ = ["Rates"]

_LIKELY = LEVELS.index("likely")


class Rates:
    """The rates of recipes, from the batches and recipes that were found.

    Attributes
    ----------
    place : dict of int to int
        Of whatever is made or goes in.
    makes, goes_in : ndarray of int, shape (edges,)
        Items: the second goes straight into the first.
    straight : list of Figure
        By level: whole units of the second for each of the first, shape (edges,).
    row : dict of int to int
        Rows of the made items.
    """

    def __init__(self, recipes: Recipes) -> None:
        self.recipes, self.state, self.made = recipes, recipes.state, recipes.made
        self._sources, self._names = self.state.once(Sources), self.state.facts.names
        items = sorted({*self.made, *(i for one in self.made.values() for i in one.parts)})
        self.place = {item: at for at, item in enumerate(items)}
        self._items = np.array(items, np.int64)
        edges = [(item, part) for item, one in self.made.items() for part in one.parts]
        self.makes, self.goes_in = np.array(edges, np.int64).reshape(-1, 2).T
        self.row = {item: at for at, item in enumerate(self.made)}
        self.straight = self._straight()

    def _per(self, of: Array, one: Array) -> Callable[[int], str]:
        """Return the unit of so much of one thing for each of another."""
        state = self.state
        return lambda row: (
            f"{whole_unit(state, int(of[row]))} per {whole_unit(state, int(one[row]))}"
        )

    # -- straight -------------------------------------------------------------------------

    def _straight(self) -> list[Figure]:
        parts = [
            self.made[item].parts[part]
            for item, part in zip(self.makes.tolist(), self.goes_in.tolist(), strict=True)
        ]
        written = np.array([part.recipe is not None for part in parts], bool)
        by_recipe = self._by_recipe(parts)
        return [choose(written, by_recipe, one) for one in self._by_batches(parts)]

    def _what(self, edge: int) -> str:
        names = self._names
        return sentence(
            "why-in-one-of",
            name=names[int(self.goes_in[edge])],
            item=names[int(self.makes[edge])],
        )

    def _by_recipe(self, parts: list[Part]) -> Figure:
        ev, used, gives = np.array([p.recipe or (-1, 0, 1) for p in parts]).reshape(-1, 3).T
        takes = said(used, self._sources.whole_of(self.goes_in), ev)
        whole = said(gives, self._sources.whole_of(self.makes), ev).called("it-gives")
        unit = self._per(self.goes_in, self.makes)
        return (takes / whole).called("by-recipe", what=self._what, unit=unit, is_one_of=True)

    def _by_batches(self, parts: list[Part]) -> list[Figure]:
        """Return what the batch took that took least, all together, and the one that took most."""
        rows = [
            (edge, ev, part.used.get(ev, 0), whole)
            for edge, part in enumerate(parts)
            for ev, whole in self.made[int(self.makes[edge])].batches.items()
        ]
        edge, ev, used, gave = np.array(rows, np.int64).reshape(-1, 4).T
        made, goes_in = self.makes[edge], self.goes_in[edge]
        takes = said(used, self._sources.whole_of(goes_in), ev)
        gives = said(gave, self._sources.whole_of(made), ev)
        of = Groups(edge, len(parts))
        names, ones = (self._sources.name_of(side) for side in (self.goes_in, self.makes))
        all_used = of.sum(takes).called("name-used", name=names)
        all_made = of.sum(gives).called("item-made", item=ones)
        each = (takes / gives.called("made-amount")).called(
            "batch-of",
            day=lambda row: label_day(int(self.state.moment.on[ev[row]])),
            unit=self._per(goes_in, made),
        )
        unit = self._per(self.goes_in, self.makes)
        least, most = (
            of.among(how, each).called(
                "among-batches", what=self._what, how=sentence(HOW[how]), unit=unit, is_one_of=True
            )
            for how in ("lowest", "highest")
        )
        together = (all_used / all_made).called(
            "in-one-of", name=names, item=ones, unit=unit, is_one_of=True
        )
        return [least, together, most]

    # -- through batches of batches -------------------------------------------------------

    @cached_property
    def takes(self) -> list[Array]:
        """What one of each thing takes of each other, by level, shape (items, items).

        Solved from the raw things up: what goes into nothing else comes first, so an item takes
        exactly nothing of what its batches never led to.
        """
        out = [np.eye(self._items.size) for _ in LEVELS]
        rates = [one.values.tolist() for one in self.straight]
        edges: dict[int, list[int]] = {}
        for edge, item in enumerate(self.makes.tolist()):
            edges.setdefault(item, []).append(edge)
        for item in self._raw_first():
            for edge in edges.get(item, ()):
                part = self.place[int(self.goes_in[edge])]
                for takes, rate in zip(out, rates, strict=True):
                    takes[self.place[item]] += rate[edge] * takes[part]
        return out

    def _raw_first(self) -> list[int]:
        """Return what is made, each after everything made that goes into it."""
        order: list[int] = []
        done: set[int] = set()
        for start in self.made:
            stack = [start]
            while stack:
                item = stack[-1]
                ahead = [p for p in self.made[item].parts if p in self.made and p not in done]
                if item not in done and ahead:
                    stack += ahead
                    continue
                stack.pop()
                if item not in done:
                    done.add(item)
                    order.append(item)
        return order

    @cached_property
    def _pairs(self) -> Array:
        """Places of a made item and of what it takes of, shape (pairs, 2)."""
        takes = self.takes[_LIKELY] > 0
        np.fill_diagonal(takes, False)
        return np.argwhere(takes)

    @cached_property
    def _pair(self) -> Array:
        out = np.full((self._items.size, self._items.size), -1, np.int64)
        out[self._pairs[:, 0], self._pairs[:, 1]] = np.arange(len(self._pairs))
        return out

    def pairs(self, made: list[int], of: list[int]) -> Array:
        """Return the pair of each made item and thing, shape (made, of); -1: takes nothing of it."""
        if not self._items.size:
            return np.full((len(made), len(of)), -1, np.int64)
        first, second = (np.array([self.place.get(i, -1) for i in s], np.int64) for s in (made, of))
        found = self._pair[np.ix_(first, second)]
        return np.where((first >= 0)[:, None] & (second >= 0), found, -1)

    @cached_property
    def take(self) -> list[Figure]:
        """What one of a made item takes of a thing, by level, shape (pairs,)."""
        return [self._take(level) for level in range(len(LEVELS))]

    def _take(self, level: int) -> Figure:
        made, of = self._pairs.T
        unit = self._per(self._items[of], self._items[made])

        def through(row: int) -> tuple[Figure, int]:
            return self._sums[level], row

        return solved(lambda: self.takes[level][made, of], lambda: 0, unit, through)

    @cached_property
    def _sums(self) -> list[Figure]:
        """The same through all that goes straight into the made item."""
        made, of = self._pairs.T
        first, second = (
            np.array([self.place[i] for i in side.tolist()], np.int64)
            for side in (self.makes, self.goes_in)
        )
        edge, thing = np.nonzero(self.takes[_LIKELY][second] > 0)
        inner = self._pair[second[edge], thing]
        by = Groups(self._pair[first[edge], thing], len(self._pairs))
        name = self._sources.name_of(self.goes_in[edge])
        unit = self._per(self._items[of], self._items[made])
        ones = self._sources.name_of(self._items[made])
        out = []
        for straight, take in zip(self.straight, self.take, strict=True):
            rate = straight.at(edge)
            far = (rate * take.at(inner)).called(
                "through", name=name, unit=self._per(self._items[thing], self.makes[edge])
            )
            whole = by.sum(choose(inner >= 0, far, rate), unit)
            out.append(
                whole.called("in-one-of", name=self._sources.name_of(self._items[of]), item=ones)
            )
        return out

    # -- jars and work --------------------------------------------------------------------

    @cached_property
    def per_jar(self) -> Figure:
        """Whole units in a jar of each made item, shape (made,); NaN where none goes into jars."""
        made = list(self.made.values())
        kinds = [(at, jar) for at, one in enumerate(made) for jar in one.in_jars]
        mine = Groups(np.array([at for at, _ in kinds], np.int64), len(made))
        rows = [
            (kind, lot) for kind, (at, jar) in enumerate(kinds) for lot in made[at].in_jars[jar]
        ]
        by, lots = np.array(rows, np.int64).reshape(-1, 2).T
        of = Groups(by, len(kinds))
        whole, jars = (of.sum(one.at(lots)) for one in (self._sources.amount, self._sources.jars))
        in_kind = (whole.called("in-jars") / jars.called("jars")).called(
            "in-one-jar", jar=lambda kind: self._names[kinds[kind][1]]
        )
        places = {pair: kind for kind, pair in enumerate(kinds)}
        in_most = in_kind.at(
            np.array([places.get((at, one.jar or 0), -1) for at, one in enumerate(made)], np.int64)
        )
        several = np.array([len(one.in_jars) > 1 for one in made], bool)
        which = method(
            lambda: in_most.values,
            in_most.unit,
            "jar-that-most-goes-into",
            lambda row: [(in_kind, kind) for kind in mine.rows(row)],
        )
        each = [np.nan if one.by_recipe is None else one.by_recipe for one in made]
        ev = np.array([-1 if one.recipe is None else one.recipe for one in made], np.int64)
        items = np.array([one.item for one in made], np.int64)
        unit = self._sources.whole_of(items)
        by_recipe = said(np.array(each, np.float64), lambda row: f"{unit(row)} per jar", ev)
        jar = [self._names[one.jar] if one.jar is not None else "jar" for one in made]
        return choose(ev >= 0, by_recipe, choose(several, which, in_most)).called(
            "in-one-jar", jar=lambda row: fixed(jar[row])
        )

    @cached_property
    def minutes(self) -> Figure:
        """Minutes of work for one whole unit of each made item, cooking beforehand included."""
        items = list(self.made)
        rows = [
            (at, ev, (self.made[item].jarred or self.made[item].batches)[ev])
            for at, item in enumerate(items)
            for ev in self.recipes.minutes(item)[0]
        ]
        by, ev, gave = np.array(rows, np.int64).reshape(-1, 3).T
        of, made = Groups(by, len(items)), np.array(items, np.int64)
        unit, names = self._sources.whole_of(made), self._sources.name_of(made)
        work = of.sum(self._sources.minutes.at(ev)).called("note-work")
        gives = of.sum(said(gave, self._sources.whole_of(made[by]), ev))
        own = (work / gives.called("these-batches-gave")).called(
            "minutes-one", name=names, is_one_of=True
        )
        each = [self.recipes.minutes_each(item) for item in items]
        known = np.array([one is not None for one in each], bool)

        def through(row: int) -> tuple[Figure, int]:
            return whole, row

        solve = solved(
            lambda: np.array([np.nan if one is None else one for one in each], np.float64),
            lambda: 0,
            lambda row: f"minutes per {unit(row)}",
            through,
        )
        edge, inner = self._cooked(known)
        cooked = (self.straight[_LIKELY].at(edge) * solve.at(inner)).called(
            "cooked", name=self._sources.name_of(self.goes_in[edge])
        )
        into = Groups(np.array([self.row[i] for i in self.makes[edge].tolist()], int), len(items))
        whole = total(own, into.sum(cooked)).called("minutes-one-all-told", name=names)
        return known_where(known, solve, "no-work")

    def _cooked(self, known: Array) -> tuple[Array, Array]:
        """Return what is cooked for something with its work known: its edge, and its own row."""
        rows = [
            (edge, self.row[part])
            for edge, (item, part) in enumerate(
                zip(self.makes.tolist(), self.goes_in.tolist(), strict=True)
            )
            if part in self.recipes.cooked_for(item) and known[self.row[part]]
        ]
        edge, inner = np.array(rows, np.int64).reshape(-1, 2).T
        return edge, inner
