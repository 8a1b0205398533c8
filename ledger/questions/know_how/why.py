"""Why a figure of the know-how answer says so: the practices that it counts, event by event."""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise
from typing import TYPE_CHECKING

from ledger.errors import NotFound
from ledger.messages import Code, Day, Message, Typed, fixed, sentence
from ledger.projections.base import Node
from ledger.questions.know_how.curve_why import CurveTree
from ledger.questions.know_how.sheet import MONTHS, months_of
from ledger.questions.know_how.skills import HOUSEHOLD, Skills
from ledger.questions.know_how.targets import target_of
from ledger.questions.know_how.units import units_of
from ledger.questions.know_how.words import read_address
from ledger.questions.shared.arithmetic import difference, product, quotient, total
from ledger.questions.shared.common import event_node
from ledger.questions.shared.opening import no_record
from ledger.replay.state import day_number, day_text

if TYPE_CHECKING:
    from ledger.methods.lapse import Standing
    from ledger.replay import State

__all__ = ["why"]

_LATEST = 3
_MEANS = {
    ("went", "lately"): "why-mean-went-lately",
    ("went", "before"): "why-mean-went-before",
    ("minutes", "lately"): "why-mean-minutes-lately",
    ("minutes", "before"): "why-mean-minutes-before",
    ("minutes_per_unit", "lately"): "why-mean-minutes-per-unit-lately",
    ("minutes_per_unit", "before"): "why-mean-minutes-per-unit-before",
}
_Figures = dict[str, Callable[[], Node]]


def why(state: State, key: str, field: str | None = None) -> Node:
    """Return a figure of a skill as a tree.

    Parameters
    ----------
    key : str
        ``plum+butter``, ``plum+butter/Ada``, ``@2026/plum+butter`` or ``@curve/plum+butter/3``,
        as in the answer's `why`.
    field : str, optional
        A column of that answer; default: the standing, the times of the year, the minutes.

    Raises
    ------
    NotFound
        When there is no such skill, person or repetition, or no such figure of it.
    """
    skills = state.once(Skills)
    shape, parts = read_address(key)
    count = 2 if shape == "@curve" else 1
    if not count <= len(parts) <= count + 1 or not parts[0]:
        raise _unknown(key)
    skill = skills.must_find(parts[0])
    person = skills.must_find_person(parts[count]) if len(parts) > count else HOUSEHOLD
    one = _Skill(skills, skill, person)
    if one.span == (0, 0) and person != HOUSEHOLD:
        raise _unknown(key)
    figures, usual = _choose(one, shape, parts, key)
    name = field or usual
    if name not in figures:
        known = ", ".join(figures)
        raise NotFound(
            "figure",
            Message.of(
                "refusal-no-figure-of",
                text=Typed(name),
                names=Code(known),
                question=Code("know-how"),
            ),
        )
    return figures[name]()


def _choose(one: _Skill, shape: str, parts: list[str], key: str) -> tuple[_Figures, str]:
    if not shape:
        return one.figures(), "standing"
    if shape == "@curve":
        rows = range(*one.span)
        if not parts[1].isdecimal() or not 1 <= int(parts[1]) <= len(rows):
            raise _unknown(key)
        return one.curve().at(int(parts[1])), "minutes_per_unit"
    if not shape[1:].isdecimal():
        raise _unknown(key)
    return one.months(int(shape[1:])), "times"


def _unknown(key: str) -> NotFound:
    return no_record("know-how", key)


