"""What the formulas of as-published begin with: batches beside the lines that they are compared with."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.errors import InputError
from ledger.figures import Array, Figure, Groups, choose, method, published, said
from ledger.items import item_key
from ledger.messages import sentence
from ledger.published import STANDINGS, Finding, Judgement, altitude_ft
from ledger.published.judging import CANNING
from ledger.published.words import acid_text, cite, plain
from ledger.questions.as_published.records import with_parts
from ledger.questions.as_published.words import field_word
from ledger.questions.costs.sources import Sources
from ledger.questions.shared.gauges import GaugeOff, off_of
from ledger.questions.shared.stands import Standing

if TYPE_CHECKING:
    from ledger.published import Process
    from ledger.replay import State

__all__ = ["UNITS", "Judged", "One"]

UNITS = {"minutes": "minutes", "psi": "psi", "headspace_in": "in", "acid": ""}
"""The figures that are compared, by the name of their column, and their units."""

_IN_FIELD = {
    "minutes": "minutes",
    "psi": "psi",
    "headspace": "in",
    "altitude": "ft",
    "gauge": "psi",
}
"""The units of numbers in findings, by their field."""

_PRINTED: dict[str, Callable[[Process], float | str | None]] = {
    "minutes": lambda one: one.minutes,
    "psi": lambda one: one.psi,
    "headspace_in": lambda one: plain(one.headspace_in),
    "acid": lambda one: acid_text(one.schedule),
}
Parts = list[tuple[Figure, int]]
Said = float | str | None


@dataclass(frozen=True)
class One:
    """A batch: its event, its body, what was found of it by itself, and how what went into it stands."""

    ev: int
    body: Mapping[str, Any]
    found: Judgement
    part: Standing | None


class Judged:
    """Batches, a row each.

    Attributes
    ----------
    every : list of One
    found : list of Judgement
        With what went into each.
    off : list of GaugeOff or None
        What a test makes of the pressure of each.
    """

    def __init__(self, state: State, every: Sequence[One]) -> None:
        self.state, self.every = state, list(every)
        self.found = [with_parts(one.found, one.part) for one in every]
        self.off = [off_of(state, one.ev, one.body) for one in every]
        self.ev = np.array([one.ev for one in every], np.int64)

    # -- what was done ----------------------------------------------------------------------

    def done(self, name: str) -> Figure:
        """Return a figure as written down."""
        return _worded([one.done[name] for one in self.found], UNITS[name], _from(self.ev))

    @property
    def is_off(self) -> Array:
        """The batches whose pressure was another than the one read."""
        return np.array([one is not None and one.read is not None for one in self.off], bool)

    @property
    def read(self) -> Figure:
        """The pressure as written down, of those whose gauge was off."""
        return said(self._of_off(lambda one: one.read), "psi", self.ev)

    @property
    def too_high(self) -> Figure:
        """Psi that the gauge read too high, by its test."""
        ev = np.array([-1 if one is None else one.test.ev for one in self.off], np.int64)
        return said(self._of_off(lambda one: one.high), "psi", ev)

    def _of_off(self, of: Callable[[GaugeOff], Any]) -> Array:
        some = [None if one is None else of(one) for one in self.off]
        return np.array([np.nan if one is None else float(one) for one in some], np.float64)

    # -- what is printed --------------------------------------------------------------------

    def printed(self, name: str) -> Figure:
        """Return what all lines compared with say alike; NaN where they differ, or none applies."""
        values, lines = [one.published[name] for one in self.found], self._lines(name)

        def parts(row: int) -> Parts:
            mine = self._of_lines.rows(row)
            return [(lines, at) for at in mine] + self._documents(row, mine) + self.given(row)

        return _worded(
            values, UNITS[name], lambda of, unit: method(lambda: of, unit, "whole-processes", parts)
        )

    @cached_property
    def _shown(self) -> list[tuple[int, Process]]:
        return [(row, one) for row, found in enumerate(self.found) for one in found.shown]

    @cached_property
    def _of_lines(self) -> Groups:
        return Groups(np.array([row for row, _ in self._shown], np.int64), len(self.every))

    def _lines(self, name: str) -> Figure:
        shown = [one for _, one in self._shown]
        values = [_PRINTED[name](one) for one in shown]

        def begin(of: Array, unit: str) -> Figure:
            return published(of, unit, lambda at: shown[at].schedule.id)

        return _worded(values, UNITS[name], begin).called(
            "as-printed",
            line=lambda at: shown[at].schedule.id,
            source=lambda at: cite(shown[at].source, shown[at].schedule.part),
        )

    @cached_property
    def _papers(self) -> list[tuple[int, str]]:
        return [(row, text) for row, found in enumerate(self.found) for text in found.sources]

    def _documents(self, row: int, lines: Sequence[int] = ()) -> Parts:
        """Return the documents of a batch, where no line of them is named."""
        if lines:
            return []
        papers = self._papers
        as_printed = sentence("published-as-printed")
        each = published(np.ones(len(papers)), "", lambda at: papers[at][1]).in_words(
            lambda _: as_printed
        )
        each = each.called("document", text=lambda at: papers[at][1])
        return [(each, at) for at, (of, _) in enumerate(papers) if of == row]

    # -- what it is judged by ---------------------------------------------------------------

    def given(self, row: int) -> Parts:
        """Return what is known of a batch beside its figures, each with its event."""
        one = self.every[row]
        out = [(self._batch, row)]
        if one.body["method"] in CANNING:
            out.append((self._altitude, row))
        if one.body["method"] == "pressure" and not one.body.get("gauge"):
            out.append((self._gauge, row))
        if not one.body.get("schedule") and self._recipe[row] >= 0:
            out.append((said(1.0, "", self._recipe).in_words(self._schedule), row))
        if self.off[row] is not None:
            out.append((self.too_high.called("too-high"), row))
        return out + self._weights(row)

    @property
    def _batch(self) -> Figure:
        return said(1.0, "", self.ev).in_words(lambda row: str(self.every[row].body["makes"]))

    @cached_property
    def _day(self) -> Array:
        return self.state.moment.on[self.ev].astype(np.int64)

    @cached_property
    def _altitude(self) -> Figure:
        own = [one.body.get("altitude") for one in self.every]
        here = said(np.array([_feet(text) for text in own], np.float64), "ft", self.ev)
        said_here = np.array([bool(text) for text in own], bool)
        return choose(said_here, here, self._altitude_set).called("altitude")

    @cached_property
    def _altitude_set(self) -> Figure:
        return self.state.once(Sources).setting("altitude", self._day, _feet, "ft")

    @cached_property
    def _gauge(self) -> Figure:
        """The gauge that is set."""
        settings, day = self.state.settings, self._day
        figure = self.state.once(Sources).setting(
            "gauge", day, lambda text: 1.0 if text else None, ""
        )
        return figure.called("gauge").in_words(lambda row: settings.on("gauge", int(day[row])))

    @cached_property
    def _recipe(self) -> Array:
        """The event that last named the schedule of each batch's recipe, -1: none did."""
        named = {
            item_key(body["recipe"]): ev
            for ev, body in self.state.bodies("recipe_written")
            if body.get("schedule")
        }
        keys = [item_key(str(one.body.get("recipe") or one.body["makes"])) for one in self.every]
        return np.array([named.get(key, -1) for key in keys], np.int64)

    def _schedule(self, row: int) -> str:
        return str(self.state.journal.bodies[int(self._recipe[row])]["schedule"])

    def _weights(self, row: int) -> Parts:
        """Return the weights that what went in is reckoned with, where it was not weighed."""
        facts, items = self.state.facts, []
        for line in self.every[row].body.get("used", ()):
            number = facts.find(line["item"])
            if (
                number is not None
                and line.get("whole") is not None
                and line.get("measure") != "mass"
            ):
                strand, _, measure = facts.comes(number, line)
                items += [strand] if strand is not None and measure != "mass" else []
        weights = self.state.once(Sources).weight(np.array(items, np.int64))
        return [(weights, at) for at in range(len(items))]

    # -- what was found ---------------------------------------------------------------------

    @property
    def standing(self) -> Figure:
        """How each batch stands: as the gravest of its findings."""
        ranks = [STANDINGS.index(one.standing) for one in self.found]
        findings = self._findings

        def parts(row: int) -> Parts:
            mine = [(findings, at) for at in self._of_findings.rows(row)]
            return mine + self._documents(row) + self.given(row)

        figure = method(lambda: np.array(ranks, np.float64), "", "gravest-finding", parts)
        return figure.in_words(lambda row: STANDINGS[ranks[row]])

    @cached_property
    def _each(self) -> list[tuple[int, Finding]]:
        return [(row, one) for row, found in enumerate(self.found) for one in found.findings]

    @cached_property
    def _of_findings(self) -> Groups:
        return Groups(np.array([row for row, _ in self._each], np.int64), len(self.every))

    @cached_property
    def _findings(self) -> Figure:
        each = [one for _, one in self._each]
        ranks = np.array([STANDINGS.index(one.kind) for one in each], np.float64)
        done = _worded([one.done for one in each], self._unit, _from(self._found_in)).called("done")
        source = [self._source(row) for row, _ in self._each]
        printed = _worded(
            [one.published for one in each],
            self._unit,
            lambda of, unit: published(of, unit, lambda at: source[at]),
        ).called("printed")
        off, high = self.is_off, self.too_high.called("too-high")

        def parts(at: int) -> Parts:
            row, one = self._each[at]
            is_read = one.field == "psi" and off[row]
            is_printed = one.published is not None and source[at]
            known = [(self.read.called("done"), row), (high, row)] if is_read else [(done, at)]
            return [*([(printed, at)] if is_printed else []), *known]

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
        return _IN_FIELD.get(self._each[at][1].field, "")

    @cached_property
    def _found_in(self) -> Array:
        """The event that says what was done: the batch, a setting, a part that stands worse, a gauge's test."""
        out = self.ev[self._of_findings.by].copy()
        for at, (row, one) in enumerate(self._each):
            own, off = self.every[row], self.off[row]
            if self.found[row] is not own.found and own.part and one is self.found[row].findings[0]:
                out[at] = own.part.ev
            elif off is not None and off.is_short and one == off.finding:
                out[at] = off.test.ev
            elif one.done is not None and not own.body.get(one.field):
                set_ = {"altitude": self._altitude_set, "gauge": self._gauge}.get(one.field)
                out[at] = out[at] if set_ is None else set_.opens(row).event
        return out

    def _source(self, row: int) -> str:
        """Return the line that a batch is compared with; where it is not one, the documents."""
        found = self.found[row]
        return found.schedule or "; ".join(found.sources)


def _feet(text: str | None) -> float | None:
    try:
        feet = altitude_ft(text)
    except InputError:
        return None
    return None if feet is None else float(feet)


def _from(ev: Array) -> Callable[[Array, Any], Figure]:
    return lambda of, unit: said(of, unit, ev)


def _worded(
    values: Sequence[Said], unit: str | Callable[[int], str], begin: Callable[[Any, Any], Figure]
) -> Figure:
    """Return a figure of numbers and words: a word's value is 1, and it stands for the word."""
    numbers = [
        1.0 if isinstance(one, str) else np.nan if one is None else float(one) for one in values
    ]
    figure = begin(np.array(numbers, np.float64), unit)
    words = [one if isinstance(one, str) else None for one in values]
    return figure.in_words(lambda row: words[row]) if any(words) else figure
