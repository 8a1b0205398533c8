"""Why a figure of next-season says so: the tree of its formula at one crop, or one week's putting up."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING
from urllib.parse import unquote

from ledger.errors import NotFound
from ledger.figures import Figure, Node
from ledger.messages import Day, Message, Typed
from ledger.questions.next_season.labels import LABELS
from ledger.questions.next_season.weeks import Weeks
from ledger.questions.planning.asked import from_address
from ledger.questions.planning.batches import Batches
from ledger.questions.planning.yields import WHOLE
from ledger.questions.shared.opening import opened
from ledger.questions.shared.usual_plan import plan_of
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.questions.planning.plan import Plan
    from ledger.replay import State

__all__ = ["FIGURES", "why"]

FIGURES = (
    "needed_g.likely", "needed_g.low", "needed_g.high", "jars_wanted", "fresh_wanted_g", "into_jars_g", "otherwise_g",
    "trimmed_share", "yield_g.likely", "yield_g.low", "plants.likely", "plants.nine_in_ten", "plants.planned", "row_m",
    "area_m2", "short_g", "fails", "chance_short",
)  # fmt: skip
"""The columns of a crop that are figures."""

_SHORT = {"needed_g": "needed_g.likely", "plants": "plants.likely"}


def why(state: State, key: str, field: str | None = None, *, deep: int = 0) -> Node:
    """Return a figure of one crop, or of one week's putting up, as a tree.

    Parameters
    ----------
    key : str
        ``<crop>``, or ``week=<Monday>/<what is made>``, with what was asked otherwise behind it
        (`Asked.address`); ``yields=all`` is what all crops say together, ``store=jar <kind>`` and
        ``store=lid <kind>`` what is in the house.
    field : str, optional
        A column of the answer; default: the likely number of plants, else what is needed.
    deep : int
        Levels of folded lines to open.

    Raises
    ------
    NotFound
        When there is no such record, or no such figure of it.
    """
    name, *more = key.split("/")
    what, _, which = name.partition("=")
    if what == "week" and "=" in name:
        item, *more = more or [""]
        figures, row, default = _week(plan_of(state, from_address(state, more)), which, item)
    elif what == "store" and "=" in name:
        figures, row, default = _store(plan_of(state, from_address(state, more)), which)
    elif name == WHOLE:
        figures, row, default = (
            plan_of(state, from_address(state, more)).yields.household,
            0,
            "level",
        )
    else:
        figures, row, default = _crop(plan_of(state, from_address(state, more)), unquote(name))
    chosen = default if field is None else _SHORT.get(field, field)
    return opened(state, "next-season", (figures, chosen), row, LABELS, deep)


def _crop(plan: Plan, name: str) -> tuple[Mapping[str, Figure], int, str]:
    crop = next((c for c in plan.crops if c.name == name), None)
    if crop is None:
        raise NotFound("address", Message.of("refusal-crop-not-planned", text=Typed(name)))
    default = "plants.likely" if crop.likely and crop.growth.size == "plants" else "needed_g.likely"
    return {figure: plan.known[figure] for figure in FIGURES}, crop.row, default


def _week(plan: Plan, week: str, item: str) -> tuple[Mapping[str, Figure], int, str]:
    weeks, number = Weeks(Batches(plan)), plan.state.facts.find_strand(unquote(item))
    for row, one in enumerate(weeks.batches.weeks):
        if one.item == number and week == ("unknown" if one.day is None else day_text(one.day)):
            return weeks.of, row, "raw_g" if one.jars is None else "jars"
    raise NotFound(
        "address",
        Message.of("refusal-not-put-up-in-week", text=Typed(unquote(item)), week=Day(week)),
    )


def _store(plan: Plan, kind: str) -> tuple[Mapping[str, Figure], int, str]:
    stores = Weeks(Batches(plan)).stores
    row = stores.find(kind)
    if row is None:
        raise NotFound("address", Message.of("refusal-crop-not-planned", text=Typed(kind)))
    return {"there": stores.there}, row, "there"
