"""Published, tested processes: finding them, and setting a batch beside them.

Pure functions over the packaged tables. `find` reads the household's words, `published_for` gives
whole printed processes, `judge` and `judge_other` compare a batch, `before_batch` and `after_batch`
say what the documents say before and after, `keeps_for` and `freezer_off` are about storage, and
`doubts_of` asks about slips. Nothing here calls food safe, and nothing makes up a process.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from ledger.published.after import Advice, after_batch, unsealed_jars
    from ledger.published.batch import (
        KINDS,
        AcidDone,
        BatchDone,
        Finding,
        JarsDone,
        Used,
        altitude_ft,
        batch_of,
        headspace_in,
    )
    from ledger.published.before import Before, Need, Step, before_batch
    from ledger.published.cautions import CAUTIONS, FIRST, SHORT
    from ledger.published.danger import AGAINST, Danger, batch_as_typed, caution_for, danger_of
    from ledger.published.finding import Match, find, lines_of
    from ledger.published.freezer import FreezerOff, freezer_off, holds_for, hours_of
    from ledger.published.jars import jar_size
    from ledger.published.judging import CANNING, GRAVE, MARKED, OPEN, STANDINGS, Judgement, judge
    from ledger.published.keeping import Keeping, keeps_for
    from ledger.published.other import OTHER_METHODS, judge_other
    from ledger.published.plausible import Doubt, doubts_of, expected_jars
    from ledger.published.processes import Process, boiling_point_f, published_for
    from ledger.published.verdict import caution_before, has_verdict, verdict_of
    from ledger.published.words import label
    from ledger.reference.schedules import load_schedules

__all__ = [
    "AGAINST",
    "CANNING",
    "CAUTIONS",
    "FIRST",
    "GRAVE",
    "KINDS",
    "MARKED",
    "OPEN",
    "OTHER_METHODS",
    "SHORT",
    "STANDINGS",
    "AcidDone",
    "Advice",
    "BatchDone",
    "Before",
    "Danger",
    "Doubt",
    "Finding",
    "FreezerOff",
    "JarsDone",
    "Judgement",
    "Keeping",
    "Match",
    "Need",
    "Process",
    "Step",
    "Used",
    "after_batch",
    "altitude_ft",
    "batch_as_typed",
    "batch_of",
    "before_batch",
    "boiling_point_f",
    "caution_before",
    "caution_for",
    "danger_of",
    "doubts_of",
    "expected_jars",
    "find",
    "freezer_off",
    "has_verdict",
    "headspace_in",
    "holds_for",
    "hours_of",
    "jar_size",
    "judge",
    "judge_other",
    "keeps_for",
    "label",
    "lines_of",
    "load_schedules",
    "published_for",
    "unsealed_jars",
    "verdict_of",
]

_WHERE = {
    name: module
    for module, names in {
        "ledger.published.after": "Advice after_batch unsealed_jars",
        "ledger.published.batch": "AcidDone BatchDone Finding JarsDone KINDS Used altitude_ft batch_of headspace_in",
        "ledger.published.before": "Before Need Step before_batch",
        "ledger.published.cautions": "CAUTIONS FIRST SHORT cautions_on",
        "ledger.published.finding": "Match find lines_of",
        "ledger.published.freezer": "FreezerOff freezer_off holds_for hours_of",
        "ledger.published.jars": "jar_size",
        "ledger.published.judging": "CANNING GRAVE Judgement MARKED OPEN STANDINGS judge",
        "ledger.published.keeping": "Keeping keeps_for",
        "ledger.published.danger": "AGAINST Danger batch_as_typed caution_for danger_of",
        "ledger.published.verdict": "caution_before has_verdict verdict_of",
        "ledger.published.other": "OTHER_METHODS judge_other",
        "ledger.published.plausible": "Doubt doubts_of expected_jars",
        "ledger.published.processes": "Process boiling_point_f published_for",
        "ledger.published.words": "label",
        "ledger.reference.schedules": "load_schedules",
    }.items()
    for name in names.split()
}
"""Which module each name is in: a page or command that asks one thing loads the tables of one."""


def __getattr__(name: str) -> Any:
    if name not in _WHERE:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    found = globals()[name] = getattr(import_module(_WHERE[name]), name)
    return found
