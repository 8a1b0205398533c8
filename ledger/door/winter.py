"""People, frost days, meters, hens and seed: what they say, read before it is stored."""

from __future__ import annotations

import datetime as dt
import re
from typing import Any

from ledger.amounts import parse_amount, parse_measure
from ledger.door.lines import Lines
from ledger.errors import InputError
from ledger.messages import Message

__all__ = [
    "flock_counted",
    "frost_seen",
    "meter_read",
    "person_described",
    "reading",
    "seed_checked",
]

Body = dict[str, Any]
_OLDEST = 120
"""Nobody is known to have lived longer than a little over this many years."""
_READING = re.compile(
    r"(?P<number>\d{1,12}(?:[.,]\d{1,6})?)\s*(?P<unit>kwh|wh|mj|l|liters?|litres?|gal|gallons?|m3|m³|cu ?ft|ft3)\.?",
    re.IGNORECASE,
)
_UNITS = {
    "kwh": ("energy", 1.0), "wh": ("energy", 0.001), "mj": ("energy", 1 / 3.6),
    "l": ("water", 1.0), "liter": ("water", 1.0), "litre": ("water", 1.0),
    "gal": ("water", 3.785411784), "gallon": ("water", 3.785411784),
    "m3": ("water", 1000.0), "m³": ("water", 1000.0),
    "cuft": ("water", 28.316846592), "ft3": ("water", 28.316846592),
}  # fmt: skip
"""Kilowatt hours or litres in one (NIST SP 811)."""


def reading(text: str, field: str = "reads") -> tuple[str, float]:
    """Return what a meter counts (``energy`` or ``water``) and how much, in kWh or litres.

    Raises
    ------
    InputError
        Naming `field`.
    """
    found = _READING.fullmatch(" ".join(text.split()))
    if found is None:
        raise InputError(
            field,
            f"{text!r} is not a reading of electricity or water",
            'Write it like "412.6 kWh" or "1203 L"',
        )
    unit = found["unit"].lower().replace(" ", "")
    what, factor = _UNITS.get(unit) or _UNITS[unit.removesuffix("s")]
    return what, float(found["number"].replace(",", ".")) * factor


def person_described(body: Body, lines: Lines) -> Body:
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
            else "is said besides the day of birth"
        )
        raise InputError("age", problem, "Write full years, for example --age 39, or --born DAY")
    age = body.get("age")
    if age is not None and age > _OLDEST:
        raise InputError("age", f"{age} is out of range", f"Write full years from 0 to {_OLDEST}")
    if "born" in body:
        _past(body["born"], "born", on)
        age = (dt.date.fromisoformat(on) - dt.date.fromisoformat(body["born"])).days // 365.25
        if age > _OLDEST:
            raise InputError("born", f"{body['born']} is {age:.0f} years ago", "Check the year")
    if "state" in body:
        _state(body, float(age or 0))
    if "since" in body:
        if "state" not in body:
            raise InputError("since", "needs a state", "Write --state pregnant or nursing, too")
        _past(body["since"], "since", on)
    _size(body)
    return {**body, "person": " ".join(body["person"].split())}


def _state(body: Body, age: float) -> None:
    if body["sex"] != "female":
        raise InputError(
            "state",
            f"{body['state']!r} does not go with sex male",
            "Leave it out, or correct the sex",
        )
    if not 12 <= age <= 60:
        raise InputError(
            "state",
            f"{body['state']!r} does not go with an age of {age:.0f}",
            "Leave it out, or correct the age",
        )


def _size(body: Body) -> None:
    if ("weight" in body) != ("height" in body):
        lacks = "height" if "weight" in body else "weight"
        raise InputError(
            lacks, Message.of("refusal-missing"), "The energy by size needs weight and height"
        )
    if "weight" not in body:
        return
    amount = parse_amount(body["weight"])
    if amount.measure != "mass":
        raise InputError("weight", f"{body['weight']!r} is not a weight", 'Write it like "62 kg"')
    if not 2 <= amount.whole / 1e6 <= 400:
        raise InputError("weight", f"{body['weight']} is out of range", "Write it like 62 kg")
    height = float(parse_measure(body["height"], "length", "height"))
    if not 0.4 <= height <= 2.6:
        raise InputError("height", f"{body['height']} is out of range", "Write it like 1.65 m")


def frost_seen(body: Body, lines: Lines) -> Body:
    """Return a frost's body; a day to come is refused.

    Raises
    ------
    InputError
        Naming `seen`.
    """
    _past(body["seen"], "seen", lines.on)
    if body["seen"] < "1850-01-01":
        raise InputError("seen", f"{body['seen']} is too long ago", "Write a year from 1850 on")
    return body


def meter_read(body: Body, lines: Lines) -> Body:
    """Return a reading's body; a meter that runs backwards is refused.

    Raises
    ------
    InputError
        Naming `reads` or `before`.
    """
    what, value = reading(body["reads"])
    if ("before" in body) != ("batch" in body):
        lacks = "batch" if "before" in body else "before"
        raise InputError(
            lacks, Message.of("refusal-missing"), "What a batch took needs --before and --batch"
        )
    if "before" in body:
        before_what, before = reading(body["before"], "before")
        if before_what != what:
            raise InputError("before", "is in other units than the reading", "Write both alike")
        if before > value:
            raise InputError(
                "before",
                f"{body['before']} is more than the {body['reads']} after",
                "Write the reading from before the batch; a meter does not run backwards",
            )
    return {**body, "meter": " ".join(body["meter"].split())}


def flock_counted(body: Body, lines: Lines) -> Body:
    """Return a flock's body.

    Raises
    ------
    InputError
        Naming `hens` or `hatched`.
    """
    if body["hens"] > 100_000:
        raise InputError("hens", f"{body['hens']} is out of range", "Write how many hens there are")
    if "hatched" in body:
        _past(body["hatched"], "hatched", lines.on)
    if "lays" in body:
        body = {**body, "lays": lines.catalogue.name(body["lays"])}
    return body


def seed_checked(body: Body, lines: Lines) -> Body:
    """Return a seed's body; a germination beyond what was sown is refused.

    Raises
    ------
    InputError
        Naming `sprouted`, `sown`, `year`, `days` or `crop`.
    """
    if ("sown" in body) != ("sprouted" in body):
        lacks = "sprouted" if "sown" in body else "sown"
        raise InputError(
            lacks, Message.of("refusal-missing"), "A test needs both, for example 13 of 20"
        )
    if "sown" in body:
        if body["sown"] == 0:
            raise InputError("sown", "is 0", "Write how many seeds were laid out, for example 20")
        if body["sprouted"] > body["sown"]:
            raise InputError(
                "sprouted",
                f"{body['sprouted']} is more than the {body['sown']} sown",
                f"Write a number from 0 to {body['sown']}",
            )
    year = int(lines.on[:4])
    if "year" in body and not year - 60 <= body["year"] <= year + 1:
        raise InputError(
            "year", f"{body['year']} is out of range", f"Write a year up to {year + 1}"
        )
    if "days" in body and not 10 <= body["days"] <= 500:
        raise InputError("days", f"{body['days']} is out of range", "Write days from 10 to 500")
    if not {"year", "seeds", "days", "sown"} & set(body):
        raise InputError(
            "year",
            Message.of("refusal-missing"),
            "Write its year, the seeds left, the packet's days or a test",
        )
    crop, _ = lines.item(body["crop"], "food", "crop")
    return {**body, "crop": crop}


def _past(day: str, field: str, on: str | None) -> None:
    if on is not None and day > on:
        raise InputError(field, f"{day} is after {on}", "Write a day that has been")
