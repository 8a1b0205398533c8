"""The household's pen: events with the day they happened and the moment they were written down."""

from __future__ import annotations

import copy
import datetime as dt
import random
import uuid
from collections.abc import Callable
from typing import Any
from zoneinfo import ZoneInfo

from seed_demo.household import SETTINGS

__all__ = ["Writer"]

_SPACE = uuid.UUID("c0ffee00-5eed-4a11-8b0c-2600f7000001")
_ZONE = ZoneInfo(SETTINGS["time_zone"])
_LAST = dt.time(23, 40, tzinfo=dt.UTC)
"""By when the last day's entries are written; what happened later is not written down yet."""


class Writer:
    """Collects events; `events` gives them in the order in which they were written down."""

    def __init__(self, seed: int, start: dt.date, end: dt.date) -> None:
        self.rng = random.Random(seed)
        self.seed, self.start, self.end = seed, start, end
        self._all: list[tuple[dt.datetime, int, dict[str, Any]]] = []

    def add(
        self,
        kind: str,
        on: dt.date,
        body: dict[str, Any],
        *,
        by: str | None = None,
        late: int = 0,
        **envelope: Any,
    ) -> dict[str, Any]:
        """Write one event down, `late` days after it happened."""
        number = len(self._all)
        event = {
            "kind": kind,
            "on": on.isoformat(),
            "id": str(uuid.uuid5(_SPACE, f"{self.seed}/{number}")),
            "body": body,
        }
        if by is not None:
            event["by"] = by
        event.update(
            {key: value for key, value in envelope.items() if key != "hour" and value is not None}
        )
        day = min(on + dt.timedelta(days=late), self.end)
        hour = envelope.get("hour", self.rng.randint(8, 21))
        minute = self.rng.randint(0, 59)
        moment = dt.datetime.combine(day, dt.time(hour, minute), tzinfo=_ZONE)
        happened = dt.time.fromisoformat(event.get("at", "00:00"))
        earliest = dt.datetime.combine(on, happened, tzinfo=_ZONE) + dt.timedelta(minutes=minute)
        moment = max(moment, earliest).astimezone(dt.UTC)
        moment = min(moment, dt.datetime.combine(self.end, _LAST))
        self._all.append((moment, number, event))
        return event

    def events(self) -> list[dict[str, Any]]:
        """Return every event, in the order of writing, with its `recorded_at`."""
        ordered = sorted(self._all, key=lambda one: (one[0], one[1]))
        return [
            {**event, "recorded_at": moment.isoformat().replace("+00:00", "Z")}
            for moment, _, event in ordered
        ]

    def of(self, *kinds: str) -> list[dict[str, Any]]:
        """Return the events of some kinds so far, in the order in which they happened."""
        return [event for _, _, event in self._all if event["kind"] in kinds]

    def mistype(self, event: dict[str, Any], slip: Callable[[dict[str, Any]], None]) -> None:
        """Let an event have been written wrong at first, and put right some days later."""
        right, wrong = event["body"], copy.deepcopy(event["body"])
        slip(wrong)
        event["body"] = wrong
        at = self._moment(event["id"])
        fixed = {key: value for key, value in event.items() if key != "id"}
        again = self._event(**fixed | {"body": right, "replaces": event["id"]})
        self._all.append((self._after(at), len(self._all), again))

    def twice(self, event: dict[str, Any], why: str) -> None:
        """Let an event have been written down twice, and the second one taken back."""
        at = self._moment(event["id"])
        fixed = {key: value for key, value in event.items() if key != "id"}
        copied = self._event(**fixed)
        second = self._after(at)
        self._all.append((second, len(self._all), copied))
        third = self._after(second)
        struck = self._event(
            kind="struck",
            on=third.astimezone(_ZONE).date().isoformat(),
            body={"id": copied["id"], "why": why},
            by="Ilse",
        )
        self._all.append((third, len(self._all), struck))

    def _event(self, **fields: Any) -> dict[str, Any]:
        number = len(self._all)
        return {**fields, "id": str(uuid.uuid5(_SPACE, f"{self.seed}/{number}"))}

    def _moment(self, id: str) -> dt.datetime:
        return next(at for at, _, one in self._all if one["id"] == id)

    def _after(self, at: dt.datetime) -> dt.datetime:
        """Return a moment some hours or days later, in the demo's time."""
        last = dt.datetime.combine(self.end, dt.time(23, 50), tzinfo=dt.UTC)
        later = at + dt.timedelta(hours=self.rng.choice((1, 3, 20, 45, 190)))
        return max(at + dt.timedelta(minutes=2), min(later, last))
