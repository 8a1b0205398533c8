"""Home price against shop, by item and season: what was grown and what was put up."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.messages import Names, sentence
from ledger.methods.money import break_even
from ledger.methods.ratios import ratio
from ledger.projections.base import Answer, Column
from ledger.questions.shared.common import QUART_UL, answer
from ledger.questions.worth_it.gather import LINES, Lots, line_of_batches
from ledger.questions.worth_it.notes import LotNotes
from ledger.replay import COMPONENTS

if TYPE_CHECKING:
    from ledger.questions.worth_it.span import Span
    from ledger.replay import State

    Array = np.ndarray[Any, Any]

__all__ = ["COLUMNS", "POUND_MG", "Group", "Grouped", "build", "figures", "per_of"]

POUND_MG = 453_592.37
"""Milligrams in a pound avoirdupois (NIST Handbook 44, appendix C)."""

PER = {"volume": ("quart", QUART_UL), "mass": ("pound", POUND_MG), "count": ("dozen", 12_000.0)}
"""What a price is given per, by measure: its name, and how many whole units it has."""
_METRIC = {"volume": ("litre", 1_000_000.0), "mass": ("kilogram", 1_000_000.0)}
"""The same in a book kept in metric measures."""

_HOME = [LINES.index(name) for name in ("garden", "animals", "preserving", "cooking")]
_LABOUR, _EQUIPMENT = COMPONENTS.index("labour"), COMPONENTS.index("equipment")

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("item", "Item", "", "What was picked or put up.", main=True),
    Column("season", "Season", "", "The season, by the year in which it starts.", main=True),
    Column("line", "Line", "", "garden, animals, preserving or cooking."),
    Column("volume_ml", "Volume", "ml", "How much, for items kept by volume; else null."),
    Column("mass_g", "Weight", "g", "How much, for items kept by mass; else null."),
    Column("pieces", "Pieces", "pieces", "How many, for items kept by count; else null."),
    Column("jars", "Jars", "jars", "How many jars, unsealed ones included; null when not in jars.", main=True),
    Column("per", "Per", "", "What the prices are given per: quart (US, 946.352946 ml), pound (453.59237 g) or dozen; in a metric book litre, kilogram or dozen.", main=True),
    Column("home_per_unit", "Home", "money per unit", "All in, as in jar-cost (own time at the labour rate where one is set); for what was picked the garden inputs of its season.", main=True),
    Column("home_before_labour_per_unit", "Home before time", "money per unit", "The same without own time.", main=True),
    Column("shop_per_unit", "Shop", "money per unit", "Shop's price on the days it came in, by amount; null where none is known.", main=True),
    Column("saved_per_unit", "Saved per unit", "money per unit", "Shop less home, all in."),
    Column("saved", "Saved", "money", "For the whole amount.", main=True),
    Column("home_change", "Home since last", "share", "Home price against the item's season before in this answer (0.10 is 10 per cent dearer); null where there is none."),
    Column("shop_change", "Shop since last", "share", "Shop's price against the item's season before."),
    Column("equipment", "Equipment", "money", "What the equipment that its batches named has cost so far, whole; null without jars."),
    Column("break_even_jars", "Jars to break even", "jars", "Jars after which that equipment is paid: its price / (shop's price of a jar - what else a jar cost, own time included); null where a jar costs more than at the shop, or not in jars.", main=True),
    Column("break_even_jars_before_labour", "The same before time", "jars", "The same, own time not counted."),
    Column("provisional", "Provisional", "yes or no", "Rests on a garden season that still runs."),
    Column("at_least", "At least", "yes or no", "Something that went in has no known price, so it cost more."),
    Column("unpriced", "Unpriced", "", "What no price is known of."),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip


@dataclass(frozen=True)
class Group:
    """The lots of one item in one season on one line, added up."""

    season: int
    item: int
    line: int
    lots: Array
    whole: float
    jars: float
    cost: float
    labour: float
    worn: float
    worth: float | None
    """None where no price is known."""
    kit: float
    """Price of the equipment that its batches named, whole."""


class Grouped:
    """What was picked and put up, by season, item and line.

    Jars and dishes keep what batches took out of them: a jar is a jar, wherever it went.
    """

    def __init__(self, state: State) -> None:
        self.state, self.lots = state, Lots(state)
        table = state.lots
        rows = np.flatnonzero(np.isin(self.lots.line, _HOME))
        season = state.costs.garden.season.of(table["day"][rows]) if rows.size else rows
        line, item = self.lots.line[rows], table["item"][rows]
        order = np.lexsort((season, item, line))
        key = np.stack([line, item, season])[:, order]
        rows = rows[order]
        self._equipment = _equipment_by_batch(state)
        self.groups = self._groups(rows, key) if rows.size else []

    def _groups(self, rows: Array, key: Array) -> list[Group]:
        """Add up the lots of each run of equal keys (line, item, season)."""
        starts = np.flatnonzero(np.r_[True, (key[:, 1:] != key[:, :-1]).any(axis=0)])
        costs, table = self.state.costs.lot[rows, : len(COMPONENTS)], self.state.lots
        sums = np.add.reduceat(costs, starts, axis=0)
        columns = (
            np.add.reduceat(table["whole"][rows].astype(float), starts),
            np.add.reduceat(table["jars"][rows].astype(float), starts),
            sums.sum(axis=1),
            sums[:, _LABOUR],
            sums[:, _EQUIPMENT],
            np.add.reduceat(self.lots.worth[rows], starts),
        )
        parts = np.split(rows, starts[1:])
        out = []
        for lots, (line, item, season), figures in zip(
            parts, key[:, starts].T.tolist(), np.stack(columns, axis=1).tolist(), strict=True
        ):
            whole, jars, cost, labour, worn, worth = figures
            known = None if np.isnan(worth) else worth
            kit = sum(self.kit(lots).values()) if jars else 0.0
            out.append(Group(season, item, line, lots, whole, jars, cost, labour, worn, known, kit))
        return out

    def kit(self, rows: Array) -> dict[int, float]:
        """Return what each piece of equipment that the lots' batches named has cost so far."""
        evs = set(self.state.lots["ev"][rows].tolist())
        items = {item for ev in evs for item in self._equipment.get(ev, ())}
        day = self.state.as_of_day
        return {item: self.state.costs.durables.bought(item, day)[0] for item in sorted(items)}


