"""Why a figure of a season says so: the tree of its formula at one plot, or one week of a crop."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from ledger.errors import NotFound
from ledger.figures import Node, tree
from ledger.messages import Message, Typed
from ledger.questions.costs import LABELS as COST_LABELS
from ledger.questions.garden.labels import LABELS as GARDEN_LABELS
from ledger.questions.season.figures import bed_figures, crop_figures
from ledger.questions.season.records import Recorder, slug
from ledger.questions.season.weekly import WEEKS, Weekly
from ledger.questions.shared.opening import check_figure
from ledger.questions.telling import StateTeller

if TYPE_CHECKING:
    from collections.abc import Mapping

    from ledger.figures import Figure
    from ledger.replay import State

__all__ = ["LABELS", "why"]

LABELS = {
    **COST_LABELS,
    **GARDEN_LABELS,
    "plants": "plants",
    "area_m2": "ground planted",
    "row_m": "row planted",
    "no-size": "a planting does not say, or there is none",
    "picked": "{crop} picked",
    "trimmed": "{crop} trimmed",
    "kept": "kept after trimming",
    "no-weight-of": "no weight of {crop} is known",
    "per_plant_g": "picked per plant",
    "per_m2_g": "picked per square metre",
    "per_row_m_g": "picked per metre of row",
    "inputs": "inputs",
    "picked-here": "picked here",
    "part-of-crop": "its part of the crop",
    "no-shop-price": "no shop price of {crop} is known",
    "shop_value": "worth at the shop's price",
    "kept_too_long": "kept too long",
    "fed-or-composted": "fed to animals or composted",
    "part-of-picking": "part of the picking",
    "a-glut": "beyond the feed that it spared",
    "glut-worth": "its worth at the shop's price",
    "nothing": "nothing",
    "left-weight": "left of a picking",
    "glut": "fed to animals or composted, less what it replaced",
    "off-value": "inputs, what was kept too long and the glut",
    "net": "left over inputs",
    "evenly": "evenly",
    "this-picking": "this picking",
    "all-of-picking": "all that was picked with it",
    "no-work": "no work was written down",
    "net_per_hour": "net per hour",
    **{fate: fate for fate in ("eaten fresh", "put up", "given", "lost", "sown", "on hand")},
    "last_season_g": "picked in the season before",
    "last_season_to_date_g": "picked in the season before, to date",
    "nothing-last-season": "nothing of it was written down last season",
    "rest-of-season": "picked in the rest of it",
    "season": "season {season}",
    "scale": "this season's size over that one's",
    "as-large": "taken to be as large",
    "season-over": "the season is over",
    "no-earlier": "no earlier season to go by",
    "to-come": "what earlier seasons brought after this day",
    "no-published": "no published yield fits what is known of the planting",
    "published-each": "published yield ({note})",
    "published_low_g": "published, low",
    "published_high_g": "published, high",
    "an-amount": "wanted",
    "times": "times in the season",
    "once": "once",
    "people": "people",
    "days-of-season": "days of the season",
    "days-of-week": "days in a week",
    "weeks-of-season": "weeks of the season",
    "wanted-of-crop": "wanted of {crop}",
    "kept-of-crop": "{crop} of the season, after trimming",
    "kept-here": "picked here, after trimming",
    "all-kept": "all of the season",
    "missing": "missing",
    "target_g": "wanted of it",
    "short_of_target_g": "short of it",
    "no-target": "no target that can be weighed",
    "week": "picked that week",
    "so-far": "picked by the end of that week",
    "week-to-come": "that week is still to come",
    "scaled": "a picking, at this season's size",
    "earlier_low_g": "least of that week in earlier seasons",
    "earlier_high_g": "most of that week in earlier seasons",
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
    check_figure("season", name, known)
    return tree(known[name], row, StateTeller(state, LABELS), deep)


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
