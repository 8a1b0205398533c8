"""Why a figure of a season says so: the tree of its formula at one plot, or one week of a crop."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from ledger.errors import NotFound
from ledger.figures import Node
from ledger.messages import Message, Typed
from ledger.questions.costs import LABELS as COST_LABELS
from ledger.questions.garden.labels import LABELS as GARDEN_LABELS
from ledger.questions.garden.plots import slug
from ledger.questions.season.figures import bed_figures, crop_figures
from ledger.questions.season.records import Recorder
from ledger.questions.season.weekly import WEEKS, Weekly
from ledger.questions.shared.opening import opened

if TYPE_CHECKING:
    from collections.abc import Mapping

    from ledger.figures import Figure
    from ledger.replay import State

__all__ = ["LABELS", "why"]

LABELS = {
    **COST_LABELS,
    **GARDEN_LABELS,
    "picked": "why-crop-picked",
    "trimmed": "why-trimmed",
    "kept": "why-kept",
    "per_plant_g": "why-per-plant-g",
    "per_m2_g": "why-per-m2-g",
    "per_row_m_g": "why-per-row-m-g",
    "inputs": "why-inputs",
    "picked-here": "why-picked-here",
    "part-of-crop": "why-part-of-crop",
    "no-shop-price": "why-no-shop-price",
    "shop_value": "why-shop-value",
    "kept_too_long": "why-kept-too-long",
    "fed-or-composted": "why-fed-or-composted",
    "part-of-picking": "why-part-of-picking",
    "a-glut": "why-a-glut",
    "glut-worth": "why-glut-worth",
    "nothing": "why-nothing",
    "left-weight": "why-left-weight",
    "glut": "why-glut",
    "off-value": "why-off-value",
    "net": "why-net-of-inputs",
    "evenly": "why-evenly",
    "this-picking": "why-this-picking",
    "all-of-picking": "why-all-of-picking",
    "no-work": "why-no-work",
    "net_per_hour": "why-net-per-hour",
    "eaten fresh": "why-went-eaten-fresh",
    "put up": "why-went-put-up",
    "given": "why-went-given",
    "lost": "why-went-lost",
    "sown": "why-went-sown",
    "on hand": "why-went-on-hand",
    "last_season_g": "why-last-season-g",
    "last_season_to_date_g": "why-last-season-to-date-g",
    "nothing-last-season": "why-nothing-last-season",
    "rest-of-season": "why-rest-of-season",
    "season": "why-season-year",
    "scale": "why-scale",
    "as-large": "why-as-large",
    "season-over": "why-season-over",
    "no-earlier": "why-no-earlier",
    "to-come": "why-to-come",
    "no-published": "why-no-published",
    "published-each": "why-published-each",
    "published_low_g": "why-published-low-g",
    "published_high_g": "why-published-high-g",
    "an-amount": "why-an-amount",
    "times": "why-times",
    "once": "why-once",
    "people": "why-people",
    "days-of-season": "why-days-of-season",
    "days-of-week": "why-days-of-week",
    "weeks-of-season": "why-weeks-of-season",
    "wanted-of-crop": "why-wanted-of-crop",
    "kept-of-crop": "why-kept-of-crop",
    "kept-here": "why-kept-here",
    "all-kept": "why-all-kept",
    "missing": "why-missing",
    "target_g": "why-target-g",
    "short_of_target_g": "why-short-of-target-g",
    "no-target": "why-no-target",
    "week": "why-week",
    "so-far": "why-so-far",
    "week-to-come": "why-week-to-come",
    "scaled": "why-scaled",
    "earlier_low_g": "why-earlier-low-g",
    "earlier_high_g": "why-earlier-high-g",
}
"""What the figures are called, by the ids of their labels."""


def why(state: State, key: str, field: str | None = None, *, deep: int = 0) -> Node:
    """Return a figure of a season's record as a tree.

    Parameters
    ----------
    key : str
        ``2026/tomato``, ``2026/tomato/<variety>/<bed>``, ``2026/tomato/all`` or
        ``2026/week-34/tomato``, as in the answer's `why`.
    field : str, optional
        A column of the answer; default: what was picked.
    deep : int
        Levels of folded lines to open.

    Raises
    ------
    NotFound
        When there is no such record, or no such figure of it.
    """
    season, _, rest = key.partition("/")
    if not (season.isascii() and season.isdigit() and 1 < int(season) < 9998):
        raise _no(key)
    found = (_week if re.match(r"week-\d+/", rest) else _plot)(state, int(season), rest)
    if found is None:
        raise _no(key)
    known, row = found
    name = field or "picked_g"
    return opened(state, "season", (known, name), row, LABELS, deep)


def _plot(state: State, season: int, rest: str) -> tuple[Mapping[str, Figure], int] | None:
    known = state.once(crop_figures if rest.endswith("/all") else bed_figures)
    row = Recorder(known, season).addresses.get(f"{season}/{rest}")
    return None if row is None else (known.of, row)


def _week(state: State, season: int, rest: str) -> tuple[Mapping[str, Figure], int] | None:
    """Return the figures of ``week-34/tomato`` or ``week-34/tomato/south-bed``, and its row."""
    week, crop, *bed = rest.split("/")
    recorder = Recorder(state.once(bed_figures), season)
    recorder.rows = [
        row
        for row in recorder.rows
        if slug(recorder.names[recorder.plot(row).crop]) == crop
        and (not bed or slug(recorder.plot(row).bed or "-") == bed[0])
    ]
    number = int(week.partition("-")[2]) - 1
    if not recorder.rows or not 0 <= number < WEEKS:
        return None
    return Weekly(recorder).of, number


def _no(key: str) -> NotFound:
    return NotFound(
        "address",
        Message.of("refusal-no-record-of-season", text=Typed(key)),
    )
