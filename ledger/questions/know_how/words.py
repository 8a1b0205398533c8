"""What the answer says in words: addresses, assumptions, and what a person wants to know."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.questions.know_how.skills import HOUSEHOLD

if TYPE_CHECKING:
    from ledger.questions.know_how.skills import Skills

__all__ = ["address", "assumptions", "in_words", "read_address"]

_TEXTS = {
    "practice": (
        "Practice spread over time keeps longest, a try that failed does not count, and what was done only once is "
        "soon gone: in hand for as long as good practices keep it, from 45 days after the first to a year; going rusty "
        "up to four times as long, then out of practice. Our own choice, set by what is published of forgetting "
        "(Tatel and Ackerman, doi 10.1037/bul0000481; Cepeda and others, Psychological Science 19, 2008)."
    ),
    "season": (
        "Judged by the seasons that passed without it, one: going rusty, two: out of practice: growing a "
        "crop, batches that mostly use what was picked, and what two years or more saw in one half of the "
        "year only. Our own choice."
    ),
    "minutes-for-one": (
        "Minutes for one: all work of a batch by what it made. The learning rate fits minutes = first x n^b to them, every entry being a repetition, from five "
        "batches on, with its 95 per cent range."
    ),
    "unnamed": (
        "Entries that name neither work nor writer count for the household only: "
        "say who with `--work` or `--by`."
    ),
}
_MOST = 6
_BETTER = 0.5


_CODES = str.maketrans({"%": "%25", "+": "%2B", "/": "%2F", "@": "%40", " ": "+"})


def _quoted(text: str) -> str:
    return text.translate(_CODES)


def address(skills: Skills, skill: int, person: int, before: str = "", after: str = "") -> str:
    """Return the address of a record: ``know-how/plum+butter`` or ``know-how/plum+butter/Ada``."""
    parts = [before, _quoted(skills.keys[skill]), after]
    if person != HOUSEHOLD:
        parts.append(_quoted(skills.people[person]))
    return "/".join(["know-how", *(part for part in parts if part)])


def read_address(key: str) -> tuple[str, list[str]]:
    """Return the shape (``@2026``, ``@curve`` or nothing) and the plain parts of an address."""
    from urllib.parse import unquote_plus

    parts = key.split("/")
    shape = parts.pop(0) if key.startswith("@") else ""
    return shape, [unquote_plus(part) for part in parts]


def assumptions(records: list[dict[str, Any]]) -> list[Assumption]:
    """Give every record the ids of what it rests on; return those used, in words."""
    used: dict[str, None] = {}
    for record in records:
        ids = []
        if record["times"]:
            ids.append("season" if record["seasonal"] else "practice")
        if record["minutes_per_unit_lately"] is not None:
            ids.append("minutes-for-one")
        if record.pop("_unnamed"):
            ids.append("unnamed")
        record["assumptions"] = ids
        used |= dict.fromkeys(ids)
    return [Assumption(one, text) for one, text in _TEXTS.items() if one in used]


def _list(words: Iterable[str]) -> str:
    words = list(words)
    more = f", and {len(words) - _MOST} more" if len(words) > _MOST else ""
    return ", ".join(words[:_MOST]) + more


def in_words(records: list[dict[str, Any]]) -> list[str]:
    """Say what a member of the household would want to know first."""
    rows = [r for r in records if r["person"] is None] or records
    out = []
    for word in ("never tried", "out of practice", "going rusty"):
        if names := [r["skill"] for r in rows if r["standing"] == word]:
            out.append(f"{word.capitalize()}: {_list(names)}.")
    if len(rows) == 1 and rows[0]["person"] is None:
        for word in ("out of practice", "going rusty"):
            if names := [r["person"] for r in records if r["person"] and r["standing"] == word]:
                out.append(f"{word.capitalize()} in it: {_list(names)}.")
    alone = [r for r in records if r["only_one_can"] and r["person"]]
    if alone:
        words = _list(f"{r['person']} {r['skill']}" for r in alone)
        out.append(f"Held by one person only: {words}.")
    for met, label in ((False, "Wanted and not there yet"), (True, "Wanted and done")):
        names = [
            f"{r['skill']} {r['target_done']} of {r['target_times']}{_per(r)}"
            for r in rows
            if r.get("target_met") is met
        ]
        if names:
            out.append(f"{label}: {_list(names)}.")
    out += _changes(rows)
    if rows and not out:
        return ["In hand." if len(rows) == 1 else "All in hand."]
    return out or ["Nothing practised is written down yet."]


def _per(record: dict[str, Any]) -> str:
    per = record["target_per"]
    return {None: "", "person year": " for each person this year"}.get(per, f" this {per}")


def _changes(rows: list[dict[str, Any]]) -> list[str]:
    """Say what went better or worse, quicker or slower than before, where the records tell."""
    out = []
    judged = [r for r in rows if r["went_before"] is not None]
    for sign, label in ((1, "Went better lately"), (-1, "Went worse lately")):
        names = [
            f"{r['skill']} ({r['went_lately']:.1f} after {r['went_before']:.1f} of 5)"
            for r in judged
            if sign * (r["went_lately"] - r["went_before"]) >= _BETTER
        ]
        if names:
            out.append(f"{label}: {_list(names)}.")
    rated = [r for r in rows if r["learning_rate"] is not None]
    quicker = [_rate(r) for r in rated if r["learning_rate_high"] < 1]
    slower = [_rate(r) for r in rated if r["learning_rate_low"] > 1]
    doubling = "(minutes for one, each time the batches double)"
    if quicker:
        out.append(f"Quicker with practice {doubling}: {_list(quicker)}.")
    if slower:
        out.append(f"Slower each time {doubling}: {_list(slower)}.")
    if len(rows) == len(rated) == 1 and not quicker and not slower:
        out.append(f"Neither quicker nor slower for sure {doubling}: {_rate(rated[0])}.")
    return out


def _rate(record: dict[str, Any]) -> str:
    rate, low, high = (record[f"learning_rate{end}"] * 100 for end in ("", "_low", "_high"))
    return f"{record['skill']} to {rate:.0f} % ({low:.0f} to {high:.0f})"
