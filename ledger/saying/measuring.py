"""A line in the making, and its amount: which jar is meant, and what is no amount is asked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from ledger.door.money import in_own_money
from ledger.errors import InputError
from ledger.messages import Names, fixed, measured, sentence
from ledger.messages.units import amount
from ledger.messages.units import unit as unit_said
from ledger.saying.asking import Question
from ledger.saying.echo import jars_said
from ledger.saying.known import CAME, Known
from ledger.saying.language import Language
from ledger.saying.numbers import figure
from ledger.saying.phrase import jar_named
from ledger.saying.quantities import Quantity, quantity_at
from ledger.saying.settled import Settled
from ledger.saying.things import Thing
from ledger.saying.tokens import tokens_of

__all__ = ["ON_THE_SHELF", "Line", "Measuring", "amounts_named"]

ON_THE_SHELF = frozenset({"eaten", "given_away", "discarded", "counted", "used"})
_SOME_JAR = ("half-pint jar", "pint jar", "quart jar")
_METRIC_JAR = ("250 ml jar", "500 ml jar", "1 l jar")


def amounts_named(options: Sequence[str]) -> Names:
    """Return amounts to choose from, as a question names them."""
    return Names(tuple(map(amount, options)))


def _in_jars(said: Quantity, jars: list[str]) -> list[str]:
    """Return as many jars of the first sizes, as likely answers."""
    many = figure(said.many)
    return [
        jars_said(many if isinstance(many, int) else measured(f"{many}"), jar) for jar in jars[:2]
    ]


@dataclass(slots=True)
class Line:
    """A line in the making.

    Attributes
    ----------
    item : str or None
        None where a label alone was said that no jar bears.
    quantity : Quantity or None
        None where none was said, or what was said is doubtful.
    """

    item: str | None
    quantity: Quantity | None
    thing: Thing
    more: dict[str, Any] = field(default_factory=dict)
    is_new: bool = False

    def body(self) -> dict[str, Any]:
        """Return the line as a body has it."""
        out: dict[str, Any] = {} if self.item is None else {"item": self.item}
        if self.thing.is_zero:
            out["amount"] = "0"
        elif self.quantity is not None:
            out["amount"] = self.quantity.text()
        if self.thing.lot:
            out["lot"] = self.thing.lot
        return out | self.more


class Measuring:
    """The half of making lines that settles amounts; `Maker` is the other."""

    known: Known
    words: Language
    settled: Settled
    questions: list[Question]
    asked: dict[tuple[str, str], str | None]
    sorts: dict[str, str]
    part: int

    def ask(
        self, code: str, about: str, text: str, options: Sequence[str] = (), **more: Any
    ) -> str | None:
        """Ask once in this entry; return the answer where one was given already."""
        if (code, about) in self.asked:
            return self.asked[code, about]
        key = self.settled.key(code, about)
        answer = self.settled.answers.get(key)
        try:
            in_own_money(answer or "", about, self.known.catalogue)
        except InputError as refused:
            answer, text, more = None, str(refused), {**more, "waits": False}
        self.asked[code, about] = answer
        if answer is None:
            self.questions.append(
                Question(about, text, list(options), code=code, entry=self.part, key=key, **more)
            )
        return answer

    def amount_of(self, answer: str | None) -> Quantity | None:
        """Return an answer as an amount; None where there is none, or it is no amount."""
        tokens = tokens_of(answer or "")
        said = quantity_at(self.words, tokens, 0) if tokens else None
        return said if said is not None and not said.doubt else None

    # -- amounts -------------------------------------------------------------------------

    def _measure(self, line: Line, use: str, at: int) -> None:
        """Settle which jar is meant, and ask about what is no amount."""
        said = line.quantity
        if line.item is None:
            return
        if line.thing.is_zero:
            line.quantity = None
            return
        if said is None:
            self._ask_amount(line, use, at)
            return
        if said.doubt:
            self._ask_doubt(line, said, at)
            return
        if use in ON_THE_SHELF:
            said = self._from_shelf(line.item, said, at)
        elif said.sort == "jar" and said.unit == "jar":
            said = self._some_jar(line.item, said, at)
        line.quantity = said
        if said is not None and said.sort == "unknown":
            self._ask_weight(line.item, said, at)

    def _ask_amount(self, line: Line, use: str, at: int) -> None:
        sort = self.sorts.get(line.item or "") or self.known.sort(line.item or "")
        if use == "bought" and sort == "equipment":
            line.quantity = Quantity(Fraction(1), None, "count", 0)  # one canner, one spade
            return
        waits = use == "used"
        jars = self.known.jars(line.item or "") if use in ON_THE_SHELF else []
        options = [jars_said(1, jar) for jar in jars[:2]]
        answer = self.ask(
            "amount",
            f"{line.item}",
            sentence("asked-amount", name=f"{line.item}"),
            options,
            line=at,
            waits=waits,
        )
        line.quantity = self.amount_of(answer)

    def _ask_doubt(self, line: Line, said: Quantity, at: int) -> None:
        name = f"{line.item}"
        if said.doubt == "vague":
            text = sentence("asked-amount-vague", name=name)
        elif said.doubt == "range":
            text = sentence("asked-amount-range", name=name, names=amounts_named(said.options))
        else:
            text = sentence("asked-which-meant-of", name=name, names=amounts_named(said.options))
        answer = self.ask(said.doubt, name, text, said.options, line=at)
        line.quantity = self.amount_of(answer)

    def _from_shelf(self, item: str, said: Quantity, at: int) -> Quantity:
        """Return jars where such jars of an item are on the shelf: ``2 pints of beans``."""
        jars = self.known.jars(item)
        if said.sort == "jar":
            return self._some_jar(item, said, at) if said.unit == "jar" else said
        if said.unit is None and self.known.is_jarred(item):
            return self._plain_jars(item, said, at, jars)
        jar = said.jar()
        if jar is not None and jar in jars:
            if said.options:
                meant = amounts_named(said.options)
                text = sentence("asked-which-meant-of", name=item, names=meant)
                answer = self.ask("jar-fraction", item, text, said.options, line=at)
                return self.amount_of(answer) or said.in_jars(jar)
            return said.in_jars(jar)
        if jar is not None and jars and said.many.denominator == 1:
            options = [measured(said.text()), *_in_jars(said, jars)]
            text = sentence("asked-out-of-jars", amount=measured(said.text()), name=item)
            return self.amount_of(self.ask("quart", item, text, options, line=at)) or said
        return said

    def _plain_jars(self, item: str, said: Quantity, at: int, jars: list[str]) -> Quantity:
        """Return a bare number in jars; of several sizes, or where it came fresh too, it is asked."""
        fresh = self.known.came(item, self.known.today.isoformat(), CAME[:3])
        if len(jars) == 1 and not fresh:
            return said.in_jars(jars[0])
        options = _in_jars(said, jars)
        pieces = sentence("asked-pieces", n=measured(f"{figure(said.many)}"))
        options += [pieces] if fresh else []
        text = sentence("asked-out-of-jars", amount=measured(said.text()), name=item)
        return self.amount_of(self.ask("quart", item, text, options, line=at)) or said

    def _some_jar(self, item: str, said: Quantity, at: int) -> Quantity:
        jars = self.known.jars(item)
        if jars:
            return said.in_jars(jars[0])
        if self.known.sort(item) != "jar":
            text = sentence("asked-jar-size", name=item)
            some = _METRIC_JAR if self.known.measures == "metric" else _SOME_JAR
            answer = self.ask(
                "jar", f"jar of {item}", text, list(map(fixed, some)), line=at, waits=True
            )
            jar = jar_named(answer, self.known.language) if answer else None
            return said.in_jars(jar) if jar else said
        return said

    def _ask_weight(self, item: str, said: Quantity, at: int) -> None:
        unit = said.unit or ""
        sort = self.known.sort(item)
        if self.known.weighs(item, unit) or sort not in (None, "food", "supply", "garden input"):
            return
        self.ask(
            "weight",
            f"{unit} of {item}",
            sentence("asked-weight", unit=unit_said(unit), name=item),
            [],
            line=at,
            waits=True,
        )
