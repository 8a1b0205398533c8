"""A setting of the household."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Annotated, Any, Literal

from ledger.amounts import parse_measure
from ledger.errors import InputError
from ledger.kinds import telling
from ledger.kinds.bed_plan import PLAN_EXAMPLE, read_plan
from ledger.kinds.fields import Note, ValueText, about
from ledger.kinds.kind import Form, Kind, Phase
from ledger.kinds.parts import Struct
from ledger.kinds.resolving import Body, Resolver
from ledger.messages import Code, Day, Message, Row, Typed, sentence

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
        beds = body["value"].count(";") + 1
        return f"put {telling.count(beds, 'bed')} where {'it lies' if beds == 1 else 'they lie'}"
    return f"set {body['name']} to {body['value']}"


def says(body: dict[str, Any]) -> Message:
    """Return what `tell` says, as a message."""
    if body["name"] == "bed_plan":
        return Message.of("told-beds-put", n=body["value"].count(";") + 1)
    name = telling.word(body["name"], "sense-name")
    return Message.of("told-set", name=name, value=value_says(body["name"], str(body["value"])))


def value_says(name: str, value: str) -> Any:
    """Return what a setting's value says, as a message is given it: words, units and jars in a language."""
    if name in _CHOSEN:
        return telling.word(value, _CHOSEN[name])
    if name == "season_starts" and (day := _day_of_year(value)):
        return Message.of("told-day-of-year", day=Day(day))
    if name == "jars_per_load":
        jars = jars_per_load(value)
        if value == ", ".join(f"{jar}: {n}" for jar, n in jars.items()):
            several = tuple(Row((telling.jar_said(jar), n), ": ") for jar, n in jars.items())
            return Row(several, ", ")
    return telling.figure(value) if _ONE_NUMBER.fullmatch(value) else value


def _day_of_year(value: str) -> str | None:
    """Return a day of a year without one, ``1 October``, as a day of the year 2000."""
    found = re.fullmatch(r"(?:(\d{1,2}) ([a-z]+)|([a-z]+) (\d{1,2}))", value.strip().lower())
    months = _MONTHS.split("|")
    if found is None or (month := found[2] or found[3]) not in months:
        return None
    return f"2000-{months.index(month) + 1:02}-{int(found[1] or found[4]):02}"


_CHOSEN = {
    "language": "sense-set",
    "measures": "sense-set",
    "gauge": "word",
    "flour_enriched": "sense-set",
    "salt_iodised": "sense-set",
}
_ONE_NUMBER = re.compile(r"\d[\d,]*(?:\.\d+)?(?: \D*)?")


_MONTHS = "january|february|march|april|may|june|july|august|september|october|november|december"


_NUMBERS = {
    "altitude",
    "labour_rate",
    "interest_rate",
    "kcal_per_person_day",
    "price_of_electricity",
    "price_of_gas",
    "helper_wage",
    "pay_given_up",
    "freezer_room",
}
"""Settings whose value begins with a number, which may have a decimal comma in German."""

_COMMA = re.compile(r"^(\s*\d+),(\d+)")


def setting_names() -> tuple[str, ...]:
    """Return the names of every setting there is."""
    return tuple(_CHECKS)


def check_setting(name: str, value: str) -> None:
    """Refuse a value that a setting cannot have.

    Raises
    ------
    InputError
        Saying what would be right.
    """
    check, wanted = _CHECKS[name]
    if not check(value):
        more = {"example": Code(PLAN_EXAMPLE)} if name == "bed_plan" else {}
        raise InputError(
            name,
            Message.of("refusal-setting-cannot", text=Typed(value)),
            Message.of(wanted, **more),
        )


def jars_per_load(value: str | None) -> dict[str, int]:
    """Return jars per canner load by jar: ``quart jar: 7, pint jar: 9``.

    The default is what a common pressure canner holds (common practice, no source).
    """
    found = re.findall(r"([\w.\- ]+?)\s*[:=]?\s+(\d{1,4})\s*(?:,|;|$)", value or "")
    named = {
        (name if name.endswith("jar") else f"{name} jar").strip(): int(jars) for name, jars in found
    }
    return named or {"quart jar": 7, "pint jar": 9, "half-pint jar": 12}


def _matches(pattern: str) -> Callable[[str], bool]:
    return lambda value: re.fullmatch(pattern, value.strip(), re.IGNORECASE) is not None


def _is_zone(value: str) -> bool:
    from zoneinfo import ZoneInfo

    try:
        ZoneInfo(value)
    except (KeyError, ValueError, OSError):
        return False
    return True


