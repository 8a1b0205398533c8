"""Was a batch processed as a published table says? Field by field, by whole processes only.

It fails closed: what was not written down, not read or not matched is never assumed. The batch is
set beside every printed process that it may have been, and a figure counts as reached, or as short,
only where that holds for all of them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from ledger.messages import Typed, joined, sentence
from ledger.published.against import danger_findings
from ledger.published.batch import KINDS, BatchDone, Finding, JarsDone
from ledger.published.comparing import acid_done, compare, weight_psi
from ledger.published.danger import AGAINST, Danger, danger_of
from ledger.published.equipment import (
    cold_heat,
    equipment_finding,
    low_heat_finding,
    note_finding,
)
from ledger.published.finding import lines_of
from ledger.published.hints import hint_for
from ledger.published.merging import merge
from ledger.published.outline import (
    altitude_finding,
    gauge_finding,
    jar_finding,
    load_finding,
    pack_finding,
)
from ledger.published.processes import Process, published_for
from ledger.published.product import Matched, match_batch
from ledger.published.words import acid_text, cite, fixed, label, plain, says
from ledger.reference.schedules import BANDS, Schedule, products

__all__ = ["GRAVE", "MARKED", "OPEN", "STANDINGS", "Judgement", "judge"]

CANNING = ("boiling water", "pressure")
_NONE = "no published process"
STANDINGS = KINDS
"""How a batch can stand, the gravest first."""
OPEN = ("not recorded", "to check yourself")
"""Standings that looking up may end."""
GRAVE = STANDINGS[: STANDINGS.index(OPEN[0])]
"""Standings that no looking up ends."""
MARKED = (*GRAVE, *OPEN)
"""Standings with a mark: all that are graver than ``beyond it``."""


@dataclass(frozen=True)
class Judgement:
    """What a comparison found.

    Attributes
    ----------
    products : tuple of str
        Keys of the published products it was compared with; several when the words leave it open.
    schedule : str or None
        The one printed line it was compared with; None where several are possible, or none.
    published, done : dict
        ``minutes``, ``psi``, ``headspace_in``, ``acid``; None is not known.
    findings : tuple of Finding
    sources : tuple of str
        Documents in words, those of the figures shown.
    near : tuple of str
        For comparison only, where nothing is published.
    notes : tuple of str
    danger : Danger or None
        Why the caution on food of little acid goes first.
    shown : tuple of Process
        The printed processes that `published` is of.
    """

    products: tuple[str, ...]
    schedule: str | None
    published: dict[str, float | str | None]
    done: dict[str, float | str | None]
    findings: tuple[Finding, ...]
    sources: tuple[str, ...]
    near: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    danger: Danger | None = None
    shown: tuple[Process, ...] = ()

    @property
    def product(self) -> str | None:
        """The readable name of the product; None where none, or several, are possible."""
        return label(self.products[0]) if len(self.products) == 1 else None

    def of_kind(self, *kinds: str) -> list[Finding]:
        """Return the findings of some kinds."""
        return [one for one in self.findings if one.kind in kinds]

    @property
    def standing(self) -> str:
        """The kind that the batch as a whole has: the gravest of its findings."""
        there = {one.kind for one in self.findings}
        return next((kind for kind in STANDINGS if kind in there), "to check yourself")

    @property
    def is_ruled_out(self) -> bool:
        """Whether a document rules out canning it in this form, in any canner."""
        return any(says(one.text, "finding-not-at-home") for one in self.findings)

    @property
    def summary(self) -> str:
        """One sentence for the whole batch."""
        return sentence(_SUMMARIES[self.standing])


_SUMMARIES = {
    AGAINST: "published-stands-against",
    _NONE: "published-stands-none",
    "short of it": "published-stands-short",
    "not recorded": "published-stands-not-recorded",
    "to check yourself": "published-stands-to-check",
    "beyond it": "published-stands-beyond",
    "as published": "published-stands-as-published",
}
"""What each standing of a whole batch is in a sentence."""


@dataclass
class _Work:
    """What is gathered on the way."""

    findings: list[Finding] = field(default_factory=list)
    shown: list[Process] = field(default_factory=list)


def judge(batch: BatchDone) -> Judgement:
    """Return a canning batch beside the published processes.

    Parameters
    ----------
    batch : BatchDone
        Of method ``boiling water`` or ``pressure``; for others see `ledger.published.other`.

    Returns
    -------
    Judgement
        With two sizes of jar in one batch, findings of both; a figure on which their lines
        differ is shown as None.
    """
    matched = match_batch(batch)
    if not matched.fit:
        return _nothing(batch, matched)
    work = _Work([*matched.findings, *_unread(batch)])
    low_acid = all(products()[key].low_acid for key in matched.fit)
    if (tool := equipment_finding(batch, low_acid=low_acid)) is not None:
        work.findings.append(tool)
    for said in (low_heat_finding(batch, matched.fit), note_finding(batch)):
        if said is not None:
            work.findings.append(said)
    for one in batch.jars or (JarsDone("", 0),):
        _judge_jar(matched.fit, batch, one, work)
    return _judged(batch, matched, work)


def _nothing(batch: BatchDone, matched: Matched) -> Judgement:
    empty: dict[str, float | str | None] = dict.fromkeys(("minutes", "psi", "headspace_in", "acid"))
    sources = tuple(
        dict.fromkeys(cite(s.source, s.part) for p in matched.near[:2] for s in lines_of(p))
    )
    findings = [*matched.findings, *_unread(batch)]
    if (tool := equipment_finding(batch, low_acid=False)) is not None and tool.kind == _NONE:
        findings.append(tool)
    danger = danger_of(batch, (), findings)
    return Judgement(
        matched.named,
        None,
        empty,
        _done(batch),
        (*danger_findings(batch, danger), *findings),
        sources,
        matched.near,
        (),
        danger,
    )


def _unread(batch: BatchDone) -> list[Finding]:
    return [
        Finding(
            field, None, said, "to check yourself", sentence("finding-no-figure", said=Typed(said))
        )
        for field, said in batch.unread
    ]


def _judge_jar(fit: tuple[str, ...], batch: BatchDone, jar: JarsDone, work: _Work) -> None:
    """Add what is found of one size of jar."""
    lines = [line for product in fit for line in lines_of(product, batch.method)]
    lines, found = jar_finding(lines, jar)
    work.findings.append(found)
    if found.kind == _NONE:
        return
    lines, found_pack = pack_finding(lines, batch.pack)
    work.findings.append(found_pack)
    if found_pack.kind == _NONE:
        return
    if batch.method == "pressure":
        work.findings.append(gauge_finding(batch.gauge))
        lines = [line for line in lines if batch.gauge in (None, line.gauge)]
    if not lines:
        text = sentence("finding-no-gauge", gauge=fixed(batch.gauge or ""))
        work.findings.append(
            Finding("gauge", None, fixed(batch.gauge) if batch.gauge else None, _NONE, text)
        )
        return
    place = altitude_finding(lines, batch)
    work.findings.append(place)
    if place.kind == _NONE:
        return
    _figures(lines, batch, jar, work)
    load = load_finding(fit, batch, jar)
    if load is not None:
        work.findings.append(load)


def _figures(lines: Sequence[Schedule], batch: BatchDone, jar: JarsDone, work: _Work) -> None:
    """Compare with the best whole option of everything that the batch may have been."""
    best = []
    for group in _possibilities(lines, batch):
        scored = [(p, compare(p, batch, jar.jar)) for p in group]
        best.append(min(scored, key=lambda pair: _score(pair[1], pair[0])))
    if not best:
        return
    merged = merge([found for _, found in best], _open_points(lines, batch))
    if len(best) == 1:
        merged = [hint_for(one, best[0][0], batch) for one in merged]
    work.findings += merged
    work.shown += [process for process, _ in best]


def _possibilities(lines: Sequence[Schedule], batch: BatchDone) -> list[list[Process]]:
    """Return, for each thing the batch may have been, the options printed for it."""
    groups: dict[tuple[object, ...], list[Process]] = {}
    for line in lines:
        for altitude in _altitudes(line, batch.altitude_ft):
            key = (line.product, line.pack, line.gauge, line.jar, altitude)
            groups.setdefault(key, []).extend(published_for([line], altitude))
    return [group for group in groups.values() if group]


def _altitudes(line: Schedule, altitude: Fraction | None) -> list[Fraction]:
    if altitude is not None:
        return [altitude]
    return [Fraction(low) for low, _ in BANDS[line.gauge or "boiling water"]]


def _score(findings: list[Finding], process: Process) -> tuple[float, ...]:
    """Order options: fewest short, confirmed first, nearest, fewest open, then as printed."""
    short = sum(one.kind == "short of it" for one in findings)
    unknown = sum(one.kind == "not recorded" for one in findings)
    return short, not process.confirmed, sum(map(_lacking, findings)), unknown, process.option


def _lacking(found: Finding) -> float:
    """Return which part of a published figure is lacking, 0 to 1."""
    if found.kind != "short of it" or not isinstance(found.published, int | float):
        return 0.0
    return 1 - float(found.done or 0) / found.published


def _open_points(lines: Sequence[Schedule], batch: BatchDone) -> list[str]:
    """Return what was not written down and makes a difference, in words."""
    out: list[str] = []
    if len({line.product for line in lines}) > 1:
        out.append(sentence("finding-open-product"))
    if len({line.pack for line in lines}) > 1:
        out.append(sentence("finding-open-pack"))
    if len({line.gauge for line in lines}) > 1:
        out.append(sentence("finding-open-gauge"))
    if len({line.jar for line in lines}) > 1:
        out.append(sentence("finding-open-jar"))
    return [*out, sentence("finding-open-altitude")] if batch.altitude_ft is None else out


def _judged(batch: BatchDone, matched: Matched, work: _Work) -> Judgement:
    shown = work.shown
    lines = {p.schedule.id for p in shown}
    remarks = dict.fromkeys(p.schedule.note for p in shown if p.schedule.note)
    findings = tuple(dict.fromkeys(_settled(work.findings)))
    fit = () if cold_heat(batch) else matched.fit
    danger = danger_of(batch, fit, findings)
    return Judgement(
        tuple(dict.fromkeys(p.schedule.product for p in shown)) or matched.fit,
        lines.pop() if len(lines) == 1 else None,
        {
            "minutes": _same([p.minutes for p in shown]),
            "psi": _same([p.psi for p in shown]),
            "headspace_in": _same([plain(p.headspace_in) for p in shown]),
            "acid": _same([acid_text(p.schedule) for p in shown]),
        },
        _done(batch),
        (*danger_findings(batch, danger), *findings),
        tuple(dict.fromkeys(cite(p.source, p.schedule.part) for p in shown)),
        (),
        tuple(remarks),
        danger,
        tuple(shown),
    )


_FIGURES = frozenset({"minutes", "psi", "headspace", "acid"})


def _settled(findings: Sequence[Finding]) -> list[Finding]:
    """Return findings, where which product it was makes no difference: every reading is reached."""
    reached = ("as published", "beyond it")
    figures = [one for one in findings if one.field in _FIGURES]
    if not figures or any(one.kind not in reached for one in figures):
        return list(findings)
    return [
        replace(
            one,
            kind="as published",
            text=joined(" ", (one.text, sentence("finding-reaches-each"))),
        )
        if one.field == "product" and one.kind == "not recorded"
        else one
        for one in findings
    ]


def _same(values: Sequence[float | str | None]) -> float | str | None:
    return values[0] if len(set(values)) == 1 else None


def _done(batch: BatchDone) -> dict[str, float | str | None]:
    acid = None
    if batch.acid is not None:
        acid = joined(", ", [acid_done(one) for one in batch.acid]) or fixed("none")
    return {
        "minutes": plain(batch.minutes),
        "psi": plain(weight_psi(batch)),
        "headspace_in": plain(batch.headspace_in),
        "acid": acid,
    }
