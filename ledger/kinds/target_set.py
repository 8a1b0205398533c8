"""A target: so much of an item, or a skill so many times."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from ledger.errors import InputError
from ledger.kinds import telling
from ledger.kinds.fields import Amount, Day, ItemName, Note, Stored, Text, Whole, about
from ledger.kinds.kind import Form, Kind, Phase
from ledger.kinds.parts import Basis, Struct
from ledger.kinds.resolving import Body, Resolver
from ledger.kinds.upcasting import LINES
from ledger.messages import Choice, Message


class TargetSet(Struct, kw_only=True):
    """What the household wants: an item with an amount, or a skill with a number of times."""

    item: Annotated[ItemName | None, about("Item", "What is wanted", "plum butter")] = None
    amount: Annotated[Amount | None, about("Amount", "How much of it", "24 half-pint jars")] = None
    per: Annotated[
        Literal["year", "week", "person year"] | None,
        about("Per", "Per year, week or person year", "year"),
    ] = None
    by: Annotated[Day | None, about("By", "The day by which it is wanted", "2026-11-01")] = None
    skill: Annotated[Text | None, about("Skill", "The skill that is wanted", "grafting")] = None
    times: Annotated[Whole | None, about("Times", "How many times", 3)] = None
    whole: Annotated[int | None, Stored] = None
    measure: Annotated[str | None, Stored] = None
    basis: Annotated[Basis | None, Stored] = None
    note: Annotated[Note | None, about("Note", "Anything worth remembering", "")] = None


def tell(body: dict[str, Any]) -> str:
    """Say it in one line."""
    per = f" per {body['per']}" if body.get("per") else ""
    per += f" by {body['by']}" if body.get("by") else ""
    if body.get("skill"):
        return f"target: {body['skill']} {telling.count(body.get('times', ''), 'time')}{per}"
    return f"target: {body.get('amount')} {body.get('item')}{per}"


def says(body: dict[str, Any]) -> Message:
    """Return what `tell` says, as a message."""
    per = Choice(body["per"].replace(" ", "-")) if body.get("per") else None
    by = telling.day(body["by"]) if body.get("by") else None
    if body.get("skill"):
        said = Message.of("told-target-skill", skill=body["skill"], n=body.get("times", 0), per=per)
    else:
        said = Message.of("told-target", line=telling.lines_said([body]), per=per)
    return said if by is None else Message.of("told-target-by", target=said, day=by)


def resolve(body: Body, lines: Resolver) -> Body:
    """Return a target as it is stored: of an item a line, of a skill a number of times.

    Raises
    ------
    InputError, NeedsAnswer
    """
    if ("skill" in body) == ("item" in body):
        raise InputError(
            "item",
            Message.of("refusal-target-for-one"),
        )
    if "skill" in body:
        if not body.get("times"):
            raise InputError(
                "times",
                Message.of("refusal-missing"),
                Message.of("refusal-how-many-times"),
            )
        return body
    if "amount" not in body:
        raise InputError(
            "amount", Message.of("refusal-missing"), Message.of("refusal-how-much-wanted")
        )
    line = lines.line({"item": body["item"], "amount": body["amount"]}, "")
    if body.get("whole") is not None:  # an export's word stays
        lines.carried({"whole": body["whole"]}, "")
        line = {name: line[name] for name in ("item", "amount")}
        if body.get("measure") is None:
            line["basis"] = body.get("basis", "exact")
        return {**body, **line}
    return {**body, **{name: line[name] for name in ("item", "amount", "whole", "measure")}}


KIND = Kind(
    name="target_set",
    command="target",
    title="Target",
    summary="say how much of something, or of a skill, is wanted",
    body=TargetSet,
    phase=Phase.FACTS,
    supplies={},
    draws=(),
    resolve=resolve,
    words=("line",),
    typed=(
        'target "24 half-pint jars plum butter" --per year',
        "target --skill grafting --times 3 --per year",
        'target "20 lb plum" --by "1 Nov" --person Ada',
    ),
    tell=tell,
    says=says,
    form=Form(("line", "per", "skill", "times", "by"), as_line="line", icon="list"),
    v=2,
    upcasters=LINES,
    example={"item": "plum butter", "amount": "24 half-pint jars", "per": "year"},
)
