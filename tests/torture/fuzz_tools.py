"""What people and machines get wrong: texts, values, bodies and events of every sort, from one seed."""

from __future__ import annotations

import json
import random

from ledger.kinds import KINDS

NASTY = [
    "", " ", "-", "---", "...", "\t", "\n", "\r\n", "'", '"', "\\", "\x00", "\x1b[31m", "\u202e", "\ufeff",
    "\ud800", "\udcff", "🍅", "é", "e\u0301", "ß", "İ", "ﬁ", "½", "²", "٣", "१२", "1e9", "1e999", "nan", "inf",
    "-1", "-0", "+3", "0", "00", "0x10", "1/0", "1/3", "0/0", "1 1/2", "1 1/0", "1,5", "1.000,5", "9" * 19,
    "9" * 39, "9" * 5_000, "0." + "0" * 50 + "1", "1" + "0" * 40, "x" * 199, "x" * 201, "x" * 5_000, "=1+1",
    "@SUM(A1)", "+cmd|' /C calc'!A0", "<script>alert(1)</script>", "'; DROP TABLE events;--", "%s%s%n",
    "{{7*7}}", "${HOME}", "../../etc/passwd", "/dev/zero", "/dev/full", "CON", "None", "null", "true", "[]",
    "{}", "[" * 500, "2026-09-02", "2026-02-30", "0000-00-00", "9999-12-31", "1899-12-31", "tomorrow",
    "yesterday", "in 5000 weeks", "99 years ago", "next friday", "25:00", "08:30", "lb", "1 lb", "1 lb plum",
    "31 lb 8 oz plum", "2 heads lettuce", "11 half-pint jars", "11 1/2 pint jars", "1 pint jar plum butter",
    "1 cup fridge", "0 lb plum", "-3 lb plum", "1 lb 1 lb", "1 lb plum from lot x", "Ada 90", "Ada 1e9 h",
    "electricity 2.4 kWh", "clove 5", "fridge 4 days", "fridge 999999999 days", "41-51", "1..99999999999",
    "harvested", "struck", "cellared", "home", "0.17 per kWh", "2600 ft", "1 October", "31 February",
    "5f0c0a0e-7f7e-4c57-9d3b-0f6a1f0e2c11", "5f0c0a0e", "plum", "Plum Butter", "sugar", "quart jar",
]  # fmt: skip
WORDS = [
    "plum",
    "apple butter",
    "1 lb",
    "2 kg",
    "3 jars",
    "6",
    "3.40",
    "Ada",
    "orchard",
    "2026-09-01",
    "shelf",
]


class Fuzz:
    """Makes inputs of every sort from one seed."""

    def __init__(self, seed):
        self.random = random.Random(seed)

    def text(self):
        pick = self.random.random()
        if pick < 0.45:
            return self.random.choice(NASTY)
        if pick < 0.75:
            return self.random.choice(WORDS)
        if pick < 0.9:
            return " ".join(
                self.random.choice(NASTY + WORDS) for _ in range(self.random.randint(2, 4))
            )
        letters = "0123456789 .,-/½abcxyz{}[]\"'\\\t\n\u00e9\u4e2d\U0001f345\ud83d=+@"
        return "".join(self.random.choice(letters) for _ in range(self.random.randint(1, 60)))

    def value(self, deep=0):
        pick = self.random.random()
        if pick < 0.6 or deep > 3:
            return self.text()
        if pick < 0.8:
            numbers = [0, -1, 1, 2**31, 2**63, 10**30, 10**4000, 0.1, -0.0, float("nan"), 1e308]
            return self.random.choice([*numbers, None, True, False])
        if pick < 0.9:
            return [self.value(deep + 1) for _ in range(self.random.randint(0, 3))]
        return {self.text(): self.value(deep + 1) for _ in range(self.random.randint(0, 3))}

    def body(self, kind):
        """A body of a kind: its example, changed here and there."""
        body = json.loads(json.dumps(kind.example))
        for _ in range(self.random.randint(0, 3)):
            at = body
            while True:
                keys = list(at) if isinstance(at, dict) else list(range(len(at)))
                if not keys:
                    break
                key = self.random.choice(keys)
                if isinstance(at[key], (dict, list)) and at[key] and self.random.random() < 0.7:
                    at = at[key]
                    continue
                change = self.random.random()
                if change < 0.7:
                    at[key] = self.value()
                elif isinstance(at, dict):
                    del at[key]
                else:
                    at.append(self.value())
                break
            if self.random.random() < 0.2 and isinstance(body, dict):
                names = [f.encode_name for f in kind.fields]
                body[self.random.choice([*names, self.text()])] = self.value()
        return body

    def event(self):
        kind = self.random.choice(list(KINDS.values()))
        event = {"kind": kind.name, "on": "2026-09-02", "body": self.body(kind)}
        names = [
            "kind",
            "on",
            "id",
            "by",
            "at",
            "replaces",
            "typed_at",
            "v",
            "recorded_at",
            "seq",
            "hash",
        ]
        while self.random.random() < 0.3:
            event[self.random.choice([*names, self.text()])] = self.value()
        if self.random.random() < 0.05:
            event.pop(self.random.choice(["kind", "on", "body"]), None)
        return event
