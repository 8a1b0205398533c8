"""Somebody at the table: age, sex, and what changes what they need, from this day on."""

from __future__ import annotations

import datetime as dt
from typing import Annotated, Any, Literal

from ledger.amounts import parse_amount, parse_measure
from ledger.errors import InputError
from ledger.kinds import telling
from ledger.kinds.fields import Day, Person, Text, Whole, about
from ledger.kinds.kind import Form, Kind, Phase
from ledger.kinds.parts import Struct
from ledger.kinds.resolving import Body, Resolver, not_after
from ledger.messages import Choice, Code, Message, Typed
from ledger.messages import Day as DaySaid


class PersonDescribed(Struct, kw_only=True):
    """What is said of a person holds from this day until it is said anew, as a whole."""

    person: Annotated[Person, about("Person", "Who", "Ada")]
    sex: Annotated[
        Literal["female", "male"], about("Sex", "Which table of needs applies", "female")
    ]
    age: Annotated[Whole | None, about("Age", "Full years on this day", 39)] = None
    born: Annotated[Day | None, about("Born", "Or the day of birth", "1987-04-12")] = None
    state: Annotated[
        Literal["pregnant", "nursing"] | None,
        about("State", "Expecting a child, or nursing one", "nursing"),
    ] = None
    since: Annotated[Day | None, about("Since", "Since when that is so", "2026-06-01")] = None
    activity: Annotated[
        Literal["light", "moderate", "hard"] | None,
        about("Activity", "Light, moderate or hard work on most days", "moderate"),
    ] = None
    weight: Annotated[Text | None, about("Weight", "Body weight", "62 kg")] = None
    height: Annotated[Text | None, about("Height", "Body height", "1.65 m")] = None
    table: Annotated[
        Literal["here", "away"] | None,
        about("At the table", "Here, or away from this day on", "here"),
    ] = None


def tell(body: dict[str, Any]) -> str:
    """Say it in one line."""
    old = telling.count(body["age"], "year") if "age" in body else f"born {body.get('born', '')}"
    more = [body["sex"], old]
    if body.get("state"):
        more.append(body["state"])
    if body.get("activity"):
        more.append(f"{body['activity']} work")
    if body.get("table") == "away":
        more.append("away from the table")
    return f"{body['person']} at the table ({', '.join(more)})"


def says(body: dict[str, Any]) -> Message:
    """Return what `tell` says, as a message."""
    more: list[Any] = [telling.word(body["sex"])]
    if "age" in body:
        more.append(Message.of("told-years", n=body["age"]))
    elif body.get("born"):
        more.append(Message.of("told-born", day=telling.day(body["born"])))
    if body.get("state"):
        more.append(telling.word(body["state"]))
    if body.get("activity"):
        more.append(Message.of("told-work", work=Choice(body["activity"])))
    if body.get("table") == "away":
        more.append(Message.of("told-away"))
    return Message.of("told-person", person=body["person"], more=telling.texts(more))


_OLDEST = 120
"""Nobody is known to have lived longer than a little over this many years."""


def resolve(body: Body, lines: Resolver) -> Body:
    """Return a person's body with its name in order.

    Raises
    ------
    InputError
        Naming `age`, `born`, `state`, `since`, `weight` or `height`.
    """
    on = lines.on
    if ("age" in body) == ("born" in body):
        problem = (
            Message.of("refusal-missing")
            if "age" not in body
            else Message.of("refusal-besides-birth")
        )
        raise InputError("age", problem, Message.of("refusal-full-years"))
    age = body.get("age")
    if age is not None and age > _OLDEST:
        raise InputError(
            "age",
            Message.of("refusal-out-of-range", found=Code(str(age))),
            Message.of("refusal-full-years-to", most=_OLDEST),
        )
    if "born" in body:
        not_after(body["born"], "born", on)
        age = (dt.date.fromisoformat(on) - dt.date.fromisoformat(body["born"])).days // 365.25
        if age > _OLDEST:
            raise InputError(
                "born",
                Message.of("refusal-born-too-long-ago", day=DaySaid(body["born"]), n=round(age)),
            )
    if "state" in body:
        _state(body, float(age or 0))
    if "since" in body:
        if "state" not in body:
            raise InputError("since", Message.of("refusal-needs-state"))
        not_after(body["since"], "since", on)
    _size(body)
    return {**body, "person": " ".join(body["person"].split())}


def _state(body: Body, age: float) -> None:
    if body["sex"] != "female":
        raise InputError(
            "state",
            Message.of("refusal-state-male", text=Typed(body["state"])),
        )
    if not 12 <= age <= 60:
        raise InputError(
            "state",
            Message.of("refusal-state-age", text=Typed(body["state"]), age=round(age)),
        )


def _size(body: Body) -> None:
    if ("weight" in body) != ("height" in body):
        lacks = "height" if "weight" in body else "weight"
        raise InputError(
            lacks, Message.of("refusal-missing"), Message.of("refusal-weight-and-height")
        )
    if "weight" not in body:
        return
    amount = parse_amount(body["weight"])
    if amount.measure != "mass":
        raise InputError(
            "weight",
            Message.of("refusal-not-a-weight", text=Typed(body["weight"])),
            Message.of("refusal-like-body-weight"),
        )
    if not 2 <= amount.whole / 1e6 <= 400:
        raise InputError(
            "weight",
            Message.of("refusal-out-of-range", found=Code(str(body["weight"]))),
            Message.of("refusal-like-body-weight-plain"),
        )
    height = float(parse_measure(body["height"], "length", "height"))
    if not 0.4 <= height <= 2.6:
        raise InputError(
            "height",
            Message.of("refusal-out-of-range", found=Code(str(body["height"]))),
            Message.of("refusal-like-height"),
        )


KIND = Kind(
    name="person_described",
    command="person",
    title="Person",
    summary="say who eats: age, sex, and what changes what they need",
    body=PersonDescribed,
    phase=Phase.FACTS,
    supplies={},
    draws=(),
    resolve=resolve,
    words=("person",),
    typed=(
        "person Ada --sex female --age 39 --activity moderate",
        'person Ben --sex male --born 1984-04-12 --weight "80 kg" --height "1.80 m"',
    ),
    tell=tell,
    says=says,
    form=Form(("person", "sex", "age", "activity", "state")),
    example={"person": "Ada", "sex": "female", "age": 39, "activity": "moderate"},
)
