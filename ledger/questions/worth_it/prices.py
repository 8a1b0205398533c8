"""Home price against shop, by item and season: what was grown and what was put up."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.messages import Names, sentence
from ledger.projections.base import Answer, Column
from ledger.questions.shared.common import answer
from ledger.questions.worth_it.gather import LINES
from ledger.questions.worth_it.notes import LotNotes
from ledger.questions.worth_it.prices_figures import figures
from ledger.questions.worth_it.prices_gather import Grouped

if TYPE_CHECKING:
    from ledger.questions.worth_it.span import Span
    from ledger.replay import State

__all__ = ["COLUMNS", "build"]

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


def build(state: State, span: Span | None = None) -> Answer:
    """Return one record an item and season, by line and item, the newest season first."""
    grouped, facts = state.once(Grouped), state.facts
    notes = LotNotes(state, grouped.lots)
    cells = {name: figure.cells() for name, figure in state.once(figures).items()}
    records: list[dict[str, Any]] = []
    for row, (line, item, season) in enumerate(
        zip(grouped.line.tolist(), grouped.item.tolist(), grouped.season.tolist(), strict=True)
    ):
        if span is not None and season != span.season:
            continue
        ids, unpriced, provisional = notes.of(grouped.lots_of(row))
        per = grouped.per[row]
        records.append(
            {
                "why": f"worth-it/{season}/{LINES[line]}/{facts.strand_name(item)}",
                "season": str(season),
                "item": facts.names[item],
                "line": LINES[line],
                "per": None if per is None else per[0],
                **{name: column[row] for name, column in cells.items()},
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


def _missing(records: list[dict[str, Any]], span: Span | None) -> list[str]:
    if not records:
        if span:
            return [sentence("worth-nothing-made-in", n=span.season)]
        return [sentence("worth-nothing-made")]
    bare = sorted({r["item"] for r in records if r["shop_per_unit"] is None})
    return [sentence("worth-no-shop-price", names=Names(tuple(bare)))] if bare else []
