"""Events for the contract, as the door would hand them over."""

from __future__ import annotations

import json
import uuid
from typing import Any

from ledger.log import NewEvent


def canonical(body: object) -> str:
    return json.dumps(body, sort_keys=True, separators=(",", ":"), ensure_ascii=False)


def event(item: str = "plum", **fields: Any) -> NewEvent:
    given = {
        "id": str(uuid.uuid4()),
        "kind": "harvested",
        "v": 1,
        "on": "2026-09-02",
        "body": canonical({"lines": [{"amount": "1 lb", "item": item, "n": 1, "whole": 453592}]}),
    }
    return NewEvent(**{**given, **fields})
