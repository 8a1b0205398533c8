"""Rules 1 and 2: which entries hold, and in which order."""

from __future__ import annotations

import datetime as dt

from oracle.model import Entry
from oracle.units import day, moment

NOT_HIDDEN = ("item_described", "setting_changed")
PHASES = {
    "planted": 2,
    "harvested": 2,
    "bought": 2,
    "received": 2,
    "put_up": 3,
    "eaten": 4,
    "given_away": 4,
    "discarded": 5,
}


def phase(kind, body):
    """Return the place of a kind within its day."""
    if kind == "counted":
        return 1 if body.get("when") == "start" else 6
    return PHASES.get(kind, 0)


def known(events, known_at):
    """Return the events that were written down by a moment."""
    if known_at is None:
        return list(events)
    return [e for e in events if moment(e["recorded_at"]) <= moment(known_at)]


def settle(events, as_of, known_at):
    """Return the entries that count, in rule 2's order."""
    first_of = {}  # event id -> id of the first event of its entry
    chains = {}  # first id -> its events by seq
    for event in sorted(known(events, known_at), key=lambda e: e["seq"]):
        if event["kind"] == "struck":
            first = first_of.get(event["body"]["id"])
        elif event.get("replaces"):
            first = first_of[event["id"]] = first_of[event["replaces"]]
        else:
            first = first_of[event["id"]] = event["id"]
            chains[first] = []
        if first is not None:
            chains[first].append(event)
    entries = []
    for first, chain in chains.items():
        newest = chain[-1]
        if newest["kind"] == "struck":
            continue
        on = day(newest["on"])
        if on > as_of and newest["kind"] not in NOT_HIDDEN:
            continue
        entries.append(
            Entry(
                id=first,
                seq=chain[0]["seq"],
                kind=newest["kind"],
                event=newest["id"],
                on=on,
                at=newest.get("at") or "12:00",
                phase=phase(newest["kind"], newest["body"]),
                body=newest["body"],
            )
        )
    return sorted(entries, key=lambda e: (e.on, e.phase, e.at, e.seq))


class Settings:
    """Settings: each holds from its day on, and its first value before it too (rule 2)."""

    def __init__(self, entries):
        self._values = {}
        for entry in entries:
            if entry.kind == "setting_changed":
                name = entry.body["name"]
                self._values.setdefault(name, []).append((entry.on, entry.body["value"]))

    def on(self, name, when):
        """Return the value that holds on a day, or None."""
        values = self._values.get(name)
        if not values:
            return None
        held = [value for on, value in values if on <= when]
        return held[-1] if held else values[0][1]

    def newest(self, name):
        """Return the last value of all, or None."""
        return self.on(name, dt.date.max)
