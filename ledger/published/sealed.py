"""Closed jars by a method that is no canning, and jars in oil: nothing published closed them.

A jar that a cook, a drier, a crock or a cellar left closed on the shelf is judged as an open
kettle, unless the storage table holds that very thing. Silence would be taken for a pass.
"""

from __future__ import annotations

from ledger.messages import sentence
from ledger.published.against import danger_findings
from ledger.published.batch import BatchDone, Finding
from ledger.published.danger import danger_of, in_oil
from ledger.published.judging import Judgement
from ledger.published.parts import parts_of
from ledger.published.reading import read
from ledger.published.words import cite, cited, fixed, listed, plain
from ledger.reference.schedules_sources import source

__all__ = ["is_judged", "judge_sealed", "sealed_findings"]

_NONE = "no published process"
_DRY = frozenset({"dry"})
_KEEPS = frozenset({"honey", "sweetener", "sugar", "salt"})


def is_judged(batch: BatchDone) -> bool:
    """Return whether a batch that is no canning needs a verdict: a closed jar, or oil anywhere."""
    parts = [part for part in parts_of(batch.used) if not part.strained]
    return bool(batch.sealed) or bool(in_oil(batch, parts))


def sealed_findings(batch: BatchDone) -> tuple[Finding, ...]:
    """Return what is found of closed jars on shelf or in cellar; empty where none stand there."""
    danger = danger_of(batch, (), ())
    out = danger_findings(batch, danger)
    if batch.sealed and not out and batch.method not in _DRY and not _keeps_by_itself(batch):
        text = sentence(
            "finding-closed-jars",
            place=listed([fixed(one) for one in batch.sealed]),
            method=fixed(batch.method),
            source=cited(cite(source("KSU_OPENKETTLE"))),
        )
        out.append(Finding("method", None, fixed(batch.method), _NONE, text))
    return tuple(out)


def _keeps_by_itself(batch: BatchDone) -> bool:
    """Return whether it is honey, sugar or salt alone: no recipe, nothing to process."""
    found = read(batch.makes)
    names = {one.name for one in found.foods} | set(found.roles)
    return bool(names) and names <= _KEEPS and not found.unknown


def judge_sealed(batch: BatchDone) -> Judgement:
    """Return a batch for which no table of figures is held, beside what its closed jars call for."""
    danger = danger_of(batch, (), ())
    figures: dict[str, float | str | None] = dict.fromkeys(
        ("minutes", "psi", "headspace_in", "acid")
    )
    done = {**figures, "minutes": plain(batch.minutes), "headspace_in": plain(batch.headspace_in)}
    findings = sealed_findings(batch)
    return Judgement((), None, figures, done, findings, (), danger=danger)
