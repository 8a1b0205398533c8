"""Lines, from what was typed to what is stored: item, whole amount, number and basis."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from ledger.amounts import Amount, canonical_jar, jar_volume_ul, parse_amount, unit_factor
from ledger.door.answers import Answers
from ledger.door.catalogue import Catalogue
from ledger.errors import InputError, LedgerError, NeedsAnswer, WeightNeeded
from ledger.items import ItemFacts, item_key, near_misses
from ledger.reference.crossing import cross

__all__ = ["MOST", "Lines", "has_decimal_comma", "join", "line_fields", "several_lines"]

_ABSURD = {"mass": 10_000_000_000, "volume": 10_000_000_000, "count": 100_000_000, "energy": 10**14}
"""More than 10 tonnes, 10,000 litres, 100,000 pieces or 28,000 kWh of an item is asked about."""

_SORT_OF_USE = {
    "lids": "lid",
    "jar": "jar",
    "equipment": "equipment",
    "fuel": "fuel",
    "seed": "supply",
    "garden": "garden input",
    "durable": "equipment",
}
MOST = 1 << 60
"""Whole units beyond which a line is refused; totals may reach 2^62."""

Body = dict[str, Any]
_COUNTED = frozenset({"jar", "lid", "equipment"})


_WITH_COMMA = frozenset(
    "bg cs da de el es fi fr hr hu it nb nl pl pt ro ru sk sl sv tr uk".split()  # noqa: SIM905
)
"""Languages whose countries mostly write 12,5 (Unicode CLDR, number symbols)."""


def join(field: str, name: str) -> str:
    """Return the field `name` of a line in the user's words: alone where the line stands alone."""
    return f"{field}.{name}" if field else name


def has_decimal_comma(language: str | None) -> bool:
    """Return whether ``12,5`` is twelve and a half in a language (``de``, ``pt-BR``)."""
    return (language or "en")[:2].lower() in _WITH_COMMA


