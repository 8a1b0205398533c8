"""Somebody at the table: age, sex, and what changes what they need, from this day on."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from ledger.kinds.fields import Day, Person, Text, Whole, about
from ledger.kinds.kind import Kind, Phase
from ledger.kinds.parts import Struct


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
    old = f"{body['age']} years" if "age" in body else f"born {body.get('born', '')}"
    more = [body["sex"], old]
    if body.get("state"):
        more.append(body["state"])
    if body.get("activity"):
        more.append(f"{body['activity']} work")
    if body.get("table") == "away":
        more.append("away from the table")
    return f"{body['person']} at the table ({', '.join(more)})"


KIND = Kind(
    name="person_described",
    command="person",
    title="Person",
    summary="say who eats: age, sex, and what changes what they need",
    body=PersonDescribed,
    phase=Phase.FACTS,
    tell=tell,
    example={"person": "Ada", "sex": "female", "age": 39, "activity": "moderate"},
)
