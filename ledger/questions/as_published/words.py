"""As published, for a terminal: a line for each finding, and each document named once."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from ledger.messages import Choice, Code, sentence
from ledger.published import NEAREST, STANDINGS, label

if TYPE_CHECKING:
    from ledger.projections.base import Answer
    from ledger.published import Before

__all__ = ["below", "counted", "documents", "finding_line", "process_words", "verdict_lines"]

_MEANS = {
    "against every published process": "Against every published process: food of little acid that no published "
    "pressure process closed. Do not taste it.",
    "to check yourself": "To check yourself: something was not matched, has no place in an entry, or is not "
    "confirmed here.",
    "beyond it": "Beyond it: every figure reaches the printed one, and some go beyond it.",
    "as published": "As published: every figure written down reaches the printed one.",
}

_NAMES = {"psi": "pressure"}


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
        text = record["text"].replace(f"; {record['source']}", "").removeprefix(record["item"])
        which = f"{record['product']}: " if several and record["product"] else ""
        line = f"{which}{text.strip()}{mark}"
        same = first.setdefault(line, record["item"])
        out.append(
            [line] if [line] not in out else [f"as {same}"] if same != record["item"] else []
        )
    return out


def _batch(record: Mapping[str, Any], *, alone: bool) -> list[str]:
    findings: Sequence[Mapping[str, Any]] = record["findings"]
    reached = dict.fromkeys(one["field"] for one in findings if one["kind"] == "as published")
    rest = [finding_line(o, whole=alone) for o in findings if o["kind"] != "as published"]
    if not alone:
        return rest
    names = ", ".join(_NAMES.get(one, one) for one in reached)
    head = [f"as published: {names}"] if reached else []
    met = [finding_line(o, whole=True) for o in findings if o["kind"] == "as published"]
    document = [f"document: {record['source']}"] if record["source"] else []
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
    more = [*lines[_MOST_LINES:]] or any(NEAREST in one["text"] for one in findings)
    if more or (findings and record.get("advice")):
        out.append(
            sentence(
                "cli-what-to-do",
                command=Code(f"croftbook show as-published --batch {record['batch'][:8]}"),
            )
        )
    return out


def _short_line(finding: Mapping[str, Any]) -> str:
    """Return a finding without its document, which is named where one batch is asked for."""
    return _without_source(finding_line(finding))


def _without_source(text: str) -> str:
    return re.sub(r" \([^()]*(?:\([^()]*\)[^()]*)*; [^()]*\d{4}[^()]*\)", "", text)


def finding_line(finding: Mapping[str, Any], *, whole: bool = False) -> str:
    """Return a finding in a line; the long comparison with what is nearest is for one batch."""
    text = finding["text"] if whole else finding["text"].partition(NEAREST)[0].strip()
    return f"{_NAMES.get(finding['field'], finding['field'])}: {text}"


def counted(standings: Sequence[str]) -> dict[str, Any]:
    """Return how many batches stand how, gravest first, and in words what that means."""
    there = [one for one in STANDINGS if one in standings]
    if not there:
        return {"standing": "no batches"}
    text = ", ".join(f"{standings.count(one)} {one}" for one in there)
    many = "1 batch" if len(standings) == 1 else f"{len(standings)} batches"
    words = [f"{many}: {text}.", *(_MEANS[one] for one in there if one in _MEANS)]
    if len(standings) > 1:
        words.append("One of them whole: `croftbook show as-published --batch ID`.")
    return {"standing": text, "in_words": words}


def documents(records: Iterable[Mapping[str, Any]]) -> list[str]:
    """Return the documents of records, by the numbers that `below` gives them."""
    numbers = _numbers(record.get("source") for record in records)
    return ["", *(f"[{at}] {one}" for one, at in numbers.items())] if numbers else []


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
    out, several = [], len({one.schedule.product for one in found.processes}) > 1
    if whole:
        for one in found.processes:
            which = f"{label(one.schedule.product)}: " if several else ""
            out.append(f"{which}{one.text.replace(f'; {one.where}', '')} [{numbers[one.where]}]")
        if not found.processes:
            out.append("No process can be shown for what was said.")
    if len(found.processes) > 1:
        out.append("Each of them is one whole process: take one, and mix no two.")
    if whole or found.processes:
        out += [f"? {text}" for text in found.questions]
    if found.needs:
        out += ["", sentence("cli-to-have-ready")]
        out += [f"- {need.what}: {need.amount} [{numbers[need.source]}]" for need in found.needs]
    if found.steps:
        of = Choice("first" if len(found.processes) > 1 else "all")
        out += ["", sentence("cli-in-order", of=of)]
        steps = enumerate(found.steps, 1)
        out += [f"{at}. {step.text} [{numbers[step.source]}]" for at, step in steps]
    return [*out, "", *(f"[{at}] {name}" for name, at in numbers.items())] if numbers else out
