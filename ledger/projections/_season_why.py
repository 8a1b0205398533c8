"""Why a figure of a season says so: pickings, plantings, inputs, prices and earlier seasons."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from ledger.errors import NotFound
from ledger.projections import _season_weeks_why
from ledger.projections._arithmetic import among, difference, product, quotient, total
from ledger.projections._common import event_node, whole_unit
from ledger.projections._opening import check_figure
from ledger.projections._season_field import crops_of, field_of
from ledger.projections._season_money import FATE_OF, FATES
from ledger.projections._season_past import Earlier
from ledger.projections._season_record import Recorder
from ledger.projections.base import Node
from ledger.questions.costs.addresses import why as why_cost
from ledger.reference.planting import published_range
from ledger.replay.columns import Array
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.projections._season_plots import Planting, Plot
    from ledger.replay import State

__all__ = ["why"]

_SIZES = {"plants": ("plants", "plants"), "area_m2": ("ground", "m2"), "row_m": ("row", "m")}


def why(state: State, key: str, field: str | None = None) -> Node:
    """Return a figure of a season's record as a tree.

    Parameters
    ----------
    key : str
        ``2026/tomato``, ``2026/tomato/<variety>/<bed>``, ``2026/tomato/all`` or
        ``2026/week-34/tomato``, as in the answer's `why`.
    field : str, optional
        A column of the answer; default: what was picked.

    Raises
    ------
    NotFound
        When there is no such record, or no such figure of it.
    """
    season, _, rest = key.partition("/")
    if not (season.isascii() and season.isdigit() and 1 < int(season) < 9998):
        raise _no(key)
    if re.match(r"week-\d+/", rest):
        figures = _season_weeks_why.figures(state, int(season), rest)
    else:
        recorder = Recorder((crops_of if rest.endswith("/all") else field_of)(state), int(season))
        at = recorder.addresses.get(key)
        figures = None if at is None else _Why(recorder, at).figures()
    if figures is None:
        raise _no(key)
    name = field or "picked_g"
    check_figure("season", name, figures)
    return _known(figures[name]())


def _known(node: Node) -> Node:
    """Return the node without a value where one that it rests on has none."""
    parts = [_known(part) for part in node.parts]
    if any(part.value is None for part in parts):
        return replace(node, value=None, parts=parts)
    return node


def _no(key: str) -> NotFound:
    return NotFound(
        "address",
        f"there is no record {key!r} of a season",
        "Take an address from `croftbook show season --json`",
    )


class _Why:
    """One plot and the figures that the answer gives of it."""

    def __init__(self, recorder: Recorder, at: int) -> None:
        self.recorder, self.at = recorder, at
        self.state, self.picked = recorder.state, recorder.field.picked
        self.money, self.plot = recorder.money, recorder.plots[at]
        self.name = recorder.names[self.plot.crop]
        self.season = recorder.season
        self.whole_unit = whole_unit(self.state, self.plot.crop)

    def figures(self) -> dict[str, Callable[[], Node]]:
        """Return, by column, how each figure is worked out."""
        out: dict[str, Callable[[], Node]] = {
            "picked_g": lambda: self.weight("picked", self.plot.rows, "whole"),
            "trimmed_g": lambda: self.weight("trimmed", self.plot.rows, "trimmed"),
            "kept_g": lambda: self.weight("kept after trimming", self.plot.rows, "kept"),
            "inputs": self._inputs,
            "shop_value": self._value,
            "kept_too_long": lambda: self._off("kept too long", self.money.too_long(self.plot)),
            "glut": lambda: self._off("fed to animals or composted, less what it replaced", self.money.glut(self.plot)),
            "net": self._net,
            "hours": self._hours,
            "net_per_hour": lambda: quotient(
                "net per hour", "money per hour",
                self._net(), self._hours(),
            ),
            "last_season_g": lambda: self._last("the season before", to_date=False),
            "last_season_to_date_g": lambda: self._last("the season before, to date", to_date=True),
            "published_low_g": lambda: self._published("low"),
            "published_high_g": lambda: self._published("high"),
            "target_g": self._target,
            "short_of_target_g": self._short,
        }  # fmt: skip
        for name in _SIZES:
            out[name] = lambda name=name: self._size(name)  # type: ignore[misc]
        for field, size in (
            ("per_plant_g", "plants"), ("per_m2_g", "area_m2"), ("per_row_m_g", "row_m")
        ):  # fmt: skip
            out[field] = lambda size=size: quotient(  # type: ignore[misc]
                f"picked by {_SIZES[size][0]}", f"g per {_SIZES[size][1]}",
                self.weight("picked", self.plot.rows, "whole"), self._size(size),
            )  # fmt: skip
        for name in ("low", "likely", "high"):
            out[f"still_to_come_g.{name}"] = lambda name=name: self._to_come(name)  # type: ignore[misc]
        for fate in FATES:
            out[f"where_it_went.{fate}"] = lambda fate=fate: self._went(fate)  # type: ignore[misc]
        return out

    def _net(self) -> Node:
        off = total(
            "inputs, what was kept too long and the glut", "money", self._inputs(),
            self._off("kept too long", self.money.too_long(self.plot)),
            self._off("fed to animals or composted, less what it replaced", self.money.glut(self.plot)),
        )  # fmt: skip
        return difference("net", "money", self._value(), off)

    def _off(self, label: str, rows: list[tuple[int, float]]) -> Node:
        """Return what of the shop value does not count, picking by picking."""
        if self._value().value is None:
            return Node(f"no shop price of {self.name} is known", None, "money")
        parts = [
            event_node(self.state, int(self.picked["ev"][row]), "", money, "money")
            for row, money in rows
        ]
        return total(label, "money", *parts)

    def weight(self, label: str, rows: Array, column: str) -> Node:
        """Return the weight of pickings, picking by picking; those of nothing are left out."""
        each = self.picked["grams"][rows]
        if self.recorder.field.grams(rows, column, self.plot.crop) is None:
            return Node(f"no weight of {self.name} is known", None, "g")
        parts = [
            event_node(self.state, int(self.picked["ev"][row]), "", whole * grams, "g")
            for row, whole, grams in zip(
                rows.tolist(), self.picked[column][rows].tolist(), each.tolist(), strict=True
            )
            if whole and not np.isnan(grams)
        ]
        return total(f"{self.name} {label}", "g", *parts)

    def _size(self, name: str) -> Node:
        label, unit = _SIZES[name]
        if not self.plot.plantings and name == "plants" and self.plot.plants is not None:
            rows = self.plot.rows
            row = int(rows[self.picked["plants"][rows].argmax()])
            return event_node(
                self.state, int(self.picked["ev"][row]), "", float(self.plot.plants), unit
            )
        if getattr(self.plot, name) is None:
            return Node(f"{label}: a planting does not say, or there is none", None, unit)
        sizes: list[tuple[Planting, float]] = [
            (p, float(getattr(p, name))) for p in self.plot.plantings
        ]
        parts = [event_node(self.state, p.ev, "", size, unit) for p, size in sizes]
        return total(f"{label} planted", unit, *parts)

    # -- money --------------------------------------------------------------------------

    def _inputs(self) -> Node:
        lots = self.money.lots(self.plot)
        if not lots.size:
            return Node("nothing picked yet that inputs could be shared over", 0.0, "money")
        parts = [
            self._inputs_of(strand) for strand in np.unique(self.picked["strand"][self.plot.rows])
        ]
        return parts[0] if len(parts) == 1 else total("inputs", "money", *parts)

    def _inputs_of(self, strand: int) -> Node:
        """Return what pickings of one strand took: their part of it by amount."""
        field, plot, unit = self.recorder.field, self.plot, whole_unit(self.state, int(strand))
        picked = self.picked

        def kept(rows: Array) -> float:
            return float(picked["kept"][rows[picked["strand"][rows] == strand]].sum())

        here = kept(plot.rows)
        every = sum(kept(p.rows) for p in field.of(plot.season) if p.crop == plot.crop)
        if not every:
            return Node(f"nothing of {self.name} was left after trimming", 0.0, "money")
        share = quotient(
            "its part of the crop", "0 to 1",
            Node("picked here, after trimming", here, unit),
            Node(f"all {self.name} of the season", every, unit),
        )  # fmt: skip
        crop = self.state.facts.strand_name(int(strand))
        taken = why_cost(self.state, f"garden/{self.season}/{crop}", "inputs")
        return product("inputs", "money", share, taken)

    def _value(self) -> Node:
        rows, picked = self.plot.rows, self.picked
        price, ev, later = (column[rows] for column in self.recorder.field.prices)
        if ev.size and not (ev >= 0).any():
            return Node(f"no shop price of {self.name} is known", None, "money")
        parts = []
        for row, each, source, is_later in zip(
            rows.tolist(), price.tolist(), ev.tolist(), later.tolist(), strict=True
        ):
            if source < 0:
                continue
            cost = event_node(self.state, source, "", each, f"money per {self.whole_unit}")
            cost.label += " (first seen later)" if is_later else ""
            kept = event_node(
                self.state,
                int(picked["ev"][row]),
                "",
                float(picked["kept"][row]),
                self.whole_unit,
            )
            parts.append(product("a picking, after trimming", "money", kept, cost))
        return total("worth at the shop's price", "money", *parts)

    def _hours(self) -> Node:
        minutes, picked = self.recorder.field.minutes, self.picked
        worked = [
            (int(picked["ev"][r]), float(picked["share"][r]))
            for r in self.plot.rows.tolist()
            if picked["minutes"][r] == picked["minutes"][r]
        ]
        if not self.plot.standing:
            worked += [(p.ev, 1.0) for p in self.plot.plantings if minutes[p.ev] == minutes[p.ev]]
        if not worked:
            return Node("no work was written down", None, "hours")
        parts = []
        for ev, share in worked:
            written = event_node(self.state, ev, "", float(minutes[ev]), "minutes")
            if share != 1.0:
                part = Node("its part of that picking", share, "0 to 1")
                written = product("work on it", "minutes", written, part)
            parts.append(written)
        return quotient(
            "hours", "hours",
            total("minutes", "minutes", *parts), Node("minutes in an hour", 60.0, "minutes"),
        )  # fmt: skip

    def _went(self, fate: str) -> Node:
        lots = self.money.lots(self.plot)
        each = self.state.facts.grams[self.state.lots["item"][lots]] if lots.size else np.zeros(0)
        kept = self.recorder.field.grams(self.plot.rows, "kept", self.plot.crop)
        if kept is None and np.isnan(each).all():
            return Node(f"no weight of {self.name} is known", None, "g")
        if fate == "on hand":
            gone = [self._went(other) for other in FATES if other != fate]
            came = self.weight("kept after trimming", self.plot.rows, "kept")
            return difference("on hand", "g", came, total("gone", "g", *gone))
        from ledger.projections._common import goes

        state, words = self.state, goes(self.state)
        draw, _, amount = state.allocations
        parts = [
            event_node(state, int(state.draws["ev"][draw[at]]), "", float(amount[at]) * grams, "g")
            for lot, grams in zip(lots.tolist(), each.tolist(), strict=True)
            if not np.isnan(grams)
            for at in state.allocations_of_lot(lot).tolist()
            if FATE_OF[words[draw[at]]] == fate
        ]
        return total(fate, "g", *parts)

    # -- other seasons, tables, wishes --------------------------------------------------

    def _last(self, label: str, *, to_date: bool) -> Node:
        last = self.recorder.past.last(self.at)
        if last is None:
            return Node("nothing of it was written down last season", None, "g")
        rows = last.rows
        if to_date:
            rows = rows[self.recorder.past.days(last.season, rows) <= self.recorder.past.day]
        return self.weight(f"picked in {label}", rows, "whole")

    def _to_come(self, name: str) -> Node:
        past = self.recorder.past
        if past.is_over:
            return Node("the season is over", 0.0, "g")
        parts = [self._rest(earlier) for earlier in past.seasons(self.at)]
        if not parts:
            return Node("no earlier season to go by", None, "g")
        how = {"low": "lowest", "likely": "middle", "high": "highest"}[name]
        return among(how, "what earlier seasons brought after this day", "g", *parts)

    def _rest(self, earlier: Earlier) -> Node:
        past = self.recorder.past
        rows = earlier.rows[past.days(earlier.season, earlier.rows) > past.day]
        rest = self.weight(f"picked in the rest of season {earlier.season}", rows, "whole")
        size = Node("this season's size over that one's", earlier.scale, "")
        return product(f"season {earlier.season}", "g", size, rest)

    def _published(self, end: str) -> Node:
        plot: Plot = self.plot
        found = published_range(self.name, row_m=plot.row_m, area_m2=plot.area_m2)
        if found is None:
            return Node("no published yield fits what is known of the planting", None, "g")
        name = "row_m" if found.note.startswith("per metre of row") else "area_m2"
        size = self._size(name)
        each = (found.low_g if end == "low" else found.high_g) / float(size.value or 1.0)
        sources = "; ".join(map(str, found.sources))
        per = Node(f"{sources} ({found.note})", each, f"g per {_SIZES[name][1]}")
        return product(f"published, {end}", "g", size, per)

    def _part(self) -> Node:
        part, whole = self.money.share(self.plot)
        return quotient(
            "its part of the crop", "0 to 1",
            Node("this one", float(part), self.whole_unit), Node("all", float(whole), self.whole_unit),
        )  # fmt: skip

    def _wanted(self) -> Node | None:
        target = self.money.target(self.plot.crop, self.season)
        if target is None or not target.times or target.grams is None:
            return None
        amount = event_node(self.state, target.ev, "", target.grams / target.times, "g")
        times = Node(f"times in season {self.season}", target.times, "times")
        return product("wanted of the crop", "g", amount, times)

    def _target(self) -> Node:
        wanted = self._wanted()
        if wanted is None:
            return Node("no target that can be weighed", None, "g")
        return product("wanted of it", "g", wanted, self._part())

    def _short(self) -> Node:
        wanted = self._wanted()
        if wanted is None:
            return Node("no target that can be weighed", None, "g")
        same = [p for p in self.recorder.field.of(self.season) if p.crop == self.plot.crop]
        kept = total(
            f"{self.name} of season {day_text(self.recorder.past.first)[:4]}", "g",
            *(self.weight("kept after trimming", p.rows, "kept") for p in same),
        )  # fmt: skip
        missing = difference("missing", "g", wanted, kept)
        if float(missing.value or 0.0) <= 0:
            return Node("the target is met", 0.0, "g")
        return product("short of it", "g", missing, self._part())
