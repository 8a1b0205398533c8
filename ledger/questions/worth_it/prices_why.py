"""Why a home price says so: what was made, what it cost and what the shop asks for it."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import numpy as np

from ledger.errors import NotFound
from ledger.messages import Code, Message, Typed, sentence
from ledger.messages.units import unit as unit_name
from ledger.projections.base import Node
from ledger.questions.costs import LABELS
from ledger.questions.costs.sources import UNITS_BY
from ledger.questions.shared.arithmetic import difference, product, quotient, total
from ledger.questions.shared.common import event_node, whole_unit
from ledger.questions.shared.opening import check_figure
from ledger.questions.telling import event_line
from ledger.questions.worth_it.gather import LINES
from ledger.questions.worth_it.prices import Group, Grouped, figures, per_of
from ledger.replay import COMPONENTS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["why"]

_NO_LABOUR = tuple(n for n in COMPONENTS if n != "labour")


def why(state: State, season: int, line: str, item: str, field: str | None) -> Node:
    """Return a figure of ``--prices`` as a tree.

    Raises
    ------
    NotFound
        When nothing of that item was made then, or there is no such figure.
    """
    grouped, number = Grouped(state), state.facts.find_strand(item)
    here = [g for g in grouped.groups if g.item == number and LINES[g.line] == line]
    at = next((i for i, g in enumerate(here) if g.season == season), None)
    if at is None:
        raise NotFound(
            "address",
            Message.of(
                "refusal-not-made-in-season", text=Typed(item), line=Code(line), season=season
            ),
        )
    tree = _Tree(grouped, here[at], here[at - 1] if at else None)
    name, known = field or "saved", tree.figures()
    check_figure("worth-it", name, known)
    return known[name]()


class _Tree:
    def __init__(self, grouped: Grouped, group: Group, before: Group | None) -> None:
        self.grouped, self.state, self.group, self.before = grouped, grouped.state, group, before
        self.measure = self.state.facts.measure[group.item]
        self.unit = whole_unit(self.state, group.item)

    def figures(self) -> dict[str, Callable[[], Node]]:
        """Return, by column, how each figure is worked out."""
        out: dict[str, Callable[[], Node]] = {
            "home_per_unit": lambda: self._per(sentence("why-home-price"), self._cost(COMPONENTS)),
            "home_before_labour_per_unit": lambda: self._per(sentence("why-home-price-before-own-time"), self._cost(_NO_LABOUR)),
            "shop_per_unit": lambda: self._per(sentence("why-shop-price"), self._worth()),
            "saved_per_unit": lambda: self._saved(
                "money per unit", self._per(sentence("why-shop-price"), self._worth()),
                self._per(sentence("why-home-price"), self._cost(COMPONENTS)),
            ),
            "saved": lambda: self._saved("money", self._worth(), self._cost(COMPONENTS)),
            "home_change": lambda: self._change("home_per_unit"),
            "shop_change": lambda: self._change("shop_per_unit"),
            self._amount_column(): lambda: quotient(
                sentence("why-how-much"), "", self._whole(), Node(sentence("why-thousand-to-one"), 1000.0, "", source=UNITS_BY)
            ),
        }  # fmt: skip
        if self.group.jars:
            out["jars"] = self._jars
            out["equipment"] = self._equipment
            out["break_even_jars"] = lambda: self._break_even(COMPONENTS)
            out["break_even_jars_before_labour"] = lambda: self._break_even(_NO_LABOUR)
        return out

    def _amount_column(self) -> str:
        return {"volume": "volume_ml", "mass": "mass_g", "count": "pieces"}.get(
            self.measure, "whole"
        )

    def _lots(self, label: str, unit: str, values: np.ndarray) -> Node:
        """Return a sum over the group's lots, each the event that made it."""
        events = self.state.lots["ev"][self.group.lots].tolist()
        parts = [
            event_node(self.state, ev, "", float(value), unit)
            for ev, value in zip(events, values.tolist(), strict=True)
        ]
        return total(label, unit, *parts)

    def _folded(self, figure: str, values: np.ndarray) -> list[Node]:
        """Return a component of each lot's cost as a line that its own address opens."""
        state, lots = self.state, self.group.lots.tolist()
        return [
            Node(
                event_line(state, int(state.lots["ev"][lot])), value, "money",
                address=f"lot/{state.lot_id(lot)}", figure=figure,
            )
            for lot, value in zip(lots, values.tolist(), strict=True)
        ]  # fmt: skip

    def _whole(self) -> Node:
        return self._lots(
            sentence("why-made"), self.unit, self.state.lots["whole"][self.group.lots]
        )

    def _jars(self) -> Node:
        return self._lots(sentence("why-jars"), "jars", self.state.lots["jars"][self.group.lots])

    def _per(self, label: str, above: Node) -> Node:
        known = per_of(self.state, self.measure)
        if known is None or (above.value is None):
            return Node(sentence("why-what-not-known", what=label), None, "money per unit")
        per, wholes = known
        units = quotient(
            sentence("why-in-unit", unit=unit_name(f"{per}s")),
            per,
            self._whole(),
            Node(
                sentence("why-in-one-unit", unit=unit_name(per)), wholes, self.unit, source=UNITS_BY
            ),
        )
        return quotient(
            sentence("why-per-unit", what=label, unit=unit_name(per)),
            f"money per {per}",
            above,
            units,
        )

    def _cost(self, names: tuple[str, ...]) -> Node:
        costs, rows = self.state.costs.lot, self.group.lots
        parts = []
        for name in names:
            values = costs[rows, COMPONENTS.index(name)]
            if values.any():
                label = sentence(LABELS[f"cost.{name}"])
                parts.append(total(label, "money", *self._folded(f"cost.{name}", values)))
        return total(sentence("why-cost"), "money", *parts)

    def _worth(self) -> Node:
        if self.group.worth is None:
            return Node(sentence("why-no-price"), None, "money")
        lots, state = self.grouped.lots, self.state
        parts = []
        for lot in self.group.lots.tolist():
            whole = float(state.lots["whole"][lot])
            amount = event_node(state, int(state.lots["ev"][lot]), "", whole, self.unit)
            seen = int(lots.price_ev[lot])
            price = event_node(
                state, seen, "", float(lots.worth[lot]) / whole, f"money per {self.unit}"
            )
            parts.append(product(sentence("why-same-from-shop"), "money", amount, price))
        return total(sentence("why-same-from-shop"), "money", *parts)

    def _saved(self, unit: str, shop: Node, home: Node) -> Node:
        if shop.value is None or home.value is None:
            return Node(sentence("why-no-price"), None, unit)
        return difference(sentence("why-saved"), unit, shop, home)

    def _change(self, name: str) -> Node:
        label = sentence("why-against-season-before")
        before = figures(self.state, self.before).get(name) if self.before else None
        if self.before is None or not before:
            return Node(sentence("why-what-none", what=label), None, "share")
        now, then = (
            _Tree(self.grouped, g, None).figures()[name]() for g in (self.group, self.before)
        )
        if now.value is None or then.value is None:
            return Node(sentence("why-what-none", what=label), None, "share")
        more = difference(sentence("why-now-less-then"), "money per unit", now, then)
        return quotient(label, "share", more, then)

    def _equipment(self) -> Node:
        durables, state = self.state.costs.durables, self.state
        parts = []
        for item in self.grouped.kit(self.group.lots):
            rows = durables.rows(item, state.as_of_day)
            bought = [
                event_node(state, int(ev), "", float(paid), "money")
                for ev, paid in zip(durables.ev[rows], durables.paid[rows], strict=True)
            ]
            parts.append(total(state.facts.names[item], "money", *bought))
        return total(sentence("why-equipment-batches-named"), "money", *parts)

    def _break_even(self, names: tuple[str, ...]) -> Node:
        label = sentence("why-jars-break-even")
        shown = figures(self.state, self.group)[
            "break_even_jars" if "labour" in names else "break_even_jars_before_labour"
        ] if self.group.worth is not None else None  # fmt: skip
        if shown is None:
            return Node(sentence("why-no-gain", what=label), None, "jars")
        rest = tuple(n for n in names if n != "equipment")
        gain = difference(
            sentence("why-gain-jar"), "money per jar", quotient(sentence("why-shop-price-jar"), "money per jar", self._worth(), self._jars()),
            quotient(sentence("why-rest-of-jar"), "money per jar", self._cost(rest), self._jars()),
        )  # fmt: skip
        return quotient(label, "jars", self._equipment(), gain)
