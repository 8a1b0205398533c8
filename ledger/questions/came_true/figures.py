"""The formulas of came-true: each gives the column for all records, or all things said, and the tree for one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.figures import Figure, choose, if_known, known_where
from ledger.messages import sentence
from ledger.questions.came_true.gather import SLUGS, Grades
from ledger.questions.came_true.scores import CHANCES, RANGES, graded
from ledger.questions.shelf.items_gather import ENDS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["GradeFigures"]


class GradeFigures:
    """Every figure of what came true.

    Attributes
    ----------
    grades : Grades
    one : dict of str to Figure
        Of single things said, by name; a row is a thing said.
    of : dict of str to Figure
        By the name of its column; a row is a record. Also the errors of the plain mean.
    """

    def __init__(self, state: State) -> None:
        self.grades = grades = Grades(state, graded(state))
        said = [grades.folded(grades.end(end).called(name), name) for end, name in enumerate(ENDS)]
        base, chance = (
            grades.folded(figure.called(name), name)
            for name, figure in (("base", grades.base), ("chance", grades.chance))
        )
        came = grades.came.called("came")
        held = choose(
            grades.is_chance,
            came,
            grades.judged(lambda one: bool(one.held), said, came).called("held"),
        )
        sides = {
            name: grades.judged(grades.is_side(sign), said, came).called(name)
            for name, sign in (("below", -1), ("above", 1))
        }
        self.one = {
            "held": if_known(held, "not-known-yet"),
            **{name: if_known(one, "not-said") for name, one in zip(ENDS, said, strict=True)},
            "chance": if_known(chance, "not-said"),
            "came": known_where(grades.is_known, came, "not-known-yet"),
            "base": if_known(base, "not-said"),
            **{name: if_known(one, "not-known-yet") for name, one in sides.items()},
        }
        self.of = self._counts()
        errors = self._errors(came, base)
        self.one |= {
            name: if_known(one, "nothing-to-score")
            for name, one in self._scores(chance, held, said, came, base, errors).items()
        }
        self.of |= {name: self._mean(name) for name in ("score", "score_of_base")}
        self.of["widened"] = self._widened()
        self.of |= {
            f"error.{name}": if_known(one.at(grades.kinds), "nothing-to-score")
            for name, one in zip(ENDS, errors, strict=True)
        }

    # -- counts -----------------------------------------------------------------------------

    def _counts(self) -> dict[str, Figure]:
        grades, known = self.grades, self.grades.known
        lines = {name: grades.each(grades.line(one, name)) for name, one in self.one.items()}
        self._said = grades.each(grades.line(grades.one, "held"))
        count = known.sum(self._said, "times").called("known")
        held = choose(
            grades.are(CHANCES),
            known.sum(lines["held"], "times").called("it-came"),
            known.sum(lines["held"], "times").called("held-all"),
        )
        chance = known.sum(lines["chance"], "0 to 1").called("sum")
        expected = choose(
            grades.are(CHANCES),
            (chance / count).called("mean-chance", unit="0 to 1"),
            grades.should_hold.called("should-hold"),
        )
        below, above = (known.sum(lines[name], "times").called(name) for name in ("below", "above"))
        return {
            "graded": count,
            "held": held,
            "share_held": if_known((held / count).called("share_held"), "not-known-yet"),
            "expected": if_known(expected, "not-known-yet"),
            "below": known_where(~grades.are(CHANCES), below, "no-range"),
            "above": known_where(grades.are(RANGES) & (known.first >= 0), above, "no-upper-end"),
            "open": grades.of(~grades.is_known).sum(self._said, "times").called("not-known-yet"),
        }

    def _widened(self) -> Figure:
        """Return by how much ranges of use are widened now, as the last ones held."""
        lines = self.grades.line(self.one["held"], "held")
        return self.grades.widened(self.grades.each(lines)).called("widened")

    # -- scores -----------------------------------------------------------------------------

    def _errors(self, came: Figure, base: Figure) -> list[Figure]:
        """Return what came by the plain mean: its tenth, fiftieth and ninetieth; a row a kind."""
        ratio = self.grades.line((came / base).called("by-plain-mean", unit="times"), "came")
        each = zip(ENDS, self.grades.errors(ratio), strict=True)
        return [self._error(end, one) for end, one in each]

    def _error(self, end: str, figure: Figure) -> Figure:
        slugs = list(SLUGS.values())
        named = figure.called("error", name=sentence(f"why-{end}"))
        return named.folds(lambda kind: (f"came-true/{slugs[kind]}", f"error.{end}"))

    def _scores(
        self, chance: Figure, held: Figure, said: list[Figure], came: Figure, base: Figure,
        errors: list[Figure],
    ) -> dict[str, Figure]:  # fmt: skip
        """Return how far off each thing said was: the pinball loss, or the square of a chance's."""
        grades = self.grades
        rate = (
            self.of["share_held"]
            .at(grades.in_all)
            .called("rate")
            .folds(lambda row: (f"came-true/{SLUGS[grades.every[row].kind]}", "share_held"))
        )
        plain = [(one.at(grades.kind) * base).called("plain", unit=base.unit) for one in errors]
        out = {}
        for name, one, ends in (("score", chance, said), ("score_of_base", rate, plain)):
            off = (one - held).called("off")
            loss = grades.pinball(ends, came, base).called("loss")
            out[name] = choose(grades.is_chance, (off * off).called("off-squared", unit=""), loss)
        return out

    def _mean(self, name: str) -> Figure:
        grades = self.grades
        scored = grades.of(grades.is_scored)
        whole = scored.sum(grades.each(grades.line(self.one[name], name)), "").called("sum")
        mean = whole / scored.sum(self._said, "times").called("known")
        return if_known(mean.called(name, unit=""), "nothing-to-score", "")
