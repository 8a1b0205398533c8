"""Why a figure of the jar-cost answer says so: its arithmetic down to events."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import numpy as np

from ledger.errors import NotFound
from ledger.projections._arithmetic import difference, product, quotient, total
from ledger.projections._common import QUART_UL, event_node, whole_unit
from ledger.projections._cost_tree import CostTree
from ledger.projections._opening import check_figure
from ledger.projections.base import Node
from ledger.replay import COMPONENTS, ORIGINS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["why"]

_POCKET = ("bought_ingredients", "garden", "lids", "fuel")


def why(state: State, key: str, field: str | None = None) -> Node:
    """Return a figure of a made entry as a tree.

    Parameters
    ----------
    key : str
        ``<batch id>:<n>``, as in the answer's `why`.
    field : str, optional
        A column of the answer; default: the cost per jar, or of the whole entry without jars.

    Raises
    ------
    NotFound
        When there is no such made entry, or no such figure of it.
    """
    entry = _Entry(state, key)
    name = field or ("cost_per_jar" if entry.jars else "cost.all_in")
    name = "cost.all_in" if name == "cost" else name
    figures = entry.figures()
    check_figure("jar-cost", name, figures)
    return figures[name]()


class _Entry:
    """One made entry and the figures that the answer gives of it."""

    def __init__(self, state: State, key: str) -> None:
        lot = state.lot_ids.get(key)
        lot = state.lot_ids.get(f"{key}f") if lot is None else lot
        if lot is None:
            raise NotFound(
                "address",
                f"there is no made entry {key!r}",
                "Take an address from `croftbook show jar-cost --json`",
            )
        self.state, self.tree = state, CostTree(state)
        self.lots = [
            at for at in (state.lot_ids.get(key), state.lot_ids.get(f"{key}f")) if at is not None
        ]
        self.ev = int(state.lots["ev"][lot])
        self.item = int(state.lots["item"][lot])
        self.unit = whole_unit(state, self.item)
        self.day = int(state.lots["day"][lot])
        self.jars = int(state.lots["jars"][self.lots].sum())
        self.whole = int(state.lots["whole"][self.lots].sum())

    def figures(self) -> dict[str, Callable[[], Node]]:
        """Return, by column, how each figure is worked out."""
        out: dict[str, Callable[[], Node]] = {
            "cost.all_in": self.all_in,
            "cost.out_of_pocket": self.pocket,
            "cost_per_jar": lambda: quotient("cost per jar", "money per jar", self.all_in(), self._jars()),
            "cost_per_good_jar": lambda: quotient("cost per good jar", "money per jar", self.all_in(), self._good()),
            "cost_per_quart": lambda: quotient("cost per quart", "money per quart", self.all_in(), self._quarts()),
            "cost_per_liter": lambda: quotient("cost per litre", "money per litre", self.all_in(), self._scaled("litres", 1e6)),
            "out_of_pocket_per_quart": lambda: quotient("out of pocket per quart", "money per quart", self.pocket(), self._quarts()),
            "jars": self._jars,
            "volume_ml": lambda: self._scaled("ml", 1000.0),
            "mass_g": self._grams,
            "labour_hours": self._hours,
            "shop_price_per_quart": self._shop_quart,
            "saved_per_quart": lambda: difference(
                "saved per quart", "money per quart", self._shop_quart(),
                quotient("cost per quart", "money per quart", self.all_in(), self._quarts()),
            ),
            "saved": lambda: difference("saved", "money", self._shop(), self.all_in()),
        }  # fmt: skip
        for name in COMPONENTS:
            out[f"cost.{name}"] = lambda name=name: self.tree.lots(self.lots, name)  # type: ignore[misc]
        return out

    def all_in(self) -> Node:
        """Return the whole cost, component by component."""
        return total("all in", "money", *self._components(COMPONENTS))

    def pocket(self) -> Node:
        """Return the money spent."""
        return total("out of pocket", "money", *self._components(_POCKET))

    def _components(self, names: tuple[str, ...]) -> list[Node]:
        out = []
        for name in names:
            node = self.tree.lots(self.lots, name)
            if node.value:
                out.append(Node(name.replace("_", " "), node.value, "money", "sum", [node]))
        return out

    def _event(self, label: str, value: float, unit: str) -> Node:
        return event_node(self.state, self.ev, label, value, unit)

    def _jars(self) -> Node:
        return self._event("jars", float(self.jars), "jars")

    def _good(self) -> Node:
        from ledger.projections._common import jars_gone

        bad = int(self.state.failed[self.lots].sum())
        failed = jars_gone(self.jars, self.whole, bad) if self.jars else 0
        return difference(
            "good jars",
            "jars",
            self._jars(),
            Node("failed, spoiled or broken", float(failed), "jars"),
        )

    def _scaled(self, unit: str, per: float) -> Node:
        if self.state.facts.measure[self.item] != "volume":
            return Node(f"{unit}: not kept by volume", None, unit)
        return quotient(
            unit,
            unit,
            self._event("what was made", float(self.whole), "ul"),
            Node(f"ul in one of {unit}", per, "ul"),
        )

    def _quarts(self) -> Node:
        return self._scaled("quarts", QUART_UL)

    def _grams(self) -> Node:
        per = self.state.facts.grams_per_whole(self.item)
        if per is None:
            return Node("no weight known", None, "g")
        return product(
            "weight",
            "g",
            self._event("what was made", float(self.whole), self.unit),
            Node("grams in one", per, "g"),
        )

    def _hours(self) -> Node:
        minutes = self._event("minutes of work", self.state.costs.minutes_of(self.ev), "minutes")
        share = self._share_of_batch()
        return product(
            "hours",
            "hours",
            quotient(
                "hours of work", "hours", minutes, Node("minutes in an hour", 60.0, "minutes")
            ),
            share,
        )

    def _share_of_batch(self) -> Node:
        """Return this entry's part of the batch: by amount, of one strand; else in equal parts."""
        state = self.state
        made = np.flatnonzero(
            (state.lots["ev"] == self.ev) & (state.lots["origin"] == ORIGINS.index("batch"))
        )
        if np.unique(state.lots["item"][made]).size > 1:
            entries = float(np.unique(state.lots["n"][made]).size)
            parts = Node("one entry", 1.0, ""), self._event("entries made", entries, "")
        else:
            whole = float(state.lots["whole"][made].sum())
            parts = (
                self._event("this entry", float(self.whole), self.unit),
                self._event("all that was made", whole, self.unit),
            )
        return quotient("this entry's share", "0 to 1", *parts)

    def _price(self) -> Node:
        price, ev, later = self.state.costs.prices.of(np.array([self.item]), np.array([self.day]))
        if ev[0] < 0:
            return Node("no price known", None, "money")
        note = " (first seen later)" if later[0] else ""
        node = event_node(
            self.state,
            int(ev[0]),
            "",
            float(price[0]),
            f"money per {self.unit}",
        )
        node.label += note
        return node

    def _shop(self) -> Node:
        return product(
            "the same from the shop",
            "money",
            self._event("what was made", float(self.whole), self.unit),
            self._price(),
        )

    def _shop_quart(self) -> Node:
        return product(
            "shop per quart",
            "money per quart",
            self._price(),
            Node("ul in a quart", QUART_UL, "ul"),
        )