class _Skill:
    """One skill of one person, or of the household, and the figures that the answer gives."""

    def __init__(self, skills: Skills, skill: int, person: int) -> None:
        self.skills, self.skill, self.person = skills, skill, person
        self.state = skills.state
        self.span = skills.groups.get((skill, person), (0, 0))
        self.rows = list(range(*self.span))

    def figures(self) -> _Figures:
        """Return, by column, how each figure is worked out."""
        this_year = [r for r in self.rows if self.skills.day[r] >= self.skills.year_from]
        out: _Figures = {
            "standing": self.standing,
            "times": lambda: self.times(sentence("why-times-done"), self.rows),
            "times_this_year": lambda: self.times(
                sentence("why-times-in-year", year=self.skills.year), this_year
            ),
            "days_since": self.days_since,
            "rhythm_days": self.rhythm,
            "keeps_days": self.keeps,
            "rusts_in_days": self.rusts_in,
            **self._means(),
            **self.curve().rates(),
        }
        if self.person == HOUSEHOLD and self.skill in self.skills.targets:
            out |= self._target()
        return out

    def months(self, year: int) -> _Figures:
        """Return, by column of the year sheet, how each count is worked out."""
        month = months_of(self.skills, year)[slice(*self.span)].tolist()

        def of(wanted: Callable[[int], bool]) -> list[int]:
            return [row for row, m in zip(self.rows, month, strict=True) if wanted(m)]

        out: _Figures = {
            "times": lambda: self.times(
                sentence("why-times-in-year", year=year), of(lambda m: m >= 0)
            )
        }
        for i, name in enumerate(MONTHS):
            out[name] = lambda i=i: self.times(  # type: ignore[misc]
                sentence("why-times-in-month", month=Code(f"{year}-{i + 1:02d}")),
                of(lambda m: m == i),
            )
        return out

    def curve(self) -> CurveTree:
        """Return the trees of the learning curve."""
        return CurveTree(self.skills, self.skills.state.once(units_of), self.skill, self.span)

    def _event(self, row: int, value: float, unit: str, label: str = "") -> Node:
        return event_node(self.state, int(self.skills.ev[row]), label, value, unit)

    def times(self, label: str, rows: list[int]) -> Node:
        """Return a count as the sum of its entries, year by year."""
        by_year: dict[str, list[Node]] = {}
        for row in rows:
            year = day_text(int(self.skills.day[row]))[:4]
            by_year.setdefault(year, []).append(self._event(row, 1.0, "times"))
        if len(by_year) == 1:
            return total(label, "times", *next(iter(by_year.values())))
        parts = [total(year, "times", *nodes) for year, nodes in by_year.items()]
        return total(label, "times", *parts)

    def _stands(self) -> Standing:
        import datetime as dt

        from ledger.methods.lapse import standing

        dates = [dt.date.fromisoformat(day_text(int(self.skills.day[r]))) for r in self.rows]
        today = dt.date.fromisoformat(day_text(self.state.as_of_day))
        went = self.skills.went[slice(*self.span)].tolist()
        return standing(dates, today, self.skills.has_season(self.skill), went)

    def standing(self) -> Node:
        """Return the standing in words, with what it rests on."""
        found = self._stands()
        if not self.rows:
            places = self.skills.targets[self.skill]
            parts = [event_node(self.state, places[-1], "", fixed("wanted", "standing"), "")]
        else:
            parts = [self.days_since(), self.keeps()]
        return Node(found.because, found.word, "", "as written", parts)

    def keeps(self) -> Node:
        """Return how long good practices keep it, with the entries."""
        days = self._stands().keeps_days
        if days is None:
            return Node(sentence("why-judged-by-seasons"), None, "days")
        parts = [
            self._event(row, 1.0, "times") for row in self.rows if not self.skills.went[row] < 3
        ]
        label = sentence("why-practices-keep-it")
        return Node(label, days, "days", "as written", parts)

    def rusts_in(self) -> Node:
        """Return the days until it is going rusty: the first day beyond those that it keeps."""
        on = self._stands().rusts_on
        if on is None:
            return Node(sentence("why-not-in-hand"), None, "days")
        today = self.state.as_of_day
        days = float(day_number(on.isoformat()) - today)
        label = sentence("why-rusts-on", day=Day(on.isoformat()))
        return Node(label, days, "days", "as written", [self.keeps(), self.days_since()])

    def days_since(self) -> Node:
        """Return the days from the last practice to the answer's day."""
        if not self.rows:
            return Node(sentence("why-never-practised"), None, "days")
        today, row = self.state.as_of_day, self.rows[-1]
        return difference(
            sentence("why-days-since-last-time"),
            "days",
            Node(
                sentence("why-answers-day", day=Day(day_text(today))),
                float(today),
                "day since 1970",
            ),
            self._event(row, float(self.skills.day[row]), "day since 1970"),
        )

    def rhythm(self) -> Node:
        """Return the median gap between days of practice: one gap, or half of two."""
        first = {int(self.skills.day[row]): row for row in reversed(self.rows)}
        days = sorted(first)
        gaps = sorted((b - a, a, b) for a, b in pairwise(days))
        if not gaps:
            return Node(sentence("why-practised-too-seldom"), None, "days")
        middle = gaps[(len(gaps) - 1) // 2 : len(gaps) // 2 + 1]
        nodes = [
            difference(
                sentence("why-from-to", day=Day(day_text(a)), day2=Day(day_text(b))),
                "days",
                self._event(first[b], float(b), "day since 1970"),
                self._event(first[a], float(a), "day since 1970"),
            )
            for _, a, b in middle
        ]
        label = sentence("why-median-gaps", n=len(gaps))
        if len(nodes) == 1:
            return total(label, "days", *nodes)
        both = total(sentence("why-two-gaps-middle"), "days", *nodes)
        return quotient(label, "days", both, Node(sentence("why-gaps"), 2.0))

    def _means(self) -> _Figures:
        units = self.skills.state.once(units_of)
        each = units.minutes(self.skill, self.span)
        curve = self.curve()
        span = slice(*self.span)
        sources: list[tuple[str, str, list[float], Callable[[int, float], Node]]] = [
            ("went", "1 to 5", self.skills.went[span].tolist(),
             lambda at, value: self._event(self.rows[at], value, "1 to 5")),
            ("minutes", "minutes", self.skills.minutes[span].tolist(),
             lambda at, value: self._event(self.rows[at], value, "minutes")),
            ("minutes_per_unit", "minutes per unit", each, lambda at, _: curve.minutes(at)),
        ]  # fmt: skip
        out: _Figures = {}
        for name, unit, values, leaf in sources:
            known = [at for at, value in enumerate(values) if math.isfinite(value)]
            for end, chosen in (("lately", known[-_LATEST:]), ("before", known[:-_LATEST])):
                nodes = [(at, values[at], leaf) for at in chosen]
                out[f"{name}_{end}"] = lambda n=_MEANS[name, end], u=unit, nodes=nodes: _mean(  # type: ignore[misc]
                    sentence(n), u, [make(at, value) for at, value, make in nodes]
                )
        return out

    def _target(self) -> _Figures:
        target = target_of(self.skills, self.skill)
        if target is None:
            return {}
        wanted = event_node(self.state, target.ev, "", float(target.times), "times")

        def done() -> Node:
            return self.times(sentence("why-done-in", period=target.period), target.rows.tolist())

        needed = wanted
        if target.people is not None:
            people = Node(sentence("why-people-at-table"), float(target.people), "people")
            needed = product(sentence("why-needed"), "times", wanted, people)
        met = sentence("why-target-met" if target.is_met else "why-target-not-met")
        return {
            "target_times": lambda: wanted,
            "target_done": done,
            "target_met": lambda: Node(met, met, "", "as written", [done(), needed]),
        }


def _mean(label: str, unit: str, nodes: list[Node]) -> Node:
    if not nodes:
        return Node(sentence("why-nobody-said-of", what=label), None, unit)
    together = total(sentence("why-together", what=label), unit, *nodes)
    return quotient(label, unit, together, Node(sentence("why-how-many"), float(len(nodes))))
