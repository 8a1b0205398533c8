"""Lines, from what was typed to what is stored: item, and the amount as it was said."""

from __future__ import annotations

import contextlib
from fractions import Fraction
from typing import Any

from ledger.amounts import (
    Amount,
    Said,
    canonical,
    canonical_jar,
    is_counted,
    jar_volume_ul,
    parse_amount,
    unit_factor,
)
from ledger.door.hearing import hear
from ledger.door.items import ItemNames
from ledger.errors import InputError, NeedsAnswer
from ledger.items import ItemFacts
from ledger.kinds.resolving import MOST, first_measure, join
from ledger.kinds.telling import jar_word
from ledger.messages import Code, Message, Names, Typed, measured, sentence
from ledger.messages.units import amount as amount_said
from ledger.messages.units import unit as unit_said
from ledger.reference.crossing import Weights

__all__ = ["Lines", "ask_weight"]

_ABSURD = {"mass": 10_000_000_000, "volume": 10_000_000_000, "count": 100_000_000, "energy": 10**14}
"""More than 10 tonnes, 10,000 litres, 100,000 pieces or 28,000 kWh of an item is asked about."""

Body = dict[str, Any]


class Lines(ItemNames):
    """Resolves the lines of one event: items by their names, and amounts."""

    def amount(self, text: str, field: str, *, zero: bool = False) -> Amount:
        """Return an amount as understood, and as it was read where a command or form read it.

        The error names `field`.

        Where an answer was taken, the amount's `text` is that answer.
        """
        read = (
            text.read_so(self.measures, self.comma, zero=zero) if isinstance(text, Said) else None
        )
        if read is not None:
            return read
        try:
            return parse_amount(text, measures=self.measures, comma=self.comma, zero=zero)
        except NeedsAnswer as doubt:
            doubt = NeedsAnswer(doubt.code, field, doubt.question, doubt.offered)
            if self.answers.choose(doubt):
                return parse_amount(doubt.offered[:], measures=self.measures, comma=self.comma)
            raise doubt from None
        except InputError as error:
            plain = hear(text, self.catalogue, error)
            with contextlib.suppress(InputError):
                if plain is not None:
                    return parse_amount(plain, measures=self.measures, comma=self.comma, zero=zero)
            raise error.at(field) from None

    def line(
        self, line: Body, field: str, *, use: str = "food", zero: bool = False
    ) -> dict[str, Any]:
        """Return a line as stored, but for its number: the item's name and the amount as said.

        A line of an export carries its whole amount already, and keeps it.

        Raises
        ------
        InputError, NeedsAnswer
        """
        amount = self.amount(line["amount"], join(field, "amount"), zero=zero)
        if zero and line.get("whole") is None:
            amount = self._counted_jars(amount, line["item"], join(field, "amount"))
        measure = "count" if canonical_jar(line["item"]) else first_measure(amount)
        jarred = amount.jars is not None and measure == "volume"
        name, facts = self.item(line["item"], use, join(field, "item"), measure, jarred=jarred)
        out = {**line, "item": name, "amount": amount.text}
        if line.get("whole") is not None:
            return self.carried(out, field, zero=zero)
        out.update(self.measured(amount, name, facts, join(field, "amount")))
        return out

    def _counted_jars(self, amount: Amount, name: str, field: str) -> Amount:
        """Return a count without a unit in the jars that an item stands in; of several sizes it is asked.

        What is counted by the piece, or weighed and known by the piece, stays as it was said.
        """
        facts, jars = self.facts(name), sorted(self.catalogue.jars_of(name))
        if self.answers.importing or not jars or facts is None or facts.measure == "count":
            return amount
        is_plain = amount.dimension == "count" and not any(one.isalpha() for one in amount.text)
        by_piece = facts.measure == "mass" and "piece" in (facts.g_per or {})
        if not is_plain or by_piece or not amount.whole:
            return amount
        offered = measured(f"{amount.text} {jars[0]}s")
        if len(jars) > 1:
            question = sentence(
                "doubt-which-jars", amount=measured(amount.text), name=name, jars=Names(tuple(jars))
            )
            doubt = NeedsAnswer("unit", field, question, offered)
            if not self.answers.choose(doubt):
                raise doubt
        else:
            taken = jar_word(jars[0], int(amount.text)) if amount.text.isdigit() else offered
            self.answers.note(
                sentence("doubt-taken-as-jars", amount=measured(amount.text), name=name, jars=taken)
            )
        return self.amount(offered[:], field)

    def carried(self, line: Body, field: str, *, zero: bool = False) -> Body:
        """Return a line that brings its whole amount, after looking whether it can be so.

        One of the first version says its `basis`; one of today the `measure` that was typed.

        Raises
        ------
        InputError
        """
        whole, times, per = line["whole"], line.get("times") or 0, line.get("per")
        if not (0 if zero else 1) <= whole <= MOST:
            raise InputError(
                join(field, "whole"),
                Message.of("refusal-whole-no-amount", whole=Code(str(whole))),
            )
        if not 0 <= times <= MOST:
            raise InputError(join(field, "times"), Message.of("refusal-times-no-amount"))
        if line.get("measure") is not None and line.get("basis") is None:
            self._check_measure(line["measure"], per, "times" in line, field)
            return line
        basis = line.get("basis", "exact")
        if (basis != "exact") != (per is not None and times > 0) or "measure" in line:
            raise InputError(
                join(field, "basis"),
                Message.of("refusal-does-not-go-with", text=Typed(basis)),
                Message.of("refusal-leave-basis"),
            )
        return {**line, "basis": basis}

    def _check_measure(self, measure: str, per: str | None, timed: bool, field: str) -> None:
        known = unit_factor(per) if per is not None else None
        if measure in ("mass", "energy"):
            good = per is None and not timed
        elif measure == "volume":
            good = (per is None) != timed and (per is None or (known or ("",))[0] == "volume")
        elif measure == "count" and per is None:
            good = not timed
        else:
            unit = per if measure == "count" else measure
            good = unit is not None and canonical(unit) == unit and is_counted(unit)
            good = good and per in (None, unit)
        if not good:
            raise InputError(
                join(field, "measure"),
                Message.of("refusal-does-not-go-with", text=Typed(measure)),
                Message.of("refusal-leave-measure"),
            )

    def measured(self, amount: Amount, name: str, facts: ItemFacts, field: str) -> dict[str, Any]:
        """Return an amount as said: ``whole``, ``measure`` and, of what has a unit, ``per`` and ``times``."""
        jarred = self._in_jars(amount, name)
        if amount.jars is not None and (facts.sort == "jar" or canonical_jar(name)):
            out: dict[str, Any] = {"whole": round(amount.jars * 1000), "measure": "count"}
        elif jarred is not None:
            out = jarred
        else:
            out = {"whole": amount.whole, "measure": amount.dimension}
            if amount.dimension in ("volume", amount.unit):
                out |= {"per": amount.unit, "times": amount.times}
        self._check_size(out, amount, name, field)
        self._tell_weight(out, amount, name, facts)
        return out

    def _tell_weight(self, said: Body, amount: Amount, name: str, facts: ItemFacts) -> None:
        """Note by which published weight an amount is brought into the item's measure, or that none is."""
        target = facts.measure or said["measure"]
        if self.answers.importing or said["measure"] == target or not said["whole"]:
            return
        come = Weights(name, facts).come(said["measure"], said.get("per"), target)
        if come.weight is not None and come.weight.source != "item":
            self.answers.note(f"{amount.text} {name}: {come.weight.note}")
        elif come.measure != target and facts.sort in (None, "food", "supply", "fuel"):
            self.answers.note(ask_weight(amount, name, target))

    def _check_size(self, said: Body, amount: Amount, name: str, field: str) -> None:
        whole = said["whole"]
        if whole > MOST or amount.times > MOST:
            raise InputError(
                field,
                Message.of("refusal-amount-too-large", text=amount.text),
                Message.of("refusal-check-amount"),
            )
        if whole == 0 and amount.exact > 0:
            raise InputError(
                field, sentence("refusal-amount-too-little", amount=measured(amount.text))
            )
        if whole > _ABSURD.get(said["measure"], _ABSURD["count"]):
            question = sentence("doubt-great-deal", amount=measured(amount.text), name=name)
            self.answers.settle(NeedsAnswer("absurd", field, question, sentence("doubt-right")))

    def _in_jars(self, amount: Amount, name: str) -> Body | None:
        """Return the jars meant where the word jar was left out of an item kept in such jars."""
        jar = amount.maybe_jar
        if jar is None or jar not in self.catalogue.jars_of(name):
            return None
        known = unit_factor("pt" if "pint" in jar else "qt" if "quart" in jar else "gal")
        assert known is not None
        jars = amount.exact / (known[1] / (2 if jar.startswith("half") else 1))
        volume = jar_volume_ul(jar)
        if volume is None or jars.denominator != 1:
            return None
        many = jars.numerator
        return {"whole": many * volume, "measure": "volume", "per": jar, "times": many * 1000}

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
                Message.of("refusal-jar-holds-unknown", jar=jar),
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
        return self.measured(amount, name, facts, f"{field}.jars")


def ask_weight(amount: Amount, item: str, target: str) -> str:
    """Return that an amount stays as it was said, and how to say what one of a unit weighs."""
    unit = amount.jar or amount.unit
    if amount.measure == "mass" or (target == "count" and not is_counted(unit)):
        unit = {"count": "piece", "volume": "cup"}.get(target, unit)
    ul = jar_volume_ul(unit) if unit.endswith("jar") else None  # of a jar, as if it were water
    grams = {"piece": 120, "cup": 240, "bucket": 8000, "head": 500}.get(unit, 250)
    grams = grams if ul is None else round(ul / 1000)
    return sentence(
        "doubt-kept-as-said",
        amount=amount_said(amount.text),
        name=item,
        unit=unit_said(unit),
        command=Code(f'croftbook item "{item}" --g-per "{unit} {grams}"'),
    )
