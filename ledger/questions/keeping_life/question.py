"""How long do our things really keep, and what was lost, by cause?"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.messages import sentence
from ledger.projections.base import Answer, Column, Option, Projection
from ledger.questions.keeping_life import loss as keeping_loss
from ledger.questions.keeping_life.figures import ENOUGH, FEW, LifeFigures
from ledger.questions.keeping_life.gather import Lives
from ledger.questions.keeping_life.why import why
from ledger.questions.shared.common import answer
from ledger.questions.shared.opening import only_item

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["COLUMNS", "PROJECTION", "build"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("item", "Item", "", "What was kept.", main=True),
    Column("place", "Kept", "", "Where.", main=True),
    Column("subjects", "Kept", "subjects", "Jars, pieces, or takings out of bulk that were seen.", main=True),
    Column("failures", "Failed", "times", "Times that it was discarded as spoiled, unsealed, too old or eaten by pests.", main=True),
    Column("half_days", "Half by", "days", "Age by which half had failed; null where more than half had not, or fewer than ten failures say little.", main=True),
    Column("at_least_days", "Kept at least", "days", "The greatest age at which some had not been thrown away; no word on safety.", main=True),
    Column("mean_days", "Mean life", "days", "Area under the curve to the greatest age seen; null from fewer than ten failures."),
    Column("survival", "Not failed by then", "0 to 1", "Part not thrown away by the greatest age seen."),
    Column("error", "Error", "0 to 1", "Greenwood's standard error of it; null where nothing is left."),
    Column("published_days", "Published", "days", "The longer end of the published life of its food and place; null where none is published.", main=True),
    Column("published_from", "Published in", "", "Where."),
    Column("life_days", "Reckon with", "days", "The shorter of the published life and of one's own from ten failures on; never longer than what is published.", main=True),
    Column("says", "Says", "", "What the record is good for, in words."),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip


def build(state: State, *, item: str | None = None, loss: bool = False) -> Answer:
    """Return one record an item and place, what failed most first; or what was lost, by cause.

    Parameters
    ----------
    state : State
    item : str, optional
        Only this item.
    loss : bool
        Instead, one record an item and cause: weight, money and hours lost.

    Returns
    -------
    Answer
        Columns as in `COLUMNS`, or those of the losses.

    Raises
    ------
    NotFound
        When there is no such item.
    """
    only = only_item(state, item)
    if loss:
        return keeping_loss.build(state, only)
    lives = state.once(Lives)
    cells = {name: figure.cells() for name, figure in state.once(LifeFigures).of.items()}
    records = [
        _record(state, lives, cells, row)
        for row, (which, _) in enumerate(lives.keys)
        if only in (None, which)
    ]
    records.sort(key=lambda r: (-r["failures"], r["item"], r["place"]))
    totals: dict[str, Any] = {"failures": sum(r["failures"] for r in records)}
    totals["in_words"] = [sentence("keeping-losses-written-down-from-ten", n=totals["failures"])]
    if not records:
        totals["missing"] = [sentence("keeping-no-food-came-yet")]
    return answer(state, "keeping-life", COLUMNS, records, totals=totals, assumptions=_notes())


def _notes() -> list[Assumption]:
    return [
        Assumption("curve", sentence("keeping-survival-product-limit-estimate-error")),
        Assumption("published", sentence("keeping-published-life-never-lengthened-jar")),
        Assumption("bulk", sentence("keeping-what-kept-weight-volume-each")),
    ]  # fmt: skip


def _record(state: State, lives: Lives, cells: dict[str, list[Any]], row: int) -> dict[str, Any]:
    (item, place), mine = lives.keys[row], {name: column[row] for name, column in cells.items()}
    name = state.facts.names[item]
    return {
        **mine,
        "why": f"keeping-life/{lives.name(row)}",
        "item": name,
        "place": place,
        "failures": int(mine["failures"]),
        "published_from": lives.published_from[row],
        "says": _says(mine, float(lives.age[lives.by == row].max())),
        "assumptions": ["curve", "published", "bulk"],
    }


def _says(mine: dict[str, Any], oldest: float) -> str:
    own, published = mine["half_days"], mine["published_days"]
    if mine["failures"] < FEW:
        return sentence("keeping-too-few")
    if mine["failures"] < ENOUGH:
        return sentence("keeping-first-hint", n=int(mine["failures"]))
    if own is None:
        return sentence("keeping-more-than-half", n=round(oldest))
    if published and own > published:
        return sentence("keeping-published-stands")
    return sentence("keeping-half-good", n=round(own))


PROJECTION = Projection(
    name="keeping-life",
    title="Keeping life",
    question="How long do our things really keep, and what was lost, by cause?",
    columns=COLUMNS,
    build=build,
    why=why,
    options=(
        Option("item", "only this item", "winter squash"),
        Option("loss", "what was lost, by cause: weight, money and hours", "--loss", kind="flag"),
    ),
    variants={"loss": keeping_loss.COLUMNS},
)