class Lines:
    """Resolves the lines of one event; new items are described in `described`.

    Parameters
    ----------
    catalogue : Catalogue
    answers : Answers
    on : str
        The event's day: the settings of that day hold.
    """

    def __init__(self, catalogue: Catalogue, answers: Answers, on: str) -> None:
        self.catalogue, self.answers, self.on = catalogue, answers, on
        self.described: list[dict[str, Any]] = []
        self._new: dict[str, ItemFacts] = {}
        self._spelled: dict[str, str] = {}
        self.measures = catalogue.setting("measures", on, "us") or "us"
        self.comma = has_decimal_comma(catalogue.setting("language", on))
        self.proposals: dict[str, str] = {}

    # -- items --------------------------------------------------------------------------

    def facts(self, name: str) -> ItemFacts | None:
        """Return what is known of an item, counting what this event describes."""
        return self._new.get(self.catalogue.key(name)) or self.catalogue.facts(name)

    def item(
        self, name: str, use: str, field: str, measure: str | None = None
    ) -> tuple[str, ItemFacts]:
        """Return an item's name as the book spells it and what is known of it.

        A name that was never seen is described, after a near miss has been asked about.
        """
        name = canonical_jar(name) or name
        facts = self.facts(name)
        if facts is None:
            known = () if canonical_jar(name) else self._names()
            for near in near_misses(name, known)[:1]:
                doubt = NeedsAnswer(
                    "near-miss",
                    field,
                    f"{name!r} is not in the book yet; did you mean {near!r}?",
                    near,
                )
                if self.answers.choose(doubt):
                    return self.item(near, use, field, measure)
            sort = self._sort(name, use, measure)
            facts = self._describe(
                name, ItemFacts(sort=sort), "count" if sort in _COUNTED else measure
            )
        elif facts.measure is None and measure is not None:
            facts = self._describe(self.catalogue.name(name), facts, measure)
        return self.name(name), facts

    def name(self, name: str) -> str:
        """Return an item's name as the book, or this event, first spelled it."""
        return self._spelled.get(self.catalogue.key(name)) or self.catalogue.name(name)

    def _names(self) -> list[str]:
        return [*self.catalogue.names(), *self._spelled.values()]

    def _sort(self, name: str, use: str, measure: str | None) -> str:
        key = item_key(name)
        if canonical_jar(name) or use == "jar":
            return "jar"
        if key.split()[-1] == "lid":
            return "lid"
        if measure == "energy":
            return "fuel"
        if use == "food" and key.split()[-1] in ("seed", "seedling"):
            return "supply"
        return _SORT_OF_USE.get(use, "food")

    def _describe(self, name: str, facts: ItemFacts, measure: str | None) -> ItemFacts:
        name = " ".join(name.split())
        body: dict[str, Any] = {"item": name, "sort": facts.sort or "food"}
        if measure is not None:
            body["measure"] = measure
        if facts.sort == "food" and facts.food is None:
            self._propose(name)
        import msgspec

        new = msgspec.structs.replace(facts, measure=measure or facts.measure)
        self._new[self.catalogue.key(name)] = new
        self._spelled.setdefault(self.catalogue.key(name), name)
        self.described.append(body)
        return new

    def _propose(self, name: str) -> None:
        if self.answers.importing:
            return
        from ledger.reference import foods

        best = foods.hint(name)
        if best:
            self.proposals[name] = f"{best.food_id} {best.description}"

    # -- amounts ------------------------------------------------------------------------

    def amount(self, text: str, field: str, *, zero: bool = False) -> Amount:
        """Return an amount as understood; the error names `field`.

        Where an answer was taken, the amount's `text` is that answer.
        """
        try:
            return parse_amount(text, measures=self.measures, comma=self.comma, zero=zero)
        except NeedsAnswer as doubt:
            doubt = NeedsAnswer(doubt.code, field, doubt.question, doubt.offered)
            if self.answers.choose(doubt):
                return parse_amount(doubt.offered, measures=self.measures, comma=self.comma)
            raise doubt from None
        except InputError as error:
            raise type(error)(field, error.problem, error.wanted) from None

    def line(
        self, line: Body, field: str, *, use: str = "food", zero: bool = False
    ) -> dict[str, Any]:
        """Return a line as stored, but for its number: the item's name, whole amount and basis.

        A line of an export carries its whole amount already, and keeps it.

        Raises
        ------
        InputError, WeightNeeded, NeedsAnswer
        """
        amount = self.amount(line["amount"], join(field, "amount"), zero=zero)
        measure = "count" if canonical_jar(line["item"]) else amount.measure
        name, facts = self.item(line["item"], use, join(field, "item"), measure)
        out = {**line, "item": name, "amount": amount.text}
        if line.get("whole") is not None:
            return self.carried(out, amount, facts, field, zero=zero)
        out.update(self.measured(amount, name, facts, join(field, "amount")))
        return out

    def carried(
        self, line: Body, amount: Amount | None, facts: ItemFacts, field: str, *, zero: bool = False
    ) -> Body:
        """Return a line that brings its whole amount, after looking whether it can be so.

        Raises
        ------
        InputError
        """
        whole, basis = line["whole"], line.get("basis", "exact")
        at = join(field, "whole")
        if not (0 if zero else 1) <= whole <= MOST:
            raise InputError(at, f"{whole} is no amount", "Leave it out: it follows from `amount`")
        crossed = line.get("per") is not None and (line.get("times") or 0) > 0
        if (basis != "exact") != crossed:
            raise InputError(
                join(field, "basis"),
                f"{basis!r} does not go with `per` and `times`",
                "Leave all of `whole`, `basis`, `per` and `times` out",
            )
        if line.get("times", 0) > MOST:
            raise InputError(join(field, "times"), "is no amount", "Leave it out")
        if amount is not None and basis == "exact" and amount.jars is None:
            kept_by = facts.measure or amount.measure
            if amount.measure != kept_by:
                raise InputError(
                    at,
                    f"{amount.text} is no exact amount of what is kept by {kept_by}",
                    "Leave `whole` and `basis` out",
                )
        return {**line, "basis": basis}

    def measured(self, amount: Amount, name: str, facts: ItemFacts, field: str) -> dict[str, Any]:
        """Return ``whole``, ``basis`` and, where not exact, ``per`` and ``times``."""
        target = facts.measure or amount.measure
        jarred = self._in_jars(amount, name)
        if target == "count" and amount.jars is not None:
            return {"whole": round(amount.jars * 1000), "basis": "exact"}
        if jarred is not None and target == "volume":
            whole, out = jarred, {"whole": jarred, "basis": "exact"}
        else:
            try:
                crossed = cross(amount, name, facts, target)
            except WeightNeeded as error:
                raise WeightNeeded(field, error.problem, error.wanted) from None
            whole, out = crossed.whole, {"whole": crossed.whole, "basis": crossed.basis}
            if crossed.basis != "exact":
                out |= {"per": crossed.per, "times": crossed.times}
                if crossed.basis != "item" and not self.answers.importing:
                    self.answers.note(f"{amount.text} {name}: {crossed.note}")
        self._check_size(whole, target, amount, name, field)
        return out

    def _check_size(self, whole: int, target: str, amount: Amount, name: str, field: str) -> None:
        if whole > MOST:
            raise InputError(
                field, f"{amount.text} is more than a book can hold", "Check the number and unit"
            )
        if whole == 0 and amount.exact > 0:
            raise InputError(field, f"{amount.text} is too little to be written", "Write more")
        if whole > _ABSURD[target]:
            question = f"{amount.text} of {name} is a great deal; is it right?"
            self.answers.settle(NeedsAnswer("absurd", field, question, "it is right"))

    def _in_jars(self, amount: Amount, name: str) -> int | None:
        """Return the whole volume where the word jar was left out of an item kept in such jars."""
        jar = amount.maybe_jar
        if jar is None or jar not in self.catalogue.jars_of(name):
            return None
        known = unit_factor("pt" if "pint" in jar else "qt" if "quart" in jar else "gal")
        assert known is not None
        jars = amount.exact / (known[1] / (2 if jar.startswith("half") else 1))
        volume = jar_volume_ul(jar)
        return round(jars * volume) if volume is not None and jars.denominator == 1 else None

    def jar_volume(self, jar: str, field: str) -> int:
        """Return what one jar holds, in ul: by its name, else as the household says.

        Raises
        ------
        InputError
            When neither is known.
        """
        volume = jar_volume_ul(jar)
        facts = self.facts(jar)
        if volume is None and facts is not None and facts.holds:
            held = self.amount(facts.holds, field)
            volume = held.whole if held.measure == "volume" else None
        if volume is None:
            raise InputError(
                field,
                f"nobody said how much one {jar} holds",
                f'Say it with: croftbook item "{jar}" --sort jar --holds "1 qt"',
            )
        return volume

    def jars(self, made: dict[str, Any], name: str, facts: ItemFacts, field: str) -> dict[str, Any]:
        """Return the whole amount in some jars of what a batch makes."""
        each = self.jar_volume(made["jar"], f"{field}.jar")
        whole = each * made["jars"]
        unit = canonical_jar(made["jar"])
        times = made["jars"] * 1000
        if unit is None:
            unit, times = "ml", whole
        amount = Amount(
            "volume", whole, unit, times, Fraction(whole), f"{made['jars']} {made['jar']}"
        )
        try:
            return self.measured(amount, name, facts, f"{field}.jars")
        except LedgerError as error:
            if isinstance(error, WeightNeeded):
                raise WeightNeeded(f"{field}.jars", error.problem, error.wanted) from None
            raise


def several_lines(
    several: list[Body], name: str, lines: Lines, use: str = "food", *, zero: bool = False
) -> list[Body]:
    """Return the lines of one list of a body as they are stored."""
    return [
        lines.line(line, field, use=use, zero=zero)
        for line, field in zip(several, line_fields(several, name), strict=True)
    ]


def line_fields(several: list[Body], name: str) -> list[str]:
    """Return what each line is called in a refusal: one that stands alone goes without a name."""
    if name == "lines" and len(several) == 1:
        return [""]
    return [f"{name}[{i}]" for i in range(len(several))]
