"""Something picked, dug, gathered from the household's own ground or animals."""

from __future__ import annotations

from typing import Annotated, Any

from ledger.errors import InputError
from ledger.items import ItemFacts
from ledger.kinds import telling
from ledger.kinds.fields import Note, about
from ledger.kinds.kind import GROWN, Form, Kind, Phase
from ledger.kinds.parts import HarvestLine, Struct, Work
from ledger.kinds.resolving import MOST, Body, Resolver, join, line_fields, needs, several_lines
from ledger.kinds.upcasting import LINES
from ledger.messages import Message
from ledger.reference.crossing import Weights


class Harvested(Struct, kw_only=True):
    """A harvest: amounts as picked; what was trimmed off at once is said apart."""

    lines: Annotated[
        list[HarvestLine],
        about("Lines", "What was picked", [{"item": "plum", "amount": "31 lb 8 oz"}]),
    ]
    work: Annotated[
        list[Work] | None,
        about("Work", "Who worked and how long", [{"person": "Ada", "minutes": "40"}]),
    ] = None
    note: Annotated[Note | None, about("Note", "Anything worth remembering", "")] = None


def tell(body: dict[str, Any]) -> str:
    """Say it in one line."""
    return f"picked {telling.lines(body['lines'])}"


def says(body: dict[str, Any]) -> Message:
    """Return what `tell` says, as a message."""
    return Message.of("told-picked", lines=telling.lines_said(body["lines"]))


def resolve(body: Body, lines: Resolver) -> Body:
    """Return a harvest as it is stored; no more was trimmed off than was picked.

    Raises
    ------
    InputError, NeedsAnswer
    """
    needs(body["lines"], "lines", "what was picked")
    # a bare 0 says that the crop failed; 0 lb is a slip
    failed = all(str(line.get("amount")).strip() == "0" for line in body["lines"])
    out = several_lines(body["lines"], "lines", lines, zero=failed)
    for line, field in zip(out, line_fields(out, "lines"), strict=True):
        if "trimmed" in line:
            _trim(line, join(field, "trimmed"), lines)
        elif "trimmed_whole" in line:
            raise InputError(
                join(field, "trimmed"), Message.of("refusal-missing"), "Leave `trimmed_whole` out"
            )
    return {**body, "lines": out}


def _trim(line: Body, field: str, lines: Resolver) -> None:
    facts = lines.facts(line["item"])
    assert facts is not None
    if line.get("trimmed_whole") is None:
        amount = lines.amount(line["trimmed"], field)
        line["trimmed"] = amount.text
        said = lines.measured(amount, line["item"], facts, field)
        line |= {f"trimmed_{name}": value for name, value in said.items()}
    if not 0 <= line["trimmed_whole"] <= _most_trimmed(line, facts):
        raise InputError(
            field,
            f"{line['trimmed']} is more than the {line['amount']} picked",
            "Write the part of it that was thrown away",
        )


def _most_trimmed(line: Body, facts: ItemFacts) -> int:
    """Return the most that can have been trimmed off a line, in the whole units of the trimmings.

    Where the two cannot be set beside each other any amount may be right.
    """
    trimmed = line.get("trimmed_measure")
    if trimmed is None or trimmed == line.get("measure"):
        return int(line["whole"])
    if line.get("measure") is None:
        return MOST
    own = Weights(line["item"], facts)
    whole, off = (
        own.come(one, unit, "mass")
        for one, unit in ((line["measure"], line.get("per")), (trimmed, line.get("trimmed_per")))
    )
    if (whole.measure, off.measure) != ("mass", "mass"):
        return MOST
    grams = (whole.factor or 1) * (line["times"] if whole.of_times else line["whole"])
    each = (off.factor or 1) * (line["trimmed_times"] if off.of_times else line["trimmed_whole"])
    return int(line["trimmed_whole"] if each <= grams else 0)


KIND = Kind(
    name="harvested",
    command="harvest",
    title="Picked",
    summary="write down what was picked, dug or collected",
    body=Harvested,
    phase=Phase.SUPPLY,
    supplies={"lines": GROWN},
    draws=(),
    resolve=resolve,
    words=("lines",),
    typed=(
        'harvest "31 lb 8 oz plum" --bed orchard --on 2026-09-02',
        'harvest "6 lb tomato" "2 lb pepper" --on yesterday --work "Ada 40"',
    ),
    tell=tell,
    says=says,
    form=Form(("lines", "work"), ("bed",), icon="picked", common=1),
    v=2,
    upcasters=LINES,
    example={"item": "plum", "amount": "31 lb 8 oz", "bed": "orchard"},
)
