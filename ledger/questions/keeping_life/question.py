"""How long do our things really keep, and what was lost, by cause?"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.messages import sentence
from ledger.projections.base import Answer, Column, Node, Option, Projection
from ledger.questions.keeping_life import loss as keeping_loss
from ledger.questions.quantities import about
from ledger.questions.shared.arithmetic import product, quotient
from ledger.questions.shared.common import answer, event_node
from ledger.questions.shared.lives import ENOUGH, FEW, Group, groups_of
from ledger.questions.shared.opening import check_figure, no_record, only_item
from ledger.reference import winter

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
    groups = [g for g in groups_of(state) if only in (None, g.item)]
    records = [_record(state, group) for group in groups]
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


def published_of(state: State, group: Group) -> tuple[float, str] | None:
    """Return the longer end of the published life of an item in its place, in days, and its source."""
    from ledger.items import item_key
    from ledger.questions.shared.keeping import keeping_of

    if group.place == "cellar":
        key = item_key(state.facts.names[group.item])
        for one in winter.figures("keeping", "storage_life"):
            if item_key(one.item) == key and one.high is not None and not one.from_memory:
                return one.high * 365.25 / 12, winter.document(one.source)
    for lot in sorted(group.lots):
        found = keeping_of(state, lot)
        if found is not None:
            return found.high_days, found.source
    return None


def _record(state: State, group: Group) -> dict[str, Any]:
    curve, name = group.curve, state.facts.names[group.item]
    published = published_of(state, group)
    own = curve.median if group.failures >= ENOUGH else None
    both = [days for days in (own, published[0] if published else None) if days is not None]
    last = curve.steps[-1] if curve.steps else None
    good = max(
        (t for t, bad in zip(group.times, group.failed, strict=True) if not bad), default=None
    )
    return {
        "why": f"keeping-life/{name}/{group.place}",
        "item": name,
        "place": group.place,
        "subjects": curve.subjects,
        "failures": group.failures,
        "half_days": own,
        "at_least_days": good,
        "mean_days": curve.mean if group.failures >= ENOUGH else None,
        "survival": None if last is None else last.survival,
        "error": None if last is None else last.error,
        "published_days": published[0] if published else None,
        "published_from": published[1] if published else None,
        "life_days": min(both) if both else None,
        "says": _says(group, own, published),
        "assumptions": ["curve", "published", "bulk"],
    }


def _says(group: Group, own: float | None, published: tuple[float, str] | None) -> str:
    if group.failures < FEW:
        return sentence("keeping-too-few")
    if group.failures < ENOUGH:
        return sentence("keeping-first-hint", n=group.failures)
    if own is None:
        return sentence("keeping-more-than-half", n=round(group.curve.last))
    if published and own > published[0]:
        return sentence("keeping-published-stands")
    return sentence("keeping-half-good", n=round(own))


def why(state: State, key: str, field: str | None = None) -> Node:
    """Return a figure as a tree.

    Raises
    ------
    NotFound
        When there is no such record or figure.
    """
    name, _, place = key.rpartition("/")
    if name.startswith("loss/"):
        return keeping_loss.why(state, name.removeprefix("loss/"), place, field)
    item = state.facts.find(name)
    group = next((g for g in groups_of(state) if g.item == item and g.place == place), None)
    if group is None:
        raise no_record("keeping-life", key)
    trees = {
        "survival": lambda: _survival(state, group),
        "failures": lambda: _failures(state, group),
        "subjects": lambda: Node(sentence("keeping-seen"), group.curve.subjects, "subjects"),
        "at_least_days": lambda: _good(state, group),
        "published_days": lambda: _published(state, group),
        "half_days": lambda: _half(state, group),
        "life_days": lambda: _life(state, group),
        "error": lambda: Node(
            sentence("keeping-greenwood-standard-error"), _last_error(group), "0 to 1"
        ),
        "mean_days": lambda: Node(
            sentence("keeping-area-under-curve"),
            group.curve.mean if group.failures >= ENOUGH else None,
            "days",
        ),
    }
    figure = field or "survival"
    check_figure("keeping-life", figure, trees)
    return trees[figure]()


def _last_error(group: Group) -> float | None:
    return group.curve.steps[-1].error if group.curve.steps else None


def _survival(state: State, group: Group) -> Node:
    """Return the part good at the end: the product over the ages at which some failed."""
    factors = []
    for step in group.curve.steps:
        if step.failed:
            good = Node(sentence("keeping-good"), step.at_risk - step.failed, "subjects")
            risk = Node(sentence("keeping-there"), step.at_risk, "subjects")
            factors.append(
                quotient(sentence("keeping-day", n=about(step.time)), "0 to 1", good, risk)
            )
    if not factors:
        return Node(
            sentence("keeping-nothing-failed"),
            group.curve.steps[-1].survival if group.curve.steps else 1.0,
            "0 to 1",
        )
    return product(sentence("keeping-still-good"), "0 to 1", *factors)


def _failures(state: State, group: Group) -> Node:
    leaves = [
        event_node(state, ev, "", 1.0, "times")
        for ev, bad in zip(group.evs, group.failed, strict=True)
        if bad
    ]
    return Node(
        sentence("keeping-failed"),
        float(len(leaves)),
        "times",
        "sum" if leaves else "written",
        leaves,
    )


def _good(state: State, group: Group) -> Node:
    good = [
        (t, ev) for t, ev, bad in zip(group.times, group.evs, group.failed, strict=True) if not bad
    ]
    if not good:
        return Node(sentence("keeping-nothing-seen-good"), None, "days")
    time, ev = max(good)
    return (
        Node(sentence("keeping-still-there"), time, "days")
        if ev < 0
        else event_node(state, ev, sentence("keeping-good-this-age"), time, "days")
    )


def _published(state: State, group: Group) -> Node:
    found = published_of(state, group)
    return (
        Node(sentence("keeping-nothing-published"), None, "days")
        if found is None
        else Node(sentence("keeping-published", source=found[1]), found[0], "days")
    )


def _half(state: State, group: Group) -> Node:
    own = group.curve.median if group.failures >= ENOUGH else None
    return Node(
        sentence("keeping-half-failed") if own is not None else sentence("keeping-too-few"),
        own,
        "days",
    )


def _life(state: State, group: Group) -> Node:
    parts = [
        node for node in (_half(state, group), _published(state, group)) if node.value is not None
    ]
    if not parts:
        return Node(sentence("keeping-neither-known"), None, "days")
    return Node(
        sentence("keeping-reckon"),
        min(float(node.value or 0.0) for node in parts),
        "days",
        "lowest",
        parts,
    )


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