def _is_altitude(value: str) -> bool:
    try:
        parse_measure(value, "length", "altitude")
    except InputError:
        return False
    return True


def _is_plan(value: str) -> bool:
    try:
        read_plan(value)
    except InputError:
        return False
    return True


_MONEY = r"\d+(\.\d+)?"


_RATE = rf"{_MONEY}(\s*(per|/)\s*(hour|h|minute|min))?"


_ENERGY = rf"{_MONEY}\s*(per|/)\s*(kwh|mj|therm|btu)"


_CHECKS: dict[str, tuple[Callable[[str], bool], str]] = {
    "altitude": (_is_altitude, "refusal-setting-altitude"),
    "gauge": (_matches("dial|weighted"), "refusal-setting-gauge"),
    "currency": (_matches("[A-Z]{3}"), "refusal-setting-currency"),
    "measures": (_matches("us|uk|metric"), "refusal-setting-measures"),
    "time_zone": (_is_zone, "refusal-setting-time-zone"),
    "labour_rate": (
        _matches(_RATE),
        "refusal-setting-labour-rate",
    ),
    "interest_rate": (
        _matches(r"(\d{1,2}(\.\d+)?|100(\.0+)?)\s*(%|percent|per cent)?(\s*(a|per) year)?"),
        "refusal-setting-interest-rate",
    ),
    "people": (_matches(r"[1-9]\d{0,2}"), "refusal-setting-people"),
    "kcal_per_person_day": (_matches(_MONEY), "refusal-setting-kcal-per-person-day"),
    "season_starts": (
        _matches(rf"\d{{1,2}} ({_MONTHS})|({_MONTHS}) \d{{1,2}}"),
        "refusal-setting-season-starts",
    ),
    "price_of_electricity": (_matches(_ENERGY), "refusal-setting-price-of-electricity"),
    "price_of_gas": (_matches(_ENERGY), "refusal-setting-price-of-gas"),
    "jars_per_load": (
        lambda value: bool(re.findall(r"[a-z]\s*[:=]?\s+\d", value)),
        "refusal-setting-jars-per-load",
    ),
    "jar_label_prefix": (_matches(r"\S{1,20}"), "refusal-setting-jar-label-prefix"),
    "helper_wage": (_matches(_RATE), "refusal-setting-helper-wage"),
    "pay_given_up": (_matches(_RATE), "refusal-setting-pay-given-up"),
    "freezer_room": (
        _matches(r"\d+(\.\d+)?\s*(cu\.? ?ft|cubic (foot|feet)|ft3|l|liters?|litres?)"),
        "refusal-setting-freezer-room",
    ),
    "flour_enriched": (_matches("yes|no"), "refusal-setting-flour-enriched"),
    "salt_iodised": (_matches("yes|no"), "refusal-setting-salt-iodised"),
    "bed_plan": (_is_plan, "refusal-setting-bed-plan"),
    "language": (_matches(r"[a-z]{2}(-[A-Za-z]{2})?"), "refusal-setting-language"),
}


def resolve(body: Body, lines: Resolver) -> Body:
    """Return a setting whose value it can have: a number is kept with a point, whoever wrote it.

    Raises
    ------
    InputError, NeedsAnswer
    """
    if lines.comma and body["name"] in _NUMBERS:
        body = {**body, "value": _COMMA.sub(r"\1.\2", body["value"])}
    check_setting(body["name"], body["value"])
    _point_to_measures(body, lines)
    return body


def _point_to_measures(body: Body, lines: Resolver) -> None:
    """Note that amounts go on in pounds and quarts, to a household that is not at home in those."""
    abroad = {"currency": "USD", "language": "en"}.get(body["name"], body["value"])
    if abroad != body["value"] and lines.catalogue.setting("measures") is None:
        command = Code("croftbook setting measures metric")
        lines.answers.note(sentence("doubt-measures-unset", command=command))


KIND = Kind(
    name="setting_changed",
    command="setting",
    title="Setting",
    summary="change a setting of the household",
    body=SettingChanged,
    phase=Phase.FACTS,
    supplies={},
    draws=(),
    resolve=resolve,
    words=("name", "value"),
    typed=(
        'setting altitude "2600 ft"',
        'setting price_of_electricity "0.17 per kWh"',
    ),
    tell=tell,
    says=says,
    form=Form(("name", "value")),
    example={"name": "altitude", "value": "2600 ft"},
)