def _equipment_by_batch(state: State) -> dict[int, set[int]]:
    table = state.journal.tables["equipment"]
    rows = state.moment.rows(state.journal, "equipment")
    out: dict[int, set[int]] = {}
    batch = line_of_batches(state) >= 0
    for ev, item in zip(
        table["ev"][rows].tolist(), state.facts.canon[table["item"][rows]].tolist(), strict=True
    ):
        if batch[ev]:
            out.setdefault(ev, set()).add(item)
    return out


def per_of(state: State, measure: str) -> tuple[str, float] | None:
    """Return what a price of that measure is given per in this book, and its whole units; None of no such measure."""
    is_metric = state.settings.newest("measures") == "metric"
    return (_METRIC if is_metric else PER).get(measure) or PER.get(measure)


def figures(state: State, group: Group) -> dict[str, float | None]:
    """Return the figures of a group but for the changes since the season before."""
    measure = state.facts.measure[group.item]
    per = per_of(state, measure)
    units = None if per is None else group.whole / per[1]
    home, before = ratio(group.cost, units), ratio(group.cost - group.labour, units)
    shop = None if group.worth is None else ratio(group.worth, units)
    out: dict[str, float | None] = {
        "volume_ml": group.whole / 1000 if measure == "volume" else None,
        "mass_g": group.whole / 1000 if measure == "mass" else None,
        "pieces": group.whole / 1000 if measure == "count" else None,
        "jars": group.jars or None,
        "home_per_unit": home,
        "home_before_labour_per_unit": before,
        "shop_per_unit": shop,
        "saved_per_unit": None if shop is None or home is None else shop - home,
        "saved": None if group.worth is None else group.worth - group.cost,
        "equipment": group.kit if group.jars else None,
    }
    for name, labour in (
        ("break_even_jars", 0.0),
        ("break_even_jars_before_labour", group.labour),
    ):
        if group.jars and group.worth is not None:
            each = (group.cost - group.worn - labour) / group.jars
            out[name] = break_even(group.kit, group.worth / group.jars, each)
    return out


def build(state: State, span: Span | None = None) -> Answer:
    """Return one record an item and season, by line and item, the newest season first."""
    grouped = Grouped(state)
    notes = LotNotes(state, grouped.lots)
    records: list[dict[str, Any]] = []
    last: dict[tuple[int, int], dict[str, float | None]] = {}
    for group in grouped.groups:  # by line and item, then by season
        now = figures(state, group)
        before = last.get((group.line, group.item), {})
        last[group.line, group.item] = now
        if span is not None and group.season != span.season:
            continue
        ids, unpriced, provisional = notes.of(group.lots)
        name = state.facts.names[group.item]
        records.append(
            {
                "why": f"worth-it/{group.season}/{LINES[group.line]}/{state.facts.strand_name(group.item)}",
                "season": str(group.season),
                "item": name,
                "line": LINES[group.line],
                "per": (per_of(state, state.facts.measure[group.item]) or (None,))[0],
                **now,
                "home_change": _change(now, before, "home_per_unit"),
                "shop_change": _change(now, before, "shop_per_unit"),
                "provisional": provisional,
                "at_least": bool(unpriced),
                "unpriced": unpriced,
                "assumptions": ids,
            }
        )
    records.sort(key=lambda r: (LINES.index(r["line"]), r["item"], -int(r["season"])))
    # No sum of what was saved: what was picked and then put up stands here twice.
    missing = _missing(records, span)
    totals = {"missing": missing} if missing else {}
    return answer(state, "worth-it", COLUMNS, records, totals=totals, assumptions=notes.words())


def _change(now: dict[str, Any], before: dict[str, Any], name: str) -> float | None:
    share = ratio(now.get(name), before.get(name))
    return None if share is None else share - 1


def _missing(records: list[dict[str, Any]], span: Span | None) -> list[str]:
    if not records:
        if span:
            return [sentence("worth-nothing-made-in", n=span.season)]
        return [sentence("worth-nothing-made")]
    bare = sorted({r["item"] for r in records if r["shop_per_unit"] is None})
    return [sentence("worth-no-shop-price", names=Names(tuple(bare)))] if bare else []
