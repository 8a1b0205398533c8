"""What was found of batches, as figures: finding by finding, and how each stands by the gravest."""

from __future__ import annotations

from functools import cached_property

import numpy as np

from ledger.figures import Array, Figure, Groups, method, published
from ledger.published import STANDINGS, Finding
from ledger.questions.as_published.gather import Judged, Parts, worded, written
from ledger.questions.as_published.words import field_word
from ledger.questions.shared.standing import standings
from ledger.questions.telling import event_line

__all__ = ["Findings"]

_UNITS = {"minutes": "minutes", "psi": "psi", "headspace": "in", "altitude": "ft", "gauge": "psi"}
"""The units of numbers in findings, by their field."""


class Findings:
    """What was found of batches, a row a finding."""

    def __init__(self, judged: Judged) -> None:
        self._judged = judged

    @property
    def standing(self) -> Figure:
        """How each batch stands: as the gravest of its findings."""
        ranks = [STANDINGS.index(one.standing) for one in self._judged.found]
        findings = self._findings

        def parts(row: int) -> Parts:
            mine = [(findings, at) for at in self._of_findings.rows(row)]
            judged = self._judged
            return mine + judged.documents(row) + judged.given(row) + self._went_in(row)

        figure = method(lambda: np.array(ranks, np.float64), "", "gravest-finding", parts)
        return figure.in_words(lambda row: STANDINGS[ranks[row]])

    @cached_property
    def _each(self) -> list[tuple[int, Finding]]:
        return [
            (row, one) for row, found in enumerate(self._judged.found) for one in found.findings
        ]

    @cached_property
    def _of_findings(self) -> Groups:
        return Groups(np.array([row for row, _ in self._each], np.int64), len(self._judged.every))

    @cached_property
    def _findings(self) -> Figure:
        each, judged = [one for _, one in self._each], self._judged
        ranks = np.array([STANDINGS.index(one.kind) for one in each], np.float64)
        done = worded([one.done for one in each], self._unit, written(self._found_in))
        source = [self._source(row) for row, _ in self._each]
        printed = worded(
            [one.published for one in each],
            self._unit,
            lambda of, unit: published(of, unit, lambda at: source[at]),
        )

        def parts(at: int) -> Parts:
            row, one = self._each[at]
            told = [(printed.called("printed"), at)] if one.published and source[at] else []
            if one.field == "psi" and judged.is_off[row]:
                high = judged.too_high.called("too-high")
                return [*told, (judged.read.called("done"), row), (high, row)]
            return [*told, (done.called("done"), at)]

        return (
            method(ranks.copy, "", "gravest-reading", parts)
            .called(
                "finding",
                field=lambda at: field_word(each[at].field),
                text=lambda at: each[at].text,
            )
            .in_words(lambda at: each[at].kind)
        )

    def _unit(self, at: int) -> str:
        return _UNITS.get(self._each[at][1].field, "")

    @cached_property
    def _found_in(self) -> Array:
        """The event that says what was done, of each finding."""
        return np.array([self._event(row, one) for row, one in self._each], np.int64)

    def _event(self, row: int, one: Finding) -> int:
        """Return the batch's event, or that of a part that stands worse, of a gauge's test, of a setting."""
        judged = self._judged
        own, off, found = judged.every[row], judged.off[row], judged.found[row]
        if own.part is not None and found is not own.found and one is found.findings[0]:
            return own.part.ev
        if off is not None and off.is_short and one == off.finding:
            return off.test.ev
        set_ = {"altitude": judged.altitude_set, "gauge": judged.gauge_set}.get(one.field)
        if set_ is not None and one.done is not None and not own.body.get(one.field):
            return set_.opens(row).event
        return own.ev

    def _source(self, row: int) -> str:
        """Return the line that a batch is compared with; where it is not one, the documents."""
        found = self._judged.found[row]
        return found.schedule or "; ".join(found.sources)

    def _went_in(self, row: int) -> Parts:
        """Return how the lots that went into a batch stand, each a line that opens by its address."""
        state = self._judged.state
        lots = state.once(standings).went_in(self._judged.every[row].ev)
        each = worded(
            [one.standing for one in lots.values()],
            "",
            written(np.array([one.ev for one in lots.values()], np.int64)),
        )
        ids, evs = [state.lot_id(lot) for lot in lots], [one.ev for one in lots.values()]
        each = each.called("line", text=lambda at: event_line(state, evs[at]))
        each = each.folds(lambda at: (f"shelf/{ids[at]}", "standing"))
        return [(each, at) for at in range(len(ids))]
