"""The demo's bodies hold only fields that the file format names: the table is typed here by hand."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterator
from typing import Any
from zoneinfo import ZoneInfo

from seed_demo.household import SETTINGS

Events = list[dict[str, Any]]

ENVELOPE = {"kind", "on", "body", "id", "by", "at", "recorded_at", "replaces"}
NEEDED = {  # kind: fields that every body of it has
    "item_described": "item sort",
    "planted": "crop",
    "harvested": "lines",
    "bought": "lines",
    "received": "how lines",
    "recipe_written": "recipe makes uses yields",
    "put_up": "makes method used made",
    "eaten": "ate",
    "given_away": "how lines",
    "discarded": "lines why",
    "counted": "lines",
    "price_seen": "item amount price",
    "practised": "skill people",
    "target_set": "",
    "setting_changed": "name value",
    "struck": "id why",
    "gauge_tested": "gauge reads by",
    "checked": "batch publication says",
    "person_described": "person sex",
    "seed_checked": "crop",
    "frost_seen": "frost seen",
    "flock_counted": "hens",
    "meter_read": "meter reads",
}
MORE = {  # kind: fields that may stand beside them
    "item_described": "measure food kcal_per_100g g_per g_per_ml holds shop_equivalent keeps also uses years feeds",
    "planted": "variety bed plants area row how seed work",
    "harvested": "work",
    "bought": "shop",
    "received": "from",
    "recipe_written": "method from schedule steps",
    "put_up": "lids minutes gauge psi headspace acid pack schedule altitude loads fuel equipment work recipe times went note",
    "eaten": "dish people guests left liked note",
    "given_away": "to got",
    "discarded": "note",
    "counted": "when missing",
    "price_seen": "shop",
    "practised": "minutes went note",
    "target_set": "item amount per by skill times",
    "person_described": "age born activity state since weight height table",
    "seed_checked": "variety year seeds days sown sprouted",
    "flock_counted": "flock hatched lays",
    "meter_read": "before batch",
    "frost_seen": "note",
}
LINE = "item amount lot"
PARTS = {  # (kind, list): fields of one of its members
    ("harvested", "lines"): LINE + " variety bed plants trimmed kept",
    ("bought", "lines"): LINE + " paid for_crop uses years kept",
    ("received", "lines"): LINE + " value kept",
    ("put_up", "made"): "jars jar unsealed labels lids amount kept",
    ("put_up", "acid"): "acid amount per",
    ("put_up", "fuel"): LINE + " metered",
    ("eaten", "left"): "item amount kept share",
    **{(kind, "work"): "person minutes" for kind in ("planted", "harvested", "put_up")},
}
UNITS = {
    "lb", "oz", "qt", "pt", "cup", "tbsp", "gal", "l", "g", "ml", "peck", "dozen", "head", "piece", "BTU", "kWh", "therm",
    "quart jar", "pint jar", "half-pint jar",
}  # fmt: skip
AMOUNT = re.compile(r"(\d+(?:\.\d+)?)(?: ([A-Za-z][A-Za-z -]*[A-Za-z]|[a-z]))?")


def parts(event: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    for name, value in event["body"].items():
        for one in value if isinstance(value, list) else [value]:
            if isinstance(one, dict):
                yield name, one


def names(event: dict[str, Any]) -> Iterator[str]:
    """Return every item that an event names and that a book must know of."""
    body = event["body"]
    for _, one in parts(event):
        yield from (one[key] for key in ("item", "jar", "for_crop") if key in one)
    yield from (body[key] for key in ("item", "makes", "crop", "shop_equivalent", "feeds", "lids") if key in body)  # fmt: skip
    yield from body.get("equipment", ())


def test_envelopes_hold_named_fields_only(told: Events) -> None:
    assert set().union(*told) == ENVELOPE


def test_bodies_hold_named_fields_only(told: Events) -> None:
    for event in told:
        kind, fields = event["kind"], set(event["body"])
        assert set(NEEDED[kind].split()) <= fields, event
        assert fields <= {*NEEDED[kind].split(), *MORE.get(kind, "").split()}, event


def test_parts_hold_named_fields_only(told: Events) -> None:
    for event in told:
        for name, one in parts(event):
            if name not in ("labels", "g_per", "keeps"):
                assert set(one) <= set(PARTS.get((event["kind"], name), LINE).split()), event


def test_every_named_field_of_a_line_is_shown(told: Events) -> None:
    seen: dict[tuple[str, str], set[str]] = {}
    for event in told:
        for name, one in parts(event):
            seen.setdefault((event["kind"], name), set()).update(one)
    assert seen["put_up", "fuel"] == {"item", "amount", "metered"}
    assert "lot" in seen["eaten", "ate"]
    assert "trimmed" in seen["harvested", "lines"]
    assert ("planted", "seed") in seen


def test_amounts_are_plainly_spelled(told: Events) -> None:
    for event in told:
        for _, one in [*parts(event), ("", event["body"])]:
            if not isinstance(text := one.get("amount"), str):
                continue
            pieces = AMOUNT.findall(text)
            assert " ".join(f"{n} {unit}".strip() for n, unit in pieces) == text
            for number, unit in pieces:
                singular = unit[:-1] if unit.endswith(" jars") else unit
                assert not singular or singular in UNITS, text
                assert float(number) > 0


def test_items_are_described_before_use(told: Events) -> None:
    described = set()
    for event in told:
        if event["kind"] == "item_described":
            described.add(event["body"]["item"])
        else:
            assert set(names(event)) <= described, event
    for event in told:
        assert set(names(event)) <= described, event


def test_nothing_is_written_before_it_happened(told: Events, until: dt.date) -> None:
    zone = ZoneInfo(SETTINGS["time_zone"])
    for event in told:
        written = dt.datetime.fromisoformat(event["recorded_at"])
        at = dt.time.fromisoformat(event.get("at", "00:00"))
        day = dt.date.fromisoformat(event["on"])
        assert written >= dt.datetime.combine(day, at, tzinfo=zone), event
        assert written < dt.datetime.combine(until, dt.time(), tzinfo=dt.UTC), event
