"""Sums of postings: by what they are for, and, where they are many, by item or by month."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array, Figure, Groups, choose
from ledger.messages import fixed, sentence
from ledger.questions.worth_it.figures import figures
from ledger.questions.worth_it.gather import LINES, Lots
from ledger.questions.worth_it.postings import COLUMNS, NOTE_LABELS, NOTES, postings
from ledger.replay import day_text

if TYPE_CHECKING:
    from ledger.questions.worth_it.span import Span
    from ledger.replay import State

__all__ = ["FULL", "Sums", "sums_of"]

FULL = 40
"""Postings of one note shown one by one; more are added up by item, each with an address of its own."""


class Sums:
    """The postings of a season and their sums.

    Attributes
    ----------
    lines : dict of str to Figure
        By column of the answer: a row a line of `LINES`.
    whole : dict of str to Figure
        By column of the answer: one row, all lines together.
    """

    def __init__(self, state: State, span: Span) -> None:
        self.state, self.season = state, span.season
        self.lots = state.once(Lots)
        self.posted = postings(state, self.lots, span.first, span.last, span.season)
        by_line = self._columns(self.posted.line, len(LINES))
        every = Groups(np.zeros(len(LINES), np.int64), 1)
        whole = {
            name: every.sum(figure.called("of-line", text=self._line)).called(
                f"sum.{name}", season=self.season
            )
            for name, figure in by_line.items()
        }
        rated = np.zeros(len(LINES), bool)
        rated[self.posted.line[self.posted.of(None, "labour")]] = True
        self.lines, self.whole = figures(by_line, rated), figures(whole, np.array([rated.any()]))

    def _line(self, row: int) -> str:
        return fixed(LINES[row])

    def of_item(self, line: int, item: int) -> dict[str, Figure]:
        """Return the figures of one item of a line, by column; of one row."""
        posted = self.posted
        mine = (posted.line == line) & (posted.item == item)
        money = self._columns(np.where(mine, 0, -1), 1, split=False)
        return figures(money, np.ones(1, bool))

    def _columns(self, by: Array, count: int, *, split: bool = True) -> dict[str, Figure]:
        posted = self.posted
        out = {}
        for code, name in enumerate(COLUMNS):
            signs = []
            for sign in (1, -1):
                mine = (posted.column == code) & (posted.sign == sign) & (by >= 0)
                signs.append(self._noted(np.flatnonzero(mine), by, count, name, split=split))
            (plus, _), (minus, has) = signs
            net = choose(has, (plus.called("added") - minus.called("taken-off")), plus)
            out[name] = net.called(f"sum.{name}", season=self.season)
        return out

    def _noted(
        self, rows: Array, by: Array, count: int, name: str, *, split: bool
    ) -> tuple[Figure, Array]:
        """Return sums of rows by their notes, and which have any."""
        posted = self.posted
        pair = by[rows] * len(NOTES) + posted.note[rows]
        notes, note_of, many = np.unique(pair, return_inverse=True, return_counts=True)
        is_many = (many > FULL)[note_of] if split else np.zeros(rows.size, bool)
        month = self._months(rows)
        key = np.where(posted.item[rows] >= 0, posted.item[rows] << 32, month)
        key = np.where(is_many, key, -1 - np.arange(rows.size))
        parts, part_of = np.unique(np.stack([note_of, key]), axis=1, return_inverse=True)
        first = np.zeros(parts.shape[1], np.int64)
        first[part_of[::-1]] = rows[::-1]
        each = Groups(part_of, parts.shape[1]).sum(posted.money.at(rows))
        grouped = each.called("of-many", text=lambda at: self._named(int(first[at]))).folds(
            self._address(first, name)
        )
        figure = choose(parts[1] >= 0, grouped, each)
        code = notes % len(NOTES)
        noted = (
            Groups(parts[0], notes.size)
            .sum(figure)
            .called("note", text=lambda at: sentence(NOTE_LABELS[int(code[at])]))
        )
        unit = "minutes" if name == "minutes" else "money"
        whole = Groups(notes // len(NOTES), count).sum(noted, unit)
        return whole, np.bincount(notes // len(NOTES), minlength=count) > 0

    def _months(self, rows: Array) -> Array:
        days = self.state.moment.on[self.posted.ev[rows]]
        return days.astype("datetime64[D]").astype("datetime64[M]").astype(np.int64) + (1 << 20)

    def _named(self, row: int) -> str:
        item = int(self.posted.item[row])
        if item >= 0:
            return self.state.facts.names[item]
        return day_text(int(self.state.moment.on[self.posted.ev[row]]))[:7]

    def _address(self, first: Array, name: str) -> Callable[[int], tuple[str, str] | None]:
        posted = self.posted

        def address(at: int) -> tuple[str, str] | None:
            row = int(first[at])
            item = int(posted.item[row])
            if item < 0:
                return None
            line = LINES[int(posted.line[row])]
            return f"worth-it/{self.season}/{line}/{self.state.facts.names[item]}", name

        return address


def sums_of(state: State, span: Span) -> Sums:
    """Return the sums of a season, made once a moment."""
    kept: dict[int, Sums] = state.once(_kept)
    if span.season not in kept:
        kept[span.season] = Sums(state, span)
    return kept[span.season]


def _kept(_: State) -> dict[int, Sums]:
    return {}
