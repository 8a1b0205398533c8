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
from ledger.published import Judgement, altitude_ft
from ledger.published.judging import CANNING
from ledger.published.words import acid_text, cite, plain
from ledger.questions.as_published.records import with_parts
from ledger.questions.costs.sources import Sources
from ledger.questions.shared.gauges import GaugeTest, gauge_tests, is_dial_load, off_of
from ledger.questions.shared.stands import Standing

if TYPE_CHECKING:
    from ledger.published import Process
    from ledger.replay import State

__all__ = ["UNITS", "Judged", "One"]

UNITS = {"minutes": "minutes", "psi": "psi", "headspace_in": "in", "acid": ""}
"""The figures that are compared, by the name of their column, and their units."""

IN_FIELD = {
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
        return worded([one.done[name] for one in self.found], UNITS[name], written(self.ev))

    @property
    def is_off(self) -> Array:
        """The batches whose pressure was another than the one read."""
        return np.array([one is not None and one.read is not None for one in self.off], bool)

    @property
    def read(self) -> Figure:
        """The pressure as written down, of those whose gauge was off."""
        read = [np.nan if one is None or one.read is None else float(one.read) for one in self.off]
        return said(np.array(read, np.float64), "psi", self.ev)

    @property
    def too_high(self) -> Figure:
        """Psi that the gauge read too high, by the worst of the tests that speak against the load."""
        every = [(row, one) for row, off in enumerate(self.off) if off for one in off.tests]
        of = Groups(np.array([row for row, _ in every], np.int64), len(self.every))
        return of.among("highest", _tested([one for _, one in every]), "psi")

    # -- what is printed --------------------------------------------------------------------

    def printed(self, name: str) -> Figure:
        """Return what all lines compared with say alike; NaN where they differ, or none applies."""
        values, lines = [one.published[name] for one in self.found], self._lines(name)

        def parts(row: int) -> Parts:
            mine = self._of_lines.rows(row)
            return [(lines, at) for at in mine] + self.documents(row, mine) + self.given(row)

        return worded(
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

        return worded(values, UNITS[name], begin).called(
            "as-printed",
            line=lambda at: shown[at].schedule.id,
            source=lambda at: cite(shown[at].source, shown[at].schedule.part),
        )

    @cached_property
    def _papers(self) -> list[tuple[int, str]]:
        return [(row, text) for row, found in enumerate(self.found) for text in found.sources]

    def documents(self, row: int, lines: Sequence[int] = ()) -> Parts:
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
            out.append((self.gauge_set, row))
        if not one.body.get("schedule") and self._recipe[row] >= 0:
            out.append((said(1.0, "", self._recipe).in_words(self._schedule), row))
        if is_dial_load(self.state, one.ev, one.body):
            out += self._tests
        return out + self._weights(row)

    @cached_property
    def _tests(self) -> Parts:
        """Every test of a gauge: what each says counts for the loads around it."""
        tests = self.state.once(gauge_tests)
        return [(_tested(tests), at) for at in range(len(tests))]

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
        return choose(said_here, here, self.altitude_set).called("altitude")

    @cached_property
    def altitude_set(self) -> Figure:
        """The altitude that is set, in feet."""
        return self.state.once(Sources).setting("altitude", self._day, _feet, "ft")

    @cached_property
    def gauge_set(self) -> Figure:
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


def _tested(tests: Sequence[GaugeTest]) -> Figure:
    """Return by how much each test found a gauge to read too high."""
    high = np.array([float(one.high) for one in tests], np.float64)
    return said(high, "psi", np.array([one.ev for one in tests], np.int64)).called("too-high")


def _feet(text: str | None) -> float | None:
    try:
        feet = altitude_ft(text)
    except InputError:
        return None
    return None if feet is None else float(feet)


def written(ev: Array) -> Callable[[Array, Any], Figure]:
    return lambda of, unit: said(of, unit, ev)


def worded(
    values: Sequence[Said], unit: str | Callable[[int], str], begin: Callable[[Any, Any], Figure]
) -> Figure:
    """Return a figure of numbers and words: a word's value is 1, and it stands for the word."""
    numbers = [
        1.0 if isinstance(one, str) else np.nan if one is None else float(one) for one in values
    ]
    figure = begin(np.array(numbers, np.float64), unit)
    words = [one if isinstance(one, str) else None for one in values]
    return figure.in_words(lambda row: words[row]) if any(words) else figure
