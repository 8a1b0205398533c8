"""What the answer says in words: addresses, assumptions, and what a person wants to know."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.messages import Choice, Names, Sentence, joined, measured, sentence
from ledger.methods.lapse import KEEPS_DAYS
from ledger.questions.know_how.skills import HOUSEHOLD

if TYPE_CHECKING:
    from ledger.questions.know_how.skills import Skills

__all__ = ["address", "assumptions", "in_words", "read_address", "year_in"]

_TEXTS: dict[str, Callable[[], str]] = {
    "practice": lambda: joined(
        " ",
        [
            sentence("skills-practice", n=round(KEEPS_DAYS)),
            sentence("skills-practice-source", source=_FORGETTING),
        ],
    ),
    "season": lambda: sentence("skills-season"),
    "minutes-for-one": lambda: sentence("skills-minutes-for-one"),
    "unnamed": lambda: sentence("skills-unnamed"),
}
_FORGETTING = (
    "Tatel and Ackerman, doi 10.1037/bul0000481; Cepeda and others, Psychological Science 19, 2008"
)
_STANDS = {
    "never tried": "skills-never-tried",
    "out of practice": "skills-out-of-practice",
    "going rusty": "skills-going-rusty",
}
_STANDS_IN_IT = {
    "out of practice": "skills-out-of-practice-in-it",
    "going rusty": "skills-going-rusty-in-it",
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


def year_in(text: str) -> int | None:
    """Return a year that is written in four digits, or None."""
    return int(text) if re.fullmatch(r"[12]\d{3}", text) else None


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
    return [Assumption(one, says()) for one, says in _TEXTS.items() if one in used]


def _list(words: Iterable[str]) -> Names:
    return Names(tuple(words), most=_MOST)


def in_words(records: list[dict[str, Any]], in_danger: Iterable[str] = ()) -> list[str]:
    """Say what a member of the household would want to know first, what stands in danger before all."""
    rows = [r for r in records if r["person"] is None] or records
    out: list[str] = list(in_danger)
    for word, id_ in _STANDS.items():
        if names := [r["skill"] for r in rows if r["standing"] == word]:
            out.append(sentence(id_, list=_list(names)))
    if len(rows) == 1 and rows[0]["person"] is None:
        for word, id_ in _STANDS_IN_IT.items():
            if names := [r["person"] for r in records if r["person"] and r["standing"] == word]:
                out.append(sentence(id_, list=_list(names)))
    alone = [r for r in records if r["only_one_can"] and r["person"]]
    if alone:
        words = _list(f"{r['person']} {r['skill']}" for r in alone)
        out.append(sentence("skills-held-by-one", list=words))
    for met, id_ in ((False, "skills-wanted"), (True, "skills-wanted-and-done")):
        if wanted := [_done_of(r) for r in rows if r.get("target_met") is met]:
            out.append(sentence(id_, list=_list(wanted)))
    out += _changes(rows)
    if rows and not out:
        return [sentence("skills-one-in-hand" if len(rows) == 1 else "skills-all-in-hand")]
    return out or [sentence("skills-none")]


def _done_of(record: dict[str, Any]) -> Sentence:
    per = Choice((record["target_per"] or "once").replace(" ", "-"))
    done, times = record["target_done"], record["target_times"]
    return sentence("skills-done-of", skill=record["skill"], n=done, n2=times, per=per)


def _changes(rows: list[dict[str, Any]]) -> list[str]:
    """Say what went better or worse, quicker or slower than before, where the records tell."""
    out: list[str] = []
    judged = [r for r in rows if r["went_before"] is not None]
    for sign, id_ in ((1, "skills-better"), (-1, "skills-worse")):
        names = [
            sentence(
                "skills-went",
                skill=r["skill"],
                n=measured(f"{r['went_lately']:.1f}"),
                n2=measured(f"{r['went_before']:.1f}"),
            )
            for r in judged
            if sign * (r["went_lately"] - r["went_before"]) >= _BETTER
        ]
        if names:
            out.append(sentence(id_, list=_list(names)))
    rated = [r for r in rows if r["learning_rate"] is not None]
    quicker = [_rate(r) for r in rated if r["learning_rate_high"] < 1]
    slower = [_rate(r) for r in rated if r["learning_rate_low"] > 1]
    if quicker:
        out.append(sentence("skills-quicker", list=_list(quicker)))
    if slower:
        out.append(sentence("skills-slower", list=_list(slower)))
    if len(rows) == len(rated) == 1 and not quicker and not slower:
        out.append(sentence("skills-as-quick", skill=_rate(rated[0])))
    return out


def _rate(record: dict[str, Any]) -> Sentence:
    rate, low, high = (round(record[f"learning_rate{end}"] * 100) for end in ("", "_low", "_high"))
    return sentence("skills-rate", skill=record["skill"], n=rate, n2=low, n3=high)
