"""As published, for a terminal: a line for each finding, and each document named once."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from ledger.messages import Code, Names, joined, sentence
from ledger.published import STANDINGS, label
from ledger.published.words import fixed, says, without

if TYPE_CHECKING:
    from ledger.projections.base import Answer
    from ledger.published import Before

__all__ = [
    "below",
    "counted",
    "documents",
    "field_word",
    "finding_line",
    "process_words",
    "verdict_lines",
]

_MEANS = {
    "against every published process": "published-means-against",
    "to check yourself": "published-means-to-check",
    "beyond it": "published-means-beyond",
    "as published": "published-means-as-published",
}

_NEAREST = "finding-nearest"
_SOURCES = ("source", "source2", "published-source")
"""Parameters, and a sentence, that name documents."""

_FIELDS = {
    "product": "finding-field-product",
    "ingredients": "finding-field-ingredients",
    "form": "finding-field-form",
    "method": "finding-field-method",
    "equipment": "finding-field-equipment",
    "jar": "finding-field-jar",
    "pack": "finding-field-pack",
    "altitude": "finding-field-altitude",
    "gauge": "finding-field-gauge",
    "minutes": "finding-field-minutes",
    "psi": "finding-field-psi",
    "headspace": "finding-field-headspace",
    "acid": "finding-field-acid",
    "load": "finding-field-load",
    "schedule": "finding-field-schedule",
    "note": "finding-field-note",
    "storage": "finding-field-storage",
    "temperature": "finding-field-temperature",
    "conditioning": "finding-field-conditioning",
    "time": "finding-field-time",
    "salt": "finding-field-salt",
    "sugar": "finding-field-sugar",
    "freezer": "finding-field-freezer",
    "process": "finding-field-process",
}


def field_word(field: str) -> str:
    """Return what a field of a finding is called."""
    return sentence(_FIELDS[field]) if field in _FIELDS else field


def _numbers(sources: Iterable[str | None]) -> dict[str, int]:
    """Return documents numbered in the order in which they are first named."""
    return {one: at for at, one in enumerate(dict.fromkeys(s for s in sources if s), 1)}


def below(answer: Answer) -> list[list[str]]:
    """Return what stands under each record: findings line by line.

    What is as published, the documents and what to do are said where one batch is asked for, and
    there nothing is cut. Of a question the documents are numbered, and what several records share is said once.
    """
    records = answer.records()
    if any(record["batch"] for record in records):
        return [_batch(record, alone=len(records) == 1) for record in records]
    numbers = _numbers(record["source"] for record in records)
    several = len({record["product"] for record in records}) > 1
    first: dict[str, str] = {}
    out: list[list[str]] = []
    for record in records:
        if record["standing"] == "nothing published":
            out.append([])
            continue
        mark = f" [{numbers[record['source']]}]" if record["source"] else ""
        text = without(record["text"], *_SOURCES, "item")
        which = f"{record['product']}: " if several and record["product"] else ""
        line = joined("", [one for one in (which, text, mark) if one])
        same = first.setdefault(line, record["item"])
        if [line] not in out:
            out.append([line])
        else:
            out.append([sentence("published-same-as", item=same)] if same != record["item"] else [])
    return out


def _batch(record: Mapping[str, Any], *, alone: bool) -> list[str]:
    findings: Sequence[Mapping[str, Any]] = record["findings"]
    reached = dict.fromkeys(one["field"] for one in findings if one["kind"] == "as published")
    rest = [finding_line(o, whole=alone) for o in findings if o["kind"] != "as published"]
    if not alone:
        return rest
    names = Names(tuple(field_word(one) for one in reached))
    head = [sentence("published-reached", names=names)] if reached else []
    met = [finding_line(o, whole=True) for o in findings if o["kind"] == "as published"]
    of = record["source"]
    document = [sentence("published-document", text=of)] if of else []
    return [*rest, *head, *met, *record["advice"], *document]


_MOST_LINES = 6
_GRAVE = STANDINGS[: STANDINGS.index("beyond it")]


def verdict_lines(record: Mapping[str, Any]) -> list[str]:
    """Return what stands against a batch, the gravest first, in at most ten lines.

    Parameters
    ----------
    record : mapping
        One record of the answer.
    """
    findings = [one for one in record["findings"] if one["kind"] in _GRAVE]
    findings.sort(key=lambda one: STANDINGS.index(one["kind"]))
    lines = list(dict.fromkeys(_short_line(one) for one in findings))
    out = lines[:_MOST_LINES]
    more = [*lines[_MOST_LINES:]] or any(says(one["text"], _NEAREST) for one in findings)
    if more or (findings and record.get("advice")):
        command = Code(f"croftbook show as-published --batch {record['batch'][:8]}")
        out.append(sentence("published-what-to-do", command=command))
    return out


def _short_line(finding: Mapping[str, Any]) -> str:
    """Return a finding without its document, which is named where one batch is asked for."""
    return without(finding_line(finding), *_SOURCES)


def finding_line(finding: Mapping[str, Any], *, whole: bool = False) -> str:
    """Return a finding in a line; the long comparison with what is nearest is for one batch."""
    text = finding["text"] if whole else without(finding["text"], _NEAREST)
    return sentence("finding-in-field", field=field_word(finding["field"]), text=text)


def counted(standings: Sequence[str]) -> dict[str, Any]:
    """Return how many batches stand how, gravest first, and in words what that means."""
    there = [one for one in STANDINGS if one in standings]
    if not there:
        return {"standing": "no batches"}
    text = joined(
        ", ",
        [
            sentence("published-so-many", n=standings.count(one), standing=fixed(one))
            for one in there
        ],
    )
    words: list[str] = [sentence("published-batches", n=len(standings), standings=text)]
    words += [sentence(_MEANS[one]) for one in there if one in _MEANS]
    if len(standings) > 1:
        words.append(sentence("published-one-whole"))
    return {"standing": text, "in_words": words}


def documents(records: Iterable[Mapping[str, Any]]) -> list[str]:
    """Return the documents of records, by the numbers that `below` gives them."""
    numbers = _numbers(record.get("source") for record in records)
    return ["", *(joined("", (f"[{at}] ", one)) for one, at in numbers.items())] if numbers else []


def process_words(found: Before, *, whole: bool = False) -> list[str]:
    """Return what is asked, what to have ready and the steps in order; documents at the end.

    Parameters
    ----------
    whole : bool
        The printed processes too; `below` says them where they are records of an answer.
    """
    named = [one.where for one in found.processes]
    named += [need.source for need in found.needs] + [step.source for step in found.steps]
    numbers = _numbers(named)
    out: list[str] = []
    several = bool(found.only_as) or len({one.schedule.product for one in found.processes}) > 1
    if whole:
        out += [found.only_as] if found.only_as else []
        for one in found.processes:
            which = f"{label(one.schedule.product)}: " if several else ""
            text = without(found.said(one), *_SOURCES)
            out.append(joined("", (which, text, f" [{numbers[one.where]}]")))
        if not found.processes:
            out.append(sentence("published-none-to-show"))
    if len(found.processes) > 1:
        out.append(sentence("published-mix-no-two"))
    if whole or found.processes:
        out += [joined("", ("? ", text)) for text in found.questions]
    if found.needs:
        out += ["", sentence("published-to-have-ready")]
        out += [
            joined("", ("- ", need.what, ": ", need.amount, f" [{numbers[need.source]}]"))
            for need in found.needs
        ]
    if found.steps:
        several = len(found.processes) > 1
        out += [
            "",
            sentence("published-in-order-first") if several else sentence("published-in-order"),
        ]
        out += [
            joined("", (f"{at}. ", step.text, f" [{numbers[step.source]}]"))
            for at, step in enumerate(found.steps, 1)
        ]
    if not numbers:
        return out
    return [*out, "", *(joined("", (f"[{at}] ", name)) for name, at in numbers.items())]
