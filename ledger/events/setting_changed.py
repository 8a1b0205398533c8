"""A setting of the household."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from ledger.events._fields import Note, ValueText, about
from ledger.events._kind import Kind, Phase
from ledger.events._lines import Struct

Name = Literal[
    "altitude",
    "gauge",
    "currency",
    "measures",
    "time_zone",
    "labour_rate",
    "interest_rate",
    "people",
    "kcal_per_person_day",
    "season_starts",
    "price_of_electricity",
    "price_of_gas",
    "jars_per_load",
    "jar_label_prefix",
    "language",
    "helper_wage",
    "pay_given_up",
    "freezer_room",
    "flour_enriched",
    "salt_iodised",
    "bed_plan",
]


class SettingChanged(Struct, kw_only=True):
    """A setting and its value, from this day on."""

    name: Annotated[Name, about("Setting", "Which setting", "altitude")]
    value: Annotated[ValueText, about("Value", "Its value", "2600 ft")]
    note: Annotated[Note | None, about("Note", "Anything worth remembering", "")] = None


def tell(body: dict[str, Any]) -> str:
    """Say it in one line."""
    if body["name"] == "bed_plan":
        return f"put {body['value'].count(';') + 1} beds where they lie"
    return f"set {body['name']} to {body['value']}"


KIND = Kind(
    name="setting_changed",
    command="setting",
    title="Setting",
    summary="change a setting of the household",
    body=SettingChanged,
    phase=Phase.FACTS,
    tell=tell,
    example={"name": "altitude", "value": "2600 ft"},
)
