"""Settings: what each may be, in words that a refusal can use."""

from __future__ import annotations

import re
from collections.abc import Callable
from zoneinfo import ZoneInfo

from ledger.amounts import parse_measure
from ledger.door.bed_plan import PLAN_EXAMPLE, read_plan
from ledger.errors import InputError

__all__ = ["check_setting", "jars_per_load", "setting_names"]

_MONTHS = "january|february|march|april|may|june|july|august|september|october|november|december"


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
        raise InputError(name, f"cannot be {value!r}", f"Write {wanted}")


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
    "altitude": (_is_altitude, "a height, for example 2600 ft"),
    "gauge": (_matches("dial|weighted"), "dial or weighted"),
    "currency": (_matches("[A-Z]{3}"), "the three letters of a currency, for example USD"),
    "measures": (_matches("us|uk|metric"), "us, uk or metric"),
    "time_zone": (_is_zone, "an IANA time zone, for example America/Denver"),
    "labour_rate": (
        _matches(_RATE),
        "money per hour, for example 12.00",
    ),
    "interest_rate": (
        _matches(r"(\d{1,2}(\.\d+)?|100(\.0+)?)\s*(%|percent|per cent)?(\s*(a|per) year)?"),
        "per cent a year, from 0 to 100, for example 4",
    ),
    "people": (_matches(r"[1-9]\d{0,2}"), "how many people, for example 6"),
    "kcal_per_person_day": (_matches(_MONEY), "kcal, for example 2200"),
    "season_starts": (
        _matches(rf"\d{{1,2}} ({_MONTHS})|({_MONTHS}) \d{{1,2}}"),
        "a day of the year, for example 1 October",
    ),
    "price_of_electricity": (_matches(_ENERGY), "a price, for example 0.17 per kWh"),
    "price_of_gas": (_matches(_ENERGY), "a price, for example 1.35 per therm"),
    "jars_per_load": (
        lambda value: bool(re.findall(r"[a-z]\s*[:=]?\s+\d", value)),
        "jars by size, for example quart jar: 7, pint jar: 9",
    ),
    "jar_label_prefix": (_matches(r"\S{1,20}"), "what stands before the number, for example S26-"),
    "helper_wage": (_matches(_RATE), "money per hour, for example 15.00"),
    "pay_given_up": (_matches(_RATE), "money per hour, for example 22.00"),
    "freezer_room": (
        _matches(r"\d+(\.\d+)?\s*(cu\.? ?ft|cubic (foot|feet)|ft3|l|liters?|litres?)"),
        "a size, for example 15 cu ft or 420 L",
    ),
    "flour_enriched": (_matches("yes|no"), "yes or no, as the sack says"),
    "salt_iodised": (_matches("yes|no"), "yes or no, as the box says"),
    "bed_plan": (_is_plan, f"where each bed lies, for example {PLAN_EXAMPLE}"),
    "language": (_matches(r"[a-z]{2}(-[A-Za-z]{2})?"), "a language code, for example en"),
}
